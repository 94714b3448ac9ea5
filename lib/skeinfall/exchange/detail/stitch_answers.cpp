#include "skeinfall/exchange/detail/stitch_answers.hpp"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/detail/answer_text.hpp"
#include "skeinfall/project/fabric_words.hpp"

namespace skeinfall::exchange::detail {
namespace {

base::Problem problem_of(const std::string& question, std::string what, std::string expected,
                         std::string remedy) {
    return {std::move(what),
            {.file = question, .line = 0, .column = 0},
            std::move(expected),
            std::move(remedy)};
}

const WrittenGauge* gauge_in(const std::vector<WrittenGauge>& gauges, const std::string& stitch,
                             const StitchNames& names) {
    for (const WrittenGauge& gauge : gauges)
        if (!gauge.stitch.empty() && names.same(gauge.stitch, stitch)) return &gauge;
    return nullptr;
}

/// What contradicts what was answered, and what is not known.
std::optional<base::Problem> not_agreed(const std::string& said, const std::string& main,
                                        const WrittenPiece& piece, const StitchNames& names) {
    if (!said.empty())
        return problem_of("stitch",
                          fmt::format("it is {}, and the piece is of {}", base::quoted(said),
                                      base::quoted(piece.stitch)),
                          "one stitch, " + base::quoted(piece.stitch),
                          "Where each piece names its stitch, leave this one out.");
    if (!names.knows(piece.stitch))
        return problem_of("make",
                          "how much yarn " + base::quoted(piece.stitch) + " takes is not known",
                          "a stitch such as sc, hdc or dc, or " + base::quoted(main) +
                              " as the other piece has it",
                          "");
    return std::nullopt;
}

}  // namespace

bool StitchNames::same(const std::string& a, const std::string& b) const {
    if (base::same_word(a, b)) return true;
    const auto kind = project::stitch_kind(base::lower(a), craft_, terms_);
    return kind && kind == project::stitch_kind(base::lower(b), craft_, terms_);
}

bool StitchNames::knows(const std::string& name) const {
    const std::string low = base::lower(name);
    return project::stitch_kind(low, project::Craft::crochet, terms_).has_value() ||
           project::stitch_kind(low, project::Craft::knit, terms_).has_value() ||
           project::fabric_word(project::Craft::crochet, name).has_value() ||
           project::fabric_word(project::Craft::knit, name).has_value();
}

std::optional<base::Problem> gauges_of_pieces(const std::string& main, const std::string& said,
                                              const StitchNames& names,
                                              const std::vector<WrittenGauge>& gauges,
                                              std::vector<WrittenPiece>& pieces,
                                              std::optional<WrittenGauge>& own) {
    const auto other = [&](const WrittenPiece& piece) {
        return !piece.stitch.empty() && !names.same(piece.stitch, main);
    };
    const bool others = std::any_of(pieces.begin(), pieces.end(), other);
    for (const WrittenPiece& piece : pieces)
        if (other(piece))
            if (auto problem = not_agreed(said, main, piece, names)) return problem;
    if (!others && gauges.size() < 2) {
        if (!gauges.empty()) own = gauges.front();
        return std::nullopt;
    }
    for (const WrittenPiece& piece : pieces)
        if (others && piece.stitch.empty())
            return problem_of("make",
                              "the pieces are of several stitches, and that of one is not said",
                              "its stitch, \"33 " + main + " x 96 rows\"", "");
    for (WrittenPiece& piece : pieces) {
        const bool of_main = !other(piece);
        const WrittenGauge* const gauge = gauge_in(gauges, of_main ? main : piece.stitch, names);
        const bool plain = of_main && gauges.size() == 1 && gauges.front().stitch.empty();
        if (gauge == nullptr && !(plain && !others)) {
            const WrittenPiece& second =
                *std::find_if(pieces.begin(), pieces.end(),
                              [&](const auto& one) { return others ? other(one) : true; });
            const std::string another = others ? second.stitch : gauges.back().stitch;
            return problem_of(
                "gauge",
                fmt::format("the pieces are of several stitches, and the gauge in {} is not said",
                            base::quoted(of_main ? main : piece.stitch)),
                fmt::format(
                    "each in its stitch, \"14 {} and 10 rows per 10 cm; 14 {} and 6 rows per 10 "
                    "cm\"",
                    main, another),
                "A row of another stitch has another height. Plan them one by one where you have "
                "no gauge in one of them.");
        }
        if (of_main)
            own = *gauge;
        else if (gauge->rows.empty())
            return problem_of(
                "gauge", "the rows are missing",
                fmt::format("each in its stitch, \"14 {} and 10 rows per 10 cm; 14 {} "
                            "and 6 rows per 10 cm\"",
                            main, piece.stitch),
                "");
        else
            piece.gauge =
                fmt::format("{{ stitches = {}, rows = {}, stitch = {} }}", in_toml(gauge->stitches),
                            in_toml(gauge->rows), in_toml(piece.stitch));
    }
    for (const WrittenGauge& gauge : gauges)
        if (!gauge.stitch.empty() && !names.same(gauge.stitch, main) &&
            std::none_of(pieces.begin(), pieces.end(), [&](const WrittenPiece& piece) {
                return names.same(gauge.stitch, piece.stitch);
            }))
            return problem_of(
                "gauge", "no piece is of " + base::quoted(gauge.stitch),
                "the gauge in the stitch of the piece, \"14 " + main + " and 10 rows per 10 cm\"",
                "");
    return std::nullopt;
}

bool is_knit_by(const std::string& stitch, project::Terms terms, const Tools& tools) {
    if (stitch.empty()) return tools.needle && !tools.hook;
    const std::string low = base::lower(stitch);
    if (project::stitch_kind(low, project::Craft::crochet, terms)) return false;
    if (project::stitch_kind(low, project::Craft::knit, terms)) return true;
    if (const auto craft = project::craft_of_fabric(stitch)) return *craft == project::Craft::knit;
    if (!project::fabric_of_both_crafts(stitch)) return false;
    if (tools.yarn_told) return !tools.hook;
    if (tools.hook == tools.needle)
        throw base::InputError(
            problem_of("craft", base::quoted(stitch) + " is worked in both crafts",
                       "crochet or knit", "The size of a hook or needle answers it as well."));
    return tools.needle;
}

std::optional<base::Problem> fabric_in_name(const std::string& name, const std::string& counted,
                                            project::Craft craft) {
    const auto own = project::fabric_word(craft, counted);
    for (const project::FabricWord& word : project::fabrics_in_name(craft, name)) {
        const bool alike = own && own->group == word.group && own->texture == word.texture &&
                           (!word.group.empty() || own->word == word.word);
        if (!word.takes_more || alike) continue;
        const std::string said(word.word);
        return problem_of(
            "stitch",
            fmt::format("{} speaks of {}, which takes more yarn than {}", base::quoted(name),
                        base::quoted(said), counted),
            "the stitch that it is of, such as " + base::quoted(said),
            "A weighed swatch or the pattern's total will do too. Where it is only a name, "
            "leave the word out.");
    }
    return std::nullopt;
}

std::optional<std::string> taken_as_us(const std::string& stitch) {
    for (const char* both : {"dc", "tr", "dtr", "double crochet", "treble", "treble crochet",
                             "double treble", "double treble crochet"})
        if (base::same_word(stitch, both))
            return fmt::format("{0} is read as US {0}; write \"UK {0}\" for the other", both);
    return std::nullopt;
}

bool gauge_of_swatches(const std::vector<WrittenSwatch>& swatches, WrittenGauge& gauge) {
    const auto told = std::find_if(swatches.begin(), swatches.end(), [](const WrittenSwatch& one) {
        return one.stitches && !one.width.empty();
    });
    if (told == swatches.end()) return false;
    gauge.stitches = fmt::format("{} per {}", *told->stitches, told->width);
    gauge.rows = fmt::format("{} per {}", *told->rows, told->height);
    return true;
}

}  // namespace skeinfall::exchange::detail
