// A file that is not a whole stash of this layout is refused, and left as it was.

#include <SQLiteCpp/SQLiteCpp.h>
#include <gmock/gmock.h>
#include <sys/stat.h>

#include "store/stash_file.hpp"

namespace skeinfall::store_tests {
namespace {

using store::Access;
using store::Store;
using testing::AllOf;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

constexpr std::array both = {Access::read, Access::write};

/// A good stash changed behind the store's back.
void make_and_tamper(const fs::path& path, const std::string& sql) {
    make_stash(path, {full_skein(), plain_skein()});
    SQLite::Database(path.string(), SQLite::OPEN_READWRITE).exec(sql);
}

/// Refused in both ways, and not a byte of it changed.
void expect_refused_untouched(const fs::path& path, const std::string& says) {
    const std::string before = bytes_of(path);
    for (const Access access : both)
        EXPECT_THAT(refusal_to_open(path, access),
                    AllOf(HasSubstr(path.string() + ": "), HasSubstr(says)));
    EXPECT_TRUE(bytes_of(path) == before);
    EXPECT_FALSE(fs::exists(path.string() + "-wal"));
    EXPECT_FALSE(fs::exists(path.string() + "-journal"));
}

TEST(Refusal, AMissingFileNamesTheNextCommandAndIsNotMade) {
    const Folder folder;
    const std::string message = refusal_to_open(folder / "deep/stash", Access::read);
    EXPECT_THAT(message, HasSubstr((folder / "deep/stash").string() + ": there is no stash yet"));
    EXPECT_THAT(message, HasSubstr("skeinfall stash import FILE.csv"));
    EXPECT_THAT(message, HasSubstr("skeinfall stash add"));
    EXPECT_THAT(folder.listing(), IsEmpty());
}

TEST(Refusal, AnEmptyFileIsNoStashToReadButBecomesOne) {
    const Folder folder;
    write_bytes(folder / "stash", "");
    EXPECT_THAT(refusal_to_open(folder / "stash", Access::read),
                AllOf(HasSubstr("no stash in it yet"), HasSubstr("skeinfall stash add")));
    EXPECT_EQ(bytes_of(folder / "stash"), "");
    EXPECT_THAT(make_stash(folder / "stash", {plain_skein()}), ElementsAre("s1"));
}

TEST(Refusal, AnEmptyName) {
    for (const Access access : both)
        EXPECT_THROW(static_cast<void>(Store::open("", access)), base::StoreError);
}

TEST(Refusal, NotSqlite) {
    const Folder folder;
    write_bytes(folder / "list.csv", "yarn,colour\nCloudmoss,grey\n" + std::string(5000, 'x'));
    expect_refused_untouched(folder / "list.csv", "this is not a stash");
    write_bytes(folder / "short", "x");
    expect_refused_untouched(folder / "short", "this is not a stash");
}

TEST(Refusal, NotOurs) {
    const Folder folder;
    const auto path = folder / "other.db";
    SQLite::Database(path.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE)
        .exec("CREATE TABLE t (x); INSERT INTO t VALUES (1); PRAGMA user_version = 1");
    expect_refused_untouched(path, "of another program");
}

TEST(Refusal, AnEmptyDatabaseThatAnotherProgramMarked) {
    const Folder folder;
    const auto path = folder / "other.db";
    SQLite::Database(path.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE)
        .exec("PRAGMA application_id = 7");
    expect_refused_untouched(path, "of another program");
}

TEST(Refusal, ANewerLayoutNamesBoth) {
    const Folder folder;
    make_and_tamper(folder / "stash", "PRAGMA user_version = 99");
    expect_refused_untouched(folder / "stash",
                             "has layout 99, made by a newer skeinfall; expected layout " +
                                 std::to_string(current_layout()));
}

TEST(Refusal, TablesWithoutALayoutVersion) {
    const Folder folder;
    make_and_tamper(folder / "stash", "PRAGMA user_version = 0");
    expect_refused_untouched(folder / "stash", "has layout 0, which no skeinfall ever made");
    make_and_tamper(folder / "minus", "PRAGMA user_version = -1");
    expect_refused_untouched(folder / "minus", "has layout -1");
}

TEST(Refusal, ARowThatBreaksARule) {
    const Folder folder;
    make_and_tamper(
        folder / "stash",
        "PRAGMA ignore_check_constraints = ON; DROP TRIGGER description_never_changed; UPDATE "
        "description SET knots = -1");
    expect_refused_untouched(folder / "stash", "is damaged");
}

TEST(Refusal, ARowWhoseOwnerIsGone) {
    const Folder folder;
    make_and_tamper(folder / "stash",
                    "PRAGMA foreign_keys = OFF; DELETE FROM yarn WHERE number = 1");
    expect_refused_untouched(folder / "stash",
                             "a row of table description belongs to a row that is gone");
}

TEST(Refusal, ContentsThatOnlyReadingCanJudge) {
    const Folder folder;
    const std::vector<std::string> changes = {
        "DROP TRIGGER yarn_never_changed; UPDATE yarn SET fibre_json = '[[1]]' WHERE number = 1",
        "DROP TRIGGER yarn_never_changed; UPDATE yarn SET fibre_json = '[[\"wool\"]]' WHERE number "
        "= 1",
        "DROP TRIGGER yarn_never_changed; UPDATE yarn SET fibre_json = '[[\"wool\",0.8]' || ']x]]' "
        "WHERE number = 1",
        "DROP TRIGGER description_never_changed;"
        "UPDATE description SET note = CAST(x'ff' AS TEXT)",
        "DROP VIEW counted",
    };
    for (std::size_t i = 0; i < changes.size(); ++i) {
        const auto path = folder / std::to_string(i);
        make_and_tamper(path, changes[i]);
        EXPECT_THAT(refusal([&] { skeins_in(path); }),
                    AllOf(HasSubstr(path.string()), HasSubstr("is damaged")))
            << changes[i];
    }
}

TEST(Refusal, AFolder) {
    const Folder folder;
    for (const Access access : both)
        EXPECT_THAT(refusal_to_open(folder.path(), access), HasSubstr("is a folder"));
    EXPECT_THAT(folder.listing(), IsEmpty());
}

TEST(Refusal, APipe) {
    const Folder folder;
    ASSERT_EQ(mkfifo((folder / "pipe").c_str(), 0600), 0);
    for (const Access access : both)
        EXPECT_THAT(refusal_to_open(folder / "pipe", access), HasSubstr("not an ordinary file"));
}

TEST(Refusal, AFolderThatCannotBeMade) {
    const Folder folder;
    write_bytes(folder / "file", "mine");
    EXPECT_THAT(refusal_to_open(folder / "file/stash", Access::write),
                HasSubstr("the folder for it cannot be made"));
    EXPECT_THAT(refusal_to_open(folder / "file/stash", Access::read),
                HasSubstr("there is no stash yet"));
    EXPECT_EQ(bytes_of(folder / "file"), "mine");
    EXPECT_THAT(refusal_to_open("/proc/skeinfall/stash", Access::write),
                HasSubstr("the folder for it cannot be made"));
    EXPECT_THAT(refusal_to_open("/proc/stash", Access::write), HasSubstr("cannot be used"));
}

TEST(Refusal, ANameLongerThanAnyFileCanHave) {
    const Folder folder;
    for (const Access access : both)
        EXPECT_THAT(refusal_to_open(folder / std::string(300, 'x'), access),
                    HasSubstr(std::string(300, 'x')));
}

TEST(Refusal, AFileThatMayNotBeWrittenCanStillBeRead) {
    const Folder folder;
    const auto path = folder / "stash";
    make_stash(path, {full_skein()});
    fs::permissions(path, fs::perms(0444));
    const Unprivileged now;
    EXPECT_THAT(refusal_to_open(path, Access::write), HasSubstr("may not be written"));
    EXPECT_EQ(skeins_in(path).size(), 1U);
}

TEST(Refusal, AFolderThatMayNotBeWrittenCanStillBeRead) {
    const Folder folder;
    const auto path = folder / "stash";
    make_stash(path, {full_skein()});
    fs::permissions(path, fs::perms(0666));
    fs::permissions(folder.path(), fs::perms(0555));
    const Unprivileged now;
    EXPECT_THAT(refusal_to_open(path, Access::write), HasSubstr("a folder that may be written"));
    EXPECT_THAT(refusal_to_open(folder / "new", Access::write),
                HasSubstr("a folder that may be written"));
    EXPECT_THAT(refusal_to_open(folder / "sub/new", Access::write),
                HasSubstr("the folder for it cannot be made"));
    EXPECT_EQ(skeins_in(path).size(), 1U);
    EXPECT_THAT(folder.listing(), ElementsAre("stash"));
}

TEST(Refusal, AFileThatMayNotBeRead) {
    const Folder folder;
    const auto path = folder / "stash";
    make_stash(path, {full_skein()});
    fs::permissions(path, fs::perms(0000));
    {
        const Unprivileged now;
        for (const Access access : both)
            EXPECT_THAT(refusal_to_open(path, access), HasSubstr("cannot be used"));
    }
    const auto hidden = folder / "hidden";
    fs::create_directory(hidden);
    make_stash(hidden / "stash", {full_skein()});
    fs::permissions(hidden, fs::perms(0000));
    {
        const Unprivileged now;
        for (const Access access : both)
            EXPECT_THAT(refusal_to_open(hidden / "stash", access), HasSubstr("Permission denied"));
    }
    fs::permissions(hidden, fs::perms(0755));
}

TEST(Refusal, AMessageNeverSteersTheTerminal) {
    const Folder folder;
    const std::string message = refusal_to_open(folder / "a\x1b[2J", Access::read);
    EXPECT_EQ(message.find('\x1b'), std::string::npos);
    EXPECT_THAT(message, HasSubstr("a\\x1b[2J"));
}

/// A stash of several pages.
std::string good_bytes(const fs::path& path) {
    std::vector<stash::Skein> skeins(60, full_skein());
    for (std::size_t i = 0; i < skeins.size(); ++i) skeins[i].yarn.name += std::to_string(i);
    make_stash(path, skeins);
    return bytes_of(path);
}

TEST(Damage, EveryTruncationIsRefused) {
    const Folder folder;
    const std::string good = good_bytes(folder / "good");
    const auto path = folder / "cut";
    for (std::size_t size = 1; size < good.size(); size += size < 1100 ? 37 : 509) {
        write_bytes(path, good.substr(0, size));
        SCOPED_TRACE(size);
        for (const Access access : both) refusal_to_open(path, access);
        ASSERT_EQ(fs::file_size(path), size);
    }
}

// Some header fields (change counter, writer's version) may hold anything.
TEST(Damage, AFlippedHeaderIsRefusedOrHarmless) {
    const Folder folder;
    const std::string good = good_bytes(folder / "good");
    const auto skeins = skeins_in(folder / "good");
    const auto path = folder / "flipped";
    int refused = 0;
    for (std::size_t at = 0; at < 100; ++at) {
        std::string bytes = good;
        bytes[at] = static_cast<char>(~bytes[at]);
        write_bytes(path, bytes);
        try {
            EXPECT_TRUE(identical(skeins_in(path), skeins)) << "byte " << at;
        } catch (const base::StoreError&) {
            ++refused;
        }
    }
    EXPECT_GE(refused, 16 + 4 + 4);  // at least the magic text, both of our marks
}

TEST(Damage, AFlippedByteAnywhereNeverGetsPastTheStore) {
    const Folder folder;
    const std::string good = good_bytes(folder / "good");
    const auto path = folder / "flipped";
    int refused = 0;
    for (std::size_t at = 100; at < good.size(); at += 41) {
        std::string bytes = good;
        bytes[at] = static_cast<char>(~bytes[at]);
        write_bytes(path, bytes);
        try {
            static_cast<void>(skeins_in(path));
        } catch (const base::StoreError&) {
            ++refused;
        }
    }
    EXPECT_GT(refused, 0);
}

}  // namespace
}  // namespace skeinfall::store_tests
