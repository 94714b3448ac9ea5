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

}  // namespace skeinfall::report
