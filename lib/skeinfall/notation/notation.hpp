#pragma once
/// \file
/// Rows and rounds in the notation of the trade, worked out.
///
/// Crochet in US or UK terms (stitches of lib/data/stitches.csv) and knitting. Understood: stitches
/// with where they go ("2 dc in next ch-1 sp", "sc in each st across"), groups in one place,
/// skipped stitches, chain spaces, increases and decreases ("inc", "dc3tog"), repeats with * and
/// brackets in each other, turning chains that count or not, joining, declared counts, rows
/// repeated by number ("Rows 3-96: rep rows 1 and 2", "Row 4 and all even rows") and, where a make
/// has sizes, "5 (7, 9)". A chain space counts as so many stitches as it has chains where a row
/// says "st"; see detail/row.hpp for usages with two readings.
///
/// Yarns of whole rows ("With CC1, ...", "Change to CC1.") become project::WorkedRows::stripes.
///
/// What cannot be read is a base::Problem; what can be read but does not fit is a project::Finding.

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/project/row_work.hpp"
#include "skeinfall/project/stitches.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::notation {

/// Rows as a table of counts: in row r (from 1) of them `kinds` and, every `every` rows,
/// `increase` more.
struct CountedRows {
    std::int64_t rows = 1;
    std::vector<project::KindCount> kinds;     ///< by the names of the pattern's terms
    std::vector<project::KindCount> increase;  ///< may be negative
    std::int64_t every = 1;
};

/// One entry of a piece's rows: a line of notation (or several, one a row), or counts.
struct WrittenRows {
    std::string text;
    std::optional<CountedRows> counted;
};

/// A yarn as rows may name it: by its id ("CC1"), its colour or its name.
struct YarnNames {
    std::string id;
    std::vector<std::string> names;  ///< in small letters, the id too
};

struct NotationOptions {
    project::Craft craft = project::Craft::crochet;
    project::Terms terms = project::Terms::us;
    bool round = false;  ///< for rows that are labelled neither Row nor Rnd
    std::size_t size = 0;
    std::size_t sizes = 1;
    std::vector<project::OwnStitch> own;
    std::vector<YarnNames> yarns;  ///< empty: what names a yarn is passed over
    bool yarns_guessed = false;    ///< from the text: other words behind "with" are no mistake
    std::size_t yarn = 0;          ///< index of the one that the rows begin with
    /// Closes "until piece measures 20 in". Without it such a length is a problem.
    std::optional<units::RowGauge> row_gauge;
    std::optional<units::Length> desired;  ///< for "to desired length"
    std::vector<std::int64_t> held;  ///< knitting: stitches that pieces before left on each holder
    bool strands_known = false;  ///< else a row worked with several yarns together is a problem
    bool joined_before = false;  ///< the first row goes round pieces that were joined, not read
    /// A line that cannot be read is told in the readings, and the next count goes on from there.
    bool lenient = false;
    /// Behind a row whose words and count part the next one goes on from the words, though the
    /// count would fit it: for counts that are made anew from the words.
    bool by_words_alone = false;
    /// The place of byte `offset` of entry `entry` (both from 0) in the file. By default every
    /// entry is a line.
    std::function<base::Place(std::size_t entry, std::size_t offset)> locate;
};

/// Words of a row that hold no work, and why.
struct WordsAside {
    std::string words;
    std::string why;  ///< a code: "remark", "finishing", "joining", "place", "tool"
};

/// A change to a row that was not read, with which it would have been: checked against the row
/// below and, where `counted`, against its own count.
struct Proposal {
    std::string words;    ///< as written; they are taken out ...
    std::string instead;  ///< ... and this put in their place, where it is not empty
    units::StitchCount makes{};
    bool counted = false;
    bool guess = false;  ///< only the rows behind it ask for so many stitches
    std::string why{};   ///< of a guess, what it goes by, where that is not the rows behind it
};

/// How one written line of rows was read.
struct RowReading {
    enum class State {
        foundation,  ///< it makes the base of the first row
        read,        ///< and fits the row below and its own count
        two_ways,    ///< read, and another reading makes another count
        disagrees,   ///< read, but it does not fit the row below or its own count
        unread,      ///< some word cannot be followed
        adrift,      ///< its words are clear, but not the row it goes into
    };
    State state = State::read;
    std::size_t entry = 0;
    std::size_t at = 0;                          ///< byte of the line in its entry
    std::string words;                           ///< as written, without its label
    std::int64_t first_row = 0;                  ///< of the piece, from 1; 0 for a foundation
    std::int64_t rows = 0;                       ///< worked by this line, those of "rep" included
    std::vector<std::int64_t> apart;             ///< those rows, where others lie between them
    std::optional<units::StitchCount> stitches;  ///< of the last of them, without chain spaces
    std::optional<units::StitchCount> declared;
    std::vector<project::KindCount> kinds;     ///< of its first row
    std::vector<project::ColourWork> colours;  ///< of its first row, where several yarns work it
    std::vector<project::Finding> findings;
    std::optional<base::Problem> problem;  ///< why it is unread or adrift
    std::optional<Proposal> proposal;      ///< for one that is unread, where a change was found
    std::vector<WordsAside> aside;
};

/// `rows` is of use only without problems.
struct NotationResult {
    project::WorkedRows rows;
    base::Problems problems;
    std::vector<RowReading> readings;  ///< in the order of the text; with `lenient` only
    std::vector<std::int64_t> held;    ///< stitches left on each holder
};

/// Time grows with the length of the text and the number of rows, not with the stitches.
[[nodiscard]] NotationResult work_rows(const std::vector<WrittenRows>& entries,
                                       const NotationOptions& options);

/// What is wrong with the stitches that a project describes itself.
[[nodiscard]] base::Problems problems_of_own(const NotationOptions& options);

/// The same for a text with one row a line.
[[nodiscard]] NotationResult work_rows(const std::string& text, const NotationOptions& options);

}  // namespace skeinfall::notation
