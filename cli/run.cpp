#include "run.hpp"

#include <algorithm>
#include <csignal>
#include <exception>
#include <filesystem>
#include <new>
#include <ostream>
#include <sstream>

#include <boost/program_options.hpp>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/hand_toml.hpp"
#include "skeinfall/store/store.hpp"
#include "skeinfall/units/number_style.hpp"

#include "busy.hpp"
#include "exit_code.hpp"
#include "help.hpp"
#include "make_options.hpp"
#include "memory_end.hpp"
#include "options.hpp"
#include "quiet.hpp"
#include "style_options.hpp"
#include "terminal.hpp"

namespace skeinfall::cli {
namespace {

/// What finished makes taught, kept beside the stash; nothing where none did.
std::optional<project::Hand> hand_kept(const Values& values, const World& world) {
    std::filesystem::path stash;
    try {
        stash = stash_path(values, world);
    } catch (const base::StoreError&) {
        return std::nullopt;  // no folder is known, so nothing is kept in one
    }
    const auto makes = exchange::read_hand(exchange::hand_path(stash));
    if (makes.empty()) return std::nullopt;
    return project::hand_from(makes);
}

namespace po = boost::program_options;

[[noreturn]] void refuse(const std::string& what, const std::string& expected,
                         const std::string& remedy) {
    throw base::InputError(base::Problem{what, {}, expected, remedy});
}

const Command* exact_command(const std::string& name) {
    for (const Command& command : command_table())
        if (command.name == name) return &command;
    return nullptr;
}

po::options_description described(const std::vector<Option>& options) {
    po::options_description description;
    for (const Option& option : options) {
        std::string name = option.name;
        if (option.letter != '\0') name += std::string(",") + option.letter;
        if (option.argument.empty())
            description.add_options()(name.c_str(), option.help.c_str());
        else
            description.add_options()(name.c_str(), po::value<std::vector<std::string>>(),
                                      option.help.c_str());
    }
    return description;
}

const Option* named(const std::vector<Option>& options, const std::string& name) {
    const auto found = std::find_if(options.begin(), options.end(),
                                    [&](const Option& option) { return option.name == name; });
    return found == options.end() ? nullptr : &*found;
}

/// A switch with a value, or an option without one.
[[noreturn]] void refuse_value(const Command& command, const std::vector<Option>& options,
                               const po::error_with_option_name& error) {
    const Option* const option = named(options, error.get_option_name().substr(2));
    const std::string remedy = "\"skeinfall help " + command.name + "\" lists the options.";
    if (option == nullptr) refuse(error.what(), "an option", remedy);
    if (option->argument.empty())
        refuse("--" + option->name + " takes no value", "--" + option->name + " alone", remedy);
    refuse("--" + option->name + " has no value",
           "--" + option->name + " " + option->argument +
               (option->words.empty() ? "" : ": " + base::join(option->words, ", ")),
           remedy);
}

[[noreturn]] void refuse_unknown(const Command& command, const std::vector<Option>& options,
                                 const std::string& word) {
    std::vector<std::string> names;
    names.reserve(options.size());
    for (const Option& option : options) names.push_back("--" + option.name);
    const std::string bare = word.substr(0, word.find('='));
    const auto near = base::nearest_name(bare, names);
    // What another command takes was no slip of the pen.
    const Command* other = nullptr;
    for (const Command& one : command_table())
        if (std::any_of(one.options.begin(), one.options.end(),
                        [&](const Option& option) { return "--" + option.name == bare; }) &&
            (other == nullptr || one.name == "cover"))
            other = &one;
    if (bare == "--have" && named(options, "more") != nullptr)
        refuse("unknown option " + base::shown_inert(word), "an option of " + command.name,
               "For balls still to come: --more \"2 balls of 50 g\".");
    if (other != nullptr)
        refuse("unknown option " + base::shown_inert(word), "an option of " + command.name,
               "\"skeinfall " + other->name + "\" takes it.");
    refuse("unknown option " + base::shown_inert(word), "an option of " + command.name,
           near ? "Did you mean " + *near + "?"
                : "\"skeinfall help " + command.name + "\" lists them.");
}

void refuse_surplus(const Command& command, const Values& values) {
    const std::vector<std::string> given = values.all(positional);
    if (command.arguments.empty() && !given.empty()) {
        const bool of_yarn = named(options_of(command), "yarn") != nullptr && !values.given("yarn");
        refuse("this command does not take " + base::quoted(given.front()), "no argument",
               of_yarn
                   ? "If it is the yarn, write --yarn \"" + base::shown_inert(given.front()) + "\"."
                   : "\"skeinfall help " + command.name + "\" shows what it takes.");
    }
    if (!command.arguments.ends_with("...") && given.size() > command.most_arguments)
        refuse("this command does not take " + base::quoted(given[command.most_arguments]),
               (command.most_arguments == 1 ? "one argument: " : "") + command.arguments,
               "Put a name with blanks in quotes.");
}

/// "--margin -50": the value is refused for what it is, and not taken for an option.
std::vector<std::string> with_values_below_zero(const std::vector<Option>& options,
                                                const std::vector<std::string>& arguments) {
    std::vector<std::string> out;
    for (const std::string& word : arguments) {
        const bool below_zero =
            word.size() > 1 && word[0] == '-' && word[1] >= '0' && word[1] <= '9';
        const Option* const before = below_zero && !out.empty() && out.back().starts_with("--")
                                         ? named(options, out.back().substr(2))
                                         : nullptr;
        if (before != nullptr && !before->argument.empty())
            out.back() += "=" + word;
        else
            out.push_back(word);
    }
    return out;
}

/// "--color" where the command has --colour or --colourway, and the like: other spellings.
std::vector<std::string> in_our_spelling(const std::vector<Option>& options,
                                         std::vector<std::string> arguments) {
    using Spellings = std::vector<std::string>;
    static const std::vector<Spellings> alike{
        {"colourway", "colour", "colorway", "color"}, {"fibre", "fiber"}, {"lot", "dye-lot"}};
    for (std::string& word : arguments) {
        if (!word.starts_with("--")) continue;
        const std::size_t end = std::min(word.find('='), word.size());
        const std::string name = word.substr(2, end - 2);
        if (named(options, name) != nullptr) continue;
        for (const Spellings& spellings : alike) {
            if (std::find(spellings.begin(), spellings.end(), name) == spellings.end()) continue;
            for (const std::string& known : spellings)
                if (named(options, known) != nullptr) {
                    word = "--" + known + word.substr(end);
                    break;
                }
            break;
        }
    }
    return arguments;
}

Values parsed(const Command& command, const std::vector<std::string>& given) {
    const std::vector<Option> options = options_of(command);
    const std::vector<std::string> arguments = in_our_spelling(options, given);
    const po::options_description description = described(options);
    po::parsed_options result(&description);
    try {
        // Abbreviated options are not guessed: a later option could change their meaning.
        const int style =
            po::command_line_style::unix_style & ~po::command_line_style::allow_guessing;
        result = po::command_line_parser(with_values_below_zero(options, arguments))
                     .options(description)
                     .style(style)
                     .allow_unregistered()
                     .run();
    } catch (const po::error_with_option_name& error) {
        refuse_value(command, options, error);
    }
    Values values;
    for (const po::option& option : result.options) {
        if (option.unregistered)
            refuse_unknown(command, options,
                           option.original_tokens.empty() ? option.string_key
                                                          : option.original_tokens.front());
        if (option.position_key >= 0) {
            for (const std::string& value : option.value) values.add(positional, value);
            continue;
        }
        std::string name = option.string_key;
        if (name.size() == 2 && name.front() == '-')
            for (const Option& known : options)
                if (known.letter == name.back()) name = known.name;
        const Option* const known = named(options, name);
        if (known != nullptr && !known->repeatable && !known->argument.empty() &&
            values.given(name))
            refuse("--" + name + " is given twice", "one --" + name, "");
        if (option.value.empty()) values.add(name, "");
        for (const std::string& value : option.value) values.add(name, value);
    }
    if (!values.given("help")) refuse_surplus(command, values);
    return values;
}

/// What a person reads has its numbers as they want them and, on a terminal, is folded and
/// coloured; data for a program is not.
int run_for_reader(const Command& command, const Values& values, const World& world) {
    const std::string format = values.one("format").value_or("text");
    if (format == "json" || format == "csv" || command.verbatim) return command.run(values, world);
    const units::WithNumberStyle in_force(number_style_of(values));
    if (values.in_grams())
        *world.err << "note: no label is known, so all amounts are grams of this one yarn\n";
    if (world.columns == 0 || (format != "text")) return command.run(values, world);
    units::NumberStyle to_fit = units::number_style();
    to_fit.columns = world.columns;
    const units::WithNumberStyle fitting(to_fit);
    std::ostringstream out;
    World inner = world;
    inner.out = &out;
    const auto print = [&] {
        *world.out << for_terminal(out.str(), world.columns, world.colour) << std::flush;
        out.str({});
    };
    inner.show_so_far = print;
    try {
        const int code = command.run(values, inner);
        print();
        return code;
    } catch (...) {
        print();
        throw;
    }
}

/// A value that nothing has read is not understood: no answer goes out beside it.
void refuse_unread(const Values& values) {
    const std::vector<std::string> unread = values.unread();
    if (unread.empty()) return;
    refuse_option(unread.front(), "it has no use beside what else is said here",
                  "the command without it", "");
}

/// The answer is held back until it is known that every option went into it.
int run_whole(const Command& command, const Values& values, const World& world) {
    if (command.keeps || command.asks || command.verbatim)
        return run_for_reader(command, values, world);
    std::ostringstream out;
    World inner = world;
    inner.out = &out;
    try {
        const int code = run_for_reader(command, values, inner);
        refuse_unread(values);
        *world.out << out.str();
        return code;
    } catch (...) {
        if (values.unread().empty()) *world.out << out.str();
        throw;
    }
}

int run_command(const Command& command, const Values& values, const World& world) {
    WithoutNotes without_notes(*world.err);
    std::ostream quiet(&without_notes);
    World inner = world;
    if (values.given("quiet")) {
        inner.err = &quiet;
        inner.shows_progress = false;
    }
    if (!inner.shows_progress || command.asks) return run_whole(command, values, inner);
    Busy busy(*world.err);
    inner.err = &busy.messages();
    inner.busy = &busy;
    return run_whole(command, values, inner);
}

/// A command is the same as another when it says the same, however loudly.
std::string identity_of(const std::vector<std::string>& arguments) {
    std::vector<std::string> words = arguments;
    std::erase_if(words, [](const std::string& word) {
        return word == "--again" || word == "--quiet" || word == "-q";
    });
    return base::join(words, "\n");
}

/// The output could not be written.
void tell_what_was_kept(const std::optional<store::KeptEntry>& before, const World& world) {
    *world.err << "skeinfall: the output could not be written\n";
    const auto kept = store::last_kept();
    // The walk enters a sample, which is gone with it.
    const bool sample =
        world.command_line.starts_with("try") || world.command_line.starts_with("tour");
    if (!kept || kept == before || sample) return;
    *world.err << "What you entered is kept: do not enter it again.\n"
                  "\"skeinfall stash history ID\" shows it, \"skeinfall stash undo\" "
                  "takes it back.\n";
    try {
        store::note_unanswered(*kept, world.command_line, world.today);
    } catch (const std::exception&) {
        *world.err << "That could not be recorded in the stash; running the command again would "
                      "count it twice.\n";
    }
}

/// A tare by its name in the settings. A usual one, that nobody weighed, only serves where its
/// bounds are carried on.
void take_named_tare(const Command& command, const std::string& tare, Values& values) {
    if (const exchange::NamedTare* known = values.settings().tare(tare)) {
        values.add("tare", known->mass.text);
        return;
    }
    const bool has_figure = tare.find_first_of("0123456789") != std::string::npos;
    if (has_figure || command.name == "identify") return;
    refuse_option("tare", base::quoted(tare) + " is not a tare you have named",
                  "a weight such as 25 g",
                  "Weigh it empty. To keep it by its name: skeinfall settings set \"tare." +
                      base::shown_inert(tare) + "\" \"25 g\"");
}

int dispatch(std::vector<std::string> arguments, const World& world) {
    if (arguments.empty() || arguments.front() == "--help" || arguments.front() == "-h") {
        *world.out << general_help(world.columns);
        return done;
    }
    if (arguments.front() == "--version") arguments.front() = "version";
    std::string name = arguments.front();
    if (name.starts_with("-"))
        refuse(base::quoted(name) + " is not known here", "a command first",
               "Write options behind it: skeinfall cover cowl.toml --why");
    arguments.erase(arguments.begin());
    if (is_group(name)) {
        if (arguments.empty() || arguments.front() == "--help" || arguments.front() == "-h" ||
            arguments.front() == "help") {
            *world.out << group_help(name, world.columns);
            return done;
        }
        name += " " + arguments.front();
        arguments.erase(arguments.begin());
    }
    const Command& command = find_command(name);
    Values values = parsed(command, arguments);
    if (values.given("help")) {
        *world.out << command_help(command, world.columns);
        return done;
    }
    if (reads_settings(command)) {
        const auto path = exchange::settings_path(world.xdg_config_home, world.home);
        exchange::Settings settings =
            exchange::with_settings(path ? exchange::read_settings(*path) : exchange::Settings(),
                                    values.all("set"), "--set");
        settings.project.hand = hand_kept(values, world);
        values.use(std::move(settings));
        if (command.tells_rows) values.let_rows_matter();
        if (in_grams_alone(command, values, world)) values.reckon_in_grams();
        if (const auto tare = values.one("tare")) take_named_tare(command, *tare, values);
    }
    // A reader that went away must not end what is being kept before that is noted.
    if (command.keeps) std::signal(SIGPIPE, SIG_IGN);
    return run_command(command, values, world);
}

/// Where a person goes on after an error that names no command itself.
void say_next(const std::vector<std::string>& arguments, const std::string& message,
              const base::Place& place, const World& world) {
    if (!world.shows_progress || message.find("skeinfall ") != std::string::npos) return;
    std::string next = "help";
    if (place.line != 0 && place.file.ends_with(".toml") &&
        std::find(arguments.begin(), arguments.end(), place.file) != arguments.end()) {
        next = "check " + base::shown_inert(place.file);
    } else if (!arguments.empty()) {
        const std::string& first = arguments.front();
        if (exact_command(first) != nullptr) next += " " + first;
        if (arguments.size() > 1 && exact_command(first + " " + arguments[1]) != nullptr)
            next += " " + first + " " + arguments[1];
    }
    *world.err << "next: skeinfall " << next << "\n";
}

}  // namespace

const Command& find_command(const std::string& name) {
    if (const Command* command = exact_command(name)) return *command;
    std::vector<std::string> names;
    for (const Command& command : command_table()) names.push_back(command.name);
    // "import" for "stash import".
    for (const std::string& known : names)
        if (known.ends_with(" " + name))
            refuse("unknown command \"" + base::shown_inert(name) + "\"",
                   "one of skeinfall's commands", "Did you mean \"" + known + "\"?");
    // What one would say first for what has another name here.
    static const std::vector<std::pair<std::string, std::string>> meant{
        {"remove", "stash give\", \"stash use\" and \"stash undo"},
        {"delete", "stash give\", \"stash use\" and \"stash undo"},
        {"rename", "stash correct"},
        {"edit", "stash correct"},
        {"update", "stash weigh\" and \"stash correct"},
        {"plan", "cover\" and \"joins"},
        {"estimate", "need"},
        {"calculate", "need"}};
    for (const auto& [word, commands] : meant)
        if (name == word || name.ends_with(" " + word))
            refuse("unknown command \"" + base::shown_inert(name) + "\"",
                   "one of skeinfall's commands", "See \"" + commands + "\".");
    const auto near = base::nearest_name(name, names);
    refuse("unknown command \"" + base::shown_inert(name) + "\"", "one of skeinfall's commands",
           base::did_you_mean(near,
                              "\"skeinfall new\" asks what you make; \"skeinfall help\" lists all, "
                              "and \"skeinfall help topics\" what can be explained."));
}

int run(const std::vector<std::string>& arguments, const World& outer) {
    const MemoryEnd memory_end;
    try {
        World world = outer;
        world.command_line = identity_of(arguments);
        const auto kept_before = store::last_kept();
        const int code = dispatch(arguments, world);
        if (!world.out->flush()) {
            tell_what_was_kept(kept_before, world);
            return bad_input;
        }
        return code;
    } catch (const base::StoreError& error) {
        *outer.err << "skeinfall: " << error.what() << "\n";
        say_next({"stash", "verify"}, error.what(), {}, outer);
        return store_fault;
    } catch (const base::InputError& error) {
        *outer.err << error.what() << "\n";
        say_next(arguments, error.what(), error.problems().front().place, outer);
        return bad_input;
    } catch (const std::bad_alloc&) {
        *outer.err << memory_ran_out;
        return bad_input;
    } catch (const std::exception& error) {
        *outer.err << "skeinfall: unexpected fault: " << error.what() << "\n";
        return bad_input;
    }
}

}  // namespace skeinfall::cli
