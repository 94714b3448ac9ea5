#include "skeinfall/yarn/strands.hpp"

#include <cmath>
#include <numeric>
#include <stdexcept>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/yarn/diameter.hpp"
#include "skeinfall/yarn/grist_match.hpp"

#include "findings.hpp"
#include "support/builders.hpp"

namespace {

using namespace skeinfall;
using units::Ratio;
using yarn::Level;

units::Grist yd_per_lb(double yards) {
    return yards * units::yard / units::pound;
}

double metres_of(units::Grist grist) {
    return Ratio(grist / yarn_tests::m_per_100g(1)).value();
}

yarn::Together together(const std::vector<double>& grists) {
    std::vector<yarn::Strand> strands;
    for (const double metres : grists) strands.push_back({yarn_tests::m_per_100g(metres), {}});
    return yarn::held_together(strands);
}

// lbhandknits.com, yarn held double: 800 -> 400, 400 -> 200, 300 -> 150.
TEST(Strands, TwoAlikeHalveTheGrist) {
    for (const double metres : {800.0, 400.0, 300.0})
        EXPECT_NEAR(metres_of(together({metres, metres}).grist), metres / 2.0, 1e-9);
}

// 400 with 200 gives 133.3 (lbhandknits.com, yarns held together), 800 with 1200 gives
// 480 (idoknit.com).
TEST(Strands, UnlikeOnesAddAsReciprocals) {
    EXPECT_NEAR(metres_of(together({400, 200}).grist), 133.333, 1e-3);
    EXPECT_NEAR(metres_of(together({800, 1200}).grist), 480.0, 1e-9);
}

// Taylor, Cotton Weaving and Designing (S15): 60s and 40s cotton twisted together are 24s.
TEST(Strands, FollowTaylorsFoldedCounts) {
    const auto count = [](double hanks) { return yd_per_lb(840.0 * hanks); };
    const auto folded = yarn::held_together({{count(60), {}}, {count(40), {}}});
    EXPECT_NEAR(Ratio(folded.grist / count(1)).value(), 24.0, 1e-12);
}

// Published factors for two alike strands are 0.72, 0.7 and 2/3; a handout (S173) has
// 0.73; geometry gives 0.707. The band holds them all.
TEST(Strands, ChangeTheGaugeWithinThePublishedBand) {
    const auto two = together({400, 400});
    EXPECT_NEAR(two.gauge_least.value(), 2.0 / 3.0, 1e-12);
    EXPECT_NEAR(two.gauge_most.value(), 0.73, 1e-12);
    const auto three = together({400, 400, 400});
    EXPECT_LT(three.gauge_least.value(), 1.0 / std::sqrt(3.0));
    EXPECT_GT(three.gauge_most.value(), 1.0 / std::sqrt(3.0));
    EXPECT_NEAR(together({400}).gauge_most.value(), 1.0, 1e-12);
}

// Round yarns of one density: 2 and 3 alike are 1.41421 and 1.73205 thick; 400 and 100 tex
// against 400 tex 1.11803. Computation notes, geometry; so a doubled needle
// (forum.knittinghelp.com/t/5675) is too much.
TEST(Strands, ThickenAsTheRootOfTheirMass) {
    EXPECT_NEAR(together({400, 400}).diameter.value(), 1.41421, 1e-5);
    EXPECT_NEAR(together({400, 400, 400}).diameter.value(), 1.73205, 1e-5);
    EXPECT_NEAR(together({250, 1000}).diameter.value(), 1.11803, 1e-5);
}

double wool_share(const yarn::FibreContent& of) {
    double sum = 0.0;
    for (const auto& share : of.shares)
        if (share.fibre == "wool") sum += share.share.value();
    return sum;
}

// wool-aid.org: a 60 % strand at 200 m per 100 g with a 100 % one at 400 is 73.3 %
// wool and not 80 %; equal strands are 80 %.
TEST(Strands, WeighTheirFibresByMassPerLength) {
    const auto sixty = support::fibre("60% wool 40% acrylic");
    const auto all = support::fibre("100% wool");
    const auto uneven = yarn::held_together({{yarn_tests::m_per_100g(200), sixty},
                                             {yarn_tests::m_per_100g(400), all}})
                            .content;
    EXPECT_NEAR(wool_share(uneven), 0.7333, 1e-4);
    const auto even = yarn::held_together({{yarn_tests::m_per_100g(300), sixty},
                                           {yarn_tests::m_per_100g(300), all}})
                          .content;
    EXPECT_NEAR(wool_share(even), 0.80, 1e-12);
    EXPECT_EQ(even.shares.size(), 2U);
    EXPECT_FALSE(
        yarn::held_together({{yarn_tests::m_per_100g(300), {}}, {yarn_tests::m_per_100g(300), all}})
            .content.known());
}

TEST(Strands, RunOutWithTheShortest) {
    const auto out =
        yarn::first_to_run_out({400.0 * units::metre, 250.0 * units::metre, 250.0 * units::metre});
    EXPECT_EQ(out.strand, 1U);
    EXPECT_EQ(out.worked.value(), 250.0);
    EXPECT_EQ(out.left[0].value(), 150.0);
    EXPECT_EQ(out.left[2].value(), 0.0);
}

TEST(Strands, OfNothingAreRefused) {
    EXPECT_THROW((void)yarn::held_together({}), std::invalid_argument);
    EXPECT_THROW((void)yarn::first_to_run_out({}), std::invalid_argument);
}

// blog.fabric.com, 2011-06-27: "DK is four fingering" fails, 400 x 4 is 100 m per
// 100 g; two strands give 200, which charts do give DK.
TEST(Ladders, AreRefutedByGrist) {
    const auto judged = [](std::size_t count, yarn::WeightClass claimed) {
        return yarn::judge_claim(
            std::vector<yarn::Strand>(count, {yarn_tests::m_per_100g(400), {}}), claimed);
    };
    EXPECT_EQ(judged(4, {3}).level, Level::stop);
    EXPECT_EQ(judged(2, {3}).level, Level::ok);
    EXPECT_EQ(judged(2, {8}).level, Level::caution);
}

// The two above in one answer, and what a pattern wants them for.
TEST(Strands, AreHeldForAPurpose) {
    yarn::Holding holding;
    for (const char* text : {"400 m / 100 g, 100% wool", "200 m / 50 g, 100% wool"})
        holding.strands.push_back(yarn::parse_description(text).value());
    holding.claimed = yarn::WeightClass{6};
    holding.replaces = yarn_tests::m_per_100g(205);
    const yarn::Held held = yarn::hold(holding);
    EXPECT_NEAR(metres_of(held.together.grist), 200.0, 1e-9);
    ASSERT_EQ(held.findings.size(), 2U);
    EXPECT_EQ(held.findings[0].level, Level::ok);
    EXPECT_EQ(held.findings[1].level, Level::stop);
    ASSERT_TRUE(held.run_out);
    EXPECT_EQ(held.run_out->strand, 1U);
    EXPECT_EQ(held.run_out->left[0].value(), 200.0);
    EXPECT_FALSE(held.ranking.classes.empty());
    holding.strands.push_back(yarn::parse_description("class 4").value());
    EXPECT_THROW((void)yarn::hold(holding), std::invalid_argument);
}

// needlesofsteel.blogspot.com, 2011-07-03: two ends of 2/30 worsted make 3 ply
// (2/15), three make 4 ply (2/10). 2/30 is 15 x 560 = 8400 yd/lb.
TEST(Ends, OfAConeReplaceAHandKnittingYarn) {
    EXPECT_EQ(yarn::ends_to_replace(yd_per_lb(8400), yd_per_lb(4200)).count, 2);
    const auto three = yarn::ends_to_replace(yd_per_lb(8400), yd_per_lb(2800));
    EXPECT_EQ(three.count, 3);
    EXPECT_EQ(three.fit.level, Level::ok);
    EXPECT_EQ(yarn::ends_to_replace(yd_per_lb(1000), yd_per_lb(4200)).count, 1);
    EXPECT_EQ(yarn::ends_to_replace(yd_per_lb(1000), yd_per_lb(4200)).fit.level, Level::stop);
}

RC_GTEST_PROP(SplitPlies, ConserveTheirMass, ()) {
    const auto parts =
        *rc::gen::nonEmpty(rc::gen::container<std::vector<int>>(rc::gen::inRange(1, 9)));
    const int plies = std::accumulate(parts.begin(), parts.end(), 0);
    const double grams = *rc::gen::inRange(1, 100000) / 7.0;
    const auto lines = yarn::split_plies({100.0 * units::metre, grams * units::gram, plies}, parts);
    RC_ASSERT(lines.size() == parts.size());
    double sum = 0.0;
    int count = 0;
    for (const auto& line : lines) {
        RC_ASSERT(line.length.value() == 100.0);
        RC_ASSERT(line.mass.value() > 0.0);
        sum += line.mass.value();
        count += line.plies;
    }
    RC_ASSERT(std::abs(sum - grams) <= 1e-9 * grams);
    RC_ASSERT(count == plies);
}

TEST(SplitPlies, RefuseBundlesThatDoNotAddUp) {
    const yarn::PliedStock four{100.0 * units::metre, 50.0 * units::gram, 4};
    EXPECT_THROW((void)yarn::split_plies(four, {2, 3}), base::InputError);
    EXPECT_THROW((void)yarn::split_plies(four, {4, 0}), base::InputError);
    EXPECT_THROW((void)yarn::split_plies(four, {}), base::InputError);
    EXPECT_NEAR(yarn::split_plies(four, {1, 3})[0].mass.value(), 12.5, 1e-12);
}

double per_inch(const std::optional<units::Length>& diameter) {
    return diameter ? Ratio(units::inch / *diameter).value() : -1.0;
}

// Ashenhurst sett page (S100): 8/2 cotton, 3360 yd/lb, c 0.9: 52 diameters per inch. Yarn
// diameter page (S101): cotton 46s 177, 36s 157, 16s 104.
TEST(Diameter, FollowsAshenhurst) {
    EXPECT_NEAR(per_inch(yarn::diameter_by_count(yd_per_lb(3360), "ash_firm")), 52.17, 0.01);
    for (const auto& [count, printed] :
         {std::pair{46.0, 177.0}, std::pair{36.0, 157.0}, std::pair{16.0, 104.0}})
        EXPECT_NEAR(per_inch(yarn::diameter_by_count(yd_per_lb(840 * count), "ash_cotton")),
                    printed, 0.6);
}

// Taylor (S15), factor 0.95: 32s 156, 60s 213, 15s 106 1/2, twice as thick as 60s.
TEST(Diameter, FollowsTaylor) {
    const auto taylor = [](double count) {
        return per_inch(yarn::diameter_by_count(yd_per_lb(840 * count), "taylor_cotton"));
    };
    EXPECT_NEAR(taylor(32), 156.0, 0.5);
    EXPECT_NEAR(taylor(60), 213.0, 0.5);
    EXPECT_NEAR(taylor(15), 106.5, 0.5);
    EXPECT_NEAR(taylor(60) / taylor(15), 2.0, 1e-12);
}

// Peirce, worked in an exam answer (S105): cotton 10s at 0.91 g/cm3 is 0.02874 cm thick.
TEST(Diameter, FollowsPeirce) {
    const units::LinearDensity ten = 1.0 / yd_per_lb(8400);
    const auto diameter = yarn::round_diameter(ten, 0.91 * yarn::gram_per_cm3, Ratio(1.0));
    EXPECT_NEAR(diameter / units::centimetre, 0.02874, 3e-5);
}

// Computation notes, geometry: 500 tex of wool (1.31 g/cm3) at packing 0.35 is 1.1783 mm.
TEST(Diameter, OfALoftyWoolYarn) {
    const units::LinearDensity tex500 = 500.0 * units::gram / (1000.0 * units::metre);
    EXPECT_NEAR(
        yarn::round_diameter(tex500, 1.31 * yarn::gram_per_cm3, Ratio(0.35)) / units::millimetre,
        1.1783, 1e-4);
}

TEST(Diameter, KnowsNoOtherNames) {
    EXPECT_FALSE(yarn::diameter_by_count(yd_per_lb(1000), "peirce_general"));
    EXPECT_FALSE(yarn::diameter_by_count(yd_per_lb(1000), "nothing"));
}

}  // namespace
