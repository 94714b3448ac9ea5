// Skeins of work in progress, as plans may count on them. All invented.

#include "skeinfall/stash/in_work.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/builders.hpp"

namespace {

using namespace skeinfall;
using ::testing::ElementsAre;
using ::testing::Field;

stash::WorkReading reading(const std::string& skein, double shown_g, bool afresh = false) {
    stash::WorkReading out;
    out.project = "Quay panel";
    out.role = "MC";
    out.skein = skein;
    out.mass = support::grams(shown_g);
    out.scale = support::grams(1);
    out.afresh = afresh;
    return out;
}

stash::Skein skein(const std::string& id, double weighed_g) {
    stash::Skein out = support::whole(
        id, support::yarn_of("Quayside", support::metres(100), support::grams(50)), "1");
    out.weighing = support::weighed(weighed_g, 1);
    return out;
}

TEST(Works, BeginAfreshAndGoOnWithTheSkeinBefore) {
    const auto works = stash::works_of({reading("a", 40), reading("b", 30, true), reading("", 20)});
    ASSERT_EQ(works.size(), 1U);
    EXPECT_THAT(works[0].readings, ElementsAre(Field(&stash::WorkReading::skein, "b"),
                                               Field(&stash::WorkReading::skein, "b")));
}

TEST(AsWorked, TheSkeinInHandIsKeptForItsProject) {
    const auto stash = stash::as_worked({skein("a", 20)}, {reading("a", 40), reading("a", 20)});
    ASSERT_EQ(stash[0].set_aside.size(), 1U);
    EXPECT_EQ(stash[0].set_aside[0].project, "Quay panel");
    EXPECT_TRUE(stash[0].weighing);
}

TEST(AsWorked, OfThoseBeforeItNobodyKnowsWhatIsLeft) {
    const auto stash =
        stash::as_worked({skein("a", 4), skein("b", 30)}, {reading("a", 4), reading("b", 30)});
    EXPECT_TRUE(stash::never_weighed_part(stash[0]));
    EXPECT_FALSE(stash::supply_of(stash[0]));
    EXPECT_TRUE(stash::supply_of(stash[1]));
}

TEST(AsWorked, WhatWasWeighedSinceStands) {
    const auto stash =
        stash::as_worked({skein("a", 3), skein("b", 30)}, {reading("a", 4), reading("b", 30)});
    EXPECT_EQ(stash[0], skein("a", 3));
}

// Half of a whole skein of 50 g, and 10 g of another; 20 g of a third are none of its business.
TEST(UsedIn, SumsWhatMovementsSay) {
    std::vector<stash::Movement> movements;
    for (const std::string id : {"a", "b", "c"}) {
        stash::Movement bought;
        bought.skein = id;
        bought.described = skein(id, 50);
        movements.push_back(bought);
    }
    stash::Movement used;
    used.kind = stash::MovementKind::used_in;
    used.purpose = "quay panel";
    used.skein = "a";
    movements.push_back(used);
    used.skein = "b";
    used.amount = support::grams(10);
    movements.push_back(used);
    used.skein = "c";
    used.purpose = "Another";
    movements.push_back(used);
    EXPECT_NEAR(stash::used_in(movements, "Quay panel", "Quayside", {}) / units::gram, 60.0, 1e-9);
    EXPECT_NEAR(stash::used_in(movements, "Quay panel", "", {"a"}) / units::gram, 10.0, 1e-9);
    EXPECT_EQ(stash::used_in(movements, "Quay panel", "Other", {}), units::Mass{});
}

// 100 g are set aside of it, so that what went is entered, and not how much is left.
TEST(MovementOf, AReadingWeighsItsSkein) {
    const auto weighed = stash::movement_of(reading("a", 30), skein("a", 50));
    ASSERT_TRUE(weighed);
    EXPECT_EQ(weighed->kind, stash::MovementKind::weighed);
    stash::Skein promised = skein("a", 50);
    stash::Promise promise;
    promise.project = "Quay panel";
    promise.amount = support::grams(50);
    promised.set_aside = {promise};
    const auto used = stash::movement_of(reading("a", 30), promised);
    ASSERT_TRUE(used);
    EXPECT_EQ(used->kind, stash::MovementKind::used_in);
    EXPECT_EQ(stash::text(*used->amount), "20.0 g");
}

}  // namespace
