#pragma once
/// \file
/// What happened to a skein: the movements that explain what is held of it.

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "skeinfall/base/day.hpp"
#include "skeinfall/base/problem.hpp"
#include "skeinfall/stash/skein.hpp"
#include "skeinfall/units/parse.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::stash {

enum class MovementKind {
    bought,       ///< came into the stash, bought or as a gift
    wound_from,   ///< begun with yarn wound off another skein
    weighed,      ///< laid on a scale
    wound_off,    ///< gave yarn to a new skein
    used_in,      ///< worked into something
    given,        ///< left the stash for somebody else
    ripped_back,  ///< work was undone and the yarn wound up again
    corrected,    ///< described anew
    set_aside,    ///< kept for a project
    released,     ///< kept for that project no longer
};

/// "wound off"; the words of the stash file and of tables.
[[nodiscard]] std::string_view word(MovementKind kind);

/// Nothing for a word that is none of them. Case does not count.
[[nodiscard]] std::optional<MovementKind> parse_movement_kind(std::string_view text);

/// The kind begins a skein: bought, wound from.
[[nodiscard]] bool begins(MovementKind kind);

/// The kind describes the skein: those that begin it, and corrected.
[[nodiscard]] bool describes(MovementKind kind);

/// The kind takes yarn away: wound off, used in, given.
[[nodiscard]] bool takes(MovementKind kind);

/// The latest weighing starts the count of a skein anew, and so does a movement that took all that
/// was left; before either, a skein begins as its label says. Later amounts are added and taken
/// off, mass and length each by itself.
struct Movement {
    MovementKind kind = MovementKind::bought;
    std::string skein;             ///< its id; may be empty for a skein that begins
    std::optional<base::Day> day;  ///< nothing when not known
    /// Of weighed what the scale showed; nothing when a movement took, or set aside, all there was.
    std::optional<Amount> amount;
    std::optional<units::Printed<units::Mass>> scale;  ///< with a mass
    std::optional<units::Printed<units::Mass>> tare;   ///< of weighed
    std::string other;  ///< wound off, wound from: id of the skein at the other end
    /// What it was used in, ripped back from, set aside for or released from; to whom it was given.
    std::string purpose;
    std::string role;  ///< set aside: which yarn of the project; empty for any
    std::string note;  ///< empty for a movement that describes: the skein has the note
    /// Label, lot, state, knots and note of a movement that describes; its id, weighing and
    /// changes mean nothing.
    std::optional<Skein> described;

    bool operator==(const Movement&) const = default;
};

/// A movement to be entered, and how its problems name it: by a place, a name, or neither.
struct Line {
    Movement movement;
    base::Place place;
    std::string name;
};

/// A movement as it stands in the history.
struct Event {
    Movement movement;
    std::int64_t entry = 0;            ///< movements of one entry are undone together
    std::optional<base::Day> entered;  ///< nothing when an older layout did not keep it
    bool undone = false;
};

}  // namespace skeinfall::stash
