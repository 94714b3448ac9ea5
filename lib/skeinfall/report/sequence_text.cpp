#include <algorithm>
#include <cstdint>
#include <cstdlib>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/detail/json_words.hpp"
#include "skeinfall/report/sequence.hpp"
#include "skeinfall/report/words.hpp"

namespace skeinfall::report {

using base::shown_inert;
using colours::SequencePiece;
using colours::SequencePlan;
using units::Length;
using units::Rounding;
using units::Step;

namespace {

using Rows = std::vector<std::vector<std::string>>;

std::string piece_name(const project::Project& project, const SequencePiece& one) {
    const project::Piece& piece = project.pieces[one.piece];
    return shown_inert(piece.name) + (one.copy > 1 ? " " + std::to_string(one.copy) : "");
}

Length into_first(const SequencePlan& plan, const SequencePiece& one) {
    Length phase = one.start;
    for (const project::ColourRun& run : plan.runs) {
        if (phase < run.length) return phase;
        phase -= run.length;
    }
    return {};
}

std::string known_text(const project::Project& project, const SequencePiece& one,
                       const std::optional<std::int64_t>& rows) {
    if (!rows) return "to its end";
    if (*rows == 0) return "not at all";
    return fmt::format("to {} {}", project::row_word(project.pieces[one.piece].worked), *rows);
}

std::string repeat_lines(const SequencePlan& plan) {
    const colours::Repeat& repeat = plan.wish.repeat;
    const std::string spread =
        units::percent_text(units::Ratio(repeat.spread / repeat.mean), Step::one, Rounding::up);
    std::string out = fmt::format(
        "  one repeat {}: {}, give or take {}\n", yards_and_metres(repeat.mean, Rounding::nearest),
        repeat.measured == 0   ? "as stated"
        : repeat.measured == 1 ? std::string("measured once")
                               : fmt::format("measured {} times", repeat.measured),
        spread);
    std::vector<std::string> runs;
    for (const project::ColourRun& run : plan.runs)
        runs.push_back(shown_inert(run.colour) + " " +
                       units::yarn_text(run.length, Step::tenth, Rounding::nearest));
    return out + "  in this order: " + base::join(runs, ", ") + "\n";
}

/// "sand, 1.2 yd into it", "sand, at its start".
std::string begins_text(const std::string& colour, Length into) {
    if (into < 0.5 * units::centimetre) return colour + ", at its start";
    return fmt::format("{}, {} into it", colour,
                       into < units::metre
                           ? units::side_text(into, Step::tenth, Rounding::nearest)
                           : units::yarn_text(into, Step::tenth, Rounding::nearest));
}

std::string piece_table(const project::Project& project, const SequencePlan& plan) {
    const auto by_length = [](const auto& a, const auto& b) { return a.length < b.length; };
    const auto [shortest, longest] =
        std::minmax_element(plan.runs.begin(), plan.runs.end(), by_length);
    Rows rows{{"piece", "wind off before starting", "row 1 begins with",
               shown_inert(shortest->colour) + " is known",
               shown_inert(longest->colour) + " is known"}};
    for (const SequencePiece& one : plan.pieces) {
        const Length into = into_first(plan, one);
        rows.push_back({piece_name(project, one),
                        plan.wish.colour && !plan.wish.begins && &one == &plan.pieces.front()
                            ? fmt::format("up to {}",
                                          units::yarn_text(plan.at_most, Step::tenth, Rounding::up))
                        : plan.wish.colour
                            ? units::yarn_text(one.wound_off, Step::tenth, Rounding::up)
                            : std::string("-"),
                        begins_text(shown_inert(plan.runs[one.stripes.front().run].colour), into),
                        known_text(project, one, one.unknown_after),
                        known_text(project, one, one.longest_unknown_after)});
    }
    return "\n" + table(rows, {false, true, false, false, false}, 2);
}

/// The rows that each colour comes to where the piece is widest, first and last whole band.
std::string band_table(const project::Project& project, const SequencePlan& plan) {
    Rows rows{{"piece", "colour", "first band", "last band"}};
    for (const SequencePiece& one : plan.pieces) {
        if (one.copy > 1) continue;
        const std::string word =
            std::string(project::row_word(project.pieces[one.piece].worked)) + "s";
        const auto text = [&](const joins::ColourStripe& band) {
            return units::number_text(units::Ratio((band.to - band.from) / units::row), Step::tenth,
                                      Rounding::nearest) +
                   " " + word;
        };
        for (std::size_t run = 0; run < plan.runs.size(); ++run) {
            const joins::ColourStripe* first = nullptr;
            const joins::ColourStripe* last = nullptr;
            for (std::size_t i = 1; i + 1 < one.stripes.size(); ++i)
                if (one.stripes[i].run == run) {
                    if (first == nullptr) first = &one.stripes[i];
                    last = &one.stripes[i];
                }
            if (first != nullptr)
                rows.push_back({piece_name(project, one), shown_inert(plan.runs[run].colour),
                                text(*first), text(*last)});
        }
    }
    return rows.size() > 1 ? "\n" + table(rows, {false, false, true, true}, 2) : std::string();
}

std::string notes_of(const project::Project& project, const SequencePlan& plan) {
    std::string out;
    const Length half = 0.5 * project::repeat_of(plan.runs);
    for (const SequencePiece& one : plan.pieces) {
        if (one.copy > 1) continue;
        const std::string name = piece_name(project, one);
        const bool round = project.pieces[one.piece].worked == project::Worked::round;
        if (one.pools) {
            out += fmt::format("  {}: its colours may pool ({}).", name,
                               joins::name_of(one.pooling.pattern));
            const std::string turns = fmt::format(
                "lternate two balls every {}, the second begun {} further on in the repeat.\n",
                round ? "round" : "2 rows", yards_and_metres(half, Rounding::nearest));
            out += one.differ_by
                       ? fmt::format(" Work {} {}, or a{}",
                                     counted(std::llabs(*one.differ_by), "stitch", "stitches"),
                                     *one.differ_by > 0 ? "more" : "fewer", turns)
                       : " A" + turns;
        }
        if (one.alike.each_repeat > Length{})
            out += fmt::format(
                "  {}: its stripes are higher than on the widest piece. To match them, cut {} out "
                "of every repeat, {} in all, at {}.\n",
                name, yards_and_metres(one.alike.each_repeat, Rounding::nearest),
                yards_and_metres(one.alike.in_all, Rounding::up),
                counted(one.alike.joins, "join", "joins"));
    }
    const bool lost = std::any_of(plan.pieces.begin(), plan.pieces.end(),
                                  [](const auto& one) { return one.unknown_after.has_value(); });
    if (lost)
        out +=
            "  Beyond these rows a colour may be off by more than half its length: look at the "
            "ball, and wind\n  off to a colour where pieces must match.\n";
    return out.empty() ? out : "\n" + out;
}

}  // namespace

std::string sequence_text(const project::Project& project, const SequencePlan& plan) {
    std::string out =
        fmt::format("colours of {}: {}\n", role_heading(*project.role(plan.wish.role)),
                    title_text(project, plan.wish.size));
    out += repeat_lines(plan) + piece_table(project, plan);
    if (plan.wish.colour)
        out += fmt::format(
            "  every piece begins with {}: {} wound off{}, {} of yarn with it\n",
            shown_inert(*plan.wish.colour), yards_and_metres(plan.wound_off, Rounding::up),
            plan.at_most > Length{} ? " between them, and up to a repeat at the beginning" : "",
            yards_and_metres(plan.takes, Rounding::up));
    return out + band_table(project, plan) + notes_of(project, plan);
}

std::string sequence_json(const project::Project& project, const SequencePlan& plan) {
    Json out;
    out["title"] = project.title;
    out["yarn"] = plan.wish.role;
    out["repeat_m"] = m(plan.wish.repeat.mean);
    out["repeat_spread_m"] = m(plan.wish.repeat.spread);
    out["measured"] = plan.wish.repeat.measured;
    out["runs"] = Json::array();
    for (const project::ColourRun& run : plan.runs)
        out["runs"].push_back({{"colour", run.colour}, {"length_m", m(run.length)}});
    out["pieces"] = Json::array();
    for (const SequencePiece& one : plan.pieces) {
        Json bands = Json::array();
        for (const joins::ColourStripe& band : one.stripes)
            bands.push_back({{"colour", plan.runs[band.run].colour},
                             {"from_row", band.from / units::row + 0.0},
                             {"to_row", band.to / units::row + 0.0},
                             {"height_m", m(band.height)}});
        out["pieces"].push_back(
            {{"piece", project.pieces[one.piece].name},
             {"copy", one.copy},
             {"begins_with", plan.runs[one.stripes.front().run].colour},
             {"into_it_m", m(into_first(plan, one))},
             {"wind_off_m", m(one.wound_off)},
             {"known_rows", one.unknown_after ? Json(*one.unknown_after) : Json()},
             {"longest_known_rows",
              one.longest_unknown_after ? Json(*one.longest_unknown_after) : Json()},
             {"bands", bands},
             {"cut_each_repeat_m", m(one.alike.each_repeat)},
             {"cut_in_all_m", m(one.alike.in_all)},
             {"cut_joins", one.alike.joins},
             {"pools", one.pools},
             {"pattern",
              one.pools ? Json(std::string(joins::name_of(one.pooling.pattern))) : Json()},
             {"differ_by", one.differ_by ? Json(*one.differ_by) : Json()}});
    }
    out["wound_off_m"] = m(plan.wound_off);
    out["wind_off_at_most_m"] = m(plan.at_most);
    out["takes_m"] = m(plan.takes);
    return finished(out);
}

namespace {

std::string part_names(const std::vector<std::string>& names) {
    std::vector<std::string> shown;
    shown.reserve(names.size());
    for (const std::string& name : names) shown.push_back(shown_inert(name));
    return base::join(shown, ", ");
}

}  // namespace

std::string each_text(const project::Project& project, const colours::EachColour& each,
                      bool saved) {
    const project::Piece& piece = project.pieces[each.piece];
    std::string out =
        fmt::format("{} of {}, the project has {}: {}\n", each.together, shown_inert(piece.name),
                    each.wanted, title_text(project, each.size));
    Rows rows{{"yarn", "how many", "left over", "chance"}};
    for (const colours::OfColour& of : each.colours)
        rows.push_back({role_heading(*project.role(of.role)),
                        std::to_string(of.count) + (of.endless ? " and more" : ""),
                        of.count > 0 ? yards_and_metres(of.left, Rounding::down) : "-",
                        of.count > 0 ? chance_text(of.chance) : "-"});
    out += table(rows, {false, true, true, true}, 2);
    if (each.together < each.wanted)
        out += fmt::format("  {} short.\n", counted(each.wanted - each.together, "copy", "copies"));
    for (const std::string& role : each.short_for_parts)
        out += fmt::format("  {} is not enough for what the make takes of it beside them.\n",
                           role_heading(*project.role(role)));
    if (!each.parts_of_each.empty())
        out += fmt::format("  Each of them has its own, and that is counted so often: {}.\n",
                           part_names(each.parts_of_each));
    if (!each.parts_fixed.empty())
        out += fmt::format("  Counted as for the {} of the project: {}.\n", each.wanted,
                           part_names(each.parts_fixed));
    out += "  Each colour's count is sure by itself and with the others.";
    if (saved) return out + "\n";
    out += " In the project, a piece for each colour:\n";
    for (const colours::OfColour& of : each.colours)
        if (of.count > 0)
            out += fmt::format("    yarn = \"{}\", count = {}\n", shown_inert(of.role), of.count);
    for (const std::string& part : each.parts_of_each)
        out += fmt::format("    {}: count = {}\n", shown_inert(part), each.together);
    return out;
}

std::string each_json(const project::Project& project, const colours::EachColour& each) {
    Json out;
    out["title"] = project.title;
    out["piece"] = project.pieces[each.piece].name;
    out["wanted"] = each.wanted;
    out["together"] = each.together;
    out["enough"] = each.enough();
    out["short_for_parts"] = each.short_for_parts;
    out["parts_of_each"] = each.parts_of_each;
    out["parts_fixed"] = each.parts_fixed;
    out["colours"] = Json::array();
    for (const colours::OfColour& of : each.colours)
        out["colours"].push_back({{"role", of.role},
                                  {"count", of.count},
                                  {"endless", of.endless},
                                  {"chance", chance_figure(of.chance).value()},
                                  {"left_m", m(of.left)}});
    return finished(out);
}

}  // namespace skeinfall::report
