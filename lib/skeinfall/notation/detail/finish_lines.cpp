#include "skeinfall/notation/detail/finish_lines.hpp"

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "skeinfall/base/text.hpp"
#include "skeinfall/data/finish_words.hpp"

namespace skeinfall::notation {
namespace {

bool has_role(std::string_view word, std::string_view role) {
    return std::any_of(data::finish_words.begin(), data::finish_words.end(),
                       [&](const auto& row) { return row.word == word && row.role == role; });
}

std::vector<std::string> plain_words(std::string_view sentence) {
    std::vector<std::string> out;
    std::string word;
    for (const char c : base::lower(sentence) + " ") {
        const bool within = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-' ||
                            static_cast<unsigned char>(c) >= 0x80;
        if (within)
            word += c;
        else if (!word.empty())
            out.push_back(std::exchange(word, {}));
    }
    return out;
}

bool makes_something(std::string_view sentence) {
    const std::vector<std::string> words = plain_words(sentence);
    const auto any = [&](std::string_view role) {
        return std::any_of(words.begin(), words.end(),
                           [&](const std::string& word) { return has_role(word, role); });
    };
    if (words.empty()) return false;
    // "Line the hat with a second piece.", and not "in line with the edge".
    if (words.front() == "line") return true;
    if (words.front() == "put" && std::find(words.begin(), words.end(), "marker") != words.end())
        return false;
    // "Tie into a bow.": of the ties there are
    if (words.front() == "tie" && words.back() == "bow") return false;
    if (any("alone")) return true;
    if (any("thing") && (any("makes") || any("brings"))) return true;
    // "Work a border round the edge", and not "the edge of the work".
    const auto makes = std::find_if(words.begin(), words.end(), [](const std::string& word) {
        return has_role(word, "makes");
    });
    return std::any_of(makes, words.end(),
                       [](const std::string& word) { return has_role(word, "edge"); });
}

}  // namespace

bool finish_takes_yarn(std::string_view text) {
    const std::size_t colon = text.find(':');
    if (colon != std::string_view::npos && colon + 2 < text.size()) {
        const std::vector<std::string> head = plain_words(text.substr(0, colon));
        if (!head.empty() && head.size() <= 3 &&
            (has_role(head.back(), "thing") || has_role(head.back(), "edge")))
            return true;
    }
    const std::vector<std::string> sentences = base::split(std::string(text), '.');
    return std::any_of(sentences.begin(), sentences.end(),
                       [](const std::string& sentence) { return makes_something(sentence); });
}

void mark_finish(Document& document) {
    using Kind = DocumentPart::What;
    std::size_t first = 0;
    for (const Section& section : document.sections)
        if (first == 0 || section.line < first) first = section.line;
    for (DocumentPart& part : document.parts) {
        const bool loose = part.what == Kind::remark || part.what == Kind::finishing;
        if (first == 0 || part.line <= first || !loose || part.work) continue;
        if (!finish_takes_yarn(part.text)) continue;
        part.what = Kind::finishing;
        part.work = true;
    }
}

}  // namespace skeinfall::notation
