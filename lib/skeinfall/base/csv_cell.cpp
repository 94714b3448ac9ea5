#include "skeinfall/base/csv_cell.hpp"

#include "skeinfall/base/text.hpp"

namespace skeinfall::base {
namespace {

/// A spreadsheet would run it, or a reader of CSV would cut it.
bool needs_mark(std::string_view text) {
    constexpr std::string_view runs = "=+-@\t\r\n";
    if (text.empty()) return false;
    if (runs.find(text.front()) != std::string_view::npos || trimmed(text) != text) return true;
    return text.front() == '\'' && needs_mark(text.substr(1));
}

}  // namespace

std::string csv_cell(std::string_view text) {
    const bool marked = needs_mark(text);
    const bool quoted =
        text.find_first_of(",\"\r\n\t") != std::string_view::npos || text.ends_with(' ');
    std::string out = quoted ? "\"" : "";
    if (marked) out += '\'';
    for (const char c : text) {
        if (c == '"') out += '"';
        out += c;
    }
    return quoted ? out + "\"" : out;
}

CsvTable::CsvTable(const std::vector<std::string>& headings, std::string_view line_end)
    : line_end_(line_end) {
    for (const std::string& heading : headings) text(heading);
    end_line();
}

CsvTable& CsvTable::text(std::string_view text) {
    return number(csv_cell(text));
}

CsvTable& CsvTable::number(std::string_view number) {
    if (begun_) written_ += ',';
    begun_ = true;
    written_ += number;
    return *this;
}

void CsvTable::end_line() {
    written_ += line_end_;
    begun_ = false;
}

std::string_view csv_value(std::string_view cell) {
    if (cell.starts_with('\'') && needs_mark(cell.substr(1))) return cell.substr(1);
    return trimmed(cell);
}

}  // namespace skeinfall::base
