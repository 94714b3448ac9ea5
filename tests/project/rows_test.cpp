// Rows and stitches of the pieces of a make.

#include <cstdint>

#include <gtest/gtest.h>

#include "skeinfall/project/project.hpp"

namespace {

using namespace skeinfall::units;
using namespace skeinfall::project;

/// Stitches of all rows after rows 1 to `rows` of a piece of `first` stitches that grows.
double stitches_of(std::int64_t rows, std::int64_t first, std::int64_t increase,
                   std::int64_t every) {
    Project project;
    Piece piece;
    piece.role = "MC";
    piece.rows = PerSize<std::int64_t>(rows);
    piece.stitches = PerSize<std::int64_t>(first);
    piece.increase = PerSize<std::int64_t>(increase);
    piece.every = every;
    project.pieces = {piece};
    double sum = 0.0;
    for (const Row& row : row_sequence(project, 0)) sum += row.stitches / stitch;
    return sum;
}

std::string roles_of(const std::vector<Row>& rows) {
    std::string out;
    for (const Row& row : rows) out += row.role + " ";
    return out;
}

// Own formula, by hand: s0 R + a floor((R - 1)^2 / 4) for `a` more every second row; 7 stitches
// and 4 more give 10,500 after 100 rows, 10,707 after 101, and .2619 and .5140 of the hundred
// rows' stitches after 50 and 71.
TEST(Growth, FourMoreEverySecondRow) {
    EXPECT_EQ(stitches_of(100, 7, 4, 2), 10500.0);
    EXPECT_EQ(stitches_of(101, 7, 4, 2), 10707.0);
    EXPECT_NEAR(stitches_of(50, 7, 4, 2) / 10500.0, 0.2619, 5e-5);
    EXPECT_NEAR(stitches_of(71, 7, 4, 2) / 10500.0, 0.5140, 5e-5);
}

// Own, by hand: 7 stitches and 2 more every row: 99 rows are 10,395 stitches, 100 are 10,600.
TEST(Growth, TwoMoreEveryRow) {
    EXPECT_EQ(stitches_of(99, 7, 2, 1), 10395.0);
    EXPECT_EQ(stitches_of(100, 7, 2, 1), 10600.0);
}

// Published: sixteen rounds of 8, 8, 16, 16, ... 64, 64 stitches are 576; 160 after round 8 and
// 288, half of them, after round 11. Source: "Math for doilies and shawls, part 2",
// cromulentknitter.blogspot.com, October 2006.
TEST(Growth, DoilyOfSixteenRounds) {
    EXPECT_EQ(stitches_of(16, 8, 8, 2), 576.0);
    EXPECT_EQ(stitches_of(8, 8, 8, 2), 160.0);
    EXPECT_EQ(stitches_of(11, 8, 8, 2), 288.0);
}

TEST(Growth, DecreasesEndAtNothing) {
    // 5, 3, 1, then none: a row never has fewer than no stitches.
    EXPECT_EQ(stitches_of(6, 5, -2, 1), 9.0);
    EXPECT_EQ(stitches_in_row({4, 10, 0}, Piece{}, 4), 10);
}

Project striped() {
    Project project;
    Piece piece;
    piece.name = "body";
    piece.stripes = {{"MC", 2}, {"CC", 1}};
    piece.rows = PerSize<std::int64_t>(7);
    piece.stitches = PerSize<std::int64_t>(10);
    project.pieces = {piece};
    return project;
}

TEST(RowSequence, StripesAreWorkedInTurnAndRepeated) {
    const auto rows = row_sequence(striped(), 0);
    EXPECT_EQ(roles_of(rows), "MC MC CC MC MC CC MC ");
    for (std::size_t i = 0; i < rows.size(); ++i) {
        EXPECT_EQ(rows[i].number, static_cast<std::int64_t>(i) + 1);
        EXPECT_EQ(rows[i].piece, 0U);
        EXPECT_EQ(rows[i].copy, 1);
        EXPECT_EQ(rows[i].stitches / stitch, 10.0);
    }
}

TEST(RowSequence, StripesBeginAnewInEachCopyAndGrowAsThePieceDoes) {
    Project project = striped();
    project.pieces[0].count = PerSize<std::int64_t>(2);
    project.pieces[0].rows = PerSize<std::int64_t>(4);
    project.pieces[0].increase = PerSize<std::int64_t>(2);
    project.pieces[0].every = 2;
    const auto rows = row_sequence(project, 0);
    EXPECT_EQ(roles_of(rows), "MC MC CC MC MC MC CC MC ");
    const std::vector<double> stitches{10, 10, 12, 12, 10, 10, 12, 12};
    ASSERT_EQ(rows.size(), stitches.size());
    for (std::size_t i = 0; i < rows.size(); ++i) {
        EXPECT_EQ(rows[i].stitches / stitch, stitches[i]) << i;
        EXPECT_EQ(rows[i].copy, i < 4 ? 1 : 2) << i;
    }
}

TEST(RowSequence, PiecesOfOneCountAreMadeAsSets) {
    Project project;
    const auto piece = [](const char* role, std::int64_t rows, std::int64_t count) {
        Piece out;
        out.role = role;
        out.rows = PerSize<std::int64_t>(rows);
        out.stitches = PerSize<std::int64_t>(5);
        out.count = PerSize<std::int64_t>(count);
        return out;
    };
    // Hand and thumb twice over, then a cord once.
    project.pieces = {piece("hand", 2, 2), piece("thumb", 1, 2), piece("cord", 1, 1)};
    EXPECT_EQ(roles_of(row_sequence(project, 0)), "hand hand thumb hand hand thumb cord ");
    EXPECT_TRUE(row_sequence(Project{}, 0).empty());
}

TEST(RowSequence, SizesHaveTheirOwnFigures) {
    Project project = striped();
    project.sizes = {"S", "M"};
    project.pieces[0].rows.values = {2, 4};
    project.pieces[0].count.values = {1, 2};
    EXPECT_EQ(roles_of(row_sequence(project, 0)), "MC MC ");
    EXPECT_EQ(roles_of(row_sequence(project, 1)), "MC MC CC MC MC MC CC MC ");
}

/// 13 stitches and 16 rows to 10 cm.
Project gauged(Piece piece) {
    Project project;
    project.gauge.stitches = 13.0 * stitch / (10.0 * centimetre);
    project.gauge.rows = 16.0 * row / (10.0 * centimetre);
    project.pieces = {std::move(piece)};
    return project;
}

TEST(Counts, ComeFromMeasurementsByTheGauge) {
    Piece piece;
    piece.width = PerSize<Length>(50.0 * centimetre);    // 65 stitches
    piece.length = PerSize<Length>(150.0 * centimetre);  // 240 rows
    const Project project = gauged(piece);
    const PieceCounts found = counts(project, project.pieces[0], 0);
    EXPECT_EQ(found.stitches, 65);
    EXPECT_EQ(found.rows, 240);
    EXPECT_EQ(found.increase, 0);
}

TEST(Counts, GoToTheNearestWholeAndNeverBelowOne) {
    const auto rows_of = [](double centimetres) {
        Piece piece;
        piece.length = PerSize<Length>(centimetres * centimetre);
        const Project project = gauged(piece);
        return counts(project, project.pieces[0], 0).rows;
    };
    EXPECT_EQ(rows_of(10.2), 16);  // 16.32
    EXPECT_EQ(rows_of(10.4), 17);  // 16.64
    EXPECT_EQ(rows_of(0.1), 1);    // 0.16
}

TEST(Counts, WhatIsCountedStandsAboveWhatIsMeasured) {
    Piece piece;
    piece.width = PerSize<Length>(50.0 * centimetre);
    piece.length = PerSize<Length>(150.0 * centimetre);
    piece.stitches = PerSize<std::int64_t>(64);
    piece.rows = PerSize<std::int64_t>(230);
    piece.increase = PerSize<std::int64_t>(2);
    const Project project = gauged(piece);
    const PieceCounts found = counts(project, project.pieces[0], 0);
    EXPECT_EQ(found.stitches, 64);
    EXPECT_EQ(found.rows, 230);
    EXPECT_EQ(found.increase, 2);
}

TEST(FinishedSize, ByTheGaugeUnlessMeasured) {
    Piece piece;
    piece.stitches = PerSize<std::int64_t>(13);
    piece.rows = PerSize<std::int64_t>(40);
    piece.increase = PerSize<std::int64_t>(2);
    piece.every = 2;
    Project project = gauged(piece);
    // The widest row is the last: 13 + 2 x 19 = 51 stitches = 39.23 cm; 40 rows = 25 cm.
    FinishedSize size = finished_size(project, project.pieces[0], 0);
    EXPECT_NEAR(size.width / centimetre, 51 / 1.3, 1e-9);
    EXPECT_NEAR(size.length / centimetre, 25.0, 1e-9);

    project.pieces[0].stitches = PerSize<std::int64_t>(51);
    project.pieces[0].increase = PerSize<std::int64_t>(-2);  // now the first row is the widest
    size = finished_size(project, project.pieces[0], 0);
    EXPECT_NEAR(size.width / centimetre, 51 / 1.3, 1e-9);

    project.pieces[0].width = PerSize<Length>(38.0 * centimetre);
    project.pieces[0].length = PerSize<Length>(24.0 * centimetre);
    size = finished_size(project, project.pieces[0], 0);
    EXPECT_NEAR(size.width / centimetre, 38.0, 1e-9);
    EXPECT_NEAR(size.length / centimetre, 24.0, 1e-9);
}

TEST(Sizes, OneEntryServesAllAndAMissingOneIsAnError) {
    EXPECT_FALSE(PerSize<std::int64_t>{}.stated());
    const PerSize<std::int64_t> one(7);
    EXPECT_EQ(one.at(0), 7);
    EXPECT_EQ(one.at(5), 7);
    PerSize<std::int64_t> three;
    three.values = {1, 2, 3};
    EXPECT_EQ(three.at(2), 3);
    EXPECT_THROW(static_cast<void>(three.at(3)), std::out_of_range);
    Project project;
    EXPECT_EQ(project.size_count(), 1U);
    project.sizes = {"S", "M", "L"};
    EXPECT_EQ(project.size_count(), 3U);
}

TEST(Roles, AreFoundByTheirId) {
    Project project;
    project.roles.resize(2);
    project.roles[0].id = "MC";
    project.roles[1].id = "CC";
    EXPECT_EQ(project.role("CC"), &project.roles[1]);
    EXPECT_EQ(project.role("cc"), nullptr);
    EXPECT_EQ(Project{}.role("MC"), nullptr);
}

}  // namespace
