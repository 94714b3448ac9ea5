#pragma once
/// \file
/// Colours planned from the skeins there are, as text and as JSON.

#include <cstdint>
#include <optional>
#include <string>

#include "skeinfall/colours/stripes.hpp"
#include "skeinfall/cover/cover.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::report {

/// Where the piece was to become as large as the colours allow.
struct Grew {
    std::optional<std::int64_t> rows_were;
    std::int64_t step = 0;
};

struct StripesAnswer {
    const project::Project& project;  ///< as it was
    const colours::StripePlan& plan;
    Grew grew;
    bool listed = false;  ///< every stripe by itself
    bool saved = false;
    /// Of the command, as they were given, for one that is to be run like it: " --have ...".
    std::string other_options = {};
};

/// The set of heights that the answer is about: what was found, else the nearest, else as wanted;
/// nullptr where there is none.
[[nodiscard]] const colours::Striped* shown_of(const colours::StripePlan& plan);

/// "MC 6, CC1 4": stripes as an option of the command takes them.
[[nodiscard]] std::string stripes_words(const colours::Stripes& stripes);

[[nodiscard]] std::string stripes_text(const StripesAnswer& answer);

/// {title, piece, pieces, way, verdict, chance, found, as_wanted_verdict, height_kept, proven,
/// tried, rows, rows_were, repeat: [{yarn, rows, wanted}], yarns: [{role, rows, rows_wanted,
/// takes_m, has_m, left_m, chance, verdict}], stripes: [{piece, yarn, first_row, rows, skein,
/// right_edge, carried}], ends, carried, fewer_ends: {repeat, ends, rows_changed, chance} or null,
/// carried_higher: {height_m, ends} or null, nearest_rows}.
[[nodiscard]] std::string stripes_json(const StripesAnswer& answer);

/// Every stripe in a line: piece, yarn, first row, rows, skein, edge, carried or new end.
[[nodiscard]] std::string stripes_csv(const StripesAnswer& answer);

}  // namespace skeinfall::report
