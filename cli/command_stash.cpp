#include <algorithm>
#include <array>
#include <cstdint>
#include <istream>
#include <ostream>

#include <fmt/format.h>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/make_words.hpp"
#include "skeinfall/exchange/yarn_words.hpp"
#include "skeinfall/report/json.hpp"
#include "skeinfall/report/stash_text.hpp"
#include "skeinfall/report/text.hpp"
#include "skeinfall/stash/find.hpp"
#include "skeinfall/units/parse.hpp"

#include "answer_line.hpp"
#include "commands.hpp"
#include "exit_code.hpp"
#include "odd_figures.hpp"
#include "options.hpp"
#include "stash_options.hpp"

namespace skeinfall::cli {
namespace {

constexpr std::int64_t skeins_at_once = 1000;

struct Question {
    std::string_view field;  ///< "label" and "count" besides the fields of a skein
    std::string_view text;
};

/// In the order of asking: the yarn with its label, then the skein.
const std::vector<Question>& questions() {
    static const std::vector<Question> all = [] {
        std::vector<Question> out;
        for (const stash::Owner owner : {stash::Owner::yarn, stash::Owner::skein})
            for (const stash::Field& field : stash::fields()) {
                if (field.owner != owner || field.prompt.empty()) continue;
                out.push_back({field.name, field.prompt});
                if (field.name == "yarn")
                    out.push_back({"label", "Label, such as 170 yd / 3.5 oz: "});
            }
        out.insert(out.end(), {{"weighed", "What the scale shows, such as 62 g: "},
                               {"scale", "The smallest step your scale shows, such as 1 g: "},
                               {"tare", "Cone or bag on the scale too, such as 25 g: "},
                               {"count", "How many skeins like this: "}});
        return out;
    }();
    return all;
}

/// Asks a person for what no option gave. An empty answer means "not known".
class SkeinInterview {
  public:
    /// `usual_scale`: of the settings; then it is not asked.
    SkeinInterview(OptionFields& fields, const World& world, std::optional<std::string> usual_scale)
        : fields_(fields), world_(world), usual_scale_(std::move(usual_scale)) {}

    /// Every question that no option answered.
    void everything(bool count_given) {
        *world_.err << "Press Enter for what you do not know. ? explains a question, back goes "
                       "back, stop leaves without adding.\n";
        std::vector<std::size_t> asked;
        for (std::size_t at = 0; at < questions().size();) {
            const Question& question = questions()[at];
            if (!worth_asking(question, count_given)) {
                ++at;
                continue;
            }
            if (ask(question)) {
                asked.push_back(at++);
                continue;
            }
            if (asked.empty()) {
                *world_.err << "This is the first question.\n";
                continue;
            }
            at = asked.back();
            asked.pop_back();
            forget(questions()[at].field);
        }
    }
    void scale() {
        for (const Question& question : questions())
            while (question.field == "scale" && !ask(question)) {
            }
    }
    [[nodiscard]] const std::string& count() const { return count_; }

  private:
    [[nodiscard]] bool worth_asking(const Question& question, bool count_given) const {
        if (question.field == "count" && count_given) return false;
        if (question.field == "label" && !fields_.value("label_length").empty()) return false;
        const bool of_scale = question.field == "scale" || question.field == "tare";
        if (of_scale && fields_.value("weighed").empty()) return false;
        return fields_.value(question.field).empty();
    }

    void forget(std::string_view field) {
        std::erase_if(given_, [&](const auto& one) { return one.first == field; });
        if (field == "count") count_.clear();
        if (field == "label")
            for (const char* const figure : {"label_length", "label_mass"}) fields_.set(figure, "");
        if (field != "count" && field != "label") fields_.set(field, "");
        if (field == "weighed") fields_.set("scale", "");
    }

    static std::string explained(const Question& question) {
        struct Explained {
            std::string_view field;
            std::string_view text;
        };
        static constexpr auto all = std::to_array<Explained>(
            {{"yarn", "Any name you know it by, such as Cedar Lane."},
             {"label", "Length and weight as printed on the band, such as 170 yd / 3.5 oz."},
             {"class", "0 (lace) to 7 (jumbo), or a name such as DK or worsted."},
             {"fibre", "What it is made of, such as 80% wool, 20% nylon."},
             {"colourway", "The colour's name or number on the band."},
             {"colour_repeat",
              "Of a yarn that changes colour: how long it is until the same colour comes again."},
             {"dye_lot", "The number behind \"lot\" on the band. Skeins of one lot match."},
             {"shade_group",
              "Skeins that look alike to you have one name here, whatever their lots."},
             {"state", "whole if nothing is gone, else part."},
             {"weighed", "What your scale shows for this skein now. Enter if it is whole."},
             {"scale",
              "The smallest change your scale shows: 1 g on most kitchen scales, 0.1 g on a letter "
              "scale."},
             {"tare", "What else lies on the scale, such as an empty cone: its own weight."},
             {"knots", "Knots in the skein that you know of."},
             {"count", "How many are just like this one."},
             {"note", "Anything else you want to keep."}});
        const auto* const found = std::find_if(all.begin(), all.end(), [&](const Explained& one) {
            return one.field == question.field;
        });
        return std::string(found == all.end() ? "" : found->text) +
               (question.field == "yarn" ? "" : " Press Enter if you do not know it.");
    }

    /// False where the person wants to go back.
    bool ask(const Question& question) {
        const bool required = question.field == "yarn";
        for (int empty = 0;;) {
            const auto typed =
                answer_line(world_, std::string(question.text), likely(question.field));
            if (!typed) ended("the answers ended early");
            const std::string answer(base::trimmed(*typed));
            if (base::same_word(answer, "back")) return false;
            if (base::same_word(answer, "stop")) ended("it was stopped");
            if (answer == "?") {
                *world_.err << explained(question) << "\n";
                continue;
            }
            const bool nothing = answer.empty() || says_nothing(answer);
            if (nothing && !required) return true;
            if (nothing) {
                // Enter must lead out of every question.
                if (++empty == 3) ended("this one answer is needed");
                *world_.err << "A name is needed. (Press Enter twice more to leave.)\n";
                continue;
            }
            const auto mistake = try_answer(question.field, answer);
            if (!mistake) {
                given_.emplace_back(question.field, answer);
                return true;
            }
            *world_.err << to_text(*mistake) << "\n";
        }
    }

    [[nodiscard]] static std::vector<std::string> likely(std::string_view field) {
        if (field == "state") return {"whole", "part"};
        return {};
    }

    /// Ends, and says the answers so far as the options that stand for them.
    [[noreturn]] void ended(const std::string& why) const {
        std::string again;
        for (const auto& [field, answer] : given_) {
            if (field == "state") {
                if (base::same_word(answer, "part")) again += " --part";
                continue;
            }
            again += fmt::format(" --{} \"{}\"", option_of_field(field), base::shown_inert(answer));
        }
        throw base::InputError(
            base::Problem{why + "; nothing was added",
                          {},
                          "",
                          again.empty() ? "" : "To go on from there: skeinfall stash add" + again});
    }

    std::optional<base::Problem> try_answer(std::string_view field, const std::string& answer) {
        try {
            if (field == "count") {
                static_cast<void>(units::parse_whole(answer).value());
                count_ = answer;
                return std::nullopt;
            }
            if (field == "label") {
                fields_.set_label(answer);
                return std::nullopt;
            }
        } catch (const base::InputError& error) {
            return without_place(error.problems().front());
        }
        fields_.set(field, field == "class"   ? exchange::class_as_said(answer)
                           : field == "fibre" ? exchange::fibre_as_said(answer)
                                              : answer);
        // The scale comes with the next question.
        if (field == "weighed") fields_.set("scale", usual_scale_.value_or("1 g"));
        auto mistake = fields_.mistake_in(field);
        if (field == "weighed" && !usual_scale_) fields_.set("scale", "");
        if (!mistake) return std::nullopt;
        fields_.set(field, "");
        return without_place(*mistake);
    }

    static base::Problem without_place(base::Problem problem) {
        problem.place = {};
        return problem;
    }

    OptionFields& fields_;
    const World& world_;
    std::optional<std::string> usual_scale_;
    std::vector<std::pair<std::string_view, std::string>> given_;
    std::string count_;
};

std::optional<units::Grist> grist_in(const Values& values, const std::string& option) {
    const auto text = values.one(option);
    if (!text) return std::nullopt;
    return read_option(option, *text, units::parse_grist);
}

stash::Wish list_wish_of(const Values& values) {
    stash::Wish wish;
    if (const auto text = values.one("class"))
        wish.weight = read_option("class", *text, exchange::parse_class);
    wish.yarn = values.one("yarn");
    wish.fibre = values.one("fibre");
    wish.grist_from = grist_in(values, "grist-from");
    wish.grist_to = grist_in(values, "grist-to");
    wish.colour = values.one("colour");
    wish.lot = values.one("lot");
    wish.text = values.one("text");
    if (values.given("part") && values.given("whole"))
        refuse_option("whole", "--part is given too", "one of them", "");
    if (values.given("part") || values.given("whole")) wish.part = values.given("part");
    if (values.given("free") && values.given("set-aside"))
        refuse_option("free", "--set-aside is given too", "one of them", "");
    if (values.given("free") || values.given("set-aside"))
        wish.set_aside = values.given("set-aside");
    return wish;
}

stash::Order order_of(const Values& values) {
    const std::string wanted = values.one("sort").value_or("added");
    if (const auto order = stash::parse_order(wanted)) return *order;
    const auto near = base::nearest_name(wanted, stash::order_words());
    refuse_option("sort", base::quoted(wanted) + " is not a way to sort",
                  "one of " + base::join(stash::order_words(), ", "), base::did_you_mean(near));
}

/// A part counts from its first weighing on; skeins bought together count together by their lot.
void note_part_not_weighed(const stash::Skein& skein, const std::vector<std::string>& ids,
                           std::ostream& err) {
    const std::string id = base::shown_inert(ids.front());
    if (stash::never_weighed_part(skein))
        err << "note: " << id << " counts only when it is weighed: skeinfall stash weigh " << id
            << " \"42 g\"\n";
    if (ids.size() > 1 && !skein.dye_lot && !skein.shade_group)
        err << "note: no dye lot is given, so these are not counted together. If they are of one "
               "lot, give it a name: skeinfall stash correct "
            << base::shown_inert(base::join(ids, " ")) << " --lot A\n";
}

}  // namespace

Command stash_add_command() {
    Command command;
    command.name = "stash add";
    command.no.clear();
    command.asks = true;
    command.summary = "add skeins by hand";
    command.purpose =
        "Adds one skein, or --count alike ones, from options. Without --yarn it asks for\n"
        "everything, when a person sits at the terminal.";
    command.options = {{"yarn", "NAME", "the yarn's name (required)", false}};
    for (const Option& option : describing_options()) command.options.push_back(option);
    command.options.insert(command.options.end(),
                           {{"weighed", "MASS", "what the scale shows", false},
                            scale_option(),
                            {"tare", "MASS", "cone or bag on the scale too", false},
                            {"id", "TEXT", "your own id (default: the next one free)", false},
                            {"count", "COUNT", "how many skeins like this", false},
                            date_option(),
                            stash_option()});
    command.examples = {{"skeinfall stash add --yarn \"Cedar Lane\" --label \"170 yd / 3.5 oz\" "
                         "--class 4 --lot 81 --count 3",
                         "three whole skeins of one lot"},
                        {"skeinfall stash add --yarn \"Cedar Lane\" --label \"170 yd / 3.5 oz\" "
                         "--part --weighed \"42 g\" --scale \"1 g\"",
                         "a part skein"}};
    command.keeps = true;
    command.run = [](const Values& values, const World& world) -> int {
        OptionFields fields(values);
        std::string count_text = values.one("count").value_or("1");
        if (world.in != nullptr) {
            SkeinInterview interview(fields, world, scale_text(values));
            if (fields.value("yarn").empty())
                interview.everything(values.given("count"));
            else if (!fields.value("weighed").empty() && fields.value("scale").empty())
                interview.scale();
            if (!interview.count().empty()) count_text = interview.count();
        }
        std::string guess;
        if (fields.value("scale").empty() && units::parse_mass(fields.value("weighed"))) {
            guess = exchange::step_of_reading(fields.value("weighed"));
            fields.set("scale", guess);
        }
        if (fields.value("yarn").empty())
            throw base::InputError(base::Problem{"the yarn has no name",
                                                 {},
                                                 "--yarn NAME",
                                                 "Any name you will know it by will do."});
        if (fields.value("label_length").empty() != fields.value("label_mass").empty())
            *world.err << "note: the label gives no "
                       << (fields.value("label_length").empty() ? "length" : "mass")
                       << "; both are needed to plan by weight: --label \"170 yd / 100 g\"\n";
        const std::int64_t count = read_option("count", count_text, units::parse_whole);
        if (count > skeins_at_once) refuse_option("count", "too many at once", "at most 1000", "");
        if (count > 1 && !fields.value("id").empty())
            refuse_option("id", "it names one skein, and --count asks for several", "one of them",
                          "Leave --id or --count out.");
        const auto movements = fields.movements();
        stash::Skein skein = *movements.front().described;
        skein.id = movements.front().skein;
        if (movements.size() > 1)
            skein.weighing =
                measure::Weighing{std::get<units::Printed<units::Mass>>(*movements[1].amount),
                                  *movements[1].scale, movements[1].tare};
        const std::vector<stash::Skein> skeins(static_cast<std::size_t>(count), skein);
        const bool begins = begins_second_stash(values, world);
        const auto ids = stash_to_change(values, world).add(skeins, day_of(values, world));
        if (begins) note_new_stash(values, world);
        *world.out << "added " << base::join(ids, ", ") << " to "
                   << base::shown_inert(stash_path(values, world).string()) << "\n";
        note_step(guess, *world.err);
        note_part_not_weighed(skein, ids, *world.err);
        note_odd_figures(skeins, *world.err);
        return done;
    };
    return command;
}

Command stash_list_command() {
    Command command;
    command.name = "stash list";
    command.no.clear();
    command.summary = "the skeins you own, or some of them";
    command.purpose =
        "One line per skein, oldest first. Every filter narrows the list; a skein with\nthat "
        "detail unknown is left out.";
    command.options = {
        {"yarn", "TEXT", "in the yarn's name", false},
        {"class", "NUMBER", "weight class 0 to 7, or its name", false},
        {"fibre", "NAME", "with some of this fibre", false},
        {"grist-from", "GRIST",
         "at least this much length per weight (thinner yarn), such as \"200 m / 100 g\"", false},
        {"grist-to", "GRIST", "at most this much length per weight (thicker yarn)", false},
        {"colour", "TEXT", "in the colourway", false},
        {"lot", "TEXT", "of this dye lot or shade group", false},
        {"text", "TEXT", "anywhere in what is written of it", false},
        {"part", "", "part skeins only", false},
        {"whole", "", "whole skeins only", false},
        {"free", "", "only skeins of which nothing is set aside", false},
        {"set-aside", "", "only skeins of which some is set aside", false},
        {"sort", "NAME", base::join(stash::order_words(), ", "), false, stash::order_words()},
        {"totals", "", "one line for each yarn instead", false},
        {"ids", "", "the ids alone, one a line, for scripts", false},
        stash_option(),
        format_option(table_formats)};
    command.examples = {{"skeinfall stash list --class 4 --fibre wool --whole",
                         "whole skeins of medium yarns with wool in them"},
                        {"skeinfall stash list --sort length --format json",
                         "all skeins, longest first, for another program"}};
    command.run = [](const Values& values, const World& world) -> int {
        const std::string format = table_format_of(values);
        const stash::Wish wish = list_wish_of(values);
        const stash::Order order = order_of(values);
        auto all = skeins_of_stash(values, world);
        const std::size_t held = all.size();
        const auto skeins = stash::find(std::move(all), wish, order);
        if (values.given("ids")) {
            for (const char* other : {"format", "totals"})
                if (values.given(other))
                    refuse_option("ids", "ids are printed alone", std::string("no --") + other, "");
            for (const stash::Skein& skein : skeins) *world.out << skein.id << "\n";
        } else if (values.given("totals")) {
            if (format != "text") refuse_option("totals", "totals are text", "no --format", "");
            *world.out << report::totals_text(stash::totals(skeins));
        } else if (format != "text") {
            *world.out << data_in(format, report::stash_json(skeins), report::Records::stash);
        } else if (skeins.empty() && held > 0) {
            *world.out << "No skein matches; the stash holds " << held << ".\n";
        } else {
            *world.out << report::stash_text(skeins);
        }
        return done;
    };
    return command;
}

Command stash_show_command() {
    Command command;
    command.name = "stash show";
    command.no = "there is no such skein, or nothing is left of it";
    command.arguments = "ID";
    command.summary = "everything recorded about one skein";
    command.purpose = "Its label, lot, weight, and how much length it holds, give or take.";
    command.options = {stash_option()};
    command.examples = {{"skeinfall stash show cl-01", "one skein of the sample"},
                        {"skeinfall stash show s1", "a skein that skeinfall named"}};
    command.run = [](const Values& values, const World& world) -> int {
        const std::string id = argument(values, 0, "which skein? None is named",
                                        "\"skeinfall stash list\" shows the ids.");
        const auto store = stash_to_read(values, world);
        if (const auto skein = store.skein(id)) {
            *world.out << report::skein_text(*skein);
            return done;
        }
        if (!store.history(id).empty()) {
            *world.err << "nothing is left of \"" << base::shown_inert(id)
                       << "\"; \"skeinfall stash history " << base::shown_inert(id)
                       << "\" shows where it went\n";
            return not_so;
        }
        *world.err << no_such_skein(id, store.skeins());
        return not_so;
    };
    return command;
}

}  // namespace skeinfall::cli
