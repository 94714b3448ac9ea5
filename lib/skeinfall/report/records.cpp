#include "skeinfall/report/records.hpp"

#include <map>
#include <vector>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "skeinfall/base/csv_cell.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/report/detail/markdown.hpp"
#include "skeinfall/report/words.hpp"

namespace skeinfall::report {
namespace {

using Json = nlohmann::ordered_json;
using units::Rounding;

struct Column {
    std::string_view key;
    std::string_view heading;
    Rounding rounding = Rounding::up;
};

struct List {
    std::string_view key;
    std::vector<Column> columns;
    std::string_view inner =
        {};  ///< rows are the entries of this list in each entry, when there is one
};

const List& list_of(Records which) {
    static const std::map<Records, List> all{{Records::need,
                                              {"roles",
                                               {{"role", "yarn"},
                                                {"need_m", "needs"},
                                                {"spread_m", "give or take (two in three)"},
                                                {"need_g", "mass"},
                                                {"found", "found"}}}},
                                             {Records::sizes,
                                              {"roles",
                                               {{"role", "yarn"},
                                                {"size", "size"},
                                                {"need_m", "needs"},
                                                {"spread_m", "give or take (two in three)"},
                                                {"fixed_m", "the same in all sizes"},
                                                {"scaling_m", "goes with the size"},
                                                {"growth", "out of line"}},
                                               "sizes"}},
                                             {Records::used,
                                              {"roles",
                                               {{"role", "yarn"},
                                                {"after", "after"},
                                                {"used_m", "used"},
                                                {"left_m", "left"},
                                                {"share", "share"}},
                                               "used"}},
                                             {Records::cover,
                                              {"roles",
                                               {{"role", "yarn"},
                                                {"verdict", "verdict"},
                                                {"chance", "chance"},
                                                {"needed_m", "needs"},
                                                {"supply_m", "has", Rounding::down},
                                                {"tails_m", "ends"},
                                                {"spare_m", "spare", Rounding::down},
                                                {"to_be_sure_m", "more to be sure"},
                                                {"chosen", "skeins"}}}},
                                             {Records::makes,
                                              {"makes",
                                               {{"file", "file"},
                                                {"title", "project"},
                                                {"size", "size"},
                                                {"verdict", "verdict"},
                                                {"chance", "chance"},
                                                {"wanting", "wanting"},
                                                {"skeins", "skeins"}}}},
                                             {Records::buying,
                                              {"lines",
                                               {{"skeins", "skeins"},
                                                {"yarn", "yarn"},
                                                {"colour", "colour"},
                                                {"put_up", "of"},
                                                {"uses", "for"},
                                                {"missing_m", "more to be sure"},
                                                {"needed_m", "needed"},
                                                {"left_over_m", "left over", Rounding::down},
                                                {"price", "price"},
                                                {"cost", "cost"},
                                                {"notes", "notes"}}}},
                                             {Records::stash,
                                              {"skeins",
                                               {{"id", "id"},
                                                {"yarn", "yarn"},
                                                {"colourway", "colourway"},
                                                {"dye_lot", "lot"},
                                                {"shade_group", "shade group"},
                                                {"class", "class"},
                                                {"part", "part"},
                                                {"weighed", "weighed"},
                                                {"length_m", "holds", Rounding::down},
                                                {"spread_m", "give or take (two in three)"},
                                                {"note", "note"}}}}};
    return all.at(which);
}

std::string as_it_is(const Json& value) {
    if (value.is_null()) return {};
    if (value.is_string()) return value.get<std::string>();
    if (value.is_boolean()) return value.get<bool>() ? "yes" : "no";
    // A sum of binary numbers ends in noise.
    if (value.is_number_float()) return fmt::format("{:.10g}", value.get<double>());
    if (!value.is_array()) return value.dump();
    std::vector<std::string> pieces;
    for (const Json& piece : value) pieces.push_back(as_it_is(piece));
    return base::join(pieces, "; ");
}

std::string for_a_reader(const Json& value, const Column& column) {
    if (!value.is_number()) return as_it_is(value);
    const double number = value.get<double>();
    if (column.key.ends_with("_m")) return yards_and_metres(number * units::metre, column.rounding);
    if (column.key.ends_with("_g"))
        return units::text(units::Mass(number * units::gram), units::shown::grams, units::Step::one,
                           column.rounding);
    if (column.key == "share")
        return units::percent_text(units::Ratio(number), units::Step::one, Rounding::nearest);
    if (column.key == "chance") return chance_text({units::Ratio(number)});
    return value.dump();
}

/// The lines of a list; those of a list in the lines of another have the cells of both.
std::vector<Json> listed_lines(std::string_view answer, const List& list) {
    std::vector<Json> out;
    const Json all = Json::parse(answer);
    for (const Json& entry : all.at(std::string(list.key))) {
        if (list.inner.empty()) {
            out.push_back(entry);
            continue;
        }
        for (const Json& inside : entry.at(std::string(list.inner))) {
            out.push_back(entry);
            out.back().update(inside);
        }
    }
    return out;
}

std::string records_csv(const List& list, const std::vector<Json>& lines) {
    std::vector<std::string> headings;
    for (const Column& column : list.columns) headings.emplace_back(column.key);
    base::CsvTable out(headings);
    for (const Json& line : lines) {
        for (const Column& column : list.columns) {
            const Json& value = line.at(std::string(column.key));
            if (value.is_number())
                out.number(as_it_is(value));
            else
                out.text(as_it_is(value));
        }
        out.end_line();
    }
    return out.written();
}

std::string records_markdown(const List& list, const std::vector<Json>& lines) {
    const auto line_of = [](const std::vector<std::string>& cells) {
        return "| " + base::join(cells, " | ") + " |\n";
    };
    std::vector<std::string> headings;
    for (const Column& column : list.columns) headings.emplace_back(column.heading);
    std::string out = line_of(headings) + line_of(std::vector<std::string>(headings.size(), "---"));
    for (const Json& line : lines) {
        std::vector<std::string> cells;
        for (const Column& column : list.columns)
            cells.push_back(markdown_text(
                base::shown_inert(for_a_reader(line.at(std::string(column.key)), column))));
        out += line_of(cells);
    }
    return out;
}

}  // namespace

std::string records(std::string_view answer, Records which, RecordForm form) {
    const List& list = list_of(which);
    const std::vector<Json> lines = listed_lines(answer, list);
    return form == RecordForm::csv ? records_csv(list, lines) : records_markdown(list, lines);
}

}  // namespace skeinfall::report
