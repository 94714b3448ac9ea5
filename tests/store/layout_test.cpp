// Every rule of schema/schema.sql turns its bad row away, and none goes untested.

#include <regex>
#include <set>

#include <SQLiteCpp/SQLiteCpp.h>
#include <gmock/gmock.h>

#include "store/stash_file.hpp"

namespace skeinfall::store_tests {
namespace {

using testing::HasSubstr;

const fs::path schema_folder = fs::path(SKEINFALL_SOURCE_DIR) / "schema";

struct Rule {
    std::string name;
    std::string bad_row;
    std::string says;  ///< empty: the name
};

/// To a stash with yarn 1, skein ids 1 and 2 ("s1", "s2"), skein 1 and weighing 1.
const std::vector<Rule>& rules() {
    static const std::string yarn = "INSERT INTO yarn (name, ";
    static const std::string skein =
        "INSERT INTO skein (number, yarn, colourway, state, knots, note, dye_lot, shade_group)"
        " VALUES (";
    static const std::string weighing =
        "INSERT INTO weighing (skein, weighed_text, weighed_g, scale_text, scale_g, tare_text,"
        " tare_g) VALUES (";
    static const std::vector<Rule> all = {
        {"yarn_key", "INSERT INTO yarn (number, name) VALUES (1, 'n')", "yarn.number"},
        {"yarn_identity", "INSERT INTO yarn (name) VALUES ('Cloudmoss')", ""},
        {"yarn_name_not_empty", "INSERT INTO yarn (name) VALUES ('')", ""},
        {"yarn_class_at_least_zero", yarn + "class) VALUES ('n', -1)", ""},
        {"yarn_class_at_least_zero", yarn + "class) VALUES ('n', 2147483648)", ""},
        {"yarn_fibre_is_a_list", yarn + "fibre_json) VALUES ('n', 'wool')", ""},
        {"yarn_fibre_is_a_list", yarn + "fibre_json) VALUES ('n', '{\"wool\":1}')", ""},
        {"yarn_fibre_is_a_list", yarn + "fibre_json) VALUES ('n', '[]')", ""},
        {"yarn_label_length_text_not_empty",
         yarn + "label_length_text, label_length_m) VALUES ('n', '', 1)", ""},
        {"yarn_label_length_text_with_number", yarn + "label_length_text) VALUES ('n', '1 m')", ""},
        {"yarn_label_length_text_with_number", yarn + "label_length_m) VALUES ('n', 1)", ""},
        {"yarn_label_length_above_zero",
         yarn + "label_length_text, label_length_m) VALUES ('n', 't', 0)", ""},
        {"yarn_label_length_above_zero",
         yarn + "label_length_text, label_length_m) VALUES ('n', 't', 9e999)", ""},
        {"yarn_label_mass_text_not_empty",
         yarn + "label_mass_text, label_mass_g) VALUES ('n', '', 1)", ""},
        {"yarn_label_mass_text_with_number", yarn + "label_mass_text) VALUES ('n', '1 g')", ""},
        {"yarn_label_mass_text_with_number", yarn + "label_mass_g) VALUES ('n', 1)", ""},
        {"yarn_label_mass_above_zero", yarn + "label_mass_text, label_mass_g) VALUES ('n', 't', 0)",
         ""},
        {"yarn_label_mass_above_zero",
         yarn + "label_mass_text, label_mass_g) VALUES ('n', 't', 9e999)", ""},
        {"yarn_colour_repeat_text_not_empty",
         yarn + "colour_repeat_text, colour_repeat_m) VALUES ('n', '', 1)", ""},
        {"yarn_colour_repeat_text_with_number", yarn + "colour_repeat_text) VALUES ('n', '1 m')",
         ""},
        {"yarn_colour_repeat_text_with_number", yarn + "colour_repeat_m) VALUES ('n', 1)", ""},
        {"yarn_colour_repeat_above_zero",
         yarn + "colour_repeat_text, colour_repeat_m) VALUES ('n', 't', -1)", ""},
        {"yarn_colour_repeat_above_zero",
         yarn + "colour_repeat_text, colour_repeat_m) VALUES ('n', 't', 9e999)", ""},
        {"skein_id_key", "INSERT INTO skein_id VALUES (1, 'x')", "skein_id.number"},
        {"skein_id_used_once", "INSERT INTO skein_id (id) VALUES ('s2')", "skein_id.id"},
        {"skein_id_not_empty", "INSERT INTO skein_id (id) VALUES ('')", ""},
        {"skein_key", skein + "1, 1, '', 'whole', 0, '', NULL, NULL)", "skein.number"},
        {"skein_has_an_id", skein + "3, 1, '', 'whole', 0, '', NULL, NULL)", "FOREIGN KEY"},
        {"skein_has_an_id", "DELETE FROM skein_id WHERE number = 1", "FOREIGN KEY"},
        {"skein_has_a_yarn", skein + "2, 9, '', 'whole', 0, '', NULL, NULL)", "FOREIGN KEY"},
        {"skein_has_a_yarn", "DELETE FROM yarn", "FOREIGN KEY"},
        {"skein_dye_lot_not_empty", skein + "2, 1, '', 'whole', 0, '', '', NULL)", ""},
        {"skein_shade_group_not_empty", skein + "2, 1, '', 'whole', 0, '', NULL, '')", ""},
        {"skein_state_known", skein + "2, 1, '', 'half', 0, '', NULL, NULL)", ""},
        {"skein_knots_at_least_zero", skein + "2, 1, '', 'whole', -1, '', NULL, NULL)", ""},
        {"skein_knots_at_least_zero", skein + "2, 1, '', 'whole', 2147483648, '', NULL, NULL)", ""},
        {"weighing_key",
         "INSERT INTO weighing (number, skein, weighed_text, weighed_g, scale_text, scale_g)"
         " VALUES (1, 1, 't', 1, 't', 1)",
         "weighing.number"},
        {"weighing_of_a_skein", weighing + "2, 't', 1, 't', 1, NULL, NULL)", "FOREIGN KEY"},
        {"weighing_of_a_skein", "DELETE FROM skein", "FOREIGN KEY"},
        {"weighing_weighed_text_not_empty", weighing + "1, '', 1, 't', 1, NULL, NULL)", ""},
        {"weighing_weighed_above_zero", weighing + "1, 't', 0, 't', 1, NULL, NULL)", ""},
        {"weighing_weighed_above_zero", weighing + "1, 't', 9e999, 't', 1, NULL, NULL)", ""},
        {"weighing_scale_text_not_empty", weighing + "1, 't', 1, '', 1, NULL, NULL)", ""},
        {"weighing_scale_above_zero", weighing + "1, 't', 1, 't', 0, NULL, NULL)", ""},
        {"weighing_scale_above_zero", weighing + "1, 't', 1, 't', 9e999, NULL, NULL)", ""},
        {"weighing_tare_text_not_empty", weighing + "1, 't', 1, 't', 1, '', 1)", ""},
        {"weighing_tare_text_with_number", weighing + "1, 't', 1, 't', 1, 't', NULL)", ""},
        {"weighing_tare_text_with_number", weighing + "1, 't', 1, 't', 1, NULL, 1)", ""},
        {"weighing_tare_above_zero", weighing + "1, 't', 1, 't', 1, 't', 0)", ""},
        {"weighing_tare_above_zero", weighing + "1, 't', 1, 't', 1, 't', 9e999)", ""},
    };
    return all;
}

TEST(Layout, EveryRuleTurnsItsBadRowAway) {
    const Folder folder;
    const auto path = folder / "stash";
    stash::Skein weighed = plain_skein();
    weighed.weighing = full_skein().weighing;
    make_stash(path, {weighed});
    SQLite::Database database(path.string(), SQLite::OPEN_READWRITE);
    database.exec("PRAGMA foreign_keys = ON");
    database.exec("INSERT INTO skein_id (id) VALUES ('s2')");
    const std::string before = dump_of(path);
    for (const Rule& rule : rules()) {
        try {
            database.exec(rule.bad_row);
            ADD_FAILURE() << rule.name << " let through: " << rule.bad_row;
        } catch (const SQLite::Exception& error) {
            EXPECT_THAT(error.what(), HasSubstr("constraint failed"));
            EXPECT_THAT(error.what(), HasSubstr(rule.says.empty() ? rule.name : rule.says))
                << rule.bad_row;
        }
    }
    EXPECT_EQ(dump_of(path), before);
}

TEST(Layout, EveryRuleHasANameAndATest) {
    const std::string schema =
        std::regex_replace(bytes_of(schema_folder / "schema.sql"), std::regex("--[^\n]*"), "");
    std::set<std::string> named;
    const std::regex name("(?:CONSTRAINT|UNIQUE INDEX) (\\w+)");
    for (std::sregex_iterator at(schema.begin(), schema.end(), name), end; at != end; ++at)
        named.insert((*at)[1]);
    std::set<std::string> tested;
    for (const Rule& rule : rules()) tested.insert(rule.name);
    EXPECT_EQ(tested, named);

    const std::regex kind("CHECK \\(|PRIMARY KEY \\(|FOREIGN KEY \\(|UNIQUE \\(|UNIQUE INDEX");
    EXPECT_EQ(std::distance(std::sregex_iterator(schema.begin(), schema.end(), kind), {}),
              static_cast<std::ptrdiff_t>(named.size()));
}

TEST(Layout, EveryTableIsStrict) {
    const Folder folder;
    make_stash(folder / "stash", {});
    EXPECT_EQ(sqlite3_says(folder / "stash",
                           "SELECT name, strict FROM pragma_table_list"
                           " WHERE type = 'table' AND name NOT LIKE 'sqlite%' ORDER BY name"),
              "skein|1\nskein_id|1\nweighing|1\nyarn|1\n");
}

// Offsets from the SQLite file format, https://www.sqlite.org/fileformat2.html, section 1.3:
// user version at 60, application id at 68, both big-endian.
TEST(Layout, TheHeaderCarriesOurMarks) {
    const Folder folder;
    make_stash(folder / "stash", {});
    const std::string bytes = bytes_of(folder / "stash");
    EXPECT_EQ(bytes.substr(68, 4), "SKNF");
    EXPECT_THAT(bytes_of(schema_folder / "README.md"), HasSubstr("1397444166"));
    EXPECT_EQ(store::application_id, 1397444166);
    const int layout = std::stoi(bytes_of(schema_folder / "layout_version"));
    EXPECT_EQ(bytes.substr(60, 4), std::string({'\0', '\0', '\0', static_cast<char>(layout)}));
}

TEST(Layout, TheCommandLineProgramFindsNothingWrong) {
    const Folder folder;
    const auto path = folder / "stash";
    make_stash(path, {full_skein(), plain_skein(), full_skein("attic")});
    EXPECT_EQ(sqlite3_says(path, "PRAGMA integrity_check"), "ok\n");
    EXPECT_EQ(sqlite3_says(path, "PRAGMA foreign_key_check"), "");
    EXPECT_EQ(sqlite3_says(path,
                           "SELECT id, name, class, fibre_json, label_length_text,"
                           " round(label_length_m, 6), state, weighed_text, tare_g"
                           " FROM skein JOIN skein_id USING (number)"
                           " JOIN yarn ON yarn.number = skein.yarn"
                           " JOIN weighing ON weighing.skein = skein.number"
                           " ORDER BY skein.number LIMIT 1"),
              "s1|Cloudmoss DK|3|[[\"wool\",0.8],[\"nylon\",0.2]]|170 yd|155.448|part|62 g|40.0\n");
}

}  // namespace
}  // namespace skeinfall::store_tests
