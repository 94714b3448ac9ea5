#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <ostream>

#include "skeinfall/base/name.hpp"
#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/colours/stripes.hpp"
#include "skeinfall/exchange/project_edit.hpp"
#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/exchange/text_file.hpp"
#include "skeinfall/materials/section.hpp"
#include "skeinfall/report/page.hpp"
#include "skeinfall/report/stripes.hpp"
#include "skeinfall/units/parse.hpp"

#include "commands.hpp"
#include "drawing.hpp"
#include "exit_code.hpp"
#include "output_file.hpp"
#include "planning.hpp"

namespace skeinfall::cli {
namespace {

using colours::Goal;
using colours::Way;

/// A yarn of the project by its id, or by its colour where that names one alone.
std::string yarn_named(const std::string& option, const std::string& name,
                       const project::Project& project) {
    std::vector<std::string> names;
    for (const project::Role& role : project.roles) {
        if (base::same_word(role.id, name)) return role.id;
        names.push_back(role.id);
    }
    std::vector<std::string> of_colour;
    for (const project::Role& role : project.roles)
        if (!role.colour.empty() && (base::same_name(role.colour, name) ||
                                     base::same_name(role.name + " " + role.colour, name)))
            of_colour.push_back(role.id);
    if (of_colour.size() == 1) return of_colour.front();
    const auto near = base::nearest_name(name, names);
    refuse_option(option, "the project has no yarn " + base::quoted(name), base::join(names, ", "),
                  near ? "Did you mean \"" + *near + "\"?" : "");
}

/// "MC 6" or "6 MC".
project::Stripe stripe_of(const std::string& option, const std::string& text,
                          const project::Project& project) {
    const std::string_view words = base::trimmed(text);
    const auto wrong = [&]() {
        refuse_option(option, base::quoted(words) + " is no stripe",
                      "a yarn and its rows, such as \"MC 6\"", "");
    };
    const std::size_t first = words.find(' ');
    const std::size_t last = words.rfind(' ');
    if (first == std::string_view::npos) wrong();
    const auto is_number = [](std::string_view word) {
        return !word.empty() &&
               (word.front() == '-' || (word.front() >= '0' && word.front() <= '9'));
    };
    const bool rows_last = is_number(words.substr(last + 1));
    if (!rows_last && !is_number(words.substr(0, first))) wrong();
    const std::string number(rows_last ? words.substr(last + 1) : words.substr(0, first));
    const std::string yarn(
        base::trimmed(rows_last ? words.substr(0, last) : words.substr(first + 1)));
    project::Stripe out;
    out.role = yarn_named(option, yarn, project);
    if (number == "0" || number.front() == '-')
        refuse_option(option, "a stripe of " + out.role + " with " + number + " rows",
                      "1 row or more", "The lowest stripe is one row.");
    out.rows = read_option(option, number, units::parse_whole);
    if (out.rows > exchange::largest_count)
        refuse_option(option, "a stripe of " + number + " rows",
                      "at most " + std::to_string(exchange::largest_count) + " rows", "");
    return out;
}

colours::Stripes stripes_of(const std::string& text, const project::Project& project) {
    colours::Stripes out;
    for (const std::string& one : base::split(text, ','))
        out.push_back(stripe_of("stripes", one, project));
    return out;
}

Way way_of(const Values& values) {
    static const std::array<std::pair<const char*, Way>, 5> ways{
        {{"keep-repeat", Way::keep_repeat},
         {"in-proportion", Way::in_proportion},
         {"fade", Way::fade},
         {"fill", Way::fill},
         {"scraps", Way::scraps}}};
    std::optional<std::pair<const char*, Way>> out;
    for (const auto& [option, way] : ways) {
        if (!values.given(option)) continue;
        if (out)
            refuse_option(option, std::string("--") + out->first + " is given too",
                          "one way to plan the colours",
                          "Wishes within a way go in order: see --rank.");
        out = {option, way};
    }
    return out ? out->second : Way::keep_repeat;
}

colours::Goals goals_of(const Values& values, Way way) {
    static const std::map<std::string, Goal> words{
        {"heights", Goal::heights}, {"ends", Goal::ends}, {"leftovers", Goal::leftovers}};
    colours::Goals goals = colours::usual_goals;
    // All colours end together where the largest rest is as small as can be.
    if (way == Way::in_proportion) std::rotate(goals.begin(), goals.begin() + 2, goals.end());
    auto* place = goals.begin();
    for (const std::string& word : values.all("rank")) {
        const auto known = words.find(word);
        if (known == words.end()) {
            const auto near = base::nearest_name(word, {"heights", "ends", "leftovers"});
            refuse_option("rank", base::quoted(word) + " is nothing to go by",
                          "heights, ends, leftovers",
                          near ? "Did you mean \"" + *near + "\"?" : "");
        }
        auto* const found = std::find(goals.begin(), goals.end(), known->second);
        if (found < place) refuse_option("rank", word + " is named twice", "each once", "");
        std::rotate(place, found, found + 1);
        ++place;
    }
    return goals;
}

std::vector<std::size_t> pieces_of(const Values& values, const project::Project& project,
                                   std::size_t size) {
    const auto name = values.one("piece");
    if (!name) return colours::striped_alike(project, size, std::nullopt);
    std::vector<std::string> names;
    for (std::size_t at = 0; at < project.pieces.size(); ++at) {
        if (base::same_word(project.pieces[at].name, *name)) return {at};
        names.push_back(project.pieces[at].name);
    }
    const auto near = base::nearest_name(*name, names);
    refuse_option("piece", "the project has no piece " + base::quoted(*name),
                  base::join(names, ", "), near ? "Did you mean \"" + *near + "\"?" : "");
}

colours::Wish wish_of(const Values& values, const project::Project& project) {
    colours::Wish wish;
    wish.size = size_of(values, project);
    wish.pieces = pieces_of(values, project, wish.size);
    wish.way = way_of(values);
    wish.goals = goals_of(values, wish.way);
    if (const auto text = values.one("stripes"))
        wish.wanted = stripes_of(*text, project);
    else if (!wish.pieces.empty())
        wish.wanted = project.pieces[wish.pieces.front()].stripes;
    // Fades and balls need no heights: every yarn once, in the project's order.
    if (wish.wanted.empty() && (wish.way == Way::fade || wish.way == Way::scraps))
        for (const project::Role& role : project.roles) wish.wanted.push_back({role.id, 1});
    if (const auto text = values.one("edging")) wish.edge = stripe_of("edging", *text, project);
    if (const auto rows = values.one("fade"); rows && *rows != "all")
        wish.fade_rows = read_option("fade", *rows, units::parse_whole);
    if (const auto yarn = values.one("fill")) wish.filler = yarn_named("fill", *yarn, project);
    wish.one_edge = values.given("one-edge");
    return wish;
}

void save(const std::string& file, const project::Project& project, const colours::StripePlan& plan,
          const Values& values, const World& world) {
    if (!plan.found)
        refuse_option("save", "there is no plan that is covered", "heights that are enough",
                      "Nothing was written.");
    std::vector<exchange::PieceEdit> edits;
    for (std::size_t i = 0; i < plan.wish.pieces.size(); ++i) {
        const std::size_t at = plan.wish.pieces[i];
        exchange::PieceEdit edit;
        edit.piece = at;
        edit.stripes = plan.found->stripes[i];
        const long rows =
            project::counts(plan.found->project, plan.found->project.pieces[at], plan.wish.size)
                .rows;
        if (rows != project::counts(project, project.pieces[at], plan.wish.size).rows) {
            edit.rows = project.pieces[at].rows;
            if (edit.rows.values.size() > 1)
                edit.rows.values[plan.wish.size] = rows;
            else
                edit.rows = project::PerSize<long>(rows);
        }
        edits.push_back(std::move(edit));
    }
    const std::string text =
        exchange::edited_project(exchange::read_text_file(project.file), project.file, edits, {});
    // What is written has to be a project, before it is.
    static_cast<void>(exchange::parse_project(text, file));
    write_output("save", file, text, values, world);
}

void draw(const std::string& file, const colours::Striped& shown, const cover::Rules& rules,
          const Values& values, const World& world) {
    const materials::Section materials = materials::section_of(shown.project);
    const report::MakePage page{
        shown.project, shown.plan.need, shown.plan.cover, rules, shown.plan.joins, materials, {}};
    write_output("picture", file, drawing().make_picture(page, picture_format("picture", file)),
                 values, world);
}

int run_stripes(const Values& values, const World& world) {
    const std::string format = format_of(values, {"text", "json", "csv"});
    const auto named = values.one(positional);
    if (!named)
        throw base::InputError(base::Problem{"no project file is named",
                                             {},
                                             "a TOML file with a gauge, yarns and a piece",
                                             "Name one, such as cowl.toml."});
    const project::Project project = project_in(*named, values);
    const colours::Wish wish = wish_of(values, project);
    if (const auto picture = values.one("picture"))
        static_cast<void>(picture_format("picture", *picture));
    const cover::Rules rules = rules_for(values, project, world);
    const std::vector<stash::Skein> stash = skeins_for(values, world, {project.title});
    colours::StripePlan plan;
    std::optional<long> rows_were;
    long step = 0;
    if (values.given("grow")) {
        auto grown = colours::largest_striped(project, stash, rules, wish);
        if (grown) {
            plan = std::move(grown->plan);
            rows_were = grown->rows_were;
            step = grown->step;
        } else {
            plan = colours::plan_stripes(project, stash, rules, wish);
        }
    } else {
        plan = colours::plan_stripes(project, stash, rules, wish);
    }
    const auto file = values.one("save");
    if (file) save(*file, project, plan, values, world);
    const colours::Striped* shown = report::shown_of(plan);
    if (const auto picture = values.one("picture"); picture && shown != nullptr)
        draw(*picture, *shown, rules, values, world);
    const report::StripesAnswer answer{
        project,         plan, rows_were, step, rules, project.file, values.given("list"),
        file.has_value()};
    *world.out << (format == "json"  ? report::stripes_json(answer)
                   : format == "csv" ? report::stripes_csv(answer)
                                     : report::stripes_text(answer));
    return plan.found ? done : not_so;
}

}  // namespace

Command stripes_command() {
    Command command;
    command.name = "stripes";
    command.yes = "every yarn is enough, with the stripes that are shown";
    command.no = "no stripes of these colours are sure to be enough";
    command.arguments = "PROJECT.toml";
    command.summary = "stripes, fades and changes of colour planned from what there is";
    command.purpose =
        "Plans the colours of a piece, or of all pieces that are striped alike, from the skeins\n"
        "there are: heights in whole rows, changed as little as need be so that every yarn is\n"
        "enough. It says what it changed, what is left of each, where every yarn waits, and how\n"
        "many ends there are to weave in. With --save the plan becomes part of the project.";
    command.options = {
        {"stripes", "TEXT", "the stripes you want, as \"MC 6, CC1 4\"; else those of the piece",
         false},
        {"keep-repeat", "", "shift heights between colours, in the repeat as it is (the default)",
         false},
        {"in-proportion", "", "heights such that all colours end together", false},
        {"fade", "ROWS",
         "each colour once, mixed with the next over so many rows; \"all\": as many as can be",
         false},
        {"fill", "YARN", "the other bands stay as they are, this yarn fills up between them",
         false},
        {"scraps", "", "every ball a stripe of its own, no two alike side by side", false},
        {"edging", "TEXT", "keep back the first and last rows in one yarn, as \"MC 4\"", false},
        {"one-edge", "", "pairs of rows, so that every change falls at one edge", false},
        {"grow", "", "as large as the colours allow, or as small as they force, in whole repeats",
         false},
        {"rank",
         "WHAT",
         "what counts most once yarn suffices: heights, ends, leftovers (that order)",
         true,
         {"heights", "ends", "leftovers"}},
        {"piece", "NAME", "the piece; else all that are striped as the longest striped one is",
         false},
        {"list", "", "name every stripe with its skein, its rows and where it begins", false},
        {"picture", "FILE", "draw it in its colours: a name ending in .svg, .pdf or .png", false},
        {"save", "FILE.toml", "write the project so striped; all else in it stays as it stands",
         false},
        replace_option(),
        margin_option(),
        confidence_option(),
        size_option(),
        stash_option(),
        format_option("text (default), json or csv")};
    command.examples = {
        {"skeinfall stripes sample_stash/projects/threepenny-blanket.toml",
         "heights for which the stash is enough"},
        {"skeinfall stripes sample_stash/projects/threepenny-blanket.toml --fade all",
         "each colour once, fading into the next"}};
    command.run = run_stripes;
    return command;
}

}  // namespace skeinfall::cli
