#include "command.hpp"
#include "commands.hpp"
#include "help.hpp"
#include "stops_first.hpp"

namespace skeinfall::cli {

const std::vector<Command>& command_table() {
    // clang-format off
    static const std::vector<Command> table{
        new_command(),
        stops_first(cover_command()),
        stops_first(buy_command()),
        stops_first(largest_command()),
        stops_first(fit_command()),
        stops_first(joins_command()),
        stops_first(stripes_command()),
        stops_first(progress_command()),
        stops_first(need_command()),
        read_command(),
        check_command(),
        stops_first(materials_command(), Cautions::beside),
        stops_first(report_command(), Cautions::beside),
        identify_command(),
        substitute_command(),
        strands_command(),
        hand_command(),
        convert_command(),
        stash_import_command(),
        stash_add_command(),
        stash_list_command(),
        stash_show_command(),
        stash_weigh_command(),
        stash_use_command(),
        stash_give_command(),
        stash_rip_back_command(),
        stash_wind_off_command(),
        stash_correct_command(),
        stops_first(stash_set_aside_command(), Cautions::beside),
        stash_release_command(),
        stash_history_command(),
        stash_undo_command(),
        stash_export_command(),
        stash_backup_command(),
        stash_verify_command(),
        stash_restore_command(),
        stash_rescue_command(),
        stash_upgrade_command(),
        settings_show_command(),
        settings_set_command(),
        settings_unset_command(),
        try_command(),
        tour_command(),
        completion_command(),
        man_command(),
        help_command(),
        version_command(),
    };
    // clang-format on
    return table;
}

}  // namespace skeinfall::cli
