#pragma once
/// \file
/// Which weight class a yarn is, from any mix of evidence.
///
/// For each kind of evidence a class is supported by the share of published charts whose range
/// for that class holds the figure; a near miss (10 % of a grist, 1 wrap, 1 stitch, half a
/// millimetre, wider by the figure's own band) counts in part. A class's score is the weighted
/// mean of its supports: grist counts three times, gauges and names twice, wraps and tools once.
///
/// Nothing is ever certain here: wraps or tools alone make no class more than possible, for
/// charts put the same wraps whole classes apart.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/measure/estimate.hpp"
#include "skeinfall/units/quantity.hpp"
#include "skeinfall/yarn/finding.hpp"
#include "skeinfall/yarn/regional_names.hpp"
#include "skeinfall/yarn/weight_class.hpp"

namespace skeinfall::yarn {

/// A crochet gauge counts single crochet (US), in lace double crochet.
enum class CrochetStitch { single, double_crochet };

struct CrochetGauge {
    units::StitchGauge gauge{};
    CrochetStitch stitch = CrochetStitch::single;
};

struct Evidence {
    std::optional<measure::Estimate<units::Grist>> grist;
    std::optional<units::WrapGauge> wraps;
    std::optional<units::StitchGauge> knit_gauge;
    std::optional<CrochetGauge> crochet_gauge;
    std::optional<RegionalName> name;
    std::optional<units::Length> hook;    ///< recommended, diameter
    std::optional<units::Length> needle;  ///< recommended, diameter
};

enum class EvidenceKind { grist, knit_gauge, crochet_gauge, name, wraps, hook, needle };

/// "grist", "knit gauge", "crochet gauge", "name", "wraps", "hook", "needle".
[[nodiscard]] std::string_view name_of(EvidenceKind kind);

/// What one kind of evidence says of one class.
struct Support {
    EvidenceKind kind = EvidenceKind::grist;
    units::Ratio share{};  ///< 0..1
    int agree = 0;         ///< charts whose range holds the figure
    int charts = 0;        ///< charts that know the class, or the name
};

struct RankedClass {
    WeightClass weight;
    units::Ratio score{};  ///< 0..1
    Confidence standing = Confidence::unlikely;
    std::vector<Support> supports;  ///< by kind, in EvidenceKind's order
};

/// Two kinds of evidence that support no class together.
struct Contradiction {
    EvidenceKind one = EvidenceKind::grist;
    EvidenceKind other = EvidenceKind::grist;
    std::string says;  ///< both readings, and what may lie behind them
};

struct Ranking {
    std::vector<RankedClass> classes;  ///< best first, ties by number; supported ones only
    std::vector<Contradiction> contradictions;
    std::vector<std::string> notes;

    /// A class stands out and nothing contradicts it.
    [[nodiscard]] bool decided() const {
        return contradictions.empty() && !classes.empty() &&
               classes.front().standing == Confidence::likely;
    }
};

/// Classes ranked. A name that no chart knows supports nothing; look with votes_for() first.
[[nodiscard]] Ranking rank_classes(const Evidence& evidence);

}  // namespace skeinfall::yarn
