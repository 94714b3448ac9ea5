// Rows of a stitch pattern that stand before the piece: put where the piece says it is worked.

#include <algorithm>
#include <cstdint>
#include <regex>
#include <string>
#include <utility>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/notation/detail/document_reader.hpp"
#include "skeinfall/notation/detail/line_forms.hpp"
#include "skeinfall/notation/detail/phrases.hpp"

namespace skeinfall::notation {
namespace {

/// Rows of a pattern by the name that its heading gave it.
struct StitchPattern {
    std::vector<std::string> name;  ///< words that tell it from others; may be empty
    std::vector<Line> lines;
    std::vector<std::int64_t> last;  ///< the highest row that each line writes
    std::int64_t rows = 0;
};

/// What a line asks for: how often the rows are worked.
struct Use {
    const StitchPattern* pattern = nullptr;
    std::int64_t rows = 0;                 ///< in all; 0: not said
    std::int64_t times = 0;                ///< in all; 0: not said
    std::int64_t up_to = 0;                ///< "rows 1-8": the last of them
    std::size_t tail = std::string::npos;  ///< where "until ...", "for 4 in" stands
    bool named = false;
};

bool generic(const std::string& word) {
    return one_of(word,
                  {"pattern", "patt", "pat", "stitch", "st", "stitches", "sts", "the", "for", "a",
                   "special", "main", "used", "instructions", "rows", ":", "-", ",", "."});
}

/// Fabrics that are known by their name alone.
bool known_fabric(const std::vector<std::string>& words) {
    return std::any_of(words.begin(), words.end(), [](const std::string& word) {
        return one_of(word, {"garter", "stockinette", "stocking", "rib", "ribbing"});
    });
}

std::int64_t last_row_of(const Line& line) {
    const std::string low = base::lower(line.text);
    Tokens lexed = tokens_of(low, 0, 1);
    if (lexed.fault) return 0;
    std::vector<SetAside> said;
    StitchBook book(Craft::knit, Terms::us);
    read_phrases(lexed.tokens, book, NotationOptions{}, said);
    std::optional<Fault> fault;
    const Label label = label_of(lexed.tokens, fault);
    std::int64_t last = 0;
    for (const Span& span : label.rows) last = std::max(last, span.last);
    return last;
}

/// Where the words `name` stand one after the other; npos where they do not.
std::size_t stands(const std::vector<std::string>& words, const std::vector<std::string>& name) {
    if (name.empty()) return std::string::npos;
    const auto found = std::search(words.begin(), words.end(), name.begin(), name.end());
    return found == words.end() ? std::string::npos
                                : static_cast<std::size_t>(found - words.begin());
}

std::optional<Use> use_of(const Line& line, const std::vector<StitchPattern>& patterns) {
    const std::string low = base::lower(line.text);
    const auto words = words_of(low);
    if (words.empty() || row_words(words) > 0 || low.find("follows") != std::string::npos ||
        low.find("keeping") != std::string::npos)
        return std::nullopt;
    std::size_t verb = 0;
    while (verb < words.size() && one_of(words[verb], {"then", "now", "and", ","})) ++verb;
    if (verb >= words.size() ||
        !one_of(words[verb], {"work", "working", "continue", "cont", "begin", "beg", "start", "rep",
                              "repeat", "knit", "follow", "commence", "change", "in"}))
        return std::nullopt;
    Use use;
    std::vector<std::string> named = words;  // "Purl-Twist Knot Stitch"
    std::erase(named, "-");
    for (const StitchPattern& one : patterns)
        if (stands(named, one.name) != std::string::npos) {
            use.pattern = &one;
            use.named = true;
        }
    const bool any = std::any_of(words.begin(), words.end(), [](const std::string& word) {
        return one_of(word, {"pattern", "patt", "pat"});
    });
    if (use.pattern == nullptr && any && !patterns.empty() &&
        low.find("established") == std::string::npos && low.find(" set") == std::string::npos)
        use.pattern = &patterns.back();
    if (use.pattern == nullptr) return std::nullopt;
    for (std::size_t i = verb; i + 1 < words.size(); ++i) {
        const bool rows = one_of(words[i + 1], {"row", "rows", "rnd", "rnds", "round", "rounds"});
        if (number(words[i]) && words[i].size() < 5 && rows)
            use.rows = base::leading_number<std::int64_t>(words[i]);
        if (number(words[i]) && words[i].size() < 5 &&
            one_of(words[i + 1], {"times", "repeats", "reps"}))
            use.times = base::leading_number<std::int64_t>(words[i]);
        if (words[i] == "twice" || words[i + 1] == "twice") use.times = 2;
        if (words[i + 1] == "once") use.times = 1;
        if (one_of(words[i], {"rows", "rounds", "rnds"}) && words[i + 1] == "1" &&
            i + 3 < words.size() && one_of(words[i + 2], {"-", "to"}) && number(words[i + 3]) &&
            words[i + 3].size() < 5)
            use.up_to = base::leading_number<std::int64_t>(words[i + 3]);
    }
    for (const std::string_view mark :
         {" until ", " till ", " for ", " to desired", " to the desired"})
        use.tail = std::min(use.tail, low.find(mark));
    if (use.rows > 0) use.tail = std::string::npos;
    return use;
}

/// A line of our own words in the place of `line`, with what stands there from `tail` on.
Line made_line(const Line& line, const std::string& words, std::size_t tail) {
    Line out = line;
    const std::size_t begin = line.from.empty() ? 0 : line.from.front();
    out.text = words;
    out.from.assign(words.size(), begin);
    if (tail < line.text.size()) {
        out.text += line.text.substr(tail);
        out.from.insert(out.from.end(), line.from.begin() + static_cast<std::ptrdiff_t>(tail),
                        line.from.end());
    }
    return out;
}

/// The lines that write rows 1 to `rows`.
void put_rows(const StitchPattern& pattern, std::int64_t rows, std::vector<Line>& out) {
    for (std::size_t i = 0; i < pattern.lines.size(); ++i)
        if (pattern.last[i] <= rows) out.push_back(pattern.lines[i]);
}

void put(const Use& use, const Line& line, bool goes_on, std::vector<Line>& out) {
    const StitchPattern& pattern = *use.pattern;
    const std::int64_t block = use.up_to > 0 && use.up_to < pattern.rows ? use.up_to : pattern.rows;
    const std::string again =
        "repeat last " + std::to_string(block) + (block == 1 ? " row" : " rows");
    std::int64_t rows = use.rows;
    if (rows == 0 && use.times > 0) rows = use.times * block;
    if (rows > 0) {
        const std::int64_t whole = rows / block;
        if (whole > 0 && !goes_on) put_rows(pattern, block, out);
        const std::int64_t more = goes_on ? whole : whole - 1;
        if (more > 0)
            out.push_back(
                made_line(line, again + ' ' + std::to_string(more) + " times", std::string::npos));
        if (rows % block > 0) put_rows(pattern, rows % block, out);
        return;
    }
    if (!goes_on) put_rows(pattern, block, out);
    if (use.tail != std::string::npos) out.push_back(made_line(line, again, use.tail));
}

}  // namespace

bool DocumentReader::has_base(const Pending& pending) const {
    return std::any_of(pending.lines.begin(), pending.lines.end(), [&](const Line& line) {
        const std::string low = base::lower(line.text);
        const auto words = words_of(low);
        return (!words.empty() && begins_base(words)) || low.find("cast on") != std::string::npos ||
               low.find("pick up") != std::string::npos || low.find("held") != std::string::npos ||
               low.find("holder") != std::string::npos || low.find("sts)") != std::string::npos;
    });
}

/// Whether the last line of rows so far binds all off: what follows is told beside the piece.
bool DocumentReader::ends_bound_off() const {
    if (document_.craft != Craft::knit || !in_rows_ || pending_.empty() ||
        pending_.back().lines.empty())
        return false;
    const std::string last = base::lower(pending_.back().lines.back().text);
    return last.starts_with("bind off") || last.starts_with("cast off") || last.starts_with("bo");
}

/// Rows before the cast-on that are a stitch pattern by their heading or by how they end.
bool DocumentReader::tells_pattern(const Pending& pending) const {
    auto words = words_of(base::lower(pending.section.name));
    words.erase(std::find(words.begin(), words.end(), "("), words.end());
    const bool headed = !words.empty() && std::all_of(words.begin(), words.end(), generic) &&
                        std::any_of(words.begin(), words.end(), [](const std::string& word) {
                            return one_of(word, {"pattern", "patt", "pat", "stitch"});
                        });
    if (headed || pending.lines.empty()) return headed;
    const std::string last = base::lower(pending.lines.back().text);
    if (last.starts_with("rep") && last.find(" for patt") != std::string::npos) return true;
    // Rows from 1 on, and nothing that begins a piece.
    return last_row_of(pending.lines.front()) > 0 &&
           std::all_of(pending.lines.begin(), pending.lines.end(), [](const Line& line) {
               const auto said = words_of(line.text);
               return !said.empty() && (row_words(said) > 0 ||
                                        one_of(said[0], {"rep", "repeat", "cont", "continue"}));
           });
}

/// What no row of a piece says to work is no piece of its own.
void DocumentReader::set_unused_aside(const std::vector<std::size_t>& told) {
    for (auto index = told.rbegin(); index != told.rend(); ++index) {
        if (*index + 1 >= pending_.size() || !tells_pattern(pending_[*index])) continue;
        const std::vector<Line>& lines = pending_[*index].lines;
        part(What::may_work, lines.front());
        for (std::size_t i = 1; i < lines.size(); ++i) part(What::stitches, lines[i]);
        pending_.erase(pending_.begin() + static_cast<std::ptrdiff_t>(*index));
    }
}

namespace {

/// What row `number` of the pattern says, without its label; empty where it says more than
/// stitches.
std::string words_of_row(const StitchPattern& pattern, std::int64_t number) {
    for (const Line& line : pattern.lines) {
        const std::string low = base::lower(line.text);
        Tokens lexed = tokens_of(low, 0, 1);
        if (lexed.fault) continue;
        std::vector<SetAside> said;
        StitchBook book(Craft::knit, Terms::us);
        read_phrases(lexed.tokens, book, NotationOptions{}, said);
        std::optional<Fault> fault;
        const Label label = label_of(lexed.tokens, fault);
        const bool written = std::any_of(
            label.rows.begin(), label.rows.end(),
            [&](const Span& span) { return span.first <= number && number <= span.last; });
        if (!written || fault || label.again || label.body >= lexed.tokens.size()) continue;
        std::string words = line.text.substr(lexed.tokens[label.body].at);
        if (const auto remark = words.find(" ("); remark != std::string::npos) words.resize(remark);
        while (!words.empty() && (words.back() == '.' || words.back() == ' ')) words.pop_back();
        for (const std::string& word : words_of(words))
            if (one_of(word, {"*", "[", "(", ".", "end", "across", "around", "rep", "repeat",
                              "last", "turn"}))
                return {};
        return words.size() < 400 ? words : std::string();
    }
    return {};
}

/// "KFB, row 1 of cable pattern, KFB": the stitches of that row in its place.
bool put_named_rows(Line& line, const std::vector<StitchPattern>& patterns) {
    static const std::regex form(
        R"((,? ?)\b(?:work )?(?:row|rnd|round) (\d{1,3}) of (?:the )?((?:[a-z]+ ){0,3})(?:pattern|patt|cable|lace|panel)\b(?: \([^)]*\))?(?: (?:over|across|on) (?:the )?(?:next )?\d+ (?:sts|stitches))?(,?))",
        any_case);
    bool any = false;
    for (int turn = 0; turn < 8; ++turn) {
        std::smatch found;
        const std::string text = line.text;
        if (text.size() > 600 || !std::regex_search(text, found, form)) break;
        auto name = words_of(base::lower(found[3].str()));
        std::erase_if(name, generic);
        const StitchPattern* pattern = nullptr;
        for (const StitchPattern& one : patterns)
            if (name.empty() || (one.name.empty() && patterns.size() == 1) ||
                stands(one.name, name) != std::string::npos)
                pattern = &one;
        if (pattern == nullptr || (name.empty() && patterns.size() > 1)) break;
        const std::string words =
            words_of_row(*pattern, base::leading_number<std::int64_t>(found[2].str()));
        if (words.empty()) break;
        const auto end = static_cast<std::size_t>(found.position(0) + found.length(0));
        const bool more = end < text.size() && text[end] == ' ';
        put_words(
            line, static_cast<std::size_t>(found.position(0)),
            static_cast<std::size_t>(found.length(0)),
            (found.position(0) > 0 && text[static_cast<std::size_t>(found.position(0)) - 1] != ':'
                 ? ", "
                 : " ") +
                words + (more || found[4].length() > 0 ? "," : ""));
        any = true;
    }
    return any;
}

}  // namespace

void DocumentReader::use_stitch_patterns() {
    std::vector<StitchPattern> patterns;
    std::vector<std::size_t> told;  // pieces that only tell a pattern
    for (std::size_t i = 0; i < pending_.size(); ++i) {
        const Pending& pending = pending_[i];
        const bool later =
            std::any_of(pending_.begin() + static_cast<std::ptrdiff_t>(i), pending_.end(),
                        [&](const Pending& p) { return has_base(p); });
        if (has_base(pending) || (!later && pending.section.name.empty())) continue;
        StitchPattern one;
        for (const std::string& word : words_of(pending.section.name)) {
            if (word == "(") break;
            if (!generic(base::lower(word))) one.name.push_back(base::lower(word));
        }
        if (known_fabric(one.name)) continue;
        if (!later) {  // told behind the piece: where a line above names it
            const std::vector<StitchPattern> alone{one};
            const bool headed = one.name.empty() && tells_pattern(pending);
            const bool named = std::any_of(
                pending_.begin(), pending_.begin() + static_cast<std::ptrdiff_t>(i),
                [&](const Pending& piece) {
                    return has_base(piece) && std::any_of(piece.lines.begin(), piece.lines.end(),
                                                          [&](const Line& line) {
                                                              const auto use = use_of(line, alone);
                                                              return use && (use->named || headed);
                                                          });
                });
            if (!named) continue;
        }
        for (const Line& line : pending.lines) {
            const auto words = words_of(line.text);
            if (words.empty() || one_of(words[0], {"rep", "repeat", "cont", "continue"})) continue;
            if (!later && !one.lines.empty() && row_words(words) == 0) break;  // told behind it
            one.lines.push_back(line);
            one.last.push_back(last_row_of(line));
            one.rows = std::max(one.rows, one.last.back());
        }
        if (one.lines.empty() || std::find(one.last.begin(), one.last.end(), 0) != one.last.end())
            continue;
        // "Row 1 and all odd rows" stand behind the last one that is written, too.
        const std::string all = base::lower(one.lines.front().text);
        if (one.rows % 2 == 1 && pending.lines.size() > 1) {
            const auto words = words_of(all);
            for (const Line& line : one.lines) {
                const std::string low = base::lower(line.text).substr(0, 40);
                if (low.find("ws rows") != std::string::npos ||
                    low.find("even") != std::string::npos)
                    ++one.rows;
            }
        }
        patterns.push_back(std::move(one));
        told.push_back(i);
    }
    if (patterns.empty()) return;
    bool used = false;
    for (std::size_t i = 0; i < pending_.size(); ++i) {
        if (!has_base(pending_[i])) continue;
        std::vector<Line> out;
        const StitchPattern* before = nullptr;
        for (const Line& line : pending_[i].lines) {
            const auto use = use_of(line, patterns);
            if (!use) {
                out.push_back(line);
                used = put_named_rows(out.back(), patterns) || used;
                before = nullptr;
                continue;
            }
            put(*use, line, before == use->pattern, out);
            before = use->pattern;
            used = true;
        }
        pending_[i].lines = std::move(out);
    }
    if (!used) return set_unused_aside(told);
    for (auto index = told.rbegin(); index != told.rend(); ++index) {
        for (const Line& line : pending_[*index].lines) {
            const auto words = words_of(line.text);
            const bool row = row_words(words) > 0 || last_row_of(line) > 0 ||
                             one_of(words[0], {"rep", "repeat"});
            part(row ? What::stitches : What::may_work, line);
        }
        pending_.erase(pending_.begin() + static_cast<std::ptrdiff_t>(*index));
    }
}

/// "slip 2 sts to cable needle, k2, k2 from cable needle", "k1, p1, k1": stitches one by one, as
/// many as they take.
bool DocumentReader::knit_make_up(const std::string& meaning, Definition& definition) {
    Tokens lexed = tokens_of(meaning, 0, 1);
    if (lexed.fault) return false;
    std::vector<SetAside> said;
    StitchBook book = *book_;
    read_phrases(lexed.tokens, book, NotationOptions{}, said);
    Grammar grammar(book, lexed.tokens, 0);
    const Body body = grammar.row();
    if (grammar.fault() || !body.unknown.empty() || body.items.empty() || !body.declared.empty())
        return false;
    std::int64_t takes = 0;
    std::int64_t makes = 0;
    std::string of;
    for (const Item& item : body.items) {
        if (item.what != Item::Do::work || item.spot.which != Spot::Which::implied) return false;
        const Stitch& stitch = book.at(item.kind);
        if (item.count > 100 || stitch.name == "CO" || stitch.name == "BO") return false;
        takes += item.count * stitch.takes;
        makes += item.count * stitch.makes;
        of += (of.empty() ? "" : ", ") + (item.count == 1 && stitch.name.size() > 2
                                              ? stitch.name
                                              : stitch.name + ' ' + std::to_string(item.count));
    }
    definition.stitch.of = base::lower(of);
    definition.stitch.takes = takes;
    definition.stitch.makes = makes;
    definition.followed = true;
    return true;
}

}  // namespace skeinfall::notation
