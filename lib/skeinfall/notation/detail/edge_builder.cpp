// The edge a row makes, stitch by stitch and repeat by repeat.

#include <algorithm>
#include <cstdint>
#include <utility>

#include "skeinfall/notation/detail/worker.hpp"

namespace skeinfall::notation {

void EdgeBuilder::add(Stand stand, std::int64_t count) {
    if (count <= 0) return;
    if (open_.size() > barrier_ && open_.back().stand == stand)
        open_.back().count += count;
    else
        open_.push_back({stand, count});
}

bool EdgeBuilder::take_off(std::int64_t count) {
    while (count > 0 && open_.size() > barrier_ && open_.back().stand.chains == 0) {
        const std::int64_t off = std::min(count, open_.back().count);
        open_.back().count -= off;
        count -= off;
        if (open_.back().count == 0) open_.pop_back();
    }
    return count == 0;
}

bool EdgeBuilder::fold(std::int64_t chains) {
    if (open_.size() <= barrier_ || static_cast<std::int64_t>(open_.back().stand.chains) < chains)
        return false;
    const Stand last = open_.back().stand;
    if (--open_.back().count == 0) open_.pop_back();
    const auto rest = static_cast<std::uint32_t>(static_cast<std::int64_t>(last.chains) - chains);
    if (rest > 0) open_.push_back({{last.kind, rest}, 1});
    return true;
}

std::size_t EdgeBuilder::mark() {
    barrier_ = open_.size();
    return barrier_;
}

void EdgeBuilder::repeat(std::size_t mark, std::int64_t times, bool outermost) {
    if (times <= 0 || open_.size() == mark) return;
    if (open_.size() == mark + 1) {
        open_.back().count *= times + 1;
        return;
    }
    const auto first = open_.begin() + static_cast<std::ptrdiff_t>(mark);
    const std::vector<Run> part(first, open_.end());
    if (outermost) {
        open_.resize(mark);
        done_.push_back({1, std::move(open_)});
        done_.push_back({times + 1, part});
        open_.clear();
        barrier_ = 0;
        return;
    }
    for (std::int64_t i = 0; i < times && !too_large(); ++i)
        open_.insert(open_.end(), part.begin(), part.end());
}

std::int64_t EdgeBuilder::stitches() const {
    std::int64_t sum = 0;
    const auto add = [&](const std::vector<Run>& runs, std::int64_t times) {
        for (const Run& run : runs)
            if (run.stand.chains == 0) sum += times * run.count;
    };
    for (const Stretch& stretch : done_) add(stretch.runs, stretch.times);
    add(open_, 1);
    return sum;
}

Edge EdgeBuilder::edge() {
    Edge out;
    out.stretches = std::move(done_);
    out.stretches.push_back({1, std::move(open_)});
    out.settle();
    return out;
}

}  // namespace skeinfall::notation
