#pragma once
/// \file
/// Strands held together, and plied yarns taken apart.
///
/// Masses per length add, so lengths per mass add as reciprocals: two strands of 400 m per 100 g
/// are 200 m per 100 g. Ladders of class names ("two of one class make the next") are not used:
/// four strands at 400 m per 100 g are 100 m per 100 g, a bulky yarn and no DK (blog.fabric.com,
/// 2011).

#include <optional>
#include <vector>

#include "skeinfall/units/quantity.hpp"
#include "skeinfall/yarn/description.hpp"
#include "skeinfall/yarn/fibre.hpp"
#include "skeinfall/yarn/finding.hpp"
#include "skeinfall/yarn/identify.hpp"
#include "skeinfall/yarn/weight_class.hpp"

namespace skeinfall::yarn {

struct Strand {
    units::Grist grist{};
    FibreContent content;
};

/// What strands make when held together; every strand still needs its own full length.
struct Together {
    units::Grist grist{};
    FibreContent content;  ///< weighted by mass per length; unknown when any strand's is
    /// Diameter over the first strand's, for round yarns of one density: 1.41 for two alike.
    units::Ratio diameter{};
    /// Stitches per length over those of the first strand alone, to start a swatch from: 0.67 to
    /// 0.73 for two alike, as published rules spread (S173 among them), and carried on to
    /// other strands as a power of the mass per length.
    units::Ratio gauge_least{};
    units::Ratio gauge_most{};
};

/// Throws std::invalid_argument for an empty list.
[[nodiscard]] Together held_together(const std::vector<Strand>& strands);

/// Which supply ends first when all strands are used up alike.
struct RunOut {
    std::size_t strand = 0;           ///< index; the first of several alike
    units::Length worked{};           ///< length of doubled yarn until then
    std::vector<units::Length> left;  ///< of each strand
};

/// Throws std::invalid_argument for an empty list.
[[nodiscard]] RunOut first_to_run_out(const std::vector<units::Length>& supplies);

/// A claim that strands held together make a yarn of class `claimed`, judged by grist.
[[nodiscard]] Finding judge_claim(const std::vector<Strand>& strands, WeightClass claimed);

/// A length of plied yarn in stock.
struct PliedStock {
    units::Length length{};
    units::Mass mass{};
    int plies = 1;
};

/// Stock lines after parting a yarn into bundles of `parts` plies: {2, 2} halves a 4-ply. Each
/// keeps the length (its twist gives a little more; not counted), masses go by plies and add up
/// to the mass there was. InputError unless the parts are above zero and add to the plies.
[[nodiscard]] std::vector<PliedStock> split_plies(const PliedStock& whole,
                                                  const std::vector<int>& parts);

/// Ends of a cone yarn that together replace one hand-knitting yarn.
struct Ends {
    int count = 1;
    units::Grist together{};
    Finding fit;  ///< of the whole number of ends against the yarn they replace
};

/// round(cone grist / target grist), at least one (needlesofsteel.blogspot.com, 2011).
[[nodiscard]] Ends ends_to_replace(units::Grist cone, units::Grist target);

/// Yarns held together, and what is asked of them.
struct Holding {
    std::vector<Description> strands;      ///< each with its length per mass
    std::optional<WeightClass> claimed;    ///< what a pattern says they make
    std::optional<units::Grist> replaces;  ///< of a yarn that they are to stand in for
};

/// What comes of it.
struct Held {
    Together together;
    Ranking ranking;                ///< classes by the length per mass
    std::vector<Finding> findings;  ///< of the claim and of the stand-in
    std::optional<RunOut> run_out;  ///< of one ball of each, when all are known
};

/// Throws std::invalid_argument when there is no strand, or one has no length per mass.
[[nodiscard]] Held hold(const Holding& holding);

}  // namespace skeinfall::yarn
