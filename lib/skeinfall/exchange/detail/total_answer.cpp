#include "skeinfall/exchange/detail/total_answer.hpp"

#include <cstdint>
#include <optional>
#include <regex>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/units/parse.hpp"
#include "skeinfall/yarn/put_up.hpp"
#include "skeinfall/yarn/stated_total.hpp"

namespace skeinfall::exchange::detail {
namespace {

[[noreturn]] void refuse_total(const std::string& question, std::string what, std::string expected,
                               std::string remedy) {
    throw base::InputError(base::Problem{std::move(what),
                                         {.file = question, .line = 0, .column = 0},
                                         std::move(expected),
                                         std::move(remedy)});
}

yarn::StatedTotal stated_in(const std::string& text) {
    const auto stated = yarn::parse_stated_total(text);
    if (stated) return *stated;
    base::Problem problem = stated.problem();
    problem.place = {.file = "total", .line = 0, .column = problem.place.column};
    throw base::InputError(std::move(problem));
}

std::string range(double least, double most, const char* unit) {
    // Three decimals could be read as thousands.
    return least == most ? fmt::format("{:.4f} {}", most, unit)
                         : fmt::format("{:.4f} to {:.4f} {}", least, most, unit);
}

/// "about 380 yd", "400 yd / 200 g", "3-4 balls of 100 yd" as the reader of totals has them.
std::string plain_total(const std::string& said, std::string& assumed) {
    constexpr auto icase = std::regex::icase;
    std::string text = count_in_digits(std::string(base::trimmed(plain_signs(said))));
    static const std::regex roughly(
        R"(^(?:about|around|approx(?:\.|imately)?|roughly|circa|ca\.?|~)\s*)", icase);
    text = std::regex_replace(text, roughly, "");
    static const std::regex both(R"(^(\d[^/(]*?)\s*(?:/|\(|=)\s*(\d[^/)]*?)\s*\)?$)");
    std::smatch found;
    if (std::regex_match(text, found, both)) {
        const std::string one = found[1];
        const std::string other = found[2];
        const bool length_first = units::parse_length(one) && units::parse_mass(other);
        const bool mass_first = units::parse_mass(one) && units::parse_length(other);
        if (length_first || mass_first) {
            text = length_first ? one : other;
            assumed = "of its two figures the length is taken, " + text;
        }
    }
    static const std::regex balls(
        R"(^(\d+)\s*(?:-|to)\s*(\d+)\s+(?:balls|skeins|hanks|cones|cakes)\s+of\s+(\d.*)$)", icase);
    if (std::regex_match(text, found, balls)) {
        const auto least = units::parse_whole(found[1].str());
        const auto most = units::parse_whole(found[2].str());
        const auto each = units::parse_length(found[3].str());
        if (least && most && each && *least < *most)
            text = range((static_cast<double>(*least) * *each).value(),
                         (static_cast<double>(*most) * *each).value(), "m");
    }
    return text;
}

/// "150 yd each", "150 yd in all": what is said of several copies, taken off the text.
enum class Of { unsaid, each, all };
Of taken_of(std::string& text) {
    static const std::regex each(R"(\s*,?\s*(?:each|apiece|per piece|for each(?: one)?)$)",
                                 std::regex::icase);
    static const std::regex all(
        R"(\s*,?\s*(?:in all|in total|altogether|all together|for all(?: of them)?|together)$)",
        std::regex::icase);
    for (const auto& [form, of] : {std::pair{&each, Of::each}, std::pair{&all, Of::all}}) {
        const std::string rest = std::regex_replace(text, *form, "");
        if (rest == text) continue;
        text = rest;
        return of;
    }
    return Of::unsaid;
}

std::string times(const yarn::StatedTotal& one, double count) {
    return one.length
               ? range((count * one.length->least).value(), (count * one.length->most).value(), "m")
               : range(count * one.mass->least / units::gram, count * one.mass->most / units::gram,
                       "g");
}

}  // namespace

TotalAnswer total_of(const std::string& said, const std::vector<WrittenPiece>& pieces,
                     const std::vector<WrittenExtra>& extras, const std::string& label) {
    TotalAnswer out;
    out.text = plain_total(said, out.assumed);
    const Of of = taken_of(out.text);
    yarn::StatedTotal stated = stated_in(out.text);
    std::int64_t copies = 0;
    for (const WrittenPiece& piece : pieces)
        if (!piece.pair) copies += piece.count;
    if (of == Of::unsaid && copies > 1 && copies > static_cast<std::int64_t>(pieces.size()))
        refuse_total("total", "it may be of one or of all",
                     stated.skeins > 0 ? "\"" + out.text + " in all\""
                                       : "\"" + out.text + " in all\" or \"" + out.text + " each\"",
                     "");
    if (of == Of::each) {
        if (pieces.size() != 1 || (!stated.length && !stated.mass) || stated.skeins > 0)
            refuse_total("total", base::quoted(said) + " does not say how much it is in all",
                         "the yarn of all of it, such as \"450 yd in all\"", "");
        out.text = times(stated, static_cast<double>(pieces.front().count));
        out.assumed = fmt::format("{} times {}", pieces.front().count, said);
    }
    stated = yarn::with_put_up(stated, yarn::put_up_in(label));
    if (!pieces.empty() || extras.empty()) return out;
    yarn::Between<units::Length> more{};
    yarn::Between<units::Mass> heavier{};
    for (const WrittenExtra& extra : extras) {
        if (extra.yarn.empty())
            refuse_total("plus", "rounds beside a bare total",
                         "the yarn it takes, \"edging 30 yd\"",
                         "Only a make whose stitch is known tells what a round takes.");
        const auto length = units::parse_length(extra.yarn);
        const auto mass = units::parse_mass(extra.yarn);
        if (length) more = {more.least + *length, more.most + *length};
        if (mass) heavier = {heavier.least + *mass, heavier.most + *mass};
    }
    const auto grist = label.empty() ? std::nullopt : std::optional(*units::parse_grist(label));
    const bool lengths = more.most > units::Length{};
    const bool masses = heavier.most > units::Mass{};
    if (stated.length && (!masses || grist)) {
        if (masses)
            more = {more.least + units::Length(heavier.least * *grist),
                    more.most + units::Length(heavier.most * *grist)};
        out.text = range((stated.length->least + more.least).value(),
                         (stated.length->most + more.most).value(), "m");
    } else if (stated.mass && (!lengths || grist)) {
        if (lengths)
            heavier = {heavier.least + units::Mass(more.least / *grist),
                       heavier.most + units::Mass(more.most / *grist)};
        out.text = range((stated.mass->least + heavier.least) / units::gram,
                         (stated.mass->most + heavier.most) / units::gram, "g");
    } else {
        refuse_total("plus", "a length and a mass cannot be added", "both in one unit",
                     "The label of the yarn would tell: \"170 yd / 100 g\".");
    }
    out.added = true;
    return out;
}

}  // namespace skeinfall::exchange::detail
