#include "skeinfall/fit/detail/motifs.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "skeinfall/fit/detail/law.hpp"
#include "skeinfall/project/edging.hpp"

namespace skeinfall::fit {
namespace {

using units::Length;

std::int64_t so_many(Length wished, Length each, Take take) {
    const double exact = units::Ratio(wished / each).value();
    const double whole = take == Take::below   ? std::floor(exact + rounding_noise)
                         : take == Take::above ? std::ceil(exact - rounding_noise)
                                               : std::round(exact);
    return std::max<std::int64_t>(1, std::llround(whole));
}

void put(project::PerSize<std::int64_t>& values, std::size_t size, std::size_t sizes,
         std::int64_t was, std::int64_t now) {
    if (!values.stated()) values.values.assign(sizes, was);
    if (values.values.size() < sizes) values.values.assign(sizes, values.values.front());
    values.values.at(size) = now;
}

project::FinishedSize laid(std::int64_t count, std::int64_t columns,
                           const project::FinishedSize& motif) {
    const std::int64_t high = (count + columns - 1) / columns;
    return {static_cast<double>(columns) * motif.width, static_cast<double>(high) * motif.length};
}

}  // namespace

bool are_laid(const project::Project& project, std::size_t piece, std::size_t size) {
    const auto joining = project::joining_of(project, project.pieces.at(piece));
    return joining && project::laid_motifs(project, project.finish[*joining], size).count > 1;
}

std::optional<Motifs> lay_motifs(const project::Project& before, project::Project& project,
                                 std::size_t piece, std::size_t size, const Wish& wish, Take take) {
    if (!are_laid(before, piece, size)) return std::nullopt;
    project::Piece& one = project.pieces.at(piece);
    const std::size_t joining = *project::joining_of(before, one);
    const project::LaidMotifs was = project::laid_motifs(before, before.finish[joining], size);
    const std::int64_t high_was = (was.count + was.columns - 1) / was.columns;
    const project::FinishedSize motif = project::finished_size(project, one, size);
    const std::int64_t columns = wish.width ? so_many(*wish.width, motif.width, take) : was.columns;
    const std::int64_t high = wish.length ? so_many(*wish.length, motif.length, take) : high_was;
    // A last row that is not full stays so where nothing is to become larger.
    const bool same = columns == was.columns && high == high_was;
    const std::int64_t count = same ? was.count : columns * high;
    Motifs out{
        joining,
        was.count,
        was.columns,
        count,
        columns,
        laid(was.count, was.columns, project::finished_size(before, before.pieces[piece], size)),
        laid(count, columns, motif)};
    if (same) return out;
    put(one.count, size, project.size_count(), was.count, out.count);
    put(project.finish[joining].columns, size, project.size_count(), was.columns, columns);
    for (project::FinishPart& part : project.finish)
        if (part.of == one.name && part.columns.stated())
            put(part.columns, size, project.size_count(), was.columns, columns);
    return out;
}

}  // namespace skeinfall::fit
