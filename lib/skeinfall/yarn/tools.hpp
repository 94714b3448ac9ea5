#pragma once
/// \file
/// Hook and needle sizes. The millimetre is the size; letters and numbers are only labels of it.
/// Tables: lib/data/hooks.csv, lib/data/needles.csv.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/base/result.hpp"
#include "skeinfall/units/quantity.hpp"
#include "skeinfall/yarn/naming.hpp"

namespace skeinfall::yarn {

/// "I-9" for 5.5 mm (regular hooks, lib/data/hooks.csv); nothing when the table has no US label
/// for exactly this diameter. Steel hooks are left out: their numbers mean different sizes in
/// different charts.
[[nodiscard]] std::optional<std::string> us_hook_label(units::Length diameter);

/// "8" for 5 mm needles (lib/data/needles.csv).
[[nodiscard]] std::optional<std::string> us_needle_label(units::Length diameter);

/// "6.5 mm (US K-10 1/2)"; without the bracket when there is no label.
[[nodiscard]] std::string hook_text(units::Length diameter);
[[nodiscard]] std::string needle_text(units::Length diameter);

/// True when two diameters are alike but for binary noise.
[[nodiscard]] bool same_diameter(units::Length a, units::Length b);

enum class Tool { hook, steel_hook, needle };

/// "hook", "steel hook", "needle".
[[nodiscard]] std::string_view text(Tool tool);

/// One row of a table. Labels are empty where no chart gives one.
struct ToolSize {
    Tool tool = Tool::hook;
    units::Length diameter{};
    std::string_view us;        ///< of a steel hook: its number
    std::string_view uk;        ///< old UK and Canadian number
    bool second_scale = false;  ///< a steel number of the other numbering in use
    bool from_memory = false;   ///< not checked in a published chart
    std::string_view source;
    std::string_view note;
    std::string_view jp;       ///< Japanese number: "7/0"; of a steel hook its lace number
    std::string_view us_also;  ///< a US label that some charts give it and most give another size
};

/// All sizes of a tool, in the order of its table.
[[nodiscard]] std::vector<ToolSize> sizes_of(Tool tool);

/// "5.5 mm (US I-9, UK 5)".
[[nodiscard]] std::string text(const ToolSize& size);

/// A tool as asked for, by label or by diameter.
struct ToolWish {
    Tool tool = Tool::hook;
    std::optional<Naming> naming;  ///< whose label it is, when said
    bool japanese = false;         ///< a Japanese number
    std::string label;             ///< empty when the diameter is given
    std::optional<units::Length> diameter;
};

/// "hook I", "US hook I-9", "5.5 mm hook", "UK needle 8", "JP hook 7/0", "steel hook 1.5 mm".
/// Nothing when the text names no hook or needle; a problem when it names nothing else.
[[nodiscard]] std::optional<base::Result<ToolWish>> parse_tool(std::string_view text);

/// The sizes that answer a wish.
struct ToolAnswer {
    std::vector<ToolSize> sizes;    ///< all that bear the label or have the diameter
    std::vector<ToolSize> nearest;  ///< when none has exactly the diameter: below and above
    std::vector<std::string> notes;
};

/// A label that several sizes bear gives them all. A steel number without its millimetres is
/// refused, for two numberings are in use. An unknown label is refused with the known ones.
[[nodiscard]] base::Result<ToolAnswer> find_tools(const ToolWish& wish);

/// The diameter of a hook or needle as a label prints it: "5.5 mm", "I-9", "US 8". A label that
/// several sizes bear, or none, is a problem.
[[nodiscard]] base::Result<units::Length> parse_tool_size(Tool tool, std::string_view text);
/// So of a hook, and of needles.
[[nodiscard]] base::Result<units::Length> parse_hook(std::string_view text);
[[nodiscard]] base::Result<units::Length> parse_needle(std::string_view text);

}  // namespace skeinfall::yarn
