#pragma once
/// \file
/// Internal to the store: an open, checked stash file, and how its failures are told.

#include <filesystem>
#include <memory>
#include <string>

#include "skeinfall/store/store.hpp"

namespace SQLite {
class Database;
class Exception;
}  // namespace SQLite

namespace skeinfall::store {

class Connection {
  public:
    /// See Store::open.
    Connection(const std::filesystem::path& path, Access access);
    Connection(const Connection&) = delete;
    Connection& operator=(const Connection&) = delete;
    ~Connection();

    [[nodiscard]] SQLite::Database& database() const { return *database_; }

    /// Throws base::StoreError about this file.
    [[noreturn]] void fail(std::string what, std::string expected, std::string remedy) const;
    [[noreturn]] void fail(const SQLite::Exception& error) const;

    /// fail() for a file whose contents do not hang together; `how` says what was found.
    [[noreturn]] void fail_damaged(const std::string& how) const;

  private:
    void look_at_file() const;
    void connect();
    [[nodiscard]] int number_of(const char* pragma) const;
    [[nodiscard]] bool is_blank() const;
    void lay_out();
    void check_identity() const;
    void check_soundness() const;

    std::filesystem::path path_;
    Access access_;
    std::unique_ptr<SQLite::Database> database_;
};

}  // namespace skeinfall::store
