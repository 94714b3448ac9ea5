#pragma once
/// \file
/// Reads the label of a line, token by token. Inner part of the notation.

#include <algorithm>
#include <array>
#include <cstdint>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "skeinfall/notation/detail/labels.hpp"

namespace skeinfall::notation {

class LabelReader {
  public:
    using Words = std::initializer_list<std::string_view>;

    LabelReader(const std::vector<Token>& tokens, std::optional<Fault>& fault)
        : tokens_(&tokens), fault_(&fault) {}

    Label run() {
        head();
        pass_row_count();
        if (!*fault_) again();
        if (!label_.has_tail) label_.body = next_;
        return std::move(label_);
    }

  private:
    inline static const Words row_words{"row", "rows", "r"};
    inline static const Words round_words{"rnd", "rnds", "round", "rounds"};

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
        label_.letter = any_of({"r"});
        ++next_;
        return true;
    }
    [[nodiscard]] const Token& peek_back() const { return (*tokens_)[next_ - 1]; }
    /// "Next row - eyelets: k1", "Row 9 - buttonholes:"; takes it.
    bool name_of_row() {
        std::size_t by = 0;
        while (by < 2 && any_of({"eyelets", "eyelet", "buttonhole", "buttonholes", "decrease",
                                 "increase", "picot", "ridge", "fold", "turning", "lace", "cable",
                                 "row", "rnd", "round", "heel", "gusset", "thumb"},
                                by))
            ++by;
        if (by == 0 || !is(TokenKind::colon, by)) return false;
        next_ += by + 1;
        return true;
    }
    /// "Row 1- (Right side):", "Rnd 7-13. (7 rnds)": a remark behind the sign.
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
        if (any_of({"of"}) && is(TokenKind::word, 1)) {           // "First row of border:"
            std::size_t by = 1;
            while (by < 4 && is(TokenKind::word, by)) ++by;
            if (is(TokenKind::colon, by)) next_ += by;
        }
        const std::size_t signs = next_;
        while (is(TokenKind::colon) || is(TokenKind::full_stop) || is(TokenKind::dash) ||
               is(TokenKind::equals))
            ++next_;
        if (next_ > signs && is(TokenKind::open) && behind_sign()) return separator();
        if (next_ > signs && peek_back().kind == TokenKind::dash && name_of_row()) return;
        // "Row 7: Inc row:", "Row 8: WS:"
        std::size_t words = 0;
        while (words < 3 && is(TokenKind::word, words)) ++words;
        // "1st row right side: k2"
        if (words == 2 && any_of({"right", "wrong"}) && any_of({"side"}, 1) &&
            is(TokenKind::colon, 2)) {
            label_.side = any_of({"right"}) ? 'r' : 'w';
            next_ += 3;
            words = 0;
        }
        if (words > 0 && (is(TokenKind::colon, words) || is(TokenKind::dash, words)) &&
            (any_of(row_words, words - 1) || any_of(round_words, words - 1) ||
             any_of({"rs", "ws", "inc", "dec", "increase", "decrease", "fwdp", "fwd", "forward",
                     "pattern"}))) {
            if (any_of({"rs"})) label_.side = 'r';
            if (any_of({"ws"})) label_.side = 'w';
            next_ += words + 1;
        }
    }

    /// "Rows 2-4: work 3 rows in st st": the label says how many already.
    void pass_row_count() {
        if (label_.what != Label::What::numbered || label_.rows.size() != 1) return;
        const Span& rows = label_.rows.front();
        const std::size_t more = any_of({"more"}, 2) ? 3 : 2;
        if (rows.first == rows.last && any_of({"knit", "k", "purl", "p"}) &&
            is(TokenKind::number, 1) && peek(1).value > 1 &&
            (any_of({"rows"}, more) || any_of(round_words, more)) && !any_of({"round"}, more)) {
            fail(peek().at, "one row by its label, and several by its words", "one of them",
                 "Write it like: Rows 2-3: knit.");
            return;
        }
        if (!any_of({"work", "knit", "k", "purl", "p"}) || !is(TokenKind::number, 1) ||
            peek(1).value != rows.last - rows.first + 1 || rows.last == rows.first ||
            (!any_of(row_words, 2) && !any_of(round_words, 2)))
            return;
        if (any_of({"work"}) && !is(TokenKind::end, 3)) next_ += 3;
    }

    /// "1.", "6)", "5-8:": only numbers before the instructions.
    bool bare_number() {
        if (next_ != 0 || !is(TokenKind::number)) return false;
        std::size_t by = 1;
        const bool through =
            any_of({"to", "thru", "through"}, by) &&
            (is(TokenKind::colon, by + 2) || is(TokenKind::full_stop, by + 2) ||
             (is(TokenKind::dash, by + 2) && !any_of({"to"}, by)));  // "11 thru 15 - Turn, ..."
        if ((is(TokenKind::dash, by) || through) && is(TokenKind::number, by + 1)) by += 2;
        // "1 row:", "12-22 row:", "1.row:", "6 to 8 rows - 18 sc"
        if (any_of({"to", "thru", "through"}, by) && is(TokenKind::number, by + 1) &&
            (any_of(row_words, by + 2) || any_of(round_words, by + 2)))
            by += 2;
        const std::size_t dot = is(TokenKind::full_stop, by) ? 1 : 0;
        // "9 - 11 rows / 3 rows / - 18 sc": how many they are is said again
        const bool again = is(TokenKind::slash, by + 1) && is(TokenKind::number, by + 2) &&
                           (any_of(row_words, by + 3) || any_of(round_words, by + 3)) &&
                           is(TokenKind::slash, by + 4) &&
                           peek(by + 2).value == peek(by - 1).value - peek().value + 1;
        const std::size_t said = dot + (again ? 4U : 0U);
        if ((any_of(row_words, by + dot) || any_of(round_words, by + dot)) &&
            (is(TokenKind::colon, by + said + 1) || is(TokenKind::dash, by + said + 1)) &&
            !is(TokenKind::end, by + said + 2)) {
            label_.what = Label::What::numbered;
            label_.rows = {{peek().value, peek(by - 1).value}};
            if (label_.rows.front().last < label_.rows.front().first) return false;
            next_ += by + dot;
            row_word();
            if (again) next_ += 4;
            separator();
            return true;
        }
        // "2 and all even rounds:"
        if (by == 1 && any_of({"and", "&"}, by) && any_of({"all", "every"}, by + 1)) {
            next_ += 2;
            if (parity_words() && (is(TokenKind::colon) || is(TokenKind::dash))) {
                label_.what = Label::What::numbered;
                label_.rows = {{(*tokens_)[0].value, (*tokens_)[0].value}};
                separator();
                return true;
            }
            next_ = 0;
            return false;
        }
        // "1 - [k4 in MC, k1 in CC] around"
        const bool dash =
            by == 1 && is(TokenKind::dash, by) && peek(by).at > peek().at + peek().text.size() &&
            (is(TokenKind::open, by + 1) || is(TokenKind::star, by + 1) ||
             any_of({"switching", "changing", "with", "using"}, by + 1) ||
             is(TokenKind::dash, by + 1) ||  // the change of yarn stood between
             (is(TokenKind::word, by + 1) &&
              (peek(by + 1).text.front() == 'k' || peek(by + 1).text.front() == 'p')));
        const bool bracket = dash || (is(TokenKind::close, by) && peek(by).sign == ')');
        if (!bracket && !through && !is(TokenKind::full_stop, by) && !is(TokenKind::colon, by))
            return false;
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
            if ((is(TokenKind::dash) || any_of({"to", "through", "thru"})) &&
                is(TokenKind::ordinal, 1) && peek(1).value >= row) {
                out.back().last = peek(1).value;  // "the 45th-48th rows", "5th to 14th rows"
                next_ += 2;
            }
            if (row_word()) return out;
            if (any_of({"and", "&"}) && any_of({"every", "all", "alt", "alternate"}, 1)) return out;
            if (!take({"and", "&"}) && is(TokenKind::comma)) ++next_;
        }
        next_ = before;
        return std::nullopt;
    }

    /// "Row One:", "Round Two"
    bool spelled_number() {
        constexpr auto spelled =
            std::to_array<std::string_view>({"one", "two", "three", "four", "five", "six", "seven",
                                             "eight", "nine", "ten", "eleven", "twelve"});
        if ((!any_of(row_words) && !any_of(round_words)) || any_of({"more"}, 2)) return false;
        for (std::size_t i = 0; i < spelled.size(); ++i) {
            if (!any_of({spelled[i]}, 1)) continue;
            row_word();
            ++next_;
            label_.what = Label::What::numbered;
            const auto row = static_cast<std::int64_t>(i) + 1;
            label_.rows = {{row, row}};
            return true;
        }
        return false;
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
        // "Next and every foll alt row:"
        if (any_of({"next"}) && any_of({"and", "&"}, 1)) {
            next_ += 2;
            take({"every", "all"});
            take({"foll", "following"});
            if (take({"alt", "alternate", "other"}) && row_word()) {
                label_.what = Label::What::next;
                label_.also = Parity::same;
                return separator();
            }
            next_ = before;
        }
        // "Next (decrease) row:"
        if (any_of({"next", "last", "final", "following"}) && is(TokenKind::open, 1) &&
            is(TokenKind::word, 2) && is(TokenKind::close, 3) &&
            (any_of(row_words, 4) || any_of(round_words, 4))) {
            next_ += 4;
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
        if (!named && spelled_number()) return separator();
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
            if (is(TokenKind::comma) && any_of({"and", "&"}, 1) &&
                any_of({"all", "every", "alt", "alternate"}, 2))
                ++next_;
            if (any_of({"and"}) && is(TokenKind::colon, 1)) {  // "Rows 31+:"
                fail(peek().at, "how many rows these are is not said", "the last one's number",
                     "Write it like: Rows 31-40: knit.");
                return;
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
        // "Rows 1 and alt rows", "2nd and alt rnds"
        const bool alone =
            any_of({"alt", "alternate"}) && (plural_ || any_of({"rows", "rnds", "rounds"}, 1));
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
                !any_of({"rep", "repeat", "as", "in", "work", "and", "knit", "purl"}, 2) &&
                (!plural_ || !out.empty() || peek(1).value < first.value);  // "Rnds 7 - 2 sc in"
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
    void again();

    void how_long(RowsAgain& found);

    /// "for a total of 4 repeats", "until there is a total of 4 repeats": the first is worked.
    bool total_ahead(RowsAgain& found);
    bool last_row_ahead(RowsAgain& found);

    /// "until 12 sts remain", "until you have 43 stitches on the needles".
    bool stitches_ahead(RowsAgain& found);

    /// The label names one row, from which the repeat may go on.
    [[nodiscard]] bool begins_at_label() const;

    /// "until piece measures 20 in", "for 4 in", "to desired length".
    bool length_ahead(RowsAgain& found);

    void pass_words();

    /// "until row 96", "for 20 rows". Nothing is taken when it is neither.
    bool until(RowsAgain& found);

    const std::vector<Token>* tokens_;
    std::optional<Fault>* fault_;
    std::size_t next_ = 0;
    bool plural_ = false;  ///< "Rows"
    Label label_;
};

}  // namespace skeinfall::notation
