#pragma once
/// \file
/// Signs and words that the lexer knows. Inner part of the notation.

#include <array>
#include <string_view>
#include <utility>

#include "skeinfall/notation/detail/tokens.hpp"

namespace skeinfall::notation::lexed {

struct Sign {
    std::string_view text;
    TokenKind kind;
};
// Longer signs first.
inline constexpr auto signs = std::to_array<Sign>({
    {"**", TokenKind::double_star},
    {"*", TokenKind::star},
    {",", TokenKind::comma},
    {";", TokenKind::semicolon},
    {".", TokenKind::full_stop},
    {":", TokenKind::colon},
    {"(", TokenKind::open},
    {"[", TokenKind::open},
    {"{", TokenKind::open},
    {")", TokenKind::close},
    {"]", TokenKind::close},
    {"}", TokenKind::close},
    {"-", TokenKind::dash},
    {"\xe2\x80\x90", TokenKind::dash},  // hyphen
    {"\xe2\x88\x92", TokenKind::dash},  // minus
    {"\xe2\x80\x93", TokenKind::dash},  // en dash
    {"\xe2\x80\x94", TokenKind::dash},  // em dash
    {"=", TokenKind::equals},
    {"/", TokenKind::slash},
    {"\xe2\x80\xa6", TokenKind::full_stop},  // horizontal ellipsis
    {"<", TokenKind::open},
    {">", TokenKind::close},
    {"~", TokenKind::dash},
    {"?", TokenKind::full_stop},
});
/// Marks that stand for a star, beside it or within its part: each closes its own kind only.
struct Mark {
    std::string_view text;
    char sign;
};
inline constexpr auto other_stars = std::to_array<Mark>({{"|", '|'},
                                                         {"^", '^'},
                                                         {"\xe2\x80\xa0", 'd'},    // dagger
                                                         {"\xe2\x80\xa1", 'D'},    // double dagger
                                                         {"\xe2\x98\x85", 's'},    // black star
                                                         {"\xe2\x99\xa5", 'h'},    // heart
                                                         {"\xc2\xa7", 'p'},        // section sign
                                                         {"\xe2\x97\x8a", 'l'}});  // lozenge
/// From two on; "one" is a word of names like "make one".
inline constexpr auto spelled_numbers = std::to_array<std::string_view>(
    {"two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
     "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty"});
inline constexpr std::string_view times_sign = "\xc3\x97";
/// Blanks and marks without a width, as pages and PDF files have them.
inline constexpr auto odd_blanks =
    std::to_array<std::string_view>({"\xc2\xa0", "\xe2\x80\x89", "\xe2\x80\x8a", "\xe2\x80\xaf",
                                     "\xe2\x80\x8b", "\xef\xbb\xbf", "\xc2\xad"});
/// Quotes around words.
inline constexpr auto quotes =
    std::to_array<std::string_view>({"\"", "'", "\xe2\x80\x9c", "\xe2\x80\x9d", "\xe2\x80\x98",
                                     "\xe2\x80\x99", "\xe2\x80\xb3", "\xe2\x80\xb2"});
/// Signs for inches behind a number.
inline constexpr auto inch_signs =
    std::to_array<std::string_view>({"\"", "\xe2\x80\x9d", "\xe2\x80\x9c", "\xe2\x80\xb3", "''"});
struct Fraction {
    std::string_view text;
    double value;
};
inline constexpr auto fractions = std::to_array<Fraction>({{"\xc2\xbc", 0.25},
                                                           {"\xc2\xbd", 0.5},
                                                           {"\xc2\xbe", 0.75},
                                                           {"\xe2\x85\x93", 1.0 / 3.0},
                                                           {"\xe2\x85\x94", 2.0 / 3.0},
                                                           {"\xe2\x85\x9b", 0.125},
                                                           {"\xe2\x85\x9c", 0.375},
                                                           {"\xe2\x85\x9d", 0.625},
                                                           {"\xe2\x85\x9e", 0.875}});
/// Words that a full stop shortens; what stands behind tells that it is no end of a sentence.
inline constexpr auto shortened = std::to_array<std::string_view>(
    {"st",   "sts", "ch",  "chs", "sl",  "rep", "rnd", "rnds", "sp",  "sps",
     "beg",  "ea",  "tog", "sk",  "inc", "dec", "sc",  "dc",   "hdc", "tr",
     "foll", "rem", "k",   "p",   "yo",  "lp",  "lps", "no",   "pat", "patt"});
inline constexpr auto goes_on = std::to_array<std::string_view>(
    {"st",     "sts",  "in",     "into",     "of",      "from",     "tog",    "across",   "to",
     "around", "sp",   "and",    "remain",   "times",   "rem",      "more",   "is",       "until",
     "at",     "next", "end",    "on",       "over",    "left",     "before", "together", "each",
     "for",    "with", "evenly", "unworked", "between", "remaining"});

}  // namespace skeinfall::notation::lexed
