#include "skeinfall/store/connection.hpp"

#include <array>
#include <cstdint>
#include <mutex>
#include <new>
#include <system_error>
#include <thread>
#include <utility>

#include <fmt/format.h>
#include <sqlite3.h>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/store/care.hpp"
#include "skeinfall/store/embedded_schema.hpp"
#include "skeinfall/store/layout.hpp"

namespace skeinfall::store {
namespace {

constexpr std::uintmax_t least_size = 512;  // of any SQLite file that is not empty
constexpr const char* not_a_stash = "this is not a stash, or it is damaged at the start";
constexpr const char* name_another =
    "Name another file, or bring a copy back: skeinfall stash restore COPY";
constexpr const char* how_to_begin =
    R"(Begin one with "skeinfall stash import FILE.csv" or "skeinfall stash add"; if you have one, check its name.)";

std::mutex kept_guard;
std::optional<KeptEntry> kept_last;

}  // namespace

std::optional<KeptEntry> Connection::last_kept() {
    const std::lock_guard<std::mutex> hold(kept_guard);
    return kept_last;
}

void Connection::remember_kept(std::int64_t entry) const {
    const std::lock_guard<std::mutex> hold(kept_guard);
    kept_last = KeptEntry{path_, entry};
}

std::int64_t Connection::last_entry() const {
    SQLite::Statement last(*database_, "SELECT seq FROM sqlite_sequence WHERE name = 'entry'");
    return last.executeStep() ? last.getColumn(0).getInt64() : 0;
}

Connection::Connection(const std::filesystem::path& path, Access access, Checks checks,
                       Waiting waiting)
    : path_(path), access_(access), waiting_(std::move(waiting)) {
    if (path.empty())
        fail("the stash file has an empty name", "the path of a file", "Name the stash file.");
    std::error_code trouble;
    // An absolute path cannot be taken for ":memory:" or a "file:" address.
    path_ = std::filesystem::absolute(path, trouble);
    if (trouble) fail("cannot be found: " + trouble.message(), "the path of a file", name_another);
    look_at_file();
    try {
        connect();
        if (is_blank()) lay_out();
        check_identity();
        if (checks == Checks::usual && number_of("user_version") == layout_version) check_layout();
        std::error_code unknown;
        const std::uintmax_t size = std::filesystem::file_size(path_, unknown);
        checked_in_part_ = !unknown && size > Store::checked_when_opened;
        if (checks == Checks::usual && !checked_in_part_) check_soundness("quick_check");
        bring_up_to_date();
        // Another program may hold the file just now; the older way of writing serves as well.
        if (access_ == Access::write &&
            database_->tryExec("PRAGMA journal_mode = WAL") != SQLITE_OK &&
            database_->getErrorCode() != SQLITE_BUSY)
            throw SQLite::Exception(database_->getHandle());
    } catch (const SQLite::Exception& error) {
        fail(error);
    }
}

Connection::~Connection() {
    if (access_ == Access::read) return;
    // The last writer to leave folds the "-wal" file in, so that copying one file copies the
    // stash. It fails at once, and harmlessly, while anybody else has the file open.
    database_->tryExec("PRAGMA busy_timeout = 0");
    database_->tryExec("PRAGMA journal_mode = DELETE");
}

void Connection::fail(std::string what, std::string expected, std::string remedy) const {
    throw base::StoreError({std::move(what),
                            {.file = base::shown_inert(path_.string()), .line = 0, .column = 0},
                            std::move(expected),
                            std::move(remedy)});
}

void Connection::fail(const SQLite::Exception& error) const {
    const std::string how = base::shown_inert(error.what());
    switch (error.getErrorCode()) {
        case SQLITE_NOMEM:
            throw std::bad_alloc();
        case SQLITE_NOTADB:
            fail(not_a_stash, "a stash file", name_another);
        case SQLITE_CORRUPT:
        case SQLITE_ERROR:
        case SQLITE_MISMATCH:
        case SQLITE_SCHEMA:
            fail_damaged(how);
        case SQLITE_BUSY:
        case SQLITE_LOCKED:
            fail("another program is writing to the stash",
                 fmt::format("to have it within {:g} s",
                             std::chrono::duration<double>(waiting_.at_most).count()),
                 "Wait until the other program is done, then try again.");
        case SQLITE_CANTOPEN:
        case SQLITE_PERM:
        case SQLITE_AUTH:
        case SQLITE_READONLY:
            fail("cannot be used: " + how,
                 access_ == Access::read ? "a file that may be read"
                                         : "a file and a folder that may be written",
                 "Give yourself the right to, or copy the file to a folder of your own.");
        default:
            fail("cannot be used: " + how, "a disk with room that can be read and written",
                 "See that the disk is not full and in order, then try again.");
    }
}

void Connection::throw_damaged(const std::string& how) const {
    fail("is damaged: " + how, "a whole stash file",
         "Bring back a copy with \"skeinfall stash restore COPY\"; \"skeinfall stash rescue\" "
         "prints "
         "what can still be read.");
}

/// Zero gives up.
int Connection::wait_for_others(void* self, int tries) {
    using std::chrono::milliseconds;
    auto& own = *static_cast<Connection*>(self);
    const auto now = std::chrono::steady_clock::now();
    if (tries == 0) own.waiting_since_ = now;
    const auto waited = now - own.waiting_since_;
    if (waited >= own.waiting_.at_most) return 0;
    if (waited >= milliseconds(1000) && !std::exchange(own.waiting_told_, true) &&
        own.waiting_.tell)
        own.waiting_.tell();
    std::this_thread::sleep_for(milliseconds(waited < milliseconds(1000)   ? 10
                                             : waited < milliseconds(5000) ? 5
                                                                           : 2));
    return 1;
}

void Connection::look_at_file() const {
    namespace fs = std::filesystem;
    std::error_code trouble;
    const fs::file_status status = fs::status(path_, trouble);
    if (fs::is_directory(status))
        fail("this is a folder", "a stash file", "Name a file inside the folder.");
    if (fs::is_regular_file(status)) {
        // SQLite takes a file of one byte for an empty one and would write over it.
        const std::uintmax_t size = fs::file_size(path_, trouble);
        if (size > 0 && size < least_size) fail(not_a_stash, "a stash file", name_another);
        return;
    }
    if (fs::exists(status)) fail("this is not an ordinary file", "a stash file", name_another);
    if (status.type() != fs::file_type::not_found)
        fail("cannot be found: " + trouble.message(), "a file that may be read", name_another);
    if (access_ == Access::read) fail("there is no stash yet", "a stash file", how_to_begin);
    fs::create_directories(path_.parent_path(), trouble);
    if (trouble)
        fail("the folder for it cannot be made: " + trouble.message(), "a folder that may be made",
             "Name a file in a folder of your own.");
}

void Connection::connect() {
    // A reader opens for writing too, where it may: only so can it tidy up after a program that
    // was killed. "query_only" keeps it from changing anything.
    // A connection serves one thread, so SQLite need not guard it.
    int flags = SQLite::OPEN_READWRITE | SQLite::OPEN_NOMUTEX;
    if (access_ == Access::write) flags |= SQLite::OPEN_CREATE;
    database_ = std::make_unique<SQLite::Database>(path_.string(), flags);
    sqlite3_busy_handler(database_->getHandle(), wait_for_others, this);
    harden();
    if (access_ == Access::read) {
        database_->exec("PRAGMA query_only = ON");
        return;
    }
    database_->exec("PRAGMA foreign_keys = ON");
    // Without a log, a journal that comes back after a loss of power would undo what was kept: its
    // folder is synced as well (sqlite.org/pragma.html#pragma_synchronous).
    database_->exec("PRAGMA synchronous = EXTRA");
    // A large import otherwise writes its pages over and over: 64 MB, where they are needed.
    database_->exec("PRAGMA cache_size = -65536");
    // SQLite quietly opens a file it may not write for reading.
    if (sqlite3_db_readonly(database_->getHandle(), "main") == 1)
        fail("may not be written", "a file that may be written",
             "Give yourself the right to write it, or copy it to a folder of your own.");
}

/// A stash may come from anybody: nothing in it is run or trusted beyond what a stash needs.
void Connection::harden() const {
    sqlite3* const handle = database_->getHandle();
    sqlite3_db_config(handle, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
    sqlite3_db_config(handle, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
    sqlite3_db_config(handle, SQLITE_DBCONFIG_DQS_DDL, 0, nullptr);
    sqlite3_db_config(handle, SQLITE_DBCONFIG_DQS_DML, 0, nullptr);
    struct Limit {
        int what;
        int most;
    };
    constexpr int mebibyte = 1024 * 1024;
    for (const Limit& limit : std::to_array<Limit>({{SQLITE_LIMIT_LENGTH, 16 * mebibyte},
                                                    {SQLITE_LIMIT_SQL_LENGTH, mebibyte},
                                                    {SQLITE_LIMIT_COLUMN, 100},
                                                    {SQLITE_LIMIT_EXPR_DEPTH, 100},
                                                    {SQLITE_LIMIT_FUNCTION_ARG, 10},
                                                    {SQLITE_LIMIT_ATTACHED, 0},
                                                    {SQLITE_LIMIT_LIKE_PATTERN_LENGTH, 1000},
                                                    {SQLITE_LIMIT_VARIABLE_NUMBER, 100},
                                                    {SQLITE_LIMIT_TRIGGER_DEPTH, 10},
                                                    {SQLITE_LIMIT_WORKER_THREADS, 0}}))
        sqlite3_limit(handle, limit.what, limit.most);
    database_->exec("PRAGMA cell_size_check = ON");
}

/// Before anything of the file is run. An older layout is compared once it was brought up to date.
void Connection::check_layout() const {
    const LayoutFaults faults = layout_faults(*database_);
    if (!faults.foreign.empty())
        fail_damaged(base::quoted(faults.foreign.front()) + " in it is not of skeinfall's layout");
    if (!faults.missing.empty())
        fail_damaged("\"" + faults.missing.front() + "\" of skeinfall's layout is missing in it");
}

int Connection::number_of(const char* pragma) const {
    return database_->execAndGet(std::string("PRAGMA ") + pragma).getInt();
}

bool Connection::is_blank() const {
    const int id = number_of("application_id");
    return (id == 0 || id == application_id) && number_of("user_version") == 0 &&
           database_->execAndGet("SELECT count(*) FROM sqlite_schema").getInt() == 0;
}

void Connection::lay_out() {
    if (access_ == Access::read) fail("there is no stash in it yet", "a stash file", how_to_begin);
    SQLite::Transaction transaction(*database_, SQLite::TransactionBehavior::IMMEDIATE);
    // Another program may have been faster.
    if (!is_blank()) return;
    database_->exec(schema_sql);
    database_->exec(reference_sql);
    database_->exec("PRAGMA application_id = " + std::to_string(application_id));
    database_->exec("PRAGMA user_version = " + std::to_string(layout_version));
    transaction.commit();
}

void Connection::check_identity() const {
    if (number_of("application_id") != application_id)
        fail("this is the SQLite file of another program", "a stash file", name_another);
    const int found = number_of("user_version");
    if (found == layout_version) return;
    const std::string what = "has layout " + std::to_string(found);
    const std::string expected = "layout " + std::to_string(layout_version);
    if (found > layout_version)
        fail(what + ", made by a newer skeinfall", expected,
             "Use that version of skeinfall, or a newer one.");
    if (found < 1) fail(what + ", which no skeinfall ever made", expected, name_another);
    if (access_ == Access::read)
        fail(what + ", made by an older skeinfall", expected,
             "Run \"skeinfall stash upgrade\": it keeps a copy and brings the stash up to date.");
}

void Connection::bring_up_to_date() {
    if (number_of("user_version") == layout_version) return;
    check_soundness("integrity_check");
    for (const Migration& migration : migrations) {
        SQLite::Transaction transaction(*database_, SQLite::TransactionBehavior::IMMEDIATE);
        // Another program may have been faster.
        if (number_of("user_version") != migration.to - 1) continue;
        if (!upgrade_)
            upgrade_ = Upgrade{migration.to - 1, layout_version,
                               copy_beside(path_, "layout-" + std::to_string(migration.to - 1))};
        database_->exec(migration.sql);
        if (migration.to == layout_version) check_layout();
        check_soundness("quick_check");
        database_->exec("PRAGMA user_version = " + std::to_string(migration.to));
        transaction.commit();
    }
}

void Connection::check_soundness(const char* how) const {
    SQLite::Statement check(*database_, "PRAGMA " + std::string(how) + "(1)");
    check.executeStep();
    const std::string verdict = check.getColumn(0).getString();
    // A page that there was no memory to read is no damage; SQLite says so in words only.
    if (verdict.ends_with("error code=" + std::to_string(SQLITE_NOMEM))) throw std::bad_alloc();
    if (verdict != "ok") fail_damaged(base::shown_inert(verdict));
    SQLite::Statement dangling(*database_, "PRAGMA foreign_key_check");
    if (dangling.executeStep())
        fail_damaged("a row of table " + base::shown_inert(dangling.getColumn(0).getString()) +
                     " belongs to a row that is gone");
}

}  // namespace skeinfall::store
