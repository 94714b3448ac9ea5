#pragma once
/// \file
/// Words of a line put into another form, each byte keeping its place. Inner part of the notation.

#include <cstddef>
#include <regex>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/notation/detail/lines.hpp"

namespace skeinfall::notation {

inline void put_words(Line& line, std::size_t at, std::size_t size, std::string_view text) {
    const std::size_t from = at < line.from.size() ? line.from[at] : line.from.back();
    line.text.replace(at, size, text);
    const auto begin = line.from.begin() + static_cast<std::ptrdiff_t>(at);
    line.from.erase(begin, begin + static_cast<std::ptrdiff_t>(size));
    line.from.insert(line.from.begin() + static_cast<std::ptrdiff_t>(at), text.size(), from);
}

/// Puts `words` (with $1, $2 for groups) where `form` stands; each place once.
inline void put_everywhere(Line& line, const std::regex& form, const char* words) {
    std::size_t begin = 0;
    for (int turn = 0; turn < 200; ++turn) {
        std::smatch found;
        const std::string text = line.text;
        const auto from = text.begin() + static_cast<std::ptrdiff_t>(begin);
        if (!std::regex_search(from, text.end(), found, form,
                               begin > 0 ? std::regex_constants::match_prev_avail
                                         : std::regex_constants::match_default))
            return;
        const std::size_t at = begin + static_cast<std::size_t>(found.position(0));
        const std::string instead = found.format(words);
        put_words(line, at, static_cast<std::size_t>(found.length(0)), instead);
        begin = at + instead.size();
        if (begin >= line.text.size()) return;
    }
}

struct Spelling {
    std::string_view mark;  ///< what any of its forms holds, in small letters
    std::regex form;
    const char* words;
};

inline const auto any_case = std::regex::icase | std::regex::optimize;

/// Each form whose mark the line holds; `low` is the line in small letters.
inline void spell_as_told(Line& line, const std::string& low,
                          const std::vector<Spelling>& spellings) {
    for (const Spelling& one : spellings)
        if (low.find(one.mark) != std::string::npos) put_everywhere(line, one.form, one.words);
}

}  // namespace skeinfall::notation
