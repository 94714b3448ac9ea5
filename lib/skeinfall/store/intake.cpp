#include "skeinfall/store/intake.hpp"

#include <algorithm>
#include <cstdint>
#include <utility>

#include <SQLiteCpp/Savepoint.h>

#include "skeinfall/base/name.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/stash/fields.hpp"
#include "skeinfall/stash/sheet.hpp"
#include "skeinfall/store/checked.hpp"
#include "skeinfall/store/rows.hpp"
#include "skeinfall/store/rules.hpp"

namespace skeinfall::store {
namespace {

using stash::Movement;
using stash::MovementKind;

constexpr std::size_t progress_every = 1000;

/// Asks for the movements that stand of one skein after the other.
class StandingMovements {
  public:
    explicit StandingMovements(const Connection& connection)
        : connection_(connection),
          rows_(connection.database(),
                select_movements() +
                    " WHERE told.skein = (SELECT number FROM skein WHERE id = ?) AND" +
                    that_stands + " ORDER BY told.number") {}

    std::vector<Movement> of(const std::string& id) {
        Values(rows_).add(id);
        std::vector<Movement> out;
        while (rows_.executeStep())
            out.push_back(told(Cells(rows_, connection_), connection_).movement);
        return out;
    }

  private:
    const Connection& connection_;
    SQLite::Statement rows_;
};

/// What two movements of one skein differ in; empty when they are alike.
std::string difference(const Movement& a, const Movement& b, bool days_count) {
    if (a.kind != b.kind)
        return std::string(word(a.kind)) + " stands against " + std::string(word(b.kind));
    if (days_count && a.day != b.day) return "the day";
    if (a.amount != b.amount || a.scale != b.scale || a.tare != b.tare) return "the amount";
    if (a.other != b.other) return "the skein at the other end";
    if (a.purpose != b.purpose) return "the purpose";
    if (a.role != b.role) return "the yarn of the project";
    if (a.note != b.note) return "the note";
    if (a.described == b.described) return {};
    if (!a.described || !b.described) return "the description";
    for (const stash::Field& field : stash::fields())
        if (!same(field, *a.described, *b.described)) return std::string(field.title);
    return "the description";
}

/// Where the lines of one skein stop agreeing with what is known of it.
struct Clash {
    std::size_t line = 0;
    std::string what;
};

/// Nothing when the lines are the first of what is known.
std::optional<Clash> clash(const stash::Lines& lines, Intake::OfSkein of_skein,
                           const std::vector<Movement>& known, bool days_count) {
    for (std::size_t i = 0; i < of_skein.size(); ++i) {
        const std::size_t line = of_skein[i].line;
        if (i == known.size()) return Clash{line, "the stash knows nothing of this yet"};
        const std::string differs = difference(known[i], lines[line].movement, days_count);
        if (!differs.empty()) return Clash{line, differs};
    }
    return std::nullopt;
}

/// A skein in a row of a sheet: it came, and may have been weighed, and that is all.
bool is_a_row(const stash::Lines& lines, Intake::OfSkein of_skein) {
    const auto kind = [&](std::size_t i) { return lines.kind_of(of_skein[i].line); };
    return kind(0) == MovementKind::bought &&
           (of_skein.size() == 1 || (of_skein.size() == 2 && kind(1) == MovementKind::weighed));
}

std::optional<measure::Weighing> weighing_in(const Movement& movement) {
    const auto* const mass =
        movement.amount ? std::get_if<units::Printed<units::Mass>>(&*movement.amount) : nullptr;
    if (movement.kind != MovementKind::weighed || mass == nullptr || !movement.scale)
        return std::nullopt;
    return measure::Weighing{*mass, *movement.scale, movement.tare};
}

stash::SheetRow row_of(const Movement& came, const Movement* weighed) {
    stash::SheetRow row{*came.described, came.day};
    if (weighed != nullptr) row.skein.weighing = weighing_in(*weighed);
    return row;
}

/// A description as a row of a sheet corrects it: an empty cell, or a column that the sheet lacks,
/// takes nothing away, and a part never becomes whole again.
stash::Skein corrected_by(const stash::Skein& row, stash::Skein was) {
    for (const stash::Field& field : stash::fields()) correct(field, was, row);
    return was;
}

/// Whether a row says nothing that its skein was not described by some time.
bool described_so(const stash::Skein& row, const std::vector<Movement>& known) {
    return std::any_of(known.begin(), known.end(), [&](const Movement& movement) {
        return movement.described &&
               stash::difference_of({*movement.described, {}},
                                    {corrected_by(row, *movement.described), {}})
                   .empty();
    });
}

/// The description that holds now; nothing when there is none.
const stash::Skein* description_in(const std::vector<Movement>& known) {
    const stash::Skein* out = nullptr;
    for (const Movement& movement : known)
        if (movement.described) out = &*movement.described;
    return out;
}

/// The same yarn, its name perhaps mended: two sheets may use one id for unlike skeins.
bool may_be_one_yarn(const std::string& name, const std::string& was) {
    return base::same_name(name, was) || base::nearest_name(name, {was}).has_value();
}

/// The same weighing as one that is known, or none at all.
bool weighed_so(const Movement& row, const std::vector<Movement>& known) {
    return std::any_of(known.begin(), known.end(), [&](const Movement& movement) {
        return movement.kind == MovementKind::weighed && weighing_in(movement) == weighing_in(row);
    });
}

/// What came into the stash and stands, with what it weighed when it came.
std::vector<stash::EarlierRow> rows_that_came(const Connection& connection) {
    SQLite::Statement rows(connection.database(),
                           select_movements() + " WHERE" + that_stands + " ORDER BY told.number");
    std::vector<stash::EarlierRow> out;
    std::map<std::string, std::size_t, std::less<>> of_skein;
    while (rows.executeStep()) {
        const Told one = told(Cells(rows, connection), connection);
        const Movement& movement = one.movement;
        if (movement.kind == MovementKind::bought && movement.described) {
            of_skein[movement.skein] = out.size();
            out.push_back(
                {row_of(movement, nullptr), movement.skein, static_cast<std::int64_t>(one.entry)});
        } else if (movement.kind == MovementKind::weighed) {
            const auto found = of_skein.find(movement.skein);
            if (found == of_skein.end() || out[found->second].entry != one.entry) continue;
            auto& weighing = out[found->second].row.skein.weighing;
            if (!weighing) weighing = weighing_in(movement);
        }
    }
    return out;
}

/// Compares the rows without an id with what came in before, and notes which lines add nothing.
void leave_what_came_before(const stash::Lines& lines, const TakeIn& how,
                            const Connection& connection, std::vector<bool>& leave, TakenIn& out) {
    const auto without_id = [&](std::size_t i, MovementKind kind) {
        return lines.kind_of(i) == kind && lines.skein_of(i).empty();
    };
    std::vector<std::size_t> begins_at;
    for (std::size_t i = 0; i < lines.size(); ++i)
        if (without_id(i, MovementKind::bought)) begins_at.push_back(i);
    if (begins_at.empty()) return;
    std::vector<stash::EarlierRow> earlier = rows_that_came(connection);
    if (earlier.empty()) return;
    std::set<std::string_view> named;
    for (std::size_t i = 0; i < lines.size(); ++i)
        if (!lines.skein_of(i).empty()) named.insert(lines.skein_of(i));
    std::vector<stash::SheetRow> sheet;
    sheet.reserve(begins_at.size());
    for (const std::size_t i : begins_at) {
        std::optional<Line> weighed;
        if (i + 1 < lines.size() && without_id(i + 1, MovementKind::weighed))
            weighed = lines[i + 1];
        sheet.push_back(row_of(lines[i].movement, weighed ? &weighed->movement : nullptr));
    }
    std::erase_if(earlier, [&](const stash::EarlierRow& row) { return named.contains(row.id); });
    const stash::SheetComparison found = stash::compare_sheet(sheet, earlier, how.days_stated);
    for (std::size_t i = 0; i < sheet.size(); ++i) {
        if (found.rows[i].is == stash::RowIs::fresh) continue;
        const stash::EarlierRow& before = earlier[found.rows[i].earlier];
        const std::size_t at = begins_at[i];
        leave[at] = true;
        if (sheet[i].skein.weighing) leave[at + 1] = true;
        if (found.rows[i].is == stash::RowIs::seen)
            out.seen.push_back(before.id);
        else
            out.reworded.push_back(
                {before.id, lines[at].place, stash::difference_of(sheet[i], before.row)});
    }
    for (const std::size_t i : found.gone) out.gone.push_back(earlier[i].id);
}

}  // namespace

Intake::Intake(const Connection& connection, const stash::Lines& lines, const TakeIn& how,
               const std::vector<stash::WorkReading>& readings)
    : connection_(connection),
      lines_(lines),
      how_(how),
      readings_(readings),
      refused_(lines.size(), false) {
    for (std::size_t i = 0; i < lines.size(); ++i)
        if (const std::string_view id = lines.skein_of(i); !id.empty()) named_.push_back({id, i});
    std::sort(named_.begin(), named_.end(), [](const Named& a, const Named& b) {
        return a.id != b.id ? a.id < b.id : a.line < b.line;
    });
}

TakenIn Intake::run(SQLite::Database& database) {
    while (true) {
        SQLite::Savepoint attempt(database, "attempt");
        TakenIn out = take(database);
        // Every round refuses a line more, or is the last.
        if (!how_.leave_out_faulty || !refuse_what_does_not_fit(database)) {
            attempt.release();
            out.left_out.insert(out.left_out.end(), problems_.begin(), problems_.end());
            return out;
        }
    }
}

TakenIn Intake::take(SQLite::Database& database) {
    TakenIn out;
    Recorder recorder(database, how_.entered);
    if (how_.leave_out_faulty) recorder.keep_lines_apart();
    leave_ = refused_;
    corrected_.clear();
    compare_with_known(recorder, out);
    if (!how_.as_new) leave_what_came_before(lines_, how_, connection_, leave_, out);
    take_lines(recorder, out);
    take_readings(recorder, out);
    if (how_.progress) how_.progress(lines_.size());
    if (how_.leave_out_faulty)
        out.left_out = recorder.problems();
    else
        recorder.throw_if_any();
    return out;
}

/// Of a skein whose id is in the stash nothing more is taken in, but what corrects its description.
void Intake::compare_with_known(Recorder& recorder, TakenIn& out) {
    SQLite::Statement any(connection_.database(), "SELECT 1 FROM skein WHERE number > 0 LIMIT 1");
    const bool begun = any.executeStep();
    StandingMovements standing(connection_);
    for (std::size_t at = 0; at < named_.size();) {
        const std::string_view id = named_[at].id;
        std::size_t end = at;
        while (end < named_.size() && named_[end].id == id) ++end;
        const OfSkein lines = OfSkein(named_).subspan(at, end - at);
        at = end;
        recorder.reserve(id);
        if (!begun) continue;
        const auto known = standing.of(std::string(id));
        if (!known.empty()) compare_skein(lines, known, recorder, out);
    }
}

void Intake::compare_skein(OfSkein lines, const std::vector<Movement>& known, Recorder& recorder,
                           TakenIn& out) {
    const std::string_view id = lines.front().id;
    const auto found = clash(lines_, lines, known, how_.days_stated);
    const stash::Skein* const now = description_in(known);
    if (found) {
        const Line first = lines_[lines.front().line];
        const auto& row = first.movement.described;
        if (is_a_row(lines_, lines) && now != nullptr && row &&
            may_be_one_yarn(row->yarn.name, now->yarn.name)) {
            if (!described_so(*row, known)) {
                Line line = first;
                line.movement.kind = MovementKind::corrected;
                line.movement.described = corrected_by(*row, *now);
                recorder.record(line);
                out.corrected.emplace_back(id);
                corrected_.insert(id);
            }
            if (lines.size() == 2 && !weighed_so(lines_[lines.back().line].movement, known))
                out.reweighed.emplace_back(id);
        } else {
            recorder.report(lines_[found->line],
                            "skein \"" + base::shown_inert(id) +
                                "\" is in the stash already, with other content: " + found->what,
                            "the same as in the stash, or an id that was never used",
                            "Mend the file, change the skein with a command of \"skeinfall "
                            "help\", or leave the id empty for another skein.");
        }
    }
    for (const Named& line : lines) leave_[line.line] = true;
}

void Intake::take_lines(Recorder& recorder, TakenIn& out) {
    std::string newest;  // a weighing in the row of its skein has no id either
    for (std::size_t i = 0; i < lines_.size(); ++i) {
        if (how_.progress && i % progress_every == 0) how_.progress(i);
        const std::string_view named = lines_.skein_of(i);
        const bool first = begins(lines_.kind_of(i));
        if (leave_[i]) {
            if (first && !named.empty() && !refused_[i] && !corrected_.contains(named))
                out.left_alone.emplace_back(named);
            continue;
        }
        if (first || !named.empty()) {
            const std::string id = recorder.record(lines_[i]);
            if (first) newest = id;
            if (first && !id.empty()) out.added.push_back(id);
        } else if (!newest.empty()) {
            Line line = lines_[i];
            line.movement.skein = newest;
            recorder.record(line);
        }
    }
}

void Intake::take_readings(Recorder& recorder, TakenIn& out) {
    if (readings_.empty()) return;
    std::multimap<std::int64_t, stash::WorkReading> known;
    for (stash::WorkReading& reading : standing_readings(connection_)) {
        const std::int64_t digest = digest_of(reading, std::nullopt);
        known.emplace(digest, std::move(reading));
    }
    for (const stash::WorkReading& reading : readings_) {
        const auto [from, to] = known.equal_range(digest_of(reading, std::nullopt));
        if (std::any_of(from, to, [&](const auto& one) { return one.second == reading; })) continue;
        recorder.record(reading);
        ++out.readings;
    }
}

/// What verify() would refuse of what was just taken in. True when there was something.
bool Intake::refuse_what_does_not_fit(SQLite::Database& database) {
    std::map<std::string, std::pair<std::string, std::set<MovementKind>>, std::less<>> faulty;
    for (const BrokenRule& broken : broken_rules(database)) {
        std::set<MovementKind> kinds;
        if (broken.rule == "yarn_wound_off_arrives_in_another_skein")
            kinds = {MovementKind::wound_off};
        else if (broken.rule.find("set_aside") != std::string::npos)
            kinds = {MovementKind::set_aside, MovementKind::released};
        faulty.try_emplace(broken.where, "it breaks the rule \"" + broken.in_words() + "\"", kinds);
    }
    for (const stash::Skein& skein : held_skeins(connection_))
        for (const std::string& fault : stash::faults(skein))
            faulty.try_emplace(skein.id, fault, std::set{MovementKind::weighed});
    bool any = false;
    for (const auto& [id, why] : faulty) any = refuse(id, why.first, why.second) || any;
    return any;
}

/// The lines of these kinds or, where that was done already, all lines of the skein.
bool Intake::refuse(const std::string& id, const std::string& why,
                    const std::set<MovementKind>& kinds) {
    const auto [from, to] =
        std::equal_range(named_.begin(), named_.end(), Named{id, 0},
                         [](const Named& a, const Named& b) { return a.id < b.id; });
    const OfSkein of_skein(from, to);
    const auto refuse_those = [&](const auto& which) {
        bool any = false;
        for (const Named& one : of_skein) {
            if (refused_[one.line] || !which(lines_.kind_of(one.line))) continue;
            refused_[one.line] = true;
            const Line line = lines_[one.line];
            const std::string name = line.name.empty() ? "skein \"" + id + "\"" : line.name;
            problems_.push_back({base::shown_inert(name) + ": " + why, line.place,
                                 "a skein that the stash can hold",
                                 "Correct it, then enter it again."});
            any = true;
        }
        return any;
    };
    return refuse_those([&](MovementKind kind) { return kinds.contains(kind); }) ||
           refuse_those([](MovementKind) { return true; });
}

}  // namespace skeinfall::store
