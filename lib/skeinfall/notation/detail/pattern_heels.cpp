// Heels turned "until all stitches have been worked", and repeats that markers end.

#include <algorithm>
#include <cstdint>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/notation/detail/pattern_reader.hpp"
#include "skeinfall/notation/detail/tokens.hpp"

namespace skeinfall::notation {
namespace {

/// A short row of stitches by number: what it takes and makes up to its turn.
struct ShortRow {
    std::int64_t takes = 0;
    std::int64_t makes = 0;
    std::int64_t beyond = 0;  ///< "to 1 st before gap, ssk, k1": how far it goes past the gap
    std::size_t varies = 0;   ///< the item of the longest plain stretch
    bool to_gap = false;
};

std::optional<ShortRow> short_row(const std::vector<Item>& items, const StitchBook& book) {
    if (items.size() < 2 || items.back().what != Item::Do::turn) return std::nullopt;
    ShortRow out;
    std::int64_t longest = -1;
    for (std::size_t i = 0; i + 1 < items.size(); ++i) {
        const Item& item = items[i];
        if (item.what != Item::Do::work || item.count < 0) return std::nullopt;
        const Stitch& stitch = book.at(item.kind);
        if (item.spot.which == Spot::Which::each && item.spot.to_gap && !out.to_gap) {
            out.to_gap = true;
            out.beyond = -item.spot.keep;
            continue;
        }
        if (item.spot.which != Spot::Which::implied) return std::nullopt;
        out.takes += item.count * stitch.takes;
        out.makes += item.count * stitch.makes;
        if (out.to_gap) out.beyond += item.count * stitch.takes;
        if (stitch.takes == 1 && stitch.makes == 1 && item.count > longest) {
            longest = item.count;
            out.varies = i;
        }
    }
    return out;
}

bool all_worked(const std::vector<Token>& tokens) {
    std::size_t i = 0;
    while (among(tokens[i], {"then", "and", "now"})) ++i;
    if (!among(tokens[i], {"continue", "cont", "rep", "repeat", "work"})) return false;
    bool until = false;
    bool all = false;
    bool turn = false;
    for (; tokens[i].kind != TokenKind::end && tokens[i].kind != TokenKind::full_stop; ++i) {
        until = until || among(tokens[i], {"until", "till"});
        all = all || (until && among(tokens[i], {"all", "every", "no"}));
        turn = turn || (all && among(tokens[i], {"worked", "used", "decreased", "side", "left",
                                                 "incorporated", "consumed"}));
    }
    return all && turn;
}

}  // namespace

/// "Continue in this manner until all heel sts have been worked": the short rows before show how
/// many are left on either side, and how far each row goes.
bool PatternReader::goes_on_turning(const std::vector<Token>& tokens, std::string_view text) {
    if (book_->craft() != Craft::knit || next_row_ < 5 || !all_worked(tokens)) return false;
    const auto items_of = [&](std::int64_t row) -> const std::vector<Item>* {
        const Slot slot = slot_of(row);
        if (slot.written < 0) return nullptr;
        const Written& written = pattern_.written[static_cast<std::size_t>(slot.written)];
        return written.fault ? nullptr : &written.body.items;
    };
    const auto part = [&](std::int64_t row) -> std::optional<ShortRow> {
        const auto* items = row > 0 ? items_of(row) : nullptr;
        return items == nullptr ? std::nullopt : short_row(*items, *book_);
    };
    const std::int64_t last = next_row_ - 1;
    std::int64_t first = 0;
    for (std::int64_t row = last; row > 1 && row > last - 40; row -= 2) {
        const auto there = part(row - 1);
        const auto back = part(row);
        if (!there || !back) break;
        if (!there->to_gap && !back->to_gap && back->takes < there->makes) {
            first = row;
            break;
        }
    }
    if (first == 0 || first == last) return false;
    const std::int64_t rest = part(first - 1)->makes - part(first)->takes;
    std::int64_t left = rest;
    std::int64_t step = 0;
    for (std::int64_t row = first + 2; row <= last; row += 2) {
        const ShortRow back = *part(row);
        step = back.to_gap ? back.beyond : back.takes - part(row - 1)->makes;
        left -= step;
    }
    const std::vector<Item>* const one = items_of(last - 1);
    const std::vector<Item>* const two = items_of(last);
    const ShortRow there = *part(last - 1);
    const ShortRow back = *part(last);
    std::int64_t grows = 0;
    if (!there.to_gap && last - 2 > first) {
        grows = back.takes - part(last - 2)->takes;
        if (there.takes - part(last - 3)->takes != grows) return false;
    } else if (!there.to_gap) {
        grows = step;  // each row closes one stitch and goes on to the next
        if (there.makes != back.takes - step) return false;
        if (step == 1) grows = 0;
    }
    if (step < 1 || step > 4 || left < 0 || rest > 200) return false;
    const std::int64_t pairs = left / step;
    const bool short_pair = left % step > 0;
    std::vector<std::pair<std::vector<Item>, std::vector<Item>>> rows;
    for (std::int64_t pair = 1; pair <= pairs + (short_pair ? 1 : 0); ++pair) {
        std::vector<Item> rs = *one;
        std::vector<Item> ws = *two;
        if (!there.to_gap) {
            rs[there.varies].count += grows * pair;
            ws[back.varies].count += grows * pair;
        }
        if (pair > pairs) {  // one stitch is left on either side: nothing behind the decrease
            rs.erase(rs.end() - 2);
            ws.erase(ws.end() - 2);
        }
        rows.emplace_back(std::move(rs), std::move(ws));
    }
    Written model = pattern_.written[static_cast<std::size_t>(slot_of(last).written)];
    model.entry = entry_;
    model.base = base_;
    model.text = base::trimmed(original_.substr(base_, text.size()));
    model.body.declared.clear();
    model.body.aside.clear();
    model.told = {{Severity::ok, 0,
                   fmt::format("taken to go on for {} rows, until all stitches of the heel are "
                               "worked",
                               2 * rows.size()),
                   ""}};
    const std::int64_t begins = next_row_;
    for (auto& [rs, ws] : rows)
        for (auto* items : {&rs, &ws}) {
            Written written = model;
            written.first_row = next_row_;
            written.body.items = std::move(*items);
            if (next_row_ > begins) written.told.clear();
            pattern_.written.push_back(std::move(written));
            assign({next_row_, next_row_}, {last_written(), 0, false, {}}, place(0));
        }
    check_heel(tokens, part(first - 1)->takes + rest - (next_row_ - first + 1), begins);
    plain_since_ = true;
    return next_row_ > begins;
}

/// "18 heel sts remain" behind it is their number.
void PatternReader::check_heel(const std::vector<Token>& tokens, std::int64_t heel,
                               std::int64_t row) {
    for (std::size_t i = 1; i + 2 < tokens.size(); ++i) {
        if (tokens[i].kind != TokenKind::number) continue;
        std::size_t to = i + 1;
        if (among(tokens[to], {"heel"})) ++to;
        if (!among(tokens[to], {"st", "sts", "stitches"})) continue;
        if (!among(tokens[to + 1], {"remain", "rem", "left", "remaining"}) &&
            tokens[to + 1].kind != TokenKind::close && tokens[to + 1].kind != TokenKind::end &&
            !among(tokens[to + 1], {"on"}))
            continue;
        if (tokens[i].value == heel) return;
        const Slot slot = slot_of(row);
        pattern_.written[static_cast<std::size_t>(slot.written)].told.push_back(
            {Severity::stop, 0,
             fmt::format("the pattern says {} stitches of the heel remain; these rows leave {}",
                         tokens[i].value, heel),
             "Correct the count, or write the rows out."});
        return;
    }
}

/// How many more short rows leave `stitches` between their turns, each turning as far before the
/// one below as the rows above do; 0 where they do not show it.
std::int64_t PatternReader::rows_till_unwrapped(std::int64_t stitches) const {
    std::int64_t narrower = 0;
    std::int64_t step = 0;
    for (std::int64_t row = next_row_ - 1; row > 0 && row > next_row_ - 40; --row) {
        const Slot slot = slot_of(row);
        if (slot.written < 0) return 0;
        const Written& written = pattern_.written[static_cast<std::size_t>(slot.written)];
        if (written.fault) return 0;
        const auto part = short_row(written.body.items, *book_);
        if (!part) return 0;
        if (part->to_gap) {
            if (part->beyond >= 0 || (step != 0 && step != -part->beyond)) return 0;
            step = -part->beyond;
            narrower += step;
            continue;
        }
        // The first one slipped is a double stitch itself, one at least of those between.
        const Item& begins = written.body.items.front();
        const bool slipped = begins.what == Item::Do::work && book_->at(begins.kind).name == "sl" &&
                             begins.count == 1;
        const std::int64_t left = part->takes - narrower - stitches - (slipped ? 1 : 0);
        if (step < 1 || left < 1 || left % step != 0) return 0;
        return slipped ? left / step - left / step % 2 : left / step;
    }
    return 0;
}

/// How many rows lie from one change of the stitches to the next, by the rows before; 0: unclear.
std::int64_t PatternReader::rows_between_changes() const {
    const auto changes = [&](std::int64_t row) {
        const Slot slot = slot_of(row);
        return slot.written >= 0 &&
               tendency_of(pattern_.written[static_cast<std::size_t>(slot.written)].body) != 0;
    };
    std::int64_t last = next_row_ - 1;
    while (last > 0 && last > next_row_ - 12 && !changes(last)) --last;
    if (last <= 0 || !changes(last)) return 0;
    std::int64_t before = last - 1;
    while (before > 0 && before > last - 12 && !changes(before)) --before;
    if (before > 0 && changes(before) && last - before <= 12) return last - before;
    return next_row_ - last;
}

}  // namespace skeinfall::notation
