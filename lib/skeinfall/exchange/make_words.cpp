#include "skeinfall/exchange/make_words.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <regex>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "skeinfall/base/letters.hpp"
#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/count_words.hpp"
#include "skeinfall/exchange/detail/amounts_in.hpp"
#include "skeinfall/exchange/detail/growth.hpp"
#include "skeinfall/exchange/detail/lying_double.hpp"
#include "skeinfall/exchange/detail/name_counts.hpp"
#include "skeinfall/exchange/detail/plain_piece.hpp"
#include "skeinfall/exchange/detail/ring_words.hpp"
#include "skeinfall/exchange/detail/shaped_piece.hpp"
#include "skeinfall/exchange/detail/sides.hpp"
#include "skeinfall/exchange/detail/strands.hpp"
#include "skeinfall/exchange/name_words.hpp"
#include "skeinfall/project/stitches.hpp"
#include "skeinfall/project/thing_words.hpp"
#include "skeinfall/units/parse.hpp"

namespace skeinfall::exchange {
namespace {

constexpr const char* growing_forms =
    "\"1 st x 139 rows, 1 more every row\" or \"6 sc x 12 rounds, 6 more every round\"";
const char* const piece_forms = "\"33 hdc x 96 rows\" or \"22 cm x 1.5 m\"";

using base::is_digit;
using detail::ends_in_length;
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
        if (!letters || std::regex_search(name, ends_in_sign) || ends_in_length(name) ||
            !two_sides(rest))
            continue;
        piece.name = name;
        text = rest;
        return;
    }
}

/// "triangle", "hexagons", "round rug": the shape that a name says, where a width and a length do
/// not make it.
std::string shape_in(const std::string& name) {
    static const std::regex shapes(
        R"(\b(triang(?:les?|ular)|(?:3|three)[\s-]cornered|(?:semi|half)[\s-]*circ(?:les?|ular)|half[\s-]moons?|ovals?|crescents?|(?:hex|oct|pent)agonal|heart[\s-]shaped|star[\s-]shaped|(?:round|circular)\s+(?:[a-z]+\s+)?(?:rugs?|mats?|coasters?|cushions?|pillows?|blankets?|placemats?|table\s?cloths?|throws?|shawls?|pot\s?holders?|trivets?|cloths?|dish\s?cloths?|pads?|base|bases|facecloths?|doil(?:y|ies)))\b)",
        std::regex::icase);
    std::smatch found;
    if (std::regex_search(name, found, shapes)) return found[1].str();
    return is_kind(name, project::Thing::shape) ? kind_of(name) : std::string();
}

std::optional<base::Problem> take_name(std::string_view given, std::string& text,
                                       WrittenPiece& piece, bool with_hint);

/// What may stand behind a count in place of a name that was not understood: the name itself where
/// it reads so.
std::string to_be_counted(const std::string& name) {
    const std::string kind = kind_of(name);
    for (const std::string& words :
         {collected_in(name).value_or(name), kind, kind.substr(kind.rfind(' ') + 1)}) {
        WrittenPiece tried;
        std::string text = "6 " + words + ": 20 sts x 30 rows";
        if (!words.empty() && !take_name(text, text, tried, false) && tried.count == 6 &&
            !tried.name.empty())
            return words;
    }
    return "pieces";
}

/// "48 sts x 70 rounds, pair", "... x 2", "... (make 2)", "20 x 20 cm each": what is said of how
/// many behind the size, taken off it. Nought: several, and not how many.
std::optional<std::int64_t> take_count_behind(std::string& text) {
    static const std::regex form(
        R"(^(.*\S)\s*(?:,\s*|\s|\()\(?\s*(?:(?:make|work|x|times|qty|quantity)\s*(\d{1,4}|[A-Za-z]+)|(\d{1,4}|[A-Za-z]+)\s+(?:of them|pieces|pcs|times)|((?:an?\s+|one\s+)?pair|both|twice)|(each|apiece))\s*\)?$)",
        std::regex::icase);
    std::smatch found;
    if (!std::regex_match(text, found, form)) return std::nullopt;
    std::string rest(base::trimmed(found[1].str()));
    while (!rest.empty() && (rest.back() == ',' || rest.back() == '(' || rest.back() == ' '))
        rest.pop_back();
    const std::string sides = rest.substr(rest.find(':') + 1);
    if (!two_sides(std::string(base::trimmed(sides)))) {
        WrittenPiece unnamed;
        std::string size = sides;
        take_name_with_figures(size, unnamed);
        if (!two_sides(std::string(base::trimmed(size)))) return std::nullopt;
    }
    std::optional<std::int64_t> count = 0;
    if (found[2].matched || found[3].matched)
        count = spoken_number(found[2].matched ? found[2].str() : found[3].str());
    else if (found[4].matched)
        count = 2;
    if (!count) return std::nullopt;
    text = rest;
    return count;
}

/// The count behind a size, beside what its name says. A problem where they differ.
std::optional<base::Problem> agree_on_count(std::string_view given, std::int64_t behind,
                                            WrittenPiece& piece, bool counted) {
    if (behind == 0) {
        if (piece.count > 1) return std::nullopt;
    } else if (!counted || piece.count == behind) {
        piece.pair = false;
        piece.count = behind;
        piece.count_in_name = behind > 1;
        return std::nullopt;
    } else {
        return no_such(given, "a piece", piece_forms, "It counts its pieces twice.");
    }
    const std::string name = piece.name.empty() ? "pieces" : to_be_counted(piece.name);
    return base::Problem{base::quoted(given) + " is of several, but does not say how many",
                         {},
                         "a number before the name, such as \"6 " + name + ": ...\"",
                         "One alone is \"1 " + name + ": ...\"."};
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
    static const std::regex of_each(R"(^([A-Za-z].*)\s+(?:of|at)\s+(\d.*)$)", std::regex::icase);
    // "dishcloths: a dozen of 20 x 20 cm"
    if (!counted && !piece.name.empty() && std::regex_match(text, found, of_each))
        if (const std::string of = counted_in_figures(found[1].str() + " " + piece.name);
            is_digit(of.front())) {
            const std::string size = found[2];
            piece.name = of;
            counted = take_count(piece.name, piece);
            piece.count_in_name = counted;
            text = size;
        }
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

/// "patchwork of 4 x 6: 10 x 10 cm": as many as both figures make.
std::optional<base::Problem> laid_in_a_grid(const std::string& name) {
    static const std::regex grid(
        R"((?:^|\D)(\d{1,3})\s*(?:x|by|times|rows?\s+of)\s*(\d{1,3})(?![\d.,]*\s*(?:-|mm|cm|in\b|inch)))",
        std::regex::icase);
    std::smatch found;
    if (!std::regex_search(name, found, grid)) return std::nullopt;
    const std::int64_t all = whole(found[1]).value_or(0) * whole(found[2]).value_or(0);
    return base::Problem{base::quoted(name) + " may be several, but does not say how many",
                         {},
                         "a number before the name, \"" + std::to_string(all) + " squares: ...\"",
                         "One alone has no figures in its name."};
}

/// "panels A to E", "sleeve 1/2", "3 off, sleeve": a name that may count, in a way that is not
/// read. As many as a range tells may stand before the name as well.
std::optional<base::Problem> count_not_read(const WrittenPiece& piece, bool counted,
                                            bool with_hint) {
    const auto series = detail::series_in(piece.name);
    if (!series && !detail::holds_unread_figure(piece.name)) return std::nullopt;
    if (series && counted && piece.count == series->count) return std::nullopt;
    const std::string count =
        series && series->count > 1 ? std::to_string(series->count) : std::string("6");
    std::string of = series ? series->of : piece.name;
    if (with_hint) of = to_be_counted(of);
    return base::Problem{base::quoted(piece.name) + " may be several, but does not say how many",
                         {},
                         "a number before the name, such as \"" + count + " " + of + ": ...\"",
                         "One alone has neither figures nor a range in its name."};
}

/// Its name and how many there are, taken off the text. A problem where it names more than one and
/// not how many.
std::optional<base::Problem> take_name(std::string_view given, std::string& text,
                                       WrittenPiece& piece, bool with_hint) {
    const std::optional<std::int64_t> behind = take_count_behind(text);
    const std::string in_figures = counted_in_figures(text);
    const bool in_words = in_figures != text;
    text = in_figures;
    bool counted = false;
    if (const std::size_t colon = text.find(':'); colon != std::string::npos) {
        if (auto grid = laid_in_a_grid(text.substr(0, colon))) return grid;
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
    if (auto unread = count_not_read(piece, counted || behind.value_or(0) > 0, with_hint))
        return unread;
    if (behind) return agree_on_count(given, *behind, piece, counted);
    if (counted && !counts_again(piece.name)) return std::nullopt;
    if (!counted && comes_in_pairs(piece.name)) {
        piece.count = 2;
        piece.pair = true;
        return std::nullopt;
    }
    if (!counted && !names_several(piece.name)) return std::nullopt;
    const std::string hint = with_hint ? to_be_counted(piece.name) : piece.name;
    return base::Problem{base::quoted(piece.name) + " may be several, but does not say how many",
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

/// "one layer", "laid open": taken off the text.
bool take_one_layer(std::string& text) {
    static const std::regex said(
        R"(\s*[,(]?\s*\b(?:(?:one|single|1)[\s-](?:layer(?:ed)?|thickness)|laid (?:open|out)|opened out|unfolded)\b\)?)",
        std::regex::icase);
    std::smatch found;
    if (!std::regex_search(text, found, said)) return false;
    const std::string rest = found.prefix().str() + found.suffix().str();
    text = base::trimmed(rest);
    return true;
}

}  // namespace

std::string plain_signs(std::string_view text) {
    static constexpr std::array<std::pair<std::string_view, std::string_view>, 30> signs{
        {{"\xe2\x80\x98", "'"},    {"\xe2\x80\x99", "'"},    {"\xe2\x80\xb2", "'"},
         {"\xe2\x80\x9c", "\""},   {"\xe2\x80\x9d", "\""},   {"\xe2\x80\xb3", "\""},
         {"\xe2\x80\x9e", "\""},   {"\xc3\x97", " x "},      {"\xe2\x9c\x95", " x "},
         {"\xe2\x9c\x96", " x "},  {"\xe2\xa8\xaf", " x "},  {"\xe2\x80\x93", "-"},
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
    // One blank says as much as many, and the forms below look at each of them more than once.
    out.erase(
        std::unique(out.begin(), out.end(), [](char a, char b) { return a == ' ' && b == ' '; }),
        out.end());
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

bool speaks_of_strands(const std::string& text) {
    return detail::says_strands_together(text);
}

namespace {

/// A piece; `explains`: where it is none, the part that is one is looked for.
/// "20 cm x 150 cm in garter" without its stitch, which goes into the piece; "6 repeats of 12 sts"
/// as 72.
std::string with_its_stitch(std::string text, WrittenPiece& piece) {
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
    return text;
}

base::Result<WrittenPiece> piece_in(std::string_view given, bool explains);

/// "scarf 20 cm by 150 cm, 5 mm hook": the piece in front, and what stands behind it.
std::optional<base::Problem> more_than_a_piece(const std::string& given) {
    static const std::array<std::string_view, 6> parting{", ",    " with ", " plus ",
                                                         " and ", " in ",   " on "};
    for (std::size_t at = given.size(); at-- > 1;)
        for (const std::string_view sign : parting) {
            if (!std::string_view(given).substr(at).starts_with(sign)) continue;
            const std::string piece(base::trimmed(std::string_view(given).substr(0, at)));
            const std::string rest(base::trimmed(std::string_view(given).substr(at + sign.size())));
            if (rest.empty() || !piece_in(piece, false)) continue;
            return base::Problem{
                base::quoted(rest) + " behind the size is not understood as part of a piece",
                {},
                "the piece alone, \"" + piece + "\"",
                "Stitch, hook, yarn, colours and what comes on top have answers of their own."};
        }
    return std::nullopt;
}

/// Why no two sides are in it, and what would be right.
base::Problem sides_not_read(std::string_view given, const WrittenPiece& piece,
                             const std::string& text, bool explains) {
    static const std::regex bare(R"(\d[\d.]*\s*(?:x|by)\s*\d[\d.]*$)");
    if (std::regex_search(text, bare))
        return no_such(given, "a piece", piece_forms,
                       "Say what the figures are: stitches and rows, cm or in.");
    if (!shape_in(piece.name).empty() || !shape_in(text).empty() ||
        project::speaks_of(piece.name + " " + text, project::Thing::shape))
        return no_such(given, "a piece", growing_forms,
                       "A round or pointed piece goes by its stitches, and how they grow.");
    if (auto sizeless = detail::no_size(given, piece.name, text)) return *std::move(sizeless);
    static const std::regex named(R"(^([A-Za-z][A-Za-z' -]*?)\s*[,:]?\s+(\d.*)$)");
    std::smatch found;
    const bool one = std::regex_match(text, found, named) && side_of(found[2]);
    if (one || side_of(text)) {
        const std::string name = one ? found[1].str() : piece.name;
        const auto side = side_of(one ? found[2].str() : text);
        std::string expected = piece_forms;
        if (!name.empty() && side && !side->length.empty() && side->last_length.empty())
            expected = "\"" + name + ": " + side->length +
                       (side->way == detail::Way::round ? " around x 20 cm\""
                        : side->way == detail::Way::up  ? " long x 20 cm wide\""
                                                        : " x 20 cm\"");
        return no_such(given, "a piece", expected,
                       "One figure alone is half of it: say how wide and how long.");
    }
    if (explains)
        if (auto more = more_than_a_piece(std::string(base::trimmed(plain_signs(given)))))
            return *std::move(more);
    return no_such(given, "a piece", piece_forms,
                   "Give stitches and rows, or width and length. A name goes before a colon: "
                   "\"scarf: 33 hdc x 96 rows\".");
}

base::Result<WrittenPiece> piece_in(std::string_view given, bool explains) {
    std::string text(base::trimmed(plain_signs(given)));
    if (text.size() > longest_answer) return no_such(given, "a piece", "at most 200 letters");
    text = detail::in_usual_order(text);
    WrittenPiece piece;
    piece.ring = detail::take_ring(text);
    const std::optional<bool> in_rounds = take_way_of_working(text);
    const bool one_layer = take_one_layer(text);
    const std::string strands = detail::take_strands(text);
    const detail::SaidShape said = detail::take_shape(text);
    text = with_its_stitch(std::move(text), piece);
    const auto growth = detail::take_growth(text);
    if (auto problem = detail::growth_not_read(std::string(given), text.substr(text.find(':') + 1)))
        return *std::move(problem);
    if (auto problem = take_name(given, text, piece, true)) return *std::move(problem);
    if (!said.shape.empty() && growth)
        return no_such(given, "a piece", piece_forms,
                       base::quoted(said.shape) + " says how it grows.");
    piece.shape = said.shape;
    piece.blocks = said.blocks;
    piece.corners = said.corners;
    if (!strands.empty()) piece.name += (piece.name.empty() ? "piece, " : ", ") + strands;
    if (growth) {
        piece.increase = growth->increase;
        piece.every = growth->every;
    }
    if (auto doubt = detail::doubtful_figures(piece.name, text)) return *std::move(doubt);
    const auto sides = two_sides(text);
    if (!sides) return sides_not_read(given, piece, text, explains);
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
        !shape.empty() && !tapers && piece.increase == 0 && !up.count && piece.shape.empty())
        return no_such(
            given, "a piece",
            base::lower(shape).starts_with("triang")
                ? "its shape in full, " + detail::triangles_by_size()
                : std::string("how it grows, ") + growing_forms,
            "A width and a length make a rectangle, and " + base::quoted(shape) + " is none.");
    if (tapers && !piece.shape.empty())
        return no_such(given, "a piece", piece_forms,
                       base::quoted(piece.shape) + " says how it grows.");
    if (up.count) {
        piece.rows = up.count;
        piece.round = in_rounds.value_or(says_rounds(up.word));
        if (says_rounds(up.word) && !piece.round)
            return no_such(given, "a piece", piece_forms, "It is in rounds and flat: say one.");
    } else {
        piece.length = up.length;
        // "20 in around" is no width of a flat piece.
        piece.round = in_rounds.value_or(across.way == detail::Way::round);
    }
    // Both are worked in double crochet where nobody says another stitch.
    if ((piece.shape == "granny square" || piece.blocks) && piece.stitch.empty())
        piece.stitch = "dc";
    if (auto problem = detail::no_ends_to_sew(piece)) return *std::move(problem);
    const bool told = !piece.shape.empty() || one_layer || piece.ring || tapers || in_rounds ||
                      piece.round || across.way == detail::Way::round;
    if (auto problem = detail::may_lie_double(piece, told)) return *std::move(problem);
    return piece;
}

}  // namespace

base::Result<WrittenPiece> parse_piece(std::string_view given) {
    return piece_in(given, true);
}

}  // namespace skeinfall::exchange
