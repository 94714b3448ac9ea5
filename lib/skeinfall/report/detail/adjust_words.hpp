#pragma once
/// \file
/// The paragraph "wider or longer" of a materials section. Inner header of report.

#include <string>
#include <vector>

#include "skeinfall/materials/section.hpp"
#include "skeinfall/report/detail/materials_words.hpp"

namespace skeinfall::report {

/// Its lines; none where the section has no such figures.
[[nodiscard]] std::vector<std::string> adjust_lines(const materials::Section& section,
                                                    const MaterialsWords& words);

}  // namespace skeinfall::report
