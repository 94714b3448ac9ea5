#pragma once
/// \file
/// Internal to the store: takes in the lines of a file, as Store::take_in() says.

#include <cstddef>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <SQLiteCpp/SQLiteCpp.h>

#include "skeinfall/store/connection.hpp"
#include "skeinfall/store/recorder.hpp"
#include "skeinfall/store/store.hpp"

namespace skeinfall::store {

/// One file and one stash. Refers to all that it is given.
class Intake {
  public:
    Intake(const Connection& connection, const stash::Lines& lines, const TakeIn& how,
           const std::vector<stash::WorkReading>& readings);

    /// Inside an immediate transaction.
    TakenIn run(SQLite::Database& database);

    /// A line that names a skein.
    struct Named {
        std::string_view id;
        std::size_t line = 0;
    };
    /// Those of one skein, in the order of the file; never empty.
    using OfSkein = std::span<const Named>;

  private:
    TakenIn take(SQLite::Database& database);
    void compare_with_known(Recorder& recorder, TakenIn& out);
    void compare_skein(OfSkein lines, const std::vector<stash::Movement>& known, Recorder& recorder,
                       TakenIn& out);
    void take_lines(Recorder& recorder, TakenIn& out);
    void take_readings(Recorder& recorder, TakenIn& out);
    bool refuse_what_does_not_fit(SQLite::Database& database);
    bool refuse(const std::string& id, const std::string& why,
                const std::set<stash::MovementKind>& kinds);

    const Connection& connection_;
    const stash::Lines& lines_;
    const TakeIn& how_;
    const std::vector<stash::WorkReading>& readings_;
    std::vector<Named> named_;   ///< by id, then as the file has them
    std::vector<bool> leave_;    ///< nothing is taken of these lines
    std::vector<bool> refused_;  ///< of these, because the stash would not be sound with them
    std::set<std::string_view> corrected_;
    base::Problems problems_;  ///< of lines refused
};

}  // namespace skeinfall::store
