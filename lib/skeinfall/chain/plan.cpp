#include "skeinfall/chain/plan.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <tuple>

#include "skeinfall/base/text.hpp"
#include "skeinfall/chain/detail/search.hpp"

namespace skeinfall::chain {
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

Length longest_row_of(const std::vector<need::Step>& own) {
    Length row{};
    for (const need::Step& step : own)
        if (step.purpose == need::Purpose::body) row = std::max(row, step.yarn);
    return row;
}

/// What the slip wants on the scale beyond the expected yarn of the longest row: its spread at the
/// confidence, and so many steps of the scale: it rounds up.
Length slack_of(const need::RoleNeed& role, Length row, const Rules& rules, double steps) {
    if (rules.where == Where::anywhere) return {};
    const double u = std::hypot(role.length.relative().value(), need::usual::row_to_row.value());
    const Length scale = role.grist ? steps * rules.scale_step * *role.grist : Length{};
    return measure::deviations_for(rules.confidence).value() * u * row + scale;
}

constexpr double all_but_surely = 3.72;  // deviations that one in ten thousand is beyond

class Planner {
  public:
    Planner(const need::RoleNeed& role, const std::vector<need::Step>& steps,
            const std::vector<Ball>& balls, const Rules& rules, const project::Project* project)
        : role_(role), steps_(steps), balls_(balls), rules_(rules), project_(project) {
        plan_.role = role.role;
        plan_.where = rules.where;
        plan_.steps = steps_of(role, steps);
        longest_row_ = longest_row_of(plan_.steps);
        extra_ = std::max<Quanta>(0, to_nearest(rules.end_tail.value_or(rules.tail) - rules.tail));
        repeat_ = to_nearest(rules.colour_repeat);
        rows_open_ = lay(false, true).rows_open(plan_.steps);
        if (rules.keep_to_slip) slack_ = rounded_down(slip_slack(1.0));
        make_classes();
    }

    /// Nothing finishes it: how far all of it goes, to the last row that can be tried.
    [[nodiscard]] Order as_far_as_it_goes(const Line& line) {
        slack_ = 0;
        make_classes();
        return ordered(line);
    }

    /// Whether all rows would be done by one who tries those that the slip forbids.
    [[nodiscard]] bool finishes_against_slip() const {
        Rules freely = rules_;
        freely.keep_to_slip = false;
        Planner other(role_, steps_, balls_, freely, project_);
        Order order = other.ordered(other.lay(false, true));
        if (!order.finishes) other.try_without_rules(order);
        return order.finishes;
    }

    JoinPlan run() {
        const Line line = lay(false, true);
        Order order = ordered(line);
        if (!order.finishes && slack_ > 0 && !rules_.sure_lengths) {
            // There is no skein to join after the last: it is used up whatever the slip wants.
            for (BallClass& one : classes_) one.kept = slack_;
            order = ordered(line);
        }
        plan_.pieces_at_least = pieces_at_least(line, classes_);
        if (!order.finishes) try_without_rules(order);
        if (!order.finishes && slack_ > 0) {
            plan_.against_slip = finishes_against_slip();
            if (!plan_.against_slip) order = as_far_as_it_goes(line);
        }
        fill(order, plan_.rules_kept ? line : lay(false, false));
        return std::move(plan_);
    }

  private:
    [[nodiscard]] Order ordered(const Line& line) const {
        const bool phased = wound_off_function() != nullptr;
        if (rules_.rows_between == 0 && rules_.keep_away.empty() && !phased && line.plain())
            return farthest_order(line, classes_, first_);
        Order order = placed_order(lay(true, true), classes_, distances(line), first_);
        const bool wishes_alone = rules_.rows_between == 0 && rules_.keep_away.empty() && !phased;
        if (!order.finishes && wishes_alone && !line.open().empty())
            return farthest_order(line, classes_, first_);
        // Places inside rows were taken in eighths: a finer place could save a skein.
        if (order.finishes && !line.open().empty() && states_of(classes_) <= states_at_most) {
            const Order freely = farthest_order(line, classes_, first_);
            if (cost(freely) < cost(order)) order.proven = false;
        }
        return order;
    }

    [[nodiscard]] Length slip_slack(double steps) const {
        return rows_open_ ? Length{} : slack_of(role_, longest_row_, rules_, steps);
    }

    [[nodiscard]] Line lay(bool grid, bool keep_zones) const {
        return {project_, plan_.steps, rules_, extra_, grid, keep_zones};
    }

    [[nodiscard]] Length tails(const Ball& ball) const {
        return 2.0 * (1 + ball.knots) * rules_.tail;
    }

    [[nodiscard]] Quanta usable(std::size_t at) const {
        const Ball& ball = balls_[at];
        const Length rest = ball.length.centre - tails(ball);
        if (!rules_.sure_lengths) return rounded_down(rest) - slack_;
        return rounded_down(
            sure_length({rest, measure::in_quadrature(ball.length.spread, ball.shared)},
                        role_.length.relative(), rules_.confidence));
    }

    /// As the law sees a skein. A knot is cut out and joined anew, up to a link away; a yarn whose
    /// colours go on in order is wound off by up to a repeat.
    [[nodiscard]] Strand strand_of(const Ball& ball, Length link, std::optional<Length> wound_off,
                                   Length slack) const {
        constexpr double rectangular = 1.0 / 12.0;  // variance of a place anywhere in a length
        Strand strand{ball.length.centre - tails(ball) - slack, ball.length.spread, ball.shared};
        double variance = strand.own.value() * strand.own.value();
        const auto lose = [&](Length up_to, Length expected) {
            strand.usable -= expected;
            variance += rectangular * up_to.value() * up_to.value();
        };
        for (int knot = 0; knot < ball.knots; ++knot) lose(link, link / 2.0);
        if (wound_off) lose(length_of(repeat_), *wound_off);
        strand.own = std::sqrt(variance) * units::metre;
        strand.usable = std::max(Length{}, strand.usable);
        return strand;
    }

    [[nodiscard]] bool in_phase(const Ball& ball) const { return repeat_ > 0 && ball.phase; }

    void make_classes() {
        classes_.clear();
        phases_.clear();
        first_.reset();
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
            const bool in_hand = !rules_.first.empty() && balls_[ball].id == rules_.first;
            const bool after_it = first_ && *first_ + 1 == classes_.size();
            if (classes_.empty() || in_hand || after_it || classes_.back().usable != usable(ball) ||
                phases_.back() != phase(ball)) {
                classes_.push_back({usable(ball), {}});
                phases_.push_back(phase(ball));
            }
            classes_.back().balls.push_back(ball);
            if (in_hand) first_ = classes_.size() - 1;
        }
    }

    /// The colours go on from those with which the first skein of the list begins. A skein whose
    /// phase is not known loses half a repeat on average, unless it holds no whole one.
    [[nodiscard]] std::function<Quanta(std::size_t, Quanta)> wound_off_function() const {
        if (repeat_ == 0 || balls_.size() < 2) return nullptr;
        auto first =
            std::find_if(balls_.begin(), balls_.end(), [&](const Ball& b) { return in_phase(b); });
        for (auto ball = first; ball != balls_.end(); ++ball)
            if (in_phase(*ball) && ball->id == rules_.first) first = ball;
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

    /// Distances or zones.
    [[nodiscard]] bool has_rules() const {
        const bool zones =
            project_ != nullptr &&
            std::any_of(project_->pieces.begin(), project_->pieces.end(),
                        [](const project::Piece& p) { return !p.joins.keep_free.empty(); });
        return rules_.rows_between > 0 || !rules_.keep_away.empty() || zones;
    }

    /// Nothing keeps all rules: the best plan without distances and zones, if one finishes.
    void try_without_rules(Order& order) {
        if (rules_.keep_rules || !has_rules()) return;
        Distances distances;
        distances.wound_off = wound_off_function();
        Order freely = placed_order(lay(true, false), classes_, distances, first_);
        if (!freely.finishes) return;
        plan_.rules_kept = false;
        plan_.unworked_by_rules =
            plan_length() - (order.legs.empty() ? Length{} : length_of(order.legs.back().to));
        order = std::move(freely);
    }

    void fill(const Order& order, const Line& line) {
        const auto wound_off = wound_off_function();
        std::vector<std::size_t> taken(classes_.size(), 0);
        Quanta done = 0;
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
            plan_.stretches.push_back(std::move(stretch));
        }
        plan_.proven = order.proven;
        plan_.finishes = done >= line.total();
        if (!plan_.finishes) plan_.missing = length_of(line.total() - done) + 2.0 * rules_.tail;
        if (!plan_.stretches.empty()) judge(line, taken);
    }

    /// Skeins that the plan leaves over, the longest first.
    [[nodiscard]] std::vector<const Ball*> left_over(const std::vector<std::size_t>& taken) const {
        std::vector<const Ball*> out;
        for (std::size_t kind = 0; kind < classes_.size(); ++kind)
            for (std::size_t i = taken[kind]; i < classes_[kind].balls.size(); ++i)
                out.push_back(&balls_[classes_[kind].balls[i]]);
        return out;
    }

    /// Chances, reaches and spares by the law of the chain: the planned skeins, then those left
    /// over until it is all but sure.
    void judge(const Line& line, const std::vector<std::size_t>& taken) {
        const double all_but_sure = 1.0 - (1.0 - rules_.confidence.value.value()) / 10.0;
        const Line::Links chain = line.links(need::usual::row_to_row);
        const Length link = line.mean_link(chain);
        const std::size_t planned = plan_.stretches.size();
        std::vector<const Ball*> balls;
        std::vector<Strand> strands;
        std::vector<Strand> slipped;
        const auto add = [&](const Ball& ball, std::optional<Length> wound_off) {
            balls.push_back(&ball);
            strands.push_back(strand_of(ball, link, wound_off, Length{}));
            slipped.push_back(strand_of(ball, link, wound_off, slip_slack(0.5)));  // on average
        };
        const bool winds = wound_off_function() != nullptr;
        for (const Stretch& stretch : plan_.stretches)
            add(stretch.ball, winds && balls.size() > 0 ? std::optional<Length>(stretch.wound_off)
                                                        : std::nullopt);
        std::vector<Reach> reaches = reaches_of(line, chain, strands, planned - 1);
        plan_.lasts = reaches[planned - 1].done;
        const bool distances = rules_.rows_between > 0 || !rules_.keep_away.empty();
        if (plan_.rules_kept && !plan_.finishes && distances)
            plan_.lasts = std::min(plan_.lasts, lasts_from_last_place(line, strands.back()));
        // A skein may end sooner than planned even where all of them are expected to do.
        std::vector<const Ball*> spare = left_over(taken);
        const bool may_finish = plan_.finishes || plan_.against_slip;
        for (std::size_t at = 0; may_finish && at < spare.size();) {
            if (reaches.back().done.value.value() >= all_but_sure) break;
            const std::size_t more = std::min(spare.size(), at + std::max<std::size_t>(2, at));
            for (; at < more; ++at)
                add(*spare[at],
                    winds ? std::optional<Length>(length_of(repeat_) / 2.0) : std::nullopt);
            reaches = reaches_of(line, chain, strands, planned - 1);
            for (std::size_t k = planned + plan_.spares.size(); k < reaches.size(); ++k) {
                const measure::Chance before = reaches[k - 1].done;
                if (before.value.value() >= all_but_sure) break;
                plan_.spares.push_back({*balls[k], reaches[k].done});
            }
        }
        // The last ones may be too short to be of use.
        constexpr double of_use = 0.005;
        while (!plan_.spares.empty()) {
            const std::size_t last = plan_.spares.size() - 1;
            const measure::Chance before = last == 0 ? plan_.lasts : plan_.spares[last - 1].lasts;
            if (plan_.spares[last].lasts.value.value() - before.value.value() >= of_use) break;
            plan_.spares.pop_back();
        }
        if (rules_.only_chance) return;
        slipped.resize(planned + plan_.spares.size());
        // What lies in the last skein is used to the end: the slip asks for the rest there.
        slipped.back().usable = strands[slipped.size() - 1].usable;
        plan_.by_slip = reaches_of(line, chain, slipped, planned - 1).back().done;
        set_reaches(line, chain, reaches, strands);
    }

    /// That the last skein does all from where the rules let it begin. The law knows of zones
    /// alone, not of distances.
    [[nodiscard]] measure::Chance lasts_from_last_place(const Line& line,
                                                        const Strand& last) const {
        Length rest = length_of(line.total());
        for (std::size_t i = 0; i + 1 < plan_.stretches.size(); ++i)
            rest -= plan_.stretches[i].used;
        const Length own = measure::in_quadrature(last.own, last.shared);
        return measure::chance_enough({last.usable, own},
                                      {rest, rest * role_.length.relative().value()});
    }

    /// After each skein, how far it reaches. Before the first join, and joined anywhere, nothing is
    /// lost, and sums are exact. Where skeins hold many links the loss at a join lies anywhere in a
    /// link, and sums do as well: the law would only take longer. Whether all is done is only asked
    /// from skein `judged` on.
    [[nodiscard]] std::vector<Reach> reaches_of(const Line& line, const Line::Links& chain,
                                                const std::vector<Strand>& strands,
                                                std::size_t judged) const {
        constexpr double many_links = 20.0;
        const Length total = length_of(line.total());
        const Length link = line.all_open() ? Length{} : line.mean_link(chain);
        const bool by_sums =
            line.all_open() || strands.size() < 2 ||
            (strands.back().usable > 2.0 * link &&
             std::all_of(strands.begin(), strands.end() - 1,
                         [&](const Strand& strand) { return strand.usable > many_links * link; }));
        std::vector<Reach> out;
        measure::Estimate<Length> reach;
        Length shared{};
        for (std::size_t k = 0; k < strands.size(); ++k) {
            constexpr double rectangular = 0.2887;  // 1 / sqrt 12
            reach.centre += strands[k].usable - (k > 0 ? link / 2.0 : Length{});
            reach.spread = measure::in_quadrature(reach.spread, strands[k].own);
            if (k > 0) reach.spread = measure::in_quadrature(reach.spread, link * rectangular);
            shared += strands[k].shared;
            const measure::Estimate<Length> have{reach.centre,
                                                 measure::in_quadrature(reach.spread, shared)};
            out.push_back(links_within(chain, have));
            if (k >= judged)
                out.back().done =
                    measure::chance_enough(have, {total, total * role_.length.relative().value()});
        }
        if (by_sums) return out;
        const Law law = law_of(chain.links, strands, role_.length.relative(), rules_.confidence);
        for (std::size_t k = 1; k < strands.size(); ++k) out[k] = law.reaches[k];
        out[0].safe = law.reaches[0].safe;
        out[0].likely = law.reaches[0].likely;
        out[0].latest = law.reaches[0].latest;
        for (std::size_t k = 0; k < strands.size(); ++k) {
            out[k].first = law.reaches[k].first;
            out[k].last = law.reaches[k].last;
        }
        return out;
    }

    /// Links that so much yarn does, by a normal law.
    [[nodiscard]] Reach links_within(const Line::Links& chain,
                                     const measure::Estimate<Length>& have) const {
        const double z = measure::deviations_for(rules_.confidence);
        const auto links = [&](double deviations) {
            const Length band =
                deviations *
                measure::in_quadrature(have.spread, have.centre * role_.length.relative().value());
            const auto beyond = std::upper_bound(chain.ends.begin(), chain.ends.end(),
                                                 rounded_down(have.centre + band));
            return static_cast<std::size_t>(std::distance(chain.ends.begin(), beyond));
        };
        return {links(-z), links(0.0), links(z), links(-all_but_surely), links(all_but_surely), {}};
    }

    void set_reaches(const Line& line, const Line::Links& chain, const std::vector<Reach>& reaches,
                     const std::vector<Strand>& strands) {
        const auto step = [&](std::size_t links) {
            return links == 0 ? std::size_t{0} : line.position(chain.ends[links - 1]).step;
        };
        std::size_t begun = 0;  // all but surely not sooner
        std::size_t begun_last = 0;
        for (std::size_t i = 0; i < plan_.stretches.size(); ++i) {
            Stretch& stretch = plan_.stretches[i];
            stretch.earliest = std::min(step(reaches[i].safe), stretch.to.step);
            // A skein that ends inside a row is over, at the latest, once that row is done.
            stretch.latest = std::max(step(reaches[i].latest),
                                      stretch.to.step + (stretch.to.share.value() > 0.0 ? 1 : 0));
            // Rows may be wider where it begins sooner, or later.
            stretch.weigh_after =
                std::min({done_alone(begun, strands[i]), done_alone(stretch.from.step, strands[i]),
                          done_alone(begun_last, strands[i])});
            stretch.weigh_from = std::min(
                std::max(begun + stretch.weigh_after, step(reaches[i].first)), stretch.earliest);
            stretch.weigh_to = std::max(step(reaches[i].last), stretch.latest);
            begun = std::min(step(reaches[i].first), stretch.to.step);
            begun_last = std::min(stretch.weigh_to, plan_.steps.size() - 1);
        }
    }

    /// Steps from one on that a skein all but surely does.
    [[nodiscard]] std::size_t done_alone(std::size_t from, const Strand& strand) const {
        const double own = std::hypot(strand.own.value(), strand.shared.value());
        Length sum{};
        double squares = 0.0;
        for (std::size_t i = from; i < plan_.steps.size(); ++i) {
            sum += plan_.steps[i].yarn;
            const double row = need::usual::row_to_row.value() * plan_.steps[i].yarn.value();
            squares += row * row;
            const double common = role_.length.relative().value() * sum.value();
            const double spread = std::sqrt(own * own + squares + common * common);
            if (sum.value() + all_but_surely * spread > strand.usable.value()) return i - from;
        }
        return plan_.steps.size();  // to the end, whatever may come
    }

    const need::RoleNeed& role_;
    const std::vector<need::Step>& steps_;
    const std::vector<Ball>& balls_;
    const Rules& rules_;
    const project::Project* project_;
    JoinPlan plan_;
    Quanta extra_ = 0;
    Quanta repeat_ = 0;
    Length longest_row_{};
    bool rows_open_ = false;  // within a row that may be joined anywhere no slip stops anybody
    Quanta slack_ = 0;        // what the slip keeps in hand
    std::vector<BallClass> classes_;
    std::optional<std::size_t> first_;  // class of the skein in hand
    std::vector<Quanta> phases_;        // of each class; -1 when it has none
};

}  // namespace

Length mean_row(const need::RoleNeed& role, const std::vector<need::Step>& steps,
                const Rules& rules, const project::Project* project) {
    const std::vector<need::Step> own = steps_of(role, steps);
    if (own.empty()) return {};
    const Line line(project, own, rules, 0, false, true);
    if (line.all_open()) return {};
    return line.mean_link(line.links(need::usual::row_to_row));
}

Length kept_by_slip(const need::RoleNeed& role, const std::vector<need::Step>& steps,
                    const Rules& rules, const project::Project* project) {
    const std::vector<need::Step> own = steps_of(role, steps);
    if (!rules.keep_to_slip || Line(project, own, rules, 0, false, true).rows_open(own)) return {};
    return slack_of(role, longest_row_of(own), rules, 1.0);
}

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

bool is_sure(const JoinPlan& plan, measure::Chance confidence) {
    return !plan.against_slip && chance_of(plan) >= confidence;
}

Rules rules_of(const project::Project& project, const project::Role& role, std::size_t size,
               measure::Chance confidence) {
    Rules rules;
    rules.where = Where::as_pieces_say;
    rules.tail = role.join_kind != nullptr ? role.join_kind->tail : project.tail;
    rules.end_tail = project.tail;
    rules.keep_to_slip = true;
    rules.confidence = confidence;
    rules.size = size;
    rules.rows_between = project.rows_between_joins;
    rules.colour_repeat = project::repeat_of(role.colours);
    return rules;
}

Length left_over(const JoinPlan& plan) {
    Length sum{};
    for (const Stretch& stretch : plan.stretches) sum += stretch.left + stretch.wound_off;
    return sum;
}

Length cut_off(const JoinPlan& plan) {
    Length sum{};
    for (std::size_t i = 0; i + 1 < plan.stretches.size(); ++i)
        sum += plan.stretches[i].left + plan.stretches[i + 1].wound_off;
    return sum;
}

std::vector<need::Step> course_steps(const project::Project& project, const need::MakeNeed& make,
                                     const need::RoleNeed& role) {
    const std::string& other = project.role(role.role)->held_with;
    return other.empty() ? make.steps : steps_beside(role, other, make.steps);
}

JoinPlan plan_joins(const need::RoleNeed& role, const std::vector<need::Step>& steps,
                    const std::vector<Ball>& balls, const Rules& rules,
                    const project::Project* project) {
    return Planner(role, steps, balls, rules, project).run();
}

}  // namespace skeinfall::chain
