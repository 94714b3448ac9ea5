#include "skeinfall/notation/detail/tokens.hpp"

#include <algorithm>
#include <array>
#include <charconv>

#include "skeinfall/base/text.hpp"

namespace skeinfall::notation {
namespace {

bool letter(char c) {
    return (c >= 'a' && c <= 'z') || c == '&';
}
bool digit(char c) {
    return c >= '0' && c <= '9';
}

struct Sign {
    std::string_view text;
    TokenKind kind;
};
// Longer signs first.
constexpr auto signs = std::to_array<Sign>({
    {"**", TokenKind::double_star},
    {"*", TokenKind::star},
    {",", TokenKind::comma},
    {";", TokenKind::semicolon},
    {".", TokenKind::full_stop},
    {":", TokenKind::colon},
    {"(", TokenKind::open},
    {"[", TokenKind::open},
    {"{", TokenKind::open},
    {")", TokenKind::close},
    {"]", TokenKind::close},
    {"}", TokenKind::close},
    {"-", TokenKind::dash},
    {"\xe2\x80\x93", TokenKind::dash},  // en dash
    {"\xe2\x80\x94", TokenKind::dash},  // em dash
    {"=", TokenKind::equals},
});
/// From two on; "one" is a word of names like "make one".
constexpr auto spelled_numbers = std::to_array<std::string_view>(
    {"two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"});
constexpr std::string_view times_sign = "\xc3\x97";
constexpr std::string_view apostrophe = "\xe2\x80\x99";

class Lexer {
  public:
    Lexer(std::string_view text, std::size_t size, std::size_t sizes)
        : text_(text), size_(size), sizes_(sizes) {
        out_.tokens.reserve(text.size() / 3 + 2);
    }

    Tokens run() {
        while (at_ < text_.size() && !out_.fault) step();
        push(TokenKind::end, 0);
        return std::move(out_);
    }

  private:
    [[nodiscard]] char ahead(std::size_t by) const {
        return at_ + by < text_.size() ? text_[at_ + by] : '\0';
    }

    void push(TokenKind kind, std::size_t length, long value = 0) {
        Token token;
        token.kind = kind;
        token.at = static_cast<std::uint32_t>(at_);
        token.value = value;
        token.text = text_.substr(at_, length);
        if (length == 1) token.sign = text_[at_];
        out_.tokens.push_back(token);
        at_ += length;
    }

    void step() {
        const char c = text_[at_];
        if (c == ' ' || c == '\t' || c == '\n' || c == '\r') {
            ++at_;
        } else if (letter(c)) {
            word();
        } else if (digit(c)) {
            number();
        } else if (text_.substr(at_).starts_with(times_sign)) {
            push(TokenKind::word, times_sign.size());
            out_.tokens.back().text = "x";
        } else if (c == '+') {
            push(TokenKind::word, 1);
            out_.tokens.back().text = "and";
        } else {
            sign();
        }
    }

    /// The length of "row" and the like where a number follows at once: "r1", "rnd12".
    [[nodiscard]] std::size_t row_label() const {
        if (text_[at_] != 'r') return 0;
        for (const std::string_view name : {"rounds", "round", "rnds", "rnd", "rows", "row", "r"}) {
            if (!text_.substr(at_).starts_with(name) || !digit(ahead(name.size()))) continue;
            std::size_t behind = name.size();
            while (digit(ahead(behind))) ++behind;
            return letter(ahead(behind)) ? 0 : name.size();
        }
        return 0;
    }

    /// The length of the first of "k2p2".
    [[nodiscard]] std::size_t glued_knitting() const {
        const auto one = [&](std::size_t from) {
            const char c = ahead(from);
            if (c != 'k' && c != 'p') return from;
            std::size_t to = from + 1;
            while (digit(ahead(to))) ++to;
            return to == from + 1 ? from : to;
        };
        const std::size_t first = one(0);
        if (first == 0) return 0;
        std::size_t end = first;
        for (std::size_t next = one(end); next != end; next = one(end)) end = next;
        return end == first || letter(ahead(end)) ? 0 : first;
    }

    void word() {
        std::size_t length = row_label();
        if (length == 0) length = glued_knitting();
        if (length > 0) return push(TokenKind::word, length);
        length = 1;
        while (letter(ahead(length)) || digit(ahead(length)) ||
               ((ahead(length) == '-' || ahead(length) == '\'') &&
                (letter(ahead(length + 1)) || digit(ahead(length + 1)))))
            ++length;
        const auto spelled =
            std::find(spelled_numbers.begin(), spelled_numbers.end(), text_.substr(at_, length));
        if (spelled == spelled_numbers.end()) return push(TokenKind::word, length);
        push(TokenKind::number, length, spelled - spelled_numbers.begin() + 2);
    }

    void number() {
        std::size_t length = 1;
        while (digit(ahead(length))) ++length;
        long value = 0;
        const char* first = text_.data() + at_;
        const auto read = std::from_chars(first, first + length, value);
        if (read.ec != std::errc{} || value > largest_number) {
            out_.fault =
                Fault{at_, "the number is too large", "at most 1000000", "Check the number."};
            return;
        }
        const std::string_view ending = text_.substr(at_ + length, 2);
        if ((ending == "st" || ending == "nd" || ending == "rd" || ending == "th") &&
            !letter(ahead(length + 2))) {
            push(TokenKind::ordinal, length + 2, value);
            return;
        }
        push(TokenKind::number, length, value);
        if (sizes_ > 1) other_sizes();
    }

    /// "5 (7, 9)": the number just read is that of the first size.
    void other_sizes() {
        const std::size_t start = at_;
        const auto blanks = [&] {
            while (ahead(0) == ' ') ++at_;
        };
        blanks();
        if (ahead(0) != '(' && ahead(0) != '[') {
            at_ = start;
            return;
        }
        const std::size_t bracket = at_++;
        std::vector<long> values;
        while (true) {
            blanks();
            long value = 0;
            const char* first = text_.data() + at_;
            const auto read = std::from_chars(first, text_.data() + text_.size(), value);
            if (read.ec != std::errc{} || value > largest_number || value < 0) break;
            at_ += static_cast<std::size_t>(read.ptr - first);
            values.push_back(value);
            blanks();
            if (ahead(0) != ',') break;
            ++at_;
        }
        if (ahead(0) != ')' && ahead(0) != ']') {  // words in it: something else
            at_ = start;
            return;
        }
        ++at_;
        if (values.size() + 1 != sizes_) {
            out_.fault = Fault{bracket, "the numbers in brackets do not match the sizes",
                               "one number a size, " + std::to_string(sizes_) + " in all",
                               "Write the first size's number and those of the other sizes in "
                               "brackets, like 5 (7, 9)."};
            return;
        }
        if (size_ > 0) out_.tokens.back().value = values[size_ - 1];
    }

    void sign() {
        const std::string_view rest = text_.substr(at_);
        for (const Sign& known : signs)
            if (rest.starts_with(known.text)) {
                push(known.kind, known.text.size());
                return;
            }
        if (rest.starts_with("\"") || rest.starts_with("'") || rest.starts_with("/") ||
            rest.starts_with("!")) {
            ++at_;
            return;
        }
        if (rest.starts_with(apostrophe)) {
            at_ += apostrophe.size();
            return;
        }
        std::size_t length = 1;
        while (at_ + length < text_.size() &&
               (static_cast<unsigned char>(text_[at_ + length]) & 0xc0U) == 0x80U)
            ++length;
        out_.fault = Fault{at_,
                           "the sign \"" + base::shown_inert(rest.substr(0, length)) +
                               "\" means nothing in notation",
                           "words, numbers and the signs * ( ) [ ] , ; . : -", "Take it out."};
    }

    std::string_view text_;
    std::size_t size_;
    std::size_t sizes_;
    std::size_t at_ = 0;
    Tokens out_;
};

}  // namespace

Tokens tokens_of(std::string_view text, std::size_t size, std::size_t sizes) {
    return Lexer(text, size, sizes).run();
}

}  // namespace skeinfall::notation
