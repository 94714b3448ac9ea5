#pragma once
/// \file
/// The file that keeps what makes taught of a hand, beside the stash: TOML, one [[make]] for each
/// yarn of a make, with the keys title, yarn, times and noise.

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/project/hand.hpp"

namespace skeinfall::exchange {

/// "mine.skeinfall.hand.toml" for "mine.skeinfall".
[[nodiscard]] std::filesystem::path hand_path(const std::filesystem::path& stash);

/// Throws base::InputError with every mistake.
[[nodiscard]] std::vector<project::TaughtByMake> parse_hand(std::string_view text,
                                                            const std::string& file);
/// The same of a file; one that is not there taught nothing.
[[nodiscard]] std::vector<project::TaughtByMake> read_hand(const std::filesystem::path& path);

[[nodiscard]] std::string hand_text(const std::vector<project::TaughtByMake>& makes);

}  // namespace skeinfall::exchange
