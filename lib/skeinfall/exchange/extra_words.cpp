#include <regex>
#include <string>
#include <string_view>

#include "skeinfall/base/letters.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/count_words.hpp"
#include "skeinfall/exchange/detail/sides.hpp"
#include "skeinfall/exchange/make_words.hpp"
#include "skeinfall/exchange/name_words.hpp"
#include "skeinfall/project/thing_words.hpp"
#include "skeinfall/units/parse.hpp"

namespace skeinfall::exchange {
namespace {

using detail::no_such;

const char* const extra_forms = "\"edging 30 yd\" or \"border of 2 rounds of 180 sts\"";
constexpr auto icase = std::regex::icase;

/// "each", "in all", "per placemat" behind an amount, taken off the text.
void take_of(std::string& text, WrittenExtra& extra) {
    static const std::regex each(
        R"(\s*,?\s*\(?(?:each|apiece|(?:per|for each|for every)\s+(?:one|piece|copy)|for each)\)?$)",
        icase);
    static const std::regex per(
        R"(\s*,?\s*\(?(?:per|for each|for every|on each|to each)\s+([A-Za-z][A-Za-z -]*?)\)?$)",
        icase);
    static const std::regex all(
        R"(\s*,?\s*\(?(?:in all|in total|altogether|all together|for (?:all|both)(?: of (?:them|it))?|together|total)\)?$)",
        icase);
    std::smatch found;
    if (std::regex_search(text, found, each)) {
        extra.of = ExtraOf::each;
    } else if (std::regex_search(text, found, all)) {
        extra.of = ExtraOf::all;
    } else if (std::regex_search(text, found, per) && found.position(0) > 0) {
        extra.of = ExtraOf::each;
        extra.each_of = found[1];
    } else {
        return;
    }
    const std::string rest = found.prefix();
    text = rest;
}

/// "2 pompoms 10 m" as two of them.
void take_things(std::string& text, WrittenExtra& extra) {
    static const std::regex counted(
        R"(^(\d{1,4})\s+(?:x\s+)?([A-Za-z][A-Za-z -]*?[:,]?\s+.*\d.*)$)");
    const std::string in_figures = counted_in_figures(text);
    std::smatch found;
    if (!std::regex_match(in_figures, found, counted)) return;
    const std::string rest = found[2];
    const std::string first = rest.substr(0, rest.find(' '));
    if (units::parse_length("1 " + first) || units::parse_mass("1 " + first) ||
        detail::says_rows(first) || detail::says_stitches(first))
        return;
    extra.things = detail::whole(found[1]).value_or(1);
    text = rest;
}

/// "fringe 20 cm", "strap 1 m": as long as the thing itself, and no yarn.
bool is_a_size(const WrittenExtra& extra) {
    const auto length = units::parse_length(extra.yarn);
    if (!length) return false;
    static const std::regex of_a_tape(
        R"(\d\s*(?:mm|cm|dm|in|inch(?:es)?|ft|foot|feet|["']|millimet(?:re|er)s?|centimet(?:re|er)s?)\.?$)",
        icase);
    if (std::regex_search(extra.yarn, of_a_tape)) return true;
    constexpr double shortest = 4.0;  // metres; no cord or border takes less (a judgement)
    static const std::regex sewn(R"(\b(?:sew|seam|join|end|tail|weav))", icase);
    return *length < shortest * units::metre && !std::regex_search(extra.name, sewn) &&
           !project::speaks_of(extra.name, project::Thing::amount);
}

/// "edging 30 yd", "30 yd for the edging": its name and its yarn.
void take_yarn(const std::string& text, WrittenExtra& extra) {
    std::size_t at = 0;
    while (at < text.size() && !base::is_digit(text[at])) ++at;
    extra.name = std::string(base::trimmed(text.substr(0, at)));
    while (!extra.name.empty() && (extra.name.back() == ':' || extra.name.back() == ','))
        extra.name.pop_back();
    extra.yarn = text.substr(at);
    if (!extra.name.empty()) return;
    static const std::regex behind(
        R"(^(\d[\d.,/ ]*\s*[A-Za-z"']+)\s+(?:for\s+|of\s+)?(?:the\s+|an?\s+)?([A-Za-z].*)$)");
    std::smatch found;
    if (std::regex_match(text, found, behind)) {
        extra.yarn = found[1];
        extra.name = found[2];
    } else {
        extra.name = extra.each_of.empty() ? "extra" : extra.each_of;
    }
}

}  // namespace

base::Result<WrittenExtra> parse_extra(std::string_view given) {
    std::string text(base::trimmed(plain_signs(given)));
    if (text.size() > detail::longest_answer) return no_such(given, "an extra", extra_forms);
    WrittenExtra out;
    take_of(text, out);
    take_things(text, out);
    static const std::regex of_yarn(R"(\s+(?:of\s+)?(?:the\s+)?yarn$)", icase);
    const std::string bare = std::regex_replace(text, of_yarn, "");
    const bool says_yarn = bare != text;
    text = bare;
    static const std::regex rounds(
        R"(^([A-Za-z][A-Za-z ]*?)(?:\s+of|:|,)?\s+(\d+)\s+(?:rounds?|rows?)\s+(?:of|x|with)\s+(\d+)\s+([A-Za-z]+)$)",
        icase);
    std::smatch found;
    const bool many = out.things > 1 && out.of == ExtraOf::unsaid;
    if (std::regex_match(text, found, rounds)) {
        out.name = found[1];
        if (many || (says_how_many(out.name) && out.of == ExtraOf::unsaid))
            return no_such(given, "an extra", extra_forms, "Give each a line of its own.");
        out.rounds = detail::whole(found[2]).value_or(0);
        out.stitches = detail::whole(found[3]).value_or(0);
        if (!detail::says_stitches(found[4])) out.stitch = found[4];
        if (out.rounds > 0 && out.stitches > 0) return out;
        return no_such(given, "an extra", extra_forms);
    }
    take_yarn(text, out);
    if (out.name.ends_with('-'))
        return no_such(given, "an extra", extra_forms, "No yarn is less than none.");
    if (!units::parse_length(out.yarn) && !units::parse_mass(out.yarn))
        return no_such(given, "an extra", extra_forms,
                       units::parse_length(out.yarn).problem().remedy);
    if (many || (says_how_many(out.name) && out.of == ExtraOf::unsaid))
        return no_such(given, "an extra",
                       "\"" + out.name + " " + out.yarn + " in all\" or \"" + out.name + " " +
                           out.yarn + " each\"",
                       "It may be the yarn of one or of all.");
    if (!says_yarn && is_a_size(out))
        return base::Problem{
            base::quoted(given) + " may be a size, and not how much yarn it takes",
            {},
            "an amount of yarn, \"" + out.name + " 10 yd\"",
            "Where it is the yarn, say so: \"" + out.name + " " + out.yarn + " of yarn\"."};
    return out;
}

}  // namespace skeinfall::exchange
