// Counts within a knitted row, the last repeat's other end, increases at markers.

#include <algorithm>
#include <cstdint>
#include <string>
#include <utility>

#include "skeinfall/notation/detail/grammar.hpp"

namespace skeinfall::notation {

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
    for (std::size_t i = 0; covered && i < declared.size(); ++i) {
        const std::uint32_t from = i == 0 ? 0 : declared[i - 1].at;
        const auto between =
            std::count_if(body_.items.begin(), body_.items.end(), [&](const Item& item) {
                return item.at >= from && item.at < declared[i].at && item.what != Item::Do::yarn;
            });
        covered = between == 1;
    }
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

/// "*k1, p1*, k6, rep between *s": the starred part once more.
bool Grammar::again_star(std::vector<Item>& out) {
    if (book_->craft() != Craft::knit) return false;
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
