#include <algorithm>
#include <array>
#include <filesystem>
#include <optional>
#include <ostream>
#include <string>
#include <utility>

#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/materials/lint.hpp"
#include "skeinfall/need/check.hpp"
#include "skeinfall/report/check.hpp"

#include "check_section.hpp"
#include "commands.hpp"
#include "exit_code.hpp"
#include "options.hpp"

namespace skeinfall::cli {
namespace {

/// What a materials section is compared with.
struct Beside {
    std::optional<std::string> project;
    std::optional<std::string> returns;  ///< testers' returns, as the section was made with
};

report::Checked check_project(const std::filesystem::path& file, const Beside& beside) {
    for (const auto& [option, given] :
         {std::pair{"project", beside.project}, std::pair{"returns", beside.returns}})
        if (given)
            refuse_option(option, "a project file is checked by itself", "a materials section", "");
    const project::Project project = exchange::read_project(file);
    project::Findings findings = need::check(project);
    // What stops a project may be that it cannot be worked out.
    const bool works = std::none_of(findings.begin(), findings.end(), [](const auto& one) {
        return one.severity == project::Severity::stop;
    });
    if (works)
        for (project::Finding& one : materials::graded(project)) findings.push_back(std::move(one));
    return {project.title, std::move(findings)};
}

report::Checked check_materials(const std::filesystem::path& file, const Beside& beside) {
    if (beside.returns && !beside.project)
        refuse_option("returns", "no project says what the testers made", "--project as well", "");
    CheckedSection checked = check_section(file, beside.project, beside.returns);
    return {std::move(checked.title), std::move(checked.findings)};
}

/// A kind of file that can be checked, told by the end of its name.
struct Checkable {
    std::string_view ending;
    report::Checked (*check)(const std::filesystem::path&, const Beside&);
};
constexpr std::array checkable{Checkable{".toml", check_project}, Checkable{".md", check_materials},
                               Checkable{".txt", check_materials}};

report::Checked check_file(const std::string& file, const Beside& beside) {
    const std::string ending = base::lower(std::filesystem::path(file).extension().string());
    std::string endings;
    for (const Checkable& kind : checkable) {
        if (kind.ending == ending) return kind.check(file, beside);
        endings += (endings.empty() ? "" : ", ") + std::string(kind.ending);
    }
    throw base::InputError(base::Problem{"nothing is known to check in such a file",
                                         {.file = file, .line = 0, .column = 0},
                                         "a file that ends in " + endings,
                                         "Give a project file or a materials section."});
}

}  // namespace

Command check_command() {
    Command command;
    command.name = "check";
    command.no = "something cannot be as it is written";
    command.arguments = "FILE";
    command.summary = "whether the figures of a project or a materials section agree";
    command.purpose =
        "Do the figures agree? Compares rows with length and stitches with width,\nand totals with "
        "skeins and with each other. Compares labels with real yarns, and\nyarn with what its "
        "stitches can take, and every written row with the row below. Each finding names its line "
        "and column\nand what to do. A materials section as \"materials\" wrote it (.md, .txt) "
        "is\nchecked too: yards against metres, inches against centimetres, skeins "
        "against\ntotals, sizes out of line, and --project. Exit code 1 when something cannot "
        "be\nas written (a stop).";
    command.options = {
        {"project", "FILE", "the project to compare a materials section with", false},
        {"returns", "FILE.csv", "testers' returns, where the section was made with them", false},
        format_option("text (default) or json")};
    command.examples = {{"skeinfall check sample_stash/projects/lantern-cowl.toml",
                         "whether the figures of a cowl agree"},
                        {"skeinfall check sample_stash/projects/lantern-cowl.toml --format json",
                         "the same for another program"}};
    command.run = [](const Values& values, const World& world) -> int {
        const std::string format = format_of(values, {"text", "json"});
        const auto file = values.one(positional);
        if (!file)
            throw base::InputError(base::Problem{"no file was given",
                                                 {},
                                                 "a project file or a materials section",
                                                 "Name a file such as cowl.toml."});
        const report::Checked checked =
            check_file(*file, {values.one("project"), values.one("returns")});
        *world.out << (format == "json" ? report::check_json(checked)
                                        : report::check_text(checked));
        const bool stop = std::any_of(
            checked.findings.begin(), checked.findings.end(),
            [](const auto& finding) { return finding.severity == project::Severity::stop; });
        return stop ? not_so : done;
    };
    return command;
}

}  // namespace skeinfall::cli
