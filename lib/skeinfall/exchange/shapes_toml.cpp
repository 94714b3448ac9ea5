#include "skeinfall/exchange/shapes_toml.hpp"

#include <cmath>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/per_size.hpp"
#include "skeinfall/exchange/project_toml.hpp"

namespace skeinfall::exchange {
namespace {

using project::PerSize;
using project::RowLaw;
using project::Shape;

const Shape* shape_of(TomlTable& in, std::string_view name) {
    const Shape* shape = project::find_shape(name);
    if (shape != nullptr) return shape;
    std::vector<std::string> names;
    for (const Shape& one : project::shapes()) names.emplace_back(one.name);
    const auto near = base::nearest_name(name, names);
    in.fail("shape", "there is no shape called " + in_quotes(name), base::join(names, ", "),
            base::did_you_mean(near));
    return nullptr;
}

void one_of(TomlTable& in, std::string_view a, std::string_view b, std::string_view shape) {
    if (in.has(a) != in.has(b)) return;
    const bool twice = in.has(b);
    in.fail(twice ? b : std::string_view(),
            (twice ? "it is said twice for the shape " : "a figure is missing for the shape ") +
                in_quotes(shape),
            fmt::format("\"{}\" or \"{}\"", a, b));
}

}  // namespace

bool read_shape(TomlTable& in, const project::Project& project, std::optional<std::size_t> sizes,
                project::Piece& piece) {
    piece.last_stitches = read_wholes(in, "last_stitches", sizes);
    piece.last_width = read_lengths(in, "last_width", sizes);
    piece.blocks_high = read_wholes(in, "blocks_high", sizes);
    const PerSize<std::int64_t> blocks_wide = read_wholes(in, "blocks_wide", sizes);
    const auto corners = in.whole("corners", 3, 100);
    const auto name = in.text("shape");
    const Shape* shape = name ? shape_of(in, *name) : nullptr;
    const auto only_for = [&](std::string_view key, bool fits, std::string_view which) {
        if (in.has(key) && !fits && (shape != nullptr || !in.has("shape")))
            in.fail(key, "this shape does not have it",
                    fmt::format("it with shape = \"{}\"", which),
                    "Leave this line out, or name the shape.");
    };
    const RowLaw law = shape == nullptr ? RowLaw::growing : shape->law;
    only_for("last_stitches", law == RowLaw::even, "trapezoid");
    only_for("last_width", law == RowLaw::even, "trapezoid");
    only_for("blocks_wide", law == RowLaw::diagonal, "corner to corner");
    only_for("blocks_high", law == RowLaw::diagonal, "corner to corner");
    only_for("corners", shape != nullptr && shape->name == "polygon", "polygon");
    if (shape == nullptr) return in.has("shape");
    if (project.craft == project::Craft::knit && !shape->group.empty())
        in.fail("shape", "this shape is crocheted", "craft = \"crochet\"");
    // "12 dc" of a granny square's first round are the four clusters that the shape counts.
    const auto in_group = [&] {
        std::int64_t out = 0;
        for (const project::KindCount& kind : shape->group)
            if (kind.kind != "ch" && kind.kind != "sl st") out += std::llround(kind.count.value());
        return out;
    }();
    if (shape->first && in_group > 1)
        for (const std::int64_t stitches : piece.stitches.values)
            if (stitches == in_group * *shape->first) {
                in.fail("stitches",
                        fmt::format("{} of these would be groups of {} stitches each", stitches,
                                    in_group),
                        fmt::format("{}, the groups in the first round of a {}", *shape->first,
                                    shape->name),
                        "Leave this line out: the shape says it.");
                break;
            }
    if (corners) piece.corners = *corners;
    if (law == RowLaw::diagonal) piece.stitches = blocks_wide;
    project::give_shape(piece, *shape);
    if (in.has("every") && law != RowLaw::even)
        if (auto every = read_wholes(in, "every", sizes); every.stated())
            piece.every = std::move(every);
    if (law == RowLaw::even) one_of(in, "last_stitches", "last_width", shape->name);
    const bool tapers =
        law == RowLaw::growing && piece.increase.stated() && piece.increase.values.front() < 0;
    // So many rows still end in the tip, unless the file says how it is decreased.
    if (tapers && (in.has("rows") || in.has("length")) && !in.has("increase") && !in.has("every"))
        piece.last_stitches = PerSize<std::int64_t>(1);
    if (shape->from_few()) {
        const bool wide = piece.width.stated();
        const bool both = wide && (in.has("rows") || in.has("length"));
        const bool measured = both || (shape->wings && (wide || in.has("length")));
        for (const char* key : {"increase", "every"})
            if (measured && in.has(key))
                in.fail(key, "the finished size says it already",
                        both ? "the width alone, or this with rows" : "rows beside it",
                        "Leave this line out, and the shaping is spread evenly.");
        if (shape->wings && in.has("rows") && (wide || in.has("length")))
            in.fail("rows", "the finished size says it already",
                    "\"rows\", or \"width\" and \"length\"", "Leave one of them out.");
        if (wide && !in.has("rows") && !in.has("length")) return true;
    }
    if (law == RowLaw::diagonal) {
        if (in.has("rows") == (in.has("blocks_wide") && in.has("blocks_high")))
            in.fail(in.has("rows") ? "rows" : "", "its size is not clear",
                    "\"blocks_wide\" and \"blocks_high\", or \"rows\" for a square");
    } else if (shape->from_centre) {
        if (!in.has("rows") && !in.has("length") && !in.has("width"))
            in.missing("rows", "\"rows\", or \"width\" for the way across");
    } else {
        if (!tapers || (in.has("rows") && in.has("length")))
            one_of(in, "rows", "length", shape->name);
        if (!shape->first) one_of(in, "stitches", "width", shape->name);
    }
    return true;
}

}  // namespace skeinfall::exchange
