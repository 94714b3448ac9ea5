#include "skeinfall/yarn/grist_match.hpp"

#include <cmath>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/data/substitution_rules.hpp"
#include "skeinfall/units/format.hpp"
#include "skeinfall/yarn/detail/cells.hpp"

namespace skeinfall::yarn {
namespace {

using units::Ratio;
using units::Rounding;
using units::Step;

/// "published rules: 10 % no, 15 % no, 20 % yes".
std::string published_rules(Ratio share) {
    std::vector<std::string> said;
    for (const auto& row : data::substitution_rules) {
        const auto limit = base::leading_number<double>(row.limit_pct);
        const bool passes = share.value() <= limit / 100.0 + limit_noise.value();
        said.push_back(std::string(row.limit_pct) + " % " + (passes ? "yes" : "no"));
    }
    return "published rules of yardage: " + base::join(said, ", ");
}

/// "10 %: S179 machine-knitting page (same count system and similar fibre only)".
std::string rule_sources() {
    std::vector<std::string> said;
    said.reserve(std::size(data::substitution_rules));
    for (const auto& row : data::substitution_rules)
        said.push_back(std::string(row.limit_pct) + " %: " + std::string(row.source) + " (" +
                       std::string(row.scope) + ")");
    return "limits of 10 and 22 % ours; " + base::join(said, "; ");
}

}  // namespace

Ratio grist_difference(units::Grist a, units::Grist b) {
    return Ratio(std::abs(std::log(Ratio(a / b).value())));
}

Finding compare_grist(units::Grist wanted, units::Grist candidate) {
    const Ratio difference = grist_difference(candidate, wanted);
    const Ratio share(std::abs(Ratio(candidate / wanted).value() - 1.0));
    Finding finding{Level::ok, "grist", {}, rule_sources()};
    finding.says = metres_per_100g(candidate) + " against " + metres_per_100g(wanted) + ", ";
    if (difference.value() < 0.005)
        finding.says += "the same: ";
    else
        finding.says += units::percent_text(share, Step::tenth, Rounding::nearest) +
                        (candidate > wanted ? " more length to the weight (a thinner yarn), "
                                            : " less length to the weight (a thicker yarn), ") +
                        "apart by " +
                        units::percent_text(difference, Step::tenth, Rounding::nearest) +
                        " taken evenly both ways: ";
    if (difference.value() <= close_grist.value() + limit_noise.value()) {
        finding.says += "close enough to work up alike";
    } else if (difference.value() <= swatch_grist.value() + limit_noise.value()) {
        finding.level = Level::caution;
        finding.says += "between 10 and 22 %, so a swatch decides";
    } else {
        finding.level = Level::stop;
        finding.says += "more than 22 %, so it makes a different fabric";
    }
    finding.says += "; " + published_rules(share) + ".";
    return finding;
}

}  // namespace skeinfall::yarn
