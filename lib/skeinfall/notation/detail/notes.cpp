// What stands beside the stitches of a row: declared counts, remarks, joining, turning.

#include <algorithm>
#include <utility>

#include "skeinfall/notation/detail/grammar.hpp"

namespace skeinfall::notation {
namespace {

const std::initializer_list<std::string_view> stitch_words{"st", "sts", "stitch", "stitches"};

}  // namespace

/// Whether one of the words stands before the next separator or bracket.
bool Grammar::region_has(Words words) const {
    for (std::size_t by = 0;
         is(TokenKind::word, by) || is(TokenKind::number, by) || is(TokenKind::ordinal, by); ++by)
        if (any_of(words, by)) return true;
    return false;
}

/// Passes over words and numbers up to a separator or a bracket.
void Grammar::pass_words() {
    while (is(TokenKind::word) || is(TokenKind::number) || is(TokenKind::ordinal)) ++next_;
}

/// The same, but not over a stitch.
void Grammar::pass_remark() {
    while (is(TokenKind::word) || is(TokenKind::number) || is(TokenKind::ordinal)) {
        if (is(TokenKind::word) && book_->find(peek().text)) return;
        ++next_;
    }
}

void Grammar::join_item(std::vector<Item>& out, std::uint32_t at) {
    Item item;
    item.at = at;
    item.what = region_has({"ring", "circle"}) ? Item::Do::ring : Item::Do::join;
    // The slip stitch and its place belong to the joining.
    while (is(TokenKind::word) || is(TokenKind::number) || is(TokenKind::ordinal)) {
        const bool with = take({"with"});
        const auto named = with ? stitch_name() : std::nullopt;
        if (named && named->kind != book_->slip_stitch() && book_->craft() == Craft::crochet &&
            item.what == Item::Do::join) {  // "join yarn with sc in first st"
            item.what = Item::Do::work;
            item.kind = named->kind;
            item.spot.which = Spot::Which::first;
        }
        if (!with) ++next_;
    }
    out.push_back(std::move(item));
}

std::optional<std::pair<long, TurningNote>> Grammar::note() {
    for (; !is(TokenKind::end); ++next_) {
        std::optional<long> chains;
        if (is(TokenKind::word)) chains = space_word(peek().text);
        if (any_of({"ch", "chain"}) && is(TokenKind::number, 1)) chains = peek(1).value;
        if (!chains) continue;
        ++next_;
        std::size_t to = next_;
        while (tokens_[to].kind != TokenKind::end && tokens_[to].kind != TokenKind::full_stop) ++to;
        if (const auto found = turning_note(next_, to)) return std::pair(*chains, *found);
    }
    return std::nullopt;
}

/// Words that are no stitches but are understood. False, and nothing taken, for others.
bool Grammar::aside(std::vector<Item>& out) {
    Item item;
    item.at = peek().at;
    const auto give = [&](Item::Do what) {
        item.what = what;
        out.push_back(std::move(item));
        return true;
    };
    if (any_of({"do", "don't"})) {  // "do not turn", "do not join"
        ++next_;
        take({"not"});
        take({"turn", "join"});
        return true;
    }
    if (take({"turn", "turning"})) return give(Item::Do::turn);
    if (any_of({"join", "joining"})) {
        join_item(out, item.at);
        return true;
    }
    if (any_of({"magic", "mr", "adjustable", "sliding"}) ||
        (any_of({"form"}) && region_has({"ring", "circle", "loop"}))) {
        pass_remark();
        return give(Item::Do::ring);
    }
    if (any_of({"starting", "start", "beginning", "begin", "beg"}) &&
        any_of({"in", "with", "from", "at"}, 1)) {  // "starting in 2nd ch from hook"
        const std::size_t before = next_;
        next_ += 2;
        take({"the"});
        Spot spot;
        if (ordinal_place(spot)) {
            const bool behind = !out.empty() && out.back().what == Item::Do::work &&
                                out.back().spot.which == Spot::Which::each;
            start_ = spot;
            if (behind) {  // "sc in each ch across, starting in 2nd ch from hook"
                Item each = std::move(out.back());
                out.pop_back();
                push_from_start(out, std::move(each));
            }
            return true;
        }
        if (fault_) return false;
        next_ = before;
    }
    if (any_of({"working", "work"}) && any_of({"last", "final", "first", "over"}, 1)) {
        pass_words();  // "working last st in top of turning chain", "working over the tail"
        return true;
    }
    if (any_of({"being", "taking", "careful", "without", "not", "at"})) {
        pass_remark();  // "being careful not to twist", "at beg of row"
        return true;
    }
    if (any_of({"ending", "end"}) &&
        (any_of({"with", "by", "in"}, 1) ||
         (is(TokenKind::word, 1) && book_->find(peek(1).text).has_value()))) {
        ++next_;
        take({"with", "by", "in"});
        take({"a", "an"});
        if (any_of({"rs", "ws", "right", "wrong", "row", "rnd"}))
            pass_words();
        else if (!out.empty() && out.back().what == Item::Do::repeat)
            out.back().partial = out.back().extent.until == Extent::Until::to_end;
        return true;
    }
    if (take({"leave", "leaving"})) {
        pass_remark();
        return give(Item::Do::unworked);
    }
    if (any_of({"work", "working"}) && region_has({"opposite", "other"}) && region_has({"side"})) {
        while (!any_of({"side"})) ++next_;
        ++next_;
        if (take({"of"})) {
            take({"the"});
            take({"foundation", "base", "beg", "beginning"});
            take({"ch", "chain", "chs", "chains"});
        }
        return give(Item::Do::opposite);
    }
    if ((any_of({"marker", "markers"})) ||
        (any_of({"place", "remove"}) && any_of({"marker", "markers", "m"}, 1))) {
        pass_remark();
        return true;
    }
    if (take({"pm", "sm"})) return true;
    const Words fabrics{"garter", "stockinette", "stocking", "g-st", "seed", "moss"};
    if (any_of({"in"}) && book_->craft() == Craft::knit &&
        (any_of(fabrics, 1) || any_of({"st", "rev", "reverse", "k", "p"}, 1) ||
         (is(TokenKind::word, 1) && peek(1).text.size() == 2 && peek(1).text.front() == 'k'))) {
        ++next_;  // "in St st", "in k2, p2 rib"
        return true;
    }
    if (book_->craft() == Craft::knit) take({"rev", "reverse"});
    if (book_->craft() == Craft::knit &&
        ((any_of({"st"}) && any_of({"st"}, 1)) || any_of(fabrics))) {
        ++next_;
        take(stitch_words);
        item.kind = book_->find("k")->kind;
        item.spot.which = Spot::Which::each;
        return give(Item::Do::work);
    }
    if (any_of({"evenly", "even"})) {
        fail(peek().at,
             "\"" + std::string(peek().text) + "\" does not say which stitches, or how many",
             "the stitches",
             "Write them out, like: sc in each st across; or: dec 4 sts evenly across.");
        return false;
    }
    if (any_of({"fasten", "finish", "cut", "break", "weave", "change", "changing", "drop", "pick",
                "rotate", "mark", "note"})) {
        pass_remark();
        return true;
    }
    if (any_of({"with", "using"}) &&
        region_has({"hook", "needle", "needles", "method", "front", "back", "side"})) {
        pass_words();  // "with a 5 mm hook", "with yarn in front"
        return true;
    }
    if (any_of({"with", "using"}) && is(TokenKind::word, 1)) {  // "with MC", "with color A"
        ++next_;
        if (book_->find(peek().text)) return true;
        if (take({"color", "colour", "yarn"}) && !is(TokenKind::word)) return true;
        if (!book_->find(peek().text)) ++next_;
        take({"facing"});
        return true;
    }
    if (any_of({"through", "in"}) && any_of({"back", "front", "both"}, 1) &&
        any_of({"loop", "loops", "lp", "lps"}, 2)) {
        next_ += 3;
        take({"only"});
        return true;
    }
    return take({"then",    "now",     "and",  "the",      "a",        "an",    "of",
                 "work",    "working", "make", "more",     "also",     "end",   "ending",
                 "rs",      "ws",      "blo",  "flo",      "bl",       "fl",    "facing",
                 "tbl",     "wyif",    "wyib", "purlwise", "knitwise", "pwise", "kwise",
                 "loosely", "row",     "rnd",  "round",    "rows",     "begin", "beginning",
                 "off",     "only",    "mc",   "cc",       "cc1",      "cc2",   "cc3"});
}

/// A bracket that declares the row's count: "(25 sts)", "(61 sc, 60 ch-1 sp)".
bool Grammar::declared_note() {
    if (!is(TokenKind::number, 1) && !any_of({"total"}, 1)) return false;
    std::vector<Declared> found;
    const auto behind = declared_list(next_ + 1, true, found);
    if (!behind || tokens_[*behind].kind != TokenKind::close) return false;
    const std::size_t before = std::exchange(next_, *behind + 1);
    if (at_place() || how_often() || any_of({"across", "around", "to", "rep", "repeat"})) {
        next_ = before;
        return false;
    }
    body_.declared.insert(body_.declared.end(), found.begin(), found.end());
    return true;
}

/// "- 25 sts", "= 25", ". 25 sts" at the end of the row.
bool Grammar::declared_tail(bool worked) {
    std::size_t from = next_;
    bool marked = false;
    while (tokens_[from].kind == TokenKind::dash || tokens_[from].kind == TokenKind::equals ||
           tokens_[from].kind == TokenKind::comma || tokens_[from].kind == TokenKind::semicolon ||
           tokens_[from].kind == TokenKind::full_stop) {
        marked = marked || tokens_[from].kind == TokenKind::dash ||
                 tokens_[from].kind == TokenKind::equals;
        ++from;
    }
    if (from == next_ || tokens_[from].kind != TokenKind::number) return false;
    // "in each ch across. 25 sc." tells what has been worked.
    marked = marked || (from > 0 && tokens_[from - 1].kind == TokenKind::full_stop && worked);
    std::vector<Declared> found;
    const auto behind = declared_list(from, marked, found);
    if (!behind) return false;
    const auto kind = tokens_[*behind].kind;
    if (kind != TokenKind::end && kind != TokenKind::full_stop) return false;
    body_.declared.insert(body_.declared.end(), found.begin(), found.end());
    next_ = *behind;
    return true;
}

/// Counts with what they count from token `from` on; the index behind them. `kinds_too`: "5 sc"
/// may be a count; elsewhere it is an instruction.
std::optional<std::size_t> Grammar::declared_list(std::size_t from, bool kinds_too,
                                                  std::vector<Declared>& out) {
    const std::size_t before = std::exchange(next_, from);
    const std::size_t names_before = body_.foreign.size();
    const auto give_up = [&]() -> std::optional<std::size_t> {
        next_ = before;
        body_.foreign.resize(names_before);
        return std::nullopt;
    };
    do {
        take({"and", "total", "of"});
        if (!is(TokenKind::number)) return give_up();
        Declared declared;
        declared.at = peek().at;
        declared.count = peek().value;
        ++next_;
        if (take(stitch_words)) {
            if (any_of({"inc'd", "dec'd", "inc", "dec", "increased", "decreased", "rem"}) &&
                !any_of({"rem"}))
                declared.what = Declared::What::other;
        } else if (is(TokenKind::word)) {
            const Token& name = peek();
            if (const auto what = unit()) {
                declared.kind = what->kind;
                declared.chains = what->chains;
                declared.what = what->of == Unit::Of::kind    ? Declared::What::kind
                                : what->of == Unit::Of::chain ? Declared::What::chains
                                : what->of == Unit::Of::space ? Declared::What::spaces
                                                              : Declared::What::stitches;
            } else {
                ++next_;
                declared.what = Declared::What::other;
            }
            declared.name = std::string(name.text);
            if (!kinds_too) return give_up();
        } else if (!kinds_too) {
            return give_up();
        }
        // "25 sts in all", "12 sts on needle", "5 shells made"
        for (int words = 0; words < 4 && is(TokenKind::word) && !any_of({"and"}); ++words) {
            if (at_place() && !any_of({"all"}, 1) && !any_of({"on", "in"})) return give_up();
            ++next_;
        }
        out.push_back(std::move(declared));
        if (any_of({"and"}) && any_of({"turning", "tch", "t-ch", "beg"}, 1))  // "8 dc + turning ch"
            while (is(TokenKind::word)) ++next_;
    } while ((is(TokenKind::comma) && ++next_) || (is(TokenKind::semicolon) && ++next_) ||
             any_of({"and"}));
    const std::size_t behind = std::exchange(next_, before);
    return behind;
}

/// "(V-st made)"
bool Grammar::ends_with_made() const {
    std::size_t by = 1;
    while (is(TokenKind::word, by) || is(TokenKind::number, by)) ++by;
    return is(TokenKind::close, by) && any_of({"made", "completed", "complete"}, by - 1);
}

/// A bracket that is no instruction: "(RS)", "(counts as dc)", "(mark this st)".
bool Grammar::remark_note(std::vector<Item>& out) {
    if (!any_of(
            {"rs",    "ws",    "right",   "wrong",    "counts", "count",     "counting", "does",
             "do",    "first", "skipped", "made",     "see",    "note",      "now",      "mark",
             "mc",    "cc",    "main",    "here",     "beg",    "beginning", "turning",  "this",
             "these", "ch",    "ch-2",    "ch-3",     "ch-4",   "odd",       "even",     "the",
             "it",    "for",   "not",     "optional", "color",  "colour",    "multiple", "mult"},
            1) &&
        !ends_with_made())
        return false;
    std::size_t to = next_ + 1;
    while (tokens_[to].kind != TokenKind::close && tokens_[to].kind != TokenKind::end &&
           tokens_[to].kind != TokenKind::open)
        ++to;
    if (tokens_[to].kind != TokenKind::close) return false;
    const auto note = turning_note(next_ + 1, to);
    if (!note && any_of({"ch", "ch-2", "ch-3", "ch-4", "first", "beg"}, 1)) return false;
    next_ = to + 1;
    if (!note) return true;
    const auto turning = std::find_if(out.rbegin(), out.rend(), [](const Item& item) {
        return item.what == Item::Do::chain || item.spot.which == Spot::Which::from_hook;
    });
    if (turning != out.rend()) turning->note = note;
    return true;
}

/// "counts as dc, ch 1", "does not count as a st", "skipped ch count as first dc".
std::optional<TurningNote> Grammar::turning_note(std::size_t from, std::size_t to) {
    const std::size_t before = std::exchange(next_, from);
    TurningNote note;
    bool told = false;
    bool negative = false;
    while (next_ < to) {
        if (any_of({"not", "doesn't", "don't"})) negative = true;
        if (any_of({"count", "counts", "counting", "counted"})) {
            told = true;
        } else if (any_of({"throughout", "here"})) {
            note.throughout = true;
        } else if (told && is(TokenKind::word)) {
            if (const auto chains = space_word(peek().text)) {
                note.chains = *chains;
            } else if (any_of({"ch", "chain"}) && is(TokenKind::number, 1)) {
                ++next_;
                note.chains = peek().value;
            } else if (const auto named = stitch_name()) {
                note.kind = named->kind;
                note.kind_said = true;
                continue;
            }
        }
        ++next_;
    }
    next_ = before;
    if (!told) return std::nullopt;
    note.counts = !negative;
    return note;
}

}  // namespace skeinfall::notation
