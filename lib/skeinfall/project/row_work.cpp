#include "skeinfall/project/row_work.hpp"

#include <algorithm>
#include <cstdint>

namespace skeinfall::project {

std::string_view WorkedRows::text(std::int64_t number) const {
    const auto at = static_cast<std::size_t>(number - 1);
    return at < text_of.size() ? std::string_view(texts[text_of[at]]) : std::string_view();
}

bool WorkedRows::take_bind_off_out() {
    const std::int64_t last = rows();
    if (last < 2 || row(last).across > units::StitchCount{} ||
        row(last).made > units::StitchCount{} || !(row(last - 1).across > units::StitchCount{}))
        return false;
    order.pop_back();
    if (text_of.size() > order.size()) text_of.pop_back();
    if (!stripes.empty() && --stripes.back().rows == 0) stripes.pop_back();
    return true;
}

std::vector<KindCount> WorkedRows::totals() const {
    std::vector<std::int64_t> times(distinct.size());
    for (const std::uint32_t index : order) ++times[index];
    std::vector<KindCount> out;
    for (std::size_t i = 0; i < distinct.size(); ++i)
        for (const KindCount& kind : distinct[i].kinds) {
            auto known = std::find_if(out.begin(), out.end(), [&](const KindCount& other) {
                return other.kind == kind.kind;
            });
            if (known == out.end()) known = out.insert(out.end(), {kind.kind, {}});
            known->count += static_cast<double>(times[i]) * kind.count;
        }
    return out;
}

}  // namespace skeinfall::project
