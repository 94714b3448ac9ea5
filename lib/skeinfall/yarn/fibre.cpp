#include "skeinfall/yarn/fibre.hpp"

#include <algorithm>
#include <cmath>
#include <string_view>

#include "skeinfall/base/text.hpp"
#include "skeinfall/data/fibre_names.hpp"
#include "skeinfall/data/fibre_summary.hpp"
#include "skeinfall/units/format.hpp"
#include "skeinfall/units/parse.hpp"
#include "skeinfall/yarn/detail/spaced.hpp"
#include "skeinfall/yarn/detail/strand_words.hpp"

namespace skeinfall::yarn {
namespace {

/// The name our tables use for a fibre; the name itself when unknown.
std::string_view table_name(std::string_view fibre) {
    for (const auto& row : data::fibre_names)
        if (base::same_word(row.name, fibre)) return row.fibre;
    return fibre;
}

bool mentions(const std::string& spaced_text, std::string_view name) {
    const std::string wanted = spaced(name);
    return wanted.size() > 1 && spaced_text.find(wanted) != std::string::npos;
}

/// The first word of a table's fibre: "nylon" of "nylon (polyamide)".
std::string_view first_word(std::string_view fibre) {
    return fibre.substr(0, fibre.find(' '));
}

}  // namespace

std::string strand_words(std::string_view text) {
    std::string low = " ";
    for (const char c : base::lower(text)) low += c == '-' || c == ',' ? ' ' : c;
    low += " ";
    for (const std::string_view words :
         {" held double ", " held doubled ", " held together ", " held triple ", " held ",
          " double stranded ", " doubled ", " double strand ", " strands ", " stranded ",
          " strand "})
        if (low.find(words) != std::string::npos)
            return std::string(words.substr(1, words.size() - 2));
    return {};
}

base::Result<FibreContent> parse_fibre_content(std::string_view text) {
    const auto fail = [&](std::string what, std::size_t at) {
        return base::Problem{base::quoted(text) + ": " + std::move(what),
                             {.file = {}, .line = 0, .column = at + 1},
                             "shares and fibres that add to 100 %",
                             "Write it like \"80% wool 20% nylon\"."};
    };
    FibreContent content;
    double sum = 0.0;
    std::size_t at = 0;
    while (true) {
        at = text.find_first_not_of(" ,/;+&\t", at);
        if (at == std::string_view::npos) break;
        const std::size_t sign = text.find('%', at);
        if (sign == std::string_view::npos) return fail("a share without \"%\"", at);
        const auto share = units::parse_percent(text.substr(at, sign - at + 1));
        if (!share || share->value() <= 0.0)
            return fail(base::quoted(text.substr(at, sign - at + 1)) + " is not a share above zero",
                        at);
        const std::size_t begin = sign + 1;
        const std::size_t end = std::min(text.find_first_of("0123456789,/;+&", begin), text.size());
        const std::string fibre = base::lower(base::trimmed(text.substr(begin, end - begin)));
        if (fibre.empty()) return fail("a share without a fibre", begin);
        if (const std::string strands = strand_words(fibre); !strands.empty())
            return fail(base::quoted(strands) + " is no fibre: it speaks of strands", begin);
        content.shares.push_back({fibre, *share});
        sum += share->value();
        at = end;
    }
    if (content.shares.empty()) return fail("no fibre in it", 0);
    if (std::abs(sum - 1.0) > 0.005)
        return fail(
            "the shares add to " + units::percent_text(units::Ratio(sum), units::Step::tenth,
                                                       units::Rounding::nearest),
            0);
    return content;
}

std::string text(const FibreContent& content) {
    if (!content.known()) return "content unknown";
    std::vector<std::string> parts;
    parts.reserve(content.shares.size());
    for (const FibreShare& share : content.shares)
        parts.push_back(
            units::number_text(100.0 * share.share, units::Step::one, units::Rounding::nearest) +
            " % " + share.fibre);
    return base::join(parts, ", ");
}

bool is_kind_of(std::string_view printed, std::string_view fibre) {
    const std::string_view wanted = table_name(base::trimmed(fibre));
    const std::string words = spaced(printed);
    return mentions(words, fibre) || mentions(words, wanted) ||
           std::any_of(data::fibre_names.begin(), data::fibre_names.end(), [&](const auto& row) {
               return base::same_word(row.fibre, wanted) && mentions(words, row.name);
           });
}

bool contains(const FibreContent& content, std::string_view fibre) {
    return std::any_of(content.shares.begin(), content.shares.end(),
                       [&](const FibreShare& share) { return is_kind_of(share.fibre, fibre); });
}

std::vector<std::string> melting_fibres(const FibreContent& content) {
    std::vector<std::string> found;
    for (const FibreShare& share : content.shares)
        for (const auto& row : data::fibre_summary)
            if (row.melts != "no" && !row.melts.empty() &&
                is_kind_of(share.fibre, first_word(row.fibre))) {
                found.push_back(share.fibre);
                break;
            }
    return found;
}

}  // namespace skeinfall::yarn
