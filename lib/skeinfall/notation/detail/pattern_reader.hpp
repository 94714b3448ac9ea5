#pragma once
/// \file
/// Reads the lines of a piece one after the other. Inner part of the notation.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <functional>
#include <iterator>
#include <map>
#include <optional>
#include <utility>

#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/edge_rows.hpp"
#include "skeinfall/notation/detail/grammar.hpp"
#include "skeinfall/notation/detail/labels.hpp"
#include "skeinfall/notation/detail/pattern.hpp"
#include "skeinfall/notation/detail/phrases.hpp"
#include "skeinfall/notation/detail/row_starts.hpp"

namespace skeinfall::notation {

inline constexpr std::size_t most_problems = 1000;

/// Whether there is a stitch or a chain in it.
inline bool makes(const Item& item) {
    return works(item) || item.what == Item::Do::chain || item.what == Item::Do::ring;
}

/// Whether a line only makes the base that row 1 goes into.
[[nodiscard]] bool makes_base(const Body& body, const StitchBook& book);

/// Whether a stitch of the pattern's own passes over others: "sk 1 st, dc in next st, dc in skipped
/// st". Such a one is worked as its words are.
inline bool says_places(const std::vector<Item>& items) {
    return std::any_of(items.begin(), items.end(),
                       [](const Item& item) { return item.what == Item::Do::skip; });
}

class PatternReader {
  public:
    PatternReader(const NotationOptions& options, StitchBook& book, base::Problems& problems,
                  bool share)
        : options_(&options),
          book_(&book),
          problems_(&problems),
          share_(share),
          yarn_(options.yarn) {}

    Pattern run(const std::vector<WrittenRows>& entries) {
        for (const OwnStitch& stitch : options_->own) define(stitch);
        for (entry_ = 0; entry_ < entries.size(); ++entry_) {
            if (entries[entry_].counted) {
                table(*entries[entry_].counted);
                continue;
            }
            original_ = entries[entry_].text;
            const std::string text = base::lower(original_);
            pattern_.intarsia = pattern_.intarsia || text.find("intarsia") != std::string::npos;
            for (base_ = 0; base_ <= text.size();) {
                const std::size_t end = std::min(text.find('\n', base_), text.size());
                line(std::string_view(text).substr(base_, end - base_));
                base_ = end + 1;
            }
        }
        fill_others();
        return std::move(pattern_);
    }

  private:
    /// A byte of an entry. It becomes a line and a column only when something is wrong there:
    /// finding them for every row would take time with the square of the rows.
    struct Where {
        std::size_t entry = 0;
        std::size_t at = 0;
    };
    [[nodiscard]] Where place(std::size_t at) const { return {entry_, base_ + at}; }

    void fail(Where where, std::string what, std::string expected, std::string remedy) {
        fail(options_->locate(where.entry, where.at), std::move(what), std::move(expected),
             std::move(remedy));
    }
    void fail(base::Place where, std::string what, std::string expected, std::string remedy) {
        if (options_->lenient && in_line_) {
            line_faults_.push_back(
                {std::move(what), std::move(where), std::move(expected), std::move(remedy)});
            return;
        }
        if (problems_->size() < most_problems)
            problems_->push_back(
                {std::move(what), std::move(where), std::move(expected), std::move(remedy)});
    }
    void fail(const Fault& fault) {
        fail(place(fault.at), fault.what, fault.expected, fault.remedy);
    }

    // pattern_base.cpp
    [[nodiscard]] bool hangs_free(const std::vector<Item>& items) const;
    void define(const OwnStitch& own);

    /// The rows of a label as rows of the piece. Numbers that begin anew, or go on behind rows
    /// without a number, follow the rows before them.
    [[nodiscard]] std::vector<Span> placed(const Label& label) {
        std::vector<Span> out = label.rows;
        if (out.empty() || label.what != Label::What::numbered) return out;
        const std::int64_t first = out.front().first;
        const auto taken = [&](std::int64_t row) {
            return row > 0 && row < static_cast<std::int64_t>(pattern_.slots.size()) &&
                   pattern_.slots[static_cast<std::size_t>(row)].written >= 0;
        };
        if (first > 0 && taken(first + offset_)) {
            if (first == own_last_ + 1 || (label.bare && options_->lenient && first > own_last_ &&
                                           book_->craft() == Craft::knit))
                offset_ = next_row_ - first;
            else if (first == 1 && (own_last_ != 1 || plain_since_ || repeated_since_)) {
                offset_ = next_row_ - 1;
                restarts_ = true;
            }
        }
        // Steps were counted with the cast-on: row 1 is no row before it.
        if (first > 0 && first + offset_ < 1 && book_->craft() == Craft::knit)
            offset_ = next_row_ - first;
        // Round 1 was the foundation chain; the numbers begin anew behind it.
        if (first == 1 && offset_ < 0 && own_last_ > 1 && book_->craft() == Craft::crochet) {
            offset_ = next_row_ - 1;
            restarts_ = true;
        }
        // Rows told in words stand before a number that counts them otherwise.
        if (options_->lenient && book_->craft() == Craft::knit && plain_since_ && first > 1 &&
            first + offset_ > next_row_ && !label.again) {
            offset_ = next_row_ - first;
            called_ = first;
        }
        // Plain rows stand before a number that only counts the numbered ones.
        if ((label.bare || row_base_) && bare_base_ && first == own_last_ + 1)
            offset_ = next_row_ - first;
        own_last_ = out.back().last;
        plain_since_ = repeated_since_ = false;
        for (Span& span : out) {
            if (span.first == 0) continue;
            span.first += offset_;
            span.last += offset_;
        }
        return out;
    }

    /// The rows that an open end comes to, of blocks of `block`; nothing where it cannot be told.
    [[nodiscard]] std::optional<std::int64_t> rows_of(const OpenEnd& open, std::int64_t block,
                                                      Where where, std::vector<RowFinding>& told);

    [[nodiscard]] std::int64_t measured_row(OpenEnd::From from) const;
    /// Rows from `row` on, with those that are repeated until there are so many stitches.
    [[nodiscard]] std::int64_t worked_since(std::int64_t row) const;

    void fail_row(Fault fault, Where where) {
        if (options_->lenient)
            row_fault_ = std::move(fault);
        else
            fail(Where{where.entry, where.at + fault.at}, fault.what, fault.expected, fault.remedy);
    }

    /// The numbers to write for rows that are written twice.
    [[nodiscard]] std::string other_numbers(const Span& span) const;

    /// Puts a written row (or several of a table) into the rows first..last.
    void assign(const Span& span, const Slot& slot, Where where) {
        if (span.last > most_rows) {
            fail(where, "there are too many rows", "at most 1000000 rows", "");
            return;
        }
        if (static_cast<std::int64_t>(pattern_.slots.size()) <= span.last)
            pattern_.slots.resize(static_cast<std::size_t>(span.last) + 1);
        const Written& written = pattern_.written[static_cast<std::size_t>(slot.written)];
        yarn_ = written.yarns.starts.value_or(yarn_);
        changed_ = false;
        offset_of_[span.first] = offset_;
        for (std::int64_t row = span.first; row <= span.last; ++row) {
            Slot& old = pattern_.slots[static_cast<std::size_t>(row)];
            if (old.written >= 0 && options_->lenient) {
                pattern_.written[static_cast<std::size_t>(slot.written)].told.push_back(
                    {Severity::stop, 0,
                     "row " + std::to_string(row - offset_) +
                         " is written twice; this one is taken as the next row",
                     other_numbers(span)});
                const std::int64_t moved = next_row_ - span.first;
                offset_ += moved;
                return assign({next_row_, span.last + moved}, slot, where);
            }
            if (old.written >= 0) {
                fail(where, "row " + std::to_string(row) + " is written twice", "every row once",
                     other_numbers(span));
                return;
            }
            old = slot;
            if (!between_.empty()) {
                old.before = static_cast<std::int64_t>(pattern_.between.size());
                pattern_.between.push_back(std::move(between_));
                between_.clear();
            }
            old.yarn = yarn_;
            if (written.counted) old.within = row - span.first;
        }
        next_row_ = std::max(next_row_, span.last + 1);
    }

    void table(const CountedRows& counted) {
        base_ = 0;
        Written written;
        written.entry = entry_;
        written.counted = counted;
        written.round = options_->round;
        written.first_row = next_row_;
        for (auto* kinds : {&written.counted->kinds, &written.counted->increase})
            for (KindCount& kind : *kinds) name_kind(kind);
        pattern_.written.push_back(std::move(written));
        assign({next_row_, next_row_ + counted.rows - 1}, {last_written(), 0, false, {}}, place(0));
    }

    void name_kind(KindCount& kind) {
        const auto named = book_->find(base::lower(kind.kind));
        if (named && !named->other_terms) {
            kind.kind = book_->at(named->kind).name;
            return;
        }
        const auto near = base::nearest_name(kind.kind, book_->names());
        fail(place(0), "\"" + base::shown_inert(kind.kind) + "\" is no known stitch",
             "the abbreviation of a stitch",
             near ? "Did you mean \"" + *near + "\"?" : "Describe it in a [stitch.NAME] table.");
    }

    [[nodiscard]] const std::vector<Item>& items_of_last() const {
        return pattern_.written.back().body.items;
    }

    [[nodiscard]] std::int64_t last_written() const {
        return static_cast<std::int64_t>(pattern_.written.size()) - 1;
    }

    void line(std::string_view text) {
        const auto plain = share_ ? plain_row(text) : std::nullopt;
        if (!plain) return full_line(text);
        std::map<std::string, std::int64_t, std::less<>>& known = known_[plain->round ? 1 : 0];
        if (const auto same = known.find(plain->body); same != known.end()) {
            assign({plain->number, plain->number}, {same->second, 0, true, {}}, place(0));
            change_to(pattern_.written[static_cast<std::size_t>(same->second)].yarns.ends);
            pattern_.shared = true;
            return;
        }
        const std::size_t before = pattern_.written.size();
        full_line(text);
        const bool one_row =
            pattern_.written.size() == before + 1 && others_.empty() &&
            plain->number < static_cast<std::int64_t>(pattern_.slots.size()) &&
            pattern_.slots[static_cast<std::size_t>(plain->number)].written == last_written();
        if (one_row) known.emplace(plain->body, last_written());
    }

    void change_to(std::optional<std::size_t> yarn) {
        if (!yarn) return;
        yarn_ = *yarn;
        changed_ = true;
    }

    void full_line(std::string_view text);
    void full_line_of(std::string_view text);
    [[nodiscard]] std::optional<Fault> increases_twice(const std::vector<Token>& tokens) const;
    /// "Same as last round but ch 7 instead of ch 6"; false for others.
    bool changed_row(const std::vector<Token>& tokens, std::string_view text);
    [[nodiscard]] bool closes_round(const std::vector<Item>& items, const Label& label) const;
    void keep_said(std::size_t first, const std::vector<SetAside>& said);
    void name_groups(Body& body);
    [[nodiscard]] std::optional<Body> border_by_count(const Fault& fault,
                                                      const std::vector<Token>& tokens,
                                                      std::size_t from) const;
    void place_own(Body& body);
    void place_own(std::vector<Item>& items, std::optional<Fault>& fault) const;
    void split_base(Written& written);
    bool split_chainless(Written& written);
    void close_loop(std::vector<Item>& items) const;
    void close_bare(std::vector<Item>& items) const;
    static void name_row_below(std::vector<Token>& tokens, std::int64_t row);
    static void gather(std::vector<Item>& items, bool begins);
    void turn_each(Body& body);
    void salvage_base(const std::vector<Token>& tokens, Written& written);
    void as_before(const std::vector<Token>& tokens, std::size_t from);
    void bound_at_edge(Body& body, std::string_view text) const;
    void rows_alone(const std::vector<Token>& tokens, Body& body) const;
    [[nodiscard]] std::optional<Fault> passed_over(std::string_view text, const Label& label) const;

    void colours_within(std::string_view text, Written& written, std::optional<Fault>& fault);

    /// "every 1½ inches 4 times" as "every 9th row 4 times", by the row gauge.
    [[nodiscard]] std::vector<Token> lengths_as_rows(const std::vector<Token>& tokens,
                                                     std::vector<RowFinding>& findings);
    /// Rows told by what happens at their edges; false for others.
    bool edge_rows(const std::vector<Token>& tokens, std::string_view text);
    [[nodiscard]] bool no_stitches_of_size(const std::vector<Token>& tokens) const;
    std::optional<EdgeRows> edges_to_length(const std::vector<Token>& tokens,
                                            std::vector<RowFinding>& findings);
    bool edges_of_rows(const std::vector<Token>& tokens, std::string_view text, const Label& label,
                       const std::vector<Span>& spans);
    [[nodiscard]] std::vector<Item> edge_items(const EdgeRows& told) const;
    void pass_lead(std::vector<Token>& tokens, std::vector<SetAside>& aside) const;
    void pass_chain_lead(std::vector<Token>& tokens, std::vector<SetAside>& aside) const;
    bool goes_on_turning(const std::vector<Token>& tokens, std::string_view text);
    void check_heel(const std::vector<Token>& tokens, std::int64_t heel, std::int64_t row);
    [[nodiscard]] std::int64_t rows_between_changes() const;
    [[nodiscard]] std::int64_t rows_till_unwrapped(std::int64_t stitches) const;
    [[nodiscard]] bool goes_on_unsaid(const Label& label, const std::optional<OpenEnd>& open_end,
                                      std::string_view text) const;
    [[nodiscard]] std::int64_t tendency_of(const Body& body) const;
    void expand_markers(std::vector<Token>& tokens) const;
    void keep_below(Written& written) const;
    /// "Continue decreasing in this manner until 20 sts remain"; false for others.
    bool goes_on_changing(const std::vector<Token>& tokens, std::string_view text);

    void assign_turns(const std::vector<Turns>& schedule, std::int64_t changes,
                      bool silent = false);

    /// "Rows 5-8: rep rows 1-4, change to CC1": for what follows.
    void yarn_behind(const YarnPhrase& phrase, Where where);
    void joined_border(Written& written, std::optional<Fault>& wrong,
                       const std::vector<Token>& tokens, std::size_t from) const;

    /// What stands behind "rep row 5": a count, or remarks like "Fasten off."
    void behind(Grammar& grammar) {
        const Body body = grammar.row();
        const auto wrong = [&](const Fault& fault) {
            if (!options_->lenient) return fail(fault);
            pattern_.others.back().fault = fault;
        };
        if (grammar.fault()) return wrong(*grammar.fault());
        Behind told{next_row_ - 1, entry_, base_, body.declared, 0, std::nullopt};
        for (std::size_t i = 0; i < body.items.size(); ++i) {
            const Item& item = body.items[i];
            if (item.what == Item::Do::turn || item.what == Item::Do::join) continue;
            // "Repeat row 2. Ch 3, turn."
            const bool turns = item.what == Item::Do::chain &&
                               (item.count == 1 || (i + 1 < body.items.size() &&
                                                    body.items[i + 1].what == Item::Do::turn));
            if (!turns)
                return wrong(Fault{item.at, "stitches behind a repeat of rows",
                                   "the repeat alone, or a count behind it",
                                   "Write them as a row of their own."});
            told.turns = item.count > 1 ? item.count : 0;
            told.note = item.note;
        }
        if (!told.declared.empty() || told.turns > 0) pattern_.behind.push_back(std::move(told));
    }

    /// A line that cannot even be placed among the rows.
    void fail_line(std::string_view text, const Fault& fault) {
        if (!options_->lenient) return fail(fault);
        Other other;
        other.entry = entry_;
        other.base = base_;
        other.text = base::trimmed(original_.substr(base_, text.size()));
        other.first_row = next_row_;
        other.fault = fault;
        plain_since_ = true;
        pattern_.others.push_back(std::move(other));
    }

    void set_aside(std::string_view text);
    [[nodiscard]] std::optional<Fault> goes_on_unsaid(const std::vector<Token>& tokens,
                                                      const Label& label, const Written& written,
                                                      bool yarns) const;

    /// "Join in the round.", "pm": nothing is worked.
    static bool only_prepares(const std::vector<Item>& items) {
        return std::all_of(items.begin(), items.end(), [](const Item& item) {
            return item.what == Item::Do::join || item.what == Item::Do::turn || between(item) ||
                   item.what == Item::Do::marker || item.what == Item::Do::at_marker ||
                   item.what == Item::Do::drop_marker;
        });
    }

    /// "Sl st to first sc and fasten off.": a line of its own that ends a piece in the round.
    [[nodiscard]] bool only_closes(const Body& body) const {
        const std::vector<Item>& items = body.items;
        // "Slip stitch and cut yarn."
        const bool finishes =
            std::any_of(body.aside.begin(), body.aside.end(),
                        [](const SetAside& one) { return one.why == SetAside::Why::finishing; });
        return book_->craft() == Craft::crochet && !items.empty() && !pattern_.slots.empty() &&
               std::all_of(items.begin(), items.end(), [&](const Item& item) {
                   return item.what == Item::Do::work && item.kind == book_->slip_stitch() &&
                          item.count == 1 &&
                          (item.spot.which == Spot::Which::first ||
                           (finishes && item.spot.which == Spot::Which::implied) ||
                           (item.spot.which == Spot::Which::next && item.spot.count == 1));
               });
    }

    /// What only moves stitches between needles and holders.
    static bool between(const Item& item) {
        return item.what == Item::Do::hold || item.what == Item::Do::unhold ||
               item.what == Item::Do::work_only || item.what == Item::Do::let_go;
    }

    /// Holders and needles are seen to before the next row.
    void keep_between(const Body& body) {
        for (const Item& item : body.items)
            if (between(item)) between_.push_back(item);
        keep_finished(body);
    }

    /// "draw yarn through the remaining sts": nothing is worked on these any more.
    void keep_finished(const Body& body) {
        for (const SetAside& aside : body.aside)
            if (aside.why == SetAside::Why::finishing &&
                (aside.words.find("through") != std::string::npos ||
                 aside.words.find("graft") != std::string::npos ||
                 aside.words.find("kitchener") != std::string::npos)) {
                Item item;
                item.what = Item::Do::let_go;
                between_.push_back(std::move(item));
            }
    }

    void keep_notes(const Body& body) {
        for (const Item& item : body.items)
            if (item.what == Item::Do::chain && item.note && item.note->throughout)
                pattern_.notes.emplace(item.count, *item.note);
    }

    /// What is worked in a row that was written before, or by "and all even rows".
    [[nodiscard]] Slot slot_of(std::int64_t row) const {
        if (row >= 0 && row < static_cast<std::int64_t>(pattern_.slots.size())) {
            const Slot& slot = pattern_.slots[static_cast<std::size_t>(row)];
            if (slot.written >= 0) return slot;
        }
        for (const Others& others : others_)
            if (row >= others.from && row % 2 == others.parity) {
                const auto& yarns =
                    pattern_.written[static_cast<std::size_t>(others.written)].yarns;
                return {others.written, 0, false, yarns.starts};
            }
        return {};
    }

    void repeat_rows(const Label& label, Where where, std::vector<RowFinding>& told);
    [[nodiscard]] bool written_out(std::int64_t rows) const;

    bool put(std::int64_t row, const Slot& slot, Where where) {
        if (static_cast<std::int64_t>(pattern_.slots.size()) <= row)
            pattern_.slots.resize(static_cast<std::size_t>(row) + 1);
        Slot& old = pattern_.slots[static_cast<std::size_t>(row)];
        if (old.written >= 0) {
            fail_row(Fault{where.at - base_, "row " + std::to_string(row) + " is written twice",
                           "every row once", "Correct the row numbers."},
                     where);
            return false;
        }
        old = slot;
        old.counted = false;
        old.before = -1;
        next_row_ = std::max(next_row_, row + 1);
        return true;
    }

    /// Gives the rows of "all even rows" their instructions; what is left then is missing.
    void fill_others() {
        for (std::int64_t row = 1; row < static_cast<std::int64_t>(pattern_.slots.size()); ++row) {
            Slot& slot = pattern_.slots[static_cast<std::size_t>(row)];
            if (slot.written < 0) {
                slot = slot_of(row);
                slot.counted = false;
            }
            if (slot.written < 0 && options_->lenient) {
                tell_gap(row);
                continue;
            }
            if (slot.written < 0 && problems_->empty())
                fail(Where{}, "row " + std::to_string(row) + " is not written",
                     "every row from 1 to the last",
                     "Write it, or correct the numbers of the rows around it.");
            if (row > 1 && !slot.yarn)
                slot.yarn = pattern_.slots[static_cast<std::size_t>(row) - 1].yarn;
            if (slot.written >= 0) ++pattern_.written[static_cast<std::size_t>(slot.written)].uses;
        }
    }

    /// In a pattern that is read as far as it goes, the next row tells what is missing.
    void tell_gap(std::int64_t row) {
        for (std::int64_t next = std::max(row + 1, gap_end_);
             next < static_cast<std::int64_t>(pattern_.slots.size()); ++next) {
            const Slot& slot = pattern_.slots[static_cast<std::size_t>(next)];
            if (slot.written < 0) continue;
            gap_end_ = next;
            std::vector<RowFinding>& told =
                pattern_.written[static_cast<std::size_t>(slot.written)].told;
            const auto numbered = offset_of_.upper_bound(next);
            const std::int64_t offset =
                numbered == offset_of_.begin() ? offset_ : std::prev(numbered)->second;
            // "Foundation row: ..." and then "Row 2"
            if (row - offset == 1 && book_->craft() == Craft::crochet &&
                pattern_.slots.front().written >= 0) {
                told.push_back({Severity::ok, 0, "the foundation row is taken for row 1", ""});
                return;
            }
            if (told.size() < 5)
                told.push_back({Severity::stop, 0,
                                "row " + std::to_string(row - offset) + " before it is not written",
                                "Write it, or correct the numbers of the rows around it."});
            return;
        }
    }

    struct Others {
        std::int64_t from = 0;
        std::int64_t parity = 0;
        std::int64_t written = 0;
    };

    const NotationOptions* options_;
    StitchBook* book_;
    base::Problems* problems_;
    bool share_;
    std::size_t yarn_;     ///< of the rows to come
    bool changed_ = true;  ///< since the last row, to yarn_
    /// The words behind "Row n:" and behind "Rnd n:", and what was written with them.
    std::array<std::map<std::string, std::int64_t, std::less<>>, 2> known_;
    Pattern pattern_;
    std::size_t entry_ = 0;
    std::size_t base_ = 0;
    std::string_view original_;  ///< the entry before its letters were made small
    std::int64_t next_row_ = 1;
    std::int64_t gap_end_ = 0;  ///< the row behind the gap that was told of last
    std::int64_t offset_ = 0;   ///< of the numbers of labels to the rows of the piece
    std::map<std::int64_t, std::int64_t> offset_of_;  ///< by the first row that has it
    std::int64_t own_last_ = 0;                       ///< the last number of a label
    bool plain_since_ = false;                        ///< rows without a number have come since
    bool repeated_since_ = false;                     ///< "rep rnd 1 until ..." has come since
    std::int64_t turns_each_ = 0;                     ///< chains that every row ends with
    bool restarts_ = false;                           ///< numbers began anew with this line
    std::int64_t called_ = 0;        ///< the number of its label, where rows before it were fewer
    std::int64_t armhole_row_ = 0;   ///< where stitches were bound off at an edge first
    std::int64_t bound_row_ = 0;     ///< where they were last
    bool bare_base_ = false;         ///< "1. Cast on ..." took a number
    bool row_base_ = false;          ///< "Row 1: ch 60." did
    std::int64_t right_parity_ = 1;  ///< of the rows on the right side
    std::optional<Fault> row_fault_;
    bool in_line_ = false;
    base::Problems line_faults_;  ///< of the line being read, where others go on
    std::vector<Item> between_;   ///< holders and needles since the last row
    std::vector<Others> others_;
};

}  // namespace skeinfall::notation
