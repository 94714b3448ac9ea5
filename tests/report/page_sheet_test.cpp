// A make of several yarns comes by with one sheet too: its skeins and its weights stand together.

#include <cstdint>
#include <iterator>
#include <sstream>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/materials/section.hpp"
#include "skeinfall/plan/make_plan.hpp"
#include "skeinfall/report/page.hpp"
#include "skeinfall/yarn/weight_class.hpp"

#include "support/builders.hpp"
#include "support/outside.hpp"

namespace {

using namespace skeinfall;
using ::testing::ContainsRegex;
using ::testing::HasSubstr;
using ::testing::StartsWith;

/// 120 rows of 100 stitches in stripes of four yarns.
project::Project blanket() {
    project::Project out = support::rectangle(100, 120);
    out.title = "Kelp blanket";
    out.roles.clear();
    out.pieces[0].role.clear();
    const std::int64_t rows[] = {6, 4, 2, 4};
    const char* const ids[] = {"MC", "CC1", "CC2", "CC3"};
    const char* const colours[] = {"rust", "sand", "moss", "slate"};
    for (std::size_t i = 0; i < std::size(ids); ++i) {
        project::Role role = support::role(ids[i]);
        role.name = "Fleet Worsted";
        role.colour = colours[i];
        role.weight = yarn::parse_weight_class("4");
        role.grist = support::grist("183 m / 100 g");
        role.rate = units::YarnPerStitch(0.07 * units::metre / units::stitch);
        out.roles.push_back(role);
        out.pieces[0].stripes.push_back({ids[i], rows[i]});
    }
    return out;
}

TEST(PageSheet, FourYarnsComeOnOneSheet) {
    const project::Project project = blanket();
    std::vector<stash::Skein> stash;
    for (const project::Role& role : project.roles)
        for (int i = 0; i < 4; ++i) {
            stash.push_back(support::whole(
                role.colour + "-" + std::to_string(i),
                support::yarn_of("Fleet Worsted", support::metres(183), support::grams(100)), "7"));
            stash.back().colourway = role.colour;
        }
    const cover::Rules rules{};
    const plan::MakePlan plan = plan::plan_make(project, 0, stash, rules, {});
    ASSERT_EQ(plan.cover.verdict, cover::Verdict::covered);
    const materials::Section section = materials::section_of(project);
    const report::MakePage page{project, plan.need, plan.cover, rules, plan.joins, section, {}};
    for (const report::Paper paper : {report::Paper::letter, report::Paper::a4}) {
        const std::string text =
            support::outside("pdftotext -layout FILE -", report::page_pdf(page, paper), ".pdf");
        const std::string first = text.substr(0, text.find('\f'));
        for (const char* words :
             {"covered", "Joins", "When to stop", "materials", "Terms", "MC rust-", "CC3 slate-"})
            EXPECT_THAT(first, HasSubstr(words));
        EXPECT_THAT(text.substr(first.size() + 1), StartsWith("Rows"));
        // Each yarn begins a line, and room that is left goes to the picture: at its own size it
        // has 144 dots an inch, and no less than half of that is left of it beside sixteen skeins.
        for (const char* id : {"MC", "CC1", "CC2", "CC3"})
            EXPECT_THAT(first, ContainsRegex("(Yarn|\n) +" + std::string(id) + ": Fleet"));
        const std::string images =
            support::outside("pdfimages -list FILE", report::page_pdf(page, paper), ".pdf");
        std::istringstream words(images.substr(images.find("\n   1")));
        std::vector<std::string> cells(std::istream_iterator<std::string>(words), {});
        EXPECT_LE(std::stoi(cells.at(12)), 288) << images;
    }
}

}  // namespace
