#pragma once
/// \file
/// Panels in one yarn with a weighed swatch of it, and skeins of 100 m / 50 g. All invented.

#include <cstdint>
#include <string>
#include <vector>

#include "support/builders.hpp"

namespace skeinfall::support {

inline const std::string panel_yarn = "Quayside";

/// 3 sts and 2 rows to the inch; `swatch_g` of 20 rows of 28 stitches on a scale of 0.1 g.
inline project::Project panel(std::int64_t stitches, std::int64_t rows, double swatch_g = 18.5) {
    project::Project out = rectangle(stitches, rows);
    out.title = "Quay panel";
    out.roles.front().name = panel_yarn;
    out.roles.front().grist = grist("100 m / 50 g");
    out.roles.front().fibre = fibre("100% polyester");
    project::Swatch swatch;
    swatch.role = "MC";
    swatch.stitches = 28.0 * units::stitch;
    swatch.rows = 20.0 * units::row;
    swatch.weighing = weighed(swatch_g, 0.1);
    out.swatches = {swatch};
    return out;
}

inline stash::Skein panel_skein(const std::string& id) {
    yarn::Yarn yarn = yarn_of(panel_yarn, metres(100), grams(50));
    yarn.fibre = fibre("100% polyester");
    return whole(id, std::move(yarn), "1");
}

inline std::vector<stash::Skein> panel_skeins(int count) {
    std::vector<stash::Skein> out;
    for (int i = 1; i <= count; ++i) out.push_back(panel_skein("q" + std::to_string(i)));
    return out;
}

}  // namespace skeinfall::support
