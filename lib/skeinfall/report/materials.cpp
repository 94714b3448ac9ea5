#include "skeinfall/report/materials.hpp"

#include <cmath>
#include <functional>
#include <vector>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/words.hpp"
#include "skeinfall/yarn/tools.hpp"

namespace skeinfall::report {
namespace {

using units::Length;
using units::Rounding;
using units::Step;

/// A titled list; what both markups have in common.
struct Block {
    std::string title;
    std::vector<std::string> lines;
};

class Writer {
  public:
    explicit Writer(Markup markup) : markup_(markup) {}

    /// User text, safe to stand in the output.
    [[nodiscard]] std::string safe(const std::string& text) const {
        const std::string shown = base::shown_inert(text);
        if (markup_ == Markup::plain) return shown;
        // Blanks at the start would make code of a list item, or hide a sign from the test below.
        const std::string_view inert = base::trimmed(shown);
        constexpr std::string_view everywhere = "\\`*_[]<>|&~";
        constexpr std::string_view at_the_start = "#+-=";
        std::string out;
        // "1." and "1)" at the start of a line would begin a numbered list.
        const std::size_t after_digits = inert.find_first_not_of("0123456789");
        for (std::size_t i = 0; i < inert.size(); ++i) {
            const char c = inert[i];
            const bool starts_list = (i == 0 && at_the_start.find(c) != std::string_view::npos) ||
                                     (i != 0 && i == after_digits && (c == '.' || c == ')'));
            if (starts_list || everywhere.find(c) != std::string_view::npos) out += '\\';
            out += c;
        }
        return out;
    }

    [[nodiscard]] std::string document(const std::string& title,
                                       const std::vector<Block>& blocks) const {
        const bool markdown = markup_ == Markup::markdown;
        std::string out = markdown ? "# " + title + ": materials\n" : title + ": materials\n";
        for (const Block& block : blocks) {
            if (block.lines.empty()) continue;
            out += markdown ? "\n## " + block.title + "\n\n" : "\n" + block.title + "\n";
            for (const std::string& line : block.lines)
                out += (markdown ? "- " : "  ") + line + "\n";
        }
        return out;
    }

  private:
    Markup markup_;
};

/// Totals of a hundred and more are printed to the next 5.
std::string rounded_total(Length total, const units::Shown<Length>& unit) {
    constexpr double large = 100.0;
    return units::number_text(units::Ratio(total / unit.one),
                              total / unit.one >= large ? Step::five : Step::one, Rounding::up);
}

template <class T>
std::string per_size(const std::vector<T>& values, const std::function<std::string(const T&)>& f) {
    std::vector<std::string> texts;
    texts.reserve(values.size());
    for (const T& value : values) texts.push_back(f(value));
    return bracketed(texts);
}

std::vector<std::string> finished_lines(const materials::Section& section, const Writer& writer) {
    std::vector<std::string> lines;
    for (const materials::FinishedLine& line : section.finished) {
        const auto side = [&](Length project::FinishedSize::*which,
                              const units::Shown<Length>& unit, Step step) {
            return per_size<project::FinishedSize>(
                line.size, [&](const project::FinishedSize& size) {
                    return units::plain_number(units::Ratio(size.*which / unit.one), step,
                                               Rounding::nearest);
                });
        };
        const auto both = [&](Length project::FinishedSize::*which) {
            return side(which, units::shown::inches, Step::quarter) + " in / " +
                   side(which, units::shown::centimetres, Step::one) + " cm";
        };
        const std::string count =
            per_size<long>(line.count, [](const long& n) { return std::to_string(n); });
        lines.push_back((count == "1" ? "" : count + " x ") + writer.safe(line.piece) + ": " +
                        both(&project::FinishedSize::width) + (line.round ? " around" : " wide") +
                        ", " + both(&project::FinishedSize::length) + " long");
    }
    return lines;
}

std::vector<std::string> yarn_lines(const materials::Section& section, const Writer& writer) {
    std::vector<std::string> lines;
    for (const materials::YarnLine& yarn : section.yarns) {
        std::string what = writer.safe(yarn.role) + ": ";
        what += yarn.name.empty() ? "any yarn" : writer.safe(yarn.name);
        if (!yarn.colour.empty()) what += " in " + writer.safe(yarn.colour);
        if (yarn.weight) what += ", class " + text(*yarn.weight);
        if (yarn.fibre.known()) what += ", " + writer.safe(text(yarn.fibre));
        if (yarn.put_up.length)
            what += ", " + writer.safe(yarn.put_up.length->text) + " per " +
                    writer.safe(yarn.put_up.mass->text) + " skein";
        lines.push_back(what);

        std::string total = writer.safe(yarn.role) + " total: ";
        total += per_size<Length>(yarn.total,
                                  [](const Length& length) {
                                      return rounded_total(length, units::shown::yards);
                                  }) +
                 " yd / ";
        total += per_size<Length>(yarn.total,
                                  [](const Length& length) {
                                      return rounded_total(length, units::shown::metres);
                                  }) +
                 " m";
        if (!yarn.skeins.empty()) {
            const std::string count = per_size<long>(
                yarn.skeins, [](const long& skeins) { return std::to_string(skeins); });
            total += "; " + count + (count == "1" ? " skein" : " skeins");
            if (yarn.one_lot && count != "1") total += ", all of one dye lot";
        }
        lines.push_back(total);
        if (yarn.grist)
            lines.push_back(writer.safe(yarn.role) + " may be any" +
                            (yarn.weight ? " class " + std::to_string(yarn.weight->number) : "") +
                            " yarn with about " +
                            units::text(*yarn.grist, units::shown::yards_per_100g, Step::five,
                                        Rounding::nearest) +
                            " (" +
                            units::text(*yarn.grist, units::shown::metres_per_100g, Step::five,
                                        Rounding::nearest) +
                            ")");
    }
    return lines;
}

std::string gauge_line(const materials::Section& section, const Writer& writer) {
    const project::Gauge& gauge = section.gauge;
    const auto plain = [](units::Ratio value) {
        return units::plain_number(value, Step::half, Rounding::nearest);
    };
    const std::string stitches_in = plain(units::Ratio(gauge.stitches / units::shown::per_4in.one));
    const std::string rows_in = plain(units::Ratio(gauge.rows / units::shown::rows_per_4in.one));
    const std::string stitches_cm =
        plain(units::Ratio(gauge.stitches / units::shown::per_10cm.one));
    const std::string rows_cm = plain(units::Ratio(gauge.rows / units::shown::rows_per_10cm.one));
    std::string out = stitches_in + " sts and " + rows_in + " rows";
    if (stitches_in == stitches_cm && rows_in == rows_cm)
        out += " to 4 in / 10 cm";
    else
        out += " to 4 in, " + stitches_cm + " sts and " + rows_cm + " rows to 10 cm";
    if (!gauge.stitch.empty()) out += ", in " + writer.safe(gauge.stitch);
    return out;
}

std::vector<std::string> tool_lines(const project::Gauge& gauge) {
    std::vector<std::string> lines;
    if (gauge.hook)
        lines.push_back("hook " + yarn::hook_text(*gauge.hook) + ", or size needed for gauge");
    if (gauge.needle)
        lines.push_back("needles " + yarn::needle_text(*gauge.needle) +
                        ", or size needed for gauge");
    return lines;
}

std::vector<std::string> method_lines(const materials::Section& section, const Writer& writer) {
    std::vector<std::string> lines;
    for (const materials::YarnLine& yarn : section.yarns)
        lines.push_back(writer.safe(yarn.role) + ": found " + writer.safe(yarn.how));
    lines.push_back(section.margin.value() > 0.0
                        ? "A margin of " +
                              units::percent_text(section.margin, Step::tenth, Rounding::nearest) +
                              " is included; totals are rounded up."
                        : "No margin is included; totals are rounded up.");
    return lines;
}

std::vector<std::string> safe_lines(const std::vector<std::string>& texts, const Writer& writer) {
    std::vector<std::string> lines;
    lines.reserve(texts.size());
    for (const std::string& text : texts) lines.push_back(writer.safe(text));
    return lines;
}

}  // namespace

std::string materials_text(const materials::Section& section, Markup markup) {
    const Writer writer(markup);
    std::vector<Block> blocks;
    if (!section.sizes.empty()) {
        std::vector<std::string> sizes = safe_lines(section.sizes, writer);
        blocks.push_back({"Sizes", {bracketed(sizes)}});
    }
    blocks.push_back({"Finished size", finished_lines(section, writer)});
    blocks.push_back({"Yarn", yarn_lines(section, writer)});
    blocks.push_back(
        {section.craft == project::Craft::crochet ? "Hook" : "Needles", tool_lines(section.gauge)});
    blocks.push_back({"Gauge", {gauge_line(section, writer)}});
    blocks.push_back({"Notions", safe_lines(section.notions, writer)});
    if (section.craft == project::Craft::crochet)
        blocks.push_back({"Terms",
                          {section.terms == project::Terms::us ? "Written in US crochet terms."
                                                               : "Written in UK crochet terms."}});
    if (!section.skill.empty()) blocks.push_back({"Skill", {writer.safe(section.skill)}});
    blocks.push_back({"How the totals were found", method_lines(section, writer)});
    blocks.push_back({"Care", safe_lines(section.care, writer)});
    blocks.push_back({"Cautions", safe_lines(section.cautions, writer)});
    bool shows_class = false;
    for (const materials::YarnLine& yarn : section.yarns)
        shows_class = shows_class || yarn.weight.has_value();
    if (shows_class)
        blocks.push_back({"Credit", {"Yarn classes. " + std::string(yarn::class_credit)}});
    return writer.document(writer.safe(section.title), blocks);
}

}  // namespace skeinfall::report
