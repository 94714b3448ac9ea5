#pragma once
/// \file
/// Works the rows of a piece one on the other. Inner part of the notation.

#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "skeinfall/notation/detail/pattern.hpp"
#include "skeinfall/notation/detail/readings.hpp"
#include "skeinfall/notation/notation.hpp"

namespace skeinfall::notation {

class PatternWorker {
  public:
    PatternWorker(const Pattern& pattern, const NotationOptions& options, StitchBook& book)
        : pattern_(&pattern),
          options_(&options),
          book_(&book),
          memory_(pattern.written.size()),
          settled_(pattern.written.size()) {
        context_ = {book_, &pattern.make_ups, &pattern.notes, &steps_};
        context_.turnings = &turnings_;
    }

    NotationResult run();

    /// A change to a row's words that is tried.
    struct Change {
        std::size_t from = 0;  ///< bytes of the row's text that are taken out
        std::size_t to = 0;
        std::string instead;
        bool whole = false;     ///< between signs: a clause, a bracket, a sentence
        bool spelling = false;  ///< a word of every pattern, spelt nearly so
    };

  private:
    /// A row that cannot be followed is told; the next count sets the work right again.
    bool work_leniently(const Slot& slot);
    /// Behind a row whose words and count part, on whichever of the two this row fits: one slip is
    /// told once.
    bool work_on_either(const Slot& slot);
    [[nodiscard]] bool stops_since(std::size_t findings) const;

    [[nodiscard]] Edge counted_edge(std::int64_t count) const;

    void give_readings();

    /// A change around byte `at` of the line that makes the row one that goes into the row below
    /// and comes to its count.
    std::optional<Proposal> propose(const Written& written, std::size_t at);
    std::optional<Proposal> plain_instead(const Written& written, const Edge& below);
    std::optional<Proposal> with_change(const Written& written, const Edge& below,
                                        const Change& change, std::size_t shown_to);
    [[nodiscard]] std::optional<Proposal> sewn_up(const Written& written) const;
    std::optional<Proposal> repair_knit(const Written& written, const Edge& below);
    [[nodiscard]] static std::size_t before_count(const Written& written);
    std::optional<Proposal> plain_guess(const Written& written);
    [[nodiscard]] bool names_needles(std::string_view words) const;
    [[nodiscard]] std::optional<Proposal> even_to_length(const Written& written) const;
    [[nodiscard]] bool plainly_one_row(const Written& written) const;
    [[nodiscard]] bool shapes(const std::string& text) const;
    /// Whether the rows behind this one come to their next count from `count` stitches; nothing
    /// where none of them has one.
    [[nodiscard]] std::optional<bool> leads_on(std::int64_t count);
    std::optional<Proposal> repair(const Written& written, const Edge& below);
    void add_spellings(const Written& written, std::size_t here,
                       std::vector<Change>& changes) const;
    [[nodiscard]] std::string plain_kind(const Written& written) const;
    [[nodiscard]] std::optional<Body> body_of(const std::string& text) const;
    [[nodiscard]] bool holds_no_work(std::string_view words) const;

    /// Works the rows up to `row` again until as many stitches are left as its slot says.
    bool go_on(std::size_t row);

    void add_yarn(const std::string& id) {
        std::vector<Stripe>& stripes = result_.rows.stripes;
        if (stripes.empty() || stripes.back().role != id) stripes.push_back({id, 0});
        ++stripes.back().rows;
    }

    /// Rows are counted as they are worked, a set-up row too; the pattern counts from behind it.
    void number_by_pattern();

    struct Known {
        Edge below;
        Edge edge;
        std::uint32_t work = 0;
        bool counted = false;  ///< it came to what it declares
        std::uint16_t own_yarn = 0;
    };

    void know_turning(const TurningKey& key, const Outcome& outcome, bool counted);
    void report(const Written& written, Severity severity, std::size_t at, std::string what,
                std::string remedy);

    void report(const Written& written, const Outcome& outcome, bool counted_below);

    /// Unknown names and names of the other terms, each once.
    void names_of(const Written& written);

    void add_to(RowWork& sum, const RowWork& work) {
        for (const KindCount& kind : work.kinds) {
            const auto known =
                std::find_if(sum.kinds.begin(), sum.kinds.end(),
                             [&](const KindCount& other) { return other.kind == kind.kind; });
            if (known == sum.kinds.end())
                sum.kinds.push_back(kind);
            else
                known->count += kind.count;
        }
    }

    /// The yarns of a row by their ids; in intarsia the ends that are begun.
    void name_colours(Outcome& outcome);

    /// Takes stitches up from a holder; how many. Those that are said count where none are known.
    std::int64_t taken_up(const Item& item);

    /// The lines before row 1: chains are worked into, a ring is not.
    void foundation();
    /// What the cast-on's own line says of its count.
    bool picked_beside(const Slot& slot, const Edge& before, std::size_t findings,
                       std::size_t orders);
    bool beyond_round(const Slot& slot, const Edge& before, std::size_t findings,
                      std::size_t orders);
    void check_base(std::int64_t base);
    [[nodiscard]] std::int64_t between_markers(std::int64_t wanted) const;

    /// Whether the first row goes into the ring itself, or does not say.
    [[nodiscard]] bool into_ring() const;

    [[nodiscard]] Edge base_of(std::int64_t count) const {
        Edge edge;
        edge.foundation = book_->craft() == Craft::crochet;
        const KindId kind = edge.foundation ? book_->chain() : book_->find_us("CO");
        edge.stretches = {{1, {{{kind, 0}, count}}}};
        edge.settle();
        return edge;
    }

    bool work(const Slot& slot);
    [[nodiscard]] std::optional<Body> with_corners(const Written& written, RowFinding& told) const;

    /// Stitches are put on holders or taken up again before a row.
    void between_rows(const std::vector<Item>& items, const Written& next);

    [[nodiscard]] bool begins_unsaid(const Written& written, const Outcome& outcome) const;

    /// The count behind "rep row 5", once the last of its rows is worked.
    void count_behind();

    bool give_up(const Written& written, const Outcome& outcome);

    void problem(const Written& written, std::string what, std::string expected, std::string remedy,
                 std::size_t at = 0) {
        result_.problems.push_back({std::move(what),
                                    options_->locate(written.entry, written.base + at),
                                    std::move(expected), std::move(remedy)});
    }

    /// Adds the row; its edge as the next row finds it becomes the edge below.
    void take(const Written& written, Outcome outcome);
    void note_change(const Outcome& outcome);
    [[nodiscard]] bool works_on_nothing(const Outcome& outcome) const;

    /// A row of a table, `within` rows (from 0) behind its first.
    Outcome counted_row(const CountedRows& counted, std::int64_t within);

    /// Turning chains that fit the other terms and never these.
    void tell_terms();

    const Pattern* pattern_;
    const NotationOptions* options_;
    StitchBook* book_;
    Context context_;
    std::int64_t steps_ = 0;
    NotationResult result_;
    Edge below_;
    std::map<std::string, std::int64_t> blocks_;        ///< intarsia: of each yarn in this row ...
    std::map<std::string, std::int64_t> blocks_below_;  ///< ... and in the row below
    std::vector<std::int64_t> held_;  ///< stitches on each holder, in the order they were put there
    bool ring_ = false;
    /// Of the row before, when a chain at its beginning may count the other way and it has no count
    /// itself: what it takes to work it again.
    struct Before {
        const Written* written = nullptr;
        Edge below;
        unsigned taken = 0;
        bool ring = false;
        bool times = false;  ///< how often a repeat is worked, not its chain, is in doubt
    };
    std::optional<Before> before_;  ///< of the row worked last
    std::optional<Edge> entered_;   ///< what the last row went into, behind what stands between
    std::optional<Before> last_before_;  ///< of the one before it
    bool loose_ = false;                 ///< the last row comes to its count only by its work
    bool chain_counts_as_shown(const Slot& slot, std::size_t findings);
    bool misfit_ = false;  ///< the last row does not fit the stitches that were only counted
    void settle_before(const Written& written);
    bool any_round_ = false;     ///< some row was a round
    bool worked_round_ = false;  ///< the last row was a round
    std::int64_t row_number_ = 0;
    /// By row: how many more were worked behind it, "until 24 sts remain".
    std::map<std::int64_t, std::int64_t> more_rows_;
    std::int64_t more_ = 0;        ///< all of them so far
    std::int64_t short_row_ = -1;  ///< the last one that left stitches waiting
    bool again_ = false;           ///< a row is worked again to come to its stitches
    [[nodiscard]] std::int64_t shown_row() const { return row_number_ + more_; }
    std::vector<std::vector<Known>> memory_;
    std::vector<std::optional<unsigned>> settled_;
    std::size_t behind_ = 0;
    FindingsOfLine told_behind_;  ///< of lines that repeat rows and end with a count
    std::map<const Written*, std::set<std::string>> reported_;
    std::set<std::string> told_;
    std::vector<Told> readings_;
    std::map<std::int64_t, std::int64_t> made_of_row_;
    std::map<TurningKey, bool> turnings_;
    std::optional<std::int64_t> last_known_;  ///< stitches of the last row that was followed
    bool supposed_ = false;  ///< a row since the last count was taken to keep its stitches
    bool assumed_ = false;   ///< the row below is taken to have as many
    std::int64_t before_assumed_ = 0;
    bool adrift_ = false;                 ///< what the next row goes into is not known
    std::optional<std::int64_t> wanted_;  ///< what the row below declares and does not make
    std::set<std::pair<KindId, std::int64_t>> turned_with_;
    std::int64_t proposals_ = 0;             ///< changes tried so far
    std::map<std::int64_t, Finding> stuck_;  ///< by row: "until 24 sts remain" that never comes
};

}  // namespace skeinfall::notation
