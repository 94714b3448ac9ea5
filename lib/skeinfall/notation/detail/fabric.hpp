#pragma once
/// \file
/// The upper edge of a row, as the next row finds it, and a place on it. Inner part of the
/// notation.
///
/// An edge is kept as repeats, never stitch by stitch: "60 times (sc, a ch-1 space)". Passing over
/// many stitches costs as much as the edge has different stretches.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "skeinfall/notation/detail/tree.hpp"

namespace skeinfall::notation {

/// What one place of an edge is: a stitch, or a space of `chains` chains. A chain of the
/// foundation is a stitch of the kind chain (chains 0).
struct Stand {
    KindId kind = 0;
    std::uint32_t chains = 0;
    std::uint16_t yarn = 0;  ///< 1 + the index of its yarn; 0: the row's own

    bool operator==(const Stand&) const = default;
};

struct Run {
    Stand stand;
    std::int64_t count = 0;

    bool operator==(const Run&) const = default;
};

/// Runs in their order, the whole `times` over.
struct Stretch {
    std::int64_t times = 1;
    std::vector<Run> runs;

    bool operator==(const Stretch&) const = default;
};

/// A turning chain worked at the end of the row below for the row above it.
struct Pending {
    std::int64_t chains = 0;
    std::uint32_t at = 0;
    std::optional<TurningNote> note;

    bool operator==(const Pending& other) const {
        return chains == other.chains && note.has_value() == other.note.has_value() &&
               (!note || (note->counts == other.note->counts && note->kind == other.note->kind &&
                          note->chains == other.note->chains));
    }
};

struct Edge {
    std::vector<Stretch> stretches;
    std::int64_t stitches = 0;
    std::int64_t spaces = 0;
    std::int64_t chains = 0;    ///< in the spaces
    bool foundation = false;    ///< the chain that the first row goes into
    bool counted_only = false;  ///< from a table of counts: the order is not known
    Pending turning;
    std::int64_t began = 0;   ///< chains that the row began with, where they count as a stitch
    std::int64_t beside = 0;  ///< the same, where they do not: a space of their own at the edge
    /// Stitches before each marker, in the order of the stitches; none at either end.
    std::vector<std::int64_t> markers;
    /// Where the work was last turned before its end, from the beginning; 0: it was not.
    std::int64_t gap = 0;
    bool gap_ends = false;         ///< rows end there: what lies behind is the rest of a round
    std::vector<Stretch> waiting;  ///< left unworked by short rows; ahead again after a turn
    std::int64_t waiting_stitches = 0;

    /// Merges what can be merged and counts.
    void settle();
    /// Worked from the other end.
    [[nodiscard]] Edge reversed() const;
    [[nodiscard]] std::int64_t count(KindId kind, const StitchBook* by_plain) const;
    [[nodiscard]] std::int64_t count_spaces(std::int64_t chains_each) const;

    bool operator==(const Edge& other) const {
        return stretches == other.stretches && foundation == other.foundation &&
               counted_only == other.counted_only && turning == other.turning &&
               began == other.began && beside == other.beside && markers == other.markers &&
               gap == other.gap && gap_ends == other.gap_ends && waiting == other.waiting;
    }
};

/// What lies ahead after a turn: `made` back to its beginning, then what waited there. `rest` is
/// what `made` left unworked; in the round it is reached from the other side.
[[nodiscard]] Edge turned_edge(const Edge& made, const Edge& rest, const Edge& below,
                               bool circular);

/// `first` and `second` side by side.
[[nodiscard]] Edge joined_edges(Edge first, const Edge& second);

/// Where the row has got to on the edge below it. `spaces_are_stitches`: "st" means each chain of
/// a space as well; otherwise spaces are passed over.
class Cursor {
  public:
    Cursor(const Edge& edge, const StitchBook& book, bool spaces_are_stitches);

    /// Passes the next `count` places that `unit` names, with whatever lies between. Returns how
    /// many there were; when fewer, the cursor stands behind the last one.
    std::int64_t advance(const Unit& unit, std::int64_t count);
    /// How many such places are left.
    [[nodiscard]] std::int64_t left(const Unit& unit) const;
    /// Stitches left, as "to last n sts" counts them.
    [[nodiscard]] std::int64_t left() const { return total_ - passed_; }
    [[nodiscard]] std::int64_t passed() const { return passed_; }
    /// Stands before the next place that `unit` names, or stays when there is none.
    void seek(const Unit& unit);
    /// The edge as a round finds it that begins here.
    [[nodiscard]] Edge rotated() const;
    /// Stitches passed, chain spaces not counted.
    [[nodiscard]] std::int64_t stitches_passed() const { return stitches_; }
    /// What comes next; not at the end.
    [[nodiscard]] bool next_is(const Unit& unit) const {
        return matches(unit, edge_->stretches[stretch_].runs[run_].stand);
    }
    [[nodiscard]] bool at_end() const { return stretch_ == edge_->stretches.size(); }
    /// What has not been passed, with its markers.
    [[nodiscard]] Edge rest() const;

    /// A stretch of single steps that came back to the same place of the same repeat.
    struct Phase {
        std::size_t stretch = 0;
        std::int64_t turn = 0;
        std::size_t run = 0;
        std::int64_t used = 0;
    };
    [[nodiscard]] Phase phase() const { return {stretch_, turn_, run_, used_}; }
    /// How often the way from `from` to here can be gone again within the same stretch; 0 when
    /// the two are not alike.
    [[nodiscard]] std::int64_t repeats_since(const Phase& from) const;
    /// Goes the way from `from` to here `times` more, `passed` and `stitches` being its counts.
    void jump(const Phase& from, std::int64_t times, std::int64_t passed, std::int64_t stitches);

  private:
    [[nodiscard]] bool matches(const Unit& unit, const Stand& stand) const;
    [[nodiscard]] static bool by_chain(const Unit& unit);
    [[nodiscard]] std::int64_t atoms(const Run& run) const;
    [[nodiscard]] std::int64_t places(const Unit& unit, const Run& run) const;
    void pass(const Run& run, std::int64_t atoms);
    void next_run();

    const Edge* edge_;
    const StitchBook* book_;
    bool spaces_are_stitches_;
    std::int64_t total_ = 0;
    std::int64_t passed_ = 0;
    std::int64_t stitches_ = 0;
    std::size_t stretch_ = 0;
    std::int64_t turn_ = 0;
    std::size_t run_ = 0;
    std::int64_t used_ = 0;  ///< of the run: stitches, or single chains of its spaces
};

}  // namespace skeinfall::notation
