#include "skeinfall/exchange/returns_csv.hpp"

#include <algorithm>
#include <array>
#include <vector>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/csv.hpp"
#include "skeinfall/exchange/detail/answer_text.hpp"
#include "skeinfall/exchange/project_toml.hpp"

namespace skeinfall::exchange {
namespace {

constexpr std::array<std::string_view, 10> return_columns{
    "name", "size", "yarn", "before", "after", "scale", "stitches", "rows", "grist", "confirmed"};

/// A line of the project's text that stands for a line of the sheet.
struct Stands {
    std::size_t line = 0;  ///< first line of its table
    std::size_t row = 0;   ///< line of the sheet
};

[[noreturn]] void refuse(const SourceText& source, std::size_t offset, std::string what,
                         std::string expected, std::string remedy) {
    throw base::InputError(base::Problem{std::move(what), source.place(offset), std::move(expected),
                                         std::move(remedy)});
}

/// The names of the columns, each one of `columns`.
std::vector<std::string> heads(const SourceText& source, const CsvRow& row) {
    std::vector<std::string> out;
    const std::vector<std::string> known(return_columns.begin(), return_columns.end());
    for (const CsvCell& cell : row) {
        const std::string name = base::lower(base::trimmed(cell.text));
        if (std::find(known.begin(), known.end(), name) == known.end()) {
            const auto near = base::nearest_name(name, known);
            refuse(source, cell.offset, "no column is called " + base::quoted(cell.text),
                   base::join(known, ", "), base::did_you_mean(near));
        }
        if (std::find(out.begin(), out.end(), name) != out.end())
            refuse(source, cell.offset, "the column " + base::quoted(name) + " is there twice",
                   "each once", "");
        out.push_back(name);
    }
    return out;
}

std::size_t lines_in(std::string_view text) {
    return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
}

}  // namespace

project::Project with_returns(std::string_view project_text, const std::string& project_file,
                              std::string_view sheet_text, const std::string& sheet_file,
                              const project::Defaults& defaults) {
    const SourceText sheet(sheet_text, sheet_file);
    std::string text(project_text);
    if (!text.empty() && text.back() != '\n') text += '\n';
    std::vector<std::string> names;
    std::vector<Stands> stands;
    bool first = true;
    parse_csv(sheet, [&](const CsvRow& row) {
        if (first) {
            names = heads(sheet, row);
            first = false;
            return;
        }
        if (row.size() > names.size())
            refuse(sheet, row[names.size()].offset, "more cells than columns",
                   fmt::format("{} cells", names.size()), "");
        stands.push_back({lines_in(text) + 1, sheet.place(row.front().offset).line});
        text += "[[tester]]\n";
        for (std::size_t at = 0; at < row.size(); ++at) {
            const std::string cell(base::trimmed(row[at].text));
            if (cell.empty()) continue;
            if (names[at] == "confirmed")
                text += base::same_word(cell, "yes") || base::same_word(cell, "true")
                            ? "confirmed = true\n"
                            : "confirmed = false\n";
            else
                text += names[at] + " = " + detail::in_toml(cell) + "\n";
        }
    });
    if (stands.empty())
        refuse(sheet, 0, "there is no return in it", "a row of names, and a row a return", "");
    try {
        return parse_project(text, project_file, defaults);
    } catch (const base::InputError& error) {
        base::Problems problems = error.problems();
        for (base::Problem& problem : problems) {
            if (problem.place.line < stands.front().line) continue;
            const std::size_t line = problem.place.line;
            for (const Stands& one : stands)
                if (line >= one.line) problem.place = {sheet_file, one.row, 0};
        }
        throw base::InputError(std::move(problems));
    }
}

}  // namespace skeinfall::exchange
