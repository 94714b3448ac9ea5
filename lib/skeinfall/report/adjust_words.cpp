#include "skeinfall/report/detail/adjust_words.hpp"

#include <algorithm>
#include <cstdint>

#include "skeinfall/base/text.hpp"
#include "skeinfall/materials/adjust.hpp"
#include "skeinfall/report/detail/figures.hpp"

namespace skeinfall::report {
namespace {

using units::Length;
using units::Ratio;
using units::Rounding;
using units::Step;

class AdjustLines {
  public:
    AdjustLines(const materials::Section& section, const materials::Adjustment& more,
                const MaterialsWords& words)
        : section_(section), more_(more), words_(words) {}

    [[nodiscard]] std::vector<std::string> lines() const {
        const std::string wider = yarn_more(materials::Grows::wider);
        const std::string longer = yarn_more(materials::Grows::longer);
        std::vector<std::string> out;
        if (!wider.empty()) out.push_back(line(wider_key(), more_.wider, more_.stitches, wider));
        for (const auto& other : more_.followed)
            if (!wider.empty() && other.rows > 0)
                out.push_back(words_.fill(
                    other.round ? "follows_rounds" : "follows_rows",
                    {{"piece", shown_apart(other.piece)}, {"count", std::to_string(other.rows)}}));
        if (!longer.empty()) out.push_back(line(longer_key(), more_.longer, more_.rows, longer));
        if (!out.empty() && !more_.without.empty()) {
            std::vector<std::string> parts;
            for (const std::string& part : more_.without) parts.push_back(shown_apart(part));
            out.push_back(
                words_.fill("adjust_without",
                            {{"parts", base::join(parts, units::number_style().list_mark())}}));
        }
        return out;
    }

  private:
    using Of = fit::EachMore::Of;

    [[nodiscard]] std::string wider_key() const {
        if (more_.of == Of::blocks) return "wider_blocks";
        if (more_.of == Of::motifs) return "wider_motifs";
        const bool crochet = section_.craft == project::Craft::crochet;
        return std::string(more_.repeat_known ? "wider_repeat_" : "wider_") +
               (more_.on_live_stitches ? "live"
                : crochet              ? "crochet"
                                       : "knit");
    }
    [[nodiscard]] std::string longer_key() const {
        if (more_.of == Of::blocks) return "longer_blocks";
        if (more_.of == Of::motifs) return "longer_motifs";
        return more_.round ? "longer_rounds" : "longer_rows";
    }

    /// "back and front, each", "mitt, yarn for all 2".
    [[nodiscard]] std::string pieces() const {
        std::string out = shown_apart(more_.piece);
        for (std::size_t i = 0; i < more_.alike.size(); ++i)
            out = words_.fill(i + 1 < more_.alike.size() ? "pieces" : "pieces_each",
                              {{"piece", out}, {"other", shown_apart(more_.alike[i])}});
        if (more_.copies > 1 && more_.of != Of::motifs)
            out = words_.fill("piece_copies",
                              {{"piece", out}, {"count", std::to_string(more_.copies)}});
        return out;
    }

    [[nodiscard]] std::string line(const std::string& key, Length length, std::int64_t count,
                                   const std::string& yarn) const {
        return words_.fill(key, {{"piece", pieces()},
                                 {"length", inch_or_more(length)},
                                 {"count", std::to_string(count)},
                                 {"chains", words_.counted("chains", count)},
                                 {"stitches", words_.counted("stitches", count)},
                                 {"rows", words_.counted("rows", count)},
                                 {"rounds", words_.counted("rounds", count)},
                                 {"yarn", yarn}});
    }

    /// "38 yd / 35 m", "38 yd / 35 m of MC, 12 yd / 11 m of CC1".
    [[nodiscard]] std::string yarn_more(materials::Grows way) const {
        std::vector<std::string> parts;
        bool many = false;
        const auto& yarns = more_.yarns;
        for (const materials::Adjustment::OfYarn& yarn : yarns) {
            const std::vector<Length> lengths = materials::printed_figures(
                section_, way == materials::Grows::wider ? yarn.for_width : yarn.for_length, way);
            if (std::all_of(lengths.begin(), lengths.end(),
                            [](Length length) { return length <= Length{}; }))
                continue;
            many = many || lengths.size() > 1;
            const std::string amount = Figures::totals(lengths, {});
            parts.push_back(yarns.size() == 1
                                ? amount
                                : words_.fill("yarn_of_role", {{"yarn", amount},
                                                               {"role", shown_apart(yarn.role)}}));
        }
        const std::string out = base::join(parts, units::number_style().list_mark());
        if (!section_.grid || !many) return out;
        return words_.fill(way == materials::Grows::wider ? "by_length" : "by_width",
                           {{"yarn", out}});
    }

    /// Rows that make an inch or more rarely make one that a ruler shows.
    [[nodiscard]] static std::string inch_or_more(Length side) {
        const auto in = [&](const units::Shown<Length>& unit, Step step) {
            return units::plain_number(Ratio(side / unit.one), step, Rounding::nearest) + " " +
                   std::string(unit.symbol);
        };
        const units::NumberStyle& style = units::number_style();
        const std::string inches = in(units::shown::inches, Step::hundredth);
        const std::string centimetres = in(units::shown::centimetres, Step::tenth);
        if (!style.metric()) return inches;
        if (!style.imperial()) return centimetres;
        return style.metric_leads() ? centimetres + " (" + inches + ")"
                                    : inches + " (" + centimetres + ")";
    }

    const materials::Section& section_;
    const materials::Adjustment& more_;
    const MaterialsWords& words_;
};

}  // namespace

std::vector<std::string> adjust_lines(const materials::Section& section,
                                      const MaterialsWords& words) {
    if (!section.adjust) return {};
    return AdjustLines(section, *section.adjust, words).lines();
}

}  // namespace skeinfall::report
