// Where a stitch goes, how often a group is worked, and the names of stitches.

#include <array>
#include <cstdint>
#include <utility>

#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/grammar.hpp"
#include "skeinfall/notation/detail/tokens.hpp"
#include "skeinfall/notation/detail/words.hpp"

namespace skeinfall::notation {
namespace {

const std::initializer_list<std::string_view> across_words{"across", "around", "along"};

}  // namespace

bool Grammar::at_place() const {
    if (any_of({"on", "onto", "over"}) && region_has({"needle", "needles", "dpns", "dpn"}))
        return false;
    if (any_of({"in", "with"}) &&
        any_of({"main", "contrast", "contrasting"}, any_of({"the"}, 1) ? 2 : 1))
        return false;
    if (any_of({"in", "on"}) && any_of({"color", "colour", "mc", "cc", "cc1", "cc2"}, 1) &&
        !(any_of({"mc"}, 1) && !is_words(2)))
        return false;
    if (any_of({"in", "into", "on", "onto", "over", "next", "each", "every", "between"}))
        return true;
    if (any_of({"to", "through"}) && is(TokenKind::ordinal, 1)) return true;
    if (any_of({"to"}) && any_of({"the"}, 1) && is(TokenKind::ordinal, 2)) return true;
    if (any_of({"to"}))
        return any_of({"next", "first", "top", "same", "the", "beg", "beginning", "each", "corner"},
                      1);
    if (any_of({"all"}))
        return any_of(stitch_words, 1) || (is(TokenKind::number, 1) && any_of(stitch_words, 2));
    if (any_of({"across"}))
        return any_of({"next"}, 1) || (any_of({"the"}, 1) && any_of({"next"}, 2));
    if (!any_of({"around"})) return false;
    if (any_of({"the"}, 1) && any_of({"ring", "circle", "square", "motif", "whole", "entire"}, 2))
        return false;
    return any_of({"next", "each", "post", "posts", "the", "first", "last", "same", "st", "sts",
                   "top", "every", "skipped"},
                  1) ||
           (peek(1).kind == TokenKind::word && book_->find(peek(1).text).has_value());
}

std::optional<Spot> Grammar::place() {
    const std::uint32_t at = peek().at;
    take({"in", "into", "on", "onto", "over", "to", "around", "across"});
    Spot spot;
    bool loops_only = false;
    while (true) {
        const bool third = is(TokenKind::ordinal) && peek().value == 3;
        if ((third || any_of({"back", "front", "both", "third"})) &&
            any_of({"loop", "loops", "lp", "lps", "bump", "bumps", "bar", "bars"}, 1)) {
            next_ += 2;
            loops_only = true;
        } else if (take({"blo", "flo", "bl", "fl", "bls", "fls"})) {
            loops_only = true;
        } else if (!take({"the", "only", "of", "post", "posts", "a", "both"})) {
            break;
        }
    }
    if (any_of({"base"}) && any_of({"of"}, 1)) {  // "in base of ch 3": where it stands
        pass_to({"and"});
        spot.which = Spot::Which::same;
        return spot;
    }
    if (turning_place(spot) || ordinal_place(spot)) return spot;
    if (fault_) return std::nullopt;
    if (ring_words() || (any_of({"mc"}) && !is_words(1) && take({"mc"})) ||
        (any_of({"center", "centre", "middle"}) && any_of({"of"}, 1) &&
         any_of({"ring", "circle"}, 2 + (any_of({"the"}, 2) ? 1U : 0U)) && pass_ring_centre())) {
        spot.which = Spot::Which::ring;
        return spot;
    }
    if (each_place(spot)) return spot;
    if (fault_) return std::nullopt;
    if (any_of({"between"})) {
        if (group_gap(spot) || gap_place(spot)) {
            if (fault_) return std::nullopt;
            spot.which = Spot::Which::next;
            return spot;
        }
        between();
        return std::nullopt;
    }
    if (any_of({"last"}) && any_of(chain_words, 1) && any_of({"from"}, 2)) {
        next_ += 3;
        take({"the"});
        take({"hook"});
        spot.which = Spot::Which::from_hook;
        spot.unit.of = Unit::Of::chain;
        spot.count = 0;  // of all that were made
        return spot;
    }
    if (loops_only) {
        if (const auto until = extent(); until && until->until == Extent::Until::to_end) {
            spot.which = Spot::Which::each;
            spot.keep = until->keep;
            return spot;
        }
        if (!any_of({"next", "first", "last", "same"}) && !any_of(stitch_words)) return spot;
    }
    spot.which = Spot::Which::next;
    bool named = take({"next", "following", "foll"});
    if (any_of({"marked"}) && any_of(stitch_words, 1)) {  // the marker stands where a round begins
        ++next_;
        spot.which = Spot::Which::first;
        named = true;
    }
    if (book_->craft() == Craft::crochet && take({"any"})) named = true;
    if (is(TokenKind::ordinal) && peek().value == 1) {
        ++next_;
        spot.which = Spot::Which::first;
        named = true;
    } else if (take({"first"})) {
        spot.which = Spot::Which::first;
        named = true;
    } else if (take({"last", "final"})) {
        spot.which = Spot::Which::last;
        named = true;
    } else if (take({"same", "skipped", "missed"})) {
        spot.which = Spot::Which::same;
        named = true;
    }
    while (take({"rem", "remaining", "corner", "unworked", "middle", "center", "centre", "beg",
                 "available"}))
        named = true;
    bool counted = false;
    const std::size_t chain = is(TokenKind::dash, 1) ? 2 : 1;  // "2-ch sp", "6ch-space"
    const bool glued =
        is(TokenKind::number) &&
        any_of({"ch-sp", "ch-space", "ch-sps", "ch-spaces", "ch-loop", "ch-lp"}, chain);
    if (glued || (is(TokenKind::number) && any_of(chain_words, chain) &&
                  any_of({"sp", "space", "lp", "loop", "arch"}, chain + 1))) {  // "corner 3 ch sp"
        spot.unit = {Unit::Of::space, 0, peek().value};
        next_ += glued ? chain + 1 : chain + 2;
        spot.in_one = true;
        pass_row_below();
        return spot;
    }
    if (is(TokenKind::number)) {
        const std::int64_t count = peek().value;
        ++next_;
        if (const auto cluster = cluster_name(count)) {  // "in next 2dc-cl"
            spot.unit = {Unit::Of::kind, *cluster, 0};
            spot.in_one = true;
            pass_row_below();
            return spot;
        }
        spot.count = count;
        counted = true;
    }
    if (take({"skipped"})) spot.which = Spot::Which::same;
    if (!named && !counted && is(TokenKind::word) && is(TokenKind::number, 1) &&
        !any_of(chain_words) && !any_of(stitch_words) &&
        !book_->find(peek().text)) {  // "in frist 3 sts"
        const auto near = base::nearest_name(std::string(peek().text),
                                             {"next", "first", "last", "each", "every", "same"});
        fail(peek().at, "\"" + base::shown_inert(peek().text) + "\" is no place",
             "next, first, last, each, same",
             near ? "Did you mean \"" + *near + "\"?" : "Write it like: sc in next 3 sts.");
        return std::nullopt;
    }
    const bool corner = next_ > 0 && tokens_[next_ - 1].text == "corner";
    if (named && !counted && spot.which == Spot::Which::next && any_of({"sts", "stitches"}) &&
        !any_of(across_words, 1) && !any_of({"to", "until"}, 1)) {
        fail(peek().at, "how many of the next stitches is not said", "their number",
             "Write it like: sc in next 3 sts.");
        return std::nullopt;
    }
    if (spot.count == 1 && spot.which == Spot::Which::next && group_gap(spot))
        return fault_ ? std::nullopt : std::optional<Spot>(spot);
    if (spot.count == 1 && gap_place(spot)) return spot;
    if (fault_) return std::nullopt;
    if (const auto what = unit()) {
        spot.unit = *what;
    } else if (fault_) {
        return std::nullopt;
    } else if (any_of({"place", "spot"})) {
        ++next_;
    } else if (corner) {
        spot.unit = {Unit::Of::space, 0, 0};
    } else if (is(TokenKind::word) && !named) {
        spot.unit = {Unit::Of::any, unknown_stitch(), 0};
    } else if (is(TokenKind::word) && counted) {
        unknown_stitch();
    } else if (!named && !counted) {
        fail(at, "this does not say where the stitch goes", "next st, each st across, same st ...",
             "Write it like: sc in next st.");
        return std::nullopt;
    }
    if (spot.which == Spot::Which::same && any_of({"as"})) pass_to({"and"});
    if (spot.unit.of == Unit::Of::space || spot.unit.of == Unit::Of::kind) of_group(spot);
    if (spot.which == Spot::Which::each) return spot;
    pass_row_below();
    pass_purpose();
    if (any_of({"between"})) {
        between();
        return std::nullopt;
    }
    spot.in_one = spot.which != Spot::Which::next || spot.count == 1;
    if (take({"to"}) && !take({"join"})) --next_;
    return spot;
}

/// "each st across", "each of next 5 sts", "every sc around", "all sts".
bool Grammar::each_place(Spot& spot) {
    const bool any_to_the_end =
        book_->craft() == Craft::crochet && any_of({"any"}) && region_has({"till", "until", "end"});
    if (!take({"each", "every"}) && !(any_to_the_end && take({"any"})) &&
        !(any_of({"all"}) &&
          (any_of(stitch_words, 1) || (is(TokenKind::number, 1) && any_of(stitch_words, 2))) &&
          take({"all"})))
        return false;
    take({"and"});
    take({"every"});
    take({"of"});
    take({"the"});
    while (book_->craft() == Craft::crochet && take({"your", "beginning", "these", "those"})) {
    }
    spot.distributed = true;
    if (group_gaps(spot)) return true;
    if (any_of({"next", "following", "foll"}) || is(TokenKind::number) ||
        (any_of({"last", "first"}) && is(TokenKind::number, 1))) {
        spot.which = any_of({"last"})    ? Spot::Which::last
                     : any_of({"first"}) ? Spot::Which::first
                                         : Spot::Which::next;
        if (is(TokenKind::word)) ++next_;
        if (is(TokenKind::number)) {
            spot.count = peek().value;
            ++next_;
        }
        if (take({"skipped", "missed"})) spot.which = Spot::Which::same;
    } else {
        spot.which = Spot::Which::each;
        while (take({"rem", "remaining", "corner", "of", "the"})) {
        }
    }
    const bool corner = tokens_[next_ - 1].text == "corner";
    if (const auto what = unit())
        spot.unit = *what;
    else if (corner)
        spot.unit = {Unit::Of::space, 0, 0};
    else if (any_of(row_nouns) && book_->craft() == Craft::crochet && count_at_end() > 0) {
        ++next_;  // "sc in each row (31)": the count says how many
        spot.which = Spot::Which::ring;
        spot.count = count_at_end();
        take({"end", "ends"});
        pass_row_below();
        extent();
        return true;
    } else if (any_of(row_nouns) && book_->craft() == Craft::crochet)
        fail(peek().at, "how many row ends there are is not told here",
             "the number of stitches along the edge",
             "Write it like: 30 sc evenly along the edge.");
    else if (take(row_nouns))  // "knit every row"
        spot.unit = {};
    else if (is(TokenKind::word) && !any_of(across_words) && !any_of({"to", "and", "all"}) &&
             !any_of({"times", "more", "working", "with", "rep", "repeat"}))
        spot.unit = {Unit::Of::any, unknown_stitch(), 0};
    if (spot.which == Spot::Which::each && any_of({"of"}) && any_of({"each", "every"}, 1) &&
        any_of(stitch_words, 2))
        next_ += 3;  // "in each hdc of each stitch"
    if (spot.which == Spot::Which::next && spot.count == 1 && any_of(across_words)) {
        spot.which = Spot::Which::each;  // "each of next st around"
        spot.distributed = true;
    }
    pass_row_below();
    // "each st and ch-1 sp"
    const std::size_t before = next_;
    if (take({"and"})) {
        take({"in"});
        take({"each", "every"});
        const auto other = at_separator() ? std::nullopt : unit();
        if (other && spot.which == Spot::Which::each &&
            (other->of == Unit::Of::chain) != (spot.unit.of == Unit::Of::chain))
            spot.unit = {Unit::Of::single, 0, 0};
        else if (other && (other->of == Unit::Of::space) != (spot.unit.of == Unit::Of::space))
            spot.unit = {Unit::Of::either, 0,
                         other->of == Unit::Of::space ? other->chains : spot.unit.chains};
        else
            next_ = before;
    }
    if (spot.which == Spot::Which::each && next_space()) {
        spot.to_space = true;
        return true;
    }
    if (spot.which == Spot::Which::each)
        if (const auto until = extent()) {
            if (until->until != Extent::Until::to_end)
                fail(peek().at, "each stitch is named, and a number of times besides",
                     "one of them", "Write it like: sc in next 6 sts.");
            spot.keep = until->keep;
            spot.to_marker = until->to_marker;
            spot.last_marker = until->last_marker;
            spot.nth_marker = until->nth_marker;
            spot.to_gap = until->to_gap;
        }
    return !fault_;
}

/// The number in "ch-3", "ch-3-sp".
std::optional<std::int64_t> Grammar::space_word(std::string_view word) const {
    if (!word.starts_with("ch")) return std::nullopt;
    word.remove_prefix(word.starts_with("chain") ? 5 : 2);
    if (word.starts_with("-")) word.remove_prefix(1);
    for (const std::string_view ending :
         {"-sps", "-sp", "-spaces", "-space", "-lp", "-loop", "sps", "sp", "space"})
        if (word.ends_with(ending)) word.remove_suffix(ending.size());
    return whole_number(word);
}

std::optional<Unit> Grammar::unit() {
    if (take(stitch_words)) return Unit{};
    if (any_of({"vertical", "vert"}) && any_of({"bar", "bars", "strand", "strands"}, 1)) {
        next_ += 2;  // of Tunisian crochet
        return Unit{};
    }
    if (book_->craft() == Craft::crochet && take({"bar", "bars"})) return Unit{};
    if (take(space_words) || take({"ch-sp", "ch-sps", "ch-space", "ch-lp", "chsp", "chsps"}))
        return gaps_ ? Unit{} : Unit{Unit::Of::space, 0, 0};
    if (is(TokenKind::word)) {
        if (const auto chains = space_word(peek().text)) {
            ++next_;
            take(space_words);
            return Unit{Unit::Of::space, 0, *chains};
        }
    }
    if (any_of(chain_words)) {
        ++next_;
        if (std::exchange(chain_is_space_, false)) return Unit{Unit::Of::space, 0, 0};
        const std::size_t dash = is(TokenKind::dash) ? 1 : 0;  // "ch- 1 sp"
        const std::size_t behind = dash + 1 + (is(TokenKind::dash, dash + 1) ? 1U : 0U);
        if (is(TokenKind::number, dash) && any_of(space_words, behind)) {  // "ch 2-sp"
            const std::int64_t chains = peek(dash).value;
            next_ += behind + 1;
            return Unit{Unit::Of::space, 0, chains};
        }
        if (take(space_words)) return Unit{Unit::Of::space, 0, 0};
        return Unit{Unit::Of::chain, 0, 0};
    }
    if (!is(TokenKind::word) || any_of(across_words) || any_of({"and", "to"})) return std::nullopt;
    const auto named = stitch_name();
    if (!named) return std::nullopt;
    take(stitch_words);
    return Unit{Unit::Of::kind, named->kind, 0};
}

/// "last 2 sts", "last st": the 2 or 1. Stands on "last".
std::optional<std::int64_t> Grammar::keep_of_last() {
    if (!take({"last", "final"})) return std::nullopt;
    std::int64_t keep = 1;
    if (is(TokenKind::number)) {
        keep = peek().value;
        ++next_;
    }
    unit();
    return keep;
}

/// "2nd" of "2nd marker", which is taken: the 2. 0 where the marker is not counted.
std::int64_t Grammar::counted_marker() {
    if (is(TokenKind::ordinal) && any_of({"marker", "m", "mkr"}, 1)) {
        const std::int64_t value = peek().value;
        ++next_;
        return value > 1 ? value : 0;
    }
    std::int64_t value = 2;
    for (const std::string_view word : {"second", "third", "fourth"}) {
        if (take({word})) return value;
        ++value;
    }
    return 0;
}

std::optional<Extent> Grammar::extent() {
    if (auto often = how_often()) return often;
    Extent out;
    out.until = Extent::Until::to_end;
    const Words turning_words{"tch", "t-ch", "turning", "beg", "beginning"};
    Spot turning;
    if (any_of({"all"}) && any_of(across_words, 1)) ++next_;
    if (any_of({"all"}) && any_of({"way"}, 2) && any_of(across_words, 3)) next_ += 3;
    if (any_of({"for"}) && any_of({"the"}, 1) && any_of({"entire", "whole", "rest"}, 2)) {
        next_ += 3;  // "for the entire round"
        take({"of"});
        take({"the"});
        take(row_nouns);
        return out;
    }
    if (any_of({"in"}) && any_of({"the"}, 1) && any_of({"round", "rnd"}, 2)) {
        next_ += 3;
        out.loose = true;
        return out;
    }
    if (any_of(across_words)) {
        if (any_of({"around", "across"}) && at_place()) return std::nullopt;
        ++next_;
        out.loose = true;
        take({"the"});
        take({"entire", "whole"});
        if (!take(row_nouns)) take({"ring", "circle", "square", "motif", "loop", "chain", "ch"});
        if (any_of({"to", "until"}) && any_of({"last"}, 1) && any_of({"block", "tile"}, 2)) {
            ++next_;
            to_space(out);
            out.loose = false;
        } else if (any_of({"to"}) && any_of({"last", "final"}, 1)) {
            ++next_;
            out.keep = keep_of_last().value_or(0);
            out.loose = false;
        } else if (any_of({"to", "until"}) && any_of({"the"}, 1) && any_of({"last", "final"}, 2)) {
            next_ += 2;
            out.keep = keep_of_last().value_or(0);
            out.loose = false;
        } else if (any_of({"to", "until", "till"}) &&
                   (any_of({"end"}, 1) || (any_of({"the"}, 1) && any_of({"end"}, 2)))) {
            next_ += any_of({"the"}, 1) ? 3U : 2U;
            if (any_of({"of"})) {
                ++next_;
                take({"the"});
                take(row_nouns);
            }
        } else if (any_of({"to"}) && any_of({"marked"}, 1) && any_of(stitch_words, 2)) {
            next_ += 3;
        } else if (any_of({"to"}) && any_of(turning_words, 1)) {
            ++next_;
            turning_place(turning);
        } else if (any_of({"to", "until", "till"})) {  // "across to within 4 sts of end"
            if (const auto rest = extent(); rest && rest->until == Extent::Until::to_end) {
                out.keep = rest->keep;
                out.to_marker = rest->to_marker;
                out.last_marker = rest->last_marker;
                out.nth_marker = rest->nth_marker;
                out.to_gap = rest->to_gap;
                out.to_space = rest->to_space;
                out.last_space = rest->last_space;
                out.chains = rest->chains;
                out.loose = false;
            }
        }
        return out;
    }
    if (!any_of({"to", "until", "till"})) return std::nullopt;
    const std::size_t before = next_;
    ++next_;
    take({"you", "there"});
    take({"reach", "get", "are", "have", "is"});
    take({"to"});
    take({"the"});
    take({"within"});
    if (take({"around", "across"})) {  // "repeat * to around"
        out.loose = true;
        return out;
    }
    if (take({"end"})) {
        if (take({"of"})) {
            take({"the"});
            if (!take(row_nouns)) take(chain_words);
        }
        return out;
    }
    if (any_of({"marked"}) && any_of(stitch_words, 1)) {  // where the round began
        next_ += 2;
        return out;
    }
    if (to_space(out)) return out;
    const auto marker = [&] {
        if (book_->craft() == Craft::knit) {
            const std::size_t here = next_;
            if (const std::int64_t more = gap_words(); more >= 0) {
                out.to_gap = true;
                out.keep += more;
                return true;
            }
            next_ = here;
        }
        take({"the"});
        out.last_marker = any_of({"last"});
        if (!take({"the", "next", "first", "last"})) out.nth_marker = counted_marker();
        const bool found = take({"marker", "markers", "m", "mkr"});
        if (found && book_->craft() == Craft::crochet)
            fail(tokens_[next_ - 1].at, "markers are not followed", "a number of stitches",
                 "Write how many stitches come before the marker, like: sc in next 12 sts.");
        return found;
    };
    if ((any_of({"marker", "m", "mkr", "next", "first", "gap", "wrapped", "ds", "turn", "turning",
                 "wrap", "previous"}) ||
         (any_of({"last"}) &&
          any_of({"gap", "wrapped", "ds", "turn", "turning", "wrap", "marker", "m"}, 1)) ||
         ((any_of({"second", "third", "fourth"}) || is(TokenKind::ordinal)) &&
          any_of({"marker", "m", "mkr"}, 1))) &&
        marker()) {
        out.to_marker = true;
        return out;
    }
    if (any_of({"last", "final"})) {
        out.keep = keep_of_last().value_or(0);
        if (take({"before", "of"}) && marker()) out.to_marker = true;
        return out;
    }
    if (any_of({"one"}) && any_of(stitch_words, 1)) {
        const std::size_t here = next_;
        next_ += 2;
        if (any_of({"before", "remains", "remain"}) && take({"before", "remains", "remain"})) {
            out.keep = 1;
            out.to_marker = tokens_[next_ - 1].text == "before" && marker();
            return out;
        }
        next_ = here;
    }
    // "to turning ch": what comes behind it says how much is left.
    if (any_of(turning_words) && turning_place(turning)) return out;
    if (is(TokenKind::number)) {
        const std::int64_t keep = peek().value;
        ++next_;
        unit();
        const bool before_it = any_of({"before", "of", "from"});
        if (take(
                {"rem", "remain", "remains", "remaining", "left", "before", "of", "from", "are"}) ||
            any_of({"end"})) {
            take({"remaining", "left"});
            if (any_of({"in"}) && any_of(row_nouns, 1)) next_ += 2;
            if (any_of({"in"}) && any_of({"the"}, 1) && any_of(row_nouns, 2)) next_ += 3;
            take({"the"});
            if (before_it && marker()) out.to_marker = true;
            take({"end"});
            if (any_of({"of"}) && any_of(row_nouns, 1)) next_ += 2;
            out.keep += keep;
            return out;
        }
    }
    next_ = before;
    return std::nullopt;
}

/// "4 times", "x 4", "twice", "6 more times", "once more".
std::optional<Extent> Grammar::how_often() {
    Extent out;
    out.until = Extent::Until::n_times;
    const bool inverted = any_of({"a", "for"}) && any_of({"total", "a"}, 1);
    if (inverted && any_of({"total"}, any_of({"for"}) ? 2 : 1)) {  // "for a total of 6 times"
        const std::size_t words = any_of({"for"}) ? 4 : 3;
        if (is(TokenKind::number, words) && any_of({"times", "repeats"}, words + 1)) {
            out.count = peek(words).value;
            out.until = Extent::Until::times;
            next_ += words + 2;
            return out;
        }
    }
    if (any_of({"one"}) && any_of({"more", "time", "additional"}, 1)) {
        out.count = 1;
        ++next_;
    } else if (is(TokenKind::number)) {
        if (!any_of({"times", "time", "x", "more", "additional"}, 1)) return std::nullopt;
        if (any_of({"more"}, 1) && !any_of({"times", "time", "x"}, 2) && is_words(2) &&
            book_->find(peek(2).text))
            return std::nullopt;  // "3 more sc"
        out.count = peek().value;
        ++next_;
    } else if (any_of({"once", "twice"})) {
        out.count = any_of({"once"}) ? 1 : 2;
        ++next_;
    } else if (is(TokenKind::number, 1) &&
               // "(2 sc, inc) * 6"
               (any_of({"x"}) ||
                (is(TokenKind::star) && next_ > 0 &&
                 (!is(TokenKind::word, 2) || any_of({"times", "time"}, 2)) &&
                 (tokens_[next_ - 1].kind == TokenKind::close || behind_change())))) {
        out.count = peek(1).value;
        next_ += 2;
    } else if (is(TokenKind::word) && peek().text.starts_with("x") &&
               whole_number(peek().text.substr(1))) {
        out.count = *whole_number(peek().text.substr(1));
        ++next_;
    } else {
        return std::nullopt;
    }
    bool more = take({"more", "additional"});
    take({"times", "time", "x"});
    more = take({"more"}) || more;
    if (more) out.until = Extent::Until::more_times;
    if (take({"total"}) || (any_of({"in"}) && any_of({"all", "total"}, 1))) {
        if (any_of({"in"})) next_ += 2;
        out.until = Extent::Until::times;
    }
    // "(3 sc, dec) 8 times around": the words say no more
    if (book_->craft() == Craft::crochet && any_of(across_words) && !at_place() && !is_words(1) &&
        !is(TokenKind::open, 1))
        ++next_;
    return out;
}

}  // namespace skeinfall::notation
