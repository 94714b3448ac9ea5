// What is set aside for a project: it is there, no one else takes it, and two never promise one
// skein.

#include <cstdint>

#include <gmock/gmock.h>
#include <sys/wait.h>

#include "skeinfall/stash/reserve.hpp"
#include "skeinfall/store/care.hpp"

#include "store/stash_file.hpp"

namespace skeinfall::store_tests {
namespace {

using stash::Movement;
using stash::MovementKind;
using store::Access;
using store::Store;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

/// 100 m and 50 g on the label: 2 m to the gram.
stash::Skein ball(const std::string& id) {
    stash::Skein skein = plain_skein("Brook", id);
    skein.yarn.label = {metres("100 m", 100), grams("50 g", 50)};
    return skein;
}

Movement moved_for(MovementKind kind, const std::string& id, const std::string& project = {}) {
    Movement out;
    out.kind = kind;
    out.skein = id;
    out.day = today;
    out.purpose = project;
    return out;
}
Movement with(Movement movement, const std::string& text, double amount, bool mass = false) {
    if (mass) {
        movement.amount = grams(text, amount);
        movement.scale = grams("1 g", 1);
    } else {
        movement.amount = metres(text, amount);
    }
    return movement;
}
Movement kept(const std::string& id, const std::string& project) {
    return moved_for(MovementKind::set_aside, id, project);
}
Movement kept_m(const std::string& id, const std::string& project, double length) {
    return with(kept(id, project), std::to_string(length) + " m", length);
}

std::string refused(Store& store, const Movement& movement) {
    try {
        store.record({movement}, today);
    } catch (const base::InputError& error) {
        EXPECT_FALSE(error.problems().front().expected.empty());
        return error.what();
    }
    ADD_FAILURE() << "was not refused: " << word(movement.kind) << " " << movement.purpose;
    return {};
}

TEST(SetAside, IsToldWithTheSkeinUntilItIsReleased) {
    const Folder folder;
    Store store = Store::open(folder / "stash", Access::write);
    store.add({ball("a"), ball("b")}, today);
    Movement all = kept("a", "Hat");
    all.role = "MC";
    store.record({all, kept_m("b", "Hat", 30), kept_m("b", "Cowl", 70)}, today);

    const auto skeins = store.skeins();
    ASSERT_THAT(skeins[0].set_aside, SizeIs(1));
    EXPECT_EQ(stash::promise_text(skeins[0].set_aside[0]), "all for Hat (MC)");
    EXPECT_EQ(skeins[0].set_aside[0].day, today);
    ASSERT_THAT(skeins[1].set_aside, SizeIs(2));
    EXPECT_EQ(skeins[1].set_aside[1].project, "Cowl");
    EXPECT_EQ(store.skein("b")->set_aside, skeins[1].set_aside);

    store.record({moved_for(MovementKind::released, "b", "hat")}, today);
    EXPECT_THAT(store.skein("b")->set_aside, SizeIs(1));
    store.undo(today);
    EXPECT_THAT(store.skein("b")->set_aside, SizeIs(2));
    EXPECT_THAT(store.history("b"), SizeIs(4));
    EXPECT_THAT(store::verify(folder / "stash"), IsEmpty());
}

TEST(SetAside, NeverExceedsWhatTheSkeinHolds) {
    const Folder folder;
    Store store = Store::open(folder / "stash", Access::write);
    stash::Skein begun = ball("begun");
    begun.part = true;
    store.add({ball("a"), ball("b"), begun, ball("gone"), ball("empty")}, today);
    store.record({moved_for(MovementKind::given, "gone"),
                  with(moved_for(MovementKind::used_in, "empty"), "100 m", 100)},
                 today);
    store.record({kept_m("a", "Hat", 60), with(kept("a", "Cowl"), "20 g", 20, true)}, today);

    EXPECT_THAT(refused(store, kept_m("a", "Cap", 0.1)), HasSubstr("more would be set aside"));
    EXPECT_THAT(refused(store, kept("a", "Cap")), HasSubstr("more would be set aside"));
    EXPECT_THAT(refused(store, kept_m("b", "Cap", 100.1)), HasSubstr("more would be set aside"));
    EXPECT_THAT(refused(store, kept_m("begun", "Cap", 1)), HasSubstr("Weigh it"));
    EXPECT_THAT(refused(store, kept("gone", "Cap")), HasSubstr("nothing is left"));
    EXPECT_THAT(refused(store, kept("empty", "Cap")), HasSubstr("nothing is left"));
    EXPECT_THAT(refused(store, kept("b", "")), HasSubstr("no project is named"));
    EXPECT_THAT(refused(store, kept("nobody", "Cap")), HasSubstr("no skein"));
    EXPECT_THAT(refused(store, moved_for(MovementKind::released, "b", "Cap")),
                HasSubstr("nothing of it is set aside"));
    // All of a skein that nobody weighed may be kept, and all there is of a part.
    store.record({kept("begun", "Cap"), kept_m("b", "Cap", 100)}, today);
    EXPECT_THAT(refused(store, kept_m("b", "cap", 1)), HasSubstr("100.000000 m for Cap"));
    EXPECT_THAT(store::verify(folder / "stash"), IsEmpty());
}

TEST(SetAside, NobodyElseTakesIt) {
    const Folder folder;
    Store store = Store::open(folder / "stash", Access::write);
    store.add({ball("whole"), ball("part")}, today);
    store.record({kept("whole", "Hat"), kept_m("part", "Hat", 60)}, today);

    EXPECT_THAT(refused(store, moved_for(MovementKind::given, "whole", "Maud")),
                HasSubstr("it is set aside: all for Hat"));
    EXPECT_THAT(refused(store, with(moved_for(MovementKind::used_in, "whole", "Cowl"), "1 m", 1)),
                HasSubstr("skeinfall stash release whole"));
    EXPECT_THAT(refused(store, with(moved_for(MovementKind::used_in, "part", "Cowl"), "41 m", 41)),
                HasSubstr("less would be left than is set aside"));
    EXPECT_THAT(refused(store, with(moved_for(MovementKind::weighed, "part"), "29 g", 29, true)),
                HasSubstr("less would be left than is set aside"));
    Movement other_label = moved_for(MovementKind::corrected, "part");
    other_label.described = ball("part");
    other_label.described->yarn.label.length = metres("50 m", 50);
    EXPECT_THAT(refused(store, other_label), HasSubstr("by that description it holds less"));

    EXPECT_THAT(refused(store, moved_for(MovementKind::given, "part", "Maud")),
                HasSubstr("it is set aside: 60.000000 m for Hat"));
    store.record({with(moved_for(MovementKind::used_in, "part", "Cowl"), "40 m", 40)}, today);
    // The project itself uses what is kept for it up.
    store.record({with(moved_for(MovementKind::used_in, "part", "hat"), "25 m", 25),
                  with(moved_for(MovementKind::used_in, "whole", "hat"), "25 m", 25)},
                 today);
    const auto skein = *store.skein("part");
    EXPECT_EQ(stash::outstanding(skein, skein.set_aside.front())->value(), 35);
    store.record({moved_for(MovementKind::used_in, "part", "Hat")}, today);
    EXPECT_FALSE(store.skein("part"));
    EXPECT_THAT(store::verify(folder / "stash"), IsEmpty());
}

TEST(SetAside, TamperingIsFound) {
    const Folder folder;
    const auto path = folder / "stash";
    {
        Store store = Store::open(path, Access::write);
        store.add({ball("a")}, today);
        store.record({kept_m("a", "Hat", 60)}, today);
    }
    const std::string sound = bytes_of(path);
    for (const std::string sql :
         {"DROP TRIGGER promise_never_changed; UPDATE promise SET role = 'x'",
          "DROP TRIGGER promise_never_removed; DELETE FROM promise",
          "DROP TRIGGER movement_never_changed; UPDATE movement SET amount_m = 160 WHERE number = "
          "2",
          "DROP TRIGGER movement_never_changed; UPDATE movement SET purpose = '' WHERE number = 2",
          "UPDATE unit SET kind = 'mass' WHERE name = 'yd'",
          "DELETE FROM weight_class WHERE number = 3"}) {
        write_bytes(path, sound);
        static_cast<void>(sqlite3_says(path, sql));
        EXPECT_THAT(store::verify(path), testing::Not(IsEmpty())) << sql;
    }
}

TEST(SetAside, WhatChangedMeanwhileIsNotPromised) {
    const Folder folder;
    Store store = Store::open(folder / "stash", Access::write);
    store.add({ball("a"), ball("b")}, today);
    const auto seen = store.skeins();
    Store other = Store::open(folder / "stash", Access::write);
    other.record({with(moved_for(MovementKind::used_in, "b", "Cowl"), "1 m", 1)}, today);
    try {
        store.set_aside({kept("a", "Hat"), kept("b", "Hat")}, seen, today);
        FAIL() << "promised what was used";
    } catch (const base::InputError& error) {
        EXPECT_THAT(error.what(), HasSubstr("skein \"b\" was changed by another program"));
    }
    EXPECT_THAT(store.skein("a")->set_aside, IsEmpty());
    store.set_aside({kept("a", "Hat"), kept("b", "Hat")}, store.skeins(), today);
    EXPECT_THAT(store.skein("b")->set_aside, SizeIs(1));
}

TEST(SetAside, OfTwoProgramsExactlyOneWins) {
    constexpr int rounds = 20;
    const Folder folder;
    for (int round = 0; round < rounds; ++round) {
        const auto path = folder / ("stash" + std::to_string(round));
        make_stash(path, {ball("a")});
        std::array<int, 2> gate{};
        ASSERT_EQ(pipe(gate.data()), 0);
        std::array<pid_t, 2> children{};
        for (std::size_t which = 0; which < children.size(); ++which) {
            children[which] = fork();
            ASSERT_GE(children[which], 0);
            if (children[which] != 0) continue;
            int result = 9;
            try {
                Store store = Store::open(path, Access::write);
                const auto seen = store.skeins();
                close(gate[1]);
                char end = 0;
                static_cast<void>(read(gate[0], &end, 1));  // until both may begin
                store.set_aside({kept("a", which == 0 ? "Hat" : "Cowl")}, seen, today);
                result = 0;
            } catch (const base::InputError&) {
                result = 1;
            } catch (...) {
                result = 2;
            }
            _exit(result);
        }
        close(gate[0]);
        close(gate[1]);
        int won = 0;
        int lost = 0;
        for (const pid_t child : children) {
            int status = 0;
            ASSERT_EQ(waitpid(child, &status, 0), child);
            ASSERT_TRUE(WIFEXITED(status));
            won += WEXITSTATUS(status) == 0 ? 1 : 0;
            lost += WEXITSTATUS(status) == 1 ? 1 : 0;
        }
        EXPECT_EQ(won, 1);
        EXPECT_EQ(lost, 1);
        EXPECT_THAT(skeins_in(path).front().set_aside, SizeIs(1));
    }
}

stash::WorkReading hat_reading(std::int64_t row, double mass, bool afresh = false) {
    stash::WorkReading out;
    out.project = "Hat";
    out.role = "MC";
    out.row = row;
    out.mass = grams(std::to_string(mass) + " g", mass);
    out.scale = grams("0.1 g", 0.1);
    out.day = today;
    out.afresh = afresh;
    return out;
}

TEST(Readings, AreKeptInOrderAndUndone) {
    const Folder folder;
    const auto path = folder / "stash";
    Store store = Store::open(path, Access::write);
    stash::WorkReading full = hat_reading(8, 40);
    full.piece = "crown; 'x' \x1b[2J";
    full.copy = 2;
    full.skein = "s1";
    full.tare = grams("8 g", 8);
    full.note = "after washing";
    store.note({hat_reading(0, 50), full}, today);
    store.note({hat_reading(12, 36)}, today);
    stash::WorkReading other = hat_reading(1, 9);
    other.role = "CC1";
    store.note({other}, today);

    const auto of_yarn = store.readings("HAT", "mc");
    ASSERT_THAT(of_yarn, SizeIs(3));
    EXPECT_EQ(of_yarn[1], full);
    EXPECT_EQ(of_yarn[1].tare->value.value(), 8);
    EXPECT_THAT(store.readings(), SizeIs(4));
    EXPECT_THAT(store.undo(today).readings, SizeIs(1));
    EXPECT_THAT(store.undo(today).readings, SizeIs(1));
    EXPECT_THAT(store.readings("Hat", "MC"), SizeIs(2));
    EXPECT_THAT(store.readings("Hat", "CC1"), IsEmpty());
    EXPECT_THAT(store::verify(path), IsEmpty());
    EXPECT_THAT(store::rescue(path).readings, SizeIs(2));
}

TEST(Readings, BeginAfreshWithoutForgetting) {
    const Folder folder;
    Store store = Store::open(folder / "stash", Access::write);
    store.note({hat_reading(0, 50), hat_reading(8, 40)}, today);
    store.note({hat_reading(4, 46, true)}, today);
    ASSERT_THAT(store.readings("Hat", "MC"), SizeIs(1));
    EXPECT_EQ(store.readings("Hat", "MC").front().row, 4);
    EXPECT_THAT(store.readings(), SizeIs(3));
    stash::WorkReading bad = hat_reading(-1, 4);
    bad.note = "\xff";
    EXPECT_THROW(store.note({hat_reading(9, 4), bad}, today), base::InputError);
    EXPECT_THROW(store.note({hat_reading(-1, 4)}, today), base::InputError);
    EXPECT_THAT(store.readings(), SizeIs(3));
}

TEST(Readings, TamperingIsFound) {
    const Folder folder;
    const auto path = folder / "stash";
    Store::open(path, Access::write).note({hat_reading(0, 50)}, today);
    static_cast<void>(
        sqlite3_says(path, "DROP TRIGGER reading_never_changed; UPDATE reading SET after_row = 2"));
    const auto findings = store::verify(path);
    ASSERT_THAT(findings, testing::Not(IsEmpty()));
    EXPECT_THAT(findings.back().what, HasSubstr("is not as it was entered"));
}

}  // namespace
}  // namespace skeinfall::store_tests
