// A file of another kind than is wanted is told by what it is.

#include "skeinfall/exchange/file_kind.hpp"

#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace skeinfall::exchange {
namespace {

using testing::HasSubstr;

std::string said_of(const std::string& bytes, const std::string& file, Wanted wanted) {
    const auto found = other_kind(bytes, file, wanted);
    return found ? to_text(*found) : std::string();
}

TEST(FileKind, ASheetIsForTheStash) {
    EXPECT_EQ(said_of("Brand,Name,Left\nTarnwick,Fell DK,62 g\n", "my sheet.csv", Wanted::project),
              "my sheet.csv: this is a table; expected a project file\n"
              "    To load it into the stash: skeinfall stash import \"my sheet.csv\"");
    EXPECT_THAT(said_of("a;b;c\n1;2;3\n", "s.csv", Wanted::pattern), HasSubstr("this is a table"));
}

TEST(FileKind, APatternIsRead) {
    const std::string pattern = "Ridge hat, for adults\n\nCh 20\nRow 1: sc across. (19)\n";
    EXPECT_THAT(said_of(pattern, "hat.txt", Wanted::project),
                HasSubstr("skeinfall read hat.txt --save pattern.toml"));
    EXPECT_EQ(said_of(pattern, "hat.txt", Wanted::pattern), "");
    EXPECT_EQ(said_of("Yarn, hook, scissors\nWorsted, 5 mm, any\n", "hat.txt", Wanted::pattern),
              "");
}

TEST(FileKind, AProjectWithASlipIsStillAProject) {
    EXPECT_EQ(said_of("title = Cowl\n[[piece]]\nrows = '''\nRow 1: knit\n'''\n", "c.toml",
                      Wanted::project),
              "");
    EXPECT_THAT(said_of("title = 'Cowl'\n", "c.toml", Wanted::pattern),
                HasSubstr("this is a project file"));
}

TEST(FileKind, AnEmptyFileBeginsWithQuestions) {
    EXPECT_THAT(said_of("\n# nothing\n", "e.toml", Wanted::project),
                HasSubstr("the file is empty"));
}

TEST(FileKind, WhatNoEditorWroteIsNamed) {
    EXPECT_THAT(said_of("%PDF-1.4 ...", "hat.pdf", Wanted::sheet), HasSubstr("this is a PDF"));
    EXPECT_THAT(said_of("PK\x03\x04zz", "hat.docx", Wanted::pattern),
                HasSubstr("document of an office program"));
    EXPECT_THAT(said_of("\xff\xfe"
                        "a",
                        "u.toml", Wanted::project),
                HasSubstr("UTF-16"));
    EXPECT_THAT(said_of("SQLite format 3 ...", "x.skeinfall", Wanted::project),
                HasSubstr("this is a stash"));
    EXPECT_THAT(said_of(std::string("\x7f"
                                    "ELF\0\0",
                                    6),
                        "p", Wanted::sheet),
                HasSubstr("a file for programs"));
}

}  // namespace
}  // namespace skeinfall::exchange
