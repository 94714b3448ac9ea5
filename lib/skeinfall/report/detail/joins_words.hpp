#pragma once
/// \file
/// What text, picture and page say alike of joins. Inner header of report.

#include <optional>
#include <string>
#include <vector>

#include "skeinfall/joins/answer.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::report {

/// "1 join", "0 joins, perhaps 1", with the chance where that is below the confidence.
[[nodiscard]] std::string joins_headline(const joins::Answer& answer);

/// How sure it is that the skeins of a plan last, and which spare to keep at hand; nothing when
/// they last at the confidence or are not expected to.
[[nodiscard]] std::optional<std::string> lasts_words(const project::Project& project,
                                                     const joins::JoinPlan& plan,
                                                     measure::Chance confidence);

/// The chance of who goes by the slip, where it is more than a point lower.
[[nodiscard]] std::optional<std::string> slip_words(const joins::JoinPlan& plan);

/// When a skein is to be weighed for the first time: "after row 4 of panel" of the first, "4 rows
/// after its join" of those whose beginning is not known in advance.
[[nodiscard]] std::string first_weighing(const project::Project& project,
                                         const joins::JoinPlan& plan, std::size_t stretch);

/// What comes nearest to a plan that does not work, in words.
[[nodiscard]] std::string nearest_words(const project::Project& project,
                                        const joins::Nearest& nearest);

/// The notes of a role, and what comes nearest where its plan does not work.
[[nodiscard]] std::vector<std::string> notes_with_nearest(const project::Project& project,
                                                          const joins::RoleJoins& role);

/// Stretches that may end in a join, that of a spare included.
[[nodiscard]] std::size_t joined_stretches(const joins::JoinPlan& plan);

/// Stop weights in the order of the work; rows of a piece with the same weights are one line. Where
/// a skein may end in many copies of a piece, so is a copy, and so are copies with the same weight.
struct StopLine {
    std::size_t stretch = 0;
    std::string place;
    std::string next;
    std::string rest;  ///< empty for a skein that ends in a join
};
[[nodiscard]] std::vector<StopLine> stop_lines(const project::Project& project,
                                               const joins::RoleJoins& role,
                                               const joins::Scale& scale);

}  // namespace skeinfall::report
