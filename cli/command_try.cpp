#include <filesystem>
#include <fstream>
#include <istream>
#include <ostream>
#include <sstream>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"

#include "commands.hpp"
#include "exit_code.hpp"
#include "options.hpp"
#include "run.hpp"
#include "sample.hpp"
#include "temporary_folder.hpp"

namespace skeinfall::cli {
namespace {

namespace fs = std::filesystem;

/// Puts the sample into a folder, which it makes.
void write_sample(const fs::path& folder) {
    for (const SampleFile& file : sample_files) {
        std::error_code error;
        fs::create_directories((folder / file.name).parent_path(), error);
        std::ofstream out(folder / file.name, std::ios::binary);
        out << file.text;
        out.close();
        if (!out)
            throw base::InputError(base::Problem{"the sample cannot be written here",
                                                 {.file = folder.string(), .line = 0, .column = 0},
                                                 "a folder that may be written to",
                                                 "Name another one."});
    }
}

struct Stage {
    std::string says;
    std::vector<std::string> arguments;  ///< a name of the sample as it lies in the folder
    bool first_line = false;             ///< of what it prints only that is shown
};

const std::vector<Stage>& stages() {
    static const std::vector<Stage> all{
        {"An invented maker's stash is read into a temporary file:",
         {"stash", "import", "stash.csv"},
         true},
        {"What is there, one line per yarn:", {"stash", "list", "--totals"}},
        {"Does it cover a cowl?", {"cover", "projects/lantern-cowl.toml"}},
        {"After which row does the first skein end?", {"joins", "projects/lantern-cowl.toml"}},
        {"The materials section for its pattern:", {"materials", "projects/lantern-cowl.toml"}},
        {"A wrap that two skeins might do, or might not:",
         {"cover", "projects/long-ferry-wrap.toml"}}};
    return all;
}

/// Runs one stage in the folder; false when it failed.
bool walk(const Stage& stage, const fs::path& folder, const World& world) {
    std::ostringstream out;
    std::ostringstream err;
    World inner = world;
    inner.out = &out;
    inner.err = &err;
    inner.in = nullptr;
    inner.columns = 0;
    inner.shows_progress = false;
    inner.stash = (folder / "stash.skeinfall").string();
    std::vector<std::string> arguments = stage.arguments;
    for (std::string& argument : arguments)
        if (std::error_code none; fs::exists(folder / argument, none))
            argument = (folder / argument).string();
    const int code = run(arguments, inner);
    const auto shown = [&](std::string text) {
        const std::string prefix = (folder / "").string();
        for (std::size_t at = text.find(prefix); at != std::string::npos; at = text.find(prefix))
            text.erase(at, prefix.size());
        return text;
    };
    std::string printed = shown(out.str());
    if (stage.first_line) printed.resize(printed.find('\n') + 1);
    *world.out << stage.says << "\n$ skeinfall " << base::join(stage.arguments, " ") << "\n"
               << printed << "\n";
    *world.err << shown(err.str());
    return code <= not_so;
}

}  // namespace

Command try_command() {
    Command command;
    command.name = "try";
    command.summary = "a short demonstration on a sample stash; nothing is saved";
    command.purpose =
        "Loads a sample into a temporary stash and shows cover, joins and materials at work. Your\n"
        "own stash is not touched. --keep writes the sample's files into a new folder, to change\n"
        "and to learn from.";
    command.options = {{"keep", "FOLDER", "only put the sample there; the folder must be new"}};
    command.examples = {
        {"skeinfall try", "a minute's walk"},
        {"skeinfall try --keep sample_stash", "a stash table and projects to begin from"}};
    command.no.clear();
    command.run = [](const Values& values, const World& world) -> int {
        if (const auto folder = values.one("keep")) {
            if (std::error_code none; fs::exists(*folder, none))
                refuse_option("keep", base::quoted(*folder) + " is there already", "a new folder",
                              "Name another one.");
            write_sample(*folder);
            *world.out << sample_files.size() << " files of the sample are in "
                       << base::shown_inert(*folder) << "\nnext: skeinfall stash import "
                       << base::shown_inert((fs::path(*folder) / "stash.csv").string())
                       << "\nthen: skeinfall cover "
                       << base::shown_inert(
                              (fs::path(*folder) / "projects/lantern-cowl.toml").string())
                       << "\n";
            return done;
        }
        // The folder is gone before anything is printed, whoever stops reading.
        std::ostringstream out;
        World inner = world;
        inner.out = &out;
        bool well = true;
        {
            const TemporaryFolder folder;
            write_sample(folder.path());
            for (const Stage& stage : stages()) well = well && walk(stage, folder.path(), inner);
        }
        *world.out << out.str();
        if (!well) return bad_input;
        *world.out << "That was a sample, and it is gone. Your own skeins:\n"
                      "  skeinfall stash add --yarn \"Cedar Lane\" --label \"170 yd / 3.5 oz\"\n"
                      "  skeinfall stash import mine.csv\n"
                      "Files to begin from:\n"
                      "  skeinfall try --keep sample_stash\n";
        return done;
    };
    return command;
}

namespace {

/// Enter goes on, "stop" ends the walk, and nothing else is taken for either.
bool goes_on(const World& world) {
    while (true) {
        *world.err << "Enter for the next step, or stop: " << std::flush;
        std::string answer;
        if (!std::getline(*world.in, answer)) return false;
        const std::string_view word = base::trimmed(answer);
        if (word.empty()) return true;
        for (const std::string_view ends : {"stop", "q", "quit", "exit"})
            if (base::same_word(word, ends)) return false;
        *world.err << "Press Enter, or type stop.\n";
    }
}

}  // namespace

Command tour_command() {
    Command command;
    command.name = "tour";
    command.summary = "what try shows, step by step at your own pace";
    command.purpose =
        "The walk of \"skeinfall try\", one step at a time: Enter shows the next, \"stop\" ends "
        "it.\n"
        "Nothing is kept.";
    command.examples = {{"skeinfall tour", "a walk at your own pace"},
                        {"skeinfall tour > walk.txt", "all of it, to read later"}};
    command.asks = true;
    command.no.clear();
    command.run = [](const Values&, const World& world) -> int {
        const TemporaryFolder folder;
        write_sample(folder.path());
        bool first = true;
        for (const Stage& stage : stages()) {
            if (!first && world.in != nullptr) {
                if (!goes_on(world)) break;
            }
            first = false;
            if (!walk(stage, folder.path(), world)) return bad_input;
            *world.out << std::flush;
            if (world.show_so_far) world.show_so_far();
        }
        *world.out << "Now your own: \"skeinfall new\" asks what you make.\n";
        return done;
    };
    return command;
}

}  // namespace skeinfall::cli
