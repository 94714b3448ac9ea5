// Fabrics of crochet that go by words of their own: filet by meshes, corner to corner by blocks,
// Tunisian by passes, posts in turn.

#include <algorithm>
#include <iterator>
#include <string>
#include <utility>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/notation/detail/grammar.hpp"

namespace skeinfall::notation {

/// Whether the row counts "om", open meshes by their short form.
bool Grammar::short_meshes() const {
    for (std::size_t i = begin_; i + 1 < last_; ++i)
        if (tokens_[i].kind == TokenKind::number && tokens_[i + 1].text == "om") return true;
    return false;
}

/// "5 open meshes", "1 solid mesh", "3 bl, 2 sps" of filet; a number may stand before.
bool Grammar::mesh_item(std::vector<Item>& out) {
    if (book_->craft() != Craft::crochet) return false;
    const std::uint32_t at = peek().at;
    const std::size_t word = is(TokenKind::number) ? 1 : 0;
    if (!is(TokenKind::word, word) && !is(TokenKind::length)) return false;
    const Words mesh{"mesh", "meshes", "msh"};
    const auto ends = [&](std::size_t by) {
        return is(TokenKind::comma, by) || is(TokenKind::end, by) || is(TokenKind::semicolon, by) ||
               is(TokenKind::full_stop, by) || is(TokenKind::star, by) ||
               is(TokenKind::close, by) || any_of({"and", "over", "across", "to"}, by);
    };
    // "sp" and "bl" are meshes only in a row that counts both.
    const auto counted = [&](Words names) {
        for (std::size_t i = begin_; i + 1 < last_; ++i)
            if (tokens_[i].kind == TokenKind::number && tokens_[i + 1].kind == TokenKind::word &&
                std::find(names.begin(), names.end(), tokens_[i + 1].text) != names.end())
                return true;
        return false;
    };
    const Words spaces{"sp", "sps", "space", "spaces"};
    const Words blocks{"bl", "bls", "blk", "blks", "block", "blocks"};
    bool filled = false;
    std::size_t end = word;
    // "8 CM", a closed mesh and no length, in a row that has open ones
    const bool centimetres =
        is(TokenKind::length) && peek().text.ends_with("cm") && ends(1) && short_meshes();
    if (centimetres) {
        Item item;
        item.at = at;
        item.what = Item::Do::meshes;
        item.count = base::leading_number<std::int64_t>(peek().text);
        item.kind = book_->find_us("dc");
        ++next_;
        out.push_back(std::move(item));
        return true;
    }
    if ((any_of({"open", "empty"}, word) || any_of({"solid", "filled", "closed"}, word)) &&
        (any_of(mesh, word + 1) || any_of({"square", "squares", "box", "boxes"}, word + 1))) {
        filled = !any_of({"open", "empty"}, word);
        end = word + 2;
    } else if (word == 1 && any_of({"om"}, word) && ends(word + 1)) {
        end = word + 1;
    } else if (word == 1 && any_of({"sm", "fm", "cm"}, word) && ends(word + 1) &&
               (any_of({"sm"}, word) || short_meshes())) {
        filled = true;
        end = word + 1;
    } else if (word == 1 && (any_of(spaces, word) || any_of(blocks, word)) && ends(word + 1) &&
               counted(spaces) && counted(blocks)) {
        filled = any_of(blocks, word);
        end = word + 1;
    } else {
        return false;
    }
    Item item;
    item.at = at;
    item.what = Item::Do::meshes;
    item.count = word == 1 ? peek().value : 1;
    item.kind = filled ? book_->find_us("dc") : book_->chain();
    next_ += end;
    out.push_back(std::move(item));
    return true;
}

/// "pull up a loop in 2nd ch from hook", "insert hook in next bar, pull up a loop": the forward
/// pass of Tunisian crochet.
bool Grammar::loop_item(std::vector<Item>& out) {
    if (book_->craft() != Craft::crochet) return false;
    const std::size_t before = next_;
    Item item;
    item.at = peek().at;
    const auto pulls = [&] {
        take({"yo", "yrh"});
        if (is(TokenKind::comma)) ++next_;
        take({"and"});
        if (!take({"pull", "draw", "pick"}) || !take({"up"})) return false;
        take({"a", "one", "1"});
        return take({"loop", "lp", "loops", "lps"});
    };
    std::optional<Spot> spot;
    if (any_of({"insert"})) {
        ++next_;
        take({"your", "the"});
        if (!take({"hook"}) || !at_place()) {
            next_ = before;
            return false;
        }
        spot = place();
        if (fault_) return true;
        while (is(TokenKind::comma) || any_of({"and"})) ++next_;
    }
    if (!pulls()) {
        next_ = before;
        return false;
    }
    item.kind = book_->find_us("tss");
    if (spot) {
        item.spot = *spot;
        out.push_back(std::move(item));
    } else {
        add_where(out, std::move(item));
    }
    return true;
}

/// "return pass", "RetP": what closes the loops makes no stitches; it is in the yarn of each.
bool Grammar::return_item() {
    if (book_->craft() != Craft::crochet) return false;
    const bool pass = any_of({"return", "reverse", "returning"}) &&
                      (any_of({"pass", "row"}, 1) || is(TokenKind::colon, 1) ||
                       is(TokenKind::end, 1) || is(TokenKind::full_stop, 1));
    if (!pass && !any_of({"retp", "rtp", "returnpass"})) return false;
    const std::size_t from = next_;
    for (bool chained = false; !is(TokenKind::end); ++next_) {
        // "yo, pull through 4 loops, ch 1": it joins stitches, or adds some
        const bool joins = is(TokenKind::number) && peek().value > 2 &&
                           tokens_[next_ - 1].kind != TokenKind::open &&
                           any_of({"loop", "loops", "lp", "lps"}, 1);
        const bool chain = any_of({"ch", "chain"}) ||
                           (is(TokenKind::word) && space_word(peek().text).has_value() &&
                            peek().text.starts_with("ch"));
        if (joins || (chain && chained)) {
            fail(peek().at, "a return pass that joins stitches or adds chains is not followed",
                 "a plain return pass, or how many stitches the row leaves",
                 "Write how many stitches the row leaves, as a row of its own with its count.");
            return false;
        }
        chained = chained || chain;
    }
    SetAside told{SetAside::Why::place, tokens_[from].at, {}};
    for (std::size_t i = from; i < next_; ++i) {
        if (i > from && tokens_[i].kind == TokenKind::word) told.words += ' ';
        told.words += tokens_[i].text;
    }
    body_.aside.push_back(std::move(told));
    return true;
}

namespace {

/// "sl st in next ch-3 sp, ch 3, 3 dc in same sp": one block upon another.
bool block_on_block(const std::vector<Item>& items, KindId slip_stitch) {
    for (std::size_t i = 0; i < items.size(); ++i) {
        if (!items[i].items.empty() && block_on_block(items[i].items, slip_stitch)) return true;
        if (i < 2 || items[i].what != Item::Do::work || items[i].spot.which != Spot::Which::same ||
            items[i - 1].what != Item::Do::chain)
            continue;
        const Item& slip = items[i - 2];
        if (slip.what == Item::Do::work && slip.kind == slip_stitch &&
            slip.spot.unit.of == Unit::Of::space)
            return true;
    }
    return false;
}

}  // namespace

/// "Sl st in next ch, ch 5, dc in ch-2 sp": a round that begins in the space beside the join.
bool Grammar::slips_into_chain() const {
    if (book_->craft() != Craft::crochet) return false;
    std::size_t by = 0;
    if (any_of({"sl", "slip"}) && any_of({"st", "stitch"}, 1))
        by = 2;
    else if (any_of({"ss", "slst"}))
        by = 1;
    else
        return false;
    if (!any_of({"in", "into", "to"}, by)) return false;
    ++by;
    if (any_of({"the"}, by)) ++by;
    if (!any_of({"next"}, by) || !any_of({"ch", "chain"}, by + 1)) return false;
    by += 2;
    if (!is(TokenKind::comma, by) && !is(TokenKind::full_stop, by)) return false;
    return any_of({"ch", "chain"}, by + 1) ||
           (is(TokenKind::number, by + 1) && any_of({"ch", "chain"}, by + 2));
}

/// What goes into a space first goes into the one that the round begins in.
void Grammar::begin_in_space() {
    std::vector<Item>& items = body_.items;
    if (items.size() < 3 || items[1].what != Item::Do::chain) return;
    Spot& spot = items[2].spot;
    if (spot.which == Spot::Which::next && spot.unit.of == Unit::Of::space && spot.count == 1)
        spot.which = Spot::Which::same;
}

/// "30 hdc in each ch around (30 sts)": one in each, and so many in all.
void Grammar::one_in_each() {
    if (book_->craft() != Craft::crochet || body_.declared.size() != 1) return;
    constexpr std::int64_t many = 10;
    for (Item& item : body_.items)
        if (item.what == Item::Do::work && item.spot.which == Spot::Which::each &&
            item.count >= many && item.count == body_.declared.front().count) {
            body_.aside.push_back({SetAside::Why::remark, item.at, std::to_string(item.count)});
            item.count = 1;
        }
}

/// "(2 blocks)" of a piece from corner to corner: each leaves one space.
void Grammar::count_blocks() {
    refuse_second_row();
    const bool along = std::any_of(body_.items.begin(), body_.items.end(), [](const Item& item) {
        return item.spot.which == Spot::Which::from_hook;
    });
    if (!along &&
        (book_->craft() != Craft::crochet || !block_on_block(body_.items, book_->slip_stitch())))
        return;
    for (Declared& declared : body_.declared)
        for (const std::string_view name : {"block", "blocks", "tile", "tiles", "square", "squares",
                                            "box", "boxes", "pixel", "pixels", "bl", "bls"})
            if (declared.name == name && declared.what == Declared::What::other) {
                declared.what = Declared::What::spaces;
                declared.chains = 0;
                body_.blocks = true;
            }
}

/// "alternate fpdc and bpdc around", "alternate fp/bp dc stitches around".
bool Grammar::alternate_item(std::vector<Item>& out) {
    if (book_->craft() != Craft::crochet || !any_of({"alternate", "alternating"})) return false;
    const std::size_t before = next_++;
    Item repeat;
    repeat.what = Item::Do::repeat;
    repeat.at = peek().at;
    repeat.partial = true;
    repeat.extent.until = Extent::Until::to_end;
    const auto add = [&](const std::string& name) {
        const auto named = book_->find(name);
        if (!named) return;
        Item item;
        item.at = repeat.at;
        item.kind = named->kind;
        repeat.items.push_back(std::move(item));
    };
    if (any_of({"fp", "bp"}) && (is(TokenKind::slash, 1) || any_of({"and"}, 1)) &&
        any_of({"fp", "bp"}, 2) && is(TokenKind::word, 3)) {
        const std::string stem(peek(3).text);
        add(std::string(peek().text) + stem);
        add(std::string(peek(2).text) + stem);
        next_ += 4;
    } else if (is(TokenKind::word) && is(TokenKind::word, 2) &&
               (any_of({"and"}, 1) || is(TokenKind::slash, 1))) {
        add(std::string(peek().text));
        add(std::string(peek(2).text));
        next_ += 3;
    }
    take({"st", "sts", "stitch", "stitches"});
    if (repeat.items.size() != 2) {
        next_ = before;
        return false;
    }
    if (const auto until = extent()) repeat.extent.keep = until->keep;
    out.push_back(std::move(repeat));
    return true;
}

/// "Working around the ring over the sts of rnd 1, 24 dc in ring": where, up to the comma.
bool Grammar::working_where() const {
    if (!any_of({"around", "over", "behind"}, 1)) return false;
    std::size_t by = 1;
    for (; is_words(by); ++by)
        if (any_of({"next", "each", "opposite", "first", "last", "side", "end", "ends", "edge"},
                   by))
            return false;
    return is(TokenKind::comma, by);
}

/// "working all sts in 3rd loop", "working in the round": how, not what.
bool Grammar::loops_note() {
    if (book_->craft() != Craft::crochet || !any_of({"working", "work", "worked"})) return false;
    const bool loops = region_has({"loop", "loops", "lp", "lps", "bar", "bars", "bump", "bumps"});
    const bool round =
        any_of({"in"}, 1) && region_has({"round", "rounds", "rnds", "rows", "spiral"});
    // "working in spaces between sts, dc in each sp"
    bool gaps = false;
    for (std::size_t by = 1; is_words(by) && !any_of({"next", "each", "first", "same"}, by); ++by)
        gaps = gaps || (by > 1 && by < 5 && any_of({"between"}, by) &&
                        any_of({"sp", "sps", "space", "spaces"}, by - 1));
    gaps = gaps && any_of({"in", "into"}, 1);
    gaps_ = gaps_ || gaps;
    if (!loops && !round && !gaps && !working_where()) return false;
    for (std::size_t by = 1; is_words(by); ++by)
        if (has(Role::work, by) || (is(TokenKind::number, by) && is(TokenKind::word, by + 1) &&
                                    book_->find(peek(by + 1).text)))
            return false;
    for (std::size_t by = 1; loops && is_words(by); ++by)  // "in front loops of rnd 3"
        if (any_of({"of"}, by) && earlier_row(any_of({"the"}, by + 1) ? by + 2 : by + 1))
            return false;
    const std::size_t from = next_;
    if (working_where())
        while (is_words()) ++next_;
    while (is_words() && !(next_ > from + 1 && at_stitch() && !any_of({"of", "the"}) &&
                           tokens_[next_ - 1].text != "of"))
        ++next_;
    set_aside(from, SetAside::Why::place);
    return true;
}

namespace {

bool is_foundation_stitch(KindId kind, const StitchBook& book) {
    const std::string& name = book.at(kind).name;
    return name == "fsc" || name == "fhdc" || name == "fdc" || name == "ftr";
}

/// Whether stitches stand in it, other than slip stitches.
bool makes_stitches(const Item& item, KindId slip) {
    switch (item.what) {
        case Item::Do::work:
            return item.kind != slip;
        case Item::Do::increase:
        case Item::Do::decrease:
        case Item::Do::evenly:
        case Item::Do::meshes:
            return true;
        case Item::Do::group:
        case Item::Do::repeat:
            return std::any_of(item.items.begin(), item.items.end(),
                               [&](const Item& one) { return makes_stitches(one, slip); });
        default:
            return false;
    }
}

}  // namespace

/// "dc in each st around, join, ch 3, dc in each st around, join", "sc across, turn, ch 1, sc
/// across": the second row goes into the first, which one line cannot show.
void Grammar::refuse_second_row() {
    if (book_->craft() != Craft::crochet || fault_ || !body_.unknown.empty()) return;
    const KindId slip = book_->slip_stitch();
    const std::vector<Item>& items = body_.items;
    bool worked = false;
    bool whole = false;
    for (std::size_t i = 0; i < items.size(); ++i) {
        const Item& item = items[i];
        // "Fsc 20. Ch 2, turn. Hdc across.", "ch 6, dc in 4th ch from hook, turn, ...": its base
        const bool base = item.spot.which == Spot::Which::from_hook ||
                          (item.what == Item::Do::work && is_foundation_stitch(item.kind, *book_));
        if (base) return;
        const bool closes =
            item.what == Item::Do::join ||
            (item.what == Item::Do::work && item.kind == slip &&
             (item.spot.which == Spot::Which::turning ||
              (item.spot.which == Spot::Which::first && item.spot.unit.of != Unit::Of::chain)));
        if ((closes && whole) || (item.what == Item::Do::turn && worked)) {
            bool chain = false;
            std::size_t next = i + 1;
            while (next < items.size() &&
                   (items[next].what == Item::Do::chain || items[next].what == Item::Do::turn ||
                    items[next].what == Item::Do::yarn || items[next].what == Item::Do::join))
                chain = items[next++].what == Item::Do::chain || chain;
            const bool more =
                std::any_of(items.begin() + static_cast<std::ptrdiff_t>(next), items.end(),
                            [&](const Item& one) { return makes_stitches(one, slip); });
            if (more && (chain || item.what == Item::Do::turn))
                return fail(item.at, "behind this begins another row, in the same line",
                            "one row a line", "Write what follows it as a row of its own.");
        }
        const bool makes = makes_stitches(item, slip);
        worked = worked || makes;
        whole = whole || (makes && (item.spot.which == Spot::Which::each ||
                                    item.spot.which == Spot::Which::ring ||
                                    item.extent.until == Extent::Until::to_end));
    }
}

/// "(Ch 3, dc), 2 dc in each st around", "sl st in corner, (ch 3, 2 dc, ch 2, 3 dc) in same sp":
/// the chain begins the row all the same.
void Grammar::begin_with_chain() {
    if (book_->craft() != Craft::crochet) return;
    one_in_each();
    std::vector<Item>& items = body_.items;
    std::size_t at = 0;
    while (at < items.size() &&
           (items[at].what == Item::Do::join || items[at].what == Item::Do::yarn ||
            items[at].what == Item::Do::ring ||
            (items[at].what == Item::Do::work && items[at].kind == book_->slip_stitch())))
        ++at;
    if (at == items.size() || items[at].items.size() < 2 ||
        items[at].items.front().what != Item::Do::chain)
        return;
    Item& first = items[at];
    if (first.what == Item::Do::group && first.items.front().count > 1 &&
        (first.spot.which == Spot::Which::same || first.spot.which == Spot::Which::ring ||
         at > 0)) {
        Item chain = std::move(first.items.front());
        first.items.erase(first.items.begin());
        items.insert(items.begin() + static_cast<std::ptrdiff_t>(at), std::move(chain));
        return;
    }
    if (at > 0 || first.what != Item::Do::repeat || first.extent.until != Extent::Until::times ||
        first.extent.count != 1)
        return;
    std::vector<Item> inner = first.items;
    items.erase(items.begin());
    items.insert(items.begin(), std::make_move_iterator(inner.begin()),
                 std::make_move_iterator(inner.end()));
}

}  // namespace skeinfall::notation
