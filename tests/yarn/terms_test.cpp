// Stitch names of the two sets, and abbreviations.

#include "skeinfall/yarn/terms.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "skeinfall/base/text.hpp"

namespace {

using namespace skeinfall;
using namespace skeinfall::yarn;
using testing::AllOf;
using testing::HasSubstr;

std::string in(std::string_view text, Naming to) {
    const auto term = term_for(text, to);
    EXPECT_TRUE(term.ok()) << text;
    return term->in(to).abbreviation;
}

// S56 UK/US terms article; S37 conversion PDF; dtr to trtr also S60.
TEST(Terms, PublishedPairs) {
    const std::vector<std::pair<std::string, std::string>> pairs{
        {"sl st", "ss"}, {"sc", "dc"}, {"hdc", "htr"}, {"dc", "tr"}, {"tr", "dtr"}};
    for (const auto& [us, uk] : pairs) {
        EXPECT_EQ(in("US " + us, Naming::uk), uk);
        EXPECT_EQ(in("UK " + uk, Naming::us), us);
        EXPECT_EQ(in("US " + us, Naming::us), us);
    }
    // The UK abbreviation differs: trtr in S56, ttr in S37.
    EXPECT_EQ(in("US dtr", Naming::uk), "trtr or ttr");
    EXPECT_EQ(in("UK trtr", Naming::us), "dtr");
    EXPECT_EQ(in("UK ttr", Naming::us), "dtr");
}

TEST(Terms, NamesAndPlaces) {
    for (const auto* text :
         {"UK tr", "tr UK", "tr (UK)", "uk TR", "UK treble crochet", "UK treble"})
        EXPECT_EQ(in(text, Naming::us), "dc") << text;
    for (const auto* text : {"US tr", "US triple crochet", "US treble crochet"})
        EXPECT_EQ(in(text, Naming::uk), "dtr") << text;
    EXPECT_EQ(in("tension", Naming::us), "gauge");
    EXPECT_EQ(in("cast off", Naming::us), "BO");
    EXPECT_EQ(in("miss", Naming::us), "sk");
    EXPECT_EQ(in("stocking stitch", Naming::us), "St st");
}

TEST(Terms, AlikeInBothNeedsNoSet) {
    EXPECT_EQ(in("ch", Naming::uk), "ch");
    EXPECT_EQ(in("slip stitch", Naming::us), "sl st");
    // Only one set has these.
    EXPECT_EQ(in("sc", Naming::uk), "dc");
    EXPECT_EQ(in("htr", Naming::us), "hdc");
}

TEST(Terms, DifferentStitchesUnderOneNameAreRefused) {
    for (const auto* text : {"dc", "tr", "dtr", "trtr", "double crochet", "treble", "dc2tog"}) {
        const auto term = term_for(text, Naming::us);
        ASSERT_FALSE(term.ok()) << text;
        EXPECT_THAT(term.problem().remedy, AllOf(HasSubstr("\"US "), HasSubstr("\"UK "))) << text;
    }
    EXPECT_THAT(term_for("tr", Naming::us).problem().what,
                AllOf(HasSubstr("as US tr (treble (triple) crochet) it stays as it is"),
                      HasSubstr("as UK tr (treble crochet) it is US dc (double crochet)")));
}

TEST(Terms, AffixesStayOnTheStitch) {
    EXPECT_EQ(in("UK dc2tog", Naming::us), "sc2tog");
    EXPECT_EQ(in("US dc3tog", Naming::uk), "tr3tog");
    EXPECT_EQ(in("UK FPtr", Naming::us), "FPdc");
    EXPECT_EQ(in("US BPdc", Naming::uk), "BPtr");
    EXPECT_EQ(term_for("UK fptr2tog", Naming::us)->us.name, "front post double crochet 2 together");
    EXPECT_FALSE(term_for("UK gauge2tog", Naming::us).ok());
    EXPECT_FALSE(term_for("UK dc1tog", Naming::us).ok());
}

TEST(Terms, Unknown) {
    const auto slip = term_for("UK trebel crochet", Naming::us);
    ASSERT_FALSE(slip.ok());
    EXPECT_THAT(slip.problem().remedy, HasSubstr("treble crochet"));
    EXPECT_FALSE(term_for("", Naming::us).ok());
    EXPECT_FALSE(term_for("UK", Naming::us).ok());
    EXPECT_FALSE(term_for("UK hdc", Naming::us).ok());
}

TEST(Terms, SetsOfNames) {
    EXPECT_EQ(*parse_naming("uk"), Naming::uk);
    EXPECT_EQ(*parse_naming("US"), Naming::us);
    EXPECT_FALSE(parse_naming("French").ok());
}

// S63, S61: lists of abbreviations.
TEST(Terms, Abbreviations) {
    ASSERT_EQ(abbreviations_of("tch").size(), 1U);
    EXPECT_EQ(abbreviations_of("tch").front().meaning, "turning chain");
    EXPECT_EQ(abbreviations_of("t-ch").size(), 1U);
    EXPECT_EQ(abbreviations_of("k2tog").front().craft, "knit");
    EXPECT_EQ(abbreviations_of("MC").size(), 2U);
    EXPECT_EQ(abbreviations_of("sts").size(), 2U);
    EXPECT_TRUE(abbreviations_of("").empty());
    EXPECT_TRUE(abbreviations_of("furlong").empty());
}

// To the other set and back is the same stitch, whatever the row.
RC_GTEST_PROP(TermsProperties, ThereAndBack, ()) {
    const auto* us = *rc::gen::element<const char*>("ch", "sl st", "sc", "hdc", "dc", "tr", "dtr",
                                                    "trtr", "sc2tog", "FPdc", "BPhdc", "dc4tog");
    const auto there = term_for(std::string("US ") + us, Naming::uk);
    RC_ASSERT(there.ok());
    const std::string uk = base::split(there->uk.abbreviation, ' ').front();
    const std::string name = uk == "ss" || uk == "ch" ? there->uk.abbreviation : uk;
    RC_ASSERT(term_for("UK " + name, Naming::us)->us == there->us);
}

RC_GTEST_PROP(TermsProperties, NoTextIsTooStrange, (const std::string& text)) {
    const auto term = term_for(text, Naming::uk);
    RC_ASSERT(term.ok() || !base::first_invalid_utf8(to_text(term.problem())));
    (void)abbreviations_of(text);
}

}  // namespace
