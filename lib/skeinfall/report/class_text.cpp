#include "skeinfall/report/class_text.hpp"

#include <cstdint>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/detail/json_words.hpp"
#include "skeinfall/report/words.hpp"

namespace skeinfall::report {

using base::shown_inert;
using units::Rounding;

std::string class_text(const std::string& title, std::int64_t makers,
                       const std::vector<materials::ClassYarn>& yarns, measure::Chance confidence) {
    std::string out = fmt::format("{}: {} whose tension is not known\n", shown_inert(title),
                                  counted(makers, "maker", "makers"));
    for (const materials::ClassYarn& yarn : yarns) {
        const std::string what = shown_inert(base::join(
            {yarn.name.empty() ? std::string("any yarn") : yarn.name, yarn.colour}, " "));
        out += "\n" + shown_inert(yarn.role) + " " + std::string(base::trimmed(what)) + ": ";
        if (yarn.skeins_each)
            out += fmt::format("{} for each, {} in all ({})\n",
                               counted(*yarn.skeins_each, "skein", "skeins"), *yarn.skeins_all,
                               shown_inert(yarn.put_up.length->text));
        else
            out += yards_and_metres(yarn.each, Rounding::up) + " for each\n";
        std::vector<std::vector<std::string>> rows{
            {"a typical maker uses", yards_and_metres(yarn.middle, Rounding::up) + ""},
            {"each should have", yards_and_metres(yarn.each, Rounding::up)}};
        out += table(rows, {false, false}, 2);
        if (yarn.one_lot)
            out += "  Every maker's skeins must be of one lot; the lots may differ.\n";
        if (yarn.counted) out += "  The total counts whole skeins; weighed makes would say more.\n";
        if (!yarn.skeins_each)
            out += "  To count skeins, record what one skein holds, such as 200 m / 100 g.\n";
    }
    return out + fmt::format(
                     "\nWith that it is {} sure that all of them have enough. Your stash is not "
                     "counted.\n",
                     chance_text(confidence));
}

std::string class_json(const std::string& title, std::int64_t makers,
                       const std::vector<materials::ClassYarn>& yarns) {
    Json out;
    out["title"] = title;
    out["makers"] = makers;
    out["yarns"] = Json::array();
    for (const materials::ClassYarn& yarn : yarns)
        out["yarns"].push_back(
            {{"role", yarn.role},
             {"yarn", yarn.name},
             {"colour", yarn.colour},
             {"put_up", yarn.put_up.length ? Json(yarn.put_up.length->text) : Json()},
             {"middle_m", m(yarn.middle)},
             {"each_m", m(yarn.each)},
             {"skeins_each", yarn.skeins_each ? Json(*yarn.skeins_each) : Json()},
             {"skeins_all", yarn.skeins_all ? Json(*yarn.skeins_all) : Json()}});
    return finished(out);
}

}  // namespace skeinfall::report
