#include <algorithm>
#include <cstdint>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/words.hpp"
#include "skeinfall/report/yarns.hpp"
#include "skeinfall/report/yarns_words.hpp"
#include "skeinfall/units/format.hpp"

namespace skeinfall::report {
namespace {

using units::Length;
using units::Rounding;
using units::Step;

std::string grams(units::Mass mass) {
    return units::text(mass, units::shown::grams, Step::one, Rounding::up);
}

std::string balls_text(const yarn::Balls& balls, Length ball) {
    return fmt::format("{} of {} ({})", counted(balls.count, "ball", "balls"),
                       yards_and_metres(ball, Rounding::nearest),
                       units::number_text(balls.exact, Step::hundredth, Rounding::up));
}

std::string verdict_line(const yarn::Substitution& answer) {
    const auto count = [&](yarn::Level level) {
        return static_cast<std::int64_t>(
            std::count_if(answer.findings.begin(), answer.findings.end(),
                          [&](const yarn::Finding& f) { return f.level == level; }));
    };
    const std::string cautions = counted(count(yarn::Level::caution), "caution", "cautions");
    switch (answer.verdict) {
        case yarn::Level::stop:
            return "stop: not a good substitute as it stands (" +
                   counted(count(yarn::Level::stop), "stop", "stops") + ", " + cautions + ")\n";
        case yarn::Level::caution:
            return "caution: may serve if a swatch agrees (" + cautions + ")\n";
        case yarn::Level::ok:
            break;
    }
    return "ok: a good substitute, going by what you entered\n";
}

std::string purchase_text(const yarn::Swap& swap, const yarn::Purchase& buy) {
    std::string out =
        "\nTo buy for " + yards_and_metres(buy.length, Rounding::up) +
        (swap.wanted_strands > 1 || swap.candidate_strands > 1 ? " of each strand" : "") + "\n";
    if (buy.candidate)
        out += "  candidate: " + balls_text(*buy.candidate, *swap.candidate.ball_length()) + ", " +
               yards_and_metres(buy.candidate->spare, Rounding::down) + " over" +
               (buy.candidate_mass ? "; uses " + grams(*buy.candidate_mass) : "") + "\n";
    else
        out += "  candidate: what a ball holds is not given\n";
    if (buy.wanted)
        out += "  pattern's yarn: " + balls_text(*buy.wanted, *swap.wanted.ball_length()) +
               (buy.wanted_mass ? "; uses " + grams(*buy.wanted_mass) : "") + "\n";
    if (buy.own_gauge)
        out += "  at the candidate's own gauge, a fabric as close as the pattern's: " +
               yards_and_metres(*buy.own_gauge, Rounding::up) +
               (buy.candidate_own_gauge
                    ? ", " + counted(buy.candidate_own_gauge->count, "ball", "balls")
                    : "") +
               "\n";
    return out;
}

}  // namespace

std::string findings_text(const std::vector<yarn::Finding>& findings) {
    std::string out;
    for (const yarn::Level level : {yarn::Level::stop, yarn::Level::caution, yarn::Level::ok})
        for (const yarn::Finding& finding : findings)
            if (finding.level == level)
                out += fmt::format("  {}, {}: {}\n    [{}]\n", yarn::name_of(level), finding.topic,
                                   base::shown_inert(finding.says), finding.source);
    return out;
}

std::string substitute_text(const yarn::Swap& swap, const yarn::Substitution& answer) {
    std::string out = verdict_line(answer);
    if (answer.purchase) out += purchase_text(swap, *answer.purchase);
    out += "\nFindings\n";
    out += findings_text(answer.findings);
    const bool about_class =
        std::any_of(answer.findings.begin(), answer.findings.end(),
                    [](const yarn::Finding& finding) { return finding.topic == "class"; });
    if (about_class) out += "  " + std::string(yarn::class_credit) + "\n";
    out += "\nNext\n";
    for (const std::string& step : answer.next) out += "  " + step + "\n";
    return out;
}

}  // namespace skeinfall::report
