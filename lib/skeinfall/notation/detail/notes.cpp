// What stands beside the stitches of a row: declared counts, remarks, joining, turning.

#include <algorithm>
#include <cstdint>
#include <utility>

#include "skeinfall/notation/detail/grammar.hpp"
#include "skeinfall/notation/detail/words.hpp"

namespace skeinfall::notation {
namespace {

/// "k" of "k4".
std::string_view without_digits(std::string_view word) {
    while (!word.empty() && word.back() >= '0' && word.back() <= '9') word.remove_suffix(1);
    return word;
}

}  // namespace

/// Whether one of the words stands before the next separator or bracket.
bool Grammar::region_has(Words words) const {
    for (std::size_t by = 0; is_words(by); ++by)
        if (any_of(words, by)) return true;
    return false;
}

/// Whether a word of a remark may be work that is not followed.
bool Grammar::carries_work(std::size_t token, SetAside::Why why) const {
    if (why == SetAside::Why::finishing) return false;
    const Token& word = tokens_[token];
    // "100 more rows"
    if (text_is(word, {"more", "further", "additional", "extra", "another"}) &&
        text_is(tokens_[std::min(token + 1, last_)], {"rows", "rounds", "rnds", "row", "round"}))
        return true;
    if (word.kind == TokenKind::number) {
        const Token& behind = tokens_[std::min(token + 1, last_)];
        return behind.kind == TokenKind::word &&
               (behind.text.starts_with("row") ||
                (why == SetAside::Why::tool && behind.text.starts_with("st")) ||
                behind.text.starts_with("rnd") || behind.text.starts_with("round") ||
                book_->find(behind.text).has_value());
    }
    // "ch 3 after every st"
    const Token& behind = tokens_[std::min(token + 1, last_)];
    if ((word.text == "after" || word.text == "before") &&
        (behind.text == "every" || behind.text == "each"))
        return true;
    // "sc2tog at beginning and end of row"
    if (book_->craft() == Craft::crochet && text_is(word, {"beginning", "beg", "start"}) &&
        behind.text == "and")
        for (std::size_t by = 2; by < 5; ++by)
            if (tokens_[std::min(token + by, last_)].text == "end") return true;
    return word.kind == TokenKind::word && has_role(word.text, Role::work);
}

/// What stands between token `from` and the cursor holds no work, or is a fault.
void Grammar::set_aside(std::size_t from, SetAside::Why why) {
    if (from >= next_) return;
    SetAside aside;
    aside.why = why;
    aside.at = tokens_[from].at;
    for (std::size_t i = from; i < next_; ++i) {
        if (carries_work(i, why))
            fail(tokens_[i].at,
                 "\"" + std::string(tokens_[i].text) + "\" stands in a remark and may be work",
                 "stitches, or a remark without work",
                 "Write it as a sentence or a row of its own, or take it out.");
        if (!aside.words.empty()) aside.words += ' ';
        aside.words += tokens_[i].text;
    }
    body_.aside.push_back(std::move(aside));
}

/// Whether a stitch stands here, of one word or two: "cast on".
bool Grammar::at_stitch() const {
    if (!is(TokenKind::word)) return false;
    if (book_->find(peek().text)) return true;
    if (!is(TokenKind::word, 1) || !book_->begins_long_name(peek().text)) return false;
    return book_->find(std::string(peek().text) + " " + std::string(peek(1).text)).has_value();
}

/// Passes over words and numbers up to a separator or a bracket.
void Grammar::pass_words(SetAside::Why why) {
    const std::size_t from = next_;
    while (is_words()) {
        if (why == SetAside::Why::tool && next_ > from && at_stitch()) break;
        ++next_;
    }
    set_aside(from, why);
}

/// The same, but not over a stitch.
bool Grammar::stitch_behind_stop() const {
    return stitch_ahead(1) ||
           (is(TokenKind::word, 1) && book_->find(without_digits(peek(1).text)).has_value() &&
            peek(1).text.find_first_of("0123456789") != std::string_view::npos);
}

void Grammar::pass_remark(SetAside::Why why) {
    const std::size_t from = next_;
    while (is_words()) {
        if (why != SetAside::Why::finishing && next_ > from && at_stitch()) break;
        ++next_;
    }
    set_aside(from, why);
}

/// Joining closes a round or takes up a yarn. Only words that belong to it are taken.
void Grammar::join_item(std::vector<Item>& out, std::uint32_t at) {
    Item item;
    item.at = at;
    item.what = Item::Do::join;
    const std::size_t from = next_;
    if (region_has({"needle", "needles", "hand"}) && any_of({"join", "joining"})) {
        pass_words(SetAside::Why::joining);  // "Join by working the first st on left needle ..."
        out.push_back(std::move(item));
        return;
    }
    bool placed = false;  // a stitch behind "to", "in" names its place
    while (!fault_) {
        if (any_of({"ring", "circle"}) && !any_of({"magic"}, 1) && book_->craft() == Craft::crochet)
            item.what = Item::Do::ring;
        if (any_of({"with", "by"})) {
            ++next_;
            take({"a", "an", "the"});
            if (any_of({"color", "colour"}) && is(TokenKind::word, 1)) {  // "join with colour B"
                next_ += 2;
                continue;
            }
            const auto named = stitch_name();
            if (named && named->kind != book_->slip_stitch() &&
                book_->craft() == Craft::crochet) {  // "join yarn with sc in first st"
                item.what = Item::Do::work;
                item.kind = named->kind;
                item.spot.which = Spot::Which::first;
                slips_ = false;
                if (at_place()) {  // "in any ch-1 sp"
                    const auto spot = place();
                    if (!spot) break;
                    item.spot = *spot;
                    if (item.spot.which == Spot::Which::next) item.spot.which = Spot::Which::first;
                    break;
                }
            }
            continue;
        }
        if (any_of({"to", "in", "into", "of", "first", "1st", "last", "same"})) placed = true;
        if (is(TokenKind::ordinal) || (is(TokenKind::word) && space_word(peek().text)) ||
            (is(TokenKind::number) && next_ > from &&
             any_of({"ch", "chain", "chains", "beg", "beginning"}) == false &&
             (tokens_[next_ - 1].text == "ch" || tokens_[next_ - 1].text == "chain" ||
              any_of({"ch", "chain", "chains"}, 1)))) {
            ++next_;
            continue;
        }
        if (is(TokenKind::dash) && is(TokenKind::number, 1) && next_ > from &&
            (tokens_[next_ - 1].text == "ch" || tokens_[next_ - 1].text == "chain")) {
            next_ += 2;
            continue;
        }
        if (any_of({"work", "working", "in", "to", "for"}) && next_ > from &&
            (book_->find(peek(1).text).has_value() && !any_of({"st", "the", "first"}, 1)) &&
            any_of({"work", "working"}))
            break;
        if (has(Role::joining)) {
            ++next_;
            continue;
        }
        if (is(TokenKind::word) && (placed || next_ == from || tokens_[next_ - 1].text == "a")) {
            const bool first = next_ > from && (tokens_[next_ - 1].text == "first" ||
                                                tokens_[next_ - 1].text == "1st");
            if (const auto named = stitch_name()) {
                if (first && item.what == Item::Do::join) {  // "join to first dc"
                    item.spot.which = Spot::Which::first;
                    item.spot.unit = {Unit::Of::kind, named->kind, 0};
                }
                continue;
            }
        }
        break;
    }
    if (next_ == from && !fault_) ++next_;
    out.push_back(std::move(item));
}

std::optional<std::pair<std::int64_t, TurningNote>> Grammar::note() {
    for (; !is(TokenKind::end); ++next_) {
        std::optional<std::int64_t> chains;
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

/// "magic ring", "mr", "adjustable loop".
bool Grammar::ring_words() {
    const std::size_t before = next_;
    take({"a", "an", "the", "your"});
    if (take({"mr"})) return true;
    if (take({"magic", "adjustable", "sliding", "double"})) {
        if (take({"ring", "circle", "loop", "rings"})) {
            if (is(TokenKind::slash) && any_of({"ring", "circle", "loop"}, 1)) next_ += 2;
            return true;
        }
        if (tokens_[next_ - 1].text == "magic") return true;
    }
    if (take({"ring", "circle"})) {
        if (is(TokenKind::slash) && any_of({"ring", "circle", "loop"}, 1)) next_ += 2;
        return true;
    }
    next_ = before;
    return false;
}

/// "center of ring"
bool Grammar::pass_ring_centre() {
    while (!take({"ring", "circle"})) ++next_;
    return true;
}

/// "make a magic ring", "form a ring", "start with mr". Nothing is taken for others.
bool Grammar::ring_item(std::vector<Item>& out) {
    const std::size_t before = next_;
    Item item;
    item.at = peek().at;
    item.what = Item::Do::ring;
    while (take({"make", "making", "create", "form", "start", "starting", "begin", "beginning",
                 "with", "using", "in", "to", "into"})) {
    }
    const bool led = next_ > before;
    const bool in = led && (tokens_[next_ - 1].text == "in" || tokens_[next_ - 1].text == "into");
    if (!ring_words() || in ||
        (!led && tokens_[next_ - 1].text != "mr" && !tokens_[before].text.starts_with("magic") &&
         !tokens_[before].text.starts_with("adjust") && !tokens_[before].text.starts_with("slid") &&
         tokens_[before].text != "a")) {
        next_ = before;
        return false;
    }
    out.push_back(std::move(item));
    return true;
}

/// "starting in 2nd ch from hook"
bool Grammar::start_item(std::vector<Item>& out) {
    if (!any_of({"starting", "start", "beginning", "begin", "beg"}) ||
        !any_of({"in", "with", "from", "at"}, 1))
        return false;
    const std::size_t before = next_;
    next_ += 2;
    take({"the"});
    Spot spot;
    if (ordinal_place(spot) && spot.which == Spot::Which::from_hook) {
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
    if (!fault_) next_ = before;
    return false;
}

/// Markers: placed, passed, taken out.
bool Grammar::marker_item(std::vector<Item>& out) {
    Item item;
    item.at = peek().at;
    const auto give = [&](Item::Do what, std::size_t words) {
        next_ += words;
        item.what = what;
        out.push_back(item);
        if (is(TokenKind::open) && any_of({"pm", "sm", "rm", "m"}, 1) && is(TokenKind::close, 2))
            next_ += 3;  // "place marker (pm)"
        return true;
    };
    const Words marker{"marker", "markers", "m", "mkr", "sm", "pin"};
    const bool knit = book_->craft() == Craft::knit;
    if (any_of({"pm"})) {
        give(Item::Do::marker, 1);
        if (knit && any_of({"of", "for", "to"}) && !fault_) pass_remark(SetAside::Why::remark);
        return true;
    }
    if (any_of({"sm"}) && knit) return give(Item::Do::at_marker, 1);
    if (any_of({"rm"})) return give(Item::Do::drop_marker, 1);
    std::size_t by = 1;
    while (any_of({"a", "the", "stitch", "st", "next", "end", "rnd", "of", "first", "safety", "pin",
                   "or", "other", "split", "ring", "locking"},
                  by) &&
           by < 9 && !any_of({"marker", "markers"}, by))
        ++by;
    if (!any_of(marker, by)) return false;
    if (any_of({"slip", "sl", "pass"})) return give(Item::Do::at_marker, by + 1);
    if (any_of({"remove", "removing"})) return give(Item::Do::drop_marker, by + 1);
    if (!any_of({"place", "placing", "put", "insert", "move", "add"})) return false;
    if (knit && !any_of({"move"}))
        give(Item::Do::marker, by + 1);
    else
        next_ += by + 1;
    if (knit && any_of({"for", "at", "to", "in"})) pass_remark(SetAside::Why::remark);
    if (!knit) pass_words(SetAside::Why::remark);
    return true;
}

/// "leaving the rest unworked": by design. "leaving a tail" is finishing.
bool Grammar::leave_item(std::vector<Item>& out) {
    if (!any_of({"leave", "leaving"})) return false;
    Item item;
    item.at = peek().at;
    item.what = Item::Do::unworked;
    if (!region_has({"unworked", "unworked.", "rem", "remaining", "rest"})) {
        pass_words(SetAside::Why::finishing);
        return true;
    }
    item.count = 0;
    const std::size_t from = next_;
    const auto left = [&] {  // "sc in every st, leave last 4 sts unworked"
        if (item.count > 0 && !out.empty() && out.back().spot.which == Spot::Which::each &&
            out.back().spot.keep == 0 && book_->craft() == Craft::crochet)
            out.back().spot.keep = item.count;
    };
    while (is_words()) {
        if (is(TokenKind::number)) item.count = peek().value;
        if (take({"unworked"})) break;
        ++next_;
    }
    if (next_ == from) ++next_;
    left();
    out.push_back(std::move(item));
    return true;
}

/// "k 5 for border", "k 28 for the back": what the stitches become.
bool Grammar::purpose_note() {
    if (book_->craft() != Craft::knit || !any_of({"for", "along", "as"}) || next_ == begin_)
        return false;
    std::size_t by = 1;
    while (
        any_of({"the", "a", "an", "your", "left", "right", "top", "bottom", "first", "second",
                "garter", "ribbed", "main", "side", "front", "back", "center", "centre", "stitch"},
               by))
        ++by;
    if (is(TokenKind::word, by) &&
        any_of({"leg",    "arm",      "head",    "hand",       "foot",   "tail",   "ear",
                "border", "borders",  "edge",    "edges",      "edging", "sleeve", "body",
                "thumb",  "palm",     "instep",  "heel",       "sole",   "gusset", "band",
                "hem",    "cuff",     "brim",    "collar",     "neck",   "raglan", "underarm",
                "panel",  "selvedge", "selvage", "buttonhole", "seam"},
               by))
        ++by;
    if (by == 1 || is_words(by)) return false;
    const std::size_t from = next_;
    next_ += by;
    set_aside(from, SetAside::Why::remark);
    return true;
}

/// Words that are no stitches but are understood. False, and nothing taken, for others.
bool Grammar::aside(std::vector<Item>& out) {
    using Why = SetAside::Why;
    Item item;
    item.at = peek().at;
    if ((any_of({"do"}) && any_of({"not"}, 1)) || any_of({"don't"})) {
        next_ += any_of({"do"}) ? 2U : 1U;
        if (take({"turn", "join"})) return true;
        pass_remark(Why::remark);
        return true;
    }
    if (book_->craft() == Craft::crochet && take({"beside-sp"})) {
        body_.beside = true;
        return true;
    }
    if (take({"turn", "turning"})) {
        take({"work", "your"});
        item.what = Item::Do::turn;
        out.push_back(std::move(item));
        return true;
    }
    if (any_of({"join", "joining", "close", "connect"}) ||
        (any_of({"loop"}) && any_of({"to"}, 1) && any_of({"make", "form"}, 2))) {
        join_item(out, item.at);
        return true;
    }
    if (ring_item(out) || start_item(out) || marker_item(out) || leave_item(out)) return true;
    if (alternate_item(out) || loops_note()) return true;
    if (fault_) return false;
    if (any_of({"working", "work"}) && any_of({"last", "final", "over"}, 1)) {
        // "working last st in top of turning chain", "working over the tail"
        pass_words(any_of({"over"}, 1) ? Why::remark : Why::place);
        return true;
    }
    if (any_of({"working", "work", "worked"}) && any_of({"in"}, 1) &&
        region_has({"rounds", "rnds", "spiral", "loops", "loop", "lps", "blo", "flo"}) &&
        !is(TokenKind::number, 2)) {
        pass_words(Why::place);  // "working in back loops only", "work in continuous rounds"
        return true;
    }
    if (any_of({"work", "working", "continue", "continuing", "on", "along", "now", "rotate",
                "rotating"}) &&
        region_has({"opposite", "other"}) && region_has({"side"})) {
        while (!any_of({"side"})) ++next_;
        ++next_;
        if (take({"of"})) {
            take({"the"});
            take({"foundation", "base", "beg", "beginning", "starting"});
            take({"ch", "chain", "chs", "chains"});
        }
        item.what = Item::Do::opposite;
        out.push_back(std::move(item));
        return true;
    }
    if (instead_ > 0 && next_ == instead_) {
        next_ = std::exchange(instead_end_, 0);
        instead_ = 0;
        return true;
    }
    if (any_of({"ending", "end"}) && instead_item(out)) return true;
    if (fault_) return false;
    if (any_of({"ending", "end"}) &&
        (any_of({"with", "by", "in"}, 1) ||
         (any_of({"last"}, 1) && any_of({"rep", "repeat"}, 2) && any_of({"with", "by"}, 3)) ||
         (is(TokenKind::word, 1) && book_->find(without_digits(peek(1).text)).has_value()))) {
        ++next_;
        if (any_of({"last"}) && any_of({"rep", "repeat"}, 1)) next_ += 2;
        take({"with", "by", "in"});
        take({"a", "an"});
        take({"complete", "full"});
        if (any_of({"rs", "ws", "right", "wrong", "row", "rnd", "round"}))
            pass_words(Why::remark);
        else if (!out.empty() && out.back().what == Item::Do::repeat)
            out.back().partial = out.back().extent.until == Extent::Until::to_end;
        return true;
    }
    if (any_of({"or"}) && book_->craft() == Craft::crochet && !out.empty() &&
        out.back().what == Item::Do::work && (is(TokenKind::number, 1) || stitch_ahead(1))) {
        fail(peek().at, "the pattern leaves the stitch to you", "one of them",
             "Take out the one that you do not work.");
        return false;
    }
    if (fabric_item(out)) return true;
    if (any_of({"evenly", "even"})) {
        fail(peek().at,
             "\"" + std::string(peek().text) + "\" does not say which stitches, or how many",
             "the stitches",
             "Write them out, like: sc in each st across; or: dec 4 sts evenly across.");
        return false;
    }
    if (any_of({"with", "using"}) && region_has({"hook", "needle", "needles", "method", "front",
                                                 "back", "side", "facing", "dpns", "dpn"})) {
        pass_words(Why::tool);  // "with a 5 mm hook", "with yarn in front"
        return true;
    }
    if (book_->craft() == Craft::knit && !is(TokenKind::number, 1) &&
        region_has({"sew", "sewing", "seam", "seams", "weave"}) && !at_stitch()) {
        pass_words(Why::finishing);  // "continue to sew back seam"
        return true;
    }
    const bool cast_on = !out.empty() && out.back().what == Item::Do::work &&
                         book_->at(out.back().kind).name == "CO";
    if (cast_on &&
        ((any_of({"using", "with"}) && region_has({"cast", "method", "cast-on", "technique"})) ||
         (any_of({"in", "using", "per", "as", "by", "which", "very", "loosely", "over", "across",
                  "following", "above"}) &&
          !is(TokenKind::number, 1) &&
          !region_has({"k", "p", "knit", "purl", "rib", "row", "rows", "round", "rounds", "rnd",
                       "multiples"})))) {
        const std::size_t from = next_;
        while (is_words()) ++next_;
        set_aside(from, Why::tool);
        return true;
    }
    if (purpose_note()) return true;
    if (book_->craft() == Craft::knit && any_of({"yarn", "color", "colour", "shade"}) &&
        is(TokenKind::word, 1) && peek(1).text.size() == 1 && !book_->find(peek(1).text)) {
        next_ += 2;  // "and yarn A"
        set_aside(next_ - 2, Why::tool);
        return true;
    }
    if (any_of({"on", "onto", "over"}) && region_has({"needle", "needles", "dpns", "dpn"})) {
        pass_words(Why::tool);  // "on a needle"
        return true;
    }
    if (any_of({"with", "using", "in"}) && is(TokenKind::open, 1)) {  // "with (C1)"
        ++next_;
        if (prose_note()) return true;
        if (fault_) return false;
        --next_;
    }
    if (any_of({"with", "using", "in"})) {  // "in the main color"
        const std::size_t by = any_of({"the"}, 1) ? 2 : 1;
        if (any_of({"main", "contrast", "contrasting"}, by) &&
            any_of({"color", "colour", "yarn"}, by + 1)) {
            const std::size_t from = next_;
            next_ += by + 2;
            set_aside(from, Why::tool);
            return true;
        }
    }
    if (any_of({"with", "using", "in"}) && any_of({"color", "colour"}, 1) && is_words(2)) {
        const std::size_t from = next_;
        next_ += 3;
        set_aside(from, Why::tool);
        return true;
    }
    if (region_has({"follows"})) {  // "now work ribbing as follows:"
        const std::size_t from = next_;
        while (!take({"follows"})) ++next_;
        SetAside told{Why::remark, tokens_[from].at, {}};
        for (std::size_t i = from; i < next_; ++i)
            told.words += (i == from ? "" : " ") + std::string(tokens_[i].text);
        body_.aside.push_back(std::move(told));
        return true;
    }
    if (any_of({"with", "using"}) && is(TokenKind::word, 1)) {  // "with MC", "with color A"
        const std::size_t from = next_++;
        if (book_->find(peek().text)) return true;
        if (region_has({"yarn", "strand", "strands"})) {  // "with black yarn"
            for (int words = 0; words < 5 && is_words() && !at_stitch(); ++words) {
                if (take({"yarn", "strand", "strands"})) break;
                ++next_;
            }
            set_aside(from, Why::tool);
            return true;
        }
        if (take({"color", "colour", "yarn"}) && !is(TokenKind::word)) return true;
        if (!book_->find(peek().text)) ++next_;
        take({"facing"});
        set_aside(from, Why::tool);
        return true;
    }
    if (any_of({"through", "in"}) && any_of({"back", "front", "both"}, 1) &&
        any_of({"loop", "loops", "lp", "lps"}, 2)) {
        next_ += 3;
        take({"only"});
        return true;
    }
    if (any_of({"begin", "start", "beginning", "starting"}) &&
        any_of(
            {"decreases", "decreasing", "increases", "increasing", "shaping", "decrease", "crown"},
            1) &&
        !is(TokenKind::number, 2)) {  // "Begin decreases."
        body_.aside.push_back(
            {Why::remark, peek().at, std::string(peek().text) + " " + std::string(peek(1).text)});
        next_ += 2;
        return true;
    }
    if (any_of({"finish", "complete"}) && any_of({"as", "like", "same"}, 1) &&
        !any_of({"follows", "desired", "you"}, 2)) {
        fail(peek().at, "it ends as another part does, and that part's rows are not repeated here",
             "its rows", "Write those rows once more.");
        return true;
    }
    if (has(Role::finishing)) {
        pass_remark(Why::finishing);
        while (!fault_ && is(TokenKind::comma) && has(Role::finishing, 1)) {
            ++next_;
            pass_remark(Why::finishing);
        }
        return true;
    }
    if (has(Role::remark)) {
        pass_remark(Why::remark);
        return true;
    }
    if (any_of({"off", "mc", "cc", "cc1", "cc2", "cc3"})) {
        ++next_;
        set_aside(next_ - 1, Why::tool);
        return true;
    }
    if (has(Role::filler) || has(Role::manner)) {
        ++next_;
        return true;
    }
    return false;
}

}  // namespace skeinfall::notation
