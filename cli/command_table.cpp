#include "command.hpp"
#include "commands.hpp"
#include "help.hpp"

namespace skeinfall::cli {

const std::vector<Command>& command_table() {
    // clang-format off
    static const std::vector<Command> table{
        cover_command(),
        buy_command(),
        largest_command(),
        joins_command(),
        need_command(),
        materials_command(),
        identify_command(),
        substitute_command(),
        convert_command(),
        stash_import_command(),
        stash_add_command(),
        stash_list_command(),
        stash_show_command(),
        help_command(),
        version_command(),
    };
    // clang-format on
    return table;
}

}  // namespace skeinfall::cli
