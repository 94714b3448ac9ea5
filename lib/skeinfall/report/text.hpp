#pragma once
/// \file
/// Answers as text for a terminal: verdict first, then reasons, then what to do next.

#include <string>
#include <vector>

#include "skeinfall/cover/cover.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::report {

[[nodiscard]] std::string need_text(const project::Project& project, const need::MakeNeed& make);

/// What a question was asked with, as it is typed again: " --size M".
struct AskedWith {
    std::string same;    ///< what every command answers by: size, confidence, stash, settings
    std::string margin;  ///< what all but the planning of joins answer by
    std::string had;     ///< yarn that is in no stash, so that nothing of it can be set aside
};

/// The commands that go on from there.
[[nodiscard]] std::string next_text(const project::Project& project, const cover::MakeCover& cover,
                                    const AskedWith& asked);

/// More than one skein, and where they are joined is not known: enough only if joined anywhere.
[[nodiscard]] bool only_if_joined_anywhere(const cover::RoleCover& role);
/// Behind a verdict: ", if joined anywhere", ", if Fen Aran will do" where nobody said which yarn.
[[nodiscard]] std::string conditions(const cover::RoleCover& role);
[[nodiscard]] std::string conditions(const cover::MakeCover& cover);
/// The same of a make that is covered.
[[nodiscard]] bool only_if_joined_anywhere(const cover::MakeCover& cover);

/// "  With your 10 % margin: chance 98 %."; empty where no margin is asked for.
[[nodiscard]] std::string margin_line(const cover::RoleCover& role, units::Ratio margin);

/// `why` adds every skein that was not taken, with its reason.
[[nodiscard]] std::string cover_text(const project::Project& project, const need::MakeNeed& make,
                                     const cover::MakeCover& cover, const cover::Rules& rules,
                                     bool why);

/// One line a skein, and totals a yarn.
[[nodiscard]] std::string stash_text(const std::vector<stash::Skein>& skeins);

/// All that is known of one skein.
[[nodiscard]] std::string skein_text(const stash::Skein& skein);

}  // namespace skeinfall::report
