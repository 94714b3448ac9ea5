#include "skeinfall/yarn/identify.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "skeinfall/units/format.hpp"
#include "skeinfall/yarn/class_charts.hpp"

namespace skeinfall::yarn {
namespace {

using units::Ratio;

/// Supports of one kind of evidence, by class number.
using Supports = std::map<int, Support>;

/// A figure in its charts' unit. Distances of grists are relative, others are plain.
struct Figure {
    double value = 0.0;
    double near_miss = 1.0;
    bool relative = false;
};

double miss(const Figure& figure, const ChartRange& range) {
    const auto below = [&](double end) {
        return figure.relative ? std::log(end / figure.value) : end - figure.value;
    };
    if (range.least && range.least->value() > figure.value) return below(range.least->value());
    if (range.most && range.most->value() < figure.value) return -below(range.most->value());
    return 0.0;
}

Supports supports_of(EvidenceKind kind, const Figure& figure, const std::vector<ChartRange>& charts,
                     bool double_crochet = false) {
    // A chart may print a class in several rows; the nearest one speaks for it.
    std::map<int, std::map<std::string_view, double>> held;
    for (const ChartRange& range : charts) {
        if (range.double_crochet != double_crochet) continue;
        const double off = miss(figure, range);
        const double share = off <= 0.0 ? 1.0 : std::max(0.0, 1.0 - off / figure.near_miss);
        double& best = held[range.weight.number].try_emplace(range.chart, 0.0).first->second;
        best = std::max(best, share);
    }
    Supports out;
    for (const auto& [number, by_chart] : held) {
        Support support{kind, {}, 0, static_cast<int>(by_chart.size())};
        double sum = 0.0;
        for (const auto& [chart, share] : by_chart) {
            sum += share;
            if (share == 1.0) ++support.agree;
        }
        support.share = Ratio(sum / support.charts);
        out[number] = support;
    }
    return out;
}

Supports supports_of(const RegionalName& name) {
    const std::vector<NameVote> votes = votes_for(name);
    std::set<std::string_view> charts;
    for (const NameVote& vote : votes) charts.insert(vote.chart);
    Supports out;
    if (charts.empty()) return out;
    for (const WeightClass weight : known_classes())
        out[weight.number] = {EvidenceKind::name, {}, 0, static_cast<int>(charts.size())};
    for (const NameVote& vote : votes) {
        Support& support =
            out.try_emplace(vote.weight.number,
                            Support{EvidenceKind::name, {}, 0, static_cast<int>(charts.size())})
                .first->second;
        ++support.agree;
        support.share = Ratio(static_cast<double>(support.agree) / support.charts);
    }
    return out;
}

double weight_of(EvidenceKind kind) {
    switch (kind) {
        case EvidenceKind::grist:
            return 3.0;
        case EvidenceKind::knit_gauge:
        case EvidenceKind::crochet_gauge:
        case EvidenceKind::name:
            return 2.0;
        case EvidenceKind::wraps:
        case EvidenceKind::hook:
        case EvidenceKind::needle:
            break;
    }
    return 1.0;
}

/// A share of charts below this is not worth the name of support.
constexpr double supports_from = 0.25;

/// The classes that a kind of evidence supports.
struct Span {
    int least = 0;
    int most = 0;
    bool any = false;
};

Span span_of(const Supports& supports) {
    Span span;
    for (const auto& [number, support] : supports) {
        if (support.share.value() < supports_from) continue;
        if (!span.any) span.least = number;
        span.most = number;
        span.any = true;
    }
    return span;
}

std::string text(const Span& span) {
    if (span.least == span.most) return "class " + yarn::text(WeightClass{span.least});
    return "classes " + std::to_string(span.least) + " to " + std::to_string(span.most);
}

/// Two readings that share no class, and what usually lies behind that.
std::string disagreement(EvidenceKind one, const Span& a, EvidenceKind other, const Span& b) {
    std::string out = "by " + std::string(name_of(one)) + " it is " + text(a) + ", by " +
                      std::string(name_of(other)) + " " + text(b) + ": ";
    if (one == EvidenceKind::grist && other == EvidenceKind::wraps) {
        out += a.least > b.most
                   ? "heavy for its thickness, as a dense fibre or a tight twist is; or the sample "
                     "was longer or lighter than read, or wrapped too tightly"
                   : "light for its thickness, as a brushed or airy yarn is; or the sample was "
                     "shorter or heavier than read, or wrapped too loosely";
    } else if (one == EvidenceKind::grist) {
        out +=
            "a label may ask for a looser or tighter fabric than usual; trust the length per "
            "weight "
            "for amounts and a swatch for the fabric";
    } else {
        out += "measure both again";
    }
    return out;
}

void find_contradictions(const std::map<EvidenceKind, Supports>& all, Ranking& ranking) {
    for (auto one = all.begin(); one != all.end(); ++one)
        for (auto other = std::next(one); other != all.end(); ++other) {
            const Span a = span_of(one->second);
            const Span b = span_of(other->second);
            if (!a.any || !b.any) continue;
            const bool common =
                std::any_of(one->second.begin(), one->second.end(), [&](const auto& entry) {
                    const auto match = other->second.find(entry.first);
                    return match != other->second.end() &&
                           std::min(entry.second.share.value(), match->second.share.value()) >=
                               supports_from;
                });
            if (!common)
                ranking.contradictions.push_back(
                    {one->first, other->first, disagreement(one->first, a, other->first, b)});
        }
}

std::map<EvidenceKind, Supports> all_supports(const Evidence& evidence) {
    std::map<EvidenceKind, Supports> all;
    const auto plain = [&](EvidenceKind kind, Measure measure, double value, double near_miss) {
        all[kind] = supports_of(kind, {value, near_miss, false}, charts_of(measure));
    };
    if (evidence.grist) {
        const Ratio value(evidence.grist->centre / units::shown::metres_per_100g.one);
        const double band = 2.0 * evidence.grist->relative().value();
        all[EvidenceKind::grist] = supports_of(
            EvidenceKind::grist, {value.value(), 0.1 + band, true}, charts_of(Measure::grist));
    }
    if (evidence.knit_gauge)
        plain(EvidenceKind::knit_gauge, Measure::knit_gauge,
              Ratio(*evidence.knit_gauge / units::shown::per_4in.one), 1.0);
    if (evidence.crochet_gauge)
        all[EvidenceKind::crochet_gauge] = supports_of(
            EvidenceKind::crochet_gauge,
            {Ratio(evidence.crochet_gauge->gauge / units::shown::per_4in.one).value(), 1.0, false},
            charts_of(Measure::crochet_gauge),
            evidence.crochet_gauge->stitch == CrochetStitch::double_crochet);
    if (evidence.name) all[EvidenceKind::name] = supports_of(*evidence.name);
    if (evidence.wraps)
        plain(EvidenceKind::wraps, Measure::wraps,
              Ratio(*evidence.wraps / units::shown::wraps_per_inch.one), 1.0);
    if (evidence.hook)
        plain(EvidenceKind::hook, Measure::hook, Ratio(*evidence.hook / units::millimetre), 0.5);
    if (evidence.needle)
        plain(EvidenceKind::needle, Measure::needle, Ratio(*evidence.needle / units::millimetre),
              0.5);
    return all;
}

bool only_weak(const Evidence& evidence) {
    return !evidence.grist && !evidence.knit_gauge && !evidence.crochet_gauge && !evidence.name;
}

void add_notes(const Evidence& evidence, Ranking& ranking) {
    if (only_weak(evidence) && (evidence.wraps || evidence.hook || evidence.needle))
        ranking.notes.emplace_back(
            evidence.wraps ? "wraps alone do not decide a class: published charts put the same "
                             "count whole classes apart; weigh a measured length too"
                           : "a tool alone does not decide a class; weigh a measured length too");
    if (evidence.crochet_gauge)
        ranking.notes.emplace_back(
            evidence.crochet_gauge->stitch == CrochetStitch::double_crochet
                ? "charts count double crochet only for lace, so this gauge says nothing of the "
                  "other classes"
                : "lace's gauge counts double crochet, so this gauge says nothing of class 0");
    if (evidence.name && evidence.name->region == Region::any)
        ranking.notes.emplace_back("no region given with the name, so all regions' charts vote");
}

}  // namespace

std::string_view name_of(EvidenceKind kind) {
    switch (kind) {
        case EvidenceKind::knit_gauge:
            return "knit gauge";
        case EvidenceKind::crochet_gauge:
            return "crochet gauge";
        case EvidenceKind::name:
            return "name";
        case EvidenceKind::wraps:
            return "wraps";
        case EvidenceKind::hook:
            return "hook";
        case EvidenceKind::needle:
            return "needle";
        case EvidenceKind::grist:
            break;
    }
    return "grist";
}

Ranking rank_classes(const Evidence& evidence) {
    const std::map<EvidenceKind, Supports> all = all_supports(evidence);
    std::set<int> numbers;
    for (const auto& [kind, supports] : all)
        for (const auto& [number, support] : supports) numbers.insert(number);

    Ranking ranking;
    for (const int number : numbers) {
        RankedClass ranked{{number}, {}, Confidence::unlikely, {}};
        double weights = 0.0;
        double sum = 0.0;
        for (const auto& [kind, supports] : all) {
            const auto found = supports.find(number);
            if (found == supports.end()) continue;
            ranked.supports.push_back(found->second);
            weights += weight_of(kind);
            sum += weight_of(kind) * found->second.share.value();
        }
        ranked.score = Ratio(sum / weights);
        if (sum > 0.0) ranking.classes.push_back(std::move(ranked));
    }
    std::stable_sort(ranking.classes.begin(), ranking.classes.end(),
                     [](const RankedClass& a, const RankedClass& b) {
                         return a.score.value() > b.score.value();
                     });
    find_contradictions(all, ranking);

    constexpr double possible_from = 0.2;
    constexpr double likely_from = 0.5;
    constexpr double clear_of_next = 0.15;
    for (RankedClass& ranked : ranking.classes)
        if (ranked.score.value() >= possible_from) ranked.standing = Confidence::possible;
    if (!ranking.classes.empty() && !only_weak(evidence) && ranking.contradictions.empty()) {
        const double next = ranking.classes.size() > 1 ? ranking.classes[1].score.value() : 0.0;
        RankedClass& best = ranking.classes.front();
        if (best.score.value() >= likely_from && best.score.value() - next >= clear_of_next)
            best.standing = Confidence::likely;
    }
    add_notes(evidence, ranking);
    return ranking;
}

}  // namespace skeinfall::yarn
