// Ids are stable and never used again; a call that fails changes nothing.

#include <csignal>
#include <limits>
#include <set>

#include <SQLiteCpp/SQLiteCpp.h>
#include <gmock/gmock.h>
#include <sys/resource.h>
#include <sys/wait.h>

#include "store/stash_file.hpp"

namespace skeinfall::store_tests {
namespace {

using store::Access;
using store::Store;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

base::Problems problems_of_adding(Store& store, const std::vector<stash::Skein>& skeins) {
    try {
        store.add(skeins, today);
    } catch (const base::InputError& error) {
        for (const base::Problem& problem : error.problems()) {
            EXPECT_FALSE(problem.expected.empty());
            EXPECT_FALSE(problem.remedy.empty());
        }
        return error.problems();
    }
    ADD_FAILURE() << "the skeins were taken";
    return {};
}

/// As only a stranger can: the layout forbids it.
void remove_skein(const fs::path& path, const std::string& id, bool its_id_too = false) {
    SQLite::Database database(path.string(), SQLite::OPEN_READWRITE, 1000);
    database.exec("PRAGMA foreign_keys = ON");
    // Put back at the end: a stash without its rules is not opened.
    std::string rules;
    for (const std::string table : {"skein", "movement", "description"}) {
        const std::string rule = table + "_never_removed";
        rules += database.execAndGet("SELECT sql FROM sqlite_schema WHERE name = '" + rule + "'")
                     .getString() +
                 ";";
        database.exec("DROP TRIGGER " + rule);
    }
    const std::string number = "(SELECT number FROM skein WHERE id = '" + id + "')";
    database.exec(
        "DELETE FROM description WHERE movement IN"
        " (SELECT number FROM movement WHERE skein = " +
        number + ")");
    ASSERT_GE(database.exec("DELETE FROM movement WHERE skein = " + number), 1);
    if (its_id_too) database.exec("DELETE FROM skein WHERE id = '" + id + "'");
    database.exec(rules);
}

TEST(Ids, AreGivenInOrder) {
    const Folder folder;
    Store store = Store::open(folder / "stash", Access::write);
    EXPECT_THAT(store.add({plain_skein(), plain_skein()}, today), ElementsAre("s1", "s2"));
    EXPECT_THAT(store.add({plain_skein("Brook", "blue"), plain_skein()}, today),
                ElementsAre("blue", "s4"));
    EXPECT_THAT(store.add({}, today), IsEmpty());
    EXPECT_THAT(store.ids(), ElementsAre("s1", "s2", "blue", "s4"));
}

TEST(Ids, NeverCollideWithGivenOnes) {
    const Folder folder;
    Store store = Store::open(folder / "stash", Access::write);
    EXPECT_THAT(
        store.add({plain_skein(), plain_skein("Brook", "s1"), plain_skein("Brook", "s3")}, today),
        ElementsAre("s2", "s1", "s3"));
    EXPECT_THAT(store.add({plain_skein("Brook", "s6"), plain_skein("Brook", "s5")}, today),
                ElementsAre("s6", "s5"));
    EXPECT_THAT(store.add({plain_skein(), plain_skein(), plain_skein()}, today),
                ElementsAre("s7", "s8", "s9"));
}

TEST(Ids, AreNotUsedAgainAfterTheSkeinIsGone) {
    const Folder folder;
    const auto path = folder / "stash";
    make_stash(path, {full_skein(), full_skein(), full_skein("s9"), full_skein("blue")});
    for (const std::string id : {"s2", "s9", "blue"}) remove_skein(path, id);

    Store store = Store::open(path, Access::write);
    EXPECT_THAT(store.ids(), ElementsAre("s1"));
    EXPECT_EQ(problems_of_adding(store, {plain_skein("Brook", "blue"), plain_skein("Brook", "s2")})
                  .size(),
              2U);
    const std::vector<stash::Skein> six(6, plain_skein());
    EXPECT_THAT(store.add(six, today), ElementsAre("s5", "s6", "s7", "s8", "s10", "s11"));
}

TEST(Ids, AreNotUsedAgainEvenWhenTheirRecordIsGone) {
    const Folder folder;
    const auto path = folder / "stash";
    make_stash(path, {plain_skein(), plain_skein()});
    remove_skein(path, "s2", true);

    EXPECT_THAT(make_stash(path, {plain_skein()}), ElementsAre("s3"));
}

TEST(Adding, UsedIdsAreListedAndNothingChanges) {
    const Folder folder;
    const auto path = folder / "stash";
    make_stash(path, {full_skein("a"), full_skein("b"), plain_skein()});
    const std::string before = dump_of(path);

    {
        Store store = Store::open(path, Access::write);
        const auto problems = problems_of_adding(
            store, {plain_skein("Acorn", "new"), plain_skein("Brook", "b"), plain_skein("Cinder"),
                    plain_skein("Dew", "s3"), plain_skein("Ember", "new")});
        ASSERT_EQ(problems.size(), 3U);
        EXPECT_EQ(problems[0].what, "skein 2 of 5 (Brook): the id \"b\" was used before");
        EXPECT_EQ(problems[1].what, "skein 4 of 5 (Dew): the id \"s3\" was used before");
        EXPECT_EQ(problems[2].what, "skein 5 of 5 (Ember): the id \"new\" was used before");
    }
    EXPECT_EQ(dump_of(path), before);
    EXPECT_THAT(make_stash(path, {plain_skein()}), ElementsAre("s4"));
}

struct BadSkein {
    std::string says;
    void (*spoil)(stash::Skein&);
};

constexpr double infinite = std::numeric_limits<double>::infinity();
constexpr double no_number = std::numeric_limits<double>::quiet_NaN();

TEST(Adding, WhatTheStashCannotHoldIsRefusedAsAWhole) {
    const std::vector<BadSkein> bad = {
        {"yarn name not empty", [](auto& s) { s.yarn.name.clear(); }},
        {"no weight class -1", [](auto& s) { s.yarn.weight->number = -1; }},
        {"yarn label length above zero", [](auto& s) { s.yarn.label.length = metres("0 m", 0); }},
        {"yarn label length above zero",
         [](auto& s) { s.yarn.label.length = metres("inf m", infinite); }},
        {"yarn label length text with number",
         [](auto& s) { s.yarn.label.length = metres("nan m", no_number); }},
        {"yarn label mass above zero", [](auto& s) { s.yarn.label.mass = grams("-1 g", -1); }},
        {"yarn label mass text not empty", [](auto& s) { s.yarn.label.mass = grams("", 1); }},
        {"yarn colour repeat above zero", [](auto& s) { s.yarn.colour_repeat = metres("0 m", 0); }},
        {"the share of wool",
         [](auto& s) { s.yarn.fibre.shares[0].share = units::Ratio(infinite); }},
        {"the share of nylon", [](auto& s) { s.yarn.fibre.shares[1].share = units::Ratio(0.0); }},
        {"description knots at least zero", [](auto& s) { s.knots = -1; }},
        {"description dye lot not empty", [](auto& s) { s.dye_lot = ""; }},
        {"description shade group not empty", [](auto& s) { s.shade_group = ""; }},
        {"movement amount mass above zero", [](auto& s) { s.weighing->shown = grams("0 g", 0); }},
        {"movement amount fits its kind",
         [](auto& s) { s.weighing->shown = grams("nan", no_number); }},
        {"movement scale above zero", [](auto& s) { s.weighing->scale = grams("0 g", 0); }},
        {"movement tare above zero", [](auto& s) { s.weighing->tare = grams("-1 g", -1); }},
        {"not UTF-8", [](auto& s) { s.id = "\xff"; }},
        {"not UTF-8", [](auto& s) { s.yarn.name = "caf\xe9"; }},
        {"not UTF-8", [](auto& s) { s.yarn.label.length->text = "\xff"; }},
        {"not UTF-8", [](auto& s) { s.yarn.label.mass->text = "\xff"; }},
        {"not UTF-8", [](auto& s) { s.yarn.colour_repeat->text = "\xff"; }},
        {"not UTF-8", [](auto& s) { s.yarn.fibre.shares[0].fibre = "\xff"; }},
        {"not UTF-8", [](auto& s) { s.colourway = "\xff"; }},
        {"not UTF-8", [](auto& s) { s.dye_lot = "\xff"; }},
        {"not UTF-8", [](auto& s) { s.shade_group = "\xff"; }},
        {"not UTF-8", [](auto& s) { s.weighing->shown.text = "\xff"; }},
        {"not UTF-8", [](auto& s) { s.weighing->scale.text = "\xff"; }},
        {"not UTF-8", [](auto& s) { s.weighing->tare->text = "\xff"; }},
        {"not UTF-8", [](auto& s) { s.note = "\xff"; }},
        {"zero byte", [](auto& s) { s.note = std::string("a\0b", 3); }},
    };
    std::vector<stash::Skein> skeins = {plain_skein("Acorn")};
    for (const BadSkein& one : bad) {
        skeins.push_back(full_skein());
        one.spoil(skeins.back());
    }
    const Folder folder;
    const auto path = folder / "stash";
    make_stash(path, {full_skein()});
    const std::string before = dump_of(path);

    {
        Store store = Store::open(path, Access::write);
        const auto problems = problems_of_adding(store, skeins);
        ASSERT_EQ(problems.size(), bad.size());
        for (std::size_t i = 0; i < bad.size(); ++i) {
            EXPECT_THAT(problems[i].what, HasSubstr(bad[i].says));
            EXPECT_THAT(problems[i].what, HasSubstr("skein " + std::to_string(i + 2) + " of "));
        }
    }
    EXPECT_EQ(dump_of(path), before);
}

TEST(Adding, AStoreOpenForReadingTakesNothing) {
    const Folder folder;
    const auto path = folder / "stash";
    make_stash(path, {plain_skein()});
    const std::string before = bytes_of(path);

    Store store = Store::open(path, Access::read);
    EXPECT_THAT(refusal([&] { store.add({plain_skein()}, today); }),
                HasSubstr("stash: cannot be used"));

    EXPECT_EQ(bytes_of(path), before);
    EXPECT_THAT(store.ids(), ElementsAre("s1"));
}

// A limit on the size of files stands in for a full disk.
TEST(Adding, AFullDiskLeavesTheStashAsItWas) {
    const Folder folder;
    const auto path = folder / "stash";
    make_stash(path, {full_skein()});
    const std::string before = dump_of(path);

    const pid_t child = fork();
    ASSERT_GE(child, 0);
    if (child == 0) {
        int verdict = 1;
        {
            Store store = Store::open(path, Access::write);
            std::signal(SIGXFSZ, SIG_IGN);
            const rlim_t limit = fs::file_size(path);
            const rlimit tight{limit, limit};
            setrlimit(RLIMIT_FSIZE, &tight);
            try {
                store.add(std::vector<stash::Skein>(5000, full_skein()), today);
            } catch (const base::StoreError& error) {
                const std::string message = error.what();
                verdict = message.find("disk is not full") == std::string::npos ? 2 : 0;
            }
        }
        _exit(verdict);
    }
    int status = 0;
    ASSERT_EQ(waitpid(child, &status, 0), child);
    EXPECT_TRUE(WIFEXITED(status));
    EXPECT_EQ(WEXITSTATUS(status), 0);

    EXPECT_EQ(dump_of(path), before);
    EXPECT_EQ(skeins_in(path).size(), 1U);
}

}  // namespace
}  // namespace skeinfall::store_tests
