#include "skeinfall/units/parse.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <optional>
#include <utility>

#include "skeinfall/base/text.hpp"

namespace skeinfall::units {
namespace {

using base::Problem;
using base::Result;

enum class Kind { length, mass, stitches, rows };

struct UnitName {
    std::string_view name;
    Kind kind;
    double factor;  // to the base unit of its kind
};

constexpr double m_of(Length length) {
    return length.value();
}
constexpr double g_of(Mass mass) {
    return mass.value();
}

constexpr auto names = std::to_array<UnitName>({
    {"m", Kind::length, m_of(metre)},
    {"metre", Kind::length, m_of(metre)},
    {"metres", Kind::length, m_of(metre)},
    {"meter", Kind::length, m_of(metre)},
    {"meters", Kind::length, m_of(metre)},
    {"mtr", Kind::length, m_of(metre)},
    {"mtrs", Kind::length, m_of(metre)},
    {"cm", Kind::length, m_of(centimetre)},
    {"mm", Kind::length, m_of(millimetre)},
    {"km", Kind::length, 1000.0},
    {"yd", Kind::length, m_of(yard)},
    {"yds", Kind::length, m_of(yard)},
    {"yard", Kind::length, m_of(yard)},
    {"yards", Kind::length, m_of(yard)},
    {"ft", Kind::length, m_of(foot)},
    {"foot", Kind::length, m_of(foot)},
    {"feet", Kind::length, m_of(foot)},
    {"in", Kind::length, m_of(inch)},
    {"ins", Kind::length, m_of(inch)},
    {"inch", Kind::length, m_of(inch)},
    {"inches", Kind::length, m_of(inch)},
    {"\"", Kind::length, m_of(inch)},
    {"\u2033", Kind::length, m_of(inch)},
    {"g", Kind::mass, g_of(gram)},
    {"gr", Kind::mass, g_of(gram)},
    {"gm", Kind::mass, g_of(gram)},
    {"gms", Kind::mass, g_of(gram)},
    {"gram", Kind::mass, g_of(gram)},
    {"grams", Kind::mass, g_of(gram)},
    {"gramme", Kind::mass, g_of(gram)},
    {"grammes", Kind::mass, g_of(gram)},
    {"kg", Kind::mass, g_of(kilogram)},
    {"mg", Kind::mass, 0.001},
    {"oz", Kind::mass, g_of(ounce)},
    {"ozs", Kind::mass, g_of(ounce)},
    {"ounce", Kind::mass, g_of(ounce)},
    {"ounces", Kind::mass, g_of(ounce)},
    {"lb", Kind::mass, g_of(pound)},
    {"lbs", Kind::mass, g_of(pound)},
    {"pound", Kind::mass, g_of(pound)},
    {"pounds", Kind::mass, g_of(pound)},
    {"st", Kind::stitches, 1.0},
    {"sts", Kind::stitches, 1.0},
    {"stitch", Kind::stitches, 1.0},
    {"stitches", Kind::stitches, 1.0},
    {"row", Kind::rows, 1.0},
    {"rows", Kind::rows, 1.0},
    {"rnd", Kind::rows, 1.0},
    {"rnds", Kind::rows, 1.0},
    {"round", Kind::rows, 1.0},
    {"rounds", Kind::rows, 1.0},
});

struct Vulgar {
    std::string_view sign;
    double value;
};
constexpr auto vulgar_fractions = std::to_array<Vulgar>({
    {"\u00bd", 1.0 / 2},
    {"\u00bc", 1.0 / 4},
    {"\u00be", 3.0 / 4},
    {"\u2153", 1.0 / 3},
    {"\u2154", 2.0 / 3},
    {"\u2155", 1.0 / 5},
    {"\u2156", 2.0 / 5},
    {"\u2157", 3.0 / 5},
    {"\u2158", 4.0 / 5},
    {"\u2159", 1.0 / 6},
    {"\u215a", 5.0 / 6},
    {"\u215b", 1.0 / 8},
    {"\u215c", 3.0 / 8},
    {"\u215d", 5.0 / 8},
    {"\u215e", 7.0 / 8},
});

// Numbers that stay finite and above zero whatever is divided by whatever.
constexpr double smallest = 1e-9;
constexpr double largest = 1e12;

constexpr std::string_view no_break_space = "\u00a0";
constexpr std::string_view thin_no_break_space = "\u202f";

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}
bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

std::string_view kind_words(Kind kind) {
    switch (kind) {
        case Kind::length:
            return "a length unit (m, cm, mm, yd, ft, in)";
        case Kind::mass:
            return "a mass unit (g, kg, oz, lb)";
        case Kind::stitches:
            return "sts";
        case Kind::rows:
            break;
    }
    return "rows";
}

std::vector<std::string> names_of(Kind kind) {
    std::vector<std::string> out;
    for (const UnitName& unit : names)
        if (unit.kind == kind) out.emplace_back(unit.name);
    return out;
}

const UnitName* find_unit(std::string_view word) {
    for (const UnitName& unit : names)
        if (base::same_word(unit.name, word)) return &unit;
    return nullptr;
}

/// Reads one text from left to right; every reader returns nothing once `problem` is set.
class Scanner {
  public:
    Scanner(std::string_view text, std::string_view example) : text_(text), example_(example) {
        skip_blanks();
    }

    [[nodiscard]] bool at_end() const { return at_ >= text_.size(); }
    [[nodiscard]] const std::optional<Problem>& problem() const { return problem_; }

    std::optional<double> fail(std::string what, std::string expected, std::string remedy,
                               std::size_t at) {
        if (!problem_) {
            if (remedy.empty()) remedy = "Write it like \"" + std::string(example_) + "\".";
            problem_ = Problem{base::quoted(text_) + ": " + std::move(what),
                               {.file = {}, .line = 0, .column = at + 1},
                               std::move(expected),
                               std::move(remedy)};
        }
        return std::nullopt;
    }

    /// A number above zero (or from zero when `zero_allowed`).
    std::optional<double> amount(bool zero_allowed = false) {
        const std::size_t start = at_;
        if (at_end()) return fail("nothing there", "a number", "", at_);
        bool negative = false;
        if (text_[at_] == '-' || text_[at_] == '+') {
            negative = text_[at_] == '-';
            ++at_;
        }
        const auto value = unsigned_number();
        if (!value) return std::nullopt;
        if (negative && *value != 0.0)
            return fail("the amount is negative", "more than zero", "", start);
        if (*value == 0.0 && !zero_allowed)
            return fail("the amount is zero", "more than zero", "", start);
        skip_blanks();
        return value;
    }

    /// The factor of a unit of `kind`, read from the next word.
    std::optional<double> unit(Kind kind) {
        const std::size_t start = at_;
        const std::string_view name = word();
        if (name.empty())
            return fail(at_end() ? "the unit is missing" : "there is no unit here",
                        std::string(kind_words(kind)), "", start);
        const UnitName* found = find_unit(name);
        if (found == nullptr) {
            const auto near = base::nearest_name(name, names_of(kind));
            return fail("unknown unit " + base::quoted(name), std::string(kind_words(kind)),
                        near ? "Did you mean \"" + *near + "\"?" : std::string(), start);
        }
        if (found->kind != kind)
            return fail("\"" + std::string(name) + "\" is another kind of unit",
                        std::string(kind_words(kind)), "", start);
        return found->factor;
    }

    std::optional<double> quantity(Kind kind) {
        const auto value = amount();
        if (!value) return std::nullopt;
        const auto factor = unit(kind);
        if (!factor) return std::nullopt;
        return *value * *factor;
    }

    /// Takes "/" or "per".
    bool per() {
        const std::size_t start = at_;
        if (!at_end() && text_[at_] == '/') {
            ++at_;
            skip_blanks();
            return true;
        }
        if (base::same_word(word(), "per")) return true;
        at_ = start;
        fail("the part after the first amount is missing", "\"/\" or \"per\"", "", start);
        return false;
    }

    /// A unit with an optional amount before it: "10 cm", or "in" for one inch.
    std::optional<double> maybe_counted(Kind kind) {
        return at_number() ? quantity(kind) : unit(kind);
    }

    /// True when what comes next is not a word.
    [[nodiscard]] bool at_number() const {
        return !at_end() && !is_letter(text_[at_]) && text_[at_] != '"' &&
               !text_.substr(at_).starts_with("\u2033");
    }

    /// Takes the next word when it is one of `kind`'s units.
    void optional_unit(Kind kind) {
        const std::size_t start = at_;
        const UnitName* found = find_unit(word());
        if (found == nullptr || found->kind != kind) at_ = start;
    }

    bool take_word(std::string_view wanted) {
        const std::size_t start = at_;
        if (base::same_word(word(), wanted)) return true;
        at_ = start;
        return false;
    }

    bool take_sign(char sign) {
        if (at_end() || text_[at_] != sign) return false;
        ++at_;
        skip_blanks();
        return true;
    }

    [[nodiscard]] std::size_t at() const { return at_; }

    /// The text must be used up.
    bool finished() {
        if (problem_) return false;
        if (at_end()) return true;
        fail(base::quoted(text_.substr(at_)) + " is left over", "the end of the text", "", at_);
        return false;
    }

  private:
    void skip_blanks() {
        while (!at_end()) {
            const std::string_view rest = text_.substr(at_);
            if (rest[0] == ' ' || rest[0] == '\t')
                at_ += 1;
            else if (rest.starts_with(no_break_space))
                at_ += no_break_space.size();
            else if (rest.starts_with(thin_no_break_space))
                at_ += thin_no_break_space.size();
            else
                return;
        }
    }

    std::string_view word() {
        const std::size_t start = at_;
        if (!at_end() && text_[at_] == '"') {
            ++at_;
        } else if (text_.substr(at_).starts_with("\u2033")) {
            at_ += std::string_view("\u2033").size();
        } else {
            while (!at_end() && is_letter(text_[at_])) ++at_;
        }
        const std::string_view found = text_.substr(start, at_ - start);
        if (!found.empty() && !at_end() && text_[at_] == '.') ++at_;  // "yds." and "oz."
        skip_blanks();
        return found;
    }

    std::optional<double> vulgar() {
        for (const Vulgar& fraction : vulgar_fractions) {
            if (text_.substr(at_).starts_with(fraction.sign)) {
                at_ += fraction.sign.size();
                return fraction.value;
            }
        }
        return std::nullopt;
    }

    /// `start` is where the number begins in the text.
    std::optional<double> digits(std::string_view from, std::size_t start) {
        double value = 0.0;
        const auto [end, error] = std::from_chars(from.data(), from.data() + from.size(), value,
                                                  std::chars_format::fixed);
        if (error != std::errc() || end != from.data() + from.size() || !std::isfinite(value) ||
            value > largest || (value != 0.0 && value < smallest))
            return fail("this number is out of range", "a number from 0.000000001 to 1000000000000",
                        "", start);
        return value;
    }

    /// Digits with "." or "," inside; commas are sorted out here.
    std::optional<double> plain_number() {
        const std::size_t start = at_;
        while (!at_end() && (is_digit(text_[at_]) || text_[at_] == '.' || text_[at_] == ',')) ++at_;
        // A full stop or comma that ends a sentence or a list is not part of the number.
        while (at_ > start && !is_digit(text_[at_ - 1])) --at_;
        const std::string_view raw = text_.substr(start, at_ - start);
        if (raw.empty()) {
            at_ = start;
            return fail("this is not a number", "a number", "", start);
        }
        const std::size_t commas =
            static_cast<std::size_t>(std::count(raw.begin(), raw.end(), ','));
        const std::size_t stops = static_cast<std::size_t>(std::count(raw.begin(), raw.end(), '.'));
        if (stops > 1) return fail("two decimal points", "one number", "", start);
        if (commas == 0) return digits(raw, start);
        const std::size_t first = raw.find(',');
        const std::size_t last = raw.rfind(',');
        const std::size_t stop = raw.find('.');
        const std::size_t whole_end = stop == std::string_view::npos ? raw.size() : stop;
        bool thousands =
            first >= 1 && first <= 3 && (stop == std::string_view::npos || last < stop);
        for (std::size_t i = first; thousands && i < whole_end; i += 4)
            thousands = raw[i] == ',' && i + 4 <= whole_end &&
                        raw.substr(i + 1, 3).find(',') == std::string_view::npos;
        if (commas == 1 && stops == 0 && thousands && raw[0] != '0') {
            std::string one(raw);
            one.erase(first, 1);
            std::string other(raw);
            other[first] = '.';
            return fail("\"" + std::string(raw) + "\" can be read as " + one + " or as " + other,
                        "a number that reads one way",
                        "Write " + one + " or " + other + " instead.", start);
        }
        // The only place that copies: numbers with commas are rare.
        std::string cleaned;
        if (thousands && raw[0] != '0') {
            for (const char c : raw)
                if (c != ',') cleaned += c;
        } else if (commas == 1 && stops == 0) {
            cleaned = std::string(raw);
            cleaned[first] = '.';
        } else {
            return fail("the commas do not sit where thousands end", "one number", "", start);
        }
        return digits(cleaned, start);
    }

    std::optional<double> unsigned_number() {
        if (const auto only = vulgar()) return only;
        const std::size_t number_start = at_;
        const auto first = plain_number();
        if (!first) return std::nullopt;
        // A fraction follows whole numbers only: "1.5 1/2" is not two of anything.
        if (text_.substr(number_start, at_ - number_start).find_first_of(".,") !=
            std::string_view::npos)
            return first;
        if (const auto part = vulgar()) return *first + *part;
        if (fraction_follows(at_)) return *first / denominator(at_);
        // "1 1/2" and "1 ½": a second number after a blank, only as a fraction.
        const std::size_t before_blank = at_;
        skip_blanks();
        if (at_ != before_blank) {
            if (const auto part = vulgar()) return *first + *part;
            const std::size_t start = at_;
            std::size_t end = at_;
            while (end < text_.size() && is_digit(text_[end])) ++end;
            if (end > start && fraction_follows(end)) {
                const auto top = digits(text_.substr(start, end - start), start);
                at_ = end;
                if (!top) return std::nullopt;
                return *first + *top / denominator(end);
            }
        }
        at_ = before_blank;
        return first;
    }

    [[nodiscard]] bool fraction_follows(std::size_t at) const {
        return at + 1 < text_.size() && text_[at] == '/' && text_[at + 1] >= '1' &&
               text_[at + 1] <= '9';
    }

    double denominator(std::size_t slash) {
        at_ = slash + 1;
        const std::size_t start = at_;
        while (!at_end() && is_digit(text_[at_])) ++at_;
        return digits(text_.substr(start, at_ - start), start).value_or(1.0);
    }

    std::string_view text_;
    std::string_view example_;
    std::size_t at_ = 0;
    std::optional<Problem> problem_;
};

template <class Q>
Result<Q> finish(Scanner& scanner, std::optional<double> value) {
    if (!scanner.finished() || !value) return *scanner.problem();
    return Q::from_value(*value);
}

/// "<number> [unit of counted] per <length>".
template <class Q>
Result<Q> parse_gauge(std::string_view text, std::string_view example, Kind counted) {
    Scanner scanner(text, example);
    auto value = scanner.amount();
    if (value) {
        scanner.optional_unit(counted);
        std::optional<double> span;
        if (scanner.per()) span = scanner.maybe_counted(Kind::length);
        value = span ? std::optional(*value / *span) : std::nullopt;
    }
    return finish<Q>(scanner, value);
}

}  // namespace

Result<Length> parse_length(std::string_view text) {
    Scanner scanner(text, "380 yd");
    const auto value = scanner.quantity(Kind::length);
    return finish<Length>(scanner, value);
}

Result<Mass> parse_mass(std::string_view text) {
    Scanner scanner(text, "100 g");
    const auto value = scanner.quantity(Kind::mass);
    return finish<Mass>(scanner, value);
}

Result<Grist> parse_grist(std::string_view text) {
    Scanner scanner(text, "200 m / 100 g");
    auto value = scanner.quantity(Kind::length);
    if (value) {
        std::optional<double> mass;
        if (scanner.per()) mass = scanner.maybe_counted(Kind::mass);
        value = mass ? std::optional(*value / *mass) : std::nullopt;
    }
    return finish<Grist>(scanner, value);
}

Result<StitchGauge> parse_stitch_gauge(std::string_view text) {
    return parse_gauge<StitchGauge>(text, "13 per 10 cm", Kind::stitches);
}

Result<RowGauge> parse_row_gauge(std::string_view text) {
    return parse_gauge<RowGauge>(text, "8 per 10 cm", Kind::rows);
}

Result<YarnPerStitch> parse_yarn_per_stitch(std::string_view text) {
    Scanner scanner(text, "2.9 in per stitch");
    auto value = scanner.quantity(Kind::length);
    if (value) {
        std::optional<double> count;
        if (scanner.per()) count = scanner.maybe_counted(Kind::stitches);
        value = count ? std::optional(*value / *count) : std::nullopt;
    }
    return finish<YarnPerStitch>(scanner, value);
}

Result<YarnPerArea> parse_yarn_per_area(std::string_view text) {
    Scanner scanner(text, "32.08 in per sq in");
    auto value = scanner.quantity(Kind::length);
    if (value && scanner.per()) {
        double count = 1.0;
        if (scanner.at_number()) count = scanner.amount().value_or(1.0);
        if (!scanner.take_word("sq"))
            scanner.fail("the area unit is missing", "\"sq in\" or \"sq cm\"", "", scanner.at());
        const auto side = scanner.unit(Kind::length);
        value = side ? std::optional(*value / (count * *side * *side)) : std::nullopt;
    }
    return finish<YarnPerArea>(scanner, value);
}

Result<Ratio> parse_percent(std::string_view text) {
    Scanner scanner(text, "10 %");
    const auto value = scanner.amount(true);
    if (value && !scanner.take_sign('%'))
        scanner.fail("the percent sign is missing", "\"%\"", "", scanner.at());
    if (!scanner.finished() || !value) return *scanner.problem();
    return Ratio(*value / 100.0);
}

Result<long> parse_whole(std::string_view text) {
    Scanner scanner(text, "121");
    const std::string_view digits = base::trimmed(text);
    long value = 0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    const std::size_t at =
        digits.empty() ? text.size() : static_cast<std::size_t>(digits.data() - text.data());
    if (error == std::errc::invalid_argument || end != digits.data() + digits.size())
        scanner.fail("this is not a whole number", "a whole number above zero", "", at);
    else if (error != std::errc() || value > 1000000000)
        scanner.fail("this number is out of range", "a whole number up to 1000000000", "", at);
    else if (value <= 0)
        scanner.fail(value == 0 ? "the count is zero" : "the count is negative",
                     "a whole number above zero", "", at);
    if (scanner.problem()) return *scanner.problem();
    return value;
}

std::vector<std::string> unit_names() {
    std::vector<std::string> out = names_of(Kind::length);
    for (std::string& name : names_of(Kind::mass)) out.push_back(std::move(name));
    return out;
}

}  // namespace skeinfall::units
