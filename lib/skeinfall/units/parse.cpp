#include "skeinfall/units/parse.hpp"

#include <cstdint>
#include <optional>
#include <utility>

#include "skeinfall/base/letters.hpp"
#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/units/detail/readers.hpp"
#include "skeinfall/units/length_parts.hpp"

namespace skeinfall::units {
namespace {

using base::Result;

using detail::Kind;
using detail::Name;
using detail::Scanner;

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
    auto plain = finish<Length>(scanner, value);
    if (plain) return plain;
    if (auto parts = detail::length_in_parts(text)) return *parts;
    return plain;
}

Result<Mass> parse_mass(std::string_view text) {
    Scanner scanner(text, "100 g");
    const auto value = scanner.quantity(Kind::mass);
    return finish<Mass>(scanner, value);
}

namespace detail {

std::optional<Grist> read_second_half(Scanner& scanner, Kind first, double amount) {
    if (!scanner.per(true)) return std::nullopt;
    const auto other = scanner.maybe_counted(first == Kind::length ? Kind::mass : Kind::length);
    if (!other) return std::nullopt;
    return Grist::from_value(first == Kind::length ? amount / *other : *other / amount);
}

}  // namespace detail

Result<Grist> parse_grist(std::string_view text) {
    Scanner scanner(text, "200 m / 100 g");
    std::optional<Grist> grist;
    if (!detail::refuse_bare_pair(scanner)) {
        const Name* const name = scanner.leading_name();
        if (name != nullptr && is_count(name->kind)) {
            if (const auto count = detail::read_count(scanner)) grist = count->grist;
        } else {
            const bool mass_first = name != nullptr && name->kind == Kind::mass;
            const Kind first = mass_first ? Kind::mass : Kind::length;
            if (const auto amount = scanner.quantity(first))
                grist = detail::read_second_half(scanner, first, *amount);
        }
    }
    if (!scanner.finished() || !grist) return *scanner.problem();
    return *grist;
}

Result<LinearDensity> parse_linear_density(std::string_view text) {
    const auto grist = parse_grist(text);
    if (!grist) return grist.problem();
    return LinearDensity(1.0 / *grist);
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

Result<Area> parse_area(std::string_view text) {
    Scanner scanner(text, "0.62 sq m");
    std::optional<double> value = scanner.amount();
    if (value) {
        if (!scanner.take_word("sq"))
            scanner.fail("the area unit is missing", "\"sq m\", \"sq in\" or \"sq cm\"", "",
                         scanner.at());
        const auto side = scanner.unit(Kind::length);
        value = side ? std::optional(*value * *side * *side) : std::nullopt;
    }
    return finish<Area>(scanner, value);
}

Result<Ratio> parse_percent(std::string_view text) {
    Scanner scanner(text, "10 %");
    const auto value = scanner.amount(true);
    if (value && !scanner.take_sign('%'))
        scanner.fail("the percent sign is missing", "\"%\"", "", scanner.at());
    if (!scanner.finished() || !value) return *scanner.problem();
    return Ratio(*value / 100.0);
}

Result<std::int64_t> parse_whole(std::string_view text) {
    Scanner scanner(text, "12");
    const std::string_view digits = base::trimmed(text);
    const auto value = base::number_of<std::int64_t>(digits);
    const bool only_digits =
        !digits.empty() && digits.find_first_not_of("0123456789") == std::string_view::npos;
    const std::size_t at =
        digits.empty() ? text.size() : static_cast<std::size_t>(digits.data() - text.data());
    if (!value && !only_digits)
        scanner.fail("this is not a whole number", "a whole number above zero", "", at);
    else if (!value || *value > 1000000000)
        scanner.fail("this number is out of range", "a whole number up to 1000000000", "", at);
    else if (*value <= 0)
        scanner.fail(*value == 0 ? "the count is zero" : "the count is negative",
                     "a whole number above zero", "", at);
    if (scanner.problem()) return *scanner.problem();
    return *value;
}

std::vector<std::string> unit_names() {
    std::vector<std::string> out = detail::names_of(Kind::length);
    for (std::string& name : detail::names_of(Kind::mass)) out.push_back(std::move(name));
    return out;
}

std::optional<base::Problem> reads_two_ways(std::string_view text) {
    for (std::size_t stop = text.find('.'); stop != std::string_view::npos;
         stop = text.find('.', stop + 1)) {
        std::size_t first = stop;
        while (first > 0 && base::is_digit(text[first - 1])) --first;
        std::size_t end = stop + 1;
        while (end < text.size() && base::is_digit(text[end])) ++end;
        const bool groups = stop > first && stop - first <= 3 && text[first] != '0' &&
                            end - stop == 4 && (end == text.size() || text[end] != ',');
        if (!groups) continue;
        const std::string_view unit = base::trimmed(text.substr(end));
        const bool ruler = unit.starts_with("in") || unit.starts_with("cm") ||
                           unit.starts_with("mm") || unit.starts_with("\"");
        // "30.125 x 40.125 in" has the unit of its second figure.
        if (unit.starts_with("x ") || unit.starts_with("by ")) continue;
        if (ruler || unit.starts_with("k") || unit.starts_with("lb") || unit.starts_with("pound"))
            continue;
        const std::string number(text.substr(first, end - first));
        std::string whole = number;
        whole.erase(stop - first, 1);
        std::string part = number;
        while (part.back() == '0') part.pop_back();
        if (part.back() == '.') part.pop_back();
        return base::Problem{base::quoted(number) + " can be read as " + whole + " or as " + part,
                             {.file = {}, .line = 0, .column = first + 1},
                             "a number that reads one way",
                             "Write " + whole + " or " + part + " instead."};
    }
    return detail::part_without_unit(text);
}

}  // namespace skeinfall::units
