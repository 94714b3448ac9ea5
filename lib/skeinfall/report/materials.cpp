#include "skeinfall/report/materials.hpp"

#include <algorithm>
#include <cstdint>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/detail/adjust_words.hpp"
#include "skeinfall/report/detail/figures.hpp"
#include "skeinfall/report/detail/markdown.hpp"
#include "skeinfall/report/detail/materials_blocks.hpp"
#include "skeinfall/units/parse.hpp"
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
        if (section_.grid)
            add("sizes", sizes_of_grid());
        else if (!section_.sizes.empty())
            add("sizes", {figures_.sizes(shown(section_.sizes))});
        add("finished", finished());
        add("yarn", yarns());
        if (section_.grid) add("by_size", by_size());
        if (gauge_counted()) add("adjust", adjust_lines(section_, words_));
        add("colours", colours());
        add(section_.craft == project::Craft::crochet ? "hook" : "needles", tools());
        add("gauge", gauge());
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
        if (section_.sizes.size() > 1) out.table = section_.grid ? grid_table() : table();
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
        const bool tools = us_tools() && ((gauge.hook && yarn::us_hook_label(*gauge.hook)) ||
                                          (gauge.needle && yarn::us_needle_label(*gauge.needle)));
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

    /// Whether tools bear their US labels: nobody asks for them in UK terms or in metres alone.
    [[nodiscard]] bool us_tools() const {
        return terms() == project::Terms::us && units::number_style().imperial();
    }

    [[nodiscard]] std::vector<std::string> finished() const {
        std::vector<std::string> lines;
        for (const materials::FinishedLine& line : section_.finished) {
            std::vector<Length> widths;
            std::vector<Length> lengths;
            std::vector<std::string> counts;
            for (std::size_t size = 0; size < line.size.size(); ++size) {
                if (!section_.grid || size % lengths_of_grid() == 0)
                    widths.push_back(line.size[size].width);
                if (!section_.grid || size < lengths_of_grid())
                    lengths.push_back(line.size[size].length);
                counts.push_back(std::to_string(line.count[size]));
            }
            const std::string count = figures_.sizes(counts);
            std::string piece = shown_apart(line.piece);
            if (count != "1") piece = words_.fill("times", {{"count", count}, {"piece", piece}});
            if (line.joined) piece = words_.fill("all_joined", {{"piece", piece}});
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
        if (yarn.strands > 1)
            parts.push_back(words_.fill("strands", {{"count", std::to_string(yarn.strands)}}));
        return base::join(parts, ", ");
    }

    // In a grid size w x lengths + l is width w and length l.
    [[nodiscard]] std::size_t lengths_of_grid() const {
        return std::max<std::size_t>(1, section_.grid->lengths.size());
    }
    [[nodiscard]] std::size_t widths_of_grid() const {
        return std::max<std::size_t>(1, section_.grid->widths.size());
    }

    [[nodiscard]] std::string grid_sizes() const {
        const project::SizeGrid& grid = *section_.grid;
        if (grid.widths.empty() || grid.lengths.empty())
            return figures_.sizes(shown(section_.sizes));
        return words_.fill("sizes_grid", {{"widths", figures_.sizes(shown(grid.widths))},
                                          {"lengths", figures_.sizes(shown(grid.lengths))}});
    }

    [[nodiscard]] std::vector<std::string> sizes_of_grid() const {
        std::vector<std::string> out{grid_sizes()};
        const std::vector<Length> widths = in_other_units(section_.grid->widths);
        const std::vector<Length> lengths = in_other_units(section_.grid->lengths);
        if (!widths.empty() && !lengths.empty())
            out.push_back(words_.fill("sizes_measured", {{"widths", figures_.finished(widths)},
                                                         {"lengths", figures_.finished(lengths)}}));
        return out;
    }

    /// Names that are lengths in units which the section does not have; nothing where one is not.
    static std::vector<Length> in_other_units(const std::vector<std::string>& names) {
        const units::NumberStyle& style = units::number_style();
        std::vector<Length> out;
        if (style.metric() && style.imperial()) return out;
        for (const std::string& name : names) {
            const auto length = units::parse_length(name);
            const bool in_metres = base::lower(name).find("m") != std::string::npos;
            if (!length || in_metres == style.metric()) return {};
            out.push_back(*length);
        }
        return out;
    }

    /// The yarn of one length over all widths.
    [[nodiscard]] YarnLine at_length(const YarnLine& yarn, std::size_t length) const {
        YarnLine out = yarn;
        out.total.clear();
        out.skeins.clear();
        out.skeins_hold.clear();
        for (std::size_t width = 0; width < widths_of_grid(); ++width) {
            const std::size_t size = width * lengths_of_grid() + length;
            out.total.push_back(yarn.total[size]);
            if (size < yarn.skeins.size()) out.skeins.push_back(yarn.skeins[size]);
            if (size < yarn.skeins_hold.size()) out.skeins_hold.push_back(yarn.skeins_hold[size]);
        }
        return out;
    }

    /// A line a length; the figures of a line are the widths'.
    [[nodiscard]] std::vector<std::string> by_size() const {
        const project::SizeGrid& grid = *section_.grid;
        std::vector<std::string> lines;
        if (grid.widths.empty() || grid.lengths.empty()) return lines;
        if (grid.widths.size() > 1)
            lines.push_back(
                words_.fill("by_size_order", {{"widths", figures_.sizes(shown(grid.widths))}}));
        for (const YarnLine& yarn : section_.yarns)
            for (std::size_t length = 0; length < grid.lengths.size(); ++length)
                lines.push_back(
                    words_.fill("by_size_line", {{"role", shown_apart(yarn.role)},
                                                 {"length", shown_apart(grid.lengths[length])},
                                                 {"total", total(at_length(yarn, length))}}));
        return lines;
    }

    [[nodiscard]] std::string total(const YarnLine& yarn) const {
        std::string out = figures_.totals(yarn.total, yarn.skeins_hold);
        if (yarn.skeins.empty()) return out;
        std::vector<std::string> counts;
        for (const std::int64_t count : yarn.skeins) counts.push_back(std::to_string(count));
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
            if (section_.grid && !by_size().empty()) {
                const auto [least, most] =
                    std::minmax_element(yarn.total.begin(), yarn.total.end());
                lines.push_back(
                    words_.fill("total_grid", {{"role", role},
                                               {"least", figures_.totals({*least}, {})},
                                               {"most", figures_.totals({*most}, {})}}));
            } else {
                lines.push_back(
                    words_.fill("total_line", {{"role", role}, {"total", total(yarn)}}));
            }
            if (!yarn.runs.empty()) lines.push_back(changes(yarn));
            if (!yarn.begins_with.empty())
                lines.push_back(words_.fill(
                    "begins_with", {{"role", role}, {"colour", shown_apart(yarn.begins_with)}}));
            if (!yarn.grist) continue;
            const std::string grist = figures_.grist(*yarn.grist);
            const std::string instead =
                yarn.weight
                    ? words_.fill("instead_class", {{"role", role},
                                                    {"class", std::to_string(yarn.weight->number)},
                                                    {"grist", grist}})
                    : words_.fill("instead_any", {{"role", role}, {"grist", grist}});
            lines.push_back(yarn.avoid.empty()
                                ? instead
                                : words_.fill("instead_without",
                                              {{"instead", instead},
                                               {"fibres", base::join(shown(yarn.avoid), ", ")}}));
        }
        return lines;
    }

    /// "MC changes its colour: rust 6.6 yd / 6 m, sand 3.3 yd / 3 m".
    [[nodiscard]] std::string changes(const YarnLine& yarn) const {
        std::vector<std::string> runs;
        for (const project::ColourRun& run : yarn.runs)
            runs.push_back(words_.fill(
                "run", {{"colour", shown_apart(run.colour)},
                        {"length", units::yarn_text(run.length, Step::tenth, Rounding::nearest)}}));
        return words_.fill("changes_colour",
                           {{"role", shown_apart(yarn.role)},
                            {"runs", base::join(runs, units::number_style().list_mark())}});
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
            lines.push_back(words_.fill(
                "hook_line", {{"size", Figures::hook(*section_.gauge.hook, us_tools())}}));
        if (section_.gauge.needle)
            lines.push_back(words_.fill(
                "needles_line", {{"size", figures_.needle(*section_.gauge.needle, us_tools(),
                                                          units::number_style().imperial() ||
                                                              terms() == project::Terms::uk)}}));
        return lines;
    }

    /// A gauge that nobody counted is none to publish.
    [[nodiscard]] bool gauge_counted() const {
        return !section_.gauge.laid_out && !section_.gauge.usual &&
               section_.gauge.stitches.value() > 0.0;
    }

    [[nodiscard]] std::vector<std::string> gauge() const {
        if (!gauge_counted()) return {};
        const bool rounds = section_.in_rounds;
        std::vector<std::string> out{figures_.gauge(section_.gauge, rounds)};
        if (!section_.gauge.stitch.empty()) {
            const std::string stitch = stitch_in(section_.gauge.stitch, section_.terms, terms());
            out[0] += ", " + words_.fill("gauge_in", {{"stitch", shown_apart(stitch)}});
        }
        std::vector<std::string> together;
        for (const YarnLine& yarn : section_.yarns)
            if (!yarn.held_with.empty()) {
                if (std::find(together.begin(), together.end(), yarn.held_with) == together.end())
                    together.push_back(yarn.held_with);
                together.push_back(yarn.role);
            }
        if (!together.empty())
            out[0] +=
                ", " + words_.fill("gauge_held", {{"roles", base::join(shown(together), ", ")}});
        for (const YarnLine& yarn : section_.yarns)
            if (yarn.strands > 1)
                out[0] +=
                    ", " + words_.fill("gauge_strands", {{"role", shown_apart(yarn.role)},
                                                         {"count", std::to_string(yarn.strands)}});
        if (section_.gauge.unwashed_stitches || section_.gauge.unwashed_rows) {
            project::Gauge worked = section_.gauge;
            worked.stitches = worked.unwashed_stitches.value_or(worked.stitches);
            worked.rows = worked.unwashed_rows.value_or(worked.rows);
            out.push_back(
                words_.fill("gauge_unwashed", {{"gauge", figures_.gauge(worked, rounds)}}));
        }
        if (section_.own_gauge)
            out.push_back(
                words_.fill("gauge_own", {{"gauge", figures_.gauge(*section_.own_gauge, rounds)}}));
        return out;
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
            case materials::Basis::own_make:
                return words("from_own_make");
            case materials::Basis::whole_skeins:
                return words("from_skeins");
            case materials::Basis::estimate:
                return words("from_estimate");
            case materials::Basis::testers:
                break;
        }
        const need::TesterSummary& testers = yarn.testers;
        return words_.counted(
            yarn.for_most ? "from_testers" : "from_testers_middle",
            static_cast<std::int64_t>(testers.taken.size()),
            {{"role", role},
             {"share", units::percent_text(testers.share.value, Step::one, Rounding::down)}});
    }

    [[nodiscard]] std::vector<std::string> methods() const {
        std::vector<std::string> lines;
        for (const YarnLine& yarn : section_.yarns) lines.push_back(method(yarn));
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

    /// Of a grid: a column a width, a row a length.
    [[nodiscard]] MaterialsTable grid_table() const {
        const project::SizeGrid& grid = *section_.grid;
        if (grid.widths.empty() || grid.lengths.empty()) return table();
        MaterialsTable out;
        for (std::size_t length = 0; length < grid.lengths.size(); ++length) {
            std::vector<YarnLine> yarns;
            for (const YarnLine& yarn : section_.yarns) yarns.push_back(at_length(yarn, length));
            MaterialsTable part = table_of(yarns, grid.widths);
            for (MaterialsTable::Row& row : part.rows)
                row.name = words_.fill(
                    "table_of_length",
                    {{"name", row.name}, {"length", shown_apart(grid.lengths[length])}});
            if (length == 0)
                out = std::move(part);
            else
                out.rows.insert(out.rows.end(), part.rows.begin(), part.rows.end());
        }
        // A yarn and a unit at a time, its lengths one below the other.
        const std::size_t each = out.rows.size() / grid.lengths.size();
        std::vector<MaterialsTable::Row> sorted;
        for (std::size_t row = 0; row < each; ++row)
            for (std::size_t length = 0; length < grid.lengths.size(); ++length)
                sorted.push_back(std::move(out.rows[length * each + row]));
        out.rows = std::move(sorted);
        return out;
    }

    [[nodiscard]] MaterialsTable table() const { return table_of(section_.yarns, section_.sizes); }

    [[nodiscard]] MaterialsTable table_of(const std::vector<YarnLine>& yarns,
                                          const std::vector<std::string>& sizes) const {
        MaterialsTable out;
        out.caption = words_("table_caption");
        out.chart_caption = words_("chart_caption");
        out.corner = words_("size");
        out.sizes = shown(sizes);
        for (const YarnLine& yarn : yarns) {
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
                    [](std::int64_t count, std::size_t) { return std::to_string(count); });
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

std::vector<std::string> designers_notes(const Section& section) {
    const MaterialsWords words("en", section.terms);
    std::vector<std::string> out;
    for (const YarnLine& yarn : section.yarns) {
        const auto add = [&](const char* key, std::size_t count) {
            if (count > 0)
                out.push_back(words.counted(key, static_cast<std::int64_t>(count),
                                            {{"role", shown_apart(yarn.role)}}));
        };
        add("testers_left_out", yarn.testers.left_out.size());
        add("testers_far_off", yarn.testers.far_off.size());
    }
    return out;
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
