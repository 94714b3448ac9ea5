#include "skeinfall/notation/detail/row_starts.hpp"

#include <algorithm>
#include <iterator>

#include "skeinfall/base/numbers.hpp"

namespace skeinfall::notation {

namespace {

/// Whether a row's own words stand behind a label's dash, at token `dash`.
bool begins_row(const std::vector<Token>& tokens, std::size_t dash) {
    std::size_t to = dash + 1;
    const bool apart = tokens[to].at > tokens[dash].at + 1;
    if (tokens[to].kind == TokenKind::number && !apart) ++to;
    if (tokens[to].kind == TokenKind::number || tokens[to].kind == TokenKind::star ||
        tokens[to].kind == TokenKind::open)
        return true;
    static constexpr std::string_view words[] = {"ch",   "sc",   "hdc",  "dc",  "tr",
                                                 "sl",   "inc",  "dec",  "rep", "repeat",
                                                 "with", "work", "join", "sk",  "skip"};
    return tokens[to].kind == TokenKind::word &&
           std::find(std::begin(words), std::end(words), tokens[to].text) != std::end(words);
}

}  // namespace

namespace {

/// "Row 5: sc in each sc Rows 6 & 7: ...": the number behind that of the line's own label, and a
/// colon, need no stop before them.
bool follows_label(const std::vector<Token>& tokens, std::size_t i) {
    if (i < 3 || tokens[0].kind != TokenKind::word || tokens[1].kind != TokenKind::number ||
        !among(tokens[i], {"row", "rows", "rnd", "rnds", "round", "rounds"}) ||
        tokens[i + 1].kind != TokenKind::number || tokens[0].text.front() != 'r')
        return false;
    std::int64_t last = tokens[1].value;
    std::size_t at = 2;
    while (tokens[at].kind == TokenKind::dash || among(tokens[at], {"and", "&", "to"})) {
        if (tokens[at + 1].kind != TokenKind::number) break;
        last = tokens[at + 1].value;
        at += 2;
    }
    if (tokens[at].kind != TokenKind::colon || tokens[i + 1].value != last + 1) return false;
    std::size_t to = i + 2;
    while ((tokens[to].kind == TokenKind::dash || among(tokens[to], {"and", "&", "to"})) &&
           tokens[to + 1].kind == TokenKind::number)
        to += 2;
    return tokens[to].kind == TokenKind::colon;
}

/// "Row 21: Switch to MC. Rep row 2.": the label and a yarn, and then what is worked.
bool only_takes_yarn(const std::vector<Token>& tokens, std::size_t rep) {
    std::size_t at = 0;
    while (at < rep && tokens[at].kind != TokenKind::colon) ++at;
    if (at == rep || at + 2 > rep ||
        !among(tokens[at + 1], {"switch", "change", "with", "using", "in"}))
        return false;
    for (std::size_t i = at + 1; i + 1 < rep; ++i)
        if (tokens[i].kind != TokenKind::word) return false;
    return rep - at < 7;
}

/// Behind "as follows:".
bool follows_at(const std::vector<Token>& tokens, std::size_t i) {
    return i > 2 && tokens[i - 1].kind == TokenKind::colon && tokens[i - 2].text == "follows";
}

}  // namespace

std::size_t next_row_at(const std::vector<Token>& tokens) {
    const auto row = [&](std::size_t i) {
        return i < tokens.size() && tokens[i].kind == TokenKind::word &&
               (tokens[i].text == "row" || tokens[i].text == "rows" || tokens[i].text == "rnd" ||
                tokens[i].text == "rnds" || tokens[i].text == "round" ||
                tokens[i].text == "rounds");
    };
    int depth = tokens.empty() || tokens[0].kind != TokenKind::open ? 0 : 1;
    for (std::size_t i = 1; i + 2 < tokens.size(); ++i) {
        if (tokens[i].kind == TokenKind::open) ++depth;
        if (tokens[i].kind == TokenKind::close) depth = std::max(0, depth - 1);
        if (depth > 0) continue;  // "stockinette (knit a row, purl a row)"
        // "Cast on 22 sts and knit 2 rows", "Join; purl 1 round"
        const bool rows =
            (tokens[i].text == "knit" || tokens[i].text == "purl" || tokens[i].text == "work" ||
             tokens[i].text == "k" || tokens[i].text == "p") &&
            tokens[i].kind == TokenKind::word &&
            (tokens[i + 1].kind == TokenKind::number || tokens[i + 1].text == "one" ||
             tokens[i + 1].text == "a") &&
            row(i + 2);
        const bool several = tokens[0].text == "rows" || tokens[0].text == "rnds" ||
                             tokens[0].text == "rounds";  // "Rows 2-4: work 3 rows in st st"
        if (rows && !several &&
            (tokens[i - 1].kind == TokenKind::full_stop || tokens[i - 1].kind == TokenKind::comma ||
             tokens[i - 1].kind == TokenKind::semicolon || tokens[i - 1].kind == TokenKind::close ||
             tokens[i - 1].text == "and" || tokens[i - 1].text == "then" ||
             (i <= 4 && (tokens[0].text == "with" || tokens[0].text == "using"))))
            return tokens[i].at;
        const bool follows = i > 1 && tokens[i - 1].kind == TokenKind::colon &&
                             (tokens[i - 2].text == "follows" || tokens[i - 2].text == "pattern" ||
                              tokens[i - 2].text == "patt");
        // "..., k6 Row 2 (WS) - p": rows one after the other without a stop
        if (row(i) && tokens[i + 1].kind == TokenKind::number && i > 2 &&
            (tokens[i - 1].kind == TokenKind::number || tokens[i - 1].text == "k" ||
             tokens[i - 1].text == "p" || tokens[i - 1].text == "knit" ||
             tokens[i - 1].text == "purl" || follows_at(tokens, i) ||
             (tokens[i - 1].kind == TokenKind::word && tokens[i - 1].text.size() > 1 &&
              (tokens[i - 1].text.front() == 'k' || tokens[i - 1].text.front() == 'p') &&
              tokens[i - 1].text[1] >= '0' && tokens[i - 1].text[1] <= '9'))) {
            std::size_t to = i + 2;
            if (tokens[to].kind == TokenKind::open)
                while (tokens[to].kind != TokenKind::close && tokens[to].kind != TokenKind::end)
                    ++to;
            if (tokens[to].kind == TokenKind::close) ++to;
            if (tokens[to].kind == TokenKind::dash || tokens[to].kind == TokenKind::colon)
                return tokens[i].at;
        }
        if (follows_label(tokens, i)) return tokens[i].at;
        // "... around. R26: sc in each st", "... [18] R4-6: 18 sc"
        const std::size_t last = i + 4 < tokens.size() && tokens[i + 2].kind == TokenKind::dash &&
                                         tokens[i + 3].kind == TokenKind::number
                                     ? i + 4
                                     : i + 2;
        if (among(tokens[i], {"r"}) && tokens[i + 1].kind == TokenKind::number &&
            tokens[i + 1].at == tokens[i].at + 1 && tokens[last].kind == TokenKind::colon &&
            (tokens[i - 1].kind == TokenKind::full_stop || tokens[i - 1].kind == TokenKind::close))
            return tokens[i].at;
        // "Repeat rows 2-5 nine more times, and after that you finish with row 2"
        if (tokens[i - 1].kind == TokenKind::comma && among(tokens[i], {"and", "then"}) &&
            among(tokens[0], {"rep", "repeat"})) {
            std::size_t to = i + 1;
            while (among(tokens[to], {"then", "after", "that", "you", "finish", "end", "with",
                                      "making", "working", "a"}))
                ++to;
            if (to > i + 2 && row(to) && tokens[to + 1].kind == TokenKind::number &&
                among(tokens[to - 1], {"with", "making", "working", "a"}))
                return tokens[i].at;
        }
        if (tokens[i - 1].kind != TokenKind::full_stop && tokens[i - 1].kind != TokenKind::close &&
            !follows)
            continue;
        const bool rep =
            (tokens[i].text == "rep" || tokens[i].text == "repeat") &&
            std::any_of(tokens.begin(), tokens.begin() + static_cast<std::ptrdiff_t>(i),
                        [](const Token& t) { return t.kind == TokenKind::word; });
        if (rep && only_takes_yarn(tokens, i)) continue;
        if (rep &&
            (tokens[i - 1].kind == TokenKind::full_stop || tokens[i - 1].text == "k" ||
             tokens[i - 1].text == "p" || tokens[i - 1].text == "knit" ||
             tokens[i - 1].text == "purl") &&
            (row(i + 1) ||
             (tokens[i + 1].kind == TokenKind::ordinal &&  // "Rep 2nd to 15th rows"
              (row(i + 2) || (i + 4 < tokens.size() && tokens[i + 3].kind == TokenKind::ordinal &&
                              row(i + 4)))) ||
             (tokens[i + 1].kind == TokenKind::word &&
              (tokens[i + 1].text == "last" || tokens[i + 1].text == "the" ||
               tokens[i + 1].text == "these" || tokens[i + 1].text == "this" ||
               tokens[i + 1].text == "for") &&
              (row(i + 2) || tokens[i + 2].text == "step" ||
               (i + 3 < tokens.size() && row(i + 3)) || (i + 4 < tokens.size() && row(i + 4))))))
            return tokens[i].at;
        // "Continue alternating these 2 rows", "Continue for 12 more rows"
        if ((tokens[i].text == "continue" || tokens[i].text == "cont") &&
            tokens[i].kind == TokenKind::word && tokens[i - 1].kind == TokenKind::full_stop) {
            std::size_t to = i + 1;
            while (to < i + 6 && tokens[to].kind != TokenKind::end && !row(to) &&
                   tokens[to].kind != TokenKind::comma)
                ++to;
            const bool counts =
                tokens[i + 1].kind == TokenKind::number || tokens[i + 1].text == "for" ||
                tokens[i + 1].text == "alternating" || tokens[i + 1].text == "repeating";
            if (row(to) && counts) return tokens[i].at;
        }
        // "Dec Row 1:"
        const bool named = tokens[i].kind == TokenKind::word && row(i + 1) && !row(i) &&
                           (tokens[i].text.starts_with("inc") ||
                            tokens[i].text.starts_with("dec") || tokens[i].text == "next");
        if (named && tokens[i - 1].kind == TokenKind::full_stop) {
            std::size_t to = i + 2;
            if (tokens[to].kind == TokenKind::number) ++to;
            if (tokens[to].kind == TokenKind::colon) return tokens[i].at;
        }
        if (tokens[i].kind == TokenKind::ordinal && row(i + 1) &&
            tokens[i + 2].kind == TokenKind::colon)  // "7th row:"
            return tokens[i].at;
        if (!row(i) || tokens[i + 1].kind != TokenKind::number) continue;
        // "Row 2- 1 dc in each", "Round 4-17 ch 2, hdc"
        if (tokens[i + 2].kind == TokenKind::dash && begins_row(tokens, i + 2)) return tokens[i].at;
        std::size_t to = i + 2;  // "Rows 3-9 (RS):"
        while (tokens[to].kind != TokenKind::colon && tokens[to].kind != TokenKind::full_stop &&
               tokens[to].kind != TokenKind::end && to < i + 10)
            ++to;
        if (tokens[to].kind == TokenKind::colon) return tokens[i].at;
    }
    return 0;
}

std::optional<PlainRow> plain_row(std::string_view text) {
    PlainRow out;
    out.round = text.starts_with("rnd ");
    if (!out.round && !text.starts_with("row ")) return std::nullopt;
    const auto number = base::number_first<std::int64_t>(text.substr(4));
    if (!number || !number->rest.starts_with(':') || number->value < 1) return std::nullopt;
    out.number = number->value;
    out.body = number->rest;
    return out;
}

}  // namespace skeinfall::notation
