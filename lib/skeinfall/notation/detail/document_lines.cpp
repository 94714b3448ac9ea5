// Where a sentence ends in a line of rows.

#include <algorithm>
#include <cctype>
#include <cstdint>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/notation/detail/document_reader.hpp"

namespace skeinfall::notation {

namespace {

/// The first `size` bytes of a line, and what is left of it without the blanks between.
Line cut_off(Line& line, std::size_t size) {
    // Long lines are not copied for each of their sentences.
    std::string text = std::move(line.text);
    std::vector<std::size_t> from = std::move(line.from);
    Line out = line;
    line.text = std::move(text);
    line.from = std::move(from);
    out.text = line.text.substr(0, size);
    out.from.assign(line.from.begin(), line.from.begin() + static_cast<std::ptrdiff_t>(size));
    while (size < line.text.size() && (line.text[size] == ' ' || line.text[size] == ',')) ++size;
    if (line.text.compare(size, 4, "and ") == 0) size += 4;
    line.text.erase(0, size);
    line.from.erase(line.from.begin(), line.from.begin() + static_cast<std::ptrdiff_t>(size));
    return out;
}

bool row_word(const std::string& word) {
    return one_of(word, {"row", "rows", "rnd", "rnds", "round", "rounds"});
}

/// Whether the words name rows, which alone is no work.
bool row_names(const std::vector<std::string>& words) {
    return std::any_of(words.begin(), words.end(), [](const std::string& word) {
        return one_of(word, {"rounds", "rows", "rnds", "decrease", "increase", "dec", "inc"});
    });
}

/// "this", "you", "I": a sentence that tells and does not ask for work.
bool tells(const std::vector<std::string>& words) {
    return one_of(words[0], {"this", "these", "those", "you",  "your",  "i",        "it",
                             "that", "they",  "we",    "if",   "note",  "notice",   "please",
                             "my",   "when",  "be",    "here", "there", "remember", "from"});
}

/// Whether nothing but a few words stands behind the last number.
bool number_near_end(const std::vector<std::string>& words) {
    for (std::size_t i = words.size(); i > 0 && i + 5 > words.size(); --i)
        if (number(words[i - 1])) return true;
    return false;
}

/// "Begin increase.", "Start the decreases:", "Begin shaping by decreasing."
bool only_leads(const std::vector<std::string>& words) {
    if (words.size() < 2 || !one_of(words[0], {"begin", "start", "then", "now"})) return false;
    bool change = false;
    for (const std::string& word : words) {
        change = change || one_of(word, {"increase", "increases", "increasing", "decrease",
                                         "decreases", "decreasing", "shaping"});
        if (!one_of(word,
                    {"begin",     "start",      "then",     "now",       "the",        "to",
                     "crown",     "by",         "increase", "increases", "increasing", "decrease",
                     "decreases", "decreasing", "shaping",  "top",       "as",         "follows",
                     "rows",      "rounds",     "thumb",    "toe",       "gusset",     "for",
                     ".",         ":",          "-"}))
            return false;
    }
    return change && (words[0] == "begin" || words[0] == "start" || words[1] == "begin" ||
                      words[1] == "start");
}

/// "Bind off.", "Cast off all sts loosely in rib.": a row of its own behind another.
bool ends_piece(const std::vector<std::string>& words) {
    const std::size_t from = words[0] == "bo" ? 1 : 2;
    if (from == 2 && (words.size() < 2 || !one_of(words[0], {"bind", "cast"}) || words[1] != "off"))
        return false;
    return std::all_of(words.begin() + static_cast<std::ptrdiff_t>(from), words.end(),
                       [](const std::string& word) {
                           return one_of(word,
                                         {".", "all", "sts", "stitches", "loosely", "firmly", "in",
                                          "rib", "pattern", "patt", "knitwise", "purlwise", "kwise",
                                          "pwise", "the", "remaining", "rem", "ribbing"});
                       });
}

/// "These 2 rows form the pattern.", "From 1st to 6th row constitutes pattern."
bool names_rows(const std::vector<std::string>& words) {
    const auto any = [&](Names names) {
        return std::any_of(words.begin(), words.end(),
                           [&](const std::string& word) { return one_of(word, names); });
    };
    return any({"form", "forms", "set", "sets", "establish", "establishes", "constitute",
                "constitutes", "called", "complete", "completes"}) &&
           any({"row", "rows", "rnds", "rounds", "pattern", "patt", "pat", "rib"});
}

}  // namespace

/// Whether a sentence behind a row's own words tells of other rows.
bool DocumentReader::of_its_own(const std::vector<std::string>& sentence) {
    if (!begins_work(sentence) || one_of(sentence[0], {"fasten", "break", "cut"})) return false;
    for (std::size_t i = 0; i < sentence.size(); ++i) {
        if (one_of(sentence[i], {"until", "rows", "rounds", "rnds", "inches", "cm", "\""}))
            return true;
        if (i > 0 && row_word(sentence[i]) &&
            (number(sentence[i - 1]) ||
             one_of(sentence[i - 1], {"next", "one", "foll", "previous", "last", "this", "these",
                                      "other", "alternate"})))
            return true;
    }
    return false;
}

std::vector<Line> DocumentReader::sentences(Line line, bool labelled) {
    std::vector<Line> out;
    while (true) {
        const std::size_t at = sentence_end(line, labelled);
        if (at == 0) break;
        out.push_back(cut_off(line, at));
        constexpr std::size_t longest_label = 400;
        const auto words = words_of(std::string_view(line.text).substr(0, longest_label));
        labelled = !words.empty() && row_words(words) > 0;
    }
    if (!line.text.empty()) out.push_back(std::move(line));
    return out;
}

bool DocumentReader::idle(const std::vector<std::string>& words) {
    if (document_.craft != Craft::crochet || words.size() < 3 ||
        !one_of(words[0], {"now", "then", "in", "place", "do", "to", "with"}) ||
        words.back() == ":")
        return false;
    return std::none_of(words.begin(), words.end(), [&](const std::string& word) {
        return digit(word[0]) || word == "*" || word == "turn" || stitch_word(word) ||
               one_of(word, {"rep",      "repeat", "inc",    "dec",      "increase", "decrease",
                             "continue", "cont",   "work",   "skip",     "sk",       "miss",
                             "st",       "sts",    "stitch", "stitches", "row",      "rows",
                             "round",    "rounds", "rnd",    "rnds",     "as"});
    });
}

bool DocumentReader::base_sentence(Line& line) {
    if (document_.craft != Craft::crochet || in_rows_ || !pending_.empty() || !row_one_next())
        return false;
    const std::string low = base::lower(line.text);
    for (const std::string_view lead : {". ch ", ". chain ", ") ch "}) {
        const auto at = low.find(lead);
        if (at == std::string::npos || at + lead.size() >= low.size() ||
            !digit(low[at + lead.size()]))
            continue;
        Line told = line;
        told.text.resize(at + 1);
        told.from.resize(at + 1);
        part(zone_.value_or(What::remark), told);
        cut_front(line, at + 1);
        take_row(line, true);
        return true;
    }
    return ring_sentence(line, low);
}

bool DocumentReader::leads_to_rows(const Line& line) const {
    if (document_.craft != Craft::crochet || at_ + 1 >= lines_.size()) return false;
    const std::string low = base::lower(line.text);
    if (!low.ends_with("follows:") && !low.ends_with("following:")) return false;
    const auto next = words_of(lines_[at_ + 1].text);
    return !next.empty() && row_words(next) > 0 && row_words(words_of(low)) == 0;
}

bool DocumentReader::label_with_remark(const Line& line) {
    const auto words = words_of(line.text);
    const std::size_t label = row_words(words);
    if (document_.craft != Craft::crochet || label == 0 || words.size() < label + 4 ||
        at_ + 1 >= lines_.size() || (line.text.back() != '.' && line.text.back() != ':'))
        return false;
    const auto next = words_of(lines_[at_ + 1].text);
    if (next.empty() || lines_[at_ + 1].blank_before || row_words(next) > 0 || !begins_work(next) ||
        !works_stitches(next, 0))
        return false;
    const bool note = std::find(words.begin(), words.end(), "note") - words.begin() <
                      static_cast<std::ptrdiff_t>(label) + 4;
    return std::none_of(words.begin() + static_cast<std::ptrdiff_t>(label), words.end(),
                        [&](const std::string& word) {
                            return (digit(word[0]) && !note) || word == "*" ||
                                   (stitch_word(word) && word != "loop") ||
                                   one_of(word,
                                          {"rep", "repeat", "inc", "dec", "as", "same", "increase",
                                           "decrease", "even", "around", "across", "each"});
                        });
}

bool DocumentReader::announces(const Line& line, const std::vector<std::string>& words) {
    if (words.size() > 7 || has_number(words) || line.text.back() == '.' ||
        (document_.craft == Craft::crochet && words.size() > 3) || at_ + 1 >= lines_.size() ||
        may_work(words) != row_names(words))
        return false;
    const auto next = words_of(lines_[at_ + 1].text);
    if (next.empty() || (row_words(next) == 0 && !bare_number(next))) return false;
    return std::any_of(words.begin(), words.end(), [](const std::string& word) {
        return one_of(word, {"rounds", "rows", "section", "decreases", "increases", "shaping",
                             "pattern", "decreasing", "increasing"});
    });
}

bool DocumentReader::one_hand(Line& line, const std::vector<std::string>& words) {
    if (document_.craft != Craft::knit || !one_of(words[0], {"left", "right"}) ||
        pending_.empty() || pending_.back().lines.empty())
        return false;
    const auto colon = line.text.find(':');
    if (colon == std::string::npos || colon > 30 || colon + 2 > line.text.size()) return false;
    const auto behind = words_of(line.text.substr(colon + 1));
    if (behind.empty() || !begins_work(behind)) return false;
    if (!hand_.empty() && hand_ != words[0]) {
        part(What::remark, line);
        return true;
    }
    Line& label = pending_.back().lines.back();
    if (!only_label(label)) return false;
    hand_ = words[0];
    Line rest = line;
    static_cast<void>(cut_off(rest, colon + 1));
    append(label, rest);
    return true;
}

bool DocumentReader::take_work_in(const Line& line) {
    const std::vector<Line> all = sentences(line, false);
    if (all.size() < 2) return false;
    for (std::size_t i = 0; i < all.size(); ++i) {
        const auto words = words_of(all[i].text);
        if (words.empty()) continue;
        if (begins_work(words) || row_words(words) > 0)
            take_sentence(all[i], false, i + 1 == all.size());
        else
            part(may_work(words) ? What::may_work : What::remark, all[i]);
    }
    return true;
}

/// "Rows 4-40: rep rows 2 and 3. Fasten off. Sew the ends together.": what is sewn is no part of
/// the row.
void DocumentReader::cut_seams(Line& line) {
    auto at = line.text.find(". Sew ");
    if (at == std::string::npos || row_words(words_of(line.text)) == 0) return;
    Line seams = line;
    cut_front(seams, at + 2);
    const auto words = words_of(seams.text);
    // Another row may stand behind it.
    if (seams.text.find(": ") != std::string::npos || works_stitches(words, 0)) return;
    line.text.resize(at + 1);
    line.from.resize(at + 1);
    part(What::remark, seams);
}

/// "... across, turn (60": the bracket of a count that nobody closed.
void DocumentReader::close_count(Line& line) {
    const auto open = line.text.rfind('(');
    if (open == std::string::npos || line.text.find(')', open) != std::string::npos ||
        std::count(line.text.begin(), line.text.end(), '(') !=
            std::count(line.text.begin(), line.text.end(), ')') + 1)
        return;
    const auto words = words_of(std::string_view(line.text).substr(open + 1));
    const bool count =
        !words.empty() && number(words[0]) &&
        (words.size() == 1 || (words.size() == 2 && one_of(words[1], {"st", "sts", "stitches", "sc",
                                                                      "dc", "hdc", "tr", "."})));
    if (!count || (at_ + 1 < lines_.size() && continues_count(lines_[at_ + 1].text))) return;
    if (line.text.back() == '.') {
        line.text.back() = ')';
    } else {
        line.text += ')';
        line.from.push_back(line.from.back());
    }
}

/// "... Fasten off. Make 19 more squares.": the sentence that counts the pieces is no part of the
/// row.
void DocumentReader::cut_copies(Line& line) {
    const auto at = line.text.find(". Make ");
    if (at == std::string::npos) return;
    const auto end = std::min(line.text.find(". ", at + 2), line.text.size() - 1);
    Line copies = line;
    copies.text = line.text.substr(at + 2, end - at - 1);
    copies.from.assign(line.from.begin() + static_cast<std::ptrdiff_t>(at) + 2,
                       line.from.begin() + static_cast<std::ptrdiff_t>(end) + 1);
    const auto words = words_of(copies.text);
    const bool pieces = std::any_of(words.begin(), words.end(), [](const std::string& word) {
        return one_of(word, {"squares", "motifs", "pieces", "blocks", "more", "hexagons", "strips",
                             "circles", "flowers"});
    });
    const bool rows = std::any_of(words.begin(), words.end(), [&](const std::string& word) {
        return row_word(word) || (stitch_word(word) && word != "make");
    });
    if (words.size() < 3 || !number(words[1]) || !pieces || rows) return;
    line.text.erase(at + 1, end - at);
    line.from.erase(line.from.begin() + static_cast<std::ptrdiff_t>(at) + 1,
                    line.from.begin() + static_cast<std::ptrdiff_t>(end) + 1);
    part(What::remark, copies);
}

namespace {

/// "Repeat 2nd and 3rd rows twice, and again knit 2 rows": the plain rows behind those repeated.
std::optional<Line> rows_behind(Line& line) {
    const std::string low = base::lower(line.text);
    if (!low.starts_with("rep")) return std::nullopt;
    for (const std::string_view lead : {" and again ", " and then ", " then ", " again "}) {
        const auto at = low.find(lead);
        if (at == std::string::npos || at == 0) continue;
        const auto words = words_of(low.substr(at + lead.size()));
        const bool rows = words.size() >= 3 && words.size() <= 4 &&
                          one_of(words[0], {"knit", "purl", "k", "p"}) && number(words[1]) &&
                          row_word(words[2]) && (words.size() == 3 || words[3] == ".");
        if (!rows) continue;
        Line out = line;
        std::size_t end = at;
        while (end > 0 && one_of(line.text.substr(end - 1, 1), {",", ";", " "})) --end;
        static_cast<void>(cut_off(out, at + lead.size()));
        out.text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(out.text[0])));
        line.text.resize(end);
        line.from.resize(end);
        return out;
    }
    return std::nullopt;
}

}  // namespace

/// "Rep rows 2 and 3 six times more, then row 2 once.": what stands behind "then", as a line of its
/// own, and `line` without it. Nothing for others.
std::optional<Line> DocumentReader::then_rows(Line& line) const {
    const std::string low = base::lower(line.text);
    if (document_.craft == Craft::knit) return rows_behind(line);
    const auto at = low.find(" then ");
    if (document_.craft != Craft::crochet || at == std::string::npos || !low.starts_with("rep"))
        return std::nullopt;
    auto words = words_of(low.substr(at + 6));
    std::size_t i = 0;
    if (i < words.size() && one_of(words[i], {"rep", "repeat", "work"})) ++i;
    if (i + 1 >= words.size()) return std::nullopt;
    std::string row;
    if (row_word(words[i]) && number(words[i + 1]))
        row = words[i + 1];
    else if (row_word(words[i + 1]) && digit(words[i][0]))
        row = words[i].substr(0, words[i].find_first_not_of("0123456789"));
    if (row.empty() || row.size() > 3) return std::nullopt;
    const bool plain =
        i + 2 >= words.size() || one_of(words[i + 2], {".", "once", "again", "once."});
    const bool twice = !plain && words[i + 2] == "twice";
    if (!plain && !twice) return std::nullopt;
    Line out = line;
    out.text = "Rep row " + row + (twice ? " twice" : " once") + ".";
    const std::size_t place = line.from[std::min(at + 1, line.from.size() - 1)];
    const auto rest = low.find('.', at);
    if (rest != std::string::npos && rest + 1 < line.text.size())
        out.text += line.text.substr(rest + 1);
    out.from.assign(out.text.size(), place);
    std::size_t end = at;
    while (end > 0 && one_of(line.text.substr(end - 1, 1), {",", ";", " "})) --end;
    line.text.resize(end);
    line.from.resize(end);
    return out;
}

void DocumentReader::take_row(Line line, bool base) {
    if (line.text.starts_with("(") && line.text.back() == ')' &&
        line.text.find('(', 1) == std::string::npos) {  // "(Repeat rounds 18-34 twice)"
        line.text = line.text.substr(1, line.text.size() - 2);
        line.from.erase(line.from.begin());
        line.from.pop_back();
    }
    if (document_.craft == Craft::crochet) {
        cut_copies(line);
        close_count(line);
        cut_seams(line);
    }
    const auto words = words_of(line.text);
    const bool labelled = row_words(words) > 0 || bare_number(words);
    if (!labelled && !base) {
        if (auto then = then_rows(line)) {
            take_row(std::move(line), false);
            return take_row(std::move(*then), false);
        }
    }
    const std::vector<Line> all = sentences(std::move(line), labelled);
    for (std::size_t i = 0; i < all.size(); ++i) {
        const auto next = words_of(all[i].text);
        if (next.empty()) continue;
        const bool last = i + 1 == all.size();
        // "Slip 8 sts to a holder, work to end. Cast on 8 sts, ...": over the gap
        const bool gap = i > 0 && document_.craft == Craft::knit &&
                         base::lower(all[i - 1].text).find("hold") != std::string::npos &&
                         !next.empty() && one_of(next[0], {"cast", "co"});
        const bool begins = i == 0 ? base : !gap && begins_base(next) && !adds_to_needle(next);
        if (last && i > 0 && !begins && leads_to_rows(all[i], next)) {
            part(What::remark, all[i]);
            continue;
        }
        if (i > 0 && !begins && row_words(next) == 0 &&
            (!begins_work(next) || (tells(next) && names_rows(next)))) {
            const bool told = tells(next) && names_rows(next);
            part(!told && may_work(next) ? What::may_work : What::remark, all[i]);
            continue;
        }
        if (document_.craft == Craft::knit && !begins && only_leads(next)) {
            part(What::remark, all[i]);
            continue;
        }
        // "Knit 4 more rows. Rows 2 to 5": their numbers
        const bool numbers = document_.craft == Craft::knit && i > 0 && last &&
                             row_words(next) > 0 && only_label(all[i]) &&
                             all[i].text.find(':') == std::string::npos;
        if (numbers || (document_.craft == Craft::knit && one_of(next[0], {"place", "join"}) &&
                        !begins && only_tells(next))) {
            part(What::remark, all[i]);
            continue;
        }
        if (i > 0 && again_knit(all[i], next)) continue;
        if (repeats_following(all[i], next)) continue;
        take_sentence(all[i], begins, last);
        if (repeat_ && --repeat_rows_ == 0) {
            take_sentence(*repeat_, false, false);
            repeat_.reset();
        }
    }
}

/// "Repeat the following 8 rows until it is long enough:" is put behind those rows.
bool DocumentReader::repeats_following(const Line& line, const std::vector<std::string>& words) {
    if (document_.craft != Craft::knit || words.size() < 6 ||
        !one_of(words[0], {"rep", "repeat", "work"}))
        return false;
    std::size_t at = 1;
    if (words[at] == "the") ++at;
    if (!one_of(words[at], {"following", "next", "foll"}) || !number(words[at + 1]) ||
        words[at + 1].size() > 3 || !row_word(words[at + 2]) ||
        !one_of(words[at + 3], {"until", "till", "to", "for"}))
        return false;
    const auto tail = base::lower(line.text).find(' ' + words[at + 3] + ' ');
    if (tail == std::string::npos) return false;
    Line again = line;
    const std::string lead = "Repeat last " + words[at + 1] + " rows";
    static_cast<void>(cut_off(again, tail));
    again.text = lead + ' ' + again.text;
    again.from.insert(again.from.begin(), lead.size() + 1, again.from.front());
    while (!again.text.empty() && one_of(again.text.substr(again.text.size() - 1), {":", "."})) {
        again.text.pop_back();
        again.from.pop_back();
    }
    repeat_ = std::move(again);
    repeat_rows_ = base::leading_number<std::int64_t>(words[at + 1]);
    return true;
}

namespace {

/// "Work even for 6 in, at the same time": what follows is worked in these rows.
bool ends_same_time(std::string_view before) {
    while (!before.empty() && (before.back() == ',' || before.back() == ' '))
        before.remove_suffix(1);
    return before.size() > 9 && base::lower(before.substr(before.size() - 9)) == "same time";
}

}  // namespace

std::size_t DocumentReader::sentence_end(const Line& line, bool labelled) {
    if (document_.craft != Craft::knit) return 0;
    const std::string& text = line.text;
    std::int64_t depth = 0;
    const auto sentence_from = [&](std::size_t next) {
        const auto stop = text.find(". ", next);
        return words_of(
            std::string_view(text).substr(next, stop == std::string::npos ? stop : stop - next));
    };
    bool open_end = false;
    constexpr std::size_t longest_lead = 600;  // fewer than thirty words
    for (std::size_t i = 0; i + 2 < text.size(); ++i) {
        if (text[i] == '(' || text[i] == '[') ++depth;
        if (text[i] == ')' || text[i] == ']') --depth;
        if (depth > 0) continue;
        const std::string_view rest = std::string_view(text).substr(i);
        open_end = open_end || rest.starts_with(" until ") || rest.starts_with(" till ") ||
                   rest.starts_with(" times") || rest.starts_with(" rows") ||
                   rest.starts_with(" rounds") || rest.starts_with(" once more") ||
                   rest.starts_with(" of next row") || rest.starts_with(" more then") ||
                   (rest.starts_with(" in") && i > 0 && !letter(text[i - 1])) ||
                   rest.starts_with(" cm") || rest.starts_with("\"");
        // "Repeat rows 3 and 4 until you have 3 sts left, then bind off"
        if (open_end && !labelled &&
            (rest.starts_with(" then ") || rest.starts_with(" and then "))) {
            const auto words = sentence_from(i + (rest[1] == 'a' ? 10 : 6));
            if (!words.empty() && one_of(words[0], {"bind", "bo", "cast", "work", "repeat", "rep",
                                                    "continue", "cont", "knit", "purl", "change",
                                                    "dec", "decrease", "inc", "increase", "next"}))
                return i;
        }
        // "Cast on 48 stitches work 4 rows in stocking stitch"
        const bool leads = i > 8 && i < longest_lead && !labelled;
        if (leads && (rest.starts_with(" work ") || rest.starts_with(" knit "))) {
            const auto before = words_of(std::string_view(text).substr(0, i));
            const auto behind = sentence_from(i + 1);
            if (one_of(before.back(), {"st", "sts", "stitches"}) && before.size() < 14 &&
                begins_base(before) && of_its_own(behind))
                return i;
        }
        // "Change to larger needles and work in rib for 2 in"
        if (leads && rest.starts_with(" and ")) {
            const auto before = words_of(std::string_view(text).substr(0, i));
            const auto behind = sentence_from(i + 5);
            if (one_of(before[0], {"change", "switch", "join", "changing", "switching", "divide",
                                   "distribute", "arrange"}) &&
                before.size() < 16 && !behind.empty() && of_its_own(behind))
                return i;
        }
        // "..., ending with a WS row and dec'ing 28 sts evenly across last row"
        if (open_end && !labelled && !ends_same_time(std::string_view(text).substr(0, i)))
            for (const std::string_view mark :
                 {" and dec'ing ", ", dec'ing ", " and inc'ing ", ", inc'ing ", " and decreasing ",
                  ", decreasing ", " and increasing ", ", increasing ", ", inc ", ", dec ",
                  " and inc ", " and dec "})
                if (rest.starts_with(mark) && rest.size() > mark.size() && digit(rest[mark.size()]))
                    return i;
        // "BO 6 sts at beg of next 4 rows, bind off remaining 17 sts"
        if (open_end && !labelled)
            for (const std::string_view mark :
                 {", bind off rem", ", cast off rem", ", bo rem", ", BO rem", ", bind off all",
                  ", bind off.", ", cast off.", ", BO.", " and bind off.", " and bind off loosely",
                  " and cast off.", " and BO."})
                if (rest.starts_with(mark)) return i;
        // "Cast on 34 sts and work in k1, p1 rib for 2 in"
        if (leads && (rest.starts_with(" and work ") || rest.starts_with(", work ") ||
                      rest.starts_with(" and knit in ") || rest.starts_with(", knit in ") ||
                      rest.starts_with(" and knit each ") || rest.starts_with(" and knit every ") ||
                      rest.starts_with(" and continue ") || rest.starts_with(" and rib "))) {
            const auto before = words_of(std::string_view(text).substr(0, i));
            if (begins_base(before) && before.size() < 30 && number_near_end(before)) return i;
        }
        // "Cast on 25 sts and K plain for 12 inches"
        if (leads && (rest.starts_with(" and ") || rest.starts_with(", "))) {
            const auto before = words_of(std::string_view(text).substr(0, i));
            const auto behind = sentence_from(i + (rest[1] == 'a' ? 5 : 2));
            if (before.size() < 30 && begins_base(before) && number_near_end(before) &&
                !behind.empty() && !begins_base(behind) && of_its_own(behind) &&
                !one_of(behind[0], {"join", "pm", "place", "turn", "with", "being", "then"}))
                return i;
        }
        // "With A knit 2 rows; with B knit 4 rows"
        if (text[i] == ';' && text[i + 1] == ' ' && !labelled) {
            const auto behind = sentence_from(i + 2);
            if (!behind.empty() && of_its_own(behind) && !one_of(behind[0], {"rep", "repeat"}))
                return i + 1;
        }
        if ((text[i] != '.' && text[i] != '!') || text[i + 1] != ' ') continue;
        if (text.find_first_not_of("0123456789") == i) continue;  // "2. Knit 2 rows."
        std::size_t next = i + 1;
        while (next < text.size() && text[next] == ' ') ++next;
        const bool bracket = next + 1 < text.size() && text[next] == '(' &&
                             one_of(base::lower(text.substr(next + 1, 1)), {"k", "p"});
        const bool opens = next < text.size() && !labelled &&
                           (text[next] == '*' || text[next] == '{' || text[next] == '[' || bracket);
        // "... across. 2nd row: k2"
        const bool row = next < text.size() && digit(text[next]) &&
                         (!digit(text[i - 1]) || (i > 1 && letter(text[i - 2]))) &&
                         row_words(sentence_from(next)) > 0;
        // "Cast on 40 sts. knit 10 rows."
        const auto asks = [&] {
            const auto words = sentence_from(next);
            return !labelled && !digit(text[i - 1]) && !words.empty() &&
                   one_of(words[0],
                          {"knit", "purl", "work", "repeat", "continue", "bind", "cast"}) &&
                   (of_its_own(words) || one_of(words[0], {"bind", "cast"}));
        };
        if (next >= text.size() ||
            (!row && std::isupper(static_cast<unsigned char>(text[next])) == 0 && !asks() &&
             !(opens && (std::string_view(text).substr(0, i).ends_with("repeat to end") ||
                         begins_base(words_of(std::string_view(text).substr(0, i)))))))
            continue;
        const auto words = sentence_from(next);
        if (words.empty()) continue;
        if (one_of(words[0], {"rep", "repeat"}) &&
            (words.size() < 2 ||
             one_of(words[1],
                    {"from", "between", "*", "around", "across", "to", "(", "once", "twice"}) ||
             number(words[1])))
            continue;
        // Behind a row only what tells of several rows is no part of it.
        const bool prose = tells(words) && (!has_number(words) || names_rows(words));
        if (labelled && !prose && !of_its_own(words) && row_words(words) == 0 &&
            !ends_piece(words) && !(words[0] == "cast" && begins_base(words) && has_number(words)))
            continue;
        return i + 1;
    }
    return 0;
}

}  // namespace skeinfall::notation
