#include "skeinfall/report/detail/markdown.hpp"

#include "skeinfall/base/text.hpp"

namespace skeinfall::report {

std::string markdown_text(const std::string& text) {
    // Blanks at the start would make code of a list item, or hide a sign from the test below.
    const std::string_view inert = base::trimmed(text);
    constexpr std::string_view everywhere = "\\`*_[]<>|&~";
    constexpr std::string_view at_the_start = "#+-=";
    std::string out;
    // "1." and "1)" at the start of a line would begin a numbered list.
    const std::size_t after_digits = inert.find_first_not_of("0123456789");
    for (std::size_t i = 0; i < inert.size(); ++i) {
        const char c = inert[i];
        const bool ends_word = i + 1 == inert.size() || inert[i + 1] == ' ';
        const bool starts_list =
            (i == 0 && at_the_start.find(c) != std::string_view::npos) ||
            (i != 0 && i == after_digits && (c == '.' || c == ')') && ends_word);
        if (starts_list || everywhere.find(c) != std::string_view::npos) out += '\\';
        out += c;
    }
    return out;
}

}  // namespace skeinfall::report
