#include "skeinfall/joins/lasting.hpp"

#include <cmath>
#include <vector>

#include <gtest/gtest.h>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/need/strand.hpp"

namespace {

using namespace skeinfall;
using joins::Lasting;
using joins::WorkLeft;
using joins::YarnLeft;
using units::gram;
using units::Mass;
using units::Ratio;

YarnLeft<Mass> weighed(double used, double have) {
    YarnLeft<Mass> yarn;
    yarn.used = {used * gram, (1.0 / std::sqrt(6.0)) * gram};
    yarn.used_off = 1.0 * gram;
    yarn.have = {have * gram, (1.0 / std::sqrt(12.0)) * gram};
    yarn.have_off = 0.5 * gram;
    return yarn;
}

WorkLeft rows(double done, double to_come) {
    return {Ratio(done), Ratio(to_come), Ratio(0.0), true};
}

double in_grams(Mass mass) {
    return mass / gram;
}

/// pamgrushkin.com, 2012-07-19 "a different kind of math": 38 g to 35 g over 4 rows, 26 rows and 6
/// g to come. Arithmetic ours: 3 +- 1 g over 4 rows is 0.5 to 1.0 g a row, 19 to 32 g with the
/// finish, of 34.5 g at the least.
TEST(Lasting, FinishIsSafeAtTheWorst) {
    YarnLeft<Mass> yarn = weighed(3, 35);
    yarn.finish.centre = 6.0 * gram;
    const auto got = joins::lasting(rows(4, 26), yarn, measure::usual_confidence);
    EXPECT_NEAR(in_grams(got.rest.centre), 25.5, 1e-9);
    EXPECT_NEAR(in_grams(got.rest_least), 19.0, 1e-9);
    EXPECT_NEAR(in_grams(got.rest_most), 32.0, 1e-9);
    EXPECT_GE(got.lasts, measure::usual_confidence);
    EXPECT_EQ(got.certain, 26);
    // The twelve more rows that were hoped for are not certain.
    const auto more = joins::lasting(rows(4, 38), yarn, measure::usual_confidence);
    EXPECT_LT(more.certain, 38);
}

/// catharticink.com, 2009-08-25: 33 g to 20 g for one repeat, 135 % of it to come of 20 g.
/// Arithmetic ours: 17.55 g, 14 x 1.35 = 18.9 g at the most.
TEST(Lasting, RepeatsOfAnotherSize) {
    const auto got = joins::lasting(rows(1, 1.35), weighed(13, 20), measure::usual_confidence);
    EXPECT_NEAR(in_grams(got.rest.centre), 17.55, 1e-9);
    EXPECT_NEAR(in_grams(got.rest_most), 18.9, 1e-9);
    EXPECT_NEAR(in_grams(got.have_least), 19.5, 1e-9);
}

TEST(Lasting, WidensWhereLittleWasMeasured) {
    const auto few = joins::lasting(rows(4, 26), weighed(3, 35), measure::usual_confidence);
    const auto many = joins::lasting(rows(40, 26), weighed(30, 35), measure::usual_confidence);
    EXPECT_NEAR(in_grams(few.per_unit.centre), in_grams(many.per_unit.centre), 1e-12);
    EXPECT_GT(few.per_unit.relative().value(), 2.0 * many.per_unit.relative().value());
}

// A row takes 10 g: 19 and 19 g hold one each, 9 g none, though 38 and 36 g are more than three.
TEST(Lasting, ABallHoldsWholeRows) {
    const auto of = [](double hand, std::vector<double> more, double to_come, double finish = 0.0) {
        YarnLeft<Mass> yarn = weighed(40, hand);
        yarn.used.spread = 0.1 * gram;
        for (const double one : more) yarn.more.push_back({one * gram, 0.1 * gram});
        yarn.ends = 0.3 * gram;
        yarn.finish.centre = finish * gram;
        return joins::lasting(rows(4, to_come), yarn, measure::usual_confidence);
    };
    const auto two = of(19, {19}, 3);
    EXPECT_LT(two.lasts.value.value(), 0.2) << "at 9.5 g a row one holds two";
    EXPECT_GT(two.anywhere.value.value(), 0.95);
    EXPECT_EQ(two.certain, 2);
    EXPECT_EQ(two.likely, 2);
    EXPECT_NEAR(in_grams(two.have), 37.7, 1e-9) << "without the ends of the ball that is joined";
    EXPECT_GT(in_grams(two.to_be_sure), 10.0) << "a row of one ball";
    const auto small = of(9, {9, 9, 9}, 3);
    EXPECT_LT(small.lasts.value.value(), 0.05);
    EXPECT_LT(small.next.value.value(), 0.05);
    EXPECT_EQ(small.certain, 0);
    // 22 g hold two each.
    EXPECT_GT(of(22, {22}, 4).lasts.value.value(), 0.9);
    EXPECT_LT(of(22, {22}, 4, 5.0).lasts.value.value(), 0.05);
    EXPECT_GT(of(22, {29}, 4, 5.0).lasts.value.value(), 0.9);
    // One ball alone is as it was.
    EXPECT_EQ(of(35, {}, 3).lasts, of(35, {}, 3).anywhere);
    // Each of 400 balls of 45 g holds four rows, and loses what is left of it.
    const auto many = of(50, std::vector<double>(400, 45.0), 1700);
    EXPECT_LT(many.lasts.value.value(), 0.5);
    EXPECT_GT(of(50, std::vector<double>(400, 45.0), 1300).lasts.value.value(), 0.9);
}

TEST(Lasting, NothingDoneIsNoAnswer) {
    EXPECT_THROW(
        static_cast<void>(joins::lasting(rows(0, 3), weighed(3, 35), measure::usual_confidence)),
        base::InputError);
    EXPECT_THROW(
        static_cast<void>(joins::lasting(rows(3, 3), weighed(0, 35), measure::usual_confidence)),
        base::InputError);
}

/// Source S150 of lib/data/sources.csv: 10.6, 15.7 and 20.4 in of yarn for an inch of a row.
TEST(Strand, PerWidth) {
    using project::Terms;
    const auto of = [](const char* stitch, Terms terms) {
        return need::strand_per_width(stitch, terms).value().centre.value();
    };
    EXPECT_NEAR(of("sc", Terms::us), 10.6, 1e-9);
    EXPECT_NEAR(of("HDC", Terms::us), 15.7, 1e-9);
    EXPECT_NEAR(of("dc", Terms::us), 20.4, 1e-9);
    EXPECT_NEAR(of("dc", Terms::uk), 10.6, 1e-9);
    EXPECT_GT(of("tr", Terms::us), 20.4);
    EXPECT_NEAR(of("stockinette", Terms::us), 3.5, 1e-9);
    EXPECT_FALSE(need::strand_per_width("blobs", Terms::us));
    // Measured as 4.6 widths, five by the rule (source S163): no row of stockinette.
    EXPECT_GE(of("bind off", Terms::us), 5.0);
    EXPECT_GE(of("cast off", Terms::uk), 5.0);
    EXPECT_NEAR(of("i-cord bind-off", Terms::us), 3.0 * of("bind off", Terms::us), 1e-9);
    EXPECT_GE(of("cast on", Terms::us), 7.0) << "the row of loops, and its tail";
}

}  // namespace
