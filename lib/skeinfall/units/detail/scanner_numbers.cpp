#include <algorithm>
#include <array>
#include <cmath>

#include "skeinfall/base/letters.hpp"
#include "skeinfall/base/numbers.hpp"
#include "skeinfall/units/detail/scanner.hpp"

namespace skeinfall::units::detail {
namespace {

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

/// Signs that part thousands and nothing else; an ordinary blank also parts "2 100 g balls".
constexpr std::array<std::string_view, 5> thousands_signs{"\u00a0", "\u202f", "\u2009", "'",
                                                          "\u2019"};
constexpr std::array<std::string_view, 2> apostrophes{"'", "\u2019"};

using base::is_digit;
using base::is_letter;

}  // namespace

std::optional<double> Scanner::amount(bool zero_allowed) {
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

std::optional<double> Scanner::vulgar() {
    if (at_end() || is_plain(text_[at_])) return std::nullopt;
    for (const Vulgar& fraction : vulgar_fractions) {
        if (text_.substr(at_).starts_with(fraction.sign)) {
            at_ += fraction.sign.size();
            return fraction.value;
        }
    }
    return std::nullopt;
}

/// The value of plain digits; `start` is where they stand in the text.
std::optional<double> Scanner::digits(std::string_view from, std::size_t start) {
    const auto value = base::number_of<double>(from);
    if (!value || !std::isfinite(*value) || *value > largest ||
        (*value != 0.0 && *value < smallest))
        return fail("this number is out of range", "a number from 0.000000001 to 1000000000000", "",
                    start);
    return value;
}

/// Size of a sign at `at` that parts a group of exactly three digits, or 0.
std::size_t Scanner::group_sign(std::size_t at) const {
    if (at >= text_.size() || (is_plain(text_[at]) && text_[at] != '\'')) return 0;
    const std::string_view rest = text_.substr(at);
    for (const std::string_view sign : thousands_signs) {
        if (!rest.starts_with(sign)) continue;
        const std::string_view group = rest.substr(sign.size(), 3);
        const bool ends = rest.size() <= sign.size() + 3 || !is_digit(rest[sign.size() + 3]);
        return group.size() == 3 && std::all_of(group.begin(), group.end(), is_digit) && ends
                   ? sign.size()
                   : 0;
    }
    return 0;
}

/// True after a digit and a blank, at exactly three digits: "1 500 m".
bool Scanner::thousands_follow() const {
    const std::string_view rest = text_.substr(at_);
    return at_ >= 2 && text_[at_ - 1] == ' ' && is_digit(text_[at_ - 2]) && rest.size() >= 3 &&
           std::all_of(rest.begin(), rest.begin() + 3, is_digit) &&
           (rest.size() == 3 || (!is_digit(rest[3]) && rest[3] != '/'));
}

/// Digits with "." or "," inside; commas and signs between thousands are sorted out here.
std::optional<double> Scanner::plain_number() {
    const std::size_t start = at_;
    while (!at_end() && (is_digit(text_[at_]) || text_[at_] == '.' || text_[at_] == ',')) ++at_;
    // A full stop or comma that ends a sentence or a list is not part of the number.
    while (at_ > start && !is_digit(text_[at_ - 1])) --at_;
    const std::string_view raw = text_.substr(start, at_ - start);
    if (raw.empty()) {
        at_ = start;
        return fail("this is not a number", "one such as 12 or 2.5", "", start);
    }
    if (raw.find(',') != std::string_view::npos) return number_with_commas(raw, start);
    if (std::count(raw.begin(), raw.end(), '.') > 1)
        return fail("two decimal points", "one number", "", start);
    const bool can_start_groups =
        raw.size() <= 3 && raw[0] != '0' && std::all_of(raw.begin(), raw.end(), is_digit);
    if (!can_start_groups || group_sign(at_) == 0) return digits(raw, start);
    std::string grouped(raw);
    while (const std::size_t sign = group_sign(at_)) {
        grouped += text_.substr(at_ + sign, 3);
        at_ += sign + 3;
    }
    if (!at_end() && text_[at_] == '.') {
        const std::size_t stop = at_++;
        while (!at_end() && is_digit(text_[at_])) ++at_;
        if (at_ == stop + 1)
            at_ = stop;
        else
            grouped += text_.substr(stop, at_ - stop);
    }
    return digits(grouped, start);
}

std::optional<double> Scanner::number_with_commas(std::string_view raw, std::size_t start) {
    const auto commas = std::count(raw.begin(), raw.end(), ',');
    const auto stops = std::count(raw.begin(), raw.end(), '.');
    if (stops > 1) return fail("two decimal points", "one number", "", start);
    const std::size_t first = raw.find(',');
    const std::size_t last = raw.rfind(',');
    const std::size_t stop = raw.find('.');
    const std::size_t whole_end = stop == std::string_view::npos ? raw.size() : stop;
    bool thousands = first >= 1 && first <= 3 && (stop == std::string_view::npos || last < stop);
    for (std::size_t i = first; thousands && i < whole_end; i += 4)
        thousands = raw[i] == ',' && i + 4 <= whole_end &&
                    raw.substr(i + 1, 3).find(',') == std::string_view::npos;
    if (commas == 1 && stops == 0 && thousands && raw[0] != '0') {
        std::string one(raw);
        one.erase(first, 1);
        std::string other(raw);
        other[first] = '.';
        // "1.200" could be read two ways again.
        std::string again = other;
        while (again.back() == '0') again.pop_back();
        if (again.back() == '.') again.pop_back();
        return fail("\"" + std::string(raw) + "\" can be read as " + one + " or as " + other,
                    "a number that reads one way", "Write " + one + " or " + again + " instead.",
                    start);
    }
    std::string cleaned;
    if (thousands && raw[0] != '0') {
        for (const char c : raw)
            if (c != ',') cleaned += c;
    } else if (commas == 1 && stops == 0) {
        // Nobody weighs to the ten thousandth and finds nothing there: thousands slipped a place.
        const std::string_view behind = raw.substr(first + 1);
        if (behind.size() > 3 && behind.find_first_not_of('0') == std::string_view::npos)
            return fail(
                "\"" + std::string(raw) + "\" can be read in two ways",
                "a number that reads one way",
                "Write " + std::string(raw.substr(0, first)) + ", or all digits without a comma.",
                start);
        cleaned = std::string(raw);
        cleaned[first] = '.';
    } else {
        return fail("the commas do not sit where thousands end", "one number", "", start);
    }
    return digits(cleaned, start);
}

std::optional<double> Scanner::unsigned_number() {
    if (const auto only = vulgar()) return only;
    const std::size_t number_start = at_;
    const auto first = plain_number();
    if (!first) return std::nullopt;
    // A fraction follows whole numbers only: "1.5 1/2" is not two of anything.
    if (text_.substr(number_start, at_ - number_start).find_first_of(".,") !=
        std::string_view::npos)
        return first;
    if (const auto part = vulgar()) return *first + *part;
    if (fraction_follows(at_)) return fraction(*first, number_start, at_);
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
            const auto part = fraction(*top, start, end);
            if (!part) return std::nullopt;
            return *first + *part;
        }
    }
    at_ = before_blank;
    return first;
}

bool Scanner::fraction_follows(std::size_t at) const {
    return at + 1 < text_.size() && text_[at] == '/' && text_[at + 1] >= '1' &&
           text_[at + 1] <= '9';
}

/// "380/520 yd" are two sizes, and no part of a yard.
std::optional<double> Scanner::fraction(double top, std::size_t start, std::size_t slash) {
    at_ = slash + 1;
    while (!at_end() && is_digit(text_[at_])) ++at_;
    const auto bottom = digits(text_.substr(slash + 1, at_ - slash - 1), slash + 1);
    if (!bottom) return std::nullopt;
    // What tapes, scales and cups are divided into.
    constexpr std::array<double, 9> parts{2, 3, 4, 5, 6, 8, 16, 32, 64};
    const bool one_part = top == 1.0;  // a scale's step of 1/10 oz
    if (top < *bottom &&
        (one_part || std::find(parts.begin(), parts.end(), *bottom) != parts.end()))
        return top / *bottom;
    return fail("\"" + std::string(text_.substr(start, at_ - start)) +
                    "\" is not a fraction that tapes or scales show",
                "one number", "Write one figure; of two sizes one at a time.", start);
}

/// Size of the "s" or "'s" that marks a count right after its digits, or 0.
std::size_t Scanner::count_mark(std::size_t at) const {
    if (at == 0 || !is_digit(text_[at - 1])) return 0;
    if (at >= text_.size() || text_[at] == ' ') return 0;
    std::size_t size = 0;
    for (const std::string_view apostrophe : apostrophes)
        if (text_.substr(at).starts_with(apostrophe)) size = apostrophe.size();
    const std::size_t letter = at + size;
    if (letter >= text_.size() || (text_[letter] != 's' && text_[letter] != 'S')) return 0;
    if (letter + 1 < text_.size() && is_letter(text_[letter + 1])) return 0;
    return size + 1;
}

std::optional<WrittenCount> Scanner::written_count() {
    WrittenCount out;
    out.start = at_;
    const auto marked = [this] {
        const std::size_t mark = count_mark(at_);
        at_ += mark;
        skip_blanks();
        return mark != 0;
    };
    if (const auto fraction = vulgar()) {
        out.first = *fraction;
        skip_blanks();
        return out;
    }
    const auto first = plain_number();
    if (!first) return std::nullopt;
    out.first = *first;
    if (const auto part = vulgar()) out.first += *part;
    out.first_marked = marked();
    if (const auto part = vulgar()) out.first += *part;  // "1 ½"
    const std::size_t sign = text_.substr(at_).starts_with("\u2013")                 ? 3
                             : !at_end() && (text_[at_] == '/' || text_[at_] == '-') ? 1
                                                                                     : 0;
    if (sign != 0) {
        out.separator = text_[at_] == '/' ? '/' : '-';
        at_ = past_blanks(at_ + sign);
        const auto second = plain_number();
        if (!second) return std::nullopt;
        out.second = *second;
        out.second_marked = marked();
    } else if (!at_end() && is_digit(text_[at_]) && !out.first_marked) {  // "5 1/2"
        const std::size_t start = at_;
        const auto top = plain_number();
        if (!top) return std::nullopt;
        if (!fraction_follows(at_)) return fail("two numbers side by side", "one number", "", at_);
        const auto part = fraction(*top, start, at_);
        if (!part) return std::nullopt;
        out.first += *part;
    }
    skip_blanks();
    if (out.first <= 0.0 || (out.separator != 0 && out.second <= 0.0))
        return fail("the count is zero", "more than zero", "", out.start);
    return out;
}

}  // namespace skeinfall::units::detail
