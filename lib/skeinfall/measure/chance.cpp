#include "skeinfall/measure/chance.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include <boost/math/distributions/normal.hpp>
#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <boost/math/tools/toms748_solve.hpp>

namespace skeinfall::measure {
namespace {

// Plans ask for it hundreds of thousands of times; long double would only take longer.
using Normal = boost::math::normal_distribution<
    double, boost::math::policies::policy<boost::math::policies::promote_double<false>>>;

double below(double x) {
    return boost::math::cdf(Normal(), x);
}

/// P(S >= M) with a normal supply and a lognormal need of the given mean and spread.
double lognormal_need(const Estimate<units::Length>& supply, const Estimate<units::Length>& need) {
    const double ratio = need.spread / need.centre;
    const double sigma = std::sqrt(std::log1p(ratio * ratio));
    const double mu = std::log(need.centre.value()) - sigma * sigma / 2;
    const auto need_below = [&](double amount) {
        return amount <= 0.0 ? 0.0 : below((std::log(amount) - mu) / sigma);
    };
    if (supply.spread.value() <= 0.0) return need_below(supply.centre.value());
    const auto density = [&](double z) {
        return boost::math::pdf(Normal(), z) *
               need_below(supply.centre.value() + z * supply.spread.value());
    };
    return boost::math::quadrature::gauss_kronrod<double, 31>::integrate(density, -8.0, 8.0, 10,
                                                                         1e-9);
}

}  // namespace

Chance chance_enough(const Estimate<units::Length>& supply, const Estimate<units::Length>& need) {
    const units::Length spread = in_quadrature(supply.spread, need.spread);
    const units::Length spare = supply.centre - need.centre;
    if (spread.value() <= 0.0) return {units::Ratio(spare.value() >= 0.0 ? 1.0 : 0.0)};
    if (need.relative() > lognormal_above) return {units::Ratio(lognormal_need(supply, need))};
    return {units::Ratio(below(spare / spread))};
}

units::Length supply_needed(const Estimate<units::Length>& need, units::Length supply_spread,
                            Chance confidence) {
    const units::Length spread = in_quadrature(supply_spread, need.spread);
    const units::Length normal = need.centre + spread * deviations_for(confidence);
    if (need.relative() <= lognormal_above || spread.value() <= 0.0) return normal;
    const auto short_of = [&](double metres) {
        return chance_enough({metres * units::metre, supply_spread}, need).value.value() -
               confidence.value.value();
    };
    // No supply at all covers less often than not; a skewed need may ask for far more than the
    // normal one when it is wide.
    double enough = 2.0 * normal.value();
    while (short_of(enough) < 0.0 && std::isfinite(2.0 * enough)) enough *= 2.0;
    std::uintmax_t steps = 100;
    const auto [low, high] = boost::math::tools::toms748_solve(
        short_of, 0.0, enough, boost::math::tools::eps_tolerance<double>(40), steps);
    return std::max(low, high) * units::metre;
}

units::Ratio deviations_for(Chance chance) {
    const double p = chance.value;
    if (!(p >= 0.5 && p < 1.0))
        throw std::invalid_argument("a confidence lies between 50 % and 100 %");
    return {boost::math::quantile(Normal(), p)};
}

}  // namespace skeinfall::measure
