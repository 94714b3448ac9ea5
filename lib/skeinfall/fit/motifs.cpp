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

project::FinishedSize laid(const project::Piece& piece, std::int64_t count, std::int64_t columns,
                           const project::FinishedSize& motif) {
    const std::int64_t high = (count + columns - 1) / columns;
    return project::laid_together(piece, motif, columns, high).value_or(motif);
}

}  // namespace

bool are_laid(const project::Project& project, std::size_t piece, std::size_t size) {
    const auto joining = project::joining_of(project, project.pieces.at(piece));
    return joining && project::laid_motifs(project, project.finish[*joining], size).count > 1 &&
           project::laid_together(project.pieces.at(piece), {}, 1, 1).has_value();
}

project::FinishedSize each_motif_more(const project::Piece& piece,
                                      const project::FinishedSize& motif) {
    const auto two = project::laid_together(piece, motif, 2, 2);
    const auto three = project::laid_together(piece, motif, 3, 3);
    if (!two || !three) return motif;
    return {three->width - two->width, three->length - two->length};
}

std::optional<Motifs> lay_motifs(const project::Project& before, project::Project& project,
                                 std::size_t piece, std::size_t size, const Wish& wish, Take take) {
    if (!are_laid(before, piece, size)) return std::nullopt;
    project::Piece& one = project.pieces.at(piece);
    const std::size_t joining = *project::joining_of(before, one);
    const project::LaidMotifs was = project::laid_motifs(before, before.finish[joining], size);
    const std::int64_t high_was = (was.count + was.columns - 1) / was.columns;
    const project::FinishedSize motif = project::finished_size(project, one, size);
    // As wide as one more makes it, and what stands beside that.
    const project::FinishedSize each = each_motif_more(one, motif);
    const project::FinishedSize two = laid(one, 4, 2, motif);
    const std::int64_t columns =
        wish.width ? so_many(*wish.width - (two.width - 2.0 * each.width), each.width, take)
                   : was.columns;
    const std::int64_t high =
        wish.length ? so_many(*wish.length - (two.length - 2.0 * each.length), each.length, take)
                    : high_was;
    // A last row that is not full stays so where nothing is to become larger.
    const bool same = columns == was.columns && high == high_was;
    const std::int64_t count = same ? was.count : columns * high;
    Motifs out{joining,
               was.count,
               was.columns,
               count,
               columns,
               laid(one, was.count, was.columns,
                    project::finished_size(before, before.pieces[piece], size)),
               laid(one, count, columns, motif)};
    if (same) return out;
    put(one.count, size, project.size_count(), was.count, out.count);
    put(project.finish[joining].columns, size, project.size_count(), was.columns, columns);
    for (project::FinishPart& part : project.finish)
        if (part.of == one.name && part.columns.stated())
            put(part.columns, size, project.size_count(), was.columns, columns);
    return out;
}

}  // namespace skeinfall::fit
