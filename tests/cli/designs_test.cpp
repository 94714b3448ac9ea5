// What designers ask in files: sizes of a grid, figures given once, one finding with one severity.

#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>
#include <unistd.h>

#include "command.hpp"
#include "run.hpp"

namespace skeinfall::cli {
namespace {

namespace fs = std::filesystem;
using testing::HasSubstr;
using testing::Not;

struct Answered {
    int code = 0;
    std::string out;
    std::string err;
};

class DesignFiles : public testing::Test {
  protected:
    DesignFiles() {
        std::string name = (fs::temp_directory_path() / "skeinfall-designs-XXXXXX").string();
        folder_ = mkdtemp(name.data());
    }
    ~DesignFiles() override { fs::remove_all(folder_); }

    [[nodiscard]] std::string file(const std::string& name, const std::string& text) const {
        std::ofstream(folder_ / name) << text;
        return (folder_ / name).string();
    }

    [[nodiscard]] Answered ask(const std::vector<std::string>& words) const {
        std::ostringstream out;
        std::ostringstream err;
        World world;
        world.out = &out;
        world.err = &err;
        world.stash = (folder_ / "none").string();
        const int code = run(words, world);
        return {code, out.str(), err.str()};
    }

    [[nodiscard]] nlohmann::json json_of(std::vector<std::string> words) const {
        words.insert(words.end(), {"--format", "json"});
        return nlohmann::json::parse(ask(words).out);
    }

    fs::path folder_;
};

const std::string grid_rug =
    "title = \"Tarn rug\"\ncraft = \"crochet\"\nwidths = [\"60 cm\", \"100 cm\"]\n"
    "lengths = [\"70 cm\", \"110 cm\"]\n[gauge]\nstitches = \"16 per 10 cm\"\n"
    "rows = \"12 per 10 cm\"\nstitch = \"hdc\"\n[yarn.MC]\nclass = 4\ngrist = \"170 m / 100 g\"\n"
    "rate = \"4 cm per stitch\"\n[[piece]]\nname = \"rug\"\n[[finish]]\nkind = \"border\"\n"
    "first_round = 400\nrounds = 6\n";

// fit took the border along, and every other command did not.
TEST_F(DesignFiles, OneSizeHasOneNeedWhoeverIsAsked) {
    const std::string rug = file("rug.toml", grid_rug);
    const double fitted =
        json_of({"fit", rug, "--width", "100 cm", "--length", "110 cm"})["yarn"][0]["need_m"];
    const double needed = json_of({"need", rug, "--size", "100 x 110 cm"})["roles"][0]["need_m"];
    EXPECT_NEAR(needed, fitted, 0.005 * fitted);
    EXPECT_THAT(ask({"check", rug}).out, HasSubstr("border is given once for 4 sizes"));
    EXPECT_THAT(ask({"need", rug}).out, HasSubstr("border is given once for 4 sizes"));
}

TEST_F(DesignFiles, ASizeOfAGridIsNotSavedUnderANameThatLies) {
    const std::string rug = file("rug.toml", grid_rug);
    const Answered refused =
        ask({"fit", rug, "--width", "100 cm", "--save", (folder_ / "saved.toml").string()});
    EXPECT_EQ(refused.code, 2);
    EXPECT_THAT(refused.err, HasSubstr("would no longer be what its name says"));
    EXPECT_FALSE(fs::exists(folder_ / "saved.toml"));
}

TEST_F(DesignFiles, OneMeasureOfAGridNamesTheSizesThatHaveIt) {
    const Answered asked = ask({"need", file("rug.toml", grid_rug), "--size", "60 cm"});
    EXPECT_EQ(asked.code, 2);
    EXPECT_THAT(asked.err, HasSubstr("one of 60 cm x 70 cm, 60 cm x 110 cm"));
    EXPECT_THAT(asked.err, Not(HasSubstr("100 cm x")));
}

TEST_F(DesignFiles, ABareConfidenceIsReadBackInPercent) {
    const Answered asked =
        ask({"cover", file("rug.toml", grid_rug), "--confidence", "99", "--have", "9 skeins"});
    EXPECT_THAT(asked.err, HasSubstr("Write --confidence \"99 %\"."));
}

const std::string graded_vest =
    "title = \"Tarn vest\"\nsizes = [\"S\", \"M\", \"L\"]\ncraft = \"knit\"\n[gauge]\n"
    "stitches = \"20 per 10 cm\"\nrows = \"28 per 10 cm\"\nstitch = \"stockinette\"\n[yarn.MC]\n"
    "class = 4\ngrist = \"170 m / 100 g\"\ntotal = [\"400 m\", \"520 m\", \"460 m\"]\n[[piece]]\n"
    "name = \"vest\"\nstitches = [160, 180, 200]\nrows = [100, 108, 116]\n";

TEST_F(DesignFiles, MaterialsTellWhatCheckTellsOfTheSizes) {
    const std::string vest = file("vest.toml", graded_vest);
    const std::string says = "size L takes less MC than size M";
    ASSERT_THAT(ask({"check", vest}).out, HasSubstr(says));
    for (const char* format : {"text", "markdown", "json"})
        EXPECT_THAT(ask({"materials", vest, "--format", format}).err, HasSubstr(says)) << format;
}

TEST_F(DesignFiles, AFindingHasOneSeverity) {
    const std::string scarf = file(
        "scarf.toml",
        "title = \"Tarn scarf\"\n[gauge]\nstitches = \"16 per 10 cm\"\nrows = \"12 per 10 cm\"\n"
        "stitch = \"hdc\"\n[yarn.MC]\nclass = 4\ngrist = \"170 m / 100 g\"\n"
        "rate = \"7 cm per stitch\"\n[[piece]]\nname = \"scarf\"\nstitches = 30\nrows = 100\n"
        "length = \"160 cm\"\n");
    const nlohmann::json checked = json_of({"check", scarf});
    const nlohmann::json needed = json_of({"need", scarf});
    EXPECT_EQ(ask({"check", scarf}).code, 0);
    ASSERT_EQ(checked["findings"].size(), 1U) << checked;
    EXPECT_EQ(checked["findings"][0]["severity"], "caution");
    EXPECT_EQ(needed["cautions"].size(), 1U);
}

const std::string with_gauge =
    "title = \"Tarn square\"\n[gauge]\nstitches = \"16 per 10 cm\"\nrows = \"12 per 10 cm\"\n"
    "unwashed_stitches = \"18 per 10 cm\"\nunwashed_rows = \"13 per 10 cm\"\nstitch = \"hdc\"\n"
    "[yarn.MC]\nclass = 4\ngrist = \"170 m / 100 g\"\navoid = [\"wool\"]\n"
    "[yarn.CC1]\nclass = 4\ngrist = \"170 m / 100 g\"\nheld_with = \"MC\"\n"
    "[[swatch]]\nyarn = \"MC\"\nstitches = 24\nrows = 18\nmass = \"26 g\"\nscale = \"0.1 "
    "g\"\nstrands = 2\n"
    "[[piece]]\nname = \"square\"\nyarn = \"MC\"\ncount = 12\nstitches = 16\nrows = 12\n"
    "[[finish]]\nkind = \"joining\"\nyarn = \"MC\"\nof = \"square\"\ncolumns = 4\n";

// 12 squares of 10 cm, 4 to a row.
TEST_F(DesignFiles, MaterialsSayHowItIsWorkedAndHowLargeAllOfItIs) {
    const std::string square = file("square.toml", with_gauge);
    const std::string text = ask({"materials", square, "--units", "metric"}).out;
    EXPECT_THAT(text, HasSubstr("with MC, CC1 held together"));
    EXPECT_THAT(text, HasSubstr("before washing, as it is worked: 18 sts and 13 rows to 10 cm"));
    EXPECT_THAT(text, HasSubstr("square, all joined: 40 cm wide, 30 cm long"));
    EXPECT_THAT(text, HasSubstr(", without wool"));
    // The section so written holds against its project.
    const std::string both = ask({"materials", square}).out;
    const Answered held = ask({"check", file("section.txt", both), "--project", square});
    EXPECT_EQ(held.code, 0) << held.out << both;
}

const std::string two_parts =
    "title = \"Tarn pair\"\n[gauge]\nstitches = \"16 per 10 cm\"\nrows = \"12 per 10 cm\"\n"
    "stitch = \"hdc\"\n[yarn.MC]\nname = \"Tarn Wool\"\nclass = 4\ngrist = \"170 m / 100 g\"\n"
    "[[swatch]]\nyarn = \"MC\"\nstitches = 24\nrows = 18\nmass = \"15 g\"\nscale = \"0.1 g\"\n"
    "[[piece]]\nname = \"leg\"\ncount = 2\nworked = \"round\"\nstitches = 40\nrows = 100\n"
    "[[piece]]\nname = \"cuff\"\ncount = 2\nworked = \"round\"\nstitches = 40\nrows = 20\n";

TEST_F(DesignFiles, TubesAreNotLaidTogether) {
    const std::string out = ask({"largest", file("pair.toml", two_parts), "--of", "count",
                                 "--piece", "leg", "--have", "9 skeins of 170 m / 100 g"})
                                .out;
    EXPECT_THAT(out, HasSubstr("around, the other pieces as planned"));
    EXPECT_THAT(out, Not(HasSubstr("laid together")));
}

// 9600 stitches of 5.9 cm are 567 m, of which the legs take 472 m.
TEST_F(DesignFiles, NoRemedyMakesAnotherGarment) {
    const std::string pair = file("pair.toml", two_parts);
    const auto of_rows = testing::ContainsRegex("[0-9]+ rounds of leg instead of 100");
    EXPECT_THAT(ask({"cover", pair, "--have", "5 skeins of 100 m / 58.8 g"}).out, of_rows);
    EXPECT_THAT(ask({"cover", pair, "--have", "3 skeins of 100 m / 58.8 g"}).out, Not(of_rows));
}

TEST_F(DesignFiles, WhatGrowthLeavesOutIsNamed) {
    const std::string panels = file(
        "panels.toml",
        "title = \"Tarn panels\"\n[gauge]\nstitches = \"16 per 10 cm\"\nrows = \"12 per 10 cm\"\n"
        "stitch = \"hdc\"\n[yarn.MC]\nclass = 4\ngrist = \"170 m / 100 g\"\n"
        "rate = \"4 cm per stitch\"\n[[piece]]\nname = \"panel\"\ncount = 3\nstitches = 40\n"
        "rows = 60\n[[finish]]\nkind = \"border\"\nname = \"edging\"\nfirst_round = 500\n"
        "count = 1\n");
    EXPECT_THAT(ask({"materials", panels}).out, HasSubstr("These figures leave edging as before."));
}

TEST_F(DesignFiles, AFringeIsJoinedBetweenStrands) {
    const std::string scarf = file(
        "fringed.toml",
        "title = \"Tarn wrap\"\n[gauge]\nstitches = \"16 per 10 cm\"\nrows = \"12 per 10 cm\"\n"
        "stitch = \"hdc\"\n[yarn.MC]\nname = \"Tarn Wool\"\nclass = 4\ngrist = \"170 m / 100 g\"\n"
        "rate = \"4 cm per stitch\"\n[[piece]]\nname = \"wrap\"\nstitches = 40\nrows = 60\n"
        "[[finish]]\nkind = \"fringe\"\nstrands = 100\ncut = \"60 cm\"\n");
    const std::string joined = ask({"joins", scarf, "--skein", "120 m", "--skein", "120 m"}).out;
    EXPECT_THAT(joined, testing::ContainsRegex("after strand [0-9]+ of 100 of fringe"));
    EXPECT_THAT(joined, Not(HasSubstr("in fringe")));
}

TEST_F(DesignFiles, WhatIsTooSmallForOneRepeatIsNoReasonToRefuse) {
    const std::string hat =
        file("hat.toml",
             "title = \"Tarn hat\"\ncraft = \"knit\"\n[gauge]\nstitches = \"22 per 10 cm\"\n"
             "rows = \"24 per 10 cm\"\nstitch = \"stockinette\"\n[yarn.MC]\nname = \"Tarn Wool\"\n"
             "class = 3\ngrist = \"125 m / 50 g\"\nrate = \"2 cm per stitch\"\n[[piece]]\n"
             "name = \"hat\"\nworked = \"round\"\nrows = [\n \"CO 112 sts and join.\",\n"
             " \"Rnds 1-10: [k2, p2] around. (112 sts)\",\n"
             " \"Rnds 11-44: k around.\",\n \"Rnd 45: [k2tog, k6] around. (98 sts)\",\n]\n");
    const Answered most =
        ask({"largest", hat, "--of", "both", "--have", "4 skeins of 125 m / 50 g"});
    EXPECT_LT(most.code, 2) << most.err;
    EXPECT_THAT(most.err, Not(HasSubstr("fewer than one repeat")));
}

}  // namespace
}  // namespace skeinfall::cli
