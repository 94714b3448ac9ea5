#pragma once
/// \file
/// A materials section worded from any table of words. Inner header of report.

#include <string>

#include "skeinfall/report/detail/materials_words.hpp"
#include "skeinfall/report/materials.hpp"

namespace skeinfall::report {

[[nodiscard]] MaterialsDocument document_with(const materials::Section& section, const Style& style,
                                              const MaterialsWords& words);

[[nodiscard]] std::string caution_words(const materials::CautionLine& caution,
                                        const MaterialsWords& words);

}  // namespace skeinfall::report
