#include "skeinfall/colours/heights.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
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
            if (std::int64_t* const left = left_of(band)) *left -= rules.step;
        possible_ =
            std::all_of(left_.begin(), left_.end(), [](std::int64_t left) { return left >= 0; });
    }

    void from(std::size_t band, std::int64_t distance, std::int64_t sum) {
        if (!possible_) return;
        if (steps_ == 0) {
            out_.complete = false;
            return;
        }
        --steps_;
        if (band + 1 == rules_.bands.size()) return last(band, distance, sum);
        const Band& one = rules_.bands[band];
        const std::int64_t others =
            static_cast<std::int64_t>(rules_.bands.size() - band - 1) * rules_.step;
        std::int64_t most = std::min(one.wanted + distance, at_most(one));
        if (rules_.sum) most = std::min(most, sum - others);
        const std::int64_t least = std::max(rules_.step, one.wanted - distance);
        const std::int64_t first = (least + rules_.step - 1) / rules_.step * rules_.step;
        std::int64_t* const left = left_of(one);
        for (std::int64_t height = first; height <= most; height += rules_.step) {
            now_[band] = height;
            if (left != nullptr) *left -= height - rules_.step;
            from(band + 1, distance - std::llabs(height - one.wanted), sum - height);
            if (left != nullptr) *left += height - rules_.step;
        }
    }

  private:
    [[nodiscard]] std::int64_t* left_of(const Band& band) {
        return band.colour < left_.size() ? &left_[band.colour] : nullptr;
    }

    [[nodiscard]] std::int64_t at_most(const Band& band) {
        std::int64_t out =
            band.at_most > 0 ? band.at_most : std::numeric_limits<std::int64_t>::max();
        if (const std::int64_t* const left = left_of(band))
            out = std::min(out, *left + rules_.step);
        return out;
    }

    /// It takes what is left of the distance, one way or the other.
    void last(std::size_t band, std::int64_t distance, std::int64_t sum) {
        const Band& one = rules_.bands[band];
        for (const std::int64_t height : {one.wanted - distance, one.wanted + distance}) {
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
    std::vector<std::int64_t> left_;
    bool possible_ = true;
};

}  // namespace

std::int64_t rows_changed(const HeightRules& rules, const Heights& heights) {
    std::int64_t out = 0;
    for (std::size_t i = 0; i < heights.size(); ++i)
        out += std::llabs(heights[i] - rules.bands[i].wanted);
    return out;
}

std::int64_t most_changed(const HeightRules& rules, const Heights& heights) {
    std::int64_t out = 0;
    for (std::size_t i = 0; i < heights.size(); ++i)
        out = std::max<std::int64_t>(out, std::llabs(heights[i] - rules.bands[i].wanted));
    return out;
}

Level heights_that_differ_by(const HeightRules& rules, std::int64_t rows,
                             const std::function<bool(const Heights&)>& may_do,
                             std::size_t& steps) {
    Level out;
    if (rules.bands.empty() || rows < 0) return out;
    Walk(rules, may_do, steps, out).from(0, rows, rules.sum.value_or(0));
    return out;
}

std::int64_t farthest(const HeightRules& rules) {
    std::int64_t wanted = 0;
    std::int64_t widened = 0;
    for (const Band& band : rules.bands) {
        wanted += band.wanted;
        widened += band.wanted + 4;
    }
    return rules.sum ? wanted + *rules.sum : widened;
}

std::optional<Nearest> nearest_heights(const HeightRules& rules,
                                       const std::function<bool(const Heights&)>& accept,
                                       std::size_t most_steps) {
    std::size_t steps = most_steps;
    const std::function<bool(const Heights&)> any = [](const Heights&) { return true; };
    bool proven = true;
    const std::int64_t most = farthest(rules);
    for (std::int64_t rows = 0; rows <= most; ++rows) {
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

std::optional<Heights> in_shares(const std::vector<units::Ratio>& parts, std::int64_t rows,
                                 std::int64_t step) {
    const auto count = static_cast<std::int64_t>(parts.size());
    const std::int64_t steps = rows / step;
    double all = 0.0;
    for (const units::Ratio& part : parts) all += part.value();
    if (count == 0 || steps < count || !(all > 0.0)) return std::nullopt;
    std::vector<std::pair<double, std::size_t>> rests;
    Heights out;
    std::int64_t given = 0;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const double share = parts[i].value() / all * static_cast<double>(steps);
        const std::int64_t whole =
            std::max<std::int64_t>(1, static_cast<std::int64_t>(std::floor(share)));
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
    for (std::int64_t& height : out) height *= step;
    // Rows that are no whole step go to the last.
    out.back() += rows - steps * step;
    return out;
}

}  // namespace skeinfall::colours
