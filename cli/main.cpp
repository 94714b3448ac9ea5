#include <chrono>
#include <cstdlib>
#include <ctime>
#include <iostream>
#include <optional>
#include <string>
#include <vector>

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

}  // namespace

int main(int argc, char** argv) {
    const std::vector<std::string> arguments(argv + 1, argv + argc);
    const bool may_ask = isatty(STDIN_FILENO) == 1 && isatty(STDERR_FILENO) == 1;
    return skeinfall::cli::run(
        arguments,
        {variable("HOME"), variable("XDG_DATA_HOME"), variable("SKEINFALL_STASH"), &std::cout,
         &std::cerr, today(), may_ask ? &std::cin : nullptr, isatty(STDERR_FILENO) == 1});
}
