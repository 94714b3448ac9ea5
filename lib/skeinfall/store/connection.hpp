#pragma once
/// \file
/// Internal to the store: an open, checked stash file, and how its failures are told.

#include <chrono>
#include <cstdint>
#include <exception>
#include <filesystem>
#include <memory>
#include <new>
#include <optional>
#include <string>

#include <SQLiteCpp/SQLiteCpp.h>
#include <sqlite3.h>

#include "skeinfall/store/store.hpp"

namespace skeinfall::store {

/// How far a file is checked when it is opened: as Store::open says, or whether it is a stash of
/// the current layout and no more.
enum class Checks { usual, identity };

/// Tells of contents that do not hang together.
class Source {
  public:
    Source() = default;
    Source(const Source&) = delete;
    Source(Source&&) = delete;
    Source& operator=(const Source&) = delete;
    Source& operator=(Source&&) = delete;
    virtual ~Source() = default;

    /// Throws base::StoreError; `how` says what was found.
    [[noreturn]] void fail_damaged(const std::string& how) const {
        throw_damaged(how);
        std::terminate();
    }

  private:
    virtual void throw_damaged(const std::string& how) const = 0;
};

class Connection : public Source {
  public:
    /// See Store::open.
    Connection(const std::filesystem::path& path, Access access, Checks checks = Checks::usual,
               Waiting waiting = {});
    Connection(const Connection&) = delete;
    Connection(Connection&&) = delete;
    Connection& operator=(const Connection&) = delete;
    Connection& operator=(Connection&&) = delete;
    ~Connection() override;

    /// By all connections.
    [[nodiscard]] static std::optional<KeptEntry> last_kept();

    [[nodiscard]] SQLite::Database& database() const { return *database_; }

    [[nodiscard]] const std::optional<Upgrade>& upgrade() const { return upgrade_; }

    /// The file was too large to be checked whole when it was opened.
    [[nodiscard]] bool checked_in_part() const { return checked_in_part_; }

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

  private:
    void throw_damaged(const std::string& how) const override;
    template <class Act>
    auto run_alone(Act act, bool keep) {
        return look([&](SQLite::Database& database) {
            // Only for want of memory was one not ended.
            if (sqlite3_get_autocommit(database.getHandle()) == 0) throw std::bad_alloc();
            SQLite::Transaction transaction(database, SQLite::TransactionBehavior::IMMEDIATE);
            const std::int64_t before = keep ? last_entry() : 0;
            auto out = act(database);
            if (keep) {
                const std::int64_t after = last_entry();
                transaction.commit();
                if (after != before) remember_kept(after);
            }
            return out;
        });
    }
    [[nodiscard]] std::int64_t last_entry() const;
    void remember_kept(std::int64_t entry) const;
    static int wait_for_others(void* self, int tries);
    void look_at_file() const;
    void connect();
    [[nodiscard]] int number_of(const char* pragma) const;
    [[nodiscard]] bool is_blank() const;
    void lay_out();
    void harden() const;
    void check_identity() const;
    void check_layout() const;
    void bring_up_to_date();
    void check_soundness(const char* how) const;

    std::filesystem::path path_;
    Access access_;
    std::unique_ptr<SQLite::Database> database_;
    std::optional<Upgrade> upgrade_;
    bool checked_in_part_ = false;
    Waiting waiting_;
    std::chrono::steady_clock::time_point waiting_since_;
    bool waiting_told_ = false;
};

}  // namespace skeinfall::store
