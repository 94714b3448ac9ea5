#include <string_view>

#include <fmt/format.h>

#include "completion.hpp"
#include "help.hpp"

namespace skeinfall::cli {
namespace {

using Kind = Fits::Kind;

/// In single quotes, with a backslash before each of `special`.
std::string quoted_for_zsh(const std::string& text, std::string_view special) {
    std::string out;
    for (const char c : text) {
        if (c == '\'')
            out += "'\\''";
        else if (special.find(c) != std::string_view::npos)
            out += std::string("\\") + c;
        else
            out += c;
    }
    return out;
}

/// The action of an _arguments specification.
std::string action(const Fits& fits) {
    switch (fits.kind) {
        case Kind::word: {
            std::string out = "(";
            for (const std::string& word : fits.words)
                out += (out.size() == 1 ? "" : " ") + quoted_for_zsh(word, " :()\\");
            return out + ")";
        }
        case Kind::file:
            return fits.suffix.empty() ? "_files" : "_files -g \"*" + fits.suffix + "(-.)\"";
        case Kind::folder:
            return "_files -/";
        case Kind::skein:
            return "_skeinfall_skeins";
        case Kind::command:
            return "_skeinfall_first";
        case Kind::anything:
            break;
    }
    return " ";
}

std::string described(const std::string& name, const std::string& summary) {
    return "    '" + quoted_for_zsh(name, ":\\") + ":" + quoted_for_zsh(summary, "\\") + "'\n";
}

std::string specifications(const Command& command) {
    std::string out;
    for (const Option& option : options_of(command)) {
        out += " \\\n      '" + std::string(option.repeatable ? "*" : "") + "--" + option.name +
               (option.argument.empty() ? "" : "=") + "[" + quoted_for_zsh(option.help, "[]:\\") +
               "]";
        if (!option.argument.empty())
            out += ":" + quoted_for_zsh(option.argument, ":\\") + ":" + action(fits_option(option));
        out += "'";
    }
    std::size_t number = 0;
    for (const Place& place : places_of(command)) {
        ++number;
        out += " \\\n      '" + (place.repeated ? "*" : std::to_string(number)) + ":" +
               quoted_for_zsh(place.name, ":\\") + ":" + action(place.fits) + "'";
    }
    return out;
}

}  // namespace

std::string zsh_completion(const std::vector<Command>& table) {
    const std::vector<std::string> groups = groups_of(table);
    std::string out =
        "#compdef skeinfall\n"
        "# Completion of skeinfall for zsh, made by \"skeinfall completion zsh\".\n\n"
        "_skeinfall_skeins() {\n"
        "  local -a ids\n"
        "  ids=(${(f)\"$(_call_program skeins skeinfall stash list --ids 2>/dev/null)\"})\n"
        "  compadd -a ids\n}\n\n"
        "_skeinfall_first() {\n  local -a commands\n  commands=(\n";
    for (const Command& command : table)
        if (command.name.find(' ') == std::string::npos)
            out += described(command.name, command.summary);
    for (const std::string& group : groups) out += described(group, "its commands");
    out += "  )\n  _describe -t commands command commands\n}\n\n";
    for (const std::string& group : groups) {
        out += "_skeinfall_of_" + group + "() {\n  local -a commands\n  commands=(\n";
        for (const Command& command : table)
            if (command.name.starts_with(group + " "))
                out += described(command.name.substr(group.size() + 1), command.summary);
        out += "  )\n  _describe -t commands command commands\n}\n\n";
    }
    out +=
        "_skeinfall() {\n"
        "  if (( CURRENT == 2 )); then\n"
        "    if [[ $words[2] == -* ]]; then compadd -- --help --version; else _skeinfall_first; "
        "fi\n"
        "    return\n"
        "  fi\n"
        "  local name=$words[2]\n"
        "  shift words\n"
        "  (( CURRENT-- ))\n"
        "  case $name in\n";
    for (const std::string& group : groups)
        out += fmt::format(
            "  {0})\n"
            "    if (( CURRENT == 2 )); then\n"
            "      _skeinfall_of_{0}\n"
            "      return\n"
            "    fi\n"
            "    name+=\" $words[2]\"\n"
            "    shift words\n"
            "    (( CURRENT-- ))\n"
            "    ;;\n",
            group);
    out += "  esac\n  case $name in\n";
    for (const Command& command : table)
        out +=
            "  '" + command.name + "')\n    _arguments -S" + specifications(command) + "\n    ;;\n";
    return out +
           "  esac\n}\n\n"
           "# Read from a folder of functions, or by \"source\".\n"
           "if [[ $funcstack[1] == _skeinfall ]]; then\n  _skeinfall \"$@\"\n"
           "else\n  compdef _skeinfall skeinfall\nfi\n";
}

}  // namespace skeinfall::cli
