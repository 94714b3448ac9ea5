#include "drawing.hpp"

#include <dlfcn.h>

#include "skeinfall/base/problem.hpp"

namespace skeinfall::cli {
namespace {

DrawingEntry loaded() {
    // It stays loaded to the end: its functions may be called at any time.
    void* const module = dlopen(drawing_module, RTLD_NOW | RTLD_LOCAL);
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
