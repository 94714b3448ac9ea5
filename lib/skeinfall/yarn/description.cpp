#include "skeinfall/yarn/description.hpp"

#include <algorithm>
#include <array>

#include "skeinfall/base/letters.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/yarn/detail/strand_words.hpp"
#include "skeinfall/yarn/fibre_facts.hpp"
#include "skeinfall/yarn/label_text.hpp"
#include "skeinfall/yarn/regional_names.hpp"

namespace skeinfall::yarn {
namespace {

using base::Problem;

using base::is_digit;

struct Part {
    std::string_view text;
    std::size_t column = 0;  ///< from 0
};

/// Pieces between commas; a comma between two digits belongs to a number.
std::vector<Part> parts_of(std::string_view text) {
    std::vector<Part> parts;
    std::size_t start = 0;
    for (std::size_t i = 0; i <= text.size(); ++i) {
        const bool separates =
            i == text.size() || (text[i] == ',' && !(i > 0 && is_digit(text[i - 1]) &&
                                                     i + 1 < text.size() && is_digit(text[i + 1])));
        if (!separates) continue;
        const std::string_view piece = text.substr(start, i - start);
        const std::string_view inside = base::trimmed(piece);
        const std::size_t lead = inside.empty() ? 0 : piece.find(inside.front());
        parts.push_back({inside, start + lead});
        start = i + 1;
    }
    return parts;
}

/// `text` after a leading `word`, or nothing.
std::optional<std::string_view> after(std::string_view text, std::string_view word) {
    if (text.size() <= word.size() || !base::same_word(text.substr(0, word.size()), word))
        return std::nullopt;
    return base::trimmed(text.substr(word.size()));
}

/// `text` before a closing word of the list, or nothing.
template <std::size_t N>
std::optional<std::string_view> before(std::string_view text,
                                       const std::array<std::string_view, N>& words) {
    for (const std::string_view word : words)
        if (text.size() > word.size() &&
            base::same_word(text.substr(text.size() - word.size()), word))
            return base::trimmed(text.substr(0, text.size() - word.size()));
    return std::nullopt;
}

bool is_one_of(const std::vector<std::string>& words, std::string_view text) {
    return std::any_of(words.begin(), words.end(),
                       [&](const std::string& word) { return base::same_word(word, text); });
}

/// "200 yd (182 m)" or "200 yd".
bool read_lengths(std::string_view text, Description& out) {
    std::string_view first = text;
    std::optional<units::Length> other;
    if (const std::size_t open = text.find('('); open != std::string_view::npos) {
        if (text.back() != ')') return false;
        const auto second = units::parse_length(text.substr(open + 1, text.size() - open - 2));
        if (!second) return false;
        other = *second;
        first = base::trimmed(text.substr(0, open));
    }
    const auto length = units::parse_length(first);
    if (!length) return false;
    out.put_up_length = *length;
    out.other_length = other;
    return true;
}

/// The put-up when both amounts are printed, else a grist alone ("992 yd/lb").
std::optional<Problem> read_grist(std::string_view text, Description& out) {
    for (const std::string_view divider : {"/", " per "}) {
        const std::size_t at = text.rfind(divider);
        if (at == std::string_view::npos) continue;
        const auto mass = units::parse_mass(text.substr(at + divider.size()));
        if (!mass || !read_lengths(base::trimmed(text.substr(0, at)), out)) continue;
        out.put_up_mass = *mass;
        out.grist = *out.put_up_length / *mass;
        return std::nullopt;
    }
    const auto grist = units::parse_grist(text);
    if (!grist) return grist.problem();
    out.grist = *grist;
    return std::nullopt;
}

template <class T>
std::optional<Problem> take(const base::Result<T>& result, std::optional<T>& into) {
    if (!result) return result.problem();
    into = *result;
    return std::nullopt;
}

Problem unknown_part(std::string_view part) {
    std::string remedy;
    if (fibre_called(part))
        remedy = "Give its share: \"100% " + base::lower(part) + "\".";
    else if (const auto near = base::nearest_name(part, colour_words()))
        remedy = base::did_you_mean(near);
    else if (const auto texture = base::nearest_name(part, texture_words()))
        remedy = base::did_you_mean(texture);
    return {
        base::quoted(part) + " says nothing known of a yarn",
        {},
        "length and weight of a skein, shares of fibres, a class, plies, a gauge, colours or a "
        "texture",
        remedy.empty() ? "Write it like \"200 m / 100 g, 80% wool 20% nylon, class 4\"." : remedy};
}

std::optional<Problem> read_class(std::string_view text, Description& out) {
    out.weight = parse_weight_class(text);
    if (out.weight) return std::nullopt;
    const auto number = units::parse_whole(text);
    if (!number || *number > 99)
        return Problem{base::quoted(text) + " is not a weight class",
                       {},
                       "0 to 7, or the Council's name",
                       "Write it like \"class 4\"."};
    out.weight = WeightClass{static_cast<int>(*number)};
    return std::nullopt;
}

std::optional<Problem> read_part(std::string_view part, Description& out) {
    if (const auto rest = after(part, "class ")) return read_class(*rest, out);
    if (const auto rest = after(part, "repeat "))
        return take(units::parse_length(*rest), out.colour_repeat);
    if (const auto rest = before(part, std::array<std::string_view, 2>{" ply", "-ply"})) {
        const auto plies = units::parse_whole(*rest);
        if (!plies) return plies.problem();
        out.plies = static_cast<int>(std::min(*plies, std::int64_t{1000}));
        return std::nullopt;
    }
    if (const auto rest =
            before(part, std::array<std::string_view, 6>{" balls", " ball", " skeins", " skein",
                                                         " hanks", " cones"}))
        return take(units::parse_mass(*rest), out.ball);
    if (is_one_of(colour_words(), part)) {
        out.colours = base::lower(part);
        return std::nullopt;
    }
    if (is_one_of(texture_words(), part)) {
        out.texture = base::lower(part);
        return std::nullopt;
    }
    if (part.find(" st") != std::string_view::npos)
        return take(units::parse_stitch_gauge(part), out.gauge);
    if (part.find('/') != std::string_view::npos || part.find(" per ") != std::string_view::npos)
        return read_grist(part, out);
    if (const auto put_up = parse_put_up(part)) {
        out.put_up_length = put_up->label.length->value;
        out.put_up_mass = put_up->label.mass->value;
        out.grist = *out.put_up_length / *out.put_up_mass;
        return std::nullopt;
    }
    if (read_lengths(part, out)) return std::nullopt;
    // "DK", "worsted weight"
    const bool figures = part.find_first_of("0123456789") != std::string_view::npos;
    const std::string_view name =
        before(part, std::array<std::string_view, 1>{" weight"}).value_or(part);
    if (const auto known = class_called(name); known && !figures) {
        if (out.weight && *out.weight != *known)
            return Problem{base::quoted(part) + " is another class than the one before it",
                           {},
                           "one class, \"class 4\"",
                           ""};
        out.weight = *known;
        return std::nullopt;
    }
    if (const auto known = class_called(name);
        !known && !figures && !votes_for(parse_regional_name(name)).empty())
        return known.problem();
    // Many say "wool" of any yarn.
    if (fibre_called(part) && !base::same_word(part, "wool") && !out.content.known()) {
        auto alone = parse_fibre_content("100% " + std::string(part));
        if (alone) {
            out.content = *std::move(alone);
            return std::nullopt;
        }
    }
    return unknown_part(part);
}

}  // namespace

std::optional<units::Length> Description::ball_length() const {
    if (ball && grist) return *ball * *grist;
    return put_up_length;
}

std::optional<units::Mass> Description::ball_mass() const {
    return ball ? ball : put_up_mass;
}

bool Description::changes_colour() const {
    return colour_repeat || colours == "variegated" || colours == "self-striping" ||
           colours == "gradient" || colours == "speckled";
}

const std::vector<std::string>& colour_words() {
    static const std::vector<std::string> words{"solid",         "tonal",    "heathered",
                                                "marled",        "speckled", "variegated",
                                                "self-striping", "gradient"};
    return words;
}

const std::vector<std::string>& texture_words() {
    static const std::vector<std::string> words{"smooth",   "cabled", "chainette", "single",
                                                "tweed",    "slub",   "brushed",   "boucle",
                                                "chenille", "tape"};
    return words;
}

base::Result<Description> parse_description(std::string_view text) {
    Description out;
    out.text = std::string(base::trimmed(text));
    std::string content;
    std::size_t content_column = 0;
    const auto placed = [&](Problem problem, std::size_t column) {
        problem.place.column = column + std::max<std::size_t>(problem.place.column, 1);
        return problem;
    };
    for (const Part& part : parts_of(text)) {
        if (part.text.empty())
            return placed({"a yarn is described by nothing here",
                           {},
                           "length and weight of a skein, shares of fibres or another part",
                           "Write it like \"200 m / 100 g, 100% wool, class 4\"."},
                          part.column);
        if (const std::string strands = strand_words(part.text); !strands.empty())
            return placed({base::quoted(strands) + " says how the yarn is worked, not what it is",
                           {},
                           "the yarn by itself, without these words",
                           "How many strands are held together is asked apart."},
                          part.column);
        if (part.text.find('%') != std::string_view::npos) {
            if (content.empty()) content_column = part.column;
            content += (content.empty() ? "" : ", ") + std::string(part.text);
            continue;
        }
        if (const auto problem = read_part(part.text, out)) return placed(*problem, part.column);
    }
    if (!content.empty()) {
        const auto parsed = parse_fibre_content(content);
        if (!parsed) return placed(parsed.problem(), content_column);
        out.content = *parsed;
    }
    return out;
}

}  // namespace skeinfall::yarn
