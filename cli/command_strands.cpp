#include <algorithm>
#include <cmath>
#include <cstdint>
#include <ostream>
#include <utility>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/yarns.hpp"
#include "skeinfall/units/parse.hpp"
#include "skeinfall/yarn/strands.hpp"

#include "commands.hpp"
#include "exit_code.hpp"
#include "options.hpp"

namespace skeinfall::cli {
namespace {

constexpr std::size_t most_balls = 100;

/// A class alone tells the thickness roughly: the middle of what yarns of it run.
void take_usual_of_class(yarn::Description& yarn, std::ostream& err) {
    if (yarn.grist || !yarn.weight) return;
    const auto range = yarn::published_grist(*yarn.weight);
    if (!range || !range->least || !range->most) return;
    yarn.grist = units::Grist::from_value(std::sqrt(range->least->value() * range->most->value()));
    err << "note: " << base::quoted(yarn.text) << " is class " << yarn::text(*yarn.weight)
        << ", which runs " << yarn::text(*range) << "; "
        << units::text(*yarn.grist, units::shown::metres_per_100g, units::Step::one,
                       units::Rounding::nearest)
        << " is taken; its label tells it better\n";
}

std::vector<yarn::Description> yarns_in(const Values& values, std::ostream& err) {
    const std::string example = "Write it like \"400 m / 100 g, 100% wool\".";
    std::vector<yarn::Description> out;
    for (const std::string& text : values.all(positional)) {
        const auto read = yarn::parse_description(text);
        if (!read) throw base::InputError(read.problem());
        yarn::Description yarn = *read;
        take_usual_of_class(yarn, err);
        if (!yarn.grist)
            throw base::InputError(
                base::Problem{base::quoted(text) + " does not give its length per weight",
                              {},
                              "length and weight of a skein",
                              example});
        out.push_back(std::move(yarn));
    }
    if (out.empty())
        throw base::InputError(
            base::Problem{"no yarn is given", {}, "one yarn or several", example});
    return out;
}

/// "2,2" or "2+2".
std::vector<int> bundles_in(const std::string& text) {
    std::vector<int> out;
    std::size_t from = 0;
    while (from <= text.size()) {
        const std::size_t to = std::min(text.find_first_of(",+", from), text.size());
        out.push_back(static_cast<int>(std::min<std::int64_t>(
            read_option("apart", text.substr(from, to - from), units::parse_whole), most_balls)));
        from = to + 1;
    }
    return out;
}

std::vector<yarn::PliedStock> taken_apart(const yarn::Description& yarn, const std::string& text) {
    if (!yarn.plies || !yarn.ball_length() || !yarn.ball_mass())
        throw base::InputError(
            base::Problem{base::quoted(yarn.text) +
                              " does not give its plies and the length and weight of a skein",
                          {},
                          "both in it",
                          "Write it like \"170 m / 50 g, 4 ply\"."});
    return yarn::split_plies({*yarn.ball_length(), *yarn.ball_mass(), *yarn.plies},
                             bundles_in(text));
}

/// How many of the one yarn: as told, else as many as stand in for another, else two.
std::size_t count_of(const Values& values, const yarn::Description& yarn,
                     const std::optional<units::Grist>& replaces) {
    if (const auto text = values.one("strands")) {
        const std::int64_t count = read_option("strands", *text, units::parse_whole);
        if (count < 1 || count > static_cast<std::int64_t>(most_balls))
            refuse_option("strands", "no such number of strands can be held", "1 to 100", "");
        return static_cast<std::size_t>(count);
    }
    if (!replaces) return 2;
    const int count = yarn::ends_to_replace(*yarn.grist, *replaces).count;
    return std::min(static_cast<std::size_t>(count), most_balls);
}

yarn::Holding holding_in(const Values& values, std::vector<yarn::Description> yarns) {
    yarn::Holding holding;
    if (const auto text = values.one("instead-of")) {
        holding.replaces = read_option("instead-of", *text, yarn::parse_description).grist;
        if (!holding.replaces)
            refuse_option("instead-of", "it does not give its length per weight",
                          "length and weight of a skein",
                          "Write it like --instead-of \"200 m / 100 g\".");
    }
    if (const auto text = values.one("class")) {
        holding.claimed = yarn::parse_weight_class(*text);
        if (!holding.claimed)
            refuse_option("class", base::quoted(*text) + " is not a weight class", "0 to 7", "");
    }
    if (yarns.size() > 1 && values.given("strands"))
        refuse_option("strands", "several yarns are given, each a strand", "one yarn with it", "");
    holding.strands = yarns.size() > 1
                          ? std::move(yarns)
                          : std::vector<yarn::Description>(
                                count_of(values, yarns.front(), holding.replaces), yarns.front());
    return holding;
}

}  // namespace

Command strands_command() {
    Command command;
    command.name = "strands";
    command.arguments = "YARN...";
    command.most_arguments = most_balls;
    command.yes = "what they make, and nothing stops it";
    command.no = "they do not make the class, or the yarn, that they are to make";
    command.summary = "what strands held together make, or a plied yarn taken apart";
    command.purpose =
        "What do these strands make together? Shows how far the strands run together,\n"
        "the weight class that gives, the gauge to start from, the fibre blend, and\n"
        "which ball ends first. Class names cannot simply be added. A yarn is written as\n"
        "for substitute: \"400 m / 100 g, 100% wool\". One yarn alone is held double, or\n"
        "as often as it takes with --instead-of.";
    command.options = {
        {"strands", "COUNT", "the number of strands of the one yarn", false},
        {"instead-of", "YARN", "a yarn that they are to stand in for", false},
        {"class", "NUMBER", "the class that a pattern says they make", false},
        {"apart", "PLIES", "take one plied yarn apart into such bundles, as 2,2", false},
        format_option("text (default) or json")};
    command.examples = {
        {"skeinfall strands \"400 m / 100 g, 100% wool\" \"210 m / 25 g, 70% mohair 30% silk\"",
         "a wool with a mohair"},
        {"skeinfall strands \"2/28 Nm\" --instead-of \"200 m / 100 g\"", "how many ends of a cone"},
        {"skeinfall strands \"170 m / 50 g, 4 ply\" --apart 2,2", "halves of a 4 ply"}};
    command.run = [](const Values& values, const World& world) -> int {
        const bool json = format_of(values, {"text", "json"}) == "json";
        std::vector<yarn::Description> yarns = yarns_in(values, *world.err);
        if (const auto text = values.one("apart")) {
            for (const char* option : {"strands", "instead-of", "class"})
                if (values.given(option))
                    refuse_option(option, "a yarn taken apart is not held together",
                                  std::string("no --") + option, "");
            if (yarns.size() > 1) refuse_option("apart", "several yarns are given", "one", "");
            const auto bundles = taken_apart(yarns.front(), *text);
            *world.out << (json ? report::plies_json(bundles) : report::plies_text(bundles));
            return done;
        }
        const yarn::Holding holding = holding_in(values, std::move(yarns));
        const yarn::Held held = yarn::hold(holding);
        *world.out << (json ? report::strands_json(holding, held)
                            : report::strands_text(holding, held));
        return yarn::gravest(held.findings) == yarn::Level::stop ? not_so : done;
    };
    return command;
}

}  // namespace skeinfall::cli
