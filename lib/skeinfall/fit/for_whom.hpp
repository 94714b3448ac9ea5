#pragma once
/// \file
/// Sizes for somebody who cannot be measured: published tables of head, hand, foot, chest, blankets
/// and scarves (lib/data/body_sizes.csv), with the ease that such a make usually has
/// (lib/data/made_to_fit.csv, ease_words.csv).
///
/// Whoever can be measured should be: a table tells of many.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/base/result.hpp"
#include "skeinfall/fit/fit.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::fit {

struct Span {
    units::Length least{};
    units::Length most{};
    [[nodiscard]] units::Length middle() const { return 0.5 * (least + most); }
    [[nodiscard]] bool holds(units::Length length) const {
        return length >= least && length <= most;
    }
};

/// Of the body to the make, in lengths or as shares of the body; negative ease is smaller.
struct Ease {
    bool as_share = false;
    units::Ratio least_share{};
    units::Ratio most_share{};
    units::Length least{};
    units::Length most{};
    std::string source;  ///< as its table names it; empty: the maker's own
    std::string note;
};
/// "standard", "loose", "-1 in", "10 %": a word of the trade (of a chest), a length or a share.
[[nodiscard]] base::Result<Ease> parse_ease(std::string_view text);

/// A row of a table that was used.
struct SizeRow {
    std::string of;      ///< "head"
    std::string who;     ///< as the table has it
    std::string source;  ///< "S132 head-size table"
    std::string title;   ///< of that source, and who made it; empty: from memory
    std::string note;
    std::optional<Span> across;
    std::optional<Span> along;
};

/// What a make for somebody should measure.
struct SizeFor {
    std::string make;  ///< "hat"
    bool around = false;
    /// A body piece is worked in two halves, when it is worked flat.
    bool halves = false;
    /// It may be worked flat from side to side: a strip whose ends are joined.
    bool sideways = false;
    std::optional<Span> body;    ///< across or around, of the body
    std::optional<Ease> ease;    ///< nothing: the table is of the make itself
    std::optional<Span> across;  ///< of the make, with its ease
    std::optional<Span> along;
    std::vector<SizeRow> rows;
    project::Recipient recipient = project::Recipient::adult;
    bool neck_of_child = false;  ///< a scarf or cowl for a child
    /// Letters of a size, such as "L", that chose nothing: the table has one size there.
    std::vector<std::string> letters_unused;
};

/// "child 6 to 8 years", "6-8 years", "toddler", "woman", "man L", "glove size 8", "crib". `make`
/// is a word of made_to_fit.csv, such as "hat" or "beanie". The problem says which are known. Words
/// that choose nothing are refused, unless who_words.csv sets them aside.
[[nodiscard]] base::Result<SizeFor> size_for(std::string_view make, std::string_view who,
                                             const std::optional<Ease>& ease);

/// What a project makes, by its title and the names of its pieces; nothing where none says it.
[[nodiscard]] std::optional<std::string> make_of(const project::Project& project);
[[nodiscard]] std::vector<std::string> known_makes();

/// A part of a make, by its name, that no table of whole makes measures: a sleeve, a collar. Where
/// it is the only piece it is the make itself.
[[nodiscard]] bool is_part_beside(const project::Project& project, std::size_t piece);

/// A strip that is longer than wide and goes round by its length, not by its width.
[[nodiscard]] bool goes_round_by_length(const project::Project& project, std::size_t piece,
                                        std::size_t size, const SizeFor& wanted);

/// A sock has a leg beside the foot that its table tells, unless the piece is called a foot, or the
/// make a slipper or bootie.
[[nodiscard]] bool has_more_than_foot(const project::Project& project, std::size_t piece,
                                      const SizeFor& wanted);

/// Whether it has a length beside its width: a figure from its centre has none, joined ones have.
[[nodiscard]] bool has_length(const project::Project& project, std::size_t piece, std::size_t size);

/// From end to end of the pieces that are worked on from each other without a foundation, one of
/// them this one: a crown (its half) and the sides below it. Nothing where it is alone.
[[nodiscard]] std::optional<units::Length> worked_on_long(const project::Project& project,
                                                          std::size_t piece, std::size_t size);

/// What of a fitted piece lies outside of what is wanted.
struct Outside {
    std::optional<units::Length> across;  ///< as it is finished, the whole way round
    std::optional<units::Length> along;
};
[[nodiscard]] Outside outside_of(const Fitted& fitted, const SizeFor& wanted);

/// The sizes of a project against what is wanted.
struct SizeMatch {
    std::size_t size = 0;
    project::FinishedSize finished;  ///< its width the whole way round, where that is wanted
    bool within = false;             ///< all that is wanted lies in its span
    units::Ratio off{};              ///< how far outside, as a share of what is wanted
};
/// The size that comes nearest; the project has sizes.
[[nodiscard]] SizeMatch nearest_size(const project::Project& project, std::size_t piece,
                                     const SizeFor& wanted);

/// The wish of a piece: the middle of what is wanted, as wide as the piece has to be for it.
[[nodiscard]] Wish wish_for(const project::Project& project, std::size_t piece,
                            const SizeFor& wanted);

}  // namespace skeinfall::fit
