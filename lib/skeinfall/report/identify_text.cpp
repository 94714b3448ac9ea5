#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "skeinfall/measure/propagate.hpp"
#include "skeinfall/report/detail/figures.hpp"
#include "skeinfall/report/words.hpp"
#include "skeinfall/report/yarns.hpp"
#include "skeinfall/report/yarns_words.hpp"
#include "skeinfall/units/format.hpp"
#include "skeinfall/yarn/label_check.hpp"

namespace skeinfall::report {
namespace {

using units::Length;
using units::Rounding;
using units::Step;

/// Two-sided 95 % of a normal spread.
constexpr double two_sided_95 = 1.959964;

/// Short lengths keep tenths, long ones none.
std::string sample_length(Length length, Rounding rounding) {
    return units::yarn_text(length, length < 100.0 * units::yard ? Step::tenth : Step::one,
                            rounding);
}

std::string left_text(const measure::Estimate<Length>& left) {
    const Length off = left.spread * two_sided_95;
    return yards_and_metres(left.centre, Rounding::down) + " left; between " +
           sample_length(left.centre - off, Rounding::down) + " and " +
           sample_length(left.centre + off, Rounding::up) + ", 19 times in 20\n";
}

std::string refusal(const yarn::Unlabelled& found) {
    const yarn::TooLight& light = *found.too_light;
    std::string out = "The sample is too light for its scale: it may weigh anything from " +
                      grams_text(std::max(light.least, units::Mass{}), Rounding::nearest) + " to " +
                      grams_text(light.most, Rounding::nearest) + "\n";
    if (found.left_if_guessed) {
        const auto whole = [](Length length, Rounding rounding) {
            return units::yarn_text(length, Step::one, rounding);
        };
        const std::string least = whole(found.left_if_guessed->least, Rounding::down);
        out += "  so what you have could be ";
        out += found.left_if_guessed->most
                   ? least + " to " + whole(*found.left_if_guessed->most, Rounding::up)
                   : "anything above " + least;
        out += ", too wide a range to use.\n";
    }
    return out;
}

std::string grist_line(const yarn::Clues& clues, const measure::Estimate<units::Grist>& grist) {
    const std::string how = clues.sample    ? "from the sample"
                            : clues.balance ? "by balance"
                                            : "by its label";
    return fmt::format(
        "Length per weight {}, {} ({}), give or take {} (two times in three)\n",
        units::text(grist.centre, units::shown::metres_per_100g, Step::tenth, Rounding::nearest),
        units::text(grist.centre, units::shown::yards_per_pound, Step::one, Rounding::nearest), how,
        units::percent_text(grist.relative(), Step::tenth, Rounding::up));
}

std::string class_heading(const yarn::Ranking& ranking) {
    if (ranking.classes.empty()) return "Weight class: no chart has these figures\n";
    if (!ranking.contradictions.empty()) return "Weight class: undecided, the evidence disagrees\n";
    if (ranking.decided())
        return "Weight class: likely " + yarn::text(ranking.classes.front().weight) + "\n";
    std::string out = "Weight class: undecided, possibly ";
    bool first = true;
    for (const yarn::RankedClass& ranked : ranking.classes) {
        if (ranked.standing == yarn::Confidence::unlikely) continue;
        out += (first ? "" : " or ") + yarn::text(ranked.weight);
        first = false;
    }
    return first ? "Weight class: undecided, no class has much support\n" : out + "\n";
}

std::string class_table(const yarn::Ranking& ranking) {
    std::vector<yarn::EvidenceKind> kinds;
    for (const yarn::RankedClass& ranked : ranking.classes)
        for (const yarn::Support& support : ranked.supports)
            if (std::find(kinds.begin(), kinds.end(), support.kind) == kinds.end())
                kinds.push_back(support.kind);
    std::sort(kinds.begin(), kinds.end());
    std::vector<std::vector<std::string>> rows{{"class", "how likely", "charts that agree"}};
    std::vector<bool> right{false, false, true};
    for (const yarn::EvidenceKind kind : kinds) {
        rows.front().emplace_back(kind == yarn::EvidenceKind::grist ? "length per weight"
                                                                    : yarn::name_of(kind));
        right.push_back(false);
    }
    for (const yarn::RankedClass& ranked : ranking.classes) {
        std::vector<std::string> cells{
            yarn::text(ranked.weight), std::string(yarn::name_of(ranked.standing)),
            units::percent_text(ranked.score, Step::one, Rounding::nearest)};
        for (const yarn::EvidenceKind kind : kinds) {
            const auto support =
                std::find_if(ranked.supports.begin(), ranked.supports.end(),
                             [&](const yarn::Support& one) { return one.kind == kind; });
            if (support == ranked.supports.end()) {
                cells.emplace_back("-");
                continue;
            }
            std::string cell = fmt::format("{} of {}", support->agree, support->charts);
            if (support->share.value() * support->charts > support->agree + 1e-9)
                cell += ", and near others";
            cells.push_back(std::move(cell));
        }
        rows.push_back(std::move(cells));
    }
    return table(rows, right, 2);
}

std::string fibres_text(const yarn::Clues& clues, const yarn::Unlabelled& found) {
    if (clues.burn.empty()) return {};
    std::string out = "\nFibre, by how it burns\n";
    for (const yarn::FibreGuess& guess : found.fibres)
        out += fmt::format("  {}: {} ({} of {} signs)\n", yarn::name_of(guess.confidence),
                           guess.fibres, guess.agree, guess.signs);
    out += "  A blend shows signs of several; finishes and dyes mislead. Never proof.\n  " +
           std::string(yarn::burn_caution) + "\n";
    return out;
}

bool has_class_evidence(const yarn::Unlabelled& found, const yarn::Evidence& evidence) {
    return found.grist || evidence.wraps || evidence.knit_gauge || evidence.crochet_gauge ||
           evidence.name || evidence.hook || evidence.needle;
}

}  // namespace

std::string classes_text(const yarn::Ranking& ranking) {
    std::string out = class_heading(ranking);
    for (const yarn::Contradiction& one : ranking.contradictions) out += "  " + one.says + "\n";
    if (!ranking.classes.empty()) {
        out += class_table(ranking);
        out += "  (published charts that agree, of those that name the class)\n";
    }
    for (const std::string& note : ranking.notes) out += "  " + note + "\n";
    if (!ranking.classes.empty()) out += "  " + std::string(yarn::class_credit) + "\n";
    return out;
}

namespace {

/// A stash doubts a length by no more than a label's: what a sample leaves open beyond it comes
/// off.
units::Length length_to_keep(const measure::Estimate<units::Length>& left) {
    constexpr double nineteen_in_twenty = 1.645;
    constexpr double hardly = 0.02;
    const double share = units::Ratio(left.spread / left.centre).value();
    const double label = measure::within(yarn::label_grist_half_width).value();
    const double beyond = std::sqrt(std::max(0.0, share * share - label * label));
    return beyond < hardly ? left.centre : left.centre * (1.0 - nineteen_in_twenty * beyond);
}

/// The step of a scale that would leave as much doubt as this reading and its tare do, so that
/// whoever keeps the reading keeps its doubt.
units::Mass step_to_keep(const measure::ScaleReading& have) {
    if (!(have.tare_spread.value() > 0.0)) return have.resolution;
    return measure::net_mass(have).spread * std::sqrt(12.0);
}

}  // namespace

std::vector<std::string> identify_next(const yarn::Clues& clues, const yarn::Unlabelled& found) {
    std::vector<std::string> next;
    if (found.too_light) {
        const std::string grams_needed = grams_text(found.too_light->needed, Rounding::up);
        next.push_back(found.too_light->measure
                           ? "Measure " +
                                 units::text(*found.too_light->measure, units::shown::yards,
                                             Step::one, Rounding::up) +
                                 " (" +
                                 units::text(*found.too_light->measure, units::shown::metres,
                                             Step::one, Rounding::up) +
                                 ") or more, so that it weighs at least " + grams_needed +
                                 ", 20 steps of this scale; or use a finer scale."
                           : "Wind off yarn until the scale shows at least " + grams_needed +
                                 ", 20 of its steps, and measure that; or use a finer scale.");
        return next;
    }
    if (!found.ranking.contradictions.empty())
        next.emplace_back("Measure again what disagrees, without stretching the yarn.");
    if (!found.grist)
        next.emplace_back(
            "Measure 10 yd or more, weigh it and give --length, --mass and --scale: "
            "nothing else shows its length per weight.");
    else if (!clues.have)
        next.emplace_back("Weigh what you have and give --have to see its length.");
    if (found.left) {
        const units::Mass net = measure::net_mass(*clues.have).centre;
        const units::Length kept = length_to_keep(*found.left);
        next.push_back(fmt::format(
            "Plan with the lower figure. To keep it: skeinfall stash add --yarn NAME --label "
            "\"{} / {}\" --weighed \"{}\" --scale \"{}\"",
            units::text(kept, units::shown::metres, Step::tenth, Rounding::down),
            grams_text(net, Rounding::nearest), grams_text(net, Rounding::nearest),
            units::plain_number(units::Ratio(step_to_keep(*clues.have) / units::gram),
                                Step::hundredth, Rounding::up) +
                " g"));
        if (kept < found.left->centre)
            next.emplace_back(
                "That length is the least that is likely by so small a sample: measure a longer "
                "one, and it comes nearer.");
        if (clues.have->tare_spread.value() > 0.0)
            next.emplace_back(
                "The step is that coarse because the weight of the cone or bag is a guess. Once it "
                "is empty, weigh it and give that as --tare.");
    }
    if (!found.ranking.classes.empty())
        next.emplace_back("The class is only a starting point: swatch first.");
    return next;
}

std::string identify_text(const yarn::Clues& clues, const yarn::Unlabelled& found) {
    std::string out;
    if (found.too_light) out += refusal(found);
    if (found.left) out += left_text(*found.left);
    if (found.grist) out += grist_line(clues, *found.grist);
    if (has_class_evidence(found, clues.evidence))
        out += (out.empty() ? "" : "\n") + classes_text(found.ranking);
    const std::string fibres = fibres_text(clues, found);
    out += out.empty() ? fibres.substr(std::min<std::size_t>(1, fibres.size())) : fibres;
    out += "\nNext\n";
    for (const std::string& step : identify_next(clues, found)) out += "  " + step + "\n";
    return out;
}

}  // namespace skeinfall::report
