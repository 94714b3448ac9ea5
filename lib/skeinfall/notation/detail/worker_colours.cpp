// Each yarn's part of a row that several yarns work.

#include <algorithm>
#include <cstdint>

#include "skeinfall/notation/detail/worker.hpp"

namespace skeinfall::notation {
namespace {

/// Where a yarn's stitches lie on an edge.
struct Lie {
    std::int64_t stitches = 0;
    std::int64_t first = -1;  ///< stitches before its first one
    std::int64_t last = 0;    ///< stitches up to its last one
    std::int64_t blocks = 0;
};

/// `own`: the yarn of stitches that name none.
Lie lie_of(const Edge& edge, std::uint16_t yarn, std::uint16_t own_yarn) {
    const auto is_own = [&](const Run& run) {
        return (run.stand.yarn == 0 ? own_yarn : run.stand.yarn) == yarn;
    };
    Lie out;
    std::int64_t before = 0;
    bool within = false;
    for (const Stretch& stretch : edge.stretches) {
        std::int64_t length = 0;
        std::int64_t first = -1;
        std::int64_t last = 0;
        std::int64_t own = 0;
        std::int64_t blocks = 0;
        for (const Run& run : stretch.runs) {
            const std::int64_t each = run.stand.chains == 0 ? run.count : 0;
            if (is_own(run) && each > 0) {
                if (first < 0) first = length;
                last = length + each;
                own += each;
            }
            length += each;
        }
        const bool begins = is_own(stretch.runs.front());
        const bool ends = is_own(stretch.runs.back());
        bool mine = false;
        for (const Run& run : stretch.runs) {
            if (is_own(run) && !mine) ++blocks;
            mine = is_own(run);
        }
        // Where one time ends and the next begins in the yarn, it is one block.
        out.blocks += blocks * stretch.times - (begins && ends ? stretch.times - 1 : 0) -
                      (begins && within ? 1 : 0);
        within = ends;
        if (own > 0) {
            if (out.first < 0) out.first = before + first;
            out.last = before + (stretch.times - 1) * length + last;
            out.stitches += own * stretch.times;
        }
        before += length * stretch.times;
    }
    return out;
}

/// Where they lie one by one.
std::vector<project::ColourBlock> blocks_of(const Edge& edge, std::uint16_t yarn,
                                            std::uint16_t own_yarn) {
    std::vector<project::ColourBlock> out;
    std::int64_t before = 0;
    for (const Stretch& stretch : edge.stretches)
        for (std::int64_t time = 0; time < stretch.times; ++time)
            for (const Run& run : stretch.runs) {
                const std::int64_t each = run.stand.chains == 0 ? run.count : 0;
                if (each > 0 && (run.stand.yarn == 0 ? own_yarn : run.stand.yarn) == yarn) {
                    if (out.empty() || out.back().first + out.back().count != before)
                        out.push_back({before, 0});
                    out.back().count += each;
                    if (out.size() > project::most_colour_blocks) return {};
                }
                before += each;
            }
    return out;
}

}  // namespace

void Worker::colours() {
    std::vector<std::uint16_t>& yarns = out_.yarns;
    const auto yarn_of = [&](std::uint32_t key) {
        const auto yarn = static_cast<std::uint16_t>(key >> 16U);
        return yarn == 0 ? context_->own_yarn : yarn;
    };
    for (const auto& [key, count] : counts_) {
        const std::uint16_t yarn = yarn_of(key);
        if (std::find(yarns.begin(), yarns.end(), yarn) == yarns.end()) yarns.push_back(yarn);
    }
    if (yarns.size() < 2) {
        yarns.clear();
        return;
    }
    std::stable_partition(yarns.begin(), yarns.end(),
                          [&](std::uint16_t yarn) { return yarn == context_->own_yarn; });
    for (const std::uint16_t yarn : yarns) {
        const Lie lie = lie_of(out_.edge, yarn, context_->own_yarn);
        project::ColourWork one;
        for (const auto& [key, count] : counts_)
            if (yarn_of(key) == yarn)
                one.kinds.push_back(
                    {book().at(static_cast<KindId>(key & 0xffffU)).name, counted_stitches(count)});
        one.stitches = counted_stitches(lie.stitches);
        // In a round it goes on to where it is wanted first in the next one.
        if (lie.stitches > 0)
            one.carried = counted_stitches(
                (context_->round ? out_.edge.stitches : lie.last - lie.first) - lie.stitches);
        one.begun = lie.blocks;
        one.blocks = blocks_of(out_.edge, yarn, context_->own_yarn);
        out_.colours.push_back(std::move(one));
    }
}

}  // namespace skeinfall::notation
