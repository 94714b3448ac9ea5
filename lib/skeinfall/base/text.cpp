#include "skeinfall/base/text.hpp"

#include <algorithm>
#include <cstdint>

#include <utf8.h>

#include "skeinfall/base/letters.hpp"

namespace skeinfall::base {
namespace {

constexpr std::string_view blanks = " \t\r\n";

/// Insertions, deletions, replacements and swaps of neighbours that turn a into b.
std::size_t slips_between(std::string_view a, std::string_view b) {
    std::vector<std::vector<std::size_t>> d(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
    for (std::size_t i = 0; i <= a.size(); ++i) d[i][0] = i;
    for (std::size_t j = 0; j <= b.size(); ++j) d[0][j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i) {
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t change = a[i - 1] == b[j - 1] ? 0 : 1;
            d[i][j] = std::min({d[i - 1][j] + 1, d[i][j - 1] + 1, d[i - 1][j - 1] + change});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                d[i][j] = std::min(d[i][j], d[i - 2][j - 2] + 1);
        }
    }
    return d[a.size()][b.size()];
}

}  // namespace

std::string_view trimmed(std::string_view text) {
    const auto first = text.find_first_not_of(blanks);
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

std::string lower(std::string_view text) {
    std::string out(text);
    std::transform(out.begin(), out.end(), out.begin(), lower_letter);
    return out;
}

bool same_word(std::string_view a, std::string_view b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                      [](char x, char y) { return lower_letter(x) == lower_letter(y); });
}

std::vector<std::string> split(std::string_view text, char separator) {
    std::vector<std::string> pieces;
    while (true) {
        const auto at = text.find(separator);
        pieces.emplace_back(trimmed(text.substr(0, at)));
        if (at == std::string_view::npos) return pieces;
        text.remove_prefix(at + 1);
    }
}

std::string join(const std::vector<std::string>& pieces, std::string_view separator) {
    std::string out;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        if (i != 0) out += separator;
        out += pieces[i];
    }
    return out;
}

bool naturally_before(std::string_view a, std::string_view b) {
    constexpr std::string_view digits = "0123456789";
    const auto is_digit = [&](char c) { return digits.find(c) != std::string_view::npos; };
    // A run of digits without its leading zeros, taken off the text.
    const auto number = [&](std::string_view& text) {
        std::string_view run = text.substr(0, text.find_first_not_of(digits));
        text.remove_prefix(run.size());
        run.remove_prefix(std::min(run.find_first_not_of('0'), run.size()));
        return run;
    };
    std::string_view left = a;
    std::string_view right = b;
    while (!left.empty() && !right.empty()) {
        if (is_digit(left.front()) && is_digit(right.front())) {
            const std::string_view one = number(left);
            const std::string_view other = number(right);
            if (one != other)
                return one.size() != other.size() ? one.size() < other.size() : one < other;
        } else {
            if (left.front() != right.front()) return left.front() < right.front();
            left.remove_prefix(1);
            right.remove_prefix(1);
        }
    }
    return left.empty() == right.empty() ? a < b : left.empty();
}

std::optional<std::size_t> first_invalid_utf8(std::string_view text) {
    // Most texts are plain, and this is asked of every one that is read.
    const auto* const strange = std::find_if(text.begin(), text.end(), [](char c) {
        return (static_cast<unsigned char>(c) & 0x80U) != 0;
    });
    const auto* const bad = utf8::find_invalid(strange, text.end());
    if (bad == text.end()) return std::nullopt;
    return static_cast<std::size_t>(bad - text.begin());
}

std::string shown_inert(std::string_view text) {
    constexpr std::string_view digits = "0123456789abcdef";
    std::string out;
    auto at = text.begin();
    while (at != text.end()) {
        const auto start = at;
        std::uint32_t point = 0;
        try {
            point = utf8::next(at, text.end());
        } catch (const utf8::exception&) {
            at = start + 1;
            point = static_cast<unsigned char>(*start);
            out += {'\\', 'x', digits[point >> 4U], digits[point & 15U]};
            continue;
        }
        const bool control = point < 0x20 || (point >= 0x7f && point < 0xa0);
        // Overrides of writing direction could make a line read as something else.
        const bool steering =
            (point >= 0x202a && point <= 0x202e) || (point >= 0x2066 && point <= 0x2069);
        if (control)
            out += {'\\', 'x', digits[(point >> 4U) & 15U], digits[point & 15U]};
        else if (!steering)
            out.append(start, at);
    }
    return out;
}

std::string quoted(std::string_view text) {
    constexpr std::size_t most = 80;
    if (text.size() <= most) return '"' + shown_inert(text) + '"';
    std::size_t cut = most;
    while (cut > 0 && (static_cast<unsigned char>(text[cut]) & 0xc0U) == 0x80U) --cut;
    return '"' + shown_inert(text.substr(0, cut)) + "...\"";
}

std::optional<std::string> nearest_name(std::string_view word,
                                        const std::vector<std::string>& known) {
    const std::string wanted = lower(word);
    if (wanted.size() < 2) return std::nullopt;
    std::size_t least = std::max<std::size_t>(1, std::min<std::size_t>(2, wanted.size() / 3)) + 1;
    std::optional<std::string> found;
    for (const std::string& name : known) {
        // Each letter too many or too few is a slip; this also keeps a monstrous word cheap.
        if (std::max(wanted.size(), name.size()) - std::min(wanted.size(), name.size()) >= least)
            continue;
        const std::size_t slips = slips_between(wanted, lower(name));
        if (slips < least) {
            least = slips;
            found = name;
        }
    }
    return found;
}

std::string did_you_mean(const std::optional<std::string>& near, std::string_view otherwise) {
    return near ? "Did you mean \"" + shown_inert(*near) + "\"?" : std::string(otherwise);
}

}  // namespace skeinfall::base
