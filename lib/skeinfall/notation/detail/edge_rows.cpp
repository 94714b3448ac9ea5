#include "skeinfall/notation/detail/edge_rows.hpp"

#include <algorithm>
#include <cstdint>
#include <initializer_list>
#include <string_view>
#include <utility>

#include "skeinfall/notation/detail/labels.hpp"

namespace skeinfall::notation {

namespace {

using Words = std::initializer_list<std::string_view>;

class EdgeReader {
  public:
    EdgeReader(const std::vector<Token>& tokens, std::size_t from) : tokens_(&tokens), i_(from) {}

    /// "Bind off 6 sts at beg of next 2 rows".
    std::optional<EdgeRows> scheduled() {
        lead();
        if (!change()) return std::nullopt;
        take({"as"}) && take({"before", "set", "established"});
        if (is(TokenKind::comma)) ++i_;
        take({"of", "on", "in"});
        take({"the"});
        // "of each of next 4 rows"
        if (any({"each", "every"}) && i_ + 1 < tokens_->size() && (*tokens_)[i_ + 1].text == "of")
            i_ += 2;
        take({"the"});
        out_.turns = schedule_of(*tokens_, i_);
        if (out_.turns.empty() || !counts()) return std::nullopt;
        for (const Turns& turns : out_.turns)
            if (turns.period < 1 || turns.times < 1 || turns.period > most_rows ||
                turns.times > most_rows / turns.period)
                return std::nullopt;
        return out_;
    }

    /// "inc 1 st at each end of rows 3, 5 and 7", "inc 1 st each end".
    std::optional<EdgeRows> of_rows(std::vector<std::int64_t>& rows) {
        if (!change() || !out_.both) return std::nullopt;
        if (take({"of", "on"})) {
            take({"the", "this"});
            if (!take({"row", "rows", "rnd", "rnds", "round"})) return std::nullopt;
            while (is(TokenKind::number)) {
                if (i_ + 1 < tokens_->size() && (*tokens_)[i_ + 1].text.starts_with("st")) break;
                rows.push_back(token().value);
                ++i_;
                if (is(TokenKind::comma) || any({"and", "&"})) ++i_;
                if (any({"and", "&"})) ++i_;
            }
        }
        return counts() ? std::optional(out_) : std::nullopt;
    }

  private:
    [[nodiscard]] const Token& token() const {
        return (*tokens_)[std::min(i_, tokens_->size() - 1)];
    }
    [[nodiscard]] bool is(TokenKind kind) const { return token().kind == kind; }
    [[nodiscard]] bool any(Words words) const {
        return is(TokenKind::word) &&
               std::find(words.begin(), words.end(), token().text) != words.end();
    }
    bool take(Words words) {
        if (!any(words)) return false;
        ++i_;
        return true;
    }
    [[nodiscard]] bool next_is(std::string_view word) const {
        return i_ + 1 < tokens_->size() && (*tokens_)[i_ + 1].text == word;
    }

    /// "Continue in St st, cast on 9 sts ..."
    void lead() {
        while (take({"then", "and", "now", "hereafter"}) || is(TokenKind::comma))
            if (is(TokenKind::comma)) ++i_;
        const std::size_t begin = i_;
        if (take({"cont", "continue", "continuing", "keeping", "working", "work"}) &&
            take({"in", "even"})) {
            take({"in"});
            while (take({"stockinette", "st", "stitch", "pattern", "patt", "garter", "rib", "as",
                         "established", "est", "the", "seed", "moss"})) {
            }
            if (is(TokenKind::comma)) {
                ++i_;
                return;
            }
        }
        i_ = begin;
    }

    /// "inc 1 st at each end"; false for others.
    bool change() {
        if (take({"bo", "bind-off"}))
            out_.what = EdgeRows::What::bind;
        else if (any({"bind", "cast"}) && next_is("off"))
            i_ += 2;
        else if (any({"cast"}) && next_is("on")) {
            out_.what = EdgeRows::What::cast;
            i_ += 2;
        } else if (take({"co"}))
            out_.what = EdgeRows::What::cast;
        else if (take({"inc", "increase", "increasing"}))
            out_.what = EdgeRows::What::more;
        else if (take({"dec", "decrease", "decreasing"}))
            out_.what = EdgeRows::What::less;
        else
            return false;
        if (is(TokenKind::full_stop)) ++i_;  // "inc. 1 st"
        if (any({"one"})) {
            out_.count = 1;
            ++i_;
        } else {
            if (!is(TokenKind::number) || token().value < 1) return false;
            out_.count = token().value;
            ++i_;
        }
        take({"st", "sts", "stitch", "stitches"});
        // "increase 1 stitch every other row 5 times": at one edge
        if (any({"every"}) &&
            (out_.what == EdgeRows::What::more || out_.what == EdgeRows::What::less))
            return true;
        if (!take({"at", "on"}) && !any({"each", "both"})) return false;
        take({"the"});
        take({"armhole", "neck", "front", "outer", "inner", "raglan", "centre", "center"});
        out_.both = take({"each", "both"});
        if (!take({"beg", "beginning", "start", "end", "ends", "side", "sides", "edge"}))
            return false;
        take({"edge", "edges"});
        const bool bound = out_.what == EdgeRows::What::bind || out_.what == EdgeRows::What::cast;
        return !bound || !out_.both;
    }

    /// The count behind it; false where anything else follows.
    bool counts() {
        while (is(TokenKind::full_stop) || is(TokenKind::dash) || is(TokenKind::open) ||
               is(TokenKind::semicolon) || is(TokenKind::equals) || any({"for", "to"}) ||
               any({"a", "total", "of"}))
            ++i_;
        if (is(TokenKind::number)) {
            Declared one;
            one.at = token().at;
            one.count = token().value;
            out_.declared.push_back(one);
            ++i_;
            while (any({"sts", "st", "stitches", "remain", "rem", "left", "remaining", "total",
                        "on", "needle"}) ||
                   is(TokenKind::close) || is(TokenKind::full_stop))
                ++i_;
        }
        return is(TokenKind::end);
    }

    const std::vector<Token>* tokens_;
    std::size_t i_;
    EdgeRows out_;
};

}  // namespace

std::optional<EdgeRows> edge_rows_of(const std::vector<Token>& tokens) {
    return EdgeReader(tokens, 0).scheduled();
}

std::optional<EdgeRows> edges_of(const std::vector<Token>& tokens, std::size_t from,
                                 std::vector<std::int64_t>& rows) {
    return EdgeReader(tokens, from).of_rows(rows);
}

bool bare_change(const std::vector<Token>& tokens) {
    if (tokens.empty() ||
        !among(tokens.front(), {"decrease", "dec", "decreasing", "increase", "inc", "increasing"}))
        return false;
    return std::none_of(tokens.begin() + 1, tokens.end(), [](const Token& token) {
        if (token.kind == TokenKind::comma || token.kind == TokenKind::full_stop ||
            token.kind == TokenKind::end)
            return false;
        return token.kind != TokenKind::word ||
               among(token, {"each", "every",  "all",    "across",  "around",  "evenly", "st",
                             "sts",  "stitch", "row",    "rows",    "round",   "rounds", "rnd",
                             "rnds", "end",    "ends",   "until",   "till",    "as",     "times",
                             "once", "twice",  "marker", "markers", "stitches"});
    });
}

}  // namespace skeinfall::notation
