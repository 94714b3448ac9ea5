// Stripes written into a project file; all else in it stays as it stands.

#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/exchange/project_edit.hpp"
#include "skeinfall/exchange/project_toml.hpp"

namespace {

using namespace skeinfall;
using Stripes = std::vector<project::Stripe>;

const Stripes wanted{{"MC", 5}, {"CC1", 3}};

std::string file_with(const std::string& piece) {
    return "# my scarf\ntitle = \"Scarf\"\n\n[gauge]\nstitches = \"14 per 10 cm\"\nrows = \"10 per "
           "10 cm\"\nstitch = \"hdc\"\n\n[yarn.MC]\nclass = 4\n\n[yarn.CC1]\nclass = 4\n\n" +
           piece;
}

std::string edited(const std::string& text) {
    exchange::PieceEdit edit;
    edit.stripes = wanted;
    return exchange::edited_project(text, "scarf.toml", {edit}, {});
}

TEST(StripesEdit, TakeThePlaceOfWhatStoodThere) {
    for (const char* piece :
         {"[[piece]]\nname = \"scarf\" # long\nyarn = \"MC\"\nrows = 90\nstitches = 30\n",
          "[[piece]]\nname = \"scarf\" # long\nstripes = [{ yarn = \"MC\", rows = 2 }, { yarn = "
          "\"CC1\", rows = 2 }] # as wanted\nrows = 90\nstitches = 30\n",
          "[[piece]]\nname = \"scarf\" # long\nrows = 90\nstitches = 30\nstripes = [\n  { yarn = "
          "\"CC1\", rows = 7 },\n]\n"}) {
        SCOPED_TRACE(piece);
        const std::string text = edited(file_with(piece));
        const project::Project project = exchange::parse_project(text, "scarf.toml");
        EXPECT_EQ(project.pieces.front().stripes, wanted);
        EXPECT_EQ(project.pieces.front().rows.at(0), 90);
        EXPECT_THAT(text, testing::StartsWith("# my scarf\n"));
        EXPECT_THAT(text, testing::HasSubstr("# long"));
        // Written twice it stays as it is.
        EXPECT_EQ(edited(text), text);
    }
}

TEST(StripesEdit, FitIntoATableInOneLine) {
    const std::string text =
        edited("piece = [{ name = \"scarf\", yarn = \"MC\", rows = 90, stitches = 30 }]\n" +
               file_with(""));
    EXPECT_EQ(exchange::parse_project(text, "scarf.toml").pieces.front().stripes, wanted);
}

TEST(StripesEdit, TablesOfTheirOwnAreRefused) {
    try {
        static_cast<void>(edited(file_with(
            "[[piece]]\nname = \"scarf\"\nrows = 90\nstitches = 30\n[[piece.stripes]]\nyarn = "
            "\"MC\"\nrows = 4\n")));
        FAIL() << "it was taken";
    } catch (const base::InputError& error) {
        EXPECT_THAT(base::to_text(error.problems()), testing::HasSubstr("tables of their own"));
    }
}

}  // namespace
