#pragma once
/// \file
/// A materials section in words. The words come from one table, lib/data/materials_words.csv, so
/// that a language is added by adding its rows; figures come from one formatter, so that one thing
/// reads the same in every format.
///
/// Text from the user is never markup: Markdown escapes it, HTML goes through a template engine
/// that escapes, a PDF has none. Text in a right-to-left script is kept apart by isolates.

#include <optional>
#include <string>
#include <vector>

#include "skeinfall/materials/section.hpp"
#include "skeinfall/units/number_style.hpp"

namespace skeinfall::report {

/// How a section is worded. Figures of either system are worked out from the unrounded one. `terms`
/// rewrites the name of the gauge's stitch and the statement of
/// terms when it is not the project's own.
struct Style {
    units::NumberStyle numbers;
    std::optional<project::Terms> terms;
    std::string language = "en";
};

/// A name of stitch or instruction in another set of terms: "hdc" is "htr". Words that the table
/// does not know, or that mean two things, stay.
[[nodiscard]] std::string stitch_in(const std::string& written, project::Terms from,
                                    project::Terms to);

/// Languages of the table, in its order.
[[nodiscard]] std::vector<std::string> languages();

/// A titled list of lines. `key` names it for other programs and for templates.
struct MaterialsBlock {
    std::string key;
    std::string title;
    std::vector<std::string> lines;
};

/// The totals as a table, one column a size.
struct MaterialsTable {
    std::string caption;
    std::string chart_caption;  ///< of the same as a picture
    std::string corner;
    std::vector<std::string> sizes;
    struct Row {
        std::string name;
        std::vector<std::string> cells;
    };
    std::vector<Row> rows;
};

/// A section in words, free of any markup and inert.
struct MaterialsDocument {
    std::string language;
    std::string title;    ///< of the project
    std::string heading;  ///< "Lantern cowl: materials"
    std::vector<MaterialsBlock> blocks;
    std::optional<MaterialsTable> table;  ///< when there are several sizes
};

/// Throws std::out_of_range for a language that languages() does not name.
[[nodiscard]] MaterialsDocument materials_document(const materials::Section& section,
                                                   const Style& style = {});

enum class Markup { plain, markdown };

[[nodiscard]] std::string materials_text(const materials::Section& section, Markup markup,
                                         const Style& style = {});

/// Whether the yarn over the sizes is drawn too, where there are several.
enum class Chart { yes, no };

/// A whole page that needs no network and no script.
[[nodiscard]] std::string materials_html(const materials::Section& section, const Style& style = {},
                                         Chart chart = Chart::yes);

/// The same to paste into a page that has a look of its own: one element, without a script, a style
/// sheet or a style of its own; its headings begin with the second level.
[[nodiscard]] std::string materials_fragment(const materials::Section& section,
                                             const Style& style = {}, Chart chart = Chart::yes);

/// What every tester took against what was worked out, for the designer and not for print.
[[nodiscard]] std::string testers_text(const project::Project& project,
                                       const materials::Section& section);

/// The caution in words.
/// What only its designer needs to know of it, a line each: returns that count for nothing.
[[nodiscard]] std::vector<std::string> designers_notes(const materials::Section& section);

[[nodiscard]] std::string caution_text(const materials::CautionLine& caution,
                                       const std::string& language = "en");

}  // namespace skeinfall::report
