#include "skeinfall/report/reading.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <string_view>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/proposal_text.hpp"
#include "skeinfall/report/detail/json_words.hpp"
#include "skeinfall/report/words.hpp"
#include "skeinfall/units/format.hpp"

namespace skeinfall::report {
namespace {

using notation::Document;
using notation::DocumentPart;
using notation::RowReading;
using notation::Section;
using State = RowReading::State;

std::string_view state_name(State state) {
    switch (state) {
        case State::foundation:
            return "foundation";
        case State::read:
            return "read";
        case State::two_ways:
            return "two ways";
        case State::disagrees:
            return "disagrees";
        case State::unread:
            return "not read";
        case State::adrift:
            return "adrift";
    }
    return "read";
}

std::string_view part_name(DocumentPart::What what) {
    using What = DocumentPart::What;
    switch (what) {
        case What::title:
            return "title";
        case What::materials:
            return "materials";
        case What::gauge:
            return "gauge";
        case What::size:
            return "size";
        case What::notes:
            return "note";
        case What::abbreviations:
            return "abbreviations";
        case What::stitches:
            return "stitches";
        case What::heading:
            return "heading";
        case What::finishing:
            return "finishing";
        case What::remark:
            return "remark";
        case What::may_work:
            return "may hold work";
    }
    return "remark";
}

std::string_view why_text(std::string_view code) {
    if (code == "finishing") return "done after the row";
    if (code == "joining") return "joins the round";
    if (code == "place") return "says how or where, not how many";
    if (code == "tool") return "a tool or a yarn";
    return "a remark";
}

std::int64_t whole(units::StitchCount count) {
    return std::llround(count.value());
}

struct LineCounts {
    std::size_t all = 0;
    std::size_t read = 0;
};

LineCounts lines_of(const Document& document) {
    LineCounts out;
    for (const Section& section : document.sections) {
        out.all += section.rows_lines;
        out.read += section.rows_read;
    }
    return out;
}

bool only_aside(const RowReading& reading) {
    return reading.rows == 0 && reading.state == State::read && !reading.aside.empty();
}

bool good(const RowReading& reading) {
    return reading.state == State::read || reading.state == State::foundation;
}

std::string rows_text(const RowReading& reading) {
    if (reading.state == State::foundation) return "start";
    if (reading.rows == 0) return "-";
    if (reading.rows == 1) return fmt::format("{}", reading.first_row);
    if (reading.apart.size() > 3)
        return fmt::format("{}, {} .. {}", reading.apart[0], reading.apart[1],
                           reading.apart.back());
    if (!reading.apart.empty()) return fmt::format("{}", fmt::join(reading.apart, ", "));
    return fmt::format("{}-{}", reading.first_row, reading.first_row + reading.rows - 1);
}

std::string count_text(const RowReading& reading) {
    if (!reading.stitches)
        return reading.declared ? fmt::format("({})", whole(*reading.declared)) : "";
    std::string out = fmt::format("{}", whole(*reading.stitches));
    if (reading.state == State::disagrees && reading.declared &&
        whole(*reading.declared) != whole(*reading.stitches))
        out += fmt::format("/{}", whole(*reading.declared));
    return out;
}

std::string mark_of(const RowReading& reading) {
    switch (reading.state) {
        case State::unread:
        case State::adrift:
            return "?";
        case State::disagrees:
            return "!";
        case State::two_ways:
            return "~";
        default:
            return " ";
    }
}

void add_section(std::string& out, const Section& section, std::size_t number, bool one) {
    std::string name = base::shown_inert(section.name);
    if (name.empty()) name = one ? "Rows" : fmt::format("Part {}", number);
    out += fmt::format("\n{}{}, worked {}\n", name,
                       section.times > 1 ? fmt::format(" ({} times)", section.times) : "",
                       section.round ? "in rounds" : "in rows");
    for (const RowReading& reading : section.readings) {
        if (only_aside(reading)) {
            out += fmt::format("  {:>9} {:>9} - {}\n", "", "", base::shown_inert(reading.words));
            continue;
        }
        out += fmt::format("  {:>9} {:>9} {} {}\n", rows_text(reading), count_text(reading),
                           mark_of(reading), base::shown_inert(reading.words));
    }
}

void add_problems(std::string& out, const Document& document) {
    std::string told;
    const auto place = [](const base::Place& where) {
        return where.line > 0 ? fmt::format("line {}, column {}", where.line, where.column)
                              : std::string("the pattern");
    };
    const auto add = [&](const base::Place& where, const std::string& what,
                         const std::string& remedy) {
        told += fmt::format("  {}: {}\n", place(where), base::shown_inert(what));
        if (!remedy.empty()) told += fmt::format("      {}\n", base::shown_inert(remedy));
    };
    for (const Section& section : document.sections) {
        for (const base::Problem& problem : section.problems)
            add(problem.place, problem.what, problem.remedy);
        for (const RowReading& reading : section.readings) {
            if (reading.problem)
                add(reading.problem->place, reading.problem->what, reading.problem->remedy);
            if (reading.proposal && !notation::told_in_remedy(reading))
                told += fmt::format("      {}\n", notation::text(*reading.proposal));
            for (const project::Finding& finding : reading.findings)
                if (finding.severity != project::Severity::ok && !reading.problem)
                    add(finding.place, finding.what, finding.remedy);
        }
    }
    for (const DocumentPart& part : document.parts) {
        if (part.what == DocumentPart::What::may_work)
            told += fmt::format(
                "  line {}: {} may hold work, or say how many or with how many strands\n"
                "      {}\n",
                part.line, base::quoted(part.text),
                part.remedy.empty() ? "Write it as rows, as a count or as a swatch. If it is only "
                                      "a remark, put \"Note:\" before it."
                                    : base::shown_inert(part.remedy));
        else if (part.what == DocumentPart::What::finishing && part.work)
            told += fmt::format("  line {}: {} uses yarn but is not in any row\n      {}\n",
                                part.line, base::quoted(part.text),
                                part.remedy.empty()
                                    ? "Write it as a part of the finish, unless a total of the "
                                      "pattern holds it."
                                    : base::shown_inert(part.remedy));
    }
    if (!told.empty()) out += "\nLines to check\n" + told;
    std::string choices;
    for (const Section& section : document.sections)
        for (const RowReading& reading : section.readings)
            for (const project::Finding& finding : reading.findings)
                if (finding.severity == project::Severity::ok)
                    choices += fmt::format("  {}: {}\n", place(finding.place),
                                           base::shown_inert(finding.what));
    if (!choices.empty()) out += "\nHow it was read\n" + choices;
}

void add_aside(std::string& out, const Document& document) {
    std::string told;
    for (const Section& section : document.sections)
        for (std::size_t i = 0; i < section.readings.size(); ++i)
            for (const notation::WordsAside& aside : section.readings[i].aside)
                told += fmt::format("  line {}: \"{}\" ({})\n", section.reading_lines[i],
                                    base::shown_inert(aside.words), why_text(aside.why));
    if (!told.empty()) out += "\nWords of rows that carry no work\n" + told;
    told.clear();
    for (const DocumentPart& part : document.parts)
        told += fmt::format("  line {}, {}: {}\n", part.line, part_name(part.what),
                            base::shown_inert(part.text));
    if (!told.empty()) out += "\nNot rows\n" + told;
    told.clear();
    for (const notation::Definition& one : document.definitions)
        told += fmt::format("  {}: {}\n", base::shown_inert(one.stitch.name),
                            base::shown_inert(one.meaning));
    if (!told.empty()) out += "\nThe pattern's own stitches\n" + told;
}

}  // namespace

bool reads_whole(const Document& document) {
    if (document.sections.empty()) return false;
    return std::all_of(document.sections.begin(), document.sections.end(),
                       [](const Section& section) {
                           return section.problems.empty() &&
                                  std::all_of(section.readings.begin(), section.readings.end(),
                                              good);
                       }) &&
           std::none_of(document.parts.begin(), document.parts.end(),
                        [](const auto& part) { return part.what == DocumentPart::What::may_work; });
}

std::string reading_text(const Document& document, const std::string& file) {
    const LineCounts lines = lines_of(document);
    std::string out = base::shown_inert(document.title.empty() ? file : document.title) + "\n\n";
    if (lines.all == 0)
        return out +
               "No rows were found in it. Rows begin like \"Row 1: ...\", \"Cast on 40 sts\" "
               "or \"Ch 31\".\n";
    const auto may = std::count_if(document.parts.begin(), document.parts.end(), [](const auto& p) {
        return p.what == DocumentPart::What::may_work;
    });
    if (reads_whole(document))
        out += fmt::format("All of it is read: {}.\n", counted(static_cast<std::int64_t>(lines.all),
                                                               "line of rows", "lines of rows"));
    else
        out += fmt::format(
            "{} of {} are read{}; see \"Lines to check\".\n", lines.read,
            counted(static_cast<std::int64_t>(lines.all), "line of rows", "lines of rows"),
            may > 0 ? fmt::format(", and {} more may hold work", may) : "");
    out += fmt::format("Read as {} in {} terms{}.\n",
                       document.craft == project::Craft::knit ? "knitting" : "crochet",
                       document.terms == project::Terms::us ? "US" : "UK",
                       document.sizes > 1 ? fmt::format(", {} sizes", document.sizes) : "");
    if (document.stitch_gauge)
        out += "Gauge: " + units::text(*document.stitch_gauge, units::shown::per_4in,
                                       units::Step::tenth, units::Rounding::nearest);
    if (document.stitch_gauge && document.row_gauge)
        out += ", " + units::text(*document.row_gauge, units::shown::rows_per_4in,
                                  units::Step::tenth, units::Rounding::nearest);
    if (document.stitch_gauge) out += "\n";
    std::size_t number = 0;
    for (const Section& section : document.sections)
        add_section(out, section, ++number, document.sections.size() == 1);
    out +=
        "\nThe second column is the stitch count after the row; 15/18: the words make 15, the "
        "pattern says 18.\n? not read, ! does not agree, ~ can be read two ways, - no work.\n";
    add_problems(out, document);
    add_aside(out, document);
    return out;
}

std::string reading_json(const Document& document) {
    const LineCounts lines = lines_of(document);
    Json out;
    out["title"] = document.title;
    out["craft"] = document.craft == project::Craft::knit ? "knit" : "crochet";
    out["terms"] = document.terms == project::Terms::us ? "US" : "UK";
    out["sizes"] = document.sizes;
    out["whole"] = reads_whole(document);
    out["lines"] = lines.all;
    out["lines_read"] = lines.read;
    out["definitions"] = Json::array();
    for (const notation::Definition& one : document.definitions)
        out["definitions"].push_back(
            {{"name", one.stitch.name}, {"meaning", one.meaning}, {"followed", one.followed}});
    out["sections"] = Json::array();
    for (const Section& section : document.sections) {
        Json of_section;
        of_section["name"] = section.name;
        of_section["times"] = section.times;
        of_section["round"] = section.round;
        of_section["rows"] = Json::array();
        for (std::size_t i = 0; i < section.readings.size(); ++i) {
            const RowReading& reading = section.readings[i];
            Json one;
            one["line"] = section.reading_lines[i];
            one["words"] = reading.words;
            one["first_row"] = reading.first_row;
            one["rows"] = reading.rows;
            if (!reading.apart.empty()) one["row_numbers"] = reading.apart;
            one["state"] = only_aside(reading) ? "no work" : state_name(reading.state);
            one["stitches"] = reading.stitches ? Json(whole(*reading.stitches)) : Json();
            one["declared"] = reading.declared ? Json(whole(*reading.declared)) : Json();
            one["kinds"] = Json::object();
            for (const project::KindCount& kind : reading.kinds)
                one["kinds"][kind.kind] = whole(kind.count);
            for (const project::ColourWork& colour : reading.colours)
                one["colours"].push_back({{"yarn", colour.role},
                                          {"stitches", whole(colour.stitches)},
                                          {"carried", whole(colour.carried)}});
            one["findings"] = Json::array();
            for (const project::Finding& finding : reading.findings)
                one["findings"].push_back(finding.what);
            one["problem"] = Json();
            if (reading.problem)
                one["problem"] = {{"line", reading.problem->place.line},
                                  {"column", reading.problem->place.column},
                                  {"what", reading.problem->what},
                                  {"remedy", reading.problem->remedy}};
            one["proposal"] = Json();
            if (reading.proposal)
                one["proposal"] = {
                    {"words", reading.proposal->words},
                    {"instead", reading.proposal->instead},
                    {"makes", whole(reading.proposal->makes)},
                    {"counted", reading.proposal->counted},
                    {"guess", reading.proposal->guess},
                    {"why", reading.proposal->why.empty() ? Json() : Json(reading.proposal->why)}};
            one["set_aside"] = Json::array();
            for (const notation::WordsAside& aside : reading.aside)
                one["set_aside"].push_back({{"words", aside.words}, {"why", aside.why}});
            of_section["rows"].push_back(one);
        }
        out["sections"].push_back(of_section);
    }
    out["parts"] = Json::array();
    for (const DocumentPart& part : document.parts)
        out["parts"].push_back({{"line", part.line},
                                {"what", part_name(part.what)},
                                {"text", part.text},
                                {"remedy", part.remedy.empty() ? Json() : Json(part.remedy)}});
    return finished(out);
}

}  // namespace skeinfall::report
