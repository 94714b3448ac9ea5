#include <ostream>

#include "skeinfall/materials/section.hpp"
#include "skeinfall/report/json.hpp"
#include "skeinfall/report/materials.hpp"

#include "commands.hpp"
#include "exit_code.hpp"
#include "options.hpp"

namespace skeinfall::cli {

Command materials_command() {
    Command command;
    command.name = "materials";
    command.no.clear();
    command.arguments = "PROJECT.toml";
    command.summary = "the materials section of a pattern, for every size";
    command.purpose =
        "Writes what a maker must have: yarn by weight class with totals in yards and metres and\n"
        "whole skeins, tools, gauge, notions, finished sizes in both systems, cautions.";
    command.options = {format_option("text (default), markdown or json")};
    command.examples = {
        {"skeinfall materials sample_stash/projects/lantern-cowl.toml", "the section as text"},
        {"skeinfall materials sample_stash/projects/lantern-cowl.toml --format markdown",
         "the same to paste into a pattern"}};
    command.run = [](const Values& values, const World& world) -> int {
        const std::string format = format_of(values, {"text", "markdown", "json"});
        const materials::Section section = materials::section_of(project_of(values));
        *world.out << (format == "json"
                           ? report::materials_json(section)
                           : report::materials_text(section, format == "markdown"
                                                                 ? report::Markup::markdown
                                                                 : report::Markup::plain));
        return done;
    };
    return command;
}

}  // namespace skeinfall::cli
