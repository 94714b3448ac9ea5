#pragma once
/// \file
/// Projects, yarns and skeins in a line or two. All names are invented.

#include <array>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "skeinfall/need/need.hpp"
#include "skeinfall/project/project.hpp"
#include "skeinfall/stash/skein.hpp"
#include "skeinfall/units/format.hpp"

namespace skeinfall::support {

/// The fewest digits that read back as this number.
inline std::string digits_of(double value) {
    std::array<char, 400> digits{};
    const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), value,
                                   std::chars_format::fixed);
    return {digits.data(), end.ptr};
}

inline units::Printed<units::Length> metres(double value) {
    return {digits_of(value) + " m", value * units::metre};
}
inline units::Printed<units::Length> yards(double value) {
    return {digits_of(value) + " yd", value * units::yard};
}
inline units::Printed<units::Mass> grams(double value) {
    return {digits_of(value) + " g", value * units::gram};
}
inline units::Printed<units::Grist> grist(const std::string& text) {
    return {text, units::parse_grist(text).value()};
}
inline yarn::FibreContent fibre(const std::string& text) {
    return yarn::parse_fibre_content(text).value();
}

inline measure::Weighing weighed(double shown_g, double step_g) {
    return {grams(shown_g), grams(step_g), std::nullopt};
}

/// A scale step that makes the reading's standard uncertainty `spread_g`.
inline measure::Weighing weighed_with_spread(double shown_g, double spread_g) {
    return weighed(shown_g, spread_g * std::sqrt(12.0));
}

inline yarn::Yarn yarn_of(const std::string& name, const units::Printed<units::Length>& length,
                          const units::Printed<units::Mass>& mass) {
    yarn::Yarn out;
    out.name = name;
    out.label = {length, mass};
    return out;
}

/// A whole skein, never weighed.
inline stash::Skein whole(const std::string& id, yarn::Yarn yarn, const std::string& lot) {
    stash::Skein out;
    out.id = id;
    out.yarn = std::move(yarn);
    if (!lot.empty()) out.dye_lot = lot;
    return out;
}

/// A begun skein that was weighed.
inline stash::Skein part(const std::string& id, yarn::Yarn yarn, const std::string& lot,
                         measure::Weighing weighing) {
    stash::Skein out = whole(id, std::move(yarn), lot);
    out.part = true;
    out.weighing = std::move(weighing);
    return out;
}

inline project::Role role(const std::string& id) {
    project::Role out;
    out.id = id;
    return out;
}

/// A rectangle of one yarn without a foundation, so that its rows are all it takes.
inline project::Piece piece(const std::string& name, const std::string& role, std::int64_t stitches,
                            std::int64_t rows) {
    project::Piece out;
    out.name = name;
    out.role = role;
    out.stitches = project::PerSize<std::int64_t>(stitches);
    out.rows = project::PerSize<std::int64_t>(rows);
    out.foundation_rows = units::Ratio(0.0);
    return out;
}

/// One rectangle in yarn MC, 6 sts and 2 rows to the inch, nothing said of how much it takes.
/// So fine that 5 cm of yarn a stitch is a fabric.
inline project::Project rectangle(std::int64_t stitches, std::int64_t rows) {
    project::Project out;
    out.file = "wrap.toml";
    out.title = "Harbour wrap";
    out.gauge.stitches = 6.0 * units::stitch / units::inch;
    out.gauge.rows = 2.0 * units::row / units::inch;
    out.gauge.stitch = "hdc";
    out.roles = {role("MC")};
    out.pieces = {piece("wrap", "MC", stitches, rows)};
    return out;
}

/// A need of the given length and spread that came from nowhere in particular.
inline need::RoleNeed need_of_length(double metres, double spread) {
    need::RoleNeed out;
    out.role = "MC";
    out.source = need::Source::stated_rate;
    out.how = "from the stated rate";
    out.parts = {{need::Purpose::body, metres * units::metre}};
    out.length = {metres * units::metre, spread * units::metre};
    out.causes = {{"someone else's yarn per stitch", units::Ratio(spread / metres),
                   "Work a swatch in this yarn and weigh it."}};
    return out;
}

/// Yarn of one purpose in a need; none when it has no such part.
inline units::Length part_of(const need::RoleNeed& need, need::Purpose purpose) {
    units::Length sum{};
    for (const need::Part& part : need.parts)
        if (part.purpose == purpose) sum += part.yarn;
    return sum;
}

inline std::vector<std::string> ids_of(const std::vector<stash::Skein>& skeins) {
    std::vector<std::string> out;
    out.reserve(skeins.size());
    for (const stash::Skein& skein : skeins) out.push_back(skein.id);
    return out;
}

}  // namespace skeinfall::support
