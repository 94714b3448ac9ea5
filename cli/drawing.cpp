#include "drawing.hpp"

#include <cstdlib>
#include <filesystem>
#include <system_error>

#include <dlfcn.h>

#include "skeinfall/base/problem.hpp"

#include "module.hpp"

namespace skeinfall::cli {
namespace {

/// Where the system has no fonts set up, those that lie beside the module.
void find_fonts() {
    const auto own = installed_beside("fonts.conf");
    std::error_code none;
    if (!std::filesystem::exists("/etc/fonts/fonts.conf", none) &&
        std::filesystem::exists(own, none))
        setenv("FONTCONFIG_FILE", own.c_str(), 0);
}

DrawingEntry loaded() {
    find_fonts();
    void* const entry = module_entry(drawing_module, drawing_entry);
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
