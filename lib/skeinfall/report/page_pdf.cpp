#include <algorithm>
#include <optional>
#include <utility>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/charts.hpp"
#include "skeinfall/report/detail/make_drawing.hpp"
#include "skeinfall/report/detail/page_parts.hpp"
#include "skeinfall/report/detail/paper.hpp"
#include "skeinfall/report/page.hpp"
#include "skeinfall/report/picture.hpp"

namespace skeinfall::report {
namespace {

/// All sizes of a table, as many to a line as a page takes.
void put_sizes(Sheet& sheet, const MaterialsTable& sizes) {
    constexpr std::size_t a_line = 8;
    for (std::size_t from = 0; from < sizes.sizes.size(); from += a_line) {
        const auto part = [&](const std::string& first, const std::vector<std::string>& cells) {
            std::vector<std::string> out{first};
            for (std::size_t i = from; i < std::min(cells.size(), from + a_line); ++i)
                out.push_back(cells[i]);
            return out;
        };
        PageTable table;
        table.caption = sizes.caption;
        if (sizes.sizes.size() > a_line)
            table.caption += ", " + sizes.sizes[from] + " - " +
                             sizes.sizes[std::min(sizes.sizes.size(), from + a_line) - 1];
        table.heads = part(sizes.corner, sizes.sizes);
        for (const MaterialsTable::Row& row : sizes.rows)
            table.lines.push_back(part(row.name, row.cells));
        sheet.table(table);
    }
}

/// Picture words are lines; a reader hears one text.
std::string in_one_line(std::string words) {
    std::replace(words.begin(), words.end(), '\n', ' ');
    return words;
}

void put_rows(Sheet& sheet, const std::vector<PageGroup>& rows) {
    sheet.heading(2, "Rows");
    for (const PageGroup& group : rows) sheet.checklist(group);
}

/// What the rows take on one page; nothing when they need more.
std::optional<double> height_of(const std::vector<PageGroup>& rows, Paper paper) {
    Sheet scratch(paper, "");
    const double all = scratch.room();
    put_rows(scratch, rows);
    return scratch.pages() == 1 ? std::optional(all - scratch.room()) : std::nullopt;
}

}  // namespace

std::string materials_pdf(const materials::Section& section, const Style& style, Paper paper,
                          Chart chart) {
    const units::WithNumberStyle in_force(style.numbers);
    const MaterialsDocument document = materials_document(section, style);
    Sheet sheet(paper, document.heading, document.language);
    sheet.heading(1, document.heading);
    if (document.table) {
        put_sizes(sheet, *document.table);
        if (chart == Chart::yes)
            sheet.picture(grading_chart(section, style, PictureFormat::png),
                          in_one_line(grading_words(section, style)));
    }
    for (const MaterialsBlock& block : document.blocks) {
        sheet.small_heading(2, block.title);
        sheet.bullets(block.lines);
    }
    return sheet.finish();
}

std::string page_pdf(const MakePage& page, Paper paper) {
    const units::WithNumberStyle in_force(page.style.numbers);
    const PageParts parts = parts_of(page);
    Sheet sheet(paper, parts.title);
    sheet.heading(1, parts.size.empty() ? parts.title : parts.title + ", size " + parts.size);
    sheet.heading(2, "Is there enough yarn?");
    sheet.paragraph(parts.verdict_text, true);
    for (const PageRole& role : parts.roles) {
        std::vector<std::string> figures;
        if (parts.roles.size() > 1) figures.push_back(role.verdict_text);
        for (const auto& [name, value] : role.figures)
            figures.push_back(base::join({name, value}, " "));
        sheet.run_in(role.name, base::join(figures, "; "));
        for (const std::string& next : role.next) sheet.run_in("", next);
    }
    sheet.picture(make_picture_at(page.project, page.need, page.joins, PictureFormat::png,
                                  PictureWidth::paper),
                  in_one_line(make_words(page.project, page.need, page.joins)));
    sheet.heading(2, "Joins");
    sheet.paragraph(parts.joins_answer);
    for (const PageJoins& joins : parts.joins) sheet.table(joins.skeins);
    sheet.bullets(parts.notes);
    sheet.heading(2, "When to stop");
    sheet.paragraph(parts.stops_words);
    for (const PageTable& table : parts.stops) sheet.table(table);
    const MaterialsDocument document = document_of(page);
    sheet.heading(2, document.heading);
    if (document.table) put_sizes(sheet, *document.table);
    std::vector<std::pair<std::string, std::string>> blocks;
    for (const MaterialsBlock& block : document.blocks)
        blocks.emplace_back(block.title, base::join(block.lines, "; "));
    sheet.run_ins(blocks);
    const std::optional<double> rows = height_of(parts.rows, paper);
    if (!rows || *rows > sheet.room()) sheet.turn();
    put_rows(sheet, parts.rows);
    return sheet.finish();
}

}  // namespace skeinfall::report
