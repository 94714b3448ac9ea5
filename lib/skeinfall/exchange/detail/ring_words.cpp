#include "skeinfall/exchange/detail/ring_words.hpp"

#include <regex>

#include "skeinfall/base/text.hpp"

namespace skeinfall::exchange::detail {

bool take_ring(std::string& text) {
    static const std::regex said(
        R"(\s*[,(;]?\s*\b(?:(?:and|then)\s+)?(?:(?:the\s+|its\s+)?(?:short\s+)?(?:ends|edges)\s+)?)"
        R"((?:(?:seamed|sewn|sewed|stitched|grafted)(?:\s+(?:up|together|closed))?)"
        R"((?:\s+(?:in)?to\s+(?:a|the)\s+(?:ring|loop|circle|tube|round|band))?)"
        R"((?:\s+(?:at|along|by)\s+(?:the\s+|its\s+)?(?:short\s+)?(?:ends?|edges?))?)"
        R"(|(?:joined|made)\s+(?:in)?to\s+(?:a|the)\s+(?:ring|loop|circle|tube|band))\)?(?=\s*(?:$|[,:])))",
        std::regex::icase);
    std::smatch found;
    if (!std::regex_search(text, found, said)) return false;
    const std::string rest = found.prefix().str() + found.suffix().str();
    text = base::trimmed(rest);
    return true;
}

std::optional<base::Problem> no_ends_to_sew(const WrittenPiece& piece) {
    if (!piece.ring) return std::nullopt;
    const bool plain = piece.shape.empty() && !piece.blocks && piece.increase == 0 &&
                       !piece.last_stitches && piece.last_width.empty();
    if (!piece.round && plain) return std::nullopt;
    return base::Problem{"a strip is sewn into a ring by its first and last row, and this piece " +
                             std::string(piece.round ? "is worked in rounds" : "is no strip"),
                         {},
                         "the piece without its seam",
                         "What sewing takes may stand on top of it, as an amount of yarn."};
}

void write_rings(AnswerText& out, const std::vector<WrittenPiece>& pieces,
                 const std::vector<ColourRole>& roles, bool knit) {
    for (const WrittenPiece& piece : pieces) {
        if (!piece.ring) continue;
        out.table("[finish]", "make");
        out.text("kind", "seam", "make");
        out.text("name",
                 (piece.name.empty() ? std::string() : piece.name + ", ") + "seam of the ring",
                 "make");
        if (roles.size() > 1) out.text("yarn", roles.front().id, "make");
        if (piece.stitches) {
            // A stitch of yarn to each stitch of the strip is what whip stitch takes, and more.
            out.bare("stitches", std::to_string(*piece.stitches), "make");
        } else {
            out.text("along", piece.width, "make");
            out.text("way", knit ? "mattress stitch" : "whip stitch", "make");
        }
        if (piece.count > 1) out.bare("count", std::to_string(piece.count), "make");
    }
}

}  // namespace skeinfall::exchange::detail
