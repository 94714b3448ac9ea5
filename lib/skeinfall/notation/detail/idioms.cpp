// Turns of phrase for a whole stretch of a row: repeats without a star, rib, "evenly across".

#include <algorithm>
#include <iterator>
#include <utility>

#include "skeinfall/notation/detail/grammar.hpp"

namespace skeinfall::notation {

/// "sc 1, dec, repeat 6 times": all of the row so far, what prepares it aside.
bool Grammar::repeat_all(std::vector<Item>& out) {
    const std::size_t before = next_++;
    auto times = extent();
    if (!times && !is(TokenKind::word)) times = Extent{Extent::Until::to_end, 1, 0};
    const auto first = std::find_if(out.begin(), out.end(), [](const Item& item) {
        return item.what != Item::Do::chain && item.what != Item::Do::turn &&
               item.what != Item::Do::join && item.what != Item::Do::ring;
    });
    if (!times || first == out.end()) {
        next_ = before;
        return false;
    }
    Item repeat;
    repeat.what = Item::Do::repeat;
    repeat.at = first->at;
    repeat.extent = *times;
    repeat.items.assign(std::make_move_iterator(first), std::make_move_iterator(out.end()));
    out.erase(first, out.end());
    out.push_back(std::move(repeat));
    return true;
}

/// "dec 4 sts evenly across": so many in what is left of the row, the rest plain.
void Grammar::evenly_item(std::vector<Item>& out, Item item) {
    Item repeat;
    repeat.what = Item::Do::evenly;
    repeat.at = item.at;
    repeat.kind = book_->craft() == Craft::knit ? book_->find_us("k") : book_->chain();
    // "k across, dec 4 sts evenly": the former tells the stitch
    if (!out.empty() && out.back().what == Item::Do::work &&
        (out.back().spot.which == Spot::Which::each ||
         (out.back().spot.which == Spot::Which::implied && out.back().count == 1))) {
        repeat.kind = out.back().kind;
        out.pop_back();
    }
    repeat.items.push_back(std::move(item));
    while (!any_of({"evenly"})) ++next_;
    ++next_;
    take({"spaced"});
    if (const auto until = extent()) repeat.extent.keep = until->keep;
    out.push_back(std::move(repeat));
}

/// "k2, p2 rib": over and over, the last time as far as it goes.
bool Grammar::rib_item(std::vector<Item>& out, const Item& last) {
    if (book_->craft() != Craft::knit || out.empty()) return false;
    ++next_;
    take({"st", "stitch"});
    Item repeat;
    repeat.what = Item::Do::repeat;
    repeat.at = out.back().at;
    repeat.partial = true;
    repeat.extent = {Extent::Until::to_end, 1, 0};
    repeat.items = {std::move(out.back()), last};
    out.pop_back();
    if (const auto until = extent()) repeat.extent.keep = until->keep;
    out.push_back(std::move(repeat));
    return true;
}

}  // namespace skeinfall::notation
