// The keys that say where and how yarn is joined, and how its colours run.

#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/exchange/project_toml.hpp"

#include "problems_of.hpp"

namespace skeinfall::exchange {
namespace {

using project::JoinAt;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

const std::string joining_head =
    "title = 'T'\nrows_between_joins = 6\n[gauge]\nstitches = '10 per 10 cm'\n"
    "rows = '10 per 10 cm'\nstitch = 'hdc'\n";

project::Project read_strip(const std::string& yarn, const std::string& piece) {
    return parse_project(joining_head + "[yarn.MC]\ngrist = '2 m/g'\nfibre = '100% wool'\n" + yarn +
                             "\n[[piece]]\nname = 'strip'\nrows = 20\nstitches = 10\n" + piece,
                         "p");
}

std::vector<std::string> strip_problems(const std::string& yarn, const std::string& piece) {
    return problems_of([&] { return read_strip(yarn, piece); });
}

TEST(JoiningKeys, PlacesAndZones) {
    const project::Project got =
        read_strip("",
                   "edge = 'left seamed'\njoin = 'seamed side'\njoin_free = ['5-8', '12']\n"
                   "join_prefer = '15-20'\n");
    EXPECT_EQ(got.rows_between_joins, 6);
    const project::Piece& piece = got.pieces.at(0);
    EXPECT_EQ(piece.edge, project::Edge::left_seamed);
    EXPECT_EQ(piece.joins.at, JoinAt::seamed_side);
    ASSERT_EQ(piece.joins.keep_free.size(), 2U);
    EXPECT_EQ(piece.joins.keep_free[0].first, 5);
    EXPECT_EQ(piece.joins.keep_free[0].last, 8);
    EXPECT_EQ(piece.joins.keep_free[1].last, 12);
    EXPECT_EQ(piece.joins.prefer.at(0).first, 15);
    const project::Project listed = read_strip("", "join_stitches = [7, 3]\n");
    EXPECT_EQ(listed.pieces.at(0).joins.at, JoinAt::stitches);
    EXPECT_THAT(listed.pieces.at(0).joins.stitches, ElementsAre(3, 7));
    EXPECT_EQ(read_strip("", "worked = 'round'\njoin = 'spread'\n").pieces.at(0).joins.at,
              JoinAt::spread);
    EXPECT_EQ(read_strip("", "join_free = 'all'\n").pieces.at(0).joins.keep_free.at(0).last, 0);
}

TEST(JoiningKeys, PlacesThatContradictOneAnother) {
    EXPECT_THAT(strip_problems("", "join = 'seamed side'\n"),
                ElementsAre(HasSubstr("no edge of this piece is seamed")));
    EXPECT_THAT(strip_problems("", "worked = 'round'\njoin = 'left edge'\n"),
                ElementsAre(HasSubstr("in the round has no edge")));
    EXPECT_THAT(strip_problems("", "join = 'spread'\n"),
                ElementsAre(HasSubstr("in the round only")));
    EXPECT_THAT(strip_problems("", "join = 'anywhere'\njoin_stitches = [3]\n"),
                ElementsAre(HasSubstr("both \"join\" and \"join_stitches\"")));
    EXPECT_THAT(strip_problems("", "join_free = '5-8'\njoin_prefer = '8-9'\n"),
                ElementsAre(HasSubstr("to be kept free of joins as well")));
    EXPECT_THAT(strip_problems("", "join_free = '8-5'\n"),
                ElementsAre(HasSubstr("the last row comes before the first")));
    EXPECT_THAT(strip_problems("", "join_free = 'neck'\n"),
                ElementsAre(HasSubstr("these are no rows")));
    EXPECT_THAT(strip_problems("", "join = 'nowhere'\n"), ElementsAre(HasSubstr(": join: ")));
}

TEST(JoiningKeys, JoinKinds) {
    const project::Project got = read_strip("join_kind = 'Spit splice'", "");
    ASSERT_NE(got.roles.at(0).join_kind, nullptr);
    EXPECT_EQ(got.roles[0].join_kind->name, "felted splice");
    EXPECT_THAT(strip_problems("join_kind = 'rusian join'", ""),
                ElementsAre(HasSubstr("Did you mean \"Russian join\"?")));
    EXPECT_THAT(problems_of([] {
                    return parse_project(joining_head +
                                             "[yarn.MC]\ntotal = '9 m'\nfibre = '100% cotton'\n"
                                             "join_kind = 'felted splice'\n",
                                         "p");
                }),
                ElementsAre(HasSubstr("needs 80 % wool that felts, and this yarn holds 0 %")));
}

TEST(JoiningKeys, ColoursByLengthAndByShare) {
    const project::Project got = read_strip(
        "colour_repeat = '8 m'\ncolours = [{ colour = 'sand', share = '25 %' }, { colour = "
        "'slate', share = '75 %', shade = '#44546a' }]",
        "");
    const auto& runs = got.roles.at(0).colours;
    ASSERT_EQ(runs.size(), 2U);
    EXPECT_NEAR(runs[0].length / units::metre, 2.0, 1e-12);
    EXPECT_NEAR(project::repeat_of(runs) / units::metre, 8.0, 1e-12);
    EXPECT_EQ(runs[1].shade, "#44546a");
    EXPECT_THAT(
        strip_problems(
            "colours = [{ colour = 'a', length = '3 m' }, { colour = 'b', length = '2 m' }]", ""),
        IsEmpty());
}

TEST(JoiningKeys, ColoursThatCannotBe) {
    const auto with = [](const std::string& colours) { return strip_problems(colours, ""); };
    EXPECT_THAT(with("colours = [{ colour = 'a', length = '0 m' }, { colour = 'b', length = '2 "
                     "m' }]"),
                ElementsAre(HasSubstr("the amount is zero")));
    EXPECT_THAT(with("colours = [{ colour = 'a', length = '2 m' }]"),
                ElementsAre(HasSubstr("a yarn of one colour")));
    EXPECT_THAT(with("colours = [{ colour = 'a', share = '50 %' }, { colour = 'b', length = '2 m' "
                     "}]"),
                ElementsAre(HasSubstr("do not add to 100 %"),
                            HasSubstr("a share of a repeat of unknown length")));
    EXPECT_THAT(with("colour_repeat = '9 m'\ncolours = [{ colour = 'a', share = '50 %' }, { colour "
                     "= 'b', share = '40 %' }]"),
                ElementsAre(HasSubstr("the shares do not add to 100 %")));
    EXPECT_THAT(with("colour_repeat = '9 m'"),
                ElementsAre(HasSubstr("there are no colours that repeat")));
    EXPECT_THAT(with("colours = [{ colour = 'a', length = '2 m', shade = 'green' }, { colour = "
                     "'b', length = '2 m' }]"),
                ElementsAre(HasSubstr("is not a shade")));
}

TEST(JoiningKeys, AStrandHeldWithAnother) {
    const std::string two = "\n[yarn.CC]\nheld_with = 'MC'\ntotal = '40 m'\n";
    EXPECT_EQ(read_strip("rate = '1 cm per stitch'" + two, "yarn = 'MC'\n").roles.at(1).held_with,
              "MC");
    // It is as long as that one: no total is asked for.
    EXPECT_THAT(
        strip_problems("rate = '1 cm per stitch'\n[yarn.CC]\nheld_with = 'MC'", "yarn = 'MC'\n"),
        IsEmpty());
    EXPECT_THAT(strip_problems("held_with = 'CC'\ntotal = '9 m'", ""),
                ElementsAre(HasSubstr("no earlier yarn is called")));
}

TEST(JoiningKeys, RoundsOfABorder) {
    EXPECT_EQ(read_strip("", "\n[[finish]]\nkind = 'border'\nstitches = 80\nrounds = 2\n")
                  .finish.at(0)
                  .rounds.at(0),
              2);
    EXPECT_THAT(strip_problems("", "\n[[finish]]\nkind = 'seam'\ntakes = '2 m'\nrounds = 2\n"),
                ElementsAre(HasSubstr("only a border is worked in rounds")));
}

TEST(ColourKeys, RunsThatDoNotComeToTheRepeatAreRefused) {
    const std::string runs =
        "colours = [{ colour = 'rust', length = '5 m' }, { colour = 'sand', length = '3 m' }]\n";
    EXPECT_THAT(strip_problems("colour_repeat = '9 m'\n" + runs, ""),
                ElementsAre(HasSubstr("colour_repeat: the colours add to")));
    EXPECT_THAT(strip_problems("colour_repeat = '8.1 m'\n" + runs, ""), IsEmpty());
}

}  // namespace
}  // namespace skeinfall::exchange
