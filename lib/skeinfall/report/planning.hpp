#pragma once
/// \file
/// Buying lists, largest makes and several makes at once, as text and as JSON.

#include <optional>
#include <string>
#include <vector>

#include "skeinfall/cover/buy.hpp"
#include "skeinfall/cover/largest.hpp"
#include "skeinfall/cover/remedies.hpp"

namespace skeinfall::report {

/// "  Worked to row 60 of shawl, by your readings: this is for the rest." of a role in work; else
/// nothing.
[[nodiscard]] std::string worked_words(const project::Project& project, const cover::Rules& rules,
                                       const std::string& role);

/// What a make of several came to.
struct MakeLine {
    std::string file;
    std::string title;
    std::string size;  ///< empty when there is one
    cover::Verdict verdict = cover::Verdict::is_short;
    measure::Chance chance;
    std::vector<std::string> wanting;  ///< "MC short", roles that are not covered
    std::vector<std::string> skeins;   ///< "MC: s1, s2"
    std::vector<std::string> keep;     ///< commands that set these skeins aside for it
};

/// Best verdict first, then by chance, then by file.
void rank(std::vector<MakeLine>& makes);

/// `sharing`: given when no skein may serve two of the makes.
[[nodiscard]] std::string makes_text(const std::vector<MakeLine>& makes,
                                     std::optional<cover::Sharing> sharing);
[[nodiscard]] std::string makes_json(const std::vector<MakeLine>& makes,
                                     std::optional<cover::Sharing> sharing);

/// Empty without remedies.
[[nodiscard]] std::string remedies_text(const std::vector<cover::Remedy>& remedies,
                                        units::Ratio margin = {});

/// What cannot both be true in the figures of these makes, by yarn.
[[nodiscard]] std::vector<std::string> contradictions_of(
    const std::vector<cover::MakeCover>& covers);
[[nodiscard]] std::string buying_text(const std::vector<cover::BuyingLine>& lines,
                                      measure::Chance confidence,
                                      const std::vector<std::string>& contradictions = {},
                                      bool if_joined_anywhere = false);
[[nodiscard]] std::string buying_json(const std::vector<cover::BuyingLine>& lines,
                                      const std::vector<std::string>& contradictions = {});

[[nodiscard]] std::string largest_text(const project::Project& project, std::size_t size,
                                       const cover::Largest& largest, const cover::Rules& rules);
[[nodiscard]] std::string largest_json(const project::Project& project, std::size_t size,
                                       const cover::Largest& largest);

[[nodiscard]] std::string largest_by_gauge_text(const project::Project& project, std::size_t size,
                                                const cover::LargestByGauge& largest,
                                                const cover::Rules& rules);
/// {title, size, extent: "gauge", piece, planned: {stitches_per_10cm, rows_per_10cm, width_m,
/// length_m, chance, verdict}, same_counts, same_size}; the last two may be null.
[[nodiscard]] std::string largest_by_gauge_json(const project::Project& project, std::size_t size,
                                                const cover::LargestByGauge& largest);

}  // namespace skeinfall::report
