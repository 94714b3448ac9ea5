#include "skeinfall/report/text.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <set>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/detail/left_out.hpp"
#include "skeinfall/report/planning.hpp"
#include "skeinfall/report/rates.hpp"
#include "skeinfall/report/says.hpp"
#include "skeinfall/report/stash_text.hpp"
#include "skeinfall/report/words.hpp"
#include "skeinfall/stash/fields.hpp"
#include "skeinfall/units/number_style.hpp"

namespace skeinfall::report {
namespace {

using base::shown_inert;
using units::Length;
using units::Rounding;
using units::Step;

std::string yards(Length length, Rounding rounding) {
    return units::text(length, units::shown::yards, Step::tenth, rounding);
}

std::string metres(Length length, Rounding rounding) {
    return units::text(length, units::shown::metres, Step::tenth, rounding);
}

/// "120 g" of yarn with a known length per mass; empty otherwise.
std::string mass_text(Length length, const std::optional<units::Grist>& grist) {
    if (!grist || units::number_style().yarn_in_grams) return {};
    return ", " +
           units::text(units::Mass(length / *grist), units::shown::grams, Step::one, Rounding::up);
}

/// ", weigh me-09 first": what nobody weighed yet may be enough.
std::string first_words(const char* what, std::vector<std::string> ids) {
    if (ids.empty()) return {};
    constexpr std::size_t most = 4;
    const std::size_t all = ids.size();
    if (all > most) ids.resize(most);
    return std::string(", ") + what + " " + shown_inert(base::join(ids, ", ")) +
           (all > most ? fmt::format(" and {} more", all - most) : "") + " first";
}

std::string skein_line(const stash::Skein& skein) {
    const auto supply = stash::supply_of(skein);
    std::string out = shown_inert(skein.id) + "  " + (stash::is_part(skein) ? "part" : "whole");
    if (supply) out += ", " + yards_and_metres(supply->length, Rounding::down);
    return out + ", " + shown_inert(stash::lot_text(skein));
}

/// What is needed; both ends where it was stated as a range, never a middle.
std::string needed_text(const need::RoleNeed& need, Length needed, units::Ratio margin) {
    if (!need.stated_between) return yards_and_metres(needed, Rounding::up);
    const double times = 1.0 + margin.value();
    // Of one skein it may be nearly nothing.
    if (need.stated_between->least < 0.05 * need.stated_between->most)
        return "up to " + yards_and_metres(times * need.stated_between->most, Rounding::up);
    return yards_and_metres(times * need.stated_between->least, Rounding::up) + " to " +
           yards_and_metres(times * need.stated_between->most, Rounding::up);
}

}  // namespace

/// The verdict is for the need itself; this is for what was asked for on top.
std::string margin_line(const cover::RoleCover& role, units::Ratio margin) {
    if (!(margin.value() > 0.0)) return {};
    const std::string asked = units::percent_text(margin, Step::tenth, Rounding::nearest);
    if (!(role.margin_short > Length{}))
        return fmt::format("  With your {} margin: chance {}.\n", asked,
                           chance_text(role.with_margin));
    if (role.spare < Length{})
        return fmt::format("  Not with your {} margin: {} short, chance {}.\n", asked,
                           yards_and_metres(-role.spare, Rounding::up),
                           chance_text(role.with_margin));
    return fmt::format("  Not surely with your {} margin: chance {}, {} more would make it sure.\n",
                       asked, chance_text(role.with_margin),
                       yards_and_metres(role.margin_short, Rounding::up));
}

std::string need_text(const project::Project& project, const need::MakeNeed& make) {
    std::string out = title_text(project, make.size) + "\n" + gauge_text(project, make.size);
    for (const need::RoleNeed& role : make.roles) {
        const Length sure =
            measure::supply_needed(role.length, Length{}, measure::usual_confidence);
        out += fmt::format("\n{}: needs {}{}", role_heading(*project.role(role.role)),
                           needed_text(role, role.length.centre, units::Ratio(0.0)),
                           role.stated_between ? "" : mass_text(role.length.centre, role.grist));
        // No amount is sure beside figures that contradict each other.
        if (role.contradictions.empty())
            out += "; to be 95 % sure: " + yards_and_metres(sure, Rounding::up) +
                   mass_text(sure, role.grist);
        out += "\n";
        out += contradiction_lines(role.contradictions);
        out += "  found " + shown_inert(role.how) + "\n" + rate_text(role);
        std::vector<std::vector<std::string>> rows;
        const auto row = [&](std::string_view name, Length yarn) {
            if (units::number_style().yarn_in_grams) {
                rows.push_back({std::string(name), yards_and_metres(yarn, Rounding::nearest), ""});
                return;
            }
            rows.push_back({std::string(name), yards(yarn, Rounding::nearest),
                            metres(yarn, Rounding::nearest)});
            if (units::number_style().metres_first) std::swap(rows.back()[1], rows.back()[2]);
        };
        for (const need::Part& part : role.parts)
            row(part.purpose == need::Purpose::tails ? "ends" : need::name_of(part.purpose),
                part.yarn);
        row("together", role.length.centre);
        out += table(rows, {false, true, true}, 2);
        out += band_text(role);
        for (const std::string& note : role.notes) out += "  note: " + shown_inert(note) + "\n";
    }
    if (project.margin.value() > 0.0)
        out += fmt::format(
            "\nThe project asks for {} more on top; that margin is not in these figures.\n",
            units::percent_text(project.margin, Step::tenth, Rounding::nearest));
    return out;
}

bool only_if_joined_anywhere(const cover::RoleCover& role) {
    return !role.rows_known && role.chosen.size() > 1 && role.verdict != cover::Verdict::is_short;
}

namespace {

/// Nobody said which yarn it is.
std::string if_it_will_do(const cover::RoleCover& role) {
    if (role.role.says_which() || role.chosen.empty() || role.verdict == cover::Verdict::is_short)
        return {};
    const stash::Skein& first = role.chosen.front();
    return ", if " + shown_inert(first.yarn.name.empty() ? first.id : first.yarn.name) + " will do";
}

}  // namespace

std::string conditions(const cover::RoleCover& role) {
    return (only_if_joined_anywhere(role) ? ", if joined anywhere" : "") + if_it_will_do(role);
}

bool only_if_joined_anywhere(const cover::MakeCover& cover) {
    return cover.verdict == cover::Verdict::covered &&
           std::any_of(cover.roles.begin(), cover.roles.end(),
                       [](const cover::RoleCover& role) { return only_if_joined_anywhere(role); });
}

std::string conditions(const cover::MakeCover& cover) {
    std::string out = only_if_joined_anywhere(cover) ? ", if joined anywhere" : "";
    if (cover.verdict != cover::Verdict::covered) return out;
    std::set<std::string> said;
    for (const cover::RoleCover& role : cover.roles)
        if (const std::string one = if_it_will_do(role); said.insert(one).second) out += one;
    return out;
}

namespace {

/// What was weighed of the maker's own.
std::string_view weighed_words(const need::RoleNeed& need) {
    const auto rests_on = [&](need::Source source) {
        return std::any_of(need.evidence.begin(), need.evidence.end(),
                           [&](const need::Evidence& one) { return one.source == source; });
    };
    if (rests_on(need::Source::swatch)) return "swatch is";
    return rests_on(need::Source::earlier_make) ? "earlier make is" : "weighings are";
}

/// What the rest outweighs though it asks for clearly more: of this very make or fabric, not
/// others' makes like it, which any swatch outweighs.
std::string outweighed_lines(const need::RoleNeed& need) {
    constexpr double clearly = 1.15;
    std::string out;
    for (const need::Evidence& one : need.evidence)
        if (one.source != need::Source::makes_like_it && one.source != need::Source::loop_model &&
            one.weight.value() < 0.5 && one.yarn > clearly * need.length.centre)
            out += fmt::format(
                "  Look at this: going by {} alone it would take {}, {} more than planned here.\n",
                shown_inert(one.name), yards_and_metres(one.yarn, Rounding::nearest),
                units::percent_text(units::Ratio(one.yarn / need.length.centre - 1.0), Step::one,
                                    Rounding::nearest));
    return out;
}

}  // namespace

namespace {

/// The verdict of one yarn, with what it hangs on.
std::string role_line(const cover::RoleCover& role) {
    // Only what a label might tell leaves a yarn open of which nothing will do.
    const bool unread = role.verdict == cover::Verdict::too_close_to_call && role.chosen.empty() &&
                        !role.role.avoid.empty();
    const std::vector<std::string> labels =
        unread ? detail::fibres_unread(role) : std::vector<std::string>();
    const std::string first = first_words("weigh", role.weigh_first) +
                              first_words("measure", role.measure_first) +
                              first_words("read the label of", labels);
    const char* const without =
        first.empty()                                                             ? ""
        : role.weigh_first.size() + role.measure_first.size() + labels.size() > 1 ? " without them"
                                                                                  : " without it";
    return fmt::format("\n{}: {}{}, chance {}{}{}\n", role_heading(role.role),
                       cover::name_of(role.verdict), first, chance_text(role.chance), without,
                       conditions(role));
}

/// Why the verdict is what it is.
std::string why_lines(const cover::RoleCover& role, const cover::Rules& rules) {
    std::string out;
    if (role.against_rules)
        out += fmt::format(
            "  The chance is {} with joins only where the project allows them. It takes joins "
            "in other places to make the yarn last.\n",
            chance_text(role.chance));
    else if (role.rows_known && role.chance < role.confidence && role.anywhere >= role.confidence)
        out += fmt::format(
            "  With joins at row ends only, the chance is {}; with joins inside rows too, {}.\n",
            chance_text(role.chance), chance_text(role.anywhere));
    if (role.against_slip && role.to_be_sure > Length{})
        out += fmt::format(
            "  Stopping at the stop weights leaves the last rows undone. To be safe, have {} "
            "more.\n",
            yards_and_metres(role.to_be_sure, Rounding::up));
    for (const cover::Note& note : role.notes)
        if (std::holds_alternative<cover::LotsMayBeOne>(note))
            out += "  " + shown_inert(said(note)) + ".\n";
    return out + detail::left_out_lines(role) + contradiction_lines(role.need.contradictions) +
           outweighed_lines(role.need) + margin_line(role, rules.margin);
}

/// No amount makes it sure where the figures contradict each other or no count can hold.
bool can_be_sure(const cover::RoleCover& role) {
    return role.to_be_sure > Length{} && !role.against_rules && role.need.contradictions.empty() &&
           std::none_of(role.settles.begin(), role.settles.end(), [](const cover::Settling& one) {
               return std::holds_alternative<cover::NoCountHolds>(one.what);
           });
}

std::string figure_lines(const cover::RoleCover& role, const cover::Rules& rules) {
    std::vector<std::vector<std::string>> rows;
    const bool margin = rules.margin.value() > 0.0;
    rows.push_back(
        {"needs",
         needed_text(role.need, role.needed, rules.margin) +
             (role.need.stated_between ? "" : mass_text(role.needed, role.need.grist)) +
             (margin ? " (with your " +
                           units::percent_text(rules.margin, Step::tenth, Rounding::nearest) +
                           " margin)"
                     : "")});
    if (role.need.stated_between)
        rows.push_back({"", shown_inert(role.need.how) + "; \"covered\" means its upper end"});
    rows.push_back({"has", role.chosen.empty()
                               ? std::string("no suitable yarn")
                               : yards_and_metres(role.supply.centre, Rounding::down) + " in " +
                                     counted(static_cast<std::int64_t>(role.chosen.size()), "skein",
                                             "skeins")});
    if (!role.chosen.empty())
        rows.push_back(
            {"ends", yards_and_metres(role.tails, Rounding::up) + " kept for weaving in"});
    if (role.cut_off > Length{})
        rows.push_back(
            {"wasted", yards_and_metres(role.cut_off, Rounding::up) + " on average, at joins"});
    if (role.wound_off > Length{})
        rows.push_back({"wound off", yards_and_metres(role.wound_off, Rounding::up) +
                                         " on average, to join in the right colour"});
    if (role.spare >= Length{})
        rows.push_back({"left over", yards_and_metres(role.spare, Rounding::down)});
    else
        rows.push_back({"missing", yards_and_metres(-role.spare, Rounding::up)});
    if (can_be_sure(role))
        rows.push_back({"to be " + chance_text(role.confidence) + " sure",
                        yards_and_metres(role.to_be_sure, Rounding::up) + " more"});
    return table(rows, {false, false}, 2);
}

std::string chosen_lines(const cover::RoleCover& role) {
    std::string out;
    for (const stash::Skein& skein : role.chosen) {
        out += "  " + skein_line(skein);
        for (const cover::Share& share : role.shares)
            if (share.id == skein.id)
                out += ", of which this takes " + yards_and_metres(share.length, Rounding::up);
        out += "\n";
    }
    if (role.label_cancels && !role.role.metre_is_a_gram)
        out +=
            fmt::format("  Your {} in this yarn, so a label that is a little off hardly matters.\n",
                        weighed_words(role.need));
    if (!role.proven)
        out += "  The search was cut short: another choice of skeins may leave less over.\n";
    return out;
}

std::string not_used_lines(const cover::RoleCover& role, bool why) {
    std::string out;
    std::int64_t fits = 0;
    for (const cover::Candidate& candidate : role.candidates)
        if (candidate.supply) ++fits;
    const std::int64_t out_count = std::ssize(role.stash) - fits;
    fits -= static_cast<std::int64_t>(role.chosen.size());
    const bool of_use = why || fits > 0 || role.verdict != cover::Verdict::covered;
    if (fits + out_count > 0 && of_use)
        out += fmt::format("  skeins not used: {} that would do, {} that would not{}\n", fits,
                           out_count, why ? "" : " (--why lists them)");
    if (!why) return out;
    std::vector<std::vector<std::string>> reasons;
    for (const cover::Candidate& candidate : cover::every_candidate(role)) {
        const bool chosen =
            std::any_of(role.chosen.begin(), role.chosen.end(),
                        [&](const stash::Skein& skein) { return skein.id == candidate.skein->id; });
        if (!chosen)
            reasons.push_back(
                {shown_inert(candidate.skein->id),
                 !stated(candidate.reason)
                     ? "would do, not needed: " + shown_inert(stash::lot_text(*candidate.skein))
                     : shown_inert(said(candidate.reason))});
    }
    return out + table(reasons, {false, false}, 4);
}

/// One yarn: its verdict, why, what to do next, and only then the figures.
std::string role_text(const project::Project& project, const cover::RoleCover& role,
                      const cover::Rules& rules, bool why) {
    std::string out =
        role_line(role) + worked_words(project, rules, role.role.id) + why_lines(role, rules);
    for (const cover::Settling& step : role.settles)
        out += "  next: " + shown_inert(said(step)) + "\n";
    out += figure_lines(role, rules) + chosen_lines(role);
    for (const cover::Note& note : role.notes)
        if (!std::holds_alternative<cover::LotsMayBeOne>(note))
            out += "  note: " + shown_inert(said(note)) + "\n";
    return out + not_used_lines(role, why);
}

std::string together_text(const cover::MakeCover& cover, const cover::Rules& rules) {
    if (cover.roles.size() < 2) return {};
    const std::string together = chance_text(cover.chance);
    return fmt::format(
        "\nAll yarns together: chance {}{}. {}; {}.\n", together,
        cover.verdict == cover::Verdict::covered && together.front() != '>' ? " or better" : "",
        rules.sharing == cover::Sharing::role_by_role
            ? "They were chosen one after the other in the project's order"
            : "Shared so that as few yarns as possible run short",
        rules.division == cover::Division::split
            ? "a skein may be divided, each part with ends of its own"
            : "no skein is used twice");
}

}  // namespace

std::string cover_text(const project::Project& project, const need::MakeNeed& make,
                       const cover::MakeCover& cover, const cover::Rules& rules, bool why) {
    std::vector<std::string> weigh;
    std::vector<std::string> measure;
    for (const cover::RoleCover& role : cover.roles) {
        weigh.insert(weigh.end(), role.weigh_first.begin(), role.weigh_first.end());
        measure.insert(measure.end(), role.measure_first.begin(), role.measure_first.end());
    }
    const bool without_margin =
        cover.verdict == cover::Verdict::covered && rules.margin.value() > 0.0 &&
        std::any_of(cover.roles.begin(), cover.roles.end(),
                    [](const cover::RoleCover& role) { return role.margin_short > Length{}; });
    std::string out =
        fmt::format("{}{}{}{}: {}\n", cover::name_of(cover.verdict), conditions(cover),
                    without_margin ? ", but not with your margin" : "",
                    first_words("weigh", weigh) + first_words("measure", measure),
                    title_text(project, make.size));
    for (const cover::RoleCover& role : cover.roles) out += role_text(project, role, rules, why);
    return out + together_text(cover, rules);
}

std::string next_text(const project::Project& project, const cover::MakeCover& cover,
                      const AskedWith& asked) {
    if (project.file.empty() && units::number_style().yarn_in_grams) return {};
    if (project.file.empty())
        return "\nNext\n  --save FILE.toml keeps this as a project file, for joins, progress and a "
               "page to print\n";
    const std::string own = " " + shown_inert(project.file) + shown_inert(asked.same);
    const std::string kept = own + shown_inert(asked.margin);
    const std::string file = kept + shown_inert(asked.had);
    std::vector<std::vector<std::string>> when_wanting{
        {"skeinfall buy" + file, "what to buy for it"}};
    // A stated total does not say what a row takes.
    if (!project.sizes.empty() ||
        std::none_of(cover.roles.begin(), cover.roles.end(), [](const cover::RoleCover& role) {
            return role.need.source == need::Source::stated_total;
        }))
        when_wanting.push_back({"skeinfall largest" + file, "how large it may become with this"});
    if (std::any_of(project.pieces.begin(), project.pieces.end(), [](const project::Piece& piece) {
            const bool in_rows =
                piece.pattern.stated() && !piece.pattern.values.front().stripes.empty();
            return piece.stripes.size() > 1 && !in_rows;
        }))
        when_wanting.push_back(
            {"skeinfall stripes" + file, "stripe heights for which the yarn is enough"});
    std::vector<std::vector<std::string>> going_on{
        {"skeinfall joins" + own + shown_inert(asked.had), "where each skein ends"}};
    if (asked.had.empty())
        going_on.push_back({"skeinfall stash set-aside" + kept, "keeps the skeins for it"});
    return "\nNext\n" + (cover.verdict == cover::Verdict::covered
                             ? table(going_on, {false, false}, 2)
                             : table(when_wanting, {false, false}, 2));
}

/// "60 g taken": what happened to it since the count of it started.
std::string since_text(const stash::Skein& skein) {
    std::string out;
    if (!skein.since) return out;
    const auto say = [&out](const std::string& amount, bool taken) {
        out += (out.empty() ? "" : ", ") + amount + (taken ? " taken" : " added");
    };
    const units::Mass mass = skein.since->mass;
    const Length length = skein.since->length;
    if (mass.value() != 0.0)
        say(units::text(mass.value() < 0 ? -mass : mass, units::shown::grams, Step::tenth,
                        Rounding::nearest),
            mass.value() < 0);
    if (length.value() != 0.0)
        say(yards_and_metres(length.value() < 0 ? -length : length, Rounding::nearest),
            length.value() < 0);
    return out;
}

/// "95 g, then 60 g taken"
std::string weighed_text(const stash::Skein& skein) {
    if (!skein.weighing) return "-";
    const std::string since = since_text(skein);
    return skein.weighing->shown.text + (since.empty() ? "" : ", then " + since);
}

std::string stash_text(const std::vector<stash::Skein>& skeins) {
    if (skeins.empty()) return "The stash is empty.\n";
    std::vector<std::vector<std::string>> rows{
        {"id", "yarn", "colourway", "class", "lot", "state", "weighed", "length"}};
    const bool some_kept = std::any_of(skeins.begin(), skeins.end(),
                                       [](const auto& s) { return !s.set_aside.empty(); });
    if (some_kept) rows.front().emplace_back("set aside");
    std::vector<bool> right{false, false, false, true, false, false, true, true};
    if (some_kept) right.push_back(false);
    for (const stash::Skein& skein : skeins) {
        const auto supply = stash::supply_of(skein);
        rows.push_back({shown_inert(skein.id), shown_inert(skein.yarn.name),
                        shown_inert(skein.colourway),
                        skein.yarn.weight ? std::to_string(skein.yarn.weight->number) : "?",
                        skein.shade_group ? shown_inert("= " + *skein.shade_group)
                        : skein.dye_lot   ? shown_inert(*skein.dye_lot)
                                          : "?",
                        stash::is_part(skein) ? "part" : "whole", shown_inert(weighed_text(skein)),
                        supply ? yards_and_metres(supply->length, Rounding::down) : "?"});
        if (some_kept) rows.back().push_back(set_aside_text(skein));
    }
    return table(rows, right, 0) + "\n" +
           counted(static_cast<std::int64_t>(skeins.size()), "skein", "skeins") +
           "; \"=\" marks a shade group, \"?\" what is not recorded\n";
}

/// Fields that skein_text() says in words of their own.
constexpr auto said_together = std::to_array<std::string_view>(
    {"yarn", "colourway", "dye_lot", "shade_group", "class", "fibre", "label_length", "label_mass",
     "state", "knots", "note"});

std::string skein_text(const stash::Skein& skein) {
    std::vector<std::vector<std::string>> rows;
    const auto add = [&](const char* name, const std::string& value) {
        if (!value.empty()) rows.push_back({name, shown_inert(value)});
    };
    const yarn::Yarn& yarn = skein.yarn;
    add("id", skein.id);
    add("yarn", yarn.name);
    add("colourway", skein.colourway);
    add("lot", stash::lot_text(skein));
    if (skein.shade_group && skein.dye_lot) add("dye lot", *skein.dye_lot);
    add("class", yarn.weight ? text(*yarn.weight) : "unknown");
    add("fibre", text(yarn.fibre));
    add("label", (yarn.label.length ? yarn.label.length->text : "no length") + " / " +
                     (yarn.label.mass ? yarn.label.mass->text : "no weight"));
    if (const auto grist = yarn::label_grist(yarn.label))
        add("length per weight", units::text(grist->centre, units::shown::metres_per_100g,
                                             Step::tenth, Rounding::nearest) +
                                     ", " +
                                     units::text(grist->centre, units::shown::yards_per_ounce,
                                                 Step::tenth, Rounding::nearest));
    for (const stash::Field& field : stash::fields()) {
        if (std::find(said_together.begin(), said_together.end(), field.name) !=
            said_together.end())
            continue;
        std::string heading(field.name);
        std::replace(heading.begin(), heading.end(), '_', ' ');
        rows.push_back({heading, shown_inert(stash::written(field, skein))});
        if (rows.back().back().empty()) rows.pop_back();
    }
    add("state", stash::is_part(skein) ? "part" : "whole");
    if (skein.weighing)
        add("weighed",
            skein.weighing->shown.text + " on a scale of " + skein.weighing->scale.text +
                (skein.weighing->tare ? ", " + skein.weighing->tare->text + " of it cone or bag"
                                      : ""));
    add("since", since_text(skein));
    if (skein.knots > 0) add("knots", std::to_string(skein.knots));
    if (const auto supply = stash::supply_of(skein)) {
        const Length spread = measure::in_quadrature(supply->own, supply->shared);
        add("length",
            yards_and_metres(supply->length, Rounding::down) + " +- " +
                yards_and_metres(spread, Rounding::up) +
                (supply->basis == stash::SupplyBasis::label     ? ", by its label"
                 : supply->basis == stash::SupplyBasis::weighed ? ", by weight"
                                                                : ", by what was entered"));
    } else {
        add("length", "unknown; " + said(*stash::supply_gap(skein)));
    }
    add("set aside", set_aside_text(skein));
    add("note", skein.note);
    return table(rows, {false, false}, 0);
}

}  // namespace skeinfall::report
