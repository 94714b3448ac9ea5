#include <algorithm>
#include <cmath>
#include <regex>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/detail/figures.hpp"
#include "skeinfall/report/joins.hpp"
#include "skeinfall/report/words.hpp"

namespace skeinfall::report {
namespace {

using units::Rounding;
using units::Step;

/// Both figures of which one must be a slip, and what is most often behind it.
std::string odd_line(const joins::OddUse& odd) {
    return fmt::format(
        "By your weighings rows took {}, and by {} as much work takes {}: one of them must be a "
        "slip.\n{}Until that is settled no chance is above 90 %, and the rest is worked out by the "
        "higher rate.\n",
        grams_text(odd.used, Rounding::nearest), odd.by_plan ? "the plan" : "other weighings",
        grams_text(odd.expected, Rounding::nearest),
        odd.used < odd.expected
            ? "Was a new ball begun between the two weighings? Then name the ball of each. "
            : "Was some of it wound off, or is the gauge or the swatch mistyped? ");
}

std::string drift_line(const joins::Progress& progress, measure::Chance confidence) {
    const auto percent = [](units::Ratio of_plan) {
        const double off = of_plan.value() - 1.0;
        return units::percent_text(units::Ratio(off), Step::one, Rounding::nearest);
    };
    if (progress.odd) return odd_line(*progress.odd);
    if (progress.increments == 0)
        return "Only one weighing so far, so this still rests on the plan. Weigh again after some "
               "rows.\n";
    const std::string band = fmt::format(" ({} to {} at {})", percent(progress.drift_low),
                                         percent(progress.drift_high), chance_text(confidence));
    if (progress.drift_low.value() > 1.0)
        return "You use more than planned: " + percent(progress.drift) + band + ".\n";
    if (progress.drift_high.value() < 1.0)
        return "You use less than planned: " + percent(progress.drift) + band + ".\n";
    const double off = progress.drift.value() - 1.0;
    const std::string by =
        units::percent_text(units::Ratio(std::abs(off)), Step::one, Rounding::nearest);
    return "You are on plan: " +
           (by.starts_with("0 ") ? "as much yarn as expected"
                                 : by + (off > 0.0 ? " more" : " less") + " yarn than expected") +
           band + ".\n";
}

/// The piece whose last row `certain` may be, by its name.
std::string place_of_rows(const ProgressOf& of, const joins::Progress& progress) {
    const auto& steps = of.plan.steps;
    const std::size_t at = std::min(std::max<std::size_t>(progress.certain, 1), steps.size()) - 1;
    if (!steps[at].name.empty() || of.project.pieces.empty()) return "it";
    return "the rows of " + base::shown_inert(of.project.pieces[steps[at].piece].name);
}

/// Three places, in few words where only their numbers differ: "after row 26 of cowl (row 25 to
/// 27)".
std::string places_text(const std::string& likely, const std::string& earliest,
                        const std::string& latest) {
    static const std::regex numbered(R"(^after (\w+) (\d+)( of .*)?$)");
    std::smatch middle;
    std::smatch first;
    std::smatch last;
    if (std::regex_match(likely, middle, numbered) && std::regex_match(earliest, first, numbered) &&
        std::regex_match(latest, last, numbered) && middle[1] == first[1] && middle[1] == last[1] &&
        middle[3] == first[3] && middle[3] == last[3])
        return likely + " (" + first[2].str() + " to " + last[2].str() + ")";
    return likely + "; at the earliest " + earliest + ", at the latest " + latest;
}

}  // namespace

std::string progress_text(const ProgressOf& of, const joins::Progress& progress) {
    const auto place = [&](std::size_t steps) {
        return steps >= of.plan.steps.size()
                   ? std::string("the end")
                   : place_text(of.project, of.plan, {steps, units::Ratio(0.0)});
    };
    if (progress.need.centre.value() <= 0.0)
        return fmt::format("{}: the work in yarn {} is finished, with {} left.\n",
                           base::shown_inert(of.project.title), base::shown_inert(of.plan.role),
                           grams_text(progress.have, Rounding::down));
    const measure::Chance other{units::Ratio(1.0 - of.confidence.value.value())};
    // Others of the yarn are there: what this one is enough for is not the whole answer.
    const bool alone = !of.not_counted.empty();
    const char* verdict =
        progress.will_last(of.confidence) ? "it will last"
        : progress.lasts <= other
            ? (alone ? "this skein alone will not last" : "it will not last")
            : (alone ? "too close to call for this skein alone" : "too close to call");
    std::string out =
        fmt::format("{}, chance {}: {}, yarn {}\n", verdict, chance_text(progress.lasts),
                    base::shown_inert(of.project.title), base::shown_inert(of.plan.role));
    const auto ids = [](const std::vector<std::string>& all) {
        std::vector<std::string> shown;
        shown.reserve(all.size());
        for (const std::string& id : all) shown.push_back(base::shown_inert(id));
        return base::join(shown, ", ");
    };
    const std::string name_it =
        "name it" + (of.option_of_skein.empty() ? "" : " with " + of.option_of_skein);
    const bool joins = progress.join_likely < of.plan.steps.size() && !progress.odd;
    if (alone)
        out += fmt::format(
            "Which skein is on the scale? Until you {}, the others are not counted: {}.\n", name_it,
            ids(of.not_counted));
    else if (!progress.will_last(of.confidence) && joins)
        out += fmt::format("Join a new skein {}, or stop by then.\n", place(progress.join_certain));
    out += "\n";
    std::vector<std::vector<std::string>> rows{
        {"left", grams_text(progress.have, Rounding::down) + ", the ends taken off" +
                     (of.later.empty() ? "" : ", with " + ids(of.later))},
        {"still to work", grams_text(progress.need.centre, Rounding::up)}};
    const bool holds = progress.held_back.value() > 0.0;
    if (progress.odd)
        rows.push_back({"sure to reach", "not known before the weighings agree"});
    else if (progress.can_finish)
        rows.push_back({"sure to reach", place(progress.certain)});
    else
        rows.push_back({"sure to reach", "no more rows: stop here, or the finish may run short"});
    rows.push_back({"likely to reach", place(progress.likely)});
    if (holds)
        rows.push_back({"kept back", grams_text(progress.held_back, Rounding::up) +
                                         " for what comes after " + place_of_rows(of, progress)});
    if (progress.to_be_sure.value() > 0.0)
        rows.push_back({chance_text(of.confidence) + " sure",
                        "with " + grams_text(progress.to_be_sure, Rounding::up) + " more"});
    if (progress.join_likely < of.plan.steps.size())
        rows.push_back(
            {"next join", places_text(place(progress.join_likely), place(progress.join_certain),
                                      place(progress.join_latest))});
    if (progress.by_scale)
        rows.push_back({"by your weighings only",
                        grams_text(progress.by_scale->least, Rounding::down) + " to " +
                            grams_text(progress.by_scale->most, Rounding::up) + " for the rest"});
    out += table(rows, {false, false}, 2);
    out += "\n" + drift_line(progress, of.confidence);
    if (!of.in_hand.empty())
        out += fmt::format("By {} this is {}{}. If another skein is on the scale, {}{}.\n",
                           of.in_hand_by_stash ? "your stash" : "the plan",
                           base::shown_inert(of.in_hand),
                           of.noted ? ", and it is noted as weighed" : "",
                           of.noted ? "undo that and " : "", name_it);
    if (!of.worked_before.empty())
        out += fmt::format("Counted as worked, since {} first in the project: {}.\n",
                           of.worked_before.size() == 1 ? "it comes" : "they come",
                           ids(of.worked_before));
    if (!of.taken.empty())
        out += fmt::format("The rows took more yarn than your stash records: weigh {}.\n",
                           ids(of.taken));
    if (of.not_told.value() > 0.0)
        out += fmt::format(
            "By the plan these rows took {} more than the scale shows, so that amount is not "
            "counted. Weigh your other skeins.\n",
            grams_text(of.not_told, Rounding::up));
    return out;
}

}  // namespace skeinfall::report
