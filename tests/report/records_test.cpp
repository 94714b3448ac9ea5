// Answers as one table, against the JSON they are made of; CSV by RFC 4180, Markdown tables as
// GitHub Flavored Markdown 0.29, 4.10, has them.

#include "skeinfall/report/records.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/cover/buy.hpp"
#include "skeinfall/exchange/source_text.hpp"
#include "skeinfall/report/json.hpp"
#include "skeinfall/report/planning.hpp"

#include "support/builders.hpp"
#include "support/csv_rows.hpp"

namespace {

using namespace skeinfall;
using report::RecordForm;
using report::Records;
using testing::HasSubstr;

stash::Skein odd_skein() {
    stash::Skein out = support::whole(
        "k,1", support::yarn_of("Kelpie \"tide\" | <b>", support::metres(200), support::grams(100)),
        "A17");
    out.note = "two\nlines";
    return out;
}

std::vector<std::vector<std::string>> cells(const std::string& text) {
    const exchange::SourceText source(text, "table.csv");
    std::vector<std::vector<std::string>> out;
    for (const exchange::CsvRow& row : support::csv_rows(source)) {
        out.emplace_back();
        for (const exchange::CsvCell& cell : row) out.back().push_back(cell.text);
    }
    return out;
}

TEST(Records, RunAsNoFormulaInASpreadsheet) {
    stash::Skein hostile = odd_skein();
    hostile.yarn.name = "=HYPERLINK(\"x\")";
    const std::string out =
        report::records(report::stash_json({hostile}), Records::stash, RecordForm::csv);
    for (const auto& row : cells(out))
        for (const std::string& cell : row) EXPECT_FALSE(cell.starts_with('=')) << cell;
}

TEST(Records, CsvReadsBack) {
    const auto rows =
        cells(report::records(report::stash_json({odd_skein()}), Records::stash, RecordForm::csv));
    ASSERT_EQ(rows.size(), 2U);
    ASSERT_EQ(rows[0].size(), rows[1].size());
    EXPECT_EQ(rows[0][0], "id");
    EXPECT_EQ(rows[1][0], "k,1");
    EXPECT_EQ(rows[1][1], "Kelpie \"tide\" | <b>");
    EXPECT_EQ(rows[0].back(), "note");
    EXPECT_EQ(rows[1].back(), "two\nlines");
}

TEST(Records, MarkdownKeepsOneRowALine) {
    const std::string table =
        report::records(report::stash_json({odd_skein()}), Records::stash, RecordForm::markdown);
    EXPECT_EQ(std::count(table.begin(), table.end(), '\n'), 3);
    EXPECT_THAT(table, HasSubstr("| Kelpie \"tide\" \\| \\<b\\> |"));
    EXPECT_THAT(table, HasSubstr("218 yd (200 m)"));
}

TEST(Records, NothingIsAHeading) {
    for (const auto& [json, which] :
         {std::pair{report::stash_json({}), Records::stash},
          std::pair{report::buying_json({}), Records::buying},
          std::pair{report::makes_json({}, std::nullopt), Records::makes}}) {
        EXPECT_EQ(cells(report::records(json, which, RecordForm::csv)).size(), 1U);
        const std::string table = report::records(json, which, RecordForm::markdown);
        EXPECT_EQ(std::count(table.begin(), table.end(), '\n'), 2);
    }
}

}  // namespace
