#pragma once
/// \file
/// The yarns that the materials list of a pattern asks for.

#include <string>
#include <vector>

#include "skeinfall/notation/document.hpp"

namespace skeinfall::exchange {

/// What is not said stays empty. The texts are such as a project file takes.
struct PatternYarn {
    std::string id;            ///< MC, CC1, CC2 ...
    std::string said;          ///< its line, as printed
    std::string weight_class;  ///< "4"
    std::string grist;         ///< "191 yd / 50 g"
    std::string total;         ///< "6 balls of 191 yd", "400 yd"; of one size only
    bool unclear = false;      ///< it names amounts, and nobody knows of what: none is taken
};

/// In the order of the list; empty where it names no amount and no class.
[[nodiscard]] std::vector<PatternYarn> yarns_of_pattern(const notation::Document& document);

}  // namespace skeinfall::exchange
