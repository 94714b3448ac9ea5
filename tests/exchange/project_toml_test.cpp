#include "skeinfall/exchange/project_toml.hpp"

#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/units/quantity.hpp"

#include "problems_of.hpp"

namespace skeinfall::exchange {
namespace {

using project::Project;
using testing::ElementsAre;
using testing::IsEmpty;
using units::gram;
using units::metre;

TEST(ProjectToml, EveryKeyOfAFile) {
    const std::string file = std::string(SKEINFALL_SOURCE_DIR) + "/tests/data/project.toml";
    const Project read = read_project(file);
    EXPECT_EQ(read.file, file);
    EXPECT_EQ(read.title, "Harbour wrap");
    EXPECT_EQ(read.craft, project::Craft::knit);
    EXPECT_EQ(read.terms, project::Terms::uk);
    EXPECT_EQ(read.made_for, project::Recipient::kitchen_heat);
    EXPECT_EQ(read.skill, "easy");
    EXPECT_NEAR(read.margin.value(), 0.125, 1e-12);
    EXPECT_THAT(read.sizes, ElementsAre("S", "M"));
    EXPECT_THAT(read.notions, ElementsAre("darning needle", "2 stitch markers"));
    EXPECT_THAT(read.care, ElementsAre("wash cool"));
    EXPECT_NEAR(read.tail / metre, 0.1524, 1e-12);  // 6 x 2.54 cm

    // 13 stitches in 4 x 2.54 cm; 8 rows in 10 cm.
    EXPECT_NEAR(read.gauge.stitches / (units::stitch / metre), 13.0 / 0.1016, 1e-9);
    EXPECT_NEAR(read.gauge.rows / (units::row / metre), 80.0, 1e-9);
    EXPECT_EQ(read.gauge.stitch, "garter");
    ASSERT_TRUE(read.gauge.hook && read.gauge.needle);
    EXPECT_NEAR(*read.gauge.hook / units::millimetre, 6.0, 1e-9);
    EXPECT_NEAR(*read.gauge.needle / units::millimetre, 5.0, 1e-9);
}

TEST(ProjectToml, RolesOfTheFile) {
    const Project read =
        read_project(std::string(SKEINFALL_SOURCE_DIR) + "/tests/data/project.toml");
    ASSERT_EQ(read.roles.size(), 2U);
    const project::Role& mc = read.roles[0];
    EXPECT_EQ(mc.id, "MC");
    EXPECT_EQ(mc.name, "Moth Aran");
    EXPECT_EQ(mc.colour, "Slate");
    EXPECT_EQ(mc.weight, yarn::WeightClass{4});
    ASSERT_TRUE(mc.grist);
    EXPECT_EQ(mc.grist->text, "200 yd / 100 g");
    EXPECT_NEAR(mc.grist->value / (metre / gram), 1.8288, 1e-12);  // 2 x 0.9144
    ASSERT_EQ(mc.fibre.shares.size(), 2U);
    EXPECT_EQ(mc.fibre.shares[0].fibre, "wool");
    EXPECT_THAT(mc.avoid, ElementsAre("mohair"));
    EXPECT_FALSE(mc.one_lot);
    EXPECT_FALSE(mc.total_length.stated());
    ASSERT_EQ(mc.total_mass.values.size(), 2U);
    EXPECT_NEAR(mc.total_mass.at(0) / gram, 198.446661875, 1e-9);  // 7 x 28.349523125
    EXPECT_NEAR(mc.total_mass.at(1) / gram, 226.796185, 1e-9);     // half a pound
    EXPECT_EQ(mc.total_basis, project::TotalBasis::whole_skeins);
    ASSERT_TRUE(mc.rate);
    EXPECT_NEAR(*mc.rate / (units::inch / units::stitch), 2.9, 1e-12);
    EXPECT_FALSE(mc.area_rate);

    const project::Role& cc = read.roles[1];
    EXPECT_EQ(cc.id, "CC1");
    EXPECT_EQ(cc.name, "");
    EXPECT_FALSE(cc.weight || cc.grist || cc.rate || cc.fibre.known());
    EXPECT_TRUE(cc.one_lot);
    // One total for two sizes is the smaller one's.
    ASSERT_EQ(cc.total_length.values.size(), 2U);
    EXPECT_EQ(cc.total_of_size, "S");
    EXPECT_NEAR(cc.total_length.at(0) / units::yard, 380.0, 1e-9);
    EXPECT_GT(cc.total_length.at(1), cc.total_length.at(0));
    EXPECT_EQ(cc.total_basis, project::TotalBasis::measured);
    ASSERT_TRUE(cc.area_rate);
    EXPECT_NEAR(*cc.area_rate / (1.0 / units::inch), 32.08, 1e-9);
}

TEST(ProjectToml, SwatchPiecesAndFinishOfTheFile) {
    const Project read =
        read_project(std::string(SKEINFALL_SOURCE_DIR) + "/tests/data/project.toml");
    ASSERT_EQ(read.swatches.size(), 2U);
    const project::Swatch& swatch = read.swatches[0];
    EXPECT_EQ(swatch.role, "MC");
    EXPECT_NEAR(*swatch.stitches / units::stitch, 20.0, 0.0);
    EXPECT_NEAR(*swatch.rows / units::row, 10.0, 0.0);
    EXPECT_NEAR(*swatch.width / units::inch, 6.0, 1e-12);
    EXPECT_NEAR(*swatch.height / units::inch, 5.0, 1e-12);
    ASSERT_TRUE(swatch.weighing && swatch.weighing->tare);
    EXPECT_EQ(swatch.weighing->shown.text, "14 g");
    EXPECT_EQ(swatch.weighing->scale.text, "1 g");
    EXPECT_EQ(swatch.weighing->tare->text, "2 g");
    EXPECT_FALSE(swatch.yarn);
    EXPECT_NEAR(*read.swatches[1].yarn / metre, 22.0, 1e-12);

    ASSERT_EQ(read.pieces.size(), 2U);
    const project::Piece& body = read.pieces[0];
    EXPECT_EQ(body.name, "Body");
    EXPECT_EQ(body.role, "");
    ASSERT_EQ(body.stripes.size(), 2U);
    EXPECT_EQ(body.stripes[1].role, "CC1");
    EXPECT_EQ(body.stripes[1].rows, 2);
    EXPECT_EQ(body.worked, project::Worked::round);
    EXPECT_EQ(body.edge, project::Edge::seamed);
    EXPECT_THAT(body.count.values, ElementsAre(2));
    EXPECT_THAT(body.rows.values, ElementsAre(100, 110));
    EXPECT_THAT(body.stitches.values, ElementsAre(121));
    EXPECT_THAT(body.increase.values, ElementsAre(-1, 0));
    EXPECT_EQ(body.every.at(0), 2);
    EXPECT_NEAR(body.foundation_rows->value(), 1.5, 0.0);

    const project::Piece& pocket = read.pieces[1];
    EXPECT_EQ(pocket.role, "CC1");
    EXPECT_EQ(pocket.worked, project::Worked::flat);
    EXPECT_EQ(pocket.edge, project::Edge::visible);
    EXPECT_THAT(pocket.count.values, ElementsAre(1));
    EXPECT_FALSE(pocket.rows.stated() || pocket.stitches.stated() || pocket.increase.stated());
    EXPECT_NEAR(pocket.length.at(1) / units::centimetre, 12.0, 1e-9);
    EXPECT_NEAR(pocket.width.at(1) / units::centimetre, 11.0, 1e-9);
    EXPECT_EQ(pocket.every.at(0), 1);
    EXPECT_FALSE(pocket.foundation_rows);

    ASSERT_EQ(read.finish.size(), 3U);
    EXPECT_EQ(read.finish[0].kind, project::PartKind::border);
    EXPECT_EQ(read.finish[0].name, "border");
    EXPECT_EQ(read.finish[0].role, "CC1");
    EXPECT_THAT(read.finish[0].first_round.values, ElementsAre(480, 500));
    EXPECT_EQ(read.finish[1].name, "Side seams");
    EXPECT_NEAR(read.finish[1].length.at(0) / metre, 2.0, 1e-12);
    EXPECT_NEAR(read.finish[1].factor->value(), 2.5, 0.0);
    EXPECT_EQ(read.finish[2].kind, project::PartKind::fringe);
    EXPECT_NEAR(read.finish[2].yarn.at(0) / metre, 20.0, 1e-12);
}

// Arithmetic: 80 x 30 cm of fringe; 3 tassels of 40 wraps round 10 cm and 60 cm of ties each; a
// seam sewn with 2.5 times its length.
TEST(ProjectToml, FinishingByName) {
    const Project read = parse_project(
        "title = 'Throw'\ngauge = { stitches = '3 per in', rows = '4 per in', stitch = 'sc' }\n"
        "yarn.MC = {}\n"
        "[[piece]]\nname = 'square'\ncount = 12\nshape = 'granny square'\nrows = 5\n"
        "foundation = 'magic ring'\n"
        "[[finish]]\nkind = 'joining'\nof = 'square'\ncolumns = 4\nway = 'whip stitch'\n"
        "[[finish]]\nkind = 'border'\nof = 'square'\ncolumns = 4\nrounds = 2\nincrease = 8\n"
        "[[finish]]\nkind = 'fringe'\nstrands = 80\ncut = '30 cm'\n"
        "[[finish]]\nkind = 'tassel'\ncount = 3\nwraps = 40\nacross = '10 cm'\n"
        "[[finish]]\nkind = 'seam'\nalong = '2 m'\nway = 'mattress'\n"
        "[[finish]]\nkind = 'neckband'\nfirst_round = 90\nrounds = 6\n"
        "[[finish]]\nkind = 'swatch'\ntakes = '9 m'\n",
        "p.toml");
    EXPECT_NEAR(read.pieces.at(0).foundation_rows->value(), 0.5, 1e-12);
    ASSERT_EQ(read.finish.size(), 7U);
    EXPECT_EQ(read.finish[0].of, "square");
    EXPECT_NEAR(read.finish[0].factor->value(), 3.0, 1e-12);
    EXPECT_EQ(read.finish[1].rounds.at(0), 2);
    EXPECT_NEAR(read.finish[2].yarn.at(0) / metre, 24.0, 1e-9);
    EXPECT_NEAR(read.finish[3].yarn.at(0) / metre, 3 * (2 * 40 * 0.1 + 0.6), 1e-9);
    EXPECT_NEAR(read.finish[4].factor->value(), 2.5, 1e-12);
    EXPECT_THAT(read.finish[5].first_round.values, ElementsAre(90));
    EXPECT_EQ(read.finish[6].kind, project::PartKind::swatch);
}

TEST(ProjectToml, SmallestProjectHasTheDefaults) {
    const Project read = parse_project(
        "\xef\xbb\xbftitle = 'Square'\r\n"
        "gauge = { stitches = '3 per in', rows = '4 per in', stitch = 'sc' }\r\n"
        "yarn.MC = {}\r\n"
        "piece = [{ name = 'Body', rows = 10, stitches = 20 }]\r\n",
        "p.toml");
    EXPECT_EQ(read.file, "p.toml");
    EXPECT_EQ(read.craft, project::Craft::crochet);
    EXPECT_EQ(read.terms, project::Terms::us);
    EXPECT_EQ(read.made_for, project::Recipient::adult);
    EXPECT_EQ(read.margin.value(), 0.0);
    EXPECT_NEAR(read.tail / units::centimetre, 15.0, 1e-9);
    EXPECT_THAT(read.sizes, IsEmpty());
    EXPECT_FALSE(read.gauge.hook || read.gauge.needle);
    // With one yarn described, it need not be named again.
    EXPECT_EQ(read.pieces.at(0).role, "MC");
    EXPECT_THAT(read.swatches, IsEmpty());
    EXPECT_THAT(read.finish, IsEmpty());
}

TEST(ProjectToml, TotalsAloneMakeAProject) {
    EXPECT_EQ(parse_project("title = 'T'\n[gauge]\nstitches = '3 per in'\nrows = '4 per in'\n"
                            "stitch = 'sc'\n[yarn.MC]\ntotal = '5 m'\n",
                            "p.toml")
                  .roles.size(),
              1U);
}

TEST(ProjectToml, MissingFile) {
    EXPECT_THAT(problems_of([] { return read_project("no/such/p.toml"); }),
                ElementsAre("no/such/p.toml: there is no such file\n"
                            "    The folder \"no/such\" is not there either."));
}

}  // namespace
}  // namespace skeinfall::exchange
