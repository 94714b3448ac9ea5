#include <optional>
#include <ostream>

#include "skeinfall/base/text.hpp"
#include "skeinfall/cover/cover.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/report/json.hpp"
#include "skeinfall/report/need_tables.hpp"
#include "skeinfall/report/text.hpp"

#include "commands.hpp"
#include "drawing.hpp"
#include "exit_code.hpp"
#include "make_options.hpp"
#include "options.hpp"
#include "output_file.hpp"
#include "planning.hpp"

namespace skeinfall::cli {
namespace {

/// "tenths" or "rows"; nothing when it is not asked for.
std::optional<report::UsedAfter> used_of(const Values& values) {
    const auto text = values.one("used");
    if (!text) return std::nullopt;
    if (*text == "tenths") return report::UsedAfter::tenths;
    if (*text == "rows") return report::UsedAfter::rows;
    refuse_option("used", base::quoted(*text) + " is not known", "tenths or rows", "");
}

void refuse_beside(const Values& values, const char* option) {
    if (values.given(option))
        refuse_option(option, "it is for one size", "it without --all-sizes", "Leave one out.");
}

/// No skeins are looked at here that could be held against the wish.
void tell_kept_out(const project::Project& project, const World& world) {
    for (const project::Role& role : project.roles)
        if (!role.avoid.empty() && !role.fibre.known() && role.name.empty())
            *world.err << "note: yarn " << base::shown_inert(role.id) << " must be without "
                       << base::shown_inert(base::join(role.avoid, ", "))
                       << "; its fibre content is not known, so read the label\n";
}

}  // namespace

Command need_command() {
    Command command;
    command.name = "need";
    command.grams_serve = true;
    command.no.clear();
    command.arguments = "PROJECT.toml";
    command.summary = "how much yarn a project takes, and how sure that is";
    command.purpose =
        "How much yarn does it take? Works out each yarn from what is known: your\n"
        "swatch, a stated total, similar makes. It says how sure that is, and what\n"
        "would narrow it. Ends to weave in come on top, two for every skein; cover and\n"
        "joins allow for them.\n"
        "\n"
        "With --all-sizes one table: the sizes of every piece, what each yarn takes in\n"
        "each of them, and how much of it is the same in all. With --used a table of\n"
        "how much yarn is gone after each row.";
    command.options = {size_option(),
                       {"all-sizes", "", "every size of a graded project in one table", false},
                       {"used",
                        "WHEN",
                        "how much yarn is gone after each row, or by tenths of the yarn",
                        false,
                        {"tenths", "rows"}},
                       {"picture", "FILE",
                        "draw what the amount rests on, each with its range, and the answer: a "
                        "name ending in .svg, .pdf or .png",
                        false},
                       replace_option(),
                       format_option(table_formats)};
    take_makes_without_skeins(command);
    command.examples = {{"skeinfall need sample_stash/projects/lantern-cowl.toml",
                         "the yarn of a cowl, from its swatch"},
                        {"skeinfall need sample_stash/projects/lantern-cowl.toml --format json",
                         "the same for another program"},
                        {"skeinfall need sample_stash/projects/wharfside-pullover.toml --all-sizes",
                         "a graded pullover, all sizes"},
                        {"skeinfall need sample_stash/projects/tern-shawl.toml --used tenths",
                         "by which row half of it is gone"}};
    command.run = [](const Values& values, const World& world) -> int {
        const std::string format = table_format_of(values);
        const auto used = used_of(values);
        const project::Project project = project_of(values, world);
        const bool text = format == "text";
        tell_kept_out(project, world);
        if (values.given("all-sizes")) {
            refuse_beside(values, "size");
            refuse_beside(values, "used");
            refuse_beside(values, "picture");
            if (project.sizes.empty())
                refuse_option(
                    "all-sizes", "the project names no sizes", "a graded project",
                    "Add a line like sizes = [\"S\", \"M\", \"L\"], with a list of figures "
                    "for what differs.");
            const need::SizesNeed need = need::need_of_sizes(project);
            *world.out << (text ? report::sizes_text(project, need)
                                : data_in(format, report::sizes_json(project, need),
                                          report::Records::sizes));
        } else {
            const need::MakeNeed make = cover::need_for(project, size_of(values, project), {});
            tell_size_taken(values, project, world);
            if (const auto file = values.one("picture"))
                write_output(
                    "picture", *file,
                    drawing().evidence_picture(project, make, picture_format("picture", *file)),
                    values, world);
            if (used)
                *world.out << (text ? report::used_text(project, make, *used)
                                    : data_in(format, report::used_json(project, make, *used),
                                              report::Records::used));
            else
                *world.out << (text ? report::need_text(project, make)
                                    : data_in(format, report::need_json(project, make),
                                              report::Records::need));
        }
        return done;
    };
    return command;
}

}  // namespace skeinfall::cli
