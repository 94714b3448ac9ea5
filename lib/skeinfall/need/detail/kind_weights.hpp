#pragma once
/// \file
/// Rows of several kinds of stitch, weighed against the stitch that a rate is counted in. Inner
/// header of need.

#include <map>
#include <string>
#include <vector>

#include "skeinfall/need/calibrate.hpp"
#include "skeinfall/project/project.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::need {

/// The kind that a stitch named in a gauge or a swatch is: of the table, else its own name.
[[nodiscard]] std::string kind_of(const std::string& stitch, const project::Project& project);

/// A rate is yarn per stitch of the gauge. A kind of stitch counts as so many of these as the
/// role's swatches say, else as the stitch table does. Where the gauge's stitch is in neither
/// ("linen stitch"), a row counts as so many as the whole make has stitches across, shared out by
/// its yarn. Plain rows of a piece with a gauge of its own go by the room a stitch has.
class KindWeights {
  public:
    KindWeights(const project::Project& project, const std::vector<project::Row>& rows);

    /// The role's rates by kind are these from now on. Returns that of the gauge's stitch.
    units::YarnPerStitch teach(const std::string& role, const Calibration& calibration);

    /// Stitches of the gauge that take the row's yarn. A row without kinds is all of the gauge's.
    [[nodiscard]] units::StitchCount of(const project::Row& row);

    /// Relative spreads of a role's rows; 0 when all are of the gauge's stitch.
    struct Spread {
        units::Ratio told;   ///< of the kinds that swatches tell, all together
        units::Ratio model;  ///< of the others, each kind's weight being independent
    };
    [[nodiscard]] Spread spread(const std::vector<project::Row>& rows, const std::string& role);

  private:
    struct Told {
        const Calibration* calibration = nullptr;
        std::string measure;  ///< the kind that tells the level
        double level = 1.0;   ///< metres that the table's plain stitch would take
        double basis = 1.0;
    };
    /// What the stitches of a row are, and how many of the gauge's stitch one of them counts as
    /// beside its kind's own weight.
    struct Plain {
        std::string kind;
        double times = 1.0;
        bool by_room = false;  ///< only the room of a stitch tells
    };

    [[nodiscard]] const Told* told(const std::string& role) const;
    [[nodiscard]] double by_table(const std::string& kind);
    [[nodiscard]] double relative(const std::string& role, const std::string& kind);
    [[nodiscard]] double basis(const std::string& role);
    [[nodiscard]] double average(const std::string& role);
    [[nodiscard]] Plain plain(const project::Row& row);

    const project::Project* project_;
    const std::vector<project::Row>* rows_;
    std::string gauge_kind_;
    bool in_table_ = false;  ///< the gauge's kind
    double basis_ = 1.0;
    std::map<std::string, double> table_;
    std::map<std::string, Told> told_;
};

}  // namespace skeinfall::need
