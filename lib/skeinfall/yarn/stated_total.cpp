#include "skeinfall/yarn/stated_total.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <string>

#include "skeinfall/base/letters.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/units/parse.hpp"
#include "skeinfall/yarn/put_up.hpp"

namespace skeinfall::yarn {
namespace {

constexpr std::int64_t most_skeins = 10000;

using base::is_digit;

/// "yd" of "1116 yd": what stands behind the last digit.
std::string_view unit_of(std::string_view text) {
    std::size_t at = text.size();
    while (at > 0 && !is_digit(text[at - 1])) --at;
    return text.substr(at);
}

/// Two texts parted by "to", a dash or an en dash between figures; nothing for one figure.
std::optional<std::pair<std::string, std::string>> parted(std::string_view text) {
    for (const std::string_view sign : {" to ", "\xe2\x80\x93", "-"}) {
        const std::size_t at = text.find(sign);
        if (at == std::string_view::npos || at == 0) continue;
        const std::string_view first = base::trimmed(text.substr(0, at));
        const std::string_view second = base::trimmed(text.substr(at + sign.size()));
        if (first.empty() || second.empty() || !is_digit(second.front())) continue;
        std::string whole(first);
        if (is_digit(first.back())) whole += unit_of(second);
        return std::pair{whole, std::string(second)};
    }
    return std::nullopt;
}

template <class Q>
std::optional<Between<Q>> read(std::string_view text, base::Result<Q> (*parse)(std::string_view)) {
    if (const auto both = parted(text)) {
        const auto least = parse(both->first);
        const auto most = parse(both->second);
        if (least && most && *least <= *most) return Between<Q>{*least, *most};
        return std::nullopt;
    }
    const auto one = parse(text);
    if (!one) return std::nullopt;
    return Between<Q>{*one, *one};
}

template <class Q>
Between<Q> times(const Between<Q>& one, std::int64_t count) {
    return {static_cast<double>(count - 1) * one.least, static_cast<double>(count) * one.most};
}

/// "6 balls of 110 yd", "6 x 50 g", "6 balls": the count, and what stands behind it.
struct Counted {
    std::int64_t count = 0;
    std::string_view rest;
};
std::optional<Counted> counted(std::string_view text) {
    static constexpr std::array<std::string_view, 10> words{
        "balls", "ball", "skeins", "skein", "hanks", "hank", "cones", "cone", "cakes", "cake"};
    std::size_t at = 0;
    while (at < text.size() && is_digit(text[at])) ++at;
    if (at == 0) return std::nullopt;
    const auto count = units::parse_whole(text.substr(0, at));
    std::string_view rest = base::trimmed(text.substr(at));
    if (!count) return std::nullopt;
    bool told = false;
    for (const std::string_view word : words)
        if (rest.size() >= word.size() && base::same_word(rest.substr(0, word.size()), word) &&
            (rest.size() == word.size() || rest[word.size()] == ' ')) {
            rest = base::trimmed(rest.substr(word.size()));
            told = true;
            break;
        }
    if (!told && rest.size() > 1 && rest.front() == 'x' && (rest[1] == ' ' || is_digit(rest[1]))) {
        rest = base::trimmed(rest.substr(1));
        told = true;
    }
    if (!told) return std::nullopt;
    for (const std::string_view word : {"of ", "at ", "x ", "with "})
        if (rest.starts_with(word)) rest = base::trimmed(rest.substr(word.size()));
    return Counted{*count, rest};
}

/// "12 of 45 yd": so many, and not of what.
std::optional<base::Problem> counts_nothing(std::string_view text) {
    std::size_t at = 0;
    while (at < text.size() && is_digit(text[at])) ++at;
    const std::string_view behind = base::trimmed(text.substr(at));
    if (at == 0 || behind.size() < 4) return std::nullopt;
    const std::string_view word = behind.substr(0, 3);
    const std::string rest(base::trimmed(behind.substr(3)));
    if (!base::same_word(word, "of ") && !base::same_word(word, "at ")) return std::nullopt;
    if (!units::parse_length(rest) && !units::parse_mass(rest)) return std::nullopt;
    const std::string count(text.substr(0, at));
    return base::Problem{base::quoted(text) + " does not say of what there are " + count,
                         {.file = {}, .line = 0, .column = 1},
                         "\"" + count + " balls of " + rest + "\"",
                         "Where several things take as much each, say the amount of all of them."};
}

}  // namespace

StatedTotal with_put_up(StatedTotal total, const Label& put_up) {
    if (total.skeins == 0 || total.length || total.mass) return total;
    if (put_up.length)
        total.length =
            times(Between<units::Length>{put_up.length->value, put_up.length->value}, total.skeins);
    else if (put_up.mass)
        total.mass =
            times(Between<units::Mass>{put_up.mass->value, put_up.mass->value}, total.skeins);
    return total;
}

base::Result<StatedTotal> parse_stated_total(std::string_view given) {
    const std::string_view text = base::trimmed(given);
    StatedTotal out;
    if (auto problem = units::reads_two_ways(text)) return *std::move(problem);
    if (const auto skeins = counted(text)) {
        if (skeins->count > most_skeins)
            return base::Problem{
                "too many skeins", {.file = {}, .line = 0, .column = 1}, "at most 10000", ""};
        out.skeins = skeins->count;
        if (skeins->rest.empty()) return out;
        const Label put_up = put_up_in(std::string(skeins->rest));
        if (put_up.length) return with_put_up(out, put_up);
        const auto length = units::parse_length(skeins->rest);
        const auto mass = units::parse_mass(skeins->rest);
        if (length) return with_put_up(out, {units::Printed<units::Length>{"", *length}, {}});
        if (mass) return with_put_up(out, {{}, units::Printed<units::Mass>{"", *mass}});
        base::Problem problem = length.problem();
        problem.place.column += static_cast<std::size_t>(skeins->rest.data() - given.data());
        problem.expected = "the length or weight of one skein, as in \"6 balls of 110 yd\"";
        return problem;
    }
    if (auto problem = counts_nothing(text)) return *std::move(problem);
    out.range = parted(text).has_value();
    out.length = read<units::Length>(text, units::parse_length);
    if (!out.length) out.mass = read<units::Mass>(text, units::parse_mass);
    if (out.length || out.mass) return out;
    const auto both = parted(text);
    if (both && (units::parse_length(both->second) || units::parse_mass(both->second)))
        return base::Problem{base::quoted(text) + " is not understood as a range",
                             {.file = {}, .line = 0, .column = 1},
                             "the smaller figure first, in one unit, as in \"728 to 1116 yd\"",
                             ""};
    // Of the two readings, the one that came further.
    const auto length = units::parse_length(text);
    const auto mass = units::parse_mass(text);
    base::Problem problem = mass.problem().place.column > length.problem().place.column
                                ? mass.problem()
                                : length.problem();
    if (problem.place.column == mass.problem().place.column &&
        mass.problem().expected != problem.expected)
        problem.expected += " or " + mass.problem().expected;
    if (mass.problem().remedy.starts_with("Did you") && !problem.remedy.starts_with("Did you"))
        problem.remedy = mass.problem().remedy;
    return problem;
}

}  // namespace skeinfall::yarn
