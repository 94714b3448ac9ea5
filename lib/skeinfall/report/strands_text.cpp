#include <cstdint>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/words.hpp"
#include "skeinfall/report/yarns.hpp"
#include "skeinfall/report/yarns_words.hpp"

namespace skeinfall::report {
namespace {

using units::Rounding;
using units::Step;

std::string grist_in_both(units::Grist grist) {
    return units::text(grist, units::shown::metres_per_100g, Step::one, Rounding::nearest) + ", " +
           units::text(grist, units::shown::yards_per_pound, Step::one, Rounding::nearest);
}

/// The first ball to end, where they do not all end together.
std::string run_out_text(const yarn::RunOut& out) {
    std::vector<std::string> left;
    for (std::size_t i = 0; i < out.left.size(); ++i)
        if (out.left[i].value() > 0.0)
            left.push_back(fmt::format("{} of strand {}",
                                       yards_and_metres(out.left[i], Rounding::down), i + 1));
    if (left.empty()) return {};
    return fmt::format("  a ball of each: strand {} ends first, after {}; over: {}\n",
                       out.strand + 1, yards_and_metres(out.worked, Rounding::down),
                       base::join(left, ", "));
}

}  // namespace

std::vector<std::string> strands_next() {
    return {"Swatch with all strands: class and gauge are only a starting point.",
            "Each strand takes the whole length: plan each as a yarn of its own."};
}

std::string strands_text(const yarn::Holding& holding, const yarn::Held& held) {
    const yarn::Together& together = held.together;
    std::string out =
        fmt::format("{} together: {}\n",
                    counted(static_cast<std::int64_t>(holding.strands.size()), "strand", "strands"),
                    grist_in_both(together.grist));
    out += findings_text(held.findings);
    if (holding.strands.size() > 1)
        out += fmt::format(
            "  {} times as thick as the first strand: start a swatch with {} to {} of its stitches "
            "over the same width\n",
            units::number_text(together.diameter, Step::hundredth, Rounding::nearest),
            units::percent_text(together.gauge_least, Step::one, Rounding::nearest),
            units::percent_text(together.gauge_most, Step::one, Rounding::nearest));
    if (together.content.known()) out += "  " + yarn::text(together.content) + "\n";
    if (held.run_out) out += run_out_text(*held.run_out);
    out += "\n" + classes_text(held.ranking) + "\nNext\n";
    for (const std::string& step : strands_next()) out += "  " + step + "\n";
    return out;
}

std::string plies_text(const std::vector<yarn::PliedStock>& bundles) {
    std::vector<std::vector<std::string>> rows{
        {"bundle", "plies", "length", "weight", "length per weight"}};
    for (const yarn::PliedStock& bundle : bundles)
        rows.push_back(
            {std::to_string(rows.size()), std::to_string(bundle.plies),
             yards_and_metres(bundle.length, Rounding::down),
             units::text(bundle.mass, units::shown::grams, Step::tenth, Rounding::nearest),
             grist_in_both(bundle.length / bundle.mass)});
    return counted(static_cast<std::int64_t>(bundles.size()), "bundle", "bundles") +
           ", each as long as the yarn was\n" + table(rows, {true, true, true, true, false}, 2) +
           "  What the twist gives back is not counted.\n";
}

}  // namespace skeinfall::report
