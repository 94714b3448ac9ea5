#include "skeinfall/joins/stripes.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numeric>

namespace skeinfall::joins {

using units::Length;

Ends stripe_ends(const need::MakeNeed& make, Length tail) {
    Ends out;
    out.changes = make.changes;
    for (const need::Change& change : out.changes) {
        out.carried += change.carried ? 1 : 0;
        out.cut += change.carried ? 0 : 2;
    }
    out.tails = static_cast<double>(out.cut) * tail;
    return out;
}

namespace {

OddBalls most_stripes(const std::vector<Length>& stripes, const std::vector<Ball>& balls,
                      Length tail) {
    const auto by_length = [](auto length) {
        return [length](std::size_t a, std::size_t b) { return length(a) < length(b); };
    };
    std::vector<std::size_t> shortest(stripes.size());
    std::iota(shortest.begin(), shortest.end(), std::size_t{0});
    std::stable_sort(shortest.begin(), shortest.end(),
                     by_length([&](std::size_t i) { return stripes[i]; }));
    std::vector<std::size_t> smallest(balls.size());
    std::iota(smallest.begin(), smallest.end(), std::size_t{0});
    std::stable_sort(smallest.begin(), smallest.end(),
                     by_length([&](std::size_t i) { return balls[i].length.centre; }));
    OddBalls out;
    out.ball.resize(stripes.size());
    std::size_t next = 0;
    for (const std::size_t stripe : shortest) {
        const Length wanted = stripes[stripe] + 2.0 * tail;
        while (next < smallest.size() && balls[smallest[next]].length.centre < wanted) ++next;
        if (next == smallest.size()) {
            out.missing += wanted;
            continue;
        }
        out.ball[stripe] = smallest[next++];
        ++out.covered;
    }
    return out;
}

}  // namespace

OddBalls odd_balls(const std::vector<Length>& stripes, const std::vector<Ball>& balls,
                   Length tail) {
    OddBalls out = most_stripes(stripes, balls, tail);
    if (out.covered == stripes.size()) return out;
    // As many, from the first on: that is where work begins.
    const auto end = stripes.begin() + static_cast<std::ptrdiff_t>(out.covered);
    OddBalls first = most_stripes({stripes.begin(), end}, balls, tail);
    if (first.covered < out.covered) return out;
    first.ball.resize(stripes.size());
    for (std::size_t stripe = first.covered; stripe < stripes.size(); ++stripe)
        first.missing += stripes[stripe] + 2.0 * tail;
    return first;
}

namespace {

/// That a ball lasts for a stripe that takes `wanted`; `wanted` is certain here.
double holds(const Ball& ball, Length wanted, Length tail) {
    const measure::Estimate<Length> usable{ball.length.centre - 2.0 * tail, ball.length.spread};
    return measure::chance_enough(usable, {wanted, Length{}}).value.value();
}

/// Fills in the chances of the balls given out. The need's error and the label's are common to all
/// stripes, so the chances are multiplied within each of some values of it (31 even nodes).
void judge(StripeBalls& out, const std::vector<Ball>& balls, double need_relative, Length tail) {
    constexpr int nodes = 31;
    constexpr double farthest = 5.0;
    Length given{};
    Length shared{};
    for (const auto& ball : out.odd.ball)
        if (ball) {
            given += balls[*ball].length.centre;
            shared += balls[*ball].shared;
        }
    const double of_labels = given > Length{} ? double{shared / given} : 0.0;
    const double common = std::hypot(need_relative, of_labels);
    const bool all = out.odd.covered == out.yarn.size();
    std::vector<double> each(out.yarn.size(), 0.0);
    double together = 0.0;
    double weights = 0.0;
    for (int i = 0; i < nodes; ++i) {
        const double z = farthest * (2.0 * i / (nodes - 1) - 1.0);
        const double weight = std::exp(-z * z / 2.0);
        const double factor = std::max(0.0, 1.0 + common * z);
        double product = all ? 1.0 : 0.0;
        for (std::size_t k = 0; k < each.size(); ++k) {
            const auto& ball = out.odd.ball[k];
            const double one = ball ? holds(balls[*ball], factor * out.yarn[k], tail) : 0.0;
            each[k] += weight * one;
            product *= one;
        }
        together += weight * product;
        weights += weight;
    }
    out.chances.clear();
    for (const double chance : each)
        out.chances.push_back({units::Ratio(std::clamp(chance / weights, 0.0, 1.0))});
    out.lasts = {units::Ratio(std::clamp(together / weights, 0.0, 1.0))};
}

}  // namespace

StripeBalls stripe_balls(const need::RoleNeed& role, const std::vector<need::Step>& steps,
                         const std::vector<Ball>& balls, std::int64_t rows, Length tail,
                         measure::Chance confidence) {
    StripeBalls out;
    std::int64_t in_stripe = rows;
    for (const need::Step& step : steps) {
        if (step.role != role.role || step.yarn.value() <= 0.0) continue;
        // Foundation and bind-off go with their row, whatever it is counted.
        const bool counts = step.purpose == need::Purpose::body;
        const bool new_piece = !out.first.empty() && (out.first.back().piece != step.piece ||
                                                      out.first.back().copy != step.copy);
        if (out.yarn.empty() || new_piece || (counts && in_stripe == rows)) {
            out.yarn.emplace_back();
            out.first.push_back(step);
            in_stripe = 0;
        }
        out.yarn.back() += step.yarn;
        in_stripe += counts ? 1 : 0;
    }
    // Larger and larger balls, by so many spreads of a stripe, until all are sure.
    constexpr double most = 4.0;
    constexpr double finer = 0.25;
    const double relative = role.length.relative();
    std::optional<StripeBalls> best;
    for (double more = 0.0; more <= most; more += finer) {
        StripeBalls now = out;
        std::vector<Length> wanted = out.yarn;
        for (Length& length : wanted) length = length * (1.0 + more * relative);
        std::vector<Ball> surely = balls;
        for (Ball& ball : surely)
            ball.length.centre -= more * measure::in_quadrature(ball.length.spread, ball.shared);
        now.odd = odd_balls(wanted, surely, tail);
        judge(now, balls, relative, tail);
        if (best && (now.odd.covered < best->odd.covered ||
                     (now.odd.covered == best->odd.covered && now.lasts <= best->lasts)))
            continue;
        const Length missing = best ? best->odd.missing : now.odd.missing;
        best = std::move(now);
        best->odd.missing = missing;  // by what is likely
        if (best->lasts >= confidence) break;
    }
    return std::move(*best);
}

}  // namespace skeinfall::joins
