
#include <fmt/format.h>

#include "skeinfall/base/text.hpp"

#include "completion.hpp"
#include "help.hpp"

namespace skeinfall::cli {
namespace {

using Kind = Fits::Kind;

std::string quoted_for_fish(const std::string& text) {
    std::string out = "'";
    for (const char c : text) {
        if (c == '\'' || c == '\\') out += '\\';
        out += c;
    }
    return out + "'";
}

/// Options of fish's "complete" that offer what fits.
std::string offer(const Fits& fits) {
    switch (fits.kind) {
        case Kind::word: {
            std::vector<std::string> words;
            for (const std::string& word : fits.words) words.push_back(quoted_for_fish(word));
            return " -a " + quoted_for_fish(base::join(words, " "));
        }
        case Kind::file:
            return " -a '(__skeinfall_files" + (fits.suffix.empty() ? "" : " \\" + fits.suffix) +
                   ")'";
        case Kind::folder:
            return " -a '(__fish_complete_directories)'";
        case Kind::skein:
            return " -a '(skeinfall stash list --ids 2>/dev/null)'";
        case Kind::command:
            return " -a '(__skeinfall_first)'";
        case Kind::anything:
            break;
    }
    return "";
}

std::string first_words(const std::vector<Command>& table) {
    std::string out;
    for (const Command& command : table)
        if (command.name.find(' ') == std::string::npos)
            out += "        " + command.name + " " + quoted_for_fish(command.summary) + " \\\n";
    for (const std::string& group : groups_of(table))
        out += "        " + group + " 'its commands' \\\n";
    out.resize(out.size() - 3);
    return out;
}

std::string rows_of(const Command& command) {
    std::string out;
    std::string valued;
    for (const Option& option : command.options)
        if (!option.argument.empty()) valued += " --" + option.name;
    const std::string on = "complete -c skeinfall -n '__skeinfall_on " + command.name + "'";
    for (const Option& option : options_of(command))
        out += on + (option.letter == '\0' ? "" : std::string(" -s ") + option.letter) + " -l " +
               option.name + (option.argument.empty() ? "" : " -x") + offer(fits_option(option)) +
               " -d " + quoted_for_fish(option.help) + "\n";
    const std::string words = command.name.find(' ') == std::string::npos ? "1" : "2";
    std::size_t number = 0;
    for (const Place& place : places_of(command)) {
        ++number;
        if (place.fits.kind == Kind::anything) continue;
        out += "complete -c skeinfall -n '__skeinfall_on " + command.name;
        if (!place.repeated)
            out += fmt::format("; and __skeinfall_place {} {}{}", number, words, valued);
        out += "'" + offer(place.fits) + "\n";
    }
    return out;
}

}  // namespace

std::string fish_completion(const std::vector<Command>& table) {
    std::string out =
        "# Completion of skeinfall for fish, made by \"skeinfall completion fish\".\n\n"
        "# True when the command is of these words.\n"
        "function __skeinfall_on\n"
        "    set -l words (commandline -opc)\n"
        "    test (count $words) -gt (count $argv); or return\n"
        "    set -l last (math 1 + (count $argv))\n"
        "    test \"$words[2..$last]\" = \"$argv\"\n"
        "end\n\n"
        "# True when just these words stand before the cursor.\n"
        "function __skeinfall_after\n"
        "    set -l words (commandline -opc)\n"
        "    test \"$words\" = \"skeinfall $argv\" -o \"$words\" = skeinfall -a -z \"$argv\"\n"
        "end\n\n"
        "# True at argument $argv[1] of a command of $argv[2] words; options $argv[3..] take a "
        "value.\n"
        "function __skeinfall_place\n"
        "    set -l words (commandline -opc)\n"
        "    set -l place 1\n"
        "    set -l skip no\n"
        "    test (count $words) -gt (math 1 + $argv[2]); or set -e words\n"
        "    for word in $words[(math 2 + $argv[2])..]\n"
        "        if test $skip = yes\n"
        "            set skip no\n"
        "        else if contains -- $word $argv[3..]\n"
        "            set skip yes\n"
        "        else if not string match -q -- '-*' $word\n"
        "            set place (math $place + 1)\n"
        "        end\n"
        "    end\n"
        "    test $place -eq $argv[1]\n"
        "end\n\n"
        "# Folders, and files whose name ends as the pattern $argv[1] says.\n"
        "function __skeinfall_files\n"
        "    __fish_complete_path (commandline -ct) | "
        "string match -r \"^[^\\t]*(?:/|$argv[1])(?:\\t.*)?\\$\"\n"
        "end\n\n"
        "function __skeinfall_first\n"
        "    printf '%s\\t%s\\n' \\\n" +
        first_words(table) +
        "\nend\n\n"
        "complete -c skeinfall -f\n"
        "complete -c skeinfall -n '__skeinfall_after' -a '(__skeinfall_first)'\n"
        "complete -c skeinfall -n '__skeinfall_after' -l help -d 'what the program does'\n"
        "complete -c skeinfall -n '__skeinfall_after' -l version -d 'its version'\n";
    for (const std::string& group : groups_of(table))
        for (const Command& command : table)
            if (command.name.starts_with(group + " "))
                out += "complete -c skeinfall -n '__skeinfall_after " + group + "' -a " +
                       command.name.substr(group.size() + 1) + " -d " +
                       quoted_for_fish(command.summary) + "\n";
    for (const Command& command : table) out += rows_of(command);
    return out;
}

}  // namespace skeinfall::cli
