// Counts within a knitted row, the last repeat's other end, increases at markers.

#include <algorithm>
#include <cstdint>
#include <string>
#include <utility>

#include "skeinfall/notation/detail/grammar.hpp"

namespace skeinfall::notation {

/// The items between two counts, which are to come to the second: "k1p1 x3 (6 sts)" is both of
/// them three times. False where there are none.
bool Grammar::settle_part(std::uint32_t from, const Declared& count) {
    std::vector<Item>& items = body_.items;
    const auto inside = [&](const Item& item) { return item.at >= from && item.at < count.at; };
    const auto first = std::find_if(items.begin(), items.end(), inside);
    auto end = first;
    while (end != items.end() && inside(*end)) ++end;
    if (first == end) return false;
    std::int64_t once = 0;
    for (auto item = first; item != end; ++item) {
        if (item->what != Item::Do::work || item->spot.which != Spot::Which::implied) return true;
        once += (item + 1 == end ? 1 : item->count) * book_->at(item->kind).makes;
    }
    const std::int64_t times = (end - 1)->count;
    if (end - first < 2 || times < 2 || once * times != count.count) return true;
    Item repeat;
    repeat.what = Item::Do::repeat;
    repeat.at = first->at;
    repeat.extent.count = times;
    (end - 1)->count = 1;
    repeat.items.assign(first, end);
    *first = std::move(repeat);
    items.erase(first + 1, end);
    return true;
}

/// "k1p1 x3 (6 sts), c6f (12 sts), k1p1 x3 (6 sts)": counts of the parts are together that of the
/// row; one in the midst of a row is told and counts nothing.
void Grammar::settle_part_counts() {
    if (book_->craft() != Craft::knit || body_.items.empty()) return;
    std::vector<Declared>& declared = body_.declared;
    const std::uint32_t last = body_.items.back().at;
    const auto within = [&](const Declared& one) {
        return one.at < last && one.what == Declared::What::stitches;
    };
    const auto parts = std::count_if(declared.begin(), declared.end(), within);
    if (parts == 0) return;
    const bool all = declared.back().at > last && parts + 1 == std::ssize(declared) &&
                     std::all_of(declared.begin(), declared.end(), [](const Declared& one) {
                         return one.what == Declared::What::stitches;
                     });
    bool covered = all && parts > 1;
    for (std::size_t i = 0; covered && i < declared.size(); ++i)
        covered = settle_part(i == 0 ? 0 : declared[i - 1].at, declared[i]);
    if (covered) {
        Declared sum = declared.back();
        sum.count = 0;
        for (const Declared& one : declared) sum.count += one.count;
        declared = {std::move(sum)};
        return;
    }
    for (const Declared& one : declared)
        if (within(one))
            body_.aside.push_back({SetAside::Why::remark, one.at,
                                   std::to_string(one.count) + " sts so far, in the midst of it"});
    std::erase_if(declared, within);
}

/// "rep from *, end k2 instead of k1": the last time goes without the part's last stitches, which
/// the words name.
bool Grammar::instead_item(std::vector<Item>& out) {
    if (book_->craft() != Craft::knit || out.empty() || out.back().what != Item::Do::repeat ||
        out.back().extent.until != Extent::Until::to_end || out.back().items.size() < 2)
        return false;
    std::size_t by = 1;
    while (by < 10 && (is_words(by) || is(TokenKind::comma, by)) &&
           !(any_of({"instead"}, by) && any_of({"of"}, by + 1)))
        ++by;
    if (!any_of({"instead"}, by) || !any_of({"of"}, by + 1)) return false;
    const std::size_t here = next_;
    next_ += by + 2;
    take({"the"});
    take({"last"});
    const Item& last = out.back().items.back();
    const std::uint32_t at = peek().at;
    const auto named = stitch_name();
    std::int64_t count = named ? named->count.value_or(1) : 1;
    if (named && !named->count && is(TokenKind::number)) {
        count = peek().value;
        ++next_;
    }
    instead_end_ = next_;
    instead_ = here + by;
    next_ = here;
    if (!named || last.what != Item::Do::work || last.kind != named->kind || last.count != count) {
        fail(at, "this is not what the repeated part ends with", "the last stitches of the part",
             "Write the last repeat out.");
        return true;
    }
    out.back().stop_at = static_cast<std::uint32_t>(out.back().items.size() - 1);
    return false;
}

/// "(k10, k2tog)" and nothing else: to the end of the row, where once would not reach it.
void Grammar::bracket_fills_row() {
    if (book_->craft() != Craft::knit || body_.items.size() != 1) return;
    Item& only = body_.items.front();
    if (only.what != Item::Do::repeat || only.extent.until != Extent::Until::times ||
        only.extent.count != 1 || only.items.size() < 2)
        return;
    for (std::size_t i = 0; i < last_; ++i) {
        if (tokens_[i].at == only.at && tokens_[i].kind != TokenKind::open) return;
        if (among(tokens_[i], {"once"})) return;
    }
    only.extent.until = Extent::Until::to_end;
}

bool Grammar::star_never_ends() const {
    if (book_->craft() != Craft::knit) return false;
    for (std::size_t by = 0; !is(TokenKind::end, by); ++by)
        if (is(TokenKind::star, by) || is(TokenKind::double_star, by) ||
            any_of({"rep", "repeat", "repeating"}, by))
            return false;
    return true;
}

/// "*k6, k2tog" without an end: to the end of the row. "*sl 1, knit across": its own words reach
/// it.
bool Grammar::star_to_end(std::vector<Item>& out, Item& item) {
    if (fills_row(item.items)) {
        out.push_back(std::move(item.items.front()));
        out.back().last_only = Item::Last::no;
        return true;
    }
    if (book_->craft() != Craft::knit) return false;
    const bool reaches = std::any_of(item.items.begin(), item.items.end(), [](const Item& one) {
        return one.spot.which == Spot::Which::each || one.what == Item::Do::evenly ||
               (one.what == Item::Do::repeat && one.extent.until == Extent::Until::to_end);
    });
    if (reaches) {
        for (Item& one : item.items) out.push_back(std::move(one));
        return true;
    }
    item.extent = Extent{Extent::Until::to_end, 1, 0, false, false};
    out.push_back(std::move(item));
    return true;
}

/// "*k1, p1* (4x)"
bool Grammar::bracket_times(std::vector<Item>& out, Item& item) {
    if (book_->craft() != Craft::knit || !times_bracket_here()) return false;
    ++next_;
    take({"repeat", "rep"});
    const auto times = how_often();
    if (!times) return false;
    while (!is(TokenKind::close)) ++next_;
    ++next_;
    item.extent = *times;
    item.extent.until = Extent::Until::times;
    out.push_back(std::move(item));
    return true;
}

/// "*k1, p1*, k6, rep between *s": the starred part once more.
bool Grammar::again_star(std::vector<Item>& out) {
    const auto starred = [&](const Item& item) {
        if (item.what != Item::Do::repeat || item.extent.until != Extent::Until::to_end ||
            item.extent.loose)
            return false;
        for (std::size_t i = 0; i < last_; ++i)
            if (tokens_[i].at == item.at) return tokens_[i].kind == TokenKind::star;
        return false;
    };
    const auto found = std::find_if(out.rbegin(), out.rend(), starred);
    if (found == out.rend() || found == out.rbegin()) return false;
    const std::size_t before = next_++;
    if (!star_words()) {
        next_ = before;
        return false;
    }
    const auto times = how_often();
    // In crochet only a number says how often what stands between is passed.
    if (book_->craft() == Craft::crochet && !times) {
        next_ = before;
        return false;
    }
    if (!times && !at_separator() && !is(TokenKind::end) && !is(TokenKind::open)) {
        next_ = before;
        return false;
    }
    found->extent = Extent{};
    Item again = *found;
    again.extent.count = times ? times->count : 1;
    out.push_back(std::move(again));
    return true;
}

/// "[k1, yo, k1 in next st]": all of it in there.
bool Grammar::several_in_next(std::vector<Item>& out, Item& item) {
    if (book_->craft() != Craft::knit || item.items.size() < 2) return false;
    Spot& spot = item.items.back().spot;
    if ((spot.which != Spot::Which::next && spot.which != Spot::Which::same) || spot.count != 1 ||
        spot.to_marker || spot.unit.of != Unit::Of::any)
        return false;
    for (std::size_t i = 0; i < item.items.size(); ++i) {
        const Item& one = item.items[i];
        if (one.what != Item::Do::work || one.count != 1) return false;
        const std::string& name = book_->at(one.kind).name;
        if (name != "k" && name != "p" && name != "yo") return false;
        if (i + 1 < item.items.size() && one.spot.which != Spot::Which::implied) return false;
    }
    item.what = Item::Do::group;
    item.spot = spot;
    spot = Spot{};
    if (const auto times = how_often()) {
        Item repeat;
        repeat.what = Item::Do::repeat;
        repeat.at = item.at;
        repeat.extent.count = times->count;
        repeat.items.push_back(std::move(item));
        out.push_back(std::move(repeat));
    } else {
        out.push_back(std::move(item));
    }
    return true;
}

}  // namespace skeinfall::notation
