#include "skeinfall/project/size_named.hpp"

#include <algorithm>
#include <string>

#include "skeinfall/base/name.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/units/parse.hpp"

namespace skeinfall::project {
namespace {

using units::Length;

/// "105x110 cm" is "105 cm" and "110 cm"; nothing where one of them is no length.
std::vector<Length> sides_of(std::string_view text) {
    std::string plain(text);
    constexpr std::string_view sign = "\xc3\x97";
    for (std::size_t at = plain.find(sign); at != std::string::npos; at = plain.find(sign))
        plain.replace(at, sign.size(), "x");
    std::replace(plain.begin(), plain.end(), 'X', 'x');
    std::replace(plain.begin(), plain.end(), '*', 'x');
    constexpr std::string_view by = " by ";
    for (std::size_t at = plain.find(by); at != std::string::npos; at = plain.find(by))
        plain.replace(at, by.size(), " x ");
    const std::vector<std::string> parts = base::split(plain, 'x');
    // A unit that stands once is that of both.
    const std::string last(base::trimmed(parts.back()));
    const std::size_t unit = last.find_last_of("0123456789.,/");
    const std::string of_last = unit == std::string::npos ? "" : last.substr(unit + 1);
    std::vector<Length> out;
    for (const std::string& part : parts) {
        const std::string side(base::trimmed(part));
        auto length = units::parse_length(side);
        if (!length) length = units::parse_length(side + of_last);
        if (!length) return {};
        out.push_back(*length);
    }
    return out;
}

bool same_side(Length a, Length b) {
    constexpr Length rounded = 0.0005 * units::metre;
    return (a > b ? a - b : b - a) < rounded;
}

/// "7x60" in the unit of a size that is named "7 in x 60 in".
std::string in_unit_of(std::string_view text, const std::string& size) {
    if (text.find_first_of("0123456789") == std::string_view::npos ||
        text.find_first_not_of("0123456789.,/ xX*") != std::string_view::npos)
        return std::string(text);
    const std::size_t unit = size.find_last_of("0123456789.,/");
    return std::string(text) + (unit == std::string::npos ? "" : size.substr(unit + 1));
}

}  // namespace

std::vector<std::size_t> sizes_meant(const Project& project, std::string_view text) {
    for (std::size_t size = 0; size < project.sizes.size(); ++size)
        if (base::same_word(project.sizes[size], text)) return {size};
    std::vector<std::size_t> out;
    if (!project.grid) return out;
    // Figures alone are in the unit of the sizes.
    const std::vector<Length> wanted = sides_of(in_unit_of(text, project.sizes.front()));
    if (wanted.empty() || wanted.size() > 2) return out;
    for (std::size_t size = 0; size < project.sizes.size(); ++size) {
        const std::vector<Length> sides = sides_of(project.sizes[size]);
        const bool both =
            wanted.size() == sides.size() &&
            std::equal(wanted.begin(), wanted.end(), sides.begin(), sides.end(), same_side);
        const bool one = wanted.size() < sides.size() &&
                         std::any_of(sides.begin(), sides.end(),
                                     [&](Length side) { return same_side(side, wanted.front()); });
        if (both || one) out.push_back(size);
    }
    return out;
}

}  // namespace skeinfall::project
