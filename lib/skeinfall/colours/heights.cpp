#include "skeinfall/colours/heights.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <limits>

namespace skeinfall::colours {
namespace {

/// Fills band after band; what is left of the distance, of the sum and of each colour's bound
/// limits the next.
class Walk {
  public:
    Walk(const HeightRules& rules, const std::function<bool(const Heights&)>& may_do,
         std::size_t& steps, Level& out)
        : rules_(rules),
          may_do_(may_do),
          steps_(steps),
          out_(out),
          now_(rules.bands.size()),
          left_(rules.colour_at_most) {
        // Every band of a colour takes a step at least.
        for (const Band& band : rules.bands)
            if (long* const left = left_of(band)) *left -= rules.step;
        possible_ = std::all_of(left_.begin(), left_.end(), [](long left) { return left >= 0; });
    }

    void from(std::size_t band, long distance, long sum) {
        if (!possible_) return;
        if (steps_ == 0) {
            out_.complete = false;
            return;
        }
        --steps_;
        if (band + 1 == rules_.bands.size()) return last(band, distance, sum);
        const Band& one = rules_.bands[band];
        const long others = static_cast<long>(rules_.bands.size() - band - 1) * rules_.step;
        long most = std::min(one.wanted + distance, at_most(one));
        if (rules_.sum) most = std::min(most, sum - others);
        const long least = std::max(rules_.step, one.wanted - distance);
        const long first = (least + rules_.step - 1) / rules_.step * rules_.step;
        long* const left = left_of(one);
        for (long height = first; height <= most; height += rules_.step) {
            now_[band] = height;
            if (left != nullptr) *left -= height - rules_.step;
            from(band + 1, distance - std::labs(height - one.wanted), sum - height);
            if (left != nullptr) *left += height - rules_.step;
        }
    }

  private:
    [[nodiscard]] long* left_of(const Band& band) {
        return band.colour < left_.size() ? &left_[band.colour] : nullptr;
    }

    [[nodiscard]] long at_most(const Band& band) {
        long out = band.at_most > 0 ? band.at_most : std::numeric_limits<long>::max();
        if (const long* const left = left_of(band)) out = std::min(out, *left + rules_.step);
        return out;
    }

    /// It takes what is left of the distance, one way or the other.
    void last(std::size_t band, long distance, long sum) {
        const Band& one = rules_.bands[band];
        for (const long height : {one.wanted - distance, one.wanted + distance}) {
            if (height < rules_.step || height % rules_.step != 0 || height > at_most(one) ||
                (rules_.sum && height != sum))
                continue;
            now_[band] = height;
            if (may_do_(now_)) out_.heights.push_back(now_);
            if (distance == 0) break;
        }
    }

    const HeightRules& rules_;
    const std::function<bool(const Heights&)>& may_do_;
    std::size_t& steps_;
    Level& out_;
    Heights now_;
    std::vector<long> left_;
    bool possible_ = true;
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

std::optional<Heights> in_shares(const std::vector<units::Ratio>& parts, long rows, long step) {
    const auto count = static_cast<long>(parts.size());
    const long steps = rows / step;
    double all = 0.0;
    for (const units::Ratio& part : parts) all += part.value();
    if (count == 0 || steps < count || !(all > 0.0)) return std::nullopt;
    std::vector<std::pair<double, std::size_t>> rests;
    Heights out;
    long given = 0;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const double share = parts[i].value() / all * static_cast<double>(steps);
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
