// Words and figures that all reports share.

#include "skeinfall/report/words.hpp"

#include <cstdint>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/units/number_style.hpp"

#include "support/builders.hpp"

namespace {

using namespace skeinfall;
using units::metre;
using units::Rounding;
using units::yard;

TEST(Words, YardsAndMetresEachFromTheUnroundedLength) {
    EXPECT_EQ(report::yards_and_metres(340.0 * metre, Rounding::up), "372 yd (340 m)");
    EXPECT_EQ(report::yards_and_metres(340.0 * metre, Rounding::down), "371 yd (340 m)");
    EXPECT_EQ(report::yards_and_metres(1176.0 * metre, Rounding::up), "1287 yd (1176 m)");
    EXPECT_EQ(report::yards_and_metres(100.0 * yard, Rounding::up), "100 yd (92 m)");
}

// By hand: 5.03 m are 5.5008 yd, both up to the next tenth; an order changes no figure.
TEST(Words, LengthsAsTheReaderWantsThem) {
    const auto text = [](const units::NumberStyle& style) {
        const units::WithNumberStyle in_force(style);
        return report::yards_and_metres(5.03 * metre, Rounding::up);
    };
    EXPECT_EQ(text({}), "5.6 yd (5.1 m)");
    EXPECT_EQ(text({',', units::Systems::both, true}), "5,1 m (5,6 yd)");
    EXPECT_EQ(text({'.', units::Systems::metric}), "5.1 m");
    EXPECT_EQ(text({'.', units::Systems::imperial, true}), "5.6 yd");
}

TEST(Words, TenthsBelowTen) {
    EXPECT_EQ(report::yards_and_metres(5.0 * metre, Rounding::up), "5.5 yd (5.0 m)");
    EXPECT_EQ(report::yards_and_metres(9.5 * metre, Rounding::down), "10 yd (9.5 m)");
    EXPECT_EQ(report::yards_and_metres(units::Length{}, Rounding::up), "0.0 yd (0.0 m)");
}

TEST(Words, AChanceIsNeverSaidToBeSureEitherWay) {
    const auto text = [](double value) { return report::chance_text({units::Ratio(value)}); };
    EXPECT_EQ(text(1.0), "> 99 %");
    EXPECT_EQ(text(0.9999), "> 99 %");
    EXPECT_EQ(text(0.9901), "> 99 %");
    EXPECT_EQ(text(0.99), "99 %");
    EXPECT_EQ(text(0.948), "94 %") << "down: 0.948 is not 95 %";
    EXPECT_EQ(text(0.95), "95 %");
    EXPECT_EQ(text(0.01), "1 %");
    EXPECT_EQ(text(0.0099), "< 1 %");
    EXPECT_EQ(text(0.0), "< 1 %");
    for (int i = 0; i <= 1000; ++i) {
        const std::string any = text(i / 1000.0);
        EXPECT_NE(any, "100 %");
        EXPECT_NE(any, "0 %");
    }
}

TEST(Words, OneAndMany) {
    EXPECT_EQ(report::counted(1, "skein", "skeins"), "1 skein");
    EXPECT_EQ(report::counted(0, "skein", "skeins"), "0 skeins");
    EXPECT_EQ(report::counted(2, "skein", "skeins"), "2 skeins");
}

TEST(Words, TablesAlignByCharactersNotBytes) {
    EXPECT_EQ(report::table({{"Möhre", "1"}, {"Tang", "12"}, {"naïveté", "3"}}, {false, true}, 2),
              "  Möhre     1\n"
              "  Tang     12\n"
              "  naïveté   3\n");
}

TEST(Words, TablesFoldTheirWidestColumnsToThePage) {
    const std::vector<std::vector<std::string>> rows{{"join", "likely"},
                                                     {"a to b", "after row 18 of cowl"}};
    EXPECT_EQ(report::table(rows, {false, true}, 2),
              "  join                  likely\n  a to b  after row 18 of cowl\n");
    const units::WithNumberStyle narrow({.columns = 22});
    EXPECT_EQ(report::table(rows, {false, true}, 2),
              "  join          likely\n  a to b  after row 18\n               of cowl\n");
    const units::WithNumberStyle too_narrow({.columns = 8});
    EXPECT_EQ(report::table(rows, {false, true}, 2),
              "  join                  likely\n  a to b  after row 18 of cowl\n");
}

TEST(Words, TablesHaveNoTrailingBlanks) {
    EXPECT_EQ(report::table({{"a", "long"}, {"b", ""}, {"c", "x"}}, {false, false}, 0),
              "a  long\nb\nc  x\n");
    EXPECT_EQ(report::table({}, {false}, 2), "");
}

class Places : public ::testing::Test {
  protected:
    Places() {
        project_.pieces = {support::piece("hat", "MC", 60, 3),
                           support::piece("mitten", "MC", 30, 2)};
        project_.pieces[0].worked = project::Worked::round;
        project_.pieces[0].foundation_rows.reset();
        project_.pieces[1].count = project::PerSize<std::int64_t>(2);
    }

    static need::Step step(need::Purpose purpose, std::size_t piece, std::int64_t copy,
                           std::int64_t row, const std::string& name = {}) {
        need::Step out;
        out.purpose = purpose;
        out.role = "MC";
        out.piece = piece;
        out.copy = copy;
        out.row = row;
        out.name = name;
        return out;
    }

    project::Project project_ = support::rectangle(60, 3);
};

TEST_F(Places, StepsByNameOrByPiece) {
    using need::Purpose;
    const auto text = [&](const need::Step& s) { return report::step_text(project_, s); };
    EXPECT_EQ(text(step(Purpose::body, 0, 1, 3)), "round 3 of hat");
    EXPECT_EQ(text(step(Purpose::body, 1, 2, 1)), "row 1 of mitten 2");
    EXPECT_EQ(text(step(Purpose::foundation, 0, 1, 0)), "foundation of hat");
    EXPECT_EQ(text(step(Purpose::bind_off, 1, 1, 2)), "bind-off of mitten 1");
    EXPECT_EQ(text(step(Purpose::carried, 1, 1, 2)), "strand carried to row 2 of mitten 1");
    EXPECT_EQ(text(step(Purpose::border, 0, 1, 0, "ribbed edge")), "ribbed edge");
    EXPECT_EQ(text(step(Purpose::seam, 0, 1, 0)), "seams") << "without a name: what it is";
}

// The yarn of a total that no piece shares out belongs to no piece.
TEST_F(Places, TheMakeIsNoRowOfItsFirstPiece) {
    EXPECT_EQ(report::step_text(project_, step(need::Purpose::body, 0, 1, 0, "the make")),
              "the make");
}

TEST_F(Places, WithinBetweenAndBefore) {
    joins::JoinPlan plan;
    plan.steps = {step(need::Purpose::foundation, 0, 1, 0), step(need::Purpose::body, 0, 1, 1),
                  step(need::Purpose::body, 0, 1, 2)};
    const auto text = [&](std::size_t at, double share) {
        return report::place_text(project_, plan, {at, units::Ratio(share)});
    };
    EXPECT_EQ(text(0, 0.0), "before the first row");
    EXPECT_EQ(text(1, 0.0), "after foundation of hat");
    EXPECT_EQ(text(3, 0.0), "after round 2 of hat");
    EXPECT_EQ(text(1, 0.4), "in round 1 of hat, 40 % along");
    EXPECT_EQ(text(2, 0.001), "after round 1 of hat");
}

// 1 oz is 28.349523125 g (NIST Handbook 44, appendix C): a scale's own unit stays on its readings.
TEST(ScaleText, InTheScalesOwnUnit) {
    using skeinfall::report::scale_text;
    namespace units = skeinfall::units;
    const units::Mass mass = 14.2 * units::gram;
    const auto up = units::Rounding::up;
    EXPECT_EQ(scale_text(mass, 1.0 * units::gram, up), "15 g");
    EXPECT_EQ(scale_text(mass, 0.1 * units::gram, up), "14.2 g");
    EXPECT_EQ(scale_text(mass, 0.1 * units::ounce, up), "0.6 oz");
    EXPECT_EQ(scale_text(mass, 0.05 * units::ounce, up), "0.51 oz");
    EXPECT_EQ(scale_text(mass, 0.125 * units::ounce, up), "0.501 oz");
    EXPECT_EQ(scale_text(mass, 1.0 * units::ounce, up), "1 oz");
}

}  // namespace
