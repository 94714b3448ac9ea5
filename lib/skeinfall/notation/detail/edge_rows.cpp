#include "skeinfall/notation/detail/edge_rows.hpp"

#include <algorithm>
#include <initializer_list>
#include <string_view>

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
    const auto number = [&](long& value) {
        if (tokens[i].kind != TokenKind::number) return false;
        value = tokens[i++].value;
        return true;
    };
    while (take({"then", "and", "now"}) || tokens[i].kind == TokenKind::comma) {
        if (tokens[i].kind == TokenKind::comma) ++i;
    }
    bool bind = false;
    bool more = false;
    if (take({"bo", "bind-off"}))
        bind = true;
    else if (any({"bind", "cast"}) && i + 1 < tokens.size() && tokens[i + 1].text == "off") {
        bind = true;
        i += 2;
    } else if (take({"inc", "increase", "increasing"}))
        more = true;
    else if (!take({"dec", "decrease", "decreasing"}))
        return std::nullopt;
    long count = 0;
    if (!number(count) || count < 1) return std::nullopt;
    take({"st", "sts", "stitch", "stitches"});
    if (!take({"at", "on"}) && !any({"each"})) return std::nullopt;
    take({"the"});
    long ends = 1;
    if (take({"each", "both"}))
        ends = 2;
    else if (!bind)
        return std::nullopt;
    if (!take({"beg", "beginning", "start", "end", "ends", "side", "sides", "edge"}))
        return std::nullopt;
    if (take({"of"}) || take({"on"})) take({"the"});
    long rows = 1;    // bound off in so many
    long period = 1;  // a change every so many rows
    long times = 1;
    if (take({"next", "following"})) {
        if (number(rows) && !bind) {
            times = rows;
            rows = 1;
        }
        if (!take({"row", "rows", "rnd", "rnds", "round", "rounds"})) return std::nullopt;
    } else if (!bind && take({"every"})) {
        if (take({"other", "alt", "alternate", "2nd", "second"}))
            period = 2;
        else if (tokens[i].kind == TokenKind::ordinal)
            period = tokens[i++].value;
        take({"following", "foll"});
        if (!take({"row", "rows", "rnd", "rnds", "round", "rounds"})) return std::nullopt;
        if (any({"twice"})) {
            times = 2;
            ++i;
        } else if (!number(times) || !take({"times"})) {
            return std::nullopt;
        }
    } else {
        return std::nullopt;
    }
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
    if (tokens[i].kind != TokenKind::end || period < 1 || times < 1 || times * period > most_rows ||
        (bind && ends == 2))
        return std::nullopt;
    return EdgeRows{bind, more, count, rows, period, times, declared};
}

}  // namespace skeinfall::notation
