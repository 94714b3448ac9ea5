// How often a piece is made, where a sentence of its own beside the rows says it.

#include <algorithm>
#include <cstdint>

#include <fmt/format.h>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/notation/detail/document_reader.hpp"
#include "skeinfall/notation/detail/finish_lines.hpp"
#include "skeinfall/notation/detail/hooks_told.hpp"
#include "skeinfall/notation/detail/work_words.hpp"
#include "skeinfall/project/thing_words.hpp"

namespace skeinfall::notation {
namespace {

std::vector<std::string> without_signs(std::vector<std::string> words) {
    std::erase_if(words, [](const std::string& word) {
        return one_of(word, {".", ",", ":", "!", "(", ")", "[", "]", "-", "*"});
    });
    return words;
}

bool is_to_make(const std::string& word) {
    return one_of(word, {"make", "work", "knit", "crochet", "repeat"});
}

std::int64_t value_of_word(const std::string& word) {
    static constexpr std::string_view spelled[] = {"one",  "two", "three",  "four",
                                                   "five", "six", "seven",  "eight",
                                                   "nine", "ten", "eleven", "twelve"};
    for (std::size_t n = 0; n < std::size(spelled); ++n)
        if (word == spelled[n]) return static_cast<std::int64_t>(n) + 1;
    constexpr std::size_t most_figures = 3;
    if (!number(word) || word.size() > most_figures) return 0;
    return base::leading_number<std::int64_t>(word);
}

/// "Make 2.", "Make two alike.", "Make one more.": how many there are then; 0 where the sentence is
/// of something else.
std::int64_t made_times(const std::vector<std::string>& words) {
    if (words.size() < 2 || !is_to_make(words[0])) return 0;
    const std::int64_t count = value_of_word(words[1]);
    bool more = false;
    for (std::size_t i = 2; i < words.size(); ++i) {
        more = more || words[i] == "more";
        // "Make 19 more squares to create an afghan"
        if (i > 2 && words[i] == "to" && i + 1 < words.size() &&
            one_of(words[i + 1], {"create", "make", "form", "complete", "get", "have"}))
            break;
        if (!one_of(words[i],
                    {"of",    "these", "them",      "this",  "it",     "pieces", "piece",
                     "alike", "the",   "same",      "way",   "in",     "all",    "total",
                     "more",  "like",  "identical", "that",  "such",   "motifs", "squares",
                     "legs",  "arms",  "ears",      "wings", "petals", "leaves", "tentacles"}))
            return 0;
    }
    return count == 0 ? 0 : count + (more ? 1 : 0);
}

/// "Make another the same.", "Work second mitten to match.": one more of something.
bool says_another(const std::vector<std::string>& words) {
    if (words.size() < 2 || words.size() > 20 || !is_to_make(words[0])) return false;
    if (words.size() > 2 && words[1] == "a" && words[2] == "note") return false;
    // "Repeat the 2nd row throughout."
    if (std::any_of(words.begin(), words.end(), [](const std::string& word) {
            return one_of(word, {"row", "rows", "rnd", "round"});
        }))
        return false;
    return std::any_of(words.begin(), words.end(), [](const std::string& word) {
        return one_of(word, {"second", "2nd", "other", "another", "twice", "remaining"});
    });
}

/// "Make two." among the materials.
bool only_counts(const DocumentPart& part) {
    const auto words = without_signs(words_of(base::lower(part.text)));
    return part.what == DocumentPart::What::materials && words.size() < 5 && made_times(words) > 1;
}

/// A thumb that is picked up from the piece above it.
bool grows_from_piece(const Section& section) {
    const auto words = words_of(base::lower(section.name));
    return !section.readings.empty() &&
           base::lower(section.readings.front().words).find("pick up") != std::string::npos &&
           std::any_of(words.begin(), words.end(), [](const std::string& word) {
               return one_of(word, {"thumb", "thumbs", "finger", "fingers", "pinky", "pinkie",
                                    "forefinger", "heel", "afterthought"});
           });
}

void take_times(Section& section, std::int64_t times, const std::string& like,
                const std::string& file) {
    section.times = times;
    if (section.readings.empty()) return;
    base::Place place;
    place.file = file;
    place.line = section.line;
    const std::string name = section.name.empty() ? "this piece" : "\"" + section.name + "\"";
    section.readings.front().findings.push_back(
        {project::Severity::ok, place,
         base::shown_inert(name) + " is taken " + std::to_string(times) + " times, as often as " +
             base::shown_inert(like.empty() ? "the piece with it" : "\"" + like + "\""),
         "If it is made another number of times, write that behind its name, like: (make 1)."});
}

/// "Sleeves": two of them as a rule, and nothing says so.
void ask_whether_a_pair(Section& section, const std::string& file) {
    const auto words = words_of(base::lower(section.name));
    if (section.times != 1 || section.readings.empty() || words.empty() || words.size() > 3 ||
        !project::is_thing(words.back(), project::Thing::pair) || !words.back().ends_with('s'))
        return;
    base::Place place;
    place.file = file;
    place.line = section.line;
    section.readings.front().findings.push_back(
        {project::Severity::caution, place,
         "\"" + base::shown_inert(section.name) + "\" is made once here, and may be two",
         "Write how many there are behind its name, like: (make 2)."});
}

bool carries_counts(What what) {
    return what == What::remark || what == What::notes || what == What::finishing ||
           what == What::may_work || what == What::size;
}

}  // namespace

void DocumentReader::name_section(Section& section) const {
    std::int64_t times = times_said(section.name);
    if (times == 0) times = pieces_in_heading(section.name);
    if (times > 0) section.times = times;
    while (!section.name.empty() && (section.name.back() == ':' || section.name.back() == ' '))
        section.name.pop_back();
    // "PATTERN:", "Rows Instructions", "Let's begin!" lead to the rows and name no piece.
    const auto words = words_of(section.name);
    const auto leads = std::find_if(words.rbegin(), words.rend(),
                                    [](const std::string& word) { return letter(word[0]); });
    if (leads != words.rend() && document_.craft == Craft::crochet &&
        one_of(*leads, {"pattern", "instructions", "instruction", "directions", "begin", "start",
                        "started", "tips", "enjoy", "everyone", "follows"}))
        section.name.clear();
}

void DocumentReader::ask_how_often(Section& section) const {
    const auto words = words_of(base::lower(section.name));
    if (section.readings.empty() || words.size() < 4 || times_said(section.name) > 0) return;
    const std::size_t last = words.size() - 1;
    if (words[last] != ")" || !number(words[last - 1]) || words[last - 2] != "(") return;
    base::Place place;
    place.file = options_->file;
    place.line = section.line;
    section.readings.front().findings.push_back(
        {project::Severity::caution, place,
         fmt::format("\"{}\": {} is taken for a count, so the piece is made once",
                     base::shown_inert(section.name), words[last - 1]),
         fmt::format("If it is made so often, write: (make {}).", words[last - 1])});
}

/// The section that a line is about: that above it, or the next one where a heading of that
/// stands between them.
Section* DocumentReader::section_of(std::size_t line) {
    Section* before = nullptr;
    Section* next = nullptr;
    for (Section& section : document_.sections) {
        if (section.line <= line)
            before = &section;
        else if (next == nullptr)
            next = &section;
    }
    if (before == nullptr) return document_.sections.size() == 1 ? next : nullptr;
    const std::size_t last =
        before->reading_lines.empty() ? before->line : before->reading_lines.back();
    const bool headed =
        std::any_of(document_.parts.begin(), document_.parts.end(), [&](const DocumentPart& part) {
            return part.what == What::heading && part.line > last && part.line < line;
        });
    return headed && next != nullptr ? next : before;
}

void DocumentReader::count_pieces() {
    const auto take = [&](const std::string& text, std::size_t line) {
        const auto words = without_signs(words_of(base::lower(text)));
        std::int64_t times = made_times(words);
        if (times == 0) times = pieces_in_heading(text);
        Section* const section = section_of(line);
        // "Make the second leg in the same way" of "Legs (make 2)"
        if (times == 0 && (says_more_is_worked(text) || speaks_of_strands(text))) return false;
        if (times == 0) return !says_another(words) || (section != nullptr && section->times == 2);
        if (section == nullptr || (section->times > 1 && section->times != times)) return false;
        section->times = times;
        return true;
    };
    for (std::size_t at = 0; at < document_.parts.size(); ++at) {
        DocumentPart& part = document_.parts[at];
        if ((!carries_counts(part.what) && !only_counts(part)) || counted_parts_.contains(at))
            continue;
        bool understood = true;
        for (const std::string& sentence : base::split(part.text, '.'))
            if (!base::trimmed(sentence).empty())
                understood = take(sentence, part.line) && understood;
        if (understood) continue;
        if (part.what != What::finishing) part.what = What::may_work;
        part.work = true;
    }
    for (std::size_t at = 0; at < document_.sections.size(); ++at) {
        const Section& section = document_.sections[at];
        std::vector<DocumentPart> open;
        for (std::size_t i = 0; i < section.readings.size(); ++i)
            for (const WordsAside& aside : section.readings[i].aside)
                if (!take(aside.words, section.reading_lines[i]))
                    open.push_back({What::may_work, aside.words, section.reading_lines[i], true});
        for (DocumentPart& part : open) document_.parts.push_back(std::move(part));
    }
    if (document_.craft == Craft::knit)
        count_with_thumbs();
    else
        tell_other_tools(document_, options_->file);
    for (Section& section : document_.sections) ask_whether_a_pair(section, options_->file);
    mark_finish(document_);
}

/// "Make 2." above or below "Thumb": the piece and the thumb that is picked up from it.
void DocumentReader::count_with_thumbs() {
    std::vector<Section>& all = document_.sections;
    for (std::size_t at = 1; at < all.size(); ++at) {
        if (!grows_from_piece(all[at])) continue;
        Section& before = all[at - 1];
        Section& thumb = all[at];
        if (thumb.times == 1 && before.times > 1 && times_said(thumb.name) == 0)
            take_times(thumb, before.times, before.name, options_->file);
        else if (before.times == 1 && thumb.times > 1 && times_said(thumb.name) == 0)
            for (std::size_t back = at; back-- > 0;) {
                if (all[back].times == 1)
                    take_times(all[back], thumb.times, thumb.name, options_->file);
                if (!grows_from_piece(all[back])) break;
            }
    }
}

}  // namespace skeinfall::notation
