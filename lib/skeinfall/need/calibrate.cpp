#include "skeinfall/need/calibrate.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <stdexcept>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/need/detail/least_squares.hpp"

namespace skeinfall::need {
namespace {

class Calibrating {
  public:
    Calibrating(const std::vector<CountedSwatch>& swatches,
                const std::vector<project::OwnStitch>& own)
        : swatches_(swatches) {
        if (swatches.empty()) throw std::invalid_argument("no swatch to calibrate from");
        for (std::size_t row = 0; row < swatches.size(); ++row) count(row, own);
        grouped_.assign(counts_.size(), false);
    }

    Calibration run() {
        LeastSquares fit = fitted();
        out_.rank = fit.rank;
        out_.condition = units::Ratio(fit.condition);
        note_condition();
        // Every turn puts one kind more under the ratios of the table, so this ends.
        for (bool first = true; join_shaky(fit, first); first = false) fit = fitted();
        write(fit);
        return std::move(out_);
    }

  private:
    void count(std::size_t row, const std::vector<project::OwnStitch>& own) {
        const auto& yarn = swatches_[row].yarn;
        if (!(yarn.centre > units::Length{}) || !(yarn.spread > units::Length{}))
            throw std::invalid_argument("a swatch needs yarn and a spread above 0");
        double stitches = 0.0;
        for (const project::KindCount& part : swatches_[row].kinds) {
            if (!(part.count > units::StitchCount{})) continue;
            std::size_t at = 0;
            while (at < out_.kinds.size() && out_.kinds[at].kind != part.kind) ++at;
            if (at == out_.kinds.size()) {
                out_.kinds.push_back({part.kind, {}, true, false});
                counts_.emplace_back(swatches_.size(), 0.0);
                const double ratio =
                    project::relative_yarn(part.kind, own).value_or(units::Ratio(1.0)).value();
                ratios_.push_back(ratio > 0.0 ? ratio : 1.0);
            }
            counts_[at][row] += part.count / units::stitch;
            stitches += part.count / units::stitch;
        }
        if (!(stitches > 0.0)) throw std::invalid_argument("a swatch without stitches");
    }

    /// Columns of the kinds that stand alone, then one of those under the table's ratios.
    LeastSquares fitted() {
        Columns columns;
        column_of_.assign(counts_.size(), 0);
        std::vector<double> together(swatches_.size(), 0.0);
        const bool any = std::find(grouped_.begin(), grouped_.end(), true) != grouped_.end();
        for (std::size_t kind = 0; kind < counts_.size(); ++kind) {
            if (!grouped_[kind]) {
                column_of_[kind] = columns.size();
                columns.push_back(counts_[kind]);
            }
            for (std::size_t row = 0; grouped_[kind] && row < together.size(); ++row)
                together[row] += ratios_[kind] * counts_[kind][row];
        }
        for (std::size_t kind = 0; kind < counts_.size(); ++kind)
            if (grouped_[kind]) column_of_[kind] = columns.size();
        if (any) columns.push_back(together);
        std::vector<double> yarn;
        for (std::size_t row = 0; row < swatches_.size(); ++row) {
            const double spread = swatches_[row].yarn.spread.value();
            yarn.push_back(swatches_[row].yarn.centre.value() / spread);
            for (std::vector<double>& column : columns) column[row] /= spread;
        }
        LeastSquares fit = non_negative_least_squares(columns, yarn);
        // Swatches that agree worse than their spreads say are not as sure as those.
        const double free = static_cast<double>(yarn.size()) - static_cast<double>(fit.rank);
        const double misfit = free > 0.0 ? fit.residual_squared / free : 1.0;
        for (std::vector<double>& row : fit.covariance)
            for (double& value : row) value *= std::max(1.0, misfit);
        return fit;
    }

    static bool shaky(const LeastSquares& fit, std::size_t column) {
        return !fit.determined[column] || fit.held[column] ||
               std::sqrt(fit.covariance[column][column]) >= fit.x[column];
    }

    /// Puts the kinds that the fit does not tell under the ratios; false when nothing changes.
    bool join_shaky(const LeastSquares& fit, bool first) {
        bool any = false;
        bool collinear = false;
        bool changed = false;
        for (std::size_t kind = 0; kind < counts_.size(); ++kind) {
            if (!shaky(fit, column_of_[kind])) continue;
            any = true;
            collinear = collinear || !fit.determined[column_of_[kind]];
            if (grouped_[kind]) continue;
            out_.kinds[kind].identified = false;
            grouped_[kind] = true;
            changed = true;
        }
        if (!any || (first && collinear)) return changed;
        // Kinds that came out at nothing lean on the one that holds the most yarn.
        const std::size_t most = heaviest_alone();
        if (most == counts_.size()) return changed;
        grouped_[most] = true;
        return true;
    }

    /// Of the kinds not under the ratios; the number of kinds when there is none.
    [[nodiscard]] std::size_t heaviest_alone() const {
        std::size_t most = counts_.size();
        double yarn = -1.0;
        for (std::size_t kind = 0; kind < counts_.size(); ++kind) {
            double sum = 0.0;
            for (const double value : counts_[kind]) sum += value * ratios_[kind];
            if (grouped_[kind] || sum <= yarn) continue;
            yarn = sum;
            most = kind;
        }
        return most;
    }

    /// Yarn of the kinds under the table's ratios, in all swatches together.
    [[nodiscard]] std::vector<double> grouped_yarn() const {
        std::vector<double> out(counts_.size(), 0.0);
        for (std::size_t kind = 0; kind < counts_.size(); ++kind)
            for (const double count : counts_[kind])
                if (grouped_[kind]) out[kind] += count * ratios_[kind];
        return out;
    }

    void write(const LeastSquares& fit) {
        const std::vector<double> yarn = grouped_yarn();
        const double all = std::accumulate(yarn.begin(), yarn.end(), 0.0);
        std::vector<std::string> unidentified;
        for (std::size_t kind = 0; kind < counts_.size(); ++kind) {
            const double times = grouped_[kind] ? ratios_[kind] : 1.0;
            KindRate& rate = out_.kinds[kind];
            rate.yarn.centre = times * fit.x[column_of_[kind]] * units::metre / units::stitch;
            rate.by_ratio = grouped_[kind];
            out_.weighted.push_back({column_of_[kind], units::Ratio(times),
                                     units::Ratio(grouped_[kind] ? yarn[kind] / all : 0.0)});
            if (!rate.identified) unidentified.push_back(rate.kind);
        }
        for (const std::vector<double>& row : fit.covariance)
            out_.covariance.emplace_back(row.begin(), row.end());
        for (KindRate& rate : out_.kinds)
            rate.yarn.spread = out_.spread_of({{rate.kind, 1.0 * units::stitch}}) / units::stitch;
        for (std::size_t row = 0; row < swatches_.size(); ++row) {
            units::Length rest = swatches_[row].yarn.centre;
            for (std::size_t kind = 0; kind < counts_.size(); ++kind)
                rest -= counts_[kind][row] * units::stitch * out_.kinds[kind].yarn.centre;
            out_.residuals.push_back(rest);
        }
        if (!unidentified.empty())
            out_.notes.push_back(fmt::format(
                "these swatches do not show the yarn of {} alone, so the usual ratio between "
                "stitches is used; a swatch with another mix of stitches would show it",
                base::join(unidentified, " and ")));
    }

    void note_condition() {
        if (out_.rank == counts_.size() && out_.condition > shaky_condition)
            out_.notes.push_back(
                fmt::format("the swatches mix their stitches nearly alike (condition {:.0f}); one "
                            "with another mix would make single rates surer",
                            out_.condition.value()));
    }

    const std::vector<CountedSwatch>& swatches_;
    Calibration out_;
    Columns counts_;  ///< of each kind, by swatch
    std::vector<double> ratios_;
    std::vector<bool> grouped_;
    std::vector<std::size_t> column_of_;
};

}  // namespace

const KindRate* Calibration::find(const std::string& kind) const {
    const auto found = std::find_if(kinds.begin(), kinds.end(),
                                    [&](const KindRate& rate) { return rate.kind == kind; });
    return found == kinds.end() ? nullptr : &*found;
}

units::Length Calibration::spread_of(const std::vector<project::KindCount>& stitches) const {
    std::vector<double> counts(covariance.size(), 0.0);
    std::vector<double> by_ratio(kinds.size(), 0.0);  // yarn under the ratios of the table
    double together = 0.0;
    for (const project::KindCount& part : stitches)
        for (std::size_t i = 0; i < kinds.size(); ++i) {
            if (kinds[i].kind != part.kind) continue;
            const double count = part.count / units::stitch;
            counts[weighted[i].unknown] += count * weighted[i].times.value();
            if (!kinds[i].by_ratio) continue;
            by_ratio[i] += count * kinds[i].yarn.centre.value();
            together += count * kinds[i].yarn.centre.value();
        }
    double variance = 0.0;
    for (std::size_t i = 0; i < counts.size(); ++i)
        for (std::size_t j = 0; j < counts.size(); ++j)
            variance += counts[i] * covariance[i][j].value() * counts[j];
    // The spread of a ratio is shared by its two kinds. Only what is mixed otherwise than in the
    // swatches errs.
    double by_table = 0.0;
    for (std::size_t i = 0; i < kinds.size(); ++i) {
        const double of_a_kind =
            project::relative_yarn_spread_of(kinds[i].kind).value() / std::sqrt(2.0);
        by_table =
            std::hypot(by_table, of_a_kind * (by_ratio[i] - weighted[i].share.value() * together));
    }
    return std::hypot(std::sqrt(std::max(0.0, variance)), by_table) * units::metre;
}

Calibration calibrate(const std::vector<CountedSwatch>& swatches,
                      const std::vector<project::OwnStitch>& own) {
    return Calibrating(swatches, own).run();
}

}  // namespace skeinfall::need
