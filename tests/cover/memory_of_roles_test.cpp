// Makes covered from one stash after the other, as what to buy is tried: what is remembered of the
// roles answers as if each were asked for the first time.

#include <cstdint>
#include <random>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "skeinfall/cover/memory.hpp"
#include "skeinfall/need/need.hpp"

#include "support/builders.hpp"
#include "support/seed.hpp"

namespace {

using namespace skeinfall;

/// A make of `count` yarns in pieces of their own; some of the yarns may be of any name.
project::Project many_yarns(std::mt19937_64& draw, std::size_t count) {
    project::Project out = support::rectangle(50, 60);
    out.roles.clear();
    out.pieces.clear();
    for (std::size_t i = 0; i < count; ++i) {
        const std::string id = "Y" + std::to_string(i);
        project::Role role = support::role(id);
        if (draw() % 3 != 0) role.name = "Kelpie " + std::to_string(draw() % 4);
        role.grist = support::grist("200 m / 100 g");
        role.rate = units::YarnPerStitch(0.03 * units::metre / units::stitch);
        role.one_lot = draw() % 2 == 0;
        out.roles.push_back(role);
        out.pieces.push_back(support::piece("piece " + std::to_string(i), id,
                                            static_cast<std::int64_t>(20 + draw() % 60),
                                            static_cast<std::int64_t>(20 + draw() % 60)));
    }
    return out;
}

std::vector<stash::Skein> drawn_skeins(std::mt19937_64& draw, std::size_t count) {
    std::vector<stash::Skein> out;
    for (std::size_t i = 0; i < count; ++i) {
        const auto yarn = support::yarn_of("Kelpie " + std::to_string(draw() % 4),
                                           support::metres(200), support::grams(100));
        const std::string lot = std::to_string(draw() % 3);
        const std::string id = "s" + std::to_string(i);
        if (draw() % 3 == 0)
            out.push_back(support::part(
                id, yarn, lot, support::weighed(static_cast<double>(5 + draw() % 90), 1.0)));
        else
            out.push_back(support::whole(id, yarn, lot));
    }
    return out;
}

std::string written_down(const std::vector<cover::MakeCover>& makes) {
    std::string out;
    for (const cover::MakeCover& make : makes) {
        out += std::string(cover::name_of(make.verdict)) + " " +
               std::to_string(make.chance.value.value()) + "\n";
        for (const cover::RoleCover& role : make.roles) {
            out += role.role.id + " " + std::to_string(role.chance.value.value()) + " " +
                   std::to_string(role.to_be_sure / units::metre) + " " +
                   std::to_string(role.margin_short / units::metre) +
                   (role.proven ? "" : " not proven");
            for (const std::string& id : support::ids_of(role.chosen)) out += " " + id;
            out += "\n";
        }
    }
    return out;
}

TEST(MemoryOfRoles, AnswersAsTheFirstTime) {
    const std::uint32_t seed = support::seed();
    SCOPED_TRACE(seed);
    std::mt19937_64 draw(seed);
    for (int round = 0; round < 60; ++round) {
        const project::Project make = many_yarns(draw, 1 + draw() % 4);
        const need::MakeNeed need = need::need_of(make, 0);
        cover::Rules rules;
        rules.margin = units::Ratio(draw() % 2 == 0 ? 0.0 : 0.1);
        if (draw() % 4 == 0) rules.division = cover::Division::split;
        const std::vector<cover::Make> makes{{&make, &need, rules}};
        const std::vector<stash::Skein> all = drawn_skeins(draw, 12);
        cover::Memory memory;
        for (int change = 0; change < 8; ++change) {
            // A skein goes, or comes back at another place.
            std::vector<stash::Skein> stash = all;
            for (int less = static_cast<int>(draw() % 4); less > 0; --less)
                stash.erase(stash.begin() + static_cast<std::ptrdiff_t>(draw() % stash.size()));
            EXPECT_EQ(written_down(cover::cover_makes(makes, stash, cover::Sharing::joint, memory)),
                      written_down(cover::cover_makes(makes, stash, cover::Sharing::joint)))
                << "round " << round << ", change " << change;
        }
    }
}

}  // namespace
