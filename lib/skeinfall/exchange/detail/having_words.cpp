#include "skeinfall/exchange/detail/having_words.hpp"

#include <regex>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/detail/sides.hpp"
#include "skeinfall/project/thing_words.hpp"
#include "skeinfall/units/parse.hpp"

namespace skeinfall::exchange::detail {
namespace {

constexpr auto icase = std::regex::icase;

/// "2 balls of rust, 200 yd each", "2 rust balls of 200 yd": the colour behind, as in "2 balls of
/// 200 yd in rust".
std::string colour_behind(const std::string& text) {
    static const std::regex of_colour(
        R"(^(\d{1,3}\s+(?:skeins?|balls?|hanks?|cakes?))\s+(?:of|in)\s+([a-z]+),\s*(\d.*?)(?:\s+each)?$)",
        icase);
    static const std::regex before(
        R"(^(\d{1,3})\s+([a-z]+)\s+((?:skeins?|balls?|hanks?|cakes?)\s+(?:of|at)\s+\d.*)$)", icase);
    std::smatch found;
    // "4 skeins of worsted, 200 yards each" says its class in the same place.
    if (std::regex_match(text, found, of_colour))
        return found[1].str() + " of " + found[3].str() +
               (project::is_colour_word(found[2].str()) ? " in " : " of ") + found[2].str();
    if (std::regex_match(text, found, before) && project::is_colour_word(found[2].str()))
        return found[1].str() + " " + found[3].str() + " in " + found[2].str();
    return text;
}

/// "1 lb 4 oz" in ounces.
std::string in_ounces(const std::string& text) {
    static const std::regex pounds(
        R"(^(\d{1,3})\s*(?:lbs?|pounds?)\.?\s*,?\s*(?:and\s+)?(\d[\d.]*)\s*(?:oz|ounces?)\.?$)",
        icase);
    std::smatch found;
    if (!std::regex_match(text, found, pounds)) return text;
    const auto whole = units::parse_whole(found[1].str());
    const auto rest = units::parse_mass(found[2].str() + " oz");
    if (!whole || !rest) return text;
    const std::string ounces = found[2];
    const std::size_t point = ounces.find('.');
    const auto digits = point == std::string::npos ? 0 : ounces.size() - point - 1;
    const double all =
        16.0 * static_cast<double>(*whole) + units::Ratio(*rest / units::ounce).value();
    return fmt::format("{:.{}f} oz", all, digits);
}

}  // namespace

std::string usual_having(std::string text) {
    if (text.size() > longest_answer) return text;
    // What each of them says, in words that the reader has.
    static const std::vector<std::pair<std::regex, std::string>> forms = [] {
        const auto form = [](const char* from) { return std::regex(from, icase); };
        return std::vector<std::pair<std::regex, std::string>>{
            // of one lot is what yarn at hand is taken for
            {form(R"(,?\s*\(?(?:all\s+)?(?:of\s+)?(?:the\s+)?same\s+(?:dye\s*)?lot\)?$)"), ""},
            {form(
                 R"(^(\d{1,3}|an?|the|my)\s+(?:brand[\s-]?new|new|full|unopened|unused|untouched|whole|complete)\s+)"),
             "$1 "},
            {form(R"(^(?:an?\s+)?pair\s+of\s+(?=\d))"), "2 "},
            {form(R"(^(\d{1,3})\s*(?:x|\*|@)\s*(?=\d))"), "$1 x "},
            {form(R"(^(\d{1,3})\s+of\s+(?=\d))"), "$1 x "},
            {form(R"(^(\d{1,3}\s+)and\s+a\s+half\s+)"), "$1 1/2 "},
            {form(R"(^(\d{1,3}|an?)\s+(\d[\d.,]*)-(?=[a-z]))"), "$1 $2 "},
            {form(R"(^(\d[\d.,]*\s*(?:g|grams?|oz|ounces?))\s+(?:left|remaining)$)"), "$1"},
            // "3 50g balls of 120m", "3 x 50g of 100 m"
            {form(
                 R"(^(\d{1,3}|an?)\s+(\d[\d.,]*\s*(?:g|grams?|oz|ounces?))\s+(skeins?|balls?|hanks?|cakes?)\s+(?:of|at|with)\s+(\d[\d.,]*\s*[a-z]+)$)"),
             "$1 $3 of $2 / $4"},
            {form(
                 R"(^(\d{1,3}) x (\d[\d.,]*\s*(?:g|grams?|oz|ounces?))\s+(?:of|at)\s+(\d[\d.,]*\s*[a-z]+)$)"),
             "$1 x $2 / $3"},
            {form(
                 R"(^(?:1|an?)\s+(\d[\d.,]*\s*(?:g|grams?|oz|ounces?))\s+(skein|ball|hank|cake),\s*(\d[\d.,]*\s*[a-z]+)$)"),
             "1 $2 of $1 / $3"}};
    }();
    for (const auto& [from, to] : forms) text = std::regex_replace(text, from, to);
    return in_ounces(colour_behind(text));
}

std::vector<std::string> several_havings(const std::string& text) {
    // Behind a colour and a colon it may be of one colour or of several.
    if (text.size() > longest_answer || text.find(':') != std::string::npos) return {text};
    static const std::regex between(
        R"(\s*[+;&]\s*(?:and\s+)?(?=\d|an?\s|one\s|two\s|three\s)|,?\s+(?:and|plus)\s+(?=(?:\d{1,3}|an?|one|two|three|four|five|six)\s+(?:skeins?|balls?|hanks?|cones?|cakes?)\b))",
        icase);
    std::vector<std::string> out;
    for (std::sregex_token_iterator at(text.begin(), text.end(), between, -1), end; at != end; ++at)
        out.emplace_back(base::trimmed(at->str()));
    return out;
}

}  // namespace skeinfall::exchange::detail
