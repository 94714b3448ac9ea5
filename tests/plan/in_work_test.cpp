// Work in progress: what a reading says is done, which skeins the rest counts on, and that progress
// and cover say one chance of it. Makes of our own.

#include "skeinfall/plan/in_work.hpp"

#include <cstdint>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/cover/largest.hpp"
#include "skeinfall/need/rest.hpp"
#include "skeinfall/plan/make_plan.hpp"

#include "plan/makes.hpp"

namespace {

using namespace skeinfall;
using ::testing::ElementsAre;
using ::testing::IsEmpty;

stash::WorkReading after_row(std::int64_t row, double shown_g, const std::string& skein = {}) {
    stash::WorkReading out;
    out.project = "Quay panel";
    out.role = "MC";
    out.row = row;
    out.skein = skein;
    out.mass = support::grams(shown_g);
    out.scale = support::grams(0.1);
    return out;
}

cover::Rules rules_of(const project::Project& project) {
    cover::Rules out;
    out.project = project.title;
    out.tail = project.tail;
    return out;
}

plan::RoleProgress progress_of(const project::Project& project,
                               const std::vector<stash::Skein>& stash,
                               std::vector<stash::WorkReading> readings) {
    plan::Asked asked;
    asked.role = "MC";
    asked.readings = std::move(readings);
    return plan::progress_of(project, 0, stash, {}, rules_of(project), asked);
}

// A row of 60 stitches takes 60 x 18.5 / 560 g = 1.98 g, so 24 rows a skein of 50 g and three
// skeins for 60 rows.
const project::Project three_skeins = support::panel(60, 60);

TEST(InWork, CountsTheSkeinsThatComeLater) {
    const auto stash = support::panel_skeins(3);
    const auto found = progress_of(three_skeins, stash, {after_row(10, 30.0, "q1")});
    EXPECT_EQ(found.hand, plan::Hand::named);
    EXPECT_THAT(found.later, ElementsAre("q2", "q3"));
    EXPECT_GT(found.progress.lasts.value.value(), 0.95);
    EXPECT_EQ(found.progress.certain, found.plan.steps.size());
}

// Half-way the second skein is on the needles, lighter than the one that is whole: it goes first,
// and no other yarn of the make takes it.
TEST(InWork, TheSkeinInHandGoesFirst) {
    for (const char* hand : {"q2", "q3"}) {
        const plan::Record record{{after_row(30, 40.0, hand)}, {}};
        const auto stash = stash::as_worked(support::panel_skeins(3), record.readings);
        cover::Rules rules = rules_of(three_skeins);
        plan::InWork work = plan::in_work(three_skeins, 0, stash, record, rules);
        rules.done = work.done;
        const plan::MakePlan made = plan::plan_make(three_skeins, 0, work.stash, rules, {});
        EXPECT_EQ(made.cover.verdict, cover::Verdict::covered);
        EXPECT_EQ(made.cover.roles.at(0).in_hand, hand);
        const auto& stretches = made.joins.roles.at(0).plan.stretches;
        ASSERT_EQ(stretches.size(), 2U);
        EXPECT_EQ(stretches[0].ball.id, hand);
    }
}

// A reading that names no skein is of the one that the plan has there: what is gone of it is not
// there a second time.
TEST(InWork, CoverKnowsTheSkeinOfTheUnnamedReadingAsProgressDoes) {
    const project::Project project = support::panel(60, 27);
    const auto stash = support::panel_skeins(1);
    for (const std::vector<stash::WorkReading>& readings :
         {std::vector{after_row(6, 36.5)}, std::vector{after_row(6, 36.5), after_row(12, 22.0)}}) {
        const plan::InWork work =
            plan::in_work(project, 0, stash, {readings, {}}, rules_of(project));
        ASSERT_EQ(work.done.size(), 1U);
        EXPECT_EQ(work.done[0].skein, "q1");
        cover::Rules rules = rules_of(project);
        rules.done = work.done;
        const plan::MakePlan made = plan::plan_make(project, 0, work.stash, rules, {});
        const auto by_progress = progress_of(project, stash, readings);
        EXPECT_EQ(by_progress.hand, plan::Hand::by_plan);
        EXPECT_NEAR(made.cover.chance.value.value(), by_progress.progress.lasts.value.value(),
                    0.01);
        EXPECT_LT(made.cover.chance.value.value(), 0.5);
    }
}

TEST(InWork, TakesAnUnnamedSkeinForThePlansOwn) {
    const auto stash = support::panel_skeins(3);
    const auto first = progress_of(three_skeins, stash, {after_row(10, 30.0)});
    EXPECT_EQ(first.hand, plan::Hand::by_plan);
    EXPECT_EQ(first.in_hand, "q1");
    EXPECT_THAT(first.later, ElementsAre("q2", "q3"));
    // Thirty rows took 59 g: one skein and a fifth of the next.
    const auto second = progress_of(three_skeins, stash, {after_row(30, 40.0)});
    EXPECT_EQ(second.in_hand, "q2");
    EXPECT_THAT(second.later, ElementsAre("q3"));
}

TEST(InWork, CountsNothingThatMayBeOnTheScale) {
    const auto stash = support::panel_skeins(3);
    // Two thirds of what the plan says: no skein of the plan fits.
    const auto found = progress_of(three_skeins, stash, {after_row(30, 20.0)});
    EXPECT_EQ(found.hand, plan::Hand::unknown);
    EXPECT_THAT(found.later, IsEmpty());
    EXPECT_THAT(found.not_counted, ElementsAre("q1", "q2", "q3"));
}

TEST(InWork, ProgressAndCoverSayOneChance) {
    const project::Project project = support::panel(60, 71);
    auto stash = support::panel_skeins(3);
    const std::vector<stash::WorkReading> readings{after_row(0, 49.8, "q1"),
                                                   after_row(10, 30.0, "q1")};
    const auto found = progress_of(project, stash, readings);
    ASSERT_GT(found.progress.lasts.value.value(), 0.05);
    ASSERT_LT(found.progress.lasts.value.value(), 0.99);
    // As the stash has it once the readings are kept.
    stash[0].weighing = measure::Weighing{readings.back().mass, readings.back().scale, {}};
    stash = stash::as_worked(stash, readings);
    cover::Rules rules = rules_of(project);
    const plan::InWork work = plan::in_work(project, 0, stash, {readings, {}}, rules);
    rules.done = work.done;
    const plan::MakePlan plan = plan::plan_make(project, 0, work.stash, rules, {});
    EXPECT_NEAR(plan.cover.chance.value.value(), found.progress.lasts.value.value(), 1e-9);
    EXPECT_NEAR(plan.joins.lasts.value.value(), found.progress.lasts.value.value(), 1e-9);
    // Its first row to work is the eleventh.
    EXPECT_EQ(plan.joins.roles.front().plan.steps.front().row, 11);
}

TEST(InWork, LargestGoesByWhatIsDone) {
    const project::Project project = support::panel(60, 60);
    auto stash = support::panel_skeins(3);
    const std::vector<stash::WorkReading> readings{after_row(0, 49.8, "q1"),
                                                   after_row(10, 30.0, "q1")};
    stash[0].weighing = measure::Weighing{readings.back().mass, readings.back().scale, {}};
    cover::Rules rules = rules_of(project);
    const plan::InWork work = plan::in_work(project, 0, stash, {readings, {}}, rules);
    rules.done = work.done;
    const auto most = cover::largest(project, 0, work.stash, rules, {});
    ASSERT_TRUE(most.sure);
    EXPECT_GT(most.sure->value, 60);
    EXPECT_LT(most.sure->value, 76);
    EXPECT_THROW(static_cast<void>(cover::largest(project, 0, work.stash, rules,
                                                  {cover::Extent::width, 0, 1, 0})),
                 base::InputError);
}

TEST(InWork, SkeinsThatRowsMustHaveTakenAreToBeWeighed) {
    const auto stash = support::panel_skeins(3);
    // Thirty rows took 59 g, and of q2 only 10 g went: some of q1 or q3 must have.
    const auto found = progress_of(three_skeins, stash, {after_row(30, 40.0, "q2")});
    EXPECT_THAT(found.taken, ElementsAre("q1"));
    EXPECT_THAT(found.later, ElementsAre("q3"));
    // Unless the stash was told.
    stash::Movement bought;
    bought.skein = "q0";
    bought.described = support::panel_skein("q0");
    stash::Movement used;
    used.kind = stash::MovementKind::used_in;
    used.skein = "q0";
    used.purpose = "Quay panel";
    plan::Asked asked;
    asked.role = "MC";
    asked.readings = {after_row(30, 40.0, "q2")};
    const auto told = plan::progress_of(three_skeins, 0, stash, {{}, {bought, used}},
                                        rules_of(three_skeins), asked);
    EXPECT_THAT(told.taken, IsEmpty());
}

// The named skein alone could have given these rows: one that weighs more is never worse, whatever
// was used less than planned. Twenty rows take 39.6 g by the plan.
TEST(InWork, AHeavierReadingIsNeverWorse) {
    const project::Project project = support::panel(60, 71);
    double before = 0.0;
    std::size_t certain = 0;
    for (int shown = 1; shown <= 50; ++shown) {
        const auto found =
            progress_of(project, support::panel_skeins(3), {after_row(20, shown, "q1")});
        const double chance = found.progress.lasts.value.value();
        EXPECT_GE(chance, before - 1e-6) << shown << " g";
        EXPECT_GE(found.progress.certain, certain) << shown << " g";
        EXPECT_THAT(found.taken, IsEmpty()) << shown << " g";
        before = chance;
        certain = found.progress.certain;
    }
    // 45 g where 10 g are left by the plan: a skein's 15 % are believed, the rest is not.
    const auto heavy = progress_of(project, support::panel_skeins(3), {after_row(20, 45.0, "q1")});
    EXPECT_NEAR(heavy.not_told / units::gram, 39.6 - 5.0 - 7.5, 0.5);
}

// Held with another it has no rows of its own, and is weighed after those of the other.
TEST(InWork, AYarnHeldWithAnotherIsWeighedInItsRows) {
    project::Project project = support::panel(60, 40, 37.0);
    project.swatches.front().strands = 2;
    project::Role beside = project.roles.front();
    beside.id = "CC";
    beside.held_with = "MC";
    beside.name = "Quay beside";
    project.roles.push_back(beside);
    auto stash = support::panel_skeins(2);
    for (int i = 1; i <= 2; ++i) {
        stash::Skein skein = support::panel_skein("b" + std::to_string(i));
        skein.yarn.name = "Quay beside";
        stash.push_back(skein);
    }
    stash::WorkReading reading = after_row(20, 12.0, "b1");
    reading.role = "CC";
    plan::Asked asked;
    asked.role = "CC";
    asked.readings = {reading};
    const auto found = plan::progress_of(project, 0, stash, {}, rules_of(project), asked);
    EXPECT_EQ(found.hand, plan::Hand::named);
    EXPECT_EQ(found.plan.steps.back().row, 40);
    EXPECT_THAT(found.later, ElementsAre("b2"));
    EXPECT_GT(found.progress.lasts.value.value(), 0.95);
    // Half of it is worked.
    EXPECT_NEAR(found.progress.need.centre / units::gram, 20 * 60 * 18.5 / 560, 4.0);
    // And cover counts the rest alone.
    cover::Rules rules = rules_of(project);
    const plan::InWork work = plan::in_work(project, 0, stash, {{reading}, {}}, rules);
    ASSERT_EQ(work.done.size(), 1U);
    const need::MakeNeed rest = need::rest_of(need::need_of(project, 0), project, work.done);
    for (const need::RoleNeed& need : rest.roles)
        EXPECT_NEAR(need.length.centre / units::metre, need.role == "CC" ? 79.3 : 158.6, 8.0)
            << need.role;
}

// The first skein was weighed without its name, the second is named: the first is gone all the
// same.
TEST(InWork, TheSkeinOfReadingsBeforeTheFirstNameIsGone) {
    const auto stash = support::panel_skeins(2);
    for (const std::vector<stash::WorkReading>& readings :
         {std::vector{after_row(10, 30.0), after_row(30, 40.0, "q2")},
          std::vector{after_row(10, 30.0), after_row(22, 6.0), after_row(30, 40.0, "q2")}}) {
        // 30 rows are 59 g, and 40 g are left.
        const auto found = progress_of(three_skeins, stash, readings);
        EXPECT_THAT(found.later, IsEmpty());
        EXPECT_LT(found.progress.lasts.value.value(), 0.05);
        const plan::InWork work =
            plan::in_work(three_skeins, 0, stash, {readings, {}}, rules_of(three_skeins));
        EXPECT_TRUE(work.stash.front().part);
        EXPECT_FALSE(stash::supply_of(work.stash.front()).has_value());
    }
}

// What the first skein was worked into is its lot, though nothing of it is left.
TEST(InWork, WorkGoesOnInItsLotWhenTheSkeinIsUsedUp) {
    std::vector<stash::Skein> all = support::panel_skeins(4);
    for (std::size_t i = 1; i < all.size(); ++i) all[i].dye_lot = "2";
    const std::vector<stash::WorkReading> readings{after_row(24, 2.0, "q1")};
    plan::Record record{readings, {}};
    stash::Movement bought;
    bought.kind = stash::MovementKind::bought;
    bought.skein = "q1";
    bought.described = all.front();
    record.movements.push_back(bought);
    const std::vector<stash::Skein> left(all.begin() + 1, all.end());
    cover::Rules rules = rules_of(three_skeins);
    plan::InWork work = plan::in_work(three_skeins, 0, left, record, rules);
    rules.done = work.done;
    const auto cover = [&](const std::vector<stash::Skein>& stash) {
        return cover::cover_make(three_skeins, cover::need_for(three_skeins, 0, rules), stash,
                                 rules)
            .verdict;
    };
    EXPECT_EQ(cover(work.stash), cover::Verdict::is_short);
    for (stash::Skein& skein : work.stash) skein.dye_lot = "1";
    EXPECT_EQ(cover(work.stash), cover::Verdict::covered);
}

// The yarn held with another goes into the finish as well.
TEST(InWork, AYarnHeldWithAnotherGoesIntoTheFinishToo) {
    project::Project project = support::panel(60, 40, 37.0);
    project.swatches.front().strands = 2;
    project::Role beside = project.roles.front();
    beside.id = "CC";
    beside.held_with = "MC";
    project.roles.push_back(beside);
    project::FinishPart edging;
    edging.kind = project::PartKind::border;
    edging.name = "edging";
    edging.role = "MC";
    edging.first_round = project::PerSize<std::int64_t>(240);
    edging.rounds = project::PerSize<std::int64_t>(4);
    project.finish.push_back(edging);
    const need::MakeNeed make = need::need_of(project, 0);
    const std::vector<need::Step> steps = need::steps_beside(make.roles.at(1), "MC", make.steps);
    units::Length border{};
    units::Length all{};
    for (const need::Step& step : steps) {
        all += step.yarn;
        if (step.purpose == need::Purpose::border) border += step.yarn;
    }
    EXPECT_NEAR(all.value(), make.roles.at(1).length.centre.value(), 1e-6);
    // 960 of 3360 stitches and more.
    EXPECT_NEAR(border / all, 960.0 / 3360.0, 0.03);
}

// Wide rows: of 330 stitches a row takes 10.9 g, so that a skein holds four and 6 g are cut off. 33
// rows are 360 g, 11 of them of q9: eight skeins went, where the sum alone would say seven.
TEST(InWork, WhatIsCutOffAtJoinsWentToo) {
    const auto found =
        progress_of(support::panel(330, 37), support::panel_skeins(9), {after_row(33, 39.0, "q9")});
    EXPECT_EQ(found.taken.size(), 8U);
    EXPECT_THAT(found.later, IsEmpty());
    EXPECT_LT(found.progress.lasts.value.value(), 0.5);
}

TEST(InWork, HoldsBackWhatComesAfterTheRows) {
    project::Project project = support::panel(60, 25);
    const auto bare = progress_of(project, support::panel_skeins(1), {after_row(5, 39.5, "q1")});
    project::FinishPart fringe;
    fringe.kind = project::PartKind::other;
    fringe.name = "fringe";
    fringe.role = "MC";
    fringe.yarn = project::PerSize<units::Length>(16.0 * units::metre);
    project.finish.push_back(fringe);
    const auto held = progress_of(project, support::panel_skeins(1), {after_row(5, 39.5, "q1")});
    // 16 m are 8 g, four rows of 1.98 g and a little.
    EXPECT_LE(held.progress.certain + 4, bare.progress.certain);
    EXPECT_NEAR(held.progress.held_back / units::gram, 8.0, 0.4);
    EXPECT_TRUE(held.progress.can_finish);
    const auto none = progress_of(project, support::panel_skeins(1), {after_row(20, 8.2, "q1")});
    EXPECT_FALSE(none.progress.can_finish);
    EXPECT_EQ(none.progress.certain, 20U);
}

TEST(InWork, AReadingThatTheProjectDoesNotWorkIsRefused) {
    EXPECT_THROW(static_cast<void>(progress_of(three_skeins, support::panel_skeins(3),
                                               {after_row(61, 30.0, "q1")})),
                 base::InputError);
}

}  // namespace
