// The charts of weight classes: their order, their gaps and the rows they must hold.

#include <algorithm>
#include <map>
#include <string>

#include <gtest/gtest.h>

#include "skeinfall/yarn/class_charts.hpp"

namespace {

using namespace skeinfall;
using yarn::Measure;

/// Ends of a chart by class, rows of a class taken together.
struct Ends {
    double least = 0.0;
    double most = 1e9;
};

std::map<std::string, std::map<int, Ends>> by_chart(Measure measure, bool double_crochet = false) {
    std::map<std::string, std::map<int, Ends>> out;
    for (const yarn::ChartRange& row : yarn::charts_of(measure)) {
        if (row.double_crochet != double_crochet) continue;
        const Ends ends{row.least ? row.least->value() : 0.0, row.most ? row.most->value() : 1e9};
        auto [at, fresh] = out[std::string(row.chart)].try_emplace(row.weight.number, ends);
        if (fresh) continue;
        at->second.least = std::min(at->second.least, ends.least);
        at->second.most = std::max(at->second.most, ends.most);
    }
    return out;
}

class EveryMeasure : public testing::TestWithParam<Measure> {};

TEST_P(EveryMeasure, RunsTheSameWayInEveryChart) {
    const bool grows = GetParam() == Measure::hook || GetParam() == Measure::needle;
    const auto charts = by_chart(GetParam());
    ASSERT_FALSE(charts.empty());
    for (const auto& [chart, classes] : charts) {
        const Ends* before = nullptr;
        for (const auto& [number, ends] : classes) {
            SCOPED_TRACE(chart + ", class " + std::to_string(number));
            EXPECT_LE(ends.least, ends.most);
            if (before != nullptr) {
                EXPECT_TRUE(grows ? ends.least >= before->least : ends.least <= before->least);
                EXPECT_TRUE(grows ? ends.most >= before->most : ends.most <= before->most);
            }
            before = &ends;
        }
    }
}

INSTANTIATE_TEST_SUITE_P(Charts, EveryMeasure,
                         testing::Values(Measure::grist, Measure::knit_gauge,
                                         Measure::crochet_gauge, Measure::wraps, Measure::hook,
                                         Measure::needle));

TEST(Charts, KeepTheirSourcesApart) {
    EXPECT_EQ(by_chart(Measure::grist).size(), 8U);
    EXPECT_EQ(by_chart(Measure::wraps).size(), 7U);
}

// The magazine's chart (S27) is the one published set without gaps; its metric ends are rounded.
TEST(Charts, HaveOneSetOfGristsWithoutGaps) {
    const auto charts = by_chart(Measure::grist);
    const auto& classes = charts.at("S27");
    for (int number = 0; number < 6; ++number)
        EXPECT_NEAR(classes.at(number).least, classes.at(number + 1).most, 1.0) << number;
}

TEST(Charts, CountDoubleCrochetForLaceOnly) {
    for (const yarn::ChartRange& row : yarn::charts_of(Measure::crochet_gauge))
        EXPECT_EQ(row.double_crochet, row.weight.number == 0) << row.chart;
}

// The Council's table as copied at S04: class 4 takes 16 to 20 stitches in 4 in.
TEST(Charts, HoldTheCouncilsRows) {
    const auto knit = by_chart(Measure::knit_gauge).at("S04").at(4);
    EXPECT_EQ(knit.least, 16.0);
    EXPECT_EQ(knit.most, 20.0);
    const auto hook = by_chart(Measure::hook).at("S04").at(4);
    EXPECT_EQ(hook.least, 5.5);
    EXPECT_EQ(hook.most, 6.5);
    const auto wraps = by_chart(Measure::wraps).at("S30").at(4);
    EXPECT_EQ(wraps.least, 9.0);
    EXPECT_EQ(wraps.most, 12.0);
}

TEST(PublishedGrist, IsTheWidestOfAllCharts) {
    const auto medium = yarn::published_grist({4});
    ASSERT_TRUE(medium && medium->least && medium->most);
    const units::Grist unit = units::metre / (100.0 * units::gram);
    EXPECT_NEAR(units::Ratio(*medium->least / unit).value(), 120.0, 1e-9);
    EXPECT_NEAR(units::Ratio(*medium->most / unit).value(), 242.0, 1e-9);
    EXPECT_EQ(yarn::text(*medium), "120 to 242 m per 100 g");
}

TEST(PublishedGrist, IsOpenWhereAChartIs) {
    EXPECT_FALSE(yarn::published_grist({0})->most);
    EXPECT_FALSE(yarn::published_grist({7})->least);
    EXPECT_FALSE(yarn::published_grist({8}));
}

}  // namespace
