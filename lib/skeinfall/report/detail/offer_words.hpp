#pragma once
/// \file
/// What a make is offered in, in words: what there is to choose, and what each size takes. Inner
/// header of report.

#include <string>
#include <vector>

#include "skeinfall/materials/on_offer.hpp"
#include "skeinfall/project/project.hpp"
#include "skeinfall/report/detail/materials_words.hpp"
#include "skeinfall/report/detail/page_parts.hpp"

namespace skeinfall::report {

/// A name for a box, and what it holds.
struct Choice {
    std::string name;
    std::vector<std::string> labels;
};
struct Choices {
    Choice across;
    Choice along;
};
[[nodiscard]] Choices choices_of(const materials::Offer& offer);

/// Names of the lines that every size has.
[[nodiscard]] std::vector<std::string> terms_of(const project::Project& project,
                                                const materials::Offer& offer);
/// Those lines; none is empty.
[[nodiscard]] std::vector<std::string> lines_of(const project::Project& project,
                                                const materials::OfferedSize& size,
                                                const MaterialsWords& words);
/// The yarn of every width and length, a table for each yarn; none where sizes have names.
[[nodiscard]] std::vector<PageTable> yarn_tables(const project::Project& project,
                                                 const materials::Offer& offer,
                                                 const MaterialsWords& words);
/// What does not change with the size, and why there is one size only.
[[nodiscard]] std::vector<std::string> notes_of(const project::Project& project,
                                                const materials::Offer& offer);

}  // namespace skeinfall::report
