// Yarn that comes back to a skein: no more than went out of it.

#include "skeinfall/stash/put_back.hpp"

#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

namespace {

using namespace skeinfall::units;
using namespace skeinfall::stash;

/// A ball of 100 g and 200 m that came whole.
Event bought_ball() {
    Movement movement;
    movement.kind = MovementKind::bought;
    Skein skein;
    skein.yarn.label.length = Printed<Length>{"200 m", 200.0 * metre};
    skein.yarn.label.mass = Printed<Mass>{"100 g", 100.0 * gram};
    movement.described = skein;
    return {movement, 0, {}, false};
}

Movement of_grams(MovementKind kind, double grams) {
    Movement movement;
    movement.kind = kind;
    movement.amount = Amount(Printed<Mass>{"", grams * gram});
    movement.scale = Printed<Mass>{"1 g", 1.0 * gram};
    return movement;
}

std::vector<Event> with(std::vector<Event> history, std::vector<Movement> movements) {
    for (Movement& movement : movements) history.push_back({std::move(movement), 0, {}, false});
    return history;
}

using Kind = MovementKind;

TEST(PutBack, WhatWasUsedMayComeBack) {
    const auto history = with({bought_ball()}, {of_grams(Kind::used_in, 20.0)});
    EXPECT_FALSE(too_much_back(history, of_grams(Kind::ripped_back, 20.0)));
    EXPECT_FALSE(too_much_back(history, of_grams(Kind::ripped_back, 5.0)));
}

TEST(PutBack, MoreThanWasUsedIsASlip) {
    const auto history = with({bought_ball()}, {of_grams(Kind::used_in, 20.0)});
    const auto found = too_much_back(history, of_grams(Kind::ripped_back, 500.0));
    ASSERT_TRUE(found);
    ASSERT_TRUE(found->used);
    EXPECT_NEAR(found->used->value(), 40.0, 1e-9);
}

TEST(PutBack, ASkeinThatCameLightHoldsNoMoreThanItWeighed) {
    const auto history =
        with({bought_ball()}, {of_grams(Kind::weighed, 62.0), of_grams(Kind::used_in, 20.0)});
    EXPECT_TRUE(too_much_back(history, of_grams(Kind::ripped_back, 58.0)));
    EXPECT_FALSE(too_much_back(history, of_grams(Kind::ripped_back, 20.0)));
}

TEST(PutBack, AWeighingOnTheWayTellsOnlyWhatIsLeft) {
    const auto history =
        with({bought_ball()}, {of_grams(Kind::weighed, 62.0), of_grams(Kind::used_in, 20.0),
                               of_grams(Kind::weighed, 30.0)});
    EXPECT_FALSE(too_much_back(history, of_grams(Kind::ripped_back, 32.0)));
    EXPECT_TRUE(too_much_back(history, of_grams(Kind::ripped_back, 60.0)));
}

TEST(PutBack, AfterAllWasUsedNoMoreThanTheLabelComesBack) {
    Movement all;
    all.kind = Kind::used_in;
    const auto history = with({bought_ball()}, {all});
    EXPECT_FALSE(too_much_back(history, of_grams(Kind::ripped_back, 90.0)));
    EXPECT_TRUE(too_much_back(history, of_grams(Kind::ripped_back, 180.0)));
}

TEST(PutBack, WhatWasUndoneDoesNotCount) {
    auto history = with({bought_ball()}, {of_grams(Kind::used_in, 80.0)});
    history.back().undone = true;
    history = with(history, {of_grams(Kind::used_in, 20.0)});
    EXPECT_TRUE(too_much_back(history, of_grams(Kind::ripped_back, 80.0)));
}

}  // namespace
