#include "skeinfall/exchange/csv.hpp"

#include <algorithm>
#include <new>
#include <string_view>
#include <utility>

#include <csv.h>

namespace skeinfall::exchange {
namespace {

constexpr std::string_view quote_remedy =
    "Put the whole cell between quotes and write every quote inside it twice, as in \"4\"\" "
    "wide\".";

/// libcsv gives cells without places, so the text is fed in pieces that end at the characters
/// which can end a cell, and the start of each cell is noted on the way.
class Parser {
  public:
    Parser(const SourceText& source, const std::function<void(const CsvRow&)>& take)
        : source_(source), take_(take) {
        if (csv_init(&parser_, CSV_STRICT | CSV_STRICT_FINI) != 0) throw std::bad_alloc();
        csv_set_space_func(&parser_, [](unsigned char) { return 0; });
        csv_set_blk_size(&parser_, 4096);
    }
    ~Parser() { csv_free(&parser_); }
    Parser(const Parser&) = delete;
    Parser& operator=(const Parser&) = delete;
    Parser(Parser&&) = delete;
    Parser& operator=(Parser&&) = delete;

    void run() {
        const std::string_view text = source_.text();
        while (at_ < text.size()) {
            const std::size_t special = std::min(text.find_first_of(",\"\r\n", at_), text.size());
            feed(text.substr(at_, special - at_));
            if (special == text.size()) break;
            const bool between_rows =
                row_.empty() && cell_start_ == at_ && (text[at_] == '\r' || text[at_] == '\n');
            feed(text.substr(at_, 1));
            if (between_rows) cell_start_ = at_;
            give();
        }
        if (csv_fini(&parser_, end_cell, end_row, this) != 0) {
            if (csv_error(&parser_) == CSV_ENOMEM) throw std::bad_alloc();
            fail(cell_start_, "the quote opened here is never closed", "a closing quote");
        }
        give();
    }

  private:
    static void end_cell(void* data, std::size_t size, void* self) {
        auto& parser = *static_cast<Parser*>(self);
        parser.row_.push_back(
            {std::string(static_cast<const char*>(data), size), parser.cell_start_});
        // The comma or line break that ended it is the last byte fed.
        parser.cell_start_ = parser.at_ + 1;
    }
    static void end_row(int, void* self) {
        auto& parser = *static_cast<Parser*>(self);
        parser.ended_ = true;
    }

    /// Not from within libcsv: what the taker throws must not pass through it.
    void give() {
        if (!std::exchange(ended_, false)) return;
        take_(row_);
        row_.clear();
    }

    void feed(std::string_view piece) {
        const std::size_t taken =
            csv_parse(&parser_, piece.data(), piece.size(), end_cell, end_row, this);
        if (taken != piece.size()) {
            if (csv_error(&parser_) != CSV_EPARSE) throw std::bad_alloc();
            const std::size_t mistake = at_ + taken;
            if (source_.text()[mistake] == '"')
                fail(mistake, "a quote inside a cell that does not start with one",
                     "a comma or the end of the line");
            fail(mistake, "text after the closing quote of a cell",
                 "a comma or the end of the line");
        }
        at_ += piece.size();
    }

    [[noreturn]] void fail(std::size_t offset, std::string what, std::string expected) const {
        throw base::InputError({std::move(what), source_.place(offset), std::move(expected),
                                std::string(quote_remedy)});
    }

    const SourceText& source_;
    csv_parser parser_{};
    std::size_t at_ = 0;
    std::size_t cell_start_ = 0;
    CsvRow row_;
    const std::function<void(const CsvRow&)>& take_;
    bool ended_ = false;
};

}  // namespace

void parse_csv(const SourceText& source, const std::function<void(const CsvRow&)>& take) {
    if (const auto problem = source.encoding_problem()) throw base::InputError(*problem);
    if (const auto nul = source.text().find('\0'); nul != std::string_view::npos)
        throw base::InputError({"a NUL byte", source.place(nul), "text",
                                "Save the file as CSV in the encoding UTF-8."});
    Parser(source, take).run();
}

}  // namespace skeinfall::exchange
