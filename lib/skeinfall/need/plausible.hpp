#pragma once
/// \file
/// What yarn a row can take over its width, whatever the yarn.

#include <cstdint>
#include <string>
#include <vector>

#include "skeinfall/project/project.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::need {

/// Yarn of a row of plain stitches, knit or single crochet, over its width; other kinds count as
/// the stitch table weighs them, so that a mesh of chains is not thought thin. Knitted loops take
/// about 4 widths (Munden's constants, from memory: J. Text. Inst. 50, 1959, T448) and a published
/// lace 6.8; a row of single crochet takes 10.6, one of double crochet 20.4 or 11.8 for each sc
/// that it counts as (one maker's measurements, source S150 in lib/data/sources.csv). The limits
/// lie well outside these.
struct PlausibleYarn {
    units::Ratio least{};
    units::Ratio most{};
    /// Makers' own swatches of open fabrics lie below `least`: what was weighed or measured is
    /// believed down to here (4.5 and 4.0 widths in worked examples of crochet; a judgement).
    units::Ratio least_measured{};

    /// Below half of the least, and above one and a half times the most, no fabric can be: a slip.
    [[nodiscard]] bool too_little(units::Ratio times) const { return 2.0 * times < least; }
    [[nodiscard]] bool too_much(units::Ratio times) const { return times > 1.5 * most; }

    /// Relative, what a rate below the least (or, where it was measured, the least of these) is
    /// wider by: at 95 % it reaches that least itself just below it and what is usual at half of
    /// `least`. So no rate turns from believed to not believed within a hair. 0 from there on.
    [[nodiscard]] units::Ratio doubt_of(units::Ratio times, bool measured) const;

    /// Their geometric mean, for a rate that cannot be meant.
    [[nodiscard]] units::Ratio usual() const;
    /// Relative, of that mean: the limits taken as 95 %.
    [[nodiscard]] units::Ratio spread() const;
};
/// A stitch that the table does not know may be so much taller than single crochet.
inline constexpr units::Ratio tallest_unknown = units::Ratio::from_value(1.6);
[[nodiscard]] PlausibleYarn plausible_yarn(project::Craft craft);

/// A plain stitch is about as wide as its tool is thick: .9 to 2 times in crochet, .6 to 1.4 in
/// knitting (read off the gauges and tools of the Craft Yarn Council's classes, S03, and of
/// published_makes.csv). Beyond these limits a gauge is of another span or unit, a judgement.
inline constexpr units::Ratio widest_for_tool = units::Ratio::from_value(2.6);
inline constexpr units::Ratio narrowest_for_tool = units::Ratio::from_value(0.35);

/// Stitches in an area beside what is usual for the yarn: felted and dense fabrics have up to three
/// times as many, open ones a tenth. Beyond these a gauge is of another span, a judgement.
inline constexpr units::Ratio most_of_usual_gauge = units::Ratio::from_value(4.0);
inline constexpr units::Ratio least_of_usual_gauge = units::Ratio::from_value(0.08);

/// The width of plain rows, of sc or k, that would take a role's yarn: chains and slip stitches
/// count for less, tall stitches for more.
struct PlainRows {
    units::Length width{};
    bool all_known = true;  ///< the stitch table knows every kind
};

/// Where nobody counted the gauge, rows may be half or twice as high, and stitches that only a
/// total tells half or twice as wide: nearer to what is usual by up to so much (a judgement).
[[nodiscard]] units::Ratio with_gauge_open(units::Ratio times, const project::Project& project);

/// Strands of one yarn that are worked together, as its swatches say; 1 where they do not, or where
/// the partner is a yarn of its own.
[[nodiscard]] std::int64_t strands_of(const project::Project& project, const project::Role& role);

/// `rows` are the make's, as project::row_sequence() has them.
[[nodiscard]] PlainRows plain_rows(const project::Project& project,
                                   const std::vector<project::Row>& rows, const std::string& role);

}  // namespace skeinfall::need
