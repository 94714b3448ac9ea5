#pragma once
/// \file
/// The rows of a pattern as written, each number with what is worked in it. Inner part of the
/// notation.

#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "skeinfall/notation/detail/row.hpp"
#include "skeinfall/notation/detail/yarns.hpp"
#include "skeinfall/notation/notation.hpp"

namespace skeinfall::notation {

/// One row as it stands in the file; rows that repeat it share it.
struct Written {
    Body body;
    std::string text;  ///< its instructions as they stand there
    std::optional<CountedRows> counted;
    std::size_t entry = 0;
    std::size_t base = 0;   ///< of the line within its entry
    std::size_t begin = 0;  ///< of the instructions within the line
    std::int64_t first_row = 0;
    bool round = false;
    std::int64_t uses = 0;
    bool restarts = false;  ///< the pattern's numbers begin anew with it
    bool silent = false;    ///< rows between those of a line that is told elsewhere
    YarnsOfRow yarns;
    std::optional<Fault> fault;    ///< why it cannot be read, where that is let pass
    std::vector<RowFinding> told;  ///< while it was read
};

/// A line that only repeats rows, or a remark.
struct Other {
    std::size_t entry = 0;
    std::size_t base = 0;
    std::string text;
    std::int64_t first_row = 0;
    std::int64_t rows = 0;
    std::vector<std::int64_t> apart;  ///< "Rows 3 and 5: rep row 1"
    std::vector<RowFinding> told;
    std::optional<Fault> fault;
    std::optional<base::Problem> problem;  ///< the same, with its place in the file
    std::vector<SetAside> aside;
};

/// What is worked in a row.
struct Slot {
    std::int64_t written = -1;  ///< index, -1: nothing
    std::int64_t within = 0;    ///< row of a table's rows, from 0
    /// Its declared count holds here: not in rows that repeat it, and of "Rows 6-10:" in the last.
    bool counted = false;
    std::optional<std::size_t> yarn;  ///< of NotationOptions::yarns; nothing: that of the row below
    std::int64_t until =
        0;  ///< this row and the `block` - 1 before it go on till so many stitches are left
    std::int64_t block = 0;
    bool between_markers = false;  ///< `until` counts the stitches between two markers
    std::int64_t before =
        -1;  ///< index into Pattern::between: what happens before it, in this row alone
};

/// Groups of several stitches are not counted on the edge, "(35 v-st)": by the one space of each
/// where the row has no others like it, else not at all.
void count_groups(Body& body, const std::map<KindId, MakeUp>& groups);

/// "Rows 6-10: rep row 5. (11 sc)": what the last of them should come to.
struct Behind {
    std::int64_t row = 0;
    std::size_t entry = 0;
    std::size_t base = 0;
    std::vector<Declared> declared;
    std::int64_t turns = 0;           ///< chains to turn with: "Repeat row 3; ch 4, turn"
    std::optional<TurningNote> note;  ///< of them
};

struct Pattern {
    std::vector<Written> written;
    std::vector<Slot> slots;               ///< by row number; 0 is a set-up row
    std::vector<std::int64_t> foundation;  ///< indices of the lines before row 1 that make the base
    std::vector<Behind> behind;            ///< in the order of their rows
    std::vector<std::vector<Item>> between;  ///< holders and needles, before some rows
    std::vector<Other> others;
    std::map<std::int64_t, TurningNote> notes;
    std::map<KindId, MakeUp> make_ups;
    bool intarsia = false;    ///< the text says so: yarns are not carried
    bool yarns_said = false;  ///< some words name a yarn
    bool shared = false;      ///< some rows have the words of an earlier one and were read with it
};

/// Whether what is written is chains alone, in crochet, and nothing else.
[[nodiscard]] bool ends_in_chains(const Pattern& pattern, project::Craft craft);

/// A tie or a cord: chains alone, and the yarn is fastened off behind them.
[[nodiscard]] bool is_chain_alone(const Pattern& pattern, project::Craft craft);

/// Reads all entries; adds the problems found. With `share`, a row in the very words of an earlier
/// one is read once; what is wrong in it has the earlier one's place then.
[[nodiscard]] Pattern read_pattern(const std::vector<WrittenRows>& entries,
                                   const NotationOptions& options, StitchBook& book,
                                   base::Problems& problems, bool share);

/// "2 dc in sp, *ch 2, 2 dc in same sp, 2 dc in next sp; rep from * around": what goes into the
/// same place comes once more in the last one, where nothing else is said behind the repeat of a
/// round.
void lead_again(std::vector<Item>& items, KindId slip_stitch);

/// "Continue in pattern until it measures 60 in" (crochet): the rows that come again go on, put in
/// place of these words. Whether it says so behind rows that do not show it, which is a fault.
[[nodiscard]] bool pattern_again(const Pattern& pattern, const NotationOptions& options,
                                 StitchBook& book, std::vector<Token>& tokens,
                                 std::optional<Fault>& fault);

}  // namespace skeinfall::notation
