#include <algorithm>
#include <filesystem>
#include <fstream>
#include <istream>
#include <ostream>

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

/// Answers of an interview that did not come to its end, one a line: question, tab, answer. Each
/// project that is to be written has its own.
class Draft {
  public:
    Draft(const fs::path& folder, std::string project, const Values& values, const World& world)
        : project_(std::move(project)),
          file_(folder / file_for(project_)),
          values_(values),
          world_(world) {}

    /// How to go on with it.
    [[nodiscard]] std::string command() const {
        return "skeinfall new" + (project_.empty() ? "" : " " + base::shown_inert(project_));
    }

    /// Projects begun under other names.
    [[nodiscard]] std::vector<std::string> others() const {
        std::vector<std::string> out;
        std::error_code none;
        for (fs::directory_iterator at(file_.parent_path(), none), end; !none && at != end;
             at.increment(none)) {
            const std::string name = at->path().filename().string();
            if (!name.starts_with(prefix) || at->path() == file_) continue;
            std::ifstream in(at->path(), std::ios::binary);
            std::string line;
            const std::string key = "file\t";
            out.push_back(std::getline(in, line) && line.starts_with(key) &&
                                  !base::first_invalid_utf8(line)
                              ? " " + line.substr(key.size())
                              : std::string());
        }
        std::sort(out.begin(), out.end());
        return out;
    }

    [[nodiscard]] MakeAnswers read() const {
        MakeAnswers answers;
        std::ifstream in(file_, std::ios::binary);
        for (std::string line; std::getline(in, line);) {
            const std::size_t tab = line.find('\t');
            if (tab == std::string::npos || base::first_invalid_utf8(line)) continue;
            const std::string id = line.substr(0, tab);
            if (project::make_question(id) != nullptr) answers.add(id, line.substr(tab + 1));
        }
        return answers;
    }
    void write(const MakeAnswers& answers) const {
        std::string text = project_.empty() ? "" : "file\t" + project_ + "\n";
        for (const MakeQuestion& question : project::make_questions())
            for (const std::string& answer : answers.all(question.id))
                text += std::string(question.id) + "\t" + answer + "\n";
        std::error_code ignored;
        fs::create_directories(file_.parent_path(), ignored);
        fs::remove(file_, ignored);
        write_output("stash", file_.string(), text, values_, world_);
    }
    void forget() const {
        std::error_code ignored;
        fs::remove(file_, ignored);
    }

  private:
    static constexpr std::string_view prefix = "unfinished-";

    static std::string file_for(const std::string& project) {
        if (project.empty()) return std::string(prefix) + "project.txt";
        std::error_code none;
        std::string name;
        for (const char c : fs::absolute(project, none).lexically_normal().string())
            name += c == '/' ? '-' : c;
        constexpr std::size_t longest = 200;
        if (name.size() > longest) name.erase(0, name.size() - longest);
        return std::string(prefix) + name + ".txt";
    }

    std::string project_;
    fs::path file_;
    const Values& values_;
    const World& world_;
};

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
        std::vector<std::size_t> asked;
        for (std::size_t at = 0; at < questions.size();) {
            const MakeQuestion& question = questions[at];
            if (answers_.has(question.id) || !worth_asking(question, so_far())) {
                ++at;
                continue;
            }
            switch (ask(question)) {
                case Then::on:
                    asked.push_back(at++);
                    break;
                case Then::back:
                    go_back(at, asked);
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
        std::string id = problem.place.file;
        const MakeQuestion* const question = project::make_question(id);
        if (question == nullptr) return false;
        base::Problem shown = problem;
        shown.place = {};
        *world_.err << to_text(shown) << "\n";
        answers_.forget(id);
        return ask(*question) == Then::on && answers_.has(id);
    }

  private:
    enum class Then { on, back, stop };

    /// To the question before: the last one asked, else the last one answered another time.
    void go_back(std::size_t& at, std::vector<std::size_t>& asked) {
        const auto& questions = project::make_questions();
        std::optional<std::size_t> to;
        if (!asked.empty()) {
            to = asked.back();
            asked.pop_back();
        }
        for (std::size_t i = at; i-- > 0 && !to;)
            if (answers_.has(questions[i].id)) to = i;
        if (!to) {
            *world_.err << "This is the first question.\n";
            return;
        }
        at = *to;
        answers_.forget(questions[at].id);
        draft_.write(answers_);
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

    Then ask(const MakeQuestion& question) {
        while (true) {
            const auto typed = answer_line(
                world_,
                question.example.empty()
                    ? fmt::format("{}? ", question.question)
                    : fmt::format("{}? (for example: {}) ", question.question, question.example),
                likely(question));
            if (!typed) return Then::stop;
            std::string text(base::trimmed(*typed));
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
            if (question.id == "yarn" && !picked(text)) continue;
            auto wrong = mistake_in(question.id, text);
            const std::string id(question.id);
            for (const char* const beside : {"total", "plus", "yarn", "stitch", "label"})
                if (!wrong && id == beside) wrong = mistake_beside(id, text);
            if (wrong) {
                *world_.err << to_text(*wrong) << "\n";
                continue;
            }
            answers_.add(id, text);
            draft_.write(answers_);
            return Then::on;
        }
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

/// The verdict, where there is yarn to cover it with; else how much it takes.
int tell(const std::string& file, const Values& values, const World& world, bool has_stash) {
    Values of_file;
    of_file.use(values.settings());
    of_file.add(positional, file);
    if (const auto stash = values.one("stash")) of_file.add("stash", *stash);
    for (const std::string& have : values.all("have")) of_file.add("have", have);
    *world.out << "\n";
    const bool cover = has_stash || values.given("have");
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

/// The project of the answers; a person is asked again for what does not fit.
exchange::AskedProject project_asked(const MakeAnswers& answers, Interview* interview,
                                     const std::vector<stash::Skein>& stash, const Draft& draft,
                                     const Values& values, const World& world) {
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
        if (interview != nullptr)
            *world.err << "What you answered is kept; \"" << draft.command()
                       << "\" goes on with it.\n";
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
            *world.err << "\nWhat you answered is kept; \"" << draft.command()
                       << "\" goes on with it.\n";
            return not_so;
        }
    }
    const exchange::AskedProject asked =
        project_asked(answers, interview ? &*interview : nullptr, stash, draft, values, world);
    for (const exchange::Assumed& one : asked.assumed) *world.err << "note: " << one.what << "\n";
    const std::string file = values.one(positional).value_or(file_name_of(asked.project.title));
    refuse_existing(file);
    write_output("", file, asked.toml, values, world);
    draft.forget();
    *world.out << "wrote " << base::shown_inert(file) << "\n";
    return tell(file, values, world, !stash.empty());
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
