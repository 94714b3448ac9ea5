// Join plans of middle size against cbc on the arc-flow model.

#include "joins/arc_flow.hpp"

#include <cmath>
#include <cstdint>
#include <random>

#include <gtest/gtest.h>

#include "skeinfall/joins/plan.hpp"

#include "support/joins.hpp"

namespace {

using namespace skeinfall;

TEST(ArcFlow, SolverAndSearchAgree) {
    constexpr unsigned seed = 60'511;
    constexpr int instances = 12;
    std::mt19937 random(seed);
    const auto between = [&](std::int64_t least, std::int64_t most) {
        return least +
               static_cast<std::int64_t>(random() % static_cast<unsigned>(most - least + 1));
    };
    const std::string folder = std::string(SKEINFALL_BINARY_DIR) + "/arc_flow";
    int finished = 0;
    for (int number = 0; number < instances; ++number) {
        SCOPED_TRACE("seed " + std::to_string(seed) + ", instance " + std::to_string(number));
        oracle::ArcFlow problem;
        const std::int64_t rows = between(25, 45);
        std::int64_t total = 0;
        for (std::int64_t row = 0; row < rows; ++row) {
            problem.rows.push_back(between(3, 9));
            total += problem.rows.back();
        }
        problem.distance = between(0, 4);
        project::RowZone zone{between(1, rows), 0};
        zone.last = std::min(rows, zone.first + 12);
        for (std::int64_t row = 1; row <= rows; ++row)
            problem.marks.push_back(row >= zone.first - 1 && row <= zone.last ? 0 : 2);
        const std::int64_t kinds = between(2, 4);
        for (std::int64_t kind = 0; kind < kinds; ++kind)
            problem.classes.push_back({between(total / 8, total / 3), between(1, 3)});

        const auto solved = oracle::solve_with_cbc(problem, folder);
        const support::Work work =
            support::rows_of(std::vector<double>(problem.rows.begin(), problem.rows.end()));
        std::vector<joins::Ball> balls;
        for (std::size_t kind = 0; kind < problem.classes.size(); ++kind)
            for (std::int64_t i = 0; i < problem.classes[kind].count; ++i)
                balls.push_back(support::ball("b" + std::to_string(kind) + std::to_string(i),
                                              static_cast<double>(problem.classes[kind].length)));
        project::Project project;
        project.pieces.emplace_back();
        project.pieces[0].joins.prefer = {zone};
        joins::Rules rules = support::rules_with_tail(0.0);
        rules.where = joins::Where::as_pieces_say;
        rules.rows_between = problem.distance;
        const joins::JoinPlan plan =
            joins::plan_joins(work.need, work.steps, balls, rules, &project);
        ASSERT_EQ(plan.finishes && plan.rules_kept, solved.has_value());
        if (!solved) continue;
        ++finished;
        oracle::FlowCost cost{static_cast<std::int64_t>(plan.stretches.size()), 0, 0};
        for (std::size_t i = 0; i < plan.stretches.size(); ++i) {
            cost.length += std::llround(plan.stretches[i].ball.length.centre / units::metre);
            if (i + 1 < plan.stretches.size())
                cost.marks += problem.marks[plan.stretches[i].to.step - 1];
        }
        EXPECT_EQ(cost, *solved);
    }
    EXPECT_GE(finished, 4);
}

}  // namespace
