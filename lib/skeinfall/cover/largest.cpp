#include "skeinfall/cover/largest.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <map>
#include <stdexcept>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/fit/fit.hpp"
#include "skeinfall/need/testers.hpp"
#include "skeinfall/project/edging.hpp"

namespace skeinfall::cover {
namespace {

[[noreturn]] void refuse(const project::Project& project, const std::string& what,
                         const std::string& expected, const std::string& remedy) {
    throw base::InputError(
        base::Problem{what, {.file = project.file, .line = 0, .column = 0}, expected, remedy});
}

/// A piece that is worked there and back by its own shape: it turns at its middle row.
bool turns_by_shape(const project::Piece& piece) {
    return piece.shape != nullptr && piece.shape->law == project::RowLaw::there_and_back;
}

bool in_blocks(const project::Piece& piece) {
    return piece.shape != nullptr && piece.shape->law == project::RowLaw::diagonal;
}

std::int64_t planned_value(const project::Project& project, std::size_t size,
                           const Growth& growth) {
    if (growth.extent == Extent::size) return static_cast<std::int64_t>(size);
    const project::Piece& piece = project.pieces[growth.piece];
    const project::PieceCounts counts = project::counts(project, piece, size);
    switch (growth.extent) {
        case Extent::width:
        case Extent::both:
            return in_blocks(piece) ? project::blocks_of(piece, counts, size).wide
                                    : counts.stitches;
        case Extent::count:
            return piece.count.stated() ? piece.count.at(size) : 1;
        case Extent::turn:
            return turns_by_shape(piece) ? (counts.rows + 1) / 2 : counts.rows;
        default:
            return counts.rows;
    }
}

/// Tries values; each is worked out once.
class Growing {
  public:
    Growing(const project::Project& project, std::size_t size,
            const std::vector<stash::Skein>& stash, const Rules& rules, const Growth& growth,
            std::int64_t limit, std::int64_t planned)
        : project_(project),
          size_(size),
          stash_(stash),
          rules_(rules),
          growth_(growth),
          limit_(limit),
          planned_(planned) {}

    [[nodiscard]] MakeCover cover(std::int64_t value) const {
        const std::size_t size =
            growth_.extent == Extent::size ? static_cast<std::size_t>(value) : size_;
        const project::Project make = grown(project_, size_, growth_, value);
        MakeCover cover = cover_make(make, need_for(make, size, rules_), stash_, rules_);
        for (RoleCover& role : cover.roles) leave_stash(role);
        return cover;
    }

    [[nodiscard]] Tried tried(std::int64_t value) {
        if (const auto known = known_.find(value); known != known_.end()) return known->second;
        MakeCover made;
        try {
            made = cover(value);
        } catch (const fit::WishError&) {
            if (value >= planned_) throw;
            // It would take less than any that there is.
            Tried none;
            none.value = value;
            none.chance = {units::Ratio(1.0)};
            none.verdict = Verdict::covered;
            none.possible = false;
            return known_[value] = none;
        }
        Tried out{value,
                  rules_.margin.value() > 0.0 ? made.with_margin : made.chance,
                  made.verdict,
                  {},
                  0,
                  0,
                  true,
                  true};
        for (const RoleCover& role : made.roles)
            out.margin_met = out.margin_met && !(role.margin_short > units::Length{});
        if (growth_.extent != Extent::size) measure_piece(out);
        return known_[value] = out;
    }

    [[nodiscard]] std::int64_t value(std::int64_t steps) const {
        return growth_.offset + steps * growth_.step;
    }

    /// The most steps, at least one, for which `good` holds; 0 when it never does. More yarn is
    /// never needed for less, so halving the gap finds it; where evidence of few rows is too poor
    /// to be sure of them, what is planned is a second beginning.
    template <class Good>
    [[nodiscard]] std::int64_t most_steps(const Good& good, bool& endless) {
        const std::int64_t limit = (limit_ - growth_.offset) / growth_.step;
        std::int64_t low = 0;
        std::int64_t high = 1;
        const std::int64_t planned = (planned_ - growth_.offset) / growth_.step;
        if (planned > 1 && planned <= limit && !good(tried(value(high))) &&
            good(tried(value(planned))))
            high = planned;
        while (high <= limit && good(tried(value(high)))) {
            low = high;
            high *= 2;
        }
        if (high > limit) {
            if (low == limit || good(tried(value(limit)))) {
                endless = true;
                return limit;
            }
            high = limit;
        }
        while (high - low > 1) {
            const std::int64_t middle = low + (high - low) / 2;
            (good(tried(value(middle))) ? low : high) = middle;
        }
        return low;
    }

  private:
    void measure_piece(Tried& tried) const {
        const project::Project make = grown(project_, size_, growth_, tried.value);
        const project::Piece& piece = make.pieces[growth_.piece];
        tried.finished = project::finished_size(make, piece, size_);
        const std::vector<std::int64_t> widths = project::row_widths(make, piece, size_);
        tried.rows = static_cast<std::int64_t>(widths.size());
        tried.stitches = widths.empty() ? 0 : widths.front();
    }

    const project::Project& project_;
    std::size_t size_;
    const std::vector<stash::Skein>& stash_;
    const Rules& rules_;
    const Growth& growth_;
    std::int64_t limit_;
    std::int64_t planned_;
    std::map<std::int64_t, Tried> known_;
};

/// After how many rows written ones repeat at their end; 0 when they do not.
std::size_t period_of(const project::WorkedRows& rows) {
    const std::size_t have = rows.order.size();
    for (std::size_t each = 1; 2 * each <= have; ++each)
        if (std::equal(rows.order.end() - static_cast<std::ptrdiff_t>(each), rows.order.end(),
                       rows.order.end() - static_cast<std::ptrdiff_t>(2 * each)))
            return each;
    return 0;
}

/// Written rows, fewer or more of them: the rows that repeat at their end are worked on.
project::WorkedRows repeated(project::WorkedRows rows, std::int64_t value) {
    const auto wanted = static_cast<std::size_t>(value);
    if (wanted > rows.order.size()) {
        const std::size_t period = period_of(rows);
        if (period == 0) throw std::invalid_argument("the written rows do not repeat");
        rows.order.reserve(wanted);
        while (rows.order.size() < wanted) {
            rows.order.push_back(rows.order[rows.order.size() - period]);
            if (!rows.text_of.empty())
                rows.text_of.push_back(rows.text_of[rows.text_of.size() - period]);
        }
    }
    rows.order.resize(wanted);
    rows.text_of.resize(std::min(rows.text_of.size(), wanted));
    return rows;
}

/// Written rows that do not repeat at their end cannot become more, nor can those that name their
/// yarns.
std::int64_t limit_of(const project::Project& project, std::size_t size, const Growth& growth) {
    if (growth.extent != Extent::rows) return largest_at_most;
    const project::Piece& piece = project.pieces[growth.piece];
    if (!piece.pattern.stated()) {
        const project::PieceCounts counts = project::counts(project, piece, size);
        // Beyond its tip there is nothing to work.
        return counts.increase < 0 && counts.last == 0
                   ? counts.every * ((counts.stitches - 1) / -counts.increase + 1)
                   : largest_at_most;
    }
    const project::WorkedRows& rows = piece.pattern.at(size);
    const bool one_yarn = std::all_of(
        rows.stripes.begin(), rows.stripes.end(),
        [&](const project::Stripe& stripe) { return stripe.role == rows.stripes.front().role; });
    const bool repeats = period_of(rows) > 0 ||
                         (!piece.written.empty() && fit::row_multiple(project, piece, size).from !=
                                                        fit::MultipleFrom::nobody);
    return one_yarn && repeats ? largest_at_most : rows.rows();
}

bool is_sure(const Tried& tried) {
    return tried.verdict == Verdict::covered && tried.margin_met;
}

bool is_likely(const Tried& tried) {
    return tried.chance.value.value() >= 0.5;
}

Largest largest_size(const project::Project& project, Growing& growing, Largest out) {
    if (project.sizes.empty())
        refuse(project, "the project has no sizes", "a graded project",
               "Ask for another extent: rows, width or count.");
    for (std::size_t size = 0; size < project.sizes.size(); ++size) {
        const Tried tried = growing.tried(static_cast<std::int64_t>(size));
        out.sizes.push_back(tried);
        if (is_sure(tried)) out.sure = tried;
        if (is_likely(tried)) out.likely = tried;
    }
    const std::int64_t next = std::min(out.sure ? out.sure->value + 1 : std::int64_t{0},
                                       static_cast<std::int64_t>(project.sizes.size()) - 1);
    out.next = out.sizes[static_cast<std::size_t>(next)];
    out.endless = out.sure && out.sure->value == next;
    out.cover = growing.cover(out.sure ? out.sure->value : next);
    return out;
}

}  // namespace

std::string_view name_of(Extent extent) {
    static constexpr std::array<std::string_view, 6> names{"rows", "width", "count",
                                                           "size", "turn",  "both"};
    return names.at(static_cast<std::size_t>(extent));
}

namespace {

bool has_total(const project::Project& project) {
    return std::any_of(project.roles.begin(), project.roles.end(), [](const auto& role) {
        return role.total_length.stated() || role.total_mass.stated();
    });
}

/// What goes best with so many across, in proportion to what is planned.
std::int64_t in_proportion(std::int64_t planned, std::int64_t planned_across,
                           std::int64_t across_now) {
    return std::max<std::int64_t>(
        1, std::llround(static_cast<double>(planned) * static_cast<double>(across_now) /
                        static_cast<double>(std::max<std::int64_t>(1, planned_across))));
}

/// Rows in whole repeats, so that stripes end as they do.
std::int64_t rows_beside(const project::Project& project, const project::Piece& piece,
                         std::size_t size, std::int64_t stitches) {
    const project::PieceCounts planned = project::counts(project, piece, size);
    const std::int64_t exact = in_proportion(planned.rows, planned.stitches, stitches);
    const project::Multiple rows = fit::row_multiple(project, piece, size).multiple;
    const std::int64_t above = rows.at_least(exact);
    const auto below = rows.at_most(exact);
    return below && 2 * exact <= *below + above ? *below : above;
}

bool across(const Growth& growth) {
    return growth.extent == Extent::width || growth.extent == Extent::both;
}

/// The widest rows stand once; behind them everything comes again the other way round. The way
/// round both parts, where there are two.
std::optional<units::Length> add_way_back(const project::Project& project, std::size_t size,
                                          const Growth& growth, std::int64_t value,
                                          project::Project& out) {
    project::Piece& piece = out.pieces[growth.piece];
    const project::PieceCounts counts =
        project::counts(project, project.pieces[growth.piece], size);
    const bool by_shape = turns_by_shape(piece);
    const std::int64_t every = by_shape && counts.last > 0 ? 1 : counts.every;
    const std::int64_t widest = value - (value - 1) / every * every;
    const std::int64_t back = value - widest;
    if (by_shape) {
        piece.rows = project::PerSize<std::int64_t>(value + back);
        return std::nullopt;
    }
    if (back <= 0) return std::nullopt;
    project::Piece mirror = piece;
    mirror.name = piece.name + ", decreased";
    mirror.rows = project::PerSize<std::int64_t>(back);
    mirror.stitches = project::PerSize<std::int64_t>(project::stitches_in_row(counts, piece, back));
    mirror.increase = project::PerSize<std::int64_t>(-counts.increase);
    mirror.foundation_rows = units::Ratio(0.0);
    const units::Length shared =
        static_cast<double>(project::stitches_in_row(counts, piece, value)) * units::stitch /
        project::gauge_of(project, piece).stitches;
    const units::Length way =
        project::way_round(out, piece, size) + project::way_round(out, mirror, size) - 2.0 * shared;
    out.pieces.insert(out.pieces.begin() + static_cast<std::ptrdiff_t>(growth.piece) + 1, mirror);
    return way;
}

/// Wider, or wider and longer, as fit has it: written rows are rewritten, totals follow.
project::Project fitted(const project::Project& project, std::size_t size, const Growth& growth,
                        std::int64_t value) {
    fit::Wish wish;
    wish.stitches = value;
    const project::Piece& piece = project.pieces[growth.piece];
    if (in_blocks(piece)) {
        const project::Blocks planned =
            project::blocks_of(piece, project::counts(project, piece, size), size);
        const units::Length block = project::block_side(project::gauge_of(project, piece));
        fit::Wish blocks;
        blocks.width = static_cast<double>(value) * block;
        blocks.length =
            static_cast<double>(in_proportion(planned.high, planned.wide, value)) * block;
        return fit::fit_piece(project, growth.piece, size, blocks).project;
    }
    if (growth.extent == Extent::both) wish.rows = rows_beside(project, piece, size, value);
    fit::Fitted out = fit::fit_piece(project, growth.piece, size, wish);
    if (out.stitches.taken != value)
        refuse(project,
               std::to_string(value) + " stitches of \"" + piece.name +
                   "\" are not in whole repeats of its rows",
               std::to_string(out.stitches.below.value_or(out.stitches.above)) + " or " +
                   std::to_string(out.stitches.above),
               "Leave the repeat out: it is found from the rows.");
    return out.project;
}

}  // namespace

namespace {

/// Rows that only their words say how to go on with.
bool more_than_written(const project::Piece& piece, std::size_t size, std::int64_t value) {
    const project::WorkedRows& rows = piece.pattern.at(size);
    return value > rows.rows() && !piece.written.empty() && period_of(rows) == 0;
}

/// The width of a figure from its centre, or of one from corner to corner, follows from its rows.
bool width_follows(const project::Piece& piece) {
    return piece.shape != nullptr && (piece.shape->from_centre || piece.shape->from_few() ||
                                      piece.shape->law == project::RowLaw::diagonal ||
                                      piece.shape->law == project::RowLaw::there_and_back);
}

/// Its sides are what was said, and nobody counted the gauge: it grows by its sides, so that its
/// yarn hangs on the gauge no more than before.
bool is_measured(const project::Piece& piece, const project::Gauge& gauge) {
    return gauge.usual && piece.width.stated() && piece.length.stated() && !width_follows(piece);
}

}  // namespace

project::Project grown(const project::Project& project, std::size_t size, const Growth& growth,
                       std::int64_t value) {
    if (growth.extent == Extent::size) return project;
    const bool written = project.pieces[growth.piece].pattern.stated();
    const bool met = fit::meets_others(project, growth.piece, size);
    if (growth.extent == Extent::both || (growth.extent == Extent::width && (written || met)))
        return fitted(project, size, growth, value);
    if (growth.extent == Extent::rows && met && !written) {
        fit::Wish wish;
        wish.rows = value;
        return fit::fit_piece(project, growth.piece, size, wish).project;
    }
    if (growth.extent == Extent::rows && written &&
        more_than_written(project.pieces[growth.piece], size, value)) {
        fit::Wish wish;
        wish.rows = value;
        return fit::fit_piece(project, growth.piece, size, wish).project;
    }
    project::Project out = project;
    project::Piece& piece = out.pieces[growth.piece];
    if (growth.extent == Extent::rows && piece.shape != nullptr && piece.shape->wings) {
        fit::Wish wish;
        wish.rows = value;
        return fit::fit_piece(project, growth.piece, size, wish).project;
    }
    const project::Gauge& gauge = project::gauge_of(project, piece);
    const bool measured = is_measured(piece, gauge);
    if (growth.extent == Extent::width) {
        piece.stitches = project::PerSize<std::int64_t>(value);
        piece.width = {};
        if (measured) {
            piece.stitches = {};
            piece.width = project::PerSize<units::Length>(
                units::Length(static_cast<double>(value) * units::stitch / gauge.stitches));
        }
    } else if (growth.extent == Extent::count) {
        project::make_so_many(out, growth.piece, size, value);
    } else if (written) {
        piece.pattern =
            project::PerSize<project::WorkedRows>(repeated(piece.pattern.at(size), value));
    } else {
        piece.rows = project::PerSize<std::int64_t>(value);
        piece.length = {};
        if (width_follows(piece)) piece.width = {};
        if (measured) {
            piece.rows = {};
            piece.length = project::PerSize<units::Length>(
                units::Length(static_cast<double>(value) * units::row / gauge.rows));
        }
    }
    std::optional<units::Length> way;
    if (growth.extent == Extent::turn) way = add_way_back(project, size, growth, value, out);
    fit::follow_edgings(project, out, growth.piece, size, way);
    if (has_total(project)) fit::follow_totals(project, out, size);
    return out;
}

std::int64_t usual_step(const project::Piece& piece) {
    if (piece.pattern.stated()) return 1;
    std::int64_t rows = 0;
    for (const project::Stripe& stripe : piece.stripes) rows += stripe.rows;
    return std::max<std::int64_t>(1, rows);
}

namespace {

void refuse_width_of_rows(const project::Project& project, const Growth& growth) {
    const project::Piece& piece = project.pieces[growth.piece];
    if (growth.extent != Extent::width || piece.pattern.stated()) return;
    if (width_follows(piece))
        refuse(project, "the width of \"" + piece.name + "\" follows from its rows",
               "rows, or both in proportion", "");
}

}  // namespace

namespace {

/// Nothing can grow of which all rows, or all of one copy, are worked.
void refuse_worked(const project::Project& project, const Rules& rules, const Growth& growth) {
    for (const need::Worked& worked : rules.done) {
        const bool begun_again = worked.piece == growth.piece && worked.copy > 1;
        if (worked.piece <= growth.piece && !begun_again) continue;
        const project::Piece& piece = project.pieces[growth.piece];
        const bool later = worked.piece > growth.piece;
        refuse(project,
               "\"" + piece.name + "\" is worked already" +
                   (later ? std::string() : ", and its copies are alike"),
               later ? "\"" + project.pieces[worked.piece].name +
                           "\", which is in work, or a later one"
                     : "a piece that is not begun",
               "");
    }
}

}  // namespace

Growth usual_growth(const project::Project& project, std::size_t size, Extent extent,
                    std::size_t piece) {
    Growth out{extent, piece, 1, 0};
    if (extent == Extent::size || piece >= project.pieces.size()) return out;
    const project::Piece& one = project.pieces[piece];
    const bool by_rows = project::counts(project, one, size).increase > 0 ||
                         (one.shape != nullptr && !one.pattern.stated());
    if (extent == Extent::both && in_blocks(one)) return out;
    if (extent == Extent::both && by_rows) out.extent = Extent::rows;
    if (out.extent == Extent::turn) {
        out.step = one.every.at(size);
    } else if (out.extent == Extent::count) {
        // So many motifs to a row: a row of them more.
        const auto joining = project::joining_of(project, one);
        if (joining && project.finish[*joining].columns.stated())
            out.step = project.finish[*joining].columns.at(size);
    } else if (out.extent == Extent::rows) {
        out.step = usual_step(one);
        // Stripes end as they do now, as fit has it.
        const fit::Found rows = fit::row_multiple(project, one, size);
        if (one.row_multiple || rows.from == fit::MultipleFrom::stripes) {
            out.step = rows.multiple.repeat;
            out.offset = rows.multiple.plus;
        }
    } else if (out.extent == Extent::width || out.extent == Extent::both) {
        const project::Multiple multiple = fit::stitch_multiple(project, one, size).multiple;
        out.step = multiple.repeat;
        out.offset = multiple.plus;
    }
    return out;
}

Largest largest(const project::Project& given, std::size_t size,
                const std::vector<stash::Skein>& stash, const Rules& rules, const Growth& growth) {
    project::Project project = need::with_returns_told(given);
    if (growth.extent != Extent::size && growth.piece >= project.pieces.size())
        refuse(project, "the project has no piece that could grow", "a [[piece]] in the project",
               "State the rows and stitches of a piece.");
    Largest out;
    bool whole_only = false;  // half a repeat does not come out
    out.growth = growth;
    out.planned = planned_value(project, size, growth);
    if (!rules.done.empty() && growth.extent != Extent::rows && growth.extent != Extent::count)
        refuse(project,
               "rows of it are worked already, so its " + std::string(name_of(growth.extent)) +
                   " is settled",
               "rows or count", "Ask how many rows it may still become.");
    if (growth.extent != Extent::size) {
        refuse_worked(project, rules, growth);
        project::Piece& piece = project.pieces[growth.piece];
        out.planned_size = project::finished_size(project, piece, size);
        // Found once, and not for every count anew.
        const fit::Found stitches = fit::stitch_multiple(project, piece, size);
        if (stitches.from != fit::MultipleFrom::nobody) piece.multiple = stitches.multiple;
        whole_only = growth.extent == Extent::count ||
                     (across(growth) && stitches.from != fit::MultipleFrom::nobody);
        out.multiple =
            across(growth) ? stitches.multiple : fit::row_multiple(project, piece, size).multiple;
    }
    out.limit = growth.extent == Extent::size ? largest_at_most : limit_of(project, size, growth);
    Growing growing(project, size, stash, rules, growth, out.limit, out.planned);
    if (growth.extent == Extent::size) return largest_size(project, growing, std::move(out));
    if (growth.extent == Extent::turn &&
        project::counts(project, project.pieces[growth.piece], size).increase <= 0)
        refuse(project,
               "the piece \"" + project.pieces[growth.piece].name +
                   "\" does not grow, so it "
                   "has no row to turn at",
               "a piece with an increase", "Ask for rows instead.");

    refuse_width_of_rows(project, growth);
    if (growing.value(1) > out.limit)
        refuse(project,
               "the " + std::to_string(out.limit) + " written rows of \"" +
                   project.pieces[growth.piece].name + "\" do not repeat at their end",
               "a repeat that fits into them",
               "Write a repeat such as \"Rows 3-96: rep rows 1 and 2\".");
    const std::int64_t sure = growing.most_steps(is_sure, out.endless);
    bool endless = false;
    const std::int64_t likely = growing.most_steps(is_likely, endless);
    const auto possible = [&](std::int64_t steps) {
        return steps > 0 && growing.tried(growing.value(steps)).possible;
    };
    if (possible(sure)) out.sure = growing.tried(growing.value(sure));
    if (possible(likely)) out.likely = growing.tried(growing.value(likely));
    out.next = growing.tried(growing.value(out.endless ? sure : sure + 1));
    if (growth.step % 2 == 0 && !out.endless && !whole_only) {
        const Tried half = growing.tried(growing.value(sure) + growth.step / 2);
        if (is_sure(half)) out.half = half;
    }
    const std::int64_t shown = std::max<std::int64_t>(1, sure);
    out.cover = growing.cover(possible(shown) ? growing.value(shown) : out.next.value);
    project::Project as_planned = project;
    out.unchanged = fit::follow_edgings(project, as_planned, growth.piece, size).unchanged;
    return out;
}

}  // namespace skeinfall::cover
