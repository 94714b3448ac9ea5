#include "help.hpp"

#include <algorithm>
#include <ostream>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/base/version.hpp"

#include "exit_code.hpp"
#include "run.hpp"

namespace skeinfall::cli {
namespace {

std::string padded(const std::string& text, std::size_t width) {
    return text + std::string(width > text.size() ? width - text.size() : 0, ' ');
}

std::string option_text(const Option& option) {
    return "--" + option.name + (option.argument.empty() ? "" : " " + option.argument);
}

}  // namespace

std::string general_help() {
    std::string out =
        "skeinfall plans yarn for crochet and knitting: how much a piece takes, whether the\n"
        "stash covers it and how surely, where each skein ends and the next is joined, and the\n"
        "materials section for a pattern.\n\n"
        "Try these first:\n"
        "  skeinfall stash import stash.csv      load the skeins you own\n"
        "  skeinfall cover cowl.toml             does the stash cover this project?\n"
        "  skeinfall joins cowl.toml             where does each skein end?\n\n"
        "Commands:\n";
    std::size_t width = 0;
    for (const Command& command : command_table()) width = std::max(width, command.name.size());
    for (const Command& command : command_table())
        out += "  " + padded(command.name, width) + "  " + command.summary + "\n";
    return out + "\n\"skeinfall help COMMAND\" says more about each.\n";
}

std::string command_help(const Command& command) {
    std::string out = "skeinfall " + command.name;
    if (!command.arguments.empty()) out += " " + command.arguments;
    if (!command.options.empty()) out += " [options]";
    out += "\n\n" + command.purpose + "\n";
    if (!command.options.empty()) {
        std::size_t width = 0;
        for (const Option& option : command.options)
            width = std::max(width, option_text(option).size());
        out += "\nOptions:\n";
        for (const Option& option : command.options)
            out += "  " + padded(option_text(option), width) + "  " + option.help +
                   (option.repeatable ? "; may be given again" : "") + "\n";
    }
    if (!command.examples.empty()) {
        out += "\nExamples:\n";
        for (const Example& example : command.examples)
            out += "  " + example.command + "\n      " + example.does + "\n";
    }
    return out +
           "\nExit codes: 0 done (cover: covered; joins: the yarn lasts), 1 no or undecided,\n"
           "2 arguments or input that cannot be used, 3 the stash file cannot be used.\n";
}

Command help_command() {
    Command command;
    command.name = "help";
    command.arguments = "[COMMAND]";
    command.summary = "what a command does and takes";
    command.purpose = "Without a command: what the program does and the list of commands.";
    command.examples = {{"skeinfall help cover", "options and examples of cover"},
                        {"skeinfall help \"stash add\"", "the same for a command of two words"}};
    command.run = [](const Values& values, const World& world) -> int {
        const std::string name = base::join(values.all(positional), " ");
        if (name.empty()) {
            *world.out << general_help();
            return done;
        }
        const Command& wanted = find_command(name);
        *world.out << command_help(wanted);
        return done;
    };
    return command;
}

Command version_command() {
    Command command;
    command.name = "version";
    command.summary = "the program's version";
    command.purpose = "Prints the program's name and version.";
    command.examples = {{"skeinfall version", "prints one line"}};
    command.run = [](const Values&, const World& world) -> int {
        *world.out << "skeinfall " << base::version() << "\n";
        return done;
    };
    return command;
}

}  // namespace skeinfall::cli
