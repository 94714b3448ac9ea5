#include "skeinfall/report/json.hpp"

#include <algorithm>
#include <cmath>

#include "skeinfall/need/gauge.hpp"
#include "skeinfall/report/detail/json_words.hpp"
#include "skeinfall/report/materials.hpp"
#include "skeinfall/report/says.hpp"
#include "skeinfall/report/words.hpp"
#include "skeinfall/stash/fields.hpp"
#include "skeinfall/stash/reserve.hpp"
#include "skeinfall/yarn/tools.hpp"

namespace skeinfall::report {
namespace {

using units::Length;

Json head(const project::Project& project, std::size_t size) {
    Json out;
    out["title"] = project.title;
    out["size"] = project.sizes.empty() ? Json() : Json(project.sizes[size]);
    return out;
}

template <class T>
Json text_or_null(const std::optional<T>& printed) {
    return printed ? Json(printed->text) : Json();
}

/// A field of a skein; null where nothing is known.
struct ValueJson {
    Json operator()(const std::string& text) const { return text; }
    Json operator()(const std::optional<std::string>& text) const {
        return text ? Json(*text) : Json();
    }
    Json operator()(const std::optional<yarn::WeightClass>& weight) const {
        return weight ? Json(weight->number) : Json();
    }
    Json operator()(const yarn::FibreContent& content) const {
        Json out = Json::array();
        for (const yarn::FibreShare& share : content.shares)
            out.push_back({{"fibre", share.fibre}, {"share", share.share.value()}});
        return out;
    }
    template <class Q>
    Json operator()(const std::optional<units::Printed<Q>>& printed) const {
        return text_or_null(printed);
    }
    Json operator()(stash::Begun part) const { return part; }
    Json operator()(stash::Count count) const { return count; }
};

Json skein_json(const stash::Skein& skein) {
    Json out;
    out["id"] = skein.id;
    for (const stash::Field& field : stash::fields()) {
        if (field.name == "state") {
            out["part"] = stash::is_part(skein);
            out["weighed"] = skein.weighing ? Json(skein.weighing->shown.text) : Json();
            out["scale"] = skein.weighing ? Json(skein.weighing->scale.text) : Json();
            out["tare"] = skein.weighing ? text_or_null(skein.weighing->tare) : Json();
            continue;
        }
        out[std::string(field.name)] = std::visit(
            [&](const auto& member) { return ValueJson()(member.seen(skein)); }, field.held);
    }
    for (const stash::Promise& promise : skein.set_aside) {
        const auto length = stash::outstanding(skein, promise);
        out["set_aside"].push_back(
            {{"project", promise.project},
             {"role", promise.role},
             {"amount", promise.amount ? Json(stash::text(*promise.amount)) : Json()},
             {"length_m", length ? Json(m(*length)) : Json()}});
    }
    const auto supply = stash::supply_of(skein);
    out["length_m"] = supply ? Json(m(supply->length)) : Json();
    out["spread_m"] =
        supply ? Json(m(measure::in_quadrature(supply->own, supply->shared))) : Json();
    return out;
}

}  // namespace

namespace {

Json calibration_json(const need::Calibration& calibration) {
    Json out;
    out["rank"] = calibration.rank;
    // JSON has no infinity: a matrix below full rank has no condition.
    const double condition = calibration.condition.value();
    out["condition"] = std::isfinite(condition) ? Json(condition) : Json();
    out["kinds"] = Json::array();
    for (const need::KindRate& rate : calibration.kinds)
        out["kinds"].push_back({{"kind", rate.kind},
                                {"m_per_stitch", rate.yarn.centre.value()},
                                {"spread_m_per_stitch", rate.yarn.spread.value()},
                                {"identified", rate.identified},
                                {"by_ratio", rate.by_ratio}});
    out["residuals_m"] = Json::array();
    for (const units::Length& rest : calibration.residuals) out["residuals_m"].push_back(m(rest));
    return out;
}

Json gauge_json(const project::Project& project) {
    const need::GaugeChange change =
        need::gauge_change(*project.pattern_gauge, project.gauge, project.keeping);
    Json out;
    out["keep"] = project.keeping == project::Keeping::size ? "size" : "stitch counts";
    out["width_ratio"] = change.width.value();
    out["length_ratio"] = change.height.value();
    out["yarn_ratio"] = change.yarn.value();
    return out;
}

}  // namespace

std::string need_json(const project::Project& project, const need::MakeNeed& make) {
    Json out = head(project, make.size);
    if (project.pattern_gauge) out["gauge"] = gauge_json(project);
    out["roles"] = Json::array();
    for (const need::RoleNeed& role : make.roles) {
        Json one;
        one["role"] = role.role;
        one["need_m"] = m(role.length.centre);
        if (role.stated_between) {
            one["need_least_m"] = m(role.stated_between->least);
            one["need_most_m"] = m(role.stated_between->most);
        }
        one["spread_m"] = m(role.length.spread);
        one["need_g"] = role.grist ? Json(g(role.length.centre / *role.grist)) : Json();
        one["found"] = role.how;
        one["source"] = std::string(need::name_of(role.source));
        one["evidence"] = Json::array();
        for (const need::Evidence& each : role.evidence)
            one["evidence"].push_back({{"what", each.name.empty() ? role.how : each.name},
                                       {"source", std::string(need::name_of(each.source))},
                                       {"need_m", m(each.yarn)},
                                       {"relative", each.spread.value()},
                                       {"weight", each.weight.value()},
                                       {"off", each.off.value()},
                                       {"contradicts", each.discord}});
        one["passed_over"] = Json::array();
        for (const need::PassedOver& other : role.passed_over)
            one["passed_over"].push_back({{"what", other.name},
                                          {"need_m", m(other.yarn)},
                                          {"relative", other.spread.value()}});
        if (role.calibration) one["calibration"] = calibration_json(*role.calibration);
        one["parts"] = Json::array();
        for (const need::Part& part : role.parts)
            one["parts"].push_back(
                {{"part", std::string(need::name_of(part.purpose))}, {"length_m", m(part.yarn)}});
        one["causes"] = Json::array();
        for (const need::Cause& cause : role.causes)
            one["causes"].push_back({{"cause", cause.name},
                                     {"relative", cause.relative.value()},
                                     {"narrowed_by", cause.what_narrows_it}});
        one["notes"] = role.notes;
        one["contradictions"] = Json::array();
        for (const need::Contradiction& each : role.contradictions)
            one["contradictions"].push_back(said(each));
        out["roles"].push_back(one);
    }
    return finished(out);
}

std::string cover_json(const project::Project& project, const need::MakeNeed& make,
                       const cover::MakeCover& cover, const std::vector<cover::Remedy>& remedies) {
    Json out = head(project, make.size);
    out["verdict"] = std::string(cover::name_of(cover.verdict));
    out["chance"] = chance_figure(cover.chance).value();
    out["chance_with_margin"] = chance_figure(cover.with_margin).value();
    out["margin_met"] = std::none_of(
        cover.roles.begin(), cover.roles.end(),
        [](const cover::RoleCover& role) { return role.margin_short > units::Length{}; });
    out["roles"] = Json::array();
    for (const cover::RoleCover& role : cover.roles) {
        Json one;
        one["role"] = role.role.id;
        one["verdict"] = std::string(cover::name_of(role.verdict));
        one["chance"] = chance_figure(role.chance).value();
        one["chance_anywhere"] = chance_figure(role.anywhere).value();
        one["chance_with_margin"] = chance_figure(role.with_margin).value();
        one["margin_met"] = !(role.margin_short > Length{});
        one["margin_short_m"] = m(role.margin_short);
        one["contradictions"] = Json::array();
        for (const need::Contradiction& each : role.need.contradictions)
            one["contradictions"].push_back(said(each));
        one["against_slip"] = role.against_slip;
        one["rows_known"] = role.rows_known;
        one["confidence"] = role.confidence.value.value();
        one["weigh_first"] = role.weigh_first;
        one["measure_first"] = role.measure_first;
        one["needed_m"] = m(role.needed);
        one["supply_m"] = m(role.supply.centre);
        one["supply_spread_m"] = m(role.supply.spread);
        one["tails_m"] = m(role.tails);
        one["wound_off_m"] = m(role.wound_off);
        one["cut_off_m"] = m(role.cut_off);
        one["spare_m"] = m(role.spare);
        one["to_be_sure_m"] = m(role.to_be_sure);
        one["label_cancels"] = role.label_cancels;
        one["proven"] = role.proven;
        one["chosen"] = Json::array();
        for (const stash::Skein& skein : role.chosen) one["chosen"].push_back(skein.id);
        one["cut"] = Json::array();
        for (const cover::Share& share : role.shares)
            one["cut"].push_back({{"id", share.id}, {"length_m", m(share.length)}});
        one["notes"] = Json::array();
        for (const cover::Note& note : role.notes) one["notes"].push_back(said(note));
        one["next"] = Json::array();
        for (const cover::Settling& step : role.settles)
            one["next"].push_back(
                {{"what", said(step.what)},
                 {"settles", step.chance ? Json(chance_figure(*step.chance).value()) : Json()}});
        one["skeins"] = Json::array();
        for (const cover::Candidate& candidate : cover::every_candidate(role)) {
            const bool chosen = std::any_of(
                role.chosen.begin(), role.chosen.end(),
                [&](const stash::Skein& skein) { return skein.id == candidate.skein->id; });
            one["skeins"].push_back(
                {{"id", candidate.skein->id},
                 {"standing", chosen             ? "taken"
                              : candidate.supply ? "fits"
                                                 : "out"},
                 {"length_m", candidate.supply ? Json(m(candidate.supply->length)) : Json()},
                 {"reason", said(candidate.reason)}});
        }
        out["roles"].push_back(one);
    }
    out["remedies"] = Json::array();
    for (const cover::Remedy& remedy : remedies)
        out["remedies"].push_back({{"what", said(remedy.what)},
                                   {"saved_m", m(remedy.saved)},
                                   {"verdict", std::string(cover::name_of(remedy.verdict))},
                                   {"chance", chance_figure(remedy.chance).value()}});
    return finished(out);
}

namespace {

std::string_view basis_name(materials::Basis basis) {
    switch (basis) {
        case materials::Basis::swatch:
            return "swatch";
        case materials::Basis::stated_rate:
            return "stated rate";
        case materials::Basis::own_make:
            return "own make";
        case materials::Basis::stated_total:
            return "stated total";
        case materials::Basis::whole_skeins:
            return "own make in whole skeins";
        case materials::Basis::estimate:
            return "estimate";
        case materials::Basis::testers:
            break;
    }
    return "testers";
}

Json testers_json(const need::TesterSummary& testers) {
    if (testers.taken.empty()) return {};
    return {{"returns", testers.taken.size()},   {"left_out", testers.left_out.size()},
            {"far_off", testers.far_off.size()}, {"least", testers.least.value()},
            {"most", testers.most.value()},      {"middle", testers.middle.value()},
            {"bound", testers.bound.value()},    {"share", testers.share.value.value()}};
}

}  // namespace

std::string materials_json(const materials::Section& section) {
    Json out;
    out["title"] = section.title;
    out["craft"] = section.craft == project::Craft::crochet ? "crochet" : "knit";
    out["terms"] = section.terms == project::Terms::us ? "US" : "UK";
    out["skill"] = section.skill;
    out["sizes"] = section.sizes;
    out["finished"] = Json::array();
    for (const materials::FinishedLine& line : section.finished) {
        Json sizes = Json::array();
        for (std::size_t i = 0; i < line.size.size(); ++i)
            sizes.push_back({{"count", line.count[i]},
                             {"width_m", m(line.size[i].width)},
                             {"length_m", m(line.size[i].length)}});
        out["finished"].push_back({{"piece", line.piece}, {"round", line.round}, {"sizes", sizes}});
    }
    out["yarns"] = Json::array();
    for (const materials::YarnLine& yarn : section.yarns) {
        Json one;
        one["role"] = yarn.role;
        one["name"] = yarn.name;
        one["colour"] = yarn.colour;
        one["class"] = yarn.weight ? Json(yarn.weight->number) : Json();
        one["class_name"] = yarn.weight ? Json(std::string(class_name(*yarn.weight))) : Json();
        one["fibre"] = yarn.fibre.known() ? Json(text(yarn.fibre)) : Json();
        one["put_up_length"] = text_or_null(yarn.put_up.length);
        one["put_up_mass"] = text_or_null(yarn.put_up.mass);
        one["grist_m_per_100g"] = yarn.grist ? Json(m_per_100g(*yarn.grist)) : Json();
        one["worked_out_m"] = Json::array();
        for (const Length& model : yarn.model) one["worked_out_m"].push_back(m(model));
        one["total_m"] = Json::array();
        for (const Length& total : yarn.total) one["total_m"].push_back(m(total));
        one["skeins"] = yarn.skeins;
        one["for_most_makers"] = yarn.for_most;
        one["found"] = yarn.how;
        one["basis"] = std::string(basis_name(yarn.basis));
        one["testers"] = testers_json(yarn.testers);
        one["one_lot"] = yarn.one_lot;
        one["held_with"] = yarn.held_with.empty() ? Json() : Json(yarn.held_with);
        out["yarns"].push_back(one);
    }
    out["adjust"] = Json();
    if (section.adjust) {
        const materials::Adjustment& more = *section.adjust;
        Json adjust{{"piece", more.piece}, {"stitches", more.stitches},  {"wider_m", m(more.wider)},
                    {"rows", more.rows},   {"longer_m", m(more.longer)}, {"yarns", Json::array()}};
        for (const materials::Adjustment::OfYarn& yarn : more.yarns) {
            Json one{{"role", yarn.role},
                     {"for_width_m", Json::array()},
                     {"for_length_m", Json::array()}};
            for (const Length& length : yarn.for_width) one["for_width_m"].push_back(m(length));
            for (const Length& length : yarn.for_length) one["for_length_m"].push_back(m(length));
            adjust["yarns"].push_back(std::move(one));
        }
        out["adjust"] = std::move(adjust);
    }
    out["makers_within"] = section.within ? Json(section.within->value()) : Json();
    out["margin"] = section.margin.value();
    const bool counted = !section.gauge.laid_out && !section.gauge.usual;
    out["stitches_per_m"] = counted ? Json(section.gauge.stitches.value()) : Json();
    out["rows_per_m"] = counted ? Json(section.gauge.rows.value()) : Json();
    out["gauge_stitch"] = section.gauge.stitch;
    out["hook_mm"] =
        section.gauge.hook ? Json(*section.gauge.hook / units::millimetre + 0.0) : Json();
    out["needle_mm"] =
        section.gauge.needle ? Json(*section.gauge.needle / units::millimetre + 0.0) : Json();
    out["notions"] = section.notions;
    out["care"] = section.care;
    out["cautions"] = Json::array();
    for (const materials::CautionLine& caution : section.cautions)
        out["cautions"].push_back(caution_text(caution));
    out["credit"] = std::string(yarn::class_credit);
    return finished(out);
}

std::string stash_json(const std::vector<stash::Skein>& skeins) {
    Json out;
    out["skeins"] = Json::array();
    for (const stash::Skein& skein : skeins) out["skeins"].push_back(skein_json(skein));
    return finished(out);
}

}  // namespace skeinfall::report
