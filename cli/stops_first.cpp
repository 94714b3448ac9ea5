#include "stops_first.hpp"

#include <algorithm>
#include <filesystem>
#include <ostream>
#include <sstream>
#include <utility>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/need/check.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/need/unknown_stitches.hpp"
#include "skeinfall/report/check.hpp"

#include "options.hpp"

namespace skeinfall::cli {
namespace {

constexpr const char* despite = "despite-stops";

bool is_stop(const project::Finding& finding) {
    return finding.severity == project::Severity::stop;
}

/// A project file that was looked through. What keeps it from being worked out at all stands in
/// `unworkable`, for it says more than the stop that check makes of it.
struct Looked {
    report::Checked checked;
    base::Problems unworkable;
};

void look_at(const project::Project& project, Looked& out) {
    if (out.checked.title.empty()) out.checked.title = project.title;
    project::Findings found = need::check_for_planning(project);
    std::erase_if(found, [](const auto& one) { return one.severity == project::Severity::ok; });
    if (std::any_of(found.begin(), found.end(), is_stop)) {
        try {
            for (std::size_t size = 0; size < project.size_count(); ++size)
                static_cast<void>(need::need_of(need::with_plain_stitches(project), size));
        } catch (const base::InputError& error) {
            for (const base::Problem& problem : error.problems()) {
                std::erase_if(found, [&](const project::Finding& one) {
                    return one.what == problem.what && one.place == problem.place;
                });
                out.unworkable.push_back(problem);
            }
        }
    }
    for (project::Finding& one : found) out.checked.findings.push_back(std::move(one));
}

Looked look_through(const Values& values) {
    Looked out;
    std::error_code none;
    for (const std::string& file : values.all(positional))
        if (!std::filesystem::is_directory(file, none))
            look_at(exchange::read_project(file, values.settings().project), out);
    return out;
}

bool is_stopped(const Looked& looked) {
    return std::any_of(looked.checked.findings.begin(), looked.checked.findings.end(), is_stop);
}

[[noreturn]] void refuse(const Looked& looked, bool may_despite) {
    base::Problems problems = looked.unworkable;
    for (const project::Finding& one : looked.checked.findings)
        if (is_stop(one)) problems.push_back({"stop: " + one.what, one.place, {}, one.remedy});
    if (is_stopped(looked)) {
        std::string& last = problems.back().remedy;
        last += std::string(last.empty() ? "" : "\n    ") +
                "Nothing is calculated until this is put right" +
                (may_despite && looked.unworkable.empty() ? "; --despite-stops calculates anyway."
                                                          : ".");
    }
    throw base::InputError(std::move(problems));
}

/// No banner can stand in a picture or a page.
void refuse_without_banner(const Values& values, const std::string& format) {
    const bool drawn = values.given("picture") || values.given("chart") || values.given("html") ||
                       values.given("pdf") || values.given("bar") || format == "html" ||
                       format == "pdf";
    if (drawn)
        refuse_option(despite, "a page or a picture cannot say that it must not be relied on",
                      "it without one", "Put the stops right first.");
}

int answer(const Command& command, Cautions where, const Values& values, const World& world) {
    const std::string format = values.one("format").value_or("text");
    Looked looked = look_through(values);
    report::Checked& checked = looked.checked;
    const bool stopped = is_stopped(looked);
    const bool json = format == "json";
    if (!looked.unworkable.empty()) refuse(looked, false);
    if (stopped && !values.given(despite)) {
        if (json) {
            report::Checked stops = checked;
            std::erase_if(stops.findings, [](const auto& one) { return !is_stop(one); });
            *world.out << report::check_json(stops);
        }
        refuse(looked, true);
    }
    if (checked.findings.empty()) return command.run(values, world);
    if (stopped) refuse_without_banner(values, format);
    if (json) {
        std::ostringstream out;
        World inner = world;
        inner.out = &out;
        const int code = command.run(values, inner);
        *world.out << report::with_findings(out.str(), checked);
        return code;
    }
    const bool words = format == "text" || format == "markdown";
    if (stopped) (words ? *world.out : *world.err) << report::stops_banner(checked);
    const bool below = format == "text" && where == Cautions::below && !values.given("slip");
    if (!below) {
        const int code = command.run(values, world);
        *world.err << report::cautions_text(checked, false);
        return code;
    }
    std::ostringstream out;
    World inner = world;
    inner.out = &out;
    const int code = command.run(values, inner);
    const std::string said = out.str();
    const std::size_t verdict = std::min(said.find('\n'), said.size() - 1) + 1;
    const std::string rest = said.substr(verdict);
    *world.out << said.substr(0, verdict) << report::cautions_text(checked, true)
               << (rest.empty() || rest.front() == '\n' ? "" : "\n") << rest;
    return code;
}

/// Keys of a file mean nothing to whoever gave options: sentences that hold some are left out.
std::string without_keys(const std::string& remedy) {
    if (remedy.find('[') == std::string::npos && remedy.find(" = ") == std::string::npos)
        return remedy;
    std::string out;
    std::size_t at = 0;
    while (at < remedy.size()) {
        std::size_t end = at;
        while (end < remedy.size() && !((remedy[end] == '.' || remedy[end] == '?') &&
                                        (end + 1 == remedy.size() || remedy[end + 1] == ' ')))
            ++end;
        const std::string one = remedy.substr(at, end + 1 - at);
        if (one.find('[') == std::string::npos && one.find(" = ") == std::string::npos) out += one;
        at = end + 1;
    }
    return std::string(base::trimmed(out));
}

/// Nobody wrote the lines of a make told by options, nor its keys.
base::Problems of_no_file(base::Problems problems) {
    for (base::Problem& problem : problems) {
        if (!problem.place.file.empty() || problem.place.line == 0) continue;
        problem.place = {};
        problem.remedy = without_keys(problem.remedy);
    }
    return problems;
}

}  // namespace

void refuse_stops(const project::Project& project) {
    Looked looked;
    look_at(project, looked);
    // What an unknown stitch takes is missing for want of its name: that is told once.
    if (is_stopped(looked) && !need::unknown_stitches(project, 0).empty())
        looked.unworkable.clear();
    for (project::Finding& one : looked.checked.findings) one.remedy = without_keys(one.remedy);
    if (is_stopped(looked) || !looked.unworkable.empty()) refuse(looked, false);
}

void tell_cautions(const project::Project& project, const World& world) {
    Looked looked;
    look_at(project, looked);
    for (project::Finding& one : looked.checked.findings) {
        one.place = {};
        if (const std::string remedy = without_keys(one.remedy); !remedy.empty())
            one.what += ". " + remedy;
    }
    *world.err << report::cautions_text(looked.checked, false);
}

Command stops_first(Command command, Cautions where) {
    command.options.push_back(
        {despite, "", "calculate even when a figure cannot be right, with a warning", false});
    command.run = [inner = command, where](const Values& values, const World& world) {
        try {
            return answer(inner, where, values, world);
        } catch (const base::InputError& error) {
            if (values.given(positional)) throw;
            throw base::InputError(of_no_file(error.problems()));
        }
    };
    return command;
}

}  // namespace skeinfall::cli
