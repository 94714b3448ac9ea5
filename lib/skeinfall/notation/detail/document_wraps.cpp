// Knitting patterns as pages and PDF files break them: lines cut in the midst of a sentence, lists
// of abbreviations behind the rows, addresses within the text.

#include <algorithm>
#include <cctype>
#include <cstddef>
#include <string>
#include <utility>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/document_reader.hpp"
#include "skeinfall/notation/detail/knit_leaflets.hpp"
#include "skeinfall/notation/detail/knit_page_blocks.hpp"
#include "skeinfall/notation/detail/knit_sentences.hpp"
#include "skeinfall/notation/detail/knit_signs.hpp"
#include "skeinfall/notation/detail/knit_spoken.hpp"
#include "skeinfall/notation/detail/knit_told.hpp"
#include "skeinfall/notation/detail/knit_worded.hpp"
#include "skeinfall/notation/detail/knit_written_forms.hpp"
#include "skeinfall/notation/detail/rows_again_told.hpp"

namespace skeinfall::notation {
namespace {

void take_out(Line& line, std::size_t at, std::size_t size) {
    line.text.erase(at, size);
    const auto from = line.from.begin() + static_cast<std::ptrdiff_t>(at);
    line.from.erase(from, from + static_cast<std::ptrdiff_t>(size));
}

/// "[cast on](http://...)": the words alone; "(http://...)": nothing.
void pass_addresses(Line& line) {
    for (std::size_t at = line.text.find("http"); at != std::string::npos;
         at = line.text.find("http", at)) {
        std::size_t end = at;
        while (end < line.text.size() && line.text[end] != ' ' && line.text[end] != ')') ++end;
        if (line.text.compare(at, 7, "http://") != 0 && line.text.compare(at, 8, "https://") != 0) {
            at = end;
            continue;
        }
        const bool bracket = at > 0 && line.text[at - 1] == '(' && end < line.text.size();
        std::size_t from = bracket ? at - 1 : at;
        take_out(line, from, (bracket ? end + 1 : end) - from);
        if (bracket && from > 0 && line.text[from - 1] == ']') {
            const auto open = line.text.rfind('[', from);
            take_out(line, from - 1, 1);
            if (open != std::string::npos) take_out(line, open, 1);
            from = from > 2 ? from - 2 : 0;
        }
        at = from;
    }
}

/// "K8 rows", "p2 rounds": the number counts the rows.
void part_row_counts(Line& line) {
    for (const std::string_view word : {" rows", " rounds", " rnds"})
        for (std::size_t at = line.text.find(word); at != std::string::npos;
             at = line.text.find(word, at + 2)) {
            std::size_t digits = at;
            while (digits > 0 && digit(line.text[digits - 1])) --digits;
            if (digits == at || digits == 0 ||
                std::string_view("kKpP").find(line.text[digits - 1]) == std::string_view::npos ||
                (digits > 1 && letter(line.text[digits - 2])))
                continue;
            line.text.insert(digits, 1, ' ');
            line.from.insert(line.from.begin() + static_cast<std::ptrdiff_t>(digits),
                             line.from[digits]);
        }
}

void put_in(Line& line, std::size_t at, std::string_view text) {
    const std::size_t from = at < line.from.size() ? line.from[at] : line.from.back();
    line.text.insert(at, text);
    line.from.insert(line.from.begin() + static_cast<std::ptrdiff_t>(at), text.size(), from);
}

/// "5 (6) sts at beg", as the words of an edge go on behind a comma.
bool edge_words(std::string_view text) {
    std::size_t at = 0;
    while (at < text.size() && (digit(text[at]) || std::string_view(" ,()[]-:/").find(text[at]) !=
                                                       std::string_view::npos))
        ++at;
    if (at == 0 || at >= text.size()) return false;
    std::string_view rest = text.substr(at);
    for (const std::string_view word : {"stitches ", "sts ", "st "})
        if (rest.starts_with(word)) {
            rest.remove_prefix(word.size());
            break;
        }
    for (const std::string_view place : {"at beg", "at the beg", "at start", "at the start"})
        if (rest.starts_with(place)) return true;
    return false;
}

bool binds_off(std::string_view low) {
    return low.find("bind off ") != std::string_view::npos ||
           low.find("cast off ") != std::string_view::npos ||
           low.find("bo ") != std::string_view::npos;
}

/// What stands of the sentence before `at`; no sentence is longer than a few hundred letters.
std::string_view sentence_before(std::string_view low, std::size_t at) {
    constexpr std::size_t longest = 600;
    const std::string_view near =
        low.substr(at > longest ? at - longest : 0, std::min(at, longest));
    const auto stop = near.rfind(". ");
    return stop == std::string_view::npos ? near : near.substr(stop + 2);
}

/// "Bind off 7 sts at beg of next 4 rows, then 6 sts at beg of next 2 rows": two sentences.
void part_edges(Line& line) {
    std::string low = base::lower(line.text);
    if (!binds_off(low) || low.find(" beg") == std::string::npos) return;
    for (const std::string_view mark : {", then ", " then ", ", and ", " and ", "; ", ", "})
        for (std::size_t at = 0;;) {
            at = low.find(mark, at);
            if (at == std::string::npos) break;
            const std::size_t behind = at + mark.size();
            const std::string_view before = sentence_before(low, at);
            std::string_view verb;
            for (const std::string_view one : {"bind off ", "cast off ", "bo "})
                if (const auto found = before.rfind(one); found != std::string_view::npos)
                    verb = one;
            if (verb.empty() || behind >= low.size() || !digit(low[behind]) ||
                before.find(" beg") == std::string_view::npos ||
                !edge_words(std::string_view(low).substr(behind))) {
                at = behind;
                continue;
            }
            take_out(line, at, mark.size());
            put_in(line, at, verb == "bo " ? ". BO " : ". Bind off ");
            low = base::lower(line.text);
            at += 4;
        }
}

/// "Bind off for armhole at beg of next 2 rows 4 sts, at beg of next 4 rows 2 sts": two sentences.
void part_edges_behind(Line& line) {
    std::string low = base::lower(line.text);
    if (!binds_off(low)) return;
    for (const std::string_view mark : {", at the beg", ", at beg"})
        for (std::size_t at = low.find(mark); at != std::string::npos;
             at = low.find(mark, at + 4)) {
            const auto stop = low.rfind(". b", at);
            const std::size_t begin = stop == std::string::npos ? 0 : stop;
            const std::string_view before = std::string_view(low).substr(begin, at - begin);
            if (before.find("ind off") == std::string_view::npos &&
                before.find("ast off") == std::string_view::npos)
                continue;
            if (before.find(" rows ") == std::string_view::npos) continue;
            take_out(line, at, 2);
            put_in(line, at, ". Bind off ");
            low = base::lower(line.text);
        }
}

/// "..., rem 22 sts bind off for neck": "... Bind off 22 sts".
void part_rest_bound(Line& line) {
    const std::string low = base::lower(line.text);
    const auto at = low.find(", rem");
    if (at == std::string::npos) return;
    std::size_t number = low.find_first_of("0123456789", at);
    const auto off = low.find("ind off", at);
    if (number == std::string::npos || off == std::string::npos || number > at + 14 ||
        off < number || off > number + 40)
        return;
    const auto sts = low.find("st", number);
    if (sts == std::string::npos || sts > off) return;
    take_out(line, sts, line.text.size() > off + 7 ? off + 7 - sts : line.text.size() - sts);
    put_in(line, sts, "sts");
    take_out(line, at, number - at);
    put_in(line, at, ". Bind off rem ");
}

/// "K one row, P one row alternately": a fabric.
void name_alternate_rows(Line& line) {
    for (const std::string_view words :
         {"knit 1 row and purl 1 row, alternately,", "knit 1 row, purl 1 row, alternately,",
          "k one row, p one row alternately", "k 1 row, p 1 row alternately",
          "knit one row, purl one row alternately", "knit 1 row, purl 1 row alternately",
          "alternate knit and purl rows", "k 1 row and p 1 row alternately"}) {
        const auto at = base::lower(line.text).find(words);
        if (at == std::string::npos) continue;
        take_out(line, at, words.size());
        put_in(line, at, at == 0 ? "Work in stockinette st" : "work in stockinette st");
    }
}

/// "On next round, k12": "Next round: k12". "US#2: k2": the needles before it.
void plain_next(Line& line) {
    const auto colon = line.text.find(':');
    if (line.text.starts_with("US") && colon != std::string::npos && colon < 8 &&
        line.text.find('#') < colon && colon + 2 < line.text.size())
        take_out(line, 0, colon + 2);
    const std::string low = base::lower(line.text);
    for (const std::string_view lead :
         {"the next ", "on the next ", "on next ", "in the next ", "in next ", "for the next ",
          "for next ", "work the next ", "work next "}) {
        if (!low.starts_with(lead)) continue;
        for (const std::string_view row : {"row", "rnd", "round"}) {
            if (low.compare(lead.size(), row.size(), row) != 0) continue;
            const std::size_t end = lead.size() + row.size();
            std::size_t sign = end;
            if (low.compare(end, 5, " (rs)") == 0 || low.compare(end, 5, " (ws)") == 0) sign += 5;
            if (sign >= low.size() || (low[sign] != ',' && low[sign] != ':')) return;
            line.text[sign] = ':';
            const std::size_t word = lead.size() - 5;
            line.text[word] = 'N';
            take_out(line, 0, word);
            return;
        }
    }
}

/// "(RS) R1- k9": the side stands behind the label, or nowhere. "St.St.": two words.
void settle_signs(Line& line) {
    const std::string low = base::lower(line.text);
    if ((low.starts_with("(rs) ") || low.starts_with("(ws) ")) &&
        row_words(words_of(low.substr(5))) > 0)
        take_out(line, 0, 5);
    for (const std::string_view dotted : {"p.s.s.o.", "P.s.s.o.", "P.S.S.O.", "p.s.s.o"})
        if (const auto at = line.text.find(dotted); at != std::string::npos) {
            take_out(line, at, dotted.size());
            put_in(line, at, "psso");
        }
    for (const std::string_view fabric : {"St.St.", "St. St.", "st.st.", "st. st.", "St.st."})
        for (std::size_t at = line.text.find(fabric); at != std::string::npos;
             at = line.text.find(fabric, at)) {
            const bool ends =
                at + fabric.size() + 1 >= line.text.size() ||
                std::isupper(static_cast<unsigned char>(line.text[at + fabric.size() + 1])) != 0;
            take_out(line, at, fabric.size());
            put_in(line, at, ends ? "St st." : "St st");
            at += 5;
        }
}

/// Words behind which no sentence ends.
bool ends_in_midst(const std::string& text) {
    const auto blank = text.rfind(' ');
    if (blank == std::string::npos || text.size() < 16) return false;
    // "20 sts = 4 in": a length ends it
    if (text.ends_with(" in") && blank > 0 && !letter(text[blank - 1])) return false;
    return one_of(base::lower(text.substr(blank + 1)),
                  {"next",   "to",       "the",           "and",  "of",      "for",    "from",
                   "with",   "in",       "last",          "at",   "a",       "an",     "until",
                   "every",  "each",     "first",         "into", "place",   "slip",   "remaining",
                   "then",   "before",   "after",         "or",   "between", "on",     "onto",
                   "repeat", "measures", "approximately", "than", "is",      "are",    "as",
                   "bind",   "cast",     "following",     "your", "over",    "through"});
}

std::int64_t open_brackets(const std::string& text) {
    std::int64_t open = 0;
    for (const char c : text) {
        if (c == '(' || c == '[') ++open;
        if ((c == ')' || c == ']') && open > 0) --open;
    }
    return open;
}

/// "... until piece measures 5 inches", a sentence that only lacks its stop.
bool ends_with_length(const std::string& text) {
    const std::string low =
        base::lower(text.substr(text.size() - std::min<std::size_t>(80, text.size())));
    if (low.find("until") == std::string::npos && low.find("till ") == std::string::npos)
        return false;
    return low.ends_with(" inches") || low.ends_with(" in") || low.ends_with(" cm") ||
           low.ends_with("\"");
}

}  // namespace

bool DocumentReader::wraps(const Line& row, const Line& next, std::size_t widest) {
    if (next.blank_before || next.numbered || row.text.size() < 16) return false;
    if (definition_line(next.text) || definition_line(row.text)) {
        const auto sign = definition_sign(next.text);
        if (sign.first > 0 && sign.first < 16) return false;
    }
    const auto words = words_of(next.text);
    if (words.empty()) return false;
    if (document_.craft == Craft::knit && ends_with_length(row.text) &&
        one_of(words[0], {"continue", "cont", "work", "bind", "cast", "change", "repeat", "begin"}))
        return false;
    if (ends_in_midst(row.text)) return true;
    const char last = row.text.back();
    if (row_words(words) > 0 || bare_number(words)) return false;
    // a column of a magazine
    const bool narrow = widest >= 18 && widest < 35 && document_.craft == Craft::knit;
    if (narrow && last != '.' && last != ':' && last != ')' &&
        std::islower(static_cast<unsigned char>(next.text[0])) != 0 && !begins_work(words))
        return true;
    if (last == '.' || last == ':' || last == '!' || last == '?' || row.text.size() < 25)
        return false;
    const std::size_t word = std::min(next.text.find(' '), next.text.size());
    const bool full = widest >= 35 && widest <= 120 && row.text.size() + 1 + word > widest;
    if (open_brackets(row.text) > 0) return full;
    const char first = next.text[0];
    if (std::islower(static_cast<unsigned char>(first)) != 0)
        return full || (row.text.size() >= 40 && !begins_work(words));
    if (digit(first) && last != ')' && last != ']')
        return full && words.size() > 1 &&
               one_of(words[1], {"st", "sts", "stitches", "times", "more", "in", "inches", "cm",
                                 "rows", "rnds", "rounds", "(", "times."});
    return false;
}

/// Lines that a page broke are joined. The widest line around shows whether the next word would
/// have had room.
/// "*K2tog around. 6 sts." and below it "Break yarn.": nothing closes the star.
bool DocumentReader::sentence_anew(const std::string& row, const std::string& next) const {
    return document_.craft == Craft::knit && row.back() == '.' &&
           std::isupper(static_cast<unsigned char>(next.front())) != 0 &&
           !base::lower(next).starts_with("rep");
}

namespace {

/// "Row 12: k16, ssk, k1 (18 sts)", not turned, above "Pick up and knit 17 sts along ...": one row.
bool heel_picks_up(const std::vector<Line>& before, const Line& line) {
    if (!base::lower(line.text).starts_with("pick up and k") || before.size() < 3) return false;
    std::size_t last = before.size() - 1;
    if (before[last].text.back() == ':' && before[last].text.size() < 30) --last;
    if (last < 1) return false;
    const std::string row = base::lower(before[last].text);
    const std::string above = base::lower(before[last - 1].text);
    const bool heel = row.find("ssk") != std::string::npos ||
                      row.find("k2tog") != std::string::npos ||
                      row.find("skp") != std::string::npos;
    return heel && row.find("turn") == std::string::npos && row.back() != ':' &&
           row_words(words_of(row)) > 0 && above.find("turn") != std::string::npos &&
           above.find("tog") != std::string::npos;
}

/// "Knit 16 sts." above "Heel flap is worked back and forth over these 32 sts."
bool heel_follows(const std::vector<Line>& before, const Line& line) {
    if (before.empty()) return false;
    const std::string low = base::lower(line.text);
    const std::string above = base::lower(before.back().text);
    return low.find("back and forth") != std::string::npos &&
           low.find(" these ") != std::string::npos &&
           (low.starts_with("heel") || low.starts_with("the heel") || low.starts_with("flap")) &&
           (above.starts_with("knit ") || above.starts_with("k")) && above.size() < 60 &&
           above.find(". ") == std::string::npos && above.find(',') == std::string::npos &&
           above.back() == '.';
}

}  // namespace

void DocumentReader::join_wrapped() {
    for (Line& line : lines_) pass_addresses(line);
    std::erase_if(lines_, [](const Line& line) { return line.text.empty(); });
    for (Line& line : lines_) settle_rows_again(line);
    if (document_.craft == Craft::crochet)
        for (Line& line : lines_) settle_plain_rows(line);
    if (document_.craft != Craft::knit) return;
    std::string heel;
    part_pages(lines_);
    name_told_lines(lines_);
    repeat_between_stars(lines_);
    call_named_rows(lines_);
    name_only_piece(lines_);
    for (Line& line : lines_) {
        settle_sentences_told(line);
        settle_worded(line);
        part_row_counts(line);
        part_edges(line);
        part_edges_behind(line);
        part_rest_bound(line);
        name_alternate_rows(line);
        settle_signs(line);
        plain_next(line);
        settle_knit_signs(line);
        settle_leaflets(line);
        number_heel(line, heel);
    }
    std::vector<Line> out;
    for (std::size_t first = 0; first < lines_.size();) {
        std::size_t end = first + 1;
        while (end < lines_.size() && !lines_[end].blank_before) ++end;
        std::size_t widest = 0;
        for (std::size_t i = first; i < end; ++i) widest = std::max(widest, lines_[i].text.size());
        if (end < first + 3) widest = 0;
        std::size_t row = 0;  // of the last line that was joined
        for (std::size_t i = first; i < end; ++i) {
            Line tail;
            if (i > first) {
                tail = out.back();
                tail.text = out.back().text.substr(row);
            }
            if (heel_picks_up(out, lines_[i])) {
                if (out.back().text.back() == ':') out.pop_back();  // "Instep:"
                out.back().text.append(",");
                out.back().from.push_back(out.back().from.back());
                append(out.back(), lines_[i]);
                continue;
            }
            if (i > 0 && heel_follows(out, lines_[i])) {
                append(out.back(), lines_[i]);
                settle_leaflets(out.back());
                continue;
            }
            if (i > first && wraps(tail, lines_[i], widest)) {
                row = out.back().text.size() + 1;
                append(out.back(), lines_[i]);
                continue;
            }
            row = 0;
            out.push_back(lines_[i]);
        }
        first = end;
    }
    lines_ = std::move(out);
    join_cut_words(lines_);
    for (Line& line : lines_) {
        settle_sentences_told(line);
        settle_worded(line);
        settle_spoken(line);
        part_rows_behind(line);
    }
    part_at_names(lines_);
    part_paragraphs();
    carry_lengths(lines_);
}

/// "Sc=single crochet" below the rows.
bool DocumentReader::hooked_abbreviation(const std::string& text) {
    const auto [at, size] = definition_sign(text);
    if (at == 0 || at > 16) return false;
    const auto names = words_of(text.substr(0, at));
    const auto meaning = words_of(text.substr(at + size));
    if (names.empty() || names.size() > 3 || meaning.empty() || meaning.size() > 8 ||
        row_words(names) > 0)
        return false;
    const bool equals = text.substr(at, size).find('=') != std::string::npos;
    const bool named = std::all_of(names.begin(), names.end(), [&](const std::string& name) {
        return letter(name[0]) && name.size() < 8 && (equals || known(name) || name == "st");
    });
    return named && std::all_of(meaning.begin(), meaning.end(), [](const std::string& word) {
               return one_of(word, {"single",
                                    "double",
                                    "half",
                                    "treble",
                                    "triple",
                                    "crochet",
                                    "slip",
                                    "stitch",
                                    "stitches",
                                    "chain",
                                    "chains",
                                    "round",
                                    "rounds",
                                    "row",
                                    "rows",
                                    "repeat",
                                    "skip",
                                    "yarn",
                                    "over",
                                    "beginning",
                                    "space",
                                    "spaces",
                                    "loop",
                                    "loops",
                                    "increase",
                                    "decrease",
                                    "together",
                                    "right",
                                    "wrong",
                                    "side",
                                    "main",
                                    "contrast",
                                    "color",
                                    "colour",
                                    "front",
                                    "back",
                                    "post",
                                    "only",
                                    "magic",
                                    "ring",
                                    "circle",
                                    "cluster",
                                    "shell",
                                    "picot",
                                    "previous",
                                    "next",
                                    "remaining",
                                    "following",
                                    "(",
                                    ")",
                                    "s",
                                    "es",
                                    "and",
                                    "or",
                                    "the",
                                    ".",
                                    ",",
                                    "/",
                                    "invisible",
                                    "pattern",
                                    "double-crochet",
                                    "foundation",
                                    "turning",
                                    "half-double"});
           });
}

bool DocumentReader::abbreviation_line(const Line& line) {
    if (document_.craft != Craft::knit) return hooked_abbreviation(line.text);
    const auto [at, size] = definition_sign(line.text);
    if (at == 0 || at > 24) return false;
    const auto names = words_of(line.text.substr(0, at));
    const auto meaning = words_of(line.text.substr(at + size));
    if (names.empty() || meaning.empty() || meaning.size() > 24 || row_words(names) > 0)
        return false;
    if (!letter(meaning[0][0]) || (meaning[0].size() > 1 && digit(meaning[0].back()))) return false;
    const bool equals = line.text.substr(at, size).find('=') != std::string::npos;
    for (const std::string& name : names) {
        if (one_of(name, {",", "(", ")", "/", "&", "and"})) continue;
        if (number(name) || name.size() > 7) return false;
        if (!equals && !known(name)) return false;
    }
    return one_of(
        meaning[0],
        {"knit",    "purl",     "slip",        "cast",      "bind",      "yarn",        "stitch",
         "pass",    "place",    "make",        "increase",  "decrease",  "right",       "wrong",
         "repeat",  "round",    "row",         "rows",      "together",  "stockinette", "marker",
         "main",    "contrast", "contrasting", "beginning", "remaining", "stitches",    "cable",
         "pattern", "double",   "garter",      "left",      "with",      "continue",    "work",
         "pick",    "through",  "alternate",   "following"});
}

bool DocumentReader::adds_to_needle(const std::vector<std::string>& words) const {
    if (document_.craft != Craft::knit || !in_rows_ || pending_.empty()) return false;
    if (words[0] == "pick" && !pending_.back().lines.empty()) {
        // "Place the 21 sts from holder on 2 needles." and "Pick up and knit 5 sts": beside them
        const std::string above = base::lower(pending_.back().lines.back().text);
        for (const std::string_view verb : {"place ", "put ", "return ", "transfer ", "slip "})
            if (above.starts_with(verb) && (above.find("needle") != std::string::npos ||
                                            above.find("dpn") != std::string::npos ||
                                            above.find("holder") != std::string::npos ||
                                            above.find("held") != std::string::npos ||
                                            above.find("waste") != std::string::npos))
                return true;
    }
    std::int64_t sum = 0;
    std::int64_t count = 0;
    bool picked = false;
    bool bracket = false;
    const auto sentence = std::find(words.begin(), words.end(), ".");
    const bool across = std::any_of(words.begin(), sentence, [](const std::string& word) {
        return one_of(word, {"across", "end", "row"});
    });
    bool cast = false;
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (cast && words[i] == "." && (i + 1 >= words.size() || words[i + 1] != "(")) break;
        if (words[i] == "cast" || words[i] == "co") {
            // "Cast on 10 sts, knit across these 10 sts and across row (50 sts)"
            if (!picked && !across) return false;
            cast = cast || !picked;
            picked = true;
        }
        picked = picked || (words[i] == "pick" && i + 1 < words.size() && words[i + 1] == "up");
        if (one_of(words[i], {"(", "[", "-", "="})) bracket = true;
        if (!number(words[i]) || words[i].size() > 4 || i + 1 >= words.size() || !picked) continue;
        if (!words[i + 1].starts_with("st") && !one_of(words[i + 1], {"more", "total"})) continue;
        (bracket ? count : sum) += base::leading_number<std::int64_t>(words[i]);
    }
    return picked && sum > 0 && count > sum;
}

/// "Inc 4 sts every other round as follows:" above rows with labels: they say it again.
bool DocumentReader::leads_to_rows(const Line& line, const std::vector<std::string>& words) {
    if (document_.craft != Craft::knit || words.size() < 3 || at_ + 1 >= lines_.size() ||
        row_words(words) > 0)
        return false;
    std::size_t end = words.size();
    while (end > 0 && one_of(words[end - 1], {".", ":", "-"})) --end;
    const auto below = words_of(lines_[at_ + 1].text);
    if (end < 7 && one_of(words[0], {"continue", "cont", "work", "begin", "start", "now"}) &&
        one_of(words[end - 1], {"pattern", "patt", "pat"}) && !has_number(words) &&
        !below.empty() && (row_words(below) > 0 || bare_number(below)))
        return true;  // "Continue in pattern" above "1) Slip 1, k6"
    const bool follows = end > 1 && words[end - 1] == "follows" && words[end - 2] == "as";
    const bool tells = one_of(words[0], {"now", "you", "begin", "start", "here"});
    if (!follows || (!tells && line.text.find(',') != std::string::npos)) return false;
    const auto next = words_of(lines_[at_ + 1].text);
    if (next.empty() || (row_words(next) == 0 && !bare_number(next))) return false;
    if (begins_base(words)) return false;
    const bool every = std::any_of(words.begin(), words.end(), [](const std::string& word) {
        return one_of(word, {"every", "each"});
    });
    return every || !has_number(words);
}

}  // namespace skeinfall::notation
