#include <algorithm>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/joins.hpp"
#include "skeinfall/report/words.hpp"

namespace skeinfall::report {
namespace {

using units::Rounding;
using units::Step;

std::string grams(units::Mass mass, Rounding rounding) {
    return units::text(mass, units::shown::grams, Step::tenth, rounding);
}

std::string drift_line(const joins::Progress& progress, measure::Chance confidence) {
    const auto percent = [](units::Ratio of_plan) {
        const double off = of_plan.value() - 1.0;
        return units::percent_text(units::Ratio(off), Step::one, Rounding::nearest);
    };
    if (progress.increments == 0)
        return "One weighing only: the rate is still the plan's. Weigh again after some rows.\n";
    const std::string band = fmt::format(" ({} to {} at {})", percent(progress.drift_low),
                                         percent(progress.drift_high), chance_text(confidence));
    if (progress.drift_low.value() > 1.0)
        return "You use more than planned: " + percent(progress.drift) + band + ".\n";
    if (progress.drift_high.value() < 1.0)
        return "You use less than planned: " + percent(progress.drift) + band + ".\n";
    return "You use what was planned: off by " + percent(progress.drift) + band + ".\n";
}

}  // namespace

std::string progress_text(const ProgressOf& of, const joins::Progress& progress) {
    const auto place = [&](std::size_t steps) {
        return steps >= of.plan.steps.size()
                   ? std::string("the end")
                   : place_text(of.project, of.plan, {steps, units::Ratio(0.0)});
    };
    const measure::Chance other{units::Ratio(1.0 - of.confidence.value.value())};
    const char* verdict = progress.lasts >= of.confidence ? "it will last"
                          : progress.lasts <= other       ? "it will not last"
                                                          : "too close to call";
    std::string out =
        fmt::format("{}, chance {}: {}, yarn {}\n\n", verdict, chance_text(progress.lasts),
                    base::shown_inert(of.project.title), base::shown_inert(of.plan.role));
    std::vector<std::vector<std::string>> rows{
        {"left", grams(progress.have, Rounding::down) + " without the ends"},
        {"the rest takes", grams(progress.need.centre, Rounding::up)},
        {"certain", place(progress.certain)},
        {"likely", place(progress.likely)}};
    if (progress.to_be_sure.value() > 0.0)
        rows.push_back({"to be sure", grams(progress.to_be_sure, Rounding::up) + " more for " +
                                          chance_text(of.confidence)});
    if (progress.join_likely < of.plan.steps.size())
        rows.push_back({"next join", place(progress.join_likely) + "; at the earliest " +
                                         place(progress.join_certain) + ", at the latest " +
                                         place(progress.join_latest)});
    if (progress.by_scale)
        rows.push_back({"by your weighings",
                        grams(progress.by_scale->least, Rounding::down) + " to " +
                            grams(progress.by_scale->most, Rounding::up) + " for the rest"});
    out += table(rows, {false, false}, 2);
    return out + "\n" + drift_line(progress, of.confidence);
}

}  // namespace skeinfall::report
