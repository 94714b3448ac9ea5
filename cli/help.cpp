#include "help.hpp"

#include <algorithm>
#include <ostream>
#include <sstream>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/base/version.hpp"
#include "skeinfall/base/width.hpp"

#include "exit_code.hpp"
#include "help_topics.hpp"
#include "run.hpp"

namespace skeinfall::cli {
namespace {

/// Columns of a page of help: those of the terminal, where there is one.
std::size_t page(std::size_t columns) {
    constexpr std::size_t usual = 80;
    constexpr std::size_t narrowest = 30;
    constexpr std::size_t widest = 100;
    return columns == 0 ? usual : std::clamp(columns, narrowest, widest);
}

/// Paragraphs set to the page; lines that begin with two blanks are kept apart.
std::string set_to(const std::string& text, std::size_t columns) {
    std::string out;
    std::string paragraph;
    const auto end = [&] {
        if (!paragraph.empty()) out += base::folded(paragraph, columns, 0) + "\n";
        paragraph.clear();
    };
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        if (!line.empty() && !line.starts_with("  ")) {
            paragraph += (paragraph.empty() ? "" : " ") + line;
            continue;
        }
        end();
        out += base::folded(line, columns, 4) + "\n";
    }
    end();
    return out;
}

std::string option_text(const Option& option) {
    return (option.letter != '\0' ? std::string("-") + option.letter + ", " : "") + "--" +
           option.name + (option.argument.empty() ? "" : " " + option.argument);
}

/// A line for each command whose name begins so.
std::string commands_beginning(const std::string& with, std::size_t columns) {
    std::size_t width = 0;
    std::string out;
    for (const Command& command : command_table())
        if (command.name.starts_with(with)) width = std::max(width, command.name.size());
    for (const Command& command : command_table())
        if (command.name.starts_with(with))
            out += base::folded("  " + base::padded(command.name, width) + "  " + command.summary,
                                page(columns), width + 4) +
                   "\n";
    return out;
}

}  // namespace

const std::vector<Option>& common_options() {
    static const std::vector<Option> options{
        {"set", "KEY=VALUE", "a setting for this run, as tail=20cm", true},
        {"quiet", "", "only the answer: no notes, no line of progress", false, {}, 'q'},
        {"help", "", "what the command does, and its options", false, {}, 'h'}};
    return options;
}

bool reads_settings(const Command& command) {
    return !command.verbatim || command.name == "settings show";
}

std::vector<Option> options_of(const Command& command) {
    std::vector<Option> options = command.options;
    if (command.keeps)
        options.push_back({"again", "",
                           "record it again, if you cannot tell whether it worked the first time",
                           false});
    for (const Option& option : common_options())
        if (option.name != "set" || reads_settings(command)) options.push_back(option);
    return options;
}

std::string option_help(const Option& option) {
    return option.help + (option.repeatable ? "; can be repeated" : "");
}

std::vector<ExitMeaning> exit_meanings(const Command& command) {
    std::vector<ExitMeaning> out{{done, command.yes}};
    if (!command.no.empty()) out.push_back({not_so, command.no});
    out.push_back({bad_input, "something you typed, or a file, could not be used"});
    if (std::any_of(command.options.begin(), command.options.end(),
                    [](const Option& option) { return option.name == "stash"; }))
        out.push_back({store_fault, "the stash file cannot be used"});
    return out;
}

std::string synopsis(const Command& command) {
    return "skeinfall " + command.name + (command.options.empty() ? "" : " [OPTION]...") +
           (command.arguments.empty() ? "" : " " + command.arguments);
}

std::string general_help(std::size_t columns) {
    std::string out = set_to(
        "skeinfall plans yarn for crochet and knitting. How much does a piece take? Does the\n"
        "stash cover it, and how surely? Where does each skein end and the next begin? It also\n"
        "writes the materials section of a pattern.\n\n"
        "Try these first:\n"
        "  skeinfall try                         a short demonstration; nothing is saved\n"
        "  skeinfall new                         asks what you make; is your yarn enough?\n"
        "  skeinfall stash import stash.csv      load the skeins you own\n"
        "  skeinfall cover cowl.toml             does the stash cover this project?\n\n"
        "Commands:\n",
        page(columns));
    out += commands_beginning("", columns);
    return out + "\n" +
           set_to(
               "\"skeinfall help COMMAND\" says more about each. \"skeinfall help topics\" "
               "explains lots, gauge, margins and joins. The examples use the files that "
               "\"skeinfall try --keep sample_stash\" writes.",
               page(columns));
}

bool is_group(const std::string& word) {
    return std::any_of(command_table().begin(), command_table().end(), [&](const Command& command) {
        return command.name.starts_with(word + " ");
    });
}

std::string group_help(const std::string& group, std::size_t columns) {
    return "skeinfall " + group + " COMMAND\n\nCommands:\n" +
           commands_beginning(group + " ", columns) +
           set_to("\n\"skeinfall help " + group + " COMMAND\" says more about each.",
                  page(columns));
}

namespace {

/// Options under a heading, with what begins their help taken off.
std::string options_under(const std::string& heading, const std::vector<Option>& options,
                          std::size_t width, std::size_t columns) {
    std::string out = options.empty() ? "" : "\n" + heading + ":\n";
    for (const Option& option : options) {
        std::string help = option_help(option);
        if (help.starts_with(in_place_of_a_file)) help.erase(0, in_place_of_a_file.size());
        out += base::folded("  " + base::padded(option_text(option), width) + "  " + help, columns,
                            width + 4) +
               "\n";
    }
    return out;
}

}  // namespace

std::string command_help(const Command& command, std::size_t columns) {
    std::string out = synopsis(command) + "\n\n" + set_to(command.purpose, page(columns));
    if (!command.examples.empty()) out += "\nExamples:\n";
    for (const Example& example : command.examples)
        out += "  " + example.command + "\n      " + example.does + "\n";
    std::size_t width = 0;
    std::vector<Option> own;
    std::vector<Option> instead;
    for (const Option& option : options_of(command)) {
        width = std::max(width, option_text(option).size());
        (option.help.starts_with(in_place_of_a_file) ? instead : own).push_back(option);
    }
    out += options_under("Options", own, width, page(columns)) +
           options_under("In place of a project file", instead, width, page(columns));
    out += "\nExit codes:\n";
    for (const ExitMeaning& meaning : exit_meanings(command))
        out += "  " + std::to_string(meaning.code) + "  " + meaning.says + "\n";
    return out;
}

Command help_command() {
    Command command;
    command.name = "help";
    command.arguments = "[COMMAND]";
    command.summary = "what a command does, and its options";
    command.purpose =
        "Without a command: what the program does and the list of commands. \"help project\" "
        "shows\n"
        "a project file to begin from, \"help topics\" what else is explained.";
    command.examples = {{"skeinfall help cover", "options and examples of cover"},
                        {"skeinfall help project", "a project file with remarks"},
                        {"skeinfall help stash add", "the same for a command of two words"}};
    command.no.clear();
    command.most_arguments = 2;
    command.verbatim = true;
    command.run = [](const Values& values, const World& world) -> int {
        const std::string name = base::join(values.all(positional), " ");
        if (const Topic* const topic = help_topic(name))
            *world.out << topic->text;
        else if (name == "topics")
            *world.out << topics_text();
        else if (is_group(name))
            *world.out << group_help(name, world.columns);
        else
            *world.out << (name.empty() ? general_help(world.columns)
                                        : command_help(find_command(name), world.columns));
        return done;
    };
    return command;
}

Command version_command() {
    Command command;
    command.name = "version";
    command.summary = "the program's version";
    command.purpose = "Prints the program's name and version.";
    command.examples = {{"skeinfall version", "prints one line"},
                        {"skeinfall --version", "the same, as most programs have it"}};
    command.no.clear();
    command.verbatim = true;
    command.run = [](const Values&, const World& world) -> int {
        *world.out << "skeinfall " << base::version() << "\n";
        return done;
    };
    return command;
}

}  // namespace skeinfall::cli
