#pragma once
/// \file
/// Quantities of the craft: lengths, masses, stitches and rows that the compiler keeps apart.
///
/// A system of our own over Boost.Units with the base units metre, gram, stitch, row and wrap. A
/// quantity is made by naming its unit (`3.5 * units::ounce`) and leaves by dividing by one
/// (`double yards = length / units::yard`); no function takes a bare number for a quantity.
/// Factors are exact: international yard and pound agreement, 1959 (1 yd = 0.9144 m,
/// 1 lb = 453.59237 g).

#include <boost/units/base_dimension.hpp>
#include <boost/units/base_unit.hpp>
#include <boost/units/base_units/cgs/gram.hpp>
#include <boost/units/base_units/si/meter.hpp>
#include <boost/units/derived_dimension.hpp>
#include <boost/units/make_system.hpp>
#include <boost/units/operators.hpp>
#include <boost/units/physical_dimensions/area.hpp>
#include <boost/units/physical_dimensions/length.hpp>
#include <boost/units/physical_dimensions/mass.hpp>
#include <boost/units/quantity.hpp>
#include <boost/units/unit.hpp>

namespace skeinfall::units {

/// Registration numbers of our base dimensions; Boost.Units wants them unique in a program.
struct stitch_dimension_tag : boost::units::base_dimension<stitch_dimension_tag, 7301> {};
struct row_dimension_tag : boost::units::base_dimension<row_dimension_tag, 7302> {};
struct wrap_dimension_tag : boost::units::base_dimension<wrap_dimension_tag, 7303> {};

struct stitch_base_unit
    : boost::units::base_unit<stitch_base_unit, stitch_dimension_tag::dimension_type, 7301> {};
struct row_base_unit
    : boost::units::base_unit<row_base_unit, row_dimension_tag::dimension_type, 7302> {};
struct wrap_base_unit
    : boost::units::base_unit<wrap_base_unit, wrap_dimension_tag::dimension_type, 7303> {};

using System =
    boost::units::make_system<boost::units::si::meter_base_unit, boost::units::cgs::gram_base_unit,
                              stitch_base_unit, row_base_unit, wrap_base_unit>::type;

using LengthUnit = boost::units::unit<boost::units::length_dimension, System>;
using MassUnit = boost::units::unit<boost::units::mass_dimension, System>;
using StitchUnit = boost::units::unit<stitch_dimension_tag::dimension_type, System>;
using RowUnit = boost::units::unit<row_dimension_tag::dimension_type, System>;
using WrapUnit = boost::units::unit<wrap_dimension_tag::dimension_type, System>;

template <class Unit>
using Quantity = boost::units::quantity<Unit, double>;
template <class A, class B>
using Over = typename boost::units::divide_typeof_helper<A, B>::type;
template <class A, class B>
using Times = typename boost::units::multiply_typeof_helper<A, B>::type;

using Length = Quantity<LengthUnit>;            ///< of yarn or of fabric
using Mass = Quantity<MassUnit>;                ///< of yarn
using StitchCount = Quantity<StitchUnit>;       ///< stitches worked
using RowCount = Quantity<RowUnit>;             ///< rows or rounds worked
using WrapCount = Quantity<WrapUnit>;           ///< turns of yarn side by side round a ruler
using Area = Times<Length, Length>;             ///< of fabric
using Grist = Over<Length, Mass>;               ///< yarn length per mass
using LinearDensity = Over<Mass, Length>;       ///< yarn mass per length
using StitchGauge = Over<StitchCount, Length>;  ///< stitches across a length
using RowGauge = Over<RowCount, Length>;        ///< rows up a length
using WrapGauge = Over<WrapCount, Length>;      ///< wraps across a length (WPI)
using YarnPerStitch = Over<Length, StitchCount>;
using YarnPerRow = Over<Length, RowCount>;
using YarnPerArea = Over<Length, Area>;

/// A pure number: a share, a factor, a ratio of two alike quantities.
using Ratio =
    boost::units::quantity<boost::units::unit<boost::units::dimensionless_type, System>, double>;

inline constexpr Length metre = Length::from_value(1.0);
inline constexpr Length centimetre = Length::from_value(0.01);
inline constexpr Length millimetre = Length::from_value(0.001);
inline constexpr Length yard = Length::from_value(0.9144);
inline constexpr Length foot = Length::from_value(0.3048);
inline constexpr Length inch = Length::from_value(0.0254);
inline constexpr Mass gram = Mass::from_value(1.0);
inline constexpr Mass pound = Mass::from_value(453.59237);
inline constexpr Mass ounce = Mass::from_value(28.349523125);
inline constexpr StitchCount stitch = StitchCount::from_value(1.0);
inline constexpr RowCount row = RowCount::from_value(1.0);
inline constexpr WrapCount wrap = WrapCount::from_value(1.0);

}  // namespace skeinfall::units
