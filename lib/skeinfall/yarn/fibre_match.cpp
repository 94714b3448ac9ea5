#include "skeinfall/yarn/fibre_match.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "skeinfall/base/text.hpp"
#include "skeinfall/units/format.hpp"
#include "skeinfall/yarn/avoid.hpp"
#include "skeinfall/yarn/fibre_facts.hpp"

namespace skeinfall::yarn {
namespace {

using units::Ratio;
using units::Rounding;
using units::Step;
using Findings = std::vector<Finding>;

constexpr std::string_view summary = "lib/data/fibre_summary.csv";

std::string_view main_fibre(const FibreContent& content) {
    const auto most = std::max_element(
        content.shares.begin(), content.shares.end(),
        [](const FibreShare& a, const FibreShare& b) { return a.share.value() < b.share.value(); });
    return most->fibre;
}

/// The fibres of the table in a content, without doubles.
std::vector<Fibre> fibres_of(const FibreContent& content) {
    std::vector<Fibre> out;
    for (const FibreShare& share : content.shares)
        if (const auto fibre = fibre_called(share.fibre);
            fibre && std::none_of(out.begin(), out.end(), [&](const Fibre& have) {
                return have.name == fibre->name && have.felts == fibre->felts;
            }))
            out.push_back(*fibre);
    return out;
}

bool any_felts(const FibreContent& content) {
    const std::vector<Fibre> fibres = fibres_of(content);
    return std::any_of(fibres.begin(), fibres.end(), [](const Fibre& f) { return f.felts; });
}

bool all_felt(const FibreContent& content) {
    const std::vector<Fibre> fibres = fibres_of(content);
    return std::all_of(fibres.begin(), fibres.end(), [](const Fibre& f) { return f.felts; });
}

std::string elasticity_word(Ratio mean) {
    constexpr auto words = std::to_array<std::string_view>(
        {"very low", "low", "low to medium", "medium", "high", "very high"});
    return std::string(words.at(static_cast<std::size_t>(std::llround(mean.value()))));
}

void elasticity(const FibreContent& wanted, const FibreContent& candidate, Findings& out) {
    const auto from = elasticity_of(wanted);
    const auto to = elasticity_of(candidate);
    if (!from || !to) return;
    Finding finding{Level::ok, "elasticity", {}, std::string(summary) + ", S92, S93"};
    const std::string levels = elasticity_word(*to) + " against " + elasticity_word(*from);
    const double change = *to - *from;
    if (change <= -1.0) {
        finding.level = Level::caution;
        finding.says = "Springs back less (" + levels +
                       "): ribbing and hats loosen, garments grow in length, uneven stitches show.";
    } else if (change >= 1.0) {
        finding.level = Level::caution;
        finding.says = "Springs back more (" + levels + "): the fabric draws in and is bouncier.";
    } else {
        finding.says = "Springs back about alike (" + levels + ").";
    }
    out.push_back(std::move(finding));
}

void drape(const FibreContent& wanted, const FibreContent& candidate, Findings& out) {
    const auto from = fact_of(main_fibre(wanted), "drape");
    const auto to = fact_of(main_fibre(candidate), "drape");
    if (!from || !to) return;
    const bool same = from->value == to->value;
    out.push_back({same ? Level::ok : Level::caution, "drape",
                   same ? "Hangs about alike (" + std::string(to->value) + ")."
                        : "Hangs in another way: " + std::string(to->value) + " instead of " +
                              std::string(from->value) + ".",
                   std::string(no_source)});
}

void density(const FibreContent& wanted, const FibreContent& candidate, Findings& out) {
    const auto from = density_of(wanted);
    const auto to = density_of(candidate);
    if (!from || !to) return;
    constexpr double worth_a_caution = 0.08;
    const Ratio ratio(*to / *from);
    const double change = ratio.value() - 1.0;
    Finding finding{Level::ok, "density", {}, std::string(summary) + ", S73"};
    if (std::abs(change) >= worth_a_caution) finding.level = Level::caution;
    if (std::abs(change) < 0.005) {
        finding.says = "The fibre is as dense.";
        out.push_back(std::move(finding));
        return;
    }
    finding.says = "The fibre is ";
    finding.says += units::percent_text(Ratio(std::abs(change)), Step::one, Rounding::nearest) +
                    (change < 0.0 ? " lighter" : " denser");
    finding.says += ": at the same thickness the piece weighs that much ";
    finding.says += change < 0.0 ? "less." : "more";
    if (change >= 0.0) finding.says += finding.level == Level::caution ? ", and hangs lower." : ".";
    out.push_back(std::move(finding));
}

void felting(const FibreContent& wanted, const FibreContent& candidate, Use use, Findings& out) {
    Finding finding{Level::ok, "felting", {}, std::string(summary) + ", S89 to S91"};
    if (use == Use::felted) {
        finding.level = any_felts(candidate) ? Level::caution : Level::stop;
        finding.says = any_felts(candidate)
                           ? "Part of it does not felt: felt a swatch before the piece."
                           : "None of its fibres felts, and the piece is to be felted.";
        if (all_felt(candidate)) {
            finding.level = Level::ok;
            finding.says = "Its fibres felt; still felt a swatch, for they differ.";
        }
    } else if (any_felts(candidate) && !any_felts(wanted)) {
        finding.level = Level::caution;
        finding.says = "Felts where the pattern's yarn does not: no hot or rough wash.";
    } else if (!any_felts(candidate) && any_felts(wanted)) {
        finding.says = "Does not felt; only a pattern to be felted needs that.";
    } else {
        finding.says = any_felts(candidate) ? "Both felt." : "Neither felts.";
    }
    out.push_back(std::move(finding));
}

void heat(const FibreContent& wanted, const FibreContent& candidate, Use use, Findings& out) {
    const std::vector<std::string> melting = melting_fibres(candidate);
    Finding finding{Level::ok, "heat", "Does not melt.", std::string(summary) + ", S81 to S88"};
    if (!melting.empty()) {
        finding.says = "Softens or melts in heat (" + base::join(melting, ", ") + ")";
        if (use == Use::kitchen_heat) {
            finding.level = Level::stop;
            finding.says += ": not for pot holders, pads and mitts; it sticks to skin and burns.";
        } else if (melting_fibres(wanted).empty()) {
            finding.level = Level::caution;
            finding.says += ": no hot iron or steam, and nothing for hot pans.";
        } else {
            finding.says += ", as the pattern's yarn does.";
        }
    }
    out.push_back(std::move(finding));
}

void care(const FibreContent& wanted, const FibreContent& candidate, Findings& out) {
    const std::vector<Fibre> known = fibres_of(wanted);
    std::vector<std::string> said;
    std::string sources;
    for (const FibreShare& share : candidate.shares) {
        const auto fibre = fibre_called(share.fibre);
        const auto fact = fact_of(share.fibre, "care");
        if (!fibre || !fact) continue;
        const bool same = std::any_of(known.begin(), known.end(), [&](const Fibre& have) {
            return have.name == fibre->name && have.felts == fibre->felts;
        });
        if (same) continue;
        said.push_back(share.fibre + ": " + std::string(fact->value));
        sources += (sources.empty() ? "" : "; ") + std::string(fact->source);
    }
    if (said.empty())
        out.push_back(
            {Level::ok, "care", "Washes as the pattern's yarn does.", "lib/data/fibre_facts.csv"});
    else
        out.push_back(
            {Level::caution, "care",
             "Washes differently (" + base::join(said, "; ") + "). Follow the ball band first.",
             std::move(sources)});
}

/// The same fibre of the table, whatever it was treated with.
bool holds_alike(const FibreContent& content, const std::string& printed) {
    const auto fibre = fibre_called(printed);
    return contains(content, printed) ||
           std::any_of(content.shares.begin(), content.shares.end(), [&](const FibreShare& share) {
               const auto other = fibre_called(share.fibre);
               return fibre && other && fibre->name == other->name;
           });
}

void skin(const FibreContent& wanted, const FibreContent& candidate, Use use, Findings& out) {
    std::vector<std::string> animal;
    for (const FibreShare& share : candidate.shares)
        if (fact_of(share.fibre, "skin") &&
            (use == Use::infant || !holds_alike(wanted, share.fibre)))
            animal.push_back(share.fibre);
    if (animal.empty()) {
        out.push_back({Level::ok, "skin", "No new animal fibre.", "lib/data/fibre_facts.csv"});
        return;
    }
    std::string says = "Animal fibre (" + base::join(animal, ", ") + "): ask the wearer first.";
    if (use == Use::infant)
        says +=
            " Rules of hospitals and charities contradict: some refuse wool, some refuse "
            "acrylic; ask where it goes.";
    out.push_back({Level::caution, "skin", std::move(says), "lib/data/fibre_facts.csv"});
}

void avoided(const FibreContent& candidate, const std::vector<std::string>& avoid, Findings& out) {
    for (const std::string& fibre : avoid) {
        const std::string name = base::shown_inert(fibre);
        const auto objection = objection_to(candidate, {fibre});
        Finding finding{Level::stop, "avoid", {}, "what you asked to keep out"};
        if (!objection) {
            finding.level = Level::ok;
            finding.says = "Holds no " + name + " by its label.";
        } else if (objection->presence == Presence::content_unknown) {
            finding.says = "Its content is not known, so " + name + " cannot be ruled out.";
        } else if (objection->presence == Presence::holds) {
            finding.says = "Holds " + name + ", which is to be avoided.";
        } else {
            finding.says = "It cannot be ruled out: " + base::shown_inert(text(*objection)) + ".";
        }
        out.push_back(std::move(finding));
    }
}

Finding unfit_for_heat(const FibreContent& content) {
    const std::string of = base::shown_inert(base::join(unproven_in_heat(content), ", "));
    return {Level::stop, "heat",
            "Whether all of it stands heat is not known" + (of.empty() ? "" : " (" + of + ")") +
                ": not for pot holders, pads and mitts.",
            std::string(summary) + ", S81 to S88"};
}

/// Where a single fibre that is not known may turn an "ok" round.
bool of_each_fibre(std::string_view topic) {
    return topic == "felting" || topic == "heat" || topic == "care" || topic == "skin";
}

}  // namespace

std::string_view name_of(Use use) {
    switch (use) {
        case Use::kitchen_heat:
            return "kitchen heat";
        case Use::felted:
            return "felted";
        case Use::infant:
            return "infant";
        case Use::any:
            break;
    }
    return "any";
}

std::optional<Use> parse_use(std::string_view text) {
    for (const Use use : {Use::any, Use::kitchen_heat, Use::felted, Use::infant})
        if (base::same_word(text, name_of(use))) return use;
    return std::nullopt;
}

std::vector<Finding> compare_fibres(const FibreContent& wanted, const FibreContent& candidate,
                                    Use use, const std::vector<std::string>& avoid) {
    Findings out;
    avoided(candidate, avoid, out);
    if (!candidate.known()) {
        out.push_back(
            {Level::caution, "fibre",
             "The substitute's fibre is not given, so stretch, heat, felting and care are unknown.",
             std::string(summary)});
        if (use == Use::kitchen_heat) out.push_back(unfit_for_heat(candidate));
        return out;
    }
    const auto strange = check_fibres(candidate);
    if (strange) out.push_back(*strange);
    if (wanted.known()) {
        elasticity(wanted, candidate, out);
        drape(wanted, candidate, out);
        density(wanted, candidate, out);
    } else {
        out.push_back(
            {Level::caution, "fibre",
             "The pattern's fibres are not given, so stretch and drape cannot be compared.",
             std::string(summary)});
    }
    felting(wanted, candidate, use, out);
    heat(wanted, candidate, use, out);
    care(wanted, candidate, out);
    skin(wanted, candidate, use, out);
    if (use == Use::kitchen_heat && melting_fibres(candidate).empty() &&
        !unproven_in_heat(candidate).empty()) {
        std::erase_if(out, [](const Finding& finding) { return finding.topic == "heat"; });
        out.push_back(unfit_for_heat(candidate));
    }
    if (strange)
        for (Finding& finding : out)
            if (finding.level == Level::ok && of_each_fibre(finding.topic)) {
                finding.level = Level::caution;
                finding.says = "Cannot be judged: " +
                               base::shown_inert(base::join(unknown_fibres(candidate), ", ")) +
                               " is not known.";
            }
    return out;
}

}  // namespace skeinfall::yarn
