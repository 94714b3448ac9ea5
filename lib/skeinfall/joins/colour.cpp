#include "skeinfall/joins/colour.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <cstdlib>

#include "skeinfall/base/name.hpp"

namespace skeinfall::joins {

using units::Length;

namespace {

constexpr double noise = 1e-9;
constexpr double stacks_below = 0.02;
constexpr double diagonal_up_to = 0.15;
constexpr double alternates_above = 0.35;

/// Nearest to nothing: between minus and plus half a repeat.
Length signed_phase(Length at, Length repeat) {
    const Length phase = phase_of(at, repeat);
    return phase > 0.5 * repeat ? phase - repeat : phase;
}

}  // namespace

Length phase_of(Length at, Length repeat) {
    Length rest = at - std::floor(at / repeat) * repeat;
    if (rest >= repeat || repeat - rest < noise * repeat || rest < noise * repeat) rest = Length{};
    return rest;
}

std::optional<Length> phase_of_colour(const Runs& runs, const std::string& colour) {
    Length at{};
    for (const project::ColourRun& run : runs) {
        if (base::same_name(run.colour, colour)) return at;
        at += run.length;
    }
    return std::nullopt;
}

Length wind_off(Length ended, Length begins, Length tail, Length repeat) {
    return phase_of(ended - begins - tail, repeat);
}

WindOff wind_off_for(std::size_t joins, Length repeat) {
    const auto count = static_cast<double>(joins);
    return {count * 0.5 * repeat, count * repeat};
}

Length phase_when_rewound(Length phase, Length length, Length repeat) {
    return phase_of(phase - length, repeat);
}

PairFromOne pair_from_one(Length each, Length ends, Length repeat) {
    const Length off = phase_of(-(each + ends), repeat);
    return {off, 2.0 * each + 2.0 * ends + off};
}

LargestPair largest_pair(Length total, Length ends, Length repeat) {
    // The second begins m repeats after the first: each takes at most m repeats and what is left.
    LargestPair best;
    const double middle = std::floor(total / repeat / 2.0);
    for (const double m : {middle, middle + 1.0}) {
        const Length each = std::min(m * repeat, total - m * repeat) - ends;
        if (each > best.each) best.each = each;
    }
    best.left = total - 2.0 * (best.each + ends);
    return best;
}

std::vector<ColourStripe> colour_stripes(const Runs& runs, Length start,
                                         const std::vector<Length>& rows, Length row_height) {
    std::vector<ColourStripe> out;
    const Length repeat = project::repeat_of(runs);
    Length into = phase_of(start, repeat);
    std::size_t run = 0;
    while (into >= runs[run].length - noise * repeat) {
        into -= runs[run].length;
        run = (run + 1) % runs.size();
    }
    Length left = runs[run].length - into;  // of the run
    ColourStripe stripe{run, units::RowCount{}, units::RowCount{}, Length{}};
    for (std::size_t i = 0; i < rows.size(); ++i) {
        Length done{};
        while (rows[i] - done > left + noise * repeat) {
            done += left;
            stripe.to = (static_cast<double>(i) + done / rows[i]) * units::row;
            out.push_back(stripe);
            run = (run + 1) % runs.size();
            left = runs[run].length;
            stripe = {run, stripe.to, units::RowCount{}, Length{}};
        }
        left -= rows[i] - done;
    }
    stripe.to = static_cast<double>(rows.size()) * units::row;
    out.push_back(stripe);
    for (ColourStripe& one : out) one.height = (one.to - one.from) / units::row * row_height;
    return out;
}

std::string_view name_of(Pattern pattern) {
    static constexpr std::array<std::string_view, 4> names{"stacks", "diagonals", "breaks up",
                                                           "alternates"};
    return names.at(static_cast<std::size_t>(pattern));
}

Pooling pooling_of(Length row, Length repeat, project::Worked worked) {
    Pooling out;
    out.shift = signed_phase(worked == project::Worked::flat ? 2.0 * row : row, repeat);
    const double share = std::abs(out.shift / repeat);
    out.pattern = share < stacks_below       ? Pattern::stacks
                  : share <= diagonal_up_to  ? Pattern::diagonals
                  : share > alternates_above ? Pattern::alternates
                                             : Pattern::breaks_up;
    return out;
}

std::vector<std::vector<std::int64_t>> widths_for(std::int64_t repeat, std::int64_t shift,
                                                  project::Worked worked, std::int64_t near) {
    std::vector<std::vector<std::int64_t>> out;
    const auto fits = [&](std::int64_t stitches) {
        return (stitches - shift) % repeat == 0 || (stitches + shift) % repeat == 0;
    };
    const std::int64_t rows = worked == project::Worked::flat ? 2 : 1;
    for (std::int64_t off = 0; off <= repeat; ++off)
        for (const std::int64_t width : {near - off, near + off}) {
            if (width < 1 || (off == 0 && width != near)) continue;
            const bool seen = !out.empty() && out.back().front() == width;
            if (fits(rows * width) && !seen) out.push_back({width});
            // Two widths in turn give the odd sums that one width cannot.
            if (rows == 2 && fits(2 * width + 1) && !seen) out.push_back({width, width + 1});
        }
    return out;
}

std::int64_t rows_until_drift(Length run, Length row, units::Ratio row_error) {
    return static_cast<std::int64_t>(std::floor(0.25 * run / (row * row_error.value()) + noise));
}

Fabric fabric_of(const Runs& runs, Length start, const std::vector<ColourRow>& rows,
                 project::Worked worked) {
    Fabric out;
    const Length repeat = project::repeat_of(runs);
    std::size_t all = 0;
    out.row_begin.push_back(0);
    for (const ColourRow& row : rows) {
        all += static_cast<std::size_t>(row.stitches);
        out.row_begin.push_back(all);
    }
    out.run.resize(all);
    std::vector<Length> ends;
    Length sum{};
    for (const project::ColourRun& run : runs) ends.push_back(sum += run.length);
    Length done = start;
    for (std::size_t row = 0; row < rows.size(); ++row) {
        const std::size_t begin = out.row_begin[row];
        const std::size_t end = out.row_begin[row + 1];
        if (begin == end) continue;
        const Length stitch = rows[row].yarn / static_cast<double>(rows[row].stitches);
        // A stitch has the colour of its middle; the phase is found anew in every row.
        Length phase = phase_of(done + 0.5 * stitch, repeat);
        std::size_t run = 0;
        while (run + 1 < ends.size() && phase >= ends[run]) ++run;
        const bool back = worked == project::Worked::flat && row % 2 == 1;
        for (std::size_t i = begin; i < end; ++i) {
            while (phase >= ends[run] - noise * repeat) {
                if (run + 1 < ends.size()) {
                    ++run;
                } else {
                    phase -= repeat;
                    run = 0;
                }
            }
            out.run[back ? end - 1 - (i - begin) : i] = static_cast<std::uint8_t>(run);
            phase += stitch;
        }
        done += rows[row].yarn;
    }
    return out;
}

}  // namespace skeinfall::joins
