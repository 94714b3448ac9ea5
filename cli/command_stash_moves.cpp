#include <algorithm>
#include <limits>
#include <ostream>

#include <fmt/format.h>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/make_words.hpp"
#include "skeinfall/measure/few_readings.hpp"
#include "skeinfall/report/stash_text.hpp"
#include "skeinfall/units/parse.hpp"

#include "commands.hpp"
#include "exit_code.hpp"
#include "odd_figures.hpp"
#include "options.hpp"
#include "stash_options.hpp"

namespace skeinfall::cli {
namespace {

using stash::MovementKind;

constexpr const char* shows_ids = "\"skeinfall stash list\" shows the ids.";

/// Several weighings of one skein as one: their mean, with a step as wide as they lie apart.
void take_mean(OptionFields& fields, const std::vector<std::string>& texts) {
    std::vector<measure::ScaleReading> readings;
    auto least = units::Mass(std::numeric_limits<double>::infinity() * units::gram);
    units::Mass most{};
    const auto step = read_option("scale", std::string(fields.value("scale")), units::parse_mass);
    for (const std::string& text : texts) {
        const auto mass = units::parse_mass(text);
        if (!mass)
            throw base::InputError(base::Problem{base::quoted(text) + " is no reading",
                                                 {},
                                                 "what the scale shows, such as \"62 g\"",
                                                 "A reading with a blank in it stands in quotes."});
        readings.push_back({*mass, step, std::nullopt});
        least = std::min(least, *mass);
        most = std::max(most, *mass);
    }
    fields.set("weighed",
               fmt::format("{:.4g} g", measure::mean_mass(readings).estimate.centre / units::gram));
    if (most - least > step)
        fields.set("scale", fmt::format("{:.4g} g", (most - least) / units::gram));
    const std::string note(fields.value("note"));
    fields.set("note", "mean of " + base::join(texts, ", ") + (note.empty() ? "" : "; " + note));
}

/// A reading of nothing is no weighing: the skein is used up.
void refuse_nothing_weighed(const Values& values) {
    const auto all = values.all(positional);
    for (std::size_t at = 1; at < all.size(); ++at) {
        const std::string number = all[at].substr(0, all[at].find_first_not_of("0.,"));
        if (number.empty() || number.front() != '0' || !units::parse_mass("1" + all[at])) continue;
        throw base::InputError(
            base::Problem{base::quoted(all[at]) + " leaves no yarn",
                          {},
                          "\"skeinfall stash use " + base::shown_inert(all.front()) +
                              "\", where all of it is used",
                          "Where a core is left on the scale, give it with --tare."});
    }
}

/// The one movement that the arguments and options tell.
stash::Movement movement_of(const Values& values, const World& world, MovementKind kind,
                            const std::string& purpose_option) {
    OptionFields fields(values);
    fields.set("movement", std::string(word(kind)));
    fields.set("id", argument(values, 0, "which skein? None is named", shows_ids));
    const auto all = values.all(positional);
    if (all.size() > 1) fields.set(kind == MovementKind::weighed ? "weighed" : "amount", all[1]);
    // A scale shows its step.
    if (all.size() > 1 && !fields.has("scale") && units::parse_mass(all[1]))
        fields.set("scale",
                   scale_text(values) ? *scale_text(values) : step_taken(all[1], *world.err));
    if (kind == MovementKind::weighed && all.size() > 2 && fields.has("scale"))
        take_mean(fields, {all.begin() + 1, all.end()});
    // The command decides on the other end after the rest has been read.
    if (kind == MovementKind::wound_off)
        fields.set("other", values.one("as").value_or("not-yet-named"));
    if (!purpose_option.empty()) fields.set("purpose", values.one(purpose_option).value_or(""));
    stash::Movement movement = fields.movements().front();
    movement.day = day_of(values, world);
    return movement;
}

void say_what_is_left(const store::Store& store, const std::string& id, const World& world) {
    if (const auto skein = store.skein(id))
        *world.out << report::left_text(*skein) << "\n";
    else
        *world.out << base::shown_inert(id) << ": nothing left\n";
}

int record(const Values& values, const World& world, const stash::Movement& movement) {
    store::Store store = stash_to_change(values, world);
    static_cast<void>(store.record({movement}, world.today));
    say_what_is_left(store, movement.skein, world);
    return done;
}

/// A skein only grows by yarn that came back to it.
void note_growth(const stash::Skein& before, const stash::Skein& now, std::ostream& err) {
    if (!before.weighing && !before.since) return;
    const auto was = stash::supply_of(before);
    const auto is = stash::supply_of(now);
    if (!was || !is || is->length - was->length <= 3.0 * measure::in_quadrature(was->own, is->own))
        return;
    err << "note: " << base::shown_inert(now.id) << " holds "
        << report::yards_and_metres(is->length - was->length, units::Rounding::nearest)
        << " more than your records had left of it. Is this the skein on the scale? Its history: "
           "skeinfall stash history "
        << base::shown_inert(now.id) << "\n";
}

/// What is put right of one skein.
stash::Movement correction_of(const Values& values, const World& world, const store::Store& store,
                              const std::string& id) {
    const auto held = store.skein(id);
    OptionFields fields;
    if (held) {
        stash::Movement now;
        now.kind = MovementKind::corrected;
        now.skein = id;
        now.described = *held;
        // The state it was described with; being begun since is told by its movements.
        for (const stash::Event& event : store.history(id))
            if (!event.undone && event.movement.described)
                now.described->part = event.movement.described->part;
        for (const auto& [field, text] : exchange::fields_of(now)) fields.set(field, text);
    } else {
        fields.set("id", id);
        fields.set("movement", "corrected");
        fields.set("yarn", "unknown");
    }
    const OptionFields given(values);
    bool any = false;
    for (const std::string& field : exchange::field_names()) {
        if (!given.has(field)) continue;
        fields.set(field, std::string(given.value(field)));
        any = true;
    }
    // Another label, of which one figure is not known.
    if (values.given("label"))
        for (const char* field : {"label_length", "label_mass"})
            if (!given.has(field)) fields.set(field, "");
    if (values.one("label") == "") {
        fields.set("label_length", "");
        fields.set("label_mass", "");
        any = true;
    }
    if (values.given("whole")) {
        fields.set("state", "whole");
        any = true;
    }
    if (!any)
        throw base::InputError(base::Problem{"nothing is named to correct",
                                             {},
                                             "an option such as --lot",
                                             "\"skeinfall help stash correct\" lists them."});
    stash::Movement movement = fields.movements().front();
    movement.day = day_of(values, world);
    return movement;
}

}  // namespace

Command stash_weigh_command() {
    Command command;
    command.name = "stash weigh";
    command.arguments = "ID READING...";
    command.summary = "record what a skein weighs";
    command.purpose =
        "From then on the skein counts from this weight, less what is used later.\nOf several "
        "readings of the same skein the mean is kept; where they lie apart by more than\nthe "
        "scale's step, that is kept as its step.";
    command.options = {{"scale", "MASS", "the scale's step; else the one in your settings", false},
                       {"tare", "MASS", "cone or bag on the scale too", false},
                       note_option(),
                       date_option(),
                       stash_option()};
    command.examples = {
        {"skeinfall stash weigh s1 \"62 g\" --scale \"1 g\"", "a skein on a kitchen scale"},
        {"skeinfall stash weigh mc-01 \"371 g\" --scale \"1 g\" --tare \"42 g\"",
         "a cone with its core"},
        {"skeinfall stash weigh s1 \"62 g\" \"61 g\" \"62 g\" --scale \"1 g\"",
         "weighed three times"}};
    command.most_arguments = 12;
    command.no.clear();
    command.keeps = true;
    command.run = [](const Values& values, const World& world) -> int {
        refuse_nothing_weighed(values);
        stash::Movement movement = movement_of(values, world, MovementKind::weighed, "");
        store::Store store = stash_to_change(values, world);
        if (auto skein = store.skein(movement.skein)) {
            const stash::Skein before = *skein;
            skein->weighing =
                measure::Weighing{std::get<units::Printed<units::Mass>>(*movement.amount),
                                  *movement.scale, movement.tare};
            skein->since.reset();
            if (const auto faults = stash::faults(*skein); !faults.empty())
                throw base::InputError(base::Problem{base::join(faults, "; "),
                                                     {},
                                                     "a reading that fits the skein",
                                                     "Weigh it again, or correct its label."});
            note_odd_figures({*skein}, *world.err);
            note_growth(before, *skein, *world.err);
        }
        static_cast<void>(store.record({movement}, world.today));
        say_what_is_left(store, movement.skein, world);
        return done;
    };
    return command;
}

Command stash_use_command() {
    Command command;
    command.name = "stash use";
    command.arguments = "ID [AMOUNT]";
    command.summary = "record yarn used";
    command.purpose = "The amount is a mass or a length; without one all that was left is used.";
    command.options = {{"in", "NAME", "what was made", false},
                       scale_option(),
                       note_option(),
                       date_option(),
                       stash_option()};
    command.examples = {
        {"skeinfall stash use s1 \"20 g\" --scale \"1 g\" --in \"Lantern cowl\"",
         "some of it, weighed"},
        {"skeinfall stash use s1 --in \"Lantern cowl\"", "all that was left of it"}};
    command.most_arguments = 2;
    command.no.clear();
    command.keeps = true;
    command.run = [](const Values& values, const World& world) -> int {
        return record(values, world, movement_of(values, world, MovementKind::used_in, "in"));
    };
    return command;
}

Command stash_give_command() {
    Command command;
    command.name = "stash give";
    command.arguments = "ID [AMOUNT]";
    command.summary = "record a skein, or part of it, given away";
    command.purpose = "The amount is a mass or a length; without one all that was left is given.";
    command.options = {{"to", "NAME", "who has it now", false},
                       scale_option(),
                       note_option(),
                       date_option(),
                       stash_option()};
    command.examples = {{"skeinfall stash give s2 --to Maud", "a whole skein"},
                        {"skeinfall stash give s2 \"10 m\" --to Maud", "some of it"}};
    command.most_arguments = 2;
    command.no.clear();
    command.keeps = true;
    command.run = [](const Values& values, const World& world) -> int {
        return record(values, world, movement_of(values, world, MovementKind::given, "to"));
    };
    return command;
}

Command stash_rip_back_command() {
    Command command;
    command.name = "stash rip-back";
    command.arguments = "ID AMOUNT";
    command.summary = "put yarn back that was used";
    command.purpose = "Puts yarn back after you ripped out work.";
    command.options = {{"from", "NAME", "what was undone", false},
                       scale_option(),
                       note_option(),
                       date_option(),
                       stash_option()};
    command.examples = {
        {"skeinfall stash rip-back s1 \"12 g\" --scale \"1 g\" --from \"Lantern cowl\"",
         "some rows of a cowl"},
        {"skeinfall stash rip-back s1 \"30 yd\"", "measured instead of weighed"}};
    command.most_arguments = 2;
    command.no.clear();
    command.keeps = true;
    command.run = [](const Values& values, const World& world) -> int {
        return record(values, world, movement_of(values, world, MovementKind::ripped_back, "from"));
    };
    return command;
}

Command stash_wind_off_command() {
    Command command;
    command.name = "stash wind-off";
    command.arguments = "ID AMOUNT";
    command.summary = "wind some off as a skein of its own";
    command.purpose = "The new skein has the description of the old one and holds the amount.";
    command.options = {{"as", "ID", "id of the new skein; else one is given", false},
                       scale_option(),
                       note_option(),
                       date_option(),
                       stash_option()};
    command.examples = {{"skeinfall stash wind-off s1 \"25 g\" --scale \"1 g\"", "a quarter of it"},
                        {"skeinfall stash wind-off s1 \"40 yd\" --as sleeve", "by length"}};
    command.most_arguments = 2;
    command.no.clear();
    command.keeps = true;
    command.run = [](const Values& values, const World& world) -> int {
        stash::Movement movement = movement_of(values, world, MovementKind::wound_off, "");
        if (!values.given("as")) movement.other.clear();
        store::Store store = stash_to_change(values, world);
        const std::string id = store.wind_off(movement, world.today);
        say_what_is_left(store, movement.skein, world);
        say_what_is_left(store, id, world);
        return done;
    };
    return command;
}

Command stash_correct_command() {
    Command command;
    command.name = "stash correct";
    command.arguments = "ID...";
    command.most_arguments = 200;
    command.summary = "correct a skein's details";
    command.purpose =
        "Only what is given changes; an empty text means \"not known\". What stood there before\n"
        "stays in the history.";
    command.options = {{"yarn", "NAME", "the yarn's name", false}};
    for (const Option& option : describing_options()) command.options.push_back(option);
    command.options.insert(
        command.options.end(),
        {{"whole", "", "not a part skein", false}, date_option(), stash_option()});
    command.examples = {{"skeinfall stash correct s1 --lot 4471", "a lot that was misread"},
                        {"skeinfall stash correct s1 s2 --lot 4471", "two of one lot"},
                        {"skeinfall stash correct s1 --shade-group \"\"", "no shade group"}};
    command.no.clear();
    command.keeps = true;
    command.run = [](const Values& values, const World& world) -> int {
        static_cast<void>(argument(values, 0, "which skein? None is named", shows_ids));
        store::Store store = stash_to_change(values, world);
        std::vector<stash::Movement> movements;
        for (const std::string& id : values.all(positional))
            movements.push_back(correction_of(values, world, store, id));
        static_cast<void>(store.record(movements, world.today));
        for (const stash::Movement& movement : movements)
            *world.out << report::movement_text(movement) << "\n";
        return done;
    };
    return command;
}

Command stash_history_command() {
    Command command;
    command.name = "stash history";
    command.arguments = "ID";
    command.summary = "what happened to a skein";
    command.purpose = "Everything that was ever entered for it, in order, and what is left.";
    command.options = {stash_option()};
    command.examples = {
        {"skeinfall stash history s1", "one skein"},
        {"skeinfall stash history gw-03 --stash mine.skeinfall", "of a stash file of that name"}};
    command.run = [](const Values& values, const World& world) -> int {
        const std::string id = argument(values, 0, "which skein? None is named", shows_ids);
        const auto store = stash_to_read(values, world);
        const auto events = store.history(id);
        if (events.empty()) {
            const auto near = base::nearest_name(id, store.ids());
            *world.err << "no skein \"" << base::shown_inert(id) << "\" in this stash"
                       << (near ? "; did you mean \"" + *near + "\"?" : "") << "\n";
            return not_so;
        }
        *world.out << report::history_text(events) << "\n";
        say_what_is_left(store, id, world);
        return done;
    };
    return command;
}

Command stash_undo_command() {
    Command command;
    command.name = "stash undo";
    command.summary = "undo the last entry";
    command.purpose =
        "Undoes what the last command entered that was not undone yet: a movement, an addition, a\n"
        "reading of work, a whole import. It stays in the history, marked as undone.";
    command.options = {stash_option()};
    command.examples = {
        {"skeinfall stash undo", "the last entry"},
        {"skeinfall stash undo --stash mine.skeinfall", "of a stash file of that name"}};
    command.no.clear();
    command.keeps = true;
    command.run = [](const Values& values, const World& world) -> int {
        constexpr std::size_t shown = 10;
        const auto undone = stash_to_change(values, world).undo(world.today);
        std::vector<std::string> lines;
        for (const stash::Movement& movement : undone.movements)
            lines.push_back(report::movement_text(movement));
        for (const stash::WorkReading& reading : undone.readings)
            lines.push_back("reading of " + base::shown_inert(reading.project) + ", " +
                            report::reading_text(reading));
        for (std::size_t i = 0; i < lines.size() && i < shown; ++i)
            *world.out << "undone: " << lines[i] << "\n";
        if (lines.size() > shown)
            *world.out << "undone: " << lines.size() - shown << " more of the same entry\n";
        return done;
    };
    return command;
}

}  // namespace skeinfall::cli
