// Which names of stitches a crochet pattern uses, US or UK, and which of them mean another stitch
// there.

#include <algorithm>
#include <array>
#include <cctype>
#include <cstddef>
#include <initializer_list>
#include <string>
#include <string_view>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/document_reader.hpp"

namespace skeinfall::notation {
namespace {

/// Small letters, every run of blanks and line ends one blank, blanks at both ends.
std::string one_line_of(std::string_view text) {
    std::string out = " ";
    for (const char c : base::lower(text)) {
        const bool blank = std::isspace(static_cast<unsigned char>(c)) != 0;
        if (blank && out.back() == ' ') continue;
        out += blank ? ' ' : c;
    }
    return out + " ";
}

bool holds(const std::string& text, Names names) {
    return std::any_of(names.begin(), names.end(),
                       [&](std::string_view name) { return text.find(name) != std::string::npos; });
}

/// Whether a stitch goes into one of these chains from the hook: "tr in the 4th ch".
bool into_chain(const std::string& text, std::string_view stitch, Names chains) {
    for (auto at = text.find(stitch); at != std::string::npos; at = text.find(stitch, at + 1)) {
        const char before = at == 0 ? ' ' : text[at - 1];
        if (letter(before)) continue;
        std::string_view rest = std::string_view(text).substr(at + stitch.size());
        const bool led = rest.starts_with(" in ") || rest.starts_with(" into ");
        if (!led) continue;
        rest.remove_prefix(rest.find(' ', 1) + 1);
        if (rest.starts_with("the ")) rest.remove_prefix(4);
        for (const std::string_view chain : chains)
            if (rest.starts_with(chain) && rest.substr(chain.size()).starts_with(" ch")) {
                // "in the 4th ch of the row below" is the top of what stands there
                const auto behind = words_of(rest.substr(chain.size(), 40));
                if (behind.size() > 1 && one_of(behind[1], {"of", "on", "at"})) continue;
                return true;
            }
    }
    return false;
}

/// "3 ch (counts as tr)", "ch 3 (counts as 1st dc)": whether so many chains stand for the stitch.
bool stands_for(const std::string& text, std::string_view chains, std::string_view stitch) {
    for (const std::string& lead :
         {std::string(chains) + " ch (counts as ", "ch " + std::string(chains) + " (counts as ",
          "ch" + std::string(chains) + " (counts as ", std::string(chains) + "ch (counts as ",
          std::string(chains) + " ch(as replacement for ",
          std::string(chains) + " ch (as replacement for ", std::string(chains) + " ch (replaces ",
          std::string(chains) + " ch (instead of ", std::string(chains) + " ch (to replace ",
          std::string(chains) + " ch (stands for "})
        for (auto at = text.find(lead); at != std::string::npos; at = text.find(lead, at + 1)) {
            auto rest = words_of(std::string_view(text).substr(at + lead.size(), 24));
            while (!rest.empty() && one_of(rest[0], {"a", "the", "first", "1st", "1", "one"}))
                rest.erase(rest.begin());
            if (!rest.empty() && rest[0] == stitch) return true;
        }
    return false;
}

/// "2 ch, then 6 dc into the first": such a short chain holds a UK dc.
bool two_chains_of_dc(const std::string& text) {
    for (const std::string_view lead : {" 2 ch", " 2ch", " ch 2", " ch2"})
        for (auto at = text.find(lead); at != std::string::npos; at = text.find(lead, at + 1)) {
            const auto words = words_of(std::string_view(text).substr(at + lead.size(), 60));
            for (std::size_t i = 0; i + 3 < words.size() && i < 6; ++i) {
                if (one_of(words[i], {".", "(", "sl", "join", "counts"})) break;
                const bool named =
                    words[i] == "dc" || (digit(words[i][0]) && words[i].ends_with("dc"));
                if (!named || !one_of(words[i + 1], {"in", "into"})) continue;
                const std::size_t first = words[i + 2] == "the" ? i + 3 : i + 2;
                if (first + 1 < words.size() && one_of(words[first], {"first", "1st"}) &&
                    one_of(words[first + 1], {"ch", "chain", "stitch", "st"}))
                    return true;
            }
        }
    return false;
}

bool plain_kind(std::string_view us) {
    return one_of(us, {"ch", "sl st", "sc", "hdc", "dc", "tr", "dtr", "trtr"});
}

/// Words that only add where and how long it holds.
bool adds_nothing(std::string_view word) {
    return one_of(
        word, {"an",     "a",        "the", "throughout", "here",    "in",     "this",   "pattern",
               "stitch", "stitches", "st",  "sts",        "instead", "only",   "always", ".",
               ",",      "!",        "all", "for",        "work",    "worked", "every",  "your"});
}

}  // namespace

/// A text of dc and tr alone does not name its terms; how they go into the chain may.
void DocumentReader::tell_terms() {
    if (document_.craft != Craft::crochet || options_->terms) return;
    const std::string all = one_line_of(text_);
    if (holds(all, {"uk term", "british term", "uk crochet term", "u.k. term", "us term",
                    "american term", "us crochet term", "u.s. term", "american crochet", "us - dc",
                    "usa format", "us format"}))
        return;
    std::int64_t us = 0;
    std::int64_t tall = 0;
    std::int64_t doubles = 0;
    for (const Line& line : lines_) {
        const auto words = words_of(line.text);
        for (std::size_t i = 0; i < words.size(); ++i) {
            std::string_view word = words[i];
            while (!word.empty() && digit(word.front())) word.remove_prefix(1);
            if (word.starts_with("sc") && (word.size() < 4 || digit(word[2]))) ++us;
            if (word.starts_with("hdc")) ++us;
            if (one_of(word, {"single", "half"}) && i + 1 < words.size() &&
                one_of(words[i + 1], {"crochet", "crochets", "double"}))
                ++us;
            if (one_of(word, {"tr", "trs", "treble", "trebles"})) ++tall;
            if (one_of(word, {"dc", "dcs"})) ++doubles;
        }
    }
    if (us > 0 || (tall == 0 && doubles == 0) || document_.terms == Terms::uk) return;
    const bool low_double = into_chain(all, "dc", {"2nd", "second"}) || two_chains_of_dc(all);
    const bool high_double =
        into_chain(all, "dc", {"3rd", "third", "4th", "fourth"}) || stands_for(all, "3", "dc");
    const bool low_treble = stands_for(all, "3", "tr") ||
                            into_chain(all, "tr", {"3rd", "third", "4th", "fourth"}) ||
                            into_chain(all, "treble", {"3rd", "third", "4th", "fourth"});
    const bool high_treble = into_chain(all, "tr", {"5th", "fifth"}) || stands_for(all, "4", "tr");
    const bool british = holds(all, {" miss ", " tension", "yrh ", "british"});
    const bool american =
        holds(all, {" skip ", " sk ", " gauge", "worsted", " color", "american", " us "});
    if (!high_double && !high_treble && (low_double || low_treble || (tall > 0 && british))) {
        document_.terms = Terms::uk;
        told_.push_back({project::Severity::ok,
                         {},
                         fmt::format("in UK terms, since {}; say where it is in US terms",
                                     low_treble   ? "3 chains stand for its tr"
                                     : low_double ? "its dc goes into the 2nd chain"
                                                  : "it has British words and never says sc"),
                         ""});
        return;
    }
    if (high_double) return;
    const bool open = tall > 0 && !american && !high_double && !high_treble;
    told_.push_back(
        {open ? project::Severity::caution : project::Severity::ok,
         {},
         "in US terms, though no name of a stitch here is of one country only; in UK terms dc and "
         "tr are shorter",
         open ? "Where the pattern is British or Australian, say that it is in UK terms." : ""});
}

/// "sc = extended single crochet", "Note: all sc are worked as extended sc": what its name means,
/// nothing for other lines. `fails`: it means something that is not known here.
std::optional<std::pair<std::string, std::string>> DocumentReader::redefines(
    const std::string& text, bool& fails) {
    const auto words = words_of(text);
    std::size_t name = words.size();
    std::size_t from = 0;
    bool told = false;
    if (const auto [at, size] = definition_sign(text); at > 0) {
        const auto before = words_of(text.substr(0, at));
        if (before.size() == 1 && book_->find(before[0])) {
            name = 0;
            from = before.size() + words_of(text.substr(at, size)).size();
        }
    }
    for (std::size_t i = 1; i < words.size() && name == words.size(); ++i) {
        const bool means = words[i] == "means" || words[i] == "mean";
        const bool as = words[i] == "as" && one_of(words[i - 1], {"worked", "work", "made"});
        const bool stands = words[i] == "for" && one_of(words[i - 1], {"stands", "stand"});
        if (!means && !as && !stands) continue;
        for (std::size_t before = i; before-- > 0 && before + 8 > i;)
            if (book_->find(words[before]) && !one_of(words[before], {"work", "st", "sts"})) {
                name = before;
                break;
            }
        if (name == words.size()) return std::nullopt;
        from = i + 1;
        told = true;
    }
    if (name == words.size() || !letter(words[name][0])) return std::nullopt;
    const KindId own = book_->find(words[name])->kind;
    std::string meaning;
    for (std::size_t i = from; i < words.size() && words[i] != "("; ++i) {
        if (told && one_of(words[i], {".", ";", ","})) break;
        if (!adds_nothing(words[i])) meaning += (meaning.empty() ? "" : " ") + words[i];
    }
    const auto found = book_->find(meaning);
    fails = told && !found && !meaning.empty() && !has_number(words_of(meaning));
    if (!found || found->kind == own || plain_kind(book_->at(found->kind).name) ||
        book_->varies(words[name]))
        return std::nullopt;
    return std::pair(words[name], book_->at(found->kind).written);
}

void DocumentReader::take_redefined() {
    if (document_.craft != Craft::crochet) return;
    for (std::size_t i = 0; i < lines_.size(); ++i) {
        const auto its = words_of(lines_[i].text);
        if (its.empty() || row_words(its) > 0 || bare_number(its)) continue;
        bool fails = false;
        const auto found = redefines(lines_[i].text, fails);
        if (!found) continue;
        for (std::size_t other = 0; other < lines_.size(); ++other)
            if (other != i) rename(lines_[other], found->first, found->second);
        base::Place place;
        place.file = options_->file;
        place.line = lines_[i].number;
        place.column = 1;
        told_.push_back({project::Severity::ok, place,
                         fmt::format("\"{}\" of the rows is {}, as the pattern says",
                                     base::shown_inert(found->first), found->second),
                         ""});
        lines_[i].told = true;
    }
}

/// The word, also behind a number and before one, in the lines that work with it.
void DocumentReader::rename(Line& line, const std::string& name, const std::string& meant) {
    for (std::size_t at = 0; at + name.size() <= line.text.size(); ++at) {
        const std::size_t end = at + name.size();
        if ((at > 0 && letter(line.text[at - 1])) ||
            (end < line.text.size() && letter(line.text[end])) ||
            base::lower(line.text.substr(at, name.size())) != name)
            continue;
        const std::size_t place = line.from[at];
        line.text.replace(at, name.size(), meant);
        line.from.erase(line.from.begin() + static_cast<std::ptrdiff_t>(at),
                        line.from.begin() + static_cast<std::ptrdiff_t>(end));
        line.from.insert(line.from.begin() + static_cast<std::ptrdiff_t>(at), meant.size(), place);
        at += meant.size();
    }
}

/// What was told of the whole text stands with the first row.
void DocumentReader::tell_beside_rows() {
    if (told_.empty() || document_.sections.empty()) return;
    for (Section& section : document_.sections) {
        if (section.readings.empty()) continue;
        for (project::Finding& finding : told_) {
            if (finding.place.line == 0) {
                finding.place.file = options_->file;
                finding.place.line = section.reading_lines.front();
                finding.place.column = 1;
            }
            section.readings.front().findings.push_back(finding);
        }
        return;
    }
}

/// "V-st in next st" where nothing says what that is: (dc, ch 1, dc), as it mostly is, told.
void DocumentReader::take_usual_stitches() {
    if (document_.craft != Craft::crochet) return;
    for (const std::string_view name : {"v-st", "v-stitch", "vst"}) {
        if (book_->find(name)) continue;
        const auto names = [&](const Line& line) {
            const std::string low = base::lower(line.text);
            const auto at = low.find(name);
            return at != std::string::npos && (at == 0 || !letter(low[at - 1]));
        };
        const auto own = [&](const Line& line) {  // "V-st of (dc, ch 2, dc)", "- V st made"
            const std::string low = base::lower(line.text);
            return low.find("v-st made") != std::string::npos ||
                   low.find("v-stitch made") != std::string::npos ||
                   low.find(std::string(name) + " of") != std::string::npos ||
                   low.find(std::string(name) + " (") != std::string::npos ||
                   low.find("(" + std::string(name)) != std::string::npos;
        };
        bool used = false;
        bool said = false;
        for (const Pending& pending : pending_)
            for (const Line& line : pending.lines) {
                used = used || names(line);
                said = said || own(line);
            }
        if (!used || said) continue;
        Definition definition;
        definition.stitch.name = std::string(name);
        definition.stitch.of = document_.terms == Terms::us ? "(dc, ch 1, dc)" : "(tr, ch 1, tr)";
        definition.meaning = definition.stitch.of;
        definition.followed = true;
        Stitch stitch;
        stitch.name = definition.stitch.name;
        if (!book_->add(stitch)) continue;
        base::Place place;
        place.file = options_->file;
        place.line = pending_.empty() ? 0 : pending_.front().section.line;
        told_.push_back({project::Severity::caution, place,
                         "\"" + definition.stitch.name + "\" is taken as " + definition.stitch.of +
                             ", as nothing says what it is",
                         "Write it above the rows, like: V-st = (dc, ch 2, dc) in next st."});
        document_.definitions.push_back(std::move(definition));
    }
}

}  // namespace skeinfall::notation
