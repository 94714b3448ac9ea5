#include <ostream>

#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/make_words.hpp"
#include "skeinfall/report/yarns.hpp"
#include "skeinfall/units/format.hpp"
#include "skeinfall/units/parse.hpp"
#include "skeinfall/units/wraps.hpp"
#include "skeinfall/yarn/label_check.hpp"
#include "skeinfall/yarn/tare.hpp"
#include "skeinfall/yarn/tools.hpp"
#include "skeinfall/yarn/unlabelled.hpp"

#include "commands.hpp"
#include "exit_code.hpp"
#include "odd_figures.hpp"
#include "options.hpp"

namespace skeinfall::cli {
namespace {

template <class Parse>
auto optional_of(const Values& values, const std::string& option, Parse parse)
    -> std::optional<std::decay_t<decltype(*parse(std::string_view{}))>> {
    const auto text = values.one(option);
    if (!text) return std::nullopt;
    return read_option(option, *text, parse);
}

void needs(const Values& values, const std::string& option, const std::string& other,
           const std::string& remedy) {
    if (values.given(option) && !values.given(other))
        refuse_option(option, "--" + other + " is missing beside it", "--" + other + " as well",
                      remedy);
}

/// "0.126 g", or "120 cm of 241 m / 142 g" for a strand of a known yarn.
base::Result<units::Mass> parse_against(std::string_view text) {
    const std::size_t of = text.find(" of ");
    if (of == std::string_view::npos) return units::parse_mass(text);
    const auto length = units::parse_length(text.substr(0, of));
    if (!length) return length.problem();
    const auto grist = units::parse_grist(text.substr(of + 4));
    if (!grist) return grist.problem();
    return units::Mass(*length / *grist);
}

/// "30 ft reads 26 ft": how long what the meter shows truly is, to one of what it shows.
base::Result<units::Ratio> parse_meter(std::string_view text) {
    const std::size_t reads = text.find(" reads ");
    const base::Problem form{base::quoted(text) + " is not understood as a check of the yarn meter",
                             {},
                             "a measured length and what it reads, such as \"30 ft reads 26 ft\"",
                             ""};
    if (reads == std::string_view::npos) return form;
    const auto measured = units::parse_length(text.substr(0, reads));
    const auto shown = units::parse_length(text.substr(reads + 7));
    if (!measured || !shown) return form;
    const units::Ratio off(*measured / *shown);
    constexpr double most = 2.0;
    if (off.value() > most || off.value() < 1.0 / most) return form;
    return off;
}

/// A slip of the unit is no yarn: the same limits as a label's.
void refuse_no_hand_yarn(const yarn::MeasuredSample& sample) {
    for (const measure::ScaleReading& weighing : sample.weighings) {
        const units::Mass shown = weighing.shown;
        if (shown.value() <= 0.0) continue;
        const units::Grist grist = sample.length / shown;
        if (shown <= yarn::heaviest_skein && grist >= yarn::least_hand_grist &&
            grist <= yarn::most_hand_grist)
            continue;
        const bool fine = grist > yarn::most_hand_grist;
        refuse_option(
            "mass",
            units::text(shown, units::shown::grams, fine ? units::Step::tenth : units::Step::one,
                        units::Rounding::nearest) +
                " for " + units::yards_and_metres(sample.length, units::Rounding::nearest) +
                (fine ? " is finer than any hand yarn" : " is thicker than any hand yarn"),
            fine ? "at most 4000 m of each 100 g"
                 : "2 m or more of each 100 g, and no skein above 5 kg",
            "Check the units of --mass and --length.");
    }
}

void read_grist(const Values& values, yarn::Clues& clues, const std::optional<units::Mass>& scale) {
    if (values.given("grist") + values.given("mass") + values.given("balance") > 1)
        refuse_option("grist", "the length per weight is given twice",
                      "one of --grist, --mass with --length, or --balance", "Leave one out.");
    needs(values, "mass", "length", "Give the sample's length, like --length \"10 yd\".");
    needs(values, "length", "mass", "Give what that length weighs, like --mass \"20 g\".");
    needs(values, "meter", "length", "Give what the meter shows, like --length \"200 yd\".");
    needs(values, "against", "balance", "Give the strand's length, like --balance \"14.5 in\".");
    if (values.given("mass")) {
        yarn::MeasuredSample sample;
        sample.length = read_option("length", *values.one("length"), units::parse_length);
        if (const auto off = optional_of(values, "meter", parse_meter))
            sample.length *= off->value();
        for (const std::string& text : values.all("mass"))
            sample.weighings.push_back(
                {read_option("mass", text, units::parse_mass), *scale, std::nullopt});
        refuse_no_hand_yarn(sample);
        clues.sample = std::move(sample);
    }
    if (const auto strand = optional_of(values, "balance", units::parse_length))
        clues.balance = {
            *strand,
            optional_of(values, "against", parse_against).value_or(yarn::yarn_balance_mass())};
    clues.known = optional_of(values, "grist", units::parse_grist);
}

base::Result<units::Mass> mass_or_name(std::string_view text) {
    auto mass = units::parse_mass(text);
    if (mass || text.find_first_of("0123456789") != std::string_view::npos) return mass;
    base::Problem problem = mass.problem();
    problem.what = base::quoted(text) + ": this is not a weight";
    problem.expected = "a weight, or one of " + base::join(yarn::tare_names(), ", ");
    return problem;
}

void read_have(const Values& values, yarn::Clues& clues, const std::optional<units::Mass>& scale) {
    needs(values, "tare", "have", "Give what the scale shows in all, like --have \"300 g\".");
    const auto have = optional_of(values, "have", units::parse_mass);
    if (!have) return;
    if (!clues.sample && !clues.balance && !clues.known)
        refuse_option("have", "a weight alone gives no length",
                      "--mass with --length, --balance or --grist as well",
                      "Measure 10 yd or more and weigh it.");
    clues.have = measure::ScaleReading{*have, *scale, std::nullopt};
    if (const auto tare = values.one("tare")) {
        if (const auto usual = yarn::usual_tare(*tare)) {
            clues.have->tare = usual->centre;
            clues.have->tare_spread = usual->spread;
        } else {
            clues.have->tare = read_option("tare", *tare, mass_or_name);
        }
    }
    if (measure::net_mass(*clues.have).centre.value() <= 0.0)
        refuse_option("have", "it is not above its tare", "more than --tare", "Weigh both again.");
}

yarn::RegionalName name_in(const std::string& text) {
    yarn::RegionalName name = yarn::parse_regional_name(text);
    if (!yarn::votes_for(name).empty()) return name;
    auto near = base::nearest_name(name.name, yarn::known_names(name.region));
    if (!near) near = base::nearest_name(name.name, yarn::known_names(yarn::Region::any));
    const bool elsewhere = name.region != yarn::Region::any &&
                           !yarn::votes_for({yarn::Region::any, name.name}).empty();
    refuse_option("name",
                  "no chart of " + std::string(yarn::name_of(name.region)) + " names has \"" +
                      base::shown_inert(name.name) + "\"",
                  "a trade name such as \"UK 4 ply\", \"US worsted\" or \"AU 8 ply\"",
                  elsewhere ? "Charts of another region have it: leave the region out, or change "
                              "it."
                            : base::did_you_mean(near));
}

yarn::CrochetStitch stitch_in(const std::string& text) {
    if (base::same_word(text, "sc")) return yarn::CrochetStitch::single;
    if (base::same_word(text, "dc")) return yarn::CrochetStitch::double_crochet;
    refuse_option("stitch", "charts count no \"" + base::shown_inert(text) + "\"",
                  "sc or dc, US names",
                  "Work a swatch in single crochet (UK double crochet); for lace in US double "
                  "crochet.");
}

auto tool_parser(yarn::Tool tool) {
    return [tool](std::string_view text) { return yarn::parse_tool_size(tool, text); };
}

yarn::Clues clues_in(const Values& values, std::ostream& err) {
    std::optional<units::Mass> scale;
    // The step of the scale shows in what it shows.
    const auto shown = values.given("mass") ? values.one("mass") : values.one("have");
    if (const auto step = scale_text(values))
        scale = read_option("scale", *step, units::parse_mass);
    else if (shown && units::parse_mass(*shown)) {
        const std::string guess = exchange::step_of_reading(*shown);
        if (const auto taken = units::parse_mass(guess)) {
            scale = *taken;
            note_step(guess, err);
        }
    }
    yarn::Clues clues;
    read_grist(values, clues, scale);
    read_have(values, clues, scale);
    clues.evidence.wraps = optional_of(values, "wpi", units::parse_wraps);
    clues.evidence.knit_gauge = optional_of(values, "gauge", units::parse_stitch_gauge);
    needs(values, "stitch", "crochet-gauge", "Give the gauge of that stitch.");
    if (const auto gauge = optional_of(values, "crochet-gauge", units::parse_stitch_gauge))
        clues.evidence.crochet_gauge = {*gauge, stitch_in(values.one("stitch").value_or("sc"))};
    if (const auto name = values.one("name")) clues.evidence.name = name_in(*name);
    clues.evidence.hook = optional_of(values, "hook", tool_parser(yarn::Tool::hook));
    clues.evidence.needle = optional_of(values, "needle", tool_parser(yarn::Tool::needle));
    if (const auto burn = values.one("burn"))
        clues.burn = read_option("burn", *burn, yarn::parse_burn_signs);
    return clues;
}

bool empty(const yarn::Clues& clues) {
    const yarn::Evidence& evidence = clues.evidence;
    return !clues.sample && !clues.balance && !clues.known && !evidence.wraps &&
           !evidence.knit_gauge && !evidence.crochet_gauge && !evidence.name && !evidence.hook &&
           !evidence.needle && clues.burn.empty();
}

}  // namespace

Command identify_command() {
    Command command;
    command.name = "identify";
    command.yes = "an answer";
    command.no = "the sample is too light, or the clues do not settle anything";
    command.summary = "what an unlabelled yarn is, and how much of it is left";
    command.purpose =
        "What is this yarn without a label, and how much of it is left? Give whatever\n"
        "you know. A measured length and its weight tell how far the yarn runs, and so\n"
        "how much is left. With wraps, gauge, a trade name or tools it also names the\n"
        "likely weight class, as published charts have it. How a snippet burns hints\n"
        "at the fibre. A sample lighter than 20 steps of its scale is refused.";
    command.options = {
        {"length", "LENGTH", "length of the sample", false},
        {"meter", "TEXT",
         "check of the yarn meter that --length was read from: \"30 ft reads 26 ft\"", false},
        {"mass", "MASS", "what the sample weighs; several times for repeats", true},
        {"scale", "MASS", "the smallest step of the scale, with --mass and --have", false},
        {"have", "MASS", "what all of the yarn weighs", false},
        {"tare", "MASS", "cone or bag weighed with --have; \"cone\" or \"bag\" for a usual one",
         false},
        {"balance", "LENGTH", "a strand trimmed until it balances", false},
        {"against", "MASS",
         "what it balances: a weight, or \"120 cm of 241 m / 142 g\" (default: a yarn balance "
         "whose inches times 100 are yd per lb)",
         false},
        {"grist", "GRIST", "length per weight where it is known", false},
        {"wpi", "COUNT", "wraps per inch, or \"36 wraps per 10 cm\"", false},
        {"gauge", "GAUGE", "knit gauge it is recommended for", false},
        {"crochet-gauge", "GAUGE", "crochet gauge it is recommended for", false},
        {"stitch", "NAME", "of the crochet gauge: sc (default) or dc, US names", false},
        {"name", "NAME", "trade name, such as \"UK 4 ply\"", false},
        {"hook", "SIZE", "recommended hook: \"5.5 mm\" or a label such as \"I-9\"", false},
        {"needle", "SIZE", "recommended needle: \"5.5 mm\" or a label such as \"US 8\"", false},
        {"burn", "SIGNS", "how a snippet burnt, such as \"hair, crumbles\"", false},
        format_option("text (default) or json")};
    command.examples = {
        {"skeinfall identify --length \"10 yd\" --mass \"20 g\" --scale \"1 g\" --have \"48 g\" "
         "--wpi 9",
         "length left of 48 g, and its class"},
        {"skeinfall identify --wpi 12 --name \"UK DK\"", "which class, from wraps and a name"}};
    command.run = [](const Values& values, const World& world) -> int {
        const std::string format = format_of(values, {"text", "json"});
        const yarn::Clues clues = clues_in(values, *world.err);
        if (empty(clues))
            throw base::InputError(base::Problem{
                "there is no clue to work from",
                {},
                "--length with --mass, --wpi, --gauge, --name or another",
                "Start with: skeinfall identify --length \"10 yd\" --mass \"20 g\" --scale "
                "\"1 g\"."});
        const yarn::Unlabelled found = yarn::identify(clues);
        *world.out << (format == "json" ? report::identify_json(clues, found)
                                        : report::identify_text(clues, found));
        return found.answered() ? done : not_so;
    };
    return command;
}

}  // namespace skeinfall::cli
