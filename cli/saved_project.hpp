#pragma once
/// \file
/// A project file changed to what was answered, for --save.

#include <optional>
#include <string>
#include <vector>

#include "skeinfall/exchange/project_edit.hpp"

#include "make_options.hpp"

namespace skeinfall::cli {

/// The text that was read with these figures of its pieces, and with the first rounds and totals
/// that `made` has otherwise. Throws base::InputError where the file so written would not be read
/// as `made` in this size: nothing is written then.
[[nodiscard]] std::string saved_project(const Told& told, const project::Project& made,
                                        std::size_t size,
                                        const std::vector<exchange::PieceEdit>& pieces,
                                        const std::string& file);

/// The text of a project made from options, with what was asked for on top.
[[nodiscard]] std::string with_margin(std::string toml, std::optional<units::Ratio> margin);

}  // namespace skeinfall::cli
