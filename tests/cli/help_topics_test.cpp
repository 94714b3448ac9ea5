#include "help_topics.hpp"

#include <map>
#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/need/need.hpp"

namespace {

using namespace skeinfall;

/// What help shows to be copied is a project as it stands.
TEST(HelpTopics, StarterIsAProject) {
    const cli::Topic* const topic = cli::help_topic("project");
    ASSERT_NE(topic, nullptr);
    const auto project = exchange::parse_project(topic->text, "scarf.toml");
    EXPECT_EQ(project.title, "Scarf");
    EXPECT_GT(need::need_of(project, 0).roles.front().length.centre.value(), 100.0);
}

/// The file of "help keys", line by line, and the table that each line belongs to.
struct Keys {
    std::vector<std::string> lines;
    std::vector<std::string> table;                     ///< "[[piece]]"; empty at the top
    std::map<std::string, std::set<std::string>> keys;  ///< that the file shows in a table
};

/// A remark in the file holds a key, or a table, that can be taken.
const std::regex another_way("# (\\[{1,2}[a-zA-Z_.]+\\]{1,2}|[a-z_]+ *=).*");
const std::regex heading("(# )?(\\[{1,2}[a-zA-Z_.]+\\]{1,2}).*");
const std::regex assignment("(# )?([a-z_]+) *=.*");

Keys keys() {
    Keys out;
    std::istringstream in(cli::help_topic("keys")->text);
    std::string table;
    for (std::string line; std::getline(in, line);) {
        std::smatch found;
        if (std::regex_match(line, found, heading)) table = found[2];
        if (std::regex_match(line, found, assignment)) out.keys[table].insert(found[2]);
        out.lines.push_back(line);
        out.table.push_back(table);
    }
    return out;
}

std::vector<std::string> complaints(const std::vector<std::string>& lines) {
    std::vector<std::string> out;
    try {
        static_cast<void>(exchange::parse_project(base::join(lines, "\n") + "\n", "keys.toml"));
    } catch (const base::InputError& error) {
        for (const base::Problem& problem : error.problems())
            out.push_back(problem.what + "; expected " + problem.expected);
    }
    return out;
}

/// The reader itself says which keys a table may have: none is missing in the file.
TEST(HelpKeys, ShowsEveryKeyOfEveryTable) {
    const Keys shown = keys();
    const std::regex list("unknown key \"zzz\"; expected one of (.*)");
    for (const char* const table :
         {"", "[gauge]", "[maker_gauge]", "[yarn.MC]", "[[swatch]]", "[[earlier_make]]",
          "[[piece]]", "[stitch.shell]", "[[finish]]", "[[tester]]"}) {
        std::set<std::string> known;
        for (const std::string& complaint : complaints({table, "zzz = 1"})) {
            std::smatch found;
            if (!std::regex_match(complaint, found, list)) continue;
            std::istringstream in(found[1]);
            for (std::string key; std::getline(in >> std::ws, key, ',');) known.insert(key);
        }
        EXPECT_FALSE(known.empty()) << table;
        for (const std::string& key : known) {
            const bool a_table = shown.keys.contains("[" + key + "]") ||
                                 shown.keys.contains("[[" + key + "]]") || key == "yarn" ||
                                 key == "stitch";
            EXPECT_TRUE(shown.keys.at(table).contains(key) ||
                        (std::string(table).empty() && a_table))
                << table << " " << key;
        }
    }
}

/// Each other way that the file shows is one that is understood, whatever else it asks for.
TEST(HelpKeys, ShowsNothingThatIsNotUnderstood) {
    const Keys shown = keys();
    EXPECT_EQ(complaints(shown.lines), std::vector<std::string>());
    const std::regex not_understood(
        ".*(unknown|no foundation called|no bind-off called|this is a|cannot be read|unit is|no "
        "such"
        " key).*");
    for (std::size_t i = 0; i < shown.lines.size(); ++i) {
        if (!std::regex_match(shown.lines[i], another_way)) continue;
        auto lines = shown.lines;
        lines[i] = lines[i].substr(2);
        for (std::size_t at = i; at-- > 0 && shown.table[at] == shown.table[i];)
            if (std::regex_match(lines[at], heading) && lines[at].starts_with("# "))
                lines[at] = lines[at].substr(2);
        for (const std::string& complaint : complaints(lines))
            EXPECT_FALSE(std::regex_match(complaint, not_understood)) << shown.lines[i] << "\n"
                                                                      << complaint;
    }
}

TEST(HelpTopics, EachHasASummary) {
    for (const cli::Topic& topic : cli::help_topics()) {
        EXPECT_FALSE(topic.summary.empty()) << topic.name;
        EXPECT_NE(cli::topics_text().find(topic.summary), std::string::npos) << topic.name;
    }
    EXPECT_EQ(cli::help_topic("no such"), nullptr);
}

}  // namespace
