#include "skeinfall/exchange/detail/lying_double.hpp"

#include <regex>
#include <string>

#include <fmt/format.h>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/count_words.hpp"
#include "skeinfall/project/thing_words.hpp"
#include "skeinfall/units/parse.hpp"

namespace skeinfall::exchange::detail {
namespace {

/// "10 cm" as "20 cm".
std::string twice_as_wide(const std::string& width) {
    const auto length = units::parse_length(width);
    const auto number = base::number_first<double>(width);
    if (!length || !number) return width;
    const std::string plain =
        fmt::format("{:.6g} {}", 2.0 * number->value, base::trimmed(number->rest));
    const auto again = units::parse_length(plain);
    constexpr double rounding = 1.001;
    return again && *again < 2.0 * rounding * *length && 2.0 * *length < rounding * *again
               ? plain
               : fmt::format("{:.4g} cm", 2.0 * (*length / units::centimetre));
}

}  // namespace

std::optional<base::Problem> may_lie_double(const WrittenPiece& piece, bool told) {
    if (told || piece.width.empty() || !is_kind(piece.name, project::Thing::hollow))
        return std::nullopt;
    // A band so narrow and long is a strip.
    static const std::regex band(R"(\b(?:head|wrist|ear|sweat)[\s-]?(?:band|warmer)s?\b)",
                                 std::regex::icase);
    const auto wide = units::parse_length(piece.width);
    const auto high = units::parse_length(piece.length);
    if (wide && high && *high >= 3.0 * *wide && std::regex_search(piece.name, band))
        return std::nullopt;
    const std::string size = piece.rows ? std::to_string(*piece.rows) + " rows" : piece.length;
    const std::string count =
        piece.count > 1 && !piece.pair ? std::to_string(piece.count) + " " : "";
    const std::string of = count + piece.name;
    const auto said = [&](const std::string& width) {
        return "\"" + of + ": " + width + " around x " + size + "\"";
    };
    return base::Problem{base::quoted(piece.name) + " may be measured flat, in two layers",
                         {},
                         said(piece.width) + ", or " + said(twice_as_wide(piece.width)) +
                             " where " + piece.width + " is its width as it lies flat",
                         "Where it is one layer, or laid open, say \"" + of + ", one layer: " +
                             piece.width + " x " + size + "\"; two alike sides are two pieces."};
}

}  // namespace skeinfall::exchange::detail
