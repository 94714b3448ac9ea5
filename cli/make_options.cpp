#include "make_options.hpp"

#include <algorithm>
#include <filesystem>
#include <ostream>
#include <regex>

#include <fmt/format.h>

#include "skeinfall/base/letters.hpp"
#include "skeinfall/base/name.hpp"
#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/make_words.hpp"
#include "skeinfall/exchange/text_file.hpp"
#include "skeinfall/exchange/yarn_words.hpp"
#include "skeinfall/store/store.hpp"
#include "skeinfall/units/parse.hpp"
#include "skeinfall/yarn/grist_match.hpp"
#include "skeinfall/yarn/label_text.hpp"
#include "skeinfall/yarn/put_up.hpp"
#include "skeinfall/yarn/stated_total.hpp"

#include "odd_figures.hpp"
#include "options.hpp"
#include "output_file.hpp"
#include "planning.hpp"
#include "saved_project.hpp"
#include "stops_first.hpp"

namespace skeinfall::cli {
namespace {

/// Questions that a file answers in its own way, so that their options only go without one.
bool stands_for_file(std::string_view id) {
    return id == "make" || id == "total" || id == "swatch" || id == "gauge";
}

std::string help_of(const project::MakeQuestion& question) {
    std::string text(question.question);
    text.front() = static_cast<char>(text.front() - 'A' + 'a');
    text += "?";
    if (!question.example.empty()) text += " such as \"" + std::string(question.example) + "\"";
    return text;
}

bool has_option(const Command& command, std::string_view name) {
    return std::any_of(command.options.begin(), command.options.end(),
                       [&](const Option& option) { return option.name == name; });
}

void add(Command& command, Option option) {
    if (!has_option(command, option.name)) command.options.push_back(std::move(option));
}

base::Problem naming_option(base::Problem problem) {
    if (!problem.place.file.empty() && project::make_question(problem.place.file) != nullptr)
        problem.place.file.insert(0, "--");
    // Nobody wrote the file that a line would stand in.
    if (problem.place.file.empty()) problem.place = {};
    // The make was read, and what would answer it is an option of its own.
    static constexpr std::string_view takes = "the yarn it takes, ";
    if (problem.place.file == "--plus" &&
        problem.what.find(" names more than the piece") != std::string::npos) {
        problem.place.file = "--make";
        if (problem.expected.starts_with(takes)) problem.expected.insert(takes.size(), "--plus ");
    }
    if (problem.what.starts_with("nothing says how much of yarn"))
        problem.remedy =
            "Give --class 4 (the weight class on the label) or --label \"200 yd / 100 g\": the "
            "amount is then a guess from other people's makes, give or take a quarter. --swatch "
            "\"15 x 15 cm, 14 g\" is surer.";
    return problem;
}

void look_at_findings(const project::Project& project, const Values& values, const World& world) {
    try {
        if (!values.given("despite-stops")) refuse_stops(project);
    } catch (const base::InputError& error) {
        throw base::InputError(naming_options(error.problems()));
    }
    tell_cautions(project, world);
}

/// A slip in a colour would leave its yarn unused.
void refuse_other_colour(const std::string& colour, const std::string& text,
                         const project::MakeAnswers& answers) {
    const auto stripes = exchange::parse_stripes(answers.one("stripes").value_or(""));
    if (!stripes || !exchange::role_of(exchange::colour_roles(*stripes), colour).empty()) return;
    std::vector<std::string> names;
    for (const exchange::WrittenStripe& stripe : *stripes) names.push_back(stripe.colour);
    refuse_option("have", "no stripe is in the colour of " + base::quoted(text),
                  base::join(names, ", "), base::did_you_mean(base::nearest_name(colour, names)));
}

/// "sand 160 g" as "sand: 160 g", where sand is a colour of the stripes.
std::string with_colon(const std::string& text, const std::optional<std::string>& stripes) {
    const auto read = exchange::parse_stripes(stripes.value_or(""));
    if (!read) return text;
    for (const exchange::WrittenStripe& stripe : *read)
        if (const std::string behind = " in " + stripe.colour;
            text.size() > behind.size() && base::lower(text).ends_with(base::lower(behind)))
            return stripe.colour + ": " + text.substr(0, text.size() - behind.size());
    if (!exchange::having_of_colour(exchange::plain_signs(text)).colour.empty()) return text;
    for (const exchange::WrittenStripe& stripe : *read)
        if (base::lower(text).starts_with(base::lower(stripe.colour) + " "))
            return text.substr(0, stripe.colour.size()) + ":" + text.substr(stripe.colour.size());
    return text;
}

/// The total is a length, whatever yarn it is said of.
bool is_length(const std::string& total) {
    static const std::regex of(R"(\s*,?\s*(?:each|in all|in total|altogether|apiece)$)",
                               std::regex::icase);
    const auto stated = yarn::parse_stated_total(std::regex_replace(total, of, ""));
    return stated && stated->length && stated->skeins == 0;
}

/// What stands for the label of a yarn that is weighed on both sides.
constexpr const char* a_metre_a_gram = "100 m / 100 g";

[[noreturn]] void refuse_have(base::Problem problem) {
    problem.place.file = "--have";
    throw base::InputError(std::move(problem));
}

/// What is at hand is read before it is asked what its label says, which may be no help.
void refuse_haves_not_read(const Values& values) {
    yarn::Yarn like;
    like.label = yarn::parse_put_up(a_metre_a_gram)->label;
    for (const std::string& given : values.all("have")) {
        const auto some = exchange::parse_having(with_colon(given, values.one("stripes")), like,
                                                 values.one("colour").value_or(""), 1);
        if (some) continue;
        refuse_have(some.problem());
    }
}

/// A stripe in a colour of which there is none: what it takes hangs on its label.
void refuse_colour_not_had(const std::vector<std::string>& had,
                           const project::MakeAnswers& answers) {
    const auto stripes = exchange::parse_stripes(answers.one("stripes").value_or(""));
    if (!stripes || (had.size() == 1 && had.front().empty())) return;
    for (const exchange::WrittenStripe& stripe : *stripes)
        if (std::none_of(had.begin(), had.end(), [&](const std::string& colour) {
                return base::same_name(colour, stripe.colour);
            }))
            refuse_option("have",
                          "no yarn is given for the stripes in " + base::quoted(stripe.colour),
                          "its yarn too, \"" + base::shown_inert(stripe.colour) +
                              ": 2 skeins of 170 yd / 100 g\"",
                          "Or say its label: --label \"" + base::shown_inert(stripe.colour) +
                              ": 170 yd / 100 g\".");
}

/// What the labels of the yarn at hand tell of it; of each colour, where it has colours.
void add_labels_had(const Values& values, project::MakeAnswers& answers) {
    std::vector<std::string> known;
    for (const std::string& given : values.all("have")) {
        const std::string text = with_colon(given, answers.one("stripes"));
        const exchange::OfColour said = exchange::having_of_colour(exchange::plain_signs(text));
        const std::size_t of = said.text.find(" of ");
        const auto counted = exchange::parse_counted(said.text);
        const std::string put_up = counted && counted->counted ? counted->rest
                                   : of == std::string::npos   ? said.text
                                                               : said.text.substr(of + 4);
        const std::string& colour = said.colour;
        if (!yarn::parse_put_up(put_up) ||
            std::find(known.begin(), known.end(), colour) != known.end())
            continue;
        known.push_back(colour);
        if (!colour.empty()) refuse_other_colour(colour, text, answers);
        answers.add("label", colour.empty() ? put_up : colour + ": " + put_up);
    }
    if (!known.empty()) refuse_colour_not_had(known, answers);
}

/// "3 balls of 50 g" as 3 balls of 50 m / 50 g.
std::string with_metres(const std::string& text) {
    const auto said = exchange::parse_counted(text);
    if (!said || !said->counted) return text;
    const auto mass = units::parse_mass(said->rest);
    return mass ? fmt::format("{} balls of {} / {:.10g} m", said->count, said->rest,
                              *mass / units::gram)
                : text;
}

/// All that is at hand is told as a mass, without a label.
bool has_masses_alone(const Values& values) {
    static const std::regex cone(R"(\bcones?\b)", std::regex::icase);
    const std::vector<std::string> all = values.all("have");
    return !all.empty() && std::all_of(all.begin(), all.end(), [](const std::string& text) {
        const auto said = exchange::parse_counted(text);
        // A cone may have been weighed with its core.
        return said && units::parse_mass(said->rest) && !std::regex_search(text, cone);
    });
}

bool tells_mass(const std::string& swatch) {
    const auto read = exchange::parse_swatch(swatch);
    return read && !read->mass.empty();
}

/// Weighed, or of so many stitches: what is cut to a length needs the label.
bool needs_no_label(const std::string& plus) {
    const auto read = exchange::parse_extra(plus);
    return read && read->strands == 0 && (read->rounds > 0 || units::parse_mass(read->yarn));
}

/// Labels of one colour so far apart are of two yarns, which are not one lot.
void refuse_another_yarn(const std::string& text, const stash::Skein& skein,
                         const std::vector<stash::Skein>& before, const Values& values) {
    const auto grist = yarn::label_grist(skein.yarn.label);
    if (!grist || values.given("any-lot")) return;
    for (const stash::Skein& other : before) {
        const auto beside = yarn::label_grist(other.yarn.label);
        if (!beside || !base::same_name(other.colourway, skein.colourway) ||
            !base::same_name(other.yarn.name, skein.yarn.name) ||
            yarn::grist_difference(grist->centre, beside->centre) <=
                yarn::close_grist + yarn::limit_noise)
            continue;
        refuse_option("have", base::quoted(text) + " is another yarn than the one before it",
                      "skeins of one yarn, or a colour of the make before each",
                      "--any-lot says that they may be mixed.");
    }
}

}  // namespace

bool in_grams_alone(const Command& command, const Values& values, const World& world) {
    if (!command.grams_serve) return false;
    // What is cut or sewn to a length needs the label.
    if (values.given(positional) || values.given("label") || values.given("save") ||
        values.one("format").value_or("text") != "text")
        return false;
    const std::vector<std::string> extras = values.all("plus");
    if (!std::all_of(extras.begin(), extras.end(), needs_no_label)) return false;
    const bool of_what_there_is =
        std::any_of(command.options.begin(), command.options.end(),
                    [](const Option& option) { return option.name == "have"; });
    if (of_what_there_is && !has_masses_alone(values)) return false;
    const std::string total = values.one("need").value_or(values.one("total").value_or(""));
    const std::vector<std::string> swatches = values.all("swatch");
    // A total may be of the pattern's yarn; only a name says that this is the same.
    if (!total.empty() && (!values.given("yarn") || !units::parse_mass(total))) return false;
    if (total.empty() &&
        (swatches.empty() || !std::all_of(swatches.begin(), swatches.end(), tells_mass)))
        return false;
    const auto name = values.one("yarn");
    return !name || exchange::yarns_named(*name, known_skeins(values, world)).empty();
}

std::vector<stash::Skein> known_skeins(const Values& values, const World& world) {
    const auto path = stash_path(values, world);
    std::error_code none;
    if (!std::filesystem::exists(path, none)) return {};
    return skeins_of_stash(values, world);
}

base::Problems naming_options(base::Problems problems) {
    for (base::Problem& problem : problems) problem = naming_option(std::move(problem));
    return problems;
}

Option question_option(const project::MakeQuestion& question) {
    Option option = interview_option(question);
    option.help.insert(0, in_place_of_a_file);
    return option;
}

Option interview_option(const project::MakeQuestion& question) {
    return {std::string(question.id), std::string(question.argument), help_of(question),
            question.many};
}

Option have_option() {
    return {
        "have", "TEXT",
        "yarn you have, instead of the stash: \"2 skeins of 170 yd / 100 g\", \"48 g\", \"rust: "
        "3 balls of 120 m\"",
        true};
}

void take_makes_without_skeins(Command& command) {
    for (const project::MakeQuestion& question : project::make_questions())
        add(command, question_option(question));
    add(command,
        {"need", "AMOUNT",
         std::string(in_place_of_a_file) +
             "only an amount of yarn, such as \"380 yd\", \"728 to 1116 yd\", \"14 oz\", \"6 balls "
             "of 110 yd\"",
         false});
    add(command, {"save", "FILE.toml", "keep what the options say as a project file", false});
    add(command, stash_option());
    if (command.arguments == "PROJECT.toml") command.arguments = "[PROJECT.toml]";
    if (command.arguments == "PROJECT.toml...") command.arguments = "[PROJECT.toml]...";
}

void take_makes(Command& command) {
    take_makes_without_skeins(command);
    add(command, have_option());
}

void take_pieces(Command& command) {
    take_makes(command);
    std::erase_if(command.options, [](const Option& option) { return option.name == "need"; });
}

bool is_asked(const Values& values) {
    if (values.given("need")) return true;
    for (const project::MakeQuestion& question : project::make_questions())
        if (stands_for_file(question.id) && values.given(std::string(question.id))) return true;
    return false;
}

project::MakeAnswers answers_of(const Values& values) {
    project::MakeAnswers answers;
    for (const project::MakeQuestion& question : project::make_questions())
        for (const std::string& text : values.all(std::string(question.id)))
            answers.add(question.id, text);
    if (const auto need = values.one("need")) {
        if (answers.has("total"))
            refuse_option("need", "--total is given too", "one of them",
                          "Both say how much yarn it takes.");
        answers.add("total", *need);
    }
    if (const auto scale = scale_text(values)) answers.add("scale", *scale);
    if (values.in_grams()) answers.add("label", a_metre_a_gram);
    // A weighed swatch hangs on it.
    if (!answers.has("label") && !answers.has("total") && answers.has("swatch") &&
        values.given("put-up") && !values.given("have"))
        answers.add("label", *values.one("put-up"));
    if (!answers.has("label"))
        for (const std::string& text : values.all("skein"))
            if (const auto said = exchange::parse_counted(text);
                said && said->counted && yarn::parse_put_up(said->rest)) {
                answers.add("label", said->rest);
                break;
            }
    if (!values.given("have")) return answers;
    refuse_haves_not_read(values);
    if (answers.has("yarn")) {
        // Both are of the yarn that is named.
        if (!answers.has("label")) add_labels_had(values, answers);
    } else {
        answers.add("yarn", yarn_at_hand);
        // What is made from yarn at hand is made of its label. A total in grams may be of any yarn.
        // What is kept is asked later, by its scale too.
        const bool any_yarn =
            answers.has("total") && (!values.given("save") || !is_length(*answers.one("total")));
        if (!any_yarn && !answers.has("label")) add_labels_had(values, answers);
    }
    return answers;
}

namespace {

/// A slip in a name is no yarn that the stash lacks.
void note_near_name(const std::string& named, const std::vector<stash::Skein>& known,
                    const World& world) {
    if (known.empty() || !exchange::yarns_named(named, known).empty()) return;
    std::vector<std::string> names;
    for (const stash::Skein& skein : known) names.push_back(skein.yarn.name);
    const std::string meant = base::did_you_mean(base::nearest_name(named, names));
    if (!meant.empty())
        *world.err << "note: your stash has no yarn called " << base::quoted(named) << ". " << meant
                   << "\n";
}

}  // namespace

exchange::AskedProject asked_project(const project::MakeAnswers& answers, const Values& values,
                                     const World& world) {
    std::optional<exchange::AskedProject> asked;
    try {
        // The stash tells of a yarn that is named in it; a large one takes long to read for
        // nothing.
        const auto named = answers.one("yarn");
        const bool names_one = named && *named != yarn_at_hand;
        const auto known = names_one ? known_skeins(values, world) : std::vector<stash::Skein>();
        asked = exchange::project_of_answers(answers, known, values.settings().project,
                                             values.rows_matter());
        if (names_one) note_near_name(*named, known, world);
    } catch (const base::InputError& error) {
        base::Problems problems;
        for (const base::Problem& one : error.problems()) {
            base::Problem problem = naming_option(one);
            if (problem.place.file == "--label" && values.given("have") &&
                (values.given("total") || values.given("need")))
                problem.remedy =
                    "The total is of the pattern's yarn: give what its label says. Where yours is "
                    "the same yarn, name it with --yarn, and say in --have what its label prints.";
            if (problem.place.file == "--label" && values.given("yarn") && !values.given("have") &&
                exchange::yarns_named(*values.one("yarn"), known_skeins(values, world)).empty())
                problem.what = "no yarn of the stash is called " +
                               base::quoted(*values.one("yarn")) +
                               ", and its length per weight is not given";
            if (problem.place.file == "--total" && values.given("need"))
                problem.place.file = "--need";
            // A reader's own example; what was said for the place stays.
            if (problem.place.column != 0 && problem.place.file.starts_with("--")) {
                const std::string option = problem.place.file.substr(2);
                problem = in_option(option, "", std::move(problem));
            }
            problems.push_back(std::move(problem));
        }
        throw base::InputError(std::move(problems));
    }
    for (project::Role& role : asked->project.roles) role.metre_is_a_gram = values.in_grams();
    for (const exchange::Assumed& one : asked->assumed)
        *world.err << "note: " << one.what << " (change it with --"
                   << (one.question == "total" && values.given("need") ? "need" : one.question)
                   << ")\n";
    return *std::move(asked);
}

Told told_by_file(const std::string& file, const Values& values) {
    return {project_in(file, values), exchange::read_text_file(file)};
}

void refuse_beside_file(const Values& values, const std::vector<std::string>& meant_otherwise) {
    const auto given = [&](std::string_view option) {
        const std::string name(option);
        return values.given(name) && std::find(meant_otherwise.begin(), meant_otherwise.end(),
                                               name) == meant_otherwise.end();
    };
    for (const project::MakeQuestion& question : project::make_questions())
        if ((stands_for_file(question.id) && given(question.id)) || given("need"))
            throw base::InputError(
                base::Problem{"both a project and options in place of one are given",
                              {},
                              "one of them",
                              "The options --make, --need, --total, --swatch and --gauge stand in "
                              "for a file."});
    for (const project::MakeQuestion& question : project::make_questions())
        if (given(question.id))
            refuse_option(std::string(question.id), "it stands in for a project file",
                          "no such option beside one", "The project file says this itself.");
    if (given("save"))
        refuse_option("save", "it stands in for a project file", "no such option beside one",
                      "The project file says this itself.");
}

Told told_by_answers(const project::MakeAnswers& answers, const Values& values,
                     const World& world) {
    exchange::AskedProject asked = asked_project(answers, values, world);
    look_at_findings(asked.project, values, world);
    return {std::move(asked.project), std::move(asked.toml)};
}

project::Project project_of(const Values& values, const World& world) {
    if (const auto file = values.one(positional)) {
        // Commands may mean one of the project's yarns by it.
        refuse_beside_file(values, {"yarn", "any-lot"});
        return project_in(*file, values);
    }
    if (!is_asked(values))
        throw base::InputError(base::Problem{
            "what are you making? Neither a project file nor a piece is given",
            {},
            "a TOML file, or --make or --need",
            "Name one, such as cowl.toml, or say it: --make \"33 hdc x 96 rows\" --gauge \"14 sts "
            "and 10 rows per 10 cm\", or --need \"380 yd\"."});
    const auto name = values.one("save");
    std::error_code none;
    if (name && std::filesystem::exists(*name, none))
        refuse_option("save", base::quoted(*name) + " exists already", "the name of a new file",
                      "");
    const auto margin = margin_asked(values);  // refused before anything is written
    exchange::AskedProject asked = asked_project(answers_of(values), values, world);
    if (name) {
        write_output("save", *name, with_margin(std::move(asked.toml), margin), values, world);
        *world.err << "saved " << base::shown_inert(*name) << "\n";
        if (values.given("confidence"))
            *world.err << "note: a project file keeps no confidence; give --confidence again, or "
                          "keep it for all projects with \"skeinfall settings "
                          "set confidence ...\"\n";
        asked.project.file = *name;
    }
    look_at_findings(asked.project, values, world);
    return std::move(asked.project);
}

namespace {

/// The put-up that all yarns of a project have; nothing where they differ.
yarn::Label label_of_all(const project::Project& project) {
    yarn::Label out;
    for (const project::Role& role : project.roles) {
        const yarn::Label own = role.grist ? yarn::put_up_in(role.grist->text) : yarn::Label{};
        if (!own.length || !own.mass || (out.length && !(out == own))) return {};
        out = own;
    }
    return out;
}

}  // namespace

std::optional<std::vector<stash::Skein>> skeins_had(const Values& values, const World& world,
                                                    const project::Project* project) {
    if (!values.given("have")) return std::nullopt;
    yarn::Yarn like;
    like.name = values.one("yarn").value_or(yarn_at_hand);
    if (values.given("yarn")) {
        const auto known = exchange::yarns_named(like.name, known_skeins(values, world));
        if (known.size() == 1) like = known.front().yarn;
    }
    if (project != nullptr) like.label = label_of_all(*project);
    if (values.in_grams()) like.label = yarn::parse_put_up(a_metre_a_gram)->label;
    if (const auto label = values.one("label"))
        if (const auto put_up = yarn::parse_put_up(exchange::plain_signs(*label)))
            like.label = put_up->label;
    if (const auto text = values.one("class"))
        like.weight = read_option("class", *text, exchange::parse_class);
    if (const auto fibre = values.one("fibre"))
        like.fibre = read_option("fibre", *fibre, [](std::string_view text) {
            return yarn::parse_fibre_content(exchange::fibre_as_said(std::string(text)));
        });
    const bool by_colour = values.given("stripes") && !values.given(positional);
    const auto stripes = exchange::parse_stripes(values.one("stripes").value_or(""));
    std::vector<stash::Skein> out;
    for (const std::string& given : values.all("have")) {
        const std::string text = by_colour ? with_colon(given, values.one("stripes")) : given;
        if (by_colour && stripes && exchange::having_of_colour(text).colour.empty() &&
            !exchange::colour_roles(*stripes).back().colour.empty())
            refuse_option("have", "it does not say of which colour " + base::quoted(text) + " is",
                          "a colour of the stripes before it",
                          "Write it like \"" + stripes->front().colour + ": " +
                              (base::is_digit(text.front()) ? base::shown_inert(text)
                                                            : "2 skeins of 170 yd / 100 g") +
                              "\".");
        const auto some = exchange::parse_having(values.in_grams() ? with_metres(text) : text, like,
                                                 values.one("colour").value_or(""), out.size() + 1);
        if (!some) refuse_have(some.problem());
        if (auto problem = impossible_label(some->front().yarn.label)) refuse_have(*problem);
        refuse_another_yarn(text, some->front(), out, values);
        if (const auto& weighing = some->front().weighing)
            note_coarse_step(weighing->shown.text, weighing->scale.value, *world.err);
        out.insert(out.end(), some->begin(), some->end());
    }
    return out;
}

}  // namespace skeinfall::cli
