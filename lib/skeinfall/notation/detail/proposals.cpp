// What would have been taken: for a row that is not read, the smallest change that makes it one.

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/grammar.hpp"
#include "skeinfall/notation/detail/labels.hpp"
#include "skeinfall/notation/detail/line_kinds.hpp"
#include "skeinfall/notation/detail/pattern_worker.hpp"
#include "skeinfall/notation/detail/phrases.hpp"

namespace skeinfall::notation {
namespace {

bool parts_clauses(char c) {
    return c == ',' || c == ';' || c == '.' || c == ':' || c == '(' || c == ')' || c == '[' ||
           c == ']' || c == '*';
}

/// Where a count in brackets begins that the row ends with; its length where there is none.
std::size_t tail_of(const std::string& text) {
    const auto open = text.find_last_of("([<{");
    if (open == std::string::npos || open == 0 || open + 1 >= text.size()) return text.size();
    return std::isdigit(static_cast<unsigned char>(text[open + 1])) != 0 ? open : text.size();
}

/// The changes that are tried around byte `at`, the smaller ones first.
using Change = PatternWorker::Change;

std::vector<Change> changes_around(const std::string& text, std::size_t at) {
    std::vector<Change> out;
    const auto add = [&](std::size_t from, std::size_t to) {
        if (from >= to || to > text.size() || (from == 0 && to == text.size())) return;
        const bool known = std::any_of(out.begin(), out.end(), [&](const Change& one) {
            return one.from == from && one.to == to && one.instead.empty();
        });
        const auto sign = [&](std::size_t i) { return i >= text.size() || parts_clauses(text[i]); };
        const bool whole = (from == 0 || parts_clauses(text[from - 1]) || text[from] == '(' ||
                            (from > 1 && text[from - 1] == ' ' && parts_clauses(text[from - 2]))) &&
                           (sign(to) || text[to - 1] == ')' || text[to - 1] == '.');
        if (!known) out.push_back({from, to, {}, whole, false});
    };
    std::size_t word = at;
    while (word < text.size() && text[word] != ' ' && !parts_clauses(text[word])) ++word;
    add(at, word);
    std::size_t from = at;
    while (from > 0 && !parts_clauses(text[from - 1])) --from;
    std::size_t to = std::max(at, word);
    while (to < text.size() && !parts_clauses(text[to])) ++to;
    add(at, to);
    add(from, to);
    const auto open = text.rfind('(', at);  // the bracket around it
    if (open != std::string::npos) {
        const auto close = text.find(')', open);
        if (close != std::string::npos && close >= at) add(open, close + 1);
    }
    const auto stop = text.rfind(". ", at);
    const std::size_t sentence = stop == std::string::npos ? 0 : stop + 2;
    const auto next_stop = text.find(". ", at);
    add(sentence, next_stop == std::string::npos ? tail_of(text) : next_stop + 1);
    std::size_t before = from > 1 ? from - 1 : from;  // with the clause before, or the next
    while (before > 0 && !parts_clauses(text[before - 1])) --before;
    add(before, to);
    std::size_t behind = std::min(to + 1, text.size());
    while (behind < text.size() && !parts_clauses(text[behind])) ++behind;
    add(from, behind);
    add(at, tail_of(text));
    add(from, tail_of(text));
    return out;
}

}  // namespace

/// The row's text, read; nothing where some of it is not understood.
std::optional<Body> PatternWorker::body_of(const std::string& text) const {
    const std::string low = base::lower(text);
    Tokens tokens = tokens_of(low, options_->size, options_->sizes);
    if (tokens.fault) return std::nullopt;
    std::vector<SetAside> said;
    read_phrases(tokens.tokens, *book_, *options_, said);
    Grammar grammar(*book_, tokens.tokens, 0);
    Body body = grammar.row();
    if (grammar.fault() || !body.unknown.empty() || body.items.empty()) return std::nullopt;
    return body;
}

/// Whether nothing of a stitch stands in these words.
bool PatternWorker::holds_no_work(std::string_view words) const {
    const std::string low = base::lower(words);
    const Tokens tokens = tokens_of(low, 0, 1);
    return !tokens.fault &&
           std::none_of(tokens.tokens.begin(), tokens.tokens.end(), [&](const Token& token) {
               return token.kind == TokenKind::number ||
                      (token.kind == TokenKind::word &&
                       (book_->find(token.text).has_value() || has_role(token.text, Role::work) ||
                        token.text.find_first_of("0123456789") != std::string_view::npos ||
                        among(token, {"tog", "together"})));
           });
}

/// "(needles 2 and 3)": a bracket whose numbers are names of needles.
bool PatternWorker::names_needles(std::string_view words) const {
    if (book_->craft() != Craft::knit || words.empty() || words.front() != '(') return false;
    const std::string low = base::lower(words);
    std::string plain;
    for (const char c : low)
        if (!digit(c)) plain += c;
    return plain.find("needle") != std::string::npos && holds_no_work(plain);
}

/// Behind the bind-off of all stitches: words that hold no stitch are of sewing up.
std::optional<Proposal> PatternWorker::sewn_up(const Written& written) const {
    if (book_->craft() != Craft::knit || below_.stitches > 0 || result_.rows.order.empty() ||
        !held_.empty())
        return std::nullopt;
    const std::string low = base::lower(written.text);
    const Tokens tokens = tokens_of(low, options_->size, options_->sizes);
    const bool works =
        tokens.fault ||
        std::any_of(tokens.tokens.begin(), tokens.tokens.end(), [&](const Token& token) {
            return token.kind == TokenKind::word &&
                   ((book_->find(token.text) && !among(token, {"sl", "slip"})) ||
                    among(token, {"pick", "cast", "co", "work", "rep", "repeat", "inc", "dec"}));
        });
    if (works) return std::nullopt;
    return Proposal{written.text, "", units::StitchCount{}, false};
}

std::optional<Proposal> PatternWorker::propose(const Written& written, std::size_t at) {
    constexpr std::int64_t most_tried = 2000;
    if (auto sewn = sewn_up(written)) return sewn;
    if (at < written.begin || (below_.stretches.empty() && !ring_)) return std::nullopt;
    const std::size_t here = at - written.begin;
    if (here > written.text.size()) return std::nullopt;
    std::vector<Change> changes = changes_around(written.text, here);
    add_spellings(written, here, changes);
    const bool ring = ring_ && result_.rows.order.empty();
    const bool outer_ring = std::exchange(context_.ring, ring);
    const bool outer_round = std::exchange(context_.round, written.round);
    std::optional<Proposal> found;
    for (const Change& change : changes) {
        if (found || ++proposals_ > most_tried) break;
        std::string text = written.text;
        const std::string words = text.substr(change.from, change.to - change.from);
        text.replace(change.from, change.to - change.from, change.instead);
        const auto body = body_of(text);
        if (!body) continue;
        const bool counted =
            std::any_of(body->declared.begin(), body->declared.end(),
                        [](const Declared& one) { return one.what != Declared::What::other; });
        // Without a count nothing shows that what is left out works nothing.
        if (!counted && !change.spelling &&
            (!change.instead.empty() || !change.whole ||
             !(holds_no_work(words) || names_needles(words))))
            continue;
        const Outcome outcome = work_row(*body, below_, context_);
        if (outcome.given_up || !fits(outcome)) continue;
        // Without a count, what leaves far fewer or more stitches is hardly meant.
        const double made = outcome.work.made.value();
        const auto below = static_cast<double>(below_.stitches);
        if (!counted && book_->craft() == Craft::crochet && below > 0 &&
            (2 * made < below || made > 2 * below + 8))
            continue;
        // Stitches of knitting are spelt so alike that the rows behind it have to go on from it.
        const bool guess = !counted && change.spelling && book_->craft() == Craft::knit;
        if (guess && !leads_on(std::llround(made)).value_or(true)) continue;
        found = Proposal{std::string(base::trimmed(words)), change.instead, outcome.work.made,
                         counted, guess};
    }
    if (!found && book_->craft() == Craft::crochet) found = plain_instead(written, below_);
    std::optional<Proposal> guess;
    if (!found && book_->craft() == Craft::knit) guess = plain_guess(written);
    if (guess && guess->instead != "knit") found = guess;
    if (!found && book_->craft() == Craft::knit)
        found = holds_no_work(written.text)
                    ? Proposal{written.text, "",
                               static_cast<double>(below_.stitches) * units::stitch, false}
                    : plain_instead(written, below_);
    if (!found) found = guess;
    if (!found && book_->craft() == Craft::knit) found = even_to_length(written);
    context_.ring = outer_ring;
    context_.round = outer_round;
    return found;
}

/// For rows to a length whose fabric is not understood, and that speak of no shaping: as many plain
/// rows. A guess.
std::optional<Proposal> PatternWorker::even_to_length(const Written& written) const {
    const std::string low = base::lower(written.text);
    Tokens tokens = tokens_of(low, options_->size, options_->sizes);
    if (tokens.fault || below_.stitches < 1 || shapes(written.text)) return std::nullopt;
    for (const Token& token : tokens.tokens)
        if (among(token, {"bind", "cast", "bo", "co", "holder", "hold", "held", "pick", "turn",
                          "rep", "repeat", "waste", "same", "as", "dec", "inc"}))
            return std::nullopt;
    const auto open = take_open_end(tokens.tokens, 0);
    if (!open || open->at >= written.text.size() || open->rows > 0) return std::nullopt;
    const auto stop = written.text.find(". ", open->at);
    std::string until = written.text.substr(
        open->at, stop == std::string::npos ? std::string::npos : stop - open->at);
    if (until.empty() || !std::isalpha(static_cast<unsigned char>(until.front())))
        return std::nullopt;
    return Proposal{written.text, "work even " + until,
                    static_cast<double>(below_.stitches) * units::stitch, false, true};
}

/// A word spelt nearly like a stitch, or like a word that patterns use all the time; and, where
/// "rep from *" has no star, a star where the row begins.
void PatternWorker::add_spellings(const Written& written, std::size_t here,
                                  std::vector<Change>& changes) const {
    if (here < written.text.size() &&
        std::string_view("()[]{}").find(written.text[here]) != std::string_view::npos)
        changes.insert(changes.begin(), {here, here + 1, {}, false, true});
    if (!written.body.unknown.empty()) {
        const std::string& name = written.body.unknown.front().name;
        static const std::vector<std::string> common{
            "around", "across", "next",  "each",   "every", "repeat", "stitch", "stitches",
            "join",   "turn",   "chain", "slip",   "skip",  "same",   "first",  "last",
            "times",  "space",  "ring",  "corner", "from",  "hook",   "magic",  "into"};
        if (const auto near = base::nearest_name(name, book_->names()))
            changes.insert(changes.begin(),
                           {here, here + name.size(), *near, false, name.size() > 2});
        static const std::vector<std::string> knitted{
            "around", "across", "next",    "every",     "repeat", "stitch",  "stitches", "together",
            "marker", "needle", "markers", "remaining", "last",   "between", "before",   "until"};
        if (const auto near =
                base::nearest_name(name, book_->craft() == Craft::crochet ? common : knitted))
            changes.insert(changes.begin(), {here, here + name.size(), *near, false, true});
    }
    if (book_->craft() != Craft::crochet || written.text.find('*') == std::string::npos) return;
    const auto star = written.text.find('*');
    for (std::size_t at = 0; at < star && changes.size() < 40;) {
        const std::size_t end = at + (at == 0 ? written.text.find_first_of(" ,.") : 1);
        if (at == 0 || parts_clauses(written.text[at - 1])) {
            std::size_t word = at;
            while (word < star && written.text[word] == ' ') ++word;
            std::size_t to = word;
            while (to < star && written.text[to] != ' ' && !parts_clauses(written.text[to])) ++to;
            if (to > word)
                changes.push_back(
                    {word, to, "*" + written.text.substr(word, to - word), false, false});
        }
        at = end > at ? end : at + 1;
    }
}

/// The row's count told with plain stitches: "knit, dec 4 sts evenly", "sc in each st, inc 6 sts
/// evenly".
std::optional<Proposal> PatternWorker::plain_instead(const Written& written, const Edge& below) {
    const auto count = declared_of(written.body);
    if (!count || written.uses > 1) return std::nullopt;
    const std::int64_t change = *count - below.stitches;
    std::string text = "knit";
    if (book_->craft() == Craft::crochet) {
        if (below.stitches == 0 || change > below.stitches || -2 * change > below.stitches)
            return std::nullopt;
        text = plain_kind(written) + " in each st";
    }
    if (change != 0)
        text += fmt::format(", {} {} {} evenly", change > 0 ? "inc" : "dec", std::abs(change),
                            std::abs(change) == 1 ? "st" : "sts");
    auto body = body_of(text);
    if (!body) return std::nullopt;
    body->declared = written.body.declared;
    const Outcome outcome = work_row(*body, below, context_);
    if (outcome.given_up || !fits(outcome)) return std::nullopt;
    const std::string words(
        base::trimmed(std::string_view(written.text).substr(0, tail_of(written.text))));
    return Proposal{words, text, outcome.work.made, true};
}

/// Whether a row that was not read is one row of stitches alone: nothing of lengths, repeats,
/// holders or edges stands in it.
bool PatternWorker::plainly_one_row(const Written& written) const {
    const auto next = static_cast<std::size_t>(row_number_) + 1;
    if (next < pattern_->slots.size() && pattern_->slots[next].written >= 0 &&
        &pattern_->written[static_cast<std::size_t>(pattern_->slots[next].written)] == &written)
        return false;
    const std::string low = base::lower(written.text);
    const Tokens tokens = tokens_of(low, options_->size, options_->sizes);
    return !tokens.fault &&
           std::none_of(tokens.tokens.begin(), tokens.tokens.end(), [](const Token& token) {
               return token.kind == TokenKind::length ||
                      among(token,
                            {"until",  "till",   "rows",   "rounds", "rnds",  "bind", "bo",
                             "cast",   "co",     "holder", "waste",  "scrap", "pick", "measures",
                             "length", "inches", "turn",   "chart",  "wrap",  "w&t",  "hold",
                             "inch",   "every",  "as",     "same"});
           });
}

/// Whether a row's words speak of more or fewer stitches.
bool PatternWorker::shapes(const std::string& text) const {
    const std::string low = base::lower(text);
    const Tokens tokens = tokens_of(low, options_->size, options_->sizes);
    return tokens.fault ||
           std::any_of(tokens.tokens.begin(), tokens.tokens.end(), [&](const Token& token) {
               if (token.kind != TokenKind::word) return false;
               if (among(token, {"inc", "dec", "increase", "decrease", "increasing", "decreasing",
                                 "tog", "together", "make", "over", "pass", "psso", "narrow",
                                 "widen", "forward", "yf", "yfwd"}))
                   return true;
               const auto named = book_->find(token.text);
               return named && book_->at(named->kind).takes != book_->at(named->kind).makes;
           });
}

std::optional<bool> PatternWorker::leads_on(std::int64_t count) {
    constexpr std::size_t most_rows_looked_at = 12;
    const bool round = context_.round;
    const bool ring = std::exchange(context_.ring, false);
    Edge edge = counted_edge(count);
    edge.counted_only = false;
    std::optional<bool> out;
    std::size_t looked_at = 0;
    for (auto row = static_cast<std::size_t>(row_number_) + 1;
         row < pattern_->slots.size() && looked_at < most_rows_looked_at; ++row, ++looked_at) {
        const Slot& slot = pattern_->slots[row];
        if (slot.written < 0) continue;
        // The row that is asked about comes again as it stands.
        if (slot.written == pattern_->slots[static_cast<std::size_t>(row_number_)].written) break;
        const Written& next = pattern_->written[static_cast<std::size_t>(slot.written)];
        if (next.fault || next.counted || !next.body.unknown.empty() || slot.until > 0 ||
            slot.before >= 0)
            break;
        context_.round = next.round;
        Outcome outcome = work_row(next.body, edge, context_);
        if (outcome.given_up || !fits(outcome)) {
            out = false;
            break;
        }
        if (slot.counted && declared_of(next.body)) {
            out = true;
            break;
        }
        edge = next.round ? std::move(outcome.edge) : outcome.edge.reversed();
    }
    context_.round = round;
    context_.ring = ring;
    return out;
}

/// Plain stitches that come to what the rows behind ask for, where the row has no count itself.
std::optional<Proposal> PatternWorker::plain_guess(const Written& written) {
    constexpr std::int64_t most_changed = 40;
    constexpr std::int64_t most_tried = 2000;
    if (declared_of(written.body) || below_.stitches < 1 || written.uses > 1 ||
        !plainly_one_row(written))
        return std::nullopt;
    const auto proposed = [&](std::int64_t change) {
        std::string text = "knit";
        if (change != 0)
            text += fmt::format(", {} {} {} evenly", change > 0 ? "inc" : "dec", std::abs(change),
                                std::abs(change) == 1 ? "st" : "sts");
        return Proposal{written.text, text,
                        static_cast<double>(below_.stitches + change) * units::stitch, false, true};
    };
    for (std::int64_t by = 0; by <= most_changed; ++by)
        for (const std::int64_t change : {-by, by}) {
            if (below_.stitches + change < 1 || -2 * change > below_.stitches) continue;
            if (++proposals_ > most_tried) return std::nullopt;
            const auto leads = leads_on(below_.stitches + change);
            if (!leads && shapes(written.text)) return std::nullopt;
            if (!leads) return proposed(0);
            if (*leads) return proposed(change);
        }
    return std::nullopt;
}

/// The stitch that a row names first, as its pattern writes it.
std::string PatternWorker::plain_kind(const Written& written) const {
    const std::string low = base::lower(written.text);
    for (const Token& token : tokens_of(low, options_->size, options_->sizes).tokens) {
        if (token.kind != TokenKind::word) continue;
        const auto named = book_->find(token.text);
        if (!named) continue;
        const Stitch& stitch = book_->at(named->kind);
        if (stitch.takes == 1 && stitch.makes == 1 && named->kind != book_->slip_stitch() &&
            named->kind != book_->chain() && stitch.plain == named->kind)
            return stitch.written;
    }
    return book_->at(book_->find_us("sc")).written;
}

/// For a row whose words do not come to its count: another number of times, or another count.
std::optional<Proposal> PatternWorker::repair(const Written& written, const Edge& below) {
    constexpr std::int64_t most_tried = 2000;
    if (book_->craft() == Craft::knit) return repair_knit(written, below);
    if (written.uses > 1 || !declared_of(written.body) || below.counted_only) return std::nullopt;
    const std::size_t tail = tail_of(written.text);
    const std::string low = base::lower(written.text);
    const Tokens tokens = tokens_of(low, options_->size, options_->sizes);
    if (tokens.fault) return std::nullopt;
    const auto tried = [&](std::size_t from, std::size_t to,
                           const std::string& instead) -> std::optional<Proposal> {
        if (++proposals_ > most_tried) return std::nullopt;
        std::string text = written.text;
        const std::string words = text.substr(from, to - from);
        if (text.find(words) != from || text.rfind(words) != from) return std::nullopt;
        text.replace(from, to - from, instead);
        const auto body = body_of(text);
        if (!body || body->declared.empty()) return std::nullopt;
        const Outcome outcome = work_row(*body, below, context_);
        if (outcome.given_up || !fits(outcome)) return std::nullopt;
        return Proposal{words, instead, outcome.work.made, true};
    };
    for (std::size_t i = 0; i + 1 < tokens.tokens.size(); ++i) {
        const Token& number = tokens.tokens[i];
        const Token& behind = tokens.tokens[i + 1];
        const bool times = among(behind, {"times", "more", "x", "time"}) ||
                           (i > 0 && among(tokens.tokens[i - 1], {"x"}));
        if (number.kind != TokenKind::number || !times || number.at >= tail ||
            low[number.at] < '0' || low[number.at] > '9')
            continue;
        const std::size_t to = among(behind, {"times", "more", "x", "time"})
                                   ? behind.at + behind.text.size()
                                   : number.at + number.text.size();
        const std::string rest = written.text.substr(number.at + number.text.size(),
                                                     to - number.at - number.text.size());
        for (const std::int64_t by : {-1, 1, -2, 2})
            if (number.value + by > 0)
                if (auto found = tried(number.at, to, std::to_string(number.value + by) + rest))
                    return found;
    }
    Body body = written.body;
    body.declared.clear();
    const Outcome plain = work_row(body, below, context_);
    const auto digits = written.text.find_first_of("0123456789", tail);
    if (plain.given_up || !fits(plain) || tail >= written.text.size() ||
        digits == std::string::npos)
        return std::nullopt;
    const std::size_t behind = written.text.find_first_not_of("0123456789", digits);
    const std::size_t end = std::min(behind, written.text.size());
    return tried(tail, end,
                 written.text.substr(tail, digits - tail) +
                     std::to_string(static_cast<std::int64_t>(plain.work.made.value())));
}

/// What a knitted row becomes with the words from `from` to `to` replaced; nothing where it then
/// does not fit the row below, or its count.
std::optional<Proposal> PatternWorker::with_change(const Written& written, const Edge& below,
                                                   const Change& change, std::size_t shown_to) {
    constexpr std::int64_t most_tried = 2000;
    if (++proposals_ > most_tried) return std::nullopt;
    std::string text = written.text;
    text.replace(change.from, change.to - change.from, change.instead);
    const auto body = body_of(text);
    if (!body) return std::nullopt;
    const Outcome outcome = work_row(*body, below, context_);
    if (outcome.given_up || !fits(outcome)) return std::nullopt;
    const bool counted = declared_of(*body).has_value();
    const std::int64_t made = std::llround(outcome.work.made.value());
    if (!counted && !leads_on(made).value_or(true)) return std::nullopt;
    const std::string words(base::trimmed(std::string_view(written.text).substr(0, shown_to)));
    std::string instead = text.substr(0, shown_to + text.size() - written.text.size());
    return Proposal{words, std::string(base::trimmed(instead)), outcome.work.made, counted,
                    !counted};
}

/// Where the row's own words end, before the sentence or bracket that holds its count.
std::size_t PatternWorker::before_count(const Written& written) {
    std::size_t tail = tail_of(written.text);
    // "Knit 2 together 6 (8) times": sizes
    const std::size_t close = written.text.find_first_of(")]>}", tail);
    if (close != std::string::npos && close + 2 < written.text.size() &&
        written.text[close + 1] == ' ' && letter(written.text[close + 2]))
        tail = written.text.size();
    constexpr std::size_t most_before = 24;  // "there are now ... 63 sts"
    for (const Declared& one : written.body.declared) {
        if (one.at < written.begin || one.at - written.begin >= tail) continue;
        const std::size_t at = one.at - written.begin;
        std::size_t from = at;
        while (from > 0 && from + most_before > at &&
               std::string_view(".([{=-").find(written.text[from - 1]) == std::string::npos)
            --from;
        if (from > 0 && from + most_before > at) tail = from - 1;
    }
    while (tail > 0 && std::string_view(" .,;").find(written.text[tail - 1]) != std::string::npos)
        --tail;
    return tail;
}

/// For a knitted row that leaves stitches, or takes too many: what is left knitted at its end,
/// "to last 2 sts" before a decrease, another number; at last its count, or plain stitches.
std::optional<Proposal> PatternWorker::repair_knit(const Written& written, const Edge& below) {
    if (below.stitches < 1 || (written.uses > 1 && declared_of(written.body))) return std::nullopt;
    const std::size_t tail = before_count(written);
    const auto count = declared_of(written.body);
    Body body = written.body;
    body.declared.clear();
    const Outcome plain = work_row(body, below, context_);
    const std::int64_t left = below.stitches - std::llround(plain.work.consumed.value());
    if (!plain.given_up && left > 0 && left < below.stitches)
        if (auto found = with_change(written, below,
                                     {tail, tail, fmt::format(", k{}", left), false, false}, tail))
            return found;
    const std::string low = base::lower(written.text);
    for (const std::string_view last : {"last stitch", "last st"}) {
        const auto at = low.find(last);
        if (at == std::string::npos || at >= tail) continue;
        if (auto found = with_change(written, below,
                                     {at, at + last.size(), "last 2 sts", false, false}, tail))
            return found;
        break;
    }
    if (!count) return std::nullopt;
    const Tokens tokens = tokens_of(low, options_->size, options_->sizes);
    for (const Token& token : tokens.tokens) {
        if (token.kind != TokenKind::number || token.at >= tail || !digit(low[token.at])) continue;
        std::size_t end = token.at;
        while (end < low.size() && digit(low[end])) ++end;
        if (low.substr(token.at, end - token.at) != std::to_string(token.value)) continue;
        for (const std::int64_t by : {-1, 1, -2, 2})
            if (token.value + by > 0)
                if (auto found = with_change(
                        written, below,
                        {token.at, end, std::to_string(token.value + by), false, false}, tail))
                    return found;
    }
    return plain_instead(written, below);
}

}  // namespace skeinfall::notation
