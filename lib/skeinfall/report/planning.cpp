#include "skeinfall/report/planning.hpp"

#include <algorithm>
#include <cstdint>
#include <tuple>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/detail/json_words.hpp"
#include "skeinfall/report/says.hpp"
#include "skeinfall/report/words.hpp"

namespace skeinfall::report {
namespace {

using base::shown_inert;
using units::Length;
using units::Rounding;

template <class T>
Json or_null(const std::optional<T>& value) {
    return value ? Json(*value) : Json();
}

}  // namespace

void rank(std::vector<MakeLine>& makes) {
    std::stable_sort(makes.begin(), makes.end(), [](const MakeLine& a, const MakeLine& b) {
        const auto key = [](const MakeLine& make) {
            return std::tuple(make.verdict, -make.chance.value.value(), make.file);
        };
        return key(a) < key(b);
    });
}

std::string makes_text(const std::vector<MakeLine>& makes, std::optional<cover::Sharing> sharing) {
    std::vector<std::vector<std::string>> rows{{"verdict", "chance", "make", "file", "short"}};
    if (sharing) rows[0].emplace_back("skeins");
    for (const MakeLine& make : makes) {
        rows.push_back({std::string(cover::name_of(make.verdict)), chance_text(make.chance),
                        sized_title(make.title, make.size), shown_inert(make.file),
                        shown_inert(base::join(make.wanting, ", "))});
        if (sharing) rows.back().push_back(shown_inert(base::join(make.skeins, "; ")));
    }
    const std::int64_t covered =
        std::count_if(makes.begin(), makes.end(),
                      [](const MakeLine& make) { return make.verdict == cover::Verdict::covered; });
    std::string next;
    for (const MakeLine& make : makes)
        for (const std::string& command : make.keep)
            if (sharing && make.verdict == cover::Verdict::covered)
                next += "  " + shown_inert(command) + "\n";
    return table(rows, {false, true, false, false, false, false}, 0) +
           fmt::format(
               "\n{} of {} covered{}.\n", covered,
               counted(static_cast<std::int64_t>(makes.size()), "make", "makes"),
               makes.size() == 1 ? ""
               : !sharing
                   ? ", each as if it had the whole stash to itself (--together for all at once)"
               : *sharing == cover::Sharing::joint
                   ? ", all at once: no skein is used twice"
                   : ", one after the other by the names of their files: what one takes the "
                     "next does not find") +
           (next.empty() ? "" : "\nNext\n" + next);
}

std::string makes_json(const std::vector<MakeLine>& makes, std::optional<cover::Sharing> sharing) {
    Json out;
    out["together"] = sharing == cover::Sharing::joint;
    out["in_turn"] = sharing.has_value() && *sharing != cover::Sharing::joint;
    out["makes"] = Json::array();
    for (const MakeLine& make : makes)
        out["makes"].push_back({{"file", make.file},
                                {"title", make.title},
                                {"size", make.size.empty() ? Json() : Json(make.size)},
                                {"verdict", std::string(cover::name_of(make.verdict))},
                                {"chance", chance_figure(make.chance).value()},
                                {"wanting", make.wanting},
                                {"skeins", make.skeins}});
    return finished(out);
}

std::string remedies_text(const std::vector<cover::Remedy>& remedies, units::Ratio margin) {
    if (remedies.empty()) return {};
    // A margin changes no verdict: what helps is judged by the need itself.
    std::vector<std::vector<std::string>> rows{
        {"what would help", "yarn saved",
         margin.value() > 0.0 ? "result without your margin" : "result", "chance it is enough"}};
    for (const cover::Remedy& remedy : remedies)
        rows.push_back(
            {shown_inert(said(remedy.what)),
             remedy.saved > Length{} ? yards_and_metres(remedy.saved, Rounding::down) : "-",
             std::string(cover::name_of(remedy.verdict)), chance_text(remedy.chance)});
    return "\n" + table(rows, {false, true, false, true}, 0);
}

namespace {

/// What must be said of the fibres of a yarn to buy.
std::vector<std::string> fibre_notes(const cover::BuyingLine& line) {
    std::vector<std::string> out;
    if (line.objection) out.push_back("not this yarn: " + text(*line.objection));
    if (!line.unproven.empty())
        out.push_back("not this yarn: " + base::join(line.unproven, ", ") + " may not stand heat");
    if (line.objection || !line.unproven.empty())
        out.emplace_back("choose another yarn, and name it in the project");
    if (!line.keep_out.empty())
        out.push_back("read the whole content on the label: no " +
                      base::join(line.keep_out, ", no ") + " may be in it");
    if (line.near_heat)
        out.emplace_back("only cotton, linen or wool, nothing that softens or melts in heat");
    return out;
}

std::vector<std::string> buying_notes(const cover::BuyingLine& line) {
    std::vector<std::string> out;
    if (!line.skeins && !line.objection && line.unproven.empty())
        out.emplace_back("what one skein holds is not known: record it, such as 200 yd / 100 g");
    if (line.match_lots && line.all_anew)
        out.push_back(fmt::format("dye lots must match: buy the lot you have, or {} of one new lot",
                                  *line.all_anew));
    else if (line.match_lots)
        out.emplace_back("dye lots must match: buy the lot you have");
    if (!line.settled)
        out.emplace_back(
            "more skeins would not help: something else is in the way, such as rows without joins; "
            "\"skeinfall cover\" and \"skeinfall joins\" say what");
    return out;
}

/// Beside figures that contradict each other, `open`, no amount is sure.
std::string buying_rows(const cover::BuyingLine& line, measure::Chance confidence, bool open) {
    std::vector<std::vector<std::string>> rows;
    rows.push_back({"for", shown_inert(base::join(line.uses, ", "))});
    rows.push_back({"needs", yards_and_metres(line.needed, Rounding::up)});
    rows.push_back({open ? std::string("by the worse figure")
                         : "to be " + chance_text(confidence) + " sure" +
                               (line.only_margin ? " with the margin" : ""),
                    yards_and_metres(line.missing, Rounding::up) + " more"});
    if (line.margin > Length{})
        rows.push_back({"margin", yards_and_metres(line.margin, Rounding::up) +
                                      (line.for_margin.value_or(0) > 0
                                           ? fmt::format(", {} of these skeins", *line.for_margin)
                                           : "")});
    if (line.cost && line.settled)
        rows.push_back(
            {"costs",
             shown_inert(text(*line.cost)) +
                 (*line.skeins > 1 ? ", at " + shown_inert(text(*line.price)) + " each" : "")});
    if (line.chance && line.settled) {
        const cover::Verdict then = cover::verdict_for(*line.chance, confidence);
        const bool unsure = open && then == cover::Verdict::covered;
        rows.push_back(
            {"then",
             std::string(cover::name_of(unsure ? cover::Verdict::too_close_to_call : then)) +
                 ", chance " + chance_text(*line.chance) +
                 (unsure ? " at best, until the wrong figure is corrected" : "")});
    }
    if (line.skeins && line.settled)
        rows.push_back({"left over", yards_and_metres(line.over, Rounding::down)});
    return table(rows, {false, false}, 2);
}

}  // namespace

std::vector<std::string> contradictions_of(const std::vector<cover::MakeCover>& covers) {
    std::vector<std::string> out;
    for (const cover::MakeCover& cover : covers)
        for (const cover::RoleCover& role : cover.roles)
            for (const need::Contradiction& one : role.need.contradictions)
                out.push_back(role.role.id + ": " + said(one));
    return out;
}

std::string buying_text(const std::vector<cover::BuyingLine>& lines, measure::Chance confidence,
                        const std::vector<std::string>& contradictions, bool if_joined_anywhere) {
    std::string out;
    for (const std::string& one : contradictions)
        out += "Two figures do not go together: " + shown_inert(one) +
               ". The list below uses the worse of the two.\n";
    if (!contradictions.empty()) out += "\n";
    if (lines.empty())
        return contradictions.empty() ? std::string("Nothing to buy: the stash covers it") +
                                            (if_joined_anywhere ? ", if joined anywhere.\n" : ".\n")
                                      : out +
                                            "Your stash is enough even by the worse figure. "
                                            "Correct the wrong one before you rely on it.\n";
    for (const cover::BuyingLine& line : lines) {
        const std::string what =
            shown_inert(line.yarn + (line.colour.empty() ? "" : " " + line.colour));
        if (!line.settled)
            out += fmt::format("more skeins of {} would not make it sure\n", what);
        else if (line.skeins)
            out += fmt::format("{} of {} ({})\n", counted(*line.skeins, "skein", "skeins"), what,
                               shown_inert(line.put_up.length->text));
        else
            out += fmt::format(
                "{} of {}\n", yards_and_metres(line.missing, Rounding::up),
                line.objection || !line.unproven.empty() ? "a different yarn from " + what : what);
        out += buying_rows(line, confidence, !contradictions.empty());
        for (const std::string& note : fibre_notes(line))
            out += "  note: " + shown_inert(note) + "\n";
        for (const std::string& note : buying_notes(line))
            out += "  note: " + shown_inert(note) + "\n";
        out += "\n";
    }
    const std::vector<cover::Price> sums = cover::together(lines);
    const auto unpriced = std::count_if(lines.begin(), lines.end(),
                                        [](const cover::BuyingLine& line) { return !line.cost; });
    if (!sums.empty()) {
        std::vector<std::string> words;
        words.reserve(sums.size());
        for (const cover::Price& sum : sums) words.push_back(shown_inert(text(sum)));
        out += "Together " + base::join(words, " and ") +
               (unpriced > 0
                    ? fmt::format(", and {} without a price", counted(unpriced, "yarn", "yarns"))
                    : "") +
               ".\n";
    }
    return out +
           "Two ends are allowed for on every skein. Lengths of different yarns are not added.\n";
}

std::string buying_json(const std::vector<cover::BuyingLine>& lines,
                        const std::vector<std::string>& contradictions) {
    Json out;
    out["contradictions"] = contradictions;
    out["lines"] = Json::array();
    for (const cover::BuyingLine& line : lines)
        out["lines"].push_back(
            {{"yarn", line.yarn},
             {"colour", line.colour},
             {"uses", line.uses},
             {"put_up", line.put_up.length ? Json(line.put_up.length->text) : Json()},
             {"missing_m", m(line.missing)},
             {"needed_m", m(line.needed)},
             {"margin_m", m(line.margin)},
             {"only_margin", line.only_margin},
             {"skeins", line.settled ? or_null(line.skeins) : Json()},
             {"settled", line.settled},
             {"skeins_for_margin", or_null(line.for_margin)},
             {"skeins_of_one_new_lot", or_null(line.all_anew)},
             {"left_over_m", m(line.over)},
             {"chance_with_them", line.chance ? Json(line.chance->value.value()) : Json()},
             {"price", line.price ? Json(text(*line.price)) : Json()},
             {"cost", line.cost ? Json(text(*line.cost)) : Json()},
             {"keep_out", line.keep_out},
             {"not_this_yarn", line.objection || !line.unproven.empty()},
             {"notes", [&] {
                  std::vector<std::string> notes = fibre_notes(line);
                  for (std::string& note : buying_notes(line)) notes.push_back(std::move(note));
                  return notes;
              }()}});
    return finished(out);
}

std::string worked_words(const project::Project& project, const cover::Rules& rules,
                         const std::string& role) {
    for (const need::Worked& worked : rules.done) {
        if (worked.role != role) continue;
        const project::Piece& piece = project.pieces[worked.piece];
        const std::string of =
            shown_inert(piece.name) + (worked.copy > 1 ? " " + std::to_string(worked.copy) : "");
        const std::string at = worked.row == 0
                                   ? "begun with " + of
                                   : fmt::format("worked to {} {} of {}",
                                                 project::row_word(piece.worked), worked.row, of);
        return fmt::format(
            "  {}{}, by your weighings: this is for the rest of it.\n",
            rules.done.size() > 1 ? shown_inert(role) + " is " : "",
            rules.done.size() > 1
                ? at
                : std::string(1, static_cast<char>(at[0] - 'a' + 'A')) + at.substr(1));
    }
    return {};
}

}  // namespace skeinfall::report
