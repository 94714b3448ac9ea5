#pragma once
/// \file
/// What readings of work in progress say of the skeins they were taken of.

#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/stash/movement.hpp"
#include "skeinfall/stash/skein.hpp"
#include "skeinfall/stash/work_reading.hpp"

namespace skeinfall::stash {

/// The readings of one yarn of a project that count, in the order they were taken: from the last on
/// that begins afresh. A reading that names no skein has that of the one before.
struct Work {
    std::string project;
    std::string role;
    std::vector<WorkReading> readings;
};
[[nodiscard]] std::vector<Work> works_of(const std::vector<WorkReading>& readings);

/// The stash as plans may count on it. The skein weighed last is kept for its project, as far as
/// nothing keeps it already. Of those that were in hand before it nobody knows what is left: they
/// are parts that were never weighed. A skein of which something was entered since its reading is
/// left as it is.
[[nodiscard]] std::vector<Skein> as_worked(std::vector<Skein> skeins,
                                           const std::vector<WorkReading>& readings);

/// What a reading says of the skein it was taken of: that it was weighed, or, where an amount of it
/// is set aside, that the difference went into the project. Nothing where there is none.
[[nodiscard]] std::optional<Movement> movement_of(const WorkReading& reading, const Skein& skein);

/// Keeps the skein in hand for its project, where nothing does already.
void keep_for(Skein& skein, const Work& work);

/// A part of which nobody knows how much it is, until it is weighed.
void forget_amount(Skein& skein);

/// Skeins from which movements say that a project took some.
[[nodiscard]] std::set<std::string> begun_for(const std::vector<Movement>& movements,
                                              std::string_view project);

/// What a project is said to have taken of a yarn, of other skeins than these, by movements; by the
/// label where a skein went whole. An empty `yarn` stands for any.
[[nodiscard]] units::Mass used_in(const std::vector<Movement>& movements, std::string_view project,
                                  std::string_view yarn, const std::vector<std::string>& but_of);

}  // namespace skeinfall::stash
