// Turns of phrase of crochet: groups under a name, clusters by their number, meshes of filet,
// places counted from the beginning of a row, and sentences that only describe.

#include <algorithm>
#include <cstdint>
#include <iterator>
#include <string>
#include <utility>

#include "skeinfall/notation/detail/grammar.hpp"
#include "skeinfall/notation/detail/words.hpp"

namespace skeinfall::notation {
namespace {

bool one_of_text(std::string_view text, std::initializer_list<std::string_view> words) {
    return std::find(words.begin(), words.end(), text) != words.end();
}

/// Whether every stitch of the list goes where the list itself is put.
bool unplaced(const std::vector<Item>& items) {
    return std::all_of(items.begin(), items.end(), [](const Item& item) {
        return item.spot.which == Spot::Which::implied && item.extent.until == Extent::Until::times;
    });
}

}  // namespace
/// "*1 dc, ch 1, into next st": what the list holds so far goes into that place.
bool Grammar::place_last(std::vector<Item>& out) {
    if (depth_ == 0 || out.size() < 2 || !any_of({"in", "into"}) ||
        tokens_[next_ - 1].kind != TokenKind::comma || !at_place() || !unplaced(out))
        return false;
    const bool plain = std::all_of(out.begin(), out.end(), [](const Item& item) {
        return item.what == Item::Do::work || item.what == Item::Do::chain;
    });
    const std::size_t before = next_;
    const auto spot = plain ? place() : std::nullopt;
    if (fault_) return false;
    if (!spot || spot->which != Spot::Which::next || spot->count != 1 ||
        !(is(TokenKind::comma) || is(TokenKind::semicolon) || is(TokenKind::close) || is_mark() ||
          any_of({"rep", "repeat"}))) {
        next_ = before;
        return false;
    }
    Item group;
    group.what = Item::Do::group;
    group.at = out.front().at;
    group.items = std::move(out);
    group.spot = *spot;
    out.clear();
    out.push_back(std::move(group));
    return true;
}

/// Words of place behind a chain: "ch 3 (counts as dc) in ring" says where the row begins, and the
/// place belongs to what follows; "2 tr, ch 1 in next sp" puts all of the list there.
bool Grammar::chain_placed(std::vector<Item>& out) {
    if (book_->craft() != Craft::crochet || out.empty() || out.back().what != Item::Do::chain ||
        !any_of({"in", "into"}) || !at_place())
        return false;
    const TokenKind behind = tokens_[next_ - 1].kind;  // "ch 2, in next sp work ...": its own place
    if (behind != TokenKind::word && behind != TokenKind::number && behind != TokenKind::close)
        return false;
    const std::size_t before = next_;
    const bool begins = std::all_of(out.begin(), out.end(), [](const Item& item) {
        return item.what == Item::Do::chain || item.what == Item::Do::turn ||
               item.what == Item::Do::ring || item.what == Item::Do::join;
    });
    const auto spot = place();
    const auto undo = [&] {
        fault_.reset();
        next_ = before;
        return false;
    };
    if (!spot || fault_) return undo();
    if (begins) {
        const bool ring = spot->which == Spot::Which::ring ||
                          (spot->unit.of == Unit::Of::space && spot->unit.chains == 0 &&
                           tokens_[next_ - 1].text.starts_with("l"));
        if (!ring) return undo();
        set_aside(before, SetAside::Why::place);
        return true;
    }
    auto first = out.end();
    while (first != out.begin() &&
           ((first - 1)->what == Item::Do::work || (first - 1)->what == Item::Do::chain) &&
           (first - 1)->spot.which == Spot::Which::implied)
        --first;
    if (first == out.begin() && depth_ == 0)
        while (first != out.end() && first->what == Item::Do::chain) ++first;
    if (std::none_of(first, out.end(),
                     [](const Item& item) { return item.what == Item::Do::work; }) ||
        spot->which == Spot::Which::each || spot->count != 1)
        return undo();
    Item group;
    group.what = Item::Do::group;
    group.at = first->at;
    group.spot = *spot;
    group.items.assign(std::make_move_iterator(first), std::make_move_iterator(out.end()));
    out.erase(first, out.end());
    out.push_back(std::move(group));
    return true;
}

/// "Sc in each dc around, 4 sc in each ch-2 sp": a row passes its places once, so that both are
/// worked as they come.
bool Grammar::places_apart(const std::vector<Item>& items) const {
    const Spot& first = items[items.size() - 2].spot;
    const Spot& second = items.back().spot;
    return book_->craft() == Craft::crochet && first.keep == 0 && second.keep == 0 &&
           !first.to_space && !second.to_space &&
           ((first.unit.of == Unit::Of::kind && second.unit.of == Unit::Of::space) ||
            (first.unit.of == Unit::Of::space && second.unit.of == Unit::Of::kind));
}

/// "sc in each dc and in each ch-1 sp around, 3 sc in each ch-2 sp": a third kind of place. The
/// choices stand behind item `before` - 1.
bool Grammar::one_more_choice(std::vector<Item>& out, std::size_t before) {
    if (before == 0 || out.size() != before + 1 || out[before].spot.which != Spot::Which::each ||
        out[before].spot.unit.of != Unit::Of::space)
        return false;
    Item& repeat = out[before - 1];
    if (repeat.what != Item::Do::repeat || repeat.items.size() != 1 ||
        repeat.items.front().what != Item::Do::choose)
        return false;
    Item more = std::move(out.back());
    out.pop_back();
    more.spot.which = Spot::Which::next;
    more.spot.keep = 0;
    std::vector<Item>& choices = out.back().items.front().items;
    choices.insert(choices.begin(), std::move(more));
    return true;
}

/// "sc in next 2 sts, inc in next st around": the sentence so far, over and over. Stands behind
/// the last place.
bool Grammar::clause_around(std::vector<Item>& out) {
    if (book_->craft() != Craft::crochet || !any_of({"around", "across"}) || at_place() ||
        (depth_ > 0 && !(star_list_ && depth_ == 1)))
        return false;
    const std::size_t clause = depth_ > 0 ? 0 : clause_;
    const auto until = extent();
    if (!until || until->until != Extent::Until::to_end || out.size() <= clause) return false;
    auto first = out.begin() + static_cast<std::ptrdiff_t>(clause);
    while (first != out.end() && (first->what == Item::Do::chain || first->what == Item::Do::turn ||
                                  first->what == Item::Do::join || first->what == Item::Do::ring))
        ++first;
    if (first == out.end()) return false;
    Item repeat;
    repeat.what = Item::Do::repeat;
    repeat.at = first->at;
    repeat.extent = *until;
    repeat.items.assign(std::make_move_iterator(first), std::make_move_iterator(out.end()));
    if (repeat.items.size() > 1) repeat.last_only = Item::Last::maybe;
    out.erase(first, out.end());
    out.push_back(std::move(repeat));
    return true;
}

/// "in next st work sc, hdc and dc": several behind one place, up to the end of the sentence, as
/// one group. `list`: also without "and", up to what has a place of its own. False, and nothing
/// taken, for one alone.
bool Grammar::several_first(std::vector<Item>& items, bool list) {
    if (book_->craft() != Craft::crochet ||
        !one_of_text(tokens_[next_ - 1].text, {"work", "make", "do", "place", "put", "a"}))
        return false;
    const std::size_t before = next_;
    std::size_t behind = before;
    std::vector<Item> found;
    bool last = false;
    while (true) {
        take({"a", "one", "and"});
        std::int64_t count = 1;
        if (is(TokenKind::number)) {
            count = peek().value;
            ++next_;
        }
        const std::uint32_t at = peek().at;
        const auto named = stitch_name();
        if (!named || fault_ || (list && !found.empty() && at_place())) break;
        Item one;
        one.at = at;
        one.kind = named->kind;
        one.count = named->count.value_or(count);
        if (one.kind == book_->chain()) {
            one.what = Item::Do::chain;
            if (!named->count && is(TokenKind::number)) {
                one.count = peek().value;
                ++next_;
            }
        }
        found.push_back(std::move(one));
        behind = next_;
        while (is(TokenKind::open) && describes_stitch()) behind = next_;
        if (last) break;
        last = any_of({"and"});
        if (!last && !is(TokenKind::comma)) break;
        ++next_;
    }
    next_ = behind;
    const bool ends = is(TokenKind::end) || is(TokenKind::full_stop) || is(TokenKind::comma) ||
                      is(TokenKind::semicolon) || is(TokenKind::close) || is(TokenKind::open) ||
                      is_mark();
    if (!(last || list) || !ends || fault_ || found.size() < 2) {
        next_ = before;
        fault_.reset();
        return false;
    }
    Item group;
    group.what = Item::Do::repeat;
    group.at = found.front().at;
    group.items = std::move(found);
    items.push_back(std::move(group));
    return true;
}

/// Whether a mark within a starred part stands alone there: it says where the last time ends.
bool Grammar::ends_here() const {
    for (std::size_t i = next_ + 1; i < last_; ++i) {
        const Token& token = tokens_[i];
        if (token.kind == star_.first && token.sign == star_.second) return true;
        if (token.kind == peek().kind && token.sign == peek().sign) return false;
    }
    return false;
}

/// Whether "**" opens a part: another one closes it.
bool Grammar::opens_here() const {
    for (std::size_t i = next_ + 1; i < last_; ++i)
        if (tokens_[i].kind == TokenKind::double_star) return true;
    return false;
}

/// "shell of (3 dc, ch 1, 3 dc) in next sp", "shell (2 dc, ch 2, 2 dc) in 4th ch": the bracket is
/// worked, and the name stands for it from there on.
bool Grammar::named_group(std::vector<Item>& out) {
    if (book_->craft() != Craft::crochet) return false;
    const bool lead = any_of({"beg", "beginning", "first"}) && has(Role::group, 1);
    const std::size_t word = lead ? 1 : 0;
    if (!has(Role::group, word)) return false;
    const bool of = any_of({"of"}, word + 1);
    const std::size_t open = word + (of ? 2U : 1U);
    if (!is(TokenKind::open, open) || too_deep()) return false;
    const std::size_t inside = open + 1;
    const bool stitches = is(TokenKind::number, inside) || any_of({"ch", "sl"}, inside) ||
                          (is(TokenKind::word, inside) && book_->find(peek(inside).text));
    if (!stitches) return false;
    const Token name = peek(word);
    next_ += open;
    const char sign = peek().sign;
    ++next_;
    ++depth_;
    Item group;
    group.at = name.at;
    group.what = Item::Do::group;
    group.items = items_until(sign == '(' ? ')' : sign == '[' ? ']' : '}');
    --depth_;
    if (fault_) return true;
    if (!unplaced(group.items)) {  // "shell (5 dc in next st)"
        if (at_place() || group.items.size() != 1)
            fail(name.at, "the places of \"" + std::string(name.text) + "\" are not clear",
                 "its stitches in brackets, and one place behind them",
                 "Write it like: (5 dc) in next st.");
        std::vector<Item> inner = group.items;
        for (Item& item : inner) item.spot = {};
        body_.named.push_back({std::string(name.text), 0, std::move(inner)});
        out.push_back(std::move(group.items.front()));
        return true;
    }
    body_.named.push_back({std::string(name.text), 0, group.items});
    if (!at_place()) group.spot.which = Spot::Which::next;
    if (at_place())
        add_where(out, std::move(group));
    else
        out.push_back(std::move(group));
    return true;
}

/// "3-dc cl", "5 dc popcorn", "4-hdc puff" behind its number: so many in one place under one top.
bool Grammar::cluster_item(std::vector<Item>& out, const Token& number) {
    const auto kind = cluster_name(number.value);
    if (!kind) return false;
    Item item;
    item.at = number.at;
    item.kind = *kind;
    add_where(out, std::move(item));
    return true;
}

/// The kind of such a cluster; stands behind its number. Nothing is taken for others.
std::optional<KindId> Grammar::cluster_name(std::int64_t count) {
    if (book_->craft() != Craft::crochet || !is(TokenKind::word)) return std::nullopt;
    struct Form {
        std::string_view word;
        std::string_view us;
        bool together;
    };
    static constexpr Form forms[] = {
        {"cl", "cl", true},       {"cluster", "cl", true},   {"clusters", "cl", true},
        {"cls", "cl", true},      {"bobble", "bo st", true}, {"bobbles", "bo st", true},
        {"bo", "bo st", true},    {"puff", "puff", true},    {"puffs", "puff", true},
        {"popcorn", "pc", false}, {"popcorns", "pc", false}, {"pc", "pc", false},
    };
    std::string_view stem = peek().text;
    const Form* form = nullptr;
    std::size_t words = 1;
    if (const auto dash = stem.find('-'); dash != std::string_view::npos) {
        for (const Form& one : forms)
            if (stem.substr(dash + 1) == one.word) form = &one;
        stem = stem.substr(0, dash);
    } else if (stem.size() > 2 && stem.ends_with("cl") &&
               book_->find(stem.substr(0, stem.size() - 2))) {
        form = &forms[0];
        stem.remove_suffix(2);
    } else {
        const std::size_t by = is(TokenKind::dash, 1) ? 2 : 1;
        if (is(TokenKind::word, by))
            for (const Form& one : forms)
                if (peek(by).text == one.word) form = &one;
        words = by + 1;
    }
    const auto named = book_->find(stem);
    if (form == nullptr || !named || count < 2 || count > 20) return std::nullopt;
    const Stitch& stitch = book_->at(named->kind);
    if (stitch.takes != 1 || stitch.makes != 1 || named->kind == book_->slip_stitch())
        return std::nullopt;
    Item inner;
    inner.at = peek().at;
    next_ += words;
    take({"st", "sts", "stitch", "stitches"});
    inner.kind = form->together ? book_->together(named->kind, count) : named->kind;
    inner.count = form->together ? 1 : count;
    const std::string name =
        std::to_string(count) + "-" + stitch.name + " " + std::string(form->us);
    KindId kind = 0;
    if (const auto known = book_->find(name)) {
        kind = known->kind;
    } else {
        Stitch made;
        made.name = name;
        made.plain = book_->find_us(form->us);
        const auto added = book_->add(made);
        if (!added) return std::nullopt;
        kind = *added;
    }
    body_.named.push_back({name, kind, {inner}});
    return kind;
}

/// "in center sp for center inc": what a place is for says nothing of where it is.
void Grammar::pass_purpose() {
    if (book_->craft() != Craft::crochet || !any_of({"for"})) return;
    std::size_t to = 1;
    while (is(TokenKind::word, to)) ++to;
    const bool ends = !is(TokenKind::number, to) && !is(TokenKind::length, to);
    if (!ends || to < 2 || to > 6) return;
    SetAside told{SetAside::Why::place, peek().at, {}};
    for (std::size_t i = 0; i < to; ++i)
        told.words += (i == 0 ? "" : " ") + std::string(peek(i).text);
    body_.aside.push_back(std::move(told));
    next_ += to;
}

/// "*cl, ch 2, cl* in next sp and in each sp around": a part between stars that goes into places.
bool Grammar::placed_part(std::vector<Item>& out, Item& part) {
    if (book_->craft() != Craft::crochet || !at_place() || !unplaced(part.items)) return false;
    part.what = Item::Do::group;
    add_where(out, std::move(part));
    return true;
}

/// "In each ch-3 sp work *hdc, dc, hdc*": two stars stand for brackets. Stands behind the place.
bool Grammar::starred_there(std::vector<Item>& out, const Spot& spot) {
    if (book_->craft() != Craft::crochet || !is(TokenKind::star) || spot.unit.of != Unit::Of::space)
        return false;
    std::size_t to = next_ + 1;
    while (to < last_ && tokens_[to].kind != TokenKind::star) ++to;
    if (to + 1 > last_ || tokens_[to].kind != TokenKind::star) return false;
    const Token& behind = tokens_[to + 1];
    if (behind.kind != TokenKind::full_stop && behind.kind != TokenKind::end &&
        behind.kind != TokenKind::comma)
        return false;
    for (std::size_t i = to + 1; i < last_; ++i)
        if (tokens_[i].kind == TokenKind::star || among(tokens_[i], {"rep", "repeat"}))
            return false;
    const std::size_t before = next_;
    Item group;
    group.at = peek().at;
    group.what = Item::Do::group;
    const auto outer = std::exchange(star_, {peek().kind, peek().sign});
    ++next_;
    ++depth_;
    group.items = items_until('*');
    --depth_;
    star_ = outer;
    if (fault_ || !is(TokenKind::star) || !unplaced(group.items)) {
        next_ = before;
        fault_.reset();
        return false;
    }
    ++next_;
    group.spot = spot;
    out.push_back(std::move(group));
    return true;
}

/// What was just made has a name from here on: "(1 dc, ch 3, 1 dc) in next sc - V st made". The
/// name stands in the tokens from `from` to before `to`.
void Grammar::name_made(std::size_t from, std::size_t to, const std::vector<Item>& out) {
    std::string name;
    for (std::size_t i = from; i < to; ++i) {
        const Token& token = tokens_[i];
        if (token.kind != TokenKind::word) continue;
        if (one_of_text(token.text, {"first", "1st", "beg", "beginning", "one", "a", "is"}))
            continue;
        name += (name.empty() ? "" : " ") + std::string(token.text);
    }
    if (name.empty() || name.size() > 30 || out.empty() || book_->find(name)) return;
    const Item& last = out.back();
    if (last.what == Item::Do::group && unplaced(last.items))
        body_.named.push_back({name, 0, last.items});
    if (last.what == Item::Do::work && last.count > 1) {
        Item stitches = last;
        stitches.spot = {};
        body_.named.push_back({name, 0, {stitches}});
    }
}

/// "- shell made": a remark that names what was made.
bool Grammar::made_note(std::vector<Item>& out) {
    if (book_->craft() != Craft::crochet || !is(TokenKind::word) || out.empty()) return false;
    std::size_t to = 0;
    while (is(TokenKind::word, to) && to < 6 && !any_of({"made", "completed", "formed"}, to)) {
        if (any_of({"in", "into", "next", "each", "from", "until"}, to)) return false;
        ++to;
    }
    if (to == 0 || !any_of({"made", "completed", "formed"}, to) || is(TokenKind::word, to + 1))
        return false;
    name_made(next_, next_ + to, out);
    const std::size_t from = next_;
    next_ += to + 1;
    SetAside told{SetAside::Why::remark, tokens_[from].at, {}};
    for (std::size_t i = from; i < next_; ++i)
        told.words += (i == from ? "" : " ") + std::string(tokens_[i].text);
    body_.aside.push_back(std::move(told));
    return true;
}

/// "of next shell" behind a space or a stitch counted within it: the group is the place. False,
/// and nothing taken, where no group is named.
bool Grammar::of_group(Spot& spot) {
    if (book_->craft() != Craft::crochet || !any_of({"of"})) return false;
    const std::size_t before = next_++;
    Spot::Which which = Spot::Which::next;
    take({"the"});
    if (take({"each", "every"}))
        which = Spot::Which::each;
    else if (take({"same"}))
        which = Spot::Which::same;
    else if (take({"first"}))
        which = Spot::Which::first;
    else if (take({"last"}))
        which = Spot::Which::last;
    else
        take({"next", "following"});
    // "of next 5-dc group": one place, and all five are passed
    const std::size_t kind = is(TokenKind::dash, 1) ? 2 : 1;
    if (which == Spot::Which::next && is(TokenKind::number) && is(TokenKind::word, kind) &&
        (has(Role::group, kind + 1) || any_of({"group", "groups", "set"}, kind + 1)))
        if (const auto of = book_->find(peek(kind).text)) {
            spot.which = Spot::Which::next;
            spot.nth = 1;
            spot.count = 1;
            spot.wide = peek().value;
            spot.unit = {Unit::Of::kind, of->kind, 0};
            spot.in_one = true;
            next_ += kind + 2;
            return true;
        }
    const bool group =
        has(Role::group) || has(Role::group, 1) || (any_of({"v"}) && any_of({"st", "stitch"}, 1));
    const auto named = group ? stitch_name() : std::nullopt;
    if (!named) {
        next_ = before;
        return false;
    }
    take({"st", "sts"});
    spot.which = which;
    spot.nth = 1;
    spot.count = 1;
    spot.distributed = which == Spot::Which::each;
    spot.unit = {Unit::Of::kind, named->kind, 0};
    spot.in_one = true;
    if (which == Spot::Which::each)
        if (const auto until = extent()) spot.keep = until->keep;
    return true;
}

/// "Colour A - make 5 ch": the yarn before the work.
bool Grammar::colour_label() {
    if (next_ != begin_ || !any_of({"color", "colour"}) || !is(TokenKind::word, 1) ||
        !(is(TokenKind::dash, 2) || is(TokenKind::colon, 2)))
        return false;
    const std::size_t from = next_;
    next_ += 2;
    set_aside(from, SetAside::Why::tool);
    return true;
}

/// "ch 3 (= 1 dc)", "ch 3 (1st dc)": it counts as one.
bool Grammar::chain_note(std::vector<Item>& out) {
    if (out.empty() || out.back().what != Item::Do::chain || next_ == 0 ||
        (tokens_[next_ - 1].kind != TokenKind::number &&
         tokens_[next_ - 1].kind != TokenKind::word))
        return false;
    std::size_t by = 1;
    if (is(TokenKind::equals, by)) ++by;
    if (any_of({"for", "the", "your"}, by)) ++by;
    const bool first = any_of({"first"}, by) || (is(TokenKind::ordinal, by) && peek(by).value == 1);
    const bool one = is(TokenKind::number, by) && peek(by).value == 1 && by > 1;
    if (!first && !one) return false;
    ++by;
    if (!is(TokenKind::word, by) || !is(TokenKind::close, by + 1)) return false;
    const auto named = book_->find(peek(by).text);
    if (!named) return false;
    TurningNote note;
    note.counts = true;
    note.kind = named->kind;
    note.kind_said = true;
    out.back().note = note;
    next_ += by + 2;
    return true;
}

/// A sentence that describes and works nothing: "You will have a small hole in the middle."
bool Grammar::prose_sentence() {
    if (depth_ > 0 || book_->craft() != Craft::crochet) return false;
    if (idle_sentence()) return true;
    if (next_ > begin_ && tokens_[next_ - 1].kind != TokenKind::full_stop &&
        !(next_ == begin_ + 1 && has_role(tokens_[begin_].text, Role::filler)))
        return false;
    if (at_stitch()) return false;
    if (!has(Role::prose) && !any_of({"note", "notes", "tip"})) {
        // "Each stitch should have ..."
        if (at_stitch() || has(Role::work) || has(Role::finishing) || next_ == begin_) return false;
        bool tells = false;
        for (std::size_t by = 1; by < 6 && is_words(by); ++by)
            tells = tells || has(Role::prose, by);
        if (!tells) return false;
    }
    std::size_t to = next_;
    bool counts = false;
    for (; tokens_[to].kind != TokenKind::full_stop && tokens_[to].kind != TokenKind::end; ++to) {
        const Token& token = tokens_[to];
        if (token.kind == TokenKind::star || token.kind == TokenKind::double_star) return false;
        counts = counts || token.text == "counts" || token.text == "count";
        // "This round sc in each st"
        const Token& behind = tokens_[to + 1];
        if (token.kind == TokenKind::word && behind.kind == TokenKind::word &&
            (behind.text == "in" || behind.text == "into" || behind.text == "around" ||
             behind.text == "across") &&
            book_->find(token.text))
            return false;
    }
    if (counts || to == next_) return false;
    bool describes = false;
    bool works = false;
    for (std::size_t i = next_; i < to; ++i) {
        describes = describes || one_of_text(tokens_[i].text, {"should", "will", "would", "have"});
        works =
            works || (tokens_[i].kind == TokenKind::word && has_role(tokens_[i].text, Role::work));
    }
    const std::size_t from = std::exchange(next_, to);
    if (!describes || works) {
        set_aside(from, SetAside::Why::remark);
        return true;
    }
    SetAside told{SetAside::Why::remark, tokens_[from].at, {}};
    for (std::size_t i = from; i < to; ++i)
        told.words += (i == from ? "" : " ") + std::string(tokens_[i].text);
    body_.aside.push_back(std::move(told));
    return true;
}

}  // namespace skeinfall::notation
