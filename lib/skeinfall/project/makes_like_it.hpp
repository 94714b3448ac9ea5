#pragma once
/// \file
/// What others' makes say of a fabric before any of it is worked: a regression on published makes
/// (lib/data/published_makes.csv), fitted when the library is built. Linear and normal in
/// logarithms, pooled over stitches and shapes: a stitch that the makes hardly know gets a wider
/// band, an unknown one the widest (Gelman et al., Bayesian Data Analysis, chapter 15, from
/// memory).

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/project/project.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::project {

/// A fabric by what may be known of it.
struct FabricFacts {
    Craft craft = Craft::crochet;
    Terms terms = Terms::us;
    std::string stitch;                 ///< "hdc", "2x2 rib", "granny square"
    std::optional<units::Length> tool;  ///< hook or needle
    std::optional<units::Grist> grist;  ///< of all strands held together
    std::optional<yarn::WeightClass> weight;
    std::optional<units::StitchGauge> stitches;
    std::optional<units::RowGauge> rows;
    std::optional<units::Area> area;
};

/// One cause of the band and what would narrow it, relative.
struct UseCause {
    enum class What { others, stitch, thickness, tool, far_tool };
    What what = What::others;
    units::Ratio relative{};
};

struct MakesLikeIt {
    units::YarnPerArea use{};  ///< the middle (median)
    units::Ratio spread{};     ///< relative standard deviation, of a make by a hand nobody knows
    std::vector<UseCause> causes;
    std::string fabric;  ///< the group of makes it was put to: "garter"; empty: none knows it
    bool tool_known = false;
    bool far_tool = false;  ///< the tool lies far from the yarn's usual ones
};

/// The group of stitches that makes are told apart by ("garter", "mesh"), from how a stitch is
/// named; empty when none knows it.
[[nodiscard]] std::string_view fabric_group(Craft craft, Terms terms, std::string_view stitch);

/// Nothing when neither a length per mass nor a class is known, nor a tool or a whole gauge that
/// would tell the yarn's thickness.
[[nodiscard]] std::optional<MakesLikeIt> makes_like_it(const FabricFacts& facts);

/// How the yarn of an area of one fabric compares with that of another in the same hands and yarn.
struct UseCompared {
    units::Ratio times{};   ///< of the first over the second
    units::Ratio spread{};  ///< relative
};
[[nodiscard]] std::optional<UseCompared> compare_use(const FabricFacts& one,
                                                     const FabricFacts& other);

/// What a role's fabric is: its yarn with what is held together with it, the tool, the gauge.
[[nodiscard]] FabricFacts fabric_of(const Project& project, const Role& role);

/// The gauge that is usual for a fabric, where nobody counted it.
struct UsualGauge {
    units::StitchGauge stitches{};
    units::RowGauge rows{};
    units::Ratio spread{};  ///< relative, of stitches in an area
};
[[nodiscard]] std::optional<UsualGauge> usual_gauge(const FabricFacts& facts);

/// The yarn that such a fabric is usually made of, where its yarn is not named: from the gauge,
/// else from the tool. Nothing when neither is known.
struct ImpliedGrist {
    units::Grist grist{};
    units::Ratio spread{};  ///< of its logarithm
};
[[nodiscard]] std::optional<ImpliedGrist> implied_grist(const FabricFacts& facts);

/// One coefficient of the regression, as a report prints it.
struct Coefficient {
    std::string_view name;
    units::Ratio value{};
    units::Ratio spread{};
};
/// Of log(metres in a square metre), in the order of the fit.
[[nodiscard]] std::vector<Coefficient> coefficients();
/// The number of makes behind them.
[[nodiscard]] std::int64_t makes_behind();

}  // namespace skeinfall::project
