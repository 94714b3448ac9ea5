#pragma once
/// \file
/// What the fuzzers run on every input; the saved corpus runs through the same functions in the
/// ordinary tests. To add one: a function, a row in `entries`, a folder in corpus/.
///
/// An entry returns what rule an input broke, or nothing. A bad input must give InputError with
/// at least one problem that says something; any other exception is passed on.

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <unistd.h>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/exchange/pattern_project.hpp"
#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/exchange/stash_csv.hpp"
#include "skeinfall/exchange/stash_fields.hpp"
#include "skeinfall/exchange/stash_json.hpp"
#include "skeinfall/materials/lint.hpp"
#include "skeinfall/notation/document.hpp"
#include "skeinfall/notation/notation.hpp"
#include "skeinfall/store/care.hpp"
#include "skeinfall/store/store.hpp"
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
    return table(text, [](std::string_view sheet, const std::string& file) {
        return exchange::parse_stash_csv(sheet, file);
    });
}

inline Broken stash_json(std::string_view text) {
    return table(text, exchange::parse_stash_json);
}

/// A finished materials section that people changed.
inline Broken section(std::string_view text) {
    try {
        static_cast<void>(materials::title_of(text));
        if (!materials::looks_like_section(text)) return std::nullopt;
        for (const project::Finding& finding : materials::lint(text, "s"))
            if (finding.what.empty()) return "a finding that says nothing";
    } catch (const base::InputError& error) {
        return explains(error.problems());
    }
    return std::nullopt;
}

/// The bytes of a small stash, made once.
inline const std::string& good_stash(const std::filesystem::path& path) {
    static const std::string bytes = [&path] {
        {
            std::vector<stash::Skein> skeins(3);
            for (stash::Skein& skein : skeins) {
                skein.yarn.name = "Fern";
                skein.dye_lot = "7";
            }
            store::Store store = store::Store::open(path, store::Access::write);
            store.add(skeins, std::chrono::year{2024} / 5 / 31);
        }
        std::ifstream in(path, std::ios::binary);
        return std::string{std::istreambuf_iterator<char>(in), {}};
    }();
    return bytes;
}

/// A stash that was hurt: of each four bytes three say where and one what is put there; an odd
/// number of bytes cuts it at the last place. Whatever came of it opens or is refused with a way
/// out, reading changes nothing, and what rescue gives adds up.
inline Broken stash_file(std::string_view text) {
    namespace fs = std::filesystem;
    const char* const folder = std::getenv("TMPDIR");
    const fs::path path = fs::path(folder == nullptr ? "/tmp" : folder) /
                          ("skeinfall-fuzz-" + std::to_string(getpid()));
    std::string bytes = good_stash(path);
    std::size_t at = 0;
    for (std::size_t i = 0; i + 4 <= text.size(); i += 4) {
        at = 0;
        for (std::size_t k = 0; k < 3; ++k) at = at * 256 + static_cast<unsigned char>(text[i + k]);
        at %= bytes.size();
        bytes[at] = text[i + 3];
    }
    if (text.size() % 2 == 1) bytes.resize(at);
    std::ofstream(path, std::ios::binary | std::ios::trunc) << bytes;
    Broken out;
    try {
        const auto store = store::Store::open(path, store::Access::read);
        static_cast<void>(store.skeins());
        static_cast<void>(store.readings());
    } catch (const base::StoreError& error) {
        out = explains({error.problem()});
    }
    try {
        static_cast<void>(store::verify(path));
    } catch (const base::StoreError& error) {
        if (!out) out = explains({error.problem()});
    }
    try {
        const store::Tally tally = store::rescue(path).of_movements;
        if (tally.sound + tally.doubtful + tally.undone + tally.left_out + tally.lost !=
            tally.entered)
            out = "what was rescued does not add up";
    } catch (const base::StoreError& error) {
        if (!out) out = explains({error.problem()});
    }
    std::ifstream now(path, std::ios::binary);
    if (std::string{std::istreambuf_iterator<char>(now), {}} != bytes)
        out = "reading changed the file";
    for (const char* end : {"", "-wal", "-shm", "-journal"}) fs::remove(path.string() + end);
    return out;
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
    {"section", section},
    {"stash_file", stash_file},
});

}  // namespace skeinfall::fuzz
