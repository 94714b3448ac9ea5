#pragma once
/// \file
/// What a line of a pasted pattern is, by its words. Inner part of the notation.

#include <cstddef>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "skeinfall/notation/detail/lines.hpp"
#include "skeinfall/notation/document.hpp"

namespace skeinfall::notation {

using What = DocumentPart::What;
using Names = std::initializer_list<std::string_view>;

[[nodiscard]] bool letter(char c);
[[nodiscard]] bool digit(char c);
/// Words in small letters, digits with them; signs are words of their own.
[[nodiscard]] std::vector<std::string> words_of(std::string_view text);
[[nodiscard]] bool one_of(std::string_view word, Names names);
[[nodiscard]] bool number(const std::string& word);
/// "Needle 2: k to end", "N3: ...", "Third needle: ...": which needle; 0 for other lines.
[[nodiscard]] int needle_named(const std::vector<std::string>& words);
/// What a heading opens, by its words.
[[nodiscard]] std::optional<What> zone_of(const std::vector<std::string>& words);
[[nodiscard]] std::size_t row_words(const std::vector<std::string>& words);
/// "1.", "6)": only where rows are.
[[nodiscard]] bool bare_number(const std::vector<std::string>& words);
[[nodiscard]] bool has_number(const std::vector<std::string>& words);
/// "Rows 1-4 form the pattern.": a sentence about rows.
[[nodiscard]] bool row_is_prose(const std::vector<std::string>& words);
/// Whether a line is a label and nothing more: "Round 1."
[[nodiscard]] bool only_label(const Line& line);
[[nodiscard]] bool counts_note(const std::string& text);
/// Where the sign stands and how long it is; 0 where there is none.
[[nodiscard]] std::pair<std::size_t, std::size_t> definition_sign(const std::string& text);
/// "V-stitch (2 dc in next st)": where its bracket begins; 0 for others.
[[nodiscard]] std::size_t bracket_definition(const std::string& text);
/// "shell = 5 dc in next st", "Cluster (cl): ...", "hdc - half double crochet"
[[nodiscard]] bool definition_line(const std::string& text);

}  // namespace skeinfall::notation
