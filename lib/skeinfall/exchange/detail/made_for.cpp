#include "skeinfall/exchange/detail/made_for.hpp"

#include <array>
#include <cstdint>
#include <regex>
#include <utility>

#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/detail/sides.hpp"
#include "skeinfall/project/thing_words.hpp"

namespace skeinfall::exchange::detail {
namespace {

using project::Thing;

constexpr std::array<std::pair<Thing, const char*>, 4> kinds{{{Thing::heat, "kitchen heat"},
                                                              {Thing::infant, "infant"},
                                                              {Thing::child, "child"},
                                                              {Thing::adult, "adult"}}};

/// "age 3", "18 months": infants are below one year, children below fourteen.
std::string by_age(const std::string& text) {
    static const std::regex months(R"(\b(\d{1,3})\s*-?\s*(?:months?|mths?)\b)", std::regex::icase);
    static const std::regex years(R"(\b(?:aged?\s+(\d{1,3})|(\d{1,3})\s*-?\s*(?:years?|yrs?))\b)",
                                  std::regex::icase);
    constexpr std::int64_t year = 12;
    std::smatch found;
    std::int64_t age = 0;
    if (std::regex_search(text, found, months))
        age = whole(found[1]).value_or(0);
    else if (std::regex_search(text, found, years))
        age = whole(found[1].matched ? found[1] : found[2]).value_or(0) * year;
    else
        return {};
    return age < year ? "infant" : age < 14 * year ? "child" : "adult";
}

std::string by_words(const std::string& text) {
    for (const auto& [thing, words] : kinds)
        if (project::speaks_of(text, thing)) return words;
    return {};
}

}  // namespace

MadeFor made_for(const project::MakeAnswers& answers, const std::vector<WrittenPiece>& pieces) {
    if (const auto said = answers.one("for")) {
        const std::string age = by_age(*said);
        const std::string words = age.empty() ? by_words(*said) : age;
        return {words.empty() ? *said : words, {}};
    }
    std::vector<std::string> names;
    if (const auto title = answers.one("title")) names.push_back(*title);
    for (const WrittenPiece& piece : pieces) names.push_back(piece.name);
    for (const auto& [thing, words] : kinds)
        for (const std::string& name : names)
            if (thing != Thing::adult && project::speaks_of(name, thing))
                return {words, base::quoted(name) + " is taken for " +
                                   (thing == Thing::heat     ? "a make near "
                                    : thing == Thing::infant ? "one for an "
                                                             : "one for a ") +
                                   words};
    return {};
}

}  // namespace skeinfall::exchange::detail
