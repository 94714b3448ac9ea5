#pragma once
/// \file
/// Things of two layers, whose size may be that of one or of both.

#include <optional>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/exchange/make_words.hpp"

namespace skeinfall::exchange::detail {

/// A thing of two layers whose size may be that of both, as it lies flat; nothing where that was
/// `told`.
[[nodiscard]] std::optional<base::Problem> may_lie_double(const WrittenPiece& piece, bool told);

}  // namespace skeinfall::exchange::detail
