#include "skeinfall/store/location.hpp"

#include "skeinfall/base/problem.hpp"

namespace skeinfall::store {
namespace {

constexpr const char* file_of_stash = "skeinfall/stash.skeinfall";

bool usable(const std::optional<std::string>& folder) {
    return folder && std::filesystem::path(*folder).is_absolute();
}

}  // namespace

std::filesystem::path default_path(const Environment& environment) {
    if (usable(environment.xdg_data_home))
        return std::filesystem::path(*environment.xdg_data_home) / file_of_stash;
    if (usable(environment.home))
        return std::filesystem::path(*environment.home) / ".local/share" / file_of_stash;
    throw base::StoreError({"no folder is known to keep the stash in",
                            {},
                            "an absolute path in XDG_DATA_HOME or HOME",
                            "Set HOME, or name the stash file yourself."});
}

}  // namespace skeinfall::store
