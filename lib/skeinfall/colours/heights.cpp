#include "skeinfall/colours/heights.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <numeric>

namespace skeinfall::colours {
namespace {

/// Fills band after band; what is left of the distance and of the sum bounds each.
class Walk {
  public:
    Walk(const HeightRules& rules, const std::function<bool(const Heights&)>& may_do,
         std::size_t& steps, Level& out)
        : rules_(rules), may_do_(may_do), steps_(steps), out_(out), now_(rules.bands.size()) {}

    void from(std::size_t band, long distance, long sum) {
        if (steps_ == 0) {
            out_.complete = false;
            return;
        }
        --steps_;
        const std::size_t bands = rules_.bands.size();
        if (band == bands) {
            if (distance == 0 && (!rules_.sum || sum == 0) && may_do_(now_))
                out_.heights.push_back(now_);
            return;
        }
        const Band& one = rules_.bands[band];
        // Of a kept sum every later band takes a step at least.
        const long others = static_cast<long>(bands - band - 1) * rules_.step;
        long most = one.wanted + distance;
        if (one.at_most > 0) most = std::min(most, one.at_most);
        if (rules_.sum) most = std::min(most, sum - others);
        const long least = std::max(rules_.step, one.wanted - distance);
        const long first = (least + rules_.step - 1) / rules_.step * rules_.step;
        const bool last = band + 1 == bands;
        for (long height = first; height <= most; height += rules_.step) {
            const long off = std::labs(height - one.wanted);
            if (last && (off != distance || (rules_.sum && height != sum))) continue;
            now_[band] = height;
            from(band + 1, distance - off, sum - height);
        }
    }

  private:
    const HeightRules& rules_;
    const std::function<bool(const Heights&)>& may_do_;
    std::size_t& steps_;
    Level& out_;
    Heights now_;
};

}  // namespace

long rows_changed(const HeightRules& rules, const Heights& heights) {
    long out = 0;
    for (std::size_t i = 0; i < heights.size(); ++i)
        out += std::labs(heights[i] - rules.bands[i].wanted);
    return out;
}

long most_changed(const HeightRules& rules, const Heights& heights) {
    long out = 0;
    for (std::size_t i = 0; i < heights.size(); ++i)
        out = std::max(out, std::labs(heights[i] - rules.bands[i].wanted));
    return out;
}

Level heights_that_differ_by(const HeightRules& rules, long rows,
                             const std::function<bool(const Heights&)>& may_do,
                             std::size_t& steps) {
    Level out;
    if (rules.bands.empty() || rows < 0) return out;
    Walk(rules, may_do, steps, out).from(0, rows, rules.sum.value_or(0));
    return out;
}

long farthest(const HeightRules& rules) {
    long wanted = 0;
    long widened = 0;
    for (const Band& band : rules.bands) {
        wanted += band.wanted;
        widened += band.wanted + 4;
    }
    return rules.sum ? wanted + *rules.sum : widened;
}

std::optional<Nearest> nearest_heights(const HeightRules& rules,
                                       const std::function<bool(const Heights&)>& accept,
                                       std::size_t steps_at_most) {
    std::size_t steps = steps_at_most;
    const std::function<bool(const Heights&)> any = [](const Heights&) { return true; };
    bool proven = true;
    const long most = farthest(rules);
    for (long rows = 0; rows <= most; ++rows) {
        Level level = heights_that_differ_by(rules, rows, any, steps);
        std::stable_sort(level.heights.begin(), level.heights.end(),
                         [&](const Heights& a, const Heights& b) {
                             return most_changed(rules, a) < most_changed(rules, b);
                         });
        proven = proven && level.complete;
        for (const Heights& heights : level.heights)
            if (accept(heights)) return Nearest{heights, proven};
        if (steps == 0) break;
    }
    return std::nullopt;
}

std::optional<Heights> in_shares(const std::vector<double>& parts, long rows, long step) {
    const auto count = static_cast<long>(parts.size());
    const long steps = rows / step;
    const double all = std::accumulate(parts.begin(), parts.end(), 0.0);
    if (count == 0 || steps < count || !(all > 0.0)) return std::nullopt;
    std::vector<std::pair<double, std::size_t>> rests;
    Heights out;
    long given = 0;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const double share = parts[i] / all * static_cast<double>(steps);
        const long whole = std::max(1L, static_cast<long>(std::floor(share)));
        out.push_back(whole);
        given += whole;
        rests.emplace_back(static_cast<double>(whole) - share, i);
    }
    std::stable_sort(rests.begin(), rests.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    for (std::size_t i = 0; given < steps; i = (i + 1) % rests.size(), ++given)
        ++out[rests[i].second];
    // Those that had to have one step more than their share give way to the others.
    while (given > steps) {
        const auto largest = std::max_element(out.begin(), out.end());
        --*largest;
        --given;
    }
    for (long& height : out) height *= step;
    // Rows that are no whole step go to the last.
    out.back() += rows - steps * step;
    return out;
}

}  // namespace skeinfall::colours
