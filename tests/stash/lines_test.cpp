// Lines of a file kept small give back what was put in.

#include "skeinfall/stash/lines.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "support/builders.hpp"

namespace {

using namespace skeinfall;
using stash::MovementKind;

stash::Skein any_description() {
    stash::Skein out;
    out.yarn.name = *rc::gen::string<std::string>();
    if (*rc::gen::arbitrary<bool>())
        out.yarn.label.length = support::metres(*rc::gen::inRange(1, 100'000) / 100.0);
    if (*rc::gen::arbitrary<bool>())
        out.yarn.label.mass = support::grams(*rc::gen::inRange(1, 100'000) / 7.0);
    if (*rc::gen::arbitrary<bool>()) out.yarn.weight = yarn::WeightClass{*rc::gen::inRange(0, 9)};
    for (int parts = *rc::gen::inRange(0, 4); parts > 0; --parts)
        out.yarn.fibre.shares.push_back(
            {*rc::gen::string<std::string>(), units::Ratio(*rc::gen::inRange(1, 100) / 99.0)});
    out.colourway = *rc::gen::string<std::string>();
    if (*rc::gen::arbitrary<bool>()) out.dye_lot = *rc::gen::string<std::string>();
    if (*rc::gen::arbitrary<bool>()) out.shade_group = *rc::gen::string<std::string>();
    out.part = *rc::gen::arbitrary<bool>();
    out.knots = *rc::gen::inRange(0, 1000);
    out.note = std::string(*rc::gen::inRange<std::size_t>(0, 300), 'n');
    return out;
}

stash::Line any_line() {
    stash::Line line;
    stash::Movement& movement = line.movement;
    movement.kind = static_cast<MovementKind>(*rc::gen::inRange(0, 10));
    movement.skein = *rc::gen::string<std::string>();
    if (*rc::gen::arbitrary<bool>())
        movement.day = std::chrono::year(*rc::gen::inRange(0, 9999)) / *rc::gen::inRange(1, 13) /
                       *rc::gen::inRange(1, 29);
    switch (*rc::gen::inRange(0, 3)) {
        case 0:
            movement.amount = support::grams(*rc::gen::inRange(1, 900) / 9.0);
            movement.scale = support::grams(0.1);
            break;
        case 1:
            movement.amount = support::yards(*rc::gen::inRange(1, 900) / 9.0);
            break;
        default:
            break;
    }
    if (*rc::gen::arbitrary<bool>()) movement.tare = support::grams(25);
    movement.other = *rc::gen::string<std::string>();
    movement.purpose = *rc::gen::string<std::string>();
    movement.role = *rc::gen::string<std::string>();
    movement.note = *rc::gen::string<std::string>();
    if (*rc::gen::arbitrary<bool>()) movement.described = any_description();
    line.name = *rc::gen::string<std::string>();
    line.place = {*rc::gen::element<std::string>("", "mine.csv", "other.csv"),
                  *rc::gen::inRange<std::size_t>(0, 1'000'000),
                  *rc::gen::inRange<std::size_t>(0, 1000)};
    return line;
}

RC_GTEST_PROP(Lines, GiveBackWhatWasPutIn, ()) {
    std::vector<stash::Line> in;
    for (int count = *rc::gen::inRange(0, 40); count > 0; --count) in.push_back(any_line());
    stash::Lines lines;
    for (const stash::Line& line : in) lines.push_back(line);
    RC_ASSERT(lines.size() == in.size());
    std::size_t at = 0;
    for (const stash::Line& line : lines) {
        RC_ASSERT(line.movement == in[at].movement);
        RC_ASSERT(line.place == in[at].place);
        RC_ASSERT(line.name == in[at].name);
        RC_ASSERT(lines.kind_of(at) == in[at].movement.kind);
        RC_ASSERT(lines.skein_of(at) == in[at].movement.skein);
        ++at;
    }
}

RC_GTEST_PROP(Lines, PackTheSameAlikeAndNothingElse, ()) {
    const stash::Skein one = any_description();
    const stash::Skein other = *rc::gen::arbitrary<bool>() ? one : any_description();
    for (const stash::Owner owner : {stash::Owner::yarn, stash::Owner::skein}) {
        bool alike = true;
        for (const stash::Field& field : stash::fields())
            if (field.owner == owner) alike = alike && same(field, one, other);
        RC_ASSERT((packed(one, owner) == packed(other, owner)) == alike);
    }
}

// A line may be longer than the room that is taken for many.
TEST(Lines, HoldALineOfAnyLength) {
    stash::Line line;
    line.movement.note = std::string(300'000, 'n');
    line.movement.skein = "s1";
    const stash::Lines lines{line, line};
    EXPECT_EQ(lines[1].movement, line.movement);
    EXPECT_EQ(lines.skein_of(0), "s1");
}

TEST(Lines, MayAllBeOfOneDay) {
    stash::Line dated;
    dated.movement.day = std::chrono::year(2024) / 5 / 31;
    stash::Lines lines{dated, {}};
    const base::Day day = std::chrono::year(2025) / 1 / 2;
    lines.all_on(day);
    for (const stash::Line& line : lines) EXPECT_EQ(line.movement.day, day);
}

}  // namespace
