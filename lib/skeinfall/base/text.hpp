#pragma once
/// \file
/// Small helpers on text that know nothing of yarn.

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace skeinfall::base {

/// Without leading and trailing blanks (space, tab, CR, LF).
[[nodiscard]] std::string_view trimmed(std::string_view text);

/// ASCII letters in lower case; other bytes as they are.
[[nodiscard]] std::string lower(std::string_view text);

/// True when both are alike but for the case of ASCII letters. Allocates nothing.
[[nodiscard]] bool same_word(std::string_view a, std::string_view b);

/// The pieces between separators, blanks trimmed; "" gives one empty piece.
[[nodiscard]] std::vector<std::string> split(std::string_view text, char separator);

/// The pieces with `separator` between them.
[[nodiscard]] std::string join(const std::vector<std::string>& pieces, std::string_view separator);

/// Whether a comes before b where runs of digits count as numbers: "s9" before "s10".
[[nodiscard]] bool naturally_before(std::string_view a, std::string_view b);

/// Byte offset of the first byte that is not UTF-8, or nothing when all of it is.
[[nodiscard]] std::optional<std::size_t> first_invalid_utf8(std::string_view text);

/// Text fit for a terminal: control characters (escape sequences among them) are shown as
/// "\x1b" and the like, so that a name in a file can never steer the terminal.
[[nodiscard]] std::string shown_inert(std::string_view text);

/// Text as a message quotes it: in quotes, inert, and no more than its first 80 bytes.
[[nodiscard]] std::string quoted(std::string_view text);

/// The name in `known` that is nearest to `word` (at most two slips of the keyboard, one for
/// short words, none for a single letter), or nothing. Ties go to the earlier name.
[[nodiscard]] std::optional<std::string> nearest_name(std::string_view word,
                                                      const std::vector<std::string>& known);

/// The remedy for a word that is not known: asks whether `near` was meant; `otherwise` where
/// nothing is near.
[[nodiscard]] std::string did_you_mean(const std::optional<std::string>& near,
                                       std::string_view otherwise = {});

}  // namespace skeinfall::base
