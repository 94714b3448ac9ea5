// Where the file lies, and what happens when several have it open.

#include <algorithm>
#include <atomic>
#include <functional>
#include <set>
#include <thread>

#include <SQLiteCpp/SQLiteCpp.h>
#include <gmock/gmock.h>
#include <sys/wait.h>

#include "skeinfall/store/care.hpp"

#include "store/stash_file.hpp"

namespace skeinfall::store_tests {
namespace {

using store::Access;
using store::Store;
using testing::ElementsAre;
using testing::HasSubstr;

TEST(Paths, AnyNameWorksAndFoldersAreMade) {
    const Folder folder;
    for (const std::string name :
         {"with blanks", "it's \"quoted\"", "Wolle-Vorräte-毛糸", "a?mode=memory#b%20c",
          "semi;colon", "line\nbreak", "a/b/c/stash", "\xff-not-utf8", "-dash"}) {
        EXPECT_THAT(make_stash(folder / name, {plain_skein()}), ElementsAre("s1")) << name;
        EXPECT_TRUE(fs::is_regular_file(folder / name)) << name;
        EXPECT_EQ(skeins_in(folder / name).size(), 1U) << name;
    }
}

TEST(Paths, ANameThatSqliteGivesAMeaningIsAFileToUs) {
    const Folder folder;
    const fs::path before = fs::current_path();
    fs::current_path(folder.path());
    for (const std::string name : {":memory:", "file:stash?mode=memory"}) {
        make_stash(name, {plain_skein()});
        EXPECT_TRUE(fs::is_regular_file(folder / name)) << name;
        EXPECT_EQ(skeins_in(name).size(), 1U) << name;
    }
    fs::current_path(before);
}

TEST(Paths, SymbolicLinksAreFollowed) {
    const Folder folder;
    fs::create_directory(folder / "real");
    make_stash(folder / "real/stash", {plain_skein()});
    fs::create_symlink("real/stash", folder / "link");
    fs::create_directory_symlink("real", folder / "folder");

    EXPECT_THAT(make_stash(folder / "link", {plain_skein()}), ElementsAre("s2"));
    EXPECT_THAT(make_stash(folder / "folder/stash", {plain_skein()}), ElementsAre("s3"));

    EXPECT_TRUE(fs::is_symlink(folder / "link"));
    EXPECT_EQ(skeins_in(folder / "real/stash").size(), 3U);
}

TEST(AtRest, TheStashIsOneFile) {
    const Folder folder;
    make_stash(folder / "stash", {full_skein()});
    EXPECT_THAT(folder.listing(), ElementsAre("stash"));
    skeins_in(folder / "stash");
    EXPECT_THAT(folder.listing(), ElementsAre("stash"));
}

TEST(AtRest, ReadingChangesNoByte) {
    const Folder folder;
    make_stash(folder / "stash", {full_skein()});
    const std::string before = bytes_of(folder / "stash");
    {
        const Store store = Store::open(folder / "stash", Access::read);
        static_cast<void>(store.skeins());
        static_cast<void>(store.ids());
        static_cast<void>(store.skein("s1"));
    }
    EXPECT_TRUE(bytes_of(folder / "stash") == before);
}

TEST(AtRest, AKilledWriterLosesNothingItHadAdded) {
    const Folder folder;
    const auto path = folder / "stash";
    const pid_t child = fork();
    ASSERT_GE(child, 0);
    if (child == 0) {
        Store store = Store::open(path, Access::write);
        store.add({full_skein("kept")}, today);
        _exit(0);  // no destructor runs
    }
    int status = 0;
    ASSERT_EQ(waitpid(child, &status, 0), child);
    ASSERT_EQ(status, 0);
    ASSERT_TRUE(fs::exists(path.string() + "-wal"));

    const auto read = skeins_in(path);
    ASSERT_EQ(read.size(), 1U);
    EXPECT_TRUE(identical(read[0], full_skein("kept")));

    make_stash(path, {plain_skein()});
    EXPECT_THAT(folder.listing(), ElementsAre("stash"));
}

TEST(Together, AReaderSeesWhatAWriterAdded) {
    const Folder folder;
    Store writer = Store::open(folder / "stash", Access::write);
    const Store reader = Store::open(folder / "stash", Access::read);
    EXPECT_TRUE(reader.skeins().empty());
    writer.add({plain_skein()}, today);
    EXPECT_THAT(reader.ids(), ElementsAre("s1"));
}

TEST(Together, AReaderDoesNotWaitForAWriterAndSeesOnlyWhatIsDone) {
    const Folder folder;
    const Store writer = Store::open(folder / "stash", Access::write);  // keeps the file in WAL
    make_stash(folder / "stash", {plain_skein()});
    SQLite::Database other((folder / "stash").string(), SQLite::OPEN_READWRITE);
    SQLite::Transaction half(other, SQLite::TransactionBehavior::IMMEDIATE);
    other.exec("DROP TRIGGER description_never_changed");
    other.exec("UPDATE description SET note = 'half done'");

    const auto read = skeins_in(folder / "stash");

    ASSERT_EQ(read.size(), 1U);
    EXPECT_EQ(read[0].note, "");
}

TEST(Together, AWriterWaitsForAnother) {
    const Folder folder;
    Store store = Store::open(folder / "stash", Access::write);
    SQLite::Database other((folder / "stash").string(), SQLite::OPEN_READWRITE);
    auto held =
        std::make_unique<SQLite::Transaction>(other, SQLite::TransactionBehavior::IMMEDIATE);
    other.exec("INSERT INTO skein (id) VALUES ('taken meanwhile')");

    std::vector<std::string> ids;
    std::thread waiting([&] { ids = store.add({plain_skein()}, today); });
    std::this_thread::sleep_for(std::chrono::milliseconds(200));
    held->commit();
    waiting.join();

    EXPECT_THAT(ids, ElementsAre("s2"));
}

TEST(Together, AWriterThatWaitsInVainSaysSo) {
    const Folder folder;
    store::Waiting waiting;
    waiting.at_most = std::chrono::milliseconds(1500);
    int told = 0;
    waiting.tell = [&told] { ++told; };
    Store store = Store::open(folder / "stash", Access::write, waiting);
    SQLite::Database other((folder / "stash").string(), SQLite::OPEN_READWRITE);
    const SQLite::Transaction held(other, SQLite::TransactionBehavior::IMMEDIATE);

    EXPECT_THAT(refusal([&] { store.add({plain_skein()}, today); }),
                HasSubstr("stash: another program is writing to the stash; expected to have it "
                          "within 1.5 s"));
    EXPECT_EQ(told, 1);
    EXPECT_TRUE(store.ids().empty());
}

// Who came first is done while others keep coming.
TEST(Together, ManyWritersAllGetTheirTurn) {
    const Folder folder;
    const auto path = folder / "stash";
    make_stash(path, {full_skein()});
    constexpr std::size_t writers = 8;
    std::vector<std::string> failures(writers);
    std::vector<std::thread> threads;
    for (std::size_t w = 0; w < writers; ++w)
        threads.emplace_back([&, w] {
            try {
                Store store = Store::open(path, Access::write);
                for (int round = 0; round < 5; ++round) store.add({plain_skein()}, today);
            } catch (const std::exception& error) {
                failures[w] = error.what();
            }
        });
    for (std::thread& thread : threads) thread.join();
    EXPECT_THAT(failures, testing::Each(""));
    EXPECT_EQ(skeins_in(path).size(), 1 + writers * 5);
}

TEST(Together, ReadersAndABackUpDoNotDisturbEachOther) {
    const Folder folder;
    const auto path = folder / "stash";
    make_stash(path, std::vector<stash::Skein>(30, full_skein()));
    std::atomic<bool> over = false;
    std::vector<std::string> failures(3);
    const auto until_over = [&](std::size_t which, const std::function<void(int)>& act) {
        return std::thread([&over, &failures, which, act] {
            try {
                for (int round = 0; !over; ++round) act(round);
            } catch (const std::exception& error) {
                failures[which] = error.what();
            }
        });
    };
    std::vector<std::thread> threads;
    threads.push_back(until_over(
        0, [&](int) { EXPECT_GE(Store::open(path, Access::read).skeins().size(), 30U); }));
    threads.push_back(until_over(
        1, [&](int round) { store::back_up(path, folder / ("copy" + std::to_string(round))); }));
    threads.push_back(until_over(2, [&](int) { make_stash(path, {plain_skein()}); }));
    std::this_thread::sleep_for(std::chrono::seconds(3));
    over = true;
    for (std::thread& thread : threads) thread.join();
    EXPECT_THAT(failures, ElementsAre("", "", ""));
    EXPECT_TRUE(store::verify(path).empty());
}

TEST(Together, TwoWritersNeverGiveOneIdTwice) {
    const Folder folder;
    const auto path = folder / "stash";
    constexpr std::size_t writers = 2;
    constexpr std::size_t rounds = 10;
    std::vector<std::vector<std::string>> given(writers);
    std::vector<std::string> failures(writers);
    std::vector<std::thread> threads;
    for (std::size_t w = 0; w < writers; ++w)
        threads.emplace_back([&, w] {
            try {
                for (std::size_t round = 0; round < rounds; ++round) {
                    // Opened anew each time: making and closing the file race as well.
                    const auto ids = make_stash(path, {full_skein(), full_skein()});
                    given[w].insert(given[w].end(), ids.begin(), ids.end());
                }
            } catch (const std::exception& error) {
                failures[w] = error.what();
            }
        });
    for (std::thread& thread : threads) thread.join();

    EXPECT_THAT(failures, ElementsAre("", ""));
    std::set<std::string> ids;
    for (const auto& list : given) ids.insert(list.begin(), list.end());
    EXPECT_EQ(ids.size(), writers * rounds * 2);
    EXPECT_EQ(skeins_in(path).size(), writers * rounds * 2);
    EXPECT_EQ(sqlite3_says(path, "SELECT count(*) FROM yarn"), "1\n");
}

}  // namespace
}  // namespace skeinfall::store_tests
