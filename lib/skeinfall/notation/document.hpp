#pragma once
/// \file
/// A pattern as it is published, pasted whole: what is rows is told apart from what is not, and
/// the rows are read section by section.
///
/// A section is one piece: it begins where a foundation is made (a chain, a cast-on, a ring) or a
/// heading names a new one. Rows that begin again at 1 within a section go on above the rows
/// before. Everything that is not read as rows is listed as a part, with what it is.

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/notation/notation.hpp"

namespace skeinfall::notation {

/// Lines that are no rows.
struct DocumentPart {
    enum class What {
        title,
        materials,
        gauge,
        size,
        notes,
        abbreviations,
        stitches,  ///< the pattern's own stitches
        heading,
        finishing,
        remark,    ///< anything else
        may_work,  ///< it stands among the rows, is not read, and may hold work
    };
    What what = What::remark;
    std::string text;
    std::size_t line = 0;  ///< from 1
    bool work = false;     ///< it is not read as rows, and its words name stitches or rows to work
    std::string remedy{};  ///< what to write for it, where that can be worked out
};

/// A stitch that the pattern describes itself.
struct Definition {
    project::OwnStitch stitch;
    std::string meaning;  ///< as written
    std::size_t line = 0;
    bool followed = false;  ///< its make-up was read; else one stitch in one place is taken
};

/// One piece of the pattern.
struct Section {
    std::string name;        ///< of its heading; may be empty
    std::int64_t times = 1;  ///< "make 2"
    bool round = false;
    bool joined_before = false;  ///< it goes round pieces above that were joined
    std::size_t line = 0;
    std::vector<std::string> lines;  ///< its rows as they were read, broken lines joined
    project::WorkedRows rows;
    std::vector<RowReading> readings;
    std::vector<std::size_t> reading_lines;  ///< of each reading, its line in the text
    base::Problems problems;                 ///< of the section as a whole
    project::Findings findings;
    std::size_t rows_read = 0;   ///< lines of rows that were read
    std::size_t rows_lines = 0;  ///< of so many lines of rows
};

struct DocumentOptions {
    std::optional<project::Craft> craft;  ///< when the text does not have to tell
    std::optional<project::Terms> terms;
    std::size_t size = 0;
    std::optional<units::RowGauge> row_gauge;  ///< before that of the text
    std::optional<units::Length> desired;
    std::vector<project::OwnStitch> own;
    std::vector<YarnNames> yarns;
    std::string file;  ///< for places
    /// The place of a byte of the text, where it does not stand in a file of its own.
    std::function<base::Place(std::string_view text, std::size_t at)> place;
};

struct Document {
    std::string title;
    project::Craft craft = project::Craft::crochet;
    project::Terms terms = project::Terms::us;
    std::size_t sizes = 1;                ///< numbers that lists like "64 (68, 72)" hold
    std::vector<std::string> size_names;  ///< "S", "M", "toddler": as many, or none
    std::optional<units::StitchGauge> stitch_gauge;
    std::optional<units::RowGauge> row_gauge;
    std::string gauge_stitch;             ///< as the gauge names it; empty when it does not
    std::optional<units::Length> hook;    ///< its diameter
    std::optional<units::Length> needle;  ///< its diameter
    std::vector<YarnNames> yarns;         ///< that its rows name: MC, CC1, A; empty for one alone
    std::vector<DocumentPart> parts;
    std::vector<Definition> definitions;
    std::vector<Section> sections;
};

[[nodiscard]] Document read_document(std::string_view text, const DocumentOptions& options);

}  // namespace skeinfall::notation
