#include "skeinfall/exchange/stash_csv.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <map>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/csv.hpp"
#include "skeinfall/exchange/problem_list.hpp"
#include "skeinfall/exchange/source_text.hpp"
#include "skeinfall/exchange/text_file.hpp"

namespace skeinfall::exchange {
namespace {

constexpr std::size_t longest_text = 200;
constexpr std::size_t longest_id = 40;
constexpr int most_knots = 1000;
constexpr std::size_t most_rows = 100'000;

struct Column {
    std::string_view name;  // as we write it
    std::string_view meaning;
    std::array<std::string_view, 3> other_names;
};

constexpr auto columns = std::to_array<Column>({
    {"id", "the skein's own name", {}},
    {"yarn", "name of the yarn", {}},
    {"colourway", "colourway", {"colorway", "colour", "color"}},
    {"dye_lot", "dye lot", {"lot"}},
    {"shade_group", "shade group, skeins judged alike by eye", {}},
    {"class", "Council's yarn weight class", {}},
    {"fibre", "fibre content", {"fiber"}},
    {"label_length", "length on the label", {}},
    {"label_mass", "mass on the label", {}},
    {"colour_repeat", "length of one colour repeat", {"color_repeat"}},
    {"state", "whole skein or part of one", {}},
    {"weighed", "what the scale showed", {}},
    {"scale", "step of that scale", {}},
    {"tare", "cone or bag on the scale", {}},
    {"knots", "knots inside the skein", {}},
    {"note", "note", {}},
});

std::vector<std::string> column_names() {
    std::vector<std::string> names;
    names.reserve(columns.size());
    for (const Column& column : columns) names.emplace_back(column.name);
    return names;
}

/// Lower case, without blanks, "_" and "-".
std::string bare(std::string_view header) {
    std::string out = base::lower(base::trimmed(header));
    std::erase_if(out, [](char c) { return c == ' ' || c == '_' || c == '-'; });
    return out;
}

const Column* find_column(std::string_view header) {
    const std::string wanted = bare(header);
    if (wanted.empty()) return nullptr;
    for (const Column& column : columns) {
        if (bare(column.name) == wanted) return &column;
        for (const std::string_view name : column.other_names)
            if (bare(name) == wanted) return &column;
    }
    return nullptr;
}

std::optional<std::string> nearest_column(std::string_view header) {
    std::vector<std::string> known;
    std::vector<std::string_view> written;
    for (const Column& column : columns) {
        known.push_back(bare(column.name));
        written.push_back(column.name);
        for (const std::string_view name : column.other_names) {
            if (name.empty()) continue;
            known.push_back(bare(name));
            written.push_back(name);
        }
    }
    const auto near = base::nearest_name(bare(header), known);
    if (!near) return std::nullopt;
    const auto index = std::find(known.begin(), known.end(), *near) - known.begin();
    return std::string(written[static_cast<std::size_t>(index)]);
}

bool id_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' ||
           c == '_' || c == '.';
}

class StashReader {
  public:
    StashReader(std::string_view text, const std::string& file) : source_(text, file) {}

    StashTable read() {
        const std::vector<CsvRow> rows = parse_csv(source_);
        if (rows.empty())
            throw base::InputError({"the file has no rows", source_.place(0),
                                    "a header row with the names of the columns",
                                    "The first row could be: id,yarn,colourway,dye_lot,"
                                    "label_length,label_mass"});
        if (rows.size() - 1 > most_rows)
            throw base::InputError({fmt::format("the file has {} skeins", rows.size() - 1),
                                    source_.place(rows[most_rows + 1].front().offset),
                                    fmt::format("at most {}", most_rows),
                                    "Check that it is the right file, or take it apart."});
        read_header(rows.front());
        for (std::size_t r = 1; r < rows.size(); ++r) read_row(rows[r]);
        problems_.throw_if_any();
        return std::move(table_);
    }

  private:
    void fail(base::Place place, std::string what, std::string expected, std::string remedy) {
        problems_.add({std::move(what), std::move(place), std::move(expected), std::move(remedy)});
    }

    void read_header(const CsvRow& header) {
        std::map<std::string_view, std::size_t> seen;
        for (const CsvCell& cell : header) {
            const std::string_view name = base::trimmed(cell.text);
            const Column* column = find_column(name);
            layout_.push_back(column);
            if (column == nullptr) {
                const auto near = nearest_column(name);
                fail(source_.place(cell.offset),
                     name.empty() ? "a column without a name" : "unknown column " + in_quotes(name),
                     "one of " + base::join(column_names(), ", "),
                     near ? "Did you mean \"" + *near + "\"?"
                          : "Rename the column, or leave it out of the file.");
            } else if (const auto [first, fresh] = seen.emplace(column->name, cell.offset);
                       !fresh) {
                fail(
                    source_.place(cell.offset),
                    fmt::format("{} is a second column for {}; the first one is column {} of "
                                "the line",
                                in_quotes(name), column->name, source_.place(first->second).column),
                    "each column once", "Leave one of them out.");
            } else {
                table_.understood.push_back(fmt::format("{} -> {}", name, column->meaning));
            }
        }
        if (!seen.contains("yarn"))
            fail(source_.place(header.front().offset), "the column \"yarn\" is missing",
                 "a column with the names of the yarns", "Add a column named \"yarn\".");
    }

    void read_row(const CsvRow& row) {
        const bool blank = std::all_of(row.begin(), row.end(), [](const CsvCell& cell) {
            return base::trimmed(cell.text).empty();
        });
        if (blank) return;
        if (row.size() != layout_.size()) {
            const bool many = row.size() > layout_.size();
            fail(source_.place(many ? row[layout_.size()].offset : row.front().offset),
                 many ? fmt::format("the row has {} cells for {} columns", row.size(),
                                    layout_.size())
                      : fmt::format("the row ends after {} of {} columns", row.size(),
                                    layout_.size()),
                 "one cell a column, empty where nothing is known",
                 many ? "A cell with a comma in it has to stand between quotes."
                      : "Add the commas of the empty cells.");
            return;
        }
        cells_.clear();
        for (std::size_t c = 0; c < row.size(); ++c)
            if (layout_[c] != nullptr && !base::trimmed(row[c].text).empty())
                cells_.emplace(layout_[c]->name, &row[c]);
        row_offset_ = row.front().offset;
        table_.skeins.push_back(skein());
    }

    stash::Skein skein() {
        stash::Skein out;
        out.id = id();
        out.yarn.name = text("yarn").value_or(std::string());
        // A file without the column is one mistake, not one a row.
        const bool column_there = std::any_of(layout_.begin(), layout_.end(), [](const Column* c) {
            return c != nullptr && c->name == "yarn";
        });
        if (column_there && !cells_.contains("yarn"))
            fail(source_.place(row_offset_), "the row names no yarn",
                 "the yarn's name in the column \"yarn\"", "Fill in that cell.");
        out.colourway = text("colourway").value_or(std::string());
        out.dye_lot = text("dye_lot");
        out.shade_group = text("shade_group");
        out.note = text("note", true).value_or(std::string());
        out.yarn.weight = weight_class();
        out.yarn.fibre = parsed("fibre", yarn::parse_fibre_content).value_or(yarn::FibreContent{});
        out.yarn.label.length = printed("label_length", units::parse_length);
        out.yarn.label.mass = printed("label_mass", units::parse_mass);
        out.yarn.colour_repeat = printed("colour_repeat", units::parse_length);
        out.part = part();
        out.knots = knots();
        out.weighing = weighing();
        if (out.weighing)
            for (const std::string& fault : stash::faults(out))
                fail_cell("weighed", 0, fault, "a reading that fits the skein",
                          "Weigh the skein again, or mend its label or state.");
        return out;
    }

    /// Blanks at the ends are no part of a value.
    [[nodiscard]] std::string_view value(std::string_view column) const {
        const auto found = cells_.find(column);
        return found == cells_.end() ? std::string_view() : base::trimmed(found->second->text);
    }

    /// `at` counts bytes of the value. Precondition: the cell is not empty.
    void fail_cell(std::string_view column, std::size_t at, std::string_view what,
                   std::string expected, std::string remedy) {
        const CsvCell& cell = *cells_.find(column)->second;
        const auto blanks = static_cast<std::size_t>(value(column).data() - cell.text.data());
        fail(source_.place_inside(cell.offset, cell.text, blanks + at),
             fmt::format("{}: {}", column, what), std::move(expected), std::move(remedy));
    }

    std::optional<std::string> text(std::string_view column, bool breaks = false) {
        const std::string_view written = value(column);
        if (written.empty()) return std::nullopt;
        if (const auto fault = text_fault(written, longest_text, breaks)) {
            fail_cell(column, 0, *fault,
                      fmt::format("at most {} bytes of plain text", longest_text),
                      "Shorten it, or type it anew.");
            return std::nullopt;
        }
        return std::string(written);
    }

    template <class T>
    std::optional<T> parsed(std::string_view column, base::Result<T> (*parse)(std::string_view)) {
        const auto written = text(column);
        if (!written) return std::nullopt;
        const auto result = parse(*written);
        if (result) return *result;
        const base::Problem& problem = result.problem();
        fail_cell(column, problem.place.column - 1, problem.what, problem.expected, problem.remedy);
        return std::nullopt;
    }

    template <class Q>
    std::optional<units::Printed<Q>> printed(std::string_view column,
                                             base::Result<Q> (*parse)(std::string_view)) {
        const auto read = parsed(column, parse);
        if (!read) return std::nullopt;
        return units::Printed<Q>{std::string(value(column)), *read};
    }

    std::string id() {
        const std::string_view written = value("id");
        if (written.empty()) return {};
        const auto* wrong = std::find_if_not(written.begin(), written.end(), id_letter);
        if (wrong != written.end() || written.size() > longest_id) {
            const auto at = wrong != written.end() ? wrong - written.begin() : 0;
            fail_cell("id", static_cast<std::size_t>(at), in_quotes(written) + " cannot be an id",
                      fmt::format("up to {} letters without accents, digits, \"-\", \"_\" or \".\"",
                                  longest_id),
                      "Leave the cell empty to have an id given.");
            return {};
        }
        const auto [first, fresh] = ids_.emplace(written, row_offset_);
        if (!fresh)
            fail_cell("id", 0,
                      fmt::format("{} is the id of line {} too", in_quotes(written),
                                  source_.place(first->second).line),
                      "an id of its own for each skein",
                      "Leave the cell empty to have an id given.");
        return std::string(written);
    }

    std::optional<yarn::WeightClass> weight_class() {
        const std::string_view written = value("class");
        if (written.empty()) return std::nullopt;
        const auto found = yarn::parse_weight_class(written);
        if (found) return found;
        std::vector<std::string> names;
        std::vector<std::string> shown;
        for (const yarn::WeightClass known : yarn::known_classes()) {
            names.emplace_back(yarn::class_name(known));
            shown.push_back(yarn::text(known));
        }
        const auto near = base::nearest_name(written, names);
        fail_cell("class", 0, "unknown weight class " + in_quotes(written),
                  "a number or name of " + base::join(shown, ", "),
                  near ? "Did you mean \"" + *near + "\"?" : std::string());
        return std::nullopt;
    }

    bool part() {
        const std::string_view written = value("state");
        if (base::same_word(written, "part")) return true;
        if (!written.empty() && !base::same_word(written, "whole"))
            fail_cell("state", 0, in_quotes(written) + " is no state", "\"whole\" or \"part\"",
                      "Write \"part\" for a skein that was begun.");
        return false;
    }

    int knots() {
        const std::string_view written = value("knots");
        if (written.empty()) return 0;
        int number = -1;
        const auto [end, error] =
            std::from_chars(written.data(), written.data() + written.size(), number);
        if (error == std::errc() && end == written.data() + written.size() && number >= 0 &&
            number <= most_knots)
            return number;
        fail_cell("knots", 0, in_quotes(written) + " is no number of knots",
                  fmt::format("a whole number from 0 to {}", most_knots), "");
        return 0;
    }

    std::optional<measure::Weighing> weighing() {
        const auto shown = printed("weighed", units::parse_mass);
        const auto scale = printed("scale", units::parse_mass);
        const auto tare = printed("tare", units::parse_mass);
        if (!cells_.contains("weighed")) {
            for (const std::string_view column : {"scale", "tare"})
                if (cells_.contains(column))
                    fail_cell(column, 0, "there is no weighing it belongs to",
                              "the reading in the column \"weighed\"",
                              "Fill in that cell, or empty this one.");
            return std::nullopt;
        }
        if (!cells_.contains("scale"))
            fail_cell("weighed", 0, "the step of the scale is missing",
                      "the smallest step the scale shows, in the column \"scale\"",
                      "A usual kitchen scale has a step of \"1 g\".");
        if (!shown || !scale || (cells_.contains("tare") && !tare)) return std::nullopt;
        return measure::Weighing{*shown, *scale, tare};
    }

    SourceText source_;
    ProblemList problems_;
    StashTable table_;
    std::vector<const Column*> layout_;                 // null for a column that is not understood
    std::map<std::string_view, const CsvCell*> cells_;  // the filled ones of the row
    std::map<std::string, std::size_t, std::less<>> ids_;
    std::size_t row_offset_ = 0;
};

}  // namespace

StashTable parse_stash_csv(std::string_view text, const std::string& file) {
    return StashReader(text, file).read();
}

StashTable read_stash_csv(const std::filesystem::path& path) {
    return parse_stash_csv(read_text_file(path), path.string());
}

}  // namespace skeinfall::exchange
