#include "skeinfall/notation/detail/labels.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <initializer_list>
#include <string_view>

namespace skeinfall::notation {
namespace {

using Words = std::initializer_list<std::string_view>;

const Words row_words{"row", "rows", "r"};
const Words round_words{"rnd", "rnds", "round", "rounds"};

class LabelReader {
  public:
    LabelReader(const std::vector<Token>& tokens, std::optional<Fault>& fault)
        : tokens_(&tokens), fault_(&fault) {}

    Label run() {
        head();
        if (!*fault_) again();
        if (!label_.has_tail) label_.body = next_;
        return std::move(label_);
    }

  private:
    [[nodiscard]] const Token& peek(std::size_t by = 0) const {
        return (*tokens_)[std::min(next_ + by, tokens_->size() - 1)];
    }
    [[nodiscard]] bool is(TokenKind kind, std::size_t by = 0) const {
        return peek(by).kind == kind;
    }
    [[nodiscard]] bool any_of(Words words, std::size_t by = 0) const {
        return is(TokenKind::word, by) &&
               std::find(words.begin(), words.end(), peek(by).text) != words.end();
    }
    bool take(Words words) {
        if (!any_of(words)) return false;
        ++next_;
        return true;
    }
    void fail(std::size_t at, std::string what, std::string expected, std::string remedy) {
        if (!*fault_) *fault_ = Fault{at, std::move(what), std::move(expected), std::move(remedy)};
    }
    bool row_word() {
        if (any_of(round_words)) label_.round = true;
        plural_ = any_of({"rows", "rnds", "rounds"});
        if (!any_of(row_words) && !any_of(round_words)) return false;
        label_.names_kind = true;
        ++next_;
        return true;
    }
    /// "Row 1- (Right side):": a remark behind the sign.
    [[nodiscard]] bool behind_sign() const {
        const bool side = any_of({"right", "wrong"}, 1) && any_of({"side"}, 2);
        const bool rows =
            is(TokenKind::number, 1) && (any_of(row_words, 2) || any_of(round_words, 2));
        return (any_of({"rs", "ws"}, 1) && is(TokenKind::close, 2)) ||
               ((side || rows) && is(TokenKind::close, 3));
    }
    void separator() {
        // "(RS)", "(4 rows)", "(inc row):"
        while (is(TokenKind::open)) {
            std::size_t behind = 1;
            while (!is(TokenKind::close, behind) && !is(TokenKind::end, behind)) ++behind;
            if (any_of({"r", "w"}, 1) && is(TokenKind::full_stop, 2) && any_of({"s"}, 3)) {
                label_.side = any_of({"r"}, 1) ? 'r' : 'w';  // "(r.s.)"
                next_ += behind + 1;
                continue;
            }
            if (any_of({"rs", "right"}, 1)) label_.side = 'r';
            if (any_of({"ws", "wrong"}, 1)) label_.side = 'w';
            const bool remark =
                is(TokenKind::colon, behind + 1) ||
                (behind == 3 && any_of({"inc", "increase", "dec", "decrease"}, 1) &&
                 (any_of(row_words, 2) || any_of(round_words, 2))) ||
                any_of({"rs", "ws", "right", "wrong"}, 1) ||
                ((is(TokenKind::dash, behind + 1) || is(TokenKind::full_stop, behind + 1)) &&
                 any_of({"inc", "increase", "dec", "decrease", "eyelet", "lace", "cable", "set",
                         "setup", "ridge", "make"},
                        1)) ||
                (is(TokenKind::number, 1) && (any_of(row_words, 2) || any_of(round_words, 2)));
            if (!remark || is(TokenKind::end, behind)) break;
            next_ += behind + 1;
        }
        if (is(TokenKind::close) && peek().sign == ')') ++next_;  // "Row 1)"
        const std::size_t signs = next_;
        while (is(TokenKind::colon) || is(TokenKind::full_stop) || is(TokenKind::dash) ||
               is(TokenKind::equals))
            ++next_;
        if (next_ > signs && is(TokenKind::open) && behind_sign()) return separator();
        std::size_t words = 0;  // "Row 7: Inc row:", "Row 8: WS:"
        while (words < 3 && is(TokenKind::word, words)) ++words;
        if (words > 0 && (is(TokenKind::colon, words) || is(TokenKind::dash, words)) &&
            (any_of(row_words, words - 1) || any_of(round_words, words - 1) ||
             any_of(
                 {"rs", "ws", "inc", "dec", "increase", "decrease", "fwdp", "fwd", "forward"}))) {
            if (any_of({"rs"})) label_.side = 'r';
            if (any_of({"ws"})) label_.side = 'w';
            next_ += words + 1;
        }
    }

    /// "1.", "6)", "5-8:": only numbers before the instructions.
    bool bare_number() {
        if (next_ != 0 || !is(TokenKind::number)) return false;
        std::size_t by = 1;
        if (is(TokenKind::dash, by) && is(TokenKind::number, by + 1)) by += 2;
        // "1 row:", "12-22 row:", "1.row:"
        const std::size_t dot = is(TokenKind::full_stop, by) ? 1 : 0;
        if ((any_of(row_words, by + dot) || any_of(round_words, by + dot)) &&
            (is(TokenKind::colon, by + dot + 1) || is(TokenKind::dash, by + dot + 1)) &&
            !is(TokenKind::end, by + dot + 2)) {
            label_.what = Label::What::numbered;
            label_.rows = {{peek().value, peek(by - 1).value}};
            if (label_.rows.front().last < label_.rows.front().first) return false;
            next_ += by + dot;
            row_word();
            separator();
            return true;
        }
        const bool bracket = is(TokenKind::close, by) && peek(by).sign == ')';
        if (!bracket && !is(TokenKind::full_stop, by) && !is(TokenKind::colon, by)) return false;
        if (is(TokenKind::end, by + 1)) return false;
        label_.what = Label::What::numbered;
        label_.bare = true;
        label_.rows = {{peek().value, peek(by - 1).value}};
        if (label_.rows.front().last < label_.rows.front().first) return false;
        next_ += by;
        separator();
        return true;
    }

    /// "Inc row:", "Decrease round 2 (RS):": the next ones, under a name.
    bool named_row() {
        std::size_t by = 0;
        while (by < 4 && is(TokenKind::word, by) && !any_of(row_words, by) &&
               !any_of(round_words, by))
            ++by;
        if (by == 0 || by >= 4 || (!any_of(row_words, by) && !any_of(round_words, by)))
            return false;
        std::size_t end = by + 1;
        std::int64_t count = 1;
        if (is(TokenKind::number, end)) {
            if (is(TokenKind::dash, end + 1) && is(TokenKind::number, end + 2)) {
                count = peek(end + 2).value - peek(end).value + 1;
                end += 2;
            }
            ++end;
        }
        std::size_t behind = end;
        if (is(TokenKind::open, behind)) {
            while (!is(TokenKind::close, behind) && !is(TokenKind::end, behind)) ++behind;
            ++behind;
        }
        if (!is(TokenKind::colon, behind) || count < 1) return false;
        next_ += by;
        row_word();
        next_ += end - by - 1;
        label_.what = Label::What::next;
        label_.count = count;
        separator();
        return true;
    }

    /// "1st row", "2nd and 4th rows", "first row". Nothing is taken when it is none.
    std::optional<std::vector<Span>> ordinal_rows() {
        constexpr auto spelled = std::to_array<std::string_view>(
            {"first", "second", "third", "fourth", "fifth", "sixth"});
        const std::size_t before = next_;
        std::vector<Span> out;
        while (true) {
            std::int64_t row = is(TokenKind::ordinal) || (!out.empty() && is(TokenKind::number))
                                   ? peek().value
                                   : 0;
            for (std::size_t i = 0; i < spelled.size(); ++i)
                if (any_of({spelled[i]})) row = static_cast<std::int64_t>(i) + 1;
            if (row == 0) break;
            ++next_;
            out.push_back({row, row});
            if (row_word()) return out;
            if (any_of({"and", "&"}) && any_of({"every", "all"}, 1)) return out;
            if (!take({"and", "&"}) && is(TokenKind::comma)) ++next_;
        }
        next_ = before;
        return std::nullopt;
    }

    void head() {
        const std::size_t before = next_;
        if (any_of({"note", "notes"})) {
            label_.what = Label::What::note;
            ++next_;
            return separator();
        }
        if (any_of({"foundation", "set-up", "setup", "base"}) &&
            (is(TokenKind::colon, 1) || is(TokenKind::comma, 1) || is(TokenKind::word, 1)) &&
            !any_of({"sc", "dc", "hdc"}, 1)) {
            ++next_;
            row_word() || take({"ch", "chain"});
            label_.what = Label::What::foundation;
            return separator();
        }
        if (bare_number()) return;
        if (any_of({"next", "last", "final", "following"}) &&
            (any_of(row_words, 1) || any_of(round_words, 1) ||
             (is(TokenKind::number, 1) && (any_of(row_words, 2) || any_of(round_words, 2))))) {
            ++next_;
            if (is(TokenKind::number)) {
                label_.count = peek().value;
                ++next_;
            }
            row_word();
            label_.what = Label::What::next;
            return separator();
        }
        // "Knit 6 rows.", "Work 10 rows in St st."
        if (any_of({"knit", "k", "purl", "p", "work"}) && is(TokenKind::number, 1) &&
            (any_of(row_words, 2) || any_of(round_words, 2))) {
            label_.count = peek(1).value;
            label_.what = Label::What::next;
            const bool work = any_of({"work"});
            next_ += 2;
            row_word();
            next_ = work ? next_ : before;
            return;
        }
        if (any_of({"all", "every"}) && parity_words()) {
            label_.what = Label::What::others;
            return separator();
        }
        const auto named = ordinal_rows();
        if (!named && (any_of(row_words) || any_of(round_words)) && any_of({"one"}, 1) &&
            !any_of({"more"}, 2)) {
            row_word();
            ++next_;
            label_.what = Label::What::numbered;
            label_.rows = {{1, 1}};
            return separator();
        }
        if (named || ((any_of(row_words) || any_of(round_words)) && is(TokenKind::number, 1))) {
            if (!named) row_word();
            label_.what = Label::What::numbered;
            label_.rows = named ? *named : spans();
            // "Row 1 (and all odd rows):"
            if (is(TokenKind::open) && any_of({"and", "&", "all", "every"}, 1)) {
                next_ += any_of({"and", "&"}, 1) ? 2U : 1U;
                if (!parity_words() || !is(TokenKind::close)) {
                    fail(peek().at, "it is not clear which rows are meant",
                         "\"and all even rows\" or \"and every other row\"", "");
                    return;
                }
                ++next_;
            }
            if (any_of({"and", "&"}) && (any_of({"all", "every", "alt", "alternate"}, 1))) {
                ++next_;
                if (!parity_words()) {
                    fail(peek().at, "it is not clear which rows are meant",
                         "\"and all even rows\" or \"and every other row\"", "");
                    return;
                }
            }
            return separator();
        }
        next_ = before;
        // "WS rows: purl", "Even rounds: knit"
        if (any_of({"rs", "ws", "even", "odd"}) && any_of({"rows", "rnds", "rounds"}, 1)) {
            label_.what = Label::What::others;
            label_.also = any_of({"rs"})     ? Parity::right
                          : any_of({"ws"})   ? Parity::wrong
                          : any_of({"even"}) ? Parity::even
                                             : Parity::odd;
            ++next_;
            row_word();
            return separator();
        }
        if (named_row()) return;
        next_ = before;
    }

    /// "all even rows", "every other row", "all ws rows". Nothing is taken when it is none.
    bool parity_words() {
        const std::size_t before = next_;
        const bool alone = any_of({"alt", "alternate"}) && plural_;  // "Rows 1 and alt rows"
        if (!alone && !take({"all", "every"})) return false;
        take({"other", "following", "foll"}) ? label_.also = Parity::same
                                             : label_.also = Parity::none;
        if (take({"even", "even-numbered"}))
            label_.also = Parity::even;
        else if (take({"odd", "odd-numbered"}))
            label_.also = Parity::odd;
        else if (take({"ws", "wrong"})) {
            label_.also = Parity::wrong;
            take({"side"});
        } else if (take({"rs", "right"})) {
            label_.also = Parity::right;
            take({"side"});
        } else if (take({"alt", "alternate"}))
            label_.also = Parity::same;
        take({"numbered"});
        if (label_.also != Parity::none && row_word()) return true;
        label_.also = Parity::none;
        next_ = before;
        return false;
    }

    /// "3-96", "3 to 96", "3, 5 and 7".
    std::vector<Span> spans() {
        std::vector<Span> out;
        while (is(TokenKind::number)) {
            const Token& first = peek();
            Span span{first.value, first.value};
            ++next_;
            const Token& dash = peek();  // "Rnd 1 - 6 sc in ring": no range
            const bool gap = dash.at > first.at + first.text.size() || peek(1).at > dash.at + 1;
            const bool apart =
                is(TokenKind::dash) && gap && is(TokenKind::number, 1) && is(TokenKind::word, 2) &&
                !any_of({"rep", "repeat", "as", "in", "work", "and"}, 2) && !plural_ && out.empty();
            if (!apart && (is(TokenKind::dash) || any_of({"to", "through", "thru"}))) {
                const bool again = any_of(row_words, 1) || any_of(round_words, 1);  // "R3-R8"
                const std::size_t number = again ? 2 : 1;
                if (is(TokenKind::number, number)) {
                    span.last = peek(number).value;
                    next_ += number + 1;
                }
            }
            if (span.last < span.first)
                fail(first.at, "the rows run backwards", "the smaller number first", "");
            out.push_back(span);
            if (is(TokenKind::number, 1) && (is(TokenKind::comma) || any_of({"and", "&"})) &&
                !any_of({"times", "more", "time", "x"}, 2))
                ++next_;
            else if (is(TokenKind::comma) && any_of({"and", "&"}, 1) && is(TokenKind::number, 2))
                next_ += 2;
            else
                break;
        }
        return out;
    }

    /// "rep rows 1 and 2 in pattern", "as row 2", "rep last 2 rows 10 times".
    void again() {
        const std::size_t before = next_;
        std::size_t yarn = 0;  // "With MC - repeat row 3", of a yarn that is not known
        while (any_of({"with", "using"}) && yarn < 5 && is(TokenKind::word, yarn)) ++yarn;
        if ((is(TokenKind::dash, yarn) || (yarn > 0 && is(TokenKind::comma, yarn))) &&
            any_of({"rep", "repeat"}, yarn + 1))
            next_ += yarn + 1;
        const std::size_t at = peek().at;
        if (any_of({"continue", "cont", "then"}) &&
            any_of({"rep", "repeat", "repeating", "to"}, 1)) {
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
            const bool rows =
                work && any_of({"rows", "rnds", "rounds"}) && is(TokenKind::number, 1);
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
            if (is(TokenKind::number)) {
                found.last_rows = peek().value;
                ++next_;
            }
            if (!any_of(row_words) && !any_of(round_words)) {
                next_ = before;
                return;
            }
            ++next_;
        } else if (const auto named = ordinal_rows()) {
            found.rows = *named;
        } else if ((any_of(row_words) || any_of(round_words)) && is(TokenKind::number, 1)) {
            ++next_;
            plural_ = true;
            found.rows = spans();
        } else {
            next_ = before;
            return;
        }
        how_long(found);
        if (!*fault_) label_.again = std::move(found);
    }

    void how_long(RowsAgain& found) {
        const bool rows_known = !label_.rows.empty();
        if (!rows_known && (any_of({"every", "each"}) || any_of({"on"}) || any_of({"at"}))) {
            std::size_t at = next_ + (any_of({"on", "at"}) ? 1U : 0U);
            found.turns = schedule_of(*tokens_, at);
            if (!found.turns.empty()) next_ = at;
        }
        while (!is(TokenKind::end) && !*fault_) {
            // "(11 sc)", ". Fasten off."
            if (is(TokenKind::open) || is(TokenKind::full_stop) || is(TokenKind::dash)) {
                label_.body = next_;
                label_.has_tail = true;
                return;
            }
            if (found.times > 0 && any_of({"or"}) && any_of({"until", "till", "to", "as"}, 1)) {
                pass_words();  // "13 times, or until it is as long as you like"
                continue;
            }
            if (total_ahead(found)) continue;
            if (any_of({"for"}) && any_of({"pattern", "patt", "pat"}, 1) &&
                (is(TokenKind::end, 2) || is(TokenKind::full_stop, 2)) && !rows_known) {
                found.open_end = OpenEnd{true, true, {}, 0, peek().at};
                next_ += 2;
                continue;
            }
            if (any_of({"as"}) && any_of({"many", "often"}, 1)) {
                found.open_end = OpenEnd{true, true, {}, 0, peek().at};
                pass_words();  // "as many times as you wish"
                continue;
            }
            if (any_of({"until", "till"}) && stitches_ahead(found)) continue;
            if (any_of({"until", "till", "for", "to"}) && length_ahead(found)) continue;
            if (any_of({"increasing", "decreasing"}) || (rows_known && any_of({"or"})) ||
                (any_of({"end", "ending"}) && any_of({"with", "after", "on"}, 1)) ||
                // The label says how many.
                (rows_known && any_of({"until", "till"}) && !any_of(row_words, 1))) {
                pass_words();
            } else if (is(TokenKind::number) && (any_of(row_words, 1) || any_of(round_words, 1)) &&
                       !rows_known) {
                found.for_rows = peek().value;
                next_ += 2;
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
            } else if (any_of({"one"}) && any_of({"time"}, 1)) {
                found.times = 1;
                next_ += 2;
            } else if (any_of({"once", "twice"})) {
                found.times = any_of({"once"}) ? 1 : 2;
                ++next_;
                take({"more"});
            } else if (any_of({"until", "till", "through", "to", "for"}) && until(found)) {
                continue;
            } else if (any_of({"in", "for", "about", "approximately", "more", "pattern", "patt",
                               "pat", "as", "established", "est", "alternately", "the", "of",
                               "stitch", "sequence", "together"}) ||
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

    /// "for a total of 4 repeats", "until there is a total of 4 repeats": the first is worked.
    bool total_ahead(RowsAgain& found) {
        std::size_t by = 0;
        while (any_of({"for", "until", "there", "is", "are", "a", "so", "you", "have"}, by)) ++by;
        if (by == 0 || !any_of({"total"}, by) || !any_of({"of"}, by + 1) ||
            !is(TokenKind::number, by + 2) ||
            !any_of({"times", "repeats", "repetitions", "reps"}, by + 3))
            return false;
        found.times = peek(by + 2).value - 1;
        next_ += by + 4;
        return found.times > 0;
    }

    /// "until 12 sts remain", "until you have 43 stitches on the needles".
    bool stitches_ahead(RowsAgain& found) {
        std::size_t by = 1;
        while (any_of({"you", "there", "are", "have", "is", "only"}, by)) ++by;
        if (!is(TokenKind::number, by) || !any_of({"st", "sts", "stitches", "stitch"}, by + 1))
            return false;
        if (!label_.rows.empty()) return false;
        found.until_stitches = peek(by).value;
        next_ += by + 2;
        while (any_of({"remain", "remains", "remaining", "left", "on", "the", "your", "needle",
                       "needles", "in", "total", "rem", "hook"}))
            ++next_;
        return true;
    }

    /// "until piece measures 20 in", "for 4 in", "to desired length".
    bool length_ahead(RowsAgain& found) {
        std::size_t by = 1;
        OpenEnd open;
        open.whole = !any_of({"for"});
        open.at = peek().at;
        bool told = false;
        bool yarn = false;
        while (!is(TokenKind::full_stop, by) && !is(TokenKind::end, by) &&
               !is(TokenKind::semicolon, by)) {
            if (is(TokenKind::number, by) && !told) return false;
            if (is(TokenKind::length, by) && !told) {
                open.length = peek(by).length;
                told = true;
            }
            if (any_of({"desired", "long", "length", "want", "like", "wanted", "height", "size"},
                       by))
                open.desired = true;
            if (any_of({"yarn", "wool"}, by)) yarn = true;
            ++by;
        }
        if (yarn) {  // "until a yard of yarn is left": as long as it lasts
            open.length = {};
            told = false;
            open.desired = true;
        }
        if (!told && !open.desired) return false;
        if (told) open.desired = false;
        next_ += by;
        // Row numbers in the label say it already.
        if (label_.rows.empty()) found.open_end = open;
        return true;
    }

    void pass_words() {
        while (is(TokenKind::word) || is(TokenKind::number) || is(TokenKind::ordinal) ||
               is(TokenKind::length))
            ++next_;
    }

    /// "until row 96", "for 20 rows". Nothing is taken when it is neither.
    bool until(RowsAgain& found) {
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

    const std::vector<Token>* tokens_;
    std::optional<Fault>* fault_;
    std::size_t next_ = 0;
    bool plural_ = false;  ///< "Rows"
    Label label_;
};

}  // namespace

Label label_of(const std::vector<Token>& tokens, std::optional<Fault>& fault) {
    return LabelReader(tokens, fault).run();
}

}  // namespace skeinfall::notation
