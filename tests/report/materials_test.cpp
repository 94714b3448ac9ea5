// The materials section in words, plain and as Markdown.

#include "skeinfall/report/materials.hpp"

#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

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
    out.pieces[0].name = "body";
    out.pieces[0].rows.values = {80, 90, 100};
    out.pieces[0].stitches.values = {60, 66, 72};
    out.pieces[0].count = project::PerSize<long>(2);
    out.roles[0].rate = units::YarnPerStitch(0.05 * metre / units::stitch);
    out.roles[0].grist = support::grist("200 m / 100 g");
    out.roles[0].name = "Kelpie";
    out.roles[0].colour = "Slate";
    out.roles[0].weight = yarn::WeightClass{4};
    out.roles[0].fibre = support::fibre("80% wool 20% nylon");
    out.gauge.hook = 5.0 * units::millimetre;
    out.notions = {"tapestry needle"};
    out.care = {"wash by hand"};
    out.margin = units::Ratio(0.1);
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
                                "200 m per 100 g skein"));
    // 2 x (80 x 60, 90 x 66, 100 x 72) x .05 m + one pair of ends, and 10 %: 528.3, 653.7, 792.3 m.
    EXPECT_THAT(text, HasSubstr("580 (715, 870) yd / 530 (655, 795) m; 3 (4, 4) skeins, all of one "
                                "dye lot"));
    EXPECT_THAT(text, HasSubstr("A margin of 10 % is included"));
    EXPECT_THAT(text, HasSubstr("12 sts and 8 rows to 4 in"));
    EXPECT_THAT(text, HasSubstr("Written in US crochet terms."));
    EXPECT_THAT(text, HasSubstr("hook 5 mm (US H-8), or size needed for gauge"));
    EXPECT_THAT(text, HasSubstr("Craft Yarn Council's www.YarnStandards.com"));
}

TEST(MaterialsText, OneSizeHasNoBrackets) {
    project::Project project = vest();
    project.sizes.clear();
    project.pieces[0].rows = project::PerSize<long>(80);
    project.pieces[0].stitches = project::PerSize<long>(60);
    project.roles[0].weight.reset();
    const std::string text = text_of(project, Markup::plain);
    EXPECT_THAT(text, Not(HasSubstr("Sizes")));
    EXPECT_THAT(text, HasSubstr("580 yd / 530 m; 3 skeins"));
    EXPECT_THAT(text, Not(HasSubstr("YarnStandards"))) << "no class, no credit";
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

TEST(MaterialsText, CautionsAreIn) {
    EXPECT_THAT(text_of(vest_saying("x"), Markup::plain), HasSubstr("Do not use this yarn"));
    EXPECT_THAT(text_of(vest(), Markup::plain), Not(HasSubstr("Cautions")));
}

}  // namespace
