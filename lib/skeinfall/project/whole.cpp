#include "skeinfall/project/whole.hpp"

#include <algorithm>
#include <cstdint>
#include <set>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "skeinfall/base/count.hpp"
#include "skeinfall/base/text.hpp"

namespace skeinfall::project {
namespace {

class Looking {
  public:
    explicit Looking(const Project& project) : project_(project) {}

    base::Problems run() {
        yarns();
        for (std::size_t at = 0; at < project_.pieces.size(); ++at)
            piece(project_.pieces[at], fmt::format("piece.{}", at));
        for (std::size_t at = 0; at < project_.swatches.size(); ++at)
            known(project_.swatches[at].role, fmt::format("swatch.{}", at));
        for (std::size_t at = 0; at < project_.earlier_makes.size(); ++at)
            known(project_.earlier_makes[at].role, fmt::format("earlier_make.{}", at));
        for (std::size_t at = 0; at < project_.finish.size(); ++at)
            part(project_.finish[at], fmt::format("finish.{}", at));
        return std::move(out_);
    }

  private:
    void add(const std::string& table, const std::string& key, std::string what,
             std::string expected) {
        out_.push_back({std::move(what), project_.place(table, key), std::move(expected), {}});
    }

    void yarns() {
        if (project_.roles.empty())
            add("yarn", "", "the project has no yarn", "at least one, such as MC");
        std::set<std::string> ids;
        for (const Role& role : project_.roles) {
            const std::string table = "yarn." + role.id;
            if (!ids.insert(role.id).second)
                add(table, "", "yarn " + base::quoted(role.id) + " is described twice",
                    "each yarn once");
            if (!role.held_with.empty()) {
                known(role.held_with, table);
                goes_along(role, table);
            }
            fits(role.total_length, table, "total");
            fits(role.total_mass, table, "total");
        }
    }

    /// Its length is that of the yarn it is held with, so that rows of its own would stand alone.
    void goes_along(const Role& role, const std::string& table) {
        for (std::size_t at = 0; at < project_.finish.size(); ++at) {
            const FinishPart& part = project_.finish[at];
            if (part.role != role.id) continue;
            add(fmt::format("finish.{}", at), "yarn",
                fmt::format("yarn {} is held with {}, and \"{}\" is worked in {} alone", role.id,
                            role.held_with, part.name, role.id),
                fmt::format("yarn {}, or the same yarn described once more for this part",
                            role.held_with));
            return;
        }
        for (const Piece& piece : project_.pieces) {
            if (!works(piece, role.id)) continue;
            out_.push_back(
                {fmt::format("yarn {} is held with {}, and \"{}\" is worked in {} alone", role.id,
                             role.held_with, piece.name, role.id),
                 project_.place(table, "held_with"),
                 fmt::format("a piece in yarn {}: {} goes along with it", role.held_with, role.id),
                 fmt::format("Write yarn = \"{}\" in the piece.", role.held_with)});
            return;
        }
    }

    static bool works(const Piece& piece, const std::string& role) {
        const auto names = [&](const std::vector<Stripe>& stripes) {
            return std::any_of(stripes.begin(), stripes.end(),
                               [&](const Stripe& stripe) { return stripe.role == role; });
        };
        for (const WorkedRows& rows : piece.pattern.values)
            if (names(rows.stripes)) return true;
        return names(piece.stripes) ||
               (piece.stripes.empty() && !piece.pattern.stated() && piece.role == role);
    }

    void known(const std::string& role, const std::string& table) {
        if (project_.role(role) != nullptr) return;
        add(table, "yarn", "no yarn " + base::quoted(role) + " is described",
            "a yarn of the project");
    }

    /// One entry for all sizes, or one a size.
    template <class T>
    bool fits(const PerSize<T>& values, const std::string& table, const std::string& key) {
        const std::size_t count = values.values.size();
        if (count <= 1 || count == project_.size_count()) return true;
        add(table, key, fmt::format("\"{}\" has {} entries", key, count),
            project_.size_count() == 1 ? "one" : fmt::format("one, or {}", project_.size_count()));
        return false;
    }

    bool at_least(const PerSize<std::int64_t>& values, std::int64_t least, const std::string& table,
                  const std::string& key) {
        if (!fits(values, table, key)) return false;
        for (const std::int64_t value : values.values)
            if (value < least) {
                add(table, key, fmt::format("{}: {} is too small", key, value),
                    fmt::format("{} or more", least));
                return false;
            }
        return within(values, table, key);
    }

    /// Within what may be counted, below zero too.
    bool within(const PerSize<std::int64_t>& values, const std::string& table,
                const std::string& key) {
        if (!fits(values, table, key)) return false;
        for (const std::int64_t value : values.values)
            if (value > largest_count || value < -largest_count) {
                add(table, key, fmt::format("{}: {} is too large", key, value),
                    fmt::format("at most {}", largest_count));
                return false;
            }
        return true;
    }

    bool all_positive(const PerSize<units::Length>& values, const std::string& table,
                      const std::string& key) {
        if (!fits(values, table, key)) return false;
        for (const units::Length& value : values.values)
            if (!(value > units::Length{})) {
                add(table, key, key + ": the length is not above zero", "more than zero");
                return false;
            }
        return true;
    }

    void part(const FinishPart& part, const std::string& table) {
        known(part.role, table);
        if (at_least(part.rounds, 1, table, "rounds") && !part.rounds.stated())
            add(table, "rounds", part.name + " has no rounds", "1 or more");
        at_least(part.copies, 1, table, "count");
        fits(part.first_round, table, "first_round");
        fits(part.yarn, table, "takes");
        fits(part.length, table, "along");
    }

    void piece(const Piece& piece, const std::string& table) {
        const std::string name = piece.name.empty() ? "a piece" : piece.name;
        const std::size_t before = out_.size();
        if (piece.stripes.empty() && !piece.pattern.stated()) known(piece.role, table);
        for (const Stripe& stripe : piece.stripes) {
            known(stripe.role, table);
            if (stripe.rows < 1)
                add(table, "stripes", name + ": a stripe of no rows", "1 row or more");
            else if (stripe.rows > largest_count)
                add(table, "stripes", name + ": a stripe of too many rows",
                    fmt::format("at most {}", largest_count));
        }
        at_least(piece.count, 1, table, "count");
        if (fits(piece.every, table, "every") &&
            (!piece.every.stated() ||
             *std::min_element(piece.every.values.begin(), piece.every.values.end()) < 1))
            add(table, "every", name + ": every 0 rows", "1 or more");
        const Gauge& gauge = gauge_of(project_, piece);
        if (!(gauge.stitches.value() > 0.0) || !(gauge.rows.value() > 0.0))
            add(piece.gauge ? table : "gauge", "", name + ": the gauge counts nothing",
                "stitches and rows above zero");
        fits(piece.pattern, table, "rows");
        if (!piece.pattern.stated()) {
            at_least(piece.rows, 1, table, "rows");
            at_least(piece.stitches, 1, table, "stitches");
        }
        within(piece.increase, table, "increase");
        all_positive(piece.width, table, "width");
        all_positive(piece.length, table, "length");
        within(piece.last_stitches, table, "last_stitches");
        all_positive(piece.last_width, table, "last_width");
        within(piece.blocks_high, table, "blocks_high");
        if (piece.shape != nullptr && piece.shape->law == RowLaw::even &&
            !piece.last_stitches.stated() && !piece.last_width.stated())
            add(table, "", name + ": its last row is not told", "last_stitches or last_width");
        if (out_.size() == before) counted(piece, table, name);
    }

    /// Rows and stitches as they come out, once nothing stands in the way of counting.
    void counted(const Piece& piece, const std::string& table, const std::string& name) {
        for (std::size_t size = 0; size < project_.size_count(); ++size) {
            const std::string where =
                name + (project_.sizes.empty() ? "" : " in size " + project_.sizes[size]);
            const PieceCounts total = counts(project_, piece, size);
            const std::int64_t copies = piece.count.stated() ? piece.count.at(size) : 1;
            if (total.rows < 1)
                add(table, "rows", where + " has no rows", "\"rows\" or \"length\"");
            else if (total.stitches < 1 && !piece.pattern.stated())
                add(table, "stitches", where + " has no stitches", "\"stitches\" or \"width\"");
            else if (!room_for(base::product(total.rows, copies)))
                add(table, "rows", where + " makes too many rows",
                    fmt::format("at most {} in all", most_rows_worked_out));
            else
                continue;
            return;
        }
    }

    /// For so many more rows.
    bool room_for(std::optional<std::int64_t> rows) {
        base::add_count(rows_in_all_, rows);
        return rows_in_all_ <= most_rows_worked_out;
    }

    const Project& project_;
    base::Problems out_;
    std::int64_t rows_in_all_ = 0;
};

}  // namespace

base::Problems lacking(const Project& project) {
    return Looking(project).run();
}

}  // namespace skeinfall::project
