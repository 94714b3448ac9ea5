// Copies, checks and what can be saved.

#include "skeinfall/store/care.hpp"

#include <csignal>
#include <random>

#include <SQLiteCpp/SQLiteCpp.h>
#include <gmock/gmock.h>
#include <sys/resource.h>
#include <sys/wait.h>

#include "store/stash_file.hpp"
#include "support/seed.hpp"

namespace skeinfall::store_tests {
namespace {

using store::Access;
using store::Store;
using testing::AnyOf;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

std::vector<stash::Skein> sixty() {
    std::vector<stash::Skein> skeins(60, full_skein());
    for (std::size_t i = 0; i < skeins.size(); ++i) skeins[i].yarn.name += " " + std::to_string(i);
    return skeins;
}

std::string said_by_verify(const fs::path& path) {
    std::string out;
    for (const store::Finding& finding : store::verify(path))
        out += finding.where + ": " + finding.what + "\n";
    return out;
}

/// As only a stranger can.
void tamper_past_checks(const fs::path& path, const std::string& sql) {
    SQLite::Database database(path.string(), SQLite::OPEN_READWRITE);
    for (const std::string table : {"skein", "movement", "description", "entry"})
        for (const std::string deed : {"changed", "removed"})
            database.exec("DROP TRIGGER IF EXISTS " + table + "_never_" + deed);
    database.exec("PRAGMA ignore_check_constraints = ON");
    database.exec(sql);
}

TEST(Backup, IsTheSameStash) {
    const Folder folder;
    make_stash(folder / "stash", {full_skein("a"), plain_skein()});
    store::back_up(folder / "stash", folder / "copy");
    EXPECT_EQ(dump_of(folder / "copy"), dump_of(folder / "stash"));
    EXPECT_THAT(store::verify(folder / "copy"), IsEmpty());
}

TEST(Backup, IsTakenWhileAnotherWrites) {
    const Folder folder;
    Store writer = Store::open(folder / "stash", Access::write);
    writer.add({plain_skein("Brook", "a")}, today);
    SQLite::Database other((folder / "stash").string(), SQLite::OPEN_READWRITE);
    SQLite::Transaction half(other, SQLite::TransactionBehavior::IMMEDIATE);
    other.exec("INSERT INTO skein (id) VALUES ('half')");
    store::back_up(folder / "stash", folder / "copy");
    EXPECT_THAT(Store::open(folder / "copy", Access::read).ids(), ElementsAre("a"));
    EXPECT_EQ(sqlite3_says(folder / "copy", "SELECT count(*) FROM skein"), "1\n");
    EXPECT_FALSE(fs::exists((folder / "copy-wal").string()));
}

TEST(Backup, NeverOverwrites) {
    const Folder folder;
    make_stash(folder / "stash", {plain_skein()});
    write_bytes(folder / "mine", "mine");
    EXPECT_THAT(refusal([&] { store::back_up(folder / "stash", folder / "mine"); }),
                HasSubstr("a file of that name already"));
    EXPECT_EQ(bytes_of(folder / "mine"), "mine");
    EXPECT_THAT(refusal([&] { store::back_up(folder / "stash", folder / "no/copy"); }),
                HasSubstr("the copy cannot be written"));
}

TEST(Backup, OfADamagedStashIsRefused) {
    const Folder folder;
    make_stash(folder / "stash", {full_skein()});
    tamper_past_checks(folder / "stash", "UPDATE description SET note = 'other'");
    EXPECT_THAT(refusal([&] { store::back_up(folder / "stash", folder / "copy"); }),
                HasSubstr("is damaged"));
    EXPECT_THAT(folder.listing(), ElementsAre("stash"));
}

// A limit on the size of files stands in for a full disk.
TEST(Backup, OnAFullDiskLeavesNoHalfCopy) {
    const Folder folder;
    make_stash(folder / "stash", sixty());
    const pid_t child = fork();
    ASSERT_GE(child, 0);
    if (child == 0) {
        std::signal(SIGXFSZ, SIG_IGN);
        const rlimit tight{16384, 16384};
        setrlimit(RLIMIT_FSIZE, &tight);
        int verdict = 1;
        try {
            store::back_up(folder / "stash", folder / "copy");
        } catch (const base::StoreError& error) {
            verdict = std::string(error.what()).find("cannot be written") == std::string::npos;
        }
        _exit(verdict);
    }
    int status = 0;
    ASSERT_EQ(waitpid(child, &status, 0), child);
    ASSERT_TRUE(WIFEXITED(status));
    EXPECT_EQ(WEXITSTATUS(status), 0);
    EXPECT_THAT(folder.listing(), ElementsAre("stash"));
}

TEST(Verify, FindsWhatIsWrong) {
    struct Wrong {
        const char* sql;
        const char* says;
    };
    const std::vector<Wrong> all = {
        {"SELECT 1", "layout: missing: skein_never_changed"},  // the tampering itself
        {"UPDATE description SET note = 'x'", "\"bought\" is not as it was entered"},
        {"UPDATE description SET knots = -1", "CHECK constraint failed"},
        {"UPDATE movement SET amount_g = 61 WHERE number = 2", "\"62 g\" and the figure"},
        {"UPDATE movement SET amount_text = '6x2' WHERE number = 2", "\"6x2\" cannot be read"},
        {"UPDATE movement SET day = '2020-01-01'", "is not as it was entered"},
        {"UPDATE entry SET day = '2020-01-01'", "is not as it was entered"},
        {"UPDATE movement_kind SET sense = 1 WHERE kind = 'given'", "layout: not as it should be"},
        {"PRAGMA foreign_keys = OFF; DELETE FROM description WHERE movement = 1",
         "a description in it is gone"},
        {"PRAGMA foreign_keys = OFF; DELETE FROM yarn WHERE number = 1",
         "belongs to a row that is gone"},
        {"DELETE FROM description; DELETE FROM movement WHERE number = 1",
         "a skein begins with its first movement"},
        {"DROP VIEW holding", "missing: holding"},
        {"UPDATE description SET note = CAST(x'ff' AS TEXT)", "not UTF-8"},
        {"DROP TRIGGER movement_takes_no_more_than_is_left;"
         "INSERT INTO movement (entry, skein, kind, amount_text, amount_g, scale_text, scale_g,"
         " purpose, note) VALUES (1, 1, 'used in', '90 g', 90, '1 g', 1, '', '')",
         "no skein holds less than nothing"},
        {"UPDATE movement SET tare_g = 63, tare_text = '63 g' WHERE number = 2",
         "the scale shows no more than the cone or bag"},
    };
    for (const Wrong& wrong : all) {
        const Folder folder;
        make_stash(folder / "stash", {full_skein()});
        EXPECT_EQ(said_by_verify(folder / "stash"), "");
        tamper_past_checks(folder / "stash", wrong.sql);
        const std::string before = bytes_of(folder / "stash");
        EXPECT_THAT(said_by_verify(folder / "stash"), HasSubstr(wrong.says)) << wrong.sql;
        EXPECT_TRUE(bytes_of(folder / "stash") == before);
    }
}

TEST(Verify, RefusesWhatIsNoStash) {
    const Folder folder;
    EXPECT_THAT(refusal([&] { static_cast<void>(store::verify(folder / "none")); }),
                HasSubstr("there is no stash yet"));
    write_bytes(folder / "text", std::string(5000, 'x'));
    EXPECT_THAT(refusal([&] { static_cast<void>(store::verify(folder / "text")); }),
                HasSubstr("this is not a stash"));
}

/// What a person gets to see of a stash.
std::string told(const Store& store) {
    std::string out;
    for (const stash::Skein& skein : store.skeins()) {
        out += skein.id;
        for (const stash::Event& event : store.history(skein.id)) {
            const stash::Movement& m = event.movement;
            out += std::string(word(m.kind)) + (m.amount ? stash::text(*m.amount) : "") + m.note +
                   (m.day ? base::to_text(*m.day) : "") + (event.undone ? "u" : "");
            if (m.described) out += m.described->yarn.name + m.described->note;
        }
    }
    return out;
}

// Anything that can be read after a byte was flipped, and differs, must be found.
TEST(Damage, AHundredFlippedBytesAreFoundOrHarmless) {
    const Folder folder;
    make_stash(folder / "good", sixty());
    const std::string good = bytes_of(folder / "good");
    const std::string said = told(Store::open(folder / "good", Access::read));
    const std::uint32_t seed = support::seed();
    RecordProperty("seed", std::to_string(seed));
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937 random(seed);
    std::uniform_int_distribution<std::size_t> place(0, good.size() - 1);
    std::uniform_int_distribution<int> bit(0, 7);
    int found = 0;
    const auto path = folder / "flipped";
    for (int round = 0; round < 100; ++round) {
        std::string bytes = good;
        const std::size_t at = place(random);
        bytes[at] = static_cast<char>(static_cast<unsigned char>(bytes[at]) ^
                                      (1U << static_cast<unsigned>(bit(random))));
        write_bytes(path, bytes);
        bool wrong = true;
        try {
            wrong = !store::verify(path).empty();
        } catch (const base::StoreError&) {
            wrong = true;
        }
        found += wrong ? 1 : 0;
        EXPECT_TRUE(bytes_of(path) == bytes) << "verify changed the file, byte " << at;
        if (wrong) continue;
        EXPECT_EQ(told(Store::open(path, Access::read)), said) << "byte " << at;
    }
    EXPECT_GT(found, 10);
}

TEST(Restore, PutsACopyBackAndKeepsWhatWasThere) {
    const Folder folder;
    const auto path = folder / "stash";
    make_stash(path, {full_skein("a")});
    store::back_up(path, folder / "copy");
    make_stash(path, {plain_skein("Brook", "b")});
    const std::string later = dump_of(path);
    const Store other = Store::open(path, Access::read);  // sees the change

    const auto kept = store::restore(folder / "copy", path);

    ASSERT_TRUE(kept);
    EXPECT_EQ(dump_of(*kept), later);
    EXPECT_EQ(dump_of(path), dump_of(folder / "copy"));
    EXPECT_THAT(other.ids(), ElementsAre("a"));
}

TEST(Restore, InPlaceOfADamagedOneOrNone) {
    const Folder folder;
    make_stash(folder / "first", {full_skein("a")});
    store::back_up(folder / "first", folder / "copy");
    EXPECT_FALSE(store::restore(folder / "copy", folder / "new/stash"));
    EXPECT_EQ(skeins_in(folder / "new/stash").size(), 1U);
    const std::string rubbish(5000, 'x');
    write_bytes(folder / "stash", rubbish);
    const auto kept = store::restore(folder / "copy", folder / "stash");
    ASSERT_TRUE(kept);
    EXPECT_EQ(bytes_of(*kept), rubbish);
    EXPECT_EQ(skeins_in(folder / "stash").size(), 1U);
}

TEST(Restore, OfADamagedCopyIsRefused) {
    const Folder folder;
    make_stash(folder / "stash", {full_skein("a")});
    store::back_up(folder / "stash", folder / "copy");
    tamper_past_checks(folder / "copy", "UPDATE description SET knots = 7");
    const std::string before = bytes_of(folder / "stash");
    EXPECT_THAT(refusal([&] { store::restore(folder / "copy", folder / "stash"); }),
                HasSubstr("is damaged"));
    EXPECT_THAT(refusal([&] { store::restore(folder / "stash", folder / "stash"); }),
                HasSubstr("is the stash itself"));
    EXPECT_TRUE(bytes_of(folder / "stash") == before);
}

TEST(Rescue, GivesAllOfASoundStash) {
    const Folder folder;
    make_stash(folder / "stash", sixty());
    const auto rescued = store::rescue(folder / "stash");
    EXPECT_TRUE(rescued.complete());
    EXPECT_EQ(rescued.movements, Store::open(folder / "stash", Access::read).movements());
}

TEST(Rescue, GivesTheRestOfADamagedOne) {
    const Folder folder;
    make_stash(folder / "good", sixty());
    const std::string good = bytes_of(folder / "good");
    const auto pages = std::stoul(sqlite3_says(folder / "good", "PRAGMA page_count"));
    const std::size_t page = good.size() / pages;
    std::size_t most = 0;
    std::size_t refused = 0;
    for (std::size_t at = 1; at < pages; ++at) {  // the first one holds the layout
        std::string bytes = good;
        bytes.replace(at * page, page, page, '\x5a');
        write_bytes(folder / "hurt", bytes);
        try {
            const auto rescued = store::rescue(folder / "hurt");
            most = std::max(most, rescued.movements.size());
            // All of it makes a new stash.
            stash::Lines lines;
            for (const auto& movement : rescued.movements) lines.push_back({movement, {}, {}});
            fs::remove(folder / "again");
            store::TakeIn how;
            how.entered = today;
            Store::open(folder / "again", Access::write).take_in(lines, how);
        } catch (const base::StoreError&) {
            ++refused;
        }
        EXPECT_TRUE(bytes_of(folder / "hurt") == bytes);
    }
    EXPECT_GT(most, 60U);
    EXPECT_LT(refused, pages / 2);
}

}  // namespace
}  // namespace skeinfall::store_tests
