#pragma once
/// \file
/// What a PDF needs for readers that Cairo 1.16 does not write. Inner header of report.

#include <string>
#include <vector>

namespace skeinfall::report {

/// The same document with its language (ISO 32000-1, 14.9.2), its title shown in place of the
/// file's name (12.2), and the texts that stand for its figures, in their order (14.9.3). The same
/// bytes give the same bytes.
[[nodiscard]] std::string with_reading_aids(const std::string& pdf, const std::string& language,
                                            const std::vector<std::string>& figures);

}  // namespace skeinfall::report
