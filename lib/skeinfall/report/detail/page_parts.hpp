#pragma once
/// \file
/// What a make page says, before it is set as HTML or PDF. All texts are inert. Inner header of
/// report.

#include <cstddef>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "skeinfall/report/page.hpp"

namespace skeinfall::report {

/// The first column heads its line.
struct PageTable {
    std::string caption;
    std::vector<std::string> heads;
    std::vector<std::vector<std::string>> lines;
    bool figures = false;  ///< all columns but the first are numbers, set to the right
};

struct PageRole {
    std::string name;
    cover::Verdict verdict{};
    std::string verdict_text;
    std::vector<std::pair<std::string, std::string>> figures;
    PageTable skeins;
};

/// A note under a row of the checklist: a join, or a weight to look for.
struct PageMark {
    std::string text;
    bool weigh = false;
};

struct PageRow {
    std::string text;
    std::string count;  ///< "98 sts"
    std::string told;   ///< what to work, as the pattern has it
    std::vector<PageMark> marks;
    std::int64_t number = 0;  ///< of a row or round of a piece
    bool round = false;
    std::string yarn;  ///< where the make has several
    [[nodiscard]] bool joins() const { return !marks.empty(); }
};

struct PageGroup {
    std::string name;
    std::vector<PageRow> rows;
};

/// The joins of one yarn: a map for each, so that none is taller than a page.
struct PageJoins {
    PageTable skeins;
    std::string map_name;
    joins::Answer answer;  ///< of this yarn alone, to be drawn
    bool colours = false;  ///< the yarn changes its colour, so that its fabric is drawn
};

struct PageParts {
    std::string title;
    std::string size;
    cover::Verdict verdict{};
    std::string verdict_text;
    std::string why;                ///< of the verdict, by the yarn that decides it
    std::vector<std::string> next;  ///< to do
    std::vector<PageRole> roles;
    std::string joins_answer;
    std::vector<PageJoins> joins;
    std::vector<std::string> notes;
    std::string stops_words;
    std::vector<PageTable> stops;
    std::vector<PageGroup> rows;
    std::string rows_words;   ///< of rows that are ticked together, and why
    std::string fingerprint;  ///< of the checklist: other rows, other ticks
};

[[nodiscard]] PageParts parts_of(const MakePage& page);

/// A page has room for so many boxes: no phone shows more, and on paper they are a book.
inline constexpr std::size_t most_boxes = 12'000;

/// Where there are more rows than boxes, those without a mark get one together, in tens, hundreds
/// or thousands. Returns the sentence that says so; empty where every row has its own.
std::string put_in_bands(std::vector<PageGroup>& groups);

/// The materials, with a word on rows that stand in other terms than they do.
[[nodiscard]] MaterialsDocument document_of(const MakePage& page);

/// "sure", "close", "want": the look of a verdict.
[[nodiscard]] std::string look_of(cover::Verdict verdict);

}  // namespace skeinfall::report
