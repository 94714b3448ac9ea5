#include "skeinfall/notation/detail/knit_signs.hpp"

#include <cctype>
#include <string>
#include <string_view>

#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/line_kinds.hpp"

namespace skeinfall::notation {
namespace {

void change(Line& line, std::size_t at, std::size_t size, std::string_view text) {
    const std::size_t from = at < line.from.size() ? line.from[at] : line.from.back();
    line.text.replace(at, size, text);
    const auto begin = line.from.begin() + static_cast<std::ptrdiff_t>(at);
    line.from.erase(begin, begin + static_cast<std::ptrdiff_t>(size));
    line.from.insert(line.from.begin() + static_cast<std::ptrdiff_t>(at), text.size(), from);
}

bool capital(char c) {
    return std::isupper(static_cast<unsigned char>(c)) != 0;
}

void capitalize(Line& line, std::size_t at) {
    line.text[at] = static_cast<char>(std::toupper(static_cast<unsigned char>(line.text[at])));
}

bool starts_word(const std::string& text, std::size_t at) {
    return at == 0 || (!letter(text[at - 1]) && text[at - 1] != '.');
}

/// "m.c.", "c.c.": the names of yarns.
void settle_dotted(Line& line) {
    for (const auto& [dotted, plain] : {std::pair<std::string_view, std::string_view>{"m.c.", "MC"},
                                        {"c.c.", "CC"},
                                        {"M.C.", "MC"},
                                        {"C.C.", "CC"}})
        for (std::size_t at = line.text.find(dotted); at != std::string::npos;
             at = line.text.find(dotted, at + 1)) {
            if (!starts_word(line.text, at)) continue;
            const std::size_t next = line.text.find_first_not_of(' ', at + dotted.size());
            const bool ends = next != std::string::npos && next > at + dotted.size() &&
                              (digit(line.text[next]) || capital(line.text[next]));
            change(line, at, dotted.size(), std::string(plain) + (ends ? "." : ""));
        }
}

/// Whether a stitch with its number begins here: "K17", "P 2 tog", "ssk".
bool stitch_begins(const std::string& text, std::size_t at) {
    if (at + 1 >= text.size()) return false;
    const char first = static_cast<char>(std::tolower(static_cast<unsigned char>(text[at])));
    if (first != 'k' && first != 'p') return false;
    std::size_t next = at + 1;
    if (text[next] == '.') ++next;
    while (next < text.size() && text[next] == ' ') ++next;
    return next < text.size() && digit(text[next]) && text.find(" row", next) != next + 1 &&
           text.find(" round", next) != next + 1;
}

/// "With 66 sts. work even": the sentence goes on.
bool starts_together(const std::string& text, std::size_t end) {
    const auto stop = text.rfind(". ", end);
    const std::size_t begin = stop == std::string::npos ? 0 : stop + 2;
    if (end < begin || end - begin > 30) return false;
    const std::string lead = base::lower(text.substr(begin, end - begin));
    return lead.starts_with("with ") || lead.starts_with("on ") || lead.starts_with("over ");
}

/// "col A", "Col. 2": the colour of that name.
void settle_colours(Line& line) {
    for (const std::string_view name : {"col ", "col. ", "Col ", "Col. "})
        for (std::size_t at = line.text.find(name); at != std::string::npos;
             at = line.text.find(name, at + 1)) {
            const std::size_t letter_at = at + name.size();
            if (!starts_word(line.text, at) || letter_at >= line.text.size() ||
                (!capital(line.text[letter_at]) && !digit(line.text[letter_at])) ||
                (letter_at + 1 < line.text.size() && letter(line.text[letter_at + 1])))
                continue;
            change(line, at, name.size(), "color ");
        }
}

/// "tog. twice", "5 sts. to holder", "inc. 1 st.": the full stop of a short word.
void settle_short_words(Line& line) {
    for (std::size_t dot = line.text.find('.'); dot != std::string::npos;
         dot = line.text.find('.', dot + 1)) {
        std::size_t from = dot;
        while (from > 0 && letter(line.text[from - 1])) --from;
        const std::string word = base::lower(line.text.substr(from, dot - from));
        const std::size_t next = line.text.find_first_not_of(' ', dot + 1);
        if (!word.empty() && dot + 1 < line.text.size() &&
            one_of(word, {"tog", "st", "sts", "in", "inch", "cm", "inc", "dec", "rem", "beg"}) &&
            std::string_view(",;).").find(line.text[dot + 1]) != std::string_view::npos) {
            change(line, dot, 1, "");
            continue;
        }
        if (word.empty() || next == std::string::npos || next == dot + 1) continue;
        const char c = line.text[next];
        if (starts_together(line.text, from) && one_of(word, {"st", "sts", "stitches"}) &&
            line.text.compare(next, 5, "work ") == 0) {
            change(line, dot, 1, "");
            continue;
        }
        const bool small = c == 'k' || c == 'p';  // "next 2 st. k11"
        if ((word == "tog" || (small && one_of(word, {"st", "sts"}))) &&
            stitch_begins(line.text, next)) {
            change(line, dot, 1, ",");
            continue;
        }
        std::size_t end = next;
        while (end < line.text.size() && letter(line.text[end])) ++end;
        const bool counted = digit(c) && one_of(word, {"inc", "dec", "rep", "rem", "incr", "decr"});
        // What begins a sentence, even without a capital, stays one.
        const bool goes_on =
            one_of(line.text.substr(next, end - next),
                   {"to",        "on",      "from",      "back",     "in",     "of",      "at",
                    "tog",       "by",      "for",       "and",      "or",     "with",    "are",
                    "is",        "remain",  "remaining", "rem",      "left",   "over",    "onto",
                    "each",      "every",   "until",     "before",   "after",  "between", "st",
                    "sts",       "across",  "around",    "evenly",   "more",   "which",   "that",
                    "were",      "twice",   "total",     "together", "once",   "times",   "inches",
                    "following", "other",   "along",     "down",     "worked", "loosely", "tightly",
                    "purlwise",  "knitwise"});
        if ((goes_on && one_of(word, {"tog", "sts", "st", "rem", "beg", "inc", "dec", "rep", "cont",
                                      "foll", "alt", "patt", "approx", "meas", "incl"})) ||
            counted ||
            (one_of(word, {"in", "ins", "cm", "inch"}) && (goes_on || c == '(') && from > 1 &&
             (digit(line.text[from - 1]) || !letter(line.text[from - 2]))))
            change(line, dot, 1, "");
    }
}

/// "12 ins": inches.
void settle_units(Line& line) {
    for (std::size_t at = line.text.find(" ins"); at != std::string::npos;
         at = line.text.find(" ins", at + 1)) {
        const bool counted =
            at > 0 && (digit(line.text[at - 1]) ||
                       (static_cast<unsigned char>(line.text[at - 1]) & 0x80U) != 0);
        if (counted && (at + 4 >= line.text.size() || !letter(line.text[at + 4])))
            change(line, at + 3, 1, "");
    }
}

/// A stitch that stands in a chain of hyphens: "k1", "psso", "k2tog", "2" behind "sl".
bool hyphened_stitch(std::string_view part, bool first) {
    if (one_of(part, {"psso", "p2sso", "yo", "k2tog", "ssk", "p2tog", "skp", "m1"})) return true;
    std::size_t at = 0;
    if (part.starts_with("sl"))
        at = 2;
    else if (!part.empty() && (part[0] == 'k' || part[0] == 'p'))
        at = 1;
    else if (!first)
        return false;
    return at < part.size() && part.find_first_not_of("0123456789", at) == std::string_view::npos;
}

/// "sl 2-k1-p2sso", "K2-yo-k2tog": stitches one behind the other.
void part_hyphens(Line& line) {
    for (std::size_t from = 0; from < line.text.size();) {
        std::size_t to = from;
        while (to < line.text.size() && (letter(line.text[to]) || digit(line.text[to]) ||
                                         (line.text[to] == '-' && to > from)))
            ++to;
        if (to == from) {
            ++from;
            continue;
        }
        const std::string word = base::lower(line.text.substr(from, to - from));
        from = to;
        if (word.find('-') == std::string::npos || word.back() == '-') continue;
        bool all = true;
        std::size_t parts = 0;
        const std::size_t begin = to - word.size();
        for (const std::string& part : base::split(word, '-')) {
            const bool bare = digit(part.front());
            all = all && hyphened_stitch(part, parts == 0) &&
                  (!bare || (begin > 2 && base::lower(line.text.substr(begin - 3, 3)) == "sl "));
            ++parts;
        }
        if (!all || parts < 2) continue;
        for (std::size_t at = line.text.find('-', begin); at < from;
             at = line.text.find('-', at + 1)) {
            change(line, at, 1, ", ");
            ++from;
        }
    }
}

/// "cast- on", "bind -off", "long- tail": one word.
void close_hyphens(Line& line) {
    for (const std::string_view word : {"cast- on", "cast -on", "Cast- on", "Cast -on", "bind- off",
                                        "Bind- off", "bind -off", "k2 -tog", "k2- tog"})
        for (std::size_t at = line.text.find(word); at != std::string::npos;
             at = line.text.find(word, at + 4))
            change(line, at + word.find(' '), 1, "");
}

/// "55sts", "4rows": a number and a word.
void part_glued(Line& line) {
    for (const std::string_view word :
         {"sts", "stitches", "stitch", "rows", "rounds", "rnds", "inches", "times"})
        for (std::size_t at = line.text.find(word); at != std::string::npos;
             at = line.text.find(word, at + 2)) {
            std::size_t from = at;
            while (from > 0 && digit(line.text[from - 1])) --from;
            const std::size_t end = at + word.size();
            if (from == at || (from > 0 && letter(line.text[from - 1])) ||
                (end < line.text.size() && (letter(line.text[end]) || digit(line.text[end]))))
                continue;
            change(line, at, 0, " ");
        }
}

/// "Kl-Pl": as a scanner reads K1, P1.
void settle_scanned(Line& line) {
    for (std::size_t at = 1; at < line.text.size(); ++at) {
        if (line.text[at] != 'l' || (line.text[at - 1] != 'K' && line.text[at - 1] != 'P') ||
            (at > 1 && (letter(line.text[at - 2]) || digit(line.text[at - 2]))) ||
            (at + 1 < line.text.size() && (letter(line.text[at + 1]) || digit(line.text[at + 1]))))
            continue;
        change(line, at, 1, "1");
    }
    for (const std::string_view ribs : {"K1-P1", "k1-p1", "K2-P2", "k2-p2"})
        for (std::size_t at = line.text.find(ribs); at != std::string::npos;
             at = line.text.find(ribs, at + 2))
            change(line, at + 2, 1, ", ");
    // "Row 4 __ Knit"
    for (std::size_t at = line.text.find(" __ "); at != std::string::npos && at < 12;
         at = line.text.find(" __ ", at + 2))
        change(line, at + 1, 2, "-");
}

/// "[Knit 7, knit 2 together] repeat, knit next row.": two rows. "[...] repeat": to the end.
void part_repeat_and_row(Line& line) {
    for (std::string_view closed : {"] repeat", ") repeat"}) {
        for (std::size_t at = line.text.find(closed); at != std::string::npos;
             at = line.text.find(closed, at + 4)) {
            const std::size_t end = at + closed.size();
            const std::string rest = base::lower(line.text.substr(end));
            if (rest.empty() || rest == ".") {
                change(line, end, 0, " to end");
                break;
            }
            for (const std::string_view next :
                 {", knit next ro", ", purl next ro", "; knit next ro"})
                if (rest.starts_with(next)) {
                    change(line, end, 2, " to end. ");
                    const std::size_t verb = end + 9;
                    capitalize(line, verb);
                    break;
                }
            if (rest.starts_with(", [") || rest.starts_with(", (")) {
                change(line, end, 2, " to end. ");
                continue;
            }
            // "(k2, k2tog) repeat, k1": what is left at the end
            const char open = closed[0] == ']' ? '[' : '(';
            const auto from = line.text.rfind(open, at);
            if (!rest.starts_with(", ") || from == std::string::npos ||
                line.text.find('*') != std::string::npos)
                continue;
            change(line, at, closed.size(), "; rep from *");
            change(line, from, 1, "*");
        }
    }
}

/// "Next, knit 20 rows": the word that leads to it. "16 rows. approx. 2 inches".
void pass_next(Line& line) {
    for (const std::string_view lead : {"Next, ", "Then, ", "Now, "})
        if (line.text.starts_with(lead) && line.text.size() > lead.size() + 4) {
            change(line, 0, lead.size(), "");
            capitalize(line, 0);
        }
    for (const std::string_view two : {"hese two r", "ast two r", "hese four r"})
        if (const auto at = line.text.find(two); at != std::string::npos) {
            const std::size_t word = at + two.find(' ') + 1;
            change(line, word, two.find(" r") - two.find(' ') - 1,
                   two.find("two") != std::string::npos ? "2" : "4");
        }
    if (const auto at = line.text.find("rows. approx"); at != std::string::npos)
        change(line, at + 4, 1, ",");
}

/// "don't join", "isn't": the long forms; "{k1, p1}": brackets.
void plain_forms(Line& line) {
    for (const auto& [is, plain] :
         {std::pair<std::string_view, std::string_view>{"don't", "do not"},
          {"Don't", "Do not"},
          {"doesn't", "does not"},
          {"isn't", "is not"},
          {"aren't", "are not"},
          {"dont ", "do not "}})
        for (std::size_t at = line.text.find(is); at != std::string::npos;
             at = line.text.find(is, at + 2))
            if (starts_word(line.text, at)) change(line, at, is.size(), plain);
    for (std::size_t open = line.text.find('{'); open != std::string::npos;
         open = line.text.find('{', open + 1)) {
        const std::size_t close = line.text.find('}', open);
        if (close == std::string::npos || open + 1 >= close || !letter(line.text[open + 1]))
            continue;
        line.text[open] = '[';
        line.text[close] = ']';
    }
}

/// "row... 23 st.": its count; "stitch..Knit": a full stop. "Row 2 - (And all even rows) Knit".
void settle_stops(Line& line) {
    for (const std::string_view dots : {"... .", "...", ".. .", ".."})
        for (std::size_t at = line.text.find(dots); at != std::string::npos && at > 0;
             at = line.text.find(dots, at + 1)) {
            const std::size_t next = line.text.find_first_not_of(" .", at);
            if (next == std::string::npos || !letter(line.text[at - 1])) continue;
            if (digit(line.text[next]))
                change(line, at, next - at, " - ");
            else if (capital(line.text[next]))
                change(line, at, next - at, ". ");
        }
    const std::string low = base::lower(line.text);
    if (const auto at = low.find(" - (and all "); at != std::string::npos && at < 10) {
        const auto close = line.text.find(')', at);
        if (close != std::string::npos && close < at + 30) {
            change(line, close + 1, 0, ":");
            change(line, at, 3, " ");
        }
    }
    for (const std::string_view told : {" (unrolled)", " (unstretched)", " (slightly stretched)"})
        if (const auto at = low.find(told); at != std::string::npos)
            change(line, at, told.size(), "");
    // "End by completing row 4, and then knit 1 more row"
    const auto ends = low.find("end by completing r");
    if (ends == 0 || (ends != std::string::npos && ends > 1 && low.compare(ends - 2, 2, ". ") == 0))
        for (const std::string_view then : {", and then ", ", then ", " and then "})
            if (const auto at = low.find(then, ends); at != std::string::npos && at < ends + 40) {
                change(line, ends, at + then.size() - ends, "");
                capitalize(line, ends);
                break;
            }
    // "Repeat 3-5 rows four times more"
    for (const std::string_view word : {"repeat ", "rep "}) {
        if (!low.starts_with(word)) continue;
        std::size_t end = word.size();
        while (end < low.size() && (digit(low[end]) || low[end] == '-')) ++end;
        if (end == word.size() || low.find('-') >= end || low.compare(end, 5, " rows") != 0)
            continue;
        change(line, end, 5, "");
        change(line, word.size(), 0, "rows ");
    }
}

/// "Change to stocking stitch and work for 3 in": the fabric of that work.
void name_fabric_worked(Line& line) {
    const std::string low = base::lower(line.text);
    for (const std::string_view lead : {"change to ", "switch to "}) {
        const auto at = low.find(lead);
        if (at == std::string::npos || (at > 0 && !low.substr(0, at).ends_with(". "))) continue;
        for (const std::string_view fabric :
             {"stocking stitch", "stockinette stitch", "stockinette st", "stocking st", "st st",
              "garter stitch", "garter st", "stockinette"}) {
            if (low.compare(at + lead.size(), fabric.size(), fabric) != 0) continue;
            const std::size_t end = at + lead.size() + fabric.size();
            for (const std::string_view goes_on :
                 {", and work ", " and work ", ", and knit ", " and knit ", ", and continue "}) {
                if (low.compare(end, goes_on.size(), goes_on) != 0) continue;
                change(line, end, goes_on.size(), " ");
                change(line, at, lead.size(), "Work in ");
                return;
            }
        }
    }
}

/// "2d row", "3d": as old books write them.
void modern_ordinals(Line& line) {
    for (std::size_t at = 1; at < line.text.size(); ++at) {
        if ((line.text[at] != 'd' && line.text[at] != 'D') ||
            (line.text[at - 1] != '2' && line.text[at - 1] != '3') ||
            (at + 1 < line.text.size() && (letter(line.text[at + 1]) || digit(line.text[at + 1]))))
            continue;
        change(line, at, 1, line.text[at - 1] == '2' ? "nd" : "rd");
    }
}

/// "repeat 11&12": rows, where nothing counts the times.
void name_repeated_rows(Line& line) {
    for (const std::string_view word : {"repeat ", "Repeat ", "rep ", "Rep "})
        for (std::size_t at = line.text.find(word); at != std::string::npos;
             at = line.text.find(word, at + 4)) {
            const std::size_t first = at + word.size();
            std::size_t end = first;
            const auto digits = [&] {
                const std::size_t from = end;
                while (end < line.text.size() && digit(line.text[end])) ++end;
                return end > from;
            };
            if (!starts_word(line.text, at) || !digits()) continue;
            const std::size_t sign = line.text.find_first_not_of(' ', end);
            if (sign == std::string::npos) continue;
            const std::size_t size = line.text.compare(sign, 3, "and") == 0 ? 3 : 1;
            if (size == 1 && line.text[sign] != '&' && line.text[sign] != '-') continue;
            end = line.text.find_first_not_of(' ', sign + size);
            if (end == std::string::npos || !digits()) continue;
            if (end < line.text.size() && line.text[end] != '.' && line.text[end] != ',' &&
                line.text.compare(end, 7, " until ") != 0)
                continue;
            change(line, sign, size,
                   size == 1 && line.text[sign] == '&' ? " & "
                   : size == 1                         ? "-"
                                                       : "and");
            change(line, first, 0, "rows ");
        }
}

}  // namespace

void settle_knit_signs(Line& line) {
    if (line.text.empty()) return;
    modern_ordinals(line);
    name_repeated_rows(line);
    close_hyphens(line);
    part_glued(line);
    settle_scanned(line);
    part_repeat_and_row(line);
    name_fabric_worked(line);
    plain_forms(line);
    settle_stops(line);
    pass_next(line);
    settle_dotted(line);
    settle_units(line);
    settle_colours(line);
    settle_short_words(line);
    part_hyphens(line);
}

}  // namespace skeinfall::notation
