#include "skeinfall/base/width.hpp"

#include <algorithm>
#include <cstdint>
#include <vector>

#include <uniwidth.h>

namespace skeinfall::base {
namespace {

/// Appends one line, broken where it is too wide.
void fold_line(std::string& out, std::string_view line, std::size_t columns, std::size_t hanging) {
    std::size_t room = columns;
    while (display_width(line) > room) {
        const std::size_t text = line.find_first_not_of(' ');
        std::size_t cut = std::string_view::npos;
        for (std::size_t at = line.find(' ', text); at != std::string_view::npos;
             at = line.find(' ', at + 1)) {
            if (cut != std::string_view::npos && display_width(line.substr(0, at)) > room) break;
            cut = at;
        }
        const std::size_t next =
            cut == std::string_view::npos ? cut : line.find_first_not_of(' ', cut);
        if (next == std::string_view::npos) break;
        out.append(line.substr(0, cut)).append("\n").append(hanging, ' ');
        line.remove_prefix(next);
        room = columns > hanging ? columns - hanging : 1;
    }
    out += line;
}

}  // namespace

std::size_t display_width(std::string_view text) {
    std::vector<std::uint8_t> bytes(text.begin(), text.end());
    const int width = u8_width(bytes.data(), bytes.size(), "UTF-8");
    return width < 0 ? 0 : static_cast<std::size_t>(width);
}

std::string padded(std::string_view text, std::size_t width) {
    const std::size_t own = display_width(text);
    return std::string(text) + std::string(width > own ? width - own : 0, ' ');
}

std::string folded(std::string_view text, std::size_t columns, std::size_t hanging) {
    std::string out;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        fold_line(out, text.substr(0, end), columns, hanging);
        if (end < text.size()) out += '\n';
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return out;
}

}  // namespace skeinfall::base
