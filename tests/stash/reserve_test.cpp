// What a project finds of a stash of which some is promised to others.

#include "skeinfall/stash/reserve.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace skeinfall::stash {
namespace {

using testing::IsEmpty;
using testing::SizeIs;

units::Printed<units::Length> metres(double value) {
    return {std::to_string(value) + " m", value * units::metre};
}
units::Printed<units::Mass> grams(double value) {
    return {std::to_string(value) + " g", value * units::gram};
}

/// 100 m and 50 g on the label: 2 m to the gram.
Skein brook_ball() {
    Skein skein;
    skein.id = "a";
    skein.yarn.name = "Brook";
    skein.yarn.label = {metres(100), grams(50)};
    return skein;
}

Promise promise(const std::string& project, std::optional<Amount> amount = std::nullopt) {
    Promise out;
    out.project = project;
    out.amount = std::move(amount);
    return out;
}

TEST(Reserve, OutstandingIsWhatTheProjectHasNotUsed) {
    Promise some = promise("Hat", metres(60));
    EXPECT_DOUBLE_EQ(outstanding(brook_ball(), some)->value(), 60);
    some.used_length = 10.0 * units::metre;
    some.used_mass = 5.0 * units::gram;  // 10 m by the label
    EXPECT_DOUBLE_EQ(outstanding(brook_ball(), some)->value(), 40);
    some.used_length = 80.0 * units::metre;
    EXPECT_EQ(outstanding(brook_ball(), some)->value(), 0);
    EXPECT_DOUBLE_EQ(outstanding(brook_ball(), promise("Hat", grams(20)))->value(), 40);
    EXPECT_FALSE(outstanding(brook_ball(), promise("Hat")));
    Skein bare = brook_ball();
    bare.yarn.label.mass.reset();
    EXPECT_FALSE(outstanding(bare, promise("Hat", grams(20))));
    EXPECT_DOUBLE_EQ(outstanding(bare, promise("Hat", metres(20)))->value(), 20);
}

TEST(Reserve, OthersAreKeptFromIt) {
    Skein skein = brook_ball();
    EXPECT_FALSE(kept_from(skein, "Hat", "MC"));
    skein.set_aside = {promise("Hat")};
    EXPECT_FALSE(kept_from(skein, "hat", "MC"));
    EXPECT_TRUE(kept_from(skein, "Cowl", "MC").value().other_project);
    EXPECT_TRUE(kept_from(skein, "", "").value().other_project);
    skein.set_aside[0].role = "MC";
    EXPECT_FALSE(kept_from(skein, "Hat", "mc"));
    EXPECT_FALSE(kept_from(skein, "Hat", "CC1").value().other_project);
    skein.set_aside = {promise("Hat", Amount(units::Printed<units::Length>{"60 m", {}}))};
    EXPECT_EQ(text(*kept_from(skein, "Cowl", "MC").value().by->amount), "60 m");
    EXPECT_EQ(promise_text(skein.set_aside[0]), "60 m for Hat");
}

TEST(Reserve, APartPromisedToOthersIsTakenOff) {
    Skein skein = brook_ball();
    skein.set_aside = {promise("Hat", metres(60)), promise("Cowl", grams(10))};
    EXPECT_DOUBLE_EQ(supply_of(as_found_by({skein}, {"Scarf"})[0])->length.value(), 20);
    EXPECT_THAT(as_found_by({skein}, {"Scarf"})[0].set_aside, IsEmpty());
    EXPECT_TRUE(as_found_by({skein}, {"Scarf"})[0].part);

    const Skein by_hat = as_found_by({skein}, {"hat"})[0];
    EXPECT_DOUBLE_EQ(supply_of(by_hat)->length.value(), 80);
    EXPECT_THAT(by_hat.set_aside, SizeIs(1));
    EXPECT_EQ(as_found_by({skein}, {"Hat", "Cowl"})[0], skein);

    // All of it, or what cannot be told as a length, stays to be told.
    skein.set_aside = {promise("Hat")};
    EXPECT_EQ(as_found_by({skein}, {"Scarf"})[0], skein);
    skein.yarn.label.mass.reset();
    skein.set_aside = {promise("Hat", grams(10))};
    EXPECT_EQ(as_found_by({skein}, {"Scarf"})[0], skein);
    EXPECT_THAT(as_found_by({}, {"Scarf"}), IsEmpty());
}

TEST(Reserve, WhatWasWeighedIsReducedToo) {
    Skein skein = brook_ball();
    skein.part = true;
    skein.weighing = measure::Weighing{grams(30), grams(1), std::nullopt};
    skein.set_aside = {promise("Hat", metres(25))};
    const Skein left = as_found_by({skein}, {"Scarf"})[0];
    EXPECT_DOUBLE_EQ(supply_of(left)->length.value(), 35);
    EXPECT_EQ(supply_of(left)->own, supply_of(skein)->own);
}

}  // namespace
}  // namespace skeinfall::stash
