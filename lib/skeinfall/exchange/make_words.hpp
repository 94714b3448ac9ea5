#pragma once
/// \file
/// What a person writes of a make in one line: a piece, a gauge, a swatch, an extra. Every
/// function gives the figures as texts fit for a project file, so that each is converted once,
/// by its reader.

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/base/result.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::exchange {

/// Signs of typesetting as a keyboard has them: straight quotes and inch marks, one plain blank,
/// "x" for a multiplication sign, "-" for dashes. A blank that parts thousands stays.
[[nodiscard]] std::string plain_signs(std::string_view text);

/// "two skeins" as "2 skeins": a count from one to twelve at the start in digits.
[[nodiscard]] std::string count_in_digits(const std::string& text);

struct WrittenPiece {
    std::string name;  ///< empty where none was given
    std::int64_t count = 1;
    std::optional<std::int64_t> stitches;
    std::optional<std::int64_t> rows;
    std::string width;   ///< "22 cm"; instead of stitches
    std::string length;  ///< instead of rows
    std::string stitch;  ///< "hdc"; empty for "sts"
    bool round = false;
    std::string shape;    ///< as project files name it; empty: rows or rounds as they are told
    bool blocks = false;  ///< stitches and rows are blocks across and up
    std::int64_t corners = 0;
    std::int64_t increase = 0;
    std::int64_t every = 1;
    std::optional<std::int64_t> last_stitches;  ///< of a piece that tapers or widens evenly
    std::string last_width;                     ///< instead of last stitches
    bool pair = false;                          ///< counted twice since such things come in pairs
    bool count_in_name = false;                 ///< "2 mitts: ..."
    std::string gauge;                          ///< in TOML; only where it has one of its own
    bool ring = false;                          ///< its first and last row are sewn together
};
/// "33 hdc x 96 rows", "96 rows of 33 sts", "22 cm x 1.5 m", "33 sts x 1.5 m", "scarf: ...", "20
/// squares of 6 x 6 in", "1 st x 139 rows, 1 more every 2 rows", "pair of mitts: 40 sts x 60
/// rounds", "sleeve: 9 to 12 in x 10.5 in", "48 granny squares of 6 rounds", "c2c throw 40 x 50
/// blocks", "shawl, triangle from the nape: 60 in x 30 in", "band 4 x 20 in, sewn into a ring".
[[nodiscard]] base::Result<WrittenPiece> parse_piece(std::string_view text);

struct WrittenGauge {
    std::string stitches;  ///< "14 per 10 cm"
    std::string rows;      ///< empty where only the stitches were told
    std::string stitch;    ///< empty for "sts"
};
/// "14 sts and 10 rows per 10 cm", "14 hdc x 10 rows = 4 in", "14 sts per 10 cm, 5 rows per 2 in".
[[nodiscard]] base::Result<WrittenGauge> parse_gauge(std::string_view text);

/// Those of several stitches, parted by semicolons: "14 hdc and 10 rows per 10 cm; 14 sc and 16
/// rows per 10 cm".
[[nodiscard]] base::Result<std::vector<WrittenGauge>> parse_gauges(std::string_view text);

/// Rows of the work itself, measured flat.
struct MeasuredRows {
    std::int64_t rows = 0;
    units::Length width{};
    units::Length length{};
};
/// "12 rows: 6.5 x 4.25 in", "10 rounds, 30 cm x 8 cm".
[[nodiscard]] base::Result<MeasuredRows> parse_measured_rows(std::string_view text);

struct WrittenSwatch {
    std::optional<std::int64_t> stitches;
    std::optional<std::int64_t> rows;
    std::string stitch;
    std::string width;
    std::string height;
    std::string mass;          ///< what the scale showed ...
    std::string scale;         ///< ... and its step, as the figures written tell it
    std::string length;        ///< or the yarn in it
    std::string before;        ///< or what the ball weighed before it ...
    std::string after;         ///< ... and after
    std::int64_t strands = 0;  ///< held together in it; 0 where that is not said
    std::string colour;        ///< of which of several yarns it is; empty where that is not said
};
/// "15 x 15 cm, 14 g", "20 sts x 14 rows, 16.1 g", "20 hdc x 14 rows, 15 x 12 cm, 6.2 m".
[[nodiscard]] base::Result<WrittenSwatch> parse_swatch(std::string_view text);

/// Of one of several copies, or of all of them.
enum class ExtraOf { unsaid, each, all };

struct WrittenExtra {
    std::string name;
    std::string yarn;           ///< "30 yd"
    std::int64_t rounds = 0;    ///< or: rounds ...
    std::int64_t stitches = 0;  ///< ... of so many stitches
    std::string stitch;         ///< of which they are; empty for "sts"
    std::int64_t strands = 0;   ///< or: strands of a fringe ...
    std::string cut;            ///< ... each cut to this length
    ExtraOf of = ExtraOf::unsaid;
    std::int64_t things = 1;  ///< "2 pompoms 10 m each"
    std::string each_of;      ///< "placemat" of "20 m per placemat"
    std::string role;         ///< of which yarn it is, where there are several
    std::int64_t count = 0;   ///< how often the make has it; 0 where all of it is made once
};
/// "edging 30 yd", "border of 2 rounds of 180 sts", "pompom 10 m each", "border 60 yd in all",
/// "nose 80 cm of yarn". Its yarn is left as it is said.
[[nodiscard]] base::Result<WrittenExtra> parse_extra(std::string_view text);

/// Whether words say that strands of yarn are worked together: "held double".
[[nodiscard]] bool speaks_of_strands(const std::string& text);

/// The step of the scale that a reading's figures tell: "1 g" of "14 g", "0.1 oz" of "2.3 oz".
[[nodiscard]] std::string step_of_reading(std::string_view reading);

}  // namespace skeinfall::exchange
