#include <algorithm>
#include <filesystem>
#include <optional>
#include <ostream>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/cover/buy_more.hpp"
#include "skeinfall/cover/cover.hpp"
#include "skeinfall/cover/remedies.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/report/json.hpp"
#include "skeinfall/report/planning.hpp"
#include "skeinfall/report/text.hpp"
#include "skeinfall/units/parse.hpp"
#include "skeinfall/yarn/avoid.hpp"

#include "commands.hpp"
#include "exit_code.hpp"
#include "make_options.hpp"
#include "planning.hpp"
#include "stops_first.hpp"

namespace skeinfall::cli {
namespace {

/// What belongs to a project is not said again beside one.
void refuse_mixture(const Values& values) {
    if (!values.given(positional)) return;
    for (const char* option : {"class", "yarn", "colour", "avoid"})
        if (values.given(option))
            refuse_option(option, "it is for --need alone, without a project file",
                          "no such option beside a project",
                          "A project file says it under [yarn.MC]: class, name, colour, avoid.");
}

std::vector<std::string> project_files(const std::string& folder) {
    namespace fs = std::filesystem;
    std::error_code error;
    std::vector<std::string> files;
    for (fs::directory_iterator at(folder, error), end; !error && at != end; at.increment(error))
        if (at->path().extension() == ".toml") files.push_back(at->path().string());
    if (error || files.empty())
        refuse_option("all",
                      base::quoted(folder) + " " +
                          (error ? "cannot be read as a folder" : "holds no project file"),
                      "a folder with project files (*.toml)", "");
    std::sort(files.begin(), files.end());
    return files;
}

/// Ranks the projects of a folder. A file that cannot be read is reported and left out.
int cover_folder(const Values& values, const World& world, const std::string& format) {
    if (values.given(positional) || is_asked(values))
        refuse_option("all", "it goes with a folder alone", "no project and no --need", "");
    std::optional<cover::Sharing> sharing;
    if (values.given("in-turn")) sharing = cover::Sharing::make_by_make;
    if (values.given("together")) {
        if (sharing) refuse_option("together", "--in-turn is given too", "one of them", "");
        sharing = cover::Sharing::joint;
    }
    const std::string folder = *values.one("all");
    std::vector<Read> reads;
    std::vector<std::string> files;
    bool all_read = true;
    for (const std::string& file : project_files(folder)) {
        try {
            Read read = read_make(file, values, world);
            if (!values.given("despite-stops")) refuse_stops(read.project);
            reads.push_back(std::move(read));
            files.push_back(std::filesystem::path(file).filename().string());
        } catch (const base::InputError& error) {
            *world.err << error.what() << "\n";
            if (world.shows_progress)
                *world.err << "next: skeinfall check " << base::shown_inert(file) << "\n";
            all_read = false;
        }
    }
    if (reads.empty() && format == "text") return bad_input;
    std::vector<Read*> all;
    all.reserve(reads.size());
    for (Read& read : reads) all.push_back(&read);
    const std::vector<stash::Skein> stash = stash_for(values, world, all);
    std::vector<cover::Make> makes;
    makes.reserve(reads.size());
    for (const Read& read : reads) makes.push_back({&read.project, &read.need, read.rules});
    const cover::Shelf shelf(stash);
    std::vector<cover::MakeCover> covers;
    if (sharing)
        covers = cover::cover_makes(makes, shelf, *sharing);
    else
        for (const cover::Make& make : makes)
            covers.push_back(cover::cover_make(*make.project, *make.need, shelf, make.rules));
    std::vector<report::MakeLine> lines;
    bool all_covered = true;
    for (std::size_t at = 0; at < covers.size(); ++at) {
        const project::Project& project = reads[at].project;
        report::MakeLine line{files[at],
                              project.title,
                              project.sizes.empty() ? "" : project.sizes[reads[at].size],
                              covers[at].verdict,
                              covers[at].chance,
                              {},
                              {},
                              {}};
        for (const cover::RoleCover& role : covers[at].roles) {
            if (role.verdict != cover::Verdict::covered)
                line.wanting.push_back(role.role.id + " " +
                                       std::string(cover::name_of(role.verdict)));
            if (role.chosen.empty()) continue;
            std::vector<std::string> ids;
            std::string keep = "skeinfall stash set-aside " + project.file;
            for (const stash::Skein& skein : role.chosen) {
                ids.push_back(skein.id);
                keep += " --skein " + skein.id;
            }
            line.skeins.push_back(role.role.id + ": " + base::join(ids, ", "));
            line.keep.push_back(keep + " --yarn " + role.role.id);
        }
        all_covered = all_covered && covers[at].verdict == cover::Verdict::covered;
        lines.push_back(std::move(line));
    }
    report::rank(lines);
    *world.out << (format == "text" ? report::makes_text(lines, sharing)
                                    : data_in(format, report::makes_json(lines, sharing),
                                              report::Records::makes));
    if (!all_read) return bad_input;
    return all_covered ? done : not_so;
}

}  // namespace

Command cover_command() {
    Command command;
    command.name = "cover";
    command.grams_serve = true;
    command.yes = "covered";
    command.no = "short, or too close to call";
    command.arguments = "[PROJECT.toml]";
    command.summary = "is there enough yarn, in which skeins, and how sure is that";
    command.purpose =
        "Is there enough yarn in the stash? Chooses skeins for every yarn of a project,\n"
        "or for an amount with --need, and says covered, too close to call, or short,\n"
        "each with its chance. Where it is close it says what would settle it. Dye lots\n"
        "are kept together. Part skeins go first and count by weight. Two ends are\n"
        "allowed for on every skein.";
    command.options = {
        margin_option(),
        prefer_option(),
        {"split", "",
         "one skein may be divided between MC, CC1 ..., each part with ends of its own", false},
        {"in-turn", "",
         "give MC its skeins first, then CC1 and so on; with --all: one project after the other, "
         "by file name",
         false},
        {"all", "FOLDER", "rank every project file of a folder instead", false},
        {"together", "", "with --all: all of them at once, no skein used twice", false},
        confidence_option(),
        size_option(),
        {"why", "", "list every skein that was not taken, with the reason", false},
        stash_option(),
        format_option(table_formats)};
    take_makes(command);
    command.examples = {{"skeinfall cover sample_stash/projects/lantern-cowl.toml",
                         "verdict and chosen skeins for a cowl"},
                        {"skeinfall cover --need \"380 yd\" --class 4",
                         "is there that much medium yarn of one lot?"},
                        {"skeinfall cover --make \"33 hdc x 96 rows\" --gauge \"14 sts and 10 rows "
                         "per 10 cm\" --swatch \"15 x 15 cm, 14 g\" --have \"2 skeins of 170 yd / "
                         "3.5 oz\"",
                         "a scarf and two skeins, without any file"}};
    command.run = [](const Values& values, const World& world) -> int {
        const std::string format = table_format_of(values);
        if (values.given("all")) {
            for (const char* option :
                 {"class", "yarn", "colour", "avoid", "any-lot", "split", "why"})
                if (values.given(option))
                    refuse_option(option, "it does not go with --all", "no such option beside it",
                                  "Ask for one project instead.");
            return cover_folder(values, world, format);
        }
        refuse_mixture(values);
        std::error_code none;
        if (const auto path = values.one(positional);
            path && std::filesystem::is_directory(*path, none))
            throw base::InputError(base::Problem{
                base::quoted(*path) + " is a folder",
                {},
                "a project file",
                "\"skeinfall cover --all " + *path + "\" ranks all projects of a folder."});
        const bool bare = values.given("need");
        Read read = read_asked(values, world);
        const project::Project& project = read.project;
        cover::Rules& rules = read.rules;
        if (values.given("split")) rules.division = cover::Division::split;
        if (values.given("in-turn")) rules.sharing = cover::Sharing::role_by_role;

        const std::vector<stash::Skein> stash = stash_for(values, world, {&read});
        const need::MakeNeed& make = read.need;
        cover::MakeCover cover = cover::cover_make(project, make, stash, rules);
        cover::count_what_to_buy(project, make, rules, cover);
        const std::vector<cover::Remedy> remedies =
            bare ? std::vector<cover::Remedy>()
                 : cover::remedies(project, make, stash, rules, cover);
        if (format != "text")
            *world.out << data_in(format, report::cover_json(project, make, cover, remedies),
                                  report::Records::cover);
        else
            *world.out << report::cover_text(project, make, cover, rules, values.given("why"))
                       << report::remedies_text(remedies, read.rules.margin)
                       << (bare ? std::string()
                                : report::next_text(project, cover, asked_with(values)));
        return cover.verdict == cover::Verdict::covered ? done : not_so;
    };
    return command;
}

}  // namespace skeinfall::cli
