// The page that a designer publishes: valid, asking for nothing, holding nothing of her own.

#include "skeinfall/report/makers_page.hpp"

#include <regex>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/builders.hpp"
#include "support/hostile.hpp"
#include "support/outside.hpp"

namespace {

using namespace skeinfall;
using ::testing::HasSubstr;
using ::testing::Not;

std::string page_of(const project::Project& project, const report::Style& style = {}) {
    const materials::Section section = materials::section_of(project);
    const materials::Offer offer = materials::sizes_on_offer(project, section);
    return report::makers_page_html({project, need::need_of(project, 0), section, offer, style});
}

project::Project small_wrap() {
    project::Project out = support::rectangle(10, 12);
    out.roles[0].grist = support::grist("200 m / 100 g");
    out.roles[0].rate = units::YarnPerStitch(0.04 * units::metre / units::stitch);
    return out;
}

std::string tidied_makers(const std::string& html) {
    return support::outside("tidy -quiet -errors -utf8 FILE 2>&1 || true", html, ".html");
}

TEST(MakersPage, ValidHtml) {
    EXPECT_EQ(tidied_makers(page_of(small_wrap())), "");
    for (const std::string& text : support::markup) {
        project::Project project = small_wrap();
        project.title = text;
        project.pieces[0].name = text;
        project.roles[0].colour = text;
        project.notions = {text};
        EXPECT_EQ(tidied_makers(page_of(project)), "") << text;
    }
    project::Project several = small_wrap();
    several.pieces.push_back(support::piece("pocket", "MC", 12, 9));
    EXPECT_EQ(tidied_makers(page_of(several)), "") << "one size";
}

TEST(MakersPage, FetchesNothing) {
    const std::string html = page_of(small_wrap());
    const std::regex address("https?://[^\"' )<]*");
    for (std::sregex_iterator at(html.begin(), html.end(), address), end; at != end; ++at)
        EXPECT_THAT(at->str(), ::testing::StartsWith("http://www.w3.org/"));
    EXPECT_THAT(html, HasSubstr("default-src 'none'"));
    EXPECT_THAT(html, Not(HasSubstr("src=")));
}

// Of the designer's own: what her swatches weighed, her finished makes, her testers by name, the
// folder she works in.
TEST(MakersPage, HoldsNothingOfHerOwn) {
    project::Project project = small_wrap();
    project.file = "/home/zzpath/wrap.toml";
    project::Swatch swatch;
    swatch.role = "MC";
    swatch.stitch = "hdc";
    swatch.stitches = 20.0 * units::stitch;
    swatch.rows = 12.0 * units::row;
    swatch.weighing = support::weighed(7.3917, 0.1);
    project.swatches = {swatch};
    project::EarlierMake earlier;
    earlier.role = "MC";
    earlier.name = "zzearlier";
    earlier.stitches = 3000.0 * units::stitch;
    earlier.yarn = 123.4567 * units::metre;
    project.earlier_makes = {earlier};
    project.hand = project::Hand{units::Ratio(1.3), units::Ratio(0.02), 9};
    for (const char* name : {"zztester one", "zztester two", "zztester three"}) {
        project::TesterReturn one;
        one.tester = name;
        one.role = "MC";
        one.before = support::weighed(98.7654, 1.0);
        one.after = support::weighed(31.2345, 1.0);
        project.testers.push_back(one);
    }
    const std::string html = page_of(project);
    EXPECT_THAT(html, HasSubstr("Harbour wrap"));
    for (const char* own : {"zzpath", "zzearlier", "zztester", "7.39", "123.45", "98.76", "31.23"})
        EXPECT_THAT(html, Not(HasSubstr(own)));
}

TEST(MakersPage, ABlanketOfFiveYarnsIsLight) {
    project::Project blanket = support::rectangle(60, 60);
    blanket.roles.clear();
    for (const char* id : {"MC", "CC1", "CC2", "CC3", "CC4"}) {
        blanket.roles.push_back(support::role(id));
        blanket.roles.back().name = "Gorsebrook Worsted";
        blanket.roles.back().grist = support::grist("200 m / 100 g");
        blanket.roles.back().rate = units::YarnPerStitch(0.04 * units::metre / units::stitch);
        blanket.pieces[0].stripes.push_back({id, 4});
    }
    EXPECT_LT(page_of(blanket).size(), 500'000U);
}

// One system alone, a comma for the decimal mark.
TEST(MakersPage, FollowsTheStyle) {
    report::Style metric;
    metric.numbers.systems = units::Systems::metric;
    metric.numbers.decimal_mark = ',';
    const std::string html = page_of(small_wrap(), metric);
    EXPECT_THAT(html, Not(HasSubstr(" yd")));
    EXPECT_THAT(html, Not(HasSubstr(" in (")));
    report::Style imperial;
    imperial.numbers.systems = units::Systems::imperial;
    EXPECT_THAT(page_of(small_wrap(), imperial), Not(HasSubstr(" cm")));
}

std::string pdf_of(const project::Project& project, const char* command = "pdftotext FILE -") {
    const materials::Section section = materials::section_of(project);
    const materials::Offer offer = materials::sizes_on_offer(project, section);
    return support::outside(
        command,
        report::makers_page_pdf({project, need::need_of(project, 0), section, offer, {}},
                                report::Paper::letter),
        ".pdf");
}

/// 40 squares, five across.
project::Project squares() {
    project::Project out = small_wrap();
    out.pieces[0].count = project::PerSize<std::int64_t>(40);
    project::FinishPart joining;
    joining.kind = project::PartKind::joining;
    joining.role = out.roles[0].id;
    joining.of = out.pieces[0].name;
    joining.columns = project::PerSize<std::int64_t>(5);
    out.finish = {joining};
    return out;
}

TEST(MakersPage, OnPaperEverySizeStands) {
    const std::string text = pdf_of(small_wrap());
    EXPECT_THAT(text, HasSubstr("What it takes, as written"));
    EXPECT_THAT(text, HasSubstr("Begin with"));
    EXPECT_THAT(text, HasSubstr("Yarn for the other sizes"));
    EXPECT_THAT(text, HasSubstr("These are for the size as written."));
    EXPECT_THAT(pdf_of(small_wrap(), "pdfinfo FILE"), ::testing::ContainsRegex("Tagged: +yes"));
    project::Project graded = small_wrap();
    graded.sizes = {"small one", "middle one", "large one"};
    graded.pieces[0].stitches.values = {10, 12, 14};
    const std::string sizes = pdf_of(graded);
    for (const std::string& size : graded.sizes) EXPECT_THAT(sizes, HasSubstr(size));
}

TEST(MakersPage, MotifsAreTheChoice) {
    const std::string html = page_of(squares());
    EXPECT_THAT(html, HasSubstr(">Motifs across</label>"));
    EXPECT_THAT(html, HasSubstr(">5 motifs, as written</option>"));
    EXPECT_THAT(html, HasSubstr("<dt>Motifs</dt><dd>40, 5 across by 8 along; together "));
    // They are drawn as they lie, and one by itself.
    EXPECT_THAT(html, HasSubstr("data-part=\"all of "));
    EXPECT_THAT(html, HasSubstr("all 40 of "));
    EXPECT_EQ(tidied_makers(html), "");
    EXPECT_THAT(pdf_of(squares()), HasSubstr("by motifs along, and by motifs across"));
}

TEST(MakersPage, SaysWhatThereIsToChoose) {
    const project::Project project = small_wrap();
    const materials::Section section = materials::section_of(project);
    EXPECT_THAT(
        report::offer_text(project, materials::sizes_on_offer(project, section)),
        ::testing::MatchesRegex("Harbour wrap: [0-9]+ widths, .* to .*; [0-9]+ lengths, .*\n"));
    project::Project several = small_wrap();
    several.pieces.push_back(support::piece("pocket", "MC", 12, 9));
    EXPECT_EQ(report::offer_text(
                  several, materials::sizes_on_offer(several, materials::section_of(several))),
              "Harbour wrap: one size. It has several pieces that belong together, so there is one "
              "size.\n");
}

}  // namespace
