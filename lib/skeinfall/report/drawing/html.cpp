#include "skeinfall/report/detail/html.hpp"

#include <algorithm>
#include <stdexcept>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/report/charts.hpp"
#include "skeinfall/report/detail/look.hpp"
#include "skeinfall/report/embedded_templates.hpp"

namespace skeinfall::report {
namespace {

std::string variables(const look::Scheme& scheme) {
    return fmt::format(
        "--paper:{};--card:{};--ink:{};--soft-ink:{};--rule:{};--hair:{};--act:{};"
        "--sure:{};--sure-ink:{};--close:{};--close-ink:{};--want:{};--want-ink:{};"
        "--join:{};--join-ink:{}",
        scheme.paper, scheme.card, scheme.ink, scheme.soft_ink, scheme.rule, scheme.hair,
        scheme.act, scheme.sure, scheme.sure_ink, scheme.close, scheme.close_ink, scheme.want,
        scheme.want_ink, scheme.join, scheme.join_ink);
}

void replace_all(std::string& text, const std::string& from, const std::string& to) {
    std::string out;
    std::size_t begin = 0;
    for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, begin)) {
        out.append(text, begin, at - begin);
        out += to;
        begin = at + from.size();
    }
    out.append(text, begin);
    text = std::move(out);
}

}  // namespace

std::string template_text(std::string_view name) {
    const auto found = std::find_if(embedded_templates.begin(), embedded_templates.end(),
                                    [&](const EmbeddedTemplate& one) { return one.name == name; });
    if (found == embedded_templates.end())
        throw std::out_of_range("no template " + std::string(name));
    return std::string(found->text);
}

std::string page_style() {
    return fmt::format(
        ":root{{{}}}\n@media screen and (prefers-color-scheme:dark){{:root{{{}}}}}\n{}",
        variables(look::light), variables(look::dark), template_text("page.css"));
}

std::string rendered(std::string_view name, TemplateData data) {
    using kainjow::mustache::partial;
    data.set("table", partial([] { return template_text("table.html"); }));
    data.set("materials_part", partial([] { return template_text("materials_part.html"); }));
    kainjow::mustache::mustache page(template_text(name));
    std::string out = page.render(data);
    if (!page.is_valid())
        throw std::logic_error("template " + std::string(name) + ": " + page.error_message());
    return out;
}

std::string inline_svg(std::string svg, const std::string& prefix) {
    replace_all(svg, " id=\"", " id=\"" + prefix);
    replace_all(svg, "url(#", "url(#" + prefix);
    return svg;
}

TemplateList texts_of(const std::vector<std::string>& texts) {
    TemplateList out;
    out.reserve(texts.size());
    for (const std::string& text : texts) out.emplace_back(text);
    return out;
}

void put_materials(TemplateData& data, const MaterialsDocument& document,
                   const std::string& chart) {
    if (document.table) {
        TemplateData table;
        table.set("caption", document.table->caption);
        table.set("corner", document.table->corner);
        table.set("sizes", texts_of(document.table->sizes));
        TemplateList lines;
        for (const MaterialsTable::Row& row : document.table->rows) {
            TemplateData line;
            line.set("name", row.name);
            line.set("cells", texts_of(row.cells));
            lines.push_back(std::move(line));
        }
        table.set("lines", lines);
        data.set("totals", table);
    } else {
        data.set("totals", false);
    }
    if (chart.empty()) {
        data.set("chart", false);
    } else {
        TemplateData picture;
        picture.set("svg", chart);
        picture.set("caption", document.table ? document.table->chart_caption : document.heading);
        data.set("chart", picture);
    }
    TemplateList blocks;
    for (const MaterialsBlock& block : document.blocks) {
        TemplateData one;
        one.set("key", block.key);
        one.set("title", block.title);
        const bool many = block.lines.size() > 1;
        one.set("one", many ? TemplateData(false) : TemplateData(texts_of(block.lines)));
        one.set("many", many);
        one.set("lines", texts_of(block.lines));
        blocks.push_back(std::move(one));
    }
    data.set("blocks", blocks);
}

namespace {

TemplateData materials_data(const materials::Section& section, const Style& style, Chart chart,
                            const std::string& level) {
    const MaterialsDocument document = materials_document(section, style);
    TemplateData data;
    data.set("language", document.language);
    data.set("heading", document.heading);
    data.set("level", level);
    put_materials(data, document,
                  chart == Chart::yes && section.sizes.size() > 1
                      ? inline_svg(grading_chart(section, style, PictureFormat::web), "g-")
                      : std::string());
    return data;
}

}  // namespace

std::string materials_html(const materials::Section& section, const Style& style, Chart chart) {
    TemplateData data = materials_data(section, style, chart, "2");
    data.set("style", page_style());
    return rendered("materials.html", std::move(data));
}

std::string materials_fragment(const materials::Section& section, const Style& style, Chart chart) {
    return rendered("materials_fragment.html", materials_data(section, style, chart, "3"));
}

}  // namespace skeinfall::report
