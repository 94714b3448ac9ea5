#pragma once
/// \file
/// What finished makes teach of their maker's hand: how much more or less yarn than other makers
/// it takes, over all stitches and yarns.

#include <string>
#include <vector>

#include "skeinfall/project/project.hpp"

namespace skeinfall::project {

/// One yarn of one finished make: what was used over what others' makes let expect.
struct TaughtByMake {
    std::string make;  ///< title of its project
    std::string role;
    units::Ratio times = units::Ratio::from_value(1.0);
    /// Relative: by how much such a make may be off for other reasons than the hand, its stitch,
    /// its yarn and the weighing.
    units::Ratio noise{};
};

/// Spread of hands that nobody knows, relative: of the spread between makes of different pages what
/// is the maker's own hand, over all stitches and yarns. Seven knitters of one cardigan used 970 to
/// 1510 m.
inline constexpr units::Ratio unknown_hand = units::Ratio::from_value(0.12);

/// The hand so taught: normal in the logarithm, `unknown_hand` before any make is known, each make
/// an observation with its own noise (Gelman et al., Bayesian Data Analysis, chapter 2: the normal
/// mean with known variance; from memory). Without makes it is the unknown hand.
[[nodiscard]] Hand hand_from(const std::vector<TaughtByMake>& makes);

/// By how many standard deviations a make lies off what the others let expect.
[[nodiscard]] units::Ratio off_from(const Hand& others, const TaughtByMake& make);
/// Beyond that it is asked about before it is learnt.
inline constexpr units::Ratio far_off = units::Ratio::from_value(2.6);

}  // namespace skeinfall::project
