#include "skeinfall/base/text.hpp"
#include "skeinfall/report/charts.hpp"
#include "skeinfall/report/detail/page_parts.hpp"
#include "skeinfall/report/detail/paper.hpp"
#include "skeinfall/report/page.hpp"
#include "skeinfall/report/picture.hpp"

namespace skeinfall::report {
namespace {

void put_materials(Sheet& sheet, const MaterialsDocument& document, const std::string& chart,
                   int level) {
    if (document.table) {
        PageTable table;
        table.caption = document.table->caption;
        table.heads = {document.table->corner};
        table.heads.insert(table.heads.end(), document.table->sizes.begin(),
                           document.table->sizes.end());
        for (const MaterialsTable::Row& row : document.table->rows) {
            table.lines.push_back({row.name});
            table.lines.back().insert(table.lines.back().end(), row.cells.begin(), row.cells.end());
        }
        constexpr std::size_t most_columns = 10;
        if (table.heads.size() <= most_columns) sheet.table(table);
    }
    if (!chart.empty()) sheet.picture(chart);
    for (const MaterialsBlock& block : document.blocks) {
        sheet.small_heading(level, block.title);
        sheet.bullets(block.lines);
    }
}

}  // namespace

std::string materials_pdf(const materials::Section& section, const Style& style, Paper paper) {
    const MaterialsDocument document = materials_document(section, style);
    Sheet sheet(paper, document.heading);
    sheet.heading(1, document.heading);
    put_materials(sheet, document,
                  section.sizes.size() > 1 ? grading_chart(section, style, PictureFormat::png)
                                           : std::string(),
                  2);
    return sheet.finish();
}

std::string page_pdf(const MakePage& page, Paper paper) {
    const units::WithNumberStyle in_force(page.style.numbers);
    const PageParts parts = parts_of(page);
    Sheet sheet(paper, parts.title);
    sheet.heading(1, parts.size.empty() ? parts.title : parts.title + ", size " + parts.size);
    const std::string bar = cover_bar(page.project, page.cover, page.rules, PictureFormat::png);
    sheet.heading(2, "Is there enough yarn?", sheet.height_of(bar));
    sheet.paragraph(parts.verdict_text, true);
    sheet.picture(bar);
    for (const PageRole& role : parts.roles) {
        sheet.heading(3, role.name);
        if (parts.roles.size() > 1) sheet.paragraph(role.verdict_text, true);
        for (const auto& [name, value] : role.figures)
            sheet.paragraph(base::join({name, value}, ": "));
        if (!role.skeins.lines.empty()) sheet.table(role.skeins);
        sheet.bullets(role.next);
    }
    std::vector<std::string> maps;
    for (const PageJoins& joins : parts.joins)
        maps.push_back(joins_picture(page.project, joins.answer, PictureFormat::png));
    sheet.heading(2, "Joins", maps.empty() ? 0.0 : sheet.height_of(maps.front()));
    sheet.paragraph(parts.joins_answer);
    for (std::size_t i = 0; i < maps.size(); ++i) {
        sheet.picture(maps[i]);
        sheet.table(parts.joins[i].skeins);
    }
    sheet.bullets(parts.notes);
    sheet.heading(2, "When to stop");
    sheet.paragraph(parts.stops_words);
    for (const PageTable& table : parts.stops) sheet.table(table);
    const MaterialsDocument document = document_of(page);
    sheet.heading(2, document.heading);
    put_materials(sheet, document, "", 3);
    sheet.heading(2, "Rows");
    for (const PageGroup& group : parts.rows) sheet.checklist(group);
    return sheet.finish();
}

}  // namespace skeinfall::report
