// What holds for the rows of every shape, whatever its figures.

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "skeinfall/project/shapes.hpp"

#include "support/builders.hpp"
#include "widths.hpp"

namespace {

using namespace skeinfall;
using project::PerSize;
using project::RowLaw;

const project::Shape& any_shape() {
    return project::shapes()[*rc::gen::inRange<std::size_t>(0, project::shapes().size())];
}

project::Project any_make_of(const project::Shape& shape, std::int64_t rows) {
    project::Project out = support::rectangle(1, rows);
    project::Piece& piece = out.pieces[0];
    piece.stitches = {};
    if (!shape.first && !shape.flat && shape.law != RowLaw::diagonal)
        piece.stitches = PerSize<std::int64_t>(*rc::gen::inRange(rows + 1, std::int64_t{400}));
    if (shape.law == RowLaw::even)
        piece.last_stitches =
            PerSize<std::int64_t>(*rc::gen::inRange(std::int64_t{1}, std::int64_t{400}));
    project::give_shape(piece, shape);
    return out;
}

RC_GTEST_PROP(AnyShape, HasItsRowsAndNoneIsEmpty, ()) {
    const project::Shape& shape = any_shape();
    const std::int64_t rows = *rc::gen::inRange(std::int64_t{1}, std::int64_t{200});
    const std::vector<std::int64_t> all = project_tests::widths(any_make_of(shape, rows));
    RC_ASSERT(static_cast<std::int64_t>(all.size()) == rows);
    RC_ASSERT(*std::min_element(all.begin(), all.end()) > 0);
}

/// A row more is more fabric; what grows begins with the same rows.
RC_GTEST_PROP(AnyShape, GrowsWithItsRows, ()) {
    const project::Shape& shape = any_shape();
    const std::int64_t rows = *rc::gen::inRange(std::int64_t{1}, std::int64_t{150});
    project::Project make = any_make_of(shape, rows);
    const std::vector<std::int64_t> shorter = project_tests::widths(make);
    make.pieces[0].rows = PerSize<std::int64_t>(rows + 1);
    const std::vector<std::int64_t> longer = project_tests::widths(make);
    std::int64_t less = 0;
    std::int64_t more = 0;
    for (const std::int64_t width : shorter) less += width;
    for (const std::int64_t width : longer) more += width;
    RC_ASSERT(more > less);
    if (shape.law == RowLaw::growing || shape.law == RowLaw::doubling)
        RC_ASSERT(std::equal(shorter.begin(), shorter.end(), longer.begin()));
}

RC_GTEST_PROP(AnyShape, RowsAreThoseOfTheSequence, ()) {
    const project::Shape& shape = any_shape();
    const project::Project make =
        any_make_of(shape, *rc::gen::inRange(std::int64_t{1}, std::int64_t{120}));
    const std::vector<std::int64_t> all = project_tests::widths(make);
    const std::vector<project::Row> rows = project::row_sequence(make, 0);
    RC_ASSERT(rows.size() == all.size());
    for (std::size_t i = 0; i < rows.size(); ++i) {
        RC_ASSERT(rows[i].number == static_cast<std::int64_t>(i) + 1);
        RC_ASSERT(std::llround(rows[i].stitches / units::stitch) == all[i]);
    }
}

/// s0 R + a (b q (q - 1) / 2 + q m) with q = floor(R / b) and m = R - b q, by hand.
RC_GTEST_PROP(AnyShape, GrowingRowsHaveTheirClosedForm, ()) {
    const std::int64_t first = *rc::gen::inRange(std::int64_t{1}, std::int64_t{60});
    const std::int64_t more = *rc::gen::inRange(std::int64_t{0}, std::int64_t{12});
    const std::int64_t every = *rc::gen::inRange(std::int64_t{1}, std::int64_t{9});
    const std::int64_t rows = *rc::gen::inRange(std::int64_t{1}, std::int64_t{300});
    project::Project make = support::rectangle(first, rows);
    make.pieces[0].increase = PerSize<std::int64_t>(more);
    make.pieces[0].every = every;
    std::int64_t sum = 0;
    for (const std::int64_t width : project_tests::widths(make)) sum += width;
    const std::int64_t q = rows / every;
    const std::int64_t m = rows - every * q;
    RC_ASSERT(sum == first * rows + more * (every * q * (q - 1) / 2 + q * m));
}

/// First and last row as stated, and no step larger than its neighbours' by more than one shaping.
RC_GTEST_PROP(AnyShape, ATrapezoidIsEven, ()) {
    const std::int64_t rows = *rc::gen::inRange(std::int64_t{2}, std::int64_t{200});
    const std::int64_t first = *rc::gen::inRange(std::int64_t{1}, std::int64_t{300});
    const std::int64_t last = *rc::gen::inRange(std::int64_t{1}, std::int64_t{300});
    project::Project make = support::rectangle(first, rows);
    make.pieces[0].last_stitches = PerSize<std::int64_t>(last);
    project::give_shape(make.pieces[0], *project::find_shape("trapezoid"));
    const std::vector<std::int64_t> all = project_tests::widths(make);
    RC_ASSERT(all.front() == first);
    RC_ASSERT(all.back() == last);
    const double slope = static_cast<double>(last - first) / static_cast<double>(rows - 1);
    for (std::size_t i = 0; i < all.size(); ++i) {
        const double line = static_cast<double>(first) + slope * static_cast<double>(i);
        RC_ASSERT(std::abs(static_cast<double>(all[i]) - line) <= 2.0);
    }
}

RC_GTEST_PROP(AnyShape, CornerToCornerHasEveryBlockOnce, ()) {
    const std::int64_t wide = *rc::gen::inRange(std::int64_t{1}, std::int64_t{60});
    const std::int64_t high = *rc::gen::inRange(std::int64_t{1}, std::int64_t{60});
    project::Project make = support::rectangle(1, 1);
    project::Piece& piece = make.pieces[0];
    piece.rows = {};
    piece.stitches = PerSize<std::int64_t>(wide);
    piece.blocks_high = PerSize<std::int64_t>(high);
    project::give_shape(piece, *project::find_shape("C2C"));
    std::int64_t across = 0;
    for (const std::int64_t width : project_tests::widths(make)) across += width;
    RC_ASSERT(across % (wide * high) == 0);
    RC_ASSERT(static_cast<std::int64_t>(project_tests::widths(make).size()) == wide + high - 1);
}

}  // namespace
