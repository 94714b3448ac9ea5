// Markers, short rows and holders: what is left unworked, what waits, and what is taken up again.

#include <algorithm>
#include <cstdint>

#include <fmt/format.h>

#include "skeinfall/notation/detail/pattern_worker.hpp"
#include "skeinfall/notation/detail/worker.hpp"

namespace skeinfall::notation {

/// A marker is placed, passed or taken out where the row has got to.
void Worker::marker(const Item& item) {
    if (book().craft() != Craft::knit) return;
    const std::int64_t here = builder_.stitches();
    if (item.what == Item::Do::marker) {
        placed_markers_.push_back(here);
        return;
    }
    // A marker that passed by itself just before counts as this one.
    if (next_marker_ > 0 && below_->markers[next_marker_ - 1] == cursor_.passed()) {
        moved_up_[next_marker_ - 1] = item.what == Item::Do::drop_marker ? -1 : here;
        return;
    }
    // The one where a round begins is not kept among them.
    if (cursor_.passed() == 0 || cursor_.at_end()) return;
    // Where none is known, as behind a row that was not followed, the marker changes no count.
    const bool known = next_marker_ < below_->markers.size();
    report(known ? Severity::stop : Severity::caution, item.at,
           known ? fmt::format("a marker is named here, but the next one is {} stitches on",
                               below_->markers[next_marker_] - cursor_.passed())
                 : "a marker is named here, and none is known in the row below",
           "Say where it was placed, like: k12, pm, k to end.");
}

/// Stitches of the row below behind the place `before` stitches ahead of the next marker.
std::int64_t Worker::to_marker(const Item& item, std::int64_t before) {
    while (next_marker_ < below_->markers.size() &&
           below_->markers[next_marker_] <= cursor_.passed() && !moved_up_.empty() &&
           below_->markers[next_marker_] < cursor_.passed())
        ++next_marker_;
    if (item.spot.to_gap || item.extent.to_gap) {
        if (below_->gap > 0 && below_->gap - before >= cursor_.passed())
            return cursor_.passed() + cursor_.left() - below_->gap + before;
        report(Severity::stop, item.at, "the row below was not turned before its end",
               "Say how many stitches are worked.");
        return before;
    }
    std::size_t at = next_marker_;
    while (at < below_->markers.size() && below_->markers[at] - before < cursor_.passed()) ++at;
    if ((item.spot.last_marker || item.extent.last_marker) && at < below_->markers.size())
        at = below_->markers.size() - 1;
    if (const std::int64_t nth = std::max(item.spot.nth_marker, item.extent.nth_marker); nth > 0)
        at = counted_marker(nth, at, item.at);
    if (at < below_->markers.size()) {
        const std::int64_t total = cursor_.passed() + cursor_.left();
        return total - below_->markers[at] + before;
    }
    if (share_each_ > 0 && cursor_.passed() < share_from_ + share_each_ * 100) {
        // "(k1, m1, k to 1 st before marker, m1, k1) twice": equal parts of the round
        const std::int64_t parts = (cursor_.passed() + before - share_from_) / share_each_ + 1;
        const std::int64_t end = share_from_ + parts * share_each_;
        if (body_->declared.empty())
            report(
                Severity::caution, item.at,
                fmt::format("no marker is known here; the round is taken in parts of {} stitches",
                            share_each_),
                "Say where it was placed, like: k12, pm, k to end.");
        return std::max<std::int64_t>(0, cursor_.passed() + cursor_.left() - end) + before;
    }
    if (!context_->round && !context_->circular)
        report(Severity::stop, item.at, "no marker stands ahead in the row below",
               "Say where it was placed, or how many stitches come before it.");
    return before;
}

/// Which one the nth marker of the row is, where `ahead` is the next one.
std::size_t Worker::counted_marker(std::int64_t nth, std::size_t ahead, std::uint32_t at) {
    if (below_->markers.empty()) return ahead;
    const auto index = static_cast<std::size_t>(nth - 1);
    if (index >= ahead && index < below_->markers.size()) return index;
    report(Severity::stop, at,
           fmt::format("marker {} is named, but {}", nth,
                       index < ahead ? "it was passed before"
                                     : fmt::format("the row has {}", below_->markers.size())),
           "Write \"to marker\" for the next one, or how many stitches come before it.");
    return ahead;
}

/// Markers that were passed while `made` stitches became more stand where they were passed.
void Worker::note_markers(std::int64_t passed, std::int64_t made) {
    moved_up_.resize(below_->markers.size(), -1);
    const std::int64_t now = cursor_.passed();
    const std::int64_t become = builder_.stitches() - made;
    while (next_marker_ < below_->markers.size() && below_->markers[next_marker_] <= now) {
        const std::int64_t at = below_->markers[next_marker_];
        const std::int64_t share =
            now > passed ? (at - passed) * become / std::max<std::int64_t>(1, now - passed)
                         : become;
        moved_up_[next_marker_++] = made + std::max<std::int64_t>(0, share);
    }
}

void Worker::move_markers() {
    std::vector<std::int64_t>& markers = out_.edge.markers;
    for (const std::int64_t marker : moved_up_)
        if (marker >= 0) markers.push_back(marker);
    markers.insert(markers.end(), placed_markers_.begin(), placed_markers_.end());
    std::sort(markers.begin(), markers.end());
    markers.erase(std::unique(markers.begin(), markers.end()), markers.end());
    std::erase_if(markers,
                  [&](std::int64_t marker) { return marker <= 0 || marker >= out_.edge.stitches; });
}

/// Stitches behind the place where rows end, as long as it lies ahead.
std::int64_t Worker::beyond_gap() const {
    if (!below_->gap_ends || cursor_.passed() > below_->gap) return 0;
    return cursor_.passed() + cursor_.left() - below_->gap;
}

/// What the row has made since its beginning or its last turn, with its markers.
Edge Worker::made_edge() {
    out_.edge = builder_.edge();
    if (!moved_up_.empty() || !placed_markers_.empty()) move_markers();
    return std::move(out_.edge);
}

/// A turn before the end leaves stitches for later. Behind the last stitch the row below ends
/// with it; before others the work goes on from there.
void Worker::turn(const std::vector<Item>& items, std::size_t index) {
    if (book().craft() != Craft::knit || in_one_ || !placed_) return;
    const bool more = std::any_of(
        items.begin() + static_cast<std::ptrdiff_t>(index) + 1, items.end(), [](const Item& item) {
            return item.what != Item::Do::turn && item.what != Item::Do::unworked &&
                   item.what != Item::Do::join;
        });
    if (items[index].what == Item::Do::unworked && items[index].count > 0 &&
        cursor_.left() != items[index].count)
        report(Severity::stop, items[index].at,
               fmt::format("{} stitches are said to stay unworked, {} are left", items[index].count,
                           cursor_.left()));
    if (&items == &body_->items && !more) {
        if (cursor_.left() > 0) out_.rest = cursor_.rest();
        left_by_design_ = true;
        return;
    }
    if (items[index].what == Item::Do::unworked) return;
    const Edge rest = cursor_.rest();
    turned_.push_back(turned_edge(made_edge(), rest, *below_, context_->circular));
    consumed_before_ += cursor_.stitches_passed();
    below_ = &turned_.back();
    builder_ = EdgeBuilder();
    moved_up_.clear();
    placed_markers_.clear();
    next_marker_ = 0;
    missing_at_ = 0;
    cursor_ = Cursor(*below_, book(), (reading_ & reading::spaces_passed) == 0);
}

/// "place next 11 sts on waste yarn"
void Worker::hold(const Item& item) {
    std::int64_t count = item.spot.count;
    if (item.spot.keep > 0) {
        if (item.spot.keep != below_->stitches)
            report(Severity::stop, item.at,
                   fmt::format("{} stitches are worked, {} are there", item.spot.keep,
                               below_->stitches),
                   "Say on which row the others are put on a holder.");
        return;
    }
    if (item.spot.which == Spot::Which::same && item.count > 0) {
        if (!builder_.take_off(count))
            report(Severity::stop, item.at,
                   fmt::format("{} stitches are to wait, and fewer are worked right before", count),
                   "Say which stitches are put on the holder.");
    } else if (item.spot.to_marker) {
        Item ahead = item;
        if (next_marker_ < below_->markers.size() &&
            below_->markers[next_marker_] == cursor_.passed())
            ++next_marker_;  // the one it begins at
        count = cursor_.left() - to_marker(ahead, 0);
        advance(Unit{}, count);
    } else if (item.count == 0) {
        count = beyond_gap() > 0 ? beyond_gap() : cursor_.left();
        if (beyond_gap() > 0) {  // "place rem 32 sts on a holder": not those being worked
            left_by_design_ = true;
            return;
        }
        advance(Unit{}, count);
    } else {
        places_for(item, 1, 0);
    }
    if (count > 0) out_.held.push_back(count);
}

/// "knit across 32 held sts"
void Worker::unhold(const Item& item) {
    const std::vector<std::int64_t>& held = *context_->held;
    std::size_t at = out_.taken_up.size();
    if (item.count > 0)
        for (std::size_t i = 0; i < held.size(); ++i)
            if (held[i] == item.count &&
                std::find(out_.taken_up.begin(), out_.taken_up.end(),
                          static_cast<std::int64_t>(i)) == out_.taken_up.end()) {
                at = i;
                break;
            }
    if (at >= held.size()) {
        // Stitches that only waited on their needle are the next ones of the round.
        if (item.count > 0 && cursor_.left() >= item.count) {
            advance(Unit{}, item.count);
            emit_kind(item.kind, item.count);
            return;
        }
        return report(Severity::stop, item.at, "no stitches are known to be on a holder",
                      "Say where they were put there, like: place next 32 sts on a holder.");
    }
    if (item.count > 0 && held[at] != item.count)
        report(Severity::stop, item.at,
               fmt::format("{} held stitches are named, {} were put on the holder", item.count,
                           held[at]));
    out_.taken_up.push_back(static_cast<std::int64_t>(at));
    std::sort(out_.taken_up.begin(), out_.taken_up.end());
    placed_ = true;
    emit_kind(item.kind, item.count > 0 ? item.count : held[at]);
}

std::int64_t PatternWorker::taken_up(const Item& item) {
    std::size_t at = 0;
    if (item.count > 0)
        while (at < held_.size() && held_[at] != item.count) ++at;
    if (at >= held_.size()) return item.count;
    const std::int64_t count = held_[at];
    held_.erase(held_.begin() + static_cast<std::ptrdiff_t>(at));
    return count;
}

void PatternWorker::between_rows(const std::vector<Item>& items, const Written& next) {
    bool finished = false;
    for (const Item& item : items) {
        switch (item.what) {
            case Item::Do::let_go:
                finished = true;
                break;
            case Item::Do::work_only:
                if (item.count >= below_.stitches || item.count < 1) break;
                below_.gap = item.count;
                below_.gap_ends = true;
                context_.circular = true;
                break;
            case Item::Do::hold: {
                if (item.spot.keep > 0) {  // "working on these 20 sts only": the others wait
                    if (item.spot.keep >= below_.stitches) break;
                    if (next.round || context_.circular) {
                        below_.gap = item.spot.keep;
                        below_.gap_ends = true;
                        context_.circular = true;
                        break;
                    }
                    held_.push_back(below_.stitches - item.spot.keep);
                    Edge kept;
                    kept.stretches = {{1, {{{book_->find_us("k"), 0}, item.spot.keep}}}};
                    kept.settle();
                    below_ = kept;
                    break;
                }
                std::int64_t count =
                    item.count == 0 ? below_.stitches - below_.gap : item.spot.count;
                if (item.count == 0 && (!below_.gap_ends || below_.gap == 0)) count = 0;
                const bool behind = below_.gap_ends && below_.stitches - below_.gap == count;
                if (count < 1 || count > below_.stitches) break;
                Cursor cursor(below_, *book_, true);
                if (behind) {  // those that are not worked
                    Edge kept;
                    kept.stretches = {{1, {{{book_->find_us("k"), 0}, below_.gap}}}};
                    kept.settle();
                    below_ = kept;
                } else {
                    cursor.advance(Unit{}, count);
                    below_ = cursor.rest();
                }
                held_.push_back(count);
                break;
            }
            case Item::Do::unhold: {
                const std::int64_t count = taken_up(item);
                if (count == 0)
                    report(next, Severity::stop, 0, "no stitches are known to be on a holder",
                           "Say how many they are.");
                Edge up;
                up.stretches = {{1, {{{book_->find_us("k"), 0}, count}}}};
                up.settle();
                below_ = finished || below_.stitches == 0 ? up : joined_edges(below_, up);
                break;
            }
            default:
                break;
        }
    }
}

/// "k22, inc 1, k22" above 44 stitches: between two of them, as "m1" is.
bool Worker::made_between(const Item& item) const {
    return item.what == Item::Do::increase && book().craft() == Craft::knit &&
           item.spot.which == Spot::Which::implied && (reading_ & reading::made_in_stitch) != 0;
}

bool Worker::asks_between(const Item& item) {
    if (item.spot.which == Spot::Which::implied) out_.asked |= reading::made_in_stitch;
    return made_between(item);
}

}  // namespace skeinfall::notation
