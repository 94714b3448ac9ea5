// Completion and the manual page carry every command of the table; tests/shell runs them.

#include "completion.hpp"

#include <sstream>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "command.hpp"
#include "man_page.hpp"
#include "run.hpp"

namespace {

using namespace skeinfall;
using cli::Fits;
using testing::ElementsAre;
using testing::EndsWith;
using testing::HasSubstr;

cli::Command knot() {
    cli::Command command;
    command.name = "knot tie";
    command.arguments = "ID [AMOUNT] PLAN.toml...";
    command.summary = "ties 'em";
    command.purpose = "Ties. Two ends.\n.At once.\n  a table \\ of its own";
    command.options = {{"into", "FOLDER", "a folder: [this one]", false},
                       {"way", "NAME", "how", true, {"flat", "over hand"}},
                       {"tight", "", "pull", false}};
    return command;
}

TEST(Completion, ReadsWhatFitsFromTheSynopsis) {
    const auto places = cli::places_of(knot());
    ASSERT_EQ(places.size(), 3U);
    EXPECT_EQ(places[0].fits.kind, Fits::Kind::skein);
    EXPECT_EQ(places[1].name, "AMOUNT");
    EXPECT_EQ(places[1].fits.kind, Fits::Kind::anything);
    EXPECT_FALSE(places[1].repeated);
    EXPECT_EQ(places[2].fits.kind, Fits::Kind::file);
    EXPECT_EQ(places[2].fits.suffix, ".toml");
    EXPECT_TRUE(places[2].repeated);
    EXPECT_EQ(cli::fits_option(knot().options[0]).kind, Fits::Kind::folder);
    EXPECT_THAT(cli::fits_option(knot().options[1]).words, ElementsAre("flat", "over hand"));
    EXPECT_THAT(cli::groups_of({knot(), knot()}), ElementsAre("knot"));
}

TEST(Completion, QuotesForEachShell) {
    const std::vector<cli::Command> table{knot()};
    EXPECT_THAT(cli::bash_completion(table), HasSubstr("fits='word flat\nover hand'"));
    EXPECT_THAT(cli::zsh_completion(table), HasSubstr("'tie:ties '\\''em'"));
    EXPECT_THAT(cli::zsh_completion(table),
                HasSubstr("'--into=[a folder\\: \\[this one\\]]:FOLDER:_files -/'"));
    EXPECT_THAT(cli::zsh_completion(table), HasSubstr("(flat over\\ hand)"));
    EXPECT_THAT(cli::fish_completion(table), HasSubstr("-a tie -d 'ties \\'em'"));
}

TEST(ManPage, ShieldsRequestsAndEscapes) {
    const std::string page = cli::man_page({knot()});
    EXPECT_THAT(page, HasSubstr("\nTies.\nTwo ends.\n\\&.At once.\n"));
    EXPECT_THAT(page, HasSubstr("\n.Bd -literal -offset indent\na table \\e of its own\n.Ed\n"));
}

/// An option that takes a handful of values offers just those the command takes: the command
/// itself names them when it refuses another.
TEST(Completion, OffersTheFormatsEachCommandTakes) {
    int checked = 0;
    for (const cli::Command& command : cli::command_table())
        for (const cli::Option& option : command.options) {
            if (option.name != "format") continue;
            cli::Values values;
            values.add("format", "nosuch");
            std::string message;
            try {
                std::ostringstream out;
                cli::World world;
                world.out = &out;
                world.err = &out;
                command.run(values, world);
            } catch (const std::exception& error) {
                message = error.what();
            }
            std::string formats;
            for (const std::string& choice : option.words)
                formats += (formats.empty() ? "" : ", ") + choice;
            EXPECT_THAT(message, EndsWith("expected " + formats)) << command.name;
            ++checked;
        }
    EXPECT_GE(checked, 10);
}

TEST(Completion, EveryCommandAndOptionIsInEveryScriptAndOnThePage) {
    const auto& table = cli::command_table();
    const std::string bash = cli::bash_completion(table);
    const std::string zsh = cli::zsh_completion(table);
    const std::string fish = cli::fish_completion(table);
    const std::string page = cli::man_page(table);
    for (const cli::Command& command : table) {
        EXPECT_THAT(bash, HasSubstr("  '" + command.name + "')\n"));
        EXPECT_THAT(zsh, HasSubstr("  '" + command.name + "')\n"));
        EXPECT_THAT(page, HasSubstr("\n.Ss " + command.name + "\n"));
        for (const cli::Option& option : command.options)
            EXPECT_THAT(fish, HasSubstr("'__skeinfall_on " + command.name + "' -l " + option.name));
    }
}

}  // namespace
