// Holders, needles and the places where work was turned.

#include <algorithm>
#include <cstdint>
#include <iterator>
#include <string>
#include <utility>

#include "skeinfall/notation/detail/grammar.hpp"
#include "skeinfall/notation/detail/yarns.hpp"

namespace skeinfall::notation {
namespace {

/// Whether the item goes on as far as the row does, in plain knit or purl stitches.
bool open_stretch(const Item& item) {
    return item.what == Item::Do::work && item.spot.which == Spot::Which::each &&
           !item.spot.to_marker;
}

}  // namespace

/// "place next 11 sts on waste yarn": they wait, and are not worked.
bool Grammar::holder_item(std::vector<Item>& out) {
    if (!any_of({"place", "slip", "sl", "put", "transfer", "move", "leave", "leaving", "placing",
                 "slipping", "putting", "keep"}))
        return false;
    if (!region_has({"hold", "holder", "holders", "waste", "scrap", "spare", "thread"}))
        return false;
    std::size_t by = 1;
    bool rest = false;
    bool last = false;
    bool worked = false;  // "k8, place these 8 sts on a holder"
    while (any_of(
        {"the", "first", "next", "last", "these", "following", "rem", "remaining", "instep",
         "thumb", "sleeve", "other", "all", "held", "center", "centre", "front", "back", "neck"},
        by)) {
        if (any_of({"held"}, by)) return false;
        rest = rest || any_of({"rem", "remaining", "instep", "other"}, by);
        worked = worked || (any_of({"these"}, by) && !out.empty() && works(out.back()));
        last = any_of({"last"}, by);
        ++by;
    }
    const bool counted = is(TokenKind::number, by);
    const bool named = any_of({"st", "sts", "stitches"}, by);
    // "place sts to next marker on waste yarn", "place sleeve sts on a holder"
    bool marked = !counted && named && any_of({"sleeve", "thumb", "gusset"}, by - 1);
    if (!counted && named) {
        std::size_t to = by + 1;
        while (any_of({"to", "until", "up", "before", "between", "the", "next", "two", "first",
                       "second", "2"},
                      to))
            ++to;
        marked = marked || (to > by + 1 && any_of({"marker", "markers", "m"}, to));
    }
    if (!counted && !marked && !(rest && named)) return false;
    Item item;
    item.at = peek().at;
    item.what = Item::Do::hold;
    item.spot.to_marker = marked && (by < 2 || !any_of({"rem", "remaining"}, by - 1));
    item.spot.which = last ? Spot::Which::last : worked ? Spot::Which::same : Spot::Which::next;
    item.count = counted ? 1 : 0;
    item.spot.count = counted ? peek(by).value : 0;
    const std::size_t from = next_ + by + 1;
    next_ = from;
    while (is_words() && !any_of({"hold", "holder", "holders", "yarn", "needle", "thread"}))
        ++next_;
    if (is_words()) ++next_;
    while (take({"st",     "on",    "onto",   "a",      "or",     "hold",  "holder",   "waste",
                 "scrap",  "spare", "yarn",   "stitch", "needle", "piece", "of",       "for",
                 "the",    "thumb", "instep", "sleeve", "later",  "to",    "be",       "worked",
                 "safety", "pin",   "pins",   "button", "border", "band",  "neckband", "left",
                 "right",  "front", "back",   "neck",   "body",   "first", "second"})) {
    }
    set_aside(from, SetAside::Why::place);
    out.push_back(std::move(item));
    return true;
}

/// What phrases made of "knit across 32 sts from holder", "place 11 held sts on needles" and
/// "heel is worked over 32 sts".
bool Grammar::held_again(std::vector<Item>& out) {
    if (any_of({"onlyon"}) && is(TokenKind::number, 1)) {  // "working on these 20 sts only"
        Item item;
        item.at = peek().at;
        item.what = Item::Do::hold;
        item.count = 0;
        item.spot.keep = peek(1).value;
        next_ += 2;
        out.push_back(std::move(item));
        return true;
    }
    if (!any_of({"fromholder", "unhold", "workonly"})) return false;
    Item item;
    item.at = peek().at;
    item.what = any_of({"workonly"}) ? Item::Do::work_only : Item::Do::unhold;
    item.kind = book_->find_us("k");
    item.count = 0;
    ++next_;
    if (any_of({"p", "purl"})) item.kind = book_->find_us("p");
    take({"k", "knit", "p", "purl"});
    if (is(TokenKind::number)) {
        item.count = peek().value;
        ++next_;
    }
    out.push_back(std::move(item));
    return true;
}

/// "Needle 1: k to last 3 sts, k2tog, k1." begins what is worked on a needle.
bool Grammar::needle_item(std::vector<Item>& out) {
    if (book_->craft() != Craft::knit) return false;
    std::size_t by = any_of({"on"}) ? 1 : 0;
    if (is(TokenKind::word, by) && peek(by).text.size() == 2 && peek(by).text.front() == 'n' &&
        peek(by).text[1] >= '1' && peek(by).text[1] <= '5') {
        ++by;  // "n1:"
    } else {
        if (any_of({"first", "second", "third", "fourth", "next"}, by) &&
            any_of({"needle", "ndl"}, by + 1))
            by += 2;
        else if (any_of({"needle", "needles", "ndl", "n", "ndls"}, by) &&
                 is(TokenKind::number, by + 1))
            by += 2;
        else
            return false;
        while (any_of({"and", "&"}, by) && is(TokenKind::number, by + 1)) by += 2;
    }
    if (!is(TokenKind::colon, by) && !is(TokenKind::dash, by) &&
        !(any_of({"on"}) && is(TokenKind::comma, by)))
        return false;
    if (depth_ > 0) {
        fail(peek().at, "needles within a repeat are not followed", "needles of the whole round",
             "Write the round out, like: k to last 3 sts, k2tog, k1.");
        return true;
    }
    Item item;
    item.at = peek().at;
    item.what = Item::Do::needle;
    next_ += by + 1;
    out.push_back(std::move(item));
    return true;
}

/// How many stitches are on each needle need not be known: all is worked, so that what the
/// needles name by number and one stretch of all the rest come to the same stitches.
void Grammar::join_needles(std::vector<Item>& items) {
    const auto needle = [](const Item& item) { return item.what == Item::Do::needle; };
    if (std::none_of(items.begin(), items.end(), needle)) return;
    std::vector<Item> joined;
    Item rest;
    bool open = false;
    for (std::size_t i = 0; i < items.size();) {
        if (needle(items[i])) {
            ++i;
            continue;
        }
        std::size_t end = i;
        std::size_t stretches = 0;
        while (end < items.size() && !needle(items[end])) ++end;
        const bool segment = i > 0 && needle(items[i - 1]);
        Item& only = items[i];
        if (segment && end == i + 1 && only.what == Item::Do::work && only.count == 1 &&
            only.spot.which == Spot::Which::implied && !number_before(only))
            only.spot.which = Spot::Which::each;  // "Needle 2: knit."
        for (std::size_t at = i; at < end; ++at)
            if (open_stretch(items[at])) ++stretches;
        for (; i < end; ++i) {
            Item& item = items[i];
            const bool bounded =
                item.what != Item::Do::repeat || item.extent.until != Extent::Until::to_end;
            if (segment && (!bounded || stretches != 1 ||
                            (item.spot.which == Spot::Which::each && !open_stretch(item)))) {
                fail(item.at, "what is worked on this needle depends on its stitches",
                     "one stretch to the end of the needle",
                     "Write the round without needles, with its count.");
                return;
            }
            if (segment && open_stretch(item)) {
                rest = item;
                open = true;
                continue;
            }
            joined.push_back(std::move(item));
        }
    }
    if (open) {
        rest.spot.keep = 0;
        joined.push_back(std::move(rest));
    }
    items = std::move(joined);
}

/// "c4f", "t2b", "lt": so many stitches that cross each other; 0 for other names.
std::int64_t Grammar::crossed_stitches(std::string_view name) const {
    if (book_->craft() != Craft::knit) return 0;
    if (name == "lt" || name == "rt") return 2;
    if (name == "c4" || name == "c6" || name == "c8") return name[1] - '0';
    if (name.size() < 3 || (name.front() != 'c' && name.front() != 't') ||
        std::string_view("fblr").find(name.back()) == std::string_view::npos)
        return 0;
    std::int64_t value = 0;
    for (const char c : name.substr(1, name.size() - 2)) {
        if (c < '0' || c > '9' || value > 100) return 0;
        value = 10 * value + (c - '0');
    }
    return value;
}

/// "pick up and knit 16 sts along side of heel flap": where they come from takes no stitch below.
bool Grammar::picked_up(Item& item, bool alone) {
    std::size_t from = 0;
    while (from < last_ && tokens_[from].at < item.at) ++from;
    if (tokens_[from].kind == TokenKind::number) ++from;  // "12 pick up"
    // "cast on"; the "18 sts down the front" behind "pick up and knit 32 sts from the back, "
    if (!tokens_[from].text.starts_with("p") && !tokens_[from].text.starts_with("st")) return false;
    if (!any_of({"along", "in", "from", "at", "around", "on", "across", "down", "up", "evenly",
                 "for", "into", "between", "through"}))
        return true;
    from = next_;
    while (is_words() && !(any_of({"and", "then"}) && next_ + 1 < last_ &&
                           ((is(TokenKind::word, 1) && book_->find(peek(1).text)) ||
                            (is(TokenKind::number, 1) && any_of({"st", "sts", "stitches"}, 2)))))
        ++next_;
    SetAside told{SetAside::Why::place, tokens_[from].at, {}};
    for (std::size_t i = from; i < next_; ++i) {
        told.words += (i == from ? "" : " ") + std::string(tokens_[i].text);
        if (tokens_[i].text == "each" || tokens_[i].text == "every" || tokens_[i].text == "per")
            return picked_up_by_place(item, i, alone);
    }
    body_.aside.push_back(std::move(told));
    return true;
}

/// "pick up and knit 3 sts for every 4 rows (60 sts)": as many as the bracket says.
bool Grammar::picked_up_by_place(Item& item, std::size_t word, bool alone) {
    const bool counted = is(TokenKind::open) && is(TokenKind::number, 1) &&
                         any_of({"st", "sts", "stitch", "stitches"}, 2) && is(TokenKind::close, 3);
    const bool last = is(TokenKind::end, 4) || is(TokenKind::full_stop, 4);
    if (!counted || (last && !alone)) {
        fail(tokens_[word].at, "how many stitches are picked up is not said in all", "their number",
             "Count the edge, and write it like: pick up and knit 60 sts along the edge.");
        return true;
    }
    item.count = peek(1).value;
    if (!last) next_ += 4;
    return true;
}

/// "k4 in MC" is the yarn of what stands before it; "with MC, 3 sc" and "change to CC" of what
/// follows.
void Grammar::yarn_item(std::vector<Item>& out) {
    const Token& token = peek();
    ++next_;
    if (token.sign == 's' && !out.empty()) {
        out.back().yarn = static_cast<std::uint16_t>(token.value + 1);
        return;
    }
    Item item;
    item.what = Item::Do::yarn;
    item.at = token.at;
    item.kind = static_cast<KindId>(token.value);
    out.push_back(std::move(item));
}

/// "gap", "wrapped st", "turning point", "ds": where the work was turned. How many stitches more
/// before it the place named lies, or -1 when none is named.
std::int64_t Grammar::gap_words() {
    take({"the", "last", "previous", "next"});
    if (take({"gap", "turn", "wrap"})) {
        take({"point"});
        return 0;
    }
    if (take({"turning"})) {
        take({"point"});
        return 0;
    }
    if (any_of({"wrapped"}) && any_of({"st", "stitch"}, 1)) {
        next_ += 2;
        return 0;
    }
    if (any_of({"ds"}) || (any_of({"double"}) && any_of({"st", "stitch"}, 1))) {
        next_ += any_of({"ds"}) ? 1U : 2U;
        return 1;
    }
    return -1;
}

}  // namespace skeinfall::notation
