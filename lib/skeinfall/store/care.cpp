#include "skeinfall/store/care.hpp"

#include <cmath>
#include <new>
#include <set>
#include <system_error>

#include <SQLiteCpp/Backup.h>
#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>
#include <sqlite3.h>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/store/connection.hpp"
#include "skeinfall/store/embedded_schema.hpp"
#include "skeinfall/store/layout.hpp"
#include "skeinfall/store/part_folder.hpp"
#include "skeinfall/store/rows.hpp"
#include "skeinfall/store/rules.hpp"

namespace skeinfall::store {
namespace {

namespace fs = std::filesystem;

constexpr int wait_for_others_ms = 30'000;
constexpr std::size_t most_findings = 100;

[[noreturn]] void fail(const fs::path& file, std::string what, std::string expected,
                       std::string remedy) {
    throw base::StoreError({std::move(what),
                            {.file = base::shown_inert(file.string()), .line = 0, .column = 0},
                            std::move(expected),
                            std::move(remedy)});
}

/// Page by page, also while others write. Throws SQLite::Exception.
void copy_pages(SQLite::Database& from, SQLite::Database& to) {
    SQLite::Backup backup(to, from);
    const int result = backup.executeStep(-1);
    if (result != SQLITE_DONE) throw SQLite::Exception("the file is in use", result);
}

/// A new file with the pages of `from` and the rights of `like`, under `to` only when it is
/// complete and `check` of it threw nothing.
template <class Check>
void copy_to_new(const fs::path& from, const fs::path& to, const fs::path& like, Check check) {
    if (std::error_code none; fs::exists(fs::symlink_status(to, none)))
        fail(to, "there is a file of that name already", "a name that is free",
             "Name another file.");
    try {
        PartFolder part(to);
        {
            SQLite::Database source(from.string(), SQLite::OPEN_READWRITE, wait_for_others_ms);
            SQLite::Database copy(part.file().string(),
                                  SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
            copy_pages(source, copy);
            copy.exec("PRAGMA journal_mode = DELETE");
        }
        check(part.file());
        part.publish(like);
    } catch (const SQLite::Exception& error) {
        if (error.getErrorCode() == SQLITE_NOMEM) throw std::bad_alloc();
        fail(to, "the copy cannot be written: " + base::shown_inert(error.what()),
             "a disk with room and a folder that may be written",
             "Name a file in a folder of your own on a disk that is not full.");
    } catch (const fs::filesystem_error& error) {
        fail(to, "the copy cannot be written: " + base::shown_inert(error.code().message()),
             "a folder that may be written", "Name a file in a folder of your own.");
    }
}

fs::path free_name_beside(const fs::path& stash, const std::string& name) {
    for (int number = 1;; ++number) {
        fs::path out = stash;
        out += "." + name + "-copy" + (number > 1 ? std::to_string(number) : std::string());
        if (std::error_code none; !fs::exists(fs::symlink_status(out, none))) return out;
    }
}

void expect_sound(const fs::path& named, const std::vector<Finding>& findings) {
    if (findings.empty()) return;
    fail(
        named,
        fmt::format("is damaged in {} place{}; {}: {}", findings.size(),
                    findings.size() == 1 ? "" : "s", findings.front().where, findings.front().what),
        "a sound stash file", "\"skeinfall stash verify\" lists what is wrong.");
}

/// Gathers what is wrong with one stash.
class Inspector {
  public:
    explicit Inspector(const fs::path& path) : connection_(path, Access::read, Checks::identity) {}

    std::vector<Finding> run() {
        step([&] { check_file(); });
        step([&] { check_layout(); });
        // What is not of our making is not run.
        if (!safe_to_read_) return std::move(findings_);
        step([&] { check_rules(); });
        step([&] { check_movements(); });
        step([&] { check_readings(); });
        step([&] { check_skeins(); });
        return std::move(findings_);
    }

  private:
    template <class Step>
    void step(Step act) {
        try {
            act();
        } catch (const SQLite::Exception& error) {
            if (error.getErrorCode() == SQLITE_NOMEM) throw std::bad_alloc();
            found("file", error.what());
        } catch (const base::StoreError& error) {
            found("file", error.problem().what);
        }
    }

    void found(std::string where, std::string_view what) {
        if (findings_.size() < most_findings)
            findings_.push_back({base::shown_inert(where), base::shown_inert(what)});
    }

    void check_file() {
        SQLite::Statement check(connection_.database(), "PRAGMA integrity_check(20)");
        while (check.executeStep()) {
            const std::string line = check.getColumn(0).getString();
            if (line != "ok") found("file", line);
        }
        SQLite::Statement dangling(connection_.database(), "PRAGMA foreign_key_check");
        while (dangling.executeStep())
            found("file", "a row of table " + dangling.getColumn(0).getString() +
                              " belongs to a row that is gone");
    }

    /// The layout and the rows that come with it are those of a new stash.
    void check_layout() {
        const LayoutFaults faults = layout_faults(connection_.database());
        for (const std::string& name : faults.foreign)
            found("layout", "not as it should be: " + name);
        for (const std::string& name : faults.missing) found("layout", "missing: " + name);
        safe_to_read_ = faults.safe_to_read;
        if (!safe_to_read_) return;
        SQLite::Database fresh(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
        fresh.exec(schema_sql);
        fresh.exec(reference_sql);
        const auto rows_of = [](SQLite::Database& database, const char* sql) {
            std::set<std::string> out;
            SQLite::Statement rows(database, sql);
            while (rows.executeStep()) {
                std::string row;
                for (int column = 0; column < rows.getColumnCount(); ++column)
                    row += rows.getColumn(column).getString() + "\n";
                out.insert(row);
            }
            return out;
        };
        const auto compare = [&](const char* sql) {
            const auto wanted = rows_of(fresh, sql);
            for (const std::string& row : rows_of(connection_.database(), sql))
                if (!wanted.contains(row))
                    found("layout", "not as it should be: " + row.substr(0, row.find('\n')));
            for (const std::string& row : wanted)
                if (!rows_of(connection_.database(), sql).contains(row))
                    found("layout", "missing: " + row.substr(0, row.find('\n')));
        };
        for (const char* sql : {"SELECT * FROM movement_kind", "SELECT * FROM unit",
                                "SELECT name, number, source FROM weight_class"})
            compare(sql);
    }

    void check_rules() {
        for (const BrokenRule& broken : broken_rules(connection_.database()))
            found(broken.where, "it breaks the rule \"" + broken.in_words() + "\"");
    }

    template <class Q>
    void check_figure(const std::string& where, const units::Printed<Q>& printed,
                      base::Result<Q> (*parse)(std::string_view)) {
        const auto read = parse(printed.text);
        constexpr double noise = 1e-9;
        if (!read)
            found(where, "\"" + printed.text + "\" cannot be read: " + read.problem().what);
        else if (!(std::abs(read->value() - printed.value.value()) <=
                   noise * std::abs(read->value())))
            found(where, "\"" + printed.text + "\" and the figure beside it do not agree");
    }
    template <class Q>
    void check_figure(const std::string& where, const std::optional<units::Printed<Q>>& printed,
                      base::Result<Q> (*parse)(std::string_view)) {
        if (printed) check_figure(where, *printed, parse);
    }
    void check_field(const std::string& where,
                     const std::optional<units::Printed<units::Length>>& printed) {
        check_figure(where, printed, units::parse_length);
    }
    void check_field(const std::string& where,
                     const std::optional<units::Printed<units::Mass>>& printed) {
        check_figure(where, printed, units::parse_mass);
    }
    template <class T>
    void check_field(const std::string& /*where*/, const T& /*no figure*/) {}

    void check_movements() {
        SQLite::Statement rows(connection_.database(),
                               select_movements() + " ORDER BY told.number");
        while (rows.executeStep()) {
            std::string where = "movement";
            try {
                const Told row = told(Cells(rows, connection_), connection_);
                const stash::Movement& movement = row.movement;
                where = movement.skein;
                if (row.digest && *row.digest != digest_of(movement, movement.skein, row.entered))
                    found(where,
                          "\"" + std::string(word(movement.kind)) + "\" is not as it was entered");
                if (movement.amount) {
                    if (const auto* mass =
                            std::get_if<units::Printed<units::Mass>>(&*movement.amount))
                        check_figure(where, *mass, units::parse_mass);
                    else
                        check_figure(where,
                                     std::get<units::Printed<units::Length>>(*movement.amount),
                                     units::parse_length);
                }
                check_figure(where, movement.scale, units::parse_mass);
                check_figure(where, movement.tare, units::parse_mass);
                if (!movement.described) continue;
                for (const stash::Field& field : stash::fields())
                    std::visit(
                        [&](const auto& member) {
                            check_field(where, member.seen(*movement.described));
                        },
                        field.held);
            } catch (const base::StoreError& error) {
                found(where, error.problem().what);
            }
        }
    }

    void check_readings() {
        SQLite::Statement rows(connection_.database(),
                               std::string(select_readings_sql) + " ORDER BY told.number");
        while (rows.executeStep()) {
            std::string where = "reading";
            try {
                const Noted row = noted(Cells(rows, connection_), connection_);
                const stash::WorkReading& reading = row.reading;
                where = reading.project;
                if (row.digest && *row.digest != digest_of(reading, row.entered))
                    found(where,
                          "the reading \"" + reading.mass.text + "\" is not as it was entered");
                check_figure(where, reading.mass, units::parse_mass);
                check_figure(where, reading.scale, units::parse_mass);
                check_figure(where, reading.tare, units::parse_mass);
            } catch (const base::StoreError& error) {
                found(where, error.problem().what);
            }
        }
    }

    void check_skeins() {
        SQLite::Statement rows(connection_.database(), select_skeins() + " ORDER BY arrival");
        Yarns yarns(connection_);
        while (rows.executeStep()) {
            const stash::Skein skein = held(Cells(rows, connection_), yarns);
            for (const std::string& fault : stash::faults(skein)) found(skein.id, fault);
        }
    }

    Connection connection_;
    bool safe_to_read_ = false;
    std::vector<Finding> findings_;
};

/// A damaged stash is kept as it lies, with what SQLite keeps beside it; nothing is moved before
/// the copy is complete.
fs::path put_aside_and_copy(const fs::path& copy, const fs::path& place) {
    const fs::path kept = free_name_beside(place, "before-restore");
    const auto move = [](const fs::path& from, const fs::path& to) {
        for (const char* end : {"-wal", "-shm", "-journal", ""}) {
            std::error_code trouble;
            fs::rename(from.string() + end, to.string() + end, trouble);
            if (trouble && trouble != std::errc::no_such_file_or_directory) return trouble;
        }
        return std::error_code();
    };
    const fs::path made = free_name_beside(place, "restored");
    copy_to_new(copy, made, place, [&](const fs::path& part) { expect_sound(copy, verify(part)); });
    std::error_code trouble = move(place, kept);
    if (!trouble) fs::rename(made, place, trouble);
    if (!trouble) return kept;
    const std::string why = trouble.message();
    move(kept, place);
    fs::remove(made, trouble);
    fail(place, "cannot be put aside: " + why, "a folder that may be written",
         "Give yourself the right to.");
}

}  // namespace

void back_up(const fs::path& stash, const fs::path& to) {
    const Connection source(stash, Access::read, Checks::identity);
    copy_to_new(stash, to, stash, [&](const fs::path& copy) { expect_sound(stash, verify(copy)); });
}

fs::path copy_beside(const fs::path& stash, const std::string& name) {
    fs::path to = free_name_beside(stash, name);
    copy_to_new(stash, to, stash, [](const fs::path&) {});
    return to;
}

std::vector<Finding> verify(const fs::path& stash) {
    return Inspector(stash).run();
}

std::optional<fs::path> restore(const fs::path& copy, const fs::path& stash) {
    std::error_code trouble;
    if (!fs::exists(copy, trouble))
        fail(copy, "there is no such copy", {}, "Check the name and the folder.");
    expect_sound(copy, verify(copy));
    // Through a link, which stays.
    fs::path place = fs::weakly_canonical(stash, trouble);
    if (trouble) place = stash;
    if (place.has_parent_path()) fs::create_directories(place.parent_path(), trouble);
    if (!fs::exists(place, trouble)) {
        copy_to_new(copy, place, copy,
                    [&](const fs::path& made) { expect_sound(copy, verify(made)); });
        return std::nullopt;
    }
    if (fs::equivalent(copy, place, trouble))
        fail(copy, "is the stash itself", "a copy of it", "Name another file.");
    bool sound = false;
    try {
        sound = verify(place).empty();
    } catch (const base::StoreError&) {
        sound = false;
    }
    if (!sound) return put_aside_and_copy(copy, place);
    const fs::path kept = copy_beside(place, "before-restore");
    try {
        SQLite::Database from(fs::absolute(copy).string(), SQLite::OPEN_READWRITE,
                              wait_for_others_ms);
        SQLite::Database to(fs::absolute(place).string(), SQLite::OPEN_READWRITE,
                            wait_for_others_ms);
        // A journal that was removed, but whose folder was not synced, would come back with the
        // power and undo all of it.
        to.exec("PRAGMA synchronous = EXTRA");
        copy_pages(from, to);
        to.tryExec("PRAGMA journal_mode = DELETE");
    } catch (const SQLite::Exception& error) {
        if (error.getErrorCode() == SQLITE_NOMEM) throw std::bad_alloc();
        fail(stash, "the copy cannot be put there: " + base::shown_inert(error.what()),
             "a file and a folder that may be written",
             "What the stash held is kept in " + base::shown_inert(kept.string()) + ".");
    }
    expect_sound(stash, verify(place));
    return kept;
}

}  // namespace skeinfall::store
