// Crochet: sentences beside the rows that leave something to the maker, or only talk.

#include <algorithm>
#include <string>
#include <vector>

#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/document_reader.hpp"

namespace skeinfall::notation {
namespace {

bool has_any(const std::vector<std::string>& words, Names names, std::size_t most = 400) {
    const auto end = words.begin() + static_cast<std::ptrdiff_t>(std::min(words.size(), most));
    return std::any_of(words.begin(), end,
                       [&](const std::string& word) { return one_of(word, names); });
}

/// "you can", "you could", but not "you can now".
bool leaves_open(const std::vector<std::string>& words) {
    for (std::size_t i = 0; i + 2 < words.size(); ++i)
        if (words[i] == "you" && one_of(words[i + 1], {"can", "could", "may", "might"}) &&
            !one_of(words[i + 2], {"now", "begin", "start", "continue", "then", "see", "work"}))
            return true;
    return false;
}

/// "if you want it longer", "if you crochet tightly", "for a wider scarf", "to make it longer".
bool other_size(const std::vector<std::string>& words) {
    const auto starts = [&](Names names) { return one_of(words[0], names); };
    const bool larger =
        has_any(words, {"larger", "bigger", "smaller", "longer", "shorter", "wider", "narrower",
                        "thicker", "thinner", "taller", "deeper", "adjust", "size", "slouchier",
                        "fit", "tighter", "looser", "different"});
    for (std::size_t i = 0; i + 2 < words.size() && i < 3; ++i)
        if (words[i] == "if" && words[i + 1] == "you" &&
            one_of(words[i + 2], {"want", "wish", "prefer", "would", "like", "need", "find",
                                  "crochet", "decide"}))
            return true;
    for (std::size_t i = 0; i + 2 < words.size(); ++i)  // "for any other size"
        if (words[i] == "for" && one_of(words[i + 1], {"any", "other", "another", "different"}) &&
            has_any({words.begin() + static_cast<std::ptrdiff_t>(i) + 1, words.end()},
                    {"size", "sizes"}, 3))
            return true;
    return larger && ((starts({"for"}) && words.size() > 2 && words[1] == "a") ||
                      (starts({"to"}) && words.size() > 2 &&
                       one_of(words[1], {"make", "adjust", "change", "get"})));
}

}  // namespace

/// A sentence that works nothing of the pattern itself: it may be left, or speaks of the page.
bool DocumentReader::advises(std::vector<std::string> words) {
    while (!words.empty() &&
           (!letter(words[0][0]) || one_of(words[0], {"also", "note", "tip", "hint", "then", "of",
                                                      "course", "again", "notes", "tips", "so"})))
        words.erase(words.begin());
    if (words.empty()) return true;
    if (has_any(words, {"next", "*"}, 12) && works_stitches(words, 0)) return false;
    // "These can be made smaller by omitting a round", "It is worked in long rows."
    if (one_of(words[0], {"these", "they", "this", "it"}) && words.size() > 2 &&
        ((one_of(words[1], {"can", "could", "may", "will"}) &&
          has_any(words,
                  {"worn", "made", "adjusted", "used", "larger", "smaller", "taller", "longer",
                   "shorter", "bigger", "wider"},
                  8)) ||
         (one_of(words[1], {"is", "are"}) &&
          one_of(words[2], {"worked", "crocheted", "made", "done"}) && !has_number(words))))
        return true;
    // "Start working back and forth in rows."
    if (one_of(words[0], {"start", "begin", "now"}) && !has_number(words) &&
        has_any(words, {"back", "rows", "rounds"}, 7) &&
        has_any(words, {"working", "crocheting"}, 3))
        return true;
    if (leaves_open(words) || other_size(words)) return true;
    // "4 stitches of the round will be left unworked."
    if (has_any(words, {"will"}) && has_any(words, {"unworked", "unused"})) return true;
    if (one_of(words[0], {"feel", "keep"}) && words.size() > 2 && one_of(words[1], {"free"}))
        return true;
    if (one_of(words[0], {"make", "take", "keep"}) && has_any(words, {"note", "notes", "mind"}, 4))
        return true;
    if (one_of(words[0], {"optional", "optionally"})) return true;
    // "*Rounds; black yarn"
    if (words.size() < 6 && one_of(words[0], {"rounds", "rows"}) &&
        one_of(words.back(), {"yarn", "wool", "thread", "color", "colour"}) && !has_number(words))
        return true;
    return one_of(words[0], {"i", "i'm", "i've", "i'd", "my", "mine"}) &&
           has_any(words, {"used",     "made",   "crocheted", "measured", "did",   "like",
                           "think",    "found",  "ended",     "had",      "was",   "started",
                           "counted",  "placed", "stitched",  "sewed",    "added", "put",
                           "repeated", "worked", "measures",  "takes",    "will",  "use",
                           "prefer",   "always", "usually",   "hate",     "love"},
                   8);
}

/// Whether each of its sentences that may hold work is advice.
bool DocumentReader::only_advises(const std::string& text) {
    if (document_.craft != Craft::crochet) return false;
    bool any = false;
    for (std::size_t from = 0; from < text.size();) {
        std::size_t to = from;
        while (to < text.size() &&
               !((text[to] == '.' || text[to] == '!' || text[to] == '?') &&
                 (to + 1 == text.size() || text[to + 1] == ' ' || text[to + 1] == ')')))
            ++to;
        const auto words = words_of(std::string_view(text).substr(from, to - from));
        if (!words.empty() && may_work(words)) {
            if (!advises(words)) return false;
            any = true;
        }
        from = to + 1;
    }
    return any;
}

/// "Now you've finished the first three rows!": it begins like work and only talks.
bool DocumentReader::chats(const std::vector<std::string>& words) {
    if (document_.craft != Craft::crochet || !in_rows_ || words.size() < 3 ||
        works_stitches(words, 0))
        return false;
    // "With black yarn and a yarn needle, stitch the eyes and mouth."
    if (one_of(words[0], {"with", "using"}) && has_any(words, {"needle"}, 12) && !has_number(words))
        return true;
    const bool talks =
        has_any(words, {"you've", "you're", "you'll", "you",    "we",    "we've",
                        "we're",  "we'll",  "i",      "i'm",    "i've",  "let's",
                        "that's", "it's",   "this",   "here's", "don't", "congratulations",
                        "hooray", "yay",    "well"},
                4);
    return talks && std::none_of(words.begin(), words.end(), [&](const std::string& word) {
               return digit(word[0]) || word == "*" ||
                      one_of(
                          word,
                          {"rep",        "repeat",     "until",   "continue", "cont",  "work",
                           "make",       "chain",      "ch",      "inc",      "dec",   "increase",
                           "decrease",   "skip",       "turn",    "join",     "do",    "crochet",
                           "repeating",  "working",    "times",   "again",    "add",   "same",
                           "count",      "counts",     "counted", "each",     "every", "as",
                           "increasing", "decreasing", "slip",    "place",    "sk",    "miss"});
           });
}

/// A row under its label, and that it goes on to a length that nobody gives.
void DocumentReader::take_row_to_length(Line row, const std::string& label, const Line& line) {
    row.text.insert(0, label);
    row.from.insert(row.from.begin(), label.size(), line.from.front());
    Line again = line;
    again.text = "Rep last row to desired length.";
    again.from.assign(again.text.size(), line.from.front());
    take_row(row, false);
    take_row(again, false);
}

/// "Round 14 until the hat is the desired length: sc in all sts around"
bool DocumentReader::row_until_length(const Line& line) {
    const std::string low = base::lower(line.text);
    const auto colon = low.find(':');
    const auto until = std::min(low.find(" until "), low.find(" till "));
    if (until == std::string::npos || colon == std::string::npos || until > 12 || colon < until ||
        colon > 80)
        return false;
    const auto words = words_of(low.substr(until, colon - until));
    if (has_number(words) || !has_any(words, {"length", "long", "size", "fits", "tall", "deep"}))
        return false;
    Line row = line;
    cut_front(row, colon + 1);
    take_row_to_length(std::move(row), line.text.substr(0, until) + ": ", line);
    return true;
}

/// "Rounds 15+ sc in each sc around until reaching desired height. = 78 sc"
bool DocumentReader::rows_from_on(const Line& line) {
    const auto plus = line.text.find('+');
    if (plus == std::string::npos || plus == 0 || plus > 12 || !digit(line.text[plus - 1]))
        return false;
    const auto label = words_of(line.text.substr(0, plus));
    if (row_words(label) != 2 || label.size() != 2) return false;
    const std::string low = base::lower(line.text);
    auto until = std::min(low.find(" until "), low.find(" till "));
    const auto to = std::min(low.find(" to desired"), low.find(" for desired"));
    until = std::min(until, to);
    if (until == std::string::npos) return false;
    const auto end = std::min(low.find_first_of(".,=(;", until), low.size());
    const auto words = words_of(low.substr(until, end - until));
    if (has_number(words) || !has_any(words, {"desired", "length", "height", "size", "long", "tall",
                                              "like", "want", "fits", "deep", "big"}))
        return false;
    Line row = line;
    row.text.erase(until, end - until);
    row.from.erase(row.from.begin() + static_cast<std::ptrdiff_t>(until),
                   row.from.begin() + static_cast<std::ptrdiff_t>(end));
    cut_front(row, plus + 1);
    while (!row.text.empty() && (row.text.front() == ':' || row.text.front() == ')'))
        cut_front(row, 1);
    const std::string name = (label[0].starts_with("row") ? "Row " : "Rnd ") + label[1] + ": ";
    take_row_to_length(std::move(row), name, line);
    return true;
}

bool DocumentReader::row_to_length(const Line& line) {
    if (document_.craft == Craft::crochet && rows_from_on(line)) return true;
    const auto words = words_of(line.text);
    if (document_.craft != Craft::crochet || words.size() < 8 || row_words(words) != 2 ||
        !number(words[1]))
        return false;
    std::size_t at = words[2] == "," ? 3 : 2;
    if (!one_of(words[at], {"to", "until", "till"})) return false;
    ++at;
    if (row_until_length(line)) return true;
    bool length = false;
    for (; at < words.size() && at < 9; ++at) {
        length = length || one_of(words[at], {"length", "size"});
        if (!one_of(words[at], {"the", "your", "desired", "required", "length", "size", "needed",
                                "wanted", "preferred"}))
            break;
    }
    if (!length || at >= words.size() || !one_of(words[at], {",", ":", ".", "-"})) return false;
    const std::string low = base::lower(line.text);
    const auto named = std::min(low.find(" length"), low.find(" size"));
    const auto sign = line.text.find_first_of(",:.-", named);
    Line row = line;
    cut_front(row, sign + 1);
    const std::string label = "Row " + words[1] + ": ";
    row.text.insert(0, label);
    row.from.insert(row.from.begin(), label.size(), line.from.front());
    Line again = line;
    again.text = "Rep row " + words[1] + " to desired length.";
    again.from.assign(again.text.size(), line.from.front());
    take_row(row, false);
    take_row(again, false);
    return true;
}

/// "2 balls of DK yarn, 100 g each", "5 mm hook", where no heading names the materials.
bool DocumentReader::names_material(const std::vector<std::string>& words) const {
    if (document_.craft != Craft::crochet || in_rows_ || words.size() > 60 || words.size() < 2)
        return false;
    const bool counted = has_number(words) || has_any(words, {"one", "two", "three", "a", "any"}) ||
                         std::any_of(words.begin(), words.end(), [](const std::string& word) {
                             return digit(word[0]) && letter(word.back());  // "50g", "5mm"
                         });
    if (!counted || has_any(words, {"?", "row", "rows", "round", "rnd", "pattern", "you", "ch"}))
        return false;
    const bool amount =
        has_any(words, {"ball",    "balls", "skein", "skeins", "hank",   "hanks", "ounce",
                        "ounces",  "oz",    "grams", "gram",   "g",      "gr",    "gm",
                        "gms",     "yards", "yds",   "yd",     "mm",     "50g",   "100g",
                        "worsted", "hook",  "dk",    "aran",   "chunky", "bulky", "weight"});
    const bool thing =
        has_any(words, {"yarn", "wool", "cotton", "acrylic", "hook", "thread", "worsted", "dk",
                        "aran", "chunky", "bulky", "yarns", "needle", "scissors"});
    return amount && thing;
}

/// "*Ch 12, sk 10, sc in next 18 sts; rep from *. Cut the yarn and pull through.", "Bind off:
/// *insert hook in next bar ...": rows, though they speak of loops.
bool DocumentReader::works_and_pulls(const std::string& low) {
    const auto words = words_of(low);
    if (one_of(words[0], {"bind", "last", "final", "edging", "border", "cast"})) return true;
    for (const std::string_view sign : {"insert", "yarn over", "loops", "pull up", "draw up"})
        if (low.find(sign) != std::string::npos) return false;
    return works_stitches(words, 0);
}

/// "For blanket stitch (blst), yo, insert hook in next st, ...": the rest may stand in the lines
/// below, as a page breaks them.
bool DocumentReader::stitch_told_for(const std::string& low, const Line& line) {
    const auto open = low.find('(');
    const auto close = low.find(')', open == std::string::npos ? low.size() : open);
    constexpr std::size_t short_form = 10;
    if (!low.starts_with("for ") || close == std::string::npos || close > open + short_form ||
        close + 2 >= low.size())
        return false;
    std::string how = low.substr(close + 2);
    std::size_t more = at_;
    while (how.back() != '.' && more + 1 < lines_.size() && !lines_[more + 1].blank_before)
        how += ' ' + base::lower(lines_[++more].text);
    bool any = false;
    define_as(low.substr(open + 1, close - open - 1), how, line, any);
    if (!any) return false;
    part(What::stitches, line);
    while (at_ < more) part(What::stitches, lines_[++at_]);
    return true;
}

What DocumentReader::open_or_told(const Line& line, const std::vector<std::string>& words) {
    return may_work(words) && !only_advises(line.text) ? What::may_work : What::remark;
}

}  // namespace skeinfall::notation
