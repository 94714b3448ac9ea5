#include "odd_figures.hpp"

#include <chrono>
#include <optional>
#include <ostream>
#include <set>
#include <string>
#include <utility>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/words.hpp"
#include "skeinfall/units/format.hpp"
#include "skeinfall/yarn/fibre_facts.hpp"
#include "skeinfall/yarn/label_check.hpp"

namespace skeinfall::cli {
namespace {

constexpr std::size_t most_said = 10;

/// A whole skein lighter than its label: both readings.
std::optional<std::string> light_skein(const stash::Skein& skein) {
    const yarn::Label& label = skein.yarn.label;
    if (stash::is_part(skein) || !skein.weighing || !label.length || !label.mass)
        return std::nullopt;
    const auto light =
        yarn::short_weight(label.length->value, label.mass->value,
                           measure::net_mass(skein.weighing->reading()), skein.yarn.fibre);
    if (!light) return std::nullopt;
    std::string says =
        "a whole skein that weighs less than its label: if yarn is missing it holds " +
        report::yards_and_metres(light->if_short, units::Rounding::down) + ", if it is only dry " +
        report::yards_and_metres(light->if_dry, units::Rounding::down) + ".";
    if (light->dry_explains)
        says +=
            " Dry air explains about " +
            units::percent_text(*light->dry_explains, units::Step::one, units::Rounding::nearest) +
            " of what is missing.";
    return says + " Measure a length of it to know.";
}

/// A whole skein far heavier than its label.
std::optional<std::string> heavy_skein(const stash::Skein& skein) {
    const yarn::Label& label = skein.yarn.label;
    if (stash::is_part(skein) || !skein.weighing || !label.mass) return std::nullopt;
    constexpr double heaviest = 1.2;
    if (measure::net_mass(skein.weighing->reading()).centre <= heaviest * label.mass->value)
        return std::nullopt;
    return "a whole skein that weighs far more than its label: two wound as one, or the cone, a "
           "bag "
           "or a bowl on the scale? --tare takes that off.";
}

}  // namespace

void OddFigures::say(const stash::Skein& skein, const std::string& what) {
    const std::string line = base::shown_inert(skein.yarn.name) + ": " + what;
    if (said_.insert(line).second && said_.size() <= most_said) err_ << "note: " << line << "\n";
}

const std::string& OddFigures::odd_fibres(const yarn::FibreContent& content) {
    std::string key;
    for (const yarn::FibreShare& share : content.shares) (key += share.fibre) += '\0';
    const auto [found, first] = fibres_.try_emplace(std::move(key));
    if (first)
        if (auto strange = yarn::check_fibres(content)) found->second = std::move(strange->says);
    return found->second;
}

void OddFigures::look_at(const stash::Skein& skein) {
    yarn::LabelFigures figures;
    if (skein.yarn.label.length) figures.length = skein.yarn.label.length->value;
    if (skein.yarn.label.mass) figures.mass = skein.yarn.label.mass->value;
    figures.weight = skein.yarn.weight;
    for (const yarn::Finding& finding : yarn::check_label(figures)) say(skein, finding.says);
    if (const std::string& strange = odd_fibres(skein.yarn.fibre); !strange.empty())
        say(skein, strange);
    if (const auto light = light_skein(skein)) say(skein, *light);
    if (const auto heavy = heavy_skein(skein)) say(skein, *heavy);
}

void OddFigures::say_how_many_more() const {
    if (said_.size() > most_said)
        err_ << "note: " << said_.size() - most_said << " more odd figures like these\n";
}

void note_odd_figures(const std::vector<stash::Skein>& skeins, std::ostream& err) {
    OddFigures odd(err);
    for (const stash::Skein& skein : skeins) odd.look_at(skein);
    odd.say_how_many_more();
}

void note_step(const std::string& step, std::ostream& err) {
    if (!step.empty())
        err << "note: taken as a scale with " << base::shown_inert(step)
            << " steps; if yours has others: --scale, or for good \"skeinfall settings set "
               "scale\"\n";
}

void note_coarse_step(const std::string& shown, units::Mass step, std::ostream& err) {
    constexpr units::Mass coarse = 20.0 * units::gram;
    if (step < coarse) return;
    err << "note: " << base::quoted(shown) << " is taken as weighed to the nearest "
        << (step > 200.0 * units::gram ? "pound" : "ounce")
        << "; if your scale shows more, write its figures, such as \"16.0 oz\", or grams\n";
}

bool is_to_come(const base::Day& day, const World& world) {
    // Somewhere it is tomorrow already.
    return std::chrono::sys_days(day) > std::chrono::sys_days(world.today) + std::chrono::days(1);
}

std::optional<base::Problem> impossible_label(const yarn::Label& label) {
    // "1.250 g" of a sheet that parts thousands with a point.
    constexpr double least_g = 1.0;
    constexpr double least_m = 1.0;
    const bool light = label.mass && label.mass->value < least_g * units::gram;
    if (light || (label.length && label.length->value < least_m * units::metre))
        return base::Problem{
            base::quoted(light ? label.mass->text : label.length->text) +
                " is too little for a skein",
            {},
            "length and weight of one skein",
            "Where a point parts thousands, leave it out; amounts of several are shared among "
            "them."};
    if (!label.length || !label.mass) return std::nullopt;
    yarn::LabelFigures figures;
    figures.length = label.length->value;
    figures.mass = label.mass->value;
    for (const yarn::Finding& finding : yarn::check_label(figures))
        if (finding.topic == "grist")
            return base::Problem{
                base::quoted(label.length->text + " / " + label.mass->text) + ": " +
                    finding.says.substr(0, finding.says.find(". ")),
                {},
                "length and weight of one skein",
                "Check both units on the band; what cannot be read there is left out."};
    return std::nullopt;
}

}  // namespace skeinfall::cli
