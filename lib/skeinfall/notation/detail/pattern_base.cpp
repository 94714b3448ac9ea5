// What a row holds beside its own stitches: the foundation it begins with, and stitches of the
// pattern's own that say themselves where they go.

#include <algorithm>
#include <cstdint>
#include <utility>

#include "skeinfall/notation/detail/pattern_reader.hpp"

namespace skeinfall::notation {

/// "Ch 6, sl st to first ch to form a ring. Ch 3, 12 dc in ring": what is closed before the row is
/// its foundation.
void PatternReader::split_base(Written& written) {
    if (book_->craft() != Craft::crochet || !pattern_.slots.empty() || !pattern_.foundation.empty())
        return;
    std::vector<Item>& items = written.body.items;
    std::size_t at = 0;
    std::size_t chains = 0;
    for (; at < items.size(); ++at) {
        if (items[at].what == Item::Do::chain)
            ++chains;
        else if (items[at].what != Item::Do::yarn)
            break;
    }
    const bool closed =
        at < items.size() &&
        (items[at].what == Item::Do::ring || items[at].what == Item::Do::join ||
         (items[at].what == Item::Do::work && items[at].kind == book_->slip_stitch() &&
          items[at].count == 1 && items[at].spot.which == Spot::Which::first));
    if (chains != 1 || !closed) return;
    Item& close = items[at];
    if (close.what == Item::Do::work) close.what = Item::Do::join;
    ++at;
    const auto rest = items.begin() + static_cast<std::ptrdiff_t>(at);
    if (std::none_of(rest, items.end(), makes)) return;
    Written base;
    base.entry = written.entry;
    base.base = written.base;
    base.round = written.round;
    base.silent = true;
    base.text = base::trimmed(original_.substr(base_, rest->at));
    base.body.items.assign(std::make_move_iterator(items.begin()), std::make_move_iterator(rest));
    items.erase(items.begin(), rest);
    pattern_.written.push_back(std::move(base));
    pattern_.foundation.push_back(last_written());
}

void PatternReader::place_own(Body& body) {
    std::optional<Fault> fault;
    place_own(body.items, fault);
    if (fault) body.unknown.push_back({static_cast<std::uint32_t>(fault->at), fault->what});
}

/// Stitches of the pattern's own that pass over others are worked as their words are.
void PatternReader::place_own(std::vector<Item>& items, std::optional<Fault>& fault) const {
    for (Item& item : items) {
        place_own(item.items, fault);
        if (item.what != Item::Do::work) continue;
        const auto own = pattern_.make_ups.find(item.kind);
        if (own == pattern_.make_ups.end() || !own->second.placed) continue;
        const bool all = item.spot.which == Spot::Which::each;
        if (item.spot.which != Spot::Which::implied && !all) {
            if (!fault) fault = Fault{item.at, book_->at(item.kind).name, {}, {}};
            continue;
        }
        Item repeat;
        repeat.what = Item::Do::repeat;
        repeat.at = item.at;
        repeat.extent = {all ? Extent::Until::to_end : Extent::Until::times, item.count,
                         item.spot.keep, false, false};
        repeat.items = own->second.items;
        item = std::move(repeat);
    }
}

}  // namespace skeinfall::notation
