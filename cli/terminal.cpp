#include "terminal.hpp"

#include <algorithm>
#include <array>

#include "skeinfall/base/width.hpp"

namespace skeinfall::cli {
namespace {

constexpr std::size_t narrowest = 20;  ///< below it folding helps nobody

/// ISO/IEC 6429 (ECMA-48) colours of the words that verdicts begin with.
struct Tint {
    std::string_view word;
    std::string_view on;
};
constexpr auto tints = std::to_array<Tint>({{"covered", "\x1b[1;32m"},
                                            {"it will last", "\x1b[1;32m"},
                                            {"sound", "\x1b[1;32m"},
                                            {"too close to call", "\x1b[1;33m"},
                                            {"caution", "\x1b[1;33m"},
                                            {"short", "\x1b[1;31m"},
                                            {"it will not last", "\x1b[1;31m"}});
constexpr std::string_view off = "\x1b[0m";

std::string tinted(std::string_view line) {
    for (const Tint& tint : tints)
        if (line.starts_with(tint.word) && line.substr(tint.word.size()).starts_with(':'))
            return std::string(tint.on) + std::string(tint.word) + std::string(off) +
                   std::string(line.substr(tint.word.size()));
    return std::string(line);
}

}  // namespace

std::string for_terminal(std::string_view text, std::size_t columns, bool colour) {
    std::string out;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        const std::string_view line = text.substr(0, end);
        const std::size_t indent = std::min(line.find_first_not_of(' '), line.size());
        const std::string shown =
            columns < narrowest ? std::string(line) : base::folded(line, columns, indent + 2);
        out += colour ? tinted(shown) : shown;
        if (end < text.size()) out += '\n';
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return out;
}

}  // namespace skeinfall::cli
