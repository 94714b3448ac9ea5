#pragma once
/// \file
/// What every row takes in every colour, and what there is of each. Inner header of colours.

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "skeinfall/colours/layout.hpp"
#include "skeinfall/colours/stripes.hpp"
#include "skeinfall/cover/cover.hpp"

namespace skeinfall::colours {

class Takes {
  public:
    /// Throws base::InputError as need_of() does, and where a colour holds less than a row.
    Takes(const project::Project& project, const std::vector<stash::Skein>& stash,
          const cover::Rules& rules, const Wish& wish);

    [[nodiscard]] const std::vector<std::string>& roles() const { return roles_; }
    [[nodiscard]] std::size_t colour(const std::string& role) const;
    [[nodiscard]] std::int64_t rows(std::size_t piece_of_wish) const {
        return rows_[piece_of_wish];
    }
    /// See of_fitting().
    [[nodiscard]] units::Length has(std::size_t colour) const { return has_[colour]; }
    /// Of a colour a ball of this length surely gives so many rows, all balls in one.
    [[nodiscard]] units::Length mean_row(std::size_t colour) const;
    /// No more rows of a colour than this are ever covered.
    [[nodiscard]] std::int64_t rows_at_most(std::size_t colour) const;
    /// Not even all skeins of a colour, joined anywhere, would be enough at the confidence: a
    /// bound that never refuses what could be covered.
    [[nodiscard]] bool may_do(const std::vector<Stripes>& stripes) const;
    /// Its band, relative.
    [[nodiscard]] units::Ratio spread(std::size_t colour) const { return spread_[colour]; }

  private:
    std::vector<std::string> roles_;
    std::vector<std::int64_t> rows_;
    std::vector<std::vector<std::vector<units::Length>>> row_;  ///< colour, piece, row
    std::vector<units::Length> beside_;                         ///< other pieces and the finish
    std::vector<units::Length> most_;                           ///< that a colour may take in all
    std::vector<units::Length> has_;
    std::vector<units::Ratio> spread_;
};

/// All skeins that fit, without their ends; of the richest lot where the role keeps to one.
[[nodiscard]] units::Length of_fitting(const project::Role& role,
                                       const std::vector<cover::Candidate>& candidates,
                                       units::Length ends);

/// The project with these stripes on the wish's pieces.
[[nodiscard]] project::Project striped(const project::Project& project, const Wish& wish,
                                       const std::vector<Stripes>& stripes);

}  // namespace skeinfall::colours
