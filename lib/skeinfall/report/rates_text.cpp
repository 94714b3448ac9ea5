#include <algorithm>
#include <cmath>
#include <vector>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/need/gauge.hpp"
#include "skeinfall/report/rates.hpp"
#include "skeinfall/report/words.hpp"

namespace skeinfall::report {
namespace {

using base::shown_inert;
using units::Ratio;
using units::Rounding;
using units::Step;

std::string percent(Ratio ratio) {
    return units::percent_text(ratio, Step::one, Rounding::nearest);
}

std::string gauge_for_10cm(const project::Gauge& gauge) {
    const auto figure = [](auto value, const auto& shown) {
        const std::string text = units::text(value, shown, Step::tenth, Rounding::nearest);
        return text.substr(0, text.find(' '));
    };
    return figure(gauge.stitches, units::shown::per_10cm) + " sts x " +
           figure(gauge.rows, units::shown::rows_per_10cm) + " rows";
}

std::string size_text(const project::Project& project, const project::Piece& piece,
                      std::size_t size) {
    const project::PieceCounts total = project::counts(project, piece, size);
    const project::FinishedSize finished = project::finished_size(project, piece, size);
    return fmt::format("  {}: {} sts in row 1, {} rows; {} wide, {} long\n",
                       shown_inert(piece.name), total.stitches, total.rows,
                       units::inches_and_centimetres(finished.width),
                       units::inches_and_centimetres(finished.length));
}

/// "12 % more", "3 % less", "the same".
std::string against(units::Length other, units::Length used) {
    const double more = other / used - 1.0;
    const std::string amount = percent(Ratio(std::abs(more)));
    if (amount == "0 %") return "the same";
    return amount + (more > 0.0 ? " more" : " less");
}

}  // namespace

std::string gauge_text(const project::Project& project, std::size_t size) {
    if (!project.pattern_gauge) return {};
    const project::Gauge& pattern = *project.pattern_gauge;
    std::string out = fmt::format("\nYour gauge {}, the pattern's {} per 10 cm.\n",
                                  gauge_for_10cm(project.gauge), gauge_for_10cm(pattern));
    const need::GaugeChange change = need::gauge_change(pattern, project.gauge, project.keeping);
    if (project.keeping == project::Keeping::stitch_counts)
        out += fmt::format(
            "Keeping the stitch counts: {} of the pattern's width, {} of its length, {} of its "
            "yarn.\n",
            percent(change.width), percent(change.height), percent(change.yarn));
    else
        out += fmt::format(
            "Keeping the size: {} of the pattern's stitches a row, {} of its rows, {} of its "
            "yarn.\n",
            percent(Ratio(project.gauge.stitches / pattern.stitches)),
            percent(Ratio(project.gauge.rows / pattern.rows)), percent(change.yarn));
    for (const project::Piece& piece : project.pieces) out += size_text(project, piece, size);
    return out;
}

std::string rate_text(const need::RoleNeed& role) {
    std::string out;
    if (role.evidence.size() > 1) {
        std::vector<std::string> shares;
        for (const need::Evidence& each : role.evidence)
            shares.push_back(shown_inert(each.name) + " " + percent(each.weight));
        out += "  rests on: " + base::join(shares, ", ") + "\n";
        for (const need::Evidence& each : role.evidence)
            out += fmt::format("    {} alone: {}, {}, give or take {}{}\n", shown_inert(each.name),
                               yards_and_metres(each.yarn, Rounding::nearest),
                               against(each.yarn, role.length.centre),
                               units::percent_text(each.spread, Step::one, Rounding::up),
                               each.discord ? ": contradicts the rest" : "");
    } else {
        for (const need::PassedOver& other : role.passed_over)
            out += fmt::format("  beside it: {}, {}, {}\n", shown_inert(other.name),
                               yards_and_metres(other.yarn, Rounding::nearest),
                               against(other.yarn, role.length.centre));
    }
    if (!role.calibration) return out;
    const need::Calibration& calibration = *role.calibration;
    std::vector<std::vector<std::string>> rows;
    for (const need::KindRate& rate : calibration.kinds)
        rows.push_back({shown_inert(rate.kind),
                        units::text(rate.yarn.centre, units::shown::cm_per_stitch, Step::hundredth,
                                    Rounding::nearest),
                        "+-" + units::percent_text(rate.yarn.relative(), Step::tenth, Rounding::up),
                        rate.identified && !rate.by_ratio ? "from the swatches"
                        : rate.identified                 ? "worked out together with the next one"
                                          : "in no swatch of its own: by the usual ratio"});
    out += "  yarn per stitch, give or take (two times in three)\n" +
           table(rows, {false, true, true, false}, 4);
    out += fmt::format(
        "    the swatches tell {} of {} kinds of stitches apart{}\n", calibration.rank,
        calibration.kinds.size(),
        std::isinf(calibration.condition.value())
            ? std::string()
            : fmt::format(
                  " (condition {}; above {} is shaky)",
                  units::number_text(calibration.condition, Step::tenth, Rounding::nearest),
                  units::plain_number(need::shaky_condition, Step::tenth, Rounding::nearest)));
    return out;
}

std::string band_text(const need::RoleNeed& role) {
    std::vector<need::Cause> causes = role.causes;
    if (role.shared.value() > 0.0)
        causes.push_back({"the label's length per mass", role.shared,
                          "Measure 10 yd of the yarn and weigh it."});
    std::stable_sort(causes.begin(), causes.end(), [](const need::Cause& a, const need::Cause& b) {
        return a.relative.value() > b.relative.value();
    });
    const double all = role.length.relative().value();
    const need::Cause& widest = causes.front();
    const auto tenths = [](double value) {
        return units::percent_text(Ratio(value), Step::tenth, Rounding::up);
    };
    std::string out = fmt::format("  give or take {} (two times in three), mostly {} ({})",
                                  tenths(all), widest.name, tenths(widest.relative.value()));
    constexpr double worth_naming = 0.1;  // of the band
    if (causes.size() > 1 && causes[1].relative.value() > worth_naming * all)
        out += fmt::format(", then {} ({})", causes[1].name, tenths(causes[1].relative.value()));
    // All that the same step narrows goes with it.
    double left = 0.0;
    for (const need::Cause& cause : causes)
        if (cause.what_narrows_it != widest.what_narrows_it)
            left = std::hypot(left, cause.relative.value());
    if (role.source != need::Source::swatch)
        left = std::max(std::min(left, all), std::min(all, need::usual::swatch_to_piece.value()));
    out += ".\n  " + widest.what_narrows_it;
    if (left < all) out += fmt::format(" That can narrow it to give or take {}.", tenths(left));
    return out + "\n";
}

}  // namespace skeinfall::report
