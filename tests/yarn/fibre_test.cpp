// Fibre content as labels print it, and which printed names mean the same fibre.

#include "skeinfall/yarn/fibre.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/builders.hpp"

namespace {

using namespace skeinfall;
using namespace skeinfall::yarn;
using skeinfall::units::Ratio;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

TEST(FibreContent, IsReadAsLabelsPrintIt) {
    const FibreContent expected{{{"wool", Ratio(0.8)}, {"nylon", Ratio(0.2)}}};
    for (const char* text : {"80% wool 20% nylon", "80 % Wool, 20 % Nylon", "80% wool/20% nylon",
                             "80% WOOL; 20% NYLON", "80% wool + 20% nylon", "80% wool & 20% nylon",
                             "  80%wool,20%nylon  "})
        EXPECT_EQ(support::fibre(text), expected) << text;
    EXPECT_EQ(support::fibre("100% bluefaced leicester").shares.at(0).fibre, "bluefaced leicester");
    EXPECT_DOUBLE_EQ(support::fibre("62.5% cotton 37.5% linen").shares.at(0).share, 0.625);
    EXPECT_TRUE(support::fibre("100% wool").known());
    EXPECT_FALSE(FibreContent{}.known());
}

TEST(FibreContent, SharesAddToAHundredWithinHalfAPerCent) {
    EXPECT_TRUE(parse_fibre_content("33.3% wool 33.3% silk 33.3% linen").ok());
    EXPECT_TRUE(parse_fibre_content("99.6% wool").ok());
    EXPECT_TRUE(parse_fibre_content("60% wool 40.4% silk").ok());
    EXPECT_FALSE(parse_fibre_content("99.4% wool").ok());
    EXPECT_FALSE(parse_fibre_content("60% wool 40.6% silk").ok());
}

TEST(FibreContent, FaultsHaveTheirColumn) {
    struct Fault {
        std::string text;
        std::size_t column;
        std::string what;
    };
    for (const Fault& fault : std::initializer_list<Fault>{
             {"", 1, "no fibre in it"},
             {" , ", 1, "no fibre in it"},
             {"wool", 1, "a share without \"%\""},
             {"80% wool 20 nylon", 10, "a share without \"%\""},
             {"80% wool, nylon 20%", 11, "\"nylon 20%\" is not a share above zero"},
             {"0% wool 100% silk", 1, "\"0%\" is not a share above zero"},
             {"-5% wool", 1, "\"-5%\" is not a share above zero"},
             {"80% wool 20%", 13, "a share without a fibre"},
             {"80% 20% wool", 4, "a share without a fibre"},
             {"80% wool 30% nylon", 1, "the shares add to 110 %"},
             {"120% wool", 1, "the shares add to 120 %"},
             {"80% wool 20% \x1b[2Jnylon 20%", 16, "\"2Jnylon 20%\" is not a share above zero"},
         }) {
        SCOPED_TRACE(fault.text);
        const auto read = parse_fibre_content(fault.text);
        ASSERT_FALSE(read.ok());
        EXPECT_EQ(read.problem().place.column, fault.column);
        EXPECT_THAT(read.problem().what, HasSubstr(fault.what));
        EXPECT_EQ(read.problem().what.find('\x1b'), std::string::npos);
        EXPECT_EQ(read.problem().remedy, "Write it like \"80% wool 20% nylon\".");
    }
}

TEST(FibreContent, IsPrinted) {
    EXPECT_EQ(text(support::fibre("80% wool 20% nylon")), "80 % wool, 20 % nylon");
    EXPECT_EQ(text(support::fibre("33.3% wool 33.3% silk 33.4% linen")),
              "33 % wool, 33 % silk, 33 % linen");
    EXPECT_EQ(text(FibreContent{}), "content unknown");
}

// EU fibre names (S76 in lib/data/sources.csv) put polyamide for nylon, viscose for rayon and
// elastane for spandex; breeds and lamb's wool being wool is common practice, no source.
TEST(FibreNames, KindsAndOtherNames) {
    for (const auto& [printed, fibre] : std::initializer_list<std::pair<const char*, const char*>>{
             {"wool", "wool"},
             {"Merino wool", "wool"},
             {"extra-fine merino", "wool"},
             {"superwash merino wool", "WOOL"},
             {"lambswool", "wool"},
             {"bluefaced leicester", "wool"},
             {"Bluefaced  Leicester (superwash)", "wool"},
             {"polyamide", "nylon"},
             {"nylon", "polyamide"},
             {"PA (polyamide)", "nylon"},
             {"linen", "flax"},
             {"rayon", "viscose"},
             {"viscose from bamboo", "rayon"},
             {"spandex", "elastane"},
             {"baby alpaca", "alpaca"},
             {"mohair", "mohair"},
         })
        EXPECT_TRUE(is_kind_of(printed, fibre)) << printed << " / " << fibre;
    for (const auto& [printed, fibre] : std::initializer_list<std::pair<const char*, const char*>>{
             {"cotton", "wool"},
             {"woollen-spun cotton", "wool"},
             {"leicester", "wool"},
             {"mohair", "wool"},
             {"acrylic", "nylon"},
             {"silky acrylic", "silk"},
             {"wool", ""},
             {"", "wool"},
         })
        EXPECT_FALSE(is_kind_of(printed, fibre)) << printed << " / " << fibre;
}

TEST(FibreNames, AnAvoidedFibreIsFoundInABlend) {
    EXPECT_TRUE(contains(support::fibre("75% cotton 25% bluefaced leicester"), "wool"));
    EXPECT_TRUE(contains(support::fibre("75% wool 25% polyamide"), "nylon"));
    EXPECT_FALSE(contains(support::fibre("60% cotton 40% acrylic"), "wool"));
    EXPECT_FALSE(contains(FibreContent{}, "wool"));
}

// Acetate, acrylic, nylon, polyester and elastane soften or melt; wool, silk, cotton, linen and
// viscose do not (S81 to S86 in lib/data/sources.csv).
TEST(FibreNames, WhatMelts) {
    EXPECT_THAT(melting_fibres(support::fibre("40% wool 20% polyamide 20% acrylic 20% cotton")),
                ElementsAre("polyamide", "acrylic"));
    EXPECT_THAT(melting_fibres(support::fibre("50% acetate 45% recycled polyester 5% spandex")),
                ElementsAre("acetate", "recycled polyester", "spandex"));
    EXPECT_THAT(melting_fibres(support::fibre("20% wool 20% silk 20% cotton 20% linen 20% rayon")),
                IsEmpty());
    EXPECT_THAT(melting_fibres(FibreContent{}), IsEmpty());
}

}  // namespace
