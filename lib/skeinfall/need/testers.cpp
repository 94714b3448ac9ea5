#include "skeinfall/need/testers.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/measure/few_readings.hpp"
#include "skeinfall/need/gauge.hpp"

namespace skeinfall::need {
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
        const bool settled = one.of_plan.has_value();
        if (one.role != role.id || (!settled && model.at(one.size) <= units::Length{})) continue;
        Taken taken;
        taken.index = index;
        taken.used = used_mass(one) * (one.grist ? *one.grist : role.grist.value().value);
        double of_model = settled ? one.of_plan->value() : (taken.used / model[one.size]).value();
        if (one.stitches && one.rows) {
            project::Gauge own = project.gauge;
            own.stitches = *one.stitches;
            own.rows = *one.rows;
            if (off(own.stitches / project.gauge.stitches, 1.0) ||
                off(own.rows / project.gauge.rows, 1.0)) {
                out.left_out.push_back(index);
                continue;
            }
            const units::Ratio more = gauge_change(project.gauge, own, Keeping::stitch_counts).yarn;
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
    out.scatter = units::Ratio(std::sqrt(variance));
    out.bound = units::Ratio(
        std::max(most, std::exp(mean + deviations * std::sqrt(variance * (1.0 + 1.0 / n)))));
    return out;
}

namespace {

/// What is worked out without them, by role; sizes that nobody asks for stay 0.
std::map<std::string, std::vector<units::Length>> without_returns(
    const project::Project& project, const std::set<std::size_t>& sizes) {
    project::Project without = project;
    without.testers.clear();
    std::map<std::string, std::vector<units::Length>> out;
    for (const std::size_t one : sizes)
        for (const RoleNeed& need : need_of(without, one).roles) {
            auto& lengths = out[need.role];
            lengths.resize(project.size_count());
            lengths[one] = need.length.centre;
        }
    return out;
}

std::set<std::size_t> sizes_returned(const project::Project& project) {
    std::set<std::size_t> out;
    for (const project::TesterReturn& one : project.testers)
        if (!one.of_plan) out.insert(one.size);
    return out;
}

}  // namespace

project::Project with_returns_told(project::Project project) {
    const bool told =
        std::all_of(project.testers.begin(), project.testers.end(),
                    [](const project::TesterReturn& one) { return one.of_plan.has_value(); });
    if (told) return project;
    const auto model = without_returns(project, sizes_returned(project));
    for (project::TesterReturn& one : project.testers) {
        const auto lengths = model.find(one.role);
        const project::Role* role = project.role(one.role);
        if (one.of_plan || lengths == model.end() || role == nullptr) continue;
        const units::Length worked_out = lengths->second.at(one.size);
        if (!(worked_out > units::Length{}) || !(one.grist || role->grist)) continue;
        one.of_plan = units::Ratio(used_mass(one) * (one.grist ? *one.grist : role->grist->value) /
                                   worked_out);
    }
    return project;
}

std::map<std::string, Rate> rates_of_returns(const project::Project& project, std::size_t size) {
    std::map<std::string, Rate> out;
    if (project.testers.empty()) return out;
    std::set<std::size_t> sizes = sizes_returned(project);
    sizes.insert(size);
    const auto model = without_returns(project, sizes);
    for (const project::Role& role : project.roles) {
        const auto lengths = model.find(role.id);
        if (lengths == model.end() || !role.grist) continue;
        const TesterSummary returns = summary_of(project, role, lengths->second);
        if (returns.taken.empty()) continue;
        Rate rate;
        rate.whole = returns.middle * lengths->second[size];
        rate.grist = role.grist->value;
        rate.source = Source::testers;
        rate.short_name = "testers' returns";
        rate.other_hand = true;
        rate.how = returns.taken.size() == 1
                       ? std::string("from a tester's return")
                       : fmt::format("from {} testers' returns", returns.taken.size());
        const auto n = static_cast<double>(returns.taken.size());
        rate.causes.push_back(
            {"how few testers there are", returns.scatter / std::sqrt(n), "Ask for more returns."});
        rate.between_hands = returns.scatter;
        out.emplace(role.id, std::move(rate));
    }
    return out;
}

}  // namespace skeinfall::need
