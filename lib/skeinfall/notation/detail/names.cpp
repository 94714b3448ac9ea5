// The names of stitches.

#include <cstdint>
#include <utility>

#include "skeinfall/notation/detail/grammar.hpp"
#include "skeinfall/notation/detail/tokens.hpp"

namespace skeinfall::notation {
namespace {}  // namespace

KindId Grammar::known(const StitchBook::Named& named, std::uint32_t at, std::string_view name) {
    if (named.other_terms)
        body_.foreign.push_back({at, std::string(name), book_->at(named.kind).name});
    return named.kind;
}

/// A stitch name of one to three words, or a word with its count ("k2", "ch-3"). Nothing is taken
/// when there is none.
std::optional<Grammar::NamedCount> Grammar::stitch_name() {
    const auto named = bare_stitch_name();
    // "2 double crochet (dc)", "knit (k) 4": the same once more
    if (named && is(TokenKind::open) && is(TokenKind::word, 1) && is(TokenKind::close, 2))
        if (const auto again = book_->find(peek(1).text); again && again->kind == named->kind)
            next_ += 3;
    return named;
}

std::optional<Grammar::NamedCount> Grammar::bare_stitch_name() {
    if (!is(TokenKind::word)) return std::nullopt;
    const Token& first = peek();
    if (book_->begins_long_name(first.text)) {
        std::string name(first.text);
        std::size_t length = 1;
        std::optional<std::pair<StitchBook::Named, std::size_t>> longest;
        while (length < 5 && (is(TokenKind::word, length) || is(TokenKind::number, length))) {
            name += " ";
            name += peek(length).text;
            ++length;
            if (const auto named = book_->find(name)) longest = std::pair(*named, length);
        }
        if (longest) {
            next_ += longest->second;
            return NamedCount{known(longest->first, first.at, first.text), std::nullopt};
        }
    }
    if (const auto named = book_->find(first.text)) {
        ++next_;
        return NamedCount{known(*named, first.at, first.text), std::nullopt};
    }
    std::string_view name = first.text;
    if (const std::int64_t crossed = crossed_stitches(name); crossed > 0) {
        ++next_;
        return NamedCount{book_->find_us("k"), crossed};
    }
    for (const std::string_view twisted : {"-tbl", "tbl", "-b"})
        if (name.ends_with(twisted)) {
            name.remove_suffix(twisted.size());
            break;
        }
    const auto stem = name.find_last_not_of("0123456789");
    if (stem == std::string_view::npos) return std::nullopt;
    const std::string_view digits = name.substr(stem + 1);
    name = name.substr(0, stem + 1);
    if (name.ends_with("-")) name.remove_suffix(1);
    if (name == first.text || name.empty()) return std::nullopt;
    const auto named = book_->find(name);
    const auto count = whole_number(digits);
    if (!named || (!digits.empty() && !count)) return std::nullopt;
    ++next_;
    return NamedCount{known(*named, first.at, name), count};
}

/// The word under the cursor as a stitch of its own; it is reported.
KindId Grammar::unknown_stitch() {
    const Token& token = peek();
    ++next_;
    body_.unknown.push_back({token.at, std::string(token.text)});
    return book_->add_unknown(body_.unknown.back().name);
}

}  // namespace skeinfall::notation
