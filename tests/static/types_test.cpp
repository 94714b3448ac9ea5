// What the compiler must make of our quantities: every product and quotient of the craft has the
// type it should have, and none turns into another.

#include <type_traits>
#include <utility>

#include <gtest/gtest.h>

#include "skeinfall/units/quantity.hpp"

namespace {

using namespace skeinfall::units;

template <class A, class B>
using Product = decltype(std::declval<A>() * std::declval<B>());
template <class A, class B>
using Quotient = decltype(std::declval<A>() / std::declval<B>());

static_assert(std::is_same_v<Quotient<StitchCount, Length>, StitchGauge>);
static_assert(std::is_same_v<Quotient<RowCount, Length>, RowGauge>);
static_assert(std::is_same_v<Product<StitchGauge, Length>, StitchCount>);
static_assert(std::is_same_v<Product<Length, RowGauge>, RowCount>);
static_assert(std::is_same_v<Quotient<StitchCount, StitchGauge>, Length>);
static_assert(std::is_same_v<Quotient<Length, Mass>, Grist>);
static_assert(std::is_same_v<Quotient<Mass, Length>, LinearDensity>);
static_assert(std::is_same_v<Product<Mass, Grist>, Length>);
static_assert(std::is_same_v<Product<Length, LinearDensity>, Mass>);
static_assert(std::is_same_v<Quotient<double, Grist>, LinearDensity>);
static_assert(std::is_same_v<Product<YarnPerStitch, StitchCount>, Length>);
static_assert(std::is_same_v<Product<YarnPerRow, RowCount>, Length>);
static_assert(std::is_same_v<Product<YarnPerArea, Area>, Length>);
static_assert(std::is_same_v<Quotient<Length, Length>, Ratio>);
static_assert(std::is_same_v<Quotient<StitchCount, StitchCount>, Ratio>);
static_assert(std::is_same_v<Product<double, Length>, Length>);

// Nothing but a pure number leaves the system without naming a unit.
static_assert(std::is_convertible_v<Ratio, double>);
static_assert(std::is_convertible_v<double, Ratio>);
template <class Q>
constexpr bool sealed = !std::is_convertible_v<Q, double> && !std::is_convertible_v<double, Q> &&
                        !std::is_constructible_v<Q, double> && !std::is_assignable_v<Q&, double>;
static_assert(sealed<Length> && sealed<Mass> && sealed<StitchCount> && sealed<RowCount>);
static_assert(sealed<Area> && sealed<Grist> && sealed<LinearDensity>);
static_assert(sealed<StitchGauge> && sealed<RowGauge>);
static_assert(sealed<YarnPerStitch> && sealed<YarnPerRow> && sealed<YarnPerArea>);

template <class A, class B>
constexpr bool apart = !std::is_convertible_v<A, B> && !std::is_convertible_v<B, A>;
static_assert(apart<Length, Mass> && apart<StitchCount, RowCount> && apart<Length, StitchCount>);
static_assert(apart<StitchGauge, RowGauge> && apart<Grist, LinearDensity> && apart<Length, Area>);
static_assert(apart<YarnPerStitch, YarnPerRow> && apart<YarnPerStitch, YarnPerArea>);

// Types cost nothing: a quantity is its number.
static_assert(sizeof(Length) == sizeof(double) && sizeof(StitchGauge) == sizeof(double));

// 1 yd and 1 m are of one type, so that a sum of both is right.
static_assert(std::is_same_v<decltype(yard), decltype(metre)>);
static_assert(std::is_same_v<decltype(pound), decltype(gram)>);

TEST(Types, CarryASmallMakeThroughFromGaugeToBalls) {
    // 65 stitches by 240 rows at 7.366 cm a stitch are 15600 x 0.07366 m = 1149.096 m.
    const StitchGauge across = 13.0 * stitch / (10.0 * centimetre);
    const RowGauge up = 16.0 * row / (10.0 * centimetre);
    const auto wide = across * (50.0 * centimetre) / row;
    const StitchCount stitches = wide * (up * (150.0 * centimetre));
    const Length yarn = stitches * (7.366 * centimetre / stitch);
    EXPECT_NEAR(yarn / metre, 1149.096, 1e-9);
    const Mass mass = yarn / (200.0 * metre / (100.0 * gram));
    EXPECT_NEAR(mass / gram, 574.548, 1e-9);
}

}  // namespace
