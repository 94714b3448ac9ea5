#include "skeinfall/yarn/tare.hpp"

#include <cmath>

#include <gtest/gtest.h>

namespace {

using namespace skeinfall;

// 1 to 2 oz are to be allowed for a cone (weaving article, source S188); small ones of plastic were
// weighed as 12 g and 25 g (S291). Anywhere from 12 to 56.7 g: 34.35 g, half width 22.35 g.
TEST(UsualTare, OfACone) {
    const auto cone = yarn::usual_tare(" Cone ");
    ASSERT_TRUE(cone);
    EXPECT_NEAR(cone->centre / units::gram, 34.35, 1e-2);
    EXPECT_NEAR(cone->spread / units::gram, 22.35 / std::sqrt(3.0), 1e-2);
}

TEST(UsualTare, EveryNameHasOneAndOthersHaveNone) {
    for (const std::string& name : yarn::tare_names()) {
        const auto tare = yarn::usual_tare(name);
        ASSERT_TRUE(tare) << name;
        EXPECT_GT(tare->centre.value(), tare->spread.value()) << name;
        EXPECT_GT(tare->spread.value(), 0.0) << name;
    }
    EXPECT_FALSE(yarn::usual_tare("bucket"));
    EXPECT_FALSE(yarn::usual_tare(""));
}

}  // namespace
