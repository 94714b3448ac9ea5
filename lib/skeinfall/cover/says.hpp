#pragma once
/// \file
/// What an answer has to say besides its figures, as data: why a skein is out, what to see to, what
/// would settle a close call, what would help. Words for people are made of it in `report`.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "skeinfall/measure/chance.hpp"
#include "skeinfall/project/project.hpp"
#include "skeinfall/stash/reserve.hpp"
#include "skeinfall/stash/skein.hpp"
#include "skeinfall/units/quantity.hpp"
#include "skeinfall/yarn/avoid.hpp"
#include "skeinfall/yarn/weight_class.hpp"

namespace skeinfall::cover {

// Why a skein may not serve a role, or what is to be said against one that may.

struct ContentUnknownNearHeat {};
struct MeltsInHeat {
    std::vector<std::string> fibres;
};
struct UnknownFibreNearHeat {
    std::vector<std::string> fibres;
};
struct NotKnownToStandHeat {
    std::vector<std::string> fibres;
};
struct AvoidedFibre {
    yarn::Objection objection;
};
struct OtherYarn {
    std::string wanted;
};
struct OtherColour {
    std::string wanted;
    bool recorded = true;  ///< false: of this skein no colour is known
};
struct OtherClass {
    std::optional<yarn::WeightClass> has;
    yarn::WeightClass wanted;
};
/// Of no class that anybody noted; its length per mass is one that the wanted class has.
struct ClassNotNoted {
    yarn::WeightClass wanted;
};
struct KeptForOther {
    stash::Kept kept;
};
struct LengthUnknown {
    stash::SupplyGap gap{};
};
struct OtherGrist {
    units::Grist has{};
    units::Grist wanted{};
    bool swatch_first = false;  ///< it may serve after a swatch
};
/// By its label there is more length in its mass than any hand yarn has.
struct FinerThanHandYarn {
    units::Grist has{};
};
/// By its label or its scale it is more than any skein or cone for hand work.
struct MoreThanASkein {
    std::optional<units::Mass> mass;  ///< else its length is
    units::Length length{};
};
/// Its scale shows far more than its label: it counts as labelled until it is weighed again.
struct HeavierThanItsLabel {
    units::Mass shown{};
    units::Mass label{};
};
/// It is the yarn that is wanted, but its label and the project differ by more than labels do.
struct SlipOfALabel {
    units::Grist has{};
    units::Grist wanted{};
};
/// Nobody said which yarn it is, and fabrics of such a gauge are of another thickness.
struct NotForSuchGauge {
    units::Grist has{};
    units::Grist usual{};
};
struct NoMoreThanItsTails {};
struct ServesOthers {
    std::vector<std::string> roles;
};
/// It is the skein that another yarn of the make is worked from now.
struct InHandForOther {
    std::string role;
};
struct OtherLotThanItsStrand {};
struct OtherLotThanItsWork {};

using Reason = std::variant<std::monostate, ContentUnknownNearHeat, MeltsInHeat,
                            UnknownFibreNearHeat, NotKnownToStandHeat, AvoidedFibre, OtherYarn,
                            OtherColour, OtherClass, KeptForOther, LengthUnknown, OtherGrist,
                            FinerThanHandYarn, MoreThanASkein, SlipOfALabel, NoMoreThanItsTails,
                            ServesOthers, InHandForOther, OtherLotThanItsStrand, ClassNotNoted,
                            NotForSuchGauge, HeavierThanItsLabel, OtherLotThanItsWork>;

[[nodiscard]] inline bool stated(const Reason& reason) {
    return reason.index() != 0;
}

// What to see to with the skeins that were chosen.

struct SeveralYarns {
    std::vector<std::string> names;  ///< "Cloudmoss in dusk"
};
struct SeveralLots {
    std::size_t count = 0;
};
struct LotNotKnown {
    std::vector<std::string> skeins;
};
/// The same yarn in the same colour, left out only because nobody noted its lot.
struct LotsMayBeOne {
    std::vector<std::string> skeins;
};
struct ColoursMustRunOneWay {};
struct OfOneSkein {
    std::string skein;
    Reason reason;
};
struct OtherLotThanPartner {
    std::string partner;  ///< the role it is held together with
};
/// What is asked for says its fibres: of these skeins they are not known, or others.
struct FibresNotKnown {
    std::vector<std::string> skeins;
    std::string wanted;
};
struct OtherFibres {
    std::vector<std::string> skeins;
    std::string wanted;
};
/// Sure enough alone, but all yarns have to be so together.
struct HeldToMore {
    std::size_t yarns = 0;
    measure::Chance together;
    measure::Chance each;
};

using Note =
    std::variant<SeveralYarns, SeveralLots, LotNotKnown, LotsMayBeOne, ColoursMustRunOneWay,
                 OfOneSkein, OtherLotThanPartner, FibresNotKnown, OtherFibres, HeldToMore>;

// What would settle a close call, or put it right.

struct WeighFirst {
    std::vector<std::string> skeins;
    bool operator==(const WeighFirst&) const = default;
};
/// Nobody noted how much length their mass is.
struct MeasureFirst {
    std::vector<std::string> skeins;
    bool operator==(const MeasureFirst&) const = default;
};
/// What narrows a cause of the need's band; `larger`: a swatch so many times as wide and high does.
struct NarrowTheNeed {
    std::string how;
    int larger = 0;
    bool operator==(const NarrowTheNeed&) const = default;
};
struct WeighSkeins {
    std::vector<std::string> skeins;
    units::Mass step{};  ///< of the coarsest scale that does
    bool again = false;
    bool operator==(const WeighSkeins& other) const {
        return skeins == other.skeins && step == other.step && again == other.again;
    }
};
/// By a measured length, of a skein or of the swatch's yarn.
struct MeasureGrist {
    bool of_swatch = false;
    bool operator==(const MeasureGrist&) const = default;
};
struct BuyMore {
    std::int64_t skeins = 0;
    std::string yarn;
    std::string put_up;                ///< length of one, as printed
    std::optional<std::string> match;  ///< the lot to match
    bool operator==(const BuyMore&) const = default;
};
struct BuyLength {
    units::Length length{};
    bool operator==(const BuyLength& other) const { return length == other.length; }
};

/// So many more do not make it sure, joined as the project permits: they are too short for it.
struct NoCountHolds {
    std::int64_t tried = 0;
    std::string yarn;
    std::string put_up;  ///< length of one, as printed
    bool operator==(const NoCountHolds&) const = default;
};

/// A dye lot and what it can give.
struct LotYarn {
    std::string lot;  ///< "lot A17"
    units::Length yarn{};
    bool operator==(const LotYarn& other) const { return lot == other.lot && yarn == other.yarn; }
};
/// A place of a make, for people.
struct WorkPlace {
    std::string part;      ///< a piece's or finishing part's name
    std::int64_t row = 0;  ///< 0: its foundation, or the whole part
    bool whole = false;    ///< a finishing part
    bool operator==(const WorkPlace&) const = default;
};
/// Two lots worked by turns in some parts.
struct BlendLots {
    LotYarn first;  ///< with what it is short of
    LotYarn other;  ///< with what it has
    std::vector<std::string> parts;
    bool flat = false;
    units::Length moved{};
    bool operator==(const BlendLots& o) const {
        return first == o.first && other == o.other && parts == o.parts && moved == o.moved;
    }
};
/// The beginning in the first lot, the rest by turns.
struct BeginInFirst {
    LotYarn first;  ///< with what is needed of it
    LotYarn other;
    bool all_by_turns = false;  ///< there is no beginning: all of it by turns
    WorkPlace place;
    bool flat = false;
    bool operator==(const BeginInFirst& o) const {
        return first == o.first && other == o.other && place == o.place;
    }
};
/// One change from lot to lot, faded.
struct ChangeOnce {
    std::string first;
    std::string other;
    WorkPlace place;
    std::int64_t rows = 0;
    bool flat = false;
    units::Length kept_back{};
    bool operator==(const ChangeOnce& o) const {
        return first == o.first && other == o.other && place == o.place && rows == o.rows;
    }
};
using MixingPlan = std::variant<BlendLots, BeginInFirst, ChangeOnce>;
struct MixLots {
    MixingPlan plan;
    bool last = false;  ///< of the plans: then what holds for all of them is said
    bool operator==(const MixLots&) const = default;
};

using Step = std::variant<WeighFirst, MeasureFirst, NarrowTheNeed, WeighSkeins, MeasureGrist,
                          BuyMore, BuyLength, NoCountHolds, MixLots>;

// What a maker can change.

struct SmallerSize {
    std::string size;
};
struct FewerRows {
    std::int64_t rows = 0;
    std::int64_t planned = 0;
    std::string piece;
    project::Worked worked{};
    /// Instead of the rows, where nobody counted a gauge and the piece's length is what was said.
    std::optional<units::Length> length;
    std::optional<units::Length> planned_length;
};
struct MoreLots {
    std::string role;
};
struct OtherStitch {
    std::string stitch;
    std::string instead_of;
};
struct Release {
    std::string project;
    std::string role;
};
struct YarnInstead {
    std::string yarn;
    std::string role;
    std::int64_t strands = 1;
};
struct Purchase {
    std::int64_t skeins = 0;
    std::string yarn;
    bool new_lot = false;  ///< instead of the skeins there are, whose lot nobody can match
};
struct BuyForIt {
    std::vector<Purchase> all;
};

using Change =
    std::variant<SmallerSize, FewerRows, MoreLots, OtherStitch, Release, YarnInstead, BuyForIt>;

}  // namespace skeinfall::cover
