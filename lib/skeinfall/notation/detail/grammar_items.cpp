// Items with their places: chains, skips, changes, several worked together.

#include <algorithm>
#include <array>
#include <cstdint>
#include <string>
#include <utility>

#include "skeinfall/notation/detail/grammar.hpp"

namespace skeinfall::notation {

void Grammar::bracket_item(std::vector<Item>& out) {
    // "CO 48 (or any other multiple of 8) and join"
    if (depth_ == 0 && out.size() == 1 && out.back().what == Item::Do::work &&
        book_->at(out.back().kind).name == "CO" && is(TokenKind::word, 1) &&
        any_of({"or", "must", "should", "a", "any", "multiple", "i", "depending", "use", "using",
                "leave", "leaving", "adjust", "this", "note"},
               1)) {
        std::size_t to = next_ + 1;
        while (tokens_[to].kind != TokenKind::close && tokens_[to].kind != TokenKind::end) ++to;
        if (tokens_[to].kind == TokenKind::close) {
            SetAside told{SetAside::Why::remark, peek(1).at, {}};
            for (std::size_t i = next_ + 1; i < to; ++i)
                told.words += (i == next_ + 1 ? "" : " ") + std::string(tokens_[i].text);
            body_.aside.push_back(std::move(told));
            next_ = to + 1;
            return;
        }
    }
    if (tip_note() || describes_stitch() || chain_note(out) || declared_note() || remark_note(out))
        return;
    if (fault_ || too_deep()) return;
    const Token open = peek();
    // "inc (2 sc in next st)": the bracket says how; it does not come on top.
    const bool explains =
        !out.empty() && next_ > 0 &&
        (out.back().what == Item::Do::increase || out.back().what == Item::Do::decrease) &&
        tokens_[next_ - 1].kind == TokenKind::word;
    ++next_;
    ++depth_;
    Item item;
    item.at = open.at;
    item.items = items_until(open.sign == '(' ? ')' : open.sign == '[' ? ']' : '}');
    --depth_;
    if (fault_) return;
    if (several_in_next(out, item)) return;
    if (is(TokenKind::comma) && any_of({"rep", "repeat"}, 1) && !any_of({"from"}, 2)) ++next_;
    if (any_of({"rep", "repeat"}) && !any_of({"from"}, 1)) ++next_;
    // "Ch 11 (to measure about 2 in)": all of it was set aside
    if (item.items.empty() && book_->craft() == Craft::crochet && tokens_[next_ - 2].at == open.at)
        return;
    item.what = Item::Do::repeat;
    if (is(TokenKind::comma) && any_of({"around", "across"}, 1) && !is_words(2)) ++next_;
    if (const auto times = extent()) {
        item.extent = *times;
        // For a bracket "4 times" is four in all.
        if (item.extent.until == Extent::Until::n_times) item.extent.until = Extent::Until::times;
        if (item.extent.until != Extent::Until::to_end && at_place()) {
            Item group;  // "(dc, ch 1) twice in next st"
            group.what = Item::Do::group;
            group.at = open.at;
            group.items.push_back(std::move(item));
            return add_where(out, std::move(group));
        }
    } else if (fault_) {
        return;
    } else if (at_place()) {
        item.what = Item::Do::group;
        return add_where(out, std::move(item));
    } else if (explains) {
        item.extent.count = out.back().count;
        out.pop_back();
    }
    out.push_back(std::move(item));
}

void Grammar::together_item(std::vector<Item>& out, Item item, std::int64_t count) {
    const Stitch& stitch = book_->at(item.kind);
    if (count < 2 || count > 100 || stitch.takes != 1 || stitch.makes != 1) {
        fail(item.at, std::to_string(count) + " of these cannot be worked together",
             "2 to 100 stitches of a plain kind");
        return;
    }
    item.count = 1;
    item.kind = book_->together(item.kind, count);
    add_where(out, std::move(item));
}

void Grammar::chain_item(std::vector<Item>& out, Item item) {
    item.what = Item::Do::chain;
    if (any_of({"a", "any"}) && any_of({"multiple", "number", "length"}, 1))
        fail(peek().at, "how many chains are worked is not said", "a number",
             "Write it like: Ch 31.");
    // "ch 25 plus 2", "ch 100 + 2"
    if (any_of({"plus", "and"}) && is(TokenKind::number, 1) &&
        (is(TokenKind::end, 2) || is(TokenKind::full_stop, 2) || is(TokenKind::open, 2))) {
        item.count += peek(1).value;
        next_ += 2;
    }
    if (any_of({"to"}) && any_of({"turn"}, 1)) ++next_;  // "ch 5 to turn"
    if (any_of({"turn"}) && any_of({"each", "every"}, 1) && any_of({"row", "rows"}, 2)) {
        body_.turns_each = item.count;
        next_ += 3;
        Item turn;
        turn.what = Item::Do::turn;
        turn.at = item.at;
        out.push_back(std::move(item));
        out.push_back(std::move(turn));
        return;
    }
    const std::size_t from = next_;
    if (is(TokenKind::comma) && any_of({"counts", "counting"}, 1)) ++next_;
    if (is(TokenKind::comma) && any_of({"turn"}, 1) && any_of({"each", "every"}, 2) &&
        any_of({"row"}, 3)) {
        ++next_;
        return chain_item(out, std::move(item));
    }
    if (any_of({"counts", "counting", "does"}) || (any_of({"to"}) && any_of({"count"}, 1))) {
        std::size_t to = next_;
        while (tokens_[to].kind == TokenKind::word || tokens_[to].kind == TokenKind::number) ++to;
        item.note = turning_note(next_, to);
        next_ = item.note ? to : from;
    }
    out.push_back(std::move(item));
}

void Grammar::skip_item(std::vector<Item>& out) {
    Item item;
    item.what = Item::Do::skip;
    item.at = peek().at;
    ++next_;
    if (any_of({"rem", "remaining"})) {
        item.what = Item::Do::unworked;
        item.count = 0;
        pass_remark(SetAside::Why::place);
        out.push_back(std::move(item));
        return;
    }
    if (is(TokenKind::number) && (!is(TokenKind::word, 1) || any_of({"and"}, 1))) {
        item.spot.count = peek().value;
        ++next_;
    } else if (!is_words()) {
        item.spot.which = Spot::Which::next;
    } else if (any_of({"st", "stitch"}) && out.size() == 1 && out.back().note &&
               out.back().note->counts && out.back().note->chains == 0) {
        // "ch 2 (counts as dc), skip st and dc in each st": the one that the chain stands on
        ++next_;
        item.spot.which = Spot::Which::first;
    } else if (const auto spot = place()) {
        item.spot = *spot;
    } else {
        return;
    }
    if (item.spot.which == Spot::Which::implied) item.spot.which = Spot::Which::next;
    out.push_back(std::move(item));
    // "skip first dc and ch-1 sp"
    while (any_of({"and"}) && is(TokenKind::word, 1) && !fault_) {
        const std::size_t before = next_++;
        take({"the", "next"});
        Item more;
        more.what = Item::Do::skip;
        more.at = peek().at;
        more.spot.which = Spot::Which::next;
        const auto what = unit();
        if (!what || fault_ ||
            !(at_separator() || is(TokenKind::close) || is(TokenKind::end) || is_mark())) {
            fault_.reset();
            next_ = before;
            return;
        }
        more.spot.unit = *what;
        out.push_back(std::move(more));
    }
}

/// "inc in every other stitch", "increase in every 4th st around", "dec every 5th and 6th st": as
/// many changes as that makes of what is left, the rest plain. Nothing is taken for others.
bool Grammar::every_nth(std::vector<Item>& out, const Item& item) {
    static constexpr std::array<std::string_view, 9> spelled{
        "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth"};
    if (book_->craft() != Craft::crochet || item.count != 1) return false;
    const auto nth_at = [&](std::size_t by) -> std::int64_t {
        if (any_of({"other"}, by)) return 2;
        if (is(TokenKind::ordinal, by)) return peek(by).value;
        for (std::size_t i = 0; i < spelled.size(); ++i)
            if (any_of({spelled[i]}, by)) return static_cast<std::int64_t>(i) + 2;
        return 0;
    };
    std::size_t by = any_of({"in", "into"}) ? 1 : 0;
    if (!any_of({"every", "each"}, by)) return false;
    std::int64_t nth = nth_at(++by);
    if (nth < 2) return false;
    ++by;
    const bool less = item.what == Item::Do::decrease;
    if (less) {  // two neighbours, the last of every so many
        if (!any_of({"and"}, by) || nth_at(by + 1) != nth + 1) return false;
        ++nth;
        by += 2;
    }
    if (!any_of(stitch_words, by) && !(is(TokenKind::word, by) && book_->find(peek(by).text)))
        return false;
    next_ += by + 1;
    take({"tog", "together"});
    Item repeat;
    repeat.what = Item::Do::evenly;
    repeat.at = item.at;
    repeat.kind = book_->chain();
    if (!out.empty() && out.back().what == Item::Do::work &&
        out.back().spot.which == Spot::Which::each) {  // "sc in each st, inc in every 4th st"
        repeat.kind = out.back().kind;
        out.pop_back();
    }
    if (const auto until = extent()) repeat.extent.keep = until->keep;
    repeat.items.push_back(item);
    repeat.items.front().spot.which = Spot::Which::each;
    repeat.items.front().spot.nth = nth;
    out.push_back(std::move(repeat));
    return true;
}

void Grammar::change_item(std::vector<Item>& out, std::int64_t count) {
    Item item;
    item.at = peek().at;
    take({"inv", "invisible"});
    item.what = any_of({"inc", "increase", "increasing"}) ? Item::Do::increase : Item::Do::decrease;
    ++next_;
    item.count = count;
    if (is(TokenKind::number) && !any_of({"times", "time", "x"}, 1)) {
        item.count = peek().value;
        ++next_;
    }
    if (every_nth(out, item)) return;
    if (any_of({"every"}) && is(TokenKind::ordinal, 1)) {
        fail(peek().at, "a place counted as \"every nth\" is not followed", "the number of changes",
             "Write it like: dec 4 sts evenly across.");
        return;
    }
    if (region_has({"evenly", "equally"})) return evenly_item(out, std::move(item));
    add_where(out, std::move(item));
}

/// The item once for every place that follows it, or with how far it goes on.
void Grammar::add_where(std::vector<Item>& out, Item item) {
    if (const auto until = extent()) {
        if (until->until == Extent::Until::to_end) {
            const bool counted = item.count > 1 || item.what != Item::Do::work ||
                                 book_->at(item.kind).takes != 1 ||
                                 book_->at(item.kind).makes != 1 || number_before(item);
            // "k8, k2tog to end" may be all of the list, too.
            const bool listed =
                until->loose || (book_->craft() == Craft::knit && counted && until->keep == 0 &&
                                 !until->to_marker && item.what == Item::Do::work &&
                                 book_->at(item.kind).takes > 1);
            if (listed && whole_clause(out, item, *until, counted)) return;
            item.spot.which = Spot::Which::each;
            item.spot.keep = until->keep;
            item.spot.to_marker = until->to_marker;
            item.spot.last_marker = until->last_marker;
            item.spot.nth_marker = until->nth_marker;
            item.spot.to_gap = until->to_gap;
            // "2 sc around" puts two in each
            const bool each = book_->craft() == Craft::crochet && item.count < 4 &&
                              number_before(item) && book_->at(item.kind).takes == 1;
            if (item.count > 1 && item.what == Item::Do::work &&
                !each) {  // "k2 around": one by one
                item.count = 1;
            }
            push_from_start(out, std::move(item));
        } else if (at_place() && item.what == Item::Do::work &&
                   book_->craft() == Craft::crochet) {  // "hdc x 2 in 1st st"
            item.count *= std::max<std::int64_t>(1, until->count);
            return add_where(out, std::move(item));
        } else {  // "inc x 6"
            push_times(out, std::move(item), *until);
        }
        return;
    }
    if (fault_ || both_in_one(out, item)) return;
    if (!at_place()) {
        push_from_start(out, std::move(item));
        return;
    }
    slips_ = item.what == Item::Do::work && item.kind == book_->slip_stitch() &&
             book_->craft() == Craft::crochet;
    const std::size_t first = out.size();
    behind_skip_ = !out.empty() && out.back().what == Item::Do::skip;
    group_size_ = item.what == Item::Do::work && item.count > 1 ? item.count : 0;
    while (!fault_) {
        const auto spot = place();
        if (!spot) return;
        Item placed = item;
        placed.spot = *spot;
        // "dec in the next st": it begins there, and takes two all the same
        if (item.what == Item::Do::decrease && spot->which == Spot::Which::next &&
            spot->count == 1 && !spot->distributed && book_->craft() == Craft::crochet)
            placed.spot = {};
        push_from_start(out, std::move(placed));
        // "sc in each sc and each dc"
        if (out.size() > first + 1 && spot->which == Spot::Which::each &&
            out[out.size() - 2].spot.which == Spot::Which::each)
            interleave(out);
        // "... in 4th ch from hook (skipped ch count as dc) and in each ch across"
        if (spot->which == Spot::Which::from_hook && is(TokenKind::open)) remark_note(out);
        if (spot->which == Spot::Which::next && clause_around(out)) return;
        if (any_of({"to"}) && any_of({"join", "close"}, 1)) pass_remark(SetAside::Why::joining);
        const std::size_t before = next_;
        if (const auto often = how_often()) {  // "2 sc in next st 3 times"
            if (out.back().spot.which == Spot::Which::each && often->count > 1 &&
                book_->craft() == Craft::crochet)  // "sc in each st around twice"
                return fail(item.at, "this is worked all along, and more than once",
                            "one row a line",
                            "Write the rows it is, like: Rows 3-4: sc in each st.");
            Item last = std::move(out.back());
            out.pop_back();
            return push_times(out, std::move(last), *often);
        }
        // "in 4th ch from hook, and in each ch across"
        if (is(TokenKind::comma) && any_of({"and"}, 1) && book_->craft() == Craft::crochet &&
            any_of({"each", "every", "in", "into"}, 2))
            ++next_;
        if (!take({"and"})) break;
        if (const auto until = extent(); until && until->until == Extent::Until::to_end) {
            item.spot.which = Spot::Which::each;  // "in 2nd ch from hook and across"
            item.spot.keep = until->keep;
            out.push_back(std::move(item));
            return;
        }
        if (!at_place()) {
            next_ = before;
            break;
        }
    }
}

/// A single item several times over: n in all.
void Grammar::push_times(std::vector<Item>& out, Item item, Extent extent) {
    Item repeat;
    repeat.what = Item::Do::repeat;
    repeat.at = item.at;
    repeat.extent = extent;
    if (extent.until == Extent::Until::n_times) repeat.extent.until = Extent::Until::times;
    repeat.items.push_back(std::move(item));
    out.push_back(std::move(repeat));
}

/// "Starting in 2nd ch from hook, *sc in next ch, dc in next ch; rep from * across": the first time
/// begins there, the others go on.
void Grammar::push_starred(std::vector<Item>& out, Item repeat) {
    if (start_ && depth_ == 0) {
        Item first = repeat.items.empty() ? Item{} : repeat.items.front();
        const bool one =
            first.what == Item::Do::work && first.count == 1 && first.spot.count == 1 &&
            (first.spot.which == Spot::Which::next || first.spot.which == Spot::Which::implied);
        const bool open = repeat.extent.until == Extent::Until::to_end ||
                          repeat.extent.until == Extent::Until::more_times;
        if (!one || !open || repeat.stop_at > 0)
            return fail(repeat.at, "where this repeat begins on the chain is not clear",
                        "a first stitch with its place",
                        "Write it like: sc in 2nd ch from hook, *dc in next ch, ...");
        first.spot = *std::exchange(start_, std::nullopt);
        out.push_back(std::move(first));
        out.insert(out.end(), repeat.items.begin() + 1, repeat.items.end());
        if (repeat.extent.until == Extent::Until::more_times)
            repeat.extent.until = Extent::Until::times;
    }
    out.push_back(std::move(repeat));
}

/// The item; the first one behind "starting in 2nd ch from hook" goes there too.
void Grammar::push_from_start(std::vector<Item>& out, Item item) {
    if (start_ && item.what == Item::Do::work && !star_list_) {
        Item first = item;
        first.spot = *std::exchange(start_, std::nullopt);
        first.count = 1;
        out.push_back(std::move(first));
        if (item.spot.which == Spot::Which::next && --item.spot.count == 0) return;
        if (item.spot.which == Spot::Which::implied && --item.count == 0) return;
    }
    out.push_back(std::move(item));
}

}  // namespace skeinfall::notation
