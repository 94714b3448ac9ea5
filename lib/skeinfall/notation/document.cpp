#include "skeinfall/notation/document.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <initializer_list>
#include <map>
#include <set>
#include <utility>

#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/grammar.hpp"
#include "skeinfall/notation/detail/labels.hpp"
#include "skeinfall/notation/detail/lines.hpp"

namespace skeinfall::notation {
namespace {

using What = DocumentPart::What;
using Names = std::initializer_list<std::string_view>;

bool letter(char c) {
    return std::isalpha(static_cast<unsigned char>(c)) != 0;
}
bool digit(char c) {
    return std::isdigit(static_cast<unsigned char>(c)) != 0;
}

/// Words in small letters, digits with them; signs are words of their own.
std::vector<std::string> words_of(std::string_view text) {
    std::vector<std::string> out;
    for (std::size_t at = 0; at < text.size();) {
        if (text[at] == ' ') {
            ++at;
            continue;
        }
        std::size_t end = at;
        while (end < text.size() && (letter(text[end]) || digit(text[end]) || text[end] == '\'' ||
                                     (static_cast<unsigned char>(text[end]) & 0x80U) != 0))
            ++end;
        if (end == at) ++end;
        out.push_back(base::lower(text.substr(at, end - at)));
        at = end;
    }
    return out;
}

bool one_of(std::string_view word, Names names) {
    return std::find(names.begin(), names.end(), word) != names.end();
}

bool number(const std::string& word) {
    return !word.empty() && std::all_of(word.begin(), word.end(), digit);
}

/// What a heading opens, by its words.
std::optional<What> zone_of(const std::vector<std::string>& words) {
    if (words.empty()) return std::nullopt;
    const auto has = [&](Names names) {
        return std::any_of(words.begin(), words.end(),
                           [&](const std::string& word) { return one_of(word, names); });
    };
    const std::string& first = words.front();
    if (one_of(first, {"gauge", "tension"})) return What::gauge;
    if (one_of(first, {"material", "materials", "supplies", "yarn", "yarns", "hook", "hooks",
                       "needle", "needles", "notions", "tools", "equipment", "wool"}) ||
        (first == "what" && has({"need"})) || (first == "you" && has({"need"})))
        return What::materials;
    if (one_of(first, {"size", "sizes", "measurements", "dimensions"}) ||
        (one_of(first, {"finished", "to", "approximate", "approx", "completed"}) &&
         has({"size", "sizes", "measurement", "measurements", "fit", "fits", "measures"})))
        return What::size;
    if (one_of(first, {"abbreviation", "abbreviations", "abbrev", "key"}) ||
        (one_of(first, {"stitch", "stitches"}) &&
         has({"guide", "key", "abbreviations", "used", "list", "know"})))
        return What::abbreviations;
    if (one_of(first, {"special", "pattern"}) && has({"stitch", "stitches", "st"}))
        return What::stitches;
    if (one_of(first, {"note", "notes", "tips", "tip"}) || (first == "pattern" && has({"notes"})))
        return What::notes;
    if (one_of(first, {"finishing", "assembly", "finish", "blocking"}) ||
        (first == "making" && has({"up"})))
        return What::finishing;
    if (one_of(first, {"instructions", "directions", "pattern", "instruction"}) ||
        (words.size() > 1 && one_of(words[1], {"instructions", "directions"})))
        return What::heading;
    return std::nullopt;
}

class Reader {
  public:
    Reader(std::string_view text, const DocumentOptions& options)
        : text_(text), options_(&options), lines_(lines_of(text)) {}

    Document run() {
        tell_craft();
        book_.emplace(document_.craft, document_.terms);
        tell_sizes();
        for (at_ = 0; at_ < lines_.size(); ++at_) line();
        end_section();
        for (Pending& pending : pending_) work(pending);
        return std::move(document_);
    }

  private:
    struct Pending {
        Section section;
        std::vector<Line> lines;
    };

    // ---- what the whole text tells

    void tell_craft() {
        long knit = 0;
        long hook = 0;
        long us = 0;
        long uk = 0;
        for (const Line& line : lines_)
            for (const std::string& word : words_of(line.text)) {
                if (one_of(word, {"knit",    "purl",   "k2tog", "ssk",         "knitting",
                                  "needles", "needle", "kfb",   "stockinette", "p2tog",
                                  "dpns",    "psso",   "k2",    "p2",          "k1",
                                  "p1",      "k3",     "p3",    "m1",          "yo",
                                  "k",       "p",      "knits", "knitted",     "stockinette"}))
                    ++knit;
                if (one_of(word, {"ch", "sc", "hdc", "dc", "crochet", "hook", "htr", "chain", "tr",
                                  "sl", "2dc", "3dc", "2sc", "fpdc"}))
                    ++hook;
                if (one_of(word, {"sc", "hdc", "sc2tog"})) ++us;
                if (one_of(word, {"htr", "dtr", "htr2tog", "tension", "miss"})) ++uk;
            }
        document_.craft = options_->craft.value_or(knit > hook ? Craft::knit : Craft::crochet);
        const std::string all = base::lower(text_);
        const auto says = [&](Names names) {
            return std::any_of(names.begin(), names.end(), [&](std::string_view name) {
                return all.find(name) != std::string::npos;
            });
        };
        bool british = us == 0 && uk > 0 && all.find("htr") != std::string::npos;
        if (says({"uk terms", "british terms", "uk crochet terms", "u.k. terms", "uk terminology",
                  "british terminology", "uk term"}))
            british = true;
        if (says({"us terms", "american terms", "us crochet terms", "u.s. terms", "us terminology",
                  "american crochet terms", "us term"}))
            british = false;
        document_.terms = options_->terms.value_or(british ? Terms::uk : Terms::us);
    }

    /// The sizes that the most lists of numbers have, "64 (68, 72, 76)".
    void tell_sizes() {
        std::map<std::size_t, long> found;
        for (const Line& line : lines_) {
            const std::string& text = line.text;
            for (std::size_t open = text.find('('); open != std::string::npos;
                 open = text.find('(', open + 1)) {
                std::size_t before = open;
                while (before > 0 && text[before - 1] == ' ') --before;
                if (before == 0 || !digit(text[before - 1])) continue;
                std::size_t numbers = 1;
                std::size_t at = open + 1;
                bool fine = false;
                while (at < text.size()) {
                    while (at < text.size() && text[at] == ' ') ++at;
                    const std::size_t start = at;
                    while (at < text.size() && digit(text[at])) ++at;
                    if (at == start) break;
                    ++numbers;
                    while (at < text.size() && text[at] == ' ') ++at;
                    if (at < text.size() && text[at] == ')') {
                        fine = true;
                        break;
                    }
                    if (at >= text.size() ||
                        std::string_view(",-:;/").find(text[at]) == std::string_view::npos)
                        break;
                    ++at;
                }
                // "2 (12)" is a count behind a number; lists of one need a second sign of sizes.
                if (fine && numbers > 2) ++found[numbers];
            }
        }
        const auto most =
            std::max_element(found.begin(), found.end(),
                             [](const auto& a, const auto& b) { return a.second < b.second; });
        if (most != found.end() && most->second > 1) document_.sizes = most->first;
    }

    // ---- what one line is

    [[nodiscard]] static std::size_t row_words(const std::vector<std::string>& words) {
        const auto rows = [&](std::size_t i) {
            return i < words.size() && one_of(words[i], {"row", "rows", "rnd", "rnds", "round",
                                                         "rounds", "r", "rd", "rds"});
        };
        const auto value = [&](std::size_t i) {
            return i < words.size() && (number(words[i]) || words[i] == "one" || words[i] == "#");
        };
        if (rows(0) && (value(1) || (words.size() > 2 && words[1] == "." && value(2)))) return 2;
        if (words[0].size() > 1 && words[0][0] == 'r' &&
            std::all_of(words[0].begin() + 1, words[0].end(), digit))
            return 1;
        for (const std::string_view name : {"row", "rnd", "round", "rows", "rnds", "rounds"})
            if (words[0].starts_with(name) && words[0].size() > name.size() &&
                std::all_of(words[0].begin() + static_cast<std::ptrdiff_t>(name.size()),
                            words[0].end(), digit))
                return 1;
        // "1 row:", "12-22 row:", "1.row:"
        if (number(words[0]))
            for (std::size_t i = 1; i < 5 && i + 1 < words.size(); ++i) {
                if (rows(i) && words[i] != "r" && one_of(words[i + 1], {":", "-"})) return i + 1;
                if (!one_of(words[i], {"-", "."}) && !number(words[i])) break;
            }
        // "1st row", "Next round", "Inc row:", "All even rows", "WS rows:"
        for (std::size_t i = 1; i < 5 && i < words.size(); ++i)
            if (rows(i) && words[i] != "r") {
                const std::string& first = words[0];
                if (first.size() > 2 && digit(first[0]) && !number(first)) return i + 1;
                if (one_of(first,
                           {"next", "last", "final", "following", "first", "second", "third",
                            "fourth", "fifth", "sixth", "all", "every", "rs", "ws", "even", "odd"}))
                    return i + 1;
                std::size_t behind = i + 1;
                if (behind < words.size() && number(words[behind])) ++behind;
                if (behind < words.size() && words[behind] == "(")
                    while (behind < words.size() && words[behind] != ":") ++behind;
                if (behind < words.size() && words[behind] == ":" && i < 4) return i + 1;
            }
        return 0;
    }

    /// "1.", "6)": only where rows are.
    [[nodiscard]] static bool bare_number(const std::vector<std::string>& words) {
        if (words.size() < 3 || !number(words[0])) return false;
        if (one_of(words[1], {".", ")", ":"})) return !digit(words[2][0]) || words[1] == ")";
        return words.size() > 4 && words[1] == "-" && number(words[2]) &&
               one_of(words[3], {".", ")", ":"});
    }

    [[nodiscard]] bool begins_base(const std::vector<std::string>& words) const {
        std::size_t i = 0;
        // "With MC,", "Using a 5 mm hook,", "To begin:", "Step 1:"
        if (one_of(words[0], {"with", "using", "beginning", "starting", "start", "begin", "to",
                              "make", "create", "form", "loosely", "foundation", "work", "as",
                              "base", "body", "front", "back", "hat"})) {
            while (i < words.size() && i < 14 && !base_word(words, i)) ++i;
        }
        return i < words.size() && base_word(words, i);
    }

    [[nodiscard]] bool base_word(const std::vector<std::string>& words, std::size_t i) const {
        const auto at = [&](std::size_t by) {
            return i + by < words.size() ? words[i + by] : std::string();
        };
        const std::string& word = words[i];
        const auto counted = [&](std::size_t by) { return !at(by).empty() && digit(at(by)[0]); };
        if (document_.craft == Craft::knit)
            return (word == "c" && at(1) == "/" && at(2) == "o") ||
                   (word == "pick" && at(1) == "up" && counted(2)) ||
                   (word == "cast" &&
                    (at(1) == "on" || (at(1) == "-" && at(2) == "on" && counted(3)))) ||
                   (word == "co" && counted(1)) || (word == "casting" && at(1) == "on") ||
                   (word == "co" && at(1) == "a");
        if ((word == "ch" || word == "chain") && (counted(1) || (at(1) == "-" && counted(2))))
            return at(2) != "st" || true;
        if (word.starts_with("ch") && word.size() > 2 && number(word.substr(2))) return true;
        if (one_of(word, {"magic", "mr", "adjustable"})) return true;
        return (word == "sliding" && at(1) == "loop") || word == "fsc" || word == "fdc" ||
               word == "fhdc";
    }

    [[nodiscard]] bool begins_work(const std::vector<std::string>& words) {
        const std::string& word = words[0];
        if (one_of(word, {"*", "(", "["})) {
            for (std::size_t i = 1; i < words.size() && i < 4; ++i)
                if (stitch_word(words[i])) return true;
            return false;
        }
        if (one_of(word,
                   {"rep",      "repeat",   "continue", "cont",   "work",        "knit",   "purl",
                    "bind",     "bo",       "cast",     "join",   "turn",        "inc",    "dec",
                    "increase", "decrease", "pm",       "place",  "change",      "switch", "rib",
                    "skip",     "sk",       "slip",     "then",   "now",         "fasten", "break",
                    "do",       "in",       "working",  "garter", "stockinette", "with"}))
            return true;
        if (number(word) && words.size() > 1) return stitch_word(words[1]);
        return stitch_word(word);
    }

    [[nodiscard]] bool stitch_word(const std::string& word) {
        if (word.empty() || word == "a") return false;
        std::size_t from = 0;
        while (from < word.size() && digit(word[from])) ++from;
        std::string_view name = std::string_view(word).substr(from);
        if (name.empty()) return false;
        if (book_->find(name)) return true;
        while (!name.empty() && digit(name.back())) name.remove_suffix(1);
        return !name.empty() && book_->find(name).has_value();
    }

    /// Words of work in a line that is not read as a row.
    [[nodiscard]] bool may_work(const std::vector<std::string>& words) {
        for (std::size_t i = 0; i < words.size(); ++i) {
            if (one_of(words[i], {"k", "p", "inc", "dec", "increase", "decrease", "skip", "bind",
                                  "pick", "rounds", "rows", "rnds"}))
                return true;
            if (i > 0 && number(words[i - 1]) && stitch_word(words[i])) return true;
            if (i + 1 < words.size() && stitch_word(words[i]) && number(words[i + 1])) return true;
        }
        return false;
    }

    [[nodiscard]] static bool has_number(const std::vector<std::string>& words) {
        return std::any_of(words.begin(), words.end(), number);
    }

    /// A short line without work.
    [[nodiscard]] bool heading(const Line& line, const std::vector<std::string>& words) {
        if (words.size() > 9) return false;
        const char last = line.text.back();
        if (last == '.' || last == ',' || last == ';') return false;
        if (last == ':') return true;
        std::size_t capitals = 0;
        std::size_t letters = 0;
        for (const std::string& word : words) letters += letter(word[0]) ? 1U : 0U;
        bool start = true;
        for (const char c : line.text) {
            if (start && std::isupper(static_cast<unsigned char>(c)) != 0) ++capitals;
            start = c == ' ';
        }
        if (capitals > 0 && words.size() <= 4 && line.text.size() > 3 &&
            std::none_of(line.text.begin(), line.text.end(), [](char c) {
                return std::islower(static_cast<unsigned char>(c)) != 0 || digit(c);
            }))
            return true;
        return letters > 0 && letter(line.text[0]) && capitals * 2 >= letters &&
               words.size() <= 6 && line.blank_before;
    }

    // ---- going through the lines

    void part(What what, const Line& line) {
        document_.parts.push_back({what, line.text, line.number});
    }

    void line() {
        Line& line = lines_[at_];
        std::vector<std::string> words = words_of(line.text);
        if (words.empty()) return;
        const bool row = row_words(words) > 0 || (in_rows_ && bare_number(words)) ||
                         (bare_number(words) && numbered_steps(words));
        const bool base =
            begins_base(words) && !one_of(words.back(), {"hook"}) &&
            (zone_ != What::abbreviations || has_number(words)) &&
            (zone_ != What::materials || document_.craft == Craft::knit || has_number(words)) &&
            !definition_line(line.text);
        const auto zone = zone_of(words);
        const auto colon = line.text.find(':');
        if (!row && inline_heading(line)) return;
        if (!row && !(base && line.text.size() > 100) && counts_note(line.text))
            return add_note(line);
        if (!row && one_of(words[0], {"alternate", "alternatively", "option", "optional", "or"}))
            return part(may_work(words) ? What::may_work : What::remark, line);
        if (row || base) {
            if (!row_is_prose(words)) return take_row(line, base && !row);
        }
        if (zone && !(in_rows_ && *zone == What::heading && words.size() > 6) &&
            (heading(line, words) || colon != std::string::npos)) {
            open_zone(*zone, line, colon);
            return;
        }
        if (zone_ == What::abbreviations || zone_ == What::stitches ||
            (!in_rows_ && definition_line(line.text))) {
            if (define(line)) return;
            if (zone_ == What::abbreviations || zone_ == What::stitches)
                if (!heading(line, words)) return part(*zone_, line);
        }
        if (in_rows_) {
            if (heading(line, words) &&
                (!begins_work(words) || (line.text.back() == ':' && !has_number(words))))
                return new_heading(line);
            const bool note = counts_note(line.text);
            if (note) return add_note(line);
            if (begins_work(words)) return take_row(line, false);
            if (continues(line)) return append(pending_.back().lines.back(), line);
            return part(may_work(words) ? What::may_work : What::remark, line);
        }
        if (counts_note(line.text)) add_note(line);
        gauge_of(line);
        tools_of(line);
        if (document_.title.empty() && !zone_ && words.size() < 14) {
            document_.title = line.text;
            return part(What::title, line);
        }
        if (heading(line, words) && zone_ != What::materials) {
            if (zone_ && words.size() <= 5 && line.blank_before) {
                zone_.reset();
                heading_ = line.text;
                return part(What::heading, line);
            }
            if (!zone_) {
                heading_ = line.text;
                return part(What::heading, line);
            }
        }
        part(zone_.value_or(What::remark), line);
    }

    /// "SLEEVES: Cast on 38 sts.", "BACK ... With No. 1 needles, cast on 81 sts": a heading and
    /// what follows it in one line.
    bool inline_heading(Line& line) {
        std::size_t at = line.text.find(':');
        std::size_t size = 1;
        const auto dots = line.text.find("\xe2\x80\xa6");
        if (dots != std::string::npos && (at == std::string::npos || dots < at)) {
            at = dots;
            size = 3;
        }
        if (at == std::string::npos || at == 0 || at > 40 || at + size + 2 > line.text.size())
            return false;
        const auto before = words_of(line.text.substr(0, at));
        if (before.empty() || before.size() > 5 || has_number(before) || zone_of(before) ||
            (begins_work(before) && before[0] != "cast") || row_words(before) > 0)
            return false;
        Line rest = line;
        rest.text = line.text.substr(at + size);
        rest.from.erase(rest.from.begin(),
                        rest.from.begin() + static_cast<std::ptrdiff_t>(at + size));
        while (!rest.text.empty() && rest.text.front() == ' ') {
            rest.text.erase(0, 1);
            rest.from.erase(rest.from.begin());
        }
        const auto words = words_of(rest.text);
        if (words.empty() || !(begins_base(words) || row_words(words) > 0)) return false;
        heading_ = line.text.substr(0, at);
        take_row(rest, begins_base(words) && row_words(words) == 0);
        return true;
    }

    [[nodiscard]] bool numbered_steps(const std::vector<std::string>& words) const {
        return words.size() > 2 && words[0] == "1" && zone_ != What::materials &&
               zone_ != What::abbreviations && begins_base({words.begin() + 2, words.end()});
    }

    /// "Rows 1-4 form the pattern.": a sentence about rows.
    [[nodiscard]] static bool row_is_prose(const std::vector<std::string>& words) {
        for (std::size_t i = 1; i < words.size() && i < 9; ++i)
            if (one_of(words[i], {"form", "forms", "sets", "set", "establish", "establishes",
                                  "measures", "equals", "="}) &&
                std::find(words.begin(), words.begin() + static_cast<std::ptrdiff_t>(i), ":") ==
                    words.begin() + static_cast<std::ptrdiff_t>(i))
                return words[i] != "set" || i > 3;
        return false;
    }

    void open_zone(What zone, const Line& line, std::size_t colon) {
        if (zone == What::heading) {
            zone_.reset();
            heading_.clear();
            return part(What::heading, line);
        }
        if (zone == What::finishing)
            in_rows_ = in_rows_ && colon != std::string::npos && colon + 1 < line.text.size();
        if (zone != What::notes || !in_rows_) {
            zone_ = zone;
            if (zone != What::notes) in_rows_ = false;
        }
        gauge_of(line);
        tools_of(line);
        if (counts_note(line.text)) add_note(line);
        if (zone == What::abbreviations || zone == What::stitches) {
            Line rest = line;
            if (colon != std::string::npos && colon + 2 < line.text.size()) {
                rest.text = line.text.substr(colon + 1);
                rest.from.erase(rest.from.begin(),
                                rest.from.begin() + static_cast<std::ptrdiff_t>(colon) + 1);
                if (definition_line(rest.text) && define(rest)) return;
            }
        }
        part(zone, line);
    }

    void new_heading(const Line& line) {
        heading_ = line.text;
        heading_line_ = line.number;
        part(What::heading, line);
        zone_.reset();
    }

    /// Whether a line is a label and nothing more: "Round 1."
    [[nodiscard]] static bool only_label(const Line& line) {
        const auto words = words_of(line.text);
        const std::size_t label = row_words(words);
        if (label > 0 && words.size() >= label + 4 && words.size() <= label + 5 &&
            one_of(words[label], {"and", "&"}) && one_of(words[label + 1], {"all", "every"}))
            return true;  // "Round 2 and all even rounds"
        return label > 0 && words.size() <= label + 1 &&
               (words.size() == label || one_of(words.back(), {".", ":", "-"}));
    }

    /// A line of rows, sentence by sentence where each is work of its own.
    void take_row(const Line& line, bool base) {
        const auto words = words_of(line.text);
        const bool labelled = row_words(words) > 0 || bare_number(words);
        Line rest = line;
        bool first = true;
        while (true) {
            const std::size_t at = sentence_end(rest, labelled && first);
            if (at == 0) break;
            Line sentence = rest;
            sentence.text.resize(at);
            sentence.from.resize(at);
            rest.text.erase(0, at);
            rest.from.erase(rest.from.begin(), rest.from.begin() + static_cast<std::ptrdiff_t>(at));
            while (!rest.text.empty() && rest.text.front() == ' ') {
                rest.text.erase(0, 1);
                rest.from.erase(rest.from.begin());
            }
            take_sentence(sentence, base, false);
            first = false;
            base = false;
            if (rest.text.empty()) return;
            const auto next = words_of(rest.text);
            if (begins_base(next)) {
                base = true;
            } else if (row_words(next) == 0 && !begins_work(next)) {
                // A remark up to its full stop.
                const auto stop = rest.text.find(". ");
                Line remark = rest;
                if (stop != std::string::npos) remark.text.resize(stop + 1);
                part(may_work(words_of(remark.text)) ? What::may_work : What::remark, remark);
                if (stop == std::string::npos) return;
                rest.text.erase(0, stop + 2);
                rest.from.erase(rest.from.begin(),
                                rest.from.begin() + static_cast<std::ptrdiff_t>(stop) + 2);
                if (rest.text.empty()) return;
            }
        }
        take_sentence(rest, base, true);
    }

    /// Where a sentence ends behind which another stands that is work of its own; 0: nowhere.
    [[nodiscard]] std::size_t sentence_end(const Line& line, bool labelled) {
        if (document_.craft != Craft::knit) return 0;
        const std::string& text = line.text;
        long depth = 0;
        bool star = false;
        for (std::size_t i = 0; i + 2 < text.size(); ++i) {
            if (text[i] == '(' || text[i] == '[') ++depth;
            if (text[i] == ')' || text[i] == ']') --depth;
            if (text[i] == '*') star = !star;
            if (text[i] != '.' || text[i + 1] != ' ' || depth > 0) continue;
            std::size_t next = i + 1;
            while (next < text.size() && text[next] == ' ') ++next;
            if (next >= text.size() || std::isupper(static_cast<unsigned char>(text[next])) == 0)
                continue;
            const auto words = words_of(std::string_view(text).substr(next));
            if (words.empty()) continue;
            if (one_of(words[0], {"rep", "repeat"}) &&
                (words.size() < 2 ||
                 one_of(words[1],
                        {"from", "between", "*", "around", "across", "to", "(", "once", "twice"}) ||
                 number(words[1])))
                continue;
            if (labelled) {
                // Behind a row only what tells of several rows is no part of it.
                const auto stop = text.find(". ", next);
                const auto sentence = words_of(std::string_view(text).substr(
                    next, stop == std::string::npos ? stop : stop - next));
                const bool rows = std::any_of(sentence.begin(), sentence.end(), [](const auto& w) {
                    return one_of(w, {"until", "rows", "rounds", "rnds", "inches", "cm"});
                });
                if (!rows || !begins_work(words) || one_of(words[0], {"fasten", "break", "cut"}))
                    continue;
            }
            return i + 1;
        }
        return 0;
    }

    void take_sentence(const Line& line, bool base, bool last) {
        zone_.reset();
        const bool begins = base && (pending_.empty() || has_rows_);
        // A chain within the rows goes on with them; a cast-on or a ring begins a piece.
        if (pending_.empty() ||
            (begins && (!heading_.empty() || line.blank_before || fresh_base(line)))) {
            end_section();
            Pending pending;
            pending.section.name = heading_;
            pending.section.line = line.number;
            name_section(pending.section);
            heading_.clear();
            pending_.push_back(std::move(pending));
            has_rows_ = false;
        } else if (!heading_.empty() && has_rows_ && restarts_with_base(line)) {
            end_section();
        }
        if (!heading_.empty() && !pending_.empty() && !has_rows_ &&
            pending_.back().section.name.empty()) {
            pending_.back().section.name = heading_;
            name_section(pending_.back().section);
        }
        heading_.clear();
        in_rows_ = true;
        if (!base) has_rows_ = true;
        pending_.back().lines.push_back(line);
        if (!last) return;
        if (only_label(line)) {
            // "Round 1." alone: what it works stands in the lines below.
            while (at_ + 1 < lines_.size()) {
                const auto words = words_of(lines_[at_ + 1].text);
                if (words.empty() || row_words(words) > 0 ||
                    (!begins_work(words) && !continues(lines_[at_ + 1])))
                    break;
                Line& row = pending_.back().lines.back();
                const bool bare = only_label(row);
                if (bare && row.text.back() != ':' && row.text.back() != '.') {
                    row.text += ':';
                    row.from.push_back(row.from.back());
                }
                if (!bare && row.text.back() != '.' && row.text.back() != ':' &&
                    row.text.back() != ',' &&
                    !base::lower(lines_[at_ + 1].text).starts_with("rep")) {
                    row.text += ',';
                    row.from.push_back(row.from.back());
                }
                append(row, lines_[++at_]);
            }
            return;
        }
        while (at_ + 1 < lines_.size() && continues(lines_[at_ + 1]))
            append(pending_.back().lines.back(), lines_[++at_]);
    }

    [[nodiscard]] static bool restarts_with_base(const Line&) { return false; }

    [[nodiscard]] bool fresh_base(const Line& line) const {
        const auto words = words_of(line.text);
        return document_.craft == Craft::knit || one_of(words[0], {"magic", "mr", "make"});
    }

    void end_section() {}

    static void name_section(Section& section) {
        const std::string name = base::lower(section.name);
        for (const std::string_view mark : {"make ", "(x", "x ", "make: "}) {
            const auto at = name.find(mark);
            if (at == std::string::npos) continue;
            std::size_t from = at + mark.size();
            long value = 0;
            while (from < name.size() && digit(name[from]) && value < 1000)
                value = 10 * value + (name[from++] - '0');
            if (value > 0) section.times = value;
            if (name.substr(at + mark.size()).starts_with("two")) section.times = 2;
            if (name.substr(at + mark.size()).starts_with("four")) section.times = 4;
        }
        while (!section.name.empty() && (section.name.back() == ':' || section.name.back() == ' '))
            section.name.pop_back();
    }

    /// Whether a line goes on with the row before it: a page broke it.
    [[nodiscard]] bool continues(const Line& next) {
        if (pending_.empty() || next.blank_before) return false;
        const Line& row = pending_.back().lines.back();
        const auto words = words_of(next.text);
        if (words.empty() || row_words(words) > 0 || bare_number(words)) return false;
        if (zone_of(words) && heading(next, words)) return false;
        const char last = row.text.back();
        long open = 0;
        long stars = 0;
        for (const char c : row.text) {
            if (c == '(' || c == '[') ++open;
            if (c == ')' || c == ']') --open;
            if (c == '*') ++stars;
        }
        const char first = next.text[0];
        if (open > 0 || last == ',' || last == ';' || last == '-') return true;
        if (stars % 2 == 1 && base::lower(row.text).find("rep") == std::string::npos) return true;
        if (last == '.' || last == ')' || last == ']' || last == ':' || last == '!')
            return first == '(' && next.text.size() < 60 && next.text.size() > 1 &&
                   digit(next.text[1]);
        if (first == '(' || first == '[' || first == '=')
            return next.text.size() > 1 && (digit(next.text[1]) || begins_work(words));
        if (base::lower(next.text).starts_with("rep from") ||
            base::lower(next.text).starts_with("repeat from"))
            return true;
        if (digit(first)) return row.text.size() > 45 && !number(words.back());
        if (std::islower(static_cast<unsigned char>(first)) == 0) return false;
        return row.text.size() > 30;
    }

    // ---- notes, definitions, gauge, tools

    [[nodiscard]] static bool counts_note(const std::string& text) {
        const std::string low = base::lower(text);
        const bool count = low.find("count as") != std::string::npos ||
                           low.find("counts as") != std::string::npos ||
                           low.find("counted as") != std::string::npos ||
                           low.find("not count") != std::string::npos ||
                           low.find("never counts") != std::string::npos;
        if (!count) return false;
        const auto words = words_of(low);
        return row_words(words) == 0 && (low.find("ch") != std::string::npos) &&
               (!one_of(words[0], {"ch", "chain", "turn"}) ||
                (words.size() > 2 && one_of(words[2], {"at", "does", "counts", "do", "will"})));
    }

    void add_note(const Line& line) {
        part(What::notes, line);
        Line note = line;
        note.text = "note: " + note.text;
        note.from.insert(note.from.begin(), 6, note.from.empty() ? 0 : note.from.front());
        notes_.push_back(std::move(note));
    }

    /// "shell = 5 dc in next st", "Cluster (cl): ...", "hdc - half double crochet"
    [[nodiscard]] static bool definition_line(const std::string& text) {
        const std::size_t at = definition_sign(text).first;
        return at > 0 && at < 48;
    }

    /// Where the sign stands and how long it is; 0 where there is none.
    [[nodiscard]] static std::pair<std::size_t, std::size_t> definition_sign(
        const std::string& text) {
        for (const std::string_view sign :
             {" = ", "=", ": ", " - ", " \xe2\x80\x93 ", " \xe2\x80\x94 ", "\xe2\x80\x93 "}) {
            const auto at = text.find(sign);
            if (at == std::string::npos || at == 0 || at > 48) continue;
            // A name has no digits before it but "fpdc2"; a row's label has.
            const auto words = words_of(text.substr(0, at));
            if (words.size() > 6 || number(words.front())) return {0, 0};
            return {at, sign.size()};
        }
        return {0, 0};
    }

    bool define(const Line& line) {
        // "ch = chain; sc = single crochet, dc = double crochet" is a list of them.
        const auto [at, size] = definition_sign(line.text);
        if (at == 0) return false;
        std::string name = std::string(base::trimmed(line.text.substr(0, at)));
        const std::string meaning = std::string(base::trimmed(line.text.substr(at + size)));
        std::vector<std::string> names;
        const auto open = name.find('(');
        if (open != std::string::npos) {
            const auto close = name.find(')', open);
            const std::string inner =
                name.substr(open + 1, close == std::string::npos ? close : close - open - 1);
            names.push_back(std::string(base::trimmed(name.substr(0, open))));
            names.push_back(std::string(base::trimmed(inner)));
        } else {
            for (const std::string& one : base::split(name, '/')) names.push_back(one);
        }
        // "half double crochet (hdc)" may stand on the right too.
        bool any = false;
        const std::string low = base::lower(meaning);
        for (std::string& one : names) {
            one = base::lower(one);
            std::erase(one, '.');
            if (one.size() > 1 && one.ends_with("(s)")) one.resize(one.size() - 3);
            if (one.empty() || one.size() > 40 || !letter(one[0]) ||
                !std::all_of(one.begin(), one.end(),
                             [](char c) { return letter(c) || digit(c) || c == ' ' || c == '-'; }))
                continue;
            if (known(one)) {
                any = true;
                continue;
            }
            Definition definition;
            definition.line = line.number;
            definition.meaning = meaning;
            definition.stitch.name = one;
            definition.stitch.place = {options_->file, line.number, 1};
            definition.stitch.of_place = definition.stitch.place;
            if (!make_up(low, definition)) continue;
            book_->add([&] {
                Stitch stitch;
                stitch.name = one;
                return stitch;
            }());
            document_.definitions.push_back(std::move(definition));
            any = true;
        }
        if (any || zone_ == What::abbreviations)
            part(zone_ == What::stitches ? What::stitches : What::abbreviations, line);
        return any;
    }

    [[nodiscard]] bool known(const std::string& name) {
        static constexpr auto plain =
            std::to_array<std::string_view>({"st",         "sts",
                                             "stitch",     "rep",
                                             "beg",        "sp",
                                             "sps",        "rnd",
                                             "rnds",       "row",
                                             "rs",         "ws",
                                             "mc",         "cc",
                                             "inc",        "dec",
                                             "sk",         "lp",
                                             "lps",        "blo",
                                             "flo",        "tog",
                                             "pm",         "sm",
                                             "rem",        "cont",
                                             "foll",       "approx",
                                             "mr",         "tch",
                                             "yoh",        "alt",
                                             "bet",        "patt",
                                             "bl",         "fl",
                                             "prev",       "turning chain",
                                             "skip",       "repeat",
                                             "round",      "beginning",
                                             "right side", "wrong side"});
        return std::find(plain.begin(), plain.end(), name) != plain.end() ||
               book_->find(name).has_value();
    }

    /// What a definition says as notation; false when it says nothing of a stitch.
    bool make_up(std::string meaning, Definition& definition) {
        // "(made in one st)", "in the same stitch" say where it goes, which the row says again.
        for (const std::string_view where :
             {" in same st",      " in the same st",      " in next st",      " in the next st",
              " in st indicated", " into next st",        " into same st",    " in one st",
              " in 1 st",         " in the indicated st", " in indicated st", " in stitch",
              " in same stitch",  " in the same stitch",  " in next stitch",  " in the next stitch",
              " in same ch",      " in same space",       " in same sp",      " in next sp",
              " all in",          " in the stitch",       " worked in"}) {
            const auto at = meaning.find(where);
            if (at != std::string::npos && at > 3) meaning.resize(at);
        }
        while (!meaning.empty() && (meaning.back() == '.' || meaning.back() == ' '))
            meaning.pop_back();
        if (meaning.starts_with("work ")) meaning.erase(0, 5);
        if (meaning.empty()) return false;
        const Tokens tokens = tokens_of(meaning, 0, 1);
        if (!tokens.fault) {
            StitchBook book = *book_;
            Grammar grammar(book, tokens.tokens, 0);
            const Body body = grammar.row();
            if (!grammar.fault() && body.unknown.empty() && body.aside.empty() &&
                !body.items.empty()) {
                definition.stitch.of = meaning;
                definition.followed = true;
                return true;
            }
        }
        return false;
    }

    void gauge_of(const Line& line) {
        const std::string low = base::lower(line.text);
        const bool said =
            zone_ == What::gauge || low.starts_with("gauge") || low.starts_with("tension");
        if (!said) return;
        const Tokens tokens = tokens_of(low, 0, 1);
        std::optional<long> stitches;
        std::optional<long> rows;
        std::optional<units::Length> length;
        for (std::size_t i = 0; i + 1 < tokens.tokens.size(); ++i) {
            const Token& token = tokens.tokens[i];
            const Token& next = tokens.tokens[i + 1];
            if (token.kind == TokenKind::length && !length) length = token.length;
            if (token.kind != TokenKind::number || next.kind != TokenKind::word) continue;
            if (one_of(next.text, {"row", "rows", "rnds", "rounds", "r"}))
                rows = token.value;
            else if ((one_of(next.text, {"st", "sts", "stitches"}) || book_->find(next.text)) &&
                     !stitches)
                stitches = token.value;
        }
        if (!length || *length <= units::Length{}) return;
        if (stitches && !document_.stitch_gauge)
            document_.stitch_gauge = static_cast<double>(*stitches) * units::stitch / *length;
        if (rows && !document_.row_gauge)
            document_.row_gauge = static_cast<double>(*rows) * units::row / *length;
    }

    void tools_of(const Line& line) {
        const std::string low = base::lower(line.text);
        const bool hook = low.find("hook") != std::string::npos;
        const bool needle = low.find("needle") != std::string::npos &&
                            low.find("tapestry") == std::string::npos &&
                            low.find("darning") == std::string::npos &&
                            low.find("yarn needle") == std::string::npos;
        if (!hook && !needle) return;
        for (const Token& token : tokens_of(low, 0, 1).tokens)
            if (token.kind == TokenKind::length && token.length < 0.03 * units::metre &&
                token.text.ends_with("mm")) {
                if (hook && !document_.hook) document_.hook = token.length;
                if (needle && !document_.needle) document_.needle = token.length;
                return;
            }
    }

    // ---- working the sections

    void work(Pending& pending) {
        Section& section = pending.section;
        NotationOptions options;
        options.craft = document_.craft;
        options.terms = document_.terms;
        options.size = std::min(options_->size, document_.sizes - 1);
        options.sizes = document_.sizes;
        options.own = options_->own;
        options.yarns = options_->yarns;
        for (const Definition& definition : document_.definitions)
            options.own.push_back(definition.stitch);
        options.row_gauge = options_->row_gauge ? options_->row_gauge : document_.row_gauge;
        options.desired = options_->desired;
        options.lenient = true;
        for (const Line& line : pending.lines) {
            const std::string low = base::lower(line.text);
            if (low.find("in the round") != std::string::npos ||
                low.find("in rounds") != std::string::npos ||
                low.find("join") != std::string::npos || low.find("rnd") != std::string::npos ||
                low.find("round") != std::string::npos || low.find("magic") != std::string::npos)
                options.round = true;
        }
        section.round = options.round;
        std::vector<Line> lines = notes_;
        lines.insert(lines.end(), pending.lines.begin(), pending.lines.end());
        std::vector<WrittenRows> entries;
        for (const Line& line : lines) entries.push_back({line.text, std::nullopt});
        options.locate = [&](std::size_t entry, std::size_t offset) {
            base::Place place;
            place.file = options_->file;
            if (entry >= lines.size() || lines[entry].from.empty()) return place;
            const std::size_t at =
                lines[entry].from[std::min(offset, lines[entry].from.size() - 1)];
            const std::string_view before = text_.substr(0, at);
            const auto start = before.rfind('\n');
            place.line =
                1 + static_cast<std::size_t>(std::count(before.begin(), before.end(), '\n'));
            place.column = at + 1 - (start == std::string_view::npos ? 0 : start + 1);
            return place;
        };
        NotationResult result = work_rows(entries, options);
        section.problems = std::move(result.problems);
        section.findings = result.rows.findings;
        section.rows = std::move(result.rows);
        for (const Line& line : pending.lines) section.lines.push_back(line.text);
        for (RowReading& reading : result.readings) {
            if (reading.entry < notes_.size()) continue;
            section.reading_lines.push_back(lines[reading.entry].number);
            if (!reading.aside.empty() && reading.words == reading.aside.front().words &&
                reading.rows == 0 && reading.state == RowReading::State::read) {
                // A line without work.
            } else {
                ++section.rows_lines;
                if (reading.state == RowReading::State::read ||
                    reading.state == RowReading::State::foundation ||
                    reading.state == RowReading::State::two_ways)
                    ++section.rows_read;
            }
            reading.entry -= notes_.size();
            section.readings.push_back(std::move(reading));
        }
        document_.sections.push_back(std::move(section));
    }

    std::string_view text_;
    const DocumentOptions* options_;
    std::vector<Line> lines_;
    std::size_t at_ = 0;
    Document document_;
    std::optional<StitchBook> book_;
    std::optional<What> zone_;
    bool in_rows_ = false;
    bool has_rows_ = false;
    std::string heading_;
    std::size_t heading_line_ = 0;
    std::vector<Pending> pending_;
    std::vector<Line> notes_;
};

}  // namespace

Document read_document(std::string_view text, const DocumentOptions& options) {
    return Reader(text, options).run();
}

}  // namespace skeinfall::notation
