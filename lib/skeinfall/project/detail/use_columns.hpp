#pragma once
/// \file
/// What a fabric is, as the columns of the regression on published makes. Read by the tool that
/// fits it and by the library that uses it. Inner header of project.

#include <string_view>
#include <vector>

namespace skeinfall::project {

/// One fabric as makes are described. 0 or empty: not known.
struct Fabric {
    bool knit = false;
    std::string_view stitch;          ///< as published_makes.csv names it
    std::string_view shape;           ///< "hat", "motifs" ...; empty or "rectangle": plain
    std::string_view texture;         ///< "raised", "stranded"
    double tool_mm = 0.0;             ///< diameter
    double grist = 0.0;               ///< m in 100 g, of all strands together; known
    double stitches_per_sq_dm = 0.0;  ///< stitches and rows of this stitch
    double area_sq_m = 0.0;
};

/// The tool that yarn of this length per mass is usually worked with, mm.
[[nodiscard]] double usual_tool_mm(double grist);

/// Columns of the regression of log(stitches in a square cm).
[[nodiscard]] std::vector<double> gauge_columns(const Fabric& fabric);
/// Columns of the regression of log(metres in a square metre). `usual_density` is the stitches in a
/// square dm that the other regression expects; `stated` is true for what a pattern asks for.
[[nodiscard]] std::vector<double> use_columns(const Fabric& fabric, double usual_density,
                                              bool stated);

/// What is believed of each column before the makes are seen: normal, independent. NaN as spread:
/// the scale of the stitches' (`of_stitch`) or shapes' (`of_shape`) is fitted.
struct ColumnPrior {
    std::string_view name;
    double mean = 0.0;
    double spread = 0.0;
    bool of_stitch = false;
    bool of_shape = false;
};
[[nodiscard]] std::vector<ColumnPrior> gauge_priors();
[[nodiscard]] std::vector<ColumnPrior> use_priors();

/// True when the makes have a column for the stitch.
[[nodiscard]] bool has_column(bool knit, std::string_view stitch);

/// How far a stitch's tool lies from the usual one, as a logarithm, where no tool is known.
inline constexpr double unknown_tool = 0.2;
/// Spread of the log density about its regression.
inline constexpr double density_spread = 0.22;

}  // namespace skeinfall::project
