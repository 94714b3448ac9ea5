#include "skeinfall/report/need_tables.hpp"

#include <algorithm>
#include <cstdint>
#include <vector>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/detail/json_words.hpp"
#include "skeinfall/report/words.hpp"

namespace skeinfall::report {
namespace {

using base::shown_inert;
using units::Length;
using units::Rounding;
using units::Step;

/// One piece in one size.
struct GridLine {
    std::int64_t made = 1;
    project::FinishedSize finished;
    std::int64_t rows = 0;
    std::int64_t first = 0;
    std::int64_t widest = 0;
};

GridLine grid_line(const project::Project& project, const project::Piece& piece, std::size_t size) {
    GridLine out;
    out.made = piece.count.stated() ? piece.count.at(size) : 1;
    out.finished = project::finished_size(project, piece, size);
    const std::vector<std::int64_t> widths = project::row_widths(project, piece, size);
    out.rows = static_cast<std::int64_t>(widths.size());
    if (widths.empty()) return out;
    out.first = widths.front();
    out.widest = *std::max_element(widths.begin(), widths.end());
    return out;
}

std::string grid_text(const project::Project& project, const project::Piece& piece) {
    std::vector<std::vector<std::string>> rows{{"size", "wide", "long", "rows", "stitches"}};
    if (piece.worked == project::Worked::round) rows.front()[3] = "rounds";
    const bool several = std::any_of(piece.count.values.begin(), piece.count.values.end(),
                                     [](std::int64_t count) { return count != 1; });
    if (several) rows.front().emplace_back("made");
    for (std::size_t size = 0; size < project.sizes.size(); ++size) {
        const GridLine line = grid_line(project, piece, size);
        std::string stitches = std::to_string(line.first);
        if (line.widest != line.first) stitches += " to " + std::to_string(line.widest);
        rows.push_back({shown_inert(project.sizes[size]),
                        units::inches_and_centimetres(line.finished.width),
                        units::inches_and_centimetres(line.finished.length),
                        std::to_string(line.rows), stitches});
        if (several) rows.back().push_back(std::to_string(line.made));
    }
    return "\n" + shown_inert(piece.name) + "\n" +
           table(rows, {false, true, true, true, true, true}, 2);
}

std::string parts_text(const need::RoleOfSizes& role, bool fixed, const std::string& label) {
    std::vector<std::string> names;
    for (const need::PartOfSizes& part : role.parts)
        if (part.fixed == fixed) names.push_back(shown_inert(part.name));
    return names.empty() ? std::string() : "  " + label + ": " + base::join(names, ", ") + "\n";
}

/// What a role's yarn was found from, where it is the same in every size.
std::string found_text(const need::SizesNeed& need, const std::string& role) {
    std::string how;
    for (const need::MakeNeed& make : need.sizes)
        for (const need::RoleNeed& one : make.roles) {
            if (one.role != role) continue;
            if (!how.empty() && how != one.how) return {};
            how = one.how;
        }
    return "  found " + shown_inert(how) + "\n";
}

std::string role_text(const project::Project& project, const need::SizesNeed& need,
                      const need::RoleOfSizes& role) {
    std::string out = "\n" + role_heading(*project.role(role.role)) + "\n";
    out += found_text(need, role.role);
    std::vector<std::vector<std::string>> rows{
        {"size", "same", "grows", "needs", "95 % sure with"}};
    for (std::size_t size = 0; size < project.sizes.size(); ++size) {
        const measure::Estimate<Length> printed{role.printed[size], role.need[size].spread};
        rows.push_back(
            {shown_inert(project.sizes[size]),
             units::yarn_text(role.fixed[size], Step::tenth, Rounding::nearest),
             units::yarn_text(role.scaling[size], Step::tenth, Rounding::nearest),
             yards_and_metres(printed.centre, Rounding::up),
             yards_and_metres(measure::supply_needed(printed, Length{}, measure::usual_confidence),
                              Rounding::up)});
    }
    out += table(rows, {false, true, true, true, true}, 2);
    out += parts_text(role, true, "same in every size");
    out += parts_text(role, false, "grows with the size");
    const auto name = [&](std::size_t size) { return shown_inert(project.sizes[size]); };
    for (std::size_t size = 1; size < project.sizes.size(); ++size)
        if (role.printed[size] > role.need[size].centre)
            out +=
                fmt::format("  {} is stated as {}, of which its rounded rows take a little less\n",
                            name(size), name(size - 1));
    for (const need::OutOfLine& one : role.out_of_line)
        out += fmt::format(
            "  {}. {}\n",
            need::words_of(one.growth, shown_inert(role.role), name(one.size - 1), name(one.size)),
            need::look_at_the_rows);
    return out;
}

Json head(const project::Project& project) {
    Json out;
    out["title"] = project.title;
    return out;
}

/// What is told of one role.
std::vector<need::Used> used_of(const need::MakeNeed& make, const std::string& role,
                                UsedAfter after) {
    std::vector<need::Used> used = need::used_up(make, role);
    return after == UsedAfter::tenths ? need::tenths_of(used) : used;
}

/// All that a role's steps take.
Length worked_in(const need::MakeNeed& make, const std::string& role) {
    const std::vector<need::Used> used = need::used_up(make, role);
    return used.empty() ? Length{} : used.back().yarn;
}

}  // namespace

std::string sizes_text(const project::Project& project, const need::SizesNeed& need) {
    std::string out = shown_inert(project.title) + ", " +
                      counted(static_cast<std::int64_t>(project.sizes.size()), "size", "sizes") +
                      "\n";
    for (const project::Piece& piece : project.pieces) out += grid_text(project, piece);
    for (const need::RoleOfSizes& role : need.roles) out += role_text(project, need, role);
    if (project.margin.value() > 0.0)
        out += fmt::format(
            "\nThe project asks for {} more on top; that margin is not in these figures.\n",
            units::percent_text(project.margin, Step::tenth, Rounding::nearest));
    return out;
}

std::string sizes_json(const project::Project& project, const need::SizesNeed& need) {
    Json out = head(project);
    out["sizes"] = project.sizes;
    out["pieces"] = Json::array();
    for (const project::Piece& piece : project.pieces) {
        Json one{{"piece", piece.name}, {"sizes", Json::array()}};
        for (std::size_t size = 0; size < project.sizes.size(); ++size) {
            const GridLine line = grid_line(project, piece, size);
            one["sizes"].push_back({{"size", project.sizes[size]},
                                    {"made", line.made},
                                    {"width_cm", 100.0 * m(line.finished.width)},
                                    {"length_cm", 100.0 * m(line.finished.length)},
                                    {"rows", line.rows},
                                    {"stitches_first", line.first},
                                    {"stitches_widest", line.widest}});
        }
        out["pieces"].push_back(std::move(one));
    }
    out["roles"] = Json::array();
    for (const need::RoleOfSizes& role : need.roles) {
        Json one{{"role", role.role}, {"sizes", Json::array()}, {"parts", Json::array()}};
        for (std::size_t size = 0; size < project.sizes.size(); ++size) {
            Json line{{"size", project.sizes[size]},
                      {"need_m", m(role.need[size].centre)},
                      {"spread_m", m(role.need[size].spread)},
                      {"fixed_m", m(role.fixed[size])},
                      {"scaling_m", m(role.scaling[size])},
                      {"printed_m", m(role.printed[size])},
                      {"found", Json()},
                      {"growth", Json()}};
            for (const need::RoleNeed& found : need.sizes[size].roles)
                if (found.role == role.role) line["found"] = found.how;
            for (const need::OutOfLine& flag : role.out_of_line)
                if (flag.size == size)
                    line["growth"] = flag.growth == need::Growth::falls ? "falls" : "leaps";
            one["sizes"].push_back(std::move(line));
        }
        for (const need::PartOfSizes& part : role.parts) {
            Json lengths = Json::array();
            for (const Length& yarn : part.yarn) lengths.push_back(m(yarn));
            one["parts"].push_back(
                {{"part", part.name}, {"fixed", part.fixed}, {"length_m", std::move(lengths)}});
        }
        out["roles"].push_back(std::move(one));
    }
    return finished(out);
}

std::string used_text(const project::Project& project, const need::MakeNeed& make,
                      UsedAfter after) {
    std::string out = title_text(project, make.size) + "\n";
    for (const need::RoleNeed& role : make.roles) {
        const Length all = worked_in(make, role.role);
        out += "\n" + role_heading(*project.role(role.role)) + ": " +
               yards_and_metres(all, Rounding::up) + " in all, without ends\n";
        std::vector<std::vector<std::string>> rows{{"after", "share", "used", "left"}};
        for (const need::Used& one : used_of(make, role.role, after))
            rows.push_back({step_text(project, make.steps[one.step]),
                            units::percent_text(one.share, Step::one, Rounding::nearest),
                            yards_and_metres(one.yarn, Rounding::nearest),
                            yards_and_metres(all - one.yarn, Rounding::nearest)});
        out += table(rows, {false, true, true, true}, 2);
    }
    return out;
}

std::string used_json(const project::Project& project, const need::MakeNeed& make,
                      UsedAfter after) {
    Json out = head(project);
    out["size"] = project.sizes.empty() ? Json() : Json(project.sizes[make.size]);
    out["roles"] = Json::array();
    for (const need::RoleNeed& role : make.roles) {
        const Length all = worked_in(make, role.role);
        Json one{{"role", role.role}, {"length_m", m(all)}, {"used", Json::array()}};
        for (const need::Used& used : used_of(make, role.role, after)) {
            const need::Step& step = make.steps[used.step];
            const bool of_piece = step.name.empty() && !project.pieces.empty();
            one["used"].push_back(
                {{"after", step_text(project, step)},
                 {"piece", of_piece ? Json(project.pieces[step.piece].name) : Json()},
                 {"copy", step.copy},
                 {"row", step.row},
                 {"used_m", m(used.yarn)},
                 {"left_m", m(all - used.yarn)},
                 {"share", used.share.value()}});
        }
        out["roles"].push_back(std::move(one));
    }
    return finished(out);
}

}  // namespace skeinfall::report
