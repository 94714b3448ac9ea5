#include <cstdint>
#include <optional>
#include <regex>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "skeinfall/base/letters.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/count_words.hpp"
#include "skeinfall/exchange/detail/amounts_in.hpp"
#include "skeinfall/exchange/detail/sides.hpp"
#include "skeinfall/exchange/make_words.hpp"
#include "skeinfall/project/stitches.hpp"
#include "skeinfall/units/parse.hpp"

namespace skeinfall::exchange {
namespace {

using base::is_digit;
using detail::no_such;
using detail::says_stitches;

/// "held double", "2 strands", "single strand": how many strands; nothing where none are spoken of.
std::optional<std::int64_t> strands_of_swatch(const std::string& part) {
    static const std::regex one(
        R"(^(?:with |in )?(?:a |one |1 )?(?:single|one|1)[\s-]*(?:strand(?:ed)?|thread)$)",
        std::regex::icase);
    if (std::regex_match(part, one)) return 1;
    if (!detail::says_strands_together(part)) return std::nullopt;
    static const std::regex counted(
        R"(^(?:worked |held |with )*(\d|two|three|four)[\s-]*strands?(?: held)?(?: together)?$)",
        std::regex::icase);
    static const std::regex twice(
        R"(^(?:worked |held |yarn |with )*(?:the |yarn )*(?:held )?(doubled?|triple)(?:[\s-]+(?:strand(?:ed)?|yarn))?$)",
        std::regex::icase);
    std::smatch found;
    if (std::regex_match(part, found, counted)) return spoken_number(found[1]);
    if (std::regex_match(part, found, twice))
        return base::lower(found[1].str()) == "triple" ? 3 : 2;
    return std::nullopt;
}

/// "20 stitches", "14 rows", "50 g before and 36 g after", "in sc": parts that stand alone.
bool take_part(const std::string& part, WrittenSwatch& out) {
    static const std::regex stitches(R"(^(\d{1,4})\s*(?:sts?|stitches)\.?(?:\s+wide)?$)",
                                     std::regex::icase);
    static const std::regex rows(R"(^(\d{1,4})\s*(?:rows?|rounds?|rnds?)(?:\s+high)?$)",
                                 std::regex::icase);
    static const std::regex used(
        R"(^(?:ball\s+)?(\d[\d.,]*\s*[A-Za-z]+)\s+before(?:\s*(?:and|,|/)?\s*|\s+)(\d[\d.,]*\s*[A-Za-z]+)\s+after(?:wards)?$)",
        std::regex::icase);
    std::smatch found;
    if (std::regex_match(part, found, stitches) && !out.stitches) {
        out.stitches = detail::whole(found[1]);
    } else if (std::regex_match(part, found, rows) && !out.rows) {
        out.rows = detail::whole(found[1]);
    } else if (std::regex_match(part, found, used) && units::parse_mass(found[1].str()) &&
               units::parse_mass(found[2].str()) && out.mass.empty() && out.before.empty()) {
        out.before = found[1];
        out.after = found[2];
        out.scale = step_of_reading(out.before);
    } else if (const auto strands = strands_of_swatch(part); strands && out.strands == 0) {
        out.strands = *strands;
    } else {
        return false;
    }
    return true;
}

/// A word alone that names a stitch of either craft.
bool is_stitch_alone(const std::string& part) {
    std::string low = base::lower(part);
    if (low.starts_with("uk ") || low.starts_with("us ")) low = base::trimmed(low.substr(3));
    for (const std::string_view fabric : {"stockinette", "stocking stitch", "garter",
                                          "garter stitch", "rib", "ribbing", "seed stitch"})
        if (low == fabric) return true;
    return project::stitch_kind(low, project::Craft::crochet, project::Terms::us).has_value() ||
           project::stitch_kind(low, project::Craft::crochet, project::Terms::uk).has_value() ||
           project::stitch_kind(low, project::Craft::knit, project::Terms::us).has_value();
}

/// "15 x 15 cm in sc" without its stitch, which goes to `stitch`.
std::string without_stitch(const std::string& part, std::string& stitch) {
    static const std::regex in_stitch(
        R"(^(.*\d\s*(?:cm|mm|in|inch|inches|"|g|gr|grams?|oz|yds?|m|rows?|rounds?|sts?|stitches))\s+(?:in|of)\s+([A-Za-z][A-Za-z ]*)$|^(?:in|of)\s+([A-Za-z][A-Za-z ]*)$)",
        std::regex::icase);
    std::smatch found;
    if (!std::regex_match(part, found, in_stitch)) return part;
    const std::string said = found[2].matched ? found[2] : found[3];
    if (!is_stitch_alone(said)) return part;
    stitch = said;
    return found[1];
}

base::Problem not_in_swatch(const std::string& part, const std::string& forms) {
    static const std::regex state(R"(\b(?:washed|blocked|unwashed|unblocked|dry|wet|steamed)\b)",
                                  std::regex::icase);
    return {base::quoted(part) + " is not understood in a swatch",
            {},
            forms,
            std::regex_search(part, state)
                ? "Leave it out: weigh it dry, and measure it as the finished piece will be."
                : "Give its size (with cm or in) or its counts, and its weight; \"in sc\" or \"2 "
                  "strands\" may follow."};
}

}  // namespace

std::string step_of_reading(std::string_view reading) {
    const std::string_view text = base::trimmed(reading);
    std::size_t end = text.size();
    while (end > 0 && !is_digit(text[end - 1])) --end;
    const std::string unit(base::trimmed(text.substr(end)));
    const std::string_view number = text.substr(0, end);
    const std::size_t mark = number.find_last_of(".,");
    std::string step = "1";
    if (number.find('/') != std::string_view::npos) {
        step = "0.25";
    } else if (mark != std::string_view::npos) {
        step = "0.";
        for (std::size_t i = mark + 2; i < number.size(); ++i) step += '0';
        step += '1';
    }
    return step + " " + unit;
}

base::Result<WrittenSwatch> parse_swatch(std::string_view given) {
    const std::string text(base::trimmed(plain_signs(given)));
    const std::string forms = "\"15 x 15 cm, 14 g\" or \"20 sts x 14 rows, 16.1 g\"";
    if (text.size() > detail::longest_answer) return no_such(given, "a swatch", forms);
    WrittenSwatch out;
    std::string decimals;
    std::vector<std::string> parts;
    for (std::string& part : base::split(text, ',')) {
        // "6,5 g": a comma between digits is a decimal mark.
        if (!parts.empty() && !part.empty() && is_digit(part.front()) && !parts.back().empty() &&
            is_digit(parts.back().back()) &&
            text.find(parts.back() + "," + part) != std::string::npos)
            parts.back() += "," + part;
        else
            parts.push_back(std::move(part));
    }
    static const std::regex weighs(R"(^(.*?)\s+(?:weighs?|takes?|took|=|at)\s+(\d.*)$)",
                                   std::regex::icase);
    // "15x15cm 14g"
    static const std::regex beside(
        R"(^(.*(?:cm|mm|in|inch|inches|"|sts?|stitches|rows?|square))\s+(\d[\d.,/ ]*(?:g|gr|grams?|oz|ounces?|m|yds?|yards?|met(?:re|er)s?))$)",
        std::regex::icase);
    std::vector<std::string> all;
    for (const std::string& part : parts) {
        std::smatch found;
        if (std::regex_match(part, found, weighs) || std::regex_match(part, found, beside)) {
            all.push_back(found[1]);
            all.push_back(found[2]);
        } else {
            all.push_back(part);
        }
    }
    std::string in_stitch;
    for (const std::string& given_part : all) {
        const std::string part = without_stitch(given_part, in_stitch);
        if (part.empty() || take_part(part, out)) continue;
        if (in_stitch.empty() && is_stitch_alone(part)) {
            in_stitch = part;
            continue;
        }
        if (const auto sides = detail::two_sides(part)) {
            auto [across, up] = *sides;
            if (across.rows()) std::swap(across, up);
            if (across.stitches() && up.rows()) {
                out.stitches = across.count;
                if (!says_stitches(across.word)) out.stitch = across.word;
                out.rows = up.count;
                continue;
            }
            if (!across.length.empty() && !up.length.empty()) {
                out.width = across.length;
                out.height = up.length;
                continue;
            }
        } else if (units::parse_mass(part) && out.mass.empty()) {
            out.mass = part;
            out.scale = step_of_reading(part);
            continue;
        } else if (units::parse_length(part) && out.length.empty()) {
            out.length = part;
            continue;
        }
        return not_in_swatch(part, forms);
    }
    if (!in_stitch.empty() && !out.stitch.empty() && !base::same_word(in_stitch, out.stitch))
        return no_such(given, "a swatch", forms, "It names two stitches: give one.");
    if (!in_stitch.empty()) out.stitch = in_stitch;
    if (out.stitches.has_value() != out.rows.has_value())
        return no_such(given, "a swatch", forms, "Count both its stitches and its rows.");
    if (!out.before.empty() && (!out.mass.empty() || !out.length.empty()))
        return no_such(given, "a swatch", forms, "Its yarn is given twice: give it once.");
    if (out.mass.empty() && out.length.empty() && out.before.empty())
        return no_such(given, "a swatch", forms,
                       "Weigh it without needles, or unravel it and measure its yarn.");
    if (!out.stitches && out.width.empty())
        return no_such(given, "a swatch", forms, "Count its stitches and rows, or measure it.");
    return out;
}

}  // namespace skeinfall::exchange
