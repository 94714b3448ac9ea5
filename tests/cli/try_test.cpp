// `skeinfall try` shows the main job and leaves nothing behind.

#include <cstdlib>
#include <filesystem>
#include <sstream>
#include <string>

#include <gtest/gtest.h>

#include "run.hpp"

namespace {

namespace fs = std::filesystem;

TEST(Try, ShowsTheMainJobAndKeepsNothing) {
    const fs::path folder = fs::path(SKEINFALL_BINARY_DIR) / "cases/try";
    fs::remove_all(folder);
    fs::create_directories(folder / "tmp");
    setenv("TMPDIR", (folder / "tmp").c_str(), 1);
    std::ostringstream out;
    std::ostringstream err;
    skeinfall::cli::World world;
    world.home = (folder / "home").string();
    world.stash = (folder / "stash.skeinfall").string();
    world.out = &out;
    world.err = &err;
    EXPECT_EQ(skeinfall::cli::run({"try"}, world), 0);
    unsetenv("TMPDIR");
    for (const char* stage :
         {"$ skeinfall stash import stash.csv\nadded 52 skeins to stash.skeinfall\n",
          "$ skeinfall cover projects/lantern-cowl.toml\ncovered: Lantern cowl\n",
          "$ skeinfall joins projects/lantern-cowl.toml\n1 join: Lantern cowl\n",
          "$ skeinfall materials projects/lantern-cowl.toml\nLantern cowl: materials\n",
          "$ skeinfall cover projects/long-ferry-wrap.toml\ntoo close to call: Long Ferry wrap\n",
          "\nThat was a sample, and it is gone."})
        EXPECT_NE(out.str().find(stage), std::string::npos) << stage << "\n" << out.str();
    EXPECT_EQ(err.str(), "");
    EXPECT_TRUE(fs::is_empty(folder / "tmp"));
    EXPECT_FALSE(fs::exists(folder / "home"));
    EXPECT_FALSE(fs::exists(folder / "stash.skeinfall"));
}

}  // namespace
