// What was entered is never told as failed: trying again would count it twice.

#include <array>
#include <chrono>
#include <filesystem>
#include <sstream>
#include <streambuf>
#include <string>
#include <vector>

#include <fcntl.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <stdlib.h>
#include <sys/wait.h>
#include <unistd.h>

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

/// A folder with a stash and commands that are run on it.
class KeptAnswer : public testing::Test {
  protected:
    KeptAnswer() {
        EXPECT_NE(mkdtemp(folder_.data()), nullptr);
        world_.stash = folder_ + "/stash";
        world_.today = std::chrono::year{2024} / 5 / 31;
        world_.err = &err_;
    }
    ~KeptAnswer() override { std::filesystem::remove_all(folder_); }
    KeptAnswer(const KeptAnswer&) = delete;
    KeptAnswer(KeptAnswer&&) = delete;
    KeptAnswer& operator=(const KeptAnswer&) = delete;
    KeptAnswer& operator=(KeptAnswer&&) = delete;

    int lost(const std::vector<std::string>& command) {
        Full full;
        std::ostream nowhere(&full);
        world_.out = &nowhere;
        err_.str("");
        return run(command, world_);
    }
    int answered(const std::vector<std::string>& command) {
        world_.out = &out_;
        err_.str("");
        out_.str("");
        return run(command, world_);
    }
    std::string ids() {
        answered({"stash", "list", "--ids"});
        return out_.str();
    }

    std::string folder_ =
        (std::filesystem::temp_directory_path() / "skeinfall-kept-XXXXXX").string();
    World world_;
    std::ostringstream out_;
    std::ostringstream err_;
    const std::vector<std::string> add_ = {"stash", "add",     "--yarn",
                                           "Fern",  "--label", "100 m / 50 g"};
};

TEST_F(KeptAnswer, IsAskedAboutWhenTheSameCommandComesAgain) {
    EXPECT_EQ(lost(add_), bad_input);
    EXPECT_EQ(answered(add_), bad_input);
    EXPECT_THAT(err_.str(), HasSubstr("this was entered already on 2024-05-31 (s1); only its "
                                      "answer could not be printed"));
    EXPECT_THAT(err_.str(), HasSubstr("\"skeinfall stash history s1\" shows it"));
    EXPECT_EQ(ids(), "s1\n");
    // Still, and however quietly.
    auto quietly = add_;
    quietly.emplace_back("-q");
    EXPECT_EQ(answered(quietly), bad_input);
    auto again = add_;
    again.emplace_back("--again");
    EXPECT_EQ(answered(again), done);
    EXPECT_EQ(ids(), "s1\ns2\n");
}

TEST_F(KeptAnswer, OfTwoHonestUsesAlikeIsTwo) {
    const std::vector<std::string> use = {"stash", "use", "s1", "10 m", "--in", "Hat"};
    EXPECT_EQ(answered(add_), done);
    EXPECT_EQ(answered(use), done);
    EXPECT_EQ(answered(use), done);
    EXPECT_EQ(lost(use), bad_input);
    // Another command is not asked about, nor the same once it was settled.
    EXPECT_EQ(answered({"stash", "use", "s1", "11 m", "--in", "Hat"}), done);
    std::istringstream yes("yes\n");
    world_.in = &yes;
    EXPECT_EQ(answered(use), done);
    EXPECT_THAT(err_.str(), HasSubstr("Enter it a second time (yes or no)?"));
    world_.in = nullptr;
    EXPECT_EQ(answered(use), done);
    answered({"stash", "show", "s1"});
    EXPECT_THAT(out_.str(), HasSubstr("39 m"));  // 100 - 5 * 10 - 11
}

TEST_F(KeptAnswer, CountsOnceForWhoSaysNo) {
    EXPECT_EQ(lost(add_), bad_input);
    std::istringstream no("no\n");
    world_.in = &no;
    EXPECT_EQ(answered(add_), bad_input);
    EXPECT_THAT(err_.str(), HasSubstr("nothing was entered now"));
    EXPECT_EQ(ids(), "s1\n");
}

TEST_F(KeptAnswer, OfUndoingDoesNotUndoTwoEntries) {
    EXPECT_EQ(answered(add_), done);
    EXPECT_EQ(answered(add_), done);
    EXPECT_EQ(lost({"stash", "undo"}), bad_input);
    EXPECT_EQ(answered({"stash", "undo"}), bad_input);
    EXPECT_EQ(ids(), "s1\n");
    // What was undone since is not asked about.
    EXPECT_EQ(lost(add_), bad_input);
    EXPECT_EQ(answered({"stash", "undo", "--again"}), done);
    EXPECT_EQ(answered(add_), done);
    EXPECT_EQ(ids(), "s1\ns4\n");
}

// A reader of the output that has gone away ends most programs silently.
TEST_F(KeptAnswer, IsNotLostToAClosedPipe) {
    const std::string program = SKEINFALL_BINARY_DIR "/cli/skeinfall";
    std::array<int, 2> ends{};
    ASSERT_EQ(pipe(ends.data()), 0);
    close(ends[0]);
    const pid_t child = fork();
    if (child == 0) {
        dup2(ends[1], STDOUT_FILENO);
        const int nowhere = open("/dev/null", O_WRONLY);
        dup2(nowhere, STDERR_FILENO);
        execl(program.c_str(), program.c_str(), "stash", "add", "--yarn", "Fern", "--label",
              "100 m / 50 g", "--stash", world_.stash->c_str(), nullptr);
        _exit(127);
    }
    close(ends[1]);
    int status = 0;
    waitpid(child, &status, 0);
    EXPECT_TRUE(WIFEXITED(status) && WEXITSTATUS(status) == bad_input) << status;
    auto same = add_;
    same.insert(same.end(), {"--stash", *world_.stash});
    EXPECT_EQ(answered(same), bad_input);
    EXPECT_EQ(ids(), "s1\n");
}

// A large stash is checked whole by `stash verify` alone.
TEST_F(KeptAnswer, OfALargeStashSaysWhenItWasNotCheckedForAMonth) {
    auto large = add_;
    large.insert(large.end(), {"--count", "1000", "--note", std::string(199, 'x')});
    for (int i = 0; i < 3; ++i) EXPECT_EQ(answered(large), done);
    EXPECT_EQ(answered({"stash", "list"}), done);
    EXPECT_EQ(err_.str(), "");
    world_.today = std::chrono::year{2024} / 7 / 2;
    EXPECT_EQ(answered({"stash", "list"}), done);
    EXPECT_EQ(err_.str(),
              "note: this stash was not checked whole since 2024-05-31: run \"skeinfall stash "
              "verify\"\n");
    EXPECT_EQ(answered({"stash", "verify"}), done);
    EXPECT_EQ(answered({"stash", "list"}), done);
    EXPECT_EQ(err_.str(), "");
}

TEST(KeptAnswerAtAll, IsToldWhereItCannotBePrinted) {
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
    EXPECT_THAT(err.str(), HasSubstr("is kept: do not enter it again"));
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
