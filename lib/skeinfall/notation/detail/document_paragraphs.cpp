// Paragraphs of knitting that hold a heading and rows: "COWL Cast on 96 sts. ...", "Note: ...
// Lace Pattern Rnds 1 and 3: Knit. Rnd 2: ...".

#include <algorithm>
#include <cctype>
#include <cstddef>
#include <regex>
#include <string>
#include <utility>
#include <vector>

#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/document_reader.hpp"

namespace skeinfall::notation {
namespace {

Line piece_of(const Line& line, std::size_t from, std::size_t to) {
    Line out = line;
    while (from < to && line.text[from] == ' ') ++from;
    while (to > from && line.text[to - 1] == ' ') --to;
    out.text = line.text.substr(from, to - from);
    out.from.assign(line.from.begin() + static_cast<std::ptrdiff_t>(from),
                    line.from.begin() + static_cast<std::ptrdiff_t>(to));
    return out;
}

bool upper(char c) {
    return std::isupper(static_cast<unsigned char>(c)) != 0;
}

/// "Row 1", "Rnds 2-4", "Round 3 (RS)" with a colon near it.
bool label_at(const std::string& text, std::size_t at) {
    for (const std::string_view word : {"Row ", "Rows ", "Rnd ", "Rnds ", "Round ", "Rounds "}) {
        if (text.compare(at, word.size(), word) != 0) continue;
        const std::size_t number = at + word.size();
        const std::size_t colon = text.find(':', number);
        return number < text.size() && digit(text[number]) && colon != std::string::npos &&
               colon < number + 30 && text.find(". ", number) > colon;
    }
    return false;
}

/// "Bind off as follows: k2, slip ...": how every stitch is bound off. The bytes before "as
/// follows"; 0 for other lines.
std::size_t bind_off_told(const std::string& text) {
    const std::string low = base::lower(text);
    const bool binds =
        low.starts_with("bind off") || low.starts_with("cast off") || low.starts_with("bo ");
    const auto follows = low.find(" as follows");
    if (!binds || follows == std::string::npos || follows > 40 || follows + 14 > text.size())
        return 0;
    if (std::any_of(low.begin(), low.begin() + static_cast<std::ptrdiff_t>(follows), digit))
        return 0;
    for (const std::string_view more : {" row", " rnd", " round", " times", "next "})
        if (low.find(more, follows) != std::string::npos) return 0;
    return follows;
}

/// "Shape top: 1st rnd: *K6, ...", "Crown - Rnd 1: ...": the bytes of what stands before the row; 0
/// for other lines.
std::size_t shape_before_row(const std::string& text) {
    static const std::regex form(
        R"(^(?:to )?(?:shape|shaping) (?:the )?[a-z]+(?: [a-z]+)? ?[:.-] ?(?=(?:\d+(?:st|nd|rd|th) (?:row|rnd|round)|(?:next )?(?:row|rnd|round)s? ?\d*)\b[^:]{0,20}:))",
        std::regex::icase | std::regex::optimize);
    std::smatch found;
    if (text.size() < 12 || (text[0] | 0x20) < 's' || (text[0] | 0x20) > 't' ||
        !std::regex_search(text, found, form))
        return 0;
    return static_cast<std::size_t>(found.length(0));
}

}  // namespace

/// The bytes of "BACK", "LEFT FRONT (make 1)" before what casts on or has a label; 0 without such.
std::size_t DocumentReader::heading_in_capitals(const Line& line) const {
    const std::string& text = line.text;
    std::size_t at = 0;
    std::size_t end = 0;
    std::size_t words = 0;
    while (at < text.size() && words < 5) {
        std::size_t to = at;
        while (to < text.size() && (upper(text[to]) || text[to] == '\'' || text[to] == '-')) ++to;
        if (to > at + 1 && to < text.size() && text[to] == ':') return 0;  // "RIGHT FRONT: ..."
        if (to < at + 2 || (to < text.size() && text[to] != ' ')) break;
        const std::string word = base::lower(text.substr(at, to - at));
        if (one_of(word, {"co", "bo", "rs", "ws", "mc", "cc", "with", "cast", "row", "rnd", "pm",
                          "knit", "purl", "using", "work"}))
            break;
        end = to;
        ++words;
        at = std::min(to + 1, text.size());
    }
    if (words == 0) return 0;
    if (end + 1 < text.size() && text[end + 1] == '(') {  // "(make 2)"
        const auto close = text.find(')', end);
        if (close == std::string::npos || close > end + 16) return 0;
        end = close + 1;
    }
    const auto name = words_of(text.substr(0, end));
    const auto zone = zone_of(name);
    if ((zone && *zone != What::heading) || end + 2 >= text.size()) return 0;
    const auto rest = words_of(text.substr(end));
    if (rest.empty() || !letter(text[end + 1])) return 0;
    return row_words(rest) > 0 || (begins_base(rest) && has_number(rest)) ? end : 0;
}

/// The bytes of "Materials. - Two balls of wool. A pair of No. 9 needles." before the cast-on with
/// its number in the same paragraph; 0 for other lines.
std::size_t DocumentReader::base_behind_materials(const Line& line) const {
    const auto words = words_of(line.text);
    const auto zone = words.empty() ? std::nullopt : zone_of(words);
    if (!zone || (*zone != What::materials && *zone != What::gauge && *zone != What::size))
        return 0;
    const std::string low = base::lower(line.text);
    for (const std::string_view mark : {". cast on ", ". co ", ". cast "}) {
        const auto at = low.find(mark);
        if (at == std::string::npos || at + mark.size() >= low.size() ||
            !digit(low[at + mark.size()]))
            continue;
        return at + 2;
    }
    return 0;
}

namespace {

/// Whether words before a cast-on may be work: a number that is no tool's size, a verb.
bool tells_work(const std::vector<std::string>& words) {
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (one_of(words[i], {":", "*", "repeat", "rep", "cast", "knit", "purl"})) return true;
        if (!digit(words[i][0])) continue;
        const std::string before = i > 0 ? words[i - 1] : "";
        const bool dotted = before == "." && i > 1 && words[i - 2] == "no";
        if (!dotted && !one_of(before, {"size", "no", "#"})) return true;
    }
    return false;
}

}  // namespace

/// The bytes of "Slippers are worked with double yarn. " before "With double yarn, cast on 27
/// sts."; 0 for other lines.
std::size_t DocumentReader::base_behind_telling(const Line& line) const {
    const auto words = words_of(line.text);
    if (words.empty() || row_words(words) > 0 || bare_number(words) || begins_base(words)) return 0;
    if (line.text.size() > 250)  // a page without its line ends
        for (auto end = line.text.find(". ");
             end != std::string::npos && end + 12 < line.text.size();
             end = line.text.find(". ", end + 1)) {
            const auto next = words_of(line.text.substr(end + 2, 60));
            if (!next.empty() && row_words(next) > 0) break;
            if (!next.empty() && one_of(next[0], {"with", "using", "cast", "co"}) &&
                begins_base(next) && has_number(next))
                return end + 2;
        }
    if (zone_of(words)) return 0;
    for (auto at = line.text.find(". "); at != std::string::npos && at < 400;
         at = line.text.find(". ", at + 1)) {
        if (at + 12 > line.text.size() || tells_work(words_of(line.text.substr(0, at)))) return 0;
        if (at < 12) continue;
        const auto behind = words_of(line.text.substr(at + 2));
        const auto stop = std::find(behind.begin(), behind.end(), ".");
        const std::vector<std::string> first(behind.begin(), stop);
        if (!first.empty() && one_of(first[0], {"with", "using", "cast", "co"}) &&
            begins_base(first) && has_number(first))
            return at + 2;
    }
    return 0;
}

/// Where rows begin in a paragraph that does not begin with one; at least two of them.
std::vector<std::size_t> DocumentReader::rows_in_paragraph(const Line& line) const {
    std::vector<std::size_t> out;
    const auto first = words_of(line.text);
    if (line.text.size() < 60 || first.empty() || row_words(first) > 0) return out;
    const auto zone = zone_of(first);
    if (!zone || (*zone != What::stitches && *zone != What::notes && *zone != What::heading))
        return out;
    for (std::size_t at = 1; at + 8 < line.text.size(); ++at)
        if (line.text[at - 1] == ' ' && label_at(line.text, at) &&
            (out.empty() || line.text[at - 2] == '.'))
            out.push_back(at);
    if (out.size() < 2) out.clear();
    return out;
}

bool DocumentReader::asks_for_stitches(const std::vector<std::string>& words) {
    // "Complete the last row 44 times"
    for (std::size_t i = 0; i + 3 < words.size(); ++i)
        if (one_of(words[i], {"last", "previous", "this", "these"}) &&
            std::any_of(words.begin() + static_cast<std::ptrdiff_t>(i), words.end(),
                        [](const std::string& word) { return word == "times"; }) &&
            one_of(words[i + 1], {"row", "round", "rnd", "rows"}))
            return true;
    const auto at = [&](std::size_t i) { return i < words.size() ? words[i] : std::string(); };
    const bool talks = one_of(words[0], {"this", "i", "you'll", "if", "it", "my", "we", "they",
                                         "these", "the", "to", "when", "for", "because", "as"}) &&
                       !has_number(words) && at(1) != "next";
    for (std::size_t i = 0; i + 1 < words.size() && !talks; ++i) {
        if (!one_of(words[i], {"knit", "purl", "work", "rib"})) continue;
        const std::string& next = words[i + 1];
        if (number(next) || one_of(next, {"even", "plain", "every", "each", "across", "all",
                                          "straight", "until", "till", "stockinette", "garter"}))
            return true;
        if (one_of(next, {"for", "on", "to"}) &&
            (number(at(i + 2)) || one_of(at(i + 2), {"end", "last", "within"}) ||
             number(at(i + 3))))
            return true;
        if (next == "the" && one_of(at(i + 2), {"next", "last", "first", "remaining", "sts"}))
            return true;
        if (next == "in" && one_of(at(i + 2), {"st", "stockinette", "stocking", "garter", "rib",
                                               "ribbing", "pattern", "patt", "seed", "moss"}))
            return true;
    }
    return false;
}

namespace {

/// What is joined when a piece is made up.
bool sewn(const std::string& word) {
    return one_of(word, {"seam", "seams", "ends", "edges", "sides", "side", "shoulders", "pieces",
                         "shoulder", "underarm", "sleeve"});
}

/// "Join sole of foot seam and back of leg seams": no work in the round.
bool seamed(const std::vector<std::string>& words, std::size_t join) {
    bool seam = false;
    for (std::size_t i = join + 1; i < words.size() && words[i] != "."; ++i) {
        if (words[i].find("rnd") != std::string::npos ||
            words[i].find("round") != std::string::npos || one_of(words[i], {"circle", "ring"}))
            return false;
        seam = seam || one_of(words[i], {"seam", "seams", "mattress", "backstitch"});
    }
    return seam;
}

}  // namespace

/// Whether a line of rows is of work in the round: not "Do not join", not "around your head".
bool DocumentReader::says_round(const std::string& low, Craft craft) {
    if (low.find("magic") != std::string::npos) return true;
    const auto words = words_of(low);
    for (std::size_t i = 0; i < words.size(); ++i) {
        const std::string& word = words[i];
        if (craft == Craft::crochet) {
            if (word.find("join") != std::string::npos || word.find("rnd") != std::string::npos ||
                word.find("round") != std::string::npos ||
                (i > 0 && one_of(word, {"mc", "mr"}) && one_of(words[i - 1], {"in", "into"})))
                return true;
            continue;
        }
        const auto behind = [&](std::size_t by) {
            return i + by < words.size() ? words[i + by] : "";
        };
        if (word.starts_with("join") && i > 0 &&
            one_of(words[i - 1], {"not", "don't", "without", "before"})) {
            while (i + 1 < words.size() && words[i + 1] != "." && words[i + 1] != ",") ++i;
            continue;
        }
        if (word == "around" &&
            (one_of(behind(1), {"your", "my", "his", "her", "neck", "needle", "needles"}) ||
             (i > 1 && one_of(words[i - 1], {"yarn", "wrapped", "wound", "needle"})) ||
             (one_of(behind(1), {"top", "edge"}) && behind(2) == "of") ||
             (one_of(behind(1), {"the", "a"}) && !behind(2).starts_with("rnd") &&
              !behind(2).starts_with("round"))))
            continue;
        // "Join MC", "join a second ball": yarn alone
        bool yarn = false;
        for (std::size_t by = 1; by < 5 && word.starts_with("join"); ++by)
            yarn =
                yarn || one_of(behind(by), {"yarn", "ball", "skein", "mc", "cc", "wool", "second",
                                            "color", "colour", "new", "another", "contrast"});
        if (yarn) continue;
        // "Joining row: ..." of two parts, "Join in CC"
        if (word.starts_with("join") && one_of(behind(1), {"row", "in"})) continue;
        if (word == "join" && i > 2 && words[i - 1] == "and" &&  // "Break off red and join white"
            std::any_of(words.begin(), words.begin() + static_cast<std::ptrdiff_t>(i),
                        [](const auto& one) {
                            return one_of(one, {"break", "cut", "drop"});
                        }))
            continue;
        // "Join seams.", "Cast off and join ends.": made up
        if (word.starts_with("join") &&
            (sewn(behind(1)) || sewn(behind(2)) || sewn(behind(3)) || seamed(words, i)))
            continue;
        if (word.starts_with("join") || word.find("rnd") != std::string::npos ||
            word.find("round") != std::string::npos)
            return true;
    }
    return false;
}

/// "Now you have a rectangle of 174 sts.", "Do not worry, you won't purl that many rounds."
bool DocumentReader::talks_to_maker(const std::vector<std::string>& words) {
    if (words.size() < 4) return false;
    if (one_of(words[0], {"now", "then"}))
        return words[1] == "you" && one_of(words[2], {"have", "should", "will", "are"});
    return words[0] == "do" && words[1] == "not" && words[2] == "worry";
}

bool DocumentReader::begins_told_work(const std::vector<std::string>& words) {
    const std::string& word = words[0];
    if (word == "beginning" && words.size() > 4 && words[1] == "of")
        return !one_of(words[3], {"is", "will"}) && !one_of(words[4], {"is", "will"});
    // "Put it through the face of the stitch and you'll know the front."
    if (word == "put")
        return has_number(words) || std::any_of(words.begin(), words.end(), [](const auto& one) {
                   return one_of(one, {"holder", "hold", "needle", "needles", "thread", "marker"});
               });
    return one_of(word, {"beg", "begin", "beginning", "starting", "ss", "gs", "remove", "pick",
                         "keeping", "rejoin"});
}

bool DocumentReader::takes_up(const std::vector<std::string>& words) {
    for (std::size_t i = 0; i + 1 < words.size(); ++i)
        if (one_of(words[i], {"take", "taking", "pick", "picking", "knit"}) &&
            words[i + 1] == "up" && has_number(words))
            return true;
    return false;
}

bool DocumentReader::changes_edges(const std::vector<std::string>& words) {
    if (one_of(words[0], {"you", "this", "there", "it", "the", "these", "note", "if", "i", "my",
                          "sew", "weave", "graft", "cut", "break"}))
        return false;
    bool counted = false;
    for (std::size_t i = 0; i + 1 < words.size(); ++i)
        counted = counted ||
                  (number(words[i]) && one_of(words[i + 1], {"st", "sts", "stitch", "stitches"}));
    return counted && std::any_of(words.begin(), words.end(), [](const std::string& word) {
               return one_of(word, {"each", "every", "holder", "holders"});
           });
}

namespace {

bool none_numbered(const std::vector<std::string>& words) {
    return std::none_of(words.begin(), words.end(),
                        [](const std::string& word) { return digit(word[0]); });
}

}  // namespace

bool DocumentReader::only_tells(const std::vector<std::string>& words) {
    if (one_of(words[0], {"sew", "seam", "oversew", "stuff", "embroider"})) return true;
    // "Join sides leave gap for handle and spout"
    if (words.size() > 1 && words[0] == "join" && !has_number(words) &&
        one_of(words[1], {"sides", "seam", "seams", "shoulders", "ends", "edges"}) &&
        std::none_of(words.begin(), words.end(), [](const std::string& word) {
            return word.find("rnd") != std::string::npos ||
                   word.find("round") != std::string::npos ||
                   one_of(word, {"circle", "ring", "sts", "stitches", "row"});
        }))
        return true;
    // "To make a bigger blanket, increase by multiples of 8": the piece is complete without it
    if (words.size() > 4 && words[0] == "to" && one_of(words[1], {"make", "knit"}) &&
        std::any_of(words.begin() + 2, words.begin() + 5, [](const std::string& word) {
            return one_of(
                word, {"bigger", "larger", "smaller", "wider", "longer", "narrower", "shorter"});
        }))
        return true;
    // "(note: 8 rows = 4 ridges)"
    if (words.size() > 2 && words[0] == "(" && words[1] == "note" && words.back() == ")")
        return true;
    // "These 4 rows form the pattern."
    if (words.size() < 12 && one_of(words[0], {"these", "this", "the", "rows"}) &&
        std::any_of(words.begin(), words.end(),
                    [](const std::string& word) {
                        return one_of(word, {"form", "forms", "establish", "establishes", "from"});
                    }) &&
        one_of(words[words.back() == "." ? words.size() - 2 : words.size() - 1],
               {"pattern", "patt", "rib", "repeat", "ribbing", "established", "repeated"}))
        return true;
    // "Now let's get to it!"
    if (words.size() < 12 && std::find(words.begin(), words.end(), "let's") != words.end() &&
        !has_number(words))
        return true;
    // "If you want it larger, cast on 4 more stitches.": the piece is complete without it.
    std::size_t lead = one_of(words[0], {"and", "or", "but", "(", "*"}) ? 1 : 0;
    if (lead + 3 < words.size() && words[lead] == "if" &&
        one_of(words[lead + 1], {"you", "you'd"}) &&
        (words[lead + 1] == "you'd" ||
         one_of(words[lead + 2], {"want", "wish", "prefer", "would", "desire", "choose"})))
        return true;
    // "You have now finished the base and are ready to bind off", "This will be a bit tight for
    // the first 3 rows"
    const bool bare = std::none_of(words.begin(), words.end(),
                                   [](const std::string& word) { return digit(word[0]); });
    if (bare && words.size() > 4 && words[0] == "you" && one_of(words[1], {"have", "are"}) &&
        words[2] == "now")
        return true;
    if (words.size() > 4 && one_of(words[0], {"this", "it", "that"}) && words[1] == "will" &&
        words[2] == "be" &&
        one_of(words[3], {"a", "very", "quite", "fairly", "tight", "the", "too"}))
        return true;
    if (bare && std::any_of(words.begin(), words.end(), [](const std::string& word) {
            return one_of(word, {"you'll", "i've", "you've"});
        }))
        return true;
    // "Cut yarn off 3 in below the bind-off, and weave in ends."
    if (words.size() > 3 && one_of(words[0], {"cut", "break"}) &&
        one_of(words[1], {"yarn", "the", "wool"}) &&
        std::none_of(words.begin(), words.end(), [](const std::string& word) {
            return one_of(word, {"knit", "purl", "work", "rejoin", "join", "k", "p", "continue"});
        }))
        return true;
    // "These 6 rows are a seed stitch border."
    if (words.size() > 4 && words[0] == "these" && number(words[1]) &&
        one_of(words[2], {"rows", "rounds", "rnds"}) && one_of(words[3], {"are", "make", "create"}))
        return std::none_of(words.begin() + 3, words.end(), [](const std::string& word) {
            return digit(word[0]) || one_of(word, {"rep", "repeat", "repeated", "times"});
        });
    if (bare && words.size() > 5 && words.size() < 18 && words[0] == "place" &&
        std::any_of(words.begin(), words.end(),
                    [](const std::string& word) {
                        return one_of(word, {"marker", "markers"});
                    }) &&
        one_of(words[words.back() == "." ? words.size() - 2 : words.size() - 1],
               {"row", "rnd", "round", "edge", "side"}) &&
        std::none_of(words.begin(), words.end(), [](const std::string& word) {
            return one_of(word, {",", ";", "k", "p", "knit", "purl", "work", "between"});
        }))
        return true;
    if (words.size() > 8 && words[0] == "place" && words[1] == "a" &&
        one_of(words[2], {"marker", "stitch"}) && one_of(words[words.size() - 3], {"row", "rnd"}))
        return true;
    // "If you measure your head and would like to decrease the size, ..."
    if (words.size() > 6 && words[0] == "if" && words[1] == "you")
        for (std::size_t i = 2; i + 1 < words.size() && i < 10; ++i)
            if (words[i] == "would" && one_of(words[i + 1], {"like", "prefer", "rather"}))
                return true;
    // "Want a wider scarf? Knit more rows!"
    if (one_of(words[0], {"want", "keep", "remember"}) &&
        std::none_of(words.begin(), words.end(),
                     [](const std::string& word) { return digit(word[0]); }) &&
        (words[0] == "want" || (words.size() > 2 && one_of(words[1], {"in", "that"}))))
        return true;
    // "I like to mark on which side I decrease."
    if (one_of(words[0], {"i", "i've", "i'm", "we"}) &&
        std::none_of(words.begin(), words.end(),
                     [](const std::string& word) { return digit(word[0]); }))
        return true;
    if (words.size() > 3 && words[0] == "you" && words[1] == "should" && words[2] == "be")
        return true;
    // "For purl stitches: yo, purl, pass the yo over": how a bind-off is done
    if (words.size() > 5 && words[0] == "for" && one_of(words[1], {"knit", "purl"}) &&
        one_of(words[2], {"sts", "stitches"}) && words[3] == ":" &&
        std::find(words.begin(), words.end(), "pass") != words.end() && none_numbered(words))
        return true;
    // "Then I had 4 stitches and I bound off."
    if (words.size() > 3 && one_of(words[0], {"then", "so"}) && words[1] == "i" &&
        words[2] == "had")
        return true;
    if (words.size() > 4 && words[0] == "the" && words[1] == "next" && words[3] == "is")
        return std::none_of(words.begin(), words.end(), number);
    for (std::size_t i = 0; i + 1 < words.size() && i < 4; ++i)
        if (words[i] == "should" && words[i + 1] == "measure") return true;
    // "This type of decrease leans to the left.", "Our website shows the cast-on."
    const bool asks = std::any_of(words.begin(), words.end(), [](const std::string& word) {
        return one_of(word, {"rep", "repeat", "repeated", "times", "until", "work", "continue",
                             "worked", "row", "rows", "rounds", "rnds"});
    });
    if (!asks && words.size() > 2 && one_of(words[0], {"this", "that", "it", "these"}) &&
        one_of(words[1], {"type",      "kind",   "makes",    "make",  "is",     "gives", "creates",
                          "helps",     "allows", "prevents", "means", "leaves", "looks", "keeps",
                          "technique", "method", "ensures",  "was",   "were",   "avoids"}))
        return true;
    // "(Unlike the other pair, you don't need to pick up stitches.)"
    const bool you = std::any_of(words.begin(), words.end(), [](const std::string& word) {
        return one_of(word, {"you", "your", "you'll", "don't", "i", "my", "i've"});
    });
    if (!asks && you && (words[0] == "(" || words[0] == "that")) return true;
    for (std::size_t i = 0; i + 2 < words.size(); ++i) {
        if (words[i + 1] == "." && one_of(words[i + 2], {"com", "org", "net", "www"})) return true;
        if (one_of(words[i], {"tutorial", "tutorials", "website", "copyright", "blog"}))
            return true;
    }
    return false;
}

void DocumentReader::part_paragraphs() {
    std::vector<Line> out;
    for (const Line& line : lines_) {
        if (const std::size_t end = bind_off_told(line.text); end > 0) {
            out.push_back(piece_of(line, 0, end));
            out.push_back(piece_of(line, end, line.text.size()));
            out.back().told = true;
            continue;
        }
        if (const std::size_t end = base_behind_materials(line); end > 0) {
            out.push_back(piece_of(line, 0, end));
            out.push_back(piece_of(line, end, line.text.size()));
            out.back().blank_before = true;
            continue;
        }
        if (const std::size_t end = base_behind_telling(line); end > 0) {
            out.push_back(piece_of(line, 0, end));
            out.push_back(piece_of(line, end, line.text.size()));
            out.back().blank_before = true;
            continue;
        }
        if (const std::size_t end = heading_in_capitals(line); end > 0) {
            out.push_back(piece_of(line, 0, end));
            out.back().blank_before = true;
            out.push_back(piece_of(line, end, line.text.size()));
            out.back().blank_before = false;
            continue;
        }
        if (const std::size_t end = shape_before_row(line.text); end > 0) {
            out.push_back(piece_of(line, 0, end));
            out.push_back(piece_of(line, end, line.text.size()));
            out.back().blank_before = false;
            continue;
        }
        const auto rows = rows_in_paragraph(line);
        if (rows.empty()) {
            out.push_back(line);
            continue;
        }
        // The words right before the first row are its heading.
        const auto stop = line.text.rfind(". ", rows.front());
        const auto colon = line.text.rfind(": ", rows.front());
        std::size_t name = stop == std::string::npos ? 0 : stop + 2;
        if (colon != std::string::npos && colon + 2 > name && colon + 2 < rows.front())
            name = colon + 2;
        if (name > 0) out.push_back(piece_of(line, 0, name));
        if (Line title = piece_of(line, name, rows.front()); !title.text.empty()) {
            title.blank_before = true;
            if (title.text.back() != ':') {
                title.text += ':';
                title.from.push_back(title.from.back());
            }
            out.push_back(std::move(title));
        }
        for (std::size_t i = 0; i < rows.size(); ++i) {
            const std::size_t to = i + 1 < rows.size() ? rows[i + 1] : line.text.size();
            out.push_back(piece_of(line, rows[i], to));
            out.back().blank_before = false;
        }
    }
    lines_ = std::move(out);
}

}  // namespace skeinfall::notation
