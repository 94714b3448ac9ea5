#pragma once
/// \file
/// What the picture of a make shows, before it is drawn: every piece row by row, which yarn each
/// row takes, and where joins and weighings fall. Inner header of report.

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "skeinfall/cover/cover.hpp"
#include "skeinfall/joins/answer.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/project/project.hpp"
#include "skeinfall/report/detail/dyes.hpp"
#include "skeinfall/report/detail/picture_canvas.hpp"
#include "skeinfall/report/picture.hpp"

namespace skeinfall::report {

/// What a yarn has of a row that several work.
struct YarnShare {
    std::size_t role = 0;  ///< index into Project::roles
    double share = 0.0;    ///< of the row's yarn, 0 to 1

    bool operator==(const YarnShare&) const = default;
};

/// Stitches of a row side by side in one yarn, from the left of the drawing.
struct DrawnBlock {
    std::size_t role = 0;  ///< index into Project::roles
    double from = 0.0;     ///< of the row's width, 0 to 1
    double to = 0.0;

    bool operator==(const DrawnBlock&) const = default;
};

/// How the rows of a flat piece lie.
enum class Lie {
    across,  ///< one above the other
    wings,   ///< along the lower edges of a nape triangle
    blocks   ///< from corner to corner
};

/// Rows in a stretch that one yarn works.
struct DrawnPiece {
    std::size_t piece = 0;  ///< index into Project::pieces
    std::int64_t copy = 1;
    std::int64_t copies = 1;
    std::string name;
    bool round = false;
    bool from_centre = false;           ///< rounds about a centre that lie flat: drawn as rings
    std::int64_t corners = 0;           ///< of such a piece; 0 for a circle
    std::vector<units::Length> widths;  ///< of each row; around, when worked in the round
    std::vector<std::size_t> roles;     ///< of each row, that with most of it: Project::roles
    std::vector<std::vector<YarnShare>> others;  ///< of each row, the yarns beside that one
    /// Of each row, where those lie; empty where the rows do not say it.
    std::vector<std::vector<DrawnBlock>> colour_blocks;
    units::Length height{};
    /// Half of it where the round lies flat as a tube; across, where it is from the centre.
    units::Length width{};
    Lie lie = Lie::across;
    project::Blocks blocks;           ///< of Lie::blocks
    std::vector<std::size_t> border;  ///< Project::roles of its rounds, from the inside
    units::Length border_high{};      ///< of all of them; in width and height twice

    [[nodiscard]] units::Length inner_width() const { return width - 2.0 * border_high; }
};

/// Rows of a piece that are drawn in one, `to` not among them.
struct DrawnStretch {
    std::size_t role = 0;  ///< index into Project::roles
    std::size_t from = 0;
    std::size_t to = 0;
};

struct DrawnStretches {
    std::vector<DrawnStretch> all;
    /// Too thin to be told apart: rows are taken a line of ink together, as much of it in each yarn
    /// as has most of its rows; what other yarns have of a row is left out.
    bool thin = false;
};

/// Rows next to each other that look alike, on a drawing so many points high.
[[nodiscard]] DrawnStretches stretches_of(const DrawnPiece& piece, double high);

/// A join, in working order of its yarn.
struct DrawnJoin {
    std::size_t number = 0;   ///< on the picture, from 1
    std::string words;        ///< "MC: join gw-02 after row 18 of cowl; weigh from row 16 on"
    std::size_t shape = 0;    ///< index into DrawnMake::pieces, or their number: in no piece
    double rows = 0.0;        ///< done
    double weigh_from = 0.0;  ///< rows; the same as `rows` where nothing is to be weighed
    double latest = 0.0;
    std::int64_t border_round = 0;  ///< of the border of its piece; 0: in its rows
};

/// Motifs as they are joined, row by row from below.
struct DrawnField {
    std::string name;
    std::int64_t columns = 1;
    std::vector<DrawnPiece> motifs;  ///< in working order
    units::Length width{};           ///< of one, and of a space for it
    units::Length height{};

    [[nodiscard]] std::int64_t rows() const {
        return (static_cast<std::int64_t>(motifs.size()) + columns - 1) / columns;
    }
};

struct DrawnMake {
    std::vector<DrawnField> fields;
    std::vector<DrawnPiece> pieces;
    std::vector<DrawnJoin> joins;
    std::int64_t left_out = 0;     ///< copies that look like one that is drawn
    std::int64_t no_room_for = 0;  ///< pieces that are not drawn
    std::vector<bool> used;        ///< of Project::roles, whether the make takes any
    std::string size;              ///< that is drawn; empty where there is one alone
};

[[nodiscard]] DrawnMake drawn_make(const project::Project& project, const need::MakeNeed& need,
                                   const joins::Answer& answer);

/// Joined motifs of the make, squares of 4 or more; others are not laid out here. `pieces` are all
/// that are worked.
[[nodiscard]] std::vector<DrawnField> drawn_fields(const project::Project& project,
                                                   std::size_t size,
                                                   const std::vector<DrawnPiece>& pieces);
/// "all 40 of square, 5 across: 25 in (63.5 cm) wide, 40 in (101.6 cm) high".
[[nodiscard]] std::string field_words(const DrawnField& field);
/// Draws one with its words below, from a corner, within so much; says how high that came.
double draw_field(Canvas& canvas, const DrawnField& field, const std::vector<Dye>& dyes,
                  Point corner, double width, double height);

/// `narrow` is for a phone, `paper` for a sheet whose table lists the joins, `slip` for one with
/// little room left, `sheet` for one of several such sheets, `with_tables` for a picture that has
/// tables of the joins below, `alone` for one that stands without a page.
enum class PictureWidth { wide, narrow, paper, slip, sheet, with_tables, alone };

/// "22 in (56 cm) around".
[[nodiscard]] std::string width_words(const DrawnPiece& piece);
/// The yarns in their order on each piece, its measures, and the joins.
[[nodiscard]] std::string make_words_of(const project::Project& project, const DrawnMake& make);

/// Draws the make from `top` down; says how far that came.
double draw_make(Canvas& canvas, const project::Project& project, const joins::Answer& answer,
                 const DrawnMake& make, PictureWidth width, double top);

/// The make as it will look. See make_picture() in page.hpp.
[[nodiscard]] std::string make_picture_at(const project::Project& project,
                                          const need::MakeNeed& need, const joins::Answer& answer,
                                          PictureFormat format, PictureWidth width);

/// What the picture says, in words.
[[nodiscard]] std::string make_words(const project::Project& project, const need::MakeNeed& need,
                                     const joins::Answer& answer);

/// The cover bar, wide or for a phone.
[[nodiscard]] std::string cover_bar_at(const project::Project& project,
                                       const cover::MakeCover& cover, const cover::Rules& rules,
                                       PictureFormat format, PictureWidth width);

}  // namespace skeinfall::report
