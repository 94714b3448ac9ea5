#pragma once
/// \file
/// Reads the instructions of one row. Inner part of the notation.

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "skeinfall/notation/detail/tree.hpp"
#include "skeinfall/notation/detail/words.hpp"

namespace skeinfall::notation {

/// Brackets and repeats may stand in each other this deep.
inline constexpr int deepest = 20;

/// Reads the tokens from `first` up to the `end` token.
class Grammar {
  public:
    Grammar(StitchBook& book, const std::vector<Token>& tokens, std::size_t first);

    /// The row; when fault() is set it cannot be read.
    Body row();
    /// "ch 3 counts as dc throughout": the number of chains and what they stand for.
    std::optional<std::pair<std::int64_t, TurningNote>> note();
    /// The counts that a row declares which cannot be read otherwise.
    std::vector<Declared> declared_only();
    /// The first mistake.
    [[nodiscard]] const std::optional<Fault>& fault() const { return fault_; }

  private:
    using Words = std::initializer_list<std::string_view>;

    struct NamedCount {
        KindId kind = 0;
        std::optional<std::int64_t> count;  ///< of "k2", "ch-3"
    };

    // grammar.cpp: items
    std::vector<Item> items_until(char closing);
    void interleave(std::vector<Item>& out);
    void item(std::vector<Item>& out);
    void word_item(std::vector<Item>& out);
    void number_item(std::vector<Item>& out);
    void bracket_item(std::vector<Item>& out);
    void star_item(std::vector<Item>& out);
    void stitch_item(std::vector<Item>& out, std::uint32_t at, NamedCount named,
                     std::optional<std::int64_t> count);
    void together_item(std::vector<Item>& out, Item item, std::int64_t count);
    void chain_item(std::vector<Item>& out, Item item);
    void skip_item(std::vector<Item>& out);
    void change_item(std::vector<Item>& out, std::int64_t count);
    void add_where(std::vector<Item>& out, Item item);
    static void push_times(std::vector<Item>& out, Item item, Extent extent);
    void push_from_start(std::vector<Item>& out, Item item);
    void push_starred(std::vector<Item>& out, Item repeat);
    bool too_deep();
    [[nodiscard]] static bool fills_row(const std::vector<Item>& items);

    // idioms.cpp: whole stretches
    bool repeat_all(std::vector<Item>& out);
    bool times_bracket(std::vector<Item>& out);
    [[nodiscard]] bool times_bracket_here() const;
    [[nodiscard]] bool repeats_star() const;
    bool star_words();
    std::optional<Extent> star_times();
    void omitting(Item& repeat);
    bool whole_clause(std::vector<Item>& out, Item& item, const Extent& until, bool counted);
    [[nodiscard]] bool number_before(const Item& item) const;
    bool place_first(std::vector<Item>& out);
    bool starred_there(std::vector<Item>& out, const Spot& spot);
    bool held_item();
    bool holder_item(std::vector<Item>& out);
    void check_held();

    // knit_items.cpp: holders, needles, short rows
    bool held_again(std::vector<Item>& out);
    bool needle_item(std::vector<Item>& out);
    void join_needles(std::vector<Item>& items);
    std::int64_t gap_words();
    [[nodiscard]] std::int64_t crossed_stitches(std::string_view name) const;
    bool picked_up(Item& item, bool alone);
    bool picked_up_by_place(Item& item, std::size_t word, bool alone);
    void yarn_item(std::vector<Item>& out);
    bool even_item(std::vector<Item>& out);
    bool pass_manner();
    void evenly_item(std::vector<Item>& out, Item item);
    bool every_nth(std::vector<Item>& out, const Item& item);
    bool rib_item(std::vector<Item>& out, const Item& last);

    // knit_counts.cpp: counts within a row, the last repeat's other end
    void settle_part_counts();
    void bracket_fills_row();
    bool settle_part(std::uint32_t from, const Declared& count);
    bool instead_item(std::vector<Item>& out);
    [[nodiscard]] bool star_may_end(const std::vector<Item>& out) const {
        return book_->craft() == Craft::knit && depth_ == 1 && !out.empty();
    }
    bool put_on_holder(std::vector<Item>& out) {
        return any_of({"put", "place"}) && book_->craft() == Craft::knit &&
               !region_has({"cn", "cable"}) && holder_item(out);
    }
    /// Whether nothing ahead closes the star that stands open: "*k2tog around. 6 sts."
    [[nodiscard]] bool star_never_ends() const;
    bool star_to_end(std::vector<Item>& out, Item& item);
    bool bracket_times(std::vector<Item>& out, Item& item);
    bool again_star(std::vector<Item>& out);
    bool several_in_next(std::vector<Item>& out, Item& item);

    // crochet_items.cpp: groups by name, clusters by number, meshes, sentences of prose
    bool named_group(std::vector<Item>& out);
    bool cluster_item(std::vector<Item>& out, const Token& number);
    bool mesh_item(std::vector<Item>& out);
    [[nodiscard]] bool short_meshes() const;
    bool prose_sentence();
    bool alternate_item(std::vector<Item>& out);
    bool loops_note();
    bool earlier_row(std::size_t by);
    [[nodiscard]] bool working_where() const;
    bool chain_note(std::vector<Item>& out);
    bool loop_item(std::vector<Item>& out);
    bool return_item();
    bool gap_place(Spot& spot);
    bool place_last(std::vector<Item>& out);
    bool chain_placed(std::vector<Item>& out);
    bool placed_part(std::vector<Item>& out, Item& part);
    bool made_note(std::vector<Item>& out);
    void name_made(std::size_t from, std::size_t to, const std::vector<Item>& out);
    bool of_group(Spot& spot);
    [[nodiscard]] bool called_note() const;
    bool describes(std::size_t close);
    void pass_purpose();
    std::optional<KindId> cluster_name(std::int64_t count);
    bool colour_label();
    void count_blocks();
    [[nodiscard]] bool slips_into_chain() const;
    void begin_in_space();
    void one_in_each();
    void begin_with_chain();
    void refuse_second_row();
    bool joining_chain(Spot& spot) const;
    std::optional<Spot> nth_place();
    [[nodiscard]] bool is_mark(std::size_t by = 0) const {
        return is(TokenKind::star, by) || is(TokenKind::double_star, by);
    }
    [[nodiscard]] bool ends_here() const;
    [[nodiscard]] bool opens_here() const;

    // crochet_notes.cpp: stitches described within a row, inner repeats, gaps between groups
    [[nodiscard]] bool opens_inner() const;
    bool stitch_gaps(Spot& spot);
    [[nodiscard]] bool advice_ahead(std::size_t by) const;
    [[nodiscard]] bool explains_ahead(std::size_t by) const;
    bool describes_stitch();
    bool tip_note();
    bool named_part();
    bool idle_sentence();
    bool group_words(std::int64_t& wide, Unit& of);
    bool group_gap(Spot& spot);
    bool group_gaps(Spot& spot);
    bool both_in_one(std::vector<Item>& out, const Item& item);

    // notes.cpp: what stands beside the stitches
    bool aside(std::vector<Item>& out);
    bool declared_note();
    bool declared_tail(bool worked);
    bool declared_words(std::size_t& from) const;
    void count_behind(bool to_the_end);
    bool same_again(std::vector<Item>& out);
    [[nodiscard]] bool begins_with_chain(std::int64_t chains) const;
    std::optional<std::size_t> declared_list(std::size_t from, bool kinds_too,
                                             std::vector<Declared>& out);
    [[nodiscard]] bool ends_with_made() const;
    bool remark_note(std::vector<Item>& out);
    std::optional<TurningNote> turning_note(std::size_t from, std::size_t to);
    void join_item(std::vector<Item>& out, std::uint32_t at);
    bool ring_item(std::vector<Item>& out);
    bool start_item(std::vector<Item>& out);
    bool marker_item(std::vector<Item>& out);
    [[nodiscard]] bool region_has_fabric() const;
    [[nodiscard]] bool at_stitch() const;
    [[nodiscard]] bool stitch_ahead(std::size_t by) const {
        return is(TokenKind::word, by) &&
               (book_->find(peek(by).text).has_value() || book_->begins_long_name(peek(by).text));
    }
    /// "K2tog. K5. Sl 1." : another stitch behind the full stop.
    [[nodiscard]] bool stitch_behind_stop() const;
    bool several_first(std::vector<Item>& items, bool list);
    bool prose_note();
    bool told_note();
    bool rib_by_numbers(std::vector<Item>& out);
    bool fabric_item(std::vector<Item>& out);
    bool leave_item(std::vector<Item>& out);
    bool purpose_note();
    void pass_words(SetAside::Why why);
    void pass_remark(SetAside::Why why);
    void set_aside(std::size_t from, SetAside::Why why);
    [[nodiscard]] bool carries_work(std::size_t token, SetAside::Why why) const;
    [[nodiscard]] bool has(Role role, std::size_t by = 0) const {
        return is(TokenKind::word, by) && has_role(peek(by).text, role);
    }
    [[nodiscard]] bool is_words(std::size_t by = 0) const {
        return is(TokenKind::word, by) || is(TokenKind::number, by) || is(TokenKind::ordinal, by) ||
               is(TokenKind::length, by);
    }
    /// "in the ring", "into mr": takes the words of a ring.
    bool ring_words();
    bool pass_ring_centre();
    [[nodiscard]] bool region_has(Words words) const;

    // places.cpp: where and how often
    [[nodiscard]] bool at_place() const;
    std::optional<Spot> place();
    void between();
    void pass_to(Words words);
    void pass_row_below();
    bool turning_place(Spot& spot);
    bool ordinal_place(Spot& spot);
    bool first_of_row(Spot& spot);
    [[nodiscard]] std::int64_t count_at_end() const;
    bool each_place(Spot& spot);
    bool next_space();
    bool to_space(Extent& extent);
    bool clause_around(std::vector<Item>& out);
    static bool one_more_choice(std::vector<Item>& out, std::size_t before);
    [[nodiscard]] bool places_apart(const std::vector<Item>& items) const;
    std::optional<Unit> unit();
    [[nodiscard]] std::optional<std::int64_t> space_word(std::string_view word) const;
    [[nodiscard]] std::int64_t counted_marker();
    std::optional<Extent> extent();
    std::optional<Extent> how_often();
    [[nodiscard]] bool behind_change() const;
    std::optional<std::int64_t> keep_of_last();

    // places.cpp: names
    std::optional<NamedCount> stitch_name();
    std::optional<NamedCount> bare_stitch_name();
    KindId known(const StitchBook::Named& named, std::uint32_t at, std::string_view name);
    KindId unknown_stitch();

    [[nodiscard]] const Token& peek(std::size_t by = 0) const {
        return tokens_[std::min(next_ + by, last_)];
    }
    [[nodiscard]] bool is(TokenKind kind, std::size_t by = 0) const {
        return peek(by).kind == kind;
    }
    /// Asked many times for every token: a look at the first letter settles most of them.
    [[nodiscard]] bool any_of(Words words, std::size_t by = 0) const {
        const Token& token = peek(by);
        if (token.kind != TokenKind::word) return false;
        return std::any_of(words.begin(), words.end(), [&](std::string_view word) {
            return word.front() == token.text.front() && word == token.text;
        });
    }
    [[nodiscard]] static bool text_is(const Token& token, Words words) {
        return std::find(words.begin(), words.end(), token.text) != words.end();
    }
    [[nodiscard]] bool at_separator() const;
    bool take(Words words);
    void fail(std::size_t at, std::string what, std::string expected, std::string remedy = {});

    StitchBook* book_;
    const Token* tokens_;
    std::size_t last_;  ///< the `end` token
    std::size_t next_;
    std::size_t begin_;  ///< where the instructions begin
    int depth_ = 0;
    bool star_list_ = false;  ///< the list being read stands behind a *, at depth 1
    std::size_t clause_ = 0;  ///< first item of the sentence, of the row's own list
    std::int64_t held_ = 0;   ///< stitches that wait on a cable needle
    std::pair<TokenKind, char> star_{TokenKind::star, '*'};  ///< what closes the innermost part
    bool slips_ = false;           ///< the item being placed is a slip stitch
    bool behind_skip_ = false;     ///< what stands before it was skipped
    std::int64_t group_size_ = 0;  ///< how many stitches of one kind it is; 0: several kinds
    std::size_t instead_ = 0;      ///< the token of an "instead of ..." that is settled
    std::size_t instead_end_ = 0;
    bool chain_is_space_ = false;  ///< the first chain that is named is one of a space
    bool gaps_ = false;            ///< "Working in spaces between sts, ...": its spaces are those
    Body body_;
    std::optional<Spot> start_;  ///< "starting in 2nd ch from hook", till a stitch goes there
    std::optional<Fault> fault_;
};

}  // namespace skeinfall::notation
