// Which skeins may serve a role, and the reason given for each that may not.

#include "skeinfall/cover/candidates.hpp"

#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/builders.hpp"
#include "support/says.hpp"

namespace {

using namespace skeinfall;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

const yarn::Yarn kelpie_200 = support::yarn_of("Kelpie", support::metres(200), support::grams(100));

cover::Candidate candidate(const project::Role& role, const stash::Skein& skein) {
    return cover::candidate_for(role, 0.3 * units::metre, skein);
}

stash::Skein of_fibre(const std::string& content) {
    stash::Skein skein = support::whole("s1", kelpie_200, "A");
    if (!content.empty()) skein.yarn.fibre = support::fibre(content);
    return skein;
}

// A slip of a nought makes one skein enough for anything: a label that no yarn has, or that is not
// what the project says of the same yarn, counts for nothing until it is put right.
TEST(Candidates, ALabelThatCannotBeIsNoSupply) {
    yarn::Yarn slipped = kelpie_200;
    slipped.label.length = support::metres(20'000);
    const stash::Skein skein = support::whole("s1", slipped, "A");
    EXPECT_THAT(report::said(candidate(support::role("MC"), skein).reason),
                HasSubstr("finer than any"));
    EXPECT_FALSE(candidate(support::role("MC"), skein).supply);
    project::Role named = support::role("MC");
    named.name = "Kelpie";
    named.grist = support::grist("200 m / 100 g");
    EXPECT_TRUE(candidate(named, support::whole("s1", kelpie_200, "A")).supply);
    slipped.label.length = support::metres(400);
    EXPECT_THAT(report::said(candidate(named, support::whole("s1", slipped, "A")).reason),
                HasSubstr("one of them must be wrong"));
    // Half as long is the worse reading already.
    slipped.label.length = support::metres(100);
    EXPECT_TRUE(candidate(named, support::whole("s1", slipped, "A")).supply);
}

// A limit is kept when it is met but for binary noise, as `substitute` keeps it.
TEST(Candidates, TheLimitsOfGristAreThoseOfSubstitution) {
    project::Role role = support::role("MC");
    const auto beside = [&](double logarithm) {
        role.grist->value = kelpie_200.label.length->value / kelpie_200.label.mass->value /
                            std::exp(logarithm * (1.0 + 1e-10));
        return candidate(role, support::whole("s1", kelpie_200, "A"));
    };
    role.grist = support::grist("200 m / 100 g");
    EXPECT_EQ(beside(0.10).substitution, 0);
    EXPECT_EQ(beside(0.101).substitution, 1);
    EXPECT_EQ(beside(0.22).substitution, 1);
    EXPECT_TRUE(beside(0.22).supply);
    EXPECT_FALSE(beside(0.221).supply);
}

// theknitaholic.blogspot.com, "swappers make plans", 2009: wool, cashmere and mohair are out for
// an allergy, most alpaca is blended with wool, angora with silk is fine.
TEST(Candidates, AnAllergyReadsTheWholeLabel) {
    project::Role role = support::role("MC");
    role.avoid = {"wool", "cashmere", "mohair"};
    EXPECT_TRUE(candidate(role, of_fibre("70% angora 30% silk")).supply);
    EXPECT_TRUE(candidate(role, of_fibre("100% alpaca")).supply);
    for (const char* content : {"100% wool", "80% alpaca 20% wool", "95% cotton 5% cashmere",
                                "100% Merino", "60% silk 40% kid mohair", "100% shetland wool"}) {
        const cover::Candidate out = candidate(role, of_fibre(content));
        EXPECT_FALSE(out.supply) << content;
        EXPECT_THAT(report::said(out.reason), HasSubstr("must be kept out")) << content;
    }
    const cover::Candidate slip = candidate(role, of_fibre("80% acrylic 20% wol"));
    EXPECT_FALSE(slip.supply);
    EXPECT_EQ(report::said(slip.reason), "\"wol\" may be wool, and wool must be kept out");
    const cover::Candidate unknown = candidate(role, of_fibre(""));
    EXPECT_FALSE(unknown.supply);
    EXPECT_THAT(report::said(unknown.reason), HasSubstr("content unknown"));
}

// What melts on a pan, or may, is not let in, whatever the pattern says (the forum pages named in
// tests/materials/section_test.cpp).
TEST(Candidates, NothingThatMeltsNearHeat) {
    const auto near_heat = [](const std::string& content) {
        const stash::Skein skein = of_fibre(content);
        return cover::candidate_for(support::role("MC"), 0.3 * units::metre, skein, {},
                                    project::Recipient::kitchen_heat);
    };
    EXPECT_TRUE(near_heat("60% cotton 40% linen").supply);
    EXPECT_TRUE(near_heat("100% wool").supply);
    EXPECT_EQ(report::said(near_heat("60% cotton 40% acrylic").reason),
              "contains acrylic, which heat melts");
    EXPECT_EQ(report::said(near_heat("100% acylic").reason),
              "acylic is not a fibre known here, and some melt in heat");
    EXPECT_EQ(report::said(near_heat("").reason), "content unknown, and heat melts some fibres");
}

// The allergy stands even when the skein is the very yarn, colour and class asked for.
TEST(Candidates, AnAllergyOutranksEverythingThatFits) {
    project::Role role = support::role("MC");
    role.name = "Kelpie";
    role.colour = "Slate";
    role.weight = yarn::WeightClass{4};
    role.grist = support::grist("200 m / 100 g");
    stash::Skein skein = of_fibre("100% merino wool");
    skein.colourway = "Slate";
    skein.yarn.weight = yarn::WeightClass{4};
    EXPECT_TRUE(candidate(role, skein).supply);
    role.avoid = {"wool"};
    EXPECT_FALSE(candidate(role, skein).supply);
    EXPECT_THAT(report::said(candidate(role, skein).reason), HasSubstr("contains wool"));
}

TEST(Candidates, AFibreByAnotherNameIsKeptOutToo) {
    project::Role role = support::role("MC");
    role.avoid = {"wool"};
    // Names of breeds and compound names as labels print them (common practice, no source).
    for (const char* content : {"100% bluefaced leicester", "75% extrafine-merino 25% silk"})
        EXPECT_FALSE(candidate(role, of_fibre(content)).supply) << content;
    role.avoid = {"nylon"};
    EXPECT_FALSE(candidate(role, of_fibre("75% wool 25% polyamide")).supply);
    EXPECT_TRUE(candidate(role, of_fibre("100% wool")).supply);
}

TEST(Candidates, NameAndColourRegardlessOfCase) {
    project::Role role = support::role("MC");
    role.name = "KELPIE";
    role.colour = "slate";
    stash::Skein skein = support::whole("s1", kelpie_200, "A");
    EXPECT_THAT(report::said(candidate(role, skein).reason), HasSubstr("colour not recorded"));
    skein.colourway = "Slate";
    EXPECT_TRUE(candidate(role, skein).supply);
    skein.colourway = "Dusk";
    EXPECT_THAT(report::said(candidate(role, skein).reason),
                HasSubstr("a different colour: you asked for slate"));
    skein.yarn.name = "Brack";
    EXPECT_THAT(report::said(candidate(role, skein).reason),
                HasSubstr("a different yarn from KELPIE"));
}

TEST(Candidates, WeightClassMustBeEqualOrPossibleByTheLabel) {
    project::Role role = support::role("MC");
    role.weight = yarn::WeightClass{4};
    stash::Skein skein = support::whole("s1", kelpie_200, "A");
    role.name = skein.yarn.name;
    EXPECT_TRUE(candidate(role, skein).supply) << "the very yarn, its class not noted";
    role.name.clear();
    EXPECT_TRUE(candidate(role, skein).supply) << "200 m of 100 g may be of class 4";
    EXPECT_EQ(candidate(role, skein).substitution, 1) << "after a swatch";
    role.weight = yarn::WeightClass{1};
    EXPECT_THAT(report::said(candidate(role, skein).reason), HasSubstr("class unknown"));
    role.weight = yarn::WeightClass{4};
    skein.yarn.weight = yarn::WeightClass{3};
    EXPECT_THAT(report::said(candidate(role, skein).reason), HasSubstr("4 (Medium) is wanted"));
    skein.yarn.weight = yarn::WeightClass{4};
    EXPECT_TRUE(candidate(role, skein).supply);
}

// Worked example of ours (a convention): |ln ratio| <= 0.22. 200 m / 100 g against 249 and 250 m /
// 100 g.
TEST(Candidates, LengthPerMassWithinTheConvention) {
    project::Role role = support::role("MC");
    role.grist = support::grist("249 m / 100 g");
    EXPECT_TRUE(candidate(role, support::whole("s1", kelpie_200, "A")).supply);
    role.grist = support::grist("250 m / 100 g");
    EXPECT_THAT(report::said(candidate(role, support::whole("s1", kelpie_200, "A")).reason),
                HasSubstr("thicker"));
    role.grist = support::grist("160 m / 100 g");
    EXPECT_THAT(report::said(candidate(role, support::whole("s1", kelpie_200, "A")).reason),
                HasSubstr("thinner"));
    role.name = "Kelpie";  // the named yarn is the named yarn, whatever a label says
    EXPECT_TRUE(candidate(role, support::whole("s1", kelpie_200, "A")).supply);
}

// ourpastimes.com, "how to convert crochet yarn from grams to yards": without a label weigh a
// measured length; one yard on a 1 g scale is nothing, ten yards are something (arithmetic ours).
TEST(Candidates, AnUnlabelledBallIsOutWithAdvice) {
    stash::Skein ball;
    ball.id = "s1";
    ball.yarn.name = "from a jumble sale";
    ball.weighing = support::weighed(48, 1);
    const cover::Candidate out = candidate(support::role("MC"), ball);
    EXPECT_FALSE(out.supply);
    EXPECT_THAT(report::said(out.reason), HasSubstr("measure 10 yd"));
    EXPECT_THAT(report::said(out.reason), HasSubstr("weigh"));
}

TEST(Candidates, APartSkeinMustBeWeighed) {
    stash::Skein begun = support::whole("s1", kelpie_200, "A");
    begun.part = true;
    EXPECT_THAT(report::said(candidate(support::role("MC"), begun).reason), HasSubstr("weigh it"));
    begun.weighing = support::weighed(50, 1);
    const cover::Candidate fits = candidate(support::role("MC"), begun);
    ASSERT_TRUE(fits.supply);
    EXPECT_NEAR(fits.supply->length / units::metre, 100.0, 1e-9);
    EXPECT_THAT(report::said(fits.reason), IsEmpty());
}

TEST(Candidates, ARemnantShorterThanItsTailsIsOut) {
    const auto remnant = [](double g) {
        return support::part("s1", kelpie_200, "A", support::weighed(g, 0.01));
    };
    EXPECT_THAT(report::said(candidate(support::role("MC"), remnant(0.15)).reason),
                HasSubstr("two ends"));
    EXPECT_TRUE(candidate(support::role("MC"), remnant(0.16)).supply);
}

TEST(Candidates, EverySkeinIsAnsweredForInOrder) {
    const std::vector<stash::Skein> stash{support::whole("s3", kelpie_200, "A"),
                                          support::whole("s1", {}, "A"),
                                          support::whole("s2", kelpie_200, "")};
    need::RoleNeed need = need::stated_need(70.0 * units::metre);
    need.role = "MC";
    const auto all =
        cover::every_candidate(cover::cover_role(support::role("MC"), need, stash, {}));
    ASSERT_EQ(all.size(), 3U);
    for (std::size_t i = 0; i < all.size(); ++i) {
        EXPECT_EQ(all[i].skein->id, stash[i].id);
        EXPECT_EQ(all[i].supply.has_value(), !stated(all[i].reason));
    }
}

}  // namespace
