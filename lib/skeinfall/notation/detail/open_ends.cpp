// Lengths and numbers of rows that end a row's instructions.

#include <algorithm>
#include <initializer_list>
#include <string_view>

#include "skeinfall/notation/detail/labels.hpp"
#include "skeinfall/notation/detail/tokens.hpp"

namespace skeinfall::notation {
namespace {

using Words = std::initializer_list<std::string_view>;

const Words unworked_words{"work", "knit", "purl", "k", "p", "rib", "continue", "cont"};

bool stands(const std::vector<Token>& tokens, std::size_t first, std::size_t last, Words words) {
    for (std::size_t i = first; i < last && i < tokens.size(); ++i)
        if (among(tokens[i], words)) return true;
    return false;
}

}  // namespace

OpenEnd::From measured_from(const std::vector<Token>& tokens, std::size_t first, std::size_t last) {
    if (stands(tokens, first, last, {"beg", "beginning", "cast", "co", "cast-on", "start"}))
        return OpenEnd::From::piece;
    for (std::size_t i = first; i < last && i < tokens.size(); ++i) {
        if (!among(tokens[i], {"armhole", "armholes", "underarm", "underarms"})) continue;
        // "as long as you want to the underarm": where it ends
        std::size_t before = i;
        while (before > first && among(tokens[before - 1], {"the", "your"})) --before;
        if (before > first && among(tokens[before - 1], {"to"})) continue;
        return OpenEnd::From::armhole;
    }
    const bool part =
        stands(tokens, first, last,
               {"foot",   "thumb",  "hand",  "heel",    "flap",  "cuff",   "neckband", "collar",
                "yoke",   "gusset", "strap", "tie",     "toe",   "band",   "rib",      "ribbing",
                "marker", "join",   "above", "joining", "split", "divide", "division", "border",
                "i-cord", "icord",  "cord",  "point",   "tail",  "ear"});
    return part ? OpenEnd::From::here : OpenEnd::From::piece;
}

bool less_than_desired(const std::vector<Token>& tokens, std::size_t first, std::size_t last) {
    for (std::size_t i = first; i + 2 < last && i + 2 < tokens.size(); ++i)
        if (tokens[i].kind == TokenKind::length && tokens[i + 1].text == "from" &&
            stands(tokens, i + 2, i + 4, {"desired", "wanted", "finished", "total"}))
            return true;  // "1 in from desired length"
    return stands(tokens, first, last,
                  {"less", "short", "shorter", "shy", "minus", "within", "before", "under"}) &&
           stands(tokens, first, last,
                  {"desired", "total", "finished", "full", "wanted", "final", "your", "foot",
                   "like", "want", "wish", "would"});
}

bool length_of_yarn(const std::vector<Token>& tokens, std::size_t at) {
    if (at + 1 >= tokens.size() || tokens[at].kind != TokenKind::length) return false;
    const std::string_view text = tokens[at].text;
    const bool long_unit = text.find("yard") != std::string_view::npos || text.ends_with("yds") ||
                           text.ends_with("yd") || text.find("met") != std::string_view::npos;
    return long_unit && stands(tokens, at + 1, at + 3, {"remain", "remains", "left", "rem"});
}

std::optional<OpenEnd> take_open_end(std::vector<Token>& tokens, std::size_t from) {
    const auto any = [&](std::size_t i, Words words) {
        return i < tokens.size() && tokens[i].kind == TokenKind::word &&
               std::find(words.begin(), words.end(), tokens[i].text) != words.end();
    };
    const auto kind = [&](std::size_t i, TokenKind wanted) {
        return i < tokens.size() && tokens[i].kind == wanted;
    };
    const auto ends = [&](std::size_t i) {
        return kind(i, TokenKind::end) || kind(i, TokenKind::full_stop) ||
               kind(i, TokenKind::semicolon) || kind(i, TokenKind::open);
    };
    const auto take = [&](std::size_t first, std::size_t last) {
        // "for 10 in (25 cm)"
        if (kind(last, TokenKind::open) && kind(last + 1, TokenKind::length) &&
            kind(last + 2, TokenKind::close))
            last += 3;
        if (first > 0 && kind(first - 1, TokenKind::comma) && first - 1 >= from) --first;
        tokens.erase(tokens.begin() + static_cast<std::ptrdiff_t>(first),
                     tokens.begin() + static_cast<std::ptrdiff_t>(last));
    };
    int depth = 0;
    for (std::size_t i = from; i + 1 < tokens.size(); ++i) {
        if (kind(i, TokenKind::open)) ++depth;
        if (kind(i, TokenKind::close)) --depth;
        if (depth > 0) continue;
        OpenEnd out;
        out.at = tokens[i].at;
        const bool until = any(i, {"until", "till", "to"});
        const bool near = any(i, {"to"});  // the length stands at once behind "to"
        if (near && i > from &&
            any(i - 1, {"change", "changing", "color", "colour", "switch", "switching", "next"}))
            continue;  // "change color to light pink"
        if (near && (any(i + 1, {"marker", "markers", "m", "end"}) ||
                     (any(i + 1, {"next", "first", "last"}) && any(i + 2, {"marker", "m"}))))
            continue;
        if (!until && !any(i, {"for"})) {
            // "work 4 in in rib", "work in st st 4 in"
            std::size_t verb = from;
            while (any(verb, {"then", "now", "and", "next"})) ++verb;
            if (kind(i, TokenKind::length) && i > verb && any(verb, unworked_words) &&
                !any(i + 1, {"hook", "needle", "needles", "tail", "from"})) {
                out.length = tokens[i].length;
                take(i, i + 1);
                return out;
            }
            continue;
        }
        std::size_t end = i + 1;
        bool told = until && !near;  // "until it covers the thumb": a length left to the maker
        std::size_t words = 0;
        bool length = false;
        bool counted = false;
        bool two = false;
        bool yarn = false;
        const auto conversion = [&] {  // "2 in (5 cm) from the cast-on edge"
            return length && kind(end, TokenKind::open) && kind(end + 1, TokenKind::length) &&
                   kind(end + 2, TokenKind::close);
        };
        while ((!ends(end) || conversion()) && !(near && end > i + 6)) {
            if (conversion()) {
                end += 3;
                continue;
            }
            if (near && !length && kind(end, TokenKind::comma)) break;
            if (kind(end, TokenKind::dash) && (counted || length)) break;
            if (kind(end, TokenKind::length) && !length) {
                out.length = tokens[end].length;
                length = true;
            }
            if (kind(end, TokenKind::number) && !length) {
                two = counted;
                counted = true;
                out.rows = tokens[end].value;
            }
            if ((any(end, {"desired", "want", "wanted", "like", "wish"}) &&
                 !any(end + 1, {"number"}) && !(near && any(end - 1, {"as"}))) ||
                (until && !near &&
                 any(end,
                     {"reach", "reaches", "covers", "cover", "fits", "fit", "enough", "meets"})))
                out.desired = true;
            ++words;
            if (kind(end, TokenKind::number) ||
                any(end, {"st", "sts", "stitch", "stitches", "end", "marker", "markers", "row",
                          "rows", "round", "rounds", "all", "gap", "used", "worked", "last", "m",
                          "remain", "you"}))
                told = false;
            if (any(end, {"yarn", "wool"}) || length_of_yarn(tokens, end)) yarn = true;
            if (any(end, {"then"}) ||
                (kind(end, TokenKind::comma) && (length || counted || out.desired)))
                break;
            ++end;
        }
        if (yarn && until && !near) {  // "until a yard of yarn is left"
            out = OpenEnd{.whole = true, .desired = true, .at = out.at};
            take(i, end);
            return out;
        }
        // "until it reaches the fingertip (26 rounds)"
        if (until && !length && !counted && kind(end, TokenKind::open) &&
            kind(end + 1, TokenKind::number) &&
            any(end + 2, {"rows", "rnds", "rounds", "row", "rnd", "round"}) &&
            kind(end + 3, TokenKind::close)) {
            out = OpenEnd{.rows = tokens[end + 1].value, .at = out.at};
            take(i, end + 4);
            return out;
        }
        if (length) {
            out.rows = 0;
            out.less = less_than_desired(tokens, i, end);
            out.desired = out.less;
            out.whole = until;
            out.from = measured_from(tokens, i, end);
            take(i, end);
            return out;
        }
        if (!until && counted && !two && end <= i + 6 &&
            (any(end - 1, {"rows", "rnds", "rounds", "row", "rnd", "round"}))) {
            take(i, end);
            return out;
        }
        if ((out.desired || (told && words > 2)) && !counted) {
            out.desired = true;
            out.whole = true;
            take(i, end);
            return out;
        }
    }
    return std::nullopt;
}

}  // namespace skeinfall::notation
