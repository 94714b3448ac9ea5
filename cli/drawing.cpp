#include "drawing.hpp"

#include <csignal>
#include <filesystem>
#include <new>
#include <string_view>
#include <system_error>

#include <dlfcn.h>
#include <sys/auxv.h>
#include <unistd.h>

#include "skeinfall/base/problem.hpp"

#include "exit_code.hpp"

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

/// Cairo, Pango and what they stand on do not all bear it when memory runs out under way, so it is
/// seen first whether there is more to be had than a large page takes.
void expect_memory() {
    constexpr std::size_t enough = std::size_t{96} * 1024 * 1024;
    ::operator delete(::operator new(enough));
}

/// GLib, on which Pango stands, does not hand on that memory ran out: it says so and traps.
void tell_and_end(int /*signal*/) {
    constexpr std::string_view message =
        "skeinfall: memory ran out while drawing. Close other programs, or ask for less at once.\n";
    // Nothing is left to do where even that cannot be said.
    static_cast<void>(write(STDERR_FILENO, message.data(), message.size()) < 0);
    _exit(bad_input);
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
    std::signal(SIGTRAP, tell_and_end);
    return reinterpret_cast<DrawingEntry>(entry);
}

}  // namespace

const Drawing& drawing() {
    expect_memory();
    static const DrawingEntry entry = loaded();
    return *entry(units::number_style());
}

}  // namespace skeinfall::cli
