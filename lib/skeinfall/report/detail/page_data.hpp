#pragma once
/// \file
/// Parts of pages as the templates print them. Inner header of report.

#include <string>
#include <vector>

#include "skeinfall/report/detail/html.hpp"
#include "skeinfall/report/detail/json_words.hpp"
#include "skeinfall/report/detail/page_parts.hpp"

namespace skeinfall::report {

/// What the partial "table" prints.
[[nodiscard]] TemplateData table_data(const PageTable& table);

/// JSON that may stand between script tags: none of them ends in it.
[[nodiscard]] std::string json_in_page(const Json& json);

/// FNV-1a of a text: another page, another place in the browser's store.
[[nodiscard]] std::string fingerprint_of(const std::string& text);

}  // namespace skeinfall::report
