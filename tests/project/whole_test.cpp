// What a project made by a program lacks.

#include "skeinfall/project/whole.hpp"

#include <cstdint>
#include <functional>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/need/need.hpp"

#include "support/builders.hpp"

namespace {

using namespace skeinfall;
using project::PerSize;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::SizeIs;

/// The one problem of a project changed in one thing; need_of() refuses it for that.
std::string lacks(const std::function<void(project::Project&)>& change) {
    project::Project make = support::rectangle(20, 10);
    EXPECT_THAT(project::lacking(make), IsEmpty());
    change(make);
    const base::Problems problems = project::lacking(make);
    EXPECT_THROW(static_cast<void>(need::need_of(make, 0)), base::InputError);
    EXPECT_THAT(problems, SizeIs(1));
    return problems.empty() ? "" : base::to_text(problems);
}

// A piece without stitches took no yarn and was covered, and joins crashed on it.
TEST(Lacking, APieceThatCannotBeCounted) {
    EXPECT_THAT(lacks([](auto& make) { make.pieces[0].stitches = {}; }),
                HasSubstr("has no stitches"));
    EXPECT_THAT(lacks([](auto& make) { make.pieces[0].rows = {}; }), HasSubstr("has no rows"));
    EXPECT_THAT(lacks([](auto& make) { make.pieces[0].stitches = PerSize<std::int64_t>(0); }),
                HasSubstr("0 is too small"));
    EXPECT_THAT(lacks([](auto& make) { make.pieces[0].count = PerSize<std::int64_t>(0); }),
                HasSubstr("count: 0"));
    EXPECT_THAT(lacks([](auto& make) { make.pieces[0].every = 0; }), HasSubstr("every 0 rows"));
    EXPECT_THAT(lacks([](auto& make) { make.gauge.rows = {}; }), HasSubstr("gauge"));
    EXPECT_THAT(lacks([](auto& make) {
                    make.pieces[0].pattern = PerSize<project::WorkedRows>(project::WorkedRows());
                }),
                HasSubstr("has no rows"));
}

// What is held together with another yarn goes along with it; rows of its own were worked in it
// alone, and the other was forgotten.
TEST(Lacking, AHeldYarnWithRowsOfItsOwn) {
    EXPECT_THAT(lacks([](auto& make) {
                    make.roles.push_back(support::role("CC1"));
                    make.roles[1].held_with = "MC";
                    make.pieces[0].role = "CC1";
                }),
                HasSubstr("\"wrap\" is worked in CC1 alone"));
    // Its border has a need of its own, beside which the length held along was forgotten.
    EXPECT_THAT(lacks([](auto& make) {
                    make.roles.push_back(support::role("CC1"));
                    make.roles[1].held_with = "MC";
                    project::FinishPart edge;
                    edge.kind = project::PartKind::border;
                    edge.name = "edge";
                    edge.role = "CC1";
                    edge.rounds = PerSize<std::int64_t>(1);
                    edge.first_round = PerSize<std::int64_t>(90);
                    make.finish.push_back(edge);
                }),
                HasSubstr("\"edge\" is worked in CC1 alone"));
}

// A product of such counts has no room in 64 bits, and each row is worked out one by one.
TEST(Lacking, CountsBeyondAllMeasure) {
    constexpr std::int64_t huge = 4'000'000'000'000'000'000;
    EXPECT_THAT(lacks([](auto& make) { make.pieces[0].stitches = PerSize<std::int64_t>(huge); }),
                HasSubstr("too large"));
    EXPECT_THAT(lacks([](auto& make) { make.pieces[0].increase = PerSize<std::int64_t>(-huge); }),
                HasSubstr("too large"));
    EXPECT_THAT(lacks([](auto& make) {
                    make.pieces[0].rows = PerSize<std::int64_t>(1'000);
                    make.pieces[0].count = PerSize<std::int64_t>(10'000);
                }),
                HasSubstr("too many rows"));
    EXPECT_THAT(lacks([](auto& make) {
                    make.pieces[0].stripes = {{"MC", huge}};
                }),
                HasSubstr("a stripe of too many rows"));
}

TEST(Lacking, ListsThatDoNotFitTheSizes) {
    EXPECT_THAT(lacks([](auto& make) {
                    make.pieces[0].rows.values = {10, 12};
                }),
                HasSubstr("has 2 entries; expected one"));
    EXPECT_THAT(lacks([](auto& make) {
                    make.sizes = {"S", "M", "L"};
                    make.pieces[0].rows.values = {10, 12};
                }),
                HasSubstr("expected one, or 3"));
    EXPECT_THROW(static_cast<void>(need::need_of(support::rectangle(20, 10), 1)), base::InputError);
}

TEST(Lacking, YarnsThatNobodyDescribed) {
    EXPECT_THAT(lacks([](auto& make) { make.pieces[0].role = "CC"; }), HasSubstr("\"CC\""));
    EXPECT_THAT(lacks([](auto& make) {
                    make.pieces[0].stripes = {{"MC", 0}};
                }),
                HasSubstr("a stripe of no rows"));
    EXPECT_THAT(lacks([](auto& make) { make.roles.push_back(make.roles[0]); }),
                HasSubstr("described twice"));
}

}  // namespace
