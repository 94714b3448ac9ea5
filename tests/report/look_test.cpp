// The palette by the published formula, and fills that a grey print keeps apart.

#include "skeinfall/report/detail/look.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include <gtest/gtest.h>

#include "skeinfall/report/detail/html.hpp"

namespace {

using namespace skeinfall::report;

// WCAG 2.1, "relative luminance": channels over 255, x / 12.92 up to .03928, else
// ((x + .055) / 1.055) to the 2.4; .2126 red + .7152 green + .0722 blue.
double luminance(std::string_view shade) {
    const auto channel = [&](std::size_t at) {
        const double x = std::stoi(std::string(shade.substr(at, 2)), nullptr, 16) / 255.0;
        return x <= 0.03928 ? x / 12.92 : std::pow((x + 0.055) / 1.055, 2.4);
    };
    return 0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5);
}

// WCAG 2.1, "contrast ratio".
double contrast(std::string_view a, std::string_view b) {
    const double one = luminance(a);
    const double other = luminance(b);
    return (std::max(one, other) + 0.05) / (std::min(one, other) + 0.05);
}

// Figures from the same publication: black on white is 21 to 1; #777777 on white just fails 4.5.
TEST(Contrast, TheFormulaIsThePublishedOne) {
    EXPECT_NEAR(contrast("#000000", "#ffffff"), 21.0, 1e-9);
    EXPECT_NEAR(contrast("#777777", "#ffffff"), 4.48, 0.005);
}

TEST(Look, LettersAreReadable) {
    for (const look::Scheme& scheme : {look::light, look::dark}) {
        for (const std::string_view ground : {scheme.paper, scheme.card})
            for (const std::string_view letters : {scheme.ink, scheme.soft_ink, scheme.act})
                EXPECT_GE(contrast(letters, ground), 4.5) << letters << " on " << ground;
        EXPECT_GE(contrast(scheme.sure_ink, scheme.sure), 4.5);
        EXPECT_GE(contrast(scheme.close_ink, scheme.close), 4.5);
        EXPECT_GE(contrast(scheme.want_ink, scheme.want), 4.5);
        EXPECT_GE(contrast(scheme.join_ink, scheme.join), 4.5);
        EXPECT_GE(contrast(scheme.rule, scheme.paper), 3.0) << "outlines that carry meaning";
    }
    EXPECT_GE(contrast(look::picture_ink, "#ffffff"), 7.0) << "the ground of pictures";
}

// Neighbours differ in lightness by a tenth of white at least; every second is hatched besides,
// and the outline between them has 3 to 1 against both.
TEST(Look, NeighboursDifferInGrey) {
    for (std::size_t i = 0; i < look::fills.size(); ++i) {
        const double one = luminance(look::fills.at(i));
        const double next = luminance(look::fills.at((i + 1) % look::fills.size()));
        EXPECT_GE(std::abs(one - next), 0.1) << i;
        EXPECT_GE(contrast(look::picture_ink, look::fills.at(i)), 4.5) << "letters on it";
    }
}

TEST(Look, VerdictsDifferInGreyFromTheirLetters) {
    for (const look::Scheme& scheme : {look::light, look::dark})
        for (const auto& [fill, ink] :
             {std::pair(scheme.sure, scheme.sure_ink), std::pair(scheme.close, scheme.close_ink),
              std::pair(scheme.want, scheme.want_ink)})
            EXPECT_GE(std::abs(luminance(fill) - luminance(ink)), 0.3);
}

// The pages have their shades from the header, and none besides but the white of a picture.
TEST(Look, PagesUseThePaletteOnly) {
    const std::string style = page_style();
    for (const std::string_view shade : {look::light.paper, look::dark.paper, look::light.want_ink})
        EXPECT_NE(style.find(shade), std::string::npos);
    const std::string sheet = template_text("page.css");
    for (std::size_t at = sheet.find('#'); at != std::string::npos; at = sheet.find('#', at + 1))
        EXPECT_EQ(sheet.substr(at, 4), "#fff");
}

}  // namespace
