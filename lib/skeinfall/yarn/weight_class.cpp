#include "skeinfall/yarn/weight_class.hpp"

#include <algorithm>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/data/yarn_weight_classes.hpp"
#include "skeinfall/units/format.hpp"
#include "skeinfall/yarn/class_charts.hpp"

namespace skeinfall::yarn {

std::string_view class_name(WeightClass weight) {
    for (const auto& row : data::yarn_weight_classes)
        if (base::number_of<int>(row.symbol_number) == weight.number) return row.category;
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
    out.reserve(std::size(data::yarn_weight_classes));
    for (const auto& row : data::yarn_weight_classes)
        out.push_back({base::number_of<int>(row.symbol_number).value_or(0)});
    return out;
}

std::optional<WeightClass> parse_weight_class(std::string_view text) {
    std::string plain(base::trimmed(text));
    for (char& sign : plain)
        if (std::string_view("#()").find(sign) != std::string_view::npos) sign = ' ';
    std::string name;
    std::string number;
    for (const std::string& part : base::split(plain, ' ')) {
        if (part.empty() || base::same_word(part, "class") || base::same_word(part, "weight"))
            continue;
        std::string& into =
            part.find_first_not_of("0123456789") == std::string::npos ? number : name;
        into += (into.empty() ? "" : " ") + part;
    }
    if (name.empty() && number.empty()) return std::nullopt;
    for (const WeightClass weight : known_classes())
        if ((name.empty() || base::same_word(name, class_name(weight))) &&
            (number.empty() || number == std::to_string(weight.number)))
            return weight;
    return std::nullopt;
}

std::optional<GristRange> published_grist(WeightClass weight) {
    const units::Grist unit = units::shown::metres_per_100g.one;
    std::optional<GristRange> range;
    for (const ChartRange& row : charts_of(Measure::grist)) {
        if (row.weight != weight) continue;
        const auto end = [&](std::optional<units::Ratio> figure) {
            return figure ? std::optional(unit * figure->value()) : std::nullopt;
        };
        if (!range) {
            range = GristRange{end(row.least), end(row.most)};
            continue;
        }
        range->least =
            row.least && range->least ? std::min(end(row.least), range->least) : std::nullopt;
        range->most = row.most && range->most ? std::max(end(row.most), range->most) : std::nullopt;
    }
    return range;
}

std::string text(const GristRange& range) {
    const auto shown = [](units::Grist grist) {
        return units::text(grist, units::shown::metres_per_100g, units::Step::one,
                           units::Rounding::nearest);
    };
    if (!range.most) return range.least ? "at least " + shown(*range.least) : "anything";
    if (!range.least) return "at most " + shown(*range.most);
    return units::number_text(units::Ratio(*range.least / units::shown::metres_per_100g.one),
                              units::Step::one, units::Rounding::nearest) +
           " to " + shown(*range.most);
}

}  // namespace skeinfall::yarn
