#include "skeinfall/project/joining.hpp"

#include <algorithm>
#include <cstdint>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/data/fibre_summary.hpp"
#include "skeinfall/data/join_kinds.hpp"
#include "skeinfall/units/format.hpp"
#include "skeinfall/units/parse.hpp"

namespace skeinfall::project {
namespace {

using base::leading_number;

/// Felts by the fibre table, and is not treated against it.
bool felts(const std::string& printed) {
    for (const std::string_view treated : {"superwash", "washable", "treated"})
        if (base::lower(printed).find(treated) != std::string::npos) return false;
    return std::any_of(
        data::fibre_summary.begin(), data::fibre_summary.end(), [&](const auto& row) {
            return row.felts.starts_with("yes") && yarn::is_kind_of(printed, row.fibre);
        });
}

}  // namespace

base::Result<RowZone> parse_row_zone(std::string_view text) {
    const auto fail = [&](std::string what) {
        return base::Problem{base::quoted(text) + ": " + std::move(what),
                             {},
                             "rows such as \"60-80\", \"12\" or \"all\"",
                             ""};
    };
    const std::string_view trimmed = base::trimmed(text);
    if (base::same_word(trimmed, "all")) return RowZone{};
    const std::size_t dash = trimmed.find('-');
    const auto first = units::parse_whole(base::trimmed(trimmed.substr(0, dash)));
    if (!first) return fail("these are no rows");
    if (dash == std::string_view::npos) return RowZone{*first, *first};
    const auto last = units::parse_whole(base::trimmed(trimmed.substr(dash + 1)));
    if (!last) return fail("these are no rows");
    if (*last < *first) return fail("the last row comes before the first");
    return RowZone{*first, *last};
}

std::string_view name_of(Hides hides) {
    switch (hides) {
        case Hides::hem:
            return "hem";
        case Hides::fold:
            return "fold";
        case Hides::seam:
            break;
    }
    return "seam";
}

RowZone zone_in(const HiddenRows& hidden, std::int64_t rows) {
    const auto of = [&](std::int64_t row) {
        return std::clamp(row < 0 ? rows + 1 + row : row, std::int64_t{1},
                          std::max<std::int64_t>(1, rows));
    };
    return {of(hidden.first), of(hidden.last)};
}

base::Result<HiddenRows> parse_hidden_rows(Hides by, std::string_view text) {
    const std::string_view trimmed = base::trimmed(text);
    if (base::same_word(trimmed, "last")) return HiddenRows{by, -1, -1};
    constexpr std::string_view last = "last ";
    if (trimmed.starts_with(last))
        if (const auto rows = units::parse_whole(base::trimmed(trimmed.substr(last.size())));
            rows && *rows > 0)
            return HiddenRows{by, -*rows, -1};
    const auto zone = parse_row_zone(trimmed);
    if (!zone || zone->last == 0 || zone->first < 1)
        return base::Problem{base::quoted(text) + ": these are no rows",
                             {},
                             "rows such as \"1\", \"1-4\", \"last\" or \"last 4\"",
                             ""};
    return HiddenRows{by, zone->first, zone->last};
}

const std::vector<JoinKind>& join_kinds() {
    static const std::vector<JoinKind> kinds = [] {
        std::vector<JoinKind> out;
        for (const auto& row : data::join_kinds) {
            JoinKind kind;
            kind.name = row.name;
            kind.tail = leading_number<double>(row.tail_cm) * units::centimetre;
            kind.note = row.note;
            kind.felting_share =
                units::Ratio(leading_number<double>(row.felting_share_pct) / 100.0);
            kind.plied_only = row.plied_only == "yes";
            out.push_back(kind);
        }
        return out;
    }();
    return kinds;
}

const JoinKind* find_join_kind(std::string_view name) {
    for (std::size_t i = 0; i < join_kinds().size(); ++i) {
        if (base::same_word(join_kinds()[i].name, name)) return &join_kinds()[i];
        for (const std::string& other : base::split(data::join_kinds.at(i).also_called, ';'))
            if (!other.empty() && base::same_word(other, name)) return &join_kinds()[i];
    }
    return nullptr;
}

std::string join_kind_objection(const JoinKind& kind, const yarn::FibreContent& fibre) {
    if (kind.felting_share.value() <= 0.0 || !fibre.known()) return {};
    double felting = 0.0;
    for (const yarn::FibreShare& share : fibre.shares)
        if (felts(share.fibre)) felting += share.share.value();
    constexpr double noise = 1e-9;
    if (felting >= kind.felting_share.value() - noise) return {};
    return std::string(kind.name) + " needs " +
           units::percent_text(kind.felting_share, units::Step::one, units::Rounding::nearest) +
           " wool that felts, and this yarn holds " +
           units::percent_text(units::Ratio(felting), units::Step::one, units::Rounding::down);
}

units::Length repeat_of(const std::vector<ColourRun>& runs) {
    units::Length sum{};
    for (const ColourRun& run : runs) sum += run.length;
    return sum;
}

}  // namespace skeinfall::project
