#include <cstddef>
#include <optional>
#include <ostream>
#include <string>
#include <vector>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/cover/cover.hpp"
#include "skeinfall/joins/answer.hpp"
#include "skeinfall/materials/on_offer.hpp"
#include "skeinfall/materials/section.hpp"
#include "skeinfall/plan/make_plan.hpp"
#include "skeinfall/report/charts.hpp"
#include "skeinfall/report/makers_page.hpp"
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

/// The piece that a page for makers offers wider and longer.
std::optional<std::size_t> piece_offered(const Values& values, const project::Project& project) {
    const auto name = values.one("piece");
    if (!name) return std::nullopt;
    if (project.sizes.size() > 1)
        refuse_option("piece", "the project has sizes of its own", "the page without it", "");
    std::vector<std::string> names;
    for (std::size_t at = 0; at < project.pieces.size(); ++at) {
        if (base::same_word(project.pieces[at].name, *name)) return at;
        names.push_back(project.pieces[at].name);
    }
    refuse_option("piece", "the project has no piece " + base::quoted(*name),
                  names.empty() ? "a project with pieces" : base::join(names, ", "),
                  base::did_you_mean(base::nearest_name(*name, names)));
}

int run_for_makers(const Values& values, const World& world) {
    for (const char* option :
         {"picture", "bar", "margin", "prefer", "confidence", "scale", "tare", "stash", "have"})
        if (values.given(option))
            refuse_option(option, "a page for makers holds nothing of a stash",
                          "--for-makers with --html, --pdf, --paper, --size, --piece and how "
                          "numbers are written",
                          "Leave one of the two out.");
    const auto html = values.one("html");
    const auto pdf = values.one("pdf");
    if (!html && !pdf)
        throw base::InputError(base::Problem{"no file is named for the page for makers",
                                             {},
                                             "--html or --pdf with the name of a file",
                                             "Write for example --html cowl.html."});
    const report::Paper paper = paper_of(values);
    const report::Style style = style_of(values);
    const Read read = read_asked(values, world);
    // It is for other hands than the one that finished makes taught.
    project::Project project = read.project;
    project.hand.reset();
    const materials::Section section = materials::section_of(project);
    const materials::Offer offer =
        materials::sizes_on_offer(project, section, piece_offered(values, project));
    const need::MakeNeed need = need::need_of(project, read.size);
    const report::MakersPage page{project, need, section, offer, style};
    if (html) write_output("html", *html, drawing().makers_page_html(page), values, world);
    if (pdf) write_output("pdf", *pdf, drawing().makers_page_pdf(page, paper), values, world);
    *world.out << report::offer_text(project, offer);
    return done;
}

int run_report(const Values& values, const World& world) {
    if (values.given("for-makers")) return run_for_makers(values, world);
    if (values.given("piece"))
        refuse_option("piece", "it goes with --for-makers", "--for-makers as well", "");
    const auto html = values.one("html");
    const auto pdf = values.one("pdf");
    const auto bar = values.one("bar");
    const auto picture = values.one("picture");
    if (!html && !pdf && !bar && !picture)
        throw base::InputError(
            base::Problem{"no file is named for the page",
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

    // Files first: what cannot be written is no answer.
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
    *world.out << report::page_head_text(page);
    return cover.verdict == cover::Verdict::covered ? done : not_so;
}

}  // namespace

Command report_command() {
    Command command;
    command.name = "report";
    command.tells_rows = true;
    command.arguments = "PROJECT.toml";
    command.summary = "a page to keep beside the work: yarn, joins, stop weights, row ticks";
    command.purpose =
        "What do I keep beside the work? Writes one page for one make in one size: is\n"
        "there enough yarn, where it is joined, the weights at which to stop, the\n"
        "materials, and every row with a box to tick. The HTML page is one file, works\n"
        "without a network and keeps its ticks in the browser.\n"
        "\n"
        "With --for-makers it writes a page to publish beside a pattern instead: makers\n"
        "choose a size and see what it takes. It holds nothing of your stash.";
    command.options = {
        {"html", "FILE", "write the page as HTML", false},
        {"pdf", "FILE", "write the page as PDF", false},
        {"picture", "FILE",
         "draw only the make as it will look: a name ending in .svg, .pdf or .png", false},
        {"bar", "FILE", "draw only the cover bar: a name ending in .svg, .pdf or .png", false},
        {"for-makers", "",
         "a page to publish beside a pattern: width and length in whole repeats, or its sizes, "
         "and what each takes; with --html or --pdf",
         false},
        {"piece", "NAME",
         "with --for-makers, of several pieces: the one that is made wider and longer", false},
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
         "the same to print on Letter"},
        {"skeinfall report sample_stash/projects/long-ferry-wrap.toml --for-makers --html "
         "wrap.html",
         "a page for those who buy the pattern"}};
    command.run = run_report;
    return command;
}

}  // namespace skeinfall::cli
