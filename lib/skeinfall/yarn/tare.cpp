#include "skeinfall/yarn/tare.hpp"

#include <charconv>
#include <cmath>

#include "skeinfall/base/text.hpp"
#include "skeinfall/data/cone_tares.hpp"

namespace skeinfall::yarn {
namespace {

units::Mass grams_in(std::string_view text) {
    double value = 0.0;
    std::from_chars(text.data(), text.data() + text.size(), value);
    return value * units::gram;
}

}  // namespace

std::vector<std::string> tare_names() {
    std::vector<std::string> names;
    names.reserve(data::cone_tares.size());
    for (const auto& row : data::cone_tares) names.emplace_back(row.name);
    return names;
}

std::optional<measure::Estimate<units::Mass>> usual_tare(std::string_view name) {
    for (const auto& row : data::cone_tares) {
        if (!base::same_word(row.name, base::trimmed(name))) continue;
        const units::Mass least = grams_in(row.least_g);
        const units::Mass most = grams_in(row.most_g);
        return measure::Estimate<units::Mass>{(least + most) / 2.0,
                                              (most - least) / (2.0 * std::sqrt(3.0))};
    }
    return std::nullopt;
}

}  // namespace skeinfall::yarn
