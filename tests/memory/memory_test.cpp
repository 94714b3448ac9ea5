// Memory runs out at one allocation after the other of the main commands: each ends in one clear
// line, and the stash is as it was before or after. Each try is a process of its own, forked from
// this one; the C library's own allocation stands behind ours, which fails once.

#include <atomic>
#include <cerrno>
#include <chrono>
#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <sstream>
#include <string>
#include <vector>

#include <fcntl.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include "skeinfall/store/care.hpp"
#include "skeinfall/store/store.hpp"

#include "exit_code.hpp"
#include "run.hpp"
#include "support/seed.hpp"

#if !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)

namespace {
std::atomic<std::int64_t> to_go = -1;  // allocations until one fails; below 0: none does
std::atomic<std::int64_t> asked = 0;

bool fails() {
    ++asked;
    if (to_go < 0) return false;
    return to_go-- == 0;
}
}  // namespace

extern "C" {
void* __libc_malloc(std::size_t size);
void* __libc_calloc(std::size_t count, std::size_t size);
void* __libc_realloc(void* old, std::size_t size);

void* malloc(std::size_t size) {
    if (fails()) {
        errno = ENOMEM;
        return nullptr;
    }
    return __libc_malloc(size);
}
void* calloc(std::size_t count, std::size_t size) {
    if (fails()) {
        errno = ENOMEM;
        return nullptr;
    }
    return __libc_calloc(count, size);
}
void* realloc(void* old, std::size_t size) {
    if (fails()) {
        errno = ENOMEM;
        return nullptr;
    }
    return __libc_realloc(old, size);
}
}

namespace skeinfall::cli {
namespace {

namespace fs = std::filesystem;

std::string bytes_of(const fs::path& path) {
    std::ifstream in(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

/// A message that a person can act on, in a buffer of its own that needs no memory to grow.
struct Outcome {
    bool ended = false;  ///< by itself, not by a signal
    int code = 0;
    bool failed_once = false;
    std::string err;
};

class MemoryRunsOut : public testing::Test {
  protected:
    MemoryRunsOut() {
        EXPECT_NE(mkdtemp(folder_.data()), nullptr);
        world_.stash = folder_ + "/stash";
        world_.today = std::chrono::year{2024} / 5 / 31;
        std::ofstream(folder_ + "/in.csv")
            << "yarn,colourway,dye_lot,label_length,label_mass,state,weighed,scale\n"
               "Fern,green,7,100 m,50 g,whole,,\nFern,green,,100 m,50 g,part,20 g,1 g\n"
               "Gorse,,8,120 yd,3.5 oz,whole,,\n";
        std::ofstream(folder_ + "/hat.toml")
            << "title = 'Hat'\ncraft = 'crochet'\n[gauge]\nstitches = '20 per 10 cm'\n"
               "rows = '20 per 10 cm'\nstitch = 'sc'\n[yarn.MC]\ngrist = '100 m / 50 g'\n"
               "[[piece]]\nname = 'body'\nstitches = 40\nrows = 30\n";
        EXPECT_EQ(quietly({"stash", "import", folder_ + "/in.csv"}), done);
    }
    ~MemoryRunsOut() override { fs::remove_all(folder_); }
    MemoryRunsOut(const MemoryRunsOut&) = delete;
    MemoryRunsOut(MemoryRunsOut&&) = delete;
    MemoryRunsOut& operator=(const MemoryRunsOut&) = delete;
    MemoryRunsOut& operator=(MemoryRunsOut&&) = delete;

    int quietly(const std::vector<std::string>& command) {
        std::ostringstream out;
        World world = world_;
        world.out = &out;
        world.err = &out;
        return run(command, world);
    }

    /// In a child, with the allocation of that number failing.
    Outcome tried(const std::vector<std::string>& command, std::int64_t number) {
        const std::string said = folder_ + "/said";
        const pid_t child = fork();
        if (child == 0) {
            std::ofstream err(said, std::ios::trunc);
            dup2(open(said.c_str(), O_WRONLY | O_APPEND), STDERR_FILENO);
            std::ofstream out("/dev/null");
            World world = world_;
            world.out = &out;
            world.err = &err;
            to_go = number;
            const int code = run(command, world);
            const bool used = to_go < 0;
            to_go = -1;
            err.close();
            _exit(code + (used ? 0 : 100));
        }
        int status = 0;
        waitpid(child, &status, 0);
        Outcome outcome;
        outcome.ended = WIFEXITED(status);
        outcome.code = outcome.ended ? WEXITSTATUS(status) % 100 : WTERMSIG(status);
        outcome.failed_once = outcome.ended && WEXITSTATUS(status) < 100;
        outcome.err = bytes_of(said);
        return outcome;
    }

    std::int64_t allocations_of(const std::vector<std::string>& command) {
        const std::int64_t before = asked;
        quietly(command);
        return asked - before;
    }

    /// `drawing`: other libraries may then end the program, but not harm the stash.
    void expect_to_hold(const std::vector<std::string>& command, bool writes,
                        bool drawing = false) {
        SCOPED_TRACE(testing::PrintToString(command));
        const fs::path stash = *world_.stash;
        const std::string before = bytes_of(stash);
        quietly(command);  // once, so that what is made but once is there
        put_back(stash, before);
        const std::int64_t all = allocations_of(command);
        const std::size_t now = store::Store::open(stash, store::Access::read).movements().size();
        put_back(stash, before);
        const std::size_t then = store::Store::open(stash, store::Access::read).movements().size();
        EXPECT_EQ(now != then, writes);
        const char* const told = std::getenv("SKEINFALL_TRIES");
        const std::int64_t tries = told != nullptr ? std::strtoll(told, nullptr, 10) : 40;
        const char* const one = std::getenv("SKEINFALL_ALLOCATION");  // to look at one again
        std::mt19937 chance(support::seed());
        const std::int64_t step = std::max<std::int64_t>(1, all / tries);
        for (std::int64_t number = static_cast<std::int64_t>(chance()) % step; number < all;
             number += step) {
            if (one != nullptr) number = std::strtoll(one, nullptr, 10);
            SCOPED_TRACE("allocation " + std::to_string(number) + " of " + std::to_string(all));
            const Outcome outcome = tried(command, number);
            EXPECT_TRUE(outcome.ended || drawing) << "signal " << outcome.code << "\n"
                                                  << outcome.err;
            if (!outcome.ended && !drawing) return;
            // What is made again without it, as a cache, does not fail a command.
            if (outcome.code != done && outcome.failed_once && !drawing) {
                EXPECT_EQ(outcome.code, bad_input) << outcome.err;
                EXPECT_THAT(outcome.err, testing::HasSubstr("memory ran out"));
            }
            EXPECT_TRUE(store::verify(stash).empty());
            const auto kept = store::Store::open(stash, store::Access::read).movements().size();
            EXPECT_TRUE(kept == then || kept == now) << kept;
            EXPECT_TRUE(outcome.code != done || !outcome.ended || kept == now);
            if (HasFailure() || one != nullptr) return;
            put_back(stash, before);
        }
    }

    static void put_back(const fs::path& stash, const std::string& bytes) {
        for (const char* end : {"-wal", "-shm", "-journal"}) fs::remove(stash.string() + end);
        std::ofstream(stash, std::ios::binary | std::ios::trunc) << bytes;
    }

    std::string folder_ = (fs::temp_directory_path() / "skeinfall-memory-XXXXXX").string();
    World world_;
};

TEST_F(MemoryRunsOut, WhileTheStashChanges) {
    expect_to_hold({"stash", "add", "--yarn", "Moss", "--label", "100 m / 50 g"}, true);
    expect_to_hold({"stash", "use", "s1", "10 m", "--in", "Hat"}, true);
    expect_to_hold({"stash", "import", folder_ + "/in.csv", "--as-new"}, true);
    expect_to_hold({"stash", "set-aside", folder_ + "/hat.toml"}, true);
}

// The JSON library asks for memory where it frees a tree, and cannot throw there.
TEST_F(MemoryRunsOut, WhileATreeIsFreed) {
    const std::vector<std::string> command{"stash", "export", "--format", "json"};
    quietly(command);
    const std::int64_t all = allocations_of(command);
    for (std::int64_t number = std::max<std::int64_t>(0, all - 100); number < all; ++number) {
        SCOPED_TRACE("allocation " + std::to_string(number) + " of " + std::to_string(all));
        const Outcome outcome = tried(command, number);
        ASSERT_TRUE(outcome.ended) << "signal " << outcome.code << "\n" << outcome.err;
        if (outcome.code == done) continue;
        EXPECT_EQ(outcome.code, bad_input);
        EXPECT_THAT(outcome.err, testing::HasSubstr("memory ran out"));
    }
}

TEST_F(MemoryRunsOut, WhileItIsRead) {
    expect_to_hold({"stash", "list"}, false);
    expect_to_hold({"stash", "export", "--format", "json"}, false);
    expect_to_hold({"stash", "verify"}, false);
    expect_to_hold({"stash", "rescue"}, false);
    expect_to_hold({"need", folder_ + "/hat.toml"}, false);
    expect_to_hold({"cover", folder_ + "/hat.toml"}, false);
    expect_to_hold({"joins", folder_ + "/hat.toml"}, false);
}

TEST_F(MemoryRunsOut, WhileItIsDrawn) {
    expect_to_hold({"report", folder_ + "/hat.toml", "--html", folder_ + "/hat.html", "--replace"},
                   false, true);
    expect_to_hold({"report", folder_ + "/hat.toml", "--pdf", folder_ + "/hat.pdf", "--replace"},
                   false, true);
}

// Where there is not enough to draw with, that is told before drawing begins.
TEST_F(MemoryRunsOut, BeforeItIsDrawn) {
    const std::string program = SKEINFALL_BINARY_DIR "/cli/skeinfall";
    for (const std::string kind : {"--html", "--pdf"}) {
        const std::string said = folder_ + "/said";
        const std::string line = "ulimit -v 100000; " + program + " report " + folder_ +
                                 "/hat.toml " + kind + " " + folder_ + "/hat.out --stash " +
                                 *world_.stash + " 2> " + said;
        const int status = std::system(("bash -c '" + line + "'").c_str());
        EXPECT_EQ(WEXITSTATUS(status), bad_input);
        EXPECT_EQ(bytes_of(said),
                  "skeinfall: memory ran out. Close other programs, or ask for less at once.\n");
        EXPECT_FALSE(fs::exists(folder_ + "/hat.out"));
    }
}

}  // namespace
}  // namespace skeinfall::cli

#endif
