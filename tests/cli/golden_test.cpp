// Runs every case of tests/cli/cases/<command>/*.case through the program's run(), in order and
// against one fresh stash a case, and compares data, messages and exit codes to the letter.
//
// A case is text: "# ..." a comment; "$ ARGUMENTS" a command line (quotes as in a shell); then
// its data lines behind "> ", its messages behind "! ", and "= CODE". "write NAME: TEXT" makes a
// file in the case's own folder, where \n, \r and \xHH stand for those bytes; "CASE" in a line
// stands for that folder, "SOURCE" for the project's.
// With SKEINFALL_REWRITE=1 in the environment the cases are written anew instead; read the
// difference before keeping it.

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "command.hpp"
#include "run.hpp"
#include "support/whole_file.hpp"

namespace {

namespace fs = std::filesystem;

std::string replaced(std::string text, const std::string& from, const std::string& to) {
    for (std::size_t at = text.find(from); at != std::string::npos;
         at = text.find(from, at + to.size()))
        text.replace(at, from.size(), to);
    return text;
}

std::vector<std::string> words(const std::string& line) {
    std::vector<std::string> out;
    std::string word;
    bool inside = false;
    bool any = false;
    for (const char c : line) {
        if (c == '"') {
            inside = !inside;
            any = true;
        } else if (c == ' ' && !inside) {
            if (any || !word.empty()) out.push_back(word);
            word.clear();
            any = false;
        } else {
            word += c;
        }
    }
    if (any || !word.empty()) out.push_back(word);
    return out;
}

std::string unescaped(const std::string& text) {
    std::string out;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] != '\\' || i + 1 == text.size()) {
            out += text[i];
        } else if (text[++i] == 'n') {
            out += '\n';
        } else if (text[i] == 'r') {
            out += '\r';
        } else if (text[i] == 'x' && i + 2 < text.size()) {
            out += static_cast<char>(std::stoi(text.substr(i + 1, 2), nullptr, 16));
            i += 2;
        } else {
            out += text[i];
        }
    }
    return out;
}

std::string prefixed(const std::string& text, const std::string& prefix) {
    std::istringstream lines(text);
    std::string out;
    for (std::string line; std::getline(lines, line);)
        out += line.empty() ? prefix + "\n" : prefix + " " + line + "\n";
    return out;
}

/// Whether a message says which command is the next to type.
bool names_a_command(const std::string& message) {
    const auto& table = skeinfall::cli::command_table();
    return std::any_of(table.begin(), table.end(), [&](const auto& command) {
        return message.find("skeinfall " + command.name) != std::string::npos;
    });
}

class GoldenCase : public testing::TestWithParam<std::string> {};

TEST_P(GoldenCase, PrintsWhatItShould) {
    const fs::path source = SKEINFALL_SOURCE_DIR;
    const fs::path file = source / "tests/cli/cases" / GetParam();
    const std::string wanted = skeinfall::support::bytes_of(file);
    ASSERT_FALSE(wanted.empty()) << file << " is empty";
    // Two cases run at the same time must not share a folder.
    const fs::path folder =
        fs::path(SKEINFALL_BINARY_DIR) / "cases" / fs::path(GetParam()).replace_extension();
    fs::remove_all(folder);
    fs::create_directories(folder);
    const fs::path before = fs::current_path();
    fs::current_path(source);

    std::string got;
    std::istringstream lines(wanted);
    for (std::string line; std::getline(lines, line);) {
        const auto placed = [&](const std::string& text) {
            return replaced(replaced(text, "CASE", folder.string()), "SOURCE", source.string());
        };
        const auto shown = [&](const std::string& text) {
            return replaced(replaced(text, folder.string(), "CASE"), source.string(), "SOURCE");
        };
        if (line.starts_with("write ")) {
            got += line + "\n";
            const std::size_t colon = line.find(": ");
            ASSERT_NE(colon, std::string::npos) << line;
            const fs::path target = folder / line.substr(6, colon - 6);
            fs::create_directories(target.parent_path());
            std::ofstream(target, std::ios::binary) << unescaped(line.substr(colon + 2));
        } else if (line.starts_with("$")) {
            got += line + "\n";
            std::ostringstream out;
            std::ostringstream err;
            const skeinfall::cli::World world{folder.string(),
                                              std::nullopt,
                                              (folder / "stash.skeinfall").string(),
                                              &out,
                                              &err,
                                              std::chrono::year{2024} / 5 / 31};
            const int code = skeinfall::cli::run(words(placed(line.substr(1))), world);
            if (code >= 2) {
                // What went wrong cannot have changed anything, so it goes wrong again.
                std::ostringstream to_a_person;
                skeinfall::cli::World terminal = world;
                std::ostringstream data;
                terminal.out = &data;
                terminal.err = &to_a_person;
                terminal.shows_progress = true;
                EXPECT_EQ(skeinfall::cli::run(words(placed(line.substr(1))), terminal), code);
                EXPECT_TRUE(names_a_command(to_a_person.str())) << line << "\n"
                                                                << to_a_person.str();
            }
            got += prefixed(shown(out.str()), ">") + prefixed(shown(err.str()), "!") + "= " +
                   std::to_string(code) + "\n";
        } else if (line.empty() || line.starts_with("#")) {
            got += line + "\n";
        }
    }
    fs::current_path(before);
    if (std::getenv("SKEINFALL_REWRITE") != nullptr) {
        std::ofstream(file, std::ios::binary) << got;
        GTEST_FAIL() << "rewrote " << file << "; run again without SKEINFALL_REWRITE";
    }
    EXPECT_EQ(got, wanted);
}

/// Every "$ skeinfall ..." of README's console blocks, run in turn against one stash, must print
/// the lines that follow it there.
TEST(Readme, TourPrintsWhatItShows) {
    const fs::path source = SKEINFALL_SOURCE_DIR;
    const fs::path folder = fs::path(SKEINFALL_BINARY_DIR) / "cases/readme";
    fs::remove_all(folder);
    fs::create_directories(folder);
    const fs::path before = fs::current_path();
    fs::current_path(source);
    const std::string wanted = skeinfall::support::bytes_of(source / "README.md");
    std::istringstream lines(wanted);
    std::string got;
    bool console = false;
    int commands = 0;
    for (std::string line; std::getline(lines, line);) {
        if (line == "```console")
            console = true;
        else if (line == "```")
            console = false;
        if (!console || line == "```console") {
            got += line + "\n";
        } else if (line.starts_with("$ skeinfall ")) {
            std::ostringstream out;
            std::ostringstream err;
            const skeinfall::cli::World world{folder.string(),
                                              std::nullopt,
                                              (folder / "stash.skeinfall").string(),
                                              &out,
                                              &err,
                                              std::chrono::year{2024} / 5 / 31};
            const int code = skeinfall::cli::run(words(line.substr(12)), world);
            EXPECT_LE(code, 1) << line << "\n" << err.str();
            got += line + "\n" + replaced(out.str(), folder.string(), "~/.local/share/skeinfall");
            ++commands;
        }
    }
    fs::current_path(before);
    EXPECT_GE(commands, 5);
    if (std::getenv("SKEINFALL_REWRITE") != nullptr) {
        std::ofstream(source / "README.md", std::ios::binary) << got;
        GTEST_FAIL() << "rewrote README.md; run again without SKEINFALL_REWRITE";
    }
    EXPECT_EQ(got, wanted);
}

std::vector<std::string> all_cases() {
    const fs::path root = fs::path(SKEINFALL_SOURCE_DIR) / "tests/cli/cases";
    std::vector<std::string> names;
    for (const auto& entry : fs::recursive_directory_iterator(root))
        if (entry.path().extension() == ".case")
            names.push_back(fs::relative(entry.path(), root).generic_string());
    std::sort(names.begin(), names.end());
    return names;
}

std::string test_name(const testing::TestParamInfo<std::string>& info) {
    std::string name = info.param;
    std::replace_if(
        name.begin(), name.end(), [](char c) { return std::isalnum(c) == 0; }, '_');
    return name;
}

INSTANTIATE_TEST_SUITE_P(Cases, GoldenCase, testing::ValuesIn(all_cases()), test_name);

}  // namespace
