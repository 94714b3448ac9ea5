#include "skeinfall/need/check.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/need/detail/denied_sizes.hpp"
#include "skeinfall/need/detail/evidence.hpp"
#include "skeinfall/need/detail/finish_check.hpp"
#include "skeinfall/need/detail/gauge_check.hpp"
#include "skeinfall/need/detail/kind_weights.hpp"
#include "skeinfall/need/detail/stitch_words.hpp"
#include "skeinfall/need/detail/told_apart.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/need/unknown_stitches.hpp"
#include "skeinfall/need/worst.hpp"
#include "skeinfall/project/stitches.hpp"
#include "skeinfall/project/thing_words.hpp"
#include "skeinfall/units/format.hpp"
#include "skeinfall/yarn/avoid.hpp"
#include "skeinfall/yarn/fibre_facts.hpp"
#include "skeinfall/yarn/label_check.hpp"

namespace skeinfall::need {
namespace {

using project::Severity;

std::string as_phrase(std::string sentences) {
    if (sentences.ends_with('.')) sentences.pop_back();
    return sentences;
}

/// Lengths that are printed in two units.
project::Findings lengths_in_two_units(const project::Project& project) {
    project::Findings out;
    for (const project::Role& role : project.roles)
        for (const project::PrintedTwice& pair : role.printed_twice) {
            yarn::LabelFigures label;
            label.length = pair.one;
            label.other_length = pair.other;
            for (const yarn::Finding& finding : yarn::check_label(label))
                out.push_back({Severity::caution, project.place("yarn." + role.id, pair.key),
                               "yarn " + role.id + ": " + as_phrase(finding.says),
                               "Correct one of the two lengths."});
        }
    return out;
}

project::Findings unknown_fibres(const project::Project& project) {
    project::Findings out;
    for (const project::Role& role : project.roles)
        if (const auto finding = yarn::check_fibres(role.fibre))
            out.push_back({Severity::caution, project.place("yarn." + role.id, "fibre"),
                           "yarn " + role.id + ": " + as_phrase(finding->says),
                           "Check the name on the label."});
    return out;
}

/// What the one it is made for must not have.
project::Findings not_for_its_use(const project::Project& project) {
    using project::PartKind;
    using project::Recipient;
    project::Findings out;
    for (const project::Role& role : project.roles) {
        if (project.made_for != Recipient::kitchen_heat) break;
        const base::Place place = project.place("yarn." + role.id, "fibre");
        if (const auto melting = yarn::melting_fibres(role.fibre); !melting.empty())
            out.push_back({Severity::stop, place,
                           "yarn " + role.id + ": made for kitchen heat, and " +
                               base::join(melting, ", ") + " softens or melts in it",
                           "Choose cotton, linen or wool."});
        else if (const auto unproven = yarn::unproven_in_heat(role.fibre); !unproven.empty())
            out.push_back({Severity::stop, place,
                           "yarn " + role.id + ": made for kitchen heat, and " +
                               base::join(unproven, ", ") + " is not known to stand it",
                           "Choose cotton, linen or wool."});
        else if (!role.fibre.known())
            out.push_back(
                {Severity::caution, place,
                 "yarn " + role.id + ": made for kitchen heat, and its fibres are not given",
                 "Add it, like fibre = \"100% cotton\"."});
    }
    return out;
}

/// A name that speaks of kitchen heat, of a make that is not said to be for it.
project::Findings heat_by_name(const project::Project& project) {
    using project::Thing;
    project::Findings out;
    const bool named =
        project::speaks_of(project.title, Thing::heat) ||
        std::any_of(project.pieces.begin(), project.pieces.end(), [](const project::Piece& piece) {
            return project::speaks_of(piece.name, Thing::heat);
        });
    if (!named || project.made_for == project::Recipient::kitchen_heat) return out;
    for (const project::Role& role : project.roles) {
        const auto melting = yarn::melting_fibres(role.fibre);
        if (melting.empty() && role.fibre.known()) continue;
        out.push_back(
            {Severity::caution, project.place("yarn." + role.id, "fibre"),
             "yarn " + role.id + ": its name speaks of kitchen heat, and " +
                 (melting.empty() ? "its fibres are not given"
                                  : base::join(melting, ", ") + " softens or melts in it"),
             "Choose cotton, linen or wool; made_for is \"kitchen heat\" then."});
    }
    return out;
}

/// What can tighten round the neck of a young wearer, come off or be breathed in.
project::Findings not_for_the_young(const project::Project& project) {
    using project::PartKind;
    using project::Recipient;
    using project::Thing;
    project::Findings out;
    const bool infant = project.made_for == Recipient::infant;
    if (!infant && project.made_for != Recipient::child) return out;
    const auto add = [&](const base::Place& place, const std::string& what) {
        out.push_back(
            {Severity::caution, place,
             what + (infant ? ": on a make for an infant it can tighten round a neck or a "
                              "finger, or come off and be swallowed"
                            : ": on a make for a child it can catch, or come off and be "
                              "swallowed"),
             "Leave it out, or follow the local rules on such goods."});
    };
    for (std::size_t at = 0; at < project.finish.size(); ++at) {
        const project::FinishPart& part = project.finish[at];
        if (part.kind == PartKind::fringe || part.kind == PartKind::tassel ||
            part.kind == PartKind::pompom || project::speaks_of(part.name, Thing::cord))
            add(project.place(fmt::format("finish.{}", at), "kind"), part.name);
    }
    for (std::size_t at = 0; at < project.pieces.size(); ++at)
        if (project::speaks_of(project.pieces[at].name, Thing::cord))
            add(project.place(fmt::format("piece.{}", at), "name"), project.pieces[at].name);
    for (const project::Role& role : project.roles)
        for (const yarn::FibreShare& share : role.fibre.shares)
            if (infant && project::speaks_of(share.fibre, Thing::shedding))
                out.push_back({Severity::caution, project.place("yarn." + role.id, "fibre"),
                               "yarn " + role.id + ": " + share.fibre +
                                   " sheds hair that an infant may swallow or breathe in",
                               "Choose a smooth yarn."});
    return out;
}

/// What must be kept out, and is asked for all the same.
project::Findings fibres_kept_out(const project::Project& project) {
    using yarn::Presence;
    project::Findings out;
    for (const project::Role& role : project.roles) {
        const auto objection = yarn::objection_to(role.fibre, role.avoid);
        if (!objection) continue;
        const std::string of = "yarn " + role.id + ": ";
        switch (objection->presence) {
            case Presence::content_unknown:
                // Nothing is asked for: the candidates are held against the wish one by one.
                if (!role.name.empty())
                    out.push_back({Severity::caution, project.place("yarn." + role.id, "avoid"),
                                   of + "the fibres of " + role.name + " are not given, and " +
                                       objection->avoided + " must be kept out",
                                   "Read its label, and add all its fibres."});
                break;
            case Presence::word_unknown:
                out.push_back({Severity::stop, project.place("yarn." + role.id, "avoid"),
                               of + text(*objection), "Name a fibre, or a family of fibres."});
                break;
            default:
                out.push_back({Severity::stop, project.place("yarn." + role.id, "fibre"),
                               of + text(*objection),
                               "Choose another yarn, or correct the fibres."});
        }
    }
    return out;
}

/// Rows to be kept free of joins, or to have them, that no size has.
project::Findings zones_beyond_a_piece(const project::Project& project) {
    project::Findings out;
    for (std::size_t at = 0; at < project.pieces.size(); ++at) {
        const project::Piece& piece = project.pieces[at];
        std::int64_t rows = 0;
        for (std::size_t size = 0; size < project.size_count(); ++size)
            rows = std::max(rows, project::counts(project, piece, size).rows);
        const auto look = [&](const std::vector<project::RowZone>& zones, const char* key) {
            for (const project::RowZone& zone : zones)
                if (std::max(zone.first, zone.last) > rows)
                    out.push_back({Severity::caution,
                                   project.place(fmt::format("piece.{}", at), key),
                                   fmt::format("{}: \"{}\" names {} {}, and the piece has {}",
                                               piece.name, key, project::row_word(piece.worked),
                                               std::max(zone.first, zone.last), rows),
                                   "Correct the rows."});
        };
        look(piece.joins.keep_free, "join_free");
        look(piece.joins.prefer, "join_prefer");
    }
    return out;
}

/// Stripes behind the last row of their piece in every size.
project::Findings stripes_beyond_a_piece(const project::Project& project) {
    project::Findings out;
    for (std::size_t at = 0; at < project.pieces.size(); ++at) {
        const project::Piece& piece = project.pieces[at];
        if (piece.pattern.stated()) continue;
        std::int64_t rows = 0;
        for (std::size_t size = 0; size < project.size_count(); ++size)
            rows = std::max(rows, project::counts(project, piece, size).rows);
        std::int64_t before = 0;
        for (const project::Stripe& stripe : piece.stripes) {
            if (before >= rows) {
                const std::string row(project::row_word(piece.worked));
                out.push_back(
                    {Severity::caution, project.place(fmt::format("piece.{}", at), "stripes"),
                     fmt::format("{}: its stripe of {} would begin after {} {}, and the "
                                 "piece has {}: it never comes",
                                 piece.name, stripe.role, row, before, rows),
                     fmt::format("Make the {}s before it fewer, or the piece longer.", row)});
                break;
            }
            before += stripe.rows;
        }
    }
    return out;
}

/// Checks of other parts of a project, each a function of its own.
using MoreChecks = project::Findings (*)(const project::Project&);
/// A fabric of the other craft takes two or three times the yarn.
project::Findings gauge_of_the_other_craft(const project::Project& project) {
    using project::Craft;
    project::Findings out;
    const bool knit = project.craft == Craft::knit;
    const project::Gauge& gauge = project.gauge;
    const auto known = [&](Craft craft) {
        return project::stitch_kind(gauge.stitch, craft, project.terms).has_value();
    };
    const bool stitch = !gauge.stitch.empty() && !known(project.craft) &&
                        known(knit ? Craft::crochet : Craft::knit);
    const bool tool = (knit ? gauge.hook : gauge.needle).has_value() &&
                      !(knit ? gauge.needle : gauge.hook).has_value();
    if (!stitch && !tool) return out;
    out.push_back(
        {Severity::caution, project.place("gauge", stitch ? "stitch" : "hook"),
         fmt::format(
             "it is to be {}, but the gauge is {}", knit ? "knitted" : "crocheted",
             stitch ? "in " + gauge.stitch : std::string(knit ? "on a hook" : "on needles")),
         stitch ? "Correct the craft, or the gauge."
                : fmt::format("Give the {} you work with, or a stitch that is {}.",
                              knit ? "needles" : "hook", knit ? "crocheted" : "knitted")});
    return out;
}

constexpr std::array more_checks{&lengths_in_two_units,
                                 &unknown_fibres,
                                 &unknown_gauge_stitch,
                                 &not_for_its_use,
                                 &heat_by_name,
                                 &not_for_the_young,
                                 &fibres_kept_out,
                                 &zones_beyond_a_piece,
                                 &stitches_without_yarn,
                                 &gauge_of_the_other_craft,
                                 &stripes_beyond_a_piece,
                                 &parts_counted_once,
                                 &parts_grown,
                                 &grid_in_repeats,
                                 &borders_off_their_piece,
                                 &stitches_misnamed,
                                 &swatches_off_all_fabrics,
                                 &swatches_of_other_strands,
                                 &pieces_of_one_name,
                                 &pieces_that_may_be_two,
                                 &yarns_that_nothing_uses};

std::string yarn_text(units::Length length) {
    return units::yards_and_metres(length, units::Rounding::nearest);
}

std::string tenths(units::Ratio value) {
    return units::plain_number(value, units::Step::tenth, units::Rounding::nearest);
}

class Checking {
  public:
    /// `planning`: what figures are worked out from is said as well.
    Checking(const project::Project& project, bool planning)
        : project_(project), written_(as_written(project)), planning_(planning) {}

    project::Findings run() {
        for (std::size_t size = 0; size < project_.size_count(); ++size) check_pieces(size);
        check_labels();
        check_colours();
        for (std::size_t size = 0; size < project_.size_count(); ++size) check_yarn(size);
        for (const MoreChecks more : more_checks)
            for (project::Finding& finding : more(project_)) add(std::move(finding));
        if (!planning_)  // else the verdict itself says so
            for (project::Finding& finding : detail::gauge_far_off(project_))
                add(std::move(finding));
        std::stable_sort(findings_.begin(), findings_.end(), [](const auto& a, const auto& b) {
            return std::pair(a.place.line, a.place.column) <
                   std::pair(b.place.line, b.place.column);
        });
        return std::move(findings_);
    }

  private:
    void add(Severity severity, base::Place place, std::string what, std::string remedy) {
        add({severity, std::move(place), std::move(what), std::move(remedy)});
    }
    /// A thing that holds in every size is said once.
    void add(project::Finding finding) {
        const auto known = [&](const project::Finding& other) {
            return other.place == finding.place && other.what == finding.what;
        };
        if (std::none_of(findings_.begin(), findings_.end(), known))
            findings_.push_back(std::move(finding));
    }
    [[nodiscard]] base::Place of_yarn(const std::string& role, const std::string& key = {}) const {
        return project_.place("yarn." + role, key);
    }

    [[nodiscard]] std::string in_size(std::size_t size) const {
        return project_.sizes.empty() ? "" : " in size " + project_.sizes[size];
    }

    [[nodiscard]] std::string and_so(const std::string& taken) const {
        return planning_ ? "; " + taken : std::string();
    }

    /// Two lengths for one thing; the first is what the counts come to.
    void check_size(const DeniedSize& denied, std::size_t size) {
        const project::Piece& piece = written_.pieces[denied.piece];
        const bool longer = denied.stated > denied.by_counts;
        add(Severity::caution,
            project_.place(fmt::format("piece.{}", denied.piece),
                           denied.length ? "length" : "width"),
            fmt::format(
                "{}{}: {} come to {} by the gauge, but its {} is {}{}", piece.name, in_size(size),
                denied.length ? fmt::format("{:g} rows", denied.counted)
                              : fmt::format("{:g} stitches at the widest", denied.counted),
                units::inches_and_centimetres(denied.by_counts), denied.length ? "length" : "width",
                units::inches_and_centimetres(denied.stated),
                and_so(longer ? "calculated for the larger, as stated"
                              : "calculated for the larger, by the counts")),
            "Correct one of them, or the gauge.");
    }

    void check_pieces(std::size_t size) {
        for (const DeniedSize& denied : denied_sizes(project_, size)) check_size(denied, size);
        for (std::size_t at = 0; at < project_.pieces.size(); ++at) check_pattern(at, size);
    }

    void check_pattern(std::size_t at, std::size_t size) {
        const project::Piece& piece = written_.pieces[at];
        check_repeats(piece, at, size);
        if (!piece.pattern.stated()) return;
        for (const project::Finding& finding : piece.pattern.at(size).findings)
            if (finding.severity != Severity::ok) add(finding);
    }

    void check_repeats(const project::Piece& piece, std::size_t at, std::size_t size) {
        if (!piece.multiple || !piece.stitches.stated() || piece.shape != nullptr) return;
        const project::Multiple& multiple = *piece.multiple;
        const std::int64_t stitches = piece.stitches.at(size);
        if (multiple.fits(stitches)) return;
        const auto below = multiple.at_most(stitches);
        add(Severity::caution, project_.place(fmt::format("piece.{}", at), "stitches"),
            fmt::format("{}: {} stitches are not a multiple of {} plus {}; {}{} would be",
                        piece.name, stitches, multiple.repeat, multiple.plus,
                        below ? std::to_string(*below) + " or " : "", multiple.at_least(stitches)),
            "Correct the stitches or the multiple.");
    }

    /// A length per mass that no hand yarn has, or that the class does not go with.
    void check_labels() {
        for (const project::Role& role : project_.roles) {
            if (!role.grist || role.metre_is_a_gram) continue;
            yarn::LabelFigures label;
            label.length = role.grist->value * (100.0 * units::gram);
            label.mass = 100.0 * units::gram;
            label.weight = role.weight;
            for (const yarn::Finding& finding : yarn::check_label(label))
                add(Severity::caution,
                    of_yarn(role.id, finding.topic == "class" ? "class" : "grist"),
                    "yarn " + role.id + ": " + as_phrase(finding.says),
                    "Read the label again: the length per weight, its units, and the class.");
        }
    }

    void check_colours() {
        const auto& roles = project_.roles;
        for (std::size_t a = 0; a < roles.size(); ++a)
            for (std::size_t b = a + 1; b < roles.size(); ++b) {
                const auto plain = [](const std::string& text) {
                    return base::lower(base::trimmed(text));
                };
                if (roles[a].colour.empty() || plain(roles[a].name) != plain(roles[b].name) ||
                    plain(roles[a].colour) != plain(roles[b].colour))
                    continue;
                add(Severity::caution, of_yarn(roles[b].id, "colour"),
                    fmt::format("yarns {} and {} are one yarn in one colour, {}", roles[a].id,
                                roles[b].id, roles[a].colour),
                    "Make them one yarn, or name the other colour.");
            }
    }

    static std::optional<units::Length> total_of(const project::Role& role, std::size_t size) {
        if (role.total_length.stated()) return role.total_length.at(size);
        if (role.total_mass.stated() && role.grist)
            return role.total_mass.at(size) * role.grist->value;
        return std::nullopt;
    }

    /// A total counted in whole skeins is a whole number of the skeins its label describes.
    void check_skeins(const project::Role& role, std::size_t size) {
        const auto total = total_of(role, size);
        if (!total || !role.grist || role.total_basis != project::TotalBasis::whole_skeins) return;
        const std::string& label = role.grist->text;
        const auto skein = units::parse_length(base::trimmed(label.substr(0, label.find('/'))));
        if (!skein || !(*skein > units::Length{})) return;
        const double skeins = *total / *skein;
        const double whole = std::max(1.0, std::round(skeins));
        constexpr double of_a_skein = 0.05;
        if (std::abs(skeins - whole) <= of_a_skein) return;
        add(Severity::caution, of_yarn(role.id, "total"),
            fmt::format("yarn {}{}: the total of {} is counted in whole skeins, but makes {} "
                        "skeins of {}",
                        role.id, in_size(size), yarn_text(*total),
                        units::number_text(units::Ratio(skeins), units::Step::hundredth,
                                           units::Rounding::nearest),
                        yarn_text(*skein)),
            "Correct the total or the label, or say counted = \"measured\".");
    }

    void check_yarn(std::size_t size) {
        for (const project::Role& role : project_.roles) check_skeins(role, size);
        std::map<std::string, double> stitches;
        for (const project::Row& row : project::row_sequence(project_, size))
            stitches[row.role] += row.stitches / units::stitch;
        check_equal_shares(stitches, size);
        MakeNeed make;
        try {
            // Stitches that nobody knows have findings of their own.
            make = at_worst(need_of(with_plain_stitches(project_), size), project_);
        } catch (const base::InputError& error) {
            for (const base::Problem& problem : error.problems())
                add({Severity::stop, problem.place, problem.what, problem.remedy});
            return;
        }
        for (const RoleNeed& need : make.roles) {
            if (need.plain_rows.times.value() > 0.0) check_rate(need, size);
            check_evidence(need, size);
        }
    }

    /// Figures for one yarn that cannot both be meant.
    void check_evidence(const RoleNeed& need, std::size_t size) {
        for (const std::string& one : need.cautions)
            add(Severity::caution, place_of_rate(need.role),
                fmt::format("yarn {}: {}", need.role, one),
                "Measure again, or correct the wrong figure.");
        const auto [least, most] = discordant(need);
        if (least == nullptr) return;
        add(Severity::caution, place_of_rate(need.role),
            fmt::format("yarn {}{}: {} says {}, and {} says {}{}", need.role, in_size(size),
                        least->name, yarn_text(least->yarn), most->name, yarn_text(most->yarn),
                        and_so("calculated for the larger")),
            "Check both, and correct the wrong one.");
    }

    /// What tells the yarn of a role, as it stands in the file.
    [[nodiscard]] base::Place place_of_rate(const std::string& role) const {
        for (std::size_t at = 0; at < project_.swatches.size(); ++at)
            if (project_.swatches[at].role == role)
                return project_.place(fmt::format("swatch.{}", at));
        const project::Role& known = *project_.role(role);
        return of_yarn(role, known.rate || known.area_rate ? "rate" : "total");
    }

    void check_rate(const RoleNeed& need, std::size_t size) {
        const double times = need.plain_rows.times.value();
        PlausibleYarn usual = plausible_yarn(project_.craft);
        if (!need.plain_rows.all_known) usual.most = usual.most * tallest_unknown;
        if (times >= usual.least.value() && times <= usual.most.value()) return;
        // Ten times beyond any fabric a figure or its unit is a slip.
        const bool absurd = times > 10 * usual.most.value() || 10 * times < usual.least.value();
        add(absurd ? Severity::stop : Severity::caution, place_of_rate(need.role),
            fmt::format(
                "yarn {}{}: a row of plain {} would take {} times its width in yarn; {} to {} "
                "times is usual{}",
                need.role, in_size(size),
                project_.craft == project::Craft::knit ? "knitting" : "single crochet",
                tenths(units::Ratio(times)), tenths(usual.least), tenths(usual.most),
                absurd ? std::string()
                       : and_so(need.plain_rows.taken.value() > times
                                    ? "calculated at " + tenths(need.plain_rows.taken)
                                : usual.doubt_of(need.plain_rows.times, rests_on_measures(need))
                                            .value() > 0.0
                                    ? "calculated as written, less surely"
                                    : "calculated as written")),
            "Check the total, rate or swatch, its unit, and the gauge.");
    }

    /// Yarns that work equally many stitches, and nothing else, have equal totals.
    void check_equal_shares(const std::map<std::string, double>& stitches, std::size_t size) {
        const auto finishes = [&](const project::Role& role) {
            return std::any_of(
                project_.finish.begin(), project_.finish.end(),
                [&](const project::FinishPart& part) { return part.role == role.id; });
        };
        const auto& roles = project_.roles;
        for (std::size_t a = 0; a < roles.size(); ++a)
            for (std::size_t b = a + 1; b < roles.size(); ++b) {
                const auto first = stitches.find(roles[a].id);
                const auto second = stitches.find(roles[b].id);
                if (first == stitches.end() || second == stitches.end()) continue;
                constexpr double same = 0.01;
                if (std::abs(first->second - second->second) > same * first->second) continue;
                const auto one = total_of(roles[a], size);
                const auto other = total_of(roles[b], size);
                if (!one || !other || finishes(roles[a]) || finishes(roles[b])) continue;
                if (std::abs(std::log(*one / *other)) <= std::log1p(contradicts.value())) continue;
                add(Severity::caution, of_yarn(roles[b].id, "total"),
                    fmt::format("yarns {} and {}{} work the same number of stitches, but "
                                "their totals are {} and {}",
                                roles[a].id, roles[b].id, in_size(size), yarn_text(*one),
                                yarn_text(*other)),
                    "Check the totals and the stripes.");
            }
    }

    const project::Project& project_;
    project::Project written_;
    bool planning_;
    project::Findings findings_;
};

}  // namespace

project::Findings check(const project::Project& project) {
    return Checking(project, false).run();
}

project::Findings check_for_planning(const project::Project& project) {
    return Checking(project, true).run();
}

}  // namespace skeinfall::need
