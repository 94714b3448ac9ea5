#pragma once
/// \file
/// Internal to the store: writes movements, gathering what is wrong with them.

#include <cstdint>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include <SQLiteCpp/SQLiteCpp.h>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/stash/movement.hpp"
#include "skeinfall/store/store.hpp"

namespace skeinfall::store {

/// All movements of one entry. Lives inside an immediate transaction, which the caller commits
/// when throw_if_any() did not throw.
class Recorder {
  public:
    Recorder(SQLite::Database& database, base::Day entered);

    /// No skein without an id will be given this one.
    void reserve(std::string_view id);

    /// Returns the skein's id, which a skein without one is given; empty when there is a problem.
    std::string record(const Line& line);

    void record(const stash::WorkReading& reading);

    /// Adds a problem that names the line.
    void report(const Line& line, std::string what, std::string expected, std::string remedy);

    /// Nothing of a line that has a problem is kept.
    void keep_lines_apart() { apart_ = true; }
    [[nodiscard]] const base::Problems& problems() const { return problems_; }

    /// Throws base::InputError with every problem there was.
    void throw_if_any();

    [[nodiscard]] std::string new_id();

  private:
    struct Known {
        std::int64_t number = 0;
        bool told_of = false;   ///< there are movements of it
        bool standing = false;  ///< some of them were not undone
    };
    std::optional<Known> look_up(const std::string& id);
    std::optional<std::int64_t> skein_of(const Line& line, std::string& id);
    std::int64_t make_skein(const std::string& id);
    std::int64_t number_of_other(const Line& line);
    bool class_known(const yarn::Yarn& yarn);
    /// A yarn that was met, or made, here.
    struct MetYarn {
        std::int64_t number = 0;
        std::string fibre;  ///< see digest_of()
    };
    const MetYarn& yarn_of(const stash::Skein& of);
    std::int64_t entry();
    void insert(const Line& line, const std::string& id, std::int64_t skein);
    void report_broken_rule(const Line& line, const SQLite::Exception& error);
    [[nodiscard]] std::string set_aside_of(const std::string& id);

    SQLite::Database& database_;
    base::Day entered_;
    SQLite::Statement find_skein_;
    SQLite::Statement insert_skein_;
    SQLite::Statement find_class_;
    SQLite::Statement find_yarn_;
    SQLite::Statement insert_yarn_;
    SQLite::Statement insert_movement_;
    SQLite::Statement insert_description_;
    std::optional<SQLite::Statement> insert_promise_;
    std::int64_t entry_ = 0;
    std::int64_t next_ = 1;               // number that the next id is tried with
    std::vector<std::int64_t> reserved_;  // numbers of ids that new_id() could think of
    bool reserved_sorted_ = true;
    std::unordered_map<std::string, MetYarn> met_yarns_;  // by stash::packed()
    std::map<std::string, Line> awaited_;  // named as the other end by a line, not yet begun
    base::Problems problems_;
    bool apart_ = false;
};

}  // namespace skeinfall::store
