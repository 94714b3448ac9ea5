// Reading is checked: what is not as it was entered, or not of our layout, is refused.

#include <csignal>
#include <random>

#include <SQLiteCpp/SQLiteCpp.h>
#include <gmock/gmock.h>
#include <sys/stat.h>

#include "skeinfall/store/care.hpp"

#include "store/stash_file.hpp"
#include "support/seed.hpp"

namespace skeinfall::store_tests {
namespace {

using store::Access;
using store::Store;
using testing::AnyOf;
using testing::HasSubstr;

/// Past the size up to which a file is checked whole when it is opened.
constexpr std::size_t skeins_of_a_large_stash = 4000;

const std::string& large_stash() {
    static const std::string bytes = [] {
        const Folder folder;
        std::vector<stash::Skein> skeins(skeins_of_a_large_stash, full_skein());
        for (std::size_t i = 0; i < skeins.size(); ++i)
            skeins[i].yarn.name += " " + std::to_string(i % 100);
        make_stash(folder / "stash", skeins);
        return bytes_of(folder / "stash");
    }();
    return bytes;
}

TEST(Checked, ALargeStashWithPagesExchangedIsRefusedOrWhole) {
    const Folder folder;
    const std::string& good = large_stash();
    ASSERT_GT(good.size(), Store::checked_when_opened);
    write_bytes(folder / "good", good);
    const auto whole = skeins_in(folder / "good");
    const std::size_t size =
        good.size() / std::stoul(sqlite3_says(folder / "good", "PRAGMA page_count"));
    const std::uint32_t seed = support::seed();
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937 random(seed);
    int refused = 0;
    for (int round = 0; round < 12; ++round) {
        std::string bytes = good;
        const auto any_page = [&] {
            return static_cast<std::ptrdiff_t>((1 + random() % (good.size() / size - 1)) * size);
        };
        const auto a = any_page();
        const auto b = any_page();
        std::swap_ranges(bytes.begin() + a, bytes.begin() + a + static_cast<std::ptrdiff_t>(size),
                         bytes.begin() + b);
        write_bytes(folder / "hurt", bytes);
        try {
            EXPECT_TRUE(identical(skeins_in(folder / "hurt"), whole)) << "pages " << a << ", " << b;
        } catch (const base::StoreError& error) {
            ++refused;
            EXPECT_THAT(error.what(), HasSubstr("stash rescue"));
        }
    }
    EXPECT_GT(refused, 0);
}

TEST(Checked, ChangedTextIsRefusedWhateverTheSize) {
    const Folder folder;
    make_stash(folder / "stash", {full_skein("a")});
    std::string bytes = bytes_of(folder / "stash");
    const std::size_t at = bytes.find("A17");
    ASSERT_NE(at, std::string::npos);
    bytes[at] = 'B';
    write_bytes(folder / "stash", bytes);
    const Store store = Store::open(folder / "stash", Access::read);
    const auto refused = HasSubstr("\"bought\" of skein \"a\" is not as it was entered");
    EXPECT_THAT(refusal([&] { static_cast<void>(store.skeins()); }), refused);
    EXPECT_THAT(refusal([&] { static_cast<void>(store.skein("a")); }), refused);
    EXPECT_THAT(refusal([&] { static_cast<void>(store.movements()); }), refused);
    EXPECT_THAT(refusal([&] { static_cast<void>(store.history("a")); }), refused);
}

TEST(Checked, AForeignLayoutIsRefusedBeforeAnythingOfItRuns) {
    const std::vector<std::string> hostile = {
        "CREATE TRIGGER spy AFTER INSERT ON movement BEGIN DELETE FROM promise; END",
        "CREATE TABLE more (a)",
        "CREATE INDEX odd ON skein (length(id))",
        "DROP INDEX movement_by_skein",
        "DROP TRIGGER movement_takes_no_more_than_is_left",
        // Never ends.
        "DROP VIEW standing; CREATE VIEW standing AS WITH RECURSIVE n(i) AS"
        " (SELECT 1 UNION ALL SELECT i + 1 FROM n) SELECT i AS number, i AS skein FROM n",
    };
    for (const std::string& sql : hostile) {
        const Folder folder;
        make_stash(folder / "stash", {full_skein("a")});
        SQLite::Database((folder / "stash").string(), SQLite::OPEN_READWRITE).exec(sql);
        for (const Access access : {Access::read, Access::write})
            EXPECT_THAT(refusal_to_open(folder / "stash", access),
                        AnyOf(HasSubstr("is not of skeinfall's layout"),
                              HasSubstr("of skeinfall's layout is missing")))
                << sql;
        EXPECT_FALSE(store::verify(folder / "stash").empty()) << sql;
        EXPECT_EQ(store::rescue(folder / "stash").of_movements.sound, 2U) << sql;
    }
}

// The views are what the layout says; reading does not ask them.
TEST(Checked, SaysWhatTheViewsSay) {
    const Folder folder;
    {
        Store store = Store::open(folder / "stash", Access::write);
        stash::Skein whole = full_skein();
        whole.part = false;
        whole.weighing.reset();
        const auto ids = store.add({full_skein(), whole, whole, plain_skein(), whole}, today);
        const auto record = [&](stash::MovementKind kind, std::size_t skein, double mass) {
            stash::Movement out;
            out.kind = kind;
            out.skein = ids[skein];
            out.day = today;
            if (mass > 0) {
                out.amount = grams(std::to_string(mass) + " g", mass);
                out.scale = grams("1 g", 1);
            }
            return out;
        };
        using Kind = stash::MovementKind;
        store.record({record(Kind::used_in, 0, 3)}, today);
        store.record({record(Kind::used_in, 1, 0)}, today);
        store.record({record(Kind::ripped_back, 1, 7.25)}, today);
        store.record({record(Kind::given, 2, 0)}, today);
        store.wind_off(record(Kind::wound_off, 0, 4.5), today);
        store.record({record(Kind::weighed, 4, 50)}, today);
        store.record({record(Kind::used_in, 4, 1.5)}, today);
        store.record({record(Kind::used_in, 4, 2)}, today);
        store.undo(today);
    }
    std::string said;
    char line[200];
    for (const stash::Skein& skein : skeins_in(folder / "stash")) {
        const stash::Changes since = skein.since.value_or(stash::Changes{});
        std::snprintf(line, sizeof line, "%s|%s|%s|%.6f|%.6f\n", skein.id.c_str(),
                      skein.part ? "part" : "whole",
                      skein.weighing ? skein.weighing->shown.text.c_str() : "",
                      since.mass / units::gram + 0.0, since.length / units::metre + 0.0);
        said += line;
    }
    EXPECT_EQ(said, sqlite3_says(folder / "stash",
                                 "SELECT id, state, coalesce(weighed_text, ''),"
                                 " printf('%.6f', since_g), printf('%.6f', since_m)"
                                 " FROM counted ORDER BY arrival"));
}

TEST(Copies, HaveTheRightsOfTheStashAndLeaveOthersFilesAlone) {
    const Folder folder;
    make_stash(folder / "stash", {full_skein("a")});
    fs::permissions(folder / "stash", fs::perms(0600));
    write_bytes(folder / "copy.part", "mine");
    write_bytes(folder / "victim", "mine too");
    fs::create_symlink(folder / "victim", folder / "other.part");
    store::back_up(folder / "stash", folder / "copy");
    store::back_up(folder / "stash", folder / "other");
    EXPECT_EQ(fs::status(folder / "copy").permissions(), fs::perms(0600));
    EXPECT_EQ(bytes_of(folder / "copy.part"), "mine");
    EXPECT_EQ(bytes_of(folder / "victim"), "mine too");
    EXPECT_THAT(folder.listing(), testing::UnorderedElementsAre("stash", "copy", "copy.part",
                                                                "other", "other.part", "victim"));
}

TEST(Copies, CleanUpOnlyWhatAKilledProgramOfOursLeft) {
    const Folder folder;
    make_stash(folder / "stash", {full_skein("a")});
    fs::create_directory(folder / ".skeinfall-part-killed");
    write_bytes(folder / ".skeinfall-part-killed/copy", "half");
    fs::create_directory(folder / ".skeinfall-part-mine");
    write_bytes(folder / ".skeinfall-part-mine/letter", "dear");
    fs::create_directory(folder / "elsewhere");
    write_bytes(folder / "elsewhere/copy", "precious");
    fs::create_symlink(folder / "elsewhere", folder / ".skeinfall-part-link");
    store::back_up(folder / "stash", folder / "copy");
    EXPECT_FALSE(fs::exists(folder / ".skeinfall-part-killed"));
    EXPECT_EQ(bytes_of(folder / ".skeinfall-part-mine/letter"), "dear");
    EXPECT_EQ(bytes_of(folder / "elsewhere/copy"), "precious");
}

TEST(Restore, OverADamagedStashKeepsTheLinkToIt) {
    const Folder folder;
    make_stash(folder / "real", {full_skein("a")});
    store::back_up(folder / "real", folder / "copy");
    write_bytes(folder / "real", std::string(5000, 'x'));
    fs::permissions(folder / "real", fs::perms(0600));
    fs::create_symlink(folder / "real", folder / "stash");
    const auto kept = store::restore(folder / "copy", folder / "stash");
    ASSERT_TRUE(kept);
    EXPECT_TRUE(fs::is_symlink(folder / "stash"));
    EXPECT_EQ(skeins_in(folder / "real").size(), 1U);
    EXPECT_EQ(fs::status(folder / "real").permissions(), fs::perms(0600));
    EXPECT_EQ(bytes_of(*kept), std::string(5000, 'x'));
}

}  // namespace
}  // namespace skeinfall::store_tests
