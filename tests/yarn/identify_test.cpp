#include "skeinfall/yarn/identify.hpp"

#include <gtest/gtest.h>

#include "skeinfall/yarn/burn_signs.hpp"

namespace {

using namespace skeinfall;
using yarn::Confidence;
using yarn::Evidence;

measure::Estimate<units::Grist> measured_m_per_100g(double metres) {
    const units::Grist grist = metres * units::metre / (100.0 * units::gram);
    return {grist, grist * 0.01};
}

units::WrapGauge wpi(double count) {
    return count * units::wrap / units::inch;
}

units::StitchGauge per_4in(double count) {
    return count * units::stitch / (4.0 * units::inch);
}

const yarn::RankedClass* ranked(const yarn::Ranking& ranking, int number) {
    for (const yarn::RankedClass& one : ranking.classes)
        if (one.weight.number == number) return &one;
    return nullptr;
}

Confidence standing(const yarn::Ranking& ranking, int number) {
    const auto* one = ranked(ranking, number);
    return one == nullptr ? Confidence::unlikely : one->standing;
}

// Published charts put 12 wraps in classes 2, 3 and 4: sport (S31), DK (S27, S34), worsted (S35,
// S36). None of them may come out as likely.
TEST(Wraps, AloneNeverDecide) {
    for (double count = 1.0; count <= 45.0; count += 0.5) {
        Evidence evidence;
        evidence.wraps = wpi(count);
        const auto ranking = yarn::rank_classes(evidence);
        EXPECT_FALSE(ranking.decided()) << count;
        EXPECT_FALSE(ranking.notes.empty());
    }
    Evidence twelve;
    twelve.wraps = wpi(12);
    const auto ranking = yarn::rank_classes(twelve);
    for (const int number : {2, 3, 4}) EXPECT_EQ(standing(ranking, number), Confidence::possible);
}

// Class 4 knows 12 wraps in the charts S30 (9-12), S32 (9-12), S35 (worsted) and S36: four of
// the seven that have a class 4. Counted by hand in wpi_by_class.csv.
TEST(Wraps, ShowWhichChartsAgree) {
    Evidence evidence;
    evidence.wraps = wpi(12);
    const auto ranking = yarn::rank_classes(evidence);
    const auto* medium = ranked(ranking, 4);
    ASSERT_NE(medium, nullptr);
    ASSERT_EQ(medium->supports.size(), 1U);
    EXPECT_EQ(medium->supports[0].agree, 4);
    EXPECT_EQ(medium->supports[0].charts, 7);
}

// 350 m per 100 g: class 1 in S37 (420-580) no, in S32 (4 ply 350-450) yes; class 2 in S27, S31,
// S32, S35, S37, S36.
TEST(Grist, RanksByHowManyChartsAgree) {
    Evidence evidence;
    evidence.grist = measured_m_per_100g(350);
    const auto ranking = yarn::rank_classes(evidence);
    EXPECT_EQ(ranking.classes.front().weight.number, 2);
    EXPECT_EQ(ranked(ranking, 2)->supports[0].agree, 6);
    EXPECT_EQ(ranked(ranking, 2)->supports[0].charts, 8);
}

TEST(Grist, WithAgreeingWrapsAndGaugeDecides) {
    Evidence evidence;
    evidence.grist = measured_m_per_100g(170);
    evidence.wraps = wpi(9);
    evidence.knit_gauge = per_4in(18);
    const auto ranking = yarn::rank_classes(evidence);
    EXPECT_TRUE(ranking.decided());
    EXPECT_EQ(ranking.classes.front().weight.number, 4);
    EXPECT_EQ(ranking.classes.front().supports.size(), 3U);
}

// The sample of ourpastimes.com (grams to yards): 46 m per 100 g is super bulky in charts, 9 wraps
// are not.
TEST(Contradictions, AreSaidAndLeaveNoClassLikely) {
    Evidence evidence;
    evidence.grist = measured_m_per_100g(45.7);
    evidence.wraps = wpi(9);
    const auto ranking = yarn::rank_classes(evidence);
    ASSERT_EQ(ranking.contradictions.size(), 1U);
    EXPECT_EQ(ranking.contradictions[0].one, yarn::EvidenceKind::grist);
    EXPECT_EQ(ranking.contradictions[0].other, yarn::EvidenceKind::wraps);
    EXPECT_NE(ranking.contradictions[0].says.find("heavy for its thickness"), std::string::npos);
    EXPECT_FALSE(ranking.decided());
    for (const auto& one : ranking.classes) EXPECT_NE(one.standing, Confidence::likely);
}

TEST(Contradictions, CallALoftyYarnLight) {
    Evidence evidence;
    evidence.grist = measured_m_per_100g(400);
    evidence.wraps = wpi(8);
    const auto ranking = yarn::rank_classes(evidence);
    ASSERT_EQ(ranking.contradictions.size(), 1U);
    EXPECT_NE(ranking.contradictions[0].says.find("light for its thickness"), std::string::npos);
}

// The Council's lace row counts double crochet, all others single crochet (S03).
TEST(CrochetGauge, OfLaceCountsDoubleCrochet) {
    Evidence evidence;
    evidence.crochet_gauge = {per_4in(36), yarn::CrochetStitch::double_crochet};
    auto ranking = yarn::rank_classes(evidence);
    ASSERT_EQ(ranking.classes.size(), 1U);
    EXPECT_EQ(ranking.classes[0].weight.number, 0);

    evidence.crochet_gauge = {per_4in(32), yarn::CrochetStitch::single};
    ranking = yarn::rank_classes(evidence);
    EXPECT_EQ(ranked(ranking, 0), nullptr);
    EXPECT_EQ(ranking.classes.front().weight.number, 1);
}

TEST(Tools, AloneDoNotDecide) {
    Evidence evidence;
    evidence.hook = 6.0 * units::millimetre;
    evidence.needle = 5.0 * units::millimetre;
    const auto ranking = yarn::rank_classes(evidence);
    EXPECT_EQ(ranking.classes.front().weight.number, 4);
    EXPECT_FALSE(ranking.decided());
}

// Printings with category 7 give jumbo's hook as 15 mm and larger (S04) or 16 mm and larger (S03).
TEST(Tools, UseEveryPrintingOfTheTable) {
    Evidence evidence;
    evidence.hook = 15.0 * units::millimetre;
    const auto ranking = yarn::rank_classes(evidence);
    const auto* jumbo = ranked(ranking, 7);
    ASSERT_NE(jumbo, nullptr);
    EXPECT_GT(jumbo->supports[0].agree, 0);
    EXPECT_LT(jumbo->supports[0].agree, jumbo->supports[0].charts);
}

TEST(Evidence, OfNothingRanksNothing) {
    EXPECT_TRUE(yarn::rank_classes({}).classes.empty());
}

TEST(Scores, StayBetweenNoneAndAllAndAreSorted) {
    for (double metres = 5.0; metres < 3000.0; metres *= 1.07) {
        Evidence evidence;
        evidence.grist = measured_m_per_100g(metres);
        evidence.name = yarn::parse_regional_name("UK DK");
        const auto ranking = yarn::rank_classes(evidence);
        double before = 1.0;
        for (const auto& one : ranking.classes) {
            EXPECT_GT(one.score.value(), 0.0);
            EXPECT_LE(one.score.value(), before + 1e-12);
            before = one.score.value();
        }
    }
}

// UK 4 ply is class 1 in S34, S39, S40, S32 and S35's "3-4 ply", class 2 in S35's second row,
// S37, S41 and S42. Counted by hand in regional_names.csv.
TEST(Names, VoteByChartAndDisagree) {
    const auto votes = yarn::votes_for(yarn::parse_regional_name("UK 4 ply"));
    int one = 0;
    int two = 0;
    for (const auto& vote : votes) {
        one += vote.weight.number == 1 ? 1 : 0;
        two += vote.weight.number == 2 ? 1 : 0;
    }
    EXPECT_EQ(one, 5);
    EXPECT_EQ(two, 4);
    Evidence evidence;
    evidence.name = yarn::parse_regional_name("UK 4 ply");
    EXPECT_FALSE(yarn::rank_classes(evidence).decided());
}

TEST(Names, AreReadWithRegionHyphenAndWeight) {
    const auto name = yarn::parse_regional_name(" AU 8-ply ");
    EXPECT_EQ(name.region, yarn::Region::au_nz);
    EXPECT_EQ(name.name, "8 ply");
    EXPECT_EQ(yarn::parse_regional_name("nz 8ply").name, "8 ply");
    EXPECT_EQ(yarn::parse_regional_name("US Worsted weight").name, "worsted");
    EXPECT_EQ(yarn::parse_regional_name("US laceweight").name, "lace");
    EXPECT_EQ(yarn::parse_regional_name("Aran").region, yarn::Region::any);
    EXPECT_TRUE(yarn::votes_for(yarn::parse_regional_name("UK fog")).empty());
}

// S39 prints "no equivalent, use aran" for worsted in the UK: that names no yarn.
TEST(Names, LeaveOutCellsThatNameNoYarn) {
    for (const std::string& name : yarn::known_names(yarn::Region::uk)) {
        EXPECT_EQ(name.find("equivalent"), std::string::npos) << name;
        EXPECT_EQ(name.find('('), std::string::npos) << name;
    }
}

TEST(Burning, GivesAGuessWithItsConfidence) {
    const auto wool = yarn::fibre_guesses({"hair", "crumbles"});
    ASSERT_FALSE(wool.empty());
    EXPECT_EQ(wool[0].group, "animal");
    EXPECT_EQ(wool[0].confidence, Confidence::likely);
    EXPECT_EQ(wool.size(), 1U);
    EXPECT_EQ(yarn::fibre_guesses({"paper"})[0].confidence, Confidence::possible);
}

TEST(Burning, DoesNotChooseWhereSignsFitSeveral) {
    for (const auto& guess : yarn::fibre_guesses({"melts", "hard bead"}))
        EXPECT_NE(guess.confidence, Confidence::likely) << guess.group;
    // A blend: hair and paper point two ways.
    const auto blend = yarn::fibre_guesses({"hair", "paper", "soft ash"});
    EXPECT_EQ(blend[0].group, "cellulose");
    EXPECT_EQ(blend[0].confidence, Confidence::possible);
    EXPECT_EQ(blend[1].group, "animal");
    EXPECT_EQ(blend[1].confidence, Confidence::unlikely);
}

TEST(Burning, ReadsSignsFromAClosedList) {
    EXPECT_EQ(yarn::parse_burn_signs("Hair , hard bead,hair").value(),
              (std::vector<std::string>{"hair", "hard bead"}));
    const auto wrong = yarn::parse_burn_signs("hiar");
    ASSERT_FALSE(wrong.ok());
    EXPECT_NE(wrong.problem().remedy.find("hair"), std::string::npos);
    EXPECT_FALSE(yarn::parse_burn_signs("").ok());
}

}  // namespace
