#include "skeinfall/exchange/own_sheet.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <map>
#include <optional>
#include <span>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/csv_cell.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/csv.hpp"
#include "skeinfall/exchange/make_words.hpp"
#include "skeinfall/exchange/problem_list.hpp"
#include "skeinfall/exchange/stash_csv.hpp"
#include "skeinfall/exchange/text_file.hpp"
#include "skeinfall/exchange/yarn_words.hpp"
#include "skeinfall/project/column_words.hpp"
#include "skeinfall/units/parse.hpp"

namespace skeinfall::exchange {
namespace {

constexpr std::int64_t most_alike = 1000;
constexpr std::string_view quantity = "quantity";
constexpr std::string_view nothing = "nothing";
/// Whose yarn it is: a part of its name, or all there is of it.
constexpr std::string_view brand = "brand";

bool knows_field(std::string_view field) {
    return field == quantity || field == nothing || field == brand ||
           std::find(field_names().begin(), field_names().end(), field) != field_names().end();
}

/// Skeins of a row: whole ones, and a part of one where the figure is no whole number.
struct Quantity {
    std::int64_t whole = 1;
    bool part = false;
};

std::optional<Quantity> quantity_in(std::string_view cell) {
    if (const auto whole = units::parse_whole(cell))
        return *whole > most_alike ? std::nullopt : std::optional(Quantity{*whole, false});
    // The numbers of labels ("1,5", "2 1/2") are read in one place, with a unit behind them.
    const auto number = units::parse_mass(std::string(cell) + " g");
    if (!number) return std::nullopt;
    const double skeins = *number / units::gram;
    const double whole = std::floor(skeins);
    if (whole > static_cast<double>(most_alike)) return std::nullopt;
    return Quantity{static_cast<std::int64_t>(whole), skeins > whole};
}

struct Column {
    std::string heading;
    std::string field;  ///< empty: a blank column
    std::string unit;
};

/// A bare figure; a decimal comma is one.
bool is_figure(std::string_view text) {
    return !text.empty() && text.find_first_not_of("0123456789.,/ ") == std::string_view::npos;
}

bool says(const std::string& heading, std::span<const std::string_view> words) {
    return std::any_of(words.begin(), words.end(), [&](std::string_view word) {
        return (" " + heading + " ").find(" " + std::string(word) + " ") != std::string::npos;
    });
}

/// What all skeins of a row come to, and what is no longer there: no figure of one skein.
constexpr auto of_all = std::to_array<std::string_view>(
    {"total", "totals", "all", "altogether", "overall", "sum", "combined"});
constexpr auto gone = std::to_array<std::string_view>(
    {"used", "gone", "sold", "given", "knitted", "crocheted", "wanted", "needed"});
/// What there is of it now.
constexpr auto there_now =
    std::to_array<std::string_view>({"left", "remaining", "leftover", "now", "current"});

/// By the first line that has any: a title may stand above the headings.
char separator_of(std::string_view text) {
    constexpr std::array<char, 3> signs{',', ';', '\t'};
    for (int line = 0; line < 5 && !text.empty(); ++line) {
        const std::size_t end = std::min(text.find_first_of("\r\n"), text.size());
        const std::string_view first = text.substr(0, end);
        char best = ',';
        std::ptrdiff_t most = 0;
        for (const char sign : signs) {
            const auto count = std::count(first.begin(), first.end(), sign);
            if (count > most) {
                most = count;
                best = sign;
            }
        }
        if (most > 0) return best;
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return ',';
}

std::size_t cells_used(const CsvRow& row) {
    return static_cast<std::size_t>(std::count_if(row.begin(), row.end(), [](const CsvCell& cell) {
        return !base::trimmed(cell.text).empty();
    }));
}

/// Cells with commas between them, so that one reader serves all. What stands between quotes stays.
std::string with_commas(std::string_view text, char separator) {
    if (separator == ',') return std::string(text);
    std::string out;
    bool quoted = false;
    std::string cell;
    const auto give = [&] {
        const bool bare_comma =
            !quoted && cell.find(',') != std::string::npos && cell.front() != '"';
        out += bare_comma ? "\"" + cell + "\"" : cell;
        cell.clear();
    };
    for (const char c : text) {
        if (c == '"') quoted = !quoted;
        if (!quoted && (c == separator || c == '\n' || c == '\r')) {
            give();
            out += c == separator ? ',' : c;
        } else {
            cell += c;
        }
    }
    give();
    return out;
}

/// A heading is of another's making, and no slip of the pen in one of ours.
bool of_headings(const base::Problems& problems) {
    return std::any_of(problems.begin(), problems.end(), [](const base::Problem& problem) {
        return (problem.what.starts_with("unknown column") &&
                !problem.remedy.starts_with("Did you mean")) ||
               problem.what.starts_with("a column without a name");
    });
}

class Sheet {
  public:
    Sheet(std::string text, const std::string& file, const std::vector<ColumnMeaning>& given)
        : text_(std::move(text)), source_(text_, file), given_(given) {
        parse_csv(source_, [&](const CsvRow& row) { rows_.push_back(row); });
        // A title over the sheet, and blank lines before its headings.
        while (rows_.size() > 2 && cells_used(rows_.front()) <= 1 &&
               std::any_of(rows_.begin() + 1, rows_.end(),
                           [](const CsvRow& row) { return cells_used(row) > 2; }))
            rows_.erase(rows_.begin());
        if (rows_.empty())
            throw base::InputError(
                {"the file has no rows", source_.place(0), "a first row with headings", ""});
    }

    StashTable read(const std::string& file) {
        find_columns();
        problems_.throw_if_any();
        std::string text;
        std::vector<std::size_t> lines{1};
        bool weighed = false;
        bool scaled = false;
        for (const Column& column : columns_) {
            weighed = weighed || column.field == "weighed";
            scaled = scaled || column.field == "scale";
        }
        const bool add_scale = weighed && !scaled;
        adds_state_ = std::none_of(columns_.begin(), columns_.end(),
                                   [](const Column& column) { return column.field == "state"; });
        std::vector<std::string> header;
        for (const Column& column : columns_)
            if (kept(column)) header.push_back(column.field);
        if (add_scale) header.emplace_back("scale");
        if (adds_state_) header.emplace_back("state");
        text += base::join(header, ",") + "\n";
        for (std::size_t at = 1; at < rows_.size(); ++at)
            add_row(rows_[at], add_scale, text, lines);
        problems_.throw_if_any();
        StashTable table;
        try {
            table = parse_stash_csv(text, file);
        } catch (const base::InputError& error) {
            base::Problems problems = error.problems();
            for (base::Problem& problem : problems)
                if (problem.place.line > 0 && problem.place.line <= lines.size()) {
                    problem.place.line = lines[problem.place.line - 1];
                    problem.place.column = 0;
                }
            throw base::InputError(std::move(problems));
        }
        table.understood.clear();
        for (const Column& column : columns_) {
            if (column.field.empty()) continue;
            std::string field = column.field;
            std::replace(field.begin(), field.end(), '_', ' ');
            table.understood.push_back(
                fmt::format("{} -> {}{}", column.heading, field == nothing ? "left out" : field,
                            column.unit.empty() ? "" : ", in " + column.unit));
        }
        if (parts_ > 0)
            table.understood.push_back(
                fmt::format("{} counted in parts: a part skein never weighed",
                            parts_ == 1 ? "1 quantity" : std::to_string(parts_) + " quantities"));
        return table;
    }

  private:
    [[nodiscard]] static bool kept(const Column& column) {
        return !column.field.empty() && column.field != quantity && column.field != nothing &&
               column.field != brand;
    }

    [[nodiscard]] std::vector<std::string> cells_of(std::size_t column) const {
        std::vector<std::string> out;
        for (std::size_t at = 1; at < rows_.size(); ++at)
            if (column < rows_[at].size())
                if (const auto cell = base::trimmed(rows_[at][column].text); !cell.empty())
                    out.emplace_back(cell);
        return out;
    }

    void find_columns() {
        const CsvRow& header = rows_.front();
        std::map<std::string, std::string> taken;
        std::vector<bool> used(given_.size());
        for (std::size_t at = 0; at < header.size(); ++at) {
            Column column{std::string(base::trimmed(header[at].text)), {}, {}};
            const std::vector<std::string> cells = cells_of(at);
            if (column.heading.empty() && cells.empty()) {
                columns_.push_back(column);
                continue;
            }
            bool said = false;
            for (std::size_t i = 0; i < given_.size() && !said; ++i)
                if (words_of(given_[i].heading) == words_of(column.heading)) {
                    column.field = given_[i].field;
                    column.unit = given_[i].unit;
                    used[i] = true;
                    said = true;
                }
            if (!said) by_words(column, cells);
            if (column.field.empty()) {
                problems_.add(
                    {"the column " + base::quoted(column.heading) + " is not understood",
                     source_.place(header[at].offset),
                     "a heading such as yarn, colour, dye lot, yards, grams, quantity or "
                     "notes",
                     fmt::format("Say what it is: --column \"{0}=note\", \"{0}=label mass in "
                                 "g\", or \"{0}=nothing\" to leave it out.",
                                 base::shown_inert(column.heading))});
            } else if (column.field != nothing) {
                const auto [first, fresh] = taken.emplace(column.field, column.heading);
                if (!fresh)
                    problems_.add({base::quoted(column.heading) + " and " +
                                       base::quoted(first->second) + " both look like " +
                                       column.field,
                                   source_.place(header[at].offset), "one column for each thing",
                                   fmt::format("Say what one of them is: --column \"{}=nothing\".",
                                               base::shown_inert(column.heading))});
            }
            columns_.push_back(std::move(column));
        }
        for (std::size_t i = 0; i < given_.size(); ++i)
            if (!used[i] && !given_[i].remembered)
                problems_.add({"there is no column " + base::quoted(given_[i].heading),
                               source_.place(0), "the heading of a column of the sheet", ""});
        if (!taken.contains("yarn") && taken.contains(std::string(brand)))
            for (Column& column : columns_)
                if (column.field == brand) {
                    column.field = "yarn";
                    taken.emplace("yarn", column.heading);
                }
        if (!taken.contains("yarn"))
            problems_.add({"no column holds the names of the yarns", source_.place(0),
                           "a column with the names of the yarns",
                           "Say which it is: --column \"HEADING=yarn\"."});
    }

    /// The longest known words that the heading is made of, checked against what stands below.
    static void by_words(Column& column, const std::vector<std::string>& cells) {
        const std::string words = words_of(column.heading);
        for (const std::string& field : field_names())
            if (words_of(field) == words) {
                column.field = field;
                return;
            }
        const auto figures = std::all_of(cells.begin(), cells.end(), [](const std::string& cell) {
            return is_figure(cell) || units::parse_mass(cell) || units::parse_length(cell);
        });
        // "Weight" is a class where it says so, and a mass where there are figures too large.
        if (words == "weight" || words == "wt") {
            const bool classes = !cells.empty() && std::all_of(cells.begin(), cells.end(),
                                                               [](const std::string& cell) {
                                                                   return parse_class(cell).ok();
                                                               });
            const bool masses =
                !cells.empty() &&
                std::all_of(cells.begin(), cells.end(),
                            [](const std::string& cell) { return units::parse_mass(cell).ok(); });
            if (classes) column.field = "class";
            if (masses) column.field = "label_mass";
            return;
        }
        std::size_t best = 0;
        bool two = false;
        for (const project::ColumnWords& known : project::column_words()) {
            const std::string padded = " " + words + " ";
            if (padded.find(" " + std::string(known.words) + " ") == std::string::npos) continue;
            if (known.words.size() < best) continue;
            two = known.words.size() == best && column.field != known.field;
            best = known.words.size();
            column.field = known.field;
            if (!known.unit.empty()) column.unit = known.unit;
        }
        const bool amount = column.field == "label_length" || column.field == "label_mass" ||
                            column.field == "weighed";
        if (amount && column.unit.empty())
            for (const char* unit :
                 {"g", "grams", "oz", "yd", "yds", "yards", "m", "metres", "meters"})
                if ((" " + words + " ").find(std::string(" ") + unit + " ") != std::string::npos)
                    column.unit = unit;
        // "Grams left" is no label, and of "yards left" the label is not known.
        if (column.field == "label_mass" && says(words, there_now)) column.field = "weighed";
        const bool not_of_one =
            (amount && column.field != "weighed" && says(words, of_all)) ||
            ((amount || column.field == quantity) && says(words, gone)) ||
            (column.field == "label_length" && says(words, there_now)) ||
            (column.field == "weighed" && units::parse_length("1 " + column.unit).ok());
        if (two || (amount && !figures) || not_of_one) column = {column.heading, {}, {}};
        if (column.field == quantity &&
            !std::all_of(cells.begin(), cells.end(),
                         [](const std::string& cell) { return quantity_in(cell).has_value(); }))
            column = {column.heading, {}, {}};
    }

    /// The name of a yarn with whose it is before it, where that is a column of its own.
    [[nodiscard]] std::string with_brand(const CsvRow& row, std::string name) const {
        for (std::size_t at = 0; at < columns_.size() && at < row.size(); ++at) {
            if (columns_[at].field != brand) continue;
            const std::string maker(base::trimmed(row[at].text));
            if (name.empty()) return maker;
            if (!maker.empty() && !base::lower(name).starts_with(base::lower(maker)))
                return maker + " " + name;
        }
        return name;
    }

    void add_row(const CsvRow& row, bool add_scale, std::string& text,
                 std::vector<std::size_t>& lines) {
        if (std::all_of(row.begin(), row.end(),
                        [](const CsvCell& cell) { return base::trimmed(cell.text).empty(); }))
            return;
        Quantity count;
        std::vector<std::string> cells;
        std::string scale;
        for (std::size_t at = 0; at < columns_.size(); ++at) {
            const Column& column = columns_[at];
            std::string cell =
                at < row.size() ? std::string(base::trimmed(row[at].text)) : std::string();
            if (column.field == quantity && !cell.empty()) {
                const auto number = quantity_in(cell);
                if (!number)
                    problems_.add({base::quoted(cell) + " is no quantity",
                                   source_.place(row[at].offset), "1 to 1000, or 1.5", ""});
                else
                    count = *number;
                if (number && number->part && !adds_state_)
                    problems_.add({base::quoted(cell) + " skeins, beside a column of states",
                                   source_.place(row[at].offset), "a whole number",
                                   "Give the part skein a row of its own."});
            }
            if (!kept(column)) continue;
            if (column.field == "yarn") cell = with_brand(row, cell);
            if (!column.unit.empty() && is_figure(cell)) cell += " " + column.unit;
            if (column.field == "class") cell = class_as_said(cell);
            if (column.field == "fibre") cell = fibre_as_said(cell);
            if (column.field == "weighed" && !cell.empty()) scale = step_of_reading(cell);
            cells.push_back(base::csv_cell(cell));
        }
        for (std::size_t at = columns_.size(); at < row.size(); ++at)
            if (!base::trimmed(row[at].text).empty())
                problems_.add({"a cell without a heading", source_.place(row[at].offset),
                               "a heading over every column that is used", ""});
        if (add_scale) cells.push_back(scale);
        // What a maker weighed counts by its weight, whatever the label says.
        if (adds_state_) cells.emplace_back(scale.empty() ? "whole" : "part");
        const std::size_t line = source_.place(row.front().offset).line;
        if (count.part && !scale.empty())
            problems_.add({"one weight for several skeins, one of them a part",
                           source_.place(row.front().offset), "a row for each skein weighed",
                           "Give the part skein a row of its own."});
        for (std::int64_t i = 0; i < count.whole; ++i) {
            text += base::join(cells, ",") + "\n";
            lines.push_back(line);
        }
        if (!count.part) return;
        // How much is left of it was judged by eye: only the scale tells.
        if (adds_state_) cells.back() = "part";
        text += base::join(cells, ",") + "\n";
        lines.push_back(line);
        ++parts_;
    }

    std::string text_;
    SourceText source_;
    const std::vector<ColumnMeaning>& given_;
    std::vector<CsvRow> rows_;
    std::vector<Column> columns_;
    bool adds_state_ = false;  ///< the sheet has no column for whole and part
    std::int64_t parts_ = 0;   ///< skeins that a quantity such as 1.5 makes parts
    ProblemList problems_;
};

}  // namespace

std::string words_of(std::string_view heading) {
    std::string out;
    for (const char c : base::lower(heading)) {
        const bool letter = static_cast<unsigned char>(c) >= 0x80U || (c >= 'a' && c <= 'z') ||
                            (c >= '0' && c <= '9');
        if (letter)
            out += c;
        else if (!out.empty() && out.back() != ' ')
            out += ' ';
    }
    while (!out.empty() && out.back() == ' ') out.pop_back();
    return out;
}

base::Result<ColumnMeaning> parse_column_meaning(std::string_view text) {
    const std::size_t sign = text.rfind('=');
    const std::string form = "a heading and what it is, such as \"Ball grams=label mass in g\"";
    if (sign == std::string_view::npos || base::trimmed(text.substr(0, sign)).empty())
        return base::Problem{base::quoted(text) + " does not say what a column is", {}, form, ""};
    ColumnMeaning out{std::string(base::trimmed(text.substr(0, sign))), {}, {}};
    std::string field = words_of(text.substr(sign + 1));
    if (const std::size_t in = field.find(" in "); in != std::string::npos) {
        out.unit = field.substr(in + 4);
        field.resize(in);
        if (!units::parse_mass("1 " + out.unit) && !units::parse_length("1 " + out.unit))
            return base::Problem{
                base::quoted(out.unit) + " is no unit", {}, "such as g, oz, yd, m", ""};
    }
    std::replace(field.begin(), field.end(), ' ', '_');
    if (field == "colour" || field == "color") field = "colourway";
    if (field == "lot") field = "dye_lot";
    if (field == "fiber") field = "fibre";
    if (!knows_field(field)) {
        std::vector<std::string> known = field_names();
        known.emplace_back(quantity);
        known.emplace_back(nothing);
        const auto near = base::nearest_name(field, known);
        return base::Problem{base::quoted(field) + " is nothing that a skein has",
                             {},
                             "one of " + base::join(known, ", "),
                             base::did_you_mean(near)};
    }
    out.field = field;
    return out;
}

StashTable parse_own_sheet(std::string_view text, const std::string& file,
                           const std::vector<ColumnMeaning>& given) {
    if (text.starts_with("PK\x03\x04") || text.starts_with("\xd0\xcf\x11\xe0"))
        throw base::InputError(base::Problem{"this is a spreadsheet file, not a text",
                                             {.file = file, .line = 0, .column = 0},
                                             "the sheet saved as CSV",
                                             "In the spreadsheet choose Save As and the type "
                                             "\"Text CSV (.csv)\", then import that."});
    const char separator = separator_of(text);
    const bool asked = std::any_of(given.begin(), given.end(),
                                   [](const ColumnMeaning& one) { return !one.remembered; });
    if (separator == ',' && !asked) {
        try {
            return parse_stash_csv(text, file);
        } catch (const base::InputError& error) {
            if (!of_headings(error.problems())) throw;
        }
    }
    return Sheet(with_commas(text, separator), file, given).read(file);
}

StashTable read_own_sheet(const std::filesystem::path& path,
                          const std::vector<ColumnMeaning>& given) {
    return parse_own_sheet(read_text_file(path, largest_stash), path.string(), given);
}

}  // namespace skeinfall::exchange
