#pragma once
/// \file
/// What to buy so that makes are covered, in whole skeins.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "skeinfall/cover/cover.hpp"
#include "skeinfall/cover/price.hpp"
#include "skeinfall/yarn/avoid.hpp"

namespace skeinfall::cover {

/// So many skeins at most are planned with before they are bought; more are a slip in a figure or
/// its unit.
inline constexpr std::int64_t most_bought = 1000;

/// One yarn to buy, for all the roles that want it.
struct BuyingLine {
    std::string yarn;               ///< its name, or what will do: "any class 4 yarn"
    std::string colour;             ///< empty when any will do
    std::vector<std::string> uses;  ///< "Lantern cowl (MC)"
    yarn::Label put_up;             ///< of one skein; empty when nobody states it
    units::Length missing{};        ///< beside the stash, to be as sure as asked
    units::Length needed{};         ///< with margin
    units::Length margin{};         ///< the part of it that is margin
    std::optional<std::int64_t>
        skeins;  ///< whole skeins for what is missing; without a put-up nothing
    /// That all makes of this list are covered with them and the other lines' skeins.
    std::optional<measure::Chance> chance;
    bool settled = true;  ///< false: however many are bought, the makes are not covered
    std::optional<std::int64_t>
        all_anew;  ///< skeins of one new lot instead of adding to the stash's
    std::optional<std::int64_t> for_margin;  ///< how many of `skeins` the margin costs
    units::Length over{};        ///< left over when `skeins` are bought and all goes as planned
    std::optional<Price> price;  ///< of a skein, when it is known
    std::optional<Price> cost;   ///< of `skeins`
    std::vector<std::string> keep_out;         ///< fibres that no skein of it may hold
    std::optional<yarn::Objection> objection;  ///< to the yarn it names: no skein is proposed then
    bool near_heat = false;                    ///< all of it must be known to stand heat
    std::vector<std::string> unproven;         ///< of its fibres: no skein is proposed then
    bool only_margin = false;                  ///< the need itself is covered, not with its margin
    bool match_lots = false;  ///< with the stash's, or `all_anew` of one new lot where it is known
};

/// Whether skeins of that put-up may be the role's yarn: it states none, or one of the same length
/// per mass within rounding.
[[nodiscard]] bool may_be_bought_as(const project::Role& role, const yarn::Label& put_up);

/// Lines for the roles that are not covered, in the makes' order; roles that name the same yarn and
/// colour share one. A yarn that holds what must be kept out, by the project or by the label of a
/// skein of that name, is not proposed. `put_up` is of the skeins to buy, where
/// may_be_bought_as() allows; else the project or the stash tells it. Prices are
/// found by the yarn's name, whatever its case.
[[nodiscard]] std::vector<BuyingLine> buying_list(const std::vector<Make>& makes,
                                                  const std::vector<MakeCover>& covers,
                                                  const std::vector<stash::Skein>& stash,
                                                  const yarn::Label& put_up,
                                                  const Prices& prices = {});

/// What all lines with a price cost together, a sum a currency, in the order of their first line.
[[nodiscard]] std::vector<Price> together(const std::vector<BuyingLine>& lines);

}  // namespace skeinfall::cover
