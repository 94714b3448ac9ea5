#pragma once
/// \file
/// What tells the yarn of a stitch, and the gauge it is told at: [[swatch]], [[earlier_make]],
/// [maker_gauge] and a piece's own gauge.

#include <optional>
#include <string>
#include <string_view>

#include "skeinfall/exchange/problem_list.hpp"
#include "skeinfall/exchange/source_text.hpp"
#include "skeinfall/exchange/toml_reader.hpp"
#include "skeinfall/notation/notation.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::exchange {

/// Both keys of a pair or neither. True when one is there.
bool pair_given(TomlTable& in, std::string_view a, std::string_view b);

/// Takes a second length in brackets out of a text: "200 yd (182 m) / 100 g" becomes "200 yd / 100
/// g". Noted in `role` when both are lengths; other texts stay as they are.
[[nodiscard]] std::string without_second_length(const std::string& text, const std::string& key,
                                                project::Role& role);

/// The key "grist", with or without a second length.
void read_grist(TomlTable& in, project::Role& role);

/// What a swatch and an earlier make are read against: their yarn, and whether it has a grist.
struct OfYarn {
    std::string role;
    const project::Role* known = nullptr;  ///< nullptr: a problem already
    bool with_grist = false;
};

/// A swatch holds stitches and rows, or a size, or stitches by kind, or rows in notation, or so
/// many stitches as a marked length of yarn gave. `options` are those of the project's rows.
[[nodiscard]] project::Swatch read_swatch(TomlTable& in, const OfYarn& yarn,
                                          const notation::NotationOptions& options,
                                          const SourceText& source, ProblemList& problems);

[[nodiscard]] project::EarlierMake read_earlier_make(TomlTable& in, const OfYarn& yarn);

/// A piece's key "gauge" over the project's.
[[nodiscard]] std::optional<project::Gauge> read_piece_gauge(TomlTable& in,
                                                             const project::Gauge& usual);

/// Turns the project to the gauge of [maker_gauge]; all else has to be read before. Nothing
/// happens without that table.
void read_maker_gauge(TomlTable& top, project::Project& project);

/// The key "rate" of a yarn: by the stitch or by the area.
void read_rate(TomlTable& in, project::Role& role);

}  // namespace skeinfall::exchange
