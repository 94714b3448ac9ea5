// Rows that come again: which ones, how often, how long.

#include "skeinfall/notation/detail/label_reader.hpp"

namespace skeinfall::notation {

/// "rep rows 1 and 2 in pattern", "as row 2", "rep last 2 rows 10 times".
void LabelReader::again() {
    const std::size_t before = next_;
    std::size_t yarn = 0;  // "With MC - repeat row 3", of a yarn that is not known
    while (any_of({"with", "using"}) && yarn < 5 && is(TokenKind::word, yarn)) ++yarn;
    if ((is(TokenKind::dash, yarn) || (yarn > 0 && is(TokenKind::comma, yarn))) &&
        any_of({"rep", "repeat"}, yarn + 1))
        next_ += yarn + 1;
    const std::size_t at = peek().at;
    if (any_of({"then", "and"}) && any_of({"work"}, 1) && any_of({"rows", "rnds", "rounds"}, 2) &&
        is(TokenKind::number, 3))
        ++next_;
    if (any_of({"continue", "cont", "then"}) && any_of({"rep", "repeat", "repeating", "to"}, 1)) {
        ++next_;
        take({"to"});
    }
    const bool rep = take({"rep", "repeat", "repeating", "alternate", "alternating"});
    if (rep && is(TokenKind::open) && any_of({"rep"}, 1) && is(TokenKind::close, 2)) next_ += 3;
    if (!rep) {
        const bool work = take({"same", "work"});
        take({"the"});
        take({"same"});
        // "work rows 1 and 2 ten times"
        const bool rows = work && any_of({"rows", "rnds", "rounds"}) && is(TokenKind::number, 1);
        const bool named = work && any_of({"increase", "inc", "decrease", "dec"}) &&
                           any_of({"row", "rnd", "round"}, 1);
        if (!rows && !named && !take({"as", "like"})) {
            next_ = before;
            return;
        }
    }
    take({"as"});
    take({"for"});
    take({"the"});
    RowsAgain found;
    found.at = at;
    if (any_of({"first"}) && is(TokenKind::number, 1) && any_of({"of"}, 2) &&
        any_of({"last"}, 3)) {  // "repeat first 1 of last 2 rows"
        found.first_of = peek(1).value;
        next_ += 3;
    }
    if (any_of({"increase", "inc", "decrease", "dec", "pattern"}) &&
        any_of({"row", "rnd", "round"}, 1))
        ++next_;  // "repeat the increase row": the one before
    if (tokens_->size() > next_ && next_ > 0 && (any_of({"row", "rnd", "round"})) &&
        !is(TokenKind::number, 1) &&
        ((*tokens_)[next_ - 1].text.starts_with("inc") ||
         (*tokens_)[next_ - 1].text.starts_with("dec"))) {
        found.last_rows = 1;
        ++next_;
    } else if (take({"last", "previous", "prev", "these", "this", "above"})) {
        take({"last", "previous"});
        found.last_rows = 1;
        if (take({"changes"})) {
            found.as_changes = true;
            how_long(found);
            if (!*fault_) label_.again = std::move(found);
            return;
        }
        const bool these =
            (*tokens_)[next_ - 1].text == "these" || (*tokens_)[next_ - 1].text == "above";
        const bool counted = is(TokenKind::number);
        if (counted) {
            found.last_rows = peek().value;
            ++next_;
        }
        if (!any_of(row_words) && !any_of(round_words)) {
            next_ = before;
            return;
        }
        // "Repeat the above rows": all that have a number
        if (these && !counted && rep && label_.rows.empty() && any_of({"rows", "rnds", "rounds"})) {
            found.last_rows = 0;
            found.all_numbered = true;
        }
        ++next_;
    } else if (const auto named = ordinal_rows()) {
        found.rows = *named;
    } else if ((any_of(row_words) || any_of(round_words)) && is(TokenKind::number, 1)) {
        ++next_;
        plural_ = true;
        found.rows = spans();
    } else if (rep && next_ == before + 1 &&
               (any_of({"until", "till"}) ||
                (any_of({"to"}) && any_of({"last"}, 1) && is(TokenKind::number, 2) &&
                 (is(TokenKind::end, 4) || is(TokenKind::full_stop, 4))) ||
                (is(TokenKind::number) && any_of({"more", "times"}, 1)))) {
        found.all_numbered = true;  // "Repeat until 28 sts remain"
    } else if (rep && any_of({"rows", "rnds", "rounds", "pattern", "patt"}) &&
               (any_of({"until", "till", "to", "for"}, 1) || is(TokenKind::number, 1) ||
                (any_of({"pattern", "patt"}) && any_of({"twice"}, 1)))) {
        ++next_;  // "Repeat rows until it is as long as you want"
        found.all_numbered = true;
    } else {
        next_ = before;
        return;
    }
    how_long(found);
    if (!*fault_) label_.again = std::move(found);
}

void LabelReader::how_long(RowsAgain& found) {
    const bool rows_known = !label_.rows.empty();
    // "Row 3: repeat row 2 until ..." says where they begin, and not how many they are.
    const bool all_known = rows_known && !begins_at_label();
    if (!rows_known && (any_of({"every", "each"}) || any_of({"on"}) || any_of({"at"}))) {
        std::size_t at = next_ + (any_of({"on", "at"}) ? 1U : 0U);
        found.turns = schedule_of(*tokens_, at);
        if (!found.turns.empty()) next_ = at;
    }
    while (!is(TokenKind::end) && !*fault_) {
        if (is(TokenKind::open) && is(TokenKind::number, 1) && any_of({"x", "times", "time"}, 2) &&
            is(TokenKind::close, 3) && found.times == 0) {
            found.times = peek(1).value;  // "repeat row 1 (12x)"
            next_ += 4;
            continue;
        }
        if (is(TokenKind::open) && any_of({"end", "ending"}, 1) &&
            (any_of(row_words, 2) || any_of(round_words, 2)) && is(TokenKind::number, 3) &&
            is(TokenKind::close, 4)) {  // "repeat rows 2 and 3 (end row 2)"
            found.end_row = peek(3).value;
            next_ += 5;
            continue;
        }
        // "(creating 4 ribs of stitches)"
        if (is(TokenKind::open) &&
            any_of({"creating", "making", "forming", "giving", "add", "you", "adjust"}, 1)) {
            while (!is(TokenKind::end) && !is(TokenKind::close)) ++next_;
            ++next_;
            continue;
        }
        // "(11 sc)", ". Fasten off."
        if (is(TokenKind::open) || is(TokenKind::full_stop) || is(TokenKind::dash) ||
            (is(TokenKind::colon) && is(TokenKind::number, 1))) {
            label_.body = next_;
            label_.has_tail = true;
            return;
        }
        if (rows_known && is(TokenKind::comma) &&
            any_of({"join", "fasten", "finish", "turn", "changing", "change", "switching"},
                   1)) {  // "Rows 3-9: rep row 2, join"
            label_.body = next_ + 1;
            label_.has_tail = true;
            return;
        }
        if ((is(TokenKind::comma) || is(TokenKind::semicolon)) && any_of({"ch", "chain"}, 1) &&
            is(TokenKind::number, 2)) {  // "Repeat row 3; ch 4, turn"
            label_.body = next_ + 1;
            label_.has_tail = true;
            return;
        }
        if (found.times > 0 && any_of({"or"}) &&
            any_of({"until", "till", "to", "as", "about", "approximately", "approx", "for"}, 1)) {
            pass_words();  // "13 times, or until it is as long as you like"
            continue;
        }
        if (any_of({"or"}) &&
            (found.until_stitches > 0 || (found.times > 0 && is(TokenKind::length, 1)))) {
            pass_words();  // "until you have 78 sts or 14 in from the start"
            continue;
        }
        if (total_ahead(found) || (rows_known && last_row_ahead(found))) continue;
        if (any_of({"for"}) && any_of({"pattern", "patt", "pat"}, 1) &&
            (is(TokenKind::end, 2) || is(TokenKind::full_stop, 2)) && !all_known) {
            found.open_end = OpenEnd{.whole = true, .desired = true, .at = peek().at};
            next_ += 2;
            continue;
        }
        if (any_of({"for"}) && is(TokenKind::word, 1) && !all_known && found.times == 0) {
            std::size_t by = 1;  // "for horn cable"
            while (is(TokenKind::word, by) && !any_of({"row", "rows", "about", "a", "the"}, by))
                ++by;
            if (by < 5 && (is(TokenKind::end, by) || is(TokenKind::full_stop, by))) {
                found.open_end = OpenEnd{.whole = true, .desired = true, .at = peek().at};
                next_ += by;
                continue;
            }
        }
        if (any_of({"as"}) && any_of({"many", "often"}, 1)) {
            found.open_end = OpenEnd{.whole = true, .desired = true, .at = peek().at};
            pass_words();  // "as many times as you wish"
            continue;
        }
        if ((any_of({"until", "till"}) || (any_of({"to"}) && any_of({"last"}, 1))) &&
            stitches_ahead(found))
            continue;
        if (any_of({"until", "till", "for", "to"}) && length_ahead(found)) continue;
        if (any_of({"ends-at"}) && is(TokenKind::number, 1)) {  // "6 more times, ending with row 3"
            found.end_row = peek(1).value;
            next_ += 2;
            continue;
        }
        if (any_of({"end", "ending", "finishing"}) && any_of({"with", "after", "on"}, 1)) {
            std::size_t by = 2;
            while (any_of({"a", "the", "pattern", "patt"}, by)) ++by;
            if ((any_of(row_words, by) || any_of(round_words, by)) && is(TokenKind::number, by + 1))
                found.end_row = peek(by + 1).value;
        }
        if (any_of({"increasing", "decreasing", "creating", "forming"}) ||
            ((all_known || found.until_row > 0) && any_of({"or"})) ||
            (any_of({"end", "ending"}) && any_of({"with", "after", "on"}, 1)) ||
            // The label says how many.
            (all_known && any_of({"until", "till"}) && !any_of(row_words, 1))) {
            pass_words();
        } else if (is(TokenKind::number) && (any_of(row_words, 1) || any_of(round_words, 1)) &&
                   !all_known) {
            found.for_rows = peek().value;
            next_ += 2;
        } else if (is(TokenKind::number) && found.times > 0 &&
                   any_of({"st", "sts", "stitches"}, 1)) {
            label_.body = next_;  // "10 more times 64 sts"
            label_.has_tail = true;
            return;
        } else if (is(TokenKind::number)) {
            found.times = peek().value;
            const std::size_t at = peek().at;
            ++next_;
            bool said = take({"more"});
            said = take({"times", "time", "x"}) || said;
            said = take({"more"}) || said;
            if (!said)
                fail(at, "it is not clear what this number means", "\"times\" behind it",
                     "Write it like: rep rows 1 and 2 10 more times.");
        } else if (any_of({"one"}) &&
                   (any_of({"time"}, 1) || (any_of({"more"}, 1) && any_of({"time"}, 2)))) {
            found.times = 1;
            next_ += any_of({"more"}, 1) ? 3U : 2U;
        } else if (is(TokenKind::colon) && is(TokenKind::end, 1)) {
            ++next_;  // "as round 2:"
        } else if (any_of({"once", "twice"})) {
            found.times = any_of({"once"}) ? 1 : 2;
            ++next_;
            take({"more"});
        } else if (any_of({"until", "till", "through", "to", "for"}) && until(found)) {
            continue;
        } else if (any_of({"in",      "for", "about",  "approximately", "more",     "pattern",
                           "patt",    "pat", "as",     "established",   "est",      "alternately",
                           "the",     "of",  "stitch", "sequence",      "together", "another",
                           "further", "a"}) ||
                   is(TokenKind::comma) || is(TokenKind::semicolon)) {
            ++next_;
        } else if (any_of({"until", "till"})) {
            fail(peek().at, "this does not say how many rows are worked", "a number of rows",
                 "Write the rows in the label, like: Rows 3-96: rep rows 1 and 2.");
        } else {
            fail(peek().at, "this part of the repeat is not understood",
                 "\"in pattern\", \"10 more times\" or \"until row 96\"",
                 "Write the rows in the label, like: Rows 3-96: rep rows 1 and 2.");
        }
    }
}

/// "Rows 5-20: rep rows 2-4 five more times, then row 2 once": the label says as much.
bool LabelReader::last_row_ahead(RowsAgain& found) {
    std::size_t by = is(TokenKind::comma) ? 1 : 0;
    if (!any_of({"then", "ending"}, by)) return false;
    ++by;
    if (any_of({"with", "rep", "repeat", "work"}, by)) ++by;
    if ((!any_of(row_words, by) && !any_of(round_words, by)) || !is(TokenKind::number, by + 1))
        return false;
    if (found.rows.size() != 1 || label_.rows.size() != 1 ||
        found.rows.front().first != peek(by + 1).value)
        return false;
    const Span& rows = label_.rows.front();
    const std::int64_t block = found.rows.front().last - found.rows.front().first + 1;
    const std::int64_t labelled = rows.last - rows.first + 1;
    if ((labelled % block != 1 && block != 1) ||
        (found.times > 0 && found.times * block + 1 != labelled))
        return false;
    found.times = 0;  // the label says it
    next_ += by + 2;
    take({"once", "again"});
    take({"more"});
    return true;
}

/// "for a total of 4 repeats", "until there is a total of 4 repeats": the first is worked.
bool LabelReader::total_ahead(RowsAgain& found) {
    std::size_t by = 0;
    while (any_of({"for", "until", "there", "is", "are", "a", "so", "you", "have"}, by)) ++by;
    if (by == 0 || !any_of({"total"}, by) || !any_of({"of"}, by + 1) ||
        !is(TokenKind::number, by + 2) ||
        !any_of({"times", "repeats", "repetitions", "reps"}, by + 3) || peek(by + 2).value < 2)
        return false;
    found.times = peek(by + 2).value - 1;
    next_ += by + 4;
    return true;
}

/// "until 12 sts remain", "until you have 43 stitches on the needles".
bool LabelReader::stitches_ahead(RowsAgain& found) {
    std::size_t by = 1;
    while (any_of({"you", "there", "are", "have", "get", "is", "only", "last"}, by)) ++by;
    // "until 1 block remains", of blocks from corner to corner
    if (is(TokenKind::number, by) && any_of({"block", "blocks", "tile", "tiles"}, by + 1) &&
        label_.rows.empty()) {
        found.until_blocks = peek(by).value;
        next_ += by + 2;
        while (take({"remain", "remains", "remaining", "left", "is", "are", "in", "the", "row"})) {
        }
        return true;
    }
    if (!is(TokenKind::number, by) || !any_of({"st", "sts", "stitches", "stitch"}, by + 1))
        return false;
    if (!label_.rows.empty()) {
        // "3. Repeat this row until there are 44 sts": the number is that of a step
        if (!label_.bare || label_.rows.size() != 1 ||
            label_.rows.front().first != label_.rows.front().last)
            return false;
        label_.rows.clear();
        label_.what = Label::What::unlabelled;
    }
    found.until_stitches = peek(by).value;
    next_ += by + 2;
    while (any_of({"remain", "remains", "remaining", "left", "on", "the", "your", "needle",
                   "needles", "in", "total", "rem", "hook"}))
        ++next_;
    // "until 10 sts remain unwrapped in the center", "until 8 sts remain between wraps"
    if (any_of({"unwrapped", "unworked"}) ||
        (any_of({"between"}) && any_of({"wraps", "wrapped", "turns", "gaps"}, 1)) ||
        (any_of({"between"}) && any_of({"the"}, 1) &&
         any_of({"wraps", "wrapped", "turns", "gaps"}, 2))) {
        found.unwrapped = true;
        while (is(TokenKind::word) && !any_of({"then"})) ++next_;
    }
    if (any_of({"between"})) {
        std::size_t to = 1;
        while (any_of({"the", "two", "thumb", "gusset", "raglan", "side", "sleeve"}, to) ||
               is(TokenKind::number, to))
            ++to;
        if (any_of({"marker", "markers", "m", "ms", "mkrs"}, to)) {
            found.between_markers = true;
            next_ += to + 1;
            if (any_of({"for"})) pass_words();
        }
    }
    return true;
}

bool LabelReader::begins_at_label() const {
    return label_.rows.size() == 1 && label_.rows.front().first == label_.rows.front().last;
}

/// "until piece measures 20 in", "for 4 in", "to desired length".
bool LabelReader::length_ahead(RowsAgain& found) {
    std::size_t by = 1;
    OpenEnd open;
    open.whole = !any_of({"for"});
    open.at = peek().at;
    bool told = false;
    bool yarn = false;
    while (!is(TokenKind::full_stop, by) && !is(TokenKind::end, by) &&
           !is(TokenKind::semicolon, by)) {
        if (open.desired && (is(TokenKind::comma, by) || is(TokenKind::dash, by))) {
            // "until it is as long as you like, ending on row 4"
            while (!is(TokenKind::full_stop, by) && !is(TokenKind::end, by)) ++by;
            break;
        }
        if (open.desired && is(TokenKind::open, by)) {
            while (!is(TokenKind::close, by) && !is(TokenKind::end, by)) ++by;
            continue;
        }
        if (is(TokenKind::number, by) && !told && !open.desired) return false;
        if (is(TokenKind::length, by) && !told) {
            open.length = peek(by).length;
            told = true;
        }
        if (any_of({"desired", "long", "length", "want", "like", "wanted", "height", "size"}, by) &&
            !any_of({"number"}, by + 1))
            open.desired = true;
        if (any_of({"yarn", "wool"}, by) || length_of_yarn(*tokens_, next_ + by)) yarn = true;
        ++by;
    }
    if (yarn) {  // "until a yard of yarn is left": as long as it lasts
        open.length = {};
        told = false;
        open.desired = true;
    }
    if (!told && !open.desired) return false;
    open.less = told && less_than_desired(*tokens_, next_, next_ + by);
    if (told) open.desired = open.less;
    open.from = measured_from(*tokens_, next_, next_ + by);
    open.in_all = any_of({"in"}, by - 2) && any_of({"all"}, by - 1);
    next_ += by;
    found.open_end = open;
    return true;
}

/// Words that hold no rows; shaping among them is a fault.
void LabelReader::pass_words() {
    for (; is(TokenKind::word) || is(TokenKind::number) || is(TokenKind::ordinal) ||
           is(TokenKind::length);
         ++next_) {
        if (!any_of({"inc'ing", "dec'ing", "inc'g", "dec'g", "increasing", "decreasing", "inc",
                     "dec"}) ||
            !is(TokenKind::number, 1))
            continue;
        fail(peek().at, "stitches are changed within rows that are repeated", "the repeat alone",
             "Write the row that changes them as a row of its own.");
        return;
    }
}

/// "until row 96", "for 20 rows". Nothing is taken when it is neither.
bool LabelReader::until(RowsAgain& found) {
    if ((any_of(row_words, 1) || any_of(round_words, 1)) && is(TokenKind::number, 2)) {
        found.until_row = peek(2).value;
        next_ += 3;
        take({"is"});
        take({"complete", "completed", "done", "worked"});
        return true;
    }
    // "until you have 24 rows completed", "until there are 24 rows in all"
    std::size_t by = 1;
    while (any_of({"you", "there", "are", "have", "a", "total", "of"}, by)) ++by;
    if (!any_of({"for", "to"}) && is(TokenKind::number, by) && !any_of({"more"}, by + 1) &&
        (any_of(row_words, by + 1) || any_of(round_words, by + 1))) {
        found.until_row = peek(by).value;
        next_ += by + 2;
        while (take({"complete", "completed", "done", "in", "all", "total", "been"})) continue;
        if (is(TokenKind::open) && any_of({"including", "counting", "incl"}, 1))
            while (!is(TokenKind::end) && peek_back().kind != TokenKind::close) ++next_;
        return true;
    }
    const std::size_t more = any_of({"more"}, 2) ? 1 : 0;  // "for 10 more rows"
    if (is(TokenKind::number, 1) && any_of({"for"}) &&
        (any_of(row_words, 2 + more) || any_of(round_words, 2 + more))) {
        found.for_rows = peek(1).value;
        next_ += 3 + more;
        return true;
    }
    return false;
}

}  // namespace skeinfall::notation
