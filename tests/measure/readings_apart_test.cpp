// Weighings of one skein agree within a few grams.

#include "skeinfall/measure/readings_apart.hpp"

#include <vector>

#include <gtest/gtest.h>

namespace {

using namespace skeinfall::units;
using skeinfall::measure::of_different_things;
using skeinfall::measure::ScaleReading;

std::vector<ScaleReading> readings(const std::vector<double>& grams, double step) {
    std::vector<ScaleReading> out;
    for (const double one : grams) out.push_back({one * gram, step * gram, std::nullopt});
    return out;
}

TEST(ReadingsApart, AFewGramsAreOneSkein) {
    EXPECT_FALSE(of_different_things({}));
    EXPECT_FALSE(of_different_things(readings({62.0}, 1.0)));
    EXPECT_FALSE(of_different_things(readings({62.0, 59.0, 61.0}, 1.0)));
    // A coarse scale, and a light ball.
    EXPECT_FALSE(of_different_things(readings({20.0, 15.0}, 5.0)));
}

TEST(ReadingsApart, HalfAsMuchIsAnother) {
    EXPECT_TRUE(of_different_things(readings({62.0, 30.0}, 1.0)));
    EXPECT_TRUE(of_different_things(readings({62.0, 61.0, 52.0}, 1.0)));
}

}  // namespace
