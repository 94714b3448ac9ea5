#pragma once
/// \file
/// Looking after a stash file: copies, checks, bringing a copy back, saving what can be read.
///
/// Nothing here repairs a damaged file: it is reported, put aside under another name when a copy
/// takes its place, and what can be read of it is given out.

#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "skeinfall/stash/movement.hpp"
#include "skeinfall/stash/work_reading.hpp"

namespace skeinfall::store {

/// Copies a stash to a new file, also while others write to it, and checks the copy. Throws
/// base::StoreError when the stash is not sound, `to` exists or cannot be written; then there is
/// no file `to`.
void back_up(const std::filesystem::path& stash, const std::filesystem::path& to);

/// The same to "STASH.NAME-copy", with a number when that exists; returns its path.
std::filesystem::path copy_beside(const std::filesystem::path& stash, const std::string& name);

/// One thing that is wrong.
struct Finding {
    std::string where;  ///< "file", "row", "rule", or the id of a skein; printable
    std::string what;   ///< printable
};

/// Everything that is wrong with a stash: SQLite's integrity check and foreign keys, the rules of
/// schema/checks.sql, and what only reading can tell (bytes that are not UTF-8, figures that do
/// not agree with their texts). Empty when it is sound. Changes nothing. Throws base::StoreError
/// only when there is no file, or none of ours.
[[nodiscard]] std::vector<Finding> verify(const std::filesystem::path& stash);

/// Puts a copy in the place of a stash. The copy is verified first and stays; what the stash held
/// is kept beside it, and its path returned (nothing when there was none). Throws
/// base::StoreError when the copy is not sound.
std::optional<std::filesystem::path> restore(const std::filesystem::path& copy,
                                             const std::filesystem::path& stash);

/// How the rows of one kind came through. What was entered is the sum of the rest.
struct Tally {
    std::size_t entered = 0;   ///< by SQLite's own count, else by the last that was found
    bool counted = false;      ///< by SQLite's own count
    std::size_t sound = 0;     ///< as entered, by their digest
    std::size_t doubtful = 0;  ///< not as entered, or written by other means without a digest
    std::size_t undone = 0;    ///< read, but taken back once
    std::size_t left_out = 0;  ///< read, but no use without others that are lost
    std::size_t lost = 0;      ///< not found, or no sense in it
};

/// What can be read of a damaged stash, in order, as far as it makes sense by itself. A skein whose
/// id is lost is called "no-id-N", a yarn whose row is lost "unknown yarn N"; both are doubtful.
struct Rescued {
    std::vector<stash::Movement> movements;
    std::vector<bool> doubtful_movements;  ///< one for each
    std::vector<stash::WorkReading> readings;
    std::vector<bool> doubtful_readings;
    Tally of_movements;
    Tally of_readings;

    [[nodiscard]] bool complete() const {
        const auto fine = [](const Tally& tally) {
            return tally.counted && tally.doubtful + tally.left_out + tally.lost == 0;
        };
        return fine(of_movements) && fine(of_readings);
    }
};

/// Reads the pages without any index and, where that is gone, without the schema; never changes
/// the file. Throws base::StoreError when it cannot be read at all.
[[nodiscard]] Rescued rescue(const std::filesystem::path& stash);

}  // namespace skeinfall::store
