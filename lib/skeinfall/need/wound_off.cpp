#include "skeinfall/need/detail/wound_off.hpp"

#include <cmath>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>

#include "skeinfall/project/joining.hpp"

namespace skeinfall::need {
namespace {

using units::Length;

/// What is left of a repeat after so much yarn; nothing within a billionth of one.
Length to_its_end(Length worked, Length repeat) {
    constexpr double noise = 1e-9;
    const double repeats = worked / repeat;
    const double over = repeats - std::floor(repeats);
    return over < noise || over > 1.0 - noise ? Length{} : (1.0 - over) * repeat;
}

std::string words_for(const project::Project& project, const project::Role& role,
                      const Step& step) {
    return "winding off to " + role.pieces_begin_with + " before " +
           project.pieces[step.piece].name +
           (step.copy > 1 ? " " + std::to_string(step.copy) : std::string());
}

std::vector<Step> wound_off_in(const project::Project& project, const project::Role& role,
                               std::vector<Step>& steps, Length& in_all) {
    const Length repeat = project::repeat_of(role.colours);
    std::optional<std::pair<std::size_t, std::int64_t>> piece;
    Length worked{};  // since the first piece was begun
    std::vector<Step> out;
    for (Step& step : steps) {
        if (step.role == role.id) {
            const std::pair here(step.piece, step.copy);
            if (step.name.empty() && piece != here) {
                const Length off =
                    piece ? to_its_end(worked, repeat) : role.first_wound_off.value_or(repeat);
                const bool first = !piece;
                piece = here;
                if (off > Length{}) {
                    Step between;
                    between.purpose = Purpose::other;
                    between.role = role.id;
                    between.name = words_for(project, role, step);
                    between.yarn = off;
                    if (!first) worked += off;
                    in_all += off;
                    out.push_back(std::move(between));
                }
            }
            worked += step.yarn;
        }
        out.push_back(std::move(step));
    }
    return out;
}

}  // namespace

std::map<std::string, Length> wind_off_between_pieces(const project::Project& project,
                                                      std::vector<Step>& steps) {
    std::map<std::string, Length> out;
    for (const project::Role& role : project.roles)
        if (!role.pieces_begin_with.empty() && !role.colours.empty() && !project.pieces.empty())
            steps = wound_off_in(project, role, steps, out[role.id]);
    return out;
}

}  // namespace skeinfall::need
