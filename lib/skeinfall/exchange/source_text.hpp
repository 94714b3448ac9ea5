#pragma once
/// \file
/// The text of a file with its places: byte offsets to lines and columns, and back.

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/base/problem.hpp"

namespace skeinfall::exchange {

/// A text that was read from `file` (used in places only). A UTF-8 byte order mark is left out;
/// offsets and columns count from behind it. Only a view: the text must outlive it.
class SourceText {
  public:
    SourceText(std::string_view text, std::string file);

    [[nodiscard]] std::string_view text() const noexcept { return text_; }
    [[nodiscard]] const std::string& file() const noexcept { return file_; }

    /// Line and column (from 1, the column in bytes) of a byte. An offset past the end gives
    /// the place behind the last byte.
    [[nodiscard]] base::Place place(std::size_t offset) const;

    /// The place of byte `at` of `value`, which was read from a cell or string that starts at
    /// `offset` with or without a quote. Where `value` does not stand in the file byte for byte
    /// (escapes, doubled quotes), the start of it.
    [[nodiscard]] base::Place place_inside(std::size_t offset, std::string_view value,
                                           std::size_t at) const;

    /// Offset of a line and a column that counts characters (code points), both from 1.
    /// Precondition: the text is UTF-8.
    [[nodiscard]] std::size_t offset(std::size_t line, std::size_t character) const;

    /// The first byte that is not UTF-8, as a problem.
    [[nodiscard]] std::optional<base::Problem> encoding_problem() const;
    /// The whole line that the offset lies in.
    [[nodiscard]] std::string_view line_at(std::size_t offset) const;

  private:
    std::string_view text_;
    std::string file_;
    std::vector<std::size_t> line_starts_;
    std::vector<std::size_t> characters_before_;  // each `stride` bytes
};

/// What keeps `text` from being a name or a remark: too long, or control characters in it
/// (`breaks`: line breaks and tabs are allowed). Nothing when it is fine.
[[nodiscard]] std::optional<std::string> text_fault(std::string_view text, std::size_t most_bytes,
                                                    bool breaks);

/// The text between quotes, inert on a terminal and shortened to be shown in a message.
[[nodiscard]] std::string in_quotes(std::string_view text);

}  // namespace skeinfall::exchange
