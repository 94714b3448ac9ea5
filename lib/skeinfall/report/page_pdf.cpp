#include <algorithm>
#include <array>
#include <cstddef>
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

namespace {

/// Said once in the caption: the skein, where it is the same on all lines.
void take_out_skein(PageTable& table) {
    constexpr std::size_t skein = 1;
    const std::string name = table.lines.front()[skein];
    if (std::any_of(table.lines.begin(), table.lines.end(),
                    [&](const auto& line) { return line[skein] != name; }))
        return;
    table.caption += ", " + table.heads[skein] + " " + name;
    table.heads.erase(table.heads.begin() + skein);
    for (auto& line : table.lines) line.erase(line.begin() + skein);
}

/// The same of the piece: "after row 5 of cowl, until row 8" becomes "after row 5, until row 8".
void take_out_piece(PageTable& table) {
    const auto name_of = [](const std::string& place) {
        const std::size_t from = place.find(" of ");
        const std::size_t to = std::min(place.find(", until "), place.size());
        return from < to ? place.substr(from, to - from) : std::string();
    };
    const std::string name = name_of(table.lines.front().front());
    if (name.empty() || std::any_of(table.lines.begin(), table.lines.end(), [&](const auto& line) {
            return name_of(line.front()) != name;
        }))
        return;
    table.caption += ", rows" + name;
    for (auto& line : table.lines) line.front().erase(line.front().find(name), name.size());
}

/// A table of stop weights with the second half of its lines beside the first.
PageTable folded(PageTable table) {
    constexpr std::size_t few = 6;
    if (table.lines.size() <= few) return table;
    take_out_skein(table);
    take_out_piece(table);
    const std::size_t half = (table.lines.size() + 1) / 2;
    PageTable out{table.caption, table.heads, {}};
    out.heads.insert(out.heads.end(), table.heads.begin(), table.heads.end());
    for (std::size_t i = 0; i < half; ++i) {
        out.lines.push_back(table.lines[i]);
        if (i + half < table.lines.size())
            out.lines.back().insert(out.lines.back().end(), table.lines[i + half].begin(),
                                    table.lines[i + half].end());
        else
            out.lines.back().resize(out.heads.size());
    }
    return out;
}

/// All but the rows.
struct Front {
    const PageParts& parts;
    const MaterialsDocument& document;
    const std::string& picture;  ///< PNG
    const std::string& words;
};

/// How to come by with one sheet.
struct Layout {
    bool fold = false;     ///< stop weights in two columns
    double picture = 1.0;  ///< of its size
};

void put_front(Sheet& sheet, const Front& front, const Layout& layout) {
    const PageParts& parts = front.parts;
    sheet.heading(1, parts.size.empty() ? parts.title : parts.title + ", size " + parts.size);
    sheet.heading(2, "Is there enough yarn?");
    sheet.paragraph(parts.verdict_text, true);
    if (!parts.why.empty()) sheet.paragraph(parts.why);
    sheet.bullets(parts.next);
    for (const PageRole& role : parts.roles) {
        std::vector<std::string> figures;
        if (parts.roles.size() > 1) figures.push_back(role.verdict_text);
        for (const auto& [name, value] : role.figures)
            figures.push_back(base::join({name, value}, " "));
        sheet.run_in(role.name, base::join(figures, "; "));
    }
    sheet.picture(front.picture, front.words, layout.picture);
    sheet.heading(2, "Joins");
    sheet.paragraph(parts.joins_answer);
    for (const PageJoins& joins : parts.joins) sheet.table(joins.skeins);
    sheet.bullets(parts.notes);
    sheet.heading(2, "When to stop");
    sheet.paragraph(parts.stops_words);
    for (const PageTable& table : parts.stops) {
        const PageTable two = layout.fold ? folded(table) : table;
        sheet.table(sheet.fits_across(two) ? two : table);
    }
    sheet.heading(2, front.document.heading);
    if (front.document.table) put_sizes(sheet, *front.document.table);
    std::vector<std::pair<std::string, std::string>> blocks;
    for (const MaterialsBlock& block : front.document.blocks)
        blocks.emplace_back(block.title, base::join(block.lines, "; "));
    sheet.run_ins(blocks);
}

/// The roomiest that comes by with one sheet; where none does, the one with short tables.
Layout layout_for(const Front& front, Paper paper) {
    const std::array<Layout, 3> all{{{false, 1.0}, {true, 1.0}, {true, 0.7}}};
    for (const Layout& one : all) {
        Sheet scratch(paper, "");
        put_front(scratch, front, one);
        if (scratch.pages() == 1) return one;
    }
    return all[1];
}

}  // namespace

std::string page_pdf(const MakePage& page, Paper paper) {
    const units::WithNumberStyle in_force(page.style.numbers);
    const PageParts parts = parts_of(page);
    const MaterialsDocument document = document_of(page);
    const std::string picture = make_picture_at(page.project, page.need, page.joins,
                                                PictureFormat::png, PictureWidth::paper);
    const std::string words = in_one_line(make_words(page.project, page.need, page.joins));
    const Front front{parts, document, picture, words};
    Sheet sheet(paper, parts.title);
    put_front(sheet, front, layout_for(front, paper));
    const std::optional<double> rows = height_of(parts.rows, paper);
    if (!rows || *rows > sheet.room()) sheet.turn();
    put_rows(sheet, parts.rows);
    return sheet.finish();
}

}  // namespace skeinfall::report
