#pragma once
/// \file
/// Which skeins may serve a role, and why each of the others may not.

#include <optional>
#include <string_view>
#include <vector>

#include "skeinfall/cover/says.hpp"
#include "skeinfall/cover/shelf.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/project/project.hpp"
#include "skeinfall/stash/skein.hpp"

namespace skeinfall::cover {

/// A skein that fits, with its usable supply; or one that does not, with the reason.
struct Candidate {
    const stash::Skein* skein = nullptr;  ///< in the stash that was asked
    std::optional<stash::Supply> supply;  ///< nothing when it is out
    Reason reason;                        ///< why it is out, or what is to be said against it
    int substitution = 0;                 ///< 0: just what was wanted; 1: a swatch is needed first
    bool only_unweighed = false;          ///< out for no other reason than that nobody weighed it
    bool only_unmeasured = false;         ///< the same of the length that its mass is
};

/// A fibre that may serve where the role says what must be kept out, or heat is near, and not what
/// is wanted: who buys reads the label. Nothing where none may.
[[nodiscard]] yarn::FibreContent fibre_that_serves(const project::Role& role,
                                                   project::Recipient made_for);

/// The verdict on a skein, which must outlive it. How far its length per mass may be from the
/// wanted one is as in yarn::compare_grist(). Avoided fibres are never let in, and neither is
/// unknown content when a fibre is avoided (see yarn::objection_to()); near kitchen heat neither is
/// a fibre that is not known to stand it; nor is what is set aside for another project than the one
/// of this title.
[[nodiscard]] Candidate candidate_for(const project::Role& role, units::Length tails_of_a_skein,
                                      const stash::Skein& skein, std::string_view project = {},
                                      project::Recipient made_for = project::Recipient::adult);

/// The skeins that may serve, and those that only nobody weighed or measured, in the stash's order;
/// the stash must outlive the answer.
[[nodiscard]] std::vector<Candidate> candidates_for(
    const project::Role& role, units::Length tails_of_a_skein, const Shelf& shelf,
    std::string_view project = {}, project::Recipient made_for = project::Recipient::adult);

}  // namespace skeinfall::cover
