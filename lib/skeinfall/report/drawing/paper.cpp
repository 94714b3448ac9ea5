#include "skeinfall/report/detail/paper.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <memory>
#include <numeric>
#include <optional>
#include <stdexcept>
#include <utility>

#include <cairo-pdf.h>
#include <cairo.h>
#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/detail/cairo_bytes.hpp"
#include "skeinfall/report/detail/look.hpp"
#include "skeinfall/report/detail/pdf_aids.hpp"
#include "skeinfall/report/detail/picture_canvas.hpp"
#include "skeinfall/report/detail/set_words.hpp"

namespace skeinfall::report {
namespace {

namespace letters = look::letters;

constexpr double edge = 42.0;  // about 15 mm
constexpr double below_block = 3.5;
constexpr double cell_gap = 10.0;

struct Reading {
    const std::string& bytes;
    std::size_t at = 0;
};

cairo_status_t read(void* from, unsigned char* data, unsigned int length) {
    auto& reading = *static_cast<Reading*>(from);
    if (reading.bytes.size() - reading.at < length) return CAIRO_STATUS_READ_ERROR;
    std::copy_n(reading.bytes.begin() + static_cast<std::ptrdiff_t>(reading.at), length, data);
    reading.at += length;
    return CAIRO_STATUS_SUCCESS;
}

/// Pixels across and down, which stand at one place in every PNG.
std::pair<double, double> size_of_png(const std::string& png) {
    constexpr std::size_t across = 16;
    constexpr std::size_t down = 20;
    if (png.size() < down + 4)
        throw std::runtime_error("a picture of the page cannot be read back");
    const auto number = [&](std::size_t from) {
        double out = 0.0;
        for (std::size_t i = from; i < from + 4; ++i)
            out = 256.0 * out + static_cast<unsigned char>(png[i]);
        return std::max(out, 1.0);
    };
    return {number(across), number(down)};
}

void colour(cairo_t* context, std::string_view hexadecimal) {
    const Shade shade = shade_of(std::string(hexadecimal));
    cairo_set_source_rgb(context, shade.red, shade.green, shade.blue);
}

}  // namespace

/// A part of the structure, for as long as it lives; never over a page's end.
class Sheet::Tag {
  public:
    Tag(const Sheet& sheet, const char* name)
        : context_(sheet.measuring_ ? nullptr : sheet.context_.get()), name_(name) {
        if (context_ != nullptr) cairo_tag_begin(context_, name_, nullptr);
    }
    Tag(const Tag&) = delete;
    Tag& operator=(const Tag&) = delete;
    Tag(Tag&&) = delete;
    Tag& operator=(Tag&&) = delete;
    ~Tag() {
        if (context_ != nullptr) cairo_tag_end(context_, name_);
    }

  private:
    cairo_t* context_;
    const char* name_;
};

void Sheet::begin_group(const char* name) {
    group_ = name;
    if (!measuring_) cairo_tag_begin(context_.get(), name, nullptr);
}

void Sheet::end_group() {
    if (!measuring_) cairo_tag_end(context_.get(), group_);
    group_ = nullptr;
}

void Sheet::Done::operator()(_cairo* context) const {
    cairo_destroy(context);
}
void Sheet::Done::operator()(_cairo_surface* surface) const {
    cairo_surface_destroy(surface);
}

Sheet::Sheet(Paper paper, const std::string& title, std::string language)
    : width_(paper == Paper::a4 ? 595.276 : 612.0),
      height_(paper == Paper::a4 ? 841.89 : 792.0),
      language_(std::move(language)) {
    surface_.reset(cairo_pdf_surface_create_for_stream(append_bytes, &bytes_, width_, height_));
    cairo_pdf_surface_set_metadata(surface_.get(), CAIRO_PDF_METADATA_TITLE, title.c_str());
    // The same make gives the same bytes.
    cairo_pdf_surface_set_metadata(surface_.get(), CAIRO_PDF_METADATA_CREATE_DATE, "");
    context_.reset(cairo_create(surface_.get()));
    cairo_tag_begin(context_.get(), "Document", nullptr);
    colour(context_.get(), look::light.ink);
    y_ = edge;
}

void Sheet::footer() {
    colour(context_.get(), look::light.soft_ink);
    const SetWords number(context_.get(), std::to_string(page_), letters::small, 0.0);
    number.show((width_ - number.width()) / 2, height_ - edge + 14);
    colour(context_.get(), look::light.ink);
}

void Sheet::show(const SetWords& set, double x, double y) const {
    if (!measuring_) set.show(x, y);
}

void Sheet::new_page() {
    if (measuring_) {
        ++page_;
        y_ = edge;
        return;
    }
    const char* const group = group_;
    if (group != nullptr) end_group();
    footer();
    cairo_show_page(context_.get());
    if (group != nullptr) begin_group(group);
    ++page_;
    y_ = edge;
}

void Sheet::need_room(double height) {
    if (full()) return;
    double headings = 0.0;
    for (const Heading& one : waiting_)
        headings += 16.0 + below_block +
                    SetWords(context_.get(), one.words, one.size, width_ - 2 * edge, true).height();
    if (y_ > edge && y_ + headings + height > height_ - edge) new_page();
    for (const Heading& one : std::exchange(waiting_, {})) draw(one);
}

void Sheet::turn() {
    if (y_ > edge && !full()) new_page();
}

double Sheet::room() const {
    return height_ - edge - y_;
}

void Sheet::rule(double y, bool strong) {
    if (measuring_) return;
    cairo_t* c = context_.get();
    const double weight = strong ? 0.9 : 0.5;
    colour(c, strong ? look::light.rule : look::light.hair);
    cairo_set_line_width(c, weight);
    cairo_move_to(c, edge, y);
    cairo_line_to(c, width_ - edge, y);
    cairo_stroke(c);
    colour(c, look::light.ink);
}

double Sheet::scale_of(double across, double high) const {
    constexpr double tallest = 0.72;  // of a page, so that its heading and table go with it
    return std::min({1.0 / Canvas::pixels_per_point, (width_ - 2 * edge) / across,
                     tallest * (height_ - 2 * edge) / high});
}

void Sheet::heading(int level, const std::string& words) {
    waiting_.push_back({level, words,
                        sized(level == 1   ? letters::title
                              : level == 2 ? letters::lead
                                           : letters::body)});
}

void Sheet::small_heading(int level, const std::string& words) {
    waiting_.push_back({level, words, sized(letters::lead)});
}

void Sheet::draw(const Heading& heading) {
    const SetWords set(context_.get(), heading.words, heading.size, width_ - 2 * edge, true);
    if (y_ > edge) y_ += heading.level == 2 ? 7.0 : 4.0;
    constexpr std::array names{"H1", "H2", "H3"};
    const auto depth = static_cast<std::size_t>(heading.level - 1);
    {
        const Tag tag(*this, names.at(depth));
        show(set, edge, y_);
    }
    if (!measuring_) add_bookmark(heading);
    y_ += set.height() + below_block;
}

void Sheet::add_bookmark(const Heading& heading) {
    outline_.resize(std::min(outline_.size(), static_cast<std::size_t>(heading.level - 1)));
    const std::string target = fmt::format("page={} pos=[{:.0f} {:.0f}]", page_, edge, y_);
    outline_.push_back(cairo_pdf_surface_add_outline(
        surface_.get(), outline_.empty() ? CAIRO_PDF_OUTLINE_ROOT : outline_.back(),
        heading.words.c_str(), target.c_str(),
        heading.level == 1 ? CAIRO_PDF_OUTLINE_FLAG_OPEN : cairo_pdf_outline_flags_t{}));
}

void Sheet::paragraph(const std::string& words, bool strong) {
    if (full()) return;
    const SetWords set(context_.get(), words, sized(letters::body), width_ - 2 * edge, strong);
    need_room(set.height());
    const Tag tag(*this, "P");
    show(set, edge, y_);
    y_ += set.height() + below_block;
}

void Sheet::run_in(const std::string& title, const std::string& words) {
    run_ins({{title, words}});
}

void Sheet::run_ins(const std::vector<std::pair<std::string, std::string>>& entries) {
    constexpr double indent = 84.0;
    const double all = width_ - 2 * edge;
    const double half = all / 2;
    const auto narrow = [&](const std::pair<std::string, std::string>& entry) {
        return SetWords(context_.get(), entry.second, sized(letters::small), 0.0).width() <
               half - indent - 8;
    };
    for (std::size_t i = 0; i < entries.size() && !full();) {
        const bool two = i + 1 < entries.size() && narrow(entries[i]) && narrow(entries[i + 1]);
        struct Cell {
            std::unique_ptr<SetWords> title;
            std::unique_ptr<SetWords> words;
        };
        std::vector<Cell> cells;
        double height = 0.0;
        for (std::size_t k = i; k < i + (two ? 2 : 1); ++k) {
            cells.push_back(
                {std::make_unique<SetWords>(context_.get(), entries[k].first, sized(letters::small),
                                            indent - 8, true),
                 std::make_unique<SetWords>(context_.get(), entries[k].second,
                                            sized(letters::small), (two ? half : all) - indent)});
            height = std::max({height, cells.back().title->height(), cells.back().words->height()});
        }
        need_room(height);
        double x = edge;
        for (const Cell& cell : cells) {
            {
                const Tag tag(*this, "P");
                show(*cell.title, x, y_);
            }
            const Tag tag(*this, "P");
            show(*cell.words, x + indent, y_);
            x += half;
        }
        y_ += height + 1.5;
        i += cells.size();
    }
}

void Sheet::bullets(const std::vector<std::string>& lines) {
    if (lines.empty() || full()) return;
    need_room(sized(letters::body) * 2);
    begin_group("L");
    for (const std::string& line : lines) bullet(line);
    end_group();
}

void Sheet::bullet(const std::string& words) {
    if (full()) return;
    constexpr double indent = 12.0;
    const SetWords set(context_.get(), words, sized(letters::body), width_ - 2 * edge - indent);
    need_room(set.height());
    const Tag tag(*this, "LI");
    const SetWords dot(context_.get(), "\u2022", sized(letters::body), 0.0);
    show(dot, edge, y_);
    show(set, edge + indent, y_);
    y_ += set.height() + below_block / 2;
}

namespace {

double sum_of(const std::vector<double>& widths) {
    return std::accumulate(widths.begin(), widths.end(), 0.0);
}

/// The widest give way to the others, down to a width that all of them have.
void narrow(std::vector<double>& widths, double room) {
    double low = 0.0;
    double high = room;
    constexpr int halvings = 24;
    for (int i = 0; i < halvings; ++i) {
        const double middle = (low + high) / 2;
        std::vector<double> tried = widths;
        for (double& width : tried) width = std::min(width, middle);
        (sum_of(tried) > room ? high : low) = middle;
    }
    for (double& width : widths) width = std::min(width, low);
}

}  // namespace

std::vector<double> Sheet::natural_widths(const PageTable& table, bool break_heads) const {
    std::vector<double> widths(table.heads.size(), 0.0);
    const auto widen = [&](std::size_t column, const std::string& words, bool strong) {
        const SetWords set(context_.get(), words, sized(letters::small), 0.0,
                           strong || column == 0);
        widths[column] = std::max(widths[column], set.width());
    };
    for (std::size_t i = 0; i < widths.size(); ++i)
        for (const std::string& words :
             break_heads ? base::split(table.heads[i], ' ') : std::vector{table.heads[i]})
            widen(i, words, true);
    for (const auto& line : table.lines)
        for (std::size_t i = 0; i < line.size() && i < widths.size(); ++i) widen(i, line[i], false);
    return widths;
}

double Sheet::table_room(const PageTable& table) const {
    return width_ - 2 * edge - cell_gap * static_cast<double>(table.heads.size());
}

bool Sheet::fits_across(const PageTable& table) const {
    if (too_tall(table)) return true;
    return sum_of(natural_widths(table, true)) <= table_room(table);
}

/// Its lines alone are more than the page that is measured.
bool Sheet::too_tall(const PageTable& table) const {
    return full() || (measuring_ &&
                      sized(letters::small) * static_cast<double>(table.lines.size()) > height_);
}

std::vector<double> Sheet::column_widths(const PageTable& table) const {
    const double room = table_room(table);
    std::vector<double> widths = natural_widths(table, false);
    if (sum_of(widths) <= room) return widths;
    widths = natural_widths(table, true);
    if (sum_of(widths) > room) narrow(widths, room);
    return widths;
}

void Sheet::table(const PageTable& table) {
    if (too_tall(table)) {
        if (!full()) new_page();
        return;
    }
    cairo_t* c = context_.get();
    const std::size_t columns = table.heads.size();
    const double all = width_ - 2 * edge;
    const std::vector<double> widths = column_widths(table);
    const auto line = [&](const std::vector<std::string>& cells, bool head) {
        std::vector<std::unique_ptr<SetWords>> set;
        double height = 0.0;
        for (std::size_t i = 0; i < cells.size() && i < columns; ++i) {
            set.push_back(std::make_unique<SetWords>(c, cells[i], sized(letters::small),
                                                     widths[i] + 1.0, head || i == 0));
            height = std::max(height, set.back()->height());
        }
        need_room(height + 6);
        double x = edge;
        {
            const Tag row(*this, "TR");
            for (std::size_t i = 0; i < set.size(); ++i) {
                const Tag cell(*this, head || i == 0 ? "TH" : "TD");
                show(*set[i], table.figures && i > 0 ? x + widths[i] - set[i]->width() : x, y_);
                x += widths[i] + cell_gap;
            }
        }
        y_ += height + 1;
        rule(y_, head);
        y_ += 1.5;
    };
    y_ += below_block;
    const SetWords caption(c, table.caption, sized(letters::body), all, true);
    need_room(caption.height() + 40);
    begin_group("Table");
    {
        const Tag tag(*this, "Caption");
        show(caption, edge, y_);
    }
    y_ += caption.height() + 3;
    line(table.heads, true);
    for (const auto& cells : table.lines) {
        if (full()) break;
        line(cells, false);
    }
    end_group();
    y_ += below_block;
}

void Sheet::picture(const std::string& png, const std::string& words, double share) {
    if (full()) return;
    const auto [across, high] = size_of_png(png);
    const double scale = share * scale_of(across, high);
    const double down = high * scale;
    need_room(down);
    // Cairo 1.16 gives up on a page whose first content is a picture within a tag.
    if (y_ <= edge) rule(y_, false);
    if (measuring_) {
        y_ += down + below_block;
        return;
    }
    figures_.push_back(words);
    const Tag tag(*this, "Figure");
    Reading reading{png};
    const std::unique_ptr<_cairo_surface, Done> image(
        cairo_image_surface_create_from_png_stream(read, &reading));
    if (cairo_surface_status(image.get()) != CAIRO_STATUS_SUCCESS)
        throw std::runtime_error("a picture of the page cannot be read back");
    cairo_t* c = context_.get();
    cairo_save(c);
    cairo_translate(c, edge, y_);
    cairo_scale(c, scale, scale);
    cairo_set_source_surface(c, image.get(), 0, 0);
    cairo_paint(c);
    cairo_restore(c);
    colour(c, look::light.ink);
    y_ += down + below_block;
}

void Sheet::checklist(const PageGroup& group) {
    if (full()) return;
    constexpr std::size_t columns = 4;
    constexpr double box = 7.5;
    constexpr double line = 15.0;
    cairo_t* c = context_.get();
    const double column = (width_ - 2 * edge) / static_cast<double>(columns);
    heading(3, group.name);
    need_room(2 * line);
    begin_group("L");
    std::size_t at = 0;
    const auto tick_box = [&](double x) {
        if (measuring_) return;
        cairo_set_line_width(c, 0.8);
        colour(c, look::light.rule);
        cairo_rectangle(c, x + 0.5, y_ + 1.5, box, box);
        cairo_stroke(c);
        colour(c, look::light.ink);
    };
    const auto end_line = [&] {
        if (at == 0) return;
        y_ += line;
        at = 0;
    };
    for (const PageRow& row : group.rows) {
        if (full()) break;
        const std::string words = row.count.empty() ? row.text : row.text + ", " + row.count;
        SetWords set(c, words, sized(letters::small), 0.0);
        const bool wide = row.joins() || !row.told.empty() || set.width() + box + 8 > column;
        if (wide) end_line();
        // What to work stands beside its row.
        const SetWords told(c, row.told, sized(letters::small), width_ - 2 * edge - column);
        const double first_line = std::max(line, row.told.empty() ? 0.0 : told.height() + 4);
        if (at == 0) {
            double height = first_line;
            for (const PageMark& mark : row.marks)
                height += SetWords(c, mark.text, sized(letters::small), width_ - 2 * edge - 18,
                                   !mark.weigh)
                              .height();
            need_room(height);
        }
        const double x = edge + column * static_cast<double>(at);
        const Tag item(*this, "LI");
        tick_box(x);
        std::optional<Tag> body(std::in_place, *this, "LBody");
        if (!row.told.empty()) {
            show(SetWords(c, words, sized(letters::small), column - 14), x + box + 5, y_);
            show(told, x + column, y_);
        } else if (wide) {
            show(SetWords(c, words, sized(letters::small), width_ - 2 * edge - 14), x + box + 5,
                 y_);
        } else {
            show(set, x + box + 5, y_);
        }
        body.reset();
        ++at;
        if (wide) {
            y_ += first_line - line;
            end_line();
        } else if (at == columns) {
            end_line();
        }
        for (const PageMark& mark : row.marks) {
            const Tag words_of_mark(*this, "LBody");
            const SetWords note(c, mark.text, sized(letters::small), width_ - 2 * edge - 18,
                                !mark.weigh);
            show(note, edge + box + 5, y_ - 2);
            y_ += note.height() + 2;
        }
    }
    end_line();
    end_group();
}

std::string Sheet::finish() {
    need_room(0.0);
    footer();
    cairo_tag_end(context_.get(), "Document");
    context_.reset();
    cairo_surface_finish(surface_.get());
    const cairo_status_t status = cairo_surface_status(surface_.get());
    if (status != CAIRO_STATUS_SUCCESS)
        throw std::runtime_error(std::string("the page cannot be set: ") +
                                 cairo_status_to_string(status));
    return with_reading_aids(bytes_, language_, figures_);
}

}  // namespace skeinfall::report
