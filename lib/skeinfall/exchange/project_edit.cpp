#include "skeinfall/exchange/project_edit.hpp"

#include <algorithm>
#include <cstdint>
#include <regex>

#include <fmt/format.h>

#include "skeinfall/exchange/source_text.hpp"
#include "skeinfall/exchange/toml_tree.hpp"
#include "skeinfall/units/format.hpp"

namespace skeinfall::exchange {
namespace {

using project::PerSize;

std::string text_or_lines_in_toml(const std::string& text) {
    const bool lines = text.find('\n') != std::string::npos;
    std::string out = lines ? "\"\"\"\n" : "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') out += '\\';
        if (c == '\t') {
            out += "\\t";
            continue;
        }
        out += c;
    }
    return out + (lines ? "\"\"\"" : "\"");
}

template <class T, class Write>
std::string list_of(const PerSize<T>& values, Write write) {
    std::vector<std::string> texts;
    for (const T& value : values.values) texts.push_back(write(value));
    if (std::all_of(texts.begin(), texts.end(),
                    [&](const std::string& text) { return text == texts.front(); }))
        return texts.front();
    return fmt::format("[{}]", fmt::join(texts, ", "));
}

std::string in_quotation(const std::string& text) {
    return "\"" + text + "\"";
}

std::string length_text(units::Length length, bool yards) {
    return units::text(length, yards ? units::shown::yards : units::shown::metres,
                       units::Step::tenth, units::Rounding::up);
}

class Editor {
  public:
    Editor(std::string_view text, const std::string& file)
        : source_(text, file), tree_(parse_toml(source_)) {}

    void piece(const PieceEdit& edit) {
        const TomlEntry* pieces = entry_of(tree_, "piece");
        const auto* list =
            pieces == nullptr ? nullptr : std::get_if<TomlValue::List>(&pieces->value.held);
        if (list == nullptr || edit.piece >= list->size())
            throw base::InputError(base::Problem{"there is no such piece in the file",
                                                 source_.place(0), "a [[piece]] table", ""});
        const TomlValue& table = (*list)[edit.piece];
        whole(table, "stitches", "width", edit.stitches);
        whole(table, "rows", "length", edit.rows);
        whole(table, "last_stitches", "last_width", edit.last_stitches);
        whole(table, "count", "", edit.count);
        side(table, "width", edit.width_of_row_one ? "stitches" : "", edit.width);
        side(table, "length", "rows", edit.length);
        whole(table, "blocks_wide", "rows", edit.blocks_wide);
        whole(table, "blocks_high", "", edit.blocks_high);
        // The size of a finished shape says how it increases.
        if ((edit.width.stated() || edit.length.stated()) && !edit.width_of_row_one &&
            entry_of(table, "shape") != nullptr)
            for (const char* key : {"increase", "every"})
                if (const TomlEntry* entry = entry_of(table, key)) drop(*entry);
        if (!edit.written.empty()) written(table, edit.written);
        if (!edit.stripes.empty()) stripes(table, edit.stripes);
    }

    /// A border's first round, which it may also give as its stitches.
    void round(const RoundEdit& edit) {
        const TomlEntry* parts = entry_of(tree_, "finish");
        const auto* list =
            parts == nullptr ? nullptr : std::get_if<TomlValue::List>(&parts->value.held);
        const TomlEntry* entry = nullptr;
        if (list != nullptr && edit.part < list->size())
            for (const char* key : {"first_round", "stitches"})
                if (entry == nullptr) entry = entry_of((*list)[edit.part], key);
        if (entry == nullptr)
            throw base::InputError(base::Problem{"there is no such border in the file",
                                                 source_.place(0), "a border by its stitches", ""});
        replace(
            entry->value.offset, end_of_value(entry->value.offset),
            list_of(edit.first_round, [](std::int64_t value) { return std::to_string(value); }));
    }

    void columns(const ColumnsEdit& edit) {
        if (const TomlValue* table = part(edit.part)) whole(*table, "columns", "", edit.columns);
    }

    void fringe(const FringeEdit& edit) {
        const TomlValue* table = part(edit.part);
        if (table == nullptr) return;
        whole(*table, "strands", "", edit.strands);
        side(*table, "takes", "", edit.yarn);
        side(*table, "along", "", edit.along);
    }

    void total(const TotalEdit& edit) {
        const TomlEntry* yarns = entry_of(tree_, "yarn");
        const TomlEntry* role = yarns == nullptr ? nullptr : entry_of(yarns->value, edit.role);
        const TomlEntry* total = role == nullptr ? nullptr : entry_of(role->value, "total");
        if (total == nullptr)
            throw base::InputError(base::Problem{"yarn " + in_quotes(edit.role) + " has no total",
                                                 source_.place(0), "a total", ""});
        const std::size_t end = end_of_value(total->value.offset);
        const std::string_view was =
            source_.text().substr(total->value.offset, end - total->value.offset);
        const bool yards =
            was.find("yd") != std::string_view::npos || was.find("yard") != std::string_view::npos;
        const bool ounces = was.find("oz") != std::string_view::npos;
        std::vector<std::string> texts;
        for (std::size_t at_size = 0; at_size < edit.length.values.size(); ++at_size) {
            const std::string most = length_text(edit.length.values[at_size], yards);
            texts.push_back(in_quotation(
                edit.least.stated() ? length_text(edit.least.at(at_size), yards) + " to " + most
                                    : most));
        }
        for (const units::Mass& mass : edit.mass.values)
            texts.push_back(
                in_quotation(units::text(mass, ounces ? units::shown::ounces : units::shown::grams,
                                         units::Step::hundredth, units::Rounding::up)));
        replace(total->value.offset, end,
                texts.size() == 1 ? texts.front() : fmt::format("[{}]", fmt::join(texts, ", ")));
        for (const char* key : {"total_for_rows", "total_for_size"})
            if (const TomlEntry* entry = entry_of(role->value, key)) drop(*entry);
    }

    std::string text() {
        std::sort(changes_.begin(), changes_.end(),
                  [](const Change& a, const Change& b) { return a.begin > b.begin; });
        std::string out(source_.text());
        for (const Change& change : changes_)
            out.replace(change.begin, change.end - change.begin, change.text);
        return out;
    }

  private:
    struct Change {
        std::size_t begin = 0;
        std::size_t end = 0;
        std::string text;
    };

    [[nodiscard]] const TomlValue* part(std::size_t at) const {
        const TomlEntry* parts = entry_of(tree_, "finish");
        const auto* list =
            parts == nullptr ? nullptr : std::get_if<TomlValue::List>(&parts->value.held);
        return list != nullptr && at < list->size() ? &(*list)[at] : nullptr;
    }

    void replace(std::size_t begin, std::size_t end, std::string text) {
        changes_.push_back({begin, end, std::move(text)});
    }

    [[nodiscard]] std::size_t end_of_value(std::size_t at) const {
        return end_of_toml_value(source_.text(), at);
    }

    /// A count, in the place of a measurement where that stood there.
    void whole(const TomlValue& table, const char* key, const char* measured,
               const PerSize<std::int64_t>& values) {
        if (values.stated())
            put(table, key, measured,
                list_of(values, [](std::int64_t value) { return std::to_string(value); }));
    }

    /// A measure, in the place of a count where that stood there.
    void side(const TomlValue& table, const char* key, const char* counted,
              const PerSize<units::Length>& values) {
        if (!values.stated()) return;
        put(table, key, counted, list_of(values, [](units::Length value) {
                return "\"" +
                       units::text(value, units::shown::centimetres, units::Step::tenth,
                                   units::Rounding::nearest) +
                       "\"";
            }));
    }

    /// `list` under the key: where it stands, in the place of the key it stands in for, or first.
    void put(const TomlValue& table, const char* key, const char* instead,
             const std::string& list) {
        const TomlEntry* own = entry_of(table, key);
        const TomlEntry* other = entry_of(table, instead);
        if (own != nullptr) {
            replace(own->value.offset, end_of_value(own->value.offset), list);
            if (other != nullptr) drop(*other);
        } else if (other != nullptr) {
            replace(other->offset, end_of_value(other->value.offset),
                    fmt::format("{} = {}", key, list));
        } else if (const auto* entries = std::get_if<TomlValue::Table>(&table.held);
                   entries != nullptr && !entries->empty()) {
            const bool in_line = source_.text().substr(table.offset, 1) == "{";
            replace(entries->front().offset, entries->front().offset,
                    fmt::format("{} = {}{}", key, list, in_line ? ", " : "\n"));
        }
    }

    /// Takes out a key with its value, and its line where nothing else stands there.
    void drop(const TomlEntry& entry) {
        const std::string_view text = source_.text();
        std::size_t end = end_of_value(entry.value.offset);
        std::size_t begin = entry.offset;
        const std::size_t line = text.rfind('\n', begin == 0 ? 0 : begin - 1);
        const std::size_t first = line == std::string_view::npos ? 0 : line + 1;
        const std::size_t stop = std::min(text.find('\n', end), text.size());
        const auto blank = [&](std::size_t from, std::size_t to) {
            return text.substr(from, to - from).find_first_not_of(" \t\r") ==
                   std::string_view::npos;
        };
        if (blank(first, begin) && blank(end, stop)) {
            begin = first;
            end = std::min(stop + 1, text.size());
        } else if (const std::size_t comma = text.find_first_not_of(" \t", end);
                   comma != std::string_view::npos && text[comma] == ',') {
            end = comma + 1;
        } else if (const std::size_t before = text.find_last_not_of(" \t", begin - 1);
                   before != std::string_view::npos && text[before] == ',') {
            begin = before;
        }
        replace(begin, end, "");
    }

    /// In the place of the stripes or of the yarn that stood there; where tables of their own say
    /// them ([[piece.stripes]]), those cannot be put in one place.
    void stripes(const TomlValue& table, const std::vector<project::Stripe>& wanted) {
        const bool in_line = source_.text().substr(table.offset, 1) == "{";
        std::vector<std::string> each;
        each.reserve(wanted.size());
        for (const project::Stripe& stripe : wanted)
            each.push_back(fmt::format("{{ yarn = {}, rows = {} }}",
                                       text_or_lines_in_toml(stripe.role), stripe.rows));
        const std::string list = in_line ? fmt::format("[{}]", fmt::join(each, ", "))
                                         : fmt::format("[\n  {},\n]", fmt::join(each, ",\n  "));
        const TomlEntry* was = entry_of(table, "stripes");
        // A key is followed by "=", the name in a table's head is not.
        const auto is_key = [&](const TomlEntry& entry) {
            const std::size_t end = source_.text().find_first_of("=]\n", entry.offset);
            return end != std::string_view::npos && source_.text()[end] == '=';
        };
        if (was != nullptr && !is_key(*was))
            throw base::InputError(base::Problem{"these stripes stand in tables of their own",
                                                 source_.place(was->offset),
                                                 "stripes = [ ... ] in one place",
                                                 "Write them as stripes = [{ yarn = \"MC\", rows = "
                                                 "4 }, ...] inside the piece."});
        if (was != nullptr)
            return replace(was->value.offset, end_of_value(was->value.offset), list);
        if (const TomlEntry* yarn = entry_of(table, "yarn"))
            return replace(yarn->offset, end_of_value(yarn->value.offset), "stripes = " + list);
        const auto* entries = std::get_if<TomlValue::Table>(&table.held);
        if (entries != nullptr && !entries->empty())
            replace(entries->front().offset, entries->front().offset,
                    "stripes = " + list + (in_line ? ", " : "\n"));
    }

    void written(const TomlValue& table, const std::vector<std::string>& entries) {
        const TomlEntry* rows = entry_of(table, "rows");
        if (rows == nullptr) return;
        const auto* list = std::get_if<TomlValue::List>(&rows->value.held);
        const auto put = [&](const TomlValue& value, const std::string& text) {
            const auto* was = std::get_if<std::string>(&value.held);
            if (was == nullptr || *was == text) return;
            replace(value.offset, end_of_value(value.offset), text_or_lines_in_toml(text));
        };
        if (list == nullptr) return put(rows->value, entries.front());
        for (std::size_t at = 0; at < std::min(list->size(), entries.size()); ++at)
            put((*list)[at], entries[at]);
    }

    SourceText source_;
    TomlValue tree_;
    std::vector<Change> changes_;
};

}  // namespace

std::string edited_project(std::string_view text, const std::string& file,
                           const std::vector<PieceEdit>& pieces,
                           const std::vector<TotalEdit>& totals,
                           const std::vector<RoundEdit>& rounds,
                           const std::vector<ColumnsEdit>& columns,
                           const std::vector<FringeEdit>& fringes) {
    Editor editor(text, file);
    for (const PieceEdit& piece : pieces) editor.piece(piece);
    for (const TotalEdit& total : totals) editor.total(total);
    for (const RoundEdit& round : rounds) editor.round(round);
    for (const ColumnsEdit& of : columns) editor.columns(of);
    for (const FringeEdit& fringe : fringes) editor.fringe(fringe);
    return editor.text();
}

std::string retitled_project(const std::string& text, const std::string& title) {
    static const std::regex line(R"re((^|\n)(title[ \t]*=[ \t]*)"(?:[^"\\\n]|\\.)*")re");
    std::smatch found;
    const std::size_t tables = text.find("\n[");
    if (!std::regex_search(text, found, line) ||
        static_cast<std::size_t>(found.position(0)) > tables)
        return text;
    return found.prefix().str() + found[1].str() + found[2].str() + text_or_lines_in_toml(title) +
           found.suffix().str();
}

}  // namespace skeinfall::exchange
