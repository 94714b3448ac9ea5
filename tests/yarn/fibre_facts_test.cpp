#include "skeinfall/yarn/fibre_facts.hpp"

#include <gtest/gtest.h>

#include "skeinfall/yarn/fibre_match.hpp"
#include "skeinfall/yarn/yarn.hpp"

#include "findings.hpp"
#include "support/builders.hpp"

namespace {

using namespace skeinfall;
using yarn::Humidity;
using yarn::Level;

double density(const char* text) {
    return units::Ratio(*yarn::density_of(support::fibre(text)) / yarn::gram_per_cm3).value();
}

// Morton and Hearle, Physical Properties of Textile Fibres, table 5.1 (S73), at 65 % humidity.
TEST(FibreFacts, HoldThePublishedDensities) {
    EXPECT_DOUBLE_EQ(density("100% wool"), 1.31);
    EXPECT_DOUBLE_EQ(density("100% cotton"), 1.52);
    EXPECT_DOUBLE_EQ(density("100% polyamide"), 1.14);
    EXPECT_DOUBLE_EQ(density("100% merino wool"), 1.31);
}

// 1 / (0.6/1.52 + 0.4/1.19) = 1.36823: volumes add, not densities. Arithmetic ours.
TEST(FibreFacts, BlendDensitiesByVolume) {
    EXPECT_NEAR(density("60% cotton 40% acrylic"), 1.36823, 1e-5);
    EXPECT_FALSE(yarn::density_of(support::fibre("50% wool 50% moonbeam")));
    EXPECT_FALSE(yarn::density_of({}));
}

TEST(FibreFacts, MarkWhatIsFromMemory) {
    EXPECT_FALSE(yarn::fibre_called("wool")->density_from_memory);
    EXPECT_TRUE(yarn::fibre_called("alpaca")->density_from_memory);
    EXPECT_TRUE(yarn::fact_of("alpaca", "care")->from_memory);
    EXPECT_FALSE(yarn::fact_of("wool", "care")->from_memory);
}

TEST(FibreFacts, TellFormsOfAFibreApart) {
    EXPECT_TRUE(yarn::fibre_called("wool")->felts);
    EXPECT_FALSE(yarn::fibre_called("superwash wool")->felts);
    EXPECT_EQ(yarn::fibre_called("mercerised cotton")->name, "cotton, mercerised");
    EXPECT_EQ(yarn::fibre_called("cotton")->name, "cotton");
    EXPECT_NE(yarn::fact_of("superwash wool", "care")->value, yarn::fact_of("wool", "care")->value);
    EXPECT_FALSE(yarn::fibre_called("moonbeam"));
    EXPECT_FALSE(yarn::fact_of("moonbeam", "care"));
}

TEST(FibreFacts, OfEveryKnownFibreHaveADrape) {
    for (const yarn::Fibre& fibre : yarn::known_fibres()) {
        // "cotton, mercerised" is printed as "mercerised cotton".
        const std::string name = fibre.name == "cotton, mercerised"
                                     ? "mercerised cotton"
                                     : std::string(fibre.name.substr(0, fibre.name.find(" (")));
        EXPECT_TRUE(yarn::fact_of(name, "drape")) << name;
        EXPECT_GT(fibre.density.value(), 0.8e6) << name;
        EXPECT_LT(fibre.density.value(), 1.7e6) << name;
    }
}

// Natural fibres by elasticity, most first: wool, silk, cotton, ramie, flax, hemp (S92).
TEST(FibreFacts, KeepThePublishedOrderOfElasticity) {
    const char* order[] = {"wool", "silk", "cotton", "ramie", "flax", "hemp"};
    for (std::size_t i = 1; i < std::size(order); ++i)
        EXPECT_GE(yarn::fibre_called(order[i - 1])->elasticity,
                  yarn::fibre_called(order[i])->elasticity)
            << order[i];
}

// Regulation (EU) 1007/2011, Annex IX (S76): combed wool 18.25, polyamide staple 6.25 %, so a
// 75/25 blend is 15.25 %.
TEST(AgreedAllowance, OfABlendIsTheWeightedMean) {
    const auto blend =
        yarn::agreed_allowance(support::fibre("75% combed wool 25% polyamide staple"));
    ASSERT_TRUE(blend);
    EXPECT_NEAR(blend->least.value(), 0.1525, 1e-12);
    EXPECT_NEAR(blend->most.value(), 0.1525, 1e-12);
}

// The same annex: carded wool 17.00, cotton 8.50 and mercerised 10.50, acrylic 2.00 %.
TEST(AgreedAllowance, IsARangeWhereTheLabelIsSilent) {
    const auto wool = yarn::agreed_allowance(support::fibre("100% wool"));
    EXPECT_NEAR(wool->least.value(), 0.17, 1e-12);
    EXPECT_NEAR(wool->most.value(), 0.1825, 1e-12);
    EXPECT_NEAR(yarn::agreed_allowance(support::fibre("100% cotton"))->most.value(), 0.085, 1e-12);
    EXPECT_NEAR(yarn::agreed_allowance(support::fibre("100% mercerised cotton"))->least.value(),
                0.105, 1e-12);
    EXPECT_NEAR(yarn::agreed_allowance(support::fibre("100% alpaca"))->least.value(), 0.17, 1e-12);
    EXPECT_NEAR(yarn::agreed_allowance(support::fibre("100% silk"))->most.value(), 0.11, 1e-12);
    EXPECT_FALSE(yarn::agreed_allowance(support::fibre("100% moonbeam")));
}

// Computation notes: regains from memory, so these pin the arithmetic and not the figures.
TEST(Humidity, ChangesAMassByItsRegain) {
    EXPECT_NEAR(yarn::mass_change(support::fibre("100% wool"), Humidity::dry_40, Humidity::damp_80)
                    ->value(),
                1.08213, 1e-5);
    const auto there = yarn::mass_change(support::fibre("50% wool 50% cotton"), Humidity::dry_40,
                                         Humidity::damp_80);
    EXPECT_NEAR(there->value(), (1.08213 + 1.05687) / 2.0, 1e-5);
    EXPECT_EQ(
        yarn::mass_change(support::fibre("100% wool"), Humidity::dry_40, Humidity::dry_40)->value(),
        1.0);
    EXPECT_DOUBLE_EQ(
        yarn::mass_change(support::fibre("100% acrylic"), Humidity::dry_40, Humidity::damp_80)
            ->value(),
        1.0);
    EXPECT_FALSE(
        yarn::mass_change(support::fibre("100% moonbeam"), Humidity::dry_40, Humidity::damp_80));
}

TEST(Humidity, WidensAMassReadInUnknownAir) {
    EXPECT_NEAR(yarn::humidity_spread(support::fibre("100% wool"))->value(), 0.0228, 5e-5);
    EXPECT_NEAR(yarn::humidity_spread(support::fibre("100% cotton"))->value(), 0.0160, 5e-5);
    EXPECT_NEAR(yarn::humidity_spread(support::fibre("100% nylon"))->value(), 0.0075, 5e-5);
    EXPECT_NEAR(yarn::humidity_spread(support::fibre("100% acrylic"))->value(), 0.003, 1e-12);
    EXPECT_NEAR(yarn::humidity_spread(support::fibre("100% alpaca"))->value(), 0.0228, 5e-5);
}

// Directive 76/211/EEC, Annex I (S111), rounded up to 0.1 g as the UK page says (S112).
TEST(TolerableError, IsThatOfThePackagedGoodsTable) {
    const std::pair<double, double> rows[] = {{25, 2.3},  {50, 4.5},  {100, 4.5},
                                              {150, 6.8}, {200, 9.0}, {500, 15.0}};
    for (const auto& [nominal, tolerance] : rows)
        EXPECT_NEAR(yarn::tolerable_error(nominal * units::gram).value(), tolerance, 1e-9)
            << nominal;
    // At most 2 % of packs beyond it: sigma = 4.5 g / 2.0537. Arithmetic ours.
    EXPECT_NEAR(yarn::label_mass_spread(100.0 * units::gram).value(), 2.1911, 1e-4);
}

Level level_between(const char* wanted, const char* candidate, const char* topic,
                    yarn::Use use = yarn::Use::any, const std::vector<std::string>& avoid = {}) {
    const auto findings = yarn::compare_fibres(
        *wanted == '\0' ? yarn::FibreContent{} : support::fibre(wanted),
        *candidate == '\0' ? yarn::FibreContent{} : support::fibre(candidate), use, avoid);
    return yarn_tests::level(findings, topic);
}

TEST(FibreMatch, OfOneAndTheSameIsFine) {
    for (const auto& finding : yarn::compare_fibres(
             support::fibre("100% wool"), support::fibre("100% wool"), yarn::Use::any, {}))
        EXPECT_EQ(finding.level, Level::ok) << finding.topic;
}

TEST(FibreMatch, CautionsWhereFibresBehaveOtherwise) {
    EXPECT_EQ(level_between("100% wool", "100% linen", "elasticity"), Level::caution);
    EXPECT_EQ(level_between("100% wool", "100% cotton", "density"), Level::caution);
    EXPECT_EQ(level_between("100% wool", "100% cotton", "drape"), Level::caution);
    EXPECT_EQ(level_between("100% wool", "100% acrylic", "heat"), Level::caution);
    EXPECT_EQ(level_between("100% acrylic", "100% nylon", "heat"), Level::ok);
    EXPECT_EQ(level_between("100% cotton", "100% wool", "felting"), Level::caution);
    EXPECT_EQ(level_between("100% cotton", "100% wool", "skin"), Level::caution);
    EXPECT_EQ(level_between("100% wool", "100% superwash wool", "care"), Level::caution);
    EXPECT_EQ(level_between("100% wool", "100% merino wool", "care"), Level::ok);
}

// forum.crochetville.com/topic/27512: acrylic softens below a pan's heat, so none of it in kitchen
// pads.
TEST(FibreMatch, StopsMeltingFibresInTheKitchen) {
    EXPECT_EQ(level_between("100% cotton", "100% acrylic", "heat", yarn::Use::kitchen_heat),
              Level::stop);
    EXPECT_EQ(
        level_between("100% cotton", "80% cotton 20% polyester", "heat", yarn::Use::kitchen_heat),
        Level::stop);
    EXPECT_EQ(level_between("100% cotton", "100% wool", "heat", yarn::Use::kitchen_heat),
              Level::ok);
}

TEST(FibreMatch, AsksForFeltingFibresWhereThePieceIsFelted) {
    EXPECT_EQ(level_between("100% wool", "100% cotton", "felting", yarn::Use::felted), Level::stop);
    EXPECT_EQ(level_between("100% wool", "100% superwash wool", "felting", yarn::Use::felted),
              Level::stop);
    EXPECT_EQ(level_between("100% wool", "50% wool 50% cotton", "felting", yarn::Use::felted),
              Level::caution);
    EXPECT_EQ(level_between("100% wool", "100% wool", "felting", yarn::Use::felted), Level::ok);
}

// Charities contradict each other (forum.knittinghelp.com/t/40835, wool-aid.org), so wool for an
// infant is a question.
TEST(FibreMatch, AsksAboutAnimalFibresForInfants) {
    EXPECT_EQ(level_between("100% wool", "100% wool", "skin", yarn::Use::infant), Level::caution);
    EXPECT_EQ(level_between("100% wool", "100% cotton", "skin", yarn::Use::infant), Level::ok);
}

// theknitaholic.blogspot.com, 2009 (a swap with an allergy): the full content list counts, and
// unknown is not safe.
TEST(FibreMatch, StopsFibresToAvoidInAnyShare) {
    EXPECT_EQ(
        level_between("100% cotton", "95% cotton 5% merino", "avoid", yarn::Use::any, {"wool"}),
        Level::stop);
    EXPECT_EQ(level_between("100% cotton", "", "avoid", yarn::Use::any, {"wool"}), Level::stop);
    EXPECT_EQ(level_between("100% cotton", "100% cotton", "avoid", yarn::Use::any, {"wool"}),
              Level::ok);
}

TEST(FibreMatch, SaysWhatItDoesNotKnow) {
    EXPECT_EQ(level_between("100% wool", "", "fibre"), Level::caution);
    EXPECT_EQ(level_between("", "100% wool", "fibre"), Level::caution);
    EXPECT_EQ(level_between("100% wool", "50% wool 50% moonbeam", "fibre"), Level::caution);
}

}  // namespace
