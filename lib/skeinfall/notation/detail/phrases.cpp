#include "skeinfall/notation/detail/phrases.hpp"

#include <algorithm>
#include <cstdint>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/data/notation_phrases.hpp"
#include "skeinfall/notation/detail/words.hpp"

namespace skeinfall::notation {
namespace {

using Texts = std::vector<std::string_view>;

Texts parts_of(std::string_view text, char sign) {
    Texts out;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find(sign), text.size());
        if (end > 0) out.push_back(text.substr(0, end));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return out;
}

struct Element {
    enum class What { words, number, ordinal, length, tools, stitch, colours, any, inner, end };
    What what = What::words;
    Texts words;
    bool optional = false;
};

struct Phrase {
    std::vector<Element> elements;
    Texts reads_as;
    bool aside = false;
    bool at_start = false;
};

Element element_of(std::string_view text) {
    Element out;
    if (text.size() > 2 && text.front() == '[' && text.back() == ']') {
        out.optional = true;
        text = text.substr(1, text.size() - 2);
    }
    if (text == "#")
        out.what = Element::What::number;
    else if (text == "%")
        out.what = Element::What::ordinal;
    else if (text == "<>")
        out.what = Element::What::length;
    else if (text == "@tool+")
        out.what = Element::What::tools;
    else if (text == "@stitch")
        out.what = Element::What::stitch;
    else if (text == "@colour+")
        out.what = Element::What::colours;
    else if (text == "@words+")
        out.what = Element::What::any;
    else if (text == "@inner+")
        out.what = Element::What::inner;
    else if (text == "$")
        out.what = Element::What::end;
    else
        out.words = parts_of(text, '|');
    return out;
}

struct Book {
    std::vector<Phrase> phrases;
    /// By the first word, in the order of the table.
    std::unordered_map<std::string_view, std::vector<std::size_t>> by_word;
    std::vector<std::size_t> by_kind;    ///< those that begin with a number or the like
    std::vector<std::size_t> by_stitch;  ///< those that begin with a stitch
};

Book book_of(Craft craft) {
    Book out;
    const std::string_view mine = craft == Craft::knit ? "knit" : "crochet";
    for (const auto& row : data::notation_phrases) {
        if (row.craft != mine && row.craft != "both") continue;
        Phrase phrase;
        for (const std::string_view text : parts_of(row.words, ' ')) {
            if (text == "^")
                phrase.at_start = true;
            else
                phrase.elements.push_back(element_of(text));
        }
        phrase.reads_as = parts_of(row.reads_as, ' ');
        if (!phrase.reads_as.empty() && phrase.reads_as.front() == "aside") {
            phrase.aside = true;
            phrase.reads_as.erase(phrase.reads_as.begin());
        }
        const std::size_t index = out.phrases.size();
        for (const Element& first : phrase.elements) {
            if (first.what == Element::What::stitch)
                out.by_stitch.push_back(index);
            else if (first.what != Element::What::words)
                out.by_kind.push_back(index);
            for (const std::string_view word : first.words) out.by_word[word].push_back(index);
            if (!first.optional) break;
        }
        out.phrases.push_back(std::move(phrase));
    }
    return out;
}

class Reader {
  public:
    Reader(const Book& book, const std::vector<Token>& tokens, StitchBook& stitches,
           const NotationOptions& options, std::vector<SetAside>& aside)
        : book_(&book),
          tokens_(&tokens),
          stitches_(&stitches),
          options_(&options),
          aside_(&aside) {}

    /// Nothing when no phrase stands in it.
    std::vector<Token> run() {
        std::vector<Token> out;
        bool any = false;
        for (std::size_t i = 0; i < tokens_->size();) {
            const Phrase* phrase = phrase_at(i);
            if (phrase == nullptr) {
                if (any) out.push_back((*tokens_)[i]);
                ++i;
                continue;
            }
            if (!any) out.assign(tokens_->begin(), tokens_->begin() + static_cast<std::int64_t>(i));
            any = true;
            if (phrase->aside) tell(i, taken_);
            for (const std::string_view text : phrase->reads_as) put(text, (*tokens_)[i].at, out);
            i = taken_;
        }
        return out;
    }

  private:
    [[nodiscard]] const Token& token(std::size_t i) const {
        return (*tokens_)[std::min(i, tokens_->size() - 1)];
    }

    const Phrase* phrase_at(std::size_t i) {
        const auto by_word = book_->by_word.find(token(i).text);
        if (by_word != book_->by_word.end())
            for (const std::size_t index : by_word->second)
                if (stands(book_->phrases[index], i)) return &book_->phrases[index];
        const TokenKind kind = token(i).kind;
        if (kind == TokenKind::number || kind == TokenKind::ordinal || kind == TokenKind::length)
            for (const std::size_t index : book_->by_kind)
                if (stands(book_->phrases[index], i)) return &book_->phrases[index];
        if (kind == TokenKind::word && !book_->by_stitch.empty() && stitch(token(i)))
            for (const std::size_t index : book_->by_stitch)
                if (stands(book_->phrases[index], i)) return &book_->phrases[index];
        return nullptr;
    }

    [[nodiscard]] bool stitch(const Token& token) const {
        if (token.kind != TokenKind::word) return false;
        const std::string_view text = token.text;
        // "k6"
        if (stitches_->craft() == Craft::knit && text.size() > 1 &&
            (text[0] == 'k' || text[0] == 'p') &&
            text.find_first_not_of("0123456789", 1) == std::string_view::npos)
            return true;
        return text == "st" || text == "sts" || text == "stitch" || text == "stitches" ||
               stitches_->find(text).has_value();
    }

    /// A word that may be a colour: nothing else is known by it.
    [[nodiscard]] bool colour(const Token& token) const {
        if (token.kind != TokenKind::word || token.text.size() < 3 || stitch(token)) return false;
        // Where the make has yarns, a name that is none of them is a mistake.
        if (!options_->yarns.empty() && !options_->yarns_guessed) return false;
        for (const Role role : {Role::work, Role::joining, Role::tool, Role::filler})
            if (has_role(token.text, role)) return false;
        if (token.text == "main" || token.text.starts_with("contrast")) return false;
        for (const YarnNames& yarn : options_->yarns)
            for (const std::string& name : yarn.names)
                if (name.find(token.text) != std::string::npos) return false;
        return true;
    }

    bool stands(const Phrase& phrase, std::size_t i) {
        if (phrase.at_start && i != 0) return false;
        stood_.assign(phrase.elements.size(), {0, 0});
        return from(phrase, 0, i);
    }

    [[nodiscard]] static bool tool(const Token& token) {
        switch (token.kind) {
            case TokenKind::number:
            case TokenKind::length:
            case TokenKind::slash:
            case TokenKind::comma:
            case TokenKind::open:
            case TokenKind::close:
                return true;
            case TokenKind::other:  // "size 10 ½"
                return token.text.starts_with("\xc2\xbc") || token.text.starts_with("\xc2\xbd") ||
                       token.text.starts_with("\xc2\xbe");
            case TokenKind::word:
                return has_role(token.text, Role::tool) || token.text == "the" ||
                       token.text == "a" || token.text == "your";
            default:
                return false;
        }
    }

    [[nodiscard]] bool is(const Element& element, const Token& token) const {
        switch (element.what) {
            case Element::What::stitch:
                return stitch(token);
            case Element::What::colours:
                return colour(token);
            case Element::What::any:
                // Work and its numbers are never passed over with what is told of it.
                return token.kind == TokenKind::word && !stitch(token) &&
                       !has_role(token.text, Role::work);
            case Element::What::inner:
                return token.kind != TokenKind::open && token.kind != TokenKind::close &&
                       token.kind != TokenKind::end;
            case Element::What::number:
                return token.kind == TokenKind::number;
            case Element::What::ordinal:
                return token.kind == TokenKind::ordinal;
            case Element::What::length:
                return token.kind == TokenKind::length;
            case Element::What::tools:
                return tool(token);
            case Element::What::end:
                return token.kind == TokenKind::end;
            case Element::What::words:
                break;
        }
        return token.kind != TokenKind::end && std::find(element.words.begin(), element.words.end(),
                                                         token.text) != element.words.end();
    }

    /// The point of "size 10.5".
    [[nodiscard]] bool decimal_point(std::size_t i) const {
        return i > 0 && token(i).kind == TokenKind::full_stop &&
               token(i - 1).kind == TokenKind::number && token(i + 1).kind == TokenKind::number &&
               token(i + 1).at == token(i).at + 1;
    }

    bool from(const Phrase& phrase, std::size_t element, std::size_t i) {
        if (element == phrase.elements.size()) {
            taken_ = i;
            return true;
        }
        const Element& one = phrase.elements[element];
        if (one.what == Element::What::end) {
            stood_[element] = {i, 0};
            return token(i).kind == TokenKind::end && from(phrase, element + 1, i);
        }
        std::size_t most = 0;
        const bool many = one.what == Element::What::tools || one.what == Element::What::colours ||
                          one.what == Element::What::any || one.what == Element::What::inner;
        const std::size_t limit = one.what == Element::What::colours ? 4
                                  : one.what == Element::What::any   ? 12
                                  : one.what == Element::What::inner ? 40
                                                                     : 16;
        if (many)
            while (most < limit && i + most < tokens_->size() &&
                   (is(one, token(i + most)) ||
                    (one.what == Element::What::tools && decimal_point(i + most))))
                ++most;
        else if (i < tokens_->size() && is(one, token(i)))
            most = 1;
        const std::size_t least = one.optional ? 0 : 1;
        for (std::size_t count = most + 1; count-- > least;) {
            stood_[element] = {i, count};
            if (from(phrase, element + 1, i + count)) return true;
        }
        return false;
    }

    void tell(std::size_t first, std::size_t last) {
        SetAside told;
        told.at = token(first).at;
        for (std::size_t i = first; i < last; ++i) {
            if (!told.words.empty()) told.words += ' ';
            told.words += token(i).text;
        }
        aside_->push_back(std::move(told));
    }

    void put(std::string_view text, std::uint32_t at, std::vector<Token>& out) {
        if (text == "$#") {  // the last number
            for (std::size_t i = taken_; i-- > stood_.front().first;)
                if (token(i).kind == TokenKind::number) return out.push_back(token(i));
            return;
        }
        if (text.front() == '$') {
            const std::size_t index = base::leading_number<std::size_t>(text.substr(1)) - 1;
            if (text.ends_with('%')) {  // a number as an ordinal
                Token ordinal = token(stood_[index].first);
                ordinal.kind = TokenKind::ordinal;
                return out.push_back(ordinal);
            }
            if (text.ends_with('#')) {  // an ordinal as a number
                Token number = token(stood_[index].first);
                number.kind = TokenKind::number;
                return out.push_back(number);
            }
            for (std::size_t i = 0; i < stood_[index].second; ++i)
                out.push_back(token(stood_[index].first + i));
            return;
        }
        Token made;
        made.at = at;
        made.text = text;
        made.kind = TokenKind::word;
        if (text.size() == 1) {
            static constexpr std::string_view signs = ",.:*()[];-=";
            static constexpr TokenKind kinds[]{
                TokenKind::comma,     TokenKind::full_stop, TokenKind::colon, TokenKind::star,
                TokenKind::open,      TokenKind::close,     TokenKind::open,  TokenKind::close,
                TokenKind::semicolon, TokenKind::dash,      TokenKind::equals};
            const auto sign = signs.find(text.front());
            if (sign != std::string_view::npos) {
                made.kind = kinds[sign];
                made.sign = text.front();
            }
        }
        if (const auto read = base::number_first<std::int64_t>(text)) {
            made.value = read->value;
            made.kind = read->rest.empty() ? TokenKind::number : TokenKind::ordinal;  // "2nd"
        }
        out.push_back(made);
    }

    const Book* book_;
    const std::vector<Token>* tokens_;
    StitchBook* stitches_;
    const NotationOptions* options_;
    std::vector<SetAside>* aside_;
    std::vector<std::pair<std::size_t, std::size_t>> stood_;  ///< of each element, first and count
    std::size_t taken_ = 0;
};

}  // namespace

void read_phrases(std::vector<Token>& tokens, StitchBook& book, const NotationOptions& options,
                  std::vector<SetAside>& aside) {
    static const Book knit = book_of(Craft::knit);
    static const Book crochet = book_of(Craft::crochet);
    // What a phrase means may be part of another one.
    for (int turn = 0; turn < 3; ++turn) {
        auto read =
            Reader(book.craft() == Craft::knit ? knit : crochet, tokens, book, options, aside)
                .run();
        if (read.empty()) return;
        tokens = std::move(read);
    }
}

}  // namespace skeinfall::notation
