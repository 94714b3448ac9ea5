#include <nlohmann/json.hpp>

#include "skeinfall/report/detail/joins_words.hpp"
#include "skeinfall/report/detail/json_words.hpp"
#include "skeinfall/report/joins.hpp"
#include "skeinfall/report/says.hpp"
#include "skeinfall/report/words.hpp"

namespace skeinfall::report {
namespace {

using Json = nlohmann::ordered_json;
using joins::JoinPlan;

Json place(const project::Project& project, const JoinPlan& plan, const joins::Position& at) {
    return {{"place", place_text(project, plan, at)},
            {"steps_done", at.step},
            {"share_of_next", at.share.value()}};
}

Json place(const project::Project& project, const JoinPlan& plan, std::size_t steps) {
    return place(project, plan, joins::Position{steps, units::Ratio(0.0)});
}

Json brief(const JoinPlan& plan) {
    return {{"skeins", plan.stretches.size()},
            {"finishes", plan.finishes},
            {"missing_m", m(plan.missing)},
            {"cut_off_m", m(cut_off(plan))},
            {"left_m", m(left_over(plan))},
            {"steps_done", plan.stretches.empty() ? 0 : plan.stretches.back().to.step}};
}

Json colours_json(const project::Project& project, const project::Role& role,
                  const joins::Colours& colours) {
    Json out;
    out["repeat_m"] = m(colours.repeat);
    out["wind_off_expected_m"] = m(colours.wind_off.expected);
    out["wind_off_at_most_m"] = m(colours.wind_off.at_most);
    out["pieces"] = Json::array();
    for (const joins::PieceColours& one : colours.pieces) {
        Json piece;
        piece["piece"] = project.pieces[one.piece].name;
        piece["copy"] = one.copy;
        piece["begins_m"] = m(one.start);
        piece["stripes"] = Json::array();
        for (const joins::ColourStripe& stripe : one.stripes)
            piece["stripes"].push_back({{"colour", role.colours[stripe.run].colour},
                                        {"from_row", stripe.from / units::row + 0.0},
                                        {"to_row", stripe.to / units::row + 0.0},
                                        {"height_m", m(stripe.height)}});
        if (one.pools) {
            piece["stitches"] = one.width;
            piece["pattern"] = std::string(joins::name_of(one.pooling.pattern));
            piece["shift_m"] = m(one.pooling.shift);
            piece["widths_that_stack"] = one.stack;
            piece["widths_that_move_by_one"] = one.drift_by_one;
            piece["width_that_breaks_up"] = one.avoid ? Json(*one.avoid) : Json();
            piece["recheck_by_row"] = one.recheck;
        }
        out["pieces"].push_back(piece);
    }
    if (colours.pair)
        out["pair"] = {{"wind_off_m", m(colours.pair->wind_off)},
                       {"total_m", m(colours.pair->total)}};
    if (colours.pair_from_two)
        out["pair_from_two"] = {{"wind_off_expected_m", m(colours.pair_from_two->expected)},
                                {"wind_off_at_most_m", m(colours.pair_from_two->at_most)}};
    if (colours.largest_pair)
        out["largest_pair"] = {{"each_m", m(colours.largest_pair->each)},
                               {"left_m", m(colours.largest_pair->left)}};
    return out;
}

}  // namespace

std::string joins_json(const project::Project& project, const joins::Answer& answer) {
    Json out;
    out["title"] = project.title;
    out["joins"] = answer.joins;
    out["perhaps_more"] = answer.perhaps;
    out["finishes"] = answer.finishes;
    out["lasts"] = joins::is_sure(answer);
    out["chance"] = chance_figure(answer.lasts).value();
    out["chance_as_planned"] = chance_figure(answer.lasts_as_planned).value();
    out["chance_by_slip"] = chance_figure(answer.by_slip).value();
    out["rules_kept"] = answer.rules_kept;
    out["ends_cut"] = answer.ends.cut;
    out["ends_m"] = m(answer.ends.tails);
    out["roles"] = Json::array();
    for (const joins::RoleJoins& role : answer.roles) {
        const JoinPlan& plan = role.plan;
        Json one;
        one["role"] = plan.role;
        one["finishes"] = plan.finishes;
        one["contradictions"] = Json::array();
        for (const need::Contradiction& each : role.contradictions)
            one["contradictions"].push_back(said(each));
        one["against_slip"] = plan.against_slip;
        one["chance"] = chance_figure(plan.lasts).value();
        one["chance_with_spares"] = chance_figure(chance_of(plan)).value();
        one["chance_by_slip"] = chance_figure(plan.by_slip).value();
        one["missing_m"] = m(plan.missing);
        one["proven"] = plan.proven;
        one["pieces_at_least"] = plan.pieces_at_least;
        one["left_m"] = m(left_over(plan));
        one["stretches"] = Json::array();
        for (const joins::Stretch& stretch : plan.stretches)
            one["stretches"].push_back({{"skein", stretch.ball.id},
                                        {"from", place(project, plan, stretch.from)},
                                        {"to", place(project, plan, stretch.to)},
                                        {"earliest", place(project, plan, stretch.earliest)},
                                        {"latest", place(project, plan, stretch.latest)},
                                        {"worked_in_m", m(stretch.used)},
                                        {"tails_m", m(stretch.tails)},
                                        {"wound_off_m", m(stretch.wound_off)},
                                        {"left_m", m(stretch.left)},
                                        {"knots", stretch.ball.knots},
                                        {"weigh_after_steps", stretch.weigh_after}});
        one["spares"] = Json::array();
        for (const joins::Spare& spare : plan.spares)
            one["spares"].push_back(
                {{"skein", spare.ball.id},
                 {"holds_m", m(spare.ball.length.centre)},
                 {"needed_after", place(project, plan, plan.stretches.back().earliest)}});
        one["row_ends"] = brief(role.row_ends);
        one["anywhere"] = brief(role.anywhere);
        one["stops"] = Json::array();
        for (const joins::StopWeight& stop : role.stops)
            one["stops"].push_back(
                {{"skein", plan.stretches[stop.stretch].ball.id},
                 {"place", place_text(project, plan, {stop.steps_done, {}})},
                 {"steps_done", stop.steps_done},
                 {"until_steps_done", stop.until},
                 {"next_g", g(stop.next)},
                 {"rest_g", stop.rest.value() > 0.0 ? Json(g(stop.rest)) : Json()}});
        one["lot_changes"] = Json::array();
        for (const joins::LotChange& change : role.lot_changes)
            one["lot_changes"].push_back(
                {{"from", change.from},
                 {"to", change.to},
                 {"alternate_from_step", change.fade ? Json(change.fade->begin) : Json()},
                 {"alternate_to_step", change.fade ? Json(change.fade->end) : Json()},
                 {"held_m", change.fade ? Json(m(change.fade->held)) : Json()}});
        one["by_turns"] = Json();
        if (const auto& by = role.by_turns) {
            Json yarns = Json::array();
            for (std::size_t i = 0; i < by->takes.size(); ++i)
                yarns.push_back({{"name", i < by->names.size() ? Json(by->names[i]) : Json()},
                                 {"takes_m", m(by->takes[i])},
                                 {"has_m", i < by->has.size() ? Json(m(by->has[i])) : Json()}});
            one["by_turns"] = {{"without_cuts", by->without_cuts},
                               {"with_cuts", by->with_cuts},
                               {"suffices", by->suffices},
                               {"chance", chance_figure(by->chance).value()},
                               {"yarns", yarns}};
        }
        one["colours"] =
            role.colours ? colours_json(project, *project.role(plan.role), *role.colours) : Json();
        one["notes"] = notes_with_nearest(project, role);
        out["roles"].push_back(one);
    }
    return finished(out);
}

std::string progress_json(const ProgressOf& of, const joins::Progress& progress) {
    const auto at = [&](std::size_t steps) { return place(of.project, of.plan, steps); };
    Json out;
    out["title"] = of.project.title;
    out["role"] = of.plan.role;
    out["lasts"] = progress.will_last(of.confidence);
    out["chance"] = chance_figure(progress.lasts).value();
    out["in_hand_g"] = g(progress.in_hand);
    out["have_g"] = g(progress.have);
    out["need_g"] = g(progress.need.centre);
    out["to_be_sure_g"] = g(progress.to_be_sure);
    out["certain"] = at(progress.certain);
    out["likely"] = at(progress.likely);
    out["can_finish"] = progress.can_finish;
    out["held_back_g"] = g(progress.held_back);
    out["later"] = of.later;
    out["not_counted"] = of.not_counted;
    out["to_be_weighed"] = of.taken;
    out["not_told_g"] = g(of.not_told);
    out["worked_before"] = of.worked_before;
    out["next_join"] = {{"certain", at(progress.join_certain)},
                        {"likely", at(progress.join_likely)},
                        {"latest", at(progress.join_latest)}};
    out["drift"] = progress.drift.value();
    out["drift_low"] = progress.drift_low.value();
    out["drift_high"] = progress.drift_high.value();
    out["by_scale_least_g"] = progress.by_scale ? Json(g(progress.by_scale->least)) : Json();
    out["by_scale_most_g"] = progress.by_scale ? Json(g(progress.by_scale->most)) : Json();
    out["increments"] = progress.increments;
    out["contradiction"] = progress.odd ? Json{{"used_g", g(progress.odd->used)},
                                               {"expected_g", g(progress.odd->expected)},
                                               {"by", progress.odd->by_plan ? "plan" : "weighings"}}
                                        : Json();
    return finished(out);
}

}  // namespace skeinfall::report
