// What holds for every need, whatever the project.

#include <cstdint>
#include <set>

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "skeinfall/need/need.hpp"

#include "support/builders.hpp"

namespace {

using namespace skeinfall;

/// A piece with up to three stripes, maybe growing, a border and a seam, by a stated rate.
project::Project any_project() {
    const auto number = [](int least, int most) { return *rc::gen::inRange(least, most + 1); };
    project::Project out = support::rectangle(number(1, 60), number(1, 60));
    out.craft = number(0, 1) == 0 ? project::Craft::crochet : project::Craft::knit;
    out.tail = static_cast<double>(number(0, 20)) * units::centimetre;
    out.roles.clear();
    const std::vector<std::string> ids{"MC", "CC1", "CC2"};
    for (const std::string& id : ids) {
        project::Role role = support::role(id);
        role.rate = static_cast<double>(number(1, 50)) * units::millimetre / units::stitch;
        out.roles.push_back(role);
    }
    project::Piece& piece = out.pieces[0];
    piece.worked = number(0, 1) == 0 ? project::Worked::flat : project::Worked::round;
    piece.increase = project::PerSize<std::int64_t>(number(-1, 4));
    piece.every = number(1, 3);
    if (number(0, 1) == 0) piece.foundation_rows.reset();
    if (const int stripes = number(0, 3); stripes > 0) {
        piece.role.clear();
        for (int i = 0; i < stripes; ++i)
            piece.stripes.push_back({ids[static_cast<std::size_t>(i)], number(1, 9)});
    }
    project::FinishPart border;
    border.kind = project::PartKind::border;
    border.role = "MC";
    border.stitches = project::PerSize<std::int64_t>(number(1, 300));
    project::FinishPart seam;
    seam.kind = project::PartKind::seam;
    seam.role = "CC2";
    seam.length =
        project::PerSize<units::Length>(static_cast<double>(number(1, 90)) * units::centimetre);
    out.finish = {border, seam};
    return out;
}

units::Length total_of(const need::MakeNeed& make) {
    units::Length sum{};
    for (const need::RoleNeed& role : make.roles) sum += role.length.centre;
    return sum;
}

TEST(NeedProperty, PartsAndStepsSumToTheWhole) {
    const bool holds = rc::check("parts = whole, steps + tails = whole", [] {
        const project::Project project = any_project();
        const need::MakeNeed make = need::need_of(project, 0);
        for (const need::RoleNeed& role : make.roles) {
            units::Length parts{};
            std::set<need::Purpose> purposes;
            for (const need::Part& part : role.parts) {
                parts += part.yarn;
                RC_ASSERT(part.yarn > units::Length{});
                RC_ASSERT(purposes.insert(part.purpose).second);
                RC_ASSERT(part.purpose == *purposes.rbegin());
            }
            units::Length steps{};
            for (const need::Step& step : make.steps)
                if (step.role == role.role) steps += step.yarn;
            const units::Length tails = 2.0 * static_cast<double>(role.runs - 1) * project.tail;
            const double whole = role.length.centre / units::metre;
            RC_ASSERT(std::abs(parts / units::metre - whole) <= 1e-9 * whole);
            RC_ASSERT(std::abs((steps + tails) / units::metre - whole) <= 1e-9 * whole);
            RC_ASSERT(role.length.spread >= units::Length{});
        }
    });
    EXPECT_TRUE(holds);
}

TEST(NeedProperty, OneMoreRowNeverTakesLess) {
    const bool holds = rc::check("need grows with rows", [] {
        project::Project project = any_project();
        // The bind-off is worked in the last stripe's yarn, over the last row's stitches: with a
        // thriftier yarn or fewer stitches it may shrink by more than the row adds.
        for (project::Role& role : project.roles) role.rate = project.roles[0].rate;
        RC_PRE(project.pieces[0].increase.at(0) >= 0);
        const units::Length before = total_of(need::need_of(project, 0));
        project.pieces[0].rows = project::PerSize<std::int64_t>(project.pieces[0].rows.at(0) + 1);
        RC_ASSERT(total_of(need::need_of(project, 0)) > before);
    });
    EXPECT_TRUE(holds);
}

TEST(NeedProperty, OneMoreStitchNeverTakesLess) {
    const bool holds = rc::check("need grows with stitches", [] {
        project::Project project = any_project();
        const units::Length before = total_of(need::need_of(project, 0));
        project.pieces[0].stitches =
            project::PerSize<std::int64_t>(project.pieces[0].stitches.at(0) + 1);
        RC_ASSERT(total_of(need::need_of(project, 0)) > before);
    });
    EXPECT_TRUE(holds);
}

TEST(NeedProperty, AStatedTotalIsTheNeed) {
    const bool holds = rc::check("need = stated total", [] {
        project::Project project = any_project();
        constexpr double total_m = 10'000.0;  // more than all finishing parts
        for (project::Role& role : project.roles) {
            role.rate.reset();
            role.total_length = project::PerSize<units::Length>(total_m * units::metre);
        }
        for (const need::RoleNeed& role : need::need_of(project, 0).roles)
            RC_ASSERT(std::abs(role.length.centre / units::metre - total_m) < 1e-6);
    });
    EXPECT_TRUE(holds);
}

}  // namespace
