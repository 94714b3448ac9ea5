#pragma once
/// \file
/// Comma-separated values as RFC 4180 has them, with the place of every cell.

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

#include "skeinfall/exchange/source_text.hpp"

namespace skeinfall::exchange {

struct CsvCell {
    std::string text;        ///< quotes taken off, blanks kept
    std::size_t offset = 0;  ///< of its first byte (the quote, if any); see SourceText::place()
};

using CsvRow = std::vector<CsvCell>;

/// Gives every row to `take`; what that throws is passed on. CR LF, LF and CR end a row; the last
/// row may lack it. Empty lines are passed over. Throws base::InputError for bytes that are not
/// UTF-8, NUL bytes and quotes that do not pair, each with its line and column.
void parse_csv(const SourceText& source, const std::function<void(const CsvRow&)>& take);

}  // namespace skeinfall::exchange
