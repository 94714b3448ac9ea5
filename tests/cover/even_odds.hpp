#pragma once

#include "skeinfall/cover/cover.hpp"

namespace skeinfall::cover_tests {

/// By the expected lengths alone: covered from 50 % on.
inline cover::Rules even_odds() {
    cover::Rules rules;
    rules.confidence = {units::Ratio(0.5)};
    return rules;
}

}  // namespace skeinfall::cover_tests
