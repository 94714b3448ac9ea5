#include <cmath>
#include <functional>
#include <iostream>
#include <random>

#include <gtest/gtest.h>

#include "skeinfall/measure/chance.hpp"
#include "skeinfall/measure/propagate.hpp"

// Closed forms against the computation notes (arithmetic ours there and checked by their own
// simulation), and against a simulation here. The seed is fixed and printed: a run repeats.

namespace {

using namespace skeinfall;
using measure::Estimate;
using units::Length;
using units::Mass;
using units::Ratio;

constexpr unsigned seed = 20240611;
constexpr int draws = 400000;

struct Moments {
    double mean = 0.0;
    double deviation = 0.0;
};

class Simulation {
  public:
    Simulation() { std::cout << "simulation seed " << seed << "\n"; }
    double normal(double mean, double spread) {
        return std::normal_distribution<double>(mean, spread)(generator_);
    }
    double within(double centre, double half_width) {
        return std::uniform_real_distribution<double>(centre - half_width,
                                                      centre + half_width)(generator_);
    }
    Moments of(const std::function<double()>& draw) {
        double sum = 0.0;
        double squares = 0.0;
        for (int i = 0; i < draws; ++i) {
            const double x = draw();
            sum += x;
            squares += x * x;
        }
        const double mean = sum / draws;
        return {mean, std::sqrt(squares / draws - mean * mean)};
    }
    double share(const std::function<bool()>& draw) {
        int yes = 0;
        for (int i = 0; i < draws; ++i) yes += draw() ? 1 : 0;
        return static_cast<double>(yes) / draws;
    }

  private:
    std::mt19937 generator_{seed};
};

// A deviation from 400 000 draws is uncertain by 0.11 %, a share by at most 0.08 %; the bounds
// are five times that.
constexpr double of_deviation = 0.006;
constexpr double of_share = 0.004;

// u = 0.2887 d for one reading, 0.4082 d with a tare: JCGM 100:2008, F.2.2.1 (from memory).
TEST(ScaleSpread, IsThatOfARoundedReading) {
    Simulation run;
    const auto read = [&](double mass) { return std::round(mass); };
    const auto one = run.of([&] {
        const double mass = run.within(50.0, 20.0);
        return read(mass) - mass;
    });
    const auto tared = run.of([&] {
        const double mass = run.within(50.0, 20.0);
        const double tare = run.within(30.0, 10.0);
        return read(mass + tare) - read(tare) - mass;
    });
    const measure::ScaleReading plain{50.0 * units::gram, units::gram, std::nullopt};
    const measure::ScaleReading with_tare{80.0 * units::gram, units::gram, 30.0 * units::gram};
    EXPECT_NEAR(measure::net_mass(plain).spread.value(), 0.288675, 1e-6);
    EXPECT_NEAR(measure::net_mass(with_tare).spread.value(), 0.408248, 1e-6);
    EXPECT_NEAR(one.deviation, measure::net_mass(plain).spread.value(), of_deviation);
    EXPECT_NEAR(tared.deviation, measure::net_mass(with_tare).spread.value(), of_deviation);
}

TEST(Within, IsARectanglesDeviation) {
    Simulation run;
    EXPECT_NEAR(measure::within(Ratio(3.5)).value(), 2.020726, 1e-6);
    EXPECT_NEAR(run.of([&] { return run.within(0.0, 3.5); }).deviation,
                measure::within(Ratio(3.5)).value(), 3.5 * of_deviation);
}

/// Need from a swatch: 9600 cm2 of fabric, a swatch of 15.0 x 14.2 cm that weighs 12.4 g tared
/// on a 0.1 g scale, sides read to 0.1 cm with +-0.15 cm of give, 3 % from row to row over 24
/// rows and 3 % of drift between swatch and piece.
Estimate<Mass> need_from_swatch() {
    const Mass step = 0.1 * units::gram;
    const Estimate<Mass> mass{12.4 * units::gram, step / std::sqrt(6.0)};
    const Length side = measure::in_quadrature(0.1 * units::centimetre / std::sqrt(12.0),
                                               measure::within(0.15 * units::centimetre));
    const Estimate<Length> width{15.0 * units::centimetre, side};
    const Estimate<Length> height{14.2 * units::centimetre, side};
    const Estimate<units::Area> area{9600.0 * units::centimetre * units::centimetre, {}};
    const auto per_area = measure::over(mass, measure::times(width, height));
    return measure::widened(
        measure::widened(measure::times(area, per_area), Ratio(0.03 / std::sqrt(24.0))),
        Ratio(0.03));
}

// Notes: 558.873 g, u 17.908 g; with 210 m per 100 g +-3.5 % 1173.63 m, u 44.46 m.
TEST(Products, GiveANeedAndItsSpreadFromASwatch) {
    const Estimate<Mass> need = need_from_swatch();
    EXPECT_NEAR(need.centre.value(), 558.873, 1e-3);
    EXPECT_NEAR(need.spread.value(), 17.908, 1e-3);
    const units::Grist label = 210.0 * units::metre / (100.0 * units::gram);
    const Estimate<units::Grist> grist{label, measure::within(units::Grist(label * 0.035))};
    const Estimate<Length> length = measure::times(need, grist);
    EXPECT_NEAR(length.centre.value(), 1173.63, 0.01);
    EXPECT_NEAR(length.spread.value(), 44.46, 0.01);

    Simulation run;
    const auto draw = run.of([&] {
        const auto side = [&](double cm) {
            return cm + run.within(0.0, 0.05) + run.within(0.0, 0.15);
        };
        const double mass = run.normal(12.4, 0.1 / std::sqrt(6.0)) *
                            run.normal(1.0, 0.03 / std::sqrt(24.0)) * run.normal(1.0, 0.03);
        return 9600.0 * mass / (side(15.0) * side(14.2)) * 2.1 * run.within(1.0, 0.035);
    });
    EXPECT_NEAR(draw.mean / length.centre.value(), 1.0, 0.001);
    EXPECT_NEAR(draw.deviation / length.spread.value(), 1.0, of_deviation);
}

// Notes: 300, 200 and 100 m, 4 % each of their own and 3 % in common: 23.409 m.
TEST(Sums, AddCommonErrorsBeforeTheySquareThem) {
    std::vector<Estimate<Length>> parts;
    for (const double metres : {300.0, 200.0, 100.0})
        parts.push_back({metres * units::metre, 0.04 * metres * units::metre});
    const auto sum = measure::sum_of(parts, Ratio(0.03));
    EXPECT_NEAR(sum.centre.value(), 600.0, 1e-9);
    EXPECT_NEAR(sum.spread.value(), 23.409, 1e-3);

    Simulation run;
    const auto draw = run.of([&] {
        return (run.normal(300.0, 12.0) + run.normal(200.0, 8.0) + run.normal(100.0, 4.0)) *
               run.normal(1.0, 0.03);
    });
    EXPECT_NEAR(draw.deviation / sum.spread.value(), 1.0, of_deviation);
}

/// Five skeins of 100 g (1.5 g each), a part skein of 63.2 g, and tails of 0.857 g taken off.
Estimate<Mass> supply_in_grams() {
    std::vector<Estimate<Mass>> skeins(5, {100.0 * units::gram, 1.5 * units::gram});
    skeins.push_back({63.2 * units::gram, 0.1 * units::gram / std::sqrt(12.0)});
    return measure::sum_of(skeins, Ratio(0.0));
}

// Notes, C5: p 0.57552, 26.498 g or 55.646 m to be sure.
TEST(Verdict, ComparesInGramsWhereBothWereWeighed) {
    const Estimate<Mass> need = need_from_swatch();
    const Estimate<Mass> supply = supply_in_grams();
    EXPECT_NEAR(supply.spread.value(), 3.354, 1e-3);
    const Mass tails = 6.0 * 0.30 * units::metre / (2.1 * units::metre / units::gram);
    const Mass spare = supply.centre - need.centre - tails;
    const Mass spread = measure::in_quadrature(supply.spread, need.spread);
    EXPECT_NEAR(spare.value(), 3.470, 1e-3);
    EXPECT_NEAR(spread.value(), 18.219, 1e-3);
    const auto as_length = [](const Mass& mass) { return mass / units::gram * units::metre; };
    const auto chance =
        measure::chance_enough({as_length(supply.centre - tails), as_length(supply.spread)},
                               {as_length(need.centre), as_length(need.spread)});
    EXPECT_NEAR(chance.value.value(), 0.57552, 1e-4);
    const Mass more = spread * measure::deviations_for(measure::usual_confidence).value() - spare;
    EXPECT_NEAR(more.value(), 26.498, 1e-2);
    EXPECT_NEAR(more.value() * 2.1, 55.646, 2e-2);

    Simulation run;
    const double p = run.share([&] {
        double have = 63.2 + run.within(0.0, 0.05) - tails.value();
        for (int i = 0; i < 5; ++i) have += run.normal(100.0, 1.5);
        return have >= run.normal(need.centre.value(), need.spread.value());
    });
    EXPECT_NEAR(p, chance.value.value(), of_share);
}

// Notes, C4: 38.26 m; taking both label errors as independent gives 50.97 m, a third too wide.
TEST(Differences, LetACommonErrorCancel) {
    const double metres_per_gram = 2.1;
    const Estimate<Mass> need = need_from_swatch();
    const Estimate<Mass> supply = supply_in_grams();
    const auto length = [&](const Estimate<Mass>& mass, double sign) {
        return Estimate<Length>{sign * mass.centre.value() * metres_per_gram * units::metre,
                                mass.spread.value() * metres_per_gram * units::metre};
    };
    const Ratio label = measure::within(Ratio(0.035));
    const auto difference =
        measure::sum_of<Length>({length(supply, 1.0), length(need, -1.0)}, label);
    EXPECT_NEAR(difference.spread.value(), 38.26, 0.01);
    const Length wrong = measure::in_quadrature(measure::widened(length(supply, 1.0), label).spread,
                                                measure::widened(length(need, 1.0), label).spread);
    EXPECT_NEAR(wrong.value(), 50.97, 0.01);

    Simulation run;
    const auto draw = run.of([&] {
        const double rate = metres_per_gram * run.within(1.0, 0.035);
        return (run.normal(supply.centre.value(), supply.spread.value()) -
                run.normal(need.centre.value(), need.spread.value())) *
               rate;
    });
    EXPECT_NEAR(draw.deviation / difference.spread.value(), 1.0, of_deviation);
}

// Notes, C5: mean 400, u 80, supply 500 +-10: lognormal 0.88849; the normal would say 0.89258.
TEST(Chance, OfAWideNeedIsLognormal) {
    const auto chance = measure::chance_enough({500.0 * units::metre, 10.0 * units::metre},
                                               {400.0 * units::metre, 80.0 * units::metre});
    EXPECT_NEAR(chance.value.value(), 0.88849, 1e-4);
    Simulation run;
    const double sigma = std::sqrt(std::log1p(0.04));
    const double p = run.share([&] {
        return run.normal(500.0, 10.0) >=
               std::exp(run.normal(std::log(400.0) - sigma * sigma / 2.0, sigma));
    });
    EXPECT_NEAR(p, chance.value.value(), of_share);
}

TEST(Quotients, WidenByBothParts) {
    const Estimate<Length> length{10.0 * units::metre, 0.3 * units::metre};
    const Estimate<Mass> mass{20.0 * units::gram, 0.8 * units::gram};
    EXPECT_NEAR(measure::over(length, mass).relative().value(), 0.05, 1e-12);
    EXPECT_NEAR(measure::over(length, mass).centre.value(), 0.5, 1e-12);
}

// Wool from 10.8 to 19.9 % regain: 1.08213; regains from memory, arithmetic ours.
TEST(Moisture, MultipliesAMass) {
    EXPECT_NEAR(measure::moisture_ratio(Ratio(0.108), Ratio(0.199)).value(), 1.08213, 1e-5);
}

}  // namespace
