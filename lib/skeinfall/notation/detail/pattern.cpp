#include "skeinfall/notation/detail/pattern.hpp"

#include <algorithm>
#include <cstdint>
#include <initializer_list>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/notation/detail/pattern_reader.hpp"
#include "skeinfall/notation/detail/phrases.hpp"

namespace skeinfall::notation {

namespace {

/// "Return pass: yo, pull through 1 loop, ...", "Row 1 RetP: ...": it makes no stitches.
bool return_pass(const std::vector<Token>& tokens) {
    const auto is = [&](std::size_t i, std::initializer_list<std::string_view> words) {
        return i < tokens.size() && tokens[i].kind == TokenKind::word &&
               std::find(words.begin(), words.end(), tokens[i].text) != words.end();
    };
    for (std::size_t i = 0; i < 5 && i < tokens.size(); ++i) {
        if (is(i, {"forward", "fwdp", "fwd"})) return false;
        if (is(i, {"retp", "rtp"})) return true;
        // "Row 1 (Return): yo, pull through 1 loop, ..."
        if (is(i, {"return", "reverse", "closing"}) && i > 1 && is(0, {"row", "rows"}) &&
            tokens[i - 1].kind == TokenKind::open && tokens[i + 1].kind == TokenKind::close)
            return true;
        if (!is(i, {"return", "reverse", "returning"}) || !is(i + 1, {"pass", "row"})) continue;
        // Nothing else may stand before it but a label.
        return i == 0 || is(0, {"row", "rows"}) || is(0, {"*"});
    }
    return is(0, {"return"}) && tokens.size() > 1 && tokens[1].kind == TokenKind::colon;
}

/// "Row 15: Repeat row 2 in A.": the one yarn of the line, in which its rows are worked.
bool yarn_of_repeat(const std::vector<YarnPhrase>& phrases, const Label& label, Craft craft) {
    return craft == Craft::crochet && phrases.size() == 1 && !label.rows.empty() &&
           !phrases.front().change && !phrases.front().enclosed;
}

}  // namespace

/// In a pattern that is read as far as it goes, what is wrong in a line stays with it.
void PatternReader::full_line(std::string_view text) {
    const bool outer = std::exchange(in_line_, true);
    full_line_of(text);
    in_line_ = outer;
    if (outer || line_faults_.empty()) return;
    Other other;
    other.entry = entry_;
    other.base = base_;
    other.text = base::trimmed(original_.substr(base_, text.size()));
    other.first_row = next_row_;
    plain_since_ = true;
    const base::Problem& first = line_faults_.front();
    other.problem = first;
    pattern_.others.push_back(std::move(other));
    line_faults_.clear();
}

/// What a row names as it makes it is a stitch of its own for the rows above.
void PatternReader::name_groups(Body& body) {
    for (NamedGroup& group : body.named) {
        if (group.kind != 0) {
            pattern_.make_ups.emplace(group.kind, MakeUp{std::move(group.items), true});
            continue;
        }
        if (const auto known = book_->find(group.name)) {
            if (const auto own = pattern_.make_ups.find(known->kind);
                own != pattern_.make_ups.end() && !own->second.own_top)
                own->second.items = std::move(group.items);
            continue;
        }
        Stitch stitch;
        stitch.name = group.name;
        if (const auto kind = book_->add(stitch))
            pattern_.make_ups.emplace(*kind, MakeUp{std::move(group.items), false});
    }
    body.named.clear();
    count_groups(body, pattern_.make_ups);
}

/// "Ch 5 to turn each row": the rows above end so too, where they do not say how they end.
void PatternReader::turn_each(Body& body) {
    if (body.turns_each > 0) {
        turns_each_ = body.turns_each;
        return;
    }
    if (turns_each_ == 0 || body.items.empty()) return;
    const Item& last = body.items.back();
    if (last.what == Item::Do::chain || last.what == Item::Do::turn ||
        last.what == Item::Do::join || body.items.front().what == Item::Do::chain)
        return;
    Item chain;
    chain.what = Item::Do::chain;
    chain.count = turns_each_;
    chain.at = last.at;
    Item turn;
    turn.what = Item::Do::turn;
    turn.at = last.at;
    body.items.push_back(chain);
    body.items.push_back(turn);
}

/// "2nd Row: ..., join.", "R2: inc around": a round under the name of a row.
bool PatternReader::closes_round(const std::vector<Item>& items, const Label& label) const {
    if (book_->craft() != Craft::crochet) return false;
    bool worked = false;
    bool closed = false;
    for (const Item& item : items) {
        if (item.what == Item::Do::turn) return false;
        const bool slips =
            item.what == Item::Do::work && item.kind == book_->slip_stitch() &&
            (item.spot.which == Spot::Which::first || item.spot.which == Spot::Which::turning);
        if (item.what == Item::Do::join || slips)
            closed = worked;
        else if (works(item))
            worked = true;
    }
    return closed || label.letter;
}

/// What phrases put aside is told with the first row that the line has written.
void PatternReader::keep_said(std::size_t first, const std::vector<SetAside>& said) {
    if (first >= pattern_.written.size()) return;
    std::vector<SetAside>& aside = pattern_.written[first].body.aside;
    aside.insert(aside.begin(), said.begin(), said.end());
}

/// "Continue in pattern as established.": neither a length nor a number of rows.
bool PatternReader::goes_on_unsaid(const Label& label, const std::optional<OpenEnd>& open_end,
                                   std::string_view text) const {
    if (book_->craft() != Craft::knit || label.what != Label::What::unlabelled || label.again ||
        open_end)
        return false;
    const std::string low = base::lower(std::string(text));
    const std::string_view said = base::trimmed(low);
    static constexpr std::string_view fabrics[] = {
        "even",    "in",  "stockinette", "stocking", "st",      "stitch",
        "stitch.", "st.", "garter",      "straight", "even.",   "stockinette.",
        "the",     "rib", "rib.",        "ribbing",  "ribbing."};
    if (said.starts_with("work ") || said.starts_with("knit ")) {
        // "Work in stockinette stitch.": so many rows as nobody knows
        std::size_t words = 0;
        for (std::size_t at = 5; at < said.size(); ++words) {
            const std::size_t end = std::min(said.find(' ', at), said.size());
            if (std::find(std::begin(fabrics), std::end(fabrics), said.substr(at, end - at)) ==
                std::end(fabrics))
                return false;
            at = end + 1;
        }
        return words > 1 && !pattern_.slots.empty() && said.find(" in ") != std::string_view::npos;
    }
    if (!said.starts_with("continue ") && !said.starts_with("cont ")) return false;
    const auto has = [&](std::string_view word) {
        return said.find(word) != std::string_view::npos;
    };
    return (has("pattern") || has("patt") || has("establish") || has("manner") || has("even") ||
            has("as set") || has("as before") || has("this way")) &&
           said.find_first_of("0123456789*,;:") == std::string_view::npos && !has(" to ") &&
           !has(" end") && !has("across") && !has("around") && !has(" row") && !has(" round") &&
           !has(" rnd") && !has("decreas") && !has("increas");
}

/// "16 inc in next 2 sts": sixteen, or two?
std::optional<Fault> PatternReader::increases_twice(const std::vector<Token>& tokens) const {
    if (book_->craft() != Craft::knit) return std::nullopt;
    for (std::size_t i = 0; i + 5 < tokens.size(); ++i) {
        if (tokens[i].kind != TokenKind::number || tokens[i].value < 2 ||
            !among(tokens[i + 1], {"inc", "kfb", "increase"}) || !among(tokens[i + 2], {"in"}))
            continue;
        if (i > 0 && (tokens[i - 1].text == "k" || tokens[i - 1].text == "p" ||
                      tokens[i - 1].text == "knit" || tokens[i - 1].text == "purl"))
            continue;  // "k 16 inc in next 2 sts"
        std::size_t at = i + 3;
        while (among(tokens[at], {"each", "of", "the"})) ++at;
        if (!among(tokens[at], {"next", "first", "last"}) || at + 2 >= tokens.size() ||
            tokens[at + 1].kind != TokenKind::number || tokens[at + 1].value == tokens[i].value)
            continue;
        return Fault{tokens[i].at, "a number stands before the increase, and another behind it",
                     "one of them", "Write it like: k16, inc in next 2 sts."};
    }
    return std::nullopt;
}

void PatternReader::full_line_of(std::string_view text) {
    if (base::trimmed(text).empty()) return;
    Tokens lexed = tokens_of(text, options_->size, options_->sizes);
    if (lexed.fault) return fail(*lexed.fault);
    if (const std::size_t at = next_row_at(lexed.tokens); at > 0) {
        const bool number_alone =  // "2. Knit 2 rows, purl 1 row."
            book_->craft() == Craft::knit &&
            text.substr(0, at).find_first_not_of("0123456789. ") == std::string_view::npos;
        if (!number_alone) full_line_of(text.substr(0, at));
        base_ += at;
        full_line_of(text.substr(at));
        base_ -= at;
        return;
    }
    if (changed_row(lexed.tokens, text)) return;
    if (const auto twice = increases_twice(lexed.tokens)) return fail_line(text, *twice);
    if (book_->craft() == Craft::knit && bare_change(lexed.tokens))
        return fail_line(text, Fault{0, "how many stitches are changed is not said", "their number",
                                     "Write it like: knit, dec 4 sts evenly. (36 sts)"});
    std::vector<SetAside> said;
    read_phrases(lexed.tokens, *book_, *options_, said);
    expand_markers(lexed.tokens);
    std::optional<Fault> fault;
    const std::vector<YarnPhrase> phrases =
        take_yarns(lexed.tokens, original_.substr(base_, text.size()), options_->yarns, *book_,
                   fault, false, !options_->yarns_guessed);
    if (fault) return fail(*fault);
    pattern_.yarns_said = pattern_.yarns_said || !phrases.empty();
    if (goes_on_turning(lexed.tokens, text)) return;
    if (book_->craft() == Craft::crochet &&
        pattern_again(pattern_, *options_, *book_, lexed.tokens, fault))
        return fail_line(text, *fault);
    Label label = label_of(lexed.tokens, fault);
    if (fault) return fail_line(text, *fault);
    if (const auto more = passed_over(text, label)) return fail_line(text, *more);
    if (label.what == Label::What::numbered && !label.rows.empty())
        name_row_below(lexed.tokens, label.rows.front().first);
    if (label.side != 0 && label.what == Label::What::numbered && !label.rows.empty())
        right_parity_ = (label.rows.front().first + (label.side == 'r' ? 0 : 1)) % 2;
    const std::size_t before_it = pattern_.written.size();
    if (label.what == Label::What::unlabelled &&
        (edge_rows(lexed.tokens, text) || goes_on_changing(lexed.tokens, text)))
        return keep_said(before_it, said);
    std::optional<OpenEnd> open_end;
    // "Row 2: K2, p2 for 1 in": such rows, as many as that
    const bool one_row = book_->craft() == Craft::knit && options_->lenient &&
                         label.what == Label::What::numbered && label.rows.size() == 1 &&
                         label.rows.front().first == label.rows.front().last &&
                         label.rows.front().first > 0 && label.also == Parity::none;
    if (!label.again && (label.what == Label::What::unlabelled || one_row ||
                         (label.what == Label::What::next && label.count == 1)))
        open_end = take_open_end(lexed.tokens, label.body);
    if (label.what == Label::What::unlabelled && label.body == 0) {
        pass_lead(lexed.tokens, said);
        pass_chain_lead(lexed.tokens, said);
    }
    if (goes_on_unsaid(label, open_end, text))
        return fail_line(
            text, Fault{label.body, "how long this goes on is not said",
                        "a number of rows, or a length", "Write it like: work even for 10 rows."});
    Grammar grammar(*book_, lexed.tokens, label.body);
    if (label.what == Label::What::note) {
        if (const auto note = grammar.note()) pattern_.notes.insert(*note);
        return;
    }
    if (return_pass(lexed.tokens)) return set_aside(text);
    const Where where = place(0);
    row_fault_.reset();
    restarts_ = false;
    called_ = 0;
    std::vector<Span> spans = placed(label);
    if (!label.again && edges_of_rows(lexed.tokens, text, label, spans))
        return keep_said(before_it, said);
    if (label.again) {
        label.rows = spans;
        for (const YarnPhrase& phrase : phrases)
            if (phrase.at <= label.again->at || yarn_of_repeat(phrases, label, book_->craft()))
                change_to(phrase.yarn);
        const std::int64_t before = next_row_;
        Other other;
        other.entry = entry_;
        other.base = base_;
        other.text = base::trimmed(original_.substr(base_, text.size()));
        const bool alone = label.what == Label::What::unlabelled;
        repeat_rows(label, where, other.told);
        repeated_since_ = repeated_since_ || (alone && book_->craft() == Craft::knit);
        other.fault = row_fault_;
        other.first_row = before;
        other.rows = next_row_ - before;
        if (spans.size() > 1 && !row_fault_)
            for (const Span& span : spans)
                for (std::int64_t row = span.first; row <= std::min(span.last, most_rows); ++row)
                    other.apart.push_back(row);
        other.aside = std::move(said);
        pattern_.others.push_back(std::move(other));
        for (const YarnPhrase& phrase : phrases)
            if (phrase.at > label.again->at && !yarn_of_repeat(phrases, label, book_->craft()))
                yarn_behind(phrase, where);
        if (label.has_tail) behind(grammar);
        return;
    }
    Written written;
    written.entry = entry_;
    written.base = base_;
    written.round = label.names_kind ? label.round : options_->round;
    written.body = grammar.row();
    if (!written.round && options_->round && closes_round(written.body.items, label))
        written.round = true;
    written.restarts = restarts_;
    if (called_ > 0)
        written.told.push_back(
            {Severity::caution, 0,
             fmt::format("the pattern calls it row {}; with the rows read before it, it is row {}",
                         called_, next_row_),
             "Check the rows told in words before it."});
    if (!grammar.fault()) place_own(written.body);
    if (!grammar.fault() && label.what == Label::What::unlabelled) keep_below(written);
    if (!grammar.fault() && book_->craft() == Craft::crochet) gather(written.body.items, true);
    if (!grammar.fault()) split_base(written);
    if (!grammar.fault()) name_groups(written.body);
    if (!grammar.fault()) turn_each(written.body);
    if (!grammar.fault() && written.round) close_bare(written.body.items);
    if (!grammar.fault() && written.round) close_loop(written.body.items);
    if (!grammar.fault() && written.round && written.body.declared.empty())
        lead_again(written.body.items, book_->slip_stitch());
    std::optional<Fault> wrong = grammar.fault();
    if (wrong && phrases.size() > 1) {  // "*3 MC, 1 CC; rep from *" makes no sense without them
        colours_within(text, written, wrong);
        if (wrong) wrong = grammar.fault();
    }
    if (label.what == Label::What::numbered && label.rows.size() == 1 &&
        label.rows.front().last == 0 && makes_base(written.body, *book_))
        label.what = Label::What::foundation;  // "Row 0: ch 13"
    if (wrong)
        if (auto border = border_by_count(*wrong, lexed.tokens, label.body)) {
            written.told.push_back({Severity::ok, static_cast<std::uint32_t>(wrong->at),
                                    "its count says how many stitches go round", ""});
            written.body = std::move(*border);
            written.round = true;
            wrong.reset();
        }
    if (!wrong && options_->joined_before && options_->lenient && pattern_.written.empty() &&
        !makes_base(written.body, *book_))
        joined_border(written, wrong, lexed.tokens, label.body);
    const bool parted = grammar.fault() && !wrong;
    if (wrong) {
        if (!options_->lenient) return fail(*wrong);
        written.fault = wrong;
        written.body = Body{};
        written.body.declared = Grammar(*book_, lexed.tokens, label.body).declared_only();
    }
    if (!parted) written.body.aside.insert(written.body.aside.begin(), said.begin(), said.end());
    if (label.what == Label::What::unlabelled && options_->lenient &&
        (written.fault || !written.body.unknown.empty()))
        salvage_base(lexed.tokens, written);
    const std::size_t begin = lexed.tokens[label.body].at;
    written.begin = begin;
    written.text = base::trimmed(original_.substr(base_ + begin, text.size() - begin));
    keep_notes(written.body);
    if (label.what == Label::What::next && !written.fault) rows_alone(lexed.tokens, written.body);
    if (label.what == Label::What::unlabelled && !written.fault)
        bound_at_edge(written.body, written.text);
    const bool numbered = label.what == Label::What::numbered || label.what == Label::What::others;
    const std::vector<Item>& items = written.body.items;
    if (!parted) written.yarns = yarns_of_row(phrases, items, yarn_, fault);
    if (fault && !written.fault && written.yarns.within) colours_within(text, written, fault);
    if (fault && !options_->lenient) return fail(*fault);
    if (fault && !written.fault) written.fault = fault;
    // "Change to CC1.", "Join CC1 with sl st in any st."
    const bool only_yarn = !phrases.empty() && std::none_of(items.begin(), items.end(), makes);
    const bool takes_up = pattern_.slots.empty() && makes_base(written.body, *book_);
    // "Row 7: Cut yarn and thread it through the stitches."
    const bool finishes =
        book_->craft() == Craft::knit && items.empty() &&
        std::any_of(written.body.aside.begin(), written.body.aside.end(),
                    [](const SetAside& one) { return one.why == SetAside::Why::finishing; });
    // "Work 16 rows ..." holds them, whatever else stands there.
    const bool rows_said = book_->craft() == Craft::knit && label.what == Label::What::next &&
                           label.count > 1 && !items.empty();
    if (rows_said && !written.fault && only_prepares(items))
        written.fault = Fault{label.body, "what is worked in these rows is not said",
                              "the stitches of these rows", "Write it like: work 10 rows even."};
    if (auto unsaid = goes_on_unsaid(lexed.tokens, label, written, !phrases.empty()))
        written.fault = std::move(unsaid);
    if ((!numbered || label.bare || finishes) && !written.fault && !open_end && !takes_up &&
        (items.empty() || only_yarn || only_prepares(items) ||
         (label.what == Label::What::unlabelled && only_closes(written.body)))) {  // "Fasten off."
        keep_between(written.body);
        change_to(written.yarns.starts);
        set_aside(text);
        return;
    }
    // "Row 1: ch 60." takes the number of a row.
    const bool row_one = numbered && book_->craft() == Craft::crochet &&
                         pattern_.foundation.empty() && !spans.empty() && spans.front().last == 1 &&
                         !written.fault;
    const bool base = (!numbered || label.bare || row_one) && pattern_.slots.empty() &&
                      makes_base(written.body, *book_);
    // "Fdc 25." is a row that needs nothing below it.
    const bool needs_none =
        std::all_of(written.body.items.begin(), written.body.items.end(), [&](const Item& item) {
            return item.what == Item::Do::join || item.what == Item::Do::turn ||
                   (item.what == Item::Do::work && book_->at(item.kind).takes == 0);
        });
    if (needs_none && pattern_.slots.empty() && label.what == Label::What::unlabelled)
        label.what = Label::What::foundation;
    pattern_.written.push_back(std::move(written));
    Body finished;
    finished.aside = pattern_.written.back().body.aside;
    if (base) {
        pattern_.foundation.push_back(last_written());
        bare_base_ = bare_base_ || label.bare || row_one;
        row_base_ = row_base_ || row_one;
        change_to(pattern_.written.back().yarns.starts);
        return;
    }
    // Behind other rows a set-up row is the next one.
    if (label.what == Label::What::foundation && next_row_ > 1) label.what = Label::What::next;
    if (label.what == Label::What::foundation) spans = {{0, 0}};
    if (label.what == Label::What::unlabelled) spans = {{next_row_, next_row_}};
    if (label.what == Label::What::next)
        spans = {{next_row_, next_row_ + std::max<std::int64_t>(1, label.count) - 1}};
    if (label.what != Label::What::numbered) plain_since_ = true;
    if (open_end && !base) as_before(lexed.tokens, label.body);
    if (open_end && !pattern_.written.back().fault &&
        std::none_of(items_of_last().begin(), items_of_last().end(), works)) {
        Fault nothing{open_end->at, "what is worked up to here is not said",
                      "the stitches of these rows", "Write it like: knit for 4 in."};
        if (!options_->lenient) return fail(nothing);
        pattern_.written.back().fault = std::move(nothing);
    }
    if (open_end) {
        const auto rows = rows_of(*open_end, 1, where, pattern_.written.back().told);
        if (!rows && !options_->lenient) return;
        if (!rows) pattern_.written.back().fault = row_fault_;
        if (rows == 0) {  // the piece is as long already
            pattern_.written.pop_back();
            return set_aside(text);
        }
        spans = {{next_row_, next_row_ + rows.value_or(1) - 1}};
    }
    pattern_.written.back().first_row = spans.empty() ? next_row_ : spans.front().first;
    const std::int64_t offset = offset_;
    for (const Span& span : spans) {
        if (span.first == 0 && label.what == Label::What::numbered) {
            fail(where, "there is no row 0", "rows from 1 on", "");
            return;
        }
        assign(span, {last_written(), 0, false, {}}, where);
    }
    // A row that is written twice became the next one.
    const std::int64_t counted = spans.empty() ? -1 : spans.back().last + offset_ - offset;
    if (counted >= 0 && counted < static_cast<std::int64_t>(pattern_.slots.size()))
        pattern_.slots[static_cast<std::size_t>(counted)].counted = true;
    change_to(pattern_.written.back().yarns.ends);
    keep_finished(finished);
    if (label.also != Parity::none) {
        // "Row 1 and all WS rows": such rows as row 1, whichever side was meant before.
        const bool of_own = label.what == Label::What::numbered && label.rows.size() == 1;
        const std::int64_t parity =
            label.also == Parity::even             ? offset_ % 2
            : label.also == Parity::odd            ? (1 + offset_) % 2
            : of_own || label.also == Parity::same ? pattern_.written.back().first_row % 2
            : label.also == Parity::right          ? (right_parity_ + offset_) % 2
                                                   : (1 + right_parity_ + offset_) % 2;
        others_.push_back({pattern_.written.back().first_row, parity, last_written()});
    }
}

/// Of a line before the first row that cannot be read, what it casts on at least.
void PatternReader::salvage_base(const std::vector<Token>& tokens, Written& written) {
    if (book_->craft() != Craft::knit || !pattern_.slots.empty() || !pattern_.foundation.empty())
        return;
    std::optional<std::size_t> found;
    for (std::size_t i = 0; i + 2 < tokens.size(); ++i) {
        const std::string_view text = tokens[i].text;
        const bool cast = text == "cast" && tokens[i + 1].text == "on";
        const std::size_t at = i + (cast ? 2 : 1);
        if ((!cast && text != "co" && text != "cast-on") || tokens[at].kind != TokenKind::number)
            continue;
        if (found) return;  // two of them: not to be told which
        found = at;
    }
    if (!found) return;
    if (!written.fault)
        written.fault =
            Fault{written.body.unknown.front().at,
                  "\"" + written.body.unknown.front().name + "\" is no known abbreviation",
                  "stitches of the trade or of the pattern's own list", ""};
    Item item;
    item.at = tokens[*found].at;
    item.kind = book_->find_us("CO");
    item.count = tokens[*found].value;
    written.body.items = {std::move(item)};
    written.body.unknown.clear();
}

/// "Continue until piece measures 10 in": the stitches go on as they were.
void PatternReader::as_before(const std::vector<Token>& tokens, std::size_t from) {
    Body& body = pattern_.written.back().body;
    const auto word = [&](std::size_t i, std::string_view text) {
        return i < tokens.size() && tokens[i].kind == TokenKind::word && tokens[i].text == text;
    };
    if (book_->craft() != Craft::knit || pattern_.slots.empty()) return;
    std::size_t at = from;
    while (word(at, "then") || word(at, "and")) ++at;
    if (!word(at, "continue") && !word(at, "cont") && !word(at, "work")) return;
    std::size_t behind = at + 1;
    if (word(behind, "in") && (word(behind + 1, "mc") || word(behind + 1, "cc") ||
                               word(behind + 1, "cc1") || word(behind + 1, "cc2")))
        behind += 2;
    if (behind < tokens.size() && tokens[behind].kind == TokenKind::word) return;
    // What stands in the way of the words was that nothing is worked in them.
    if (pattern_.written.back().fault && behind == at + 1) return;
    pattern_.written.back().fault.reset();
    if (std::any_of(body.items.begin(), body.items.end(), works)) return;
    Item none;
    none.what = Item::Do::increase;
    none.count = 0;
    Item even;
    even.what = Item::Do::evenly;
    even.at = tokens[at].at;
    even.kind = book_->find_us("k");
    even.items.push_back(std::move(none));
    body.items.push_back(std::move(even));
}

/// "Bind off 5 sts for armhole.": the others are worked; not "bind off remaining 17 sts".
void PatternReader::bound_at_edge(Body& body, std::string_view text) const {
    if (book_->craft() != Craft::knit || body.items.size() != 1 || pattern_.slots.empty() ||
        base::lower(text).find(" rem") != std::string::npos)
        return;
    const Item& only = body.items.front();
    if (only.what != Item::Do::work || book_->at(only.kind).name != "BO" ||
        only.spot.which == Spot::Which::each)
        return;
    Item rest;
    rest.at = only.at;
    rest.kind = book_->find_us("k");
    rest.spot.which = Spot::Which::each;
    body.items.push_back(std::move(rest));
}

/// "Work 4 rounds.", "Do 6 more rows without shaping.": nothing else is said of them. In crochet
/// they go on as the rows before.
void PatternReader::rows_alone(const std::vector<Token>& tokens, Body& body) const {
    if (!only_prepares(body.items) || !body.unknown.empty() || pattern_.written.empty()) return;
    std::size_t at = 0;
    while (among(tokens[at], {"then", "now", "and"})) ++at;
    if (!among(tokens[at], {"work", "do", "crochet"}) || at + 3 >= tokens.size()) return;
    ++at;
    if (among(tokens[at], {"another"})) ++at;
    if (tokens[at].kind != TokenKind::number) return;
    ++at;
    if (among(tokens[at], {"more", "further", "additional", "extra"})) ++at;
    if (at >= tokens.size() ||
        !among(tokens[at], {"row", "rows", "rnd", "rnds", "round", "rounds"}))
        return;
    for (std::size_t i = at + 1; i < tokens.size(); ++i)
        if (tokens[i].kind == TokenKind::word &&
            !among(tokens[i], {"without", "further", "any", "shaping", "increasing", "decreasing",
                               "more", "then", "and", "change", "changes", "cut", "break", "yarn",
                               "the", "wool", "turn", "place"}))
            return;
    if (book_->craft() == Craft::crochet) {
        const Tokens in_pattern = tokens_of("in pattern", options_->size, options_->sizes);
        body.items = Grammar(*book_, in_pattern.tokens, 0).row().items;
        return;
    }
    Item even;
    even.what = Item::Do::evenly;
    even.at = tokens[at].at;
    even.kind = book_->find_us("k");
    Item none;
    none.what = Item::Do::increase;
    none.count = 0;
    even.items.push_back(std::move(none));
    body.items.insert(body.items.begin(), std::move(even));
}

/// A row that several yarns work is read again, its yarns among its stitches.
void PatternReader::colours_within(std::string_view text, Written& written,
                                   std::optional<Fault>& fault) {
    Tokens lexed = tokens_of(text, options_->size, options_->sizes);
    std::vector<SetAside> said;
    read_phrases(lexed.tokens, *book_, *options_, said);
    std::optional<Fault> wrong;
    static_cast<void>(take_yarns(lexed.tokens, original_.substr(base_, text.size()),
                                 options_->yarns, *book_, wrong, true, !options_->yarns_guessed));
    if (wrong) return;
    const Label label = label_of(lexed.tokens, wrong);
    if (wrong) return;
    Grammar grammar(*book_, lexed.tokens, label.body);
    Body body = grammar.row();
    if (grammar.fault()) {
        fault = grammar.fault();
        return;
    }
    const YarnsOfRow yarns = yarns_within(body.items);
    if (!yarns.within) return;
    fault.reset();
    body.aside.insert(body.aside.begin(), said.begin(), said.end());
    written.body = std::move(body);
    written.yarns = yarns;
}

Pattern read_pattern(const std::vector<WrittenRows>& entries, const NotationOptions& options,
                     StitchBook& book, base::Problems& problems, bool share) {
    return PatternReader(options, book, problems, share).run(entries);
}

}  // namespace skeinfall::notation
