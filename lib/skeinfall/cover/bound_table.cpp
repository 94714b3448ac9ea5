#include "skeinfall/cover/bound_table.hpp"

#include <algorithm>

namespace skeinfall::cover {

BoundTable::BoundTable(const std::vector<Option>& options, Quanta need, LotCharge charge,
                       Packed lot, std::size_t cells_at_most) {
    constexpr std::size_t fewest_rows = 64;
    const std::size_t most_rows = std::max(fewest_rows, cells_at_most / (2 * (options.size() + 1)));
    grain_ = need / static_cast<Quanta>(most_rows) + 1;
    rows_ = static_cast<std::size_t>(need / grain_) + 1;
    fill(options, charge, lot);
}

void BoundTable::fill(const std::vector<Option>& options, LotCharge charge, Packed lot) {
    open_.assign((options.size() + 1) * rows_, never());
    // A missing amount below one grain counts as nothing.
    open_[options.size() * rows_] = 0;
    const bool charged = charge != LotCharge::none;
    if (charged) shut_ = open_;
    for (std::size_t at = options.size(); at-- > 0;) {
        const Option& option = options[at];
        const auto grains = static_cast<std::size_t>((option.usable + grain_ - 1) / grain_);
        const bool last = at + 1 == option.block_end;
        const std::size_t below = (at + 1) * rows_;
        // What follows with this lot begun: at the end of the lot another one must be begun, which
        // the rule of one lot forbids.
        const auto after_open = [&](std::size_t row) -> Packed {
            if (row == 0) return 0;
            if (!charged || !last) return open_[below + row];
            return charge == LotCharge::only_one ? never() : shut_[below + row];
        };
        for (std::size_t row = 0; row < rows_; ++row) {
            Packed best = after_open(row);
            Packed taken = never();
            std::size_t missing = row;
            Packed cost = 0;
            for (std::size_t copy = 0; copy < option.count && missing > 0; ++copy) {
                missing -= std::min(missing, grains);
                cost += option.bound_cost;
                const Packed after = after_open(missing);
                if (after != never()) taken = std::min(taken, cost + after);
            }
            if (row == 0) best = 0;
            open_[at * rows_ + row] = std::min(best, taken);
            if (!charged) continue;
            Packed shut = row == 0 ? 0 : shut_[below + row];
            if (taken != never()) shut = std::min(shut, taken + lot);
            shut_[at * rows_ + row] = shut;
        }
    }
}

}  // namespace skeinfall::cover
