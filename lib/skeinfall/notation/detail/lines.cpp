#include "skeinfall/notation/detail/lines.hpp"

#include <algorithm>
#include <array>
#include <cctype>

#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/line_marks.hpp"

namespace skeinfall::notation {
namespace {

struct Plain {
    std::string_view sign;
    std::string_view plain;
};
constexpr auto plain_signs = std::to_array<Plain>({
    {"\xe2\x80\x99", "'"},  {"\xe2\x80\x98", "'"},  {"\xc2\xb4", "'"},       {"\xe2\x80\x9c", "\""},
    {"\xe2\x80\x9d", "\""}, {"\xe2\x80\xb3", "\""}, {"\xe2\x80\xb2", "'"},   {"\xe2\x80\x91", "-"},
    {"\xe2\x80\x90", "-"},  {"\xe2\x88\x92", "-"},  {"\xc2\xa0", " "},       {"\xe2\x80\x89", " "},
    {"\xe2\x80\xaf", " "},  {"\xe2\x80\x8b", ""},   {"\xef\xbb\xbf", ""},    {"\xc2\xad", ""},
    {"\xef\xac\x81", "fi"}, {"\xef\xac\x82", "fl"}, {"\xef\xac\x80", "ff"},  {"\xe2\x80\xa2", "-"},
    {"\xe2\x97\x8f", "-"},  {"\xe2\x96\xaa", "-"},  {"\xc2\xb7", "-"},       {"\xe2\x88\x97", "*"},
    {"\xe2\x9c\xb1", "*"},  {"\xef\xbc\x8a", "*"},  {"\xe2\x80\x83", " "},   {"\xe2\x80\x82", " "},
    {"&nbsp;", " "},        {"&amp;", "&"},         {"&quot;", "\""},        {"&#8217;", "'"},
    {"\xe2\x80\xa8", " "},  {"\xe2\x86\x92", "-"},  {"\xe2\x80\x94", " - "}, {"\t", " "},
    {"\xc4\xb0", "I"},      {"\xc4\xb1", "i"},      {"\xd1\x85", "x"},       {"\xd0\xa5", "x"},
    {"\xd0\xb2", " in "},  // a Cyrillic "in" of translated toys
});

bool only_page_number(const std::string& text) {
    std::string word;
    bool digits = false;
    for (const char c : text) {
        if (std::isdigit(static_cast<unsigned char>(c)) != 0)
            digits = true;
        else if (std::isalpha(static_cast<unsigned char>(c)) != 0)
            word += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
        else if (c != ' ' && c != '/' && c != '-' && c != '|')
            return false;
    }
    return digits && (word.empty() || word == "page" || word == "pageof");
}

/// "1 dc in each next": the number alone in the line below it is no page's.
bool wants_number(const std::string& above) {
    const auto blank = above.find_last_of(' ');
    const std::string_view last =
        std::string_view(above).substr(blank == std::string::npos ? 0 : blank + 1);
    for (const std::string_view word : {"next", "of", "the", "from", "last", "first", "following"})
        if (last == word) return true;
    return false;
}

void strip(Line& line) {
    const auto first = line.text.find_first_not_of(' ');
    if (first == std::string::npos) {
        line.text.clear();
        line.from.clear();
        return;
    }
    line.text.erase(0, first);
    line.from.erase(line.from.begin(), line.from.begin() + static_cast<std::ptrdiff_t>(first));
    while (!line.text.empty() && line.text.back() == ' ') {
        line.text.pop_back();
        line.from.pop_back();
    }
}

/// The length of a list's own number before a label: the "3. " of "3. Round 1: 6 sc".
std::size_t list_number(const std::string& text) {
    const auto digit = [&](std::size_t i) {
        return i < text.size() && std::isdigit(static_cast<unsigned char>(text[i])) != 0;
    };
    std::size_t at = 0;
    while (digit(at)) ++at;
    if (at == 0) return 0;
    if (at < text.size() && text[at] == '-' && digit(at + 1))
        while (digit(++at)) {
        }
    if (at + 1 >= text.size() || (text[at] != '.' && text[at] != ')')) return 0;
    while (++at < text.size() && text[at] == ' ') {
    }
    for (const std::string_view word : {"Rounds ", "Round ", "Rnds ", "Rnd ", "Rows ", "Row "})
        if (text.compare(at, word.size(), word) == 0 && digit(at + word.size())) return at;
    return 0;
}

/// "+ hdc in next st, ch 1, skip 1 + repeat from + to + around": a plus marks the repeat.
/// "# sc 3, dec #, rep from # to #": so does a hash that is no "Row #3".
void pluses_to_stars(std::string& text) {
    const bool plus = text.find("from +") != std::string::npos;
    const bool hash =
        text.find("# to #") != std::string::npos && text.find('*') == std::string::npos;
    if (!plus && !hash) return;
    int depth = 0;
    for (std::size_t i = 0; i < text.size(); ++i) {
        char& c = text[i];
        if (c == '(' || c == '[') ++depth;
        if (c == ')' || c == ']') --depth;
        if (plus && c == '+' && depth == 0) c = '*';
        const bool numbers = i + 1 < text.size() && text[i + 1] >= '0' && text[i + 1] <= '9';
        if (hash && c == '#' && depth == 0 && !numbers) c = '*';
    }
}

/// Whether "rep from *" begins one of the lines right below: the star is no bullet.
bool repeated_below(std::string_view text, const Line& line) {
    std::size_t at = line.from.empty() ? text.size() : line.from.back();
    for (int lines = 0; lines < 3; ++lines) {
        at = text.find('\n', at);
        if (at == std::string_view::npos) return false;
        const auto first = text.find_first_not_of(" \r", ++at);
        if (first == std::string_view::npos || text[first] == '\n' || text[first] == '*')
            return false;
        std::string words(text.substr(first, 16));
        for (char& c : words) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
        if ((words.starts_with("rep") || words.starts_with("rpt")) &&
            words.find('*') != std::string::npos)
            return true;
    }
    return false;
}

/// "5th", before a line "Row: k2".
bool ordinal_alone(const std::string& text) {
    const auto digits = text.find_first_not_of("0123456789");
    if (digits == 0 || digits == std::string::npos) return false;
    const std::string ending = text.substr(digits);
    return ending == "st" || ending == "nd" || ending == "rd" || ending == "th";
}

void cut(Line& line, std::size_t bytes) {
    if (bytes == 0) return;
    line.text.erase(0, bytes);
    line.from.erase(line.from.begin(), line.from.begin() + static_cast<std::ptrdiff_t>(bytes));
    strip(line);
}

}  // namespace

void append(Line& line, const Line& more) {
    if (!line.text.empty() && line.text.back() == '-' && !more.text.empty() &&
        std::islower(static_cast<unsigned char>(more.text.front())) != 0 && line.text.size() > 1 &&
        std::isalpha(static_cast<unsigned char>(line.text[line.text.size() - 2])) != 0) {
        line.text.pop_back();  // a word cut in two
        line.from.pop_back();
    } else {
        line.text += ' ';
        line.from.push_back(line.from.empty() ? 0 : line.from.back());
    }
    line.text += more.text;
    line.from.insert(line.from.end(), more.from.begin(), more.from.end());
}

std::vector<Line> lines_of(std::string_view text) {
    std::vector<Line> out;
    Line line;
    line.number = 1;
    bool blank = true;
    std::size_t number = 1;
    std::size_t listed = 0;  // labels with a list's own number before them
    int starred = 0;         // lines right above that a star begins as a bullet
    const auto end_line = [&] {
        take_off_pictures(line);
        strip(line);
        take_off_emphasis(line);
        part_labels(line);
        part_letter_labels(line);
        plain_labels(line);
        close_range(line);
        cells_to_words(line);
        if (line.text.starts_with("\xe2\x80\x93 ") || line.text.starts_with("\xe2\x80\x94 "))
            cut(line, 4);
        if (const std::size_t own = list_number(line.text); own > 0) {
            ++listed;
            cut(line, own);
        }
        // "A. Work 20 rows", "B) Knit": steps by letters; "K." and "P." are stitches.
        if (line.text.size() > 6 && line.text[0] >= 'A' && line.text[0] <= 'H' &&
            (line.text[1] == '.' || line.text[1] == ')') && line.text[2] == ' ' &&
            std::isupper(static_cast<unsigned char>(line.text[3])) != 0)
            cut(line, 3);
        pluses_to_stars(line.text);
        while (line.text.starts_with("\xc2\xbb")) cut(line, 2);  // "»Row 1:"
        while (line.text.starts_with(":: ")) cut(line, 3);
        while (line.text.starts_with("- ") || line.text.starts_with("> ") ||
               (line.text.starts_with("# ") && line.text.find("# to #") == std::string::npos) ||
               line.text.starts_with("## ")) {
            line.bullet = line.bullet || line.text.front() == '-';
            cut(line, line.text.find(' ') + 1);
        }
        for (const std::string_view bullet :  // "§  Row 1"
             {"\xc2\xa7", "\xe2\x99\xa5", "\xe2\x96\xa0", "\xe2\x96\xba", "\xe2\x9c\x94",
              "\xe2\x9e\xa4", "\xe2\x97\x8b", "\xe2\x96\xa1", "\xe2\x98\x90"})
            if (line.text.starts_with(std::string(bullet) + " ") &&
                line.text.find(bullet, 1) == std::string::npos)
                cut(line, bullet.size());
        while (line.text.starts_with(". ") || line.text.starts_with("..")) cut(line, 1);
        // A star in front of a line that has no other is a bullet; so is that of "* Work in rib
        // (*k2, p2*, repeat around)" below such.
        if (!line.text.empty()) {
            const auto stars = std::count(line.text.begin(), line.text.end(), '*');
            const bool names_star =  // "... repeat from" and "* around"
                !out.empty() && base::lower(out.back().text).ends_with("from");
            const bool bullet = line.text.starts_with("* ") && !names_star &&
                                ((stars == 1 && line.text.find("ep") == std::string::npos &&
                                  !repeated_below(text, line)) ||
                                 (stars == 3 && starred > 1 && line.text.size() > 2 &&
                                  std::isupper(static_cast<unsigned char>(line.text[2])) != 0));
            starred = bullet ? starred + 1 : 0;
            if (bullet) cut(line, 2);
        }
        if ((line.text.starts_with("*Rep") || line.text.starts_with("*rep")) &&
            line.text.find('*', 1) == std::string::npos && line.text.find(" R") < 9)
            cut(line, 1);  // "*Repeat Row 2 until ..."
        // Stars that only mark a place for other parts: "P 1 row.**", "**Row 51:".
        for (const std::string_view mark : {".**", ". **", ".*", ". *"})
            if (line.text.ends_with(mark) &&
                line.text.find('*') == line.text.size() - (mark.ends_with("**") ? 2U : 1U)) {
                line.text.resize(line.text.size() - mark.size() + 1);
                line.from.resize(line.text.size());
                break;
            }
        while (line.text.starts_with("***")) cut(line, 1);
        if (line.text.starts_with("** ") && line.text.find('*', 2) == std::string::npos)
            cut(line, 2);
        if (line.text.starts_with("**") && line.text.find('*', 2) == std::string::npos &&
            line.text.size() > 3 && std::isalpha(static_cast<unsigned char>(line.text[2])) != 0)
            cut(line, 2);
        const auto broken = [](const std::string& label) {
            for (const std::string_view word : {"Row", "Rnd", "Round", "Rows", "Ch", "Chain"})
                if (label == word) return true;
            return false;
        };
        const auto repeats = [&] {  // "Repeat" and "rows 1 & 2"
            return (out.back().text == "Repeat" || out.back().text == "Rep") &&
                   std::islower(static_cast<unsigned char>(line.text.front())) != 0;
        };
        if (!out.empty() && !line.text.empty() &&
            ((ordinal_alone(out.back().text) &&
              broken(line.text.substr(0, line.text.find_first_of(" :")))) ||
             (broken(out.back().text) &&
              std::isdigit(static_cast<unsigned char>(line.text.front())) != 0) ||
             repeats())) {
            append(out.back(), line);  // "Row" and "1: sc ...", as a page breaks them
        } else if (line.text.empty()) {
            blank = true;
        } else if (!only_page_number(line.text) || line.text.find('-') != std::string::npos ||
                   (!out.empty() && !blank && wants_number(out.back().text))) {
            line.blank_before = blank;
            blank = false;
            out.push_back(std::move(line));
        }
        line = Line{};
        line.number = ++number;
    };
    for (std::size_t at = 0; at < text.size();) {
        if (text[at] == '\n' || text[at] == '\r') {
            if (text[at] == '\r' && at + 1 < text.size() && text[at + 1] == '\n') ++at;
            ++at;
            end_line();
            continue;
        }
        bool found = false;
        if (text.substr(at).starts_with("\xe2\x80\x93")) {  // en dash: a range between numbers
            const auto digit_at = [&](std::size_t i) {
                return i < text.size() && std::isdigit(static_cast<unsigned char>(text[i])) != 0;
            };
            const bool range = at > 0 && digit_at(at - 1) && digit_at(at + 3);
            line.text += range ? "-" : " - ";
            line.from.insert(line.from.end(), range ? 1 : 3, at);
            at += 3;
            continue;
        }
        if ((static_cast<unsigned char>(text[at]) & 0x80U) != 0 || text[at] == '&' ||
            text[at] == '\t')
            for (const Plain& sign : plain_signs)
                if (text.substr(at).starts_with(sign.sign)) {
                    line.text += sign.plain;
                    line.from.insert(line.from.end(), sign.plain.size(), at);
                    at += sign.sign.size();
                    found = true;
                    break;
                }
        if (found) continue;
        line.text += text[at];
        line.from.push_back(at++);
    }
    end_line();
    // "s.s." alone may be stocking stitch.
    if (text.find("d.c.") != std::string_view::npos ||
        text.find("D.c.") != std::string_view::npos ||
        text.find("D.C.") != std::string_view::npos || text.find("h.tr.") != std::string_view::npos)
        for (Line& one : out) shorten_dotted(one);
    if (listed > 1)  // the steps between such labels are numbered by the list, too
        for (Line& one : out) cut(one, step_number(one.text));
    return out;
}

}  // namespace skeinfall::notation
