#include "skeinfall/notation/detail/line_marks.hpp"

#include <algorithm>
#include <cctype>
#include <cstdint>
#include <string_view>
#include <utility>
#include <vector>

namespace skeinfall::notation {
namespace {

bool is_digit(char c) {
    return std::isdigit(static_cast<unsigned char>(c)) != 0;
}

/// Bytes of a picture that stands at `at`: of U+1F000 and above, or what only joins such.
std::size_t picture(std::string_view text, std::size_t at) {
    if (text.substr(at, 2) == "\xf0\x9f") return std::min<std::size_t>(4, text.size() - at);
    if (text.substr(at, 3) == "\xef\xb8\x8f" || text.substr(at, 3) == "\xe2\x80\x8d") return 3;
    return 0;
}

/// The same, and signs of U+2600 to U+27BF, which elsewhere may mark a repeat.
std::size_t leading_picture(std::string_view text) {
    if (text.size() > 3 && text[0] == '\xe2' && text[1] >= '\x98' && text[1] <= '\x9e') return 3;
    return text.empty() ? 0 : picture(text, 0);
}

struct Cell {
    std::size_t from = 0;
    std::size_t to = 0;
};

/// The cells between the bars, without the blanks around them.
std::vector<Cell> cells_of(const std::string& text) {
    std::vector<Cell> out;
    for (std::size_t at = 1; at < text.size();) {
        const std::size_t bar = std::min(text.find('|', at), text.size());
        Cell cell{at, bar};
        while (cell.from < cell.to && text[cell.from] == ' ') ++cell.from;
        while (cell.to > cell.from && text[cell.to - 1] == ' ') --cell.to;
        if (cell.to > cell.from) out.push_back(cell);
        at = bar + 1;
    }
    return out;
}

}  // namespace

void take_off_pictures(Line& line) {
    std::string text;
    std::vector<std::size_t> from;
    const auto blanks = line.text.find_first_not_of(' ');
    std::size_t at = 0;
    if (blanks != std::string::npos) {
        std::size_t first = blanks;
        while (const std::size_t bytes = leading_picture(std::string_view(line.text).substr(first)))
            first += bytes;
        // "♥ Row 1" where the sign comes again marks a repeat.
        const bool again =
            first > blanks &&
            line.text.find(line.text.substr(blanks, first - blanks), first) != std::string::npos;
        if (first < line.text.size() && line.text[first] == ' ' && !again) at = first;
    }
    while (at < line.text.size()) {
        if (const std::size_t bytes = picture(line.text, at)) {
            at += bytes;
            continue;
        }
        text += line.text[at];
        from.push_back(line.from[at++]);
    }
    line.text = std::move(text);
    line.from = std::move(from);
}

namespace {

void erase(Line& line, std::size_t from, std::size_t count) {
    line.text.erase(from, count);
    line.from.erase(line.from.begin() + static_cast<std::ptrdiff_t>(from),
                    line.from.begin() + static_cast<std::ptrdiff_t>(from + count));
}

bool letter_at(const std::string& text, std::size_t at) {
    return at < text.size() && std::isalpha(static_cast<unsigned char>(text[at])) != 0;
}

}  // namespace

void take_off_emphasis(Line& line) {
    const auto hashes = line.text.find_first_not_of('#');
    if (hashes != std::string::npos && hashes > 2 && line.text[hashes] == ' ')
        erase(line, 0, hashes + 1);
    for (const std::string_view mark : {"**", "__"}) {
        const std::size_t open = line.text.starts_with("- ") ? 2 : 0;
        if (line.text.compare(open, mark.size(), mark) != 0) continue;
        const std::size_t close = line.text.find(mark, open + 2);
        if (close == std::string::npos || close < open + 4 || close > open + 60 ||
            !letter_at(line.text, open + 2) || line.text[close - 1] == ' ' ||
            line.text.find(mark, close + 2) != std::string::npos)
            continue;
        // "**sc in next st, ch 1**" marks a repeat.
        const bool alone = close + 2 == line.text.size();
        const bool heading = line.text[close - 1] == ':' ||
                             (close + 2 < line.text.size() && line.text[close + 2] == ':');
        const bool listed = line.text.substr(open, close - open).find(',') != std::string::npos;
        if (listed || !(alone || heading)) continue;
        erase(line, close, 2);
        erase(line, open, 2);
    }
}

void shorten_dotted(Line& line) {
    struct Dotted {
        std::string_view written;
        std::string_view plain;
    };
    static constexpr Dotted dotted[] = {{"h.d.c", "hdc"},   {"d.c", "dc"},   {"s.c", "sc"},
                                        {"h.tr", "htr"},    {"d.tr", "dtr"}, {"tr.tr", "trtr"},
                                        {"sl.st", "sl st"}, {"t.ch", "tch"}, {"s.s", "ss"}};
    for (const auto& [written, plain] : dotted) {
        for (std::size_t at = 0; at + written.size() <= line.text.size(); ++at) {
            bool same = !letter_at(line.text, at + written.size()) &&
                        (at == 0 || (!letter_at(line.text, at - 1) && line.text[at - 1] != '.'));
            for (std::size_t by = 0; same && by < written.size(); ++by)
                same = std::tolower(static_cast<unsigned char>(line.text[at + by])) == written[by];
            if (!same) continue;
            // The last stop may end the sentence.
            std::size_t size = written.size();
            const std::size_t behind = line.text.find_first_not_of(' ', at + size + 1);
            if (line.text[std::min(at + size, line.text.size() - 1)] == '.' &&
                behind != std::string::npos &&
                std::isupper(static_cast<unsigned char>(line.text[behind])) == 0)
                ++size;
            const std::size_t from = line.from[at];
            erase(line, at, size);
            line.text.insert(at, plain);
            line.from.insert(line.from.begin() + static_cast<std::ptrdiff_t>(at), plain.size(),
                             from);
        }
    }
}

void part_labels(Line& line) {
    for (const std::string_view label : {".Round ", ".Rnd ", ".Row "}) {
        const auto at = line.text.find(label);
        if (at == std::string::npos || at + label.size() >= line.text.size() ||
            !is_digit(line.text[at + label.size()]))
            continue;
        line.text.insert(at + 1, 1, ' ');
        line.from.insert(line.from.begin() + static_cast<std::ptrdiff_t>(at) + 1, line.from[at]);
    }
}

namespace {

/// Where "R12:" or "R3-6:" ends that begins at `at`; 0 where none does.
std::size_t letter_label(const std::string& text, std::size_t at) {
    if (text[at] != 'R') return 0;
    std::size_t end = at + 1;
    while (end < text.size() && (is_digit(text[end]) || text[end] == '-')) ++end;
    return end > at + 1 && end < text.size() && text[end] == ':' && is_digit(text[at + 1]) ? end
                                                                                           : 0;
}

}  // namespace

void part_letter_labels(Line& line) {
    for (std::size_t at = 2; at + 3 < line.text.size(); ++at) {
        const char before = line.text[at - 1];
        const bool closed = before == ']' || before == ')' || before == '}';
        if ((!closed && before != '.') || letter_label(line.text, at) == 0) continue;
        const std::string_view parted = closed ? ". " : " ";
        line.text.insert(at, parted);
        line.from.insert(line.from.begin() + static_cast<std::ptrdiff_t>(at), parted.size(),
                         line.from[at]);
    }
}

void plain_labels(Line& line) {
    const auto put = [&](std::size_t at, char sign) {
        line.text.insert(at, 1, sign);
        line.from.insert(line.from.begin() + static_cast<std::ptrdiff_t>(at),
                         line.from[std::min(at, line.from.size() - 1)]);
    };
    const auto named = [&](std::size_t at) -> std::size_t {
        for (const std::string_view name : {"rounds", "round", "rnds", "rnd", "rows", "row"}) {
            bool same = at + name.size() < line.text.size();
            for (std::size_t by = 0; same && by < name.size(); ++by)
                same = std::tolower(static_cast<unsigned char>(line.text[at + by])) == name[by];
            if (same && !letter_at(line.text, at + name.size())) return name.size();
        }
        return 0;
    };
    // "Rnd.1 4 sc in ring"
    if (const std::size_t name = named(0); name > 0 && line.text[name] == '.') {
        const std::size_t figure = line.text.find_first_not_of(' ', name + 1);
        const bool numbered = figure != std::string::npos && is_digit(line.text[figure]);
        const bool plural = line.text[name - 1] == 's' || line.text[name - 1] == 'S';
        if (numbered && figure == name + 1) put(name + 1, ' ');
        if (numbered && plural) line.text[name] = ' ';  // "Rnds. 5-6"
    }
    // "Rnd 7/12: sc in each st"
    if (const std::size_t name = named(0); name > 0 && line.text[name] == ' ') {
        std::size_t end = name + 1;
        while (end < line.text.size() && is_digit(line.text[end])) ++end;
        const std::size_t slash = end;
        if (slash > name + 1 && slash < line.text.size() && line.text[slash] == '/') {
            while (++end < line.text.size() && is_digit(line.text[end])) {
            }
            if (end > slash + 1 && end < line.text.size() && line.text[end] == ':')
                line.text[slash] = '-';
        }
    }
    // "2d row", "make 3 rows of the 2d row"
    for (std::size_t at = 0; at + 2 < line.text.size(); ++at) {
        const bool ordinal = (line.text[at] == '2' || line.text[at] == '3') &&
                             (line.text[at + 1] == 'd' || line.text[at + 1] == 'D') &&
                             line.text[at + 2] == ' ' && (at == 0 || !letter_at(line.text, at - 1));
        if (ordinal && named(at + 3) > 0) put(at + 1, line.text[at] == '2' ? 'n' : 'r');
    }
    // "1ST ROW-12 sc in ring", "2ND ROW-With white, ..."
    std::size_t at = 0;
    while (at < line.text.size() && is_digit(line.text[at])) ++at;
    const std::size_t ending = at;
    while (letter_at(line.text, at)) ++at;
    if (ending == 0 || at != ending + 2 || at + 1 >= line.text.size() || line.text[at] != ' ')
        return;
    const std::size_t name = named(at + 1);
    if (name == 0 || line.text[at + 1 + name] != '-' || at + 2 + name >= line.text.size()) return;
    line.text[at + 1 + name] = ':';
    if (line.text[at + 2 + name] != ' ') put(at + 2 + name, ' ');
}

void close_range(Line& line) {
    const std::string& text = line.text;
    const auto digits = [&](std::size_t at) {
        while (at < text.size() && is_digit(text[at])) ++at;
        return at;
    };
    const std::size_t first = digits(0);
    if (first == 0 || first >= text.size() || text[first] != '.') return;
    const std::size_t dash = text.find_first_not_of(" .", first);
    if (dash == std::string::npos || text[dash] != '-') return;
    const std::size_t second = text.find_first_not_of(' ', dash + 1);
    if (second == std::string::npos) return;
    const std::size_t end = digits(second);
    if (end == second || end >= text.size() || text[end] != '.') return;
    const auto take_out = [&](std::size_t from, std::size_t to) {
        line.text.erase(from, to - from);
        line.from.erase(line.from.begin() + static_cast<std::ptrdiff_t>(from),
                        line.from.begin() + static_cast<std::ptrdiff_t>(to));
    };
    take_out(dash + 1, second);
    take_out(first, dash);
}

void cells_to_words(Line& line) {
    if (!line.text.starts_with('|') || std::count(line.text.begin(), line.text.end(), '|') < 3)
        return;
    const std::vector<Cell> cells = cells_of(line.text);
    const auto words = [&](const Cell& cell) {
        return std::string_view(line.text).substr(cell.from, cell.to - cell.from);
    };
    const bool ruled = std::all_of(cells.begin(), cells.end(), [&](const Cell& cell) {
        return words(cell).find_first_not_of("-:= ") == std::string_view::npos;
    });
    if (ruled || cells.empty()) {
        line.text.clear();
        line.from.clear();
        return;
    }
    const std::string_view label = words(cells.front());
    const bool labelled =
        cells.size() > 1 && label.size() < 16 && std::any_of(label.begin(), label.end(), is_digit);
    std::string text;
    std::vector<std::size_t> from;
    const auto add = [&](std::string_view sign, std::size_t at) {
        text += sign;
        from.insert(from.end(), sign.size(), at);
    };
    // "| 2 | Brown | 2 sc in each st | 12 |": the yarn of the row
    const bool yarn = labelled && cells.size() > 3 && cells[1].to - cells[1].from > 2 &&
                      std::all_of(words(cells[1]).begin(), words(cells[1]).end(), [](char c) {
                          return std::isalpha(static_cast<unsigned char>(c)) != 0;
                      });
    for (std::size_t i = 0; i < cells.size(); ++i) {
        const std::string_view cell = words(cells[i]);
        const std::size_t at = line.from[cells[i].from];
        const bool count = i > 1 && std::all_of(cell.begin(), cell.end(), is_digit);
        if (i == 1) add(labelled && label.back() != ':' ? ": " : " ", at);
        if (i > 1 && !(yarn && i == 2)) add(count || cell.front() == '(' ? " " : ". ", at);
        if (yarn && i == 1) add("with ", at);
        if (i == 0 && labelled && std::all_of(label.begin(), label.end(), [](char c) {
                return is_digit(c) || c == '-' || c == ' ';
            }))
            add("Row ", at);
        if (count) add("(", at);
        for (std::size_t byte = cells[i].from; byte < cells[i].to; ++byte) {
            text += line.text[byte];
            from.push_back(line.from[byte]);
        }
        if (count) add(")", at);
        if (yarn && i == 1) add(" yarn, ", at);
    }
    line.text = std::move(text);
    line.from = std::move(from);
}

std::size_t step_number(const std::string& text) {
    std::size_t at = 0;
    while (at < text.size() && is_digit(text[at])) ++at;
    if (at == 0 || at > 2 || at + 2 >= text.size() || (text[at] != '.' && text[at] != ')') ||
        text[at + 1] != ' ')
        return 0;
    return std::isupper(static_cast<unsigned char>(text[at + 2])) != 0 ? at + 2 : 0;
}

}  // namespace skeinfall::notation
