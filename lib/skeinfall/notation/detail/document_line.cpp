// What a line of the text is, and what a line of rows takes with it.

#include <algorithm>
#include <cctype>
#include <cstddef>
#include <string_view>
#include <utility>

#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/document_reader.hpp"
#include "skeinfall/notation/detail/finish_lines.hpp"
#include "skeinfall/notation/detail/line_marks.hpp"
#include "skeinfall/notation/detail/words.hpp"

namespace skeinfall::notation {
namespace {

/// "Alternate way to begin: ...", "Another method: ...": the same again in other words.
bool other_way(const std::vector<std::string>& words) {
    return words.size() > 1 && one_of(words[0], {"alternate", "alternative", "another", "other"}) &&
           one_of(words[1], {"way", "method", "start", "beginning"});
}

/// Whether the end of a line only broke the phrase: "..., 1 dc in each next" and "2 sts".
bool broken_phrase(const std::string& row, const std::vector<std::string>& next) {
    if (next.empty()) return false;
    const auto before = words_of(row);
    const bool open =
        std::count(row.begin(), row.end(), '(') > std::count(row.begin(), row.end(), ')') ||
        std::count(row.begin(), row.end(), '[') > std::count(row.begin(), row.end(), ']');
    return open || one_of(before.back(), {"in",     "into",    "each",   "next", "the",   "to",
                                          "of",     "from",    "and",    "a",    "first", "last",
                                          "same",   "sl",      "slip",   "ch",   "chain", "rep",
                                          "repeat", "every",   "with",   "join", "sk",    "skip",
                                          "number", "through", "around", "make"}) ||
           number(before.back()) || next[0] == ")" || next[0] == "]" ||
           one_of(next[0], {"in", "into", "of", "st", "sts", "stitch", "stitches", "from", "each",
                            "next", "around", "across", "times", "dc", "sc", "hdc", "tr"});
}

/// "make 4ch"
bool counts_chains(const std::vector<std::string>& words) {
    return std::any_of(words.begin(), words.end(), [](const std::string& word) {
        return digit(word[0]) && word.ends_with("ch");
    });
}

}  // namespace

void DocumentReader::line() {
    Line& line = lines_[at_];
    if (line.told) return part(What::remark, line);
    choose_label(line);
    space_definition(line);
    std::vector<std::string> words = words_of(line.text);
    if (words.empty()) return;
    if (for_other_sizes(line, words)) return;
    if (document_.craft == Craft::crochet && of_some_sizes(line)) {
        if (line.text.empty()) return;
        words = words_of(line.text);
    }
    const bool swatch =
        zone_ == What::gauge && document_.craft == Craft::crochet &&
        line.text.find(':') == std::string::npos &&
        one_of(words[0], {"first", "rounds", "rnds", "rows", "work"}) &&
        std::any_of(words.begin(), words.end(), [](const std::string& word) {
            return one_of(word, {"circle", "square", "inch", "inches", "in", "cm", "\"", "across"});
        });
    if (swatch) {
        gauge_of(line);
        return part(What::gauge, line);
    }
    const bool row = row_words(words) > 0 || line.numbered || (in_rows_ && bare_number(words)) ||
                     (bare_number(words) && numbered_steps(words));
    const bool asks = document_.craft == Craft::crochet && line.text.find('?') != std::string::npos;
    const bool base =
        !asks && !goes_on_with_chain(words) && begins_base(words) &&
        !one_of(words.back(), {"hook"}) && !adds_to_needle(words) &&
        (zone_ != What::abbreviations || has_number(words) || counts_chains(words)) &&
        base_says(words) &&
        (zone_ != What::materials || document_.craft == Craft::knit || has_number(words) ||
         std::any_of(words.begin(), words.end(),
                     [](const std::string& word) {
                         return word.starts_with("ch") && word.size() > 2 && number(word.substr(2));
                     })) &&
        (!definition_line(line.text) ||
         (document_.craft == Craft::crochet && words.size() < 5 && number(words.back()) &&
          one_of(words[0], {"mr", "mc"})) ||
         (document_.craft == Craft::crochet && one_of(words[0], {"with", "using", "foundation"})) ||
         (document_.craft == Craft::knit &&
          ((words[0] == "cast" && words[1] == "on") ||
           (words[0] == "co" && words.size() > 4 && number(words[1])))));
    const auto zone = zone_of(words);
    const auto colon = line.text.find(':');
    if (zone == What::heading && in_rows_ && has_rows_ && names_piece(line, words))
        return new_heading(line);
    if (!row && in_rows_ && one_hand(line, words)) return;
    if (!row && in_rows_ && abbreviation_line(line)) {
        if (!define(line)) part(What::abbreviations, line);
        return;
    }
    if (!row && in_rows_ && leads_to_rows(line, words)) return part(What::remark, line);
    if (!row && in_rows_ && tells_of_face(words)) return part(What::remark, line);
    if (!row && !base && heading_with_yarn(line, words)) return;
    if (!row && !base && in_rows_ && document_.craft == Craft::crochet && tells_how_many(words))
        return part(What::may_work, line);
    if (!row && counts_heading(words)) return part(What::heading, line);
    if (!row && in_rows_ && later_label(line)) return;
    if (!row && how_to(line)) return;
    if (!row && inline_heading(line)) return;
    // "2. Fold your piece in half."
    if (row && document_.craft == Craft::crochet && in_rows_ && bare_number(words) &&
        words.size() > 4 && !works_stitches(words, 2) &&
        one_of(words[2], {"fold", "use", "turn", "sew", "weave", "cut", "attach", "stuff", "thread",
                          "insert", "embroider", "block", "fasten"}))
        return part(What::remark, line);
    if (!row && line.text.size() > 200 && rows_within(line)) return;
    if (!row && zone == What::heading && !in_rows_ && rows_within(line)) return;
    if (!row && !bare_number(words) && !(base && line.text.size() > 100) && counts_note(line.text))
        return add_note(line);
    // "(or ch 3, 6 sc in 2nd ch from hook)": another way to begin
    if (!row && document_.craft == Craft::crochet && words.size() > 4 && words[0] == "(" &&
        words[1] == "or" && line.text.find("from hook") != std::string::npos)
        return part(What::remark, line);
    if (!row && document_.craft == Craft::crochet && words.size() > 2 &&
        (one_of(words[0], {"variation", "variations"}) ||
         one_of(words[1], {"variation", "variations"})))
        return part(What::remark, line);
    if (!row && document_.craft == Craft::crochet && in_rows_ && other_way(words))
        return part(What::remark, line);
    if (!row && one_of(words[0], {"alternate", "alternatively", "option", "optional", "or"}))
        return part(open_or_told(line, words), line);
    if (!row && !base && chats(words)) return part(What::remark, line);
    // "(Chain should be about 8 in - ..."
    if (!row && document_.craft == Craft::crochet && words.size() > 4 && words[0] == "(" &&
        (words[2] == "should" || words[3] == "should"))
        return part(open_or_told(line, words), line);
    if (!row && document_.craft == Craft::crochet && words.size() > 3 &&
        ((one_of(words[0], {"hint", "tip"}) && words[1] == ":") ||
         (words[0] == "(" && one_of(words[1], {"hint", "tip"}) && words[2] == ":")))
        return part(What::remark, line);
    if (row && announces_rows(line, words)) return part(What::remark, line);
    if (row && same_rows(line, heading_)) return;
    if (row && row_to_length(line)) return;
    if (row || base) {
        if (!row_is_prose(words)) return take_row(line, base && !row);
    }
    const bool listed = document_.craft == Craft::knit && zone == What::abbreviations &&
                        words.size() <= 2;  // a list behind the rows
    const bool plain_title =
        listed || (document_.craft == Craft::crochet && words.size() <= 3 && !in_rows_ &&
                   zone_ != What::materials && letter(line.text.back()));
    // "Gauge - 18 sts, 24 rows", "Materials" alone: heads without a colon
    const bool plain_head =
        document_.craft == Craft::knit && zone && !in_rows_ &&
        (words.size() == 1 || (*zone != What::heading && words.size() > 2 && words[1] == "-"));
    if (zone && !(in_rows_ && *zone == What::heading && words.size() > 6) &&
        (heading(line, words) || colon != std::string::npos || plain_title || plain_head)) {
        if (*zone == What::stitches && ends_bound_off()) return new_heading(line);
        open_zone(*zone, line, colon);
        return;
    }
    if (names_piece(line, words)) return new_heading(line);
    if (rows_within(line) || base_sentence(line)) return;
    if (zone_ == What::abbreviations || zone_ == What::stitches ||
        (!in_rows_ && definition_line(line.text))) {
        if (define(line)) return;
        if (zone_ == What::abbreviations || zone_ == What::stitches)
            if (!heading(line, words)) return part(*zone_, line);
    }
    if (in_rows_) return line_within_rows(line, words);
    line_before_rows(line, words);
}

void DocumentReader::line_within_rows(Line& line, const std::vector<std::string>& words) {
    if (announces(line, words)) return new_heading(line);
    if (heading(line, words) &&
        (!begins_work(words) || (line.text.back() == ':' && !has_number(words))))
        return new_heading(line);
    const bool note = counts_note(line.text);
    if (note) return add_note(line);
    if (puts_together(line.text)) return part(What::remark, line);
    if (seams_by_stitches(words)) {
        part(What::finishing, line);
        document_.parts.back().work = true;  // its stitches take yarn
        return;
    }
    if (same_piece(line, words, heading_) || same_until(line, heading_)) return;
    if (document_.craft == Craft::knit && !heading_.empty() && same_then(line, heading_)) return;
    if (like_no_piece(line, words)) return;
    // (Note: "inc" = 2 sc in same stitch)
    if (document_.craft == Craft::crochet && words.size() > 4 && words[0] == "(" &&
        words[1] == "note" && line.text.find(" = ") != std::string::npos)
        return part(What::abbreviations, line);
    if (again_for_other(line, words) || again_knit(line, words)) return;
    // "With a length of yarn, sew the bottom to the top."
    if (document_.craft == Craft::crochet && one_of(words[0], {"with", "using"}) &&
        std::any_of(words.begin(), words.end(),
                    [](const std::string& word) {
                        return one_of(word, {"sew", "sewing", "whipstitch", "embroider"});
                    }) &&
        !works_stitches(words, 0))
        return part(What::finishing, line);
    if (document_.craft == Craft::crochet && !works_stitches(words, 0) &&
        one_of(words[0], {"fasten", "finish", "weave"}))
        return part(What::remark, line);
    if (idle(words) || leads_to_rows(line) || goes_on_telling(line, words))
        return part(What::remark, line);
    if (document_.craft == Craft::knit && needle_named(words) > 1 && !pending_.empty()) {
        // What is worked on the other needles belongs to the same round.
        Line& row = pending_.back().lines.back();
        if (letter(row.text.back()) || digit(row.text.back())) {
            row.text += '.';
            row.from.push_back(row.from.back());
        }
        return append(row, line);
    }
    // "Now, chain 75 and fasten off.": a cord of its own
    if (document_.craft == Craft::crochet && words.size() < 10 && has_number(words) &&
        one_of(words[0], {"now", "then", "next"}) && !works_stitches(words, 4)) {
        const auto chain = std::find_if(words.begin(), words.end(), [](const std::string& word) {
            return one_of(word, {"ch", "chain"});
        });
        if (chain != words.end() && chain + 1 != words.end() && number(*(chain + 1)) &&
            std::find(chain, words.end(), "fasten") != words.end()) {
            heading_ = "Cord";
            return take_row(line, true);
        }
    }
    // "Place a stitch marker before the first K2tog of row 1.", alone in its line
    const bool told =
        document_.craft == Craft::knit && one_of(words[0], {"place", "join"}) && only_tells(words);
    if (told) return part(What::remark, line);
    // "SSK should be done this way: ..."
    if (document_.craft == Craft::knit && words.size() > 4 && stitch_word(words[0]) &&
        one_of(words[1], {"should", "means", "is", "can", "may"}))
        return part(What::abbreviations, line);
    if (begins_work(words)) return take_row(line, false);
    if (named_work(line, words)) return;
    if (continues(line)) return append(pending_.back().lines.back(), line);
    if (document_.craft == Craft::knit && take_work_in(line)) return;
    return part(open_or_told(line, words), line);
}

void DocumentReader::line_before_rows(const Line& line, const std::vector<std::string>& words) {
    if (counts_note(line.text)) add_note(line);
    gauge_of(line);
    tools_of(line);
    if (document_.title.empty() && !zone_ && words.size() < 14) {
        document_.title = line.text;
        return part(What::title, line);
    }
    // "Ear Flaps" right above "CO 7 stitches."
    const bool capitals =
        words.size() <= 3 && std::all_of(line.text.begin(), line.text.end(), [&](const char& c) {
            const bool first = &c == line.text.data() || *(&c - 1) == ' ';
            return c == ' ' ||
                   (letter(c) && (!first || std::isupper(static_cast<unsigned char>(c)) != 0));
        });
    if (document_.craft == Craft::knit && zone_ && *zone_ != What::stitches && capitals &&
        at_ + 1 < lines_.size() && !names_material(words) &&
        !one_of(words.back(), {"needle", "needles", "marker", "markers", "yarn", "scissors",
                               "buttons", "button", "stuffing", "holder", "holders"})) {
        const auto next = words_of(lines_[at_ + 1].text);
        if (!next.empty() && !lines_[at_ + 1].blank_before && begins_base(next) &&
            base_says(next)) {
            zone_.reset();
            heading_ = line.text;
            return part(What::heading, line);
        }
    }
    if (!zone_ && names_yarn_alone(words)) return part(What::remark, line);
    if (heading(line, words) && zone_ != What::materials) {
        const bool bracketed = line.text.find(" (") != std::string::npos &&
                               words_of(line.text.substr(0, line.text.find(" ("))).size() <= 4 &&
                               zone_ != What::stitches;
        const bool part_name = bracketed || (line.text.back() == ':' && zone_ != What::stitches &&
                                             !definition_line(line.text));
        if (zone_ && (words.size() <= 5 || part_name) && line.blank_before) {
            zone_.reset();
            heading_ = line.text;
            return part(What::heading, line);
        }
        if (!zone_) {
            heading_ = line.text;
            return part(What::heading, line);
        }
    }
    // "In white, *ch 7, dc in 2nd chain from hook, ..." below the materials
    const std::string low = base::lower(line.text);
    const bool told = document_.craft == Craft::crochet && works_stitches(words, 0) &&
                      low.find("from hook") != std::string::npos &&
                      (zone_ == What::materials || !zone_);
    part(told ? What::may_work
              : zone_.value_or(names_material(words) ? What::materials : What::remark),
         line);
}

bool DocumentReader::names_edging(const std::string& name, const std::vector<std::string>& words) {
    if (document_.craft != Craft::crochet || !in_rows_) return false;
    // "Edging: work 36 sc evenly around the opening, join."
    for (std::size_t i = 1; i + 2 < words.size(); ++i)
        if (stitch_word(words[i]) && (number(words[i - 1]) || words[i - 1] == ")") &&
            words[i + 1] == "evenly")
            return true;
    // "Edging: ch 1, sc in each st around"
    return begins_work(words) && works_stitches(words, 0) && !round_flat_piece(words) &&
           (finish_takes_yarn(name + ": worked") ||
            one_of(words_of(name).back(),
                   {"brim", "cuff", "hem", "collar", "heel", "band", "flap", "bottom", "top",
                    "sides", "fold", "rim", "ridge", "lip", "neck", "ruffle", "ribbing"}));
}

bool DocumentReader::inline_heading(Line& line) {
    if (document_.craft == Craft::crochet && line.text.front() == '*') return false;
    std::size_t at = line.text.find(':');
    std::size_t size = 1;
    if (at == std::string::npos || at > 40) {  // "Back. Starting at ...", "BACK - With ..."
        for (const std::string_view sign : {". ", " - "}) {
            const auto found = line.text.find(sign);
            if (found == std::string::npos || found == 0 || found > 25) continue;
            at = found;
            size = sign.size();
            break;
        }
    }
    const auto dots = line.text.find("\xe2\x80\xa6");
    if (dots != std::string::npos && (at == std::string::npos || dots < at)) {
        at = dots;
        size = 3;
    }
    // "Begin hand - Rnd 1: ..."
    const auto dash = line.text.find(" - ");
    if (document_.craft == Craft::crochet && dash != std::string::npos && dash > 2 && dash <= 40 &&
        dash + 4 < line.text.size() && row_words(words_of(line.text.substr(dash + 3))) > 0) {
        at = dash;
        size = 3;
    }
    if (const std::size_t label = heading_before_row(line); label <= at) {
        if (label != std::string::npos) size = 1;
        at = label;
    }
    if (at == std::string::npos || at == 0 || at > 40 || at + size + 2 > line.text.size())
        return false;
    const auto before = words_of(line.text.substr(0, at));
    const auto behind = words_of(line.text.substr(at + size));
    if (before.size() == 1 && number(before[0]) && document_.craft == Craft::knit) return false;
    // "Open mesh (om): ch 2, sk 2 sts, dc in next st": a name with its short form
    if (document_.craft == Craft::crochet && !in_rows_ && before.size() > 3 &&
        before.back() == ")" && before[before.size() - 3] == "(" &&
        letter(before[before.size() - 2][0]))
        return false;
    // "Block: ch 6 (or 3), 3 dc in same sp": what the rows call so
    if (document_.craft == Craft::crochet && !in_rows_ && before.size() == 1 &&
        has_role(before[0], Role::group) && (!row_one_next() || begins_piece(lines_[at_ + 1])))
        return false;
    const bool piece = document_.craft == Craft::knit && !behind.empty() && begins_base(behind) &&
                       has_number(behind);
    // "Small star: Ch 6, join" behind a glossary, and a row 1 below it
    const bool led = document_.craft == Craft::crochet && !behind.empty() && begins_base(behind) &&
                     has_number(behind) && row_one_next();
    if ((zone_ == What::abbreviations || zone_ == What::stitches) && !piece && !led) return false;
    // "Alternate way to begin: chain 2, 6 sc in 2nd chain from hook": no piece of its own
    if (document_.craft == Craft::crochet && !before.empty() && other_way(before)) return false;
    const bool counted = has_number(before) && !begins_base(words_of(line.text.substr(at + size)));
    if (before.empty() || before.size() > 5 || counted ||
        (zone_of(before) &&
         (*zone_of(before) != What::heading || document_.craft == Craft::crochet)) ||
        stitch_word(before[0]) || one_of(before[0], {"mr"}) ||
        (begins_work(before) && before[0] != "cast") || row_words(before) > 0)
        return false;
    Line rest = line;
    rest.text = line.text.substr(at + size);
    rest.from.erase(rest.from.begin(), rest.from.begin() + static_cast<std::ptrdiff_t>(at + size));
    while (!rest.text.empty() && rest.text.front() == ' ') {
        rest.text.erase(0, 1);
        rest.from.erase(rest.from.begin());
    }
    // "Sides: 7. Rounds 6-10: ...", where a list numbers its steps
    if (const std::size_t step = step_number(rest.text);
        step > 0 && document_.craft == Craft::crochet &&
        row_words(words_of(rest.text.substr(step))) > 0)
        cut_front(rest, step);
    // "Ears: (make 2) with pink, ch 2"
    std::string counted_name = line.text.substr(0, at);
    if (const auto close = rest.text.find(')');
        document_.craft == Craft::crochet && rest.text.front() == '(' && close < 20 &&
        close + 3 < rest.text.size() && times_said(rest.text.substr(0, close + 1)) > 0) {
        counted_name += " " + rest.text.substr(0, close + 1);
        cut_front(rest, close + 1);
    }
    const auto words = words_of(rest.text);
    if (words.empty()) return false;
    const std::string name = counted_name;
    if (same_piece(rest, words, name) || same_until(rest, name) || same_then(rest, name))
        return true;
    const bool edging = names_edging(name, words);
    if (!(begins_base(words) || row_words(words) > 0 || edging)) return false;
    // "Base: ch 3" below "HEAD" names no piece of its own.
    const bool start = before.size() == 1 && !heading_.empty() &&
                       one_of(before[0], {"base", "foundation", "start", "begin", "beginning"});
    if (!start) heading_ = name;
    take_row(rest, begins_base(words) && row_words(words) == 0);
    return true;
}

/// "Horseshoe lace pattern" and its rows below "Bind off.": told for the rows above.
bool DocumentReader::pattern_below(const Line& line) const {
    const auto words = words_of(line.text);
    const auto name = words_of(heading_);
    const auto above = words_of(row_so_far().text);
    const bool first = words.size() > 2 && row_words(words) > 0 &&
                       (words[0] == "r1" || words[0] == "1st" || words[1] == "1");
    const bool ended = one_of(above[0], {"bind", "cast", "bo"}) &&
                       (above[0] == "bo" || (above.size() > 1 && above[1] == "off"));
    return first && ended && name.size() > 1 &&
           std::any_of(name.begin(), name.end(), [](const std::string& word) {
               return one_of(word, {"pattern", "patt", "stitch", "st", "lace", "motif", "panel"});
           });
}

void DocumentReader::take_sentence(const Line& line, bool base, bool last) {
    zone_.reset();
    const bool begins =
        base &&
        (pending_.empty() || has_rows_ ||
         (document_.craft == Craft::knit && line.blank_before && has_base(pending_.back())) ||
         (document_.craft == Craft::crochet && !heading_.empty() &&
          !pending_.back().section.name.empty() && pending_.back().section.name != heading_ &&
          pending_.back().lines.size() == 1));
    // A chain within the rows goes on with them; a cast-on or a ring begins a piece.
    if (pending_.empty() ||
        (begins &&
         (!heading_.empty() || line.blank_before || fresh_base(line) || row_one_next())) ||
        (!heading_.empty() && has_rows_ && begins_piece(line)) ||
        (has_rows_ && begins_anew(line)) || round_joined_pieces() || other_piece(line)) {
        finish_part();
        Pending pending;
        pending.section.joined_before = round_joined_pieces();
        pending.section.name = heading_;
        pending.section.line = line.number;
        name_section(pending.section);
        heading_.clear();
        pending_.push_back(std::move(pending));
        has_rows_ = false;
    }
    // "SLEEVES (make 2)" from stitches that were held: no piece of its own.
    if (!heading_.empty() && document_.craft == Craft::knit && has_rows_ &&
        !pending_.back().lines.empty()) {
        if (pattern_below(line)) {
            finish_part();
            Pending pending;
            pending.section.name = heading_;
            pending.section.line = line.number;
            name_section(pending.section);
            pending_.push_back(std::move(pending));
        } else {
            begin_part();
        }
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
    dashes_to_commas(pending_.back().lines.back());
    if (!last) return;
    if (only_label(line) || label_with_remark(line)) return take_lines_of_label();
    while (at_ + 1 < lines_.size() && continues(lines_[at_ + 1]))
        append(pending_.back().lines.back(), lines_[++at_]);
}

void DocumentReader::take_lines_of_label() {
    while (at_ + 1 < lines_.size()) {
        const auto words = words_of(lines_[at_ + 1].text);
        if (document_.craft == Craft::crochet && words.size() <= 4 && !words.empty() &&
            !has_number(words) && at_ + 2 < lines_.size() && only_label(row_so_far()) &&
            one_of(words.back(), {"color", "colour", "yarn"})) {
            part(What::remark, lines_[++at_]);  // "First color" between label and row
            continue;
        }
        const bool made = document_.craft == Craft::crochet && only_label(row_so_far()) &&
                          one_of(words.empty() ? "" : words[0], {"make", "start", "using"});
        const bool plain = words.empty() || row_words(words) > 0 ||
                           (!made && !begins_work(words) && !continues(lines_[at_ + 1]));
        if (plain && !sentence_of_round(lines_[at_ + 1], words)) break;
        // "Work in garter stitch for 4 in" below them: rows of their own
        if (document_.craft == Craft::knit && !only_label(row_so_far()) && of_its_own(words)) break;
        if (plain && !may_work(words)) {
            part(What::remark, lines_[++at_]);
            continue;
        }
        Line& row = pending_.back().lines.back();
        const bool bare = only_label(row);
        if (bare && row.text.back() != ':' && row.text.back() != '.') {
            row.text += ':';
            row.from.push_back(row.from.back());
        }
        if (!bare && row.text.back() != '.' && row.text.back() != ':' && row.text.back() != ',' &&
            !base::lower(lines_[at_ + 1].text).starts_with("rep") &&
            !(document_.craft == Craft::crochet && broken_phrase(row.text, words))) {
            row.text += ',';
            row.from.push_back(row.from.back());
        }
        append(row, lines_[++at_]);
    }
    dashes_to_commas(pending_.back().lines.back());
}

}  // namespace skeinfall::notation
