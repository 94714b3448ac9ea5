#include "skeinfall/exchange/project_parts_edit.hpp"

#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/exchange/project_toml.hpp"

namespace {

using namespace skeinfall;
using testing::HasSubstr;

const std::string two_rates_head =
    "title = \"t\"\ncraft = \"crochet\"\n[gauge]\nstitches = \"14 per 10 cm\"\nrows = \"10 per 10 "
    "cm\"\nstitch = \"hdc\"\n[yarn.MC]\nrate = \"1 m / 20 st\"\n[yarn.CC1]\nrate = \"1 m / 20 "
    "st\"\n";
const std::string square =
    "# a remark\n[[piece]]\nname = \"square\" # one\nyarn = \"MC\"\nstitches = 18\nrows = 12\n";
const std::string other =
    "\n# the last\n[[piece]]\nname = \"strip\"\nyarn = \"MC\"\nstitches = "
    "4\nrows = 40";

TEST(ProjectParts, APieceForEachColour) {
    const std::string text =
        exchange::with_copies(two_rates_head + square + other, "t.toml", 0,
                              {{"square rust", "MC", 9}, {"square sand", "CC1", 11}});
    const project::Project project = exchange::parse_project(text, "t.toml");
    ASSERT_EQ(project.pieces.size(), 3U);
    EXPECT_EQ(project.pieces[0].name, "square rust");
    EXPECT_EQ(project.pieces[0].count.at(0), 9);
    EXPECT_EQ(project.pieces[1].role, "CC1");
    EXPECT_EQ(project.pieces[1].count.at(0), 11);
    EXPECT_EQ(project.pieces[1].stitches.at(0), 18);
    EXPECT_EQ(project.pieces[2].name, "strip");
    // Every remark is still there, once.
    for (const std::string remark : {"# a remark\n", "# one\n", "# the last\n"}) {
        EXPECT_THAT(text, HasSubstr(remark));
        EXPECT_EQ(text.find(remark), text.rfind(remark));
    }
    const std::string last = exchange::with_copies(two_rates_head + square + other, "t.toml", 1,
                                                   {{"strip sand", "CC1", 2}});
    EXPECT_EQ(exchange::parse_project(last, "t.toml").pieces[1].role, "CC1");
    EXPECT_THROW(
        static_cast<void>(exchange::with_copies(two_rates_head + square, "t.toml", 1, {{}})),
        base::InputError);
    EXPECT_THROW(static_cast<void>(exchange::with_copies("piece = [{ name = \"a\", rows = 2 }]\n",
                                                         "t.toml", 0, {{}})),
                 base::InputError);
}

TEST(ProjectParts, TheRepeatBeginsWithAnotherColour) {
    const std::string runs =
        "colour_repeat = \"10 m\" # as the band says\ncolours = [{ colour = \"teal\", share = \"50 "
        "%\" },\n  { colour = \"sand\", share = \"30 %\" }, { colour = \"foam\", share = \"20 %\" "
        "}] # three\n";
    std::string text = two_rates_head + square;
    text.insert(text.find("[yarn.CC1]"), runs);
    const std::string saved = exchange::with_colours_from(text, "t.toml", "MC", "Sand");
    const project::Role role = *exchange::parse_project(saved, "t.toml").role("MC");
    ASSERT_EQ(role.colours.size(), 3U);
    EXPECT_EQ(role.colours[0].colour, "sand");
    EXPECT_EQ(role.colours[1].colour, "foam");
    EXPECT_EQ(role.colours[2].colour, "teal");
    EXPECT_NEAR(role.colours[0].length / units::metre, 3.0, 1e-9);
    for (const std::string remark : {"# as the band says\n", "# three\n", "# a remark\n"})
        EXPECT_THAT(saved, HasSubstr(remark));
    const std::string begun =
        exchange::with_pieces_begun(saved, "t.toml", "MC", "sand", 4.66 * units::metre);
    EXPECT_EQ(exchange::parse_project(begun, "t.toml").role("MC")->pieces_begin_with, "sand");
    EXPECT_THAT(begun, HasSubstr("first_wound_off = \"4.7 m\"\n"));
    EXPECT_NEAR(
        *exchange::parse_project(begun, "t.toml").role("MC")->first_wound_off / units::metre, 4.7,
        1e-9);
    const std::string again = exchange::with_pieces_begun(begun, "t.toml", "MC", "teal", {});
    EXPECT_EQ(exchange::parse_project(again, "t.toml").role("MC")->pieces_begin_with, "teal");
    EXPECT_THROW(static_cast<void>(exchange::parse_project(
                     exchange::with_pieces_begun(begun, "t.toml", "MC", "plum", {}), "t.toml")),
                 base::InputError);
    EXPECT_THROW(static_cast<void>(exchange::with_pieces_begun(saved, "t.toml", "CC1", "sand", {})),
                 base::InputError);
    // As it stands it comes back so.
    const project::Role same =
        *exchange::parse_project(exchange::with_colours_from(saved, "t.toml", "MC", "sand"),
                                 "t.toml")
             .role("MC");
    EXPECT_EQ(same.colours.front().colour, "sand");
    EXPECT_THROW(static_cast<void>(exchange::with_colours_from(text, "t.toml", "MC", "plum")),
                 base::InputError);
    EXPECT_THROW(static_cast<void>(exchange::with_colours_from(text, "t.toml", "CC1", "sand")),
                 base::InputError);
}

}  // namespace
