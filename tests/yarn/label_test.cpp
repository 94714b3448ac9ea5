// Weight classes, tool sizes and what a label's figures are worth.

#include <cmath>
#include <optional>

#include <gtest/gtest.h>

#include "skeinfall/units/format.hpp"
#include "skeinfall/yarn/label_tail.hpp"
#include "skeinfall/yarn/tools.hpp"
#include "skeinfall/yarn/weight_class.hpp"
#include "skeinfall/yarn/yarn.hpp"

namespace {

using namespace skeinfall::units;
using namespace skeinfall::yarn;

// Craft Yarn Council, Standard Yarn Weight System (S03 in lib/data/sources.csv).
TEST(WeightClass, NamesAreTheCouncils) {
    const char* const names[] = {"Lace",   "Super Fine", "Fine",        "Light",
                                 "Medium", "Bulky",      "Super Bulky", "Jumbo"};
    const std::vector<WeightClass> classes = known_classes();
    ASSERT_EQ(classes.size(), std::size(names));
    for (std::size_t i = 0; i < classes.size(); ++i) {
        EXPECT_EQ(classes[i].number, static_cast<int>(i));
        EXPECT_EQ(class_name(classes[i]), names[i]);
        EXPECT_EQ(parse_weight_class(std::to_string(i)), classes[i]);
        EXPECT_EQ(parse_weight_class(names[i]), classes[i]);
        EXPECT_EQ(text(classes[i]), std::to_string(i) + " (" + names[i] + ")");
    }
}

TEST(WeightClass, IsReadWithoutRegardToCaseAndRefusesTheRest) {
    EXPECT_EQ(parse_weight_class(" super FINE "), (WeightClass{1}));
    for (const char* text : {"class 4", "#4", "4 medium", "Medium (4)", "weight 4"})
        EXPECT_EQ(parse_weight_class(text), (WeightClass{4})) << text;
    for (const char* text :
         {"", "8", "-1", "04", "4.0", "worsted", "super", "class", "5 medium", "4 4"})
        EXPECT_EQ(parse_weight_class(text), std::nullopt) << text;
}

TEST(WeightClass, ANumberTheTableDoesNotNameYetStaysANumber) {
    EXPECT_EQ(class_name({8}), "");
    EXPECT_EQ(text(WeightClass{8}), "8");
}

// Read off lib/data/length_per_mass_by_class.csv by hand: the least and the most of any source,
// open where a source leaves it open.
TEST(PublishedGrist, IsTheWidestRangeOfAllSources) {
    constexpr std::optional<double> open;
    const auto expect = [&](int number, std::optional<double> least, std::optional<double> most) {
        SCOPED_TRACE(number);
        const auto range = published_grist({number});
        ASSERT_TRUE(range.has_value());
        const auto shown_as = [&](const std::optional<Grist>& end) {
            return end ? std::optional(std::round(*end / shown::metres_per_100g.one)) : open;
        };
        EXPECT_EQ(shown_as(range->least), least);
        EXPECT_EQ(shown_as(range->most), most);
    };
    expect(0, 484, open);
    expect(1, 330, 600);
    expect(4, 120, 242);
    expect(6, open, 111);
    expect(7, open, 40);
    EXPECT_FALSE(published_grist({8}).has_value());
}

TEST(PublishedGrist, FinerClassesHaveMoreLength) {
    for (int number = 1; number < 5; ++number) {
        const auto finer = published_grist({number});
        const auto coarser = published_grist({number + 1});
        ASSERT_TRUE(finer && coarser) << number;
        EXPECT_LT(finer->least, finer->most) << number;
        EXPECT_GT(finer->least, coarser->least) << number;
        EXPECT_GT(finer->most, coarser->most) << number;
        // Neighbours overlap, so that no yarn falls between them.
        EXPECT_LE(finer->least, coarser->most) << number;
    }
}

// Craft Yarn Council hook sizes (course copy, S04 in lib/data/sources.csv); 3.25 and 4.5 mm from
// S44 and S45.
TEST(Hooks, LabelsOfDiameters) {
    for (const auto& [mm, label] : std::initializer_list<std::pair<double, const char*>>{
             {2.25, "B-1"},
             {3.25, "D-3"},
             {3.5, "E-4"},
             {4.0, "G-6"},
             {4.5, "7"},
             {5.0, "H-8"},
             {5.5, "I-9"},
             {6.0, "J-10"},
             {6.5, "K-10 1/2"},
             {8.0, "L-11"},
         })
        EXPECT_EQ(us_hook_label(mm * millimetre), label) << mm;
    // No letter for these; steel hooks (1.4 mm) have numbers that differ from chart to chart.
    for (const double mm : {2.0, 7.0, 5.6, 5.49, 1.4, 0.0})
        EXPECT_EQ(us_hook_label(mm * millimetre), std::nullopt) << mm;
    EXPECT_EQ(us_hook_label(*parse_length("5,5 mm")), "I-9");
    EXPECT_EQ(us_hook_label(*parse_length("0.55 cm")), "I-9");
}

// S52 to S54 in lib/data/sources.csv.
TEST(Needles, LabelsOfDiameters) {
    for (const auto& [mm, label] : std::initializer_list<std::pair<double, const char*>>{
             {2.0, "0"}, {3.25, "3"}, {4.0, "6"}, {5.0, "8"}, {6.5, "10 1/2"}, {10.0, "15"}})
        EXPECT_EQ(us_needle_label(mm * millimetre), label) << mm;
    EXPECT_EQ(us_needle_label(7.0 * millimetre), std::nullopt);
}

TEST(Tools, TheMillimetreComesFirst) {
    EXPECT_EQ(hook_text(6.5 * millimetre), "6.5 mm (US K-10 1/2)");
    EXPECT_EQ(hook_text(2.25 * millimetre), "2.25 mm (US B-1)");
    EXPECT_EQ(hook_text(7.0 * millimetre), "7 mm");
    EXPECT_EQ(needle_text(5.0 * millimetre), "5 mm (US 8)");
    EXPECT_EQ(needle_text(*parse_length("0.8 cm")), "8 mm (US 11)");
}

// Tolerable negative errors by Directive 76/211/EEC, Annex I (S111), with percentages rounded up
// to the next tenth of a gram (S112, UK packaged goods page): 25, 50, 100, 150, 200 and 500 g have
// 2.3, 4.5, 4.5, 6.8, 9.0 and 15 g. At most 2 % of packs may exceed them (Fertigpackungsverordnung,
// section 9, lxgesetze.de/fpackv/9), which are 2.0537 deviations of a normal distribution.
TEST(LabelMass, SpreadFromTheToleratedError) {
    for (const auto& [nominal, tolerance] : std::initializer_list<std::pair<double, double>>{
             {5, 0.5},
             {25, 2.3},
             {50, 4.5},
             {51, 4.5},
             {100, 4.5},
             {101, 4.6},
             {150, 6.8},
             {200, 9.0},
             {300, 9.0},
             {301, 9.1},
             {500, 15.0},
             {1000, 15.0},
             {2000, 30.0},
             {20000, 200.0},
         })
        EXPECT_NEAR(label_mass_spread(nominal * gram) / gram, tolerance / 2.0537, 1e-9) << nominal;
    EXPECT_NEAR(label_mass_spread(100.0 * gram) / gram, 2.1911, 2e-4);
    const Mass nominal = 100.0 * gram;
    const double deviations = tolerable_error(nominal) / label_mass_spread(nominal);
    EXPECT_NEAR(std::erfc(deviations / std::sqrt(2.0)) / 2.0, 0.02, 1e-5) << "beyond it";
}

// Twelve published weighings in per cent of their labels: 19, -9, -8, -6, -2, 4, 5, 5, 8, 18, -8
// and 4, whose squares add to 1080, so that they lie 9.487 off. Of 100 g the rule says 2.1911:
// sqrt(0.9 x 2.1911^2 + 0.1 x 9.487^2) = 3.650. Of 50 g, 4.3823: 5.127.
TEST(LabelMass, PublishedWeighingsMakeTheTailHeavier) {
    EXPECT_NEAR(published_off_label().value(), 0.09487, 1e-5);
    EXPECT_NEAR(unweighed_spread(100.0 * gram).value(), 0.03650, 1e-5);
    EXPECT_NEAR(unweighed_spread(50.0 * gram).value(), 0.05127, 1e-5);
}

TEST(LabelMass, AHeavierPackNeverHasLessSpread) {
    double before = 0.0;
    for (int grams = 1; grams <= 16000; ++grams) {
        const double spread = label_mass_spread(static_cast<double>(grams) * gram) / gram;
        ASSERT_GE(spread, before - 1e-12) << grams;
        before = spread;
    }
}

TEST(LabelGrist, NeedsBothFigures) {
    Label label;
    EXPECT_FALSE(label_grist(label).has_value());
    label.length = Printed<Length>{"210 m", 210.0 * metre};
    EXPECT_FALSE(label_grist(label).has_value());
    label.mass = Printed<Mass>{"100 g", 100.0 * gram};
    const auto grist = label_grist(label);
    ASSERT_TRUE(grist.has_value());
    EXPECT_DOUBLE_EQ(grist->centre / (metre / gram), 2.1);
    // Rectangular, 3.5 % either way: 0.035 / sqrt 3 = 2.0207 %.
    EXPECT_NEAR(grist->relative(), 0.0202073, 1e-7);
    label.length.reset();
    EXPECT_FALSE(label_grist(label).has_value());
}

}  // namespace
