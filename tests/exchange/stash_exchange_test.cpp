// CSV and JSON of a stash: exact both ways, agreed with by other programs.

#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include "skeinfall/exchange/csv.hpp"
#include "skeinfall/exchange/stash_csv.hpp"
#include "skeinfall/exchange/stash_json.hpp"

#include "exchange/problems_of.hpp"
#include "support/csv_rows.hpp"

namespace skeinfall::exchange {
namespace {

namespace fs = std::filesystem;
using stash::Movement;
using stash::MovementKind;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::StartsWith;

std::vector<Movement> movements_of(const StashTable& table) {
    std::vector<Movement> out;
    for (const stash::Line& line : table.lines) out.push_back(line.movement);
    return out;
}

std::vector<std::string> csv_problems(const std::string& text) {
    return problems_of([&] { return parse_stash_csv(text, "s.csv"); });
}
std::vector<std::string> json_problems(const std::string& text) {
    return problems_of([&] { return parse_stash_json(text, "s.json"); });
}

const std::string begin = R"({"format":"skeinfall stash","version":1,"movements":[)";

/// One of each kind.
const std::string ledger =
    "id,yarn,label_length,label_mass,state,weighed,scale,tare,note,movement,date,amount,other,"
    "purpose,role\n"
    "a,Moss,200 m,100 g,whole,90 g,1 g,4 g,bought note,bought,2024-05-01,,,,\n"
    "a,,,,,,1 g,,some,wound off,2024-05-02,20 g,b,,\n"
    "b,Moss,200 m,100 g,part,,1 g,,,wound from,2024-05-02,20 g,a,,\n"
    "a,,,,,,,,,used in,2024-05-03,30 yd,,\"Cowl, red\",\n"
    "a,,,,,,0.1 oz,,,ripped back,,1/2 oz,,Cowl,\n"
    "a,Moss,210 m,100 g,whole,,,,misread,corrected,,,,,\n"
    "a,,,,,40 g,1 g,,,weighed,2024-05-04,,,,\n"
    "b,,,,,,,,,given,2024-05-05,,,Maud,\n"
    "a,,,,,,,,,set aside,2024-05-06,30 m,,Hat,MC\n"
    "a,,,,,,,,,set aside,2024-05-06,,,Scarf,\n"
    "a,,,,,,,,,released,2024-05-07,,,Hat,\n";

std::vector<stash::WorkReading> some_readings() {
    stash::WorkReading plain;
    plain.project = "Hat \"x\" \u00e9";
    plain.role = "MC";
    plain.mass = {"62 g", *units::parse_mass("62 g")};
    plain.scale = {"1/10 oz", *units::parse_mass("1/10 oz")};
    plain.day = std::chrono::year{2024} / 5 / 31;
    stash::WorkReading full = plain;
    full.piece = "sleeve";
    full.copy = 2;
    full.row = 40;
    full.skein = "a";
    full.tare = {"8 g", *units::parse_mass("8 g")};
    full.afresh = true;
    full.note = "line\nbreak";
    return {plain, full};
}

TEST(StashExchange, ALedgerIsRead) {
    const auto movements = movements_of(parse_stash_csv(ledger, "s.csv"));
    ASSERT_EQ(movements.size(), 12U);
    EXPECT_EQ(movements[0].kind, MovementKind::bought);
    EXPECT_EQ(movements[0].described->note, "bought note");
    EXPECT_EQ(movements[1].kind, MovementKind::weighed);
    EXPECT_EQ(movements[1].tare->text, "4 g");
    EXPECT_EQ(movements[2].kind, MovementKind::wound_off);
    EXPECT_EQ(movements[2].other, "b");
    EXPECT_EQ(movements[2].note, "some");
    EXPECT_EQ(movements[4].purpose, "Cowl, red");
    EXPECT_EQ(stash::text(*movements[4].amount), "30 yd");
    EXPECT_FALSE(movements[5].day);
    EXPECT_EQ(movements[6].described->yarn.label.length->text, "210 m");
    EXPECT_EQ(movements[8].purpose, "Maud");
    EXPECT_FALSE(movements[8].amount);
    EXPECT_EQ(movements[9].kind, MovementKind::set_aside);
    EXPECT_EQ(stash::text(*movements[9].amount), "30 m");
    EXPECT_EQ(movements[9].role, "MC");
    EXPECT_FALSE(movements[10].amount);
    EXPECT_EQ(movements[11].kind, MovementKind::released);
    EXPECT_EQ(movements[11].purpose, "Hat");
}

TEST(StashExchange, WrittenAndReadAgainItIsTheSameToTheByte) {
    const auto movements = movements_of(parse_stash_csv(ledger, "s.csv"));
    const std::string csv = stash_csv(movements);
    const std::string json = stash_json(movements);
    EXPECT_EQ(movements_of(parse_stash_csv(csv, "s.csv")), movements);
    EXPECT_EQ(movements_of(parse_stash_json(json, "s.json")), movements);
    EXPECT_EQ(stash_csv(movements_of(parse_stash_json(json, "s.json"))), csv);
    EXPECT_EQ(stash_json(movements_of(parse_stash_csv(csv, "s.csv"))), json);
}

TEST(StashExchange, MistakesOfMovements) {
    const std::string head = "id,yarn,weighed,scale,tare,movement,date,amount,other,purpose\n";
    EXPECT_THAT(
        csv_problems(head + "a,Moss,,,,lost,,,,\n"
                            "a,Moss,5 g,1 g,,weighed,,,,\n"
                            "a,,,,,used in,2024-02-30,,,\n"
                            "a,,,,,wound off,,5 m,,\n"
                            ",,5 g,1 g,,weighed,,,,\n"
                            "a,,,,,used in,,5 g,,\n"
                            "a,,,,,weighed,,,,\n"
                            "a,,5 g,,,given,,,,\n"
                            "b,Moss,,,,bought,,5 m,,x\n"),
        ElementsAre(StartsWith("s.csv:2:11: movement: \"lost\" is not something that happens to a "
                               "skein; expected one of bought, "),
                    StartsWith("s.csv:3:3: yarn: a row of this movement describes no skein"),
                    StartsWith("s.csv:4:15: date: the calendar has no day \"2024-02-30\""),
                    StartsWith("s.csv:5:1: the skein at the other end is missing"),
                    StartsWith("s.csv:6:1: no skein is named"),
                    StartsWith("s.csv:7:1: the step of the scale is missing"),
                    StartsWith("s.csv:8:1: the reading is missing"),
                    StartsWith("s.csv:9:4: weighed: this movement has an amount, not a reading"),
                    StartsWith("s.csv:10:19: amount: this movement has no amount"),
                    StartsWith("s.csv:10:24: purpose: this movement has no purpose")));
}

// OWASP, CSV Injection (https://owasp.org/www-community/attacks/CSV_Injection): cells that begin
// with =, +, -, @, tab or carriage return are run by spreadsheets.
TEST(StashExchange, NoCellIsAFormula) {
    std::string rows = "yarn,note\n";
    std::vector<Movement> movements;
    for (const std::string text : {"=1+1", "+1", "-1", "@SUM(A1)", "'=1", "''=1", "'tis", "it's",
                                   "'", " blank ", "a,b", "say \"hi\"", "=\"a,b\"\n=c"}) {
        Movement movement;
        movement.skein = "s" + std::to_string(movements.size() + 1);
        movement.described.emplace();
        movement.described->yarn.name = "Moss";
        movement.described->note = text;
        movements.push_back(movement);
    }
    const std::string csv = stash_csv(movements);
    const std::string text = csv;
    for (const CsvRow& row : support::csv_rows(SourceText(text, "s")))
        for (const CsvCell& cell : row) {
            ASSERT_TRUE(cell.text.empty() ||
                        std::string("=+-@\t\r\n").find(cell.text[0]) == std::string::npos)
                << cell.text;
        }
    EXPECT_EQ(movements_of(parse_stash_csv(csv, "s")), movements);
    EXPECT_EQ(movements_of(parse_stash_json(stash_json(movements), "s")), movements);
}

TEST(StashJson, MistakesHaveTheirPlaces) {
    EXPECT_THAT(json_problems(begin + "{\"id\":\"a\",\n  \"yarn\":\"\"},\n"
                                      "{\"yarn\":\"Moss\",\"clas\":4,\"note\":7,\n"
                                      " \"label_mass\":\"3 ozz\",\"yarn\":\"x\",\"knots\":1.5},\n"
                                      "[1,{\"a\":[]}],\n"
                                      "null,\n"
                                      "{\"yarn\":[\"a\"]}]}"),
                ElementsAre(StartsWith("s.json:1:54: no yarn is named"),
                            StartsWith("s.json:3:23: unknown field \"clas\""),
                            StartsWith("s.json:3:32: note: 7 cannot stand here; expected a text"),
                            StartsWith("s.json:4:15: label_mass: \"3 ozz\": unknown unit"),
                            StartsWith("s.json:4:30: a second yarn"),
                            StartsWith("s.json:4:42: knots: 1.5 cannot stand here"),
                            StartsWith("s.json:5:1: a list cannot stand here"),
                            StartsWith("s.json:6:4: this cannot stand here"),
                            StartsWith("s.json:7:1: no yarn is named"),
                            StartsWith("s.json:7:9: a list cannot stand here")));
}

TEST(StashJson, WhatIsNoStash) {
    EXPECT_THAT(json_problems("[]"), Not(IsEmpty()));
    EXPECT_THAT(json_problems("7"), Not(IsEmpty()));
    EXPECT_THAT(json_problems(""), ElementsAre(StartsWith("s.json:1:1: the text ends too early")));
    EXPECT_THAT(json_problems("{}").front(), StartsWith("s.json:1:1: this is not a stash"));
    EXPECT_THAT(json_problems("{\"format\":\"other\",\"version\":2,\"movements\":{}}"),
                ElementsAre(StartsWith("s.json:1:1: there is no list"),
                            StartsWith("s.json:1:11: the format is \"other\""),
                            StartsWith("s.json:1:29: the version is 2; expected 1"),
                            StartsWith("s.json:1:43: an object cannot stand here")));
    EXPECT_THAT(json_problems(begin + "{\"yarn\":\"Moss\"},]}"),
                ElementsAre(StartsWith("s.json:1:70: this is not JSON")));
    EXPECT_THAT(
        json_problems(begin + "\xff"),
        ElementsAre(StartsWith("s.json:1:54: a letter here is saved in an older way than UTF-8")));
    const std::string deep(100'000, '[');
    EXPECT_THAT(json_problems(deep), Not(IsEmpty()));
    EXPECT_THAT(json_problems(begin + deep), Not(IsEmpty()));
}

TEST(StashExchange, AHugeFileIsRefusedBeforeItIsRead) {
    const fs::path file = fs::temp_directory_path() / "skeinfall-two-gigabytes.csv";
    std::ofstream(file) << "yarn\nMoss\n";
    fs::resize_file(file, std::uintmax_t{2} * 1024 * 1024 * 1024);
    EXPECT_THAT(problems_of([&] { return read_stash_csv(file); }),
                ElementsAre(file.string() + ": the file is too large; expected at most 268435456 "
                                            "bytes\n    Check that it is the right file."));
    EXPECT_THAT(problems_of([&] { return read_stash_json(file); }).size(), 1U);
    fs::remove(file);
}

/// What a program prints, fed a file.
std::string output_of(const std::string& program, const std::string& input) {
    const fs::path file = fs::temp_directory_path() /
                          ("skeinfall-exchange-" + std::to_string(std::hash<std::string>{}(input)));
    std::ofstream(file, std::ios::binary) << input;
    FILE* pipe = popen((program + " '" + file.string() + "' 2>&1").c_str(), "r");
    if (pipe == nullptr) return "cannot run";
    std::string out;
    std::array<char, 4096> block{};
    while (const std::size_t got = fread(block.data(), 1, block.size(), pipe))
        out.append(block.data(), got);
    const int result = pclose(pipe);
    fs::remove(file);
    return result == 0 ? out : "failed: " + out;
}

const std::string schema = std::string(SKEINFALL_SOURCE_DIR) + "/schema/stash.schema.json";

TEST(StashJson, ReadingsComeBackToTheByte) {
    const std::string json = stash_json({}, some_readings());
    const StashTable read = parse_stash_json(json, "s.json");
    EXPECT_EQ(read.readings, some_readings());
    EXPECT_EQ(stash_json({}, read.readings), json);
    EXPECT_EQ(json.find("readings"), json.rfind("readings"));
    EXPECT_EQ(stash_json({}, {}).find("readings"), std::string::npos);
}

TEST(StashJson, MistakesOfReadings) {
    const std::string start =
        R"({"format":"skeinfall stash","version":1,"movements":[],"readings":[)";
    const std::string good =
        R"("project":"Hat","role":"MC","row":4,"mass":"62 g","scale":"1 g","date":"2024-05-31")";
    EXPECT_THAT(json_problems(start + "{" + good + "}]}"), IsEmpty());
    EXPECT_THAT(json_problems(start + "{}]}").size(), 6U);
    for (const auto& [more, says] : std::vector<std::pair<std::string, std::string>>{
             {R"("copy":0)", "copy: \"0\" is out of range"},
             {R"("copy":"2")", "copy: \"2\" cannot stand here"},
             {R"("afresh":"yes")", "true or false"},
             {R"("tare":"2 m")", "is a length"},
             {R"("yarn":"x")", "unknown field \"yarn\""},
             {R"("role":"CC")", "a second role"}}) {
        const auto problems = json_problems(start + "{" + good + "," + more + "}]}");
        ASSERT_EQ(problems.size(), 1U) << more;
        EXPECT_THAT(problems[0], HasSubstr(says)) << more;
    }
    EXPECT_THAT(json_problems(R"({"format":"skeinfall stash","version":1,"readings":[]})"),
                ElementsAre(HasSubstr("there is no list \"movements\"")));
}

// Outside check: Debian's python3-jsonschema.
TEST(StashJson, AgreesWithItsJsonSchema) {
    const std::string check =
        "python3 -c \"import json,sys,jsonschema;"
        "s=json.load(open('" +
        schema +
        "'));jsonschema.Draft202012Validator.check_schema(s);"
        "e=list(jsonschema.Draft202012Validator(s).iter_errors(json.load(open(sys.argv[1]))));"
        "print(len(e))\"";
    EXPECT_EQ(output_of(check, stash_json(movements_of(parse_stash_csv(ledger, "s.csv")))), "0\n");
    EXPECT_EQ(output_of(check, stash_json({})), "0\n");
    EXPECT_EQ(output_of(check, stash_json({}, some_readings())), "0\n");
    EXPECT_NE(output_of(check, R"({"format":"skeinfall stash","version":1,"movements":[],)"
                               R"("readings":[{"project":"Hat"}]})"),
              "0\n");
    for (const std::string bad :
         {"{}", "{\"yarn\":\"\"}", "{\"yarn\":\"a\",\"class\":\"4\"}",
          "{\"yarn\":\"a\",\"movement\":\"lost\"}", "{\"id\":\"a\",\"movement\":\"weighed\"}",
          "{\"id\":\"a\",\"movement\":\"set aside\"}", "{\"yarn\":\"a\",\"note\":\"\"}",
          "{\"yarn\":\"a\",\"extra\":\"\"}", "{\"yarn\":\"a\",\"id\":\"a b\"}",
          "{\"yarn\":\"a\",\"date\":\"24-1-1\"}", "{\"yarn\":\"a\",\"weighed\":\"5 g\"}"}) {
        EXPECT_NE(output_of(check, begin + bad + "]}"), "0\n") << bad;
    }
}

// Outside check: Python's csv module.
TEST(StashCsv, PythonReadsTheSameCells) {
    const auto movements = movements_of(parse_stash_csv(ledger, "s.csv"));
    const std::string csv = stash_csv(movements);
    const std::string text = csv;
    std::string ours;
    for (const CsvRow& row : support::csv_rows(SourceText(text, "s"))) {
        for (const CsvCell& cell : row) ours += cell.text + "|";
        ours += "\n";
    }
    EXPECT_EQ(output_of("python3 -c \"import csv,sys\n"
                        "for row in csv.reader(open(sys.argv[1],newline='')):\n"
                        "  print(''.join(c+'|' for c in row))\"",
                        csv),
              ours);
}

/// A text the readers take: printable, up to 40 characters.
/// At most 92 bytes, so that two and a line break are still a note.
std::string some_text() {
    const auto parts = *rc::gen::container<std::vector<std::string>>(rc::gen::element<std::string>(
        "a", "Z", "7", " ", ",", "\"", "'", "=", "-", "+", "@", ";", "é", "毛", "\\", "{", "<"));
    std::string out;
    for (const std::string& part : parts)
        if (out.size() < 90) out += part;
    return out.find_first_not_of(' ') == std::string::npos ? "x" : out;
}

Movement some_bought(const std::string& id) {
    Movement out;
    out.skein = id;
    if (*rc::gen::arbitrary<bool>()) out.day = std::chrono::year{2024} / 2 / 29;
    out.described.emplace();
    stash::Skein& skein = *out.described;
    skein.yarn.name = some_text();
    if (*rc::gen::arbitrary<bool>()) skein.colourway = some_text();
    if (*rc::gen::arbitrary<bool>()) skein.dye_lot = some_text();
    if (*rc::gen::arbitrary<bool>()) skein.shade_group = some_text();
    if (*rc::gen::arbitrary<bool>()) skein.note = some_text() + "\n" + some_text();
    if (*rc::gen::arbitrary<bool>()) skein.yarn.weight = yarn::WeightClass{*rc::gen::inRange(0, 8)};
    const int percent = *rc::gen::inRange(1, 100);
    if (*rc::gen::arbitrary<bool>())
        skein.yarn.fibre = *yarn::parse_fibre_content(std::to_string(percent) + ".5% merino wool " +
                                                      std::to_string(99 - percent) + ".5% nylon");
    if (*rc::gen::arbitrary<bool>())
        skein.yarn.label = {
            units::Printed<units::Length>{"170 yd", *units::parse_length("170 yd")},
            units::Printed<units::Mass>{"1 3/4 oz", *units::parse_mass("1 3/4 oz")}};
    skein.part = *rc::gen::arbitrary<bool>();
    skein.knots = *rc::gen::inRange(0, 4);
    return out;
}

RC_GTEST_PROP(StashExchangeProperty, BothFormsReadBack, ()) {
    std::vector<Movement> movements;
    const int count = *rc::gen::inRange(0, 6);
    for (int i = 0; i < count; ++i) movements.push_back(some_bought("s" + std::to_string(i)));
    RC_ASSERT(movements_of(parse_stash_csv(stash_csv(movements), "s")) == movements);
    RC_ASSERT(movements_of(parse_stash_json(stash_json(movements), "s")) == movements);
}

}  // namespace
}  // namespace skeinfall::exchange
