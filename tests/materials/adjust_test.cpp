// The paragraph on wider and longer, one total over a grid, and yarn for a class. Worked by hand.

#include "skeinfall/materials/adjust.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/materials/class_of.hpp"
#include "skeinfall/materials/lint.hpp"
#include "skeinfall/report/materials.hpp"

namespace {

using namespace skeinfall;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

project::Project scarf(const std::string& yarn, const std::string& piece,
                       const std::string& top = "") {
    project::Project out = exchange::parse_project(top + R"(title = "Reed scarf"
craft = "crochet"
[gauge]
stitches = "3 per in"
rows = "2 per in"
stitch = "sc"
[yarn.MC]
class = 4
grist = "170 yd / 3.5 oz"
)" + yarn + "[[piece]]\nname = \"scarf\"\nfoundation_rows = 0\nbind_off_rows = 0\n" +
                                                       piece,
                                                   "reed.toml");
    out.totals_for.of.reset();  // the middle, which is what its rows and rates come to
    return out;
}

const char* const rate = "rate = \"2.9 in per stitch\"\n";

// A repeat more: 3 stitches in 80 rows are 240 x 2.9 in, 19.33 yd. An inch more: 2 rows of 19
// stitches are 38 x 2.9 in, 3.06 yd. Yarn goes up, counts are exact.
TEST(Adjust, EachRepeatWiderAndEachInchLonger) {
    const materials::Section section =
        materials::section_of(scarf(rate, "stitches = 19\nrows = 80\nmultiple = \"3 + 1\"\n"));
    ASSERT_TRUE(section.adjust);
    EXPECT_EQ(section.adjust->stitches, 3);
    EXPECT_EQ(section.adjust->rows, 2);
    EXPECT_NEAR(section.adjust->wider / units::inch, 1.0, 1e-9);
    EXPECT_NEAR(section.adjust->yarns.at(0).for_width.at(0) / units::yard, 240 * 2.9 / 36.0, 1e-6);
    EXPECT_NEAR(section.adjust->yarns[0].for_length.at(0) / units::yard, 38 * 2.9 / 36.0, 1e-6);
    const std::string text = report::materials_text(section, report::Markup::plain);
    EXPECT_THAT(text, HasSubstr("Wider or longer\n"));
    EXPECT_THAT(text, HasSubstr("scarf: for each repeat wider, 1 in (2.5 cm), add 3 chains and "
                                "about 20 yd / 18 m"));
    EXPECT_THAT(text, HasSubstr("scarf: for each 1 in (2.5 cm) longer add 2 rows and about 4 yd / "
                                "3 m"));
}

// Sides that go on from a crown begin without a chain: 8 stitches more, and a round more above.
TEST(Adjust, LiveStitchesHaveNoChains) {
    const materials::Section section = materials::section_of(exchange::parse_project(
        R"(title = "Reed hat"
craft = "crochet"
[gauge]
stitches = "4 per in"
rows = "2 rounds per in"
stitch = "dc"
[yarn.MC]
class = 4
grist = "170 yd / 3.5 oz"
rate = "2.9 in per stitch"
[[piece]]
name = "crown"
worked = "round"
shape = "circle"
stitches = 8
increase = 8
rows = 8
[[piece]]
name = "sides"
worked = "round"
stitches = 64
rows = 20
foundation_rows = 0
)",
        "reed.toml"));
    ASSERT_TRUE(section.adjust);
    EXPECT_TRUE(section.adjust->on_live_stitches);
    EXPECT_TRUE(section.in_rounds);
    const std::string text = report::materials_text(section, report::Markup::plain);
    EXPECT_THAT(text, HasSubstr("sides: for each repeat wider, 2 in (5.1 cm), work 8 stitches more "
                                "and about "));
    EXPECT_THAT(text, HasSubstr("Add 1 to the rounds of crown for each of them."));
    EXPECT_THAT(text, HasSubstr("16 sts and 8 rounds to 4 in"));
    EXPECT_THAT(text, ::testing::Not(HasSubstr("chains")));
}

// Every line as it was written is right, and a changed figure is found where it stands.
TEST(Adjust, CheckComparesIt) {
    const materials::Section section =
        materials::section_of(scarf(rate, "stitches = 19\nrows = 80\nmultiple = \"3 + 1\"\n"));
    const std::string text = report::materials_text(section, report::Markup::markdown);
    EXPECT_THAT(materials::lint(text, "section.md", &section), IsEmpty());
    for (const auto& [right, wrong] : {std::pair{"add 3 chains", "add 4 chains"},
                                       std::pair{"about 20 yd / 18 m", "about 26 yd / 24 m"},
                                       std::pair{"add 2 rows", "add 3 rows"}}) {
        std::string changed = text;
        const std::size_t at = changed.find(right);
        ASSERT_NE(at, std::string::npos) << right;
        changed.replace(at, std::string(right).size(), wrong);
        EXPECT_FALSE(materials::lint(changed, "section.md", &section).empty()) << wrong;
    }
}

// A back is not made wider without its front: both together take twice as much.
TEST(Adjust, PiecesOfOneWidthGoTogether) {
    const std::string front =
        "[[piece]]\nname = \"front\"\nfoundation_rows = 0\nbind_off_rows = 0\nstitches = 19\nrows "
        "= "
        "80\nmultiple = \"3 + 1\"\n";
    const materials::Section section = materials::section_of(
        scarf(rate, "stitches = 19\nrows = 80\nmultiple = \"3 + 1\"\n" + front));
    ASSERT_TRUE(section.adjust);
    EXPECT_THAT(section.adjust->alike, testing::ElementsAre("front"));
    EXPECT_NEAR(section.adjust->yarns.at(0).for_width.at(0) / units::yard, 2 * 240 * 2.9 / 36.0,
                1e-6);
    EXPECT_THAT(report::materials_text(section, report::Markup::plain),
                HasSubstr("scarf and front, each: for each repeat wider"));
}

const char* const grid_lines =
    "widths = [\"6 in\", \"8 in\"]\nlengths = [\"30 in\", \"40 in\", \"50 in\"]\n";

// 18 or 24 stitches by 60, 80 or 100 rows. The total is the smallest size's, 1080 stitches, where
// nobody says whose it is; else of 24 x 80 = 1920.
TEST(Grid, OneTotalIsSharedByStitches) {
    const auto yards = [](const project::Project& project, std::size_t size) {
        return project.roles.at(0).total_length.at(size) / units::yard;
    };
    const project::Project assumed = scarf("total = \"108 yd\"\n", "", grid_lines);
    EXPECT_TRUE(assumed.roles[0].total_size_assumed);
    EXPECT_NEAR(yards(assumed, 0), 108.0, 1e-9);
    EXPECT_NEAR(yards(assumed, 1), 144.0, 1e-9);
    EXPECT_NEAR(yards(assumed, 5), 240.0, 1e-9);
    const project::Project said =
        scarf("total = \"192 yd\"\ntotal_for_size = \"8 in x 40 in\"\n", "", grid_lines);
    EXPECT_FALSE(said.roles[0].total_size_assumed);
    EXPECT_NEAR(yards(said, 4), 192.0, 1e-9);
    EXPECT_NEAR(yards(said, 0), 108.0, 1e-9);
    EXPECT_THROW(
        static_cast<void>(scarf("total = \"192 yd\"\ntotal_for_size = \"huge\"\n", "", grid_lines)),
        base::InputError);
}

TEST(Grid, ASectionHasALineALength) {
    const materials::Section section = materials::section_of(scarf(rate, "", grid_lines));
    const std::string text = report::materials_text(section, report::Markup::plain);
    // 18 x 60 x 2.9 in are 87 yd; 24 x 60 are 116 yd, to the next 5.
    EXPECT_THAT(text, HasSubstr("MC, 30 in long: 87 (120) yd / 80 (110) m"));
    EXPECT_THAT(text, HasSubstr("6 in (8 in) wide by 30 in (40 in, 50 in) long"));
    EXPECT_THAT(materials::lint(text, "section.txt", &section), IsEmpty());
    std::string changed = text;
    changed.replace(changed.find("87 (120) yd"), 11, "97 (120) yd");
    EXPECT_FALSE(materials::lint(changed, "section.txt", &section).empty());
    // 3 x 60 x 2.9 in are 14.5 yd, 3 x 80 are 19.3 and 3 x 100 are 24.2: one figure a length. Two
    // rows of 18 and of 24 stitches are 2.9 and 3.9 yd: one a width.
    EXPECT_THAT(text, HasSubstr("about 15 (20, 25) yd / 14 (18, 23) m, by length"));
    EXPECT_THAT(text, HasSubstr("about 3 (4) yd / 3 (4) m, by width"));
    changed = text;
    changed.replace(changed.find("15 (20, 25) yd"), 14, "15 (26, 25) yd");
    EXPECT_FALSE(materials::lint(changed, "section.txt", &section).empty());
    const report::MaterialsDocument document = report::materials_document(section);
    ASSERT_TRUE(document.table);
    EXPECT_EQ(document.table->sizes.size(), 2U);
    EXPECT_EQ(document.table->rows.size() % 3, 0U);
}

// A rate of others' hands scatters by 8 %. Twelve makers are all within what one is within at
// 0.95^(1/12): 2.6303 deviations, e^(2.6303 x 0.08) times the middle.
TEST(ClassOf, TwelveHandsNobodyKnows) {
    const project::Project project = scarf(rate, "stitches = 19\nrows = 80\n");
    const auto yarns = materials::class_of(project, 0, 12, {units::Ratio(0.95)});
    ASSERT_EQ(yarns.size(), 1U);
    const double spread = materials::section_of(project).yarns.at(0).spread.at(0).value();
    EXPECT_NEAR(yarns[0].each / yarns[0].middle, std::exp(2.6303 * spread), 2e-3);
    ASSERT_TRUE(yarns[0].skeins_each);
    EXPECT_EQ(*yarns[0].skeins_all, 12 * *yarns[0].skeins_each);
    const auto one = materials::class_of(project, 0, 1, {units::Ratio(0.95)});
    EXPECT_LT(one[0].each, yarns[0].each);
}

}  // namespace
