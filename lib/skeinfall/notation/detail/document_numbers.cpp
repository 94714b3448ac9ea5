// Lines that are told by the lines around them: numbered steps, broken sentences, lines for some
// sizes only.

#include <algorithm>
#include <cctype>
#include <cstdint>
#include <iterator>
#include <optional>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/notation/detail/document_reader.hpp"
#include "skeinfall/notation/detail/words.hpp"

namespace skeinfall::notation {
namespace {

/// A number alone in brackets behind the name of a piece says how often it is made up to here.
constexpr std::int64_t most_pieces = 12;

std::int64_t value_of(const std::string& word) {
    std::int64_t value = 0;
    for (const char c : word) value = std::min<std::int64_t>(100'000, 10 * value + (c - '0'));
    return value;
}

}  // namespace

void DocumentReader::cut_front(Line& line, std::size_t bytes) {
    while (bytes < line.text.size() && line.text[bytes] == ' ') ++bytes;
    line.text.erase(0, bytes);
    line.from.erase(line.from.begin(), line.from.begin() + static_cast<std::ptrdiff_t>(
                                                               std::min(bytes, line.from.size())));
}

/// "1 double crochet in ...", "3 half double crochets": a name of several words.
bool DocumentReader::spelled_stitch(const std::vector<std::string>& words, std::size_t at) const {
    if (document_.craft != Craft::crochet) return false;
    std::size_t end = at;
    while (end < words.size() && end < at + 3 &&
           one_of(words[end], {"single", "double", "half", "treble", "triple"}))
        ++end;
    return end > at && end < words.size() && one_of(words[end], {"crochet", "crochets"});
}

bool DocumentReader::works_stitches(const std::vector<std::string>& words, std::size_t from) {
    for (std::size_t i = from; i < words.size(); ++i) {
        if (!stitch_word(words[i])) continue;
        if (digit(words[i].front()) || digit(words[i].back())) return true;
        if (i > from && number(words[i - 1])) return true;
        if (i + 1 < words.size() &&
            (number(words[i + 1]) ||
             one_of(words[i + 1], {"in", "into", "across", "around", "to", "twice"})))
            return true;
    }
    return false;
}

bool DocumentReader::tells_of_face(const std::vector<std::string>& words) {
    if (document_.craft != Craft::crochet ||
        !one_of(words[0], {"add", "insert", "place", "attach", "put", "sew", "use", "embroider"}))
        return false;
    bool face = false;
    for (const std::string& word : words) {
        face = face || one_of(word, {"eye", "eyes", "nose", "mouth", "face", "whiskers", "beak"});
        if (stitch_word(word) && !one_of(word, {"st", "sts", "stitch", "stitches", "use"}))
            return false;
    }
    return face;
}

/// Whether a numbered line is a step of the work: "2. Inc x 8", "3. *Sc, inc* x 8".
bool DocumentReader::works_step(const std::vector<std::string>& words) {
    if (works_stitches(words, 2)) return true;
    const auto has = [&](Names names) {
        return std::any_of(words.begin() + 2, words.end(),
                           [&](const std::string& word) { return one_of(word, names); });
    };
    const bool counted = words.back() == "]" || words.back() == ")";
    return counted && std::any_of(words.begin() + 2, words.end(), number) &&
           has({"inc", "dec", "mr", "mc", "magic", "around", "increase", "decrease"});
}

void DocumentReader::tell_numbered() {
    if (document_.craft != Craft::crochet) return;
    std::vector<std::size_t> run;
    std::vector<std::vector<std::size_t>> short_runs;
    std::int64_t last = 0;
    bool any = false;
    const auto mark = [&](const std::vector<std::size_t>& steps) {
        for (const std::size_t at : steps) {
            Line& line = lines_[at];
            line.numbered = true;
            std::size_t digits = 0;
            while (digits < line.text.size() && digit(line.text[digits])) ++digits;
            while (digits + 1 < line.text.size() && line.text[digits] == ' ') ++digits;
            const bool range = digits + 1 < line.text.size() && digit(line.text[digits + 1]);
            if (line.text[digits] == '-' && !range) line.text[digits] = '.';
        }
    };
    const auto close = [&] {
        const auto working =
            static_cast<std::size_t>(std::count_if(run.begin(), run.end(), [&](std::size_t at) {
                return works_step(words_of(lines_[at].text));
            }));
        if (run.size() >= 3 && 2 * working >= run.size()) {
            any = true;
            mark(run);
        } else if (!run.empty() && working == run.size()) {
            short_runs.push_back(run);
        }
        run.clear();
    };
    for (std::size_t at = 0; at < lines_.size(); ++at) {
        const auto words = words_of(lines_[at].text);
        if (words.size() < 3 || !number(words[0])) continue;
        const std::int64_t first = value_of(words[0]);
        std::int64_t end = first;
        std::size_t sign = 1;
        if (words[1] == "-" && number(words[2]) && words.size() > 4 &&
            one_of(words[3], {".", ")", ":"})) {
            end = value_of(words[2]);
            sign = 3;
        }
        if (!one_of(words[sign], {".", ")", ":", "-"}) || words.size() <= sign + 1) continue;
        if (words[sign] == "-" && number(words[sign + 1])) continue;
        if (first == 1) {
            close();
        } else if (run.empty() || first <= last || first > last + 40) {
            continue;
        }
        run.push_back(at);
        last = end;
    }
    close();
    // A small piece among others whose steps are numbered.
    if (any)
        for (const auto& steps : short_runs) mark(steps);
}

void DocumentReader::tell_lettered(std::map<std::string, std::vector<std::string>>& found) const {
    std::map<char, std::int64_t> letters;
    for (const Line& line : lines_) {
        const std::string& text = line.text;
        for (std::size_t at = 1; at + 1 < text.size(); ++at) {
            const char c = text[at];
            if (c < 'A' || c > 'H' || text[at - 1] != ' ' ||
                std::string_view(" ,.:;").find(text[at + 1]) == std::string_view::npos)
                continue;
            const auto blank = text.rfind(' ', at - 2);
            const std::string before =
                base::lower(text.substr(blank == std::string::npos ? 0 : blank + 1,
                                        at - 1 - (blank == std::string::npos ? 0 : blank + 1)));
            const bool hook = base::lower(text.substr(at, 8)).find("hook") != std::string::npos;
            if (one_of(before, {"with", "join", "using", "attach", "to"}) && !hook) ++letters[c];
        }
    }
    if (letters.size() < 2) return;
    for (const auto& [c, times] : letters) {
        const std::string name(1, static_cast<char>(std::tolower(static_cast<unsigned char>(c))));
        found.try_emplace(name, std::vector<std::string>{name, "color " + name, "colour " + name});
    }
}

std::int64_t DocumentReader::times_said(const std::string& name) {
    static constexpr std::string_view spelled[] = {
        "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"};
    const auto words = words_of(base::lower(name));
    const auto value = [&](std::size_t i) -> std::int64_t {
        if (i >= words.size()) return 0;
        if (number(words[i])) return value_of(words[i]) <= 1000 ? value_of(words[i]) : 0;
        for (std::size_t n = 0; n < std::size(spelled); ++n)
            if (words[i] == spelled[n]) return static_cast<std::int64_t>(n) + 2;
        return 0;
    };
    const auto unit_at = [&](std::size_t i) {
        return i < words.size() &&
               one_of(words[i], {"\"", "cm", "mm", "in", "inch", "inches", "'"});
    };
    for (std::size_t i = 0; i + 1 < words.size(); ++i)
        if (words[i] == "both" && one_of(words[i + 1], {"alike", "the", "same"})) return 2;
    for (std::size_t i = 0; i < words.size(); ++i) {
        std::size_t at = i + 1;
        // "24 x 24 cm", '34" L x 5" W'
        if (words[i] == "x" &&
            (unit_at(i - 1) || unit_at(i + 2) || (i > 0 && number(words[i - 1]))))
            continue;
        if (number(words[i]) && i + 2 < words.size() && words[i + 1] == "x" && number(words[i + 2]))
            continue;
        if (words[i] == "make" || words[i] == "work") {
            while (at < words.size() && one_of(words[at], {":", "(", "-"})) ++at;
            if (value(at) > 0 && !(i > 0 && words[i - 1] == "to")) return value(at);
        }
        if (one_of(words[i], {"x", "*"}) && value(at) > 0) return value(at);
        if (words[i].size() > 1 && words[i].front() == 'x' && number(words[i].substr(1)))
            return value_of(words[i].substr(1));
        if (words[i].size() > 1 && words[i].back() == 'x' &&
            number(words[i].substr(0, words[i].size() - 1)))
            return value_of(words[i].substr(0, words[i].size() - 1));
        if (number(words[i]) && i + 1 < words.size() && words[i + 1] == "x") return value(i);
        // "Legs (2)"; a larger number alone is rather a count: "Sleeve (36)"
        if (i > 0 && words[i] == "(" && i + 2 < words.size() && value(i + 1) > 0 &&
            ((words[i + 2] == ")" && number(words[i + 1]) && value(i + 1) <= most_pieces) ||
             one_of(words[i + 2], {"pc", "pcs", "pieces"})))
            return value(i + 1);
    }
    return 0;
}

bool DocumentReader::names_piece(const Line& line, const std::vector<std::string>& words) {
    const std::int64_t times = times_said(line.text);
    if (document_.craft != Craft::crochet || words.size() > (times > 0 ? 12U : 9U) ||
        line.text.back() == '.' || line.text.back() == ',' ||
        line.text.find('=') != std::string::npos || may_work(words) ||
        std::any_of(words.begin(), words.end(), [&](const std::string& word) {
            return stitch_word(word) && !one_of(word, {"pc", "pcs"});
        }))
        return false;
    const bool plain = words.size() <= 4 &&
                       std::isupper(static_cast<unsigned char>(line.text.front())) != 0 &&
                       std::all_of(words.begin(), words.end(), [](const std::string& word) {
                           return letter(word[0]) || one_of(word, {":", "&", "(", ")", "-"});
                       });
    if (times == 0 && !plain) return false;
    for (std::size_t ahead = 1; ahead <= (times > 0 ? 4U : 1U); ++ahead) {
        if (at_ + ahead >= lines_.size()) return false;
        const Line& next = lines_[at_ + ahead];
        const auto its = words_of(next.text);
        if (its.empty()) continue;
        if (begins_piece(next)) return true;
        if (row_words(its) > 0) return false;
        if ((times > 0 || (in_rows_ && has_rows_ && ahead == 1)) && begins_base(its) &&
            base_says(its))
            return true;
    }
    return false;
}

bool DocumentReader::begins_piece(const Line& line) const {
    if (document_.craft != Craft::crochet) return false;
    const std::string low = base::lower(line.text);
    const auto words = words_of(low);
    if (words.size() < 4) return false;
    const std::size_t label = row_words(words);
    const bool one =
        (label > 0 && (std::find(words.begin(), words.begin() + 3, "1") != words.begin() + 3 ||
                       words[0] == "r1" || words[0] == "rnd1" || words[0] == "row1" ||
                       words[0] == "round1" || words[0] == "1st")) ||
        (label == 0 && words[0] == "1");
    if (!one) return false;
    // "Rnd 1: 5 ch"
    if (words.size() <= label + 4 && one_of(words.back(), {"ch", "chain", "chains"}) &&
        number(words[words.size() - 2]))
        return true;
    return std::any_of(words.begin(), words.end(),
                       [](const std::string& word) {
                           return one_of(word, {"magic", "mr", "adjustable", "mc", "ring"});
                       }) ||
           low.find("from hook") != std::string::npos ||
           low.find("from the hook") != std::string::npos ||
           low.find("from hk") != std::string::npos;
}

bool DocumentReader::begins_anew(const Line& line) const {
    if (!begins_piece(line)) return false;
    const std::string low = base::lower(line.text);
    const auto words = words_of(low);
    const bool back = low.find("from hook") != std::string::npos ||
                      low.find("from the hook") != std::string::npos;
    for (std::size_t i = 0; i + 1 < words.size(); ++i)
        if (one_of(words[i], {"magic", "mr", "adjustable"}) ||
            (back && i > 0 && words[i].starts_with("ch") && words[i].size() > 2 &&
             number(words[i].substr(2)) && one_of(words[i - 1], {":", ".", "-"})) ||
            (back && i > 1 && one_of(words[i], {"ch", "chain"}) && number(words[i + 1]) &&
             one_of(words[i - 1], {":", ".", "-"})))
            return true;
    return false;
}

bool DocumentReader::row_one_next() const {
    if (document_.craft != Craft::crochet || at_ + 1 >= lines_.size()) return false;
    const auto words = words_of(lines_[at_ + 1].text);
    if (words.size() < 3 || row_words(words) == 0) return false;
    return words[0] == "1st" || words[0] == "first" || words[0] == "r1" || words[0] == "row1" ||
           words[0] == "rnd1" || words[0] == "round1" || words[1] == "1" || words[1] == "one";
}

bool DocumentReader::only_joins(const std::vector<std::string>& words) {
    if (words.size() < 2 || words.size() > 30 || pending_.empty() || !in_rows_) return false;
    const auto row = words_of(row_so_far().text);
    if (row_words(row) == 0 && !row_so_far().numbered) return false;
    // "Chain 2 and turn."
    if (words.size() < 8 && one_of(words[0], {"ch", "chain", "turn"}) &&
        (words[0] == "turn" ? words.size() <= 3 : number(words[1])) &&
        std::all_of(
            words.begin() + 1, words.end(),
            [](const std::string& word) {
                return number(word) || one_of(word, {"and", "then", "turn", ",", ".", "work"});
            }) &&
        std::find(words.begin(), words.end(), "turn") != words.end())
        return true;
    std::size_t at = 0;
    if (one_of(words[0], {"join", "close"}))
        at = 1;
    else if (one_of(words[0], {"sl", "slip"}) && one_of(words[1], {"st", "stitch"}) &&
             words.size() > 2 && !one_of(words[2], {",", ".", "and"}))
        at = 2;
    else if (one_of(words[0], {"ss", "slst"}))
        at = 1;
    // Nothing but the closing and a count.
    return at > 0 &&
           std::none_of(words.begin() + static_cast<std::ptrdiff_t>(at), words.end(),
                        [](const std::string& word) {
                            return one_of(word, {"rep", "repeat", "*", "each", "next", "yarn",
                                                 "color", "colour", "anywhere", "any", "turn"});
                        });
}

bool DocumentReader::times_star(const std::string& text, std::size_t at) {
    std::size_t before = at;
    while (before > 0 && text[before - 1] == ' ') --before;
    std::size_t behind = at + 1;
    while (behind < text.size() && text[behind] == ' ') ++behind;
    const std::string change = before > 2 ? base::lower(text.substr(before - 3, 3)) : "";
    if (one_of(change, {"inc", "dec"}) && behind < text.size() && digit(text[behind]) &&
        std::count(text.begin(), text.end(), '*') % 2 == 1)
        return true;  // "inc * 6"
    return before > 0 && (text[before - 1] == ')' || text[before - 1] == ']') &&
           behind < text.size() && digit(text[behind]);
}

bool DocumentReader::only_names_rounds(const std::vector<std::string>& words,
                                       std::size_t at) const {
    if (document_.craft != Craft::crochet || !one_of(words[at], {"rounds", "rows", "rnds"}))
        return false;
    if (at > 1 && words[at - 1] == "in" && one_of(words[at - 2], {"worked", "work", "working"}))
        return true;
    const bool places = std::any_of(words.begin(), words.end(), [](const std::string& word) {
        return one_of(word, {"eye", "eyes", "nose", "mouth", "muzzle", "whiskers", "embroider"});
    });
    return places && at > 0 && one_of(words[at - 1], {"between", "across", "over", "on"});
}

bool DocumentReader::sentence_of_round(const Line& next,
                                       const std::vector<std::string>& words) const {
    return document_.craft == Craft::crochet && words.size() > 3 && !next.blank_before &&
           !next.numbered && row_words(words) == 0 && !bare_number(words) &&
           (next.text.back() == '.' || next.text.back() == '!' || next.text.back() == ')') &&
           !counts_note(next.text);
}

bool DocumentReader::in_midst(const std::string& text) {
    const auto blank = text.rfind(' ');
    if (blank == std::string::npos) return false;
    const std::string last = base::lower(text.substr(blank + 1));
    return one_of(last, {"from", "in",  "into", "of",   "to",    "the",   "next", "each",
                         "and",  "a",   "an",   "with", "every", "first", "last", "around",
                         "on",   "top", "same", "rep",  "rpt",   "for",   "at",   "repeat"}) &&
           text.size() > 30;
}

namespace {

/// "xl" as "XL"; other names as they are.
std::string shown_size(const std::string& name) {
    std::string out = name;
    if (name.size() < 5 && name.find_first_not_of("xsml0123456789") == std::string::npos)
        for (char& c : out) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    return out;
}

}  // namespace

void DocumentReader::tell_size_names() {
    if (document_.sizes < 2) return;
    for (const Line& line : lines_) {
        const std::string low = base::lower(line.text);
        if (low.find("size") == std::string::npos && low.find("fit") == std::string::npos) continue;
        for (std::size_t open = low.find_first_of("(["); open != std::string::npos;
             open = low.find_first_of("([", open + 1)) {
            const std::size_t close = low.find_first_of(")]", open);
            if (close == std::string::npos) break;
            const auto before = words_of(low.substr(0, open));
            if (before.empty() || !(letter(before.back()[0]) || digit(before.back()[0]))) continue;
            std::vector<std::string> names{before.back()};
            for (const std::string& word : words_of(low.substr(open + 1, close - open - 1)))
                if (letter(word[0]) || digit(word[0])) names.push_back(word);
            if (names.size() != document_.sizes ||
                std::set<std::string>(names.begin(), names.end()).size() != names.size())
                continue;
            for (const std::string& name : names) document_.size_names.push_back(shown_size(name));
            size_names_ = std::move(names);
            return;
        }
    }
}

bool DocumentReader::of_some_sizes(Line& line) {
    const auto colon = line.text.find(':');
    if (colon == std::string::npos || colon > 60) return false;
    auto words = words_of(line.text.substr(0, colon));
    if (words.size() == 2 && one_of(words[0], {"all", "both"}) && words[1] == "sizes") {
        cut_front(line, colon + 1);
        return true;
    }
    if (words.size() < 2 || words.back() != "only") return false;
    const bool led = one_of(words[0], {"size", "sizes", "for"});
    words.pop_back();
    std::vector<std::string> named;
    for (const std::string& word : words)
        if (!one_of(word, {"size", "sizes", "and", "&", ",", "for", "the", "or"}))
            named.push_back(word);
    const bool known =
        !size_names_.empty() && std::all_of(named.begin(), named.end(), [&](const auto& name) {
            return std::find(size_names_.begin(), size_names_.end(), name) != size_names_.end();
        });
    if (!known && !led) return false;
    if (!known) {
        part(What::may_work, line);
        line.text.clear();
        return true;
    }
    const std::string& mine = size_names_[std::min(options_->size, size_names_.size() - 1)];
    if (std::find(named.begin(), named.end(), mine) == named.end()) {
        part(What::remark, line);
        line.text.clear();
        return true;
    }
    cut_front(line, colon + 1);
    return true;
}

namespace {

/// "6-19 (6-25)" or "20 (26)" at byte `at`: where its bracket begins and ends; nothing for others.
/// `range`: only "6-19 (6-25)".
std::optional<std::pair<std::size_t, std::size_t>> second_size(const std::string& text,
                                                               std::size_t at, bool range) {
    const auto number_end = [&](std::size_t from) {
        std::size_t to = from;
        while (to < text.size() && digit(text[to])) ++to;
        if (to > from && to + 1 < text.size() && text[to] == '-' && digit(text[to + 1])) {
            ++to;
            while (to < text.size() && digit(text[to])) ++to;
        } else if (range) {
            return from;
        }
        return to;
    };
    const std::size_t first = number_end(at);
    if (first == at || first + 3 >= text.size() || text[first] != ' ' || text[first + 1] != '(')
        return std::nullopt;
    const std::size_t second = number_end(first + 2);
    if (second == first + 2 || second >= text.size() || text[second] != ')') return std::nullopt;
    return std::pair(first, second);
}

/// Where the number of a label begins, "Row 20 (26):"; 0 for other lines.
std::size_t label_number(const std::string& text) {
    const std::string low = base::lower(text.substr(0, 8));
    for (const std::string_view word : {"rows ", "row ", "rnds ", "rnd ", "rounds ", "round "})
        if (low.starts_with(word)) return word.size();
    return 0;
}

}  // namespace

bool DocumentReader::labels_of_two_sizes() const {
    std::size_t found = 0;
    for (const Line& line : lines_) {
        const std::size_t at = label_number(line.text);
        const auto second = at > 0 ? second_size(line.text, at, false) : std::nullopt;
        if (second && second->second + 1 < line.text.size() && line.text[second->second + 1] == ':')
            ++found;
    }
    return found > 1;
}

void DocumentReader::choose_label(Line& line) const {
    if (document_.craft != Craft::crochet || document_.sizes != 2) return;
    const auto erase = [&](std::size_t from, std::size_t to) {
        line.text.erase(from, to - from);
        line.from.erase(line.from.begin() + static_cast<std::ptrdiff_t>(from),
                        line.from.begin() + static_cast<std::ptrdiff_t>(to));
    };
    const std::size_t label = label_number(line.text);
    for (std::size_t at = label > 0 ? label : 1; at < line.text.size(); ++at) {
        if (!digit(line.text[at]) || digit(line.text[at - 1]) || line.text[at - 1] == '-') continue;
        const auto second = second_size(line.text, at, at != label);
        if (!second) continue;
        if (options_->size == 0) {
            erase(second->first, second->second + 1);
        } else {
            erase(second->second, second->second + 1);
            erase(at, second->first + 2);
        }
    }
}

bool DocumentReader::knit_sentence(const std::vector<std::string>& words) {
    const auto has = [&](Names names) {
        return std::any_of(words.begin(), words.end(),
                           [&](const std::string& word) { return one_of(word, names); });
    };
    if (words[0] == "next" && words.size() > 3 && words[1] == ":") return true;
    // "Heel flap is worked back and forth over the next 32 sts."
    const std::vector<std::string> first(words.begin(), std::find(words.begin(), words.end(), "."));
    const auto says = [&](Names names) {
        return std::any_of(first.begin(), first.end(),
                           [&](const std::string& word) { return one_of(word, names); });
    };
    if (says({"forth", "fro"}) && says({"worked", "work", "working", "knit", "knitted"}) &&
        says({"sts", "stitches"}) && has_number(first) && !says({"i", "if", "you'll", ":"}))
        return true;
    // "After last increase round, knit 2 rounds.", "Make eyelets as follows: ...", "Return held
    // sts to dpns."
    if (words[0] == "after" && words.size() > 6 && says({"final", "last"}) && says({","}) &&
        says({"knit", "purl", "work"}) && has_number(first) && !says({"you", "i", "your"}))
        return true;
    if (words[0] == "making" && says({"sure"}) && says({"twisted", "twist"}) && says({"join"}))
        return true;
    if (words[0] == "make" && says({"eyelet", "eyelets", "buttonhole", "buttonholes"}) &&
        has({"k2tog", "yo", "yf", "yfwd", "yrn"}))
        return true;
    if (one_of(words[0], {"return", "place", "put", "slip", "transfer"}) && says({"held"}) &&
        says({"sts", "stitches"}))
        return true;
    if (words[0] == "st" && words.size() > 3 && (words[1] == "-" || words[1] == "st")) return true;
    return one_of(words[0], {"these", "this"}) && has({"repeat", "rep"}) &&
           has({"times", "twice", "once"});
}

bool DocumentReader::same_piece(const Line& line, const std::vector<std::string>& words,
                                const std::string& heading) {
    if (heading.empty()) return false;
    std::size_t at = 0;
    const auto take = [&](Names names) {
        if (at >= words.size() || !one_of(words[at], names)) return false;
        ++at;
        return true;
    };
    take({"work", "knit", "make", "worked"});
    take({"exactly", "the"});
    take({"same"});
    if (!take({"as", "like"}) && !(take({"identical"}) && take({"to"}))) return false;
    take({"given", "told", "directed"});
    take({"for", "on"});
    take({"the"});
    std::vector<std::string> name;
    while (at < words.size() && name.size() < 3 && letter(words[at][0]) &&
           !one_of(words[at], {"but", "reversing", "except", "with", "until", "to"}))
        name.push_back(words[at++]);
    if (name.empty()) return false;
    // ", reversing all shaping": each row has as many stitches.
    while (take({",", "but", "and", "with"})) {
    }
    if (take({"reversing", "reverse", "reversed"})) {
        take({"all", "the"});
        if (!take({"shaping", "shapings"})) return false;
    }
    take({"."});
    if (at < words.size()) return false;
    for (const Pending& pending : pending_) {
        const auto named = words_of(pending.section.name);
        if (!std::all_of(name.begin(), name.end(), [&](const std::string& word) {
                return std::find(named.begin(), named.end(), word) != named.end();
            }))
            continue;
        Pending again = pending;
        again.section.name = heading;
        again.section.line = line.number;
        again.section.times = 1;
        name_section(again.section);
        heading_.clear();
        part(What::heading, line);
        pending_.push_back(std::move(again));
        has_rows_ = true;
        return true;
    }
    return false;
}

}  // namespace skeinfall::notation
