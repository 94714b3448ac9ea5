#pragma once
/// \file
/// The names yarn thicknesses go by in the US, the UK, Australia and New Zealand, and Japan.
///
/// The same word means other yarns elsewhere, and charts disagree within a region ("4 ply" is one
/// class in some UK charts and the next heavier one in others), so a name gives votes and no
/// class. Table: lib/data/regional_names.csv, ten charts; its rows from memory do not vote.

#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/base/result.hpp"
#include "skeinfall/yarn/weight_class.hpp"

namespace skeinfall::yarn {

enum class Region { any, us, uk, au_nz, jp };

/// "US", "UK", "AU/NZ", "Japan", "any region".
[[nodiscard]] std::string_view name_of(Region region);

struct RegionalName {
    Region region = Region::any;
    std::string name;  ///< lower case: "4 ply", "aran", "sport"
};

/// "UK 4 ply", "AU 8-ply", "worsted". A leading US, UK, AU, NZ or JP names the region.
[[nodiscard]] RegionalName parse_regional_name(std::string_view text);

struct NameVote {
    std::string_view chart;  ///< number in lib/data/sources.csv
    WeightClass weight;
    bool operator==(const NameVote&) const = default;
};

/// One vote for each chart and class that a chart lists the name under; empty when none does.
[[nodiscard]] std::vector<NameVote> votes_for(const RegionalName& name);

/// Every name the charts of a region know, in lower case, without doubles.
[[nodiscard]] std::vector<std::string> known_names(Region region);

/// A weight class by number, the Council's name, or a name of the trade on which four charts in
/// five agree ("worsted", "DK"). A name on which they differ is refused with what they say.
[[nodiscard]] base::Result<WeightClass> class_called(std::string_view text);

}  // namespace skeinfall::yarn
