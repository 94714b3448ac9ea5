// The rows a stash begins with are those of lib/data, and the unit rules turn away no text that the
// program reads.

#include <map>
#include <set>

#include <SQLiteCpp/SQLiteCpp.h>
#include <gmock/gmock.h>

#include "skeinfall/exchange/csv.hpp"
#include "skeinfall/units/parse.hpp"

#include "store/stash_file.hpp"

namespace skeinfall::store_tests {
namespace {

using Row = std::map<std::string, std::string>;

std::vector<Row> table(const std::string& name) {
    const std::string text =
        bytes_of(fs::path(SKEINFALL_SOURCE_DIR) / "lib/data" / (name + ".csv"));
    std::vector<std::string> header;
    std::vector<Row> out;
    const exchange::SourceText source(text, name);
    exchange::parse_csv(source, [&](const exchange::CsvRow& row) {
        Row cells;
        for (std::size_t i = 0; i < row.size(); ++i) {
            if (header.size() <= i) header.push_back(row[i].text);
            cells[header[i]] = row[i].text;
        }
        out.push_back(cells);
    });
    out.erase(out.begin());
    return out;
}

std::set<std::string> rows_of(const fs::path& path, const std::string& sql) {
    SQLite::Database database(path.string(), SQLite::OPEN_READONLY);
    SQLite::Statement rows(database, sql);
    std::set<std::string> out;
    while (rows.executeStep())
        out.insert(rows.getColumn(0).getString() + "|" + rows.getColumn(1).getString() + "|" +
                   rows.getColumn(2).getString());
    return out;
}

TEST(Reference, UnitsAreThoseOfTheTables) {
    std::map<std::string, std::string> kind_of;
    for (const Row& row : table("units")) kind_of[row.at("id")] = row.at("kind");
    std::set<std::string> wanted;
    std::set<std::string> seen;
    for (const Row& row : table("unit_names")) {
        const std::string& kind = kind_of.at(row.at("unit"));
        if ((kind == "length" || kind == "mass") && seen.insert(row.at("name")).second)
            wanted.insert(row.at("name") + "|" + kind + "|" + row.at("source"));
    }
    EXPECT_GT(wanted.size(), 80U);
    const Folder folder;
    make_stash(folder / "stash", {});
    EXPECT_EQ(rows_of(folder / "stash", "SELECT name, kind, source FROM unit"), wanted);
}

TEST(Reference, ClassesAreThoseOfTheTable) {
    std::set<std::string> wanted;
    for (const Row& row : table("yarn_weight_classes"))
        wanted.insert(row.at("symbol_number") + "|" + row.at("category") + "|" + row.at("source"));
    EXPECT_EQ(wanted.size(), 8U);
    const Folder folder;
    make_stash(folder / "stash", {});
    EXPECT_EQ(rows_of(folder / "stash", "SELECT number, name, source FROM weight_class"), wanted);
}

TEST(Reference, EveryTextThatIsReadAsAFigureIsTaken) {
    std::vector<stash::Skein> skeins;
    for (const Row& row : table("unit_names")) {
        const std::string& name = row.at("name");
        std::string upper = name;
        for (char& c : upper) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
        std::string spread = name;
        if (const auto blank = spread.find(' '); blank != std::string::npos)
            spread.replace(blank, 1, ".\t ");
        for (const std::string& text :
             {"3 " + name, "3" + name, "1 1/2 " + upper + ".", "\u00bd\u00a0" + name,
              "2,5\t" + name, "1 " + spread + " ", " 1e2 " + name}) {
            stash::Skein skein = plain_skein();
            if (const auto length = units::parse_length(text))
                skein.yarn.label.length = units::Printed<units::Length>{text, *length};
            if (const auto mass = units::parse_mass(text))
                skein.yarn.label.mass = units::Printed<units::Mass>{text, *mass};
            if (skein.yarn.label.length || skein.yarn.label.mass) skeins.push_back(skein);
        }
    }
    EXPECT_GT(skeins.size(), 300U);
    const Folder folder;
    EXPECT_EQ(make_stash(folder / "stash", skeins).size(), skeins.size());
}

}  // namespace
}  // namespace skeinfall::store_tests
