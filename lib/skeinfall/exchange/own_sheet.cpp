#include "skeinfall/exchange/own_sheet.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <map>
#include <optional>
#include <utility>

#include <fmt/format.h>
#include <utf8.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/csv.hpp"
#include "skeinfall/exchange/detail/sheet_columns.hpp"
#include "skeinfall/exchange/detail/sheet_rows.hpp"
#include "skeinfall/exchange/file_kind.hpp"
#include "skeinfall/exchange/problem_list.hpp"
#include "skeinfall/exchange/stash_csv.hpp"
#include "skeinfall/exchange/text_file.hpp"
#include "skeinfall/units/parse.hpp"

namespace skeinfall::exchange {
namespace {

namespace is = detail::sheet_field;
using detail::Column;
using Rows = detail::SheetRows;

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

/// A heading is of another's making, and no slip of the pen in one of ours: "Weight" is a word of
/// its own and no "weighed".
bool of_headings(const base::Problems& problems) {
    return std::any_of(problems.begin(), problems.end(), [](const base::Problem& problem) {
        constexpr std::string_view unknown = "unknown column \"";
        if (problem.what.starts_with("a column without a name")) return true;
        if (!problem.what.starts_with(unknown)) return false;
        if (!problem.remedy.starts_with("Did you mean")) return true;
        const std::string name =
            problem.what.substr(unknown.size(), problem.what.size() - unknown.size() - 1);
        return base::same_word(name, "weight") || !detail::column_by_words(name, {}).field.empty();
    });
}

/// "Unicode text" of spreadsheets is UTF-16; a mark at its start says in which order of bytes.
std::string in_utf8(std::string_view text) {
    const bool little = text.starts_with("\xff\xfe");
    if ((!little && !text.starts_with("\xfe\xff")) || text.size() % 2 != 0)
        return std::string(text);
    std::u16string wide;
    wide.reserve(text.size() / 2);
    for (std::size_t at = 2; at + 1 < text.size(); at += 2) {
        const auto one = static_cast<unsigned char>(text[at]);
        const auto two = static_cast<unsigned char>(text[at + 1]);
        wide += static_cast<char16_t>(little ? two * 256 + one : one * 256 + two);
    }
    std::string out;
    try {
        utf8::utf16to8(wide.begin(), wide.end(), std::back_inserter(out));
    } catch (const utf8::exception&) {
        return std::string(text);  // the reader of cells says where it is no text
    }
    return out;
}

/// "sep=;" on the first line, as spreadsheets write it for each other.
std::string_view without_separator_line(std::string_view text, char& separator) {
    constexpr std::string_view sign = "sep=";
    const std::string_view mark = text.starts_with("\xef\xbb\xbf") ? text.substr(0, 3) : "";
    const std::string_view rest = text.substr(mark.size());
    if (!base::same_word(rest.substr(0, sign.size()), sign) || rest.size() <= sign.size())
        return text;
    const std::size_t end = rest.find('\n');
    if (end == std::string_view::npos || end > sign.size() + 2) return text;
    separator = rest[sign.size()];
    return rest.substr(end);  // its line stays, so that those below keep their numbers
}

/// The headings: the first line of which at least two cells are known words. Titles and notes may
/// stand above them.
std::size_t line_of_headings(const std::vector<CsvRow>& rows) {
    constexpr std::size_t most_lines = 12;
    std::size_t best = 0;
    std::size_t most = 1;
    for (std::size_t at = 0; at < std::min(rows.size(), most_lines); ++at) {
        std::size_t known = 0;
        for (const CsvCell& cell : rows[at])
            if (!base::trimmed(cell.text).empty() &&
                !detail::column_by_words(base::trimmed(cell.text), {}).field.empty())
                ++known;
        if (known <= most) continue;
        most = known;
        best = at;
    }
    if (most > 1) return best;
    // No word is known: a title has a line of its own.
    std::size_t at = 0;
    while (at + 2 < rows.size() && cells_used(rows[at]) <= 1 &&
           std::any_of(rows.begin() + static_cast<std::ptrdiff_t>(at) + 1, rows.end(),
                       [](const CsvRow& row) { return cells_used(row) > 2; }))
        ++at;
    return at;
}

class Sheet {
  public:
    Sheet(std::string text, const std::string& file, const std::vector<ColumnMeaning>& given)
        : text_(std::move(text)), source_(text_, file), given_(given) {
        parse_csv(source_, [&](const CsvRow& row) { rows_.push_back(row); });
        const std::size_t first = line_of_headings(rows_);
        rows_.erase(rows_.begin(), rows_.begin() + static_cast<std::ptrdiff_t>(first));
        if (rows_.empty())
            throw base::InputError(
                {"the file has no rows", source_.place(0), "a first row with headings", ""});
    }

    StashTable read(const std::string& file) {
        find_columns();
        problems_.throw_if_any();
        Rows rows(source_, columns_, problems_);
        for (std::size_t at = 1; at < rows_.size(); ++at)
            if (!is_headings_again(rows_[at])) rows.add(rows_[at], at);
        problems_.throw_if_any();
        if (rows.lines().size() < 2)
            throw base::InputError({"there is no skein below the headings",
                                    source_.place(rows_.front().front().offset),
                                    "a line for each yarn", ""});
        StashTable table;
        try {
            table = parse_stash_csv(rows.text(), file);
        } catch (const base::InputError& error) {
            throw base::InputError(in_sheet(error.problems(), rows.lines()));
        }
        // Places are those of the sheet.
        stash::Lines placed;
        for (stash::Line line : table.lines) {
            if (line.place.line > 0 && line.place.line <= rows.lines().size())
                line.place = source_.place(rows_[rows.lines()[line.place.line - 1]].front().offset);
            placed.push_back(line);
        }
        table.lines = std::move(placed);
        table.understood = understood();
        for (const std::string& remark : rows.remarks()) table.understood.push_back(remark);
        return table;
    }

  private:
    [[nodiscard]] bool is_headings_again(const CsvRow& row) const {
        std::size_t same = 0;
        for (std::size_t at = 0; at < std::min(row.size(), columns_.size()); ++at) {
            const std::string_view cell = base::trimmed(row[at].text);
            if (cell.empty()) continue;
            if (cell != columns_[at].heading) return false;
            ++same;
        }
        return same > 1;
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
        std::vector<bool> used(given_.size());
        for (std::size_t at = 0; at < header.size(); ++at) {
            Column column{std::string(base::trimmed(header[at].text)), {}, {}, false};
            const std::vector<std::string> cells = cells_of(at);
            if (!column.heading.empty() || !cells.empty()) {
                bool said = false;
                for (std::size_t i = 0; i < given_.size() && !said; ++i)
                    if (words_of(given_[i].heading) == words_of(column.heading)) {
                        column.field = given_[i].field;
                        column.unit = given_[i].unit;
                        used[i] = true;
                        said = true;
                    }
                if (!said) column = detail::column_by_words(column.heading, cells);
            }
            columns_.push_back(std::move(column));
        }
        for (std::size_t i = 0; i < given_.size(); ++i)
            if (!used[i] && !given_[i].remembered)
                problems_.add({"there is no column " + base::quoted(given_[i].heading),
                               source_.place(header.front().offset),
                               "the heading of a column of the sheet", ""});
        settle_movements();
        settle_names();
        settle_quantities();
        for (std::size_t at = 0; at < columns_.size(); ++at) tell_column(at);
        tell_two_of_one();
        if (!holds("yarn"))
            problems_.add(
                {"no column holds the names of the yarns", source_.place(header.front().offset),
                 "a column with the names of the yarns", "Say which it is: \"HEADING=yarn\"."});
    }

    [[nodiscard]] bool holds(std::string_view field) const {
        return std::any_of(columns_.begin(), columns_.end(),
                           [&](const Column& column) { return column.field == field; });
    }

    /// A table of ours with a column more: its headings mean what they mean in ours.
    void settle_movements() {
        if (std::none_of(columns_.begin(), columns_.end(), [](const Column& column) {
                return words_of(column.heading) == detail::of_movements;
            }))
            return;
        for (Column& column : columns_)
            for (const std::string& name : field_names())
                if (words_of(name) == words_of(column.heading))
                    column = {column.heading, name, {}, false};
    }

    /// Where no heading names a yarn, whose it is does, or the first column of a sheet that gives
    /// it no heading.
    void settle_names() {
        for (Column& column : columns_)
            if (column.field == is::brand && !holds("yarn")) column.field = "yarn";
        if (holds("yarn") || columns_.empty()) return;
        const std::vector<std::string> cells = cells_of(0);
        if (columns_.front().heading.empty() && !cells.empty() &&
            std::none_of(cells.begin(), cells.end(),
                         [](const std::string& cell) { return detail::is_figure(cell); }))
            columns_.front().field = "yarn";
    }

    /// What is left stands above what was bought.
    void settle_quantities() {
        if (!holds(is::quantity_left)) return;
        for (Column& column : columns_) {
            if (column.field == is::quantity) column.field = is::nothing;
            if (column.field == is::quantity_left) column.field = is::quantity;
        }
    }

    void tell_column(std::size_t at) {
        Column& column = columns_[at];
        const std::vector<std::string> cells = cells_of(at);
        const base::Place place = source_.place(rows_.front()[at].offset);
        if (column.heading.empty() && column.field.empty()) {
            if (!cells.empty())
                problems_.add({"a column without a heading", place,
                               "a heading over every column that is used",
                               "Write over it what it is; Notes fits anything."});
            return;
        }
        if (!column.field.empty() && !detail::lacks_unit(column, cells)) return;
        std::string what = "the column " + base::quoted(column.heading) + " is not understood";
        std::string expected =
            "a heading such as yarn, colour, dye lot, yards, grams, quantity or notes";
        if (column.per_mass) {
            what = "the column " + base::quoted(column.heading) +
                   " gives a length per mass, not what a skein holds";
            expected = "the length of one skein in every row";
        } else if (column.used_up) {
            what = "the column " + base::quoted(column.heading) +
                   " says what is used or wanted; that is not taken off what you have";
            expected = "how much there is now";
        } else if (!column.field.empty()) {
            what = "the column " + base::quoted(column.heading) + " has figures without a unit";
            expected = "the unit in the heading or behind each figure";
        }
        std::vector<std::string> meanings;
        for (const std::string& meaning : detail::likely_meanings(column, cells))
            meanings.push_back("\"" + meaning + "\"");
        const std::string last = meanings.back();
        meanings.pop_back();
        problems_.add({std::move(what), place, std::move(expected),
                       "Say what it is: " + base::join(meanings, ", ") +
                           (meanings.empty() ? "" : " or ") + last +
                           (last.ends_with("=nothing\"") ? " to leave it out." : ".")});
    }

    void tell_two_of_one() {
        std::map<std::string, std::string> taken;
        for (std::size_t at = 0; at < columns_.size(); ++at) {
            const Column& column = columns_[at];
            if (column.field.empty() || detail::may_come_again(column.field)) continue;
            const auto [first, fresh] = taken.emplace(column.field, column.heading);
            if (!fresh)
                problems_.add(
                    {base::quoted(column.heading) + " and " + base::quoted(first->second) +
                         " both look like " + detail::said(column.field),
                     source_.place(rows_.front()[at].offset), "one column for each thing",
                     fmt::format("Say what one of them is: \"{0}=note\" or \"{0}=nothing\".",
                                 base::shown_inert(column.heading))});
        }
    }

    /// Mistakes in the table made from the sheet, as mistakes in the sheet: under its headings, and
    /// once for each line, however many skeins it holds.
    [[nodiscard]] base::Problems in_sheet(const base::Problems& found,
                                          const std::vector<std::size_t>& lines) const {
        base::Problems out;
        for (base::Problem problem : found) {
            if (problem.place.line == 0 || problem.place.line > lines.size()) {
                out.push_back(std::move(problem));
                continue;
            }
            const CsvRow& row = rows_[lines[problem.place.line - 1]];
            problem.place = source_.place(row.front().offset);
            if (const std::size_t colon = problem.what.find(": "); colon != std::string::npos)
                for (std::size_t at = 0; at < std::min(row.size(), columns_.size()); ++at)
                    if (Rows::fills(columns_[at].field, problem.what.substr(0, colon))) {
                        problem.what = base::quoted(columns_[at].heading) + ": " +
                                       problem.what.substr(colon + 2);
                        problem.place = source_.place(row[at].offset);
                        break;
                    }
            const bool known = std::any_of(out.begin(), out.end(), [&](const base::Problem& one) {
                return one.place == problem.place && one.what == problem.what;
            });
            if (!known) out.push_back(std::move(problem));
        }
        return out;
    }

    [[nodiscard]] std::vector<std::string> understood() const {
        std::vector<std::string> out;
        for (const Column& column : columns_) {
            if (column.field.empty()) continue;
            std::string says = detail::said(column.field);
            if (holds(is::quantity)) {
                if (column.field == "label_length" || column.field == "label_mass")
                    says += " of each skein";
                if (column.field == "weighed") says += ", all skeins of the row together";
            }
            out.push_back(fmt::format("{} -> {}{}",
                                      column.heading.empty() ? "(no heading)" : column.heading,
                                      says, column.unit.empty() ? "" : ", in " + column.unit));
        }
        return out;
    }

    std::string text_;
    SourceText source_;
    const std::vector<ColumnMeaning>& given_;
    std::vector<CsvRow> rows_;
    std::vector<Column> columns_;
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
                base::quoted(out.unit) + " is not a unit", {}, "such as g, oz, yd, m", ""};
    }
    std::replace(field.begin(), field.end(), ' ', '_');
    if (!detail::known_field(field)) {
        // "Hue=colour", "Have=total yards": as a heading would say it.
        const detail::Column meant = detail::column_by_words(words_of(text.substr(sign + 1)), {});
        std::vector<std::string> known;
        for (const std::string& name : field_names()) known.push_back(detail::said(name));
        for (const std::string_view name :
             {is::label, is::quantity, is::total_length, is::total_mass, is::length_left,
              is::weighed_each, is::nothing}) {
            known.emplace_back(name);
            std::replace(known.back().begin(), known.back().end(), '_', ' ');
        }
        std::string plain = field;
        std::replace(plain.begin(), plain.end(), '_', ' ');
        if (meant.field.empty())
            return base::Problem{base::quoted(plain) + " is nothing that a skein has",
                                 {},
                                 "one of " + base::join(known, ", "),
                                 base::did_you_mean(base::nearest_name(plain, known))};
        field = meant.field;
        if (out.unit.empty()) out.unit = meant.unit;
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
    char separator = '\0';
    const std::string plain = in_utf8(text);
    if (const auto other = other_kind(plain, file, Wanted::sheet)) throw base::InputError(*other);
    const std::string_view sheet = without_separator_line(plain, separator);
    if (separator == '\0') separator = separator_of(sheet);
    const bool asked = std::any_of(given.begin(), given.end(),
                                   [](const ColumnMeaning& one) { return !one.remembered; });
    if (separator == ',' && !asked) {
        try {
            StashTable table = parse_stash_csv(sheet, file);
            if (!table.lines.empty()) return table;
        } catch (const base::InputError& error) {
            if (!of_headings(error.problems())) throw;
        }
    }
    return Sheet(with_commas(sheet, separator), file, given).read(file);
}

StashTable read_own_sheet(const std::filesystem::path& path,
                          const std::vector<ColumnMeaning>& given) {
    return parse_own_sheet(read_text_file(path, largest_stash), path.string(), given);
}

}  // namespace skeinfall::exchange
