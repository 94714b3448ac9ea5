#include "skeinfall/notation/detail/knit_page_blocks.hpp"

#include <algorithm>
#include <cstddef>
#include <map>
#include <regex>
#include <string>
#include <utility>

#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/line_forms.hpp"
#include "skeinfall/notation/detail/line_kinds.hpp"

namespace skeinfall::notation {
namespace {

constexpr std::size_t no_ends = 300;  ///< bytes of a line from which a page may have lost its ends

/// Where a page without line ends begins a part of its own.
const std::vector<std::regex>& part_begins() {
    static const std::vector<std::regex> forms{
        std::regex(R"([.)\]"]\s(?=[A-Z]{3}[A-Z -]{0,24}: ?[A-Z(]))", std::regex::optimize),
        std::regex(
            R"([a-z.)\]"]\s(?=(?:(?:Left |Right )?(?:Back|Front|Sleeves?|Body|Yoke|Hat|Brim)|[A-Z]{4,12})(?: \([Mm]ake (?:\d|[a-z]+)\))?:? (?:With [^.]{3,60}? )?(?:[Cc]ast on|CO) \d))",
            std::regex::optimize),
        std::regex(
            R"([a-z.)\]"]\s(?=(?:Left |Right )?(?:Back|Front|Sleeves?) (?:Work|Same) (?:the same )?as ))",
            std::regex::optimize),
        std::regex(
            R"([a-z.)\]"]\s(?=(?:Abbreviations|Materials|Measurements|Tension|Gauge|GAUGE|Directions|Instructions|Begin Pattern|Finishing|Making up)\b:?))",
            std::regex::optimize),
        std::regex(
            R"([.)\]]\s(?=Shape (?:the )?[a-z]+(?: (?:and|&) [a-z]+)?:? (?:Cast|Bind|Next|Dec|K|BO|Row)))",
            std::regex::optimize),
        std::regex(R"([a-z.)\]]\s(?=(?:1st|First) (?:row|rnd|round)\b))", std::regex::optimize),
    };
    return forms;
}

/// The line from `from` on up to `to`.
Line piece_of(const Line& line, std::size_t from, std::size_t to) {
    Line out = line;
    out.text = line.text.substr(from, to - from);
    out.from.assign(line.from.begin() + static_cast<std::ptrdiff_t>(from),
                    line.from.begin() + static_cast<std::ptrdiff_t>(to));
    while (!out.text.empty() && out.text.back() == ' ') {
        out.text.pop_back();
        out.from.pop_back();
    }
    return out;
}

/// Whether the line is a page: it casts on somewhere within.
bool is_page(const Line& line) {
    const std::string low = base::lower(line.text);
    const auto base = std::min(low.find("cast on "), low.find(" co "));
    return line.text.size() > no_ends && line.text.size() < 20000 && base != std::string::npos &&
           base > 20;
}

/// Whether the stars of `mark`'s length stand alone in a line: one begins it, or one ends it.
bool begins_at(const Line& line, const std::string& mark) {
    const auto at = line.text.find(mark);
    if (at == std::string::npos || line.text.find('*', at + mark.size()) != std::string::npos ||
        (at > 0 && line.text[at - 1] == '*') || line.text.find('*') != at)
        return false;
    const auto before = words_of(line.text.substr(0, at));
    return before.empty() || row_words(before) + 1 >= before.size();
}

bool ends_at(const Line& line, const std::string& mark) {
    return line.text.size() > mark.size() && line.text.ends_with(mark) &&
           line.text.find('*') == line.text.size() - mark.size();
}

void take_out_mark(Line& line, const std::string& mark) {
    put_words(line, line.text.find(mark), mark.size(), "");
}

}  // namespace

void part_pages(std::vector<Line>& lines) {
    std::vector<Line> out;
    for (Line& line : lines) {
        if (!is_page(line)) {
            out.push_back(std::move(line));
            continue;
        }
        std::vector<std::size_t> cuts{0};
        for (const std::regex& form : part_begins())
            for (auto found = std::sregex_iterator(line.text.begin(), line.text.end(), form);
                 found != std::sregex_iterator(); ++found)
                cuts.push_back(static_cast<std::size_t>(found->position(0) + found->length(0)));
        std::sort(cuts.begin(), cuts.end());
        cuts.erase(std::unique(cuts.begin(), cuts.end()), cuts.end());
        for (std::size_t i = 0; i < cuts.size(); ++i) {
            Line part =
                piece_of(line, cuts[i], i + 1 < cuts.size() ? cuts[i + 1] : line.text.size());
            part.blank_before = part.blank_before || i > 0;
            if (!part.text.empty()) out.push_back(std::move(part));
        }
    }
    lines = std::move(out);
}

void repeat_between_stars(std::vector<Line>& lines) {
    for (const std::string mark : {"**", "*"}) {
        const std::regex again(
            mark == "*"
                ? R"(^rep(?:eat)? (?:from )?\* to \* (?=until|till|for|\d|once|twice|to))"
                : R"(^rep(?:eat)? (?:from )?\*\* to \*\* (?=until|till|for|\d|once|twice|to))",
            any_case);
        for (std::size_t end = 1; end + 1 < lines.size(); ++end) {
            std::smatch found;
            const std::string text = lines[end + 1].text;
            if (!ends_at(lines[end], mark) || !std::regex_search(text, found, again)) continue;
            std::size_t begin = end;
            while (begin > 0 && end - begin < 12 && !begins_at(lines[begin - 1], mark)) --begin;
            if (begin == 0 || !begins_at(lines[begin - 1], mark)) continue;
            --begin;
            const bool rows =
                std::all_of(lines.begin() + static_cast<std::ptrdiff_t>(begin),
                            lines.begin() + static_cast<std::ptrdiff_t>(end) + 1,
                            [](const Line& line) { return row_words(words_of(line.text)) > 0; });
            if (!rows) continue;
            put_words(lines[end + 1], 0, static_cast<std::size_t>(found.length(0)),
                      "Repeat last " + std::to_string(end - begin + 1) + " rows ");
            take_out_mark(lines[begin], mark);
            take_out_mark(lines[end], mark);
        }
    }
}

void call_named_rows(std::vector<Line>& lines) {
    static const std::regex named(
        R"(^((?:inc|dec|eyelet|buttonhole|lace|cable|increase|decrease)\.? (?:row|rnd|round)(?: \d)?) ?(?:\([^)]*\) ?)?: (.{4,400})$)",
        any_case);
    static const std::regex called(
        R"(^(?:work |rep(?:eat)? )?(?:the )?((?:inc|dec|eyelet|buttonhole|lace|cable|increase|decrease)\.? (?:row|rnd|round)(?: \d)?)(?: again| once| once more)?\.?$)",
        any_case);
    std::map<std::string, std::string> rows;
    for (Line& line : lines) {
        std::smatch found;
        const std::string text = line.text;
        if (text.size() > 500) continue;
        if (std::regex_search(text, found, named)) {
            rows[base::lower(found[1].str())] = found[2].str();
        } else if (text.size() < 50 && std::regex_search(text, found, called)) {
            const auto row = rows.find(base::lower(found[1].str()));
            if (row == rows.end()) continue;
            const bool round = text.find("nd") != std::string::npos;
            put_words(line, 0, text.size(), (round ? "Next rnd: " : "Next row: ") + row->second);
        }
    }
}

}  // namespace skeinfall::notation
