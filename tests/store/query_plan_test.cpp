// How SQLite goes about every statement of the store: none reads a table of skeins, yarns or
// movements from end to end but those that must read all. The statements are collected as they are
// run, with their plans at that moment.

#include <functional>
#include <map>
#include <set>
#include <string>
#include <vector>

#include <SQLiteCpp/SQLiteCpp.h>
#include <gmock/gmock.h>
#include <sqlite3.h>

#include "skeinfall/store/care.hpp"

#include "store/stash_file.hpp"

namespace skeinfall::store_tests {
namespace {

using store::Access;
using store::Store;
using testing::IsEmpty;

std::set<std::string>& statements() {
    static std::set<std::string> all;
    return all;
}

int collect(unsigned /*what*/, void* /*context*/, void* statement, void* /*text*/) {
    const char* const sql = sqlite3_sql(static_cast<sqlite3_stmt*>(statement));
    if (sql != nullptr) statements().insert(sql);
    return 0;
}

int on_open(sqlite3* database, char** /*error*/, const void* /*routines*/) {
    sqlite3_trace_v2(database, SQLITE_TRACE_STMT, collect, nullptr);
    return SQLITE_OK;
}

/// Every statement that was run while it lives, in connections opened meanwhile.
class Collecting {
  public:
    Collecting() {
        statements().clear();
        sqlite3_auto_extension(reinterpret_cast<void (*)()>(on_open));
    }
    Collecting(const Collecting&) = delete;
    Collecting& operator=(const Collecting&) = delete;
    ~Collecting() { sqlite3_cancel_auto_extension(reinterpret_cast<void (*)()>(on_open)); }
};

std::vector<std::string> plan_of(SQLite::Database& database, const std::string& sql) {
    std::vector<std::string> out;
    SQLite::Statement plan(database, "EXPLAIN QUERY PLAN " + sql);
    while (plan.executeStep()) out.push_back(plan.getColumn(3).getString());
    return out;
}

/// "SCAN movement USING INDEX ..." of a table that grows with the stash.
bool reads_all(const std::string& step) {
    // The index of promises holds nothing else.
    if (!step.starts_with("SCAN ") || step.ends_with("INDEX movement_set_aside")) return false;
    const std::string what = step.substr(5, step.find(' ', 5) - 5);
    static const std::set<std::string> growing = {"movement", "skein",   "yarn",  "description",
                                                  "entry",    "reading", "told",  "standing",
                                                  "undoing",  "holding", "since", "counted"};
    return growing.contains(what);
}

/// Statements of `act` that read a growing table from end to end, each with the step that does.
std::map<std::string, std::string> scans_of(const fs::path& path,
                                            const std::function<void()>& act) {
    {
        const Collecting now;
        act();
    }
    SQLite::Database database(path.string(), SQLite::OPEN_READWRITE);
    std::map<std::string, std::string> out;
    EXPECT_GT(statements().size(), 5U);
    for (const std::string& sql : statements()) {
        const bool plain = sql.starts_with("SELECT") || sql.starts_with("INSERT") ||
                           sql.starts_with("DELETE") || sql.starts_with("REPLACE");
        if (!plain) continue;
        for (const std::string& step : plan_of(database, sql))
            if (reads_all(step)) out.emplace(sql, step);
    }
    return out;
}

stash::Movement used(const std::string& id) {
    stash::Movement out;
    out.kind = stash::MovementKind::used_in;
    out.skein = id;
    out.day = today;
    out.amount = metres("1 m", 1);
    out.purpose = "Hat";
    return out;
}

class QueryPlan : public testing::Test {
  protected:
    QueryPlan() { make_stash(path_, std::vector<stash::Skein>(20, full_skein())); }

    const Folder folder_;
    const fs::path path_ = folder_ / "stash";
};

TEST_F(QueryPlan, WhatChangesOneSkeinReadsNoTable) {
    EXPECT_THAT(scans_of(path_,
                         [&] {
                             Store store = Store::open(path_, Access::write);
                             store.record({used("s1")}, today);
                             stash::Movement off = used("s2");
                             off.amount = grams("1 g", 1);
                             off.scale = grams("1 g", 1);
                             off.purpose.clear();
                             static_cast<void>(store.wind_off(off, today));
                             stash::Movement kept = used("s3");
                             kept.kind = stash::MovementKind::set_aside;
                             store.set_aside({kept}, {*store.skein("s3")}, today);
                         }),
                IsEmpty());
}

TEST_F(QueryPlan, AnotherSkeinIsAddedWithoutReadingThoseThereAre) {
    stash::Line line;
    line.movement.skein = "another";
    line.movement.described = plain_skein();
    line.movement.day = today;
    store::TakeIn how;
    how.entered = today;
    EXPECT_THAT(scans_of(path_,
                         [&] {
                             Store store = Store::open(path_, Access::write);
                             static_cast<void>(store.take_in({line}, how));
                             store.add({full_skein()}, today);
                         }),
                IsEmpty());
}

TEST_F(QueryPlan, OneSkeinIsShownWithoutReadingTheRest) {
    EXPECT_THAT(scans_of(path_,
                         [&] {
                             const Store store = Store::open(path_, Access::read);
                             EXPECT_TRUE(store.skein("s7"));
                             EXPECT_FALSE(store.history("s7").empty());
                             static_cast<void>(store.unanswered("x"));
                         }),
                IsEmpty());
}

// Everything is read, each table once and in the order of its key: no sorting, no temporary index.
TEST_F(QueryPlan, TheWholeStashIsReadInOrder) {
    const auto scans = scans_of(path_, [&] {
        const Store store = Store::open(path_, Access::read);
        EXPECT_EQ(store.skeins().size(), 20U);
    });
    SQLite::Database database(path_.string(), SQLite::OPEN_READWRITE);
    for (const auto& [sql, scan] : scans)
        for (const std::string& step : plan_of(database, sql))
            EXPECT_THAT(step, testing::Not(testing::HasSubstr("TEMP B-TREE"))) << sql;
    EXPECT_FALSE(scans.empty());
}

}  // namespace
}  // namespace skeinfall::store_tests
