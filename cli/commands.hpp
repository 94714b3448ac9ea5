#pragma once
/// \file
/// The rows of the command table, one function a command; see command_<name>.cpp.

#include "command.hpp"

namespace skeinfall::cli {

[[nodiscard]] Command cover_command();
[[nodiscard]] Command buy_command();
[[nodiscard]] Command largest_command();
[[nodiscard]] Command fit_command();
[[nodiscard]] Command joins_command();
[[nodiscard]] Command stripes_command();
[[nodiscard]] Command progress_command();
[[nodiscard]] Command need_command();
[[nodiscard]] Command read_command();
[[nodiscard]] Command new_command();
[[nodiscard]] Command check_command();
[[nodiscard]] Command materials_command();
[[nodiscard]] Command report_command();
[[nodiscard]] Command convert_command();
[[nodiscard]] Command identify_command();
[[nodiscard]] Command substitute_command();
[[nodiscard]] Command strands_command();
[[nodiscard]] Command hand_command();
[[nodiscard]] Command stash_import_command();
[[nodiscard]] Command stash_add_command();
[[nodiscard]] Command stash_list_command();
[[nodiscard]] Command stash_show_command();
[[nodiscard]] Command stash_weigh_command();
[[nodiscard]] Command stash_use_command();
[[nodiscard]] Command stash_give_command();
[[nodiscard]] Command stash_rip_back_command();
[[nodiscard]] Command stash_wind_off_command();
[[nodiscard]] Command stash_correct_command();
[[nodiscard]] Command stash_set_aside_command();
[[nodiscard]] Command stash_release_command();
[[nodiscard]] Command stash_history_command();
[[nodiscard]] Command stash_undo_command();
[[nodiscard]] Command stash_export_command();
[[nodiscard]] Command stash_backup_command();
[[nodiscard]] Command stash_verify_command();
[[nodiscard]] Command stash_restore_command();
[[nodiscard]] Command stash_rescue_command();
[[nodiscard]] Command stash_upgrade_command();
[[nodiscard]] Command settings_show_command();
[[nodiscard]] Command settings_set_command();
[[nodiscard]] Command settings_unset_command();
[[nodiscard]] Command try_command();
[[nodiscard]] Command tour_command();
[[nodiscard]] Command completion_command();
[[nodiscard]] Command man_command();

}  // namespace skeinfall::cli
