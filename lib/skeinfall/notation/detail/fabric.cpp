#include "skeinfall/notation/detail/fabric.hpp"

#include <algorithm>
#include <cstdint>
#include <utility>

namespace skeinfall::notation {
namespace {

void append(std::vector<Run>& runs, const Run& run) {
    if (run.count == 0) return;
    if (!runs.empty() && runs.back().stand == run.stand)
        runs.back().count += run.count;
    else
        runs.push_back(run);
}

std::int64_t atoms_each(const Run& run) {
    return std::max<std::int64_t>(1, run.stand.chains);
}

}  // namespace

void Edge::settle() {
    std::vector<Stretch> settled;
    for (Stretch& stretch : stretches) {
        std::vector<Run> runs;
        for (const Run& run : stretch.runs) append(runs, run);
        if (runs.size() == 1) runs.front().count *= std::exchange(stretch.times, 1);
        if (runs.empty() || stretch.times == 0) continue;
        if (stretch.times == 1 && !settled.empty() && settled.back().times == 1)
            for (const Run& run : runs) append(settled.back().runs, run);
        else
            settled.push_back({stretch.times, std::move(runs)});
    }
    stretches = std::move(settled);
    stitches = spaces = chains = 0;
    for (const Stretch& stretch : stretches)
        for (const Run& run : stretch.runs) {
            const std::int64_t all = stretch.times * run.count;
            if (run.stand.chains == 0) {
                stitches += all;
            } else {
                spaces += all;
                chains += all * run.stand.chains;
            }
        }
}

Edge Edge::reversed() const {
    Edge out = *this;
    std::reverse(out.stretches.begin(), out.stretches.end());
    for (Stretch& stretch : out.stretches) std::reverse(stretch.runs.begin(), stretch.runs.end());
    std::reverse(out.markers.begin(), out.markers.end());
    for (std::int64_t& marker : out.markers) marker = out.stitches - marker;
    return out;
}

std::int64_t Edge::count(KindId kind, const StitchBook* by_plain) const {
    std::int64_t sum = 0;
    for (const Stretch& stretch : stretches)
        for (const Run& run : stretch.runs)
            if (run.stand.chains == 0 &&
                (by_plain == nullptr ? run.stand.kind : by_plain->at(run.stand.kind).plain) == kind)
                sum += stretch.times * run.count;
    return sum;
}

std::int64_t Edge::count_spaces(std::int64_t chains_each) const {
    std::int64_t sum = 0;
    for (const Stretch& stretch : stretches)
        for (const Run& run : stretch.runs)
            if (run.stand.chains > 0 &&
                (chains_each == 0 || chains_each == static_cast<std::int64_t>(run.stand.chains)))
                sum += stretch.times * run.count;
    return sum;
}

Cursor::Cursor(const Edge& edge, const StitchBook& book, bool spaces_are_stitches)
    : edge_(&edge),
      book_(&book),
      spaces_are_stitches_(spaces_are_stitches),
      total_(edge.stitches + (spaces_are_stitches ? edge.chains : 0)) {}

bool Cursor::by_chain(const Unit& unit) {
    return unit.of == Unit::Of::any || unit.of == Unit::Of::chain || unit.of == Unit::Of::single;
}

bool Cursor::matches(const Unit& unit, const Stand& stand) const {
    const bool stitch = stand.chains == 0;
    switch (unit.of) {
        case Unit::Of::any:
            return stitch || spaces_are_stitches_;
        case Unit::Of::chain:
            return !stitch || stand.kind == book_->chain();
        case Unit::Of::space:
            return !stitch &&
                   (unit.chains == 0 || unit.chains == static_cast<std::int64_t>(stand.chains));
        case Unit::Of::single:
            return true;
        case Unit::Of::either:
            return stitch || unit.chains == 0 ||
                   unit.chains == static_cast<std::int64_t>(stand.chains);
        case Unit::Of::kind:
            return stitch && (edge_->counted_only || stand.kind == unit.kind ||
                              book_->at(stand.kind).plain == unit.kind);
    }
    return false;
}

Edge Cursor::rest() const {
    Edge out;
    for (std::size_t at = stretch_; at < edge_->stretches.size(); ++at) {
        const Stretch& stretch = edge_->stretches[at];
        if (at > stretch_) {
            out.stretches.push_back(stretch);
            continue;
        }
        Stretch begun{1, {}};
        for (std::size_t run = run_; run < stretch.runs.size(); ++run) {
            Run part = stretch.runs[run];
            if (run == run_) part.count -= used_ / atoms_each(part);
            begun.runs.push_back(part);
        }
        out.stretches.push_back(std::move(begun));
        if (turn_ + 1 < stretch.times)
            out.stretches.push_back({stretch.times - turn_ - 1, stretch.runs});
    }
    out.settle();
    for (const std::int64_t marker : edge_->markers)
        if (marker > passed_) out.markers.push_back(marker - passed_);
    return out;
}

Edge joined_edges(Edge first, const Edge& second) {
    for (const std::int64_t marker : second.markers)
        first.markers.push_back(first.stitches + marker);
    first.stretches.insert(first.stretches.end(), second.stretches.begin(), second.stretches.end());
    first.settle();
    return first;
}

Edge turned_edge(const Edge& made, const Edge& rest, const Edge& below, bool circular) {
    Edge out = made.reversed();
    out.waiting.clear();
    out.waiting_stitches = 0;
    const std::int64_t back = out.stitches;
    out.gap = 0;
    if (circular) {
        out.gap_ends = rest.stitches > 0;
        if (out.gap_ends) out.gap = back;
        return joined_edges(std::move(out), rest.reversed());
    }
    if (below.waiting_stitches > 0) {
        Edge waiting;
        waiting.stretches = below.waiting;
        waiting.settle();
        out = joined_edges(std::move(out), waiting);
        out.gap = back;
    }
    out.waiting = rest.stretches;
    out.waiting_stitches = rest.stitches;
    return out;
}

std::int64_t Cursor::atoms(const Run& run) const {
    return run.count * atoms_each(run);
}

/// Places of the run from its beginning, or from the cursor when it stands in it.
std::int64_t Cursor::places(const Unit& unit, const Run& run) const {
    if (!matches(unit, run.stand)) return 0;
    const bool here = !at_end() && &run == &edge_->stretches[stretch_].runs[run_];
    const std::int64_t rest = atoms(run) - (here ? used_ : 0);
    return by_chain(unit) ? rest : rest / atoms_each(run);
}

void Cursor::next_run() {
    used_ = 0;
    const Stretch& stretch = edge_->stretches[stretch_];
    if (++run_ < stretch.runs.size()) return;
    run_ = 0;
    if (++turn_ < stretch.times) return;
    turn_ = 0;
    ++stretch_;
}

void Cursor::pass(const Run& run, std::int64_t atoms_passed) {
    if (run.stand.chains == 0) stitches_ += atoms_passed;
    if (run.stand.chains == 0 || spaces_are_stitches_) passed_ += atoms_passed;
    used_ += atoms_passed;
    if (used_ == atoms(run)) next_run();
}

std::int64_t Cursor::advance(const Unit& unit, std::int64_t count) {
    std::int64_t found = 0;
    bool seeking = false;
    Cursor before = *this;
    while (found < count && !at_end()) {
        const Stretch& stretch = edge_->stretches[stretch_];
        if (run_ == 0 && used_ == 0 && stretch.times - turn_ > 1) {
            // Whole turns at once; the last place is stepped to, so that the cursor stands
            // right behind it.
            std::int64_t in_turn = 0;
            std::int64_t passed = 0;
            std::int64_t stitches = 0;
            for (const Run& run : stretch.runs) {
                if (matches(unit, run.stand)) in_turn += by_chain(unit) ? atoms(run) : run.count;
                if (run.stand.chains == 0) stitches += run.count;
                if (run.stand.chains == 0 || spaces_are_stitches_) passed += atoms(run);
            }
            const std::int64_t most = stretch.times - turn_ - 1;
            const std::int64_t turns =
                in_turn == 0 ? most : std::min(most, (count - found - 1) / in_turn);
            if (turns > 0) {
                if (in_turn == 0 && !std::exchange(seeking, true)) before = *this;
                found += turns * in_turn;
                passed_ += turns * passed;
                stitches_ += turns * stitches;
                turn_ += turns;
                continue;
            }
        }
        const Run& run = stretch.runs[run_];
        const std::int64_t here = std::min(places(unit, run), count - found);
        if (here == 0) {
            if (!std::exchange(seeking, true)) before = *this;
            pass(run, atoms(run) - used_);
            continue;
        }
        seeking = false;
        found += here;
        const std::int64_t each = atoms_each(run);
        const std::int64_t partly = by_chain(unit) ? 0 : (each - used_ % each) % each;
        pass(run, by_chain(unit) ? here : partly + here * each);
    }
    if (seeking) *this = before;
    return found;
}

void Cursor::seek(const Unit& unit) {
    Cursor probe = *this;
    while (!probe.at_end() && !probe.next_is(unit)) {
        const Run& run = edge_->stretches[probe.stretch_].runs[probe.run_];
        probe.pass(run, atoms(run) - probe.used_);
    }
    if (!probe.at_end()) *this = probe;
}

Edge Cursor::rotated() const {
    Edge out = *edge_;
    if (at_end()) return out;
    const Stretch& here = edge_->stretches[stretch_];
    const auto run = here.runs.begin() + static_cast<std::ptrdiff_t>(run_);
    Stretch rest{1, {run, here.runs.end()}};
    Stretch begun{1, {here.runs.begin(), run + 1}};
    const std::int64_t each = atoms_each(*run);
    rest.runs.front().count = (atoms(*run) - used_) / each;
    begun.runs.back().count = used_ / each;
    out.stretches = {rest, {here.times - turn_ - 1, here.runs}};
    for (std::size_t i = stretch_ + 1; i < edge_->stretches.size(); ++i)
        out.stretches.push_back(edge_->stretches[i]);
    for (std::size_t i = 0; i < stretch_; ++i) out.stretches.push_back(edge_->stretches[i]);
    out.stretches.push_back({turn_, here.runs});
    out.stretches.push_back(begun);
    out.settle();
    return out;
}

std::int64_t Cursor::left(const Unit& unit) const {
    if (unit.of == Unit::Of::any) return left();
    std::int64_t sum = 0;
    for (std::size_t s = stretch_; s < edge_->stretches.size(); ++s) {
        const Stretch& stretch = edge_->stretches[s];
        std::int64_t in_turn = 0;
        for (const Run& run : stretch.runs)
            if (matches(unit, run.stand)) in_turn += by_chain(unit) ? atoms(run) : run.count;
        if (s > stretch_) {
            sum += stretch.times * in_turn;
            continue;
        }
        sum += (stretch.times - turn_ - 1) * in_turn;
        for (std::size_t r = run_; r < stretch.runs.size(); ++r)
            sum += places(unit, stretch.runs[r]);
    }
    return sum;
}

std::int64_t Cursor::repeats_since(const Phase& from) const {
    if (from.stretch != stretch_) return 0;
    if (at_end()) return largest_number;
    const Stretch& stretch = edge_->stretches[stretch_];
    if (from.turn == turn_ && from.run == run_) {
        const std::int64_t step = used_ - from.used;
        if (step == 0) return largest_number;
        return step < 0 ? 0 : (atoms(stretch.runs[run_]) - used_) / step;
    }
    if (from.run != run_ || from.used != used_ || from.turn >= turn_) return 0;
    const bool whole_turns = run_ == 0 && used_ == 0;
    return (stretch.times - (whole_turns ? 0 : 1) - turn_) / (turn_ - from.turn);
}

void Cursor::jump(const Phase& from, std::int64_t times, std::int64_t passed,
                  std::int64_t stitches) {
    passed_ += times * passed;
    stitches_ += times * stitches;
    if (at_end()) return;
    const Stretch& stretch = edge_->stretches[stretch_];
    if (from.turn == turn_ && from.run == run_) {
        used_ += times * (used_ - from.used);
        if (used_ == atoms(stretch.runs[run_])) next_run();
        return;
    }
    turn_ += times * (turn_ - from.turn);
    if (turn_ == stretch.times) {
        turn_ = 0;
        ++stretch_;
    }
}

}  // namespace skeinfall::notation
