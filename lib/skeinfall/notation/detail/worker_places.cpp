// Where stitches go on the row below, and the chains that rows begin with.

#include <algorithm>
#include <cstdint>

#include <fmt/format.h>

#include "skeinfall/notation/detail/worker.hpp"

namespace skeinfall::notation {
namespace {

constexpr std::int64_t most_needed = 1'000'000'000;

/// Items after which the row has not begun to be worked.
bool only_prepares(const Item& item) {
    return item.what == Item::Do::turn || item.what == Item::Do::join ||
           item.what == Item::Do::ring || item.what == Item::Do::yarn;
}

}  // namespace

std::int64_t Worker::advance(const Unit& named, std::int64_t count) {
    if (const MakeUp* group = group_of(named)) return advance_groups(*group, count);
    Unit unit = chains_are_stitches_ && named.of == Unit::Of::chain ? Unit{} : named;
    // "last ch-7 sp": the whole of the chain the row below began with
    if (unit.of == Unit::Of::space && unit.chains > 0 && unit.chains == below_->began &&
        cursor_.left(unit) == 0)
        unit.chains = 0;
    // "sk 2 ch, dc in next ch": the chain the row below began with, its last stitch
    if (unit.of == Unit::Of::chain && !below_->foundation && count == 1 && cursor_.left() == 1 &&
        cursor_.left(unit) == 0 && placed_)
        unit = Unit{};
    // "(3 dc, ch 2) in ch-2 sp" at the end of a round: where it began
    if (unit.of == Unit::Of::space && count == 1 && context_->round && placed_ && loops_ == 0 &&
        !rotated_.stretches.empty() && cursor_.left() == 0 && cursor_.left(unit) == 0)
        return 1;
    const std::int64_t before = cursor_.passed();
    if (context_->ring && below_->stretches.empty() && own_base_.stretches.empty()) {
        placed_ = true;  // "ch 3, 11 dc" into the ring that was made
        left_by_design_ = true;
        return count;
    }
    std::int64_t found = cursor_.advance(unit, count);
    placed_ = true;
    // "sc in last sp": that of the chain beside the row below
    if (found + 1 == count && unit.of == Unit::Of::space && below_->beside > 1 && endless_ == 0 &&
        !std::exchange(beside_used_, true) && !context_->round)
        ++found;
    if (found < count) {
        missing_ = std::min(missing_ + count - found, most_needed);
        missing_named_ = unit.of != Unit::Of::any;
        missing_at_ = before;
        missing_unit_ = unit;
    }
    const bool plain = unit.of == Unit::Of::any || unit.of == Unit::Of::either ||
                       unit.of == Unit::Of::single ||
                       (unit.of == Unit::Of::chain && below_->foundation && start_chain_ == 0) ||
                       (unit.of == Unit::Of::chain && start_chain_ > 0);
    loose_ = !plain;
    loose_unit_ = unit;
    return found;
}

/// How many times the item is worked; the places it goes into are passed. `takes` is what one
/// stitch of it uses up, `keep` what "across" has to leave.
std::int64_t Worker::places_for(const Item& item, std::int64_t takes, std::int64_t keep) {
    if (other_kind(item.spot.unit)) {
        Item meant = item;
        if (meant.spot.unit.of == Unit::Of::either ||
            (meant.spot.unit.of == Unit::Of::space && below_->spaces > 0))
            meant.spot.unit.chains = 0;
        else
            meant.spot.unit = {};
        return places_for(meant, takes, keep);
    }
    const Spot& spot = item.spot;
    const auto pieces = [&] {  // "sc2tog over next 2 sts"
        if (spot.count % takes != 0)
            report(
                Severity::stop, item.at,
                fmt::format("{} stitches worked together do not fit {} places", takes, spot.count));
        const std::int64_t all = std::max<std::int64_t>(1, spot.count / takes);
        return item.count == all ? 1 : all;
    };
    switch (spot.which) {
        case Spot::Which::implied:
            if (takes == 1 && item.count > 3 && !in_one_ && loops_ == 0)  // "Ch 31." and "sc 30"
                static_cast<void>(chains_to_turn(item));
            if (item.what == Item::Do::group || item.what == Item::Do::skip)
                advance(Unit{}, 1);
            else if (takes == 1 && item.count > 1 && item.count < 4 &&
                     (loops_ > 0 || cursor_.left() == 1) && item.what == Item::Do::work &&
                     book().craft() == Craft::crochet && asks_in_one())
                advance(Unit{}, 1);
            else if (takes > 0)
                advance(Unit{}, std::min(takes * item.count, most_needed));
            else
                placed_ = true;
            return 1;
        case Spot::Which::next: {
            if (context_->round && !placed_ && cursor_.passed() == 0 && !cursor_.at_end() &&
                rotated_.stretches.empty() && !below_->foundation && !in_one_ &&
                book().craft() == Craft::crochet &&
                (spot.unit.of == Unit::Of::space || spot.unit.of == Unit::Of::kind) &&
                group_of(spot.unit) == nullptr && !cursor_.next_is(spot.unit) &&
                cursor_.left(spot.unit) > 0) {
                out_.asked |= reading::begins_later;
                if ((reading_ & reading::begins_later) != 0) begin_at(spot.unit, 0);
            }
            if (!in_one_ && loops_ == 0 && !spot.in_one) static_cast<void>(chains_to_turn(item));
            pair_gap_ = spot.pair_gap;
            if (spot.gap) {
                out_.asked |= reading::gap_free;
                if ((reading_ & reading::gap_free) != 0) return 1;
            }
            if (spot.wide != 0) {
                if (spot.wide > 0) advance(spot.unit, spot.wide);
                placed_ = true;
                return 1;
            }
            const std::int64_t before = cursor_.stitches_passed();
            advance(spot.unit, spot.count);
            skip_group(item, cursor_.stitches_passed() - before);
            if (takes > 1 && spot.count > 1) return pieces();
            const bool as_many = item.what == Item::Do::work && item.count > 1 &&
                                 item.count == spot.count && !spot.distributed;
            return as_many && !ask(reading::every_in_each) ? 1 : spot.count;
        }
        case Spot::Which::each: {
            if (spot.wide > 0) return group_gaps(spot, item.at);
            static_cast<void>(chains_to_turn(item));
            const bool spaces = spot.unit.of == Unit::Of::space;  // a cluster in each space
            return each_places(spot, spaces ? std::min(takes, std::int64_t{1}) : takes, keep,
                               item.at);
        }
        case Spot::Which::first:
            // Within a repeat it is the first of that repeat.
            if (loops_ > 0 && placed_ && spot.nth > 1) {
                // "sc in first st, sc in second st": counted within the repeat
                if (cursor_.passed() - repeat_began_ != spot.nth - 1)
                    report(Severity::stop, item.at,
                           "a place counted from the beginning of the row within a repeat",
                           "Write what is skipped: sk next 2 sts, sc in next st.");
                advance(spot.unit, 1);
                return 1;
            }
            if (loops_ > 0 && placed_) {
                advance(spot.unit, spot.count);
                return takes > 1 && spot.count > 1 ? pieces() : spot.count;
            }
            // Later in a round it is where the round began.
            if (placed_) return 1;
            if (context_->round && spot.unit.of == Unit::Of::space && spot.nth == 1)
                begin_at(spot.unit, 0);
            cursor_ = Cursor(rotated_.stretches.empty() ? *below_ : rotated_, book(),
                             (reading_ & reading::spaces_passed) == 0);
            if (spot.nth > 1) advance(spot.unit, spot.nth - 1);
            advance(spot.unit, spot.count);
            return takes > 1 && spot.count > 1 ? pieces() : spot.count;
        case Spot::Which::last:
            last_places(spot, item.at);
            return takes > 1 && spot.count > 1 ? pieces() : spot.count;
        case Spot::Which::turning: {
            Spot last;
            last.which = Spot::Which::last;
            return last_places(last, item.at);
        }
        case Spot::Which::same:
            // "ch 1, sc in same st as joining": where the round begins
            if (cursor_.passed() == 0 && !cursor_.at_end()) {
                // "in same sp as join" where there is no space is the stitch of the joining.
                const bool space = spot.unit.of == Unit::Of::space && below_->spaces > 0;
                if (context_->round && space) begin_at(spot.unit, 0);
                advance(space || spot.unit.of != Unit::Of::space ? spot.unit : Unit{}, 1);
            }
            return spot.count;
        case Spot::Which::ring:
            left_by_design_ = true;
            placed_ = true;
            return std::max<std::int64_t>(1, spot.count);
        case Spot::Which::from_hook:
            return from_hook(item);
        case Spot::Which::opposite:
            return 1;
    }
    return 1;
}

std::int64_t Worker::each_places(const Spot& spot, std::int64_t takes, std::int64_t keep,
                                 std::uint32_t at) {
    const bool plain =
        spot.unit.of == Unit::Of::any || (chains_are_stitches_ && spot.unit.of == Unit::Of::chain);
    std::int64_t count = cursor_.left(plain ? Unit{} : spot.unit);
    if (spot.to_space && spot.unit.of == Unit::Of::space) return spaces_on_side(spot.unit, at);
    if (spot.to_space) {
        const Unit space{Unit::Of::space, 0, 0};
        Cursor probe = cursor_;
        if (cursor_.left(space) > 0) probe.seek(space);
        count = probe.passed() > cursor_.passed() ? probe.passed() - cursor_.passed() : 0;
        if (cursor_.left(space) == 0) count = cursor_.left();  // the last side of a round
        advance(Unit{}, count);
        placed_ = true;
        return count;
    }
    if (plain || spot.keeps_units) {
        count -= spot.keeps_units ? spot.keep : keep;
        if (count < 0) {
            missing_ = std::min(missing_ - count, most_needed);
            return 0;
        }
    } else if (keep > 0) {
        // The most places that leave so many stitches.
        std::int64_t least = 0;
        while (least < count) {
            const std::int64_t middle = least + (count - least + 1) / 2;
            Cursor probe = cursor_;
            probe.advance(spot.unit, middle);
            if (probe.left() >= keep)
                least = middle;
            else
                count = middle - 1;
        }
    }
    if (count == 0 && !plain && placed_ && !below_->foundation)
        report(Severity::stop, at, "the row below has no such place left");
    if (count == 0 && plain && keep == 0) tell_none_left(at);
    if (takes > 1) {
        if (count % takes != 0)
            report(Severity::stop, at,
                   fmt::format("{} stitches are left over when {} at a time are worked together",
                               count % takes, takes));
        advance(spot.unit, count);
        return count / takes;
    }
    if (count > 0) advance(spot.unit, count);
    placed_ = true;
    return count;
}

std::int64_t Worker::last_places(const Spot& spot, std::uint32_t at) {
    const bool was_loose = loose_;
    const std::int64_t gap = cursor_.left(spot.unit) - spot.count;
    const std::int64_t before = cursor_.left();
    if (gap > 0) cursor_.advance(spot.unit, gap);
    const std::int64_t passed = before - cursor_.left();
    if (passed > 0 && !was_loose)
        report(Severity::stop, at,
               fmt::format("{} stitches before the last of the row below are passed over", passed),
               "Say that they are skipped, or work them.");
    advance(spot.unit, spot.count);
    return spot.count;
}

std::int64_t Worker::from_hook(const Item& item) {
    const std::int64_t skipped = item.spot.count > 0 ? item.spot.count - 1
                                 : start_chain_ > 0
                                     ? start_chain_ - 1
                                     : std::max<std::int64_t>(0, below_->stitches - 1);
    skipped_ = skipped;
    const KindId kind = plain_kind_of(item);
    if (placed_) {
        report(Severity::stop, item.at, "a chain in the middle of a row is not worked back along",
               "Describe the row as a table of counts.");
        return 0;
    }
    if (start_chain_ > 0) {
        out_.own_base = true;
        own_base_ = *below_;
        own_base_.foundation = true;
        own_base_.stretches.insert(own_base_.stretches.begin(),
                                   {1, {{{book().chain(), 0}, start_chain_}}});
        own_base_.settle();
        cursor_ = Cursor(own_base_, book(), (reading_ & reading::spaces_passed) == 0);
    } else if (!below_->foundation) {
        report(Severity::caution, item.at,
               fmt::format("there is no foundation chain here: \"{} ch from hook\" is read as the "
                           "first stitch, after {} to turn",
                           item.spot.count == 2 ? "2nd" : fmt::format("{}th", item.spot.count),
                           fmt::format("ch {}", skipped)),
               "Write the row out the way it is worked above the first row.");
        chains_are_stitches_ = true;
        add(book().chain(), skipped);
        out_.work.turning_chain = skipped;
        skipped_chain(skipped, item, kind);
        if (out_.work.turning_chain_counts) advance(Unit{}, 1);
        advance(Unit{}, 1);
        return 1;
    }
    advance(Unit{Unit::Of::chain, 0, 0}, skipped);
    skipped_chain(skipped, item, kind);
    advance(Unit{Unit::Of::chain, 0, 0}, 1);
    return 1;
}

void Worker::counted_chain(KindId kind, std::int64_t extra) {
    builder_.add({kind, 0}, 1);
    if (extra > 0) builder_.add({book().chain(), static_cast<std::uint32_t>(extra)}, 1);
    out_.work.turning_chain_counts = true;
}

/// Works what stands before the first stitch; the index of the first item behind it.
std::size_t Worker::begin_row() {
    const std::vector<Item>& items = body_->items;
    std::size_t at = 0;
    const auto slips = [&](const Item& item) {
        return item.what == Item::Do::work && item.kind == book().slip_stitch() &&
               book().craft() == Craft::crochet;
    };
    while (at < items.size() && (only_prepares(items[at]) || slips(items[at]))) ++at;
    const bool has_chain = at < items.size() && items[at].what == Item::Do::chain;
    // "Sl st in next 2 ch, sc in same loop": slip stitches alone lead to where the round begins.
    const auto leads = [&] {
        if (has_chain || !context_->round || at == 0 || at >= items.size() ||
            !slips(items[at - 1]) ||
            (items[at].what != Item::Do::work && items[at].what != Item::Do::group))
            return false;
        const Unit::Of from = items[at - 1].spot.unit.of;
        const Spot& to = items[at].spot;
        return to.which == Spot::Which::same ||
               (to.which == Spot::Which::next && to.unit.of == Unit::Of::space &&
                (from == Unit::Of::chain || from == Unit::Of::space));
    };
    const bool led = leads();
    if (!has_chain && !led) {
        const Pending& pending = below_->turning;
        if (pending.chains > 0) turning_chain(pending.chains, pending.note, 0);
        first_loop();
        return 0;
    }
    const bool joined = std::any_of(items.begin(), items.end(),
                                    [](const Item& item) { return item.what == Item::Do::join; });
    for (std::size_t i = 0; i < at; ++i) {
        if (slips(items[i])) {
            // A joined round goes on from its first stitch: "next" is the second.
            const Spot& spot = items[i].spot;
            if (joined && !moved_ && spot.which == Spot::Which::next &&
                spot.unit.of != Unit::Of::space)
                advance(Unit{}, 1);
            // Slip stitches to where the round begins: passed over, and no stitches of it.
            const Cursor before = cursor_;
            const std::int64_t places = places_for(items[i], 1, 0);
            add(items[i].kind, places * items[i].count);
            moved_ = true;
            placed_ = false;
            const bool last = std::none_of(items.begin() + static_cast<std::ptrdiff_t>(i) + 1,
                                           items.begin() + static_cast<std::ptrdiff_t>(at), slips);
            const bool begins =
                spot.which == Spot::Which::next ||
                (spot.which == Spot::Which::first && spot.unit.of == Unit::Of::space);
            if (last && context_->round && begins && missing_ == 0) {
                cursor_ = before;
                // "next 2 ch" of a loop: the round begins with all of it
                const bool loop = spot.unit.of == Unit::Of::chain && below_->spaces > 0;
                begin_at(loop ? Unit{Unit::Of::space, 0, 0} : spot.unit, loop ? 0 : places - 1);
            }
        } else {
            one(items, i);
        }
    }
    if (led || bridges(items, at)) return at;
    add(book().chain(), items[at].count);
    std::size_t next = at + 1;
    while (next < items.size() && only_prepares(items[next])) one(items, next++);
    turning_chain(items[at].count, items[at].note, next);
    return next;
}

/// Whether the chain that a row begins with stands for its first stitch. The items from `next`
/// on tell what follows it.
void Worker::turning_chain(std::int64_t chains, const std::optional<TurningNote>& note,
                           std::size_t next) {
    Spot spot;
    const Item* follows = leaf(body_->items, next, spot);
    if (follows != nullptr && spot.which == Spot::Which::from_hook) {
        start_chain_ = chains;
        return;
    }
    const KindId kind = follows == nullptr ? book().chain() : plain_kind_of(*follows);
    const Stitch& stitch = book().at(kind);
    out_.work.turning_chain = chains;
    out_.turned_with = chains;
    out_.turned_to = kind;
    std::optional<TurningNote> said = note;
    const auto throughout = context_->notes->find(chains);
    if (!said && throughout != context_->notes->end()) said = throughout->second;

    bool counts = false;
    std::int64_t extra = 0;
    KindId as = kind;
    if (said) {
        // Told one way and worked the other: only where nothing else fits.
        out_.asked |= reading::turning;
        out_.against_note = (reading_ & reading::turning) != 0;
        counts = said->counts != out_.against_note;
        extra = said->chains;
        if (said->kind_said) as = said->kind;
        // "ch 3 (counts as dc)" once: so it is meant where it is not said again.
        if (note && chains > 1) out_.turning_in_doubt = TurningKey{kind, chains, skips_first(next)};
        out_.turning_said = note && !out_.against_note;
    } else if (chains > 1 && stitch.turning_chains > 0) {
        const bool closed = closes_on_stitch();
        // "ch 3, sc in next dc" where another stitch comes first: the chain stands on that one.
        const bool taller = chains >= stitch.turning_chains + 2 &&
                            stitch.counts == TurningChainCounts::no &&
                            spot.which == Spot::Which::next && spot.unit.of == Unit::Of::kind;
        const bool steps_over = taller && !cursor_.at_end() && !cursor_.next_is(spot.unit);
        const bool usual =
            !closed &&
            ((chains >= stitch.turning_chains && stitch.counts != TurningChainCounts::no) ||
             (chains > 1 && skips_first(next)) || steps_over);
        const TurningKey key{kind, chains, skips_first(next)};
        out_.turning_in_doubt = key;
        std::optional<bool> shown;
        if (context_->turnings != nullptr)
            if (const auto known = context_->turnings->find(key);
                known != context_->turnings->end())
                shown = known->second;
        // "ch 3, skip first st": one that stands for nothing would lose a stitch in every row.
        if (!shown && !(usual && skips_first(next) && !taller) &&
            (closed || taller || stitch.counts == TurningChainCounts::varies ||
             (stitch.counts == TurningChainCounts::yes && !usual)))
            out_.doubtful |= reading::turning;
        counts = shown.value_or(usual) != ask(reading::turning);
        extra = std::max<std::int64_t>(0, chains - stitch.turning_chains);
        if (counts && taller) {
            as = book().find_us(chains == 3 ? "dc" : "tr");
            extra = std::max<std::int64_t>(0, chains - 4);
        }
    }
    if (!counts) {
        if (chains > 1) out_.edge.beside = chains;
        return;
    }
    counted_chain(as, extra);
    out_.edge.began = chains;
    // "ch 4 (dc and ch 1), skip first 2 sts": the stitch it stands on is one of them.
    const bool skipped_too =
        next < body_->items.size() && body_->items[next].what == Item::Do::skip &&
        body_->items[next].spot.unit.of != Unit::Of::space && cursor_.passed() == 0 &&
        ((body_->items[next].spot.which == Spot::Which::first &&
          body_->items[next].spot.count > 1) ||
         (extra > 0 && body_->items[next].spot.which == Spot::Which::next &&
          body_->items[next].spot.count == extra + 1));
    // It stands on the first stitch, unless something else does or the round began elsewhere.
    if (moved_ || skipped_too || (skips_first(next) && cursor_.passed() == 0) ||
        spot.which == Spot::Which::ring || spot.which == Spot::Which::same ||
        spot.which == Spot::Which::first || cursor_.at_end())
        return;
    advance(Unit{}, 1);
    placed_ = false;
}

/// The first item that goes somewhere, and where.
const Item* Worker::leaf(const std::vector<Item>& items, std::size_t from, Spot& spot) const {
    for (std::size_t i = from; i < items.size(); ++i) {
        const Item& item = items[i];
        switch (item.what) {
            case Item::Do::meshes:
            case Item::Do::work:
            case Item::Do::increase:
            case Item::Do::decrease:
            case Item::Do::skip:
                spot = item.spot;
                if (item.what == Item::Do::skip) {
                    Spot behind;
                    const Item* next = leaf(items, i + 1, behind);
                    return next == nullptr ? &item : next;
                }
                return &item;
            case Item::Do::group: {
                Spot inner;
                const Item* first = leaf(item.items, 0, inner);
                spot = item.spot;
                return first == nullptr ? &item : first;
            }
            case Item::Do::repeat:
            case Item::Do::choose:
                if (const Item* first = leaf(item.items, 0, spot)) return first;
                break;
            default:
                break;
        }
    }
    return nullptr;
}

/// The kind whose turning chain an item asks for.
KindId Worker::plain_kind_of(const Item& item) const {
    if (item.what == Item::Do::meshes) return book().find_us("dc");
    if (item.what == Item::Do::work) {
        const auto own = context_->make_ups->find(item.kind);
        if (own == context_->make_ups->end() || own->second.own_top || own->second.items.empty())
            return book().at(item.kind).plain;
        Spot in_group;
        const Item* first = leaf(own->second.items, 0, in_group);
        return first != nullptr && first->what == Item::Do::work ? book().at(first->kind).plain
                                                                 : book().at(item.kind).plain;
    }
    if (item.what == Item::Do::group) {
        Spot spot;
        const Item* first = leaf(item.items, 0, spot);
        if (first != nullptr && first->what == Item::Do::work) return book().at(first->kind).plain;
    }
    return book().craft() == Craft::crochet ? book().find_us("sc") : book().find_us("k");
}

/// The stitch that "inc" and "dec" mean: the row's own, else that of the row below.
KindId Worker::row_kind(std::uint32_t at) {
    if (row_kind_) return *row_kind_;
    const auto plain = [&](KindId kind) {
        const Stitch& stitch = book().at(kind);
        return stitch.makes == 1 && stitch.takes == 1 && kind != book().slip_stitch() &&
               kind != book().chain() && !stitch.unknown;
    };
    std::vector<const std::vector<Item>*> lists{&body_->items};
    while (!lists.empty() && !row_kind_) {
        const std::vector<Item>& items = *lists.back();
        lists.pop_back();
        for (const Item& item : items) {
            if (item.what == Item::Do::work && plain(item.kind) && !row_kind_)
                row_kind_ = item.kind;
            if (!item.items.empty()) lists.push_back(&item.items);
        }
    }
    for (auto stretch = below_->stretches.rbegin();
         stretch != below_->stretches.rend() && !row_kind_; ++stretch)
        for (const Run& run : stretch->runs)
            if (run.stand.chains == 0 && plain(run.stand.kind)) row_kind_ = run.stand.kind;
    if (!row_kind_) {
        row_kind_ = book().find_us("sc");
        report(Severity::caution, at, "nothing says which stitch inc and dec mean; sc is taken",
               "Name it, like: 2 sc in next st.");
    }
    return *row_kind_;
}

/// Stitches of the row below that the items from `from` on take, as far as they say.
std::int64_t Worker::need_of(const std::vector<Item>& items, std::size_t from) const {
    std::int64_t sum = 0;
    for (std::size_t i = from; i < items.size(); ++i)
        sum = std::min(sum + need_of(items[i]), most_needed);
    return sum;
}

std::int64_t Worker::need_of(const Item& item) const {
    if (item.closes) return begins_with_loop() ? 1 : 0;
    const std::int64_t takes = item.what == Item::Do::work       ? book().at(item.kind).takes
                               : item.what == Item::Do::decrease ? 2
                                                                 : 1;
    const Spot& spot = item.spot;
    const bool spaces_passed = (reading_ & reading::spaces_passed) != 0;
    if (made_between(item)) return 0;
    switch (item.what) {
        case Item::Do::repeat:
            if (item.extent.until == Extent::Until::to_end) return item.extent.keep;
            return std::min(
                most_needed,
                need_of(item.items, 0) *
                    (item.extent.count + (item.extent.until == Extent::Until::more_times ||
                                                  (item.extent.until == Extent::Until::n_times &&
                                                   (reading_ & reading::times_in_all) == 0)
                                              ? 1
                                              : 0)));
        case Item::Do::work:
        case Item::Do::group:
        case Item::Do::increase:
        case Item::Do::decrease:
        case Item::Do::skip:
            break;
        case Item::Do::meshes:
            return std::min(most_needed,
                            item.count * ((reading_ & reading::narrow_mesh) != 0 ? 2 : 3));
        default:
            return 0;
    }
    // "skip next ch" of a mesh passes over no stitch.
    if (spaces_passed && item.what == Item::Do::skip && spot.unit.of == Unit::Of::chain &&
        !below_->foundation)
        return 0;
    switch (spot.which) {
        case Spot::Which::implied:
            return item.what == Item::Do::group ? 1 : std::min(most_needed, takes * item.count);
        case Spot::Which::next:
        case Spot::Which::last:
            if (spot.unit.of == Unit::Of::space)
                return spaces_passed ? 0 : spot.count * std::max<std::int64_t>(1, spot.unit.chains);
            return spot.count;
        case Spot::Which::each:
            return spot.keep;
        case Spot::Which::turning:
            // At the end of a round it only closes it.
            return item.what == Item::Do::work && item.kind == book().slip_stitch() ? 0 : 1;
        default:
            return 0;
    }
}

}  // namespace skeinfall::notation
