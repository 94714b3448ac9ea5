// Widths by Unicode Standard Annex 11 and by the trade's own words.

#include "skeinfall/base/width.hpp"

#include <string>

#include <gtest/gtest.h>

namespace {

using skeinfall::base::display_width;
using skeinfall::base::folded;
using skeinfall::base::padded;

TEST(Width, CountsColumnsAndNotBytes) {
    EXPECT_EQ(display_width(""), 0u);
    EXPECT_EQ(display_width("boucle"), 6u);
    EXPECT_EQ(display_width("boucl\xc3\xa9"), 6u);             // one letter of two bytes
    EXPECT_EQ(display_width("boucle\xcc\x81"), 6u);            // a combining acute accent (Mn)
    EXPECT_EQ(display_width("\xe6\xaf\x9b\xe7\xb3\xb8"), 4u);  // U+6BDB U+7CF8, both wide (W)
    EXPECT_EQ(display_width("\xef\xbc\xa1"), 2u);              // U+FF21, full width (F)
}

TEST(Width, PadsToColumns) {
    EXPECT_EQ(padded("\xe6\xaf\x9b", 4), "\xe6\xaf\x9b  ");
    EXPECT_EQ(padded("wool", 2), "wool");
}

TEST(Width, FoldsAtBlanks) {
    EXPECT_EQ(folded("one two three\nfour", 8, 2), "one two\n  three\nfour");
    EXPECT_EQ(folded("  gw-01  row 18 of cowl", 14, 4), "  gw-01  row\n    18 of cowl");
    EXPECT_EQ(folded("unbreakable", 4, 2), "unbreakable");
    EXPECT_EQ(folded("an unbreakable word", 4, 0), "an\nunbreakable\nword");
    EXPECT_EQ(folded("\n\na\n", 4, 2), "\n\na\n");
}

/// A place wide enough for every word: nothing is lost and no line is too wide.
TEST(Width, FoldingLosesNoWord) {
    const std::string text = "the yarn lasts to row 18 of the cowl and no farther than that";
    for (std::size_t columns = 10; columns < 80; ++columns) {
        std::string back;
        std::string line;
        for (const char c : folded(text, columns, 2) + "\n") {
            if (c != '\n') {
                line += c;
                continue;
            }
            EXPECT_LE(line.size(), columns);
            back += (back.empty() ? "" : " ") + line.substr(line.find_first_not_of(' '));
            line.clear();
        }
        EXPECT_EQ(back, text) << columns;
    }
}

}  // namespace
