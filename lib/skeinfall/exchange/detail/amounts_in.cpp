#include "skeinfall/exchange/detail/amounts_in.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <optional>
#include <regex>
#include <string_view>
#include <vector>

#include "skeinfall/base/letters.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/make_words.hpp"
#include "skeinfall/units/parse.hpp"
#include "skeinfall/yarn/label_text.hpp"
#include "skeinfall/yarn/stated_total.hpp"

namespace skeinfall::exchange::detail {
namespace {

struct Piece {
    enum class Of { number, word, sign };
    Of of = Of::sign;
    std::string text;
};

bool is_letter_of_word(char c) {
    return (c >= 'a' && c <= 'z') || static_cast<unsigned char>(c) >= 0x80;
}

/// "3 x 50g (2.5 oz)" as numbers, words and signs.
std::vector<Piece> pieces_of(const std::string& low) {
    std::vector<Piece> out;
    for (std::size_t at = 0; at < low.size();) {
        const std::size_t begin = at;
        if (base::is_digit(low[at])) {
            while (at < low.size() && (base::is_digit(low[at]) ||
                                       ((low[at] == '.' || low[at] == ',') && at + 1 < low.size() &&
                                        base::is_digit(low[at + 1]) && at > begin)))
                ++at;
            out.push_back({Piece::Of::number, low.substr(begin, at - begin)});
        } else if (is_letter_of_word(low[at])) {
            while (at < low.size() && (is_letter_of_word(low[at]) || low[at] == '\'')) ++at;
            out.push_back({Piece::Of::word, low.substr(begin, at - begin)});
        } else {
            if (low[at] != ' ') out.push_back({Piece::Of::sign, low.substr(at, 1)});
            ++at;
        }
    }
    return out;
}

std::string length_unit(const std::string& word) {
    for (const std::string_view yard : {"yd", "yds", "yard", "yards"})
        if (word == yard) return "yd";
    for (const std::string_view metre : {"m", "mtr", "mtrs", "metre", "metres", "meter", "meters"})
        if (word == metre) return "m";
    return {};
}

std::string mass_unit(const std::string& word) {
    for (const std::string_view gram : {"g", "gr", "gm", "gms", "gram", "grams", "grammes"})
        if (word == gram) return "g";
    for (const std::string_view ounce : {"oz", "ounce", "ounces"})
        if (word == ounce) return "oz";
    return {};
}

bool is_skein(const std::string& word) {
    for (const std::string_view skein :
         {"ball", "balls", "skein", "skeins", "hank", "hanks", "cake", "cakes", "cone", "cones"})
        if (word == skein) return true;
    return false;
}

struct Amount {
    enum class Of { length, mass, skeins };
    Of of = Of::length;
    std::string text;       ///< "170 yd", "3"
    std::size_t first = 0;  ///< its first piece
    std::size_t behind = 0;
};

class Line {
  public:
    explicit Line(const std::string& line) : pieces_(pieces_of(base::lower(plain_signs(line)))) {}

    AmountsIn read() {
        for (at_ = 0; at_ < pieces_.size(); ++at_)
            if (pieces_[at_].of == Piece::Of::number) number();
        drop_said_twice();
        AmountsIn out;
        find_put_up(out);
        if (amounts_.empty()) return out;
        out.total = total();
        out.unclear = out.total.empty() && !only_put_up_;
        return out;
    }

  private:
    [[nodiscard]] std::string word(std::size_t at) const {
        return at < pieces_.size() && pieces_[at].of == Piece::Of::word ? pieces_[at].text : "";
    }
    [[nodiscard]] bool sign(std::size_t at, std::string_view text) const {
        return at < pieces_.size() && pieces_[at].of == Piece::Of::sign && pieces_[at].text == text;
    }
    [[nodiscard]] bool is_number(std::size_t at) const {
        return at < pieces_.size() && pieces_[at].of == Piece::Of::number;
    }

    void number() {
        const std::size_t first = at_;
        std::string text = pieces_[at_].text;
        std::size_t next = at_ + 1;
        // "1 (2, 3) skeins", "400 [450, 500] yds"
        if ((sign(next, "(") || sign(next, "[")) && is_number(next + 1) &&
            (sign(next + 2, ",") || sign(next + 2, ":") || sign(next + 2, "-") ||
             sign(next + 2, "/")) &&
            is_number(next + 3)) {
            graded_ = true;
            return;
        }
        // "1/2 ball", "1 1/2 skeins"
        if (sign(next, "/") && is_number(next + 1)) {
            odd_ = true;
            at_ = next + 1;
            return;
        }
        if ((sign(next, "-") || word(next) == "to") && is_number(next + 1)) {
            text += " to " + pieces_[next + 1].text;
            next += 2;
        }
        if (const std::string unit = length_unit(word(next)); !unit.empty())
            return take({Amount::Of::length, text + " " + unit, first, next + 1});
        if (const std::string unit = mass_unit(word(next)); !unit.empty())
            return take({Amount::Of::mass, text + " " + unit, first, next + 1});
        if (first > 0 && (sign(first - 1, "#") || names_a_size(word(first - 1)))) return;
        if (word(next) == "x" && is_number(next + 1))
            return take({Amount::Of::skeins, text, first, next + 1});
        for (std::size_t i = next; i < next + 4 && !word(i).empty(); ++i) {
            if (i == next && names_a_size(word(i))) return;
            if (is_skein(word(i))) return take({Amount::Of::skeins, text, first, i + 1});
        }
    }

    /// "size 4", "5 mm", "4 ply": a number of something else.
    static bool names_a_size(const std::string& word) {
        for (const std::string_view sizes : {"size", "class", "category", "weight", "no", "us",
                                             "uk", "mm", "ply", "cm", "in", "inch", "inches"})
            if (word == sizes) return true;
        return false;
    }

    void take(Amount amount) {
        at_ = amount.behind - 1;
        amounts_.push_back(std::move(amount));
    }

    /// "100 g (3.5 oz)" says one mass twice.
    void drop_said_twice() {
        for (std::size_t i = 1; i < amounts_.size();) {
            const Amount& one = amounts_[i - 1];
            const Amount& other = amounts_[i];
            const bool beside = other.first == one.behind + 1 &&
                                (sign(one.behind, "(") || sign(one.behind, "/") ||
                                 sign(one.behind, "[") || word(one.behind) == "or");
            if (beside && alike(one, other))
                amounts_.erase(amounts_.begin() + static_cast<std::ptrdiff_t>(i));
            else
                ++i;
        }
    }

    static bool alike(const Amount& one, const Amount& other) {
        if (one.of != other.of || one.of == Amount::Of::skeins) return false;
        constexpr double rounding = 0.04;
        const auto near = [](const auto& a, const auto& b) {
            return a && b && std::abs(a->value() - b->value()) <= rounding * a->value();
        };
        return one.of == Amount::Of::length
                   ? near(units::parse_length(one.text), units::parse_length(other.text))
                   : near(units::parse_mass(one.text), units::parse_mass(other.text));
    }

    /// A length and a mass side by side are what a label prints.
    void find_put_up(AmountsIn& out) {
        for (std::size_t i = 1; i < amounts_.size() && out.put_up.empty(); ++i) {
            const Amount& a = amounts_[i - 1];
            const Amount& b = amounts_[i];
            if (a.of == b.of || a.of == Amount::Of::skeins || b.of == Amount::Of::skeins) continue;
            bool beside = true;
            for (std::size_t at = a.behind; at < b.first; ++at) beside = beside && links(at);
            // "3 x 50 g balls of DK (120 m each)": there is only one of either.
            if (!beside && (amounts_.size() > 3 || leaves_open())) continue;
            const Amount& length = a.of == Amount::Of::length ? a : b;
            const Amount& mass = a.of == Amount::Of::length ? b : a;
            if (!yarn::parse_put_up(length.text + " / " + mass.text)) continue;
            out.put_up = length.text + " / " + mass.text;
            put_up_ = length.text;
            amounts_.erase(amounts_.begin() + static_cast<std::ptrdiff_t>(i) - 1,
                           amounts_.begin() + static_cast<std::ptrdiff_t>(i) + 1);
            only_put_up_ = amounts_.empty();
        }
    }

    [[nodiscard]] bool links(std::size_t at) const {
        for (const std::string_view mark : {"/", "(", ")", "[", "]", "=", ",", "~", "-", ".", ":"})
            if (sign(at, mark)) return true;
        for (const std::string_view link : {"per", "approx", "ca", "about", "each", "in"})
            if (word(at) == link) return true;
        return false;
    }

    /// Words that leave open what an amount is of.
    [[nodiscard]] bool leaves_open() const {
        for (std::size_t at = 0; at < pieces_.size(); ++at) {
            const std::string one = word(at);
            for (const std::string_view open :
                 {"excluding", "except",   "without",   "plus",    "less",   "under",   "scrap",
                  "scraps",    "leftover", "leftovers", "amounts", "strand", "strands", "doubled",
                  "held",      "apiece",   "square",    "squares", "motif",  "motifs",  "sizes",
                  "for",       "half",     "colors",    "colours", "total",  "all",     "pair",
                  "more",      "extra",    "both"})
                if (one == open) return true;
            if (one == "double" && !word(at + 1).starts_with("knit")) return true;
            // "50 g each", "each skein" and "per ball" are of a skein; "1 ball each" is not.
            if (one == "each" && !is_skein(word(at + 1)) && !ends_put_up(at)) return true;
            if (one == "per" && !is_skein(word(at + 1)) && !is_number(at + 1)) return true;
        }
        return false;
    }

    [[nodiscard]] bool ends_put_up(std::size_t at) const {
        return at > 0 && (!length_unit(word(at - 1)).empty() || !mass_unit(word(at - 1)).empty()) &&
               word(at + 1) != "of";
    }

    [[nodiscard]] std::string total() const {
        if (graded_ || odd_ || leaves_open()) return {};
        const Amount* skeins = nullptr;
        const Amount* other = nullptr;
        for (const Amount& amount : amounts_) {
            const Amount*& place = amount.of == Amount::Of::skeins ? skeins : other;
            if (place != nullptr) return {};
            place = &amount;
        }
        std::string out;
        if (skeins != nullptr) {
            if (other != nullptr && !put_up_.empty()) return {};
            // "300 yds (2 skeins)": of all or of each.
            const bool each = other == nullptr || other->first > skeins->first ||
                              word(other->behind) == "per" || word(other->behind) == "each";
            const std::string of = other != nullptr ? other->text : put_up_;
            if (of.empty() || !each) return {};
            out = skeins->text + " balls of " + of;
        } else if (other != nullptr && put_up_.empty()) {
            out = other->text;
        }
        return yarn::parse_stated_total(out) ? out : std::string();
    }

    std::vector<Piece> pieces_;
    std::size_t at_ = 0;
    std::vector<Amount> amounts_;
    std::string put_up_;  ///< its length
    bool only_put_up_ = false;
    bool graded_ = false;
    bool odd_ = false;  ///< parts of skeins
};

}  // namespace

AmountsIn amounts_in(const std::string& line) {
    return Line(line).read();
}

bool says_strands_together(const std::string& line) {
    static const std::regex together(
        R"(\b(?:(?:held|hold(?:ing)?|work(?:ed|ing)?|us(?:e|ed|ing)|yarn|strand(?:ed|s)?)\s+(?:doubl(?:e|ed)\b(?!\s+(?:crochet|knit|moss|seed|treble))|triple\b|together\b)|doubl(?:e|ed)[\s-]+(?:strand(?:s|ed)?|yarn)\b|tripl(?:e|ed)[\s-]+(?:strand(?:s|ed)?|yarn)\b|(?:two|three|four|2|3|4)[\s-]*(?:x\s*)?strand(?:s|ed)?\b|strands?\s+(?:held\s+)?together\b|held\s+(?:doubl|tripl|togeth))|\bdoubled\b|\b(?:both|two|2|three|3)\s+(?:yarns|colou?rs|strands|threads)\s+(?:held\s+)?(?:together|at once)\b)",
        std::regex::icase);
    return std::regex_search(line, together);
}

}  // namespace skeinfall::exchange::detail
