// Knitting by the name of its fabric: ribs, garter, stockinette.

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "skeinfall/notation/detail/grammar.hpp"
#include "skeinfall/notation/detail/words.hpp"

namespace skeinfall::notation {
namespace {}  // namespace

/// Whether a fabric is named before the next full stop.
bool Grammar::region_has_fabric() const {
    for (std::size_t by = 0; !is(TokenKind::end, by) && !is(TokenKind::full_stop, by); ++by)
        if (any_of({"rib", "ribbing", "garter", "stockinette", "stocking", "pattern", "patt", "st"},
                   by) &&
            !any_of({"next", "each"}, by - (by > 0 ? 1U : 0U)))
            return true;
    return false;
}

/// "2/2 ribbing", "in 1x1 rib": so many knit, so many purled, as far as the row goes.
bool Grammar::rib_by_numbers(std::vector<Item>& out) {
    std::size_t by = any_of({"in", "rib", "ribbing"}) ? 1 : 0;
    const bool named = by == 1 && !any_of({"in"});
    if (any_of({"in"}) && any_of({"a"}, 1)) by = 2;
    if (!is(TokenKind::number, by)) return false;
    const std::int64_t knit = peek(by).value;
    std::int64_t purl = 0;
    std::size_t end = by + 1;
    if ((is(TokenKind::slash, end) || any_of({"x", "by"}, end) || is(TokenKind::dash, end)) &&
        is(TokenKind::number, end + 1)) {
        purl = peek(end + 1).value;
        end += 2;
    } else if (is(TokenKind::word, end) && peek(end).text.size() == 2 &&
               peek(end).text.front() == 'x' && peek(end).text[1] >= '1' &&
               peek(end).text[1] <= '9') {
        purl = peek(end).text[1] - '0';
        ++end;
    } else {
        return false;
    }
    if (!named && !any_of({"rib", "ribbing", "ribs"}, end)) return false;
    if (knit < 1 || purl < 1) return false;
    std::pair<std::int64_t, std::int64_t> ribs{knit, purl};
    Item repeat;
    repeat.what = Item::Do::repeat;
    repeat.at = peek().at;
    repeat.partial = true;
    next_ += end;
    take({"rib", "ribbing", "ribs"});
    take({"pattern", "patt", "stitch", "st"});
    if (is(TokenKind::open)) {  // "1x2 rib (k2, p1)": the bracket says which are knit
        std::size_t to = 1;
        std::vector<std::int64_t> counts;
        for (; !is(TokenKind::close, to) && !is(TokenKind::end, to) && to < 8; ++to) {
            const std::string_view text = peek(to).text;
            if (is(TokenKind::number, to)) counts.push_back(peek(to).value);
            if (is(TokenKind::word, to) && text.size() == 2 && text[1] >= '1' && text[1] <= '9')
                counts.push_back(text[1] - '0');
        }
        if (is(TokenKind::close, to) && counts.size() == 2 &&
            (any_of({"k", "knit"}, 1) || peek(1).text.front() == 'k')) {
            next_ += to + 1;
            ribs = {counts[0], counts[1]};
        }
    }
    repeat.extent = {Extent::Until::to_end, 1, 0, false, false};
    Item one;
    one.at = repeat.at;
    one.kind = book_->find_us("k");
    one.count = ribs.first;
    repeat.items.push_back(one);
    one.kind = book_->find_us("p");
    one.count = ribs.second;
    repeat.items.push_back(one);
    if (const auto until = extent()) repeat.extent.keep = until->keep;
    out.push_back(std::move(repeat));
    return true;
}

/// "in St st", "garter st": knitting by the name of its fabric.
bool Grammar::fabric_item(std::vector<Item>& out) {
    if (book_->craft() != Craft::knit) return false;
    const Words fabrics{"garter", "stockinette", "stocking", "g-st", "stst", "gst", "ss"};
    const auto fabric = [&](std::size_t by) {
        return any_of(fabrics, by) || (any_of({"st"}, by) && any_of({"st"}, by + 1));
    };
    if (any_of({"in", "work", "working", "even", "straight"}) &&
        (fabric(1) || any_of({"rev", "reverse", "k", "p", "in", "rib", "ribbing"}, 1) ||
         (is(TokenKind::word, 1) && peek(1).text.size() == 2 && peek(1).text.front() == 'k'))) {
        ++next_;  // "in St st", "in k2, p2 rib"
        return true;
    }
    Item item;
    item.at = peek().at;
    if (rib_by_numbers(out)) return true;
    const bool reverse = take({"rev", "reverse"});
    if (!fabric(0)) {
        if (reverse) --next_;
        return false;
    }
    next_ += any_of({"st"}) ? 2U : 1U;
    take(stitch_words);
    if (is(TokenKind::open)) {  // "(knit on RS, purl on WS)"
        std::size_t to = next_ + 1;
        bool explains = false;
        while (tokens_[to].kind != TokenKind::close && tokens_[to].kind != TokenKind::end) {
            const std::string_view word = tokens_[to].text;
            explains = explains || word == "side" || word == "rs" || word == "ws" ||
                       word == "every" || word == "row" || word == "rows" || word == "all" ||
                       word == "round" || word == "rounds" || word == "repeat" || word == "rep";
            ++to;
        }
        if (explains && tokens_[to].kind == TokenKind::close) {
            SetAside told{SetAside::Why::place, peek(1).at, {}};
            for (std::size_t i = next_ + 1; i < to; ++i)
                told.words += (i == next_ + 1 ? "" : " ") + std::string(tokens_[i].text);
            body_.aside.push_back(std::move(told));
            next_ = to + 1;
        }
    }
    item.kind = book_->find("k")->kind;
    item.spot.which = Spot::Which::each;
    if (const auto until = extent()) item.spot.keep = until->keep;
    out.push_back(std::move(item));
    return true;
}

}  // namespace skeinfall::notation
