#include "skeinfall/need/need.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <map>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "skeinfall/need/detail/contradicting_rows.hpp"
#include "skeinfall/need/detail/denied_sizes.hpp"
#include "skeinfall/need/detail/evidence.hpp"
#include "skeinfall/need/detail/finish_check.hpp"
#include "skeinfall/need/detail/held_with.hpp"
#include "skeinfall/need/detail/kind_weights.hpp"
#include "skeinfall/need/detail/wound_off.hpp"
#include "skeinfall/need/plausible.hpp"
#include "skeinfall/need/rate.hpp"
#include "skeinfall/need/reckoning.hpp"
#include "skeinfall/need/testers.hpp"
#include "skeinfall/need/unknown_stitches.hpp"
#include "skeinfall/project/whole.hpp"
#include "skeinfall/units/format.hpp"

namespace skeinfall::need {
namespace {

using units::Length;
using units::Ratio;

/// Yarn with the rate of its role still to be put in: so many stitches, or a length outright.
struct Draft {
    Step step;
    double stitches = 0.0;
    double as_counted = 0.0;    ///< of a row: before the worse reading of its piece's size
    bool beyond_total = false;  ///< a stated total does not hold it
};

/// Whether a yarn that rests for some rows, so high, can be led up the edge to its next row.
bool can_be_carried(const project::Piece& piece, std::int64_t rows_between, Length height) {
    // Worked flat, a resting yarn waits at the right edge only after an even number of rows.
    const bool at_hand = piece.worked == project::Worked::round || rows_between % 2 == 0;
    return at_hand && height <= piece.carry_at_most.value_or(usual::carry_at_most);
}

class Drafting {
  public:
    Drafting(const project::Project& project, std::size_t size)
        : project_(project),
          size_(size),
          rows_(project::row_sequence(project, size)),
          worse_(worse_sizes(project, size)),
          weights_(project, rows_) {}

    void run() {
        const std::vector<project::Row>& rows = rows_;
        std::size_t main = 0;  // the first yarn of the row being worked
        for (std::size_t i = 0; i < rows.size(); ++i) {
            const bool first =
                i == 0 || rows[i - 1].piece != rows[i].piece || rows[i - 1].copy != rows[i].copy;
            const bool last = i + 1 == rows.size() || rows[i + 1].piece != rows[i].piece ||
                              rows[i + 1].copy != rows[i].copy;
            if (first) begin_piece(rows[i]);
            if (!rows[i].beside) main = i;
            add_row(rows[i]);
            const bool goes_on = i + 1 < rows.size() && continues(rows[i + 1].piece);
            if (last && !goes_on) end_piece(rows[main]);
        }
        for (const project::FinishPart& part : project_.finish) add_finish(part);
    }

    [[nodiscard]] const std::vector<Draft>& drafts() const { return drafts_; }
    [[nodiscard]] std::vector<Change>& changes() { return changes_; }
    /// Before run(): the role's kinds weigh what its swatches say.
    void teach(const std::string& role, Rate& rate) {
        if (rate.calibration) rate.per_stitch = weights_.teach(role, *rate.calibration);
    }
    [[nodiscard]] KindWeights::Spread kinds_spread(const std::string& role) {
        return weights_.spread(rows_, role);
    }
    [[nodiscard]] RoleSize size_of(const std::string& role) const {
        RoleSize out;
        for (const project::Row& row : rows_) {
            if (row.role != role) continue;
            out.copies = std::max(out.copies, row.copy);
            const project::Gauge& gauge = gauge_of(project_, project_.pieces[row.piece]);
            const units::StitchCount stitches = row.stitches * times_of(row.piece);
            out.stitches += stitches;
            out.area += stitches / gauge.stitches * (1.0 * units::row / gauge.rows);
        }
        if (out.area > units::Area{}) return out;
        // A yarn of edgings alone: a fabric like the make's.
        for (const Draft& draft : drafts_) {
            if (draft.step.role != role) continue;
            const units::StitchCount stitches = draft.stitches * units::stitch;
            out.stitches += stitches;
            out.area +=
                stitches / project_.gauge.stitches * (1.0 * units::row / project_.gauge.rows);
        }
        return out;
    }
    /// Width of plain rows as the make has them; see YarnOverWidth.
    [[nodiscard]] PlainRows plain(const std::string& role) const {
        return plain_rows(project_, rows_, role);
    }
    [[nodiscard]] std::int64_t runs(const std::string& role) const {
        const auto found = runs_.find(role);
        return found == runs_.end() ? 0 : found->second;
    }

  private:
    [[nodiscard]] double times_of(std::size_t piece) const {
        return worse_[piece].rows * worse_[piece].across;
    }

    /// Without a foundation a piece goes on from the live stitches of the one before.
    [[nodiscard]] bool continues(std::size_t piece) const {
        const auto& foundation = project_.pieces[piece].foundation_rows;
        return foundation && foundation->value() == 0.0;
    }

    void begin_piece(const project::Row& row) {
        const project::Piece& piece = project_.pieces[row.piece];
        const bool goes_on = continues(row.piece) && last_row_.contains(row.role);
        last_row_.clear();
        if (goes_on) last_row_[row.role] = row.number - 1;
        const Ratio usual_rows = project_.craft == project::Craft::crochet
                                     ? usual::foundation_chain_rows
                                     : usual::cast_on_rows;
        add_in_rows(row, Purpose::foundation, piece.foundation_rows.value_or(usual_rows), 0,
                    foundation_of(row));
    }

    /// Stitches of the foundation: in crochet the chains that are written, else those of the row.
    [[nodiscard]] units::StitchCount foundation_of(const project::Row& row) const {
        const project::Piece& piece = project_.pieces[row.piece];
        if (project_.craft != project::Craft::crochet || piece.foundation_rows ||
            !piece.pattern.stated())
            return row.width;
        const project::WorkedRows& rows = piece.pattern.at(size_);
        units::StitchCount chains{};
        // A piece that is only a chain has it for its one row.
        if (rows.rows() == 1 && rows.row(1) == rows.foundation) return {};
        for (const project::KindCount& part : rows.foundation.kinds)
            if (part.kind == "ch") chains += part.count;
        if (chains.value() > 0.0) return chains;
        return rows.foundation_text.empty() ? row.width : usual::ring_chains;
    }

    void end_piece(const project::Row& row) {
        // Crochet has no live stitches to bind off.
        const Ratio usual_rows =
            project_.craft == project::Craft::knit ? usual::bind_off_rows : Ratio(0.0);
        add_in_rows(row, Purpose::bind_off,
                    project_.pieces[row.piece].bind_off_rows.value_or(usual_rows), row.number,
                    row.width);
    }

    /// So many rows of `stitches`.
    void add_in_rows(const project::Row& row, Purpose purpose, Ratio rows, std::int64_t number,
                     units::StitchCount stitches) {
        if (rows.value() == 0.0 || stitches.value() == 0.0) return;
        Draft draft;
        draft.step = {purpose, row.role, row.piece, row.copy, number, {}, {}};
        draft.stitches = rows * (stitches / units::stitch) * worse_[row.piece].across;
        drafts_.push_back(draft);
    }

    void add_row(const project::Row& row) {
        const auto before = last_row_.find(row.role);
        const bool known = before != last_row_.end();
        const std::int64_t between = known ? row.number - before->second - 1 : 0;
        if (!known || between > 0) begin_rows(row, known ? before->second : 0, between);
        last_row_[row.role] = row.number;
        runs_[row.role] += row.begun;
        if (row.carried.value() > 0.0) {
            const Length width =
                row.carried / gauge_of(project_, project_.pieces[row.piece]).stitches;
            Draft floats;
            floats.step = {Purpose::carried,          row.role, row.piece, row.copy, row.number, {},
                           width * usual::float_slack};
            drafts_.push_back(floats);
        }
        Draft draft;
        draft.step = {Purpose::body, row.role, row.piece, row.copy, row.number, {}, {}};
        draft.as_counted = weights_.of(row) / units::stitch;
        draft.stitches = draft.as_counted * times_of(row.piece);
        const project::Role* const of = project_.role(row.role);
        draft.beyond_total = of != nullptr && of->total_for &&
                             static_cast<double>(row.number) > of->total_for->value();
        drafts_.push_back(draft);
    }

    /// A yarn that was not in the row below: carried up to this one, or begun anew.
    void begin_rows(const project::Row& row, std::int64_t last_used, std::int64_t between) {
        const project::Piece& piece = project_.pieces[row.piece];
        Change change;
        change.role = row.role;
        change.piece = row.piece;
        change.copy = row.copy;
        change.row = row.number;
        change.last_used = last_used;
        change.right_edge = piece.worked == project::Worked::round || row.number % 2 == 1;
        const Length height =
            static_cast<double>(between) * units::row / gauge_of(project_, piece).rows;
        change.carried = last_used > 0 && can_be_carried(piece, between, height);
        if (change.carried) {
            change.strand = height * usual::carry_slack;
            Draft carried;
            carried.step = {Purpose::carried, row.role, row.piece,    row.copy,
                            row.number,       {},       change.strand};
            drafts_.push_back(carried);
        } else {
            ++runs_[row.role];
        }
        if (!piece.stripes.empty()) changes_.push_back(std::move(change));
    }

    void add_finish(const project::FinishPart& part) {
        static constexpr std::array purposes{Purpose::border,  Purpose::neckband, Purpose::seam,
                                             Purpose::joining, Purpose::fringe,   Purpose::tassel,
                                             Purpose::pompom,  Purpose::swatch,   Purpose::other};
        Draft draft;
        draft.step.purpose = purposes.at(static_cast<std::size_t>(part.kind));
        draft.step.role = part.role;
        draft.step.name = part.name;
        draft.beyond_total = part.beyond_total;
        const project::Role* const of = project_.role(part.role);
        const bool in_total = of != nullptr && of->states_total() && !part.beyond_total;
        const double more =
            in_total ? 0.0 : double{border_at_worst(project_, part, size_) / units::stitch};
        for (const project::FinishStep& step : project::finish_steps(project_, part, size_)) {
            // A bind-off goes with the last round.
            const bool next_copy = step.copy > draft.step.copy;
            if ((step.round > 1 || next_copy) && !step.bind_off) {
                drafts_.push_back(draft);
                draft.step.yarn = {};
                draft.stitches = 0.0;
                runs_[part.role] += next_copy ? 1 : 0;
            }
            draft.step.copy = step.copy;
            draft.step.row = part.rounds.at(size_) > 1 ? step.round : 0;
            draft.step.yarn += step.yarn;
            draft.stitches += step.stitches / units::stitch +
                              more * (step.bind_off ? part.bind_off_rows->value() : 1.0);
        }
        drafts_.push_back(draft);
        // A border goes on with the working yarn; a seam or a fringe starts with its own end.
        if (part.kind != project::PartKind::border || runs_[part.role] == 0) ++runs_[part.role];
    }

    const project::Project& project_;
    std::size_t size_;
    std::vector<project::Row> rows_;
    std::vector<WorseSize> worse_;
    KindWeights weights_;
    std::vector<Draft> drafts_;
    std::vector<Change> changes_;
    std::map<std::string, std::int64_t> runs_;
    std::map<std::string, std::int64_t> last_row_;  // of each role in the piece being worked
};

RoleNeed begin_need(const project::Role& role, const Rate& rate) {
    RoleNeed need;
    need.role = role.id;
    need.source = rate.source;
    need.how = rate.how;
    need.by_mass = rate.by_mass;
    need.grist = rate.grist;
    need.shared = rate.shared;
    need.may_be_less = rate.may_be_less;
    need.calibration = rate.calibration;
    need.causes = rate.causes;
    need.notes = rate.notes;
    need.cautions = rate.cautions;
    need.stated_between = rate.stated_between;
    return need;
}

/// Two ends for every run but one: those of the first come with the first skein.
Length tails_of(const RoleNeed& need, const project::Project& project) {
    return 2.0 * static_cast<double>(need.runs - 1) * project.tail;
}

/// Sums the role's steps by purpose and puts the band on the sum.
void sum_up(RoleNeed& need, const std::vector<Step>& steps, Length tails) {
    std::map<Purpose, Length> by_purpose;
    for (const Step& step : steps)
        if (step.role == need.role) by_purpose[step.purpose] += step.yarn;
    by_purpose[Purpose::tails] += tails;
    for (const auto& [purpose, yarn] : by_purpose) {
        if (yarn.value() == 0.0) continue;
        need.parts.push_back({purpose, yarn});
        need.length.centre += yarn;
    }
    need.length.spread =
        need.length.centre * std::hypot(combined(need.causes).value(), need.shared.value());
}

}  // namespace

std::string_view name_of(Purpose purpose) {
    static constexpr std::array<std::string_view, 14> names{
        "body",   "foundation", "bind-off", "border", "neckband", "seams",   "joining",
        "fringe", "tassels",    "pompoms",  "swatch", "other",    "carried", "tails"};
    return names.at(static_cast<std::size_t>(purpose));
}

measure::Estimate<Length> RoleNeed::without_shared() const {
    return {length.centre, length.centre * combined(causes)};
}

RoleNeed stated_need(Length length) {
    RoleNeed need;
    need.source = Source::stated_total;
    need.how = "as stated";
    need.causes = {{"a total stated by someone else", usual::stated_total,
                    "Work a swatch in this yarn and weigh it."}};
    need.parts = {{Purpose::body, length}};
    need.length = {length, length * usual::stated_total};
    return need;
}

namespace {

/// Stitches of a role that follow its rate, and yarn that does not.
struct Amounts {
    double stitches = 0.0;
    double body = 0.0;  ///< of them, rows with their foundation and bind-off
    double laid = 0.0;  ///< of `body`, rows alone
    double rows = 0.0;  ///< rows alone, as they are counted
    Length outright{};
    double beyond = 0.0;  ///< of the stitches, what a stated total does not hold ...
    Length outright_beyond{};

    /// Fringes and tassels alone, and nobody says what the yarn takes.
    [[nodiscard]] bool only_cut(const project::Role& role) const {
        return !(stitches > 0.0) && outright > Length{} && !role.states_total() && !role.rate &&
               !role.area_rate;
    }
};

Amounts amounts_of(const std::string& role, const std::vector<Draft>& drafts, Length tails) {
    Amounts out;
    out.outright = tails;
    for (const Draft& draft : drafts) {
        if (draft.step.role != role) continue;
        const Purpose purpose = draft.step.purpose;
        out.outright += draft.step.yarn;
        out.stitches += draft.stitches;
        if (purpose == Purpose::body || purpose == Purpose::foundation ||
            purpose == Purpose::bind_off)
            out.body += draft.stitches;
        if (purpose == Purpose::body) out.laid += draft.stitches;
        out.rows += draft.as_counted;
        if (!draft.beyond_total) continue;
        out.beyond += draft.stitches;
        out.outright_beyond += draft.step.yarn;
    }
    return out;
}

/// Everything that tells the role's yarn; at least one.
std::vector<Rate> rates_of(const project::Project& project, const project::Role& role,
                           std::size_t size, const RoleSize& worked,
                           const std::map<std::string, Rate>& swatched,
                           const std::map<std::string, Rate>& returns) {
    std::vector<Rate> out;
    const auto measured = swatched.find(role.id);
    if (measured != swatched.end()) out.push_back(measured->second);
    if (const auto told = returns.find(role.id); told != returns.end()) out.push_back(told->second);
    for (Rate& rate : other_rates(project, role, size, worked, !out.empty()))
        out.push_back(std::move(rate));
    if (out.empty()) throw base::InputError(nothing_known(project, role));
    return out;
}

/// What remains of a known whole once all that is known outright is off.
Length rest_of(const project::Project& project, Length whole, const std::string& role,
               Length outright) {
    constexpr Length noise = 1e-9 * units::metre;
    const Length rest = whole - outright;
    if (rest < -noise)
        throw base::InputError(base::Problem{
            "the finishing parts and ends of yarn " + role + " take more than its stated total",
            project.place("yarn." + role, "total"), "a total that holds the whole make",
            "Raise total in [yarn." + role +
                "], lower the finishing parts, or say beyond_total = true in those "
                "that it does not hold."});
    return std::max(rest, Length{});
}

/// Yarn per stitch by one rate; nothing where the role has no stitches to share it over.
std::optional<Length> per_stitch_of(const project::Project& project, const Rate& rate,
                                    const std::string& role, const Amounts& amounts) {
    if (rate.per_stitch) return *rate.per_stitch * units::stitch;
    if (rate.body) {
        if (!(amounts.stitches > 0.0)) return std::nullopt;
        if (!(amounts.body > 0.0)) return *rate.body / amounts.stitches;
        // What an area took had the edges of an ordinary make; a few rows have no less of a row.
        const double held =
            rate.by_area && amounts.laid > 0.0
                ? std::min(amounts.body, amounts.laid / usual::rows_of_an_area.value())
                : amounts.body;
        return *rate.body / held;
    }
    // What is known outright comes off the total; the rest is shared over the stitches it holds.
    const Length rest =
        rest_of(project, *rate.whole, role, amounts.outright - amounts.outright_beyond);
    const double held = amounts.stitches - amounts.beyond;
    if (!(held > 0.0)) return std::nullopt;
    return rest / held;
}

/// A range is stated of what its total holds; the need has what lies beyond as well.
void add_what_is_beyond(RoleNeed& need, const Amounts& amounts) {
    const double held = amounts.stitches - amounts.beyond;
    if (!need.stated_between || !(held > 0.0)) return;
    const Length known = amounts.outright - amounts.outright_beyond;
    for (Length* end : {&need.stated_between->least, &need.stated_between->most})
        *end = std::max(Length{}, *end - known) / held * amounts.stitches + amounts.outright;
}

void add_kinds_spread(const KindWeights::Spread& spread, Rate& rate) {
    if (!rate.per_stitch) return;
    if (spread.told.value() > 0.0)
        rate.causes.push_back({"how well the swatches show each kind of stitch", spread.told,
                               "Weigh larger swatches, each mostly of one kind."});
    if (spread.model.value() > 0.0)
        rate.causes.push_back({"stitches of other kinds, weighed by a model", spread.model,
                               "Weigh a swatch of each kind of stitch."});
}

/// A swatch of its own says how much of it goes into the stitches of its partner. The two are
/// worked up alike, so that where it says more, beyond what both may be off by, the larger counts.
void hold_against_own_swatch(const Rate& own, const Amounts& partner, RoleNeed& need,
                             Length& rest) {
    if (!own.per_stitch || !(partner.stitches > 0.0) || !(rest > Length{})) return;
    const Length says = partner.outright + partner.stitches * (*own.per_stitch * units::stitch);
    const double spread = std::hypot(combined(own.causes).value(), own.shared.value());
    need.passed_over.push_back({own.short_name, says, Ratio(spread)});
    const double band = std::hypot(spread, combined(need.causes).value());
    if (std::abs(std::log(says / rest)) < discord_limit.value() * band) return;
    need.cautions.push_back(fmt::format(
        "{} says {} of it, and held together it is as long as its partner, {}; the larger counts. "
        "Check both",
        own.short_name, units::yards_and_metres(says, units::Rounding::nearest),
        units::yards_and_metres(rest, units::Rounding::nearest)));
    need.notes.push_back(need.cautions.back());
    if (says < rest) return;
    rest = says;
    need.source = own.source;
    need.how = own.how;
    need.causes = own.causes;
    need.causes.push_back(
        {"its length per weight", own.shared, "Measure 10 yd of the yarn and weigh it."});
}

}  // namespace

MakeNeed need_of(const project::Project& project, std::size_t size) {
    base::Problems lacking = project::lacking(project);
    if (lacking.empty() && size >= project.size_count())
        lacking.push_back({"the project has no such size",
                           project.place("sizes"),
                           fmt::format("an index below {}", project.size_count()),
                           {}});
    if (lacking.empty()) lacking = problems_of_unknown_stitches(project, size);
    if (!lacking.empty()) throw base::InputError(std::move(lacking));
    const std::map<std::string, Rate> returns = rates_of_returns(project, size);
    Drafting drafting(project, size);
    std::map<std::string, Rate> swatched;
    for (const project::Role& role : project.roles)
        if (auto rate = swatch_rate(project, role)) {
            Rate& kept = swatched.emplace(role.id, std::move(*rate)).first->second;
            drafting.teach(role.id, kept);
        }
    drafting.run();

    MakeNeed make;
    make.size = size;
    make.changes = std::move(drafting.changes());
    std::map<std::string, Length> per_stitch;
    std::map<std::string, Length> unplaced;  // of a total that has no stitches to be shared over
    for (const project::Role& role : project.roles) {
        const std::int64_t runs = drafting.runs(role.id);
        auto total = runs == 0 ? stated_total_of(project, role, size) : std::nullopt;
        // A role that no piece uses and no total mentions takes nothing, but for one held with
        // another.
        if (runs == 0 && !total && role.held_with.empty()) continue;
        Told told;  // what tells the role, and its stitches
        Amounts amounts = amounts_of(role.id, drafting.drafts(), {});
        const bool cut = runs > 0 && !swatched.contains(role.id) && amounts.only_cut(role);
        if (total)
            told.rates.push_back(std::move(*total));
        else if (cut)
            told.rates.push_back(cut_lengths(role));
        else if (runs > 0)
            told.rates =
                rates_of(project, role, size, drafting.size_of(role.id), swatched, returns);
        RoleNeed need = told.rates.empty() ? RoleNeed{} : begin_need(role, told.rates.front());
        need.role = role.id;
        if (!need.grist && role.grist) need.grist = role.grist->value;
        need.runs = std::max<std::int64_t>(1, runs);
        if (runs > 0 && !role.says_which())
            need.implied = project::implied_grist(project::fabric_of(project, role));
        note_contradictions(project, role.id, size, need.notes);
        amounts = amounts_of(role.id, drafting.drafts(), tails_of(need, project));
        if (cut) told.rates.front().whole = amounts.outright;
        for (Rate& rate : told.rates) add_kinds_spread(drafting.kinds_spread(role.id), rate);
        std::vector<std::optional<Length>> each;
        for (const Rate& rate : told.rates)
            each.push_back(per_stitch_of(project, rate, role.id, amounts));
        if (told.rates.size() == 1) {
            need.causes = told.rates.front().causes;  // with those of its kinds
            add_own_hand(need, told.rates);
            if (each.front())
                per_stitch[role.id] = *each.front();
            else if (told.rates.front().whole)
                unplaced[role.id] =
                    rest_of(project, *told.rates.front().whole, role.id, amounts.outright);
        } else if (!told.rates.empty()) {
            need.notes.clear();
            need.cautions.clear();
            note_contradictions(project, role.id, size, need.notes);
            for (std::size_t i = told.rates.size(); i-- > 0;)
                if (!each[i] || !(*each[i] > Length{})) {
                    told.rates.erase(told.rates.begin() + static_cast<std::ptrdiff_t>(i));
                    each.erase(each.begin() + static_cast<std::ptrdiff_t>(i));
                }
            for (const auto& one : each)
                told.yarn.push_back(amounts.outright + amounts.stitches * *one);
            leave_pattern_alone(told);
            const Length all = reckon(need, told);
            per_stitch[role.id] =
                told.rates.size() == 1 && each.front()
                    ? *each.front()
                    : std::max(Length{}, Length((all - amounts.outright) / amounts.stitches));
        }
        add_what_is_beyond(need, amounts);
        if (const PlainRows plain = drafting.plain(role.id);
            plain.width > Length{} && !role.metre_is_a_gram) {
            Ratio times(amounts.rows * per_stitch[role.id] / plain.width /
                        static_cast<double>(strands_of(project, role)));
            if (project.gauge.laid_out) times = with_gauge_open(times, project);
            need.plain_rows = {times, times, plain.all_known};
        }
        if (runs == 0) follow_partner(project, make, need, unplaced[role.id]);
        if (const auto own = swatched.find(role.id);
            runs == 0 && !role.held_with.empty() && own != swatched.end())
            hold_against_own_swatch(own->second, amounts_of(role.held_with, drafting.drafts(), {}),
                                    need, unplaced[role.id]);
        if (told.rates.empty() && !(unplaced[role.id] > Length{})) continue;
        make.roles.push_back(std::move(need));
        // What a partner's length is told by has to be known before it is asked for.
        if (runs > 0) {
            RoleNeed& kept = make.roles.back();
            kept.length.centre =
                amounts.outright + amounts.stitches * per_stitch[role.id] + unplaced[role.id];
        }
    }
    for (RoleNeed& need : make.roles) need.length = {};

    for (const Draft& draft : drafting.drafts()) {
        Step step = draft.step;
        if (draft.stitches > 0.0) step.yarn = draft.stitches * per_stitch[step.role];
        make.steps.push_back(std::move(step));
    }
    const std::map<std::string, Length> wound_off = wind_off_between_pieces(project, make.steps);
    for (RoleNeed& need : make.roles) {
        if (const auto off = wound_off.find(need.role); off != wound_off.end()) {
            for (Evidence& one : need.evidence) one.yarn += off->second;
            for (PassedOver& one : need.passed_over) one.yarn += off->second;
        }
        if (const Length rest = unplaced[need.role]; rest > Length{}) {
            Step whole;
            whole.role = need.role;
            whole.name = "the make";
            whole.purpose = Purpose::body;
            whole.yarn = rest;
            make.steps.push_back(std::move(whole));
        }
        sum_up(need, make.steps, tails_of(need, project));
        if (need.evidence.empty())
            need.evidence.push_back({need.source,
                                     {},
                                     need.length.centre,
                                     need.length.relative(),
                                     Ratio(1.0),
                                     Ratio(0.0),
                                     false});
    }
    return make;
}

}  // namespace skeinfall::need
