#pragma once
/// \file
/// Looks at what an answer says by its words.

#include <gmock/gmock.h>

#include "skeinfall/report/says.hpp"

namespace skeinfall::support {

MATCHER_P(Says, matcher, "says what " + testing::DescribeMatcher<std::string>(matcher, negation)) {
    return testing::ExplainMatchResult(matcher, report::said(arg), result_listener);
}

}  // namespace skeinfall::support
