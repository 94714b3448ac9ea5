// What draws is a module with a copy of the library: it must write numbers as the program does.

#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "run.hpp"
#include "support/outside.hpp"

namespace {

namespace fs = std::filesystem;
using ::testing::HasSubstr;

TEST(Drawing, PicturesHaveTheNumbersOfTheSettings) {
    const fs::path folder = fs::path(SKEINFALL_BINARY_DIR) / "cases/drawing";
    fs::remove_all(folder);
    fs::create_directories(folder);
    std::ostringstream out;
    skeinfall::cli::World world;
    world.home = folder.string();
    world.out = &out;
    world.err = &out;
    const std::string picture = (folder / "cowl.pdf").string();
    const auto text = [&] {
        EXPECT_EQ(skeinfall::cli::run(
                      {"joins", SKEINFALL_SOURCE_DIR "/sample_stash/projects/lantern-cowl.toml",
                       "--skein", "2 x 183 m", "--picture", picture},
                      world),
                  0)
            << out.str();
        std::ifstream file(picture, std::ios::binary);
        std::ostringstream pdf;
        pdf << file.rdbuf();
        return skeinfall::support::outside("pdftotext -layout FILE -", pdf.str(), ".pdf");
    };
    EXPECT_THAT(text(), HasSubstr("83.6 yd left"));
    EXPECT_EQ(skeinfall::cli::run({"settings", "set", "decimal_mark", ","}, world), 0) << out.str();
    EXPECT_THAT(text(), HasSubstr("83,6 yd left"));
    EXPECT_THAT(out.str(), HasSubstr("83,6 yd"));
}

}  // namespace
