// Counts that stand in a name in another way than before it, and amounts of extras that say more
// than one: each counts, or is asked about.

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/exchange/make_words.hpp"

namespace {

using namespace skeinfall;

// A count said alone, by a unit of trade, twice over, or behind "all" is one.
TEST(CountWords, AreReadWithoutANameAndInOtherUnits) {
    for (const auto& [text, count] : std::vector<std::pair<std::string, std::int64_t>>{
             {"make 4: 30 hdc x 60 rows", 4},
             {"make four: 30 hdc x 60 rows", 4},
             {"crochet four: 30 hdc x 60 rows", 4},
             {"knit 4 of these: 30 sts x 60 rows", 4},
             {"4: 30 hdc x 60 rows", 4},
             {"x4: 30 hdc x 60 rows", 4},
             {"4x: 30 hdc x 60 rows", 4},
             {"x 4: 30 hdc x 60 rows", 4},
             {"(4): 30 hdc x 60 rows", 4},
             {"four: 30 hdc x 60 rows", 4},
             {"4 times: 30 hdc x 60 rows", 4},
             {"four times: 30 hdc x 60 rows", 4},
             {"twice: 30 hdc x 60 rows", 2},
             {"make thrice: 30 hdc x 60 rows", 3},
             {"4 pcs: 30 hdc x 60 rows", 4},
             {"4 off: 30 hdc x 60 rows", 4},
             {"all 4: 30 hdc x 60 rows", 4},
             {"strip (all 4): 30 hdc x 60 rows", 4},
             {"strip (all four): 30 hdc x 60 rows", 4},
             {"strip, all 4: 30 hdc x 60 rows", 4},
             {"all 4 strips: 30 hdc x 60 rows", 4},
             {"all of the four strips: 30 hdc x 60 rows", 4},
             {"the 4 strips: 30 hdc x 60 rows", 4},
             {"8 (eight) rags: 30 hdc x 60 rows", 8},
             {"eight (8) rags: 30 hdc x 60 rows", 8},
             {"twenty two [22] rags: 30 hdc x 60 rows", 22},
             {"(8) rags: 30 hdc x 60 rows", 8},
             {"1 dz rags: 30 hdc x 60 rows", 12},
             {"2doz rags: 30 hdc x 60 rows", 24},
             {"two doz. rags: 30 hdc x 60 rows", 24},
             {"1 1/2 dz rags: 30 hdc x 60 rows", 18},
             {"24no tile: 8 x 8 cm", 24},
             {"24 no. tile: 8 x 8 cm", 24},
             {"24 nos tile: 8 x 8 cm", 24},
             {"24 off tile: 8 x 8 cm", 24},
             {"24 pcs of tile: 8 x 8 cm", 24},
             {"24ea tile: 8 x 8 cm", 24},
             {"tile, 24 off: 8 x 8 cm", 24},
             {"tile 24no: 8 x 8 cm", 24},
             {"tile (24 pcs): 8 x 8 cm", 24},
             {"tile times four: 8 x 8 cm", 4},
             {"4 panels A-D: 30 hdc x 60 rows", 4},
             {"tile no. 4: 8 x 8 cm", 1},
             {"mark 2 scarf: 30 hdc x 60 rows", 1},
             {"2nd sleeve: 30 hdc x 60 rows", 1},
             {"panel B: 30 hdc x 60 rows", 1},
             {"panel IV: 30 hdc x 60 rows", 1},
             {"scarf S/M: 30 hdc x 60 rows", 1},
             {"1,200 tiles: 8 x 8 cm", 1200},
             {"tile \xe2\x9c\x95"
              "4: 8 x 8 cm",
              4},
             {"panel A4: 30 hdc x 60 rows", 1},
             {"8/4 cotton rag: 30 hdc x 60 rows", 1},
             {"3/4 sleeve: 30 hdc x 60 rows", 1},
             {"b/w scarf: 30 hdc x 60 rows", 1},
             {"4-ply scarf: 30 hdc x 60 rows", 1},
             {"scarf 1.5: 30 hdc x 60 rows", 1},
             {"stole size 2-4: 30 hdc x 60 rows", 1},
             {"reversible scarf: 30 hdc x 60 rows", 1},
             {"reverse stockinette scarf: 30 sts x 60 rows", 1},
             {"3 no fringe scarves: 30 hdc x 60 rows", 3}}) {
        const auto piece = exchange::parse_piece(text);
        EXPECT_TRUE(piece) << text << ": " << to_text(piece.problem());
        if (!piece) continue;
        EXPECT_EQ(piece->count, count) << text;
    }
    EXPECT_EQ(exchange::parse_piece("tile times two: 8 x 8 cm")->name, "tile");
}

// Things that are numbered or lettered are as many as the range holds; what else may count is
// asked.
TEST(CountWords, OfRangesListsAndTurnedPiecesAreAskedFor) {
    for (const auto& [text, count] :
         std::vector<std::pair<std::string, std::string>>{{"panels A to D", "4"},
                                                          {"panel A-D", "4"},
                                                          {"panel a thru d", "4"},
                                                          {"panel A..D", "4"},
                                                          {"panel A/B/C/D", "4"},
                                                          {"panel A, B, C and D", "4"},
                                                          {"panel A & B", "2"},
                                                          {"panel A + B", "2"},
                                                          {"panel A, panel B", "2"},
                                                          {"panel A B C", "3"},
                                                          {"panel A1-A4", "4"},
                                                          {"panel A1, A2", "2"},
                                                          {"panel (A-D)", "4"},
                                                          {"panels I to IV", "4"},
                                                          {"panels i-iv", "4"},
                                                          {"panel I, II, III", "3"},
                                                          {"panel 1-5", "5"},
                                                          {"panel 1 to 5", "5"},
                                                          {"panel 1/2/3", "3"},
                                                          {"panel 1, 2, 4", "3"},
                                                          {"panel 1,2,3", "3"},
                                                          {"panel 1 and 2", "2"},
                                                          {"panel one to five", "5"},
                                                          {"first and second sleeve strip", "6"},
                                                          {"strip, first to fourth", "4"},
                                                          {"strip 1st-4th", "4"},
                                                          {"strip 4-6 in blue", "3"}}) {
        const auto piece = exchange::parse_piece(text + ": 30 hdc x 60 rows");
        EXPECT_FALSE(piece) << text << " " << piece->count;
        if (piece) continue;
        EXPECT_THAT(piece.problem().expected, testing::HasSubstr("\"" + count + " ")) << text;
    }
    for (const char* const text : {"ea. strip",
                                   "ea strip",
                                   "strip, ea",
                                   "8 (six) rags",
                                   "strip (reverse for other side)",
                                   "right front, left front reversed",
                                   "right front, left front",
                                   "strip, reversing",
                                   "front (mirror)",
                                   "front, opposite",
                                   "strip and mirror image",
                                   "rag bundle",
                                   "rag stack",
                                   "rag family",
                                   "rag, dup",
                                   "rag in triplicate",
                                   "rag couple",
                                   "4 rag bundles",
                                   "rag, 7 blue",
                                   "rag 7/8",
                                   "5 panels A-D",
                                   "rag 9 blue",
                                   "rag x 4 y"})
        EXPECT_FALSE(exchange::parse_piece(text + std::string(": 30 hdc x 60 rows"))) << text;
}

// An amount that stands first hides none behind it, and none is taken once that may be more.
TEST(ExtraWords, WithMoreThanOneAmountOrCountAreAskedAbout) {
    for (const auto& [text, expected] : std::vector<std::pair<std::string, std::string>>{
             {"40 yd for edging and 25 yd for fringe", "answer of its own"},
             {"40 yd edging, 25 yd fringe", "answer of its own"},
             {"40 yd for edging + 25 yd", "answer of its own"},
             {"40 yd for edging plus 25 yd for fringe", "answer of its own"},
             {"40 yd for edging & fringe 25 yd", "answer of its own"},
             {"40 yd for edging (and 25 g for fringe)", "answer of its own"},
             {"edging twice 40 yd", "\"edging 80 yd in all\""},
             {"twice 40 yd", "80 yd in all"},
             {"double 40 yd", "80 yd in all"},
             {"double edging 40 yd", "\"edging 80 yd in all\""},
             {"edging thrice 40 yd", "\"edging 120 yd in all\""},
             {"edging four times 40 yd", "\"edging 160 yd in all\""},
             {"40 yd for edging twice", "\"edging 80 yd in all\""},
             {"edging again 40 yd", "80 yd in all"},
             {"40 yd for edging, same for the other side", "\"edging 80 yd in all\""},
             {"40 yd for 4 pockets", "\"pockets 160 yd in all\""},
             {"40 yd for four pockets", "\"pockets 160 yd in all\""},
             {"40 yd for a pair of straps", "\"straps 80 yd in all\""},
             {"40 yd for pockets (4)", "160 yd in all"},
             {"40 yd a round", "60 m in all"},
             {"40 yd a side", "60 m in all"},
             {"40 yd every round", "60 m in all"},
             {"at least 40 yd", "\"edging 40 yd\""},
             {"edging at least 40 yd", "\"edging 40 yd\""},
             {"more than 40 yd", "the most it may take"},
             {"edging over 40 yd", "the most it may take"},
             {"edging min 40 yd", "the most it may take"},
             {"edging min. 40 yd", "the most it may take"},
             {"edging maybe 40 yd", "the most it may take"},
             {"maybe edging 40 yd", "the most it may take"},
             {"edging, probably 40 yd", "the most it may take"},
             {"edging not less than 40 yd", "the most it may take"},
             {"40 yd more or less", "\"edging 40 yd\""},
             {"edging 40 yd more or less", "\"edging 40 yd\""},
             {"edging 40 yd or so", "the most it may take"},
             {"edging 40 yd or more", "the most it may take"},
             {"edging 40 yd minimum", "the most it may take"},
             {"40 yd at least for the edging", "the most it may take"},
             {"40 yd for edging, roughly", "the most it may take"},
             {"40 yd, give or take", "the most it may take"},
             {"border about 2 rounds of 180 sts", "the most it may take"},
             {"double border of 2 rounds of 180 sts", "rounds of one or of all"}}) {
        const auto extra = exchange::parse_extra(text);
        EXPECT_FALSE(extra) << text << " " << extra->yarn << " x " << extra->things;
        if (extra) continue;
        EXPECT_THAT(to_text(extra.problem()), testing::HasSubstr(expected)) << text;
    }
    for (const auto& [text, name] : std::vector<std::pair<std::string, std::string>>{
             {"40 yd for the edging", "edging"},
             {"40 yd for an edging", "edging"},
             {"40 yd edging", "edging"},
             {"40 yd of edging", "edging"},
             {"40 yd around the neck", "around the neck"},
             {"double crochet edging 40 yd", "double crochet edging"},
             {"edging up to 40 yd", "edging"},
             {"edging 40 yd at most", "edging"},
             {"edging no more than 40 yd", "edging"},
             {"edging and fringe 40 yd", "edging and fringe"},
             {"edging 40 yd", "edging"},
             {"40 yd", "extra"}}) {
        const auto extra = exchange::parse_extra(text);
        EXPECT_TRUE(extra) << text << ": " << to_text(extra.problem());
        if (!extra) continue;
        EXPECT_EQ(extra->name, name) << text;
        EXPECT_EQ(extra->yarn, "40 yd") << text;
        EXPECT_EQ(extra->things, 1) << text;
    }
}

}  // namespace
