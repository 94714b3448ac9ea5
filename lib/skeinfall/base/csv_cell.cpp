#include "skeinfall/base/csv_cell.hpp"

namespace skeinfall::base {

std::string csv_cell(std::string_view text) {
    const bool blank_end = !text.empty() && (text.front() == ' ' || text.back() == ' ');
    if (!blank_end && text.find_first_of(",\"\r\n\t") == std::string_view::npos)
        return std::string(text);
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"') out += '"';
        out += c;
    }
    return out + "\"";
}

}  // namespace skeinfall::base
