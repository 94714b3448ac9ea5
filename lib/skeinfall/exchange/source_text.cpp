#include "skeinfall/exchange/source_text.hpp"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"

namespace skeinfall::exchange {
namespace {

constexpr std::string_view byte_order_mark = "\xef\xbb\xbf";

/// Bytes between the counts of characters that are kept, so that long lines stay cheap.
constexpr std::size_t stride = 256;

/// True for the second and later bytes of a character.
bool continues(char c) {
    return (static_cast<unsigned char>(c) & 0xc0U) == 0x80U;
}

std::size_t characters_in(std::string_view text) {
    return text.size() -
           static_cast<std::size_t>(std::count_if(text.begin(), text.end(), continues));
}

}  // namespace

SourceText::SourceText(std::string_view text, std::string file)
    : text_(text), file_(std::move(file)), line_starts_{0} {
    if (text_.starts_with(byte_order_mark)) text_.remove_prefix(byte_order_mark.size());
    for (std::size_t at = text_.find('\n'); at != std::string_view::npos;
         at = text_.find('\n', at + 1))
        line_starts_.push_back(at + 1);
    std::size_t characters = 0;
    for (std::size_t at = 0; at <= text_.size(); at += stride) {
        characters_before_.push_back(characters);
        characters += characters_in(text_.substr(at, stride));
    }
}

base::Place SourceText::place(std::size_t offset) const {
    offset = std::min(offset, text_.size());
    const auto next = std::upper_bound(line_starts_.begin(), line_starts_.end(), offset);
    return {file_, static_cast<std::size_t>(next - line_starts_.begin()),
            offset - *std::prev(next) + 1};
}

base::Place SourceText::place_inside(std::size_t offset, std::string_view value,
                                     std::size_t at) const {
    const std::string_view rest = text_.substr(std::min(offset, text_.size()));
    std::size_t quote = rest.starts_with('"') || rest.starts_with('\'') ? 1 : 0;
    if (rest.starts_with("\"\"\"") || rest.starts_with("'''")) {
        quote = 3;  // TOML leaves out a line break right behind them
        if (rest.substr(quote).starts_with('\r')) ++quote;
        if (rest.substr(quote).starts_with('\n')) ++quote;
    }
    const bool verbatim = rest.size() > quote && rest.substr(quote).starts_with(value);
    return place(verbatim ? offset + quote + at : offset);
}

std::size_t SourceText::offset(std::size_t line, std::size_t character) const {
    if (line == 0 || character == 0 || line > line_starts_.size()) return text_.size();
    const std::size_t start = line_starts_[line - 1];
    const std::size_t whole = start / stride;
    const std::size_t wanted = characters_before_[whole] + (character - 1) +
                               characters_in(text_.substr(whole * stride, start - whole * stride));
    const auto after =
        std::upper_bound(characters_before_.begin(), characters_before_.end(), wanted);
    std::size_t passed = *std::prev(after);
    std::size_t at = stride * static_cast<std::size_t>(after - characters_before_.begin() - 1);
    for (; at < text_.size(); ++at) {
        if (continues(text_[at])) continue;
        if (passed == wanted) return at;
        ++passed;
    }
    return text_.size();
}

std::string_view SourceText::line_at(std::size_t offset) const {
    offset = std::min(offset, text_.size());
    const std::size_t before = offset == 0 ? std::string_view::npos : text_.rfind('\n', offset - 1);
    const std::size_t begin = before == std::string_view::npos ? 0 : before + 1;
    std::string_view line = text_.substr(begin, text_.find('\n', begin) - begin);
    if (line.ends_with('\r')) line.remove_suffix(1);
    return line;
}

std::optional<base::Problem> SourceText::encoding_problem() const {
    const auto bad = base::first_invalid_utf8(text_);
    if (!bad) return std::nullopt;
    return base::Problem{"a letter here is saved in an older way than UTF-8", place(*bad),
                         "plain text in UTF-8", "Save the file again with the encoding UTF-8."};
}

std::optional<std::string> text_fault(std::string_view text, std::size_t most_bytes, bool breaks) {
    if (text.size() > most_bytes)
        return fmt::format("{} has {} bytes, more than {}", in_quotes(text), text.size(),
                           most_bytes);
    const auto control = std::find_if(text.begin(), text.end(), [&](char c) {
        const auto byte = static_cast<unsigned char>(c);
        return (byte < 0x20 || byte == 0x7f) && !(breaks && (c == '\n' || c == '\r' || c == '\t'));
    });
    if (control == text.end()) return std::nullopt;
    return in_quotes(text) + " has a control character in it";
}

std::string in_quotes(std::string_view text) {
    constexpr std::size_t most_shown = 60;
    if (text.size() <= most_shown) return base::quoted(text);
    std::size_t end = most_shown;
    while (end > 0 && continues(text[end])) --end;
    return "\"" + base::shown_inert(text.substr(0, end)) + "...\"";
}

}  // namespace skeinfall::exchange
