#pragma once
/// \file
/// The stash file: an SQLite database that keeps the skeins a maker owns.
///
/// One file, laid out by schema/schema.sql. A Store is one connection; use it from one thread.
/// Several Stores, also of several programs, may be open on one file: a reader sees the stash as
/// it stood before or after a change, a writer waits up to five seconds for another. While a
/// writer is open, SQLite keeps "-wal" and "-shm" files beside the stash; at rest it is one file.

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/stash/skein.hpp"

namespace skeinfall::store {

/// Stands in the header of every stash file ("SKNF") and tells it from other SQLite files.
inline constexpr int application_id = 0x534B4E46;

enum class Access { read, write };

class Connection;

/// Every function throws base::StoreError, naming the file, when the file cannot be used.
class Store {
  public:
    /// Opens a stash file after checking that it is one, that this version knows its layout and
    /// that it is whole. Symbolic links are followed. `write` makes the file, and the folders
    /// above it, when missing; with `read` a missing file is a StoreError that says how to begin.
    [[nodiscard]] static Store open(const std::filesystem::path& path, Access access);

    Store(Store&&) noexcept;
    Store& operator=(Store&&) noexcept;
    Store(const Store&) = delete;
    Store& operator=(const Store&) = delete;
    ~Store();

    /// Adds all skeins or, when anything is wrong with any of them, none. A skein without an id
    /// gets one ("s1", "s2", ...) that no skein of this stash ever had. Returns the ids in the
    /// order of `skeins`. Throws base::InputError with every problem: an id that was used before,
    /// text that is not UTF-8 or holds a zero byte, a figure the layout does not allow.
    std::vector<std::string> add(const std::vector<stash::Skein>& skeins);

    /// Every skein, in the order they were added, with its latest weighing.
    [[nodiscard]] std::vector<stash::Skein> skeins() const;

    /// The skein with this id, or nothing.
    [[nodiscard]] std::optional<stash::Skein> skein(std::string_view id) const;

    /// The ids of skeins(), in the same order.
    [[nodiscard]] std::vector<std::string> ids() const;

  private:
    explicit Store(std::unique_ptr<Connection> connection);
    std::unique_ptr<Connection> connection_;
};

}  // namespace skeinfall::store
