#include "skeinfall/yarn/weight_class.hpp"

#include <algorithm>
#include <charconv>

#include "skeinfall/base/text.hpp"
#include "skeinfall/data/length_per_mass_by_class.hpp"
#include "skeinfall/data/yarn_weight_classes.hpp"

namespace skeinfall::yarn {
namespace {

template <class Number>
std::optional<Number> number_in(std::string_view text) {
    Number value{};
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc() || end != text.data() + text.size()) return std::nullopt;
    return value;
}

}  // namespace

std::string_view class_name(WeightClass weight) {
    for (const auto& row : data::yarn_weight_classes)
        if (number_in<int>(row.symbol_number) == weight.number) return row.category;
    return {};
}

std::string text(WeightClass weight) {
    std::string out = std::to_string(weight.number);
    if (const std::string_view name = class_name(weight); !name.empty())
        out.append(" (").append(name).append(")");
    return out;
}

std::vector<WeightClass> known_classes() {
    std::vector<WeightClass> out;
    for (const auto& row : data::yarn_weight_classes)
        out.push_back({number_in<int>(row.symbol_number).value_or(0)});
    return out;
}

std::optional<WeightClass> parse_weight_class(std::string_view text) {
    const std::string_view word = base::trimmed(text);
    for (const WeightClass weight : known_classes())
        if (base::same_word(word, class_name(weight)) || word == std::to_string(weight.number))
            return weight;
    return std::nullopt;
}

std::optional<GristRange> published_grist(WeightClass weight) {
    std::optional<double> least;
    std::optional<double> most;
    for (const auto& row : data::length_per_mass_by_class) {
        if (number_in<int>(row.symbol_number) != weight.number) continue;
        if (const auto value = number_in<double>(row.m_per_100g_min))
            least = std::min(least.value_or(*value), *value);
        if (const auto value = number_in<double>(row.m_per_100g_max))
            most = std::max(most.value_or(*value), *value);
    }
    if (!least || !most) return std::nullopt;
    const units::Grist unit = units::metre / (100.0 * units::gram);
    return GristRange{*least * unit, *most * unit};
}

}  // namespace skeinfall::yarn
