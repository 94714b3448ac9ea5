#pragma once
/// \file
/// One observation of a check, and how much a guess may be trusted.

#include <string>
#include <string_view>
#include <vector>

namespace skeinfall::yarn {

enum class Level { ok, caution, stop };

/// "ok", "caution", "stop".
[[nodiscard]] std::string_view name_of(Level level);

/// What was looked at, what was found and what that rests on. `says` is one or more whole
/// sentences; `source` names a publication with its number in lib/data/sources.csv, or says that
/// there is none.
struct Finding {
    Level level = Level::ok;
    std::string topic;  ///< "grist", "class", "care": stable, for other programs
    std::string says;
    std::string source;
};

/// The gravest level among findings; ok when there is none.
[[nodiscard]] Level gravest(const std::vector<Finding>& findings);

/// How far a guess may be trusted; there is no "certain".
enum class Confidence { likely, possible, unlikely };

/// "likely", "possible", "unlikely".
[[nodiscard]] std::string_view name_of(Confidence confidence);

/// Where a figure or a rule is not published anywhere we know of.
inline constexpr std::string_view no_source = "common practice, no source";

}  // namespace skeinfall::yarn
