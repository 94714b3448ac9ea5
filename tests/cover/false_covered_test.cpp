// Ways in which too little yarn could be called enough: none of them leads to "covered".

#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/cover/buy.hpp"
#include "skeinfall/cover/cover.hpp"

#include "support/builders.hpp"
#include "support/says.hpp"

namespace {

using namespace skeinfall;
using cover::Verdict;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

yarn::Yarn of_label(const std::string& length, const std::string& mass) {
    yarn::Yarn out;
    out.name = "Kelpie";
    out.label.length = units::Printed<units::Length>{length, *units::parse_length(length)};
    if (!mass.empty()) out.label.mass = units::Printed<units::Mass>{mass, *units::parse_mass(mass)};
    return out;
}

std::vector<stash::Skein> skeins(int count, const yarn::Yarn& yarn) {
    std::vector<stash::Skein> out;
    for (int i = 1; i <= count; ++i)
        out.push_back(support::whole("s" + std::to_string(i), yarn, "A"));
    return out;
}

cover::RoleCover role_covered(const need::RoleNeed& need, const std::vector<stash::Skein>& stash,
                              double margin = 0.0, project::Role role = support::role("MC")) {
    cover::Rules rules;
    rules.margin = units::Ratio(margin);
    return cover::cover_role(role, need, stash, rules);
}

need::RoleNeed need_of(double metres) {
    return need::stated_need(metres * units::metre);
}

TEST(FalseCovered, AnUnmetMarginIsToldInLength) {
    const auto stash = skeins(2, of_label("250 m", "100 g"));
    const cover::RoleCover met = role_covered(need_of(380), stash, 0.1);
    EXPECT_EQ(met.verdict, Verdict::covered);
    EXPECT_EQ(met.margin_short, units::Length{});
    const cover::RoleCover unmet = role_covered(need_of(380), stash, 0.6);
    EXPECT_EQ(unmet.verdict, Verdict::covered);
    EXPECT_LT(unmet.with_margin.value.value(), 0.05);
    EXPECT_NEAR(unmet.spare / units::metre, 500 - 2 * 0.3 - 1.6 * 380, 1e-6);
    EXPECT_GT(unmet.margin_short, -unmet.spare);
}

TEST(FalseCovered, WhatIsBoughtMeetsTheMargin) {
    project::Project project = support::rectangle(25, 120);
    project.roles[0].name = "Kelpie";
    project.roles[0].grist = support::grist("250 m / 100 g");
    project.roles[0].total_length = project::PerSize<units::Length>(380.0 * units::metre);
    const auto stash = skeins(2, of_label("250 m", "100 g"));
    cover::Rules rules;
    rules.project = project.title;
    const need::MakeNeed need = cover::need_for(project, 0, rules);
    const auto lines = [&](double margin) {
        rules.margin = units::Ratio(margin);
        const cover::Make make{&project, &need, rules};
        const auto covers = cover::cover_makes({make}, stash, cover::Sharing::joint);
        EXPECT_EQ(covers.front().verdict, Verdict::covered);
        return cover::buying_list({make}, covers, stash, {});
    };
    EXPECT_THAT(lines(0.0), IsEmpty());
    const auto more = lines(0.6);
    ASSERT_EQ(more.size(), 1U);
    EXPECT_TRUE(more[0].only_margin);
    EXPECT_EQ(more[0].skeins, 1);
}

// Nothing can be bought to match a lot that nobody knows: what is bought covers it alone.
TEST(FalseCovered, WhatIsBoughtBesideAnUnknownLotIsALotOfItsOwn) {
    project::Project project = support::rectangle(25, 120);
    project.roles[0].name = "Kelpie";
    project.roles[0].grist = support::grist("250 m / 100 g");
    project.roles[0].total_length = project::PerSize<units::Length>(300.0 * units::metre);
    std::vector<stash::Skein> stash = skeins(1, of_label("250 m", "100 g"));
    stash.front().dye_lot.reset();
    cover::Rules rules;
    rules.project = project.title;
    const need::MakeNeed need = cover::need_for(project, 0, rules);
    const cover::Make make{&project, &need, rules};
    const auto covers = cover::cover_makes({make}, stash, cover::Sharing::joint);
    ASSERT_NE(covers.front().verdict, Verdict::covered);
    const auto lines = cover::buying_list({make}, covers, stash, {});
    ASSERT_EQ(lines.size(), 1U);
    EXPECT_EQ(lines[0].skeins, 2);
    EXPECT_GT(lines[0].chance->value.value(), 0.95);
}

TEST(FalseCovered, FiguresThatContradictEachOtherAreNeverCovered) {
    need::RoleNeed need = need_of(100);
    const auto stash = skeins(9, of_label("250 m", "100 g"));
    EXPECT_EQ(role_covered(need, stash).verdict, Verdict::covered);
    need.contradictions = {need::TwoEvidences{"a", 10.0 * units::metre, "b", 100.0 * units::metre}};
    cover::Rules even;
    for (const double confidence : {0.5, 0.8, 0.95}) {
        even.confidence = {units::Ratio(confidence)};
        EXPECT_EQ(cover::cover_role(support::role("MC"), need, stash, even).verdict,
                  Verdict::too_close_to_call);
    }
    EXPECT_LT(role_covered(need, stash).chance.value.value(), 0.95);
    EXPECT_THAT(role_covered(need, stash).settles, IsEmpty());
}

TEST(FalseCovered, MoreThanAnySkeinHoldsCountsAsNothing) {
    for (const auto& yarn :
         {of_label("250 km", "100 kg"), of_label("60 km", ""), of_label("2000 m", "6 kg")}) {
        const auto stash = skeins(1, yarn);
        const cover::RoleCover found = role_covered(need_of(100), stash);
        EXPECT_NE(found.verdict, Verdict::covered);
        const std::vector<cover::Candidate> all = cover::every_candidate(found);
        ASSERT_EQ(all.size(), 1U);
        EXPECT_THAT(report::said(all[0].reason), HasSubstr("more than any for hand work"));
    }
    stash::Skein weighed =
        support::part("s1", of_label("250 m", "100 g"), "A", support::weighed(9000, 1));
    EXPECT_NE(role_covered(need_of(100), {weighed}).verdict, Verdict::covered);
    EXPECT_EQ(role_covered(need_of(100), skeins(1, of_label("30 km", "2.5 kg"))).verdict,
              Verdict::covered);
}

TEST(FalseCovered, FibresThatAreAskedForAreHeldAgainstTheSkeins) {
    project::Role wool = support::role("MC");
    wool.fibre = support::fibre("100% wool");
    auto notes = [&](const std::string& fibre) {
        yarn::Yarn yarn = of_label("250 m", "100 g");
        if (!fibre.empty()) yarn.fibre = support::fibre(fibre);
        std::vector<std::string> out;
        for (const cover::Note& note : role_covered(need_of(100), skeins(1, yarn), 0.0, wool).notes)
            out.push_back(report::said(note));
        return out;
    };
    EXPECT_THAT(notes("100% wool"), IsEmpty());
    EXPECT_THAT(notes("100% merino wool"), IsEmpty());
    EXPECT_THAT(notes(""), ElementsAre(HasSubstr("fibre of s1 is not known")));
    EXPECT_THAT(notes("100% acrylic"), ElementsAre(HasSubstr("s1 is of other fibres")));
}

// 25 x 120 rows of 5 m, 600 m: ten balls of 70 m hold it by sums, and no row may have a join.
TEST(FalseCovered, JoinsWhereTheProjectWantsNoneAreNoCover) {
    project::Project project = support::rectangle(25, 120);
    project.roles[0].rate = units::YarnPerStitch(0.2 * units::metre / units::stitch);
    const auto with = [&](int count, const std::string& length) {
        cover::Rules rules;
        rules.project = project.title;
        const need::MakeNeed need = cover::need_for(project, 0, rules);
        return cover::cover_make(project, need, skeins(count, of_label(length, "")), rules);
    };
    ASSERT_EQ(with(12, "70 m").verdict, Verdict::covered);
    project.pieces[0].joins.keep_free = {project::RowZone{1, 120}};
    const cover::MakeCover barred = with(12, "70 m");
    EXPECT_EQ(barred.verdict, Verdict::is_short);
    EXPECT_LT(barred.chance.value.value(), 0.05);
    const cover::RoleCover& role = barred.roles.at(0);
    EXPECT_TRUE(role.against_rules);
    EXPECT_LE(role.cut_off, role.supply.centre);
    EXPECT_LE(-role.spare, role.needed);
    EXPECT_EQ(with(1, "750 m").verdict, Verdict::covered);
    // Two balls meet in the middle, where none may be joined.
    project.pieces[0].joins.keep_free = {project::RowZone{10, 110}};
    EXPECT_EQ(with(2, "350 m").verdict, Verdict::is_short);
    project.pieces[0].joins.keep_free = {project::RowZone{10, 40}};
    EXPECT_EQ(with(2, "350 m").verdict, Verdict::covered);
    // A ball holds 51 rows, and joins lie 60 apart.
    project.pieces[0].joins.keep_free.clear();
    project.rows_between_joins = 60;
    EXPECT_EQ(with(3, "260 m").verdict, Verdict::is_short);
    project.rows_between_joins = 40;
    EXPECT_EQ(with(3, "260 m").verdict, Verdict::covered);
}

// Nothing but a border in this yarn: a round takes 0.2 x 300 = 60 m, and balls of 90 m hold one.
TEST(FalseCovered, AYarnOfEdgingsAloneIsJoinedBetweenItsRounds) {
    project::Project project = support::rectangle(25, 40);
    for (project::Role& role : project.roles)
        role.rate = units::YarnPerStitch(0.2 * units::metre / units::stitch);
    project.roles.push_back(project.roles[0]);
    project.roles[1].id = "CC1";
    project.roles[0].name = "Kelpie";
    project.roles[1].name = "Selkie";
    project::FinishPart edge;
    edge.kind = project::PartKind::border;
    edge.name = "edge";
    edge.role = "CC1";
    edge.rounds = 2;
    edge.first_round = project::PerSize<std::int64_t>(300);
    project.finish = {edge};
    cover::Rules rules;
    rules.project = project.title;
    const need::MakeNeed need = cover::need_for(project, 0, rules);
    const auto chance_of = [&](const std::string& length) {
        yarn::Yarn selkie = of_label(length, "");
        selkie.name = "Selkie";
        const cover::MakeCover made = cover::cover_make(project, need, skeins(2, selkie), rules);
        return made.roles.at(1);
    };
    EXPECT_EQ(chance_of("90 m").verdict, Verdict::covered);
    EXPECT_TRUE(chance_of("90 m").rows_known);
    project.finish[0].rounds = 3;
    const need::MakeNeed three = cover::need_for(project, 0, rules);
    yarn::Yarn selkie = of_label("110 m", "");
    selkie.name = "Selkie";
    const cover::MakeCover made = cover::cover_make(project, three, skeins(2, selkie), rules);
    EXPECT_NE(made.roles.at(1).verdict, Verdict::covered) << "220 m are one round each, of three";
    EXPECT_GT(made.roles.at(1).anywhere.value.value(), 0.95);
}

}  // namespace
