// Which lines are headings.

#include <algorithm>
#include <cctype>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/notation/detail/document_reader.hpp"

namespace skeinfall::notation {

namespace {

/// Where "(multiple of 2 sts)", "(over an even number of sts)", "(both alike)" begins.
std::size_t behind_name(const std::string& text) {
    for (const std::string_view mark :
         {" (mult", " (over a", " (worked over", " (odd num", " (even num", " (any num",
          " (worked on", " (both alike", " (both the same", " (make both", " (panel"})
        if (const auto open = text.find(mark);
            open != std::string::npos && text.find(')', open) + 3 > text.size())
            return open;
    return std::string::npos;
}

/// "Sleeves", "Left Front": a part of the make alone in its line.
bool names_part(const std::string& text, const std::vector<std::string>& words) {
    if (words.empty() || words.size() > 3 ||
        std::isupper(static_cast<unsigned char>(text[0])) == 0 ||
        !std::all_of(text.begin(), text.end(), [](char c) { return letter(c) || c == ' '; }))
        return false;
    return one_of(words.back(),
                  {"sleeve", "sleeves", "body",   "yoke",   "thumb",  "hand", "cuff",  "foot",
                   "leg",    "toe",     "heel",   "gusset", "crown",  "brim", "front", "neckband",
                   "collar", "hood",    "border", "edging", "arm",    "arms", "ear",   "ears",
                   "head",   "tail",    "legs",   "wing",   "wings",  "nose", "snout", "muzzle",
                   "beak",   "fin",     "fins",   "stem",   "petals", "leaf"}) &&
           std::none_of(words.begin(), words.end() - 1, [](const std::string& word) {
               return !one_of(word, {"left", "right", "shape", "second", "lower", "upper", "back",
                                     "heel", "thumb", "the", "top"});
           });
}

bool capitals_alone(const std::string& text) {
    return std::none_of(text.begin(), text.end(), [](char c) {
        return std::islower(static_cast<unsigned char>(c)) != 0 || digit(c);
    });
}

}  // namespace

bool DocumentReader::heading(const Line& line, const std::vector<std::string>& words) {
    // "Seed Stitch (multiple of 2 sts)", "Moss Stitch (over an even number of sts)"
    if (const auto open = behind_name(line.text); open != std::string::npos && open > 3) {
        Line name = line;
        name.text.resize(open);
        const auto of_name = words_of(name.text);
        return !of_name.empty() && of_name.size() < 6 && heading(name, of_name);
    }
    // "SLEEVES (make 2)"
    if (const auto open = line.text.find(" (");
        open != std::string::npos && open > 2 && open < 24 && line.text.back() == ')' &&
        times_said(line.text) > 1 && capitals_alone(line.text.substr(0, open)))
        return true;
    // "Body and legs (make two pieces the same)"
    if (const auto open = line.text.find(" (make "); open != std::string::npos && open > 3 &&
                                                     line.text.back() == ')' &&
                                                     line.text.size() < open + 40) {
        Line name = line;
        name.text.resize(open);
        const auto of_name = words_of(name.text);
        return (line.blank_before || of_name.size() < 3) && !of_name.empty() &&
               of_name.size() < 6 && std::isupper(static_cast<unsigned char>(name.text[0])) != 0 &&
               std::none_of(of_name.begin(), of_name.end(), number);
    }
    if (names_part(line.text, words)) return true;
    if (one_of(words[0], {"multiple", "multiples"}) && has_number(words)) return false;
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
    return letters > 0 && letter(line.text[0]) && capitals * 2 >= letters && words.size() <= 6 &&
           line.blank_before;
}

bool DocumentReader::numbered_steps(const std::vector<std::string>& words) {
    if (words.size() < 4 || words[0] != "1" || zone_ == What::abbreviations) return false;
    const std::vector<std::string> rest(words.begin() + 2, words.end());
    if (zone_ == What::materials && document_.craft == Craft::knit)
        return begins_base(rest) && has_number(rest);  // "1. Cast on 4 stitches."
    if (zone_ == What::materials)                      // "1. Ch 42."
        return document_.craft == Craft::crochet && one_of(rest[0], {"ch", "chain"}) &&
               number(rest[1]);
    const bool stitch = document_.craft == Craft::crochet && number(rest[0]) && rest.size() > 2 &&
                        begins_work(rest);
    return begins_base(rest) || stitch;
}

/// "Use pink yarn", "With orange yarn:", "Change to blue:": no name of a piece.
bool DocumentReader::names_yarn_alone(std::vector<std::string> words) const {
    if (document_.craft != Craft::crochet || words.empty()) return false;
    const bool colon = words.back() == ":";
    if (colon) words.pop_back();
    constexpr std::size_t most = 6;
    if (words.size() < 2 || words.size() > most || has_number(words)) return false;
    const bool led = one_of(words[0], {"use", "using", "with"});
    const bool changed = one_of(words[0], {"change", "switch"}) && words[1] == "to";
    const bool thing = one_of(words.back(), {"yarn", "wool", "thread", "color", "colour", "hook"});
    return ((led || changed) && (thing || colon)) || (words[0] == "in" && thing);
}

void DocumentReader::new_heading(const Line& line) {
    const auto words = words_of(line.text);
    if (names_yarn_alone(words)) return part(What::remark, line);  // "Use pink yarn" below "BODY"
    heading_ = line.text;
    heading_line_ = line.number;
    part(What::heading, line);
    zone_.reset();
}

}  // namespace skeinfall::notation
