#include <ostream>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/cover/cover.hpp"
#include "skeinfall/joins/answer.hpp"
#include "skeinfall/materials/section.hpp"
#include "skeinfall/plan/make_plan.hpp"
#include "skeinfall/report/charts.hpp"
#include "skeinfall/report/page.hpp"
#include "skeinfall/report/words.hpp"

#include "commands.hpp"
#include "drawing.hpp"
#include "exit_code.hpp"
#include "make_options.hpp"
#include "output_file.hpp"
#include "planning.hpp"
#include "style_options.hpp"

namespace skeinfall::cli {
namespace {

int run_report(const Values& values, const World& world) {
    const auto html = values.one("html");
    const auto pdf = values.one("pdf");
    const auto bar = values.one("bar");
    const auto picture = values.one("picture");
    if (!html && !pdf && !bar && !picture)
        throw base::InputError(
            base::Problem{"nothing says where the page goes",
                          {},
                          "--html, --pdf, --picture or --bar with the name of a file",
                          "Write for example --html cowl.html."});
    if (bar) static_cast<void>(picture_format("bar", *bar));
    if (picture) static_cast<void>(picture_format("picture", *picture));
    const report::Paper paper = paper_of(values);
    const report::Style style = style_of(values);
    Read read = read_asked(values, world);
    const project::Project& project = read.project;
    const std::size_t size = read.size;
    const cover::Rules& rules = read.rules;
    const std::vector<stash::Skein> stash = stash_for(values, world, {&read});
    joins::Request request;
    request.scale = scale_of(values);
    const plan::MakePlan plan = plan::plan_make(project, size, stash, rules, request);
    const cover::MakeCover& cover = plan.cover;
    const materials::Section materials = materials::section_of(project);
    const report::MakePage page{project, plan.need, cover, rules, plan.joins, materials, style};

    *world.out << cover::name_of(cover.verdict) << ": " << report::title_text(project, size)
               << "\n";
    if (html) write_output("html", *html, drawing().page_html(page), values, world);
    if (pdf) write_output("pdf", *pdf, drawing().page_pdf(page, paper), values, world);
    if (picture)
        write_output("picture", *picture,
                     drawing().make_picture(page, picture_format("picture", *picture)), values,
                     world);
    if (bar)
        write_output("bar", *bar,
                     drawing().cover_bar(project, cover, rules, picture_format("bar", *bar)),
                     values, world);
    return cover.verdict == cover::Verdict::covered ? done : not_so;
}

}  // namespace

Command report_command() {
    Command command;
    command.name = "report";
    command.arguments = "PROJECT.toml";
    command.summary = "a page to keep beside the work: yarn, joins, stop weights, row ticks";
    command.purpose =
        "What do I keep beside the work? Writes one page for one make in one size: is\n"
        "there enough yarn, where it is joined, the weights at which to stop, the\n"
        "materials, and every row with a box to tick. The HTML page is one file, works\n"
        "without a network and keeps its ticks in the browser.";
    command.options = {
        {"html", "FILE", "write the page as HTML", false},
        {"pdf", "FILE", "write the page as PDF", false},
        {"picture", "FILE",
         "draw only the make as it will look: a name ending in .svg, .pdf or .png", false},
        {"bar", "FILE", "draw only the cover bar: a name ending in .svg, .pdf or .png", false},
        replace_option(),
        paper_option(),
        margin_option(),
        prefer_option(),
        confidence_option(),
        size_option(),
        work_scale_option(),
        work_tare_option(),
        stash_option()};
    for (Option& option : style_options()) command.options.push_back(std::move(option));
    take_makes(command);
    command.examples = {
        {"skeinfall report sample_stash/projects/lantern-cowl.toml --html cowl.html",
         "a page for the phone or the printer"},
        {"skeinfall report sample_stash/projects/lantern-cowl.toml --pdf cowl.pdf --paper letter",
         "the same to print on Letter"}};
    command.run = run_report;
    return command;
}

}  // namespace skeinfall::cli
