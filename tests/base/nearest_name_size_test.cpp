#include <string>

#include <gtest/gtest.h>

#include "skeinfall/base/text.hpp"

namespace skeinfall {
namespace {

// The table of slips for such a word would take gigabytes if it were filled in.
TEST(NearestName, MonstrousWordIsNearNothing) {
    EXPECT_FALSE(base::nearest_name(std::string(64U << 20U, 'x'), {"stitches", "rows"}));
}

TEST(NearestName, TwoSlipsAreFoundAndThreeAreNot) {
    EXPECT_EQ(base::nearest_name("stiches", {"rows", "stitches"}), "stitches");
    EXPECT_EQ(base::nearest_name("stitchesxx", {"rows", "stitches"}), "stitches");
    EXPECT_FALSE(base::nearest_name("stitchesxxx", {"rows", "stitches"}));
    EXPECT_EQ(base::nearest_name("itches", {"rows", "stitches"}), "stitches");
    EXPECT_FALSE(base::nearest_name("tches", {"rows", "stitches"}));
}

}  // namespace
}  // namespace skeinfall
