#pragma once
/// \file
/// The amounts of yarn in one line of a pattern's materials.

#include <string>

namespace skeinfall::exchange::detail {

/// The texts are such as a project file takes; empty where the line does not say.
struct AmountsIn {
    std::string put_up;    ///< "191 yd / 50 g"
    std::string total;     ///< "6 balls of 191 yd", "400 yd"
    bool unclear = false;  ///< it names amounts that may be of parts, of each, of several yarns
};

/// A total only where all figures of the line are one: of two amounts of one kind, or of one that
/// is "each", "per square", "without the border" or of several sizes, nobody knows which is meant.
[[nodiscard]] AmountsIn amounts_in(const std::string& line);

/// "Yarn held double", "2 strands of worsted": said of yarns that are worked together.
[[nodiscard]] bool says_strands_together(const std::string& line);

}  // namespace skeinfall::exchange::detail
