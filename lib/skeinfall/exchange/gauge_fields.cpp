#include "skeinfall/exchange/gauge_fields.hpp"

#include "skeinfall/units/parse.hpp"

namespace skeinfall::exchange {
namespace {

constexpr units::StitchGauge finest_stitches = 1000.0 * units::stitch / (10.0 * units::centimetre);
constexpr units::RowGauge finest_rows = 1000.0 * units::row / (10.0 * units::centimetre);

template <class Gauge>
std::optional<Gauge> bounded(TomlTable& in, std::string_view key, std::optional<Gauge> gauge,
                             Gauge finest, const char* expected) {
    if (!gauge || *gauge <= finest) return gauge;
    in.fail(key, "this is finer than anybody works by hand", expected,
            "Check the figure and its unit.");
    return std::nullopt;
}

}  // namespace

std::optional<units::StitchGauge> stitch_gauge_in(TomlTable& in, std::string_view key) {
    return bounded(in, key, in.parsed(key, units::parse_stitch_gauge), finest_stitches,
                   "at most 1000 stitches per 10 cm");
}

std::optional<units::RowGauge> row_gauge_in(TomlTable& in, std::string_view key) {
    return bounded(in, key, in.parsed(key, units::parse_row_gauge), finest_rows,
                   "at most 1000 rows per 10 cm");
}

}  // namespace skeinfall::exchange
