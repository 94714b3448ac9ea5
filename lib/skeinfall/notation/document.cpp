#include "skeinfall/notation/document.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <cstdint>
#include <map>
#include <utility>

#include "skeinfall/notation/detail/document_reader.hpp"
#include "skeinfall/notation/detail/how_made.hpp"
#include "skeinfall/notation/detail/phrases.hpp"

namespace skeinfall::notation {

void DocumentReader::tell_craft() {
    std::int64_t knit = 0;
    std::int64_t hook = 0;
    std::int64_t us = 0;
    std::int64_t uk = 0;
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
    // "(US dc - double crochet)" beside a name says what it is called elsewhere.
    if (says({"(us dc", "(us sc", "(us hdc", "(us tr", "(us: dc", "(us: sc", "us equivalent"}))
        british = true;
    // A pattern of dc and tr alone that also has British words for the rest.
    std::int64_t ways = 0;
    for (const std::string_view way : {"tension", " miss ", "yrh", "colour", "double knitting",
                                       "4 ply", "4-ply", "yarn round hook"})
        if (all.find(way) != std::string::npos) ++ways;
    if (us == 0 && ways > 1 && all.find(" tr ") != std::string::npos &&
        all.find(" dc ") != std::string::npos)
        british = true;
    if (says({"uk terms", "british terms", "uk crochet terms", "u.k. terms", "uk terminology",
              "british terminology", "uk term"}))
        british = true;
    if (says({"us terms", "american terms", "us crochet terms", "u.s. terms", "us terminology",
              "american crochet terms", "us term"}))
        british = false;
    document_.terms = options_->terms.value_or(british ? Terms::uk : Terms::us);
}

bool DocumentReader::begins_base(const std::vector<std::string>& words) const {
    std::size_t i = 0;
    if (document_.craft == Craft::knit && words[0] == "*") return false;  // "*CO 2 sts, bind off 4"
    // "8 dc in mr"
    if (document_.craft == Craft::crochet && words.size() > 3 && words.size() < 12 &&
        (digit(words[0][0]) || one_of(words[0], {"sc", "hdc", "dc"})))
        for (std::size_t at = 1; at + 1 < words.size() && at < 6; ++at)
            if (one_of(words[at], {"in", "into"}))
                for (std::size_t ring = at + 1; ring < words.size() && ring < at + 3; ++ring)
                    if (one_of(words[ring], {"mc", "mr", "magic"})) return true;
    // "Attach yarn to hair tie. Sc 20 around"
    if (document_.craft == Craft::crochet && words.size() > 6 &&
        one_of(words[0], {"attach", "join", "loop"}))
        for (std::size_t at = 2; at + 2 < words.size() && at < 7; ++at)
            if (one_of(words[at], {"hair", "elastic", "rubber"})) return has_number(words);
    // "With MC,", "Using a 5 mm hook,", "To begin:", "Step 1:"
    if (one_of(words[0],
               {"with",   "using", "beginning", "starting",   "start", "begin", "to",     "make",
                "create", "form",  "loosely",   "foundation", "work",  "as",    "base",   "body",
                "front",  "back",  "hat",       "holding",    "use",   "beg",   "leaving"})) {
        while (i < words.size() && i < 14 && !base_word(words, i)) ++i;
    }
    const auto counted = [&](std::size_t at) { return at < words.size() && digit(words[at][0]); };
    if (document_.craft == Craft::crochet && words[0] == "cast")  // "Cast on and make ch 28"
        while (i < words.size() && i < 6 && !base_word(words, i)) ++i;
    if (i < words.size() && base_word(words, i) &&
        (i == 0 || words[i] != "cast" || document_.craft == Craft::crochet || counted(i + 2) ||
         counted(i + 3) || counted(i + 4)))
        return true;
    return document_.craft == Craft::knit && base_within(words);
}

/// "BACK ... Starting at lower edge with 1 strand, cast on 68 sts": a cast-on with its number in
/// a line that does not only tell of one.
bool DocumentReader::base_within(const std::vector<std::string>& words) const {
    if (row_words(words) > 0) return false;
    std::int64_t depth = 0;
    for (std::size_t i = 0; i + 2 < words.size() && i < 40; ++i) {
        if (one_of(words[i], {"(", "["})) ++depth;
        if (one_of(words[i], {")", "]"})) --depth;
        if (depth > 0) continue;  // "(I used the long tail method)"
        if (one_of(words[i],
                   {".",         "i",     "you",  "my",   "your",   "should", "gauge", "swatch",
                    "tension",   "would", "can",  "if",   "repeat", "rep",    "made",  "multiple",
                    "multiples", "note",  "rows", "bind", "make",   "waste",  "scrap", "holder",
                    "holders",   "thumb", "knit", "purl", "k",      "p",      "row",   "rnd"}))
            return false;
        if (words[i].size() > 1 && (words[i][0] == 'k' || words[i][0] == 'p') && digit(words[i][1]))
            return false;  // "K8, cast on 8 sts, k8"
        const bool cast = words[i] == "cast" &&
                          (words[i + 1] == "on" || (words[i + 1] == "-" && words[i + 2] == "on"));
        if (!cast && words[i] != "co") continue;
        std::size_t at = i + (cast ? (words[i + 1] == "-" ? 3U : 2U) : 1U);
        if (at < words.size() && number(words[at]) && base_word(words, i)) return true;
    }
    return false;
}

bool DocumentReader::base_word(const std::vector<std::string>& words, std::size_t i) const {
    const auto at = [&](std::size_t by) {
        return i + by < words.size() ? words[i + by] : std::string();
    };
    const std::string& word = words[i];
    const auto counted = [&](std::size_t by) { return !at(by).empty() && digit(at(by)[0]); };
    if (document_.craft == Craft::knit && one_of(word, {"cast", "co"}))
        for (std::size_t by = 1; by < 12; ++by) {  // at an edge or over a gap: within a piece
            // "Cast on another 24 sts", "cast on 24 sts for arm and knit to end"
            if (one_of(at(by), {"another", "additional"}) ||
                (one_of(at(by), {"knit", "k", "purl", "work"}) && at(by + 1) == "to" &&
                 at(by + 2) == "end"))
                return false;
            if (one_of(at(by), {".", ":", ";", ","})) break;
            if (at(by) == "over" &&
                (counted(by + 1) || one_of(at(by + 1), {"two", "three", "four", "five", "your"})))
                break;  // "over 4 needles"
            if (one_of(at(by), {"beg", "beginning", "gap", "underarm", "underarms", "over",
                                "overlap", "replace"}) ||
                (at(by) == "end" && one_of(at(by + 1), {"of"})))
                return false;
        }
    if (document_.craft == Craft::knit)
        return (word == "c" && at(1) == "/" && at(2) == "o") ||
               (word == "pick" && at(1) == "up" &&
                (counted(2) || (at(2) == "and" && counted(4)))) ||
               (word == "cast" &&
                (at(1) == "on" || (at(1) == "-" && at(2) == "on" && counted(3)))) ||
               (word == "co" && counted(1)) || (word == "casting" && at(1) == "on") ||
               (word == "co" && at(1) == "a");
    if (one_of(word, {"ch", "chain"}) && at(1) == "(" && at(3) == ")" && counted(4))
        return true;  // "ch (chain) 22"
    if ((word == "ch" || word == "chain") && at(1) == "." && counted(2)) return true;
    if (word == "chains" && i == 0 && number(at(1)) && one_of(at(2), {",", ".", "and"}))
        return true;
    if ((word == "ch" || word == "chain") && (counted(1) || (at(1) == "-" && counted(2))))
        return !one_of(at(2), {"before", "at", "does", "is", "will"});
    if (word.starts_with("ch") && word.size() > 2 && number(word.substr(2))) return true;
    if (one_of(word, {"magic", "mr", "adjustable"})) return true;
    if (word == "foundation" && one_of(at(1), {"row", "round"}) && at(2) == "of" && counted(3))
        return true;
    if (word == "chaining" && counted(1)) return true;
    if (i > 0 && number(word) && one_of(at(1), {"ch", "chs", "chains", "chain"})) return true;
    if (i > 0 && digit(word[0]) &&
        one_of(word.substr(word.find_first_not_of("0123456789") == std::string::npos
                               ? word.size()
                               : word.find_first_not_of("0123456789")),
               {"ch", "chs", "chains"}))
        return true;
    return (word == "sliding" && at(1) == "loop") || word == "fsc" || word == "fdc" ||
           word == "fhdc";
}

bool DocumentReader::base_says(const std::vector<std::string>& words) const {
    if (has_number(words)) return true;
    if (document_.craft == Craft::knit)
        return std::any_of(words.begin(), words.end(), [](const std::string& word) {
            return one_of(word, {"two", "three", "four", "five", "six", "seven", "eight", "nine",
                                 "ten", "twelve", "twenty", "thirty", "forty", "sixty", "multiple",
                                 "number", "enough"});
        });
    return std::any_of(words.begin(), words.end(), [](const std::string& word) {
        return one_of(word, {"magic", "mr", "ring", "circle", "loop", "a", "multiple"}) ||
               (word.starts_with("ch") && word.size() > 2 && number(word.substr(2)));  // "Ch2"
    });
}

void DocumentReader::tell_sizes() {
    std::map<std::size_t, std::int64_t> found;
    for (const Line& line : lines_) {
        const std::string& text = line.text;
        for (std::size_t open = text.find_first_of("(["); open != std::string::npos;
             open = text.find_first_of("([", open + 1)) {
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
                if (document_.craft == Craft::knit && at + 1 < text.size() && text[at] == '.' &&
                    digit(text[at + 1])) {  // "3 (3.5, 4)"
                    ++at;
                    while (at < text.size() && digit(text[at])) ++at;
                }
                ++numbers;
                while (at < text.size() && text[at] == ' ') ++at;
                if (at < text.size() && (text[at] == ')' || text[at] == ']')) {
                    fine = true;
                    break;
                }
                if (at >= text.size() ||
                    std::string_view(",-:;/").find(text[at]) == std::string_view::npos)
                    break;
                ++at;
            }
            // "2 (12)" is a count behind a number; lists of one need a second sign of sizes.
            const bool joined = text[open] == '[' && before == open;  // "28[34]"
            // "6 (7) sc", "continue 12 (14) more rows"
            // "(sc, inc) * 6 (18) Round 4: ..." is a count before the next row.
            const bool followed = document_.craft == Craft::crochet && at + 2 < text.size() &&
                                  text[at + 1] == ' ' && letter(text[at + 2]) &&
                                  text[open] == '(' &&
                                  row_words(words_of(std::string_view(text).substr(at + 2))) == 0 &&
                                  std::isupper(static_cast<unsigned char>(text[at + 2])) == 0;
            // "cast off 2 (3) sts", "until it measures 5 (6) inches"
            const auto behind =
                words_of(std::string_view(text).substr(std::min(at + 1, text.size())));
            const bool counts = document_.craft == Craft::knit && text[open] == '(' &&
                                !behind.empty() &&
                                one_of(behind[0], {"st", "sts", "stitches", "inches", "in", "cm",
                                                   "times", "more", "rows", "rnds", "rounds"});
            const auto low = base::lower(text.substr(0, open));
            const bool cast_on = counts && low.find("cast on") != std::string::npos;
            if (fine && (numbers > 2 || joined || followed || counts)) ++found[numbers];
            if (fine && cast_on) ++found[numbers];
        }
    }
    if (document_.craft == Craft::crochet && labels_of_two_sizes()) {
        document_.sizes = 2;
        return;
    }
    const auto most =
        std::max_element(found.begin(), found.end(),
                         [](const auto& a, const auto& b) { return a.second < b.second; });
    const std::int64_t least = most != found.end() && most->first == 2 ? 3 : 2;
    if (most != found.end() && most->second >= least) document_.sizes = most->first;
}

void DocumentReader::tell_yarns() {
    std::map<std::string, std::vector<std::string>> found;
    for (const Line& line : lines_) {
        const auto words = words_of(line.text);
        for (std::size_t i = 0; i < words.size(); ++i) {
            const std::string& word = words[i];
            const bool trade =
                word == "mc" || (word.starts_with("cc") &&
                                 word.find_first_not_of("0123456789", 2) == std::string::npos);
            const bool lettered = i > 0 && one_of(words[i - 1], {"color", "colour", "yarn"}) &&
                                  word.size() == 1 && letter(word[0]) && word[0] < 'g';
            if (!trade && !lettered) continue;
            std::vector<std::string>& names = found[word];
            names = {word};
            if (word == "mc") names.insert(names.end(), {"main color", "main colour"});
            if (word == "cc")
                names.insert(names.end(), {"contrast color", "contrast colour", "contrasting color",
                                           "contrasting colour"});
            if (lettered) names.insert(names.end(), {"color " + word, "colour " + word});
        }
    }
    if (document_.craft == Craft::crochet) tell_lettered(found);
    if (found.size() < 2) return;
    // The main one first: rows that name none begin with it.
    const auto add = [&](const std::string& word) {
        std::string id = word;
        for (char& c : id) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
        document_.yarns.push_back({id, found[word]});
    };
    if (found.contains("mc")) add("mc");
    for (const auto& [word, names] : found)
        if (word != "mc") add(word);
}

namespace {

/// "Ties (make 2)" above "Ch 60.": a heading that names a cord says that the chain is all of it.
void finish_cord(const std::string& name, std::vector<Line>& lines) {
    if (lines.size() != 1 || lines.front().text.empty()) return;
    const auto heading = words_of(name);
    const bool cord = std::any_of(heading.begin(), heading.end(), [](const std::string& word) {
        return one_of(word, {"tie", "ties", "cord", "cords", "drawstring", "drawstrings", "lace",
                             "laces", "string", "strings"});
    });
    Line& line = lines.front();
    auto words = words_of(line.text);
    while (!words.empty() && words.back() == ".") words.pop_back();
    const std::size_t size = words.size();
    if (!cord || size < 2 || !digit(words[size - 1].front()) ||
        !one_of(words[size - 2], {"ch", "chain"}))
        return;
    const std::string_view said = line.text.back() == '.' ? " Fasten off." : ". Fasten off.";
    line.text += said;
    line.from.insert(line.from.end(), said.size(), line.from.back());
}

/// "SLEEVES" without "make 2": both are meant.
void count_both(Section& section, const std::string& file) {
    const auto words = words_of(base::lower(section.name));
    if (section.times != 1 || section.readings.empty() || words.size() > 3 ||
        std::none_of(words.begin(), words.end(),
                     [](const std::string& word) { return word == "sleeves"; }) ||
        section.readings.front().state != RowReading::State::foundation)
        return;
    section.times = 2;
    base::Place place;
    place.file = file;
    place.line = section.line;
    section.readings.front().findings.push_back(
        {project::Severity::ok, place,
         "\"" + base::shown_inert(section.name) + "\" is taken for two, as nothing says how many",
         "If it is one, write: (make 1)."});
}

}  // namespace

void DocumentReader::work(Pending& pending) {
    Section& section = pending.section;
    NotationOptions options;
    options.craft = document_.craft;
    options.terms = document_.terms;
    options.size = std::min(options_->size, document_.sizes - 1);
    options.sizes = document_.sizes;
    options.own = options_->own;
    options.yarns = options_->yarns.empty() ? document_.yarns : options_->yarns;
    options.yarns_guessed = options_->yarns.empty();
    for (const Definition& definition : document_.definitions)
        options.own.push_back(definition.stitch);
    options.row_gauge = options_->row_gauge ? options_->row_gauge : document_.row_gauge;
    options.desired = options_->desired;
    options.lenient = true;
    options.held = held_;
    options.joined_before = section.joined_before;
    options.round = std::any_of(pending.lines.begin(), pending.lines.end(), [&](const Line& line) {
        return says_round(base::lower(line.text), document_.craft);
    });
    options.round = options.round && !turned_rows(pending.lines);
    section.round = options.round;
    if (options.craft == Craft::knit && has_base(pending))
        name_own_length(section.name, pending.lines);
    if (options.craft == Craft::crochet) finish_cord(section.name, pending.lines);
    std::vector<Line> lines = notes_;
    lines.insert(lines.end(), pending.lines.begin(), pending.lines.end());
    std::vector<WrittenRows> entries;
    for (const Line& line : lines) entries.push_back({line.text, std::nullopt});
    options.locate = [&](std::size_t entry, std::size_t offset) {
        base::Place place;
        place.file = options_->file;
        if (entry >= lines.size() || lines[entry].from.empty()) return place;
        const std::size_t at = lines[entry].from[std::min(offset, lines[entry].from.size() - 1)];
        if (options_->place) return options_->place(text_, at);
        const std::string_view before = text_.substr(0, at);
        const auto start = before.rfind('\n');
        place.line = 1 + static_cast<std::size_t>(std::count(before.begin(), before.end(), '\n'));
        place.column = at + 1 - (start == std::string_view::npos ? 0 : start + 1);
        return place;
    };
    NotationResult result = work_rows(entries, options);
    section.problems = std::move(result.problems);
    held_ = std::move(result.held);
    section.findings = result.rows.findings;
    section.rows = std::move(result.rows);
    for (const Line& line : pending.lines) section.lines.push_back(line.text);
    if (result.readings.empty() && !section.problems.empty()) {
        // Nothing of it could be worked: none of its lines may be lost.
        for (std::size_t i = 0; i < pending.lines.size(); ++i) {
            RowReading one;
            one.entry = notes_.size() + i;
            one.words = pending.lines[i].text;
            one.state = RowReading::State::unread;
            one.problem = section.problems.front();
            result.readings.push_back(std::move(one));
        }
    }
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
    ask_how_often(section);
    if (options.craft == Craft::knit) count_both(section, options_->file);
    document_.sections.push_back(std::move(section));
}

bool DocumentReader::define(const Line& line) {
    // "ch = chain; sc = single crochet, dc = double crochet" is a list of them.
    auto [at, size] = definition_sign(line.text);
    // "V-stitch (2 dc in next st)"
    const std::size_t bracket = bracket_definition(line.text);
    if (at == 0 && zone_ == What::stitches && bracket > 0) {
        at = bracket;
        size = 1;
    }
    if (at == 0) return false;
    std::string name = std::string(base::trimmed(line.text.substr(0, at)));
    std::string meaning = std::string(base::trimmed(line.text.substr(at + size)));
    if (at == bracket) meaning.pop_back();
    std::vector<std::string> names;
    const auto open = name.find('(');
    if (open != std::string::npos) {
        const auto close = name.find(')', open);
        const std::string inner =
            name.substr(open + 1, close == std::string::npos ? close : close - open - 1);
        names.push_back(std::string(base::trimmed(name.substr(0, open))));
        names.push_back(std::string(base::trimmed(inner)));
    } else if (const auto dash = name.find(" - ");  // "lhdc - long half double crochet: ..."
               dash != std::string::npos && document_.craft == Craft::crochet) {
        names = {name.substr(0, dash), name.substr(dash + 3)};
    } else {
        for (const std::string& one : base::split(name, '/')) names.push_back(one);
    }
    // "TP = triple picot (ch 3, sl st in first ch)": two names
    while (meaning.ends_with(").") && document_.craft == Craft::crochet) meaning.pop_back();
    if (const auto how = meaning.find(" ("); how != std::string::npos && meaning.ends_with(")") &&
                                             document_.craft == Craft::crochet && how < 24 &&
                                             meaning.find_first_of("0123456789,") > how &&
                                             meaning.find(',', how) != std::string::npos &&
                                             !known(base::lower(meaning.substr(0, how)))) {
        names.push_back(meaning.substr(0, how));
        meaning = meaning.substr(how + 2, meaning.size() - how - 3);
    }
    // "half double crochet (hdc)" may stand on the right too.
    bool any = false;
    const std::string low = base::lower(meaning);
    for (std::string& one : names) {
        one = base::lower(one);
        std::erase(one, '.');
        if (one_of(one, {"v st", "v stitch", "v sts", "v stitches"})) one = "v-st";
        if (one.size() > 1 && one.ends_with("(s)")) one.resize(one.size() - 3);
        if (one.empty() || one.size() > 40 || !letter(one[0]) ||
            !std::all_of(one.begin(), one.end(),
                         [](char c) { return letter(c) || digit(c) || c == ' ' || c == '-'; }))
            continue;
        define_as(one, meaning, line, any);
    }
    if (any || zone_ == What::abbreviations)
        part(zone_ == What::stitches ? What::stitches : What::abbreviations, line);
    return any;
}

void DocumentReader::define_as(const std::string& name, const std::string& meaning,
                               const Line& line, bool& any) {
    const std::string low = base::lower(meaning);
    Definition definition;
    definition.line = line.number;
    definition.meaning = meaning;
    definition.stitch.name = name;
    definition.stitch.place = {options_->file, line.number, 1};
    definition.stitch.of_place = definition.stitch.place;
    if (known(name)) {
        any = true;
        // A cluster, a bobble, a picot is what the pattern says.
        if (!book_->varies(name)) return;
    }
    if (const auto how = how_made(low);
        how && tells_how(low) && document_.craft == Craft::crochet) {
        definition.stitch.of = book_->at(book_->find_us(how->kind)).written;
        if (how->legs > 1) definition.stitch.of += std::to_string(how->legs) + "tog";
        definition.stitch.makes = 1;
        definition.stitch.takes = how->places;
        definition.followed = true;
    } else if (!make_up(low, definition)) {
        return;
    }
    Stitch stitch;
    stitch.name = name;
    if (!book_->add(stitch)) return;
    document_.definitions.push_back(std::move(definition));
    any = true;
}

bool DocumentReader::how_to(const Line& line) {
    if (document_.craft != Craft::crochet || zone_ == What::materials || zone_ == What::gauge)
        return false;
    const std::string low = base::lower(line.text);
    if (label_within(low) != std::string::npos || (in_rows_ && works_and_pulls(low))) return false;
    if (!tells_how(low)) {
        // "Hhdc:", "Bobble stitch (bo):" may lead to it.
        const auto words = words_of(low);
        how_text_.clear();
        how_name_.clear();
        if (words.size() <= 8 && words.back() == ":" && at_ + 1 < lines_.size() &&
            tells_how(base::lower(lines_[at_ + 1].text))) {
            how_name_ = std::string(base::trimmed(low.substr(0, low.size() - 1)));
            part(What::stitches, line);
            return true;
        }
        return false;
    }
    bool any = false;
    if (stitch_told_for(low, line)) return true;
    if (definition_line(line.text) && definition_sign(line.text).first > 0) {
        const What zone = zone_.value_or(What::stitches);
        zone_ = What::stitches;
        define(line);
        zone_ = zone;
        if (in_rows_) zone_.reset();
        return true;
    }
    how_text_ += ' ' + line.text;
    const auto goes_on = [](const Line& next) {
        const std::string text = base::lower(next.text);
        return tells_how(text) || (digit(text[0]) && text.find("loop") != std::string::npos);
    };
    const bool more = at_ + 1 < lines_.size() && goes_on(lines_[at_ + 1]);
    if (!more && !how_name_.empty()) {
        std::string name = how_name_;
        const auto open = name.find('(');
        if (open != std::string::npos) {
            const auto close = name.find(')', open);
            define_as(std::string(base::trimmed(name.substr(
                          open + 1, close == std::string::npos ? close : close - open - 1))),
                      how_text_, line, any);
            name.resize(open);
        }
        define_as(std::string(base::trimmed(name)), how_text_, line, any);
        how_name_.clear();
        how_text_.clear();
    }
    part(What::stitches, line);
    return true;
}

bool DocumentReader::make_up(std::string meaning, Definition& definition) {
    // "(skip 1 st, dc in next st, dc in skipped st = X made)"
    if (meaning.ends_with("made)"))
        if (const auto sign = meaning.rfind('='); sign != std::string::npos)
            meaning = meaning.substr(0, sign) + ")";
    const bool placed = meaning.find("skip") != std::string::npos ||
                        meaning.find("sk ") != std::string::npos ||
                        meaning.find("miss ") != std::string::npos;
    if (placed && meaning.starts_with("(") && meaning.ends_with(")"))
        meaning = meaning.substr(1, meaning.size() - 2);
    // "(made in one st)", "in the same stitch" say where it goes, which the row says again.
    for (const std::string_view where :
         {" in same st",      " in the same st",     " in next st",       " in the next st",
          " in st indicated", " in st or sp",        " in sp or st",      " into next st",
          " into one st",     " into 1 st",          " into a st",        " in a st",
          " into same st",    " in one st",          " in 1 st",          " in the indicated st",
          " in indicated st", " in stitch",          " in same stitch",   " in the same stitch",
          " in next stitch",  " in the next stitch", " in same ch",       " in same space",
          " in same sp",      " in next sp",         " all in",           " in the stitch",
          " worked in",       " worked into",        " in the indicated", " in indicated",
          " into the",        " into indicated",     " as indicated",     " in place indicated",
          " in designated",   " in specified",       " in required"}) {
        const auto at = meaning.find(where);
        if (at != std::string::npos && at > 3 && !placed) meaning.resize(at);
    }
    while (!meaning.empty() && (meaning.back() == '.' || meaning.back() == ' ')) meaning.pop_back();
    if (meaning.ends_with(" all")) meaning.resize(meaning.size() - 4);
    if (meaning.starts_with("work ")) meaning.erase(0, 5);
    if (meaning.empty()) return false;
    if (document_.craft == Craft::knit) return knit_make_up(meaning, definition);
    Tokens tokens = tokens_of(meaning, 0, 1);
    if (!tokens.fault) {
        StitchBook book = *book_;
        std::vector<SetAside> said;
        read_phrases(tokens.tokens, book, NotationOptions{}, said);
        Grammar grammar(book, tokens.tokens, 0);
        const Body body = grammar.row();
        if (!grammar.fault() && body.unknown.empty() && body.aside.empty() && !body.items.empty()) {
            definition.stitch.of = meaning;
            definition.followed = true;
            return true;
        }
    }
    return false;
}

Document read_document(std::string_view text, const DocumentOptions& options) {
    return DocumentReader(text, options).run();
}

}  // namespace skeinfall::notation
