// The inputs that the fuzzers found worth keeping, run through the same entries.

#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>

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
