#pragma once
/// \file
/// Inside units: reads one label text from left to right. Every reader returns nothing once a
/// problem is known; nothing is allocated before that.

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/base/result.hpp"
#include "skeinfall/units/detail/names.hpp"

namespace skeinfall::units::detail {

/// The number of a yarn count as written: one number, or two with a stroke or hyphen between.
/// An "s" after a number marks it as the count, as in "2/40s".
struct WrittenCount {
    double first = 0.0;
    bool first_marked = false;
    char separator = 0;  ///< '/', '-' or none
    double second = 0.0;
    bool second_marked = false;
    std::size_t start = 0;  ///< where it stands in the text
};

/// True for a character of one byte.
[[nodiscard]] constexpr bool is_plain(char c) {
    return static_cast<unsigned char>(c) < 0x80U;
}

class Scanner {
  public:
    Scanner(std::string_view text, std::string_view example) : text_(text), example_(example) {
        skip_blanks();
    }

    [[nodiscard]] bool at_end() const { return at_ >= text_.size(); }
    [[nodiscard]] bool at_letter() const;
    [[nodiscard]] std::size_t at() const { return at_; }
    [[nodiscard]] const std::optional<base::Problem>& problem() const { return problem_; }
    /// What there is to know about the names read so far; empty when nothing.
    [[nodiscard]] std::string_view caution() const { return caution_; }
    /// True when a factor read so far was not checked in a published table.
    [[nodiscard]] bool from_memory() const { return from_memory_; }

    /// Sets the first problem; always returns nothing. An empty remedy shows the example.
    std::nullopt_t fail(std::string what, std::string expected, std::string remedy, std::size_t at);

    /// A number above zero (or from zero when `zero_allowed`).
    std::optional<double> amount(bool zero_allowed = false);
    /// "24", "5 1/2", "2/24", "40s-2".
    std::optional<WrittenCount> written_count();

    /// The factor of a unit of `kind`, read from the next words.
    std::optional<double> unit(Kind kind);
    std::optional<double> quantity(Kind kind);
    /// A unit with an optional amount before it: "10 cm", or "in" for one inch.
    std::optional<double> maybe_counted(Kind kind);
    /// True when what comes next is not a word.
    [[nodiscard]] bool at_number() const;
    /// Takes the next words when they name one of `kind`'s units.
    void optional_unit(Kind kind);

    /// Takes "/" or "per", and "=" where labels write it so ("50 g = 125 m").
    bool per(bool equals_too = false);
    bool take_word(std::string_view wanted);
    bool take_sign(char sign);
    /// Takes "x" or the sign of multiplication.
    bool times();

    /// The first unit name of the text, past any numbers; not taken. A count wins over a length.
    [[nodiscard]] const Name* leading_name() const;
    /// Takes the next words as a count's name.
    const Name* count_name();
    /// True when there are no letters from here on.
    [[nodiscard]] bool only_numbers() const;
    /// "unknown unit", with the nearest of the known.
    std::nullopt_t unknown_unit(std::string_view expected, const std::vector<std::string>& known);

    /// The text must be used up.
    bool finished();

  private:
    struct Words {
        Match match;
        std::string_view text;
        std::size_t end = 0;
    };

    void skip_blanks();
    [[nodiscard]] std::size_t past_blanks(std::size_t at) const;
    [[nodiscard]] std::size_t letters_end(std::size_t at) const;
    [[nodiscard]] std::size_t first_word() const;
    [[nodiscard]] std::size_t group_sign(std::size_t at) const;
    [[nodiscard]] bool thousands_follow() const;
    [[nodiscard]] std::size_t count_mark(std::size_t at) const;
    [[nodiscard]] Words names_at(std::size_t at) const;
    std::string_view word();
    void use(const Name& name);
    std::nullopt_t which_unit(const Words& words, Kind kind);

    std::optional<double> vulgar();
    std::optional<double> digits(std::string_view from, std::size_t start);
    std::optional<double> plain_number();
    std::optional<double> number_with_commas(std::string_view raw, std::size_t start);
    std::optional<double> unsigned_number();
    [[nodiscard]] bool fraction_follows(std::size_t at) const;
    std::optional<double> fraction(double top, std::size_t start, std::size_t slash);

    std::string_view text_;
    std::string_view example_;
    std::size_t at_ = 0;
    std::string_view caution_;
    bool from_memory_ = false;
    std::optional<base::Problem> problem_;
};

}  // namespace skeinfall::units::detail
