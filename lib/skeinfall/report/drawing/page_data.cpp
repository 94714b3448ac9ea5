#include "skeinfall/report/detail/page_data.hpp"

#include <cstdint>
#include <utility>

#include <fmt/format.h>

namespace skeinfall::report {

TemplateData table_data(const PageTable& table) {
    TemplateData out;
    out.set("caption", table.caption);
    out.set("heads", texts_of(table.heads));
    TemplateList lines;
    for (const std::vector<std::string>& cells : table.lines) {
        TemplateData line;
        line.set("first", texts_of({cells.front()}));
        line.set("cells", texts_of({cells.begin() + 1, cells.end()}));
        lines.push_back(std::move(line));
    }
    out.set("lines", lines);
    return out;
}

std::string json_in_page(const Json& json) {
    std::string out = json.dump(-1, ' ', true, Json::error_handler_t::replace);
    for (std::size_t at = out.find('<'); at != std::string::npos; at = out.find('<', at))
        out.replace(at, 1, "\\u003c");
    return out;
}

std::string fingerprint_of(const std::string& text) {
    std::uint64_t hash = 14695981039346656037U;
    for (const char c : text) {
        hash ^= static_cast<unsigned char>(c);
        hash *= 1099511628211U;
    }
    return fmt::format("{:016x}", hash);
}

}  // namespace skeinfall::report
