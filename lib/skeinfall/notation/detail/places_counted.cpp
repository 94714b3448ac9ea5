// Places that are counted, or told by the chain a row began with.

#include <array>
#include <cstdint>

#include "skeinfall/notation/detail/grammar.hpp"
#include "skeinfall/notation/detail/words.hpp"

namespace skeinfall::notation {
/// "across to next ch-2 sp", "to next corner": up to the next chain space.
bool Grammar::next_space() {
    if (book_->craft() != Craft::crochet) return false;
    std::size_t by = any_of({"across", "around", "along", "up"}) ? 1 : 0;
    if (!any_of({"to", "until", "till"}, by)) return false;
    ++by;
    if (any_of({"the"}, by)) ++by;
    if (!any_of({"next", "first", "following"}, by)) return false;
    ++by;
    if (any_of({"corner"}, by)) ++by;
    const std::size_t before = next_;
    const bool corner = tokens_[std::min(next_ + by - 1, last_)].text == "corner";
    next_ += by;
    const auto what = (at_separator() || is(TokenKind::end)) ? std::nullopt : unit();
    if ((what && what->of == Unit::Of::space) ||
        (corner && !what && !fault_ && !is(TokenKind::word)))
        return true;
    fault_.reset();
    next_ = before;
    return false;
}

/// "rep from * to centre 2-ch sp", "to next corner": behind "to". Nothing is taken for others.
bool Grammar::to_space(Extent& extent) {
    if (book_->craft() != Craft::crochet) return false;
    const std::size_t before = next_;
    std::size_t to = before;
    while (to > begin_ && tokens_[to - 1].text != "to" && tokens_[to - 1].text != "until" &&
           tokens_[to - 1].text != "till")
        --to;
    // "sl st to corner sp" goes there.
    if (to > begin_ + 1 && tokens_[to - 2].kind == TokenKind::word &&
        (tokens_[to - 2].text == "st" || tokens_[to - 2].text == "stitch" ||
         book_->find(tokens_[to - 2].text)))
        return false;
    const bool last = take({"last", "final"});
    if (!last) take({"next", "first", "following"});
    if (last && (has(Role::group) ||
                 any_of({"block", "tile"}))) {  // "to last shell": to the space within it
        ++next_;
        extent.to_space = true;
        extent.last_space = true;
        extent.chains = 0;
        return true;
    }
    take({"center", "centre", "middle"});
    const bool corner = take({"corner"});
    if (next_ == before) return false;
    const auto what = (at_separator() || is(TokenKind::end)) ? std::nullopt : unit();
    const bool space = what && what->of == Unit::Of::space;
    if (fault_ || (!space && !(corner && !what && !last))) {
        fault_.reset();
        next_ = before;
        return false;
    }
    extent.to_space = true;
    extent.last_space = last;
    extent.chains = space ? what->chains : 0;
    return true;
}

void Grammar::between() {
    fail(peek().at, "places between stitches are not followed", "a stitch or a chain space",
         "Name the stitch, or describe the row as a table of counts.");
}

/// "inc * 6" where no star is open: the star says how often.
bool Grammar::behind_change() const {
    if (book_->craft() != Craft::crochet || star_list_ || next_ == begin_) return false;
    const Token& before = tokens_[next_ - 1];
    if (before.kind != TokenKind::word) return false;
    if (before.text == "inc" || before.text == "dec" || before.text == "invdec" ||
        before.text == "increase" || before.text == "decrease")
        return true;
    const auto named = book_->find(before.text);
    return named && book_->at(named->kind).takes > 1;
}

/// "of rnd 3" in round 6, whose stitches go into round 5: which they are is not known here.
bool Grammar::earlier_row(std::size_t by) {
    if (book_->craft() != Craft::crochet || !any_of(row_nouns, by) ||
        !is(TokenKind::number, by + 1))
        return false;
    const Token& label = tokens_[0];
    std::int64_t own = 0;
    if (label.kind == TokenKind::number || label.kind == TokenKind::ordinal) own = label.value;
    if (label.kind == TokenKind::word && last_ > 1 && tokens_[1].kind == TokenKind::number &&
        std::find(row_nouns.begin(), row_nouns.end(), label.text) != row_nouns.end())
        own = tokens_[1].value;
    const std::int64_t named = peek(by + 1).value;
    if (own > 0 && (named == own || named + 1 == own)) return false;
    fail(peek(by).at, "stitches of an earlier row are not followed",
         "places of the row right below, or how many stitches are made",
         "Write a round that begins anew, with its count: Rnd 1: sc around. (28)");
    return true;
}

/// "of previous row", "of row below"
void Grammar::pass_row_below() {
    if (!any_of({"of", "on", "in", "from"})) return;
    std::size_t by = 1;
    while (any_of({"the", "prev", "previous", "last", "foundation", "starting"}, by)) ++by;
    if (earlier_row(by)) return;
    // "of rnd2", "first sc of round (16 loops)"
    const auto glued = [&](std::string_view name) {
        const std::string_view text = peek(by).text;
        return is(TokenKind::word, by) && text.size() > name.size() && text.starts_with(name) &&
               text.find_first_not_of("0123456789", name.size()) == std::string_view::npos;
    };
    if (glued("rnd") || glued("row") || glued("round")) {
        next_ += by + 1;
        return;
    }
    if (any_of(row_nouns, by) && (by > 1 || (any_of({"of", "from"}) && !is_words(by + 1)) ||
                                  any_of({"below"}, by + 1) || is(TokenKind::number, by + 1))) {
        next_ += by + 1;
        take({"below"});
        if (is(TokenKind::number) && !is(TokenKind::word, 1)) ++next_;  // "of rnd 1;"
    } else if (any_of({"of"}) && any_of(chain_words, by)) {             // "next 3 sts of ch"
        next_ += by + 1;
    }
}

/// Passes over words and numbers up to one of these.
void Grammar::pass_to(Words words) {
    while ((is(TokenKind::word) || is(TokenKind::number)) && !any_of(words)) ++next_;
}

/// "top of turning ch", "tch", "beg ch-3", "3rd ch of beg ch-4".
bool Grammar::turning_place(Spot& spot) {
    const bool top = any_of({"top"});
    const bool named = any_of({"tch", "t-ch", "turning"});
    const bool beginning = any_of({"beg", "beginning", "starting", "first"}) &&
                           (any_of({"ch-2", "ch-3", "ch-4", "ch-5", "ch-6"}, 1) ||
                            (any_of(chain_words, 1) && is(TokenKind::number, 2))) &&
                           !any_of(space_words, 2) && !any_of(space_words, 3) &&
                           !(is(TokenKind::dash, 3) && any_of(space_words, 4));
    const bool counted =
        is(TokenKind::ordinal) && any_of({"of"}, 2) &&
        (any_of(chain_words, 1) ||
         (any_of(stitch_words, 1) &&
          (any_of({"ch", "chain", "tch", "turning", "beg"}, 3) ||
           (any_of({"the"}, 3) && any_of({"ch", "chain", "tch", "turning", "beg"}, 4)))));
    if (named && any_of(space_words, 1))
        ++next_;  // "t-ch sp" is a space
    else if (named && any_of(chain_words, 1) && any_of(space_words, 2))
        next_ += 2;
    if (any_of(space_words)) return false;
    if (!top && !named && !beginning && !counted) return false;
    if (top && first_of_row(spot)) return true;
    spot.which = Spot::Which::turning;
    while (is(TokenKind::word) || is(TokenKind::number) || is(TokenKind::ordinal)) {
        if (any_of({"and", "to"})) break;
        ++next_;
    }
    return true;
}

/// "top of first dc": the stitch, where "top of ch 3" is the chain. Stands on "top".
bool Grammar::first_of_row(Spot& spot) {
    std::size_t by = 1;
    while (any_of({"of", "the"}, by)) ++by;
    const bool first = any_of({"first"}, by) || (is(TokenKind::ordinal, by) && peek(by).value == 1);
    if (!first || book_->craft() != Craft::crochet || !is(TokenKind::word, by + 1)) return false;
    const auto named = book_->find(peek(by + 1).text);
    if (!named || named->kind == book_->chain() || book_->at(named->kind).takes != 1) return false;
    next_ += by + 2;
    take(stitch_words);
    spot.which = Spot::Which::first;
    spot.unit = {Unit::Of::kind, named->kind, 0};
    spot.in_one = true;
    return true;
}

/// "4th ch from hook". Any other counted place is refused.
bool Grammar::ordinal_place(Spot& spot) {
    static constexpr std::array<std::string_view, 5> spelled{"second", "third", "fourth", "fifth",
                                                             "sixth"};
    std::int64_t count = 0;
    if (is(TokenKind::ordinal)) count = peek().value;
    for (std::size_t i = 0; i < spelled.size(); ++i)
        if (any_of({spelled[i]})) count = static_cast<std::int64_t>(i) + 2;
    if (count == 0) return false;
    const Token& ordinal = peek();
    const bool bare = any_of({"from"}, 1) &&  // "in 6th from hook"
                      (any_of({"hook"}, 2) || (any_of({"the"}, 2) && any_of({"hook"}, 3)));
    const bool from_hook =
        bare || ((any_of(chain_words, 1) || any_of(stitch_words, 1)) && any_of({"from"}, 2));
    if (count == 1 && !from_hook) return false;
    ++next_;
    if (from_hook) {
        next_ += bare ? 1 : 2;
        take({"the"});
        take({"hook"});
        spot.which = Spot::Which::from_hook;
        spot.unit.of = Unit::Of::chain;
        spot.count = count;
        spot.in_one = true;
        return true;
    }
    if (joining_chain(spot)) {
        ++next_;
        return true;
    }
    --next_;
    if (const auto nth = nth_place()) {
        spot = *nth;
        return true;
    }
    if (fault_) return false;
    fail(ordinal.at, "a place counted as \"" + std::string(ordinal.text) + "\" is not followed",
         "\"next\", or \"ch from hook\" behind it",
         "Write what is skipped: sk next 2 sts, sc in next st.");
    return false;
}

/// "3rd ch" of the chain that a round began with: a slip stitch goes there, or the row ends so.
/// Stands behind the ordinal.
bool Grammar::joining_chain(Spot& spot) const {
    if (!any_of(chain_words) || book_->craft() != Craft::crochet) return false;
    const bool ends = is(TokenKind::end, 1) || is(TokenKind::full_stop, 1) ||
                      is(TokenKind::semicolon, 1) || is(TokenKind::open, 1) ||
                      (is(TokenKind::comma, 1) && any_of({"turn", "ch", "fasten", "join"}, 2)) ||
                      any_of({"to", "turn"}, 1);
    if (!slips_ && !ends) return false;
    spot.which = Spot::Which::turning;
    return true;
}

/// "2nd st": counted from the beginning of the row. Nothing for a place within a group.
std::optional<Spot> Grammar::nth_place() {
    static constexpr std::string_view spelled[] = {"second", "third", "fourth", "fifth", "sixth"};
    std::int64_t nth = is(TokenKind::ordinal) ? peek().value : 0;
    for (std::size_t i = 0; i < std::size(spelled); ++i)
        if (any_of({spelled[i]})) nth = static_cast<std::int64_t>(i) + 2;
    const Token& ordinal = peek();
    if (nth < 2 || nth > 100 || book_->craft() != Craft::crochet) return std::nullopt;
    const std::size_t before = next_++;
    Spot spot;
    spot.which = Spot::Which::first;
    spot.nth = nth;
    spot.in_one = true;
    const auto what = unit();
    if (!what || fault_) {
        next_ = before;
        return std::nullopt;
    }
    spot.unit = *what;
    if (of_group(spot)) return spot;
    if (any_of({"of"}) && !any_of({"row", "rnd", "round", "prev", "previous", "last"}, 1) &&
        !any_of({"row", "rnd", "round", "prev", "previous", "last"}, 2)) {
        fail(ordinal.at,
             "a place counted within a group, \"" + std::string(ordinal.text) +
                 "\", is not followed",
             "what is skipped before it", "Write what is skipped: sk next 2 dc, sc in next dc.");
        return std::nullopt;
    }
    pass_row_below();
    return spot;
}

}  // namespace skeinfall::notation
