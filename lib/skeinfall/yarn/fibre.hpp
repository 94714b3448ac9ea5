#pragma once
/// \file
/// What a yarn is made of, as its label says, and what that means for heat and for allergies.

#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/base/result.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::yarn {

struct FibreShare {
    std::string fibre;     ///< as printed, lower case
    units::Ratio share{};  ///< of the mass, 0..1

    bool operator==(const FibreShare& other) const {
        return fibre == other.fibre && share.value() == other.share.value();
    }
};

/// Shares that add up to 100 %. An empty list means that the content is not known.
struct FibreContent {
    std::vector<FibreShare> shares;

    [[nodiscard]] bool known() const { return !shares.empty(); }
    bool operator==(const FibreContent&) const = default;
};

/// "80% wool 20% nylon", "60 % cotton, 40 % acrylic". Shares must add to 100 % within half a
/// per cent.
[[nodiscard]] base::Result<FibreContent> parse_fibre_content(std::string_view text);

/// "80 % wool, 20 % nylon"; "content unknown" when empty.
[[nodiscard]] std::string text(const FibreContent& content);

/// True when a printed fibre name is, or is a kind of, `fibre` ("merino wool" is wool, "polyamide"
/// is nylon). Names are compared as whole words through lib/data/fibre_names.csv.
[[nodiscard]] bool is_kind_of(std::string_view printed, std::string_view fibre);

/// True when any share is a kind of `fibre`.
[[nodiscard]] bool contains(const FibreContent& content, std::string_view fibre);

/// The fibres of the content that soften or melt in heat (lib/data/fibre_summary.csv), as printed.
[[nodiscard]] std::vector<std::string> melting_fibres(const FibreContent& content);

}  // namespace skeinfall::yarn
