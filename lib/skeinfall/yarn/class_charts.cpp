#include "skeinfall/yarn/class_charts.hpp"

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/data/length_per_mass_by_class.hpp"
#include "skeinfall/data/wpi_by_class.hpp"
#include "skeinfall/data/yarn_weight_classes.hpp"
#include "skeinfall/data/yarn_weight_variants.hpp"
#include "skeinfall/yarn/detail/cells.hpp"

namespace skeinfall::yarn {
namespace {

using base::number_of;
using units::Ratio;

/// The Council's table is kept as its current edition prints it; other printings are variants.
constexpr std::string_view current_edition = "S04";

/// "S27" of "S27 spinning magazine chart".
std::string_view chart_number(std::string_view source) {
    return source.substr(0, source.find_first_of(" ;,"));
}

struct Ends {
    std::optional<Ratio> least;
    std::optional<Ratio> most;
};

/// "9-16 mm", "15 mm and larger", "6 sts and fewer".
Ends ends_in(std::string_view cell) {
    const auto first = base::number_first<double>(cell);
    if (!first) return {};
    if (first->rest.starts_with('-'))
        if (const auto second = base::number_first<double>(first->rest.substr(1)))
            return {Ratio(first->value), Ratio(second->value)};
    if (cell.ends_with("larger")) return {Ratio(first->value), std::nullopt};
    if (cell.ends_with("fewer")) return {std::nullopt, Ratio(first->value)};
    return {};
}

void add(std::vector<ChartRange>& charts, std::string_view source, WeightClass weight,
         const Ends& ends, bool double_crochet = false) {
    if (ends.least || ends.most)
        charts.push_back({chart_number(source), weight, ends.least, ends.most, double_crochet});
}

/// Cells that differ between printings of the Council's table; slips are left out.
void add_variants(std::vector<ChartRange>& charts, std::string_view field) {
    for (const auto& row : data::yarn_weight_variants)
        if (row.field == field && row.note.find("slip") == std::string_view::npos)
            add(charts, row.source, class_in_cell(row.symbol_number), ends_in(row.value),
                row.symbol_number == "0");
}

std::vector<ChartRange> made(Measure measure) {
    std::vector<ChartRange> out;
    if (measure == Measure::grist) {
        for (const auto& row : data::length_per_mass_by_class)
            add(out, row.source, class_in_cell(row.symbol_number),
                {number_of<double>(row.m_per_100g_min), number_of<double>(row.m_per_100g_max)});
        return out;
    }
    if (measure == Measure::wraps) {
        for (const auto& row : data::wpi_by_class) {
            Ends ends{number_of<double>(row.wpi_min), number_of<double>(row.wpi_max)};
            if (row.open_ended.ends_with('+')) ends.most.reset();
            add(out, row.source, class_in_cell(row.symbol_number), ends);
        }
        return out;
    }
    for (const auto& row : data::yarn_weight_classes) {
        const WeightClass weight = class_in_cell(row.symbol_number);
        if (measure == Measure::knit_gauge)
            add(out, current_edition, weight,
                {number_of<double>(row.knit_gauge_min_sts_4in),
                 number_of<double>(row.knit_gauge_max_sts_4in)});
        if (measure == Measure::crochet_gauge)
            add(out, current_edition, weight,
                {number_of<double>(row.crochet_gauge_min_sts_4in),
                 number_of<double>(row.crochet_gauge_max_sts_4in)},
                row.crochet_gauge_stitch == "double crochet");
        if (measure == Measure::hook)
            add(out, current_edition, weight,
                {number_of<double>(row.hook_min_mm), number_of<double>(row.hook_max_mm)});
        if (measure == Measure::needle)
            add(out, current_edition, weight,
                {number_of<double>(row.needle_min_mm), number_of<double>(row.needle_max_mm)});
    }
    if (measure == Measure::knit_gauge) add_variants(out, "knit gauge");
    if (measure == Measure::crochet_gauge) add_variants(out, "crochet gauge");
    if (measure == Measure::hook) add_variants(out, "hook metric");
    if (measure == Measure::needle) add_variants(out, "needle metric");
    return out;
}

}  // namespace

const std::vector<ChartRange>& charts_of(Measure measure) {
    static const std::vector<ChartRange> grist = made(Measure::grist);
    static const std::vector<ChartRange> knit_gauge = made(Measure::knit_gauge);
    static const std::vector<ChartRange> crochet_gauge = made(Measure::crochet_gauge);
    static const std::vector<ChartRange> wraps = made(Measure::wraps);
    static const std::vector<ChartRange> hook = made(Measure::hook);
    static const std::vector<ChartRange> needle = made(Measure::needle);
    switch (measure) {
        case Measure::knit_gauge:
            return knit_gauge;
        case Measure::crochet_gauge:
            return crochet_gauge;
        case Measure::wraps:
            return wraps;
        case Measure::hook:
            return hook;
        case Measure::needle:
            return needle;
        case Measure::grist:
            break;
    }
    return grist;
}

}  // namespace skeinfall::yarn
