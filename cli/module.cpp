#include "module.hpp"

#include <filesystem>
#include <system_error>

#include <dlfcn.h>
#include <sys/auxv.h>

namespace skeinfall::cli {

std::filesystem::path installed_beside(const char* file) {
    std::error_code ignored;
    // The kernel hands the name's address over as a number.
    const auto* const name = reinterpret_cast<const char*>(  // NOLINT(performance-no-int-to-ptr)
        getauxval(AT_EXECFN));
    return std::filesystem::canonical(name == nullptr ? "" : name, ignored).parent_path() /
           SKEINFALL_MODULES_FROM_PROGRAM / file;
}

void* module_entry(const char* module, const char* entry) {
    // It stays loaded to the end: its functions may be called at any time.
    void* loaded = dlopen(module, RTLD_NOW | RTLD_LOCAL);
    if (loaded == nullptr) loaded = dlopen(installed_beside(module).c_str(), RTLD_NOW | RTLD_LOCAL);
    return loaded == nullptr ? nullptr : dlsym(loaded, entry);
}

}  // namespace skeinfall::cli
