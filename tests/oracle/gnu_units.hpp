#pragma once
/// \file
/// Asks GNU units (Debian package "units", version 2.22).

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <optional>
#include <string>
#include <vector>

#include <unistd.h>

namespace skeinfall::oracle {

/// How far its answer may lie from ours, as a share.
inline constexpr double units_tolerance = 1e-9;

/// The program's standard output, or nothing when it could not be run or did not end well.
inline std::optional<std::string> output_of(const std::string& command) {
    FILE* pipe = popen(command.c_str(), "r");
    if (pipe == nullptr) return std::nullopt;
    std::string out;
    std::array<char, 4096> block{};
    for (std::size_t n = 0; (n = std::fread(block.data(), 1, block.size(), pipe)) > 0;)
        out.append(block.data(), n);
    if (pclose(pipe) != 0) return std::nullopt;
    return out;
}

/// All answers in one run of GNU units, with all the digits it has and none of a user's own units.
/// A question holds what is there, `have`, and what is asked for, `want`, in the words of GNU
/// units.
template <class Question>
std::optional<std::string> units_answers(const std::vector<Question>& asked) {
    // Tests run side by side.
    const auto file = std::filesystem::path(SKEINFALL_BINARY_DIR) /
                      ("units_questions_" + std::to_string(getpid()) + ".txt");
    std::ofstream out(file);
    for (const Question& question : asked) out << question.have << "\n" << question.want << "\n";
    out.close();
    auto text =
        output_of("LC_ALL=C units --file '' --terse --digits max < '" + file.string() + "'");
    std::filesystem::remove(file);
    return text;
}

}  // namespace skeinfall::oracle
