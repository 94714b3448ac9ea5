#pragma once
/// \file
/// Modules that are loaded when they are used: what they bring along takes longer to load than a
/// short command takes to run.

#include <filesystem>

namespace skeinfall::cli {

/// A file in the folder where modules are installed. The loader's way there, $ORIGIN, needs /proc.
[[nodiscard]] std::filesystem::path installed_beside(const char* file);

/// The function `entry` of the module, loaded the first time; it stays loaded to the end. Null when
/// it is not installed; dlerror() then says why.
[[nodiscard]] void* module_entry(const char* module, const char* entry);

}  // namespace skeinfall::cli
