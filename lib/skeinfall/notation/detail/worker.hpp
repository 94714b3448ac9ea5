#pragma once
/// \file
/// Works one row in one reading. Inner part of row.hpp.

#include <cstdint>
#include <deque>
#include <string>
#include <utility>
#include <vector>

#include <boost/container/small_vector.hpp>

#include "skeinfall/notation/detail/row.hpp"

namespace skeinfall::notation {

[[nodiscard]] inline units::StitchCount counted_stitches(std::int64_t count) {
    return static_cast<double>(count) * units::stitch;
}

/// Bits of a reading: set means the less usual one.
namespace reading {
inline constexpr unsigned spaces_passed = 1;  ///< "st" never means a chain space
inline constexpr unsigned turning = 2;        ///< whether a turning chain counts, the other way
inline constexpr unsigned times_in_all = 4;   ///< "rep from * 4 times" is four in all
inline constexpr unsigned every_in_each = 8;  ///< "2 sc in next 2 sts" puts two in each
inline constexpr unsigned last_only = 16;     ///< of "k6, k2tog around" only k2tog is repeated
inline constexpr unsigned goes_on = 32;       ///< "k2, p2" is worked again to the end of the row
inline constexpr unsigned partly = 64;        ///< the last repeat is worked as far as it goes
inline constexpr unsigned narrow_mesh = 128;  ///< an open mesh of filet is ch 1, sk 1
inline constexpr unsigned in_one = 256;       ///< "sc, 2 sc, repeat": the two go into one
inline constexpr unsigned turning_skipped = 512;  ///< "sc across" on a chain leaves chains to turn
inline constexpr unsigned gathered = 1024;        ///< "2 dc, ch 2, 2 dc in next sp" go all in there
inline constexpr unsigned other_kind = 2048;      ///< a stitch is named that the row below has not
inline constexpr unsigned begins_later = 4096;    ///< what a round passes at first comes last
inline constexpr unsigned gap_free = 8192;        ///< "dc between dc" passes none of them
/// Of knitting: "m1" is worked into the next stitch, as "kfb" is, and "inc 1" between two.
inline constexpr unsigned made_in_stitch = gap_free;
/// Of crochet: behind a space, as much of its group is skipped as lay before it.
inline constexpr unsigned skips_group = 16384;
inline constexpr unsigned all = 32767;
}  // namespace reading

/// By kind and yarn: the yarn (1 + its index, or 0) is in the upper half of the key.
using Counts = boost::container::small_vector<std::pair<std::uint32_t, std::int64_t>, 12>;

/// The edge a row is making.
class EdgeBuilder {
  public:
    void add(Stand stand, std::int64_t count);
    /// Takes off stitches that stand behind the last mark. False when there are not so many.
    bool take_off(std::int64_t count);
    /// Takes `chains` off the space that was made last. False when it has not so many.
    bool fold(std::int64_t chains);
    /// From here on, what is added can be repeated or taken back.
    std::size_t mark();
    void back_to(std::size_t mark) { open_.resize(mark); }
    /// All behind `mark` `times` more. `outermost`: no older mark is still needed.
    void repeat(std::size_t mark, std::int64_t times, bool outermost);
    /// Stitches so far.
    [[nodiscard]] std::int64_t stitches() const;
    [[nodiscard]] bool too_large() const { return open_.size() > most_runs; }
    [[nodiscard]] Edge edge();

  private:
    static constexpr std::size_t most_runs = 200'000;
    std::vector<Stretch> done_;
    std::vector<Run> open_;
    std::size_t barrier_ = 0;
};

/// The chains of the spaces that items name, 0 where it is not said.
void spaces_named(const std::vector<Item>& items, std::vector<std::int64_t>& chains);

class Worker {
  public:
    Worker(const Body& body, const Edge& below, const Context& context, unsigned reading);
    Outcome run();

  private:
    struct Mark {
        Cursor cursor;
        Counts counts;
        std::size_t edge = 0;
        std::int64_t missing = 0;
        bool loose = false;
        Unit loose_unit;
        std::uint16_t yarn = 0;
    };

    // worker.cpp: items
    void run(const std::vector<Item>& items, std::size_t from, std::size_t to);
    void run(const std::vector<Item>& items) { run(items, 0, items.size()); }
    void one(const std::vector<Item>& items, std::size_t index);
    void worked(const std::vector<Item>& items, std::size_t index);
    void step(const std::vector<Item>& items, std::size_t index);
    void work(const Item& item, std::int64_t keep);
    void emit(const Item& item, std::int64_t places);
    void emit_kind(KindId kind, std::int64_t count);
    void emit_group(const std::vector<Item>& items, std::int64_t places);
    void chain(const std::vector<Item>& items, std::size_t index);
    void change(const Item& item, std::int64_t keep);
    [[nodiscard]] bool made_between(const Item& item) const;
    bool asks_between(const Item& item);
    void evenly(const Item& item, std::int64_t keep);
    [[nodiscard]] std::int64_t closing_chain() const;
    [[nodiscard]] bool stops_short(std::int64_t left) const;
    [[nodiscard]] bool may_go_on(std::size_t from) const;
    [[nodiscard]] bool is_rib(std::size_t from) const;
    void marker(const Item& item);
    [[nodiscard]] std::int64_t to_marker(const Item& item, std::int64_t before);
    std::size_t counted_marker(std::int64_t nth, std::size_t ahead, std::uint32_t at);
    void note_markers(std::int64_t passed, std::int64_t made);
    void move_markers();
    void finish();

    // worker_colours.cpp
    void colours();

    // worker_turns.cpp: short rows and holders
    void turn(const std::vector<Item>& items, std::size_t index);
    void hold(const Item& item);
    void unhold(const Item& item);
    [[nodiscard]] std::int64_t beyond_gap() const;
    [[nodiscard]] Edge made_edge();
    // worker_crochet.cpp: meshes, groups under a name, rounds that begin elsewhere
    void meshes(const Item& item);
    [[nodiscard]] const MakeUp* group_of(const Unit& unit) const;
    [[nodiscard]] Unit place_of_group(const MakeUp& group, std::int64_t& each) const;
    std::int64_t advance_groups(const MakeUp& group, std::int64_t count);
    void begin_at(const Unit& unit, std::int64_t passed);
    bool picot(const Item& item);
    bool other_kind(const Unit& unit);
    std::int64_t count_below(const Unit& unit);
    void tell_none_left(std::uint32_t at);
    bool asks_in_one();
    void skip_group(const Item& item, std::int64_t half);
    [[nodiscard]] std::int64_t closing_height(const std::vector<Item>& items, std::size_t at) const;
    [[nodiscard]] bool begins_with_loop() const;
    [[nodiscard]] bool closed_by_stitch() const;
    std::int64_t spaces_on_side(const Unit& unit, std::uint32_t at);
    std::int64_t group_gaps(const Spot& spot, std::uint32_t at);
    [[nodiscard]] bool loops_on_hook(KindId kind) const;
    void first_loop();
    [[nodiscard]] std::int64_t chains_to_turn(const Item& item);

    // worker_places.cpp: places and turning chains
    std::int64_t places_for(const Item& item, std::int64_t takes, std::int64_t keep);
    std::int64_t advance(const Unit& unit, std::int64_t count);
    std::int64_t each_places(const Spot& spot, std::int64_t takes, std::int64_t keep,
                             std::uint32_t at);
    std::int64_t last_places(const Spot& spot, std::uint32_t at);
    std::int64_t from_hook(const Item& item);
    std::size_t begin_row();
    void turning_chain(std::int64_t chains, const std::optional<TurningNote>& note,
                       std::size_t next);
    void skipped_chain(std::int64_t skipped, const Item& item, KindId kind);
    void counted_chain(KindId kind, std::int64_t extra);
    [[nodiscard]] bool skips_first(std::size_t next) const;
    [[nodiscard]] bool closes_on_stitch() const;
    const Item* leaf(const std::vector<Item>& items, std::size_t from, Spot& spot) const;
    [[nodiscard]] KindId plain_kind_of(const Item& item) const;
    KindId row_kind(std::uint32_t at);
    [[nodiscard]] std::int64_t need_of(const std::vector<Item>& items, std::size_t from) const;
    [[nodiscard]] std::int64_t need_of(const Item& item) const;

    // worker_repeats.cpp
    void repeat(const std::vector<Item>& items, std::size_t index, std::int64_t keep);
    void loop(const Item& item, std::int64_t times, std::int64_t keep);
    void part_of(const std::vector<Item>& items, std::int64_t keep);
    std::int64_t to_space(const Item& item);
    [[nodiscard]] bool stops_before_space(const Item& item, std::int64_t keep) const;
    bool last_follows_ = false;  ///< behind this repeat stands what goes into the last stitch
    void take_beside();
    [[nodiscard]] bool bridges(const std::vector<Item>& items, std::size_t at) const;
    bool skip_closes(const Item& item, std::int64_t keep);
    bool ends_as_begun(const Item& item, std::int64_t keep);
    bool try_jump(const Mark& from, std::int64_t iterations, std::int64_t times_left,
                  std::int64_t keep, std::int64_t& jumped);
    [[nodiscard]] Mark mark();
    void back_to(const Mark& mark);

    void add(KindId kind, std::int64_t count);
    void report(Severity severity, std::uint32_t at, std::string what, std::string remedy = {});
    bool ask(unsigned bit);
    void give_up(std::uint32_t at, std::string why);
    [[nodiscard]] StitchBook& book() const { return *context_->book; }

    const Body* body_;
    const Edge* below_;
    const Context* context_;
    unsigned reading_;
    Edge other_side_;           // of the foundation chain
    std::int64_t skipped_ = 0;  // of its chains, at the beginning
    Edge own_base_;             // the row's own foundation chain, when it begins with one
    Edge rotated_;              // the edge below from where the round begins
    Cursor cursor_;
    Counts counts_;
    EdgeBuilder builder_;
    Outcome out_;
    bool closed_ = false;          // the round has been joined
    std::int64_t missing_ = 0;     // stitches the row below would have to have more
    bool missing_named_ = false;   // a named place was not found
    std::int64_t missing_at_ = 0;  // where the last miss was
    Unit missing_unit_;
    std::int64_t steps_end_ = 0;
    bool placed_ = false;  // something went into the row below, the turning chain aside
    bool moved_ = false;   // slip stitches moved to where the round begins
    bool loose_ = false;   // the last place was a named one; others may be left
    Unit loose_unit_;
    bool left_by_design_ = false;
    bool beside_used_ = false;  ///< the space of the chain beside the row below is worked into
    bool pair_gap_ = false;     ///< the last place was the gap between two stitches
    bool in_one_ = false;       // inside a group worked into one place
    bool muted_ = false;        // inside a stitch that has a top of its own
    int loops_ = 0;
    int endless_ = 0;                   ///< loops without a number of times
    bool chains_are_stitches_ = false;  // a foundation row worked above a row of stitches
    std::int64_t start_chain_ = 0;
    std::int64_t repeat_began_ = 0;  // where this time of the innermost repeat began
    std::int64_t last_chain_ = 0;    // chains made just before, none behind them
    std::int64_t mesh_chains_ =
        -1;  // chains beside the turning chain, for the first mesh; -1: none yet
    std::size_t next_marker_ = 0;         // of those below
    std::int64_t share_from_ = 0;         // parts of a round that no marker parts: "(...) twice"
    std::int64_t share_each_ = 0;         // stitches of each; 0: it is not parted
    std::vector<std::int64_t> moved_up_;  // of those below, where each is now; -1: not known yet
    std::vector<std::int64_t> placed_markers_;
    struct CountedBelow {
        const Edge* edge;
        Unit unit;
        std::int64_t count;
    };
    std::vector<CountedBelow> counted_below_;
    std::deque<Edge> turned_;           // edges below after each turn within the row
    std::int64_t consumed_before_ = 0;  // by the parts of the row before its last turn
    std::uint16_t yarn_ = 0;            // 1 + the index of the yarn in hand; 0: the row's own
    std::optional<KindId> row_kind_;
};

}  // namespace skeinfall::notation
