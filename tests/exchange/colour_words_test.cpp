#include "skeinfall/exchange/colour_words.hpp"

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/make_answers.hpp"
#include "skeinfall/exchange/make_words.hpp"
#include "skeinfall/exchange/yarn_words.hpp"
#include "skeinfall/need/need.hpp"

#include "given_answers.hpp"

namespace {

using namespace skeinfall;
using project::MakeAnswers;
using testing::HasSubstr;

std::string asked_about(const MakeAnswers& given) {
    try {
        static_cast<void>(exchange::project_of_answers(given, {}));
    } catch (const base::InputError& error) {
        return error.problems().front().place.file;
    }
    return "nothing";
}

TEST(ColourWords, StripesInAnyOrderOfWords) {
    for (const std::string text :
         {"rust 6, sand 4", "6 rust, 4 sand", "rust 6 rows; sand 4 rows",
          "6 rows of rust, 4 rows sand", "rust 6 , sand 4 rounds", "6 rounds rust; 4 of sand",
          "rust 6 and sand 4", "rust 6 / sand 4", "rust: 6, sand: 4", "rust 6 & sand 4 rows"}) {
        const auto stripes = exchange::parse_stripes(text);
        ASSERT_TRUE(stripes.ok()) << text << ": " << to_text(stripes.problem());
        ASSERT_EQ(stripes->size(), 2U) << text;
        EXPECT_EQ((*stripes)[0].colour, "rust") << text;
        EXPECT_EQ((*stripes)[0].rows, 6) << text;
        EXPECT_EQ((*stripes)[1].colour, "sand") << text;
        EXPECT_EQ((*stripes)[1].rows, 4) << text;
    }
    EXPECT_EQ(exchange::parse_stripes("dark green 3").value().front().colour, "dark green");
    EXPECT_EQ(exchange::parse_stripes("no. 12 3").value().front().colour, "no. 12");
    for (const std::string text :
         {"", "rust", "6", "rust 0, sand 4", "rust -2", "rust six", "rust 6,, sand 4", "rust 2.5",
          "rust 6 sand 4", "rust 6 x 3, sand 4"})
        EXPECT_FALSE(exchange::parse_stripes(text).ok()) << text;
}

TEST(ColourWords, EachColourIsOneYarn) {
    const auto roles =
        exchange::colour_roles(exchange::parse_stripes("rust 6, sand 4, Rust 2, moss 1").value());
    ASSERT_EQ(roles.size(), 3U);
    EXPECT_EQ(roles[0].id, "MC");
    EXPECT_EQ(roles[2].id, "CC2");
    EXPECT_EQ(exchange::role_of(roles, "SAND"), "CC1");
    EXPECT_EQ(exchange::role_of(roles, "teal"), "");
    const auto named =
        exchange::colour_roles(exchange::parse_stripes("rust 6, mc 4, cc2 1, sand 3").value());
    ASSERT_EQ(named.size(), 4U);
    EXPECT_EQ(exchange::role_of(named, "MC"), "MC");
    EXPECT_EQ(exchange::role_of(named, "rust"), "CC1");
    EXPECT_EQ(exchange::role_of(named, "sand"), "CC3");
    EXPECT_EQ(exchange::role_of(named, "CC2"), "CC2");
}

TEST(ColourWords, RunsOfAColourChangingYarn) {
    const auto runs = exchange::parse_colour_runs("sea green 3,9 m, sand 2.5 m").value();
    ASSERT_EQ(runs.size(), 2U);
    EXPECT_EQ(runs[0].colour, "sea green");
    EXPECT_EQ(runs[0].length, "3,9 m");
    for (const std::string text :
         {"", "sand 2 m", "sand, slate", "2 m, 3 m", "sand 2 g, slate 3 g"})
        EXPECT_FALSE(exchange::parse_colour_runs(text).ok()) << text;
}

TEST(ColourWords, YarnAtHandSaysItsColour) {
    yarn::Yarn like;
    EXPECT_EQ(
        exchange::parse_having("rust: 3 balls of 120 m", like, "", 1).value().front().colourway,
        "rust");
    const auto behind = exchange::parse_having("3 balls of 120 m in sea green", like, "sand", 1);
    ASSERT_TRUE(behind.ok());
    EXPECT_EQ(behind->size(), 3U);
    EXPECT_EQ(behind->front().colourway, "sea green");
    EXPECT_EQ(exchange::parse_having("a ball of 120 m", like, "sand", 1).value().size(), 1U);
    EXPECT_EQ(exchange::parse_having("ball of 120 m", like, "sand", 1).value().front().colourway,
              "sand");
    EXPECT_EQ(
        exchange::parse_having("CC1: 3 balls of 120 m", like, "", 1).value().front().colourway,
        "CC1");
    EXPECT_FALSE(exchange::parse_having("balls of 120 m", like, "", 1).ok());
    EXPECT_FALSE(exchange::parse_having("rust: ", like, "", 1).ok());
}

/// What a stripe takes does not hang on how its yarn is named.
TEST(ColourWords, StripesShareTheNeedByTheirRows) {
    const auto project =
        exchange::project_of_answers(exchange::answers({{"make", "100 hdc x 100 rows"},
                                                        {"gauge", "14 sts and 10 rows per 10 cm"},
                                                        {"swatch", "rust: 15 x 15 cm, 14 g"},
                                                        {"swatch", "moss: 15 x 15 cm, 14 g"},
                                                        {"label", "170 yd / 100 g"},
                                                        {"label", "moss: 85 yd / 100 g"},
                                                        {"stripes", "rust 3, moss 1"}}),
                                     {})
            .project;
    ASSERT_EQ(project.roles.size(), 2U);
    EXPECT_EQ(project.roles[1].colour, "moss");
    const auto need = need::need_of(project, 0);
    const double rust = need.roles[0].length.centre.value();
    const double moss = need.roles[1].length.centre.value();
    // A quarter of the rows, and half the length for the same weight; foundation and ends besides.
    EXPECT_NEAR(moss / rust, 1.0 / 6.0, 0.02);
}

TEST(ColourWords, MistakesNameTheQuestion) {
    const auto make = std::pair<std::string, std::string>{"make", "100 hdc x 100 rows"};
    const auto gauge = std::pair<std::string, std::string>{"gauge", "14 sts and 10 rows per 10 cm"};
    EXPECT_EQ(asked_about(exchange::answers({make, gauge, {"class", "4"}, {"stripes", "rust"}})),
              "stripes");
    EXPECT_EQ(asked_about(exchange::answers(
                  {make, gauge, {"class", "4"}, {"stripes", "rust 1"}, {"colour", "moss"}})),
              "stripes");
    EXPECT_EQ(asked_about(exchange::answers(
                  {make, gauge, {"stripes", "rust 1, moss 2"}, {"total", "380 yd"}})),
              "total");
    EXPECT_EQ(asked_about(exchange::answers({make,
                                             gauge,
                                             {"swatch", "15 x 15 cm, 14 g"},
                                             {"stripes", "rust 1, moss 2"},
                                             {"label", "teal: 170 yd / 100 g"}})),
              "label");
    EXPECT_EQ(
        asked_about(exchange::answers({make, gauge, {"class", "4"}, {"changes", "sand 2 m"}})),
        "changes");
    EXPECT_EQ(asked_about(exchange::answers({make, gauge, {"class", "4"}, {"multiple", "odd"}})),
              "multiple");
    EXPECT_EQ(asked_about(exchange::answers({make, gauge, {"class", "4"}, {"edge", "sharp"}})),
              "edge");
    EXPECT_EQ(asked_about(exchange::answers({make, gauge, {"class", "4"}, {"ends", "long"}})),
              "ends");
}

/// Stripes written out in any of their forms read as they were meant.
RC_GTEST_PROP(ColourWords, WritingAndReadingAgree, ()) {
    static const std::vector<std::string> colours{"rust", "sea green", "no. 12", "dark-blue", "MC"};
    static const std::vector<std::string> forms{"{c} {n}", "{n} {c}", "{n} rows of {c}",
                                                "{c} {n} rows", "{n} rounds {c}"};
    const auto count = *rc::gen::inRange(1, 8);
    std::string text;
    std::vector<std::pair<std::string, std::int64_t>> meant;
    for (int i = 0; i < count; ++i) {
        const std::string colour = *rc::gen::elementOf(colours);
        std::string form = *rc::gen::elementOf(forms);
        const int rows = *rc::gen::inRange(1, 200);
        // A colour that ends in a figure comes before its rows.
        if (colour == "no. 12") form = "{c} {n}";
        form.replace(form.find("{c}"), 3, colour);
        form.replace(form.find("{n}"), 3, std::to_string(rows));
        text +=
            (i == 0 ? "" : *rc::gen::elementOf(std::vector<std::string>{", ", "; ", " ,"})) + form;
        meant.emplace_back(colour, rows);
    }
    const auto read = exchange::parse_stripes(text);
    if (!read) RC_FAIL(text + ": " + to_text(read.problem()));
    RC_ASSERT(read->size() == meant.size());
    const auto roles = exchange::colour_roles(*read);
    for (std::size_t i = 0; i < meant.size(); ++i) {
        RC_ASSERT((*read)[i].colour == meant[i].first);
        RC_ASSERT((*read)[i].rows == meant[i].second);
        RC_ASSERT(!exchange::role_of(roles, meant[i].first).empty());
    }
    for (std::size_t i = 0; i < roles.size(); ++i)
        for (std::size_t j = 0; j < i; ++j) RC_ASSERT(roles[i].id != roles[j].id);
}

/// Whatever is written is read or refused, and in no long time.
RC_GTEST_PROP(ColourWords, AnyTextIsReadOrRefused, ()) {
    const auto words =
        *rc::gen::container<std::vector<std::string>>(rc::gen::elementOf(std::vector<std::string>{
            "1", "12", " ", "   ", "x", "to", "of", "in", "sts", "rows", "cm", "pair of", ":", ",",
            "rust", "2 mitts", "more every", "UK ", "/"}));
    const std::string text = base::join(words, "");
    static_cast<void>(exchange::parse_piece(text));
    static_cast<void>(exchange::parse_stripes(text));
    static_cast<void>(exchange::parse_colour_runs(text));
    static_cast<void>(exchange::parse_having(text, {}, "", 1));
    const exchange::OfColour said = exchange::of_colour(text);
    RC_ASSERT(said.text.size() <= text.size());
}

TEST(ColourWords, AYarnMayBeCalledByALetterAndANumber) {
    EXPECT_EQ(exchange::of_colour("Y1: 3 balls of 50 g").colour, "Y1");
    EXPECT_EQ(exchange::of_colour("rust: 3 balls of 50 g").colour, "rust");
    EXPECT_EQ(exchange::of_colour("3 balls of 50 g: rust").colour, "");
}

TEST(ColourWords, LongBlanksTakeNoTime) {
    for (const std::string& text :
         {"1" + std::string(190, ' ') + "x 4 rows", "mitts" + std::string(180, ' ') + "1 x 2 cm",
          "1 " + std::string(90, 'a') + std::string(90, ' ') + " to 2 in x 3"})
        static_cast<void>(exchange::parse_piece(text));
}

/// Who counts one mitten when two are made is told "enough" wrongly.
TEST(Counts, PairsAreTwo) {
    struct Known {
        std::string text;
        std::int64_t count;
        std::string name;
        bool pair;
    };
    const std::vector<Known> known{{"2 mitts: 40 sts x 60 rounds", 2, "mitts", false},
                                   {"pair of mitts: 40 sts x 60 rounds", 2, "mitts", false},
                                   {"a pair of mitts, 40 sts x 60 rounds", 2, "mitts", false},
                                   {"3 pairs of socks: 60 sts x 90 rounds", 6, "socks", false},
                                   {"Two sleeves of 40 sts x 60 rows", 2, "sleeves", false},
                                   {"mittens: 40 sts x 60 rounds", 2, "mittens", true},
                                   {"1 mitten: 40 sts x 60 rounds", 1, "mitten", false},
                                   {"1 mittens: 40 sts x 60 rounds", 1, "mittens", false},
                                   {"mitten: 40 sts x 60 rounds", 1, "mitten", false},
                                   {"20 squares: 6 x 6 in", 20, "squares", false},
                                   {"20 squares 6 x 6 in", 20, "squares", false},
                                   {"6 month hat: 80 sts x 40 rounds", 1, "6 month hat", false},
                                   {"12 inch square: 40 sts x 40 rows", 1, "12 inch square", false},
                                   {"2nd front: 40 sts x 40 rows", 1, "2nd front", false},
                                   {"scarf 8 in x 60 in", 1, "scarf", false},
                                   {"scarf of 33 hdc x 96 rows", 1, "scarf", false}};
    for (const Known& one : known) {
        const auto piece = exchange::parse_piece(one.text);
        ASSERT_TRUE(piece.ok()) << one.text << ": " << to_text(piece.problem());
        EXPECT_EQ(piece->count, one.count) << one.text;
        EXPECT_EQ(piece->name, one.name) << one.text;
        EXPECT_EQ(piece->pair, one.pair) << one.text;
    }
    const auto asked = exchange::project_of_answers(
        exchange::answers({{"make", "mitts: 40 sts x 60 rounds"}, {"total", "120 yd"}}), {});
    ASSERT_EQ(asked.assumed.size(), 1U);
    EXPECT_THAT(asked.assumed.front().what, HasSubstr("come in pairs"));
}

TEST(Counts, PiecesThatTaper) {
    const auto sleeve = exchange::parse_piece("sleeve: 9 to 12 in x 10.5 in").value();
    EXPECT_EQ(sleeve.width, "9 in");
    EXPECT_EQ(sleeve.last_width, "12 in");
    EXPECT_EQ(sleeve.length, "10.5 in");
    const auto counted = exchange::parse_piece("40 to 60 sts x 50 rows").value();
    EXPECT_EQ(counted.stitches, 40);
    EXPECT_EQ(counted.last_stitches, 60);
    EXPECT_EQ(exchange::parse_piece("2 caps of 12 in to 4.25 in x 5 in").value().count, 2);
    for (const std::string text : {"40 sts x 50 to 60 rows", "9 to 12 in x 10 to 11 in",
                                   "40 to 60 sts x 50 rows, 1 more every row", "9 to 12 x 10"})
        EXPECT_FALSE(exchange::parse_piece(text).ok()) << text;
}

TEST(Terms, AStitchMaySayWhoseNameItIs) {
    const auto of = [](const std::string& make, const std::string& stitch) {
        return exchange::project_of_answers(
                   exchange::answers({{"make", make},
                                      {"stitch", stitch},
                                      {"gauge", "14 sts and 10 rows per 10 cm"},
                                      {"class", "4"}}),
                   {})
            .project;
    };
    const auto uk = of("40 sts x 60 rows", "UK treble");
    const auto us = of("40 sts x 60 rows", "US dc");
    EXPECT_EQ(uk.terms, project::Terms::uk);
    EXPECT_EQ(us.terms, project::Terms::us);
    EXPECT_NEAR(need::need_of(uk, 0).roles.front().length.centre.value(),
                need::need_of(us, 0).roles.front().length.centre.value(), 1e-9);
    EXPECT_EQ(asked_about(exchange::answers({{"make", "40 UK dc x 60 rows"},
                                             {"gauge", "14 US sc and 10 rows per 10 cm"},
                                             {"class", "4"}})),
              "gauge");
}

}  // namespace
