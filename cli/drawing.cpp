#include "drawing.hpp"

#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <new>
#include <string_view>
#include <system_error>

#include <dlfcn.h>
#include <unistd.h>

#include "skeinfall/base/problem.hpp"

#include "exit_code.hpp"
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
    find_fonts();
    void* const entry = module_entry(drawing_module, drawing_entry);
    if (entry == nullptr)
        throw base::InputError(base::Problem{
            std::string("the part of skeinfall that draws pages and pictures cannot be loaded: ") +
                dlerror(),
            {},
            drawing_module,
            "Install all of skeinfall again."});
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
