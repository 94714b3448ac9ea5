#pragma once
/// \file
/// A disk that loses power: a layer between SQLite and the system (SQLite's VFS interface,
/// sqlite.org/vfs.html) that records what is written, cut, synced and removed, and makes from the
/// record what the disk may hold after a loss of power at any moment.
///
/// A write is safe once its file was synced after it. Until then it may be there, may be missing,
/// may be there in part (sectors of 512 bytes, in any order), whatever became of earlier ones. What
/// lies outside a write stays as it was, as SQLite takes for granted (sqlite.org/psow.html).

#include <cstdint>
#include <map>
#include <random>
#include <string>
#include <vector>

namespace skeinfall::store_tests {

/// What happened to a file, in order.
struct DiskEvent {
    enum class Kind { written, cut, synced, removed };
    Kind kind = Kind::written;
    std::string file;  ///< its full name
    std::int64_t at = 0;
    std::string bytes;     ///< written
    bool lasting = false;  ///< removed: the folder was synced too
};

/// Records while it lives: SQLite opens everything through it. One at a time.
class LosingDisk {
  public:
    LosingDisk();
    LosingDisk(const LosingDisk&) = delete;
    LosingDisk(LosingDisk&&) = delete;
    LosingDisk& operator=(const LosingDisk&) = delete;
    LosingDisk& operator=(LosingDisk&&) = delete;
    ~LosingDisk();

    [[nodiscard]] const std::vector<DiskEvent>& events() const;
};

/// How unsynced writes fare.
enum class Loss { all, none, some };

/// The files as they may be when power goes just before event `moment`; `before` is what they held
/// when the record began.
std::map<std::string, std::string> after_loss(const std::map<std::string, std::string>& before,
                                              const std::vector<DiskEvent>& events,
                                              std::size_t moment, Loss loss, std::mt19937& chance);

}  // namespace skeinfall::store_tests
