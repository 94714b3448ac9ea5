#pragma once
/// \file
/// Figures in a line of a materials section. Inner header of materials.

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace skeinfall::materials {

/// "940 (1055, 1180) yd": one number a size, and the word after them.
struct Group {
    std::vector<double> numbers;
    std::string unit;        ///< "yd", "m", "in", "cm", "g", "oz", "sts", "skeins" ...
    std::size_t column = 0;  ///< of its first digit in the file, from 1
};

/// A line without its list mark, escapes and isolates.
struct Line {
    std::size_t number = 0;  ///< in the file, from 1
    bool heading = false;    ///< marked as one, or neither set in nor an item of a list
    std::string text;
    std::vector<std::size_t> columns;  ///< in the file, of every byte of `text`
    std::vector<Group> groups;

    /// The words before the first colon that no digit stands before; empty without one.
    [[nodiscard]] std::string head() const;
    [[nodiscard]] const Group* first(std::string_view unit) const;
    [[nodiscard]] bool has(std::string_view words) const {
        return text.find(words) != std::string::npos;
    }
};

/// The lines of a text or Markdown file that are not empty, headings included.
[[nodiscard]] std::vector<Line> lines_of(std::string_view text);

/// What printed figures may be off by only from being read and worked out.
inline constexpr double scan_noise = 1e-6;

}  // namespace skeinfall::materials
