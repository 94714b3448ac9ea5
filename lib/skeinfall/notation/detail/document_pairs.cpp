// Knitted pieces that are worked like others: "Make the second mitten to match.", "Work left front
// to correspond, reversing shaping."

#include <algorithm>
#include <string>
#include <vector>

#include "skeinfall/notation/detail/document_reader.hpp"

namespace skeinfall::notation {
namespace {

/// Things that are made in pairs, each of several pieces.
bool whole_thing(const std::string& word) {
    return one_of(word, {"mitten",   "mitt",    "sock",      "bootie",    "bootee",   "boot",
                         "slipper",  "glove",   "wrister",   "gaiter",    "one",      "wristwarmer",
                         "wristlet", "bootees", "armwarmer", "legwarmer", "stocking", "footlet",
                         "shoe",     "mitts",   "cuff",      "warmer",    "pair"});
}

/// Pieces of a thing that come twice.
bool piece_word(const std::string& word) {
    return one_of(word, {"sleeve", "front", "side", "half", "piece", "strap", "handle", "ear",
                         "leg", "arm", "pocket", "square", "panel", "tie", "back"});
}

/// "to match", "the same as the first one", "in the same way, reversing all shaping": nothing but
/// that it is worked alike.
bool only_alike(const std::vector<std::string>& words, std::size_t from) {
    bool alike = false;
    for (std::size_t i = from; i < words.size(); ++i) {
        if (one_of(words[i], {"match", "correspond", "same", "alike", "like", "as"})) alike = true;
        if (!one_of(words[i],
                    {"to",         "match",   "correspond", "the",    "same",        "as",
                     "first",      "one",     "in",         "way",    "manner",      "like",
                     "alike",      "exactly", ",",          ".",      "reversing",   "reverse",
                     "all",        "shaping", "shapings",   "with",   "omitting",    "buttonholes",
                     "buttonhole", "and",     "for",        "of",     "!",           "was",
                     "left",       "right",   "other",      "mitten", "mitt",        "sock",
                     "bootie",     "boot",    "front",      "sleeve", "side",        "directions",
                     "above",      "second",  "2nd",        "finish", "instructions"}))
            return false;
    }
    return alike || from >= words.size() || words[from] == ".";
}

/// "In this pattern you knit ...": tells, and asks for nothing.
bool tells_of_none(const std::vector<std::string>& words) {
    return std::any_of(words.begin(), words.end(), [](const std::string& word) {
        return one_of(word, {"you", "your", "i", "is", "are", "was", "will", "can", "may"});
    });
}

}  // namespace

bool DocumentReader::named_work(Line& line, const std::vector<std::string>& words) {
    const auto colon = line.text.find(':');
    if (document_.craft != Craft::knit || colon == std::string::npos || colon > 40 ||
        colon + 3 > line.text.size() || begins_work(words))
        return false;
    const auto name = words_of(line.text.substr(0, colon));
    const auto behind = words_of(line.text.substr(colon + 1));
    const bool plain = std::all_of(name.begin(), name.end(), [&](const std::string& word) {
        return letter(word[0]) && !stitch_word(word);
    });
    if (name.empty() || name.size() > 4 || behind.empty() || !plain || zone_of(name) ||
        one_of(name[0], {"note", "tip", "hint", "optional", "option", "materials", "or"}) ||
        row_words(behind) > 0 || !begins_work(behind) || tells_of_none(behind))
        return false;
    Line title = line;
    title.text.resize(colon);
    title.from.resize(colon);
    part(What::heading, title);
    cut_front(line, colon + 1);
    take_row(line, begins_base(behind) && !adds_to_needle(behind));
    return true;
}

bool DocumentReader::again_knit(const Line& line, const std::vector<std::string>& words) {
    if (document_.craft != Craft::knit || pending_.empty() || words.size() > 18 ||
        has_number(words) || row_words(words) > 0)
        return false;
    std::size_t at = 0;
    if (!one_of(words[at], {"make", "work", "knit", "repeat", "complete"})) return false;
    ++at;
    if (at < words.size() && words[at] == "for") ++at;
    if (at < words.size() && one_of(words[at], {"the", "a", "your"})) ++at;
    if (at + 1 >= words.size() ||
        !one_of(words[at], {"second", "other", "another", "2nd", "left", "right"}))
        return false;
    const std::string which = words[at++];
    const std::string name = words[at++];
    const bool whole = whole_thing(name);
    if ((!whole && !piece_word(name)) || !only_alike(words, at)) return false;
    const auto named = [&](const Pending& pending, const std::string& word) {
        const auto its = words_of(pending.section.name);
        return std::find(its.begin(), its.end(), word) != its.end();
    };
    if (one_of(which, {"left", "right"}) && !whole) {
        const std::string other = which == "left" ? "right" : "left";
        for (Pending& pending : pending_)
            if (named(pending, other) && named(pending, name)) {
                pending.section.times *= 2;
                part_counted(line);
                return true;
            }
        return false;
    }
    bool any = false;
    for (Pending& pending : pending_)
        if (whole || named(pending, name)) {
            pending.section.times *= 2;
            any = true;
        }
    if (any) part_counted(line);
    return any;
}

}  // namespace skeinfall::notation
