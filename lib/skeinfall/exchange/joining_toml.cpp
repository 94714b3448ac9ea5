#include "skeinfall/exchange/joining_toml.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "skeinfall/base/name.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/units/format.hpp"

namespace skeinfall::exchange {
namespace {

bool is_shade(std::string_view text) {
    return text.size() == 7 && text[0] == '#' &&
           text.find_first_not_of("0123456789abcdefABCDEF", 1) == std::string_view::npos;
}

std::string read_shade(TomlTable& in) {
    std::string shade = in.text("shade").value_or(std::string());
    if (!shade.empty() && !is_shade(shade))
        in.fail("shade", in_quotes(shade) + " is not a shade",
                "six hexadecimal digits after \"#\", as in \"#2e8b57\"");
    return shade;
}

std::vector<project::RowZone> zones(TomlTable& in, std::string_view key) {
    std::vector<project::RowZone> out;
    for (const TomlValue* value : in.values(key, in.list_size(key)))
        if (const auto zone = in.parsed_of(key, *value, project::parse_row_zone))
            out.push_back(*zone);
    return out;
}

/// "seam_rows", "hem_rows" and "fold_rows".
void read_hidden(TomlTable& in, project::JoinPlaces& places) {
    using project::Hides;
    for (const Hides by : {Hides::seam, Hides::hem, Hides::fold}) {
        const std::string key = std::string(project::name_of(by)) + "_rows";
        for (const TomlValue* value : in.values(key, in.list_size(key))) {
            const auto text = in.text_of(key, *value);
            if (!text) continue;
            const auto rows = project::parse_hidden_rows(by, *text);
            if (rows)
                places.hidden.push_back(*rows);
            else
                in.fail_in_text(key, *value, rows.problem());
        }
    }
}

}  // namespace

void read_joining(TomlTable& in, const project::Project& before, project::Role& role) {
    if (const auto name = in.text("join_kind")) {
        role.join_kind = project::find_join_kind(*name);
        std::vector<std::string> names;
        for (const project::JoinKind& kind : project::join_kinds()) names.emplace_back(kind.name);
        if (role.join_kind == nullptr) {
            const auto near = base::nearest_name(*name, names);
            in.fail("join_kind", "there is no way to join called " + in_quotes(*name),
                    base::join(names, ", "), base::did_you_mean(near));
        } else if (const std::string why =
                       project::join_kind_objection(*role.join_kind, role.fibre);
                   !why.empty()) {
            in.fail("join_kind", why, "another way to join", "Write \"woven ends\".");
        }
    }
    role.held_with = in.text("held_with").value_or(std::string());
    if (in.has("held_with") &&
        (before.role(role.held_with) == nullptr || role.held_with == role.id))
        in.fail("held_with", "no earlier yarn is called " + in_quotes(role.held_with),
                "a yarn described above this one");
}

void read_colours(TomlTable& in, project::Role& role) {
    role.shade = read_shade(in);
    const auto repeat = in.parsed("colour_repeat", units::parse_length);
    double shares = 0.0;
    bool any_share = false;
    for (TomlTable& table : in.tables("colours")) {
        project::ColourRun run;
        run.colour = table.required_text("colour", "sea green");
        const auto length = table.parsed("length", units::parse_length);
        const auto share = table.parsed("share", units::parse_percent);
        if (table.has("length") == table.has("share"))
            table.fail(table.has("share") ? "share" : "", "a run of colour needs one length",
                       "\"length\" or \"share\"");
        if (share && share->value() <= 0.0)
            table.fail("share", "a run of nothing", "more than 0 %", "Leave the run out.");
        if (share && !in.has("colour_repeat"))
            table.fail("share", "a share of a repeat of unknown length",
                       "colour_repeat beside the colours",
                       "Add a line like colour_repeat = \"9 m\", or give lengths.");
        if (length) run.length = *length;
        if (share && repeat) run.length = *share * *repeat;
        if (share) {
            any_share = true;
            shares += share->value();
        }
        run.shade = read_shade(table);
        table.finish();
        role.colours.push_back(std::move(run));
    }
    constexpr double rounding = 0.005;
    if (any_share && std::abs(shares - 1.0) > rounding)
        in.fail("colours", "the shares do not add to 100 %", "shares that add to 100 %");
    constexpr double of_the_repeat = 0.02;
    const units::Length together = project::repeat_of(role.colours);
    if (repeat && !any_share && role.colours.size() > 1 && together > units::Length{} &&
        std::abs(together / *repeat - 1.0) > of_the_repeat)
        in.fail("colour_repeat",
                fmt::format("the colours add to {}", units::yarn_text(together, units::Step::tenth,
                                                                      units::Rounding::nearest)),
                "the length that the colours have together",
                "Correct it, or leave this line out: the lengths say it.");
    if (in.has("colours") && role.colours.size() < 2)
        in.fail("colours", "a yarn of one colour", "at least two runs of colour");
    role.pieces_begin_with = in.text("pieces_begin_with").value_or(std::string());
    role.first_wound_off = in.parsed("first_wound_off", units::parse_length);
    if (role.first_wound_off && role.pieces_begin_with.empty())
        in.fail("first_wound_off", "nothing says up to which colour it is wound off",
                "\"pieces_begin_with\" as well");
    std::vector<std::string> names;
    for (const project::ColourRun& run : role.colours) names.push_back(run.colour);
    if (in.has("pieces_begin_with") &&
        std::none_of(names.begin(), names.end(), [&](const std::string& name) {
            return base::same_name(name, role.pieces_begin_with);
        }))
        in.fail("pieces_begin_with", in_quotes(role.pieces_begin_with) + " is none of its colours",
                names.empty() ? "\"colours\" as well" : base::join(names, ", "));
    if (in.has("colour_repeat") && !in.has("colours"))
        in.fail("colour_repeat", "there are no colours that repeat", "\"colours\" as well",
                "Write them like colours = [{ colour = \"sand\", share = \"50 %\" }, ...].");
}

void read_join_places(TomlTable& in, project::Piece& piece) {
    using project::JoinAt;
    project::JoinPlaces& places = piece.joins;
    places.at = in.choice<JoinAt>("join",
                                  {{"either edge", JoinAt::edges},
                                   {"round start", JoinAt::edges},
                                   {"left edge", JoinAt::left_edge},
                                   {"right edge", JoinAt::right_edge},
                                   {"seamed side", JoinAt::seamed_side},
                                   {"anywhere", JoinAt::anywhere},
                                   {"spread", JoinAt::spread}},
                                  JoinAt::edges);
    const bool round = piece.worked == project::Worked::round;
    if (round && (places.at == JoinAt::left_edge || places.at == JoinAt::right_edge ||
                  places.at == JoinAt::seamed_side))
        in.fail("join", "a piece worked in the round has no edge",
                "\"round start\", \"spread\" or \"anywhere\"");
    if (!round && places.at == JoinAt::spread)
        in.fail("join", "joins are spread around a piece worked in the round only",
                "\"either edge\", \"left edge\", \"right edge\", \"seamed side\" or "
                "\"anywhere\"");
    if (places.at == JoinAt::seamed_side && piece.edge == project::Edge::visible)
        in.fail("join", "no edge of this piece is seamed", "edge = \"seamed\" as well",
                "Add edge = \"seamed\", \"left seamed\" or \"right seamed\".");
    for (const TomlValue* value : in.values("join_stitches", in.list_size("join_stitches")))
        if (const auto number = in.whole_of("join_stitches", *value, 0, largest_count))
            places.stitches.push_back(*number);
    if (in.has("join_stitches")) {
        if (in.has("join"))
            in.fail("join_stitches", "both \"join\" and \"join_stitches\"", "one of them");
        places.at = JoinAt::stitches;
        std::sort(places.stitches.begin(), places.stitches.end());
    }
    places.keep_free = zones(in, "join_free");
    places.prefer = zones(in, "join_prefer");
    read_hidden(in, places);
    for (const project::RowZone& good : places.prefer)
        for (const project::RowZone& bad : places.keep_free)
            if ((bad.last == 0 || good.first <= bad.last) &&
                (good.last == 0 || bad.first <= good.last))
                return in.fail("join_prefer", "its rows are to be kept free of joins as well",
                               "rows that are in one of \"join_free\" and \"join_prefer\"");
}

}  // namespace skeinfall::exchange
