#include "skeinfall/yarn/label_text.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "skeinfall/base/letters.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/data/label_words.hpp"
#include "skeinfall/units/parse.hpp"

namespace skeinfall::yarn {
namespace {

using units::Ratio;

constexpr std::size_t longest_label = 200;
// Whole yards and metres; "3.5 oz" stands for 100 g on most bands.
constexpr double rounding_of_print = 0.005;
constexpr double rounding_of_mass = 0.01;

const char* const forms = "length and weight of one skein, such as \"170 yd / 3.5 oz\"";

using base::is_digit;

bool in_word(char c) {
    const auto byte = static_cast<unsigned char>(c);
    return byte >= 0x80U || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '.' ||
           c == '"' || c == '\'';
}

bool is_filler(std::string_view word) {
    while (!word.empty() && (word.back() == '.' || word.back() == ':')) word.remove_suffix(1);
    if (word.empty()) return true;
    const std::string small = base::lower(word);
    return std::any_of(data::label_words.begin(), data::label_words.end(),
                       [&](const auto& row) { return row.word == small; });
}

/// Vulgar fractions and signs that are more than a letter.
bool is_sign(std::string_view word) {
    return word == "\xe2\x84\xae" || word == "\xe2\x89\x88" || word == "\xc2\xb1";
}

struct LabelFigure {
    std::string text;
    bool with_unit = false;
    std::size_t at = 0;
};

base::Problem refused(std::string_view text, std::size_t at, std::string what,
                      std::string remedy = {}) {
    return {base::quoted(text) + ": " + std::move(what),
            {.file = {}, .line = 0, .column = at + 1},
            forms,
            std::move(remedy)};
}

class BandReader {
  public:
    BandReader(std::string_view text, bool needs_both) : text_(text), needs_both_(needs_both) {}

    base::Result<PrintedPutUp> read() {
        if (text_.size() > longest_label) return refused(text_, 0, "it is too long");
        if (auto problem = take_figures()) return *std::move(problem);
        std::vector<units::Printed<units::Length>> lengths;
        std::vector<units::Printed<units::Mass>> masses;
        std::vector<LabelFigure> bare;
        for (const LabelFigure& figure : figures_) {
            if (!figure.with_unit) {
                bare.push_back(figure);
                continue;
            }
            const auto length = units::parse_length(figure.text);
            const auto mass = units::parse_mass(figure.text);
            if (length)
                lengths.push_back({figure.text, *length});
            else if (mass)
                masses.push_back({figure.text, *mass});
            else
                return refused(text_, figure.at, length.problem().what, length.problem().remedy);
        }
        if (auto problem = refuse_range()) return *std::move(problem);
        PrintedPutUp out;
        if (bare.size() == 1 && masses.empty() && !lengths.empty()) {
            const auto grams = units::parse_mass(bare.front().text + " g");
            if (!grams || *grams < 5.0 * units::gram || *grams > 2000.0 * units::gram)
                return refused(text_, bare.front().at, "the unit is missing");
            masses.push_back({bare.front().text + " g", *grams});
            out.grams_meant = true;
        } else if (!bare.empty()) {
            return refused(text_, bare.front().at, "the unit is missing");
        }
        if (needs_both_ ? lengths.empty() || masses.empty() : lengths.empty() && masses.empty())
            return refused(text_, 0,
                           lengths.empty() ? "the length is missing" : "the weight is missing");
        if (lengths.size() > 2 || masses.size() > 2)
            return refused(text_, 0, "more than two figures for one thing",
                           "Give the label of one skein.");
        if (auto problem = settle(lengths, out.lengths_apart, rounding_of_print))
            return *std::move(problem);
        if (auto problem = settle(masses, out.masses_apart, rounding_of_mass))
            return *std::move(problem);
        if (!lengths.empty()) out.label.length = lengths.front();
        if (!masses.empty()) out.label.mass = masses.front();
        return out;
    }

  private:
    /// "300 to 500 yd" is no 500 yd of 300 g.
    [[nodiscard]] std::optional<base::Problem> refuse_range() const {
        for (std::size_t i = 0; i + 1 < figures_.size(); ++i) {
            if (figures_[i].with_unit) continue;
            const std::size_t end = figures_[i].at + figures_[i].text.size();
            const std::string_view between =
                base::trimmed(text_.substr(end, figures_[i + 1].at - end));
            for (const std::string_view sign : {"to", "or", "and", "-"})
                if (base::same_word(between, sign))
                    return refused(text_, figures_[i].at,
                                   "a range does not say what one skein holds",
                                   "Give the figure that there surely is.");
        }
        return std::nullopt;
    }

    /// The first of two, the smaller where they differ; a problem where they contradict.
    template <class Q>
    std::optional<base::Problem> settle(std::vector<units::Printed<Q>>& two,
                                        std::optional<Ratio>& apart, double rounding) const {
        if (two.size() < 2) return std::nullopt;
        const double off = std::abs(std::log(two[0].value / two[1].value));
        if (off > printings_contradict.value())
            return refused(text_, 0,
                           fmt::format("{} and {} are not the same", two[0].text, two[1].text),
                           "Read the label again, or give one of the two.");
        if (off > rounding) {
            apart = Ratio(off);
            if (two[1].value < two[0].value) std::swap(two[0], two[1]);
        }
        return std::nullopt;
    }

    /// Numbers with the unit behind them; what is neither must be a small word.
    std::optional<base::Problem> take_figures() {
        std::size_t at = 0;
        while (at < text_.size()) {
            if (is_minus(at)) return refused(text_, at, "an amount below zero");
            if (is_digit(text_[at]) || starts_fraction(at)) {
                take_figure(at);
            } else if (in_word(text_[at])) {
                const std::size_t from = at;
                while (at < text_.size() && in_word(text_[at])) ++at;
                const std::string_view word = text_.substr(from, at - from);
                if (!is_filler(word) && !is_sign(word))
                    return refused(text_, from, base::quoted(word) + " is not understood");
            } else if (std::string_view(" \t/=|,;:()~-+*").find(text_[at]) !=
                       std::string_view::npos) {
                ++at;
            } else {
                return refused(text_, at, "a sign that is not understood");
            }
        }
        return std::nullopt;
    }

    /// A dash parts two figures; in front of one it is its sign.
    [[nodiscard]] bool is_minus(std::size_t at) const {
        const auto blank = [](char c) { return c == ' ' || c == '\t'; };
        if (text_[at] != '-' || at + 1 == text_.size() || !is_digit(text_[at + 1])) return false;
        return at == 0 || blank(text_[at - 1]) ||
               std::string_view("/=|,;:(").find(text_[at - 1]) != std::string_view::npos;
    }

    [[nodiscard]] bool starts_fraction(std::size_t at) const {
        return text_.substr(at, 2) == "\xc2\xbd" || text_.substr(at, 2) == "\xc2\xbc" ||
               text_.substr(at, 2) == "\xc2\xbe";
    }

    void take_figure(std::size_t& at) {
        const std::size_t from = at;
        const auto digits = [&] {
            while (at < text_.size() &&
                   (is_digit(text_[at]) ||
                    ((text_[at] == '.' || text_[at] == ',' || text_[at] == '/') &&
                     at + 1 < text_.size() && is_digit(text_[at + 1]) && at > from &&
                     is_digit(text_[at - 1]))))
                ++at;
        };
        digits();
        // "1 1/2", "3½"
        std::size_t next = at;
        while (next < text_.size() && text_[next] == ' ') ++next;
        if (next > at && next + 2 < text_.size() && is_digit(text_[next]) &&
            text_[next + 1] == '/' && is_digit(text_[next + 2])) {
            at = next;
            digits();
        }
        if (starts_fraction(at)) at += 2;
        next = at;
        while (next < text_.size() && text_[next] == ' ') ++next;
        std::size_t end = next;
        while (end < text_.size() && in_word(text_[end])) ++end;
        std::string_view unit = text_.substr(next, end - next);
        while (!unit.empty() && unit.back() == '.') unit.remove_suffix(1);
        LabelFigure figure{std::string(text_.substr(from, at - from)), false, from};
        if (!unit.empty() && !is_filler(unit) && !is_sign(unit)) {
            std::string plain(unit);
            // Units are written in letters without accents.
            for (const std::string_view accented : {"\xc3\xa8", "\xc3\x88"})
                if (const auto place = plain.find(accented); place != std::string::npos)
                    plain.replace(place, accented.size(), "e");
            figure.text = std::string(text_.substr(from, next - from)) + plain;
            figure.with_unit = true;
            at = end;
        }
        figures_.push_back(std::move(figure));
    }

    std::string_view text_;
    bool needs_both_;
    std::vector<LabelFigure> figures_;
};

}  // namespace

base::Result<PrintedPutUp> parse_put_up(std::string_view text) {
    return BandReader(base::trimmed(text), true).read();
}

base::Result<PrintedPutUp> parse_printed_amount(std::string_view text) {
    return BandReader(base::trimmed(text), false).read();
}

}  // namespace skeinfall::yarn
