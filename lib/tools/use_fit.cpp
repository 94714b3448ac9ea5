#include "use_fit.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <stdexcept>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/data/class_grist.hpp"
#include "skeinfall/data/published_makes.hpp"

namespace skeinfall::fit {
namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

std::optional<double> number(std::string_view cell) {
    const auto found = base::number_first<double>(cell);
    if (!found) return std::nullopt;
    return found->value;
}

double needed(std::string_view cell, std::string_view row) {
    if (const auto value = number(cell)) return *value;
    throw std::runtime_error("published_makes.csv, " + std::string(row) + ": a number is missing");
}

/// How far the yarn of an area goes with its length per mass; what only a class tells shifts a
/// length by this and a weight by the rest.
constexpr double grist_power = 0.35;
constexpr double tool_power = 0.6;
/// Whole balls of an unknown size: the last one is thought to be this heavy.
constexpr double usual_ball_g = 50.0;

double area_of(const data::published_makes_row& row) {
    const double box = needed(row.width_cm, row.id) * needed(row.length_cm, row.id) / 1e4 *
                       needed(row.times, row.id);
    if (row.shape == "triangle") return box / 2.0;
    if (row.shape == "circle") return box * std::numbers::pi / 4.0;
    return box;
}

Make make_of(const data::published_makes_row& row) {
    Make out;
    out.id = row.id;
    out.page = row.source;
    out.evidence = row.evidence;
    out.weight = row.weight;
    out.fabric.knit = row.craft == "knit";
    out.fabric.stitch = row.stitch;
    out.fabric.shape = row.shape;
    out.fabric.texture = row.texture;
    out.fabric.tool_mm = number(row.tool_mm).value_or(0.0);
    out.fabric.stitches_per_sq_dm = number(row.stitches_per_sq_dm).value_or(0.0);
    out.fabric.area_sq_m = area_of(row);
    double grist = number(row.grist_m_per_100g).value_or(0.0);
    double class_spread = 0.0;
    if (!(grist > 0.0)) {
        const auto found = std::find_if(data::class_grist.begin(), data::class_grist.end(),
                                        [&](const auto& each) { return each.name == row.weight; });
        if (found == data::class_grist.end())
            throw std::runtime_error("published_makes.csv, " + std::string(row.id) +
                                     ": neither a length per mass nor a class");
        out.class_known = found->name;
        grist = needed(found->metres_per_100_g, found->name);
        class_spread = needed(found->spread, found->name);
    }
    const double strands = needed(row.strands, row.id);
    const bool by_mass = row.yarn_m.empty();
    const auto length = [&](double metres, double grams, bool mass) {
        return (mass ? grams * grist / 100.0 : metres) / strands / out.fabric.area_sq_m;
    };
    const double metres = number(row.yarn_m).value_or(0.0);
    const double grams = number(row.yarn_g).value_or(0.0);
    const double most = length(metres, grams, by_mass);
    if (!(most > 0.0)) throw std::runtime_error(std::string(row.id) + ": no yarn");
    out.log_use = std::log(most);
    out.log_least = out.log_use;
    if (row.evidence == "balls") {
        if (!row.least.empty()) {
            const double least = needed(row.least, row.id);
            out.log_least = std::log(length(least, least, row.least.back() == 'g'));
        } else {
            const double all_g = by_mass ? grams : metres * 100.0 / grist;
            out.log_least = out.log_use + std::log(std::max(0.5, 1.0 - usual_ball_g / all_g));
        }
    }
    out.from_class = class_spread * (by_mass ? 1.0 - grist_power : grist_power);
    out.fabric.grist = grist / strands;
    return out;
}

VectorXd vector_of(const std::vector<double>& values) {
    return Eigen::Map<const VectorXd>(values.data(), static_cast<Eigen::Index>(values.size()));
}

double usual_density(const VectorXd& gauge, const project::Fabric& fabric) {
    return 100.0 * std::exp(vector_of(project::gauge_columns(fabric)).dot(gauge));
}

double noise_of(const Make& make, const Scales& scales) {
    const double kind = scales.noise_of(make.evidence);
    const double tool = make.fabric.tool_mm > 0.0 ? 0.0 : tool_power * project::unknown_tool;
    return kind * kind + make.from_class * make.from_class + tool * tool;
}

/// What pages say as normal observations: a figure as it stands; of whole balls, which say no more
/// than between what and what the figure lies, the normal law that tells the same (see settle()).
struct Said {
    VectorXd seen;
    VectorXd variance;  ///< besides the noise
};

/// Before anything else is known: even within the interval.
Said said_evenly(const std::vector<Make>& makes) {
    const auto height = static_cast<Eigen::Index>(makes.size());
    Said out{VectorXd(height), VectorXd(height)};
    for (Eigen::Index i = 0; i < height; ++i) {
        const Make& make = makes[static_cast<std::size_t>(i)];
        const double width = make.log_use - make.log_least;
        out.seen[i] = 0.5 * (make.log_use + make.log_least);
        out.variance[i] = width * width / 12.0;
    }
    return out;
}

struct Moments {
    double mean = 0.0;
    double variance = 0.0;
};

/// Of a normal law cut off outside an interval.
Moments within(const Moments& law, double least, double most) {
    const double spread = std::sqrt(law.variance);
    const double low = (least - law.mean) / spread;
    const double high = (most - law.mean) / spread;
    const auto density = [](double z) {
        return std::exp(-0.5 * z * z) / std::sqrt(2.0 * std::numbers::pi);
    };
    const auto below = [](double z) { return 0.5 * std::erfc(-z / std::numbers::sqrt2); };
    const double share = below(high) - below(low);
    // So far off that nothing is left of it: the nearer end.
    if (share < 1e-9) return {low > 0.0 ? least : most, 1e-4};
    const double slope = (density(low) - density(high)) / share;
    const double bend = (low * density(low) - high * density(high)) / share;
    return {law.mean + spread * slope, std::max(1e-6, law.variance * (1.0 + bend - slope * slope))};
}

struct Normal {
    VectorXd mean;
    MatrixXd covariance;
};

/// A normal prior of independent coefficients, seen through rows of this covariance.
Normal posterior(const MatrixXd& rows, const VectorXd& seen, const MatrixXd& noise,
                 const VectorXd& mean, const VectorXd& spread) {
    const Eigen::LLT<MatrixXd> of_noise(noise);
    MatrixXd precision = rows.transpose() * of_noise.solve(rows);
    precision.diagonal() += spread.array().square().inverse().matrix();
    const VectorXd pull = rows.transpose() * of_noise.solve(seen - rows * mean);
    const Eigen::LLT<MatrixXd> solver(precision);
    Normal out;
    out.mean = mean + solver.solve(pull);
    out.covariance = solver.solve(MatrixXd::Identity(precision.rows(), precision.cols()));
    return out;
}

Normal gauge_fit(const std::vector<Make>& makes) {
    const std::vector<project::ColumnPrior> priors = project::gauge_priors();
    const auto width = static_cast<Eigen::Index>(priors.size());
    std::vector<const Make*> told;
    for (const Make& make : makes)
        if (make.fabric.stitches_per_sq_dm > 0.0) told.push_back(&make);
    const auto height = static_cast<Eigen::Index>(told.size());
    MatrixXd rows(height, width);
    VectorXd seen(height);
    for (Eigen::Index i = 0; i < height; ++i) {
        const project::Fabric& fabric = told[static_cast<std::size_t>(i)]->fabric;
        rows.row(i) = vector_of(project::gauge_columns(fabric)).transpose();
        seen[i] = std::log(fabric.stitches_per_sq_dm / 100.0);
    }
    VectorXd mean(width);
    VectorXd spread(width);
    for (Eigen::Index i = 0; i < width; ++i) {
        mean[i] = priors[static_cast<std::size_t>(i)].mean;
        spread[i] = priors[static_cast<std::size_t>(i)].spread;
    }
    const double variance = project::density_spread * project::density_spread;
    return posterior(rows, seen, MatrixXd::Identity(height, height) * variance, mean, spread);
}

/// All of the regression but its scales.
struct Design {
    MatrixXd rows;
    VectorXd mean;
    std::vector<project::ColumnPrior> priors;
    Said said;

    Design(const std::vector<Make>& makes, const VectorXd& gauge)
        : priors(project::use_priors()), said(said_evenly(makes)) {
        const auto height = static_cast<Eigen::Index>(makes.size());
        const auto width = static_cast<Eigen::Index>(priors.size());
        rows.resize(height, width);
        mean.resize(width);
        for (Eigen::Index i = 0; i < height; ++i) {
            const Make& make = makes[static_cast<std::size_t>(i)];
            rows.row(i) =
                vector_of(project::use_columns(make.fabric, usual_density(gauge, make.fabric),
                                               make.evidence == "stated"))
                    .transpose();
        }
        for (Eigen::Index i = 0; i < width; ++i) mean[i] = priors[static_cast<std::size_t>(i)].mean;
    }

    [[nodiscard]] VectorXd spread(const Scales& scales) const {
        VectorXd out(static_cast<Eigen::Index>(priors.size()));
        for (std::size_t i = 0; i < priors.size(); ++i)
            out[static_cast<Eigen::Index>(i)] = priors[i].of_stitch  ? scales.stitch
                                                : priors[i].of_shape ? scales.shape
                                                                     : priors[i].spread;
        return out;
    }
};

MatrixXd noise_of(const std::vector<Make>& makes, const Scales& scales, const Said& said) {
    const auto height = static_cast<Eigen::Index>(makes.size());
    MatrixXd out = MatrixXd::Zero(height, height);
    for (Eigen::Index i = 0; i < height; ++i) {
        const Make& one = makes[static_cast<std::size_t>(i)];
        out(i, i) += noise_of(one, scales) + said.variance[i];
        for (Eigen::Index j = 0; j < height; ++j)
            if (makes[static_cast<std::size_t>(j)].page == one.page)
                out(i, j) += scales.page * scales.page;
    }
    return out;
}

double log_likelihood(const Design& design, const std::vector<Make>& makes, const Scales& scales) {
    const VectorXd spread = design.spread(scales);
    const MatrixXd scaled = design.rows * spread.asDiagonal();
    const Eigen::LLT<MatrixXd> all(scaled * scaled.transpose() +
                                   noise_of(makes, scales, design.said));
    const VectorXd rest = design.said.seen - design.rows * design.mean;
    const MatrixXd root = all.matrixL();
    return -root.diagonal().array().log().sum() - 0.5 * rest.dot(all.solve(rest));
}

/// Whole balls by their interval's probability, never by its middle: each gets the normal
/// observation that, with all the rest, has the mean and the spread of the rest's law cut off
/// outside the interval (expectation propagation; Minka, Uncertainty in Artificial Intelligence
/// 2001; Rasmussen and Williams, Gaussian Processes for Machine Learning, 2006, section 3.6; both
/// from memory).
void settle(Design& design, const std::vector<Make>& makes, const Scales& scales) {
    constexpr int most_sweeps = 200;
    constexpr double settled = 1e-11;
    Said none = design.said;
    none.variance.setZero();
    const MatrixXd scaled = design.rows * design.spread(scales).asDiagonal();
    const MatrixXd before = scaled * scaled.transpose() + noise_of(makes, scales, none);
    const VectorXd middle = design.rows * design.mean;
    double moved = 1.0;
    for (int sweep = 0; sweep < most_sweeps && moved > settled; ++sweep) {
        moved = 0.0;
        const Said said = design.said;
        const Eigen::LLT<MatrixXd> all(before + MatrixXd(said.variance.asDiagonal()));
        const VectorXd after = middle + before * all.solve(said.seen - middle);
        const MatrixXd known = all.solve(before);
        for (Eigen::Index i = 0; i < said.seen.size(); ++i) {
            const Make& make = makes[static_cast<std::size_t>(i)];
            if (!(said.variance[i] > 0.0)) continue;
            const double variance = before(i, i) - before.row(i).dot(known.col(i));
            const double own = said.variance[i];
            Moments rest;
            rest.variance = 1.0 / (1.0 / variance - 1.0 / own);
            rest.mean = rest.variance * (after[i] / variance - said.seen[i] / own);
            const Moments cut = within(rest, make.log_least, make.log_use);
            const double precision = std::max(1e-6, 1.0 / cut.variance - 1.0 / rest.variance);
            const double seen = (cut.mean / cut.variance - rest.mean / rest.variance) / precision;
            moved =
                std::max({moved, std::abs(seen - said.seen[i]), std::abs(1.0 / precision - own)});
            design.said.seen[i] = seen;
            design.said.variance[i] = 1.0 / precision;
        }
    }
}

Design settled_design(const std::vector<Make>& makes, const VectorXd& gauge, const Scales& scales) {
    Design out(makes, gauge);
    settle(out, makes, scales);
    return out;
}

}  // namespace

std::vector<std::string> make_columns() {
    return {"id",
            "craft",
            "stitch",
            "texture",
            "tool_mm",
            "weight",
            "grist_m_per_100g",
            "strands",
            "stitches_per_sq_dm",
            "shape",
            "width_cm",
            "length_cm",
            "times",
            "yarn_m",
            "yarn_g",
            "least",
            "evidence",
            "status",
            "source"};
}

Make make_of(const std::vector<std::string>& c) {
    if (c.size() != make_columns().size())
        throw std::runtime_error("a make has other columns than published_makes.csv");
    return make_of(data::published_makes_row{c[0], c[1], c[2], c[3], c[4], c[5], c[6], c[7], c[8],
                                             c[9], c[10], c[11], c[12], c[13], c[14], c[15], c[16],
                                             c[17], c[18]});
}

std::vector<Make> published_makes() {
    std::vector<Make> out;
    for (const auto& row : data::published_makes) out.push_back(make_of(row));
    return out;
}

Fit fitted(const std::vector<Make>& makes, const Scales& scales) {
    Fit out;
    const Normal gauge = gauge_fit(makes);
    out.gauge = gauge.mean;
    out.gauge_covariance = gauge.covariance;
    const Design design = settled_design(makes, out.gauge, scales);
    const Normal use =
        posterior(design.rows, design.said.seen, noise_of(makes, scales, design.said), design.mean,
                  design.spread(scales));
    out.use = use.mean;
    out.use_covariance = use.covariance;
    out.scales = scales;
    out.log_likelihood = log_likelihood(design, makes, scales);
    return out;
}

Scales best_scales(const std::vector<Make>& makes, Scales start) {
    // Whole balls count here as even within their interval; the fit itself settles them.
    const Design design(makes, gauge_fit(makes).mean);
    // Below a hundredth nothing is told apart; above 1 nothing is told at all.
    constexpr double least = 0.03;
    constexpr double most = 1.0;
    double best = log_likelihood(design, makes, start);
    double step = 0.3;
    for (int sweep = 0; sweep < 4; ++sweep, step *= 0.5)
        for (double* const scale : start.all())
            for (const double times : {1.0 + step, 1.0 / (1.0 + step)})
                for (bool better = true; better;) {
                    const double before = *scale;
                    *scale = before * times;
                    const double now = *scale < least || *scale > most
                                           ? best - 1.0
                                           : log_likelihood(design, makes, start);
                    better = now > best + 1e-4;
                    if (better)
                        best = now;
                    else
                        *scale = before;
                }
    // Kept with three digits, so that one table gives one fit wherever it is built.
    for (double* const scale : start.all()) *scale = std::round(*scale * 1000.0) / 1000.0;
    return start;
}

Posed posed(const std::vector<Make>& makes, const Scales& scales) {
    const Design design = settled_design(makes, gauge_fit(makes).mean, scales);
    const auto height = static_cast<Eigen::Index>(makes.size());
    Posed out{design.rows,      design.said.seen,      noise_of(makes, scales, design.said),
              design.mean,      design.spread(scales), VectorXd(height),
              VectorXd(height), design.said.variance};
    for (Eigen::Index i = 0; i < height; ++i) {
        out.least[i] = makes[static_cast<std::size_t>(i)].log_least;
        out.most[i] = makes[static_cast<std::size_t>(i)].log_use;
    }
    return out;
}

Foretold foretold(const Fit& fit, const Make& make, bool as_stated) {
    const VectorXd columns =
        vector_of(project::use_columns(make.fabric, usual_density(fit.gauge, make.fabric),
                                       as_stated && make.evidence == "stated"));
    const double page = fit.scales.page;
    return {columns.dot(fit.use),
            std::sqrt(columns.dot(fit.use_covariance * columns) + page * page +
                      noise_of(make, fit.scales)),
            make.log_least, make.log_use};
}

}  // namespace skeinfall::fit
