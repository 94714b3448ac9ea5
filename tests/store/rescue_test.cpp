// What can be saved of a damaged stash: all there is, each row judged, the counts adding up.

#include <cstdlib>
#include <random>

#include <SQLiteCpp/SQLiteCpp.h>
#include <gmock/gmock.h>

#include "skeinfall/store/care.hpp"

#include "store/stash_file.hpp"

namespace skeinfall::store_tests {
namespace {

using store::Access;
using store::Store;
using testing::HasSubstr;

constexpr std::size_t skeins_made = 60;

void make_sixty(const fs::path& path) {
    std::vector<stash::Skein> skeins(skeins_made, full_skein());
    for (std::size_t i = 0; i < skeins.size(); ++i) skeins[i].yarn.name += " " + std::to_string(i);
    Store store = Store::open(path, Access::write);
    const auto ids = store.add(skeins, today);
    stash::Movement promise;
    promise.kind = stash::MovementKind::set_aside;
    promise.skein = ids[3];
    promise.day = today;
    promise.purpose = "Hat";
    promise.role = "MC";
    store.set_aside({promise}, {*store.skein(ids[3])}, today);
    stash::WorkReading reading;
    reading.project = "Hat";
    reading.role = "MC";
    reading.mass = grams("62 g", 62);
    reading.scale = grams("1 g", 1);
    reading.day = today;
    store.note({reading}, today);
}

/// As only a stranger can.
void tamper_past_triggers(const fs::path& path, const std::string& sql) {
    SQLite::Database database(path.string(), SQLite::OPEN_READWRITE);
    for (const std::string table : {"skein", "movement", "description", "entry", "promise"})
        for (const std::string deed : {"changed", "removed"})
            database.exec("DROP TRIGGER IF EXISTS " + table + "_never_" + deed);
    database.exec(sql);
}

void expect_to_add_up(const store::Tally& tally) {
    EXPECT_EQ(tally.sound + tally.doubtful + tally.undone + tally.left_out + tally.lost,
              tally.entered);
}

TEST(RescuePages, GiveWhatSqliteGives) {
    const Folder folder;
    make_sixty(folder / "stash");
    const auto rescued = store::rescue(folder / "stash");
    const Store store = Store::open(folder / "stash", Access::read);
    EXPECT_EQ(rescued.movements, store.movements());
    EXPECT_EQ(rescued.readings, store.readings());
    EXPECT_TRUE(rescued.complete());
    EXPECT_EQ(rescued.of_movements.sound, 2 * skeins_made + 1);
    expect_to_add_up(rescued.of_movements);
}

TEST(RescuePages, JudgeEveryRow) {
    const Folder folder;
    make_sixty(folder / "stash");
    tamper_past_triggers(folder / "stash",
                         "UPDATE description SET dye_lot = 'B2' WHERE movement IN (1, 3);"
                         "PRAGMA foreign_keys = OFF; DELETE FROM description WHERE movement = 5;"
                         "DELETE FROM movement WHERE number = 5");
    const auto rescued = store::rescue(folder / "stash");
    EXPECT_EQ(rescued.of_movements.doubtful, 2U);
    EXPECT_EQ(rescued.of_movements.lost, 1U);
    EXPECT_EQ(rescued.of_movements.left_out, 1U);  // the weighing of the skein that is lost
    EXPECT_FALSE(rescued.complete());
    expect_to_add_up(rescued.of_movements);
}

TEST(RescuePages, NeedNoSchemaAndNoIndex) {
    const Folder folder;
    make_sixty(folder / "stash");
    std::string bytes = bytes_of(folder / "stash");
    const std::size_t page =
        bytes.size() / std::stoul(sqlite3_says(folder / "stash", "PRAGMA page_count"));
    bytes.replace(0, page, page, '\x5a');
    write_bytes(folder / "hurt", bytes);
    const auto rescued = store::rescue(folder / "hurt");
    EXPECT_EQ(rescued.of_movements.sound, 2 * skeins_made + 1);
    EXPECT_EQ(rescued.of_readings.sound, 1U);
    tamper_past_triggers(folder / "stash", "DROP INDEX movement_by_skein; DROP TABLE promise");
    const auto without = store::rescue(folder / "stash");
    EXPECT_EQ(without.of_movements.sound + without.of_movements.doubtful, 2 * skeins_made + 1);
}

TEST(RescuePages, OfACutFileGiveTheRest) {
    const Folder folder;
    make_sixty(folder / "stash");
    const std::string bytes = bytes_of(folder / "stash");
    write_bytes(folder / "cut", bytes.substr(0, bytes.size() * 95 / 100));
    const auto rescued = store::rescue(folder / "cut");
    EXPECT_GT(rescued.of_movements.sound + rescued.of_movements.doubtful, skeins_made);
    expect_to_add_up(rescued.of_movements);
}

TEST(RescuePages, DoNotCountToFourQuintillion) {
    const Folder folder;
    make_sixty(folder / "stash");
    tamper_past_triggers(
        folder / "stash",
        "UPDATE sqlite_sequence SET seq = 4000000000000000000 WHERE name = 'movement'");
    const auto rescued = store::rescue(folder / "stash");
    EXPECT_EQ(rescued.of_movements.sound, 2 * skeins_made + 1);
    EXPECT_FALSE(rescued.of_movements.counted);
    EXPECT_FALSE(rescued.complete());
    expect_to_add_up(rescued.of_movements);
}

TEST(RescuePages, ReadWhatAKilledWriterLeftInTheLog) {
    const Folder folder;
    {
        Store writer = Store::open(folder / "stash", Access::write);
        writer.add(std::vector<stash::Skein>(skeins_made, full_skein()), today);
        for (const char* end : {"", "-wal"})
            fs::copy_file((folder / "stash").string() + end, (folder / "left").string() + end);
    }
    ASSERT_GT(fs::file_size((folder / "left-wal").string()), 0U);
    const auto rescued = store::rescue(folder / "left");
    EXPECT_EQ(rescued.of_movements.sound, 2 * skeins_made);
}

// Whatever happens to the pages: it ends, and what it calls sound was entered.
TEST(RescuePages, NeverCallSoundWhatWasNotEntered) {
    const Folder folder;
    make_sixty(folder / "stash");
    const std::string good = bytes_of(folder / "stash");
    const auto entered = Store::open(folder / "stash", Access::read).movements();
    const auto pages = std::stoul(sqlite3_says(folder / "stash", "PRAGMA page_count"));
    const std::size_t size = good.size() / pages;
    const char* const told = std::getenv("SKEINFALL_SEED");  // to run one again
    const std::uint32_t seed = told != nullptr
                                   ? static_cast<std::uint32_t>(std::strtoul(told, nullptr, 10))
                                   : std::random_device{}();
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937 random(seed);
    for (int round = 0; round < 60; ++round) {
        std::string bytes = good;
        const auto any_page = [&] { return random() % pages * size; };
        const std::size_t a = any_page();
        const std::size_t b = any_page();
        switch (round % 4) {
            case 0:  // exchanged
                std::swap_ranges(bytes.begin() + static_cast<std::ptrdiff_t>(a),
                                 bytes.begin() + static_cast<std::ptrdiff_t>(a + size),
                                 bytes.begin() + static_cast<std::ptrdiff_t>(b));
                break;
            case 1:
                bytes.replace(a, size, size, '\0');
                break;
            case 2:
                for (int i = 0; i < 20; ++i)
                    bytes[random() % bytes.size()] = static_cast<char>(random());
                break;
            default:
                bytes.resize(random() % bytes.size());
        }
        write_bytes(folder / "hurt", bytes);
        try {
            const auto rescued = store::rescue(folder / "hurt");
            expect_to_add_up(rescued.of_movements);
            for (std::size_t i = 0; i < rescued.movements.size(); ++i)
                EXPECT_TRUE(rescued.doubtful_movements[i] ||
                            std::find(entered.begin(), entered.end(), rescued.movements[i]) !=
                                entered.end())
                    << "round " << round;
            // All of it makes a new stash, or says what it leaves out.
            stash::Lines lines;
            for (const auto& movement : rescued.movements) lines.push_back({movement, {}, {}});
            fs::remove(folder / "again");
            store::TakeIn how;
            how.entered = today;
            how.leave_out_faulty = true;
            Store::open(folder / "again", Access::write).take_in(lines, how, rescued.readings);
            for (const store::Finding& finding : store::verify(folder / "again"))
                ADD_FAILURE() << "round " << round << ": " << finding.where << ": " << finding.what;
        } catch (const base::StoreError& error) {
            EXPECT_THAT(error.what(), HasSubstr("cannot be read")) << "round " << round;
        }
        EXPECT_TRUE(bytes_of(folder / "hurt") == bytes);
    }
}

// What verify() would refuse is not taken in: the least of a skein that makes it sound.
TEST(RescuePages, LeaveOutWhatTheStashCannotHold) {
    const Folder folder;
    make_sixty(folder / "stash");
    auto rescued = store::rescue(folder / "stash");
    std::vector<stash::Movement> movements = rescued.movements;
    movements[0].described->yarn.weight = yarn::WeightClass{14};
    ASSERT_EQ(movements[3].kind, stash::MovementKind::weighed);
    movements[3].amount = grams("12 g", 12);  // below its tare
    stash::Movement wound = movements[4];
    wound.kind = stash::MovementKind::wound_off;
    wound.described.reset();
    wound.amount = grams("5 g", 5);
    wound.scale = grams("1 g", 1);
    wound.other = "s1";  // which is left out
    movements.push_back(wound);
    store::TakeIn how;
    how.entered = today;
    how.leave_out_faulty = true;
    const auto taken =
        Store::open(folder / "again", Access::write).take_in(stash::Lines(movements), how);
    EXPECT_EQ(taken.added.size(), skeins_made - 1);
    EXPECT_EQ(taken.left_out.size(), 4U);
    EXPECT_TRUE(store::verify(folder / "again").empty());
    const Store again = Store::open(folder / "again", Access::read);
    EXPECT_FALSE(again.skein("s1"));
    EXPECT_FALSE(again.skein("s2")->weighing);
    EXPECT_TRUE(again.skein("s3")->weighing);
}

}  // namespace
}  // namespace skeinfall::store_tests
