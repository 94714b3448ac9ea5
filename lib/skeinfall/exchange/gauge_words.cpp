#include <regex>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/detail/sides.hpp"
#include "skeinfall/exchange/make_words.hpp"
#include "skeinfall/units/parse.hpp"

namespace skeinfall::exchange {
namespace {

using detail::longest_answer;
using detail::no_such;
using detail::says_rows;
using detail::says_stitches;

const char* const gauge_forms = "\"14 sts and 10 rows per 10 cm\"";

/// "3 1/2 sts" as "3.5 sts": a stroke could part other things.
std::string without_fractions(std::string text) {
    static const std::regex mixed(R"(\b(\d{1,3})\s+(\d{1,2})/(\d{1,2})(?!\d))");
    std::smatch found;
    while (std::regex_search(text, found, mixed)) {
        const auto whole = units::parse_whole(found[1].str());
        const auto above = units::parse_whole(found[2].str());
        const auto below = units::parse_whole(found[3].str());
        if (!whole || !above || !below || *above >= *below) break;
        const std::string plain = fmt::format(
            "{}{:.6g}{}", found.prefix().str(),
            static_cast<double>(*whole) + static_cast<double>(*above) / static_cast<double>(*below),
            found.suffix().str());
        text = plain;
    }
    return text;
}

/// "tension: 14 sts ..." without the word, an inch told as "per inch" with its figure, and
/// fractions as they stand.
std::string without_word_of_gauge(std::string text) {
    static const std::regex word(R"(^(?:gauge|tension)\s*(?:is|of|:|=)?\s*)", std::regex::icase);
    static const std::regex the_inch(
        R"(\b(?:to|per|over|in)\s+(?:the\s+|an?\s+|each\s+|every\s+|one\s+)?inch\b)",
        std::regex::icase);
    static const std::regex the_centimetre(
        R"(\b(?:to|per|over)\s+(?:the\s+|an?\s+|each\s+|every\s+|one\s+)?(?:cm|centimet(?:re|er))\b)",
        std::regex::icase);
    text = without_fractions(std::regex_replace(text, word, ""));
    text = std::regex_replace(text, the_inch, "per 1 in");
    return std::regex_replace(text, the_centimetre, "per 1 cm");
}

/// The units' own advice ends in a gauge of stitches alone, which is none here.
std::string remedy_of(const base::Problem& problem) {
    return problem.remedy.starts_with("Write it like") ? std::string() : problem.remedy;
}

}  // namespace

base::Result<WrittenGauge> parse_gauge(std::string_view given) {
    const std::string forms = gauge_forms;
    if (given.size() > longest_answer) return no_such(given, "a gauge", forms);
    std::string text = without_word_of_gauge(std::string(base::trimmed(plain_signs(given))));
    WrittenGauge out;
    static const std::regex tool(R"(\b(?:on|with|using)\b.*\b(?:mm|hooks?|needles?)\b)",
                                 std::regex::icase);
    if (std::regex_search(text, tool))
        return no_such(given, "a gauge", forms,
                       "Leave the hook or needles out of it: they are a question of their own.");
    static const std::regex in_stitch(
        R"(^(.*\d\s*(?:cm|mm|in|inch|inches|"))\s*(?:,\s*)?\bin\s+([A-Za-z][A-Za-z ]*)$)",
        std::regex::icase);
    if (std::smatch said; std::regex_match(text, said, in_stitch)) {
        out.stitch = said[2];
        const std::string before = said[1];
        text = before;
    }
    static const std::regex rows_first(
        R"(^(\d[\d.,/ ]*?)\s*(?:rows?|rounds?|rnds?)\s*(?:,|and|x|by|&|\+|/)\s*(\d[\d.,/ ]*?)\s*([A-Za-z][A-Za-z0-9 .]*?)\s*(per|to|over|in|=|/|for|on|each)\s*(.+)$)",
        std::regex::icase);
    text = std::regex_replace(text, rows_first, "$2 $3 and $1 rows $4 $5");
    static const std::regex one_span(
        R"(^(\d[\d.,/ ]*?)\s*([A-Za-z][A-Za-z0-9 .]*?)?\s*(?:,|and|x|by|&|\+|/)\s*(\d[\d.,/ ]*?)\s*(rows?|rounds?|rnds?|r)?\s*(?:per|to|over|in|=|/|for|on|each)\s*(.+)$)",
        std::regex::icase);
    static const std::regex two_spans(
        R"(^(\d[\d.,/ ]*?)\s*([A-Za-z][A-Za-z0-9.]*)?\s*(?:per|to|over|in|=|/)\s*(.+?)\s*(?:,|;| and )\s*(\d[\d.,/ ]*?)\s*(?:rows?|rounds?)\s*(?:per|to|over|in|=|/)\s*(.+)$)",
        std::regex::icase);
    std::smatch found;
    std::string stitches;
    std::string word;
    std::string rows;
    std::string span;
    std::string rows_span;
    if (std::regex_match(text, found, two_spans)) {
        stitches = found[1];
        word = found[2];
        span = found[3];
        rows = found[4];
        rows_span = found[5];
    } else if (std::regex_match(text, found, one_span)) {
        stitches = found[1];
        word = found[2];
        rows = found[3];
        span = found[5];
        rows_span = span;
    } else {
        static const std::regex stitches_alone(
            R"(^(\d[\d.,/ ]*?)\s*([A-Za-z][A-Za-z .]*?)?\s*(?:per|to|over|in|=|/)\s*(\d.*)$)",
            std::regex::icase);
        if (!std::regex_match(text, found, stitches_alone) || says_rows(found[2]))
            return no_such(given, "a gauge", forms,
                           "Give stitches and rows, and the length they were counted over.");
        stitches = found[1];
        word = found[2];
        span = found[3];
    }
    // "10 cm square": both ways.
    static const std::regex square(R"(\s*(?:square|sq\.?|both ways)$)", std::regex::icase);
    span = std::regex_replace(span, square, "");
    rows_span = std::regex_replace(rows_span, square, "");
    static const std::regex crossed(R"(^\d[\d.]*\s*(?:x)\s*(\d.*)$)");
    if (std::smatch both; std::regex_match(span, both, crossed)) {
        const std::string last = both[1];
        span = last;
        rows_span = last;
    }
    word = std::string(base::trimmed(word));
    if (!word.empty() && !says_stitches(word)) {
        if (!out.stitch.empty() && !base::same_word(out.stitch, word))
            return no_such(given, "a gauge", forms, "It names two stitches: say one.");
        out.stitch = word;
    }
    if (says_rows(word)) return no_such(given, "a gauge", forms, "The stitches come first.");
    out.stitches = std::string(base::trimmed(stitches)) + " per " + span;
    const auto across = units::parse_stitch_gauge(out.stitches);
    if (!across) return no_such(given, "a gauge", forms, remedy_of(across.problem()));
    if (rows.empty()) return out;
    out.rows = std::string(base::trimmed(rows)) + " per " + rows_span;
    const auto up = units::parse_row_gauge(out.rows);
    if (!up) return no_such(given, "a gauge", forms, remedy_of(up.problem()));
    return out;
}

base::Result<std::vector<WrittenGauge>> parse_gauges(std::string_view given) {
    std::vector<WrittenGauge> out;
    for (const std::string& part : base::split(std::string(given), ';')) {
        if (base::trimmed(part).empty() && !out.empty()) continue;
        auto one = parse_gauge(part);
        if (!one) return one.problem();
        out.push_back(*std::move(one));
    }
    if (out.empty()) return no_such(given, "a gauge", gauge_forms);
    if (out.size() < 2) return out;
    const std::string each =
        "each in its stitch, \"14 hdc and 10 rows per 10 cm; 14 sc and 16 rows per "
        "10 cm\"";
    for (std::size_t at = 0; at < out.size(); ++at) {
        if (out[at].stitch.empty())
            return base::Problem{"of several gauges one does not say its stitch", {}, each, ""};
        for (std::size_t before = 0; before < at; ++before)
            if (base::same_word(out[at].stitch, out[before].stitch))
                return base::Problem{
                    "two gauges are of " + base::quoted(out[at].stitch), {}, each, ""};
    }
    return out;
}

base::Result<MeasuredRows> parse_measured_rows(std::string_view given) {
    const std::string text(base::trimmed(plain_signs(given)));
    const std::string forms = "\"12 rows: 6.5 x 4.25 in\"";
    static const std::regex form(
        R"(^(\d+)\s*(?:rows?|rounds?|rnds?)\s*(?::|,|=|measure|are)?\s*(\d[\d.,/ ]*?)\s*([A-Za-z"]+)?\s*(?:x|by)\s*(\d[\d.,/ ]*?)\s*([A-Za-z"]+)(?:\s*l(?:ong)?)?$)",
        std::regex::icase);
    std::smatch found;
    if (text.size() > longest_answer || !std::regex_match(text, found, form))
        return no_such(given, "what some rows measure", forms, "The width comes first.");
    const std::string unit = found[5];
    const auto rows = units::parse_whole(found[1].str());
    const auto width =
        units::parse_length(found[2].str() + " " + (found[3].matched ? found[3].str() : unit));
    const auto length = units::parse_length(found[4].str() + " " + unit);
    if (!rows || *rows < 1) return no_such(given, "what some rows measure", forms);
    if (!width) return no_such(given, "what some rows measure", forms, width.problem().remedy);
    if (!length) return no_such(given, "what some rows measure", forms, length.problem().remedy);
    return MeasuredRows{*rows, *width, *length};
}

}  // namespace skeinfall::exchange
