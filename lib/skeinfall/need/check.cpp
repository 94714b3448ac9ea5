#include "skeinfall/need/check.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/units/format.hpp"

namespace skeinfall::need {
namespace {

using project::Severity;

std::string metres_text(units::Length length) {
    return units::text(length, units::shown::metres, units::Step::one, units::Rounding::nearest);
}

std::string centimetres_text(units::Length length) {
    return units::text(length, units::shown::centimetres, units::Step::tenth,
                       units::Rounding::nearest);
}

class Checking {
  public:
    explicit Checking(const project::Project& project) : project_(project) {}

    project::Findings run() {
        for (std::size_t size = 0; size < project_.size_count(); ++size)
            for (const project::Piece& piece : project_.pieces) check_piece(piece, size);
        check_colours();
        for (std::size_t size = 0; size < project_.size_count(); ++size) check_yarn(size);
        return std::move(findings_);
    }

  private:
    void add(Severity severity, std::string what, std::string remedy) {
        add({severity,
             {.file = project_.file, .line = 0, .column = 0},
             std::move(what),
             std::move(remedy)});
    }
    void add(project::Finding finding) {
        if (std::find(findings_.begin(), findings_.end(), finding) == findings_.end())
            findings_.push_back(std::move(finding));
    }

    [[nodiscard]] std::string in_size(std::size_t size) const {
        return project_.sizes.empty() ? "" : " in size " + project_.sizes[size];
    }

    /// Two lengths for one thing; the first is what the counts come to.
    void compare(const std::string& counted, units::Length by_counts, const std::string& measured,
                 units::Length stated, const std::string& where) {
        const double off = std::abs(std::log(by_counts / stated));
        if (off <= std::log1p(worth_a_look.value())) return;
        add(off > std::log1p(contradicts.value()) ? Severity::stop : Severity::caution,
            fmt::format("{}: {} come to {} by the gauge, but its {} is {}", where, counted,
                        centimetres_text(by_counts), measured, centimetres_text(stated)),
            "Correct one of them, or the gauge.");
    }

    void check_piece(const project::Piece& piece, std::size_t size) {
        const project::PieceCounts total = project::counts(project_, piece, size);
        const std::string where = "[[piece]] " + piece.name + in_size(size);
        const bool rows_known = piece.rows.stated() || piece.pattern.stated();
        if (rows_known && piece.length.stated() && total.rows > 0)
            compare(fmt::format("{} rows", total.rows),
                    static_cast<double>(total.rows) * units::row / project_.gauge.rows, "length",
                    piece.length.at(size), where);
        const bool stitches_known = piece.stitches.stated() || piece.pattern.stated();
        if (stitches_known && piece.width.stated() && total.rows > 0) {
            project::Piece counted = piece;
            counted.width = {};
            const units::Length width = project::finished_size(project_, counted, size).width;
            compare(fmt::format("{:g} stitches at the widest",
                                std::round(width * project_.gauge.stitches / units::stitch)),
                    width, "width", piece.width.at(size), where);
        }
        if (!piece.pattern.stated()) return;
        for (const project::Finding& finding : piece.pattern.at(size).findings)
            if (finding.severity != Severity::ok) add(finding);
    }

    void check_colours() {
        const auto& roles = project_.roles;
        for (std::size_t a = 0; a < roles.size(); ++a)
            for (std::size_t b = a + 1; b < roles.size(); ++b) {
                if (roles[a].colour.empty() || roles[a].name != roles[b].name ||
                    base::lower(roles[a].colour) != base::lower(roles[b].colour))
                    continue;
                add(Severity::caution,
                    fmt::format("[yarn.{}] and [yarn.{}] are one yarn in one colour, {}",
                                roles[a].id, roles[b].id, roles[a].colour),
                    "Make them one role, or name the other colour.");
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
        add(Severity::caution,
            fmt::format("[yarn.{}]{}: the total of {} is counted in whole skeins, but makes {:.2f} "
                        "skeins of {}",
                        role.id, in_size(size), metres_text(*total), skeins, metres_text(*skein)),
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
            make = need_of(project_, size);
        } catch (const base::InputError& error) {
            for (const base::Problem& problem : error.problems())
                add({Severity::stop, problem.place, problem.what, problem.remedy});
            return;
        }
        for (const RoleNeed& need : make.roles) {
            const double count = stitches[need.role];
            const auto body =
                std::find_if(need.parts.begin(), need.parts.end(),
                             [](const Part& part) { return part.purpose == Purpose::body; });
            if (count <= 0.0 || body == need.parts.end()) continue;
            check_rate(need.role, body->yarn / (count * units::stitch / project_.gauge.stitches),
                       size);
        }
    }

    void check_rate(const std::string& role, double times, std::size_t size) {
        const PlausibleYarn usual = plausible_yarn(project_.craft);
        if (times >= usual.least.value() && times <= usual.most.value()) return;
        add(times < usual.least.value() / 2.0 || times > usual.most.value() * 2.0
                ? Severity::stop
                : Severity::caution,
            fmt::format("[yarn.{}]{}: rows take {:.1f} times their width in yarn; {:g} to {:g} is "
                        "plausible",
                        role, in_size(size), times, usual.least.value(), usual.most.value()),
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
                add(Severity::caution,
                    fmt::format("[yarn.{}] and [yarn.{}]{} work the same number of stitches, but "
                                "their totals are {} and {}",
                                roles[a].id, roles[b].id, in_size(size), metres_text(*one),
                                metres_text(*other)),
                    "Check the totals and the stripes.");
            }
    }

    const project::Project& project_;
    project::Findings findings_;
};

}  // namespace

PlausibleYarn plausible_yarn(project::Craft craft) {
    if (craft == project::Craft::knit) return {units::Ratio(2.5), units::Ratio(9.0)};
    return {units::Ratio(6.0), units::Ratio(35.0)};
}

project::Findings check(const project::Project& project) {
    return Checking(project).run();
}

}  // namespace skeinfall::need
