// Crochet: rounds that are told by the corners of a piece where the row below shows none, and
// borders whose count alone says how many stitches go round.

#include <algorithm>
#include <cstdint>
#include <regex>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/grammar.hpp"
#include "skeinfall/notation/detail/pattern_reader.hpp"
#include "skeinfall/notation/detail/pattern_worker.hpp"
#include "skeinfall/notation/detail/phrases.hpp"

namespace skeinfall::notation {

/// "sc in each st around, 3 sc in each corner" above stitches alone: each corner stitch takes so
/// many. Nothing where the row does not say so, or the row below has spaces to go by.
std::optional<Body> PatternWorker::with_corners(const Written& written, RowFinding& told) const {
    if (book_->craft() != Craft::crochet || !written.round || below_.spaces > 0 ||
        below_.stitches < 8 || context_.ring || written.text.find("orner") == std::string::npos)
        return std::nullopt;
    static const std::regex clause(
        R"([,;]?\s*(?:and |with |but )?(?:working |placing |making |work |place |put |putting )?)"
        R"(\b([2-5])\s*([a-z]+) (?:in|into) (?:each|every|all|all the|the|each of the)(?: of the)?)"
        R"((?: 4| four)? corners?(?: sts?\b| stitch(?:es)?\b| sc\b| hdc\b| dc\b)?(?=\s*(?:[,.;(]|$|around)))");
    std::string text = base::lower(written.text);
    std::smatch found;
    if (!std::regex_search(text, found, clause)) return std::nullopt;
    const std::int64_t each = base::leading_number<std::int64_t>(found[1].str());
    const auto named = book_->find(found[2].str());
    const auto around = text.find("around");
    if (!named || book_->at(named->kind).takes != 1 || around == std::string::npos ||
        (text.find("each") == std::string::npos && text.find("every") == std::string::npos))
        return std::nullopt;
    const auto first = static_cast<std::size_t>(found.position(0));
    text.erase(first, static_cast<std::size_t>(found.length(0)));
    if (text.find("corner") != std::string::npos) return std::nullopt;
    std::int64_t corners = 4;
    bool counted = false;
    if (const auto count = declared_of(written.body))
        if (const std::int64_t more = *count - below_.stitches;
            more > 0 && more % (each - 1) == 0 && more / (each - 1) < 25) {
            corners = more / (each - 1);
            counted = true;
        }
    const auto behind = text.find("around");
    const std::string change = fmt::format(", inc {} sts evenly", corners * (each - 1));
    text.insert(behind == std::string::npos ? text.size() : behind + 6, change);
    auto body = body_of(text);
    if (!body) return std::nullopt;
    told = {counted ? Severity::ok : Severity::caution, 0,
            fmt::format("no corner shows in the row below: {} are taken, each with {} more",
                        corners, each - 1),
            counted ? "" : "Declare the row's count in brackets at its end."};
    return body;
}

/// "sc in each row's end, 3 sc in each corner, ... (228 sc)": a border in one kind of stitch, of
/// which its count says all. Nothing for others.
/// The first round on pieces that were joined before: its count says how many stitches it has.
void PatternReader::joined_border(Written& written, std::optional<Fault>& wrong,
                                  const std::vector<Token>& tokens, std::size_t from) const {
    const Fault fault{tokens[from].at,
                      "how many stitches the joined pieces have along their edge, or evenly around "
                      "it, is not known",
                      "a count at its end", "Write its count in brackets at its end: (292 sc)."};
    if (auto border = border_by_count(fault, tokens, from)) {
        written.told.push_back(
            {Severity::ok, tokens[from].at, "its count says how many stitches go round", ""});
        written.body = std::move(*border);
        written.round = true;
    } else {
        wrong = fault;
    }
}

std::optional<Body> PatternReader::border_by_count(const Fault& fault,
                                                   const std::vector<Token>& tokens,
                                                   std::size_t from) const {
    const bool edge = fault.what.find("evenly") != std::string::npos ||
                      fault.what.find("how many row ends") != std::string::npos;
    if (book_->craft() != Craft::crochet || !options_->lenient || !edge) return std::nullopt;
    const std::vector<Declared> counted = Grammar(*book_, tokens, from).declared_only();
    if (counted.size() != 1 || counted.front().count < 4) return std::nullopt;
    const Declared& count = counted.front();
    std::optional<KindId> kind;
    bool round = false;
    for (std::size_t i = from; i < tokens.size(); ++i) {
        if (tokens[i].kind != TokenKind::word) continue;
        round = round ||
                among(tokens[i], {"corner", "corners", "edge", "edges", "sides", "around", "ends"});
        const auto named = book_->find(tokens[i].text);
        if (!named || named->kind == book_->chain() || named->kind == book_->slip_stitch())
            continue;
        if (kind && *kind != named->kind) return std::nullopt;
        kind = named->kind;
    }
    const bool fits = kind && round && book_->at(*kind).takes == 1 && book_->at(*kind).makes == 1 &&
                      (count.what == Declared::What::stitches ||
                       (count.what == Declared::What::kind && count.kind == *kind));
    if (!fits) return std::nullopt;
    const std::string& name = book_->at(*kind).written;
    const std::string text = fmt::format("ch 1, {} {} evenly around the edge, join ({} {})",
                                         count.count, name, count.count, name);
    Tokens again = tokens_of(text, 0, 1);
    std::vector<SetAside> said;
    read_phrases(again.tokens, *book_, *options_, said);
    Grammar grammar(*book_, again.tokens, 0);
    Body body = grammar.row();
    if (grammar.fault() || !body.unknown.empty()) return std::nullopt;
    return body;
}

}  // namespace skeinfall::notation
