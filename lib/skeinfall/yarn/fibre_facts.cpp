#include "skeinfall/yarn/fibre_facts.hpp"

#include <algorithm>
#include <array>
#include <string>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/data/fibre_facts.hpp"
#include "skeinfall/data/fibre_names.hpp"
#include "skeinfall/data/fibre_summary.hpp"
#include "skeinfall/data/regain_by_humidity.hpp"
#include "skeinfall/measure/propagate.hpp"
#include "skeinfall/yarn/detail/cells.hpp"

namespace skeinfall::yarn {
namespace {

using base::leading_number;
using units::Ratio;

constexpr auto elasticity_words = std::to_array<std::string_view>(
    {"very low", "low", "low to medium", "medium", "high", "very high"});

bool names(std::string_view printed, std::string_view word) {
    return base::lower(printed).find(word) != std::string::npos;
}

bool is_mercerised(std::string_view printed) {
    return names(printed, "mercerised") || names(printed, "mercerized");
}

/// "flax" of "flax (linen)", "cotton" of "cotton, mercerised": the name in fibre_facts.csv.

Fibre fibre_of(const data::fibre_summary_row& row) {
    const auto word =
        std::find(elasticity_words.begin(), elasticity_words.end(), row.elasticity_class);
    return {row.fibre,
            row.fibre_group,
            leading_number<double>(row.density_g_cm3_65rh) * gram_per_cm3,
            row.density_status != "seen",
            static_cast<Elasticity>(std::distance(elasticity_words.begin(), word)),
            row.melts != "no",
            row.felts != "no"};
}

/// The fibre of fibre_facts.csv and regain_by_humidity.csv for a printed name; empty if none.
std::string_view facts_name(std::string_view printed) {
    const auto fibre = fibre_called(printed);
    return fibre ? short_fibre_name(fibre->name) : std::string_view{};
}

/// Shares weighted by a figure of each fibre; nothing when one has none.
template <class FigureOf>
std::optional<double> weighted(const FibreContent& content, FigureOf figure_of) {
    if (!content.known()) return std::nullopt;
    double sum = 0.0;
    for (const FibreShare& share : content.shares) {
        const std::optional<double> figure = figure_of(share.fibre);
        if (!figure) return std::nullopt;
        sum += share.share.value() * *figure;
    }
    return sum;
}

const data::regain_by_humidity_row* regain_row(std::string_view printed) {
    std::string_view name = facts_name(printed);
    const auto find = [&] {
        return std::find_if(data::regain_by_humidity.begin(), data::regain_by_humidity.end(),
                            [&](const auto& row) { return row.fibre == name; });
    };
    auto found = find();
    // Other hair takes up moisture much as wool does.
    if (found == data::regain_by_humidity.end() && !name.empty() &&
        fibre_called(printed)->group == "animal") {
        name = "wool";
        found = find();
    }
    return found == data::regain_by_humidity.end() ? nullptr : &*found;
}

double regain(const data::regain_by_humidity_row& row, Humidity humidity) {
    std::string_view cell = row.regain_65;
    if (humidity == Humidity::dry_40) cell = row.regain_40;
    if (humidity == Humidity::damp_80) cell = row.regain_80;
    return leading_number<double>(cell.empty() ? row.regain_65 : cell) / 100.0;
}

/// A mass is measured wet, so a content's masses add as given: each fibre changes by its ratio.
std::optional<double> changed(std::string_view printed, Humidity from, Humidity to) {
    const auto* row = regain_row(printed);
    if (row == nullptr) return std::nullopt;
    return measure::moisture_ratio(Ratio(regain(*row, from)), Ratio(regain(*row, to))).value();
}

}  // namespace

std::vector<Fibre> known_fibres() {
    std::vector<Fibre> out;
    out.reserve(std::size(data::fibre_summary));
    for (const auto& row : data::fibre_summary) out.push_back(fibre_of(row));
    return out;
}

std::optional<Fibre> fibre_called(std::string_view printed) {
    for (const auto& row : data::fibre_summary) {
        const bool mercerised_row = row.fibre.ends_with("mercerised");
        if (mercerised_row != is_mercerised(printed) && short_fibre_name(row.fibre) == "cotton")
            continue;
        if (!is_kind_of(printed, short_fibre_name(row.fibre))) continue;
        Fibre fibre = fibre_of(row);
        if (names(printed, "superwash")) fibre.felts = false;
        return fibre;
    }
    return std::nullopt;
}

std::vector<std::string> unknown_fibres(const FibreContent& content) {
    std::vector<std::string> out;
    for (const FibreShare& share : content.shares)
        if (!fibre_called(share.fibre)) out.push_back(share.fibre);
    return out;
}

std::optional<std::string> nearest_fibre(std::string_view printed) {
    std::vector<std::string> known;
    for (const Fibre& fibre : known_fibres()) known.emplace_back(short_fibre_name(fibre.name));
    for (const auto& row : data::fibre_names) known.emplace_back(row.name);
    return base::nearest_name(printed, known);
}

std::optional<Finding> check_fibres(const FibreContent& content) {
    std::vector<std::string> strange;
    for (const std::string& fibre : unknown_fibres(content)) {
        const auto near = nearest_fibre(fibre);
        strange.push_back(base::shown_inert(fibre) +
                          (near ? " (did you mean " + *near + "?)" : std::string()));
    }
    if (strange.empty()) return std::nullopt;
    return Finding{Level::caution, "fibre",
                   base::join(strange, ", ") +
                       (strange.size() == 1 ? " is not a fibre" : " are not fibres") +
                       " known here, so nothing can be said about heat, washing or skin.",
                   "lib/data/fibre_summary.csv"};
}

std::optional<Fact> fact_of(std::string_view printed, std::string_view property) {
    const std::string_view name = facts_name(printed);
    const data::fibre_facts_row* best = nullptr;
    const auto rank = [&](const data::fibre_facts_row& row) {
        return (row.form.empty() ? 0 : 2) + (row.status == "seen" ? 1 : 0);
    };
    for (const auto& row : data::fibre_facts) {
        if (name.empty() || row.fibre != name || row.property != property) continue;
        if (!row.form.empty() && !names(printed, row.form)) continue;
        if (best == nullptr || rank(row) > rank(*best)) best = &row;
    }
    if (best == nullptr) return std::nullopt;
    return Fact{best->value, best->source, best->status != "seen"};
}

std::optional<Density> density_of(const FibreContent& content) {
    const auto volume = weighted(content, [](std::string_view printed) -> std::optional<double> {
        const auto fibre = fibre_called(printed);
        if (!fibre) return std::nullopt;
        return gram_per_cm3 / fibre->density;
    });
    if (!volume) return std::nullopt;
    return gram_per_cm3 / *volume;
}

std::optional<Ratio> elasticity_of(const FibreContent& content) {
    const auto mean = weighted(content, [](std::string_view printed) -> std::optional<double> {
        const auto fibre = fibre_called(printed);
        if (!fibre) return std::nullopt;
        return static_cast<double>(fibre->elasticity);
    });
    if (!mean) return std::nullopt;
    return Ratio(*mean);
}

std::optional<Allowance> agreed_allowance(const FibreContent& content) {
    if (!content.known()) return std::nullopt;
    double least = 0.0;
    double most = 0.0;
    for (const FibreShare& share : content.shares) {
        const auto fibre = fibre_called(share.fibre);
        if (!fibre) return std::nullopt;
        // The regulation has one entry for wool and animal hair.
        const bool hair = fibre->group == "animal" && fibre->name != "silk";
        const std::string_view name = hair ? "wool" : facts_name(share.fibre);
        std::vector<double> named;
        std::vector<double> all;
        for (const auto& row : data::fibre_facts) {
            if (row.fibre != name || row.property != "agreed allowance (EU)") continue;
            if (row.form == "mercerised" && !is_mercerised(share.fibre)) continue;
            all.push_back(leading_number<double>(row.value) / 100.0);
            if (!row.form.empty() && (names(share.fibre, row.form) ||
                                      (row.form == "mercerised" && is_mercerised(share.fibre))))
                named.push_back(all.back());
        }
        const std::vector<double>& use = named.empty() ? all : named;
        if (use.empty()) return std::nullopt;
        least += share.share.value() * *std::min_element(use.begin(), use.end());
        most += share.share.value() * *std::max_element(use.begin(), use.end());
    }
    return Allowance{Ratio(least), Ratio(most)};
}

std::optional<Ratio> mass_change(const FibreContent& content, Humidity from, Humidity to) {
    const auto mean =
        weighted(content, [&](std::string_view printed) { return changed(printed, from, to); });
    if (!mean) return std::nullopt;
    return Ratio(*mean);
}

std::optional<Ratio> humidity_spread(const FibreContent& content) {
    const auto mean = weighted(content, [](std::string_view printed) -> std::optional<double> {
        const auto* row = regain_row(printed);
        if (row == nullptr) return std::nullopt;
        if (!row->spread_pct.empty()) return leading_number<double>(row->spread_pct) / 100.0;
        const double dry = regain(*row, Humidity::dry_40);
        const double damp = regain(*row, Humidity::damp_80);
        return measure::within(Ratio((damp - dry) / 2.0)).value() / (1.0 + (dry + damp) / 2.0);
    });
    if (!mean) return std::nullopt;
    return Ratio(*mean);
}

}  // namespace skeinfall::yarn
