#include "skeinfall/joins/plan.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>

namespace skeinfall::joins {
namespace {

using units::Length;
using units::Ratio;

/// Millimetres: fine enough for any yarn, exact when summed.
using Quanta = std::int64_t;

Quanta quanta(Length length) {
    return std::llround(length / units::millimetre);
}
/// Stock goes down, so that no skein ends below nothing.
Quanta rounded_down(Length length) {
    constexpr double noise = 1e-6;
    return static_cast<Quanta>(std::floor(length / units::millimetre + noise));
}
Length length_of(Quanta quanta) {
    return static_cast<double>(quanta) * units::millimetre;
}

/// Skeins alike in length are one class: swapping them changes nothing.
struct BallClass {
    Quanta usable = 0;
    std::vector<std::size_t> balls;  // indices, by id
};

class Planner {
  public:
    Planner(const std::vector<need::Step>& steps, const std::vector<Ball>& balls,
            const Rules& rules)
        : balls_(balls), rules_(rules) {
        sums_.push_back(0);
        Length sum{};
        for (const need::Step& step : steps) {
            sum += step.yarn;
            sums_.push_back(quanta(sum));  // not step by step, or a long piece would drift
        }
        make_classes();
    }

    [[nodiscard]] Quanta total() const { return sums_.back(); }
    [[nodiscard]] Quanta done_after(Quanta from, Quanta usable) const {
        const Quanta reach = std::min(from + usable, total());
        if (rules_.where == Where::anywhere) return reach;
        const auto beyond = std::upper_bound(sums_.begin(), sums_.end(), reach);
        return std::max(from, *std::prev(beyond));
    }

    /// Indices of balls in the best order, ending with the one that finishes.
    [[nodiscard]] std::vector<std::size_t> best_order(bool& proven) const {
        std::size_t states = 1;
        for (const BallClass& one : classes_) {
            if (states > states_at_most / (one.balls.size() + 1)) {
                proven = false;
                return longest_first();
            }
            states *= one.balls.size() + 1;
        }
        return search(states);
    }

    [[nodiscard]] Position position(Quanta at) const {
        const auto next = std::upper_bound(sums_.begin(), sums_.end(), at);
        const auto step = static_cast<std::size_t>(std::distance(sums_.begin(), next)) - 1;
        if (next == sums_.end()) return {sums_.size() - 1, Ratio(0.0)};
        const Quanta into = at - sums_[step];
        return {step, Ratio(static_cast<double>(into) /
                            static_cast<double>(sums_[step + 1] - sums_[step]))};
    }

    [[nodiscard]] Quanta usable(std::size_t ball) const {
        return rounded_down(balls_[ball].length.centre - 2.0 * rules_.tail);
    }

  private:
    void make_classes() {
        std::vector<std::size_t> order;
        for (std::size_t i = 0; i < balls_.size(); ++i)
            if (usable(i) > 0) order.push_back(i);
        std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
            if (usable(a) != usable(b)) return usable(a) > usable(b);
            return balls_[a].id < balls_[b].id;
        });
        for (const std::size_t ball : order) {
            if (classes_.empty() || classes_.back().usable != usable(ball))
                classes_.push_back({usable(ball), {}});
            classes_.back().balls.push_back(ball);
        }
    }

    [[nodiscard]] std::vector<std::size_t> longest_first() const {
        std::vector<std::size_t> order;
        Quanta done = 0;
        for (const BallClass& one : classes_) {
            for (const std::size_t ball : one.balls) {
                if (done >= total()) return order;
                done = done_after(done, one.usable);
                order.push_back(ball);
            }
        }
        return order;
    }

    /// farthest[state]: how far the skeins counted in `state` reach in their best order. Reaching
    /// farther is never worse, so that one number a state is enough.
    [[nodiscard]] std::vector<std::size_t> search(std::size_t states) const {
        std::vector<std::size_t> stride(classes_.size());
        std::size_t next = 1;
        for (std::size_t c = 0; c < classes_.size(); ++c) {
            stride[c] = next;
            next *= classes_[c].balls.size() + 1;
        }
        const auto count_in = [&](std::size_t state, std::size_t c) {
            return state / stride[c] % (classes_[c].balls.size() + 1);
        };
        std::vector<Quanta> farthest(states, 0);
        std::vector<std::uint32_t> last(states, 0);
        std::size_t best = 0;
        std::size_t best_pieces = std::numeric_limits<std::size_t>::max();
        Quanta best_length = std::numeric_limits<Quanta>::max();
        bool finished = false;
        for (std::size_t state = 1; state < states; ++state) {
            std::size_t pieces = 0;
            Quanta length = 0;
            Quanta reach = -1;
            // Shortest class last in the loop wins ties as the final skein: longest go first.
            for (std::size_t c = 0; c < classes_.size(); ++c) {
                const std::size_t count = count_in(state, c);
                if (count == 0) continue;
                pieces += count;
                length += static_cast<Quanta>(count) * classes_[c].usable;
                const Quanta done = done_after(farthest[state - stride[c]], classes_[c].usable);
                if (done >= reach) {
                    reach = done;
                    last[state] = static_cast<std::uint32_t>(c);
                }
            }
            farthest[state] = reach;
            const bool finishes = reach >= total();
            bool better = false;
            if (finishes != finished)
                better = finishes;
            else if (finishes)
                better = pieces < best_pieces || (pieces == best_pieces && length < best_length);
            else
                better =
                    reach > farthest[best] || (reach == farthest[best] && pieces < best_pieces);
            if (better) {
                best = state;
                best_pieces = pieces;
                best_length = length;
                finished = finishes;
            }
        }
        std::vector<std::size_t> order;
        std::vector<std::size_t> used(classes_.size(), 0);
        std::vector<std::size_t> class_order;
        for (std::size_t state = best; state != 0; state -= stride[last[state]])
            class_order.push_back(last[state]);
        std::reverse(class_order.begin(), class_order.end());
        order.reserve(class_order.size());
        for (const std::size_t c : class_order) order.push_back(classes_[c].balls[used[c]++]);
        return order;
    }

    const std::vector<Ball>& balls_;
    const Rules& rules_;
    std::vector<Quanta> sums_;  // yarn used after each step
    std::vector<BallClass> classes_;
};

/// The ends of a role's further runs are cut somewhere in its steps; without knowing where in
/// advance they are shared out evenly, so that the plan's total equals the need.
std::vector<need::Step> steps_of(const need::RoleNeed& role, const std::vector<need::Step>& steps) {
    std::vector<need::Step> own;
    Length body{};
    for (const need::Step& step : steps) {
        if (step.role != role.role || step.yarn.value() <= 0.0) continue;
        own.push_back(step);
        body += step.yarn;
    }
    if (body.value() > 0.0) {
        const double factor = role.length.centre / body;
        for (need::Step& step : own) step.yarn = step.yarn * factor;
    }
    return own;
}

}  // namespace

JoinPlan plan_joins(const need::RoleNeed& role, const std::vector<need::Step>& steps,
                    const std::vector<Ball>& balls, const Rules& rules) {
    JoinPlan plan;
    plan.role = role.role;
    plan.where = rules.where;
    plan.steps = steps_of(role, steps);
    const Planner planner(plan.steps, balls, rules);

    const double z = measure::deviations_for(rules.confidence);
    const double need_relative = role.length.relative();
    Quanta done = 0;
    Length spread{};
    for (const std::size_t ball : planner.best_order(plan.proven)) {
        Stretch stretch;
        stretch.ball = balls[ball];
        stretch.tails = 2.0 * rules.tail;
        const Quanta from = done;
        done = planner.done_after(done, planner.usable(ball));
        stretch.from = planner.position(from);
        stretch.to = planner.position(done);
        stretch.used = length_of(done - from);
        stretch.left = stretch.ball.length.centre - stretch.tails - stretch.used;
        spread = measure::in_quadrature(spread, stretch.ball.length.spread);
        const Length band = z * measure::in_quadrature(spread, length_of(done) * need_relative);
        const auto at = [&](Length where) {
            return planner.position(std::clamp<Quanta>(quanta(where), 0, planner.total())).step;
        };
        stretch.earliest = at(length_of(done) - band);
        stretch.latest = at(length_of(done) + std::max(Length{}, stretch.left) + band);
        plan.stretches.push_back(std::move(stretch));
    }
    plan.finishes = done >= planner.total();
    if (!plan.finishes) plan.missing = length_of(planner.total() - done) + 2.0 * rules.tail;
    return plan;
}

}  // namespace skeinfall::joins
