#include "skeinfall/colours/each.hpp"

#include <cstdint>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/plan/make_plan.hpp"

#include "support/builders.hpp"

namespace {

using namespace skeinfall;
using namespace skeinfall::colours;

/// Squares of 10 rows, 10 m each, in any of three colours.
project::Project squares(std::int64_t count) {
    project::Project out = support::rectangle(20, 10);
    out.title = "Mudlark squares";
    out.roles.clear();
    for (const char* id : {"A", "B", "C"}) {
        project::Role role = support::role(id);
        role.name = "Fleet";
        role.colour = std::string("colour ") + id;
        role.grist = support::grist("200 m / 100 g");
        role.rate = 0.05 * units::metre / units::stitch;
        out.roles.push_back(std::move(role));
    }
    out.pieces.front().role = "A";
    out.pieces.front().name = "square";
    out.pieces.front().count = project::PerSize<std::int64_t>(count);
    return out;
}

stash::Skein skein(const std::string& id, const std::string& colour, double metres) {
    stash::Skein out = support::whole(
        id, support::yarn_of("Fleet", support::metres(metres), support::grams(metres / 2.0)), "7");
    out.colourway = "colour " + colour;
    return out;
}

TEST(CountEach, EveryColourAsOftenAsItsYarnAllows) {
    const project::Project project = squares(12);
    const std::vector<stash::Skein> stash{skein("a", "A", 95.0), skein("b", "B", 48.0)};
    cover::Rules rules;
    rules.project = project.title;
    const EachColour each = count_each(project, 0, 0, stash, rules);
    ASSERT_EQ(each.colours.size(), 3u);
    EXPECT_EQ(each.colours[2].count, 0);
    EXPECT_EQ(each.together, each.colours[0].count + each.colours[1].count);
    // A piece for each colour is covered as a whole, and one copy more is not.
    const auto verdict_with = [&](std::int64_t of_a, std::int64_t of_b) {
        project::Project made = project;
        made.pieces.push_back(made.pieces.front());
        made.pieces[0].count = project::PerSize<std::int64_t>(of_a);
        made.pieces[1].name = "square in B";
        made.pieces[1].role = "B";
        made.pieces[1].count = project::PerSize<std::int64_t>(of_b);
        return plan::plan_make(made, 0, stash, rules, {}).cover.verdict;
    };
    const std::int64_t a = each.colours[0].count;
    const std::int64_t b = each.colours[1].count;
    EXPECT_GE(a, 5);
    EXPECT_LE(a, 9);
    EXPECT_EQ(verdict_with(a, b), cover::Verdict::covered);
    EXPECT_NE(verdict_with(a + 2, b), cover::Verdict::covered);
}

TEST(CountEach, RefusesAPieceInStripes) {
    project::Project project = squares(12);
    project.pieces.front().stripes = {{"A", 2}, {"B", 2}};
    EXPECT_THROW(static_cast<void>(count_each(project, 0, 0, {}, {})), base::InputError);
}

}  // namespace
