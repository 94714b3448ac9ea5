// A stitch that nothing tells the yarn of is refused, and a rate taken from one stitch to another
// is as wide as the stitch table is. Projects of our own.

#include "skeinfall/need/unknown_stitches.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/need/need.hpp"
#include "skeinfall/project/stitches.hpp"

#include "support/builders.hpp"

namespace {

using namespace skeinfall;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using units::stitch;

/// Twenty rows of fifty stitches of this kind.
project::Project written_in(const std::string& kind) {
    project::Project out = support::rectangle(50, 20);
    out.roles.front().rate = 0.1 * units::metre / stitch;
    project::WorkedRows rows;
    project::RowWork row;
    row.kinds = {{kind, 50.0 * stitch}};
    row.made = row.across = row.consumed = 50.0 * stitch;
    rows.distinct = {row};
    rows.order.assign(20, 0);
    out.pieces.front().pattern = project::PerSize<project::WorkedRows>(rows);
    return out;
}

TEST(UnknownStitches, AreRefusedWhereNothingTellsTheirYarn) {
    const project::Project project = written_in("floof");
    EXPECT_THAT(need::unknown_stitches(project, 0), ElementsAre("floof"));
    try {
        static_cast<void>(need::need_of(project, 0));
        FAIL() << "1 500 of them would count as single crochet";
    } catch (const base::InputError& error) {
        EXPECT_THAT(error.problems().front().what, HasSubstr("floof"));
    }
    EXPECT_NO_THROW(static_cast<void>(need::need_of(need::with_plain_stitches(project), 0)));
}

TEST(UnknownStitches, OfTheTableTheProjectOrASwatchAreKnown) {
    EXPECT_THAT(need::unknown_stitches(written_in("dc"), 0), IsEmpty());
    project::Project described = written_in("floof");
    project::OwnStitch own;
    own.name = "floof";
    own.yarn = units::Ratio(3.0);
    described.stitches = {own};
    EXPECT_THAT(need::unknown_stitches(described, 0), IsEmpty());
    project::Project swatched = written_in("floof");
    project::Swatch swatch;
    swatch.role = "MC";
    swatch.kinds = {{"floof", 100.0 * stitch}};
    swatch.yarn = 20.0 * units::metre;
    swatched.swatches = {swatch};
    EXPECT_THAT(need::unknown_stitches(swatched, 0), IsEmpty());
    EXPECT_NO_THROW(static_cast<void>(need::need_of(swatched, 0)));
}

// 1 600 sc weigh 76 g; a piece of hdc takes what the table says of hdc to sc, and that is only
// known to 15 % at best.
TEST(OtherStitch, ASwatchInAnotherStitchHasTheSpreadOfTheTable) {
    project::Project project = support::rectangle(100, 40);
    project.gauge.stitch = "hdc";
    project.roles.front().grist = support::grist("100 m / 50 g");
    project::Swatch swatch;
    swatch.role = "MC";
    swatch.stitch = "sc";
    swatch.stitches = 40.0 * stitch;
    swatch.rows = 40.0 * units::row;
    swatch.weighing = support::weighed(76, 0.1);
    project.swatches = {swatch};
    const need::RoleNeed other = need::need_of(project, 0).roles.front();
    // Others' makes of such a fabric may narrow it a little.
    EXPECT_GT(other.length.relative().value(), 0.12);
    project.swatches.front().stitch = "hdc";
    EXPECT_LT(need::need_of(project, 0).roles.front().length.relative().value(), 0.05);
}

}  // namespace
