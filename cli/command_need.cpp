#include <ostream>

#include "skeinfall/need/need.hpp"
#include "skeinfall/report/json.hpp"
#include "skeinfall/report/text.hpp"

#include "commands.hpp"
#include "exit_code.hpp"
#include "options.hpp"

namespace skeinfall::cli {

Command need_command() {
    Command command;
    command.name = "need";
    command.no.clear();
    command.arguments = "PROJECT.toml";
    command.summary = "how much yarn a project takes, and how sure that is";
    command.purpose =
        "Works out the yarn of every role from its swatch, its stitch rate or its stated total,\n"
        "with a breakdown and a band. Ends to weave in come on top, two for every skein; cover\n"
        "and joins hold them back.";
    command.options = {size_option(), format_option(table_formats)};
    command.examples = {{"skeinfall need sample_stash/projects/lantern-cowl.toml",
                         "the yarn of a cowl, from its swatch"},
                        {"skeinfall need sample_stash/projects/lantern-cowl.toml --format json",
                         "the same for another program"}};
    command.run = [](const Values& values, const World& world) -> int {
        const std::string format = table_format_of(values);
        const project::Project project = project_of(values);
        const need::MakeNeed make = need::need_of(project, size_of(values, project));
        *world.out << (format == "text" ? report::need_text(project, make)
                                        : data_in(format, report::need_json(project, make),
                                                  report::Records::need));
        return done;
    };
    return command;
}

}  // namespace skeinfall::cli
