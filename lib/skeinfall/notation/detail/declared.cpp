// What a row should come to, and brackets that are no instruction.

#include <algorithm>
#include <cstdint>
#include <utility>

#include "skeinfall/notation/detail/grammar.hpp"
#include "skeinfall/notation/detail/words.hpp"

namespace skeinfall::notation {
/// What the row declares, when the rest of it cannot be read. In a knitted row only a number of
/// stitches, or one alone at its end, is sure: "2.5 to 3 inches" counts nothing.
std::vector<Declared> Grammar::declared_only() {
    std::vector<Declared> out;
    const auto sure = [&](bool note) {
        if (book_->craft() != Craft::knit) return true;
        const Token& last = tokens_[next_ - (note ? 2U : 1U)];
        if (last.kind == TokenKind::word && !among(last, {"wide", "high", "long", "apart", "each"}))
            return std::any_of(body_.declared.begin(), body_.declared.end(),
                               [&](const Declared& one) {
                                   return one.what == Declared::What::stitches ||
                                          one.what == Declared::What::kind;
                               }) &&
                   among(last, {"st", "sts", "stitch", "stitches", "remain", "remaining", "rem",
                                "left", "total", "all", "needle", "needles", "now"});
        return last.kind == TokenKind::number && is(TokenKind::end) &&
               (note || tokens_[next_ - 2].kind == TokenKind::equals);
    };
    for (; !is(TokenKind::end); ++next_) {
        body_.declared.clear();
        fault_.reset();
        const std::size_t before = next_;
        const bool note = is(TokenKind::open);
        if ((note ? declared_note() : declared_tail(true)) && sure(note)) out = body_.declared;
        next_ = std::max(before, next_ > before ? next_ - 1 : before);
    }
    fault_.reset();
    return out;
}

/// A bracket that declares the row's count: "(25 sts)", "(61 sc, 60 ch-1 sp)".
bool Grammar::declared_note() {
    // "in next sp work (5 tr, 2 ch, 5 tr)"
    if (book_->craft() == Craft::crochet && next_ > begin_ &&
        text_is(tokens_[next_ - 1], {"work", "make", "place", "put"}))
        return false;
    std::size_t from = next_ + 1;
    while (tokens_[from].kind == TokenKind::equals || tokens_[from].kind == TokenKind::dash) ++from;
    declared_words(from);
    if (tokens_[from].kind != TokenKind::number) return false;
    std::vector<Declared> found;
    auto behind = declared_list(from, true, found);
    if (behind && tokens_[*behind].kind == TokenKind::full_stop) ++*behind;
    if (behind && tokens_[*behind].kind == TokenKind::dash &&
        tokens_[*behind + 1].kind == TokenKind::number) {  // "(7 dc, 6 ch - 13 sts total)"
        std::vector<Declared> total;
        if (const auto end = declared_list(*behind + 1, true, total)) behind = end;
    }
    if (behind && tokens_[*behind].kind == TokenKind::dash) {  // "(21 sts - the chain counts)"
        std::size_t to = *behind;
        while (tokens_[to].kind == TokenKind::word || tokens_[to].kind == TokenKind::dash) ++to;
        if (tokens_[to].kind == TokenKind::close && to > *behind + 3) {
            const std::size_t here = std::exchange(next_, to);
            set_aside(*behind + 1, SetAside::Why::remark);
            next_ = here;
            behind = to;
        }
    }
    if (!behind || tokens_[*behind].kind != TokenKind::close) return false;
    const std::size_t before = std::exchange(next_, *behind + 1);
    if (at_place() || how_often() || any_of({"across", "around", "to", "rep", "repeat"})) {
        next_ = before;
        return false;
    }
    if (found.size() == 1 && found.front().name.empty()) take(stitch_words);  // "(120) sts"
    body_.declared.insert(body_.declared.end(), found.begin(), found.end());
    return true;
}

/// Passes words that lead to a count: "there are", "you should now have". False for none.
bool Grammar::declared_words(std::size_t& from) const {
    bool any = false;
    const auto word = [&](Words words) {
        const Token& token = tokens_[from];
        return token.kind == TokenKind::word &&
               std::find(words.begin(), words.end(), token.text) != words.end();
    };
    const std::size_t begin = from;
    while (word({"there",  "are",   "is",     "now",      "you",    "you'll", "should", "will",
                 "have",   "total", "for",    "a",        "of",     "count",  "to",     "leaving",
                 "stitch", "st",    "sts",    "stitches", "making", "made",   "so",     "in",
                 "all",    "this",  "makes",  "gives",    "ends",   "end",    "with",   "then",
                 "until",  "still", "you've", "ending"})) {
        any = any || word({"are", "have", "total", "count", "made", "gives", "makes", "still",
                           "leaving", "ending"});
        ++from;
        if (tokens_[from].kind == TokenKind::colon || tokens_[from].kind == TokenKind::equals) {
            any = true;
            ++from;
        }
    }
    if (!any) from = begin;
    return any;
}

/// "- 25 sts", "= 25", ". 25 sts", "There are 25 sts" at the end of the row.
bool Grammar::declared_tail(bool worked) {
    std::size_t from = next_;
    bool marked = false;
    while (tokens_[from].kind == TokenKind::dash || tokens_[from].kind == TokenKind::equals ||
           tokens_[from].kind == TokenKind::comma || tokens_[from].kind == TokenKind::semicolon ||
           tokens_[from].kind == TokenKind::colon || tokens_[from].kind == TokenKind::full_stop) {
        marked = marked || tokens_[from].kind == TokenKind::dash ||
                 tokens_[from].kind == TokenKind::equals || tokens_[from].kind == TokenKind::colon;
        ++from;
    }
    const bool led = declared_words(from);
    if ((from == next_ && !led) || tokens_[from].kind != TokenKind::number) return false;
    // "pick up and knit 30 sts from the back neck, 18 sts down the left front"
    if (!led && book_->craft() == Craft::knit && tokens_[from - 1].kind == TokenKind::comma &&
        among(tokens_[from + 1], stitch_words) &&
        among(tokens_[from + 2], {"down", "up", "along", "across", "from"}))
        return false;
    // "in each ch across. 25 sc." tells what has been worked.
    marked =
        marked || led || (from > 0 && tokens_[from - 1].kind == TokenKind::full_stop && worked);
    std::vector<Declared> found;
    const auto behind = declared_list(from, marked, found);
    if (!behind) return false;
    // "Join. 3ch (forms 1st dc)" is worked.
    if (!led && found.size() == 1 && found.front().what == Declared::What::chains &&
        tokens_[*behind].kind == TokenKind::open)
        return false;
    const auto kind = tokens_[*behind].kind;
    const bool ends = kind == TokenKind::semicolon && tokens_[*behind + 1].kind == TokenKind::end;
    if (kind != TokenKind::end && kind != TokenKind::full_stop && kind != TokenKind::dash &&
        !ends && !(marked && kind == TokenKind::open))
        return false;
    body_.declared.insert(body_.declared.end(), found.begin(), found.end());
    next_ = *behind;
    return true;
}

/// "rep from * 87 stitches", "rep from * across 9 sc and 8 ch-1 sps": nothing more can be worked
/// behind a repeat to the end, so what stands there counts.
void Grammar::count_behind(bool to_the_end) {
    if (!to_the_end || !is(TokenKind::number)) return;
    std::vector<Declared> found;
    const auto behind = declared_list(next_, true, found);
    if (!behind ||
        (tokens_[*behind].kind != TokenKind::end && tokens_[*behind].kind != TokenKind::full_stop))
        return;
    body_.declared.insert(body_.declared.end(), found.begin(), found.end());
    next_ = *behind;
}

/// Whether a chain of so many stands in the row so far.
bool Grammar::begins_with_chain(std::int64_t chains) const {
    const auto chain = [&](const Token& token) { return among(token, {"ch", "chain"}); };
    for (std::size_t i = begin_; i + 1 < next_; ++i) {
        const bool before = chain(tokens_[i]) && tokens_[i + 1].kind == TokenKind::number &&
                            tokens_[i + 1].value == chains;
        const bool behind = tokens_[i].kind == TokenKind::number && tokens_[i].value == chains &&
                            chain(tokens_[i + 1]);
        if (before || behind) return true;
    }
    return false;
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
        if (is(TokenKind::number) && is(TokenKind::word, 1)) {  // "24 2dc-cl"
            const std::int64_t legs = peek().value;
            ++next_;
            const auto cluster = cluster_name(legs);
            if (!cluster) return give_up();
            declared.what = Declared::What::kind;
            declared.kind = *cluster;
            declared.name = book_->at(*cluster).name;
        } else if (take(stitch_words)) {
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
            // "(1 sc dec each row)" is no count of the row
            if (any_of({"dec", "inc", "decreased", "increased", "dec'd", "inc'd"}))
                declared.what = Declared::What::other;
        } else if (!kinds_too) {
            return give_up();
        }
        // "25 sts in all", "12 sts on needle", "5 shells made"
        for (int words = 0; words < 9 && is(TokenKind::word) && !any_of({"and"}); ++words) {
            // "7 tr in last ch-7 sp." is worked.
            const bool told = any_of({"all", "total", "ring", "row", "round", "rnd"}, 1) ||
                              (any_of({"the", "this", "each", "your"}, 1) &&
                               any_of({"ring", "row", "round", "rnd", "side"}, 2)) ||
                              (any_of({"on"}) && !any_of({"next", "each"}, 1));
            if (at_place() && !told) return give_up();
            if (words >= 4 && declared.what != Declared::What::other) break;
            ++next_;
        }
        // "(12 dc + ch3)": the chain that counts as one
        if (any_of({"and"}) && is(TokenKind::word, 1) && space_word(peek(1).text) &&
            peek(1).text.find("sp") == std::string_view::npos &&
            (is(TokenKind::close, 2) || is(TokenKind::end, 2))) {
            ++declared.count;
            next_ += 2;
        }
        // "(12 tr + 3 ch)": the chain that the round began with
        if (any_of({"and"}) && is(TokenKind::number, 1) && any_of(chain_words, 2) &&
            (is(TokenKind::close, 3) || is(TokenKind::end, 3)) &&
            declared.what == Declared::What::kind && begins_with_chain(peek(1).value)) {
            ++declared.count;
            next_ += 3;
        }
        // "(4 hdc, 6 dc and 4 hdc)": in the order they stand in
        const auto same = std::find_if(out.begin(), out.end(), [&](const Declared& one) {
            return one.what == Declared::What::kind && declared.what == one.what &&
                   one.kind == declared.kind && one.name == declared.name;
        });
        if (same != out.end() && book_->craft() == Craft::crochet)
            same->count += declared.count;
        else
            out.push_back(std::move(declared));
        if (any_of({"and"}) && any_of({"turning", "tch", "t-ch", "beg"}, 1))  // "8 dc + turning ch"
            while (is(TokenKind::word)) ++next_;
    } while ((is(TokenKind::comma) && ++next_) ||
             (is(TokenKind::semicolon) && !is(TokenKind::end, 1) && ++next_) || any_of({"and"}));
    const std::size_t behind = std::exchange(next_, before);
    return behind;
}

/// "(V-st made)"
bool Grammar::ends_with_made() const {
    std::size_t by = 1;
    while (is(TokenKind::word, by) || is(TokenKind::number, by)) ++by;
    return is(TokenKind::close, by) && any_of({"made", "completed", "complete"}, by - 1);
}

/// "(notice that all odd rows are plain)", "(this is the right side)": a bracket that begins as
/// prose does and names no number of stitches or rows.
bool Grammar::told_note() {
    if (book_->craft() != Craft::knit || !is(TokenKind::word, 1) || !has(Role::prose, 1))
        return false;
    std::size_t to = next_ + 1;
    bool describes = false;
    for (; tokens_[to].kind != TokenKind::close; ++to) {
        const Token& token = tokens_[to];
        describes = describes || token.text == "will" || token.text == "should";
        if (token.kind == TokenKind::end || token.kind == TokenKind::open ||
            token.kind == TokenKind::star ||
            (token.kind == TokenKind::number && to > next_ + 2 &&
             !(describes && any_of({"this"}, 1))))
            return false;
        if (token.kind == TokenKind::word &&
            (has_role(token.text, Role::work) ||
             token.text.find_first_of("0123456789") != std::string_view::npos))
            return false;
    }
    if (to < next_ + 4 || (is(TokenKind::number, 2) && !describes)) return false;
    SetAside told{SetAside::Why::remark, peek(1).at, {}};
    for (std::size_t i = next_ + 1; i < to; ++i)
        told.words += (i == next_ + 1 ? "" : " ") + std::string(tokens_[i].text);
    body_.aside.push_back(std::move(told));
    next_ = to + 1;
    return true;
}

/// A bracket of prose or lengths: "(25 cm)", "(I went with the length of my hand)", "(C1)".
bool Grammar::prose_note() {
    if (told_note()) return true;
    std::size_t to = next_ + 1;
    bool words = false;
    bool lengths = false;
    for (; tokens_[to].kind != TokenKind::close; ++to) {
        const Token& token = tokens_[to];
        if (token.kind == TokenKind::end || token.kind == TokenKind::open ||
            token.kind == TokenKind::number)
            return false;
        if (token.kind == TokenKind::length) lengths = true;
        if (token.kind != TokenKind::word) continue;
        words = true;
        const bool filler = has_role(token.text, Role::filler) ||
                            has_role(token.text, Role::joining) || token.text == "i" ||
                            token.text == "or";
        if (!filler && (book_->find(token.text) || has_role(token.text, Role::work) ||
                        has_role(token.text, Role::manner)))
            return false;
        // "(k2)", "(inc)"
        if (!filler && token.text.find_first_of("0123456789") != std::string_view::npos &&
            !token.text.starts_with("c"))
            return false;
    }
    if (!words && !lengths) return false;
    if (to == next_ + 1) return false;
    // One word may be a stitch of the pattern's own.
    if (!lengths && to == next_ + 2 && peek(1).text.size() > 2 &&
        !any_of({"optional", "back",   "front", "sleeve", "body", "thumb",  "palm",
                 "instep",   "heel",   "side",  "sides",  "toe",  "ankle",  "neck",
                 "bottom",   "crown",  "bib",   "wrist",  "sole", "border", "edge",
                 "center",   "centre", "top",   "brim",   "cuff"},
                1))
        return false;
    const std::size_t before = next_;
    next_ = to + 1;
    if (at_place() || how_often() || any_of({"across", "around", "to", "rep", "repeat"})) {
        next_ = before;
        return false;
    }
    next_ = to;
    set_aside(before + 1, SetAside::Why::remark);
    next_ = to + 1;
    return true;
}

/// "(a solid mesh)", "(an open mesh)": what was worked is called so.
bool Grammar::called_note() const {
    if (!any_of({"a", "an", "one"}, 1)) return false;
    std::size_t by = 2;
    while (is(TokenKind::word, by) && by < 5) ++by;
    return is(TokenKind::close, by) &&
           (any_of({"mesh", "picot", "point", "side"}, by - 1) || has(Role::group, by - 1));
}

/// "(there are 10 groups in this row)", "(working in spiral)": a bracket that says how it is, and
/// works nothing. Passes it.
bool Grammar::describes(std::size_t close) {
    const bool instead = any_of({"or", "alternatively"}, 1);
    const bool tells = any_of({"there", "you", "we"}, 1) &&
                       any_of({"are", "is", "will", "should", "have", "can", "may", "do"}, 2);
    const bool manner = any_of({"working", "work"}, 1) &&
                        any_of({"in", "on", "into", "through", "from", "as"}, 2) && [&] {
                            for (std::size_t i = next_ + 1; i < close; ++i)
                                if (tokens_[i].kind == TokenKind::number ||
                                    (i > next_ + 1 && (book_->find(tokens_[i].text) ||
                                                       has_role(tokens_[i].text, Role::work))))
                                    return false;
                            return true;
                        }();
    if (!tells && !manner && !instead) return false;
    SetAside told{SetAside::Why::remark, peek(1).at, {}};
    for (std::size_t i = next_ + 1; i < close; ++i)
        told.words += (i == next_ + 1 ? "" : " ") + std::string(tokens_[i].text);
    body_.aside.push_back(std::move(told));
    next_ = close + 1;
    return true;
}

/// A bracket that is no instruction: "(RS)", "(counts as dc)", "(mark this st)".
bool Grammar::remark_note(std::vector<Item>& out) {
    // "(or: ch 2, 6 sc in 2nd ch from hook)": another way to begin
    if (book_->craft() == Craft::crochet && any_of({"or"}, 1)) {
        std::size_t close = next_ + 1;
        bool base = false;
        while (tokens_[close].kind != TokenKind::close && tokens_[close].kind != TokenKind::end &&
               tokens_[close].kind != TokenKind::open) {
            base = base || among(tokens_[close], {"hook", "ring", "circle", "loop"});
            ++close;
        }
        if (base && tokens_[close].kind == TokenKind::close) {
            SetAside told{SetAside::Why::remark, peek(1).at, {}};
            for (std::size_t i = next_ + 1; i < close; ++i)
                told.words += (i == next_ + 1 ? "" : " ") + std::string(tokens_[i].text);
            body_.aside.push_back(std::move(told));
            next_ = close + 1;
            return true;
        }
    }
    // "(make sure to work dc into the hump of the ch)"
    if (book_->craft() == Craft::crochet && any_of({"make", "be"}, 1) &&
        any_of({"sure", "careful"}, 2)) {
        std::size_t close = next_ + 1;
        while (tokens_[close].kind == TokenKind::word) ++close;
        if (tokens_[close].kind == TokenKind::close) {
            SetAside told{SetAside::Why::remark, peek(1).at, {}};
            for (std::size_t i = next_ + 1; i < close; ++i)
                told.words += (i == next_ + 1 ? "" : " ") + std::string(tokens_[i].text);
            body_.aside.push_back(std::move(told));
            next_ = close + 1;
            return true;
        }
    }
    if (!any_of(
            {"rs",     "ws",        "right",    "wrong", "counts", "to",    "is",      "equals",
             "as",     "count",     "counting", "does",  "do",     "first", "skipped", "made",
             "see",    "note",      "now",      "mark",  "mc",     "cc",    "main",    "here",
             "beg",    "beginning", "turning",  "this",  "these",  "ch",    "ch-2",    "ch-3",
             "ch-4",   "odd",       "even",     "the",   "it",     "for",   "not",     "optional",
             "color",  "colour",    "multiple", "mult",  "forms",  "form",  "makes",   "represents",
             "stands", "acts",      "ch-1",     "ch-5",  "ch-6",   "1st",   "repeat",  "adjust",
             "if",     "which",     "there",    "you",   "we",     "work",  "working"},
            1) &&
        !ends_with_made() && !called_note())
        return prose_note();
    std::size_t to = next_ + 1;
    const bool all = any_of({"if"}, 1);
    for (std::int64_t depth = 0; tokens_[to].kind != TokenKind::end; ++to) {
        if (tokens_[to].kind == TokenKind::close && depth-- == 0) break;
        if (tokens_[to].kind == TokenKind::open && !all) break;
        if (tokens_[to].kind == TokenKind::open) ++depth;
    }
    if (tokens_[to].kind != TokenKind::close) return false;
    const auto note = turning_note(next_ + 1, to);
    if (!note && describes(to)) return true;
    if (!note && any_of({"ch", "ch-2", "ch-3", "ch-4", "first", "beg"}, 1)) return false;
    if (!note) {
        const std::size_t from = next_ + 1;
        if (ends_with_made()) name_made(from, to - 1, out);
        next_ = to;
        set_aside(from, SetAside::Why::remark);
        next_ = to + 1;
        return true;
    }
    next_ = to + 1;
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
        if (any_of({"count", "counts", "counting", "counted", "forms", "represents", "stands",
                    "acts"}) ||
            (next_ == from && any_of({"is", "equals", "as", "form", "makes"}))) {
            told = true;
        } else if (any_of({"throughout", "here"})) {
            note.throughout = true;
        } else if (told && is(TokenKind::number) &&
                   any_of(chain_words, is(TokenKind::dash, 1) ? 2 : 1)) {
            note.chains = peek().value;  // "(counts as 1 tr, 1 ch)"
            next_ += is(TokenKind::dash, 1) ? 2U : 1U;
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
