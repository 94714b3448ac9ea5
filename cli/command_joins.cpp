#include <algorithm>
#include <map>
#include <ostream>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/cover/cover.hpp"
#include "skeinfall/joins/plan.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/report/json.hpp"
#include "skeinfall/report/text.hpp"
#include "skeinfall/units/parse.hpp"

#include "commands.hpp"
#include "exit_code.hpp"
#include "options.hpp"

namespace skeinfall::cli {
namespace {

using BallsOfRoles = std::map<std::string, std::vector<joins::Ball>>;

constexpr long balls_at_most = 10000;

/// "170 yd", "2 x 170 yd", "CC1: 170 yd".
void add_named_balls(const std::string& text, const project::Project& project,
                     BallsOfRoles& balls) {
    std::string role = project.roles.front().id;
    std::string_view rest = text;
    if (const std::size_t colon = text.find(':'); colon != std::string::npos) {
        role = std::string(base::trimmed(rest.substr(0, colon)));
        rest.remove_prefix(colon + 1);
        if (project.role(role) == nullptr)
            refuse_option("skein", "the project has no yarn \"" + base::shown_inert(role) + "\"",
                          "a yarn of the project before the colon", "");
    } else if (project.roles.size() > 1) {
        refuse_option("skein", "\"" + base::shown_inert(text) + "\" does not say which yarn it is",
                      "\"" + role + ": 170 yd\"", "");
    }
    long count = 1;
    if (const std::size_t times = rest.find(" x "); times != std::string_view::npos) {
        count = read_option("skein", std::string(rest.substr(0, times)), units::parse_whole);
        rest.remove_prefix(times + 3);
        if (count > balls_at_most) refuse_option("skein", "too many skeins", "at most 10000", "");
    }
    const std::string length_text(base::trimmed(rest));
    const units::Length length = read_option("skein", length_text, units::parse_length);
    const units::Length spread =
        length * (yarn::label_mass_spread(100.0 * units::gram) / (100.0 * units::gram));
    for (long i = 0; i < count; ++i)
        balls[role].push_back({std::to_string(balls[role].size() + 1), {length, spread}});
}

BallsOfRoles balls_of_stash(const Values& values, const World& world,
                            const project::Project& project, const need::MakeNeed& make,
                            const joins::Rules& rules) {
    cover::Rules cover_rules;
    cover_rules.confidence = rules.confidence;
    cover_rules.margin = project.margin;
    cover_rules.tail = rules.tail;
    const std::vector<stash::Skein> stash = skeins_of_stash(values, world);
    BallsOfRoles balls;
    for (const cover::RoleCover& role :
         cover::cover_make(project, make, stash, cover_rules).roles) {
        for (const stash::Skein& skein : role.chosen)
            balls[role.role.id].push_back({skein.id, stash::total({skein}, role.label_cancels)});
        if (role.verdict != cover::Verdict::covered)
            *world.err << "note: yarn " << role.role.id << " is " << cover::name_of(role.verdict)
                       << "; \"skeinfall cover\" says what would settle it\n";
    }
    return balls;
}

}  // namespace

Command joins_command() {
    Command command;
    command.name = "joins";
    command.arguments = "PROJECT.toml";
    command.summary = "where each skein ends and the next is joined";
    command.purpose =
        "Lays the rows of a project over the skeins that cover chose, or over --skein, in the\n"
        "order that needs the fewest pieces and wastes least. Joins fall at row ends unless\n"
        "--anywhere is given. Two tails are held back for every skein.";
    command.options = {
        {"skein", "TEXT", "plan with this skein instead: \"170 yd\", \"2 x 170 yd\", \"CC1: 90 m\"",
         true},
        {"anywhere", "", "joins may fall inside a row", false},
        confidence_option(),
        size_option(),
        stash_option(),
        format_option("text (default) or json")};
    command.examples = {
        {"skeinfall joins sample_stash/projects/lantern-cowl.toml",
         "the joins with skeins of the stash"},
        {"skeinfall joins sample_stash/projects/lantern-cowl.toml --skein \"2 x 200 yd\"",
         "the joins with two skeins that need not be in the stash"}};
    command.run = [](const Values& values, const World& world) -> int {
        const std::string format = format_of(values, {"text", "json"});
        const project::Project project = project_of(values);
        const need::MakeNeed make = need::need_of(project, size_of(values, project));
        joins::Rules rules;
        rules.where = values.given("anywhere") ? joins::Where::anywhere : joins::Where::row_ends;
        rules.tail = project.tail;
        rules.confidence = confidence_of(values);

        BallsOfRoles balls;
        if (values.given("skein")) {
            for (const std::string& text : values.all("skein"))
                add_named_balls(text, project, balls);
        } else {
            balls = balls_of_stash(values, world, project, make, rules);
        }
        std::vector<joins::JoinPlan> plans;
        bool finishes = true;
        for (const need::RoleNeed& role : make.roles) {
            plans.push_back(joins::plan_joins(role, make.steps, balls[role.role], rules));
            finishes = finishes && plans.back().finishes;
        }
        *world.out << (format == "json" ? report::joins_json(project, plans)
                                        : report::joins_text(project, plans, rules));
        return finishes ? done : not_so;
    };
    return command;
}

}  // namespace skeinfall::cli
