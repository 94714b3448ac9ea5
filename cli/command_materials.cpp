#include <algorithm>
#include <array>
#include <ostream>

#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/returns_csv.hpp"
#include "skeinfall/exchange/text_file.hpp"
#include "skeinfall/materials/lint.hpp"
#include "skeinfall/materials/section.hpp"
#include "skeinfall/report/charts.hpp"
#include "skeinfall/report/check.hpp"
#include "skeinfall/report/json.hpp"
#include "skeinfall/report/materials.hpp"
#include "skeinfall/report/tester_form.hpp"

#include "commands.hpp"
#include "drawing.hpp"
#include "exit_code.hpp"
#include "make_options.hpp"
#include "options.hpp"
#include "output_file.hpp"
#include "planning.hpp"
#include "style_options.hpp"

namespace skeinfall::cli {
namespace {

/// The value of an option that takes one of a few words, as its index; the first when not given.
std::size_t word_of(const Values& values, const std::string& option,
                    const std::vector<std::string>& words) {
    const auto text = values.one(option);
    if (!text) return 0;
    const auto found = std::find_if(words.begin(), words.end(), [&](const std::string& word) {
        return base::same_word(word, *text);
    });
    if (found == words.end()) {
        const auto near = base::nearest_name(*text, words);
        refuse_option(option, base::quoted(*text) + " is not one of the choices",
                      base::join(words, ", "), base::did_you_mean(near));
    }
    return static_cast<std::size_t>(found - words.begin());
}

project::Project project_with_returns(const Values& values, const World& world) {
    const auto sheet = values.one("returns");
    if (!sheet) return project_of(values, world);
    const auto file = values.one(positional);
    if (!file)
        refuse_option("returns", "no project says what the testers made", "a project file", "");
    return exchange::with_returns(exchange::read_text_file(*file), *file,
                                  exchange::read_text_file(*sheet), *sheet,
                                  values.settings().project);
}

}  // namespace

std::vector<Option> style_options() {
    return {{"units", "WHICH", "both (default), metric or imperial", false},
            {"terms", "SET", "of the materials section: US or UK; else the project's", false},
            {"decimal", "MARK", "point or comma; else the settings', else a point", false},
            {"language", "CODE",
             "of the materials section: " + base::join(report::languages(), ", "), false}};
}

units::NumberStyle number_style_of(const Values& values) {
    using units::Systems;
    units::NumberStyle style;
    constexpr std::array systems{Systems::both, Systems::metric, Systems::imperial};
    style.systems = systems.at(word_of(values, "units", {"both", "metric", "imperial"}));
    style.yarn_in_grams = values.in_grams();
    style.metres_first = values.settings().units == exchange::FirstUnits::metres;
    style.decimal_mark = values.settings().decimal_mark.value_or('.');
    if (values.given("decimal"))
        style.decimal_mark = word_of(values, "decimal", {"point", "comma"}) == 1 ? ',' : '.';
    return style;
}

report::Style style_of(const Values& values) {
    report::Style style;
    style.numbers = number_style_of(values);
    if (values.given("terms"))
        style.terms =
            word_of(values, "terms", {"US", "UK"}) == 0 ? project::Terms::us : project::Terms::uk;
    const std::vector<std::string> languages = report::languages();
    style.language = languages.at(word_of(values, "language", languages));
    return style;
}

Option paper_option() {
    return {"paper", "SIZE", "of a PDF: A4 (default) or Letter", false};
}

report::Paper paper_of(const Values& values) {
    return word_of(values, "paper", {"A4", "Letter"}) == 0 ? report::Paper::a4
                                                           : report::Paper::letter;
}

Command materials_command() {
    Command command;
    command.name = "materials";
    command.no.clear();
    command.arguments = "PROJECT.toml";
    command.summary = "the materials section of a pattern, for every size";
    command.purpose =
        "What does a reader of the pattern need? Writes the materials section: yarn by\n"
        "weight class with totals in yards and metres and whole skeins, tools, gauge,\n"
        "notions, finished sizes in both systems, cautions. A total is what nine makers\n"
        "in ten stay within, and holds no margin beside that; with totals_for = \"middle\"\n"
        "or counted in whole skeins it is the figure itself with the margin.";
    command.options = style_options();
    command.options.push_back(
        format_option("text (default), markdown, html, html-fragment, json or pdf"));
    command.options.push_back(paper_option());
    command.options.push_back({"chart", "FILE",
                               "draw the yarn over the sizes: a name ending in .svg, .pdf or .png",
                               false});
    command.options.push_back(replace_option());
    command.options.push_back(
        {"no-chart", "", "leave the chart of several sizes out of html and pdf", false});
    command.options.push_back(
        {"testers", "", "list what every tester took instead, for the designer", false});
    command.options.push_back(
        {"returns", "FILE.csv",
         "testers' returns as a sheet beside the project's own: name, size, yarn, before, after, "
         "scale and more",
         false});
    command.options.push_back(
        {"tester-form", "", "a form to send to testers instead: what to weigh, and when", false});
    take_makes_without_skeins(command);
    command.examples = {
        {"skeinfall materials sample_stash/projects/lantern-cowl.toml", "the section as text"},
        {"skeinfall materials sample_stash/projects/lantern-cowl.toml --format markdown",
         "the same to paste into a pattern"},
        {"skeinfall materials sample_stash/projects/lantern-cowl.toml --format html-fragment",
         "the same to paste into a web page, in its own look"},
        {"skeinfall materials sample_stash/projects/lantern-cowl.toml --units metric --terms UK",
         "for makers who measure in metres and read UK terms"}};
    command.run = [](const Values& values, const World& world) -> int {
        const std::string format =
            format_of(values, {"text", "markdown", "html", "html-fragment", "json", "pdf"});
        const report::Style style = style_of(values);
        const report::Paper paper = paper_of(values);
        const report::Chart chart =
            values.given("no-chart") ? report::Chart::no : report::Chart::yes;
        const project::Project project = project_with_returns(values, world);
        if (values.given("tester-form")) {
            *world.out << report::tester_form(project);
            return done;
        }
        const materials::Section section = materials::section_of(project);
        if (values.given("testers")) {
            *world.out << report::testers_text(project, section);
            return done;
        }
        for (const std::string& note : report::designers_notes(section))
            *world.err << "note: " << note << "; --testers lists them\n";
        *world.err << report::cautions_text(
            {project.title, materials::sizes_out_of_line(project, section)}, false);
        if (const auto file = values.one("chart"))
            write_output("chart", *file,
                         drawing().grading_chart(section, style, picture_format("chart", *file)),
                         values, world);
        *world.out << (format == "json"   ? report::materials_json(section)
                       : format == "html" ? drawing().materials_html(section, style, chart)
                       : format == "html-fragment"
                           ? drawing().materials_fragment(section, style, chart)
                       : format == "pdf"
                           ? drawing().materials_pdf(section, style, paper, chart)
                           : report::materials_text(section,
                                                    format == "markdown" ? report::Markup::markdown
                                                                         : report::Markup::plain,
                                                    style));
        return done;
    };
    return command;
}

}  // namespace skeinfall::cli
