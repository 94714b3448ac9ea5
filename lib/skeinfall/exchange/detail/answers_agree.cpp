#include "skeinfall/exchange/detail/answers_agree.hpp"

#include <algorithm>
#include <regex>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"

namespace skeinfall::exchange::detail {

std::optional<base::Problem> gauge_of_another_stitch(const std::string& said_stitch,
                                                     const std::vector<WrittenPiece>& pieces,
                                                     const std::optional<WrittenGauge>& gauge) {
    if (!gauge || gauge->stitch.empty()) return std::nullopt;
    const auto other_than_gauge = [&](const std::string& stitch) {
        return stitch.empty() || base::same_word(stitch, gauge->stitch) ? std::string() : stitch;
    };
    std::string other = other_than_gauge(said_stitch);
    for (const WrittenPiece& piece : pieces)
        if (!piece.stitch.empty() && piece.gauge.empty()) other = other_than_gauge(piece.stitch);
    if (other.empty()) return std::nullopt;
    return base::Problem{fmt::format("it is of {}, and the piece is of {}",
                                     base::quoted(gauge->stitch), base::quoted(other)),
                         {.file = "gauge", .line = 0, .column = 0},
                         "the gauge in the stitch of the piece",
                         ""};
}

std::optional<base::Problem> stitch_of_several(const std::vector<WrittenPiece>& pieces,
                                               const std::vector<WrittenGauge>& gauges) {
    static const std::regex several(
        R"(\b(?:shells?|fans?|clusters?|grann(?:y|ies)|v-?\s?st(?:itch(?:e?s)?|s)?|stars?(?: stitch(?:es)?)?|squares?|motifs?|blocks?|groups?|repeats?|scallops?|picots?|crosses|cables?|mesh(?:es)?|spaces?|boxes)$)",
        std::regex::icase);
    for (const WrittenPiece& piece : pieces) {
        if (!piece.stitches || !std::regex_search(piece.stitch, several)) continue;
        if (std::any_of(gauges.begin(), gauges.end(), [&](const WrittenGauge& gauge) {
                return base::same_word(gauge.stitch, piece.stitch);
            }))
            continue;
        return base::Problem{
            base::quoted(piece.stitch) + " are several stitches each, and of how many is not said",
            {.file = "make", .line = 0, .column = 0},
            "its stitches counted, or its width and length",
            "A gauge counted in the same will do as well: \"5 " + piece.stitch +
                " and 6 rows per 10 cm\"."};
    }
    return std::nullopt;
}

std::optional<base::Problem> swatch_of_no_yarn(const std::vector<WrittenSwatch>& swatches,
                                               const std::vector<ColourRole>& roles, bool alike) {
    const base::Place place{.file = "swatch", .line = 0, .column = 0};
    std::vector<std::string> names;
    for (const ColourRole& role : roles)
        names.push_back(role.colour.empty() ? role.id : role.colour);
    for (const WrittenSwatch& swatch : swatches) {
        if (!swatch.colour.empty() && role_of(roles, swatch.colour).empty())
            return base::Problem{"no yarn of the make is " + base::quoted(swatch.colour), place,
                                 names.front().empty() ? "no word before the colon"
                                                       : "one of " + base::join(names, ", "),
                                 ""};
        if (swatch.colour.empty() && !alike)
            return base::Problem{"it does not say of which yarn it is, and their labels differ",
                                 place, "a colour before it, or one swatch for each",
                                 "Write it like \"" + names.front() + ": 15 x 15 cm, 14 g\"."};
    }
    return std::nullopt;
}

}  // namespace skeinfall::exchange::detail
