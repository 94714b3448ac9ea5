#pragma once
/// \file
/// The least that covering a strand can cost, for every amount still missing. Inner header of
/// cover.

#include <cstddef>
#include <vector>

#include "skeinfall/cover/search.hpp"

namespace skeinfall::cover {

/// A kind as one seeker sees it.
struct Option {
    std::size_t kind = 0;
    std::size_t lot = 0;
    Quanta usable = 0;      ///< length less tails
    Packed cost = 0;        ///< of taking one, but for its lot
    Packed bound_cost = 0;  ///< the part of it that no rest of a skein can save
    std::size_t count = 0;
    std::size_t block_end = 0;  ///< index behind the last option of the same lot
};

/// How lots enter a strand's cost.
enum class LotCharge { none, each, only_one };

/// A table over options (from one on) and amounts missing, both from the whole stock, so that its
/// figures stay valid bounds whatever others take. Amounts are counted in grains of one or more
/// quanta, the missing rounded down and the lengths up, which keeps the table within its cells.
class BoundTable {
  public:
    BoundTable(const std::vector<Option>& options, Quanta need, LotCharge charge, Packed lot,
               std::size_t cells_at_most);

    /// Least cost of `missing` from the options of index `from` on; `open` when their lot is
    /// begun already, else a new lot is charged. never() when it cannot be had.
    [[nodiscard]] Packed least(std::size_t from, Quanta missing, bool open) const {
        if (missing <= 0) return 0;
        const auto row = static_cast<std::size_t>(missing / grain_);
        const std::vector<Packed>& table = open || shut_.empty() ? open_ : shut_;
        return table[from * rows_ + row];
    }
    [[nodiscard]] static constexpr Packed never() { return ~Packed{0} >> 1U; }

  private:
    void fill(const std::vector<Option>& options, LotCharge charge, Packed lot);

    Quanta grain_ = 1;
    std::size_t rows_ = 0;
    std::vector<Packed> shut_;  ///< the lot of option `from` not begun; empty when lots are free
    std::vector<Packed> open_;  ///< begun
};

}  // namespace skeinfall::cover
