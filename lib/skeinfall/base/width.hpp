#pragma once
/// \file
/// How much room text takes on a terminal.

#include <cstddef>
#include <string>
#include <string_view>

namespace skeinfall::base {

/// Columns that UTF-8 text takes: none for a combining mark, two for an East Asian wide letter
/// (Unicode Standard Annex 11, by libunistring).
[[nodiscard]] std::size_t display_width(std::string_view text);

/// `text` and blanks up to `width` columns; as it is when it is wider.
[[nodiscard]] std::string padded(std::string_view text, std::size_t width);

/// Lines that are wider than `columns` broken at a blank, what follows indented by `hanging`. A
/// word that is wider than a line stays whole. The text's own lines stay apart.
[[nodiscard]] std::string folded(std::string_view text, std::size_t columns, std::size_t hanging);

}  // namespace skeinfall::base
