#include "skeinfall/report/check.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <string_view>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/detail/json_words.hpp"
#include "skeinfall/report/words.hpp"

namespace skeinfall::report {
namespace {

using project::Finding;
using project::Severity;

std::string_view name_of(Severity severity) {
    static constexpr std::array<std::string_view, 3> names{"ok", "caution", "stop"};
    return names.at(static_cast<std::size_t>(severity));
}

std::int64_t count(const Checked& checked, Severity severity) {
    return static_cast<std::int64_t>(
        std::count_if(checked.findings.begin(), checked.findings.end(),
                      [&](const Finding& finding) { return finding.severity == severity; }));
}

std::string place_in_file(const base::Place& place) {
    std::string out = base::shown_inert(place.file);
    if (place.line > 0) out += fmt::format(":{}:{}", place.line, place.column);
    return out;
}

std::string line_of(const Finding& finding) {
    const bool placed = !finding.place.file.empty() || finding.place.line > 0;
    return fmt::format("{}{}: {}", placed ? place_in_file(finding.place) + ": " : std::string(),
                       name_of(finding.severity), base::shown_inert(finding.what));
}

Json finding_json(const Finding& finding) {
    Json one;
    one["severity"] = name_of(finding.severity);
    one["file"] = finding.place.file;
    one["line"] = finding.place.line > 0 ? Json(finding.place.line) : Json();
    one["column"] = finding.place.line > 0 ? Json(finding.place.column) : Json();
    one["what"] = finding.what;
    one["remedy"] = finding.remedy;
    return one;
}

}  // namespace

std::string check_text(const Checked& checked) {
    const std::string title = base::shown_inert(checked.title);
    if (checked.findings.empty()) return title + ": no contradictions found\n";
    const std::int64_t stops = count(checked, Severity::stop);
    const std::string cautions = counted(count(checked, Severity::caution), "caution", "cautions");
    std::string out =
        title + ": " +
        (stops > 0 ? counted(stops, "stop", "stops") +
                         (count(checked, Severity::caution) > 0 ? ", " + cautions : std::string())
                   : cautions) +
        "\n\n";
    for (const Finding& finding : checked.findings) {
        out += line_of(finding) + "\n";
        if (!finding.remedy.empty()) out += "    " + base::shown_inert(finding.remedy) + "\n";
    }
    return out;
}

std::string check_json(const Checked& checked) {
    Json out;
    out["title"] = checked.title;
    out["stops"] = count(checked, Severity::stop);
    out["cautions"] = count(checked, Severity::caution);
    out["findings"] = Json::array();
    for (const Finding& finding : checked.findings)
        out["findings"].push_back(finding_json(finding));
    return finished(out);
}

std::string stops_banner(const Checked& checked) {
    std::string out = "NOT TO BE RELIED ON: the project cannot be as it is written (" +
                      counted(count(checked, Severity::stop), "stop", "stops") + ").\n";
    for (const Finding& finding : checked.findings)
        if (finding.severity == Severity::stop) out += "  " + line_of(finding) + "\n";
    return out + "\n";
}

std::string cautions_text(const Checked& checked, bool below) {
    std::string out;
    for (const Finding& finding : checked.findings) {
        if (finding.severity != Severity::caution) continue;
        out += (below ? "  " : "") + line_of(finding) + "\n";
        if (below && !finding.remedy.empty())
            out += "      " + base::shown_inert(finding.remedy) + "\n";
    }
    if (out.empty() || !below) return out;
    return std::string("\nCheck this first: the answer is only as good as ") +
           (count(checked, Severity::caution) == 1 ? "this figure" : "these figures") + "\n" + out;
}

std::string with_findings(const std::string& json, const Checked& checked) {
    Json out;
    const auto add = [&](const char* key, Severity severity) {
        for (const Finding& finding : checked.findings)
            if (finding.severity == severity) out[key].push_back(finding_json(finding));
    };
    add("stops", Severity::stop);
    add("cautions", Severity::caution);
    const Json answer = Json::parse(json);
    for (const auto& [key, value] : answer.items()) out[key] = value;
    return finished(out);
}

}  // namespace skeinfall::report
