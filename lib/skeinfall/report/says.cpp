#include "skeinfall/report/says.hpp"

#include <cmath>
#include <cstdint>
#include <variant>
#include <vector>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/detail/figures.hpp"
#include "skeinfall/report/words.hpp"
#include "skeinfall/units/format.hpp"
#include "skeinfall/units/number_style.hpp"
#include "skeinfall/units/parse.hpp"

namespace skeinfall::report {
namespace {

using units::Length;
using units::Rounding;
using units::Step;
using units::yards_and_metres;

/// The first of many; nobody reads hundreds.
std::string listed(std::vector<std::string> names) {
    constexpr std::size_t at_most = 12;
    const std::size_t more = names.size() > at_most ? names.size() - at_most : 0;
    if (more > 0) names.resize(at_most);
    return base::join(names, ", ") + (more > 0 ? fmt::format(" and {} more", more) : "");
}

std::string grist_text(units::Grist grist) {
    return units::text(grist, units::shown::metres_per_100g, Step::one, Rounding::nearest);
}

struct ReasonWords {
    std::string operator()(std::monostate /*none*/) const { return {}; }
    std::string operator()(const cover::ContentUnknownNearHeat& /*reason*/) const {
        return "content unknown, and heat melts some fibres";
    }
    std::string operator()(const cover::MeltsInHeat& reason) const {
        return "contains " + base::join(reason.fibres, ", ") + ", which heat melts";
    }
    std::string operator()(const cover::UnknownFibreNearHeat& reason) const {
        return base::join(reason.fibres, ", ") +
               " is not a fibre known here, and some melt in heat";
    }
    std::string operator()(const cover::NotKnownToStandHeat& reason) const {
        return base::join(reason.fibres, ", ") + " may not stand heat";
    }
    std::string operator()(const cover::AvoidedFibre& reason) const {
        return text(reason.objection);
    }
    std::string operator()(const cover::OtherYarn& reason) const {
        return "a different yarn from " + reason.wanted;
    }
    std::string operator()(const cover::OtherColour& reason) const {
        return reason.recorded ? "a different colour: you asked for " + reason.wanted
                               : "colour not recorded, " + reason.wanted + " is wanted";
    }
    std::string operator()(const cover::OtherClass& reason) const {
        return (reason.has ? "class " + text(*reason.has) : std::string("class unknown")) + ", " +
               text(reason.wanted) + " is wanted";
    }
    std::string operator()(const cover::NotForSuchGauge& reason) const {
        return fmt::format("{} than such a gauge is usually worked in: {} against about {}",
                           reason.has > reason.usual ? "thinner" : "thicker",
                           grist_text(reason.has), grist_text(reason.usual));
    }
    std::string operator()(const cover::ClassNotNoted& reason) const {
        return "no class is recorded; by its length per weight it may be " + text(reason.wanted) +
               ", so swatch first";
    }
    std::string operator()(const cover::HeavierThanItsLabel& reason) const {
        return fmt::format(
            "it shows {} and its label says {}: it is counted as labelled. Weigh it again without "
            "bag or bowl",
            grams_text(reason.shown, Rounding::nearest),
            grams_text(reason.label, Rounding::nearest));
    }
    std::string operator()(const cover::KeptForOther& reason) const {
        const stash::Promise& promise = *reason.kept.by;
        return (promise.amount ? stash::text(*promise.amount) + " of it " : std::string()) +
               "set aside for " +
               (reason.kept.other_project ? promise.project : "yarn " + promise.role);
    }
    std::string operator()(const cover::LengthUnknown& reason) const { return said(reason.gap); }
    std::string operator()(const cover::OtherGrist& reason) const {
        return fmt::format("{} than wanted: {} against {}{}",
                           reason.has > reason.wanted ? "thinner" : "thicker",
                           grist_text(reason.has), grist_text(reason.wanted),
                           reason.swatch_first ? ", so work a swatch first" : "");
    }
    std::string operator()(const cover::FinerThanHandYarn& reason) const {
        return grist_text(reason.has) + " by its label, finer than any hand yarn";
    }
    std::string operator()(const cover::MoreThanASkein& reason) const {
        return reason.mass
                   ? fmt::format(
                         "{} in one skein, more than any for hand work: check the figure and its "
                         "unit",
                         units::text(*reason.mass, units::shown::grams, Step::one, Rounding::up))
                   : yards_and_metres(reason.length, Rounding::up) +
                         " in one skein, more than any for hand work: check the figure and its "
                         "unit";
    }
    std::string operator()(const cover::SlipOfALabel& reason) const {
        return grist_text(reason.has) + " by its label, " + grist_text(reason.wanted) +
               " by the project: one of them must be wrong";
    }
    std::string operator()(const cover::NoMoreThanItsTails& /*reason*/) const {
        return "too short: its two ends would use it up";
    }
    std::string operator()(const cover::ServesOthers& reason) const {
        return "already used for " + base::join(reason.roles, " and ");
    }
    std::string operator()(const cover::InHandForOther& reason) const {
        return "being worked in " + reason.role;
    }
    std::string operator()(const cover::OtherLotThanItsWork& /*reason*/) const {
        return "not the dye lot that the work was begun in";
    }
    std::string operator()(const cover::OtherLotThanItsStrand& /*reason*/) const {
        return "not the dye lot of the strand it would be held with";
    }
};

struct NoteWords {
    std::string operator()(const cover::SeveralYarns& note) const {
        return fmt::format(
            "{} yarns or colours ({}): lay them side by side and swatch them together first",
            note.names.size(), listed(note.names));
    }
    std::string operator()(const cover::SeveralLots& note) const {
        return fmt::format(
            "{} dye lots: look at them side by side in daylight first, then alternate them every "
            "two rows where they meet",
            note.count);
    }
    std::string operator()(const cover::LotNotKnown& note) const {
        return "dye lot not recorded: " + listed(note.skeins);
    }
    std::string operator()(const cover::LotsMayBeOne& note) const {
        return fmt::format(
            "{} the same yarn and colour, but no dye lot is recorded, so {} not counted. If all "
            "are one lot, record it (skeinfall stash correct)",
            listed(note.skeins) + (note.skeins.size() == 1 ? " is" : " are"),
            note.skeins.size() == 1 ? "it is" : "they are");
    }
    std::string operator()(const cover::ColoursMustRunOneWay& /*note*/) const {
        return "see that the colours of every skein run the same way before it is joined; a skein "
               "wound the other way is worked from its other end (skeinfall joins plans it)";
    }
    std::string operator()(const cover::OfOneSkein& note) const {
        return note.skein + ": " + said(note.reason);
    }
    std::string operator()(const cover::OtherLotThanPartner& note) const {
        return "held together with " + note.partner +
               ", of the same yarn but from another lot: swatch both together first";
    }
    std::string operator()(const cover::FibresNotKnown& note) const {
        return fmt::format("you asked for {}, but the fibre of {} is not known: read the label",
                           note.wanted, listed(note.skeins));
    }
    std::string operator()(const cover::OtherFibres& note) const {
        return fmt::format("you asked for {}, but {} {} of other fibres: swatch first", note.wanted,
                           listed(note.skeins), note.skeins.size() == 1 ? "is" : "are");
    }
    std::string operator()(const cover::HeldToMore& note) const {
        const auto percent = [](measure::Chance chance) {
            return units::percent_text(chance.value, Step::tenth, Rounding::up);
        };
        return fmt::format(
            "sure enough on its own, but for all {} yarns together to be {} sure, each must be {} "
            "sure",
            note.yarns, percent(note.together), percent(note.each));
    }
    std::string operator()(const joins::EdgeStaysVisible& note) const {
        return "the side edge of " + note.piece +
               " shows; to keep joins off it, join inside the row";
    }
    std::string operator()(const joins::NeedsPliedYarn& note) const {
        return note.join_kind + " needs a plied yarn";
    }
    std::string operator()(const joins::KnotBreaksColours& note) const {
        return "a knot in " + note.skein +
               " may break the order of its colours: name the lengths between the knots, such as "
               "40 m + 60 m, and where each begins";
    }
    std::string operator()(const joins::StepTooLong& note) const {
        const std::string step =
            note.finish ? note.part
                        : (note.purpose == need::Purpose::foundation ? "foundation"
                           : note.purpose == need::Purpose::bind_off
                               ? "bind-off"
                               : fmt::format("{} {}", project::row_word(note.worked), note.row)) +
                              " of " + note.part;
        return fmt::format(
            "{} takes {} but the longest skein gives only {}, {} too little: it needs a join "
            "inside it",
            step, yards_and_metres(note.takes, Rounding::up),
            yards_and_metres(note.longest, Rounding::down),
            yards_and_metres(note.takes - note.longest, Rounding::up));
    }
    std::string operator()(const joins::PlannedBesidePairs& /*note*/) const {
        return "pieces made once, and the finish, come from skeins and leftovers that no pair "
               "needs";
    }
};

std::string by_turns(bool flat) {
    return flat ? "two rows of each, so that both wait at the same edge" : "a round of each";
}

std::string place(const cover::WorkPlace& at) {
    if (at.whole) return at.part;
    return at.row > 0 ? fmt::format("row {} of {}", at.row, at.part)
                      : "the foundation of " + at.part;
}

struct MixingWords {
    std::string operator()(const cover::BlendLots& plan) const {
        std::vector<std::string> parts = plan.parts;
        for (std::string& part : parts)
            if (part.empty()) part = "the make";
        return fmt::format(
            "Or mix two lots: {} is {} short, {} has {}. Alternate both in {}, {}, and work the "
            "rest from the first. The second then gives {}.",
            plan.first.lot, yards_and_metres(plan.first.yarn, Rounding::up), plan.other.lot,
            yards_and_metres(plan.other.yarn, Rounding::down), base::join(parts, ", "),
            by_turns(plan.flat), yards_and_metres(plan.moved, Rounding::up));
    }
    std::string operator()(const cover::BeginInFirst& plan) const {
        return fmt::format("{} from {} on, alternate both ({}): {} of {}, {} of {}.",
                           plan.all_by_turns ? "Or" : "Or begin in " + plan.first.lot + " and",
                           place(plan.place), by_turns(plan.flat),
                           yards_and_metres(plan.first.yarn, Rounding::up), plan.first.lot,
                           yards_and_metres(plan.other.yarn, Rounding::up), plan.other.lot);
    }
    std::string operator()(const cover::ChangeOnce& plan) const {
        return fmt::format(
            "Or change over once: {0} until {1} begins, then alternate both over {2} rows ({3}). "
            "After that {4}. Keep {5} of {0} for those rows.",
            plan.first, place(plan.place), plan.rows, by_turns(plan.flat), plan.other,
            yards_and_metres(plan.kept_back, Rounding::up));
    }
};

struct StepWords {
    std::string operator()(const cover::WeighFirst& step) const {
        return fmt::format("Weigh {} first: started but never weighed, {} may hold enough.",
                           listed(step.skeins), step.skeins.size() == 1 ? "it" : "they");
    }
    std::string operator()(const cover::MeasureFirst& step) const {
        const bool one = step.skeins.size() == 1;
        return fmt::format(
            "Record the label of {}, or measure 10 yd and weigh that: {} length is not known, and "
            "{} may hold what is missing.",
            listed(step.skeins), one ? "its" : "their", one ? "it" : "they");
    }
    std::string operator()(const cover::NarrowTheNeed& step) const {
        return step.how + (step.larger > 0 ? fmt::format(" One {} times as wide and high would do.",
                                                         step.larger)
                                           : "");
    }
    std::string operator()(const cover::WeighSkeins& step) const {
        const std::string scale = units::plain_number(units::Ratio(step.step / units::gram),
                                                      Step::hundredth, Rounding::nearest) +
                                  " g";
        return step.again
                   ? fmt::format("Weigh {} again, on a scale of {} steps.", listed(step.skeins),
                                 scale)
                   : fmt::format(
                         "Weigh {} on a scale of {} steps: so far only {} how much yarn that is.",
                         listed(step.skeins), scale,
                         step.skeins.size() == 1 ? "its label says" : "their labels say");
    }
    std::string operator()(const cover::MeasureGrist& step) const {
        return step.of_swatch
                   ? "Measure and weigh 10 yd of the swatch's yarn: labels can be off by a few per "
                     "cent."
                   : "Measure and weigh 10 yd from one skein: labels can be off by a few per cent.";
    }
    std::string operator()(const cover::BuyMore& step) const {
        const auto length = units::number_style().yarn_in_grams
                                ? units::parse_length(step.put_up)
                                : base::Result<units::Length>(base::Problem{});
        const std::string of_one = length ? yards_and_metres(*length, Rounding::down) : step.put_up;
        return fmt::format("Buy {} more skein{} {} ({}){}.", step.skeins,
                           step.skeins == 1 ? "" : "s",
                           step.yarn.empty() ? "like it" : "of " + step.yarn, of_one,
                           step.match ? " and match " + *step.match : "");
    }
    std::string operator()(const cover::NoCountHolds& step) const {
        return fmt::format(
            "Even {} more skeins{} ({}) would not make it sure, joined between rows: buy larger "
            "ones, "
            "or join inside rows.",
            step.tried, step.yarn.empty() ? "" : " of " + step.yarn, step.put_up);
    }
    std::string operator()(const cover::BuyLength& step) const {
        return "Buy " + yards_and_metres(step.length, Rounding::up) +
               " of a suitable yarn, all of one lot.";
    }
    std::string operator()(const cover::MixLots& step) const {
        return std::visit(MixingWords(), step.plan) +
               (step.last ? " Before you rely on it, look at a washed swatch of both lots in "
                            "daylight."
                          : "");
    }
};

struct ChangeWords {
    std::string operator()(const cover::SmallerSize& change) const { return "size " + change.size; }
    std::string operator()(const cover::FewerRows& change) const {
        if (change.length && change.planned_length)
            return fmt::format("{} of {} instead of {}",
                               units::inches_and_centimetres(*change.length), change.piece,
                               units::inches_and_centimetres(*change.planned_length));
        const std::string word(project::row_word(change.worked));
        return counted(change.rows, word, word + "s") + " of " + change.piece + " instead of " +
               std::to_string(change.planned);
    }
    std::string operator()(const cover::MoreLots& change) const {
        return "mix dye lots in " + change.role;
    }
    std::string operator()(const cover::OtherStitch& change) const {
        return change.stitch + " instead of " + change.instead_of;
    }
    std::string operator()(const cover::Release& change) const {
        return "release what is set aside for " + change.project + ", for " + change.role;
    }
    std::string operator()(const cover::YarnInstead& change) const {
        return change.strands == 1
                   ? change.yarn + " for " + change.role + " instead (swatch first)"
                   : fmt::format("{} strands of {} together for {} instead (swatch first)",
                                 change.strands, change.yarn, change.role);
    }
    std::string operator()(const cover::BuyForIt& change) const {
        std::vector<std::string> all;
        for (const cover::Purchase& one : change.all)
            all.push_back(counted(one.skeins, "skein", "skeins") + " of " + one.yarn +
                          (one.new_lot ? ", all of one new lot" : ""));
        return "buy " + base::join(all, ", ");
    }
};

}  // namespace

std::string said(stash::SupplyGap gap) {
    switch (gap) {
        case stash::SupplyGap::no_label_length:
            return "no length on its label: measure 10 yd of it, weigh that and the skein";
        case stash::SupplyGap::never_weighed:
            return "a part skein that was never weighed: weigh it";
        case stash::SupplyGap::no_label_mass:
            return "no weight on its label: weigh a whole skein of it";
        case stash::SupplyGap::nothing_left:
            return "your records leave nothing of it: weigh it";
        case stash::SupplyGap::no_more_than_tare:
            break;
    }
    return "it weighs no more than its cone or bag: weigh it again";
}

namespace {

struct ContradictionWords {
    std::string operator()(const need::RowsAgainstFabric& one) const {
        const auto number = [](units::Ratio value) {
            return units::plain_number(value, Step::tenth, Rounding::nearest);
        };
        return fmt::format(
            "a plain row would take {} times its width in yarn, but real fabrics take {} to {} "
            "times",
            number(one.told), number(one.least), number(one.most));
    }
    std::string operator()(const need::TwoEvidences& one) const {
        return fmt::format("{} says {}, and {} says {}", one.one,
                           yards_and_metres(one.one_says, Rounding::nearest), one.other,
                           yards_and_metres(one.other_says, Rounding::nearest));
    }
    std::string operator()(const need::SizeAgainstCounts& one) const {
        return fmt::format("the stitches and rows of {} come to {}, but its {} is given as {}",
                           one.piece, units::inches_and_centimetres(one.by_counts),
                           one.length ? "length" : "width",
                           units::inches_and_centimetres(one.stated));
    }
    std::string operator()(const need::WeighingsAgainstRows& one) const {
        return fmt::format(
            "by your weighings rows took {}, where the plan or your other weighings say {}",
            grams_text(one.used, Rounding::nearest), grams_text(one.expected, Rounding::nearest));
    }
    std::string operator()(const need::GaugeAgainstYarn& one) const {
        const bool more = one.times.value() > 1.0;
        return fmt::format(
            "the gauge has {} times as {} stitches in the same space as is usual for such yarn",
            units::plain_number(more ? one.times : units::Ratio(1.0 / one.times.value()),
                                Step::tenth, Rounding::nearest),
            more ? "many" : "few");
    }
    std::string operator()(const need::GaugeAgainstTool& one) const {
        const auto mm = [](units::Length length) {
            return units::plain_number(units::Ratio(length / units::millimetre), Step::tenth,
                                       Rounding::nearest);
        };
        return fmt::format("by the gauge a stitch is {} mm wide, but the hook or needle is {} mm",
                           mm(one.stitch), mm(one.tool));
    }
};

}  // namespace

std::string said(const need::Contradiction& contradiction) {
    return std::visit(ContradictionWords(), contradiction);
}

std::string contradiction_lines(const std::vector<need::Contradiction>& all) {
    std::string out;
    for (const need::Contradiction& one : all)
        out += "  Two figures do not go together: " + base::shown_inert(said(one)) +
               ". Until one is corrected, nothing is sure.\n";
    return out;
}

std::string said(const cover::Reason& reason) {
    return std::visit(ReasonWords(), reason);
}

std::string said(const cover::Note& note) {
    return std::visit(NoteWords(), note);
}

std::string said(const joins::Note& note) {
    return std::visit(NoteWords(), note);
}

std::string said(const cover::Step& step) {
    return std::visit(StepWords(), step);
}

std::string said(const cover::Change& change) {
    return std::visit(ChangeWords(), change);
}

std::string said(const cover::Settling& step) {
    constexpr double hardly_ever = 0.02;
    constexpr double nearly_always = 0.99;
    if (!step.chance) return said(step.what);
    const double chance = step.chance->value.value();
    if (chance < hardly_ever) return said(step.what) + " On its own this is rarely enough.";
    if (chance > nearly_always)
        return said(step.what) + " That will almost certainly give a clear answer.";
    const std::string shown = chance_text(*step.chance);
    const bool vowel =
        shown.starts_with("8") || shown.starts_with("11 ") || shown.starts_with("18 ");
    return said(step.what) + " There is " + (vowel ? "an " : "a ") + shown +
           " chance that this gives a clear answer.";
}

}  // namespace skeinfall::report
