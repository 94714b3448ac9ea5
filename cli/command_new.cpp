#include <algorithm>
#include <filesystem>
#include <fstream>
#include <istream>
#include <ostream>
#include <set>

#include <fmt/format.h>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/colour_words.hpp"
#include "skeinfall/exchange/make_words.hpp"
#include "skeinfall/exchange/text_file.hpp"
#include "skeinfall/exchange/yarn_words.hpp"
#include "skeinfall/project/fabric_words.hpp"
#include "skeinfall/project/stitches.hpp"
#include "skeinfall/units/parse.hpp"
#include "skeinfall/yarn/tools.hpp"

#include "answer_line.hpp"
#include "commands.hpp"
#include "draft.hpp"
#include "exit_code.hpp"
#include "make_options.hpp"
#include "options.hpp"
#include "output_file.hpp"
#include "run.hpp"
#include "stops_first.hpp"

namespace skeinfall::cli {
namespace {

namespace fs = std::filesystem;
using project::AskWhen;
using project::MakeAnswers;
using project::MakeQuestion;

template <class T>
std::optional<base::Problem> mistake(const base::Result<T>& result) {
    if (result) return std::nullopt;
    base::Problem problem = result.problem();
    problem.place = {};
    return problem;
}

constexpr std::size_t longest_stitch = 40;

bool is_known_stitch(const std::string& text) {
    std::string name = base::lower(text);
    if (name.starts_with("uk ") || name.starts_with("us ")) name.erase(0, 3);
    for (const project::Craft craft : {project::Craft::crochet, project::Craft::knit})
        for (const project::Terms terms : {project::Terms::us, project::Terms::uk})
            if (project::stitch_kind(name, craft, terms) || project::fabric_word(craft, name))
                return true;
    return false;
}

/// What is wrong with one answer, by itself.
std::optional<base::Problem> mistake_in(std::string_view id, const std::string& text) {
    if (id == "make") return mistake(exchange::parse_piece(text));
    if (id == "gauge") {
        const auto gauges = exchange::parse_gauges(text);
        for (const exchange::WrittenGauge& gauge :
             gauges ? *gauges : std::vector<exchange::WrittenGauge>())
            if (gauge.rows.empty())
                return base::Problem{
                    "its rows are missing", {}, "\"14 sts and 10 rows per 10 cm\"", ""};
        return mistake(gauges);
    }
    if (id == "swatch") return mistake(exchange::parse_swatch(exchange::of_colour(text).text));
    if (id == "stitch" && exchange::parse_gauge(text))
        return base::Problem{
            "this is a gauge, and the stitch is asked for", {}, "a stitch such as hdc", ""};
    if (id == "stitch" && (units::parse_length(text) || yarn::parse_hook(text) ||
                           yarn::parse_needle(text) || text.size() > longest_stitch))
        return base::Problem{
            base::quoted(text) + " names no stitch", {}, "a stitch such as hdc", ""};
    if (id == "stitch" && !is_known_stitch(text))
        return base::Problem{
            base::quoted(text) + " is not a stitch known here",
            {},
            "one such as sc, hdc, dc, stockinette or garter",
            "Where it is none of these, skip the question: a weighed swatch shows how much yarn."};
    if (id == "stripes") return mistake(exchange::parse_stripes(text));
    if (id == "class") return mistake(exchange::parse_class(text));
    if (id == "label") {
        if (auto other = exchange::not_a_label(text)) return other;
        return mistake(units::parse_grist(text));
    }
    if (id == "fibre") return mistake(yarn::parse_fibre_content(text));
    if (id == "hook") return mistake(yarn::parse_hook(text));
    if (id == "needle") return mistake(yarn::parse_needle(text));
    return std::nullopt;
}

bool worth_asking(const MakeQuestion& question, const exchange::SoFar& so_far) {
    switch (question.when) {
        case AskWhen::always:
            return true;
        case AskWhen::stitch:
            return !so_far.stitch_said;
        case AskWhen::crochet:
            return !so_far.knit;
        case AskWhen::knit:
            return so_far.knit;
        case AskWhen::yarn:
            return !so_far.yarn_known;
        case AskWhen::no_colour:
            return !so_far.colour_said;
        case AskWhen::no_stripes:
            return !so_far.stripes_said;
        case AskWhen::never:
            return false;
    }
    return false;
}

class Interview {
  public:
    Interview(MakeAnswers& answers, const std::vector<stash::Skein>& stash, const Values& values,
              const World& world, const Draft& draft)
        : answers_(answers), stash_(stash), values_(values), world_(world), draft_(draft) {}

    /// False when the person stopped before the end; the answers are kept.
    bool run() {
        *world_.err
            << "Enter skips, ? explains, back goes back, stop saves your answers for later.\n";
        const auto& questions = project::make_questions();
        std::set<std::size_t> asked;
        std::optional<std::size_t> again;  // though it is answered
        for (std::size_t at = 0; at < questions.size();) {
            const MakeQuestion& question = questions[at];
            const bool open = !answers_.has(question.id) && worth_asking(question, so_far());
            if (!open && again != at) {
                ++at;
                continue;
            }
            again.reset();
            switch (ask(question)) {
                case Then::on:
                    asked.insert(at++);
                    break;
                case Then::back:
                    again = at = before(at, asked);
                    break;
                case Then::stop:
                    return false;
            }
        }
        return true;
    }

    /// Which answer to give anew after what stops the project; false where none is.
    bool choose_again(const base::Problems& problems) {
        for (const base::Problem& problem : problems) *world_.err << to_text(problem) << "\n";
        std::vector<std::string> ids;
        for (const MakeQuestion& question : project::make_questions())
            if (answers_.has(question.id)) ids.emplace_back(question.id);
        while (true) {
            const auto typed = answer_line(
                world_, "Which answer do you want to change (" + base::join(ids, ", ") + ")? ",
                ids);
            const std::string id(typed ? base::trimmed(*typed) : std::string_view());
            if (id.empty() || base::same_word(id, "stop")) return false;
            const MakeQuestion* const question = project::make_question(id);
            if (question == nullptr || !answers_.has(id)) continue;
            answers_.forget(id);
            draft_.write(answers_);
            return ask(*question) != Then::stop;
        }
    }

    /// Asks once more for what a mistake names; false when there is no answer to be had.
    bool put_right(const base::Problem& problem) {
        const MakeQuestion* question = project::make_question(problem.place.file);
        if (question == nullptr) return false;
        base::Problem shown = problem;
        shown.place = {};
        // Any of several would do.
        const bool one_of = question->id == "class" && !answers_.has("class");
        if (!one_of) *world_.err << to_text(shown) << "\n";
        if (one_of) question = chosen_of({"class", "label", "hook", "needle", "gauge"});
        if (question == nullptr) return false;
        const auto was = answers_.all(question->id);
        answers_.forget(question->id);
        if (ask(*question) == Then::on && answers_.has(question->id)) return true;
        for (const std::string& answer : was) answers_.add(question->id, answer);
        return false;
    }

  private:
    enum class Then { on, back, stop };

    /// The question before one: asked now, or answered another time. Its answer stays until another
    /// one is given.
    [[nodiscard]] std::size_t before(std::size_t at, const std::set<std::size_t>& asked) const {
        const auto& questions = project::make_questions();
        for (std::size_t i = at; i-- > 0;)
            if (asked.contains(i) || answers_.has(questions[i].id)) return i;
        *world_.err << "This is the first question.\n";
        return at;
    }

    /// What is wrong with an answer beside what is made.
    [[nodiscard]] std::optional<base::Problem> mistake_beside(const std::string& id,
                                                              const std::string& text) const {
        MakeAnswers some;
        for (const char* const known : {"make", "title", "colour", "stripes"})
            for (const std::string& answer : answers_.all(known))
                if (id != known) some.add(known, answer);
        some.add(id, text);
        try {
            static_cast<void>(
                exchange::project_of_answers(some, stash_, values_.settings().project));
        } catch (const base::InputError& error) {
            for (base::Problem problem : error.problems()) {
                if (problem.place.file != id) continue;
                problem.place = {};
                return problem;
            }
        }
        return std::nullopt;
    }

    [[nodiscard]] exchange::SoFar so_far() const {
        return exchange::so_far(answers_, stash_, values_.settings().project);
    }

    /// Which of several the person knows; nothing where none.
    [[nodiscard]] const MakeQuestion* chosen_of(const std::vector<std::string>& ids) const {
        while (true) {
            const auto typed = answer_line(
                world_,
                "One of these is needed: " + base::join(ids, ", ") + ". Which do you know? ", ids);
            const std::string id(typed ? base::trimmed(*typed) : std::string_view());
            if (id.empty() || base::same_word(id, "stop") || says_nothing(id)) return nullptr;
            for (const std::string& one : ids)
                if (base::same_word(id, one)) return project::make_question(one);
        }
    }

    /// The question with an example; or with what was said, which Enter keeps.
    [[nodiscard]] std::string words_of(const MakeQuestion& question) const {
        if (answers_.has(question.id))
            return fmt::format("{}? (you said: {}; Enter keeps it, \"none\" takes it away) ",
                               question.question,
                               base::shown_inert(base::join(answers_.all(question.id), "; ")));
        if (!named_.empty() && question.id == "make")
            return fmt::format("How big is the {}? (for example: 8 in x 60 in) ",
                               base::shown_inert(named_));
        return question.example.empty()
                   ? fmt::format("{}? ", question.question)
                   : fmt::format("{}? (for example: {}) ", question.question, question.example);
    }

    Then ask(const MakeQuestion& question) {
        const std::string id(question.id);
        while (true) {
            const auto typed = answer_line(world_, words_of(question), likely(question));
            if (!typed) return Then::stop;
            std::string text(base::trimmed(*typed));
            if (base::same_word(text, "none") && answers_.has(id)) {
                answers_.forget(id);
                draft_.write(answers_);
                return Then::on;
            }
            if (text.empty() || says_nothing(text)) return Then::on;
            if (base::same_word(text, "back")) return Then::back;
            if (base::same_word(text, "stop")) return Then::stop;
            if (text == "?") {
                *world_.err << question.explains << "\n";
                continue;
            }
            if (base::first_invalid_utf8(text)) {
                *world_.err << "This is not UTF-8 text; please write it again.\n";
                continue;
            }
            if (id == "yarn" && !picked(text)) continue;
            if (id == "make" && keeps_name(text)) continue;
            auto wrong = mistake_in(id, text);
            for (const char* const beside : {"total", "plus", "yarn", "stitch", "label"})
                if (!wrong && id == beside) wrong = mistake_beside(id, text);
            if (wrong) {
                *world_.err << to_text(*wrong) << "\n";
                continue;
            }
            answers_.forget(id);
            answers_.add(id, text);
            draft_.write(answers_);
            return Then::on;
        }
    }

    /// "a scarf": its size is asked next, and the name goes before it.
    bool keeps_name(std::string& text) {
        constexpr std::size_t longest_name = 40;
        if (text.find_first_of("0123456789") != std::string::npos) {
            const auto alone = exchange::parse_piece(text);
            if (!named_.empty() && alone && alone->name.empty()) text = named_ + ": " + text;
            return false;
        }
        if (text.size() > longest_name || text.find(':') != std::string::npos) return false;
        std::string name = text;
        for (const std::string_view article : {"a ", "an ", "the ", "my "})
            if (base::lower(name).starts_with(article)) name.erase(0, article.size());
        // A name that no size could follow is told as such.
        if (exchange::parse_piece(text) || !exchange::parse_piece(name + ": 20 x 30 cm"))
            return false;
        named_ = name;
        return true;
    }

    /// What Tab completes.
    [[nodiscard]] std::vector<std::string> likely(const MakeQuestion& question) const {
        std::vector<std::string> out;
        if (question.id == "yarn")
            for (const stash::Skein& skein : stash_) out.push_back(skein.yarn.name);
        else
            out.emplace_back(question.example);
        std::sort(out.begin(), out.end());
        out.erase(std::unique(out.begin(), out.end()), out.end());
        return out;
    }

    /// A yarn of the stash by some letters, or a new one. False where they fit several.
    bool picked(std::string& text) const {
        const std::vector<stash::Skein> fits = exchange::yarns_named(text, stash_);
        if (fits.size() > 1) {
            *world_.err << "Several fit: ";
            for (std::size_t i = 0; i < fits.size(); ++i)
                *world_.err << (i == 0 ? "" : ", ") << base::shown_inert(fits[i].yarn.name);
            *world_.err << ". Give more of the name.\n";
            return false;
        }
        if (fits.size() == 1) {
            text = fits.front().yarn.name;
            *world_.err << "  " << base::shown_inert(text) << ", from your stash\n";
        }
        return true;
    }

    MakeAnswers& answers_;
    const std::vector<stash::Skein>& stash_;
    const Values& values_;
    const World& world_;
    const Draft& draft_;
    std::string named_;  ///< what is made, where its size was not said with it
};

std::string file_name_of(const std::string& title) {
    std::string name;
    for (const char c : base::lower(title)) {
        const bool plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
        if (plain)
            name += c;
        else if (!name.empty() && name.back() != '-')
            name += '-';
    }
    while (!name.empty() && name.back() == '-') name.pop_back();
    constexpr std::size_t long_enough = 40;
    if (name.size() > long_enough) name.resize(long_enough);
    return (name.empty() ? std::string("project") : name) + ".toml";
}

void refuse_existing(const std::string& file) {
    std::error_code none;
    if (fs::exists(file, none))
        throw base::InputError(base::Problem{base::quoted(file) + " exists already",
                                             {},
                                             "the name of a new file",
                                             "Name another one: skeinfall new NAME.toml"});
}

/// What another command is asked of the file just written.
Values values_of_file(const std::string& file, const std::vector<std::string>& had,
                      const Values& values) {
    Values out;
    out.use(values.settings());
    out.add(positional, file);
    if (const auto stash = values.one("stash")) out.add("stash", *stash);
    for (const std::string& have : had) out.add("have", have);
    return out;
}

/// The yarn that a person has for it, asked until she has no more; each answer is read before the
/// next is asked.
std::vector<std::string> yarn_had(const std::string& file, const project::Project& project,
                                  const Values& values, const World& world) {
    std::vector<std::string> had;
    while (true) {
        const auto typed = answer_line(world,
                                       had.empty() ? "How much yarn do you have? (for example: 2 "
                                                     "skeins of 170 yd, or 148 g) "
                                                   : "Any more of it? (Enter where that is all) ",
                                       {});
        const std::string text(typed ? base::trimmed(*typed) : std::string_view());
        if (text.empty() || says_nothing(text) || base::same_word(text, "stop") ||
            base::same_word(text, "no"))
            return had;
        if (text == "?") {
            *world.err << "Skeins and what one of them holds, as on the label, or what a scale "
                          "shows.\n";
            continue;
        }
        std::vector<std::string> all = had;
        all.push_back(text);
        try {
            const Values tried = values_of_file(file, all, values);
            auto skeins = skeins_had(tried, world, &project);
            if (skeins) take_for_project(tried, world, project, *skeins);
            had = std::move(all);
        } catch (const base::InputError& error) {
            base::Problem problem = error.problems().front();
            problem.place = {};
            *world.err << to_text(problem) << "\n";
        }
    }
}

/// Of a weighed swatch without a label everything is known in grams, and a file is not: that needs
/// the label. The answer is given all the same.
int tell_in_grams(const MakeAnswers& answers, const Values& values, const World& world) {
    Values asked;
    asked.use(values.settings());
    for (const MakeQuestion& question : project::make_questions())
        for (const std::string& text : answers.all(question.id))
            asked.add(std::string(question.id), text);
    for (const std::string& have : values.all("have")) asked.add("have", have);
    const Command& command = find_command(values.given("have") ? "cover" : "need");
    if (!in_grams_alone(command, asked, world)) return not_so;
    asked.reckon_in_grams();
    *world.err << "Without the label there is no file yet. In grams of this yarn:\n";
    *world.out << "\n";
    static_cast<void>(command.run(asked, world));
    return not_so;
}

/// The verdict, where there is yarn to cover it with; else how much it takes.
int tell(const std::string& file, const std::vector<std::string>& had, const Values& values,
         const World& world, bool has_stash) {
    const Values of_file = values_of_file(file, had, values);
    *world.out << "\n";
    const bool cover = has_stash || !had.empty();
    const int code = find_command(cover ? "cover" : "need").run(of_file, world);
    if (!cover)
        *world.out << "\nNext\n  skeinfall stash add                 record the yarn you have\n  "
                      "skeinfall cover "
                   << base::shown_inert(file) << " --have \"2 skeins of 170 yd\"\n";
    return code == not_so ? done : code;
}

/// Answers of another time, where the person wants to go on with them.
void take_up(MakeAnswers& answers, const Draft& draft, const Values& values, const World& world) {
    const MakeAnswers before = draft.read();
    for (const std::string& other : before.empty() ? draft.others() : std::vector<std::string>())
        *world.err << "Kept from another time: \"skeinfall new" << base::shown_inert(other)
                   << "\" goes on with it.\n";
    if (before.empty()) return;
    answers = before;
    if (const auto scale = scale_text(values)) answers.add("scale", *scale);
    *world.err << "Going on with what you answered before:\n";
    for (const MakeQuestion& question : project::make_questions())
        for (const std::string& text : before.all(question.id))
            *world.err << "  " << question.question << ": " << base::shown_inert(text) << "\n";
    std::string text;
    while (true) {
        *world.err << "Press Enter to go on, or type \"anew\" to start over: " << std::flush;
        if (!std::getline(*world.in, text)) return;
        text = std::string(base::trimmed(text));
        if (text.empty()) return;
        if (base::same_word(text, "anew")) {
            answers = {};
            return;
        }
        *world.err << base::quoted(text) << " is not an answer to this; the questions come next.\n";
    }
}

/// The project of the answers; a person is asked again for what does not fit. Nothing where she has
/// no answer to that.
std::optional<exchange::AskedProject> project_asked(const MakeAnswers& answers,
                                                    Interview* interview,
                                                    const std::vector<stash::Skein>& stash,
                                                    const Values& values) {
    while (true) {
        base::Problems problems;
        try {
            exchange::AskedProject asked =
                exchange::project_of_answers(answers, stash, values.settings().project);
            try {
                // No file is left behind that no command can use.
                refuse_stops(asked.project);
                return asked;
            } catch (const base::InputError& error) {
                if (interview != nullptr && interview->choose_again(error.problems())) continue;
                problems = error.problems();
            }
        } catch (const base::InputError& error) {
            if (interview != nullptr && interview->put_right(error.problems().front())) continue;
            problems = error.problems();
        }
        // The person has read what is missing.
        if (interview != nullptr) return std::nullopt;
        throw base::InputError(naming_options(problems));
    }
}

int run_new(const Values& values, const World& world) {
    if (const auto file = values.one(positional)) refuse_existing(*file);
    const std::vector<stash::Skein> stash = known_skeins(values, world);
    const Draft draft(stash_path(values, world).parent_path(),
                      values.one(positional).value_or(std::string()), values, world);
    MakeAnswers answers = answers_of(values);
    const bool asks = world.in != nullptr;
    // The step of the scale comes from the settings, and answers nothing.
    const auto& questions = project::make_questions();
    const bool said =
        std::any_of(questions.begin(), questions.end(),
                    [&](const MakeQuestion& question) { return answers.has(question.id); });
    if (!said && !asks)
        throw base::InputError(base::Problem{
            "nobody can be asked here, and no option says what is made",
            {},
            "answers as options",
            "Write for example: skeinfall new scarf.toml --make \"33 hdc x 96 rows\" --gauge "
            "\"14 sts and 10 rows per 10 cm\" --total \"380 yd\"."});
    std::optional<Interview> interview;
    if (asks) {
        if (!said) take_up(answers, draft, values, world);
        interview.emplace(answers, stash, values, world, draft);
        if (!interview->run()) {
            draft.tell_kept();
            return not_so;
        }
    }
    const auto asked = project_asked(answers, interview ? &*interview : nullptr, stash, values);
    if (!asked) {
        const int code = tell_in_grams(answers, values, world);
        draft.tell_kept();
        return code;
    }
    for (const exchange::Assumed& one : asked->assumed) *world.err << "note: " << one.what << "\n";
    const std::string file = values.one(positional).value_or(file_name_of(asked->project.title));
    refuse_existing(file);
    write_output("", file, asked->toml, values, world);
    draft.forget();
    *world.out << "wrote " << base::shown_inert(file) << "\n";
    std::vector<std::string> have = values.all("have");
    const auto yarn = answers.one("yarn");
    const bool in_stash = yarn && exchange::yarns_named(*yarn, stash).size() == 1;
    if (asks && have.empty() && !in_stash) {
        *world.out << std::flush;
        have = yarn_had(file, asked->project, values, world);
    }
    return tell(file, have, values, world, !stash.empty());
}

}  // namespace

Command new_command() {
    Command command;
    command.name = "new";
    command.no = "stopped before the end; the answers are kept";
    command.asks = true;
    command.arguments = "[FILE.toml]";
    command.summary = "asks what you make and writes a project file, with the verdict";
    command.purpose =
        "Asks what you make, how large, at what gauge and in which yarn, then writes a project\n"
        "file with comments and says whether your yarn is enough. Enter skips a question, ?\n"
        "explains it, back goes back. An interview that ends early is kept. Answers given as\n"
        "options are not asked again.";
    for (const MakeQuestion& question : project::make_questions())
        command.options.push_back(interview_option(question));
    command.options.push_back(have_option());
    command.options.push_back(stash_option());
    command.examples = {
        {"skeinfall new shawl.toml --make \"22 cm x 1.5 m\" --total \"380 yd\"",
         "answers given as options are not asked again"},
        {"skeinfall new scarf.toml --make \"33 hdc x 96 rows\" --gauge \"14 sts and 10 rows per 10 "
         "cm\" --swatch \"15 x 15 cm, 14 g\" --label \"170 yd / 3.5 oz\"",
         "the same from a script"}};
    command.run = run_new;
    return command;
}

}  // namespace skeinfall::cli
