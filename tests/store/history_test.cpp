// What is held always equals what was entered; nothing entered is ever lost.

#include <map>
#include <optional>

#include <SQLiteCpp/SQLiteCpp.h>
#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include "store/stash_file.hpp"

namespace skeinfall::store_tests {
namespace {

using stash::Movement;
using stash::MovementKind;
using store::Access;
using store::Store;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

Movement moved(MovementKind kind, const std::string& id, std::optional<stash::Amount> amount = {}) {
    Movement out;
    out.kind = kind;
    out.skein = id;
    out.day = today;
    out.amount = std::move(amount);
    if (out.amount && out.amount->index() == 1) out.scale = grams("1 g", 1);
    return out;
}

Movement weighed(const std::string& id, double mass) {
    return moved(MovementKind::weighed, id, grams(std::to_string(mass) + " g", mass));
}

/// A whole skein of 100 g and 200 m.
stash::Skein labelled(const std::string& id) {
    stash::Skein skein = plain_skein("Cloudmoss", id);
    skein.yarn.label = {metres("200 m", 200), grams("100 g", 100)};
    return skein;
}

std::string refusal_of(Store& store, const Movement& movement) {
    try {
        store.record({movement}, today);
    } catch (const base::InputError& error) {
        return error.what();
    }
    ADD_FAILURE() << "was taken";
    return {};
}

double length_of(const Store& store, const std::string& id) {
    const auto skein = store.skein(id);
    const auto supply = skein ? stash::supply_of(*skein) : std::nullopt;
    return supply ? supply->length.value() : -1.0;
}

// By hand: 2 m a gram. 200 m - 20 g = 160 m; - 10 m = 150 m; weighed 60 g = 120 m; + 5 g = 130 m.
TEST(History, AmountsAreTakenFromWhatWasThere) {
    const Folder folder;
    Store store = Store::open(folder / "stash", Access::write);
    store.add({labelled("a")}, today);
    EXPECT_NEAR(length_of(store, "a"), 200.0, 1e-9);
    store.record({moved(MovementKind::used_in, "a", grams("20 g", 20))}, today);
    EXPECT_NEAR(length_of(store, "a"), 160.0, 1e-9);
    EXPECT_TRUE(store.skein("a")->part);
    store.record({moved(MovementKind::given, "a", metres("10 m", 10))}, today);
    EXPECT_NEAR(length_of(store, "a"), 150.0, 1e-9);
    store.record({weighed("a", 60)}, today);
    EXPECT_NEAR(length_of(store, "a"), 120.0, 1e-9);
    EXPECT_FALSE(store.skein("a")->since);
    store.record({moved(MovementKind::ripped_back, "a", grams("5 g", 5))}, today);
    EXPECT_NEAR(length_of(store, "a"), 130.0, 1e-9);
    store.record({moved(MovementKind::used_in, "a")}, today);
    EXPECT_FALSE(store.skein("a"));
    EXPECT_THAT(store.ids(), IsEmpty());
    store.record({moved(MovementKind::ripped_back, "a", metres("8 m", 8))}, today);
    EXPECT_NEAR(length_of(store, "a"), 8.0, 1e-9);
    EXPECT_EQ(store.history("a").size(), 7U);
}

// Each amount off a scale of 1 g is known to 1 g / sqrt(12) (JCGM 100:2008, F.2.2.1, from memory):
// two of them, 2 m a gram: sqrt(2 / 12) * 2 m.
TEST(History, AmountsCarryTheScalesStep) {
    const Folder folder;
    Store store = Store::open(folder / "stash", Access::write);
    store.add({labelled("a")}, today);
    store.record({moved(MovementKind::used_in, "a")}, today);
    store.record({moved(MovementKind::ripped_back, "a", grams("20 g", 20)),
                  moved(MovementKind::ripped_back, "a", grams("9 g", 9))},
                 today);
    const auto supply = stash::supply_of(*store.skein("a"));
    ASSERT_TRUE(supply);
    EXPECT_EQ(supply->basis, stash::SupplyBasis::amounts);
    EXPECT_NEAR(supply->length.value(), 58.0, 1e-9);
    EXPECT_NEAR(supply->own.value(), 0.8164965809, 1e-9);
}

TEST(History, WindingOffKeepsTheSumAndUndoesAsOne) {
    const Folder folder;
    Store store = Store::open(folder / "stash", Access::write);
    stash::Skein skein = labelled("a");
    skein.dye_lot = "7";
    skein.knots = 2;
    store.add({skein}, today);
    const std::string id =
        store.wind_off(moved(MovementKind::wound_off, "a", grams("30 g", 30)), today);
    EXPECT_EQ(id, "s2");
    EXPECT_NEAR(length_of(store, "a"), 140.0, 1e-9);
    EXPECT_NEAR(length_of(store, id), 60.0, 1e-9);
    EXPECT_EQ(store.skein(id)->dye_lot, "7");
    EXPECT_TRUE(store.skein(id)->part);
    EXPECT_EQ(store.skein(id)->knots, 0);
    EXPECT_EQ(store.undo(today).movements.size(), 2U);
    EXPECT_THAT(store.ids(), ElementsAre("a"));
    EXPECT_NEAR(length_of(store, "a"), 200.0, 1e-9);
    EXPECT_FALSE(store.skein("a")->part);
}

TEST(History, UndoGoesBackEntryByEntryAndKeepsTheRecord) {
    const Folder folder;
    Store store = Store::open(folder / "stash", Access::write);
    store.add({labelled("a"), labelled("b")}, today);
    store.record({weighed("a", 50)}, today);
    store.record({moved(MovementKind::given, "b")}, today);
    EXPECT_EQ(store.undo(today).movements.front().kind, MovementKind::given);
    EXPECT_THAT(store.ids(), ElementsAre("a", "b"));
    EXPECT_EQ(store.undo(today).movements.front().kind, MovementKind::weighed);
    EXPECT_NEAR(length_of(store, "a"), 200.0, 1e-9);
    EXPECT_EQ(store.undo(today).movements.size(), 2U);
    EXPECT_THAT(store.ids(), IsEmpty());
    EXPECT_THROW(store.undo(today), base::InputError);
    const auto events = store.history("b");
    ASSERT_EQ(events.size(), 2U);
    EXPECT_TRUE(events[0].undone && events[1].undone);
    // What was undone may come again, under its id.
    store.add({labelled("b")}, today);
    EXPECT_THAT(store.ids(), ElementsAre("b"));
    EXPECT_EQ(store.history("b").size(), 3U);
}

TEST(History, CorrectionsAreHistoryToo) {
    const Folder folder;
    Store store = Store::open(folder / "stash", Access::write);
    store.add({labelled("a")}, today);
    Movement corrected = moved(MovementKind::corrected, "a");
    corrected.described = labelled("");
    corrected.described->dye_lot = "4471";
    store.record({corrected}, today);
    EXPECT_EQ(store.skein("a")->dye_lot, "4471");
    EXPECT_FALSE(store.history("a")[0].movement.described->dye_lot);
    store.undo(today);
    EXPECT_FALSE(store.skein("a")->dye_lot);
}

TEST(History, WhatCannotHaveHappenedIsRefused) {
    const Folder folder;
    Store store = Store::open(folder / "stash", Access::write);
    store.add({labelled("a"), labelled("b")}, today);
    store.record({moved(MovementKind::given, "b")}, today);
    EXPECT_THAT(refusal_of(store, moved(MovementKind::used_in, "a", grams("101 g", 101))),
                HasSubstr("less than that left"));
    EXPECT_THAT(refusal_of(store, moved(MovementKind::used_in, "a", metres("201 m", 201))),
                HasSubstr("less than that left"));
    EXPECT_THAT(refusal_of(store, moved(MovementKind::used_in, "b")), HasSubstr("nothing is left"));
    EXPECT_THAT(refusal_of(store, moved(MovementKind::ripped_back, "a", metres("1 m", 1))),
                HasSubstr("nothing of this skein is recorded"));
    EXPECT_THAT(refusal_of(store, weighed("z", 5)), HasSubstr("no skein \"z\""));
    Movement half = moved(MovementKind::wound_off, "a", metres("1 m", 1));
    half.other = "nowhere";
    EXPECT_THAT(refusal_of(store, half), HasSubstr("no skein \"nowhere\" at the other end"));
    EXPECT_THAT(store.ids(), ElementsAre("a"));
    EXPECT_EQ(store.history("a").size(), 1U);
    EXPECT_THAT(store.history("nowhere"), IsEmpty());
}

TEST(History, AClockThatGoesBackwardsChangesNothing) {
    const Folder folder;
    Store store = Store::open(folder / "stash", Access::write);
    store.add({labelled("a")}, today);
    store.record({weighed("a", 60)}, today);
    Movement before = weighed("a", 40);
    before.day = std::chrono::year{1999} / 1 / 1;
    store.record({before}, std::chrono::year{1970} / 1 / 1);
    EXPECT_NEAR(length_of(store, "a"), 80.0, 1e-9);
    EXPECT_EQ(store.undo(std::chrono::year{1969} / 1 / 1).movements.front().day, before.day);
    EXPECT_NEAR(length_of(store, "a"), 120.0, 1e-9);
}

// 29 m come, 1 g is used and 29 m go: the metres add to nothing, and still both units were taken.
TEST(History, MassesAndLengthsTogetherAreNoFaultOfTheFile) {
    const Folder folder;
    Store store = Store::open(folder / "stash", Access::write);
    store.add({labelled("b")}, today);
    store.wind_off(moved(MovementKind::wound_off, "b", metres("29 m", 29)), today);
    store.record({moved(MovementKind::used_in, "s2", grams("1 g", 1))}, today);
    store.wind_off(moved(MovementKind::wound_off, "s2", metres("29 m", 29)), today);
    EXPECT_EQ(sqlite3_says(folder / "stash", ".read " SKEINFALL_SOURCE_DIR "/schema/checks.sql"),
              "");
}

/// The same rules once more, without SQL.
struct Told {
    std::optional<double> base_mass;  // of a weighing, or nothing
    double mass = 0.0;
    double length = 0.0;
    bool gone = false;
    bool from_label = true;
};

Told fold(const std::vector<stash::Event>& events) {
    Told out;
    for (const stash::Event& event : events) {
        if (event.undone) continue;
        const Movement& m = event.movement;
        const double sign =
            takes(m.kind)                                                               ? -1.0
            : m.kind == MovementKind::ripped_back || m.kind == MovementKind::wound_from ? 1.0
                                                                                        : 0.0;
        if (m.kind == MovementKind::wound_from) out = {0.0, 0.0, 0.0, false, false};
        if (m.kind == MovementKind::weighed) {
            out = {std::get<units::Printed<units::Mass>>(*m.amount).value.value(), 0.0, 0.0, false,
                   false};
        } else if (sign < 0 && !m.amount) {
            out = {0.0, 0.0, 0.0, true, false};
        } else if (m.amount) {
            if (const auto* mass = std::get_if<units::Printed<units::Mass>>(&*m.amount))
                out.mass += sign * mass->value.value();
            else
                out.length +=
                    sign * std::get<units::Printed<units::Length>>(*m.amount).value.value();
            if (sign > 0) out.gone = false;
        }
    }
    return out;
}

RC_GTEST_PROP(HistoryProperty, TheViewEqualsTheSum, ()) {
    const Folder folder;
    Store store = Store::open(folder / "stash", Access::write);
    store.add({labelled("a"), labelled("b")}, today);
    const int steps = *rc::gen::inRange(1, 25);
    for (int step = 0; step < steps; ++step) {
        const std::string id = *rc::gen::element<std::string>("a", "b", "s3", "s4");
        const int amount = *rc::gen::inRange(1, 40);
        const stash::Amount by_mass = grams(std::to_string(amount) + " g", amount);
        const stash::Amount by_length = metres(std::to_string(amount) + " m", amount);
        const stash::Amount any = *rc::gen::element(by_mass, by_length);
        try {
            switch (*rc::gen::inRange(0, 7)) {
                case 0:
                    store.record({weighed(id, amount * 2)}, today);
                    break;
                case 1:
                    store.record({moved(MovementKind::used_in, id, any)}, today);
                    break;
                case 2:
                    store.record({moved(MovementKind::used_in, id)}, today);
                    break;
                case 3:
                    store.record({moved(MovementKind::ripped_back, id, any)}, today);
                    break;
                case 4:
                    store.wind_off(moved(MovementKind::wound_off, id, any), today);
                    break;
                case 5:
                    store.record({moved(MovementKind::given, id, any)}, today);
                    break;
                default:
                    store.undo(today);
            }
        } catch (const base::InputError&) {
            // Refused: nothing happened.
            continue;
        }
    }
    for (const std::string id : {"a", "b", "s3", "s4", "s5"}) {
        const auto events = store.history(id);
        bool told_of = false;
        for (const auto& event : events) told_of |= !event.undone;
        const Told told = fold(events);
        const auto skein = store.skein(id);
        RC_ASSERT(skein.has_value() == (told_of && !told.gone));
        if (!skein) continue;
        const stash::Changes since = skein->since.value_or(stash::Changes{});
        RC_ASSERT(std::abs(since.mass.value() - told.mass) < 1e-9);
        RC_ASSERT(std::abs(since.length.value() - told.length) < 1e-9);
        RC_ASSERT(skein->weighing.has_value() == (told.base_mass.value_or(0.0) > 0.0));
        if (skein->weighing)
            RC_ASSERT(skein->weighing->shown.value.value() == *told.base_mass);
        else
            RC_ASSERT(since.from_nothing == !told.from_label);
    }
    RC_ASSERT(sqlite3_says(folder / "stash", ".read " SKEINFALL_SOURCE_DIR "/schema/checks.sql") ==
              "");
}

}  // namespace
}  // namespace skeinfall::store_tests
