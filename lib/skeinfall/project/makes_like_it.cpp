#include "skeinfall/project/makes_like_it.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <limits>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/data/class_grist.hpp"
#include "skeinfall/data/yarn_use.hpp"
#include "skeinfall/project/detail/use_columns.hpp"
#include "skeinfall/project/fabric_words.hpp"

namespace skeinfall::project {
namespace {

using units::Ratio;

struct Group {
    std::string_view name;
    std::string_view texture;
    /// A taller stitch that no make knows is so many rows of the group's in one.
    double rows = 1.0;
};

Group group_of(Craft craft, Terms terms, std::string_view stitch) {
    const bool knit = craft == Craft::knit;
    const std::string name = base::lower(base::trimmed(std::string(stitch)));
    if (const auto kind = stitch_kind(name, craft, terms)) {
        if (knit && (*kind == "k" || *kind == "p")) return {"stockinette", ""};
        for (const std::string_view plain : {"sc", "hdc", "dc"})
            if (*kind == plain) return {plain, ""};
        const auto yarn = relative_yarn(*kind);
        for (const std::string_view taller : {"tr", "dtr", "trtr"})
            if (*kind == taller && yarn) return {"dc", "", *yarn / *relative_yarn("dc")};
        // "fpdc" is worked round the post, as its whole name says.
        if (const auto word = fabric_word(craft, full_name(*kind)))
            return {word->group, word->texture};
    }
    if (const auto word = fabric_word(craft, name)) return {word->group, word->texture};
    return {};
}

double dot(const std::vector<double>& a, const double* b) {
    double sum = 0.0;
    for (std::size_t i = 0; i < a.size(); ++i) sum += a[i] * b[i];
    return sum;
}

template <std::size_t Size>
double variance(const std::vector<double>& columns, const std::array<double, Size>& covariance) {
    double sum = 0.0;
    for (std::size_t i = 0; i < columns.size(); ++i)
        if (columns[i] != 0.0)
            sum += columns[i] * dot(columns, covariance.data() + i * columns.size());
    return std::max(0.0, sum);
}

double usual_density(const Fabric& fabric) {
    return 100.0 * std::exp(dot(gauge_columns(fabric), data::usual_density.data()));
}

double log_use(const Fabric& fabric) {
    return dot(use_columns(fabric, usual_density(fabric), false), data::yarn_use.data());
}

/// m in 100 g, and the spread of its logarithm.
struct Thickness {
    double grist = 0.0;
    double spread = 0.0;
};

/// Where class and length per mass contradict each other the label's own figure counts, and the
/// class's distance from it widens the band.
std::optional<Thickness> thickness(const FabricFacts& facts) {
    std::optional<Thickness> by_class;
    if (facts.weight)
        for (const auto& row : data::class_grist)
            if (base::number_of<int>(row.name) == facts.weight->number)
                by_class = {base::leading_number<double>(row.metres_per_100_g),
                            base::leading_number<double>(row.spread)};
    if (!facts.grist) return by_class;
    Thickness out{100.0 * facts.grist->value(), 0.0};
    constexpr double contradicts = 2.6;
    if (by_class) {
        const double off = std::abs(std::log(out.grist / by_class->grist));
        if (off > contradicts * by_class->spread) out.spread = 0.5 * off;
    }
    return out;
}

constexpr double mm(units::Length length) {
    return 1000.0 * length.value();
}

/// Metres in 100 g between which hand yarns lie.
constexpr double thickest = 20.0;
constexpr double thinnest = 2000.0;

/// From a tool or a whole gauge, where yarn and class are silent.
std::optional<Thickness> inferred(const FabricFacts& facts, Fabric fabric) {
    // The usual tool and the usual density both fall as the yarn gets thicker.
    if (fabric.stitches_per_sq_dm > 0.0) {
        double low = std::log(thickest);
        double high = std::log(thinnest);
        fabric.tool_mm = facts.tool ? mm(*facts.tool) : 0.0;
        if (!facts.tool) {
            for (int i = 0; i < 40; ++i) {
                const double middle = 0.5 * (low + high);
                fabric.grist = std::exp(middle);
                (usual_density(fabric) < fabric.stitches_per_sq_dm ? low : high) = middle;
            }
            return Thickness{std::exp(0.5 * (low + high)), 0.25};
        }
    }
    if (!facts.tool) return std::nullopt;
    constexpr double power = 0.55;
    return Thickness{190.0 * std::pow(5.0 / mm(*facts.tool), 1.0 / power), unknown_tool / power};
}

Fabric known_of(const FabricFacts& facts, const Group& group) {
    Fabric fabric;
    fabric.knit = facts.craft == Craft::knit;
    fabric.stitch = group.name;
    fabric.texture = group.texture;
    if (facts.tool) fabric.tool_mm = mm(*facts.tool);
    if (facts.stitches && facts.rows)
        fabric.stitches_per_sq_dm =
            facts.stitches->value() * facts.rows->value() / 100.0 * group.rows;
    if (facts.area) fabric.area_sq_m = facts.area->value();
    return fabric;
}

/// Beyond this a tool is far from what its yarn is worked with: 5 mm to 3 or 8.2 mm.
constexpr double far_from_usual = 0.5;

}  // namespace

std::string_view fabric_group(Craft craft, Terms terms, std::string_view stitch) {
    return group_of(craft, terms, stitch).name;
}

std::optional<MakesLikeIt> makes_like_it(const FabricFacts& facts) {
    const Group group = group_of(facts.craft, facts.terms, facts.stitch);
    Fabric fabric = known_of(facts, group);
    auto thick = thickness(facts);
    if (!thick) thick = inferred(facts, fabric);
    if (!thick) return std::nullopt;
    fabric.grist = thick->grist;

    MakesLikeIt out;
    out.fabric = group.name;
    out.tool_known = facts.tool.has_value();
    const double level = log_use(fabric);
    out.use = std::exp(level) * units::metre / (units::metre * units::metre);
    double all = 0.0;
    const auto add = [&](UseCause::What what, double relative) {
        if (!(relative > 0.0)) return;
        out.causes.push_back({what, Ratio(relative)});
        all = std::hypot(all, relative);
    };
    const auto& scales = data::yarn_use_scales;
    add(UseCause::What::others, std::hypot(scales.page, scales.exact));
    double of_fit = std::sqrt(
        variance(use_columns(fabric, usual_density(fabric), false), data::yarn_use_covariance));
    if (!has_column(fabric.knit, fabric.stitch)) of_fit = std::hypot(of_fit, 1.5 * scales.stitch);
    if (group.rows > 1.0) of_fit = std::hypot(of_fit, relative_yarn_spread_of("tr").value());
    add(UseCause::What::stitch, of_fit);
    // What is not known, by how far the answer moves with it.
    if (thick->spread > 0.0) {
        Fabric finer = fabric;
        finer.grist *= std::exp(thick->spread);
        add(UseCause::What::thickness, std::abs(log_use(finer) - level));
    }
    const double off_tool =
        facts.tool ? std::abs(std::log(fabric.tool_mm / usual_tool_mm(fabric.grist))) : 0.0;
    if (!facts.tool) {
        Fabric larger = fabric;
        larger.tool_mm = usual_tool_mm(fabric.grist) * std::exp(unknown_tool);
        add(UseCause::What::tool, std::abs(log_use(larger) - level));
    } else if (off_tool > far_from_usual && (facts.grist || facts.weight)) {
        out.far_tool = true;
        add(UseCause::What::far_tool, 0.3 * off_tool);
    }
    out.spread = Ratio(all);
    return out;
}

std::optional<UseCompared> compare_use(const FabricFacts& one, const FabricFacts& other) {
    const auto columns_of =
        [](const FabricFacts& facts) -> std::optional<std::pair<std::vector<double>, double>> {
        const Group group = group_of(facts.craft, facts.terms, facts.stitch);
        Fabric fabric = known_of(facts, group);
        auto thick = thickness(facts);
        if (!thick) thick = inferred(facts, fabric);
        if (!thick) return std::nullopt;
        fabric.grist = thick->grist;
        const double unknown =
            has_column(fabric.knit, fabric.stitch) ? 0.0 : 1.5 * data::yarn_use_scales.stitch;
        return std::pair(use_columns(fabric, usual_density(fabric), false), unknown);
    };
    const auto a = columns_of(one);
    const auto b = columns_of(other);
    if (!a || !b) return std::nullopt;
    std::vector<double> apart = a->first;
    for (std::size_t i = 0; i < apart.size(); ++i) apart[i] -= b->first[i];
    // Two makes of one page, stitch apart, differ as weighed makes do.
    const double noise = std::sqrt(2.0) * data::yarn_use_scales.exact;
    return UseCompared{Ratio(std::exp(dot(apart, data::yarn_use.data()))),
                       Ratio(std::hypot(std::sqrt(variance(apart, data::yarn_use_covariance)),
                                        std::hypot(noise, std::hypot(a->second, b->second))))};
}

FabricFacts fabric_of(const Project& project, const Role& role) {
    FabricFacts out;
    out.craft = project.craft;
    out.terms = project.terms;
    const Gauge* gauge = &project.gauge;
    for (const Piece& piece : project.pieces) {
        const bool uses = piece.role == role.id ||
                          std::any_of(piece.stripes.begin(), piece.stripes.end(),
                                      [&](const Stripe& stripe) { return stripe.role == role.id; });
        if (!uses) continue;
        gauge = &gauge_of(project, piece);
        break;
    }
    out.stitch = gauge->stitch;
    const auto& tool = project.craft == Craft::knit
                           ? (gauge->needle ? gauge->needle : project.gauge.needle)
                           : (gauge->hook ? gauge->hook : project.gauge.hook);
    out.tool = tool;
    if (role.grist) out.grist = role.grist->value;
    out.weight = role.weight;
    for (const Role& other : project.roles) {
        const bool together = other.held_with == role.id || role.held_with == other.id;
        if (!together || &other == &role) continue;
        // Masses of a length add; a partner of unknown thickness makes both unknown.
        if (out.grist && other.grist)
            out.grist = 1.0 / (1.0 / *out.grist + 1.0 / other.grist->value);
        else
            out.grist.reset();
        out.weight.reset();
    }
    if (gauge->stitches.value() > 0.0) out.stitches = gauge->stitches;
    if (gauge->rows.value() > 0.0) out.rows = gauge->rows;
    return out;
}

std::optional<UsualGauge> usual_gauge(const FabricFacts& facts) {
    const Group group = group_of(facts.craft, facts.terms, facts.stitch);
    FabricFacts without = facts;
    without.stitches.reset();
    without.rows.reset();
    Fabric fabric = known_of(without, group);
    auto thick = thickness(without);
    if (!thick) thick = inferred(without, fabric);
    if (!thick) return std::nullopt;
    fabric.grist = thick->grist;
    // Rows to a stitch's width: knit 1.35, garter and textured 1.7; sc 1.1, hdc 0.75, dc 0.5, all
    // as gauges in patterns have them (common practice, no source).
    double rows_a_stitch = fabric.knit ? 1.35 : 0.75;
    if (group.name == "garter") rows_a_stitch = 1.9;
    if (group.name == "sc" || group.name == "mixed-crochet") rows_a_stitch = 1.0;
    if (group.name == "dc" || group.name == "v-stitch" || group.name == "granny" ||
        group.name == "mesh" || group.name == "waffle/post")
        rows_a_stitch = 0.55;
    rows_a_stitch /= group.rows;
    const double density = usual_density(fabric) * 100.0 / group.rows;  // in a square metre
    UsualGauge out;
    out.stitches = std::sqrt(density / rows_a_stitch) * units::stitch / units::metre;
    out.rows = std::sqrt(density * rows_a_stitch) * units::row / units::metre;
    out.spread = Ratio(
        std::hypot(density_spread,
                   std::sqrt(variance(gauge_columns(fabric), data::usual_density_covariance))));
    return out;
}

std::optional<ImpliedGrist> implied_grist(const FabricFacts& facts) {
    const auto thick =
        inferred(facts, known_of(facts, group_of(facts.craft, facts.terms, facts.stitch)));
    // At the ends of what is searched the gauge is of no fabric.
    if (!thick || thick->grist < 1.05 * thickest || thick->grist > 0.95 * thinnest)
        return std::nullopt;
    return ImpliedGrist{thick->grist * units::metre / (100.0 * units::gram), Ratio(thick->spread)};
}

std::vector<Coefficient> coefficients() {
    std::vector<Coefficient> out;
    const std::size_t width = data::yarn_use.size();
    for (std::size_t i = 0; i < width; ++i)
        out.push_back({data::yarn_use_names[i], Ratio(data::yarn_use[i]),
                       Ratio(std::sqrt(data::yarn_use_covariance[i * width + i]))});
    return out;
}

std::int64_t makes_behind() {
    return data::yarn_use_makes;
}

}  // namespace skeinfall::project
