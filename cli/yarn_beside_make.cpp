#include <algorithm>
#include <ostream>

#include "skeinfall/base/name.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/colour_words.hpp"
#include "skeinfall/exchange/make_words.hpp"
#include "skeinfall/exchange/yarn_words.hpp"
#include "skeinfall/project/thing_words.hpp"

#include "make_options.hpp"
#include "options.hpp"

// Yarn at hand beside a make: of which of its yarns it is.
namespace skeinfall::cli {

void refuse_have_of_no_yarn(const Values& values,
                            const std::vector<const project::Project*>& projects) {
    for (const std::string& text : values.all("have")) {
        const std::string word = exchange::of_colour(exchange::plain_signs(text)).colour;
        if (word.empty()) continue;
        // Of a make in one yarn whose colour nobody said, it says the colour.
        const bool file = values.given(positional);
        const std::string last = word.substr(word.rfind(' ') + 1);
        if (!file && project::is_colour_word(last) && projects.size() == 1 &&
            projects.front()->roles.size() == 1 && projects.front()->roles.front().colour.empty())
            continue;
        std::vector<std::string> names;
        for (const project::Project* project : projects)
            for (const project::Role& role : project->roles)
                for (const std::string& name : {role.id, role.colour, role.name})
                    if (!name.empty() && name != yarn_at_hand &&
                        (file || role.colour.empty() || name != role.id))
                        names.push_back(name);
        if (std::any_of(names.begin(), names.end(),
                        [&](const std::string& name) { return base::same_name(name, word); }))
            continue;
        refuse_option("have", "the make has no yarn " + base::quoted(word),
                      "one of " + base::join(names, ", ") + " before the colon" +
                          (names.size() > 1 ? "" : ", or no word"),
                      base::did_you_mean(base::nearest_name(word, names)));
    }
}

void take_for_project(const Values& values, const World& world, const project::Project& project,
                      std::vector<stash::Skein>& had) {
    if (!values.given(positional) || !values.given("have") || values.given("yarn")) return;
    bool guessed = false;
    for (stash::Skein& skein : had) {
        const project::Role* of = project.roles.size() == 1 ? &project.roles.front() : nullptr;
        guessed = guessed || of != nullptr;
        for (const project::Role& role : project.roles)
            if (!skein.colourway.empty() && (base::same_name(role.colour, skein.colourway) ||
                                             base::same_word(role.id, skein.colourway)))
                of = &role;
        if (of == nullptr) {
            std::vector<std::string> names;
            for (const project::Role& role : project.roles)
                names.push_back(role.colour.empty() ? role.id : role.colour);
            refuse_option("have", "it does not say of which yarn of the project it is",
                          "one of " + base::join(names, ", ") + " before it",
                          "Write it like \"" + base::shown_inert(names.front()) +
                              ": 2 skeins of 170 yd / 100 g\".");
        }
        if (project.roles.size() > 1) {
            // What is said to be of one yarn is no other's, alike as the two may be.
            stash::Promise promise;
            promise.project = project.title;
            promise.role = of->id;
            skein.set_aside.push_back(std::move(promise));
        }
        if (skein.colourway.empty() || base::same_word(of->id, skein.colourway))
            skein.colourway = of->colour;
        skein.yarn.name = of->name;
        if (!skein.yarn.weight) skein.yarn.weight = of->weight;
        if (!skein.yarn.fibre.known()) skein.yarn.fibre = of->fibre;
    }
    const std::string& name = project.roles.front().name;
    if (!guessed || name.empty() || name == yarn_at_hand) return;
    std::string as = base::shown_inert(name);
    if (const std::string& colour = project.roles.front().colour; !colour.empty())
        as += " " + base::shown_inert(colour);
    *world.err << "note: the yarn you have counts as " << as << "\n";
}

}  // namespace skeinfall::cli
