#include "skeinfall/project/fabric_words.hpp"

#include <algorithm>
#include <array>

#include "skeinfall/base/letters.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/data/fabric_words.hpp"

namespace skeinfall::project {
namespace {

bool is_letter_of_name(char c) {
    return (c >= 'a' && c <= 'z') || static_cast<unsigned char>(c) >= 0x80;
}

bool ends_word(std::string_view rest) {
    static constexpr std::array<std::string_view, 11> endings{
        "s", "es", "d", "ed", "bed", "ted", "y", "ing", "bing", "work", "e"};
    std::size_t end = 0;
    while (end < rest.size() && is_letter_of_name(rest[end])) ++end;
    return end == 0 ||
           std::find(endings.begin(), endings.end(), rest.substr(0, end)) != endings.end();
}

/// `low` in small letters.
bool holds_fabric(std::string_view low, std::string_view word) {
    for (std::size_t at = low.find(word); at != std::string_view::npos;
         at = low.find(word, at + 1)) {
        const bool begins =
            at == 0 || (!is_letter_of_name(low[at - 1]) && !base::is_digit(low[at - 1]));
        const std::string_view rest = low.substr(at + word.size());
        const bool ends = base::is_digit(word.back())
                              ? rest.empty() || !base::is_digit(rest.front())
                              : ends_word(rest);
        if (begins && ends) return true;
    }
    return false;
}

FabricWord fabric_of_row(const data::fabric_words_row& row) {
    return {row.word,
            row.craft == "knit" ? Craft::knit : Craft::crochet,
            row.group,
            row.texture,
            row.settles_craft == "yes",
            row.in_name == "more",
            !row.in_name.empty()};
}

template <class Wanted>
std::optional<FabricWord> first_of(std::string_view name, Wanted wanted) {
    const std::string low = base::lower(base::trimmed(name));
    for (const auto& row : data::fabric_words)
        if (const FabricWord one = fabric_of_row(row); wanted(one) && holds_fabric(low, one.word))
            return one;
    return std::nullopt;
}

}  // namespace

std::optional<FabricWord> fabric_word(Craft craft, std::string_view stitch) {
    return first_of(stitch, [craft](const FabricWord& one) { return one.craft == craft; });
}

std::optional<Craft> craft_of_fabric(std::string_view stitch) {
    const auto settled = first_of(stitch, [](const FabricWord& one) { return one.settles_craft; });
    if (settled) return settled->craft;
    const bool crochet = fabric_word(Craft::crochet, stitch).has_value();
    const bool knit = fabric_word(Craft::knit, stitch).has_value();
    if (crochet == knit) return std::nullopt;
    return knit ? Craft::knit : Craft::crochet;
}

bool fabric_of_both_crafts(std::string_view stitch) {
    return !craft_of_fabric(stitch) && fabric_word(Craft::knit, stitch).has_value();
}

std::vector<FabricWord> fabrics_in_name(Craft craft, std::string_view name) {
    const std::string low = base::lower(name);
    std::vector<FabricWord> out;
    for (const auto& row : data::fabric_words) {
        const FabricWord one = fabric_of_row(row);
        if (one.in_names && one.craft == craft && holds_fabric(low, one.word)) out.push_back(one);
    }
    return out;
}

}  // namespace skeinfall::project
