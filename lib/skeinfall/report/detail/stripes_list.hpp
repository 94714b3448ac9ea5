#pragma once
/// \file
/// Every stripe of a make with its skein and where it begins. Inner header of report.

#include <cstdint>
#include <string>
#include <vector>

#include "skeinfall/colours/stripes.hpp"

namespace skeinfall::report {

struct ListedStripe {
    std::size_t piece = 0;
    std::string role;
    std::int64_t first_row = 1;
    std::int64_t rows = 0;
    std::string skein;  ///< with which it begins, empty where none is left; of the first copy
    bool right_edge = true;
    bool carried = false;
    bool goes_on = false;  ///< the yarn was in the row below
};

[[nodiscard]] std::vector<ListedStripe> listed_stripes(const colours::StripePlan& plan,
                                                       const colours::Striped& striped);

/// "keep the repeat" ...: the way in a word for programs.
[[nodiscard]] std::string way_word(colours::Way way);

}  // namespace skeinfall::report
