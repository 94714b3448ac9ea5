#pragma once
/// \file
/// The stitch that a pattern's gauge is counted in, where its words do not say.

#include <string>

#include "skeinfall/notation/document.hpp"

namespace skeinfall::exchange::detail {

/// The gauge's own stitch or fabric where it names one that is known; else what most of the rows
/// are of: a plain crochet stitch, or garter, rib or stockinette. "sc" and "stockinette" where no
/// row tells.
[[nodiscard]] std::string main_stitch(const notation::Document& document);

}  // namespace skeinfall::exchange::detail
