#pragma once
/// \file
/// Text laid out so that a name is found whole. Inner header of yarn.

#include <string>
#include <string_view>

#include "skeinfall/base/text.hpp"

namespace skeinfall::yarn {

/// " bluefaced leicester ": words in lower case with one blank around each, whatever stood
/// between them, so that a name is found whole or not at all.
[[nodiscard]] inline std::string spaced(std::string_view printed) {
    std::string out = " ";
    for (const char c : base::lower(printed)) {
        const bool letter = (c >= 'a' && c <= 'z') || static_cast<unsigned char>(c) >= 0x80U;
        if (letter)
            out += c;
        else if (out.back() != ' ')
            out += ' ';
    }
    if (out.back() != ' ') out += ' ';
    return out;
}

}  // namespace skeinfall::yarn
