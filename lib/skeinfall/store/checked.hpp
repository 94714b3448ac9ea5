#pragma once
/// \file
/// Internal to the store: reading that notices what is not as it was entered.
///
/// Every row is checked against its digest when it is read. Where all is read, each table once and
/// in order, no row may be missing either: nothing is ever removed from a stash, so numbers have
/// no gaps and end where SQLite's own count of them does.

#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

#include "skeinfall/stash/skein.hpp"
#include "skeinfall/store/connection.hpp"
#include "skeinfall/store/rows.hpp"

namespace skeinfall::store {

/// Throws base::StoreError when the row is not as it was entered. A row without a digest was
/// written by other means and is taken as it is.
void expect_as_entered(const Told& row, const Connection& from);
void expect_as_entered(const Noted& row, const Connection& from);

/// One state of the file for several statements, unless a transaction is under way.
class Snapshot {
  public:
    explicit Snapshot(const Connection& connection);
    Snapshot(const Snapshot&) = delete;
    Snapshot(Snapshot&&) = delete;
    Snapshot& operator=(const Snapshot&) = delete;
    Snapshot& operator=(Snapshot&&) = delete;
    ~Snapshot();

  private:
    SQLite::Database* began_ = nullptr;
};

/// A movement that stands, and where.
struct Standing {
    stash::Movement movement;
    std::int64_t number = 0;
    std::int64_t skein = 0;  ///< its number, from 1
};

/// All movements that stand, in the order they were entered.
void for_each_standing(const Connection& connection, const std::function<void(Standing&&)>& take);

/// Every reading that stands, in the order they were entered.
[[nodiscard]] std::vector<stash::WorkReading> standing_readings(const Connection& connection);

/// What is held of one skein, from its movements in order: what the view `counted` says. The skein
/// itself is kept elsewhere, and it is always the same.
class Holding {
  public:
    void take(stash::Movement&& movement, std::int64_t number, stash::Skein& skein);

    /// Completes the skein; false when nothing is left of it.
    [[nodiscard]] bool held(stash::Skein& skein) const;
    /// Number of its first movement; 0 when there is none.
    [[nodiscard]] std::int64_t arrival() const { return arrival_; }

  private:
    enum class Base { none, weighing, all_taken };
    std::int64_t arrival_ = 0;
    std::int64_t base_at_ = 0;
    std::int64_t added_at_ = 0;
    bool wound_ = false;
    bool moved_ = false;
    Base base_ = Base::none;
    bool described_ = false;
    units::Mass mass_{};
    units::Length length_{};
    double scale_g2_ = 0.0;
    double amount_m2_ = 0.0;
};

/// Every skein that is held, in the order they came, without what is set aside.
[[nodiscard]] std::vector<stash::Skein> held_skeins(const Connection& connection);

}  // namespace skeinfall::store
