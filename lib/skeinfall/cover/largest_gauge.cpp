#include <cmath>
#include <cstdint>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/cover/largest.hpp"
#include "skeinfall/measure/propagate.hpp"
#include "skeinfall/need/gauge.hpp"
#include "skeinfall/units/format.hpp"

namespace skeinfall::cover {
namespace {

using units::Ratio;

const units::StitchGauge half_stitch = 0.5 * units::shown::per_4in.one;

/// The need when every stitch takes so much more or less yarn; that is a cause of the band.
need::MakeNeed scaled(need::MakeNeed need, Ratio by) {
    const Ratio spread = measure::within(Ratio(std::abs(std::log(by.value()))));
    for (need::RoleNeed& role : need.roles) {
        role.length.centre *= by.value();
        role.length.spread = units::Length::from_value(std::hypot(
            role.length.spread.value() * by.value(), role.length.centre.value() * spread.value()));
        role.causes.push_back({"a gauge that was not worked yet", spread,
                               "Work a swatch at that gauge and weigh it."});
        role.may_be_less *= by.value();
        if (role.stated_between) {
            role.stated_between->least *= by.value();
            role.stated_between->most *= by.value();
        }
        for (need::Part& part : role.parts) part.yarn *= by.value();
    }
    for (need::Step& step : need.steps) step.yarn *= by.value();
    return need;
}

class ByGauge {
  public:
    ByGauge(const project::Project& project, std::size_t size,
            const std::vector<stash::Skein>& stash, const Rules& rules, std::size_t piece)
        : project_(project),
          stash_(stash),
          rules_(rules),
          need_(need::need_of(project, size)),
          gauge_(project::gauge_of(project, project.pieces[piece])),
          size_(project::finished_size(project, project.pieces[piece], size)) {}

    /// So many half stitches to 4 in; the counts kept, or the size.
    [[nodiscard]] AtGauge at(std::int64_t halves, need::Keeping keeping) const {
        return at_gauge(static_cast<double>(halves) * half_stitch, keeping);
    }

    [[nodiscard]] AtGauge at_gauge(units::StitchGauge stitches, need::Keeping keeping) const {
        project::Gauge maker = gauge_;
        maker.stitches = stitches;
        maker.rows = gauge_.rows * (stitches / gauge_.stitches);
        const need::GaugeChange change = need::gauge_change(gauge_, maker, keeping);
        const MakeCover cover = cover_make(project_, scaled(need_, change.yarn), stash_, rules_);
        return {maker.stitches,
                maker.rows,
                {size_.width * change.width.value(), size_.length * change.height.value()},
                cover.chance,
                cover.verdict};
    }

    [[nodiscard]] units::StitchGauge planned() const { return gauge_.stitches; }

  private:
    const project::Project& project_;
    const std::vector<stash::Skein>& stash_;
    const Rules& rules_;
    need::MakeNeed need_;
    project::Gauge gauge_;
    project::FinishedSize size_;
};

/// The value nearest to `far` for which the make is sure, where it is at `sure` if anywhere: less
/// yarn is needed the nearer to `sure`.
std::optional<AtGauge> nearest_to(std::int64_t far, std::int64_t sure, const ByGauge& make,
                                  need::Keeping keeping) {
    const auto covered = [&](std::int64_t halves) {
        return make.at(halves, keeping).verdict == Verdict::covered;
    };
    if (!covered(sure)) return std::nullopt;
    while (std::abs(sure - far) > 1) {
        const std::int64_t middle = (sure + far) / 2;
        (covered(middle) ? sure : far) = middle;
    }
    return make.at(covered(far) ? far : sure, keeping);
}

}  // namespace

LargestByGauge largest_by_gauge(const project::Project& project, std::size_t size,
                                const std::vector<stash::Skein>& stash, const Rules& rules,
                                std::size_t piece) {
    if (!rules.done.empty())
        throw base::InputError(
            base::Problem{"rows of it are worked already, so its gauge is settled",
                          {.file = project.file, .line = 0, .column = 0},
                          "rows or count",
                          "Ask how many rows it may still become."});
    const ByGauge make(project, size, stash, rules, piece);
    LargestByGauge out;
    out.piece = piece;
    out.planned = make.at_gauge(make.planned(), need::Keeping::stitch_counts);
    const double halves = make.planned() / half_stitch;
    const auto loosest =
        static_cast<std::int64_t>(std::ceil(halves * (1.0 - gauge_at_most.value())));
    const auto tightest =
        static_cast<std::int64_t>(std::floor(halves * (1.0 + gauge_at_most.value())));
    if (loosest < 1 || loosest > tightest) return out;
    out.counts = nearest_to(loosest, tightest, make, need::Keeping::stitch_counts);
    if (out.planned.verdict != Verdict::covered)
        out.size = nearest_to(tightest, loosest, make, need::Keeping::size);
    return out;
}

}  // namespace skeinfall::cover
