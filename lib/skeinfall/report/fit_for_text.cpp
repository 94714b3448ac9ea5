#include <cmath>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/project/edging.hpp"
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
        out += "  with " + ease_text(*wanted.ease) +
               (wanted.body->least == wanted.body->most ? " on " : " on the middle of ") +
               span_text(*wanted.body);
        if (!wanted.ease->note.empty()) out += " (" + wanted.ease->note + ")";
        out += "\n";
    }
    for (const fit::SizeRow& row : wanted.rows) out += "  " + source_text(row) + "\n";
    for (const std::string& letter : wanted.letters_unused)
        out += fmt::format(
            "  The table of {} sizes has only one size for {}, so {} makes no difference.\n",
            wanted.rows.front().of, shown_inert(wanted.rows.front().who), base::quoted(letter));
    out += wanted.body && wanted.ease
               ? "  These are averages: measure the person if you can.\n"
               : "  These are usual sizes: measure where it is to lie or be worn if you can.\n";
    if (wanted.neck_of_child)
        out +=
            "  Caution: what is worn round a child's neck can tighten or catch on something. A "
            "closed loop that comes off easily is safer than a scarf; follow the advice where you "
            "live.\n";
    return out;
}

std::string other_way_text(const project::Project& project, std::size_t piece,
                           const fit::SizeFor& wanted, bool length_given) {
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
    else if (!fit::has_length(project, piece, 0))
        out +=
            "  The length stays as it is: the piece is worked from its centre, and only how far "
            "across it is was changed.\n";
    return out;
}

namespace {

/// "Outside that by 1.3 in: it is 19.6 in around."
std::string off_text(const fit::Span& span, units::Length length, const char* small,
                     const char* large) {
    const bool less = length < span.least;
    return fmt::format(
        "{} {}", units::inches_and_centimetres(less ? span.least - length : length - span.most),
        less ? small : large);
}

/// A table's length against that of all pieces worked on from each other.
std::string worked_on_text(const project::Project& project, std::size_t piece, std::size_t size,
                           const fit::SizeFor& wanted) {
    constexpr double hardly_off = 0.05;
    const auto whole = fit::worked_on_long(project, piece, size);
    if (!wanted.along || !whole) return {};
    const units::Length near = hardly_off * wanted.along->middle();
    const bool fits = *whole >= wanted.along->least - near && *whole <= wanted.along->most + near;
    return fmt::format("  Its pieces are {} long together{}.\n",
                       units::inches_and_centimetres(*whole),
                       fits ? "" : ", " + off_text(*wanted.along, *whole, "too short", "too long"));
}

}  // namespace

std::string outside_text(const fit::Fitted& fitted, const fit::SizeFor& wanted) {
    const fit::Outside outside = fit::outside_of(fitted, wanted);
    std::string out;
    if (outside.across)
        out += fmt::format("  What comes nearest in whole repeats is {}.\n",
                           off_text(*wanted.across, *outside.across, "too narrow", "too wide"));
    if (outside.along)
        out += fmt::format("  The length that comes nearest is {}.\n",
                           off_text(*wanted.along, *outside.along, "too short", "too long"));
    return out;
}

std::string size_match_text(const project::Project& project, std::size_t piece,
                            const fit::SizeMatch& match, const fit::SizeFor& wanted) {
    constexpr double hardly = 0.05;
    const std::string along = worked_on_text(project, piece, match.size, wanted);
    const std::string size = shown_inert(project.sizes[match.size]);
    std::vector<std::string> sides;
    if (wanted.across || !wanted.along)
        sides.push_back(units::inches_and_centimetres(match.finished.width) +
                        (wanted.around ? " around" : " wide"));
    if (wanted.along && !wanted.ease && fit::has_length(project, piece, match.size))
        sides.push_back(units::inches_and_centimetres(match.finished.length) + " long");
    const std::string measures = base::join(sides, ", ");
    if (match.within)
        return fmt::format("  Size {} lies within that: {}.\n", size, measures) + along;
    if (match.off.value() <= hardly)
        return fmt::format("  Size {} comes nearest: {}.\n", size, measures) + along;
    return along +
           fmt::format("  No size of this project fits: {} is the nearest, {}, off by {}.\n", size,
                       measures, units::percent_text(match.off, Step::one, Rounding::up));
}

}  // namespace skeinfall::report
