#include <ostream>
#include <set>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/stash_csv.hpp"
#include "skeinfall/report/json.hpp"
#include "skeinfall/report/text.hpp"
#include "skeinfall/report/words.hpp"
#include "skeinfall/store/store.hpp"
#include "skeinfall/units/format.hpp"
#include "skeinfall/units/parse.hpp"
#include "skeinfall/yarn/label_check.hpp"
#include "skeinfall/yarn/put_up.hpp"

#include "commands.hpp"
#include "exit_code.hpp"
#include "options.hpp"

namespace skeinfall::cli {
namespace {

constexpr long skeins_at_once = 1000;

/// "170 yd / 3.5 oz" as printed on the label.
yarn::Label label_in(const std::string& text) {
    (void)read_option("label", text, units::parse_grist);
    yarn::Label label = yarn::put_up_in(text);
    if (!label.length)
        refuse_option("label", "\"" + base::shown_inert(text) + "\" is no put-up",
                      "length and mass of one skein", "Write it like \"170 yd / 3.5 oz\".");
    return label;
}

template <class Q, class Parse>
std::optional<units::Printed<Q>> printed(const Values& values, const std::string& option,
                                         Parse parse) {
    const auto text = values.one(option);
    if (!text) return std::nullopt;
    return units::Printed<Q>{std::string(base::trimmed(*text)), read_option(option, *text, parse)};
}

stash::Skein skein_of(const Values& values) {
    stash::Skein skein;
    const auto name = values.one("yarn");
    if (!name || base::trimmed(*name).empty())
        throw base::InputError(base::Problem{
            "the yarn has no name", {}, "--yarn NAME", "Any name you will know it by will do."});
    skein.yarn.name = std::string(base::trimmed(*name));
    skein.id = values.one("id").value_or("");
    if (const auto label = values.one("label")) skein.yarn.label = label_in(*label);
    if (const auto fibre = values.one("fibre"))
        skein.yarn.fibre = read_option("fibre", *fibre, yarn::parse_fibre_content);
    if (const auto weight = values.one("class")) {
        skein.yarn.weight = yarn::parse_weight_class(*weight);
        if (!skein.yarn.weight)
            refuse_option("class", "\"" + base::shown_inert(*weight) + "\" is not a weight class",
                          "0 to 7 or a Council name such as Medium", "");
    }
    skein.yarn.colour_repeat = printed<units::Length>(values, "colour-repeat", units::parse_length);
    skein.colourway = values.one("colourway").value_or("");
    skein.dye_lot = values.one("lot");
    skein.shade_group = values.one("shade-group");
    skein.part = values.given("part");
    skein.note = values.one("note").value_or("");
    const auto weighed = printed<units::Mass>(values, "weighed", units::parse_mass);
    const auto scale = printed<units::Mass>(values, "scale", units::parse_mass);
    if (weighed && !scale)
        refuse_option("weighed", "the scale's step is missing", "--scale as well",
                      "A usual kitchen scale shows whole grams: --scale \"1 g\".");
    if (weighed)
        skein.weighing = measure::Weighing{*weighed, *scale,
                                           printed<units::Mass>(values, "tare", units::parse_mass)};
    if (const auto knots = values.one("knots"))
        skein.knots = static_cast<int>(read_option("knots", *knots, units::parse_whole));
    return skein;
}

/// A whole skein lighter than its label: both readings.
std::optional<std::string> light_skein(const stash::Skein& skein) {
    const yarn::Label& label = skein.yarn.label;
    if (skein.part || !skein.weighing || !label.length || !label.mass) return std::nullopt;
    const auto light =
        yarn::short_weight(label.length->value, label.mass->value,
                           measure::net_mass(skein.weighing->reading()), skein.yarn.fibre);
    if (!light) return std::nullopt;
    std::string says = "a whole skein that weighs less than its label: short of yarn it holds " +
                       report::yards_and_metres(light->if_short, units::Rounding::down) +
                       ", merely dry it holds " +
                       report::yards_and_metres(light->if_dry, units::Rounding::down) + ".";
    if (light->dry_explains)
        says +=
            " Dry air explains about " +
            units::percent_text(*light->dry_explains, units::Step::one, units::Rounding::nearest) +
            " of what is missing.";
    return says + " Measure a length of it to know.";
}

/// What is odd about labels and weighings, said once a yarn; it stops nothing.
void note_odd_figures(const std::vector<stash::Skein>& skeins, std::ostream& err) {
    std::set<std::string> said;
    const auto say = [&](const stash::Skein& skein, const std::string& what) {
        const std::string line = base::shown_inert(skein.yarn.name) + ": " + what;
        if (said.insert(line).second) err << "note: " << line << "\n";
    };
    for (const stash::Skein& skein : skeins) {
        yarn::LabelFigures figures;
        if (skein.yarn.label.length) figures.length = skein.yarn.label.length->value;
        if (skein.yarn.label.mass) figures.mass = skein.yarn.label.mass->value;
        figures.weight = skein.yarn.weight;
        for (const yarn::Finding& finding : yarn::check_label(figures)) say(skein, finding.says);
        if (const auto light = light_skein(skein)) say(skein, *light);
    }
}

}  // namespace

Command stash_import_command() {
    Command command;
    command.name = "stash import";
    command.arguments = "FILE.csv";
    command.summary = "load skeins from a table";
    command.purpose =
        "Reads a CSV table with one skein a row and adds all of them, or none when anything in it\n"
        "is wrong. Columns, in any order: id, yarn, colourway, dye lot, shade group, class,\n"
        "fibre, label length, label mass, colour repeat, state (whole or part), weighed, scale,\n"
        "tare, knots, note. Only yarn is required.";
    command.options = {stash_option()};
    command.examples = {{"skeinfall stash import sample_stash/stash.csv", "load the sample"},
                        {"skeinfall stash import mine.csv --stash mine.skeinfall",
                         "into a stash file of that name"}};
    command.run = [](const Values& values, const World& world) -> int {
        const auto file = values.one(positional);
        if (!file)
            throw base::InputError(base::Problem{
                "no file is named", {}, "a CSV table", "skeinfall stash import stash.csv"});
        const exchange::StashTable table = exchange::read_stash_csv(*file);
        const auto path = stash_path(values, world);
        const auto ids =
            store::Store::open(path, store::Access::write).add(table.skeins, world.today);
        *world.out << "added " << report::counted(static_cast<long>(ids.size()), "skein", "skeins")
                   << " to " << path.string() << "\n";
        for (const std::string& line : table.understood) *world.out << "  " << line << "\n";
        note_odd_figures(table.skeins, *world.err);
        return done;
    };
    return command;
}

Command stash_add_command() {
    Command command;
    command.name = "stash add";
    command.summary = "add skeins by hand";
    command.purpose = "Adds one skein, or --count alike ones, from options.";
    command.options = {{"yarn", "NAME", "the yarn's name (required)", false},
                       {"label", "TEXT", "put-up as printed, such as \"170 yd / 3.5 oz\"", false},
                       {"class", "NUMBER", "weight class 0 to 7", false},
                       {"fibre", "TEXT", "such as \"80% wool 20% nylon\"", false},
                       {"colourway", "NAME", "colour name or number", false},
                       {"colour-repeat", "LENGTH", "of a colour-changing yarn", false},
                       {"lot", "TEXT", "dye lot; leave out when not known", false},
                       {"shade-group", "TEXT", "skeins judged alike by eye", false},
                       {"part", "", "a part skein", false},
                       {"weighed", "MASS", "what the scale shows", false},
                       {"scale", "MASS", "the scale's step, with --weighed", false},
                       {"tare", "MASS", "cone or bag on the scale too", false},
                       {"knots", "COUNT", "known knots inside", false},
                       {"note", "TEXT", "anything else", false},
                       {"id", "TEXT", "your own id; else one is given", false},
                       {"count", "COUNT", "so many alike skeins", false},
                       stash_option()};
    command.examples = {{"skeinfall stash add --yarn \"Cedar Lane\" --label \"170 yd / 3.5 oz\" "
                         "--class 4 --lot 81 --count 3",
                         "three whole skeins of one lot"},
                        {"skeinfall stash add --yarn \"Cedar Lane\" --label \"170 yd / 3.5 oz\" "
                         "--part --weighed \"42 g\" --scale \"1 g\"",
                         "a part skein"}};
    command.run = [](const Values& values, const World& world) -> int {
        const stash::Skein skein = skein_of(values);
        if (const auto faults = stash::faults(skein); !faults.empty())
            throw base::InputError(base::Problem{base::join(faults, "; "), {}, "", ""});
        long count = 1;
        if (const auto text = values.one("count"))
            count = read_option("count", *text, units::parse_whole);
        if (count > skeins_at_once) refuse_option("count", "too many at once", "at most 1000", "");
        if (count > 1 && !skein.id.empty())
            refuse_option("id", "one id for several skeins", "no --id beside --count", "");
        const std::vector<stash::Skein> skeins(static_cast<std::size_t>(count), skein);
        const auto path = stash_path(values, world);
        const auto ids = store::Store::open(path, store::Access::write).add(skeins, world.today);
        *world.out << "added " << base::join(ids, ", ") << " to " << path.string() << "\n";
        note_odd_figures(skeins, *world.err);
        return done;
    };
    return command;
}

Command stash_list_command() {
    Command command;
    command.name = "stash list";
    command.summary = "the skeins you own";
    command.purpose = "One line a skein, in the order they were added.";
    command.options = {stash_option(), format_option("text (default) or json")};
    command.examples = {{"skeinfall stash list", "all skeins of the usual stash"},
                        {"skeinfall stash list --format json", "the same for another program"}};
    command.run = [](const Values& values, const World& world) -> int {
        const std::string format = format_of(values, {"text", "json"});
        const auto skeins = skeins_of_stash(values, world);
        *world.out << (format == "json" ? report::stash_json(skeins) : report::stash_text(skeins));
        return done;
    };
    return command;
}

Command stash_show_command() {
    Command command;
    command.name = "stash show";
    command.arguments = "ID";
    command.summary = "all that is known of one skein";
    command.purpose = "Label, lot, weighing and the length it can give, with its band.";
    command.options = {stash_option()};
    command.examples = {{"skeinfall stash show cl-01", "one skein of the sample"},
                        {"skeinfall stash show s1", "a skein that was given its id"}};
    command.run = [](const Values& values, const World& world) -> int {
        const auto id = values.one(positional);
        if (!id)
            throw base::InputError(base::Problem{
                "no skein is named", {}, "an id", "\"skeinfall stash list\" shows them."});
        const auto store = store::Store::open(stash_path(values, world), store::Access::read);
        if (const auto skein = store.skein(*id)) {
            *world.out << report::skein_text(*skein);
            return done;
        }
        const auto near = base::nearest_name(*id, store.ids());
        *world.err << "no skein \"" << base::shown_inert(*id) << "\" in this stash"
                   << (near ? "; did you mean \"" + *near + "\"?" : "") << "\n";
        return not_so;
    };
    return command;
}

}  // namespace skeinfall::cli
