// What would have been taken: for a row that is not read, the smallest change that makes it one.

#include <algorithm>
#include <cctype>
#include <cstdint>
#include <cstdlib>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/grammar.hpp"
#include "skeinfall/notation/detail/pattern_worker.hpp"
#include "skeinfall/notation/detail/phrases.hpp"

namespace skeinfall::notation {
namespace {

struct Change {
    std::size_t from = 0;  ///< bytes of the row's text that are taken out
    std::size_t to = 0;
    std::string instead;
    bool whole = false;  ///< between signs: a clause, a bracket, a sentence
};

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
        if (!known) out.push_back({from, to, {}, whole});
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
                       (book_->find(token.text).has_value() || has_role(token.text, Role::work)));
           });
}

std::optional<Proposal> PatternWorker::propose(const Written& written, std::size_t at) {
    constexpr std::int64_t most_tried = 2000;
    if (at < written.begin || (below_.stretches.empty() && !ring_)) return std::nullopt;
    const std::size_t here = at - written.begin;
    if (here > written.text.size()) return std::nullopt;
    std::vector<Change> changes = changes_around(written.text, here);
    if (!written.body.unknown.empty())
        if (const auto near = base::nearest_name(written.body.unknown.front().name, book_->names()))
            changes.insert(changes.begin(),
                           {here, here + written.body.unknown.front().name.size(), *near, false});
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
        if (!counted && (!change.instead.empty() || !change.whole || !holds_no_work(words)))
            continue;
        const Outcome outcome = work_row(*body, below_, context_);
        if (outcome.given_up || !fits(outcome)) continue;
        found =
            Proposal{std::string(base::trimmed(words)), change.instead, outcome.work.made, counted};
    }
    if (!found && book_->craft() == Craft::knit)
        found = holds_no_work(written.text)
                    ? Proposal{written.text, "",
                               static_cast<double>(below_.stitches) * units::stitch, false}
                    : plain_instead(written);
    context_.ring = outer_ring;
    context_.round = outer_round;
    return found;
}

/// The row's count told with plain stitches: "knit, dec 4 sts evenly".
std::optional<Proposal> PatternWorker::plain_instead(const Written& written) {
    const auto count = declared_of(written.body);
    if (!count || written.uses > 1) return std::nullopt;
    const std::int64_t change = *count - below_.stitches;
    std::string text = "knit";
    if (change != 0)
        text += fmt::format(", {} {} {} evenly", change > 0 ? "inc" : "dec", std::abs(change),
                            std::abs(change) == 1 ? "st" : "sts");
    auto body = body_of(text);
    if (!body) return std::nullopt;
    body->declared = written.body.declared;
    const Outcome outcome = work_row(*body, below_, context_);
    if (outcome.given_up || !fits(outcome)) return std::nullopt;
    const std::string words(
        base::trimmed(std::string_view(written.text).substr(0, tail_of(written.text))));
    return Proposal{words, text, outcome.work.made, true};
}

}  // namespace skeinfall::notation
