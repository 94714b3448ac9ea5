#pragma once
/// \file
/// Answers as one table: CSV for a spreadsheet, Markdown to paste. They are made of the answers in
/// JSON, so that the figures are the same.

#include <string>
#include <string_view>

namespace skeinfall::report {

/// Which list of which answer: `roles` of need_json() and cover_json(), `makes` of makes_json(),
/// `lines` of buying_json(), `skeins` of stash_json(); the lists inside the roles of sizes_json()
/// and used_json().
enum class Records { need, sizes, used, cover, makes, buying, stash };

enum class RecordForm { csv, markdown };

/// A row of headings, then one row an entry of the list in `answer`, which is JSON. In CSV
/// (RFC 4180) the headings are the keys and figures have ten digits, in the units their keys name;
/// in Markdown lengths are in yards and metres, needs rounded up and stock down.
[[nodiscard]] std::string records(std::string_view answer, Records which, RecordForm form);

}  // namespace skeinfall::report
