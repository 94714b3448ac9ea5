// What the picture of a make shows, before it is drawn.

#include "skeinfall/report/detail/make_drawing.hpp"

#include <algorithm>
#include <string>

#include <gtest/gtest.h>

#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/report/detail/make_room.hpp"

namespace {

using namespace skeinfall;
using units::inch;

report::DrawnMake drawn(const std::string& pieces) {
    const project::Project project = exchange::parse_project(
        "title = \"Tarn\"\n[gauge]\nstitches = \"16 per 4 in\"\nrows = \"12 per 4 in\"\n"
        "stitch = \"hdc\"\n[yarn.MC]\nclass = 4\ngrist = \"170 m / 100 g\"\n"
        "rate = \"4 cm per stitch\"\n" +
            pieces,
        "tarn.toml");
    return report::drawn_make(project, need::need_of(project, 0), {});
}

// 72 stitches are 18 in round a neck; 176 are 44 in, and half of that lies on the table.
TEST(MakeDrawing, AYokeIsATubeAndACrownADisc) {
    const report::DrawnMake yoke = drawn(
        "[[piece]]\nname = \"yoke\"\nworked = \"round\"\nstitches = 72\nrows = 27\nincrease = 8\n"
        "every = 2\n");
    ASSERT_EQ(yoke.pieces.size(), 1U);
    EXPECT_FALSE(yoke.pieces[0].from_centre);
    EXPECT_NEAR(yoke.pieces[0].width / inch, 22.0, 1e-9);
    const report::DrawnMake crown = drawn(
        "[[piece]]\nname = \"crown\"\nworked = \"round\"\nstitches = 8\nrows = 9\nincrease = 8\n");
    EXPECT_TRUE(crown.pieces.at(0).from_centre);
}

// Every side of the triangle moves out by the border's height, a third of an inch a round.
TEST(MakeDrawing, ABorderGoesRoundATriangle) {
    const std::string shawl =
        "[[piece]]\nname = \"shawl\"\nshape = \"triangle from the nape\"\nstitches = 7\n"
        "rows = 60\nincrease = 4\nevery = 1\n";
    const report::DrawnPiece plain = drawn(shawl).pieces.at(0);
    const report::DrawnPiece bordered =
        drawn(shawl +
              "[[finish]]\nkind = \"border\"\nname = \"edge\"\nfirst_round = 300\n"
              "rounds = 3\n")
            .pieces.at(0);
    EXPECT_EQ(bordered.border.size(), 3U);
    EXPECT_GT(bordered.width, plain.width + 2.0 * inch);
    EXPECT_GT(bordered.height, plain.height + 1.0 * inch);
    // Within the drawn border lies the piece itself.
    const report::Box box{0.0, 0.0, bordered.width / inch, bordered.height / inch};
    const report::Box inside = report::within_wings(box, bordered.border_high / inch);
    EXPECT_NEAR(inside.width, plain.width / inch, 0.01 * inside.width);
    EXPECT_NEAR(inside.height, plain.height / inch, 0.01 * inside.height);
}

// A placemat of 71 stitches, and a border of 2 rounds of a third of an inch each about every one.
TEST(MakeDrawing, EachOfSeveralPiecesHasItsBorder) {
    const report::DrawnMake mats = drawn(
        "[[piece]]\nname = \"placemat\"\ncount = 4\nstitches = 72\nrows = 36\n[[finish]]\n"
        "kind = \"border\"\nname = \"edge\"\nfirst_round = 200\nrounds = 2\ncount = 4\n");
    ASSERT_EQ(mats.pieces.size(), 4U);
    for (const report::DrawnPiece& mat : mats.pieces) {
        EXPECT_EQ(mat.border.size(), 2U);
        EXPECT_NEAR(mat.width / inch, 18.0 + 4.0 / 3.0, 1e-9);
    }
}

TEST(MakeDrawing, MotifsAreLargeEnoughToBeSeen) {
    const report::DrawnMake make = drawn(
        "[[piece]]\nname = \"square\"\nstitches = 16\nrows = 12\ncount = 60\n[[finish]]\n"
        "kind = \"joining\"\nname = \"joining\"\nof = \"square\"\ncolumns = 6\n"
        "way = \"whip stitch\"\n");
    report::DrawnMake many = make;
    while (many.pieces.size() < 12) many.pieces.push_back(make.pieces.front());
    ASSERT_FALSE(many.fields.empty());
    for (const report::PictureWidth width :
         {report::PictureWidth::paper, report::PictureWidth::wide, report::PictureWidth::narrow}) {
        const report::MakeRoom room = report::room_of(many, report::sizes_of(width), 0.0, 40.0);
        ASSERT_EQ(room.boxes.size(), many.pieces.size());
        for (const report::Box& box : room.boxes) EXPECT_GE(box.width, 26.0);
    }
}

}  // namespace
