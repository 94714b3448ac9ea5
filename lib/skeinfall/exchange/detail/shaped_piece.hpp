#pragma once
/// \file
/// Pieces whose shape their makers name, and count by what that shape is made of: rounds of a
/// granny square, blocks from corner to corner, the sides of a triangle.

#include <cstdint>
#include <string>

namespace skeinfall::exchange::detail {

/// What the words say of a shape.
struct SaidShape {
    std::string shape;         ///< as project files name it; empty: none of these
    bool blocks = false;       ///< counted by its blocks: as many wide and high
    std::int64_t corners = 0;  ///< of a polygon
};

/// "48 granny squares of 6 rounds" as "48 granny squares: 4 sts x 6 rounds", "c2c throw, 40 x 50
/// blocks" as "c2c throw: 40 sts x 50 rows", so that counts and names are read as of any piece. A
/// triangle is told by its whole name: "shawl, triangle from the nape: 60 x 30 in". Other texts
/// stay.
[[nodiscard]] SaidShape take_shape(std::string& text);

/// The names of triangles that a width and a length make, "triangle from the nape" and so on.
[[nodiscard]] std::string triangles_by_size();

}  // namespace skeinfall::exchange::detail
