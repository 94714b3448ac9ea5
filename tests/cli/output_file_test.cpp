// Files that commands write at a person's wish: what they never do.

#include "output_file.hpp"

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "skeinfall/base/problem.hpp"

namespace skeinfall::cli {
namespace {

namespace fs = std::filesystem;
using testing::ElementsAre;
using testing::HasSubstr;

class OutputFile : public testing::Test {
  protected:
    OutputFile() {
        std::string name = (fs::temp_directory_path() / "skeinfall-output-XXXXXX").string();
        folder_ = mkdtemp(name.data());
        world_.stash = (folder_ / "mine").string();
    }
    ~OutputFile() override { fs::remove_all(folder_); }

    void put(const std::string& name, const std::string& bytes) const {
        std::ofstream(folder_ / name, std::ios::binary) << bytes;
    }
    [[nodiscard]] std::string bytes_of(const std::string& name) const {
        std::ifstream in(folder_ / name, std::ios::binary);
        return {std::istreambuf_iterator<char>(in), {}};
    }
    void write(const std::string& name, const std::string& bytes) const {
        write_output("html", (folder_ / name).string(), bytes, values_, world_);
    }
    [[nodiscard]] std::string refusal(const std::string& name, const std::string& bytes) const {
        try {
            write(name, bytes);
        } catch (const base::InputError& error) {
            return error.what();
        }
        return "was not refused";
    }
    [[nodiscard]] std::vector<std::string> listing() const {
        std::vector<std::string> names;
        for (const auto& entry : fs::directory_iterator(folder_))
            names.push_back(entry.path().filename().string());
        std::sort(names.begin(), names.end());
        return names;
    }

    fs::path folder_;
    Values values_;
    World world_;
};

const std::string page = "<!DOCTYPE html>\n<p>new";
const std::string database = std::string("SQLite format 3\0", 16) + "and so on";

TEST_F(OutputFile, ReplacesAnOlderPageAndLeavesNothingElse) {
    write("page", page);
    EXPECT_EQ(bytes_of("page"), page);
    put("page", "<!doctype html>\n<p>old");
    fs::permissions(folder_ / "page", fs::perms(0600));
    write("page", page);
    EXPECT_EQ(bytes_of("page"), page);
    EXPECT_EQ(fs::status(folder_ / "page").permissions(), fs::perms(0600));
    EXPECT_THAT(listing(), ElementsAre("page"));
}

TEST_F(OutputFile, NeverReplacesAStash) {
    put("other", database);
    put("mine", "a stash whose beginning is damaged");
    put("mine-wal", "what it was told last");
    values_.add("replace", "");
    for (const std::string name : {"other", "mine", "mine-wal"}) {
        const std::string before = bytes_of(name);
        EXPECT_THAT(refusal(name, page), HasSubstr("is a stash, or belongs to a database"));
        EXPECT_EQ(bytes_of(name), before);
    }
}

TEST_F(OutputFile, ReplacesAnotherKindOnlyWhenTold) {
    put("cowl.toml", "title = \"Cowl\"\n");
    EXPECT_THAT(refusal("cowl.toml", page), HasSubstr("--replace"));
    EXPECT_EQ(bytes_of("cowl.toml"), "title = \"Cowl\"\n");
    values_.add("replace", "");
    write("cowl.toml", page);
    EXPECT_EQ(bytes_of("cowl.toml"), page);
}

TEST_F(OutputFile, KeepsWhatIsNamedLikeAPart) {
    put("page.part", "mine");
    put("victim", "mine too");
    fs::create_symlink(folder_ / "victim", folder_ / "other.part");
    write("page", page);
    write("other", page);
    EXPECT_EQ(bytes_of("page.part"), "mine");
    EXPECT_EQ(bytes_of("victim"), "mine too");
    EXPECT_THAT(listing(), ElementsAre("other", "other.part", "page", "page.part", "victim"));
}

TEST_F(OutputFile, FollowsALinkAndKeepsIt) {
    put("there", page);
    fs::create_symlink(folder_ / "there", folder_ / "link");
    write("link", page + " more");
    EXPECT_TRUE(fs::is_symlink(folder_ / "link"));
    EXPECT_EQ(bytes_of("there"), page + " more");
    put("stash", database);
    fs::create_symlink(folder_ / "stash", folder_ / "to-stash");
    EXPECT_THAT(refusal("to-stash", page), HasSubstr("is a stash"));
}

// A limit on the size of files stands in for a full disk.
TEST_F(OutputFile, OnAFullDiskTheOldOneStays) {
    put("page", page);
    const pid_t child = fork();
    ASSERT_GE(child, 0);
    if (child == 0) {
        signal(SIGXFSZ, SIG_IGN);
        const rlimit tight{4096, 4096};
        setrlimit(RLIMIT_FSIZE, &tight);
        const bool refused =
            refusal("page", page + std::string(10000, 'x')).find("cannot be written") !=
            std::string::npos;
        _exit(refused ? 0 : 1);
    }
    int status = 0;
    ASSERT_EQ(waitpid(child, &status, 0), child);
    ASSERT_TRUE(WIFEXITED(status));
    EXPECT_EQ(WEXITSTATUS(status), 0);
    EXPECT_EQ(bytes_of("page"), page);
    EXPECT_THAT(listing(), ElementsAre("page"));
}

TEST_F(OutputFile, WritesToAPipe) {
    const fs::path pipe = folder_ / "pipe";
    ASSERT_EQ(mkfifo(pipe.c_str(), 0600), 0);
    const pid_t child = fork();
    ASSERT_GE(child, 0);
    if (child == 0) {
        std::ifstream in(pipe);
        const std::string got{std::istreambuf_iterator<char>(in), {}};
        _exit(got == page ? 0 : 1);
    }
    write("pipe", page);
    int status = 0;
    ASSERT_EQ(waitpid(child, &status, 0), child);
    EXPECT_EQ(WEXITSTATUS(status), 0);
}

}  // namespace
}  // namespace skeinfall::cli
