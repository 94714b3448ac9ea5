#include "skeinfall/exchange/colour_words.hpp"

#include <algorithm>
#include <regex>
#include <utility>

#include "skeinfall/base/letters.hpp"
#include "skeinfall/base/name.hpp"
#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/count_words.hpp"
#include "skeinfall/exchange/make_words.hpp"
#include "skeinfall/units/parse.hpp"

namespace skeinfall::exchange {
namespace {

constexpr std::size_t longest_sequence = 2000;
constexpr std::int64_t most_rows_named = 100'000;
const char* const stripe_forms = "\"rust 6, sand 4, moss 2\"";
const char* const run_forms = "\"sea green 3.9 yd, sand 2.5 yd\"";

using base::is_digit;

/// Parts between commas or semicolons; a comma between two digits is a decimal mark.
std::vector<std::string> parts_of(std::string_view text) {
    std::vector<std::string> out;
    std::string part;
    for (std::size_t at = 0; at < text.size(); ++at) {
        const bool decimal = text[at] == ',' && at > 0 && at + 1 < text.size() &&
                             is_digit(text[at - 1]) && is_digit(text[at + 1]);
        if ((text[at] == ',' && !decimal) || text[at] == ';') {
            out.emplace_back(base::trimmed(part));
            part.clear();
        } else {
            part += text[at];
        }
    }
    out.emplace_back(base::trimmed(part));
    return out;
}

bool is_number(std::string_view word) {
    return !word.empty() && std::all_of(word.begin(), word.end(), is_digit);
}

/// The rows of a stripe, taken off either end of it.
std::string taken_off(std::string& text) {
    const auto without = [](std::string_view words, std::initializer_list<std::string_view> some,
                            bool front) {
        for (const std::string_view word : some) {
            if (!front && words.ends_with(word) && words.size() > word.size())
                return base::trimmed(words.substr(0, words.size() - word.size()));
            if (front && words.starts_with(word)) return base::trimmed(words.substr(word.size()));
        }
        return words;
    };
    const std::string plain = text;
    const std::string_view bare =
        without(plain, {" rows", " row", " rounds", " round", " rnds"}, false);
    const std::size_t last = bare.rfind(' ');
    if (last != std::string_view::npos && is_number(bare.substr(last + 1))) {
        text = std::string(base::trimmed(bare.substr(0, last)));
        return std::string(bare.substr(last + 1));
    }
    const std::size_t first = plain.find(' ');
    if (first == std::string::npos || !is_number(std::string_view(plain).substr(0, first)))
        return {};
    std::string_view rest = base::trimmed(std::string_view(plain).substr(first));
    rest = without(rest, {"rows ", "row ", "rounds ", "round ", "rnds ", "x "}, true);
    rest = without(rest, {"of ", "in "}, true);
    text = std::string(rest);
    return plain.substr(0, first);
}

/// "rust 6 sand" of "rust 6 sand 4", "rust 6 x"; not "shade no. 12".
bool holds_another(const std::string& colour) {
    const std::vector<std::string> words = base::split(colour, ' ');
    for (std::size_t i = 0; i < words.size(); ++i) {
        const std::string before = i == 0 ? "" : base::lower(words[i - 1]);
        const bool numbered = before == "no." || before == "no" || before == "nr" ||
                              before == "nr." || before == "shade" || before == "colour" ||
                              before == "color";
        if (is_number(words[i]) && !numbered) return true;
    }
    return base::same_word(words.back(), "x");
}

bool is_role_name(std::string_view word) {
    const std::string name = base::lower(word);
    if (name == "mc") return true;
    return name.size() > 2 && name.starts_with("cc") &&
           std::all_of(name.begin() + 2, name.end(), is_digit);
}

/// "rust and sand, 2 rows each"; nothing for any other text.
std::optional<std::vector<WrittenStripe>> stripes_alike(const std::string& text) {
    static const std::regex form(
        R"(^([A-Za-z].*?)\s*,?\s+(\d{1,4}|[A-Za-z]+)\s+(?:rows?|rounds?|rnds?)\s+(?:of\s+)?each$)",
        std::regex::icase);
    // "2 rows each of rust, sand and moss"
    static const std::regex rows_first(
        R"(^(\d{1,4}|[A-Za-z]+)\s+(?:rows?|rounds?|rnds?)\s+(?:each\s+of|of\s+each\s*:?|each\s*:?)\s*([A-Za-z].*)$)",
        std::regex::icase);
    static const std::regex between(R"(\s*(?:,|;|&|/|\+|\band\b)\s*)", std::regex::icase);
    std::smatch found;
    const bool number_first = std::regex_match(text, found, rows_first);
    if (!number_first && !std::regex_match(text, found, form)) return std::nullopt;
    const auto rows = spoken_number(found[number_first ? 1 : 2]);
    const std::string colours = found[number_first ? 2 : 1];
    if (!rows || colours.find_first_of("0123456789") != std::string::npos) return std::nullopt;
    std::vector<WrittenStripe> out;
    for (std::sregex_token_iterator at(colours.begin(), colours.end(), between, -1), end; at != end;
         ++at)
        if (const std::string colour(base::trimmed(at->str())); !colour.empty())
            out.push_back({colour, *rows});
    return out.size() < 2 ? std::nullopt : std::optional(std::move(out));
}

/// "two rows of rust" with its number in figures.
std::string with_number(const std::string& part) {
    const std::size_t blank = part.find(' ');
    if (blank == std::string::npos) return part;
    const std::string first = part.substr(0, blank);
    const auto number = is_number(first) ? std::nullopt : spoken_number(first);
    return number && *number > 1 ? std::to_string(*number) + part.substr(blank) : part;
}

}  // namespace

base::Result<std::vector<WrittenStripe>> parse_stripes(std::string_view given) {
    const std::string text(base::trimmed(plain_signs(given)));
    const auto wrong = [&](std::string_view what, std::string remedy) {
        return base::Problem{base::quoted(what) + " is not understood as a stripe",
                             {},
                             stripe_forms,
                             std::move(remedy)};
    };
    if (text.empty() || text.size() > longest_sequence) return wrong(text, "");
    if (auto alike = stripes_alike(text)) return *std::move(alike);
    std::vector<WrittenStripe> out;
    // "rust 6 and sand 4", "rust 6 / sand 4"
    static const std::regex parted(R"((\d)\s*(?:\band\b|&|/|\+)\s*(?=[A-Za-z]))",
                                   std::regex::icase);
    // "rust x 6", "6 rust 4 sand"
    static const std::regex times(R"(([A-Za-z])\s*(?:\bx\b|:|=)\s*(?=\d))");
    static const std::regex in_a_row(R"(^\d{1,4}\s+[A-Za-z]+(?:\s+\d{1,4}\s+[A-Za-z]+)+$)");
    static const std::regex next_one(R"(([A-Za-z])\s+(?=\d))");
    std::string plain = std::regex_replace(std::regex_replace(text, times, "$1 "), parted, "$1, ");
    if (std::regex_match(plain, in_a_row)) plain = std::regex_replace(plain, next_one, "$1, ");
    for (const std::string& part : parts_of(plain)) {
        std::string colour = with_number(part);
        const std::string number = taken_off(colour);
        if (!colour.empty() && colour.back() == ':')
            colour =
                std::string(base::trimmed(std::string_view(colour).substr(0, colour.size() - 1)));
        if (number.empty() || colour.empty())
            return wrong(part, "Say how many rows of each colour.");
        if (holds_another(colour))
            return wrong(part, "Part the stripes with commas, each a colour and its rows.");
        const auto rows = units::parse_whole(number);
        if (!rows || *rows < 1 || *rows > most_rows_named)
            return wrong(part, "The lowest stripe is one row.");
        out.push_back({colour, *rows});
    }
    return out;
}

base::Result<std::vector<WrittenRun>> parse_colour_runs(std::string_view given) {
    const std::string text(base::trimmed(plain_signs(given)));
    std::vector<WrittenRun> out;
    for (const std::string& part : parts_of(text)) {
        const std::size_t figure = part.find_first_of("0123456789.");
        const std::string colour(base::trimmed(std::string_view(part).substr(0, figure)));
        const std::string length(figure == std::string::npos ? std::string() : part.substr(figure));
        if (text.size() > longest_sequence || colour.empty() || !units::parse_length(length))
            return base::Problem{base::quoted(part) + " is not understood as a run of colour",
                                 {},
                                 run_forms,
                                 "One repeat of the yarn: each colour with the length of its run."};
        out.push_back({colour, length});
    }
    if (out.size() < 2)
        return base::Problem{base::quoted(given) + " is a yarn of one colour",
                             {},
                             run_forms,
                             "A yarn that changes has two or more."};
    return out;
}

std::vector<ColourRole> colour_roles(const std::vector<WrittenStripe>& stripes) {
    std::vector<ColourRole> out;
    const auto known = [&](std::string_view colour) { return !role_of(out, colour).empty(); };
    for (const WrittenStripe& stripe : stripes)
        if (is_role_name(stripe.colour) && !known(stripe.colour)) {
            std::string id;
            for (const char c : stripe.colour)
                id += c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
            out.push_back({id, {}});
        }
    int next = 0;
    for (const WrittenStripe& stripe : stripes) {
        if (is_role_name(stripe.colour) || known(stripe.colour)) continue;
        std::string id;
        do {
            id = next == 0 ? std::string("MC") : "CC" + std::to_string(next);
            ++next;
        } while (std::any_of(out.begin(), out.end(),
                             [&](const ColourRole& role) { return role.id == id; }));
        out.push_back({id, stripe.colour});
    }
    return out;
}

std::string role_of(const std::vector<ColourRole>& roles, std::string_view colour) {
    for (const ColourRole& role : roles)
        if (role.colour.empty() ? base::same_word(role.id, colour)
                                : base::same_name(role.colour, std::string(colour)))
            return role.id;
    return {};
}

OfColour of_colour(std::string_view text) {
    const std::size_t colon = text.find(':');
    const std::size_t figure = text.find_first_of("0123456789");
    const std::string_view before =
        base::trimmed(text.substr(0, colon == std::string_view::npos ? 0 : colon));
    // "Y1", "A2" as a project may call its yarns.
    const bool numbered = !before.empty() && !is_digit(before.front()) &&
                          before.find(' ') == std::string_view::npos &&
                          std::all_of(before.begin() + 1, before.end(), is_digit);
    const bool bare = figure == std::string_view::npos || colon < figure || numbered;
    if (before.empty() || (!bare && !is_role_name(before))) return {{}, std::string(text)};
    return {std::string(before), std::string(base::trimmed(text.substr(colon + 1)))};
}

}  // namespace skeinfall::exchange
