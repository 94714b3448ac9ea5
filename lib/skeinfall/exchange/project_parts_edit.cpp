#include "skeinfall/exchange/project_parts_edit.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "skeinfall/base/name.hpp"
#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/detail/answer_text.hpp"
#include "skeinfall/exchange/source_text.hpp"
#include "skeinfall/exchange/toml_tree.hpp"
#include "skeinfall/units/format.hpp"

namespace skeinfall::exchange {
namespace {

using detail::in_toml;

/// A key is followed by "=", the name in a table's head is not.
bool is_key(std::string_view text, const TomlEntry& entry) {
    const std::size_t end = text.find_first_of("=]\n", entry.offset);
    return end != std::string_view::npos && text[end] == '=';
}

/// A piece in the file: from its head to the end of its last line.
struct Block {
    std::size_t begin = 0;
    std::size_t body = 0;  ///< behind the head's line
    std::size_t end = 0;
    std::vector<TomlEntry> entries;  ///< in the order of the file
};

Block block_of(const SourceText& source, const TomlValue& tree, std::size_t piece) {
    const std::string_view text = source.text();
    const TomlEntry* const pieces = entry_of(tree, "piece");
    const auto* const list =
        pieces == nullptr ? nullptr : std::get_if<TomlValue::List>(&pieces->value.held);
    const auto* const entries = list == nullptr || piece >= list->size()
                                    ? nullptr
                                    : std::get_if<TomlValue::Table>(&(*list)[piece].held);
    if (entries == nullptr || entries->empty())
        throw base::InputError(base::Problem{"there is no such piece in the file", source.place(0),
                                             "a [[piece]] table", ""});
    Block out;
    out.entries = *entries;
    std::sort(out.entries.begin(), out.entries.end(),
              [](const TomlEntry& a, const TomlEntry& b) { return a.offset < b.offset; });
    const bool plain = is_key(text, *pieces) == false &&
                       std::all_of(out.entries.begin(), out.entries.end(),
                                   [&](const TomlEntry& entry) { return is_key(text, entry); });
    if (!plain)
        throw base::InputError(
            base::Problem{"this piece cannot be copied as it is written",
                          source.place(out.entries.front().offset),
                          "a [[piece]] table with a line for each of its keys",
                          "Write what stands in tables of its own as { ... } behind its key."});
    const std::size_t head = text.rfind("[[", out.entries.front().offset);
    const std::size_t line = text.rfind('\n', head == 0 ? 0 : head - 1);
    out.begin = line == std::string_view::npos ? 0 : line + 1;
    out.body = text.find('\n', head) + 1;
    for (const TomlEntry& entry : out.entries)
        out.end = std::max(out.end, end_of_toml_value(text, entry.value.offset));
    out.end = std::min(text.find('\n', out.end), text.size() - 1) + 1;
    return out;
}

std::string value_in(const PieceCopy& copy, std::string_view key) {
    if (key == "name") return in_toml(copy.name);
    if (key == "yarn") return in_toml(copy.role);
    if (key == "count") return std::to_string(copy.count);
    return {};
}

std::string copied(std::string_view text, const Block& block, const PieceCopy& copy, bool first) {
    std::string out(text.substr(block.begin, block.body - block.begin));
    for (const std::string_view key : {"yarn", "count"})
        if (std::none_of(block.entries.begin(), block.entries.end(),
                         [&](const TomlEntry& entry) { return entry.key == key; }))
            out += fmt::format("{} = {}\n", key, value_in(copy, key));
    std::size_t at = block.body;
    for (const TomlEntry& entry : block.entries) {
        const std::size_t end = end_of_toml_value(text, entry.value.offset);
        // Remarks stay with the first.
        if (first) out += text.substr(at, entry.offset - at);
        const std::string value = value_in(copy, entry.key);
        out += value.empty() ? std::string(text.substr(entry.offset, end - entry.offset))
                             : fmt::format("{} = {}", entry.key, value);
        if (!first) out += "\n";
        at = end;
    }
    if (first) out += text.substr(at, block.end - at);
    return out;
}

}  // namespace

std::string with_copies(std::string_view text, const std::string& file, std::size_t piece,
                        const std::vector<PieceCopy>& copies) {
    const SourceText source(text, file);
    const Block block = block_of(source, parse_toml(source), piece);
    std::string out(source.text().substr(0, block.begin));
    for (std::size_t at = 0; at < copies.size(); ++at)
        out += (at == 0 ? "" : "\n") + copied(source.text(), block, copies[at], at == 0);
    return out + std::string(source.text().substr(block.end));
}

namespace {

/// Where each run of a list stands, begun with that of the colour.
std::vector<std::string> runs_from(const SourceText& source, const TomlEntry& colours,
                                   const std::string& colour) {
    const auto* const list = std::get_if<TomlValue::List>(&colours.value.held);
    std::vector<std::string> runs;
    std::size_t first = 0;
    bool found = false;
    for (std::size_t at = 0; list != nullptr && at < list->size(); ++at) {
        const TomlValue& run = (*list)[at];
        const TomlEntry* const name = entry_of(run, "colour");
        const auto* const word =
            name == nullptr ? nullptr : std::get_if<std::string>(&name->value.held);
        if (!found && word != nullptr && base::same_name(*word, colour)) {
            first = at;
            found = true;
        }
        runs.emplace_back(source.text().substr(
            run.offset, end_of_toml_value(source.text(), run.offset) - run.offset));
    }
    if (!found)
        throw base::InputError(base::Problem{base::quoted(colour) + " is none of its colours",
                                             source.place(colours.offset), "one of its colours",
                                             ""});
    std::rotate(runs.begin(), runs.begin() + static_cast<std::ptrdiff_t>(first), runs.end());
    return runs;
}

}  // namespace

std::string with_colours_from(std::string_view text, const std::string& file,
                              const std::string& role, const std::string& colour) {
    const SourceText source(text, file);
    const TomlValue tree = parse_toml(source);
    const TomlEntry* const yarns = entry_of(tree, "yarn");
    const TomlEntry* const yarn = yarns == nullptr ? nullptr : entry_of(yarns->value, role);
    const TomlEntry* const colours = yarn == nullptr ? nullptr : entry_of(yarn->value, "colours");
    if (colours == nullptr || !is_key(source.text(), *colours))
        throw base::InputError(
            base::Problem{"the colours of " + base::shown_inert(role) +
                              " cannot be begun with another as they "
                              "are written",
                          source.place(colours == nullptr ? 0 : colours->offset),
                          "a line such as colours = [{ colour = \"sand\", share = \"40 %\" }, ...]",
                          "Write what stands in tables of its own so."});
    const std::size_t end = end_of_toml_value(source.text(), colours->value.offset);
    std::string out(source.text().substr(0, colours->value.offset));
    out += "[\n";
    for (const std::string& run : runs_from(source, *colours, colour)) out += "  " + run + ",\n";
    return out + "]" + std::string(source.text().substr(end));
}

std::string with_pieces_begun(std::string_view text, const std::string& file,
                              const std::string& role, const std::string& colour,
                              units::Length first) {
    const SourceText source(text, file);
    const TomlValue tree = parse_toml(source);
    const TomlEntry* const yarns = entry_of(tree, "yarn");
    const TomlEntry* const yarn = yarns == nullptr ? nullptr : entry_of(yarns->value, role);
    const auto entry = [&](const char* key) {
        return yarn == nullptr ? nullptr : entry_of(yarn->value, key);
    };
    const TomlEntry* const colours = entry("colours");
    if (colours == nullptr || !is_key(source.text(), *colours))
        throw base::InputError(base::Problem{
            "yarn " + base::shown_inert(role) + " has no colours in the file", source.place(0),
            "a line such as colours = [{ colour = \"sand\", share = \"40 %\" }, ...]", ""});
    const std::vector<std::pair<const char*, std::string>> said{
        {"pieces_begin_with", in_toml(colour)},
        {"first_wound_off",
         in_toml(units::text(std::max(first, 0.1 * units::metre), units::shown::metres,
                             units::Step::tenth, units::Rounding::up))}};
    struct Put {
        std::size_t at = 0;
        std::size_t size = 0;
        std::string text;
    };
    std::vector<Put> puts;
    for (const auto& [key, value] : said) {
        if (const TomlEntry* const was = entry(key))
            puts.push_back({was->value.offset,
                            end_of_toml_value(source.text(), was->value.offset) - was->value.offset,
                            value});
        else
            puts.push_back({colours->offset, 0, fmt::format("{} = {}\n", key, value)});
    }
    std::stable_sort(puts.begin(), puts.end(),
                     [](const Put& a, const Put& b) { return a.at > b.at; });
    std::string out(source.text());
    for (const Put& one : puts) out.replace(one.at, one.size, one.text);
    return out;
}

}  // namespace skeinfall::exchange
