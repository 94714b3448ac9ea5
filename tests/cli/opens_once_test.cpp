// A large stash takes long to read: a question reads it once.

#include <chrono>
#include <filesystem>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <sqlite3.h>
#include <stdlib.h>

#include "exit_code.hpp"
#include "run.hpp"

namespace skeinfall::cli {
namespace {

int opened = 0;

int count_one(sqlite3* /*database*/, char** /*error*/, const void* /*routines*/) {
    ++opened;
    return SQLITE_OK;
}

TEST(OpensOnce, WhateverIsAskedWithoutNamingAYarn) {
    std::string folder =
        (std::filesystem::temp_directory_path() / "skeinfall-once-XXXXXX").string();
    ASSERT_NE(mkdtemp(folder.data()), nullptr);
    std::ostringstream out;
    World world;
    world.stash = folder + "/stash";
    world.out = &out;
    world.err = &out;
    world.today = std::chrono::year{2024} / 5 / 31;
    EXPECT_EQ(run({"stash", "add", "--yarn", "Fern", "--label", "100 m / 50 g"}, world), done);
    auto* const hook = reinterpret_cast<void (*)()>(count_one);
    sqlite3_auto_extension(hook);
    for (const std::vector<std::string>& command : std::vector<std::vector<std::string>>{
             {"stash", "list"}, {"stash", "show", "s1"}, {"cover", "--need", "50 m"}}) {
        opened = 0;
        run(command, world);
        EXPECT_EQ(opened, 1) << command.front() << " " << command[1] << "\n" << out.str();
    }
    sqlite3_cancel_auto_extension(hook);
    std::filesystem::remove_all(folder);
}

}  // namespace
}  // namespace skeinfall::cli
