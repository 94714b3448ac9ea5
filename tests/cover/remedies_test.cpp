// What would help when the stash does not cover a make: each way by itself, in worked examples.

#include "skeinfall/cover/remedies.hpp"

#include <algorithm>
#include <cstdint>
#include <cstdio>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/builders.hpp"
#include "support/says.hpp"

namespace {

using namespace skeinfall;
using cover::Remedy;
using cover::Verdict;
using ::testing::Field;
using ::testing::IsEmpty;

const yarn::Yarn brook = support::yarn_of("Brook", support::metres(100), support::grams(50));

std::vector<stash::Skein> brook_balls(int count) {
    std::vector<stash::Skein> out;
    for (int i = 1; i <= count; ++i)
        out.push_back(support::whole("b" + std::to_string(i), brook, "7"));
    return out;
}

/// 100 stitches to the row at half a metre a row, 400 rows: 200 m. So fine that it is a fabric.
project::Project wrap() {
    project::Project out = support::rectangle(100, 400);
    out.gauge.stitches = 50.0 * units::stitch / units::inch;
    out.roles[0].name = "Brook";
    out.roles[0].rate = 5.0 * units::millimetre / units::stitch;
    return out;
}

std::vector<Remedy> remedies(const project::Project& project,
                             const std::vector<stash::Skein>& stash) {
    const need::MakeNeed need = need::need_of(project, 0);
    cover::Rules rules;
    rules.project = project.title;
    return cover::remedies(project, need, stash, rules,
                           cover::cover_make(project, need, stash, rules));
}

auto what(const std::string& text) {
    return Field("what", &Remedy::what, support::Says(testing::Eq(text)));
}

TEST(Remedies, NoneForWhatIsCovered) {
    EXPECT_THAT(remedies(wrap(), brook_balls(5)), IsEmpty());
}

// One ball of 100 m reaches half as far as the 200 m that 400 rows take, less what the band wants.
TEST(Remedies, FewerRowsBeforeBuying) {
    const auto out = remedies(wrap(), brook_balls(1));
    ASSERT_EQ(out.size(), 2U);
    const auto fewer = std::get<cover::FewerRows>(out[0].what);
    EXPECT_EQ(fewer.planned, 400);
    const std::int64_t rows = fewer.rows;
    EXPECT_LT(rows, 200);
    EXPECT_GT(rows, 120);
    EXPECT_NEAR(out[0].saved / units::metre, 0.5 * static_cast<double>(400 - rows), 1e-6);
    EXPECT_EQ(out[0].verdict, Verdict::covered);
    EXPECT_EQ(report::said(out[1].what), "buy 2 skeins of Brook (100 m)");
    EXPECT_EQ(out[1].verdict, Verdict::covered);
}

// Of very many pieces only those are tried that hold what is missing, and of these the largest:
// ninety and one of 400 rows, of which one ball is missing.
TEST(Remedies, OfManyPiecesTheLargest) {
    project::Project many = wrap();
    for (int i = 0; i < 90; ++i) {
        many.pieces.push_back(many.pieces.front());
        many.pieces.back().name = "edge " + std::to_string(i);
        many.pieces.back().rows = project::PerSize<std::int64_t>(1 + i % 3);
        many.pieces.back().stitches = project::PerSize<std::int64_t>(25);
    }
    const auto out = remedies(many, brook_balls(2));
    std::size_t shorter = 0;
    for (const Remedy& one : out) {
        const auto* const fewer = std::get_if<cover::FewerRows>(&one.what);
        if (fewer == nullptr) continue;
        EXPECT_EQ(fewer->piece, "wrap");
        ++shorter;
    }
    EXPECT_EQ(shorter, 1U);
}

// Two swatches of one size, 40 g in the wrap's stitch and 20 g in another: the other takes half.
TEST(Remedies, AnotherStitchThatTheSwatchesKnow) {
    project::Project project = wrap();
    project.gauge.stitches = 3.0 * units::stitch / units::inch;
    project.roles[0].rate.reset();
    project.roles[0].grist = support::grist("100 m / 50 g");
    for (const auto& [stitch, mass] : {std::pair("", 40.0), std::pair("sc", 20.0)}) {
        project::Swatch swatch;
        swatch.role = "MC";
        swatch.stitch = stitch;
        swatch.width = 10.0 * units::inch;
        swatch.height = 10.0 * units::inch;
        swatch.weighing = support::weighed(mass, 0.1);
        project.swatches.push_back(swatch);
    }
    project.pieces[0].rows = project::PerSize<std::int64_t>(50);
    // The wrap is 33.3 by 25 in, 8.3 swatches: 667 m by the one stitch and 333 m by the other.
    const auto out = remedies(project, brook_balls(4));
    const auto found = std::find_if(out.begin(), out.end(), [](const Remedy& one) {
        return std::holds_alternative<cover::OtherStitch>(one.what);
    });
    ASSERT_NE(found, out.end());
    EXPECT_EQ(found->verdict, Verdict::covered);
    EXPECT_NEAR(found->saved / units::metre, 333.3, 1.0);

    // A stitch that takes more helps nobody, and written rows are bound to theirs.
    project.swatches[1].weighing = support::weighed(60.0, 0.1);
    for (const Remedy& one : remedies(project, brook_balls(4)))
        EXPECT_FALSE(std::holds_alternative<cover::OtherStitch>(one.what));
    project.swatches[1].weighing = support::weighed(20.0, 0.1);
    project.pieces[0].gauge = project.gauge;
    for (const Remedy& one : remedies(project, brook_balls(4)))
        EXPECT_FALSE(std::holds_alternative<cover::OtherStitch>(one.what));
}

TEST(Remedies, WhatIsSetAsideForAnother) {
    std::vector<stash::Skein> stash = brook_balls(4);
    for (const std::size_t at : {1U, 2U, 3U}) stash[at].set_aside.emplace_back().project = "Hat";
    const auto out = remedies(wrap(), stash);
    ASSERT_FALSE(out.empty());
    EXPECT_EQ(report::said(out[0].what), "release what is set aside for Hat, for MC");
    EXPECT_EQ(out[0].verdict, Verdict::covered);
    // What waits for this very project is no news.
    for (stash::Skein& skein : stash) {
        if (skein.set_aside.empty()) continue;
        skein.set_aside[0].project = wrap().title;
    }
    EXPECT_THAT(remedies(wrap(), stash), IsEmpty());
}

// Two strands of 400 m per 100 g go as 200 m per 100 g: 200 m take 400 m of the thinner yarn, which
// one skein gives only just and two give for sure.
TEST(Remedies, StrandsOfAThinnerYarn) {
    project::Project project = wrap();
    project.roles[0].grist = support::grist("200 m / 100 g");
    const yarn::Yarn thin = support::yarn_of("Reed", support::metres(400), support::grams(100));
    std::vector<stash::Skein> stash = brook_balls(1);
    const auto strands = [](Verdict verdict) {
        return ::testing::Contains(
            ::testing::AllOf(what("2 strands of Reed together for MC instead (swatch first)"),
                             Field("verdict", &Remedy::verdict, verdict)));
    };
    stash.push_back(support::whole("r1", thin, "1"));
    EXPECT_THAT(remedies(project, stash), strands(Verdict::too_close_to_call));
    stash.push_back(support::whole("r2", thin, "1"));
    EXPECT_THAT(remedies(project, stash), strands(Verdict::covered));
}

TEST(Remedies, MixedLotsAndAnotherYarn) {
    std::vector<stash::Skein> stash = brook_balls(5);
    for (std::size_t at = 0; at < stash.size(); ++at) stash[at].dye_lot = std::to_string(at);
    const yarn::Yarn other = support::yarn_of("Heron", support::metres(100), support::grams(50));
    project::Project project = wrap();
    EXPECT_THAT(remedies(project, stash), ::testing::Contains(what("mix dye lots in MC Brook")));
    project.roles[0].grist = support::grist("100 m / 50 g");
    stash = brook_balls(1);
    for (int i = 0; i < 5; ++i)
        stash.push_back(support::whole("h" + std::to_string(i), other, "3"));
    EXPECT_THAT(remedies(project, stash),
                ::testing::Contains(what("Heron for MC instead (swatch first)")));
}

// Two figures that cannot both be true are no matter of buying.
TEST(Remedies, NothingIsBoughtWhereTheStashHasEnough) {
    project::Project project = wrap();
    project.pieces[0].length =
        project::PerSize<units::Length>(3.0 * 400.0 * units::row / project.gauge.rows);
    const need::MakeNeed need = cover::need_for(project, 0, {});
    ASSERT_FALSE(need.roles.at(0).contradictions.empty());
    cover::Rules rules;
    rules.project = project.title;
    const auto stash = brook_balls(9);
    const cover::MakeCover cover = cover::cover_make(project, need, stash, rules);
    ASSERT_NE(cover.verdict, Verdict::covered);
    for (const Remedy& remedy : cover::remedies(project, need, stash, rules, cover))
        EXPECT_FALSE(std::holds_alternative<cover::BuyForIt>(remedy.what));
}

}  // namespace
