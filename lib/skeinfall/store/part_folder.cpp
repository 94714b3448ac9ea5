#include "skeinfall/store/part_folder.hpp"

#include <array>
#include <cerrno>
#include <cstdlib>
#include <string>
#include <string_view>
#include <system_error>

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

namespace skeinfall::store {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view prefix = ".skeinfall-part-";
/// All that is ever in such a folder; anything else is not ours to remove.
constexpr std::array<const char*, 4> contents{"copy", "copy-journal", "copy-wal", "copy-shm"};

[[noreturn]] void fail(const char* what, const fs::path& path) {
    throw fs::filesystem_error(what, path, std::error_code(errno, std::generic_category()));
}

/// Opened without following a link, and locked; -1 when that cannot be, or another has the lock.
int locked(const fs::path& folder) {
    const int out = open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
    if (out >= 0 && flock(out, LOCK_EX | LOCK_NB) == 0) return out;
    if (out >= 0) close(out);
    return -1;
}

void empty_and_remove(int folder, const fs::path& path) {
    for (const char* name : contents) unlinkat(folder, name, 0);
    rmdir(path.c_str());
}

/// The lock of a program that was killed is free.
void remove_what_was_left(const fs::path& parent) {
    std::error_code trouble;
    for (fs::directory_iterator it(parent, trouble), end; !trouble && it != end;
         it.increment(trouble)) {
        if (!it->path().filename().string().starts_with(prefix)) continue;
        const int folder = locked(it->path());
        if (folder < 0) continue;
        struct stat seen {};
        if (fstat(folder, &seen) == 0 && seen.st_uid == geteuid())
            empty_and_remove(folder, it->path());
        close(folder);
    }
}

}  // namespace

PartFolder::PartFolder(const fs::path& target) : target_(target) {
    const fs::path parent = target.has_parent_path() ? target.parent_path() : fs::path(".");
    remove_what_was_left(parent);
    // Another program may take a folder without a lock for one that was left.
    constexpr int tries = 10;
    for (int i = 0; i < tries; ++i) {
        std::string name = (parent / (std::string(prefix) + "XXXXXX")).string();
        if (mkdtemp(name.data()) == nullptr) fail("a folder for the copy cannot be made", parent);
        lock_ = locked(name);
        folder_ = name;
        struct stat there {};
        if (lock_ >= 0 && lstat(name.c_str(), &there) == 0) return;
        if (lock_ >= 0) close(lock_);
    }
    errno = EAGAIN;
    fail("a folder for the copy cannot be made", parent);
}

PartFolder::~PartFolder() {
    empty_and_remove(lock_, folder_);
    close(lock_);
}

fs::path PartFolder::file() const {
    return folder_ / contents.front();
}

void PartFolder::publish(const fs::path& like) {
    const int made = open(file().c_str(), O_RDWR | O_NOFOLLOW | O_CLOEXEC);
    if (made < 0) fail("the copy cannot be opened", target_);
    struct stat rights {};
    const bool ready = stat(like.c_str(), &rights) == 0 &&
                       fchmod(made, rights.st_mode & 0777) == 0 && fsync(made) == 0;
    close(made);
    if (!ready) fail("the copy cannot be written", target_);
    // Never over what has the name; some file systems have no links.
    if (link(file().c_str(), target_.c_str()) != 0) {
        if (errno != EPERM && errno != EOPNOTSUPP) fail("the copy cannot be named", target_);
        if (renameat2(AT_FDCWD, file().c_str(), AT_FDCWD, target_.c_str(), RENAME_NOREPLACE) != 0)
            fail("the copy cannot be named", target_);
    }
    const fs::path parent = target_.has_parent_path() ? target_.parent_path() : fs::path(".");
    const int above = open(parent.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (above >= 0) {
        fsync(above);
        close(above);
    }
}

}  // namespace skeinfall::store
