// Crochet: rows within paragraphs and behind headings, and lines that only go on telling.

#include <algorithm>
#include <cctype>
#include <cstddef>
#include <regex>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/document_reader.hpp"

namespace skeinfall::notation {

std::size_t DocumentReader::label_within(const std::string& low) {
    std::size_t at = std::string::npos;
    for (const std::string_view label :
         {" rnd 1:", " row 1:", " round 1:", " rnd 1 ", " row 1 ", " round 1 ",
          " 1st rnd:", " 1st row:", " 1st round:", " row 1.", " rnd 1.", " round 1.", " r1:"})
        at = std::min(at, low.find(label));
    return at;
}

namespace {

/// Without sentences that only say how rounds are told apart.
std::string without_idle(const std::string& text) {
    static const std::regex idle(
        R"((?:do not|don't) (?:join|turn)[^.]*\.|(?:use|place|mark|move)[^.]*(?:marker|first (?:st|stitch|sc))[^.]*\.)",
        std::regex::icase | std::regex::optimize);
    return std::regex_replace(text, idle, " ");
}

/// Whether the label of a second row stands behind the first one, at `at`.
bool second_label(const std::string& low, std::size_t at) {
    for (const std::string_view label : {" rnd 2", " row 2", " round 2", " 2nd rnd", " 2nd row"})
        if (low.find(label, at + 4) != std::string::npos) return true;
    return false;
}

}  // namespace

/// "With A, ch 4. Join to form a ring. See the chart. 1st row:": where the chain begins, in the
/// sentences before `from` that work nothing else.
std::size_t DocumentReader::base_before(const std::string& low, std::size_t from) {
    const auto here = words_of(low.substr(from, 60));
    if (!here.empty() && begins_base(here) && base_says(here)) return std::string::npos;
    constexpr int sentences = 3;
    for (int i = 0; i < sentences && from > 2; ++i) {
        const auto stop = low.rfind(". ", from - 3);
        const std::size_t start = stop == std::string::npos ? 0 : stop + 2;
        const std::string text = low.substr(start, from - start);
        for (const std::string_view chain : {" ch ", " chain "}) {
            const auto found = text.rfind(chain);
            if (found == std::string::npos || found + chain.size() >= text.size() ||
                !digit(text[found + chain.size()]))
                continue;
            const auto behind = words_of(text.substr(found));
            if (behind.size() < 5) return start + found + 1;
        }
        if (works_stitches(words_of(text), 0) && text.find("join") == std::string::npos) break;
        from = start;
    }
    return std::string::npos;
}

bool DocumentReader::rows_within(Line& line) {
    constexpr std::size_t paragraph = 120;
    if (document_.craft != Craft::crochet || (in_rows_ && line.text.size() < paragraph) ||
        zone_ == What::abbreviations || zone_ == What::stitches)
        return false;
    const std::string low = base::lower(line.text);
    const std::size_t at = label_within(low);
    // "Pattern With MC, ch 164 Row 1: ..."
    const auto lead = words_of(low.substr(0, std::min(at, low.size())));
    const bool chained =
        lead.size() > 2 && number(lead.back()) && one_of(lead[lead.size() - 2], {"ch", "chain"});
    if (at == std::string::npos || at < 6 ||
        (low[at - 1] != '.' && low[at - 1] != ')' && !chained && !second_label(low, at)))
        return false;
    // The sentence before it makes the base, or one a little before that.
    const auto stop = low.rfind(". ", at - 2);
    std::size_t start = stop == std::string::npos ? 0 : stop + 2;
    if (const auto earlier = base_before(low, start); earlier != std::string::npos) start = earlier;
    for (const std::string_view chain :
         {" ch ", " chain ", " ch"}) {  // "FOOT - Toepiece ... Ch 11", "make ch5"
        const auto found = low.find(chain, start);
        if (found != std::string::npos && found < at && digit(low[found + chain.size()]))
            start = found + 1;
    }
    const auto words = words_of(low.substr(start, at - start));
    const bool base = !words.empty() && begins_base(words) && base_says(words);
    if (!base && works_stitches(words_of(low.substr(0, at)), 0)) return false;
    const std::size_t from = base ? start : at + 1;
    bool base_taken = false;
    if (from > 0) {
        Line remark = line;
        remark.text.resize(from);
        remark.from.resize(std::min(from, remark.from.size()));
        part(may_work(words_of(without_idle(remark.text))) ? What::may_work : What::remark, remark);
        cut_front(line, from);
    }
    if (base && chained && from < at) {
        Line chain = line;
        chain.text.resize(at - from);
        chain.from.resize(at - from);
        take_row(std::move(chain), true);
        cut_front(line, at - from);
        base_taken = true;
    }
    take_row(line, base && !base_taken);
    return true;
}

bool DocumentReader::closes_bracket(const std::string& row, const std::string& next) const {
    if (document_.craft != Craft::crochet) return false;
    const auto open = row.rfind('(');
    const auto close = next.find(')');
    return open != std::string::npos && row.find(')', open) == std::string::npos &&
           row.size() - open < 40 && close != std::string::npos && close < 40 &&
           next.find('(') > close;
}

bool DocumentReader::breaks_off(const std::string& row, const Line& next,
                                const std::vector<std::string>& words) {
    if (document_.craft != Craft::crochet || words.empty() || row_words(words) > 0 ||
        bare_number(words) || row_words(words_of(row)) == 0 || zone_of(words) ||
        heading(next, words))
        return false;
    const auto open = [&](char left, char right) {
        return std::count(row.begin(), row.end(), left) > std::count(row.begin(), row.end(), right);
    };
    if (open('[', ']') || (open('(', ')') && next.text.find(')') != std::string::npos)) return true;
    if (row.back() == ',')
        return stitch_word(words[0]) || digit(words[0][0]) || words[0] == "*" ||
               std::islower(static_cast<unsigned char>(next.text[0])) != 0;
    // "[Rep rows 2 and 3]" and "42 times."
    return row.back() == ']' && number(words[0]) && words.size() > 1 && words[1] == "times";
}

bool DocumentReader::only_talks(const std::vector<std::string>& words) {
    const auto has = [&](Names names) {
        return std::any_of(words.begin(), words.end(),
                           [&](const std::string& word) { return one_of(word, names); });
    };
    const bool asks = words.back() == "?" || (has({"?"}) && has({"i", "anyone", "anybody"}));
    return asks || (has({"i", "i'm", "i've", "i'd"}) &&
                    has({"pdf", "blog", "typo", "thanks", "thank", "forgot", "comment", "hope",
                         "sorry", "photo", "photos", "picture", "pictures", "post"}));
}

bool DocumentReader::stands_apart(const std::string& row, const std::string& next,
                                  const std::vector<std::string>& words) {
    // "*Button closure: Ch 8, sl st to first ch."
    const auto colon = next.find(':');
    if (next.front() == '*' && std::count(next.begin(), next.end(), '*') == 1 &&
        colon != std::string::npos && colon < 30 && words.size() > 3 &&
        std::isupper(static_cast<unsigned char>(next[1])) != 0 && !stitch_word(words[1]) &&
        row_words({words.begin() + 1, words.end()}) == 0)
        return true;
    if (next.front() == '*' && std::count(next.begin(), next.end(), '*') == 1 && next.size() > 2 &&
        letter(next[1]) && !begins_work(words) && !works_stitches(words, 0))
        return true;
    // "... = 36 sc" and "photo by a friend"
    const auto counted = words_of(row);
    const std::size_t last = counted.size();
    if (last > 3 && ((number(counted[last - 2]) && counted[last - 3] == "=") ||
                     (number(counted[last - 1]) && counted[last - 2] == "=")))
        return !begins_work(words) && !works_stitches(words, 0) && letter(next.front());
    return (row.ends_with(");") || row.ends_with("];")) && next.front() != '*';
}

bool DocumentReader::goes_on_telling(const Line& line, const std::vector<std::string>& words) {
    if (document_.craft != Craft::crochet || document_.parts.empty() || line.blank_before ||
        line.bullet || works_stitches(words, 0))
        return false;
    const DocumentPart& above = document_.parts.back();
    const char first = line.text.front();
    return above.line + 1 == line.number &&
           (above.what == What::remark || above.what == What::finishing) && !above.text.empty() &&
           std::string_view(".!?:;)").find(above.text.back()) == std::string_view::npos &&
           (std::islower(static_cast<unsigned char>(first)) != 0 || digit(first));
}

bool DocumentReader::round_flat_piece(const std::vector<std::string>& words) const {
    bool rounds = false;
    for (const Line& line : pending_.back().lines) {
        const auto its = words_of(line.text);
        const std::size_t label = row_words(its);
        for (std::size_t i = 0; i < label; ++i)
            rounds = rounds || (its[i].starts_with("r") && its[i].find("nd") != std::string::npos);
    }
    const bool several = std::any_of(words.begin(), words.end(), [](const std::string& word) {
        return one_of(word, {"rounds", "rnds", "rows"});  // "work 2 rounds of sc around"
    });
    if (several) return true;
    return !rounds && std::any_of(words.begin(), words.end(), [](const std::string& word) {
        return one_of(word, {"around", "round", "rnd", "edge", "edges", "side", "sides", "corner",
                             "corners", "perimeter", "evenly", "border"});
    });
}

/// "Make 2." right below "LEGS": how often, said with the name.
bool DocumentReader::counts_heading(const std::vector<std::string>& words) {
    if (document_.craft != Craft::crochet || heading_.empty() || words.size() < 2 ||
        words.size() > 3 || words[0] != "make" || (words.size() == 3 && words[2] != "."))
        return false;
    if (times_said("(" + words[0] + " " + words[1] + ")") < 2) return false;
    heading_ += " (make " + words[1] + ")";
    return true;
}

/// "Stuff the head. Rnd 15: ...": the row behind a sentence that works nothing.
bool DocumentReader::later_label(Line& line) {
    static const std::regex label(R"([.!)] +(?:rnd|round|row)s? \d+(?: ?(?:-|&|and|to) ?\d+)? ?:)",
                                  std::regex::icase | std::regex::optimize);
    std::smatch found;
    if (document_.craft != Craft::crochet || !std::regex_search(line.text, found, label))
        return false;
    const auto at = static_cast<std::size_t>(found.position(0)) + 1;
    const auto before = words_of(line.text.substr(0, at));
    if (works_stitches(before, 0) || begins_base(before)) return false;
    Line told = line;
    told.text.resize(at);
    told.from.resize(at);
    part(open_or_told(told, before), told);
    cut_front(line, at);
    take_row(line, false);
    return true;
}

std::size_t DocumentReader::heading_before_row(const Line& line) const {
    if (document_.craft != Craft::crochet) return std::string::npos;
    const std::size_t label = label_within(base::lower(line.text));
    if (label == std::string::npos || label < 3 || label > 40 || !letter(line.text[label - 1]) ||
        words_of(line.text.substr(label)).size() < 6)
        return std::string::npos;
    const auto before = words_of(line.text.substr(0, label));
    const bool named = before.size() <= 4 &&
                       std::all_of(before.begin(), before.end(), [](const std::string& word) {
                           return letter(word[0]) &&
                                  !one_of(word, {"same", "as", "of", "like", "to", "from", "until",
                                                 "on", "in", "after", "before", "for", "rep",
                                                 "repeat", "join", "turn", "with", "next"});
                       });
    return named ? label : std::string::npos;
}

/// "20 sc." alone in its line: the count of the row above, which has none.
bool DocumentReader::counts_alone(const std::string& row, const std::vector<std::string>& words) {
    if (document_.craft != Craft::crochet || words.size() < 2 || words.size() > 3 ||
        !number(words[0]) || !stitch_word(words[1]) || words[1].starts_with("ch") ||
        (words.size() == 3 && words[2] != "."))
        return false;
    const auto above = words_of(row);
    return row_words(above) > 0 && row.back() != ')' && row.back() != ']' &&
           (above.size() < 3 || !number(above[above.size() - 2]));
}

/// Whether rows that are turned, and none that is joined, make the piece: "around" said once, of an
/// edging, makes no rounds of it.
namespace {

/// "Row 2 and all even rows: Purl", and nothing but "rep from * around" speaks of rounds.
bool purled_back(const std::vector<Line>& lines) {
    bool purled = false;
    for (const Line& line : lines) {
        const auto words = words_of(base::lower(line.text));
        for (const std::string& word : words)
            if (word.starts_with("join") || word.starts_with("rnd") || word.starts_with("round") ||
                word.starts_with("dpn") || word.starts_with("circular"))
                return false;
        if (row_words(words) > 0 && words[0].starts_with("row") && words.size() < 12 &&
            (words.back() == "purl" || (words.back() == "." && words[words.size() - 2] == "purl")))
            purled = true;
    }
    return purled;
}

}  // namespace

bool DocumentReader::turned_rows(const std::vector<Line>& lines) const {
    if (document_.craft == Craft::knit) return purled_back(lines);
    std::size_t turned = 0;
    for (const Line& line : lines) {
        const auto words = words_of(line.text);
        const std::size_t label = row_words(words);
        for (std::size_t i = 0; i < words.size(); ++i) {
            if (one_of(words[i], {"join", "rnd", "rnds", "round", "rounds", "ring", "spiral"}))
                return false;
            if (label > 0 && i >= label && words[i] == "turn") {
                ++turned;
                break;
            }
        }
    }
    return turned > 1;
}

bool DocumentReader::between_numbers(const Line& row, const Line& next,
                                     const std::vector<std::string>& words) {
    // the first and last number of a label: "Rnd 3", "Rnds 3-5"
    const auto labelled = [](const Line& line) -> std::pair<std::int64_t, std::int64_t> {
        const auto its = words_of(line.text);
        if (its.size() < 3 || row_words(its) < 2 || !number(its[1]) || its[1].size() > 3)
            return {0, 0};
        const std::int64_t first = base::leading_number<std::int64_t>(its[1]);
        const bool span = its.size() > 4 && its[2] == "-" && number(its[3]) && its[3].size() < 4;
        return {first, span ? base::leading_number<std::int64_t>(its[3]) : first};
    };
    const std::string_view open = "([*";
    const bool begins = stitch_word(words[0]) || one_of(words[0], {"work", "skip", "sk", "in"}) ||
                        (number(words[0]) && words.size() > 1 && stitch_word(words[1]));
    const bool work = open.find(next.text.front()) != std::string_view::npos ||
                      (begins && works_stitches(words, 0)) || only_joins(words);
    // "(24 sts)" is looked at elsewhere
    if (!work || words.size() < 4 || (open.find(next.text.front()) < 2 && number(words[1])))
        return false;
    const std::int64_t before = labelled(row).second;
    if (before == 0) return false;
    constexpr std::size_t ahead = 9;
    for (std::size_t i = at_ + 2; i < lines_.size() && i < at_ + ahead; ++i)
        if (row_words(words_of(lines_[i].text)) > 0) return labelled(lines_[i]).first == before + 1;
    return false;
}

/// "Last row for finishing:" above "Row 20: ...": the name of what follows, and no row.
bool DocumentReader::announces_rows(const Line& line, const std::vector<std::string>& words) {
    const std::size_t label = row_words(words);
    if (document_.craft != Craft::crochet || line.text.back() != ':' || words.size() < label + 3 ||
        words[label] != "for" || works_stitches(words, 0) || at_ + 1 >= lines_.size())
        return false;
    return row_words(words_of(lines_[at_ + 1].text)) > 0;
}

/// "ch 2 - 6 sc in first ch - sl st to join": dashes where others have commas.
void DocumentReader::dashes_to_commas(Line& line) const {
    if (document_.craft != Craft::crochet || line.text.find(", ") != std::string::npos) return;
    std::vector<std::size_t> dashes;
    for (std::size_t at = line.text.find(" - "); at != std::string::npos;
         at = line.text.find(" - ", at + 2))
        dashes.push_back(at + 1);
    // Behind the label, and in front of the count, a dash is one.
    if (!dashes.empty() && row_words(words_of(line.text.substr(0, dashes.front()))) > 0 &&
        words_of(line.text.substr(0, dashes.front())).size() < 4)
        dashes.erase(dashes.begin());
    if (!dashes.empty() && words_of(line.text.substr(dashes.back() + 1)).size() < 3 &&
        digit(line.text[dashes.back() + 2]))
        dashes.pop_back();
    constexpr std::size_t most_counts = 2;
    if (dashes.size() < most_counts) return;
    for (const std::size_t at : dashes) {
        line.text[at - 1] = ',';
        line.text[at] = ' ';
    }
}

/// "Shell-3 dc's in the same sp" in a list of stitches, as "Shell - 3 dc's in the same sp".
void DocumentReader::space_definition(Line& line) const {
    if (document_.craft != Craft::crochet ||
        (zone_ != What::abbreviations && zone_ != What::stitches) ||
        definition_sign(line.text).first > 0)
        return;
    const auto dash = line.text.find('-');
    if (dash == std::string::npos || dash < 3 || dash > 30 || dash + 2 > line.text.size()) return;
    const auto name = words_of(line.text.substr(0, dash));
    const auto meaning = words_of(line.text.substr(dash + 1));
    const bool plain =
        name.size() <= 3 && std::all_of(name.begin(), name.end(),
                                        [](const std::string& word) { return letter(word[0]); });
    const bool works = std::any_of(meaning.begin(), meaning.end(), [](const std::string& word) {
        return one_of(word, {"in", "into", "next", "same"});
    });
    if (!plain || !works || meaning.size() < 4 || line.text[dash + 1] == ' ') return;
    for (const std::size_t at : {dash + 1, dash}) {
        line.text.insert(at, 1, ' ');
        line.from.insert(line.from.begin() + static_cast<std::ptrdiff_t>(at), line.from[dash]);
    }
}

/// "... - 52 (68," and "84) sts": the counts of the sizes, which a page broke.
bool DocumentReader::cut_sizes(const std::string& row, const std::vector<std::string>& next) {
    const auto open = row.rfind('(');
    return next.size() > 1 && number(next[0]) && (next[1] == ")" || next[1] == ",") &&
           row.back() == ',' && open != std::string::npos && row.find(')', open) == row.npos &&
           row.find_first_not_of("0123456789, ", open + 1) == row.npos;
}

bool DocumentReader::continues(const Line& next) {
    if (pending_.empty() || next.numbered || next.bullet) return false;
    const Line& row = pending_.back().lines.back();
    const auto words = words_of(next.text);
    if (!words.empty() && puts_together(next.text)) return false;
    // "Ch 1, turn." below a blank line
    if (document_.craft == Craft::crochet && words.size() > 2 && words.size() < 8 &&
        one_of(words[0], {"ch", "chain"}) && only_joins(words))
        return true;
    if (counts_alone(row.text, words)) return true;
    // "These rows create the heel, ..."
    if (document_.craft == Craft::crochet && words.size() > 3 &&
        one_of(words[0], {"these", "this"}) &&
        one_of(words[1], {"rows", "rounds", "rnds", "row", "round", "set", "part"}))
        return false;
    if (next.blank_before && !closes_bracket(row.text, next.text) &&
        !breaks_off(row.text, next, words))
        return false;
    if (cut_sizes(row.text, words)) return true;
    if (words.empty() || row_words(words) > 0 || bare_number(words)) return false;
    if (document_.craft == Craft::crochet && only_joins(words)) return true;
    if (document_.craft == Craft::crochet && stands_apart(row.text, next.text, words)) return false;
    if (zone_of(words) && heading(next, words)) return false;
    const char last = row.text.back();
    // "7th row: as the 3rd row;" above "Edging"
    if (document_.craft == Craft::crochet && last == ';' && words.size() <= 2 &&
        std::isupper(static_cast<unsigned char>(next.text[0])) != 0 && !stitch_word(words[0]) &&
        !begins_work(words))
        return false;
    std::int64_t open = 0;
    std::int64_t stars = 0;
    for (std::size_t i = 0; i < row.text.size(); ++i) {
        const char c = row.text[i];
        if (c == '(' || c == '[') ++open;
        if ((c == ')' || c == ']') && open > 0) --open;  // not that of "R4)"
        if (c == '*' && !times_star(row.text, i)) ++stars;
    }
    const char first = next.text[0];
    // "Sc" and "across short end ...", as a page breaks them
    if (document_.craft == Craft::crochet && words_of(row.text).size() == 1 &&
        stitch_word(words_of(row.text).front()) &&
        std::islower(static_cast<unsigned char>(first)) != 0)
        return true;
    if (open > 0 || last == ',' || last == ';' || last == '-') return true;
    if (document_.craft == Craft::crochet && in_midst(row.text)) return true;
    if (document_.craft == Craft::crochet && one_of(words[0], {"in", "into"}) &&
        std::islower(static_cast<unsigned char>(next.text[0])) != 0 &&
        stitch_word(words_of(row.text).back()))
        return true;  // "Row 1: Tr" and "in 3rd ch from hook"
    if (document_.craft == Craft::crochet && between_numbers(row, next, words)) return true;
    if (stars % 2 == 1 && !sentence_anew(row.text, next.text) &&
        base::lower(row.text).find("rep") == std::string::npos)
        return true;
    if (last == '.' || last == ')' || last == ']' || last == ':' || last == '!')
        return first == '(' && next.text.size() < 60 && next.text.size() > 1 && digit(next.text[1]);
    if (words.size() > 1 && one_of(words[1], {"rep", "repeat"}) && first == '(') return false;
    if (first == '(' || first == '[' || first == '=')
        return next.text.size() > 1 &&
               (digit(next.text[1]) || (begins_work(words) && (document_.craft == Craft::crochet ||
                                                               row.text.size() > 45)));
    const bool of_rows = document_.craft == Craft::knit && words.size() > 2 &&
                         one_of(words[2], {"row", "rows", "rnd", "round", "the"});
    if (!of_rows && (base::lower(next.text).starts_with("rep from") ||
                     base::lower(next.text).starts_with("repeat from")))
        return true;
    if (digit(first)) return row.text.size() > 30 && !number(words.back());
    if (std::islower(static_cast<unsigned char>(first)) == 0) return false;
    return row.text.size() > 30 || (document_.craft == Craft::crochet && digit(last) &&
                                    words_of(row.text).size() < 5);  // "Rnd 1: 1" and "sc in ..."
}

}  // namespace skeinfall::notation
