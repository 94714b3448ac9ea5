// Rows that several yarns work: each yarn's own stitches, and the strands it carries behind the
// others'. Cases are our own, worked out by hand.

#include <gtest/gtest.h>

#include "skeinfall/need/need.hpp"

namespace {

using namespace skeinfall;

constexpr double metres_each = 0.01;  // metres of yarn a stitch

/// Ten rounds of 40 stitches: 30 in MC, 10 in CC, each carried behind the other.
project::Project mitten() {
    project::Project out;
    out.craft = project::Craft::knit;
    out.gauge.stitches = 200.0 * units::stitch / units::metre;
    out.gauge.rows = 250.0 * units::row / units::metre;
    out.gauge.stitch = "k";
    for (const char* id : {"MC", "CC"}) {
        project::Role role;
        role.id = id;
        role.rate = metres_each * units::metre / units::stitch;
        out.roles.push_back(role);
    }
    const auto stitches = [](double count) { return count * units::stitch; };
    project::RowWork row;
    row.kinds = {{"k", stitches(40)}};
    row.made = row.across = row.consumed = stitches(40);
    row.colours = {{"MC", {{"k", stitches(30)}}, stitches(30), stitches(10), 0, {}},
                   {"CC", {{"k", stitches(10)}}, stitches(10), stitches(30), 0, {}}};
    project::Piece piece;
    piece.name = "hand";
    piece.role = "MC";
    piece.worked = project::Worked::round;
    piece.pattern.values.resize(1);
    piece.pattern.values.front().distinct = {row};
    piece.pattern.values.front().order.assign(10, 0);
    piece.foundation_rows = units::Ratio::from_value(1.0);
    piece.bind_off_rows = units::Ratio::from_value(2.0);
    out.pieces = {piece};
    return out;
}

double metres_of_part(const need::RoleNeed& role, need::Purpose purpose) {
    for (const need::Part& part : role.parts)
        if (part.purpose == purpose) return part.yarn / units::metre;
    return 0.0;
}

TEST(Colours, EachYarnTakesItsOwnStitchesAndTheStrandsItCarries) {
    const need::MakeNeed make = need::need_of(mitten(), 0);
    ASSERT_EQ(make.roles.size(), 2U);
    const need::RoleNeed& main = make.roles[0];
    const need::RoleNeed& contrast = make.roles[1];
    EXPECT_NEAR(metres_of_part(main, need::Purpose::body), 10 * 30 * metres_each, 1e-9);
    EXPECT_NEAR(metres_of_part(contrast, need::Purpose::body), 10 * 10 * metres_each, 1e-9);
    const double slack = need::usual::float_slack.value();
    EXPECT_NEAR(metres_of_part(main, need::Purpose::carried), 10 * 10 / 200.0 * slack, 1e-9);
    EXPECT_NEAR(metres_of_part(contrast, need::Purpose::carried), 10 * 30 / 200.0 * slack, 1e-9);
    // Cast on and bound off over the whole width, in the first yarn.
    EXPECT_NEAR(metres_of_part(main, need::Purpose::foundation), 40 * metres_each, 1e-9);
    EXPECT_NEAR(metres_of_part(main, need::Purpose::bind_off), 2 * 40 * metres_each, 1e-9);
    EXPECT_EQ(metres_of_part(contrast, need::Purpose::foundation), 0.0);
    EXPECT_EQ(metres_of_part(contrast, need::Purpose::bind_off), 0.0);
    EXPECT_EQ(contrast.runs, 1);
}

TEST(Colours, WhatIsNotCarriedIsBegunAnew) {
    project::Project make = mitten();
    project::WorkedRows& rows = make.pieces.front().pattern.values.front();
    for (project::ColourWork& colour : rows.distinct.front().colours) colour.carried = {};
    rows.distinct.front().colours[0].begun = 2;
    const need::MakeNeed need = need::need_of(make, 0);
    EXPECT_EQ(metres_of_part(need.roles[0], need::Purpose::carried), 0.0);
    EXPECT_EQ(need.roles[0].runs, 1 + 10 * 2);
}

}  // namespace
