
#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/materials.hpp"
#include "skeinfall/report/words.hpp"

namespace skeinfall::report {
namespace {

using units::Rounding;
using units::Step;

std::string percent(units::Ratio share, Rounding rounding) {
    return units::number_text(100.0 * share, Step::tenth, rounding) + " %";
}

}  // namespace

std::string testers_text(const project::Project& project, const materials::Section& section) {
    std::string out = base::shown_inert(project.title) + ": testers' returns\n";
    bool any = false;
    for (const materials::YarnLine& yarn : section.yarns) {
        const need::TesterSummary& testers = yarn.testers;
        if (testers.taken.empty() && testers.left_out.empty() && testers.far_off.empty()) continue;
        any = true;
        out += "\n" + role_heading(*project.role(yarn.role)) + "\n";
        std::vector<std::vector<std::string>> rows{{"tester", "size", "used", "of the plan", ""}};
        const auto row = [&](std::size_t index, const std::string& used, const std::string& share,
                             const std::string& note) {
            const project::TesterReturn& one = project.testers[index];
            rows.push_back(
                {one.tester.empty() ? std::to_string(index + 1) : base::shown_inert(one.tester),
                 project.sizes.empty() ? "" : base::shown_inert(project.sizes[one.size]), used,
                 share, note});
        };
        for (const need::Taken& taken : testers.taken)
            row(taken.index, yards_and_metres(taken.used, Rounding::nearest),
                percent(taken.of_model, Rounding::nearest),
                taken.gauge_corrected ? "at the pattern's gauge" : "");
        for (const std::size_t index : testers.left_out)
            row(index, "", "", "left out: its gauge is too far off");
        for (const need::Taken& taken : testers.far_off)
            row(taken.index, yards_and_metres(taken.used, Rounding::nearest),
                percent(taken.of_model, Rounding::nearest),
                "left out: far off the others; ask, then write confirmed = true");
        out += table(rows, {false, false, true, true, false}, 2);
        if (!testers.taken.empty())
            out += fmt::format("  middle {}, {} of makers stay within {}\n",
                               percent(testers.middle, Rounding::nearest),
                               units::percent_text(testers.share.value, Step::one, Rounding::down),
                               percent(testers.bound, Rounding::up));
    }
    if (!any) out += "\nThere are no testers' returns: the project file has no [[tester]].\n";
    return out;
}

}  // namespace skeinfall::report
