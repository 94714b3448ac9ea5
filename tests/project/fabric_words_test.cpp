// The words of fabrics are common practice, no source.
#include "skeinfall/project/fabric_words.hpp"

#include <gtest/gtest.h>

namespace skeinfall {
namespace {

using project::Craft;

TEST(FabricWords, SettleTheCraftWhereOnlyOneHasThem) {
    for (const char* knitted : {"stockinette", "st st", "jersey", "k2 p2 rib", "k2p2 rib", "2x2 rib",
                                "garter stitch", "fisherman's rib", "Fair Isle", "knit cable"})
        EXPECT_EQ(project::craft_of_fabric(knitted), Craft::knit) << knitted;
    for (const char* crocheted : {"granny squares", "tapestry", "front post dc", "sc blo", "filet"})
        EXPECT_EQ(project::craft_of_fabric(crocheted), Craft::crochet) << crocheted;
    for (const char* both : {"rib", "ribbing", "moss", "cables", "waffle", "basketweave"}) {
        EXPECT_FALSE(project::craft_of_fabric(both)) << both;
        EXPECT_TRUE(project::fabric_of_both_crafts(both)) << both;
    }
    EXPECT_FALSE(project::fabric_of_both_crafts("foo"));
}

TEST(FabricWords, AreWholeWords) {
    EXPECT_FALSE(project::fabric_word(Craft::crochet, "ribbon"));
    EXPECT_FALSE(project::fabric_word(Craft::crochet, "block stitch"));
    EXPECT_FALSE(project::fabric_word(Craft::crochet, "seastar"));
    EXPECT_EQ(project::fabric_word(Craft::crochet, "ribbed")->group, "ribbed-crochet");
    EXPECT_EQ(project::fabric_word(Craft::knit, "12x2"), std::nullopt);
}

TEST(FabricWords, InANameThatTakeMore) {
    const auto more = [](Craft craft, const char* name) {
        for (const project::FabricWord& one : project::fabrics_in_name(craft, name))
            if (one.takes_more) return true;
        return false;
    };
    EXPECT_TRUE(more(Craft::crochet, "Popcorn scarf"));
    EXPECT_TRUE(more(Craft::crochet, "bobbled cushion"));
    EXPECT_TRUE(more(Craft::knit, "stranded hat"));
    EXPECT_TRUE(more(Craft::knit, "cabled hat"));
    EXPECT_FALSE(more(Craft::crochet, "lace shawl"));
    EXPECT_FALSE(more(Craft::knit, "ribbed hat"));
    // A colour, a place, a thing.
    EXPECT_FALSE(more(Craft::crochet, "moss scarf"));
    EXPECT_FALSE(more(Craft::crochet, "basket"));
}

}  // namespace
}  // namespace skeinfall
