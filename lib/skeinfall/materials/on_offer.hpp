#pragma once
/// \file
/// A make in every size that a designer's page offers: those the project names, else its one piece
/// in whole repeats about the size as written, each as fit::fit_piece() makes it; of motifs as many
/// more or fewer. What is printed for a yarn is what the materials section prints: in other sizes
/// in proportion to what each takes.

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "skeinfall/materials/section.hpp"
#include "skeinfall/project/project.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::materials {

/// A piece in one of the sizes.
struct OfferedPiece {
    std::string name;
    std::int64_t copies = 1;
    bool round = false;                      ///< rows are rounds, the width is a circumference
    bool centre = false;                     ///< worked from its centre: the width is a diameter
    std::optional<std::int64_t> foundation;  ///< chains, or stitches to cast on; nothing: none
    std::int64_t stitches = 0;               ///< in row 1
    std::optional<std::int64_t> repeats;     ///< whole ones in them, where they come in repeats
    std::int64_t rows = 0;
    project::FinishedSize measures;
};

struct OfferedYarn {
    units::Length total{};                     ///< as printed, not rounded
    std::optional<std::int64_t> skeins;        ///< whole ones; nothing without a put-up
    std::optional<units::Length> skeins_hold;  ///< by their labels
};

/// Motifs of a make, and how they lie.
struct OfferedMotifs {
    std::int64_t count = 0;
    std::optional<std::int64_t> across;          ///< side by side; nothing: nobody joins them
    std::optional<project::FinishedSize> whole;  ///< of all of them, where they fill their rows
};

struct OfferedSize {
    std::vector<OfferedPiece> pieces;     ///< in the order of the project
    std::optional<OfferedMotifs> motifs;  ///< where those are what is chosen
    std::vector<OfferedYarn> yarns;       ///< in the order of Offer::yarns
};

/// What may be chosen in one direction.
struct OfferedAxis {
    std::vector<std::string> names;       ///< as the project has them; else ...
    std::vector<units::Length> measures;  ///< ... what the piece measures that way ...
    std::vector<std::int64_t> motifs;     ///< ... or, and not that, how many motifs
    std::size_t written = 0;              ///< the one that the pattern is written in
    /// Of lengths, where the one width follows from them: how wide each is.
    std::vector<units::Length> beside = {};

    [[nodiscard]] std::size_t size() const {
        return std::max({names.size(), measures.size(), motifs.size()});
    }
};

/// Why a make is offered in the size as written only.
enum class OneSize { no, no_pieces, several_pieces, shape };

struct Offer {
    std::optional<std::size_t> piece;  ///< index of the one made wider and longer; nothing: none
    bool motifs = false;               ///< of that one there are more or fewer, no larger ones
    bool grid = false;                 ///< sizes are named by width and length
    OfferedAxis across;                ///< widths, or all sizes where they have one name
    OfferedAxis along;               ///< lengths; a single one without a name where there are none
    std::vector<std::string> yarns;  ///< ids of roles
    /// across.size() x along.size(), lengths of one width behind each other. Nothing where the rows
    /// do not come out.
    std::vector<std::optional<OfferedSize>> sizes;
    OneSize why = OneSize::no;
    /// Finishing parts whose yarn is stated outright: it is that of the size as written in all.
    std::vector<std::string> unchanged;

    [[nodiscard]] const std::optional<OfferedSize>& at(std::size_t width,
                                                       std::size_t length) const {
        return sizes.at(width * along.size() + length);
    }
};

/// Widths and lengths that are offered at most, each from about half of the size as written to
/// about twice.
inline constexpr std::size_t choices_at_most = 13;

/// `section` is the project's own. `piece` is made wider and longer where the project has several
/// and no sizes, the others staying as they are. Throws what need::need_of() throws.
[[nodiscard]] Offer sizes_on_offer(const project::Project& project, const Section& section,
                                   std::optional<std::size_t> piece = std::nullopt);

}  // namespace skeinfall::materials
