// What a row holds beside its own stitches: the foundation it begins with, and stitches of the
// pattern's own that say themselves where they go.

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <initializer_list>
#include <set>
#include <string_view>
#include <utility>

#include "skeinfall/notation/detail/pattern_reader.hpp"
#include "skeinfall/notation/detail/pattern_worker.hpp"

namespace skeinfall::notation {

bool makes_base(const Body& body, const StitchBook& book) {
    const bool knit = book.craft() == Craft::knit;
    bool base = false;
    for (const Item& item : body.items) {
        const bool cast_on =
            knit && ((item.what == Item::Do::work && book.at(item.kind).name == "CO") ||
                     item.what == Item::Do::unhold);
        if (item.what == Item::Do::chain || item.what == Item::Do::ring || cast_on)
            base = true;
        else if (item.what != Item::Do::join && item.what != Item::Do::turn &&
                 item.what != Item::Do::marker && item.what != Item::Do::at_marker)
            return false;
    }
    return base;
}

/// "..., ch 2, dc in first sc": the stitch closes the round and is part of its last loop.
void PatternReader::close_loop(std::vector<Item>& items) const {
    std::size_t at = items.size();
    while (at > 0 && items[at - 1].what == Item::Do::join) --at;
    if (book_->craft() != Craft::crochet || at < 3) return;
    Item& last = items[at - 1];
    const Item& chain = items[at - 2];
    if (last.what != Item::Do::work || last.count != 1 || chain.what != Item::Do::chain ||
        chain.count > 5 || !works(items[at - 3]))
        return;
    const Stitch& stitch = book_->at(last.kind);
    const Spot& spot = last.spot;
    const bool first =
        (spot.which == Spot::Which::first && spot.nth < 2 && spot.unit.of != Unit::Of::space) ||
        spot.which == Spot::Which::turning;
    // "ending ch 2, dc in last dc": that of a round which ended so
    const bool again = spot.which == Spot::Which::last && spot.count == 1 &&
                       spot.unit.of == Unit::Of::kind && spot.unit.kind == last.kind;
    last.closes = stitch.turning_chains > 0 && stitch.takes == 1 && stitch.makes == 1 &&
                  stitch.plain == last.kind && (first || (again && stitch.turning_chains > 1));
}

/// "24 sc, sl st, ch 1" in rounds: the slip stitch closes it, as the chain for the next one tells.
void PatternReader::close_bare(std::vector<Item>& items) const {
    const std::size_t size = items.size();
    if (book_->craft() != Craft::crochet || size < 3 || items[size - 1].what != Item::Do::chain ||
        items[size - 1].count > 4)
        return;
    Item& slip = items[size - 2];
    if (slip.what != Item::Do::work || slip.kind != book_->slip_stitch() || slip.count != 1 ||
        slip.spot.which != Spot::Which::implied)
        return;
    for (std::size_t i = 0; i + 2 < size; ++i)
        if (items[i].what == Item::Do::work && items[i].kind == book_->slip_stitch()) return;
    slip.what = Item::Do::join;
}

/// "Fsc 24. Ch 2, turn. Hdc across": the row goes into a foundation without a chain.
bool PatternReader::split_chainless(Written& written) {
    std::vector<Item>& items = written.body.items;
    const auto needs_none = [&](const Item& item) {
        return item.what == Item::Do::work && book_->at(item.kind).takes == 0 &&
               item.spot.which == Spot::Which::implied;
    };
    const auto rest = std::find_if_not(items.begin(), items.end(), needs_none);
    const auto turn = std::find_if(rest, items.end(),
                                   [](const Item& item) { return item.what != Item::Do::chain; });
    if (rest == items.begin() || turn == items.end() || turn->what != Item::Do::turn ||
        std::none_of(turn, items.end(), works))
        return false;
    Written base;
    base.entry = written.entry;
    base.base = written.base;
    base.round = written.round;
    base.silent = true;
    base.text = base::trimmed(original_.substr(base_, rest->at));
    base.body.items.assign(std::make_move_iterator(items.begin()), std::make_move_iterator(rest));
    items.erase(items.begin(), rest);
    pattern_.written.push_back(std::move(base));
    assign({0, 0}, {last_written(), 0, false, {}}, place(0));
    return true;
}

/// "Ch 6, sl st to first ch to form a ring. Ch 3, 12 dc in ring": what is closed before the row is
/// its foundation.
void PatternReader::split_base(Written& written) {
    if (book_->craft() != Craft::crochet || !pattern_.slots.empty() || !pattern_.foundation.empty())
        return;
    std::vector<Item>& items = written.body.items;
    if (split_chainless(written)) return;
    std::size_t at = 0;
    std::size_t chains = 0;
    for (; at < items.size(); ++at) {
        if (items[at].what == Item::Do::chain)
            ++chains;
        else if (items[at].what != Item::Do::yarn)
            break;
    }
    const bool closed =
        at < items.size() &&
        (items[at].what == Item::Do::ring || items[at].what == Item::Do::join ||
         (items[at].what == Item::Do::work && items[at].kind == book_->slip_stitch() &&
          items[at].count == 1 && items[at].spot.which == Spot::Which::first));
    if (chains != 1 || !closed) return;
    Item& close = items[at];
    if (close.what == Item::Do::work) close.what = Item::Do::join;
    ++at;
    const auto rest = items.begin() + static_cast<std::ptrdiff_t>(at);
    if (std::none_of(rest, items.end(), makes)) return;
    Written base;
    base.entry = written.entry;
    base.base = written.base;
    base.round = written.round;
    base.silent = true;
    base.text = base::trimmed(original_.substr(base_, rest->at));
    base.body.items.assign(std::make_move_iterator(items.begin()), std::make_move_iterator(rest));
    items.erase(items.begin(), rest);
    pattern_.written.push_back(std::move(base));
    pattern_.foundation.push_back(last_written());
}

/// "in dc of 3rd rnd" within the 4th is a place of the row below.
void PatternReader::name_row_below(std::vector<Token>& tokens, std::int64_t row) {
    const auto word = [&](std::size_t i, std::initializer_list<std::string_view> words) {
        return i < tokens.size() && tokens[i].kind == TokenKind::word &&
               std::find(words.begin(), words.end(), tokens[i].text) != words.end();
    };
    for (std::size_t i = 1; i + 2 < tokens.size(); ++i) {
        if (!word(i, {"of", "from"})) continue;
        const std::size_t at = word(i + 1, {"the"}) ? i + 2 : i + 1;
        if (at + 1 < tokens.size() && tokens[at].kind == TokenKind::ordinal &&
            tokens[at].value == row - 1 && word(at + 1, {"row", "rnd", "round"})) {
            tokens[at].kind = TokenKind::word;
            tokens[at].text = "previous";
        }
    }
}

/// "2 dc, ch 2, 2 dc in next ch-2 sp": a list without brackets may go into that place as a whole.
void PatternReader::gather(std::vector<Item>& items, bool begins) {
    // "3 dc in each ch-sp across, ending with sc in last sp": all but that one
    for (std::size_t i = 0; i + 1 < items.size(); ++i) {
        Spot& each = items[i].spot;
        const Spot& last = items[i + 1].spot;
        if (each.which == Spot::Which::each && each.keep == 0 && !each.to_space &&
            each.unit.of == Unit::Of::space && last.which == Spot::Which::last &&
            last.unit.of == Unit::Of::space) {
            each.keep = last.count;
            each.keeps_units = true;
        }
    }
    const auto free = [](const Item& item) {
        return (item.what == Item::Do::work || item.what == Item::Do::chain) &&
               item.spot.which == Spot::Which::implied;
    };
    for (std::size_t end = 0; end < items.size(); ++end) {
        gather(items[end].items, false);
        const Item& last = items[end];
        // "10 sc, ch 5, 10 sc in each loop": all of it in each
        const bool each_space = last.what == Item::Do::work &&
                                last.spot.which == Spot::Which::each &&
                                last.spot.unit.of == Unit::Of::space;
        const bool one_place =
            last.what == Item::Do::work &&
            (last.spot.which == Spot::Which::next || last.spot.which == Spot::Which::same) &&
            last.spot.count == 1 && !last.spot.distributed;
        if (!one_place && !each_space) continue;
        std::size_t from = end;
        while (from > 0 && free(items[from - 1])) --from;
        while (from < end && (items[from].what == Item::Do::chain)) ++from;
        const bool chained =
            std::any_of(items.begin() + static_cast<std::ptrdiff_t>(from),
                        items.begin() + static_cast<std::ptrdiff_t>(end),
                        [](const Item& item) { return item.what == Item::Do::chain; });
        if (each_space) {
            if (from == end || !chained) continue;
            Item list;
            list.what = Item::Do::group;
            list.at = items[from].at;
            list.spot = last.spot;
            list.items.assign(items.begin() + static_cast<std::ptrdiff_t>(from),
                              items.begin() + static_cast<std::ptrdiff_t>(end) + 1);
            list.items.back().spot = {};
            items[from] = std::move(list);
            items.erase(items.begin() + static_cast<std::ptrdiff_t>(from) + 1,
                        items.begin() + static_cast<std::ptrdiff_t>(end) + 1);
            end = from;
            continue;
        }
        // "(sc, 2 dc in next st, sk 2)": a shell without a bracket of its own, or not.
        const auto skips = [&](std::size_t at) {
            return at < items.size() && items[at].what == Item::Do::skip;
        };
        const bool shell = !begins && last.spot.which == Spot::Which::next &&
                           items[from].kind != last.kind &&
                           (from == 0 ? skips(end + 1) : skips(from - 1));
        if (from < end && (chained || shell) &&
            !(begins && from == 0 && items[0].what == Item::Do::chain))
            items[from].gathers = static_cast<std::uint16_t>(end - from);
    }
}

namespace {

/// How many chains of `size` stand in a list, those that begin it left out; `size` 0: any.
std::int64_t chains_in(const std::vector<Item>& items, std::int64_t size, bool begins) {
    std::int64_t out = 0;
    for (const Item& item : items) {
        const bool chain = item.what == Item::Do::chain;
        if (chain && !begins && (size == 0 || item.count == size)) ++out;
        begins = begins && (chain || item.what == Item::Do::turn || item.what == Item::Do::join);
        out += chains_in(item.items, size, false);
    }
    return out;
}

/// The chains of a group that has one space; 0 for others.
std::int64_t space_within(const std::vector<Item>& items) {
    if (chains_in(items, 0, false) != 1) return 0;
    for (const Item& item : items) {
        if (item.what == Item::Do::chain) return item.count;
        if (const std::int64_t inner = space_within(item.items); inner > 0) return inner;
    }
    return 0;
}

}  // namespace

void count_groups(Body& body, const std::map<KindId, MakeUp>& groups) {
    for (Declared& declared : body.declared) {
        if (declared.what != Declared::What::kind) continue;
        const auto own = groups.find(declared.kind);
        if (own == groups.end() || own->second.own_top) continue;
        const std::int64_t chains = space_within(own->second.items);
        const bool counted =
            body.declared.size() == 1 && chains > 0 && chains_in(body.items, chains, true) == 0;
        declared.what = counted ? Declared::What::spaces : Declared::What::other;
        if (counted) declared.chains = chains;
    }
}

void PatternReader::place_own(Body& body) {
    std::optional<Fault> fault;
    place_own(body.items, fault);
    if (fault) body.unknown.push_back({static_cast<std::uint32_t>(fault->at), fault->what});
}

/// Stitches of the pattern's own that pass over others are worked as their words are.
void PatternReader::place_own(std::vector<Item>& items, std::optional<Fault>& fault) const {
    for (Item& item : items) {
        place_own(item.items, fault);
        if (item.what != Item::Do::work) continue;
        const auto own = pattern_.make_ups.find(item.kind);
        if (own == pattern_.make_ups.end() || !own->second.placed) continue;
        const bool all = item.spot.which == Spot::Which::each;
        if (item.spot.which != Spot::Which::implied && !all) {
            if (!fault) fault = Fault{item.at, book_->at(item.kind).name, {}, {}};
            continue;
        }
        Item repeat;
        repeat.what = Item::Do::repeat;
        repeat.at = item.at;
        repeat.extent = {all ? Extent::Until::to_end : Extent::Until::times, item.count,
                         item.spot.keep, false, false};
        repeat.items = own->second.items;
        item = std::move(repeat);
    }
}

bool ends_in_chains(const Pattern& pattern, project::Craft craft) {
    if (craft != project::Craft::crochet || pattern.foundation.empty() ||
        pattern.foundation.size() != pattern.written.size())
        return false;
    for (const Written& written : pattern.written) {
        if (written.fault || written.counted || written.body.items.empty() ||
            !written.body.unknown.empty())
            return false;
        for (const Item& item : written.body.items)
            if (item.what != Item::Do::chain) return false;
    }
    return std::none_of(pattern.others.begin(), pattern.others.end(),
                        [](const Other& other) { return other.fault || other.rows > 0; });
}

bool is_chain_alone(const Pattern& pattern, project::Craft craft) {
    if (!ends_in_chains(pattern, craft)) return false;
    const auto finishes = [](const std::vector<SetAside>& aside) {
        return std::any_of(aside.begin(), aside.end(),
                           [](const SetAside& one) { return one.why == SetAside::Why::finishing; });
    };
    return finishes(pattern.written.back().body.aside) ||
           std::any_of(pattern.others.begin(), pattern.others.end(),
                       [&](const Other& other) { return finishes(other.aside); });
}

namespace {

/// Whether all of it goes into the place before, or is chains.
bool in_same_place(const Item& item, bool& works) {
    if (item.what == Item::Do::chain) return true;
    if (item.what == Item::Do::repeat && item.extent.until != Extent::Until::to_end)
        return std::all_of(item.items.begin(), item.items.end(),
                           [&](const Item& inner) { return in_same_place(inner, works); });
    if (item.what != Item::Do::work && item.what != Item::Do::group) return false;
    if (item.spot.which != Spot::Which::same) return false;
    works = true;
    return true;
}

}  // namespace

void lead_again(std::vector<Item>& items, KindId slip_stitch) {
    std::size_t last = items.size();
    while (last > 0 &&
           (items[last - 1].what == Item::Do::join || items[last - 1].what == Item::Do::turn ||
            (items[last - 1].what == Item::Do::work && items[last - 1].kind == slip_stitch)))
        --last;
    if (last < 2) return;
    const Item& repeat = items[last - 1];
    if (repeat.what != Item::Do::repeat || repeat.extent.until != Extent::Until::to_end ||
        repeat.extent.keep != 0 || repeat.stop_at != 0 || repeat.partial)
        return;
    bool works = false;
    std::size_t lead = 0;
    while (lead < repeat.items.size() && in_same_place(repeat.items[lead], works)) ++lead;
    if (!works || lead == repeat.items.size() || repeat.items[lead].spot.which != Spot::Which::next)
        return;
    // Chains before the next place belong to that.
    std::vector<Item> again(repeat.items.begin(),
                            repeat.items.begin() + static_cast<std::ptrdiff_t>(lead));
    items.insert(items.begin() + static_cast<std::ptrdiff_t>(last), again.begin(), again.end());
}

namespace {

/// How many rows come again one by one at the end of what is written: 2 behind "rows 4-9: rep rows
/// 2 and 3"; 0 where no rows show it.
std::int64_t rows_of_pattern(const Pattern& pattern) {
    const auto& slots = pattern.slots;
    const auto last = static_cast<std::int64_t>(slots.size()) - 1;
    const auto same = [&](std::int64_t a, std::int64_t b) {
        const std::int64_t one = slots[static_cast<std::size_t>(a)].written;
        const std::int64_t other = slots[static_cast<std::size_t>(b)].written;
        return one >= 0 && other >= 0 &&
               (one == other || pattern.written[static_cast<std::size_t>(one)].text ==
                                    pattern.written[static_cast<std::size_t>(other)].text);
    };
    constexpr std::int64_t most = 24;
    std::int64_t best = 0;
    std::int64_t longest = 0;
    for (std::int64_t period = 1; period <= most && 2 * period <= last + 1; ++period) {
        std::int64_t run = 0;
        while (last - run - period >= 1 && same(last - run, last - run - period)) ++run;
        const bool shown = period == 1 ? run >= 2 || (run > 0 && last - run <= 2) : run >= period;
        if (!shown || run <= longest) continue;
        best = period;
        longest = run;
    }
    return best;
}

}  // namespace

namespace {

/// Whether the rows that come again keep their stitches, and whether the last two rows are of one
/// plain stitch: what is worked so far is asked.
struct Steady {
    bool keeps = false;
    bool plain = false;
};

Steady steady(const Pattern& pattern, const NotationOptions& options, StitchBook& book,
              std::int64_t period) {
    const NotationResult so_far = PatternWorker(pattern, options, book).run();
    const auto& order = so_far.rows.order;
    const auto row = [&](std::size_t back) -> const project::RowWork& {
        return so_far.rows.distinct[order[order.size() - back]];
    };
    Steady out;
    const auto block = static_cast<std::size_t>(period);
    out.keeps = period > 0 && order.size() >= 2 * block;
    for (std::size_t back = 1; out.keeps && back <= block; ++back)
        out.keeps =
            std::llround(row(back).made.value()) == std::llround(row(back + block).made.value());
    std::set<KindId> kinds;
    for (std::size_t back = 1; back <= 2 && back <= order.size(); ++back)
        for (const KindCount& kind : row(back).kinds)
            if (const auto found = book.find(kind.kind);
                found && found->kind != book.chain() && found->kind != book.slip_stitch())
                kinds.insert(book.at(found->kind).plain);
    out.plain = order.size() > 1 && kinds.size() == 1;
    return out;
}

}  // namespace

bool pattern_again(const Pattern& pattern, const NotationOptions& options, StitchBook& book,
                   std::vector<Token>& tokens, std::optional<Fault>& fault) {
    // "Next 8 rows: Work even in pattern as established."
    std::size_t from = 0;
    for (std::size_t i = 1; i < 7 && i + 1 < tokens.size(); ++i)
        if (tokens[i].kind == TokenKind::colon &&
            (among(tokens[0], {"next", "rows", "rnds", "rounds"})))
            from = i + 1;
    std::size_t at = from;
    while (among(tokens[at], {"then", "and", "now"}) || tokens[at].kind == TokenKind::comma) ++at;
    while (among(tokens[at], {"continue", "cont", "work", "working", "continuing", "keep", "going",
                              "straight", "even", "on", "crocheting"}))
        ++at;
    if (!among(tokens[at], {"in"})) return false;
    ++at;
    while (among(tokens[at], {"the", "this", "established", "est", "same", "set"})) ++at;
    if (!among(tokens[at], {"pattern", "patt", "pat", "manner", "way"})) return false;
    ++at;
    while (among(tokens[at],
                 {"as", "established", "est", "set", "before", "stitch", "throughout", "above"}) ||
           tokens[at].kind == TokenKind::comma)
        ++at;
    const bool ends =
        from > 0 && (tokens[at].kind == TokenKind::end || tokens[at].kind == TokenKind::full_stop ||
                     tokens[at].kind == TokenKind::open);
    if (!ends && !among(tokens[at], {"until", "till", "for", "to"})) return false;
    const std::int64_t rows = rows_of_pattern(pattern);
    const Steady what = steady(pattern, options, book, rows);
    if (!what.keeps && what.plain) return false;  // as the stitches below
    if (!what.keeps) {
        fault = Fault{tokens[0].at, "which rows the pattern is made of is not shown",
                      "rows that were repeated before, or their numbers",
                      "Write it like: Rep rows 2 and 3 until it measures 60 in."};
        return true;
    }
    static constexpr std::string_view figures[] = {
        "0",  "1",  "2",  "3",  "4",  "5",  "6",  "7",  "8",  "9",  "10", "11", "12",
        "13", "14", "15", "16", "17", "18", "19", "20", "21", "22", "23", "24"};
    std::vector<Token> again(tokens.begin(), tokens.begin() + static_cast<std::ptrdiff_t>(from));
    for (const std::string_view word : {std::string_view("rep"), std::string_view("last"),
                                        figures[rows], std::string_view("rows")}) {
        Token token;
        token.at = tokens[from].at;
        token.kind = word == figures[rows] ? TokenKind::number : TokenKind::word;
        token.value = word == figures[rows] ? rows : 0;
        token.text = word;
        again.push_back(token);
    }
    again.insert(again.end(), tokens.begin() + static_cast<std::ptrdiff_t>(at), tokens.end());
    tokens = std::move(again);
    return false;
}

/// "ch 3, sl st in 3rd ch from hook": a picot, nothing of it goes into the row below.
bool PatternReader::hangs_free(const std::vector<Item>& items) const {
    const auto on_chain = [&](const Item& item) {
        return item.what == Item::Do::chain ||
               (item.what == Item::Do::work && item.kind == book_->slip_stitch() &&
                (item.spot.which == Spot::Which::from_hook ||
                 item.spot.unit.of == Unit::Of::chain));
    };
    return book_->craft() == Craft::crochet && items.size() > 1 &&
           items.front().what == Item::Do::chain &&
           std::all_of(items.begin(), items.end(), on_chain);
}

void PatternReader::define(const OwnStitch& own) {
    Stitch stitch;
    stitch.name = own.name;
    stitch.takes = own.takes;
    stitch.makes = own.makes.value_or(1);
    MakeUp make_up;
    make_up.own_top = own.makes.has_value();
    if (!own.of.empty()) {
        const std::string text = base::lower(own.of);
        Tokens tokens = tokens_of(text, options_->size, options_->sizes);
        std::optional<Fault> fault = tokens.fault;
        std::vector<SetAside> said;
        if (!fault) read_phrases(tokens.tokens, *book_, *options_, said);
        Body body;
        if (!fault) {
            Grammar grammar(*book_, tokens.tokens, 0);
            body = grammar.row();
            fault = grammar.fault();
        }
        if (!fault && !body.unknown.empty())
            fault = Fault{body.unknown.front().at,
                          "\"" + body.unknown.front().name + "\" is no known stitch",
                          "stitches of the trade, or ones described before this one", ""};
        if (!fault && body.items.empty())
            fault = Fault{0, "there is no stitch in it", "its stitches, like 2 dc, ch 1", ""};
        if (fault) {
            base::Place where = own.of_place;
            where.column += fault->at;
            fail(where, fault->what, fault->expected, fault->remedy);
            return;
        }
        make_up.items = std::move(body.items);
        make_up.placed = says_places(make_up.items);
    }
    if (make_up.items.size() == 1 && make_up.items.front().what == Item::Do::work &&
        make_up.items.front().kind == book_->slip_stitch() && make_up.items.front().count == 1 &&
        !book_->find(base::lower(own.name))) {
        book_->also_called(base::lower(own.name), book_->slip_stitch());
        return;  // "slp st = slip stitch": another name, no stitch of its own
    }
    if (hangs_free(make_up.items) && !own.makes && own.takes == 1) {
        stitch.takes = 0;
        stitch.makes = 0;
        make_up.own_top = true;
    }
    const auto kind = book_->add(stitch);
    if (!kind) {
        fail(own.place, "the stitch \"" + own.name + "\" is known already", "a name of its own",
             "Give it another name.");
        return;
    }
    if (!make_up.items.empty()) pattern_.make_ups.emplace(*kind, std::move(make_up));
}

}  // namespace skeinfall::notation
