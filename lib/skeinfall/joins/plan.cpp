#include "skeinfall/joins/plan.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "skeinfall/base/text.hpp"
#include "skeinfall/joins/detail/search.hpp"

namespace skeinfall::joins {
namespace {

using units::Length;
using units::Ratio;

Quanta wrapped(Quanta value, Quanta repeat) {
    const Quanta rest = value % repeat;
    return rest < 0 ? rest + repeat : rest;
}

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

class Planner {
  public:
    Planner(const need::RoleNeed& role, const std::vector<need::Step>& steps,
            const std::vector<Ball>& balls, const Rules& rules, const project::Project* project)
        : role_(role), balls_(balls), rules_(rules), project_(project) {
        plan_.role = role.role;
        plan_.where = rules.where;
        plan_.steps = steps_of(role, steps);
        extra_ = std::max<Quanta>(0, to_nearest(rules.end_tail.value_or(rules.tail) - rules.tail));
        repeat_ = to_nearest(rules.colour_repeat);
        make_classes();
    }

    JoinPlan run() {
        const Line line = lay(false, true);
        const bool phased = wound_off_function() != nullptr;
        const bool placed =
            rules_.rows_between > 0 || !rules_.keep_away.empty() || phased || !line.plain();
        Order order;
        if (!placed) {
            order = farthest_order(line, classes_);
        } else {
            order = placed_order(lay(true, true), classes_, distances(line));
            // Places inside rows were taken in eighths: a finer place could save a skein.
            if (order.finishes && !line.open().empty() && states_of(classes_) <= states_at_most) {
                const Order freely = farthest_order(line, classes_);
                if (cost(freely) < cost(order)) order.proven = false;
            }
        }
        plan_.pieces_at_least = pieces_at_least(line, classes_);
        if (!order.finishes) try_without_rules(order);
        fill(order, plan_.rules_kept ? line : lay(false, false));
        return std::move(plan_);
    }

  private:
    [[nodiscard]] Line lay(bool grid, bool keep_zones) const {
        return {project_, plan_.steps, rules_, extra_, grid, keep_zones};
    }

    [[nodiscard]] Length tails(const Ball& ball) const {
        return 2.0 * (1 + ball.knots) * rules_.tail;
    }

    [[nodiscard]] Quanta usable(std::size_t at) const {
        const Ball& ball = balls_[at];
        const Length rest = ball.length.centre - tails(ball);
        if (!rules_.sure_lengths) return rounded_down(rest);
        return rounded_down(
            sure_length({rest, measure::in_quadrature(ball.length.spread, ball.shared)},
                        role_.length.relative(), rules_.confidence));
    }

    [[nodiscard]] bool in_phase(const Ball& ball) const { return repeat_ > 0 && ball.phase; }

    void make_classes() {
        std::vector<std::size_t> order;
        for (std::size_t i = 0; i < balls_.size(); ++i)
            if (usable(i) > 0) order.push_back(i);
        const auto phase = [&](std::size_t i) {
            return in_phase(balls_[i]) ? wrapped(to_nearest(*balls_[i].phase), repeat_) : -1;
        };
        std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
            const auto one = std::tuple(-usable(a), phase(a));
            const auto other = std::tuple(-usable(b), phase(b));
            if (one != other) return one < other;
            const std::string& id = balls_[a].id;
            return id == balls_[b].id ? a < b : base::naturally_before(id, balls_[b].id);
        });
        for (const std::size_t ball : order) {
            if (classes_.empty() || classes_.back().usable != usable(ball) ||
                phases_.back() != phase(ball)) {
                classes_.push_back({usable(ball), {}});
                phases_.push_back(phase(ball));
            }
            classes_.back().balls.push_back(ball);
        }
    }

    /// The colours go on from those with which the first skein of the list begins. A skein whose
    /// phase is not known loses half a repeat on average, unless it holds no whole one.
    [[nodiscard]] std::function<Quanta(std::size_t, Quanta)> wound_off_function() const {
        if (repeat_ == 0 || balls_.size() < 2) return nullptr;
        const auto first =
            std::find_if(balls_.begin(), balls_.end(), [&](const Ball& b) { return in_phase(b); });
        const Quanta begin = first == balls_.end() ? 0 : to_nearest(*first->phase);
        return [this, begin](std::size_t kind, Quanta at) -> Quanta {
            if (phases_[kind] < 0)
                return at == 0 || repeat_ > classes_[kind].usable ? 0 : repeat_ / 2;
            return wrapped(begin + at - phases_[kind], repeat_);
        };
    }

    [[nodiscard]] Distances distances(const Line& line) const {
        Distances out;
        out.rows = static_cast<double>(rules_.rows_between);
        for (const Position& other : rules_.keep_away) {
            if (other.step >= plan_.steps.size()) continue;
            // A place between two steps belongs to the step before it, as spots have it.
            const bool inside = other.share.value() > 0.0;
            const std::size_t step = inside || other.step == 0 ? other.step : other.step - 1;
            const double rows = static_cast<double>(plan_.steps[step].row) -
                                (inside ? 1.0 - other.share.value() : 0.0);
            out.keep_away.push_back({0, line.block_of(step), rows, 0, -1, step});
        }
        out.wound_off = wound_off_function();
        return out;
    }

    [[nodiscard]] Length plan_length() const {
        Length sum{};
        for (const need::Step& step : plan_.steps) sum += step.yarn;
        return sum;
    }

    [[nodiscard]] std::pair<std::size_t, Quanta> cost(const Order& order) const {
        Quanta length = 0;
        for (const Leg& leg : order.legs) length += classes_[leg.kind].usable;
        return {order.legs.size(), length};
    }

    /// Nothing keeps all rules: the best plan without distances and zones, if one finishes.
    void try_without_rules(Order& order) {
        const bool zones =
            project_ != nullptr &&
            std::any_of(project_->pieces.begin(), project_->pieces.end(),
                        [](const project::Piece& p) { return !p.joins.keep_free.empty(); });
        if (rules_.rows_between == 0 && rules_.keep_away.empty() && !zones) return;
        Distances distances;
        distances.wound_off = wound_off_function();
        Order freely = placed_order(lay(true, false), classes_, distances);
        if (!freely.finishes) return;
        plan_.rules_kept = false;
        plan_.unworked_by_rules =
            plan_length() - (order.legs.empty() ? Length{} : length_of(order.legs.back().to));
        order = std::move(freely);
    }

    void fill(const Order& order, const Line& line) {
        const double z = measure::deviations_for(rules_.confidence);
        const double need_relative = role_.length.relative();
        const auto wound_off = wound_off_function();
        std::vector<std::size_t> taken(classes_.size(), 0);
        Quanta done = 0;
        Length spread{};
        Length shared{};
        for (std::size_t i = 0; i < order.legs.size(); ++i) {
            const Leg& leg = order.legs[i];
            Stretch stretch;
            stretch.ball = balls_[classes_[leg.kind].balls[taken[leg.kind]++]];
            if (wound_off) stretch.wound_off = length_of(wound_off(leg.kind, done));
            const Quanta from = done;
            done = leg.to;
            stretch.from = line.position(from);
            stretch.to = line.position(done);
            const Quanta extra = (i == 0 ? extra_ : 0) + (done >= line.total() ? extra_ : 0);
            stretch.used = length_of(done - from - extra);
            stretch.tails = tails(stretch.ball) + length_of(extra);
            stretch.left = std::max(Length{}, stretch.ball.length.centre - stretch.tails -
                                                  stretch.used - stretch.wound_off);
            spread = measure::in_quadrature(spread, stretch.ball.length.spread);
            shared += stretch.ball.shared;
            const Length band = z * measure::in_quadrature(measure::in_quadrature(spread, shared),
                                                           length_of(done) * need_relative);
            const Length runs_out = length_of(done) + std::max(Length{}, stretch.left);
            const auto at = [&](Length where) {
                const Quanta clamped = std::clamp<Quanta>(rounded_down(where), 0, line.total());
                return line.position(line.farthest(0, clamped)).step;
            };
            stretch.earliest = std::min(at(runs_out - band), stretch.to.step);
            // A skein that ends inside a row is over, at the latest, once that row is done.
            stretch.latest = std::max(at(runs_out + band),
                                      stretch.to.step + (stretch.to.share.value() > 0.0 ? 1 : 0));
            plan_.stretches.push_back(std::move(stretch));
        }
        plan_.proven = order.proven;
        plan_.finishes = done >= line.total();
        if (!plan_.stretches.empty())
            judge(line, {length_of(done) + plan_.stretches.back().left, spread}, shared, taken);
        if (!plan_.finishes) plan_.missing = length_of(line.total() - done) + 2.0 * rules_.tail;
    }

    /// The chance that the yarn reaches the end. Before a spare is joined as much may be cut off as
    /// lies between two places.
    void judge(const Line& line, measure::Estimate<Length> reach, Length shared,
               const std::vector<std::size_t>& taken) {
        const Length total = length_of(line.total());
        const measure::Estimate<Length> need{total, total * role_.length.relative()};
        const auto chance = [&] {
            return measure::chance_enough(
                {reach.centre, measure::in_quadrature(reach.spread, shared)}, need);
        };
        plan_.lasts = chance();
        if (!plan_.finishes) return;
        const Quanta apart = line.farthest_apart(line.after(plan_.stretches.back().earliest));
        const Length lost = length_of(apart + (wound_off_function() ? repeat_ : 0));
        const double all_but_sure = 1.0 - (1.0 - rules_.confidence.value.value()) / 10.0;
        measure::Chance lasts = plan_.lasts;
        for (std::size_t kind = 0; kind < classes_.size(); ++kind)
            for (std::size_t i = taken[kind]; i < classes_[kind].balls.size(); ++i) {
                const Ball& ball = balls_[classes_[kind].balls[i]];
                const Length more = ball.length.centre - tails(ball) - lost;
                if (lasts.value.value() >= all_but_sure || more <= Length{}) return;
                reach.centre += more;
                reach.spread = measure::in_quadrature(reach.spread, ball.length.spread);
                shared += ball.shared;
                lasts = chance();
                plan_.spares.push_back({ball, lasts});
            }
    }

    const need::RoleNeed& role_;
    const std::vector<Ball>& balls_;
    const Rules& rules_;
    const project::Project* project_;
    JoinPlan plan_;
    Quanta extra_ = 0;
    Quanta repeat_ = 0;
    std::vector<BallClass> classes_;
    std::vector<Quanta> phases_;  // of each class; -1 when it has none
};

}  // namespace

Length sure_length(const measure::Estimate<Length>& usable, Ratio rate_relative,
                   measure::Chance confidence) {
    const double z = measure::deviations_for(confidence);
    const double rate = z * rate_relative.value();
    const double q = 1.0 - rate * rate;
    const double length = usable.centre.value();
    const double own = z * usable.spread.value();
    // With a rate this uncertain no length is sure.
    if (q <= 0.0 || length <= own) return Length{};
    const double root = length * length - q * (length * length - own * own);
    return std::max(0.0, (length - std::sqrt(std::max(0.0, root))) / q) * units::metre;
}

measure::Chance chance_of(const JoinPlan& plan) {
    return plan.spares.empty() ? plan.lasts : plan.spares.back().lasts;
}

std::vector<need::Step> steps_beside(const need::RoleNeed& role, const std::string& other,
                                     const std::vector<need::Step>& steps) {
    std::vector<need::Step> out;
    Length sum{};
    for (const need::Step& step : steps)
        if (step.role == other && step.yarn.value() > 0.0 &&
            (step.purpose == need::Purpose::body || step.purpose == need::Purpose::foundation ||
             step.purpose == need::Purpose::bind_off)) {
            out.push_back(step);
            sum += step.yarn;
        }
    for (need::Step& step : out) {
        step.role = role.role;
        step.yarn = step.yarn * (role.length.centre / sum);
    }
    return out;
}

JoinPlan plan_joins(const need::RoleNeed& role, const std::vector<need::Step>& steps,
                    const std::vector<Ball>& balls, const Rules& rules,
                    const project::Project* project) {
    return Planner(role, steps, balls, rules, project).run();
}

}  // namespace skeinfall::joins
