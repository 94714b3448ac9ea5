#include "skeinfall/units/count.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "skeinfall/data/units.hpp"
#include "skeinfall/units/detail/readers.hpp"
#include "skeinfall/units/format.hpp"

namespace skeinfall::units {
namespace {

using detail::Scanner;
using detail::WrittenCount;

/// A number up to this may be the plies of a real yarn. When both numbers of a metric count are
/// within it, which is which cannot be told. A judgement.
constexpr double most_plies = 12.0;

constexpr LinearDensity one_tex = gram / (1000.0 * metre);

constexpr bool is_system(const data::units_row& row) {
    return row.kind == "linear density, direct" || row.kind == "yarn count, indirect";
}

constexpr Folding folding_of(std::string_view words) {
    if (words == "plies first") return Folding::plies_first;
    if (words == "count first") return Folding::count_first;
    if (words == "either") return Folding::either;
    if (words == "resultant") return Folding::resultant;
    if (words.empty()) return Folding::unwritten;
    throw "unknown word for folded yarn in units.csv";
}

constexpr std::size_t system_count = [] {
    std::size_t count = 0;
    for (const auto& row : data::units)
        if (is_system(row)) ++count;
    return count;
}();

constexpr auto systems = [] {
    std::array<CountSystem, system_count> out;
    std::size_t next = 0;
    for (const auto& row : data::units) {
        if (!is_system(row)) continue;
        const Ratio factor(detail::exact_number_of(row.exact_value));
        out[next++] = {row.id,
                       row.unit,
                       row.symbol.substr(0, row.symbol.find(',')),
                       row.definition,
                       row.source,
                       folding_of(row.folded),
                       row.kind == "linear density, direct",
                       row.status == "memory",
                       Ratio(1.0) / (factor * one_tex)};
    }
    return out;
}();

/// A system that the table surely has.
const CountSystem& known_system(std::string_view id) {
    std::size_t i = 0;
    while (systems.at(i).id != id) ++i;
    return systems.at(i);
}

const CountSystem& system_of(const detail::Name& name) {
    return known_system(data::units.at(name.row).id);
}

std::string name_of(const CountSystem& system) {
    return std::string(system.symbol.empty() ? system.name : system.symbol);
}

std::string figures(double value) {
    return figures_text(Ratio(value), 5);
}

std::string plies_text(double plies) {
    return plies == 1.0 ? "1 ply" : figures(plies) + " plies";
}

/// "2 plies of 24, 6720 yd/lb".
std::string reading(const CountSystem& system, double plies, double count) {
    const Grist grist = system.grist(Ratio(count)) / plies;
    return plies_text(plies) + " of " + figures(count) + ", " + figures(grist / (yard / pound)) +
           " yd/lb";
}

bool is_ply_number(double value) {
    return value == std::floor(value) && value <= 999.0;
}

YarnCount folded(const CountSystem& system, double plies, double count) {
    const Grist whole = system.grist(Ratio(count));
    const bool divide = system.folding != Folding::resultant;
    return {&system, Ratio(count), static_cast<int>(plies), divide ? whole / plies : whole};
}

std::nullopt_t refuse_order(Scanner& scanner, const CountSystem& system,
                            const WrittenCount& written, const std::string& why) {
    const double a = written.first;
    const double b = written.second;
    const std::string one = is_ply_number(a) ? reading(system, a, b) : std::string();
    const std::string other = is_ply_number(b) ? reading(system, b, a) : std::string();
    const std::string both = one.empty() || other.empty() ? one + other : one + "; or " + other;
    return scanner.fail(why + (both.empty() ? std::string() : ": " + both),
                        "an order that reads one way",
                        "Mark the count with s, such as \"" + figures(a) + "/" + figures(b) + "s " +
                            name_of(system) + "\" or \"" + figures(a) + "s/" + figures(b) + " " +
                            name_of(system) + "\".",
                        written.start);
}

std::optional<YarnCount> resolved_pair(Scanner& scanner, const CountSystem& system,
                                       const WrittenCount& written) {
    const double a = written.first;
    const double b = written.second;
    const std::string name = name_of(system);
    if (written.first_marked && written.second_marked)
        return scanner.fail("both numbers are marked as the count", "one count and one ply number",
                            "", written.start);
    bool first_is_plies = false;
    if (written.first_marked || written.second_marked) {
        first_is_plies = written.second_marked;
    } else if (written.separator == '-') {
        return scanner.fail(
            "with a hyphen it is not clear which number is the count", "\"s\" after the count",
            "Write it like \"2-40s cotton\" or \"40s-2 spun silk\".", written.start);
    } else {
        switch (system.folding) {
            case Folding::plies_first:
            case Folding::count_first: {
                first_is_plies = system.folding == Folding::plies_first;
                const bool backwards = first_is_plies ? a > b : b > a;
                if (backwards)
                    return refuse_order(scanner, system, written,
                                        name + " is written " +
                                            (first_is_plies ? "plies/count" : "count/plies") +
                                            ", but that gives more plies than count");
                break;
            }
            case Folding::either:
                if (a != b && a <= most_plies && b <= most_plies)
                    return refuse_order(scanner, system, written,
                                        name +
                                            " is written both ways, and either number here can "
                                            "be the plies");
                first_is_plies = a < b;
                break;
            case Folding::resultant:
                return scanner.fail(
                    name + " is written as the count of the folded yarn with a hyphen (40s-2)",
                    "a count marked with \"s\"",
                    "Silk cones with a stroke are often metric: write \"" + figures(a) + "/" +
                        figures(b) + " Nm\" then.",
                    written.start);
            case Folding::unwritten: {
                const std::string fraction = figures(a / b) + " " + name;
                if (system.direct)
                    return scanner.fail("a folded yarn is not written with a stroke in this system",
                                        "the number of the whole yarn",
                                        "Write \"" + fraction + "\" if it is a fraction.",
                                        written.start);
                return refuse_order(scanner, system, written,
                                    "this can be the fraction " + fraction + " or a folded yarn");
            }
        }
    }
    const double plies = first_is_plies ? a : b;
    const double count = first_is_plies ? b : a;
    if (!is_ply_number(plies))
        return scanner.fail("\"" + figures(plies) + "\" stands for the plies",
                            "a whole number of plies", "", written.start);
    if (system.direct)
        return scanner.fail("a folded yarn is not written so in this system",
                            "the number of the whole yarn", "", written.start);
    return folded(system, plies, count);
}

bool refuse_ticket(Scanner& scanner, const CountSystem& system) {
    if (system.id != "metric_ticket") return false;
    scanner.fail(
        "a ticket number is a size class of sewing thread, about three times the metric count of "
        "a single of the same thickness; the thread's real length per weight lies anywhere near it",
        "a yarn count, or length and weight",
        "Use the length and the weight that its label prints.", scanner.at());
    return true;
}

}  // namespace

std::span<const CountSystem> count_systems() {
    return systems;
}

const CountSystem* find_count_system(std::string_view id) {
    for (const CountSystem& system : systems)
        if (system.id == id) return &system;
    return nullptr;
}

namespace detail {

std::optional<YarnCount> read_count(Scanner& scanner) {
    const Name* name = nullptr;
    if (scanner.at_letter() && (name = scanner.count_name()) == nullptr) return std::nullopt;
    const auto written = scanner.written_count();
    if (!written) return std::nullopt;
    if (name == nullptr && (name = scanner.count_name()) == nullptr) return std::nullopt;
    const CountSystem& system = system_of(*name);
    if (refuse_ticket(scanner, system)) return std::nullopt;
    if (written->separator != 0) return resolved_pair(scanner, system, *written);
    if (system.direct && scanner.times()) {
        const std::size_t start = scanner.at();
        const auto plies = scanner.amount();
        if (!plies) return std::nullopt;
        if (!is_ply_number(*plies))
            return scanner.fail("\"" + figures(*plies) + "\" stands for the plies",
                                "a whole number of plies", "Write it like \"34 tex x 2\".", start);
        return folded(system, *plies, written->first);
    }
    return folded(system, 1.0, written->first);
}

std::optional<YarnCount> read_count_unit(Scanner& scanner) {
    const Name* const name = scanner.count_name();
    if (name == nullptr) return std::nullopt;
    const CountSystem& system = system_of(*name);
    if (refuse_ticket(scanner, system)) return std::nullopt;
    return folded(system, 1.0, 1.0);
}

bool refuse_bare_pair(Scanner& scanner) {
    if (!scanner.only_numbers()) return false;
    Scanner trial = scanner;
    const auto written = trial.written_count();
    if (!written || written->separator == 0 || !trial.at_end()) return false;
    const double a = written->first;
    const double b = written->second;
    if (!is_ply_number(a) || !is_ply_number(b)) return false;
    const CountSystem& worsted = known_system("new");
    const CountSystem& cotton = known_system("nec");
    const CountSystem& metric = known_system("nm");
    const std::string small = figures(std::min(a, b));
    const std::string large = figures(std::max(a, b));
    scanner.fail("these two numbers mean a different yarn in each system: worsted (" +
                     reading(worsted, a, b) + "), cotton (" + reading(cotton, b, a) +
                     ") or metric (" + reading(metric, std::min(a, b), std::max(a, b)) + ")",
                 "the system with the numbers",
                 "Write \"" + small + "/" + large + " NeW\" for worsted, \"" + large + "/" + small +
                     " NeC\" for cotton, or \"" + large + "/" + small + " Nm\" for metric.",
                 written->start);
    return true;
}

}  // namespace detail

base::Result<YarnCount> parse_count(std::string_view text) {
    Scanner scanner(text, "2/24 NeW");
    std::optional<YarnCount> count;
    if (!detail::refuse_bare_pair(scanner)) count = detail::read_count(scanner);
    if (!scanner.finished() || !count) return *scanner.problem();
    return *count;
}

}  // namespace skeinfall::units
