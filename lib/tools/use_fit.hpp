#pragma once
/// \file
/// The regression of yarn use on published makes: partial pooling over stitches and shapes, effects
/// of a page (its maker, yarn and arithmetic), a noise for each class of evidence. Linear and
/// normal in logarithms, so closed in form once its scales are known; these are those of the
/// greatest marginal likelihood. Gelman et al., Bayesian Data Analysis, chapters 14 and 15 (from
/// memory). Used by fit_yarn_use, which writes what the library reads, and by left_out_makes.

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include <Eigen/Dense>

#include "skeinfall/project/detail/use_columns.hpp"

namespace skeinfall::fit {

struct Make {
    std::string_view id;
    std::string_view page;
    project::Fabric fabric;
    std::string_view evidence;     ///< "exact", "stated", "balls"
    std::string_view weight;       ///< class as the page names it
    std::string_view class_known;  ///< what its length per mass was taken from, when a class only
    double log_use = 0.0;          ///< of m in a square m; of whole balls the most it can be
    double log_least = 0.0;        ///< of whole balls; else log_use
    double from_class = 0.0;       ///< spread of log_use where only a class tells the thickness
};

/// The rows of published_makes.csv. Throws std::runtime_error at one that cannot be read.
[[nodiscard]] std::vector<Make> published_makes();
/// A make that is not in the table, from its cells in the table's order; they have to outlive it.
[[nodiscard]] Make make_of(const std::vector<std::string>& cells);
/// The table's columns in order.
[[nodiscard]] std::vector<std::string> make_columns();

/// Standard deviations of logarithms.
struct Scales {
    double stitch = 0.15;
    double shape = 0.15;
    double page = 0.2;
    double exact = 0.12;
    double stated = 0.1;
    double balls = 0.1;

    [[nodiscard]] std::array<double*, 6> all() {
        return {&stitch, &shape, &page, &exact, &stated, &balls};
    }
    [[nodiscard]] double noise_of(std::string_view evidence) const {
        return evidence == "exact" ? exact : evidence == "stated" ? stated : balls;
    }
};

struct Fit {
    Eigen::VectorXd gauge;  ///< coefficients of gauge_columns()
    Eigen::MatrixXd gauge_covariance;
    Eigen::VectorXd use;  ///< coefficients of use_columns()
    Eigen::MatrixXd use_covariance;
    Scales scales;
    double log_likelihood = 0.0;
};

[[nodiscard]] Fit fitted(const std::vector<Make>& makes, const Scales& scales);
[[nodiscard]] Scales best_scales(const std::vector<Make>& makes, Scales start);

/// The regression as another program may solve it: `seen` is normal about `rows` times the
/// coefficients with covariance `noise`, the coefficients about `mean` with `spread`.
struct Posed {
    Eigen::MatrixXd rows;
    Eigen::VectorXd seen;
    Eigen::MatrixXd noise;
    Eigen::VectorXd mean;
    Eigen::VectorXd spread;
    Eigen::VectorXd least;  ///< of whole balls the ends of their interval; else both as seen
    Eigen::VectorXd most;
    Eigen::VectorXd of_interval;  ///< what `noise` holds for an interval's width; else 0
};
[[nodiscard]] Posed posed(const std::vector<Make>& makes, const Scales& scales);

/// Of a make's log_use by a fit without its page, beside what the page says.
struct Foretold {
    double mean = 0.0;
    double spread = 0.0;
    double least = 0.0;  ///< of whole balls the least it can be; else as `most`
    double most = 0.0;

    /// The page's figure over the foretold one, as a logarithm; 0 inside the interval.
    [[nodiscard]] double rest() const {
        return mean > most ? most - mean : mean < least ? least - mean : 0.0;
    }
};
[[nodiscard]] Foretold foretold(const Fit& fit, const Make& make, bool as_stated = true);

}  // namespace skeinfall::fit
