#pragma once
/// \file
/// Sets of heights tried in the order of the goals. Inner header of colours.

#include <array>
#include <cstdint>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "skeinfall/colours/detail/takes.hpp"
#include "skeinfall/colours/stripes.hpp"

namespace skeinfall::colours {

/// How heights lie on the pieces of the wish; nothing where they cannot.
using Layout = std::function<std::optional<std::vector<Stripes>>(const Heights&)>;

/// One set of heights before it is judged.
struct Draft {
    Heights heights;
    std::vector<Stripes> stripes;
    std::array<std::int64_t, 4> score{};  ///< the goals in their order, smaller is better
    std::int64_t rows_changed = 0;
    std::int64_t ends = 0;
    std::map<std::string, units::Length> needs;
};

class Search {
  public:
    Search(const project::Project& project, const std::vector<stash::Skein>& stash,
           const cover::Rules& rules, const Wish& wish);

    /// The best that is covered.
    [[nodiscard]] std::optional<Striped> best(const HeightRules& heights, const Layout& layout);
    /// The best of those with at most so many ends that differ little from the wanted heights.
    [[nodiscard]] std::optional<Striped> best_with(const HeightRules& heights, const Layout& layout,
                                                   std::int64_t ends_at_most);
    /// One set of heights, whatever its verdict; where skeins end only with `joins`.
    [[nodiscard]] Striped worked_out(const HeightRules& rules, const Heights& heights,
                                     const std::vector<Stripes>& stripes, bool joins) const;

    /// Looks no further than changes of so many rows.
    void within(std::int64_t rows) { rows_at_most_ = rows; }

    [[nodiscard]] const Takes& takes() const { return takes_; }
    [[nodiscard]] bool proven() const { return proven_; }
    [[nodiscard]] std::size_t judged() const { return judged_; }

  private:
    [[nodiscard]] std::vector<Draft> drafts(const HeightRules& rules, const Layout& layout,
                                            std::int64_t rows);
    void measure(const HeightRules& rules, Draft& draft) const;
    [[nodiscard]] bool seen_to_fail(const Draft& draft) const;
    [[nodiscard]] bool covered(const Draft& draft);
    [[nodiscard]] std::optional<Striped> first_covered(const HeightRules& rules,
                                                       std::vector<Draft>& drafts);

    const project::Project& project_;
    const std::vector<stash::Skein>& stash_;
    const cover::Rules& rules_;
    const Wish& wish_;
    Takes takes_;
    std::optional<std::int64_t> ends_at_most_;
    std::optional<std::int64_t> rows_at_most_;
    std::vector<std::map<std::string, units::Length>> failed_;
    std::size_t steps_ = steps_at_most;
    std::size_t judged_ = 0;
    bool proven_ = true;
};

}  // namespace skeinfall::colours
