// Knitted pieces that are worked like others: "Make the second mitten to match.", "Work left front
// to correspond, reversing shaping."

#include <algorithm>
#include <cstdint>
#include <optional>
#include <regex>
#include <string>
#include <vector>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/document_reader.hpp"

namespace skeinfall::notation {
namespace {

/// Things that are made in pairs, each of several pieces.
bool whole_thing(const std::string& word) {
    return one_of(word, {"mitten",   "mitt",    "sock",      "bootie",    "bootee",   "boot",
                         "slipper",  "glove",   "wrister",   "gaiter",    "one",      "wristwarmer",
                         "wristlet", "bootees", "armwarmer", "legwarmer", "stocking", "footlet",
                         "shoe",     "mitts",   "cuff",      "warmer",    "pair",     "piece"});
}

/// Pieces of a thing that come twice.
bool piece_word(const std::string& word) {
    return one_of(
        word, {"sleeve", "front", "side", "half", "piece", "strap", "handle", "ear", "leg", "arm",
               "pocket", "square", "panel", "tie", "back", "flap", "earflap"});
}

/// "Work as for back.", "same as the front": another piece, whether its rows are known or not.
bool told_by_piece(const std::vector<std::string>& words) {
    std::size_t at = 0;
    const auto pass = [&](Names names) {
        while (at < words.size() && one_of(words[at], names)) ++at;
    };
    pass({"work", "knit", "make", "worked", "the", "same", "exactly"});
    if (at >= words.size() || !one_of(words[at], {"as", "like"})) return false;
    pass({"as", "like", "given", "told", "directed", "for", "on", "the", "first", "left", "right",
          "other", "second", "lower", "upper"});
    return at < words.size() && (piece_word(words[at]) || whole_thing(words[at])) &&
           (at + 1 == words.size() || one_of(words[at + 1], {".", ",", "but", "except", "to"}));
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

/// "Rejoin yarn and work other side to match.", "complete to match first leg", with the stitches
/// that are named ahead of it: how many, 0 for those held; nothing for other sentences.
std::optional<std::int64_t> other_side(const std::vector<std::string>& words) {
    std::int64_t count = 0;
    bool alike = false;
    bool side = false;
    for (std::size_t i = 0; i < words.size(); ++i) {
        const std::string& word = words[i];
        if (number(word)) {
            if (count > 0 || i + 1 >= words.size() || word.size() > 4 ||
                !std::all_of(word.begin(), word.end(), digit) ||
                !one_of(words[i + 1], {"sts", "stitches", "st"}))
                return std::nullopt;
            count = base::leading_number<std::int64_t>(word);
            continue;
        }
        alike = alike || one_of(word, {"match", "correspond", "same", "as"});
        side = side || one_of(word, {"side", "leg", "half", "shoulder", "strap"}) ||
               (one_of(word, {"remaining", "rem", "held"}) && i + 1 < words.size() &&
                one_of(words[i + 1], {"sts", "stitches"}));
        if (!one_of(word, {"rejoin",    "join",     "attach",     "return",   "to",     "the",
                           "yarn",      "wool",     "and",        "work",     "knit",   "complete",
                           "finish",    "repeat",   "other",      "second",   "2nd",    "side",
                           "leg",       "half",     "shoulder",   "strap",    "first",  "1st",
                           "match",     "same",     "as",         "for",      "of",     "neck",
                           "sts",       "stitches", "left",       "on",       "needle", "needles",
                           "remaining", "rem",      "held",       "holder",   "stitch", "place",
                           "put",       "slip",     "back",       "in",       "way",    "manner",
                           "a",         "with",     "correspond", "was",      "did",    "you",
                           "reversing", "shaping",  "all",        "shapings", "st",     ",",
                           ".",         ";",        "from",       "right",    "end"}))
            return std::nullopt;
    }
    if (!alike || !side) return std::nullopt;
    return count;
}

/// "Row 12: ...", "Rows 13-20 (RS): ..." as the next ones; nothing where other rows are named.
std::optional<std::string> as_next_rows(const std::string& text) {
    static const std::regex label(
        R"(^\s*(rows?|rnds?|rounds?)\s*(\d{1,3})(?:\s*(?:-|to)\s*(\d{1,3}))?(?:\s*\((?:rs|ws)\))?\s*[:.]\s*)",
        std::regex::icase);
    static const std::regex named(
        R"(\b(rows?|rnds?|rounds?)\s*\d+(?!\d)(?!\s*(?:[(\[][^)\]]*[)\]]\s*)?(?:more|times)))",
        std::regex::icase);
    std::string rest = text;
    std::smatch found;
    std::string lead;
    if (std::regex_search(text, found, label)) {
        const std::int64_t first = base::leading_number<std::int64_t>(found[2].str());
        const std::int64_t rows =
            found[3].matched ? base::leading_number<std::int64_t>(found[3].str()) - first + 1 : 1;
        if (rows < 1) return std::nullopt;
        lead = rows == 1 ? "Next row: " : "Next " + std::to_string(rows) + " rows: ";
        rest = found.suffix();
    }
    if (std::regex_search(rest, named)) return std::nullopt;
    return lead + rest;
}

/// Where the first of two sides begins, behind the line that leaves the other one waiting.
std::size_t first_side(const std::vector<Line>& lines) {
    static const std::regex alone(
        R"(\bon\s+(?:these|the|first|those)?\s*(?:first\s+)?(?:\d+\s+)?(?:sts|stitches)\s*(?:only|for\s+(?:the\s+)?(?:first|left|right)\s+(?:side|leg|half|shoulder)(?:\s+only)?)\s*[.:,]?\s*$)",
        std::regex::icase);
    static const std::regex held(
        R"(\b(?:place|put|slip|leave|sl)\b[^.]*\b(?:holder|waste yarn|scrap yarn)\s*[.]?\s*$)",
        std::regex::icase);
    for (std::size_t i = lines.size(); i > 0; --i)
        if (std::regex_search(lines[i - 1].text, alone) ||
            std::regex_search(lines[i - 1].text, held))
            return i;
    return lines.size();
}

/// The rows of the second side, word for word those of the first one.
std::vector<Line> second_side(const std::vector<Line>& lines, const Line& told,
                              std::int64_t count) {
    std::vector<Line> out;
    const auto add = [&](const std::string& text) {
        Line line = told;
        line.text = text;
        line.from.assign(text.size(), told.from.front());
        out.push_back(std::move(line));
    };
    add(count > 0 ? "Place " + std::to_string(count) + " held sts on needles."
                  : "Place held sts on needles.");
    bool ends = false;
    for (std::size_t i = first_side(lines); i < lines.size(); ++i) {
        const auto text = as_next_rows(lines[i].text);
        if (!text) return {};
        add(*text);
        const std::string low = base::lower(*text);
        ends = low.find("bind off") != std::string::npos ||
               low.find("cast off") != std::string::npos ||
               low.find("cast-off") != std::string::npos ||
               low.find("bind-off") != std::string::npos || low.find("holder") != std::string::npos;
    }
    return ends ? out : std::vector<Line>{};
}

/// "In this pattern you knit ...": tells, and asks for nothing.
bool tells_of_none(const std::vector<std::string>& words) {
    return std::any_of(words.begin(), words.end(), [](const std::string& word) {
        return one_of(word, {"you", "your", "i", "is", "are", "was", "will", "can", "may"});
    });
}

/// Where the lines of a piece reach its armholes: behind the line that first binds off at an edge,
/// or before it where `before`; 0 where none does.
std::size_t to_armholes(const std::vector<Line>& lines, bool before) {
    static const std::regex edge(
        R"(\b(?:bind|cast) off (?:\d+)[^.]* (?:at|from) (?:the )?(?:beg|beginning|start)[a-z]* of )"
        R"(|\bbo \d+[^.]* at (?:the )?(?:beg|beginning|start))",
        std::regex::icase | std::regex::optimize);
    for (std::size_t i = 1; i < lines.size(); ++i)
        if (std::regex_search(lines[i].text, edge)) return before ? i : i + 1;
    return 0;
}

/// The lines up to the last decreases, which go on until that count instead; none where no line
/// decreases so.
std::vector<Line> up_to_count(const std::vector<Line>& lines, const std::string& count) {
    static const std::regex ends(
        R"(\b(?:until \d+(?: ?[(\[][^)\]]*[)\]])? (?:sts|stitches) (?:remain|rem|are left|left)|\d+(?: ?[(\[][^)\]]*[)\]])? times(?: more)?|\d+(?: ?[(\[][^)\]]*[)\]])? more times))",
        std::regex::icase | std::regex::optimize);
    for (std::size_t i = lines.size(); i > 1; --i) {
        const std::string low = base::lower(lines[i - 1].text);
        std::smatch found;
        const std::string& text = lines[i - 1].text;
        if ((!low.starts_with("dec") && !low.starts_with("rep")) ||
            !std::regex_search(text, found, ends))
            continue;
        std::vector<Line> out(lines.begin(), lines.begin() + static_cast<std::ptrdiff_t>(i));
        Line& last = out.back();
        const auto at = static_cast<std::size_t>(found.position(0));
        const std::string until = "until " + count + " sts remain.";
        const std::size_t place = last.from.empty() ? 0 : last.from.front();
        last.text = last.text.substr(0, at) + until;
        last.from.resize(std::min(at, last.from.size()));
        last.from.resize(last.text.size(), place);
        return out;
    }
    return {};
}

/// "Dec 1 st at each end of next and foll alt rows until 46 sts remain."
bool narrows(const Line& line) {
    const std::string low = base::lower(line.text);
    return (low.starts_with("dec") || low.starts_with("k2tog") || low.starts_with("then dec")) &&
           (low.find("each end") != std::string::npos ||
            low.find("both ends") != std::string::npos ||
            low.find("each side") != std::string::npos ||
            low.find("armhole edge") != std::string::npos);
}

}  // namespace

/// "Rnds 1-5: Same as head.", "Work same as small star through round 2.": below a heading, as many
/// rows of another piece.
bool DocumentReader::same_rows(const Line& line, const std::string& heading) {
    if (document_.craft != Craft::crochet || heading.empty()) return false;
    static const std::string name = R"((?:for |in |on |of )?(?:the )?([a-z]+(?: [a-z]+)?))";
    static const std::regex labelled(
        R"(^(?:rows?|rnds?|rounds?) 1 ?(?:-|to|through|thru) ?(\d+) ?[:.-]? ?(?:work |make |worked )?(?:exactly )?(?:the )?(?:(?:same )?(?:as|like) |(?:rep|repeat) )(?:(?:rows|rnds|rounds) 1 ?(?:-|to|through|thru) ?\1 (?:of|from|in|as|for) )?)" +
            name + R"( ?\.?$)",
        std::regex::icase | std::regex::optimize);
    static const std::regex until(
        R"(^(?:work |make |crochet |begin |start )?(?:exactly )?(?:the )?(?:same )?(?:as|like) )" +
            name +
            R"( (?:through|thru|until|till|up to|to)(?: and including)?(?: the)?(?: end of)? (?:row|rnd|round)s? ?(?:# ?)?(\d+) ?\.?$)",
        std::regex::icase | std::regex::optimize);
    std::smatch found;
    const bool numbered = std::regex_search(line.text, found, labelled);
    if (!numbered && !std::regex_search(line.text, found, until)) return false;
    const std::string piece = base::lower(found[numbered ? 2 : 1].str());
    const auto rows = base::leading_number<std::int64_t>(found[numbered ? 1 : 2].str());
    const auto wanted = words_of(piece);
    for (const Pending& pending : pending_) {
        const auto named = words_of(pending.section.name);
        if (!std::all_of(wanted.begin(), wanted.end(), [&](const std::string& word) {
                return std::find(named.begin(), named.end(), word) != named.end();
            }))
            continue;
        std::size_t end = 0;
        std::int64_t last = 0;
        for (; end < pending.lines.size() && last < rows; ++end) {
            const auto its = words_of(pending.lines[end].text);
            if (its.size() < 3 || row_words(its) < 2 || !number(its[1])) continue;
            const bool span = its.size() > 4 && its[2] == "-" && number(its[3]);
            last = base::leading_number<std::int64_t>(its[span ? 3 : 1]);
        }
        if (last != rows) return false;
        finish_part();
        Pending again;
        again.lines.assign(pending.lines.begin(),
                           pending.lines.begin() + static_cast<std::ptrdiff_t>(end));
        return begin_again(std::move(again), line, heading);
    }
    return false;
}

/// A piece like another begins, below its heading.
bool DocumentReader::begin_again(Pending again, const Line& told, const std::string& heading) {
    again.section.name = heading;
    again.section.line = told.number;
    name_section(again.section);
    heading_.clear();
    part(What::heading, told);
    pending_.push_back(std::move(again));
    in_rows_ = true;
    has_rows_ = true;
    return true;
}

/// "Work same as back until armholes have been bound off": the lines of that piece so far.
bool DocumentReader::same_until(const Line& line, const std::string& heading) {
    if (document_.craft != Craft::knit) return same_rows(line, heading);
    if (heading.empty()) return false;
    const auto again_as = [&](const Pending& pending, std::vector<Line> lines) {
        Pending again = pending;
        again.lines = std::move(lines);
        again.section.times = 1;
        return begin_again(std::move(again), line, heading);
    };
    static const std::regex to_count(
        R"(^(?:work |knit |make )?(?:exactly )?(?:the )?(?:same )?as (?:given )?(?:for |on )?(?:the )?([a-z]+(?: [a-z]+)?) until (?:there are )?(\d+(?: ?[(\[][^)\]]*[)\]])?) (?:sts|stitches) (?:remain|rem|left)(?:,? ending with [a-z ]+)? ?\.?$)",
        std::regex::icase | std::regex::optimize);
    std::smatch count;
    if (std::regex_search(line.text, count, to_count)) {
        for (const Pending& pending : pending_)
            if (base::lower(pending.section.name) == base::lower(count[1].str()))
                if (auto lines = up_to_count(pending.lines, count[2].str()); !lines.empty())
                    return again_as(pending, std::move(lines));
        return false;
    }
    static const std::regex form(
        R"(^(?:work |knit |make )?(?:exactly )?(?:the )?(?:same )?as (?:given )?(?:for |on )?(?:the )?([a-z]+(?: [a-z]+)?) (?:until|to|up to|till) (?:the )?(?:beg(?:inning)? of (?:the )?)?(?:(armholes?|raglan|armhole shaping|raglan shaping|underarms?|armhole and shoulder shaping|shaping of armholes?)|(armholes? (?:have been|are|is|sts are) (?:bound off|cast off|worked))|(armholes? (?:shaping )?(?:is|are|has been|have been) (?:shaped|completed?))) ?\.?(?: \d[^.]*sts\.?)?$)",
        std::regex::icase | std::regex::optimize);
    std::smatch found;
    if (!std::regex_search(line.text, found, form)) return false;
    const std::string name = base::lower(found[1].str());
    for (const Pending& pending : pending_) {
        if (base::lower(pending.section.name) != name) continue;
        std::size_t end = to_armholes(pending.lines, found[2].matched);
        if (end == 0) return false;
        while (found[4].matched && end < pending.lines.size() && narrows(pending.lines[end])) ++end;
        return again_as(pending, {pending.lines.begin(),
                                  pending.lines.begin() + static_cast<std::ptrdiff_t>(end)});
    }
    return false;
}

/// Notes where the rows of a part begin that goes on with the stitches of its piece.
void DocumentReader::begin_part() {
    finish_part();
    part_.text = heading_;
    part_.number = heading_line_;
    part_.from.assign(heading_.size(), pending_.back().lines.back().from.front());
    part_from_ = pending_.back().lines.size();
}

/// The rows of that part once more. False where they name rows by numbers, or there are none.
bool DocumentReader::copy_part(const Line& told) {
    if (part_.text.empty() || pending_.empty()) return false;
    std::vector<Line>& lines = pending_.back().lines;
    std::vector<Line> more;
    for (std::size_t i = part_from_; i < lines.size(); ++i) {
        const auto text = as_next_rows(lines[i].text);
        if (!text || lines[i].from.empty()) return false;
        Line line = lines[i];
        line.number = told.number;
        line.text = *text;
        line.from.assign(text->size(), lines[i].from.front());
        more.push_back(std::move(line));
    }
    for (Line& line : more) lines.push_back(std::move(line));
    return !more.empty();
}

/// "(make 2)" behind the name of such a part: its rows as often.
void DocumentReader::finish_part() {
    const std::int64_t times = part_.text.empty() ? 1 : times_said(part_.text);
    const std::size_t from = part_from_;
    for (std::int64_t turn = 1; turn < times; ++turn) {
        std::vector<Line>& lines = pending_.back().lines;
        const std::size_t end = lines.size();
        if (turn > 1)
            part_from_ = from + (end - from) / static_cast<std::size_t>(turn) *
                                    static_cast<std::size_t>(turn - 1);
        if (copy_part(part_)) continue;
        part(What::may_work, part_);
        break;
    }
    part_ = Line{};
}

/// A line like that whose piece is not known: never only a remark.
bool DocumentReader::like_no_piece(const Line& line, const std::vector<std::string>& words) {
    if (document_.craft != Craft::knit || heading_.empty() || !told_by_piece(words)) return false;
    part(What::may_work, line);
    return true;
}

/// "LEFT MITTEN: Work as given for right mitten. With contrasting color, make a cord.": the
/// sentence, and what stands behind it as a line of its own.
bool DocumentReader::same_then(Line& line, const std::string& heading) {
    const auto stop = line.text.find(". ");
    if (document_.craft != Craft::knit || stop == std::string::npos || stop > 100) return false;
    Line first = line;
    first.text.resize(stop + 1);
    first.from.resize(stop + 1);
    if (!same_piece(first, words_of(first.text), heading) && !same_until(first, heading))
        return false;
    cut_front(line, stop + 1);
    const auto words = words_of(line.text);
    if (!words.empty()) line_within_rows(line, words);
    return true;
}

bool DocumentReader::named_work(Line& line, const std::vector<std::string>& words) {
    const auto colon = line.text.find(':');
    if (document_.craft != Craft::knit || colon == std::string::npos || colon > 40 ||
        colon + 3 > line.text.size() || begins_work(words))
        return false;
    const auto name = words_of(line.text.substr(0, colon));
    const auto behind = words_of(line.text.substr(colon + 1));
    const std::vector<std::string> sentence(behind.begin(),
                                            std::find(behind.begin(), behind.end(), "."));
    const bool plain = std::all_of(name.begin(), name.end(), [&](const std::string& word) {
        return letter(word[0]) && !stitch_word(word);
    });
    if (name.empty() || name.size() > 4 || behind.empty() || !plain || zone_of(name) ||
        one_of(name[0], {"note", "tip", "hint", "optional", "option", "materials", "or"}) ||
        row_words(behind) > 0 || !begins_work(behind) || tells_of_none(sentence))
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
    if (document_.craft != Craft::knit || pending_.empty() || words.size() > 24 ||
        row_words(words) > 0)
        return false;
    if (const auto held = other_side(words)) {
        std::vector<Line> more = second_side(pending_.back().lines, line, *held);
        if (!more.empty()) {
            for (Line& row : more) pending_.back().lines.push_back(std::move(row));
            part_counted(line);
            return true;
        }
    }
    if (words.size() > 18 || has_number(words)) return false;
    std::size_t at = 0;
    if (!one_of(words[at], {"make", "work", "knit", "repeat", "complete"})) return false;
    ++at;
    if (at < words.size() && words[at] == "for") ++at;
    if (at < words.size() && one_of(words[at], {"the", "a", "your"})) ++at;
    if (at + 1 >= words.size() ||
        !one_of(words[at], {"second", "other", "another", "2nd", "left", "right"}))
        return false;
    const std::string which = words[at++];
    if (words[at] == "ear" && at + 1 < words.size() && words[at + 1] == "flap") ++at;
    const std::string name = words[at++];
    const bool flap = one_of(name, {"flap", "earflap"});
    const bool whole = whole_thing(name);
    if ((!whole && !piece_word(name)) ||
        (!only_alike(words, at) && !(flap && at + 1 >= words.size())))
        return false;
    const auto named = [&](const Pending& pending, const std::string& word) {
        const auto its = words_of(pending.section.name);
        return std::any_of(its.begin(), its.end(), [&](const std::string& one) {
            return one == word || one == word + "s";
        });
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
    // "Work second sleeve in the same way.": its rows stand within the piece.
    const auto of_part = words_of(part_.text);
    if (!whole && std::any_of(of_part.begin(), of_part.end(), [&](const std::string& one) {
            return one == name || one == name + "s";
        })) {
        if (times_said(part_.text) > 1) return true;
        if (!copy_part(line)) return false;
        part(What::heading, line);  // it is counted
        return true;
    }
    bool any = false;
    for (Pending& pending : pending_)
        if (whole || named(pending, name)) {
            pending.section.times *= 2;
            any = true;
        }
    if (!any && flap && pending_.size() == 1) {  // "Repeat for second ear flap."
        pending_.back().section.times *= 2;
        any = true;
    }
    if (any) part_counted(line);
    return any;
}

}  // namespace skeinfall::notation
