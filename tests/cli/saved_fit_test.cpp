// What "fit --save" writes is read as the make that was answered, whatever tells the project its
// yarn: the same need to the tenth of a metre that a total is rounded up to.

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

struct SavedFit {
    std::string name;
    std::string yarn;    ///< beside its class and length per mass
    std::string pieces;  ///< and what stands before them
    std::string top = "";
};

class SavedFits : public testing::TestWithParam<SavedFit> {
  protected:
    SavedFits() {
        std::string name = (fs::temp_directory_path() / "skeinfall-saved-XXXXXX").string();
        folder_ = mkdtemp(name.data());
    }
    ~SavedFits() override { fs::remove_all(folder_); }

    /// Metres of each yarn as the command prints them; empty where it refuses.
    std::vector<double> metres(const std::vector<std::string>& words, const char* yarns,
                               const char* figure) {
        std::ostringstream out;
        std::ostringstream err;
        World world;
        world.out = &out;
        world.err = &err;
        world.stash = (folder_ / "none").string();
        const int code = run(words, world);
        if (code != 0) {
            refused_ = err.str();
            return {};
        }
        std::vector<double> metres_of;
        const nlohmann::json told = nlohmann::json::parse(out.str());
        for (const auto& one : told[yarns]) metres_of.push_back(one[figure]);
        return metres_of;
    }

    fs::path folder_;
    std::string refused_;
};

TEST_P(SavedFits, AreReadAsAnswered) {
    const SavedFit& make = GetParam();
    const std::string file = (folder_ / "make.toml").string();
    std::ofstream(file) << "title = \"Reed\"\ncraft = \"knit\"\n"
                        << make.top
                        << "[gauge]\nstitches = \"20 per 10 cm\"\nrows = \"28 per 10 cm\"\nstitch "
                           "= \"stockinette\"\n[yarn.MC]\nclass = 3\n"
                        << make.yarn << make.pieces;
    const std::vector<std::vector<std::string>> wishes{{"--width", "60 cm"},
                                                       {"--length", "80 cm"},
                                                       {"--width", "35 cm", "--length", "41 cm"},
                                                       {"--rows", "210"},
                                                       {"--stitches", "72"}};
    std::size_t saved = 0;
    for (std::size_t at = 0; at < wishes.size(); ++at) {
        const std::string to = (folder_ / ("saved" + std::to_string(at) + ".toml")).string();
        std::vector<std::string> words{"fit", file, "--save", to, "--format", "json"};
        words.insert(words.end(), wishes[at].begin(), wishes[at].end());
        std::vector<std::string> again{"need", to, "--format", "json"};
        if (!make.top.empty()) {
            words.insert(words.end(), {"--size", "L"});
            again.insert(again.end(), {"--size", "L"});
        }
        const auto told = metres(words, "yarn", "need_m");
        if (told.empty()) continue;
        ++saved;
        const auto read = metres(again, "roles", "need_m");
        ASSERT_EQ(read.size(), told.size()) << wishes[at][0] << " " << refused_;
        for (std::size_t role = 0; role < told.size(); ++role)
            EXPECT_NEAR(read[role], told[role], 0.11 + 0.001 * told[role]) << wishes[at][0];
    }
    EXPECT_GE(saved, 4U) << refused_;
}

const std::string panel = "[[piece]]\nname = \"panel\"\nstitches = 80\nrows = 150\n";
const std::string measured = "[[piece]]\nname = \"panel\"\nwidth = \"40 cm\"\nlength = \"50 cm\"\n";
const std::string border =
    "[[finish]]\nkind = \"border\"\nname = \"edge\"\nrounds = 4\nfirst_round = 300\n";
const std::string by_grist = "grist = \"240 m / 100 g\"\n";
const std::string rate = by_grist + "rate = \"2.2 cm per stitch\"\n";
const std::string half_size =
    "[maker_gauge]\nstitches = \"22 per 10 cm\"\nrows = \"30 per 10 cm\"\n"
    "keep = \"size\"\n";
const std::string half_counts =
    "[maker_gauge]\nstitches = \"22 per 10 cm\"\nrows = \"30 per 10 cm\"\n"
    "keep = \"stitch counts\"\n";
const std::string graded =
    "[[piece]]\nname = \"panel\"\nstitches = [60, 70, 80]\nrows = [90, 100, 110]\n";
const std::string sizes = "sizes = [\"S\", \"M\", \"L\"]\n";

std::string shaped(const std::string& shape, const std::string& more = "") {
    return "[[piece]]\nname = \"panel\"\nshape = \"" + shape +
           "\"\nwidth = \"40 cm\"\nlength = \"50 cm\"\n" + more;
}

INSTANTIATE_TEST_SUITE_P(
    Makes, SavedFits,
    testing::Values(
        SavedFit{"Rate", rate, panel}, SavedFit{"Measured", rate, measured},
        SavedFit{"Border", rate, panel + border},
        SavedFit{"Total", by_grist + "total = \"300 m\"\n", panel},
        SavedFit{"TotalForRows", by_grist + "total = \"300 m\"\ntotal_for_rows = 100\n", panel},
        SavedFit{"TotalByMass", by_grist + "total = \"130 g\"\ntotal_for_rows = 100\n", panel},
        SavedFit{"TotalBetween", by_grist + "total = \"280 to 330 m\"\n", panel},
        SavedFit{"TotalInSkeins", by_grist + "total = \"3 skeins of 120 m\"\n", panel},
        SavedFit{"TotalOfAClass", "total = \"150 g\"\n", panel},
        SavedFit{"TotalForSize", by_grist + "total = \"300 m\"\ntotal_for_size = \"M\"\n", graded,
                 sizes},
        SavedFit{"TotalEverySize", by_grist + "total = [\"200 m\", \"250 m\", \"300 m\"]\n", graded,
                 sizes},
        SavedFit{"SizeKept", rate, half_size + measured},
        SavedFit{"SizeKeptOfCounts", rate, half_size + panel},
        SavedFit{"CountsKept", rate, half_counts + measured},
        SavedFit{"Trapezoid", rate, shaped("trapezoid", "last_width = \"30 cm\"\n")},
        SavedFit{"Corner", rate, shaped("triangle from a corner")},
        SavedFit{"Asymmetric", rate, shaped("asymmetric triangle")},
        SavedFit{"Crescent", rate, shaped("crescent")},
        SavedFit{"SideToSide", rate, shaped("triangle side to side")},
        SavedFit{"LongEdge", rate, shaped("triangle from the long edge")},
        SavedFit{"Nape", rate, shaped("triangle from the nape")}),
    [](const auto& one) { return one.param.name; });

}  // namespace
}  // namespace skeinfall::cli
