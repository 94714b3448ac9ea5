#include "skeinfall/exchange/pattern_materials.hpp"

#include <algorithm>
#include <optional>
#include <regex>
#include <utility>

#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/yarn_words.hpp"
#include "skeinfall/yarn/label_text.hpp"
#include "skeinfall/yarn/stated_total.hpp"

namespace skeinfall::exchange {
namespace {

using What = notation::DocumentPart::What;

/// A figure with its unit, as a project file writes it.
std::optional<std::string> figure(const std::string& text, const std::regex& form) {
    std::smatch match;
    if (!std::regex_search(text, match, form)) return std::nullopt;
    std::string unit = match[2].str();
    if (unit.starts_with("y"))
        unit = "yd";
    else if (unit.starts_with("m"))
        unit = "m";
    else if (unit.starts_with("g"))
        unit = "g";
    else
        unit = "oz";
    return match[1].str() + " " + unit;
}

const std::regex& length_form() {
    static const std::regex form(
        R"((\d+(?:\.\d+)?)\s*(yds?|yards?|metres?|meters?|mtrs?|m)(?![a-z]))");
    return form;
}

const std::regex& mass_form() {
    static const std::regex form(R"((\d+(?:\.\d+)?)\s*(grams?|gr?|ounces?|oz)(?![a-z]))");
    return form;
}

/// The class that a line names by its number or by one or two words of the trade.
std::string class_in(const std::string& low) {
    static const std::regex numbered(
        R"((?:\bcategory|\bweight|\bsize|\bclass|#|\()\s*:?\s*#?([0-7])\s*(?:\)|yarn|weight|-|,|/|\]|$))");
    std::smatch match;
    if (std::regex_search(low, match, numbered) && low.find("hook") == std::string::npos)
        return match[1].str();
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
    static const std::regex counted(
        R"((\d+)\s*(?:x\s*)?(?:\([^)]*\)\s*)?(?:[a-z'-]+\s+){0,3}?(ball|skein|hank|cake|cone)s?\b)");
    static const std::regex graded(R"(\d+\s*[\(\[]\s*\d+(?:\s*[,:/-]\s*\d+)+\s*[\)\]])");
    PatternYarn out;
    const std::string low = base::lower(text);
    out.said = text;
    out.id = id_in(low);
    out.weight_class = class_in(low);
    const auto length = figure(low, length_form());
    const auto mass = figure(low, mass_form());
    std::smatch match;
    const bool skeins = std::regex_search(low, match, counted);
    const bool each = length && mass;  // a put-up tells both
    if (each && yarn::parse_put_up(*length + " / " + *mass)) out.grist = *length + " / " + *mass;
    if (std::regex_search(low, graded)) return out;
    if (skeins && length)
        out.total = match[1].str() + " " + match[2].str() + "s of " + *length;
    else if (skeins && mass)
        out.total = match[1].str() + " " + match[2].str() + "s of " + *mass;
    else if (length && !mass)
        out.total = *length;
    else if (mass && !length)
        out.total = *mass;
    if (!out.total.empty() && !yarn::parse_stated_total(out.total)) out.total.clear();
    return out;
}

bool tells(const PatternYarn& yarn) {
    return !yarn.weight_class.empty() || !yarn.grist.empty() || !yarn.total.empty();
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
    }
    // "Worsted weight yarn" is said once for all of them.
    for (PatternYarn& yarn : out)
        if (yarn.weight_class.empty() && !out.empty()) yarn.weight_class = out.front().weight_class;
    return out;
}

}  // namespace skeinfall::exchange
