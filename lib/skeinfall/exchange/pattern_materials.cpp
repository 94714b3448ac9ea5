#include "skeinfall/exchange/pattern_materials.hpp"

#include <algorithm>
#include <optional>
#include <regex>
#include <utility>

#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/detail/amounts_in.hpp"
#include "skeinfall/exchange/yarn_words.hpp"

namespace skeinfall::exchange {
namespace {

using What = notation::DocumentPart::What;

/// The class that a line names by its number or by one or two words of the trade.
std::string class_in(const std::string& low) {
    static const std::regex numbered(
        R"((?:\bcategory|\bweight|\bsize|\bclass|#)\s*:?\s*#?([0-7])\s*(?:\)|yarn|weight|-|,|/|\]|$)|\(\s*#?([0-7])\s*(?:\)|yarn|weight))");
    std::smatch match;
    if (std::regex_search(low, match, numbered) && low.find("hook") == std::string::npos)
        return match[1].matched ? match[1].str() : match[2].str();
    std::vector<std::string> words;
    std::string word;
    for (const char c : low + " ") {
        if ((c >= 'a' && c <= 'z') || c == '-') {
            word += c;
        } else if (!word.empty()) {
            words.push_back(std::exchange(word, {}));
        }
    }
    for (const std::size_t length : {2U, 1U})
        for (std::size_t i = 0; i + length <= words.size(); ++i) {
            const std::string name = length == 2 ? words[i] + " " + words[i + 1] : words[i];
            if (const auto known = parse_class(name)) return std::to_string(known->number);
        }
    return {};
}

/// "Color A", "MC", "Contrast B" as the id of a project's yarn; empty for a line that has none.
std::string id_in(const std::string& low) {
    static const std::regex lettered(
        R"(\b(?:colou?r|yarn|contrast|contrasting colou?r|cc)\s*([a-f]|[1-9])(?![a-z0-9]))");
    static const std::regex main(R"(\b(?:mc|main colou?r)\b)");
    static const std::regex contrast(R"(\b(?:cc|contrast(?:ing)?(?: colou?r)?)\b)");
    std::smatch match;
    if (std::regex_search(low, main)) return "MC";
    if (std::regex_search(low, match, lettered)) {
        const char mark = match[1].str().front();
        const bool cc = match[0].str().starts_with("c") && match[0].str().starts_with("cc");
        const int place = mark >= 'a' ? mark - 'a' : mark - '1' + (cc ? 1 : 0);
        return place == 0 ? "MC" : "CC" + std::to_string(place);
    }
    return std::regex_search(low, contrast) ? "CC1" : "";
}

PatternYarn read_line(const std::string& text) {
    PatternYarn out;
    const std::string low = base::lower(text);
    out.said = text;
    out.id = id_in(low);
    out.weight_class = class_in(low);
    const detail::AmountsIn amounts = detail::amounts_in(text);
    out.grist = amounts.put_up;
    out.total = amounts.total;
    out.unclear = amounts.unclear;
    return out;
}

bool tells(const PatternYarn& yarn) {
    return !yarn.weight_class.empty() || !yarn.grist.empty() || !yarn.total.empty() || yarn.unclear;
}

/// Whether a line of materials is of a tool or a notion.
bool is_tool(const std::string& low) {
    for (const std::string_view word : {"hook", "needle", "scissors", "marker", "button", "eyes",
                                        "ribbon", "fiberfill", "stuffing", "zip", "elastic"})
        if (low.find(word) != std::string::npos && low.find("yarn:") == std::string::npos &&
            low.find("ball") == std::string::npos && low.find("skein") == std::string::npos)
            return true;
    return false;
}

/// An amount beside one that nobody understood is not all of it.
void leave_open(PatternYarn& yarn, const PatternYarn& other) {
    yarn.total.clear();
    yarn.unclear = true;
    yarn.said += "; " + other.said;
}

}  // namespace

std::vector<PatternYarn> yarns_of_pattern(const notation::Document& document) {
    std::vector<PatternYarn> out;
    for (const notation::DocumentPart& part : document.parts) {
        if (part.what != What::materials || is_tool(base::lower(part.text))) continue;
        PatternYarn one = read_line(part.text);
        if (!tells(one)) continue;
        if (one.id.empty() && !out.empty() && out.back().total.empty() != one.total.empty()) {
            // Several lines of one yarn.
            PatternYarn& last = out.back();
            if (last.weight_class.empty()) last.weight_class = one.weight_class;
            if (last.grist.empty()) last.grist = one.grist;
            if (last.total.empty()) last.total = one.total;
            if (one.unclear) leave_open(last, one);
            continue;
        }
        if (one.id.empty()) one.id = out.empty() ? "MC" : "CC" + std::to_string(out.size());
        const auto same = std::find_if(out.begin(), out.end(),
                                       [&](const PatternYarn& yarn) { return yarn.id == one.id; });
        if (same == out.end()) {
            out.push_back(std::move(one));
            continue;
        }
        if (same->weight_class.empty()) same->weight_class = one.weight_class;
        if (same->grist.empty()) same->grist = one.grist;
        if (same->total.empty()) same->total = one.total;
        if (one.unclear) leave_open(*same, one);
    }
    // "Worsted weight yarn" is said once for all of them.
    for (PatternYarn& yarn : out)
        if (yarn.weight_class.empty() && !out.empty()) yarn.weight_class = out.front().weight_class;
    return out;
}

}  // namespace skeinfall::exchange
