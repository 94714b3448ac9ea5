#include <utility>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/charts.hpp"
#include "skeinfall/report/detail/html.hpp"
#include "skeinfall/report/detail/make_drawing.hpp"
#include "skeinfall/report/detail/page_data.hpp"
#include "skeinfall/report/detail/page_parts.hpp"
#include "skeinfall/report/detail/work_tables.hpp"
#include "skeinfall/report/page.hpp"
#include "skeinfall/report/picture.hpp"
#include "skeinfall/report/words.hpp"

namespace skeinfall::report {
namespace {

/// A section that is there when the text is not empty, and prints it.
TemplateData some(const std::string& text) {
    return text.empty() ? TemplateData(false) : TemplateData(texts_of({text}));
}

TemplateList data_of(const std::vector<PageTable>& tables) {
    TemplateList out;
    for (const PageTable& table : tables) out.push_back(table_data(table));
    return out;
}

TemplateList data_of(const std::vector<PageRole>& roles) {
    TemplateList out;
    for (const PageRole& role : roles) {
        TemplateData one;
        one.set("name", role.name);
        one.set("several", roles.size() > 1);
        one.set("kind", look_of(role.verdict));
        one.set("verdict", role.verdict_text);
        TemplateList figures;
        for (const auto& [name, value] : role.figures) {
            TemplateData figure;
            figure.set("name", name);
            figure.set("value", value);
            figures.push_back(std::move(figure));
        }
        one.set("figures", figures);
        if (role.skeins.lines.empty())
            one.set("skeins", false);
        else
            one.set("skeins", table_data(role.skeins));
        out.push_back(std::move(one));
    }
    return out;
}

TemplateList data_of(const std::vector<PageGroup>& groups) {
    TemplateList out;
    for (const PageGroup& group : groups) {
        TemplateData one;
        one.set("name", group.name);
        TemplateList rows;
        rows.reserve(group.rows.size());
        for (const PageRow& row : group.rows) {
            TemplateData line;
            line.set("text", row.text);
            line.set("count", some(row.count));
            line.set("told", some(row.told));
            line.set("looks", some(row.told.empty() ? (row.joins() ? "join" : "")
                                   : row.joins()    ? "told join"
                                                    : "told"));
            TemplateList marks;
            for (const PageMark& mark : row.marks) {
                TemplateData text;
                text.set("text", mark.text);
                text.set("weigh", mark.weigh);
                marks.push_back(std::move(text));
            }
            line.set("marks", marks);
            rows.push_back(std::move(line));
        }
        one.set("rows", rows);
        out.push_back(std::move(one));
    }
    return out;
}

std::string no_weighings_words(const MakePage& page) {
    const std::vector<std::string> yarns = yarns_without_weighings(page);
    if (yarns.empty()) return {};
    return " This page takes no weighings of " + base::join(yarns, ", ") +
           ", whose rows are too many for it. \"skeinfall progress\" does.";
}

}  // namespace

std::string page_html(const MakePage& page) {
    const units::WithNumberStyle in_force(page.style.numbers);
    const PageParts parts = parts_of(page);
    const MaterialsDocument document = document_of(page);
    TemplateData data;
    data.set("make", parts.fingerprint);
    data.set("title", parts.title);
    data.set("size", some(parts.size));
    data.set("style", page_style());
    data.set("script", template_text("page.js"));
    data.set("work", work_tables(page));
    data.set("scale_unit", scale_unit(page.joins.request.scale.step));
    data.set("kind", look_of(parts.verdict));
    data.set("verdict", parts.verdict_text);
    data.set("why", some(parts.why));
    data.set("has_next", !parts.next.empty());
    data.set("next", texts_of(parts.next));
    const auto both_widths = [&](const std::string& name, auto picture) {
        data.set(name, inline_svg(picture(PictureWidth::wide), name + "-w"));
        data.set(name + "_narrow", inline_svg(picture(PictureWidth::narrow), name + "-n"));
    };
    both_widths("cover_bar", [&](PictureWidth width) {
        return cover_bar_at(page.project, page.cover, page.rules, PictureFormat::web, width);
    });
    both_widths("make_picture", [&](PictureWidth width) {
        return make_picture_at(page.project, page.need, page.joins, PictureFormat::web, width);
    });
    data.set("roles", data_of(parts.roles));
    data.set("joins_answer", parts.joins_answer);
    std::vector<PageTable> joins;
    for (const PageJoins& one : parts.joins) joins.push_back(one.skeins);
    data.set("join_parts", data_of(joins));
    data.set("has_notes", !parts.notes.empty());
    data.set("notes", texts_of(parts.notes));
    data.set("stops_words", parts.stops_words + no_weighings_words(page));
    data.set("stop_tables", data_of(parts.stops));
    data.set("other_language", page.style.language != "en");
    data.set("language", document.language);
    data.set("materials_heading", document.heading);
    data.set("level", "3");
    put_materials(data, document, "");
    data.set("rows_words", some(parts.rows_words));
    data.set("groups", data_of(parts.rows));
    return rendered("page.html", std::move(data));
}

}  // namespace skeinfall::report
