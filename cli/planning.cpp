#include "planning.hpp"

#include <algorithm>
#include <chrono>
#include <functional>
#include <map>
#include <string_view>

#include "skeinfall/base/text.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/need/unknown_stitches.hpp"
#include "skeinfall/plan/in_work.hpp"
#include "skeinfall/stash/in_work.hpp"
#include "skeinfall/stash/reserve.hpp"
#include "skeinfall/store/store.hpp"
#include "skeinfall/units/parse.hpp"

#include "busy.hpp"
#include "make_options.hpp"
#include "share_option.hpp"

namespace skeinfall::cli {
namespace {

constexpr std::chrono::seconds at_most{20};

constexpr const char* plain_letters =
    "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789.-";

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
            refuse_option("prefer", base::quoted(word) + " is not one of the preferences",
                          base::join(words, ", "), base::did_you_mean(near));
        }
        const auto found = std::find(goals.begin(), goals.end(), known->second);
        if (found < place) refuse_option("prefer", word + " is named twice", "each once", "");
        std::rotate(place, found, found + 1);
        ++place;
    }
    return goals;
}

}  // namespace

report::AskedWith asked_with(const Values& values) {
    const auto again = [&](const std::string& option) {
        std::string out;
        for (const std::string& text : values.all(option)) {
            // Within these a shell changes four letters only.
            std::string quoted;
            for (const char one : text) {
                if (std::string_view("\"$`\\").find(one) != std::string_view::npos) quoted += '\\';
                quoted += one;
            }
            out += " --" + option + " ";
            out += text.find_first_not_of(plain_letters) == std::string::npos && !text.empty()
                       ? text
                       : "\"" + quoted + "\"";
        }
        return out;
    };
    return {again("size") + again("confidence") + again("stash") + again("set"), again("margin"),
            again("have")};
}

Option margin_option() {
    return {"margin", "PERCENT",
            "yarn to have on top of the need, such as \"10 %\" (default: the project's margin)",
            false};
}

Option prefer_option() {
    return {"prefer",
            "WHAT",
            "what counts most once there is enough yarn: lots (few dye lots), match (like the yarn "
            "wanted), parts (part skeins first), joins (few), leftovers (little); in this order "
            "unless you say",
            true,
            {"lots", "match", "parts", "joins", "leftovers"}};
}

std::string known_title(const project::Project& project, const Values& values) {
    return project.file.empty() && !values.given("title") ? std::string() : project.title;
}

std::optional<units::Ratio> margin_asked(const Values& values) {
    const auto margin = values.one("margin");
    if (!margin) return std::nullopt;
    return share_option("margin", *margin, "a share on top, 0 % or more", "10 %");
}

cover::Rules rules_for(const Values& values, const project::Project& project, const World& world) {
    cover::Rules rules;
    rules.confidence = confidence_of(values);
    rules.project = known_title(project, values);
    rules.margin = project.margin;
    rules.tail = project.tail;
    rules.goals = goals_of(values);
    rules.go_on = watch(world);
    if (const auto margin = margin_asked(values)) rules.margin = *margin;
    return rules;
}

namespace {

Read worked_out(project::Project project, const Values& values, const World& world) {
    Read out;
    out.project = std::move(project);
    out.size = size_of(values, out.project);
    out.size_said = values.given("size") || out.project.sizes.size() < 2;
    // Stops have been told by now, or are told before the answer.
    out.need = cover::need_for(need::with_plain_stitches(out.project), out.size, {});
    out.rules = rules_for(values, out.project, world);
    return out;
}

}  // namespace

Read read_make(const std::string& file, const Values& values, const World& world) {
    return worked_out(project_in(file, values), values, world);
}

Read read_asked(const Values& values, const World& world) {
    Read out = worked_out(project_of(values, world), values, world);
    tell_size_taken(values, out.project, world);
    return out;
}

namespace {

/// "blorp: 1000 yd" would count for a yarn that is not of this make.
void refuse_words_of_no_yarn(const Values& values, const std::vector<Read*>& reads) {
    std::vector<const project::Project*> projects;
    projects.reserve(reads.size());
    for (const Read* read : reads) projects.push_back(&read->project);
    refuse_have_of_no_yarn(values, projects);
}

}  // namespace

std::vector<stash::Skein> stash_for(const Values& values, const World& world,
                                    const std::vector<Read*>& reads) {
    refuse_words_of_no_yarn(values, reads);
    const project::Project* only = reads.size() == 1 ? &reads.front()->project : nullptr;
    if (auto had = skeins_had(values, world, only)) {
        if (reads.size() == 1) take_for_project(values, world, reads.front()->project, *had);
        return *std::move(had);
    }
    refuse_without_yarn(values, world);
    return stash_in_work(store::Store::open(stash_path(values, world), store::Access::read), reads);
}

std::vector<stash::Skein> stash_in_work(const store::Store& store,
                                        const std::vector<Read*>& reads) {
    plan::Record record{store.readings(), {}};
    std::vector<std::string> titles;
    titles.reserve(reads.size());
    for (const Read* read : reads) titles.push_back(read->rules.project);
    std::vector<stash::Skein> stash =
        stash::as_found_by(stash::as_worked(store.skeins(), record.readings), titles);
    const bool in_work = std::any_of(
        record.readings.begin(), record.readings.end(), [&](const stash::WorkReading& reading) {
            return std::any_of(titles.begin(), titles.end(), [&](const std::string& title) {
                return base::same_word(title, reading.project);
            });
        });
    if (!in_work) return stash;
    record.movements = store.movements();
    for (Read* read : reads) {
        if (read->rules.project.empty()) continue;
        const bool begun = std::any_of(
            record.readings.begin(), record.readings.end(), [&](const stash::WorkReading& reading) {
                return base::same_word(read->rules.project, reading.project);
            });
        if (begun && !read->size_said) refuse_size_not_said(read->project);
        plan::InWork work = plan::in_work(read->project, read->size, stash, record, read->rules);
        if (work.done.empty()) continue;
        stash = std::move(work.stash);
        read->rules.done = std::move(work.done);
        read->need = cover::need_for(read->project, read->size, read->rules);
    }
    return stash;
}

Option work_scale_option() {
    return {"scale", "MASS", "the smallest step of your scale (default 1 g)", false};
}

Option work_tare_option() {
    return {"tare", "MASS", "needles or hook weighed with it", false};
}

joins::Scale scale_of(const Values& values) {
    joins::Scale scale;
    if (const auto step = scale_text(values))
        scale.step = read_option("scale", *step, units::parse_mass);
    if (const auto tare = values.one("tare"))
        scale.tare = read_option("tare", *tare, units::parse_mass);
    return scale;
}

report::PictureFormat picture_format(const std::string& option, const std::string& file) {
    const auto format = report::picture_format_of(file);
    if (!format)
        refuse_option(option, base::quoted(file) + " does not say what to draw",
                      "a name that ends in .svg, .pdf or .png", "");
    return *format;
}

std::optional<std::string> nearest_id(const std::string& id,
                                      const std::vector<stash::Skein>& stash) {
    std::vector<std::string> ids;
    ids.reserve(stash.size());
    for (const stash::Skein& one : stash) ids.push_back(one.id);
    return base::nearest_name(id, ids);
}

}  // namespace skeinfall::cli
