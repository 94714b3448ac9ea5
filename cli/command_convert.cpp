#include <algorithm>
#include <optional>
#include <ostream>
#include <regex>
#include <variant>

#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/make_words.hpp"
#include "skeinfall/report/conversion.hpp"
#include "skeinfall/units/any.hpp"
#include "skeinfall/units/parse.hpp"
#include "skeinfall/yarn/terms.hpp"
#include "skeinfall/yarn/tools.hpp"

#include "commands.hpp"
#include "exit_code.hpp"
#include "options.hpp"

namespace skeinfall::cli {
namespace {

/// A kind of quantity, as people say it.
std::string in_words(std::string_view kind) {
    return kind == "mass" ? "weight" : std::string(kind);
}

/// What the options of one command line ask for.
struct Wish {
    std::string text;
    std::vector<std::string> to;
    bool json = false;
    const World& world;

    void answer(const std::string& as_text, const std::string& as_json,
                const std::vector<std::string>& notes) const {
        *world.out << (json ? as_json : as_text);
        if (json) return;
        for (const std::string& note : notes) *world.err << "note: " << note << "\n";
    }
};

void refuse_with(const Values& values, const std::string& option, const std::string& kind) {
    if (values.given(option))
        refuse_option(option, "this option does not go with a " + kind, "no --" + option, "");
}

int convert_term(const Wish& wish, const std::string& set) {
    const yarn::Naming to = read_option("terms", set, yarn::parse_naming);
    const auto term = yarn::term_for(wish.text, to);
    if (!term) throw base::InputError(term.problem());
    std::vector<std::string> notes;
    if (term->written == to && !(term->us == term->uk))
        notes.push_back("it is written in " + std::string(yarn::text(to)) + " terms already");
    if (term->from_memory) notes.emplace_back("this row was not checked in a published list");
    wish.answer(report::term_text(*term, to), report::term_json(wish.text, *term, to), notes);
    return done;
}

report::ToolColumn tool_column(const std::vector<std::string>& to) {
    if (to.empty() || (to.size() == 1 && base::same_word(to.front(), "mm")))
        return report::ToolColumn::mm;
    if (to.size() == 1 && base::same_word(to.front(), "US")) return report::ToolColumn::us;
    if (to.size() == 1 && base::same_word(to.front(), "UK")) return report::ToolColumn::uk;
    refuse_option("to", base::quoted(base::join(to, ",")) + " is not a way to print a tool's size",
                  "mm, US or UK", "");
}

int convert_tool(const Wish& wish, const yarn::ToolWish& tool) {
    const report::ToolColumn column = tool_column(wish.to);
    const auto found = yarn::find_tools(tool);
    if (!found) throw base::InputError(found.problem());
    wish.answer(report::tools_text(*found, column), report::tools_json(wish.text, tool, *found),
                found->notes);
    return found->sizes.empty() ? not_so : done;
}

/// True when the text is a term or an abbreviation, whose meanings are then printed.
bool show_meanings(const Wish& wish) {
    const auto terms = yarn::term_readings(wish.text);
    const auto abbreviations = yarn::abbreviations_of(wish.text);
    if (terms.empty() && abbreviations.empty()) return false;
    wish.answer(report::meanings_text(terms, abbreviations),
                report::meanings_json(wish.text, terms, abbreviations), {});
    return true;
}

/// What a reading of the text or of an option has to tell.
void add_notes(std::vector<std::string>& notes, const units::Reading& reading) {
    const auto add = [&](const std::string& note) {
        if (std::find(notes.begin(), notes.end(), note) == notes.end()) notes.push_back(note);
    };
    if (!reading.caution.empty()) add(std::string(reading.caution));
    if (reading.from_memory) add("a factor used here was not checked in a published table");
}

/// The length or mass that --grist leads to.
units::AnyQuantity beyond_grist(const Wish& wish, const units::AnyQuantity& value,
                                const std::string& text, std::vector<std::string>& notes) {
    const units::Reading size = read_option("grist", text, units::parse_quantity);
    const auto* const grist = std::get_if<units::Grist>(&size.value);
    if (grist == nullptr)
        refuse_option("grist",
                      base::quoted(text) + " is a " + in_words(units::kind_name(size.value)),
                      "a yarn size, such as \"170 yd / 3.5 oz\" or \"2/24 NeW\"", "");
    const auto other = units::across(value, *grist);
    if (!other)
        refuse_option("grist",
                      base::quoted(wish.text) + " is a " + in_words(units::kind_name(value)) +
                          "; a yarn size leads only from length to weight or back",
                      "a length or a weight to convert", "");
    add_notes(notes, size);
    return *other;
}

int convert_quantity(const Wish& wish, const units::Reading& reading,
                     const std::optional<std::string>& grist) {
    report::QuantityAnswer answer{wish.text, std::string(units::kind_name(reading.value)), {}, {}};
    add_notes(answer.notes, reading);
    std::vector<units::AnyQuantity> values{reading.value};
    if (grist) values.push_back(beyond_grist(wish, reading.value, *grist, answer.notes));
    std::vector<units::OutputUnit> to;
    for (const std::string& name : wish.to) {
        to.push_back(read_option("to", name, units::parse_output_unit));
        add_notes(answer.notes, to.back().one);
    }
    if (to.empty()) to = units::usual_units(values.back());
    for (const units::OutputUnit& unit : to) {
        std::optional<units::Ratio> number;
        for (const units::AnyQuantity& value : values)
            if (!number) number = units::in_unit(value, unit);
        if (!number) {
            const std::string wanted(units::kind_name(unit.one.value));
            const bool bridge = !grist && (answer.kind == "length" || answer.kind == "mass") &&
                                (wanted == "length" || wanted == "mass");
            refuse_option("to",
                          base::quoted(wish.text) + " is a " + in_words(answer.kind) + ", and " +
                              base::quoted(unit.name) + " a unit of " + in_words(wanted),
                          "a unit of " + in_words(answer.kind),
                          bridge ? "With the yarn's length per weight it can be: add --grist \"170 "
                                   "yd / 3.5 oz\"."
                                 : "");
        }
        answer.values.push_back({unit.name, *number});
    }
    wish.answer(report::conversion_text(answer), report::conversion_json(answer), answer.notes);
    return done;
}

[[noreturn]] void refuse_unknown(const Wish& wish, const base::Problem& problem) {
    if (!yarn::term_readings(wish.text).empty())
        refuse_option("to", base::quoted(wish.text) + " is a stitch, not a quantity",
                      "--terms US or --terms UK", "");
    if (wish.text.find_first_of("0123456789") != std::string::npos) throw base::InputError(problem);
    throw base::InputError(
        base::Problem{base::quoted(wish.text) + " is not a quantity, yarn size, tool or stitch",
                      {},
                      "a text such as \"7 oz\", \"2/24 NeW\", \"hook I\" or \"UK tr\"",
                      "\"skeinfall help convert\" lists more."});
}

/// --to, or a second word: convert "3.5 oz" g.
std::vector<std::string> units_wanted(const Values& values, const std::vector<std::string>& words) {
    auto to = values.one("to");
    if (words.size() > 1) {
        if (to)
            refuse_option("to", base::quoted(words[1]) + " names a unit too", "one of them", "");
        to = words[1];
    }
    if (!to) return {};
    std::vector<std::string> out = base::split(*to, ',');
    // "m per 100 g"
    for (std::string& unit : out)
        if (const std::size_t per = unit.find(" per "); per != std::string::npos) {
            unit.replace(per, 5, "/");
            std::erase(unit, ' ');
        }
    return out;
}

/// "6.0 oz - 3.7 oz", "3 ft 6 in", "1 lb 4 oz": amounts of one kind, added up.
std::optional<units::Reading> sum_of(const std::string& given) {
    constexpr std::size_t longest = 200;
    if (given.size() > longest) return std::nullopt;
    static const std::regex between(
        R"(\s+(-|minus|less|\+|plus|and)\s+(?=\d)|([A-Za-z.])\s+(?=\d))", std::regex::icase);
    const std::string text = exchange::plain_signs(given);
    std::optional<units::AnyQuantity> sum;
    const auto add = [&](const std::string& part, double times) {
        const auto length = units::parse_length(part);
        const auto mass = units::parse_mass(part);
        if (length && (!sum || std::holds_alternative<units::Length>(*sum)))
            sum = (sum ? std::get<units::Length>(*sum) : units::Length{}) + times * *length;
        else if (mass && (!sum || std::holds_alternative<units::Mass>(*sum)))
            sum = (sum ? std::get<units::Mass>(*sum) : units::Mass{}) + times * *mass;
        else
            return false;
        return true;
    };
    double times = 1.0;
    std::size_t from = 0;
    for (std::sregex_iterator at(text.begin(), text.end(), between), end; at != end; ++at) {
        const std::string letter = (*at)[2];
        const auto to = static_cast<std::size_t>(at->position(0)) + letter.size();
        if (!add(text.substr(from, to - from), times)) return std::nullopt;
        const std::string word = base::lower((*at)[1].str());
        times = word == "-" || word == "minus" || word == "less" ? -1.0 : 1.0;
        from = static_cast<std::size_t>(at->position(0) + at->length(0));
    }
    if (from == 0 || !add(text.substr(from), times)) return std::nullopt;
    if (std::visit([](auto value) { return value.value() < 0.0; }, *sum))
        throw base::InputError(base::Problem{
            base::quoted(given) + " takes away more than there is", {}, "the larger first", ""});
    units::Reading out;
    out.value = *sum;
    return out;
}

int convert(const Values& values, const World& world) {
    const bool json = format_of(values, {"text", "json"}) == "json";
    const std::vector<std::string> words = values.all(positional);
    const std::string text = words.empty() ? std::string() : words.front();
    if (base::trimmed(text).empty())
        throw base::InputError(base::Problem{"there is nothing to convert",
                                             {},
                                             "a quantity, count, tool or term",
                                             "Write it like skeinfall convert \"7 oz\" --to g."});
    const Wish wish{text, units_wanted(values, words), json, world};
    if (const auto set = values.one("terms")) {
        refuse_with(values, "to", "term");
        refuse_with(values, "grist", "term");
        return convert_term(wish, *set);
    }
    if (const auto tool = yarn::parse_tool(wish.text)) {
        refuse_with(values, "grist", "tool");
        if (!*tool) throw base::InputError(tool->problem());
        return convert_tool(wish, **tool);
    }
    const auto reading = units::parse_quantity(wish.text);
    if (auto two = reading ? units::reads_two_ways(wish.text) : std::nullopt)
        throw base::InputError(*std::move(two));
    if (reading) return convert_quantity(wish, *reading, values.one("grist"));
    if (const auto sum = sum_of(wish.text))
        return convert_quantity(wish, *sum, values.one("grist"));
    if (wish.to.empty() && !values.given("grist") && show_meanings(wish)) return done;
    refuse_unknown(wish, reading.problem());
}

}  // namespace

Command convert_command() {
    Command command;
    command.name = "convert";
    command.no = "no tool of that size is known";
    command.arguments = "TEXT [UNITS]";
    command.most_arguments = 2;
    command.summary = "quantities, yarn counts, tool sizes and stitch names into others";
    command.purpose =
        "Converts what labels, cones and patterns print. Figures are rounded to five digits for\n"
        "reading; --format json has them in full. What can be read two ways is refused with both\n"
        "readings. TEXT is one of\n"
        "  a quantity     \"7 oz\", \"1 1/2 lb\", \"380 yd\", \"13 sts / 4 in\"\n"
        "  a sum          \"6.0 oz - 3.7 oz\", \"3 ft 6 in\", \"100 g - 15 g - 72 g\"\n"
        "  a yarn size    \"170 yd / 3.5 oz\", \"50 g = 125 m\", \"30 tex\", \"6 cut\",\n"
        "                 \"2/24 NeW\" (worsted: plies, then count),\n"
        "                 \"16/2 NeC\" (cotton: count, then plies),\n"
        "                 \"2/28 Nm\" or \"28/2 Nm\" (metric), \"2/40s cotton\"\n"
        "  a tool         \"hook I\", \"hook 5.5 mm\", \"US needle 8\"\n"
        "  a stitch       \"UK tr\", \"US hdc\", \"dc2tog\", or an abbreviation\n"
        "Units: m cm mm km yd ft in; g kg mg oz lb; m/100g, yd/oz, g/m and the like; tex dtex den\n"
        "Nm NeC NeW NeL run cut Gala typp ypp; sts/10cm, rows/4in.";
    command.options = {
        {"to", "UNITS", "units to print in, separated by commas; for a tool mm, US or UK", false},
        {"grist", "SIZE",
         "the yarn's length per weight or count, to get from length to weight or back", false},
        {"terms", "SET", "US or UK: the set of stitch names to convert to", false, {"US", "UK"}},
        format_option("text (default) or json")};
    command.examples = {{"skeinfall convert \"7 oz\" --to g", "a weight in grams"},
                        {"skeinfall convert \"7 oz\" --grist \"170 yd / 3.5 oz\" --to m",
                         "its length in this yarn"},
                        {"skeinfall convert \"2/24 NeW\" --to \"yd/lb,tex,m/100g\"",
                         "a worsted cone in other sizes"},
                        {"skeinfall convert \"UK tr\" --terms US", "the US name of a UK treble"},
                        {"skeinfall convert \"hook I\" --to mm", "every hook that charts call I"}};
    command.run = convert;
    return command;
}

}  // namespace skeinfall::cli
