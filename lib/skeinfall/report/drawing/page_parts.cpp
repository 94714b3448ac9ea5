#include "skeinfall/report/detail/page_parts.hpp"

#include <algorithm>
#include <cstdint>
#include <map>
#include <string_view>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/detail/figures.hpp"
#include "skeinfall/report/detail/joins_words.hpp"
#include "skeinfall/report/detail/page_data.hpp"
#include "skeinfall/report/detail/page_head.hpp"
#include "skeinfall/report/text.hpp"
#include "skeinfall/report/words.hpp"

namespace skeinfall::report {
namespace {

using joins::JoinPlan;
using joins::RoleJoins;
using units::Length;
using units::Rounding;
using units::Step;

std::string verdict_words(cover::Verdict verdict, measure::Chance chance,
                          const std::string& conditions) {
    return std::string(cover::name_of(verdict)) + ", chance " + chance_text(chance) + conditions;
}

std::string supply_words(const cover::RoleCover& role) {
    if (role.chosen.empty()) return "no skein that fits";
    return yards_and_metres(role.supply.centre, Rounding::down) + " in " +
           counted(static_cast<std::int64_t>(role.chosen.size()), "skein", "skeins");
}

PageRole role_of(const cover::RoleCover& role, const cover::Rules& rules) {
    PageRole out;
    out.name = shown_apart(role_heading(role.role));
    out.verdict = role.verdict;
    out.verdict_text = verdict_words(role.verdict, role.chance, conditions(role));
    std::string needs = yards_and_metres(role.needed, Rounding::up);
    if (role.need.grist) needs += ", " + mass_up(units::Mass(role.needed / *role.need.grist));
    if (rules.margin.value() > 0.0)
        needs += ", with a margin of " +
                 units::percent_text(rules.margin, Step::tenth, Rounding::nearest);
    out.figures = {{"needs", needs},
                   {"has", supply_words(role)},
                   {"ends", yards_and_metres(role.tails, Rounding::up) + " kept for weaving in"},
                   role.spare >= Length{}
                       ? std::pair("left over", yards_and_metres(role.spare, Rounding::down))
                       : std::pair("missing", yards_and_metres(-role.spare, Rounding::up))};
    if (role.chosen.empty()) out.figures.erase(out.figures.begin() + 2);  // of no skein
    if (role.to_be_sure > Length{})
        out.figures.emplace_back(
            chance_text(role.confidence) + " sure",
            "with " + yards_and_metres(role.to_be_sure, Rounding::up) + " more");
    out.skeins.caption = "Skeins for " + shown_apart(role.role.id);
    out.skeins.heads = {"skein", "holds", "lot", "kind"};
    for (const stash::Skein& skein : role.chosen) {
        const auto supply = stash::supply_of(skein);
        out.skeins.lines.push_back(
            {shown_apart(skein.id),
             supply ? yards_and_metres(supply->length, Rounding::down) : std::string(),
             shown_apart(stash::lot_text(skein)), stash::is_part(skein) ? "part" : "whole"});
    }
    return out;
}

PageTable joins_of(const project::Project& project, const RoleJoins& role,
                   measure::Chance confidence) {
    const JoinPlan& plan = role.plan;
    PageTable out;
    out.caption = "Skeins of " + shown_apart(role_heading(*project.role(plan.role)));
    out.heads = {"skein", "likely to end", "safe (" + chance_text(confidence) + ")",
                 "latest (" + chance_text(confidence) + ")", "left"};
    for (std::size_t i = 0; i < plan.stretches.size(); ++i) {
        const joins::Stretch& stretch = plan.stretches[i];
        const bool joined = i < joined_stretches(plan);
        out.lines.push_back(
            {shown_apart(stretch.ball.id), place_text(project, plan, stretch.to),
             joined ? place_text(project, plan, chain::after_steps(stretch.earliest)) : "",
             i + 1 < plan.stretches.size()
                 ? place_text(project, plan, chain::after_steps(stretch.latest))
             : joined ? "to the end"
                      : "",
             yards_and_metres(stretch.left, Rounding::down)});
    }
    for (const joins::Spare& spare : plan.spares)
        out.lines.push_back({shown_apart(spare.ball.id), "spare", "", "",
                             yards_and_metres(spare.ball.length.centre, Rounding::down)});
    return out;
}

PageTable stops_of(const project::Project& project, const RoleJoins& role,
                   const joins::Scale& scale) {
    PageTable out;
    out.caption = "Weights for " + shown_apart(role_heading(*project.role(role.plan.role)));
    out.heads = {"when this is done", "skein", "next row", "to finish"};
    bool any_rest = false;
    for (const StopLine& line : stop_lines(project, role, scale)) {
        any_rest = any_rest || !line.rest.empty();
        out.lines.push_back({line.place, shown_apart(role.plan.stretches[line.stretch].ball.id),
                             line.next, line.rest});
    }
    if (!any_rest) {
        out.heads.pop_back();
        for (std::vector<std::string>& line : out.lines) line.pop_back();
    }
    return out;
}

bool same_step(const need::Step& a, const need::Step& b) {
    return a.purpose == b.purpose && a.piece == b.piece && a.copy == b.copy && a.row == b.row &&
           a.name == b.name;
}

/// The make's step behind each step of a role's plan, both in working order.
std::vector<std::size_t> steps_of_make(const JoinPlan& plan, const std::vector<need::Step>& make) {
    std::vector<std::size_t> out;
    std::size_t at = 0;
    for (const need::Step& step : plan.steps) {
        std::size_t found = at;
        while (found < make.size() && !same_step(make[found], step)) ++found;
        if (found < make.size()) at = found + 1;
        out.push_back(std::min(found, make.empty() ? 0 : make.size() - 1));
    }
    return out;
}

using Marks = std::map<std::size_t, std::vector<PageMark>>;

void mark_role(const project::Project& project, const RoleJoins& role, const joins::Scale& scale,
               const std::vector<need::Step>& make, Marks& marks) {
    const JoinPlan& plan = role.plan;
    const std::vector<std::size_t> of_make = steps_of_make(plan, make);
    const std::string yarn = shown_apart(plan.role);
    for (std::size_t i = 0; i < plan.stretches.size(); ++i) {
        const joins::Stretch& stretch = plan.stretches[i];
        const std::string old = shown_apart(stretch.ball.id);
        if (stretch.earliest > 0 && stretch.earliest < stretch.to.step)
            marks[of_make[stretch.earliest - 1]].push_back(
                {fmt::format("{}: {} surely reaches to here; weigh it from now on", yarn, old),
                 true});
        if (i + 1 == plan.stretches.size()) break;
        const std::string next = shown_apart(plan.stretches[i + 1].ball.id);
        const bool inside = stretch.to.share.value() > 0.0 && stretch.to.step < of_make.size();
        if (!inside && stretch.to.step == 0) continue;
        const std::size_t at = of_make[inside ? stretch.to.step : stretch.to.step - 1];
        marks[at].push_back(
            {inside ? fmt::format("{}: join {} in this row, {}", yarn, next,
                                  place_text(project, plan, stretch.to))
                    : fmt::format("{}: join {} after this, {} is likely used up", yarn, next, old),
             false});
    }
    for (const joins::StopWeight& stop : role.stops)
        for (std::size_t done = stop.steps_done; done <= stop.until; ++done)
            if (done > 0 && stop.rest.value() > 0.0)
                marks[of_make[done - 1]].push_back(
                    {fmt::format("{}: you need {} on the scale to finish", yarn,
                                 scale_text(stop.rest, scale.step)),
                     true});
}

/// What the pattern says for a row: in full beside every row, unless that made the page too long
/// for a phone. Then a row of a piece that was told before only names that row, and what is too
/// long even so is left to the pattern.
class Instructions {
  public:
    explicit Instructions(const MakePage& page) : page_(page) {
        std::size_t all = 0;
        for (const need::Step& step : page.need.steps) all += text(step).size();
        in_full_ = all <= room_;
    }

    void begin_piece() { told_.clear(); }

    std::string of(const need::Step& step) {
        const std::string_view text = this->text(step);
        if (text.empty()) return {};
        if (!in_full_) {
            const auto [told, first] = told_.emplace(text, step.row);
            if (!first) return fmt::format("as row {}", told->second);
            if (text.size() > room_) {
                told_.erase(told);
                return {};
            }
            room_ -= text.size();
        }
        return shown_apart(std::string(text));
    }

  private:
    [[nodiscard]] std::string_view text(const need::Step& step) const {
        if (!step.name.empty() || step.piece >= page_.project.pieces.size()) return {};
        const project::Piece& piece = page_.project.pieces[step.piece];
        if (!piece.pattern.stated()) return {};
        const project::WorkedRows& rows = piece.pattern.at(page_.need.size);
        if (step.purpose == need::Purpose::foundation) return rows.foundation_text;
        return step.purpose == need::Purpose::body ? rows.text(step.row) : std::string_view();
    }

    const MakePage& page_;
    std::size_t room_ = 2'000'000;  // bytes
    bool in_full_ = true;
    std::map<std::string_view, std::int64_t> told_;
};

std::vector<PageGroup> rows_of(const MakePage& page) {
    const project::Project& project = page.project;
    const std::vector<need::Step>& make = page.need.steps;
    Marks marks;
    for (const RoleJoins& role : page.joins.roles)
        if (!role.plan.stretches.empty())
            mark_role(project, role, page.joins.request.scale, make, marks);
    std::vector<std::vector<std::int64_t>> widths;
    for (const project::Piece& piece : project.pieces)
        widths.push_back(project::row_widths(project, piece, page.need.size));
    Instructions instructions(page);
    std::vector<PageGroup> out;
    const need::Step* before = nullptr;
    std::vector<PageMark> carried;
    for (std::size_t i = 0; i < make.size(); ++i) {
        const need::Step& step = make[i];
        if (step.purpose == need::Purpose::tails) continue;
        if (const auto found = marks.find(i); found != marks.end())
            carried.insert(carried.end(), found->second.begin(), found->second.end());
        // A strand that is carried up is no row to tick: its marks are for the row it goes to.
        if (step.purpose == need::Purpose::carried) continue;
        const bool part = !step.name.empty() || project.pieces.empty();
        const bool same = before != nullptr && part == !before->name.empty() &&
                          (part || (before->piece == step.piece && before->copy == step.copy));
        if (!same) {
            PageGroup group;
            // What is wound off stands before the piece that it is for.
            const bool last = std::all_of(make.begin() + static_cast<std::ptrdiff_t>(i), make.end(),
                                          [](const need::Step& one) { return !one.name.empty(); });
            group.name = last || project.pieces.empty() ? "Finishing" : "Between pieces";
            if (project.pieces.empty()) group.name = "The make";
            if (!part) {
                const project::Piece& piece = project.pieces[step.piece];
                group.name = shown_apart(piece.name);
                if (piece.count.stated() && piece.count.at(page.need.size) > 1)
                    group.name += " " + std::to_string(step.copy);
            }
            out.push_back(std::move(group));
            instructions.begin_piece();
        }
        before = &step;
        PageRow row;
        row.text = step_text(project, step);
        if (!part) {
            const bool round = project.pieces[step.piece].worked == project::Worked::round;
            const std::string number = (round ? "Round " : "Row ") + std::to_string(step.row);
            if (step.purpose == need::Purpose::body)
                row.text = number;
            else if (step.purpose == need::Purpose::foundation)
                row.text = "Foundation";
            else if (step.purpose == need::Purpose::bind_off)
                row.text = "Bind-off";
            const std::vector<std::int64_t>& of_piece = widths[step.piece];
            if (step.purpose == need::Purpose::body && step.row >= 1 &&
                static_cast<std::size_t>(step.row) <= of_piece.size())
                row.count =
                    std::to_string(of_piece[static_cast<std::size_t>(step.row) - 1]) + " sts";
        }
        if (!part && step.purpose == need::Purpose::body) {
            row.number = step.row;
            row.round = project.pieces[step.piece].worked == project::Worked::round;
        }
        if (project.roles.size() > 1 && !step.role.empty()) {
            row.yarn = shown_apart(step.role);
            row.text += ", " + row.yarn;
        }
        row.told = instructions.of(step);
        constexpr std::size_t fits_beside = 16;
        if (!row.told.empty() && row.told.size() <= fits_beside)
            row.text += ": " + std::exchange(row.told, {});
        row.marks = std::exchange(carried, {});
        out.back().rows.push_back(std::move(row));
    }
    return out;
}

/// Of the checklist: other rows, other ticks.
std::string fingerprint_of(const PageParts& parts) {
    std::string all;
    const auto add = [&](const std::string& text) { (all += text) += '\0'; };
    add(parts.title);
    add(parts.size);
    for (const PageGroup& group : parts.rows) {
        add(group.name);
        for (const PageRow& row : group.rows) add(row.text);
    }
    return report::fingerprint_of(all);
}

}  // namespace

std::string look_of(cover::Verdict verdict) {
    switch (verdict) {
        case cover::Verdict::covered:
            return "sure";
        case cover::Verdict::too_close_to_call:
            return "close";
        case cover::Verdict::is_short:
            break;
    }
    return "want";
}

MaterialsDocument document_of(const MakePage& page) {
    MaterialsDocument out = materials_document(page.materials, page.style);
    // The page is for this make in this size, and has to fit its sheet.
    std::erase_if(out.blocks, [](const MaterialsBlock& block) { return block.key == "adjust"; });
    const project::Project& project = page.project;
    const bool written =
        std::any_of(project.pieces.begin(), project.pieces.end(),
                    [](const project::Piece& piece) { return piece.pattern.stated(); });
    if (!written || page.style.terms.value_or(project.terms) == project.terms) return out;
    for (MaterialsBlock& block : out.blocks)
        if (block.key == "terms")
            block.lines.push_back(MaterialsWords(page.style.language)(
                project.terms == project::Terms::us ? "rows_in_us" : "rows_in_uk"));
    return out;
}

PageParts parts_of(const MakePage& page) {
    const project::Project& project = page.project;
    PageParts out;
    out.title = shown_apart(project.title);
    if (!project.sizes.empty()) out.size = shown_apart(project.sizes[page.need.size]);
    out.verdict = page.cover.verdict;
    out.verdict_text = verdict_words(page.cover.verdict, page.cover.chance, conditions(page.cover));
    out.why = why_of(page);
    out.next = next_of(page);
    for (const cover::RoleCover& role : page.cover.roles)
        out.roles.push_back(role_of(role, page.rules));
    out.joins_answer = joins_headline(page.joins);
    for (const RoleJoins& role : page.joins.roles) {
        if (role.plan.stretches.empty()) continue;
        PageJoins part;
        part.skeins = joins_of(project, role, page.joins.request.confidence);
        part.map_name = "Join map of " + shown_apart(role_heading(*project.role(role.plan.role)));
        part.answer = page.joins;
        part.answer.roles = {role};
        part.answer.joins = role.plan.stretches.size() - 1;
        for (const joins::Stretch& stretch : role.plan.stretches)
            part.answer.joins += static_cast<std::size_t>(stretch.ball.knots);
        part.answer.perhaps = role.plan.spares.size();
        part.answer.lasts_as_planned = chance_of(role.plan);
        part.answer.lasts = role.kept_to_rules.value_or(part.answer.lasts_as_planned);
        part.answer.finishes = role.plan.finishes;
        part.answer.rules_kept = role.plan.rules_kept;
        part.colours = role.colours && !role.colours->pieces.empty();
        out.joins.push_back(std::move(part));
        if (!role.plan.finishes)
            out.notes.push_back(fmt::format(
                "{}: the yarn ends {}; {} more would finish it", shown_apart(role.plan.role),
                place_text(project, role.plan, role.plan.stretches.back().to),
                yards_and_metres(role.plan.missing, Rounding::up)));
        if (const auto words = lasts_words(project, role.plan, page.joins.request.confidence))
            out.notes.push_back(shown_apart(role.plan.role) + ": " + *words);
        if (const auto words = slip_words(role.plan))
            out.notes.push_back(shown_apart(role.plan.role) + ": " + *words);
        const std::vector<std::string> notes = notes_with_nearest(project, role);
        for (std::size_t i = 0; i < notes.size(); ++i) {
            // What would come nearest is of this yarn alone; a note may be of all.
            const bool own = i >= role.notes.size() && page.joins.roles.size() > 1;
            const std::string note = (own ? shown_apart(role.plan.role) + ": " : "") + notes[i];
            if (std::find(out.notes.begin(), out.notes.end(), note) == out.notes.end())
                out.notes.push_back(note);
        }
        if (!role.stops.empty())
            out.stops.push_back(stops_of(project, role, page.joins.request.scale));
    }
    out.stops_words = out.stops.empty() ? "There are no stop weights: the length per mass is not "
                                          "known, or there is no skein to plan with."
                                        : "Less than this on the scale? Stop and join.";
    if (page.joins.request.scale.tare.value() > 0.0)
        out.stops_words +=
            " Needles or hook of " +
            scale_text(page.joins.request.scale.tare, page.joins.request.scale.step) +
            " lie on the scale too.";
    out.rows = rows_of(page);
    out.rows_words = put_in_bands(out.rows);
    out.fingerprint = fingerprint_of(out);
    return out;
}

}  // namespace skeinfall::report
