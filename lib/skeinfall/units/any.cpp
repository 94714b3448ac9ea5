#include "skeinfall/units/any.hpp"

#include <array>

#include "skeinfall/base/text.hpp"
#include "skeinfall/units/detail/readers.hpp"
#include "skeinfall/units/detail/scanner.hpp"

namespace skeinfall::units {
namespace {

using detail::Kind;
using detail::Name;
using detail::Scanner;

constexpr std::string_view known_kinds =
    "a unit of length, weight, yarn size or gauge (m, yd, g, oz, m/100g, tex, NeW, sts/10cm ...)";

/// A unit of `kind` with its amount, or for an output unit without one.
std::optional<double> counted(Scanner& scanner, Kind kind, bool with_amount) {
    return with_amount ? scanner.quantity(kind) : scanner.unit(kind);
}

template <class Gauge>
std::optional<Reading> read_gauge(Scanner& scanner, Kind kind, bool with_amount) {
    const auto count = counted(scanner, kind, with_amount);
    if (!count || !scanner.per()) return std::nullopt;
    const auto span = scanner.maybe_counted(Kind::length);
    if (!span) return std::nullopt;
    return Reading{Gauge::from_value(*count / *span), false, {}, {}, false};
}

/// A length or mass alone, or the first half of a yarn size.
std::optional<Reading> read_length_or_mass(Scanner& scanner, Kind kind, bool with_amount) {
    const auto amount = counted(scanner, kind, with_amount);
    if (!amount) return std::nullopt;
    if (scanner.at_end()) {
        Reading reading;
        if (kind == Kind::length)
            reading.value = Length::from_value(*amount);
        else
            reading.value = Mass::from_value(*amount);
        return reading;
    }
    const auto grist = detail::read_second_half(scanner, kind, *amount);
    if (!grist) return std::nullopt;
    return Reading{*grist, kind == Kind::mass, {}, {}, false};
}

std::optional<Reading> read_by_kind(Scanner& scanner, bool with_amount) {
    if (with_amount && detail::refuse_bare_pair(scanner)) return std::nullopt;
    const Name* const name = scanner.leading_name();
    if (name == nullptr) {
        if (with_amount && !scanner.at_letter() && !scanner.amount()) return std::nullopt;
        return scanner.unknown_unit(known_kinds, detail::every_name());
    }
    switch (name->kind) {
        case Kind::length:
        case Kind::mass:
            return read_length_or_mass(scanner, name->kind, with_amount);
        case Kind::stitches:
            return read_gauge<StitchGauge>(scanner, Kind::stitches, with_amount);
        case Kind::rows:
            return read_gauge<RowGauge>(scanner, Kind::rows, with_amount);
        case Kind::direct:
        case Kind::indirect:
            break;
    }
    const auto count = with_amount ? detail::read_count(scanner) : detail::read_count_unit(scanner);
    if (!count) return std::nullopt;
    return Reading{count->grist, count->system->direct, count, {}, false};
}

base::Result<Reading> read(Scanner& scanner, bool with_amount) {
    std::optional<Reading> reading = read_by_kind(scanner, with_amount);
    if (!scanner.finished() || !reading) return *scanner.problem();
    reading->caution = scanner.caution();
    reading->from_memory = scanner.from_memory();
    return *reading;
}

}  // namespace

std::string_view kind_name(const AnyQuantity& value) {
    switch (value.index()) {
        case 0:
            return "length";
        case 1:
            return "mass";
        case 2:
            return "yarn size";
        case 3:
            return "stitch gauge";
        default:
            return "row gauge";
    }
}

base::Result<Reading> parse_quantity(std::string_view text) {
    Scanner scanner(text, "170 yd / 3.5 oz");
    return read(scanner, true);
}

base::Result<OutputUnit> parse_output_unit(std::string_view text) {
    Scanner scanner(text, "m/100g");
    const auto reading = read(scanner, false);
    if (!reading) return reading.problem();
    return OutputUnit{std::string(base::trimmed(text)), *reading};
}

std::optional<Ratio> in_unit(const AnyQuantity& value, const OutputUnit& unit) {
    if (value.index() != unit.one.value.index()) return std::nullopt;
    return std::visit(
        [&](const auto& quantity) {
            const auto& one = std::get<std::decay_t<decltype(quantity)>>(unit.one.value);
            return unit.one.per_length ? Ratio(one / quantity) : Ratio(quantity / one);
        },
        value);
}

std::vector<OutputUnit> usual_units(const AnyQuantity& value) {
    static constexpr std::array<std::string_view, std::variant_size_v<AnyQuantity>> names{
        "m,yd", "g,oz", "m/100g,yd/100g,yd/lb,tex,Nm,NeC,NeW", "sts/10cm,sts/4in",
        "rows/10cm,rows/4in"};
    std::vector<OutputUnit> out;
    for (const std::string& name : base::split(names.at(value.index()), ','))
        out.push_back(*parse_output_unit(name));
    return out;
}

std::optional<AnyQuantity> across(const AnyQuantity& value, Grist grist) {
    if (const auto* const length = std::get_if<Length>(&value)) return Mass(*length / grist);
    if (const auto* const mass = std::get_if<Mass>(&value)) return Length(*mass * grist);
    return std::nullopt;
}

}  // namespace skeinfall::units
