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

std::optional<Motifs> lay_motifs(project::Project& project, std::size_t piece, std::size_t size,
                                 const Wish& wish, Take take) {
    project::Piece& one = project.pieces.at(piece);
    const auto joining = project::joining_of(project, one);
    if (!joining || !(wish.width || wish.length)) return std::nullopt;
    const project::LaidMotifs before =
        project::laid_motifs(project, project.finish[*joining], size);
    if (before.count < 2) return std::nullopt;
    const project::FinishedSize motif = project::finished_size(project, one, size);
    const std::int64_t columns =
        wish.width ? so_many(*wish.width, motif.width, take) : before.columns;
    const std::int64_t high = wish.length ? so_many(*wish.length, motif.length, take)
                                          : (before.count + before.columns - 1) / before.columns;
    Motifs out{*joining,
               before.count,
               before.columns,
               columns * high,
               columns,
               laid(before.count, before.columns, motif),
               laid(columns * high, columns, motif)};
    put(one.count, size, project.size_count(), before.count, out.count);
    put(project.finish[*joining].columns, size, project.size_count(), before.columns, columns);
    for (project::FinishPart& part : project.finish)
        if (part.of == one.name && part.columns.stated())
            put(part.columns, size, project.size_count(), before.columns, columns);
    return out;
}

}  // namespace skeinfall::fit
