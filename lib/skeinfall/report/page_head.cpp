#include "skeinfall/report/detail/page_head.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "skeinfall/report/detail/figures.hpp"
#include "skeinfall/report/says.hpp"
#include "skeinfall/report/text.hpp"
#include "skeinfall/report/words.hpp"

namespace skeinfall::report {
namespace {

using units::Length;
using units::Rounding;

/// The yarn that decides: the least likely to last.
const cover::RoleCover& closest(const cover::MakeCover& cover) {
    return *std::min_element(
        cover.roles.begin(), cover.roles.end(),
        [](const cover::RoleCover& a, const cover::RoleCover& b) { return a.chance < b.chance; });
}

}  // namespace

std::string why_of(const MakePage& page) {
    const cover::MakeCover& cover = page.cover;
    if (cover.roles.empty()) return {};
    const cover::RoleCover& role = closest(cover);
    std::string out;
    if (cover.roles.size() > 1) {
        const auto short_ones = std::count_if(
            cover.roles.begin(), cover.roles.end(),
            [](const cover::RoleCover& one) { return one.verdict != cover::Verdict::covered; });
        const std::string id = shown_apart(role.role.id);
        if (short_ones > 0)
            out = fmt::format("{} of {} yarns {} not covered. The first to run out is {}: ",
                              short_ones, cover.roles.size(), short_ones == 1 ? "is" : "are", id);
        else if (cover.verdict == cover::Verdict::covered)
            out = (cover.roles.size() == 2 ? "Both yarns last"
                                           : fmt::format("All {} yarns last", cover.roles.size())) +
                  ". The closest is " + id + ": ";
        else
            out =
                "Each yarn by itself lasts, but it is not sure that all of them do. The closest "
                "is " +
                id + ": ";
    }
    out += "it takes " + yards_and_metres(role.needed, Rounding::up);
    if (role.chosen.empty()) {
        out += ", and there is no suitable skein.";
    } else {
        out += "; the skeins hold " + yards_and_metres(role.supply.centre, Rounding::down);
        if (role.spare < Length{})
            out += ", " + yards_and_metres(-role.spare, Rounding::up) + " too little.";
        else
            out += ", " + yards_and_metres(role.spare, Rounding::down) + " to spare" +
                   (role.verdict == cover::Verdict::covered
                        ? "."
                        : ", not enough to be " + chance_text(role.confidence) + " sure.");
    }
    if (cover.roles.size() == 1) out[0] = 'I';
    return out;
}

std::vector<std::string> next_of(const MakePage& page) {
    std::vector<std::string> out;
    const bool several = page.cover.roles.size() > 1;
    for (const cover::RoleCover& role : page.cover.roles) {
        if (role.verdict == cover::Verdict::covered) continue;
        const std::string of = several ? shown_apart(role.role.id) + ": " : std::string();
        for (const cover::Settling& next : role.settles)
            out.push_back(of + shown_apart(said(next)));
    }
    if (page.cover.verdict != cover::Verdict::covered) return out;
    for (const joins::RoleJoins& role : page.joins.roles) {
        if (role.plan.stretches.empty()) continue;
        const joins::Stretch& first = role.plan.stretches.front();
        std::string line =
            fmt::format("Begin {}with {}", several ? shown_apart(role.plan.role) + " " : "",
                        shown_apart(first.ball.id));
        if (role.plan.stretches.size() > 1)
            line += fmt::format("; join {} {}, most likely",
                                shown_apart(role.plan.stretches[1].ball.id),
                                place_text(page.project, role.plan, first.to));
        out.push_back(line + ".");
    }
    return out;
}

std::string page_head_text(const MakePage& page) {
    const units::WithNumberStyle in_force(page.style.numbers);
    std::string out = std::string(cover::name_of(page.cover.verdict)) + conditions(page.cover) +
                      ": " + title_text(page.project, page.need.size) + "\n";
    if (const std::string why = why_of(page); !why.empty()) out += "  " + why + "\n";
    for (const std::string& next : next_of(page)) out += "  next: " + next + "\n";
    return out;
}

}  // namespace skeinfall::report
