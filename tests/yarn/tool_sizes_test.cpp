// Hook and needle sizes: what charts print, and what must not be converted.

#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/yarn/tools.hpp"

namespace {

using namespace skeinfall;
using namespace skeinfall::yarn;
using testing::ElementsAre;
using testing::HasSubstr;

ToolAnswer found(std::string_view text) {
    const auto wish = parse_tool(text);
    EXPECT_TRUE(wish.has_value()) << text;
    const auto answer = find_tools(**wish);
    EXPECT_TRUE(answer.ok()) << text;
    return *answer;
}

std::vector<std::string> lines(std::string_view tool) {
    std::vector<std::string> out;
    for (const ToolSize& size : found(tool).sizes) out.push_back(text(size));
    return out;
}

// S04, course copy of the CYC hooks and needles table; 5.25 mm bears the letter I without a number.
TEST(ToolSizes, TheLetterIAloneIsTwoSizes) {
    EXPECT_THAT(lines("hook I"), ElementsAre("5.25 mm (US I)", "5.5 mm (US I-9, UK 5)"));
    EXPECT_THAT(found("hook I").notes, ElementsAre(HasSubstr("more than one size")));
    EXPECT_THAT(lines("hook I-9"), ElementsAre("5.5 mm (US I-9, UK 5)"));
    EXPECT_TRUE(found("hook I-9").notes.empty());
}

// S04 and S44; needles S52, S53, S54.
TEST(ToolSizes, Labels) {
    EXPECT_THAT(lines("hook H-8"), ElementsAre("5 mm (US H-8, UK 6)"));
    EXPECT_THAT(lines("US hook H/8"), ElementsAre("5 mm (US H-8, UK 6)"));
    EXPECT_THAT(lines("hook 9/I"), ElementsAre("5.5 mm (US I-9, UK 5)"));
    for (const auto* text :
         {"hook K-10 1/2", "hook K-10.5", "K 10\u00bd hook", "crochet hook 10 1/2"})
        EXPECT_THAT(lines(text), ElementsAre("6.5 mm (US K-10 1/2, UK 3)")) << text;
    EXPECT_THAT(lines("hook J-10"), ElementsAre("6 mm (US J-10, UK 4)"));
    EXPECT_THAT(lines("needle US 8"), ElementsAre("5 mm (US 8, UK 6)"));
    EXPECT_THAT(lines("UK knitting needle size 8"), ElementsAre("4 mm (US 6, UK 8)"));
    EXPECT_THAT(lines("US needle 1 1/2"), ElementsAre("2.5 mm (US 1 1/2)"));
    EXPECT_THAT(lines("needles 00000"), ElementsAre("1 mm (US 00000, UK 19)"));
}

TEST(ToolSizes, UsAndUkNumbersAreBothShown) {
    EXPECT_THAT(lines("needle 8"), ElementsAre("4 mm (US 6, UK 8)", "5 mm (US 8, UK 6)"));
    EXPECT_THAT(found("needle 8").notes, ElementsAre(HasSubstr("say \"US\" or \"UK\"")));
    EXPECT_THAT(found("hook 7").notes, ElementsAre(HasSubstr("steel hook")));
}

TEST(ToolSizes, Diameters) {
    EXPECT_THAT(lines("hook 5.5 mm"), ElementsAre("5.5 mm (US I-9, UK 5)"));
    EXPECT_THAT(lines("5.5mm hook"), ElementsAre("5.5 mm (US I-9, UK 5)"));
    EXPECT_THAT(lines("hook 0.55 cm"), ElementsAre("5.5 mm (US I-9, UK 5)"));
    const ToolAnswer between = found("hook 5.4 mm");
    EXPECT_TRUE(between.sizes.empty());
    ASSERT_EQ(between.nearest.size(), 2U);
    EXPECT_EQ(between.nearest[0].us, "I");
    EXPECT_EQ(between.nearest[1].us, "I-9");
    EXPECT_EQ(found("hook 40 mm").nearest.size(), 1U);
    EXPECT_EQ(found("needle 0.4 mm").nearest.size(), 1U);
}

// S44 numbers lace hooks on a second scale: its 6 is 1.0 mm; S48 to S50 give points of the first.
TEST(ToolSizes, SteelNumbersAloneAreRefused) {
    for (const auto* text : {"steel hook 6", "lace hook 00", "US steel hook 14", "steel hook zz"}) {
        const auto answer = find_tools(**parse_tool(text));
        ASSERT_FALSE(answer.ok()) << text;
        EXPECT_THAT(answer.problem().what, HasSubstr("not one scale")) << text;
        EXPECT_THAT(answer.problem().remedy, HasSubstr("millimetres")) << text;
    }
    const auto six = find_tools(**parse_tool("steel hook 6"));
    EXPECT_THAT(six.problem().what, HasSubstr("6 is 1.8 mm on one numbering (not checked)"));
    EXPECT_THAT(six.problem().what, HasSubstr("6 is 1 mm on the other numbering"));
    EXPECT_THAT(lines("steel hook 1.5 mm"),
                ElementsAre("1.5 mm (steel 8)", "1.5 mm (steel 2, other numbering)"));
}

TEST(ToolSizes, WhatIsNoTool) {
    EXPECT_FALSE(parse_tool("7 oz").has_value());
    EXPECT_FALSE(parse_tool("").has_value());
    ASSERT_TRUE(parse_tool("hook").has_value());
    EXPECT_FALSE(parse_tool("hook")->ok());
    const auto none = find_tools(**parse_tool("hook Z"));
    ASSERT_FALSE(none.ok());
    EXPECT_THAT(none.problem().expected, HasSubstr("H-8"));
    EXPECT_FALSE(find_tools(**parse_tool("hook ---")).ok());
}

// UK needle numbers follow the Standard Wire Gauge (S53; gauge table of S02) within 0.25 mm.
TEST(ToolSizes, UkNeedlesFollowTheWireGauge) {
    const std::vector<std::pair<std::string, double>> gauge{
        {"14", 2.032}, {"10", 3.2512}, {"8", 4.064}, {"1", 7.62}};
    for (const auto& [number, mm] : gauge) {
        const ToolAnswer answer = found("UK needle " + number);
        ASSERT_EQ(answer.sizes.size(), 1U) << number;
        EXPECT_NEAR(answer.sizes[0].diameter / units::millimetre, mm, 0.25) << number;
    }
}

TEST(ToolSizes, TablesRise) {
    for (const Tool tool : {Tool::hook, Tool::needle}) {
        const auto sizes = sizes_of(tool);
        ASSERT_GT(sizes.size(), 25U);
        for (std::size_t i = 1; i < sizes.size(); ++i)
            EXPECT_LT(sizes[i - 1].diameter.value(), sizes[i].diameter.value()) << i;
        for (const ToolSize& size : sizes) EXPECT_FALSE(size.source.empty());
    }
    // Steel numbers fall as the number rises, on either numbering.
    for (const bool second : {false, true}) {
        std::vector<ToolSize> scale;
        for (const ToolSize& size : sizes_of(Tool::steel_hook))
            if (size.second_scale == second) scale.push_back(size);
        ASSERT_GE(scale.size(), 4U);
        for (std::size_t i = 1; i < scale.size(); ++i)
            EXPECT_EQ(scale[i - 1].diameter < scale[i].diameter, second) << i;
    }
}

TEST(ToolSizes, EveryLabelFindsItsRow) {
    for (const Tool tool : {Tool::hook, Tool::needle})
        for (const ToolSize& size : sizes_of(tool)) {
            const auto has = [&](const std::string& asked) {
                const auto all = found(asked).sizes;
                return std::any_of(all.begin(), all.end(), [&](const ToolSize& other) {
                    return same_diameter(other.diameter, size.diameter);
                });
            };
            const std::string name(text(tool));
            EXPECT_TRUE(size.us.empty() || has("US " + name + " " + std::string(size.us)));
            EXPECT_TRUE(size.uk.empty() || has("UK " + name + " " + std::string(size.uk)));
        }
}

RC_GTEST_PROP(ToolSizesProperties, NoTextIsTooStrange, (const std::string& text)) {
    for (const std::string& asked : {"hook " + text, text + " needle", "steel hook " + text}) {
        const auto wish = parse_tool(asked);
        if (!wish || !*wish) continue;
        const auto answer = find_tools(**wish);
        if (answer.ok()) continue;
        RC_ASSERT(!base::first_invalid_utf8(to_text(answer.problem())));
        RC_ASSERT(!answer.problem().remedy.empty());
    }
}

// S04 and S52, as above.
TEST(ToolSizes, ReadsTheSizeOnALabel) {
    const auto mm = [](double number) { return number * 1e-3 * units::metre; };
    EXPECT_TRUE(same_diameter(*parse_tool_size(Tool::hook, "I-9"), mm(5.5)));
    EXPECT_TRUE(same_diameter(*parse_tool_size(Tool::hook, "5.5 mm"), mm(5.5)));
    EXPECT_TRUE(same_diameter(*parse_tool_size(Tool::needle, "US 8"), mm(5)));
    EXPECT_TRUE(same_diameter(*parse_tool_size(Tool::needle, "UK 8"), mm(4)));
    EXPECT_EQ(parse_tool_size(Tool::needle, "8").problem().expected,
              "one of 4 mm (US 6, UK 8), 5 mm (US 8, UK 6)");
    EXPECT_FALSE(parse_tool_size(Tool::hook, "Z-99").ok());
    EXPECT_FALSE(parse_tool_size(Tool::hook, "").ok());
}

}  // namespace
