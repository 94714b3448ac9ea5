#include "skeinfall/exchange/detail/answer_text.hpp"

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/units/parse.hpp"

namespace skeinfall::exchange::detail {

std::string in_toml(std::string_view text) {
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\')
            out += std::string("\\") + c;
        else if (static_cast<unsigned char>(c) < 0x20U || c == 0x7f)
            out += fmt::format("\\u{:04X}", static_cast<unsigned>(static_cast<unsigned char>(c)));
        else
            out += c;
    }
    return out + "\"";
}

void write_swatch(AnswerText& out, const WrittenSwatch& swatch, const std::string& role,
                  const std::string& stitch, const std::optional<std::string>& scale) {
    out.table("[swatch]", "swatch");
    if (!role.empty()) out.text("yarn", role, "swatch");
    if (swatch.stitches) {
        out.bare("stitches", std::to_string(*swatch.stitches), "swatch");
        out.bare("rows", std::to_string(*swatch.rows), "swatch");
    }
    if (!swatch.stitch.empty() && !base::same_word(swatch.stitch, stitch))
        out.text("stitch", swatch.stitch, "swatch");
    if (swatch.strands > 1) out.bare("strands", std::to_string(swatch.strands), "swatch");
    if (!swatch.width.empty()) {
        out.text("width", swatch.width, "swatch");
        out.text("height", swatch.height, "swatch");
    }
    if (!swatch.mass.empty()) {
        out.text("mass", swatch.mass, "swatch");
        out.text("scale", scale.value_or(swatch.scale), "swatch");
    } else if (!swatch.before.empty()) {
        out.text("before", swatch.before, "swatch");
        out.text("after", swatch.after, "swatch");
        out.text("scale", scale.value_or(swatch.scale), "swatch");
    } else {
        out.text("length", swatch.length, "swatch");
    }
}

std::optional<base::Problem> write_extra(AnswerText& out, const WrittenExtra& extra,
                                         const std::string& role, const std::string& stitch,
                                         const std::string& label) {
    const auto refused = [](std::string what, std::string expected, std::string remedy) {
        return base::Problem{std::move(what),
                             {.file = "plus", .line = 0, .column = 0},
                             std::move(expected),
                             std::move(remedy)};
    };
    out.table("[finish]", "plus");
    if (!role.empty()) out.text("yarn", role, "plus");
    out.text("name", extra.name, "plus");
    if (extra.count > 0) out.bare("count", std::to_string(extra.count), "plus");
    if (extra.rounds > 0) {
        if (!extra.stitch.empty() && stitch.empty())
            return refused("it is of " + base::quoted(extra.stitch) +
                               ", and the stitch of the make is not said",
                           "the stitch of the make as well, or the yarn it takes",
                           "Say the yarn: \"" + extra.name + " 30 yd\".");
        if (!extra.stitch.empty() && !base::same_word(extra.stitch, stitch))
            return refused(
                base::quoted(extra.stitch) + " is another stitch than the make's, " + stitch,
                "rounds in the stitch of the make, or the yarn they take",
                "Say the yarn: \"border 30 yd\".");
        out.text("kind", "border", "plus");
        out.bare("rounds", std::to_string(extra.rounds), "plus");
        out.bare("first_round", std::to_string(extra.stitches), "plus");
        return std::nullopt;
    }
    if (extra.strands > 0) {
        out.text("kind", "fringe", "plus");
        out.bare("strands", std::to_string(extra.strands), "plus");
        out.text("cut", extra.cut, "plus");
        return std::nullopt;
    }
    out.text("kind", "other", "plus");
    std::string takes = extra.yarn;
    if (const auto mass = units::parse_mass(takes); mass && !units::parse_length(takes)) {
        if (label.empty())
            return refused("a weight without the yarn's length per weight", "a length",
                           "The label of the yarn would do: \"170 yd / 100 g\".");
        takes = fmt::format("{:.6g} m", units::Length(*mass * *units::parse_grist(label)).value());
    }
    out.text("takes", takes, "plus");
    return std::nullopt;
}

void write_piece(AnswerText& out, const WrittenPiece& piece, const OfPieces& all) {
    out.table("[piece]", "make");
    out.text("name", piece.name.empty() ? "piece" : piece.name, "make");
    if (piece.round) out.text("worked", "round", "make");
    if (all.edge) out.text("edge", *all.edge, "edge");
    if (!all.yarn.empty()) out.text("yarn", all.yarn, "stripes");
    if (!all.stripes.empty()) out.bare("stripes", all.stripes, "stripes");
    if (all.multiple) out.text("multiple", *all.multiple, "multiple");
    if (piece.count != 1) out.bare("count", std::to_string(piece.count), "make");
    if (piece.last_stitches || !piece.last_width.empty()) out.text("shape", "trapezoid", "make");
    if (!piece.shape.empty()) out.text("shape", piece.shape, "make");
    if (piece.corners > 0) out.bare("corners", std::to_string(piece.corners), "make");
    if (piece.blocks) {
        out.bare("blocks_wide", std::to_string(piece.stitches.value_or(1)), "make");
        out.bare("blocks_high", std::to_string(piece.rows.value_or(1)), "make");
        if (!piece.gauge.empty()) out.bare("gauge", piece.gauge, "gauge");
        return;
    }
    // The shape says with how many it begins.
    if (!piece.shape.empty() && piece.stitches && piece.round)
        out.bare("rows", std::to_string(piece.rows.value_or(1)), "make");
    else if (piece.stitches)
        out.bare("stitches", std::to_string(*piece.stitches), "make");
    else
        out.text("width", piece.width, "make");
    if (piece.last_stitches)
        out.bare("last_stitches", std::to_string(*piece.last_stitches), "make");
    if (!piece.last_width.empty()) out.text("last_width", piece.last_width, "make");
    if (piece.rows && (piece.shape.empty() || !piece.round))
        out.bare("rows", std::to_string(*piece.rows), "make");
    else if (!piece.rows)
        out.text("length", piece.length, "make");
    if (!piece.gauge.empty()) out.bare("gauge", piece.gauge, "gauge");
    if (piece.increase != 0) {
        out.bare("increase", std::to_string(piece.increase), "make");
        out.bare("every", std::to_string(piece.every), "make");
    }
}

}  // namespace skeinfall::exchange::detail
