// A reading of the work is kept together with what it says of its skein.

#include "skeinfall/stash/work_reading.hpp"

#include <gtest/gtest.h>

#include "skeinfall/store/store.hpp"

#include "store/stash_file.hpp"
#include "support/builders.hpp"

namespace {

using namespace skeinfall;
using store::Access;
using store::Store;
using store_tests::Folder;
using store_tests::today;

stash::WorkReading panel_reading(const std::string& skein, double shown_g) {
    stash::WorkReading out;
    out.project = "Quay panel";
    out.role = "MC";
    out.row = 10;
    out.skein = skein;
    out.mass = support::grams(shown_g);
    out.scale = support::grams(1);
    out.day = today;
    return out;
}

stash::Skein skein(const std::string& id) {
    return support::whole(
        id, support::yarn_of("Quayside", support::metres(100), support::grams(50)), "1");
}

TEST(WorkReading, WeighsItsSkeinAndUndoTakesBothBack) {
    const Folder folder;
    Store store = Store::open(folder / "a.skeinfall", Access::write);
    store.add({skein("q1"), skein("q2")}, today);
    store.note({panel_reading("q1", 40), panel_reading("q1", 30)}, today);
    ASSERT_TRUE(store.skein("q1")->weighing);
    EXPECT_EQ(store.skein("q1")->weighing->shown.text, "30 g");
    EXPECT_FALSE(store.skein("q2")->weighing);
    const store::Undone undone = store.undo(today);
    EXPECT_EQ(undone.readings.size(), 2U);
    EXPECT_EQ(undone.movements.size(), 1U);
    EXPECT_FALSE(store.skein("q1")->weighing);
    EXPECT_TRUE(store.readings().empty());
}

// An amount that is set aside for the project is used up by it; the promise goes down with it.
TEST(WorkReading, OfASkeinWithAnAmountSetAsideIsUse) {
    const Folder folder;
    Store store = Store::open(folder / "a.skeinfall", Access::write);
    store.add({skein("q1")}, today);
    stash::Movement kept;
    kept.kind = stash::MovementKind::set_aside;
    kept.skein = "q1";
    kept.day = today;
    kept.amount = support::metres(100);
    kept.purpose = "Quay panel";
    store.record({kept}, today);
    store.note({panel_reading("q1", 30)}, today);
    const auto now = store.skein("q1");
    ASSERT_TRUE(now);
    EXPECT_FALSE(now->weighing);
    EXPECT_NEAR(stash::supply_of(*now)->length / units::metre, 60.0, 1e-9);
    ASSERT_EQ(now->set_aside.size(), 1U);
    EXPECT_NEAR(now->set_aside[0].used_mass / units::gram, 20.0, 1e-9);
}

TEST(WorkReading, OfASkeinThatNobodyHoldsIsAReadingAlone) {
    const Folder folder;
    Store store = Store::open(folder / "a.skeinfall", Access::write);
    store.note({panel_reading("mine", 30)}, today);
    EXPECT_EQ(store.readings().size(), 1U);
    EXPECT_TRUE(store.movements().empty());
}

}  // namespace
