#include "skeinfall/notation/detail/line_kinds.hpp"

#include <algorithm>
#include <cctype>

#include "skeinfall/base/text.hpp"

namespace skeinfall::notation {

bool letter(char c) {
    return std::isalpha(static_cast<unsigned char>(c)) != 0;
}
bool digit(char c) {
    return std::isdigit(static_cast<unsigned char>(c)) != 0;
}

std::vector<std::string> words_of(std::string_view text) {
    std::vector<std::string> out;
    for (std::size_t at = 0; at < text.size();) {
        if (text[at] == ' ') {
            ++at;
            continue;
        }
        std::size_t end = at;
        while (end < text.size() && (letter(text[end]) || digit(text[end]) || text[end] == '\'' ||
                                     (static_cast<unsigned char>(text[end]) & 0x80U) != 0))
            ++end;
        if (end == at) ++end;
        out.push_back(base::lower(text.substr(at, end - at)));
        at = end;
    }
    return out;
}

bool one_of(std::string_view word, Names names) {
    return std::find(names.begin(), names.end(), word) != names.end();
}

bool number(const std::string& word) {
    return !word.empty() && std::all_of(word.begin(), word.end(), digit);
}

int needle_named(const std::vector<std::string>& words) {
    if (words.size() < 3) return 0;
    const auto sign = [&](std::size_t at) {
        return at < words.size() && one_of(words[at], {":", "-", ",", "."});
    };
    if (words[0] == "needle" && words[1].size() == 1 && digit(words[1][0]) && sign(2))
        return words[1][0] - '0';
    if (words[0].size() == 2 && words[0][0] == 'n' && digit(words[0][1]) && sign(1))
        return words[0][1] - '0';
    for (const auto& [name, number] : {std::pair<std::string_view, int>{"first", 1},
                                       {"second", 2},
                                       {"third", 3},
                                       {"fourth", 4},
                                       {"1st", 1},
                                       {"2nd", 2},
                                       {"3rd", 3},
                                       {"4th", 4}})
        if (words[0] == name && words[1] == "needle" && sign(2)) return number;
    return 0;
}

std::optional<What> zone_of(const std::vector<std::string>& words) {
    if (words.empty()) return std::nullopt;
    const auto has = [&](Names names) {
        const auto most = static_cast<std::ptrdiff_t>(std::min<std::size_t>(words.size(), 8));
        return std::any_of(words.begin(), words.begin() + most,
                           [&](const std::string& word) { return one_of(word, names); });
    };
    const std::string& first = words.front();
    if (needle_named(words) > 0) return std::nullopt;
    if (one_of(first, {"gauge", "tension"})) return What::gauge;
    if (one_of(first, {"material", "materials", "supplies", "yarn", "yarns", "hook", "hooks",
                       "needle", "needles", "notions", "tools", "equipment", "wool"}) ||
        (first == "what" && has({"need"})) || (first == "you" && has({"need"})))
        return What::materials;
    if (one_of(first, {"size", "sizes", "measurements", "dimensions"}) ||
        (one_of(first, {"finished", "to", "approximate", "approx", "completed"}) &&
         has({"size", "sizes", "measurement", "measurements", "fit", "fits", "measures"})))
        return What::size;
    if (one_of(first,
               {"terminology", "abbreviation", "abbreviations", "abbrev", "key", "glossary"}) ||
        (one_of(first, {"stitch", "stitches"}) &&
         has({"guide", "key", "abbreviations", "used", "list", "know"})) ||
        (words.size() < 5 &&
         one_of(words.back() == ":" && words.size() > 1 ? words[words.size() - 2] : words.back(),
                {"abbreviations", "glossary", "abbreviation"})))
        return What::abbreviations;
    if (one_of(first, {"special", "pattern"}) &&
        has({"stitch", "stitches", "st", "sts", "st's", "sts'"}))
        return What::stitches;
    if (one_of(first, {"note", "notes", "tips", "tip"}) || (first == "pattern" && has({"notes"})))
        return What::notes;
    if (one_of(first, {"finishing", "assembly", "finish", "blocking"}) ||
        (first == "making" && has({"up"})) ||
        (first == "to" && words.size() > 2 && words[1] == "make" && words[2] == "up"))
        return What::finishing;
    if (one_of(first, {"instructions", "directions", "pattern", "instruction"}) ||
        (words.size() > 1 && one_of(words[1], {"instructions", "directions"})))
        return What::heading;
    return std::nullopt;
}

std::size_t row_words(const std::vector<std::string>& words) {
    if (words.empty()) return 0;
    const auto rows = [&](std::size_t i) {
        return i < words.size() && one_of(words[i], {"row", "rows", "rnd", "rnds", "round",
                                                     "rounds", "r", "rd", "rds", "rw", "rws"});
    };
    const auto value = [&](std::size_t i) {
        return i < words.size() &&
               (number(words[i]) ||
                one_of(words[i], {"one", "two", "three", "four", "five", "six", "seven", "eight",
                                  "nine", "ten", "eleven", "twelve", "#"}));
    };
    if (words[0] == "for" && rows(1) && value(2)) return 3;  // "For Round 3:"
    if (rows(0) && (value(1) || (words.size() > 2 && words[1] == "." && value(2)))) return 2;
    // "Rnd: 1 - Ch 5"
    if (rows(0) && words.size() > 3 && words[1] == ":" && number(words[2]) && words[3] == "-")
        return 4;
    if (words[0].size() > 1 && words[0][0] == 'r' &&
        std::all_of(words[0].begin() + 1, words[0].end(), digit))
        return 1;
    for (const std::string_view name : {"row", "rnd", "round", "rows", "rnds", "rounds"})
        if (words[0].starts_with(name) && words[0].size() > name.size() &&
            std::all_of(words[0].begin() + static_cast<std::ptrdiff_t>(name.size()), words[0].end(),
                        digit))
            return 1;
    // "1 row:", "12-22 row:", "1.row:"
    if (number(words[0]))
        for (std::size_t i = 1; i < 5 && i + 1 < words.size(); ++i) {
            if (rows(i) && words[i] != "r" && one_of(words[i + 1], {":", "-"})) return i + 1;
            // "9 - 11 rows / 3 rows / - 18 sc"
            if (rows(i) && i + 5 < words.size() && words[i + 1] == "/" && number(words[i + 2]) &&
                rows(i + 3) && words[i + 4] == "/" && one_of(words[i + 5], {":", "-"}))
                return i + 5;
            if (!one_of(words[i], {"-", ".", "to"}) && !number(words[i])) break;
        }
    // "1st row", "Next round", "Inc row:", "All even rows", "WS rows:"
    const auto listed = [&](std::size_t end) {  // "10th, 11th and 12th rows"
        return std::all_of(words.begin(), words.begin() + static_cast<std::ptrdiff_t>(end),
                           [](const std::string& word) {
                               return digit(word[0]) || one_of(word, {",", "and", "&"});
                           });
    };
    for (std::size_t i = 1; i < 8 && i < words.size(); ++i)
        if (rows(i) && words[i] != "r" &&
            (i < 5 || listed(i) || words[2] == "-" || words[1] == "-" ||
             (digit(words[0][0]) && !number(words[0]) && words[1] == "and"))) {
            const std::string& first = words[0];
            // "1st row", "2d row", and not "12dc x 7 rows"
            if (first.size() > 1 && digit(first[0]) && !number(first) &&
                (first.back() == 'd' || first.ends_with("st") || first.ends_with("th")))
                return i + 1;
            if (first == "one" && words[1] == "more" && i + 1 < words.size() &&
                one_of(words[i + 1], {":", "-"}))
                return i + 1;
            if (one_of(first,
                       {"next", "last", "final", "following", "first", "second", "third", "fourth",
                        "fifth", "sixth", "all", "every", "rs", "ws", "even", "odd"}))
                return i + 1;
            // "Cuff: Rnd 1 (right side):" is a heading and a row.
            if (std::find(words.begin(), words.begin() + static_cast<std::ptrdiff_t>(i), ":") !=
                words.begin() + static_cast<std::ptrdiff_t>(i))
                break;
            std::size_t behind = i + 1;
            if (behind < words.size() && number(words[behind])) ++behind;
            if (behind < words.size() && words[behind] == "(")
                while (behind < words.size() && words[behind] != ":") ++behind;
            const bool counted =
                behind > i + 1 &&
                !one_of(first,
                        {"rep", "repeat", "repeating", "work", "tip", "note", "hint", "follow"}) &&
                std::all_of(words.begin(), words.begin() + static_cast<std::ptrdiff_t>(i),
                            [](const std::string& word) { return letter(word[0]); });
            if (behind < words.size() && !one_of(first, {"tip", "note", "hint"}) &&
                (words[behind] == ":" ||
                 ((counted || (first == "pattern" && words.size() > 6)) && words[behind] == "-")) &&
                (i < 4 || words[2] == "-" || words[1] == "-"))
                return i + 1;
        }
    return 0;
}

bool bare_number(const std::vector<std::string>& words) {
    if (words.size() < 3 || !number(words[0])) return false;
    if (one_of(words[1], {".", ")", ":"})) return !digit(words[2][0]) || words[1] == ")";
    // "1 - [k4 in MC, k1 in CC] around"
    if (words[1] == "-" && one_of(words[2], {"[", "(", "*", "k", "p", "knit", "purl", "switching",
                                             "changing", "with", "using", "work"}))
        return true;
    if (words[1] == "-" && words[2].size() > 1 && (words[2][0] == 'k' || words[2][0] == 'p') &&
        digit(words[2][1]))
        return true;
    if (words.size() > 4 && one_of(words[1], {"and", "&"}) && one_of(words[2], {"all", "every"}))
        return true;  // "2 and all even rounds: k around"
    return words.size() > 4 && one_of(words[1], {"-", "to", "thru", "through"}) &&
           number(words[2]) &&
           (one_of(words[3], {".", ")", ":"}) || (words[3] == "-" && words[1].starts_with("thr")));
}

bool has_number(const std::vector<std::string>& words) {
    return std::any_of(words.begin(), words.end(), number);
}

/// "Ch 96, join with sl st to form a ring": what is done, where "rows 1-4 form the pattern" tells.
bool closes_a_ring(const std::vector<std::string>& words, std::size_t form) {
    return words[form] == "form" && words[form - 1] == "to" &&
           std::any_of(words.begin() + static_cast<std::ptrdiff_t>(form), words.end(),
                       [](const std::string& word) {
                           return one_of(word, {"ring", "circle", "loop", "tube", "round", "rnd"});
                       });
}

bool row_is_prose(const std::vector<std::string>& words) {
    // "Row 1 of the hand is worked into the ends of the cuff rows."
    const std::size_t label = row_words(words);
    if (label > 0 && label + 4 < words.size() && words[label] == "of" &&
        std::find(words.begin(), words.end(), ":") == words.end() &&
        std::find(words.begin(), words.end(), "same") == words.end() &&
        std::any_of(words.begin() + static_cast<std::ptrdiff_t>(label), words.end(),
                    [](const std::string& word) {
                        return one_of(word, {"is", "are", "will"});
                    }))
        return true;
    std::size_t sign = row_words(words);  // "Rnd 6 - 12 = sc in each st": a sign behind its label
    while (sign > 0 && sign < words.size() && (number(words[sign]) || words[sign] == "-")) ++sign;
    if (sign > 0 && sign + 2 < words.size() && words[sign] == "=" &&
        std::find(words.begin() + static_cast<std::ptrdiff_t>(sign) + 1, words.end(), "=") ==
            words.end() &&
        !(number(words[sign + 1]) && one_of(words[sign + 2], {"in", "inch", "inches", "cm", "\""})))
        return false;
    // "2 row - 6 inc = 12": the count behind the row
    const bool counted = words.size() > 4 && number(words[0]) && number(words.back()) &&
                         words[words.size() - 2] == "=";
    for (std::size_t i = 1; i < words.size() && i < 9; ++i)
        if (!closes_a_ring(words, i) && !(counted && row_words(words) > 0) &&
            !(i > 1 && one_of(words[i - 1], {"until", "till", "it"})) &&
            !(i > 2 && one_of(words[i - 2], {"until", "till"})) &&
            one_of(words[i], {"form", "forms", "sets", "set", "establish", "establishes",
                              "measures", "equals", "="}) &&
            i > row_words(words) &&
            std::find(words.begin(), words.begin() + static_cast<std::ptrdiff_t>(i), ":") ==
                words.begin() + static_cast<std::ptrdiff_t>(i))
            return words[i] != "set" || i > 3;
    return false;
}

bool only_label(const Line& line) {
    const auto words = words_of(line.text);
    const std::size_t label = row_words(words);
    if (label > 0 && words.size() >= label + 4 && words.size() <= label + 5 &&
        one_of(words[label], {"and", "&"}) && one_of(words[label + 1], {"all", "every"}))
        return true;  // "Round 2 and all even rounds"
    std::size_t end = label;
    while (label > 0 && end + 1 < words.size() &&
           one_of(words[end], {"-", "to", "and", ",", "&"}) && number(words[end + 1]))
        end += 2;  // "Rounds 2-14:"
    return label > 0 && words.size() <= end + 1 &&
           (words.size() == end || one_of(words.back(), {".", ":", "-"}));
}

bool counts_note(const std::string& text) {
    const std::string low = base::lower(text);
    const bool count =
        low.find("count as") != std::string::npos || low.find("counts as") != std::string::npos ||
        low.find("counted as") != std::string::npos || low.find("not count") != std::string::npos ||
        low.find("n't count") != std::string::npos || low.find("esnt count") != std::string::npos ||
        low.find("ont count") != std::string::npos || low.find("never counts") != std::string::npos;
    if (!count) return false;
    const auto words = words_of(low);
    if (words[0].size() > 2 && words[0].starts_with("ch") && digit(words[0].back()) &&
        words.size() > 1 && !one_of(words[1], {"counts", "count", "does", "at", "is"}))
        return false;  // "ch3 (counts as dc), ch1, ..."
    const std::size_t dash = words.size() > 2 && words[1] == "-" ? 1 : 0;  // "Chain-3 at ..."
    return row_words(words) == 0 && (low.find("ch") != std::string::npos) &&
           (!one_of(words[0], {"ch", "chain", "turn"}) ||
            (words.size() > 2 + dash &&
             one_of(words[2 + dash], {"at", "does", "counts", "do", "will", "doesn't", "doesnt",
                                      "dont", "wont", "don't", "won't", "never"})));
}

std::pair<std::size_t, std::size_t> definition_sign(const std::string& text) {
    for (const std::string_view sign :
         {" = ", "=", ": ", " --- ", " - ", " \xe2\x80\x93 ", " \xe2\x80\x94 ", "\xe2\x80\x93 "}) {
        const auto at = text.find(sign);
        if (at == std::string::npos || at == 0 || at > 48) continue;
        // A name has no digits before it but "fpdc2"; a row's label has.
        const auto words = words_of(text.substr(0, at));
        const auto named = std::count_if(words.begin(), words.end(), [](const std::string& word) {
            return letter(word[0]) || digit(word[0]);
        });
        if (named > 6 || words.size() > 9 || number(words.front())) return {0, 0};
        return {at, sign.size()};
    }
    return {0, 0};
}

std::size_t bracket_definition(const std::string& text) {
    const auto open = text.find('(');
    if (open == std::string::npos || open < 2 || open > 40 || text.find(')') != text.size() - 1 ||
        text.size() < open + 8)
        return 0;
    const auto name = words_of(text.substr(0, open));
    const auto meaning = words_of(text.substr(open + 1));
    return !name.empty() && name.size() <= 5 && letter(name.front()[0]) && row_words(name) == 0 &&
                   std::any_of(meaning.begin(), meaning.end(),
                               [](const std::string& word) { return digit(word[0]); })
               ? open
               : 0;
}

bool definition_line(const std::string& text) {
    const std::size_t at = definition_sign(text).first;
    return at > 0 && at < 48;
}

}  // namespace skeinfall::notation
