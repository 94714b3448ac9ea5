#include "man_page.hpp"

#include <sstream>
#include <string_view>

#include "skeinfall/base/text.hpp"
#include "skeinfall/base/version.hpp"

#include "exit_code.hpp"
#include "help.hpp"

namespace skeinfall::cli {
namespace {

/// A line of text: what would be a request or an escape is shielded.
std::string text_line(std::string_view text) {
    std::string out;
    if (!text.empty() && (text.front() == '.' || text.front() == '\'')) out = "\\&";
    for (const char c : text) {
        if (c == '\\')
            out += "\\e";
        else if (c == '-')
            out += "\\-";
        else
            out += c;
    }
    return out;
}

/// One argument of a macro.
std::string argument(const std::string& text) {
    std::string out = "\"";
    for (const char c : text_line(text)) out += c == '"' ? std::string("\\(dq") : std::string(1, c);
    return out + "\"";
}

/// Lines of at most 78 bytes, a new one after each sentence, as mandoc's lint wants them.
std::string flowing(const std::string& text) {
    std::string out;
    std::string line;
    const auto end_line = [&] {
        if (!line.empty()) out += text_line(line) + "\n";
        line.clear();
    };
    for (const std::string& word : base::split(text, ' ')) {
        if (text_line(line).size() + text_line(word).size() >= 78) end_line();
        line += (line.empty() ? "" : " ") + word;
        if (word.ends_with('.') || word.ends_with('?')) end_line();
    }
    end_line();
    return out;
}

/// Paragraphs flow; indented lines stand as they are.
std::string paragraphs(const std::string& text) {
    std::string out;
    std::string paragraph;
    std::string block;
    const auto end_both = [&] {
        if (!paragraph.empty()) out += (out.empty() ? "" : ".Pp\n") + flowing(paragraph);
        if (!block.empty()) out += ".Bd -literal -offset indent\n" + block + ".Ed\n";
        paragraph.clear();
        block.clear();
    };
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        const bool indented = line.starts_with("  ");
        if (line.empty() || indented != !block.empty()) end_both();
        if (indented)
            block += text_line(line.substr(2)) + "\n";
        else if (!line.empty())
            paragraph += (paragraph.empty() ? "" : " ") + line;
    }
    end_both();
    return out;
}

std::string of_options(const std::vector<Option>& options) {
    std::string out = ".Bl -tag -width Ds\n";
    for (const Option& option : options) {
        out += ".It ";
        if (option.letter != '\0') out += std::string("Fl ") + option.letter + " , ";
        out += "Fl \\-" + text_line(option.name);
        if (!option.argument.empty()) out += " Ar " + argument(option.argument);
        out += "\n" + flowing(option_help(option));
    }
    return out + ".El\n";
}

std::string of_command(const Command& command) {
    std::string out = ".Ss " + command.name + "\n.Dl " + argument(synopsis(command)) + "\n.Pp\n" +
                      paragraphs(command.purpose);
    if (!command.options.empty()) out += of_options(command.options);
    out += ".Pp\n";
    for (const ExitMeaning& meaning : exit_meanings(command))
        out += flowing("Exit code " + std::to_string(meaning.code) + ": " + meaning.says + ".");
    for (const Example& example : command.examples)
        out += ".Pp\n" + flowing("Example, " + example.does + ":") + ".Dl " +
               argument(example.command) + "\n";
    return out;
}

std::string item(const std::string& tag, const std::string& text) {
    return ".It " + tag + "\n" + flowing(text);
}

}  // namespace

std::string man_page(const std::vector<Command>& table) {
    std::string out = ".Dd " SKEINFALL_RELEASED
                      "\n.Dt SKEINFALL 1\n.Os\n.Sh NAME\n.Nm skeinfall\n"
                      ".Nd plan the yarn for hand crochet and knitting\n"
                      ".Sh SYNOPSIS\n.Nm skeinfall\n.Ar command\n.Op Ar options\n.Op Ar arguments\n"
                      ".Nm skeinfall\n.Fl \\-help\n.Nm skeinfall\n.Fl \\-version\n"
                      ".Sh DESCRIPTION\n" +
                      flowing(
                          "Tells how much yarn a piece takes and how sure that is, whether the "
                          "stash covers it and with which skeins, after which row each skein ends "
                          "and the next is joined, and the materials section of a pattern.") +
                      ".Pp\n" +
                      flowing(
                          "An option's value follows it as the next word or after an equals sign; "
                          "-- ends the options. Options are never abbreviated. Most commands "
                          "take the options below. This page tells of version " +
                          std::string(base::version()) + ".") +
                      of_options(common_options()) + ".Sh COMMANDS\n";
    for (const Command& command : table) out += of_command(command);
    out += ".Sh ENVIRONMENT\n.Bl -tag -width Ds\n" +
           item("Ev SKEINFALL_STASH", "the stash file, unless --stash names one") +
           item("Ev XDG_DATA_HOME", "the folder of data, else ~/.local/share") +
           item("Ev XDG_CONFIG_HOME", "the folder of settings, else ~/.config") +
           item("Ev NO_COLOR", "when it is not empty, no colours") +
           ".El\n.Sh FILES\n.Bl -tag -width Ds\n" +
           item("Pa \\(ti/.local/share/skeinfall/stash.skeinfall", "the usual stash") +
           item("Pa \\(ti/.config/skeinfall/settings.toml", "the settings") +
           ".El\n.Sh EXIT STATUS\n.Bl -tag -width Ds\n";
    out += item(std::to_string(done), "done");
    out += item(std::to_string(not_so), "the answer is no, or undecided, or nothing was found");
    out += item(std::to_string(bad_input), "arguments or input that cannot be used");
    out += item(std::to_string(store_fault), "the stash file cannot be used");
    return out + ".El\n";
}

}  // namespace skeinfall::cli
