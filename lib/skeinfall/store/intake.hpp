#pragma once
/// \file
/// Internal to the store: takes in the lines of a file, as Store::take_in() says.

#include <cstddef>
#include <map>
#include <set>
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
    Intake(const Connection& connection, const std::vector<Line>& lines, const TakeIn& how,
           const std::vector<stash::WorkReading>& readings);

    /// Inside an immediate transaction.
    TakenIn run(SQLite::Database& database);

  private:
    TakenIn take(SQLite::Database& database);
    void compare_with_known(Recorder& recorder, TakenIn& out);
    void take_lines(Recorder& recorder, TakenIn& out);
    void take_readings(Recorder& recorder, TakenIn& out);
    bool refuse_what_does_not_fit(SQLite::Database& database);
    bool refuse(const std::string& id, const std::string& why,
                const std::set<stash::MovementKind>& kinds);

    const Connection& connection_;
    const std::vector<Line>& lines_;
    const TakeIn& how_;
    const std::vector<stash::WorkReading>& readings_;
    std::map<std::string_view, std::vector<std::size_t>> of_skein_;  ///< lines that name a skein
    std::vector<bool> leave_;    ///< nothing is taken of these lines
    std::vector<bool> refused_;  ///< of these, because the stash would not be sound with them
    std::set<std::string_view> corrected_;
    base::Problems problems_;  ///< of lines refused
};

}  // namespace skeinfall::store
