#include "stash_options.hpp"

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <istream>
#include <ostream>

#include "skeinfall/base/name.hpp"
#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/make_words.hpp"
#include "skeinfall/exchange/yarn_words.hpp"
#include "skeinfall/project/column_words.hpp"
#include "skeinfall/store/location.hpp"
#include "skeinfall/yarn/label_text.hpp"
#include "skeinfall/yarn/put_up.hpp"

#include "odd_figures.hpp"
#include "options.hpp"

namespace skeinfall::cli {
namespace {

struct FieldOption {
    std::string_view field;
    std::string option;
};

/// Of a field's own option: its name, but for what the trade says more shortly.
std::string option_of(const stash::Field& field) {
    if (field.name == "dye_lot") return "lot";
    std::string out(field.name);
    std::replace(out.begin(), out.end(), '_', '-');
    return out;
}

const std::vector<FieldOption>& field_options() {
    static const std::vector<FieldOption> all = [] {
        std::vector<FieldOption> out{{"id", "id"}};
        for (const stash::Field& field : stash::fields())
            if (!field.value_name.empty()) out.push_back({field.name, option_of(field)});
        for (const char* const field : {"weighed", "scale", "tare"}) out.push_back({field, field});
        return out;
    }();
    return all;
}

/// How a mistake in a field names where it stands.
std::string place_of(std::string_view field) {
    for (const FieldOption& known : field_options())
        if (known.field == field) return "--" + known.option;
    if (field == "label_length" || field == "label_mass") return "--label";
    return std::string(field);
}

}  // namespace

std::vector<Option> describing_options() {
    std::vector<Option> out{
        {"label", "TEXT", "length and weight as printed, such as \"170 yd / 3.5 oz\"", false}};
    for (const stash::Field& field : stash::fields()) {
        if (field.name == "state") out.push_back({"part", "", "a part skein", false});
        if (field.name != "yarn" && !field.value_name.empty())
            out.push_back(
                {option_of(field), std::string(field.value_name), std::string(field.hint), false});
    }
    return out;
}

std::string option_of_field(std::string_view field) {
    const std::string place = place_of(field);
    return place.starts_with("--") ? place.substr(2) : place;
}

Option note_option() {
    return {"note", "TEXT", "anything else", false};
}

Option date_option() {
    return {"date", "DAY", "when it happened, such as 2024-05-31 (default: today)", false};
}

Option scale_option() {
    return {"scale", "MASS", "the smallest step your scale shows, with a weight", false};
}

OptionFields::OptionFields(const Values& values) {
    for (const FieldOption& known : field_options())
        if (const auto text = values.one(known.option))
            set(known.field, known.field == "fibre"   ? exchange::fibre_as_said(*text)
                             : known.field == "class" ? exchange::class_as_said(*text)
                                                      : *text);
    if (has("weighed") && !has("scale"))
        if (const auto step = scale_text(values)) set("scale", *step);
    if (values.given("part")) set("state", "part");
    if (const auto label = values.one("label"); label && !base::trimmed(*label).empty())
        set_label(*label);
}

void OptionFields::set(std::string_view field, const std::string& text) {
    // A lot that nobody knows is none.
    const bool unknown = (field == "dye_lot" || field == "shade_group") &&
                         project::cell_word(text) == project::CellWord::unknown;
    texts_[std::string(field)] = unknown ? std::string() : std::string(base::trimmed(text));
}

void OptionFields::set_label(const std::string& text) {
    const std::string plain = exchange::plain_signs(text);
    auto printed = yarn::parse_put_up(plain);
    if (!printed) printed = yarn::parse_printed_amount(plain);
    const auto refuse_impossible = [](const yarn::Label& label) {
        if (auto problem = impossible_label(label)) {
            problem->place.file = "--label";
            throw base::InputError(*std::move(problem));
        }
    };
    if (printed) {
        refuse_impossible(printed->label);
        if (printed->label.length) set("label_length", printed->label.length->text);
        if (printed->label.mass) set("label_mass", printed->label.mass->text);
        return;
    }
    if (exchange::prints_much(text)) {
        base::Problem problem = printed.problem();
        problem.place.file = "--label";
        throw base::InputError(std::move(problem));
    }
    static_cast<void>(read_option("label", text, units::parse_grist));
    const yarn::Label label = yarn::put_up_in(text);
    if (!label.length)
        refuse_option("label", base::quoted(text) + " does not say what one skein holds",
                      "length and mass of one skein", "Write it like \"170 yd / 3.5 oz\".");
    refuse_impossible(label);
    set("label_length", label.length->text);
    set("label_mass", label.mass->text);
}

std::string_view OptionFields::value(std::string_view field) const {
    const auto found = texts_.find(field);
    return found == texts_.end() ? std::string_view() : std::string_view(found->second);
}

void OptionFields::fail(std::string_view field, std::size_t at, std::string what,
                        std::string expected, std::string remedy) {
    static_cast<void>(at);  // an option is short
    const auto named = places_.find(field);
    mistakes_.emplace_back(
        field, base::Problem{std::move(what),
                             {.file = named == places_.end() ? place_of(field) : named->second,
                              .line = 0,
                              .column = 0},
                             std::move(expected),
                             std::move(remedy)});
}

std::vector<stash::Movement> OptionFields::movements() {
    mistakes_.clear();
    auto out = exchange::read_movements(*this);
    base::Problems problems;
    for (auto& [field, problem] : mistakes_) problems.push_back(std::move(problem));
    if (!problems.empty()) throw base::InputError(std::move(problems));
    return out;
}

std::optional<base::Problem> OptionFields::mistake_in(std::string_view field) {
    mistakes_.clear();
    static_cast<void>(exchange::read_movements(*this));
    for (auto& [of, problem] : mistakes_)
        if (of == field) return std::move(problem);
    return std::nullopt;
}

base::Day day_of(const Values& values, const World& world) {
    const auto text = values.one("date");
    if (!text) return world.today;
    const base::Day day = read_option("date", *text, base::parse_day);
    if (is_to_come(day, world))
        refuse_option("date", base::quoted(*text) + " is still to come",
                      "today, " + base::to_text(world.today) + ", or a day before it", "");
    return day;
}

/// The same command was kept before, and nobody could read so: it is not entered twice unasked.
void ask_whether_again(store::Store& store, const Values& values, const World& world) {
    const auto before = store.unanswered(world.command_line);
    if (!before) return;
    constexpr std::size_t most_ids = 3;
    std::string what = "this was entered already on " + base::to_text(before->noted);
    std::vector<std::string> ids = before->skeins;
    if (ids.size() > most_ids) ids.resize(most_ids);
    if (!ids.empty())
        what += " (" + base::shown_inert(base::join(ids, ", ")) +
                (before->skeins.size() > ids.size() ? ", ..." : "") + ")";
    what += "; only its answer could not be printed";
    if (!values.given("again")) {
        const std::string look = ids.empty() ? std::string()
                                             : "\"skeinfall stash history " +
                                                   base::shown_inert(ids.front()) + "\" shows it. ";
        if (world.in == nullptr)
            throw base::InputError(base::Problem{
                what, {}, "something new", look + "Add --again to enter it a second time."});
        std::string answer;
        *world.err << what << ".\nEnter it a second time (yes or no)? " << std::flush;
        std::getline(*world.in, answer);
        if (!base::same_word(base::trimmed(answer), "yes")) {
            store.forget_unanswered(world.command_line);
            throw base::InputError(
                base::Problem{"nothing was entered now", {}, "", look + "It counts once."});
        }
    }
    store.forget_unanswered(world.command_line);
}

store::Store stash_to_change(const Values& values, const World& world) {
    store::Waiting waiting;
    waiting.tell = [&world, most = waiting.at_most] {
        *world.err << "note: another program is writing to the stash; this one waits for it, at "
                      "most "
                   << most.count() / 1000 << " s\n";
    };
    store::Store store =
        store::Store::open(stash_path(values, world), store::Access::write, std::move(waiting));
    if (const auto& upgrade = store.upgrade())
        *world.err << "the stash had layout " << upgrade->from << " and has layout " << upgrade->to
                   << " now; as it was it lies in " << base::shown_inert(upgrade->copy.string())
                   << "\n";
    ask_whether_again(store, values, world);
    return store;
}

bool begins_second_stash(const Values& values, const World& world) {
    namespace fs = std::filesystem;
    std::error_code none;
    const fs::path path = stash_path(values, world);
    if (fs::exists(path, none)) return false;
    const bool named = values.given("stash") || (world.stash && !world.stash->empty());
    if (!named) return false;
    if (path.has_parent_path() && !fs::exists(path.parent_path(), none)) return true;
    if (world.home && fs::exists(store::default_path({world.xdg_data_home, world.home}), none))
        return true;
    return values.given("stash") && world.stash && !world.stash->empty() &&
           fs::exists(*world.stash, none);
}

void note_new_stash(const Values& values, const World& world) {
    *world.err << "note: a new stash was begun in "
               << base::shown_inert(stash_path(values, world).string()) << "\n";
}

store::Store stash_to_read(const Values& values, const World& world) {
    store::Store store = store::Store::open(stash_path(values, world), store::Access::read);
    constexpr std::chrono::days checked_every{31};
    const auto since = store.not_checked_whole_since();
    if (since && std::chrono::sys_days(world.today) - std::chrono::sys_days(*since) > checked_every)
        *world.err << "note: this stash was not checked whole since " << base::to_text(*since)
                   << ": run \"skeinfall stash verify\"\n";
    return store;
}

std::string no_such_skein(const std::string& id, const std::vector<stash::Skein>& skeins) {
    constexpr std::size_t most_ids = 5;
    std::string out = "no skein has the id \"" + base::shown_inert(id) + "\"; ";
    std::vector<std::string> ids;
    std::vector<std::string> called;
    std::string name;
    const std::string part = base::name_key(id);
    for (const stash::Skein& skein : skeins) {
        ids.push_back(skein.id);
        if (part.empty() || base::name_key(skein.yarn.name).find(part) == std::string::npos)
            continue;
        if (name.empty()) name = skein.yarn.name;
        if (skein.yarn.name == name) called.push_back(base::shown_inert(skein.id));
    }
    if (const auto near = base::nearest_name(id, ids))
        return out + "did you mean \"" + base::shown_inert(*near) + "\"?\n";
    if (called.empty()) return out + "\"skeinfall stash list\" shows the ids\n";
    const bool one = called.size() == 1;
    if (called.size() > most_ids) {
        called.resize(most_ids);
        called.emplace_back("...");
    }
    return out + base::join(called, ", ") + (one ? " is " : " are ") + base::shown_inert(name) +
           "\n";
}

std::string argument(const Values& values, std::size_t index, const std::string& what,
                     const std::string& remedy) {
    const auto all = values.all(positional);
    if (index < all.size()) return all[index];
    throw base::InputError(base::Problem{what, {}, "", remedy});
}

}  // namespace skeinfall::cli
