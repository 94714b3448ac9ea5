#pragma once
/// \file
/// Where the pieces of a make stand on its picture. Inner header of report.

#include <vector>

#include "skeinfall/report/detail/make_drawing.hpp"
#include "skeinfall/report/detail/piece_outlines.hpp"

namespace skeinfall::report {

inline constexpr double drawing_margin = 8.0;
inline constexpr double height_words = 62.0;  ///< the height and its words
inline constexpr double mark_width = 17.0;    ///< of a join
inline constexpr double mark_gap = 23.0;      ///< before the first
inline constexpr double name_room = 96.0;

struct PictureSizes {
    double page = 0.0;
    double margin = 0.0;
    double tallest = 0.0;  ///< a piece
    double all = 0.0;      ///< all lines of pieces
    double below = 0.0;    ///< a piece: its width and its words, its name
};
[[nodiscard]] PictureSizes sizes_of(PictureWidth width);

struct MakeRoom {
    std::vector<Box> boxes;  ///< one a piece
    double floor = 0.0;      ///< below the last line of them
};

/// In lines, each as wide as the page permits, as large as there is room for below `top`; motifs no
/// smaller than can be seen, however tall the picture becomes. `marks` is the room for joins beside
/// each piece.
[[nodiscard]] MakeRoom room_of(const DrawnMake& make, PictureSizes sizes, double top, double marks);

}  // namespace skeinfall::report
