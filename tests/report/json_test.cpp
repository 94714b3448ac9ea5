// Answers as JSON: they parse, and their keys stand as documented, in order.

#include "skeinfall/report/json.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "skeinfall/report/joins.hpp"

#include "support/builders.hpp"
#include "support/hostile.hpp"
#include "support/joins.hpp"

namespace {

using namespace skeinfall;
using Json = nlohmann::ordered_json;
using ::testing::ElementsAre;
using units::metre;

std::vector<std::string> keys(const Json& object) {
    std::vector<std::string> out;
    for (const auto& [key, value] : object.items()) out.push_back(key);
    return out;
}

Json parsed(const std::string& text) {
    EXPECT_EQ(text.back(), '\n');
    return Json::parse(text);
}

project::Project wrap_to_weigh() {
    project::Project out = support::rectangle(25, 120);
    out.roles[0].total_length = project::PerSize<units::Length>(300.0 * metre);
    out.roles[0].grist = support::grist("200 m / 100 g");
    return out;
}

stash::Skein kelpie_skein(const std::string& id) {
    return support::whole(id, support::yarn_of("Kelpie", support::metres(200), support::grams(100)),
                          "A17");
}

Json cover_json_of(const project::Project& project, const std::vector<stash::Skein>& stash) {
    const need::MakeNeed make = need::need_of(project, 0);
    const cover::MakeCover cover = cover::cover_make(project, make, stash, {});
    return parsed(report::cover_json(project, make, cover, {}));
}

TEST(NeedJson, KeysAndFigures) {
    const project::Project project = wrap_to_weigh();
    const Json json = parsed(report::need_json(project, need::need_of(project, 0)));
    EXPECT_THAT(keys(json), ElementsAre("title", "size", "roles"));
    EXPECT_EQ(json["title"], "Harbour wrap");
    EXPECT_TRUE(json["size"].is_null());
    const Json& role = json["roles"].at(0);
    EXPECT_THAT(keys(role),
                ElementsAre("role", "need_m", "spread_m", "need_g", "found", "source", "evidence",
                            "passed_over", "parts", "causes", "notes", "contradictions"));
    EXPECT_NEAR(role["need_m"].get<double>(), 300.0, 1e-9);
    EXPECT_NEAR(role["spread_m"].get<double>(), 24.0, 1e-9);
    EXPECT_NEAR(role["need_g"].get<double>(), 150.0, 1e-9);
    EXPECT_EQ(role["parts"].at(0)["part"], "body");
    EXPECT_THAT(keys(role["parts"].at(0)), ElementsAre("part", "length_m"));
    EXPECT_THAT(keys(role["causes"].at(0)), ElementsAre("cause", "relative", "narrowed_by"));
}

TEST(NeedJson, SizeAndUnknownMass) {
    project::Project project = wrap_to_weigh();
    project.sizes = {"S", "M"};
    project.roles[0].grist.reset();
    const Json json = parsed(report::need_json(project, need::need_of(project, 1)));
    EXPECT_EQ(json["size"], "M");
    EXPECT_TRUE(json["roles"].at(0)["need_g"].is_null());
}

TEST(CoverJson, KeysAndFigures) {
    const Json json = cover_json_of(
        wrap_to_weigh(), {kelpie_skein("s1"), kelpie_skein("s2"), kelpie_skein("s3"), {}});
    EXPECT_THAT(keys(json), ElementsAre("title", "size", "verdict", "chance", "chance_with_margin",
                                        "margin_met", "roles", "remedies"));
    EXPECT_EQ(json["verdict"], "covered");
    const Json& role = json["roles"].at(0);
    EXPECT_THAT(keys(role),
                ElementsAre("role", "verdict", "chance", "chance_anywhere", "chance_with_margin",
                            "margin_met", "margin_short_m", "contradictions", "against_slip",
                            "rows_known", "confidence", "weigh_first", "measure_first", "needed_m",
                            "supply_m", "supply_spread_m", "tails_m", "wound_off_m", "cut_off_m",
                            "spare_m", "to_be_sure_m", "label_cancels", "proven", "chosen", "cut",
                            "notes", "next", "skeins"));
    EXPECT_EQ(role["chosen"], (Json{"s1", "s2"}));
    EXPECT_NEAR(role["supply_m"].get<double>(), 400.0, 1e-9);
    EXPECT_NEAR(role["tails_m"].get<double>(), 0.6, 1e-9);
    EXPECT_NEAR(role["spare_m"].get<double>(), 99.4 - 1.25, 1e-9)
        << "half a row of 2.5 m at the join";
    EXPECT_TRUE(role["proven"].get<bool>());
    ASSERT_EQ(role["skeins"].size(), 4U);
    EXPECT_THAT(keys(role["skeins"].at(0)), ElementsAre("id", "standing", "length_m", "reason"));
    EXPECT_EQ(role["skeins"].at(1)["standing"], "taken");
    EXPECT_EQ(role["skeins"].at(2)["standing"], "fits");
    EXPECT_EQ(role["skeins"].at(3)["standing"], "out");
    EXPECT_TRUE(role["skeins"].at(3)["length_m"].is_null());
}

TEST(CoverJson, AShortfallNamesTheNextStep) {
    const Json json = cover_json_of(wrap_to_weigh(), {});
    EXPECT_EQ(json["verdict"], "short");
    EXPECT_EQ(json["roles"].at(0)["chosen"], Json::array());
    EXPECT_FALSE(json["roles"].at(0)["next"].empty());
}

TEST(JoinsJson, KeysAndPlaces) {
    project::Project project = support::rectangle(25, 12);
    project.tail = 1.0 * units::metre;
    const auto work = support::rows_of(std::vector<double>(12, 10.0));
    need::MakeNeed make;
    make.roles = {work.need};
    make.steps = work.steps;
    const Json json = parsed(report::joins_json(
        project,
        joins::answer_joins(project, make,
                            {{"MC", {support::ball("a", 85), support::ball("b", 55)}}}, {})));
    EXPECT_THAT(keys(json), ElementsAre("title", "joins", "perhaps_more", "finishes", "lasts",
                                        "chance", "chance_as_planned", "chance_by_slip",
                                        "rules_kept", "ends_cut", "ends_m", "roles"));
    EXPECT_EQ(json["joins"], 1);
    EXPECT_EQ(json["finishes"], true);
    const Json& role = json["roles"].at(0);
    EXPECT_THAT(keys(role),
                ElementsAre("role", "finishes", "contradictions", "against_slip", "chance",
                            "chance_with_spares", "chance_by_slip", "missing_m", "proven",
                            "pieces_at_least", "left_m", "stretches", "spares", "row_ends",
                            "anywhere", "stops", "lot_changes", "by_turns", "colours", "notes"));
    const Json& stretch = role["stretches"].at(0);
    EXPECT_THAT(keys(stretch),
                ElementsAre("skein", "from", "to", "earliest", "latest", "worked_in_m", "tails_m",
                            "wound_off_m", "left_m", "knots", "weigh_after_steps"));
    EXPECT_THAT(keys(stretch["to"]), ElementsAre("place", "steps_done", "share_of_next"));
    EXPECT_EQ(stretch["to"]["place"], "after row 8 of wrap");
    EXPECT_EQ(stretch["to"]["steps_done"], 8);
    EXPECT_NEAR(stretch["left_m"].get<double>(), 3.0, 1e-9);
}

TEST(MaterialsJson, KeysAndFigures) {
    project::Project project = wrap_to_weigh();
    project.roles[0].weight = yarn::WeightClass{4};
    project.gauge.hook = 5.0 * units::millimetre;
    project.totals_for.of.reset();
    const Json json = parsed(report::materials_json(materials::section_of(project)));
    EXPECT_THAT(keys(json), ElementsAre("title", "craft", "terms", "skill", "sizes", "finished",
                                        "yarns", "adjust", "makers_within", "margin",
                                        "stitches_per_m", "rows_per_m", "gauge_stitch", "hook_mm",
                                        "needle_mm", "notions", "care", "cautions", "credit"));
    const Json& yarn = json["yarns"].at(0);
    EXPECT_THAT(keys(yarn), ElementsAre("role", "name", "colour", "class", "class_name", "fibre",
                                        "put_up_length", "put_up_mass", "grist_m_per_100g",
                                        "worked_out_m", "total_m", "skeins", "for_most_makers",
                                        "found", "basis", "testers", "one_lot", "held_with"));
    EXPECT_EQ(yarn["class_name"], "Medium");
    EXPECT_EQ(yarn["skeins"], (Json{2}));
    EXPECT_NEAR(yarn["total_m"].at(0).get<double>(), 300.0, 1e-9);
    EXPECT_NEAR(json["hook_mm"].get<double>(), 5.0, 1e-9);
    EXPECT_TRUE(json["needle_mm"].is_null());
    EXPECT_THAT(keys(json["finished"].at(0)), ElementsAre("piece", "round", "sizes"));
}

TEST(StashJson, KeysAndUnknowns) {
    stash::Skein part = kelpie_skein("s2");
    part.part = true;
    part.dye_lot.reset();
    part.yarn.fibre = support::fibre("80% wool 20% nylon");
    const Json json = parsed(report::stash_json({kelpie_skein("s1"), part}));
    EXPECT_THAT(keys(json), ElementsAre("skeins"));
    EXPECT_THAT(keys(json["skeins"].at(0)),
                ElementsAre("id", "yarn", "colourway", "dye_lot", "shade_group", "class", "fibre",
                            "label_length", "label_mass", "colour_repeat", "part", "weighed",
                            "scale", "tare", "knots", "note", "length_m", "spread_m"));
    EXPECT_EQ(json["skeins"].at(0)["label_length"], "200 m");
    EXPECT_NEAR(json["skeins"].at(0)["length_m"].get<double>(), 200.0, 1e-9);
    EXPECT_TRUE(json["skeins"].at(1)["dye_lot"].is_null());
    EXPECT_TRUE(json["skeins"].at(1)["length_m"].is_null());
    EXPECT_EQ(json["skeins"].at(1)["fibre"].at(0)["fibre"], "wool");
}

// Hostile text comes back as it went in; what is no UTF-8 becomes the replacement character.
TEST(JsonText, CarriesAnyText) {
    std::vector<std::string> texts = support::markup;
    texts.emplace_back("\x1b[31m \" \\ \x01 \xe2\x80\xae");
    for (const std::string& text : texts) {
        stash::Skein hostile = kelpie_skein(text);
        hostile.note = text;
        const Json json = parsed(report::stash_json({hostile}));
        EXPECT_EQ(json["skeins"].at(0)["id"], text);
        EXPECT_EQ(json["skeins"].at(0)["note"], text);
    }
    const std::string raw = report::stash_json({kelpie_skein(support::steering)});
    EXPECT_NO_THROW(parsed(raw));
    for (const char c : raw) EXPECT_FALSE(c >= 0 && c < 0x20 && c != '\n');
}

}  // namespace
