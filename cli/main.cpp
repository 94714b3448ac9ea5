#include <chrono>
#include <cstdlib>
#include <ctime>
#include <iostream>
#include <optional>
#include <string>
#include <vector>

#include <sys/ioctl.h>
#include <unistd.h>

#include "run.hpp"

namespace {

std::optional<std::string> variable(const char* name) {
    const char* value = std::getenv(name);
    if (value == nullptr) return std::nullopt;
    return std::string(value);
}

/// By the calendar of the place the program runs at.
skeinfall::base::Day today() {
    const std::time_t now = std::time(nullptr);
    std::tm local{};
    localtime_r(&now, &local);
    return std::chrono::year(local.tm_year + 1900) /
           std::chrono::month(static_cast<unsigned>(local.tm_mon + 1)) /
           std::chrono::day(static_cast<unsigned>(local.tm_mday));
}

/// Columns of the terminal that data goes to; 0 when it goes elsewhere.
std::size_t columns() {
    constexpr std::size_t usual = 80;
    winsize size{};
    if (isatty(STDOUT_FILENO) != 1) return 0;
    return ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0 ? size.ws_col : usual;
}

/// Unless NO_COLOR is there and not empty, as no-color.org has it, or the terminal has none.
bool colour() {
    const std::string terminal = variable("TERM").value_or("");
    return variable("NO_COLOR").value_or("").empty() && !terminal.empty() && terminal != "dumb";
}

}  // namespace

int main(int argc, char** argv) {
    const std::vector<std::string> arguments(argv + 1, argv + argc);
    skeinfall::cli::World world;
    world.home = variable("HOME");
    world.xdg_data_home = variable("XDG_DATA_HOME");
    world.xdg_config_home = variable("XDG_CONFIG_HOME");
    world.stash = variable("SKEINFALL_STASH");
    world.out = &std::cout;
    world.err = &std::cerr;
    world.today = today();
    if (isatty(STDIN_FILENO) == 1 && isatty(STDERR_FILENO) == 1) world.in = &std::cin;
    world.edits_lines = world.in != nullptr && variable("TERM").value_or("dumb") != "dumb";
    world.shows_progress = isatty(STDERR_FILENO) == 1;
    world.columns = columns();
    world.colour = world.columns != 0 && colour();
    return skeinfall::cli::run(arguments, world);
}
