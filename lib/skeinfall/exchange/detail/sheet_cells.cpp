#include "skeinfall/exchange/detail/sheet_cells.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <vector>

#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/detail/sheet_columns.hpp"
#include "skeinfall/exchange/make_words.hpp"
#include "skeinfall/exchange/yarn_words.hpp"
#include "skeinfall/project/column_words.hpp"
#include "skeinfall/units/parse.hpp"
#include "skeinfall/yarn/label_text.hpp"

namespace skeinfall::exchange::detail {
namespace {

using project::CellWord;

/// What skeins are counted in, and small words beside them.
bool counts_skeins(std::string_view word) {
    static constexpr std::array<std::string_view, 22> known{
        "skein", "skeins", "ball",   "balls", "hank", "hanks", "cone", "cones",
        "cake",  "cakes",  "sk",     "skn",   "x",    "pcs",   "pc",   "of",
        "a",     "pieces", "donuts", "and",   "plus", "+"};
    return std::find(known.begin(), known.end(), word) != known.end();
}

/// A number as labels print it, without a unit.
std::optional<double> number_in(const std::string& text) {
    const auto value = units::parse_mass(text + " g");
    return value ? std::optional(*value / units::gram) : std::nullopt;
}

/// Words and numbers of a cell; "2 1/2" is one number.
std::vector<std::string> words_in(std::string_view cell) {
    std::string plain;
    for (const char c : base::lower(plain_signs(cell))) {
        if (c == '+' || c == '&')
            plain += " and ";
        else if (c == ';' || c == '(' || c == ')')
            plain += ' ';
        else if (!plain.empty() && (plain.back() >= '0' && plain.back() <= '9') && c >= 'a' &&
                 c <= 'z')
            (plain += ' ') += c;
        else if (!plain.empty() && (plain.back() == 'x') && c >= '0' && c <= '9')
            (plain += ' ') += c;
        else
            plain += c;
    }
    std::vector<std::string> out;
    for (std::string& word : base::split(plain, ' ')) {
        while (!word.empty() && (word.back() == ',' || word.back() == '.')) word.pop_back();
        if (word.empty()) continue;
        const bool fraction = word.find('/') != std::string::npos && number_in(word);
        if (fraction && !out.empty() &&
            out.back().find_first_not_of("0123456789") == std::string::npos)
            out.back() += " " + word;
        else
            out.push_back(std::move(word));
    }
    return out;
}

}  // namespace

std::optional<Quantity> quantity_in(std::string_view cell) {
    const std::string_view text = base::trimmed(cell);
    if (const auto word = project::cell_word(text)) {
        if (*word == CellWord::part) return Quantity{0, 1};
        if (*word != CellWord::unknown) return std::nullopt;
        // A dash is how a sheet shows that there is none.
        const bool asks = text.find('?') != std::string_view::npos ||
                          base::lower(text).find("know") != std::string::npos;
        return asks ? Quantity{1, 0} : Quantity{0, 0};
    }
    Quantity out{0, 0};
    bool any = false;
    double pending = -1.0;
    const auto settle = [&](bool as_parts) {
        if (pending < 0.0) return;
        const double whole = std::floor(pending);
        const bool is_part = pending > whole;
        (as_parts ? out.parts : out.whole) += static_cast<std::int64_t>(whole);
        if (is_part) ++out.parts;
        pending = -1.0;
    };
    for (const std::string& word : words_in(text)) {
        if (word.find_first_not_of("0") == std::string::npos) {
            any = true;
        } else if (const auto number = number_in(word)) {
            settle(false);
            if (*number > static_cast<double>(most_alike)) return std::nullopt;
            pending = *number;
            any = true;
        } else if (const auto means = project::cell_word(word);
                   means == CellWord::part || word == "partials" || word == "parts") {
            // "2 partial", but also "1 and a part".
            if (pending >= 0.0)
                settle(true);
            else
                ++out.parts;
            any = true;
        } else if (means == CellWord::whole) {
            settle(false);
        } else if (word == "and" || word == "plus") {
            settle(false);
        } else if (!counts_skeins(word)) {
            return std::nullopt;
        }
    }
    settle(false);
    if (!any || out.all() > most_alike) return std::nullopt;
    return out;
}

std::optional<yarn::Label> amount_in(std::string_view cell, std::string_view unit) {
    std::string text(base::trimmed(plain_signs(cell)));
    if (!unit.empty() && is_figure(text)) text += " " + std::string(unit);
    if (const auto length = units::parse_length(text))
        return yarn::Label{units::Printed<units::Length>{text, *length}, std::nullopt};
    if (const auto mass = units::parse_mass(text))
        return yarn::Label{std::nullopt, units::Printed<units::Mass>{text, *mass}};
    // "~170 yd each"
    std::replace(text.begin(), text.end(), '~', ' ');
    auto printed = yarn::parse_printed_amount(text);
    if (!printed && !unit.empty())
        printed = yarn::parse_printed_amount(text + " " + std::string(unit));
    return printed ? std::optional(printed->label) : std::nullopt;
}

std::string class_in(const std::string& cell) {
    const std::string known = class_as_said(cell);
    if (known != cell || parse_class(cell)) return known;
    std::string plain = plain_signs(cell);
    for (char& c : plain)
        if (std::string_view("#()-/,:").find(c) != std::string_view::npos) c = '\n';
    std::set<std::string> classes;
    for (const std::string& part : base::split(plain, '\n')) {
        if (part.empty()) continue;
        const std::string one = class_as_said(part);
        const auto parsed = parse_class(one);
        if (!parsed) return cell;
        classes.insert(std::to_string(parsed->number));
    }
    return classes.size() == 1 ? *classes.begin() : cell;
}

}  // namespace skeinfall::exchange::detail
