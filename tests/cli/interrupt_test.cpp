// Ctrl-C at any moment: the program as a process of its own gets SIGINT, and what is on the disk
// is whole afterwards.

#include <chrono>
#include <csignal>
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <string>
#include <thread>
#include <vector>

#include <fcntl.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

namespace {

namespace fs = std::filesystem;

constexpr int rows = 4000;

class Interrupted : public testing::Test {
  protected:
    void SetUp() override {
        fs::remove_all(folder_);
        fs::create_directories(folder_);
        std::ofstream out(folder_ / "big.csv");
        out << "id,yarn,label_length,label_mass,state\n";
        for (int i = 0; i < rows; ++i) out << "b" << i << ",Bank,170 yd,3.5 oz,whole\n";
    }

    /// The exit code; -1 when SIGINT, sent after `delay`, ended it.
    int run(const std::vector<std::string>& arguments,
            std::chrono::milliseconds delay = std::chrono::minutes(5)) {
        const pid_t child = fork();
        if (child == 0) {
            const int log = open((folder_ / "log").c_str(), O_CREAT | O_TRUNC | O_WRONLY, 0644);
            dup2(log, STDOUT_FILENO);
            dup2(log, STDERR_FILENO);
            std::vector<std::string> words{program};
            words.insert(words.end(), arguments.begin(), arguments.end());
            std::vector<char*> pointers;
            for (std::string& word : words) pointers.push_back(word.data());
            pointers.push_back(nullptr);
            // A shell starts what it leaves in the background with interrupts ignored.
            std::signal(SIGINT, SIG_DFL);
            execv(program.c_str(), pointers.data());
            _exit(127);
        }
        const auto end = std::chrono::steady_clock::now() + delay;
        int status = 0;
        while (waitpid(child, &status, WNOHANG) == 0) {
            if (std::chrono::steady_clock::now() >= end) {
                kill(child, SIGINT);
                waitpid(child, &status, 0);
                break;
            }
            std::this_thread::sleep_for(std::chrono::milliseconds(1));
        }
        return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    }

    [[nodiscard]] std::string file(const std::string& name) const {
        return (folder_ / name).string();
    }

    std::int64_t skeins_in(const std::string& stash) {
        EXPECT_EQ(run({"stash", "list", "--ids", "--stash", stash}), 0);
        std::ifstream log(folder_ / "log");
        std::int64_t count = 0;
        for (std::string line; std::getline(log, line);) ++count;
        return count;
    }

    const std::string program = fs::path(SKEINFALL_BINARY_DIR) / "cli/skeinfall";
    const fs::path folder_ = fs::path(SKEINFALL_BINARY_DIR) / "cases/interrupted" /
                             testing::UnitTest::GetInstance()->current_test_info()->name();
};

TEST_F(Interrupted, AnImportIsThereInWholeOrNotAtAll) {
    int stopped = 0;
    for (const int delay : {5, 20, 40, 80, 160, 320}) {
        const std::string stash = file("stash" + std::to_string(delay) + ".skeinfall");
        ASSERT_EQ(run({"stash", "add", "--yarn", "First", "--id", "first", "--stash", stash}), 0);
        if (run({"stash", "import", file("big.csv"), "--stash", stash},
                std::chrono::milliseconds(delay)) == -1)
            ++stopped;
        EXPECT_EQ(run({"stash", "verify", "--stash", stash}), 0) << delay;
        const std::int64_t count = skeins_in(stash);
        EXPECT_TRUE(count == 1 || count == rows + 1) << count << " after " << delay << " ms";
    }
    EXPECT_GT(stopped, 0) << "nothing was interrupted";
}

TEST_F(Interrupted, ABackupIsWholeOrNotThere) {
    const std::string stash = file("stash.skeinfall");
    ASSERT_EQ(run({"stash", "import", file("big.csv"), "--stash", stash}), 0);
    int stopped = 0;
    for (const int delay : {2, 5, 10, 20, 40, 80, 160}) {
        const std::string copy = file("copy" + std::to_string(delay) + ".skeinfall");
        if (run({"stash", "backup", copy, "--stash", stash}, std::chrono::milliseconds(delay)) ==
            -1)
            ++stopped;
        if (fs::exists(copy)) {
            EXPECT_EQ(run({"stash", "verify", "--stash", copy}), 0) << delay;
        }
        EXPECT_EQ(run({"stash", "verify", "--stash", stash}), 0) << delay;
        // What was left half done does not stand in the way.
        if (!fs::exists(copy)) {
            EXPECT_EQ(run({"stash", "backup", copy, "--stash", stash}), 0);
        }
        EXPECT_EQ(skeins_in(copy), rows);
    }
    EXPECT_GT(stopped, 0) << "nothing was interrupted";
}

TEST_F(Interrupted, ATryLeavesNoFolder) {
    fs::create_directories(folder_ / "tmp");
    setenv("TMPDIR", file("tmp").c_str(), 1);
    for (const int delay : {5, 15, 30, 60, 120})
        static_cast<void>(run({"try"}, std::chrono::milliseconds(delay)));
    unsetenv("TMPDIR");
    // The keeper removes it once the program has ended, which nobody waits for.
    constexpr int tries = 500;
    for (int i = 0; i < tries && !fs::is_empty(folder_ / "tmp"); ++i)
        std::this_thread::sleep_for(std::chrono::milliseconds(20));
    EXPECT_TRUE(fs::is_empty(folder_ / "tmp"));
}

}  // namespace
