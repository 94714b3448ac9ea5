#pragma once
/// \file
/// A make in work: what readings of it say is done, what of the stash is in it, and whether the
/// rest of its plan lasts.

#include <cstddef>
#include <string>
#include <vector>

#include "skeinfall/cover/cover.hpp"
#include "skeinfall/joins/forecast.hpp"
#include "skeinfall/joins/plan.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/need/rest.hpp"
#include "skeinfall/project/project.hpp"
#include "skeinfall/stash/in_work.hpp"
#include "skeinfall/stash/movement.hpp"
#include "skeinfall/stash/skein.hpp"

namespace skeinfall::plan {

/// What a stash tells of a make in work beside its skeins.
struct Record {
    std::vector<stash::WorkReading> readings;  ///< of this project; of others too, unheeded
    std::vector<stash::Movement> movements;
};

/// What is done, for cover::Rules::done, and the stash as the rest may count on it. Where the rows
/// took more than the record tells of, skeins as long as that are taken for parts that nobody
/// weighed (`taken`).
struct InWork {
    std::vector<need::Worked> done;
    std::vector<stash::Skein> stash;
    std::vector<std::string> taken;
};

/// Readings of a yarn whose length per mass is not known say nothing here. Throws base::InputError
/// where a reading contradicts the project or those before it.
[[nodiscard]] InWork in_work(const project::Project& project, std::size_t size,
                             const std::vector<stash::Skein>& stash, const Record& record,
                             const cover::Rules& rules);

/// How the skein on the scale is known.
enum class Hand {
    named,      ///< by its reading
    by_record,  ///< the one skein that the project is said to have begun
    by_plan,    ///< of the plan's skeins, the one that the reading fits
    unknown,    ///< none of the stash, as far as can be told
};

/// Of one role, while it is worked.
struct RoleProgress {
    joins::JoinPlan plan;  ///< of the whole make without skeins: its steps name the places
    joins::Progress progress;
    Hand hand = Hand::unknown;
    std::string in_hand;             ///< its id, where it is known
    std::vector<std::string> later;  ///< ids of the skeins that the rest counts on after it
    std::vector<std::string> taken;  ///< see InWork
    /// The rows should have taken so much more than the scale shows gone: it is not counted on.
    units::Mass not_told{};
    /// Pieces that no reading is of, and that count as worked since they come first.
    std::vector<std::string> worked_before;
    /// What is not counted on although it may belong to the role: the skein on the scale is not
    /// known, and may be one of these.
    std::vector<std::string> not_counted;
};

/// Readings of one role, those on record and new ones, in order.
struct Asked {
    std::string role;
    std::vector<stash::WorkReading> readings;
    /// Skeins not begun yet that were told outright; the stash's are not counted then.
    joins::Untouched more{};
    std::size_t more_skeins = 0;
    bool in_stash = true;  ///< look in the stash for the others
};

/// Throws base::InputError as in_work() does, and where nothing is known to work with.
[[nodiscard]] RoleProgress progress_of(const project::Project& project, std::size_t size,
                                       const std::vector<stash::Skein>& stash, const Record& record,
                                       const cover::Rules& rules, const Asked& asked);

}  // namespace skeinfall::plan
