// Cases from the XDG Base Directory Specification, version 0.8: default $HOME/.local/share, an
// empty variable counts as unset, a relative path is invalid and ignored.

#include "skeinfall/store/location.hpp"

#include <gmock/gmock.h>

#include "skeinfall/base/problem.hpp"

namespace skeinfall::store_tests {
namespace {

using store::default_path;

TEST(Location, FollowsTheDataFolder) {
    EXPECT_EQ(default_path({"/data", "/home/ada"}), "/data/skeinfall/stash.skeinfall");
    EXPECT_EQ(default_path({"/data", std::nullopt}), "/data/skeinfall/stash.skeinfall");
}

TEST(Location, FallsBackOnHome) {
    const std::filesystem::path wanted = "/home/ada/.local/share/skeinfall/stash.skeinfall";
    EXPECT_EQ(default_path({std::nullopt, "/home/ada"}), wanted);
    EXPECT_EQ(default_path({"", "/home/ada"}), wanted);
    EXPECT_EQ(default_path({"data", "/home/ada"}), wanted);
}

TEST(Location, WithoutAnAbsolutePathThereIsNone) {
    for (const std::optional<std::string>& home :
         {std::optional<std::string>(), std::optional<std::string>(""),
          std::optional<std::string>("ada")}) {
        try {
            static_cast<void>(default_path({std::nullopt, home}));
            ADD_FAILURE() << "a path was made up";
        } catch (const base::StoreError& error) {
            EXPECT_THAT(error.what(), testing::HasSubstr("HOME"));
            EXPECT_FALSE(error.problem().remedy.empty());
        }
    }
}

}  // namespace
}  // namespace skeinfall::store_tests
