// A stash of every older layout is opened, brought up to date and loses nothing.

#include <SQLiteCpp/SQLiteCpp.h>
#include <gmock/gmock.h>

#include "skeinfall/store/care.hpp"

#include "store/stash_file.hpp"

namespace skeinfall::store_tests {
namespace {

using store::Access;
using store::Store;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

const fs::path source = SKEINFALL_SOURCE_DIR;

fs::path dump_of_layout(int layout) {
    return source / "tests/store/layouts" / (std::to_string(layout) + ".sql");
}

void make_old(const fs::path& path, int layout) {
    SQLite::Database(path.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE)
        .exec(bytes_of(dump_of_layout(layout)));
}

std::string layout_of(const fs::path& path) {
    return sqlite3_says(path, "SELECT name, type, sql FROM sqlite_schema ORDER BY name");
}

TEST(Migration, EveryOlderLayoutIsKept) {
    for (int layout = 1; layout < current_layout(); ++layout) {
        EXPECT_TRUE(fs::exists(dump_of_layout(layout))) << layout;
        EXPECT_TRUE(
            fs::exists(source / "schema/migrations" / (std::to_string(layout + 1) + ".sql")));
    }
    EXPECT_FALSE(fs::exists(dump_of_layout(current_layout() + 1)));
}

TEST(Migration, EveryOlderLayoutBecomesTheCurrentOne) {
    const Folder folder;
    make_stash(folder / "new", {});
    for (int layout = 1; layout < current_layout(); ++layout) {
        const auto path = folder / ("old" + std::to_string(layout));
        make_old(path, layout);
        const Store store = Store::open(path, Access::write);
        ASSERT_TRUE(store.upgrade());
        EXPECT_EQ(store.upgrade()->from, layout);
        EXPECT_EQ(store.upgrade()->to, current_layout());
        EXPECT_EQ(layout_of(path), layout_of(folder / "new"));
        EXPECT_THAT(store::verify(path), IsEmpty());
    }
}

// A number whose row layout 1 lost is no sign of damage, and reading on finds every skein.
TEST(Migration, ReadsOnWhereAnIdOfLayoutOneIsGone) {
    for (const int layout : {1, 2}) {
        const Folder folder;
        const auto path = folder / "stash";
        make_old(path, layout);
        // Ids 1 and 4 and the last number given out have no skein any more, nor a row.
        if (layout == 1)
            SQLite::Database(path.string(), SQLite::OPEN_READWRITE)
                .exec(
                    "DELETE FROM weighing WHERE skein = 1; DELETE FROM skein WHERE number = 1;"
                    " DELETE FROM skein_id WHERE number IN (1, 4);"
                    " UPDATE skein_id SET id = 's4' WHERE number = 5");
        ASSERT_TRUE(Store::open(path, Access::write).upgrade());
        Store store = Store::open(path, Access::write);
        std::vector<std::string> standing;
        for (const auto& skein : store.skeins()) standing.push_back(skein.id);
        EXPECT_EQ(standing, store.ids());
        EXPECT_THAT(store::verify(path), IsEmpty());
        if (layout == 1) {
            EXPECT_THAT(store.ids(), ElementsAre("s2", "s3", "s4"));
            EXPECT_EQ(sqlite3_says(path, "SELECT number, id FROM skein"),
                      "1|s1\n2|s2\n3|s3\n4|no skein 4\n5|s4\n6|s6\n");
            EXPECT_THAT(store.add({plain_skein()}, today), ElementsAre("s7"));
        }
    }
}

// What tests/store/layouts/1.sql holds, read off that file.
TEST(Migration, LayoutOneKeepsSkeinsWeighingsAndIds) {
    const Folder folder;
    const auto path = folder / "stash";
    make_old(path, 1);
    Store store = Store::open(path, Access::write);
    EXPECT_THAT(store.ids(), ElementsAre("a-1", "s2", "s3", "last"));
    const auto first = store.skein("a-1");
    EXPECT_EQ(first->yarn.name, "Cedar Lane");
    EXPECT_EQ(first->yarn.label.length->value.value(), 170 * 0.9144);
    EXPECT_EQ(first->colourway, "Dämmerung");
    EXPECT_EQ(first->dye_lot, "81");
    EXPECT_EQ(first->shade_group, "dusk");
    EXPECT_EQ(first->knots, 2);
    EXPECT_EQ(first->note, "from the \"attic\" box;\nsmells of cedar");
    EXPECT_TRUE(first->part);
    EXPECT_EQ(first->weighing->shown.text, "55 g");
    const auto events = store.history("a-1");
    ASSERT_EQ(events.size(), 3U);
    EXPECT_EQ(stash::text(*events[1].movement.amount), "62 g");
    EXPECT_EQ(events[1].movement.scale->text, "0.1 oz");
    EXPECT_FALSE(events[0].movement.day || events[0].entered);
    EXPECT_FALSE(store.skein("last")->weighing);
    // Undoing stops there, and no id comes again.
    EXPECT_THROW(store.undo(today), base::InputError);
    EXPECT_THAT(store.add({plain_skein()}, today), ElementsAre("s7"));
    EXPECT_THROW(store.add({plain_skein("Brook", "gone")}, today), base::InputError);
}

// What tests/store/layouts/2.sql holds, read off that file.
TEST(Migration, LayoutTwoKeepsEveryMovement) {
    const Folder folder;
    const auto path = folder / "stash";
    make_old(path, 2);
    Store store = Store::open(path, Access::write);
    EXPECT_THAT(store.ids(), ElementsAre("a-1", "s2", "s3", "last", "s7", "s8", "s9", "sleeve"));
    EXPECT_EQ(sqlite3_says(path, "SELECT count(*) FROM movement"), "22\n");
    EXPECT_EQ(store.skein("s7")->dye_lot, "13");
    EXPECT_EQ(store.skein("s7")->weighing->shown.text, "97 g");
    EXPECT_EQ(store.skein("s8")->since->mass.value(), -8);
    EXPECT_TRUE(store.skein("sleeve")->since->from_nothing);
    EXPECT_TRUE(store.history("s7").back().undone);
    EXPECT_TRUE(store.readings().empty());
    // Undoing goes on where it stood.
    EXPECT_EQ(store.undo(today).movements.front().purpose, "Maud");
    stash::Movement promise;
    promise.kind = stash::MovementKind::set_aside;
    promise.skein = "s7";
    promise.purpose = "Hat";
    store.record({promise}, today);
    EXPECT_EQ(store.skein("s7")->set_aside.front().project, "Hat");
}

TEST(Migration, TheStashAsItWasLiesBesideIt) {
    const Folder folder;
    const auto path = folder / "stash";
    make_old(path, 1);
    const std::string before = dump_of(path);
    const auto upgrade = *Store::open(path, Access::write).upgrade();
    EXPECT_EQ(upgrade.copy, path.string() + ".layout-1-copy");
    EXPECT_EQ(dump_of(upgrade.copy), before);
    EXPECT_FALSE(Store::open(path, Access::write).upgrade());
    fs::remove(path);
    make_old(path, 1);
    EXPECT_EQ(Store::open(path, Access::write).upgrade()->copy, path.string() + ".layout-1-copy2");
}

TEST(Migration, AReaderChangesNothingAndSaysWhatToDo) {
    const Folder folder;
    make_old(folder / "stash", 1);
    const std::string before = bytes_of(folder / "stash");
    EXPECT_THAT(refusal_to_open(folder / "stash", Access::read),
                HasSubstr("has layout 1, made by an older skeinfall; expected layout 5\n    Run "
                          "\"skeinfall stash upgrade\""));
    EXPECT_TRUE(bytes_of(folder / "stash") == before);
    EXPECT_THAT(folder.listing(), ElementsAre("stash"));
}

TEST(Migration, ADamagedOldStashIsLeftAlone) {
    const Folder folder;
    const auto path = folder / "stash";
    make_old(path, 1);
    SQLite::Database(path.string(), SQLite::OPEN_READWRITE)
        .exec("PRAGMA foreign_keys = OFF; DELETE FROM yarn WHERE number = 3");
    const std::string before = bytes_of(path);
    EXPECT_THAT(refusal_to_open(path, Access::write), HasSubstr("is damaged"));
    EXPECT_TRUE(bytes_of(path) == before);
    EXPECT_THAT(folder.listing(), ElementsAre("stash"));
}

TEST(Migration, WithoutRoomForTheCopyNothingChanges) {
    const Folder folder;
    const auto path = folder / "stash";
    make_old(path, 1);
    fs::permissions(path, fs::perms(0666));
    const std::string before = bytes_of(path);
    fs::permissions(folder.path(), fs::perms(0555));
    {
        const Unprivileged now;
        static_cast<void>(refusal_to_open(path, Access::write));
    }
    fs::permissions(folder.path(), fs::perms(0755));
    EXPECT_TRUE(bytes_of(path) == before);
}

TEST(Migration, TwoAtOnceBringItUpToDateOnce) {
    const Folder folder;
    const auto path = folder / "stash";
    make_old(path, 1);
    const Store first = Store::open(path, Access::write);
    const Store second = Store::open(path, Access::write);
    EXPECT_TRUE(first.upgrade());
    EXPECT_FALSE(second.upgrade());
    EXPECT_EQ(first.ids(), second.ids());
}

}  // namespace
}  // namespace skeinfall::store_tests
