#pragma once
/// \file
/// All rows of a CSV text at once.

#include <vector>

#include "skeinfall/exchange/csv.hpp"

namespace skeinfall::support {

inline std::vector<exchange::CsvRow> csv_rows(const exchange::SourceText& source) {
    std::vector<exchange::CsvRow> rows;
    exchange::parse_csv(source, [&rows](const exchange::CsvRow& row) { rows.push_back(row); });
    return rows;
}

}  // namespace skeinfall::support
