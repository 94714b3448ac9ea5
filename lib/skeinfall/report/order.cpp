#include "skeinfall/report/order.hpp"

#include <regex>

namespace skeinfall::report {
namespace {

bool digit(char c) {
    return c >= '0' && c <= '9';
}

bool part_of_a_name(char c) {
    return digit(c) || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '.' || c == '_' ||
           c == '-' || c == '/';
}

}  // namespace

std::string metres_first(std::string_view text) {
    static const std::regex bracketed("([0-9.]+) yd \\(([0-9.]+) m\\)");
    static const std::regex per_mass("([0-9.]+) yd per ([0-9.]+ g) \\(([0-9.]+) m per \\2\\)");
    static const std::regex slashed(
        "([0-9.]+(?: \\([0-9., ]+\\))?) (yd|in) / ([0-9.]+(?: \\([0-9., ]+\\))?) (m|cm)\\b");
    std::string out = std::regex_replace(std::string(text), bracketed, "$2 m ($1 yd)");
    out = std::regex_replace(out, per_mass, "$3 m per $2 ($1 yd per $2)");
    return std::regex_replace(out, slashed, "$3 $4 / $1 $2");
}

std::string decimal_comma(std::string_view text) {
    std::string out(text);
    for (std::size_t at = 1; at + 1 < out.size(); ++at) {
        if (out[at] != '.' || !digit(out[at - 1]) || !digit(out[at + 1])) continue;
        std::size_t begin = at;
        while (begin > 0 && digit(out[begin - 1])) --begin;
        std::size_t end = at + 1;
        while (end < out.size() && digit(out[end])) ++end;
        const bool sign = begin > 0 && out[begin - 1] == '-';
        const bool named_before = begin > 0 && !sign && part_of_a_name(out[begin - 1]);
        const bool named_after = end + 1 < out.size() && part_of_a_name(out[end]) &&
                                 (out[end] != '.' || part_of_a_name(out[end + 1])) &&
                                 out[end] != '-' && out[end] != '/';
        if (!named_before && !named_after) out[at] = ',';
    }
    // Numbers of a list are parted by semicolons then.
    for (std::size_t at = 1; at + 2 < out.size(); ++at)
        if (out[at] == ',' && digit(out[at - 1]) && out[at + 1] == ' ' && digit(out[at + 2]))
            out[at] = ';';
    return out;
}

}  // namespace skeinfall::report
