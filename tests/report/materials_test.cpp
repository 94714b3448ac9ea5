// The materials section in words, plain and as Markdown.

#include "skeinfall/report/materials.hpp"

#include <cctype>
#include <cstdint>
#include <regex>
#include <set>
#include <sstream>
#include <stdexcept>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/report/detail/figures.hpp"
#include "skeinfall/report/detail/materials_blocks.hpp"

#include "support/builders.hpp"
#include "support/hostile.hpp"

namespace {

using namespace skeinfall;
using report::Markup;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;
using units::metre;

project::Project vest() {
    project::Project out = support::rectangle(0, 0);
    out.title = "Skerry vest";
    out.sizes = {"S", "M", "L"};
    out.skill = "easy";
    out.gauge.stitches = 3.0 * units::stitch / units::inch;
    out.pieces[0].name = "body";
    out.pieces[0].rows.values = {80, 90, 100};
    out.pieces[0].stitches.values = {60, 66, 72};
    out.pieces[0].count = project::PerSize<std::int64_t>(2);
    out.roles[0].rate = units::YarnPerStitch(0.1 * metre / units::stitch);
    out.roles[0].grist = support::grist("200 m / 100 g");
    out.roles[0].name = "Kelpie";
    out.roles[0].colour = "Slate";
    out.roles[0].weight = yarn::WeightClass{4};
    out.roles[0].fibre = support::fibre("80% wool 20% nylon");
    out.gauge.hook = 5.0 * units::millimetre;
    out.notions = {"tapestry needle"};
    out.care = {"wash by hand"};
    out.margin = units::Ratio(0.1);
    out.totals_for.of.reset();
    return out;
}

std::string text_of(const project::Project& project, Markup markup) {
    return report::materials_text(materials::section_of(project), markup);
}

TEST(MaterialsText, EverySizeInBrackets) {
    const std::string text = text_of(vest(), Markup::plain);
    EXPECT_THAT(text, StartsWith("Skerry vest: materials\n"));
    EXPECT_THAT(text, HasSubstr("  S (M, L)\n"));
    // 3 sts and 2 rows to the inch: 60, 66, 72 sts are 20, 22, 24 in; 80, 90, 100 rows 40, 45, 50.
    EXPECT_THAT(text, HasSubstr("2 x body: 20 (22, 24) in / 51 (56, 61) cm wide, "
                                "40 (45, 50) in / 102 (114, 127) cm long"));
    EXPECT_THAT(text, HasSubstr("MC: Kelpie in Slate, class 4 (Medium), 80 % wool, 20 % nylon, "
                                ""
                                "200 m (219 yd) per 100 g (3.53 oz) skein"));
    // 2 x (80 x 60, 90 x 66, 100 x 72) x .1 m and 10 %: 1056, 1306.8, 1584 m, which are 1154.9,
    // 1429.1, 1732.3 yd; each up to the next 5. Ends are a matter of the skeins.
    EXPECT_THAT(text,
                HasSubstr("1155 (1430, 1735) yd / 1060 (1310, 1585) m; 6 (7, 8) skeins, all of one "
                          "dye lot"));
    EXPECT_THAT(text, HasSubstr("Then 10 % more on each yarn and size"));
    EXPECT_THAT(text, HasSubstr("12 sts and 8 rows to 4 in"));
    EXPECT_THAT(text, HasSubstr("Written in US crochet terms."));
    EXPECT_THAT(text, HasSubstr("hook 5 mm (US H-8), or size needed for gauge"));
    EXPECT_THAT(text, HasSubstr("Craft Yarn Council's www.YarnStandards.com"));
}

TEST(MaterialsText, OneSizeHasNoBrackets) {
    project::Project project = vest();
    project.sizes.clear();
    project.pieces[0].rows = project::PerSize<std::int64_t>(80);
    project.pieces[0].stitches = project::PerSize<std::int64_t>(60);
    project.roles[0].weight.reset();
    const std::string text = text_of(project, Markup::plain);
    EXPECT_THAT(text, Not(HasSubstr("Sizes")));
    EXPECT_THAT(text, HasSubstr("1155 yd / 1060 m; 6 skeins"));
    EXPECT_THAT(text, HasSubstr("Hook and needle labels. Source: Craft Yarn Council's "))
        << "a hook's label is theirs too";
    project.gauge.hook.reset();
    EXPECT_THAT(text_of(project, Markup::plain), Not(HasSubstr("YarnStandards")))
        << "no label, no credit";
}

// Common rulers: sixteenths or eighths of an inch, millimetres.
TEST(MaterialsText, MeasuresAreThoseOfARuler) {
    using report::ruler_centimetres;
    using report::ruler_inches;
    const auto mm = units::millimetre;
    EXPECT_EQ(ruler_centimetres(0.2 * mm), "0.1") << "never nothing";
    EXPECT_EQ(ruler_inches(0.2 * mm), "0.125");
    EXPECT_EQ(ruler_centimetres(6.4 * mm), "0.6");
    EXPECT_EQ(ruler_inches(6.4 * mm), "0.25");
    EXPECT_EQ(ruler_centimetres(99.4 * mm), "9.9");
    EXPECT_EQ(ruler_inches(99.4 * mm), "3.875");
    EXPECT_EQ(ruler_centimetres(1502.0 * mm), "150");
    EXPECT_EQ(ruler_inches(1502.0 * mm), "59.25");
    EXPECT_EQ(ruler_inches(units::Length{}), "0");
}

TEST(MaterialsText, WhatIsWorkedInRoundsIsCountedInRounds) {
    project::Project project = vest();
    project.pieces[0].worked = project::Worked::round;
    EXPECT_THAT(text_of(project, Markup::plain), HasSubstr("12 sts and 8 rounds to 4 in (10 cm)"));
    project.pieces.push_back(project.pieces[0]);
    project.pieces[1].worked = project::Worked::flat;
    EXPECT_THAT(text_of(project, Markup::plain), HasSubstr("12 sts and 8 rows to 4 in (10 cm)"));
}

// Grams only in brackets: 200 m per 100 g = 218.7 yd per 3.5274 oz = 62.0 yd per oz.
TEST(MaterialsText, ImperialHasGramsInBracketsOnly) {
    report::Style style;
    style.numbers.systems = units::Systems::imperial;
    const std::string text =
        report::materials_text(materials::section_of(vest()), Markup::plain, style);
    EXPECT_THAT(text, HasSubstr("about 62 yd per oz (220 yd per 100 g)"));
    std::string outside;
    int depth = 0;
    for (const char c : text) {
        if (c == '(') ++depth;
        if (depth == 0) outside += c;
        if (c == ')') --depth;
    }
    EXPECT_FALSE(std::regex_search(outside, std::regex("[0-9] g\\b"))) << outside;
}

TEST(MaterialsText, MarkdownHasHeadingsAndLists) {
    const std::string text = text_of(vest(), Markup::markdown);
    EXPECT_THAT(text, StartsWith("# Skerry vest: materials\n\n## Sizes\n\n- S (M, L)\n"));
    EXPECT_THAT(text, HasSubstr("\n## Care\n\n- wash by hand\n"));
}

/// A vest with one text wherever a file can put it.
project::Project vest_saying(const std::string& text) {
    project::Project out = vest();
    out.title = text;
    out.sizes = {text, text + "2", text + "3"};
    out.skill = text;
    out.pieces[0].name = text;
    out.pieces[0].role = text;
    out.pieces[0].count = {};
    out.roles[0].id = text;
    out.roles[0].name = text;
    out.roles[0].colour = text;
    out.roles[0].fibre.shares = {{"acrylic " + text, units::Ratio(1.0)}};
    out.gauge.stitch = text;
    out.notions = {text};
    out.care = {text};
    out.made_for = project::Recipient::kitchen_heat;
    return out;
}

/// Characters that mean something to CommonMark anywhere in a line and are not escaped.
std::string bare_markup(const std::string& markdown) {
    std::string out;
    for (std::size_t i = 0; i < markdown.size(); ++i) {
        if (markdown[i] == '\\')
            ++i;
        else if (std::string_view("`*_[]<>|&~").find(markdown[i]) != std::string_view::npos)
            out += markdown[i];
    }
    return out;
}

/// Lines that begin a block within their list item or heading: a further list, heading, quote,
/// rule or code.
std::string nested_block(const std::string& markdown) {
    std::istringstream lines(markdown);
    for (std::string line; std::getline(lines, line);) {
        std::string_view rest = line;
        for (const std::string_view start : {"- ", "# ", "## "})
            if (rest.starts_with(start)) {
                rest.remove_prefix(start.size());
                break;
            }
        if (rest.empty()) continue;
        if (std::string_view("#+-=> \t").find(rest.front()) != std::string_view::npos) return line;
        const std::size_t digits = rest.find_first_not_of("0123456789");
        if (digits != 0 && digits != std::string_view::npos &&
            (rest[digits] == '.' || rest[digits] == ')') &&
            (digits + 1 == rest.size() || rest[digits + 1] == ' '))
            return line;
    }
    return {};
}

TEST(MaterialsText, UserTextIsNeverMarkup) {
    const auto lines_of_plain_words = [] {
        const std::string text = text_of(vest_saying("word"), Markup::markdown);
        return std::count(text.begin(), text.end(), '\n');
    }();
    for (const std::string& hostile : support::markup) {
        const std::string text = text_of(vest_saying(hostile), Markup::markdown);
        EXPECT_EQ(bare_markup(text), "") << hostile << "\n" << text;
        EXPECT_EQ(nested_block(text), "") << hostile;
        EXPECT_EQ(std::count(text.begin(), text.end(), '\n'), lines_of_plain_words) << hostile;
    }
}

TEST(MaterialsText, MarkdownShowsWhatWasWritten) {
    const std::string text = text_of(vest_saying("1. <b> a_b"), Markup::markdown);
    EXPECT_THAT(text, HasSubstr("- 1\\. \\<b\\> a\\_b\n"));
    EXPECT_THAT(text_of(vest_saying("1. <b> a_b"), Markup::plain), HasSubstr("  1. <b> a_b\n"));
}

TEST(MaterialsText, NothingSteersTheTerminal) {
    for (const Markup markup : {Markup::plain, Markup::markdown})
        EXPECT_TRUE(support::is_inert(text_of(vest_saying(support::steering), markup)));
}

/// 18 sts and 24 rows to 10 cm, two pieces, .045 m a stitch; the second goes on from the first, so
/// that no end is begun anew; 10 % on top.
project::Project six_sizes() {
    project::Project out = vest();
    out.sizes = {"XS", "S", "M", "L", "XL", "2XL"};
    out.gauge.stitches = 18.0 * units::stitch / (10.0 * units::centimetre);
    out.gauge.rows = 24.0 * units::row / (10.0 * units::centimetre);
    out.gauge.stitch = "sc";
    out.pieces[0].stitches.values = {90, 100, 110, 120, 130, 140};
    out.pieces[0].rows.values = {120, 124, 128, 132, 136, 140};
    out.roles[0].rate = units::YarnPerStitch(0.045 * metre / units::stitch);
    out.roles[0].grist = support::grist("175 yd / 100 g");
    return out;
}

// Every conversion of a six-size section by hand. 2 x sts x rows x .045 m x 1.1: 1069.20, 1227.60,
// 1393.92, 1568.16, 1750.32, 1940.40 m; over .9144 m: 1169.29, 1342.52, 1524.41, 1714.96, 1914.17,
// 2122.05 yd; each up to the next 5. From the printed metres the yards would be 1175, 1350, 1530,
// 1720, 1920, 2130. Skeins of 175 yd are 160.02 m less .3 m of ends: 6.69, 7.69, 8.73, 9.82, 10.96,
// 12.15; but joined at row ends a skein of 159.72 m holds 24 rows of 6.44 m (size L), so that 11
// are needed for 264 rows, and 12 for the 272 of 6.93 m (XL). Widths sts / 1.8 cm:
// 50, 55.56, 61.11, 66.67, 72.22, 77.78, over 2.54 cm: 19.69, 21.87, 24.06, 26.25, 28.43, 30.62 in;
// lengths rows / 2.4 cm: 50, 51.67, 53.33, 55, 56.67, 58.33: 19.69,
// 20.34, 21.00, 21.65, 22.31, 22.97 in. Per 4 in 18 x 1.016 = 18.29 sts, 24.38 rows. 100 g /
// 28.3495 g = 3.527 oz.
TEST(MaterialsText, EveryConversionOfSixSizes) {
    const std::string text = text_of(six_sizes(), Markup::plain);
    EXPECT_THAT(text, HasSubstr("XS (S, M, L, XL, 2XL)\n"));
    EXPECT_THAT(text, HasSubstr("MC total: 1170 (1345, 1525, 1715, 1915, 2125) yd / "
                                "1070 (1230, 1395, 1570, 1755, 1945) m; "
                                "7 (8, 9, 11, 12, 13) skeins, all of one dye lot\n"));
    EXPECT_THAT(text, HasSubstr("2 x body: 19.75 (21.75, 24, 26.25, 28.5, 30.5) in / "
                                "50 (56, 61, 67, 72, 78) cm wide, "
                                "19.75 (20.25, 21, 21.75, 22.25, 23) in / "
                                "50 (52, 53, 55, 57, 58) cm long\n"));
    EXPECT_THAT(text, HasSubstr("18 sts and 24 rows to 10 cm (4 in)"));
    EXPECT_THAT(text, HasSubstr("175 yd (160 m) per 100 g (3.53 oz) skein"));
    EXPECT_THAT(text, HasSubstr("about 175 yd per 100 g (160 m per 100 g)"));
}

TEST(MaterialsText, OneSystemOnly) {
    const materials::Section section = materials::section_of(six_sizes());
    report::Style style;
    style.numbers.systems = units::Systems::metric;
    const std::string metric = report::materials_text(section, Markup::plain, style);
    EXPECT_THAT(metric, HasSubstr("MC total: 1070 (1230, 1395, 1570, 1755, 1945) m; 7"));
    EXPECT_THAT(metric, HasSubstr("160 m per 100 g skein"));
    EXPECT_THAT(metric, HasSubstr("\n  18 sts and 24 rows to 10 cm"));
    for (const char* unit : {" yd", " in wide", " in long", "4 in", " oz"})
        EXPECT_THAT(metric, Not(HasSubstr(unit)));
    style.numbers.systems = units::Systems::imperial;
    const std::string imperial = report::materials_text(section, Markup::plain, style);
    EXPECT_THAT(imperial, HasSubstr("MC total: 1170 (1345, 1525, 1715, 1915, 2125) yd; 7"));
    EXPECT_THAT(imperial, HasSubstr("175 yd per 3.53 oz skein"));
    EXPECT_THAT(imperial, HasSubstr("\n  18.5 sts and 24.5 rows to 4 in"));
    for (const char* unit : {" m;", " cm", " m per"}) EXPECT_THAT(imperial, Not(HasSubstr(unit)));
}

TEST(MaterialsText, DecimalCommas) {
    report::Style style;
    style.numbers.decimal_mark = ',';
    const std::string text =
        report::materials_text(materials::section_of(six_sizes()), Markup::plain, style);
    EXPECT_THAT(text, HasSubstr("19,75 (21,75; 24; 26,25; 28,5; 30,5) in / 50 (56; 61;"));
    EXPECT_THAT(text, HasSubstr("18 sts"));
    EXPECT_THAT(text, HasSubstr("(3,53 oz)"));
}

// Craft Yarn Council's and UK names: a US hdc is a UK htr, sc is dc.
TEST(MaterialsText, TermsAreRewritten) {
    project::Project project = six_sizes();
    const auto in_uk = [&] {
        report::Style style;
        style.terms = project::Terms::uk;
        return report::materials_text(materials::section_of(project), Markup::plain, style);
    };
    EXPECT_THAT(in_uk(), HasSubstr("to 10 cm (4 in), in dc\n"));
    EXPECT_THAT(in_uk(), HasSubstr("Written in UK crochet terms."));
    project.gauge.stitch = "hdc";
    EXPECT_THAT(in_uk(), HasSubstr("in htr\n"));
    project.gauge.stitch = "the lace of chart B";
    EXPECT_THAT(in_uk(), HasSubstr("in the lace of chart B\n"));
    project.terms = project::Terms::uk;
    project.gauge.stitch = "dc";
    EXPECT_THAT(in_uk(), HasSubstr("in dc\n")) << "written in UK terms already";
}

// Needles of 4 mm are US 6 and an old UK 8 (S52 to S54 of lib/data/sources.csv).
TEST(MaterialsText, NeedlesHaveBothNumbers) {
    project::Project project = six_sizes();
    project.craft = project::Craft::knit;
    project.gauge.hook.reset();
    project.gauge.needle = 4.0 * units::millimetre;
    EXPECT_THAT(text_of(project, Markup::plain),
                HasSubstr("needles 4 mm (US 6, UK 8), or size needed for gauge"));
    EXPECT_THAT(text_of(project, Markup::plain), Not(HasSubstr("crochet terms")));
}

TEST(MaterialsText, ColoursOfSeveralYarns) {
    project::Project project = six_sizes();
    project.roles.push_back(project.roles[0]);
    project.roles[1].id = "CC1";
    project.roles[1].colour = "Kelp";
    project.pieces[0].stripes = {{"MC", 2}, {"CC1", 2}};
    EXPECT_THAT(text_of(project, Markup::plain),
                HasSubstr("\nColours\n  MC: Slate\n  CC1: Kelp\n"));
}

TEST(MaterialsText, EveryReturnIsListed) {
    project::Project project = six_sizes();
    EXPECT_THAT(report::testers_text(project, materials::section_of(project)),
                HasSubstr("no testers' returns"));
    project::TesterReturn one;
    one.tester = "first";
    one.role = "MC";
    one.size = 2;
    one.before = support::weighed(800, 1);
    project.testers = {one, one, one};
    project.testers[1].tester = "second";
    project.testers[1].stitches = 17.0 * units::stitch / (10.0 * units::centimetre);
    project.testers[1].rows = 24.0 * units::row / (10.0 * units::centimetre);
    project.testers[2].tester = "third";
    project.testers[2].stitches = 12.0 * units::stitch / (10.0 * units::centimetre);
    project.testers[2].rows = 24.0 * units::row / (10.0 * units::centimetre);
    const std::string text = report::testers_text(project, materials::section_of(project));
    // 800 g of 1.6002 m per g are 1280.2 m; against 1267.2 m 101.0 %; at 17 sts for 18 the loops
    // are longer by root(18/17) = 1.0290: 98.2 %.
    EXPECT_THAT(text, HasSubstr("first   M     1400 yd (1280 m)      101.0 %"));
    EXPECT_THAT(text,
                HasSubstr("second  M     1400 yd (1280 m)       98.2 %  at the pattern's gauge"));
    EXPECT_THAT(text, HasSubstr("left out: its gauge is too far off"));
    EXPECT_THAT(text, HasSubstr("middle 99.6 %, 90 % of makers stay within "));
}

TEST(MaterialsText, TestersAreTold) {
    project::Project project = six_sizes();
    project.totals_for = {};
    project::TesterReturn one;
    one.role = "MC";
    one.size = 2;
    one.before = support::weighed(800, 1);
    project.testers = {one};
    EXPECT_THAT(text_of(project, Markup::plain), HasSubstr("from 1 tester's return, weighed"));
    project.testers.push_back(one);
    project.testers[1].before = support::weighed(780, 1);
    const std::string text = text_of(project, Markup::plain);
    EXPECT_THAT(text, HasSubstr("from 2 testers' returns, weighed before and after; 90 % of makers "
                                "come out with the total"));
    EXPECT_THAT(text, Not(HasSubstr("of what was worked out"))) << "the designer's own business";
    project.totals_for.of.reset();
    EXPECT_THAT(text_of(project, Markup::plain), HasSubstr("the total is their middle"));
}

TEST(MaterialsText, EveryBasisHasItsWords) {
    using materials::Basis;
    materials::Section section = materials::section_of(six_sizes());
    for (const auto& [basis, words] :
         {std::pair(Basis::swatch, "the stitches and a swatch"),
          std::pair(Basis::stated_rate, "stated rate"),
          std::pair(Basis::own_make, "a make that was measured"),
          std::pair(Basis::stated_total, "a total that was stated"),
          std::pair(Basis::whole_skeins, "counted in whole skeins"),
          std::pair(Basis::estimate, "no yarn of this make was weighed")}) {
        section.yarns[0].basis = basis;
        EXPECT_THAT(report::materials_text(section, Markup::plain), HasSubstr(words));
    }
}

// Term differences as the Council's table has them (S04): a US gauge is a UK tension, stockinette
// is stocking stitch.
TEST(MaterialsText, KnittingInUkTerms) {
    project::Project project = six_sizes();
    project.craft = project::Craft::knit;
    project.gauge.stitch = "stockinette";
    project.gauge.needle = 4.0 * units::millimetre;
    project.gauge.hook.reset();
    report::Style style;
    const materials::Section section = materials::section_of(project);
    const std::string us = report::materials_text(section, Markup::plain, style);
    EXPECT_THAT(us, HasSubstr("needles 4 mm (US 6, UK 8), or size needed for gauge\n\nGauge\n"));
    EXPECT_THAT(us, HasSubstr("in stockinette\n"));
    EXPECT_THAT(us, HasSubstr("\nTerms\n  Written in US knitting terms.\n"));
    style.terms = project::Terms::uk;
    const std::string uk = report::materials_text(section, Markup::plain, style);
    EXPECT_THAT(uk, HasSubstr("needles 4 mm (UK 8), or size needed for tension\n\nTension\n"));
    EXPECT_THAT(uk, HasSubstr("in stocking stitch\n"));
    EXPECT_THAT(uk, HasSubstr("\nTerms\n  Written in UK knitting terms.\n"));
    EXPECT_THAT(uk, Not(HasSubstr("auge")));
}

// All words come from the table: with other words nothing of the usual ones is left.
TEST(MaterialsText, AnotherLanguageNeedsOnlyItsRows) {
    report::MaterialsWords::Table table = report::MaterialsWords("en").table();
    for (auto& [key, text] : table) {
        std::string other;
        bool name = false;
        for (const char c : text) {
            if (c == '{') name = true;
            other += name || std::isalpha(static_cast<unsigned char>(c)) == 0 ? c : '*';
            if (c == '}') name = false;
        }
        text = other;
    }
    project::Project project = vest_saying("1234");
    project.margin = units::Ratio(0.1);
    project.made_for = project::Recipient::infant;
    const report::MaterialsDocument document =
        report::document_with(materials::section_of(project), {}, report::MaterialsWords(table));
    const std::set<std::string> symbols{"yd", "m",  "in", "cm",     "mm",     "g",
                                        "oz", "US", "H",  "Medium", "acrylic"};
    std::size_t lines = 0;
    for (const report::MaterialsBlock& block : document.blocks) {
        if (block.key == "credit") continue;  // printed as the Council asks
        for (const std::string& line : block.lines) {
            std::string word;
            for (const char c : line + " ") {
                if (std::isalpha(static_cast<unsigned char>(c)) != 0) {
                    word += c;
                } else if (!word.empty()) {
                    EXPECT_EQ(symbols.count(word), 1U) << word << " in: " << line;
                    word.clear();
                }
            }
            ++lines;
        }
    }
    EXPECT_GT(lines, 12U);
}

TEST(MaterialsText, EveryLanguageHasEveryKey) {
    const report::MaterialsWords english("en");
    ASSERT_THAT(report::languages(), ::testing::Contains("en"));
    for (const std::string& language : report::languages()) {
        const report::MaterialsWords words(language);
        for (const auto& [key, text] : english.table())
            // Only English has two sets of terms.
            EXPECT_TRUE(words.table().count(key) == 1 ||
                        (key.ends_with("_uk") && !key.ends_with("_in_uk")))
                << language << " " << key;
    }
    EXPECT_THROW(report::MaterialsWords("tlh"), std::out_of_range);
}

// "gimel shin mem lamed hey" between a first strong isolate and its end.
TEST(MaterialsText, RightToLeftTextIsKeptApart) {
    project::Project project = vest();
    project.roles[0].name = "\u05d2\u05e9\u05dd";
    EXPECT_THAT(text_of(project, Markup::plain),
                HasSubstr("MC: \u2068\u05d2\u05e9\u05dd\u2069 in Slate"));
    EXPECT_THAT(text_of(vest(), Markup::plain), Not(HasSubstr("\u2068")));
}

TEST(MaterialsText, CautionsAreIn) {
    EXPECT_THAT(text_of(vest_saying("x"), Markup::plain), HasSubstr("Do not use this yarn"));
    EXPECT_THAT(text_of(vest(), Markup::plain), Not(HasSubstr("Cautions")));
}

}  // namespace
