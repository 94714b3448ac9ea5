#pragma once
/// \file
/// What the fuzzers run on every input; the saved corpus runs through the same functions in the
/// ordinary tests. To add one: a function, a row in `entries`, a folder in corpus/.
///
/// An entry returns what rule an input broke, or nothing. A bad input must give InputError with
/// at least one problem that says something; any other exception is passed on.

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/exchange/pattern_project.hpp"
#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/exchange/stash_csv.hpp"
#include "skeinfall/exchange/stash_fields.hpp"
#include "skeinfall/exchange/stash_json.hpp"
#include "skeinfall/notation/document.hpp"
#include "skeinfall/notation/notation.hpp"
#include "skeinfall/units/parse.hpp"
#include "skeinfall/yarn/fibre.hpp"

namespace skeinfall::fuzz {

using Broken = std::optional<std::string>;

inline Broken explains(const base::Problems& problems) {
    if (problems.empty()) return "no problem in the error";
    for (const base::Problem& problem : problems)
        if (problem.what.empty()) return "a problem that says nothing";
    return std::nullopt;
}

inline Broken quantity(std::string_view text) {
    const auto judge = [text](const auto& result, const char* name) -> Broken {
        if (!result) {
            if (result.problem().place.column > text.size() + 1)
                return std::string(name) + ": the mistake stands behind the text";
            return explains({result.problem()});
        }
        return std::nullopt;
    };
    const auto positive = [](const auto& result, const char* name) -> Broken {
        if (result && !(std::isfinite(result->value()) && result->value() > 0.0))
            return std::string(name) + ": not above zero and finite";
        return std::nullopt;
    };
    const auto both = [&](const auto& result, const char* name) -> Broken {
        if (auto broken = judge(result, name)) return broken;
        return positive(result, name);
    };
    for (const Broken& broken :
         {both(units::parse_length(text), "length"), both(units::parse_mass(text), "mass"),
          both(units::parse_grist(text), "grist"),
          both(units::parse_stitch_gauge(text), "stitch gauge"),
          both(units::parse_row_gauge(text), "row gauge"),
          both(units::parse_yarn_per_stitch(text), "yarn per stitch"),
          both(units::parse_yarn_per_area(text), "yarn per area"),
          judge(units::parse_percent(text), "percent"), judge(units::parse_whole(text), "whole"),
          judge(exchange::parse_amount(text), "amount"), judge(base::parse_day(text), "day"),
          judge(yarn::parse_fibre_content(text), "fibre")})
        if (broken) return broken;
    return std::nullopt;
}

inline Broken project_toml(std::string_view text) {
    try {
        static_cast<void>(exchange::parse_project(text, "p"));
    } catch (const base::InputError& error) {
        return explains(error.problems());
    }
    return std::nullopt;
}

inline Broken notation(std::string_view text) {
    for (const project::Craft craft : {project::Craft::crochet, project::Craft::knit})
        for (const project::Terms terms : {project::Terms::us, project::Terms::uk}) {
            notation::NotationOptions options;
            options.craft = craft;
            options.terms = terms;
            options.round = !text.empty() && text.back() == 'r';
            const auto result = notation::work_rows(std::string(text), options);
            if (result.problems.empty()) continue;
            if (auto broken = explains(result.problems)) return broken;
        }
    return std::nullopt;
}

/// A pattern pasted whole: read as far as it goes, every line of it told once and within the text,
/// and what is saved of it is a project file that reads or explains.
inline Broken document(std::string_view text) {
    notation::DocumentOptions options;
    if (!text.empty() && text.back() == 'k') options.craft = project::Craft::knit;
    const notation::Document read = notation::read_document(text, options);
    const auto lines = 1 + static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n')) +
                       static_cast<std::size_t>(std::count(text.begin(), text.end(), '\r'));
    for (const notation::DocumentPart& part : read.parts)
        if (part.line < 1 || part.line > lines) return "a part stands outside the text";
    for (const notation::Section& section : read.sections) {
        if (section.rows_read > section.rows_lines) return "more lines read than there are";
        if (section.readings.size() != section.reading_lines.size())
            return "a reading without its line";
        for (const std::size_t line : section.reading_lines)
            if (line < 1 || line > lines) return "a row stands outside the text";
        for (const notation::RowReading& reading : section.readings)
            if (reading.state == notation::RowReading::State::unread && !reading.problem)
                return "a row that is not read without a reason";
    }
    return project_toml(exchange::project_of_pattern(read));
}

inline std::vector<stash::Movement> movements_of(const exchange::StashTable& table) {
    std::vector<stash::Movement> out;
    for (const stash::Line& line : table.lines) {
        out.push_back(line.movement);
        // As the store would give it.
        if (out.back().skein.empty()) out.back().skein = "given";
    }
    return out;
}

/// What was read, written and read again is the same, in both forms.
inline Broken stays_the_same(const exchange::StashTable& table) {
    bool twice = false;
    for (const stash::Line& line : table.lines)
        twice |= line.movement.skein.empty() || line.movement.skein == "given";
    if (twice) return std::nullopt;
    const auto movements = movements_of(table);
    const std::string csv = exchange::stash_csv(movements);
    const std::string json = exchange::stash_json(movements, table.readings);
    try {
        if (movements_of(exchange::parse_stash_csv(csv, "again")) != movements)
            return "CSV does not read back";
        const auto again = exchange::parse_stash_json(json, "again");
        if (movements_of(again) != movements || again.readings != table.readings)
            return "JSON does not read back";
    } catch (const base::InputError& error) {
        return std::string("what was written is refused: ") + error.what();
    }
    return std::nullopt;
}

template <class Parse>
Broken table(std::string_view text, Parse parse) {
    exchange::StashTable read;
    try {
        read = parse(text, std::string("t"));
    } catch (const base::InputError& error) {
        return explains(error.problems());
    }
    return stays_the_same(read);
}

inline Broken stash_csv(std::string_view text) {
    return table(text, exchange::parse_stash_csv);
}

inline Broken stash_json(std::string_view text) {
    return table(text, exchange::parse_stash_json);
}

struct Entry {
    std::string_view name;
    Broken (*run)(std::string_view);
};
inline constexpr auto entries = std::to_array<Entry>({
    {"quantity", quantity},
    {"notation", notation},
    {"document", document},
    {"project_toml", project_toml},
    {"stash_csv", stash_csv},
    {"stash_json", stash_json},
});

}  // namespace skeinfall::fuzz
