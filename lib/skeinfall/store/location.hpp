#pragma once
/// \file
/// Where a stash file lies when nobody names one.

#include <filesystem>
#include <optional>
#include <string>

namespace skeinfall::store {

/// The two environment variables that decide; the library never reads the environment itself.
struct Environment {
    std::optional<std::string> xdg_data_home;  ///< XDG_DATA_HOME
    std::optional<std::string> home;           ///< HOME
};

/// XDG_DATA_HOME/skeinfall/stash.skeinfall, or HOME/.local/share/skeinfall/stash.skeinfall. As the
/// XDG Base Directory Specification 0.8 asks, an empty or relative XDG_DATA_HOME counts as unset.
/// Throws base::StoreError when HOME is no absolute path either.
[[nodiscard]] std::filesystem::path default_path(const Environment& environment);

}  // namespace skeinfall::store
