#include "output_file.hpp"

#include <array>
#include <cerrno>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string_view>
#include <system_error>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include "skeinfall/base/text.hpp"

#include "options.hpp"

namespace skeinfall::cli {
namespace {

namespace fs = std::filesystem;

enum class FileKind { nothing, page, pdf, svg, png, database, other };

FileKind kind_of(std::string_view bytes) {
    struct Beginning {
        std::string_view text;
        FileKind kind;
    };
    using namespace std::string_view_literals;
    // Of databases: SQLite, its write-ahead log (either order of bytes), its journal.
    constexpr auto beginnings =
        std::to_array<Beginning>({{"<!doctype html", FileKind::page},
                                  {"<html", FileKind::page},
                                  {"%PDF-", FileKind::pdf},
                                  {"<?xml", FileKind::svg},
                                  {"<svg", FileKind::svg},
                                  {"\x89PNG", FileKind::png},
                                  {"SQLite format 3\0"sv, FileKind::database},
                                  {"\x37\x7f\x06\x82", FileKind::database},
                                  {"\x37\x7f\x06\x83", FileKind::database},
                                  {"\xd9\xd5\x05\xf9", FileKind::database}});
    if (bytes.empty()) return FileKind::nothing;
    for (const Beginning& known : beginnings)
        if (bytes.starts_with(known.text) ||
            base::lower(bytes.substr(0, known.text.size())) == known.text)
            return known.kind;
    return FileKind::other;
}

std::string beginning_of(const fs::path& file) {
    std::array<char, 64> bytes{};
    std::ifstream in(file, std::ios::binary);
    in.read(bytes.data(), bytes.size());
    return {bytes.data(), static_cast<std::size_t>(in.gcount())};
}

/// What SQLite keeps beside a stash belongs to it.
bool is_of_stash(const fs::path& file, const Values& values, const World& world) {
    fs::path stash;
    try {
        stash = stash_path(values, world);
    } catch (const base::StoreError&) {
        return false;
    }
    for (const char* end : {"", "-wal", "-shm", "-journal"}) {
        std::error_code none;
        if (fs::equivalent(stash.string() + end, file, none) && !none) return true;
    }
    return false;
}

/// An argument of a command has no option to be named.
[[noreturn]] void refuse_output(const std::string& option, const std::string& what,
                                const std::string& expected, const std::string& remedy) {
    if (!option.empty()) refuse_option(option, what, expected, remedy);
    throw base::InputError(base::Problem{what, {}, expected, remedy});
}

/// A file that is open for writing and goes away unless it is put in place.
class NewFile {
  public:
    NewFile(const fs::path& target, bool unnamed) : target_(target) {
        const fs::path folder = target.has_parent_path() ? target.parent_path() : fs::path(".");
        // A file without a name: nothing of it stays, however the program ends.
        if (unnamed) file_ = open(folder.c_str(), O_TMPFILE | O_WRONLY | O_CLOEXEC, 0666);
        if (file_ >= 0) return;
        name_ = target.string() + ".XXXXXX";
        file_ = mkostemp(name_.data(), O_CLOEXEC);
        if (file_ < 0) {
            name_.clear();
            return;
        }
        const mode_t mask = umask(0);
        umask(mask);
        fchmod(file_, 0666 & ~mask);
    }
    NewFile(const NewFile&) = delete;
    NewFile(NewFile&&) = delete;
    NewFile& operator=(const NewFile&) = delete;
    NewFile& operator=(NewFile&&) = delete;
    ~NewFile() {
        if (file_ >= 0) close(file_);
        if (!name_.empty()) unlink(name_.c_str());
    }

    [[nodiscard]] bool take(std::string_view bytes) const {
        while (file_ >= 0 && !bytes.empty()) {
            const ssize_t done = write(file_, bytes.data(), bytes.size());
            if (done < 0 && errno == EINTR) continue;
            if (done <= 0) return false;
            bytes.remove_prefix(static_cast<std::size_t>(done));
        }
        return file_ >= 0 && fsync(file_) == 0;
    }

    /// In the place of what is there, with the rights that had.
    [[nodiscard]] bool put_in_place() {
        struct stat old {};
        const bool replaces = stat(target_.c_str(), &old) == 0;
        if (replaces) fchmod(file_, old.st_mode & 07777);
        if (name_.empty()) {
            const std::string self = "/proc/self/fd/" + std::to_string(file_);
            if (!replaces)
                return linkat(AT_FDCWD, self.c_str(), AT_FDCWD, target_.c_str(),
                              AT_SYMLINK_FOLLOW) == 0;
            // A name that nobody has, for the moment until it is renamed.
            std::string name = target_.string() + ".XXXXXX";
            const int reserved = mkostemp(name.data(), O_CLOEXEC);
            if (reserved < 0) return false;
            close(reserved);
            unlink(name.c_str());
            if (linkat(AT_FDCWD, self.c_str(), AT_FDCWD, name.c_str(), AT_SYMLINK_FOLLOW) != 0)
                return false;
            name_ = name;
        }
        if (rename(name_.c_str(), target_.c_str()) != 0) return false;
        name_.clear();
        return true;
    }

  private:
    fs::path target_;
    std::string name_;
    int file_ = -1;
};

}  // namespace

Option replace_option() {
    return {"replace", "", "overwrite a file of that name, even one that skeinfall did not write",
            false};
}

void write_output(const std::string& option, const std::string& file, const std::string& bytes,
                  const Values& values, const World& world) {
    const std::string shown = base::quoted(file);
    std::error_code error;
    const fs::file_status status = fs::status(file, error);
    fs::path target = fs::weakly_canonical(file, error);
    if (error) target = file;
    if (fs::is_regular_file(status)) {
        const FileKind old = kind_of(beginning_of(target));
        if (old == FileKind::database || is_of_stash(target, values, world))
            refuse_output(option, shown + " is a stash, or belongs to a database",
                          "a name that is free, or an older file of this kind",
                          "Name another file. To remove a stash, do it by hand.");
        const bool same_kind = old == kind_of(bytes) && old != FileKind::other;
        if (old != FileKind::nothing && !same_kind && !values.given("replace"))
            refuse_output(option, shown + " is a file of another kind, or a project",
                          "a name that is free, or an older page or picture of this kind",
                          "Name another file, or give --replace to overwrite it.");
    } else if (fs::exists(status) && !fs::is_directory(status)) {
        // A pipe or a device.
        std::ofstream out(target, std::ios::binary);
        if (out << bytes << std::flush) return;
    }
    // Not every file system has files without a name, nor every root the /proc that names them.
    for (const bool unnamed : {true, false}) {
        NewFile made(target, unnamed);
        if (!fs::exists(status) || fs::is_regular_file(status))
            if (made.take(bytes) && made.put_in_place()) return;
    }
    const fs::path folder = target.has_parent_path() ? target.parent_path() : fs::path(".");
    if (!fs::is_directory(folder, error))
        refuse_output(
            option,
            "the folder " + base::quoted(fs::path(file).parent_path().string()) + " is not there",
            "a file in a folder that exists", "");
    refuse_output(option, shown + " cannot be written", "a file in a folder that may be written to",
                  "");
}

}  // namespace skeinfall::cli
