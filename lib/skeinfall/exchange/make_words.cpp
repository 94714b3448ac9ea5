#include "skeinfall/exchange/make_words.hpp"

#include <array>
#include <cstdint>
#include <regex>
#include <utility>
#include <vector>

#include "skeinfall/base/letters.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/count_words.hpp"
#include "skeinfall/exchange/detail/growth.hpp"
#include "skeinfall/exchange/detail/sides.hpp"
#include "skeinfall/exchange/name_words.hpp"
#include "skeinfall/project/stitches.hpp"
#include "skeinfall/project/thing_words.hpp"
#include "skeinfall/units/parse.hpp"

namespace skeinfall::exchange {
namespace {

const char* const piece_forms = "\"33 hdc x 96 rows\" or \"22 cm x 1.5 m\"";

using base::is_digit;
using detail::longest_answer;
using detail::no_such;
using detail::says_rounds;
using detail::says_rows;
using detail::says_stitches;
using detail::side_of;
using detail::two_sides;
using detail::whole;

std::string text_after(const std::string& text, std::size_t at) {
    return std::string(base::trimmed(std::string_view(text).substr(at)));
}

/// Words that may name what is counted.
bool names_thing(const std::string& words) {
    std::string first;
    for (const std::string& word : base::split(words, ' ')) {
        if (first.empty()) first = word;
        for (const char* sign : {"to", "x", "by"})
            if (base::same_word(word, sign)) return false;
    }
    for (const char* joint : {"or", "and", "&", "plus", "more"})
        if (base::same_word(first, joint)) return false;
    return !project::is_thing(first, project::Thing::measure);
}

/// "2 mitts" as a count and a name. "2 baby hat" may be one hat for two, so a count of what is no
/// plural wants a sign, or one word.
bool take_count(std::string& name, WrittenPiece& piece) {
    static const std::regex counted(R"(^(\d+)\s+(x\s+)?([A-Za-z].*)$)");
    std::smatch found;
    if (!std::regex_match(name, found, counted) || !names_thing(found[3])) return false;
    const auto count = whole(found[1]);
    if (!count || *count < 1) return false;
    if (!found[2].matched && *count > 1 && !may_be_counted(found[3])) return false;
    piece.count = *count;
    const std::string rest = found[3];
    name = rest;
    return true;
}

/// "33 hdc": a figure before it counts stitches.
bool names_stitch(const std::string& words) {
    return project::stitch_kind(base::lower(words), project::Craft::crochet, project::Terms::us)
               .has_value() ||
           project::stitch_kind(base::lower(words), project::Craft::knit, project::Terms::us)
               .has_value();
}

/// "8 ply scarf 33 hdc x 96 rows", "size 6 hat 80 sc x 30 rounds": the piece is told by the last
/// figures that make two sides.
void take_name_with_figures(std::string& text, WrittenPiece& piece) {
    for (std::size_t at = text.size(); at-- > 1;) {
        if (!is_digit(text[at]) || text[at - 1] != ' ') continue;
        const std::string rest = text.substr(at);
        const std::string name(base::trimmed(std::string_view(text).substr(0, at)));
        // "33 hdc, 40 sts x 20 rows" has two widths.
        const auto side = side_of(name.substr(0, name.find_last_not_of(", ") + 1));
        if (side && (side->rows() || says_stitches(side->word) || names_stitch(side->word)))
            continue;
        const bool letters = std::any_of(name.begin(), name.end(), [](char c) {
            return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z');
        });
        static const std::regex ends_in_sign(R"((?:^|\s|\d)(?:x|by|to|and|of|,)$)",
                                             std::regex::icase);
        if (!letters || std::regex_search(name, ends_in_sign) || !two_sides(rest)) continue;
        piece.name = name;
        text = rest;
        return;
    }
}

/// "triangle", "circle": the shape that a name says, where a width and a length do not make it.
std::string shape_in(const std::string& name) {
    static const std::regex shapes(
        R"(\b(triang(?:le|ular)|(?:3|three)[\s-]cornered|semi-?circ(?:le|ular)|oval|crescent)\b)",
        std::regex::icase);
    std::smatch found;
    return std::regex_search(name, found, shapes) ? found[1].str() : std::string();
}

std::optional<base::Problem> take_name(std::string_view given, std::string& text,
                                       WrittenPiece& piece, bool with_hint);

/// What may stand behind a count in place of a name that was not understood: the name itself where
/// it reads so.
std::string to_be_counted(const std::string& name) {
    const std::string kind = kind_of(name);
    for (const std::string& words : {name, kind, kind.substr(kind.rfind(' ') + 1)}) {
        WrittenPiece tried;
        std::string text = "6 " + words + ": 20 sts x 30 rows";
        if (!words.empty() && !take_name(text, text, tried, false) && tried.count == 6 &&
            !tried.name.empty())
            return words;
    }
    return "pieces";
}

/// How many there are and of what, from the text behind the colon or all of it. A problem where
/// they are counted twice.
std::optional<base::Problem> take_counted_sides(std::string_view given, std::string& text,
                                                WrittenPiece& piece, bool& counted) {
    static const std::regex several(
        R"(^(\d+)\s+(x\s+)?([A-Za-z][A-Za-z -]*?)(?:\s+(?:of|at)|\s*,)?\s+(\d.*)$)");
    static const std::regex squares(
        R"(^(.*\b(?:squares?|blocks?|motifs?|tiles?)),?\s+(?:of\s+|at\s+)?(\d[^a-z]*[a-z"']+)$)",
        std::regex::icase);
    static const std::regex named(R"(^([A-Za-z][A-Za-z' -]*?)(?:\s+of|\s*,)?\s+(\d.*)$)");
    std::smatch found;
    // "30 granny squares of 4 in": one side is said for both.
    if (std::regex_match(text, found, squares) && units::parse_length(found[2].str()))
        text = found[1].str() + " " + found[2].str() + " x " + found[2].str();
    if (std::regex_match(text, found, several) && names_thing(found[3]) &&
        !names_stitch(found[3]) && (found[2].matched || may_be_counted(found[3])) &&
        two_sides(found[4])) {
        const std::int64_t behind = whole(found[1]).value_or(1);
        if (counted && behind != piece.count)
            return no_such(given, "a piece", piece_forms, "It counts its pieces twice.");
        piece.count = behind;
        counted = true;
        if (piece.name.empty()) piece.name = found[3];
        const std::string size = found[4];
        text = size;
    } else if (piece.name.empty() && std::regex_match(text, found, named) && two_sides(found[2])) {
        piece.name = found[1];
        const std::string size = found[2];
        text = size;
    } else if (piece.name.empty() && !two_sides(text)) {
        take_name_with_figures(text, piece);
        // "coasters (4) 10 x 10 cm"
        piece.name = counted_in_figures(piece.name);
        counted = take_count(piece.name, piece);
        piece.count_in_name = counted;
    }
    return std::nullopt;
}

/// Its name and how many there are, taken off the text. A problem where it names more than one and
/// not how many.
std::optional<base::Problem> take_name(std::string_view given, std::string& text,
                                       WrittenPiece& piece, bool with_hint) {
    const std::string in_figures = counted_in_figures(text);
    const bool in_words = in_figures != text;
    text = in_figures;
    bool counted = false;
    if (const std::size_t colon = text.find(':'); colon != std::string::npos) {
        piece.name = counted_in_figures(std::string(base::trimmed(text.substr(0, colon))));
        text = text_after(text, colon + 1);
        counted = take_count(piece.name, piece);
        piece.count_in_name = counted;
    }
    if (auto problem = take_counted_sides(given, text, piece, counted)) return problem;
    piece.count_in_name = piece.count_in_name || (counted && in_words);
    if (const auto side = one_side_of(piece.name))
        return base::Problem{base::quoted(piece.name) + " may be worked twice over",
                             {},
                             "each side or layer counted, \"2 " +
                                 (with_hint ? to_be_counted(*side) : *side) + ": ...\"",
                             "Where it is one thickness, leave the words out of the name."};
    if (counted && !counts_again(piece.name)) return std::nullopt;
    if (!counted && comes_in_pairs(piece.name)) {
        piece.count = 2;
        piece.pair = true;
        return std::nullopt;
    }
    if (!counted && !names_several(piece.name)) return std::nullopt;
    const std::string hint = with_hint ? to_be_counted(piece.name) : piece.name;
    return base::Problem{base::quoted(piece.name) + " may be several, and it is not said how many",
                         {},
                         "a number before the name, such as \"6 " + hint + ": ...\"",
                         "One alone is \"1 " + hint + ": ...\"."};
}

/// "worked in the round", "back and forth": taken off the text; whether it is in rounds.
std::optional<bool> take_way_of_working(std::string& text) {
    static const std::string worked =
        R"(\s*[,(]?\s*\b(?:(?:worked|knit|knitted|crocheted|made)\s+)?)";
    static const std::regex round(
        worked +
            R"((?:(?:joined )?in (?:the round|(?:joined |continuous |spiral )?(?:rounds|rnds))|in a spiral)\b\)?)",
        std::regex::icase);
    static const std::regex flat(worked + R"((?:back and forth|flat)\)?(?=\s*(?:$|[,:])))",
                                 std::regex::icase);
    std::smatch found;
    for (const auto& [words, rounds] : {std::pair{&round, true}, std::pair{&flat, false}}) {
        if (!std::regex_search(text, found, *words)) continue;
        const std::string rest = found.prefix().str() + found.suffix().str();
        text = base::trimmed(rest);
        return rounds;
    }
    return std::nullopt;
}

}  // namespace

std::string plain_signs(std::string_view text) {
    static constexpr std::array<std::pair<std::string_view, std::string_view>, 27> signs{
        {{"\xe2\x80\x98", "'"},    {"\xe2\x80\x99", "'"},    {"\xe2\x80\xb2", "'"},
         {"\xe2\x80\x9c", "\""},   {"\xe2\x80\x9d", "\""},   {"\xe2\x80\xb3", "\""},
         {"\xe2\x80\x9e", "\""},   {"\xc3\x97", " x "},      {"\xe2\x80\x93", "-"},
         {"\xe2\x80\x94", "-"},    {"\xe2\x88\x92", "-"},    {"\xe2\x80\x90", "-"},
         {"\xe2\x80\x91", "-"},    {"\xc2\xa0", " "},        {"\xe2\x80\xaf", " "},
         {"\xe2\x80\x89", " "},    {"\xe2\x81\x84", "/"},    {"\xc2\xbd", " 1/2"},
         {"\xc2\xbc", " 1/4"},     {"\xc2\xbe", " 3/4"},     {"\xe2\x85\x93", " 1/3"},
         {"\xe2\x85\x94", " 2/3"}, {"\xe2\x85\x9b", " 1/8"}, {"\xe2\x85\x9c", " 3/8"},
         {"\xe2\x85\x9d", " 5/8"}, {"\xe2\x85\x9e", " 7/8"}, {"\t", " "}}};
    std::string out;
    for (std::size_t at = 0; at < text.size();) {
        bool met = false;
        for (const auto& [sign, plain] : signs) {
            if (!text.substr(at).starts_with(sign)) continue;
            const std::size_t next = at + sign.size();
            const bool thousands = plain == " " && sign != "\t" && !out.empty() &&
                                   is_digit(out.back()) && next < text.size() &&
                                   is_digit(text[next]);
            out += thousands ? sign : plain;
            at = next;
            met = true;
            break;
        }
        if (!met) out += text[at++];
    }
    // Two marks of feet as those of inches.
    for (std::size_t at = out.find("''"); at != std::string::npos; at = out.find("''", at))
        out.replace(at, 2, "\"");
    // "6'" is six feet; "20's" is a count of yarn.
    for (std::size_t at = out.find('\''); at != std::string::npos; at = out.find('\'', at + 1)) {
        const bool ends =
            at + 1 == out.size() || out[at + 1] == ' ' || out[at + 1] == ',' || out[at + 1] == 'x';
        if (at > 0 && is_digit(out[at - 1]) && ends) out.replace(at, 1, " ft");
    }
    return out.starts_with(" ") && !text.starts_with(" ") ? out.substr(1) : out;
}

std::string count_in_digits(const std::string& text) {
    static constexpr std::array<std::string_view, 12> words{"one",  "two", "three",  "four",
                                                            "five", "six", "seven",  "eight",
                                                            "nine", "ten", "eleven", "twelve"};
    for (std::size_t at = 0; at < words.size(); ++at) {
        const std::string word = std::string(words[at]) + " ";
        if (base::lower(text).starts_with(word))
            return std::to_string(at + 1) + " " + text.substr(word.size());
    }
    return text;
}

base::Result<WrittenPiece> parse_piece(std::string_view given) {
    std::string text(base::trimmed(plain_signs(given)));
    if (text.size() > longest_answer) return no_such(given, "a piece", "at most 200 letters");
    WrittenPiece piece;
    const std::optional<bool> in_rounds = take_way_of_working(text);
    static const std::regex terms(R"(\b([A-Za-z]+)\s*\((UK|US)\))");
    text = std::regex_replace(text, terms, "$2 $1");  // "33 dc (UK)"
    // "20 cm x 150 cm in garter", "80 sts x 50 rounds of sc"
    static const std::regex behind(
        R"(^(.*\d\s*[A-Za-z\x22\x27][A-Za-z\x22\x27 ]*?)\s+(?:of|in)\s+([A-Za-z][A-Za-z ]*)$)");
    if (std::smatch found; std::regex_match(text, found, behind)) {
        piece.stitch = found[2];
        const std::string before = found[1];
        text = before;
    }
    static const std::regex repeats(
        R"(\b(\d{1,4})\s+(?:[A-Za-z]+\s+)?(?:repeats?|reps?)\s+of\s+(\d{1,5})(?=\s*[A-Za-z]))",
        std::regex::icase);
    // "6 repeats of 12 sts x 180 rows" is one piece.
    if (std::smatch found; std::regex_search(text, found, repeats)) {
        const std::string sum =
            std::to_string(whole(found[1]).value_or(0) * whole(found[2]).value_or(0));
        const std::string all = found.prefix().str() + sum + found.suffix().str();
        text = all;
    }
    const auto growth = detail::take_growth(text);
    if (auto problem = detail::growth_not_read(std::string(given), text.substr(text.find(':') + 1)))
        return *std::move(problem);
    if (auto problem = take_name(given, text, piece, true)) return *std::move(problem);
    if (growth) {
        piece.increase = growth->increase;
        piece.every = growth->every;
    }
    const auto sides = two_sides(text);
    if (!sides) {
        static const std::regex bare(R"(\d[\d.]*\s*(?:x|by)\s*\d[\d.]*$)");
        if (std::regex_search(text, bare))
            return no_such(given, "a piece", piece_forms,
                           "Say what the figures are: stitches and rows, cm or in.");
        if (side_of(text))
            return no_such(given, "a piece", piece_forms,
                           "One figure alone is half of it: say how wide and how long.");
        return no_such(given, "a piece", piece_forms,
                       "A name may stand before a colon: \"scarf: 33 hdc x 96 rows\".");
    }
    auto [across, up] = *sides;
    if (across.rows() || (across.length.empty() == false && up.stitches())) std::swap(across, up);
    if (across.rows() || up.stitches())
        return no_such(given, "a piece", piece_forms, "Say \"rows\" behind the rows.");
    if (up.last_count || !up.last_length.empty())
        return no_such(given, "a piece", piece_forms, "Only its width may change.");
    if (across.count) {
        piece.stitches = across.count;
        if (!says_stitches(across.word)) {
            if (!piece.stitch.empty() && !base::same_word(piece.stitch, across.word))
                return no_such(given, "a piece", piece_forms,
                               "It is in " + base::quoted(across.word) + " and in " +
                                   base::quoted(piece.stitch) + ": say one stitch.");
            piece.stitch = across.word;
        }
    } else {
        piece.width = across.length;
    }
    if (growth && !growth->stitch.empty() && !base::same_word(growth->stitch, piece.stitch))
        return no_such(given, "a piece", piece_forms,
                       "It grows by " + base::quoted(growth->stitch) +
                           ", which is not its stitch: say it in the same.");
    piece.last_stitches = across.last_count;
    piece.last_width = across.last_length;
    const bool tapers = piece.last_stitches || !piece.last_width.empty();
    if (tapers && piece.increase != 0)
        return no_such(given, "a piece", piece_forms, "Say its taper once.");
    if (const std::string shape = shape_in(piece.name);
        !shape.empty() && !tapers && piece.increase == 0 && !up.count)
        return no_such(
            given, "a piece", "how it grows, \"1 st x 139 rows, 1 more every row\"",
            "A width and a length make a rectangle, and " + base::quoted(piece.name) + " is none.");
    if (up.count) {
        piece.rows = up.count;
        piece.round = in_rounds.value_or(says_rounds(up.word));
        if (says_rounds(up.word) && !piece.round)
            return no_such(given, "a piece", piece_forms, "It is in rounds and flat: say one.");
    } else {
        piece.length = up.length;
        piece.round = in_rounds.value_or(false);
    }
    return piece;
}

base::Result<WrittenGauge> parse_gauge(std::string_view given) {
    std::string text(base::trimmed(plain_signs(given)));
    const std::string forms = "\"14 sts and 10 rows per 10 cm\"";
    if (text.size() > longest_answer) return no_such(given, "a gauge", forms);
    WrittenGauge out;
    static const std::regex tool(R"(\b(?:on|with|using)\b.*\b(?:mm|hooks?|needles?)\b)",
                                 std::regex::icase);
    if (std::regex_search(text, tool))
        return no_such(given, "a gauge", forms,
                       "Leave the hook or needles out of it: they are a question of their own.");
    static const std::regex the_inch(R"(\b(?:to|per|over)\s+(?:the|an?|each|every)\s+inch\b)",
                                     std::regex::icase);
    text = std::regex_replace(text, the_inch, "per 1 in");
    static const std::regex in_stitch(
        R"(^(.*\d\s*(?:cm|mm|in|inch|inches|"))\s*(?:,\s*)?\bin\s+([A-Za-z][A-Za-z ]*)$)",
        std::regex::icase);
    if (std::smatch said; std::regex_match(text, said, in_stitch)) {
        out.stitch = said[2];
        const std::string before = said[1];
        text = before;
    }
    static const std::regex rows_first(
        R"(^(\d[\d.,/ ]*?)\s*(?:rows?|rounds?|rnds?)\s*(?:,|and|x|by|&|\+|/)\s*(\d[\d.,/ ]*?)\s*([A-Za-z][A-Za-z0-9 .]*?)\s*(per|to|over|in|=|/|for|on|each)\s*(.+)$)",
        std::regex::icase);
    text = std::regex_replace(text, rows_first, "$2 $3 and $1 rows $4 $5");
    static const std::regex one_span(
        R"(^(\d[\d.,/ ]*?)\s*([A-Za-z][A-Za-z0-9 .]*?)?\s*(?:,|and|x|by|&|\+|/)\s*(\d[\d.,/ ]*?)\s*(rows?|rounds?|rnds?|r)?\s*(?:per|to|over|in|=|/|for|on|each)\s*(.+)$)",
        std::regex::icase);
    static const std::regex two_spans(
        R"(^(\d[\d.,/ ]*?)\s*([A-Za-z][A-Za-z0-9.]*)?\s*(?:per|to|over|in|=|/)\s*(.+?)\s*(?:,|;| and )\s*(\d[\d.,/ ]*?)\s*(?:rows?|rounds?)\s*(?:per|to|over|in|=|/)\s*(.+)$)",
        std::regex::icase);
    std::smatch found;
    std::string stitches;
    std::string word;
    std::string rows;
    std::string span;
    std::string rows_span;
    if (std::regex_match(text, found, two_spans)) {
        stitches = found[1];
        word = found[2];
        span = found[3];
        rows = found[4];
        rows_span = found[5];
    } else if (std::regex_match(text, found, one_span)) {
        stitches = found[1];
        word = found[2];
        rows = found[3];
        span = found[5];
        rows_span = span;
    } else {
        if (units::parse_stitch_gauge(text))
            return no_such(given, "a gauge", forms, "The rows are missing.");
        return no_such(given, "a gauge", forms);
    }
    // "10 cm square": both ways.
    static const std::regex square(R"(\s*(?:square|sq\.?|both ways)$)", std::regex::icase);
    span = std::regex_replace(span, square, "");
    rows_span = std::regex_replace(rows_span, square, "");
    static const std::regex crossed(R"(^\d[\d.]*\s*(?:x)\s*(\d.*)$)");
    if (std::smatch both; std::regex_match(span, both, crossed)) {
        const std::string last = both[1];
        span = last;
        rows_span = last;
    }
    word = std::string(base::trimmed(word));
    if (!word.empty() && !says_stitches(word)) {
        if (!out.stitch.empty() && !base::same_word(out.stitch, word))
            return no_such(given, "a gauge", forms, "It names two stitches: say one.");
        out.stitch = word;
    }
    if (says_rows(word)) return no_such(given, "a gauge", forms, "The stitches come first.");
    out.stitches = std::string(base::trimmed(stitches)) + " per " + span;
    out.rows = std::string(base::trimmed(rows)) + " per " + rows_span;
    const auto across = units::parse_stitch_gauge(out.stitches);
    if (!across) return no_such(given, "a gauge", forms, across.problem().remedy);
    const auto up = units::parse_row_gauge(out.rows);
    if (!up) return no_such(given, "a gauge", forms, up.problem().remedy);
    return out;
}

base::Result<MeasuredRows> parse_measured_rows(std::string_view given) {
    const std::string text(base::trimmed(plain_signs(given)));
    const std::string forms = "\"12 rows: 6.5 x 4.25 in\"";
    static const std::regex form(
        R"(^(\d+)\s*(?:rows?|rounds?|rnds?)\s*(?::|,|=|measure|are)?\s*(\d[\d.,/ ]*?)\s*([A-Za-z"]+)?\s*(?:x|by)\s*(\d[\d.,/ ]*?)\s*([A-Za-z"]+)(?:\s*l(?:ong)?)?$)",
        std::regex::icase);
    std::smatch found;
    if (text.size() > longest_answer || !std::regex_match(text, found, form))
        return no_such(given, "what some rows measure", forms, "The width comes first.");
    const std::string unit = found[5];
    const auto rows = units::parse_whole(found[1].str());
    const auto width =
        units::parse_length(found[2].str() + " " + (found[3].matched ? found[3].str() : unit));
    const auto length = units::parse_length(found[4].str() + " " + unit);
    if (!rows || *rows < 1) return no_such(given, "what some rows measure", forms);
    if (!width) return no_such(given, "what some rows measure", forms, width.problem().remedy);
    if (!length) return no_such(given, "what some rows measure", forms, length.problem().remedy);
    return MeasuredRows{*rows, *width, *length};
}

std::string step_of_reading(std::string_view reading) {
    const std::string_view text = base::trimmed(reading);
    std::size_t end = text.size();
    while (end > 0 && !is_digit(text[end - 1])) --end;
    const std::string unit(base::trimmed(text.substr(end)));
    const std::string_view number = text.substr(0, end);
    const std::size_t mark = number.find_last_of(".,");
    std::string step = "1";
    if (number.find('/') != std::string_view::npos) {
        step = "0.25";
    } else if (mark != std::string_view::npos) {
        step = "0.";
        for (std::size_t i = mark + 2; i < number.size(); ++i) step += '0';
        step += '1';
    }
    return step + " " + unit;
}

base::Result<WrittenSwatch> parse_swatch(std::string_view given) {
    const std::string text(base::trimmed(plain_signs(given)));
    const std::string forms = "\"15 x 15 cm, 14 g\" or \"20 sts x 14 rows, 16.1 g\"";
    if (text.size() > longest_answer) return no_such(given, "a swatch", forms);
    WrittenSwatch out;
    std::string decimals;
    std::vector<std::string> parts;
    for (std::string& part : base::split(text, ',')) {
        // "6,5 g": a comma between digits is a decimal mark.
        if (!parts.empty() && !part.empty() && is_digit(part.front()) && !parts.back().empty() &&
            is_digit(parts.back().back()) &&
            text.find(parts.back() + "," + part) != std::string::npos)
            parts.back() += "," + part;
        else
            parts.push_back(std::move(part));
    }
    static const std::regex weighs(R"(^(.*?)\s+(?:weighs?|takes?|took|=|at)\s+(\d.*)$)",
                                   std::regex::icase);
    // "15x15cm 14g"
    static const std::regex beside(
        R"(^(.*(?:cm|mm|in|inch|inches|"|sts?|stitches|rows?|square))\s+(\d[\d.,/ ]*(?:g|gr|grams?|oz|ounces?|m|yds?|yards?|met(?:re|er)s?))$)",
        std::regex::icase);
    std::vector<std::string> all;
    for (const std::string& part : parts) {
        std::smatch found;
        if (std::regex_match(part, found, weighs) || std::regex_match(part, found, beside)) {
            all.push_back(found[1]);
            all.push_back(found[2]);
        } else {
            all.push_back(part);
        }
    }
    for (const std::string& part : all) {
        if (part.empty()) continue;
        if (const auto sides = two_sides(part)) {
            auto [across, up] = *sides;
            if (across.rows()) std::swap(across, up);
            if (across.stitches() && up.rows()) {
                out.stitches = across.count;
                if (!says_stitches(across.word)) out.stitch = across.word;
                out.rows = up.count;
                continue;
            }
            if (!across.length.empty() && !up.length.empty()) {
                out.width = across.length;
                out.height = up.length;
                continue;
            }
        } else if (units::parse_mass(part) && out.mass.empty()) {
            out.mass = part;
            out.scale = step_of_reading(part);
            continue;
        } else if (units::parse_length(part) && out.length.empty()) {
            out.length = part;
            continue;
        }
        return base::Problem{base::quoted(part) + " is not understood in a swatch", {}, forms, ""};
    }
    if (out.mass.empty() && out.length.empty())
        return no_such(given, "a swatch", forms,
                       "Weigh it without needles, or unravel it and measure its yarn.");
    if (!out.stitches && out.width.empty())
        return no_such(given, "a swatch", forms, "Count its stitches and rows, or measure it.");
    return out;
}

}  // namespace skeinfall::exchange
