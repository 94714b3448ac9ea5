#include "skeinfall/exchange/stash_fields.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/source_text.hpp"
#include "skeinfall/units/example.hpp"
#include "skeinfall/yarn/fibre.hpp"

namespace skeinfall::exchange {
namespace {

using stash::Movement;
using stash::MovementKind;

constexpr std::size_t longest_skein_id = 40;
constexpr int highest_count = 1000;

constexpr std::string_view note_field = "note";
constexpr std::array<std::string_view, 1> other_date{"day"};

template <class Printed>
std::string text_of(const std::optional<Printed>& printed) {
    return printed ? printed->text : std::string();
}

std::string amount_text(const Movement& movement) {
    return movement.amount ? stash::text(*movement.amount) : std::string();
}

const auto id_column =
    Column{"id", "the skein's own name", {}, nullptr, [](const Movement& m) { return m.skein; }};
const auto weighing_columns = std::to_array<Column>({
    {"weighed",
     "what the scale showed",
     {},
     nullptr,
     [](const Movement& m) {
         return m.kind == MovementKind::weighed ? amount_text(m) : std::string();
     }},
    {"scale",
     "step of that scale",
     {},
     nullptr,
     [](const Movement& m) { return text_of(m.scale); }},
    {"tare",
     "cone or bag on the scale",
     {},
     nullptr,
     [](const Movement& m) { return text_of(m.tare); }},
});
const auto movement_columns = std::to_array<Column>({
    {"movement",
     "what happened",
     {},
     nullptr,
     [](const Movement& m) { return std::string(word(m.kind)); }},
    {"date", "day it happened", other_date, nullptr,
     [](const Movement& m) { return m.day ? base::to_text(*m.day) : std::string(); }},
    {"amount",
     "how much of it",
     {},
     nullptr,
     [](const Movement& m) {
         return m.kind == MovementKind::weighed ? std::string() : amount_text(m);
     }},
    {"other", "skein at the other end", {}, nullptr, [](const Movement& m) { return m.other; }},
    {"purpose",
     "what it went into, came from or is kept for, or to whom",
     {},
     nullptr,
     [](const Movement& m) { return m.purpose; }},
    {"role",
     "which yarn of the project it is kept for",
     {},
     nullptr,
     [](const Movement& m) { return m.role; }},
});

/// What would be right in a field with a quantity.
std::string_view example_of(std::string_view field) {
    struct FieldExample {
        std::string_view field;
        std::string_view example;
    };
    static constexpr auto all = std::to_array<FieldExample>({{"weighed", "62 g"},
                                                             {"scale", "1 g"},
                                                             {"tare", "25 g"},
                                                             {"amount", "20 g"},
                                                             {"label_length", "170 yd"},
                                                             {"label_mass", "100 g"},
                                                             {"colour_repeat", "4 m"}});
    const auto* const found = std::find_if(
        all.begin(), all.end(), [&](const FieldExample& one) { return one.field == field; });
    return found == all.end() ? std::string_view() : found->example;
}

bool in_skein_id(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' ||
           c == '_' || c == '.';
}

class RowReader {
  public:
    explicit RowReader(Fields& fields) : fields_(fields) {}

    std::vector<Movement> read() {
        Movement movement;
        movement.kind = kind();
        movement.skein = id("id");
        movement.day = parsed("date", base::parse_day);
        if (describes(movement.kind))
            movement.described = described();
        else
            refuse_description();
        if (!begins(movement.kind) && !given("id"))
            fail("id", 0, "no skein is named", "the id of the skein it is about",
                 of_cell("Fill in that cell."));
        if (!describes(movement.kind)) movement.note = text("note", true).value_or(std::string());
        return finished(std::move(movement));
    }

  private:
    std::vector<Movement> finished(Movement movement) {
        const bool bought = movement.kind == MovementKind::bought;
        const bool weighed = movement.kind == MovementKind::weighed;
        const bool wound =
            movement.kind == MovementKind::wound_off || movement.kind == MovementKind::wound_from;
        const bool promised = movement.kind == MovementKind::set_aside;
        const bool released = movement.kind == MovementKind::released;
        const bool amounts =
            takes(movement.kind) || wound || promised || movement.kind == MovementKind::ripped_back;
        if (amounts) {
            refuse("weighed", "this movement has an amount, not a reading");
            refuse("tare", "this movement has an amount, not a reading");
            amount(movement);
        } else {
            refuse("amount", "this movement has no amount");
        }
        if (wound)
            movement.other = other();
        else
            refuse("other", "no other skein takes part in this movement");
        // Used in, given, ripped back, set aside, released.
        const bool may_have_purpose = (amounts && !wound) || released;
        if (may_have_purpose)
            movement.purpose = text("purpose").value_or(std::string());
        else
            refuse("purpose", "this movement has no purpose");
        if ((promised || released) && !given("purpose"))
            fail("purpose", 0, "the project is missing", "the title of the project it is kept for",
                 of_cell("Fill in that cell."));
        if (promised)
            movement.role = text("role").value_or(std::string());
        else
            refuse("role", "this movement is for no yarn of a project");
        std::vector<Movement> out;
        if (!bought && !weighed) {
            if (!amounts)
                for (const std::string_view field : {"weighed", "scale", "tare"})
                    refuse(field, "this movement has no reading");
            out.push_back(std::move(movement));
            return out;
        }
        const auto reading = weighing();
        if (weighed) {
            if (!given("weighed"))
                fail("weighed", 0, "the reading is missing", "what the scale showed",
                     of_cell("Fill in that cell."));
        } else {
            if (reading && movement.described) check_reading(*movement.described, *reading);
            out.push_back(movement);
            movement.described.reset();
            movement.kind = MovementKind::weighed;
            if (!reading) return out;
        }
        if (!reading) return out;
        movement.amount = reading->shown;
        movement.scale = reading->scale;
        movement.tare = reading->tare;
        out.push_back(std::move(movement));
        return out;
    }

    void check_reading(stash::Skein skein, const measure::Weighing& reading) {
        skein.weighing = reading;
        for (const std::string& fault : stash::faults(skein))
            fail("weighed", 0, fault, "a reading that fits the skein",
                 "Weigh the skein again, or correct its label, or whether it is whole.");
    }

    [[nodiscard]] std::string_view value(std::string_view field) const {
        return fields_.value(field);
    }
    [[nodiscard]] bool given(std::string_view field) const { return !value(field).empty(); }

    void fail(std::string_view field, std::size_t at, std::string_view what, std::string expected,
              std::string remedy) {
        fields_.fail(field, at, std::string(what), std::move(expected), std::move(remedy));
    }

    /// What is done to a cell, where there are cells.
    [[nodiscard]] std::string of_cell(const char* remedy) const {
        return fields_.are_cells() ? remedy : "";
    }

    void refuse(std::string_view field, std::string_view what) {
        if (given(field))
            fail(field, 0, what, "an empty cell", of_cell("Empty it, or name another movement."));
    }
    /// The note is any movement's.
    void refuse_description() {
        for (const stash::Field& field : stash::fields())
            if (field.name != note_field)
                refuse(field.name, "a row of this movement describes no skein");
    }

    MovementKind kind() {
        if (!given("movement")) return MovementKind::bought;
        const auto found = stash::parse_movement_kind(value("movement"));
        if (found) return *found;
        std::vector<std::string> words;
        for (const MovementKind known :
             {MovementKind::bought, MovementKind::wound_from, MovementKind::weighed,
              MovementKind::wound_off, MovementKind::used_in, MovementKind::given,
              MovementKind::ripped_back, MovementKind::corrected, MovementKind::set_aside,
              MovementKind::released})
            words.emplace_back(word(known));
        const auto near = base::nearest_name(value("movement"), words);
        fail("movement", 0,
             in_quotes(value("movement")) + " is not something that happens to a skein",
             "one of " + base::join(words, ", "), base::did_you_mean(near));
        return MovementKind::bought;
    }

    stash::Skein described() {
        if (base::trimmed(value("yarn")).empty())
            fail("yarn", 0, "no yarn is named", "the yarn's name", of_cell("Fill in that cell."));
        stash::Skein out;
        for (const stash::Field& field : stash::fields())
            std::visit([&](const auto& member) { read(field, member.of(out)); }, field.held);
        return out;
    }

    void read(const stash::Field& field, std::string& into) {
        into = text(field.name, field.breaks).value_or(std::string());
    }
    void read(const stash::Field& field, std::optional<std::string>& into) {
        into = text(field.name, field.breaks);
    }
    void read(const stash::Field& field, std::optional<yarn::WeightClass>& into) {
        into = weight_class(field.name);
    }
    void read(const stash::Field& field, yarn::FibreContent& into) {
        into = parsed(field.name, yarn::parse_fibre_content).value_or(yarn::FibreContent{});
    }
    void read(const stash::Field& field, std::optional<units::Printed<units::Length>>& into) {
        into = printed(field.name, units::parse_length);
    }
    void read(const stash::Field& field, std::optional<units::Printed<units::Mass>>& into) {
        into = printed(field.name, units::parse_mass);
    }
    void read(const stash::Field& field, stash::Begun& into) { into = part(field.name); }
    void read(const stash::Field& field, stash::Count& into) { into = count(field); }

    std::optional<std::string> text(std::string_view field, bool breaks = false) {
        const std::string_view written = value(field);
        if (written.empty()) return std::nullopt;
        const std::size_t most = field == "purpose" ? longest_title : longest_text;
        if (const auto fault = text_fault(written, most, breaks)) {
            fail(field, 0, *fault, fmt::format("at most {} bytes of plain text", most),
                 "Shorten it, or type it anew.");
            return std::nullopt;
        }
        return std::string(written);
    }

    template <class T>
    std::optional<T> parsed(std::string_view field, base::Result<T> (*parse)(std::string_view)) {
        const auto written = text(field);
        if (!written) return std::nullopt;
        const auto result = parse(*written);
        if (result) return *result;
        const base::Problem problem =
            units::with_example(result.problem(), *written, "", example_of(field));
        fail(field, problem.place.column - 1, problem.what, problem.expected, problem.remedy);
        return std::nullopt;
    }

    template <class Q>
    std::optional<units::Printed<Q>> printed(std::string_view field,
                                             base::Result<Q> (*parse)(std::string_view)) {
        const auto read = parsed(field, parse);
        if (!read) return std::nullopt;
        return units::Printed<Q>{std::string(value(field)), *read};
    }

    std::string id(std::string_view field) {
        const std::string_view written = value(field);
        const auto* wrong = std::find_if_not(written.begin(), written.end(), in_skein_id);
        if (wrong == written.end() && written.size() <= longest_skein_id)
            return std::string(written);
        const auto at = wrong != written.end() ? wrong - written.begin() : 0;
        fail(field, static_cast<std::size_t>(at), in_quotes(written) + " cannot be an id",
             fmt::format("up to {} letters without accents, digits, \"-\", \"_\" or \".\"",
                         longest_skein_id),
             of_cell("Leave the cell empty to have an id given."));
        return {};
    }

    std::string other() {
        if (!given("other"))
            fail("other", 0, "the skein at the other end is missing",
                 "the id of the skein it was wound from or into", of_cell("Fill in that cell."));
        return id("other");
    }

    std::optional<yarn::WeightClass> weight_class(std::string_view field) {
        const std::string_view written = value(field);
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
        fail(field, 0, "unknown weight class " + in_quotes(written),
             "a number or name of " + base::join(shown, ", "), base::did_you_mean(near));
        return std::nullopt;
    }

    bool part(std::string_view field) {
        const std::string_view written = value(field);
        if (base::same_word(written, "part")) return true;
        if (!written.empty() && !base::same_word(written, "whole"))
            fail(field, 0, in_quotes(written) + " is neither whole nor part",
                 "\"whole\" or \"part\"", "Write \"part\" for a skein that was begun.");
        return false;
    }

    int count(const stash::Field& field) {
        const std::string_view written = value(field.name);
        if (written.empty()) return 0;
        const auto number = base::number_of<int>(written);
        if (number && *number >= 0 && *number <= highest_count) return *number;
        fail(field.name, 0, fmt::format("{} is not a number of {}", in_quotes(written), field.name),
             fmt::format("a whole number from 0 to {}", highest_count), "");
        return 0;
    }

    std::optional<measure::Weighing> weighing() {
        const auto shown = printed("weighed", units::parse_mass);
        const auto scale = printed("scale", units::parse_mass);
        const auto tare = printed("tare", units::parse_mass);
        if (!given("weighed")) {
            for (const std::string_view field : {"scale", "tare"})
                if (given(field))
                    fail(field, 0, "there is no weighing it belongs to",
                         "the reading in the column \"weighed\"",
                         of_cell("Fill in that cell, or empty this one."));
            return std::nullopt;
        }
        if (shown && !given("scale"))
            fail("scale", 0, "the step of the scale is missing",
                 "the smallest step the scale shows, such as 1 g",
                 "A usual kitchen scale has a step of \"1 g\".");
        if (!shown || !scale || (given("tare") && !tare)) return std::nullopt;
        return measure::Weighing{*shown, *scale, tare};
    }

    void amount(Movement& movement) {
        movement.amount = parsed("amount", parse_amount);
        movement.scale = printed("scale", units::parse_mass);
        const bool all_may_go = movement.kind == MovementKind::used_in ||
                                movement.kind == MovementKind::given ||
                                movement.kind == MovementKind::set_aside;
        if (!given("amount") && !all_may_go)
            fail("amount", 0, "the amount is missing", "a weight or a length",
                 of_cell("Fill in that cell."));
        const bool mass = movement.amount && movement.amount->index() == 1;
        if (mass && !given("scale"))
            fail("scale", 0, "the step of the scale is missing",
                 "the smallest step the scale shows, such as 1 g",
                 "A usual kitchen scale has a step of \"1 g\".");
        if (given("scale") && !mass && (movement.amount || !given("amount")))
            fail("scale", 0, "there is no weight it belongs to", "an amount such as \"20 g\"",
                 of_cell("Fill in that cell, or empty this one."));
    }

    Fields& fields_;
};

}  // namespace

std::vector<stash::Movement> read_movements(Fields& fields) {
    return RowReader(fields).read();
}

base::Result<stash::Amount> parse_amount(std::string_view text) {
    const auto mass = units::parse_mass(text);
    if (mass) return stash::Amount(units::Printed<units::Mass>{std::string(text), *mass});
    const auto length = units::parse_length(text);
    if (length) return stash::Amount(units::Printed<units::Length>{std::string(text), *length});
    base::Problem problem = mass.problem();
    // The farther one got, the nearer it is to what was meant.
    if (length.problem().place.column > problem.place.column) problem = length.problem();
    problem.expected = "a weight such as \"20 g\" or a length such as \"30 yd\"";
    return problem;
}

const std::vector<Column>& columns() {
    static const std::vector<Column> all = [] {
        std::vector<Column> out{id_column};
        for (const stash::Field& field : stash::fields()) {
            // Places of the array that are not needed hold no name.
            const auto end = std::find(field.other_headings.begin(), field.other_headings.end(),
                                       std::string_view());
            out.push_back(
                {field.name, field.meaning, {field.other_headings.begin(), end}, &field, nullptr});
            if (field.name == note_field)
                out.back().of_movement = [](const Movement& m) { return m.note; };
            if (field.name == "state")
                out.insert(out.end(), weighing_columns.begin(), weighing_columns.end());
        }
        out.insert(out.end(), movement_columns.begin(), movement_columns.end());
        return out;
    }();
    return all;
}

const std::vector<std::string>& field_names() {
    static const std::vector<std::string> all = [] {
        std::vector<std::string> out;
        for (const Column& column : columns()) out.emplace_back(column.name);
        return out;
    }();
    return all;
}

std::vector<Written> fields_of(const Movement& movement) {
    std::vector<Written> out;
    for (const Column& column : columns()) {
        std::string text;
        if (column.describes != nullptr && movement.described)
            text = stash::written(*column.describes, *movement.described);
        else if (column.of_movement != nullptr)
            text = column.of_movement(movement);
        if (!text.empty()) out.push_back({column.name, std::move(text)});
    }
    return out;
}

std::vector<std::vector<Written>> rows_of(const std::vector<Movement>& movements) {
    std::vector<std::vector<Written>> rows;
    rows.reserve(movements.size());
    for (std::size_t i = 0; i < movements.size(); ++i) {
        rows.push_back(fields_of(movements[i]));
        if (movements[i].kind != MovementKind::bought || i + 1 == movements.size()) continue;
        const Movement& next = movements[i + 1];
        if (next.kind != MovementKind::weighed || next.skein != movements[i].skein ||
            next.day != movements[i].day || !next.note.empty())
            continue;
        for (Written& written : fields_of(next))
            if (written.field == "weighed" || written.field == "scale" || written.field == "tare")
                rows.back().push_back(std::move(written));
        const auto place = [](const Written& written) {
            return std::find(field_names().begin(), field_names().end(), written.field);
        };
        std::sort(rows.back().begin(), rows.back().end(),
                  [&](const Written& a, const Written& b) { return place(a) < place(b); });
        ++i;
    }
    return rows;
}

}  // namespace skeinfall::exchange
