// Rows that stand for several: repeated ones, open ends, what happens at edges.

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/notation/detail/pattern_reader.hpp"

namespace skeinfall::notation {

void PatternReader::repeat_rows(const Label& label, Where where, std::vector<RowFinding>& told) {
    const RowsAgain& again = *label.again;
    const auto bad = [&](std::string what, std::string expected, std::string remedy) {
        fail_row(Fault{again.at, std::move(what), std::move(expected), std::move(remedy)}, where);
    };
    std::int64_t first = next_row_;
    // A row by "all even rows" may stand before the next one that is written.
    if (label.rows.empty())
        while (slot_of(first).written >= 0) ++first;
    std::vector<std::int64_t> again_rows;
    for (const Span& span : again.rows) {
        if (span.last - span.first > most_rows) break;
        for (std::int64_t row = span.first; row <= span.last; ++row)
            again_rows.push_back(slot_of(row + offset_).written >= 0 ? row + offset_ : row);
    }
    if (again.all_numbered && plain_since_) {
        bad("which rows are repeated is not said", "their numbers, or \"last 2 rows\"",
            "Write it like: rep last 2 rows until 28 sts remain.");
        return;
    }
    if (again.all_numbered)
        for (std::int64_t row = 1; row <= own_last_; ++row) again_rows.push_back(row + offset_);
    for (std::int64_t back = again.last_rows; back > 0 && back <= first; --back)
        again_rows.push_back((label.rows.empty() ? first : label.rows.front().first) - back);
    std::vector<Slot> slots;
    for (const std::int64_t row : again_rows) {
        slots.push_back(slot_of(row));
        if (slots.back().written < 0) {
            bad(fmt::format("row {} is repeated before it is written", row),
                "rows that stand above", "Correct the row numbers.");
            return;
        }
    }
    if (slots.empty()) {
        bad("there is no row to repeat", "rows that stand above", "");
        return;
    }
    if (!again.turns.empty()) {
        if (slots.size() != 1)
            return bad("several rows come again by one schedule", "one row, and how often", "");
        changed_ = false;
        return assign_turns(again.turns, slots.front().written, true);
    }
    std::vector<Span> spans = label.rows;
    const std::int64_t block = static_cast<std::int64_t>(slots.size());
    if (spans.empty()) {
        std::int64_t last = -1;
        if (again.until_row > 0) last = again.until_row + offset_;
        if (again.for_rows > 0) last = first + again.for_rows - 1;
        if (again.times > 0) last = first + again.times * block - 1;
        if (label.what == Label::What::next && last < 0) last = first + label.count - 1;
        if (again.open_end) {
            const auto rows = rows_of(*again.open_end, block, where, told);
            if (!rows || *rows == 0) return;
            last = first + *rows - 1;
        }
        if (again.until_stitches > 0) last = first + block - 1;
        // "Rep rows 2 and 3." at the end: as long as it is to be
        if (last < first && block > 1 && book_->craft() == Craft::crochet) {
            const auto rows = rows_of({true, true, {}, 0, again.at}, block, where, told);
            if (!rows || *rows == 0) return;
            last = first + *rows - 1;
        }
        if (last < first) {
            bad("the repeat does not say how many rows are worked",
                "row numbers in front, or \"n times\" behind",
                "Write it like: Rows 3-96: rep rows 1 and 2.");
            return;
        }
        spans = {{first, last}};
    }
    // Rows of several yarns bring them along, unless one was just taken up for all of them.
    const bool one_yarn =
        changed_ || std::none_of(slots.begin(), slots.end(), [&](const Slot& slot) {
            const Written& written = pattern_.written[static_cast<std::size_t>(slot.written)];
            return written.yarns.starts || slot.yarn != slots.front().yarn;
        });
    changed_ = false;
    std::int64_t turn = 0;
    for (const Span& span : spans) {
        if (span.last > most_rows) {
            fail(where, "there are too many rows", "at most 1000000 rows", "");
            return;
        }
        for (std::int64_t row = span.first; row <= span.last; ++row, ++turn) {
            Slot slot = slots[static_cast<std::size_t>(turn % block)];
            if (one_yarn) slot.yarn = yarn_;
            slot.until = 0;
            if (again.until_stitches > 0 && row == span.last) {
                slot.until = again.until_stitches;
                slot.block = block;
            }
            if (!put(row, slot, where)) return;
            yarn_ = slot.yarn.value_or(yarn_);
        }
    }
    if (again.times > 0 && again.times * block != turn)
        bad(fmt::format("{} rows are labelled, {} times {} rows are {}", turn, again.times, block,
                        again.times * block),
            "the same number", "Correct one of them.");
}

/// What an edge row works.
std::vector<Item> PatternReader::edge_items(const EdgeRows& told) const {
    const auto item = [&](std::string_view kind, std::int64_t of) {
        Item one;
        one.kind = book_->find_us(kind);
        one.count = of;
        return one;
    };
    const auto rest = [&](std::int64_t keep) {
        Item one = item("k", 1);
        one.spot.which = Spot::Which::each;
        one.spot.keep = keep;
        return one;
    };
    switch (told.what) {
        case EdgeRows::What::bind:
            return {item("BO", told.count), rest(0)};
        case EdgeRows::What::cast:
            return {item("CO", told.count), rest(0)};
        case EdgeRows::What::more:
            if (told.both)
                return {item("kfb", told.count), rest(told.count), item("kfb", told.count)};
            return {item("kfb", told.count), rest(0)};
        case EdgeRows::What::less:
            if (told.both)
                return {item("ssk", told.count), rest(2 * told.count), item("k2tog", told.count)};
            return {item("ssk", told.count), rest(0)};
    }
    return {};
}

bool PatternReader::edge_rows(const std::vector<Token>& tokens, std::string_view text) {
    if (book_->craft() != Craft::knit) return false;
    const auto told = edge_rows_of(tokens);
    if (!told) return false;
    Written change;
    change.entry = entry_;
    change.base = base_;
    change.round = options_->round;
    change.text = base::trimmed(original_.substr(base_, text.size()));
    change.first_row = next_row_;
    change.body.items = edge_items(*told);
    change.body.declared = told->declared;
    pattern_.written.push_back(change);
    plain_since_ = true;
    assign_turns(told->turns, last_written());
    pattern_.slots[static_cast<std::size_t>(next_row_ - 1)].counted = !told->declared.empty();
    return true;
}

/// "Rows 3-8: inc 1 st at each end of rows 3, 5 and 7.", "Row 7: inc 1 st at each end."
bool PatternReader::edges_of_rows(const std::vector<Token>& tokens, std::string_view text,
                                  const Label& label, const std::vector<Span>& spans) {
    if (book_->craft() != Craft::knit ||
        (label.what != Label::What::numbered && label.what != Label::What::next) || label.bare)
        return false;
    std::vector<std::int64_t> rows;
    const auto told = edges_of(tokens, label.body, rows);
    if (!told) return false;
    std::vector<Span> all = spans;
    if (label.what == Label::What::next)
        all = {{next_row_, next_row_ + std::max<std::int64_t>(1, label.count) - 1}};
    if (all.size() != 1 || (rows.empty() && all.front().first != all.front().last)) return false;
    Written change;
    change.entry = entry_;
    change.base = base_;
    change.round = label.names_kind ? label.round : options_->round;
    const std::size_t begin = tokens[label.body].at;
    change.text = base::trimmed(original_.substr(base_ + begin, text.size() - begin));
    change.first_row = all.front().first;
    change.body.items = edge_items(*told);
    change.body.declared = told->declared;
    change.restarts = restarts_;
    pattern_.written.push_back(change);
    const std::int64_t changes = last_written();
    std::int64_t plain = -1;
    for (std::int64_t row = all.front().first; row <= all.front().last && row <= most_rows; ++row) {
        const bool here =
            rows.empty() || std::find(rows.begin(), rows.end(), row - offset_) != rows.end();
        if (!here && plain < 0) {
            change.body = Body{};
            Item even;
            even.kind = book_->find_us("k");
            even.spot.which = Spot::Which::each;
            change.body.items = {std::move(even)};
            pattern_.written.push_back(change);
            plain = last_written();
        }
        assign({row, row}, {here ? changes : plain, 0, false, {}}, place(0));
    }
    pattern_.slots[static_cast<std::size_t>(next_row_ - 1)].counted = !told->declared.empty();
    if (label.what == Label::What::next) plain_since_ = true;
    return true;
}

/// The rows of a schedule: those between are worked even.
void PatternReader::assign_turns(const std::vector<Turns>& schedule, std::int64_t changes,
                                 bool silent) {
    std::int64_t between = -1;
    if (std::any_of(schedule.begin(), schedule.end(),
                    [](const Turns& turns) { return turns.period > 1; })) {
        Written plain = pattern_.written[static_cast<std::size_t>(changes)];
        plain.body = Body{};
        plain.fault.reset();
        plain.told.clear();
        plain.first_row = next_row_;
        plain.entry = entry_;
        plain.base = base_;
        plain.text = "work even";
        plain.silent = silent;
        Item even;
        even.kind = book_->find_us("k");
        even.spot.which = Spot::Which::each;
        plain.body.items = {std::move(even)};
        pattern_.written.push_back(std::move(plain));
        between = last_written();
    }
    for (const Turns& turns : schedule) {
        for (std::int64_t turn = 0; turn < turns.times; ++turn) {
            if (turns.period > 1)
                assign({next_row_, next_row_ + turns.period - 2}, {between, 0, false, {}},
                       place(0));
            assign({next_row_, next_row_}, {changes, 0, false, {}}, place(0));
        }
        if (turns.until == 0) continue;
        Slot& last = pattern_.slots[static_cast<std::size_t>(next_row_ - 1)];
        last.until = turns.until;
        last.block = turns.period;
    }
}

std::optional<std::int64_t> PatternReader::rows_of(const OpenEnd& open, std::int64_t block,
                                                   Where where, std::vector<RowFinding>& told) {
    if (open.rows > 0) return open.rows;
    units::Length length = open.length;
    if (open.desired) {
        if (!options_->desired) {
            fail_row(Fault{open.at, "the pattern leaves this length to you",
                           "a length, or a number of rows",
                           "Say how long it is to be, or write how many rows, like: for 40 rows."},
                     where);
            return std::nullopt;
        }
        length = *options_->desired;
    }
    if (!options_->row_gauge) {
        fail_row(Fault{open.at, "how many rows this length takes is not known",
                       "a row gauge, or a number of rows",
                       "Give the gauge with its rows, or write how many rows."},
                 where);
        return std::nullopt;
    }
    const double all = length * *options_->row_gauge / units::row;
    const double rest = all - (open.whole ? static_cast<double>(next_row_ - 1) : 0.0);
    const std::int64_t rows =
        std::max<std::int64_t>(0, std::llround(rest / static_cast<double>(block))) * block;
    told.push_back({Severity::ok, static_cast<std::uint32_t>(open.at),
                    fmt::format("{} rows by the row gauge{}", rows,
                                open.whole && next_row_ > 1
                                    ? fmt::format(", behind the {} before", next_row_ - 1)
                                    : std::string()),
                    ""});
    if (rows > most_rows) return most_rows + 1;
    return rows;
}

}  // namespace skeinfall::notation
