#include <cstdlib>
#include <iostream>
#include <optional>
#include <string>
#include <vector>

#include "run.hpp"

namespace {

std::optional<std::string> variable(const char* name) {
    const char* value = std::getenv(name);
    if (value == nullptr) return std::nullopt;
    return std::string(value);
}

}  // namespace

int main(int argc, char** argv) {
    const std::vector<std::string> arguments(argv + 1, argv + argc);
    return skeinfall::cli::run(arguments, {variable("HOME"), variable("XDG_DATA_HOME"),
                                           variable("SKEINFALL_STASH"), &std::cout, &std::cerr});
}
