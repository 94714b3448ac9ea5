#pragma once
/// \file
/// Finding skeins: by what their labels say, in a chosen order, and totals a yarn.

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/stash/skein.hpp"

namespace skeinfall::stash {

/// A skein is wanted when it meets everything that is set. What is not known of a skein meets no
/// wish about it. Letters match without regard to case (ASCII).
struct Wish {
    std::optional<yarn::WeightClass> weight;
    std::optional<std::string> yarn;         ///< anywhere in the yarn's name
    std::optional<std::string> fibre;        ///< a share of the content is a kind of it
    std::optional<units::Grist> grist_from;  ///< length per mass by the label, at least
    std::optional<units::Grist> grist_to;    ///< at most
    std::optional<std::string> colour;       ///< anywhere in the colourway
    std::optional<std::string> lot;          ///< the whole dye lot or shade group
    std::optional<std::string> text;         ///< anywhere in any text
    std::optional<bool> part;                ///< begun, or whole
    std::optional<bool> set_aside;           ///< some of it is promised to a project, or none
};

[[nodiscard]] bool meets(const Skein& skein, const Wish& wish);

enum class Order { added, id, yarn, weight, colour, lot, length, grist };

/// "added", "id", "yarn", "class", "colour", "lot", "length", "grist".
[[nodiscard]] std::optional<Order> parse_order(std::string_view text);
[[nodiscard]] std::vector<std::string> order_words();

/// The skeins that meet the wish. Those alike in `order` stay in the order of adding; what is not
/// known comes last, and length and grist begin with the longest.
[[nodiscard]] std::vector<Skein> find(std::vector<Skein> skeins, const Wish& wish, Order order);

/// What is held of one yarn. Metres of different yarns are never added up.
struct YarnTotal {
    yarn::Yarn yarn;
    std::size_t skeins = 0;
    std::size_t unknown = 0;  ///< of them without a known length
    measure::Estimate<units::Length> length;
};

/// In the order of the yarns' first skeins.
[[nodiscard]] std::vector<YarnTotal> totals(const std::vector<Skein>& skeins);

}  // namespace skeinfall::stash
