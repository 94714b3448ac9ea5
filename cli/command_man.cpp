#include <ostream>

#include "commands.hpp"
#include "exit_code.hpp"
#include "help.hpp"
#include "man_page.hpp"

namespace skeinfall::cli {

Command man_command() {
    Command command;
    command.name = "man";
    command.summary = "the manual page, of every command";
    command.purpose =
        "On a terminal the page to read. Into a file it is in the language of manual pages\n"
        "(mdoc). Where skeinfall is installed, \"man skeinfall\" shows it.";
    command.examples = {{"skeinfall man > skeinfall.1", "the page in a file"},
                        {"skeinfall man", "the page to read"}};
    command.no.clear();
    command.verbatim = true;
    command.run = [](const Values&, const World& world) -> int {
        if (world.columns == 0) {
            *world.out << man_page(command_table());
            return done;
        }
        *world.out << general_help(world.columns);
        for (const Command& each : command_table())
            *world.out << "\n" << command_help(each, world.columns);
        return done;
    };
    return command;
}

}  // namespace skeinfall::cli
