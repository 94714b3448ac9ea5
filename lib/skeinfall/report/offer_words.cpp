#include "skeinfall/report/detail/offer_words.hpp"

#include <algorithm>
#include <cstdint>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/detail/figures.hpp"
#include "skeinfall/report/makers_page.hpp"
#include "skeinfall/report/words.hpp"

namespace skeinfall::report {
namespace {

using materials::Offer;
using materials::OfferedAxis;
using materials::OfferedPiece;
using materials::OfferedSize;
using materials::OfferedYarn;

std::string measures_of(const OfferedPiece& piece) {
    const std::string wide = ruler_text(piece.measures.width);
    if (piece.centre) return wide + " across";
    return wide + (piece.round ? " around, " : " wide, ") + ruler_text(piece.measures.length) +
           " long";
}

std::string beginning_of(const OfferedPiece& piece, project::Craft craft) {
    if (!piece.foundation) return "as the pattern says";
    return craft == project::Craft::crochet
               ? counted(*piece.foundation, "chain", "chains")
               : counted(*piece.foundation, "stitch", "stitches") + " to cast on";
}

std::string stitches_of(const OfferedPiece& piece) {
    std::string out = std::to_string(piece.stitches);
    if (piece.repeats) out += ", " + counted(*piece.repeats, "repeat", "repeats");
    return out;
}

std::string rows_of(const OfferedPiece& piece) {
    return piece.round ? counted(piece.rows, "round", "rounds")
                       : counted(piece.rows, "row", "rows");
}

std::string yarn_text(const OfferedYarn& yarn, const MaterialsWords& words) {
    if (yarn.total <= units::Length{}) return "none";
    std::vector<units::Length> hold;
    if (yarn.skeins_hold) hold.push_back(*yarn.skeins_hold);
    std::string out = Figures::totals({yarn.total}, hold);
    if (yarn.skeins)
        out += "; " + words.fill(*yarn.skeins == 1 ? "skein_one" : "skein_many",
                                 {{"count", std::to_string(*yarn.skeins)}});
    return out;
}

/// "40, 5 across by 8 along: 25 in (63.5 cm) wide, 40 in (101.6 cm) long together".
std::string motifs_text(const materials::OfferedMotifs& motifs) {
    std::string out = std::to_string(motifs.count);
    if (!motifs.across) return out;
    const std::int64_t along = (motifs.count + *motifs.across - 1) / *motifs.across;
    out += fmt::format(", {} across by {} along", *motifs.across, along);
    if (!motifs.whole) return out + ", the last row short";
    return out + "; together " + ruler_text(motifs.whole->width) + " wide, " +
           ruler_text(motifs.whole->length) + " long";
}

std::string label_of(const OfferedAxis& axis, std::size_t at) {
    if (!axis.motifs.empty()) return counted(axis.motifs[at], "motif", "motifs");
    if (!axis.beside.empty())
        return ruler_text(axis.measures[at]) + " long, " + ruler_text(axis.beside[at]) + " wide";
    return axis.names.empty() ? ruler_text(axis.measures[at]) : shown_apart(axis.names[at]);
}

std::vector<std::string> labels_of(const OfferedAxis& axis, bool says_written) {
    std::vector<std::string> out;
    for (std::size_t i = 0; i < axis.size(); ++i) {
        std::string label = label_of(axis, i);
        if (says_written && i == axis.written) label += ", as written";
        out.push_back(std::move(label));
    }
    return out;
}

std::string why_words(const Offer& offer) {
    switch (offer.why) {
        case materials::OneSize::no:
            return {};
        case materials::OneSize::no_pieces:
            return "The pattern states no rows or stitches, so there is one size.";
        case materials::OneSize::several_pieces:
            return "It has several pieces that belong together, so there is one size.";
        case materials::OneSize::shape:
            break;
    }
    return "Its shape has one size.";
}

std::string choice_text(const OfferedAxis& axis, const std::string& many) {
    std::vector<std::string> labels = labels_of(axis, false);
    if (!axis.beside.empty())
        labels = {ruler_text(axis.measures.front()), ruler_text(axis.measures.back())};
    return fmt::format("{} {}, {} to {}", axis.size(), many, labels.front(), labels.back());
}

/// The piece that is made wider and longer, in the size as written.
const OfferedPiece& piece_of(const Offer& offer) {
    return offer.at(offer.across.written, offer.along.written)->pieces[*offer.piece];
}

}  // namespace

std::vector<std::string> terms_of(const project::Project& project, const Offer& offer) {
    std::vector<std::string> out;
    const std::vector<project::Piece>& pieces = project.pieces;
    if (offer.motifs) out.emplace_back("Motifs");
    if (pieces.size() == 1) {
        const bool round = pieces.front().worked == project::Worked::round;
        const bool groups = pieces.front().shape != nullptr && !pieces.front().shape->group.empty();
        const std::vector<std::string> of_one{
            offer.motifs ? "Each measures" : "Measures", "Begin with",
            (groups ? "Groups of stitches in " : "Stitches in ") +
                std::string(round ? "round 1" : "row 1"),
            round ? "Rounds" : "Rows"};
        out.insert(out.end(), of_one.begin(), of_one.end());
    } else {
        for (const project::Piece& piece : pieces) out.push_back(shown_apart(piece.name));
    }
    for (const std::string& role : offer.yarns)
        out.push_back("Yarn " + shown_apart(role_heading(*project.role(role))));
    return out;
}

std::vector<std::string> lines_of(const project::Project& project, const OfferedSize& size,
                                  const MaterialsWords& words) {
    const project::Craft craft = project.craft;
    std::vector<std::string> out;
    if (size.motifs) out.push_back(motifs_text(*size.motifs));
    if (size.pieces.size() == 1) {
        const OfferedPiece& piece = size.pieces.front();
        std::string rows = std::to_string(piece.rows);
        if (piece.copies > 1 && !size.motifs)
            rows += fmt::format(", worked {} times", piece.copies);
        const std::vector<std::string> of_one{measures_of(piece), beginning_of(piece, craft),
                                              stitches_of(piece), rows};
        out.insert(out.end(), of_one.begin(), of_one.end());
    } else {
        for (const OfferedPiece& piece : size.pieces) {
            std::vector<std::string> parts{measures_of(piece)};
            if (piece.foundation) parts.push_back(beginning_of(piece, craft));
            parts.push_back(rows_of(piece));
            std::string text = base::join(parts, "; ");
            if (piece.copies > 1) text = fmt::format("{} pieces, each {}", piece.copies, text);
            out.push_back(std::move(text));
        }
    }
    for (const OfferedYarn& yarn : size.yarns) out.push_back(yarn_text(yarn, words));
    return out;
}

Choices choices_of(const Offer& offer) {
    Choices out;
    out.across = {"Size", labels_of(offer.across, offer.piece.has_value())};
    out.along = {"Length", labels_of(offer.along, offer.piece.has_value())};
    if (offer.grid) out.across.name = "Width";
    if (!offer.piece) return out;
    if (offer.motifs) {
        out.across.name = offer.along.size() > 1 ? "Motifs across" : "Motifs";
        out.along.name = "Motifs along";
        return out;
    }
    const OfferedPiece& piece = piece_of(offer);
    out.across.name = piece.round ? "Around" : "Width";
    if (!piece.centre) return out;
    out.along.name = "Across";
    if (piece.copies > 1) out.along.name += ", each " + shown_apart(piece.name);
    return out;
}

std::vector<PageTable> yarn_tables(const project::Project& project, const Offer& offer,
                                   const MaterialsWords& words) {
    std::vector<PageTable> out;
    if (!offer.piece) return out;
    const std::vector<std::string> widths = labels_of(offer.across, false);
    const std::vector<std::string> lengths = labels_of(offer.along, false);
    for (std::size_t yarn = 0; yarn < offer.yarns.size(); ++yarn) {
        PageTable table;
        table.caption =
            "Yarn " + shown_apart(role_heading(*project.role(offer.yarns[yarn]))) +
            (offer.motifs ? offer.along.size() > 1 ? " by motifs along, and by motifs across"
                                                   : " by the number of motifs"
             : offer.along.beside.empty() ? " by length, and by width across"
                                          : " by length");
        table.heads = {!offer.motifs ? "length" : offer.along.size() > 1 ? "along" : "motifs"};
        if (offer.along.beside.empty())
            table.heads.insert(table.heads.end(), widths.begin(), widths.end());
        else
            table.heads.emplace_back("yarn");
        for (std::size_t j = 0; j < lengths.size(); ++j) {
            std::vector<std::string> line{lengths[j].empty() ? "yarn" : lengths[j]};
            for (std::size_t i = 0; i < widths.size(); ++i) {
                const auto& size = offer.at(i, j);
                line.push_back(size ? yarn_text(size->yarns[yarn], words) : "does not come out");
            }
            table.lines.push_back(std::move(line));
        }
        out.push_back(std::move(table));
    }
    return out;
}

namespace {

/// Pieces that meet the one that is made wider become others with it.
std::string which_change(const project::Project& project, const Offer& offer) {
    const OfferedSize& written = *offer.at(offer.across.written, offer.along.written);
    std::vector<std::string> with_it;
    for (std::size_t at = 0; at < written.pieces.size(); ++at) {
        const bool changes = std::any_of(
            offer.sizes.begin(), offer.sizes.end(), [&](const std::optional<OfferedSize>& size) {
                return size && (size->pieces[at].stitches != written.pieces[at].stitches ||
                                size->pieces[at].rows != written.pieces[at].rows);
            });
        if (changes && at != *offer.piece) with_it.push_back(shown_apart(project.pieces[at].name));
    }
    const std::string name = shown_apart(project.pieces[*offer.piece].name);
    if (with_it.empty())
        return fmt::format("Only {} changes; the other pieces stay as written.", name);
    return fmt::format(
        "{} changes, and {} with it, so that they meet{}.", name, base::join(with_it, ", "),
        project.pieces.size() > with_it.size() + 1 ? "; the other pieces stay as written" : "");
}

}  // namespace

std::vector<std::string> notes_of(const project::Project& project, const Offer& offer) {
    std::vector<std::string> out;
    if (const std::string why = why_words(offer); !why.empty()) out.push_back(why);
    if (!offer.piece) return out;
    if (offer.motifs)
        out.emplace_back("Every motif is worked as written; only how many there are changes.");
    else if (!offer.along.beside.empty())
        out.push_back(fmt::format("Every size here is a whole number of {}.",
                                  piece_of(offer).round ? "rounds" : "rows"));
    else
        out.push_back(
            fmt::format("Every size here is one that whole repeats of stitches and {} make.",
                        piece_of(offer).round ? "rounds" : "rows"));
    if (project.pieces.size() > 1 && !offer.motifs) out.push_back(which_change(project, offer));
    if (!offer.unchanged.empty()) {
        std::vector<std::string> parts;
        for (const std::string& part : offer.unchanged) parts.push_back(shown_apart(part));
        out.push_back("The yarn stated for " + base::join(parts, ", ") +
                      " is that of the size as written; allow more in a larger one.");
    }
    return out;
}

std::string offer_text(const project::Project& project, const Offer& offer) {
    std::string out = shown_apart(project.title) + ": ";
    if (!offer.piece && !offer.grid) {
        if (offer.sizes.size() == 1) return out + "one size. " + why_words(offer) + "\n";
        return out + choice_text(offer.across, "sizes") + "\n";
    }
    std::vector<std::string> parts;
    if (offer.motifs) {
        parts.push_back(choice_text(offer.across, offer.along.size() > 1 ? "widths" : "sizes"));
        if (offer.along.size() > 1) parts.push_back(choice_text(offer.along, "lengths"));
        return out + base::join(parts, "; ") + "\n";
    }
    if (offer.across.size() > 1) parts.push_back(choice_text(offer.across, "widths"));
    if (offer.along.size() > 1)
        parts.push_back(choice_text(
            offer.along, offer.piece && piece_of(offer).centre ? "sizes across" : "lengths"));
    return out + base::join(parts, "; ") + "\n";
}

}  // namespace skeinfall::report
