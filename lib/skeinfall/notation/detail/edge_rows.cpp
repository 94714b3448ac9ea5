#include "skeinfall/notation/detail/edge_rows.hpp"

#include <algorithm>
#include <cstdint>
#include <initializer_list>
#include <string_view>
#include <utility>

#include "skeinfall/notation/detail/labels.hpp"

namespace skeinfall::notation {

/// "Bind off 6 sts at beg of next 2 rows", "dec 1 st at each end of every other row 4 times":
/// rows told by what happens at their edges.
std::optional<EdgeRows> edge_rows_of(const std::vector<Token>& tokens) {
    std::size_t i = 0;
    const auto any = [&](std::initializer_list<std::string_view> words) {
        return tokens[i].kind == TokenKind::word &&
               std::find(words.begin(), words.end(), tokens[i].text) != words.end();
    };
    const auto take = [&](std::initializer_list<std::string_view> words) {
        if (!any(words)) return false;
        ++i;
        return true;
    };
    const auto number = [&](std::int64_t& value) {
        if (tokens[i].kind != TokenKind::number) return false;
        value = tokens[i++].value;
        return true;
    };
    while (take({"then", "and", "now"}) || tokens[i].kind == TokenKind::comma) {
        if (tokens[i].kind == TokenKind::comma) ++i;
    }
    // "Continue in St st, cast on 9 sts ..."
    const std::size_t begin = i;
    if (take({"cont", "continue", "continuing", "keeping", "working"}) && take({"in"})) {
        while (take({"stockinette", "st", "stitch", "pattern", "patt", "garter", "rib", "as",
                     "established", "est", "the"})) {
        }
        if (tokens[i].kind == TokenKind::comma)
            ++i;
        else
            i = begin;
    } else {
        i = begin;
    }
    EdgeRows out;
    if (take({"bo", "bind-off"}))
        out.what = EdgeRows::What::bind;
    else if (any({"bind", "cast"}) && i + 1 < tokens.size() && tokens[i + 1].text == "off")
        i += 2;
    else if (any({"cast"}) && i + 1 < tokens.size() && tokens[i + 1].text == "on") {
        out.what = EdgeRows::What::cast;
        i += 2;
    } else if (take({"co"}))
        out.what = EdgeRows::What::cast;
    else if (take({"inc", "increase", "increasing"}))
        out.what = EdgeRows::What::more;
    else if (take({"dec", "decrease", "decreasing"}))
        out.what = EdgeRows::What::less;
    else
        return std::nullopt;
    if (tokens[i].kind == TokenKind::full_stop) ++i;  // "inc. 1 st"
    if (!number(out.count) || out.count < 1) return std::nullopt;
    take({"st", "sts", "stitch", "stitches"});
    if (!take({"at", "on"}) && !any({"each", "both"})) return std::nullopt;
    take({"the"});
    out.both = take({"each", "both"});
    if (!take({"beg", "beginning", "start", "end", "ends", "side", "sides", "edge"}))
        return std::nullopt;
    take({"edge", "edges"});
    const bool bound = out.what == EdgeRows::What::bind || out.what == EdgeRows::What::cast;
    if (bound && out.both) return std::nullopt;
    if (tokens[i].kind == TokenKind::comma) ++i;
    take({"of", "on"});
    take({"the"});
    // "of each of next 4 rows"
    if (any({"each", "every"}) && i + 1 < tokens.size() && tokens[i + 1].text == "of") i += 2;
    take({"the"});
    out.turns = schedule_of(tokens, i);
    if (out.turns.empty()) return std::nullopt;
    std::vector<Declared> declared;
    while (tokens[i].kind == TokenKind::full_stop || tokens[i].kind == TokenKind::dash ||
           tokens[i].kind == TokenKind::open || tokens[i].kind == TokenKind::equals)
        ++i;
    if (tokens[i].kind == TokenKind::number) {
        Declared one;
        one.at = tokens[i].at;
        one.count = tokens[i].value;
        declared.push_back(one);
        ++i;
        while (take({"sts", "st", "stitches", "remain", "rem", "left", "remaining"}) ||
               tokens[i].kind == TokenKind::close || tokens[i].kind == TokenKind::full_stop) {
            if (tokens[i].kind == TokenKind::close || tokens[i].kind == TokenKind::full_stop) ++i;
        }
    }
    if (tokens[i].kind != TokenKind::end) return std::nullopt;
    for (const Turns& turns : out.turns)
        if (turns.period < 1 || turns.times < 1 || turns.period > most_rows ||
            turns.times > most_rows / turns.period)
            return std::nullopt;
    out.declared = std::move(declared);
    return out;
}

}  // namespace skeinfall::notation
