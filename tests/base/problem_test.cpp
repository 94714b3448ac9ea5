// Problems: how they are worded, in which order, and what throws them.

#include "skeinfall/base/problem.hpp"

#include <gtest/gtest.h>

#include "skeinfall/base/result.hpp"
#include "skeinfall/base/version.hpp"

namespace {

using skeinfall::base::InputError;
using skeinfall::base::Problem;
using skeinfall::base::Problems;
using skeinfall::base::Result;
using skeinfall::base::StoreError;
using skeinfall::base::to_text;

Problem at(const std::string& file, std::size_t line, std::size_t column) {
    return {"wrong", {file, line, column}, "", ""};
}

TEST(Problem, SaysWhereWhatExpectedAndRemedy) {
    EXPECT_EQ(to_text(Problem{"no hook", {"shawl.toml", 3, 7}, "a size in mm", "Add \"5 mm\"."}),
              "shawl.toml:3:7: no hook; expected a size in mm\n    Add \"5 mm\".");
}

TEST(Problem, LeavesOutWhatIsNotKnown) {
    EXPECT_EQ(to_text(at("", 0, 0)), "wrong");
    EXPECT_EQ(to_text(at("a.csv", 0, 0)), "a.csv: wrong");
    EXPECT_EQ(to_text(at("a.csv", 2, 0)), "a.csv:2: wrong");
    EXPECT_EQ(to_text(at("", 0, 5)), "wrong");
    EXPECT_EQ(to_text(at("--need", 0, 5)), "--need: wrong");
    EXPECT_EQ(to_text(Problem{"wrong", {}, "", "Do so."}), "wrong\n    Do so.");
}

TEST(Problem, AListIsSortedByFileLineAndColumn) {
    EXPECT_EQ(to_text(Problems{at("b", 1, 1), at("a", 10, 1), at("a", 9, 2), at("a", 9, 1)}),
              "a:9:1: wrong\na:9:2: wrong\na:10:1: wrong\nb:1:1: wrong");
    EXPECT_EQ(to_text(Problems{}), "");
}

TEST(Problem, ProblemsAtOnePlaceKeepTheirOrder) {
    const Problems two{{"second found first", {"a", 1, 1}, "", ""},
                       {"after it", {"a", 1, 1}, "", ""}};
    EXPECT_EQ(to_text(two), "a:1:1: second found first\na:1:1: after it");
}

TEST(Problem, ErrorsCarryThem) {
    const InputError input(Problems{at("a", 1, 1), at("a", 2, 1)});
    EXPECT_EQ(input.problems().size(), 2U);
    EXPECT_STREQ(input.what(), "a:1:1: wrong\na:2:1: wrong");
    const StoreError store(at("s", 0, 0));
    EXPECT_EQ(store.problem().place.file, "s");
    EXPECT_STREQ(store.what(), "s: wrong");
}

TEST(Problem, CannotSteerTheTerminal) {
    const InputError error(Problem{
        "what \x1b[31m", {.file = "f\x1b", .line = 1, .column = 2}, "e\x07", "r\x1b\nnext"});
    EXPECT_STREQ(error.what(), "f\\x1b:1:2: what \\x1b[31m; expected e\\x07\n    r\\x1b\nnext");
}

TEST(Result, HoldsAValueOrAProblem) {
    const Result<int> good(7);
    ASSERT_TRUE(good.ok());
    EXPECT_TRUE(static_cast<bool>(good));
    EXPECT_EQ(good.value(), 7);
    EXPECT_EQ(*good, 7);
    const Result<std::string> text(std::string("abc"));
    EXPECT_EQ(text->size(), 3U);

    const Result<int> bad(at("f", 4, 2));
    ASSERT_FALSE(bad.ok());
    EXPECT_FALSE(static_cast<bool>(bad));
    EXPECT_EQ(bad.problem().place.line, 4U);
    EXPECT_THROW(static_cast<void>(bad.value()), InputError);
    EXPECT_THROW(static_cast<void>(*bad), InputError);
}

TEST(Version, IsThreeNumbers) {
    int stops = 0;
    for (const char c : skeinfall::base::version()) {
        ASSERT_TRUE(c == '.' || (c >= '0' && c <= '9')) << skeinfall::base::version();
        stops += c == '.' ? 1 : 0;
    }
    EXPECT_EQ(stops, 2);
}

}  // namespace
