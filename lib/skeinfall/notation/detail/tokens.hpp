#pragma once
/// \file
/// The words, numbers and signs of a row written in notation. Inner part of the notation.

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::notation {

enum class TokenKind : std::uint8_t {
    word,     ///< "sc", "ch-1", "k2tog"; in lower case
    number,   ///< 12
    ordinal,  ///< "2nd"
    comma,
    semicolon,
    full_stop,
    colon,
    open,   ///< ( [ {
    close,  ///< ) ] }
    star,   ///< *
    double_star,
    dash,
    equals,
    slash,
    length,  ///< "20 in", "4.5 cm", "5 1/2 inches"
    yarn,    ///< a yarn by its name: `value` is its index, `sign` 's' behind its stitches
    other,   ///< a sign that means nothing here
    end,     ///< behind the last
};

struct Token {
    TokenKind kind = TokenKind::end;
    char sign = 0;           ///< of a bracket
    std::uint32_t at = 0;    ///< byte in the text
    std::int64_t value = 0;  ///< of a number or ordinal
    std::string_view text;   ///< of a word, number, ordinal or length
    units::Length length{};
};

/// A mistake at a byte of the text being read; turned into a base::Problem where the file is known.
struct Fault {
    std::size_t at = 0;
    std::string what;
    std::string expected;
    std::string remedy;
};

/// The largest number that notation may hold.
inline constexpr std::int64_t largest_number = 1'000'000;

/// All of the text as digits, up to largest_number; nothing otherwise.
[[nodiscard]] std::optional<std::int64_t> whole_number(std::string_view digits);

/// The tokens of `text`, which has to be in lower case and to outlive them; the last one is `end`.
/// Where a make has several sizes, "5 (7, 9)" is the number of size `size` (from 0). Stops at the
/// first fault.
struct Tokens {
    std::vector<Token> tokens;
    std::optional<Fault> fault;
};
[[nodiscard]] Tokens tokens_of(std::string_view text, std::size_t size, std::size_t sizes);

/// Whether the token is one of the words.
[[nodiscard]] inline bool among(const Token& token, std::initializer_list<std::string_view> words) {
    return token.kind == TokenKind::word &&
           std::find(words.begin(), words.end(), token.text) != words.end();
}

}  // namespace skeinfall::notation
