#include "skeinfall/notation/detail/worker.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include <fmt/format.h>

namespace skeinfall::notation {
namespace {

constexpr std::int64_t most_stitches = largest_number;

std::string counted(std::int64_t count, std::string_view one, std::string_view many) {
    return fmt::format("{} {}", count, count == 1 ? one : many);
}

}  // namespace

Worker::Worker(const Body& body, const Edge& below, const Context& context, unsigned reading)
    : body_(&body),
      below_(&below),
      context_(&context),
      reading_(reading),
      cursor_(below, *context.book, (reading & reading::spaces_passed) == 0),
      steps_end_(std::min(most_steps, *context.steps + most_steps_of_a_row)) {}

Outcome Worker::run() {
    take_beside();
    // Where there are spaces below, "st" may or may not mean them.
    if (below_->spaces > 0) ask(reading::spaces_passed);
    const std::size_t from = begin_row();
    if (may_go_on(from) && (reading_ & reading::goes_on) != 0) {
        out_.asked |= reading::goes_on;
        Item all;
        all.what = Item::Do::repeat;
        all.at = body_->items[from].at;
        all.extent.until = Extent::Until::to_end;
        all.partial = is_rib(from);
        all.items.assign(body_->items.begin() + static_cast<std::ptrdiff_t>(from),
                         body_->items.end());
        std::erase_if(all.items, [](const Item& item) {
            return item.what == Item::Do::join || item.what == Item::Do::turn;
        });
        run({all}, 0, 1);
        for (std::size_t i = from; i < body_->items.size() && !out_.given_up; ++i)
            if (body_->items[i].what == Item::Do::join) one(body_->items, i);
    } else {
        run(body_->items, from, body_->items.size());
        // Asked only where it would help: what the words take fits the row more than once.
        const std::int64_t taken = cursor_.passed();
        if (may_go_on(from) && cursor_.left() > 0 && taken > 0 && !left_by_design_ &&
            (cursor_.left() % taken == 0 || (is_rib(from) && cursor_.left() > taken)))
            out_.asked |= reading::goes_on;
    }
    finish();
    return std::move(out_);
}

/// Whether all from there on only takes the next stitches, so that it could be worked again.
bool Worker::may_go_on(std::size_t from) const {
    if (from >= body_->items.size() || below_->foundation) return false;
    // "Knit 16." says how many, where "k2, p2" shows what comes again.
    constexpr std::int64_t most_shown = 4;
    const Item& only = body_->items[from];
    if (from + 1 == body_->items.size() && only.what == Item::Do::work && only.count > most_shown &&
        (book().craft() == Craft::knit ||
         (only.spot.which == Spot::Which::implied && body_->declared.empty())))
        return false;
    // "increase 6"
    if (from + 1 == body_->items.size() && book().craft() == Craft::crochet && only.count > 1 &&
        (only.what == Item::Do::increase || only.what == Item::Do::decrease) &&
        body_->declared.empty())
        return false;
    const auto plain = [&](const Item& item) {
        if (item.what == Item::Do::join || item.what == Item::Do::turn) return true;
        // "Bind off 5 sts" is done once, so is what waits on a holder.
        if (item.what == Item::Do::hold || item.what == Item::Do::unhold) return false;
        if (item.what == Item::Do::work &&
            (book().at(item.kind).name == "BO" || book().at(item.kind).name == "CO"))
            return false;
        if (item.what == Item::Do::repeat && item.extent.until == Extent::Until::to_end)
            return false;
        return item.what != Item::Do::chain && item.what != Item::Do::ring &&
               (item.spot.which == Spot::Which::implied || item.spot.which == Spot::Which::next);
    };
    return std::all_of(body_->items.begin() + static_cast<std::ptrdiff_t>(from), body_->items.end(),
                       plain);
}

/// Whether it is a list of knit and purl stitches alone, which goes on whatever number is there.
bool Worker::is_rib(std::size_t from) const {
    if (book().craft() != Craft::knit || from + 2 > body_->items.size()) return false;
    const KindId knit = book().find_us("k");
    const KindId purl = book().find_us("p");
    KindId before = 0;
    for (std::size_t i = from; i < body_->items.size(); ++i) {
        const Item& item = body_->items[i];
        if (item.what != Item::Do::work || (item.kind != knit && item.kind != purl) ||
            item.kind == before || item.count > 6)
            return false;
        before = item.kind;
    }
    return true;
}

void Worker::report(Severity severity, std::uint32_t at, std::string what, std::string remedy) {
    constexpr std::size_t most_findings = 20;
    if (out_.findings.size() < most_findings)
        out_.findings.push_back({severity, at, std::move(what), std::move(remedy)});
}

/// Whether the less usual reading is wanted; notes that there is one.
bool Worker::ask(unsigned bit) {
    out_.asked |= bit;
    if (bit != reading::turning) out_.doubtful |= bit;
    return (reading_ & bit) != 0;
}

/// The row cannot be followed any further.
void Worker::give_up(std::uint32_t at, std::string why) {
    if (!std::exchange(out_.given_up, true)) out_.why = {at, std::move(why)};
}

void Worker::add(KindId kind, std::int64_t count) {
    if (count == 0) return;
    if (count > most_stitches) return give_up(0, "the row has more than 1000000 stitches");
    const std::uint32_t key = (static_cast<std::uint32_t>(yarn_) << 16U) | kind;
    for (auto& [known, sum] : counts_)
        if (known == key) {
            sum += count;
            if (sum > most_stitches) give_up(0, "the row has more than 1000000 stitches");
            return;
        }
    counts_.emplace_back(key, count);
}

void Worker::run(const std::vector<Item>& items, std::size_t from, std::size_t to) {
    for (std::size_t i = from; i < to && !out_.given_up; ++i) {
        const std::size_t last = i + items[i].gathers;
        if (last == i || last >= to || in_one_ || !ask(reading::gathered)) {
            one(items, i);
            continue;
        }
        Item group;
        group.what = Item::Do::group;
        group.at = items[i].at;
        group.items.assign(items.begin() + static_cast<std::ptrdiff_t>(i),
                           items.begin() + static_cast<std::ptrdiff_t>(last) + 1);
        group.spot = group.items.back().spot;
        group.items.back().spot = {};
        group.items.front().gathers = 0;
        one({group}, 0);
        i = last;
    }
}

void Worker::one(const std::vector<Item>& items, std::size_t index) {
    const Item& item = items[index];
    if (++*context_->steps > steps_end_)
        return give_up(item.at, "the row takes too long to follow");
    if (item.what != Item::Do::work) last_chain_ = item.what == Item::Do::chain ? item.count : 0;
    const std::uint16_t in_hand = yarn_;
    if (item.yarn > 0) yarn_ = item.yarn;
    worked(items, index);
    if (item.yarn > 0) yarn_ = in_hand;
}

void Worker::worked(const std::vector<Item>& items, std::size_t index) {
    if (below_->markers.empty() || in_one_) return step(items, index);
    const std::int64_t passed = cursor_.passed();
    const std::int64_t made = builder_.stitches();
    step(items, index);
    note_markers(passed, made);
}

void Worker::step(const std::vector<Item>& items, std::size_t index) {
    const Item& item = items[index];
    // "across" leaves what the rest of its list needs.
    const auto keep = [&](bool open_ended, std::int64_t said) {
        if (!in_one_ && item.spot.to_marker) return to_marker(item, item.spot.keep);
        if (!in_one_ && item.extent.to_marker) return to_marker(item, item.extent.keep);
        if (!in_one_ && item.extent.to_space) return to_space(item);
        if (!open_ended || in_one_) return said;
        return beyond_gap() + (said == 0 ? need_of(items, index + 1) : said);
    };
    switch (item.what) {
        case Item::Do::work:
        case Item::Do::group:
            return work(item, keep(item.spot.which == Spot::Which::each, item.spot.keep));
        case Item::Do::increase:
        case Item::Do::decrease:
            return change(item, keep(item.spot.which == Spot::Which::each, item.spot.keep));
        case Item::Do::chain:
            return chain(items, index);
        case Item::Do::skip:
            if (!in_one_) {
                Item passed = item;  // "skip ch2" on a foundation: two of its chains
                if ((below_->foundation || start_chain_ > 0) &&
                    passed.spot.unit.of == Unit::Of::space &&
                    passed.spot.which == Spot::Which::next) {
                    passed.spot.count *= std::max<std::int64_t>(1, passed.spot.unit.chains);
                    passed.spot.unit = {Unit::Of::chain, 0, 0};
                }
                places_for(passed, 1, keep(item.spot.which == Spot::Which::each, item.spot.keep));
            }
            return;
        case Item::Do::repeat:
            return repeat(items, index,
                          keep(item.extent.until == Extent::Until::to_end, item.extent.keep));
        case Item::Do::choose:
            if (cursor_.at_end()) return;
            for (const Item& choice : item.items)
                if (cursor_.next_is(choice.spot.unit)) return work(choice, 0);
            advance(Unit{Unit::Of::either, 0, 0}, 1);
            return;
        case Item::Do::evenly:
            return evenly(item, keep(true, item.extent.keep));
        case Item::Do::join:
            if (book().craft() == Craft::crochet) add(book().slip_stitch(), 1);
            closed_ = closed_ || (placed_ && &items == &body_->items);
            return;
        case Item::Do::turn:
            return turn(items, index);
        case Item::Do::hold:
            return hold(item);
        case Item::Do::unhold:
            return unhold(item);
        case Item::Do::work_only:
        case Item::Do::let_go:
        case Item::Do::needle:
            return;
        case Item::Do::yarn:
            yarn_ = static_cast<std::uint16_t>(item.kind + 1);
            return;
        case Item::Do::unworked:
            if (book().craft() == Craft::knit) return turn(items, index);
            if (item.count > 0 && cursor_.left() != item.count)
                report(Severity::stop, item.at,
                       fmt::format("{} stitches are said to stay unworked, {} are left", item.count,
                                   cursor_.left()));
            left_by_design_ = true;
            return;
        case Item::Do::ring:
            left_by_design_ = true;
            return;
        case Item::Do::meshes:
            return meshes(item);
        case Item::Do::marker:
        case Item::Do::at_marker:
        case Item::Do::drop_marker:
            return marker(item);
        case Item::Do::opposite:
            // The last place has been worked; the same chains follow from their other side.
            {
                const Edge& chain = start_chain_ > 0 ? own_base_ : *below_;
                if (!chain.foundation || chain.stitches == 0) {
                    report(Severity::stop, item.at, "there is no foundation chain to go round");
                    return;
                }
                other_side_ = Edge{};
                other_side_.foundation = true;
                const std::int64_t worked = std::max<std::int64_t>(1, chain.stitches - skipped_);
                other_side_.stretches = {{1, {{{book().chain(), 0}, worked}}}};
                other_side_.settle();
                cursor_ = Cursor(other_side_, book(), (reading_ & reading::spaces_passed) == 0);
                cursor_.advance(Unit{}, 1);
                left_by_design_ = true;
            }
            return;
    }
}

namespace {

/// "sl st in next 2 dc": so many.
std::int64_t spot_count(const Item& item) {
    return item.spot.which == Spot::Which::next ? item.spot.count : 1;
}

}  // namespace

void Worker::work(const Item& item, std::int64_t keep) {
    if (item.closes && !in_one_) {
        if (begins_with_loop() && cursor_.left() > 0) advance(Unit{Unit::Of::space, 0, 0}, 1);
        return add(item.kind, 1);
    }
    if (item.spot.which == Spot::Which::from_hook && picot(item)) return;
    last_chain_ = 0;
    if (in_one_) return emit(item, 1);
    const Stitch& stitch = book().at(item.kind);
    const bool group = item.what == Item::Do::group;
    // Slip stitches back to the beginning close the round; they are no stitches of it.
    if (!group && item.kind == book().slip_stitch() && book().craft() == Craft::crochet &&
        placed_) {
        // Behind a join they lead to where the next round begins.
        if (closed_ && loops_ == 0)
            return add(item.kind, item.count * std::max<std::int64_t>(1, spot_count(item)));
        if (item.spot.which == Spot::Which::turning && loops_ == 0) closed_ = true;
        if (item.spot.which == Spot::Which::first || item.spot.which == Spot::Which::turning ||
            item.spot.which == Spot::Which::from_hook)
            return add(item.kind, item.count);
    }
    if (!group && stitch.name == "M1" && book().craft() == Craft::knit &&
        item.spot.which == Spot::Which::implied) {
        out_.asked |= reading::made_in_stitch;
        if ((reading_ & reading::made_in_stitch) != 0) {
            Item into = item;
            into.kind = book().find_us("kfb");
            return work(into, keep);
        }
    }
    const Spot& spot = item.spot;
    if (!group && stitch.name == "BO" && spot.which == Spot::Which::each && cursor_.left() == 0 &&
        cursor_.passed() > 0)
        return report(Severity::stop, item.at, "nothing is left to be bound off in this row",
                      "Write it as a row of its own: bind off.");
    const bool one_stitch = spot.count == 1 && spot.unit.of == Unit::Of::any &&
                            (spot.which == Spot::Which::last || spot.which == Spot::Which::first);
    if (!group && stitch.takes == 2 && one_stitch && book().craft() == Craft::crochet &&
        body_->declared.empty())
        report(Severity::caution, item.at,
               "two stitches worked together go into one here, so that none is lost",
               "If two are meant, write: in last 2 sts.");
    const std::int64_t places = places_for(item, group ? 1 : stitch.takes, keep);
    emit(item, places);
}

void Worker::emit(const Item& item, std::int64_t places) {
    if (places <= 0 || out_.given_up) return;
    if (item.what == Item::Do::group) return emit_group(item.items, places);
    if (item.count > 0 && places > most_stitches / item.count)
        return give_up(item.at, "the row has more than 1000000 stitches");
    emit_kind(item.kind, item.count * places);
}

void Worker::emit_kind(KindId kind, std::int64_t count) {
    if (count == 0) return;
    const Stitch& stitch = book().at(kind);
    const auto own = context_->make_ups->find(kind);
    if (own != context_->make_ups->end()) {
        const bool was_muted = std::exchange(muted_, muted_ || own->second.own_top);
        emit_group(own->second.items, count);
        muted_ = was_muted;
        if (own->second.own_top && !muted_) builder_.add({kind, 0, yarn_}, count * stitch.makes);
        return;
    }
    add(kind, count);
    const bool picot = in_one_ && kind == book().slip_stitch();
    if (out_.given_up || muted_ || picot) return;
    if (stitch.makes >= 0)
        builder_.add({kind, 0, yarn_}, count * stitch.makes);
    else if (!builder_.take_off(-stitch.makes * count))
        report(Severity::stop, 0,
               fmt::format("no stitch is left for {} to pass over", stitch.name));
}

/// The items into one place, and the same for every other place.
void Worker::emit_group(const std::vector<Item>& items, std::int64_t places) {
    const bool was_in_one = std::exchange(in_one_, true);
    const Counts before = counts_;
    const std::size_t mark = builder_.mark();
    run(items);
    in_one_ = was_in_one;
    if (places > 1 && !out_.given_up) {
        for (auto& [kind, sum] : counts_) {
            std::int64_t had = 0;
            for (const auto& [known, count] : before)
                if (known == kind) had = count;
            sum += (sum - had) * (places - 1);
            if (sum > most_stitches) give_up(0, "the row has more than 1000000 stitches");
        }
        builder_.repeat(mark, places - 1, loops_ == 0 && !in_one_);
        if (builder_.too_large()) give_up(0, "the row is too intricate to follow");
    }
}

void Worker::chain(const std::vector<Item>& items, std::size_t index) {
    const Item& item = items[index];
    add(book().chain(), item.count);
    if (muted_ || item.count == 0 || out_.given_up) return;
    const bool outermost = &items == &body_->items;
    // "sl st to join, ch 1", and "ch 1" at the end of a row
    const bool last = outermost && index + 1 == items.size() && index > 0 && !in_one_ &&
                      book().craft() == Craft::crochet && placed_ &&
                      (items[index - 1].what == Item::Do::join || !context_->round);
    if (last) {
        out_.edge.turning = {item.count, item.at, item.note};
        return;
    }
    const bool trailing =
        outermost && index + 1 < items.size() && !in_one_ &&
        std::all_of(items.begin() + static_cast<std::ptrdiff_t>(index) + 1, items.end(),
                    [](const Item& next) { return next.what == Item::Do::turn; });
    if (trailing)
        out_.edge.turning = {item.count, item.at, item.note};
    else
        builder_.add(
            {book().chain(),
             static_cast<std::uint32_t>(item.count + closing_height(items, index + 1)), yarn_},
            1);
}

/// "inc" and "dec" of the row's kind.
void Worker::change(const Item& item, std::int64_t keep) {
    const bool more = item.what == Item::Do::increase;
    const bool knit = book().craft() == Craft::knit;
    Item worked = item;
    worked.what = Item::Do::work;
    if (knit && more && asks_between(item)) return emit_kind(book().find_us("M1"), item.count);
    if (knit)
        worked.kind = book().find_us(more ? "kfb" : "k2tog");
    else
        worked.kind = more ? row_kind(item.at) : book().together(row_kind(item.at), 2);
    if (knit || !more) return work(worked, keep);
    const std::int64_t places = in_one_ ? item.count : places_for(worked, 1, keep);
    const bool each_counted = worked.spot.which == Spot::Which::implied && !in_one_;
    emit_kind(worked.kind, 2 * places * (each_counted ? item.count : 1));
}

/// The chains that close a round, joined to its beginning.
std::int64_t Worker::closing_chain() const {
    const std::vector<Item>& items = body_->items;
    if (items.size() < 2) return 0;
    const Item& close = items.back();  // "join", "sl st in top of beg ch"
    const bool slips =
        close.what == Item::Do::work && close.kind == book().slip_stitch() &&
        (close.spot.which == Spot::Which::turning || close.spot.which == Spot::Which::first);
    if (close.what != Item::Do::join && !slips && !close.closes) return 0;
    const Item& last = items[items.size() - 2];
    return last.what == Item::Do::chain ? last.count + closing_height(items, items.size() - 1) : 0;
}

/// "dec 4 sts evenly": so many in what is left but `keep`, the rest of one kind.
void Worker::evenly(const Item& item, std::int64_t keep) {
    Item change = item.items.front();
    const bool more = change.what == Item::Do::increase;
    if (change.spot.which == Spot::Which::last) {  // till so many are left
        const std::int64_t left = cursor_.left() - keep;
        change.count = more ? change.spot.count - left : left - change.spot.count;
        if (change.count < 0 || (!more && 2 * change.count > left)) {
            report(Severity::stop, item.at,
                   fmt::format("{} stitches cannot become {} this way", left, change.spot.count),
                   "Check the count.");
            change.count = 0;
        }
    }
    if (change.spot.which == Spot::Which::each && change.spot.nth > 1)  // "in every 4th st"
        change.count = (cursor_.left() - keep) / change.spot.nth;
    if (change.count < 0) {  // as the last shaping row did
        change.count = more ? context_->last_change : -context_->last_change;
        if (change.count <= 0) {
            report(Severity::stop, item.at,
                   "how many stitches are changed is not known, as no row before shows it",
                   "Write one of the rows out.");
            change.count = 0;
        }
    }
    const bool knit = book().craft() == Craft::knit;
    const KindId plain = knit                          ? item.kind
                         : item.kind == book().chain() ? row_kind(item.at)
                                                       : item.kind;
    const std::int64_t takes = change.count * (more ? (knit ? 0 : 1) : 2);
    const std::int64_t rest = std::max<std::int64_t>(0, cursor_.left() - keep - takes);
    advance(Unit{}, takes + rest);
    emit_kind(plain, rest);
    if (more)
        emit_kind(knit ? book().find_us("M1") : plain, (knit ? 1 : 2) * change.count);
    else
        emit_kind(book().together(plain, 2), change.count);
}

void Worker::finish() {
    const std::uint32_t at = body_->items.empty() ? 0 : body_->items.front().at;
    const std::int64_t total = cursor_.passed() + cursor_.left();
    const std::int64_t left = cursor_.left();
    if (missing_ > 0) {
        if (missing_named_) {
            report(Severity::stop, at,
                   fmt::format("the row names {} that the row below does not have",
                               counted(missing_, "place", "places")));
        } else {
            std::string remedy;
            for (const Item& item : body_->items) {
                if (item.what != Item::Do::repeat || item.extent.until == Extent::Until::to_end)
                    continue;
                const std::int64_t each = need_of(item.items, 0);
                const std::int64_t times = each == 0 ? 0 : need_of(item) / each;
                if (each > 0 && missing_ % each == 0 && missing_ / each < times)
                    remedy = fmt::format("It fits when the repeat is worked {} in all.",
                                         counted(times - missing_ / each, "time", "times"));
            }
            report(Severity::stop, at,
                   fmt::format("the row takes {}, the row below has {}",
                               counted(cursor_.passed() + missing_, "stitch", "stitches"), total),
                   remedy);
        }
    } else if (left == 1 && pair_gap_) {
        // "dc between next 2 sc": the other one of the pair
    } else if (left > 0 && left <= closing_chain()) {
        // "..., ch 5, join": what lies under the last chain is passed over.
    } else if (left > 0 && !left_by_design_ && below_->gap_ends && left == beyond_gap()) {
        out_.rest = cursor_.rest();  // the row ends where the work was turned
    } else if (left > 0 && !left_by_design_ && context_->partial && cursor_.passed() > 0) {
        report(Severity::ok, at,
               fmt::format("{} of the {} stitches of the round below are left for later", left,
                           total));
    } else if (left > 0 && !left_by_design_ && !stops_short(left) &&
               !(loose_ && cursor_.left(loose_unit_) == 0)) {
        report(Severity::stop, at,
               fmt::format("the row leaves {} of the {} stitches of the row below unworked", left,
                           total),
               "If that is meant, write: leave remaining sts unworked.");
    }

    const Pending turning = out_.edge.turning;
    const std::int64_t began = out_.edge.began;
    const std::int64_t beside = out_.edge.beside;
    out_.edge = made_edge();
    out_.edge.turning = turning;
    out_.edge.began = began;
    out_.edge.beside = beside;
    if (book().craft() == Craft::knit) {
        out_.edge.waiting = below_->waiting;
        out_.edge.waiting_stitches = below_->waiting_stitches;
    }
    RowWork& work = out_.work;
    std::uint32_t last = 0xffffffffU;
    std::sort(counts_.begin(), counts_.end(), [](const auto& a, const auto& b) {
        return (a.first & 0xffffU) < (b.first & 0xffffU);
    });
    for (const auto& [key, count] : counts_) {
        const std::uint32_t kind = key & 0xffffU;
        if (std::exchange(last, kind) == kind)
            work.kinds.back().count += counted_stitches(count);
        else
            work.kinds.push_back(
                {book().at(static_cast<KindId>(kind)).name, counted_stitches(count)});
    }
    colours();
    work.made =
        counted_stitches(out_.edge.stitches + out_.rest.stitches + out_.edge.waiting_stitches);
    work.across = counted_stitches(out_.edge.stitches + out_.edge.chains);
    work.consumed = counted_stitches(consumed_before_ + cursor_.stitches_passed());
    work.chain_spaces = out_.edge.spaces;
    out_.taken = reading_;
    if (out_.given_up || !context_->check_count) return;
    for (RowFinding& finding : check_declared(body_->declared, out_.edge, work, book(),
                                              &out_.loose_count, out_.rest.stitches))
        out_.findings.push_back(std::move(finding));
}

}  // namespace skeinfall::notation
