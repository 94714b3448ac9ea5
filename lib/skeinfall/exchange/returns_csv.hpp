#pragma once
/// \file
/// Testers' returns as a sheet: a row a return, with columns named as the keys of [[tester]]: name,
/// size, yarn, before, after, scale, stitches, rows, grist, confirmed.

#include <string>
#include <string_view>

#include "skeinfall/project/defaults.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::exchange {

/// The project of a file with the returns of a sheet beside its own. Throws base::InputError with
/// every mistake; those of the sheet name its line.
[[nodiscard]] project::Project with_returns(std::string_view project_text,
                                            const std::string& project_file,
                                            std::string_view sheet_text,
                                            const std::string& sheet_file,
                                            const project::Defaults& defaults = {});

}  // namespace skeinfall::exchange
