#include <algorithm>
#include <cmath>
#include <cstdint>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/detail/json_words.hpp"
#include "skeinfall/report/fit.hpp"
#include "skeinfall/report/planning.hpp"
#include "skeinfall/report/text.hpp"
#include "skeinfall/report/words.hpp"

namespace skeinfall::report {
namespace {

using base::shown_inert;
using units::Length;
using units::Rounding;

std::string side(Length length) {
    return units::inches_and_centimetres(length);
}

std::string_view name_of(fit::MultipleFrom from) {
    switch (from) {
        case fit::MultipleFrom::stated:
            return "stated";
        case fit::MultipleFrom::written_rows:
            return "written rows";
        case fit::MultipleFrom::stripes:
            return "stripes";
        case fit::MultipleFrom::piece_before:
            return "piece before";
        case fit::MultipleFrom::nobody:
            break;
    }
    return "none";
}

const project::Piece& piece_of(const fit::Fitted& fitted) {
    return fitted.project.pieces[fitted.piece];
}

bool centred(const fit::Fitted& fitted) {
    return project::lies_flat(fitted.project, piece_of(fitted), fitted.size);
}

bool in_wings(const fit::Fitted& fitted) {
    const project::Piece& piece = piece_of(fitted);
    return piece.shape != nullptr && piece.shape->wings;
}

bool in_blocks(const fit::Fitted& fitted) {
    const project::Piece& piece = piece_of(fitted);
    return piece.shape != nullptr && piece.shape->law == project::RowLaw::diagonal;
}

project::Blocks blocks(const fit::Fitted& fitted) {
    const project::Piece& piece = piece_of(fitted);
    return project::blocks_of(piece, project::counts(fitted.project, piece, fitted.size),
                              fitted.size);
}

std::string row_count(const fit::Fitted& fitted, std::int64_t count) {
    const std::string row(project::row_word(piece_of(fitted).worked));
    return counted(count, row, row + "s");
}

std::string measures(const fit::Fitted& fitted, const project::FinishedSize& size) {
    if (centred(fitted)) return side(size.width) + " across";
    return side(size.width) +
           (piece_of(fitted).worked == project::Worked::round ? " around, " : " wide, ") +
           side(size.length) + " long";
}

const need::RoleNeed* role_in(const need::MakeNeed& make, const std::string& role) {
    for (const need::RoleNeed& one : make.roles)
        if (one.role == role) return &one;
    return nullptr;
}

/// "MC 110 yd (100 m), CC1 ..."
std::string yarn_of(const need::MakeNeed& make) {
    std::vector<std::string> parts;
    for (const need::RoleNeed& one : make.roles)
        parts.push_back(shown_inert(one.role) + " " +
                        yards_and_metres(one.length.centre, Rounding::up));
    return base::join(parts, ", ");
}

/// Why this many stitches or rows.
std::string reason(const fit::Fitted& fitted, const fit::Along& along, bool across) {
    const bool any = along.multiple.repeat == 1 && along.multiple.plus == 0;
    std::string out;
    if (any && along.from == fit::MultipleFrom::nobody && piece_of(fitted).pattern.stated()) {
        out = "as written; its rows have no repeat to work more often";
    } else if (any) {
        out = along.from == fit::MultipleFrom::nobody ? "any number (the project names no repeat)"
                                                      : "any number works";
    } else {
        out =
            across ? multiple_text(along.multiple)
            : along.from == fit::MultipleFrom::stripes
                ? fmt::format("stripes of {} repeated{}", row_count(fitted, along.multiple.repeat),
                              along.multiple.plus > 0
                                  ? fmt::format(", ending after {} as before",
                                                row_count(fitted, along.multiple.plus))
                                  : "")
                : fmt::format("{} repeated{}", row_count(fitted, along.multiple.repeat),
                              along.multiple.plus > 0
                                  ? fmt::format(", and {} outside the repeat", along.multiple.plus)
                                  : "");
        out += fmt::format(": {}", counted(along.repeats(), "repeat", "repeats"));
        if (along.asked && *along.asked != along.taken)
            out += fmt::format("; {} does not fit that", *along.asked);
        if (along.from == fit::MultipleFrom::written_rows) out += " (found from the written rows)";
        if (along.from == fit::MultipleFrom::piece_before)
            out += fmt::format(" (what {} can end with)",
                               shown_inert(fitted.project.pieces[fitted.piece - 1].name));
    }
    return out;
}

/// Stripes that end in another row than before, with the rows that would end them alike.
std::string stripes_text(const fit::Fitted& fitted) {
    const fit::Along& rows = fitted.rows;
    const project::Piece& piece = piece_of(fitted);
    if (rows.taken == rows.now || piece.stripes.empty() || piece.pattern.stated()) return {};
    if (rows.striped == 0)
        return fmt::format("  Its stripes do not repeat: {}. Plan them again for it.\n",
                           rows.taken > rows.now ? "the extra rows start them again"
                                                 : "the last of them are left out");
    if (!rows.stripes_end_anew()) return {};
    const std::int64_t over = rows.taken % rows.striped;
    const std::int64_t as_before = rows.now % rows.striped;
    const std::int64_t less = rows.taken - over + as_before - (as_before > over ? rows.striped : 0);
    const std::string more = row_count(fitted, less + rows.striped);
    return fmt::format("  Its stripes end {}, not as before; {} would end them as before.\n",
                       over == 0 ? "with a whole repeat"
                                 : fmt::format("{} into their repeat of {}",
                                               row_count(fitted, over), rows.striped),
                       less > 0 ? fmt::format("{} or {}", less, more) : more);
}

Json along_json(const fit::Along& along) {
    Json out;
    out["wished"] = along.wished;
    out["multiple"] = multiple_text(along.multiple);
    out["repeat"] = along.multiple.repeat;
    out["plus"] = along.multiple.plus;
    out["foundation"] = along.multiple.foundation ? Json(*along.multiple.foundation) : Json();
    out["from"] = name_of(along.from);
    out["now"] = along.now;
    out["below"] = along.below ? Json(*along.below) : Json();
    out["above"] = along.above;
    out["taken"] = along.taken;
    out["repeats"] = along.repeats();
    return out;
}

Json yarn_json(const need::MakeNeed& make, const need::MakeNeed* was) {
    Json out = Json::array();
    for (const need::RoleNeed& one : make.roles) {
        Json line{{"role", one.role},
                  {"need_m", m(one.length.centre)},
                  {"spread_m", m(one.length.spread)}};
        if (was != nullptr) {
            const need::RoleNeed* before = role_in(*was, one.role);
            line["was_m"] = before == nullptr ? Json() : Json(m(before->length.centre));
        }
        out.push_back(std::move(line));
    }
    return out;
}

}  // namespace

std::string multiple_text(const project::Multiple& multiple) {
    std::string out = multiple.repeat == 1 && multiple.plus == 0
                          ? "any number"
                          : fmt::format("multiple of {}", multiple.repeat);
    if (multiple.plus > 0) out += fmt::format(" + {}", multiple.plus);
    if (multiple.foundation && *multiple.foundation > 0)
        out += fmt::format(", add {} for the foundation", *multiple.foundation);
    return out;
}

namespace {

/// Of motifs that are laid together, what all of them measure.
std::string motifs_text(const fit::Fitted& fitted, const fit::Motifs& motifs) {
    const auto laid = [](std::int64_t count, std::int64_t columns,
                         const project::FinishedSize& size) {
        return fmt::format("{}, {} rows of {}, {} wide, {} long", count,
                           (count + columns - 1) / columns, columns, side(size.width),
                           side(size.length));
    };
    std::string all = fmt::format("{}: {} in all\n", shown_inert(piece_of(fitted).name),
                                  laid(motifs.count, motifs.columns, motifs.measures));
    const std::string each = fmt::format("{}, {}", row_count(fitted, fitted.rows.taken),
                                         measures(fitted, fitted.measures));
    if (fitted.same())
        all += "  That is its present size.\n  Each: " + each + "\n";
    else
        all +=
            fmt::format("  It was {}.\n", laid(motifs.count_was, motifs.columns_was, motifs.was)) +
            (fitted.rows.taken == fitted.rows.now
                 ? "  Each stays as it is: " + each + "\n"
                 : "  Each: " + each + "; it was " + measures(fitted, fitted.was) + ".\n");
    if (fitted.with_borders)
        all += fmt::format("  With its border: {} wide, {} long.\n",
                           side(fitted.with_borders->width), side(fitted.with_borders->length));
    return all;
}

/// What becomes of the pieces beside it.
std::string others_follow_text(const fit::Fitted& fitted) {
    std::string out;
    for (const fit::Followed& one : fitted.followed) {
        const project::Piece& piece = fitted.project.pieces[one.piece];
        const std::string row(project::row_word(piece.worked));
        out += fmt::format(
            "  {} follows, so that they meet: {} by {}, {} in the last; {} by {} before.\n",
            shown_inert(piece.name), counted(one.now.stitches, "stitch", "stitches"),
            counted(one.now.rows, row, row + "s"), counted(one.ends_with, "stitch", "stitches"),
            one.was.stitches, counted(one.was.rows, row, row + "s"));
    }
    for (const std::string& name : fitted.on_live_stitches)
        out += fmt::format(
            "  {} begins on stitches that another piece leaves. Check that they are there.\n",
            shown_inert(name));
    if (fitted.same() || fitted.project.pieces.size() < 2 + fitted.followed.size()) return out;
    return out + "  The other pieces keep their size, and their yarn is in the amounts below.\n";
}

/// Increases that were so many a row, and are spread over the rows now.
std::string shaping_text(const fit::Fitted& fitted) {
    if (!fitted.shaped_anew || fitted.same()) return {};
    const std::vector<std::int64_t> widths =
        project::row_widths(fitted.project, piece_of(fitted), fitted.size);
    if (widths.empty()) return {};
    return fmt::format(
        "  Its increases are spread anew over the rows: {} in the first, {} in the widest.\n",
        counted(widths.front(), "stitch", "stitches"),
        *std::max_element(widths.begin(), widths.end()));
}

/// What it measures, and what it was.
std::string size_text(const fit::Fitted& fitted) {
    if (fitted.motifs) return motifs_text(fitted, *fitted.motifs);
    const std::string name = shown_inert(piece_of(fitted).name);
    const bool same = fitted.same();
    const std::string counts =
        centred(fitted) || in_wings(fitted) ? row_count(fitted, fitted.rows.taken)
        : in_blocks(fitted)
            ? fmt::format("{} by {} blocks in {}", blocks(fitted).wide, blocks(fitted).high,
                          row_count(fitted, fitted.rows.taken))
            : fmt::format("{} by {}", counted(fitted.stitches.taken, "stitch", "stitches"),
                          row_count(fitted, fitted.rows.taken));
    std::string out = fmt::format("{}: {}, {}\n", name, counts, measures(fitted, fitted.measures));
    out +=
        same ? "  That is its present size.\n" : "  It was " + measures(fitted, fitted.was) + ".\n";
    if (fitted.with_borders)
        out += "  With its border: " + measures(fitted, *fitted.with_borders) + ".\n";
    if (fitted.unwashed)
        out += "  On the hook or needles, before washing: " + measures(fitted, *fitted.unwashed) +
               ".\n";
    return out + shaping_text(fitted) + others_follow_text(fitted);
}

/// What to begin with, and why this many stitches and rows.
std::string counts_text(const fit::Fitted& fitted) {
    std::vector<std::vector<std::string>> lines;
    if (fitted.chains) {
        const bool knit = fitted.project.craft == project::Craft::knit;
        std::string why;
        if (in_blocks(fitted))
            why = " (the first block)";
        else if (!knit && *fitted.chains < fitted.stitches.taken)
            why = ", to a ring";
        else if (!knit && *fitted.chains != fitted.stitches.taken)
            why = fmt::format(" ({} and {} more{})",
                              counted(fitted.stitches.taken, "stitch", "stitches"),
                              *fitted.chains - fitted.stitches.taken,
                              fitted.chains_stated ? "" : ", the usual turning chain");
        lines.push_back(
            {"begin with", (knit ? "cast on " : "ch ") + std::to_string(*fitted.chains) + why});
    }
    const bool by_stitches = !centred(fitted) && !in_wings(fitted) && !in_blocks(fitted);
    if (by_stitches) lines.push_back({"stitches", reason(fitted, fitted.stitches, true)});
    if (!in_blocks(fitted))
        lines.push_back({std::string(project::row_word(piece_of(fitted).worked)) + "s",
                         reason(fitted, fitted.rows, false)});
    return table(lines, {false, false}, 2) + stripes_text(fitted);
}

std::string others_text(const FitAnswer& answer) {
    const fit::Fitted& fitted = answer.fitted;
    std::string out;
    for (const OtherFit& other : answer.others) {
        const bool more = other.across ? other.fitted.stitches.taken > fitted.stitches.taken
                                       : other.fitted.rows.taken > fitted.rows.taken;
        out += fmt::format(
            "  or {}: {}, {}; {}\n",
            other.across ? (more ? "wider" : "narrower") : (more ? "longer" : "shorter"),
            other.across ? counted(other.fitted.stitches.taken, "stitch", "stitches")
                         : row_count(other.fitted, other.fitted.rows.taken),
            side(other.across || centred(fitted) ? other.fitted.measures.width
                                                 : other.fitted.measures.length),
            yarn_of(other.need));
    }
    return out;
}

std::string yarn_text(const FitAnswer& answer) {
    const fit::Fitted& fitted = answer.fitted;
    std::vector<std::vector<std::string>> lines;
    for (const need::RoleNeed& role : answer.need.roles) {
        const need::RoleNeed* was = role_in(answer.was, role.role);
        lines.push_back({shown_inert(role.role), yards_and_metres(role.length.centre, Rounding::up),
                         "give or take " + yards_and_metres(role.length.spread, Rounding::up),
                         was == nullptr
                             ? ""
                             : "before: " + yards_and_metres(was->length.centre, Rounding::up)});
    }
    std::string out = "\nYarn\n" + table(lines, {false, true, false, false}, 2);
    if (!fitted.totals.empty())
        out += "  The stated total was changed in proportion to the stitches.\n";
    for (const fit::ChangedEdging& edging : fitted.edgings)
        out += fmt::format("  {} follows the way round: {} in its first round, {} before.\n",
                           shown_inert(fitted.project.finish[edging.part].name),
                           counted(edging.now, "stitch", "stitches"), edging.was);
    for (const fit::ChangedFringe& fringe : fitted.fringes)
        out += fmt::format(
            "  {} follows the width: {}.\n", shown_inert(fitted.project.finish[fringe.part].name),
            fringe.strands_were
                ? fmt::format("{}, {} before", counted(fringe.strands, "strand", "strands"),
                              *fringe.strands_were)
                : units::percent_text(fringe.by, Step::one, Rounding::nearest) + " of what it was");
    if (!fitted.unchanged.empty())
        out += "  Given as a fixed amount, and not changed: " +
               shown_inert(base::join(fitted.unchanged, ", ")) + ".\n";
    return out;
}

bool margin_met(const FitAnswer& answer) {
    return !answer.cover ||
           std::none_of(answer.cover->roles.begin(), answer.cover->roles.end(),
                        [](const cover::RoleCover& role) { return role.margin_short > Length{}; });
}

std::string stash_text(const FitAnswer& answer) {
    const fit::Fitted& fitted = answer.fitted;
    std::string out;
    if (answer.cover) {
        const bool in_work = !answer.rules.done.empty();
        out += fmt::format("\nFrom your stash{}: {}{} ({})\n", in_work ? ", for the rest" : "",
                           cover::name_of(answer.cover->verdict),
                           answer.cover->verdict == cover::Verdict::covered && !margin_met(answer)
                               ? ", but not with your margin"
                               : "",
                           chance_text(answer.cover->chance));
        for (const cover::RoleCover& role : answer.cover->roles) {
            std::vector<std::string> ids;
            for (const stash::Skein& skein : role.chosen) ids.push_back(shown_inert(skein.id));
            out += fmt::format(
                "  {} {}: {}\n", shown_inert(role.role.id), cover::name_of(role.verdict),
                ids.empty() ? std::string("no suitable skein") : base::join(ids, ", "));
            for (const std::string& line :
                 {worked_words(fitted.project, answer.rules, role.role.id),
                  margin_line(role, answer.rules.margin)})
                if (!line.empty()) out += "  " + line;
        }
    }
    if (answer.joins)
        for (const joins::RoleJoins& role : answer.joins->roles)
            for (std::size_t at = 1; at < role.plan.stretches.size(); ++at)
                out += fmt::format(
                    "  {} join {}: {}\n", shown_inert(role.plan.role),
                    shown_inert(role.plan.stretches[at].ball.id),
                    place_text(fitted.project, role.plan, role.plan.stretches[at].from));
    return out;
}

std::string each_more_text(const FitAnswer& answer) {
    const fit::Fitted& fitted = answer.fitted;
    const bool units = answer.each && answer.each->of != fit::EachMore::Of::stitches;
    if (!answer.each || (centred(fitted) && !units)) return {};
    const auto share = [&](Length fit::EachMore::OfRole::*yarn) {
        std::vector<std::string> parts;
        for (const fit::EachMore::OfRole& role : answer.each->roles) {
            if (role.*yarn <= Length{}) continue;
            parts.push_back((answer.each->roles.size() > 1 ? shown_inert(role.role) + " " : "") +
                            yards_and_metres(role.*yarn, Rounding::up));
        }
        return base::join(parts, ", ");
    };
    const std::string stitches = counted(answer.each->stitches, "stitch", "stitches");
    std::string out;
    if (units) {
        const bool motifs = answer.each->of == fit::EachMore::Of::motifs;
        return fmt::format("\n{} wider, {}, takes {}\n",
                           motifs ? fmt::format("Each column of {} more", answer.each->stitches)
                                  : "Each block",
                           side(answer.each->wider), share(&fit::EachMore::OfRole::for_width)) +
               fmt::format(
                   "{} longer, {}, takes {}\n",
                   motifs ? fmt::format("Each row of {} more", answer.each->rows) : "Each block",
                   side(answer.each->longer), share(&fit::EachMore::OfRole::for_length));
    }
    if (answer.each->repeat_known)
        out += fmt::format("\nEach repeat wider, {}: {} more and {}\n", side(answer.each->wider),
                           stitches, share(&fit::EachMore::OfRole::for_width));
    else
        out += fmt::format("\nEach {} wider, {}, takes {}\n", stitches, side(answer.each->wider),
                           share(&fit::EachMore::OfRole::for_width));
    return out + fmt::format("Each {} longer, {}, takes {}\n", row_count(fitted, answer.each->rows),
                             side(answer.each->longer), share(&fit::EachMore::OfRole::for_length));
}

}  // namespace

std::string fit_text(const FitAnswer& answer) {
    std::string out = title_text(answer.fitted.project, answer.fitted.size) + "\n\n";
    if (answer.meant_for) out += *answer.meant_for + "\n";
    out += size_text(answer.fitted) + counts_text(answer.fitted) + others_text(answer);
    return out + yarn_text(answer) + stash_text(answer) + each_more_text(answer);
}

std::string fit_json(const FitAnswer& answer) {
    const fit::Fitted& fitted = answer.fitted;
    const project::Project& project = fitted.project;
    Json out;
    out["title"] = project.title;
    out["size"] = project.sizes.empty() ? Json() : Json(project.sizes[fitted.size]);
    out["piece"] = piece_of(fitted).name;
    out["for"] = answer.meant_for ? Json(*answer.meant_for) : Json();
    out["stitches"] = along_json(fitted.stitches);
    out["rows"] = along_json(fitted.rows);
    out["foundation"] = fitted.chains ? Json(*fitted.chains) : Json();
    out["width_m"] = m(fitted.measures.width);
    out["length_m"] = m(fitted.measures.length);
    out["was_width_m"] = m(fitted.was.width);
    out["was_length_m"] = m(fitted.was.length);
    out["unwashed_width_m"] = fitted.unwashed ? Json(m(fitted.unwashed->width)) : Json();
    out["unwashed_length_m"] = fitted.unwashed ? Json(m(fitted.unwashed->length)) : Json();
    out["motifs"] = Json();
    if (fitted.motifs)
        out["motifs"] = {{"count", fitted.motifs->count},
                         {"columns", fitted.motifs->columns},
                         {"was_count", fitted.motifs->count_was},
                         {"was_columns", fitted.motifs->columns_was},
                         {"width_m", m(fitted.motifs->measures.width)},
                         {"length_m", m(fitted.motifs->measures.length)}};
    out["follows"] = Json::array();
    for (const fit::Followed& one : fitted.followed)
        out["follows"].push_back({{"piece", project.pieces[one.piece].name},
                                  {"stitches", one.now.stitches},
                                  {"rows", one.now.rows},
                                  {"ends_with", one.ends_with},
                                  {"was_stitches", one.was.stitches},
                                  {"was_rows", one.was.rows}});
    out["on_live_stitches"] = fitted.on_live_stitches;
    out["shaped_anew"] = fitted.shaped_anew;
    out["blocks_wide"] = in_blocks(fitted) ? Json(blocks(fitted).wide) : Json();
    out["blocks_high"] = in_blocks(fitted) ? Json(blocks(fitted).high) : Json();
    out["yarn"] = yarn_json(answer.need, &answer.was);
    out["others"] = Json::array();
    for (const OtherFit& other : answer.others)
        out["others"].push_back({{"stitches", other.fitted.stitches.taken},
                                 {"rows", other.fitted.rows.taken},
                                 {"width_m", m(other.fitted.measures.width)},
                                 {"length_m", m(other.fitted.measures.length)},
                                 {"yarn", yarn_json(other.need, nullptr)}});
    out["each_more"] = Json();
    if (answer.each) {
        using Of = fit::EachMore::Of;
        Json each{{"of", answer.each->of == Of::motifs   ? "motifs"
                         : answer.each->of == Of::blocks ? "blocks"
                                                         : "stitches"},
                  {"stitches", answer.each->stitches},
                  {"wider_m", m(answer.each->wider)},
                  {"rows", answer.each->rows},
                  {"longer_m", m(answer.each->longer)},
                  {"yarn", Json::array()}};
        for (const fit::EachMore::OfRole& role : answer.each->roles)
            each["yarn"].push_back({{"role", role.role},
                                    {"for_width_m", m(role.for_width)},
                                    {"for_length_m", m(role.for_length)}});
        out["each_more"] = std::move(each);
    }
    out["verdict"] = Json();
    out["skeins"] = Json::array();
    if (answer.cover) {
        out["verdict"] = cover::name_of(answer.cover->verdict);
        out["margin_met"] = margin_met(answer);
        for (const cover::RoleCover& role : answer.cover->roles) {
            Json ids = Json::array();
            for (const stash::Skein& skein : role.chosen) ids.push_back(skein.id);
            out["skeins"].push_back(
                {{"role", role.role.id},
                 {"verdict", cover::name_of(role.verdict)},
                 {"chance", chance_figure(role.chance).value()},
                 {"chance_with_margin", chance_figure(role.with_margin).value()},
                 {"skeins", std::move(ids)}});
        }
    }
    out["stripe_repeat_rows"] = fitted.rows.striped > 0 ? Json(fitted.rows.striped) : Json();
    out["stripes_end_as_before"] = !fitted.rows.stripes_end_anew();
    out["joins"] = Json::array();
    if (answer.joins)
        for (const joins::RoleJoins& role : answer.joins->roles)
            for (std::size_t at = 1; at < role.plan.stretches.size(); ++at)
                out["joins"].push_back(
                    {{"role", role.plan.role},
                     {"skein", role.plan.stretches[at].ball.id},
                     {"place", place_text(project, role.plan, role.plan.stretches[at].from)}});
    out["unchanged"] = fitted.unchanged;
    out["borders"] = Json::array();
    for (const fit::ChangedEdging& edging : fitted.edgings)
        out["borders"].push_back({{"name", fitted.project.finish[edging.part].name},
                                  {"first_round", edging.now},
                                  {"was", edging.was}});
    out["fringes"] = Json::array();
    for (const fit::ChangedFringe& fringe : fitted.fringes)
        out["fringes"].push_back(
            {{"name", fitted.project.finish[fringe.part].name},
             {"strands", fringe.strands_were ? Json(fringe.strands) : Json()},
             {"was", fringe.strands_were ? Json(*fringe.strands_were) : Json()},
             {"times", fringe.by.value()}});
    out["with_border_width_m"] = fitted.with_borders ? Json(m(fitted.with_borders->width)) : Json();
    out["with_border_length_m"] =
        fitted.with_borders ? Json(m(fitted.with_borders->length)) : Json();
    return finished(out);
}

}  // namespace skeinfall::report
