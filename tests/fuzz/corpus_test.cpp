// The inputs that the fuzzers found worth keeping, run through the same entries.

#include <algorithm>
#include <chrono>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <set>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "fuzz/entries.hpp"

namespace skeinfall::fuzz {
namespace {

namespace fs = std::filesystem;

const fs::path corpus = fs::path(SKEINFALL_SOURCE_DIR) / "tests/fuzz/corpus";

TEST(Corpus, EveryInputReadsOrExplains) {
    for (const Entry& entry : entries) {
        int inputs = 0;
        for (const auto& file : fs::directory_iterator(corpus / entry.name)) {
            std::ifstream in(file.path(), std::ios::binary);
            const std::string text{std::istreambuf_iterator<char>(in), {}};
            const Broken broken = entry.run(text);
            EXPECT_FALSE(broken) << file.path() << ": " << broken.value_or("");
            ++inputs;
        }
        EXPECT_GE(inputs, 3) << entry.name;
    }
}

/// Bytes changed, put in, taken out, doubled, or brought in from another input.
std::string mutated(std::string text, const std::string& other, std::mt19937& chance) {
    const auto below = [&chance](std::size_t most) { return most == 0 ? 0 : chance() % most; };
    for (std::size_t changes = 1 + below(6); changes > 0; --changes) {
        const std::size_t at = below(text.size() + 1);
        const std::size_t size = std::min<std::size_t>(1 + below(24), text.size() - at);
        switch (below(6)) {
            case 0:
                if (at < text.size()) text[at] = static_cast<char>(chance());
                break;
            case 1:
                text.insert(at, 1, static_cast<char>(chance()));
                break;
            case 2:
                text.erase(at, size);
                break;
            case 3:
                text.insert(at, text.substr(at, size));
                break;
            case 4:
                if (at < text.size()) text[at] = "0987654321.,*()[]{};:\"'-+\n"[below(27)];
                break;
            default:
                text.insert(at, other.substr(below(other.size() + 1), 1 + below(40)));
        }
    }
    return text;
}

// Inputs like those of the corpus, a few in the ordinary run; by hand for so many seconds each:
//   SKEINFALL_FUZZ_SECONDS=600 build/tests/fuzz_test --gtest_filter='*Mutated*'
// and of one entry with SKEINFALL_FUZZ_ENTRY=pattern. The libFuzzer programs go further.
TEST(Corpus, MutatedInputsReadOrExplain) {
    const char* const seconds = std::getenv("SKEINFALL_FUZZ_SECONDS");
    const char* const only = std::getenv("SKEINFALL_FUZZ_ENTRY");
    const char* const told = std::getenv("SKEINFALL_SEED");
    const auto seed = told != nullptr ? static_cast<std::uint32_t>(std::strtoul(told, nullptr, 10))
                                      : std::random_device{}();
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937 chance(seed);
    for (const Entry& entry : entries) {
        if (only != nullptr && entry.name != only) continue;
        std::vector<std::string> inputs;
        for (const auto& file : fs::directory_iterator(corpus / entry.name)) {
            std::ifstream in(file.path(), std::ios::binary);
            inputs.emplace_back(std::istreambuf_iterator<char>(in),
                                std::istreambuf_iterator<char>());
        }
        std::sort(inputs.begin(), inputs.end());
        const auto end = std::chrono::steady_clock::now() +
                         std::chrono::seconds(seconds == nullptr ? 0 : std::atol(seconds));
        std::int64_t tried = 0;
        while (tried < 20 || std::chrono::steady_clock::now() < end) {
            const std::string text =
                mutated(inputs[chance() % inputs.size()], inputs[chance() % inputs.size()], chance);
            const auto keep = [&] { std::ofstream("fuzz_found", std::ios::binary) << text; };
            if (seconds != nullptr) keep();  // one that never ends is found there too
            try {
                if (const Broken broken = entry.run(text)) {
                    keep();
                    FAIL() << entry.name << ": " << *broken << ", kept as fuzz_found";
                }
            } catch (const std::exception& error) {
                keep();
                FAIL() << entry.name << ": " << error.what() << ", kept as fuzz_found";
            }
            ++tried;
        }
        if (seconds != nullptr)
            std::printf("%s: %ld inputs\n", std::string(entry.name).c_str(), tried);
    }
}

TEST(Corpus, EveryFolderHasAnEntry) {
    std::set<std::string> folders;
    for (const auto& folder : fs::directory_iterator(corpus))
        folders.insert(folder.path().filename().string());
    std::set<std::string> names;
    for (const Entry& entry : entries) names.insert(std::string(entry.name));
    EXPECT_EQ(folders, names);
}

}  // namespace
}  // namespace skeinfall::fuzz
