// Joins that hide in a seam, a hem or a fold. Rows take a metre each.

#include "skeinfall/joins/hidden.hpp"

#include <cstdint>

#include <gtest/gtest.h>

#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/need/need.hpp"

namespace {

using namespace skeinfall;
using project::Hides;

/// 40 rows of 10 stitches at 10 cm a stitch.
project::Project hidden_strip(const std::string& piece) {
    return exchange::parse_project(R"(title = "Ring"
craft = "crochet"
tail = "10 cm"
[gauge]
stitches = "10 per 10 cm"
rows = "10 per 10 cm"
stitch = "sc"
[yarn.MC]
class = 4
grist = "200 m / 100 g"
rate = "10 cm per stitch"
[[piece]]
name = "strip"
stitches = 10
rows = 40
foundation_rows = 0
bind_off_rows = 0
)" + piece,
                                   "ring.toml");
}

joins::Ball exact_ball(const std::string& id, double metres) {
    return {id, {metres * units::metre, 0.0 * units::metre}};
}

joins::Request even_chance() {
    joins::Request out;
    out.confidence = {units::Ratio(0.5)};
    return out;
}

joins::Answer answer(const project::Project& project, const std::vector<joins::Ball>& balls) {
    return joins::answer_joins(project, need::need_of(project, 0), {{"MC", balls}}, even_chance());
}

// The first skein works 37 rows and its ends; the hem is rows 37 to 40.
TEST(Hidden, AJoinInAHem) {
    const project::Project project = hidden_strip("hem_rows = [\"last 4\"]\n");
    const joins::Answer plan = answer(project, {exact_ball("a", 37.5), exact_ball("b", 10.0)});
    ASSERT_EQ(plan.roles.at(0).plan.stretches.size(), 2U);
    const auto seen = joins::joins_seen(project, plan);
    ASSERT_EQ(seen.size(), 1U);
    const std::size_t step = plan.roles[0].plan.stretches[0].to.step;
    const std::int64_t row = plan.roles[0].plan.steps.at(step - 1).row;
    // Which skein goes first is the plan's affair; the zone tells what hides.
    EXPECT_EQ(seen[0].by.has_value(), row >= 36) << row;
    if (seen[0].by) {
        EXPECT_EQ(*seen[0].by, Hides::hem);
    }
    EXPECT_TRUE(joins::can_hide(project));
}

TEST(Hidden, NothingHidesWhereNothingIsSaid) {
    const project::Project project = hidden_strip("");
    EXPECT_FALSE(joins::can_hide(project));
    const auto seen =
        joins::joins_seen(project, answer(project, {exact_ball("a", 25), exact_ball("b", 25)}));
    ASSERT_EQ(seen.size(), 1U);
    EXPECT_FALSE(seen[0].by);
}

// Row 1 ends at the left edge, so odd rows end there.
TEST(Hidden, AtAnEdgeThatIsSewnUp) {
    for (const char* edge : {"left seamed", "right seamed", "seamed"}) {
        const project::Project project = hidden_strip("edge = \"" + std::string(edge) + "\"\n");
        const joins::Answer plan = answer(project, {exact_ball("a", 20.5), exact_ball("b", 30)});
        for (const joins::JoinSeen& join : joins::joins_seen(project, plan)) {
            const auto& stretch = plan.roles[0].plan.stretches[join.stretch];
            const std::int64_t row = plan.roles[0].plan.steps.at(stretch.to.step - 1).row;
            const bool left = row % 2 == 1;
            const bool sewn = std::string(edge) == "seamed" || left == (edge[0] == 'l');
            EXPECT_EQ(join.by.has_value(), sewn) << edge << ", row " << row;
        }
    }
}

// Of 30 and 21 m the short one first ends after row 20, in the fold of rows 18 to 22; the long one
// first ends after row 29, which shows.
TEST(Hidden, APlanMayPreferIt) {
    const project::Project project = hidden_strip("fold_rows = [\"18-22\"]\n");
    const joins::Hiding hiding = joins::answer_hidden(
        project, need::need_of(project, 0),
        {{"MC", {exact_ball("a", 30.0), exact_ball("b", 21.0)}}}, even_chance());
    EXPECT_TRUE(hiding.cost.lasts);
    EXPECT_EQ(hiding.cost.shown_after, 0);
    for (const joins::JoinSeen& join : joins::joins_seen(project, hiding.answer))
        EXPECT_EQ(join.by, Hides::fold);
}

TEST(Hidden, RowsAreReadFromBothEnds) {
    const auto zone = [](const char* text, std::int64_t rows) {
        return project::zone_in(project::parse_hidden_rows(Hides::hem, text).value(), rows);
    };
    EXPECT_EQ(zone("1-4", 40).last, 4);
    EXPECT_EQ(zone("last", 40).first, 40);
    EXPECT_EQ(zone("last 4", 40).first, 37);
    EXPECT_EQ(zone("last 4", 2).first, 1);
    for (const char* text : {"", "0", "4-1", "last 0", "last -1", "all", "middle"})
        EXPECT_FALSE(project::parse_hidden_rows(Hides::hem, text).ok()) << text;
}

}  // namespace
