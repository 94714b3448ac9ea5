#include "skeinfall/exchange/detail/main_stitch.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <string_view>

#include "skeinfall/project/fabric_words.hpp"
#include "skeinfall/project/stitches.hpp"

namespace skeinfall::exchange::detail {
namespace {

using project::KindCount;
using project::RowWork;

std::string most_worked(const notation::Document& document) {
    // Those that a gauge of "sts" is counted in.
    static constexpr std::array<std::string_view, 6> plain{"sc", "hdc", "dc", "tr", "dtr", "trtr"};
    std::array<double, plain.size()> counts{};
    for (const notation::Section& section : document.sections)
        for (const KindCount& part : section.rows.totals())
            for (std::size_t at = 0; at < plain.size(); ++at)
                if (part.kind == plain[at])
                    counts[at] += static_cast<double>(std::max<std::int64_t>(1, section.times)) *
                                  part.count.value();
    const auto most = std::max_element(counts.begin(), counts.end());
    const std::string_view us =
        *most > 0.0 ? plain[static_cast<std::size_t>(most - counts.begin())] : plain.front();
    // In the terms that the project is written in.
    const project::StitchBook book(project::Craft::crochet, document.terms);
    return book.at(book.find_us(us)).written;
}

/// What the rows of a knitted pattern are of, in stitches.
struct Knitted {
    double all = 0.0;
    double mixed = 0.0;   ///< in rows that knit and purl by turns
    double ridged = 0.0;  ///< in rows whose other side is seen on the right side
};

void add_row(const RowWork& row, double times, bool round, Knitted& sums) {
    double knit = 0.0;
    double purl = 0.0;
    for (const KindCount& part : row.kinds) {
        if (part.kind == "k") knit += part.count.value();
        if (part.kind == "p") purl += part.count.value();
    }
    const double all = knit + purl;
    if (!(all > 0.0)) return;
    constexpr double some = 0.2;
    sums.all += times * all;
    if (std::min(knit, purl) > some * all)
        sums.mixed += times * all;
    else if (round)
        sums.ridged += purl > knit ? 2.0 * times * all : 0.0;
    else
        sums.ridged += (purl > knit ? -1.0 : 1.0) * times * all;
}

std::string knitted_fabric(const notation::Document& document) {
    Knitted sums;
    for (const notation::Section& section : document.sections) {
        std::vector<double> times(section.rows.distinct.size());
        for (const std::uint32_t index : section.rows.order)
            times[index] += static_cast<double>(std::max<std::int64_t>(1, section.times));
        for (std::size_t at = 0; at < times.size(); ++at)
            add_row(section.rows.distinct[at], times[at], section.round, sums);
    }
    constexpr double most_of_it = 0.5;
    if (sums.mixed > most_of_it * sums.all) return "rib";
    return sums.ridged > most_of_it * sums.all ? "garter" : "stockinette";
}

}  // namespace

std::string main_stitch(const notation::Document& document) {
    const std::string& named = document.gauge_stitch;
    if (document.craft == project::Craft::crochet)
        return named.empty() ? most_worked(document) : named;
    if (!named.empty() && project::fabric_word(project::Craft::knit, named)) return named;
    return knitted_fabric(document);
}

}  // namespace skeinfall::exchange::detail
