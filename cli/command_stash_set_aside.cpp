#include <algorithm>
#include <ostream>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/cover/cover.hpp"
#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/report/stash_text.hpp"
#include "skeinfall/stash/reserve.hpp"
#include "skeinfall/units/format.hpp"

#include "commands.hpp"
#include "exit_code.hpp"
#include "planning.hpp"
#include "stash_options.hpp"

namespace skeinfall::cli {
namespace {

using stash::Movement;
using stash::MovementKind;
using stash::Skein;

bool promised_to(const Skein& skein, const std::string& project) {
    return std::any_of(skein.set_aside.begin(), skein.set_aside.end(), [&](const auto& promise) {
        return base::same_word(promise.project, project);
    });
}

/// Promises that options name skein by skein.
std::vector<Movement> named(const Values& values, const World& world,
                            const project::Project& project) {
    const std::string role = values.one("yarn").value_or("");
    if (!role.empty() && project.role(role) == nullptr) {
        std::vector<std::string> ids;
        for (const project::Role& known : project.roles) ids.push_back(known.id);
        refuse_option("yarn", "the project has no yarn " + base::quoted(role),
                      "one of " + base::join(ids, ", "), "");
    }
    std::vector<Movement> out;
    for (const std::string& id : values.all("skein")) {
        OptionFields fields;
        fields.set("movement", "set aside");
        fields.set("id", id);
        fields.set("purpose", project.title);
        fields.set("role", role);
        for (const char* option : {"amount", "scale", "note"})
            fields.set(option, values.one(option).value_or(""));
        out.push_back(fields.movements().front());
        out.back().day = day_of(values, world);
    }
    return out;
}

struct Chosen {
    std::vector<Movement> promises;
    std::vector<Skein> seen;  ///< the skeins as they were when they were chosen
};

/// The skeins that cover chooses, whole; nothing, with a message, when they are not enough.
std::optional<Chosen> chosen(const Values& values, const World& world, Read& read,
                             const store::Store& store) {
    const project::Project& project = read.project;
    const std::vector<Skein> stash = store.skeins();
    const std::vector<Skein> found = stash_in_work(store, {&read});
    const cover::MakeCover cover = cover::cover_make(project, read.need, found, read.rules);
    const bool covered = cover.verdict == cover::Verdict::covered;
    if (!covered && !values.given("anyway")) {
        *world.err << cover::name_of(cover.verdict) << ": nothing was set aside for "
                   << base::shown_inert(project.title) << "\n";
        for (const cover::RoleCover& role : cover.roles)
            if (role.verdict != cover::Verdict::covered)
                *world.err << "    yarn " << role.role.id << ": " << cover::name_of(role.verdict)
                           << "\n";
        *world.err << "    \"skeinfall cover\" says what would help; --anyway sets aside what "
                      "there is.\n";
        return std::nullopt;
    }
    Chosen out;
    for (const cover::RoleCover& role : cover.roles)
        for (const Skein& skein : role.chosen) {
            Movement movement;
            movement.kind = MovementKind::set_aside;
            movement.skein = skein.id;
            movement.day = day_of(values, world);
            movement.purpose = project.title;
            movement.role = role.role.id;
            movement.note = values.one("note").value_or("");
            const auto& whole = *std::find_if(stash.begin(), stash.end(),
                                              [&](const Skein& s) { return s.id == skein.id; });
            // Of a skein that is shared with another project, what is free.
            if (!whole.set_aside.empty()) {
                const auto free = stash::supply_of(skein);
                const std::string text =
                    free ? units::yarn_text(free->length, units::Step::tenth, units::Rounding::down)
                         : "";
                movement.amount = units::Printed<units::Length>{
                    text, read_option("amount", text, units::parse_length)};
            }
            out.seen.push_back(whole);
            out.promises.push_back(std::move(movement));
        }
    if (!covered && !out.promises.empty())
        *world.err << "note: " << cover::name_of(cover.verdict)
                   << "; what there is was set aside\n";
    return out;
}

int run_set_aside(const Values& values, const World& world) {
    const bool by_hand = values.given("skein");
    for (const char* option : {"amount", "scale", "yarn"})
        if (values.given(option) && !by_hand)
            refuse_option(option, "it goes with --skein only", "a skein it is about",
                          "Without --skein whole skeins are chosen as \"skeinfall cover\" does.");
    Read read =
        by_hand ? Read{project_of(values, world), 0, {}, {}, true} : read_asked(values, world);
    const project::Project& project = read.project;
    store::Store store = stash_to_change(values, world);
    Chosen what;
    if (by_hand) {
        what.promises = named(values, world, project);
    } else {
        std::vector<std::string> already;
        for (const Skein& skein : store.skeins())
            if (promised_to(skein, project.title)) already.push_back(base::shown_inert(skein.id));
        if (!already.empty()) {
            *world.err << "set aside for " << base::shown_inert(project.title)
                       << " already: " << base::join(already, ", ")
                       << "; nothing was changed\n    To choose again, release them first with "
                          "\"skeinfall stash release "
                       << base::shown_inert(values.one(positional).value_or("")) << "\".\n";
            return not_so;
        }
        auto found = chosen(values, world, read, store);
        if (!found) return not_so;
        what = std::move(*found);
    }
    if (what.promises.empty()) {
        *world.err << "nothing was set aside: no skein in the stash would do for "
                   << base::shown_inert(project.title) << "\n";
        return not_so;
    }
    store.set_aside(what.promises, what.seen, world.today);
    for (const Movement& movement : what.promises)
        *world.out << report::movement_text(movement) << "\n";
    return done;
}

/// The title that the argument means: of a project file, or as it stands.
std::optional<std::string> title_in(const Values& values) {
    auto text = values.one(positional);
    if (!text || !text->ends_with(".toml")) return text;
    return exchange::read_project(*text).title;
}

/// Whether the name is a skein's and no project's.
bool names_a_skein(const std::string& name, const std::vector<Skein>& skeins) {
    bool skein = false;
    for (const Skein& one : skeins) {
        skein = skein || one.id == name;
        for (const stash::Promise& promise : one.set_aside)
            if (base::same_word(promise.project, name)) return false;
    }
    return skein;
}

int run_release(const Values& values, const World& world) {
    auto title = title_in(values);
    std::vector<std::string> ids = values.all("skein");
    if (!title && ids.empty())
        throw base::InputError(base::Problem{"neither a project nor a skein is named",
                                             {},
                                             "one of them",
                                             "Write \"skeinfall stash release cowl.toml\" or "
                                             "\"skeinfall stash release s1\"."});
    store::Store store = stash_to_change(values, world);
    const std::vector<Skein> skeins = store.skeins();
    if (title && ids.empty() && names_a_skein(*title, skeins)) {
        ids = {*title};
        title.reset();
    }
    std::vector<Movement> releases;
    std::vector<std::string> titles;
    for (const Skein& skein : skeins) {
        if (!ids.empty() && std::find(ids.begin(), ids.end(), skein.id) == ids.end()) continue;
        for (const stash::Promise& promise : skein.set_aside) {
            titles.push_back(promise.project);
            if (title && !base::same_word(promise.project, *title)) continue;
            Movement movement;
            movement.kind = MovementKind::released;
            movement.skein = skein.id;
            movement.day = day_of(values, world);
            movement.purpose = promise.project;
            movement.note = values.one("note").value_or("");
            releases.push_back(std::move(movement));
        }
    }
    if (releases.empty()) {
        const auto near = title ? base::nearest_name(*title, titles) : std::nullopt;
        *world.err << "nothing is set aside" << (title ? " for " + base::shown_inert(*title) : "")
                   << (ids.empty() ? "" : " of " + base::shown_inert(base::join(ids, ", ")))
                   << (near ? "; did you mean \"" + base::shown_inert(*near) + "\"?" : "")
                   << "\n    \"skeinfall stash list --set-aside\" shows what is.\n";
        return not_so;
    }
    static_cast<void>(store.record(releases, world.today));
    for (const Movement& movement : releases) *world.out << report::movement_text(movement) << "\n";
    return done;
}

}  // namespace

Command stash_set_aside_command() {
    Command command;
    command.name = "stash set-aside";
    command.arguments = "PROJECT.toml";
    command.summary = "set skeins aside for a project";
    command.purpose =
        "Chooses skeins as \"skeinfall cover\" does and keeps them for the project: no other\n"
        "project finds them, and they cannot be used in anything else until they are released.\n"
        "If they do not cover the project, none is set aside. With --skein you choose.";
    command.options = {{"anyway", "", "also when that does not cover the project", false},
                       {"skein", "ID", "this skein instead of those that cover chooses", true},
                       {"amount", "AMOUNT", "with --skein: only this much of it", false},
                       {"scale", "MASS", "with --amount: the scale's step, with a mass", false},
                       {"yarn", "NAME", "with --skein: which yarn of the project it is for", false},
                       margin_option(),
                       prefer_option(),
                       confidence_option(),
                       size_option(),
                       note_option(),
                       date_option(),
                       stash_option()};
    command.examples = {{"skeinfall stash set-aside sample_stash/projects/lantern-cowl.toml",
                         "what the cowl takes"},
                        {"skeinfall stash set-aside sample_stash/projects/lantern-cowl.toml "
                         "--skein gw-03 --amount \"60 m\"",
                         "some of a skein of your choice"}};
    command.keeps = true;
    command.run = run_set_aside;
    return command;
}

Command stash_release_command() {
    Command command;
    command.name = "stash release";
    command.no = "nothing is set aside for it";
    command.arguments = "[PROJECT]";
    command.summary = "release skeins set aside";
    command.purpose =
        "The project is its file, or its title in quotes; the id of a skein stands for all\nthat "
        "is set aside of it. With --skein: only what of that skein is set aside for the project.";
    command.options = {{"skein", "ID", "only what is set aside of this skein", true},
                       note_option(),
                       date_option(),
                       stash_option()};
    command.examples = {{"skeinfall stash release sample_stash/projects/lantern-cowl.toml",
                         "all that is kept for the cowl"},
                        {"skeinfall stash release gw-03", "a skein, whatever it is for"}};
    command.keeps = true;
    command.run = run_release;
    return command;
}

}  // namespace skeinfall::cli
