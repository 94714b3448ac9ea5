#include "skeinfall/exchange/detail/sheet_rows.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <regex>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/csv_cell.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/detail/amount_like.hpp"
#include "skeinfall/exchange/make_words.hpp"
#include "skeinfall/exchange/stash_fields.hpp"
#include "skeinfall/exchange/yarn_words.hpp"
#include "skeinfall/project/column_words.hpp"
#include "skeinfall/yarn/fibre.hpp"

namespace skeinfall::exchange::detail {
namespace {

namespace is = sheet_field;
using project::CellWord;

// Sums of figures that were rounded one by one.
constexpr double same_within = 0.005;
constexpr double rounded_within = 0.02;  // 3.5 oz beside 100 g
constexpr double noise = 1e-9;
// Skeins run heavier than their label, but not by more than this.
constexpr double heaviest = 1.2;
// Two measures of what is left: by eye or by weight.
constexpr double contradict = 0.1;
// A line with one word in a wide sheet is a heading or a remark.
constexpr std::size_t wide_sheet = 4;

bool is_empty(std::string_view text) {
    return base::trimmed(text).empty();
}

template <class Q>
double ratio(Q a, Q b) {
    return a / b;
}

/// The names of columns whose text needs no name before it in a note.
bool is_plain_note(const std::string& heading) {
    static constexpr std::array<std::string_view, 5> known{"note", "notes", "comment", "comments",
                                                           "remarks"};
    const std::string words = words_of(heading);
    return words.empty() || std::find(known.begin(), known.end(), words) != known.end();
}

/// "used up", "half used", "1 gifted to Ann": some of it may be gone.
bool says_some_is_gone(const std::string& remark) {
    static const std::regex gone(
        R"(\b(?:used|gone|finished|sold|gifted|given|gave|donated|swapped|lent|half|partly|partial(?:ly)?|started|begun|opened|in use|in progress|wip|leftovers?|remnants?|scraps?|frogged|set aside|promised|reserved|earmarked|allocated|assigned|spoken for|(?:planned|kept|saved|meant|intended) for|belongs to)\b)",
        std::regex::icase);
    static const std::regex none(R"(\b(?:un|not |never |nothing )(?:used|opened|begun|started)\b)",
                                 std::regex::icase);
    return std::regex_search(remark, gone) && !std::regex_search(remark, none);
}

/// "mixed", "12/14", "A and B": more than one lot, so that nobody knows which skein is of which.
bool names_several_lots(const std::string& lot) {
    static const std::regex words(
        R"(^(?:mixed|mix|various|varied|several|assorted|different|diff|multiple|both|two|2|many)\b.*$)",
        std::regex::icase);
    static const std::regex listed(R"(^\S+\s*(?:/|,|;|&|\+|\band\b|\bor\b)\s*\S+.*$)",
                                   std::regex::icase);
    return std::regex_match(lot, words) || std::regex_match(lot, listed);
}

bool tells_which(std::string_view field) {
    return field == "colourway" || field == "dye_lot";
}

}  // namespace

bool SheetRows::fills(std::string_view of_sheet, std::string_view of_skein) {
    if (of_sheet == of_skein) return true;
    if (of_skein == "yarn") return of_sheet == is::brand;
    if (of_skein == "label_length") return is_length(of_sheet) || of_sheet == is::label;
    if (of_skein == "label_mass") return of_sheet == is::total_mass || of_sheet == is::label;
    return of_skein == "weighed" && is_mass(of_sheet);
}

SheetRows::SheetRows(const SourceText& source, const std::vector<Column>& columns,
                     ProblemList& problems)
    : source_(source), columns_(columns), problems_(problems), above_(columns.size()) {
    const auto add_field = [&](std::string_view field) {
        if (std::find(header_.begin(), header_.end(), field) == header_.end())
            header_.emplace_back(field);
    };
    for (const Column& column : columns)
        if (std::find(field_names().begin(), field_names().end(), column.field) !=
            field_names().end())
            add_field(column.field);
    has_state_ = std::find(header_.begin(), header_.end(), "state") != header_.end();
    of_movements_ = std::find(header_.begin(), header_.end(), of_movements) != header_.end();
    for (const char* field :
         {"yarn", "label_length", "label_mass", "state", "weighed", "scale", "note"})
        add_field(field);
    table_ = base::CsvTable(header_, "\n");
}

std::vector<std::string> SheetRows::remarks() const {
    std::vector<std::string> out = remarks_;
    for (const auto& [why, lines] : left_out_) {
        constexpr std::size_t most = 8;
        std::vector<std::string> shown;
        for (const std::size_t line : lines)
            if (shown.size() < most) shown.push_back(std::to_string(line));
        if (lines.size() > most) shown.push_back(std::to_string(lines.size() - most) + " more");
        out.push_back(fmt::format("{} {} {}", lines.size() == 1 ? "line" : "lines",
                                  base::join(shown, ", "), why));
    }
    return out;
}

void SheetRows::remark(std::string text) {
    std::vector<std::size_t>& lines = left_out_[std::move(text)];
    if (lines.empty() || lines.back() != line_) lines.push_back(line_);
}

void SheetRows::refuse(std::string_view field, std::string what, std::string expected,
                       std::string remedy) {
    refused_ = true;
    base::Place place = source_.place(row_->front().offset);
    for (std::size_t at = 0; at < std::min(columns_.size(), row_->size()); ++at)
        if (columns_[at].field == field) {
            place = source_.place((*row_)[at].offset);
            what = base::quoted(columns_[at].heading) + ": " + what;
            break;
        }
    problems_.add({std::move(what), std::move(place), std::move(expected), std::move(remedy)});
}

void SheetRows::add_note(const std::string& text) {
    std::string& note = texts_["note"];
    note += (note.empty() ? "" : "; ") + text;
}

void SheetRows::add(const CsvRow& row, std::size_t index) {
    row_ = &row;
    line_ = source_.place(row.front().offset).line;
    refused_ = false;
    cells_.assign(columns_.size(), {});
    texts_.clear();
    count_ = {};
    length_.reset();
    mass_.reset();
    total_length_.reset();
    total_mass_.reset();
    length_left_.reset();
    weighed_.reset();
    weighed_each_.reset();
    count_left_.reset();
    grist_.reset();
    some_gone_ = false;
    std::size_t used = 0;
    for (std::size_t at = 0; at < row.size(); ++at) {
        const std::string cell(base::trimmed(row[at].text));
        if (cell.empty()) continue;
        if (at >= columns_.size()) {
            problems_.add({"a cell without a heading", source_.place(row[at].offset),
                           "a heading over every column that is used", ""});
            continue;
        }
        ++used;
        cells_[at] = cell;
    }
    if (used > 0 && of_movements_) copy_row(index);
    if (used == 0 || of_movements_ || left_out(used)) return;
    if (!names_yarn()) return;
    take_cells();
    above_ = cells_;
    if (refused_) return;
    if (count_left_) count_ = *count_left_;
    if (count_.all() == 0) {
        remark("left out: there is none of it");
        return;
    }
    settle_grist();
    settle_totals();
    const std::vector<Entry> all = entries();
    if (!refused_) write(all, index);
}

/// A row of what happened to a skein.
void SheetRows::copy_row(std::size_t index) {
    for (std::size_t at = 0; at < cells_.size(); ++at) {
        if (cells_[at].empty()) continue;
        if (columns_[at].field == "note")
            add_note(is_plain_note(columns_[at].heading)
                         ? cells_[at]
                         : columns_[at].heading + ": " + cells_[at]);
        else
            texts_[columns_[at].field] = cells_[at];
    }
    write_line(index);
}

void SheetRows::write_line(std::size_t index) {
    for (const std::string& field : header_) {
        const auto found = texts_.find(field);
        table_.text(found == texts_.end() ? std::string_view() : found->second);
    }
    table_.end_line();
    lines_.push_back(index);
}

/// Totals, and lines that only hold a word of their own.
bool SheetRows::left_out(std::size_t used) {
    for (std::size_t at = 0; at < cells_.size(); ++at) {
        if (cells_[at].empty()) continue;
        if (project::cell_word(cells_[at]) == CellWord::total) {
            remark("left out: a total");
            return true;
        }
        break;
    }
    const auto wide = static_cast<std::size_t>(
        std::count_if(columns_.begin(), columns_.end(),
                      [](const Column& column) { return !column.field.empty(); }));
    if (used == 1 && wide >= wide_sheet) {
        remark("left out: it has only one word, and describes no yarn");
        return true;
    }
    return false;
}

/// Signs for "as above" are replaced; of merged cells only the first holds the name. False where
/// the line names no yarn at all.
bool SheetRows::names_yarn() {
    bool named = false;
    bool told_apart = false;
    for (std::size_t at = 0; at < cells_.size(); ++at) {
        if (cells_[at].empty()) continue;
        const auto word = project::cell_word(cells_[at]);
        if (word == CellWord::as_above) cells_[at] = above_[at];
        const std::string& field = columns_[at].field;
        if (word == CellWord::unknown && field != is::quantity && field != "note")
            cells_[at].clear();
        if (cells_[at].empty()) continue;
        named = named || field == "yarn" || field == is::brand;
        told_apart = told_apart || tells_which(field);
    }
    if (named) return true;
    const bool above = std::any_of(above_.begin(), above_.end(),
                                   [](const std::string& cell) { return !cell.empty(); });
    if (!told_apart || !above) {
        remark("left out: no yarn is named");
        return false;
    }
    for (std::size_t at = 0; at < cells_.size(); ++at) {
        const std::string& field = columns_[at].field;
        const bool of_yarn = field == "yarn" || field == is::brand || field == "class" ||
                             field == "fibre" || field == "label_length" || field == "label_mass" ||
                             field == is::label;
        if (of_yarn && cells_[at].empty()) cells_[at] = above_[at];
    }
    remark("without a yarn's name: taken for the yarn of the line above, with its label");
    return true;
}

void SheetRows::take_cells() {
    std::string name;
    std::string brand;
    for (std::size_t at = 0; at < columns_.size(); ++at) {
        const Column& column = columns_[at];
        const std::string& cell = cells_[at];
        if (column.field == "yarn") name = cell;
        if (column.field == is::brand) brand = cell;
        if (!cell.empty()) take_cell(column, cell);
    }
    if (name.empty())
        name = brand;
    else if (!brand.empty() && !base::lower(name).starts_with(base::lower(brand)))
        name = brand + " " + name;
    texts_["yarn"] = name;
}

/// Whether the row tells of more than one skein; a quantity that cannot be read may.
bool SheetRows::count_may_be_several() const {
    for (std::size_t at = 0; at < columns_.size(); ++at)
        if (columns_[at].field == is::quantity || columns_[at].field == is::quantity_left) {
            const auto count = quantity_in(cells_[at]);
            return !count || count->all() > 1;
        }
    return false;
}

/// Whether a column says how many skeins are left.
bool SheetRows::tells_left() const {
    for (std::size_t at = 0; at < columns_.size(); ++at)
        if ((columns_[at].field == is::quantity_left || columns_[at].field == is::left) &&
            !cells_[at].empty())
            return true;
    return false;
}

void SheetRows::take_cell(const Column& column, const std::string& cell) {
    const std::string& field = column.field;
    if (field.empty() || field == is::nothing || field == is::brand || field == "yarn") return;
    if (field == is::quantity) {
        const auto count = quantity_in(cell);
        if (!count)
            refuse(field, base::quoted(cell) + " is not a number of skeins", "1 to 1000, or 1.5",
                   "Write the number alone, and the rest into the notes.");
        else
            count_ = *count;
        if (count && count->parts > 0 && has_state_)
            refuse(field, base::quoted(cell) + " skeins, beside a column of states",
                   "a whole number", "Give the part skein a row of its own.");
    } else if (is_length(field) || is_mass(field) || field == is::label) {
        take_amount(column, cell);
    } else if (field == "note") {
        add_note(is_plain_note(column.heading) ? cell : column.heading + ": " + cell);
        // Kept as a note, what is left is no less a sign that some is gone.
        some_gone_ = some_gone_ || says_some_is_gone(cell) || speaks_of_rest(column.heading);
    } else if (field == is::left) {
        take_left(cell);
    } else if (field == is::grist) {
        take_grist(column, cell);
    } else if (field == "dye_lot" && count_may_be_several() && names_several_lots(cell)) {
        add_note(column.heading + ": " + cell);
        remark(
            "has several dye lots for its skeins: the lot counts as not known and is kept in the "
            "notes");
    } else if (field == "colourway") {
        std::string& colour = texts_[field];
        colour += (colour.empty() ? "" : " ") + cell;
    } else if (field == "class") {
        const std::string known = class_in(cell);
        if (parse_class(known)) {
            texts_[field] = known;
        } else {
            add_note(column.heading + ": " + cell);
            remark("has a weight class that is not known: kept in the notes");
        }
    } else if (field == "fibre") {
        const std::string known = fibre_as_said(cell);
        if (yarn::parse_fibre_content(known)) {
            texts_[field] = known;
        } else {
            add_note(column.heading + ": " + cell);
            remark("has a fibre content that is not understood: kept in the notes");
        }
    } else if (field == "state") {
        const auto word = project::cell_word(cell);
        texts_[field] = word == CellWord::whole ? "whole" : word == CellWord::part ? "part" : cell;
    } else {
        texts_[field] = cell;
    }
}

void SheetRows::take_amount(const Column& column, const std::string& cell) {
    const std::string& field = column.field;
    const auto amount = amount_in(cell, column.unit);
    const bool length_wanted = is_length(field) || field == is::label;
    const bool mass_wanted = is_mass(field) || field == is::label;
    if (!amount || (field == is::label
                        ? !amount->length && !amount->mass
                        : (length_wanted && !amount->length) || (mass_wanted && !amount->mass))) {
        // The reader of single amounts knows best what is wrong with one.
        std::string text = cell;
        if (is_figure(text) && !column.unit.empty()) text += " " + column.unit;
        const base::Problem why = is_mass(field) ? units::parse_mass(text).problem()
                                                 : units::parse_length(text).problem();
        refuse(field, why.what,
               field == is::label ? "length and weight of one skein, such as \"170 yd / 3.5 oz\""
                                  : why.expected,
               why.remedy.empty() ? "Leave the cell empty where it is not known." : why.remedy);
        return;
    }
    if (field == is::label || field == "label_length" || field == "label_mass") {
        if (amount->mass && mass_ && mass_wanted &&
            std::abs(ratio(amount->mass->value, mass_->value) - 1.0) > rounded_within)
            refuse(field, amount->mass->text + " here, and " + mass_->text + " by another column",
                   "what the label prints, or what the scale shows in a column of its own",
                   "Say what it is: " +
                       base::quoted(column.heading + "=" + std::string(is::weighed_each)) +
                       " for what each weighs now.");
        // A column of its own stands above what another cell shows besides.
        if (amount->length && (length_wanted || !length_)) length_ = amount->length;
        if (amount->mass && (mass_wanted || !mass_)) mass_ = amount->mass;
    } else if (field == is::total_length) {
        total_length_ = amount->length;
    } else if (field == is::length_left) {
        length_left_ = amount->length;
    } else if (field == is::total_mass) {
        total_mass_ = amount->mass;
    } else if (field == is::weighed_each) {
        weighed_each_ = amount->mass;
    } else {
        weighed_ = amount->mass;
    }
}

/// A total tells what one skein holds, or what is left where that is known already.
void SheetRows::settle_totals() {
    const auto skeins = static_cast<double>(count_.all());
    const bool alike = count_.parts == 0;
    if (total_length_) {
        if (!length_ && alike)
            length_ = count_.all() == 1
                          ? *total_length_
                          : length_like(*total_length_, total_length_->value / skeins);
        else if (!length_)
            refuse(is::total_length, "a length of several skeins, one of them a part",
                   "a row for each skein", "Give the part skein a row of its own.");
        else if (!length_left_)
            length_left_ = total_length_;
    }
    if (total_mass_) {
        if (!mass_ && alike)
            mass_ = count_.all() == 1 ? *total_mass_
                                      : mass_like(*total_mass_, total_mass_->value / skeins);
        else if (!mass_)
            refuse(is::total_mass, "a weight of several skeins, one of them a part",
                   "a row for each skein", "Give the part skein a row of its own.");
        else if (!weighed_ && !weighed_each_ &&
                 std::abs(ratio(total_mass_->value, mass_->value * skeins) - 1.0) > same_within)
            weighed_ = total_mass_;
    }
}

std::vector<SheetRows::Entry> SheetRows::entries() {
    std::vector<Entry> out(static_cast<std::size_t>(count_.all()), {length_, mass_, {}, false});
    for (std::size_t at = static_cast<std::size_t>(count_.whole); at < out.size(); ++at)
        out[at].part = true;
    if (weighed_each_) {
        if (count_.parts > 0)
            refuse(is::weighed_each, "one weight for each of several skeins, one of them a part",
                   "a row for each skein weighed", "Give the part skein a row of its own.");
        for (Entry& entry : out) entry.weighed = weighed_each_;
        return out;
    }
    if (weighed_ && length_left_ && length_ && mass_) {
        const units::Length by_mass =
            length_->value * units::Ratio(weighed_->value / mass_->value).value();
        if (std::abs(ratio(by_mass, length_left_->value) - 1.0) > contradict)
            refuse(
                is::length_left,
                fmt::format("{} and {} contradict each other", length_left_->text, weighed_->text),
                fmt::format("{} by the weight and the label",
                            length_like(*length_left_, by_mass).text),
                "Weigh it again, or leave one of the two empty.");
    }
    if (weighed_)
        part_by_weight(out);
    else if (length_left_)
        part_by_length(out);
    return out;
}

void SheetRows::part_by_weight(std::vector<Entry>& out) {
    const auto skeins = static_cast<double>(out.size());
    if (length_left_ && !(length_ && mass_)) {
        // What is left, twice: as good as a label of its own.
        for (Entry& entry : out)
            entry = {out.size() == 1 ? *length_left_
                                     : length_like(*length_left_, length_left_->value / skeins),
                     out.size() == 1 ? *weighed_ : mass_like(*weighed_, weighed_->value / skeins),
                     {},
                     false};
        return;
    }
    if (mass_ && weighed_->value > mass_->value * skeins * heaviest) {
        refuse("weighed",
               fmt::format("{} is more than {} of {} weigh", weighed_->text,
                           out.size() == 1 ? "a skein" : std::to_string(out.size()) + " skeins",
                           mass_->text),
               "what all skeins of the row weigh",
               "Weigh it again, without a cone or a bowl, or mend the label.");
        return;
    }
    if (out.size() == 1) {
        out.front().weighed = weighed_;
        return;
    }
    const double labels = mass_ ? ratio(weighed_->value, mass_->value) : 0.0;
    const auto whole = static_cast<std::size_t>(labels + noise);
    if (mass_ && whole + 1 >= out.size() && labels < skeins + same_within &&
        unit_of(mass_->text) == unit_of(weighed_->text)) {
        for (std::size_t at = 0; at < out.size(); ++at) out[at].weighed = mass_;
        if (whole >= out.size()) return;
        const units::Mass rest = weighed_->value - mass_->value * static_cast<double>(whole);
        if (rest < mass_->value * same_within)
            out.pop_back();
        else
            out.back().weighed = mass_like(*weighed_, rest);
        return;
    }
    if (count_.parts > 0)
        refuse("weighed", "one weight for several skeins, one of them a part",
               "a row for each skein weighed", "Give the part skein a row of its own.");
    for (Entry& entry : out) entry.weighed = mass_like(*weighed_, weighed_->value / skeins);
}

/// What is left by length counts as a label of its own: the part of the skein that is there.
void SheetRows::part_by_length(std::vector<Entry>& out) {
    const auto skeins = static_cast<double>(out.size());
    const auto cut = [&](const Length& left) {
        std::optional<Mass> mass;
        if (length_ && mass_)
            mass = mass_like(*mass_, mass_->value * ratio(left.value, length_->value));
        return Entry{left, mass, {}, false};
    };
    if (!length_) {
        for (Entry& entry : out)
            entry = cut(out.size() == 1 ? *length_left_
                                        : length_like(*length_left_, length_left_->value / skeins));
        return;
    }
    const double labels = ratio(length_left_->value, length_->value);
    if (labels > skeins * (1.0 + same_within)) {
        refuse(total_length_ ? is::total_length : is::length_left,
               fmt::format("{} is more than {} of {} hold", length_left_->text,
                           out.size() == 1 ? "a skein" : std::to_string(out.size()) + " skeins",
                           length_->text),
               "at most what the labels say", "Mend the quantity or the length.");
        return;
    }
    if (labels >= skeins - noise) {
        for (Entry& entry : out) entry.part = false;
        return;
    }
    const auto whole = static_cast<std::size_t>(labels + noise);
    if (whole + 1 < out.size()) {
        remark("with what is left of several skeins together: each is counted with an equal share");
        for (Entry& entry : out) {
            const Entry share = cut(length_like(*length_left_, length_left_->value / skeins));
            // By weight a share keeps the label that it is a part of.
            entry = share.mass ? Entry{length_, mass_, share.mass, true} : share;
        }
        return;
    }
    for (Entry& entry : out) entry.part = false;
    const units::Length rest = length_left_->value - length_->value * static_cast<double>(whole);
    if (rest < length_->value * same_within)
        out.pop_back();
    else
        out.back() = cut(out.size() == 1 ? *length_left_ : length_like(*length_left_, rest));
}

void SheetRows::write(const std::vector<Entry>& entries, std::size_t index) {
    const std::string scale = texts_.contains("scale") ? texts_["scale"] : std::string();
    const std::string state = texts_.contains("state") ? texts_["state"] : std::string();
    // A total that is no more than the labels added up tells nothing of what is left.
    const auto skeins = static_cast<double>(count_.all());
    const bool tells_less =
        length_left_ && (!total_length_ || !length_ ||
                         length_left_->value < length_->value * skeins * (1.0 - same_within));
    const bool begun = some_gone_ && !tells_less && !weighed_ && !weighed_each_ && !tells_left();
    if (begun)
        remark(
            "with a remark that some is gone or kept for something: its skeins count as part "
            "skeins");
    if (count_.whole > 1 && length_ && !total_length_ && !length_left_ &&
        std::any_of(columns_.begin(), columns_.end(),
                    [](const Column& column) { return column.bare; }))
        remark(
            "with more than one skein and one length: it is taken as that of each; head the column "
            "\"total length\" if it is of all of them");
    for (Entry entry : entries) {
        entry.part = entry.part || begun;
        texts_["label_length"] = entry.length ? entry.length->text : "";
        texts_["label_mass"] = entry.mass ? entry.mass->text : "";
        texts_["weighed"] = entry.weighed ? entry.weighed->text : "";
        texts_["scale"] = !entry.weighed  ? ""
                          : scale.empty() ? step_of_reading((weighed_        ? *weighed_
                                                             : weighed_each_ ? *weighed_each_
                                                                             : *entry.weighed)
                                                                .text)
                                          : scale;
        // What a maker weighed counts by its weight, whatever the label says.
        texts_["state"] = !is_empty(state) ? state : entry.part || entry.weighed ? "part" : "whole";
        if (!entry.weighed) texts_.erase("tare");
        write_line(index);
        if (entry.part && !entry.weighed)
            remark("with a part skein that was never weighed: weigh it, or it does not count");
    }
}

}  // namespace skeinfall::exchange::detail
