#include <cstdint>
#include <ostream>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/yarns.hpp"
#include "skeinfall/units/parse.hpp"
#include "skeinfall/yarn/avoid.hpp"
#include "skeinfall/yarn/substitute.hpp"

#include "commands.hpp"
#include "exit_code.hpp"
#include "options.hpp"

namespace skeinfall::cli {
namespace {

constexpr std::int64_t most_strands = 100;

yarn::Description yarn_in(const Values& values, const std::string& option) {
    const auto text = values.one(option);
    if (!text)
        throw base::InputError(base::Problem{
            option == "want" ? "the pattern's yarn is missing" : "the candidate is missing",
            {},
            "--" + option + " YARN",
            "Write it like --" + option + " \"200 m / 100 g, 100% wool, class 4\"."});
    return read_option(option, *text, yarn::parse_description);
}

int strands_in(const Values& values, const std::string& option) {
    const auto text = values.one(option);
    if (!text) return 1;
    const std::int64_t strands = read_option(option, *text, units::parse_whole);
    if (strands > most_strands) refuse_option(option, "too many strands", "at most 100", "");
    return static_cast<int>(strands);
}

yarn::Use use_in(const Values& values) {
    const auto text = values.one("for");
    if (!text) return yarn::Use::any;
    const auto use = yarn::parse_use(*text);
    if (!use)
        refuse_option("for", base::quoted(*text) + " is not one of the known uses",
                      "\"kitchen heat\", felted or infant", "");
    return *use;
}

/// A need that cannot be used is named by its option, and where what is missing goes.
yarn::Substitution compared(const yarn::Swap& swap) {
    try {
        return yarn::compare(swap);
    } catch (const base::InputError& error) {
        base::Problem problem = error.problems().front();
        problem.place.file = "--need";
        problem.remedy += " It is a part of --want.";
        throw base::InputError(problem);
    }
}

}  // namespace

Command substitute_command() {
    Command command;
    command.name = "substitute";
    command.yes = "no stop among the findings; there may be cautions";
    command.no = "a stop";
    command.summary = "whether one yarn can stand in for another, and how much to buy";
    command.purpose =
        "Can this yarn stand in for that one? Compares the pattern's yarn with a\n"
        "candidate: length per weight, class, gauge, fibre, plies, texture and colours.\n"
        "Each finding is ok, caution or stop, with its reason and source. Balls are\n"
        "counted by length, never by weight. A yarn is written as parts between commas:\n"
        "\"200 m / 100 g, 80% wool 20% nylon, class 4, 4 ply, 20 sts / 10 cm\". Add \"50\n"
        "g balls\" if the ball is another size, a word for the colours (solid, tonal,\n"
        "variegated, self-striping ...) or the texture (smooth, brushed, boucle ...).\n"
        "Add \"repeat 4 m\" for a colour repeat.";
    command.options = {
        {"want", "YARN", "the yarn the pattern names", false},
        {"with", "YARN", "the candidate", false},
        {"need", "AMOUNT", "what the pattern takes: length, weight or \"6 balls\"", false},
        {"strands", "COUNT", "strands of the candidate held together", false},
        {"want-strands", "COUNT", "strands the pattern holds together", false},
        {"for",
         "USE",
         "\"kitchen heat\", felted or infant",
         false,
         {"kitchen heat", "felted", "infant"}},
        {"avoid", "FIBRE",
         "a fibre, or a family such as \"wool family\" or \"animal fibre\", that must not be in it",
         true},
        format_option("text (default) or json")};
    command.examples = {
        {"skeinfall substitute --want \"200 m / 100 g, 100% wool, class 4\" --with \"250 m / 100 "
         "g, 60% cotton 40% acrylic\" --need \"1560 m\"",
         "a cotton blend for a wool"},
        {"skeinfall substitute --want \"100 m / 50 g\" --with \"150 m / 50 g\" --need \"6 balls\"",
         "how many balls, by length"}};
    command.run = [](const Values& values, const World& world) -> int {
        const std::string format = format_of(values, {"text", "json"});
        yarn::Swap swap;
        swap.wanted = yarn_in(values, "want");
        swap.candidate = yarn_in(values, "with");
        swap.wanted_strands = strands_in(values, "want-strands");
        swap.candidate_strands = strands_in(values, "strands");
        if (const auto need = values.one("need"))
            swap.need = read_option("need", *need, yarn::parse_stated_need);
        swap.use = use_in(values);
        for (const std::string& fibre : values.all("avoid"))
            swap.avoid.push_back(read_option("avoid", fibre, yarn::parse_avoided));
        yarn::Substitution answer = compared(swap);
        if (!swap.wanted.grist || !swap.candidate.grist)
            answer.next.emplace_back("skeinfall identify measures a yarn that has no label.");
        *world.out << (format == "json" ? report::substitute_json(swap, answer)
                                        : report::substitute_text(swap, answer));
        return answer.verdict == yarn::Level::stop ? not_so : done;
    };
    return command;
}

}  // namespace skeinfall::cli
