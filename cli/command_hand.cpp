#include <algorithm>
#include <filesystem>
#include <ostream>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/hand_toml.hpp"
#include "skeinfall/need/teach.hpp"
#include "skeinfall/report/hand_text.hpp"
#include "skeinfall/stash/in_work.hpp"
#include "skeinfall/stash/movement.hpp"
#include "skeinfall/store/store.hpp"
#include "skeinfall/units/parse.hpp"

#include "commands.hpp"
#include "exit_code.hpp"
#include "options.hpp"
#include "output_file.hpp"

namespace skeinfall::cli {
namespace {

/// How well a kitchen scale and a label tell what went into a make.
constexpr units::Ratio used_spread = units::Ratio::from_value(0.04);

struct Used {
    std::string role;
    units::Length length{};
};

units::Length length_of(const project::Project& project, const std::string& role,
                        const stash::Amount& amount, const std::string& option) {
    if (const auto* length = std::get_if<units::Printed<units::Length>>(&amount))
        return length->value;
    const project::Role* const known = project.role(role);
    if (known == nullptr || !known->grist)
        refuse_option(option, "a weight of a yarn whose length per weight is not known",
                      "a length, or grist in [yarn." + role + "]", "");
    return std::get<units::Printed<units::Mass>>(amount).value * known->grist->value;
}

/// "MC: 180 g", "165 m".
Used used_in(const std::string& text, const project::Project& project) {
    std::string role = project.roles.front().id;
    std::string amount = text;
    if (const std::size_t colon = text.find(':'); colon != std::string::npos) {
        role = std::string(base::trimmed(std::string_view(text).substr(0, colon)));
        amount = std::string(base::trimmed(std::string_view(text).substr(colon + 1)));
    } else if (project.roles.size() > 1) {
        refuse_option("used", base::quoted(text) + " does not say which yarn it is",
                      "\"" + role + ": 180 g\"", "");
    }
    if (project.role(role) == nullptr)
        refuse_option("used", "the project has no yarn " + base::quoted(role),
                      "a yarn of the project", "");
    if (const auto length = units::parse_length(amount)) return {role, *length};
    const units::Mass mass = read_option("used", amount, units::parse_mass);
    return {role, length_of(project, role, units::Printed<units::Mass>{amount, mass}, "used")};
}

/// What the stash says went into it. One yarn alone: the stash does not say which it was for.
std::vector<Used> used_by_stash(const project::Project& project, const Values& values,
                                const World& world) {
    std::error_code none;
    if (project.roles.size() != 1 || !std::filesystem::exists(stash_path(values, world), none))
        return {};
    const auto store = store::Store::open(stash_path(values, world), store::Access::read);
    const project::Role& role = project.roles.front();
    const std::vector<stash::WorkReading> readings = store.readings();
    if (std::any_of(readings.begin(), readings.end(), [&](const stash::WorkReading& one) {
            return base::same_word(one.project, project.title);
        }))
        refuse_option("used", "it was weighed half way, and nothing says that it is finished",
                      "the weight of all that went in, such as --used \"" + role.id + ": 180 g\"",
                      "");
    const std::vector<stash::Movement> movements = store.movements();
    for (const stash::Movement& movement : movements)
        if (movement.kind == stash::MovementKind::used_in && !movement.amount &&
            base::same_word(movement.purpose, project.title))
            return {};  // all there was, and nobody weighed it
    const units::Mass mass = stash::used_in(movements, project.title, role.name, {});
    if (mass <= units::Mass{}) return {};
    Used sum{role.id, length_of(project, role.id, units::Printed<units::Mass>{"", mass}, "used")};
    if (sum.length <= units::Length{}) return {};
    return {sum};
}

void keep(const std::vector<project::TaughtByMake>& makes, const Values& values,
          const World& world) {
    Values own = values;
    own.add("replace", "");
    const std::filesystem::path path = exchange::hand_path(stash_path(values, world));
    std::error_code told_when_it_is_written;
    std::filesystem::create_directories(path.parent_path(), told_when_it_is_written);
    write_output("stash", path.string(), exchange::hand_text(makes), own, world);
}

int forget(const std::string& title, std::vector<project::TaughtByMake> makes, const Values& values,
           const World& world) {
    const std::size_t before = makes.size();
    std::vector<std::string> titles;
    for (const project::TaughtByMake& make : makes) titles.push_back(make.make);
    std::erase_if(makes, [&](const project::TaughtByMake& make) {
        return title == "all" || base::same_word(make.make, title);
    });
    if (makes.empty() && before == 0 && title == "all") {
        *world.out << "Nothing to forget: no make has taught anything.\n";
        return done;
    }
    if (makes.size() == before)
        refuse_option("forget", "nothing was learned from a make called " + base::quoted(title),
                      titles.empty() ? "nothing: no make did" : "all, " + base::join(titles, ", "),
                      "");
    keep(makes, values, world);
    *world.out << report::hand_text(makes);
    return done;
}

int learn(const project::Project& project, std::vector<project::TaughtByMake> makes,
          const Values& values, const World& world) {
    const std::size_t size = size_of(values, project);
    std::vector<Used> used;
    for (const std::string& text : values.all("used")) used.push_back(used_in(text, project));
    if (used.empty()) used = used_by_stash(project, values, world);
    if (used.empty())
        refuse_option("used", "nothing says what the make took",
                      "such as --used \"" + project.roles.front().id + ": 180 g\"",
                      "Weigh it, or record its yarn with \"skeinfall stash use\" and --in " +
                          base::quoted(project.title) + ".");
    std::erase_if(makes, [&](const project::TaughtByMake& make) {
        return base::same_word(make.make, project.title);
    });
    const project::Hand others = project::hand_from(makes);
    std::vector<need::Lesson> lessons;
    for (const Used& one : used)
        lessons.push_back(need::lesson_of(project, size, one.role, one.length, used_spread));
    for (const need::Lesson& lesson : lessons) {
        if (project::off_from(others, lesson.taught) > project::far_off && !values.given("anyway"))
            refuse_option(
                "used", report::lesson_text(lesson) + ": that is far off",
                "the weight of all that went in, and nothing else",
                "Check yarn, gauge and weight; if they are right, --anyway learns from it.");
        *world.out << report::lesson_text(lesson) << "\n";
        makes.push_back(lesson.taught);
    }
    keep(makes, values, world);
    *world.out << report::hand_text(makes);
    return done;
}

int run_hand(const Values& values, const World& world) {
    const std::string format = format_of(values, {"text", "json"});
    auto makes = exchange::read_hand(exchange::hand_path(stash_path(values, world)));
    const auto file = values.one(positional);
    if (const auto title = values.one("forget")) {
        if (file)
            refuse_option("forget", "a project to learn from is named too", "one of the two", "");
        return forget(*title, std::move(makes), values, world);
    }
    if (file) return learn(project_in(*file, values), std::move(makes), values, world);
    if (values.given("used"))
        refuse_option("used", "no project says what was made", "a project file", "");
    *world.out << (format == "json" ? report::hand_json(makes) : report::hand_text(makes));
    return done;
}

}  // namespace

Command hand_command() {
    Command command;
    command.name = "hand";
    command.no.clear();
    command.arguments = "[PROJECT.toml]";
    command.summary = "do you use more yarn than others, or less";
    command.purpose =
        "Do you use more yarn than other people, or less? Shows what your finished makes\n"
        "say about it. With a project it compares the yarn that make took (weighed, or\n"
        "recorded in the stash) with other people's. The result is kept beside the stash\n"
        "and used in every plan.";
    command.options = {
        {"used", "TEXT",
         "what the make took: \"MC: 180 g\", \"165 m\" (default: what the stash says)", true},
        {"anyway", "", "learn from it even if it is far from the others", false},
        {"forget", "TITLE", "forget what that make taught, or all", false},
        size_option(),
        stash_option(),
        format_option("text (default) or json")};
    command.examples = {{"skeinfall hand", "what is known so far"},
                        {"skeinfall hand --format json", "the same for another program"}};
    command.run = run_hand;
    return command;
}

}  // namespace skeinfall::cli
