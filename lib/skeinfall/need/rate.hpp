#pragma once
/// \file
/// Yarn per stitch of a role, with where it came from. Inner header of need.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "skeinfall/need/calibrate.hpp"
#include "skeinfall/need/need.hpp"

namespace skeinfall::need {

struct Rate {
    std::optional<units::YarnPerStitch> per_stitch;  ///< of the gauge's stitch
    std::optional<units::Length> whole;              ///< or: of all that the role takes
    std::optional<units::Length> body;               ///< or: of its rows with their foundation
    bool by_area = false;                            ///< that `body` is what its area takes
    bool heavy = false;                              ///< see Observation
    bool other_hand = false;                         ///< a pattern's figure
    units::Ratio between_hands{};                    ///< of returns: how far hands lie apart
    bool measured = true;  ///< false: only worth asking where all is silent
    Source source = Source::swatch;
    std::string how;
    std::string short_name;  ///< "the stated total"
    bool by_mass = false;
    std::optional<units::Grist> grist;
    units::Ratio shared{};
    std::optional<Calibration> calibration;
    units::Length may_be_less{};  ///< see RoleNeed
    std::vector<Cause> causes;
    std::vector<std::string> notes;
    std::vector<std::string> cautions;  ///< of the notes, those on figures that disagree
    std::optional<yarn::Between<units::Length>> stated_between;
};

/// How large the role's part is, as makes are measured.
struct RoleSize {
    units::StitchCount stitches{};
    units::Area area{};
    std::int64_t copies = 1;  ///< of the piece that is made most often
};

/// The rate of the role's own swatches, or of those in another colour of the same yarn (its name
/// and length per mass); nothing without any. Throws base::InputError when one was
/// weighed and the yarn has no length per mass. With a calibration, `per_stitch` is left to
/// KindWeights::teach().
[[nodiscard]] std::optional<Rate> swatch_rate(const project::Project& project,
                                              const project::Role& role);

/// What else tells the role's yarn, in the order of Source: earlier makes, the stated rate, the
/// stated total, and others' makes of a fabric like it. These last are only left out where a yarn
/// or a tool is unknown and something better is there.
[[nodiscard]] std::vector<Rate> other_rates(const project::Project& project,
                                            const project::Role& role, std::size_t size,
                                            const RoleSize& worked, bool measured);

/// What a role's stated total says; nothing when it has none. Errors as need_of().
[[nodiscard]] std::optional<Rate> stated_total_of(const project::Project& project,
                                                  const project::Role& role, std::size_t size);

/// Fringes and tassels alone: they are as long as they are cut. Without its `whole`.
[[nodiscard]] Rate cut_lengths(const project::Role& role);

/// The problem of a role of which nothing at all is known.
[[nodiscard]] base::Problem nothing_known(const project::Project& project,
                                          const project::Role& role);

/// Length per mass of a role's yarn, with the relative spread of its label.
struct RoleGrist {
    units::Grist value{};
    units::Ratio spread{};
};
[[nodiscard]] std::optional<RoleGrist> grist_of(const project::Role& role);
/// The same where yarn `what` was weighed; throws base::InputError without one.
[[nodiscard]] RoleGrist grist_for(const project::Project& project, const project::Role& role,
                                  const std::string& what);

/// Root of the sum of the causes' squares.
[[nodiscard]] units::Ratio combined(const std::vector<Cause>& causes);

}  // namespace skeinfall::need
