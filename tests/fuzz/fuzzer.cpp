// The program of one fuzzer; which, CMake says.

#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>

#include "fuzz/entries.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    // NOLINTNEXTLINE(cppcoreguidelines-pro-type-reinterpret-cast): libFuzzer gives bytes
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    if (const auto broken = skeinfall::fuzz::SKEINFALL_FUZZ_ENTRY(text)) {
        std::fprintf(stderr, "%s\n", broken->c_str());
        std::abort();
    }
    return 0;
}
