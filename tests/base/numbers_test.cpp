#include "skeinfall/base/numbers.hpp"

#include <cstdint>

#include <gtest/gtest.h>

namespace {

using skeinfall::base::leading_number;
using skeinfall::base::number_first;
using skeinfall::base::number_of;

TEST(Numbers, AreTheWholeText) {
    EXPECT_EQ(number_of<std::int64_t>("9000000000"), 9000000000);
    EXPECT_EQ(number_of<double>("2.5"), 2.5);
    for (const char* const text : {"", " 1", "1 ", "1,5", "x", "1x"})
        EXPECT_FALSE(number_of<double>(text)) << text;
}

TEST(Numbers, ThatDoNotFitAreNone) {
    EXPECT_FALSE(number_of<std::int64_t>("9223372036854775808"));
    EXPECT_FALSE(number_of<int>("2147483648"));
    EXPECT_FALSE(number_of<double>("1e999"));
}

TEST(Numbers, LeaveWhatStandsBehindThem) {
    const auto found = number_first<int>("12-14 mm");
    ASSERT_TRUE(found);
    EXPECT_EQ(found->value, 12);
    EXPECT_EQ(found->rest, "-14 mm");
    EXPECT_FALSE(number_first<int>("mm"));
    EXPECT_EQ(leading_number<double>("3.5 oz"), 3.5);
    EXPECT_EQ(leading_number<int>("oz"), 0);
}

}  // namespace
