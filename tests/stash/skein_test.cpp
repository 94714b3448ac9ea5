// Skeins: which match, what each can give and how sure that is, what is wrong with their figures.

#include "skeinfall/stash/skein.hpp"

#include <cmath>

#include <gtest/gtest.h>

namespace {

using namespace skeinfall::units;
using namespace skeinfall::stash;
using skeinfall::measure::Weighing;

/// A whole 100 g / 200 m ball of lot A, never weighed.
Skein harbour_ball(const std::string& id) {
    Skein skein;
    skein.id = id;
    skein.yarn.name = "Harbour Four";
    skein.yarn.label.length = Printed<Length>{"200 m", 200.0 * metre};
    skein.yarn.label.mass = Printed<Mass>{"100 g", 100.0 * gram};
    skein.colourway = "slate";
    skein.dye_lot = "A";
    return skein;
}

Weighing weighed(double grams) {
    return {{"shown", grams * gram}, {"1 g", 1.0 * gram}, std::nullopt};
}

TEST(Lots, TheSameLotOfTheSameYarnAndColourMatches) {
    EXPECT_EQ(lot_key(harbour_ball("s1")), lot_key(harbour_ball("s2")));
    Skein other = harbour_ball("s2");
    other.dye_lot = "B";
    EXPECT_NE(lot_key(harbour_ball("s1")), lot_key(other));
    other = harbour_ball("s2");
    other.colourway = "moss";
    EXPECT_NE(lot_key(harbour_ball("s1")), lot_key(other));
    other = harbour_ball("s2");
    other.yarn.name = "Harbour Eight";
    EXPECT_NE(lot_key(harbour_ball("s1")), lot_key(other));
}

TEST(Lots, AnUnknownLotEqualsNothingNotEvenAnother) {
    Skein a = harbour_ball("s1");
    Skein b = harbour_ball("s2");
    a.dye_lot.reset();
    b.dye_lot.reset();
    EXPECT_NE(lot_key(a), lot_key(b));
    EXPECT_NE(lot_key(a), lot_key(harbour_ball("s2")));
    EXPECT_EQ(lot_key(a), lot_key(a));
    // A lot that happens to be called like a skein is still another thing.
    Skein named = harbour_ball("s3");
    named.dye_lot = "s1";
    EXPECT_NE(lot_key(a), lot_key(named));
}

TEST(Lots, AShadeGroupStandsAboveTheDyeLot) {
    Skein a = harbour_ball("s1");
    Skein b = harbour_ball("s2");
    a.shade_group = "dusk";
    b.shade_group = "dusk";
    b.dye_lot = "B";
    EXPECT_EQ(lot_key(a), lot_key(b));
    b.dye_lot.reset();
    EXPECT_EQ(lot_key(a), lot_key(b));
    // The same word as a dye lot is no shade group.
    Skein c = harbour_ball("s3");
    c.dye_lot = "dusk";
    EXPECT_NE(lot_key(a), lot_key(c));
    b.yarn.name = "Harbour Eight";
    EXPECT_NE(lot_key(a), lot_key(b));
}

TEST(Lots, AreNamed) {
    Skein skein = harbour_ball("s7");
    EXPECT_EQ(lot_text(skein), "lot A");
    skein.shade_group = "dusk";
    EXPECT_EQ(lot_text(skein), "shade group dusk");
    skein.shade_group.reset();
    skein.dye_lot.reset();
    EXPECT_EQ(lot_text(skein), "lot unknown (s7)");
}

// 4.5 g tolerated on 100 g (Directive 76/211/EEC, Annex I) / 2.0537 = 2.1912 g, that is 4.3823 m;
// the label's length per mass, 3.5 % / sqrt 3 of 200 m, 4.0415 m.
TEST(Lots, NamesAndLotsAsPeopleTypeThem) {
    Skein one = harbour_ball("s1");
    Skein other = harbour_ball("s2");
    one.yarn.name = "Brookside Aran";
    other.yarn.name = "brookside  aran";
    one.colourway = "Teal";
    other.colourway = "teal ";
    one.dye_lot = "lot 4411";
    other.dye_lot = "4411";
    EXPECT_EQ(lot_key(one), lot_key(other));
    EXPECT_EQ(lot_text(one), "lot 4411");
    EXPECT_EQ(lot_text(other), "lot 4411");
    other.dye_lot = "4412";
    EXPECT_NE(lot_key(one), lot_key(other));
}

// Of 100 g no whole ball may weigh below 91 g: twice the tolerable error of 4.5 g (Directive
// 76/211/EEC, Annex I).
TEST(Parts, ABallFarBelowItsLabelIsOneWhateverItsColumnSays) {
    Skein skein = harbour_ball("s1");
    EXPECT_FALSE(is_part(skein));
    skein.weighing = weighed(91.0);
    EXPECT_FALSE(is_part(skein));
    skein.weighing = weighed(90.0);
    EXPECT_TRUE(is_part(skein));
    skein.weighing = weighed(97.0);
    EXPECT_FALSE(is_part(skein));
    skein.part = true;
    EXPECT_TRUE(is_part(skein));
    EXPECT_FALSE(never_weighed_part(skein));
    skein.weighing.reset();
    EXPECT_TRUE(never_weighed_part(skein));
}

TEST(Supply, AWholeBallNeverWeighedHasItsLabelsLength) {
    const auto supply = supply_of(harbour_ball("s1"));
    ASSERT_TRUE(supply.has_value());
    EXPECT_EQ(supply->basis, SupplyBasis::label);
    EXPECT_DOUBLE_EQ(supply->length / metre, 200.0);
    EXPECT_NEAR(supply->own / metre, 4.3823, 1e-4);
    EXPECT_NEAR(supply->shared / metre, 4.0415, 1e-4);
    EXPECT_EQ(supply_gap(harbour_ball("s1")), std::nullopt);
}

// 63.2 g at 2 m/g; a 1 g scale is good to 0.288675 g = 0.57735 m, with a cone taken off to
// 0.408248 g = 0.81650 m.
TEST(Supply, AWeighedPartHasItsMassTimesTheLabelsLengthPerMass) {
    Skein part = harbour_ball("s1");
    part.part = true;
    part.weighing = weighed(63.2);
    auto supply = supply_of(part);
    ASSERT_TRUE(supply.has_value());
    EXPECT_EQ(supply->basis, SupplyBasis::weighed);
    EXPECT_NEAR(supply->length / metre, 126.4, 1e-9);
    EXPECT_NEAR(supply->own / metre, 0.57735, 1e-5);
    EXPECT_NEAR(supply->shared / metre, 126.4 * 0.035 / std::sqrt(3.0), 1e-9);

    part.weighing->tare = Printed<Mass>{"12 g", 12.0 * gram};
    supply = supply_of(part);
    ASSERT_TRUE(supply.has_value());
    EXPECT_NEAR(supply->length / metre, 102.4, 1e-9);
    EXPECT_NEAR(supply->own / metre, 0.81650, 1e-5);
}

TEST(Supply, AWeighingOfAWholeBallStandsAboveItsLabel) {
    Skein whole = harbour_ball("s1");
    whole.weighing = weighed(97.0);
    const auto supply = supply_of(whole);
    ASSERT_TRUE(supply.has_value());
    EXPECT_EQ(supply->basis, SupplyBasis::weighed);
    EXPECT_NEAR(supply->length / metre, 194.0, 1e-9);
}

TEST(Supply, ALabelWithoutAMass) {
    Skein whole = harbour_ball("s1");
    whole.yarn.label.mass.reset();
    auto supply = supply_of(whole);
    ASSERT_TRUE(supply.has_value());
    EXPECT_DOUBLE_EQ(supply->length / metre, 200.0);
    // The spread of a 100 g ball.
    EXPECT_NEAR(supply->own / metre, 4.3823, 1e-4);
    // A weighing tells nothing then, and takes nothing away either.
    whole.weighing = weighed(97.0);
    supply = supply_of(whole);
    ASSERT_TRUE(supply.has_value());
    EXPECT_DOUBLE_EQ(supply->length / metre, 200.0);
    EXPECT_EQ(supply->basis, SupplyBasis::label);
    EXPECT_EQ(supply_gap(whole), std::nullopt);
}

TEST(Supply, WhatCannotBeKnownSaysWhatToDo) {
    Skein skein = harbour_ball("s1");
    skein.part = true;
    EXPECT_FALSE(supply_of(skein).has_value());
    EXPECT_EQ(supply_gap(skein), SupplyGap::never_weighed);

    skein.weighing = weighed(60.0);
    skein.yarn.label.mass.reset();
    EXPECT_FALSE(supply_of(skein).has_value());
    EXPECT_EQ(supply_gap(skein), SupplyGap::no_label_mass);

    skein = harbour_ball("s1");
    skein.yarn.label.length.reset();
    EXPECT_FALSE(supply_of(skein).has_value());
    EXPECT_EQ(supply_gap(skein), SupplyGap::no_label_length);

    skein = harbour_ball("s1");
    skein.weighing = weighed(12.0);
    skein.weighing->tare = Printed<Mass>{"12 g", 12.0 * gram};
    EXPECT_FALSE(supply_of(skein).has_value());
    EXPECT_EQ(supply_gap(skein), SupplyGap::no_more_than_tare);
}

// Three balls of one yarn: own parts sqrt 3 x 4.3823 = 7.5904 m, shared ones 3 x 4.0415 =
// 12.1244 m, together 14.3044 m. Taking the shared parts as independent would give 10.3257 m.
TEST(Total, SharedPartsOfAYarnAddUp) {
    const std::vector<Skein> three{harbour_ball("s1"), harbour_ball("s2"), harbour_ball("s3")};
    const auto sum = total(three, false);
    EXPECT_DOUBLE_EQ(sum.centre / metre, 600.0);
    EXPECT_NEAR(sum.spread / metre, 14.3044, 2e-4);
    EXPECT_NEAR(total(three, true).spread / metre, 7.5904, 2e-4);
}

// Two yarns, one ball each: nothing is shared, sqrt(2 x (4.3823^2 + 4.0415^2)) = 8.4308 m.
TEST(Total, SharedPartsOfDifferentYarnsDoNot) {
    Skein other = harbour_ball("s2");
    other.yarn.name = "Harbour Eight";
    EXPECT_NEAR(total({harbour_ball("s1"), other}, false).spread / metre, 8.4308, 2e-4);
    EXPECT_NEAR(total({harbour_ball("s1"), other}, true).spread / metre, std::sqrt(2.0) * 4.3823,
                2e-4);
}

TEST(Total, LeavesOutWhatIsNotKnownAndDoesNotDependOnTheOrder) {
    Skein unknown = harbour_ball("s9");
    unknown.part = true;
    Skein part = harbour_ball("s2");
    part.part = true;
    part.weighing = weighed(50.0);
    const auto sum = total({harbour_ball("s1"), unknown, part}, false);
    EXPECT_DOUBLE_EQ(sum.centre / metre, 300.0);
    EXPECT_DOUBLE_EQ(total({part, harbour_ball("s1")}, false).spread / metre, sum.spread / metre);
    EXPECT_EQ(total(std::vector<Skein>{}, false).centre.value(), 0.0);
    EXPECT_EQ(total(std::vector<Skein>{}, false).spread.value(), 0.0);
}

TEST(Faults, ASoundSkeinHasNone) {
    EXPECT_TRUE(faults(harbour_ball("s1")).empty());
    Skein part = harbour_ball("s1");
    part.part = true;
    EXPECT_TRUE(faults(part).empty());
    part.weighing = weighed(100.0);
    EXPECT_TRUE(faults(part).empty());
}

TEST(Faults, AReadingNotAboveTheTare) {
    Skein part = harbour_ball("s1");
    part.weighing = weighed(12.0);
    part.weighing->tare = Printed<Mass>{"12 g", 12.0 * gram};
    const std::vector<std::string> expected{
        "the scale shows no more than the cone or bag: nothing would be left"};
    EXPECT_EQ(faults(part), expected);
    part.weighing->tare->value = 13.0 * gram;
    EXPECT_EQ(faults(part), expected);
    part.weighing->tare->value = 11.0 * gram;
    EXPECT_TRUE(faults(part).empty());
    part.weighing = weighed(241.0);
    EXPECT_EQ(faults(part),
              (std::vector<std::string>{"a skein that weighs more than two by its label (100 g)"}));
}

// A part above 1.2 x 100 g by more than half the scale's step cannot be right.
TEST(Faults, APartHeavierThanAWhole) {
    Skein part = harbour_ball("s1");
    part.part = true;
    part.weighing = weighed(120.0);
    EXPECT_TRUE(faults(part).empty());
    part.weighing = weighed(121.0);
    EXPECT_EQ(faults(part), (std::vector<std::string>{
                                "a part skein that weighs more than a whole one by its label "
                                "(100 g)"}));
    part.part = false;  // a whole one may be what the label does not say: 2 balls wound as one
    EXPECT_TRUE(faults(part).empty());
    part.weighing = weighed(241.0);
    EXPECT_EQ(faults(part),
              (std::vector<std::string>{"a skein that weighs more than two by its label (100 g)"}));
    part.weighing = weighed(241.0);
    EXPECT_EQ(faults(part),
              (std::vector<std::string>{"a skein that weighs more than two by its label (100 g)"}));
}

}  // namespace
