#pragma once
/// \file
/// What the tests of yarn look up in findings.

#include <vector>

#include <gtest/gtest.h>

#include "skeinfall/yarn/finding.hpp"

namespace skeinfall::yarn_tests {

inline const yarn::Finding* about(const std::vector<yarn::Finding>& findings, const char* topic) {
    for (const auto& finding : findings)
        if (finding.topic == topic) return &finding;
    return nullptr;
}

inline yarn::Level level(const std::vector<yarn::Finding>& findings, const char* topic) {
    const auto* found = about(findings, topic);
    EXPECT_NE(found, nullptr) << topic;
    return found == nullptr ? yarn::Level::ok : found->level;
}

inline units::Grist m_per_100g(double metres) {
    return metres * units::metre / (100.0 * units::gram);
}

}  // namespace skeinfall::yarn_tests
