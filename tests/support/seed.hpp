#pragma once
/// \file
/// Where a test draws by itself, without RapidCheck.

#include <cstdint>
#include <cstdlib>
#include <random>
#include <string>

namespace skeinfall::support {

/// The seed in SKEINFALL_SEED, else a new one. The test prints it when it fails.
inline std::uint32_t seed() {
    const char* given = std::getenv("SKEINFALL_SEED");
    return given ? static_cast<std::uint32_t>(std::stoul(given)) : std::random_device{}();
}

}  // namespace skeinfall::support
