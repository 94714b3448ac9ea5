// The command line against POSIX.1-2017, Base Definitions 12.2 (Utility Syntax Guidelines), and
// the GNU Coding Standards, 4.8 (Standards for Command Line Interfaces); each test names which.

#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "run.hpp"

namespace {

namespace fs = std::filesystem;

struct Answer {
    int code = 0;
    std::string out;
    std::string err;
};

Answer run(const std::vector<std::string>& arguments, std::size_t columns = 0,
           bool colour = false) {
    std::ostringstream out;
    std::ostringstream err;
    skeinfall::cli::World world;
    world.home = SKEINFALL_BINARY_DIR "/no-home";
    world.out = &out;
    world.err = &err;
    world.columns = columns;
    world.colour = colour;
    const int code = skeinfall::cli::run(arguments, world);
    return {code, out.str(), err.str()};
}

const std::string cowl = SKEINFALL_SOURCE_DIR "/sample_stash/projects/lantern-cowl.toml";

/// GNU 4.8.1 and 4.8.2: --version and --help print to standard output, and nothing else is done.
TEST(Conventions, VersionAndHelp) {
    const Answer version = run({"--version"});
    EXPECT_EQ(version.code, 0);
    EXPECT_TRUE(version.out.starts_with("skeinfall "));
    for (const std::string option : {"--help", "-h"}) {
        EXPECT_EQ(run({option}).out, run({}).out);
        const Answer help = run({"cover", option, "there-is-no-such.toml"});
        EXPECT_EQ(help.code, 0) << option;
        EXPECT_EQ(help.out, run({"help", "cover"}).out);
        EXPECT_TRUE(help.err.empty());
    }
}

/// GNU 4.8: "--opt=value" is "--opt value".
TEST(Conventions, ValueBehindASign) {
    const Answer parted = run({"need", cowl, "--format", "json"});
    EXPECT_EQ(parted.code, 0);
    EXPECT_EQ(run({"need", cowl, "--format=json"}).out, parted.out);
}

/// POSIX guideline 9 has options first; GNU 4.8 lets them stand anywhere.
TEST(Conventions, OptionsStandAnywhereBehindTheCommand) {
    EXPECT_EQ(run({"need", "--format", "json", cowl}).out,
              run({"need", cowl, "--format", "json"}).out);
}

/// POSIX guideline 10: "--" ends the options.
TEST(Conventions, TwoDashesEndOptions) {
    const Answer file = run({"need", "--", "--format"});
    EXPECT_EQ(file.code, 2);
    EXPECT_TRUE(file.err.starts_with("--format: there is no such file")) << file.err;
    EXPECT_EQ(run({"need", "--format=json", "--", cowl}).code, 0);
}

/// POSIX guideline 5: letters without a value may stand behind one "-".
TEST(Conventions, LettersGroup) {
    EXPECT_EQ(run({"cover", "-qh"}).out, run({"help", "cover"}).out);
}

/// POSIX guideline 7: the value of an option is not optional. A switch takes none.
TEST(Conventions, ValuesAreNotOptional) {
    const Answer missing = run({"need", cowl, "--format"});
    EXPECT_EQ(missing.code, 2);
    EXPECT_EQ(missing.err,
              "--format has no value; expected --format NAME: text, json, csv, markdown\n"
              "    \"skeinfall help need\" lists the options.\n");
    EXPECT_EQ(run({"need", cowl, "--format="}).code, 2);
    const Answer extra = run({"cover", "--why=yes", cowl});
    EXPECT_EQ(extra.code, 2);
    EXPECT_TRUE(extra.err.starts_with("--why takes no value; expected --why alone")) << extra.err;
}

/// GNU 4.8 allows abbreviations; skeinfall does not guess them, and names what is near.
TEST(Conventions, AbbreviationsAreNotGuessed) {
    for (const std::string option : {"--forma", "--fromat", "-format"}) {
        const Answer near = run({"need", cowl, option, "json"});
        EXPECT_EQ(near.code, 2) << option;
        EXPECT_NE(near.err.find("Did you mean --format?"), std::string::npos) << near.err;
    }
    EXPECT_NE(run({"need", cowl, "--fromat=json"}).err.find("Did you mean --format?"),
              std::string::npos);
    EXPECT_EQ(run({"cov", cowl}).code, 2);
}

TEST(Conventions, NearCommandsAreNamed) {
    EXPECT_NE(run({"covre"}).err.find("Did you mean \"cover\"?"), std::string::npos);
    EXPECT_NE(run({"import"}).err.find("Did you mean \"stash import\"?"), std::string::npos);
    EXPECT_NE(run({"stash", "imprt"}).err.find("Did you mean \"stash import\"?"),
              std::string::npos);
    EXPECT_NE(run({"need", cowl, "--format", "jsn"}).err.find("Did you mean \"json\"?"),
              std::string::npos);
    EXPECT_NE(run({"--why", "cover"}).err.find("a command first"), std::string::npos);
}

/// GNU 4.8: messages go to standard error, and what was asked for does not.
TEST(Conventions, QuietLeavesNotesOut) {
    EXPECT_EQ(run({"convert", "UK tr", "--terms", "UK"}).err,
              "note: it is written in UK terms already\n");
    const Answer quiet = run({"convert", "UK tr", "--terms", "UK", "--quiet"});
    EXPECT_EQ(quiet.err, "");
    EXPECT_FALSE(quiet.out.empty());
    EXPECT_FALSE(run({"need", "there-is-no-such.toml", "-q"}).err.empty());
}

/// A setting for one run: behind the option for the same, before the settings file.
TEST(Settings, AreTakenForOneRun) {
    const auto shows = [](const std::string& line, const Answer& answer) {
        return answer.code == 0 && answer.out.find(line) != std::string::npos;
    };
    EXPECT_TRUE(shows("277 m (303 yd)", run({"need", cowl, "--set", "units=metres"})));
    EXPECT_TRUE(shows("289,7 yd", run({"need", cowl, "--set", "decimal_mark=,"})));
    const Answer shown = run({"settings", "show", "--set", "confidence = 90 %", "--set",
                              "stitch_rate.crochet.4=3.1 cm per stitch"});
    EXPECT_TRUE(shows("3.1 cm per stitch  --set\n", shown)) << shown.out;
    EXPECT_TRUE(shows("90 %               --set\n", shown)) << shown.out;
    for (const std::string wrong : {"units", "units=feet", "unit=metres", "tail=-2 cm"}) {
        const Answer answer = run({"need", cowl, "--set", wrong});
        EXPECT_EQ(answer.code, 2) << wrong;
        EXPECT_TRUE(answer.err.starts_with("--set: ")) << answer.err;
    }
    EXPECT_EQ(run({"settings", "set", "units", "metres", "--set", "tail=2 cm"}).code, 2);
}

/// What is drawn has its numbers in the same style.
TEST(Settings, ReachPictures) {
    const fs::path folder = fs::path(SKEINFALL_BINARY_DIR) / "cases/pictures";
    fs::create_directories(folder);
    const std::string file = (folder / "joins.svg").string();
    const auto drawn = [&](const std::string& mark) {
        EXPECT_EQ(run({"joins", cowl, "--skein", "2 x 200 yd", "--picture", file, "--set",
                       "decimal_mark=" + mark})
                      .code,
                  0);
        std::ifstream in(file);
        std::ostringstream text;
        text << in.rdbuf();
        return text.str();
    };
    EXPECT_NE(drawn(".").find("186.4 yd"), std::string::npos);
    EXPECT_NE(drawn(",").find("186,4 yd"), std::string::npos);
}

std::vector<std::string> lines_of(const std::string& text) {
    std::istringstream in(text);
    std::vector<std::string> out;
    for (std::string line; std::getline(in, line);) out.push_back(line);
    return out;
}

TEST(Terminal, LinesFitItsWidthAndSayTheSame) {
    const auto words = [](const std::string& text) {
        std::istringstream in(text);
        std::vector<std::string> out;
        for (std::string word; in >> word;) out.push_back(word);
        return out;
    };
    const Answer file = run({"need", cowl});
    const Answer narrow = run({"need", cowl}, 40);
    for (const std::string& line : lines_of(narrow.out)) EXPECT_LE(line.size(), 40u) << line;
    EXPECT_EQ(words(narrow.out), words(file.out));
    EXPECT_EQ(run({"need", cowl, "--format", "json"}, 40).out,
              run({"need", cowl, "--format", "json"}).out);
}

/// A colour only marks what the words say.
TEST(Terminal, ColourIsTakenAwayWithoutLoss) {
    const std::vector<std::string> wish{"substitute", "--want", "200 m / 100 g, class 4", "--with",
                                        "210 m / 100 g, class 4"};
    const Answer plain = run(wish, 200);
    const Answer coloured = run(wish, 200, true);
    std::string text = coloured.out;
    for (std::size_t at = text.find('\x1b'); at != std::string::npos; at = text.find('\x1b'))
        text.erase(at, text.find('m', at) + 1 - at);
    EXPECT_EQ(text, plain.out);
    EXPECT_EQ(plain.out.find('\x1b'), std::string::npos);
}

}  // namespace
