// What must be kept out. The families: Regulation (EU) No 1007/2011 lists wool with the hair of
// alpaca, llama, camel, cashmere goat, angora goat, angora rabbit, vicuna, yak, guanaco and
// cashgora as one group and silk apart; the rest is common practice, no source.

#include "skeinfall/yarn/avoid.hpp"

#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/yarn/fibre.hpp"

namespace {

using namespace skeinfall;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using yarn::Presence;

yarn::FibreContent content_or_none(const std::string& text) {
    return text.empty() ? yarn::FibreContent{} : yarn::parse_fibre_content(text).value();
}

std::optional<yarn::Objection> against(const std::string& printed, const std::string& avoid) {
    return yarn::objection_to(content_or_none(printed), {avoid});
}

TEST(Avoid, FibresAndFamiliesAreUnderstood) {
    for (const char* word : {"wool",         "Wool",          " wool ",
                             "wools",        "merino",        "merino wool",
                             "polyamide",    "nylon",         "latex",
                             "animal fibre", "animal fibres", "Animal Fiber",
                             "animal",       "animal hair",   "wool family",
                             "plant fibre",  "plant fibers",  "man-made",
                             "man made",     "manmade",       "man-made fibres",
                             "synthetic",    "synthetics",    "silk",
                             "yak",          "goat hair"})
        EXPECT_TRUE(yarn::parse_avoided(word).ok()) << word;
}

TEST(Avoid, OtherWordsAreErrorsThatSayWhatToWrite) {
    const auto remedy = [](const std::string& text) {
        const auto read = yarn::parse_avoided(text);
        return read.ok() ? "understood" : read.problem().remedy;
    };
    EXPECT_EQ(remedy("woool"), "Did you mean \"wool\"?");
    EXPECT_EQ(remedy("acrilic"), "Did you mean \"acrylic\"?");
    EXPECT_EQ(remedy("animal fibbre"), "Did you mean \"animal fibre\"?");
    for (const char* wish :
         {"wool allergy", "allergic to wool", "no wool", "wool-free", "wool free"})
        EXPECT_EQ(remedy(wish),
                  "Write \"wool\" alone, or \"wool family\" for every animal's wool and hair.")
            << wish;
    EXPECT_EQ(remedy("nylon allergy"), "Write \"nylon\" alone.");
    EXPECT_EQ(remedy("vegan"), "Write \"animal fibre\".");
    EXPECT_EQ(remedy("lanolin"), "Write \"wool\".");
    EXPECT_EQ(remedy("cotton and silk"),
              "For a fibre that is not known here name its family, such as \"plant fibre\".");
    EXPECT_EQ(remedy("cotton, silk"), "Write each fibre by itself: \"cotton\", \"silk\".");
    for (const char* word : {"", " ", "%", "anything", "zwartbles"})
        EXPECT_FALSE(yarn::parse_avoided(word).ok()) << word;
    EXPECT_EQ(yarn::parse_avoided("w\x1b[31m").problem().what.find('\x1b'), std::string::npos);
}

TEST(Avoid, AFamilyKeepsOutAllOfIt) {
    for (const char* printed :
         {"100% wool", "100% merino", "95% cotton 5% silk", "100% mohair",
          "50% acrylic 50% kid mohair", "100% yak", "100% angora", "100% possum", "100% casein"})
        EXPECT_EQ(against(printed, "animal fibre")->presence, Presence::holds) << printed;
    for (const char* printed : {"100% alpaca", "100% shetland", "100% cashmere", "100% camel hair"})
        EXPECT_EQ(against(printed, "wool family")->presence, Presence::holds) << printed;
    EXPECT_FALSE(against("100% silk", "wool family"));
    EXPECT_FALSE(against("60% cotton 40% bamboo", "animal fibre"));
    for (const char* printed : {"100% linen", "100% hemp", "100% cotton", "100% nettle"})
        EXPECT_EQ(against(printed, "plant fibre")->presence, Presence::holds) << printed;
    for (const char* printed :
         {"100% acrylic", "100% viscose", "100% rayon", "100% lyocell", "75% wool 25% polyamide",
          "100% microfibre", "98% wool 2% metallic"})
        EXPECT_EQ(against(printed, "man-made")->presence, Presence::holds) << printed;
    EXPECT_FALSE(against("100% viscose", "synthetic"));
    EXPECT_FALSE(against("80% wool 20% cotton", "man-made"));
}

TEST(Avoid, AFibreIsFoundByItsOtherNames) {
    EXPECT_EQ(against("70% merino 30% nylon", "polyamide")->presence, Presence::holds);
    EXPECT_EQ(against("100% bluefaced leicester", "wool")->presence, Presence::holds);
    EXPECT_EQ(against("100% polyacrylic", "acrylic")->presence, Presence::holds);
    EXPECT_FALSE(against("100% alpaca", "wool"));
    EXPECT_FALSE(against("100% camel hair", "wool"));
}

// What may be the fibre is no better than the fibre.
TEST(Avoid, WhatIsNotKnownIsNotHarmless) {
    EXPECT_EQ(against("100% animal hair", "wool")->presence, Presence::may_hold);
    EXPECT_EQ(against("100% synthetic", "nylon")->presence, Presence::may_hold);
    const auto slip = against("80% acrylic 20% wol", "wool");
    ASSERT_TRUE(slip);
    EXPECT_EQ(*slip, (yarn::Objection{Presence::may_hold, "wool", "wol", "wool"}));
    EXPECT_EQ(against("80% cotton 20% zwartbles", "wool")->presence, Presence::fibre_unknown);
    EXPECT_EQ(against("100% cotton wol", "wool")->presence, Presence::may_hold);
    EXPECT_EQ(against("", "wool")->presence, Presence::content_unknown);
    EXPECT_EQ(against("100% cotton", "woool")->presence, Presence::word_unknown);
    EXPECT_EQ(against("100% cotton", "")->presence, Presence::word_unknown);
}

TEST(Avoid, TheSurestObjectionIsNamed) {
    const auto found =
        yarn::objection_to(content_or_none("50% zwartbles 50% merino"), {"silk", "wool"});
    ASSERT_TRUE(found);
    EXPECT_EQ(*found, (yarn::Objection{Presence::holds, "wool", "merino", {}}));
    EXPECT_FALSE(yarn::objection_to(content_or_none("100% cotton"), {}));
    EXPECT_FALSE(yarn::objection_to(yarn::FibreContent{}, {}));
}

TEST(Avoid, APhraseForEach) {
    EXPECT_EQ(text(*against("100% merino wool", "wool")), "contains wool, which must be kept out");
    EXPECT_EQ(text(*against("100% merino", "animal fibre")),
              "contains merino, and animal fibre must be kept out");
    EXPECT_THAT(text(*against("100% animal hair", "wool")),
                HasSubstr("\"animal hair\" may be wool"));
    EXPECT_THAT(text(*against("", "wool")), HasSubstr("content unknown"));
    EXPECT_THAT(text(*against("100% cotton", "woool")), HasSubstr("\"woool\""));
}

// Words beside a fibre on labels (common practice, no source): none of them is a slip for another.
TEST(Avoid, WordsBesideAFibreDoNotMatter) {
    for (const char* word :
         {"organic", "recycled", "combed", "bleached", "unbleached", "extra fine", "superfine",
          "carded", "raw", "soft", "natural", "egyptian", "long staple", "gassed", "brushed",
          "terry", "spun", "coloured"}) {
        EXPECT_FALSE(against("100% " + std::string(word) + " cotton", "animal fibre")) << word;
        EXPECT_FALSE(against("100% " + std::string(word) + " cotton", "synthetic")) << word;
        EXPECT_THAT(
            yarn::unproven_in_heat(content_or_none("100% " + std::string(word) + " cotton")),
            IsEmpty())
            << word;
    }
}

// S87 and S88 in lib/data/sources.csv name cotton and wool for hot pads; of silk, viscose and
// lyocell no source says it.
TEST(Heat, OnlyWhatIsKnownToStandItIsFit) {
    EXPECT_THAT(yarn::unproven_in_heat(content_or_none("40% cotton 30% linen 30% merino")),
                IsEmpty());
    EXPECT_THAT(
        yarn::unproven_in_heat(content_or_none("25% silk 25% viscose 25% lyocell 25% cotton")),
        ElementsAre("silk", "viscose", "lyocell"));
    EXPECT_THAT(yarn::unproven_in_heat(content_or_none("50% acrylic 50% bamboo")),
                ElementsAre("acrylic", "bamboo"));
    EXPECT_THAT(yarn::unproven_in_heat(content_or_none("50% yak 50% zwartbles")),
                ElementsAre("yak", "zwartbles"));
    EXPECT_THAT(yarn::unproven_in_heat(content_or_none("100% faux cotton")),
                ElementsAre("faux cotton"));
    EXPECT_THAT(yarn::unproven_in_heat(yarn::FibreContent{}), IsEmpty());
}

}  // namespace
