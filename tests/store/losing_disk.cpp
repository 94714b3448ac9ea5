#include "store/losing_disk.hpp"

#include <algorithm>
#include <cstring>
#include <new>
#include <set>

#include <sqlite3.h>

namespace skeinfall::store_tests {
namespace {

constexpr const char* layer_name = "losing";
std::vector<DiskEvent> record;

/// Ours, then the system's own file behind it.
struct File {
    sqlite3_file base;
    char* name;  // null for a file without one
    sqlite3_file* real;
};

File& ours(sqlite3_file* file) {
    return *reinterpret_cast<File*>(file);
}
sqlite3_file* real(sqlite3_file* file) {
    return ours(file).real;
}
void note(sqlite3_file* file, DiskEvent::Kind kind, std::int64_t at = 0, std::string bytes = {}) {
    if (ours(file).name != nullptr)
        record.push_back({kind, ours(file).name, at, std::move(bytes), false});
}

int close(sqlite3_file* file) {
    const int result = real(file)->pMethods->xClose(real(file));
    delete[] ours(file).name;
    return result;
}
int read(sqlite3_file* file, void* to, int size, sqlite3_int64 at) {
    return real(file)->pMethods->xRead(real(file), to, size, at);
}
int write(sqlite3_file* file, const void* from, int size, sqlite3_int64 at) {
    note(file, DiskEvent::Kind::written, at,
         std::string(static_cast<const char*>(from), static_cast<std::size_t>(size)));
    return real(file)->pMethods->xWrite(real(file), from, size, at);
}
int cut(sqlite3_file* file, sqlite3_int64 size) {
    note(file, DiskEvent::Kind::cut, size);
    return real(file)->pMethods->xTruncate(real(file), size);
}
int sync(sqlite3_file* file, int how) {
    note(file, DiskEvent::Kind::synced);
    return real(file)->pMethods->xSync(real(file), how);
}
int size_of(sqlite3_file* file, sqlite3_int64* size) {
    return real(file)->pMethods->xFileSize(real(file), size);
}
int lock(sqlite3_file* file, int how) {
    return real(file)->pMethods->xLock(real(file), how);
}
int unlock(sqlite3_file* file, int how) {
    return real(file)->pMethods->xUnlock(real(file), how);
}
int is_locked(sqlite3_file* file, int* out) {
    return real(file)->pMethods->xCheckReservedLock(real(file), out);
}
int control(sqlite3_file* file, int what, void* argument) {
    // Sizes set ahead would be writes that pass by.
    if (what == SQLITE_FCNTL_SIZE_HINT || what == SQLITE_FCNTL_CHUNK_SIZE) return SQLITE_OK;
    return real(file)->pMethods->xFileControl(real(file), what, argument);
}
int sector(sqlite3_file* file) {
    return real(file)->pMethods->xSectorSize(real(file));
}
int nature(sqlite3_file* file) {
    return real(file)->pMethods->xDeviceCharacteristics(real(file));
}
int shared_map(sqlite3_file* file, int page, int size, int extend, void volatile** out) {
    return real(file)->pMethods->xShmMap(real(file), page, size, extend, out);
}
int shared_lock(sqlite3_file* file, int offset, int count, int flags) {
    return real(file)->pMethods->xShmLock(real(file), offset, count, flags);
}
void shared_barrier(sqlite3_file* file) {
    real(file)->pMethods->xShmBarrier(real(file));
}
int shared_unmap(sqlite3_file* file, int remove) {
    return real(file)->pMethods->xShmUnmap(real(file), remove);
}

constexpr sqlite3_io_methods methods = {
    2,           close,          read,         write,   cut,    sync,   size_of,
    lock,        unlock,         is_locked,    control, sector, nature, shared_map,
    shared_lock, shared_barrier, shared_unmap, nullptr, nullptr};

sqlite3_vfs* system_layer() {
    return sqlite3_vfs_find("unix");
}

int open(sqlite3_vfs*, sqlite3_filename name, sqlite3_file* file, int flags, int* out_flags) {
    File& own = ours(file);
    own.base.pMethods = nullptr;
    own.name = nullptr;
    own.real = reinterpret_cast<sqlite3_file*>(reinterpret_cast<char*>(file) + sizeof(File));
    const int result = system_layer()->xOpen(system_layer(), name, own.real, flags, out_flags);
    if (result != SQLITE_OK) return result;
    if (name != nullptr) {
        own.name = new char[std::strlen(name) + 1];
        std::strcpy(own.name, name);
    }
    own.base.pMethods = &methods;
    return SQLITE_OK;
}
int remove(sqlite3_vfs*, const char* name, int sync_folder) {
    record.push_back({DiskEvent::Kind::removed, name, 0, {}, sync_folder != 0});
    return system_layer()->xDelete(system_layer(), name, sync_folder);
}

sqlite3_vfs& layer() {
    static sqlite3_vfs out = [] {
        sqlite3_vfs made = *system_layer();
        made.szOsFile += static_cast<int>(sizeof(File));
        made.zName = layer_name;
        made.pNext = nullptr;
        made.xOpen = open;
        made.xDelete = remove;
        return made;
    }();
    return out;
}

void put(std::string& into, std::int64_t at, std::string_view bytes) {
    const auto from = static_cast<std::size_t>(at);
    if (into.size() < from + bytes.size()) into.resize(from + bytes.size(), '\0');
    into.replace(from, bytes.size(), bytes);
}

/// Some sectors of a write, each whole.
void put_torn(std::string& into, const DiskEvent& event, std::mt19937& chance) {
    constexpr std::int64_t sector_size = 512;
    const std::int64_t end = event.at + std::ssize(event.bytes);
    for (std::int64_t at = event.at; at < end;) {
        const std::int64_t next = std::min(end, (at / sector_size + 1) * sector_size);
        if (chance() % 2 == 0)
            put(into, at,
                std::string_view(event.bytes)
                    .substr(static_cast<std::size_t>(at - event.at),
                            static_cast<std::size_t>(next - at)));
        at = next;
    }
}

}  // namespace

LosingDisk::LosingDisk() {
    record.clear();
    sqlite3_vfs_register(&layer(), 1);
}

LosingDisk::~LosingDisk() {
    sqlite3_vfs_unregister(&layer());
    sqlite3_vfs_register(system_layer(), 1);
}

const std::vector<DiskEvent>& LosingDisk::events() const {
    return record;
}

std::map<std::string, std::string> after_loss(const std::map<std::string, std::string>& before,
                                              const std::vector<DiskEvent>& events,
                                              std::size_t moment, Loss loss, std::mt19937& chance) {
    std::map<std::string, std::string> out = before;
    std::map<std::string, std::vector<const DiskEvent*>> pending;
    const auto apply = [&](const DiskEvent& event) {
        if (event.kind == DiskEvent::Kind::written)
            put(out[event.file], event.at, event.bytes);
        else if (event.kind == DiskEvent::Kind::cut)
            out[event.file].resize(static_cast<std::size_t>(event.at), '\0');
        else
            out.erase(event.file);
    };
    for (std::size_t i = 0; i < moment; ++i) {
        const DiskEvent& event = events[i];
        std::vector<const DiskEvent*>& of_file = pending[event.file];
        if (event.kind == DiskEvent::Kind::synced) {
            for (const DiskEvent* one : of_file) apply(*one);
            of_file.clear();
        } else if (event.kind == DiskEvent::Kind::removed && event.lasting) {
            of_file.clear();
            apply(event);
        } else {
            of_file.push_back(&event);
        }
    }
    for (auto& [file, of_file] : pending) {
        if (loss == Loss::all) continue;
        // A system may write in any order, but what is written last to a place stays.
        for (const DiskEvent* one : of_file) {
            if (loss == Loss::none) {
                apply(*one);
                continue;
            }
            const auto fate = chance() % 3;
            if (fate == 0) continue;
            if (fate == 1 && one->kind == DiskEvent::Kind::written)
                put_torn(out[file], *one, chance);
            else
                apply(*one);
        }
    }
    return out;
}

}  // namespace skeinfall::store_tests
