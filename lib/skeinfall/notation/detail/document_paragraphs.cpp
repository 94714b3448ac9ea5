// Paragraphs of knitting that hold a heading and rows: "COWL Cast on 96 sts. ...", "Note: ...
// Lace Pattern Rnds 1 and 3: Knit. Rnd 2: ...".

#include <algorithm>
#include <cctype>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/document_reader.hpp"

namespace skeinfall::notation {
namespace {

Line piece_of(const Line& line, std::size_t from, std::size_t to) {
    Line out = line;
    while (from < to && line.text[from] == ' ') ++from;
    while (to > from && line.text[to - 1] == ' ') --to;
    out.text = line.text.substr(from, to - from);
    out.from.assign(line.from.begin() + static_cast<std::ptrdiff_t>(from),
                    line.from.begin() + static_cast<std::ptrdiff_t>(to));
    return out;
}

bool upper(char c) {
    return std::isupper(static_cast<unsigned char>(c)) != 0;
}

/// "Row 1", "Rnds 2-4", "Round 3 (RS)" with a colon near it.
bool label_at(const std::string& text, std::size_t at) {
    for (const std::string_view word : {"Row ", "Rows ", "Rnd ", "Rnds ", "Round ", "Rounds "}) {
        if (text.compare(at, word.size(), word) != 0) continue;
        const std::size_t number = at + word.size();
        const std::size_t colon = text.find(':', number);
        return number < text.size() && digit(text[number]) && colon != std::string::npos &&
               colon < number + 30 && text.find(". ", number) > colon;
    }
    return false;
}

/// "Bind off as follows: k2, slip ...": how every stitch is bound off. The bytes before "as
/// follows"; 0 for other lines.
std::size_t bind_off_told(const std::string& text) {
    const std::string low = base::lower(text);
    const bool binds =
        low.starts_with("bind off") || low.starts_with("cast off") || low.starts_with("bo ");
    const auto follows = low.find(" as follows");
    if (!binds || follows == std::string::npos || follows > 40 || follows + 14 > text.size())
        return 0;
    if (std::any_of(low.begin(), low.begin() + static_cast<std::ptrdiff_t>(follows), digit))
        return 0;
    for (const std::string_view more : {" row", " rnd", " round", " times", "next "})
        if (low.find(more, follows) != std::string::npos) return 0;
    return follows;
}

}  // namespace

/// The bytes of "BACK", "LEFT FRONT (make 1)" before what casts on or has a label; 0 without such.
std::size_t DocumentReader::heading_in_capitals(const Line& line) const {
    const std::string& text = line.text;
    std::size_t at = 0;
    std::size_t end = 0;
    std::size_t words = 0;
    while (at < text.size() && words < 5) {
        std::size_t to = at;
        while (to < text.size() && (upper(text[to]) || text[to] == '\'' || text[to] == '-')) ++to;
        if (to > at + 1 && to < text.size() && text[to] == ':') return 0;  // "RIGHT FRONT: ..."
        if (to < at + 2 || (to < text.size() && text[to] != ' ')) break;
        const std::string word = base::lower(text.substr(at, to - at));
        if (one_of(word, {"co", "bo", "rs", "ws", "mc", "cc", "with", "cast", "row", "rnd", "pm",
                          "knit", "purl", "using", "work"}))
            break;
        end = to;
        ++words;
        at = std::min(to + 1, text.size());
    }
    if (words == 0) return 0;
    if (end + 1 < text.size() && text[end + 1] == '(') {  // "(make 2)"
        const auto close = text.find(')', end);
        if (close == std::string::npos || close > end + 16) return 0;
        end = close + 1;
    }
    const auto name = words_of(text.substr(0, end));
    const auto zone = zone_of(name);
    if ((zone && *zone != What::heading) || end + 2 >= text.size()) return 0;
    const auto rest = words_of(text.substr(end));
    if (rest.empty() || !letter(text[end + 1])) return 0;
    return row_words(rest) > 0 || (begins_base(rest) && has_number(rest)) ? end : 0;
}

/// Where rows begin in a paragraph that does not begin with one; at least two of them.
std::vector<std::size_t> DocumentReader::rows_in_paragraph(const Line& line) const {
    std::vector<std::size_t> out;
    const auto first = words_of(line.text);
    if (line.text.size() < 60 || first.empty() || row_words(first) > 0) return out;
    const auto zone = zone_of(first);
    if (!zone || (*zone != What::stitches && *zone != What::notes && *zone != What::heading))
        return out;
    for (std::size_t at = 1; at + 8 < line.text.size(); ++at)
        if (line.text[at - 1] == ' ' && label_at(line.text, at) &&
            (out.empty() || line.text[at - 2] == '.'))
            out.push_back(at);
    if (out.size() < 2) out.clear();
    return out;
}

void DocumentReader::part_paragraphs() {
    std::vector<Line> out;
    for (const Line& line : lines_) {
        if (const std::size_t end = bind_off_told(line.text); end > 0) {
            out.push_back(piece_of(line, 0, end));
            out.push_back(piece_of(line, end, line.text.size()));
            out.back().told = true;
            continue;
        }
        if (const std::size_t end = heading_in_capitals(line); end > 0) {
            out.push_back(piece_of(line, 0, end));
            out.back().blank_before = true;
            out.push_back(piece_of(line, end, line.text.size()));
            out.back().blank_before = false;
            continue;
        }
        const auto rows = rows_in_paragraph(line);
        if (rows.empty()) {
            out.push_back(line);
            continue;
        }
        // The words right before the first row are its heading.
        const auto stop = line.text.rfind(". ", rows.front());
        const auto colon = line.text.rfind(": ", rows.front());
        std::size_t name = stop == std::string::npos ? 0 : stop + 2;
        if (colon != std::string::npos && colon + 2 > name && colon + 2 < rows.front())
            name = colon + 2;
        if (name > 0) out.push_back(piece_of(line, 0, name));
        if (Line title = piece_of(line, name, rows.front()); !title.text.empty()) {
            title.blank_before = true;
            if (title.text.back() != ':') {
                title.text += ':';
                title.from.push_back(title.from.back());
            }
            out.push_back(std::move(title));
        }
        for (std::size_t i = 0; i < rows.size(); ++i) {
            const std::size_t to = i + 1 < rows.size() ? rows[i + 1] : line.text.size();
            out.push_back(piece_of(line, rows[i], to));
            out.back().blank_before = false;
        }
    }
    lines_ = std::move(out);
}

}  // namespace skeinfall::notation
