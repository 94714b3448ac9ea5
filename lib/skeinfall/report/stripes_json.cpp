#include <nlohmann/json.hpp>

#include "skeinfall/base/csv_cell.hpp"
#include "skeinfall/report/detail/json_words.hpp"
#include "skeinfall/report/detail/stripes_list.hpp"
#include "skeinfall/report/stripes.hpp"
#include "skeinfall/report/words.hpp"

namespace skeinfall::report {
namespace {

Json json_of(const colours::Stripes& stripes) {
    Json out = Json::array();
    for (const project::Stripe& stripe : stripes)
        out.push_back({{"yarn", stripe.role}, {"rows", stripe.rows}});
    return out;
}

Json listed_json(const StripesAnswer& answer, const colours::Striped& shown) {
    Json out = Json::array();
    const std::vector<ListedStripe> listed = listed_stripes(answer.plan, shown);
    for (std::size_t i = 0; i < listed.size(); ++i) {
        const ListedStripe& one = listed[i];
        out.push_back({{"piece", shown.project.pieces[one.piece].name},
                       {"yarn", one.role},
                       {"first_row", one.first_row},
                       {"rows", one.rows},
                       {"skein", one.skein.empty() ? Json() : Json(one.skein)},
                       {"right_edge", one.right_edge},
                       {"carried", one.carried},
                       {"goes_on", one.goes_on}});
    }
    return out;
}

Json other_json(const std::optional<colours::Striped>& other) {
    if (!other) return {};
    return {{"repeat", json_of(other->stripes.front())},
            {"ends", other->ends},
            {"rows_changed", other->rows_changed},
            {"chance", chance_figure(other->plan.cover.chance).value()}};
}

}  // namespace

std::string stripes_json(const StripesAnswer& answer) {
    const colours::StripePlan& plan = answer.plan;
    const colours::Striped* shown = shown_of(plan);
    Json out;
    out["title"] = answer.project.title;
    out["pieces"] = Json::array();
    for (const std::size_t piece : plan.wish.pieces)
        out["pieces"].push_back(answer.project.pieces[piece].name);
    out["way"] = way_word(plan.wish.way);
    out["found"] = plan.found.has_value();
    out["verdict"] =
        shown == nullptr ? Json() : Json(std::string(cover::name_of(shown->plan.cover.verdict)));
    out["chance"] =
        shown == nullptr ? Json() : Json(chance_figure(shown->plan.cover.chance).value());
    out["as_wanted"] =
        plan.as_wanted
            ? Json{{"verdict", std::string(cover::name_of(plan.as_wanted->plan.cover.verdict))},
                   {"chance", chance_figure(plan.as_wanted->plan.cover.chance).value()},
                   {"ends", plan.as_wanted->ends}}
            : Json();
    out["height_kept"] = plan.height_kept;
    out["proven"] = plan.proven;
    out["tried"] = plan.judged;
    out["rows_were"] = answer.grew.rows_were ? Json(*answer.grew.rows_were) : Json();
    out["nearest_rows"] = plan.nearest_rows > 0 ? Json(plan.nearest_rows) : Json();
    out["balls"] = plan.balls;
    out["wanted"] = json_of(plan.wish.wanted);
    out["repeat"] = shown == nullptr ? Json() : json_of(shown->stripes.front());
    out["rows_changed"] = shown == nullptr ? Json() : Json(shown->rows_changed);
    out["yarns"] = Json::array();
    out["stripes"] = Json::array();
    if (shown != nullptr) {
        for (const colours::ColourUse& use : colours::uses_of(plan, *shown))
            out["yarns"].push_back({{"role", use.role},
                                    {"rows", use.rows},
                                    {"rows_wanted", use.rows_wanted},
                                    {"takes_m", m(use.takes)},
                                    {"has_m", m(use.has)},
                                    {"left_m", m(use.has - use.takes)},
                                    {"chance", chance_figure(use.chance).value()},
                                    {"verdict", std::string(cover::name_of(use.verdict))}});
        out["stripes"] = listed_json(answer, *shown);
        out["ends"] = shown->ends;
    }
    out["fewer_ends"] = other_json(plan.fewer_ends);
    out["carried_higher"] =
        plan.carried ? Json{{"height_m", m(plan.carried->height)}, {"ends", plan.carried->ends}}
                     : Json();
    return finished(out);
}

std::string stripes_csv(const StripesAnswer& answer) {
    base::CsvTable out({"piece", "yarn", "first_row", "rows", "skein", "edge", "begins"}, "\n");
    const colours::Striped* shown = shown_of(answer.plan);
    if (shown == nullptr) return out.written();
    for (const ListedStripe& one : listed_stripes(answer.plan, *shown)) {
        out.text(shown->project.pieces[one.piece].name).text(one.role);
        out.number(std::to_string(one.first_row)).number(std::to_string(one.rows));
        out.text(one.skein).text(one.right_edge ? "right" : "left");
        out.text(one.goes_on ? "goes on" : one.carried ? "carried" : "new end").end_line();
    }
    return out.written();
}

}  // namespace skeinfall::report
