// What must not become better from less, nor other from the same. Random makes of our own.

#include <algorithm>
#include <cstdint>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "skeinfall/units/parse.hpp"

#include "plan/random_makes.hpp"

namespace {

using namespace skeinfall;
using cover::Verdict;
using support::verdict_of;

RC_GTEST_PROP(Metamorphic, MoreYarnIsNeverWorse, ()) {
    const support::RandomMake make = support::random_make();
    std::vector<stash::Skein> more = make.stash;
    more.push_back(support::panel_skein("r9"));
    RC_ASSERT(verdict_of(make.project, more) <= verdict_of(make.project, make.stash));
}

RC_GTEST_PROP(Metamorphic, AHeavierReadingIsNeverWorse, ()) {
    support::RandomMake make = support::random_make();
    stash::Skein& skein = make.stash.back();
    skein.part = true;
    const int shown = *rc::gen::inRange(5, 48);
    skein.weighing = support::weighed(shown, 1);
    const Verdict before = verdict_of(make.project, make.stash);
    skein.weighing = support::weighed(shown + *rc::gen::inRange(1, 4), 1);
    RC_ASSERT(verdict_of(make.project, make.stash) <= before);
}

RC_GTEST_PROP(Metamorphic, AFinerScaleUndoesNoAnswer, ()) {
    support::RandomMake make = support::random_make();
    stash::Skein& skein = make.stash.back();
    skein.part = true;
    const int shown = 5 * *rc::gen::inRange(1, 10);
    skein.weighing = support::weighed(shown, 5);
    const auto coarse = support::planned(make.project, make.stash).cover;
    skein.weighing = support::weighed(shown, 0.1);
    const auto fine = support::planned(make.project, make.stash).cover;
    // Whole rows have steps: at the very edge of the confidence either may lie above it.
    const double sure = coarse.chance.value.value();
    if (coarse.verdict == Verdict::covered && sure > 0.96)
        RC_ASSERT(fine.verdict == Verdict::covered);
    if (coarse.verdict == Verdict::is_short && sure < 0.04)
        RC_ASSERT(fine.verdict == Verdict::is_short);
}

RC_GTEST_PROP(Metamorphic, TheOrderOfSkeinsChangesNothing, ()) {
    const support::RandomMake make = support::random_make();
    std::vector<stash::Skein> turned = make.stash;
    const int turns = *rc::gen::inRange(0, 6);
    for (int i = 0; i < turns; ++i)
        std::next_permutation(
            turned.begin(), turned.end(),
            [](const stash::Skein& a, const stash::Skein& b) { return a.id < b.id; });
    const plan::MakePlan one = support::planned(make.project, make.stash);
    const plan::MakePlan other = support::planned(make.project, turned);
    RC_ASSERT(one.cover.chance.value == other.cover.chance.value);
    std::vector<std::string> ids = support::ids_of(one.cover.roles.front().chosen);
    std::vector<std::string> others = support::ids_of(other.cover.roles.front().chosen);
    std::sort(ids.begin(), ids.end());
    std::sort(others.begin(), others.end());
    RC_ASSERT(ids == others);
}

RC_GTEST_PROP(Metamorphic, OtherUnitsChangeNothing, ()) {
    const support::RandomMake make = support::random_make();
    std::vector<stash::Skein> yards = make.stash;
    for (stash::Skein& skein : yards) {
        skein.yarn.label.length = {"109.361329834 yd", *units::parse_length("109.361329834 yd")};
        skein.yarn.label.mass = {"1.763698097 oz", *units::parse_mass("1.763698097 oz")};
    }
    const plan::MakePlan one = support::planned(make.project, make.stash);
    const plan::MakePlan other = support::planned(make.project, yards);
    RC_ASSERT(one.cover.verdict == other.cover.verdict ||
              std::abs(one.cover.chance.value.value() - other.cover.chance.value.value()) < 1e-4);
}

RC_GTEST_PROP(Metamorphic, CaseAndSpacesOfNamesChangeNothing, ()) {
    const support::RandomMake make = support::random_make();
    std::vector<stash::Skein> shouted = make.stash;
    for (stash::Skein& skein : shouted) {
        skein.yarn.name = " QUAYSIDE ";
        skein.dye_lot = "Lot 1";
    }
    RC_ASSERT(support::chance_of(make.project, make.stash) ==
              support::chance_of(make.project, shouted));
}

RC_GTEST_PROP(Metamorphic, ABorderIsNeverBetter, ()) {
    support::RandomMake make = support::random_make();
    const Verdict before = verdict_of(make.project, make.stash);
    project::FinishPart border;
    border.kind = project::PartKind::border;
    border.name = "border";
    border.role = "MC";
    border.stitches = project::PerSize<std::int64_t>(*rc::gen::inRange(4, 200));
    make.project.finish.push_back(border);
    RC_ASSERT(verdict_of(make.project, make.stash) >= before);
}

RC_GTEST_PROP(Metamorphic, MoreRowsAreNeverBetter, ()) {
    support::RandomMake make = support::random_make();
    const Verdict before = verdict_of(make.project, make.stash);
    const std::int64_t rows = make.project.pieces.front().rows.at(0);
    make.project.pieces.front().rows =
        project::PerSize<std::int64_t>(rows + *rc::gen::inRange<std::int64_t>(1, 6));
    RC_ASSERT(verdict_of(make.project, make.stash) >= before);
}

RC_GTEST_PROP(Metamorphic, TheOrderOfPiecesChangesHardlyAnything, ()) {
    support::RandomMake make = support::random_make();
    project::Piece cuff = make.project.pieces.front();
    cuff.name = "cuff";
    cuff.rows = project::PerSize<std::int64_t>(*rc::gen::inRange<std::int64_t>(1, 20));
    make.project.pieces.push_back(cuff);
    project::Project turned = make.project;
    std::swap(turned.pieces.front(), turned.pieces.back());
    const auto one = support::planned(make.project, make.stash).cover;
    const auto other = support::planned(turned, make.stash).cover;
    // Rows as wide as each other: only which of them a join falls into is another.
    const double apart = std::abs(one.chance.value.value() - other.chance.value.value());
    RC_ASSERT(one.verdict == other.verdict || apart < 0.01);
    RC_ASSERT(apart < 0.05);
}

RC_GTEST_PROP(Metamorphic, TheOrderOfFilesChangesNoVerdict, ()) {
    const support::RandomMake one = support::random_make();
    support::RandomMake other = support::random_make();
    other.project.title = "Other panel";
    std::vector<stash::Skein> stash = one.stash;
    for (stash::Skein skein : other.stash) {
        skein.id = "o" + skein.id;
        stash.push_back(std::move(skein));
    }
    const need::MakeNeed first = cover::need_for(one.project, 0, {});
    const need::MakeNeed second = cover::need_for(other.project, 0, {});
    const cover::Make a{&one.project, &first, support::rules_for(one.project)};
    const cover::Make b{&other.project, &second, support::rules_for(other.project)};
    const auto ab = cover::cover_makes({a, b}, stash, cover::Sharing::joint);
    const auto ba = cover::cover_makes({b, a}, stash, cover::Sharing::joint);
    const auto covered = [](const std::vector<cover::MakeCover>& all) {
        return std::count_if(all.begin(), all.end(), [](const cover::MakeCover& make) {
            return make.verdict == Verdict::covered;
        });
    };
    RC_ASSERT(covered(ab) == covered(ba));
}

RC_GTEST_PROP(Metamorphic, AMarginIsNeverBetterAndNeverChangesTheVerdict, ()) {
    const support::RandomMake make = support::random_make();
    cover::Rules rules = support::rules_for(make.project);
    rules.margin = {};
    const need::MakeNeed need = cover::need_for(make.project, 0, rules);
    const auto bare = cover::cover_make(make.project, need, make.stash, rules);
    rules.margin = units::Ratio(*rc::gen::inRange(1, 60) / 100.0);
    const auto asked = cover::cover_make(make.project, need, make.stash, rules);
    // The same skeins last for the need alone with the same chance, whatever is asked on top.
    if (support::ids_of(bare.roles.front().chosen) == support::ids_of(asked.roles.front().chosen))
        RC_ASSERT(std::abs(asked.chance.value.value() - bare.chance.value.value()) < 1e-9);
    // Where neither has a hope another choice of skeins may be the better one.
    RC_ASSERT(asked.with_margin.value.value() <=
              std::max(1e-3, asked.chance.value.value() + 1e-12));
    for (const cover::RoleCover& role : asked.roles)
        RC_ASSERT((role.margin_short > units::Length{}) == (role.with_margin < role.confidence));
    if (bare.verdict == Verdict::is_short) RC_ASSERT(asked.verdict != Verdict::covered);
}

}  // namespace
