#include "skeinfall/exchange/toml_tree.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <utility>

#include <toml++/toml.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/detail/toml_slip.hpp"

namespace skeinfall::exchange {
namespace {

constexpr std::size_t most_dots_in_key = 16;
constexpr int deepest_value = 16;

/// Offset behind the string that opens at `at`; the end of the line for one never closed.
std::size_t end_of_string(std::string_view text, std::size_t at) {
    const char quote = text[at];
    const std::array<char, 3> three{quote, quote, quote};
    const bool long_one = text.substr(at).starts_with(std::string_view(three.data(), 3));
    const std::string_view closing(three.data(), long_one ? 3 : 1);
    for (at += closing.size(); at < text.size(); ++at) {
        if (text[at] == '\\' && quote == '"') {
            ++at;
        } else if (text.substr(at).starts_with(closing)) {
            at += closing.size();
            // A long string may end in up to two quotes of its own.
            for (int own = 0; long_one && own < 2 && at < text.size() && text[at] == quote; ++own)
                ++at;
            return at;
        } else if (text[at] == '\n' && !long_one) {
            return at;
        }
    }
    return text.size();
}

/// Offset of the first dot too many in a key. toml++ 3.3 nests a table for each dot without a
/// limit and would overflow the stack.
std::optional<std::size_t> too_deep_key(std::string_view text) {
    constexpr std::string_view ends_key = ",=[]{}\n";
    std::size_t dots = 0;
    std::size_t at = 0;
    while (at < text.size()) {
        const char c = text[at];
        if (c == '"' || c == '\'') {
            at = end_of_string(text, at);
            continue;
        }
        if (c == '#') {
            at = std::min(text.find('\n', at), text.size());
            continue;
        }
        if (c == '.' && ++dots > most_dots_in_key) return at;
        if (ends_key.find(c) != std::string_view::npos) dots = 0;
        ++at;
    }
    return std::nullopt;
}

/// What phones write for a straight quote and a blank. Each is one character, as what it stands
/// for, so that columns stay.
constexpr auto curly_quotes = std::to_array<std::string_view>(
    {"\xe2\x80\x9c", "\xe2\x80\x9d", "\xe2\x80\x9e", "\xe2\x80\x9f"});
constexpr std::string_view hard_blank = "\xc2\xa0";

/// The text with curly quotes straight and hard blanks plain where no string stands; nothing when
/// there is none of them.
std::optional<std::string> straightened(std::string_view text) {
    std::string out;
    bool changed = false;
    bool inside = false;
    for (std::size_t at = 0; at < text.size();) {
        const char c = text[at];
        if (!inside && (c == '"' || c == '\'')) {
            const std::size_t end = end_of_string(text, at);
            out += text.substr(at, end - at);
            at = end;
            continue;
        }
        if (!inside && c == '#') {
            const std::size_t end = std::min(text.find('\n', at), text.size());
            out += text.substr(at, end - at);
            at = end;
            continue;
        }
        const auto curly =
            std::find_if(curly_quotes.begin(), curly_quotes.end(),
                         [&](std::string_view sign) { return text.substr(at).starts_with(sign); });
        if (curly != curly_quotes.end()) {
            out += '"';
            inside = !inside;
            changed = true;
            at += curly->size();
        } else if (!inside && text.substr(at).starts_with(hard_blank)) {
            out += ' ';
            changed = true;
            at += hard_blank.size();
        } else {
            if (c == '\n') inside = false;
            out += c;
            ++at;
        }
    }
    return changed ? std::optional(std::move(out)) : std::nullopt;
}

class Converter {
  public:
    explicit Converter(const SourceText& source) : source_(source) {}

    [[nodiscard]] std::size_t offset(const toml::source_region& region) const {
        return source_.offset(region.begin.line, region.begin.column);
    }

    [[nodiscard]] TomlValue value(const toml::node& node, int depth) const {
        TomlValue out;
        out.offset = offset(node.source());
        if (depth > deepest_value) return out;
        if (const auto* text = node.as_string()) {
            out.held = text->get();
        } else if (const auto* whole = node.as_integer()) {
            out.held = whole->get();
        } else if (const auto* number = node.as_floating_point()) {
            out.held = number->get();
        } else if (const auto* flag = node.as_boolean()) {
            out.held = flag->get();
        } else if (const auto* list = node.as_array()) {
            TomlValue::List values;
            for (const toml::node& one : *list) values.push_back(value(one, depth + 1));
            out.held = std::move(values);
        } else if (const auto* table = node.as_table()) {
            TomlValue::Table entries;
            for (const auto& [key, held] : *table)
                entries.push_back(
                    {std::string(key.str()), offset(key.source()), value(held, depth + 1)});
            // toml++ sorts by name.
            std::stable_sort(
                entries.begin(), entries.end(),
                [](const TomlEntry& a, const TomlEntry& b) { return a.offset < b.offset; });
            out.held = std::move(entries);
        }
        return out;
    }

  private:
    const SourceText& source_;
};

}  // namespace

std::string_view TomlValue::kind() const {
    constexpr auto kinds = std::to_array<std::string_view>(
        {"a date, a time or too deep a nesting", "true or false", "a whole number",
         "a decimal number", "a text", "a list", "a table"});
    static_assert(kinds.size() == std::variant_size_v<decltype(held)>);
    return kinds[held.index()];
}

std::size_t end_of_toml_value(std::string_view text, std::size_t at) {
    constexpr std::string_view ends_bare = ",]}#\r\n";
    int depth = 0;
    while (at < text.size()) {
        const char c = text[at];
        if (c == '"' || c == '\'') {
            at = end_of_string(text, at);
            if (depth == 0) return at;
        } else if (c == '[' || c == '{') {
            ++depth;
            ++at;
        } else if (c == ']' || c == '}') {
            if (depth == 0) break;
            ++at;
            if (--depth == 0) return at;
        } else if (depth > 0 && c == '#') {
            at = std::min(text.find('\n', at), text.size());
        } else if (depth == 0 && ends_bare.find(c) != std::string_view::npos) {
            break;
        } else {
            ++at;
        }
    }
    while (at > 0 && (text[at - 1] == ' ' || text[at - 1] == '\t')) --at;
    return at;
}

const TomlEntry* entry_of(const TomlValue& table, std::string_view key) {
    const auto* entries = std::get_if<TomlValue::Table>(&table.held);
    if (entries == nullptr) return nullptr;
    for (const TomlEntry& entry : *entries)
        if (entry.key == key) return &entry;
    return nullptr;
}

TomlValue parse_toml(const SourceText& source) {
    if (const auto problem = source.encoding_problem()) throw base::InputError(*problem);
    if (const auto dot = too_deep_key(source.text()))
        throw base::InputError({"a key with too many dots", source.place(*dot),
                                "at most two, as in yarn.MC.name", "Take the key apart."});
    const Converter converter(source);
    try {
        const auto straight = straightened(source.text());
        return converter.value(
            toml::parse(straight ? std::string_view(*straight) : source.text(), std::string_view()),
            0);
    } catch (const toml::parse_error& error) {
        const std::size_t at = converter.offset(error.source());
        base::Problem problem =
            detail::toml_slip(error.description(), source.line_at(at), source.text());
        problem.place = source.place(at);
        throw base::InputError(std::move(problem));
    }
}

}  // namespace skeinfall::exchange
