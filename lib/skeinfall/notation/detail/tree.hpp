#pragma once
/// \file
/// A row in notation as a tree of values. Inner part of the notation.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "skeinfall/notation/detail/tokens.hpp"
#include "skeinfall/project/stitches.hpp"

namespace skeinfall::notation {

using project::Craft;
using project::KindCount;
using project::KindId;
using project::OwnStitch;
using project::Stitch;
using project::StitchBook;
using project::Terms;
using project::TurningChainCounts;

/// What of the row below a stitch goes into.
struct Unit {
    enum class Of : std::uint8_t {
        any,     ///< "st"
        chain,   ///< "ch": one chain of the foundation or of a space
        space,   ///< "ch-2 sp": a whole chain space
        kind,    ///< "dc"
        either,  ///< "st and ch-1 sp": a stitch or a whole space
        single,  ///< "st and ch": a stitch or one chain of a space
    };
    Of of = Of::any;
    KindId kind = 0;
    std::int64_t chains = 0;  ///< of a space, also of either; 0 for any number

    bool operator==(const Unit&) const = default;
};

/// Where a stitch or group goes.
struct Spot {
    enum class Which : std::uint8_t {
        implied,    ///< not said: the next stitch
        next,       ///< "next st", "each of next 5 sts", "next 5 sts"
        each,       ///< "each st across", "each st to last 2 sts"
        first,      ///< "first st"
        last,       ///< "last st", "last 3 sts"
        same,       ///< "same st", "skipped st": passed already
        ring,       ///< "ring"
        from_hook,  ///< "4th ch from hook"
        turning,    ///< "top of turning ch"
        opposite,   ///< the other side of the foundation chain
    };
    Which which = Which::implied;
    bool distributed = false;  ///< "each of" was written
    Unit unit;
    std::int64_t count = 1;    ///< of next, last; n of "nth ch from hook"
    std::int64_t nth = 1;      ///< of first: the place counted from the beginning, "2nd st"
    std::int64_t keep = 0;     ///< of each: stops before this many
    std::int64_t wide = 0;     ///< of next: one place, and so many units are passed ("5-dc group"),
                               ///< none where it is -1; of each: stitches of a group, gaps between
    bool in_one = false;       ///< an explicit single place: stitches worked together share it
    bool to_marker = false;    ///< of each: stops `keep` stitches before the next marker
    bool last_marker = false;  ///< the marker is the last one of the row
    std::int64_t nth_marker = 0;  ///< it is counted from the row's beginning; 0: the next one
    bool to_gap = false;          ///< the marker is the place where the work was last turned
    bool pair_gap = false;        ///< of next: between two stitches that are named
    bool gap = false;             ///< of next: between stitches
    bool to_space = false;        ///< of each: stops before the next chain space
    bool keeps_units = false;     ///< of each: it stops before `keep` of its own units
};

/// How often a group is worked.
struct Extent {
    enum class Until : std::uint8_t {
        times,       ///< in all
        more_times,  ///< "n more times": once more than said
        n_times,     ///< "rep from * n times": n more, by usual practice
        to_end,      ///< "across", "around", "to end", "to last n sts"
    };
    Until until = Until::times;
    std::int64_t count = 1;
    std::int64_t keep = 0;
    bool to_marker = false;       ///< of to_end: ends `keep` stitches before the next marker
    bool to_gap = false;          ///< the marker is the place where the work was last turned
    bool loose = false;           ///< of to_end: "around", "across"; a row end may lie farther off
    bool last_marker = false;     ///< the marker is the last one of the row
    std::int64_t nth_marker = 0;  ///< it is counted from the row's beginning; 0: the next one
    bool to_space = false;        ///< of to_end: ends before the next chain space that it does not
                                  ///< name itself, "to centre ch-2 sp", "to next corner"
    bool last_space = false;      ///< it is the last one of the row
    std::int64_t chains = 0;      ///< of that space; 0: not said
};

/// "(counts as dc, ch 1)" or "(does not count as st)" behind a chain.
struct TurningNote {
    bool counts = false;
    KindId kind = 0;
    bool kind_said = false;
    std::int64_t chains = 0;  ///< chain space beside it
    bool throughout = false;
};

struct Item {
    enum class Do : std::uint8_t {
        work,      ///< `count` stitches of `kind`
        increase,  ///< two stitches of the row's kind into the next
        decrease,  ///< two stitches of the row's kind together
        chain,     ///< `count` chains
        skip,      ///< pass over `spot`
        group,     ///< `items` into one place, or into each of several
        repeat,    ///< `items` over and over, see `extent`
        join,      ///< a round is closed with a slip stitch
        turn,
        ring,       ///< the foundation is closed to a ring, or a magic ring is made
        unworked,   ///< what is left of the row below stays so, by design
        choose,     ///< of `items` the one whose place comes next; passes it when there is none
        evenly,     ///< increases or decreases (`items`) spread over the rest, which is of `kind`;
                    ///< in crochet the chain stands for the row's own kind
        opposite,   ///< go on along the other side of the foundation chain
        meshes,     ///< `count` meshes of filet, filled where `kind` is not the chain
        marker,     ///< a marker is placed here for the rows above
        at_marker,  ///< the next marker of the row below is here; it moves up
        drop_marker,  ///< the same, and it is taken out
        hold,         ///< the next stitches (0: all the rest) wait on a holder
        unhold,     ///< held stitches (0: those held first) are there again; as `kind` when worked
        work_only,  ///< from here on rows are worked on the first `count` stitches
        let_go,     ///< what is on the needles is finished
        needle,     ///< what follows is worked on the next needle
        yarn,       ///< from here on it is worked in yarn `kind` (an index)
    };
    Do what = Do::work;
    KindId kind = 0;
    std::uint32_t at = 0;  ///< byte in the text of the row
    std::int64_t count = 1;
    Spot spot;
    Extent extent;
    std::vector<Item> items;
    std::uint32_t stop_at = 0;  ///< the last time ends before this item ("**"); 0: it does not
    bool partial = false;       ///< of a repeat to the end: the last time as far as it goes
    bool closes = false;        ///< with the chain before it, it is the last loop of a round
    /// Of a repeat to the end without a sign where it begins, "k6, k2tog around": whether only its
    /// last item may be meant, and whether that is the usual reading.
    enum class Last : std::uint8_t { no, maybe, usual };
    Last last_only = Last::no;
    std::optional<TurningNote> note;
    std::uint16_t gathers =
        0;                   ///< with so many items behind it, it may go into the last one's place
    std::uint16_t yarn = 0;  ///< 1 + the index of the yarn it alone is worked in; 0: not said
};

/// "(61 sc, 60 ch-1 sp)": what the row should come to.
struct Declared {
    enum class What : std::uint8_t { stitches, kind, spaces, chains, other };
    What what = What::stitches;
    KindId kind = 0;
    std::int64_t chains = 0;
    std::int64_t count = 0;
    std::uint32_t at = 0;
    std::string name;  ///< as written, for `other`
};

/// A word that names no stitch, kept as a stitch that takes one and makes one.
struct UnknownName {
    std::uint32_t at = 0;
    std::string name;
};

/// A name that only the other terms have.
struct ForeignName {
    std::uint32_t at = 0;
    std::string name;
    std::string meaning;
};

/// A group that a row names as it makes it: "shell of (3 dc, ch 1, 3 dc)".
struct NamedGroup {
    std::string name;
    KindId kind = 0;  ///< of one that leaves a single top, 0 for others
    std::vector<Item> items;
};

/// Words that were read and hold no work.
struct SetAside {
    enum class Why : std::uint8_t { remark, finishing, joining, place, tool };
    Why why = Why::remark;
    std::uint32_t at = 0;
    std::string words;
};

/// One row as written.
struct Body {
    std::vector<Item> items;
    std::vector<Declared> declared;
    std::vector<UnknownName> unknown;
    std::vector<ForeignName> foreign;
    std::vector<SetAside> aside;
    std::vector<NamedGroup> named;
    std::int64_t turns_each = 0;  ///< "ch 5 to turn each row": of this row and those above
    bool beside = false;          ///< its last stitch goes into the turning chain's space
    bool blocks = false;  ///< worked from corner to corner: what is skipped of a chain is a space
};

}  // namespace skeinfall::notation
