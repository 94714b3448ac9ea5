#include "skeinfall/project/thing_words.hpp"

#include <algorithm>
#include <array>
#include <string>
#include <utility>

#include "skeinfall/base/text.hpp"
#include "skeinfall/data/colour_words.hpp"
#include "skeinfall/data/thing_words.hpp"

namespace skeinfall::project {
namespace {

std::string_view name_of(Thing means) {
    static constexpr std::array<std::pair<Thing, std::string_view>, 29> names{
        {{Thing::pair, "pair"},         {Thing::several, "several"},
         {Thing::one, "one"},           {Thing::group, "group"},
         {Thing::measure, "measure"},   {Thing::size, "size"},
         {Thing::amount, "amount"},     {Thing::heat, "heat"},
         {Thing::infant, "infant"},     {Thing::child, "child"},
         {Thing::adult, "adult"},       {Thing::cord, "cord"},
         {Thing::shedding, "shedding"}, {Thing::unsaid, "unsaid"},
         {Thing::hollow, "hollow"},     {Thing::shape, "shape"},
         {Thing::counter, "counter"},   {Thing::bids, "bids"},
         {Thing::roughly, "roughly"},   {Thing::nearby, "nearby"},
         {Thing::at_most, "at most"},   {Thing::numbered, "numbered"},
         {Thing::holder, "holder"},     {Thing::sleeved, "sleeved"},
         {Thing::fingered, "fingered"}, {Thing::bodiless, "bodiless"},
         {Thing::coloured, "coloured"}, {Thing::one_ball, "one ball"},
         {Thing::felted, "felted"}}};
    for (const auto& [thing, name] : names)
        if (thing == means) return name;
    return {};
}

/// " baby blanket " of "Baby-blanket": words between single blanks.
std::string in_blanks(std::string_view text) {
    std::string out = " ";
    const std::string low = base::lower(text);
    for (std::size_t at = 0; at < low.size(); ++at) {
        const char c = low[at];
        const bool letter = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') ||
                            static_cast<unsigned char>(c) >= 0x80U;
        if (letter)
            out += c;
        else if (c == '\'' && at + 1 < low.size() && low[at + 1] == 's')
            ++at;
        else if (out.back() != ' ')
            out += ' ';
    }
    return out.back() == ' ' ? out : out + " ";
}

}  // namespace

bool is_thing(std::string_view word, Thing means) {
    const std::string low = base::lower(word);
    const std::string_view name = name_of(means);
    return std::any_of(data::thing_words.begin(), data::thing_words.end(), [&](const auto& row) {
        return row.means == name && std::string_view(row.word) == low;
    });
}

bool speaks_of(std::string_view text, Thing means) {
    const std::string words = in_blanks(text);
    const std::string_view name = name_of(means);
    return std::any_of(data::thing_words.begin(), data::thing_words.end(), [&](const auto& row) {
        return row.means == name && words.find(in_blanks(row.word)) != std::string::npos;
    });
}

bool is_colour_word(std::string_view word) {
    const std::string low = base::lower(word);
    return std::any_of(data::colour_words.begin(), data::colour_words.end(),
                       [&](const auto& row) { return std::string_view(row.word) == low; });
}

}  // namespace skeinfall::project
