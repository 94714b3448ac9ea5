// Rules that every row of the command table keeps, and its examples, run as a person would: by
// `sh -c` in a folder that holds what they name.

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <sys/wait.h>

#include "help.hpp"
#include "run.hpp"
#include "support/whole_file.hpp"

namespace {

namespace fs = std::filesystem;
using skeinfall::cli::Command;
using skeinfall::cli::command_table;
using skeinfall::cli::Option;

std::string printable(const std::string& name) {
    std::string out = name;
    std::replace_if(
        out.begin(), out.end(), [](char c) { return std::isalnum(c) == 0; }, '_');
    return out;
}

class EveryCommand : public testing::TestWithParam<std::string> {
  protected:
    const Command& command() { return skeinfall::cli::find_command(GetParam()); }
};

TEST_P(EveryCommand, SaysWhatItIsFor) {
    const Command& row = command();
    EXPECT_FALSE(row.summary.empty());
    EXPECT_LE(row.summary.size(), 70u) << "a line of the list of commands";
    EXPECT_FALSE(row.summary.ends_with('.'));
    EXPECT_FALSE(row.purpose.empty());
    EXPECT_FALSE(row.yes.empty());
    EXPECT_GE(row.examples.size(), 2u);
    const std::string help = skeinfall::cli::command_help(row, 0);
    for (const char* part : {"Options:\n", "Examples:\n", "Exit codes:\n"})
        EXPECT_NE(help.find(part), std::string::npos) << part;
}

/// POSIX.1-2017, Base Definitions 12.2, and the GNU Coding Standards, 4.8: long names are words
/// parted by hyphens; an option that is there once has one name.
TEST_P(EveryCommand, OptionsAreNamedAsStandardsAsk) {
    std::set<std::string> seen;
    for (const Option& option : command().options) {
        EXPECT_TRUE(seen.insert(option.name).second) << option.name << " is there twice";
        EXPECT_TRUE(std::all_of(option.name.begin(), option.name.end(), [](char c) {
            return (c >= 'a' && c <= 'z') || c == '-';
        })) << option.name;
        EXPECT_FALSE(option.help.empty()) << option.name;
        EXPECT_FALSE(option.help.ends_with('.')) << option.name;
        for (const Option& common : skeinfall::cli::common_options())
            EXPECT_NE(option.name, common.name);
    }
}

/// `text` as one word of a shell.
std::string quoted(const std::string& text) {
    std::string out = "'";
    for (const char c : text) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
    return out + "'";
}

/// The exit code of a shell command in `folder`.
int shell(const fs::path& folder, const std::string& line) {
    const std::string script =
        "cd " + quoted(folder.string()) +
        " && PATH=" + quoted((fs::path(SKEINFALL_BINARY_DIR) / "cli").string()) +
        ":$PATH && export HOME=$PWD SKEINFALL_STASH=$PWD/stash.skeinfall && " +
        "unset XDG_CONFIG_HOME XDG_DATA_HOME && { " + line + "\n} > out 2> err < /dev/null";
    const int status = std::system(("sh -c " + quoted(script)).c_str());
    return WIFEXITED(status) ? WEXITSTATUS(status) : 128;
}

/// What the examples name: the sample, a table, two projects, a pattern, a stash with s1 and s2,
/// copies.
void prepare(const fs::path& folder) {
    const fs::path source = SKEINFALL_SOURCE_DIR;
    fs::remove_all(folder);
    fs::create_directories(folder);
    fs::copy(source / "sample_stash/stash.csv", folder / "mine.csv");
    fs::copy(source / "sample_stash/projects/lantern-cowl.toml", folder / "cowl.toml");
    fs::copy(source / "sample_stash/projects/quayside-hat.toml", folder / "hat.toml");
    std::ofstream(folder / "hat.txt")
        << "Cap\n\nCast on 40 sts.\nKnit 8 rows.\nBind off all sts.\n";
    const int code = shell(
        folder,
        "set -e; skeinfall try --keep sample_stash; skeinfall stash import sample_stash/stash.csv; "
        "for id in s1 s2; do skeinfall "
        "stash add --yarn Bank --label \"170 yd / 3.5 oz\" --id $id; done; skeinfall stash use s1 "
        "\"40 g\" --scale \"1 g\" --in \"Lantern cowl\"; for copy in stash-may mine old; do cp "
        "stash.skeinfall $copy.skeinfall; done");
    ASSERT_EQ(code, 0) << "the sample cannot be loaded";
}

TEST_P(EveryCommand, ItsExamplesRun) {
    const fs::path folder = fs::path(SKEINFALL_BINARY_DIR) / "examples" / printable(GetParam());
    const fs::path begin = folder.string() + "-begin";
    ASSERT_NO_FATAL_FAILURE(prepare(begin));
    // A copy is made to a new file.
    if (GetParam() == "stash backup") fs::remove(begin / "stash-may.skeinfall");
    if (GetParam() == "try") fs::remove_all(begin / "sample_stash");
    for (const auto& example : command().examples) {
        ASSERT_TRUE(example.command.starts_with("skeinfall ")) << example.command;
        fs::remove_all(folder);
        fs::copy(begin, folder, fs::copy_options::recursive);
        const int code = shell(folder, example.command);
        EXPECT_LE(code, command().no.empty() ? 0 : 1)
            << example.command << "\n"
            << skeinfall::support::bytes_of(folder / "out")
            << skeinfall::support::bytes_of(folder / "err");
    }
}

std::vector<std::string> names() {
    std::vector<std::string> out;
    for (const Command& command : command_table()) out.push_back(command.name);
    return out;
}

INSTANTIATE_TEST_SUITE_P(Commands, EveryCommand, testing::ValuesIn(names()),
                         [](const auto& row) { return printable(row.param); });

TEST(CommandTable, NoNameTwice) {
    const auto all = names();
    EXPECT_EQ(std::set<std::string>(all.begin(), all.end()).size(), all.size());
}

/// Groups stand together, so that help and completion list them in one piece.
TEST(CommandTable, GroupsStandTogether) {
    std::set<std::string> left;
    std::string current;
    for (const std::string& name : names()) {
        const std::string first = name.substr(0, name.find(' '));
        if (first == current) continue;
        left.insert(current);
        EXPECT_FALSE(left.contains(first)) << first;
        current = first;
    }
}

}  // namespace
