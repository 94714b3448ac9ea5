#pragma once
/// \file
/// What a column of a maker's own sheet holds, by the words of its heading and what stands below.

#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/exchange/own_sheet.hpp"

namespace skeinfall::exchange::detail {

/// Fields of a sheet that no skein has by that name.
namespace sheet_field {
inline constexpr std::string_view quantity = "quantity";
inline constexpr std::string_view quantity_left = "quantity_left";
inline constexpr std::string_view nothing = "nothing";
/// Whose yarn it is: a part of its name, or all there is of it.
inline constexpr std::string_view brand = "brand";
inline constexpr std::string_view label = "label";                ///< length and mass in one cell
inline constexpr std::string_view total_length = "total_length";  ///< of all skeins of the row
inline constexpr std::string_view total_mass = "total_mass";
inline constexpr std::string_view length_left = "length_left";  ///< likewise
inline constexpr std::string_view weighed_each = "weighed_each";
/// What is left, each cell in its own way: "62 g", "40 yd", "1.5 balls".
inline constexpr std::string_view left = "left";
/// Length per mass; the unit is what stands behind the figure: "m per 100g".
inline constexpr std::string_view grist = "length_per_mass";
}  // namespace sheet_field

/// A sheet with this column is a table of ours, of what happened to skeins.
inline constexpr std::string_view of_movements = "movement";

struct Column {
    std::string heading;
    std::string field;  ///< empty: a blank column, or one that is not understood
    std::string unit;
    bool used_up = false;   ///< not understood, since it tells what is gone or wanted
    bool bare = false;      ///< a length by one word, of a skein or of all skeins of a row
    bool per_mass = false;  ///< not understood, since it tells a length per mass in no known unit
};

/// Whether a sheet may have it: a field of a skein or one of sheet_field.
[[nodiscard]] bool known_field(std::string_view field);
/// Whether several columns may hold it; their texts are put together.
[[nodiscard]] bool may_come_again(std::string_view field);
[[nodiscard]] bool is_length(std::string_view field);
[[nodiscard]] bool is_mass(std::string_view field);

/// As a person would say it: "label length".
[[nodiscard]] std::string said(std::string_view field);

/// Whether a heading speaks of what is left, by one of its words.
[[nodiscard]] bool speaks_of_rest(std::string_view heading);

/// A bare figure; a decimal comma is one.
[[nodiscard]] bool is_figure(std::string_view cell);

/// `cells` are those below that are not empty.
[[nodiscard]] Column column_by_words(std::string_view heading,
                                     const std::vector<std::string>& cells);

/// A cell that shows amounts without their unit, in a column whose heading has none.
[[nodiscard]] bool lacks_unit(const Column& column, const std::vector<std::string>& cells);

/// What may be meant by a column, likeliest first, each as "Heading=label mass in g".
[[nodiscard]] std::vector<std::string> likely_meanings(const Column& column,
                                                       const std::vector<std::string>& cells);

}  // namespace skeinfall::exchange::detail
