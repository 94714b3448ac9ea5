#include "skeinfall/exchange/stash_fields.hpp"

#include <algorithm>
#include <charconv>
#include <system_error>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/source_text.hpp"
#include "skeinfall/yarn/fibre.hpp"

namespace skeinfall::exchange {
namespace {

using stash::Movement;
using stash::MovementKind;

constexpr std::size_t longest_id = 40;
constexpr int most_knots = 1000;

constexpr auto describing_fields = std::to_array<std::string_view>(
    {"yarn", "colourway", "dye_lot", "shade_group", "class", "fibre", "label_length", "label_mass",
     "colour_repeat", "state", "knots"});

bool id_letter(char c) {
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
            refuse_all(describing_fields, "a row of this movement describes no skein");
        if (!begins(movement.kind) && !given("id"))
            fail("id", 0, "the row names no skein", "the id of the skein it is about",
                 "Fill in that cell.");
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
                 "Fill in that cell.");
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
                     "Fill in that cell.");
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
                 "Weigh the skein again, or mend its label or state.");
    }

    [[nodiscard]] std::string_view value(std::string_view field) const {
        return fields_.value(field);
    }
    [[nodiscard]] bool given(std::string_view field) const { return !value(field).empty(); }

    void fail(std::string_view field, std::size_t at, std::string_view what, std::string expected,
              std::string remedy) {
        fields_.fail(field, at, std::string(what), std::move(expected), std::move(remedy));
    }

    void refuse(std::string_view field, std::string_view what) {
        if (given(field))
            fail(field, 0, what, "an empty cell", "Empty it, or name another movement.");
    }
    template <class Names>
    void refuse_all(const Names& names, std::string_view what) {
        for (const std::string_view field : names) refuse(field, what);
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
        fail("movement", 0, in_quotes(value("movement")) + " is no movement",
             "one of " + base::join(words, ", "), base::did_you_mean(near));
        return MovementKind::bought;
    }

    stash::Skein described() {
        stash::Skein out;
        out.yarn.name = text("yarn").value_or(std::string());
        if (base::trimmed(value("yarn")).empty())
            fail("yarn", 0, "the row names no yarn", "the yarn's name in the column \"yarn\"",
                 "Fill in that cell.");
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
        return out;
    }

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
        const base::Problem& problem = result.problem();
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
        const auto* wrong = std::find_if_not(written.begin(), written.end(), id_letter);
        if (wrong == written.end() && written.size() <= longest_id) return std::string(written);
        const auto at = wrong != written.end() ? wrong - written.begin() : 0;
        fail(field, static_cast<std::size_t>(at), in_quotes(written) + " cannot be an id",
             fmt::format("up to {} letters without accents, digits, \"-\", \"_\" or \".\"",
                         longest_id),
             "Leave the cell empty to have an id given.");
        return {};
    }

    std::string other() {
        if (!given("other"))
            fail("other", 0, "the skein at the other end is missing",
                 "the id of the skein it was wound from or into", "Fill in that cell.");
        return id("other");
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
        fail("class", 0, "unknown weight class " + in_quotes(written),
             "a number or name of " + base::join(shown, ", "), base::did_you_mean(near));
        return std::nullopt;
    }

    bool part() {
        const std::string_view written = value("state");
        if (base::same_word(written, "part")) return true;
        if (!written.empty() && !base::same_word(written, "whole"))
            fail("state", 0, in_quotes(written) + " is no state", "\"whole\" or \"part\"",
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
        fail("knots", 0, in_quotes(written) + " is no number of knots",
             fmt::format("a whole number from 0 to {}", most_knots), "");
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
                         "Fill in that cell, or empty this one.");
            return std::nullopt;
        }
        if (!given("scale"))
            fail("scale", 0, "the step of the scale is missing",
                 "the smallest step the scale shows, as \"scale\"",
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
            fail("amount", 0, "the amount is missing", "a mass or a length", "Fill in that cell.");
        const bool mass = movement.amount && movement.amount->index() == 1;
        if (mass && !given("scale"))
            fail("scale", 0, "the step of the scale is missing",
                 "the smallest step the scale shows, as \"scale\"",
                 "A usual kitchen scale has a step of \"1 g\".");
        if (given("scale") && !mass && (movement.amount || !given("amount")))
            fail("scale", 0, "there is no mass it belongs to", "an amount such as \"20 g\"",
                 "Fill in that cell, or empty this one.");
    }

    Fields& fields_;
};

/// A share so that parse_fibre_content() gives the same number again.
std::string share_text(units::Ratio share) {
    std::string out;
    for (int digits = 1; digits <= 17; ++digits) {
        out = fmt::format("{:.{}g}", 100.0 * share.value(), digits) + "%";
        const auto read = units::parse_percent(out);
        if (read && read->value() == share.value()) break;
    }
    return out;
}

std::string fibre_text(const yarn::FibreContent& content) {
    std::string out;
    for (const yarn::FibreShare& part : content.shares)
        out += (out.empty() ? "" : ", ") + share_text(part.share) + " " + part.fibre;
    return out;
}

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
    problem.expected = "a mass such as \"20 g\" or a length such as \"30 yd\"";
    return problem;
}

std::vector<Written> fields_of(const Movement& movement) {
    std::vector<Written> out;
    const auto add = [&out](std::string_view field, std::string text) {
        if (!text.empty()) out.push_back({field, std::move(text)});
    };
    const auto add_printed = [&add](std::string_view field, const auto& printed) {
        if (printed) add(field, printed->text);
    };
    const bool weighed = movement.kind == MovementKind::weighed;
    add("id", movement.skein);
    if (movement.described) {
        const stash::Skein& skein = *movement.described;
        add("yarn", skein.yarn.name);
        add("colourway", skein.colourway);
        add("dye_lot", skein.dye_lot.value_or(""));
        add("shade_group", skein.shade_group.value_or(""));
        if (skein.yarn.weight) add("class", std::to_string(skein.yarn.weight->number));
        add("fibre", fibre_text(skein.yarn.fibre));
        add_printed("label_length", skein.yarn.label.length);
        add_printed("label_mass", skein.yarn.label.mass);
        add_printed("colour_repeat", skein.yarn.colour_repeat);
        add("state", skein.part ? "part" : "whole");
    }
    if (weighed && movement.amount) add("weighed", stash::text(*movement.amount));
    add_printed("scale", movement.scale);
    add_printed("tare", movement.tare);
    if (movement.described && movement.described->knots > 0)
        add("knots", std::to_string(movement.described->knots));
    add("note", movement.described ? movement.described->note : movement.note);
    add("movement", std::string(word(movement.kind)));
    if (movement.day) add("date", base::to_text(*movement.day));
    if (!weighed && movement.amount) add("amount", stash::text(*movement.amount));
    add("other", movement.other);
    add("purpose", movement.purpose);
    add("role", movement.role);
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
            return std::find(field_names.begin(), field_names.end(), written.field);
        };
        std::sort(rows.back().begin(), rows.back().end(),
                  [&](const Written& a, const Written& b) { return place(a) < place(b); });
        ++i;
    }
    return rows;
}

}  // namespace skeinfall::exchange
