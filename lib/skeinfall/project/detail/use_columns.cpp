#include "skeinfall/project/detail/use_columns.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace skeinfall::project {
namespace {

struct StitchColumn {
    bool knit;
    std::string_view name;
};
constexpr std::array stitch_columns{StitchColumn{false, "sc"},
                                    StitchColumn{false, "hdc"},
                                    StitchColumn{false, "dc"},
                                    StitchColumn{false, "granny"},
                                    StitchColumn{false, "mesh"},
                                    StitchColumn{false, "mixed-crochet"},
                                    StitchColumn{false, "v-stitch"},
                                    StitchColumn{false, "waffle/post"},
                                    StitchColumn{false, "ribbed-crochet"},
                                    StitchColumn{true, "stockinette"},
                                    StitchColumn{true, "garter"},
                                    StitchColumn{true, "rib"},
                                    StitchColumn{true, "cable"},
                                    StitchColumn{true, "lace"},
                                    StitchColumn{true, "mixed-knit"},
                                    StitchColumn{true, "seed/moss"}};
constexpr std::array<std::string_view, 8> shape_names{"hat",    "garment",  "motifs", "tube",
                                                      "mitten", "triangle", "circle", "sock"};

constexpr double reference_tool = 5.0;
constexpr double reference_grist = 190.0;
constexpr double reference_area = 0.1;

double tool_of(const Fabric& fabric) {
    return std::log((fabric.tool_mm > 0.0 ? fabric.tool_mm : usual_tool_mm(fabric.grist)) /
                    reference_tool);
}

void add_stitches(const Fabric& fabric, std::vector<double>& out) {
    for (const StitchColumn& one : stitch_columns)
        out.push_back(one.knit == fabric.knit && one.name == fabric.stitch ? 1.0 : 0.0);
}

}  // namespace

double usual_tool_mm(double grist) {
    // Through 5 mm for a worsted weight and 3.25 mm for a fingering, 8.5 mm for a super bulky:
    // common practice, no source.
    constexpr double power = 0.55;
    return reference_tool * std::pow(reference_grist / grist, power);
}

bool has_column(bool knit, std::string_view stitch) {
    return std::any_of(stitch_columns.begin(), stitch_columns.end(), [&](const StitchColumn& one) {
        return one.knit == knit && one.name == stitch;
    });
}

std::vector<double> gauge_columns(const Fabric& fabric) {
    std::vector<double> out{1.0, fabric.knit ? 1.0 : 0.0};
    add_stitches(fabric, out);
    out.push_back(tool_of(fabric));
    out.push_back(std::log(fabric.grist / reference_grist));
    return out;
}

std::vector<double> use_columns(const Fabric& fabric, double usual_density, bool stated) {
    std::vector<double> out{1.0, fabric.knit ? 1.0 : 0.0};
    add_stitches(fabric, out);
    for (const std::string_view shape : shape_names)
        out.push_back(shape == fabric.shape ? 1.0 : 0.0);
    out.push_back(fabric.texture == "raised" ? 1.0 : 0.0);
    out.push_back(fabric.texture == "stranded" ? 1.0 : 0.0);
    out.push_back(tool_of(fabric));
    out.push_back(std::log(fabric.grist / reference_grist));
    out.push_back(fabric.stitches_per_sq_dm > 0.0
                      ? std::log(fabric.stitches_per_sq_dm / usual_density)
                      : 0.0);
    out.push_back(fabric.area_sq_m > 0.0 ? std::log(fabric.area_sq_m / reference_area) : 0.0);
    out.push_back(stated ? 1.0 : 0.0);
    return out;
}

std::vector<ColumnPrior> gauge_priors() {
    std::vector<ColumnPrior> out{{"level", std::log(2.6), 2.0}, {"knit", 0.4, 0.5}};
    for (const StitchColumn& one : stitch_columns) out.push_back({one.name, 0.0, 0.35});
    out.push_back({"tool", -1.5, 0.5});
    out.push_back({"length per mass", 0.2, 0.3});
    return out;
}

std::vector<ColumnPrior> use_priors() {
    std::vector<ColumnPrior> out{{"level", 7.0, 1.0}, {"knit", -0.15, 0.3}};
    for (const StitchColumn& one : stitch_columns) out.push_back({one.name, 0.0, 0.0, true, false});
    for (const std::string_view shape : shape_names) out.push_back({shape, 0.0, 0.0, false, true});
    out.push_back({"raised", 0.3, 0.3});
    // Two yarns go through each row: up to twice the plain fabric (common practice, no source).
    out.push_back({"stranded", 0.45, 0.25});
    out.push_back({"tool", -0.6, 0.3});
    out.push_back({"length per mass", 0.35, 0.3});
    // A loop goes with the root of its room (Munden, J. Text. Inst. 50, 1959, T448, from memory).
    out.push_back({"stitches in an area", 0.5, 0.15});
    out.push_back({"area", 0.0, 0.05});
    out.push_back({"stated", 0.05, 0.05});
    return out;
}

}  // namespace skeinfall::project
