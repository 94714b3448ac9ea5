// Cells of CSV tables. A spreadsheet takes a cell that begins with one of = + - @, a tab or a line
// break for a formula: OWASP, "CSV Injection" (from memory).

#include "skeinfall/base/csv_cell.hpp"

#include <string>

#include <gtest/gtest.h>

namespace skeinfall::base {
namespace {

TEST(CsvCell, OfAFormulaIsText) {
    for (const char first : {'=', '+', '-', '@', '\t', '\r', '\n'}) {
        const std::string formula = std::string(1, first) + "1+1";
        const std::string cell = csv_cell(formula);
        EXPECT_EQ(cell.find(formula), cell.find('\'') + 1) << formula;
    }
    EXPECT_EQ(csv_cell("=1"), "'=1");
    EXPECT_EQ(csv_cell("=A1,B1"), "\"'=A1,B1\"");
}

TEST(CsvCell, KeepsWhatItIsGiven) {
    for (const std::string text :
         {"", "plain", " ends ", "'quoted'", "'=1", "''=1", "a,b", "say \"so\"", "=1", "-5 g"}) {
        std::string cell = csv_cell(text);
        if (cell.starts_with('"')) {
            std::string bare;
            for (std::size_t i = 1; i + 1 < cell.size(); ++i) {
                bare += cell[i];
                if (cell[i] == '"') ++i;
            }
            cell = bare;
        }
        EXPECT_EQ(csv_value(cell), text);
    }
}

TEST(CsvTable, GuardsEveryTextAndNoNumber) {
    CsvTable table({"=head", "b", "c"});
    table.text("=1").number("-2.5").empty().end_line();
    table.text("a,b").text("").text("-x").end_line();
    EXPECT_EQ(table.written(), "'=head,b,c\r\n'=1,-2.5,\r\n\"a,b\",,'-x\r\n");
    EXPECT_EQ(CsvTable({"a"}, "\n").written(), "a\n");
}

}  // namespace
}  // namespace skeinfall::base
