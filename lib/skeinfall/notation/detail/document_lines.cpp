// Where a sentence ends in a line of rows, and which lines are headings.

#include <algorithm>
#include <cctype>
#include <cstdint>

#include "skeinfall/notation/detail/document_reader.hpp"

namespace skeinfall::notation {

bool DocumentReader::heading(const Line& line, const std::vector<std::string>& words) {
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

std::size_t DocumentReader::sentence_end(const Line& line, bool labelled) {
    if (document_.craft != Craft::knit) return 0;
    const std::string& text = line.text;
    std::int64_t depth = 0;
    bool star = false;
    for (std::size_t i = 0; i + 2 < text.size(); ++i) {
        if (text[i] == '(' || text[i] == '[') ++depth;
        if (text[i] == ')' || text[i] == ']') --depth;
        if (text[i] == '*') star = !star;
        if (text[i] != '.' || text[i + 1] != ' ' || depth > 0) continue;
        std::size_t next = i + 1;
        while (next < text.size() && text[next] == ' ') ++next;
        if (next >= text.size() || std::isupper(static_cast<unsigned char>(text[next])) == 0)
            continue;
        const auto words = words_of(std::string_view(text).substr(next));
        if (words.empty()) continue;
        if (one_of(words[0], {"rep", "repeat"}) &&
            (words.size() < 2 ||
             one_of(words[1],
                    {"from", "between", "*", "around", "across", "to", "(", "once", "twice"}) ||
             number(words[1])))
            continue;
        if (labelled) {
            // Behind a row only what tells of several rows is no part of it.
            const auto stop = text.find(". ", next);
            const auto sentence = words_of(std::string_view(text).substr(
                next, stop == std::string::npos ? stop : stop - next));
            const bool rows = std::any_of(sentence.begin(), sentence.end(), [](const auto& w) {
                return one_of(w, {"until", "rows", "rounds", "rnds", "inches", "cm"});
            });
            if (!rows || !begins_work(words) || one_of(words[0], {"fasten", "break", "cut"}))
                continue;
        }
        return i + 1;
    }
    return 0;
}

}  // namespace skeinfall::notation
