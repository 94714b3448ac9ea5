// Rules on the source itself: who may include whom, no bare number where a quantity belongs, what
// stands at the top of the repository, how long a file may be.

#include <algorithm>
#include <cctype>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

namespace {

namespace fs = std::filesystem;
using Names = std::set<std::string>;

const fs::path root = SKEINFALL_SOURCE_DIR;

std::string text_of(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

std::vector<fs::path> files_below(const fs::path& folder, const Names& endings) {
    std::vector<fs::path> files;
    for (const auto& entry : fs::recursive_directory_iterator(folder))
        if (entry.is_regular_file() && endings.count(entry.path().extension().string()) == 1)
            files.push_back(entry.path());
    std::sort(files.begin(), files.end());
    return files;
}

/// A row of the table of lib/README.md: the rooms a room may include and the libraries it may use.
struct Room {
    Names rooms;
    Names libraries;
};

std::vector<std::string> cells_of(const std::string& row) {
    std::vector<std::string> cells;
    std::istringstream in(row);
    std::string cell;
    std::getline(in, cell, '|');
    while (std::getline(in, cell, '|')) {
        const auto from = cell.find_first_not_of(' ');
        cells.push_back(from == std::string::npos
                            ? ""
                            : cell.substr(from, cell.find_last_not_of(' ') - from + 1));
    }
    return cells;
}

Names names_in(const std::string& cell) {
    Names names;
    std::istringstream in(cell);
    std::string name;
    while (std::getline(in >> std::ws, name, ',')) names.insert(name);
    return names;
}

/// The table under "Who may include whom" in lib/README.md: values flow down only.
const std::map<std::string, Room>& rooms() {
    static const std::map<std::string, Room> table = [] {
        std::map<std::string, Room> t;
        std::ifstream in(root / "lib" / "README.md");
        std::string line;
        while (std::getline(in, line) && line.rfind("| Room", 0) != 0) {
        }
        std::getline(in, line);  // the rule under the heading
        while (std::getline(in, line) && !line.empty()) {
            const std::vector<std::string> cells = cells_of(line);
            t[cells.at(0)] = {names_in(cells.at(1)), names_in(cells.at(2))};
        }
        return t;
    }();
    return table;
}

/// A library that the table names and how its headers begin; the first that fits counts.
struct Library {
    std::string prefix;
    std::string name;
};
const std::vector<Library>& libraries() {
    static const std::vector<Library> table{
        {"boost/units/", "Boost.Units"},
        {"boost/program_options", "Boost.Program_options"},
        {"boost/", "Boost"},
        {"sqlite3", "SQLiteCpp"},
        {"SQLiteCpp/", "SQLiteCpp"},
        {"toml++/", "toml++"},
        {"csv.h", "libcsv"},
        {"cairo", "Cairo"},
        {"histedit.h", "libedit"},
        {"pango/", "Pango"},
        {"glib.h", "Pango"},
        {"qpdf/", "qpdf"},
        {"kainjow/", "mustache"},
        {"nlohmann/", "nlohmann-json"},
        {"fmt/", "{fmt}"},
        {"uniwidth.h", "libunistring"},
        {"unicase.h", "libunistring"},
        {"uninorm.h", "libunistring"},
        {"utf8", "utf8cpp"},
        {"dlfcn.h", "POSIX"},
        {"fcntl.h", "POSIX"},
        {"sys/", "POSIX"},
        {"unistd.h", "POSIX"},
    };
    return table;
}

bool is_standard(const std::string& header) {
    return std::regex_match(header, std::regex("[a-z_]+"));
}

/// Why `module` may not include `header`; empty when it may.
std::string objection(const std::string& module, const std::string& header) {
    static const std::string own = "skeinfall/";
    const Room& room = rooms().at(module);
    if (header.rfind(own, 0) == 0) {
        const std::string target =
            header.substr(own.size(), header.find('/', own.size()) - own.size());
        return target == module || room.rooms.count(target) == 1
                   ? ""
                   : module + " may not include " + target;
    }
    if (is_standard(header)) return {};
    if (module == "cli" && header.find('/') == std::string::npos &&
        (header == "sample.hpp" || header == "every_key.hpp" || fs::exists(root / "cli" / header)))
        return {};
    for (const Library& library : libraries())
        if (header.rfind(library.prefix, 0) == 0)
            return room.libraries.count(library.name) == 1 ? "" : module + " has no use for it";
    return "no rule says who may include it";
}

struct Include {
    std::size_t line = 0;
    std::string header;
};

std::vector<Include> includes_of(const std::string& text) {
    static const std::regex directive("^\\s*#\\s*include\\s*[<\"]([^>\"]+)[>\"].*");
    std::vector<Include> found;
    std::istringstream lines(text);
    std::string line;
    for (std::size_t number = 1; std::getline(lines, line); ++number) {
        std::smatch match;
        if (std::regex_match(line, match, directive)) found.push_back({number, match[1]});
    }
    return found;
}

TEST(Includes, TheTableItselfObjects) {
    for (const auto& [module, header] : std::vector<std::pair<std::string, std::string>>{
             {"base", "skeinfall/units/quantity.hpp"},
             {"base", "fmt/format.h"},
             {"units", "skeinfall/yarn/yarn.hpp"},
             {"stash", "skeinfall/project/project.hpp"},
             {"project", "skeinfall/stash/skein.hpp"},
             {"need", "skeinfall/stash/skein.hpp"},
             {"cover", "skeinfall/joins/plan.hpp"},
             {"store", "skeinfall/cover/cover.hpp"},
             {"report", "skeinfall/store/store.hpp"},
             {"report", "skeinfall/exchange/project.hpp"},
             {"exchange", "skeinfall/store/store.hpp"},
             {"cover", "skeinfall/data/hooks.hpp"},
             {"report", "SQLiteCpp/SQLiteCpp.h"},
             {"cli", "sqlite3.h"},
             {"cli", "toml++/toml.h"},
             {"exchange", "boost/program_options.hpp"},
             {"measure", "boost/units/quantity.hpp"},
             {"units", "curl/curl.h"},
         })
        EXPECT_NE(objection(module, header), "") << module << " includes " << header;
    for (const auto& [module, header] : std::vector<std::pair<std::string, std::string>>{
             {"base", "string_view"},
             {"base", "utf8.h"},
             {"units", "boost/units/quantity.hpp"},
             {"measure", "boost/math/distributions/normal.hpp"},
             {"store", "SQLiteCpp/SQLiteCpp.h"},
             {"exchange", "csv.h"},
             {"cli", "boost/program_options.hpp"},
             {"cli", "skeinfall/store/store.hpp"},
         })
        EXPECT_EQ(objection(module, header), "") << module << " includes " << header;
    EXPECT_EQ(includes_of("#include <a>\n// x\n  # include \"b/c.hpp\" // why\n").size(), 2U);
}

TEST(Includes, TheTableHasNoCircleAndNamesWhatIsThere) {
    Names above;
    for (std::size_t floor = 0; floor <= rooms().size(); ++floor)
        for (const auto& [name, room] : rooms())
            if (std::all_of(room.rooms.begin(), room.rooms.end(), [&](const std::string& below) {
                    return below == "data" || above.count(below) == 1;
                }))
                above.insert(name);
    for (const auto& [name, room] : rooms()) {
        EXPECT_EQ(above.count(name), 1U) << name << " includes in a circle, or what is no room";
        EXPECT_TRUE(name == "cli" || fs::is_directory(root / "lib" / "skeinfall" / name)) << name;
    }
}

TEST(Includes, EveryModuleKeepsToTheTable) {
    std::size_t seen = 0;
    for (const fs::path& folder : {root / "lib" / "skeinfall", root / "cli"}) {
        for (const fs::path& file : files_below(folder, {".hpp", ".cpp", ".in"})) {
            const std::string module =
                folder.filename() == "cli" ? "cli" : fs::relative(file, folder).begin()->string();
            ASSERT_EQ(rooms().count(module), 1U) << module << " is no room of the table";
            for (const Include& include : includes_of(text_of(file))) {
                EXPECT_EQ(objection(module, include.header), "")
                    << fs::relative(file, root).string() << ":" << include.line << ": includes "
                    << include.header;
                ++seen;
            }
        }
    }
    EXPECT_GT(seen, 100U);
}

TEST(Includes, FormattingStaysOutOfHeaders) {
    for (const fs::path& file : files_below(root / "lib" / "skeinfall", {".hpp"}))
        for (const Include& include : includes_of(text_of(file)))
            EXPECT_NE(include.header.rfind("fmt/", 0), 0U) << file;
}

/// Comments and the insides of quotes blanked out, line breaks kept.
std::string code_only(const std::string& text) {
    std::string out = text;
    enum class In { code, line, block, string, character } in = In::code;
    for (std::size_t i = 0; i < out.size(); ++i) {
        const char c = out[i];
        const char next = i + 1 < out.size() ? out[i + 1] : '\0';
        switch (in) {
            case In::code:
                if (c == '/' && next == '/') in = In::line;
                if (c == '/' && next == '*') in = In::block;
                if (c == '"') in = In::string;
                // 1'000 is a number.
                if (c == '\'' &&
                    (i == 0 || std::isalnum(static_cast<unsigned char>(out[i - 1])) == 0))
                    in = In::character;
                if (in == In::line || in == In::block) out[i] = ' ';
                break;
            case In::line:
                if (c == '\n')
                    in = In::code;
                else
                    out[i] = ' ';
                break;
            case In::block:
                if (c == '*' && next == '/') {
                    out[i + 1] = ' ';
                    in = In::code;
                }
                if (c != '\n') out[i] = ' ';
                break;
            case In::string:
            case In::character:
                if (c == '\\') {
                    out[i] = ' ';
                    if (i + 1 < out.size()) out[++i] = ' ';
                } else if (c == (in == In::string ? '"' : '\'')) {
                    in = In::code;
                } else {
                    out[i] = ' ';
                }
                break;
        }
    }
    return out;
}

/// Lines on which a function takes or gives a bare floating-point number.
std::vector<std::size_t> bare_numbers(const std::string& header) {
    const std::string code = code_only(header);
    static const std::regex number("\\b(double|float)\\b");
    std::vector<std::size_t> lines;
    for (std::sregex_iterator at(code.begin(), code.end(), number), end; at != end; ++at) {
        const auto place = static_cast<std::size_t>(at->position());
        const std::string before = code.substr(0, place);
        if (std::regex_search(before, std::regex("static_cast<\\s*$"))) continue;
        const auto open = std::count(before.begin(), before.end(), '(') -
                          std::count(before.begin(), before.end(), ')');
        const std::size_t after = code.find_first_of("(;={", place);
        const bool given = after != std::string::npos && code[after] == '(';
        if (open > 0 || given)
            lines.push_back(
                1 + static_cast<std::size_t>(std::count(before.begin(), before.end(), '\n')));
    }
    return lines;
}

TEST(BareNumbers, AreFoundInParametersAndReturns) {
    EXPECT_EQ(bare_numbers("int a;\nLength f(double metres);\n"), (std::vector<std::size_t>{2}));
    EXPECT_EQ(bare_numbers("void f(int a,\n       const float& b);"),
              (std::vector<std::size_t>{2}));
    EXPECT_EQ(bare_numbers("void f(const std::vector<double>& all);").size(), 1U);
    EXPECT_EQ(bare_numbers("[[nodiscard]] double metres() const;").size(), 1U);
    EXPECT_EQ(bare_numbers("std::optional<double> metres() const;").size(), 1U);
    EXPECT_EQ(bare_numbers("void f(std::string = \"(\"); double x = g(1.0);").size(), 0U);
    EXPECT_EQ(bare_numbers("// f(double)\n/* double f() */ void f(Length a);").size(), 0U);
    EXPECT_EQ(bare_numbers("using Length = Quantity<Unit, double>;").size(), 0U);
    EXPECT_EQ(bare_numbers("Ratio r() { return Ratio(static_cast<double>(n)); }").size(), 0U);
    EXPECT_EQ(bare_numbers("void f(doublet a);").size(), 0U);
}

TEST(BareNumbers, NoPublicHeaderHasOne) {
    auto headers = files_below(root / "lib" / "skeinfall", {".hpp"});
    // What stands in a detail folder is a module's own and is not installed.
    std::erase_if(headers,
                  [](const fs::path& file) { return file.parent_path().filename() == "detail"; });
    ASSERT_GT(headers.size(), 15U);
    for (const fs::path& file : headers)
        for (const std::size_t line : bare_numbers(text_of(file)))
            ADD_FAILURE() << fs::relative(file, root).string() << ":" << line
                          << ": name a quantity, or units::Ratio for a pure number";
}

/// Whether code counts in a type that is as wide as its machine likes.
bool counts_in_long(const std::string& code) {
    const std::string word = "long";
    const auto part_of_a_name = [](char c) {
        return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_';
    };
    for (std::size_t at = code.find(word); at != std::string::npos; at = code.find(word, at + 1)) {
        const std::size_t after = at + word.size();
        const bool begins = at == 0 || !part_of_a_name(code[at - 1]);
        const bool ends = after == code.size() || !part_of_a_name(code[after]);
        if (begins && ends && code.compare(after, 7, " double") != 0) return true;
    }
    return false;
}

TEST(WholeNumbers, AreAsWideOnEveryMachine) {
    EXPECT_TRUE(counts_in_long(code_only("unsigned long rows = 1;")));
    EXPECT_FALSE(counts_in_long(code_only("std::int64_t rows = longest;  // long")));
    EXPECT_FALSE(counts_in_long("long double exact = 1.0L;"));
    for (const char* const folder : {"lib", "cli", "tests"})
        for (const fs::path& file : files_below(root / folder, {".hpp", ".cpp"})) {
            const std::string text = text_of(file);
            // Most of it is prose: code is only looked for where the word may be a type.
            EXPECT_FALSE(counts_in_long(text) && counts_in_long(code_only(text)))
                << fs::relative(file, root).string()
                << ": std::int64_t, for long has 32 bits elsewhere";
        }
}

TEST(Digits, BecomeNumbersInOnePlace) {
    const std::set<std::string> may{"lib/skeinfall/base/numbers.hpp",
                                    "lib/skeinfall/report/drawing/picture_canvas.cpp"};  // hex
    std::set<std::string> do_so;
    for (const char* const folder : {"lib", "cli"})
        for (const fs::path& file : files_below(root / folder, {".hpp", ".cpp"})) {
            const std::string code = code_only(text_of(file));
            for (const char* const reader : {"from_chars", "strtod", "strtol", "stod(", "stoi(",
                                             "stol(", "stoll(", "atof(", "atoi(", "sscanf"})
                if (code.find(reader) != std::string::npos)
                    do_so.insert(fs::relative(file, root).string());
        }
    EXPECT_EQ(do_so, may);
}

TEST(Repository, TheTopHoldsWhatItShouldAndNothingElse) {
    const Names needed{"CMakeLists.txt", "lib", "cli", "schema", "tests"};
    const Names allowed{"CMakeLists.txt", "README.md", "DEVELOPERS.md", "lib", "cli",
                        "schema",         "tests",     "sample_stash"};
    Names found;
    for (const auto& entry : fs::directory_iterator(root)) {
        const std::string name = entry.path().filename().string();
        // Hidden files, and build trees, which .gitignore leaves out.
        if (name[0] == '.' || (entry.is_directory() && name.rfind("build", 0) == 0)) continue;
        if (fs::equivalent(entry.path(), SKEINFALL_BINARY_DIR)) continue;
        EXPECT_EQ(allowed.count(name), 1U) << name;
        found.insert(name);
    }
    for (const std::string& name : needed) EXPECT_EQ(found.count(name), 1U) << name;
}

TEST(Repository, NoSourceIsLongerThanSixHundredLines) {
    for (const char* folder : {"lib", "cli", "tests"})
        for (const fs::path& file : files_below(root / folder, {".hpp", ".cpp", ".cmake", ".in"})) {
            const std::string text = text_of(file);
            EXPECT_LE(std::count(text.begin(), text.end(), '\n'), 600)
                << fs::relative(file, root).string();
        }
}

TEST(Repository, EveryHeaderSaysWhatItIsFor) {
    for (const fs::path& file : files_below(root / "lib" / "skeinfall", {".hpp"}))
        EXPECT_NE(text_of(file).find("/// \\file\n"), std::string::npos)
            << fs::relative(file, root).string();
}

}  // namespace
