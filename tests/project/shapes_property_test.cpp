// What holds for the rows of every shape, whatever its figures.

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "skeinfall/project/shapes.hpp"

#include "support/builders.hpp"

namespace {

using namespace skeinfall;
using project::PerSize;
using project::RowLaw;

const project::Shape& any_shape() {
    return project::shapes()[*rc::gen::inRange<std::size_t>(0, project::shapes().size())];
}

project::Project make_of(const project::Shape& shape, long rows) {
    project::Project out = support::rectangle(1, rows);
    project::Piece& piece = out.pieces[0];
    piece.stitches = {};
    if (!shape.first && !shape.flat && shape.law != RowLaw::diagonal)
        piece.stitches = PerSize<long>(*rc::gen::inRange(rows + 1, 400L));
    if (shape.law == RowLaw::even) piece.last_stitches = PerSize<long>(*rc::gen::inRange(1L, 400L));
    project::give_shape(piece, shape);
    return out;
}

std::vector<long> widths(const project::Project& make) {
    return project::row_widths(make, make.pieces[0], 0);
}

RC_GTEST_PROP(AnyShape, HasItsRowsAndNoneIsEmpty, ()) {
    const project::Shape& shape = any_shape();
    const long rows = *rc::gen::inRange(1L, 200L);
    const std::vector<long> all = widths(make_of(shape, rows));
    RC_ASSERT(static_cast<long>(all.size()) == rows);
    RC_ASSERT(*std::min_element(all.begin(), all.end()) > 0);
}

/// A row more is more fabric; what grows begins with the same rows.
RC_GTEST_PROP(AnyShape, GrowsWithItsRows, ()) {
    const project::Shape& shape = any_shape();
    const long rows = *rc::gen::inRange(1L, 150L);
    project::Project make = make_of(shape, rows);
    const std::vector<long> shorter = widths(make);
    make.pieces[0].rows = PerSize<long>(rows + 1);
    const std::vector<long> longer = widths(make);
    long less = 0;
    long more = 0;
    for (const long width : shorter) less += width;
    for (const long width : longer) more += width;
    RC_ASSERT(more > less);
    if (shape.law == RowLaw::growing || shape.law == RowLaw::doubling)
        RC_ASSERT(std::equal(shorter.begin(), shorter.end(), longer.begin()));
}

RC_GTEST_PROP(AnyShape, RowsAreThoseOfTheSequence, ()) {
    const project::Shape& shape = any_shape();
    const project::Project make = make_of(shape, *rc::gen::inRange(1L, 120L));
    const std::vector<long> all = widths(make);
    const std::vector<project::Row> rows = project::row_sequence(make, 0);
    RC_ASSERT(rows.size() == all.size());
    for (std::size_t i = 0; i < rows.size(); ++i) {
        RC_ASSERT(rows[i].number == static_cast<long>(i) + 1);
        RC_ASSERT(std::lround(rows[i].stitches / units::stitch) == all[i]);
    }
}

/// s0 R + a (b q (q - 1) / 2 + q m) with q = floor(R / b) and m = R - b q, by hand.
RC_GTEST_PROP(AnyShape, GrowingRowsHaveTheirClosedForm, ()) {
    const long first = *rc::gen::inRange(1L, 60L);
    const long more = *rc::gen::inRange(0L, 12L);
    const long every = *rc::gen::inRange(1L, 9L);
    const long rows = *rc::gen::inRange(1L, 300L);
    project::Project make = support::rectangle(first, rows);
    make.pieces[0].increase = PerSize<long>(more);
    make.pieces[0].every = every;
    long sum = 0;
    for (const long width : widths(make)) sum += width;
    const long q = rows / every;
    const long m = rows - every * q;
    RC_ASSERT(sum == first * rows + more * (every * q * (q - 1) / 2 + q * m));
}

/// First and last row as stated, and no step larger than its neighbours' by more than one shaping.
RC_GTEST_PROP(AnyShape, ATrapezoidIsEven, ()) {
    const long rows = *rc::gen::inRange(2L, 200L);
    const long first = *rc::gen::inRange(1L, 300L);
    const long last = *rc::gen::inRange(1L, 300L);
    project::Project make = support::rectangle(first, rows);
    make.pieces[0].last_stitches = PerSize<long>(last);
    project::give_shape(make.pieces[0], *project::find_shape("trapezoid"));
    const std::vector<long> all = widths(make);
    RC_ASSERT(all.front() == first);
    RC_ASSERT(all.back() == last);
    const double slope = static_cast<double>(last - first) / static_cast<double>(rows - 1);
    for (std::size_t i = 0; i < all.size(); ++i) {
        const double line = static_cast<double>(first) + slope * static_cast<double>(i);
        RC_ASSERT(std::abs(static_cast<double>(all[i]) - line) <= 2.0);
    }
}

RC_GTEST_PROP(AnyShape, CornerToCornerHasEveryBlockOnce, ()) {
    const long wide = *rc::gen::inRange(1L, 60L);
    const long high = *rc::gen::inRange(1L, 60L);
    project::Project make = support::rectangle(1, 1);
    project::Piece& piece = make.pieces[0];
    piece.rows = {};
    piece.stitches = PerSize<long>(wide);
    piece.blocks_high = PerSize<long>(high);
    project::give_shape(piece, *project::find_shape("C2C"));
    long across = 0;
    for (const long width : widths(make)) across += width;
    RC_ASSERT(across % (wide * high) == 0);
    RC_ASSERT(static_cast<long>(widths(make).size()) == wide + high - 1);
}

}  // namespace
