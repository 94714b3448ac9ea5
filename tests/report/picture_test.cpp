// Pictures: what they say, not how they look. PDF text is read back with pdftotext (poppler).

#include "skeinfall/report/picture.hpp"

#include <cstdint>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/joins/answer.hpp"
#include "skeinfall/report/joins.hpp"

#include "support/joins.hpp"
#include "support/outside.hpp"

namespace {

using namespace skeinfall;
using report::PictureFormat;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;

class Pictures : public ::testing::Test {
  protected:
    std::string draw(PictureFormat format) const {
        return report::joins_picture(project_, answer_, format);
    }

    project::Project project_ = exchange::read_project(SKEINFALL_SOURCE_DIR
                                                       "/sample_stash/projects/"
                                                       "ferryman-mittens.toml");
    joins::Answer answer_ = joins::answer_joins(
        project_, need::need_of(project_, 0),
        {{"MC", {support::ball("one", 100, 2), support::ball("two", 100, 2)}}}, {});
};

TEST_F(Pictures, FormatsByTheEndingOfTheName) {
    EXPECT_EQ(report::picture_format_of("a.SVG"), PictureFormat::svg);
    EXPECT_EQ(report::picture_format_of("b/c.pdf"), PictureFormat::pdf);
    EXPECT_EQ(report::picture_format_of("d.png"), PictureFormat::png);
    EXPECT_FALSE(report::picture_format_of("e.gif"));
    EXPECT_FALSE(report::picture_format_of("svg"));
}

TEST_F(Pictures, AnSvgSaysInWordsWhatTheTextSays) {
    const std::string svg = draw(PictureFormat::svg);
    EXPECT_THAT(svg, StartsWith("<?xml"));
    EXPECT_THAT(svg, HasSubstr("<title>Ferryman mittens</title>"));
    EXPECT_THAT(svg, HasSubstr("1 join: Ferryman mittens"));
    const joins::JoinPlan& plan = answer_.roles[0].plan;
    ASSERT_EQ(plan.stretches.size(), 2U);
    EXPECT_THAT(report::joins_text(project_, answer_), HasSubstr("sea green"));
    EXPECT_THAT(svg, HasSubstr("sea green"));
    EXPECT_THAT(svg, HasSubstr("</svg>"));
}

std::string text_of_pdf(const std::string& pdf) {
    return support::outside("pdftotext -layout FILE -", pdf, ".pdf");
}

TEST_F(Pictures, APdfHoldsTheFiguresAsText) {
    const std::string text = text_of_pdf(draw(PictureFormat::pdf));
    for (const char* words : {"1 join: Ferryman mittens", "cuff and hand 1", "84 rounds", "one",
                              "two", "likely to end", "stop below", "sea green, 3.9 yd", "95 %"})
        EXPECT_THAT(text, HasSubstr(words));
    const joins::Stretch& first = answer_.roles[0].plan.stretches[0];
    EXPECT_THAT(text,
                HasSubstr("after round " +
                          std::to_string(answer_.roles[0].plan.steps[first.to.step - 1].row)));
    // Beside the piece: the rows in which the skein may end, and when to stop; below, the colours
    // of both mittens.
    const auto row_of = [&](std::size_t steps) {
        return std::to_string(answer_.roles[0].plan.steps[steps - 1].row);
    };
    EXPECT_THAT(text, HasSubstr(row_of(first.earliest) + " to " + row_of(first.latest)));
    EXPECT_THAT(text, HasSubstr("stop < "));
    EXPECT_THAT(text.substr(text.find("colours as they will fall")), HasSubstr("cuff and hand 2"));
}

// A strand is carried up between the stripes: what is said of a place and where it is drawn agree.
TEST_F(Pictures, ABracketOfStripesHasTheRowsOfItsTable) {
    const project::Project shawl = exchange::parse_project(R"(
title = "Shawl"
craft = "knit"
[gauge]
stitches = "20 per 10 cm"
rows = "40 per 10 cm"
stitch = "garter"
[yarn.MC]
grist = "400 m / 100 g"
rate = "9 mm per stitch"
[yarn.CC1]
grist = "400 m / 100 g"
rate = "9 mm per stitch"
[[piece]]
name = "shawl"
stripes = [{ yarn = "MC", rows = 6 }, { yarn = "CC1", rows = 2 }]
rows = 120
stitches = 60
)",
                                                           "shawl.toml");
    const need::MakeNeed make = need::need_of(shawl, 0);
    for (double metres = 26.0; metres < 29.0; metres += 0.5) {
        answer_ = joins::answer_joins(shawl, make,
                                      {{"MC", {support::ball("a", metres), support::ball("b", 30)}},
                                       {"CC1", {support::ball("c", 90)}}},
                                      {});
        const joins::JoinPlan& plan = answer_.roles.at(0).plan;
        const joins::Stretch& first = plan.stretches.at(0);
        ASSERT_LT(first.earliest, first.latest);
        const std::string text =
            text_of_pdf(report::joins_picture(shawl, answer_, PictureFormat::pdf));
        for (const std::size_t steps : {first.earliest, first.latest})
            EXPECT_THAT(text, HasSubstr("after row " + std::to_string(plan.steps[steps - 1].row)));
        // Both yarns lie in the one shawl that is drawn, with its measures.
        const std::size_t drawn = text.find("120 rows");
        ASSERT_NE(drawn, std::string::npos) << text;
        EXPECT_EQ(text.find("120 rows", drawn + 1), std::string::npos) << text;
        EXPECT_LT(drawn, text.find("likely to end"));
    }
}

// Rows of a triangle from the nape lie along its lower edges, and are not stacked.
TEST(JoinsPicture, DrawsShapesAsTheyLie) {
    for (const char* shape : {"triangle from the nape\"\nwidth = \"150 cm\"\nlength = \"70 cm\"\n",
                              "corner to corner\"\nblocks_wide = 24\nblocks_high = 30\n"}) {
        const project::Project shawl = exchange::parse_project(std::string(R"(
title = "Shawl"
craft = "crochet"
[gauge]
stitches = "14 per 10 cm"
rows = "8 per 10 cm"
stitch = "dc"
[yarn.MC]
grist = "170 m / 100 g"
rate = "6 cm per stitch"
[[piece]]
name = "shawl"
shape = ")") + shape,
                                                               "shawl.toml");
        const joins::Answer answer =
            joins::answer_joins(shawl, need::need_of(shawl, 0),
                                {{"MC", {support::ball("a", 120), support::ball("b", 400)}}}, {});
        const std::string text =
            text_of_pdf(report::joins_picture(shawl, answer, PictureFormat::pdf));
        EXPECT_THAT(text, HasSubstr(" wide"));
        EXPECT_THAT(text, Not(HasSubstr("laid out straight")));
        EXPECT_THAT(text, HasSubstr("likely to end"));
    }
}

// An SVG numbers its images through the life of a process.
TEST_F(Pictures, TheSamePlanGivesTheSameBytes) {
    for (const PictureFormat format : {PictureFormat::pdf, PictureFormat::png})
        EXPECT_TRUE(draw(format) == draw(format));
}

TEST_F(Pictures, APngIsTwiceThePageAndNotEmpty) {
    const std::string png = draw(PictureFormat::png);
    ASSERT_THAT(png, StartsWith("\x89PNG\r\n"));
    const auto number = [&](std::size_t at) {
        unsigned value = 0;
        for (std::size_t i = 0; i < 4; ++i)
            value = value << 8U | static_cast<unsigned char>(png[at + i]);
        return value;
    };
    EXPECT_EQ(number(16), 1600U);
    EXPECT_GT(number(20), 800U);
    EXPECT_GT(png.size(), 20'000U) << "a blank page would be far smaller";
}

TEST_F(Pictures, ProjectsWithoutPiecesOrSkeinsAreDrawnToo) {
    project_.pieces.clear();
    project_.roles[0].total_length = project::PerSize<units::Length>(120.0 * units::metre);
    project_.swatches.clear();
    answer_ = joins::answer_joins(project_, need::need_of(project_, 0),
                                  {{"MC", {support::ball("one", 100)}}}, {});
    EXPECT_THAT(text_of_pdf(draw(PictureFormat::pdf)), HasSubstr("the yarn runs out"));
    answer_ = joins::answer_joins(project_, need::need_of(project_, 0), {}, {});
    EXPECT_THAT(draw(PictureFormat::svg), HasSubstr("0 joins"));
}

// A name wider than its cell was cut for ever.
TEST_F(Pictures, LongNamesAreCutAndLeaveTheOthersLegible) {
    for (const char* letter : {"w", "m ", "\xc3\xa9", "\xd8\xa8"}) {
        for (const std::size_t count : {20U, 30U, 60U, 1000U}) {
            project_.pieces[0].name.clear();
            for (std::size_t i = 0; i < count; ++i) project_.pieces[0].name += letter;
            std::vector<joins::Ball> balls{support::ball("one", 100, 2),
                                           support::ball("two", 100, 2)};
            balls[0].id = project_.pieces[0].name;
            answer_ =
                joins::answer_joins(project_, need::need_of(project_, 0), {{"MC", balls}}, {});
            const std::string text = text_of_pdf(draw(PictureFormat::pdf));
            for (const char* words : {"likely to end", "stop below", "two"})
                EXPECT_THAT(text, HasSubstr(words)) << count << " times " << letter;
        }
    }
}

TEST_F(Pictures, HostileNamesAreEscaped) {
    project_.title = "<script>&\x1b[31m";
    const std::string svg = draw(PictureFormat::svg);
    EXPECT_THAT(svg, HasSubstr("&lt;script&gt;&amp;"));
    EXPECT_EQ(svg.find("<script>"), std::string::npos);
    EXPECT_EQ(svg.find('\x1b'), std::string::npos);
}

// "#b4532a" and "#6b7a3b" in hundredths of full light, as Cairo writes them.
TEST(JoinsPicture, DrawsEveryYarnInItsOwnColour) {
    project::Project project;
    project.title = "Redshank scarf";
    joins::Answer answer;
    for (const auto& [id, shade] : {std::pair("A", "#b4532a"), std::pair("B", "#6b7a3b")}) {
        project::Role role;
        role.id = id;
        role.shade = shade;
        role.rate = units::YarnPerStitch(0.05 * units::metre / units::stitch);
        project.roles.push_back(role);
        joins::RoleJoins one;
        one.plan.role = id;
        answer.roles.push_back(one);
    }
    project::Piece piece;
    piece.name = "scarf";
    piece.stitches = project::PerSize<std::int64_t>(20);
    piece.rows = project::PerSize<std::int64_t>(8);
    piece.stripes = {{"A", 2}, {"B", 2}};
    piece.count = project::PerSize<std::int64_t>(1);
    project.gauge.stitches = 14.0 * units::stitch / (10.0 * units::centimetre);
    project.gauge.rows = 10.0 * units::row / (10.0 * units::centimetre);
    project.gauge.stitch = "sc";
    project.pieces = {piece};
    for (std::int64_t row = 1; row <= 8; ++row) {
        joins::JoinPlan& plan = answer.roles[(row - 1) / 2 % 2 == 0 ? 0 : 1].plan;
        need::Step step;
        step.role = plan.role;
        step.row = row;
        step.yarn = 1.0 * units::metre;
        plan.steps.push_back(step);
    }
    for (joins::RoleJoins& role : answer.roles) {
        joins::Stretch stretch;
        stretch.ball = support::ball("k-" + role.plan.role, 10.0);
        stretch.to = {role.plan.steps.size(), {}};
        role.plan.stretches = {stretch};
        role.plan.finishes = true;
    }
    const std::string svg = report::joins_picture(project, answer, PictureFormat::svg);
    EXPECT_THAT(svg, HasSubstr("rgb(70.588235%,32.54902%,16.470588%)"));
    EXPECT_THAT(svg, HasSubstr("rgb(41.960784%,47.843137%,23.137255%)"));
}

}  // namespace
