// Makers' problems told on public pages, with right answers (arithmetic ours). Sources stand at
// each test; yarns and names are invented.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/cover/cover.hpp"

#include "even_odds.hpp"
#include "support/builders.hpp"
#include "support/says.hpp"

namespace {

using namespace skeinfall;
using cover::Verdict;
using support::ids_of;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::Field;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::SizeIs;
using units::metre;

std::vector<stash::Skein> balls_from_101(int count, const yarn::Yarn& yarn) {
    std::vector<stash::Skein> out;
    for (int i = 1; i <= count; ++i)
        out.push_back(support::whole("s" + std::to_string(100 + i), yarn, "A"));
    return out;
}

std::size_t balls_for(const need::RoleNeed& need, const units::Printed<units::Length>& ball) {
    return cover::cover_role(
               support::role("MC"), need,
               balls_from_101(20, support::yarn_of("Brack", ball, support::grams(50))),
               cover_tests::even_odds())
        .chosen.size();
}

// https://www.quirkspace.com/booniverse/?p=3366: a book wants a pound of each colour; 28 oz of each
// were bought and did not suffice. A pound is no length, so mass alone is not compared.
TEST(PublishedCover, APoundOfEachColourIsNoLength) {
    project::Project afghan = support::rectangle(100, 100);
    afghan.roles[0].total_mass = project::PerSize<units::Mass>(16.0 * units::ounce);
    EXPECT_THROW(static_cast<void>(need::need_of(afghan, 0)), base::InputError);
    // Once the book's yarn has a length per mass, a yarn half as long is no candidate, however
    // heavy its skeins are.
    afghan.roles[0].grist = support::grist("200 yd / 100 g");
    const auto thick =
        balls_from_101(8, support::yarn_of("Brack", support::yards(100), support::grams(100)));
    const cover::MakeCover made =
        cover::cover_make(afghan, need::need_of(afghan, 0), thick, cover::Rules());
    EXPECT_EQ(made.verdict, Verdict::is_short);
    EXPECT_THAT(
        every_candidate(made.roles[0]),
        Contains(Field(&cover::Candidate::reason, support::Says(HasSubstr("thicker than wanted"))))
            .Times(8));
}

// https://forum.knittinghelp.com/t/switching-yarn-to-different-from-pattern/79793: a total of
// 1250 yd for two strands, in balls of 145 yd: 8.62, so 9; when that is the sum of both strands a
// single one takes 4.31, so 5.
TEST(PublishedCover, TheTotalOfBothStrandsOrOfEach) {
    EXPECT_EQ(balls_for(support::need_of_length(1250 * 0.9144, 0), support::yards(145)), 9U);
    EXPECT_EQ(balls_for(support::need_of_length(625 * 0.9144, 0), support::yards(145)), 5U);
}

// https://nordicmart.blogspot.com/2014/03/a-knitters-or-crocheters-right-to.html: 1100 yd in balls
// of 109 yd are 10.09. Ten are 10 yd short of a total that was counted in whole skeins and so
// rounded up already: neither covered nor short.
TEST(PublishedCover, ATotalCountedInWholeSkeinsIsACloseCall) {
    project::Project make = support::rectangle(100, 100);
    make.roles[0].total_length = project::PerSize<units::Length>(1100.0 * units::yard);
    make.roles[0].total_basis = project::TotalBasis::whole_skeins;
    const need::MakeNeed need = need::need_of(make, 0);
    EXPECT_THAT(need.roles[0].notes, Contains(HasSubstr("up to one skein less")));
    const auto ten =
        balls_from_101(10, support::yarn_of("Brack", support::yards(109), support::grams(50)));
    const cover::MakeCover made = cover::cover_make(make, need, ten, cover::Rules());
    EXPECT_EQ(made.verdict, Verdict::too_close_to_call);
    // 10 yd, ten times two ends of 15 cm, and half a row of 11 yd at each of nine joins.
    EXPECT_NEAR(made.roles[0].spare / units::yard, -10.0 - 3.0 / 0.9144 - 9 * 5.5, 1e-6);
}

// http://tracykm.blogspot.com/2008/01/check-your-weight.html: two balls sold as 100 g hold 119 g
// and 91 g. What was weighed counts, ball by ball.
TEST(PublishedCover, EveryBallByItsOwnWeight) {
    const yarn::Yarn yarn = support::yarn_of("Brack", support::metres(200), support::grams(100));
    std::vector<stash::Skein> two = balls_from_101(2, yarn);
    const auto take = [&] {
        return cover::cover_role(support::role("MC"), support::need_of_length(220, 0), two,
                                 cover_tests::even_odds());
    };
    EXPECT_THAT(take().chosen, SizeIs(2));
    two[0].weighing = support::weighed(91, 1);
    two[1].weighing = support::weighed(119, 1);
    const cover::RoleCover heavy = take();
    EXPECT_THAT(ids_of(heavy.chosen), ElementsAre("s102"));
    EXPECT_NEAR(heavy.supply.centre / metre, 238.0, 1e-9);
    // The lighter one alone is short: 182 m.
    two.pop_back();
    EXPECT_EQ(take().verdict, Verdict::is_short);
}

// http://tailfeathers20072008.blogspot.com/2008/06/6g-short-of-ball_07.html: 94 g of 100 g / 425 m:
// 25.5 m short, or only dry. A measured length tells.
TEST(PublishedCover, ALightBallIsShortOrDry) {
    std::vector<stash::Skein> one =
        balls_from_101(1, support::yarn_of("Brack", support::metres(425), support::grams(100)));
    one[0].weighing = support::weighed(94, 1);
    const cover::RoleCover cover =
        cover::cover_role(support::role("MC"), support::need_of_length(405, 0), one, {});
    EXPECT_NEAR(cover.supply.centre / metre, 425.0 - 25.5, 1e-9);
    EXPECT_EQ(cover.verdict, Verdict::too_close_to_call);
    ASSERT_FALSE(cover.settles.empty());
    EXPECT_THAT(report::said(cover.settles.front().what), HasSubstr("weigh 10 yd"));
}

// https://cdn.shopify.com/s/files/1/0711/5132/1403/files/CAC0502-029057M.pdf: each new ball is
// joined where its colour goes on, which discards half a repeat on average, and that must be
// there. Three balls of 100 m with a repeat of 12 m give 300 m less two times 6 m and their ends.
TEST(PublishedCover, JoiningInTheRightColourIsPartOfTheNeed) {
    project::Role role = support::role("MC");
    role.colours = {{"red", 7.0 * metre, ""}, {"blue", 5.0 * metre, ""}};
    const auto three =
        balls_from_101(3, support::yarn_of("Brack", support::metres(100), support::grams(50)));
    const auto of = [&](double length) {
        return cover::cover_role(role, support::need_of_length(length, 0), three,
                                 cover_tests::even_odds());
    };
    EXPECT_EQ(of(300.0 - 12.0 - 0.9).verdict, Verdict::covered);
    EXPECT_NEAR(of(287.0).wound_off / metre, 12.0, 1e-9);
    EXPECT_NEAR(of(287.0).spare / metre, 300.0 - 287.0 - 12.0 - 0.9, 1e-9);
    EXPECT_NE(of(287.2).verdict, Verdict::covered);
    // A single ball has nothing wound off.
    EXPECT_EQ(of(99.7).chosen.size(), 1U);
    EXPECT_EQ(of(99.8).chosen.size(), 2U);
    // pennylane.blogspot.com, "what is wrong with this picture" (2006): the third ball was wound
    // the other way, and its stripes ran backwards. With one ball there is nothing to compare.
    EXPECT_THAT(of(287.0).notes, Contains(support::Says(HasSubstr("run the same way"))));
    EXPECT_THAT(of(99.7).notes, Not(Contains(support::Says(HasSubstr("run the same way")))));
}

}  // namespace
