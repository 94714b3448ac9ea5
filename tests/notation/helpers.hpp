#pragma once

#include <cmath>
#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "skeinfall/notation/notation.hpp"

namespace skeinfall::notation {

using project::Craft;
using project::Finding;
using project::KindCount;
using project::OwnStitch;
using project::relative_yarn;
using project::RowWork;
using project::Severity;
using project::Stripe;
using project::Terms;
using project::WorkedRows;

inline NotationOptions crochet(Terms terms = Terms::us, bool round = false) {
    NotationOptions options;
    options.terms = terms;
    options.round = round;
    return options;
}

inline NotationOptions knitting() {
    NotationOptions options;
    options.craft = Craft::knit;
    return options;
}

using Kinds = std::map<std::string, std::int64_t>;

inline Kinds kinds_of(const std::vector<KindCount>& kinds) {
    Kinds out;
    for (const KindCount& kind : kinds) out[kind.kind] = std::llround(kind.count / units::stitch);
    return out;
}

inline std::int64_t whole(units::StitchCount count) {
    return std::llround(count / units::stitch);
}

/// "stop 3:8 what", one a finding; those that are ok are left out.
inline std::vector<std::string> complaints(const NotationResult& result) {
    std::vector<std::string> out;
    for (const Finding& finding : result.rows.findings) {
        if (finding.severity == Severity::ok) continue;
        out.push_back((finding.severity == Severity::stop ? "stop " : "caution ") +
                      std::to_string(finding.place.line) + ":" +
                      std::to_string(finding.place.column) + " " + finding.what);
    }
    return out;
}

/// "3:8 what", one a problem.
inline std::vector<std::string> problems(const NotationResult& result) {
    std::vector<std::string> out;
    for (const base::Problem& problem : result.problems)
        out.push_back(std::to_string(problem.place.line) + ":" +
                      std::to_string(problem.place.column) + " " + problem.what);
    return out;
}

}  // namespace skeinfall::notation
