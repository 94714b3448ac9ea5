#include "make_options.hpp"

#include <filesystem>
#include <ostream>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/make_words.hpp"
#include "skeinfall/exchange/yarn_words.hpp"
#include "skeinfall/store/store.hpp"
#include "skeinfall/yarn/label_text.hpp"

#include "options.hpp"
#include "output_file.hpp"
#include "stops_first.hpp"

namespace skeinfall::cli {
namespace {

/// What a yarn is called that nobody named.
constexpr const char* yarn_at_hand = "yarn at hand";

/// Questions that a file answers in its own way, so that their options only go without one.
bool stands_for_file(std::string_view id) {
    return id == "make" || id == "total" || id == "swatch" || id == "gauge";
}

std::string help_of(const project::MakeQuestion& question) {
    std::string text(question.question);
    text.front() = static_cast<char>(text.front() - 'A' + 'a');
    if (!question.example.empty()) text += ": \"" + std::string(question.example) + "\"";
    return "without a file: " + text;
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
    if (problem.what.starts_with("nothing says how much of yarn"))
        problem.remedy =
            "Give --class 4 (the weight class on the label) or --label \"200 yd / 100 g\": others' "
            "makes then tell it to a quarter or so. --swatch \"15 x 15 cm, 14 g\" tells more.";
    return problem;
}

}  // namespace

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
    return {std::string(question.id), std::string(question.argument), help_of(question),
            question.many};
}

Option have_option() {
    return {"have", "TEXT",
            "yarn at hand instead of the stash: \"2 skeins of 170 yd / 100 g\", \"48 g\"", true};
}

void take_makes_without_skeins(Command& command) {
    for (const project::MakeQuestion& question : project::make_questions())
        add(command, question_option(question));
    add(command, {"need", "AMOUNT",
                  "without a file: a bare need, such as \"380 yd\", \"728 to 1116 yd\", \"14 oz\", "
                  "\"6 balls of 110 yd\"",
                  false});
    add(command, {"save", "FILE.toml", "keep what the options say as a project file", false});
    add(command, stash_option());
    if (command.arguments == "PROJECT.toml") command.arguments = "[PROJECT.toml]";
    if (command.arguments == "PROJECT.toml...") command.arguments = "[PROJECT.toml]...";
}

void take_makes(Command& command) {
    take_makes_without_skeins(command);
    add(command,
        {"have", "TEXT",
         "yarn at hand instead of the stash: \"2 skeins of 170 yd / 100 g\", \"48 g\"", true});
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
    if (!values.given("have")) return answers;
    if (!answers.has("yarn")) {
        answers.add("yarn", yarn_at_hand);
        // What is made from yarn at hand is made of its label. A total in grams may be of any yarn.
        const bool of_it = !answers.has("total");
        for (const std::string& text : values.all("have")) {
            const std::size_t of = text.find(" of ");
            const std::string put_up = of == std::string::npos ? text : text.substr(of + 4);
            if (of_it && !answers.has("label") && yarn::parse_put_up(put_up))
                answers.add("label", put_up);
        }
    }
    return answers;
}

exchange::AskedProject asked_project(const project::MakeAnswers& answers, const Values& values,
                                     const World& world) {
    std::optional<exchange::AskedProject> asked;
    try {
        // The stash tells of a yarn that is named in it; a large one takes long to read for
        // nothing.
        const auto named = answers.one("yarn");
        const bool names_one = named && *named != yarn_at_hand;
        asked = exchange::project_of_answers(
            answers, names_one ? known_skeins(values, world) : std::vector<stash::Skein>(),
            values.settings().project);
    } catch (const base::InputError& error) {
        base::Problems problems;
        for (const base::Problem& one : error.problems()) {
            base::Problem problem = naming_option(one);
            if (problem.place.file == "--total" && values.given("need"))
                problem.place.file = "--need";
            problems.push_back(std::move(problem));
        }
        throw base::InputError(std::move(problems));
    }
    for (const exchange::Assumed& one : asked->assumed)
        *world.err << "note: " << one.what << " (change it with --" << one.question << ")\n";
    return *std::move(asked);
}

project::Project project_of(const Values& values, const World& world) {
    const auto file = values.one(positional);
    if (file && is_asked(values))
        throw base::InputError(
            base::Problem{"both a project and options in place of one are given",
                          {},
                          "one of them",
                          "The options --make, --need, --total, --swatch and --gauge stand in for "
                          "a file."});
    if (file) {
        for (const char* option : {"label", "plus", "save", "title", "craft", "for", "fibre"})
            if (values.given(option))
                refuse_option(option, "it stands in for a project file",
                              "no such option beside one", "The project file says this itself.");
        return project_in(*file, values);
    }
    if (!is_asked(values))
        throw base::InputError(base::Problem{
            "no project file is named, and no option says what is made",
            {},
            "a TOML file, or --make or --need",
            "Name one, such as cowl.toml, or say it: --make \"33 hdc x 96 rows\" --gauge \"14 sts "
            "and 10 rows per 10 cm\", or --need \"380 yd\"."});
    exchange::AskedProject asked = asked_project(answers_of(values), values, world);
    if (const auto name = values.one("save")) {
        std::error_code none;
        if (std::filesystem::exists(*name, none))
            refuse_option("save", base::quoted(*name) + " is there already", "a new file", "");
        write_output("save", *name, asked.toml, values, world);
        *world.err << "saved " << base::shown_inert(*name) << "\n";
        asked.project.file = *name;
    }
    try {
        if (!values.given("despite-stops")) refuse_stops(asked.project);
    } catch (const base::InputError& error) {
        throw base::InputError(naming_options(error.problems()));
    }
    return std::move(asked.project);
}

std::optional<std::vector<stash::Skein>> skeins_had(const Values& values, const World& world) {
    if (!values.given("have")) return std::nullopt;
    yarn::Yarn like;
    like.name = values.one("yarn").value_or(yarn_at_hand);
    if (values.given("yarn")) {
        const auto known = exchange::yarns_named(like.name, known_skeins(values, world));
        if (known.size() == 1) like = known.front().yarn;
    }
    if (const auto label = values.one("label"))
        if (const auto put_up = yarn::parse_put_up(exchange::plain_signs(*label)))
            like.label = put_up->label;
    if (const auto text = values.one("class"))
        like.weight = read_option("class", *text, exchange::parse_class);
    if (const auto fibre = values.one("fibre"))
        like.fibre = read_option("fibre", *fibre, [](std::string_view text) {
            return yarn::parse_fibre_content(exchange::fibre_as_said(std::string(text)));
        });
    std::vector<stash::Skein> out;
    for (const std::string& text : values.all("have")) {
        auto some =
            exchange::parse_having(text, like, values.one("colour").value_or(""), out.size() + 1);
        if (!some) {
            base::Problem problem = some.problem();
            problem.place.file = "--have";
            throw base::InputError(std::move(problem));
        }
        out.insert(out.end(), some->begin(), some->end());
    }
    return out;
}

}  // namespace skeinfall::cli
