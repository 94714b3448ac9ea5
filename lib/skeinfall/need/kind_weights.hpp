#pragma once
/// \file
/// Rows of several kinds of stitch, weighed against the stitch that a rate is counted in. Inner
/// header of need.

#include <map>
#include <string>
#include <vector>

#include "skeinfall/project/project.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::need {

/// A rate is yarn per stitch of the gauge. Where the gauge's stitch is one of the table, a row
/// counts as so many of these as its kinds take yarn; where it is not ("linen stitch"), as so many
/// as the whole make has stitches across, shared out by its yarn.
class KindWeights {
  public:
    KindWeights(const project::Project& project, const std::vector<project::Row>& rows);

    /// Stitches of the gauge that take the row's yarn. A row without kinds is all of the gauge's.
    [[nodiscard]] units::StitchCount of(const project::Row& row);
    /// Relative spread of a role's rows from the weights of their kinds, each kind's being
    /// independent; 0 when all are of the gauge's stitch.
    [[nodiscard]] units::Ratio spread(const std::vector<project::Row>& rows,
                                      const std::string& role);

  private:
    [[nodiscard]] units::Ratio relative(const std::string& kind);

    const project::Project* project_;
    std::string gauge_kind_;  ///< empty: not one of the table
    double basis_ = 1.0;
    std::map<std::string, double> known_;
};

}  // namespace skeinfall::need
