#include "skeinfall/exchange/detail/total_answer.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <optional>
#include <regex>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/detail/sides.hpp"
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

/// What "about" is taken for on either side: a judgement, no source.
constexpr double roughly_so = 0.1;

/// "about 380 yd" as a range.
std::string roughly_read(const std::string& amount, std::string& assumed) {
    const yarn::StatedTotal stated = stated_in(amount);
    if (stated.range || stated.skeins > 0 || (!stated.length && !stated.mass))
        refuse_total("total",
                     base::quoted(amount) + " said roughly does not say how far it may be off",
                     "the least and the most, \"342 to 418 yd\"",
                     "Or leave the word out where the figure is meant as it stands.");
    assumed = fmt::format("said roughly, {} is taken as a tenth less or more", amount);
    const double amount_said = stated.length
                                   ? stated.length->most.value()
                                   : units::Ratio(stated.mass->most / units::gram).value();
    return range((1 - roughly_so) * amount_said, (1 + roughly_so) * amount_said,
                 stated.length ? "m" : "g");
}

/// "400 yd / 200 g", "380 yd (347 m)", "1 lb 4 oz", "2 skeins (400 yd)".
std::string in_one_unit(std::string text, std::string& assumed) {
    constexpr auto icase = std::regex::icase;
    static const std::regex both(R"(^(\d[^/(]*?)\s*(?:/|\(|=|,\s*or)\s*(\d[^/)]*?)\s*\)?$)");
    static const std::regex pounds(
        R"(^(\d+)\s*(?:lbs?|pounds?)\.?\s*,?\s*(?:and\s+)?(\d[\d.,]*)\s*(?:oz|ounces?)\.?$)",
        icase);
    static const std::regex sizes(R"(^\d[\d.]*\s*[\(\[]\s*\d[\d.]*\s*[,:/])");
    static const std::regex in_skeins(
        R"(^(\d+)\s+(balls?|skeins?|hanks?|cones?|cakes?)\s*[,(]\s*(\d[^)]*?)\s*(each|apiece|in all|in total|total)?\s*\)?$)",
        icase);
    std::smatch found;
    if (std::regex_search(text, sizes))
        refuse_total("total", base::quoted(text) + " gives figures of several sizes",
                     "the figure of the size you make, such as \"380 yd\"", "");
    if (std::regex_match(text, found, pounds)) {
        const auto lb = units::parse_mass(found[1].str() + " lb");
        const auto oz = units::parse_mass(found[2].str() + " oz");
        if (lb && oz) return fmt::format("{:.4f} g", (*lb + *oz) / units::gram);
    }
    if (std::regex_match(text, found, in_skeins)) {
        const std::string counted = found[1].str() + " " + found[2].str();
        const std::string amount = found[3];
        const std::string of = base::lower(found[4].str());
        if (of == "each" || of == "apiece") return counted + " of " + amount;
        if (of.empty())
            refuse_total("total", base::quoted(amount) + " may be of one or of all",
                         "\"" + amount + " in all\" or \"" + counted + " of " + amount + "\"", "");
        return amount + " in all";
    }
    if (!std::regex_match(text, found, both)) return text;
    const std::string one = found[1];
    const std::string other = found[2];
    const SaidTwice same = amount_said_twice(one, other);
    if (same.apart)
        refuse_total("total",
                     base::quoted(one) + " and " + base::quoted(other) + " are not the same",
                     "one of the two, \"" + one + "\"", "");
    if (!same.larger.empty()) return same.larger;
    const bool length_first = units::parse_length(one) && units::parse_mass(other);
    const bool mass_first = units::parse_mass(one) && units::parse_length(other);
    if (!length_first && !mass_first) return text;
    text = length_first ? one : other;
    assumed = "of its two figures the length is taken, " + text;
    return text;
}

/// "3 1/2 skeins of 200 yd" as a range: it is known to half of the part that is counted.
std::string parts_of_skeins(const std::string& text, std::string& assumed) {
    static const std::regex form(
        R"(^(\d+)(?:\s+(\d)/(\d)|[.,](\d{1,2}))\s+(?:balls?|skeins?|hanks?|cones?|cakes?)\s+(?:of|at)\s+(\d.*)$)",
        std::regex::icase);
    std::smatch found;
    if (!std::regex_match(text, found, form)) return text;
    const std::string each = found[5];
    const auto whole = units::parse_whole(found[1].str());
    std::int64_t parts = 0;
    std::int64_t of = 0;
    if (found[4].matched) {
        static constexpr std::array<std::pair<std::string_view, std::int64_t>, 3> plain{
            {{"5", 2}, {"25", 4}, {"75", 4}}};
        const std::string behind = found[4];
        of = behind.size() == 1 ? 10 : 100;
        parts = *units::parse_whole(behind);
        for (const auto& [digits, share] : plain)
            if (behind == digits) {
                parts = parts * share / of;
                of = share;
            }
    } else {
        parts = *units::parse_whole(found[2].str());
        of = *units::parse_whole(found[3].str());
    }
    if (!whole || of < 2 || parts < 1 || parts >= of) return text;
    const auto steps = static_cast<double>(2 * (*whole * of + parts));
    const double half = 1.0 / static_cast<double>(2 * of);
    const yarn::Label put_up = yarn::put_up_in(each);
    const auto length = put_up.length ? base::Result<units::Length>(put_up.length->value)
                                      : units::parse_length(each);
    const auto mass = units::parse_mass(each);
    if (!length && !mass) return text;
    const double one = length ? length->value() : units::Ratio(*mass / units::gram).value();
    assumed = fmt::format("said in 1/{} of a skein, it is taken as 1/{} less or more", of, 2 * of);
    return range((steps - 1) * half * one, (steps + 1) * half * one, length ? "m" : "g");
}

/// "one 100 g skein of 200 yd" as "1 skein of 200 yd", "two 50 g balls" as "2 balls of 50 g".
std::string skeins_of_a_mass(const std::string& text) {
    static const std::regex form(
        R"(^(?:(\d+)|an?)\s+(\d[\d.,]*\s*[A-Za-z]+)\s+(balls?|skeins?|hanks?|cones?|cakes?)(?:\s+(?:of|at|with)\s+(\d.*))?$)",
        std::regex::icase);
    std::smatch found;
    if (!std::regex_match(text, found, form) || !units::parse_mass(found[2].str())) return text;
    return (found[1].matched ? found[1].str() : "1") + " " + found[3].str() + " of " +
           (found[4].matched ? found[4].str() : found[2].str());
}

/// "about 380 yd", "400 yd / 200 g", "3-4 balls of 100 yd" as the reader of totals has them.
std::string plain_total(const std::string& said, std::string& assumed) {
    constexpr auto icase = std::regex::icase;
    std::string text = count_in_digits(std::string(base::trimmed(plain_signs(said))));
    if (text.size() > longest_answer) return text;
    static const std::regex roughly(
        R"(^(?:about|around|approx(?:\.|imately)?|roughly|circa|ca\.?|~|nearly|almost)\s*|(?:,?\s+|\s*\()(?:or so|approx(?:\.|imately)?|roughly|ish|more or less)\)?$)",
        icase);
    // "up to 400 yd" holds for whoever needs less as well.
    static const std::regex at_most(
        R"(^(?:up to|at most|no more than|not more than|less than|under|max(?:\.|imum)?(?: of)?)\s+(?=\d)|(?:,?\s+|\s*\()(?:at most|max(?:\.|imum)?|or less)\)?$)",
        icase);
    text = std::regex_replace(text, at_most, "");
    const std::string exactly = std::regex_replace(text, roughly, "");
    const bool said_roughly = exactly != text;
    text = in_one_unit(parts_of_skeins(skeins_of_a_mass(exactly), assumed), assumed);
    if (said_roughly) {
        const Of of = taken_of(text);
        text = roughly_read(text, assumed) + (of == Of::each  ? " each"
                                              : of == Of::all ? " in all"
                                                              : "");
    }
    static const std::regex balls(
        R"(^(\d+)\s*(?:-|to)\s*(\d+)\s+(?:balls|skeins|hanks|cones|cakes)\s+of\s+(\d.*)$)", icase);
    std::smatch found;
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

std::string times(const yarn::StatedTotal& one, double count) {
    return one.length
               ? range((count * one.length->least).value(), (count * one.length->most).value(), "m")
               : range(count * one.mass->least / units::gram, count * one.mass->most / units::gram,
                       "g");
}

/// How large something is, by its measures or by its counts.
struct Extent {
    std::optional<double> area;  ///< in square metres
    std::optional<double> stitches;
};

std::optional<double> metres(const std::string& text) {
    const auto length = units::parse_length(text);
    return length ? std::optional(length->value()) : std::nullopt;
}

/// "60 x 60 in", "728 sq in", "20 sts x 20 rows".
Extent extent_of(const std::string& text) {
    if (const auto area = units::parse_area(text)) return {area->value(), std::nullopt};
    const auto sides = two_sides(text);
    if (!sides) return {};
    const auto& [across, up] = *sides;
    if (across.stitches() && up.rows() && !across.last_count)
        return {std::nullopt, static_cast<double>(*across.count) * static_cast<double>(*up.count)};
    const auto wide = metres(across.length);
    const auto high = metres(up.length);
    const auto last = across.last_length.empty() ? wide : metres(across.last_length);
    if (!wide || !high || !last) return {};
    return {0.5 * (*wide + *last) * *high, std::nullopt};
}

/// All pieces together, where each is a plain one.
Extent extent_of(const std::vector<WrittenPiece>& pieces) {
    Extent all{0.0, 0.0};
    for (const WrittenPiece& piece : pieces) {
        const auto count = static_cast<double>(piece.count);
        const auto wide = metres(piece.width);
        const auto high = metres(piece.length);
        const auto last = piece.last_width.empty() ? wide : metres(piece.last_width);
        const bool plain = piece.shape.empty() && piece.increase == 0;
        if (plain && all.area && wide && high && last)
            *all.area += count * 0.5 * (*wide + *last) * *high;
        else
            all.area.reset();
        const auto end = piece.last_stitches.value_or(piece.stitches.value_or(0));
        if (plain && all.stitches && piece.stitches && piece.rows)
            *all.stitches += count * 0.5 * static_cast<double>(*piece.stitches + end) *
                             static_cast<double>(*piece.rows);
        else
            all.stitches.reset();
    }
    return all;
}

/// "2660 yd for 60 x 60 in": the size that a total is of, taken off the text.
std::string take_size(std::string& text) {
    static const std::regex form(
        R"(^(.*[A-Za-z)])\s*,?\s*\b(?:for|at|over|per)\s+(?:an?\s+|the\s+)?((?:size\s+|area\s+of\s+)?\d.*(?:x|by|sq|square)\b.*)$)",
        std::regex::icase);
    std::smatch found;
    if (text.size() > longest_answer || !std::regex_match(text, found, form)) return {};
    const std::string size = found[2];
    const std::string rest = found[1];
    text = rest;
    return size;
}

/// A total that holds for another size, as that of the make.
void scale_to_make(const std::string& size, const std::vector<WrittenPiece>& pieces,
                   TotalAnswer& out) {
    const Extent of = extent_of(size);
    const Extent make = extent_of(pieces);
    if (!of.area && !of.stitches)
        refuse_total("total", base::quoted(size) + " is no size of a plain piece",
                     "\"2660 yd for 60 x 60 in\" or \"400 yd for 812 sq in\"", "");
    const bool by_area = of.area && make.area;
    if (pieces.empty() || (!by_area && !(of.stitches && make.stitches)))
        refuse_total(
            "total",
            "it is of " + base::quoted(size) + ", and the make is not measured in the same way",
            of.area ? "the width and length of each piece" : "the stitches and rows of each piece",
            "Shaped pieces can only be compared by their area: \"302 sq in\".");
    const double factor = by_area ? *make.area / *of.area : *make.stitches / *of.stitches;
    const yarn::StatedTotal stated = stated_in(out.text);
    if ((!stated.length && !stated.mass) || stated.skeins > 0)
        refuse_total("total", base::quoted(out.text) + " for another size is only whole skeins",
                     "its yarn, such as \"2660 yd for 60 x 60 in\"",
                     "What a last skein left over is not known.");
    const std::string said = out.text;
    out.text = times(stated, factor);
    out.assumed = fmt::format("{} for {} is {:.3g} times as much for this make, by its {}", said,
                              size, factor, by_area ? "area" : "stitches");
}

}  // namespace

SaidTwice amount_said_twice(const std::string& one, const std::string& other) {
    constexpr double rounding = 0.02;
    double first = 0;
    double second = 0;
    if (const auto a = units::parse_length(one), b = units::parse_length(other); a && b) {
        first = a->value();
        second = b->value();
    } else if (const auto c = units::parse_mass(one), d = units::parse_mass(other); c && d) {
        first = *c / units::gram;
        second = *d / units::gram;
    } else {
        return {};
    }
    return {first >= second ? one : other,
            std::max(first, second) > (1 + rounding) * std::min(first, second)};
}

TotalAnswer total_of(const std::string& said, const std::vector<WrittenPiece>& pieces,
                     const std::vector<WrittenExtra>& extras, const std::string& label) {
    TotalAnswer out;
    std::string without_size = plain_signs(said);
    const std::string size = take_size(without_size);
    out.text = plain_total(size.empty() ? said : without_size, out.assumed);
    if (!size.empty()) scale_to_make(size, pieces, out);
    const Of of = size.empty() ? taken_of(out.text) : Of::all;
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
        if (extra.yarn.empty() && extra.strands == 0)
            refuse_total("plus", "rounds beside a bare total",
                         "the yarn it takes, \"edging 30 yd\"",
                         "What a round takes is known only for a make whose stitch is known.");
        const auto often = static_cast<double>(std::max<std::int64_t>(1, extra.count));
        const auto length = units::parse_length(extra.strands > 0 ? extra.cut : extra.yarn);
        const auto mass = units::parse_mass(extra.yarn);
        const double strands = extra.strands > 0 ? static_cast<double>(extra.strands) : 1.0;
        if (length)
            more = {more.least + often * strands * *length, more.most + often * strands * *length};
        else if (mass)
            heavier = {heavier.least + often * *mass, heavier.most + often * *mass};
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
        refuse_total("plus", "a length and a weight cannot be added", "both in one unit",
                     "The label of the yarn would do: \"170 yd / 100 g\".");
    }
    out.added = true;
    return out;
}

}  // namespace skeinfall::exchange::detail
