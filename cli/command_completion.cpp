#include <ostream>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"

#include "commands.hpp"
#include "completion.hpp"
#include "exit_code.hpp"

namespace skeinfall::cli {

Command completion_command() {
    Command command;
    command.name = "completion";
    command.arguments = "SHELL";
    command.words = {"bash", "zsh", "fish"};
    command.summary = "a script that lets bash, zsh or fish complete what you type";
    command.purpose =
        "Prints the script; it comes with an installed skeinfall. It completes commands,\n"
        "options, their values, project files and the ids of the skeins in the usual stash.\n"
        "To set it up yourself:\n"
        "  bash   add this line to ~/.bashrc:  source <(skeinfall completion bash)\n"
        "  zsh    add it to ~/.zshrc after compinit:  source <(skeinfall completion zsh)\n"
        "  fish   skeinfall completion fish > ~/.config/fish/completions/skeinfall.fish";
    command.examples = {{"skeinfall completion bash", "the script for bash"},
                        {"skeinfall completion fish > skeinfall.fish", "the script in a file"}};
    command.no.clear();
    command.verbatim = true;
    command.run = [](const Values& values, const World& world) -> int {
        const std::string shell = values.one(positional).value_or("");
        if (shell == "bash")
            *world.out << bash_completion(command_table());
        else if (shell == "zsh")
            *world.out << zsh_completion(command_table());
        else if (shell == "fish")
            *world.out << fish_completion(command_table());
        else
            throw base::InputError(
                base::Problem{shell.empty() ? "no shell is named"
                                            : base::quoted(shell) + " is not a shell known here",
                              {},
                              "bash, zsh or fish",
                              "Write skeinfall completion bash."});
        return done;
    };
    return command;
}

}  // namespace skeinfall::cli
