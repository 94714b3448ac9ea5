#include <cmath>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/fit.hpp"
#include "skeinfall/report/words.hpp"

namespace skeinfall::report {
namespace {

using base::shown_inert;
using units::Rounding;
using units::Step;

std::string span_text(const fit::Span& span) {
    if (span.least == span.most) return units::inches_and_centimetres(span.least);
    return units::inches_and_centimetres(span.least) + " to " +
           units::inches_and_centimetres(span.most);
}

std::string ease_text(const fit::Ease& ease) {
    const auto share = [](units::Ratio ratio) {
        return units::percent_text(units::Ratio(std::abs(ratio.value())), Step::one,
                                   Rounding::nearest);
    };
    const auto length = [](units::Length side) {
        return units::inches_and_centimetres(units::Length::from_value(std::abs(side.value())));
    };
    const double least = ease.as_share ? ease.least_share.value() : ease.least.value();
    const double most = ease.as_share ? ease.most_share.value() : ease.most.value();
    if (least == 0.0 && most == 0.0) return "no ease";
    const bool negative = most <= 0.0;
    const std::string kind = negative ? "negative ease" : "ease";
    // The smaller amount first.
    const bool turned = negative && least < most;
    std::string first = ease.as_share ? share(turned ? ease.most_share : ease.least_share)
                                      : length(turned ? ease.most : ease.least);
    const std::string second = ease.as_share ? share(turned ? ease.least_share : ease.most_share)
                                             : length(turned ? ease.least : ease.most);
    return first == second ? first + " " + kind : first + " to " + second + " " + kind;
}

std::string source_text(const fit::SizeRow& row) {
    std::string out = row.of + ", " + shown_inert(row.who);
    if (row.across) out += ": " + span_text(*row.across);
    if (row.along)
        out += (row.across ? " by " : ": ") + span_text(*row.along) + (row.across ? "" : " long");
    if (!row.note.empty()) out += " (" + row.note + ")";
    return out + "; " + (row.title.empty() ? "from memory, no table seen" : row.title);
}

}  // namespace

std::string size_for_text(const fit::SizeFor& wanted, const std::string& who) {
    std::string out = fmt::format(
        "For {}: {} {}", shown_inert(who), wanted.make,
        wanted.across ? span_text(*wanted.across) + (wanted.around ? " around" : " wide")
                      : std::string());
    if (wanted.along) out += (wanted.across ? ", " : "") + span_text(*wanted.along) + " long";
    out += "\n";
    if (wanted.body && wanted.ease) {
        out += "  with " + ease_text(*wanted.ease) + " on " + span_text(*wanted.body);
        if (!wanted.ease->note.empty()) out += " (" + wanted.ease->note + ")";
        out += "\n";
    }
    for (const fit::SizeRow& row : wanted.rows) out += "  " + source_text(row) + "\n";
    for (const std::string& letter : wanted.letters_unused)
        out += fmt::format(
            "  The table of {} sizes has only one size for {}, so {} makes no difference.\n",
            wanted.rows.front().of, shown_inert(wanted.rows.front().who), base::quoted(letter));
    out += "  These are averages: measure the person if you can.\n";
    if (wanted.neck_of_child)
        out +=
            "  Caution: what is worn round a child's neck can tighten or catch on something. A "
            "closed loop that comes off easily is safer than a scarf; follow the advice where you "
            "live.\n";
    return out;
}

std::string other_way_text(const project::Project& project, std::size_t piece,
                           const fit::SizeFor& wanted, bool length_given) {
    const project::Piece& one = project.pieces.at(piece);
    const bool centre = one.shape != nullptr && one.shape->from_centre;
    // Sizes of a project are whole: their length is the designer's.
    if (project.size_count() > 1) return {};
    std::string out;
    if (fit::goes_round_by_length(project, piece, 0, wanted))
        return std::string("  It is worked from side to side: its length goes round.\n") +
               (wanted.along ? ""
                             : "  The width stays as it is: no table here says how high such a " +
                                   wanted.make + " is.\n");
    if (!wanted.across)
        out += "  The width stays as it is: no table here says how wide such a " + wanted.make +
               " is.\n";
    if (length_given) return out;
    if (!wanted.along)
        out += "  The length stays as it is: no table here says how long such a " + wanted.make +
               " is.\n";
    else if (centre)
        out +=
            "  The length stays as it is: the piece is worked from its centre, and only how far "
            "across it is was changed.\n";
    return out;
}

std::string size_match_text(const project::Project& project, const fit::SizeMatch& match,
                            const fit::SizeFor& wanted) {
    constexpr double hardly = 0.05;
    const std::string size = shown_inert(project.sizes[match.size]);
    const std::string measures =
        units::inches_and_centimetres(match.finished.width) + (wanted.around ? " around" : " wide");
    if (match.within) return fmt::format("  Size {} lies within that: {}.\n", size, measures);
    if (match.off.value() <= hardly)
        return fmt::format("  Size {} comes nearest: {}.\n", size, measures);
    return fmt::format("  No size of this project fits: {} is the nearest, {}, off by {}.\n", size,
                       measures, units::percent_text(match.off, Step::one, Rounding::up));
}

}  // namespace skeinfall::report
