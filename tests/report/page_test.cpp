// Pages, charts and sections as files, read back by other programs: tidy (HTML), rsvg-convert
// (SVG), pdftotext and pdfinfo (PDF), cmark (CommonMark).

#include "skeinfall/report/page.hpp"

#include <algorithm>
#include <cstdint>
#include <regex>
#include <set>
#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/report/charts.hpp"
#include "skeinfall/report/detail/html.hpp"
#include "skeinfall/report/detail/joins_words.hpp"
#include "skeinfall/report/detail/page_parts.hpp"
#include "skeinfall/report/detail/work_tables.hpp"
#include "skeinfall/report/words.hpp"

#include "support/builders.hpp"
#include "support/hostile.hpp"
#include "support/outside.hpp"

namespace {

using namespace skeinfall;
using report::Markup;
using report::PictureFormat;
using support::outside;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::SizeIs;
using ::testing::StartsWith;

/// Everything a page needs, for one project and so many metres in skeins of 60 m.
struct Made {
    explicit Made(project::Project of, int skeins = 3) : project(std::move(of)) {
        need = need::need_of(project, 0);
        for (int i = 1; i <= skeins; ++i)
            stash.push_back(support::whole(
                "k" + std::to_string(i),
                support::yarn_of("Kelpie", support::metres(60), support::grams(30)), "lot-7"));
        cover = cover::cover_make(project, need, stash, rules);
        std::vector<joins::Ball> balls;
        for (const stash::Skein& skein : cover.roles.at(0).chosen)
            balls.push_back({skein.id, stash::total({skein}, true)});
        answer = joins::answer_joins(project, need, {{"MC", balls}}, {});
        section = materials::section_of(project);
    }
    [[nodiscard]] report::MakePage page() const {
        return {project, need, cover, rules, answer, section, {}};
    }
    [[nodiscard]] std::string html() const { return report::page_html(page()); }

    project::Project project;
    need::MakeNeed need;
    std::vector<stash::Skein> stash;
    cover::Rules rules;
    cover::MakeCover cover;
    joins::Answer answer;
    materials::Section section;
};

/// 60 rows of 50 sts at 4 cm: 120 m, so that two skeins of 60 m less their ends do not reach.
project::Project page_wrap() {
    project::Project out = support::rectangle(50, 60);
    out.roles[0].grist = support::grist("200 m / 100 g");
    out.roles[0].rate = units::YarnPerStitch(0.04 * units::metre / units::stitch);
    return out;
}

/// The wrap in every kind of text a stranger's file may hold.
project::Project wrap_saying(const std::string& text) {
    project::Project out = page_wrap();
    out.title = text;
    out.pieces[0].name = text;
    out.roles[0].colour = text;
    out.notions = {text};
    out.care = {text};
    out.gauge.stitch = text;
    return out;
}

/// What tidy has to say; nothing when all is well.
std::string tidied(const std::string& html) {
    // HTML standard, 6.8.6: this release of tidy does not know inputmode yet.
    return outside(
        "tidy -quiet -errors -utf8 FILE 2>&1 | grep -v 'proprietary attribute \"inputmode\"' || "
        "true",
        html, ".html");
}

std::size_t count(const std::string& text, const std::string& part) {
    std::size_t found = 0;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1))
        ++found;
    return found;
}

TEST(Page, ValidHtml) {
    EXPECT_EQ(tidied(Made(page_wrap()).html()), "");
    EXPECT_EQ(tidied(Made(page_wrap(), 1).html()), "") << "short";
    EXPECT_EQ(tidied(report::materials_html(Made(page_wrap()).section, {})), "");
    for (const std::string& text : support::markup)
        EXPECT_EQ(tidied(Made(wrap_saying(text)).html()), "") << text;
}

// Tidy does find what is wrong: a table cell outside its table.
TEST(Page, TheValidatorWouldTell) {
    const std::string html = Made(page_wrap()).html();
    const std::size_t at = html.find("</main>");
    std::string wrong = html;
    wrong.insert(at, "<td>x</b></td>");
    EXPECT_NE(outside("{ tidy -quiet -errors -utf8 FILE || true; }", wrong, ".html"), "");
}

TEST(Page, HasEveryPart) {
    const std::string html = Made(page_wrap()).html();
    for (const char* words :
         {"<h1>Harbour wrap</h1>", "Is there enough yarn?", "covered, chance", "Skeins for MC",
          "2 joins", "Less than this on the scale", "Harbour wrap: materials", "Row 60", "50 sts",
          "MC: join k2 after this, k1 is likely used up"})
        EXPECT_THAT(html, HasSubstr(words));
    EXPECT_EQ(count(html, "<input type=\"checkbox\">"), 60U) << "no foundation: a row a box";
    // The cover bar and the make, each wide and for a phone.
    EXPECT_EQ(count(html, "<svg"), 4U);
    EXPECT_EQ(count(html, "role=\"img\" aria-label=\""), 4U);
}

// Verdict; why, in one line; what to do next; then figures.
TEST(Page, SaysFirstWhatMattersFirst) {
    for (const int skeins : {3, 1}) {
        const std::string html = Made(page_wrap(), skeins).html();
        std::size_t before = 0;
        for (const char* words : {skeins == 3 ? "covered, chance" : "short, chance", "<p>It takes ",
                                  "What to do next", "<dt>needs</dt>"}) {
            const std::size_t at = html.find(words, before);
            ASSERT_NE(at, std::string::npos) << words;
            before = at;
        }
    }
    EXPECT_THAT(Made(page_wrap()).html(), HasSubstr("<li>Begin with k1; join k2 after row "));
    const Made none(page_wrap(), 0);
    EXPECT_THAT(
        report::parts_of(
            {none.project, none.need, none.cover, none.rules, none.answer, none.section, {}})
            .why,
        ::testing::EndsWith(", and there is no suitable skein."));
}

// Motifs are many copies of a few rounds: a line a copy, its weight that of the row that takes
// most.
TEST(Page, StopsOfManyCopiesAreALineACopy) {
    project::Project squares = page_wrap();
    squares.pieces[0].count = project::PerSize<std::int64_t>(80);
    squares.pieces[0].stitches = project::PerSize<std::int64_t>(10);
    squares.pieces[0].rows = project::PerSize<std::int64_t>(3);
    squares.pieces[0].increase = project::PerSize<std::int64_t>(5);
    const Made made(squares, 4);
    ASSERT_FALSE(made.answer.roles.at(0).stops.empty());
    const joins::RoleJoins& role = made.answer.roles[0];
    units::Mass most{};
    std::size_t stops = 0;
    for (const joins::StopWeight& stop : role.stops)
        if (stop.stretch == 0) {
            most = std::max(most, stop.next);
            ++stops;
        }
    ASSERT_GT(stops, 16U);
    std::size_t lines = 0;
    std::set<std::string> all;
    for (const report::StopLine& line : report::stop_lines(made.project, role, {})) {
        if (line.stretch != 0) continue;
        ++lines;
        EXPECT_THAT(line.place, StartsWith("after each row of wrap "));
        all.insert(line.next);
    }
    // Copies alike are one line; where weighing begins and ends within a copy, that has its own.
    EXPECT_LE(lines, 3U);
    EXPECT_THAT(all, ::testing::Contains(report::scale_text(most, 1.0 * units::gram)));
}

// No address but those that name what a thing is: the page fetches nothing.
TEST(Page, FetchesNothing) {
    const std::string html = Made(page_wrap()).html();
    const std::regex address("https?://[^\"' )<]*");
    std::set<std::string> found;
    for (std::sregex_iterator at(html.begin(), html.end(), address), end; at != end; ++at)
        found.insert(at->str());
    for (const std::string& one : found) EXPECT_THAT(one, StartsWith("http://www.w3.org/"));
    EXPECT_THAT(html, Not(HasSubstr("<link")));
    EXPECT_THAT(html, Not(HasSubstr("src=")));
    EXPECT_THAT(html, HasSubstr("default-src 'none'"));
}

TEST(Page, IdsAreOnlyThereOnce) {
    const std::string html = Made(page_wrap()).html();
    const std::regex id(" id=\"([^\"]*)\"");
    std::multiset<std::string> ids;
    for (std::sregex_iterator at(html.begin(), html.end(), id), end; at != end; ++at)
        ids.insert((*at)[1]);
    EXPECT_GT(ids.size(), 20U);
    for (const std::string& one : ids) EXPECT_EQ(ids.count(one), 1U) << one;
    // What is referred to is there.
    const std::regex reference("(?:href=\"#|url\\(#)([^\")]*)");
    for (std::sregex_iterator at(html.begin(), html.end(), reference), end; at != end; ++at)
        EXPECT_EQ(ids.count((*at)[1]), 1U) << (*at)[1];
}

TEST(Page, UserTextIsNeverMarkup) {
    const std::string plain = Made(wrap_saying("word")).html();
    for (const std::string& text : support::markup) {
        const std::string html = Made(wrap_saying(text)).html();
        for (const char* tag : {"<b>", "<i>", "<h1", "<li", "<script>", "<p>"})
            EXPECT_EQ(count(html, tag), count(plain, tag)) << text << " " << tag;
    }
}

TEST(Page, NothingSteersTheReader) {
    EXPECT_TRUE(support::is_inert(Made(wrap_saying(support::steering)).html()));
}

TEST(Page, OtherRowsHaveOtherTicks) {
    const auto ticks = [](const project::Project& project) {
        return report::parts_of(Made(project).page()).fingerprint;
    };
    project::Project longer = page_wrap();
    longer.pieces[0].rows = project::PerSize<std::int64_t>(61);
    EXPECT_EQ(ticks(page_wrap()), ticks(page_wrap()));
    EXPECT_NE(ticks(page_wrap()), ticks(longer));
}

TEST(Page, JoinsAreMarkedAtTheirRows) {
    const Made made(page_wrap());
    const report::PageParts parts = report::parts_of(made.page());
    ASSERT_THAT(parts.rows, SizeIs(1));
    ASSERT_THAT(parts.rows[0].rows, SizeIs(60));
    const joins::JoinPlan& plan = made.answer.roles.at(0).plan;
    ASSERT_THAT(plan.stretches, SizeIs(3));
    for (std::size_t i = 0; i < 2; ++i) {
        const auto& marks = parts.rows[0].rows.at(plan.stretches[i].to.step - 1).marks;
        EXPECT_TRUE(std::any_of(marks.begin(), marks.end(), [&](const report::PageMark& mark) {
            return mark.text.find("join " + plan.stretches[i + 1].ball.id) != std::string::npos;
        }));
    }
}

// What the plan keeps at hand counts while working too, as it does for the command.
TEST(Page, SparesCountWhileYouWork) {
    Made made(page_wrap());
    joins::Spare spare;
    spare.ball = {"spare-9", {60.0 * units::metre, 1.0 * units::metre}};
    made.answer.roles.at(0).plan.spares = {spare};
    EXPECT_THAT(report::work_tables(made.page()), HasSubstr("\"id\":\"spare-9\""));
}

TEST(Page, TheCoverBarIsInTheYarnsOwnShade) {
    project::Project shaded = page_wrap();
    const auto bar = [](const project::Project& project) {
        const Made made(project);
        return report::cover_bar(made.project, made.cover, made.rules, PictureFormat::web);
    };
    EXPECT_THAT(bar(shaded), Not(HasSubstr("#b5502d")));
    shaded.roles[0].shade = "#b5502d";
    EXPECT_THAT(bar(shaded), HasSubstr("#b5502d"));
}

// A border of its own rounds is drawn about the piece, which then measures as much more.
TEST(Page, ABorderIsDrawnAndMeasured) {
    project::Project bordered = page_wrap();
    bordered.roles[0].shade = "#b5502d";
    const auto drawn = [](const project::Project& project) {
        return report::make_picture(Made(project, 6).page(), PictureFormat::web);
    };
    EXPECT_THAT(drawn(bordered), Not(HasSubstr("border of")));
    project::FinishPart part;
    part.kind = project::PartKind::border;
    part.name = "edge";
    part.role = "MC";
    part.first_round = project::PerSize<std::int64_t>(220);
    part.rounds = 3;
    bordered.finish = {part};
    EXPECT_THAT(drawn(bordered), HasSubstr("border of 3 rounds"));
}

TEST(Page, WideTablesShowThatTheyScroll) {
    EXPECT_THAT(Made(page_wrap()).html(), HasSubstr("no-repeat local"));
}

// One figure everywhere: the need of the page is that of the cover bar and of its PDF.
TEST(Page, OneThingHasOneFigure) {
    const Made made(page_wrap());
    // 120 m / .9144 = 131.2 yd, up to 132.
    EXPECT_THAT(made.html(), HasSubstr("<dt>needs</dt><dd>132 yd (120 m)"));
    EXPECT_THAT(report::cover_bar(made.project, made.cover, made.rules, PictureFormat::svg),
                HasSubstr("needs 132 yd (120 m)"));
    EXPECT_THAT(outside("pdftotext -layout FILE -",
                        report::page_pdf(made.page(), report::Paper::a4), ".pdf"),
                HasSubstr("needs 132 yd (120 m)"));
}

/// The wrap with so many rows of 50 sts, told by these two in turn.
project::Project written_wrap(const std::string& odd, const std::string& even, std::int64_t rows) {
    project::Project out = page_wrap();
    project::WorkedRows worked;
    worked.foundation_text = "Ch 51.";
    worked.texts = {odd, even};
    const auto sts = 50.0 * units::stitch;
    project::RowWork all_sc;
    all_sc.kinds = {{"sc", sts}};
    all_sc.made = all_sc.across = sts;
    worked.distinct = {all_sc};
    for (std::int64_t row = 0; row < rows; ++row) {
        worked.order.push_back(0);
        worked.text_of.push_back(row % 2 == 0 ? 0 : 1);
    }
    out.pieces[0].foundation_rows = units::Ratio(1.0);
    out.pieces[0].pattern = project::PerSize<project::WorkedRows>(std::move(worked));
    return out;
}

TEST(Page, WhatIsWrittenStandsBesideItsRow) {
    const std::string odd = "ch 1, turn, sc in each st across.";
    const Made made(written_wrap(odd, "knit <b> & turn", 60));
    const report::PageGroup group = report::parts_of(made.page()).rows.at(0);
    ASSERT_THAT(group.rows, SizeIs(61));
    EXPECT_EQ(group.rows[0].text, "Foundation: Ch 51.");
    EXPECT_EQ(group.rows[3].text, "Row 3");
    EXPECT_EQ(group.rows[3].told, odd);
    EXPECT_EQ(group.rows[4].text, "Row 4: knit <b> & turn") << "a few letters need no line";
    const std::string html = made.html();
    EXPECT_EQ(tidied(html), "");
    EXPECT_EQ(count(html, "<p class=\"how\">" + odd + "</p>"), 30U);
    EXPECT_EQ(count(html, "Row 4: knit &lt;b&gt; &amp; turn"), 1U);
    EXPECT_THAT(outside("pdftotext -layout FILE -",
                        report::page_pdf(made.page(), report::Paper::a4), ".pdf"),
                ::testing::ContainsRegex("Row 59, 50 sts +" + odd));
}

TEST(Page, TenThousandRowsStayBelowFiveMegabytes) {
    project::Project project = page_wrap();
    project.pieces[0].rows = project::PerSize<std::int64_t>(10'000);
    const std::string html = Made(project, 1).html();
    EXPECT_EQ(count(html, "<input type=\"checkbox\">"), 10'000U);
    EXPECT_LT(html.size(), 5'000'000U);
}

// Instructions that would make the page too long are told once; one longer than a page is not.
TEST(Page, TenThousandLongInstructionsStayBelowFiveMegabytes) {
    const std::string each = "sc in each st across, and look at the work from afar";
    std::string odd = each;
    while (odd.size() < 1000) odd += " once more";
    const std::string html = Made(written_wrap(odd, each, 10'000), 1).html();
    EXPECT_EQ(count(html, "<input type=\"checkbox\">"), 10'001U);
    EXPECT_EQ(count(html, "<p class=\"how\">" + odd + "</p>"), 1U);
    EXPECT_EQ(count(html, "Row 9999: as row 1 "), 1U);
    EXPECT_EQ(count(html, "Row 10000: as row 2 "), 1U);
    EXPECT_LT(html.size(), 5'000'000U);
}

TEST(Page, RowsWithOneWeightShareALine) {
    const Made made(page_wrap());
    const std::vector<report::PageTable> stops = report::parts_of(made.page()).stops;
    ASSERT_THAT(stops, SizeIs(1));
    std::set<std::vector<std::string>> seen;
    for (const std::vector<std::string>& line : stops[0].lines) {
        EXPECT_TRUE(seen.insert({line.begin() + 1, line.end()}).second) << line[0];
        EXPECT_EQ(line.size(), stops[0].heads.size());
    }
    EXPECT_THAT(made.html(),
                ::testing::ContainsRegex("after row [0-9]+ of wrap, until row [0-9]+"));
}

/// A vest in so many sizes, each wider by two stitches than the one before.
project::Project vest_in_sizes(std::size_t sizes) {
    project::Project out = page_wrap();
    out.totals_for.of.reset();
    for (std::size_t i = 0; i < sizes; ++i) {
        out.sizes.push_back("size " + std::to_string(i + 1));
        out.pieces[0].stitches.values.push_back(50 + 2 * static_cast<std::int64_t>(i));
    }
    out.pieces[0].stitches.values.erase(out.pieces[0].stitches.values.begin());
    return out;
}

TEST(PagePdf, PaperSizesAndWords) {
    const Made made(page_wrap());
    // ISO 216: 210 x 297 mm; ANSI/ASME Y14.1: 8.5 x 11 in; a point is 1/72 in.
    const auto info = [&](report::Paper paper) {
        return outside("pdfinfo FILE", report::page_pdf(made.page(), paper), ".pdf");
    };
    EXPECT_THAT(info(report::Paper::a4), HasSubstr("595.276 x 841.89 pts (A4)"));
    EXPECT_THAT(info(report::Paper::letter), HasSubstr("612 x 792 pts (letter)"));
    EXPECT_THAT(info(report::Paper::a4), HasSubstr("Title:           Harbour wrap"));
    const std::string text = outside("pdftotext -layout FILE -",
                                     report::page_pdf(made.page(), report::Paper::a4), ".pdf");
    for (const char* words : {"Harbour wrap", "covered, chance", "join k2 after this",
                              "Row 60, 50 sts", "Less than this on the scale"})
        EXPECT_THAT(text, HasSubstr(words));
    EXPECT_EQ(count(text, "Row "), 60U);
}

// ISO 32000-1, 14.7 and 14.8: what a screen reader follows, as Poppler reads it.
TEST(PagePdf, HasAStructureAndBookmarks) {
    const std::string pdf = report::page_pdf(Made(page_wrap()).page(), report::Paper::a4);
    EXPECT_THAT(outside("pdfinfo FILE", pdf, ".pdf"), ::testing::ContainsRegex("Tagged: +yes"));
    const std::string parts = outside("pdfinfo -struct-text FILE", pdf, ".pdf");
    for (const char* part : {"H1 (block)\n    \"Harbour wrap\"", "H2 (block)\n    \"When to stop\"",
                             "Table (block)\n    Caption\n      \"Skeins of MC\"\n    TR\n      "
                             "TH\n        \"skein\"",
                             "LI (block)\n      LBody (block)\n        \"Row 60, 50 sts\""})
        EXPECT_THAT(parts, HasSubstr(part));
    EXPECT_EQ(count(parts, "\"Row "), 60U);
    const std::string marks = outside("pdftohtml -xml -i -stdout FILE", pdf, ".pdf");
    EXPECT_THAT(marks, ::testing::ContainsRegex("<item page=\"[1-9]\">When to stop</item>"));
}

// ISO 32000-1, 14.9.2, 12.2 and 14.9.3.
TEST(PagePdf, SaysItsLanguageItsTitleAndWhatItsFiguresShow) {
    const std::string pdf = report::page_pdf(Made(page_wrap()).page(), report::Paper::a4);
    const std::string plain = outside(
        "qpdf --qdf --object-streams=disable FILE - | grep -a -E '/(Lang|Alt|DisplayDocTitle|S "
        "/Figure)'",
        pdf, ".pdf");
    EXPECT_THAT(plain, HasSubstr("/Lang (en)"));
    EXPECT_THAT(plain, HasSubstr("/DisplayDocTitle true"));
    EXPECT_THAT(plain, HasSubstr("join k2 after row"));
    EXPECT_EQ(count(plain, "/Alt ("), count(plain, "/S /Figure"));
}

// Verdict, picture, joins, weights and materials; the rows follow on their own.
TEST(PagePdf, APlainMakeIsOneSheet) {
    // Nobody knows what the second takes, so it is weighed for long: its slip stands in two
    // columns.
    project::Project unsure = page_wrap();
    unsure.roles[0].rate.reset();
    unsure.pieces[0].stitches = project::PerSize<std::int64_t>(6);
    for (const auto& [paper, project] :
         {std::pair(report::Paper::a4, page_wrap()), std::pair(report::Paper::letter, page_wrap()),
          std::pair(report::Paper::a4, unsure), std::pair(report::Paper::letter, unsure)}) {
        const std::string text = outside("pdftotext -layout FILE -",
                                         report::page_pdf(Made(project, 10).page(), paper), ".pdf");
        const std::string first = text.substr(0, text.find('\f'));
        for (const char* words : {"covered", "Joins", "When to stop", "materials", "Terms"})
            EXPECT_THAT(first, HasSubstr(words));
        EXPECT_THAT(text.substr(first.size() + 1), StartsWith("Rows"));
    }
}

TEST(PagePdf, EverySizeIsPrinted) {
    const std::string text = outside(
        "pdftotext -layout FILE -",
        report::materials_pdf(materials::section_of(vest_in_sizes(12)), {}, report::Paper::a4),
        ".pdf");
    for (int size = 1; size <= 12; ++size)
        EXPECT_THAT(text, ::testing::ContainsRegex("size " + std::to_string(size) + "( |,|\n)"));
}

TEST(PageHtml, AFragmentHasNoLookOfItsOwn) {
    const materials::Section section = materials::section_of(vest_in_sizes(6));
    const std::string fragment = report::materials_fragment(section);
    EXPECT_THAT(fragment, StartsWith("<section lang=\"en\">"));
    for (const char* none : {"<style", "style=", "<script", "<html", "<head", "<h1"})
        EXPECT_THAT(fragment, Not(HasSubstr(none)));
    EXPECT_THAT(fragment, HasSubstr("<svg"));
    EXPECT_THAT(report::materials_fragment(section, {}, report::Chart::no), Not(HasSubstr("<svg")));
    EXPECT_EQ(tidied("<!DOCTYPE html><html lang=\"en\"><head><title>x</title></head><body>" +
                     fragment + "</body></html>"),
              "");
}

TEST(PagePdf, TheSameMakeGivesTheSameBytes) {
    const Made made(page_wrap());
    EXPECT_TRUE(report::page_pdf(made.page(), report::Paper::a4) ==
                report::page_pdf(made.page(), report::Paper::a4));
}

// Every page holds words, and every line of the section is there.
TEST(PagePdf, TheSectionIsWhole) {
    project::Project project = page_wrap();
    for (int i = 0; i < 120; ++i) project.notions.push_back("marker number " + std::to_string(i));
    const materials::Section section = materials::section_of(project);
    const std::string text =
        outside("pdftotext -layout FILE -",
                report::materials_pdf(section, {}, report::Paper::letter), ".pdf");
    for (int i = 0; i < 120; ++i)
        EXPECT_THAT(text, HasSubstr("marker number " + std::to_string(i)));
    std::istringstream pages(text);
    std::size_t printed = 0;
    for (std::string page; std::getline(pages, page, '\f');)
        if (page.find_first_not_of(" \n") != std::string::npos) ++printed;
    EXPECT_EQ(printed, count(text, "\f")) << "no page is empty";
    EXPECT_GT(printed, 2U);
}

TEST(PagePdf, HostileTextIsOnlyText) {
    for (const std::string& text : support::markup)
        EXPECT_FALSE(report::page_pdf(Made(wrap_saying(text)).page(), report::Paper::a4).empty());
    const std::string steered =
        report::page_pdf(Made(wrap_saying(support::steering)).page(), report::Paper::a4);
    EXPECT_THAT(outside("pdftotext FILE -", steered, ".pdf"), HasSubstr("joins"));
}

TEST(Charts, ParsedByAnotherProgram) {
    const Made made(page_wrap());
    for (const std::string& svg :
         {report::cover_bar(made.project, made.cover, made.rules, PictureFormat::svg),
          report::grading_chart(made.section, {}, PictureFormat::svg)})
        EXPECT_THAT(outside("rsvg-convert FILE", svg, ".svg"), StartsWith("\x89PNG"));
}

TEST(Charts, FortySizesHaveTheirFigures) {
    const materials::Section section = materials::section_of(vest_in_sizes(40));
    const std::string text = outside(
        "pdftotext -layout FILE -", report::grading_chart(section, {}, PictureFormat::pdf), ".pdf");
    for (const char* words : {"size 1", "size 17", "size 40", "135 yd", "120 m"})
        EXPECT_THAT(text, HasSubstr(words));
    EXPECT_EQ(tidied(report::materials_html(section, {})), "");
}

// What a designer's own check says is no part of what is published.
TEST(Charts, APublishedChartTellsNoDoubts) {
    project::Project project = vest_in_sizes(6);
    project.pieces[0].stitches.values[3] = 40;
    EXPECT_THAT(report::grading_chart(materials::section_of(project), {}, PictureFormat::svg),
                Not(HasSubstr("out of line")));
}

// Letters stand in a PDF as they are drawn: a name in Hebrew is read back whole, from its first
// letter on.
TEST(Charts, RightToLeftNamesAreTurned) {
    project::Project project = page_wrap();
    project.title = "\u05e9\u05de\u05dc\u05d4";
    const Made made(project);
    EXPECT_THAT(
        outside("pdftotext -layout FILE -",
                report::cover_bar(project, made.cover, made.rules, PictureFormat::pdf), ".pdf"),
        HasSubstr(project.title));
}

// Forty sizes: a line each, not bars that nobody can read.
TEST(Charts, ManySizesAreALineEach) {
    project::Project graded = page_wrap();
    graded.pieces[0].stitches.values.clear();
    for (std::int64_t size = 1; size <= 40; ++size) {
        graded.sizes.push_back("size " + std::to_string(size));
        graded.pieces[0].stitches.values.push_back(40 + 2 * size);
    }
    const std::string svg =
        report::grading_chart(materials::section_of(graded), {}, PictureFormat::web);
    std::set<std::string> heights;
    const std::regex line("y=\"([0-9.]+)\"[^>]*>size [0-9]+<");
    std::size_t names = 0;
    for (std::sregex_iterator at(svg.begin(), svg.end(), line), end; at != end; ++at, ++names)
        heights.insert((*at)[1]);
    EXPECT_EQ(names, 40U);
    EXPECT_EQ(heights.size(), 40U) << "each on a line of its own";
}

/// An HTML of cmark as bare lines.
std::vector<std::string> words_of(std::string html) {
    html = std::regex_replace(html, std::regex("<[^>]*>"), "");
    for (const auto& [name, sign] : {std::pair("&lt;", "<"), std::pair("&gt;", ">"),
                                     std::pair("&quot;", "\""), std::pair("&amp;", "&")})
        html = std::regex_replace(html, std::regex(name), sign);
    std::istringstream lines(html);
    std::vector<std::string> out;
    for (std::string line; std::getline(lines, line);)
        if (!line.empty()) out.push_back(line);
    return out;
}

// What CommonMark makes of the section is, line by line, what the plain section says.
TEST(MaterialsMarkdown, ReadsAsThePlainSection) {
    std::vector<std::string> texts = support::markup;
    for (const char* more : {"word", "שמלה <b> 🧶"}) texts.emplace_back(more);
    for (const std::string& text : texts) {
        const materials::Section section = materials::section_of(wrap_saying(text));
        std::istringstream plain(report::materials_text(section, Markup::plain));
        std::vector<std::string> said;
        for (std::string line; std::getline(plain, line);) {
            line.erase(0, line.find_first_not_of(' '));
            line.erase(line.find_last_not_of(' ') + 1);
            if (!line.empty()) said.push_back(line);
        }
        EXPECT_EQ(words_of(outside("cmark FILE", report::materials_text(section, Markup::markdown),
                                   ".md")),
                  said)
            << text;
    }
}

TEST(Templates, NoneIsMissingAndNoneIsUnknown) {
    EXPECT_THAT(report::template_text("page.css"), HasSubstr("@media print"));
    EXPECT_THROW(static_cast<void>(report::template_text("none.html")), std::out_of_range);
}

}  // namespace
