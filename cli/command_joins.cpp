#include <algorithm>
#include <cstdint>
#include <functional>
#include <map>
#include <optional>
#include <ostream>
#include <set>

#include <fmt/format.h>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/cover/cover.hpp"
#include "skeinfall/exchange/make_words.hpp"
#include "skeinfall/joins/answer.hpp"
#include "skeinfall/joins/hidden.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/plan/make_plan.hpp"
#include "skeinfall/report/joins.hpp"
#include "skeinfall/report/picture.hpp"
#include "skeinfall/report/says.hpp"
#include "skeinfall/report/words.hpp"
#include "skeinfall/units/parse.hpp"
#include "skeinfall/yarn/label_text.hpp"

#include "commands.hpp"
#include "drawing.hpp"
#include "exit_code.hpp"
#include "make_options.hpp"
#include "options.hpp"
#include "output_file.hpp"
#include "planning.hpp"

namespace skeinfall::cli {
namespace {

constexpr std::int64_t turns_at_most = 12;

/// A skein of the stash, by its id.
joins::Ball ball_of_stash(const std::string& id, const std::vector<stash::Skein>& stash) {
    const auto skein = std::find_if(stash.begin(), stash.end(),
                                    [&](const stash::Skein& one) { return one.id == id; });
    if (skein == stash.end()) {
        const auto near = nearest_id(id, stash);
        if (!near && id.find_first_not_of("0123456789.,") == std::string::npos)
            refuse_option("skein", base::quoted(id) + " has no unit",
                          "a length such as \"" + id + " yd\"", "");
        refuse_option("skein", "the stash has no skein \"" + base::shown_inert(id) + "\"",
                      "a skein of the stash, or a length such as \"170 yd\"",
                      base::did_you_mean(near));
    }
    if (!stash::supply_of(*skein))
        refuse_option("skein",
                      "the length of " + base::shown_inert(id) +
                          " is not known: " + report::said(*stash::supply_gap(*skein)),
                      "a skein whose length is known", "");
    return cover::ball_of(*skein, *stash::supply_of(*skein), false, units::Ratio(0.0));
}

/// "170 yd", "2 x 170 yd", "CC1: 170 yd", "40 yd + 60 yd" for a skein with a knot between, "qt-01"
/// of the stash.
void add_named_balls(const std::string& text, const project::Project& project,
                     const std::function<std::vector<stash::Skein>()>& stash,
                     joins::BallsOfRoles& balls, std::map<std::string, std::int64_t>& named) {
    std::string role = project.roles.front().id;
    std::string_view rest = text;
    if (const std::size_t colon = text.find(':'); colon != std::string::npos) {
        role = std::string(base::trimmed(rest.substr(0, colon)));
        rest.remove_prefix(colon + 1);
        if (project.role(role) == nullptr)
            refuse_option("skein", "the project has no yarn \"" + base::shown_inert(role) + "\"",
                          "a yarn of the project before the colon", "");
    } else if (project.roles.size() > 1) {
        refuse_option("skein", base::quoted(text) + " does not say which yarn it is",
                      "\"" + role + ": 170 yd\"", "");
    }
    rest = base::trimmed(rest);
    // An id may be a number; a length has a unit.
    const bool figure = !rest.empty() && rest.front() >= '0' && rest.front() <= '9';
    const bool an_id =
        figure ? rest.find_first_of(" +") == std::string_view::npos && !units::parse_length(rest)
               : rest.find(" x ") == std::string_view::npos &&
                     rest.find(" of ") == std::string_view::npos;
    if (!rest.empty() && an_id) {
        joins::Ball ball = ball_of_stash(std::string(rest), stash());
        for (const auto& [other, of_role] : balls)
            for (const joins::Ball& taken : of_role)
                if (taken.id == ball.id)
                    refuse_option("skein", base::shown_inert(ball.id) + " is named twice",
                                  "each skein of the stash once", "");
        balls[role].push_back(std::move(ball));
        return;
    }
    const CountedOption counted = read_counted("skein", std::string(rest));
    const std::vector<std::string> lengths = base::split(counted.each, '+');
    for (std::int64_t i = 0; i < counted.count; ++i) {
        const std::string id = std::to_string(++named[role]);
        for (std::size_t k = 0; k < lengths.size(); ++k) {
            stash::Skein skein;  // as if it came whole, by its label
            if (const auto printed = yarn::parse_put_up(lengths[k]))
                skein.yarn.label = printed->label;
            else
                skein.yarn.label.length = {lengths[k],
                                           read_option("skein", lengths[k], units::parse_length)};
            const auto supply = stash::supply_of(skein);
            joins::Ball ball{id, {supply->length, supply->own}};
            ball.shared = supply->shared;
            if (lengths.size() > 1) ball.id += "." + std::to_string(k + 1);
            balls[role].push_back(std::move(ball));
        }
    }
}

/// "qt-01=2.1 m", "qt-01=2.1 m reversed": where in its repeat a skein begins.
void set_beginning(const std::string& text, const project::Project& project,
                   joins::BallsOfRoles& balls) {
    const std::size_t sign = text.find('=');
    std::string length_text = sign == std::string::npos ? "" : text.substr(sign + 1);
    const std::size_t word = length_text.find("reversed");
    if (word != std::string::npos) length_text.resize(word);
    if (sign == std::string::npos)
        refuse_option("begins", base::quoted(text) + " names no skein",
                      "a skein and a length such as \"qt-01=2.1 m\"", "");
    const std::string id(base::trimmed(text.substr(0, sign)));
    const bool at_start = base::trimmed(length_text) == "0";
    const units::Length phase =
        at_start
            ? units::Length{}
            : read_option("begins", std::string(base::trimmed(length_text)), units::parse_length);
    for (auto& [role, of_role] : balls)
        for (joins::Ball& ball : of_role) {
            if (ball.id != id) continue;
            const auto& runs = project.role(role)->colours;
            if (runs.empty())
                refuse_option("begins", "yarn " + role + " is not known to change its colour",
                              "a yarn that does",
                              "Add --changes \"rust 2 m; sand 1 m\", or in the project file "
                              "colours to [yarn." +
                                  role + "].");
            const units::Length repeat = project::repeat_of(runs);
            ball.phase = word == std::string::npos
                             ? joins::phase_of(phase, repeat)
                             : joins::phase_when_rewound(phase, ball.length.centre, repeat);
            return;
        }
    refuse_option("begins", "no skein \"" + base::shown_inert(id) + "\" is planned with",
                  "a skein of the plan", "");
}

std::optional<std::int64_t> rows_option(const Values& values, const std::string& name) {
    const auto text = values.one(name);
    if (!text) return std::nullopt;
    if (*text == "0") return 0;
    return read_option(name, *text, units::parse_whole);
}

/// --stripe-rows: every so many rows a stripe from a ball of its own.
std::string odd_ball_stripes(const project::Project& project, const need::MakeNeed& make,
                             const joins::BallsOfRoles& balls, std::int64_t rows,
                             const joins::Request& request, bool& covered) {
    double lasts = 1.0;
    std::string out;
    for (const need::RoleNeed& role : make.roles) {
        const auto found = balls.find(role.role);
        const std::vector<joins::Ball> none;
        const std::vector<joins::Ball>& own = found == balls.end() ? none : found->second;
        need::RoleNeed judged = role;
        if (request.label_cancels.contains(role.role)) judged.length = role.without_shared();
        const joins::StripeBalls stripes =
            joins::stripe_balls(judged, make.steps, own, rows, project.tail, request.confidence);
        lasts *= role.trust().value() * stripes.lasts.value.value();
        out += report::stripe_balls_text(project, role.role, stripes, own);
    }
    covered = lasts >= request.confidence.value.value();
    return out;
}

/// What the stash has beside the chosen skeins of just the yarn that is wanted.
void add_the_others(const cover::MakeCover& cover, joins::BallsOfRoles& balls) {
    std::set<std::string> taken;
    for (const cover::RoleCover& role : cover.roles)
        for (const stash::Skein& skein : role.chosen) taken.insert(skein.id);
    for (const cover::RoleCover& role : cover.roles)
        for (const cover::Candidate& one : role.candidates) {
            if (!one.supply || one.substitution > 0 || !taken.insert(one.skein->id).second)
                continue;
            joins::Ball ball{one.skein->id, {one.supply->length, one.supply->own}};
            ball.shared = one.supply->shared;
            balls[role.role.id].push_back(std::move(ball));
        }
}

joins::BallsOfRoles balls_of_stash(const Values& values, const World& world, Read& read,
                                   joins::Request& request) {
    const std::vector<stash::Skein> stash = stash_for(values, world, {&read});
    const cover::MakeCover cover = cover::cover_make(read.project, read.need, stash, read.rules);
    for (const cover::RoleCover& role : cover.roles)
        if (role.verdict != cover::Verdict::covered)
            *world.err << "note: yarn " << role.role.id << " is " << cover::name_of(role.verdict)
                       << "; \"skeinfall cover\" says what would settle it\n";
    joins::BallsOfRoles out = plan::balls_of(cover, request);
    if (values.given("stripe-rows")) add_the_others(cover, out);
    return out;
}

void draw(const std::string& file, const project::Project& project, const joins::Answer& answer,
          const Values& values, const World& world) {
    write_output("picture", file,
                 drawing().joins_picture(project, answer, picture_format("picture", file)), values,
                 world);
}

/// Strands of one yarn end together, which no plan of one ball after the other tells.
void refuse_strands_of_one_yarn(const Values& values) {
    for (const char* const option : {"make", "title"})
        for (const std::string& text : values.all(option))
            if (exchange::speaks_of_strands(text))
                refuse_option(
                    option,
                    base::quoted(text) +
                        ": strands of one yarn end together, not one after the other",
                    "one strand alone, with its share of the yarn",
                    "Wind the yarn into equal balls, one for each strand, and ask for one "
                    "of them, with its share of the weight or the total.");
}

int run_joins(const Values& values, const World& world) {
    const std::string format = format_of(values, {"text", "json", "csv"});
    refuse_strands_of_one_yarn(values);
    Read read = read_asked(values, world);
    const project::Project& project = read.project;
    joins::Request request;
    request.size = read.size;
    request.confidence = read.rules.confidence;
    request.anywhere = values.given("anywhere");
    request.sure_lengths = values.given("sure");
    request.pairs = values.given("pairs");
    request.rows_between = rows_option(values, "apart");
    request.scale = scale_of(values);
    request.by_turns = rows_option(values, "by-turns");
    if (request.by_turns && (*request.by_turns < 2 || *request.by_turns > turns_at_most))
        refuse_option("by-turns",
                      *request.by_turns < 2 ? "one skein cannot be alternated"
                                            : "more skeins than anyone alternates",
                      fmt::format("2 to {}", turns_at_most), "");
    const auto most_joins = rows_option(values, "most-joins");
    const auto stripe_rows = rows_option(values, "stripe-rows");
    const need::MakeNeed& make = read.need;

    joins::BallsOfRoles balls;
    std::map<std::string, std::int64_t> named;
    if (values.given("skein"))
        for (const std::string& text : values.all("skein"))
            add_named_balls(
                text, project,
                [&] { return skeins_for(values, world, {known_title(project, values)}, &project); },
                balls, named);
    else
        balls = balls_of_stash(values, world, read, request);
    for (const std::string& text : values.all("begins")) set_beginning(text, project, balls);

    if (const auto& rows = stripe_rows) {
        if (*rows < 1) refuse_option("stripe-rows", "stripes of no rows", "1 row or more", "");
        bool covered = true;
        *world.out << odd_ball_stripes(project, make, balls, *rows, request, covered);
        return covered ? done : not_so;
    }
    std::optional<joins::HiddenCost> hidden;
    joins::Answer answer;
    if (values.given("hidden")) {
        joins::Hiding hiding = joins::answer_hidden(project, make, balls, request);
        answer = std::move(hiding.answer);
        hidden = hiding.cost;
    } else {
        answer = joins::answer_joins(project, make, balls, request);
    }
    const bool too_many = most_joins && answer.joins > static_cast<std::size_t>(*most_joins);
    if (too_many) {
        const units::Length unworked = joins::unworked_with(project, make, balls, request, answer,
                                                            static_cast<std::size_t>(*most_joins));
        *world.err << "note: at least "
                   << report::counted(static_cast<std::int64_t>(answer.joins), "join", "joins")
                   << " with these skeins, not "
                   << (*most_joins == 0 ? std::string("none") : std::to_string(*most_joins)) << ": "
                   << report::yards_and_metres(unworked, units::Rounding::up)
                   << " of the work would be left undone\n";
    }
    if (const auto file = values.one("picture")) draw(*file, project, answer, values, world);
    if (values.given("slip"))
        *world.out << report::slip_text(project, answer);
    else
        *world.out << (format == "json"  ? report::joins_json(project, answer)
                       : format == "csv" ? report::joins_csv(project, answer)
                                         : report::joins_text(project, answer) +
                                               report::hidden_joins_text(project, answer, hidden));
    if (too_many) return not_so;
    return joins::is_sure(answer) ? done : not_so;
}

}  // namespace

Command joins_command() {
    Command command;
    command.name = "joins";
    command.grams_serve = true;
    command.tells_rows = true;
    command.yes = "the yarn lasts";
    command.no = "that is not sure, or a rule of the project cannot be kept";
    command.arguments = "PROJECT.toml";
    command.summary = "where each skein ends and the next is joined, and what to weigh when";
    command.purpose =
        "Where does each skein end, and when do I stop and join? Lays the rows of a\n"
        "project over the skeins that cover chose, or over --skein. Joins fall where\n"
        "each piece permits them (its keys \"join\", \"join_free\", \"join_prefer\"): fewest\n"
        "joins first, then the least yarn from new skeins, then the best places. Two\n"
        "ends are allowed for on every skein. Below the stop weight the next row no\n"
        "longer fits.";
    command.options = {
        {"skein", "TEXT",
         "plan with this skein instead: \"170 yd\", \"2 x 170 yd\", \"CC1: 90 m\", \"40 m + 60 m\" "
         "for one with a knot, or a skein of the stash by its id",
         true},
        {"begins", "ID=LENGTH",
         "how far into its colour repeat a skein begins; add \"reversed\" when wound the other way",
         true},
        {"anywhere", "", "joins may fall inside a row", false},
        {"hidden", "", "prefer joins hidden in a seam, hem or fold, and say what it costs", false},
        {"apart", "ROWS", "keep joins in a piece at least this number of rows apart", false},
        {"most-joins", "NUMBER", "exit 1 if more joins are needed", false},
        {"by-turns", "SKEINS",
         "alternate this number of skeins: how to change without cutting, and what each one gives",
         false},
        {"pairs", "", "pieces made twice: join both at the same rows", false},
        {"sure", "", "plan with only what each skein is sure to hold", false},
        {"stripe-rows", "ROWS",
         "a new ball for every stripe of this number of rows, smallest ball first", false},
        work_scale_option(),
        work_tare_option(),
        {"picture", "FILE", "draw the join map and colours: a name ending in .svg, .pdf or .png",
         false},
        replace_option(),
        {"slip", "", "only the weights, row by row, to keep beside the work", false},
        confidence_option(),
        size_option(),
        stash_option(),
        format_option("text (default), json or csv")};
    take_makes(command);
    command.examples = {
        {"skeinfall joins sample_stash/projects/lantern-cowl.toml",
         "the joins, with skeins from the stash"},
        {"skeinfall joins sample_stash/projects/lantern-cowl.toml --skein \"2 x 200 yd\"",
         "the joins with two skeins that need not be in the stash"},
        {"skeinfall joins sample_stash/projects/lantern-cowl.toml --slip --scale \"0.1 g\"",
         "a slip with the weights at which to stop"},
        {"skeinfall joins sample_stash/projects/ferryman-mittens.toml --picture mittens.svg",
         "a picture of the joins and the colours"}};
    command.run = run_joins;
    return command;
}

}  // namespace skeinfall::cli
