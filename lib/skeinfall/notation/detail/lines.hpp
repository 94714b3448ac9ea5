#pragma once
/// \file
/// A pasted text as lines fit to be read: signs of phones, pages and PDF files made plain, broken
/// lines joined. Inner part of the notation.

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace skeinfall::notation {

/// One line and, of each of its bytes, the byte of the text it comes from.
struct Line {
    std::string text;
    std::vector<std::size_t> from;
    std::size_t number = 0;  ///< of the text, from 1
    bool numbered = false;   ///< "1. ...": a step of the work, by the lines around it
    bool blank_before = false;
    bool told = false;    ///< it only tells how the line before is done
    bool bullet = false;  ///< it began with a bullet: never the rest of the line above
};

/// The lines that are not empty. Quotes and dashes are made plain, bullets and page numbers taken
/// off, words cut by a hyphen at a line's end put together.
[[nodiscard]] std::vector<Line> lines_of(std::string_view text);

/// Appends a line with a blank between.
void append(Line& line, const Line& more);

}  // namespace skeinfall::notation
