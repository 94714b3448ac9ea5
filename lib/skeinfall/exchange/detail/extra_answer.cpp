#include "skeinfall/exchange/detail/extra_answer.hpp"

#include <algorithm>
#include <cstdint>
#include <regex>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/letters.hpp"
#include "skeinfall/base/name.hpp"
#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/count_words.hpp"
#include "skeinfall/exchange/name_words.hpp"
#include "skeinfall/project/thing_words.hpp"
#include "skeinfall/units/parse.hpp"

namespace skeinfall::exchange::detail {
namespace {

[[noreturn]] void refuse_extra(std::string what, std::string expected, std::string remedy) {
    throw base::InputError(base::Problem{std::move(what),
                                         {.file = "plus", .line = 0, .column = 0},
                                         std::move(expected),
                                         std::move(remedy)});
}

/// The yarn of a make that a colour or "CC1" names.
std::string yarn_called(const std::vector<ColourRole>& roles, std::string_view word) {
    const std::string by_colour = role_of(roles, word);
    if (!by_colour.empty()) return by_colour;
    for (const ColourRole& role : roles)
        if (base::same_word(role.id, word)) return role.id;
    return {};
}

[[noreturn]] void refuse_colour(const std::string& colour, const std::vector<ColourRole>& roles) {
    std::vector<std::string> names;
    for (const ColourRole& role : roles)
        if (!role.colour.empty() || roles.size() > 1)
            names.push_back(base::shown_inert(role.colour.empty() ? role.id : role.colour));
    refuse_extra("no yarn of the make is " + base::quoted(colour),
                 names.empty() ? "no colour, where it is of the make's one yarn"
                               : "one of " + base::join(names, ", ") + ", or no colour",
                 names.empty() ? "What is worked in another yarn is a make of its own."
                               : base::did_you_mean(base::nearest_name(colour, names)));
}

/// "moss border 80 m" of "moss: border 80 m" with its yarn in `role`; figures end the name.
std::string without_colour(const std::string& text, const std::vector<ColourRole>& roles,
                           std::string& role) {
    const OfColour said = of_colour(text);
    if (!said.colour.empty()) {
        role = yarn_called(roles, said.colour);
        if (!role.empty()) return said.text;
        if (!said.text.empty() && !base::is_digit(said.text.front()))
            refuse_colour(said.colour, roles);
    }
    static const std::regex in_colour(
        R"(\s+(?:in|of)\s+(?!all\b|total\b)([A-Za-z][A-Za-z -]*?)(?=\s*(?:$|[,:]|\s\d|\s(?:each|in|per|for|apiece)\b))|\s*\(([A-Za-z][A-Za-z -]*)\))");
    for (std::sregex_iterator found(text.begin(), text.end(), in_colour), end; found != end;
         ++found) {
        const std::string word = (*found)[1].matched ? (*found)[1] : (*found)[2];
        role = yarn_called(roles, word);
        if (!role.empty()) return found->prefix().str() + found->suffix().str();
        if (project::is_colour_word(word)) refuse_colour(word, roles);
    }
    const std::string name(base::trimmed(text.substr(0, text.find_first_of("0123456789"))));
    const std::vector<std::string> words = base::split(name, ' ');
    for (std::size_t length = words.size(); length > 0; --length)
        for (std::size_t at = 0; at + length <= words.size(); ++at) {
            std::string some = words[at];
            for (std::size_t i = at + 1; i < at + length; ++i) some += " " + words[i];
            role = yarn_called(roles, some);
            if (role.empty()) continue;
            const std::size_t place = text.find(some);
            return std::string(
                base::trimmed(text.substr(0, place) + text.substr(place + some.size())));
        }
    if (words.size() < 2 && roles.size() < 2) return text;
    for (const std::string& word : words)
        if (project::is_colour_word(word)) refuse_colour(word, roles);
    return text;
}

std::string said_of(const WrittenExtra& extra) {
    if (extra.rounds > 0)
        return fmt::format("{} of {} rounds of {} {}", extra.name, extra.rounds, extra.stitches,
                           extra.stitch.empty() ? "sts" : extra.stitch);
    if (extra.strands > 0)
        return fmt::format("{} of {} strands of {}", extra.name, extra.strands, extra.cut);
    return extra.name + " " + extra.yarn;
}

bool made_several_times(const std::vector<WrittenPiece>& pieces) {
    return std::any_of(pieces.begin(), pieces.end(),
                       [](const WrittenPiece& piece) { return piece.count > 1; });
}

/// How many "handles, 60 m each" are: of a pair two, of "pompom 10 m each" one a copy.
std::int64_t each_of_them(const WrittenExtra& extra, const std::vector<WrittenPiece>& pieces) {
    const bool one_sort = pieces.size() == 1;
    const bool copies = one_sort && pieces.front().count > 1;
    const bool paired = comes_in_pairs(extra.name);
    const bool plural = names_several(extra.name);
    if (paired && one_sort && !copies) return 2;
    if (copies && (!plural || (paired && comes_in_pairs(pieces.front().name))))
        return pieces.front().count;
    // Each round, or each strand.
    if (!copies && one_sort && !plural && extra.yarn.empty()) return 1;
    const std::string said = said_of(extra);
    refuse_extra(base::quoted(said + " each") + " does not say how many there are in all",
                 (extra.yarn.empty() ? "" : "how many, \"4 " + said + " each\", or ") +
                     std::string("the yarn of all of it, \"") + said + " in all\"",
                 "");
}

/// How often the make has it.
std::int64_t how_often(const WrittenExtra& extra, const std::vector<WrittenPiece>& pieces) {
    if (extra.of == ExtraOf::all) return 1;
    const bool several = made_several_times(pieces);
    const std::string said = said_of(extra);
    if (!extra.each_of.empty()) {
        for (const WrittenPiece& piece : pieces)
            if (of_one_thing(extra.each_of, piece.name)) return piece.count * extra.things;
        refuse_extra("no piece of the make is " + base::quoted(extra.each_of),
                     "the yarn of all of it, \"" + said + " in all\"", "");
    }
    if (extra.of == ExtraOf::each && extra.things == 1) return each_of_them(extra, pieces);
    if (extra.of == ExtraOf::each && !several) return extra.things;
    if (extra.of == ExtraOf::each)
        refuse_extra(base::quoted(said + " each") + " does not say how many there are in all",
                     "the yarn of all of it, \"" + said + " in all\"", "");
    if (several)
        refuse_extra(base::quoted(said) + " may be of one or of all",
                     pieces.size() == 1 ? "\"" + said + " in all\" or \"" + said + " each\""
                                        : "\"" + said + " in all\" or \"" + said + " per " +
                                              pieces.front().name + "\"",
                     "");
    return 1;
}

}  // namespace

ExtraAnswer extra_of(const std::string& said, const std::vector<WrittenPiece>& pieces,
                     const std::vector<ColourRole>& roles) {
    ExtraAnswer out;
    std::string role;
    const std::string text = without_colour(plain_signs(said), roles, role);
    auto extra = parse_extra(text);
    if (!extra) {
        base::Problem problem = extra.problem();
        problem.place = {.file = "plus", .line = 0, .column = problem.place.column};
        throw base::InputError(std::move(problem));
    }
    out.extra = *std::move(extra);
    const std::int64_t often = how_often(out.extra, pieces);
    if (often > 1 || made_several_times(pieces)) out.extra.count = often;
    if (often > 1) out.assumed = fmt::format("{} times {}", often, said_of(out.extra));
    if (roles.size() < 2) return out;
    out.extra.role = role.empty() ? roles.front().id : role;
    if (role.empty()) {
        const auto named = [](const ColourRole& one) {
            return base::shown_inert(one.colour.empty() ? one.id : one.colour);
        };
        if (!out.assumed.empty()) out.assumed += "; ";
        out.assumed +=
            fmt::format("{} is taken from {}, where it is of another yarn, say \"{}: {}\"",
                        base::shown_inert(out.extra.name), named(roles.front()),
                        named(roles.back()), base::shown_inert(text));
    }
    return out;
}

}  // namespace skeinfall::exchange::detail
