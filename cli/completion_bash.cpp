#include <string_view>

#include "skeinfall/base/text.hpp"

#include "completion.hpp"
#include "help.hpp"

namespace skeinfall::cli {
namespace {

using Kind = Fits::Kind;

std::string quoted_for_shell(const std::string& text) {
    std::string out = "'";
    for (const char c : text) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
    return out + "'";
}

/// A word the script's _skeinfall_offer_fitting understands.
std::string fitting(const Fits& fits) {
    switch (fits.kind) {
        case Kind::word:
            return quoted_for_shell("word " + base::join(fits.words, "\n"));
        case Kind::file:
            return quoted_for_shell("file " + fits.suffix);
        case Kind::folder:
            return "folder";
        case Kind::skein:
            return "skein";
        case Kind::command:
            return "command";
        case Kind::anything:
            break;
    }
    return "anything";
}

constexpr std::string_view head =
    R"script(# Completion of skeinfall for bash, made by "skeinfall completion bash".

# Offers each line of stdin that begins with $1.
_skeinfall_offer() {
  local line
  while IFS= read -r line; do
    if [[ $line == "$1"* ]]; then COMPREPLY+=("$(printf %q "$line")"); fi
  done
}

# Offers names of files that begin with $1 and end in $2, and folders.
_skeinfall_offer_files() {
  local name
  compopt -o filenames 2>/dev/null
  while IFS= read -r name; do
    if [[ -d $name || $name == *"$2" ]]; then COMPREPLY+=("$name"); fi
  done < <(compgen -f -- "$1")
}

# Offers what fits $2, beginning with $1.
_skeinfall_offer_fitting() {
  case $2 in
  'word '*) _skeinfall_offer "$1" <<< "${2#word }" ;;
  'file '*) _skeinfall_offer_files "$1" "${2#file }" ;;
  folder) compopt -o filenames 2>/dev/null; mapfile -t COMPREPLY < <(compgen -d -- "$1") ;;
  skein) _skeinfall_offer "$1" < <(skeinfall stash list --ids 2>/dev/null) ;;
  command) _skeinfall_offer "$1" <<< "$_skeinfall_first" ;;
  esac
}

)script";

constexpr std::string_view tail = R"script(
_skeinfall() {
  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]}
  local command=${COMP_WORDS[1]} at=2 place=0 pending= ended= part
  local options= valued= second= fits=anything
  local -a places=()
  COMPREPLY=()
  if [[ $before == '>' || $before == '>>' || $before == '<' ]]; then
    _skeinfall_offer_files "$word" ''
    return
  fi
  if (( COMP_CWORD == 1 )); then
    _skeinfall_offer "$word" <<< "$_skeinfall_first"
    if [[ $word == -* ]]; then _skeinfall_offer "$word" <<< $'--help\n--version'; fi
    return
  fi
  _skeinfall_table "$command"
  if [[ $second ]]; then
    if (( COMP_CWORD == 2 )); then
      _skeinfall_offer "$word" <<< "$second"
      return
    fi
    command+=" ${COMP_WORDS[2]}"
    at=3
    _skeinfall_table "$command"
  fi
  for (( ; at < COMP_CWORD; at++ )); do
    part=${COMP_WORDS[at]}
    if [[ $pending ]]; then
      if [[ $part != '=' ]]; then pending=; fi
    elif [[ $ended || $part != -* ]]; then
      (( ++place ))
    elif [[ $part == -- ]]; then
      ended=1
    elif [[ " $valued " == *" $part "* ]]; then
      pending=$part
    fi
  done
  if [[ $pending ]]; then
    if [[ $word == '=' ]]; then word=; fi
    _skeinfall_value "$command $pending"
    _skeinfall_offer_fitting "$word" "$fits"
  elif [[ $word == -* && ! $ended ]]; then
    _skeinfall_offer "$word" <<< "${options// /$'\n'}"
  elif (( ${#places[@]} > 0 )); then
    if [[ ${places[-1]} == again ]] && (( place > ${#places[@]} - 2 )); then
      place=$(( ${#places[@]} - 2 ))
    fi
    _skeinfall_offer_fitting "$word" "${places[place]:-anything}"
  fi
}
complete -F _skeinfall skeinfall
)script";

}  // namespace

std::string bash_completion(const std::vector<Command>& table) {
    const std::vector<std::string> groups = groups_of(table);
    std::vector<std::string> first;
    std::string rows;
    std::string values;
    for (const Command& command : table) {
        if (command.name.find(' ') == std::string::npos) first.push_back(command.name);
        std::vector<std::string> options;
        std::vector<std::string> valued;
        for (const Option& option : options_of(command)) {
            options.push_back("--" + option.name);
            if (option.argument.empty()) continue;
            valued.push_back(options.back());
            const Fits fits = fits_option(option);
            if (fits.kind != Kind::anything)
                values += "  '" + command.name + " --" + option.name + "') fits=" + fitting(fits) +
                          " ;;\n";
        }
        rows += "  '" + command.name + "')\n    options='" + base::join(options, " ") +
                "'\n    valued='" + base::join(valued, " ") + "'\n    places=(";
        std::vector<std::string> places;
        for (const Place& place : places_of(command)) {
            places.push_back(fitting(place.fits));
            if (place.repeated) places.emplace_back("again");
        }
        rows += base::join(places, " ") + ")\n    ;;\n";
    }
    for (const std::string& group : groups) {
        std::vector<std::string> second;
        for (const Command& command : table)
            if (command.name.starts_with(group + " "))
                second.push_back(command.name.substr(group.size() + 1));
        rows += "  '" + group + "') second=" + quoted_for_shell(base::join(second, "\n")) + " ;;\n";
        first.push_back(group);
    }
    return std::string(head) + "_skeinfall_first=" + quoted_for_shell(base::join(first, "\n")) +
           "\n\n# What command $1 takes.\n_skeinfall_table() {\n  second=\n  case $1 in\n" + rows +
           "  esac\n}\n\n# What fits the option of \"COMMAND --OPTION\".\n"
           "_skeinfall_value() {\n  case $1 in\n" +
           values + "  esac\n}\n" + std::string(tail);
}

}  // namespace skeinfall::cli
