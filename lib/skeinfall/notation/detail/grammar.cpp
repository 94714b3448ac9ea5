#include "skeinfall/notation/detail/grammar.hpp"

#include <algorithm>
#include <cstdint>
#include <iterator>
#include <utility>

#include "skeinfall/base/text.hpp"

namespace skeinfall::notation {

namespace {

const Token* token_at(const Token* tokens, std::size_t last, std::uint32_t at) {
    std::size_t i = 0;
    while (i < last && tokens[i].at < at) ++i;
    return tokens + i;
}

}  // namespace

Grammar::Grammar(StitchBook& book, const std::vector<Token>& tokens, std::size_t first)
    : book_(&book), tokens_(tokens.data()), last_(tokens.size() - 1), next_(first), begin_(first) {}

Body Grammar::row() {
    const bool slipped = chain_is_space_ = slips_into_chain();
    body_.items = items_until('\0');
    if (slipped) begin_in_space();
    check_held();
    begin_with_chain();
    count_blocks();
    if (!fault_) settle_part_counts();
    if (!fault_) bracket_fills_row();
    if (!fault_) join_needles(body_.items);
    return std::move(body_);
}

bool Grammar::at_separator() const {
    switch (peek().kind) {
        case TokenKind::comma:
        case TokenKind::semicolon:
        case TokenKind::full_stop:
        case TokenKind::colon:
        case TokenKind::dash:
        case TokenKind::equals:
            return true;
        default:
            return false;
    }
}

bool Grammar::take(Words words) {
    if (!any_of(words)) return false;
    ++next_;
    return true;
}

void Grammar::fail(std::size_t at, std::string what, std::string expected, std::string remedy) {
    if (!fault_) fault_ = Fault{at, std::move(what), std::move(expected), std::move(remedy)};
}

/// "*(p2, k2) around", "*k2, k2tog around": the star says no more than the words behind it.
bool Grammar::fills_row(const std::vector<Item>& items) {
    return items.size() == 1 && items.front().what == Item::Do::repeat &&
           items.front().extent.until == Extent::Until::to_end;
}

/// Items up to a closing bracket (taken), up to the end of a starred part ('*', not taken), or up
/// to the end of the row ('\0').
std::vector<Item> Grammar::items_until(char closing) {
    std::vector<Item> out;
    while (!fault_) {
        const Token& token = peek();
        if (token.kind == TokenKind::end) {
            if (closing == '*' &&
                (fills_row(out) || (book_->craft() == Craft::knit && depth_ == 1 && !out.empty())))
                break;
            if (closing == '*')
                fail(token.at, "the row ends inside a part that began with *",
                     "\"rep from *\" with across, around, to last n sts or n times",
                     "Close it like: *sc, ch 1; rep from * across.");
            else if (closing != '\0')
                fail(token.at, std::string("the row ends before the bracket is closed"),
                     std::string("\"") + closing + "\"", "Close the bracket.");
            break;
        }
        if (token.kind == TokenKind::close) {
            if (token.sign == closing)
                ++next_;
            else
                fail(token.at, std::string("\"") + token.sign + "\" closes nothing",
                     closing == '\0' || closing == '*' ? "no closing bracket here"
                                                       : std::string("\"") + closing + "\"");
            break;
        }
        if (closing == '*' && is_mark() && opens_inner()) {
            item(out);
            continue;
        }
        const bool mixed = star_.first == TokenKind::double_star && token.kind == TokenKind::star;
        if (closing == '*' && (mixed || (token.kind == star_.first && token.sign == star_.second)))
            break;
        if (closing == '*' && token.kind == TokenKind::star && !out.empty() && ends_here()) {
            out.back().stop_at = static_cast<std::uint32_t>(out.size());  // a dagger for "**"
            ++next_;
            continue;
        }
        if (token.kind == TokenKind::double_star && (closing == '*' || !opens_here())) {
            if (closing != '*' || out.empty()) {
                fail(token.at, "\"**\" marks nothing here", "it between * and rep from *");
                break;
            }
            // "*3 tr into ring, 2 ch** repeat from * to ** twice more": only the end of it
            std::size_t by = 1;
            while (by < 3 && (is(TokenKind::comma, by) || is(TokenKind::full_stop, by) ||
                              is(TokenKind::semicolon, by)))
                ++by;
            if (any_of({"rep", "repeat"}, by) && any_of({"from", "between"}, by + 1) &&
                is(TokenKind::star, by + 2) && any_of({"to", "and"}, by + 3) &&
                is(TokenKind::double_star, by + 4)) {
                ++next_;
                continue;
            }
            // The repeat that holds this list takes the mark from its last item.
            out.back().stop_at = static_cast<std::uint32_t>(out.size());
            ++next_;
            continue;
        }
        if (closing == '*' && any_of({"rep", "repeat", "repeating"}) && repeats_star()) break;
        if (any_of({"rep", "repeat"}) && any_of({"from", "between"}, 1)) {
            if (again_star(out)) continue;
            fail(token.at, "\"rep from *\" without a * before it", "a * where the repeat begins",
                 "Put a * before its first stitch.");
            break;
        }
        if (any_of({"rep", "repeat", "repeating"}) && is(TokenKind::open, 1)) {
            ++next_;  // "then repeat {2 dc in next st, dc in next st} to end"
            continue;
        }
        if (any_of({"rep", "repeat", "repeating"}) && closing == '\0' && repeat_all(out)) continue;
        if (token.kind == TokenKind::open && times_bracket(out)) continue;
        const auto work = [](const Item& item) {
            return item.what != Item::Do::chain && item.what != Item::Do::turn;
        };
        if ((closing == '\0' || (closing == '*' && star_never_ends())) &&
            declared_tail(std::any_of(out.begin(), out.end(), work)))
            continue;
        if (token.kind == TokenKind::yarn) {
            yarn_item(out);
            continue;
        }
        if (is(TokenKind::equals) && closing == '\0' && is(TokenKind::number, 1) && !out.empty()) {
            fail(token.at, "what stands behind \"=\" is not the count of the row",
                 "the stitches of the row at its end, like: = 24 sc", "Put the count at the end.");
            break;
        }
        if (at_separator()) {
            if (closing == '\0' &&
                (is(TokenKind::full_stop) || is(TokenKind::semicolon) || is(TokenKind::colon)))
                clause_ = out.size();
            ++next_;
            continue;
        }
        // "sc in each dc and 2 sc in each ch-2 sp", "..., 3 sc in each corner"
        const bool all = !out.empty() && out.back().spot.which == Spot::Which::each;
        const bool any = all && (out.back().spot.unit.of == Unit::Of::any ||
                                 out.back().spot.unit.of == Unit::Of::either);
        const bool joined = all && !any && any_of({"and"});
        if (joined || (any && any_of({"working", "work", "making", "placing", "with"}) &&
                       (is(TokenKind::number, 1) || is(TokenKind::open, 1))))
            ++next_;
        const std::size_t before = out.size();
        item(out);
        if (one_more_choice(out, before)) continue;
        if (!all || out.size() != before + 1 || out.back().spot.which != Spot::Which::each)
            continue;
        const bool corners =
            any && out[before - 1].spot.keep == 0 && out.back().spot.unit.of == Unit::Of::space;
        if (corners) std::swap(out[before - 1], out.back());
        if (joined || corners || places_apart(out)) interleave(out);
    }
    return out;
}

/// The last two items, each for every place of its own, become one repeat.
void Grammar::interleave(std::vector<Item>& out) {
    Item choose;
    choose.what = Item::Do::choose;
    choose.at = out[out.size() - 2].at;
    choose.items = {std::move(out[out.size() - 2]), std::move(out.back())};
    Item repeat;
    repeat.what = Item::Do::repeat;
    repeat.at = choose.at;
    repeat.extent = {Extent::Until::to_end, 1, choose.items.back().spot.keep, false, false};
    for (Item& choice : choose.items) {
        choice.spot.which = Spot::Which::next;
        choice.spot.keep = 0;
    }
    repeat.items = {std::move(choose)};
    out.pop_back();
    out.back() = std::move(repeat);
}

void Grammar::item(std::vector<Item>& out) {
    const std::size_t before = next_;
    switch (peek().kind) {
        case TokenKind::word:
            word_item(out);
            break;
        case TokenKind::number:
            number_item(out);
            break;
        case TokenKind::open:
            bracket_item(out);
            break;
        case TokenKind::star:
        case TokenKind::double_star:
            star_item(out);
            break;
        case TokenKind::other:
            fail(peek().at,
                 "the sign \"" + base::shown_inert(peek().text) + "\" means nothing in notation",
                 "words, numbers and the signs * ( ) [ ] , ; . : -", "Take it out.");
            break;
        default:
            if (mesh_item(out)) return;
            fail(peek().at, "\"" + std::string(peek().text) + "\" is not expected here",
                 "a stitch, a bracket or *");
    }
    if (next_ == before && !fault_)
        fail(peek().at, "this cannot be read", "a stitch and where it goes");
}

void Grammar::word_item(std::vector<Item>& out) {
    const Token& token = peek();
    if (made_note(out) || colour_label() || named_part() || prose_sentence() || fault_) return;
    if (any_of({"one"}) && is(TokenKind::word, 1) && book_->craft() == Craft::crochet &&
        book_->find(peek(1).text) && !any_of({"st", "sts"}, 1))
        ++next_;
    if (return_item() || loop_item(out) || fault_) return;
    if (named_group(out) || fault_) return;
    if (mesh_item(out) || fault_) return;
    if (any_of({"sk", "skip", "miss", "skipping", "missing"})) return skip_item(out);
    if (any_of({"put", "place"}) && book_->craft() == Craft::knit && !region_has({"cn", "cable"}) &&
        holder_item(out))
        return;
    // "work 3 dc in ...", "make 1 sc in ...": what follows says it
    if (any_of({"work", "make", "working", "making", "put", "place", "crochet"}) &&
        (is(TokenKind::number, 1) || is(TokenKind::open, 1)) &&
        !(any_of({"make"}) && book_->craft() == Craft::knit)) {
        ++next_;
        return;
    }
    if (any_of({"increasing", "decreasing"}) && book_->craft() == Craft::crochet &&
        ((is(TokenKind::number, 1) && region_has({"evenly"})) ||
         (any_of({"in", "into"}, 1) && any_of({"every"}, 2))))
        return change_item(out, 1);
    if (any_of({"inc", "increase", "dec", "decrease", "invdec"}) ||
        (any_of({"inv", "invisible"}) && any_of({"dec", "decrease"}, 1)))
        return change_item(out, 1);
    if (held_again(out) || needle_item(out) || fault_) return;
    if (held_item() || fault_ || even_item(out) || holder_item(out)) return;
    if (marker_item(out)) return;
    if (const auto named = stitch_name()) return stitch_item(out, token.at, *named, std::nullopt);
    if (fault_ || aside(out)) return;
    if (place_last(out) || chain_placed(out) || place_first(out) || fault_) return;
    // A place with nothing to go into it: what went before was not understood.
    if (at_place() && !out.empty() && out.back().what == Item::Do::work &&
        out.back().spot.which == Spot::Which::implied) {
        Item last = std::move(out.back());
        out.pop_back();
        return add_where(out, std::move(last));
    }
    if (same_again(out)) return;
    if (any_of({"in", "into", "next", "each", "to", "same", "first", "last", "every"})) {
        fail(token.at, "a place without a stitch that goes there", "a stitch before it",
             "Write it like: sc in next st.");
        return;
    }
    Item item;
    item.at = token.at;
    item.kind = unknown_stitch();
    if (is(TokenKind::number)) {
        item.count = peek().value;
        ++next_;
    }
    add_where(out, std::move(item));
}

void Grammar::number_item(std::vector<Item>& out) {
    const Token number = peek();
    if (book_->craft() == Craft::knit && rib_by_numbers(out)) return;
    ++next_;
    if (is(TokenKind::slash) && is(TokenKind::number, 1) &&
        any_of({"rc", "lc", "rpc", "lpc"}, 2)) {  // "2/2 RC": two stitches cross two
        Item item;
        item.at = number.at;
        item.kind = book_->find_us("k");
        item.count = number.value + peek(1).value;
        next_ += 3;
        return add_where(out, std::move(item));
    }
    if (is(TokenKind::yarn) && book_->craft() == Craft::knit) {  // "3 MC, 1 CC"
        Item item;
        item.at = number.at;
        item.kind = book_->find_us("k");
        item.count = number.value;
        item.yarn = static_cast<std::uint16_t>(peek().value + 1);
        ++next_;
        take({"st", "sts", "stitch", "stitches"});
        out.push_back(std::move(item));
        return;
    }
    if (is(TokenKind::dash) && is(TokenKind::word, 1)) ++next_;  // "3-dc cluster"
    if (any_of({"more"}) && is(TokenKind::word, 1) && book_->find(peek(1).text)) ++next_;
    if (cluster_item(out, number) || fault_) return;
    if (is(TokenKind::word) && peek().text.size() > 4 && peek().text.ends_with("tog") &&
        book_->craft() == Craft::crochet) {
        const auto stem = book_->find(peek().text.substr(0, peek().text.size() - 3));
        if (stem && book_->at(stem->kind).takes == 1) {
            ++next_;
            Item item;
            item.at = number.at;
            item.kind = stem->kind;
            return together_item(out, std::move(item), number.value);
        }
    }
    --next_;
    if (mesh_item(out) || fault_) return;
    ++next_;
    if (any_of({"inc", "increase", "dec", "decrease", "invdec"}))
        return change_item(out, number.value);
    if (const auto named = stitch_name()) return stitch_item(out, number.at, *named, number.value);
    if (fault_) return;
    if (is(TokenKind::word) && !any_of({"st", "sts", "stitches", "times", "more", "time", "x"})) {
        Item item;
        item.at = number.at;
        item.count = number.value;
        item.kind = unknown_stitch();
        return add_where(out, std::move(item));
    }
    // "pick up and knit 32 sts from back neck, 18 sts down left front"
    const bool edge = any_of({"down", "up", "along", "across", "from"}, 1) && !out.empty() &&
                      book_->at(out.back().kind).name == "CO";
    const Token* const before = out.empty() ? tokens_ : token_at(tokens_, last_, out.back().at);
    if (edge && any_of({"st", "sts", "stitches"}) &&
        (before->text.starts_with("p") || before->kind == TokenKind::number)) {
        ++next_;
        Item item = out.back();
        item.at = number.at;
        item.count = number.value;
        static_cast<void>(picked_up(item, false));
        return out.push_back(std::move(item));
    }
    fail(number.at, "the number " + std::string(number.text) + " is not attached to a stitch",
         "the stitch it counts", "Write it like: 5 sc, or k5.");
}

void Grammar::star_item(std::vector<Item>& out) {
    if (too_deep()) return;
    Item item;
    item.what = Item::Do::repeat;
    item.at = peek().at;
    const auto outer = std::exchange(star_, {peek().kind, peek().sign});
    ++next_;
    ++depth_;
    const bool was_list = std::exchange(star_list_, depth_ == 1);
    item.items = items_until('*');
    star_list_ = was_list;
    --depth_;
    const auto mine = std::exchange(star_, outer);
    if (fault_ || (is(TokenKind::end) && star_to_end(out, item))) return;
    for (Item& part : item.items)
        item.stop_at = std::max(item.stop_at, std::exchange(part.stop_at, 0));
    const bool closed =
        is(mine.first) || (mine.first == TokenKind::double_star && is(TokenKind::star));
    if (closed) ++next_;
    const std::size_t after = next_;
    while (at_separator()) ++next_;
    const bool rep = take({"rep", "repeat", "repeating"});
    if (!rep && !closed) {
        fail(peek().at, "the part that began with * is not repeated", "\"rep from *\"");
        return;
    }
    if (!rep) next_ = after;
    if (closed && !rep && placed_part(out, item)) return;
    if (closed && !rep && bracket_times(out, item)) return;
    if (rep && is(TokenKind::open) && any_of({"rep"}, 1) && is(TokenKind::close, 2)) next_ += 3;
    if (rep &&
        any_of({"from", "between", "instructions", "directions", "pattern", "what", "the"}) &&
        !star_words()) {
        fail(peek().at, "\"rep from\" without a *", "\"*\"", "Write rep from *.");
        return;
    }
    if (rep && is_mark()) {  // "repeat * around", "repeat * to * around"
        ++next_;
        if (any_of({"to", "and"}) && is_mark(1))
            next_ += 2;
        else if (is(TokenKind::dash) && is_mark(1))
            next_ += 2;
        else if (any_of({"to"}) && !any_of({"end", "last", "the", "within"}, 1))
            ++next_;
    }
    const std::size_t said = next_;
    const bool comma = is(TokenKind::comma);
    if (comma) ++next_;
    const auto times = closed && !rep ? star_times() : extent();
    if (fault_) return;
    if (comma && !times) next_ = said;  // "rep from *, k1"
    count_behind(rep && (!times || times->until == Extent::Until::to_end));
    if (!times && rep && is(TokenKind::word) && !any_of({"end", "ending"})) {
        fail(peek().at, "the repeat does not say how often",
             "across, around, to end, to last n sts, or n times",
             "Write it like: rep from * across.");
        return;
    }
    item.extent = times.value_or(Extent{Extent::Until::to_end, 1, 0, false, false});
    if (closed && !rep && item.extent.until == Extent::Until::n_times)
        item.extent.until = Extent::Until::times;
    const std::size_t behind = next_;
    if (is(TokenKind::comma)) ++next_;
    if (any_of({"ending", "end"}) && any_of({"last"}, 1) && any_of({"rep", "repeat"}, 2) &&
        any_of({"at", "before"}, 3) && is_mark(4)) {
        if (item.stop_at == 0) fail(peek().at, "no ** marks where the last repeat ends", "a **");
        next_ += 5;
    } else {
        next_ = behind;
        item.stop_at = 0;
        omitting(item);
    }
    push_starred(out, std::move(item));
}

void Grammar::stitch_item(std::vector<Item>& out, std::uint32_t at, NamedCount named,
                          std::optional<std::int64_t> count) {
    Item item;
    item.at = at;
    item.kind = named.kind;
    const Stitch& stitch = book_->at(named.kind);
    std::optional<std::int64_t> said = count ? count : named.count;
    // "Knit 1x2 rib": the word only says that it is knitted
    if (!said && out.empty() && depth_ == 0 && book_->craft() == Craft::knit &&
        is(TokenKind::number) && rib_by_numbers(out))
        return;
    if (stitch.name == "CO" && is(TokenKind::colon) && is(TokenKind::number, 1))
        ++next_;  // "Cast on: 24 sts"
    // "long-tail cast on, CO 72", "using the cast on method"
    if (stitch.name == "CO" && !said && !is(TokenKind::number)) {
        const std::size_t from = next_;
        take({"method"});
        if (is(TokenKind::comma)) ++next_;
        if (any_of({"co", "cast"}) || next_ > from) return;
    }
    if (named.count && any_of({"sts", "stitches"}) && !any_of({"tog", "together"}, 1))
        ++next_;                                   // "k19 sts"
    if (named.count && take({"tog", "together"}))  // "k2 tog"
        return together_item(out, std::move(item), *named.count);
    if (!said && is(TokenKind::number) && !any_of({"times", "time"}, 1)) {
        const bool tog = any_of({"tog", "together"}, 1) ||
                         (any_of({"st", "sts", "stitches"}, 1) && any_of({"tog", "together"}, 2));
        const std::int64_t value = peek().value;
        ++next_;
        while (tog && !take({"tog", "together"})) ++next_;
        if (tog) return together_item(out, std::move(item), value);
        said = value;
        // "cast on 40 sts", "bind off 5 sts", "k5 sts"
        if (!any_of({"tog"}, 1)) take({"st", "sts", "stitch", "stitches"});
        // "knit 6 rows" is a label that counts them
        if (any_of({"row", "rows", "rnd", "rnds", "round", "rounds"})) {
            if (!out.empty() || depth_ > 0) {
                fail(peek().at, "rows stand within a row", "rows of their own",
                     "Begin a new line with them.");
                return;
            }
            ++next_;
            said.reset();
        }
    }
    if (said) item.count = *said;
    if (stitch.name == "CO" && tokens_[std::min(next_, last_)].at > at &&
        picked_up(item, out.empty())) {
        out.push_back(std::move(item));
        return;
    }
    if (is(TokenKind::yarn) && peek().sign == 's') {  // "k in CC to last 3 sts"
        item.yarn = static_cast<std::uint16_t>(peek().value + 1);
        ++next_;
    }
    if (held_ > 0 && any_of({"from", "off"}) &&
        any_of({"cn", "cable", "the", "left", "lh", "left-hand", "main"}, 1)) {
        const bool other = region_has({"left", "lh", "knitting", "main", "left-hand"});
        while (is_words() && !any_of({"cn", "needle"})) ++next_;
        ++next_;
        if (!other) held_ = std::max<std::int64_t>(0, held_ - item.count * stitch.takes);
        out.push_back(std::move(item));
        return;
    }
    if (stitch.name == "CO" && any_of({"in"}) && any_of({"a", "an"}, 1)) {
        out.push_back(std::move(item));  // "in a stretchy cast-on"
        return;
    }
    if (named.kind == book_->chain() && book_->craft() == Craft::crochet)
        return chain_item(out, std::move(item));
    if (any_of({"inc", "increase", "dec", "decrease"}) && stitch.takes == 1 && stitch.makes == 1) {
        if (any_of({"inc", "increase"})) {
            ++next_;
            Item group;
            group.what = Item::Do::group;
            group.at = at;
            item.count = 2;
            group.items = {item};
            group.spot.which = Spot::Which::next;
            group.spot.count = said.value_or(1);
            if (at_place()) return add_where(out, std::move(group));
            out.push_back(std::move(group));
            return;
        }
        ++next_;
        return together_item(out, std::move(item), 2);
    }
    if (named.kind == book_->slip_stitch() && book_->craft() == Craft::crochet &&
        (region_has({"form", "ring", "circle"}) ||
         (any_of({"to"}) && any_of({"join", "close"}, 1))))
        return join_item(out, at);
    while (has(Role::manner) ||
           (any_of({"as", "with"}) && any_of({"if", "yarn"}, 1) && pass_manner())) {
        if (has(Role::manner)) ++next_;
    }
    if (book_->craft() == Craft::knit) take({"plain"});
    if (const auto often = how_often()) {  // "yo twice"
        item.count *= often->count;
        said = item.count;
        if (item.count > largest_number) fail(at, "the count is too large", "at most 1000000");
    }
    if (any_of({"rib", "ribbing"}) && rib_item(out, item)) return;
    if (any_of({"in"}) && any_of({"rib", "ribbing"}, 1) && !out.empty() &&
        book_->craft() == Craft::knit) {  // "k 1 p 1 in ribbing"
        ++next_;
        if (rib_item(out, item)) return;
    }
    if (!said && out.empty() && depth_ == 0 && book_->craft() == Craft::knit && any_of({"in"}) &&
        (stitch.name == "k" || stitch.name == "p") && region_has_fabric()) {
        ++next_;
        return;
    }
    if (!said && take({"even"})) {  // "sc even"
        item.spot.which = Spot::Which::each;
        out.push_back(std::move(item));
        return;
    }
    const bool to_the_end =
        !said && book_->craft() == Craft::knit &&
        (stitch.name == "BO" ||
         (out.empty() && depth_ == 0 &&
          (is(TokenKind::end) || (is(TokenKind::full_stop) && !stitch_behind_stop()) ||
           is(TokenKind::open) || is(TokenKind::dash) || is(TokenKind::equals)))) &&
        !times_bracket_here();
    const bool bound_off = stitch.name == "BO" && !said && any_of({"in"});  // "in pattern"
    if (take({"all", "rem", "remaining"}) || (to_the_end && (!at_place() || bound_off))) {
        take({"of"});
        if (take({"the"})) take({"way"});  // "sc all the way across"
        take({"rem", "remaining"});
        take({"st", "sts", "stitches"});
        item.spot.which = Spot::Which::each;
        if (const auto until = extent()) item.spot.keep = until->keep;
        if (stitch.name == "BO" && item.spot.keep > 0) {  // "to last st": its loop stays
            Item left;
            left.at = item.at;
            left.kind = book_->find_us("k");
            left.count = item.spot.keep;
            out.push_back(std::move(item));
            out.push_back(std::move(left));
            return;
        }
        if (stitch.name == "BO" && take({"in"})) {  // "in pattern", "in rib", "in knit"
            while (take({"the", "k2", "p2", "k1", "p1", "rib", "ribbing", "pattern", "patt", "knit",
                         "purl", "garter", "stitch", "st", "as", "established"}) ||
                   (is(TokenKind::comma) && any_of({"p2", "p1"}, 1) && ++next_ > 0)) {
            }
        }
        out.push_back(std::move(item));
        return;
    }
    add_where(out, std::move(item));
}

}  // namespace skeinfall::notation
