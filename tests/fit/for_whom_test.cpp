// Sizes of somebody: what the tables say, worked by hand beside each case.

#include "skeinfall/fit/for_whom.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "skeinfall/exchange/project_toml.hpp"

namespace {

using namespace skeinfall;
using fit::size_for;
using units::centimetre;
using units::inch;

fit::SizeFor sized(const char* make, const char* who, const char* ease = nullptr) {
    std::optional<fit::Ease> own;
    if (ease != nullptr) own = fit::parse_ease(ease).value();
    auto out = size_for(make, who, own);
    EXPECT_TRUE(out.ok()) << make << ", " << who;
    return out.value();
}

// Typical head sizes (Knitting Fiend): 3 to 10 years 19 to 20.5 in, and caps 5 to 10 % smaller than
// the head: 19.75 less a tenth is 17.775, less a twentieth 18.7625.
TEST(ForWhom, AHatHasNegativeEase) {
    for (const char* who : {"child 6 to 8 years", "6-8 yrs", "child", "kids", "boy age 7"}) {
        const fit::SizeFor hat = sized("beanie", who);
        ASSERT_TRUE(hat.across && hat.body);
        EXPECT_NEAR(hat.body->least / inch, 19.0, 1e-9) << who;
        EXPECT_NEAR(hat.body->most / inch, 20.5, 1e-9) << who;
        EXPECT_NEAR(hat.across->least / inch, 17.775, 1e-9);
        EXPECT_NEAR(hat.across->most / inch, 18.7625, 1e-9);
        EXPECT_TRUE(hat.around);
        EXPECT_EQ(hat.recipient, project::Recipient::child) << who;
    }
}

// Head circumference for girls 0-3 years (Medical Algorithms): at six months 40.3 to 44.6 cm
// between the 5th and the 95th centile.
TEST(ForWhom, AnInfantByMonths) {
    const fit::SizeFor hat = sized("hat", "6 months");
    EXPECT_NEAR(hat.body->least / centimetre, 40.3, 1e-9);
    EXPECT_NEAR(hat.body->most / centimetre, 44.6, 1e-9);
    EXPECT_EQ(hat.recipient, project::Recipient::infant);
}

// Child sizes (Yarn Forward): chest 25 in at six years, 27 at eight; a New Zealand note has 26 and
// 28. A standard fit has 2 to 4 in of ease: 26.5 + 2 and + 4.
TEST(ForWhom, AChestWithTheTradesEase) {
    const fit::SizeFor jumper = sized("jumper", "child 6 to 8 years");
    EXPECT_NEAR(jumper.body->least / inch, 25.0, 1e-9);
    EXPECT_NEAR(jumper.body->most / inch, 28.0, 1e-9);
    EXPECT_NEAR(jumper.across->least / inch, 28.5, 1e-9);
    EXPECT_NEAR(jumper.across->most / inch, 30.5, 1e-9);
    const fit::SizeFor loose = sized("cardigan", "child 6 to 8 years", "loose");
    EXPECT_NEAR(loose.across->least / inch, 30.5, 1e-9);
    EXPECT_NEAR(loose.across->most / inch, 32.5, 1e-9);
    EXPECT_NEAR(sized("vest", "4 years", "-1 in").across->least / inch, 23.0, 1e-9);
    EXPECT_NEAR(sized("vest", "4 years", "10 %").across->least / inch, 26.4, 1e-9);
}

// "men's large" is no small man, and a woman's M no man's.
TEST(ForWhom, LettersAndPossessives) {
    for (const char* who : {"men's large", "man L", "Men\u2019s L", "men L"})
        EXPECT_NEAR(sized("sweater", who).body->least / inch, 42.0, 1e-9) << who;
    for (const char* who : {"woman M", "women's medium", "ladies M"})
        EXPECT_NEAR(sized("sweater", who).body->least / inch, 36.0, 1e-9) << who;
}

// EN 420: hand size 8 is 203 mm around, 182 mm long. Blanket and afghan sizes: a lap robe 36 x 48
// in; a bassinet 14 x 32 in.
TEST(ForWhom, HandsAndBlankets) {
    EXPECT_NEAR(sized("gloves", "glove size 8").across->least / centimetre, 20.3, 1e-9);
    const fit::SizeFor lap = sized("afghan", "lap");
    EXPECT_NEAR(lap.across->least / inch, 36.0, 1e-9);
    EXPECT_NEAR(lap.along->most / inch, 48.0, 1e-9);
    EXPECT_EQ(sized("blanket", "cradle").recipient, project::Recipient::infant);
    EXPECT_FALSE(lap.ease);
}

TEST(ForWhom, AScarfForAChildIsCautioned) {
    for (const char* who :
         {"toddler", "2 years", "child", "child 6 to 8 years", "8 years", "12 yr"})
        EXPECT_TRUE(sized("scarf", who).neck_of_child) << who;
    EXPECT_TRUE(sized("cowl", "child 6 to 8 years").neck_of_child);
    EXPECT_FALSE(sized("scarf", "woman").neck_of_child);
    EXPECT_FALSE(sized("scarf", "15 years").neck_of_child);
    EXPECT_FALSE(sized("hat", "toddler").neck_of_child);
}

// Hooded cowl (Balls to the Walls Knits): its neck for ages 4 to 6 has 68 stitches, for 7 to 12 it
// has 72, at 14 to 4 in: 19.4 and 20.6 in. Kids' cowl (same maker, 2014): 108 stitches for ages 7
// to 12 at 22 to 4 in, 19.6 in. Nothing says how high.
TEST(ForWhom, ACowlForAChild) {
    const fit::SizeFor cowl = sized("snood", "child 7 to 9 years");
    ASSERT_TRUE(cowl.across);
    EXPECT_NEAR(cowl.across->least / inch, 108.0 / 5.5, 0.05);
    EXPECT_NEAR(cowl.across->most / inch, 72.0 / 3.5, 0.05);
    EXPECT_FALSE(cowl.along);
    EXPECT_NEAR(sized("cowl", "5 years").across->least / inch, 68.0 / 3.5, 0.05);
}

TEST(ForWhom, WhatNoTableKnowsIsRefused) {
    EXPECT_FALSE(size_for("hat", "martian", std::nullopt).ok());
    EXPECT_FALSE(size_for("teapot", "woman", std::nullopt).ok());
    EXPECT_FALSE(size_for("hat", "", std::nullopt).ok());
    EXPECT_FALSE(size_for("hat", "8 to 6 years", std::nullopt).ok());
    for (const char* ease : {"", "tight-ish", "2", "2 lb", "--1 in"})
        EXPECT_FALSE(fit::parse_ease(ease).ok()) << ease;
    EXPECT_FALSE(size_for("vest", "4 years", fit::parse_ease("-30 in").value()).ok());
}

// Better refused than half read.
TEST(ForWhom, WordsThatChooseNothingAreRefused) {
    for (const char* who : {"man elephant", "woman size 12", "very big man", "child 6 to 8 inches",
                            "2 years 6 months", "man or woman", "child and adult", "toddler child",
                            "boy", "man 60 cm", "woman, tall"})
        EXPECT_FALSE(size_for("hat", who, std::nullopt).ok()) << who;
    for (const char* who : {"a child of 6 to 8 years", "my 4 year old boy", "child, aged 7",
                            "woman's hat", "child size 8", "grown man", "unisex adult"})
        EXPECT_TRUE(size_for("hat", who, std::nullopt).ok()) << who;
    const auto why = size_for("hat", "man elephant", std::nullopt);
    EXPECT_EQ(why.problem().what, "\"elephant\" is not understood in \"man elephant\"");
}

// Heads have one size for a man, chests five: what the letter does is said.
TEST(ForWhom, ALetterThatTheTableHasNot) {
    EXPECT_EQ(sized("hat", "man L").letters_unused, std::vector<std::string>{"L"});
    EXPECT_EQ(sized("hat", "men's large").letters_unused, std::vector<std::string>{"L"});
    EXPECT_TRUE(sized("sweater", "man L").letters_unused.empty());
    EXPECT_TRUE(sized("hat", "man").letters_unused.empty());
}

TEST(ForWhom, EverySizeThatTheTablesNameIsFound) {
    for (const char* make : {"hat", "mitten", "sock", "sweater", "blanket", "scarf", "cowl"})
        for (const char* who : {"toddler", "child"})
            EXPECT_TRUE(
                size_for(make,
                         std::string(who) + (std::string(make) == "sweater" ? " 4 years" : ""),
                         std::nullopt)
                    .ok())
                << make << ", " << who;
}

constexpr const char* graded = R"(title = "Plain hat"
sizes = ["S", "M", "L"]
[gauge]
stitches = "4 per in"
rows = "5 per in"
stitch = "sc"
[yarn.MC]
class = 4
grist = "170 yd / 3.5 oz"
[[piece]]
name = "hat"
worked = "round"
stitches = [64, 74, 84]
rows = 35
)";

// 16, 18.5 and 21 in around: 17.8 to 18.8 in are wanted, so M.
TEST(ForWhom, TheNearestSizeOfAProject) {
    const project::Project project = exchange::parse_project(graded, "hat.toml");
    EXPECT_EQ(fit::make_of(project), "hat");
    const fit::SizeMatch match = fit::nearest_size(project, 0, sized("hat", "child"));
    EXPECT_EQ(match.size, 1U);
    EXPECT_TRUE(match.within);
    const fit::SizeMatch small = fit::nearest_size(project, 0, sized("hat", "preemie"));
    EXPECT_EQ(small.size, 0U);
    EXPECT_FALSE(small.within);
    EXPECT_GT(small.off.value(), 0.2);
}

// The wish is what the tables want, whole: around a tube, half of it for a flat half.
TEST(ForWhom, TheWishOfAPiece) {
    project::Project project = exchange::parse_project(graded, "hat.toml");
    const fit::SizeFor hat = sized("hat", "child");
    EXPECT_NEAR(*fit::wish_for(project, 0, hat).width / inch, (17.775 + 18.7625) / 2.0, 1e-9);
    project.pieces[0].worked = project::Worked::flat;
    const fit::SizeFor vest = sized("vest", "4 years");
    EXPECT_NEAR(*fit::wish_for(project, 0, vest).width / inch, (24.0 + 3.0) / 2.0, 1e-9);
}

// A band worked flat from end to end, 4 in wide and 18 in long, goes round the head by its length;
// a mitten is longer than it goes round, and is no strip.
TEST(ForWhom, AStripGoesRoundByItsLength) {
    project::Project project = exchange::parse_project(graded, "hat.toml");
    project.sizes.clear();
    project.pieces[0].worked = project::Worked::flat;
    project.pieces[0].stitches = project::PerSize<std::int64_t>(16);
    project.pieces[0].rows = project::PerSize<std::int64_t>(90);
    const fit::SizeFor band = sized("headband", "child");
    EXPECT_TRUE(fit::goes_round_by_length(project, 0, 0, band));
    const fit::Wish wish = fit::wish_for(project, 0, band);
    EXPECT_FALSE(wish.width);
    EXPECT_NEAR(*wish.length / inch, (17.775 + 18.7625) / 2.0, 1e-9);
    const fit::Wish cowl = fit::wish_for(project, 0, sized("cowl", "woman"));
    EXPECT_GT(*cowl.length, *cowl.width);
    EXPECT_FALSE(fit::goes_round_by_length(project, 0, 0, sized("mitten", "child")));
    project.pieces[0].stitches = project::PerSize<std::int64_t>(80);
    EXPECT_FALSE(fit::goes_round_by_length(project, 0, 0, band));
    project.pieces[0].worked = project::Worked::round;
    project.pieces[0].stitches = project::PerSize<std::int64_t>(16);
    EXPECT_FALSE(fit::goes_round_by_length(project, 0, 0, band));
}

TEST(ForWhom, ASleeveIsNotAsWideAsAChest) {
    project::Project project;
    project.pieces.resize(1);
    project.pieces[0].name = "left sleeve";
    EXPECT_FALSE(fit::is_part_beside(project, 0)) << "alone it is the make";
    project.pieces.push_back(project.pieces[0]);
    project.pieces[0].name = "back";
    EXPECT_FALSE(fit::is_part_beside(project, 0));
    EXPECT_TRUE(fit::is_part_beside(project, 1));
}

RC_GTEST_PROP(ForWhom, MoreEaseIsNeverSmaller, ()) {
    const int least = *rc::gen::inRange(-4, 10);
    const int more = *rc::gen::inRange(0, 6);
    const auto with = [](int inches) {
        const std::string text = std::to_string(inches) + " in";
        return size_for("sweater", "woman M",
                        inches == 0 ? fit::Ease{} : fit::parse_ease(text).value())
            .value();
    };
    RC_ASSERT(with(least + more).across->least >= with(least).across->least);
}

}  // namespace
