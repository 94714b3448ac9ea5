#include "skeinfall/need/rate.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/measure/propagate.hpp"
#include "skeinfall/need/earlier_makes.hpp"
#include "skeinfall/need/gauge.hpp"
#include "skeinfall/project/hand.hpp"
#include "skeinfall/project/makes_like_it.hpp"
#include "skeinfall/units/format.hpp"
#include "skeinfall/yarn/put_up.hpp"
#include "skeinfall/yarn/weight_class.hpp"
#include "skeinfall/yarn/yarn.hpp"

namespace skeinfall::need {
namespace {

using units::Length;
using units::Ratio;
using units::Rounding;

const std::string work_a_swatch = "Work a swatch in this yarn and weigh it.";

/// What a pattern's figure becomes at the maker's gauge, and its cause of the band.
double at_makers_gauge(const project::Project& project, bool whole, Rate& rate) {
    if (!project.pattern_gauge) return 1.0;
    const GaugeChange counts =
        gauge_change(*project.pattern_gauge, project.gauge, Keeping::stitch_counts);
    const GaugeChange kept = gauge_change(*project.pattern_gauge, project.gauge, project.keeping);
    const double times = whole ? kept.yarn.value() : counts.yarn.value();
    // Yarn goes with some power, from 0 to 1, of the room a stitch has; the model takes the root.
    const Ratio spread = measure::within(Ratio(std::abs(std::log(counts.yarn.value()))));
    rate.causes.push_back({"a pattern's figure taken to your gauge", spread, work_a_swatch});
    rate.notes.push_back(
        fmt::format("{} is for the pattern's gauge; at yours, keeping the {}, {} of it counts",
                    rate.short_name, project.keeping == Keeping::size ? "size" : "stitch counts",
                    units::percent_text(Ratio(times), units::Step::one, Rounding::nearest)));
    rate.short_name += " at your gauge";
    return times;
}

std::optional<Rate> stated_rate(const project::Project& project, const project::Role& role) {
    if (!role.rate && !role.area_rate) return std::nullopt;
    Rate rate;
    if (const auto grist = grist_of(role)) rate.grist = grist->value;
    rate.source = Source::stated_rate;
    rate.how = "from the stated rate";
    rate.short_name = "the stated rate";
    rate.other_hand = true;
    rate.causes.push_back({"someone else's yarn per stitch", usual::stated_rate, work_a_swatch});
    const project::Gauge& gauge = project.pattern_gauge.value_or(project.gauge);
    const units::YarnPerStitch given =
        role.rate
            ? *role.rate
            : units::YarnPerStitch(*role.area_rate / gauge.rows * units::row / gauge.stitches);
    rate.per_stitch = given * at_makers_gauge(project, false, rate);
    return rate;
}

/// Yarn of an earlier make's rows; its own spread is small beside that between makes.
Length yarn_of(const project::EarlierMake& make, const project::Project& project,
               const project::Role& role) {
    const Length all = make.weighing ? Length(measure::net_mass(make.weighing->reading()).centre *
                                              grist_for(project, role, "earlier make").value)
                                     : *make.yarn;
    if (!(all > make.finish))
        throw base::InputError(base::Problem{
            "the finish of an earlier make of yarn " + role.id + " is all of its yarn",
            {.file = project.file, .line = 0, .column = 0},
            "a finish that is less than the make's yarn",
            "Correct finish, or the make's yarn."});
    return all - make.finish;
}

/// True for a make in another stitch than the role's rows.
bool of_another_stitch(const project::EarlierMake& make, const project::FabricFacts& fabric) {
    return !make.stitch.empty() && base::lower(make.stitch) != base::lower(fabric.stitch);
}

std::string size_text(Ratio size, bool by_stitches) {
    return by_stitches
               ? units::number_text(size, units::Step::one, Rounding::nearest) + " stitches"
               : units::number_text(size, units::Step::hundredth, Rounding::nearest) + " sq m";
}

FromEarlier best_line(const std::vector<SizedMake>& makes, Ratio size) {
    if (makes.size() == 1) return from_one_make(makes.front(), size, usual::one_earlier_make);
    FromEarlier plain = from_earlier(makes, size);
    const auto [small, large] = std::minmax_element(
        makes.begin(), makes.end(),
        [](const SizedMake& a, const SizedMake& b) { return a.size.value() < b.size.value(); });
    constexpr double apart = 1.1;
    if (makes.size() < 4 || large->size.value() < apart * small->size.value()) return plain;
    // A part that is the same for all makes is believed where it makes the answer surer.
    const FromEarlier fixed = from_earlier_with_fixed(makes, size);
    return fixed.fixed > Length{} && upper_half_width(fixed) < upper_half_width(plain) ? fixed
                                                                                       : plain;
}

/// Many alike pieces are a mean of as many makes; the line is told at the size of one.
double of_copies(double relative, std::size_t makes, std::int64_t copies) {
    const double n = static_cast<double>(makes);
    return relative * std::sqrt((1.0 / static_cast<double>(copies) + 1.0 / n) / (1.0 + 1.0 / n));
}

/// So many that one of them is about as large as the earlier makes.
std::int64_t alike_copies(const std::vector<SizedMake>& makes, double size, std::int64_t copies) {
    double logs = 0.0;
    for (const SizedMake& make : makes) logs += std::log(make.size.value());
    const double usual = logs / static_cast<double>(makes.size());
    const double as_one = std::abs(std::log(size) - usual);
    const double each = std::abs(std::log(size / static_cast<double>(copies)) - usual);
    return each < as_one ? copies : 1;
}

std::optional<Rate> earlier_rate(const project::Project& project, const project::Role& role,
                                 const RoleSize& worked) {
    std::vector<SizedMake> by_stitches;
    std::vector<SizedMake> by_area;
    bool weighed = false;
    const project::FabricFacts fabric = project::fabric_of(project, role);
    for (const project::EarlierMake& make : project.earlier_makes) {
        if (make.role != role.id || of_another_stitch(make, fabric)) continue;
        const Length yarn = yarn_of(make, project, role) / static_cast<double>(make.count);
        weighed = weighed || make.weighing;
        if (make.stitches) by_stitches.push_back({Ratio(*make.stitches / units::stitch), yarn});
        if (make.area) by_area.push_back({Ratio(make.area->value()), yarn});
    }
    if (by_stitches.empty() && by_area.empty()) return std::nullopt;
    const bool stitches = by_stitches.size() >= by_area.size();
    const std::vector<SizedMake>& makes = stitches ? by_stitches : by_area;
    const double size = stitches ? worked.stitches.value() : worked.area.value();
    if (!(size > 0.0)) return std::nullopt;
    const std::int64_t copies = alike_copies(makes, size, worked.copies);

    const FromEarlier line = best_line(makes, Ratio(size / static_cast<double>(copies)));
    Rate rate;
    rate.source = Source::earlier_make;
    rate.short_name = makes.size() == 1 ? "your earlier make" : "your earlier makes";
    rate.body = static_cast<double>(copies) * line.yarn.estimate.centre;
    rate.how = fmt::format(
        "from {} of your own, by {}: {} a {}{}",
        makes.size() == 1 ? std::string("an earlier make")
                          : fmt::format("{} earlier makes", makes.size()),
        stitches ? "stitches" : "area",
        units::text(line.per_size, stitches ? units::shown::millimetres : units::shown::metres,
                    units::Step::tenth, Rounding::nearest),
        stitches ? "stitch" : "square metre",
        line.fixed > Length{} ? " and " +
                                    units::text(line.fixed, units::shown::metres,
                                                units::Step::tenth, Rounding::nearest) +
                                    " besides"
                              : "");
    if (const auto grist = grist_of(role)) {
        rate.grist = grist->value;
        rate.by_mass = weighed;
        if (weighed) rate.shared = grist->spread;
    }
    double relative = upper_half_width(line) / line.yarn.estimate.centre;
    if (copies > 1 && !line.widened) relative = of_copies(relative, makes.size(), copies);
    if (makes.size() < 4 || copies > 1)
        relative = std::max(relative, usual::swatch_to_piece.value());
    rate.causes.push_back({makes.size() == 1
                               ? "only one earlier make, so how much yours differ is not known"
                               : "earlier makes that differ from each other",
                           Ratio(relative), work_a_swatch});
    if (line.widened)
        rate.notes.push_back(fmt::format(
            "this make, {}, lies outside the earlier ones, {}, so the amount is less sure",
            size_text(Ratio(size / static_cast<double>(copies)), stitches),
            line.beyond_largest.value() > 1.0
                ? units::number_text(line.beyond_largest, units::Step::tenth, Rounding::nearest) +
                      " times the largest"
                : "below the smallest"));
    if (stitches ? !by_area.empty() : !by_stitches.empty())
        rate.notes.push_back(fmt::format(
            "earlier makes measured by {} are left out, because the others are measured by {}",
            stitches ? "area" : "stitches", stitches ? "stitches" : "area"));
    return rate;
}

/// Makes in another stitch tell the hand and the yarn: what they took beside what such a fabric
/// takes.
std::vector<Rate> other_stitch_rates(const project::Project& project, const project::Role& role,
                                     const RoleSize& worked) {
    std::vector<Rate> out;
    const project::FabricFacts fabric = project::fabric_of(project, role);
    for (const project::EarlierMake& make : project.earlier_makes) {
        if (make.role != role.id || !of_another_stitch(make, fabric) || !make.area) continue;
        project::FabricFacts other = fabric;
        other.stitch = make.stitch;
        other.stitches.reset();
        other.rows.reset();
        project::FabricFacts here = fabric;
        here.stitches.reset();
        here.rows.reset();
        const auto compared = project::compare_use(here, other);
        if (!compared) continue;
        Rate rate;
        rate.source = Source::earlier_make;
        rate.short_name = "your earlier make in " + make.stitch;
        rate.how = "from an earlier make of your own in " + make.stitch +
                   ", and by how much other people's makes differ between the two stitches";
        rate.body = yarn_of(make, project, role) / static_cast<double>(make.count) / *make.area *
                    worked.area * compared->times;
        rate.by_area = true;
        if (const auto grist = grist_of(role)) {
            rate.grist = grist->value;
            rate.by_mass = make.weighing.has_value();
            if (rate.by_mass) rate.shared = grist->spread;
        }
        rate.causes.push_back(
            {"an earlier make in another stitch", compared->spread, work_a_swatch});
        out.push_back(std::move(rate));
    }
    return out;
}

/// What causes the band of others' makes, and what would narrow it.
Cause cause_of(const project::UseCause& cause, project::Craft craft) {
    const bool knit = craft == project::Craft::knit;
    using What = project::UseCause::What;
    switch (cause.what) {
        case What::others:
            break;
        case What::stitch:
            return {"how little is published on this stitch", cause.relative, work_a_swatch};
        case What::thickness:
            return {"a thickness known by its class only", cause.relative,
                    "Say the label's length and weight as well."};
        case What::tool:
            return {knit ? "a needle size that is not known" : "a hook size that is not known",
                    cause.relative,
                    knit ? "Say which needles you use." : "Say which hook you use."};
        case What::far_tool:
            return {knit ? "needles far from what such a yarn is worked with"
                         : "a hook far from what such a yarn is worked with",
                    cause.relative, work_a_swatch};
    }
    return {"people and yarns that differ", cause.relative, work_a_swatch};
}

/// A known hand takes its share of what makes of different pages differ by.
void use_hand(const project::Project& project, Rate& rate) {
    if (!project.hand) return;
    const double hands = project::unknown_hand.value();
    const double left = project.hand->spread.value();
    Cause& others = rate.causes.front();
    others.relative = Ratio(
        std::sqrt(std::max(0.0, others.relative.value() * others.relative.value() - hands * hands) +
                  left * left));
    *rate.body *= project.hand->times.value();
    rate.how +=
        fmt::format(", for your tension, which uses {} of what others do",
                    units::percent_text(project.hand->times, units::Step::one, Rounding::nearest));
}

std::optional<Rate> makes_rate(const project::Project& project, const project::Role& role,
                               const RoleSize& worked) {
    if (!(worked.area > units::Area{})) return std::nullopt;
    project::FabricFacts fabric = project::fabric_of(project, role);
    fabric.area = worked.area / static_cast<double>(worked.copies);
    const project::Gauge& gauge = project.gauge;
    if (gauge.usual) {
        fabric.stitches.reset();
        fabric.rows.reset();
    }
    const bool yarn_known = fabric.grist || fabric.weight;
    // Crochet's rows say too little of its yarn.
    if (!yarn_known && !fabric.tool && project.craft == project::Craft::crochet)
        return std::nullopt;
    const auto makes = project::makes_like_it(fabric);
    if (!makes) return std::nullopt;
    Rate rate;
    if (const auto grist = grist_of(role)) rate.grist = grist->value;
    rate.source = Source::makes_like_it;
    rate.short_name = "makes like it";
    rate.heavy = true;
    rate.measured = yarn_known && fabric.tool;
    rate.body = makes->use * worked.area;
    rate.by_area = true;
    rate.how = makes->fabric.empty()
                   ? fmt::format("from {} published makes, none of them in {}",
                                 project::makes_behind(), fabric.stitch)
                   : fmt::format("from {} published makes, those in {} counting most",
                                 project::makes_behind(), makes->fabric);
    for (const project::UseCause& cause : makes->causes)
        rate.causes.push_back(cause_of(cause, project.craft));
    if (gauge.usual) {
        const bool by_size = std::all_of(project.pieces.begin(), project.pieces.end(),
                                         [](const project::Piece& piece) {
                                             return piece.width.stated() && piece.length.stated();
                                         });
        if (const auto usual = project::usual_gauge(fabric); usual && !by_size)
            rate.causes.push_back({"a gauge that nobody counted",
                                   Ratio(0.5 * usual->spread.value()),
                                   "Count stitches and rows over a swatch."});
    }
    if (makes->far_tool)
        rate.notes.emplace_back(fmt::format(
            "the {} far from what such a yarn is usually worked with: check both; until "
            "then the amount is less sure",
            project.craft == project::Craft::knit ? "needles are" : "hook is"));
    use_hand(project, rate);
    return rate;
}

/// A range has no figure that may be taken for it. Its middle is the centre only so that both ends
/// are as far off: 95 % sure is what the upper end alone would take, short what the lower would.
Length take_range(const yarn::Between<Length>& ends, const project::Role& role, std::size_t size,
                  Rate& rate) {
    constexpr double one_sided_95 = 1.6449;
    const Length middle = 0.5 * (ends.least + ends.most);
    const double sure = ends.most.value() * (1.0 + one_sided_95 * usual::stated_total.value());
    const double whole = (sure / middle.value() - 1.0) / one_sided_95;
    const double range = std::sqrt(
        std::max(0.0, whole * whole - usual::stated_total.value() * usual::stated_total.value()));
    rate.stated_between = ends;
    const std::string text = units::yards_and_metres(ends.least, Rounding::down) + " to " +
                             units::yards_and_metres(ends.most, Rounding::up);
    switch (role.total_range) {
        case project::TotalRange::whole_skeins:
            rate.causes.push_back({"a count of whole skeins, the last perhaps barely used",
                                   Ratio(range), work_a_swatch});
            break;
        case project::TotalRange::class_grist:
            rate.how = fmt::format(
                "from a stated weight of {} and the weight class alone: {}, as yarns of class {} "
                "differ",
                units::text(role.total_as_mass.at(size), units::shown::grams, units::Step::one,
                            Rounding::nearest),
                text, role.weight ? yarn::text(*role.weight) : std::string("unknown"));
            rate.causes.push_back({"a weight of a yarn whose length per weight is not known",
                                   Ratio(range),
                                   "Find out which yarn it was, or its length per weight."});
            break;
        default:
            rate.how = "from a stated range of " + text;
            rate.causes.push_back({"a stated total that is a range", Ratio(range),
                                   "Find out which end of the range is yours."});
    }
    return middle;
}

}  // namespace

Ratio combined(const std::vector<Cause>& causes) {
    double sum = 0.0;
    for (const Cause& cause : causes) sum = std::hypot(sum, cause.relative.value());
    return Ratio(sum);
}

std::optional<RoleGrist> grist_of(const project::Role& role) {
    if (!role.grist) return std::nullopt;
    // What only stands for a label is off by nothing.
    if (role.metre_is_a_gram) return RoleGrist{role.grist->value, Ratio(0.0)};
    return RoleGrist{role.grist->value,
                     measure::within(role.label_tolerance.value_or(yarn::label_grist_half_width))};
}

RoleGrist grist_for(const project::Project& project, const project::Role& role,
                    const std::string& what) {
    if (const auto grist = grist_of(role)) return *grist;
    throw base::InputError(
        base::Problem{"yarn " + role.id + " has a weighed " + what + " but no length per weight",
                      {.file = project.file, .line = 0, .column = 0},
                      "grist in [yarn." + role.id + "]",
                      "Write grist = \"200 m / 100 g\" as its label says."});
}

std::string_view name_of(Source source) {
    static constexpr std::array<std::string_view, 8> names{
        "swatch",     "earlier make",  "stated rate",     "stated total", "measured by others",
        "loop model", "makes like it", "testers' returns"};
    return names.at(static_cast<std::size_t>(source));
}

Rate cut_lengths(const project::Role& role) {
    Rate out;
    out.source = Source::stated_rate;
    out.short_name = "lengths that are cut";
    out.how = "from the lengths that are cut";
    if (role.grist) out.grist = role.grist->value;
    out.causes.push_back(
        {"lengths that are cut by hand", usual::cut_by_hand, "Cut them round a card."});
    return out;
}

std::optional<Rate> stated_total_of(const project::Project& project, const project::Role& role,
                                    std::size_t size) {
    if (!role.states_total()) return std::nullopt;
    if (!role.total_length.stated() && !role.grist)
        throw base::InputError(
            base::Problem{"yarn " + role.id + " has a total by weight but no length per weight",
                          {.file = project.file, .line = 0, .column = 0},
                          "grist or class in [yarn." + role.id + "]",
                          "Write grist = \"200 m / 100 g\" as its label says."});
    Rate rate;
    if (const auto grist = grist_of(role)) rate.grist = grist->value;
    const bool measured = role.total_basis == project::TotalBasis::measured;
    rate.source = Source::stated_total;
    rate.short_name = "the stated total";
    rate.other_hand = true;
    rate.how =
        measured ? "from the stated total" : "from a stated total that was counted in whole skeins";
    rate.causes.push_back({"a total stated by someone else", usual::stated_total, work_a_swatch});
    if (!measured && role.grist)
        if (const auto skein = yarn::put_up_in(role.grist->text).length)
            rate.may_be_less = skein->value;
    if (!measured)
        rate.notes.emplace_back(
            "the total counts whole skeins, so it was rounded up already; the true need may be "
            "up to one skein less");
    if (!role.total_of_size.empty())
        rate.notes.push_back(fmt::format(
            "the total is that of size {}{}; every size takes its share by its stitches",
            base::shown_inert(role.total_of_size),
            role.total_size_assumed ? ", because no size is named and this is the smallest" : ""));
    const bool by_mass = !role.total_length.stated();
    Length total =
        by_mass ? Length(role.total_mass.at(size) * role.grist->value) : role.total_length.at(size);
    if (role.total_least.stated() && role.total_least.at(size) < total)
        total = take_range({role.total_least.at(size), total}, role, size, rate);
    const double at_gauge = at_makers_gauge(project, true, rate);
    rate.whole = total * at_gauge;
    if (rate.stated_between) {
        rate.stated_between->least *= at_gauge;
        rate.stated_between->most *= at_gauge;
    }
    return rate;
}

std::vector<Rate> other_rates(const project::Project& project, const project::Role& role,
                              std::size_t size, const RoleSize& worked, bool measured) {
    std::vector<Rate> out;
    if (auto rate = earlier_rate(project, role, worked)) out.push_back(std::move(*rate));
    for (Rate& rate : other_stitch_rates(project, role, worked)) out.push_back(std::move(rate));
    if (auto rate = stated_rate(project, role)) out.push_back(std::move(*rate));
    if (auto rate = stated_total_of(project, role, size)) out.push_back(std::move(*rate));
    auto makes = makes_rate(project, role, worked);
    if (makes && (makes->measured || (out.empty() && !measured))) {
        if (out.empty() && !measured)
            makes->notes.emplace_back(
                "this is a guess from other people's makes: work a swatch, or buy generously");
        out.push_back(std::move(*makes));
    }
    return out;
}

base::Problem nothing_known(const project::Project& project, const project::Role& role) {
    return {"nothing says how much of yarn " + role.id + " the make takes",
            project.place("yarn." + role.id), "a swatch, a rate or a total for it",
            "Add class = 4 (the weight class on the label) or grist = \"200 m / 100 g\" to [yarn." +
                role.id +
                "]: the figure then comes from others' makes, give or take a quarter. A [[swatch]] "
                "with yarn = \"" +
                role.id + "\", rate = \"2.9 in per stitch\" or total = \"380 yd\" are surer."};
}

}  // namespace skeinfall::need
