#include <algorithm>
#include <limits>
#include <ostream>

#include <fmt/format.h>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/make_words.hpp"
#include "skeinfall/measure/few_readings.hpp"
#include "skeinfall/measure/readings_apart.hpp"
#include "skeinfall/report/stash_text.hpp"
#include "skeinfall/report/words.hpp"
#include "skeinfall/stash/put_back.hpp"
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
            throw base::InputError(base::Problem{base::quoted(text) + " is not a weight",
                                                 {},
                                                 "what the scale shows, such as \"62 g\"",
                                                 "Put each reading in quotes: \"62 g\" \"61 g\"."});
        readings.push_back({*mass, step, std::nullopt});
        least = std::min(least, *mass);
        most = std::max(most, *mass);
    }
    if (measure::of_different_things(readings))
        throw base::InputError(base::Problem{
            base::join(texts, " and ") + " are too far apart for one skein weighed more than once",
            {},
            "readings within a few grams of each other",
            "Give only the right one."});
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

[[noreturn]] void refuse_no_amount(const std::string& id, MovementKind kind) {
    const bool weighed = kind == MovementKind::weighed;
    const std::string does = weighed                             ? "weigh "
                             : kind == MovementKind::ripped_back ? "rip-back "
                                                                 : "wind-off ";
    throw base::InputError(base::Problem{weighed ? "no weight is given" : "no amount is given",
                                         {},
                                         weighed ? "what the scale shows" : "a weight or a length",
                                         "Write it behind the id: skeinfall stash " + does +
                                             base::shown_inert(id) +
                                             (weighed ? " \"62 g\"" : " \"20 g\"")});
}

/// The one movement that the arguments and options tell. `guess` becomes the step of the scale,
/// where nobody gave one.
stash::Movement movement_of(const Values& values, const World& world, MovementKind kind,
                            const std::string& purpose_option, std::string& guess) {
    OptionFields fields(values);
    fields.set("movement", std::string(word(kind)));
    fields.set("id", argument(values, 0, "which skein? None is named", shows_ids));
    const auto all = values.all(positional);
    const bool weighed = kind == MovementKind::weighed;
    if (all.size() > 1) {
        fields.set(weighed ? "weighed" : "amount", all[1]);
        // It is an argument: no option is to be named.
        fields.name_place(weighed ? "weighed" : "amount", "");
    } else if (weighed || kind == MovementKind::ripped_back || kind == MovementKind::wound_off) {
        refuse_no_amount(all.front(), kind);
    }
    // A scale shows its step.
    if (all.size() > 1 && !fields.has("scale")) {
        if (const auto step = scale_text(values))
            fields.set("scale", units::parse_mass(all[1]) ? *step : "");
        else if (units::parse_mass(all[1]))
            fields.set("scale", guess = exchange::step_of_reading(all[1]));
    }
    if (kind == MovementKind::weighed && all.size() > 2 && fields.has("scale"))
        take_mean(fields, {all.begin() + 1, all.end()});
    // The command decides on the other end after the rest has been read.
    if (kind == MovementKind::wound_off)
        fields.set("other", values.one("as").value_or("not-yet-named"));
    fields.name_place("other", "--as");
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

int record(store::Store& store, const World& world, const stash::Movement& movement,
           const std::string& guess) {
    const auto before = store.skein(movement.skein);
    try {
        static_cast<void>(store.record({movement}, world.today));
    } catch (const base::InputError& error) {
        base::Problem problem = error.problems().front();
        if (!before || !before->set_aside.empty() || !movement.amount ||
            !stash::takes(movement.kind))
            throw;
        problem.what += " (" + report::left_text(*before) + ")";
        throw base::InputError(std::move(problem));
    }
    note_step(guess, *world.err);
    const bool all = stash::takes(movement.kind) && !movement.amount && before;
    if (!all) {
        say_what_is_left(store, movement.skein, world);
        return done;
    }
    // A forgotten amount takes all there is.
    const auto supply = stash::supply_of(*before);
    *world.out << base::shown_inert(movement.skein) << ": nothing left; all of it"
               << (supply ? " (" + report::yards_and_metres(supply->length, units::Rounding::down) +
                                ")"
                          : "")
               << " is recorded as " << (movement.kind == MovementKind::given ? "given" : "used")
               << ". \"skeinfall stash undo\" takes that back.\n";
    return done;
}

/// Yarn that is used or given away.
int record_taken(const Values& values, const World& world, MovementKind kind,
                 const std::string& purpose_option) {
    std::string guess;
    const stash::Movement movement = movement_of(values, world, kind, purpose_option, guess);
    store::Store store = stash_to_change(values, world);
    return record(store, world, movement, guess);
}

/// What comes back was used before.
void refuse_too_much_back(const std::vector<stash::Event>& history,
                          const stash::Movement& movement) {
    const bool used = std::any_of(history.begin(), history.end(), [](const stash::Event& event) {
        return !event.undone && event.movement.kind == MovementKind::used_in;
    });
    const auto too_much = used ? stash::too_much_back(history, movement) : std::nullopt;
    if (!too_much) return;
    const std::string id = base::shown_inert(movement.skein);
    const std::string amount = base::shown_inert(stash::text(*movement.amount));
    const std::string most =
        too_much->used ? report::yards_and_metres(*too_much->used, units::Rounding::nearest)
                       : std::string();
    throw base::InputError(
        base::Problem{(most.empty() ? "all that was used of " + id + " is back already"
                                    : "only " + most + " of " + id + " is recorded as used") +
                          ", so " + amount + " cannot go back",
                      {},
                      most.empty() ? "" : "at most " + most,
                      "If more was used than recorded, weigh the skein: skeinfall stash weigh " +
                          id + " \"62 g\""});
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
        if (values.given("part"))
            refuse_option("whole", "a skein cannot be whole and a part as well", "one of the two",
                          "");
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

/// "lot 4471 (was A17)", for each field that the correction changes; of a skein that is not known
/// what it is described as.
std::vector<std::string> changes_of(const std::vector<stash::Event>& history,
                                    const stash::Movement& correction) {
    std::optional<stash::Skein> before;
    for (const stash::Event& event : history)
        if (!event.undone && event.movement.described) before = event.movement.described;
    std::vector<std::string> out;
    for (const stash::Field& field : stash::fields()) {
        if (before && stash::same(field, *before, *correction.described)) continue;
        const auto shown = [&](const stash::Skein& skein) {
            const std::string text = stash::written(field, skein);
            return text.empty() ? std::string("not known") : base::shown_inert(text);
        };
        std::string name(field.name == "state" ? "" : field.title);
        if (name.starts_with("the ")) name.erase(0, 4);
        out.push_back(name + (name.empty() ? "" : " ") + shown(*correction.described) +
                      (before ? " (was " + shown(*before) + ")" : ""));
    }
    return out;
}

}  // namespace

Command stash_weigh_command() {
    Command command;
    command.name = "stash weigh";
    command.arguments = "ID READING...";
    command.summary = "record what a skein weighs";
    command.purpose =
        "What does the skein weigh now? From then on it counts by this weight, less what you\nuse "
        "later. Of several readings the mean is kept; where they differ by more than the\nscale's "
        "step, the difference is kept as its step.";
    command.options = {
        {"scale", "MASS", "the smallest step your scale shows (default: the one in your settings)",
         false},
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
        std::string guess;
        stash::Movement movement = movement_of(values, world, MovementKind::weighed, "", guess);
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
        note_step(guess, *world.err);
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
    command.purpose = "The amount is a weight or a length; without one all that was left is used.";
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
        return record_taken(values, world, MovementKind::used_in, "in");
    };
    return command;
}

Command stash_give_command() {
    Command command;
    command.name = "stash give";
    command.arguments = "ID [AMOUNT]";
    command.summary = "record yarn you gave away";
    command.purpose = "The amount is a weight or a length; without one all that was left is given.";
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
        return record_taken(values, world, MovementKind::given, "to");
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
        std::string guess;
        const stash::Movement movement =
            movement_of(values, world, MovementKind::ripped_back, "from", guess);
        store::Store store = stash_to_change(values, world);
        refuse_too_much_back(store.history(movement.skein), movement);
        return record(store, world, movement, guess);
    };
    return command;
}

Command stash_wind_off_command() {
    Command command;
    command.name = "stash wind-off";
    command.arguments = "ID AMOUNT";
    command.summary = "wind some off as a skein of its own";
    command.purpose = "What you wind off becomes a skein of its own, described like the first.";
    command.options = {{"as", "ID", "id of the new skein (default: the next one free)", false},
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
        std::string guess;
        stash::Movement movement = movement_of(values, world, MovementKind::wound_off, "", guess);
        if (!values.given("as")) movement.other.clear();
        store::Store store = stash_to_change(values, world);
        const std::string id = store.wind_off(movement, world.today);
        note_step(guess, *world.err);
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
        "Only what you give changes; an empty text means \"not known\". What stood there before\n"
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
        std::vector<std::string> lines;
        for (const std::string& id : values.all(positional)) {
            stash::Movement movement = correction_of(values, world, store, id);
            const auto changes = changes_of(store.history(id), movement);
            lines.push_back(base::shown_inert(id) + ": " +
                            (changes.empty() ? "nothing to change, it is so already"
                                             : base::join(changes, "; ")));
            if (!changes.empty()) movements.push_back(std::move(movement));
        }
        if (!movements.empty()) static_cast<void>(store.record(movements, world.today));
        for (const std::string& line : lines) *world.out << line << "\n";
        return done;
    };
    return command;
}

Command stash_history_command() {
    Command command;
    command.name = "stash history";
    command.no = "there is no such skein";
    command.arguments = "ID";
    command.summary = "what happened to a skein";
    command.purpose = "Everything recorded about it, in order, and what is left.";
    command.options = {stash_option()};
    command.examples = {
        {"skeinfall stash history s1", "one skein"},
        {"skeinfall stash history gw-03 --stash mine.skeinfall", "of a stash file of that name"}};
    command.run = [](const Values& values, const World& world) -> int {
        const std::string id = argument(values, 0, "which skein? None is named", shows_ids);
        const auto store = stash_to_read(values, world);
        const auto events = store.history(id);
        if (events.empty()) {
            *world.err << no_such_skein(id, store.skeins());
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
        "Takes back what the last command recorded: yarn used or weighed, skeins added, a whole\n"
        "import. Again, and it takes back the one before. It stays in the history, marked as "
        "undone.";
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
