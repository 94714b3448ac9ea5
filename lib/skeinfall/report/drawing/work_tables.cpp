#include "skeinfall/report/detail/work_tables.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>
#include <utility>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "skeinfall/base/text.hpp"
#include "skeinfall/joins/forecast.hpp"
#include "skeinfall/report/detail/figures.hpp"
#include "skeinfall/report/detail/page_data.hpp"
#include "skeinfall/report/words.hpp"

namespace skeinfall::report {
namespace {

using nlohmann::ordered_json;
using units::Ratio;

/// A pure number, as JSON takes it.
double plain(Ratio quotient) {
    return quotient.value();
}

enum class Kind { row, other, carried };

Kind kind_of(const project::Project& project, const need::Step& step) {
    if (step.purpose == need::Purpose::carried) return Kind::carried;
    const bool row = step.purpose == need::Purpose::body && step.name.empty();
    return row && !project.pieces.empty() ? Kind::row : Kind::other;
}

/// A prediction of nothing with a spread of a gram: what its bound shows is the deviation.
ordered_json deviations(measure::Chance confidence) {
    ordered_json out = ordered_json::array();
    const joins::Prior none = joins::prior_of({need::Step{}}, 1.0 * units::metre / units::gram, {});
    for (int count = 0; count <= page_readings_at_most; ++count) {
        const Ratio degrees(2.0 * none.shape.value() + count);
        const units::Mass bound =
            joins::upper({units::Mass{}, 1.0 * units::gram, degrees}, confidence);
        out.push_back(plain(Ratio(bound / units::gram)));
    }
    return out;
}

/// The row after another one like it.
bool is_next_row(const project::Project& project, const need::Step* before,
                 const need::Step& step) {
    return before != nullptr && kind_of(project, step) == Kind::row &&
           kind_of(project, *before) == Kind::row && before->piece == step.piece &&
           before->copy == step.copy && before->row + 1 == step.row && before->yarn == step.yarn;
}

bool has_too_many_steps(const project::Project& project, const joins::JoinPlan& plan) {
    std::size_t count = 0;
    const need::Step* before = nullptr;
    for (const need::Step& step : plan.steps) {
        if (!is_next_row(project, before, step)) ++count;
        before = &step;
    }
    return count > page_steps_at_most;
}

ordered_json steps_of(const project::Project& project, const joins::JoinPlan& plan,
                      ordered_json& groups) {
    ordered_json steps = ordered_json::array();
    std::map<std::pair<std::size_t, std::int64_t>, std::size_t> known;
    const need::Step* before = nullptr;
    for (const need::Step& step : plan.steps) {
        const Kind kind = kind_of(project, step);
        const bool in_piece = step.name.empty() && !project.pieces.empty();
        std::int64_t group = -1;
        if (in_piece) {
            const auto [place, first] = known.try_emplace({step.piece, step.copy}, known.size());
            group = static_cast<std::int64_t>(place->second);
            if (first) {
                const project::Piece& piece = project.pieces[step.piece];
                std::string name = piece.name;
                if (std::any_of(piece.count.values.begin(), piece.count.values.end(),
                                [](std::int64_t count) { return count > 1; }))
                    name += " " + std::to_string(step.copy);
                groups.push_back({{"name", shown_apart(name)},
                                  {"word", std::string(project::row_word(piece.worked))},
                                  {"piece", name}});
            }
        }
        const double metres = plain(Ratio(step.yarn / units::metre));
        if (is_next_row(project, before, step))
            steps.back()[3] = steps.back()[3].get<std::int64_t>() + 1;
        else
            steps.push_back({group, static_cast<int>(kind), step.row, 1, metres,
                             kind == Kind::row ? std::string() : step_text(project, step)});
        before = &step;
    }
    return steps;
}

ordered_json skeins_of(const joins::JoinPlan& plan, units::Grist grist) {
    ordered_json out = ordered_json::array();
    // Spares last as long as any other skein: without them the page would call short what the plan
    // covers.
    std::vector<const chain::Ball*> balls;
    for (const joins::Stretch& stretch : plan.stretches) balls.push_back(&stretch.ball);
    for (const joins::Spare& spare : plan.spares) balls.push_back(&spare.ball);
    for (const chain::Ball* ball : balls) {
        // In tenths and down, as the command beside it says it.
        constexpr double tenths = 10.0;
        constexpr double damp = 1.4;  // common practice, no source: damp yarn weighs a third more
        const units::Mass whole = ball->length.centre / grist;
        const units::Mass mass =
            std::floor(plain(Ratio(whole / units::gram)) * tenths + 1e-9) / tenths * units::gram;
        const joins::ProgressRules more = joins::with_more({}, mass, 1);
        const double spread = plain(Ratio(more.more.spread / units::gram));
        out.push_back({{"id", ball->id},
                       {"name", shown_apart(ball->id)},
                       {"g", plain(Ratio(mass / units::gram))},
                       {"most_g", damp * plain(Ratio(whole / units::gram)) + 1.0},
                       {"variance", spread * spread}});
    }
    return out;
}

}  // namespace

std::vector<std::string> yarns_without_weighings(const MakePage& page) {
    std::vector<std::string> out;
    for (const joins::RoleJoins& role : page.joins.roles)
        if (has_too_many_steps(page.project, role.plan)) out.push_back(shown_apart(role.plan.role));
    return out;
}

std::string work_tables(const MakePage& page) {
    const project::Project& project = page.project;
    const joins::Request& request = page.joins.request;
    ordered_json out;
    const std::size_t slash = project.file.find_last_of('/');
    out["file"] = slash == std::string::npos ? project.file : project.file.substr(slash + 1);
    out["size"] = project.sizes.empty() ? "" : project.sizes[page.need.size];
    const double confidence = request.confidence.value.value();
    out["confidence"] = chance_text(request.confidence);
    out["confidence_option"] =
        request.confidence.value.value() == measure::usual_confidence.value.value()
            ? ""
            : units::percent_text(request.confidence.value, units::Step::thousandth,
                                  units::Rounding::nearest);
    const std::string step = scale_text(request.scale.step, request.scale.step);
    const bool ounces = scale_unit(request.scale.step) == "oz";
    out["scale"] = {
        {"step_g", plain(Ratio(request.scale.step / units::gram))},
        {"text", step},
        {"unit", ounces ? "oz" : "g"},
        {"one_g", plain(Ratio((ounces ? 1.0 * units::ounce : 1.0 * units::gram) / units::gram))},
        {"tare_g", plain(Ratio(request.scale.tare / units::gram))},
        {"tare_text", request.scale.tare.value() > 0.0
                          ? scale_text(request.scale.tare, request.scale.step)
                          : std::string()}};
    out["odd"] = {{"apart", joins::most_apart.value()}, {"steps", joins::drift_in_steps.value()}};
    out["one_sided"] = deviations(request.confidence);
    out["two_sided"] = deviations({Ratio(0.5 + 0.5 * confidence)});
    out["yarns"] = ordered_json::array();
    for (const joins::RoleJoins& role : page.joins.roles) {
        const auto need =
            std::find_if(page.need.roles.begin(), page.need.roles.end(),
                         [&](const need::RoleNeed& one) { return one.role == role.plan.role; });
        if (need == page.need.roles.end() || !need->grist || role.plan.steps.empty() ||
            has_too_many_steps(project, role.plan))
            continue;
        const joins::Prior prior =
            joins::prior_of(role.plan.steps, *need->grist, need->without_shared().relative());
        ordered_json yarn;
        yarn["id"] = role.plan.role;
        yarn["name"] = shown_apart(role_heading(*project.role(role.plan.role)));
        // Grams and metres, as JSON is read without units.
        const double grams = units::Mass(1.0 * units::gram).value();
        const double metres = units::Length(1.0 * units::metre).value();
        yarn["rate"] = prior.rate.value() / grams * metres;
        yarn["worth"] = plain(Ratio(prior.worth / units::metre));
        yarn["variance"] = prior.row_spread.value() * prior.row_spread.value() / (grams * grams) /
                           plain(Ratio(prior.row / units::metre));
        yarn["tail_g"] = plain(Ratio(units::Mass(project.tail / *need->grist) / units::gram));
        joins::Rules rules = joins::rules_of(project, *project.role(role.plan.role), request);
        yarn["link"] =
            plain(Ratio(chain::mean_row(*need, page.need.steps, rules, &project) / units::metre));
        ordered_json groups = ordered_json::array();
        yarn["steps"] = steps_of(project, role.plan, groups);
        yarn["groups"] = groups;
        yarn["skeins"] = skeins_of(role.plan, *need->grist);
        out["yarns"].push_back(std::move(yarn));
    }
    out["shape"] =
        joins::prior_of({need::Step{}}, 1.0 * units::metre / units::gram, {}).shape.value();
    return json_in_page(out);
}

}  // namespace skeinfall::report
