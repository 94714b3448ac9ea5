#include "skeinfall/report/materials.hpp"

#include <algorithm>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/detail/figures.hpp"
#include "skeinfall/report/detail/markdown.hpp"
#include "skeinfall/report/detail/materials_blocks.hpp"
#include "skeinfall/yarn/terms.hpp"
#include "skeinfall/yarn/tools.hpp"

namespace skeinfall::report {
namespace {

using materials::Section;
using materials::YarnLine;
using units::Length;
using units::Ratio;
using units::Rounding;
using units::Step;

class Blocks {
  public:
    Blocks(const Section& section, const Style& style, const MaterialsWords& words)
        : section_(section), style_(style), words_(words), figures_(words) {}

    [[nodiscard]] MaterialsDocument document() {
        MaterialsDocument out;
        out.language = style_.language;
        out.title = shown_apart(section_.title);
        out.heading = words_.fill("heading", {{"title", out.title}});
        if (!section_.sizes.empty()) add("sizes", {figures_.sizes(shown(section_.sizes))});
        add("finished", finished());
        add("yarn", yarns());
        add("colours", colours());
        add(section_.craft == project::Craft::crochet ? "hook" : "needles", tools());
        add("gauge", {gauge()});
        add("notions", shown(section_.notions));
        const std::string craft = section_.craft == project::Craft::crochet ? "crochet" : "knit";
        add("terms", {words_(craft + (terms() == project::Terms::us ? "_in_us" : "_in_uk"))});
        if (!section_.skill.empty()) add("skill", {shown_apart(section_.skill)});
        add("method", methods());
        add("care", shown(section_.care));
        add("cautions", cautions());
        if (const std::string key = credit_key(); !key.empty())
            add("credit", {words_.fill(key, {{"credit", std::string(yarn::class_credit)}})});
        out.blocks = std::move(blocks_);
        if (section_.sizes.size() > 1) out.table = table();
        return out;
    }

  private:
    void add(const std::string& key, std::vector<std::string> lines) {
        if (!lines.empty()) blocks_.push_back({key, words_(key), std::move(lines)});
    }

    /// Of the line that credits the labels of a standard which this section prints; empty when it
    /// prints none.
    [[nodiscard]] std::string credit_key() const {
        const bool classes =
            std::any_of(section_.yarns.begin(), section_.yarns.end(),
                        [](const YarnLine& yarn) { return yarn.weight.has_value(); });
        const project::Gauge& gauge = section_.gauge;
        const bool tools = (gauge.hook && yarn::us_hook_label(*gauge.hook)) ||
                           (gauge.needle && yarn::us_needle_label(*gauge.needle));
        if (classes) return tools ? "credit_line_both" : "credit_line";
        return tools ? "credit_line_tools" : "";
    }

    static std::vector<std::string> shown(const std::vector<std::string>& texts) {
        std::vector<std::string> out;
        out.reserve(texts.size());
        for (const std::string& text : texts) out.push_back(shown_apart(text));
        return out;
    }

    [[nodiscard]] project::Terms terms() const { return style_.terms.value_or(section_.terms); }

    [[nodiscard]] std::vector<std::string> finished() const {
        std::vector<std::string> lines;
        for (const materials::FinishedLine& line : section_.finished) {
            std::vector<Length> widths;
            std::vector<Length> lengths;
            std::vector<std::string> counts;
            for (std::size_t size = 0; size < line.size.size(); ++size) {
                widths.push_back(line.size[size].width);
                lengths.push_back(line.size[size].length);
                counts.push_back(std::to_string(line.count[size]));
            }
            const std::string count = figures_.sizes(counts);
            std::string piece = shown_apart(line.piece);
            if (count != "1") piece = words_.fill("times", {{"count", count}, {"piece", piece}});
            lines.push_back(words_.fill(line.centre  ? "finished_across"
                                        : line.round ? "finished_around"
                                                     : "finished_wide",
                                        {{"piece", piece},
                                         {"width", figures_.finished(widths)},
                                         {"length", figures_.finished(lengths)}}));
        }
        return lines;
    }

    [[nodiscard]] std::string what(const YarnLine& yarn) const {
        std::string name = yarn.name.empty() ? words_("any_yarn") : shown_apart(yarn.name);
        if (!yarn.colour.empty())
            name = words_.fill("in_colour", {{"yarn", name}, {"colour", shown_apart(yarn.colour)}});
        std::vector<std::string> parts{name};
        if (yarn.weight) parts.push_back(words_.fill("class", {{"class", text(*yarn.weight)}}));
        if (yarn.fibre.known()) parts.push_back(shown_apart(text(yarn.fibre)));
        if (yarn.put_up.length)
            parts.push_back(words_.fill("put_up", {{"length", figures_.label(*yarn.put_up.length)},
                                                   {"mass", figures_.label(*yarn.put_up.mass)}}));
        if (!yarn.held_with.empty())
            parts.push_back(words_.fill("held_with", {{"role", shown_apart(yarn.held_with)}}));
        return base::join(parts, ", ");
    }

    [[nodiscard]] std::string total(const YarnLine& yarn) const {
        std::string out = figures_.totals(yarn.total, yarn.skeins_hold);
        if (yarn.skeins.empty()) return out;
        std::vector<std::string> counts;
        for (const long count : yarn.skeins) counts.push_back(std::to_string(count));
        const std::string count = figures_.sizes(counts);
        out += "; " + words_.fill(count == "1" ? "skein_one" : "skein_many", {{"count", count}});
        if (yarn.one_lot && count != "1") out += ", " + words_("one_lot");
        return out;
    }

    [[nodiscard]] std::vector<std::string> yarns() const {
        std::vector<std::string> lines;
        for (const YarnLine& yarn : section_.yarns) {
            const std::string role = shown_apart(yarn.role);
            lines.push_back(words_.fill("yarn_line", {{"role", role}, {"what", what(yarn)}}));
            lines.push_back(words_.fill("total_line", {{"role", role}, {"total", total(yarn)}}));
            if (!yarn.grist) continue;
            const std::string grist = figures_.grist(*yarn.grist);
            lines.push_back(
                yarn.weight
                    ? words_.fill("instead_class", {{"role", role},
                                                    {"class", std::to_string(yarn.weight->number)},
                                                    {"grist", grist}})
                    : words_.fill("instead_any", {{"role", role}, {"grist", grist}}));
        }
        return lines;
    }

    /// MC and CC once more by colour, where there is more than one to keep apart.
    [[nodiscard]] std::vector<std::string> colours() const {
        std::vector<std::string> lines;
        for (const YarnLine& yarn : section_.yarns)
            if (!yarn.colour.empty())
                lines.push_back(words_.fill(
                    "colours_line",
                    {{"role", shown_apart(yarn.role)}, {"colour", shown_apart(yarn.colour)}}));
        if (lines.size() < 2) lines.clear();
        return lines;
    }

    [[nodiscard]] std::vector<std::string> tools() const {
        std::vector<std::string> lines;
        if (section_.gauge.hook)
            lines.push_back(
                words_.fill("hook_line", {{"size", yarn::hook_text(*section_.gauge.hook)}}));
        if (section_.gauge.needle)
            lines.push_back(
                words_.fill("needles_line", {{"size", figures_.needle(*section_.gauge.needle)}}));
        return lines;
    }

    [[nodiscard]] std::string gauge() const {
        const bool rounds =
            !section_.finished.empty() &&
            std::all_of(section_.finished.begin(), section_.finished.end(),
                        [](const materials::FinishedLine& line) { return line.round; });
        std::string out = figures_.gauge(section_.gauge, rounds);
        if (section_.gauge.stitch.empty()) return out;
        const std::string stitch = stitch_in(section_.gauge.stitch, section_.terms, terms());
        return out + ", " + words_.fill("gauge_in", {{"stitch", shown_apart(stitch)}});
    }

    [[nodiscard]] std::string method(const YarnLine& yarn) const {
        const std::string role = shown_apart(yarn.role);
        const auto words = [&](const char* key) { return words_.fill(key, {{"role", role}}); };
        switch (yarn.basis) {
            case materials::Basis::swatch:
                return words("from_swatch");
            case materials::Basis::stated_rate:
                return words("from_rate");
            case materials::Basis::stated_total:
                return words("from_total");
            case materials::Basis::whole_skeins:
                return words("from_skeins");
            case materials::Basis::estimate:
                return words("from_estimate");
            case materials::Basis::testers:
                break;
        }
        const materials::TesterSummary& testers = yarn.testers;
        return words_.counted(
            yarn.for_most ? "from_testers" : "from_testers_middle",
            static_cast<long>(testers.taken.size()),
            {{"role", role},
             {"least", units::percent_text(testers.least, Step::one, Rounding::nearest)},
             {"most", units::percent_text(testers.most, Step::one, Rounding::nearest)},
             {"bound", units::percent_text(testers.bound, Step::one, Rounding::up)},
             {"share", units::percent_text(testers.share.value, Step::one, Rounding::down)}});
    }

    [[nodiscard]] std::vector<std::string> methods() const {
        std::vector<std::string> lines;
        for (const YarnLine& yarn : section_.yarns) {
            lines.push_back(method(yarn));
            if (!yarn.testers.left_out.empty())
                lines.push_back(words_.counted("testers_left_out",
                                               static_cast<long>(yarn.testers.left_out.size()),
                                               {{"role", shown_apart(yarn.role)}}));
            if (!yarn.testers.far_off.empty())
                lines.push_back(words_.counted("testers_far_off",
                                               static_cast<long>(yarn.testers.far_off.size()),
                                               {{"role", shown_apart(yarn.role)}}));
        }
        const auto is_for_most = [](const YarnLine& yarn) { return yarn.for_most; };
        const auto& yarns = section_.yarns;
        if (section_.within && std::any_of(yarns.begin(), yarns.end(), is_for_most))
            lines.push_back(
                words_.fill("within", {{"share", units::percent_text(*section_.within, Step::tenth,
                                                                     Rounding::nearest)}}));
        if (!yarns.empty() && std::all_of(yarns.begin(), yarns.end(), is_for_most)) return lines;
        lines.push_back(section_.margin.value() > 0.0
                            ? words_.fill("margin", {{"margin", units::percent_text(
                                                                    section_.margin, Step::tenth,
                                                                    Rounding::nearest)}})
                            : words_("no_margin"));
        return lines;
    }

    [[nodiscard]] std::vector<std::string> cautions() const {
        std::vector<std::string> lines;
        for (const materials::CautionLine& caution : section_.cautions)
            lines.push_back(caution_words(caution, words_));
        return lines;
    }

    [[nodiscard]] MaterialsTable table() const {
        MaterialsTable out;
        out.caption = words_("table_caption");
        out.chart_caption = words_("chart_caption");
        out.corner = words_("size");
        out.sizes = shown(section_.sizes);
        for (const YarnLine& yarn : section_.yarns) {
            const auto row = [&](const char* key, const auto& values, const auto& cell) {
                MaterialsTable::Row line;
                line.name = words_.fill(key, {{"role", shown_apart(yarn.role)}});
                for (std::size_t i = 0; i < values.size(); ++i)
                    line.cells.push_back(cell(values[i], i));
                out.rows.push_back(std::move(line));
            };
            const auto in = [&yarn](const units::Shown<Length>& unit) {
                return [&unit, &yarn](Length total, std::size_t size) {
                    return total_number(total, unit, held_by(yarn.skeins_hold, size));
                };
            };
            const units::NumberStyle& style = units::number_style();
            if (style.metric() && style.metres_first)
                row("table_metres", yarn.total, in(units::shown::metres));
            if (style.imperial()) row("table_yards", yarn.total, in(units::shown::yards));
            if (style.metric() && !style.metres_first)
                row("table_metres", yarn.total, in(units::shown::metres));
            if (!yarn.skeins.empty())
                row("table_skeins", yarn.skeins,
                    [](long count, std::size_t) { return std::to_string(count); });
        }
        return out;
    }

    const Section& section_;
    const Style& style_;
    const MaterialsWords& words_;
    Figures figures_;
    std::vector<MaterialsBlock> blocks_;
};

}  // namespace

std::string caution_words(const materials::CautionLine& caution, const MaterialsWords& words) {
    using materials::Caution;
    switch (caution.caution) {
        case Caution::melts:
            return words.fill("melts", {{"fibres", shown_apart(base::join(caution.fibres, ", "))}});
        case Caution::known_content:
            return words("known_content");
        case Caution::heat_passes:
            return words("heat_passes");
        case Caution::infant_cords:
            return words("infant_cords");
        case Caution::infant_sleep:
            return words("infant_sleep");
        case Caution::infant_skin:
            return words("infant_skin");
        case Caution::child_cords:
            return words("child_cords");
        case Caution::avoided:
            return words.fill("avoided",
                              {{"fibres", shown_apart(base::join(caution.fibres, ", "))}});
        case Caution::allergy:
            break;
    }
    return words("allergy");
}

std::string caution_text(const materials::CautionLine& caution, const std::string& language) {
    return caution_words(caution, MaterialsWords(language));
}

std::string stitch_in(const std::string& written, project::Terms from, project::Terms to) {
    if (from == to) return written;
    const auto naming = [](project::Terms terms) {
        return terms == project::Terms::us ? yarn::Naming::us : yarn::Naming::uk;
    };
    const std::string asked = std::string(yarn::text(naming(from))) + " " + written;
    std::vector<yarn::Term> readings = yarn::term_readings(asked);
    // "stockinette" for "stockinette stitch".
    if (readings.empty()) readings = yarn::term_readings(asked + " stitch");
    if (readings.size() != 1) return written;
    const yarn::TermName& name = readings.front().in(naming(to));
    const bool short_form =
        base::same_word(written, readings.front().in(naming(from)).abbreviation);
    return short_form && !name.abbreviation.empty() ? name.abbreviation : name.name;
}

MaterialsDocument document_with(const Section& section, const Style& style,
                                const MaterialsWords& words) {
    const units::WithNumberStyle in_force(style.numbers);
    return Blocks(section, style, words).document();
}

MaterialsDocument materials_document(const Section& section, const Style& style) {
    return document_with(section, style,
                         MaterialsWords(style.language, style.terms.value_or(section.terms)));
}

std::string materials_text(const Section& section, Markup markup, const Style& style) {
    const MaterialsDocument document = materials_document(section, style);
    const bool markdown = markup == Markup::markdown;
    const auto safe = [&](const std::string& text) {
        return markdown ? markdown_text(text) : text;
    };
    std::string out = (markdown ? "# " : "") + safe(document.heading) + "\n";
    for (const MaterialsBlock& block : document.blocks) {
        out += markdown ? "\n## " + safe(block.title) + "\n\n" : "\n" + block.title + "\n";
        for (const std::string& line : block.lines)
            out += (markdown ? "- " : "  ") + safe(line) + "\n";
    }
    return out;
}

}  // namespace skeinfall::report
