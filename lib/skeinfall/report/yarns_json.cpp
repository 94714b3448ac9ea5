#include "skeinfall/report/detail/json_words.hpp"
#include "skeinfall/report/yarns.hpp"
#include "skeinfall/report/yarns_words.hpp"
#include "skeinfall/units/format.hpp"

namespace skeinfall::report {
namespace {

Json balls_json(const std::optional<yarn::Balls>& balls) {
    if (!balls) return {};
    Json out;
    out["exact"] = balls->exact.value();
    out["count"] = balls->count;
    out["spare_m"] = m(balls->spare);
    out["tight"] = balls->tight;
    return out;
}

Json class_json(const yarn::RankedClass& ranked) {
    Json out;
    out["class"] = ranked.weight.number;
    out["name"] = yarn::class_name(ranked.weight);
    out["score"] = ranked.score.value();
    out["standing"] = yarn::name_of(ranked.standing);
    out["supports"] = Json::array();
    for (const yarn::Support& support : ranked.supports) {
        Json one;
        one["kind"] = yarn::name_of(support.kind);
        one["share"] = support.share.value();
        one["agree"] = support.agree;
        one["charts"] = support.charts;
        out["supports"].push_back(std::move(one));
    }
    return out;
}

Json classes_json(const yarn::Ranking& ranking) {
    Json out = Json::array();
    for (const yarn::RankedClass& ranked : ranking.classes) out.push_back(class_json(ranked));
    return out;
}

Json findings_json(const std::vector<yarn::Finding>& findings) {
    Json out = Json::array();
    for (const yarn::Finding& finding : findings)
        out.push_back({{"level", yarn::name_of(finding.level)},
                       {"topic", finding.topic},
                       {"says", finding.says},
                       {"source", finding.source}});
    return out;
}

Json refused_json(const yarn::TooLight& light) {
    Json out;
    out["needed_g"] = g(light.needed);
    out["least_g"] = g(light.least);
    out["most_g"] = g(light.most);
    out["measure_m"] = light.measure ? Json(m(*light.measure)) : Json();
    return out;
}

}  // namespace

std::string identify_json(const yarn::Clues& clues, const yarn::Unlabelled& found) {
    Json out;
    out["grist_m_per_100g"] = found.grist ? Json(m_per_100g(found.grist->centre)) : Json();
    out["grist_spread_m_per_100g"] = found.grist ? Json(m_per_100g(found.grist->spread)) : Json();
    out["left_m"] = found.left ? Json(m(found.left->centre)) : Json();
    out["left_spread_m"] = found.left ? Json(m(found.left->spread)) : Json();
    out["refused"] = found.too_light ? refused_json(*found.too_light) : Json();
    out["classes"] = classes_json(found.ranking);
    out["contradictions"] = Json::array();
    for (const yarn::Contradiction& one : found.ranking.contradictions) {
        Json entry;
        entry["one"] = yarn::name_of(one.one);
        entry["other"] = yarn::name_of(one.other);
        entry["says"] = one.says;
        out["contradictions"].push_back(std::move(entry));
    }
    out["fibres"] = Json::array();
    for (const yarn::FibreGuess& guess : found.fibres) {
        Json entry;
        entry["group"] = guess.group;
        entry["fibres"] = guess.fibres;
        entry["agree"] = guess.agree;
        entry["signs"] = guess.signs;
        entry["confidence"] = yarn::name_of(guess.confidence);
        out["fibres"].push_back(std::move(entry));
    }
    out["notes"] = found.ranking.notes;
    if (!found.fibres.empty()) out["notes"].push_back(std::string(yarn::burn_caution));
    out["credit"] = yarn::class_credit;
    out["next"] = identify_next(clues, found);
    return finished(out);
}

std::string substitute_json(const yarn::Swap& swap, const yarn::Substitution& answer) {
    Json out;
    out["verdict"] = yarn::name_of(answer.verdict);
    out["want"] = swap.wanted.text;
    out["with"] = swap.candidate.text;
    out["strands"] = swap.candidate_strands;
    out["want_strands"] = swap.wanted_strands;
    out["findings"] = findings_json(answer.findings);
    Json purchase;
    if (const auto& buy = answer.purchase) {
        const auto mass = [](const std::optional<units::Mass>& value) {
            return value ? Json(g(*value)) : Json();
        };
        purchase["length_m"] = m(buy->length);
        purchase["own_gauge_m"] = buy->own_gauge ? Json(m(*buy->own_gauge)) : Json();
        purchase["want_g"] = mass(buy->wanted_mass);
        purchase["with_g"] = mass(buy->candidate_mass);
        purchase["want_balls"] = balls_json(buy->wanted);
        purchase["with_balls"] = balls_json(buy->candidate);
        purchase["with_balls_own_gauge"] = balls_json(buy->candidate_own_gauge);
    }
    out["purchase"] = purchase;
    out["credit"] = yarn::class_credit;
    out["next"] = answer.next;
    return finished(out);
}

std::string strands_json(const yarn::Holding& holding, const yarn::Held& held) {
    Json out;
    out["strands"] = Json::array();
    for (const yarn::Description& one : holding.strands) out["strands"].push_back(one.text);
    out["grist_m_per_100g"] = m_per_100g(held.together.grist);
    out["diameter"] = held.together.diameter.value();
    out["gauge_least"] = held.together.gauge_least.value();
    out["gauge_most"] = held.together.gauge_most.value();
    out["content"] = Json::array();
    for (const yarn::FibreShare& share : held.together.content.shares)
        out["content"].push_back({{"fibre", share.fibre}, {"share", share.share.value()}});
    out["classes"] = classes_json(held.ranking);
    out["findings"] = findings_json(held.findings);
    out["run_out"] = Json();
    if (held.run_out) {
        out["run_out"] = {{"first", held.run_out->strand + 1},
                          {"worked_m", m(held.run_out->worked)},
                          {"left_m", Json::array()}};
        for (const units::Length& left : held.run_out->left)
            out["run_out"]["left_m"].push_back(m(left));
    }
    out["credit"] = yarn::class_credit;
    out["next"] = strands_next();
    return finished(out);
}

std::string plies_json(const std::vector<yarn::PliedStock>& bundles) {
    Json out{{"bundles", Json::array()}};
    for (const yarn::PliedStock& bundle : bundles)
        out["bundles"].push_back({{"plies", bundle.plies},
                                  {"length_m", m(bundle.length)},
                                  {"mass_g", g(bundle.mass)},
                                  {"grist_m_per_100g", m_per_100g(bundle.length / bundle.mass)}});
    return finished(out);
}

}  // namespace skeinfall::report
