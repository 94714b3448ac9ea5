// Crochet: lines that put pieces together or lead to rows, rows of other sizes, definitions that
// share a line.

#include <algorithm>
#include <cctype>
#include <cstddef>
#include <string>
#include <vector>

#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/document_reader.hpp"
#include "skeinfall/notation/detail/words.hpp"

namespace skeinfall::notation {
namespace {

bool any_role(const std::vector<std::string>& words, Role role) {
    return std::any_of(words.begin(), words.end(),
                       [&](const std::string& word) { return has_role(word, role); });
}

bool names(const std::vector<std::string>& words, Names these) {
    return std::any_of(words.begin(), words.end(),
                       [&](const std::string& word) { return one_of(word, these); });
}

/// The end of the sentence that begins at `from`, behind its stop.
std::size_t sentence_from(const std::string& text, std::size_t from) {
    for (std::size_t at = from; at < text.size(); ++at)
        if (std::string_view(".!?").find(text[at]) != std::string_view::npos &&
            (at + 1 == text.size() || text[at + 1] == ' ' || text[at + 1] == ')'))
            return at + 1;
    return text.size();
}

}  // namespace

/// Whether one sentence puts together what is there: no stitch of a row, no repeat, no number.
bool DocumentReader::assembles(const std::vector<std::string>& words) {
    if (words.size() < 2) return false;
    // "Join the ends with sl st to form a ring"
    std::vector<std::string> worked = words;
    if (names(words, {"together", "tog", "ends", "edges", "layers", "seam"}))
        std::erase_if(worked, [](const std::string& word) {
            return one_of(word, {"sl", "slip", "st", "stitch", "ss", "slst"});
        });
    if (works_stitches(worked, 0)) return false;
    if (names(words,
              {"rep",     "repeat",   "rpt",      "until",    "till", "each",  "every", "next",
               "inc",     "dec",      "increase", "decrease", "ch",   "chain", "*",     "times",
               "twice",   "continue", "cont",     "evenly",   "skip", "sk",    "miss",  "follows",
               "pattern", "more",     "sts",      "stitches", "all",  "same"}) ||
        std::any_of(words.begin(), words.end(), [](const std::string& word) {
            return word.size() > 1 && digit(word[0]) && !number(word);
        }))
        return false;
    // "Work back and forth in rows.", "Working in the round."
    if (one_of(words[0], {"now", "you", "you'll", "work", "working", "begin", "start", "then"}) &&
        !has_number(words) &&
        (names(words, {"forth", "turned"}) ||
         (names(words, {"in"}) && names(words, {"rows", "rounds", "round", "spiral", "rnds"}))))
        return !names(words, {"with", "for", "from"});
    // "Shape top", "Begin decreasing"
    if (words.size() < 5 && !has_number(words) &&
        (words[0] == "shape" || (one_of(words[0], {"begin", "start"}) &&
                                 names(words, {"decreasing", "increasing", "decreases"}))))
        return true;
    // "Turn up", "Turn up the brim"
    if (words[0] == "turn" && one_of(words[1], {"up", "down"}) && words.size() < 6 &&
        !has_number(words))
        return true;
    const bool joins = one_of(words[0], {"join", "rejoin", "attach", "reattach"});
    if (joins && names(words, {"with"}) && names(words, {"sc", "hdc", "dc", "tr"})) return false;
    // "Join B in any corner.": from there on it is worked in that yarn.
    if (joins &&
        (names(words, {"color", "colour", "mc", "cc"}) ||
         std::any_of(document_.yarns.begin(), document_.yarns.end(), [&](const YarnNames& yarn) {
             return std::any_of(words.begin(), words.end(), [&](const std::string& word) {
                 return word == base::lower(yarn.id);
             });
         })))
        return false;
    if (!has_role(words[0], Role::assembly) && !joins) return false;
    // "Join end to end and slip stitch or whip stitch closed"
    if (joins && words.size() > 3 && words[1] == "end" && words[2] == "to") return true;
    // A seam, where slip stitches along one edge would be an edging.
    if (one_of(words[0], {"ss", "slst", "sl", "slip"}) &&
        !names(words, {"together", "tog", "both", "layers", "seam", "close"}))
        return false;
    return any_role(words, Role::article);
}

/// "Hold the two sides together, sl st in every st.": a seam of stitches, whose yarn is told.
bool DocumentReader::seams_by_stitches(const std::vector<std::string>& words) const {
    // "Join end to end and either slip stitch or whip stitch closed."
    const bool seamed = one_of(words[0], {"join", "sew", "seam"}) &&
                        names(words, {"end", "ends", "edges", "sides"}) &&
                        names(words, {"slip", "sl", "whip", "whipstitch"}) &&
                        !names(words, {"yarn", "ch", "chain", "next", "each", "in", "into", "rnd",
                                       "row", "rows", "rnds", "*", "turn"});
    if (document_.craft == Craft::crochet && seamed) return true;
    return document_.craft == Craft::crochet && row_words(words) == 0 &&
           names(words, {"hold", "holding", "fold", "folded", "folding"}) &&
           names(words, {"together", "layers", "thicknesses"}) &&
           !names(words, {"rnd", "row", "rows", "rounds", "rnds", "*", "inc", "dec"}) &&
           names(words, {"sl", "slip", "sc", "single", "whip", "whipstitch", "sew", "slst", "ss"});
}

bool DocumentReader::puts_together(const std::string& text) {
    if (document_.craft != Craft::crochet || !in_rows_) return false;
    bool any = false;
    for (std::size_t from = 0; from < text.size();) {
        const std::size_t to = sentence_from(text, from);
        auto words = words_of(std::string_view(text).substr(from, to - from));
        from = to;
        while (!words.empty() && !letter(words.back()[0]) && !digit(words.back()[0]))
            words.pop_back();
        while (!words.empty() && !letter(words.front()[0]) && !digit(words.front()[0]))
            words.erase(words.begin());
        // "Ch 1, turn brim inside out"
        if (words.size() > 4 && one_of(words[0], {"ch", "chain"}) && words[1] == "1" &&
            words[2] == ",")
            words.erase(words.begin(), words.begin() + 3);
        if (words.empty()) continue;
        // "... so you have a tube. Ch 1."
        const bool chain =
            words.size() == 2 && one_of(words[0], {"ch", "chain"}) && words[1] == "1";
        const bool finishes =
            one_of(words[0], {"fasten", "weave", "finish", "cut", "do", "break"}) &&
            !works_stitches(words, 0) && !has_number(words);
        const bool closing = chain || finishes;
        if (!closing && !assembles(words)) return false;
        any = any || !closing;
    }
    return any;
}

bool DocumentReader::for_other_sizes(const Line& line, const std::vector<std::string>& words) {
    if (document_.craft != Craft::crochet || size_names_.empty()) return false;
    auto named = words;
    while (!named.empty() && !letter(named.back()[0]) && !digit(named.back()[0])) named.pop_back();
    const bool heading = named.size() > 1 && named.size() < 12 && row_words(named) == 0;
    const bool all =
        heading && one_of(named[0], {"all", "both"}) && one_of(named[1], {"sizes", "size"});
    const bool only =
        heading && (named.back() == "only" || one_of(named[0], {"size", "sizes", "for"}));
    if (all && named.size() < 4) {
        other_sizes_ = false;
        part(What::remark, line);
        return true;
    }
    if (only && named_sizes(named)) {
        // Where nothing says that all sizes go on, the rows below may be of all of them.
        const auto all_again = [](const Line& next) {
            const auto its = words_of(next.text);
            return its.size() > 1 && one_of(its[0], {"all", "both"}) && its[1] == "sizes";
        };
        if (std::none_of(lines_.begin() + static_cast<std::ptrdiff_t>(at_), lines_.end(),
                         all_again)) {
            part(What::may_work, line);
            return true;
        }
        const std::string& mine = size_names_[std::min(options_->size, size_names_.size() - 1)];
        other_sizes_ = std::find(named.begin(), named.end(), mine) == named.end();
        part(What::remark, line);
        return true;
    }
    if (!other_sizes_) return false;
    // A row without a number, or a heading, is of all sizes again.
    if (row_words(words) > 0 && !one_of(words[0], {"next", "all", "last"})) {
        part(What::remark, line);
        return true;
    }
    other_sizes_ = false;
    return false;
}

/// Whether the words name sizes of this pattern and nothing else.
/// "Use a marker. With white yarn create a magic ring with 6 sc.": the base behind what tells.
bool DocumentReader::ring_sentence(Line& line, const std::string& low) {
    for (const std::string_view ring :
         {"magic ring with ", "magic circle with ", "magic ring of "}) {
        const auto at = low.find(ring);
        if (at == std::string::npos || at + ring.size() >= low.size() ||
            !digit(low[at + ring.size()]))
            continue;
        const auto stop = low.rfind(". ", at);
        if (stop == std::string::npos) continue;
        Line told = line;
        told.text.resize(stop + 1);
        told.from.resize(stop + 1);
        part(zone_.value_or(What::remark), told);
        cut_front(line, stop + 1);
        take_row(line, true);
        return true;
    }
    return false;
}

/// "Ch 3, 1 dc into same space as ch 3, 2 dc into each dc around, join": within the rows, a chain
/// that begins a round and no base.
bool DocumentReader::goes_on_with_chain(const std::vector<std::string>& words) const {
    constexpr std::size_t shortest = 12;
    if (document_.craft != Craft::crochet || !in_rows_ || !has_rows_ || words.size() < shortest ||
        !one_of(words[0], {"ch", "chain"}) || !one_of(words[1], {"1", "2", "3", "4"}))
        return false;
    const auto has = [&](Names names) {
        return std::any_of(words.begin() + 2, words.end(),
                           [&](const std::string& word) { return one_of(word, names); });
    };
    return has({"around", "join"}) && has({"same", "each", "next"}) &&
           !has({"ring", "hook", "circle", "magic", "loop"});
}

/// "Ears: with white", and the ring below it.
bool DocumentReader::heading_with_yarn(const Line& line, const std::vector<std::string>& words) {
    const auto colon = std::find(words.begin(), words.end(), ":");
    constexpr std::size_t most = 7;
    if (document_.craft != Craft::crochet || words.size() > most || words.size() < 4 ||
        colon == words.end() || colon == words.begin() || colon + 2 >= words.end() ||
        !one_of(*(colon + 1), {"with", "in", "using"}) || has_number(words) ||
        stitch_word(words[0]) || row_words(words) > 0 || zone_of(words))
        return false;
    Line name = line;
    name.text.resize(line.text.find(':'));
    name.from.resize(name.text.size());
    new_heading(name);
    return true;
}

/// "We will be making 2 ears. One is small.": how many of a piece, which nothing else may say.
bool DocumentReader::tells_how_many(const std::vector<std::string>& words) const {
    for (std::size_t i = 0; i + 3 < words.size() && i < 8; ++i)
        if (one_of(words[i], {"we", "you", "you'll", "we'll"}) &&
            std::any_of(words.begin() + static_cast<std::ptrdiff_t>(i),
                        words.begin() + static_cast<std::ptrdiff_t>(std::min(i + 5, words.size())),
                        [](const std::string& word) {
                            return one_of(word, {"make", "making"});
                        }))
            for (std::size_t at = i + 1; at + 1 < words.size() && at < i + 6; ++at)
                if (one_of(words[at - 1], {"make", "making"}) &&
                    (number(words[at]) || one_of(words[at], {"two", "three", "four", "six"})) &&
                    words[at + 1].size() > 2 && words[at + 1].back() == 's')
                    return true;
    return false;
}

bool DocumentReader::named_sizes(const std::vector<std::string>& words) const {
    bool any = false;
    for (const std::string& word : words) {
        if (one_of(word, {"size", "sizes", "and", "&", ",", "for", "the", "or", "only"})) continue;
        if (std::find(size_names_.begin(), size_names_.end(), word) == size_names_.end())
            return false;
        any = true;
    }
    return any;
}

namespace {

/// "Ch = chain; sc = single crochet; tp = triple picot (ch 3, ...)": a line each.
void part_glossaries(std::vector<Line>& lines) {
    std::size_t rest_of_list = 0;  // the line that holds what is behind the last semicolon
    for (std::size_t at = 0; at < lines.size(); ++at) {
        const std::string& text = lines[at].text;
        if ((at == 0 || rest_of_list != at) &&
            (std::count(text.begin(), text.end(), '=') < 3 ||
             std::count(text.begin(), text.end(), ';') < 2 || row_words(words_of(text)) > 0))
            continue;
        const std::size_t stop = text.find("; ");
        if (stop == std::string::npos) continue;
        rest_of_list = at + 1;
        Line rest = lines[at];
        rest.text.erase(0, stop + 2);
        rest.from.erase(rest.from.begin(),
                        rest.from.begin() + static_cast<std::ptrdiff_t>(stop) + 2);
        lines[at].text.resize(stop);
        lines[at].from.resize(stop);
        lines.insert(lines.begin() + static_cast<std::ptrdiff_t>(at) + 1, std::move(rest));
    }
}

}  // namespace

void DocumentReader::part_definitions() {
    if (document_.craft != Craft::crochet) return;
    part_glossaries(lines_);
    // "... in next st. Solid mesh (sm): dc in next 3 sts."
    const auto named = [](const std::string& text, std::size_t from) {
        const std::size_t colon = text.find(':', from);
        if (colon == std::string::npos || colon > from + 36 || text[colon - 1] != ')') return false;
        const auto words = words_of(text.substr(from, colon - from));
        return words.size() > 3 && words.size() < 9 && row_words(words) == 0 &&
               std::isupper(static_cast<unsigned char>(text[from])) != 0 && !has_number(words) &&
               words[words.size() - 2].size() < 9;
    };
    for (std::size_t at = 0; at < lines_.size(); ++at) {
        if (!named(lines_[at].text, 0)) continue;
        for (std::size_t stop = lines_[at].text.find(". "); stop != std::string::npos;
             stop = lines_[at].text.find(". ", stop + 2)) {
            if (!named(lines_[at].text, stop + 2)) continue;
            Line rest = lines_[at];
            cut_front(rest, stop + 2);
            lines_[at].text.resize(stop + 1);
            lines_[at].from.resize(stop + 1);
            lines_.insert(lines_.begin() + static_cast<std::ptrdiff_t>(at) + 1, std::move(rest));
            break;
        }
    }
}

bool DocumentReader::again_for_other(const Line& line, const std::vector<std::string>& all) {
    if (document_.craft != Craft::crochet || pending_.empty()) return false;
    // "Fasten off. Make a second mitt the same. Sew in all ends.", "..., and make another one"
    const auto asks = [&](std::size_t i) {
        return all[i] == "make" ||
               (all[i] == "repeat" && i + 1 < all.size() && all[i + 1] == "for");
    };
    std::size_t from = 0;
    while (from < all.size() &&
           !(asks(from) && (from == 0 || one_of(all[from - 1], {".", "and", ",", "then"}))))
        ++from;
    if (from == all.size() || from > 14) return false;
    const auto start = all.begin() + static_cast<std::ptrdiff_t>(from);
    auto stop = std::find(start, all.end(), ".");
    for (auto it = start; it != stop && it + 3 < stop; ++it)  // ", but do not finish off"
        if (*it == "," && *(it + 1) == "but" && one_of(*(it + 2), {"do", "don't"})) stop = it;
    const std::vector<std::string> words(start, stop);
    if (words.size() < 2 || words.size() > 9 ||
        works_stitches(std::vector<std::string>(all.begin(), start), 0) ||
        (stop != all.end() && may_work(std::vector<std::string>(stop, all.end()))))
        return false;
    std::size_t at = 0;
    if (one_of(words[0], {"repeat", "rep"}) && words.size() > 3 && words[1] == "for")
        at = 2;
    else if (words[0] == "make")
        at = 1;
    else
        return false;
    if (at < words.size() && one_of(words[at], {"the", "your", "a", "one"})) ++at;
    if (at >= words.size() || !one_of(words[at], {"second", "other", "another", "2nd"}) ||
        has_number(words) ||
        names(words, {"row", "rows", "round", "rounds", "rnd", "rnds", "but", "except", "longer",
                      "shorter", "larger", "smaller", "reversing", "reversed", "only", "half"}) ||
        works_stitches(words, 1))
        return false;
    for (Pending& pending : pending_) pending.section.times *= 2;
    if (words[0] == "make")
        part_counted(line);
    else
        part(What::heading, line);
    return true;
}

}  // namespace skeinfall::notation
