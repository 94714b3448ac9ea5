#include "run.hpp"

#include <algorithm>
#include <exception>
#include <ostream>

#include <boost/program_options.hpp>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"

#include "exit_code.hpp"
#include "help.hpp"

namespace skeinfall::cli {
namespace {

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

/// True for the first word of a two-word command, such as "stash".
bool is_group(const std::string& word) {
    return std::any_of(command_table().begin(), command_table().end(), [&](const Command& command) {
        return command.name.starts_with(word + " ");
    });
}

po::options_description described(const Command& command) {
    po::options_description options;
    for (const Option& option : command.options) {
        if (option.argument.empty())
            options.add_options()(option.name.c_str(), option.help.c_str());
        else
            options.add_options()(option.name.c_str(), po::value<std::vector<std::string>>(),
                                  option.help.c_str());
    }
    options.add_options()("help", "this help");
    return options;
}

std::vector<std::string> option_names(const Command& command) {
    std::vector<std::string> names;
    for (const Option& option : command.options) names.push_back("--" + option.name);
    names.emplace_back("--help");
    return names;
}

Values parsed(const Command& command, const std::vector<std::string>& arguments) {
    const po::options_description options = described(command);
    po::parsed_options result(&options);
    try {
        // Abbreviated options are not guessed: a later option could change their meaning.
        const int style =
            po::command_line_style::unix_style & ~po::command_line_style::allow_guessing;
        result = po::command_line_parser(arguments)
                     .options(options)
                     .style(style)
                     .allow_unregistered()
                     .run();
    } catch (const po::error_with_option_name& error) {
        refuse(error.what(), "a value after the option",
               "\"skeinfall help " + command.name + "\" lists the options.");
    }
    Values values;
    for (const po::option& option : result.options) {
        const std::string word =
            option.original_tokens.empty() ? option.string_key : option.original_tokens.front();
        if (option.unregistered) {
            const auto near = base::nearest_name(word, option_names(command));
            refuse("unknown option " + base::shown_inert(word), "an option of " + command.name,
                   near ? "Did you mean " + *near + "?"
                        : "\"skeinfall help " + command.name + "\" lists them.");
        }
        if (option.position_key >= 0) {
            for (const std::string& value : option.value) values.add(positional, value);
            continue;
        }
        const auto known =
            std::find_if(command.options.begin(), command.options.end(),
                         [&](const Option& o) { return o.name == option.string_key; });
        if (known != command.options.end() && !known->repeatable && values.given(known->name))
            refuse("--" + known->name + " is given twice", "one --" + known->name, "");
        if (option.value.empty()) values.add(option.string_key, "");
        for (const std::string& value : option.value) values.add(option.string_key, value);
    }
    const std::size_t given = values.all(positional).size();
    if (command.arguments.empty() && given > 0)
        refuse("\"" + base::shown_inert(values.all(positional).front()) + "\" is left over",
               "no argument", "\"skeinfall help " + command.name + "\" shows what it takes.");
    const bool any_number = command.name == "help" || command.arguments.ends_with("...");
    if (!any_number && given > command.most_arguments)
        refuse("\"" + base::shown_inert(values.all(positional)[command.most_arguments]) +
                   "\" is left over",
               (command.most_arguments == 1 ? "one argument: " : "") + command.arguments,
               "Put a name with blanks in quotes.");
    return values;
}

int dispatch(std::vector<std::string> arguments, const World& world) {
    if (arguments.empty() || arguments.front() == "--help") {
        *world.out << general_help();
        return done;
    }
    if (arguments.front() == "--version") arguments.front() = "version";
    std::string name = arguments.front();
    arguments.erase(arguments.begin());
    if (is_group(name) && !arguments.empty()) {
        name += " " + arguments.front();
        arguments.erase(arguments.begin());
    }
    const Command& command = find_command(name);
    const Values values = parsed(command, arguments);
    if (values.given("help")) {
        *world.out << command_help(command);
        return done;
    }
    return command.run(values, world);
}

}  // namespace

const Command& find_command(const std::string& name) {
    if (const Command* command = exact_command(name)) return *command;
    std::vector<std::string> names;
    std::vector<std::string> of_group;
    for (const Command& command : command_table()) {
        names.push_back(command.name);
        if (command.name.starts_with(name + " ")) of_group.push_back(command.name);
    }
    if (!of_group.empty())
        refuse("\"" + name + "\" alone is no command", base::join(of_group, ", "), "");
    const auto near = base::nearest_name(name, names);
    refuse("unknown command \"" + base::shown_inert(name) + "\"", "one of skeinfall's commands",
           near ? "Did you mean \"" + *near + "\"?" : "\"skeinfall help\" lists them.");
}

int run(const std::vector<std::string>& arguments, const World& world) {
    try {
        const int code = dispatch(arguments, world);
        if (!world.out->flush()) {
            *world.err << "skeinfall: the output could not be written\n";
            return bad_input;
        }
        return code;
    } catch (const base::StoreError& error) {
        *world.err << "skeinfall: " << error.what() << "\n";
        return store_fault;
    } catch (const base::InputError& error) {
        *world.err << error.what() << "\n";
        return bad_input;
    } catch (const std::exception& error) {
        *world.err << "skeinfall: unexpected fault: " << error.what() << "\n";
        return bad_input;
    }
}

}  // namespace skeinfall::cli
