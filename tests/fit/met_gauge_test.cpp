// A gauge as it was met. Expected figures are worked by hand beside each case.

#include "skeinfall/fit/met_gauge.hpp"

#include <gtest/gtest.h>

#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/need/need.hpp"

namespace {

using namespace skeinfall;
using units::inch;

project::Project read_scarf(const std::string& piece, const std::string& top = "",
                            const std::string& gauge = "") {
    return exchange::parse_project(top + R"(title = "Reed scarf"
craft = "crochet"
[gauge]
stitches = "4 per in"
rows = "4 per in"
stitch = "sc"
hook = "5.5 mm"
)" + gauge + R"([yarn.MC]
class = 4
grist = "170 yd / 3.5 oz"
rate = "2.5 in per stitch"
[[piece]]
name = "front"
)" + piece,
                                   "reed.toml");
}

project::Gauge per_inch(double stitches, double rows) {
    project::Gauge out;
    out.stitches = stitches * units::stitch / inch;
    out.rows = rows * units::row / inch;
    return out;
}

// "I get 4.5, the pattern wants 4": 72 stitches are 18 in as planned and 16 as met. 18 in take 81
// stitches at 4.5; of 6 n that is 78 or 84, both 3 off and the smaller is taken: 17.33 in.
TEST(MetGauge, FourAndAHalfWhereFourIsWanted) {
    const project::Project project = read_scarf("stitches = 72\nrows = 80\nmultiple = \"6\"\n");
    const fit::MetGauge met = fit::meet_gauge(project, 0, 0, per_inch(4.5, 4.0));
    EXPECT_FALSE(met.is_met);
    EXPECT_NEAR(met.planned.width / inch, 18.0, 1e-9);
    EXPECT_NEAR(met.comes_out.width / inch, 16.0, 1e-9);
    EXPECT_NEAR(met.comes_out.length / inch, 20.0, 1e-9);
    ASSERT_TRUE(met.instead);
    EXPECT_EQ(met.instead->stitches.below, 78);
    EXPECT_EQ(met.instead->stitches.above, 84);
    EXPECT_EQ(met.instead->stitches.taken, 78);
    EXPECT_NEAR(met.instead->measures.width / inch, 78.0 / 4.5, 1e-9);
    EXPECT_EQ(met.instead->rows.taken, 80);
    // Stitches too many: a larger hook. 5.5 x 4.5 / 4 is 6.19 mm, so 6 mm.
    ASSERT_TRUE(met.tool);
    EXPECT_NEAR(*met.tool / units::millimetre, 6.0, 1e-9);
    // A stitch takes less where it has less room: sqrt(4 / 4.5) is 0.943.
    const auto length = [](const project::Project& of) {
        return need::need_of(of, 0).roles.front().length.centre;
    };
    EXPECT_NEAR(length(met.as_written) / length(project), 0.9428, 1e-3);
}

TEST(MetGauge, TooFewStitchesAskForASmallerHook) {
    const fit::MetGauge met =
        fit::meet_gauge(read_scarf("stitches = 72\nrows = 80\n"), 0, 0, per_inch(3.5, 4.0));
    ASSERT_TRUE(met.tool);
    EXPECT_LT(*met.tool / units::millimetre, 5.5);
}

// S 64, M 72, L 80 stitches: 16, 18, 20 in as planned. At 4.5 they are 14.2, 16, 17.8: L is the one
// to work for 18 in.
TEST(MetGauge, WhichSizeToWorkInstead) {
    const project::Project project =
        read_scarf("stitches = [64, 72, 80]\nrows = 80\n", "sizes = [\"S\", \"M\", \"L\"]\n");
    const fit::MetGauge met = fit::meet_gauge(project, 0, 1, per_inch(4.5, 4.0));
    ASSERT_TRUE(met.other_size);
    EXPECT_EQ(*met.other_size, 2U);
    EXPECT_NEAR(met.other_comes_out.width / inch, 80.0 / 4.5, 1e-9);
}

TEST(MetGauge, TheGaugeThatIsMetChangesNothing) {
    const project::Project project = read_scarf("stitches = 72\nrows = 80\n");
    const fit::MetGauge met = fit::meet_gauge(project, 0, 0, per_inch(4.0, 4.0));
    EXPECT_TRUE(met.is_met);
    EXPECT_FALSE(met.tool || met.other_size);
    EXPECT_EQ(met.instead->stitches.taken, 72);
    EXPECT_EQ(met.instead->rows.taken, 80);
}

// Ten rows of 72 stitches measure 16 by 2.5 in: 4.5 and 4 to the inch. Where the project keeps
// gauge before washing apart (4 washed from 4.4), the washed one is 4 / 4.4 of it.
TEST(MetGauge, FromRowsOfThePieceItself) {
    const project::FinishedSize measured{16.0 * inch, 2.5 * inch};
    const project::Gauge plain =
        fit::gauge_of_rows(read_scarf("stitches = 72\nrows = 80\n"), 0, 0, 10, measured);
    EXPECT_NEAR(plain.stitches * inch / units::stitch, 4.5, 1e-9);
    EXPECT_NEAR(plain.rows * inch / units::row, 4.0, 1e-9);
    const project::Gauge washed = fit::gauge_of_rows(
        read_scarf("stitches = 72\nrows = 80\n", "", "unwashed_stitches = \"4.4 per in\"\n"), 0, 0,
        10, measured);
    EXPECT_NEAR(washed.stitches * inch / units::stitch, 4.5 * 4.0 / 4.4, 1e-9);
    EXPECT_THROW(static_cast<void>(fit::gauge_of_rows(read_scarf("stitches = 72\nrows = 80\n"), 0,
                                                      0, 81, measured)),
                 base::InputError);
}

TEST(MetGauge, AGaugeThatIsStatedTwiceIsRefused) {
    const project::Project project = read_scarf(
        "stitches = 72\nrows = 80\n[maker_gauge]\nstitches = \"4.5 per in\"\nrows = \"4 per "
        "in\"\nkeep = \"size\"\n");
    EXPECT_THROW(static_cast<void>(fit::meet_gauge(project, 0, 0, per_inch(5.0, 4.0))),
                 base::InputError);
}

}  // namespace
