#pragma once
/// \file
/// Estimates worked on: products, quotients and sums with their spreads, to first order.
///
/// Parts that err on their own add in quadrature; an error that all share (a label's length per
/// mass, a scale's calibration) is added up before it is squared. Widening an estimate by an
/// error that cancels, or squaring one that is shared, are the two usual mistakes.

#include <cmath>
#include <vector>

#include "skeinfall/measure/estimate.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::measure {

/// Product of two independent estimates.
template <class A, class B>
[[nodiscard]] Estimate<units::Times<A, B>> times(const Estimate<A>& a, const Estimate<B>& b) {
    return {a.centre * b.centre, in_quadrature(units::Times<A, B>(a.spread * b.centre),
                                               units::Times<A, B>(a.centre * b.spread))};
}

/// Quotient of two independent estimates; b's centre is not zero.
template <class A, class B>
[[nodiscard]] Estimate<units::Over<A, B>> over(const Estimate<A>& a, const Estimate<B>& b) {
    return {a.centre / b.centre,
            in_quadrature(units::Over<A, B>(a.spread / b.centre),
                          units::Over<A, B>(a.centre * b.spread / (b.centre * b.centre)))};
}

/// Sum of estimates whose spreads are their own, and which all carry one common relative error
/// besides. For a difference give the subtrahend a negative centre: a common error then cancels
/// as far as the amounts do.
template <class Q>
[[nodiscard]] Estimate<Q> sum_of(const std::vector<Estimate<Q>>& parts, units::Ratio common) {
    Estimate<Q> sum;
    for (const Estimate<Q>& part : parts) {
        sum.centre += part.centre;
        sum.spread = in_quadrature(sum.spread, part.spread);
    }
    sum.spread = in_quadrature(sum.spread, Q(sum.centre * common.value()));
    return sum;
}

/// `estimate` with another independent relative error on top.
template <class Q>
[[nodiscard]] Estimate<Q> widened(const Estimate<Q>& estimate, units::Ratio relative) {
    return {estimate.centre, in_quadrature(estimate.spread, Q(estimate.centre * relative.value()))};
}

/// Standard uncertainty of a value known only to lie within +-`half_width`, all places alike
/// (JCGM 100:2008, 4.3.7, from memory).
template <class Q>
[[nodiscard]] Q within(const Q& half_width) {
    return half_width / std::sqrt(3.0);
}

/// Mass of a yarn at `to` over its mass at `from`, both regains as shares of the dry mass:
/// (1 + to) / (1 + from).
[[nodiscard]] inline units::Ratio moisture_ratio(units::Ratio from, units::Ratio to) {
    return {(1.0 + to.value()) / (1.0 + from.value())};
}

}  // namespace skeinfall::measure
