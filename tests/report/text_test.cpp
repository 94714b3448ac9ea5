// Answers for a terminal: verdict first, figures rounded to the safe side, nothing that steers.

#include "skeinfall/report/text.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/report/joins.hpp"
#include "skeinfall/report/planning.hpp"
#include "skeinfall/units/number_style.hpp"

#include "support/builders.hpp"
#include "support/hostile.hpp"
#include "support/joins.hpp"

namespace {

using namespace skeinfall;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;
using units::metre;

project::Project wrap_by_length() {
    project::Project out = support::rectangle(25, 120);
    out.roles[0].total_length = project::PerSize<units::Length>(300.0 * metre);
    return out;
}

std::vector<stash::Skein> skeins(int count) {
    std::vector<stash::Skein> out;
    for (int i = 1; i <= count; ++i)
        out.push_back(support::whole(
            "s" + std::to_string(i),
            support::yarn_of("Kelpie", support::metres(200), support::grams(100)), "A17"));
    return out;
}

std::string cover_text_of(const project::Project& project, const std::vector<stash::Skein>& stash,
                          bool why) {
    const need::MakeNeed make = need::need_of(project, 0);
    return report::cover_text(project, make, cover::cover_make(project, make, stash, {}), {}, why);
}

TEST(NeedText, SaysHowMuchHowSureAndWhy) {
    const project::Project project = wrap_by_length();
    const std::string text = report::need_text(project, need::need_of(project, 0));
    EXPECT_THAT(text, StartsWith("Harbour wrap\n"));
    // 300 m = 328.08 yd; 300 + 1.6449 x 24 = 339.48 m = 371.26 yd, all up.
    EXPECT_THAT(text, HasSubstr("MC: needs 329 yd (300 m); to be 95 % sure: 372 yd (340 m)\n"));
    EXPECT_THAT(text, HasSubstr("found from the stated total"));
    EXPECT_THAT(text, HasSubstr("give or take 8 %"));
    EXPECT_THAT(text, HasSubstr("Work a swatch"));
    EXPECT_THAT(text, Not(HasSubstr("on top")));
}

TEST(NeedText, NamesSizeAndMargin) {
    project::Project project = wrap_by_length();
    project.sizes = {"S", "M"};
    project.margin = units::Ratio(0.1);
    const std::string text = report::need_text(project, need::need_of(project, 1));
    EXPECT_THAT(text, StartsWith("Harbour wrap, size M\n"));
    EXPECT_THAT(text, HasSubstr("asks for 10 % more on top"));
}

TEST(CoverText, TheVerdictStandsFirst) {
    EXPECT_THAT(cover_text_of(wrap_by_length(), skeins(3), false),
                StartsWith("covered, if Kelpie will do: Harbour wrap\n"));
    EXPECT_THAT(cover_text_of(wrap_by_length(), skeins(1), false),
                StartsWith("short: Harbour wrap\n"));
    project::Project close = wrap_by_length();
    close.roles[0].total_length = project::PerSize<units::Length>(400.0 * metre);
    EXPECT_THAT(cover_text_of(close, skeins(2), false),
                StartsWith("too close to call: Harbour wrap\n"));
}

TEST(CoverText, FiguresGoToTheSafeSide) {
    const std::string covered = cover_text_of(wrap_by_length(), skeins(3), false);
    EXPECT_THAT(covered, HasSubstr("needs      329 yd (300 m)"));
    EXPECT_THAT(covered, HasSubstr("has        437 yd (400 m) in 2 skeins"));
    EXPECT_THAT(covered, HasSubstr("wasted     1.4 yd (1.3 m) on average, at joins"));
    EXPECT_THAT(covered, HasSubstr("left over  107 yd (98 m)")) << "400 - 0.6 - 1.25 - 300 m, down";
    EXPECT_THAT(covered, HasSubstr("s1  whole, 218 yd (200 m), lot A17\n"));
    EXPECT_THAT(covered, Not(HasSubstr("100 %")));
    const std::string lacking = cover_text_of(wrap_by_length(), skeins(1), false);
    EXPECT_THAT(lacking, HasSubstr("missing          110 yd (101 m)")) << "300 - 199.7 m, up";
    EXPECT_THAT(lacking, HasSubstr("next: Buy 1 more skein of Kelpie (200 m)"));
    EXPECT_THAT(lacking, HasSubstr("to be 95 % sure  155 yd (141 m) more"));
}

TEST(CoverText, WhyListsEverySkeinNotTaken) {
    std::vector<stash::Skein> stash = skeins(3);
    stash.push_back(support::whole("s9", {}, ""));
    const std::string brief = cover_text_of(wrap_by_length(), stash, false);
    EXPECT_THAT(brief, HasSubstr("not used: 1 that would do, 1 that would not (--why lists them)"));
    EXPECT_THAT(brief, Not(HasSubstr("s9")));
    const std::string why = cover_text_of(wrap_by_length(), stash, true);
    EXPECT_THAT(why, HasSubstr("s3  would do, not needed: lot A17"));
    EXPECT_THAT(why, HasSubstr("s9  no length on its label"));
}

TEST(JoinsText, PlacesJoinsAndWhatIsLeft) {
    project::Project project = support::rectangle(25, 12);
    const auto work = support::rows_of(std::vector<double>(12, 10.0));
    project.tail = 1.0 * metre;
    need::MakeNeed make;
    make.roles = {work.need};
    make.steps = work.steps;
    const auto text = [&](const std::vector<joins::Ball>& balls) {
        return report::joins_text(project, joins::answer_joins(project, make, {{"MC", balls}}, {}));
    };
    EXPECT_THAT(text({support::ball("a", 85), support::ball("b", 55)}), HasSubstr(" 87.5 yd "));
    const units::WithNumberStyle metres_first({.metres_first = true});
    const std::string done = text({support::ball("a", 85), support::ball("b", 55)});
    EXPECT_THAT(done, StartsWith("1 join: Harbour wrap\n"));
    EXPECT_THAT(done, HasSubstr("a to b  after row 8 of wrap"));
    EXPECT_THAT(done, HasSubstr("80.0 m"));
    EXPECT_THAT(done, HasSubstr("3.0 m")) << "85 - 2 - 80 left";
    EXPECT_THAT(done, HasSubstr("note: the side edge of wrap shows"));
    const std::string lacking = text({support::ball("a", 85)});
    EXPECT_THAT(lacking, StartsWith("0 joins, and the yarn will very likely run out"));
    EXPECT_THAT(lacking, HasSubstr("the yarn ends after row 8 of wrap; 42 m (46 yd) more"));
    EXPECT_THAT(
        lacking,
        HasSubstr("at any row end          1   0.0 m                 -  to row 8 of wrap, 42 m "
                  "(46 yd) missing"));
    EXPECT_THAT(
        lacking,
        HasSubstr("anywhere in a row       1   0.0 m                 -  into row 9 of wrap, 30 % "
                  "along, 39 m (43 yd) missing"));
    EXPECT_THAT(text({}), HasSubstr("no skein to plan with"));
    EXPECT_THAT(text({support::ball("a", 8)}), HasSubstr("nothing"));
}

TEST(StashText, OneLineASkein) {
    std::vector<stash::Skein> stash = skeins(2);
    stash[1].shade_group = "dusk";
    stash[1].dye_lot.reset();
    stash[1].weighing = support::weighed(48, 1);
    stash[1].part = true;
    const std::string text = report::stash_text(stash);
    EXPECT_THAT(text, HasSubstr("s1  Kelpie"));
    EXPECT_THAT(text, HasSubstr("A17"));
    EXPECT_THAT(text, HasSubstr("= dusk"));
    EXPECT_THAT(text, HasSubstr("48 g"));
    EXPECT_THAT(text, HasSubstr("104 yd (96 m)")) << "down";
    EXPECT_THAT(text, HasSubstr("2 skeins"));
    EXPECT_EQ(report::stash_text({}), "The stash is empty.\n");
}

TEST(SkeinText, AllThatIsKnown) {
    stash::Skein skein = skeins(1)[0];
    skein.colourway = "Slate";
    skein.yarn.fibre = support::fibre("80% wool 20% nylon");
    skein.yarn.weight = yarn::WeightClass{4};
    skein.knots = 2;
    skein.note = "from the fair";
    const std::string text = report::skein_text(skein);
    for (const char* piece :
         {"Kelpie", "Slate", "A17", "4 (Medium)", "80 % wool, 20 % nylon", "200 m / 100 g",
          "200.0 m per 100 g", "from the fair", "by its label", "218 yd (200 m)"})
        EXPECT_THAT(text, HasSubstr(piece));
    skein.part = true;
    EXPECT_THAT(report::skein_text(skein), HasSubstr("unknown; a part skein"));
}

/// A project and a skein with steering text wherever a file can put it.
project::Project hostile_project() {
    project::Project out = wrap_by_length();
    out.title = support::steering;
    out.sizes = {support::steering};
    out.roles[0].id = support::steering;
    out.roles[0].name = support::steering;
    out.roles[0].colour = support::steering;
    out.roles[0].avoid = {support::steering};
    out.pieces[0].role = support::steering;
    out.pieces[0].name = support::steering;
    project::FinishPart fringe;
    fringe.kind = project::PartKind::fringe;
    fringe.name = support::steering;
    fringe.role = support::steering;
    fringe.yarn = project::PerSize<units::Length>(metre);
    out.finish = {fringe};
    return out;
}

stash::Skein hostile_skein() {
    stash::Skein out = skeins(1)[0];
    out.id = support::steering;
    out.yarn.name = support::steering;
    out.colourway = support::steering;
    out.dye_lot = support::steering;
    out.note = support::steering;
    out.yarn.label.length->text = support::steering;
    out.yarn.fibre.shares = {{support::steering, units::Ratio(1.0)}};
    return out;
}

TEST(Inert, NothingFromAFileSteersTheTerminal) {
    project::Project project = hostile_project();
    const need::MakeNeed make = need::need_of(project, 0);
    EXPECT_TRUE(support::is_inert(report::need_text(project, make)));
    EXPECT_TRUE(support::is_inert(cover_text_of(project, {hostile_skein()}, true))) << "kept out";
    project.roles[0].avoid.clear();
    EXPECT_TRUE(support::is_inert(cover_text_of(project, {hostile_skein()}, true)));
    std::vector<stash::Skein> many(3, hostile_skein());
    many[1].id += "1";
    many[2].id += "2";
    project.roles[0].total_length = project::PerSize<units::Length>(250.0 * metre);
    EXPECT_TRUE(support::is_inert(cover_text_of(project, many, true)));
    const joins::Answer answer = joins::answer_joins(
        project, make,
        {{support::steering,
          {support::ball(support::steering, 100), support::ball(support::steering, 220)}}},
        {});
    EXPECT_TRUE(support::is_inert(report::joins_text(project, answer)));
    EXPECT_TRUE(support::is_inert(report::slip_text(project, answer)));
    EXPECT_TRUE(support::is_inert(report::stash_text({hostile_skein()})));
    EXPECT_TRUE(support::is_inert(report::skein_text(hostile_skein())));
}

// What is typed as it stands answers the same question, in the same size and with the same yarn.
TEST(NextLines, KeepWhatWasAsked) {
    const project::Project project = support::rectangle(25, 120);
    cover::MakeCover cover;
    cover.verdict = cover::Verdict::covered;
    const std::string plain = report::next_text(project, cover, {" --size M", " --margin 5%", ""});
    EXPECT_THAT(plain, HasSubstr("skeinfall joins wrap.toml --size M "));
    EXPECT_THAT(plain, HasSubstr("skeinfall stash set-aside wrap.toml --size M --margin 5% "));
    const std::string had = report::next_text(project, cover, {"", "", " --have \"900 yd\""});
    EXPECT_THAT(had, HasSubstr("skeinfall joins wrap.toml --have \"900 yd\" "));
    EXPECT_THAT(had, Not(HasSubstr("set-aside"))) << "it is in no stash";
    cover.verdict = cover::Verdict::is_short;
    EXPECT_THAT(report::next_text(project, cover, {" --size M", " --margin 5%", ""}),
                HasSubstr("skeinfall buy wrap.toml --size M --margin 5% "));
}

TEST(BuyingWords, SayWhereNothingToBuyHangsOnTheJoins) {
    EXPECT_EQ(report::buying_text({}, measure::usual_confidence),
              "Nothing to buy: the stash covers it.\n");
    EXPECT_EQ(report::buying_text({}, measure::usual_confidence, {}, true),
              "Nothing to buy: the stash covers it, if joined anywhere.\n");
}
}  // namespace
