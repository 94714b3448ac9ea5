// Makes larger than a page can show row by row: what is put together is told, nothing is dropped in
// silence.

#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/materials/section.hpp"
#include "skeinfall/plan/make_plan.hpp"
#include "skeinfall/report/detail/make_drawing.hpp"
#include "skeinfall/report/detail/page_parts.hpp"
#include "skeinfall/report/detail/work_tables.hpp"
#include "skeinfall/report/page.hpp"

#include "support/builders.hpp"
#include "support/outside.hpp"

namespace {

using namespace skeinfall;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::SizeIs;

report::PageGroup group_of_rows(std::int64_t count, bool round = false) {
    report::PageGroup out{"body", {}};
    for (std::int64_t row = 1; row <= count; ++row) {
        report::PageRow one;
        one.text = (round ? "Round " : "Row ") + std::to_string(row);
        one.count = "98 sts";
        one.number = row;
        one.round = round;
        out.rows.push_back(one);
    }
    return out;
}

TEST(LargeMake, RowsThatFitHaveTheirOwnBoxes) {
    std::vector<report::PageGroup> rows{group_of_rows(report::most_boxes)};
    EXPECT_THAT(report::put_in_bands(rows), IsEmpty());
    EXPECT_THAT(rows[0].rows, SizeIs(report::most_boxes));
}

TEST(LargeMake, RowsAreTickedInTens) {
    std::vector<report::PageGroup> rows{group_of_rows(13'005)};
    rows[0].rows[14].marks.push_back({"MC: join k2 after this", false});
    rows[0].rows[29].count = "120 sts";
    EXPECT_THAT(report::put_in_bands(rows), HasSubstr("up to 10 rows, for 13005 are too many"));
    const std::vector<report::PageRow>& boxes = rows[0].rows;
    ASSERT_THAT(boxes, SizeIs(1303));
    EXPECT_EQ(boxes[0].text, "Rows 1 to 10");
    EXPECT_EQ(boxes[0].count, "98 sts");
    EXPECT_EQ(boxes[1].text, "Rows 11 to 14");
    EXPECT_EQ(boxes[2].text, "Row 15") << "a row with a join stands by itself";
    EXPECT_THAT(boxes[2].marks, SizeIs(1));
    EXPECT_EQ(boxes[3].text, "Rows 16 to 20");
    EXPECT_EQ(boxes[4].count, "98 sts to 120 sts");
    EXPECT_EQ(boxes.back().text, "Rows 13001 to 13005");
}

TEST(LargeMake, YarnsOfRowsTickedTogetherAreNamed) {
    std::vector<report::PageGroup> rows{group_of_rows(120'001, true)};
    for (report::PageRow& row : rows[0].rows) {
        row.yarn = row.number % 2 == 0 ? "CC" : "MC";
        row.told = "k around";
    }
    const std::string words = report::put_in_bands(rows);
    EXPECT_THAT(words, HasSubstr("up to 100 rows"));
    EXPECT_THAT(words, HasSubstr("left to the pattern"));
    EXPECT_EQ(rows[0].rows[0].text, "Rounds 1 to 100, MC and CC");
}

report::DrawnPiece striped_piece(std::size_t rows) {
    report::DrawnPiece out;
    for (std::size_t row = 0; row < rows; ++row) {
        out.widths.push_back(1.0 * units::metre);
        out.roles.push_back(row % 3 == 0 ? 1 : 0);
        out.others.emplace_back();
        out.colour_blocks.emplace_back();
    }
    return out;
}

TEST(LargeMake, RowsThatCanBeSeenAreDrawnOneByOne) {
    const report::DrawnStretches out = report::stretches_of(striped_piece(300), 100.0);
    EXPECT_FALSE(out.thin);
    EXPECT_THAT(out.all, SizeIs(200));
}

TEST(LargeMake, TooThinRowsAreDrawnAsMuchInEachYarn) {
    const report::DrawnStretches out = report::stretches_of(striped_piece(30'000), 100.0);
    EXPECT_TRUE(out.thin);
    EXPECT_LE(out.all.size(), 900U);
    std::size_t at = 0;
    std::size_t of_one = 0;
    for (const report::DrawnStretch& one : out.all) {
        EXPECT_EQ(one.from, at) << "no row is left out";
        at = one.to;
        if (one.role == 1) of_one += one.to - one.from;
    }
    EXPECT_EQ(at, 30'000U);
    EXPECT_EQ(of_one, 10'000U);
}

TEST(LargeMake, OneYarnIsNotTooThin) {
    report::DrawnPiece plain = striped_piece(30'000);
    plain.roles.assign(plain.roles.size(), 0);
    const report::DrawnStretches out = report::stretches_of(plain, 100.0);
    EXPECT_FALSE(out.thin);
    EXPECT_THAT(out.all, SizeIs(1));
}

TEST(LargeMake, PiecesThatAreNotDrawnAreCounted) {
    project::Project make = support::rectangle(20, 10);
    make.pieces.clear();
    make.roles[0].rate = units::YarnPerStitch(0.03 * units::metre / units::stitch);
    for (int i = 0; i < 60; ++i)
        make.pieces.push_back(support::piece("piece " + std::to_string(i), "MC", 20, 10));
    const need::MakeNeed need = need::need_of(make, 0);
    const report::DrawnMake drawn =
        report::drawn_make(make, need, joins::answer_joins(make, need, {}, {}));
    EXPECT_THAT(drawn.pieces, SizeIs(48));
    EXPECT_EQ(drawn.no_room_for, 12);
    EXPECT_EQ(drawn.left_out, 0);
}

TEST(LargeMake, ThePageSaysOfWhichYarnItTakesNoWeighings) {
    project::Project make = support::rectangle(20, 6);
    make.roles[0].rate = units::YarnPerStitch(0.03 * units::metre / units::stitch);
    make.roles[0].grist = support::grist("200 m / 100 g");
    const cover::Rules rules{};
    plan::MakePlan plan = plan::plan_make(make, 0, {}, rules, {});
    ASSERT_THAT(plan.joins.roles, SizeIs(1));
    const materials::Section section = materials::section_of(make);
    const report::MakePage page{make, plan.need, plan.cover, rules, plan.joins, section, {}};
    EXPECT_THAT(report::yarns_without_weighings(page), IsEmpty());
    std::vector<need::Step>& steps = plan.joins.roles[0].plan.steps;
    ASSERT_FALSE(steps.empty());
    const need::Step row = steps.back();
    for (std::size_t i = 0; i <= report::page_steps_at_most; ++i) steps.push_back(row);
    EXPECT_THAT(report::yarns_without_weighings(page), SizeIs(1));
    EXPECT_THAT(report::page_html(page), HasSubstr("takes no weighings of MC"));
}

TEST(LargeMake, ThePageSaysThatRowsAreTickedTogether) {
    project::Project make = support::rectangle(20, 13'000);
    make.roles[0].rate = units::YarnPerStitch(0.03 * units::metre / units::stitch);
    make.roles[0].grist = support::grist("200 m / 100 g");
    const cover::Rules rules{};
    const plan::MakePlan plan = plan::plan_make(make, 0, {}, rules, {});
    const materials::Section section = materials::section_of(make);
    const report::MakePage page{make, plan.need, plan.cover, rules, plan.joins, section, {}};
    const std::string html = report::page_html(page);
    EXPECT_THAT(html, HasSubstr("<p>One box stands for up to 10 rows"));
    EXPECT_THAT(html, HasSubstr("Rows 12991 to 13000"));
    EXPECT_THAT(support::outside("pdftotext -layout FILE -",
                                 report::page_pdf(page, report::Paper::a4), ".pdf"),
                HasSubstr("Rows 12991 to 13000"));
}

}  // namespace
