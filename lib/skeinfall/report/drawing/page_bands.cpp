#include <algorithm>
#include <cstdint>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/detail/page_parts.hpp"
#include "skeinfall/report/words.hpp"

namespace skeinfall::report {
namespace {

using BandedRows = std::vector<PageRow>;

bool may_be_banded(const PageRow& row) {
    return row.number > 0 && row.marks.empty();
}

/// "Rows 11 to 20, MC and CC"
std::string band_text(const PageRow* from, const PageRow* to) {
    const PageRow& last = *(to - 1);
    std::vector<std::string> yarns;
    for (const PageRow* row = from; row != to; ++row)
        if (!row->yarn.empty() && std::find(yarns.begin(), yarns.end(), row->yarn) == yarns.end())
            yarns.push_back(row->yarn);
    constexpr std::size_t named_at_most = 3;
    if (yarns.size() > named_at_most) yarns = {std::to_string(yarns.size()) + " yarns"};
    std::string out = last.round ? "Rounds " : "Rows ";
    out += fmt::format("{} to {}", from->number, last.number);
    if (!yarns.empty()) out += ", " + base::join(yarns, " and ");
    return out;
}

/// "98 sts", or "98 sts to 120 sts"; nothing where it goes up and down.
std::string band_count(const PageRow* from, const PageRow* to) {
    const std::string& last = (to - 1)->count;
    if (from->count != last) return from->count + " to " + last;
    const bool alike = std::all_of(from, to, [&](const PageRow& row) { return row.count == last; });
    return alike ? last : std::string();
}

/// The rows of one group, `size` to a band; true when the words of some were left out.
bool tick_together(BandedRows& rows, std::int64_t size) {
    bool untold = false;
    BandedRows out;
    const PageRow* const end = rows.data() + rows.size();
    for (PageRow* row = rows.data(); row != end;) {
        PageRow* to = row;
        while (to != end && may_be_banded(*to) &&
               (to->number - 1) / size == (row->number - 1) / size)
            ++to;
        if (to - row < 2) {
            out.push_back(std::move(*row++));
            continue;
        }
        untold =
            untold || std::any_of(row, to, [](const PageRow& one) { return !one.told.empty(); });
        PageRow one;
        one.text = band_text(row, to);
        one.count = band_count(row, to);
        out.push_back(std::move(one));
        row = to;
    }
    rows = std::move(out);
    return untold;
}

}  // namespace

std::string put_in_bands(std::vector<PageGroup>& groups) {
    std::size_t all = 0;
    for (const PageGroup& group : groups) all += group.rows.size();
    if (all <= most_boxes) return {};
    std::int64_t size = 10;
    while (all > static_cast<std::size_t>(size) * most_boxes) size *= 10;
    bool untold = false;
    for (PageGroup& group : groups) untold = tick_together(group.rows, size) || untold;
    std::string out = fmt::format(
        "One box stands for up to {} rows, for {} are too many to tick one by one. A row with a "
        "join has a box of its own.",
        size, all);
    if (untold) out += " What to work in each is left to the pattern.";
    return out;
}

}  // namespace skeinfall::report
