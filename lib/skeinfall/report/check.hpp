#pragma once
/// \file
/// Findings of a check as text and as JSON.

#include <string>

#include "skeinfall/project/finding.hpp"

namespace skeinfall::report {

/// A file that was looked through.
struct Checked {
    std::string title;
    project::Findings findings;
};

/// "file:line:column: stop: what", with the remedy below, and a count at the end.
[[nodiscard]] std::string check_text(const Checked& checked);

/// {title, stops, cautions, findings: [{severity, file, line, column, what, remedy}]}; line and
/// column are null where they are not known.
[[nodiscard]] std::string check_json(const Checked& checked);

/// What stands above figures that were asked for although there are stops.
[[nodiscard]] std::string stops_banner(const Checked& checked);

/// The cautions, for below an answer or, one a line, for messages; empty when there are none.
[[nodiscard]] std::string cautions_text(const Checked& checked, bool below);

/// An answer in JSON with the keys "stops" and "cautions" in front, each only where there are some:
/// lists of findings as check_json() has them.
[[nodiscard]] std::string with_findings(const std::string& json, const Checked& checked);

}  // namespace skeinfall::report
