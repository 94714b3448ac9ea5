#include "skeinfall/notation/detail/readings.hpp"

#include <algorithm>
#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <tuple>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/words.hpp"

namespace skeinfall::notation {
namespace {

std::string_view why_code(SetAside::Why why) {
    switch (why) {
        case SetAside::Why::remark:
            return "remark";
        case SetAside::Why::finishing:
            return "finishing";
        case SetAside::Why::joining:
            return "joining";
        case SetAside::Why::place:
            return "place";
        case SetAside::Why::tool:
            return "tool";
    }
    return "remark";
}

}  // namespace

std::optional<std::int64_t> declared_of(const Body& body) {
    std::int64_t kinds = 0;
    for (const Declared& one : body.declared) {
        if (one.what == Declared::What::stitches) return one.count;
        if (one.what == Declared::What::other) return std::nullopt;
        if (one.what == Declared::What::kind) kinds += one.count;
    }
    return kinds > 0 ? std::optional<std::int64_t>(kinds) : std::nullopt;
}

namespace {

/// "Repeat row 2 until 40 sts": the rows that it takes count, and those behind come after them.
void number_all(std::vector<RowReading>& readings,
                const std::map<std::int64_t, std::int64_t>& more_rows) {
    for (RowReading& one : readings)
        if (one.apart.size() < 2 ||
            one.apart.back() - one.apart.front() + 1 == static_cast<std::int64_t>(one.apart.size()))
            one.apart.clear();
    if (more_rows.empty()) return;
    const auto more = [&](std::int64_t before) {
        std::int64_t sum = 0;
        for (const auto& [row, count] : more_rows)
            if (row < before) sum += count;
        return sum;
    };
    for (RowReading& one : readings) {
        const std::int64_t first = one.first_row + more(one.first_row);
        if (one.rows > 0) one.rows += more(one.first_row + one.rows) - more(one.first_row);
        one.first_row = first;
        for (std::int64_t& row : one.apart) row += more(row);
    }
}

/// The first of the rows of a repeat whose words are not read; 0 where all are.
std::int64_t lost_row(const Pattern& pattern, const NotationOptions& options,
                      const std::vector<Told>& all, const RowReading& repeat) {
    if (options.craft != Craft::crochet) return 0;
    for (std::int64_t row = repeat.first_row; row < repeat.first_row + repeat.rows; ++row) {
        if (row < 0 || row >= static_cast<std::int64_t>(pattern.slots.size())) break;
        const std::int64_t written = pattern.slots[static_cast<std::size_t>(row)].written;
        if (written < 0 || written >= static_cast<std::int64_t>(all.size())) continue;
        const Told& told = all[static_cast<std::size_t>(written)];
        if (told.state == State::unread || told.state == State::adrift) return told.first_row;
    }
    return 0;
}

}  // namespace

std::vector<RowReading> readings_of(const Pattern& pattern, const NotationOptions& options,
                                    const StitchBook& book, units::StitchCount foundation,
                                    std::vector<Told> all,
                                    const std::map<std::int64_t, std::int64_t>& made,
                                    const FindingsOfLine& told_behind,
                                    const std::map<std::int64_t, Finding>& stuck,
                                    const std::map<std::int64_t, std::int64_t>& more_rows) {
    std::vector<RowReading> out;
    for (std::size_t i = 0; i < pattern.written.size(); ++i) {
        const Written& written = pattern.written[i];
        if (written.silent) continue;
        Told& told = all[i];
        RowReading one;
        one.entry = written.entry;
        one.at = written.base;
        one.words = written.text;
        one.first_row = told.first_row;
        one.rows = told.rows;
        one.apart = std::move(told.apart);
        one.state = told.state;
        const bool makes_base = std::find(pattern.foundation.begin(), pattern.foundation.end(),
                                          static_cast<std::int64_t>(i)) != pattern.foundation.end();
        if (makes_base) {
            if (one.state != State::disagrees) one.state = State::foundation;
            one.stitches = foundation;
            if (written.fault) {
                one.state = State::unread;
                one.problem =
                    base::Problem{written.fault->what,
                                  options.locate(written.entry, written.base + written.fault->at),
                                  written.fault->expected, written.fault->remedy};
            }
        }
        if (told.made) one.stitches = static_cast<double>(*told.made) * units::stitch;
        if (const auto declared = declared_of(written.body))
            one.declared = static_cast<double>(*declared) * units::stitch;
        one.kinds = std::move(told.kinds);
        one.colours = std::move(told.colours);
        one.findings = std::move(told.findings);
        if (told.problem) one.problem = std::move(told.problem);
        one.proposal = std::move(told.proposal);
        for (const RowFinding& note : written.told) {
            one.findings.push_back({note.severity,
                                    options.locate(written.entry, written.base + note.at),
                                    note.what, note.remedy});
            if (note.severity == Severity::stop && one.state == State::read)
                one.state = State::disagrees;
        }
        for (const UnknownName& unknown : written.body.unknown)
            if (one.state == State::read || one.state == State::two_ways ||
                one.state == State::disagrees || makes_base) {
                one.state = State::unread;
                const auto near = base::nearest_name(unknown.name, book.names());
                one.problem = base::Problem{
                    fmt::format("\"{}\" is no known abbreviation", base::shown_inert(unknown.name)),
                    options.locate(written.entry, written.base + unknown.at),
                    "stitches of the trade or of the pattern's own list",
                    near ? fmt::format("Did you mean \"{}\"?", *near)
                    : has_role(unknown.name, Role::group)
                        ? fmt::format(
                              "Say above the rows what it is, like: {} = (2 dc, ch 1, 2 dc) "
                              "in next st.",
                              base::shown_inert(unknown.name))
                        : ""};
            }
        for (const SetAside& aside : written.body.aside)
            one.aside.push_back({aside.words, std::string(why_code(aside.why))});
        // Rows told by their edges are two kinds of rows in one line.
        if (i > 0 && pattern.written[i - 1].entry == written.entry &&
            pattern.written[i - 1].base == written.base && !out.empty() && told.rows > 0) {
            RowReading& before = out.back();
            const bool behind = one.first_row == before.first_row + before.rows;
            before.first_row = std::min(before.first_row, one.first_row);
            before.rows += one.rows;
            before.apart.clear();
            if (behind) before.stitches = one.stitches;
            if (one.state != State::read) before.state = one.state;
            continue;
        }
        out.push_back(std::move(one));
    }
    for (const Other& other : pattern.others) {
        RowReading one;
        one.entry = other.entry;
        one.at = other.base;
        one.words = other.text;
        one.first_row = other.first_row;
        one.rows = other.rows;
        one.apart = other.apart;
        if (!one.apart.empty()) {
            one.first_row = one.apart.front();
            one.rows = static_cast<std::int64_t>(one.apart.size());
        }
        const auto held_up = stuck.lower_bound(other.first_row);
        if (held_up != stuck.end() && held_up->first < other.first_row + other.rows) {
            one.findings.push_back(held_up->second);
            one.state = State::disagrees;
        }
        if (const auto last = made.find(other.first_row + other.rows - 1);
            other.rows > 0 && last != made.end())
            one.stitches = static_cast<double>(last->second) * units::stitch;
        for (const RowFinding& note : other.told)
            one.findings.push_back({note.severity,
                                    options.locate(other.entry, other.base + note.at), note.what,
                                    note.remedy});
        if (const auto told = told_behind.find({other.entry, other.base});
            told != told_behind.end() && other.rows > 0)
            for (const Finding& finding : told->second) {
                one.findings.push_back(finding);
                if (finding.severity == Severity::stop) one.state = State::disagrees;
            }
        if (other.fault) {
            one.state = State::unread;
            one.problem = base::Problem{other.fault->what,
                                        options.locate(other.entry, other.base + other.fault->at),
                                        other.fault->expected, other.fault->remedy};
        } else if (other.problem) {
            one.state = State::unread;
            one.problem = other.problem;
        } else if (other.rows == 0) {
            one.aside.push_back({other.text, "remark"});
        } else if (const auto row = lost_row(pattern, options, all, one); row > 0) {
            one.state = State::adrift;
            one.problem =
                base::Problem{fmt::format("it repeats row {}, which could not be followed", row),
                              options.locate(other.entry, other.base), "rows that are read",
                              "Mend that row first."};
        }
        for (const SetAside& aside : other.aside)
            if (other.rows > 0)
                one.aside.push_back({aside.words, std::string(why_code(aside.why))});
        out.push_back(std::move(one));
    }
    number_all(out, more_rows);
    std::stable_sort(out.begin(), out.end(), [](const RowReading& a, const RowReading& b) {
        return std::tie(a.entry, a.at) < std::tie(b.entry, b.at);
    });
    return out;
}

}  // namespace skeinfall::notation
