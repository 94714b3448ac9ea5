// What crochet alone has: meshes of filet, groups under a name as places, picots, rounds that begin
// elsewhere.

#include <algorithm>
#include <cstdint>

#include <fmt/format.h>

#include "skeinfall/notation/detail/worker.hpp"

namespace skeinfall::notation {
namespace {

/// Whether a repeat has chains between what goes into one place: "ch 1, skip 2, shell in next".
bool chains_between(const std::vector<Item>& items, bool repeated = false) {
    return std::any_of(items.begin(), items.end(), [&](const Item& item) {
        return (repeated && item.what == Item::Do::chain) ||
               (item.what == Item::Do::repeat && chains_between(item.items, true));
    });
}

}  // namespace

/// The make-up of a unit that is a group under a name and leaves no top of its own.
const MakeUp* Worker::group_of(const Unit& unit) const {
    if (unit.of != Unit::Of::kind) return nullptr;
    const auto found = context_->make_ups->find(unit.kind);
    return found == context_->make_ups->end() || found->second.own_top ? nullptr : &found->second;
}

/// "hdc in each st to last 4 sts, turn. (51)": a row with a count ends before the stitches it
/// names.
bool Worker::stops_short(std::int64_t left) const {
    if (book().craft() != Craft::crochet) return false;
    // "Ch 2." and "4 sc in first ch": the ring that a short chain makes
    constexpr std::int64_t short_chain = 5;
    const auto placed =
        std::count_if(body_->items.begin(), body_->items.end(), [](const Item& item) {
            return item.what == Item::Do::work || item.what == Item::Do::group;
        });
    if (below_->foundation && left <= short_chain && cursor_.passed() == 1 && placed == 1)
        for (const Item& item : body_->items)
            if (item.spot.which == Spot::Which::first && item.count > 2) return true;
    if (body_->declared.empty() || context_->round) return false;
    const bool turns = std::any_of(body_->items.begin(), body_->items.end(),
                                   [](const Item& item) { return item.what == Item::Do::turn; });
    for (auto item = body_->items.rbegin(); item != body_->items.rend(); ++item) {
        if (item->what == Item::Do::turn || item->what == Item::Do::chain) continue;
        // "sc in next 12 sts, ch 1, turn. (12)": its count bears it out
        if (turns && item->what == Item::Do::work && item->spot.count > 1 &&
            item->spot.which == Spot::Which::next)
            return true;
        return (item->what == Item::Do::work && item->spot.which == Spot::Which::each &&
                item->spot.keep == left) ||
               (item->what == Item::Do::repeat && item->extent.until == Extent::Until::to_end &&
                item->extent.keep == left);
    }
    return false;
}

/// Where "in next shell" goes: into its space, else into its middle stitch. `each`: so many such
/// places one group has.
Unit Worker::place_of_group(const MakeUp& group, std::int64_t& each) const {
    each = 1;
    std::int64_t stitches = 0;
    KindId kind = 0;
    for (const Item& item : group.items) {
        if (item.what == Item::Do::chain) return Unit{Unit::Of::space, 0, item.count};
        if (item.what == Item::Do::work) {
            stitches += item.count;
            kind = item.kind;
        }
    }
    each = std::max<std::int64_t>(1, stitches);
    return Unit{Unit::Of::kind, book().at(kind).plain, 0};
}

std::int64_t Worker::advance_groups(const MakeUp& group, std::int64_t count) {
    std::int64_t each = 1;
    const Unit unit = place_of_group(group, each);
    const std::int64_t found = advance(unit, count * each);
    return found / each;
}

/// The round begins at the place `passed` places on: what lies before it comes last.
void Worker::begin_at(const Unit& unit, std::int64_t passed) {
    if (passed > 0) cursor_.advance(unit, passed);
    cursor_.seek(unit);
    Edge turned = cursor_.rotated();
    rotated_ = std::move(turned);
    cursor_ = Cursor(rotated_, book(), (reading_ & reading::spaces_passed) == 0);
    moved_ = false;
    placed_ = false;
}

/// "ch 3, sl st in 3rd ch from hook": it hangs on the edge and leaves nothing to work into. False
/// where the chain is worked back along.
bool Worker::picot(const Item& item) {
    const bool small = item.kind == book().slip_stitch() || item.kind == book().find_us("sc");
    if (item.what != Item::Do::work || !small || item.count != 1) return false;
    if (last_chain_ < item.spot.count || !(placed_ || in_one_)) return false;
    if (!muted_ && !builder_.fold(item.spot.count)) return false;
    add(item.kind, 1);
    last_chain_ = 0;
    return true;
}

/// Chains that a row worked straight along its foundation leaves to turn with, in the reading that
/// has them; a stitch where they count as one.
std::int64_t Worker::chains_to_turn(const Item& item) {
    if (!below_->foundation || placed_ || start_chain_ > 0 || skipped_ > 0 || context_->round ||
        item.what != Item::Do::work || book().craft() != Craft::crochet ||
        !own_base_.stretches.empty())
        return 0;
    const Stitch& stitch = book().at(book().at(item.kind).plain);
    if (stitch.turning_chains == 0 || cursor_.passed() > 0) return 0;
    if (!ask(reading::turning_skipped)) return 0;
    skipped_ = stitch.turning_chains;
    advance(Unit{Unit::Of::chain, 0, 0}, skipped_);
    if (stitch.counts == TurningChainCounts::yes) counted_chain(item.kind, 0);
    return skipped_;
}

/// Whether it is a stitch of Tunisian crochet, whose loops stay on the hook.
bool Worker::loops_on_hook(KindId kind) const {
    static constexpr std::string_view names[] = {"tss", "tks",  "tps", "tfs",
                                                 "tes", "trss", "tts", "tdc"};
    if (book().craft() != Craft::crochet) return false;
    const std::string& name = book().at(kind).name;
    return std::find(std::begin(names), std::end(names), name) != std::end(names);
}

/// The loop that the return pass leaves on the hook is the first stitch of the next row.
void Worker::first_loop() {
    if (below_->foundation || below_->stitches == 0) return;
    Spot spot;
    const Item* first = leaf(body_->items, 0, spot);
    if (first == nullptr || first->what != Item::Do::work || !loops_on_hook(first->kind)) return;
    if (first->spot.which == Spot::Which::first) return;
    add(first->kind, 1);
    builder_.add({first->kind, 0}, 1);
    // "skip first vertical bar" is said of the same stitch.
    const Item& begins = body_->items.front();
    if (begins.what == Item::Do::skip && begins.spot.which == Spot::Which::first) return;
    advance(Unit{}, 1);
    placed_ = false;
}

/// Meshes of filet, in double crochet: open ones of two chains over two places, or of one where
/// only that fits. A post shared by two meshes is worked once, with the one before.
void Worker::meshes(const Item& item) {
    const std::int64_t width = ask(reading::narrow_mesh) ? 1 : 2;
    out_.doubtful &= ~reading::narrow_mesh;
    const KindId dc = book().find_us("dc");
    const bool filled = item.kind != book().chain();
    for (std::int64_t mesh = 0; mesh < item.count && !out_.given_up; ++mesh) {
        const bool first = !placed_;
        if (first && out_.work.turning_chain == 0) {  // "3rd row: 2 open meshes, ..."
            const std::int64_t chains = 3 + (filled ? 0 : width);
            add(book().chain(), chains);
            out_.work.turning_chain = chains;
            counted_chain(dc, filled ? 0 : width);
            advance(Unit{}, 1);
        } else if (!filled && !(first && out_.work.turning_chain > 3)) {
            add(book().chain(), width);
            builder_.add({book().chain(), static_cast<std::uint32_t>(width)}, 1);
        }
        advance(Unit{}, width + 1);
        const std::int64_t made = filled ? width + 1 : 1;
        add(dc, made);
        builder_.add({dc, 0}, made);
        ++*context_->steps;
    }
}

/// "Shell in next ch-1 sp, dc in next 3 dc": the other half of the shell below may be meant to be
/// skipped, unsaid.
void Worker::skip_group(const Item& item, std::int64_t half) {
    if (half == 0 || in_one_ || item.what != Item::Do::group || below_->foundation ||
        item.spot.unit.of != Unit::Of::space || item.spot.count != 1 || cursor_.left() < half)
        return;
    out_.asked |= reading::skips_group;
    if ((reading_ & reading::skips_group) != 0) advance(Unit{}, half);
}

/// Looked up once for each edge and name: a row may ask at every one of its places.
std::int64_t Worker::count_below(const Unit& unit) {
    for (const CountedBelow& known : counted_below_)
        if (known.edge == below_ && known.unit.of == unit.of && known.unit.kind == unit.kind &&
            known.unit.chains == unit.chains)
            return known.count;
    const std::int64_t count = unit.of == Unit::Of::kind ? below_->count(unit.kind, nullptr) +
                                                               below_->count(unit.kind, &book())
                                                         : below_->count_spaces(unit.chains);
    counted_below_.push_back({below_, unit, count});
    return count;
}

namespace {

/// "(2 dc, 1 dc)": one kind with two numbers, side by side in a repeat.
bool side_by_side(const std::vector<Item>& items, bool repeated) {
    const auto plain = [](const Item& item) {
        return item.what == Item::Do::work && item.spot.which == Spot::Which::implied;
    };
    for (std::size_t i = 0; i < items.size(); ++i) {
        if (items[i].what == Item::Do::repeat && side_by_side(items[i].items, true)) return true;
        if (repeated && i > 0 && plain(items[i]) && plain(items[i - 1]) &&
            items[i].kind == items[i - 1].kind && items[i].count != items[i - 1].count)
            return true;
    }
    return false;
}

}  // namespace

/// "(2 dc, 1 dc) around": whether the two go into one. Its count tells; without one both are told.
bool Worker::asks_in_one() {
    if (body_->declared.empty()) {
        if (!side_by_side(body_->items, false)) return false;
        out_.doubtful |= reading::in_one;
    }
    out_.asked |= reading::in_one;
    return (reading_ & reading::in_one) != 0;
}

/// "sc in each st, ch 1, sc in each st": the second finds none.
void Worker::tell_none_left(std::uint32_t at) {
    if (placed_ && loops_ == 0 && !in_one_ && below_->stitches > 0 && cursor_.at_end() &&
        book().craft() == Craft::crochet && other_side_.stretches.empty())
        // "Inc in each st around (12). Work 2 sc into each stitch.": said twice, and its count
        // holds
        report(body_->declared.empty() ? Severity::stop : Severity::ok, at,
               "no stitch of the row below is left for this",
               "Write a row of its own, or how many stitches come before it.");
}

/// "2 hdc in each sc" above a row without sc: any stitch may be meant, where only that fits.
bool Worker::other_kind(const Unit& unit) {
    // "in next ch-5 sp" above spaces of 6 chains
    if (unit.of == Unit::Of::space && unit.chains > 0 && !in_one_ && below_->spaces > 0 &&
        unit.chains != below_->began && book().craft() == Craft::crochet &&
        own_base_.stretches.empty() && count_below(unit) == 0) {
        out_.asked |= reading::other_kind;
        return (reading_ & reading::other_kind) != 0;
    }
    // "sc in each dc and ch-1 sp" above spaces of 2 chains
    if (unit.of == Unit::Of::either && unit.chains > 0 && !in_one_ && own_base_.stretches.empty() &&
        below_->spaces > count_below(unit)) {
        out_.asked |= reading::other_kind;
        out_.doubtful |= reading::other_kind;
        return (reading_ & reading::other_kind) != 0;
    }
    // "2 dc in each sp" above a row that has none
    if (unit.of == Unit::Of::space && unit.chains == 0 && !in_one_ && below_->spaces == 0 &&
        below_->stitches > 0 && below_->beside == 0 && !below_->counted_only &&
        !below_->foundation && book().craft() == Craft::crochet && own_base_.stretches.empty()) {
        out_.asked |= reading::other_kind;
        return (reading_ & reading::other_kind) != 0;
    }
    if (unit.of != Unit::Of::kind) return false;
    if (book().craft() != Craft::crochet || below_->counted_only ||
        (below_->foundation && unit.kind == book().chain()) || in_one_ || below_->stitches == 0 ||
        !own_base_.stretches.empty() || group_of(unit) != nullptr || count_below(unit) > 0)
        return false;
    out_.asked |= reading::other_kind;
    return (reading_ & reading::other_kind) != 0;
}

/// Chains passed at the beginning of the foundation: they may stand for a stitch.
void Worker::skipped_chain(std::int64_t skipped, const Item& item, KindId kind) {
    out_.turned_with = skipped;
    out_.turned_to = kind;
    const Stitch& stitch = book().at(kind);
    if (loops_on_hook(kind)) {  // the loop on the hook is the first stitch
        add(kind, 1);
        builder_.add({kind, 0}, 1);
        return;
    }
    if (body_->blocks) {
        builder_.add({book().chain(), static_cast<std::uint32_t>(skipped)}, 1);
        return;
    }
    std::optional<TurningNote> said = item.note;
    if (const auto found = context_->notes->find(skipped); !said && found != context_->notes->end())
        said = found->second;
    if (said) {
        if (said->counts) counted_chain(said->kind_said ? said->kind : kind, said->chains);
        return;
    }
    if (stitch.turning_chains < 2 || skipped < 2) {
        if (skipped > 1) out_.edge.beside = skipped;
        return;
    }
    const std::int64_t more = skipped - stitch.turning_chains;
    const bool usual = more >= 0 && stitch.counts != TurningChainCounts::no;
    // Of what is skipped beyond the turning chain, half is a chain space and half lies below it;
    // "(dc, ch 1, dc) in 5th ch from hook" with no chains between such groups has no space there.
    const bool solid = (item.what == Item::Do::group || item.count > 1 ||
                        context_->make_ups->contains(item.kind)) &&
                       !chains_between(body_->items);
    if (stitch.counts != TurningChainCounts::yes || more < 0) out_.doubtful |= reading::turning;
    if (usual != ask(reading::turning))
        counted_chain(kind, more > 0 && !solid ? (more + 1) / 2 : 0);
    else if (skipped > 1)
        out_.edge.beside = skipped;
}

/// Gaps between groups, up to the next chain space or, in a round, all of them.
std::int64_t Worker::group_gaps(const Spot& spot, std::uint32_t at) {
    const Unit space{Unit::Of::space, 0, 0};
    std::int64_t stitches = 0;
    if (spot.to_space) {
        Cursor probe = cursor_;
        if (cursor_.left(space) > 0) probe.seek(space);
        stitches = cursor_.left(space) == 0 ? cursor_.left() : probe.passed() - cursor_.passed();
    } else {
        stitches = cursor_.left(Unit{}) - spot.keep;
        if (cursor_.left(space) > 0)
            report(Severity::stop, at, "how far these gaps go on is not said",
                   "Write it like: 3 dc in each sp between 3-dc groups to next ch-2 sp.");
    }
    if (stitches <= 0 || stitches % spot.wide != 0) {
        report(Severity::stop, at,
               fmt::format("{} stitches are no whole number of groups of {}", stitches, spot.wide));
        return 0;
    }
    advance(Unit{}, stitches);
    const std::int64_t groups = stitches / spot.wide;
    return context_->round && !spot.to_space ? groups : groups - 1;
}

/// Chains that a stitch which closes a round stands for; 0 for others.
std::int64_t Worker::closing_height(const std::vector<Item>& items, std::size_t at) const {
    return at < items.size() && items[at].closes ? book().at(items[at].kind).turning_chains : 0;
}

/// Whether a tall stitch closes the round.
bool Worker::closed_by_stitch() const {
    return context_->round && std::any_of(body_->items.begin(), body_->items.end(),
                                          [](const Item& item) { return item.closes; });
}

/// "*ch 5, sc in next loop* around, ch 2, dc in last dc": the stitch that closes the round comes
/// where the last loop was.
bool Worker::begins_with_loop() const {
    const Item& first = body_->items.front();
    return first.what == Item::Do::repeat && !first.items.empty() &&
           first.items.front().what == Item::Do::chain;
}

/// "3 dc in each ch-1 sp to next corner": as long as spaces of that kind come next.
std::int64_t Worker::spaces_on_side(const Unit& unit, std::uint32_t at) {
    const Unit any{Unit::Of::space, 0, 0};
    std::int64_t found = 0;
    if (unit.chains == 0)
        report(Severity::stop, at, "how far these spaces go on is not said",
               "Write it like: 3 dc in each ch-1 sp to next ch-2 sp.");
    while (unit.chains > 0 && cursor_.left(any) > 0 && ++*context_->steps < steps_end_) {
        Cursor probe = cursor_;
        probe.seek(any);
        if (!probe.next_is(unit)) break;
        advance(unit, 1);
        ++found;
    }
    placed_ = true;
    return found;
}

/// "join to first dc": the round is closed in a stitch, and not in the chain it began with.
bool Worker::closes_on_stitch() const {
    if (!context_->round || book().craft() != Craft::crochet) return false;
    return std::any_of(body_->items.begin(), body_->items.end(), [&](const Item& item) {
        const bool closes = item.what == Item::Do::join ||
                            (item.what == Item::Do::work && item.kind == book().slip_stitch());
        return closes && item.spot.which == Spot::Which::first &&
               item.spot.unit.of == Unit::Of::kind;
    });
}

/// "ch 2, turn, skip first st": what is skipped is what the chain stands on.
bool Worker::skips_first(std::size_t next) const {
    if (next >= body_->items.size()) return false;
    const Item& item = body_->items[next];
    if (item.spot.which == Spot::Which::first && item.spot.nth == 2) return true;  // "dc in 2nd st"
    return item.what == Item::Do::skip && item.spot.count == 1 &&
           item.spot.unit.of != Unit::Of::space && item.spot.which == Spot::Which::first;
}

/// "working last sc into turning ch-2 sp": the chain beside the row below is a space at its end.
void Worker::take_beside() {
    if (!body_->beside || below_->beside < 2 || context_->round) return;
    own_base_ = *below_;
    // It is worked like the other spaces that the row names.
    std::vector<std::int64_t> named;
    spaces_named(body_->items, named);
    std::erase(named, 0);
    const std::int64_t chains = named.empty() ? below_->beside : named.front();
    own_base_.stretches.push_back({1, {{{book().chain(), static_cast<std::uint32_t>(chains)}, 1}}});
    own_base_.beside = 0;
    own_base_.settle();
    below_ = &own_base_;
    cursor_ = Cursor(own_base_, book(), (reading_ & reading::spaces_passed) == 0);
}

/// "ch 6, skip next 6 sts, sc in ...": the chain a round begins with lies over what is skipped.
bool Worker::bridges(const std::vector<Item>& items, std::size_t at) const {
    if (!context_->round || items[at].note || at + 1 >= items.size() ||
        items[at + 1].what != Item::Do::skip || items[at + 1].spot.unit.of == Unit::Of::space)
        return false;
    Spot spot;
    const Item* follows = leaf(body_->items, at + 2, spot);
    const std::int64_t over = items[at + 1].spot.count;
    const bool low = follows != nullptr && book().at(plain_kind_of(*follows)).turning_chains <= 1;
    return over > 2 && (items[at].count == over || (low && items[at].count > 3));
}

}  // namespace skeinfall::notation
