#pragma once
/// \file
/// What came of reading a damaged stash, in words.

#include <cstddef>
#include <string>

namespace skeinfall::report {

/// "182 movements entered: 135 sound, 12 doubtful, 30 lost, 5 undone earlier\n" of any tally with
/// the members of store::Tally.
[[nodiscard]] std::string rescue_words(const std::string& one, std::size_t entered, bool counted,
                                       std::size_t sound, std::size_t doubtful, std::size_t undone,
                                       std::size_t left_out, std::size_t lost);

template <class Tally>
[[nodiscard]] std::string rescue_text(const std::string& one, const Tally& tally) {
    return rescue_words(one, tally.entered, tally.counted, tally.sound, tally.doubtful,
                        tally.undone, tally.left_out, tally.lost);
}

}  // namespace skeinfall::report
