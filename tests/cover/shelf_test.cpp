// A skein found by what a role asks for, beside every skein looked at in turn.

#include "skeinfall/cover/shelf.hpp"

#include <random>

#include <gtest/gtest.h>

#include "skeinfall/cover/cover.hpp"

#include "support/builders.hpp"
#include "support/seed.hpp"

namespace {

using namespace skeinfall;

class ShelfProperty : public ::testing::Test {
  protected:
    unsigned below(unsigned bound) { return static_cast<unsigned>(random_() % bound); }

    template <class T>
    T one_of(const std::vector<T>& of) {
        return of[below(static_cast<unsigned>(of.size()))];
    }

    stash::Skein any_skein(unsigned number) {
        yarn::Yarn yarn;
        yarn.name =
            one_of<std::string>({"Kelpie", "kelpie ", "KELPIE", "Овечка", "овечка", "Brack"});
        if (below(6) != 0) yarn.label.length = support::metres(100.0 + below(300));
        if (below(6) != 0) yarn.label.mass = support::grams(one_of<double>({50, 100}));
        if (below(4) != 0) yarn.weight = yarn::WeightClass{static_cast<int>(below(4))};
        stash::Skein skein = support::whole("s" + std::to_string(number), yarn, "");
        skein.colourway = one_of<std::string>({"", "Moss", "moss", "Blå", "BLÅ", "Teal"});
        skein.part = below(3) == 0;
        if (below(2) == 0) skein.weighing = support::weighed(5 + below(90), 1);
        if (below(9) == 0) skein.set_aside.emplace_back().project = "Hat";
        return skein;
    }

    project::Role any_role() {
        project::Role role = support::role("MC");
        if (below(2) == 0) role.name = one_of<std::string>({"Kelpie", "ОВЕЧКА", "Nobody"});
        if (below(3) == 0) role.colour = one_of<std::string>({"moss", "blå", "Rust"});
        if (below(2) == 0) role.weight = yarn::WeightClass{static_cast<int>(below(4))};
        if (below(2) == 0)
            role.grist = support::grist(std::to_string(100 + below(400)) + " m / 100 g");
        return role;
    }

    const std::uint32_t seed_ = support::seed();
    std::mt19937 random_{seed_};
};

TEST_F(ShelfProperty, WhatIsFoundIsWhatEverySkeinInTurnWouldGive) {
    constexpr units::Length tails = 0.3 * units::metre;
    for (int instance = 0; instance < 300; ++instance) {
        SCOPED_TRACE("seed " + std::to_string(seed_) + ", instance " + std::to_string(instance));
        std::vector<stash::Skein> stash;
        for (unsigned i = below(40); i > 0; --i) stash.push_back(any_skein(i));
        const cover::Shelf shelf(stash);
        for (int asked = 0; asked < 5; ++asked) {
            const project::Role role = any_role();
            std::vector<const stash::Skein*> expected;
            for (const stash::Skein& skein : stash) {
                const auto one = cover::candidate_for(role, tails, skein, "Cowl");
                if (one.supply || one.only_unweighed || one.only_unmeasured) expected.push_back(&skein);
            }
            std::vector<const stash::Skein*> found;
            for (const cover::Candidate& one : candidates_for(role, tails, shelf, "Cowl"))
                found.push_back(one.skein);
            EXPECT_EQ(found, expected);
        }
    }
}

// The answer names the reason of every skein, though it does not carry them.
TEST_F(ShelfProperty, EverySkeinHasAReasonOrMayServe) {
    std::vector<stash::Skein> stash;
    for (unsigned i = 60; i > 0; --i) stash.push_back(any_skein(i));
    project::Role role = support::role("MC");
    role.name = "Kelpie";
    const cover::RoleCover cover =
        cover::cover_role(role, support::need_of_length(500, 10), stash, {});
    const auto all = cover::every_candidate(cover);
    ASSERT_EQ(all.size(), stash.size()) << "seed " << seed_;
    EXPECT_LT(cover.candidates.size(), stash.size());
    for (std::size_t i = 0; i < all.size(); ++i) {
        EXPECT_EQ(all[i].skein, &stash[i]);
        const bool has_reason = stated(all[i].reason);
        EXPECT_TRUE(all[i].supply || has_reason) << "seed " << seed_ << ", " << stash[i].id;
    }
}

}  // namespace
