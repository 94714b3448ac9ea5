// Helpers on text: trimming, splitting, what a terminal is shown, the nearest known name.

#include "skeinfall/base/text.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace {

namespace base = skeinfall::base;
using Texts = std::vector<std::string>;

TEST(Text, TrimsBlanksAtBothEnds) {
    EXPECT_EQ(base::trimmed(" \t\r\n a b \r\n"), "a b");
    EXPECT_EQ(base::trimmed(" \t "), "");
    EXPECT_EQ(base::trimmed(""), "");
}

TEST(Text, LowersAsciiOnly) {
    EXPECT_EQ(base::lower("MC \xc3\x89 z"), "mc \xc3\x89 z");
    EXPECT_TRUE(base::same_word("Yd", "yD"));
    EXPECT_FALSE(base::same_word("yd", "yds"));
    EXPECT_FALSE(base::same_word("yd", "ya"));
    // '@' and '[' stand next to the letters and must not be taken for them.
    EXPECT_FALSE(base::same_word("@", "`"));
    EXPECT_FALSE(base::same_word("[", "{"));
}

TEST(Text, SplitsAndJoins) {
    EXPECT_EQ(base::split("a; b ;", ';'), (Texts{"a", "b", ""}));
    EXPECT_EQ(base::split("", ';'), (Texts{""}));
    EXPECT_EQ(base::join({"a", "b", "c"}, ", "), "a, b, c");
    EXPECT_EQ(base::join({}, ", "), "");
    EXPECT_EQ(base::join({"", "b", ""}, ","), ",b,");
}

RC_GTEST_PROP(Text, SplittingUndoesJoining, ()) {
    const auto pieces = *rc::gen::nonEmpty(
        rc::gen::container<Texts>(rc::gen::container<std::string>(rc::gen::inRange('a', 'z'))));
    RC_ASSERT(base::split(base::join(pieces, ","), ',') == pieces);
}

TEST(Text, FindsTheFirstByteThatIsNotUtf8) {
    EXPECT_EQ(base::first_invalid_utf8("caf\xc3\xa9"), std::nullopt);
    EXPECT_EQ(base::first_invalid_utf8("ab\xff"), 2U);
    EXPECT_EQ(base::first_invalid_utf8("ab\xc3"), 2U);         // cut short
    EXPECT_EQ(base::first_invalid_utf8("\xc0\xaf"), 0U);       // overlong "/"
    EXPECT_EQ(base::first_invalid_utf8("a\xed\xa0\x80"), 1U);  // a surrogate
}

TEST(Text, ShowsControlCharactersWithoutTheirEffect) {
    EXPECT_EQ(base::shown_inert("\x1b[31mred"), "\\x1b[31mred");
    EXPECT_EQ(base::shown_inert(std::string_view("a\0b", 3)), "a\\x00b");
    EXPECT_EQ(base::shown_inert("a\nb\x7f"), "a\\x0ab\\x7f");
    EXPECT_EQ(base::shown_inert("\xc2\x9b"
                                "31m"),
              "\\x9b31m");  // the one-byte escape, U+009B
    EXPECT_EQ(base::shown_inert("\xff\xfe"), "\\xff\\xfe");
    EXPECT_EQ(base::shown_inert("a\xe2\x80\xae"
                                "b"),
              "ab");  // U+202E turns the line round
    EXPECT_EQ(base::shown_inert("caf\xc3\xa9"), "caf\xc3\xa9");
}

RC_GTEST_PROP(Text, WhatIsShownIsCleanUtf8, ()) {
    const auto bytes =
        *rc::gen::container<std::string>(rc::gen::cast<char>(rc::gen::inRange(0, 256)));
    const std::string shown = base::shown_inert(bytes);
    RC_ASSERT(!base::first_invalid_utf8(shown).has_value());
    for (const char c : shown) RC_ASSERT(static_cast<unsigned char>(c) >= 0x20U && c != '\x7f');
}

TEST(Text, QuotesNoMoreThanEightyBytes) {
    EXPECT_EQ(base::quoted("5 yd"), "\"5 yd\"");
    EXPECT_EQ(base::quoted(std::string(80, 'a')), '"' + std::string(80, 'a') + '"');
    EXPECT_EQ(base::quoted(std::string(81, 'a')), '"' + std::string(80, 'a') + "...\"");
    // A character is not cut in half: its first byte would be the 80th.
    EXPECT_EQ(base::quoted(std::string(79, 'a') + "\xc3\xa9tude"),
              '"' + std::string(79, 'a') + "...\"");
    // Bytes that only look like the middle of a character are no reason to loop.
    EXPECT_EQ(base::quoted(std::string(200, '\x80')), "\"...\"");
}

TEST(Text, SuggestsTheNearestNameWithinTwoSlips) {
    const Texts known{"wool", "cotton", "acrylic", "alpaca"};
    EXPECT_EQ(base::nearest_name("woll", known), "wool");
    EXPECT_EQ(base::nearest_name("COTON", known), "cotton");
    EXPECT_EQ(base::nearest_name("arcylic", known), "acrylic");  // neighbours swapped: one slip
    EXPECT_EQ(base::nearest_name("alpakka", known), "alpaca");
    EXPECT_EQ(base::nearest_name("cashmere", known), std::nullopt);
    EXPECT_EQ(base::nearest_name("wl", known), std::nullopt);  // short words: one slip
    EXPECT_EQ(base::nearest_name("", known), std::nullopt);
    EXPECT_EQ(base::nearest_name("e", {"m", "g"}), std::nullopt);  // nothing of it would be left
    EXPECT_EQ(base::nearest_name(std::string(100000, 'w'), known), std::nullopt);
    EXPECT_EQ(base::nearest_name("ab", {"ac", "ad"}), "ac");  // ties go to the earlier name
}

TEST(Text, NumbersInNamesCountAsNumbers) {
    const auto before = base::naturally_before;
    EXPECT_TRUE(before("s9", "s10"));
    EXPECT_FALSE(before("s10", "s9"));
    EXPECT_TRUE(before("2", "10"));
    EXPECT_TRUE(before("gw-2", "gw-02b"));
    EXPECT_TRUE(before("a2", "b1"));
    EXPECT_TRUE(before("1.9", "1.10"));
    EXPECT_TRUE(before("s", "s1"));
    EXPECT_FALSE(before("s1", "s1"));
    EXPECT_NE(before("s1", "s01"), before("s01", "s1")) << "alike as numbers, never as names";
    EXPECT_TRUE(before("99999999999999999999", "100000000000000000000"));
}

}  // namespace
