// Every rule of schema/schema.sql turns its bad row away, and none goes untested.

#include <regex>
#include <set>

#include <SQLiteCpp/SQLiteCpp.h>
#include <gmock/gmock.h>
#include <sqlite3.h>

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

/// To a stash with yarn 1, skeins 1 ("s1", bought and weighed: movements 1 and 2 of entry 1),
/// 2 ("s2", nothing known), 3 ("s3", all given: movements 3 and 4 of entry 2) and 4 ("s4", bought
/// but not described: movement 5 of entry 3, which has no day); entry 4 is undone by 5. Of s1 1 g
/// is promised to Hat (movement 6); 5 ("s5") is promised to Hat as a whole. Of 6 ("s6") 90 m are
/// promised to Hat; 11 corrects it but has no description yet.
const std::vector<Rule>& rules() {
    static const std::string yarn = "INSERT INTO yarn (name, ";
    static const std::string kind = "INSERT INTO movement_kind VALUES (";
    const auto movement = [](const std::string& more, const std::string& values,
                             const std::string& of_kind = "weighed", int skein = 1) {
        return "INSERT INTO movement (entry, skein, kind, purpose, note" + more + ") VALUES (3, " +
               std::to_string(skein) + ", '" + of_kind + "', '', ''" + values + ")";
    };
    static const std::string amount = ", amount_text, amount_g, scale_text, scale_g";
    static const std::string tare = amount + ", tare_text, tare_g";
    static const std::string length = ", amount_text, amount_m";
    static const std::string description =
        "INSERT INTO description (movement, yarn, colourway, state, knots, note, dye_lot,"
        " shade_group) VALUES (";
    const auto kept = [](const std::string& of_kind, int skein, const std::string& project) {
        return "INSERT INTO movement (entry, skein, kind, purpose, note) VALUES (3, " +
               std::to_string(skein) + ", '" + of_kind + "', '" + project + "', '')";
    };
    const auto reading = [](const std::string& column, const std::string& value) {
        std::vector<std::pair<std::string, std::string>> cells = {
            {"number", "2"},         {"entry", "3"},          {"project", "'p'"},
            {"role", "'MC'"},        {"piece", "''"},         {"copy", "1"},
            {"after_row", "0"},      {"skein", "''"},         {"mass_text", "'1 g'"},
            {"mass_g", "1"},         {"scale_text", "'1 g'"}, {"scale_g", "1"},
            {"tare_text", "NULL"},   {"tare_g", "NULL"},      {"afresh", "0"},
            {"day", "'2024-05-31'"}, {"note", "''"}};
        std::string names;
        std::string values;
        for (const auto& [name, usual] : cells) {
            // "tare" stands for both of its columns.
            const bool both = column == "tare" && name.starts_with("tare_");
            if (both && name == "tare_g") {
                names += ", tare_g";
                continue;
            }
            names += (names.empty() ? "" : ", ") + name;
            values += (values.empty() ? "" : ", ") + (both || name == column ? value : usual);
        }
        return "INSERT INTO reading (" + names + ") VALUES (" + values + ")";
    };
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
         yarn + "label_length_text, label_length_m) VALUES ('n', '1 m', 0)", ""},
        {"yarn_label_length_above_zero",
         yarn + "label_length_text, label_length_m) VALUES ('n', '1 m', 9e999)", ""},
        {"yarn_label_mass_text_not_empty",
         yarn + "label_mass_text, label_mass_g) VALUES ('n', '', 1)", ""},
        {"yarn_label_mass_text_with_number", yarn + "label_mass_text) VALUES ('n', '1 g')", ""},
        {"yarn_label_mass_text_with_number", yarn + "label_mass_g) VALUES ('n', 1)", ""},
        {"yarn_label_mass_above_zero",
         yarn + "label_mass_text, label_mass_g) VALUES ('n', '1 g', 0)", ""},
        {"yarn_label_mass_above_zero",
         yarn + "label_mass_text, label_mass_g) VALUES ('n', '1 g', 9e999)", ""},
        {"yarn_colour_repeat_text_not_empty",
         yarn + "colour_repeat_text, colour_repeat_m) VALUES ('n', '', 1)", ""},
        {"yarn_colour_repeat_text_with_number", yarn + "colour_repeat_text) VALUES ('n', '1 m')",
         ""},
        {"yarn_colour_repeat_text_with_number", yarn + "colour_repeat_m) VALUES ('n', 1)", ""},
        {"yarn_colour_repeat_above_zero",
         yarn + "colour_repeat_text, colour_repeat_m) VALUES ('n', '1 m', -1)", ""},
        {"yarn_colour_repeat_above_zero",
         yarn + "colour_repeat_text, colour_repeat_m) VALUES ('n', '1 m', 9e999)", ""},
        {"skein_key", "INSERT INTO skein VALUES (1, 'x')", "skein.number"},
        {"skein_id_used_once", "INSERT INTO skein (id) VALUES ('s2')", "skein.id"},
        {"skein_id_not_empty", "INSERT INTO skein (id) VALUES ('')", ""},
        {"entry_key", "INSERT INTO entry (number) VALUES (1)", "entry.number"},
        {"entry_undoes_an_entry", "INSERT INTO entry (undoes) VALUES (99)",
         "entry_undoes_the_newest_that_stands"},
        {"entry_undone_once", "INSERT INTO entry (undoes) VALUES (4)",
         "entry_undoes_the_newest_that_stands"},
        {"entry_day_in_the_calendar", "INSERT INTO entry (day) VALUES ('2023-02-29')", ""},
        {"entry_day_in_the_calendar", "INSERT INTO entry (day) VALUES ('2023-2-1')", ""},
        {"entry_day_in_the_calendar", "INSERT INTO entry (day) VALUES ('now')", ""},
        {"movement_kind_key", kind + "'weighed', 0, 0, 0, 'none', 0, '', '')",
         "movement_kind.kind"},
        {"movement_kind_sense_known", kind + "'x', 2, 0, 0, 'none', 0, '', '')", ""},
        {"movement_kind_first_yes_or_no", kind + "'x', 0, 2, 0, 'none', 0, '', '')", ""},
        {"movement_kind_describes_yes_or_no", kind + "'x', 0, 0, 2, 'none', 0, '', '')", ""},
        {"movement_kind_amount_known", kind + "'x', 0, 0, 0, 'some', 0, '', '')", ""},
        {"movement_kind_other_yes_or_no", kind + "'x', 0, 0, 0, 'none', 2, '', '')", ""},
        {"movement_key", movement(", number" + amount, ", 1, '1 g', 1, '1 g', 1"),
         "movement.number"},
        {"movement_in_an_entry",
         "INSERT INTO movement (entry, skein, kind, amount_text, amount_g, scale_text, scale_g,"
         " purpose, note) VALUES (99, 1, 'weighed', '1 g', 1, '1 g', 1, '', '')",
         "FOREIGN KEY"},
        {"movement_of_a_skein", movement("", "", "bought", 99), "FOREIGN KEY"},
        {"movement_kind_known", movement("", "", "lost"), "FOREIGN KEY"},
        {"movement_other_is_a_skein",
         movement(amount + ", other", ", '1 g', 1, '1 g', 1, 99", "wound off"), "FOREIGN KEY"},
        {"movement_other_is_another", movement(length + ", other", ", '1 m', 1, 1", "wound off"),
         ""},
        {"movement_day_in_the_calendar",
         movement(amount + ", day", ", '1 g', 1, '1 g', 1, '24-1-1'"), ""},
        {"movement_amount_text_not_empty", movement(amount, ", '', 1, '1 g', 1"), ""},
        {"movement_amount_text_with_one_number",
         movement(amount + ", amount_m", ", '1 g', 1, '1 g', 1, 1"),
         "movement_amount_unit_is_a_length"},
        {"movement_amount_text_with_one_number", movement(", amount_m", ", 1", "used in"),
         "movement_takes_nothing_kept_for_another"},
        {"movement_amount_text_with_one_number", movement(", amount_text", ", '1 g'", "used in"),
         ""},
        {"movement_amount_mass_above_zero", movement(amount, ", '1 g', 0, '1 g', 1"), ""},
        {"movement_amount_mass_above_zero", movement(amount, ", '1 g', 9e999, '1 g', 1"), ""},
        {"movement_amount_length_above_zero", movement(length, ", '1 m', 0", "used in"), ""},
        {"movement_amount_length_above_zero", movement(length, ", '1 m', -1", "used in"), ""},
        {"movement_scale_text_not_empty", movement(amount, ", '1 g', 1, '', 1"), ""},
        {"movement_scale_text_with_number", movement(amount, ", '1 g', 1, NULL, 1"), ""},
        {"movement_scale_above_zero", movement(amount, ", '1 g', 1, '1 g', 0"), ""},
        {"movement_scale_above_zero", movement(amount, ", '1 g', 1, '1 g', 9e999"), ""},
        {"movement_scale_with_a_mass", movement(", amount_text, amount_g", ", '1 g', 1"), ""},
        {"movement_tare_text_not_empty", movement(tare, ", '1 g', 1, '1 g', 1, '', 1"), ""},
        {"movement_tare_text_with_number", movement(tare, ", '1 g', 1, '1 g', 1, '1 g', NULL"), ""},
        {"movement_tare_text_with_number", movement(tare, ", '1 g', 1, '1 g', 1, NULL, 1"), ""},
        {"movement_tare_above_zero", movement(tare, ", '1 g', 1, '1 g', 1, '1 g', 0"), ""},
        {"movement_tare_above_zero", movement(tare, ", '1 g', 1, '1 g', 1, '1 g', 9e999"), ""},
        {"movement_first_of_its_skein", movement("", "", "bought"), ""},
        {"movement_first_of_its_skein", movement(amount, ", '1 g', 1, '1 g', 1", "weighed", 2), ""},
        {"movement_amount_fits_its_kind", movement(amount, ", '1 g', 1, '1 g', 1", "bought", 2),
         ""},
        {"movement_amount_fits_its_kind", movement(length, ", '1 m', 1"), ""},
        {"movement_amount_fits_its_kind", movement("", ""), ""},
        {"movement_amount_fits_its_kind", movement(", other", ", 2", "wound off"),
         "movement_takes_nothing_kept_for_another"},
        {"movement_amount_fits_its_kind",
         movement(tare, ", '1 g', 1, '1 g', 1, '1 g', 1", "used in"), ""},
        {"movement_names_the_other_skein", movement(amount + ", other", ", '1 g', 1, '1 g', 1, 2"),
         ""},
        {"movement_names_the_other_skein", movement(length, ", '1 m', 1", "wound off"), ""},
        {"movement_takes_from_what_is_held", movement("", "", "given", 3), ""},
        {"movement_takes_no_more_than_is_left",
         movement(amount, ", '1 g', 63, '1 g', 1", "used in"), ""},
        {"movement_ripped_back_after_use", movement(length, ", '1 m', 1", "ripped back"), ""},
        {"movement_in_an_entry_that_stands",
         "INSERT INTO movement (entry, skein, kind, purpose, note)"
         " VALUES (4, 2, 'bought', '', '')",
         ""},
        {"movement_in_an_entry_that_stands",
         "INSERT INTO movement (entry, skein, kind, purpose, note)"
         " VALUES (5, 2, 'bought', '', '')",
         ""},
        {"description_key", description + "1, 1, '', 'whole', 0, '', NULL, NULL)",
         "description.movement"},
        {"description_of_a_movement", description + "99, 1, '', 'whole', 0, '', NULL, NULL)",
         "FOREIGN KEY"},
        {"description_has_a_yarn", description + "5, 9, '', 'whole', 0, '', NULL, NULL)",
         "FOREIGN KEY"},
        {"description_has_a_yarn", "DELETE FROM yarn", "FOREIGN KEY"},
        {"description_dye_lot_not_empty", description + "5, 1, '', 'whole', 0, '', '', NULL)", ""},
        {"description_shade_group_not_empty", description + "5, 1, '', 'whole', 0, '', NULL, '')",
         ""},
        {"description_state_known", description + "5, 1, '', 'half', 0, '', NULL, NULL)", ""},
        {"description_knots_at_least_zero", description + "5, 1, '', 'whole', -1, '', NULL, NULL)",
         ""},
        {"description_knots_at_least_zero",
         description + "5, 1, '', 'whole', 2147483648, '', NULL, NULL)", ""},
        {"description_of_a_describing_movement",
         description + "2, 1, '', 'whole', 0, '', NULL, NULL)", ""},
        {"entry_undoes_the_newest_that_stands", "INSERT INTO entry (undoes) VALUES (1)", ""},
        {"entry_of_an_older_layout_stands", "INSERT INTO entry (undoes) VALUES (3)", ""},
        {"skein_never_changed", "UPDATE skein SET id = 'x'", ""},
        {"skein_never_removed", "DELETE FROM skein WHERE number = 2", ""},
        {"entry_never_changed", "UPDATE entry SET day = NULL", ""},
        {"entry_never_removed", "DELETE FROM entry WHERE number = 5", ""},
        {"movement_never_changed", "UPDATE movement SET note = 'x'", ""},
        {"movement_never_removed", "DELETE FROM movement WHERE number = 2", ""},
        {"description_never_changed", "UPDATE description SET knots = 1", ""},
        {"description_never_removed", "DELETE FROM description", ""},
        {"unit_key", "INSERT INTO unit VALUES ('YARDS', 'length', '')", "unit.name"},
        {"unit_kind_known", "INSERT INTO unit VALUES ('acre', 'area', '')", ""},
        {"weight_class_key", "INSERT INTO weight_class VALUES (7, 'x', '')", "weight_class.number"},
        {"promise_key", "INSERT INTO promise VALUES (6, '')", "promise.movement"},
        {"promise_of_a_movement", "INSERT INTO promise VALUES (99, '')",
         "promise_of_a_movement_that_sets_aside"},
        {"promise_of_a_movement_that_sets_aside", "INSERT INTO promise VALUES (2, '')", ""},
        {"movement_sets_aside_once_a_project",
         "INSERT INTO movement (entry, skein, kind, purpose, note, amount_text, amount_g,"
         " scale_text, scale_g) VALUES (3, 1, 'set aside', 'hat', '', '1 g', 1, '1 g', 1)",
         ""},
        {"movement_sets_aside_no_more_than_is_held", kept("set aside", 1, "Cap"), ""},
        {"movement_sets_aside_no_more_than_is_held", kept("set aside", 5, "Cap"), ""},
        {"promise_never_changed", "UPDATE promise SET role = 'x'", ""},
        {"promise_never_removed", "DELETE FROM promise", ""},
        {"movement_sets_aside_what_is_held", kept("set aside", 3, "Hat"), ""},
        {"movement_sets_aside_for_a_project", kept("set aside", 1, ""), ""},
        {"movement_sets_aside_for_a_project", kept("released", 1, ""),
         "movement_releases_what_is_set_aside"},
        {"movement_releases_what_is_set_aside", kept("released", 1, "Cap"), ""},
        {"movement_takes_nothing_kept_for_another", kept("given", 5, "Hat"), ""},
        {"movement_takes_nothing_kept_for_another", kept("used in", 5, "Cap"), ""},
        {"movement_leaves_what_is_set_aside", movement(amount, ", '0.9 g', 0.9, '1 g', 1"), ""},
        {"movement_leaves_what_is_set_aside", movement(amount, ", '62 g', 62, '1 g', 1", "used in"),
         ""},
        {"description_leaves_what_is_set_aside",
         description + "11, 1, '', 'whole', 0, '', NULL, NULL)", ""},
        {"yarn_label_length_unit_is_a_length",
         yarn + "label_length_text, label_length_m) VALUES ('n', '170 kg', 1)", ""},
        {"yarn_label_mass_unit_is_a_mass",
         yarn + "label_mass_text, label_mass_g) VALUES ('n', '100 m', 1)", ""},
        {"yarn_colour_repeat_unit_is_a_length",
         yarn + "colour_repeat_text, colour_repeat_m) VALUES ('n', '100', 1)", ""},
        {"movement_amount_unit_is_a_mass", movement(amount, ", '2 yd', 1, '1 g', 1"), ""},
        {"movement_amount_unit_is_a_length", movement(length, ", '2 oz.', 1", "used in"), ""},
        {"movement_scale_unit_is_a_mass", movement(amount, ", '2 g', 1, '1 cm', 1"), ""},
        {"movement_tare_unit_is_a_mass", movement(tare, ", '2 g', 2, '1 g', 1, '1 sts', 1"), ""},
        {"yarn_never_changed", "UPDATE yarn SET name = 'x'", ""},
        {"reading_key", reading("number", "1"), "reading.number"},
        {"reading_in_an_entry", reading("entry", "99"), "FOREIGN KEY"},
        {"reading_in_an_entry_that_stands", reading("entry", "4"), ""},
        {"reading_in_an_entry_that_stands", reading("entry", "5"), ""},
        {"reading_project_not_empty", reading("project", "''"), ""},
        {"reading_role_not_empty", reading("role", "''"), ""},
        {"reading_copy_at_least_one", reading("copy", "0"), ""},
        {"reading_row_at_least_zero", reading("after_row", "-1"), ""},
        {"reading_mass_text_not_empty", reading("mass_text", "''"), ""},
        {"reading_mass_above_zero", reading("mass_g", "0"), ""},
        {"reading_scale_text_not_empty", reading("scale_text", "''"), ""},
        {"reading_scale_above_zero", reading("scale_g", "9e999"), ""},
        {"reading_tare_text_not_empty", reading("tare_text", "''"), ""},
        {"reading_tare_text_with_number", reading("tare_text", "'1 g'"), ""},
        {"reading_tare_text_with_number", reading("tare_g", "1"), ""},
        {"reading_tare_above_zero", reading("tare", "'1 g', 0"), ""},
        {"reading_afresh_yes_or_no", reading("afresh", "2"), ""},
        {"reading_day_in_the_calendar", reading("day", "'2023-02-29'"), ""},
        {"reading_mass_unit_is_a_mass", reading("mass_text", "'2 m'"), ""},
        {"reading_scale_unit_is_a_mass", reading("scale_text", "'2 m'"), ""},
        {"reading_tare_unit_is_a_mass", reading("tare", "'1 m', 1"), ""},
        {"reading_never_changed", "UPDATE reading SET note = 'x'", ""},
        {"reading_never_removed", "DELETE FROM reading", ""},
        {"unanswered_key", "INSERT INTO unanswered VALUES (1, '2024-06-01', 'undo')",
         "unanswered.entry"},
        {"unanswered_of_an_entry", "INSERT INTO unanswered VALUES (99, '2024-06-01', 'undo')",
         "FOREIGN KEY"},
        {"unanswered_command_not_empty", "INSERT INTO unanswered VALUES (2, '2024-06-01', '')", ""},
        {"unanswered_day_in_the_calendar", "INSERT INTO unanswered VALUES (2, '24-6-1', 'undo')",
         ""},
        {"whole_check_key", "INSERT INTO whole_check VALUES (1, '2024-06-01', '0')",
         "whole_check.number"},
        {"whole_check_only_the_last", "INSERT INTO whole_check VALUES (2, '2024-06-01', '0')", ""},
        {"whole_check_version_not_empty", "UPDATE whole_check SET version = ''", ""},
        {"whole_check_day_in_the_calendar", "UPDATE whole_check SET day = '2024-6-1'", ""},
    };
    return all;
}

TEST(Layout, EveryRuleTurnsItsBadRowAway) {
    const Folder folder;
    const auto path = folder / "stash";
    stash::Skein weighed = plain_skein();
    weighed.weighing = full_skein().weighing;
    weighed.weighing->tare.reset();
    make_stash(path, {weighed});
    SQLite::Database database(path.string(), SQLite::OPEN_READWRITE);
    database.exec("PRAGMA foreign_keys = ON");
    database.exec(
        "INSERT INTO skein (id) VALUES ('s2'), ('s3'), ('s4');"
        "INSERT INTO entry (day) VALUES ('2024-06-01');"
        "INSERT INTO movement (entry, skein, kind, purpose, note)"
        " VALUES (2, 3, 'bought', '', '');"
        "INSERT INTO description VALUES (3, 1, '', NULL, NULL, 'whole', 0, '');"
        "INSERT INTO movement (entry, skein, kind, purpose, note)"
        " VALUES (2, 3, 'given', '', '');"
        "INSERT INTO entry (day) VALUES (NULL);"
        "INSERT INTO entry (day) VALUES ('2024-06-01');"
        "INSERT INTO entry (undoes) VALUES (4);"
        "INSERT INTO movement (entry, skein, kind, purpose, note)"
        " VALUES (3, 4, 'bought', '', '');"
        "INSERT INTO movement (entry, skein, kind, purpose, note, amount_text, amount_g,"
        " scale_text, scale_g) VALUES (3, 1, 'set aside', 'Hat', '', '1 g', 1, '1 g', 1);"
        "INSERT INTO promise VALUES (6, 'MC');"
        "INSERT INTO skein (id) VALUES ('s5'), ('s6');"
        "INSERT INTO movement (entry, skein, kind, purpose, note) VALUES (3, 5, 'bought', '', '');"
        "INSERT INTO description VALUES (7, 1, '', NULL, NULL, 'whole', 0, '');"
        "INSERT INTO movement (entry, skein, kind, purpose, note) VALUES"
        " (3, 5, 'set aside', 'Hat', '');"
        "INSERT INTO promise VALUES (8, '');"
        "INSERT INTO yarn (name, label_length_text, label_length_m, label_mass_text, label_mass_g)"
        " VALUES ('Brook', '100 m', 100, '50 g', 50);"
        "INSERT INTO movement (entry, skein, kind, purpose, note) VALUES (3, 6, 'bought', '', '');"
        "INSERT INTO description VALUES (9, 2, '', NULL, NULL, 'whole', 0, '');"
        "INSERT INTO movement (entry, skein, kind, purpose, note, amount_text, amount_m)"
        " VALUES (3, 6, 'set aside', 'Hat', '', '90 m', 90);"
        "INSERT INTO promise VALUES (10, '');"
        "INSERT INTO movement (entry, skein, kind, purpose, note)"
        " VALUES (3, 6, 'corrected', '', '');"
        "INSERT INTO reading (entry, project, role, piece, copy, after_row, skein, mass_text,"
        " mass_g, scale_text, scale_g, afresh, day, note)"
        " VALUES (3, 'p', 'MC', '', 1, 4, '', '62 g', 62, '1 g', 1, 0, '2024-05-31', '');"
        "INSERT INTO unanswered VALUES (1, '2024-05-31', 'stash\nundo');"
        "INSERT INTO whole_check VALUES (1, '2024-05-31', '0');");
    const std::string before = dump_of(path);
    for (const Rule& rule : rules()) {
        try {
            database.exec(rule.bad_row);
            ADD_FAILURE() << rule.name << " let through: " << rule.bad_row;
        } catch (const SQLite::Exception& error) {
            EXPECT_EQ(error.getErrorCode(), SQLITE_CONSTRAINT);
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
    const std::regex name("(?:CONSTRAINT|UNIQUE INDEX|TRIGGER) (\\w+)");
    for (std::sregex_iterator at(schema.begin(), schema.end(), name), end; at != end; ++at)
        named.insert((*at)[1]);
    std::set<std::string> tested;
    for (const Rule& rule : rules()) tested.insert(rule.name);
    EXPECT_EQ(tested, named);

    const std::regex kind(
        "CHECK \\(|PRIMARY KEY \\(|FOREIGN KEY \\(|UNIQUE \\(|UNIQUE INDEX|CREATE TRIGGER");
    EXPECT_EQ(std::distance(std::sregex_iterator(schema.begin(), schema.end(), kind), {}),
              static_cast<std::ptrdiff_t>(named.size()));
}

TEST(Layout, EveryTableIsStrict) {
    const Folder folder;
    make_stash(folder / "stash", {});
    EXPECT_EQ(sqlite3_says(folder / "stash",
                           "SELECT name, strict FROM pragma_table_list"
                           " WHERE type = 'table' AND name NOT LIKE 'sqlite%' ORDER BY name"),
              "description|1\nentry|1\nmovement|1\nmovement_kind|1\npromise|1\nreading|1\n"
              "skein|1\nunanswered|1\nunit|1\nweight_class|1\nwhole_check|1\nyarn|1\n");
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
    EXPECT_EQ(sqlite3_says(path, ".read " + (schema_folder / "checks.sql").string()), "");
    EXPECT_EQ(sqlite3_says(path,
                           "SELECT id, name, class, fibre_json, label_length_text,"
                           " round(label_length_m, 6), state, weighed_text, tare_g"
                           " FROM holding JOIN yarn ON yarn.number = holding.yarn"
                           " ORDER BY arrival LIMIT 1"),
              "s1|Cloudmoss DK|3|[[\"wool\",0.8],[\"nylon\",0.2]]|170 yd|155.448|part|62 g|40.0\n");
}

}  // namespace
}  // namespace skeinfall::store_tests
