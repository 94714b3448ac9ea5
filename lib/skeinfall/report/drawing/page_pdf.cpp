#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <string_view>
#include <utility>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/charts.hpp"
#include "skeinfall/report/detail/figures.hpp"
#include "skeinfall/report/detail/make_drawing.hpp"
#include "skeinfall/report/detail/offer_words.hpp"
#include "skeinfall/report/detail/page_parts.hpp"
#include "skeinfall/report/detail/paper.hpp"
#include "skeinfall/report/makers_page.hpp"
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
        table.figures = true;
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

void put_rows(Sheet& sheet, const PageParts& parts) {
    sheet.heading(2, "Rows");
    if (!parts.rows_words.empty()) sheet.paragraph(parts.rows_words);
    for (const PageGroup& group : parts.rows) {
        if (sheet.full()) return;
        sheet.checklist(group);
    }
}

/// The columns of a table, as many at a time as fit across; the first stands before each lot.
void put_wide(Sheet& sheet, const PageTable& table) {
    std::size_t from = 1;
    while (from < table.heads.size()) {
        std::size_t count = table.heads.size() - from;
        PageTable part;
        for (;; --count) {
            const auto cut = [&](const std::vector<std::string>& cells) {
                std::vector<std::string> out{cells.front()};
                for (std::size_t i = from; i < from + count; ++i) out.push_back(cells[i]);
                return out;
            };
            part = {table.caption, cut(table.heads), {}};
            for (const auto& line : table.lines) part.lines.push_back(cut(line));
            if (count == 1 || sheet.fits_across(part)) break;
        }
        if (count + 1 < table.heads.size())
            part.caption += ", " + part.heads[1] + (count > 1 ? " to " + part.heads.back() : "");
        sheet.table(part);
        from += count;
    }
}

/// What the rows take on one page; nothing when they need more.
std::optional<double> height_of(const PageParts& parts, Paper paper) {
    Sheet scratch(paper, "");
    scratch.only_measure();
    const double all = scratch.room();
    put_rows(scratch, parts);
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

/// A table with the second half of its lines beside the first, where it has more than a few.
PageTable side_by_side(const PageTable& table) {
    constexpr std::size_t few = 6;
    if (table.lines.size() <= few) return table;
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

/// The same of a table of stop weights.
PageTable folded(PageTable table) {
    if (side_by_side(table).lines.size() == table.lines.size()) return table;
    take_out_skein(table);
    take_out_piece(table);
    return side_by_side(table);
}

/// The lines of a block in one; those of another yarn begin anew, so that each is found.
std::string run_on(const MaterialsBlock& block) {
    const auto yarn = [&](std::size_t i) {
        return block.key == "yarn" ? block.lines[i].substr(0, block.lines[i].find_first_of(": "))
                                   : std::string();
    };
    std::string out;
    for (std::size_t i = 0; i < block.lines.size(); ++i) {
        if (i > 0) out += yarn(i) == yarn(i - 1) ? "; " : "\n";
        out += block.lines[i];
    }
    return out;
}

/// All but the rows.
struct Front {
    const MakePage& page;
    const PageParts& parts;
    const MaterialsDocument& document;
    const std::string& picture;  ///< PNG
    const std::string& slip;     ///< the same where there is little room, its letters as large
    const std::string& large;    ///< the same for a report of several sheets
    const std::string& words;
};

/// How to come by with one sheet.
struct Layout {
    bool fold = false;      ///< stop weights in two columns
    double picture = 1.0;   ///< of its size
    bool together = false;  ///< the yarns' skeins in one table, and their stop weights
    double letters = 1.0;   ///< of their size
    bool lines = false;     ///< what there is of each yarn on lines of its own
    bool large = false;     ///< the picture that fills what room there is
    bool slip = false;      ///< the picture that takes least room

    /// Without what the tables and the legend of the picture say too.
    [[nodiscard]] bool brief() const { return letters < 1.0; }
};

/// The tables of several yarns as one, where their heads are the same: each skein with its yarn.
/// `skein` is the column of skeins; the piece is named once where there is one.
std::optional<PageTable> one_table(const std::vector<PageTable>& tables,
                                   const std::vector<std::string>& roles, std::size_t skein,
                                   const std::string& caption, const std::string& piece) {
    if (tables.size() < 2 || tables.size() != roles.size()) return std::nullopt;
    PageTable out{caption, tables.front().heads, {}};
    for (std::size_t i = 0; i < tables.size(); ++i) {
        if (tables[i].heads != out.heads) return std::nullopt;
        for (std::vector<std::string> line : tables[i].lines) {
            line[skein] = roles[i] + " " + line[skein];
            out.lines.push_back(std::move(line));
        }
    }
    if (piece.empty()) return out;
    out.caption += ", rows of " + piece;
    const std::string of = " of " + piece;
    for (auto& line : out.lines)
        for (std::string& cell : line)
            if (const auto at = cell.find(of); at != std::string::npos) cell.erase(at, of.size());
    return out;
}

/// "after row 39" of a whole column as "39", below a caption that names rows, so that two lots of
/// columns stand side by side; words beside them ("spare", "to the end") stay.
void shorten_rows(PageTable& table) {
    constexpr std::string_view after = "after row ";
    for (std::size_t c = 1; c < table.heads.size(); ++c) {
        bool any = false;
        const bool all = std::all_of(table.lines.begin(), table.lines.end(), [&](const auto& line) {
            any = any || line[c].starts_with(after);
            return line[c].starts_with(after) ||
                   line[c].find_first_of("0123456789") == std::string::npos;
        });
        if (!any || !all) continue;
        for (auto& line : table.lines)
            if (line[c].starts_with(after)) line[c].erase(0, after.size());
    }
}

/// The yarns that have a table of joins, or of stop weights.
std::vector<std::string> roles_of(const MakePage& page, bool stops) {
    std::vector<std::string> out;
    for (const joins::RoleJoins& role : page.joins.roles)
        if (!stops || !role.stops.empty()) out.push_back(base::shown_inert(role.plan.role));
    return out;
}

/// The name of the only piece; empty where there are several.
std::string only_piece(const project::Project& project) {
    const bool one = project.pieces.size() == 1 &&
                     (!project.pieces[0].count.stated() || project.pieces[0].count.at(0) == 1);
    return one ? base::shown_inert(project.pieces[0].name) : std::string();
}

void put_yarns(Sheet& sheet, const PageParts& parts) {
    for (const PageRole& role : parts.roles) {
        std::vector<std::string> figures;
        if (parts.roles.size() > 1) figures.push_back(role.verdict_text);
        for (const auto& [name, value] : role.figures)
            figures.push_back(base::join({name, value}, " "));
        sheet.run_in(role.name, base::join(figures, "; "));
    }
}

void put_joins(Sheet& sheet, const Front& front, const Layout& layout) {
    std::vector<PageTable> tables;
    for (const PageJoins& joins : front.parts.joins) tables.push_back(joins.skeins);
    if (layout.together)
        if (auto one = one_table(tables, roles_of(front.page, false), 0, "Skeins",
                                 only_piece(front.page.project))) {
            if (!only_piece(front.page.project).empty()) shorten_rows(*one);
            tables = {std::move(*one)};
        }
    for (const PageTable& table : tables) {
        const PageTable two = layout.together && layout.fold ? side_by_side(table) : table;
        sheet.table(sheet.fits_across(two) ? two : table);
    }
}

void put_stops(Sheet& sheet, const Front& front, const Layout& layout) {
    std::vector<PageTable> tables = front.parts.stops;
    if (layout.together)
        if (auto one = one_table(tables, roles_of(front.page, true), 1, "Weights",
                                 only_piece(front.page.project)))
            tables = {std::move(*one)};
    for (const PageTable& table : tables) {
        const PageTable two = layout.fold ? folded(table) : table;
        sheet.table(sheet.fits_across(two) ? two : table);
    }
}

void put_front(Sheet& sheet, const Front& front, const Layout& layout) {
    const PageParts& parts = front.parts;
    sheet.set_letters(layout.letters);
    sheet.heading(1, parts.size.empty() ? parts.title : parts.title + ", size " + parts.size);
    sheet.heading(2, "Is there enough yarn?");
    sheet.paragraph(parts.verdict_text, true);
    if (!parts.why.empty()) sheet.paragraph(parts.why);
    sheet.bullets(parts.next);
    if (!layout.brief() || parts.verdict != cover::Verdict::covered) put_yarns(sheet, parts);
    sheet.picture(layout.large  ? front.large
                  : layout.slip ? front.slip
                                : front.picture,
                  front.words, layout.picture);
    sheet.heading(2, "Joins");
    sheet.paragraph(parts.joins_answer);
    put_joins(sheet, front, layout);
    sheet.bullets(parts.notes);
    sheet.heading(2, "When to stop");
    sheet.paragraph(parts.stops_words);
    put_stops(sheet, front, layout);
    sheet.heading(2, front.document.heading);
    if (front.document.table) put_sizes(sheet, *front.document.table);
    std::vector<std::pair<std::string, std::string>> blocks;
    for (const MaterialsBlock& block : front.document.blocks)
        if (!layout.brief() || (block.key != "method" && block.key != "colours"))
            blocks.emplace_back(block.title,
                                layout.lines ? base::join(block.lines, "\n") : run_on(block));
    sheet.run_ins(blocks);
    sheet.set_letters(1.0);
}

bool on_one_sheet(const Front& front, Paper paper, const Layout& layout) {
    Sheet scratch(paper, "");
    scratch.only_measure();
    put_front(scratch, front, layout);
    return scratch.pages() == 1;
}

/// What room a sheet leaves goes to the picture, which is small on many yarns.
Layout filled(const Front& front, Paper paper, Layout layout) {
    Layout larger = layout;
    larger.lines = true;
    if (on_one_sheet(front, paper, larger)) layout = larger;
    // Smaller than so its letters are hard to read.
    for (const auto& [large, share] : std::array<std::pair<bool, double>, 6>{
             {{true, 1.0}, {true, 0.9}, {true, 0.8}, {false, 1.0}, {false, 0.9}, {false, 0.8}}}) {
        if (!large && !layout.slip && share <= layout.picture) break;
        larger = layout;
        larger.large = large;
        larger.slip = false;
        larger.picture = share;
        if (on_one_sheet(front, paper, larger)) return larger;
    }
    return layout;
}

/// The roomiest that comes by with one sheet; where none does, the one with short tables.
Layout layout_for(const Front& front, Paper paper) {
    const auto with_slip = [](double picture, double letters) {
        Layout out{true, picture, true, letters};
        out.slip = true;
        return out;
    };
    const std::array<Layout, 7> all{{{false, 1.0, false, 1.0},
                                     {true, 1.0, false, 1.0},
                                     {true, 0.8, false, 1.0},
                                     {true, 0.8, true, 1.0},
                                     with_slip(1.0, 0.9),
                                     with_slip(0.9, 0.8),
                                     with_slip(0.8, 0.75)}};
    for (const bool lines : {true, false})
        for (Layout one : all) {
            if (lines && one.brief()) continue;
            one.lines = lines;
            if (on_one_sheet(front, paper, one)) return filled(front, paper, one);
        }
    Layout out = all[1];
    out.lines = out.large = true;
    return out;
}

}  // namespace

std::string page_pdf(const MakePage& page, Paper paper) {
    const units::WithNumberStyle in_force(page.style.numbers);
    const PageParts parts = parts_of(page);
    const MaterialsDocument document = document_of(page);
    const std::string picture = make_picture_at(page.project, page.need, page.joins,
                                                PictureFormat::png, PictureWidth::paper);
    const std::string words = in_one_line(make_words(page.project, page.need, page.joins));
    const std::string large = make_picture_at(page.project, page.need, page.joins,
                                              PictureFormat::png, PictureWidth::sheet);
    const std::string slip = make_picture_at(page.project, page.need, page.joins,
                                             PictureFormat::png, PictureWidth::slip);
    const Front front{page, parts, document, picture, slip, large, words};
    Sheet sheet(paper, parts.title);
    put_front(sheet, front, layout_for(front, paper));
    const std::optional<double> rows = height_of(parts, paper);
    if (!rows || *rows > sheet.room()) sheet.turn();
    put_rows(sheet, parts);
    return sheet.finish();
}

namespace {

/// Every line of a size, "Measures 6 in wide; Begin with 22 chains; ...".
std::string size_words(const std::vector<std::string>& terms,
                       const std::vector<std::string>& lines) {
    std::vector<std::string> out;
    for (std::size_t i = 0; i < terms.size(); ++i) out.push_back(terms[i] + ": " + lines[i]);
    return base::join(out, "; ");
}

void put_offer(Sheet& sheet, const MakersPage& page, const MaterialsWords& words) {
    const materials::Offer& offer = page.offer;
    const std::vector<std::string> terms = terms_of(page.project, offer);
    const auto lines = [&](std::size_t i, std::size_t j) {
        const auto& size = offer.at(i, j);
        return size ? lines_of(page.project, *size, words) : std::vector<std::string>();
    };
    if (offer.piece || offer.sizes.size() == 1) {
        sheet.heading(2, offer.piece ? "What it takes, as written" : "What it takes");
        const std::vector<std::string> written = lines(offer.across.written, offer.along.written);
        for (std::size_t i = 0; i < terms.size(); ++i) sheet.run_in(terms[i], written[i]);
        sheet.bullets(notes_of(page.project, offer));
        if (offer.piece) {
            sheet.heading(2, "Yarn for the other sizes");
            for (const PageTable& table : yarn_tables(page.project, offer, words))
                put_wide(sheet, table);
        }
        return;
    }
    sheet.heading(2, "What each size takes");
    PageTable table;
    table.caption = "By size";
    table.heads = terms;
    table.heads.insert(table.heads.begin(), "size");
    for (std::size_t i = 0; i < offer.across.size(); ++i)
        for (std::size_t j = 0; j < offer.along.size(); ++j) {
            const std::string& along = offer.along.names[j];
            std::vector<std::string> cells = lines(i, j);
            if (cells.empty()) continue;
            cells.insert(cells.begin(), shown_apart(offer.across.names[i]) +
                                            (along.empty() ? "" : " x " + shown_apart(along)));
            table.lines.push_back(std::move(cells));
        }
    // Cells of a few columns may take two lines; of more, sentences are easier to read.
    constexpr std::size_t few = 6;
    if (table.heads.size() <= few && page.project.pieces.size() == 1) {
        sheet.table(table);
    } else {
        for (const std::vector<std::string>& line : table.lines)
            sheet.run_in(line.front(), size_words(terms, {line.begin() + 1, line.end()}));
    }
    sheet.bullets(notes_of(page.project, offer));
}

}  // namespace

std::string makers_page_pdf(const MakersPage& page, Paper paper) {
    const units::WithNumberStyle in_force(page.style.numbers);
    const MaterialsWords words(page.style.language, page.style.terms.value_or(page.project.terms));
    const MaterialsDocument document = materials_document(page.section, page.style);
    Sheet sheet(paper, shown_apart(page.project.title));
    sheet.heading(1, shown_apart(page.project.title));
    if (!page.project.pieces.empty())
        sheet.picture(
            make_picture_at(page.project, page.need, {}, PictureFormat::png, PictureWidth::sheet),
            in_one_line(make_words(page.project, page.need, {})));
    put_offer(sheet, page, words);
    sheet.heading(2, document.heading);
    if (page.offer.piece) sheet.paragraph("These are for the size as written.");
    if (document.table) put_sizes(sheet, *document.table);
    std::vector<std::pair<std::string, std::string>> blocks;
    for (const MaterialsBlock& block : document.blocks)
        blocks.emplace_back(block.title, base::join(block.lines, "\n"));
    sheet.run_ins(blocks);
    return sheet.finish();
}

}  // namespace skeinfall::report
