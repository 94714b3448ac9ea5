#include <cmath>
#include <string>

#include <gtest/gtest.h>

#include "skeinfall/units/parse.hpp"

namespace skeinfall {
namespace {

std::string with_zeros(std::size_t zeros) {
    return "0." + std::string(zeros, '0') + "1";
}

// 1e12 km over 1e-300 mg would be an infinite length per mass.
TEST(ParseRange, TinyNumberCannotMakeAQuotientInfinite) {
    const std::string text = "1000000000000 km / " + with_zeros(299) + " mg";
    const auto grist = units::parse_grist(text);
    ASSERT_FALSE(grist.ok());
    EXPECT_NE(grist.problem().what.find("out of range"), std::string::npos);
    EXPECT_EQ(grist.problem().place.column, 20U);
}

TEST(ParseRange, LimitsThemselvesAreRead) {
    EXPECT_TRUE(units::parse_length("0.000000001 m").ok());
    EXPECT_TRUE(units::parse_length("1000000000000 m").ok());
    EXPECT_FALSE(units::parse_length("0.0000000009 m").ok());
    EXPECT_FALSE(units::parse_length("1000000000001 m").ok());
}

TEST(ParseRange, ExtremeQuotientsStayFinite) {
    const auto grist = units::parse_grist("1000000000000 km / 0.000000001 mg");
    ASSERT_TRUE(grist.ok());
    EXPECT_TRUE(std::isfinite(grist->value()));
    const auto rate = units::parse_yarn_per_area("0.000000001 mm / 1000000000000 sq km");
    ASSERT_TRUE(rate.ok());
    EXPECT_GT(rate->value(), 0.0);
}

TEST(ParseRange, ProblemPointsAtTheFirstDigit) {
    const auto length = units::parse_length("  9999999999999 m");
    ASSERT_FALSE(length.ok());
    EXPECT_EQ(length.problem().place.column, 3U);
    EXPECT_EQ(length.problem().expected, "a number from 0.000000001 to 1000000000000");
}

}  // namespace
}  // namespace skeinfall
