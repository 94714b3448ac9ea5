// The reference tables of lib/data: every row with a source that can be looked up, no row twice,
// classes and tolerances without gaps.

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include <csv.h>
#include <gtest/gtest.h>

namespace {

namespace fs = std::filesystem;
using Row = std::map<std::string, std::string>;

const fs::path data_folder = fs::path(SKEINFALL_SOURCE_DIR) / "lib" / "data";

std::string bytes_of(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

std::vector<Row> table(const std::string& name) {
    struct Cells {
        std::vector<std::string> row;
        std::vector<std::vector<std::string>> rows;
    } cells;
    const std::string text = bytes_of(data_folder / name);
    csv_parser parser{};
    csv_init(&parser, CSV_STRICT | CSV_STRICT_FINI);
    const auto cell = [](void* data, std::size_t size, void* to) {
        static_cast<Cells*>(to)->row.emplace_back(static_cast<const char*>(data), size);
    };
    const auto end = [](int, void* to) {
        auto* all = static_cast<Cells*>(to);
        all->rows.push_back(std::move(all->row));
        all->row.clear();
    };
    const bool whole =
        csv_parse(&parser, text.data(), text.size(), cell, end, &cells) == text.size();
    EXPECT_TRUE(whole) << name;
    EXPECT_EQ(csv_fini(&parser, cell, end, &cells), 0) << name;
    csv_free(&parser);
    std::vector<Row> out;
    for (std::size_t i = 1; i < cells.rows.size(); ++i) {
        Row row;
        for (std::size_t c = 0; c < cells.rows[0].size(); ++c)
            row[cells.rows[0][c]] = cells.rows[i].at(c);
        out.push_back(std::move(row));
    }
    EXPECT_FALSE(out.empty()) << name;
    return out;
}

std::vector<std::string> table_names() {
    std::vector<std::string> names;
    for (const auto& entry : fs::directory_iterator(data_folder))
        names.push_back(entry.path().filename().string());
    std::sort(names.begin(), names.end());
    return names;
}

std::set<std::string> matches(const std::string& text, const std::string& pattern) {
    const std::regex expression(pattern);
    std::set<std::string> found;
    for (std::sregex_iterator at(text.begin(), text.end(), expression), end; at != end; ++at)
        found.insert(at->str());
    return found;
}

TEST(Tables, EverySourceThatIsNamedIsListed) {
    std::set<std::string> listed;
    for (const Row& row : table("sources.csv")) listed.insert(row.at("id"));
    std::size_t named = 0;
    for (const std::string& name : table_names()) {
        if (name == "sources.csv") continue;
        for (const std::string& id : matches(bytes_of(data_folder / name), "\\bS[0-9]{2,3}\\b")) {
            EXPECT_TRUE(listed.count(id) == 1) << name << " names " << id;
            ++named;
        }
    }
    EXPECT_GT(named, 20U);
}

TEST(Tables, EveryRowHasASource) {
    const std::regex source("\\bS[0-9]{2,3}\\b|memory|common practice, no source|own model");
    for (const std::string& name : table_names()) {
        if (name == "sources.csv") continue;
        for (const Row& row : table(name))
            EXPECT_TRUE(std::regex_search(row.at("source"), source))
                << name << ": " << row.begin()->second << ": \"" << row.at("source") << '"';
    }
}

TEST(Tables, RefersToNoFileThatIsNotHere) {
    for (const std::string& name : table_names())
        for (const std::string& file : matches(bytes_of(data_folder / name), "[A-Za-z_]+\\.csv"))
            EXPECT_TRUE(fs::exists(data_folder / file)) << name << " refers to " << file;
}

TEST(Tables, NoKeyStandsTwice) {
    const std::map<std::string, std::vector<std::string>> keys{
        {"body_sizes.csv", {"of", "who", "from_months", "source"}},
        {"made_to_fit.csv", {"make"}},
        {"ease_words.csv", {"word"}},
        {"who_words.csv", {"word"}},
        {"thing_words.csv", {"word", "means"}},
        {"burn_groups.csv", {"fibre_group"}},
        {"burn_signs.csv", {"sign"}},
        {"fibre_facts.csv", {"fibre", "form", "property", "status", "source"}},
        {"abbreviations.csv", {"craft", "abbrev"}},
        {"class_grist.csv", {"name"}},
        {"cone_tares.csv", {"name"}},
        {"fibre_families.csv", {"name", "within"}},
        {"fibre_names.csv", {"name"}},
        {"join_kinds.csv", {"name"}},
        {"cell_words.csv", {"word"}},
        {"column_words.csv", {"words"}},
        {"label_weighings.csv", {"id"}},
        {"label_words.csv", {"word"}},
        {"make_questions.csv", {"id"}},
        {"loop_constants.csv", {"id"}},
        {"loop_paths.csv", {"stitch"}},
        {"stitch_yarn.csv", {"stitch", "weight_class"}},
        {"shapes.csv", {"name"}},
        {"finish_words.csv", {"word", "role"}},
        {"fabric_words.csv", {"word", "craft"}},
        {"finishing.csv", {"part", "name"}},
        {"stitches.csv", {"us", "uk", "craft"}},
        {"unit_names.csv", {"name", "unit"}},
        {"units.csv", {"id"}},
        {"us_uk_terms.csv", {"us_abbrev", "us_term"}},
        {"colour_words.csv", {"word"}},
        {"fibre_summary.csv", {"fibre"}},
        {"hooks.csv", {"kind", "mm"}},
        {"length_per_mass_by_class.csv", {"symbol_number", "class_as_named", "source"}},
        {"materials_words.csv", {"language", "key"}},
        {"needles.csv", {"mm"}},
        {"notation_phrases.csv", {"craft", "words"}},
        {"notation_words.csv", {"word", "role"}},
        {"package_tolerances.csv",
         {"jurisdiction", "rule", "nominal_min", "nominal_max", "tolerance"}},
        {"published_makes.csv", {"id"}},
        {"regain_by_humidity.csv", {"fibre"}},
        {"regional_names.csv",
         {"cyc_number", "us_name", "uk_name", "au_nz_name", "jp_name", "source"}},
        {"sources.csv", {"id"}},
        {"substitution_rules.csv", {"rule"}},
        {"wpi_by_class.csv", {"symbol_number", "class_as_named", "source"}},
        {"yarn_diameter.csv", {"id"}},
        {"yarn_weight_classes.csv", {"symbol_number"}},
        {"yarn_weight_variants.csv", {"symbol_number", "field", "value", "source"}},
    };
    for (const std::string& name : table_names()) {
        ASSERT_EQ(keys.count(name), 1U) << "no key is stated for " << name;
        std::set<std::vector<std::string>> seen;
        for (const Row& row : table(name)) {
            std::vector<std::string> key;
            for (const std::string& column : keys.at(name)) key.push_back(row.at(column));
            EXPECT_TRUE(seen.insert(key).second) << name << ": " << testing::PrintToString(key);
        }
    }
}

/// What a phrase reads as takes words from it by their number: "ch- $4 sp" has to name a figure.
TEST(Tables, PhrasesNameWhatTheyHave) {
    const std::regex reference("(ch- )?\\$(#|[0-9]+)( times)?");
    for (const Row& row : table("notation_phrases.csv")) {
        std::vector<std::string> elements;
        std::istringstream in(row.at("words"));
        for (std::string element; in >> element;)
            if (element != "^") elements.push_back(element);
        const std::string reads = row.at("reads_as");
        for (std::sregex_iterator at(reads.begin(), reads.end(), reference), end; at != end; ++at) {
            if ((*at)[2] == "#") continue;
            const auto number = std::stoul((*at)[2]);
            ASSERT_TRUE(number >= 1 && number <= elements.size()) << row.at("words");
            const std::string& element = elements[number - 1];
            const bool figure = (*at)[1].matched || (*at)[3].matched;
            EXPECT_TRUE(!figure || element.find('#') != std::string::npos)
                << row.at("words") << " -> " << reads;
        }
    }
}

TEST(Tables, SourcesAreDescribed) {
    for (const Row& row : table("sources.csv")) {
        EXPECT_TRUE(std::regex_match(row.at("id"), std::regex("S[0-9]{2,3}"))) << row.at("id");
        EXPECT_FALSE(row.at("title").empty()) << row.at("id");
        EXPECT_FALSE(row.at("publisher").empty() && row.at("address").empty()) << row.at("id");
    }
}

TEST(Tables, FibreNamesLeadToFibres) {
    std::set<std::string> fibres;
    for (const Row& row : table("fibre_summary.csv")) fibres.insert(row.at("fibre"));
    for (const Row& row : table("fibre_families.csv")) fibres.insert(row.at("name"));
    for (const Row& row : table("fibre_names.csv"))
        EXPECT_EQ(fibres.count(row.at("fibre")), 1U) << row.at("name");
}

// A fibre that belongs to no family would be let in where the family is kept out.
TEST(Tables, EveryFibreBelongsToAFamily) {
    std::set<std::string> placed;
    std::set<std::string> names;
    for (const Row& row : table("fibre_families.csv")) {
        names.insert(row.at("name"));
        if (!row.at("within").empty()) placed.insert(row.at("name"));
    }
    for (const Row& row : table("fibre_families.csv"))
        EXPECT_TRUE(row.at("within").empty() || names.count(row.at("within")) == 1U)
            << row.at("name");
    for (const Row& row : table("fibre_summary.csv")) {
        const std::string name = row.at("fibre").substr(0, row.at("fibre").find_first_of(",("));
        EXPECT_EQ(placed.count(name.substr(0, name.find_last_not_of(' ') + 1)), 1U) << name;
    }
}

// Craft Yarn Council, Standard Yarn Weight System (S03): finer to coarser, each class beginning
// where the one before ends.
TEST(Tables, WeightClassesAreInOrderWithoutGaps) {
    const std::vector<Row> rows = table("yarn_weight_classes.csv");
    for (std::size_t i = 0; i < rows.size(); ++i)
        EXPECT_EQ(rows[i].at("symbol_number"), std::to_string(i));
    for (std::size_t i = 0; i + 1 < rows.size(); ++i) {
        SCOPED_TRACE(rows[i].at("category"));
        EXPECT_EQ(rows[i].at("needle_max_mm"), rows[i + 1].at("needle_min_mm"));
        const auto sts = [&](std::size_t row, const char* column) {
            return std::stoi(rows[row].at(column));
        };
        // Whole stitches over 4 in: the next class ends one below this one begins, or overlaps.
        EXPECT_GE(sts(i + 1, "knit_gauge_max_sts_4in") + 1, sts(i, "knit_gauge_min_sts_4in"));
        EXPECT_LT(sts(i + 1, "knit_gauge_max_sts_4in"), sts(i, "knit_gauge_max_sts_4in"));
        EXPECT_GE(sts(i + 1, "crochet_gauge_max_sts_4in") + 1, sts(i, "crochet_gauge_min_sts_4in"));
        EXPECT_LT(sts(i + 1, "crochet_gauge_max_sts_4in"), sts(i, "crochet_gauge_max_sts_4in"));
        // The class of lace prints a steel and a regular hook as two tools, not as a range.
        if (i > 0) {
            EXPECT_EQ(rows[i].at("hook_max_mm"), rows[i + 1].at("hook_min_mm"));
        }
    }
}

TEST(Tables, PackageTolerancesFollowOnEachOther) {
    std::vector<Row> rows;
    for (const Row& row : table("package_tolerances.csv"))
        if (row.at("jurisdiction") == "EU and UK") rows.push_back(row);
    ASSERT_EQ(rows.size(), 9U);
    EXPECT_EQ(rows.front().at("nominal_min"), "5");
    for (std::size_t i = 0; i + 1 < rows.size(); ++i)
        EXPECT_EQ(rows[i].at("nominal_max"), rows[i + 1].at("nominal_min"));
    EXPECT_EQ(rows.back().at("nominal_max"), "");
}

// A length per mass is given in metres, in yards and in tex; the three must say the same, to the
// unit they are printed in. 1 yd = 0.9144 m; tex is grams per kilometre.
TEST(Tables, LengthPerMassAgreesInEveryUnit) {
    for (const Row& row : table("length_per_mass_by_class.csv")) {
        for (const auto& [m, yd, tex] :
             {std::tuple("m_per_100g_min", "yd_per_100g_min", "tex_max"),
              std::tuple("m_per_100g_max", "yd_per_100g_max", "tex_min")}) {
            ASSERT_EQ(row.at(m).empty(), row.at(yd).empty());
            ASSERT_EQ(row.at(m).empty(), row.at(tex).empty());
            if (row.at(m).empty()) continue;
            const double metres = std::stod(row.at(m));
            EXPECT_NEAR(std::stod(row.at(yd)), metres / 0.9144, 1.1) << row.at("class_as_named");
            const double from_metres = 1e5 / metres;
            // Both figures are rounded to whole ones.
            EXPECT_NEAR(std::stod(row.at(tex)), from_metres, 0.51 + 0.51 * from_metres / metres)
                << row.at("class_as_named");
        }
    }
}

}  // namespace
