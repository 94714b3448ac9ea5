#include "drawing.hpp"

#include <filesystem>
#include <system_error>

#include <dlfcn.h>
#include <sys/auxv.h>

#include "skeinfall/base/problem.hpp"

namespace skeinfall::cli {
namespace {

/// Where the module is installed. The loader's way to it, $ORIGIN, needs /proc.
std::filesystem::path installed() {
    std::error_code ignored;
    // The kernel hands the name's address over as a number.
    const auto* const name = reinterpret_cast<const char*>(  // NOLINT(performance-no-int-to-ptr)
        getauxval(AT_EXECFN));
    return std::filesystem::canonical(name == nullptr ? "" : name, ignored).parent_path() /
           SKEINFALL_DRAWING_FROM_PROGRAM / drawing_module;
}

DrawingEntry loaded() {
    // It stays loaded to the end: its functions may be called at any time.
    void* module = dlopen(drawing_module, RTLD_NOW | RTLD_LOCAL);
    if (module == nullptr) module = dlopen(installed().c_str(), RTLD_NOW | RTLD_LOCAL);
    void* const entry = module == nullptr ? nullptr : dlsym(module, drawing_entry);
    if (entry == nullptr)
        throw base::InputError(
            base::Problem{std::string("what draws pictures cannot be loaded: ") + dlerror(),
                          {},
                          drawing_module,
                          "Install skeinfall anew, all of it."});
    return reinterpret_cast<DrawingEntry>(entry);
}

}  // namespace

const Drawing& drawing() {
    static const DrawingEntry entry = loaded();
    return *entry(units::number_style());
}

}  // namespace skeinfall::cli
