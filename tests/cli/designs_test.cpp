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

const std::string tarn_mitts =
    "craft = \"knit\"\n[gauge]\nstitches = \"24 per 10 cm\"\nrows = \"32 rounds per 10 cm\"\n"
    "stitch = \"stockinette\"\n[yarn.MC]\nname = \"Tarn DK\"\ncolour = \"navy\"\nclass = 3\n"
    "grist = \"240 m / 100 g\"\nrate = \"2 cm per stitch\"\n[yarn.CC1]\nname = \"Tarn DK\"\n"
    "class = 3\ngrist = \"240 m / 100 g\"\nrate = \"2 cm per stitch\"\n";
const std::string two_mitts =
    "[[piece]]\nname = \"mitt\"\nworked = \"round\"\ncount = 2\nstitches = 44\nrows = 60\n"
    "stripes = [{ yarn = \"MC\", rows = 4 }, { yarn = \"CC1\", rows = 2 }]\n";

std::string mitts_of(const std::string& title, const std::string& second) {
    std::string out = "title = \"" + title + "\"\n" + tarn_mitts;
    const std::string of = "[yarn.CC1]\nname = \"Tarn DK\"\n";
    out.insert(out.find(of) + of.size(), "colour = \"" + second + "\"\n");
    return out + two_mitts;
}

// 80 rounds of 44 stitches at 2 cm and the ends take 75 m of the 240 m that a ball holds: two
// pairs, a third with less of that colour, and no fourth.
TEST_F(DesignFiles, MakesInTurnShareABegunBall) {
    std::vector<std::string> asked{"stripes"};
    for (const char* title : {"One", "Two", "Three"})
        asked.push_back(file(std::string(title) + ".toml", mitts_of(title, "cream")));
    const std::vector<std::string> have{"--have", "navy: 1 skein of 240 m / 100 g", "--have",
                                        "cream: 1 skein of 240 m / 100 g"};
    asked.insert(asked.end(), have.begin(), have.end());
    const Answered three = ask(asked);
    EXPECT_EQ(three.code, 0) << three.out << three.err;
    EXPECT_THAT(three.out, HasSubstr("covered as wanted: Two"));
    EXPECT_THAT(three.out, HasSubstr("covered with other heights: Three"));
    EXPECT_THAT(three.err, HasSubstr("the makes before leave at least"));
    asked.insert(asked.begin() + 1, file("four.toml", mitts_of("Four", "cream")));
    const Answered four = ask(asked);
    EXPECT_NE(four.code, 0);
    EXPECT_THAT(four.out, HasSubstr("covered as wanted: One"));
    EXPECT_THAT(four.out, HasSubstr("short: Three"));
}

TEST_F(DesignFiles, YarnOfOneMakeAloneIsNoneOfTheOthers) {
    const Answered both = ask(
        {"stripes", file("a.toml", mitts_of("A", "cream")), file("b.toml", mitts_of("B", "rust")),
         "--have", "navy: 1 skein of 240 m / 100 g", "--have", "cream: 1 skein of 240 m / 100 g",
         "--have", "rust: 1 skein of 240 m / 100 g"});
    EXPECT_EQ(both.code, 0) << both.err;
    EXPECT_THAT(
        ask({"stripes", file("a.toml", mitts_of("A", "cream")),
             file("b.toml", mitts_of("B", "rust")), "--have", "moss: 1 skein of 240 m / 100 g"})
            .err,
        HasSubstr("no yarn \"moss\""));
}

const std::string tarn_squares =
    "title = \"Tarn squares\"\n[gauge]\nstitches = \"14 per 10 cm\"\nrows = \"8 rounds per 10 "
    "cm\"\n"
    "stitch = \"dc\"\n[yarn.MC]\nname = \"Tarn Wool\"\ncolour = \"cream\"\nclass = 4\n"
    "grist = \"170 m / 100 g\"\nrate = \"5 cm per stitch\"\n[yarn.CC1]\nname = \"Tarn Wool\"\n"
    "colour = \"rust\"\nclass = 4\ngrist = \"170 m / 100 g\"\nrate = \"5 cm per stitch\"\n"
    "[[piece]]\nname = \"square\"\nshape = \"granny square\"\nworked = \"round\"\ncount = 12\n"
    "rows = 6\nstripes = [{ yarn = \"CC1\", rows = 4 }, { yarn = \"MC\", rows = 2 }]\n"
    "[[finish]]\nkind = \"joining\"\nname = \"joining\"\nyarn = \"MC\"\nof = \"square\"\n"
    "columns = 3\nway = \"whip stitch\"\n";

// A repeat of 12 rounds in place of 6 would leave the second colour out of a square of 6.
TEST_F(DesignFiles, StripesOfAMotifAreASequence) {
    const std::string squares = file("squares.toml", tarn_squares);
    const Answered rich = ask({"stripes", squares, "--have", "cream: 9 skeins of 170 m / 100 g",
                               "--have", "rust: 9 skeins of 170 m / 100 g"});
    EXPECT_THAT(rich.out, HasSubstr("square: 6 rounds, every stripe once"));
    EXPECT_THAT(rich.out, Not(HasSubstr("Half the ends")));
    for (const char* rust : {"rust: 1 skein of 170 m / 100 g", "rust: 2 skeins of 170 m / 100 g"}) {
        const auto plan = json_of(
            {"stripes", squares, "--have", "cream: 9 skeins of 170 m / 100 g", "--have", rust});
        int rows = 0;
        for (const auto& stripe : plan["repeat"]) rows += stripe["rows"].get<int>();
        EXPECT_EQ(rows, 6) << rust;
    }
}

// Hexagons of 4 in from side to side: rows of 5 and half a one over are 22 in wide; six rows, each
// 4 x 0.866 in above the one below, and their points are 21.9 in long.
TEST_F(DesignFiles, HexagonsLieHalfAMotifOver) {
    const std::string hexes =
        file("hexes.toml",
             "title = \"Tarn hexes\"\n[gauge]\nstitches = \"16 per 4 in\"\nrows = \"12 per 4 in\"\n"
             "stitch = \"hdc\"\n[yarn.MC]\nname = \"Tarn Wool\"\nclass = 4\ngrist = \"170 m / 100 "
             "g\"\nrate = \"6 cm per stitch\"\n[[piece]]\nname = \"hexagon\"\nshape = \"polygon\"\n"
             "corners = 6\nworked = \"round\"\nstitches = 12\nrows = 6\ncount = 30\n[[finish]]\n"
             "kind = \"joining\"\nname = \"joining\"\nof = \"hexagon\"\ncolumns = 5\n"
             "way = \"whip stitch\"\n");
    EXPECT_THAT(ask({"fit", hexes}).out,
                HasSubstr("22.0 in (55.9 cm) wide, 21.9 in (55.7 cm) long"));
    EXPECT_THAT(ask({"materials", hexes}).out, HasSubstr("all joined: 22 in / 56 cm wide"));
    const auto larger = ask({"fit", hexes, "--width", "42 in", "--length", "35.8 in"});
    EXPECT_THAT(larger.out, HasSubstr("100, 10 rows of 10, 42.0 in"));
    EXPECT_THAT(ask({"fit", hexes, "--width", "22 in", "--length", "21.9 in"}).out,
                HasSubstr("That is its present size."));
    // Nobody said how octagons lie.
    std::string eight = "corners = 8";
    std::ifstream in(hexes);
    std::string text{std::istreambuf_iterator<char>(in), {}};
    text.replace(text.find("corners = 6"), eight.size(), eight);
    EXPECT_THAT(ask({"materials", file("octagons.toml", text)}).out, Not(HasSubstr("all joined")));
}

// The joining of all twelve is kept back in its own yarn, and without that yarn nothing is enough.
TEST_F(DesignFiles, JoinedSquaresAreCountedByColour) {
    std::string text = tarn_squares;
    const std::string striped =
        "stripes = [{ yarn = \"CC1\", rows = 4 }, { yarn = \"MC\", rows = 2 }]";
    text.replace(text.find(striped), striped.size(), "yarn = \"MC\"");
    const std::string squares = file("plain.toml", text);
    const auto of = [&](std::vector<std::string> have) {
        std::vector<std::string> asked{"stripes", squares, "--count", "each"};
        for (std::string& one : have) {
            asked.emplace_back("--have");
            asked.push_back(std::move(one));
        }
        return json_of(asked);
    };
    const auto both = of({"cream: 3 skeins of 170 m / 100 g", "rust: 3 skeins of 170 m / 100 g"});
    EXPECT_LT(both["colours"][0]["count"], both["colours"][1]["count"]) << both;
    EXPECT_TRUE(both["enough"]) << both;
    // What one takes of the stash is not known to the next.
    EXPECT_EQ(ask({"stripes", squares, squares, "--count", "each", "--have",
                   "rust: 9 skeins of 170 m / 100 g"})
                  .code,
              2);
    const auto none = of({"rust: 9 skeins of 170 m / 100 g"});
    EXPECT_GE(none["together"], 12);
    EXPECT_FALSE(none["enough"]) << none;
    EXPECT_EQ(none["short_for_parts"][0], "MC");
}

TEST_F(DesignFiles, WhatMotifsAndBlocksTakeMoreIsInTheSection) {
    const std::string squares = file("squares.toml", tarn_squares);
    const Answered section = ask({"materials", squares, "--format", "markdown"});
    EXPECT_THAT(section.out, HasSubstr("square: for each column of 4 more"));
    EXPECT_THAT(section.out, HasSubstr("square: for each row of 3 more"));
    const std::string kept = file("squares.md", section.out);
    const Answered sound = ask({"check", kept, "--project", squares});
    EXPECT_EQ(sound.code, 0) << sound.out;
    std::string wrong = section.out;
    wrong.replace(wrong.find("column of 4"), 11, "column of 5");
    EXPECT_EQ(ask({"check", file("wrong.md", wrong), "--project", squares}).code, 1);
}

// 60 rows in stripes of 12 and 4 rows more: 52 rows are 4 repeats of 12 and 4 more.
TEST_F(DesignFiles, RepeatsOfTheLargestAddUp) {
    const std::string panel =
        file("panel.toml",
             "title = \"Tarn panel\"\n[gauge]\nstitches = \"14 per 10 cm\"\nrows = \"10 per 10 "
             "cm\"\nstitch = \"hdc\"\n[yarn.MC]\nname = \"Tarn Wool\"\ncolour = \"cream\"\nclass = "
             "4\ngrist = \"170 m / 100 g\"\nrate = \"5 cm per stitch\"\n[yarn.CC1]\nname = \"Tarn "
             "Wool\"\ncolour = \"rust\"\nclass = 4\ngrist = \"170 m / 100 g\"\nrate = \"5 cm per "
             "stitch\"\n[[piece]]\nname = \"panel\"\nstitches = 100\nrows = 64\nstripes = [{ yarn "
             "= \"MC\", rows = 8 }, { yarn = \"CC1\", rows = 4 }]\n");
    const std::string out = ask({"largest", panel, "--have", "cream: 4 skeins of 50 m / 25 g",
                                 "--have", "rust: 2 skeins of 50 m / 25 g"})
                                .out;
    const std::size_t at = out.find(" rows of panel");
    ASSERT_NE(at, std::string::npos) << out;
    const int rows = std::stoi(out.substr(0, at));
    EXPECT_EQ(rows % 12, 4) << out;
    EXPECT_THAT(out, HasSubstr(std::to_string(rows / 12) + " repeats of 12 and 4 more"));
}

// 40 strands along 20 cm are 80 along 40 cm, in a grid and where the piece is fitted.
TEST_F(DesignFiles, AFringeFollowsTheWidthByOneLaw) {
    const std::string scarf =
        "title = \"Tarn scarf\"\n[gauge]\nstitches = \"20 per 10 cm\"\nrows = \"10 per 10 cm\"\n"
        "stitch = \"hdc\"\n[yarn.MC]\nname = \"Tarn Wool\"\nclass = 4\ngrist = \"170 m / 100 g\"\n"
        "rate = \"4 cm per stitch\"\n[[piece]]\nname = \"scarf\"\nSIDES[[finish]]\nkind = "
        "\"fringe\"\nname = \"fringe\"\nstrands = 40\ncut = \"30 cm\"\n";
    const auto with = [&](const std::string& grid, const std::string& sides) {
        std::string out = scarf;
        out.insert(out.find("[gauge]"), grid);
        return out.replace(out.find("SIDES"), 5, sides);
    };
    const std::string one = file("one.toml", with("", "stitches = 40\nrows = 100\n"));
    const std::string grid =
        file("grid.toml", with("widths = [\"20 cm\", \"40 cm\"]\nlengths = [\"100 cm\"]\n", ""));
    const double of_grid =
        json_of({"need", grid, "--size", "40 cm x 100 cm"})["roles"][0]["need_m"];
    const std::string saved = (folder_ / "wide.toml").string();
    const auto fitted = json_of({"fit", one, "--width", "40 cm", "--save", saved});
    EXPECT_NEAR(fitted["yarn"][0]["need_m"].get<double>(), of_grid, 0.01);
    EXPECT_EQ(fitted["fringes"][0]["strands"], 80);
    EXPECT_TRUE(fitted["unchanged"].empty());
    const double read_back = json_of({"need", saved})["roles"][0]["need_m"];
    EXPECT_NEAR(read_back, of_grid, 0.01);
}

TEST_F(DesignFiles, ASectionIsCheckedWithItsReturns) {
    const std::string scarf = file(
        "fen.toml",
        "title = \"Fen scarf\"\n[gauge]\nstitches = \"13 per 10 cm\"\nrows = \"8 per 10 cm\"\n"
        "stitch = \"hdc\"\n[yarn.MC]\nname = \"Fen Mist\"\nclass = 4\ngrist = \"200 m / 100 g\"\n"
        "rate = \"5 cm per stitch\"\n[[piece]]\nname = \"scarf\"\nstitches = 26\nrows = 120\n");
    const std::string returns = file("returns.csv",
                                     "name,yarn,before,after,scale\nA,MC,200 g,108 g,1 g\n"
                                     "B,MC,200 g,111 g,1 g\nC,MC,200 g,105 g,1 g\n");
    const std::string section =
        file("fen.md", ask({"materials", scarf, "--returns", returns, "--format", "markdown"}).out);
    EXPECT_EQ(ask({"check", section, "--project", scarf}).code, 1);
    const Answered sound = ask({"check", section, "--project", scarf, "--returns", returns});
    EXPECT_EQ(sound.code, 0) << sound.out;
    EXPECT_EQ(ask({"check", section, "--returns", returns}).code, 2);
    EXPECT_EQ(ask({"check", scarf, "--returns", returns}).code, 2);
}

TEST_F(DesignFiles, RowsUntilALengthAreFittedByTheLength) {
    const std::string scarf = file(
        "until.toml",
        "title = \"Tarn scarf\"\n[gauge]\nstitches = \"14 per 4 in\"\nrows = \"10 per 4 in\"\n"
        "stitch = \"hdc\"\n[yarn.MC]\nname = \"Tarn Wool\"\nclass = 4\ngrist = \"170 m / 100 g\"\n"
        "rate = \"5 cm per stitch\"\n[[piece]]\nname = \"scarf\"\nrows = [\n\"Ch 27.\",\n"
        "\"Row 1: hdc in 3rd ch from hook and in each ch across. (25 hdc)\",\n"
        "\"Row 2: ch 2 (does not count as a st), turn, hdc in each st across. (25 hdc)\",\n"
        "\"Rep row 2 until piece measures 60 in (152 cm).\",\n"
        "\"Next row: ch 1, turn, sc in each st across. (25 sc)\",\n]\n");
    const std::string saved = (folder_ / "shorter.toml").string();
    const Answered fitted =
        ask({"fit", scarf, "--length", "50 in", "--width", "8 in", "--save", saved});
    EXPECT_EQ(fitted.code, 0) << fitted.err;
    EXPECT_THAT(fitted.out, HasSubstr("28 stitches by 125 rows"));
    std::ifstream in(saved);
    const std::string text{std::istreambuf_iterator<char>(in), {}};
    EXPECT_THAT(text, HasSubstr("until piece measures 49.5 in (126 cm)"));
    EXPECT_THAT(text, HasSubstr("Ch 30."));
}

TEST_F(DesignFiles, StrandsAndChangingColoursStandInTheSection) {
    const std::string head =
        "title = \"Tarn cowl\"\n[gauge]\nstitches = \"10 per 4 in\"\nrows = \"7 per 4 in\"\n"
        "stitch = \"hdc\"\n[yarn.MC]\nname = \"Tarn DK\"\nclass = 3\ngrist = \"230 m / 100 g\"\n";
    const std::string cowl =
        "[[piece]]\nname = \"cowl\"\nworked = \"round\"\nstitches = 60\nrows = 20\n";
    const std::string twice =
        file("twice.toml", head +
                               "[[swatch]]\nyarn = \"MC\"\nwidth = \"4 in\"\nheight = \"4 in\"\n"
                               "mass = \"16 g\"\nscale = \"0.1 g\"\nstrands = 2\n" +
                               cowl);
    const std::string doubled = ask({"materials", twice, "--format", "markdown"}).out;
    EXPECT_THAT(doubled, HasSubstr("2 strands held together"));
    EXPECT_THAT(doubled, HasSubstr("with 2 strands of MC held together"));
    EXPECT_EQ(ask({"check", file("twice.md", doubled), "--project", twice}).code, 0);
    const std::string changing =
        file("changing.toml",
             head +
                 "rate = \"4 cm per stitch\"\npieces_begin_with = \"rust\"\ncolours = [{ colour = "
                 "\"rust\", length = \"6 m\" }, { colour = \"sand\", length = \"3 m\" }]\n" +
                 cowl);
    const std::string told = ask({"materials", changing, "--format", "markdown"}).out;
    EXPECT_THAT(told, HasSubstr("MC changes its colour: rust 6.6 yd"));
    EXPECT_THAT(told, HasSubstr("every piece begins with rust"));
    const Answered sound = ask({"check", file("changing.md", told), "--project", changing});
    EXPECT_EQ(sound.code, 0) << sound.out;
}

TEST_F(DesignFiles, ShapesAreToldByWhatTheyAreMadeOf) {
    const auto need = [&](const std::string& make) {
        const Answered answered =
            ask({"need", "--make", make, "--stitch", "dc", "--class", "4", "--gauge",
                 "14 sts and 8 rows per 4 in", "--format", "json"});
        return answered.code == 0
                   ? nlohmann::json::parse(answered.out)["roles"][0]["need_m"].get<double>()
                   : -1.0;
    };
    const double one = need("granny square of 6 rounds");
    EXPECT_GT(one, 0.0);
    EXPECT_NEAR(need("48 granny squares of 6 rounds"), 48.0 * one, 0.02 * 48.0 * one);
    EXPECT_NEAR(need("48 granny squares: 6 rounds"), 48.0 * one, 0.02 * 48.0 * one);
    EXPECT_GT(need("c2c throw 40 x 50 blocks"), 20.0 * need("c2c throw: 8 x 12 blocks") - 60.0);
    EXPECT_NEAR(need("12 hexagons of 6 rounds"), 12.0 * need("hexagon: 6 rounds"),
                0.02 * need("12 hexagons of 6 rounds"));
    // Half a rectangle of the same sides.
    const double triangle = need("shawl, triangle from the nape: 60 in x 30 in");
    EXPECT_NEAR(triangle, 0.5 * need("60 in x 30 in"), 0.05 * triangle);
    EXPECT_THAT(ask({"need", "--make", "triangle shawl 60 in x 30 in", "--stitch", "dc"}).err,
                HasSubstr("\"triangle from the nape: 60 in x 30 in\""));
}

}  // namespace
}  // namespace skeinfall::cli
