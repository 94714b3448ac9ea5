#include "skeinfall/exchange/detail/name_counts.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <regex>
#include <set>
#include <string_view>
#include <utility>
#include <vector>

#include "skeinfall/base/letters.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/count_words.hpp"
#include "skeinfall/project/thing_words.hpp"
#include "skeinfall/units/parse.hpp"

namespace skeinfall::exchange::detail {
namespace {

using project::is_thing;
using project::Thing;

/// A word or a sign of a name in small letters, and where it stands.
struct Token {
    std::string text;
    std::size_t begin = 0;
    std::size_t end = 0;
};

bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '\'' ||
           static_cast<unsigned char>(c) >= 0x80U;
}

std::vector<Token> tokens_of(const std::string& name) {
    const std::string low = base::lower(name);
    std::vector<Token> out;
    for (std::size_t at = 0; at < low.size();) {
        const std::size_t begin = at;
        const auto of_word = [&](char c) { return is_letter(c) || base::is_digit(c); };
        if (low[at] == ' ') {
            ++at;
            continue;
        }
        if (of_word(low[at]))
            while (at < low.size() && of_word(low[at])) ++at;
        else if (low.compare(at, 2, "..") == 0)
            while (at < low.size() && low[at] == '.') ++at;
        else
            ++at;
        out.push_back({low.substr(begin, at - begin), begin, at});
    }
    return out;
}

bool all_digits(const std::string& text) {
    return !text.empty() && std::all_of(text.begin(), text.end(), base::is_digit);
}

std::optional<std::int64_t> roman(const std::string& word) {
    static constexpr std::array<std::string_view, 20> numerals{
        "i",  "ii",  "iii",  "iv",  "v",  "vi",  "vii",  "viii",  "ix",  "x",
        "xi", "xii", "xiii", "xiv", "xv", "xvi", "xvii", "xviii", "xix", "xx"};
    const auto found = std::find(numerals.begin(), numerals.end(), word);
    if (found == numerals.end()) return std::nullopt;
    return found - numerals.begin() + 1;
}

std::optional<std::int64_t> ordinal(const std::string& word) {
    static constexpr std::array<std::string_view, 12> words{
        "first",   "second", "third", "fourth", "fifth",    "sixth",
        "seventh", "eighth", "ninth", "tenth",  "eleventh", "twelfth"};
    if (const auto found = std::find(words.begin(), words.end(), word); found != words.end())
        return found - words.begin() + 1;
    static const std::regex figure(R"(^(\d{1,3})(?:st|nd|rd|th)$)");
    std::smatch parts;
    if (!std::regex_match(word, parts, figure)) return std::nullopt;
    return spoken_number(parts[1]);
}

/// What one of a series is: its place by letter, by numeral and by number, where it has one.
struct Place {
    std::optional<std::int64_t> letter, numeral, number;
    std::string before = {};  ///< "a" of "a1": the number counts beside the same alone
};

Place place_of(const std::string& word) {
    Place out;
    if (word.size() == 1 && word[0] >= 'a' && word[0] <= 'z') out.letter = word[0] - 'a' + 1;
    out.numeral = roman(word);
    static const std::regex lettered(R"(^([a-wyz])(\d{1,3})$)");
    if (std::smatch parts; std::regex_match(word, parts, lettered)) {
        out.before = parts[1];
        out.number = spoken_number(parts[2]);
        return out;
    }
    constexpr std::int64_t most = 999;
    constexpr std::int64_t most_in_words = 12;
    if (const auto number = ordinal(word)) {
        out.number = number;
    } else if (word.size() > 2 || all_digits(word)) {
        const auto spoken = spoken_number(word);
        const bool article = word == "the";
        if (spoken && !article && *spoken <= (all_digits(word) ? most : most_in_words))
            out.number = spoken;
    }
    return out;
}

/// Both in the way that they have in common, numerals before letters.
std::optional<std::pair<std::int64_t, std::int64_t>> alike(const Place& a, const Place& b) {
    if (a.numeral && b.numeral) return std::pair{*a.numeral, *b.numeral};
    if (a.letter && b.letter) return std::pair{*a.letter, *b.letter};
    if (a.number && b.number && a.before == b.before) return std::pair{*a.number, *b.number};
    return std::nullopt;
}

bool spans(const std::string& word) {
    for (const std::string_view sign : {"-", "to", "thru", "through", "until", "till", "~"})
        if (word == sign) return true;
    return word.starts_with("..");
}

bool lists(const std::string& word) {
    for (const std::string_view sign : {",", "/", "&", "+", "and", "or", ";", "|"})
        if (word == sign) return true;
    return false;
}

bool measures(const std::vector<Token>& words, std::size_t at) {
    if (at < words.size() && words[at].text == "-") ++at;
    if (at >= words.size()) return false;
    // "panels 1-5 in blue"
    if (words[at].text == "in") return at + 1 >= words.size() || !is_letter(words[at + 1].text[0]);
    return words[at].text == "\"" || words[at].text == "%" ||
           is_thing(words[at].text, Thing::measure);
}

/// Figures of a size, of an age or of a fraction, and letters that are no labels.
bool is_no_series(const std::vector<Token>& words, std::size_t first, std::size_t behind,
                  std::size_t count, bool span) {
    const auto word = [&](std::size_t at) {
        return at < words.size() ? words[at].text : std::string();
    };
    const std::string before = first > 0 ? words[first - 1].text : std::string();
    const std::string& a = words[first].text;
    const std::string& b = words[behind - 1].text;
    if (is_thing(before, Thing::size) || before == "sizes" || before == "age" || before == "ages" ||
        before == "aged" || before == "hundred" || before == "thousand")
        return true;
    if (measures(words, behind)) return true;
    if (is_thing(a, Thing::size) && is_thing(b, Thing::size) && !all_digits(a)) return true;
    if (count != 2 || span) return false;
    // Black and white, crosses and noughts; left and right are asked about elsewhere.
    for (const auto& [one, other] : std::array<std::pair<std::string_view, std::string_view>, 4>{
             {{"b", "w"}, {"x", "o"}, {"l", "r"}, {"r", "l"}}})
        if (a == one && b == other) return true;
    const bool close = words[first].end == words[first + 1].begin &&
                       words[first + 1].end == words[first + 2].begin;
    if (!close || !all_digits(a) || !all_digits(b)) return false;
    const std::string& sign = words[first + 1].text;
    if (sign == ",") return true;  // "1,5", "10,000"
    if (sign != "/") return false;
    const auto low = spoken_number(a);
    const auto high = spoken_number(b);
    // "8/4 cotton", "3/4 sleeve"
    const std::string next = word(behind);
    for (const std::string_view noun :
         {"sleeve", "sleeves", "sleeved", "length", "circle", "moon", "scale", "dozen", "score"})
        if (next == noun) return true;
    return low && high && *low > *high;
}

/// The series that begins with a word; `behind` its end.
std::optional<std::int64_t> series_from(const std::vector<Token>& words, std::size_t first,
                                        std::size_t& behind) {
    const Place start = place_of(words[first].text);
    std::set<std::int64_t> places;
    std::size_t at = first;
    bool span = false;
    for (;;) {
        std::size_t next = at + 1;
        if (next >= words.size()) break;
        const bool to = spans(words[next].text);
        // "panel A B C"
        const auto a = place_of(words[at].text).letter;
        const auto b = place_of(words[next].text).letter;
        const bool bare = a && b && *b == *a + 1;
        if (!to && !bare && !lists(words[next].text)) break;
        if (!bare) ++next;
        if (next < words.size() && words[next - 1].text == "," && lists(words[next].text)) ++next;
        // "panel A, panel B"
        if (next < words.size() && first > 0 && words[next].text == words[first - 1].text) ++next;
        if (next >= words.size()) break;
        const auto both = alike(start, place_of(words[next].text));
        const auto last = alike(place_of(words[at].text), place_of(words[next].text));
        if (!both || !last) break;
        if (to && last->second <= last->first) break;
        places.insert(both->first);
        places.insert(last->first);
        for (std::int64_t one = to ? last->first : last->second; one <= last->second; ++one)
            places.insert(one);
        span = span || to;
        at = next;
    }
    if (places.size() < 2) return std::nullopt;
    behind = at + 1;
    const auto count = static_cast<std::int64_t>(places.size());
    if (is_no_series(words, first, behind, places.size(), span)) return std::nullopt;
    return count;
}

/// Shoes and garments have sizes of two figures: "socks 38-39".
bool are_sizes_of_worn(const std::string& name, const std::string& a, const std::string& b) {
    constexpr std::int64_t least = 34;
    constexpr std::int64_t apart = 8;
    const auto low = spoken_number(a);
    const auto high = spoken_number(b);
    if (!all_digits(a) || !all_digits(b) || !low || !high) return false;
    if (*low < least || *high <= *low || *high - *low > apart) return false;
    for (const Thing worn : {Thing::pair, Thing::hollow, Thing::one})
        if (project::speaks_of(name, worn)) return true;
    return false;
}

/// A figure with letters on it that says which, of what kind or how big: "2xl", "1st", "8ply",
/// "a4".
bool is_label(const std::string& word) {
    std::size_t figures = 0;
    while (figures < word.size() && base::is_digit(word[figures])) ++figures;
    if (figures == 0) {
        const std::string letters = word.substr(0, word.find_first_of("0123456789"));
        return letters != "x" && letters != "q" && !is_thing(letters, Thing::counter) &&
               !is_thing(letters, Thing::bids) && letters != "all" && letters != "of";
    }
    const std::string letters = word.substr(figures);
    for (const std::string_view ending : {"st", "nd", "rd", "th", "d", "t", "s", "c"})
        if (letters == ending) return true;
    return is_thing(word, Thing::size) || is_thing(letters, Thing::measure);
}

std::optional<std::int64_t> spoken_or_figures(const std::string& text) {
    if (const auto one = spoken_number(text)) return one;
    const std::string things = counted_in_figures(text + " things");
    static const std::regex counted(R"(^(\d{1,5})\s+(?:x\s+)?things$)");
    std::smatch found;
    if (!std::regex_match(things, found, counted)) return std::nullopt;
    return spoken_number(found[1]);
}

/// "6 (six) cloths", "six [6] cloths", "(6) cloths".
std::optional<std::string> said_twice(const std::string& text) {
    static const std::regex form(
        R"(^(?:(\d{1,5}|[A-Za-z]+(?:[ -][A-Za-z]+){0,3})\s*)?[(\[]\s*(\d{1,5}|[A-Za-z]+(?:[ -][A-Za-z]+){0,3})\s*[)\]]\s*(?:x\s+|of\s+)?([A-Za-z].*)$)");
    std::smatch found;
    if (!std::regex_match(text, found, form)) return std::nullopt;
    const auto inside = spoken_or_figures(found[2]);
    if (!inside || base::same_word(found[2].str(), "a") || base::same_word(found[2].str(), "the"))
        return std::nullopt;
    if (found[1].matched && spoken_or_figures(found[1]) != inside) return std::nullopt;
    return std::to_string(*inside) + " x " + found[3].str();
}

}  // namespace

std::string without_age(const std::string& name) {
    static const std::regex age(
        R"([\s,(\[]*\b(?:aged?\s+(?:of\s+)?)?\d{1,2}(?:\s*(?:-|to|/)\s*\d{1,2})?[\s-]*(?:months?|mths?|mos?|years?|yrs?|yo)\b\.?(?:\s+olds?\b)?[\])]*|[\s,(\[]*\b(?:aged?|ages)\s+\d{1,2}(?:\s*(?:-|to|/)\s*\d{1,2})?\b[\])]*)",
        std::regex::icase);
    const std::string out(base::trimmed(std::regex_replace(name, age, "")));
    return out.empty() ? name : out;
}

std::optional<NamedSeries> series_in(const std::string& given) {
    const std::string name = without_age(given);
    const std::vector<Token> words = tokens_of(name);
    for (std::size_t first = 0; first < words.size(); ++first) {
        std::size_t behind = 0;
        const auto count = series_from(words, first, behind);
        if (!count || are_sizes_of_worn(name, words[first].text, words[behind - 1].text)) continue;
        NamedSeries out{first == 0 && behind < words.size() ? 0 : *count, {}};
        std::string rest = name.substr(0, words[first].begin) + name.substr(words[behind - 1].end);
        static const std::regex marks(R"([\s,:(\[]*[\])]+|[(\[]|[\s,:-]+$|^[\s,:-]+)");
        out.of = std::string(base::trimmed(std::regex_replace(rest, marks, " ")));
        return out;
    }
    return std::nullopt;
}

bool holds_unread_figure(const std::string& given) {
    const std::string name = without_age(given);
    const std::vector<Token> words = tokens_of(name);
    constexpr std::int64_t first_year = 1900;
    constexpr std::int64_t last_year = 2100;
    const auto text = [&](std::size_t at) {
        return at < words.size() ? words[at].text : std::string();
    };
    for (std::size_t at = 0; at < words.size(); ++at) {
        const std::string& word = words[at].text;
        if (word.find_first_of("0123456789") == std::string::npos) continue;
        if (!all_digits(word)) {
            if (!is_label(word)) return true;
            continue;
        }
        std::size_t before = at;
        const auto links = [&](const std::string& one) {
            return one == "." || spans(one) || lists(one) || all_digits(one);
        };
        while (before > 0 && links(text(before - 1))) --before;
        const std::string ahead = before > 0 ? text(before - 1) : std::string();
        const auto number = spoken_number(word);
        const bool year = number && *number >= first_year && *number <= last_year;
        const bool beside = at + 2 < words.size() && words[at].end == words[at + 1].begin &&
                            words[at + 1].end == words[at + 2].begin && all_digits(text(at + 2));
        if (year || measures(words, at + 1) || is_thing(ahead, Thing::numbered) ||
            is_thing(ahead, Thing::size) || ahead == "#")
            continue;
        // "Hat 1.5", "8/4 cotton", "3/4 sleeve", "size 2-4", "socks 38-39"
        const std::string sign = text(at + 1);
        const bool joined =
            beside && (sign == "." || (sign == "/" && is_no_series(words, at, at + 3, 2, false)) ||
                       are_sizes_of_worn(name, word, text(at + 2)));
        if (!joined) return true;
        at += 2;
    }
    return false;
}

std::optional<std::int64_t> count_alone(const std::string& name) {
    static const std::regex form(
        R"(^[(\[]?\s*(?:x\s*|all\s+(?:of\s+(?:the\s+)?)?|the\s+|qty\.?:?\s*|quantity:?\s*)?(\d{1,5}|[a-z]+(?:-[a-z]+)?)(?:\s*(?!(?:of|in|them|these|those|this|it|the|alike|total|needed|required)\b)([a-z]+)\.?)?(?:\s+(?:of\s+)?(?:them|these|those|this|it|the same|alike|in all|in total|total|needed|required))?\s*[)\]]?$)");
    std::string low = base::lower(base::trimmed(name));
    if (const std::size_t blank = low.find(' ');
        blank < low.size() && is_thing(low.substr(0, blank), Thing::bids))
        low = std::string(base::trimmed(std::string_view(low).substr(blank)));
    std::smatch found;
    if (!std::regex_match(low, found, form)) return std::nullopt;
    const std::string word = found[1];
    const std::string unit = found[2];
    for (const auto& [said, times] :
         std::array<std::pair<std::string_view, std::int64_t>, 2>{{{"twice", 2}, {"thrice", 3}}})
        if (word == said && unit.empty()) return times;
    if (!unit.empty() && unit != "x" && unit != "times" && !is_thing(unit, Thing::counter))
        return std::nullopt;
    for (const std::string_view article : {"a", "an", "the"})
        if (word == article) return std::nullopt;
    return spoken_or_figures(word);
}

std::string count_plainly(const std::string& given) {
    constexpr auto icase = std::regex::icase;
    static const std::regex dozens(
        R"(^((?:\d[\d.,/ ]*|[A-Za-z -]+\s)?\s*)(?:dz|dzn|doz|dozn)\b\.?)", icase);
    static const std::regex all(
        R"(^(?:all|the|these|those|my|our)\s+(?:of\s+)?(?:the\s+|my\s+|our\s+|these\s+)?(?=\d|[A-Za-z-]+\s))",
        icase);
    static const std::regex unit(
        R"(^(\d{1,5}|[A-Za-z]+)(\s*)([A-Za-z]+)(\.\s*|\s+)(?:of\s+|x\s+)?([A-Za-z].*)$)", icase);
    static const std::regex thousands(R"(^(\d{1,2}),(\d{3})\s+([A-Za-z]+)\b)");
    std::string text = std::regex_replace(given, dozens, "$1 dozen");
    std::smatch found;
    if (std::regex_search(text, found, thousands) && !is_thing(found[3].str(), Thing::measure)) {
        const std::string plain =
            found[1].str() + found[2].str() + " " + found[3].str() + found.suffix().str();
        text = plain;
    }
    if (std::regex_search(text, found, all)) {
        const std::string rest = found.suffix();
        const auto number = spoken_number(rest.substr(0, rest.find(' ')));
        const bool article = base::lower(rest).starts_with("the ") ||
                             base::lower(rest).starts_with("a ") ||
                             base::lower(rest).starts_with("an ");
        if (number && *number > 1 && !article) text = rest;
    }
    if (auto plain = said_twice(text)) return *plain;
    if (!std::regex_match(text, found, unit)) return text;
    const std::string sign = base::lower(found[3].str());
    const auto number = spoken_number(found[1]);
    if (!number || *number < 2 || !is_thing(sign, Thing::counter)) return text;
    // "3 no fringe scarves" are without fringe.
    if (sign == "no" && found[2].length() > 0 && found[4].str().front() != '.') return text;
    return std::to_string(*number) + " x " + found[5].str();
}

}  // namespace skeinfall::exchange::detail
