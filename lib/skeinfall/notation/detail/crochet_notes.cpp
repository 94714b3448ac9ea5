// Crochet: stitches described within a row, repeats within repeats, gaps between groups.

#include <algorithm>
#include <cstdint>
#include <string>
#include <utility>

#include "skeinfall/notation/detail/grammar.hpp"
#include "skeinfall/notation/detail/how_made.hpp"
#include "skeinfall/notation/detail/words.hpp"

namespace skeinfall::notation {
namespace {

bool one_of_words(std::string_view text, std::initializer_list<std::string_view> words) {
    return std::find(words.begin(), words.end(), text) != words.end();
}

}  // namespace

/// "*2 sc, inc* 6 (24)": how often, behind the star that closes.
std::optional<Extent> Grammar::star_times() {
    const bool alone =
        is(TokenKind::number) &&
        (is(TokenKind::end, 1) || is(TokenKind::open, 1) || is(TokenKind::comma, 1) ||
         is(TokenKind::full_stop, 1) || is(TokenKind::semicolon, 1) || is(TokenKind::equals, 1));
    if (book_->craft() != Craft::crochet || !alone) return extent();
    Extent out;
    out.until = Extent::Until::times;
    out.count = peek().value;
    ++next_;
    return out;
}

/// "rep from * 3 times more, omitting the last dc and ch 3": where the last repeat stops.
void Grammar::omitting(Item& repeat) {
    std::size_t by = is(TokenKind::comma) ? 1 : 0;
    if (book_->craft() != Craft::crochet || !any_of({"omitting", "omit", "leaving"}, by)) return;
    if (any_of({"leaving"}, by) && !any_of({"off"}, by + 1)) return;
    const std::size_t before = next_;
    const std::size_t aside = body_.aside.size();
    next_ += by + 1;
    take({"off"});
    take({"the"});
    take({"last", "final"});
    std::size_t left = repeat.items.size();
    std::vector<Item> gone;
    while (!fault_ && (is(TokenKind::word) || is(TokenKind::number))) {
        const std::size_t here = next_;
        item(gone);
        if (next_ == here) break;
        if (!take({"and"})) break;
    }
    bool same = !fault_ && !gone.empty() && gone.size() < left;
    for (std::size_t i = gone.size(); same && i-- > 0;) {
        const Item& one = repeat.items[--left];
        same = one.what == gone[i].what && one.count == gone[i].count &&
               (one.what != Item::Do::work || one.kind == gone[i].kind);
    }
    if (!same) {
        fault_.reset();
        body_.aside.resize(aside);
        next_ = before;
        return;
    }
    repeat.stop_at = static_cast<std::uint32_t>(left);
}

/// "2 dc in same st, then in each dc": the stitches before it, in another place.
bool Grammar::same_again(std::vector<Item>& out) {
    if (book_->craft() != Craft::crochet || next_ == begin_ ||
        !among(tokens_[next_ - 1], {"then"}) || !any_of({"in", "into"}) ||
        !any_of({"each", "every", "all", "next"}, 1) || out.empty() ||
        out.back().what != Item::Do::work)
        return false;
    Item same = out.back();
    same.at = peek().at;
    same.spot = {};
    add_where(out, std::move(same));
    return true;
}

/// "13th row - START LEGS: ch 3, ...": what the row begins, in words without work.
bool Grammar::named_part() {
    if (book_->craft() != Craft::crochet || next_ != begin_) return false;
    std::size_t to = 0;
    while (is(TokenKind::word, to) && to < 5) {
        const std::string_view word = peek(to).text;
        if (book_->find(word) || has_role(word, Role::work) || has_role(word, Role::joining) ||
            one_of_words(word, {"in", "into", "with", "using", "working", "work", "each", "next",
                                "st", "sts", "turn", "counts", "follows"}))
            return false;
        ++to;
    }
    if (to == 0 || !is(TokenKind::colon, to) || is(TokenKind::end, to + 1)) return false;
    const std::size_t from = next_;
    next_ += to;
    set_aside(from, SetAside::Why::remark);
    return !fault_;
}

/// Whether another mark than the one that closes this part opens a part within it: "rep from" it
/// comes first, and "rep from" the outer one behind that.
bool Grammar::opens_inner() const {
    if (peek().kind == star_.first && peek().sign == star_.second) return false;
    bool mine = false;
    for (std::size_t i = next_ + 1; i + 2 < last_; ++i) {
        const std::string_view word = tokens_[i].text;
        if (tokens_[i].kind != TokenKind::word || !word.starts_with("rep")) continue;
        std::size_t mark = i + 1;
        if (tokens_[mark].text == "from" || tokens_[mark].text == "between") ++mark;
        const Token& named = tokens_[mark];
        if (named.kind != TokenKind::star && named.kind != TokenKind::double_star) continue;
        if (mine) return named.kind == star_.first && named.sign == star_.second;
        if (named.kind != peek().kind || named.sign != peek().sign) return false;
        mine = true;
    }
    return false;
}

/// "(cluster: 3 tr in same sp keeping last loops ...)", "(hdc: yo, insert hook ...)": how a stitch
/// of the row is made. What the pattern itself makes of it is kept.
bool Grammar::describes_stitch() {
    if (book_->craft() != Craft::crochet || !is(TokenKind::open)) return false;
    const std::size_t before = next_++;
    take({"a", "an", "one"});
    const Token name = peek();
    const auto named = stitch_name();
    const bool sign = is(TokenKind::colon) || is(TokenKind::equals);
    if (!named || named->count || !sign || fault_) {
        fault_.reset();
        next_ = before;
        return false;
    }
    const std::size_t from = ++next_;
    std::size_t to = from;
    std::string text;
    for (int open = 1; tokens_[to].kind != TokenKind::end; ++to) {
        if (tokens_[to].kind == TokenKind::open) ++open;
        if (tokens_[to].kind == TokenKind::close && --open == 0) break;
        text += (text.empty() ? "" : " ") + std::string(tokens_[to].text);
    }
    if (tokens_[to].kind == TokenKind::end) {
        next_ = before;
        return false;
    }
    SetAside told{SetAside::Why::remark, tokens_[before + 1].at, {}};
    told.words = std::string(name.text) + ": " + text;
    std::vector<Item> made;
    if (const auto how = tells_how(text) ? how_made(text) : std::nullopt) {
        Item item;
        item.at = name.at;
        item.kind = book_->find_us(how->kind);
        if (how->legs > 1) item.kind = book_->together(item.kind, how->legs);
        made = {std::move(item)};
    } else {
        ++depth_;
        made = items_until(tokens_[to].sign);
        --depth_;
        if (fault_) return true;
        for (Item& item : made) item.spot = {};
    }
    next_ = to + 1;
    const Stitch& stitch = book_->at(named->kind);
    const bool itself = made.size() == 1 && made.front().kind == named->kind;
    if (!itself && !made.empty() && book_->varies(stitch.name))
        body_.named.push_back({stitch.name, named->kind, std::move(made)});
    body_.aside.push_back(std::move(told));
    return true;
}

/// "sp between next two groups of 3 dc", "sp before next 3 dc": the words behind the space. How
/// many stitches a group has goes to `wide`, 0 where it is not said. False, and nothing taken,
/// where no group is named.
bool Grammar::group_words(std::int64_t& wide, Unit& of) {
    std::size_t by = any_of({"sp", "sps", "space", "spaces", "gap", "gaps"}) ? 1 : 0;
    const bool beside = by > 0 && any_of({"before", "after"}, by);
    if (!beside && !any_of({"between"}, by)) return false;
    ++by;
    bool group = false;
    wide = 0;
    of = {};
    for (std::size_t words = 0; words < 10; ++words) {
        if (any_of({"group", "groups", "grp", "cluster", "clusters", "set", "sets", "shells",
                    "shell", "cl", "cls", "bunch", "bunches"},
                   by)) {
            group = true;
            ++by;
        } else if (any_of({"the", "next", "each", "every", "two", "of", "a", "following", "both",
                           "prev", "previous", "st", "sts", "stitches"},
                          by)) {
            ++by;
        } else if (is(TokenKind::number, by)) {
            const std::size_t dash = is(TokenKind::dash, by + 1) ? 1 : 0;
            const bool stitch = is(TokenKind::word, by + 1 + dash) &&
                                book_->find(peek(by + 1 + dash).text).has_value() &&
                                !any_of({"cl", "cls", "cluster", "clusters"}, by + 1 + dash);
            if (stitch) {
                wide = peek(by).value;
                of = {Unit::Of::kind, book_->find(peek(by + 1 + dash).text)->kind, 0};
                ++by;
            }
            by += 1 + dash;
        } else if (is(TokenKind::dash, by)) {
            ++by;
        } else if (!group && wide == 0 && is(TokenKind::word, by) &&
                   book_->find(peek(by).text).has_value() &&
                   any_of({"group", "groups", "cluster", "clusters", "set", "sets"},
                          by + (is(TokenKind::dash, by + 1) ? 2U : 1U))) {
            of = {Unit::Of::kind, book_->find(peek(by).text)->kind, 0};  // "between dc-groups"
            ++by;
        } else {
            break;
        }
    }
    if (!group && !(beside && wide > 1) && !(wide > 2)) return false;
    const std::size_t from = next_;
    next_ += by;
    SetAside told{SetAside::Why::place, tokens_[from].at, {}};
    for (std::size_t i = from; i < next_; ++i)
        told.words += (i == from ? "" : " ") + std::string(tokens_[i].text);
    body_.aside.push_back(std::move(told));
    pass_row_below();
    return true;
}

/// A gap between groups of stitches: behind what was skipped, or behind the next group.
bool Grammar::group_gap(Spot& spot) {
    if (book_->craft() != Craft::crochet) return false;
    std::int64_t wide = 0;
    Unit of;
    const std::size_t before = next_;
    if (!group_words(wide, of)) return false;
    spot.in_one = true;
    spot.count = 1;
    spot.unit = of;
    spot.wide = behind_skip_ ? -1 : wide > 0 ? wide : group_size_;
    if (spot.wide != 0) return true;
    fail(tokens_[before].at, "how many stitches a group has is not said", "their number",
         "Write it like: 3 dc in sp between next two 3-dc groups.");
    return true;
}

/// "dc in each sp between sts around": one for each stitch passed. Stands on the space.
bool Grammar::stitch_gaps(Spot& spot) {
    if (!any_of({"sp", "sps", "space", "spaces", "gap", "gaps"}) || !any_of({"between"}, 1))
        return false;
    std::size_t by = 2;
    while (any_of({"the", "each", "two", "of", "2"}, by) || is(TokenKind::number, by)) ++by;
    if (!any_of(stitch_words, by) && !(is(TokenKind::word, by) && book_->find(peek(by).text) &&
                                       !has(Role::group, by) && !has(Role::group, by + 1)))
        return false;
    if (any_of({"group", "groups", "cluster", "clusters", "set", "sets"}, by + 1)) return false;
    const std::size_t from = next_;
    next_ += by + 1;
    set_aside(from, SetAside::Why::place);
    pass_row_below();
    spot.which = Spot::Which::each;
    spot.distributed = true;
    spot.unit = {};
    if (const auto until = extent(); until && until->until == Extent::Until::to_end)
        spot.keep = until->keep;
    return true;
}

/// "3 dc in each sp between 3-dc groups to next ch-2 sp". Stands on the space.
bool Grammar::group_gaps(Spot& spot) {
    if (book_->craft() != Craft::crochet) return false;
    std::int64_t wide = 0;
    Unit of;
    const std::size_t before = next_;
    if (stitch_gaps(spot)) return true;
    if (!group_words(wide, of)) return false;
    spot.which = Spot::Which::each;
    spot.wide = wide > 0 ? wide : group_size_;
    if (spot.wide == 0) {
        fail(tokens_[before].at, "how many stitches a group has is not said", "their number",
             "Write it like: 3 dc in each sp between 3-dc groups.");
        return true;
    }
    if (next_space())
        spot.to_space = true;
    else if (const auto until = extent(); until && until->until == Extent::Until::to_end)
        spot.keep = until->keep;
    return true;
}

/// "sp between next 2 sts": a gap, one for each stitch passed. Stands on "between" or the space.
bool Grammar::gap_place(Spot& spot) {
    if (book_->craft() != Craft::crochet) return false;
    std::size_t by = any_of({"sp", "sps", "space", "spaces", "gap", "gaps"}) ? 1 : 0;
    if (!any_of({"between"}, by)) return false;
    ++by;
    while (any_of({"the", "next", "2", "following", "first", "two", "these"}, by) ||
           is(TokenKind::number, by) || (is(TokenKind::ordinal, by) && peek(by).value == 1))
        ++by;
    if (!any_of(stitch_words, by) &&
        !(is(TokenKind::word, by) && book_->find(peek(by).text) && !has(Role::group, by)))
        return false;
    const std::size_t from = next_;
    // "between next 2 sc": the other stitch of a pair may be left over.
    const bool pair = is(TokenKind::number, by - 1) && peek(by - 1).value == 2;
    spot.unit = {};
    spot.pair_gap = pair;
    spot.gap = true;
    if (pair && !any_of(stitch_words, by))
        spot.unit = {Unit::Of::kind, book_->find(peek(by).text)->kind, 0};
    next_ += by + 1;
    SetAside told{SetAside::Why::place, tokens_[from].at, {}};
    for (std::size_t i = from; i < next_; ++i)
        told.words += (i == from ? "" : " ") + std::string(tokens_[i].text);
    body_.aside.push_back(std::move(told));
    pass_row_below();
    spot.in_one = true;
    return true;
}

/// "sc and dc in next st", "2 dc and 1 tr in same st": both go there. False, and nothing taken,
/// for others.
bool Grammar::both_in_one(std::vector<Item>& out, const Item& item) {
    if (book_->craft() != Craft::crochet || !any_of({"and"}) || item.what != Item::Do::work ||
        item.spot.which != Spot::Which::implied || book_->at(item.kind).takes != 1)
        return false;
    const std::size_t before = next_++;
    const std::size_t aside = body_.aside.size();
    const auto undo = [&] {
        next_ = before;
        fault_.reset();
        body_.aside.resize(aside);
        return false;
    };
    take({"a", "one"});
    Item other;
    other.at = peek().at;
    if (is(TokenKind::number)) {
        other.count = peek().value;
        ++next_;
    }
    const auto named = stitch_name();
    if (!named || named->count || named->kind == book_->chain() || fault_ ||
        book_->at(named->kind).takes != 1 || !any_of({"in", "into"}))
        return undo();
    other.kind = named->kind;
    const auto spot = place();
    if (!spot || fault_ || spot->wide != 0 ||
        (spot->count != 1 && spot->which != Spot::Which::from_hook) ||
        (spot->which != Spot::Which::next && spot->which != Spot::Which::same &&
         spot->which != Spot::Which::first && spot->which != Spot::Which::last &&
         spot->which != Spot::Which::from_hook))
        return undo();
    Item group;
    group.what = Item::Do::group;
    group.at = item.at;
    group.spot = *spot;
    group.items = {item, std::move(other)};
    out.push_back(std::move(group));
    return true;
}

/// The number in the last bracket of the row, where nothing but one stitch name stands beside it
/// and no other stitch in the row; 0 where there is none.
std::int64_t Grammar::count_at_end() const {
    std::size_t open = last_;
    for (std::size_t i = next_; i < last_; ++i)
        if (tokens_[i].kind == TokenKind::open) open = i;
    if (open + 2 > last_ || tokens_[open + 1].kind != TokenKind::number) return 0;
    const bool alone = tokens_[open + 2].kind == TokenKind::close ||
                       tokens_[std::min(open + 3, last_)].kind == TokenKind::close;
    std::int64_t worked = 0;
    for (std::size_t i = begin_; i < open; ++i) {
        if (tokens_[i].kind != TokenKind::word) continue;
        const auto named = book_->find(tokens_[i].text);
        const bool joins =
            i > 0 && one_of_words(tokens_[i - 1].text, {"first", "1st", "to", "top"});
        if (named && named->kind != book_->chain() && named->kind != book_->slip_stitch() &&
            !joins && book_->at(named->kind).makes == 1)
            ++worked;
    }
    return alone && worked == 1 ? tokens_[open + 1].value : 0;
}

/// "(where the ch comes from)", "(this will be the middle of the group)": not "(this is a shell)".
bool Grammar::explains_ahead(std::size_t by) const {
    if (!any_of({"this", "that", "where", "which", "these", "they", "the", "it"}, by)) return false;
    bool tells = false;
    for (std::size_t i = next_ + by; i < last_ && tokens_[i].kind != TokenKind::close; ++i) {
        const std::string_view word = tokens_[i].text;
        tells = tells || (i < next_ + by + 6 &&
                          one_of_words(word, {"will", "is", "are", "comes", "helps", "keeps"}));
        if (one_of_words(word, {"made", "a", "one", "each", "every", "until", "twice", "dec", "inc",
                                "leave", "unworked"}))
            return false;
    }
    return tells;
}

/// Whether a bracket that begins so only advises: "no need to ...", "make sure ...", "you may ...".
bool Grammar::advice_ahead(std::size_t by) const {
    return any_of({"remember"}, by) || (any_of({"no"}, by) && any_of({"need"}, by + 1)) ||
           (any_of({"make", "be"}, by) && any_of({"sure", "certain", "careful"}, by + 1)) ||
           (any_of({"you"}, by) &&
            any_of({"may", "might", "can", "could", "should", "want"}, by + 1)) ||
           explains_ahead(by) ||
           (any_of({"try", "taking", "being"}, by) &&
            any_of({"to", "not", "care", "careful"}, by + 1));
}

/// "(Tip: each decrease counts as one stitch)", "(Note: ...)": words about the row, without a
/// number of stitches. Stands on the bracket.
bool Grammar::tip_note() {
    const bool mine = any_of({"i", "we"}, 1);  // "(I make the last 2 sc through both loops ...)"
    if (book_->craft() == Craft::crochet && is(TokenKind::open) && is(TokenKind::end, 1)) {
        ++next_;  // what stood in it was set aside
        return true;
    }
    // "(*no need to join, ...*)", "(make sure it is not twisted"
    const std::size_t star = is(TokenKind::star, 1) ? 2 : 1;
    const bool talks = advice_ahead(star);
    if (book_->craft() != Craft::crochet || !is(TokenKind::open) ||
        (!mine && !talks &&
         (!any_of({"tip", "hint", "note", "tips"}, 1) || !is(TokenKind::colon, 2))))
        return false;
    std::size_t to = next_ + (talks ? star + 1 : mine ? 2 : 3);
    std::string text(tokens_[next_ + (talks ? star : 1)].text);
    for (; tokens_[to].kind != TokenKind::close; ++to) {
        const Token& token = tokens_[to];
        const Token& behind = tokens_[std::min(to + 1, last_)];
        if (token.kind == TokenKind::end && talks) {
            --to;  // the bracket is never closed
            break;
        }
        if (talks && token.kind == TokenKind::star && behind.kind == TokenKind::close) continue;
        if (talks && (token.kind == TokenKind::equals ||
                      one_of_words(token.text, {"count", "counts", "counted", "counting"})))
            return false;
        if (token.kind == TokenKind::end || token.kind == TokenKind::star ||
            one_of_words(token.text, {"rep", "repeat", "skip", "sk", "work", "times"}) ||
            (!mine && token.kind == TokenKind::number && behind.kind == TokenKind::word &&
             (book_->find(behind.text) || behind.text.starts_with("row") ||
              behind.text.starts_with("r"))))
            return false;
        text += " " + std::string(token.text);
    }
    body_.aside.push_back({SetAside::Why::remark, tokens_[next_ + 1].at, std::move(text)});
    next_ = to + 1;
    return true;
}

/// "Turn bootie right side out.": a sentence behind others without a stitch, a number or a word of
/// work says nothing of the row.
bool Grammar::idle_sentence() {
    if (next_ <= begin_ || tokens_[next_ - 1].kind != TokenKind::full_stop) return false;
    const bool out = any_of({"turn"}) && region_has({"out", "inside"});
    if (any_of({"turn",  "turning", "join",   "joining", "close", "fasten", "finish",
                "leave", "leaving", "work",   "ch",      "do",    "don't",  "place",
                "move",  "remove",  "change", "with",    "using", "in",     "into"}) &&
        !out)
        return false;
    std::size_t to = next_;
    for (; tokens_[to].kind != TokenKind::full_stop && tokens_[to].kind != TokenKind::end; ++to) {
        const Token& token = tokens_[to];
        if (token.kind != TokenKind::word && token.kind != TokenKind::comma &&
            token.kind != TokenKind::dash)
            return false;
        if (token.kind == TokenKind::word &&
            (has_role(token.text, Role::work) || has_role(token.text, Role::finishing) ||
             book_->find(token.text) ||
             one_of_words(token.text, {"st", "sts", "stitch", "stitches", "each", "next", "across",
                                       "around", "even"})))
            return false;
    }
    if (to < next_ + 3) return false;
    SetAside told{SetAside::Why::remark, tokens_[next_].at, {}};
    for (; next_ < to; ++next_)
        told.words += (told.words.empty() ? "" : " ") + std::string(tokens_[next_].text);
    body_.aside.push_back(std::move(told));
    return true;
}

}  // namespace skeinfall::notation
