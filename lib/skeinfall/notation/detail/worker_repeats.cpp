// Repeats: worked in single steps until they come back to a like place, then all at once.

#include <algorithm>
#include <cstdint>
#include <optional>
#include <vector>

#include <fmt/format.h>

#include "skeinfall/notation/detail/worker.hpp"

namespace skeinfall::notation {
namespace {

/// Whether every time is like the last: nothing in it depends on where the row began or ends.
bool alike(const std::vector<Item>& items) {
    return std::all_of(items.begin(), items.end(), [](const Item& item) {
        if (item.what == Item::Do::opposite || item.what == Item::Do::marker ||
            item.what == Item::Do::at_marker || item.what == Item::Do::drop_marker)
            return false;
        switch (item.spot.which) {
            case Spot::Which::each:
            case Spot::Which::first:
            case Spot::Which::last:
            case Spot::Which::from_hook:
            case Spot::Which::turning:
                return false;
            default:
                return (item.what != Item::Do::repeat ||
                        item.extent.until != Extent::Until::to_end) &&
                       alike(item.items);
        }
    });
}

std::int64_t in_all(const Extent& extent) {
    return extent.count + (extent.until == Extent::Until::times ? 0 : 1);
}

}  // namespace

void spaces_named(const std::vector<Item>& items, std::vector<std::int64_t>& chains) {
    for (const Item& item : items) {
        if (item.spot.unit.of == Unit::Of::space) chains.push_back(item.spot.unit.chains);
        spaces_named(item.items, chains);
    }
}

Worker::Mark Worker::mark() {
    return {cursor_, counts_, builder_.mark(), missing_, loose_, loose_unit_, yarn_};
}

void Worker::back_to(const Mark& mark) {
    cursor_ = mark.cursor;
    counts_ = mark.counts;
    builder_.back_to(mark.edge);
    missing_ = mark.missing;
    missing_named_ = missing_named_ && missing_ > 0;
    loose_ = mark.loose;
    loose_unit_ = mark.loose_unit;
    yarn_ = mark.yarn;
}

void Worker::repeat(const std::vector<Item>& items, std::size_t index, std::int64_t keep) {
    const Item& item = items[index];
    const bool open_ended = item.extent.until == Extent::Until::to_end;
    if (in_one_ && open_ended)
        return report(Severity::stop, item.at, "a repeat across the row inside a single stitch",
                      "Say how many times.");
    if (item.last_only != Item::Last::no &&
        ask(reading::last_only) != (item.last_only == Item::Last::usual)) {
        run(item.items, 0, item.items.size() - 1);
        Item last = item.items.back();
        if (!open_ended) {
            Item only = item;
            only.items = {last};
            loop(only, in_all(item.extent), keep);
            return;
        }
        last.spot.which = Spot::Which::each;
        last.spot.keep = item.extent.keep;
        if (last.what == Item::Do::work) last.count = 1;
        if (!out_.given_up) step({last}, 0);
        return;
    }
    std::int64_t times = in_all(item.extent);
    if (item.extent.until == Extent::Until::n_times && ask(reading::times_in_all)) --times;
    last_follows_ = item.extent.keep > 0 && index + 1 < items.size() &&
                    items[index + 1].spot.which == Spot::Which::last &&
                    book().craft() == Craft::crochet;
    if (item.stop_at == 0) return loop(item, open_ended ? -1 : times, keep);
    const std::size_t stop = std::min<std::size_t>(item.stop_at, item.items.size());
    const std::int64_t partial =
        need_of(std::vector<Item>(item.items.begin(),
                                  item.items.begin() + static_cast<std::ptrdiff_t>(stop)),
                0);
    loop(item, open_ended ? -1 : times - 1, keep + partial);
    run(item.items, 0, stop);
}

/// `times` in all, or (-1) as often as it goes with `keep` stitches left over.
void Worker::loop(const Item& item, std::int64_t times, std::int64_t keep) {
    const bool jumps = below_->markers.empty() && alike(item.items);
    ++loops_;
    endless_ += times < 0 ? 1 : 0;
    const bool parted = book().craft() == Craft::knit && times > 1 && loops_ == 1 &&
                        below_->markers.empty() && cursor_.left() % times == 0 &&
                        (context_->round || context_->circular);
    share_from_ = cursor_.passed();
    share_each_ = parted ? cursor_.left() / times : 0;
    Mark saved = mark();
    std::int64_t saved_at = 0;
    std::int64_t next_save = 1;
    std::int64_t done = 0;
    std::int64_t each = need_of(item.items, 0);
    while (!out_.given_up) {
        if (times >= 0 ? done >= times : cursor_.left() <= keep && (keep > 0 || cursor_.at_end()))
            break;
        const Mark before = mark();
        missing_named_ = false;
        repeat_began_ = cursor_.passed();
        run(item.items);
        if (out_.given_up) break;
        if (times < 0) {
            if (missing_ > before.missing || cursor_.left() < keep) {
                const bool named_at_once = missing_named_ && missing_at_ == before.cursor.passed();
                const Unit unit = missing_unit_;
                back_to(before);
                const std::int64_t rest = cursor_.left() - keep;
                if (rest > 0 && keep == 0 && context_->round && loops_ == 1 &&
                    book().craft() == Craft::crochet && rest <= closing_chain()) {
                    // "(ch 2, sk next st, dc in next st) around, ch 2, join"
                } else if (rest > 0 && loops_ == 1 && begins_with_loop() && closed_by_stitch()) {
                    // "*ch 5, sc in next loop* around, ch 2, dc in last dc": its loop is left
                } else if (rest > 0 && done > 0 && item.stop_at > 0 && rest <= each &&
                           book().craft() == Craft::crochet) {
                    // "*5 dc in next 2 sps,** (2 tr, ch 2, 2 tr) in next sp; rep ... ending at **"
                } else if (rest > 0 && done > 0 && ends_as_begun(item, keep)) {
                    // "(3 dc, ch 2, 3 dc) in first sp, *3 dc in next sp, (3 dc, ch 2, 3 dc) in
                    // next sp* around": the last corner is there already
                } else if (rest > 0 && skip_closes(item, keep)) {
                    // "*sk next dc, tr in next dc, ch 5; rep from * around, join"
                } else if (named_at_once && done == 0 && rest > 0 &&
                           book().craft() == Craft::crochet &&
                           (unit.of == Unit::Of::kind || below_->counted_only)) {
                    report(Severity::stop, item.at,
                           "the row below has none of the places that this repeat names",
                           "Name stitches or spaces of the row below.");
                    left_by_design_ = true;
                } else if (named_at_once && done == 0 && rest > 3 && below_->spaces == 0 &&
                           unit.of == Unit::Of::space && item.spot.which != Spot::Which::same &&
                           book().craft() == Craft::crochet && !below_->counted_only) {
                    report(Severity::stop, item.at,
                           "the row below has none of the places that this repeat names",
                           "Name stitches or spaces of the row below.");
                    left_by_design_ = true;
                } else if (named_at_once ||
                           (rest > 0 && item.extent.to_space && stops_before_space(item, keep))) {
                    loose_ = true;
                    loose_unit_ = unit;
                } else if (rest > 0 && done > 0 && last_follows_ &&
                           item.items.front().what == Item::Do::skip &&
                           item.items.front().spot.count == rest) {
                    // "*sk 2 dc, 5 dc in next sc, sk 2 dc, sc in next dc* to last sc, 3 dc in last"
                    report(Severity::ok, item.at,
                           fmt::format("{} stitches before the last are passed over", rest));
                    loose_ = true;
                    loose_unit_ = {};
                } else if (item.partial || (rest > 0 && context_->check_count &&
                                            !body_->declared.empty() && ask(reading::partly))) {
                    part_of(item.items, keep);
                } else if (rest > 0) {
                    report(Severity::stop, item.at,
                           fmt::format("the repeat does not come out even: after {} times {} of "
                                       "the stitches below are left, one repeat takes {}",
                                       done, rest, each),
                           "Check the repeat against the stitches of the row below.");
                    left_by_design_ = true;
                }
                break;
            }
            const Cursor::Phase a = before.cursor.phase();
            const Cursor::Phase b = cursor_.phase();
            if (a.stretch == b.stretch && a.turn == b.turn && a.run == b.run && a.used == b.used) {
                back_to(before);
                report(Severity::stop, item.at,
                       "the repeat uses no stitch of the row below, so it has no end",
                       "Say how many times.");
                left_by_design_ = true;
                break;
            }
            if (cursor_.passed() > before.cursor.passed())
                each = cursor_.passed() - before.cursor.passed();
        }
        ++done;
        std::int64_t jumped = 0;
        if (jumps &&
            try_jump(saved, done - saved_at, times < 0 ? -1 : times - done, keep, jumped)) {
            done += jumped * (done - saved_at);
            saved = mark();
            saved_at = done;
            next_save = 1;
        } else if (done - saved_at >= next_save) {
            saved = mark();
            saved_at = done;
            next_save = std::min<std::int64_t>(2 * next_save, std::int64_t{1} << 20U);
        }
    }
    --loops_;
    endless_ -= times < 0 ? 1 : 0;
}

/// Whether none of the spaces that a repeat names lies before the one it stops at, so that it has
/// gone as far as it says.
bool Worker::stops_before_space(const Item& item, std::int64_t keep) const {
    std::vector<std::int64_t> own;
    spaces_named(item.items, own);
    return std::none_of(own.begin(), own.end(), [&](std::int64_t chains) {
        const Unit space{Unit::Of::space, 0, chains};
        if (cursor_.left(space) == 0) return false;
        Cursor probe = cursor_;
        probe.seek(space);
        return probe.left() > keep;
    });
}

/// Stitches of the row below behind the next chain space that a repeat stops at.
std::int64_t Worker::to_space(const Item& item) {
    if (item.extent.last_space) {
        const Unit space{Unit::Of::space, 0, item.extent.chains};
        const std::int64_t spaces = cursor_.left(space);
        Cursor probe = cursor_;
        if (spaces > 1) probe.advance(space, spaces - 1);
        if (spaces > 0) {
            probe.seek(space);
            return probe.left();
        }
        report(Severity::stop, item.at, "the row below does not show where this repeat stops",
               "Say how often, like: rep from * 4 times.");
        return 0;
    }
    std::vector<std::int64_t> own;
    spaces_named(item.items, own);
    std::optional<std::int64_t> ahead;
    constexpr std::int64_t most_chains = 9;
    const bool clear = item.extent.chains > 0 || std::find(own.begin(), own.end(), 0) == own.end();
    for (std::int64_t chains = 1; chains <= most_chains && clear; ++chains) {
        const Unit space{Unit::Of::space, 0, chains};
        if ((item.extent.chains > 0 && chains != item.extent.chains) ||
            std::find(own.begin(), own.end(), chains) != own.end() || cursor_.left(space) == 0)
            continue;
        Cursor probe = cursor_;
        probe.seek(space);
        const std::int64_t passed = probe.passed() - cursor_.passed();
        ahead = std::min(ahead.value_or(passed), passed);
    }
    if (ahead) return cursor_.left() - *ahead;
    report(Severity::stop, item.at, "the row below does not show where this repeat stops",
           "Say how often, like: rep from * 4 times.");
    return 0;
}

/// Whether what a round has left is just what its repeat passes over first: it lies under the
/// chain that the last time ended with. Passes it then.
bool Worker::skip_closes(const Item& item, std::int64_t keep) {
    if (!context_->round || keep != 0 || item.items.size() < 2 || book().craft() != Craft::crochet)
        return false;
    // "*ch 1, sk 1, 3 dc in next st* around": the chain comes once more.
    const bool chain_first = item.items.size() > 2 && item.items[0].what == Item::Do::chain;
    const std::size_t skip = chain_first ? 1 : 0;
    if (item.items[skip].what != Item::Do::skip ||
        (!chain_first && item.items.back().what != Item::Do::chain))
        return false;
    const Mark before = mark();
    for (std::size_t i = 0; i <= skip; ++i) one(item.items, i);
    const bool fine =
        missing_ == before.missing &&
        (cursor_.left() == 0 || (loose_ && cursor_.left(loose_unit_) == 0 && cursor_.left() <= 2));
    if (!fine) back_to(before);
    if (fine) left_by_design_ = true;
    return fine;
}

/// Whether what a round has left is all of the repeat but the group it ends with, which is the one
/// that the round began with. Works it then.
bool Worker::ends_as_begun(const Item& item, std::int64_t keep) {
    if (!context_->round || keep != 0 || loops_ != 1 || book().craft() != Craft::crochet)
        return false;
    const auto in_place = [](const Item& one) {
        return one.what == Item::Do::group || one.what == Item::Do::work;
    };
    const auto repeat = std::find_if(body_->items.begin(), body_->items.end(),
                                     [](const Item& one) { return one.what == Item::Do::repeat; });
    const bool begun = std::any_of(body_->items.begin(), repeat, [&](const Item& one) {
        return in_place(one) && one.kind != book().slip_stitch() &&
               (one.spot.which == Spot::Which::same || one.spot.which == Spot::Which::first);
    });
    const auto last = std::find_if(item.items.rbegin(), item.items.rend(), in_place);
    if (!begun || last == item.items.rend() || last + 1 == item.items.rend()) return false;
    const bool several = last->what == Item::Do::group || last->count > 1 ||
                         book().at(last->kind).makes > 1 ||
                         context_->make_ups->contains(last->kind);
    const bool before = std::any_of(last + 1, item.items.rend(), in_place);
    if (!several || !before) return false;
    const Mark saved = mark();
    for (auto one_of = item.items.begin(); &*one_of != &*last; ++one_of)
        one(item.items, static_cast<std::size_t>(one_of - item.items.begin()));
    const bool fine = missing_ == saved.missing &&
                      (cursor_.left() == 0 || (loose_ && cursor_.left(loose_unit_) == 0));
    if (!fine) {
        back_to(saved);
        return false;
    }
    report(Severity::ok, item.at, "the last time ends before the group that the round began with");
    left_by_design_ = true;
    return true;
}

/// As much of the last repeat as goes before `keep` stitches are left.
void Worker::part_of(const std::vector<Item>& items, std::int64_t keep) {
    for (std::size_t i = 0; i < items.size() && !out_.given_up; ++i) {
        const Mark before = mark();
        one(items, i);
        if (missing_ == before.missing && cursor_.left() >= keep) continue;
        const std::int64_t rest = before.cursor.left() - keep;
        back_to(before);
        if (items[i].what != Item::Do::work || rest <= 0) return;
        Item fewer = items[i];  // "k2" of a rib that ends with k1
        fewer.count = rest / std::max<std::int64_t>(1, book().at(fewer.kind).takes);
        if (fewer.spot.which == Spot::Which::implied && fewer.count > 0) work(fewer, keep);
        return;
    }
}

/// Goes the way from `from`, which took `iterations`, as often again as it stays alike.
bool Worker::try_jump(const Mark& from, std::int64_t iterations, std::int64_t times_left,
                      std::int64_t keep, std::int64_t& jumped) {
    if (from.yarn != yarn_) return false;
    const std::int64_t passed = cursor_.passed() - from.cursor.passed();
    std::int64_t times = cursor_.repeats_since(from.cursor.phase());
    if (times_left >= 0)
        times = std::min(times, times_left / iterations);
    else if (passed > 0)
        times = std::min(times, (cursor_.left() - keep) / passed);
    if (times <= 0) return false;
    for (auto& [kind, sum] : counts_) {
        std::int64_t had = 0;
        for (const auto& [known, count] : from.counts)
            if (known == kind) had = count;
        sum += (sum - had) * times;
        if (sum > largest_number) give_up(0, "the row has more than 1000000 stitches");
    }
    missing_ += (missing_ - from.missing) * times;
    if (missing_ > largest_number) give_up(0, "the row takes more than 1000000 stitches");
    if (out_.given_up) return false;
    builder_.repeat(from.edge, times, loops_ == 1 && !in_one_);
    if (builder_.too_large()) give_up(0, "the row is too intricate to follow");
    cursor_.jump(from.cursor.phase(), times, passed,
                 cursor_.stitches_passed() - from.cursor.stitches_passed());
    jumped = times;
    return true;
}

}  // namespace skeinfall::notation
