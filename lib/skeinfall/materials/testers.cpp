#include "skeinfall/materials/testers.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>

#include "skeinfall/measure/few_readings.hpp"
#include "skeinfall/need/gauge.hpp"

namespace skeinfall::materials {
namespace {

units::Mass used_mass(const project::TesterReturn& one) {
    const units::Mass left = one.after ? one.after->shown.value : units::Mass{};
    return one.before.shown.value - left;
}

/// Variance of the logarithm that the scale's step alone makes.
double scale_variance(const project::TesterReturn& one) {
    const auto share = [&](const measure::Weighing& weighing) {
        return units::Ratio(measure::net_mass(weighing.reading()).spread / used_mass(one)).value();
    };
    const double before = share(one.before);
    const double after = one.after ? share(*one.after) : 0.0;
    return before * before + after * after;
}

bool off(double a, double b) {
    return std::abs(std::log(a / b)) > std::log1p(other_gauge.value());
}

/// How far the logarithm of one share lies from what the others let one expect, in deviations.
double distance(const std::vector<Taken>& taken, std::size_t of) {
    double sum = 0.0;
    for (std::size_t i = 0; i < taken.size(); ++i)
        if (i != of) sum += std::log(taken[i].of_model.value());
    const auto others = static_cast<double>(taken.size() - 1);
    const double mean = sum / others;
    double squares = 0.0;
    for (std::size_t i = 0; i < taken.size(); ++i)
        if (i != of) squares += std::pow(std::log(taken[i].of_model.value()) - mean, 2);
    const double belief = belief_in_returns.value();
    const double variance = (belief * between_makers.value() * between_makers.value() + squares) /
                            (belief + others - 1.0);
    return std::abs(std::log(taken[of].of_model.value()) - mean) /
           std::sqrt(variance * (1.0 + 1.0 / others));
}

/// Of two returns that differ nobody knows which is wrong.
void leave_out_far_off(const project::Project& project, TesterSummary& out,
                       std::vector<double>& scales) {
    constexpr std::size_t enough = 3;
    while (out.taken.size() >= enough) {
        std::size_t farthest = out.taken.size();
        double most = far_off_deviations.value();
        for (std::size_t i = 0; i < out.taken.size(); ++i) {
            if (project.testers[out.taken[i].index].confirmed) continue;
            const double off = distance(out.taken, i);
            if (off <= most) continue;
            most = off;
            farthest = i;
        }
        if (farthest == out.taken.size()) return;
        const auto at = static_cast<std::ptrdiff_t>(farthest);
        out.far_off.push_back(out.taken[farthest]);
        out.taken.erase(out.taken.begin() + at);
        scales.erase(scales.begin() + at);
    }
}

}  // namespace

TesterSummary summary_of(const project::Project& project, const project::Role& role,
                         const std::vector<units::Length>& model, measure::Chance share) {
    TesterSummary out;
    out.share = share;
    std::vector<double> scales;
    for (std::size_t index = 0; index < project.testers.size(); ++index) {
        const project::TesterReturn& one = project.testers[index];
        if (one.role != role.id || model.at(one.size) <= units::Length{}) continue;
        Taken taken;
        taken.index = index;
        taken.used = used_mass(one) * (one.grist ? *one.grist : role.grist.value().value);
        double of_model = taken.used / model[one.size];
        if (one.stitches && one.rows) {
            project::Gauge own = project.gauge;
            own.stitches = *one.stitches;
            own.rows = *one.rows;
            if (off(own.stitches / project.gauge.stitches, 1.0) ||
                off(own.rows / project.gauge.rows, 1.0)) {
                out.left_out.push_back(index);
                continue;
            }
            const units::Ratio more =
                need::gauge_change(project.gauge, own, need::Keeping::stitch_counts).yarn;
            of_model /= more.value();
            taken.gauge_corrected = own.stitches.value() != project.gauge.stitches.value() ||
                                    own.rows.value() != project.gauge.rows.value();
        }
        taken.of_model = units::Ratio(of_model);
        scales.push_back(scale_variance(one));
        out.taken.push_back(taken);
    }
    leave_out_far_off(project, out, scales);
    if (out.taken.empty()) return out;
    const auto n = static_cast<double>(out.taken.size());
    double sum = 0.0;
    double least = out.taken.front().of_model.value();
    double most = least;
    for (const Taken& one : out.taken) {
        sum += std::log(one.of_model.value());
        least = std::min(least, one.of_model.value());
        most = std::max(most, one.of_model.value());
    }
    const double mean = sum / n;
    double squares = 0.0;
    for (const Taken& one : out.taken)
        squares += std::pow(std::log(one.of_model.value()) - mean, 2);
    // Returns that agree to the gram are no proof that makers do not differ by less than a step.
    const double steps = std::accumulate(scales.begin(), scales.end(), 0.0);
    squares = std::max(squares, steps / n * (n - 1.0));
    const double belief = belief_in_returns.value();
    const double degrees = belief + n - 1.0;
    const double variance =
        (belief * between_makers.value() * between_makers.value() + squares) / degrees;
    const double deviations = measure::deviations_for(share, units::Ratio(degrees)).value();
    out.least = units::Ratio(least);
    out.most = units::Ratio(most);
    out.middle = units::Ratio(std::exp(mean));
    out.bound = units::Ratio(
        std::max(most, std::exp(mean + deviations * std::sqrt(variance * (1.0 + 1.0 / n)))));
    return out;
}

}  // namespace skeinfall::materials
