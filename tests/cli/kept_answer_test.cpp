// What was entered is never told as failed: trying again would count it twice.

#include <filesystem>
#include <sstream>
#include <streambuf>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <stdlib.h>

#include "exit_code.hpp"
#include "run.hpp"

namespace skeinfall::cli {
namespace {

using testing::HasSubstr;
using testing::Not;

/// As /dev/full.
class Full : public std::streambuf {
  protected:
    int_type overflow(int_type) override { return traits_type::eof(); }
    int sync() override { return -1; }
};

TEST(KeptAnswer, IsToldWhereItCannotBePrinted) {
    std::string folder =
        (std::filesystem::temp_directory_path() / "skeinfall-kept-XXXXXX").string();
    ASSERT_NE(mkdtemp(folder.data()), nullptr);
    Full full;
    std::ostream nowhere(&full);
    std::ostringstream out;
    std::ostringstream err;
    World world;
    world.stash = folder + "/stash";
    world.err = &err;
    world.out = &nowhere;
    EXPECT_EQ(run({"stash", "add", "--yarn", "Fern", "--label", "100 m / 50 g"}, world), bad_input);
    EXPECT_THAT(err.str(), HasSubstr("is kept all the same: do not enter it again"));
    err.str("");
    nowhere.clear();
    EXPECT_EQ(run({"stash", "list"}, world), bad_input);
    EXPECT_THAT(err.str(), HasSubstr("could not be written"));
    EXPECT_THAT(err.str(), Not(HasSubstr("is kept")));
    world.out = &out;
    EXPECT_EQ(run({"stash", "list", "--ids"}, world), done);
    EXPECT_EQ(out.str(), "s1\n");
    std::filesystem::remove_all(folder);
}

}  // namespace
}  // namespace skeinfall::cli
