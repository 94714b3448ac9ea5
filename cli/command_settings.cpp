#include <algorithm>
#include <ostream>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/settings_toml.hpp"
#include "skeinfall/exchange/text_file.hpp"
#include "skeinfall/report/words.hpp"

#include "commands.hpp"
#include "exit_code.hpp"
#include "options.hpp"
#include "stash_options.hpp"

namespace skeinfall::cli {
namespace {

std::filesystem::path path_of(const World& world) {
    if (const auto path = exchange::settings_path(world.xdg_config_home, world.home)) return *path;
    throw base::InputError(base::Problem{"no folder is known to keep the settings in",
                                         {},
                                         "an absolute path in XDG_CONFIG_HOME or HOME",
                                         "Set HOME."});
}

std::string text_of(const std::filesystem::path& path) {
    std::error_code none;
    return std::filesystem::exists(path, none) ? exchange::read_text_file(path) : std::string();
}

std::vector<std::string> key_words() {
    std::vector<std::string> words;
    for (const exchange::SettingKey& key : exchange::setting_keys())
        if (key.key.find('.') == std::string::npos) words.push_back(key.key);
    words.emplace_back("stitch_rate.crochet.4");
    return words;
}

int show(const Values& values, const World& world) {
    std::vector<exchange::Stated> of_project;
    if (const auto file = values.one(positional)) of_project = exchange::stated_by_project(*file);
    const exchange::Settings& settings = values.settings();
    std::vector<std::vector<std::string>> rows{{"setting", "value", "from"}};
    const auto add = [&](const std::string& key, const std::string& built_in) {
        const auto stated =
            std::find_if(of_project.begin(), of_project.end(),
                         [&](const exchange::Stated& one) { return one.key == key; });
        const exchange::Stated* one = stated != of_project.end() ? &*stated : settings.find(key);
        if (one == nullptr)
            rows.push_back({key, built_in, "built in"});
        else
            rows.push_back(
                {key, base::shown_inert(one->text),
                 base::shown_inert(one->place.file) +
                     (one->place.line == 0 ? "" : ":" + std::to_string(one->place.line))});
    };
    for (const exchange::SettingKey& key : exchange::setting_keys()) {
        bool any = false;
        if (const std::size_t dot = key.key.find('.'); dot != std::string::npos)
            for (const exchange::Stated& one : settings.stated)
                if (one.key.starts_with(key.key.substr(0, dot + 1))) {
                    add(one.key, "");
                    any = true;
                }
        if (!any) add(key.key, key.built_in);
    }
    *world.out << report::table(rows, {false, false, false}, 0) << "\n"
               << "An option counts before the project, and the project before the settings in\n"
               << base::shown_inert(path_of(world).string()) << ".\n";
    return done;
}

}  // namespace

Command settings_show_command() {
    Command command;
    command.name = "settings show";
    command.arguments = "[PROJECT.toml]";
    command.summary = "your settings, and where each comes from";
    command.purpose =
        "Lists each setting with its value and whether it is built in, from your settings or, "
        "with\n"
        "a project, from there. An option of a command goes before all of them.";
    command.examples = {{"skeinfall settings show", "your settings"},
                        {"skeinfall settings show sample_stash/projects/lantern-cowl.toml",
                         "what holds for this project"}};
    command.no.clear();
    command.verbatim = true;
    command.run = show;
    return command;
}

Command settings_set_command() {
    Command command;
    command.name = "settings set";
    command.arguments = "KEY VALUE";
    command.summary = "keep a setting";
    command.purpose = "Writes one line of your settings file and leaves the others as they are:";
    for (const exchange::SettingKey& key : exchange::setting_keys())
        command.purpose += "\n  " + key.key + ": " + key.says + "; else " + key.built_in;
    command.examples = {
        {"skeinfall settings set units metres", "metres before yards"},
        {"skeinfall settings set stitch_rate.crochet.4 \"8.5 cm per stitch\"",
         "what a stitch of yours usually takes"},
        {"skeinfall settings set \"tare.plastic cone\" \"25 g\"", "for --tare \"plastic cone\""}};
    command.no.clear();
    command.verbatim = true;
    command.words = key_words();
    command.most_arguments = 2;
    command.run = [](const Values& values, const World& world) -> int {
        const std::string how = "Write it like skeinfall settings set margin \"10 %\".";
        const std::string key = argument(values, 0, "no setting is named", how);
        const std::string value = argument(values, 1, key + " has no value", how);
        const auto path = path_of(world);
        static_cast<void>(exchange::read_settings(path));
        exchange::write_settings(path, exchange::with_setting(text_of(path), key, value));
        *world.out << key << " is " << base::shown_inert(value) << " from now on\n";
        return done;
    };
    return command;
}

Command settings_unset_command() {
    Command command;
    command.name = "settings unset";
    command.arguments = "KEY";
    command.summary = "forget a setting";
    command.purpose = "Takes the line out of your settings file; what is built in holds again.";
    command.examples = {{"skeinfall settings unset units", "yards before metres again"},
                        {"skeinfall settings unset margin", "no margin unless a project asks"}};
    command.no.clear();
    command.verbatim = true;
    command.words = key_words();
    command.run = [](const Values& values, const World& world) -> int {
        const std::string key =
            argument(values, 0, "no setting is named", "\"skeinfall settings show\" lists them.");
        const auto path = path_of(world);
        const std::string before = text_of(path);
        const std::string after = exchange::without_setting(before, key);
        if (after != before) exchange::write_settings(path, after);
        *world.out << key << (after == before ? " was not set\n" : " is back to its usual value\n");
        return done;
    };
    return command;
}

}  // namespace skeinfall::cli
