// Turns of phrase for a whole stretch of a row: repeats without a star, rib, "evenly across".

#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <iterator>
#include <string>
#include <utility>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/notation/detail/grammar.hpp"
#include "skeinfall/notation/detail/words.hpp"

namespace skeinfall::notation {
namespace {

/// Neither the chain at the beginning nor what prepares the row.
bool worked_item(const Item& item) {
    return item.what != Item::Do::chain && item.what != Item::Do::turn &&
           item.what != Item::Do::join && item.what != Item::Do::ring &&
           item.what != Item::Do::marker && item.what != Item::Do::at_marker &&
           item.what != Item::Do::drop_marker;
}

bool plain_list(const std::vector<Item>& items) {
    return std::all_of(items.begin(), items.end(), [](const Item& item) {
        return item.spot.which != Spot::Which::each &&
               !(item.what == Item::Do::repeat && item.extent.until == Extent::Until::to_end) &&
               item.spot.which != Spot::Which::first && item.spot.which != Spot::Which::from_hook &&
               item.spot.which != Spot::Which::last;
    });
}

}  // namespace

/// Whether "(x6)", "(6 times)" stands here.
bool Grammar::times_bracket_here() const {
    if (!is(TokenKind::open)) return false;
    std::size_t by = 1;
    if (any_of({"x", "repeat", "rep"}, by)) ++by;
    const bool sign = by > 1;
    if (is(TokenKind::word, by) && peek(by).text.size() > 1 && peek(by).text.front() == 'x' &&
        peek(by).text.find_first_not_of("0123456789", 1) == std::string_view::npos)
        return is(TokenKind::close, by + 1);
    if (any_of({"once", "twice"}, by)) return is(TokenKind::close, by + 1);  // "dec (twice)"
    if (!is(TokenKind::number, by)) return false;
    ++by;
    if (is(TokenKind::close, by)) return sign;
    if (any_of({"times", "x", "time"}, by)) ++by;
    if (any_of({"total", "around"}, by)) ++by;
    return is(TokenKind::close, by) && by > 2;
}

/// "sc 4, inc (x6)": the sentence so far, six times in all.
bool Grammar::times_bracket(std::vector<Item>& out) {
    if (!times_bracket_here() || out.empty()) return false;
    ++next_;
    take({"repeat", "rep"});
    const auto times = how_often();
    if (!times) return false;
    while (!is(TokenKind::close)) ++next_;
    ++next_;
    Extent extent = *times;
    extent.until = Extent::Until::times;
    const auto from =
        depth_ == 0 ? out.begin() + static_cast<std::ptrdiff_t>(std::min(clause_, out.size() - 1))
                    : out.begin();
    auto first = std::find_if(from, out.end(), worked_item);
    if (first == out.end()) first = out.end() - 1;
    // "dec (3 times), sc in next 5 sts": more follows, so only the last is meant
    if (is(TokenKind::comma) && (is_words(1) || is(TokenKind::open, 1)) &&
        !(is(TokenKind::number, 1) && any_of({"sts", "st", "stitches"}, 2)))
        first = out.end() - 1;
    Item repeat;
    repeat.what = Item::Do::repeat;
    repeat.at = first->at;
    repeat.extent = extent;
    repeat.items.assign(std::make_move_iterator(first), std::make_move_iterator(out.end()));
    // "dec (3 times), sc in next 6 sts, dec (3 times)": the list has its own repeats
    if (repeat.items.size() > 1)
        repeat.last_only =
            std::any_of(repeat.items.begin(), repeat.items.end() - 1,
                        [](const Item& item) { return item.what == Item::Do::repeat; })
                ? Item::Last::usual
                : Item::Last::maybe;
    out.erase(first, out.end());
    out.push_back(std::move(repeat));
    return true;
}

/// Whether "rep ..." closes a part that began with a star: it names one, or nothing else.
bool Grammar::repeats_star() const {
    if (any_of({"from", "between"}, 1) || is_mark(1)) return true;
    if (is(TokenKind::open, 1) && any_of({"rep"}, 2)) return true;
    for (std::size_t by = 1; by < 5 && is_words(by); ++by)
        if (is_mark(by + 1)) return true;
    return any_of({"across", "around", "to", "until", "till", "once", "twice"}, 1) ||
           is(TokenKind::number, 1) || !is_words(1);
}

/// "from *", "between *s", "instructions between * and *", "from * to *". False without a star.
bool Grammar::star_words() {
    while (take(
        {"from", "between", "instructions", "directions", "pattern", "what", "the", "is", "in"})) {
    }
    if (take({"stars"})) return true;
    if (!is_mark() && !any_of({"asterisk", "asterisks"})) return false;
    ++next_;
    if (any_of({"to", "and"})) {
        ++next_;
        if (is_mark())
            ++next_;
        else
            --next_;
    } else if (is_mark()) {  // "between * *"
        ++next_;
    }
    take({"s"});  // "between *s"
    return true;
}

/// Whether a count stands beside the item: "p2", "2 p".
bool Grammar::number_before(const Item& item) const {
    for (std::size_t i = 0; i < last_; ++i)
        if (tokens_[i].at == item.at)
            return tokens_[i].kind == TokenKind::number ||
                   tokens_[i + 1].kind == TokenKind::number ||
                   (tokens_[i].text.find_first_of("0123456789") != std::string_view::npos);
    return false;
}

/// "k6, k2tog around": all of the sentence over and over, by its usual reading. A last item that
/// can fill a row by itself ("k1, purl across") does so. False: the item alone.
bool Grammar::whole_clause(std::vector<Item>& out, Item& item, const Extent& until, bool counted) {
    const bool listed = star_list_ && depth_ == 1;
    const std::size_t clause = listed ? 0 : clause_;
    if (!counted || (depth_ > 0 && !listed) || out.size() <= clause) return false;
    const auto first =
        std::find_if(out.begin() + static_cast<std::ptrdiff_t>(clause), out.end(), worked_item);
    if (first == out.end()) return false;
    const std::vector<Item> before(first, out.end());
    if (!plain_list(before) || item.spot.which != Spot::Which::implied) return false;
    Item repeat;
    repeat.what = Item::Do::repeat;
    repeat.at = first->at;
    repeat.extent = until;
    repeat.last_only = Item::Last::maybe;
    repeat.items.assign(std::make_move_iterator(first), std::make_move_iterator(out.end()));
    repeat.items.push_back(std::move(item));
    out.erase(first, out.end());
    // "k1, p1 across" is rib, over whatever number of stitches.
    const auto rib = [&](const Item& one) {
        return one.what == Item::Do::work && one.count <= 2 &&
               (one.kind == book_->find_us("k") || one.kind == book_->find_us("p"));
    };
    if (book_->craft() == Craft::knit && repeat.items.size() == 2 &&
        std::all_of(repeat.items.begin(), repeat.items.end(), rib) &&
        repeat.items[0].kind != repeat.items[1].kind) {
        repeat.partial = true;
        repeat.last_only = Item::Last::no;
    }
    out.push_back(std::move(repeat));
    return true;
}

/// "in next ch-2 sp work (3 dc, ch 2, 3 dc)": the place before what goes there.
bool Grammar::place_first(std::vector<Item>& out) {
    const bool fresh = next_ == 0 || tokens_[next_ - 1].kind != TokenKind::word ||
                       has_role(tokens_[next_ - 1].text, Role::filler);
    if (!fresh || !at_place() || any_of({"over", "next", "between"})) return false;
    const std::size_t before = next_;
    const auto spot = place();
    if (!spot || fault_) return false;
    if (is(TokenKind::comma)) ++next_;
    take({"work", "make", "do", "place", "put"});
    if (book_->craft() == Craft::crochet) take({"a", "an"});
    if (starred_there(out, *spot)) return true;
    if (!is_words() && !is(TokenKind::open)) {
        next_ = before;
        return false;
    }
    std::vector<Item> inner;
    ++depth_;
    const bool list = spot->unit.of == Unit::Of::space || spot->which == Spot::Which::ring;
    if (!several_first(inner, list)) item(inner);
    --depth_;
    if (fault_) return false;
    if (inner.size() != 1 ||
        (inner.front().what != Item::Do::work && inner.front().what != Item::Do::repeat) ||
        inner.front().spot.which != Spot::Which::implied) {
        next_ = before;
        return false;
    }
    Item placed = std::move(inner.front());
    if (placed.what == Item::Do::repeat) {
        if (placed.extent.until == Extent::Until::to_end) {
            next_ = before;
            return false;
        }
        if (placed.extent.count == 1 && placed.extent.until == Extent::Until::times) {
            placed.what = Item::Do::group;
        } else {
            Item group;
            group.what = Item::Do::group;
            group.at = placed.at;
            group.items.push_back(std::move(placed));
            placed = std::move(group);
        }
    }
    placed.spot = *spot;
    out.push_back(std::move(placed));
    return true;
}

/// "sl 3 to cn and hold in front": they are worked when "from cn" says so.
bool Grammar::held_item() {
    std::size_t by = 0;
    if (any_of({"sl", "slip", "place", "put"})) {
        by = 1;
    } else if (is(TokenKind::word) && peek().text.starts_with("sl") && peek().text.size() > 2 &&
               peek().text.find_first_not_of("0123456789", 2) == std::string_view::npos) {
        by = 1;
    } else {
        return false;
    }
    std::int64_t count =
        by == 1 && peek().text.size() > 2 && peek().text.starts_with("sl") && peek().text != "slip"
            ? base::leading_number<std::int64_t>(peek().text.substr(2))
            : 1;
    std::size_t end = by;
    bool needle = false;
    while (is_words(end) && end < 14) {
        if (is(TokenKind::number, end) && !needle) count = peek(end).value;
        if (any_of({"cn"}, end) || (any_of({"cable"}, end) && any_of({"needle"}, end + 1)))
            needle = true;
        if (needle && any_of({"front", "back"}, end)) {
            ++end;
            if (any_of({"of"}, end)) end += any_of({"the", "your"}, end + 1) ? 3U : 2U;
            break;
        }
        if (needle && any_of({"k", "p", "knit", "purl"}, end)) break;
        ++end;
    }
    if (!needle) return false;
    const std::size_t from = next_;
    next_ += end;
    held_ += count;
    SetAside told;
    told.why = SetAside::Why::place;
    told.at = tokens_[from].at;
    for (std::size_t i = from; i < next_; ++i) {
        if (!told.words.empty()) told.words += ' ';
        told.words += tokens_[i].text;
    }
    body_.aside.push_back(std::move(told));
    return true;
}

void Grammar::check_held() {
    if (held_ > 0)
        fail(tokens_[last_].at, "stitches on a cable needle are not worked again",
             "\"from cn\" behind what is worked of them",
             "Write it like: sl 2 to cn and hold in front, k2, k2 from cn.");
}

/// "slip 1 as if to purl", "with yarn in front": nothing that its yarn shows.
bool Grammar::pass_manner() {
    const std::size_t from = next_;
    if (take({"as"})) {
        if (!take({"if"}) || !take({"to"}) || !take({"purl", "knit", "p", "k"})) {
            next_ = from;
            return false;
        }
        return true;
    }
    if (take({"with"}) && take({"yarn"}) && take({"in"}) && take({"front", "back"})) {
        if (take({"of"})) take({"work"});
        return true;
    }
    next_ = from;
    return false;
}

/// "work even", "in pattern as established": every stitch as it shows.
bool Grammar::even_item(std::vector<Item>& out) {
    const std::size_t before = next_;
    const std::uint32_t at = peek().at;
    bool told = false;
    const bool led = take({"work", "working", "continue", "cont", "keeping", "keep", "knit"});
    if (take({"even", "straight"})) told = true;
    if (!told || any_of({"in"})) {
        const std::size_t here = next_;
        take({"in"});
        take({"the"});
        bool established = take({"established", "est", "same"});
        take({"rib", "ribbing", "lace", "cable", "stitch", "st", "k2", "seed", "moss"});
        const bool pattern = take({"pattern", "patt", "pat"});
        if (take({"as"}))
            established = take({"established", "est", "set", "before"}) || established;
        established = take({"established"}) || established;
        // "in same loop" is a place.
        const bool place = !pattern && next_ > here && tokens_[next_ - 1].text == "same";
        if (pattern || (established && next_ > here + 1 && !place))
            told = true;
        else
            next_ = here;
    }
    if (!told || (tokens_[before].text == "knit" && next_ == before + 1)) {
        next_ = before;
        return false;
    }
    (void)led;
    Item none;
    none.what = Item::Do::increase;
    none.at = at;
    none.count = 0;
    Item even;
    even.what = Item::Do::evenly;
    even.at = at;
    even.kind = book_->craft() == Craft::knit ? book_->find_us("k") : book_->chain();
    even.items.push_back(std::move(none));
    if (is(TokenKind::number) && any_of(stitch_words, 1)) {
        fail(peek().at, "how these stitches are worked is not said here", "the stitches",
             "Write them out, like: k2, p2.");
        return true;
    }
    if (const auto until = extent()) {
        even.extent.keep = until->keep;
        even.extent.to_marker = until->to_marker;
        even.extent.last_marker = until->last_marker;
        even.extent.nth_marker = until->nth_marker;
        even.extent.to_gap = until->to_gap;
    }
    out.push_back(std::move(even));
    return true;
}

/// "sc 1, dec, repeat 6 times": all of the row so far, what prepares it aside.
bool Grammar::repeat_all(std::vector<Item>& out) {
    const std::size_t before = next_++;
    auto times = extent();
    if (!times && !is_words()) times = Extent{Extent::Until::to_end, 1, 0, false, true};
    auto first = std::find_if(out.begin(), out.end(), worked_item);
    if (!times || first == out.end()) {
        next_ = before;
        return false;
    }
    // "ch 6, sc in next loop, ch 6, sc in next loop, repeat around": the chain too
    if (first != out.begin() && (first - 1)->what == Item::Do::chain &&
        std::any_of(first, out.end(), [&](const Item& item) {
            return item.what == Item::Do::chain && item.count == (first - 1)->count;
        }))
        --first;
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
    while (!any_of({"evenly", "equally"})) ++next_;
    ++next_;
    take({"spaced"});
    take({"across", "along", "over"});
    take({"the", "this", "next"});
    take({"row", "rnd", "round"});
    if (any_of({"to"}) && is(TokenKind::number, 1) && any_of(stitch_words, 2) && item.count == 1) {
        item.spot.which = Spot::Which::last;  // "dec evenly across to 68 sts": so many are left
        item.spot.count = peek(1).value;
        next_ += 3;
    } else if (const auto until = extent()) {
        repeat.extent.keep = until->keep;
    }
    repeat.items.push_back(std::move(item));
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
    repeat.extent = {Extent::Until::to_end, 1, 0, false, false};
    repeat.items = {std::move(out.back()), last};
    out.pop_back();
    if (const auto until = extent()) repeat.extent.keep = until->keep;
    out.push_back(std::move(repeat));
    return true;
}

bool Grammar::too_deep() {
    if (depth_ < deepest) return false;
    fail(peek().at, "brackets and repeats stand in each other too deep",
         "at most " + std::to_string(deepest) + " levels", "Write the inner ones out.");
    return true;
}

}  // namespace skeinfall::notation
