#pragma once
/// \file
/// What a line of notation is: which rows it writes, or which rows it repeats. Inner part of the
/// notation.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "skeinfall/notation/detail/schedule.hpp"
#include "skeinfall/notation/detail/tokens.hpp"

namespace skeinfall::notation {

/// The most rows a piece may have.
inline constexpr std::int64_t most_rows = 1'000'000;

/// A range of row numbers, both ends in it.
struct Span {
    std::int64_t first = 0;
    std::int64_t last = 0;
};

/// How long rows go on where a length says so.
struct OpenEnd {
    /// Where a length "until it measures" begins.
    enum class From : std::uint8_t {
        piece,    ///< at the cast-on
        armhole,  ///< where stitches were bound off or held last
        here,     ///< "until thumb measures": what it measures begins about here
    };
    bool whole = false;    ///< "until piece measures": all of it; else "for": from here
    bool desired = false;  ///< "to desired length"
    bool less = false;     ///< so much less than the desired length
    bool in_all = false;   ///< with the rows that are repeated
    From from = From::piece;
    units::Length length{};
    std::int64_t rows = 0;  ///< "for 10 rows": no length, but their number
    std::size_t at = 0;
};

/// What the words between two tokens measure.
[[nodiscard]] OpenEnd::From measured_from(const std::vector<Token>& tokens, std::size_t first,
                                          std::size_t last);

/// Whether "less than", "short of" the desired length stands behind a length.
[[nodiscard]] bool less_than_desired(const std::vector<Token>& tokens, std::size_t first,
                                     std::size_t last);

/// "15 yards remain": a length of yarn, where that of the piece may stand.
[[nodiscard]] bool length_of_yarn(const std::vector<Token>& tokens, std::size_t at);

/// Takes "for 4 in", "until piece measures 20 in", "for 10 rows" out of the tokens from `from` on.
[[nodiscard]] std::optional<OpenEnd> take_open_end(std::vector<Token>& tokens, std::size_t from);

/// "Rows 3-96: rep rows 1 and 2": what is repeated, and how long when the label does not say.
struct RowsAgain {
    std::vector<Span> rows;
    std::int64_t last_rows = 0;       ///< "rep last 2 rows"
    std::int64_t first_of = 0;        ///< "rep first 1 of last 2 rows"; 0: all of them
    bool all_numbered = false;        ///< "rep rows until ...": row 1 to the last number
    std::int64_t times = 0;           ///< "10 times", "10 more times"; 0: not said
    std::int64_t until_row = 0;       ///< "until row 96", "for 20 rows" as a row number
    std::int64_t for_rows = 0;        ///< "for 20 rows"
    std::optional<OpenEnd> open_end;  ///< "until piece measures 20 in"
    std::int64_t end_row = 0;         ///< "14 times more, ending with row 5"
    std::int64_t until_blocks = 0;    ///< one block fewer in each row, as the row tells of its own
    std::int64_t until_stitches = 0;  ///< "until 12 sts remain"
    bool between_markers = false;     ///< they are counted between two markers
    bool unwrapped = false;           ///< they lie between the turns of short rows
    bool as_changes = false;          ///< the rows from one change of stitches to the next
    std::vector<Turns> turns;         ///< "every other row 12 times, then every 4th row 5 times"
    std::size_t at = 0;
};

enum class Parity { none, even, odd, same, right, wrong };

struct Label {
    enum class What {
        unlabelled,
        numbered,    ///< "Rows 3 and 5:"
        next,        ///< "Next 4 rows:"
        foundation,  ///< "Foundation chain:", "Set-up row:"
        others,      ///< "All even rows:"
        note,        ///< "Note: ..."
    };
    What what = What::unlabelled;
    bool round = false;          ///< "Rnd"
    bool names_kind = false;     ///< "Row" or "Rnd" was written
    bool letter = false;         ///< "R" was: a row or a round
    std::vector<Span> rows;      ///< of numbered
    std::int64_t count = 1;      ///< of next
    Parity also = Parity::none;  ///< "and all even rows"; what rows of `others`
    std::size_t body = 0;  ///< first token of the instructions, or of what stands behind `again`
    std::optional<RowsAgain> again;
    char side = 0;          ///< 'r' or 'w' where "(RS)", "(WS)" was written
    bool bare = false;      ///< only a number: "1.", "6)"
    bool has_tail = false;  ///< of `again`: a count or a remark stands at `body`
};

/// Reads the label of a line; `fault` is set when it cannot be read.
[[nodiscard]] Label label_of(const std::vector<Token>& tokens, std::optional<Fault>& fault);

}  // namespace skeinfall::notation
