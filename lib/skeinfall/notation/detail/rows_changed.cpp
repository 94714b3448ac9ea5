// "Same as last round but ch 7 instead of ch 6": a row told by what is other in it.

#include <algorithm>
#include <cstdint>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/notation/detail/pattern_reader.hpp"

namespace skeinfall::notation {
namespace {

bool separates(const Token& token) {
    return token.kind == TokenKind::comma || token.kind == TokenKind::full_stop ||
           token.kind == TokenKind::semicolon || token.kind == TokenKind::open ||
           token.kind == TokenKind::end;
}

/// The row's words without a count in brackets at their end.
std::string without_count(std::string text) {
    const auto open = text.find_last_of("([");
    if (open == std::string::npos || open == 0 || open + 1 >= text.size()) return text;
    const char first = text[open + 1];
    if (first >= '0' && first <= '9') text.resize(open);
    return text;
}

/// `from` as whole words, wherever it stands. How often it was found.
std::int64_t put_instead(std::string& text, const std::string& from, const std::string& to) {
    const auto inside = [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'); };
    std::int64_t found = 0;
    for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at)) {
        const std::size_t end = at + from.size();
        if ((at > 0 && inside(text[at - 1])) || (end < text.size() && inside(text[end]))) {
            at = end;
            continue;
        }
        text.replace(at, from.size(), to);
        at += to.size();
        ++found;
    }
    return found;
}

}  // namespace

bool PatternReader::changed_row(const std::vector<Token>& tokens, std::string_view text) {
    if (book_->craft() != Craft::crochet) return false;
    std::size_t instead = 0;
    for (std::size_t i = 1; i + 2 < tokens.size(); ++i)
        if (tokens[i].text == "instead" && tokens[i + 1].text == "of") instead = i;
    if (instead < 3) return false;
    const auto leads = [&](std::size_t i) {
        return among(tokens[i], {"but", "except", "with", "making", "working", "using", "make",
                                 "work", "having", "that"});
    };
    std::size_t word = instead - 1;
    while (word > 0 && !leads(word)) --word;
    if (word == 0) return false;
    std::size_t but = word;
    while (but > 1 && (leads(but - 1) || tokens[but - 1].kind == TokenKind::comma)) --but;
    std::size_t end = instead + 2;
    while (!separates(tokens[end])) ++end;
    const auto words = [&](std::size_t from, std::size_t to) {
        const std::size_t begin = tokens[from].at;
        return std::string(base::trimmed(text.substr(begin, tokens[to].at - begin)));
    };
    const std::string put = words(word + 1, instead);
    const std::string out = words(instead + 2, end);
    if (put.empty() || out.empty()) return false;
    const std::string rest =
        std::string(text.substr(0, tokens[but].at)) + std::string(text.substr(tokens[end].at));
    const Tokens lexed = tokens_of(rest, options_->size, options_->sizes);
    std::optional<Fault> fault = lexed.fault;
    if (fault) return false;
    const Label label = label_of(lexed.tokens, fault);
    if (fault || !label.again || label.again->open_end || label.again->until_stitches > 0)
        return false;
    const RowsAgain& again = *label.again;
    std::int64_t row = 0;
    if (again.last_rows == 1)
        row = (label.rows.empty() ? next_row_ : label.rows.front().first + offset_) - 1;
    else if (again.rows.size() == 1 && again.rows.front().first == again.rows.front().last)
        row = again.rows.front().first + offset_;
    const Slot slot = row > 0 ? slot_of(row) : Slot{};
    if (slot.written < 0) return false;
    std::string row_text =
        without_count(base::lower(pattern_.written[static_cast<std::size_t>(slot.written)].text));
    if (put_instead(row_text, out, put) == 0) {
        fail_line(text, Fault{tokens[instead + 2].at,
                              fmt::format("\"{}\" does not stand in row {}", out, row - offset_),
                              "words of that row", "Write the row out."});
        return true;
    }
    std::string composed(base_, ' ');
    if (!label.rows.empty())
        composed += fmt::format("{} {}", label.round ? "rnd" : "row", label.rows.front().first);
    if (!label.rows.empty() && label.rows.front().last > label.rows.front().first)
        composed += fmt::format("-{}", label.rows.front().last);
    if (!label.rows.empty()) composed += ": ";
    composed += row_text;
    if (label.has_tail) composed += " " + rest.substr(lexed.tokens[label.body].at);
    const std::string own = std::string(base::trimmed(original_.substr(base_, text.size())));
    const std::size_t before = pattern_.written.size();
    const auto outer = std::exchange(original_, composed);
    full_line_of(std::string_view(composed).substr(base_));
    original_ = outer;
    if (pattern_.written.size() == before) return true;
    Written& written = pattern_.written.back();
    written.text = own;
    written.told.push_back(
        {Severity::ok, 0,
         fmt::format("taken as row {} with \"{}\" for \"{}\"", row - offset_, put, out), ""});
    return true;
}

/// "Using the red yarn and a 5 mm hook, ch 8": what leads to the first chain holds no work.
void PatternReader::pass_chain_lead(std::vector<Token>& tokens,
                                    std::vector<SetAside>& aside) const {
    if (book_->craft() != Craft::crochet || !pattern_.slots.empty() || tokens.size() < 4 ||
        !among(tokens[0], {"using", "with", "starting", "start", "beginning", "begin", "holding"}))
        return;
    std::size_t chain = 0;
    for (std::size_t i = 2; i + 1 < tokens.size() && chain == 0; ++i)
        if (tokens[i - 1].kind == TokenKind::comma && among(tokens[i], {"ch", "chain"}) &&
            tokens[i + 1].kind == TokenKind::number)
            chain = i;
    if (chain == 0 || chain > 30) return;
    SetAside told{SetAside::Why::tool, tokens.front().at, {}};
    for (std::size_t i = 0; i < chain; ++i) {
        const Token& token = tokens[i];
        if (token.kind == TokenKind::star || token.kind == TokenKind::double_star ||
            token.kind == TokenKind::yarn ||
            (token.kind == TokenKind::full_stop && tokens[i + 1].at > token.at + 1) ||
            (token.kind == TokenKind::word &&
             (book_->find(token.text) || has_role(token.text, Role::work))))
            return;
        told.words += (i == 0 ? "" : " ") + std::string(token.text);
    }
    tokens.erase(tokens.begin(), tokens.begin() + static_cast<std::ptrdiff_t>(chain));
    aside.push_back(std::move(told));
}

}  // namespace skeinfall::notation
