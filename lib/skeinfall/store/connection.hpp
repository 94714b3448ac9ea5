#pragma once
/// \file
/// Internal to the store: an open, checked stash file, and how its failures are told.

#include <filesystem>
#include <memory>
#include <optional>
#include <string>

#include <SQLiteCpp/SQLiteCpp.h>

#include "skeinfall/store/store.hpp"

namespace skeinfall::store {

/// How far a file is checked when it is opened: as Store::open says, or whether it is a stash of
/// the current layout and no more.
enum class Checks { usual, identity };

class Connection {
  public:
    /// See Store::open.
    Connection(const std::filesystem::path& path, Access access, Checks checks = Checks::usual);
    Connection(const Connection&) = delete;
    Connection(Connection&&) = delete;
    Connection& operator=(const Connection&) = delete;
    Connection& operator=(Connection&&) = delete;
    ~Connection();

    [[nodiscard]] SQLite::Database& database() const { return *database_; }

    [[nodiscard]] const std::optional<Upgrade>& upgrade() const { return upgrade_; }

    /// What `act(database)` gives, run alone among writers; kept when it throws nothing.
    template <class Act>
    auto change(Act act) {
        return run_alone(act, true);
    }
    /// The same, but nothing is kept.
    template <class Act>
    auto try_change(Act act) {
        return run_alone(act, false);
    }
    /// What `act(database)` gives, with failures told about this file.
    template <class Act>
    // NOLINTNEXTLINE(modernize-use-nodiscard): some acts give nothing.
    auto look(Act act) const {
        try {
            return act(*database_);
        } catch (const SQLite::Exception& error) {
            fail(error);
        }
    }

    /// Throws base::StoreError about this file.
    [[noreturn]] void fail(std::string what, std::string expected, std::string remedy) const;
    [[noreturn]] void fail(const SQLite::Exception& error) const;

    /// fail() for a file whose contents do not hang together; `how` says what was found.
    [[noreturn]] void fail_damaged(const std::string& how) const;

  private:
    template <class Act>
    auto run_alone(Act act, bool keep) {
        return look([&](SQLite::Database& database) {
            SQLite::Transaction transaction(database, SQLite::TransactionBehavior::IMMEDIATE);
            auto out = act(database);
            if (keep) transaction.commit();
            return out;
        });
    }
    void look_at_file() const;
    void connect();
    [[nodiscard]] int number_of(const char* pragma) const;
    [[nodiscard]] bool is_blank() const;
    void lay_out();
    void check_identity() const;
    void bring_up_to_date();
    void check_soundness(const char* how) const;

    std::filesystem::path path_;
    Access access_;
    std::unique_ptr<SQLite::Database> database_;
    std::optional<Upgrade> upgrade_;
};

}  // namespace skeinfall::store
