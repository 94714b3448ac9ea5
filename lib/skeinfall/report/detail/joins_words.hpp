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

/// Stretches that may end in a join, that of a spare included.
[[nodiscard]] std::size_t joined_stretches(const joins::JoinPlan& plan);

/// Stop weights in the order of the work; rows of a piece with the same weights are one line.
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
