#include "skeinfall/exchange/csv.hpp"

#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include "problems_of.hpp"
#include "support/csv_rows.hpp"

namespace skeinfall::exchange {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;
using Rows = std::vector<std::vector<std::string>>;

Rows cells_of(std::string_view text) {
    Rows out;
    for (const CsvRow& row : support::csv_rows(SourceText(text, "s.csv"))) {
        out.emplace_back();
        for (const CsvCell& cell : row) out.back().push_back(cell.text);
    }
    return out;
}

std::vector<std::string> cell_problems(std::string_view text) {
    return problems_of([&] { return cells_of(text); });
}

/// "line:column" of every cell.
std::vector<std::string> places(std::string_view text) {
    const SourceText source(text, "s.csv");
    std::vector<std::string> out;
    for (const CsvRow& row : support::csv_rows(source))
        for (const CsvCell& cell : row) {
            const base::Place place = source.place(cell.offset);
            out.push_back(std::to_string(place.line) + ":" + std::to_string(place.column));
        }
    return out;
}

// The examples of RFC 4180, section 2, by the number of their rule.
TEST(CsvRfc4180, Rule1RowsEndInLineBreaks) {
    EXPECT_EQ(cells_of("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n"),
              (Rows{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}));
}
TEST(CsvRfc4180, Rule2LastRowMayLackIt) {
    EXPECT_EQ(cells_of("aaa,bbb,ccc\r\nzzz,yyy,xxx"),
              (Rows{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}));
}
TEST(CsvRfc4180, Rule3HeaderIsARowLikeOthers) {
    EXPECT_EQ(cells_of("field_name,field_name,field_name\r\naaa,bbb,ccc\r\nzzz,yyy,xxx\r\n").size(),
              3U);
}
TEST(CsvRfc4180, Rule4SpacesArePartOfAField) {
    EXPECT_EQ(cells_of(" aaa ,b b,\tc"), (Rows{{" aaa ", "b b", "\tc"}}));
}
TEST(CsvRfc4180, Rule5FieldsMayBeQuoted) {
    EXPECT_EQ(cells_of("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx"),
              (Rows{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}));
}
TEST(CsvRfc4180, Rule6LineBreaksAndCommasInsideQuotes) {
    EXPECT_EQ(cells_of("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,\"y,yy\",xxx"),
              (Rows{{"aaa", "b\r\nbb", "ccc"}, {"zzz", "y,yy", "xxx"}}));
}
TEST(CsvRfc4180, Rule7QuotesInsideAreDoubled) {
    EXPECT_EQ(cells_of("\"aaa\",\"b\"\"bb\",\"ccc\""), (Rows{{"aaa", "b\"bb", "ccc"}}));
}

TEST(Csv, EmptyCellsAndEmptyLines) {
    EXPECT_EQ(cells_of(",\n\n\r\n\"\",\n"), (Rows{{"", ""}, {"", ""}}));
    EXPECT_THAT(cells_of(""), IsEmpty());
    EXPECT_THAT(cells_of("\n\n"), IsEmpty());
}

TEST(Csv, ByteOrderMarkIsDropped) {
    EXPECT_EQ(cells_of("\xef\xbb\xbfid,yarn"), (Rows{{"id", "yarn"}}));
}

TEST(Csv, PlacesOfCells) {
    EXPECT_THAT(places("ab,c\r\n\r\n,\"x\ny\",z\n\n q,\"\"\n"),
                ElementsAre("1:1", "1:4", "3:1", "3:2", "4:4", "6:1", "6:4"));
    EXPECT_THAT(places("\n\n\xc3\xa9,b"), ElementsAre("3:1", "3:4"));
}

TEST(Csv, QuoteInsideAnUnquotedCell) {
    EXPECT_THAT(cell_problems("note\n4\" wide,x\n"),
                ElementsAre("s.csv:2:2: a quote inside a cell that does not start with one; "
                            "expected a comma or the end of the line\n"
                            "    Put the whole cell between quotes and write every quote inside it "
                            "twice, as in \"4\"\" wide\"."));
}

TEST(Csv, TextBehindAClosingQuote) {
    EXPECT_THAT(cell_problems("a,\"b\"c\n"),
                ElementsAre("s.csv:1:6: text after the closing quote of a cell; expected a comma "
                            "or the end of the line\n"
                            "    Put the whole cell between quotes and write every quote inside it "
                            "twice, as in \"4\"\" wide\"."));
    EXPECT_EQ(cell_problems("a,\"b\" ,c\n").front().substr(0, 10), "s.csv:1:6:");
}

TEST(Csv, QuoteNeverClosed) {
    EXPECT_THAT(cell_problems("a,b\nc,\"d\ne,f\n"),
                ElementsAre("s.csv:2:3: the quote opened here is never closed; expected a closing "
                            "quote\n"
                            "    Put the whole cell between quotes and write every quote inside it "
                            "twice, as in \"4\"\" wide\"."));
    EXPECT_EQ(cell_problems("\"").front().substr(0, 10), "s.csv:1:1:");
}

TEST(Csv, BytesThatAreNoText) {
    EXPECT_THAT(
        cell_problems("id,yarn\ns1,caf\xe9\n"),
        ElementsAre("s.csv:2:7: a letter here is saved in an older way than UTF-8; expected plain "
                    "text in UTF-8\n    Save the file again with the encoding UTF-8."));
    EXPECT_THAT(cell_problems(std::string_view("id\na\0b\n", 7)),
                ElementsAre("s.csv:2:2: a NUL byte; expected text\n"
                            "    Save the file as CSV in the encoding UTF-8."));
}

/// A row by RFC 4180, section 2; a lone empty cell is quoted, for an empty line is no row.
std::string written(const std::vector<std::string>& row, const std::vector<bool>& quoted) {
    std::string out;
    for (std::size_t c = 0; c < row.size(); ++c) {
        if (c > 0) out += ',';
        if (!quoted[c % quoted.size()] && row[c].find_first_of(",\"\r\n") == std::string::npos &&
            !(row.size() == 1 && row[c].empty())) {
            out += row[c];
            continue;
        }
        out += '"';
        for (const char letter : row[c]) out += letter == '"' ? "\"\"" : std::string(1, letter);
        out += '"';
    }
    return out;
}

RC_GTEST_PROP(CsvProperty, WrittenCellsReadBackTheSame, ()) {
    const auto cell = rc::gen::map(
        rc::gen::container<std::vector<std::string>>(rc::gen::element<std::string>(
            "a", "12", " ", "\t", ",", "\"", "\r\n", "\n", "\r", "\xc3\xa9", "'", "\x01")),
        [](const std::vector<std::string>& pieces) {
            std::string text;
            for (const std::string& piece : pieces) text += piece;
            return text;
        });
    const auto rows = *rc::gen::scale(
        0.3, rc::gen::container<Rows>(
                 rc::gen::nonEmpty(rc::gen::container<std::vector<std::string>>(cell))));
    const auto quoted = *rc::gen::nonEmpty<std::vector<bool>>();
    const auto end = *rc::gen::element<std::string>("\r\n", "\n", "\r");
    const bool last_end = *rc::gen::arbitrary<bool>();

    std::string text;
    for (std::size_t r = 0; r < rows.size(); ++r) {
        text += written(rows[r], quoted);
        if (last_end || r + 1 < rows.size()) text += end;
    }
    RC_ASSERT(cells_of(text) == rows);

    // Every cell stands where its place says.
    const SourceText source(text, "s.csv");
    for (const CsvRow& row : support::csv_rows(source))
        for (const CsvCell& one : row) {
            const auto rest = source.text().substr(one.offset);
            RC_ASSERT(one.offset == 0 || text[one.offset - 1] == ',' ||
                      text[one.offset - 1] == '\n' || text[one.offset - 1] == '\r');
            RC_ASSERT(rest.starts_with(one.text) || rest.starts_with('"'));
        }
}

}  // namespace
}  // namespace skeinfall::exchange
