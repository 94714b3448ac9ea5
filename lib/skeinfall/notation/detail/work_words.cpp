#include "skeinfall/notation/detail/work_words.hpp"

#include <algorithm>
#include <array>
#include <regex>
#include <vector>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"

namespace skeinfall::notation {
namespace {

constexpr auto icase = std::regex::icase;
/// Longer sentences are talk, and the forms look at every word of them.
constexpr std::size_t longest_sentence = 200;

bool any_form(const std::string& text, const std::vector<std::regex>& forms) {
    return text.size() <= longest_sentence &&
           std::any_of(forms.begin(), forms.end(),
                       [&](const std::regex& form) { return std::regex_search(text, form); });
}

}  // namespace

bool speaks_of_strands(std::string_view words) {
    static const std::regex trimming(
        R"(\b(?:embroider\w*|sew\w*|seam\w*|eyes?|mouth|nose|fringe|tassels?|pom[ -]?poms?|cords?|ties?|braids?|weav\w*|hair|whiskers)\b)",
        icase);
    static const std::vector<std::regex> forms{
        std::regex(R"(\b(?:two|three|four|five|[2-9]|double|triple|multiple) strands?\b)", icase),
        std::regex(
            R"(\b(?:held|hold(?:ing)?|used?|using|work(?:ed|ing)? with|with) (?:the )?(?:yarns? |wool |thread )?(?:doubled?|tripled?)(?: throughout)?(?=\s*(?:$|[,.;:)]|together|yarn|throughout)))",
            icase),
        std::regex(
            R"(\b(?:yarns?|wool|thread) (?:is |are )?(?:held |used |worked )?(?:doubled?|together)\b)",
            icase),
        std::regex(R"(\bstrands? (?:of (?:the )?yarn )?(?:held )?together\b)", icase),
        std::regex(R"(\b(?:two|three|four|[2-9]) (?:ends|threads|yarns) (?:held )?together\b)",
                   icase),
        std::regex(R"(\b(?:with|using|in) (?:a )?doubled? (?:strand|yarn|wool|thread)\b)", icase),
        std::regex(R"(\bone strand of [^.]+ and one\b)", icase),
        std::regex(R"(^strands?\s*:\s*(?:two|three|four|[2-9])\b)", icase)};

    const std::string text(words);
    return any_form(text, forms) && !std::regex_search(text, trimming);
}

bool says_more_is_worked(std::string_view sentence) {
    static const std::vector<std::regex> forms{
        // One more, like another.
        std::regex(
            R"(^(?:the )?(?:(?:second|2nd|other|another|left|right|back|front|remaining)\b|thumbs?\b|sleeves?\b|legs?\b|arms?\b|mittens?\b|socks?\b|slippers?\b)[^.]{0,40}\b(?:the same|same as|alike|as (?:for |given for )?(?:the )?(?:first|back|front|left|right|other))\b)",
            icase),
        std::regex(R"(^(?:same as|as for|as) (?:the )?(?:first|back|front|left|right|other)\b)",
                   icase),
        std::regex(
            R"(^(?:left|right|front|back|second)[^.]{0,20}: reverse\b|\breverse shapings?\b)",
            icase),
        // How many there are.
        std::regex(
            R"(\b(?:two|three|four|five|six|eight|ten|twelve|[2-9]|[1-9][0-9]) of (?:these|them|those)\b)",
            icase),
        std::regex(
            R"(\ball pieces (?:are|were) (?:worked|made)|\b(?:is|are) (?:worked|made) twice\b)",
            icase),
        std::regex(
            R"(\ba total of (?:[a-z]+|[0-9]+) (?:squares|motifs|panels|pieces|hexagons|circles|blocks)\b)",
            icase),
        std::regex(R"(\bnumber of (?:squares|motifs|panels|pieces|hexagons|blocks)\b)", icase),
        std::regex(R"(^(?:double|triple) the (?:length|width|rows)\b)", icase),
        // Rows to no length that is read, and colours.
        std::regex(R"(^(?:keep|go|carry) (?:going|on|working)\b[^.]*\b(?:until|till|to|for)\b)",
                   icase),
        std::regex(R"(^(?:now |then )?(?:follow|work (?:from|as in)) (?:the )?chart\b)", icase),
        std::regex(
            R"(^(?:stripes?|stripe (?:sequence|pattern)|colou?r (?:sequence|order))\s*:.*\b(?:rows?|rounds?|rnds?)\b)",
            icase),
        // The colours of one row, held together.
        std::regex(R"(\bwith (?:[a-d]|mc|cc[0-9]?) and (?:[a-d]|mc|cc[0-9]?) (?:held )?together\b)",
                   icase),
        // Parts that nothing tells the yarn of.
        std::regex(
            R"(^(?!.*\b(?:if (?:you|desired|wanted)|optional)\b)(?:then |and )?(?:crochet|knit|braid|plait|make) (?:[a-z]+ |[0-9]+ ){0,3}(?:buttons?|cords?|straps?|pockets?|flowers?|collar|hood|lining|handles?|tassels?|pom[ -]?poms?|fringe|bows?|i-?cord)\b)",
            icase),
        std::regex(
            R"(^(?:pockets?|collar|lining|elbow patch(?:es)?|hood|straps?|border|edging|trim)\b(?:\s*\([0-9]+\)| (?:as (?:wished|desired|you like)|in (?!progress)[a-z]+))|^pom[ -]?poms? (?:at|on)\b)",
            icase),
        std::regex(R"(\bsurface crochet\b|\bduplicate stitch\b|\bswiss darn(?:ing)?\b)", icase)};
    return any_form(std::string(base::trimmed(sentence)), forms);
}

std::optional<std::string> work_beside_row(std::string_view row, std::int64_t rows) {
    static const std::regex labelled(
        R"(^\s*(?:rows?|rnds?|rounds?|r)\.?\s*[0-9][0-9 ,&-]*(?:\s*[\(\[]([^)\]]{1,60})[\)\]])?)",
        icase);
    static const std::regex work(
        R"(\b(?:times|twice|thrice|rep(?:eat(?:ed)?)?|held|strands?|worked in|both sides)\b|\bx\s*[0-9]|[0-9]\s*x\b)",
        icase);
    static const std::regex so_many(
        R"(^(?:for |work(?:ed)? |makes |rep(?:eat)? )?([0-9]{1,4}) (?:more )?(?:rows|rounds|rnds)\b)",
        icase);
    static const std::regex behind(
        R"((?:[\(\[]|\s-\s)\s*((?:work(?:ed)? |rep(?:eat)? (?!from|\*)|for )?[0-9]{1,4} (?:more )?(?:rows|rounds|rnds)[^)\]*]{0,20}|(?:rep(?:eat)?|work) (?!from|\*)[^)\]*]{0,20}(?:times|twice))[\)\]]?\s*\.?\s*$)",
        icase);
    constexpr std::size_t longest_row = 2000;
    if (row.size() > longest_row) return std::nullopt;
    const std::string text(row);
    std::smatch label;
    if (!std::regex_search(text, label, labelled)) return std::nullopt;
    const auto other_count = [&](const std::string& words) {
        std::smatch found;
        return std::regex_search(words, found, so_many) &&
               base::leading_number<std::int64_t>(found[1].str()) != rows;
    };
    if (label[1].matched) {
        const std::string within = label[1];
        if (other_count(within) || std::regex_search(within, work)) return within;
    }
    constexpr std::size_t tail = 80;
    const std::string end = text.substr(text.size() - std::min(text.size(), tail));
    std::smatch found;
    if (!std::regex_search(end, found, behind)) return std::nullopt;
    const std::string said = found[1];
    const bool counts = std::regex_search(said, so_many);
    return !counts || other_count(said) ? std::optional(said) : std::nullopt;
}

std::int64_t pieces_in_heading(std::string_view heading) {
    static constexpr std::array<std::string_view, 11> spelled{
        "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"};
    static const std::string pieces =
        "(?:squares|panels|motifs|pieces|sides|strips|blocks|sleeves|legs|arms|ears|mittens|mitts|"
        "socks|slippers|hexagons|circles|petals|leaves|flowers|wings|handles|straps|fronts|cuffs|"
        "pockets|gloves|booties|wristers|wedges|triangles|coasters|halves)";
    static const std::regex counted("^([a-z]+) (?:[a-z]+ ){0,2}" + pieces + "\\s*:?$", icase);
    static const std::regex pair("^(?:a )?pair of (?:[a-z]+ ){0,2}" + pieces + "\\s*:?$", icase);
    static const std::regex both(
        "^both " + pieces +
            R"(\s*:?$|\((?:both|two)\)\s*:?$|^(?:left (?:and|&) right|right (?:and|&) left) (?:front|sleeve|side|mitten|mitt|sock|leg|arm|ear|slipper|glove|wing|hand)s?\s*:?$|,\s*(?:2|two) alike\s*:?$)",
        icase);
    const std::string text(base::trimmed(heading));
    constexpr std::size_t longest = 60;
    if (text.size() > longest) return 0;
    if (std::regex_search(text, pair) || std::regex_search(text, both)) return 2;
    std::smatch found;
    if (!std::regex_match(text, found, counted)) return 0;
    const std::string first = base::lower(found[1].str());
    const auto at = std::find(spelled.begin(), spelled.end(), first);
    return at == spelled.end() ? 0 : at - spelled.begin() + 2;
}

}  // namespace skeinfall::notation
