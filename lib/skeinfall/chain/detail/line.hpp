#pragma once
/// \file
/// A role's steps laid out as one line of yarn, with the places where it may be joined. Inner
/// header of joins: whole quanta, so that no choice hangs on rounding noise.

#include <cstddef>
#include <cstdint>
#include <map>
#include <vector>

#include "skeinfall/chain/law.hpp"
#include "skeinfall/chain/plan.hpp"

namespace skeinfall::chain {

/// Millimetres: fine enough for any yarn, exact when summed.
using Quanta = std::int64_t;

[[nodiscard]] Quanta to_nearest(units::Length length);
/// Stock goes down, so that no skein ends below nothing.
[[nodiscard]] Quanta rounded_down(units::Length length);
[[nodiscard]] units::Length length_of(Quanta quanta);

/// One permitted place, strictly between the first and the last stitch.
struct Spot {
    Quanta at = 0;
    std::size_t block = 0;  ///< joins in different blocks (pieces, copies) are never near
    double row = 0.0;       ///< rows of the block done
    int marks = 0;          ///< wishes this place does not meet
    int column = -1;        ///< where around the round, in eighths; -1 when it does not matter
    std::size_t step = 0;   ///< steps wholly done
};

/// A stretch of yarn within which every place is permitted, both ends included.
struct Open {
    Quanta from = 0;
    Quanta to = 0;
};

class Line {
  public:
    /// `extra` is yarn that the first and the last end take beyond a join's tail.
    /// `grid` puts spots into open stretches at eighths of a step.
    Line(const project::Project* project, const std::vector<need::Step>& steps, const Rules& rules,
         Quanta extra, bool grid, bool keep_zones);

    [[nodiscard]] Quanta total() const { return sums_.back(); }
    [[nodiscard]] const std::vector<Spot>& spots() const { return spots_; }
    [[nodiscard]] const std::vector<Open>& open() const { return open_; }
    /// No place is better than another, whichever comes before it.
    [[nodiscard]] bool plain() const { return plain_; }
    /// The farthest permitted place at or before `reach`, not before `from`.
    [[nodiscard]] Quanta farthest(Quanta from, Quanta reach) const;
    /// The most yarn between one permitted place and the next, from `from` to the end.
    [[nodiscard]] Quanta farthest_apart(Quanta from) const;
    [[nodiscard]] Position position(Quanta at) const;
    [[nodiscard]] Quanta after(std::size_t steps) const { return sums_[steps]; }
    [[nodiscard]] std::size_t block_of(std::size_t step) const { return blocks_[step]; }
    [[nodiscard]] std::size_t zones_broken(Quanta at) const;
    /// Every place is permitted, so that nothing is cut off.
    [[nodiscard]] bool all_open() const;
    /// Every place within the rows of the pieces is permitted.
    [[nodiscard]] bool rows_open(const std::vector<need::Step>& steps) const;

    /// What lies between neighbouring places, and where each of it ends. Open stretches are taken
    /// in sixteenths of a step.
    struct Links {
        std::vector<Link> links;
        std::vector<Quanta> ends;
    };
    /// `row_to_row` is the relative spread of a step's own.
    [[nodiscard]] Links links(units::Ratio row_to_row) const;
    /// The link in which a place of the yarn lies, on average over all its places; over all links
    /// where zones without joins are among them.
    [[nodiscard]] units::Length mean_link(const Links& chain) const;

  private:
    void add_spot(Spot spot);
    void lay(const project::Project* project, const std::vector<need::Step>& steps,
             const Rules& rules);
    void lay_inside(const project::Project* project, const need::Step& step, std::size_t index,
                    const Rules& rules);

    bool grid_;
    bool keep_zones_;
    bool plain_ = true;
    units::Length longest_step_{};
    std::vector<Quanta> sums_{0};  ///< yarn used after each step
    std::vector<std::size_t> blocks_;
    std::vector<Spot> spots_;
    std::vector<Open> open_;
    std::map<std::size_t, std::vector<std::int64_t>>
        widths_;                ///< of pieces joined at listed stitches
    std::vector<Open> barred_;  ///< zones to be kept free of joins, borders not included
};

}  // namespace skeinfall::chain
