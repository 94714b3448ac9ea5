// Join plans against every order of the skeins, and what holds for every plan.

#include <algorithm>
#include <cstdint>
#include <numeric>
#include <random>

#include <gtest/gtest.h>

#include "skeinfall/joins/plan.hpp"

#include "support/joins.hpp"

namespace {

using namespace skeinfall;
using joins::Where;
using units::metre;

struct Instance {
    std::vector<std::int64_t> rows;   // whole metres
    std::vector<std::int64_t> balls;  // whole metres, tails included
    std::int64_t tails = 0;           // of one ball, whole metres
};

/// How far an order reaches, and with how many balls it gets there.
struct Outcome {
    bool finishes = false;
    std::size_t pieces = 0;
    std::int64_t length = 0;  ///< of the balls used
    std::int64_t reach = 0;
};

Outcome work_in_order(const Instance& instance, const std::vector<std::size_t>& order,
                      Where where) {
    const std::int64_t total =
        std::accumulate(instance.rows.begin(), instance.rows.end(), std::int64_t{0});
    Outcome out;
    std::size_t row = 0;
    for (const std::size_t at : order) {
        std::int64_t usable = instance.balls[at] - instance.tails;
        if (usable <= 0) continue;
        ++out.pieces;
        out.length += instance.balls[at];
        if (where == Where::anywhere) {
            out.reach = std::min(total, out.reach + usable);
        } else {
            while (row < instance.rows.size() && instance.rows[row] <= usable) {
                usable -= instance.rows[row];
                out.reach += instance.rows[row];
                ++row;
            }
        }
        if (out.reach == total) {
            out.finishes = true;
            return out;
        }
    }
    return out;
}

/// The best over all orders: finished, then fewest pieces, then least length; else the farthest.
Outcome best_of_all_orders(const Instance& instance, Where where) {
    std::vector<std::size_t> order(instance.balls.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    Outcome best;
    do {
        const Outcome one = work_in_order(instance, order, where);
        const bool better =
            one.finishes != best.finishes ? one.finishes
            : one.finishes ? std::pair(one.pieces, one.length) < std::pair(best.pieces, best.length)
                           : one.reach > best.reach;
        if (better) best = one;
    } while (std::next_permutation(order.begin(), order.end()));
    return best;
}

class JoinSearch : public ::testing::Test {
  protected:
    static constexpr unsigned seed = 60'120;

    std::int64_t between(std::int64_t least, std::int64_t most) {
        return least +
               static_cast<std::int64_t>(random_() % static_cast<unsigned>(most - least + 1));
    }

    Instance any_instance() {
        Instance out;
        out.tails = 2 * between(0, 1);
        const std::int64_t rows = between(1, 12);
        const bool alike = between(0, 3) == 0;
        const std::int64_t first = between(1, 20);
        const std::int64_t step = between(0, 3);
        for (std::int64_t i = 0; i < rows; ++i)
            out.rows.push_back(alike ? first : first + step * i + between(0, 3));
        const std::int64_t total =
            std::accumulate(out.rows.begin(), out.rows.end(), std::int64_t{0});
        const std::int64_t balls = between(1, 6);
        // Around what is needed, with some balls alike.
        const std::int64_t each = std::max<std::int64_t>(2, total / balls);
        for (std::int64_t i = 0; i < balls; ++i)
            out.balls.push_back(i > 0 && between(0, 3) == 0 ? out.balls.back()
                                                            : between(1, 2 * each + 4));
        return out;
    }

    static joins::JoinPlan plan(const Instance& instance, Where where, double spread = 0.0) {
        std::vector<double> rows(instance.rows.begin(), instance.rows.end());
        support::Work work = support::rows_of(rows);
        work.need.length.spread = work.need.length.centre * spread;
        std::vector<joins::Ball> balls;
        for (std::size_t i = 0; i < instance.balls.size(); ++i) {
            const auto length = static_cast<double>(instance.balls[i]);
            balls.push_back(support::ball("b" + std::to_string(i), length, length * spread));
        }
        joins::Rules rules = support::rules_with_tail(static_cast<double>(instance.tails) / 2.0);
        rules.where = where;
        return joins::plan_joins(work.need, work.steps, balls, rules);
    }

    std::mt19937 random_{seed};
};

TEST_F(JoinSearch, AsGoodAsEveryOrder) {
    int finished = 0;
    int stuck = 0;
    for (int number = 0; number < 1000; ++number) {
        const Instance instance = any_instance();
        for (const Where where : {Where::row_ends, Where::anywhere}) {
            SCOPED_TRACE("seed " + std::to_string(seed) + ", instance " + std::to_string(number));
            const Outcome best = best_of_all_orders(instance, where);
            const joins::JoinPlan found = plan(instance, where);
            ASSERT_TRUE(found.proven);
            ASSERT_EQ(found.finishes, best.finishes);
            double length = 0.0;
            double reach = 0.0;
            for (const joins::Stretch& stretch : found.stretches) {
                length += stretch.ball.length.centre / metre;
                reach += stretch.used / metre;
            }
            if (best.finishes) {
                ++finished;
                ASSERT_EQ(found.stretches.size(), best.pieces);
                ASSERT_NEAR(length, static_cast<double>(best.length), 1e-9);
            } else {
                ++stuck;
                ASSERT_NEAR(reach, static_cast<double>(best.reach), 1e-9);
                const std::int64_t total =
                    std::accumulate(instance.rows.begin(), instance.rows.end(), std::int64_t{0});
                ASSERT_NEAR(found.missing / metre,
                            static_cast<double>(total - best.reach + instance.tails), 1e-9);
            }
        }
    }
    EXPECT_GT(finished, 500);
    EXPECT_GT(stuck, 300);
}

TEST_F(JoinSearch, EveryPlanHoldsTogether) {
    for (int number = 0; number < 500; ++number) {
        const Instance instance = any_instance();
        for (const Where where : {Where::row_ends, Where::anywhere}) {
            SCOPED_TRACE("seed " + std::to_string(seed) + ", instance " + std::to_string(number));
            const joins::JoinPlan found = plan(instance, where, 0.05);
            joins::Position at;
            for (const joins::Stretch& stretch : found.stretches) {
                ASSERT_NEAR((stretch.used + stretch.tails + stretch.left) / metre,
                            stretch.ball.length.centre / metre, 1e-9)
                    << "used + tails + left = skein";
                ASSERT_GE(stretch.used, units::Length{});
                ASSERT_GE(stretch.left / metre, -1e-9);
                ASSERT_EQ(stretch.from.step, at.step) << "each begins where the last one ended";
                ASSERT_EQ(stretch.from.share.value(), at.share.value());
                if (where == Where::row_ends) {
                    ASSERT_EQ(stretch.to.share.value(), 0.0);
                }
                ASSERT_LE(stretch.earliest, stretch.to.step);
                ASSERT_LE(stretch.to.step, stretch.latest);
                ASSERT_LE(stretch.latest, found.steps.size());
                at = stretch.to;
            }
            if (found.finishes) {
                ASSERT_EQ(at.step, found.steps.size());
            }
        }
    }
}

}  // namespace
