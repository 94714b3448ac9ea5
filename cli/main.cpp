#include <iostream>
#include <string>
#include <vector>

#include "run.hpp"

int main(int argc, char** argv) {
    const std::vector<std::string> arguments(argv + 1, argv + argc);
    return skeinfall::cli::run(arguments, std::cout, std::cerr);
}
