#include "skeinfall/joins/stripes.hpp"

#include <algorithm>
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

OddBalls odd_balls(const std::vector<Length>& stripes, const std::vector<Ball>& balls,
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

StripeBalls stripe_balls(const need::RoleNeed& role, const std::vector<need::Step>& steps,
                         const std::vector<Ball>& balls, long rows, Length tail) {
    StripeBalls out;
    long in_stripe = rows;
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
    out.odd = odd_balls(out.yarn, balls, tail);
    return out;
}

}  // namespace skeinfall::joins
