// Yarn that is set aside is there for its project and for no other.

#include <gtest/gtest.h>

#include "skeinfall/cover/cover.hpp"
#include "skeinfall/report/says.hpp"

namespace skeinfall::cover {
namespace {

stash::Skein ball(const std::string& id) {
    stash::Skein skein;
    skein.id = id;
    skein.yarn.name = "Brook";
    skein.yarn.label = {units::Printed<units::Length>{"100 m", 100.0 * units::metre},
                        units::Printed<units::Mass>{"50 g", 50.0 * units::gram}};
    return skein;
}

RoleCover covered_for(const std::string& project, const std::vector<stash::Skein>& stash) {
    project::Role role;
    role.id = "MC";
    role.one_lot = false;
    Rules rules;
    rules.project = project;
    need::RoleNeed need = need::stated_need(70.0 * units::metre);
    need.role = "MC";
    return cover_role(role, need, stash, rules);
}

TEST(SetAside, OnlyItsProjectFindsIt) {
    std::vector<stash::Skein> stash{ball("a"), ball("b")};
    stash[0].set_aside.emplace_back().project = "Hat";
    const RoleCover other = covered_for("Cowl", stash);
    ASSERT_EQ(other.chosen.size(), 1U);
    EXPECT_EQ(other.chosen[0].id, "b");
    EXPECT_EQ(report::said(every_candidate(other)[0].reason), "set aside for Hat");
    EXPECT_FALSE(every_candidate(other)[0].supply);
    stash.pop_back();
    EXPECT_EQ(covered_for("Cowl", stash).verdict, Verdict::is_short);
    EXPECT_EQ(covered_for("", stash).verdict, Verdict::is_short);
    EXPECT_EQ(covered_for("hat", stash).verdict, Verdict::covered);
    stash[0].set_aside[0].role = "CC1";
    EXPECT_EQ(report::said(every_candidate(covered_for("Hat", stash))[0].reason),
              "set aside for yarn CC1");
}

}  // namespace
}  // namespace skeinfall::cover
