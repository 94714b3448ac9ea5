// Rows that stand for several: repeated ones, open ends, what happens at edges.

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/notation/detail/pattern_reader.hpp"
#include "skeinfall/notation/detail/pattern_worker.hpp"

namespace skeinfall::notation {

namespace {

/// "Rows 4-40: repeat rows 2 and 3 (end row 2)": whether the numbers of the label say so, too.
void tell_end(const Label& label, const std::vector<std::int64_t>& again, std::int64_t offset,
              std::vector<RowFinding>& told) {
    if (label.rows.size() != 1 || label.again->end_row == 0) return;
    const std::int64_t rows = label.rows.front().last - label.rows.front().first;
    const auto at = static_cast<std::size_t>(rows) % again.size();
    if (again[at] - offset != label.again->end_row)
        told.push_back({Severity::caution, static_cast<std::uint32_t>(label.again->at),
                        fmt::format("these rows do not end with row {}", label.again->end_row),
                        "Check the numbers of the rows."});
}

/// "Row 3: rep row 2 until it measures 20 in": from row 3 on, so often as that takes.
[[nodiscard]] bool begins_at_label(const RowsAgain& again, const std::vector<Span>& spans,
                                   std::int64_t block) {
    std::int64_t labelled = 0;
    for (const Span& span : spans) labelled += span.last - span.first + 1;
    const bool one = labelled == 1 && (again.until_row > 0 || again.for_rows > 0 ||
                                       again.times > 1 || again.until_stitches > 0);
    return one || (labelled == block && (again.open_end || again.for_rows > block));
}

/// Whether the rows that come again end with row `last`: "Row 1 and all odd rows", rows 2, 4 and 6,
/// "Rep rows 1-6" follows row 6, though row 7 is known, too.
[[nodiscard]] bool block_ends_at(const RowsAgain& again, std::int64_t last) {
    std::int64_t named = 0;
    for (const Span& span : again.rows) named = std::max(named, span.last);
    return again.rows.empty() ? again.last_rows > 0 && last % again.last_rows == 0 : last == named;
}

}  // namespace

/// "Row 20: ... Row 21: ... Repeat these 2 rows", though "all even rows" are told, too: those two.
bool PatternReader::written_out(std::int64_t rows) const {
    if (rows < 2 || rows >= next_row_ || others_.empty()) return false;
    for (std::int64_t row = next_row_ - rows; row < next_row_; ++row) {
        const Slot& slot = pattern_.slots[static_cast<std::size_t>(row)];
        const bool by_parity =
            slot.written < 0 || std::any_of(others_.begin(), others_.end(), [&](const Others& one) {
                return one.written == slot.written;
            });
        if (by_parity) return false;
    }
    return true;
}

void PatternReader::repeat_rows(const Label& label, Where where, std::vector<RowFinding>& told) {
    const RowsAgain& again = *label.again;
    const auto bad = [&](std::string what, std::string expected, std::string remedy) {
        fail_row(Fault{again.at, std::move(what), std::move(expected), std::move(remedy)}, where);
    };
    std::int64_t first = next_row_;
    // A row by "all even rows" may stand before the next one that is written.
    if (label.rows.empty() && !written_out(again.last_rows))
        while (slot_of(first).written >= 0 && !block_ends_at(again, first - 1 - offset_)) ++first;
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
    const std::int64_t last_rows = again.as_changes ? rows_between_changes() : again.last_rows;
    const std::int64_t left_out = again.first_of > 0 ? last_rows - again.first_of : 0;
    for (std::int64_t back = last_rows; back > left_out && back <= first; --back)
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
    tell_end(label, again_rows, offset_, told);
    const std::int64_t block = static_cast<std::int64_t>(slots.size());
    if (begins_at_label(again, spans, block)) {
        first = spans.front().first;
        spans.clear();
    }
    std::int64_t ends_early = 0;
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
        if (again.unwrapped) {
            const std::int64_t rows = rows_till_unwrapped(again.until_stitches);
            if (rows < 1 || rows % block != 0)
                return bad("how often these rows narrow to so many stitches is not clear",
                           "how often they are worked", "Write it like: rep last 2 rows 8 times.");
            last = first + rows - 1;
        } else if (again.until_stitches > 0) {
            last = first + block - 1;
        }
        if (again.until_blocks > 0 && block == 1) {
            const Written& row = pattern_.written[static_cast<std::size_t>(slots.front().written)];
            for (const Declared& told_of : row.body.declared)
                if (told_of.name.starts_with("block") || told_of.name.starts_with("tile"))
                    last = first + told_of.count - again.until_blocks - 1;
        }
        // "Rep rows 2 and 3." at the end: as long as it is to be
        // In knitting those right above: "Repeat this row." Others once more would be another
        // border.
        const bool above =
            again.last_rows > 0 || (!again_rows.empty() && again_rows.back() + 1 == first &&
                                    slot_of(again_rows.back()).written >= 0 &&
                                    again_rows.back() - again_rows.front() + 1 == block);
        const bool whole =
            book_->craft() == Craft::crochet
                ? block > 1
                : above && !again.as_changes && again.end_row == 0 && again.first_of == 0;
        if (last < first && whole) {
            const auto rows =
                rows_of({.whole = true, .desired = true, .at = again.at}, block, where, told);
            if (!rows || *rows == 0) return;
            last = first + *rows - 1;
        }
        if (again.end_row > 0 && last >= first) {
            // "ending with row 5": the last repeat stops there.
            for (std::int64_t at = 0; at < block; ++at)
                if (again_rows[static_cast<std::size_t>(at)] - offset_ == again.end_row &&
                    (last - first + 1) % block == 0 && last - (block - 1 - at) >= first) {
                    ends_early = block - 1 - at;
                    last -= ends_early;
                    break;
                }
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
            slot.between_markers = again.between_markers;
            if (again.until_stitches > 0 && !again.unwrapped && row == span.last) {
                slot.until = again.until_stitches;
                slot.block = block;
            }
            if (!put(row, slot, where)) return;
            yarn_ = slot.yarn.value_or(yarn_);
        }
    }
    if (again.times > 0 && again.times * block != turn + ends_early)
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

/// "inc 1 st at each side every 8th row until sleeve measures 17 in": as often as that many rows
/// allow.
std::optional<EdgeRows> PatternReader::edges_to_length(const std::vector<Token>& tokens,
                                                       std::vector<RowFinding>& findings) {
    std::vector<Token> cut = tokens;
    const auto open = take_open_end(cut, 0);
    if (!open || cut.size() < 3) return std::nullopt;
    std::size_t row = 0;
    for (std::size_t i = 0; i < cut.size(); ++i)
        if (cut[i].text == "row" || cut[i].text == "rnd" || cut[i].text == "round") row = i;
    if (row == 0) return std::nullopt;
    Token number = cut[row];
    number.kind = TokenKind::number;
    number.value = 1;
    Token times = cut[row];
    times.text = "times";
    cut.insert(cut.begin() + static_cast<std::ptrdiff_t>(row) + 1, {number, times});
    auto told = edge_rows_of(cut);
    if (!told || told->turns.size() != 1 || told->turns.front().times != 1) return std::nullopt;
    const auto rows = rows_of(*open, 1, place(0), findings);
    if (!rows) return std::nullopt;
    Turns& turns = told->turns.front();
    turns.times = *rows / turns.period;
    turns.after = *rows % turns.period;
    if (turns.times == 0 || *rows > most_rows) return std::nullopt;
    return told;
}

std::vector<Token> PatternReader::lengths_as_rows(const std::vector<Token>& tokens,
                                                  std::vector<RowFinding>& findings) {
    std::vector<Token> out;
    for (std::size_t i = 0; i < tokens.size(); ++i) {
        out.push_back(tokens[i]);
        if (!among(tokens[i], {"every", "each"}) || i + 1 >= tokens.size()) continue;
        const Token& length = tokens[i + 1];
        const bool inch = among(length, {"inch", "in"});
        if (length.kind != TokenKind::length && !inch) continue;
        if (!options_->row_gauge) {
            row_fault_ = Fault{length.at, "how many rows this length takes is not known",
                               "a row gauge, or a number of rows",
                               "Give the gauge with its rows, or write it like: every 8th row."};
            return tokens;
        }
        const units::Length every = inch ? 0.0254 * units::metre : length.length;
        Token row = length;
        row.kind = TokenKind::ordinal;
        row.value =
            std::max<std::int64_t>(1, std::llround(every * *options_->row_gauge / units::row));
        findings.push_back({Severity::ok, static_cast<std::uint32_t>(length.at),
                            fmt::format("every {} rows by the row gauge", row.value), ""});
        out.push_back(row);
        row.kind = TokenKind::word;
        row.text = "row";
        out.push_back(row);
        ++i;
    }
    return out;
}

/// "Bind off 0 (2, 3) sts at beg of next 2 rows": none for this size, and so no rows.
bool PatternReader::no_stitches_of_size(const std::vector<Token>& tokens) const {
    if (options_->sizes < 2 || !options_->lenient || tokens.size() < 8) return false;
    std::size_t at = 0;
    if (among(tokens[at], {"bind", "cast"}) && tokens[at + 1].text == "off")
        at = 2;
    else if (among(tokens[at], {"bo", "dec", "inc", "decrease", "increase"}))
        at = 1;
    if (at == 0 || tokens[at].kind != TokenKind::number || tokens[at].value != 0) return false;
    if (!among(tokens[at + 1], {"st", "sts", "stitch", "stitches"}) ||
        !among(tokens[at + 2], {"at", "on", "each"}))
        return false;
    for (std::size_t i = at + 3; i < tokens.size(); ++i)
        if ((tokens[i].kind == TokenKind::comma && i + 2 < tokens.size()) ||
            tokens[i].kind == TokenKind::semicolon ||
            among(tokens[i], {"then", "and", "until", "work", "knit", "k"}))
            return false;
    return true;
}

bool PatternReader::edge_rows(const std::vector<Token>& tokens, std::string_view text) {
    if (book_->craft() != Craft::knit) return false;
    if (no_stitches_of_size(tokens)) {
        Other other;
        other.entry = entry_;
        other.base = base_;
        other.text = base::trimmed(original_.substr(base_, text.size()));
        other.first_row = next_row_;
        pattern_.others.push_back(std::move(other));
        return true;
    }
    std::vector<RowFinding> findings;
    row_fault_.reset();
    const std::vector<Token> by_rows = lengths_as_rows(tokens, findings);
    auto told = edge_rows_of(by_rows);
    if (!told) {
        findings.clear();
        told = edges_to_length(tokens, findings);
    }
    if (!told && row_fault_) {
        fail_line(text, *row_fault_);
        return true;
    }
    if (!told) return false;
    const bool neck = text.find("neck") != std::string_view::npos;
    if (told->what == EdgeRows::What::bind && !neck) {
        // The armhole begins with the first of several bind-offs.
        if (armhole_row_ == 0 || next_row_ > bound_row_ + 12) armhole_row_ = next_row_;
        bound_row_ = next_row_;
    }
    Written change;
    change.entry = entry_;
    change.base = base_;
    change.round = options_->round;
    change.text = base::trimmed(original_.substr(base_, text.size()));
    change.first_row = next_row_;
    change.body.items = edge_items(*told);
    change.body.declared = told->declared;
    change.told = std::move(findings);
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
                    [](const Turns& turns) { return turns.period > 1 || turns.after > 0; })) {
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
        if (turns.after > 0)
            assign({next_row_, next_row_ + turns.after - 1}, {between, 0, false, {}}, place(0));
        if (turns.until == 0) continue;
        Slot& last = pattern_.slots[static_cast<std::size_t>(next_row_ - 1)];
        last.until = turns.until;
        last.block = turns.period;
    }
}

/// The row at which a length begins.
std::int64_t PatternReader::measured_row(OpenEnd::From from) const {
    if (from == OpenEnd::From::piece) return 1;
    return from == OpenEnd::From::armhole && armhole_row_ > 0 ? armhole_row_ : next_row_;
}

std::int64_t PatternReader::worked_since(std::int64_t row) const {
    const std::int64_t rows = next_row_ - row;
    // "Rep last 2 rows until 20 sts rem": how often, only the stitches say.
    Pattern once = pattern_;
    Pattern again = pattern_;
    bool until = false;
    for (std::size_t at = 0; at < once.slots.size(); ++at) {
        if (once.slots[at].until == 0) continue;
        once.slots[at].until = 0;
        if (static_cast<std::int64_t>(at) < row)
            again.slots[at].until = 0;
        else
            until = true;
    }
    if (!until) return rows;
    const auto all = [&](const Pattern& pattern) {
        return static_cast<std::int64_t>(
            PatternWorker(pattern, *options_, *book_).run().rows.order.size());
    };
    return rows + std::max<std::int64_t>(0, all(again) - all(once));
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
        length = open.less ? *options_->desired - open.length : *options_->desired;
    }
    if (!options_->row_gauge) {
        fail_row(
            Fault{open.at, "how many rows this length takes is not known",
                  "a row gauge, or a number of rows",
                  "Give the gauge with its rows, such as 28 per 4 in, or write how many rows."},
            where);
        return std::nullopt;
    }
    const double all = length * *options_->row_gauge / units::row;
    std::int64_t before = open.whole    ? worked_since(measured_row(open.from))
                          : open.in_all ? block
                                        : 0;
    // A length that was passed long ago is measured from elsewhere.
    const bool passed = static_cast<double>(before) > 1.1 * all + static_cast<double>(block);
    if (passed) before = 0;
    const double rest = all - static_cast<double>(before);
    const std::int64_t rows =
        std::max<std::int64_t>(0, std::llround(rest / static_cast<double>(block))) * block;
    const bool here = open.whole && next_row_ > 1 && before == 0;
    told.push_back(
        {passed ? Severity::caution : Severity::ok, static_cast<std::uint32_t>(open.at),
         fmt::format("{} rows by the row gauge{}", rows,
                     before > 0 ? fmt::format(", behind the {} before", before)
                     : passed   ? fmt::format(", measured from here, as the {} rows before are "
                                                "longer already",
                                              next_row_ - 1)
                     : here     ? std::string(", measured from here")
                                : std::string()),
         passed ? "Check where this length begins, or write how many rows." : ""});
    if (rows > most_rows) return most_rows + 1;
    return rows;
}

std::string PatternReader::other_numbers(const Span& span) const {
    const std::int64_t next = next_row_ - offset_;
    const std::int64_t said = span.last - offset_;
    const std::int64_t last = next + span.last - span.first;
    if (span.last == span.first) return fmt::format("Write it as row {}.", next);
    // "Rows 3-8", then "Rows 8-33": the row they share belongs to one of them.
    if (next < said)
        return fmt::format("Write rows {}-{}, or rows {}-{} where all {} are worked.", next, said,
                           next, last, last - next + 1);
    return fmt::format("Write them as rows {}-{}.", next, last);
}

void PatternReader::yarn_behind(const YarnPhrase& phrase, Where where) {
    if (phrase.change) return change_to(phrase.yarn);
    fail({entry_, where.at + phrase.at}, "a yarn behind the rows that it is for",
         "the yarn in front of them", "Write it like: Rows 5-8: With CC1, rep rows 1-4.");
}

}  // namespace skeinfall::notation
