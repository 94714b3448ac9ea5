#include "skeinfall/notation/detail/tokens.hpp"

#include <algorithm>
#include <array>
#include <cstdint>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/token_words.hpp"

namespace skeinfall::notation {
namespace {

bool letter(char c) {
    return (c >= 'a' && c <= 'z') || c == '&';
}
bool digit(char c) {
    return c >= '0' && c <= '9';
}

using lexed::Fraction;
using lexed::fractions;
using lexed::goes_on;
using lexed::inch_signs;
using lexed::Mark;
using lexed::odd_blanks;
using lexed::other_stars;
using lexed::quotes;
using lexed::shortened;
using lexed::Sign;
using lexed::signs;
using lexed::spelled_numbers;
using lexed::times_sign;

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
    /// A byte of its own, no part of a longer sign: settles most questions at once.
    [[nodiscard]] static bool plain(char c) { return (static_cast<unsigned char>(c) & 0x80U) == 0; }

    [[nodiscard]] char ahead(std::size_t by) const {
        return at_ + by < text_.size() ? text_[at_ + by] : '\0';
    }

    void push(TokenKind kind, std::size_t length, std::int64_t value = 0) {
        Token token;
        token.kind = kind;
        token.at = static_cast<std::uint32_t>(at_);
        token.value = value;
        token.text = text_.substr(at_, length);
        if (length == 1) token.sign = text_[at_];
        out_.tokens.push_back(token);
        at_ += length;
    }

    template <typename Table>
    [[nodiscard]] std::size_t one_of(const Table& table, std::size_t by = 0) const {
        if (at_ + by >= text_.size()) return 0;
        for (const std::string_view text : table)
            if (text_.substr(at_ + by).starts_with(text)) return text.size();
        return 0;
    }

    /// The bytes and the value of "1/2" or of a sign for it.
    [[nodiscard]] std::pair<std::size_t, double> fraction_at(std::size_t by) const {
        if (at_ + by >= text_.size()) return {0, 0.0};
        if (!digit(ahead(by)) && plain(ahead(by))) return {0, 0.0};
        if (!plain(ahead(by)))
            for (const Fraction& fraction : fractions)
                if (text_.substr(at_ + by).starts_with(fraction.text))
                    return {fraction.text.size(), fraction.value};
        if (digit(ahead(by)) && ahead(by + 1) == '/' && digit(ahead(by + 2)) &&
            !digit(ahead(by + 3)) && ahead(by + 2) != '0')
            return {3, static_cast<double>(ahead(by) - '0') / (ahead(by + 2) - '0')};
        return {0, 0.0};
    }

    /// A length as a whole; false, and nothing taken, for other numbers.
    bool length() {
        std::size_t by = 0;
        double value = 0.0;
        while (digit(ahead(by)) && by < 6) value = 10.0 * value + (ahead(by++) - '0');
        if (by > 0 && ahead(by) == '.' && digit(ahead(by + 1))) {
            double part = 0.1;
            for (++by; digit(ahead(by)) && part > 1e-6; ++by, part /= 10.0)
                value += part * (ahead(by) - '0');
        } else {
            const std::size_t gap = by > 0 && (ahead(by) == ' ' || ahead(by) == '-') ? 1 : 0;
            if (by == 1 && fraction_at(0).first == 3) {
                value = fraction_at(0).second;
                by = 3;
            } else if (const auto [size, part] = fraction_at(by + gap); size > 0) {
                value += part;
                by += gap + size;
            }
        }
        if (by == 0) return false;
        units::Length unit{};
        if (const std::size_t sign = one_of(inch_signs, by); sign > 0) {
            unit = 1.0 * units::inch;
            by += sign;
        } else {
            while (ahead(by) == ' ' || ahead(by) == '-') ++by;
            std::size_t end = by;
            while (letter(ahead(end))) ++end;
            const std::string_view name = text_.substr(std::min(at_ + by, text_.size()), end - by);
            if (name == "inches" || name == "inch" || (name == "in" && ends_a_length(end)))
                unit = 1.0 * units::inch;
            else if (name == "cm" || name == "cms" || name == "centimeters" ||
                     name == "centimetres")
                unit = 1.0 * units::centimetre;
            else if (name == "mm")
                unit = 1.0 * units::millimetre;
            else if (name == "yd" || name == "yds" || name == "yards" || name == "yard")
                unit = 1.0 * units::yard;
            else
                return false;
            by = end;
        }
        push(TokenKind::length, by);
        out_.tokens.back().length = value * unit;
        if (goes_on_behind_unit()) ++at_;
        return true;
    }

    /// "20 in. (51 cm) from beg": the full stop only shortens the unit.
    [[nodiscard]] bool goes_on_behind_unit() const {
        if (ahead(0) != '.') return false;
        std::size_t by = 1;
        while (ahead(by) == ' ') ++by;
        const std::string_view rest = text_.substr(std::min(at_ + by, text_.size()));
        for (const std::string_view sign :
             {"(", "[", ",", ";", "from ", "long", "wide", "or ", "ending ", "end ", "above ",
              "when ", "across", "in length", "in total", "total", "deep", "tall", "and "})
            if (rest.starts_with(sign)) return true;
        return false;
    }

    /// Whether "in" ends there and is no "in next st".
    [[nodiscard]] bool ends_a_length(std::size_t by) const {
        if (ahead(by) == '.' || ahead(by) == ',' || ahead(by) == ')' || ahead(by) == ';' ||
            ahead(by) == '/' || at_ + by >= text_.size())
            return true;
        while (ahead(by) == ' ') ++by;
        const std::string_view rest = text_.substr(std::min(at_ + by, text_.size()));
        for (const std::string_view word : {"(", "from", "or", "long", "wide", "and ", "above",
                                            "below", "ending", "tail", "in ", "of "})
            if (rest.starts_with(word)) return true;
        return rest.empty();
    }

    /// Whether the full stop only shortens the word before it: "sl. st", "k. 7".
    [[nodiscard]] bool shortens() const {
        if (out_.tokens.empty() || out_.tokens.back().kind != TokenKind::word ||
            out_.tokens.back().at + out_.tokens.back().text.size() != at_)
            return false;
        const std::string_view word = out_.tokens.back().text;
        if (word == "beg" && ahead(1) == ' ' && letter(ahead(2))) return true;  // "Beg. cluster"
        if (std::find(shortened.begin(), shortened.end(), word) == shortened.end()) return false;
        if (ahead(1) == ',' || ahead(1) == ';' || ahead(1) == ')' || ahead(1) == ']') return true;
        std::size_t by = 1;
        while (ahead(by) == ' ') ++by;
        std::size_t behind = by;
        while (digit(ahead(behind))) ++behind;
        if (digit(ahead(by)) && letter(ahead(behind)) && word == "rnd") return false;  // "5th rnd:"
        // "to end of rnd. 16 sts": the rnd ends a sentence, and a count follows
        if (word == "rnd" && out_.tokens.size() > 1 && ahead(behind) == ' ' &&
            (text_.substr(std::min(at_ + behind + 1, text_.size())).starts_with("st") ||
             ahead(behind + 1) == '(' || ahead(behind + 1) == '['))
            return false;
        if (digit(ahead(by)))
            return (by == 2 ||
                    (by == 1 && (word == "k" || word == "p" || word == "sl" || word == "ch"))) &&
                   (word == "k" || word == "p" || word == "sl" || word == "rnd" || word == "ch" ||
                    word == "no");
        if (word == "rep" && ahead(by) == '*') return true;
        if ((word == "k" || word == "p") && by == 2 &&
            text_.substr(std::min(at_ + by, text_.size())).starts_with("row"))
            return true;  // "ending with a P. row"
        std::size_t end = by;
        while (letter(ahead(end))) ++end;
        const std::string_view next = text_.substr(std::min(at_ + by, text_.size()), end - by);
        return std::find(goes_on.begin(), goes_on.end(), next) != goes_on.end();
    }

    /// "(72, 84, 96 dc)": a count for each size; the one of this size is taken.
    bool sized_bracket() {
        if (sizes_ < 2 || (!out_.tokens.empty() && out_.tokens.back().kind == TokenKind::number))
            return false;
        std::size_t by = 1;
        std::size_t chosen = 0;
        for (std::size_t number = 0; number < sizes_; ++number) {
            while (ahead(by) == ' ' || (number > 0 && ahead(by) == ',')) ++by;
            if (number > 0 && ahead(by) == 'o' && ahead(by + 1) == 'r' && ahead(by + 2) == ' ')
                by += 3;  // "(209, 245 or 281 sc)"
            if (number == size_) chosen = by;
            const std::size_t first = by;
            while (digit(ahead(by)) && by < first + 5) ++by;
            if (by == first) return false;
        }
        std::size_t end = by;
        while (letter(ahead(end)) || ahead(end) == ' ' || ahead(end) == '-') ++end;
        if (ahead(end) != ')' && ahead(end) != ']') return false;
        const std::size_t open = at_;
        push(TokenKind::open, 1);
        at_ = open + chosen;
        number();
        at_ = open + by;
        return true;
    }

    void step() {
        const char c = text_[at_];
        if (c == ' ' || c == '\t' || c == '\n' || c == '\r') {
            ++at_;
        } else if (const std::size_t blank = plain(c) ? 0 : one_of(odd_blanks); blank > 0) {
            at_ += blank;
        } else if ((c == '(' || c == '[') && sized_bracket()) {
        } else if (c == '.' && shortens()) {
            ++at_;
        } else if (fraction_at(0).first > 0 && length()) {
        } else if (c == 'w' && ahead(1) == '/') {  // "join w/ sl st"
            push(TokenKind::word, 2);
            out_.tokens.back().text = "with";
        } else if ((c == 'c' || c == 'b' || c == 'y') && ahead(1) == '/' && ahead(2) == 'o' &&
                   !letter(ahead(3))) {  // "C/O", "y/o"
            push(TokenKind::word, 3);
            out_.tokens.back().text = c == 'c' ? "co" : c == 'b' ? "bo" : "yo";
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
        const auto next_of = [&](std::size_t from) {  // "k1-p1", "k1/p1"
            return ahead(from) == '-' || ahead(from) == '/' ? std::max(from, one(from + 1))
                                                            : one(from);
        };
        for (std::size_t next = next_of(end); next > end; next = next_of(end)) {
            if ((ahead(end) == '-' || ahead(end) == '/') && next == end + 1) break;
            end = next;
        }
        return end == first || letter(ahead(end)) ? 0 : first;
    }

    /// The length of "k" in "k7 (9, 11)", whose number differs by size.
    [[nodiscard]] std::size_t sized_stitch() const {
        if (sizes_ < 2) return 0;
        for (const std::string_view name : {"k", "p", "sl"}) {
            if (!text_.substr(at_).starts_with(name) || !digit(ahead(name.size()))) continue;
            std::size_t behind = name.size();
            while (digit(ahead(behind))) ++behind;
            if (ahead(behind) == ' ') ++behind;
            if (ahead(behind) != '(' && ahead(behind) != '[') return 0;
            while (ahead(++behind) == ' ') {
            }
            return digit(ahead(behind)) ? name.size() : 0;
        }
        return 0;
    }

    void word() {
        std::size_t length = row_label();
        if (length == 0) length = sized_stitch();
        if (length > 0) return push(TokenKind::word, length);
        length = glued_knitting();
        if (length > 0) {
            push(TokenKind::word, length);
            if (ahead(0) == '/' || ahead(0) == '-') ++at_;
            return;
        }
        length = 1;
        while (letter(ahead(length)) || digit(ahead(length)) ||
               ((ahead(length) == '-' || ahead(length) == '\'') &&
                (letter(ahead(length + 1)) || digit(ahead(length + 1)))))
            ++length;
        // "across-29 sts"
        // "k4mc": a yarn's letters behind its stitches
        if ((ahead(0) == 'k' || ahead(0) == 'p') && digit(ahead(1))) {
            std::size_t digits = 1;
            while (digit(ahead(digits))) ++digits;
            const std::string_view behind = text_.substr(at_ + digits, length - digits);
            if (behind.starts_with("mc") || behind.starts_with("cc")) length = digits;
        }
        if (const auto hyphen = text_.substr(at_, length).find('-');
            hyphen != std::string_view::npos) {
            if (const auto rib = text_.substr(at_, length).find("-rib", hyphen);
                rib != std::string_view::npos) {
                push(TokenKind::word, rib);  // "p1, k3-ribbing"
                ++at_;
                return;
            }
            for (const std::string_view whole_word :
                 {"across-", "around-", "sts-", "end-", "st-", "kfb-", "ssk-", "k2tog-", "p2tog-",
                  "rows-", "more-", "knit-", "purl-", "times-", "even-", "stitches-"})
                if (text_.substr(at_, length).starts_with(whole_word) &&
                    digit(ahead(whole_word.size())))
                    length = whole_word.size() - 1;
        }
        for (const std::string_view one : {"an inch", "one inch"})
            if (text_.substr(at_).starts_with(one) && !letter(ahead(one.size()))) {
                push(TokenKind::length, one.size());
                out_.tokens.back().length = 1.0 * units::inch;
                return;
            }
        const auto spelled = length < 3 ? spelled_numbers.end()
                                        : std::find(spelled_numbers.begin(), spelled_numbers.end(),
                                                    text_.substr(at_, length));
        if (spelled == spelled_numbers.end()) {
            push(TokenKind::word, length);
            std::string_view& text = out_.tokens.back().text;
            if (text.size() > 3 && text.ends_with("'s")) text.remove_suffix(2);  // "dc's"
            return;
        }
        push(TokenKind::number, length, spelled - spelled_numbers.begin() + 2);
        if (const std::string again = " (" + std::to_string(out_.tokens.back().value) + ")";
            text_.substr(std::min(at_, text_.size())).starts_with(again))
            at_ += again.size();  // "eight (8)"
        const std::string_view rest = text_.substr(std::min(at_, text_.size()));
        for (const std::string_view unit : {" inches", " inch", " cm"})
            if (rest.starts_with(unit)) {  // "ten inches"
                Token& token = out_.tokens.back();
                token.kind = TokenKind::length;
                token.length = static_cast<double>(token.value) *
                               (unit == " cm" ? 1.0 * units::centimetre : 1.0 * units::inch);
                token.text = text_.substr(token.at, length + unit.size());
                at_ += unit.size();
                return;
            }
    }

    /// "13 (14, 15½) in": the length of the size in hand; false, and nothing taken, for others.
    bool sized_length() {
        if (sizes_ < 2) return false;
        std::size_t by = 0;
        std::vector<double> values;
        const auto value = [&] {
            double read = 0.0;
            bool any = false;
            for (; digit(ahead(by)) && by < 200; any = true)
                read = 10.0 * read + (ahead(by++) - '0');
            if (any && ahead(by) == '.' && digit(ahead(by + 1)))
                for (double part = (++by, 0.1); digit(ahead(by)); ++by, part /= 10.0)
                    read += part * (ahead(by) - '0');
            if ((ahead(by) == ' ' || ahead(by) == '-') && fraction_at(by + 1).first > 0) ++by;
            if (const auto [size, part] = fraction_at(by); size > 0) {
                read += part;
                by += size;
                any = true;
            }
            if (any) values.push_back(read);
            return any;
        };
        const auto blanks = [&] {
            while (ahead(by) == ' ') ++by;
        };
        if (!value()) return false;
        blanks();
        if (ahead(by) != '(' && ahead(by) != '[') return false;
        do {
            ++by;
            blanks();
            if (!value()) return false;
            blanks();
        } while (ahead(by) == ',' || ahead(by) == '-' || ahead(by) == ';' || ahead(by) == ':');
        if ((ahead(by) != ')' && ahead(by) != ']') || values.size() != sizes_) return false;
        ++by;
        blanks();
        units::Length unit{};
        if (const std::size_t sign = one_of(inch_signs, by); sign > 0) {
            unit = 1.0 * units::inch;
            by += sign;
        } else {
            std::size_t end = by;
            while (letter(ahead(end))) ++end;
            const std::string_view name = text_.substr(std::min(at_ + by, text_.size()), end - by);
            if (name == "inches" || name == "inch" || name == "ins" ||
                (name == "in" && ends_a_length(end)))
                unit = 1.0 * units::inch;
            else if (name == "cm" || name == "cms")
                unit = 1.0 * units::centimetre;
            else
                return false;
            by = end;
        }
        push(TokenKind::length, by);
        out_.tokens.back().length = values[std::min(size_, values.size() - 1)] * unit;
        return true;
    }

    void number() {
        if (sized_length() || length()) return;
        std::size_t length = 1;
        while (digit(ahead(length))) ++length;
        const auto read = base::number_of<std::int64_t>(text_.substr(at_, length));
        const std::int64_t value = read.value_or(0);
        if (!read || value > largest_number) {
            out_.fault =
                Fault{at_, "the number is too large", "at most 1000000", "Check the number."};
            return;
        }
        if (!plain(ahead(length)))  // "No. 2½": a size, the half means nothing here
            for (const Fraction& fraction : fractions)
                if (text_.substr(at_ + length).starts_with(fraction.text))
                    return push(TokenKind::number, length + fraction.text.size(), value);
        const std::string_view ending = text_.substr(std::min(at_ + length, text_.size()), 2);
        const bool first = value % 10 == 1 && value % 100 != 11;  // "18st" are 18 stitches
        if (((ending == "st" && first) || ending == "nd" || ending == "rd" || ending == "th") &&
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
        std::vector<std::int64_t> values;
        while (true) {
            blanks();
            if (ahead(0) == '-' && (ahead(1) == ',' || ahead(1) == ']' || ahead(1) == ')')) {
                ++at_;  // "k9 [-, 11]": nothing in this size
                values.push_back(0);
                if (ahead(0) != ',') break;
                ++at_;
                continue;
            }
            const auto read = base::number_first<std::int64_t>(text_.substr(at_));
            if (!read || read->value > largest_number || read->value < 0) break;
            at_ = text_.size() - read->rest.size();
            values.push_back(read->value);
            blanks();
            if (ahead(0) != ',' && ahead(0) != '-' && ahead(0) != ':' && ahead(0) != ';' &&
                ahead(0) != '/')
                break;
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
        if (const std::size_t quote = one_of(quotes); quote > 0) {
            at_ += quote;
            return;
        }
        if (rest.starts_with("!")) return push(TokenKind::full_stop, 1);
        for (const Mark& mark : other_stars)
            if (rest.starts_with(mark.text)) {
                push(TokenKind::star, mark.text.size());
                out_.tokens.back().sign = mark.sign;
                return;
            }
        if (rest.starts_with("#") && digit(ahead(1))) {  // "Row #3"
            ++at_;
            return;
        }
        std::size_t length = 1;
        while (at_ + length < text_.size() &&
               (static_cast<unsigned char>(text_[at_ + length]) & 0xc0U) == 0x80U)
            ++length;
        push(TokenKind::other, length);
    }

    std::string_view text_;
    std::size_t size_;
    std::size_t sizes_;
    std::size_t at_ = 0;
    Tokens out_;
};

}  // namespace

std::optional<std::int64_t> whole_number(std::string_view digits) {
    const auto value = base::number_of<std::int64_t>(digits);
    return value && *value <= largest_number ? value : std::nullopt;
}

Tokens tokens_of(std::string_view text, std::size_t size, std::size_t sizes) {
    return Lexer(text, size, sizes).run();
}

}  // namespace skeinfall::notation
