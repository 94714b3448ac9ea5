#pragma once
/// \file
/// A project worked at the maker's own gauge instead of the pattern's.

#include "skeinfall/project/project.hpp"

namespace skeinfall::project {

/// The project as this maker works it: `gauge` becomes the maker's, `pattern_gauge` what it was, a
/// piece's own gauge changes in proportion.
///
/// Keeping the counts turns measurements of pieces into the counts the pattern means, so that the
/// pieces come out in another size. Keeping the size turns counts into those that give the
/// pattern's size, to the nearest whole, and spreads the increases evenly over the rows that there
/// are, so that the outline stays; a figure in rounds keeps its whole corners. Rows in notation and
/// blocks keep their counts in either case; a reader refuses them where the size is to be kept.
void work_at(Project& project, const Gauge& maker, Keeping keeping);

}  // namespace skeinfall::project
