#include "lasting_words.hpp"

#include <array>
#include <regex>
#include <string_view>
#include <utility>

#include "skeinfall/base/text.hpp"
#include "skeinfall/units/format.hpp"
#include "skeinfall/units/parse.hpp"

#include "options.hpp"
#include "share_option.hpp"

namespace skeinfall::cli {
namespace {

std::string singular(std::string word) {
    word = base::lower(word);
    if (word == "rnds" || word == "rnd" || word == "rounds") return "round";
    if (word == "sts" || word == "st" || word == "stitches") return "stitch";
    if (word.size() > 2 && word.ends_with("s")) word.pop_back();
    return word;
}

/// "812 sq in", "64 x 64 in", in the unit of what was worked where that is known.
std::optional<Count> area_of(const std::string& text, const std::string& word) {
    static const std::regex squares(
        R"(^(\d[\d.,]*)\s*(?:sq\.?|square)\s*(in|inch|inches|cm|centimetres|centimeters)\.?$)",
        std::regex::icase);
    static const std::regex sides(
        R"(^(\d[\d.,]*)\s*([A-Za-z]+)?\s*(?:x|by)\s*(\d[\d.,]*)\s*([A-Za-z]+)(?:\s+\(?flat\)?)?$)",
        std::regex::icase);
    const std::string plain(base::trimmed(text));
    if (plain.size() > 60) return std::nullopt;
    std::smatch found;
    std::string unit;
    std::optional<units::Area> area;
    if (std::regex_match(plain, found, squares)) {
        unit = base::lower(found[2].str()).starts_with("c") ? "cm" : "in";
        const auto across = units::parse_length(found[1].str() + " " + unit);
        if (across) area = *across * (unit == "cm" ? 1.0 * units::centimetre : 1.0 * units::inch);
    } else if (std::regex_match(plain, found, sides)) {
        const std::string last = found[4];
        const auto across =
            units::parse_length(found[1].str() + " " + (found[2].matched ? found[2].str() : last));
        const auto up = units::parse_length(found[3].str() + " " + last);
        if (!across || !up) return std::nullopt;
        area = *across * *up;
        unit = base::lower(last).ends_with("m") ? "cm" : "in";
    }
    if (!area) return std::nullopt;
    if (is_area(word)) unit = word.substr(3);
    const units::Length side = unit == "cm" ? 1.0 * units::centimetre : 1.0 * units::inch;
    return Count{units::Ratio(*area / (side * side)), "sq " + unit};
}

/// "half", "3/5", "two thirds".
std::optional<units::Ratio> fraction_done(const std::string& text) {
    static const std::regex form(R"(^(\d{1,4})\s*/\s*(\d{1,4})$)");
    static constexpr std::array<std::pair<std::string_view, double>, 9> words{
        {{"half", 1.0 / 2},
         {"a half", 1.0 / 2},
         {"a third", 1.0 / 3},
         {"one third", 1.0 / 3},
         {"two thirds", 2.0 / 3},
         {"a quarter", 1.0 / 4},
         {"one quarter", 1.0 / 4},
         {"three quarters", 3.0 / 4},
         {"half way", 1.0 / 2}}};
    std::string low = base::lower(text);
    if (low.ends_with(" of it")) low.resize(low.size() - 6);
    std::smatch found;
    if (std::regex_match(low, found, form)) {
        const auto above = units::parse_whole(found[1].str());
        const auto below = units::parse_whole(found[2].str());
        if (above && below && *below > 0)
            return units::Ratio(static_cast<double>(*above) / static_cast<double>(*below));
    }
    for (const auto& [word, share] : words)
        if (low == word) return units::Ratio(share);
    return std::nullopt;
}

}  // namespace

bool is_height(const std::string& word) {
    return word == "cm" || word == "in";
}

bool is_area(const std::string& word) {
    return word.starts_with("sq ");
}

std::string plural(const std::string& word) {
    if (is_height(word) || is_area(word)) return word;
    return word + (word.ends_with("ch") ? "es" : "s");
}

std::optional<Count> count_of(const std::string& text) {
    static const std::regex form(R"(^(\d+(?:[.,]\d+)?)\s*([A-Za-z]+|%)$)");
    // "another 24 rows", "24 more rows", "24 rows to go"
    static const std::regex still(
        R"(^(?:another|some|still|the last|the other)\s+(?=\d)|\b(?:more|further|other)\s+(?=[A-Za-z]+$)|\s+(?:more|left|to go|to come|still to work|remaining)$)",
        std::regex::icase);
    std::smatch found;
    if (text.size() > 60) return std::nullopt;
    const std::string plain = std::regex_replace(std::string(base::trimmed(text)), still, "");
    if (!std::regex_match(plain, found, form)) return std::nullopt;
    if (units::parse_mass(plain) || units::parse_length(plain)) return std::nullopt;
    const std::string number = found[1];
    const auto share = units::parse_percent(number + " %");
    if (!share) return std::nullopt;
    const double value = share->value() * 100.0;
    if (value > static_cast<double>(most_units)) return std::nullopt;
    const std::string word = found[2];
    if (word == "%") return Count{units::Ratio(value / 100.0), "%"};
    return Count{units::Ratio(value), singular(word)};
}

std::optional<Count> height_of(const std::string& text, const std::string& word) {
    const auto length = units::parse_length(std::string(base::trimmed(text)));
    if (!length) return std::nullopt;
    static const std::regex imperial(R"(\d\s*(?:"|in\b|inch|ft\b|feet\b|foot\b|yds?\b|yard))",
                                     std::regex::icase);
    const bool inches = word.empty() ? std::regex_search(text, imperial) : word == "in";
    return Count{units::Ratio(*length / (inches ? units::inch : units::centimetre)),
                 inches ? "in" : "cm"};
}

std::optional<Count> work_of(const std::string& text) {
    if (auto area = area_of(text, {})) return area;
    if (auto height = height_of(text)) return height;
    return count_of(text);
}

std::optional<Count> area_to_come(const std::string& text, const std::string& word,
                                  units::Ratio done) {
    static const std::regex until(R"(^(?:until|till|up to|to)\s+(?=\d))", std::regex::icase);
    const std::string plain(base::trimmed(text));
    const std::string size = std::regex_replace(plain, until, "");
    auto area = area_of(size, word);
    if (area && size != plain) area->count -= done;
    if (area && !(area->count > units::Ratio(0.0)))
        refuse_option("to-come", base::quoted(text) + " is no more than what is done",
                      "the size it is to have", "");
    return area;
}

std::string without_name_of_finish(const std::string& part) {
    static const std::regex before(
        R"(^(?:(?:an?|the)\s+)?(?!(?:twice|double|triple|thrice|both|two|three|four)\b)[A-Za-z][A-Za-z -]*?(?:\s+of|:)?\s+(\d.*)$)",
        std::regex::icase);
    static const std::regex behind(R"(^(\d.*?)\s+for\s+(?:(?:an?|the)\s+)?[A-Za-z][A-Za-z -]*$)",
                                   std::regex::icase);
    constexpr std::size_t longest = 60;
    if (part.size() > longest) return part;
    return std::regex_replace(std::regex_replace(part, before, "$1"), behind, "$1");
}

units::Ratio share_done(const std::string& text) {
    static const std::regex counted(
        R"(^(\d[\d.,]*)\s*[A-Za-z]*\s+(?:of|out of|/)\s+(\d[\d.,]*)\s*[A-Za-z]*$)");
    std::smatch found;
    const std::string plain(base::trimmed(text));
    if (plain.size() <= 60 && std::regex_match(plain, found, counted)) {
        const auto worked = units::parse_percent(found[1].str() + " %");
        const auto all = units::parse_percent(found[2].str() + " %");
        if (worked && all && *all > units::Ratio(0.0)) return units::Ratio(*worked / *all);
    }
    if (const auto part = fraction_done(plain)) return *part;
    // "0.75" is three quarters or less than one in a hundred.
    if (const auto part = units::parse_percent(plain + " %"); part && *part < units::Ratio(0.01))
        refuse_option(
            "done", base::quoted(plain) + " may be a share or a percentage",
            "a share or a count, such as \"77 %\" or \"30 of 50 rows\"",
            "Write --done \"" +
                units::percent_text(100.0 * *part, units::Step::tenth, units::Rounding::nearest) +
                "\".");
    return share_option("done", text, "a share or a count, such as \"77 %\" or \"30 of 50 rows\"",
                        "77 %");
}

}  // namespace skeinfall::cli
