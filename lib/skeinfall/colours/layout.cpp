#include "skeinfall/colours/layout.hpp"

#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <map>
#include <numeric>
#include <utility>

namespace skeinfall::colours {
namespace {

using project::Stripe;

void add(Stripes& out, const std::string& role, std::int64_t rows) {
    if (rows <= 0) return;
    if (!out.empty() && out.back().role == role)
        out.back().rows += rows;
    else
        out.push_back({role, rows});
}

}  // namespace

std::int64_t rows_of(const Stripes& stripes) {
    return std::accumulate(
        stripes.begin(), stripes.end(), std::int64_t{0},
        [](std::int64_t sum, const Stripe& stripe) { return sum + stripe.rows; });
}

Stripes laid_out(const Stripes& repeat, std::int64_t rows) {
    Stripes out;
    for (std::size_t at = 0; rows > 0 && rows_of(repeat) > 0; at = (at + 1) % repeat.size()) {
        const std::int64_t height = std::min(rows, repeat[at].rows);
        add(out, repeat[at].role, height);
        rows -= height;
    }
    return out;
}

std::optional<Stripes> edged(const Stripes& repeat, std::int64_t rows, const Stripe& edge) {
    if (rows - 2 * edge.rows < 1) return std::nullopt;
    Stripes out;
    add(out, edge.role, edge.rows);
    for (const Stripe& stripe : laid_out(repeat, rows - 2 * edge.rows))
        add(out, stripe.role, stripe.rows);
    add(out, edge.role, edge.rows);
    return out;
}

std::int64_t widest_fade(const Stripes& colours) {
    std::int64_t out = rows_of(colours);
    for (std::size_t i = 0; i < colours.size(); ++i) {
        const bool outer = i == 0 || i + 1 == colours.size();
        out = std::min(out, outer ? 2 * colours[i].rows : colours[i].rows);
    }
    return out;
}

Stripes faded(const Stripes& colours, std::int64_t over, std::int64_t step) {
    const double width = static_cast<double>(std::min(over, widest_fade(colours)));
    const std::int64_t rows = rows_of(colours);
    std::vector<double> borders;  // between a colour and the next
    double upto = 0.0;
    for (std::size_t i = 0; i + 1 < colours.size(); ++i)
        borders.push_back(upto += static_cast<double>(colours[i].rows));
    // How far row x is past a border: 0 before its mixed rows, 1 behind them.
    const auto past = [&](double border, double x) {
        if (width <= 0.0) return x < border ? 0.0 : 1.0;
        return std::clamp((x - border) / width + 0.5, 0.0, 1.0);
    };
    std::vector<double> due(colours.size(), 0.0);
    std::vector<std::int64_t> left;
    for (const Stripe& colour : colours) left.push_back(colour.rows);
    Stripes out;
    for (std::int64_t row = 0; row < rows;) {
        const double middle = static_cast<double>(row) + 0.5 * static_cast<double>(step);
        for (std::size_t i = 0; i < colours.size(); ++i) {
            const double begun = i == 0 ? 1.0 : past(borders[i - 1], middle);
            const double ended = i + 1 == colours.size() ? 0.0 : past(borders[i], middle);
            due[i] += (begun - ended) * static_cast<double>(step);
        }
        std::size_t best = colours.size();
        for (std::size_t i = 0; i < colours.size(); ++i)
            if (left[i] > 0 && (best == colours.size() || due[i] > due[best] + 1e-9)) best = i;
        const std::int64_t taken = std::min(step, left[best]);
        add(out, colours[best].role, taken);
        due[best] -= static_cast<double>(taken);
        left[best] -= taken;
        row += taken;
    }
    return out;
}

std::vector<std::int64_t> mixed_rows(const Stripes& stripes, const Stripes& colours) {
    std::map<std::string, std::pair<std::int64_t, std::int64_t>> span;  // first row, last row
    std::int64_t row = 0;
    for (const Stripe& stripe : stripes) {
        const auto known = span.find(stripe.role);
        if (known == span.end())
            span[stripe.role] = {row, row + stripe.rows - 1};
        else
            known->second.second = row + stripe.rows - 1;
        row += stripe.rows;
    }
    std::vector<std::int64_t> out;
    for (std::size_t i = 0; i + 1 < colours.size(); ++i) {
        const auto one = span.find(colours[i].role);
        const auto next = span.find(colours[i + 1].role);
        if (one == span.end() || next == span.end()) continue;
        out.push_back(std::max<std::int64_t>(0, one->second.second - next->second.first + 1));
    }
    return out;
}

Stripes faded_over(const Stripes& colours, std::int64_t over, std::int64_t step) {
    Stripes best;
    std::int64_t least_off = -1;
    const std::int64_t widest = widest_fade(colours);
    // A share of less than half a row at either end mixes nothing: the law is laid over more rows
    // than it mixes.
    for (std::int64_t law = 0; law <= widest; law += step) {
        Stripes tried = faded(colours, law, step);
        std::int64_t off = 0;
        for (const std::int64_t mixed : mixed_rows(tried, colours))
            off = std::max(off, std::abs(mixed - over));
        if (least_off >= 0 && off >= least_off) continue;
        least_off = off;
        best = std::move(tried);
    }
    return best;
}

std::optional<Stripes> filled_up(const Stripes& repeat, const std::string& filler,
                                 std::int64_t times, std::int64_t rows, std::int64_t step) {
    std::int64_t bands = 0;
    std::int64_t slots = 0;
    for (const Stripe& stripe : repeat)
        (stripe.role == filler ? slots : bands) += stripe.role == filler ? 1 : stripe.rows;
    const bool ends_so = !repeat.empty() && repeat.front().role == filler;
    const std::int64_t all = slots * times + (ends_so ? 1 : 0);
    const std::int64_t steps = (rows - bands * times) / step;
    if (times < 1 || all < 1 || rows - bands * times < 1 || steps < all) return std::nullopt;
    Stripes out;
    std::int64_t slot = 0;
    std::int64_t given = 0;
    const auto fill = [&] {
        ++slot;
        const std::int64_t upto = slot == all ? rows - bands * times : steps * slot / all * step;
        add(out, filler, upto - given);
        given = upto;
    };
    for (std::int64_t time = 0; time < times; ++time)
        for (const Stripe& stripe : repeat)
            if (stripe.role == filler)
                fill();
            else
                add(out, stripe.role, stripe.rows);
    if (ends_so) fill();
    return out;
}

std::optional<std::vector<std::size_t>> none_side_by_side(const std::vector<std::string>& alike) {
    std::map<std::string, std::vector<std::size_t>> of;
    for (std::size_t i = alike.size(); i-- > 0;)
        of[alike[i]].push_back(i);  // the first at the back
    std::vector<std::size_t> out;
    std::string last;
    while (out.size() < alike.size()) {
        // The most frequent of the rest; of equals the one that comes first.
        std::vector<std::size_t>* best = nullptr;
        for (auto& [word, places] : of) {
            if (places.empty() || (!out.empty() && word == last)) continue;
            if (best == nullptr || places.size() > best->size() ||
                (places.size() == best->size() && places.back() < best->back()))
                best = &places;
        }
        if (best == nullptr) return std::nullopt;
        last = alike[best->back()];
        out.push_back(best->back());
        best->pop_back();
    }
    return out;
}

}  // namespace skeinfall::colours
