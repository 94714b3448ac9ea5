#pragma once
/// \file
/// Small least squares problems whose unknowns must not be negative. Inner header of need; our own
/// because the numerical library of the base system (Eigen 3.4) has no such solver yet.

#include <cstddef>
#include <vector>

namespace skeinfall::need {

/// Pure numbers, column by column; all columns have one length.
using Columns = std::vector<std::vector<double>>;

/// Least squares of |A x - b| with what it says about itself.
struct LeastSquares {
    std::vector<double> x;
    Columns covariance;            ///< of x for errors of b of 1; 0 where x is held at 0
    std::vector<bool> determined;  ///< false: another x fits as well (collinear columns)
    std::vector<bool> held;        ///< kept at 0 because the best fit is not above it
    double residual_squared = 0.0;
    std::size_t rank = 0;
    double condition = 0.0;  ///< of A with columns scaled to length 1; infinite below full rank
};

/// The x >= 0 that fits best, by the active sets of Lawson and Hanson (Solving Least Squares
/// Problems, 1974, from memory). `rank`, `condition` and `determined` are those of all columns.
[[nodiscard]] LeastSquares non_negative_least_squares(const Columns& columns,
                                                      const std::vector<double>& b);

}  // namespace skeinfall::need
