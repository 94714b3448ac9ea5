#pragma once
/// \file
/// One observation of a check, as data. A finding never stops the reading: what cannot be read at
/// all is a base::Problem.

#include <string>
#include <vector>

#include "skeinfall/base/problem.hpp"

namespace skeinfall::project {

/// How much it matters: settled and only said, worth a look, contradicts what is written.
enum class Severity { ok, caution, stop };

/// `what` is a phrase without a full stop that holds the reason; `remedy` is a sentence, may be
/// empty. `place` is where it stands in the file.
struct Finding {
    Severity severity = Severity::ok;
    base::Place place;
    std::string what;
    std::string remedy;

    bool operator==(const Finding&) const = default;
};

using Findings = std::vector<Finding>;

}  // namespace skeinfall::project
