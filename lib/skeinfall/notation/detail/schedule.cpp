#include "skeinfall/notation/detail/schedule.hpp"

#include <algorithm>
#include <cstdint>
#include <initializer_list>
#include <optional>
#include <string_view>

namespace skeinfall::notation {
namespace {

using Words = std::initializer_list<std::string_view>;
const Words counted_row_words{"row", "rows", "rnd", "rnds", "round", "rounds"};

class Schedule {
  public:
    Schedule(const std::vector<Token>& tokens, std::size_t at) : tokens_(&tokens), at_(at) {}

    std::vector<Turns> run(std::size_t& behind) {
        std::vector<Turns> out;
        behind = at_;
        while (const auto one = turns()) {
            out.push_back(*one);
            behind = at_;
            // "5th and every following 6th row": the period of the next is told before its row
            if (is(TokenKind::comma) || is(TokenKind::semicolon)) ++at_;
            take({"then", "and"});
            take({"then", "and", "also"});
            take({"on", "in"});
            take({"at"});
            if (any({"each", "both"}) && (next_is("end") || next_is("ends"))) {
                at_ += 2;
                take({"of", "on"});
            }
        }
        return out;
    }

  private:
    [[nodiscard]] const Token& token() const {
        return (*tokens_)[std::min(at_, tokens_->size() - 1)];
    }
    [[nodiscard]] bool is(TokenKind kind) const { return token().kind == kind; }
    [[nodiscard]] bool any(Words words) const {
        return is(TokenKind::word) &&
               std::find(words.begin(), words.end(), token().text) != words.end();
    }
    bool take(Words words) {
        if (!any(words)) return false;
        ++at_;
        return true;
    }

    [[nodiscard]] bool next_is(std::string_view word) const {
        return at_ + 1 < tokens_->size() && (*tokens_)[at_ + 1].text == word;
    }

    std::optional<Turns> turns() {
        const std::size_t before = at_;
        Turns out;
        bool single = false;
        bool several = false;
        bool bare = false;  // "4th row": once
        take({"the"});
        if (any({"each", "both"}) && (next_is("end") || next_is("ends"))) {
            at_ += 2;
            take({"of"});
        }
        take({"of", "on", "in"});
        take({"the"});
        // "on 5 foll alt rows"
        const bool counted = is(TokenKind::number) && (next_is("foll") || next_is("following"));
        if (counted) {
            out.times = token().value;
            several = true;
            ++at_;
        }
        if (take({"next", "following", "foll"})) {
            single = true;
            if (!counted && any({"and"})) {  // "next and every foll alt row until 73 sts rem"
                out.period = 1;
                out.times = 1;
                return out;
            }
            if (!counted && is(TokenKind::number)) {
                out.times = token().value;
                several = true;
                ++at_;
            }
            take({"alt", "alternate"}) ? out.period = 2 : 0;
            if (is(TokenKind::ordinal)) out.period = (*tokens_)[at_++].value;
        } else if (take({"every", "each"})) {
            take({"following", "foll"});
            if (take({"other", "second", "alt", "alternate", "rs", "ws"}))
                out.period = 2;
            else if (take({"third"}))
                out.period = 3;
            else if (take({"fourth"}))
                out.period = 4;
            else if (is(TokenKind::ordinal) ||  // "every 6 rows"
                     (is(TokenKind::number) && token().value > 1 &&
                      (next_is("rows") || next_is("rnds") || next_is("rounds"))))
                out.period = (*tokens_)[at_++].value;
            take({"following", "foll"});
        } else if (is(TokenKind::ordinal)) {  // "5th and every following 6th row"
            out.period = (*tokens_)[at_++].value;
            out.times = 1;
            if (any({"and"})) return out;
            single = true;
            bare = true;
        } else {
            at_ = before;
            return std::nullopt;
        }
        if (!take(counted_row_words)) {
            at_ = before;
            return std::nullopt;
        }
        take({"thereafter"});
        if (is(TokenKind::comma)) ++at_;
        if (bare) {
            if (!how_long(out)) return out;
            at_ = before;
            return std::nullopt;
        }
        if (how_long(out)) return out;
        if (single) {
            if (!several) out.times = 1;
            return out;
        }
        at_ = before;
        return std::nullopt;
    }

    bool how_long(Turns& out) {
        const std::size_t before = at_;
        if (take({"twice"})) {
            out.times = 2;
            return true;
        }
        if (take({"once"})) {
            out.times = 1;
            return true;
        }
        if (is(TokenKind::number)) {
            const std::int64_t value = token().value;
            ++at_;
            const bool more = take({"more"});
            if (take({"times", "x"}) || (more && take({"time"}))) {
                take({"more"});
                take({"total"});
                out.times = value;
                return true;
            }
            at_ = before;
            return false;
        }
        if (take({"until", "till", "to"})) {
            while (take({"there", "are", "is", "you", "have", "only", "remain", "remains"})) {
            }
            if (is(TokenKind::number)) {
                out.until = token().value;
                ++at_;
                if (take({"st", "sts", "stitches"})) {
                    while (take({"remain", "remaining", "rem", "left", "on", "the", "needle",
                                 "needles", "in", "row", "all"})) {
                    }
                    out.times = 1;
                    return true;
                }
            }
            out.until = 0;
        }
        at_ = before;
        return false;
    }

    const std::vector<Token>* tokens_;
    std::size_t at_;
};

}  // namespace

std::vector<Turns> schedule_of(const std::vector<Token>& tokens, std::size_t& at) {
    return Schedule(tokens, at).run(at);
}

}  // namespace skeinfall::notation
