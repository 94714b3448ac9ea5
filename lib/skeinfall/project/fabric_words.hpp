#pragma once
/// \file
/// Words by which makers name fabrics: which craft they are of, which published makes they are
/// like, and what they say where they stand in the name of a make.
/// Table: lib/data/fabric_words.csv.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/project/stitches.hpp"

namespace skeinfall::project {

struct FabricWord {
    std::string_view word;
    Craft craft = Craft::crochet;
    std::string_view group;    ///< of the published makes; empty where none is like it
    std::string_view texture;  ///< "raised", "stranded" or empty
    bool settles_craft = false;
    bool takes_more = false;  ///< in a make's name: more yarn than the plain stitch of its counts
    bool in_names = false;    ///< in a make's name it speaks of the fabric at all
};

/// The first word of the table that a stitch's name holds: whole, or with an ending such as "-ed".
[[nodiscard]] std::optional<FabricWord> fabric_word(Craft craft, std::string_view stitch);

/// The craft of a fabric's name. Nothing where neither craft or both have it, as "moss".
[[nodiscard]] std::optional<Craft> craft_of_fabric(std::string_view stitch);

/// Whether both crafts have it, so that a hook, a needle or the craft has to be said.
[[nodiscard]] bool fabric_of_both_crafts(std::string_view stitch);

/// The fabrics that a make's name speaks of.
[[nodiscard]] std::vector<FabricWord> fabrics_in_name(Craft craft, std::string_view name);

}  // namespace skeinfall::project
