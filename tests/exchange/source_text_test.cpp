#include "skeinfall/exchange/source_text.hpp"

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include "skeinfall/exchange/problem_list.hpp"
#include "skeinfall/exchange/text_file.hpp"

#include "problems_of.hpp"

namespace skeinfall::exchange {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

TEST(SourceText, PlacesCountBytesFromOne) {
    const SourceText source("ab\n\xc3\xa9x\n", "f");
    EXPECT_EQ(source.place(0), (base::Place{"f", 1, 1}));
    EXPECT_EQ(source.place(2), (base::Place{"f", 1, 3}));
    EXPECT_EQ(source.place(3), (base::Place{"f", 2, 1}));
    EXPECT_EQ(source.place(5), (base::Place{"f", 2, 3}));
    EXPECT_EQ(source.place(7), (base::Place{"f", 3, 1}));
    EXPECT_EQ(source.place(99), (base::Place{"f", 3, 1}));
}

TEST(SourceText, ByteOrderMarkTakesNoColumn) {
    const SourceText source(
        "\xef\xbb\xbf"
        "ab",
        "f");
    EXPECT_EQ(source.text(), "ab");
    EXPECT_EQ(source.place(1), (base::Place{"f", 1, 2}));
}

TEST(SourceText, CharactersBecomeBytes) {
    const SourceText source("a\n\xc3\xa9\xe2\x82\xacx", "f");
    EXPECT_EQ(source.offset(1, 1), 0U);
    EXPECT_EQ(source.offset(2, 1), 2U);
    EXPECT_EQ(source.offset(2, 2), 4U);
    EXPECT_EQ(source.offset(2, 3), 7U);
    EXPECT_EQ(source.offset(2, 4), 8U);
    EXPECT_EQ(source.offset(9, 1), 8U);
}

TEST(SourceText, PlaceInsideAValueThatIsNotWrittenOutIsItsStart) {
    const SourceText source("\"a\"\"b\",'cd',ef", "f");
    EXPECT_EQ(source.place_inside(0, "a\"b", 2).column, 1U);
    EXPECT_EQ(source.place_inside(7, "cd", 1).column, 10U);
    EXPECT_EQ(source.place_inside(12, "ef", 1).column, 14U);
}

// The place of every character is found again from its line and its number in the line.
RC_GTEST_PROP(SourceTextProperty, CharacterColumnsLeadBackToTheOffset, ()) {
    const auto pieces = *rc::gen::container<std::vector<std::string>>(
        rc::gen::element<std::string>("a", "\n", "\xc3\xa9", "\xe2\x82\xac", "0123456789"));
    std::string text;
    for (int round = 0; round < 20; ++round)
        for (const std::string& piece : pieces) text += piece;
    const SourceText source(text, "f");
    std::size_t line = 1;
    std::size_t character = 1;
    for (std::size_t at = 0; at < text.size(); ++at) {
        if ((static_cast<unsigned char>(text[at]) & 0xc0U) == 0x80U) continue;
        RC_ASSERT(source.offset(line, character) == at);
        RC_ASSERT(source.place(at).line == line);
        ++character;
        if (text[at] == '\n') {
            ++line;
            character = 1;
        }
    }
}

TEST(SourceText, FirstByteThatIsNotUtf8) {
    const SourceText source("ok\nx\xff", "f");
    ASSERT_TRUE(source.encoding_problem());
    EXPECT_EQ(to_text(*source.encoding_problem()),
              "f:2:2: a letter here is saved in an older way than UTF-8; expected plain text in "
              "UTF-8\n    Save the file again with the encoding UTF-8.");
}

TEST(TextFault, LengthAndControlCharacters) {
    EXPECT_FALSE(text_fault("caf\xc3\xa9", 5, false));
    EXPECT_EQ(text_fault("abcdef", 5, false), "\"abcdef\" has 6 bytes, more than 5");
    EXPECT_EQ(text_fault("a\x1b[2J", 9, true), "\"a\\x1b[2J\" has a control character in it");
    EXPECT_FALSE(text_fault("a\r\n\tb", 9, true));
    EXPECT_TRUE(text_fault("a\nb", 9, false));
    EXPECT_TRUE(text_fault("a\x7f", 9, true));
}

TEST(InQuotes, LongTextIsCutBetweenCharacters) {
    EXPECT_EQ(in_quotes(std::string(59, 'a') + "\xc3\xa9"
                                               "b"),
              "\"" + std::string(59, 'a') + "...\"");
    EXPECT_EQ(in_quotes(std::string(60, 'a')), "\"" + std::string(60, 'a') + "\"");
}

TEST(ProblemList, ComesInTheOrderOfPlacesAndStopsAtItsLimit) {
    ProblemList few;
    few.add({"late", {"f", 2, 1}, {}, {}});
    few.add({"early", {"f", 1, 9}, {}, {}});
    EXPECT_THAT(problems_of([&] {
                    few.throw_if_any();
                    return 0;
                }),
                ElementsAre("f:1:9: early", "f:2:1: late"));

    ProblemList many;
    const auto found = problems_of([&] {
        for (std::size_t line = ProblemList::most + 5; line > 0; --line)
            many.add({"x", {"f", line, 1}, {}, {}});
        return 0;
    });
    ASSERT_EQ(found.size(), ProblemList::most + 1);
    EXPECT_EQ(found.front(), "f:6:1: x");
    EXPECT_EQ(found.back(),
              "f:1005:1: there are more than 1000 mistakes\n"
              "    Mend these first; the others are shown after that.");
}

class TextFile : public testing::Test {
  protected:
    void SetUp() override {
        std::string name = (std::filesystem::temp_directory_path() / "skeinfall_XXXXXX").string();
        ASSERT_NE(mkdtemp(name.data()), nullptr);
        folder_ = name;
    }
    void TearDown() override { std::filesystem::remove_all(folder_); }

    [[nodiscard]] std::filesystem::path write(const std::string& text) const {
        const auto path = folder_ / "some.txt";
        std::ofstream(path, std::ios::binary) << text;
        return path;
    }

    std::filesystem::path folder_;
};

TEST_F(TextFile, BytesComeBackUnchanged) {
    const std::string text = std::string("a\r\n\0b", 5) + std::string(200'000, 'x');
    EXPECT_EQ(read_text_file(write(text)), text);
    EXPECT_EQ(read_text_file(write("")), "");
}

TEST_F(TextFile, LimitIsInclusive) {
    const auto path = write("12345");
    EXPECT_EQ(read_text_file(path, 5), "12345");
    EXPECT_THAT(problems_of([&] { return read_text_file(path, 4); }),
                ElementsAre(path.string() + ": the file is too large; expected at most 4 bytes\n"
                                            "    Check that it is the right file."));
}

TEST_F(TextFile, MissingFileAndFolder) {
    const auto missing = folder_ / "none.toml";
    EXPECT_THAT(problems_of([&] { return read_text_file(missing); }),
                ElementsAre(missing.string() + ": there is no such file\n"
                                               "    Check the name and the folder."));
    EXPECT_THAT(problems_of([&] { return read_text_file(folder_); }),
                ElementsAre(folder_.string() + ": this is a folder; expected a file"));
}

// Linux gives a file that opens and cannot be read: the memory of a process from address 0.
TEST_F(TextFile, UnreadableFile) {
    EXPECT_THAT(problems_of([] { return read_text_file("/proc/self/mem"); }),
                ElementsAre("/proc/self/mem: the file cannot be read\n"
                            "    Check that you are allowed to read it."));
}

}  // namespace
}  // namespace skeinfall::exchange
