// Counts too large for 64 bits are noticed.

#include "skeinfall/base/count.hpp"

#include <gtest/gtest.h>

namespace {

using namespace skeinfall;
constexpr std::int64_t most = std::numeric_limits<std::int64_t>::max();
constexpr std::int64_t least = std::numeric_limits<std::int64_t>::min();

TEST(Count, ProductsThatHaveNoRoomAreNone) {
    EXPECT_EQ(base::product(3'000'000'000, 3'000'000'000), 9'000'000'000'000'000'000);
    EXPECT_EQ(base::product(4'000'000'000, 4'000'000'000), std::nullopt);
    EXPECT_EQ(base::product(most, 1), most);
    EXPECT_EQ(base::product(least, -1), std::nullopt);
    EXPECT_EQ(base::product(most, 0), 0);
}

TEST(Count, SumsStayAboveEveryLimitOnceTheyPassedIt) {
    std::int64_t sum = 5;
    base::add_count(sum, 7);
    EXPECT_EQ(sum, 12);
    base::add_count(sum, std::nullopt);
    EXPECT_EQ(sum, most);
    base::add_count(sum, 1);
    EXPECT_EQ(sum, most);
}

}  // namespace
