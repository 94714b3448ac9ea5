// A graded project over its sizes.

#include "skeinfall/need/sizes.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "support/builders.hpp"

namespace {

using namespace skeinfall;
using project::PerSize;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using units::metre;

/// A body that grows, a pocket that does not, and a border of 2 m, at 1 cm a stitch.
project::Project vest(std::vector<std::int64_t> stitches) {
    project::Project out = support::rectangle(1, 100);
    out.roles[0].rate = units::YarnPerStitch(0.01 * metre / units::stitch);
    out.craft = project::Craft::crochet;
    for (std::size_t size = 0; size < stitches.size(); ++size)
        out.sizes.push_back(std::to_string(size + 1));
    out.pieces[0].name = "body";
    out.pieces[0].stitches.values = std::move(stitches);
    out.pieces.push_back(support::piece("pocket", "MC", 20, 30));
    project::FinishPart border;
    border.kind = project::PartKind::border;
    border.name = "border";
    border.role = "MC";
    border.yarn = PerSize<units::Length>(2.0 * metre);
    out.finish = {border};
    return out;
}

TEST(Sizes, WhatIsTheSameAndWhatGrows) {
    const need::SizesNeed need = need::need_of_sizes(vest({100, 120, 140}));
    ASSERT_EQ(need.sizes.size(), 3U);
    ASSERT_EQ(need.roles.size(), 1U);
    const need::RoleOfSizes& role = need.roles[0];
    ASSERT_EQ(role.parts.size(), 3U);
    EXPECT_EQ(role.parts[0].name, "body");
    EXPECT_FALSE(role.parts[0].fixed);
    EXPECT_TRUE(role.parts[1].fixed && role.parts[2].fixed);
    for (std::size_t size = 0; size < 3; ++size) {
        EXPECT_NEAR(role.fixed[size] / metre, 6.0 + 2.0, 1e-9);
        EXPECT_NEAR(role.scaling[size] / metre, 100.0 + 20.0 * static_cast<double>(size), 1e-9);
        EXPECT_EQ(role.printed[size], role.need[size].centre);
    }
    EXPECT_THAT(role.out_of_line, IsEmpty());
}

// From 100 m: 20 m more each time, but 80 m more for the fourth.
TEST(Sizes, ALeapIsFlagged) {
    const auto found = need::need_of_sizes(vest({100, 120, 140, 220, 240})).roles[0].out_of_line;
    EXPECT_THAT(found, ElementsAre(need::OutOfLine{3, need::Growth::leaps}));
}

TEST(Sizes, AFallIsFlaggedUnlessItIsRounding) {
    EXPECT_THAT(need::need_of_sizes(vest({100, 90})).roles[0].out_of_line,
                ElementsAre(need::OutOfLine{1, need::Growth::falls}));
    const need::RoleOfSizes hardly = need::need_of_sizes(vest({200, 199, 220})).roles[0];
    EXPECT_THAT(hardly.out_of_line, IsEmpty());
    EXPECT_EQ(hardly.printed[1], hardly.need[0].centre);
    EXPECT_LT(hardly.need[1].centre, hardly.printed[1]);
}

// chest, body, sleeve, arm and wrist of S to XL: 7658, 8672, 9734 and 10 844 square cm; M takes
// 1180 m, 60 m of it in borders that do not grow: 1049.0, 1180, 1317.2, 1460.5 m (our own figures).
TEST(Sizes, AreaWithAFixedPart) {
    project::Project pullover = vest({7658, 8672, 9734, 10'844});
    pullover.pieces.pop_back();
    pullover.pieces[0].rows = PerSize<std::int64_t>(1);
    pullover.roles[0].rate = units::YarnPerStitch((1180.0 - 60.0) / 8672.0 * metre / units::stitch);
    pullover.finish[0].yarn = PerSize<units::Length>(60.0 * metre);
    const need::RoleOfSizes role = need::need_of_sizes(pullover).roles[0];
    const std::vector<double> expected{1049.0, 1180.0, 1317.2, 1460.5};
    for (std::size_t size = 0; size < expected.size(); ++size)
        EXPECT_NEAR(role.need[size].centre / metre, expected[size], 0.05);
}

RC_GTEST_PROP(Sizes, PartsAddUpAndLargerIsNeverLess, ()) {
    std::vector<std::int64_t> stitches =
        *rc::gen::nonEmpty(rc::gen::container<std::vector<std::int64_t>>(
            rc::gen::inRange(std::int64_t{1}, std::int64_t{400})));
    std::sort(stitches.begin(), stitches.end());
    const project::Project made = vest(stitches);
    const need::SizesNeed need = need::need_of_sizes(made);
    const need::RoleOfSizes& role = need.roles[0];
    for (std::size_t size = 0; size < stitches.size(); ++size) {
        const units::Length both = role.fixed[size] + role.scaling[size];
        RC_ASSERT(std::abs(both / role.need[size].centre - 1.0) < 1e-12);
        RC_ASSERT(size == 0 || role.printed[size] >= role.printed[size - 1]);
    }
}

}  // namespace
