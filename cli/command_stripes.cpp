#include <algorithm>
#include <array>
#include <cstdint>
#include <map>
#include <optional>
#include <ostream>
#include <set>

#include "skeinfall/base/name.hpp"
#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/colours/each.hpp"
#include "skeinfall/colours/sequence.hpp"
#include "skeinfall/colours/stripes.hpp"
#include "skeinfall/exchange/project_edit.hpp"
#include "skeinfall/exchange/project_parts_edit.hpp"
#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/exchange/yarn_words.hpp"
#include "skeinfall/materials/section.hpp"
#include "skeinfall/plan/left_by.hpp"
#include "skeinfall/report/page.hpp"
#include "skeinfall/report/sequence.hpp"
#include "skeinfall/report/stripes.hpp"
#include "skeinfall/units/format.hpp"
#include "skeinfall/units/parse.hpp"

#include "commands.hpp"
#include "drawing.hpp"
#include "exit_code.hpp"
#include "make_options.hpp"
#include "output_file.hpp"
#include "planning.hpp"
#include "saved_project.hpp"
#include "stripes_in_turn.hpp"

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
                  base::did_you_mean(near));
}

/// "MC 6" or "6 MC".
project::Stripe stripe_of(const std::string& option, const std::string& text,
                          const project::Project& project) {
    const std::string_view words = base::trimmed(text);
    const auto wrong = [&]() {
        refuse_option(option, base::quoted(words) + " is not a stripe",
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
    if (way == Way::in_proportion) std::rotate(goals.begin(), goals.begin() + 2, goals.end());
    auto* place = goals.begin();
    for (const std::string& word : values.all("rank")) {
        const auto known = words.find(word);
        if (known == words.end()) {
            const auto near = base::nearest_name(word, {"heights", "ends", "leftovers"});
            refuse_option("rank", base::quoted(word) + " is not one of the choices",
                          "heights, ends, leftovers", base::did_you_mean(near));
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
                  base::join(names, ", "), base::did_you_mean(near));
}

colours::Wish wish_of(const Values& values, const project::Project& project) {
    colours::Wish wish;
    wish.size = size_of(values, project);
    wish.pieces = pieces_of(values, project, wish.size);
    wish.way = way_of(values);
    wish.goals = goals_of(values, wish.way);
    // Without a file the pieces hold them already.
    if (const auto text = values.one("stripes"); text && values.given(positional))
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

void save(const std::string& file, const Told& told, const colours::StripePlan& plan,
          const Values& values, const World& world) {
    const project::Project& project = told.project;
    if (!plan.found)
        refuse_option("save", "there is no plan that is covered",
                      plan.nearest
                          ? std::to_string(plan.nearest_rows) + " rows, the nearest that is covered"
                          : std::string("heights that are enough"),
                      "Nothing was written.");
    std::vector<exchange::PieceEdit> edits;
    for (std::size_t i = 0; i < plan.wish.pieces.size(); ++i) {
        const std::size_t at = plan.wish.pieces[i];
        exchange::PieceEdit edit;
        edit.piece = at;
        edit.stripes = plan.found->stripes[i];
        const std::int64_t rows =
            project::counts(plan.found->project, plan.found->project.pieces[at], plan.wish.size)
                .rows;
        if (rows != project::counts(project, project.pieces[at], plan.wish.size).rows) {
            edit.rows = project.pieces[at].rows;
            if (edit.rows.values.size() > 1)
                edit.rows.values[plan.wish.size] = rows;
            else
                edit.rows = project::PerSize<std::int64_t>(rows);
        }
        edits.push_back(std::move(edit));
    }
    const std::string text = saved_project(told, plan.found->project, plan.wish.size, edits, file);
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

/// The yarn that changes its colour by itself, of a piece without stripes.
std::optional<std::string> changing_yarn(const Values& values, const project::Project& project,
                                         const colours::Wish& wish) {
    const bool asked = values.given("begin-with") || values.given("measured") ||
                       values.given("outer-end") || values.given("rewound");
    if (!wish.wanted.empty() && !asked) return std::nullopt;
    std::optional<std::string> out;
    for (const std::size_t piece : wish.pieces) {
        const project::Role* role = project.role(project.pieces[piece].role);
        if (role != nullptr && !role->colours.empty()) out = role->id;
    }
    for (const project::Role& role : project.roles)
        if (!out && !role.colours.empty()) out = role.id;
    if (!out && asked)
        refuse_option(values.given("begin-with") ? "begin-with"
                      : values.given("measured") ? "measured"
                      : values.given("rewound")  ? "rewound"
                                                 : "outer-end",
                      "no yarn of the project changes its colour", "a yarn with \"colours\"",
                      "Say colour_repeat and colours in its table.");
    return out;
}

/// What every piece begun alike takes more becomes a part of the project.
void save_sequence(const std::string& file, const Told& told, const colours::SequencePlan& plan,
                   const Values& values, const World& world) {
    if (!plan.wish.colour)
        refuse_option("save", "nothing is changed that could be kept", "--begin-with as well",
                      "Say with which colour every piece begins.");
    std::string text = exchange::with_colours_from(told.text, told.project.file, plan.wish.role,
                                                   *plan.wish.colour);
    text = exchange::with_pieces_begun(text, told.project.file, plan.wish.role, *plan.wish.colour,
                                       plan.pieces.front().wound_off + plan.at_most);
    static_cast<void>(exchange::parse_project(text, file));
    write_output("save", file, text, values, world);
    *world.err << "note: in " << base::shown_inert(file) << " every piece begins with "
               << base::shown_inert(*plan.wish.colour)
               << "; cover, joins, pages and pictures wind off to it before each\n";
}

std::string sequence_answer(const Values& values, const World& world, const Told& told,
                            const std::string& yarn, std::size_t size, const std::string& format) {
    const project::Project& project = told.project;
    colours::SequenceWish wish;
    wish.role = yarn;
    wish.size = size;
    wish.confidence = confidence_of(values);
    wish.tail = project.tail;
    wish.colour = values.one("begin-with");
    if (const std::string& kept = project.role(yarn)->pieces_begin_with;
        !wish.colour && !kept.empty())
        wish.colour = kept;
    const units::Length stated = project::repeat_of(project.role(yarn)->colours);
    std::vector<units::Length> measured;
    for (const std::string& text : values.all("measured"))
        for (const std::string& one : base::split(text, ','))
            measured.push_back(read_option("measured", one, units::parse_length));
    wish.repeat =
        measured.empty() ? colours::stated_repeat(stated) : colours::measured_repeat(measured);
    if (const auto end = values.one("outer-end"))
        wish.begins =
            *end == "0" ? units::Length{} : read_option("outer-end", *end, units::parse_length);
    if (const auto ball = values.one("rewound")) {
        if (!wish.begins)
            refuse_option("rewound", "nothing says where its outer end lies now",
                          "--outer-end as well", "");
        wish.begins = joins::phase_when_rewound(
            *wish.begins, read_option("rewound", *ball, units::parse_length), wish.repeat.mean);
    }
    const colours::SequencePlan plan = colours::plan_sequence(project, wish);
    if (const auto file = values.one("save")) save_sequence(*file, told, plan, values, world);
    return format == "json" ? report::sequence_json(project, plan)
                            : report::sequence_text(project, plan);
}

struct Answered {
    std::string text;
    bool found = false;
    std::vector<plan::LeftOf> taken;  ///< of the stash, by what was found
};

/// A piece for each colour, as many as its yarn allows.
void save_each(const std::string& file, const Told& told, const colours::EachColour& each,
               const Values& values, const World& world) {
    const std::string& name = told.project.pieces[each.piece].name;
    for (const project::FinishPart& part : told.project.finish)
        if (part.of == name)
            refuse_option("save",
                          base::quoted(part.name) + " is calculated from all copies of " +
                              base::shown_inert(name) + ", and each colour becomes a piece",
                          "the answer without it",
                          "Give that part its own length or stitches to keep the pieces.");
    if (!each.parts_of_each.empty())
        refuse_option("save",
                      base::quoted(each.parts_of_each.front()) + " is made for each of them",
                      "the answer without it", "Write its count too: the answer lists it.");
    std::vector<exchange::PieceCopy> copies;
    for (const colours::OfColour& of : each.colours) {
        if (of.count == 0) continue;
        if (of.endless)
            refuse_option("save", "there is no end to what " + of.role + " is enough for",
                          "fewer skeins of it", "");
        const std::string& colour = told.project.role(of.role)->colour;
        copies.push_back({name + " " + (colour.empty() ? of.role : colour), of.role, of.count});
    }
    if (copies.empty())
        refuse_option("save", "no yarn is enough for one of them", "yarn for one or more",
                      "Nothing was written.");
    const std::string text =
        exchange::with_copies(told.text, told.project.file, each.piece, copies);
    static_cast<void>(exchange::parse_project(text, file));
    write_output("save", file, text, values, world);
}

Answered count_each(const Values& values, const World& world, const Told& told,
                    const std::vector<std::size_t>& pieces, std::size_t size,
                    const std::vector<stash::Skein>& stash, const cover::Rules& rules,
                    const std::string& format) {
    const project::Project& project = told.project;
    if (const auto word = values.one("count"); *word != "each")
        refuse_option("count", base::quoted(*word) + " is nothing to count by", "each", "");
    if (pieces.empty())
        throw base::InputError(base::Problem{
            "the project has no piece", {project.file, 0, 0}, "a [[piece]] with a count", ""});
    const colours::EachColour each =
        colours::count_each(project, size, pieces.front(), stash, rules);
    const auto file = values.one("save");
    if (file) save_each(*file, told, each, values, world);
    Answered out;
    out.text = format == "json" ? report::each_json(project, each)
                                : report::each_text(project, each, file.has_value());
    out.found = each.enough();
    return out;
}

colours::StripePlan planned(const Values& values, const project::Project& project,
                            const std::vector<stash::Skein>& stash, const cover::Rules& rules,
                            const colours::Wish& wish, report::Grew& grew) {
    if (values.given("grow"))
        if (auto grown = colours::largest_striped(project, stash, rules, wish)) {
            grew.rows_were = grown->rows_were;
            grew.step = grown->step;
            return std::move(grown->plan);
        }
    return colours::plan_stripes(project, stash, rules, wish);
}

/// What only stripes have is not passed over in silence.
void refuse_what_is_for_stripes(const Values& values, const std::string& what) {
    for (const char* option : {"picture", "list", "grow"})
        if (values.given(option))
            refuse_option(
                option, what, "stripes",
                std::string_view(option) == "picture"
                    ? "\"skeinfall joins --picture\" draws a yarn that changes its colour."
                    : "");
    if (values.one("format") == "csv")
        refuse_option("format", what + ": there is no table of stripes", "text, json", "");
}

/// What else the answer hangs on, to be given again with other stripes.
std::string options_again(const Values& values) {
    std::string out;
    if (values.given("one-edge")) out += " --one-edge";
    std::vector<const char*> options{"edging", "piece", "size", "margin", "confidence", "stash"};
    // Without a file all that tells the make would have to be given again.
    if (values.given(positional)) options.push_back("have");
    for (const char* option : options)
        for (const std::string& value : values.all(option))
            out += " --" + std::string(option) + " \"" + base::shown_inert(value) + "\"";
    return out;
}

/// One project, from what the ones before it left.
Answered answer_for(const Values& values, const World& world, const std::vector<Told>& named,
                    const Told& told, const std::vector<plan::LeftOf>& taken) {
    const std::string format = format_of(values, {"text", "json", "csv"});
    const project::Project& project = told.project;
    const cover::Rules rules = rules_for(values, project, world);
    const std::size_t size = size_of(values, project);
    const auto stash = [&] {
        tell_of_begun(taken, world);
        return plan::as_left(skeins_in_turn(values, world, named, project), taken);
    };
    if (values.given("count")) {
        refuse_what_is_for_stripes(values, "copies of one colour each have no stripes");
        return count_each(values, world, told, pieces_of(values, project, size), size, stash(),
                          rules, format);
    }
    const colours::Wish wish = wish_of(values, project);
    if (const auto yarn = changing_yarn(values, project, wish)) {
        refuse_what_is_for_stripes(values, "yarn " + *yarn + " changes its colour by itself");
        return {sequence_answer(values, world, told, *yarn, size, format), true, {}};
    }
    const std::vector<stash::Skein> skeins = stash();
    if (wish.way == Way::scraps && values.given(positional) && format == "text")
        tell_of_other_balls(project, rules, skeins, world);
    report::Grew grew;
    const colours::StripePlan plan = planned(values, project, skeins, rules, wish, grew);
    const auto file = values.one("save");
    if (file) save(*file, told, plan, values, world);
    const colours::Striped* shown = report::shown_of(plan);
    if (const auto picture = values.one("picture"); picture && shown != nullptr)
        draw(*picture, *shown, rules, values, world);
    const report::StripesAnswer answer{
        project, plan, grew, values.given("list"), file.has_value(), options_again(values)};
    Answered out;
    out.found = plan.found.has_value();
    out.text = format == "json"  ? report::stripes_json(answer)
               : format == "csv" ? report::stripes_csv(answer)
                                 : report::stripes_text(answer);
    if (plan.found) out.taken = plan::left_by(plan.found->plan, rules.confidence);
    // Balls that are a stripe each keep to it.
    for (plan::LeftOf& of : out.taken)
        if (!plan.balls.empty()) of.left = units::Length{};
    for (const std::string& ball : plan.balls) out.taken.push_back({ball, units::Length{}});
    return out;
}

/// Where nobody says stripes, the colours of the yarn at hand, in the order they were named: for
/// ways that find the heights themselves. For scraps those of the stash in the class that is said.
std::string colours_had(const Values& values, const World& world) {
    std::vector<std::string> colours;
    for (const std::string& text : values.all("have"))
        colours.push_back(exchange::having_of_colour(text).colour);
    if (colours.empty() && values.given("scraps")) {
        const auto weight = exchange::parse_class(values.one("class").value_or(""));
        for (const stash::Skein& skein : known_skeins(values, world))
            if (weight && skein.yarn.weight == *weight) colours.push_back(skein.colourway);
    }
    std::vector<std::string> stripes;
    for (const std::string& colour : colours) {
        const std::string stripe = colour + " 6";
        if (!colour.empty() && std::find(stripes.begin(), stripes.end(), stripe) == stripes.end())
            stripes.push_back(stripe);
    }
    return stripes.size() < 2 ? std::string() : base::join(stripes, ", ");
}

/// Files, or what options say in place of one.
std::vector<Told> told_of(const Values& values, const World& world) {
    std::vector<Told> out;
    for (const std::string& file : values.all(positional)) {
        refuse_beside_file(values, {"stripes", "save"});
        out.push_back(told_by_file(file, values));
    }
    if (!out.empty()) return out;
    project::MakeAnswers answers = answers_of(values);
    if (!answers.has("make"))
        throw base::InputError(base::Problem{
            "what are you making? No project file or piece is named",
            {},
            "a TOML file with a gauge, yarns and a piece, or --make",
            "Name one, such as cowl.toml, or say it: --make \"120 hdc x 90 rows\" --stripes \"rust "
            "6, sand 4\" --have \"rust: 3 balls of 170 yd / 100 g\"."});
    if (const std::string had = colours_had(values, world);
        !answers.has("stripes") && !answers.has("changes") && !had.empty())
        answers.add("stripes", had);
    if (values.given("count")) answers.add(exchange::one_colour_each, "");
    out.push_back(told_by_answers(answers, values, world));
    return out;
}

int run_stripes(const Values& values, const World& world) {
    const bool json = format_of(values, {"text", "json", "csv"}) == "json";
    const std::vector<Told> named = told_of(values, world);
    for (const char* option : {"save", "picture", "count"}) {
        const auto file = values.one(option);
        if (file && named.size() > 1)
            refuse_option(option, "it is for one project", "one project", "");
        if (file && std::string_view(option) == "picture")
            static_cast<void>(picture_format("picture", *file));
    }
    std::vector<plan::LeftOf> taken;
    std::vector<std::string> texts;
    bool all = true;
    for (const Told& told : named) {
        Answered one;
        try {
            one = answer_for(values, world, named, told, taken);
        } catch (const base::InputError&) {
            // What was planned before it stands.
            if (!json && !texts.empty()) *world.out << base::join(texts, "\n") << "\n";
            throw;
        }
        all = all && one.found;
        for (const plan::LeftOf& of : one.taken) {
            std::erase_if(taken, [&](const plan::LeftOf& was) { return was.id == of.id; });
            taken.push_back(of);
        }
        texts.push_back(std::move(one.text));
    }
    if (named.size() == 1)
        *world.out << texts.front();
    else
        *world.out << (json ? "[\n" : "") << base::join(texts, json ? ",\n" : "\n")
                   << (json ? "]\n" : "");
    return all ? done : not_so;
}

std::vector<Option> options_of_stripes() {
    return {
        {"stripes", "TEXT", "the stripes you want, as \"MC 6, CC1 4\"; else those of the piece",
         false},
        {"keep-repeat", "",
         "keep the repeat and move rows from one colour to another (the default)", false},
        {"in-proportion", "", "stripe heights that use up all colours together", false},
        {"fade", "ROWS",
         "each colour once, mixed with the next over this number of rows; \"all\": as many as can "
         "be",
         false},
        {"fill", "YARN",
         "the other stripes stay as they are, this yarn fills the rows between them", false},
        {"scraps", "", "every ball a stripe of its own, no two alike side by side", false},
        {"edging", "TEXT", "keep back the first and last rows in one yarn, as \"MC 4\"", false},
        {"one-edge", "", "pairs of rows, so that every change falls at one edge", false},
        {"grow", "", "as large as the colours allow, or as small as they force, in whole repeats",
         false},
        {"rank",
         "WHAT",
         "what counts most once there is enough yarn: heights, ends, leftovers (that order)",
         true,
         {"heights", "ends", "leftovers"}},
        {"piece", "NAME", "the piece; else all that are striped as the longest striped one is",
         false},
        {"count",
         "each",
         "copies of a piece, each in one colour: as many of every colour as its yarn allows",
         false,
         {"each"}},
        {"begin-with", "COLOUR", "of a colour-changing yarn: begin every piece with this colour",
         false},
        {"outer-end", "LENGTH", "how far into its repeat the ball's outer end lies", false},
        {"rewound", "LENGTH", "the ball is wound the other way: so long, and rewound first", false},
        {"measured", "LENGTH", "a repeat as you measured it; each further one makes it surer",
         true},
        {"list", "", "name every stripe with its skein, its rows and where it begins", false},
        {"picture", "FILE", "draw it in its colours: a name ending in .svg, .pdf or .png", false},
        {"save", "FILE.toml", "save the project with these stripes; everything else in it stays",
         false},
        replace_option(),
        margin_option(),
        confidence_option(),
        size_option(),
        stash_option(),
        format_option("text (default), json or csv")};
}

}  // namespace

Command stripes_command() {
    Command command;
    command.name = "stripes";
    command.tells_rows = true;
    command.yes = "every yarn is enough, with the stripes that are shown";
    command.no = "no stripes of these colours are sure to be enough";
    command.arguments = "PROJECT.toml...";
    command.summary = "stripes, fades and changes of colour planned from what there is";
    command.purpose =
        "Plans the colours of a piece, or of all pieces that are striped alike, from the skeins\n"
        "there are: heights in whole rows, changed as little as need be so that every yarn is\n"
        "enough. It says what it changed, what is left of each, where every yarn waits, and how\n"
        "many ends there are to weave in. With --save the plan becomes part of the project. "
        "Several\n"
        "projects are planned in turn, each from what the ones before it left. Where a yarn "
        "changes\n"
        "its colour by itself, it says where its colours fall and how to begin alike.";
    command.options = options_of_stripes();
    take_pieces(command);
    command.examples = {
        {"skeinfall stripes sample_stash/projects/threepenny-blanket.toml",
         "heights for which the stash is enough"},
        {"skeinfall stripes sample_stash/projects/threepenny-blanket.toml --fade all",
         "each colour once, fading into the next"},
        {"skeinfall stripes --make \"100 hdc x 120 rows\" --class 4 --hook \"5 mm\" --gauge \"14 "
         "sts "
         "and 10 rows per 10 cm\" --stripes \"rust 6, sand 4\" --have \"rust: 6 balls of 170 yd / "
         "100 g\" --have \"sand: 6 balls of 170 yd / 100 g\"",
         "without any file"}};
    command.run = run_stripes;
    return command;
}

}  // namespace skeinfall::cli
