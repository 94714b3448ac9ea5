// A maker's gauge against a pattern's.

#include "skeinfall/need/gauge.hpp"

#include <gtest/gtest.h>

namespace {

using namespace skeinfall;
using need::Keeping;
using units::centimetre;

project::Gauge gauge_per_10_cm(double stitches, double rows) {
    project::Gauge out;
    out.stitches = stitches * units::stitch / (10.0 * centimetre);
    out.rows = rows * units::row / (10.0 * centimetre);
    return out;
}

// Pattern 20 x 28, maker 21 x 29 in 10 cm: sqrt(560/609) and its inverse (our own models).
TEST(Gauge, CountsAndSizeHaveOppositeSigns) {
    const need::GaugeChange counts = need::gauge_change(
        gauge_per_10_cm(20, 28), gauge_per_10_cm(21, 29), Keeping::stitch_counts);
    EXPECT_NEAR(counts.yarn.value(), 0.95893, 5e-6);
    EXPECT_NEAR(counts.width.value(), 20.0 / 21.0, 1e-12);
    EXPECT_NEAR(counts.height.value(), 28.0 / 29.0, 1e-12);
    const need::GaugeChange size =
        need::gauge_change(gauge_per_10_cm(20, 28), gauge_per_10_cm(21, 29), Keeping::size);
    EXPECT_NEAR(size.yarn.value(), 1.04283, 5e-6);
    EXPECT_EQ(size.width.value(), 1.0);
    EXPECT_EQ(size.height.value(), 1.0);
}

TEST(Gauge, TheSameGaugeChangesNothing) {
    for (const Keeping keeping : {Keeping::stitch_counts, Keeping::size})
        EXPECT_NEAR(need::gauge_change(gauge_per_10_cm(13, 8), gauge_per_10_cm(13, 8), keeping)
                        .yarn.value(),
                    1.0, 1e-12);
}

}  // namespace
