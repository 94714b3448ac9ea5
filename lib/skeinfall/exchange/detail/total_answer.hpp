#pragma once
/// \file
/// How much yarn a make takes, as one answer says it, with what is told on top of it.

#include <string>
#include <vector>

#include "skeinfall/exchange/make_words.hpp"

namespace skeinfall::exchange::detail {

struct TotalAnswer {
    std::string text;     ///< as a project file has it: of the whole make
    bool added = false;   ///< what comes on top is in it
    std::string assumed;  ///< how it was read, where that is not plain
};

/// `label` is the yarn's, empty where it is not known. What is told on top of a bare total goes
/// into it, for in a file a total holds the whole make. Of several copies it has to say whether it
/// is of each or of all. Throws base::InputError, its place the question "total" or "plus".
[[nodiscard]] TotalAnswer total_of(const std::string& said, const std::vector<WrittenPiece>& pieces,
                                   const std::vector<WrittenExtra>& extras,
                                   const std::string& label);

/// One amount said in two units, "380 yd (347 m)": the larger of the two, empty where they are
/// not of one kind, and `apart` where they differ by more than rounding.
struct SaidTwice {
    std::string larger;
    bool apart = false;
};
[[nodiscard]] SaidTwice amount_said_twice(const std::string& one, const std::string& other);

}  // namespace skeinfall::exchange::detail
