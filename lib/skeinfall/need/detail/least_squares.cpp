#include "skeinfall/need/detail/least_squares.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace skeinfall::need {
namespace {

constexpr double tiny = 1e-10;  // of columns scaled to length 1

double dot(const std::vector<double>& a, const std::vector<double>& b) {
    return std::inner_product(a.begin(), a.end(), b.begin(), 0.0);
}

/// Turns columns p and q of `m` by one angle.
void rotate(Columns& m, std::size_t p, std::size_t q, double c, double s) {
    for (std::size_t i = 0; i < m[p].size(); ++i) {
        const double a = m[p][i];
        const double b = m[q][i];
        m[p][i] = c * a - s * b;
        m[q][i] = s * a + c * b;
    }
}

/// A = U S V^T by one-sided Jacobi turns: `us` holds the columns of U S.
struct Decomposed {
    Columns us;
    Columns v;
    std::vector<double> singular;

    explicit Decomposed(Columns columns) : us(std::move(columns)) {
        const std::size_t n = us.size();
        v.assign(n, std::vector<double>(n, 0.0));
        for (std::size_t i = 0; i < n; ++i) v[i][i] = 1.0;
        constexpr int most_sweeps = 60;
        bool turned = true;
        for (int sweep = 0; turned && sweep < most_sweeps; ++sweep) {
            turned = false;
            for (std::size_t p = 0; p + 1 < n; ++p)
                for (std::size_t q = p + 1; q < n; ++q) turned = turn(p, q) || turned;
        }
        for (const std::vector<double>& column : us)
            singular.push_back(std::sqrt(dot(column, column)));
    }

    [[nodiscard]] double largest() const {
        return singular.empty() ? 0.0 : *std::max_element(singular.begin(), singular.end());
    }
    [[nodiscard]] bool empty_direction(std::size_t k) const {
        return singular[k] <= tiny * largest();
    }

  private:
    bool turn(std::size_t p, std::size_t q) {
        const double a = dot(us[p], us[p]);
        const double b = dot(us[q], us[q]);
        const double c = dot(us[p], us[q]);
        constexpr double done = 1e-15;
        if (c == 0.0 || std::abs(c) <= done * std::sqrt(a * b)) return false;
        const double zeta = (b - a) / (2.0 * c);
        const double t = std::copysign(1.0, zeta) / (std::abs(zeta) + std::hypot(1.0, zeta));
        const double cosine = 1.0 / std::hypot(1.0, t);
        rotate(us, p, q, cosine, cosine * t);
        rotate(v, p, q, cosine, cosine * t);
        return true;
    }
};

struct Solved {
    std::vector<double> x;
    Columns covariance;
};

Columns square_of_nothing(std::size_t n) {
    return Columns(n, std::vector<double>(n, 0.0));
}

/// The shortest x that fits the columns best.
Solved solved(const Columns& columns, const std::vector<double>& b) {
    const Decomposed parts(columns);
    Solved out{std::vector<double>(columns.size(), 0.0), square_of_nothing(columns.size())};
    for (std::size_t k = 0; k < columns.size(); ++k) {
        if (parts.empty_direction(k)) continue;
        const double square = parts.singular[k] * parts.singular[k];
        const double along = dot(parts.us[k], b) / square;
        for (std::size_t i = 0; i < columns.size(); ++i) {
            out.x[i] += parts.v[k][i] * along;
            for (std::size_t j = 0; j < columns.size(); ++j)
                out.covariance[i][j] += parts.v[k][i] * parts.v[k][j] / square;
        }
    }
    return out;
}

/// Lawson and Hanson's sets: columns that are free, the others held at 0.
class ActiveSets {
  public:
    ActiveSets(const Columns& columns, const std::vector<double>& b)
        : columns_(columns), b_(b), free_(columns.size(), false), x_(columns.size(), 0.0) {}

    void run() {
        const std::size_t most_steps = 10 * columns_.size() + 10;
        for (std::size_t step = 0; step < most_steps; ++step) {
            const std::size_t next = steepest();
            if (next == columns_.size()) return;
            free_[next] = true;
            while (!settle()) {
            }
        }
    }

    [[nodiscard]] const std::vector<bool>& free() const { return free_; }
    [[nodiscard]] const std::vector<double>& x() const { return x_; }
    [[nodiscard]] Solved among_free() const {
        Columns chosen;
        std::vector<std::size_t> which;
        for (std::size_t i = 0; i < columns_.size(); ++i) {
            if (!free_[i]) continue;
            chosen.push_back(columns_[i]);
            which.push_back(i);
        }
        const Solved some = solved(chosen, b_);
        Solved all{std::vector<double>(columns_.size(), 0.0), square_of_nothing(columns_.size())};
        for (std::size_t i = 0; i < which.size(); ++i) {
            all.x[which[i]] = some.x[i];
            for (std::size_t j = 0; j < which.size(); ++j)
                all.covariance[which[i]][which[j]] = some.covariance[i][j];
        }
        return all;
    }
    [[nodiscard]] std::vector<double> residual() const {
        std::vector<double> out = b_;
        for (std::size_t i = 0; i < columns_.size(); ++i)
            for (std::size_t row = 0; row < out.size(); ++row) out[row] -= columns_[i][row] * x_[i];
        return out;
    }

  private:
    /// The held column that lowers the misfit fastest; the number of columns when none does.
    [[nodiscard]] std::size_t steepest() const {
        const std::vector<double> rest = residual();
        std::size_t best = columns_.size();
        double most = tiny * std::sqrt(dot(b_, b_));
        for (std::size_t i = 0; i < columns_.size(); ++i) {
            const double slope = free_[i] ? 0.0 : dot(columns_[i], rest);
            if (slope > most) {
                most = slope;
                best = i;
            }
        }
        return best;
    }

    /// Goes towards the free columns' fit; false when one ran into 0 on the way and is held now.
    bool settle() {
        const std::vector<double> wanted = among_free().x;
        double way = 1.0;
        for (std::size_t i = 0; i < x_.size(); ++i)
            if (free_[i] && wanted[i] <= 0.0)
                way = std::min(way, x_[i] <= 0.0 ? 0.0 : x_[i] / (x_[i] - wanted[i]));
        bool all_above = true;
        for (std::size_t i = 0; i < x_.size(); ++i) {
            if (!free_[i]) continue;
            x_[i] += way * (wanted[i] - x_[i]);
            if (wanted[i] > 0.0 || x_[i] > tiny * std::abs(wanted[i])) continue;
            x_[i] = 0.0;
            free_[i] = false;
            all_above = false;
        }
        return all_above;
    }

    const Columns& columns_;
    const std::vector<double>& b_;
    std::vector<bool> free_;
    std::vector<double> x_;
};

}  // namespace

LeastSquares non_negative_least_squares(const Columns& columns, const std::vector<double>& b) {
    LeastSquares out;
    Columns unit = columns;
    std::vector<double> lengths;
    for (std::vector<double>& column : unit) {
        lengths.push_back(std::sqrt(dot(column, column)));
        if (lengths.back() > 0.0)
            for (double& value : column) value /= lengths.back();
    }
    const Decomposed parts(unit);
    out.determined.assign(columns.size(), true);
    double smallest = std::numeric_limits<double>::infinity();
    for (std::size_t k = 0; k < columns.size(); ++k) {
        smallest = std::min(smallest, parts.singular[k]);
        if (!parts.empty_direction(k)) {
            ++out.rank;
            continue;
        }
        constexpr double noticeable = 1e-7;
        for (std::size_t i = 0; i < columns.size(); ++i)
            if (std::abs(parts.v[k][i]) > noticeable) out.determined[i] = false;
    }
    out.condition = out.rank == columns.size() ? parts.largest() / smallest
                                               : std::numeric_limits<double>::infinity();
    ActiveSets sets(unit, b);
    sets.run();
    const std::vector<double> rest = sets.residual();
    out.residual_squared = dot(rest, rest);
    out.x = sets.x();
    out.covariance = sets.among_free().covariance;
    out.held = sets.free();
    out.held.flip();
    for (std::size_t i = 0; i < columns.size(); ++i) {
        if (lengths[i] == 0.0) continue;
        out.x[i] /= lengths[i];
        for (std::size_t j = 0; j < columns.size(); ++j)
            if (lengths[j] != 0.0) out.covariance[i][j] /= lengths[i] * lengths[j];
    }
    return out;
}

}  // namespace skeinfall::need
