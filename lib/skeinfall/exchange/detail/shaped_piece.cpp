#include "skeinfall/exchange/detail/shaped_piece.hpp"

#include <array>
#include <regex>
#include <string_view>

#include "skeinfall/base/text.hpp"

namespace skeinfall::exchange::detail {
namespace {

/// Shapes from a few stitches of which a width and a length tell all.
constexpr std::array<std::string_view, 2> triangles{"triangle from the nape",
                                                    "triangle from a corner"};

std::string named(const std::string& name, const std::string& sides) {
    std::string out(base::trimmed(name));
    while (!out.empty() && (out.back() == ',' || out.back() == ':' || out.back() == ' '))
        out.pop_back();
    return out + ": " + sides;
}

}  // namespace

SaidShape take_shape(std::string& text) {
    static const std::regex granny(
        R"(^(.*\bgrann(?:y|ies)(?:\s+(?:squares?|motifs?|blocks?))?)\s*[:,]?\s*(?:of|with|in|at)?\s*(\d{1,3})\s*(?:rounds?|rnds?)(?:\s+each)?$)",
        std::regex::icase);
    static const std::regex blocks(
        R"(^(.*\b(?:corner[\s-]+to[\s-]+corner|c2c)\b[^\d]*?)\s*[:,]?\s*(?:of\s+)?(\d{1,4})\s*(?:blocks?\s*)?(?:x|by)\s*(\d{1,4})\s*blocks?$)",
        std::regex::icase);
    static const std::regex polygon(
        R"(^(.*\b(pent|hex|oct)agons?)\s*[:,]?\s*(?:of|with|in|at)?\s*(\d{1,3})\s*(?:rounds?|rnds?)(?:\s+each)?$)",
        std::regex::icase);
    std::smatch found;
    if (std::regex_match(text, found, polygon)) {
        const std::string rounds = found[3];
        const std::string name = found[1];
        const std::string kind = base::lower(found[2].str());
        text = named(name, "4 sts x " + rounds + " rounds");
        return {"polygon", false, kind == "pent" ? 5 : kind == "hex" ? 6 : 8};
    }
    if (std::regex_match(text, found, granny)) {
        const std::string rounds = found[2];
        const std::string name = found[1];
        text = named(name, "4 sts x " + rounds + " rounds");
        return {"granny square", false, 0};
    }
    if (std::regex_match(text, found, blocks)) {
        const std::string wide = found[2];
        const std::string high = found[3];
        const std::string name = found[1];
        text = named(name, wide + " sts x " + high + " rows");
        return {"corner to corner", true, 0};
    }
    const std::size_t colon = text.find(':');
    for (const std::string_view shape : triangles)
        if (base::lower(text.substr(0, colon)).find(shape) != std::string::npos)
            return {std::string(shape), false, 0};
    return {};
}

std::string triangles_by_size() {
    std::string out;
    for (const std::string_view shape : triangles)
        out += (out.empty() ? "\"" : " or \"") + std::string(shape) + ": 60 in x 30 in\"";
    return out;
}

}  // namespace skeinfall::exchange::detail
