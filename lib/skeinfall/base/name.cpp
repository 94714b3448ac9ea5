#include "skeinfall/base/name.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstdlib>
#include <memory>

#include <unicase.h>
#include <uninorm.h>

#include "skeinfall/base/text.hpp"

namespace skeinfall::base {
namespace {

struct Free {
    void operator()(std::uint8_t* bytes) const { std::free(bytes); }
};

std::string folded_case(std::string_view text) {
    const bool plain = std::all_of(text.begin(), text.end(),
                                   [](char c) { return static_cast<unsigned char>(c) < 0x80U; });
    if (plain || first_invalid_utf8(text)) return lower(text);
    std::size_t size = 0;
    const std::unique_ptr<std::uint8_t, Free> bytes(
        u8_casefold(reinterpret_cast<const std::uint8_t*>(text.data()), text.size(), nullptr,
                    UNINORM_NFC, nullptr, &size));
    if (bytes == nullptr) return lower(text);
    return {reinterpret_cast<const char*>(bytes.get()), size};
}

/// A no-break space is a blank to whoever looks at it.
constexpr std::string_view no_break_space = "\xc2\xa0";

}  // namespace

std::string name_key(std::string_view name) {
    std::string text = folded_case(name);
    for (std::size_t at = 0; (at = text.find(no_break_space, at)) != std::string::npos;)
        text.replace(at, no_break_space.size(), " ");
    std::string out;
    for (const char c : text) {
        const bool blank = c == ' ' || c == '\t' || c == '\n' || c == '\r';
        if (!blank)
            out += c;
        else if (!out.empty() && out.back() != ' ')
            out += ' ';
    }
    if (!out.empty() && out.back() == ' ') out.pop_back();
    return out;
}

std::string lot_name_key(std::string_view lot) {
    const std::string key = name_key(lot);
    std::string_view rest = key;
    constexpr auto words = std::to_array<std::string_view>({"dye lot", "dyelot", "dye-lot", "lot"});
    for (const std::string_view word : words) {
        if (!rest.starts_with(word)) continue;
        const std::string_view after = rest.substr(word.size());
        const std::size_t begin = after.find_first_not_of(" .:#");
        // "lottie" is a name, and "lot" alone is all there is.
        if (begin == std::string_view::npos) break;
        if (begin == 0 && (after.front() < '0' || after.front() > '9')) break;
        return std::string(after.substr(begin));
    }
    return key;
}

bool same_name(std::string_view a, std::string_view b) {
    return same_word(a, b) || name_key(a) == name_key(b);
}

}  // namespace skeinfall::base
