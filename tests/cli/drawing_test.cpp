// What draws is a module with a copy of the library: it must write numbers as the program does.

#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <string_view>

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
    EXPECT_THAT(text(), HasSubstr("83.5 yd left"));
    EXPECT_EQ(skeinfall::cli::run({"settings", "set", "decimal_mark", ","}, world), 0) << out.str();
    EXPECT_THAT(text(), HasSubstr("83,5 yd left"));
    EXPECT_THAT(out.str(), HasSubstr("83,5 yd"));
}

// Rows that two yarns work show both: a fifth of them is the contrast's.
TEST(Drawing, RowsOfTwoYarnsShowBoth) {
    const fs::path folder = fs::path(SKEINFALL_BINARY_DIR) / "cases/drawing_two";
    fs::remove_all(folder);
    fs::create_directories(folder);
    std::ofstream(folder / "cap.toml")
        << "title = \"Cap\"\ncraft = \"knit\"\n\n[gauge]\nstitches = \"24 per 10 cm\"\n"
           "rows = \"28 per 10 cm\"\nstitch = \"stockinette\"\n\n"
           "[yarn.MC]\nname = \"Mill\"\ngrist = \"200 m / 50 g\"\nrate = \"31.5 in per sq in\"\n"
           "\n[yarn.CC]\nname = \"Mill\"\nshade = \"#cc8833\"\ngrist = \"200 m / 50 g\"\n"
           "rate = \"31.5 in per sq in\"\n\n[[piece]]\nname = \"cap\"\nyarn = \"MC\"\n"
           "worked = \"round\"\nrows = \"\"\"\nWith MC, cast on 120 sts. Join in the round.\n"
           "Rnds 1-10: Knit.\nRnds 11-20: [K4 in MC, k1 in CC] around.\nRnds 21-24: "
           "Knit.\n\"\"\"\n";
    std::ostringstream out;
    skeinfall::cli::World world;
    world.home = folder.string();
    world.out = &out;
    world.err = &out;
    const std::string project = (folder / "cap.toml").string();
    const std::string picture = (folder / "cap.svg").string();
    skeinfall::cli::run({"report", project, "--have", "MC: 2 skeins of 200 m / 50 g", "--have",
                         "CC: 2 skeins of 200 m / 50 g", "--picture", picture},
                        world);
    std::ifstream file(picture);
    std::ostringstream svg;
    svg << file.rdbuf();
    EXPECT_THAT(svg.str(), HasSubstr("in MC, CC.")) << out.str();
    // Of the 60 stitches that face us every fifth, ten rounds high, and the key beside it.
    constexpr std::string_view other = "fill:rgb(80%,53.333333%,20%)";
    std::size_t blocks = 0;
    const std::string text = svg.str();
    for (auto at = text.find(other); at != std::string::npos; at = text.find(other, at + 1))
        ++blocks;
    EXPECT_EQ(blocks, 12U + 1U);
}

}  // namespace
