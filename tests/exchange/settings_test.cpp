// The settings file: what it may hold, where it lies, mistakes with their places, changes.

#include <optional>
#include <string>

#include <gtest/gtest.h>

#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/exchange/settings_toml.hpp"
#include "skeinfall/units/quantity.hpp"

namespace {

using namespace skeinfall;

constexpr std::string_view all =
    "# mine\n"
    "units = \"metres\"\n"
    "decimal_mark = \",\"\n"
    "confidence = \"99 %\"\n"
    "scale = \"0.1 g\"  # the letter scale\n"
    "terms = \"UK\"\n"
    "margin = \"5 %\"\n"
    "tail = \"20 cm\"\n"
    "stitch_rate.crochet.4 = \"3 cm per stitch\"\n"
    "\n"
    "[stitch_rate.knit]\n"
    "4 = \"2 cm per stitch\"\n";

TEST(Settings, ReadsEveryKey) {
    const auto settings = exchange::parse_settings(all, "s.toml");
    EXPECT_EQ(settings.units, exchange::FirstUnits::metres);
    EXPECT_EQ(settings.decimal_mark, ',');
    EXPECT_DOUBLE_EQ(settings.confidence.value().value.value(), 0.99);
    EXPECT_EQ(settings.scale.value().text, "0.1 g");
    EXPECT_EQ(settings.project.terms, project::Terms::uk);
    EXPECT_DOUBLE_EQ(settings.project.margin.value().value(), 0.05);
    EXPECT_DOUBLE_EQ(settings.project.tail.value() / (20.0 * units::centimetre), 1.0);
    ASSERT_EQ(settings.project.rates.size(), 2u);
    ASSERT_NE(settings.find("stitch_rate.knit.4"), nullptr);
    EXPECT_EQ(settings.find("stitch_rate.knit.4")->place.line, 12u);
    EXPECT_EQ(settings.find("margin")->text, "5 %");
    EXPECT_EQ(settings.find("colour"), nullptr);
}

TEST(Settings, EveryKeyMayBeLeftOut) {
    const auto settings = exchange::parse_settings("", "s.toml");
    EXPECT_TRUE(settings.stated.empty());
    EXPECT_FALSE(settings.confidence);
    EXPECT_FALSE(settings.project.terms);
}

TEST(Settings, MistakesHaveTheirPlaces) {
    base::Problems problems;
    try {
        static_cast<void>(
            exchange::parse_settings("units = \"feet\"\n"
                                     "confidence = \"30 %\"\n"
                                     "margin = 5\n"
                                     "colour = \"teal\"\n"
                                     "[stitch_rate.crochet]\n"
                                     "44 = \"3 cm per stitch\"\n",
                                     "s.toml"));
    } catch (const base::InputError& error) {
        problems = error.problems();
    }
    ASSERT_EQ(problems.size(), 5u);
    for (std::size_t i = 0; i < 4; ++i) EXPECT_EQ(problems[i].place.line, i + 1);
    EXPECT_EQ(problems[4].place.line, 6u);
    for (const base::Problem& problem : problems) {
        EXPECT_EQ(problem.place.file, "s.toml");
        EXPECT_GT(problem.place.column, 0u);
        EXPECT_FALSE(problem.expected.empty() && problem.remedy.empty());
    }
}

/// XDG Base Directory Specification 0.8: relative paths are ignored; ~/.config is the default.
TEST(Settings, LieInTheConfigurationFolder) {
    using exchange::settings_path;
    EXPECT_EQ(settings_path("/etc/mine", "/home/maud"), "/etc/mine/skeinfall/settings.toml");
    for (const std::string unset : {"", "here"})
        EXPECT_EQ(settings_path(unset, "/home/maud"), "/home/maud/.config/skeinfall/settings.toml");
    EXPECT_EQ(settings_path(std::nullopt, std::nullopt), std::nullopt);
}

TEST(Settings, SettingKeepsOtherLines) {
    EXPECT_EQ(exchange::with_setting("", "margin", "10 %"), "margin = \"10 %\"\n");
    EXPECT_EQ(exchange::with_setting("# mine\nmargin = \"5 %\"\ntail = \"1 cm\"", "margin", "10 %"),
              "# mine\nmargin = \"10 %\"\ntail = \"1 cm\"");
    EXPECT_EQ(exchange::with_setting("tail = \"1 cm\"", "margin", "10 %"),
              "tail = \"1 cm\"\nmargin = \"10 %\"\n");
    // Above the first table, or it would become a key of that.
    EXPECT_EQ(
        exchange::with_setting("[stitch_rate.knit]\n4 = \"2 cm per stitch\"\n", "margin", "1 %"),
        "margin = \"1 %\"\n[stitch_rate.knit]\n4 = \"2 cm per stitch\"\n");
    EXPECT_EQ(exchange::without_setting("tail = \"1 cm\"\nmargin = \"5 %\"\n", "tail"),
              "margin = \"5 %\"\n");
    EXPECT_EQ(exchange::without_setting("tail = \"1 cm\"\n", "margin"), "tail = \"1 cm\"\n");
}

TEST(Settings, SettingRefusesWhatCouldNotBeRead) {
    using exchange::with_setting;
    EXPECT_THROW(static_cast<void>(with_setting("", "colour", "teal")), base::InputError);
    EXPECT_THROW(static_cast<void>(with_setting("", "margin", "lots")), base::InputError);
    EXPECT_THROW(static_cast<void>(with_setting("", "stitch_rate.crochet.44", "3 cm per stitch")),
                 base::InputError);
    EXPECT_THROW(static_cast<void>(with_setting(all, "stitch_rate.knit.4", "3 cm per stitch")),
                 base::InputError);
    EXPECT_THROW(static_cast<void>(exchange::without_setting(all, "stitch_rate.knit.4")),
                 base::InputError);
    for (const std::string value : {"\"metres\"\n", "metres\nmargin = \"5 %\""})
        EXPECT_THROW(static_cast<void>(with_setting("", "units", value)), base::InputError);
}

constexpr std::string_view hat_project =
    "title = \"Hat\"\ncraft = \"crochet\"\n"
    "[gauge]\nstitches = \"14 per 10 cm\"\nrows = \"10 per 10 cm\"\nstitch = \"dc\"\n"
    "[yarn.MC]\nclass = 4\n"
    "[[piece]]\nname = \"hat\"\nrows = 10\nstitches = 80\n";

TEST(Settings, HoldWhereAProjectDoesNotSay) {
    const auto settings = exchange::parse_settings(all, "s.toml");
    const auto silent = exchange::parse_project(hat_project, "hat.toml", settings.project);
    EXPECT_EQ(silent.terms, project::Terms::uk);
    EXPECT_DOUBLE_EQ(silent.margin.value(), 0.05);
    EXPECT_DOUBLE_EQ(silent.tail / (20.0 * units::centimetre), 1.0);
    ASSERT_TRUE(silent.roles.front().rate);

    const std::string says =
        "terms = \"US\"\nmargin = \"10 %\"\ntail = \"10 cm\"\n" + std::string(hat_project);
    const auto stated = exchange::parse_project(says, "hat.toml", settings.project);
    EXPECT_EQ(stated.terms, project::Terms::us);
    EXPECT_DOUBLE_EQ(stated.margin.value(), 0.10);
    EXPECT_DOUBLE_EQ(stated.tail / (10.0 * units::centimetre), 1.0);
}

/// A rate of the maker's own stands behind everything a project states.
TEST(Settings, ARateGivesWayToAProject) {
    const auto settings = exchange::parse_settings(all, "s.toml");
    std::string text(hat_project);
    text.insert(text.find("[[piece]]"), "total = \"100 m\"\n");
    EXPECT_FALSE(exchange::parse_project(text, "hat.toml", settings.project).roles.front().rate);
    std::string knitted(hat_project);
    knitted.replace(knitted.find("class = 4"), 9, "class = 3");
    EXPECT_FALSE(exchange::parse_project(knitted, "hat.toml", settings.project).roles.front().rate);
}

}  // namespace
