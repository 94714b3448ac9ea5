#include "skeinfall/exchange/detail/sheet_columns.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <regex>
#include <set>

#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/detail/sheet_cells.hpp"
#include "skeinfall/exchange/stash_fields.hpp"
#include "skeinfall/exchange/yarn_words.hpp"
#include "skeinfall/project/column_words.hpp"
#include "skeinfall/units/parse.hpp"
#include "skeinfall/yarn/fibre.hpp"
#include "skeinfall/yarn/label_text.hpp"

namespace skeinfall::exchange::detail {
namespace {

namespace is = sheet_field;

using Cells = std::vector<std::string>;

bool is_amount(std::string_view field) {
    return is_length(field) || is_mass(field);
}

/// Cells that say nothing do not count against a column.
bool says_nothing(const std::string& cell) {
    return project::cell_word(cell).has_value();
}

template <class Test>
bool all_of(const Cells& cells, const Test& test) {
    return !cells.empty() && std::all_of(cells.begin(), cells.end(), test);
}

/// A slip in a few cells is told at its place; a column of other things is another column.
bool mostly_amounts(const Cells& cells) {
    std::size_t fit = 0;
    std::size_t said = 0;
    for (const std::string& cell : cells) {
        if (says_nothing(cell)) continue;
        ++said;
        if (is_figure(cell) || amount_in(cell, {})) ++fit;
    }
    return 2 * fit >= said;
}

/// What the words of a heading may mean, before its cells are looked at.
struct Words {
    explicit Words(const std::string& words) {
        const std::string padded = " " + words + " ";
        for (const project::ColumnWords& known : project::column_words()) {
            if (padded.find(" " + std::string(known.words) + " ") == std::string::npos) continue;
            if (known.field == "of_all")
                of_all = true;
            else if (known.field == "of_rest")
                of_rest = true;
            else if (known.field == "of_each")
                of_each = true;
            else if (known.field == "of_other")
                of_other = true;
            else
                found.push_back(&known);
        }
        says_weight = padded.find(" weight ") != std::string::npos ||
                      padded.find(" wt ") != std::string::npos;
    }

    /// The longest; nothing where two of one length differ.
    [[nodiscard]] const project::ColumnWords* longest(bool amounts_only) const {
        const project::ColumnWords* best = nullptr;
        bool two = false;
        for (const project::ColumnWords* known : found) {
            if (amounts_only && !is_amount(known->field) && known->field != is::quantity) continue;
            if (best != nullptr && known->words.size() < best->words.size()) continue;
            const bool tie = best != nullptr && known->words.size() == best->words.size() &&
                             known->field != best->field;
            // "Skeins bought"
            if (tie && best->field == is::quantity && known->field == "note") continue;
            two = tie && !(best->field == "note" && known->field == is::quantity);
            best = known;
        }
        return two ? nullptr : best;
    }

    std::vector<const project::ColumnWords*> found;
    bool of_all = false;
    bool of_rest = false;
    bool of_each = false;
    bool of_other = false;
    bool says_weight = false;
};

/// The one unit that the heading names outright; empty for none or several.
std::string unit_in(const std::string& words, bool length) {
    std::set<double> values;
    std::string out;
    for (const std::string& word : base::split(words, ' ')) {
        // "weight in grams"
        if (word == "in" || word.empty()) continue;
        const auto as_length = units::parse_length("1 " + word);
        const auto as_mass = units::parse_mass("1 " + word);
        if (length ? !as_length.ok() : !as_mass.ok()) continue;
        values.insert(length ? as_length->value() : as_mass->value());
        if (out.empty()) out = word;
    }
    return values.size() == 1 ? out : std::string();
}

bool same_unit(const std::string& one, const std::string& other) {
    const auto a = units::parse_length("1 " + one);
    const auto b = units::parse_length("1 " + other);
    if (a && b) return a->value() == b->value();
    const auto c = units::parse_mass("1 " + one);
    const auto d = units::parse_mass("1 " + other);
    return c && d && c->value() == d->value();
}

/// Names of another's heading that are ours too, but for words of what happened to a skein.
bool is_own_heading(const std::string& words, std::string& field) {
    static constexpr std::array<std::string_view, 5> of_movements{"movement", "amount", "other",
                                                                  "purpose", "role"};
    for (const std::string& name : field_names()) {
        if (words_of(name) != words) continue;
        if (std::find(of_movements.begin(), of_movements.end(), name) != of_movements.end())
            return false;
        field = name;
        return true;
    }
    return false;
}

/// A heading that only says "left" or "total": its cells say of what.
std::string field_of_rest(const Cells& cells, bool of_each) {
    const auto with_unit = [](const std::string& cell) { return !is_figure(cell); };
    if (!all_of(cells, with_unit)) return {};
    if (all_of(cells, [](const std::string& cell) { return units::parse_mass(cell).ok(); }))
        return std::string(of_each ? is::weighed_each : "weighed");
    if (all_of(cells, [](const std::string& cell) { return units::parse_length(cell).ok(); }))
        return of_each ? std::string() : std::string(is::length_left);
    if (all_of(cells, [](const std::string& cell) { return quantity_in(cell).has_value(); }))
        return std::string(is::quantity_left);
    const bool any_way = all_of(cells, [](const std::string& cell) {
        return units::parse_mass(cell).ok() || units::parse_length(cell).ok() ||
               quantity_in(cell).has_value();
    });
    if (any_way && !of_each) return std::string(is::left);
    return {};
}

std::string field_of_all(std::string_view base, const Words& words) {
    if (base == is::quantity) return std::string(words.of_rest ? is::quantity_left : is::quantity);
    if (is_length(base)) {
        if (words.of_each && words.of_rest) return {};
        return std::string(words.of_rest ? is::length_left : is::total_length);
    }
    if (!words.of_rest) return std::string(is::total_mass);
    return std::string(words.of_each ? is::weighed_each : "weighed");
}

/// "Weight" is a class where its cells say so, and a mass where they show masses.
std::string field_of_weight(const Cells& cells, bool of_skeins) {
    std::size_t classes = 0;
    std::size_t said = 0;
    for (const std::string& cell : cells) {
        if (says_nothing(cell)) continue;
        ++said;
        if (parse_class(class_in(cell))) ++classes;
    }
    if (!of_skeins && said > 0 && 2 * classes >= said) return "class";
    if (of_skeins || mostly_amounts(cells)) return "label_mass";
    return {};
}

/// What stands below tells a column whose heading does not.
std::string field_of_cells(const Cells& cells) {
    Cells telling;
    for (const std::string& cell : cells)
        if (!says_nothing(cell)) telling.push_back(cell);
    if (all_of(telling, [](const std::string& cell) { return yarn::parse_put_up(cell).ok(); }))
        return std::string(is::label);
    if (all_of(telling, [](const std::string& cell) {
            return cell.find('%') != std::string::npos && yarn::parse_fibre_content(cell).ok();
        }))
        return "fibre";
    if (all_of(telling, [](const std::string& cell) {
            return !is_figure(cell) && parse_class(class_in(cell)).ok();
        }))
        return "class";
    return {};
}

bool numbers_rows(const Cells& cells) {
    std::int64_t next = 1;
    return all_of(cells, [&](const std::string& cell) { return cell == std::to_string(next++); });
}

/// "m/100g": a length per mass, whatever a skein weighs.
bool says_per_mass(const std::string& heading) {
    static const std::regex per(R"((?:/|\bper\b|\bto\b)\s*(?:100|50)\s*-?\s*(?:g\b|gr|gram))",
                                std::regex::icase);
    return std::regex_search(heading, per);
}

/// "m per 100g" of "Length (m per 100g)": what makes a length per mass of a figure before it.
std::string grist_unit_in(const std::string& heading) {
    std::string plain = heading;
    for (char& sign : plain)
        if (sign == '(' || sign == ')' || sign == ',') sign = ' ';
    for (std::size_t at = 0; at < plain.size(); at = plain.find(' ', at)) {
        while (at < plain.size() && plain[at] == ' ') ++at;
        const std::string rest(base::trimmed(std::string_view(plain).substr(at)));
        if (!rest.empty() && units::parse_grist("1 " + rest)) return rest;
    }
    return {};
}

void find_field(Column& column, const std::string& words, const Cells& cells) {
    if (is_own_heading(words, column.field)) return;
    if (says_per_mass(column.heading)) {
        column.unit = grist_unit_in(column.heading);
        column.per_mass = column.unit.empty();
        if (!column.per_mass) column.field = is::grist;
        return;
    }
    const Words known(words);
    const bool of_many = known.of_all || known.of_rest;
    const project::ColumnWords* const base = known.longest(of_many || known.of_other);
    const project::ColumnWords* const plain = known.longest(false);
    const bool names_yarn = plain != nullptr && plain->field == "yarn" && of_many &&
                            !cells.empty() && mostly_amounts(cells);
    const bool of_text = plain != nullptr && !is_amount(plain->field) &&
                         plain->field != is::quantity && base == nullptr && !known.says_weight &&
                         !names_yarn;
    if (known.of_other && !of_text) {
        column.used_up = true;
        return;
    }
    if (of_many && !of_text) {
        if (base != nullptr)
            column.field = field_of_all(base->field, known);
        else if (known.says_weight)
            column.field = field_of_all("label_mass", known);
        else
            column.field = field_of_rest(cells, known.of_each);
        column.unit = base == nullptr ? std::string() : std::string(base->unit);
        return;
    }
    if (plain != nullptr && (is_amount(plain->field) || !known.says_weight ||
                             plain->words.find("weight") != std::string_view::npos ||
                             plain->words.find("wt") != std::string_view::npos)) {
        column.field = plain->field;
        column.unit = plain->unit;
        // "Yards", and no word of whether of a skein or of all of a row.
        column.bare = plain->field == "label_length" && !known.of_each &&
                      plain->words.find("label") == std::string_view::npos;
    } else if (known.says_weight) {
        column.field = field_of_weight(cells, known.of_each);
    }
}

}  // namespace

bool known_field(std::string_view field) {
    static constexpr std::array<std::string_view, 11> of_sheets{
        is::quantity,   is::quantity_left, is::nothing,      is::brand, is::label, is::total_length,
        is::total_mass, is::length_left,   is::weighed_each, is::left,  is::grist};
    return std::find(of_sheets.begin(), of_sheets.end(), field) != of_sheets.end() ||
           std::find(field_names().begin(), field_names().end(), field) != field_names().end();
}

bool may_come_again(std::string_view field) {
    return field == "note" || field == is::nothing || field == "colourway";
}

bool is_length(std::string_view field) {
    return field == "label_length" || field == is::total_length || field == is::length_left;
}

bool is_mass(std::string_view field) {
    return field == "label_mass" || field == "weighed" || field == is::total_mass ||
           field == is::weighed_each;
}

std::string said(std::string_view field) {
    if (field == is::nothing) return "left out";
    if (field == is::label) return "label length and mass";
    if (field == is::total_length) return "length of all skeins of the row";
    if (field == is::total_mass) return "mass of all skeins of the row";
    if (field == is::length_left) return "length left of all skeins of the row";
    if (field == is::left) return "what is left of all skeins of the row";
    if (field == is::grist) return "length per weight";
    std::string out(field);
    std::replace(out.begin(), out.end(), '_', ' ');
    return out;
}

bool speaks_of_rest(std::string_view heading) {
    return Words(words_of(heading)).of_rest;
}

bool is_figure(std::string_view cell) {
    return !cell.empty() && cell.find_first_not_of("0123456789.,/ ") == std::string_view::npos;
}

Column column_by_words(std::string_view heading, const Cells& cells) {
    Column column{std::string(heading), {}, {}, false};
    const std::string words = words_of(heading);
    find_field(column, words, cells);
    if (column.used_up || column.per_mass) return column;
    if (column.field == "numbering")
        column.field = numbers_rows(cells) ? std::string(is::nothing) : std::string();
    if (column.field == "date" &&
        !std::all_of(cells.begin(), cells.end(),
                     [](const std::string& cell) { return base::parse_day(cell).ok(); }))
        column.field = "note";
    if (is_amount(column.field) || column.field.empty())
        if (const std::string by_cells = field_of_cells(cells);
            by_cells == is::label || column.field.empty())
            column.field = by_cells;
    if (is_amount(column.field)) {
        if (!mostly_amounts(cells)) return {column.heading, {}, {}, false};
        // "Yardage (m)": a unit named outright stands above what a word is used for.
        const std::string unit = unit_in(words, is_length(column.field));
        if (!unit.empty() && !same_unit(unit, column.unit)) column.unit = unit;
    } else if (column.field != is::grist) {
        column.unit.clear();
    }
    if ((column.field == is::quantity || column.field == is::quantity_left) &&
        !std::any_of(cells.begin(), cells.end(),
                     [](const std::string& cell) { return quantity_in(cell).has_value(); }) &&
        !cells.empty())
        return {column.heading, {}, {}, false};
    return column;
}

bool lacks_unit(const Column& column, const Cells& cells) {
    return is_amount(column.field) && column.unit.empty() &&
           std::any_of(cells.begin(), cells.end(),
                       [](const std::string& cell) { return is_figure(cell); });
}

std::vector<std::string> likely_meanings(const Column& column, const Cells& cells) {
    const std::string words = " " + words_of(column.heading) + " ";
    const auto has = [&](std::string_view word) {
        return words.find(" " + std::string(word) + " ") != std::string::npos;
    };
    Cells fields;
    const bool figures = all_of(cells, [](const std::string& cell) {
        return says_nothing(cell) || is_figure(cell) || amount_in(cell, {}).has_value();
    });
    if (column.used_up || column.per_mass || (!figures && column.field.empty())) {
        fields = {"note", "nothing"};
    } else if (is_length(column.field)) {
        const std::string name = column.field == "label_length"    ? "label length"
                                 : column.field == is::length_left ? "length left"
                                                                   : "total length";
        fields = {name + " in yd", name + " in m"};
    } else if (column.field == "label_mass" || column.field == is::total_mass) {
        const std::string name = column.field == is::total_mass ? "total mass" : "label mass";
        fields = {name + " in g", name + " in oz"};
    } else if (is_mass(column.field)) {
        const std::string name = column.field == is::weighed_each ? "weighed each" : "weighed";
        fields = {name + " in g", name + " in oz"};
    } else if (has("left") || has("remaining") || has("weight") || has("grams") || has("g")) {
        fields = {"weighed in g", "length left in yd", "quantity", "label mass in g", "nothing"};
    } else {
        fields = {"quantity", "label length in yd", "label mass in g", "note", "nothing"};
    }
    Cells out;
    for (const std::string& field : fields)
        out.push_back(base::shown_inert(column.heading) + "=" + field);
    return out;
}

}  // namespace skeinfall::exchange::detail
