#include <algorithm>
#include <csignal>
#include <filesystem>
#include <string>
#include <thread>
#include <vector>

#include <fcntl.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/exchange/stash_csv.hpp"
#include "skeinfall/exchange/text_file.hpp"

namespace skeinfall::exchange {
namespace {

std::string data_file(const std::string& name) {
    return read_text_file(std::string(SKEINFALL_SOURCE_DIR) + "/tests/data/" + name);
}

/// The text with some of its bytes replaced, taken out or put in.
std::string damaged(std::string text) {
    const auto slips = *rc::gen::inRange(1, 6);
    for (int i = 0; i < slips && !text.empty(); ++i) {
        const auto at = *rc::gen::inRange<std::size_t>(0, text.size());
        const auto length = *rc::gen::inRange<std::size_t>(0, 4);
        const auto put = *rc::gen::element<std::string>(
            "", "0", "-", "9999999999", "\"", "'", "\n", ",", ".", "[", "]", "{", "=", "nan", "\\",
            "\xff", "\xc2\xbd", std::string(1, '\0'), "1e308", "#");
        text.replace(at, length, put);
    }
    return text;
}

/// True when the reading succeeds or tells what is wrong and where.
template <class Read>
bool reads_or_explains(Read read) {
    try {
        static_cast<void>(read());
        return true;
    } catch (const base::InputError& error) {
        for (const base::Problem& problem : error.problems())
            if (problem.what.empty() || problem.place.line == 0 || problem.place.column == 0)
                return false;
        return !error.problems().empty();
    }
}

RC_GTEST_PROP(Robustness, DamagedProjectReadsOrExplains, ()) {
    const std::string text = damaged(data_file("project.toml"));
    RC_ASSERT(reads_or_explains([&] { return parse_project(text, "p"); }));
}

RC_GTEST_PROP(Robustness, DamagedStashReadsOrExplains, ()) {
    const std::string text = damaged(data_file("stash.csv"));
    RC_ASSERT(reads_or_explains([&] { return parse_stash_csv(text, "s"); }));
}

TEST(Hostile, TomlReadsOrExplains) {
    const std::string begin = "title = \"t\"\ncraft = \"knit\"\n";
    const std::string with_yarn = begin + "[yarn.MC]\ntotal = ";
    const std::string many(100'000, '9');
    for (const std::string& text :
         {begin + "margin = nan", begin + "margin = -inf", begin + "margin = 1e999",
          begin + "margin = \"" + many + " %\"", with_yarn + "\"1e400 m\"", with_yarn + "\"nan m\"",
          with_yarn + "\"" + many + " m\"", with_yarn + many, with_yarn + "-9223372036854775808",
          begin + "skill = \"" + std::string(5'000'000, 'x') + "\"",
          "title = \"" + std::string(1'000'000, '\\'), begin + std::string(200'000, '['),
          begin + "a = " + std::string(200'000, '{'), begin + std::string(100'000, '.') + " = 1",
          begin + "[yarn.\"'); DROP TABLE skein; -- $(rm -r /) \\u001b[2J\"]\ntotal = \"1 m\"",
          begin + "sizes = [" + std::string(100'000, ',') + "]"})
        EXPECT_TRUE(reads_or_explains([&] { return parse_project(text, "p"); }))
            << text.substr(0, 80);
}

// A stream has no size to look at: reading stops at the limit, however much is still to come.
TEST(Hostile, AnEndlessStreamIsGivenUpAtTheLimit) {
    constexpr std::size_t limit = 1024 * 1024;
    const auto pipe =
        std::filesystem::temp_directory_path() / ("skeinfall-endless-" + std::to_string(getpid()));
    ASSERT_EQ(mkfifo(pipe.c_str(), 0600), 0);
    std::size_t sent = 0;
    std::thread sender([&] {
        signal(SIGPIPE, SIG_IGN);
        const int to = open(pipe.c_str(), O_WRONLY);
        const std::string row = "id,yarn\n" + std::string(4000, 'x') + "\n";
        for (ssize_t done = 1; done > 0;
             sent += static_cast<std::size_t>(std::max<ssize_t>(done, 0)))
            done = write(to, row.data(), row.size());
        close(to);
    });
    EXPECT_THROW(static_cast<void>(read_text_file(pipe, limit)), base::InputError);
    sender.join();
    std::filesystem::remove(pipe);
    EXPECT_GE(sent, limit);
    EXPECT_LE(sent, limit + 512 * 1024);  // with what a pipe holds
}

}  // namespace
}  // namespace skeinfall::exchange
