#include "skeinfall/fit/written.hpp"

#include <cmath>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/fit/fit.hpp"

namespace skeinfall::fit {

std::optional<project::Multiple> multiple_of_rows(const project::Project& /*project*/,
                                                  const project::Piece& /*piece*/,
                                                  std::size_t /*size*/) {
    return std::nullopt;
}

std::optional<project::Multiple> repeat_of_rows(const project::Project& /*project*/,
                                                const project::Piece& /*piece*/,
                                                std::size_t /*size*/) {
    return std::nullopt;
}

std::optional<long> written_foundation(const project::Project& /*project*/,
                                       const project::Piece& piece, std::size_t size) {
    const project::RowWork& foundation = piece.pattern.at(size).foundation;
    double count = 0.0;
    for (const project::KindCount& kind : foundation.kinds) count += kind.count.value();
    if (count <= 0.0) return std::nullopt;
    return std::lround(count);
}

void stretch_written(Fitted& fitted) {
    const project::Piece& piece = fitted.project.pieces[fitted.piece];
    throw base::InputError(base::Problem{
        fmt::format("the rows of {} are written out", base::quoted(piece.name)),
        fitted.project.place(fmt::format("piece.{}", fitted.piece), "rows"), "counts", ""});
}

}  // namespace skeinfall::fit
