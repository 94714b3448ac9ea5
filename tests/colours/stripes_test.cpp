#include "skeinfall/colours/stripes.hpp"

#include <cstdint>
#include <numeric>
#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "skeinfall/base/problem.hpp"

#include "support/builders.hpp"

namespace {

using namespace skeinfall;
using namespace skeinfall::colours;
using support::grams;
using support::metres;

project::Role colour_role(const std::string& id, const std::string& colour) {
    project::Role out = support::role(id);
    out.name = "Fleet";
    out.colour = colour;
    out.grist = support::grist("200 m / 100 g");
    out.rate = 0.05 * units::metre / units::stitch;
    return out;
}

/// A scarf of 20 stitches, 1 m a row, in these stripes.
project::Project scarf(const Stripes& stripes, std::int64_t rows) {
    project::Project out = support::rectangle(20, rows);
    out.title = "Redshank scarf";
    out.roles.clear();
    for (const project::Stripe& stripe : stripes)
        if (out.role(stripe.role) == nullptr)
            out.roles.push_back(colour_role(stripe.role, "colour " + stripe.role));
    out.pieces.front().role.clear();
    out.pieces.front().stripes = stripes;
    return out;
}

std::vector<stash::Skein> skeins_of(const std::vector<std::pair<std::string, double>>& lengths) {
    std::vector<stash::Skein> out;
    for (std::size_t i = 0; i < lengths.size(); ++i) {
        const auto& [role, length] = lengths[i];
        stash::Skein one =
            support::whole("k" + std::to_string(i),
                           support::yarn_of("Fleet", metres(length), grams(length / 2.0)), "7");
        one.colourway = "colour " + role;
        out.push_back(std::move(one));
    }
    return out;
}

cover::Rules rules() {
    cover::Rules out;
    out.project = "Redshank scarf";
    return out;
}

Wish stripes_wish(const project::Project& project) {
    Wish out;
    out.pieces = striped_alike(project, 0, std::nullopt);
    out.wanted = project.pieces.front().stripes;
    return out;
}

cover::Verdict verdict_of(const project::Project& project, const std::vector<stash::Skein>& stash) {
    return plan::plan_make(project, 0, stash, rules(), {}).cover.verdict;
}

TEST(Stripes, AShortColourGivesRowsToOneThatHasThem) {
    const project::Project project = scarf({{"A", 6}, {"B", 4}, {"C", 2}}, 180);
    const auto stash = skeins_of({{"A", 90.0}, {"B", 140.0}, {"C", 60.0}});
    ASSERT_NE(verdict_of(project, stash), cover::Verdict::covered);
    const StripePlan plan = plan_stripes(project, stash, rules(), stripes_wish(project));
    ASSERT_TRUE(plan.found);
    EXPECT_TRUE(plan.proven);
    EXPECT_TRUE(plan.height_kept);
    EXPECT_EQ(
        std::accumulate(plan.found->heights.begin(), plan.found->heights.end(), std::int64_t{0}),
        12);
    EXPECT_LT(plan.found->heights[0], 6);
    // One plan, one chance: the same project asked anew.
    EXPECT_EQ(verdict_of(plan.found->project, stash), cover::Verdict::covered);
    EXPECT_EQ(plan.found->project.pieces.front().stripes, plan.found->stripes.front());
}

TEST(Stripes, AsWantedStaysWhereItIsEnough) {
    const project::Project project = scarf({{"A", 6}, {"B", 4}}, 60);
    const auto stash = skeins_of({{"A", 90.0}, {"B", 90.0}});
    const StripePlan plan = plan_stripes(project, stash, rules(), stripes_wish(project));
    ASSERT_TRUE(plan.found);
    EXPECT_EQ(plan.found->rows_changed, 0);
}

TEST(Stripes, WhereNothingIsEnoughTheNearestIsSmaller) {
    const project::Project project = scarf({{"A", 3}, {"B", 3}}, 120);
    const auto stash = skeins_of({{"A", 30.0}, {"B", 30.0}});
    const StripePlan plan = plan_stripes(project, stash, rules(), stripes_wish(project));
    EXPECT_FALSE(plan.found);
    ASSERT_TRUE(plan.nearest);
    EXPECT_LT(plan.nearest_rows, 60);
    EXPECT_EQ(plan.nearest_rows % 6, 0);
    EXPECT_EQ(verdict_of(plan.nearest->project, stash), cover::Verdict::covered);
}

TEST(Stripes, GrowAsLargeAsTheColoursAllow) {
    const project::Project project = scarf({{"A", 3}, {"B", 3}}, 12);
    const auto stash = skeins_of({{"A", 60.0}, {"B", 60.0}});
    const auto grown = largest_striped(project, stash, rules(), stripes_wish(project));
    ASSERT_TRUE(grown);
    EXPECT_GT(grown->rows, 60);
    EXPECT_EQ(grown->rows % 6, 0);
    EXPECT_EQ(verdict_of(grown->plan.found->project, stash), cover::Verdict::covered);
    project::Project more = project;
    more.pieces.front().rows = project::PerSize<std::int64_t>(grown->rows + 6);
    EXPECT_FALSE(plan_stripes(more, stash, rules(), stripes_wish(more)).found);
}

// Yarn for 40, 40 and 20 rows beside ends: a repeat of ten rows uses them up alike at 4, 4 and 2.
TEST(Stripes, InProportionAllColoursEndTogether) {
    const project::Project project = scarf({{"A", 2}, {"B", 2}, {"C", 6}}, 60);
    const auto stash = skeins_of({{"A", 41.5}, {"B", 41.5}, {"C", 21.5}});
    Wish wish = stripes_wish(project);
    wish.way = Way::in_proportion;
    wish.goals = {Goal::leftovers, Goal::heights, Goal::ends};
    const StripePlan plan = plan_stripes(project, stash, rules(), wish);
    ASSERT_TRUE(plan.found);
    EXPECT_EQ(plan.found->heights, (Heights{4, 4, 2}));
}

// Eight bands of 2 rows stay; the rest of the 60 rows lies between them.
TEST(Stripes, AFillerLeavesTheBandsAsTheyAre) {
    const project::Project project = scarf({{"A", 4}, {"B", 2}}, 60);
    const auto stash = skeins_of({{"A", 80.0}, {"B", 18.5}});
    Wish wish = stripes_wish(project);
    wish.way = Way::fill;
    wish.filler = "A";
    const StripePlan plan = plan_stripes(project, stash, rules(), wish);
    ASSERT_TRUE(plan.found);
    std::int64_t of_b = 0;
    for (const project::Stripe& stripe : plan.found->stripes.front()) {
        if (stripe.role != "B") continue;
        EXPECT_EQ(stripe.rows, 2);
        of_b += stripe.rows;
    }
    EXPECT_LE(of_b, 18);
    EXPECT_EQ(of_b, 2 * plan.found->heights.front());
    EXPECT_EQ(verdict_of(plan.found->project, stash), cover::Verdict::covered);
}

TEST(Stripes, AFadeIsMixedInPairsAndSuffices) {
    const project::Project project = scarf({{"A", 30}, {"B", 30}}, 60);
    const auto stash = skeins_of({{"A", 22.0}, {"B", 60.0}});
    Wish wish = stripes_wish(project);
    wish.way = Way::fade;
    const StripePlan plan = plan_stripes(project, stash, rules(), wish);
    ASSERT_TRUE(plan.found);
    EXPECT_LE(plan.found->heights[0], 22);
    for (const project::Stripe& stripe : plan.found->stripes.front()) EXPECT_EQ(stripe.rows % 2, 0);
    EXPECT_EQ(verdict_of(plan.found->project, stash), cover::Verdict::covered);
}

TEST(Stripes, BallsBecomeAStripeEach) {
    const project::Project project = scarf({{"A", 2}, {"B", 2}, {"C", 2}}, 40);
    const auto stash = skeins_of({{"A", 14.0}, {"A", 12.0}, {"B", 15.0}, {"B", 9.0}, {"C", 11.0}});
    Wish wish = stripes_wish(project);
    wish.way = Way::scraps;
    const StripePlan plan = plan_stripes(project, stash, rules(), wish);
    ASSERT_TRUE(plan.found);
    const Stripes& stripes = plan.found->stripes.front();
    EXPECT_EQ(stripes.size(), 5u);
    EXPECT_EQ(plan.balls.size(), 5u);
    for (std::size_t i = 1; i < stripes.size(); ++i)
        EXPECT_NE(stripes[i].role, stripes[i - 1].role);
    EXPECT_EQ(verdict_of(plan.found->project, stash), cover::Verdict::covered);
}

TEST(Stripes, BallsOfAStripeEachMayBeOfAnyLot) {
    project::Project project = scarf({{"A", 2}, {"B", 2}, {"C", 2}}, 40);
    for (project::Role& role : project.roles) role.one_lot = true;
    auto stash = skeins_of({{"A", 14.0}, {"A", 12.0}, {"B", 15.0}, {"B", 9.0}, {"C", 11.0}});
    for (std::size_t at = 0; at < stash.size(); ++at) stash[at].dye_lot = std::to_string(at);
    Wish wish = stripes_wish(project);
    wish.way = Way::scraps;
    const StripePlan plan = plan_stripes(project, stash, rules(), wish);
    ASSERT_TRUE(plan.found);
    EXPECT_EQ(plan.found->plan.cover.verdict, cover::Verdict::covered);
}

// Three balls of A hold 20 rows each, but 30 m of them are the border's: half of the 50 rows would
// leave it no margin.
TEST(Stripes, BallsOfAStripeEachKeepTheBordersYarn) {
    project::Project project = scarf({{"A", 2}, {"B", 2}}, 50);
    project::FinishPart border;
    border.kind = project::PartKind::border;
    border.name = "border";
    border.role = "A";
    border.yarn = project::PerSize<units::Length>(30.0 * units::metre);
    border.rounds = project::PerSize<std::int64_t>(6);
    project.finish.push_back(border);
    const auto stash =
        skeins_of({{"A", 22.0}, {"A", 22.0}, {"A", 22.0}, {"B", 22.0}, {"B", 22.0}, {"B", 22.0}});
    Wish wish = stripes_wish(project);
    wish.way = Way::scraps;
    const StripePlan plan = plan_stripes(project, stash, rules(), wish);
    ASSERT_TRUE(plan.found);
    EXPECT_EQ(verdict_of(plan.found->project, stash), cover::Verdict::covered);
}

TEST(Stripes, AnEdgeIsKeptBack) {
    const project::Project project = scarf({{"A", 3}, {"B", 3}}, 40);
    const auto stash = skeins_of({{"A", 60.0}, {"B", 60.0}});
    Wish wish = stripes_wish(project);
    wish.edge = project::Stripe{"B", 4};
    const StripePlan plan = plan_stripes(project, stash, rules(), wish);
    ASSERT_TRUE(plan.found);
    const Stripes& stripes = plan.found->stripes.front();
    EXPECT_EQ(stripes.front(), (project::Stripe{"B", 4}));
    EXPECT_EQ(stripes.back().role, "B");
    EXPECT_GE(stripes.back().rows, 4);
}

std::string what_of(const project::Project& project, const std::vector<stash::Skein>& stash,
                    const Wish& wish) {
    try {
        static_cast<void>(plan_stripes(project, stash, rules(), wish));
    } catch (const base::InputError& error) {
        return base::to_text(error.problems());
    }
    return {};
}

TEST(Stripes, RefuseWhatCannotBePlanned) {
    using testing::HasSubstr;
    const auto stash = skeins_of({{"A", 60.0}, {"B", 60.0}, {"C", 0.8}});
    const project::Project one = scarf({{"A", 3}, {"A", 2}}, 40);
    EXPECT_THAT(what_of(one, stash, stripes_wish(one)), HasSubstr("one colour, A"));
    const project::Project little = scarf({{"A", 3}, {"C", 2}}, 40);
    EXPECT_THAT(what_of(little, stash, stripes_wish(little)), HasSubstr("holds less than one row"));
    const project::Project low = scarf({{"A", 1}, {"B", 1}}, 1);
    EXPECT_THAT(what_of(low, stash, stripes_wish(low)), HasSubstr("2 colours on 1 row of"));
    const project::Project none = scarf({{"A", 1}, {"B", 0}}, 10);
    EXPECT_THAT(what_of(none, stash, stripes_wish(none)), HasSubstr("1 row or more"));
    const project::Project odd = scarf({{"A", 3}, {"B", 2}}, 10);
    Wish wish = stripes_wish(odd);
    wish.one_edge = true;
    EXPECT_THAT(what_of(odd, stash, wish), HasSubstr("6 rows is the nearest"));
    const project::Project even = scarf({{"A", 4}, {"B", 2}}, 40);
    wish = stripes_wish(even);
    wish.one_edge = true;
    wish.edge = project::Stripe{"A", 3};
    EXPECT_THAT(what_of(even, stash, wish), HasSubstr("an edging of 3 rows"));
    const project::Project band = scarf({{"A", 3}, {"B", 3}}, 40);
    wish = stripes_wish(band);
    wish.one_edge = true;
    wish.way = Way::fill;
    wish.filler = "B";
    EXPECT_THAT(what_of(band, stash, wish), HasSubstr("a band of A of 3 rows"));
    const project::Project missing = scarf({{"A", 3}, {"D", 2}}, 10);
    EXPECT_THAT(what_of(missing, stash, stripes_wish(missing)),
                HasSubstr("no skein in the stash that is free"));
}

// Stripes of 3 and 3 would end at either edge by turns though the yarn is enough: 2 and 4 do not.
TEST(Stripes, ChangesAtOneEdgeAreKeptWhereTheYarnIsEnoughToo) {
    const auto stash = skeins_of({{"A", 200.0}, {"B", 200.0}});
    const project::Project project = scarf({{"A", 3}, {"B", 3}}, 42);
    Wish wish = stripes_wish(project);
    wish.one_edge = true;
    const StripePlan plan = plan_stripes(project, stash, {}, wish);
    ASSERT_TRUE(plan.found);
    for (const std::int64_t rows : plan.found->heights) EXPECT_EQ(rows % 2, 0);
    EXPECT_EQ(plan.found->rows_changed, 2);
    for (const need::Change& change : plan.found->plan.need.changes)
        EXPECT_TRUE(change.right_edge) << change.row;
}

/// Each plan asks for many covers, so that fewer cases than usual are drawn.
template <class Property>
void hold(Property property) {
    rc::detail::TestParams params = rc::detail::configuration().testParams;
    params.maxSuccess = std::min(params.maxSuccess, 25);
    params.disableShrinking = true;
    const auto result = rc::detail::checkTestable(property, rc::detail::TestMetadata{}, params);
    std::ostringstream what;
    rc::detail::printResultMessage(result, what);
    EXPECT_TRUE(result.template is<rc::detail::SuccessResult>()) << what.str();
}

/// A small make in a random plight.
struct Plight {
    project::Project project;
    std::vector<std::pair<std::string, double>> lengths;
};

Plight any_plight() {
    Stripes stripes;
    const std::vector<std::string> order = *rc::gen::element(
        std::vector<std::string>{"A", "B"}, std::vector<std::string>{"A", "B", "C"},
        std::vector<std::string>{"A", "B", "A", "C"});
    for (const std::string& role : order) stripes.push_back({role, *rc::gen::inRange(1, 4)});
    Plight out;
    out.project = scarf(stripes, *rc::gen::inRange(12, 40));
    const need::MakeNeed need = need::need_of(out.project, 0);
    for (const need::RoleNeed& role : need.roles)
        // Beside the ends, so that it always gives a row.
        out.lengths.emplace_back(role.role,
                                 2.0 + role.length.centre / units::metre * 0.01 *
                                           static_cast<double>(*rc::gen::inRange(80, 200)));
    return out;
}

/// The least change of all heights that there are, by asking the one answer for each.
std::optional<std::int64_t> least_change(const Plight& plight, const Stripes& wanted) {
    const auto stash = skeins_of(plight.lengths);
    std::int64_t sum = 0;
    for (const project::Stripe& stripe : wanted) sum += stripe.rows;
    std::optional<std::int64_t> best;
    Stripes now = wanted;
    const auto visit = [&](const auto& self, std::size_t at, std::int64_t left,
                           std::int64_t changed) -> void {
        if (at + 1 == now.size()) {
            now[at].rows = left;
            changed += std::llabs(left - wanted[at].rows);
            if (best && *best <= changed) return;
            project::Project project = plight.project;
            project.pieces.front().stripes = now;
            if (verdict_of(project, stash) == cover::Verdict::covered) best = changed;
            return;
        }
        const std::int64_t others = static_cast<std::int64_t>(now.size() - at - 1);
        for (std::int64_t rows = 1; rows <= left - others; ++rows) {
            now[at].rows = rows;
            self(self, at + 1, left - rows, changed + std::llabs(rows - wanted[at].rows));
        }
    };
    visit(visit, 0, sum, 0);
    return best;
}

TEST(StripesOf, ChangeAsLittleAsAnyHeightsThatSuffice) {
    hold([] {
        const Plight plight = any_plight();
        const Stripes wanted = plight.project.pieces.front().stripes;
        const StripePlan plan = plan_stripes(plight.project, skeins_of(plight.lengths), rules(),
                                             stripes_wish(plight.project));
        RC_ASSERT(plan.proven);
        const auto least = least_change(plight, wanted);
        RC_ASSERT((plan.found && plan.height_kept) == least.has_value());
        if (least) RC_ASSERT(plan.found->rows_changed == *least);
    });
}

TEST(StripesOf, APlanGivenBackComesBackUnchanged) {
    hold([] {
        const Plight plight = any_plight();
        const auto stash = skeins_of(plight.lengths);
        const StripePlan plan =
            plan_stripes(plight.project, stash, rules(), stripes_wish(plight.project));
        if (!plan.found) return;
        RC_ASSERT(verdict_of(plan.found->project, stash) == cover::Verdict::covered);
        const StripePlan again =
            plan_stripes(plan.found->project, stash, rules(), stripes_wish(plan.found->project));
        RC_ASSERT(again.found.has_value());
        RC_ASSERT(again.found->rows_changed == 0);
        RC_ASSERT(again.found->stripes == plan.found->stripes);
    });
}

TEST(StripesOf, MoreYarnNeverMakesThePlanWorse) {
    hold([] {
        const Plight plight = any_plight();
        Plight richer = plight;
        richer
            .lengths[static_cast<std::size_t>(
                *rc::gen::inRange(0, static_cast<int>(plight.lengths.size())))]
            .second *= 1.0 + 0.01 * static_cast<double>(*rc::gen::inRange(1, 60));
        const auto of = [](const Plight& one) {
            return plan_stripes(one.project, skeins_of(one.lengths), rules(),
                                stripes_wish(one.project));
        };
        const StripePlan less = of(plight);
        const StripePlan more = of(richer);
        if (!less.found) return;
        RC_ASSERT(more.found.has_value());
        RC_ASSERT(more.height_kept || !less.height_kept);
        if (more.height_kept == less.height_kept)
            RC_ASSERT(more.found->rows_changed <= less.found->rows_changed);
    });
}

TEST(StripesOf, ColoursExchangedExchangeThePlan) {
    hold([] {
        const Plight plight = any_plight();
        Plight other = plight;
        const auto exchanged = [](std::string& role) {
            role = role == "A" ? "B" : role == "B" ? "A" : role;
        };
        Stripes stripes = plight.project.pieces.front().stripes;
        for (project::Stripe& stripe : stripes) exchanged(stripe.role);
        other.project = scarf(stripes, plight.project.pieces.front().rows.at(0));
        for (auto& [role, length] : other.lengths) exchanged(role);
        const StripePlan one = plan_stripes(plight.project, skeins_of(plight.lengths), rules(),
                                            stripes_wish(plight.project));
        const StripePlan two = plan_stripes(other.project, skeins_of(other.lengths), rules(),
                                            stripes_wish(other.project));
        RC_ASSERT(one.found.has_value() == two.found.has_value());
        if (one.found) RC_ASSERT(one.found->heights == two.found->heights);
    });
}

}  // namespace
