#pragma once
/// \file
/// How everything drawn looks: the one palette and the one scale of letters. Pictures, pages and
/// PDFs take their shades and sizes from here.
///
/// Nothing is told by a colour alone: every shade that means something comes with a word, a
/// hatch or a sign, and the fills of neighbouring areas differ in lightness, so that a grey print
/// says the same. Letters keep a contrast of 4.5 to 1 against what they stand on, lines and
/// outlines that carry meaning 3 to 1 (WCAG 2.1, 1.4.3 and 1.4.11); the tests work both out from
/// these figures.
///
/// The shades are those of undyed and lightly dyed wool: a paper that is hardly warm, an ink that
/// is hardly blue, and one teal for what acts (links, ticks). A verdict has its own pair of fill
/// and letters.

#include <array>
#include <string_view>

namespace skeinfall::report::look {

/// Of a picture as wide as a page, in its own units (points).
inline constexpr double page_width = 800.0;
inline constexpr double page_margin = 36.0;

/// Shades of one scheme, "#rrggbb".
struct Scheme {
    std::string_view paper;     ///< of the page
    std::string_view card;      ///< of a table or note on the page
    std::string_view ink;       ///< letters
    std::string_view soft_ink;  ///< letters of less weight
    std::string_view rule;      ///< outlines that carry meaning
    std::string_view hair;      ///< lines that only please the eye
    std::string_view act;       ///< links and ticks
    std::string_view sure;      ///< "covered": fill ...
    std::string_view sure_ink;  ///< ... and letters on it
    std::string_view close;     ///< "too close to call"
    std::string_view close_ink;
    std::string_view want;  ///< "short"
    std::string_view want_ink;
    std::string_view join;  ///< a row after which yarn is joined
    std::string_view join_ink;
};

inline constexpr Scheme light{"#fdfcf9", "#f4f1ea", "#1f1f1f", "#55524b", "#77736a",
                              "#dcd7cb", "#0b5c63", "#d6ebdc", "#12422a", "#f6e6bd",
                              "#553c00", "#f6d9d2", "#6b1f12", "#e3e8f6", "#25305e"};
inline constexpr Scheme dark{"#1b1a18", "#26241f", "#eeebe3", "#bdb7a9", "#938d80",
                             "#3b3831", "#7fd0d6", "#1f4430", "#cdeed9", "#4d3c0f",
                             "#f7e6b4", "#57271e", "#fad9d1", "#2b345c", "#d8def7"};

/// Pictures are drawn on white with the light scheme's ink, for they are printed and pasted.
inline constexpr std::string_view picture_ink = light.ink;

/// Fills of areas that lie side by side, one after the other; every second one is hatched too.
/// Undyed wool, teal, straw and heather, as light as 97, 80, 91 and 69 % grey.
inline constexpr std::array<std::string_view, 4> fills{"#faf7ef", "#b4d4cd", "#f4e8cb", "#c6a9a8"};
inline constexpr double hatch_grey = 0.5;

/// Sizes of letters in points, each about a fifth larger than the one before. Pages use the same
/// steps as multiples of `body`.
namespace letters {
inline constexpr double fine = 7.0;  ///< what must be fitted in
inline constexpr double small = 9.0;
inline constexpr double body = 10.0;
inline constexpr double lead = 12.0;   ///< headings of parts
inline constexpr double title = 15.0;  ///< headings of pictures
inline constexpr double page = 20.0;   ///< headings of pages
}  // namespace letters

}  // namespace skeinfall::report::look
