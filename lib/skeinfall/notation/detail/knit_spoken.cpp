#include "skeinfall/notation/detail/knit_spoken.hpp"

#include <cstddef>
#include <cstdint>
#include <regex>
#include <string>
#include <vector>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/line_forms.hpp"

namespace skeinfall::notation {
namespace {

/// "Knit every 6th and 7th st together", "k2tog every 6th and 7th stitch".
void write_out_every(Line& line, const std::string& low) {
    if (low.find("every ") == std::string::npos || low.size() > 400) return;
    static const std::regex form(
        R"((^|[:.,;] |\brow |\brnd |\bround )(?:(?:and )?(?:k|knit|k2tog|dec(?:rease)?(?: by)?|work|take)\.? ?)(?:knitting |(?:1|one) (?:st|stitch) )?(?:together )?every (\d{1,2})(?:st|nd|rd|th) (?:and|&) (\d{1,2})(?:st|nd|rd|th)(?: (?:st|sts|stitch|stitches))?\b(?: (?:together|tog))?(?: (?:across|around|in (?:the )?(?:next|this) (?:row|round|rnd)))?)",
        any_case);
    std::smatch found;
    const std::string text = line.text;
    if (!std::regex_search(text, found, form)) return;
    const auto first = base::leading_number<std::int64_t>(found[2].str());
    if (first < 2 || base::leading_number<std::int64_t>(found[3].str()) != first + 1) return;
    put_words(line, static_cast<std::size_t>(found.position(0)),
              static_cast<std::size_t>(found.length(0)),
              found[1].str() + "*k" + std::to_string(first - 1) + ", k2tog; rep from * to end");
}

/// "K plain; repeat this row 15 times.": a row, and the same again.
void part_repeats(Line& line, const std::string& low) {
    static const std::vector<Spelling> spellings{
        {"repeat this",
         std::regex(
             R"([;,] (?:then |and )?repeat this (row|round|rnd) (?=\d|once|twice|until|for|to))",
             any_case),
         ". Repeat this $1 "},
        {"rep this",
         std::regex(
             R"([;,] (?:then |and )?rep this (row|round|rnd) (?=\d|once|twice|until|for|to))",
             any_case),
         ". Rep this $1 "},
    };
    if (low.find('*') != std::string::npos) return;
    spell_as_told(line, low, spellings);
}

/// "until it measures 5 in continue in stockinette until ...": a sentence each, as are rows
/// repeated behind a row without a stop.
void part_sentences(Line& line, const std::string& low) {
    static const std::vector<Spelling> spellings{
        {"in",
         std::regex(
             R"(\b((?:until|till|for) [^.;*]{0,60}?\d ?(?:inches|inch|in|ins|cms?|"))\.?,? (?:then |and then )?(?=(?:continue|cont|work|change to|switch to|bind off|cast off|beg(?:in)? with) (?:[^.;*]{0,80}?(?:until|till|for) |off|all|to |in )))",
             any_case),
         "$1. "},
        {"repeat",
         std::regex(
             R"(\b(to (?:the )?end(?: of (?:the )?(?:row|round|rnd))?|across|around|last \d+ (?:sts|stitches),? [kp] ?\d+) (?=R(?:epeat|EPEAT) (?:rows?|rounds?|rnds?|these|last|the) ))"),
         "$1. "},
        {"rows of",
         std::regex(R"(\b((\d+) times(?: more)?), \2 (?:rows|rounds|rnds) (?:of [a-z]+|in all))",
                    any_case),
         "$1"},
        {"in the ",
         std::regex(R"(^in the (?:next|following) (row|rnd|round),? (?=[*\[(]|[kp](?:nit|url)?\b))",
                    any_case),
         "Next $1: "},
        {", next r", std::regex(R"((\bplain|\beven), next (row|rnd|round) (?=[a-z*]))", any_case),
         "$1. Next $2: "},
    };
    spell_as_told(line, low, spellings);
}

/// "Work first 31 sts of next round onto one needle; these sts will be left on hold ...": they
/// wait, and the rest is turned for the heel.
void hold_instep(Line& line, const std::string& low) {
    static const std::vector<Spelling> spellings{
        {"back and forth",
         std::regex(
             R"(\b(?:k|knit) (?:the )?(?:rem|remaining|other|next) (\d+) (?:sts|stitches)(?: (?:on|onto) (?:one|a single|1) needle)?[;,.] (?:the )?(?:heel(?: flap)?|flap) (?:will be |is )?worked back and forth (?:in rows )?(?:on|over) these (?:\d+ )?(?:sts|stitches)(?: only)?\.)",
             any_case),
         "K$1, turn."},
        {"these",
         std::regex(
             R"(\b(?:work|k|knit) (?:the )?(?:first|next) (\d+) (?:sts|stitches)(?: of (?:the )?(?:next )?(?:round|rnd))?(?: in pattern| in patt)?(?: (?:on|onto) (?:one|a single|a spare|1) needle)?[;,.] (?:leave )?these (?:\d+ )?(?:sts|stitches) (?:will be |are )?(?:left|placed|held|put|kept)?[^.]*?\b(?:hold|holder|held|waste yarn)\b[^.]*\. (?=K\d+, turn\.))",
             any_case),
         "K$1, place these $1 sts on a holder, "},
    };
    spell_as_told(line, low, spellings);
}

}  // namespace

void settle_spoken(Line& line) {
    part_sentences(line, base::lower(line.text));
    hold_instep(line, base::lower(line.text));
    write_out_every(line, base::lower(line.text));
    part_repeats(line, base::lower(line.text));
}

}  // namespace skeinfall::notation
