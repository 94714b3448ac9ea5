#include "planning.hpp"

#include <algorithm>
#include <chrono>
#include <map>

#include "skeinfall/base/text.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/units/parse.hpp"

#include "busy.hpp"

namespace skeinfall::cli {
namespace {

constexpr std::chrono::seconds at_most{20};

/// Tells the line of progress what is under way, and ends the search in time.
std::function<bool(const cover::Progress&)> watch(const World& world) {
    using Clock = std::chrono::steady_clock;
    Busy* const busy = world.busy;
    return [busy, begin = Clock::now()](const cover::Progress& progress) {
        if (busy != nullptr)
            busy->say("dividing skeins among " + std::to_string(progress.roles) +
                      " yarns, with the best so far at " + std::to_string(at_most.count()) + " s");
        return Clock::now() - begin < at_most;
    };
}

const std::map<std::string, cover::Goal>& preferences() {
    static const std::map<std::string, cover::Goal> words{{"lots", cover::Goal::extra_lots},
                                                          {"match", cover::Goal::substitution},
                                                          {"parts", cover::Goal::whole_opened},
                                                          {"joins", cover::Goal::pieces},
                                                          {"leftovers", cover::Goal::opened}};
    return words;
}

cover::Goals goals_of(const Values& values) {
    cover::Goals goals = cover::usual_goals;
    auto place = goals.begin() + 1;
    for (const std::string& word : values.all("prefer")) {
        const auto known = preferences().find(word);
        if (known == preferences().end()) {
            std::vector<std::string> words;
            for (const auto& [name, goal] : preferences()) words.push_back(name);
            const auto near = base::nearest_name(word, words);
            refuse_option("prefer", "\"" + base::shown_inert(word) + "\" is nothing to prefer",
                          base::join(words, ", "), near ? "Did you mean \"" + *near + "\"?" : "");
        }
        const auto found = std::find(goals.begin(), goals.end(), known->second);
        if (found < place) refuse_option("prefer", word + " is named twice", "each once", "");
        std::rotate(place, found, found + 1);
        ++place;
    }
    return goals;
}

}  // namespace

Option margin_option() {
    return {"margin", "PERCENT", "ask for that much more; else the project's margin", false};
}

Option prefer_option() {
    return {
        "prefer",
        "WHAT",
        "what counts most once yarn suffices: lots, match, parts, joins, leftovers (that order)",
        true,
        {"lots", "match", "parts", "joins", "leftovers"}};
}

cover::Rules rules_for(const Values& values, const project::Project& project, const World& world) {
    cover::Rules rules;
    rules.confidence = confidence_of(values);
    rules.margin = project.margin;
    rules.tail = project.tail;
    rules.goals = goals_of(values);
    rules.go_on = watch(world);
    if (const auto margin = values.one("margin"))
        rules.margin = read_option("margin", *margin, units::parse_percent);
    return rules;
}

Read read_make(const std::string& file, const Values& values, const World& world) {
    Read out;
    out.project = project_in(file, values);
    out.size = size_of(values, out.project);
    out.need = need::need_of(out.project, out.size);
    out.rules = rules_for(values, out.project, world);
    return out;
}

}  // namespace skeinfall::cli
