#include "skeinfall/yarn/substitute.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "skeinfall/base/text.hpp"
#include "skeinfall/units/format.hpp"
#include "skeinfall/yarn/grist_match.hpp"
#include "skeinfall/yarn/label_check.hpp"
#include "skeinfall/yarn/strands.hpp"

namespace skeinfall::yarn {
namespace {

using base::Problem;
using units::Length;
using units::Ratio;
using units::Rounding;
using units::Step;
using Findings = std::vector<Finding>;

std::optional<units::Grist> together(const Description& yarn, int strands) {
    if (!yarn.grist) return std::nullopt;
    return *yarn.grist / static_cast<double>(strands);
}

std::string grist_text(units::Grist grist) {
    return units::text(grist, units::shown::metres_per_100g, Step::one, Rounding::nearest);
}

std::string yarn_down(Length length) {
    return units::yards_and_metres(length, Rounding::down);
}

void add_grist(const Swap& swap, Findings& out) {
    const auto wanted = together(swap.wanted, swap.wanted_strands);
    const auto candidate = together(swap.candidate, swap.candidate_strands);
    if (wanted && candidate)
        out.push_back(compare_grist(*wanted, *candidate));
    else
        out.push_back({Level::caution, "grist",
                       std::string("The ") + (wanted ? "candidate's" : "pattern yarn's") +
                           " length per weight is not given, and nothing matters more.",
                       "lib/data/substitution_rules.csv"});
}

/// By grist when a class is not told, or strands make the label's class say nothing.
void add_class(const Swap& swap, Level grist_level, Findings& out) {
    if (!swap.wanted.weight) return;
    const WeightClass wanted = *swap.wanted.weight;
    Finding finding{Level::ok,
                    "class",
                    {},
                    "Craft Yarn Council's table and its remark on exchange (S03, S04); "
                    "lib/data/length_per_mass_by_class.csv"};
    const bool single = swap.wanted_strands == 1 && swap.candidate_strands == 1;
    const auto range = published_grist(wanted);
    if (single && swap.candidate.weight) {
        const int apart = std::abs(swap.candidate.weight->number - wanted.number);
        if (apart == 0 && grist_level == Level::ok) {
            finding.says = "Both class " + text(wanted) + ".";
        } else if (apart == 0) {
            finding.level = Level::caution;
            finding.says = "Both class " + text(wanted) +
                           ", but one number is not one yarn: the Council says not to swap by it" +
                           (range ? ", and charts give the class " + text(*range) : "") + ".";
        } else {
            finding.level = apart == 1 ? Level::caution : Level::stop;
            finding.says = "Class " + text(*swap.candidate.weight) + " instead of " + text(wanted) +
                           (apart == 1 ? ": the next class, whose charts overlap." : ".");
        }
        out.push_back(std::move(finding));
        return;
    }
    const auto candidate = together(swap.candidate, swap.candidate_strands);
    if (!single || !candidate || !range) return;
    const bool holds = range->holds(*candidate);
    finding.level = holds ? Level::ok : Level::caution;
    finding.says = "The candidate's class is not given; its length per weight is " +
                   std::string(holds ? "within" : "outside") + " what charts give class " +
                   text(wanted) + " (" + text(*range) + "), which proves nothing.";
    out.push_back(std::move(finding));
}

/// Limits are half of the grist's, for a gauge goes as the root of the grist.
void add_gauge(const Swap& swap, Findings& out) {
    if (!swap.wanted.gauge) return;
    Finding finding{Level::ok, "gauge", {}, "limits of ours, half of the grist's"};
    if (!swap.candidate.gauge) {
        out.push_back({Level::caution, "gauge",
                       "The candidate's gauge is not given: only a swatch can show it.",
                       finding.source});
        return;
    }
    const auto shown = [](units::StitchGauge gauge) {
        return units::text(gauge, units::shown::per_10cm, Step::tenth, Rounding::nearest);
    };
    units::StitchGauge least = *swap.candidate.gauge;
    units::StitchGauge most = least;
    std::string of;
    if (swap.candidate_strands > 1) {
        const std::vector<Strand> strands(static_cast<std::size_t>(swap.candidate_strands),
                                          Strand{units::metre / units::gram, {}});
        const Together band = held_together(strands);
        least = least * band.gauge_least.value();
        most = most * band.gauge_most.value();
        of = " to " + shown(most) + " with " + std::to_string(swap.candidate_strands) + " strands";
        finding.source += "; S173 and cases of doubled yarn";
    }
    const units::StitchGauge wanted = *swap.wanted.gauge;
    const double off = wanted < least  ? std::log(Ratio(least / wanted).value())
                       : wanted > most ? std::log(Ratio(wanted / most).value())
                                       : 0.0;
    finding.says = shown(least) + of + " against " + shown(wanted) + ": ";
    if (off <= close_grist.value() / 2.0 + limit_noise.value()) {
        finding.says += "close; a swatch settles it.";
    } else if (off <= swatch_grist.value() / 2.0 + limit_noise.value()) {
        finding.level = Level::caution;
        finding.says += "a swatch decides.";
    } else {
        finding.level = Level::stop;
        finding.says +=
            "too far for the same stitch counts; no length can be carried over "
            "before a swatch.";
    }
    out.push_back(std::move(finding));
}

void add_look(const Swap& swap, Findings& out) {
    const Description& wanted = swap.wanted;
    const Description& candidate = swap.candidate;
    if (wanted.plies && candidate.plies && *wanted.plies != *candidate.plies)
        out.push_back({Level::caution, "plies",
                       std::to_string(*candidate.plies) + " plies instead of " +
                           std::to_string(*wanted.plies) +
                           ": more plies are rounder and wear longer, fewer are softer and show "
                           "stitches less sharply.",
                       std::string(no_source)});
    if (!candidate.texture.empty() && candidate.texture != wanted.texture &&
        !(wanted.texture.empty() && candidate.texture == "smooth"))
        out.push_back(
            {Level::caution, "texture",
             "A " + candidate.texture + " yarn" +
                 (wanted.texture.empty() ? "" : " instead of a " + wanted.texture + " one") +
                 ": stitches read differently, and some textures cannot be undone.",
             std::string(no_source)});
    if (candidate.changes_colour() && !wanted.changes_colour())
        out.push_back(
            {Level::caution, "colours",
             std::string("Its colours change along the yarn: they hide stitch patterns, "
                         "may pool, and each join costs about half a repeat to match") +
                 (candidate.colour_repeat
                      ? " (" +
                            units::yards_and_metres(*candidate.colour_repeat / 2.0, Rounding::up) +
                            ")."
                      : "."),
             std::string(no_source)});
    if (!candidate.changes_colour() && wanted.changes_colour())
        out.push_back({Level::caution, "colours",
                       "Its colours do not change as the pattern's do: stripes must be worked.",
                       std::string(no_source)});
}

void add_label(const char* whose, const Description& yarn, Findings& out) {
    for (Finding finding :
         check_label({yarn.put_up_length, yarn.other_length, yarn.put_up_mass, yarn.weight})) {
        finding.topic = "label";
        finding.says = std::string(whose) + ": " + finding.says;
        out.push_back(std::move(finding));
    }
}

/// The stated need as a length of the pattern's yarn.
Length length_of(const Swap& swap) {
    const StatedNeed& need = *swap.need;
    if (need.length) return *need.length;
    const auto fail = [](const char* what, const char* remedy) -> base::InputError {
        return base::InputError(
            Problem{what, {}, "what a skein of the pattern's yarn holds", remedy});
    };
    if (need.mass) {
        if (!swap.wanted.grist)
            throw fail("a need by weight says nothing without the pattern yarn's length per weight",
                       "Give its label, like \"200 m / 100 g\"; weight alone cannot be carried to "
                       "another yarn.");
        return *need.mass * *swap.wanted.grist;
    }
    const auto ball = swap.wanted.ball_length();
    if (!ball)
        throw fail("a need in balls says nothing without the length of a ball",
                   "Give its label, like \"100 m / 50 g\".");
    return *ball * static_cast<double>(*need.balls);
}

/// "8" or "7 or 8" of what a count of whole balls stood for.
void add_counted_balls(const Swap& swap, Findings& out) {
    if (!swap.need->balls || !swap.candidate.ball_length()) return;
    const Length ball = *swap.wanted.ball_length();
    const auto count = static_cast<double>(*swap.need->balls);
    const Balls sure = balls_for(ball * count, *swap.candidate.ball_length());
    const Balls perhaps = balls_for(ball * (count - 1.0), *swap.candidate.ball_length());
    if (sure.count == perhaps.count) return;
    out.push_back({Level::caution, "need",
                   "The need was counted in whole balls, so it may be anything above " +
                       std::to_string(*swap.need->balls - 1) +
                       " of them: " + std::to_string(std::max(perhaps.count, std::int64_t{1})) +
                       " may do, " + std::to_string(sure.count) +
                       (sure.tight ? " should, and one more will for certain." : " will."),
                   "S185 substitution guide"});
}

void add_strands(const Swap& swap, Length need, Findings& out) {
    if (swap.wanted_strands <= 1) return;
    std::string says = "The pattern holds " + std::to_string(swap.wanted_strands) +
                       " strands: is the stated amount for each, or for all together?";
    if (const auto ball = swap.candidate.ball_length()) {
        const double candidate_strands = swap.candidate_strands;
        const Balls each = balls_for(need * candidate_strands, *ball);
        const Balls all =
            balls_for(need / static_cast<double>(swap.wanted_strands) * candidate_strands, *ball);
        says += " For each it takes " + std::to_string(each.count) + " balls, for all together " +
                std::to_string(all.count) + "; the larger is used here.";
    }
    out.push_back({Level::caution, "strands", std::move(says), "S186 knitting forum"});
}

void add_amount(const Swap& swap, const Purchase& buy, Findings& out) {
    if (!buy.candidate) return;
    Finding finding{
        Level::ok, "amount", {}, "balls rounded up (S180), by length and not by weight (S187)"};
    const Balls& balls = *buy.candidate;
    if (balls.tight) {
        finding.level = Level::caution;
        finding.says = "Only " + yarn_down(balls.spare) +
                       " would be left, less than labels can be off: buy " +
                       std::to_string(balls.count + 1) + ".";
        out.push_back(finding);
    }
    const auto ball_mass = swap.candidate.ball_mass();
    if (!buy.wanted_mass || !ball_mass) return;
    const auto by_mass =
        static_cast<std::int64_t>(std::ceil(Ratio(*buy.wanted_mass / *ball_mass).value() - 1e-9));
    const std::string counts = "By weight you would buy " + std::to_string(by_mass) +
                               ", by length it takes " + std::to_string(balls.count) + ": ";
    finding.level = by_mass < balls.count ? Level::caution : Level::ok;
    finding.says = by_mass < balls.count   ? counts + "grams would leave you short."
                   : by_mass > balls.count ? counts + "grams would leave you with too much."
                                           : "By weight and by length it is the same count.";
    out.push_back(std::move(finding));
}

Purchase purchase_of(const Swap& swap, Length need) {
    Purchase buy{need, {}, {}, {}, {}, {}, {}};
    const double wanted_strands = swap.wanted_strands;
    const double candidate_strands = swap.candidate_strands;
    if (const auto ball = swap.wanted.ball_length())
        buy.wanted = balls_for(need * wanted_strands, *ball);
    if (const auto ball = swap.candidate.ball_length())
        buy.candidate = balls_for(need * candidate_strands, *ball);
    if (swap.wanted.grist) buy.wanted_mass = need * wanted_strands / *swap.wanted.grist;
    if (swap.candidate.grist) buy.candidate_mass = need * candidate_strands / *swap.candidate.grist;
    const auto wanted = together(swap.wanted, swap.wanted_strands);
    const auto candidate = together(swap.candidate, swap.candidate_strands);
    if (wanted && candidate && grist_difference(*wanted, *candidate) > close_grist) {
        buy.own_gauge = need * std::sqrt(Ratio(*candidate / *wanted).value());
        if (const auto ball = swap.candidate.ball_length())
            buy.candidate_own_gauge = balls_for(*buy.own_gauge * candidate_strands, *ball);
    }
    return buy;
}

std::vector<std::string> next_steps(const Swap& swap, const Substitution& answer) {
    std::vector<std::string> next;
    const auto wanted = together(swap.wanted, swap.wanted_strands);
    const auto candidate = swap.candidate.grist;
    const auto about_grist = std::find_if(answer.findings.begin(), answer.findings.end(),
                                          [](const Finding& f) { return f.topic == "grist"; });
    if (wanted && candidate && about_grist->level == Level::stop) {
        const Ends ends = ends_to_replace(*candidate, *wanted);
        if (ends.count != swap.candidate_strands && ends.fit.level != Level::stop)
            next.push_back("Hold " + std::to_string(ends.count) +
                           (ends.count == 1 ? " strand" : " strands together") + ": that is " +
                           grist_text(ends.together) + "; then compare again.");
        else
            next.push_back("Look for a yarn of " + grist_text(*wanted * std::exp(-0.1)) + " to " +
                           grist_text(*wanted * std::exp(0.1)) + ".");
    }
    if (!wanted || !candidate)
        next.emplace_back(
            "Give what a ball of each holds, like \"200 m / 100 g\"; without a label, measure "
            "one.");
    if (swap.use == Use::kitchen_heat)
        next.emplace_back(
            "Work it thick or double and test it warm, not hot: it is not protective equipment, "
            "and "
            "local rules on such equipment apply.");
    if (swap.use == Use::infant)
        next.emplace_back(
            "Choose a smooth yarn, wash it first, make no cords, loops or long fringe, and follow "
            "the local rules on infants' goods.");
    if (answer.verdict == Level::stop)
        next.emplace_back(
            "If you try it anyway, swatch, wash and measure before you buy "
            "for the whole piece.");
    else
        next.emplace_back(
            "Swatch with it, wash the swatch as the piece will be washed, and "
            "compare gauge and feel.");
    return next;
}

}  // namespace

base::Result<StatedNeed> parse_stated_need(std::string_view text) {
    const auto stated = parse_stated_total(text);
    if (!stated) return stated.problem();
    // Of a range the larger is bought for.
    if (stated->length) return StatedNeed{stated->length->most, {}, {}};
    if (stated->mass) return StatedNeed{{}, stated->mass->most, {}};
    if (stated->skeins < 1)
        return base::Problem{base::quoted(text) + " counts no balls", {}, "\"6 balls\"", ""};
    return StatedNeed{{}, {}, stated->skeins};
}

Balls balls_for(Length need, Length ball) {
    const Ratio exact(need / ball);
    // 4.0000000001 balls are binary noise and no fifth ball.
    const auto count = static_cast<std::int64_t>(std::ceil(std::min(exact.value(), 1e9) - 1e-9));
    const Length spare = ball * static_cast<double>(count) - need;
    return {exact, count, std::max(spare, Length{}), spare < need * thin_spare.value()};
}

Substitution compare(const Swap& swap) {
    Substitution out;
    add_grist(swap, out.findings);
    add_class(swap, out.findings.front().level, out.findings);
    add_gauge(swap, out.findings);
    for (Finding& finding :
         compare_fibres(swap.wanted.content, swap.candidate.content, swap.use, swap.avoid))
        out.findings.push_back(std::move(finding));
    add_look(swap, out.findings);
    add_label("The pattern's yarn", swap.wanted, out.findings);
    add_label("The candidate", swap.candidate, out.findings);
    if (swap.need) {
        const Length need = length_of(swap);
        out.purchase = purchase_of(swap, need);
        add_strands(swap, need, out.findings);
        add_counted_balls(swap, out.findings);
        add_amount(swap, *out.purchase, out.findings);
    }
    out.verdict = gravest(out.findings);
    out.next = next_steps(swap, out);
    return out;
}

}  // namespace skeinfall::yarn
