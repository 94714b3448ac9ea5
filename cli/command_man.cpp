#include <ostream>

#include "commands.hpp"
#include "exit_code.hpp"
#include "man_page.hpp"

namespace skeinfall::cli {

Command man_command() {
    Command command;
    command.name = "man";
    command.summary = "the manual page, of every command";
    command.purpose =
        "Prints the page in the language of manual pages (mdoc). Where skeinfall is installed,\n"
        "\"man skeinfall\" shows it.";
    command.examples = {{"skeinfall man > skeinfall.1", "the page in a file"},
                        {"skeinfall man | man -l -", "read it without installing"}};
    command.no.clear();
    command.verbatim = true;
    command.run = [](const Values&, const World& world) -> int {
        *world.out << man_page(command_table());
        return done;
    };
    return command;
}

}  // namespace skeinfall::cli
