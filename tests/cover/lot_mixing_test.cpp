// Mixing dye lots, against the makers' cases named at each test.

#include "skeinfall/cover/lot_mixing.hpp"

#include <cstdint>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/report/says.hpp"

#include "support/builders.hpp"

namespace {

using namespace skeinfall;
using project::Worked;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::SizeIs;
using units::metre;

std::string words(const cover::MixingPlan& plan) {
    return report::said(cover::Step(cover::MixLots{plan, true}));
}

// Which alternations find their yarn at the right edge when worked flat. Two-row turns and three
// colours in odd rows do (https://www.ascatteredcreative.com/knitting-with-hand-dyed-yarns.html,
// https://cabinfeverknittingdesigns.blogspot.com/2013/03/why-choose-to-work-with-stripes-in-3.html);
// single rows of two or four do not.
TEST(LotMixing, ParityWorkedFlat) {
    EXPECT_FALSE(cover::carried_without_cutting({1, 1}, Worked::flat));
    EXPECT_TRUE(cover::carried_without_cutting({2, 2}, Worked::flat));
    EXPECT_TRUE(cover::carried_without_cutting({1, 1, 1}, Worked::flat));
    EXPECT_TRUE(cover::carried_without_cutting({2, 2, 2}, Worked::flat));
    EXPECT_TRUE(cover::carried_without_cutting({3, 3, 3}, Worked::flat));
    EXPECT_FALSE(cover::carried_without_cutting({1, 1, 1, 1}, Worked::flat));
}

TEST(LotMixing, InTheRoundEveryAlternationWorks) {
    EXPECT_TRUE(cover::carried_without_cutting({1, 1}, Worked::round));
    EXPECT_TRUE(cover::carried_without_cutting({1, 1, 1, 1}, Worked::round));
}

// "Alternate rounds for an inch or so before the first lot ends"
// (https://www.schoolhousepress.com/blog/post/color-knitting): at 7 rounds to the inch 7 rounds, so
// 3 to 4 rounds' worth of the first lot must be kept back.
TEST(LotMixing, AFadeKeepsSomeOfTheFirstLotBack) {
    const cover::Fade fade = cover::fade_over(1.0 * units::inch, 7.0 * units::row / units::inch,
                                              4.0 * metre, Worked::round);
    EXPECT_EQ(fade.rows, 7);
    EXPECT_EQ(fade.rows_of_first, 4);
    EXPECT_NEAR(fade.kept_back / metre, 16.0, 1e-9);
    // Worked flat in turns of two rows: eight, four of them in the first lot.
    EXPECT_EQ(cover::fade_over(1.0 * units::inch, 7.0 * units::row / units::inch, 4.0 * metre,
                               Worked::flat)
                  .rows,
              8);
}

// Four light balls and eight dark ones: yoke all dark, then by turns. It works when the yoke needs
// at most four balls and the rest at most eight
// (http://craftylis.blogspot.com/2008_06_26_archive.html).
TEST(LotMixing, YokeInOneLotRestByTurns) {
    const auto balls = [](double count) { return count * metre; };
    EXPECT_TRUE(cover::beginning_in_one(balls(4), balls(8), balls(8), balls(4)).works);
    EXPECT_FALSE(cover::beginning_in_one(balls(4.1), balls(8), balls(8), balls(4)).works);
    EXPECT_FALSE(cover::beginning_in_one(balls(3.9), balls(8.1), balls(8), balls(4)).works);
    EXPECT_TRUE(cover::beginning_in_one(balls(5), balls(6), balls(8), balls(4)).works);
}

// The same for a piece of forty rows of 10 m with 300 m of one lot and 200 m of the other, ends of
// 15 cm off each ball: what the beginning may take is twice 299.1 m less 400 m, so 19 rows; or 28
// rows, then two of each by turns over four, with 20 m of the first kept back.
TEST(LotMixing, TheRowsWhereTheTurnsBeginAreNamed) {
    project::Project make = support::rectangle(20, 40);
    const auto kelpie = support::yarn_of("Kelpie", support::metres(100), support::grams(50));
    std::vector<stash::Skein> stash;
    for (const char* id : {"a1", "a2", "a3"}) stash.push_back(support::whole(id, kelpie, "A"));
    for (const char* id : {"b1", "b2"}) stash.push_back(support::whole(id, kelpie, "B"));
    need::MakeNeed need;
    need.roles = {support::need_of_length(400, 0.01)};
    for (std::int64_t row = 1; row <= 40; ++row) {
        need::Step step;
        step.role = "MC";
        step.row = row;
        step.yarn = 10.0 * metre;
        need.steps.push_back(step);
    }
    // Lengths as the labels say: spreads of the supply are asked for on top otherwise.
    cover::Rules rules;
    rules.confidence = {units::Ratio(0.5)};
    const cover::MakeCover out = cover::cover_make(make, need, stash, rules);
    ASSERT_NE(out.verdict, cover::Verdict::covered);
    const auto plan = cover::mixing_plan(make, need, out.roles[0], rules);
    ASSERT_THAT(plan, SizeIs(3));
    EXPECT_THAT(words(plan[1]),
                HasSubstr("begin in lot A and from row 20 of wrap on, alternate both"));
    EXPECT_THAT(words(plan[1]), HasSubstr("two rows of each, so that both wait at the same edge"));
    EXPECT_THAT(words(plan[2]), HasSubstr("lot A until row 28 of wrap begins"));
    EXPECT_THAT(words(plan[2]), HasSubstr("over 4 rows"));
    EXPECT_THAT(words(plan[2]), HasSubstr("Keep 22 yd (20 m) of lot A for those rows"));
    EXPECT_THAT(words(plan[2]), HasSubstr("look at a washed swatch"));
}

TEST(LotMixing, TheSmallestSetNeedsTwiceTheShortage) {
    const std::vector<cover::BlendPart> parts{{"back", 300.0 * metre},
                                              {"front", 290.0 * metre},
                                              {"sleeve", 360.0 * metre},
                                              {"collar", 40.0 * metre}};
    // 140 short: one part of at least 280, the smallest of them.
    const auto one = cover::smallest_blend(parts, 140.0 * metre);
    ASSERT_TRUE(one);
    EXPECT_THAT(one->parts, ElementsAre(1));
    EXPECT_NEAR(one->moved / metre, 145.0, 1e-9);
    // 170 short: only the sleeves have 340 alone.
    EXPECT_THAT(cover::smallest_blend(parts, 170.0 * metre)->parts, ElementsAre(2));
    // 190 short: two parts, of those the pair nearest above 380.
    EXPECT_THAT(cover::smallest_blend(parts, 190.0 * metre)->parts, ElementsAre(2, 3));
    EXPECT_FALSE(cover::smallest_blend(parts, 496.0 * metre));
}

TEST(LotMixing, AShortLotGetsAPlan) {
    project::Project make = support::rectangle(10, 10);
    const auto kelpie = support::yarn_of("Kelpie", support::metres(100), support::grams(50));
    std::vector<stash::Skein> stash;
    for (const char* id : {"a1", "a2", "a3"}) stash.push_back(support::whole(id, kelpie, "A"));
    for (const char* id : {"b1", "b2"}) stash.push_back(support::whole(id, kelpie, "B"));
    need::MakeNeed need;
    need.roles = {support::need_of_length(360, 0.01)};
    need.roles[0].role = make.roles[0].id;
    need::Step step;
    step.role = make.roles[0].id;
    step.name = "the make";
    step.yarn = 360.0 * metre;
    need.steps = {step};
    const cover::MakeCover out = cover::cover_make(make, need, stash, {});
    ASSERT_NE(out.verdict, cover::Verdict::covered);
    const auto plan = cover::mixing_plan(make, need, out.roles[0], {});
    ASSERT_THAT(plan, SizeIs(2));
    EXPECT_THAT(words(plan[0]), HasSubstr("Or mix two lots: lot A is "));
    EXPECT_THAT(words(plan[1]), HasSubstr("Or from the make on, alternate both"));
    EXPECT_THAT(words(plan[1]), HasSubstr("look at a washed swatch"));
    // Lots may be mixed anyway: no plan is needed.
    make.roles[0].one_lot = false;
    EXPECT_THAT(
        cover::mixing_plan(make, need, cover::cover_make(make, need, stash, {}).roles[0], {}),
        IsEmpty());
}

}  // namespace
