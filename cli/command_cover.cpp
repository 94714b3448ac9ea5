#include <ostream>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/cover/cover.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/report/json.hpp"
#include "skeinfall/report/text.hpp"
#include "skeinfall/units/parse.hpp"

#include "commands.hpp"
#include "exit_code.hpp"
#include "options.hpp"

namespace skeinfall::cli {
namespace {

/// A project made of the options alone: one role that takes --need.
project::Project bare_project(const Values& values) {
    project::Project project;
    project.title = "a need of " + *values.one("need");
    project::Role role;
    role.id = "MC";
    role.total_length = project::PerSize<units::Length>(
        read_option("need", *values.one("need"), units::parse_length));
    role.name = values.one("yarn").value_or("");
    role.colour = values.one("colour").value_or("");
    role.avoid = values.all("avoid");
    role.one_lot = !values.given("any-lot");
    if (const auto weight = values.one("class")) {
        role.weight = yarn::parse_weight_class(*weight);
        if (!role.weight)
            refuse_option("class", "\"" + *weight + "\" is not a weight class",
                          "0 to 7 or a Council name such as Medium", "");
    }
    project.roles = {role};
    return project;
}

void refuse_mixture(const Values& values) {
    const bool project = values.given(positional);
    if (project == values.given("need"))
        throw base::InputError(base::Problem{project ? "both a project and --need are given"
                                                     : "neither a project nor --need is given",
                                             {},
                                             "one of them",
                                             "Write \"skeinfall cover cowl.toml\" or \"skeinfall "
                                             "cover --need \"380 yd\" --class 4\"."});
    if (!project) return;
    for (const char* option : {"class", "yarn", "colour", "avoid", "any-lot"})
        if (values.given(option))
            refuse_option(option, "it goes with --need only", "no such option beside a project",
                          "The project file says this in its [yarn] table.");
}

}  // namespace

Command cover_command() {
    Command command;
    command.name = "cover";
    command.arguments = "[PROJECT.toml]";
    command.summary = "does the stash cover a project, with which skeins, how surely";
    command.purpose =
        "Chooses skeins of the stash for every yarn of a project, or for a bare --need, and says\n"
        "covered, too close to call, or short, with the chance and what would settle it. Dye\n"
        "lots are kept together, part skeins go first and count by weight, two tails are held\n"
        "back for every skein.";
    command.options = {
        {"need", "LENGTH", "a need without a project, such as \"380 yd\"", false},
        {"class", "NUMBER", "with --need: the weight class", false},
        {"yarn", "NAME", "with --need: only this yarn", false},
        {"colour", "NAME", "with --need: only this colourway", false},
        {"avoid", "FIBRE", "with --need: a fibre that must not be in it", true},
        {"any-lot", "", "with --need: lots may be mixed", false},
        {"margin", "PERCENT", "ask for that much more; else the project's margin", false},
        confidence_option(),
        size_option(),
        {"why", "", "list every skein that was not taken, with the reason", false},
        stash_option(),
        format_option("text (default) or json")};
    command.examples = {{"skeinfall cover sample_stash/projects/lantern-cowl.toml",
                         "verdict and chosen skeins for a cowl"},
                        {"skeinfall cover --need \"380 yd\" --class 4",
                         "is there that much medium yarn of one lot?"}};
    command.run = [](const Values& values, const World& world) -> int {
        const std::string format = format_of(values, {"text", "json"});
        refuse_mixture(values);
        const bool bare = values.given("need");
        const project::Project project = bare ? bare_project(values) : project_of(values);
        cover::Rules rules;
        rules.confidence = confidence_of(values);
        rules.margin = project.margin;
        rules.tail = project.tail;
        if (const auto margin = values.one("margin"))
            rules.margin = read_option("margin", *margin, units::parse_percent);

        need::MakeNeed make;
        if (bare) {
            make.roles = {need::stated_need(project.roles.front().total_length.at(0))};
            make.roles.front().role = project.roles.front().id;
        } else {
            make = need::need_of(project, size_of(values, project));
        }
        const std::vector<stash::Skein> stash = skeins_of_stash(values, world);
        const cover::MakeCover cover = cover::cover_make(project, make, stash, rules);
        *world.out << (format == "json"
                           ? report::cover_json(project, make, cover)
                           : report::cover_text(project, make, cover, rules, values.given("why")));
        return cover.verdict == cover::Verdict::covered ? done : not_so;
    };
    return command;
}

}  // namespace skeinfall::cli
