#pragma once
/// \file
/// What several makers took of a pattern, and what a further one may take.
///
/// Half of all makers would run short of a mean, so a printed total rests on what all but few of
/// them take.

#include <cstddef>
#include <map>
#include <string>
#include <vector>

#include "skeinfall/measure/chance.hpp"
#include "skeinfall/need/rate.hpp"
#include "skeinfall/project/project.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::need {

/// Nine further makers in ten are to come out with the printed total.
inline constexpr measure::Chance usual_share{units::Ratio::from_value(0.90)};

/// How far makers scatter about one another before anyone returned anything, and how many returns
/// that belief is worth (judgements, not published).
inline constexpr units::Ratio between_makers = units::Ratio::from_value(0.08);
inline constexpr units::Ratio belief_in_returns = units::Ratio::from_value(4.0);

/// A return farther from what all the others let one expect, in standard deviations, is asked about
/// (a judgement: one honest return in a hundred).
inline constexpr units::Ratio far_off_deviations = units::Ratio::from_value(2.6);

/// A gauge that differs by more than this tells nothing of the pattern's (a judgement).
inline constexpr units::Ratio other_gauge = units::Ratio::from_value(0.15);

/// One return as a share of the yarn the model has for that size, at the pattern's gauge.
struct Taken {
    std::size_t index = 0;  ///< into Project::testers
    units::Length used{};   ///< as weighed
    units::Ratio of_model{};
    bool gauge_corrected = false;
};

/// The returns for one yarn.
struct TesterSummary {
    std::vector<Taken> taken;           ///< in the order of the project, those left out excluded
    std::vector<std::size_t> left_out;  ///< their gauge is too far off
    std::vector<Taken> far_off;         ///< far off the others and not confirmed: left out too
    units::Ratio least{};
    units::Ratio most{};
    units::Ratio middle{};   ///< the geometric mean
    units::Ratio bound{};    ///< what a share of further makers stays within
    units::Ratio scatter{};  ///< relative, of makers about their middle
    measure::Chance share = usual_share;
};

/// The returns for a yarn against the model's need of each size. Logarithms of the shares are
/// taken as normal about an unknown centre; their variance is that of the returns and of
/// `between_makers` together, so the bound for one more maker is a Student's t (the usual result
/// for a scaled inverse chi-square belief). It is never below what a tester did take. Of three
/// returns or more the farthest that is far off the others, and was not confirmed, is left out, and
/// then the next. Without returns the summary is empty.
[[nodiscard]] TesterSummary summary_of(const project::Project& project, const project::Role& role,
                                       const std::vector<units::Length>& model,
                                       measure::Chance share = usual_share);

/// Settles what share of the need each return is, before the make grows or shrinks. Leaves a
/// project as it is that has none, or where that is settled.
[[nodiscard]] project::Project with_returns_told(project::Project project);

/// What the returns say of each yarn in one size, by role: what one further maker takes. Sizes
/// share them by what the need has for each without any.
[[nodiscard]] std::map<std::string, Rate> rates_of_returns(const project::Project& project,
                                                           std::size_t size);

}  // namespace skeinfall::need
