#include "skeinfall/notation/detail/knit_told.hpp"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <regex>
#include <string>
#include <utility>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/knit_spoken.hpp"
#include "skeinfall/notation/detail/line_forms.hpp"
#include "skeinfall/notation/detail/line_kinds.hpp"

namespace skeinfall::notation {
namespace {

bool labelled(const Line& line) {
    const auto words = words_of(line.text);
    return !words.empty() && (row_words(words) > 0 || bare_number(words));
}

/// "rep. row 2", "row..Knit", "Inc. 1": stops that end nothing, or end twice.
void settle_stops_within(Line& line, const std::string& low) {
    static const std::vector<Spelling> spellings{
        {"rep.",
         std::regex(R"(\b(rep)\. (?=(?:rows?|rnds?|rounds?|from|last|these|this|\*)(?:\b|$| )))",
                    any_case),
         "$1 "},
        {"..", std::regex(R"(([a-z]) ?\.\. ?(?=\d+ (?:st|sts|stitches)\b))", any_case), "$1 - "},
        {"..", std::regex(R"(([a-z])\.\.(?=[A-Z]))"), "$1. "},
        {"c.", std::regex(R"(\b(inc|dec)\.(?=[,)\]]))", any_case), "$1"},
        {"rea", std::regex(R"(\b(in|de)crea(?:c|sc)e(s?)\b)", any_case), "$1crease$2"},
        {", (",
         std::regex(
             R"((\d), (\(\d+(?:, ?\d+)*\))(?=,? ?(?:sts|stitches|kf|k\d|k2tog|ssk|p\d|rows|rnds|rounds|times|inches|in\b)))",
             any_case),
         "$1 $2"},
        {"alternative", std::regex(R"(\balternative (rows|rnds|rounds)\b)", any_case),
         "alternate $1"},
        {"patt", std::regex(R"(\bpatt(?:ern)? (\d{1,3}),? (?=inc|dec|k2tog|turn\b))", any_case),
         "k $1, "},
        {", proceed", std::regex(R"(, proceed (?:in|with) )", any_case), " and work in "},
        {".p", std::regex(R"(\b(k ?\d+)\.(p ?\d+)\b)", any_case), "$1, $2"},
        {"rib ", std::regex(R"(\brib (\d+),? turn\b)", any_case), "rib $1 sts, turn"},
        {"center",
         std::regex(R"(\b((?:bind|cast) off (?:the )?)cent(?:er|re) (\d+ sts?)\b)", any_case),
         "$1$2"},
        {"cent",
         std::regex(R"(\b((?:bind|cast) off (?:the )?\d+) cent(?:er|re) (sts|stitches)\b)",
                    any_case),
         "$1 $2"},
        {"end of",
         std::regex(
             R"(\bto (\d+) (?:st|sts|stitches) before (?:the )?end of (?:the |each )?needle\b)",
             any_case),
         "to $1 sts before marker"},
        {"(", std::regex(R"(^\((decrease|increase|dec|inc)\) (row|rnd|round) (\d+) ?:)", any_case),
         "$2 $3 ($1):"},
        {"off",
         std::regex(
             R"(((?:row|rnd|round)s? \d+(?: ?- ?\d+)? ?[:.-] ?)((?:bind|cast) off \d+) (sts|stitches) at (?:the )?(?:beginning|beg|start) of (?:each|every|the|these|both)(?: \d+)? rows?\.?$)",
             any_case),
         "$1$2 $3, k to end."},
        {"side separately",
         std::regex(R"(\b(bind|cast) off (?:each|both) sides? separately\b)", any_case),
         "$1 off all sts"},
        {".r", std::regex(R"(([a-z0-9)]\.)(?=(?:Row|Rnd|Round|Rows|Rnds|Rounds) \d+))"), "$1 "},
        {"f&b", std::regex(R"(\b(k|p)(?:1)?f ?& ?b\b)", any_case), "$1fb"},
        {"--",
         std::regex(R"(-- ?(\d+) (st|sts|stitch|stitches) (inc'd|dec'd|increased|decreased)\b)",
                    any_case),
         " ($1 $2 $3)"},
        {"--", std::regex(R"( ?-- ?(?=\d+ (?:st|sts|stitches)\b))", any_case), " - "},
        {") ",
         std::regex(R"((\(\d+ (?:sts|stitches)\)) (?=(?:bind|cast|BO\b) ?(?:\(|off)))", any_case),
         "$1. "},
        {",then", std::regex(R"(,then (?=[a-z]))", any_case), ", then "},
        {"across,",
         std::regex(R"(\b(across|around), (to (?:the )?last \d+ (?:st|sts|stitches)))", any_case),
         "$2"},
        {"[",
         std::regex(
             R"((\d(?:[\d./]*))[ ]?(inches|inch|ins?|cm|")[ ]?[\[(](\d[\d./]*(?:, ?\d[\d./]*)+)[\])])",
             any_case),
         "$1 ($3) $2"},
        {" after",
         std::regex(R"(([-.]) (\d+ (?:sts|stitches)) after (?:the )?[^.]{0,30}cast[- ]on\.)",
                    any_case),
         "$1 $2."},
    };
    spell_as_told(line, low, spellings);
}

/// "These 4 rows form the pattern. Work them 12 more times", "for pattern twice more".
void settle_repeats(Line& line, const std::string& low) {
    static const std::vector<Spelling> spellings{
        {" form",
         std::regex(
             R"(\b(?:these|the last|last|the above) (\d+) (rows|rounds|rnds) (?:form|make|set)(?: up)? (?:the |one )?(?:[a-z]+ )?(?:pattern|patt|rib|repeat)[.,;] ?(?:then |and )?(?:work|repeat|rep|knit) (?:them|it|these(?: rows| rounds| \d+ rows)?) (?=\d|once|twice|until|for|a total))",
             any_case),
         "Repeat last $1 $2 "},
        {"nd",
         std::regex(
             R"(\b(ending|end|finishing) (?:on|with|after) (?:a |the )?(\d+)(?:st|nd|rd|th) (row|rnd|round)\b)",
             any_case),
         "$1 with $3 $2"},
        {"rd",
         std::regex(
             R"(\b(ending|end|finishing) (?:on|with|after) (?:a |the )?(\d+)(?:st|nd|rd|th) (row|rnd|round)\b)",
             any_case),
         "$1 with $3 $2"},
        {"th row",
         std::regex(
             R"(\b(ending|end|finishing) (?:on|with|after) (?:a |the )?(\d+)(?:th) (row|rnd|round)\b)",
             any_case),
         "$1 with $3 $2"},
        {" rib",
         std::regex(
             R"(\b((?:cast on|co) \d+ (?:sts|stitches)) in (?:\d ?x ?\d rib|k\d,? ?p\d rib)(?:bing)?(?=[.,;]|$))",
             any_case),
         "$1"},
        {" yarn",
         std::regex(
             R"(\b((?:cast on|co) \d+ (?:sts|stitches)) (?:in|with|using) (?:the )?[a-z]+(?: [a-z]+)? (?:yarn|wool)(?=[.,;]|$))",
             any_case),
         "$1"},
        {"join ",
         std::regex(
             R"(\bjoin (?:in )?(?:the )?contrast(?:ing)?(?: colou?r| yarn)?(?: \([a-z]{1,2}\))?(?:[.,]? and (?=work)|[.]|$))",
             any_case),
         ""},
        {"from row",
         std::regex(
             R"(\b(rep(?:eat)?) from (row|rnd|round) (\d+) to (?:row |rnd |round )?(\d+)\b(?! ?(?:sts|stitches)))",
             any_case),
         "$1 $2s $3-$4"},
        {"another",
         std::regex(
             R"(\b(rep(?:eat)? (?:rows|rnds|rounds) \d+ ?(?:-|and|to) ?\d+) another (\d+) times\b)",
             any_case),
         "$1 $2 more times"},
        {"the ",
         std::regex(
             R"(^(rep(?:eat)?) the ((?:\d|two|three|four) (?:rows|rnds|rounds) (?:\d+|once|twice|one|two)\b))",
             any_case),
         "$1 last $2"},
        {"4 row ",
         std::regex(R"(\bwork the (\d+)[- ]row (?:pattern|repeat),? (?=\d|once|twice))", any_case),
         "Repeat last $1 rows "},
    };
    spell_as_told(line, low, spellings);
}

/// "Increase in the 2nd stitch of each row", "K2 P2 across every row for 6 in", "complete round".
void settle_rows_told(Line& line, const std::string& low) {
    static const std::vector<Spelling> spellings{
        {"in",
         std::regex(
             R"(\b(increase|inc|decrease|dec)(?: (?:1|one) (?:st|stitch))? in (?:the )?(?:2nd|second|1st|first) (?:st|sts|stitch) (?:of|at (?:the )?(?:beginning|beg|start) of|in|on) (?:each|every) row\b)",
             any_case),
         "$1 1 st at beginning of every row"},
        {"row",
         std::regex(
             R"(^next (?:row|rnd|round)s?: (?=(?:increase|decrease|inc|dec) [^.]*\b(?:each|every) (?:row|rnd|round) until\b))",
             any_case),
         ""},
        {"until",
         std::regex(
             R"((^|[.;] )((?:increase|decrease|inc|dec) (?:1|one|2|two) (?:st|sts|stitch|stitches) (?:at|in) [^.,;]*?)(?:each|every) (row|rnd|round) until (?:there are |you have |only |just )*(\d+) (?:sts|stitches)(?: are)?(?: left| remaining| remain| rem)?(?: on (?:the |your )?needles?)?(?=[.,;]|$))",
             any_case),
         "$1$2every $3 until there are $4 sts"},
        {"row",
         std::regex(
             R"((^|[.;] )(k ?\d+)[ ,]+(p ?\d+),? (?:ribbing |rib )?(?:across |on |in |for )?(?:every|each|all) rows? (?=for |until |to ))",
             any_case),
         "$1Work in $2, $3 rib "},
        {"off",
         std::regex(R"(\b(?:bind|cast) ?(?:off )?\((?:or )?(?:cast|bind)(?: off)?\)(?: off)?)",
                    any_case),
         "Bind off"},
        {"row",
         std::regex(
             R"((^|[.;] )beg(?:inning)?\.? with (?:a )?(k|knit|p|purl) row,? (?:work )?(\d+) rows\b)",
             any_case),
         "$1Work $3 rows, beginning with a $2 row,"},
        {" for ",
         std::regex(
             R"((^|[.;] )((?:work|knit|do) \d+ (?:rows|rounds|rnds))(?: in (st st|stockinette st(?:itch)?|garter st(?:itch)?))?(, beginning with a (?:k|p|knit|purl) row,)? for (?:the )?((?:upper |lower )?(?:body|leg|legs|arm|arms|head|neck|foot|hem|cuff|border|brim|strap|tie|band|back|front|skirt|chest|waist)(?: ?/ ?[a-z]+)?)(?=\.|$))",
             any_case),
         "$1$2 even$4 (for $5)"},
        {" pattern ",
         std::regex(
             R"((^|[.;:] )(?:knit|work|continue|cont) in (?:the |this )?(?:patt|pattern) (\d+) times\b)",
             any_case),
         "$1Repeat pattern $2 times"},
        {"rows of ",
         std::regex(
             R"(\b((?:these|last|the) (?:\d+ )?(?:rows|rounds|rnds)) of (?:ribbing|rib|garter(?: st(?:itch)?)?|(?:the )?pattern|seed st(?:itch)?)\b)",
             any_case),
         "$1"},
        {",",
         std::regex(
             R"((^|[:.] )(?:attach|join) (?!yarn|the |a |new |to |in |with |at |ends |sides |seams )([a-z]+(?: [a-z]+)?), (?=[(*\[kp]))",
             any_case),
         "$1With $2, "},
        {" in ",
         std::regex(
             R"(\bwork (?:next )?(\d+)(?: sts| stitches)? in (?:rib|ribbing|patt|pattern|established pattern)(?=[,*;.)]| \())",
             any_case),
         "rib $1"},
        {" on ",
         std::regex(
             R"((^|[.] )(work|knit|purl) (\d+) (?:more )?rows (?:even )?(?:on|over) (?:cent(?:er|re) |middle |rem |remaining )(\d+) (?:sts|stitches)(?: only)?)",
             any_case),
         "$1Working on these $4 sts only. $2 $3 rows"},
        {"every",
         std::regex(R"(\b(every|each) (?:right[- ]side|wrong[- ]side|rs|ws) (row|rnd|round)\b)",
                    any_case),
         "every other $2"},
        {"side",
         std::regex(R"(^((?:row|rnd|round) ?\d+) ?[:.-] ?(right|wrong) side ?[-:] ?)", any_case),
         "$1 ($2 side): "},
    };
    spell_as_told(line, low, spellings);
}

/// "..., knit. 23 sts.", "Knit 2nd stitch, leave on needle, knit first stitch", "Sl2 onto CN, H2F".
void settle_pairs(Line& line, const std::string& low) {
    static const std::vector<Spelling> spellings{
        {"knit",
         std::regex(R"(([,)\]] )(knit|purl)(?=\.(?: [(\[]?\d+ (?:sts|stitches)|$)))", any_case),
         "$1$2 to end"},
        {" st",
         std::regex(
             R"(\b(k|knit|p|purl) (?:into )?(?:the )?(?:back of )?(?:the )?(?:2nd|second) (?:st|stitch)\b(?! )[^.;*]*?\b(k|knit|p|purl) (?:into )?(?:the )?(?:front of )?(?:the )?(?:1st|first) (?:st|stitch)\b(?:,? (?:then |and )*(?:slip|drop|sl|take)(?: both| the two| two| them| 2)?(?: sts| stitches)?(?: off| from)?(?: of)?(?: the)?(?: left)?(?: needle)?)?)",
             any_case),
         "$1 1, $2 1"},
        {"h2", std::regex(R"(\bh2f\b)", any_case), "hold in front"},
        {"h2", std::regex(R"(\bh2b\b)", any_case), "hold in back"},
        {"cn", std::regex(R"(\b(k ?\d+|p ?\d+) off (?:the |of )?cn\b)", any_case), "$1 from cn"},
    };
    spell_as_told(line, low, spellings);
}

/// "cast on 48 sts (16-16-16)": how they lie on the needles, where that comes to the number.
void drop_needle_sums(Line& line) {
    static const std::regex form(
        R"((\d+) ?(?:sts|stitches)?,? ?(\(\d+(?: ?(?:-|,|/|\+) ?\d+){1,4}\)))", any_case);
    for (std::size_t begin = 0; begin < line.text.size();) {
        std::smatch found;
        const std::string text = line.text.substr(begin);
        if (!std::regex_search(text, found, form)) return;
        std::int64_t sum = 0;
        const std::string bracket = found[2].str();
        for (std::size_t at = 0; at < bracket.size(); ++at)
            if (digit(bracket[at]) && !digit(bracket[at - 1]))
                sum += base::leading_number<std::int64_t>(std::string_view(bracket).substr(at));
        const std::size_t at = begin + static_cast<std::size_t>(found.position(2));
        begin = at + bracket.size();
        if (sum != base::leading_number<std::int64_t>(found[1].str()) || sum > 10000) continue;
        std::size_t from = at;
        while (from > 0 && line.text[from - 1] == ' ') --from;
        put_words(line, from, at + bracket.size() - from, "");
        begin = from;
    }
}

/// "27 (29 women's, 35 men's)": the numbers of the sizes alone.
void drop_size_words(Line& line, const std::string& low) {
    static const std::vector<Spelling> spellings{
        {"'s",
         std::regex(
             R"((\d ?)\((\d+)(?: (?:wom[ae]n's|m[ae]n's|child(?:ren)?'s|adult's|boy's|girl's|teen's))?, ?(\d+) (?:wom[ae]n's|m[ae]n's|child(?:ren)?'s|adult's|boy's|girl's|teen's)\))",
             any_case),
         "$1($2, $3)"},
    };
    spell_as_told(line, low, spellings);
}

/// "Next 2 rows:" above two lines: a row each.
void name_rows_below(std::vector<Line>& lines) {
    static const std::regex form(R"(^next (2|3|4|two|three|four) (row|rnd|round)s:$)", any_case);
    for (std::size_t i = 0; i + 2 < lines.size(); ++i) {
        std::smatch found;
        const std::string text = lines[i].text;
        if (text.size() > 24 || !std::regex_search(text, found, form)) continue;
        const std::string said = base::lower(found[1].str());
        const std::size_t rows = said == "2" || said == "two"     ? 2U
                                 : said == "3" || said == "three" ? 3U
                                                                  : 4U;
        bool fine = i + rows < lines.size();
        for (std::size_t at = 1; at <= rows && fine; ++at) {
            const auto words = words_of(lines[i + at].text);
            fine = !words.empty() && row_words(words) == 0 && !bare_number(words) &&
                   !lines[i + at].blank_before;
        }
        if (!fine) continue;
        for (std::size_t at = 1; at <= rows; ++at)
            put_words(lines[i + at], 0, 0, "Next " + base::lower(found[2].str()) + ": ");
        lines[i].told = true;
    }
}

/// "K 18, place last 9 sts just knit on holder": 9, and 9 that wait.
void part_held(Line& line, const std::string& low) {
    if (low.find("place last") == std::string::npos &&
        low.find("place the last") == std::string::npos)
        return;
    static const std::regex form(
        R"(\b(k|p|knit|purl) ?(\d{1,3})(?: sts)?, (?:place|slip|put) (?:the )?last (\d{1,3}) (?:sts|stitches)(?: just (?:knit|worked|purled|knitted))? on(?:to)? (?:a )?(?:st |stitch )?holder)",
        any_case);
    std::smatch found;
    const std::string text = line.text;
    if (!std::regex_search(text, found, form)) return;
    const auto worked = base::leading_number<std::int64_t>(found[2].str());
    const auto held = base::leading_number<std::int64_t>(found[3].str());
    if (held >= worked) return;
    const std::string stitch = found[1].str();
    put_words(line, static_cast<std::size_t>(found.position(0)),
              static_cast<std::size_t>(found.length(0)),
              stitch + ' ' + std::to_string(worked - held) + ", " + stitch + ' ' +
                  std::to_string(held) + ", place these " + std::to_string(held) +
                  " sts on a holder");
}

/// "K17, sm, m1, k2, m1, sm, k17" above "rep last 2 rows until 12 sts between markers": all that
/// stand between them.
void open_between_markers(std::vector<Line>& lines) {
    static const std::regex form(
        R"(((?:sm|slip (?:the )?marker)(?: \([^)]*\))?, m1[lr]?, )(?:k|knit) ?\d+(, m1[lr]?, (?:sm|slip (?:the )?marker)))",
        any_case);
    static const std::regex until(
        R"(rep(?:eat)? (?:the |these )?(?:last )?(?:2 |two )?(?:rows|rnds|rounds)\b[^.]* until [^.]*between (?:the )?(?:markers|m)\b)",
        any_case);
    for (std::size_t i = 0; i + 1 < lines.size(); ++i) {
        if (base::lower(lines[i].text).find("m1") == std::string::npos) continue;
        for (std::size_t at = i + 1; at < lines.size() && at < i + 4; ++at)
            if (lines[at].text.size() < 300 && std::regex_search(lines[at].text, until)) {
                put_everywhere(lines[i], form, "$1k to marker$2");
                break;
            }
    }
}

/// "Repeat row 3 for pattern." and, below it, "Continue knitting until you have 230 sts": one.
void join_continued(std::vector<Line>& lines) {
    static const std::regex again(
        R"(^(rep(?:eat)? (?:rows?|rnds?|rounds?) \d+(?: ?(?:-|and|&|to|through) ?\d+)?)(?: for (?:the )?patt(?:ern)?)?\.?$)",
        any_case);
    static const std::regex onward(
        R"(^continue (?:knitting|working|in (?:this )?(?:pattern|manner|way)|this pattern|like this|these rows|repeating)(?: in this (?:manner|way))? (until [^.]*?(?:measures? \d[^.,]*|\d+ (?:sts|stitches)))((?:, or | or )[^.]*)?(\.?)(?= |$))",
        any_case);
    for (std::size_t i = 0; i + 1 < lines.size(); ++i) {
        std::smatch rep;
        const std::string text = lines[i].text;
        if (text.size() > 80 || !std::regex_search(text, rep, again)) continue;
        for (std::size_t at = i + 1; at < lines.size() && at < i + 4; ++at) {
            if (labelled(lines[at])) break;
            std::smatch more;
            const std::string its = lines[at].text;
            if (its.size() > 400 || !std::regex_search(its, more, onward)) continue;
            std::string until = more[1].str();
            if (const auto about = until.find("about "); about != std::string::npos)
                until.erase(about, 6);
            put_words(lines[at], 0, static_cast<std::size_t>(more.length(0)),
                      rep[1].str() + ' ' + until + '.');
            lines[i].told = true;
            break;
        }
    }
}

/// "Continue in pattern and dec 1 st at each end of every 4th row until", "increasing at both ends
/// every 4th row", "until piece measures 10 in, at the same time inc 1 st each end every 6th row".
void settle_shaping(Line& line, const std::string& low) {
    static const std::vector<Spelling> spellings{
        {"beginning and end",
         std::regex(
             R"(\b((?:in|de)c(?:reas(?:e|ing))? (?:1|one) (?:st|stitch)) at (?:the )?beginning and (?:the )?end of (every|each) )",
             any_case),
         "$1 at each end of $2 "},
        {"creasing",
         std::regex(R"(\b((?:in|de)creasing) (?:at )?(both|each) (ends?|sides?) (?:of )?every )",
                    any_case),
         "$1 1 st at each end of every "},
        {"continue, ", std::regex(R"(^(continue), (?=(?:in|de)creasing (?:1|one) st))", any_case),
         "$1 in pattern, "},
        {" and ",
         std::regex(
             R"(^((?:cont|continue|work)(?: in)? (?:patt(?:ern)?|stockinette|st st|garter st|rib|even)) and (?=(?:in|de)c(?:rease)? (?:1|one) (?:st|stitch) (?:at )?(?:each|both)[^.]* every [^.]* until ))",
             any_case),
         "$1, "},
        {"every ",
         std::regex(
             R"(^((?:cont|continue|work)(?: in)? [a-z ]{3,30}) (until [^.;,]* measures? [^;,a-z]*(?:in|ins|inches|cm|")\.?),? (?:at the same time,? )?((?:in|de)c(?:reas(?:e|ing))? (?:1|one) (?:st|stitch) (?:at )?(?:each|both) (?:ends?|sides?) (?:of )?every [^.,;]* (?:row|rnd|round))\.?$)",
             any_case),
         "$1, $3 $2."},
    };
    spell_as_told(line, low, spellings);
}

/// "On these 32 sts, work in st st for 19 rows, then break off yarn and slip these sts onto a
/// holder.", "Rejoin wool to other 32 sts and work 19 rows st st.", "k32 from stitch holder".
void settle_divided(Line& line, const std::string& low) {
    static const std::vector<Spelling> spellings{
        {"holder",
         std::regex(
             R"((^|[.] )on these (\d+) (?:sts|stitches)(?: only)?,? ((?:work|knit|purl|cont)[^.]*?),? (?:then |and )?(?:break|cut) (?:off )?(?:the )?(?:yarn|wool),? (?:and )?(?:slip|place|leave|put) (?:these|the|all)(?: \d+)? (?:sts|stitches) on(?:to)? (?:a |the )?(?:stitch |st |spare )?holder\b)",
             any_case),
         "$1Working on these $2 sts only. $3. Place next $2 sts on a holder"},
        {"on these",
         std::regex(
             R"((^|[.] )on these (\d+) (?:sts|stitches)(?: only)?,? (?=(?:work|knit|purl|cont)))",
             any_case),
         "$1Working on these $2 sts only. "},
        {"rejoin",
         std::regex(
             R"((^|[.] )(?:with (?:the )?(?:wrong|right) side facing,? |with (?:rs|ws) facing,? )?rejoin (?:yarn|wool) to (?:the )?(?:other|remaining|rem) (\d+) (?:sts|stitches) and (work|knit|purl) (?=\d+ rows))",
             any_case),
         "$1Return to other $2 held sts. $3 "},
        {"from ",
         std::regex(R"(\b(?:knit|k) ?(\d+)(?: sts)? from (?:the )?(?:stitch |st )?holder\b)",
                    any_case),
         "knit across $1 held sts"},
    };
    spell_as_told(line, low, spellings);
}

/// "P 6, turn. (You will be working on these sts for the thumb.)": the others wait from here on.
void part_thumb_rows(std::vector<Line>& lines) {
    static const std::regex form(
        R"(\b(?:k|p|knit|purl) ?(\d+)(?: sts| stitches)?,? turn\. (\(you will (?:now )?be (?:only )?working (?:only )?on these (?:\d+ )?(?:sts|stitches)[^)]*\)|you will (?:now )?be (?:only )?working (?:only )?on these (?:\d+ )?(?:sts|stitches)[^).]*\.?))",
        any_case);
    std::vector<Line> out;
    for (Line& line : lines) {
        std::smatch found;
        const std::string text = line.text;
        if (text.size() < 400 && labelled(line) && std::regex_search(text, found, form)) {
            Line others = line;
            put_words(others, 0, others.text.size(),
                      "Working on these " + found[1].str() + " sts only.");
            out.push_back(std::move(others));
            put_words(line, static_cast<std::size_t>(found.position(2)),
                      static_cast<std::size_t>(found.length(2)), "");
            line.blank_before = false;
        }
        out.push_back(std::move(line));
    }
    lines = std::move(out);
}

/// "Begin seed stitch.", "Begin Basket-Weave Pattern (12 rows)", "Start pattern" above row 1.
void pass_leads(std::vector<Line>& lines) {
    static const std::regex form(
        R"(^(?:begin|start|now begin|now start|work)(?: the| in| with)?(?: [a-z]+(?:-[a-z]+)?){1,4}(?: \(\d+ rows?\)| \(\d+[- ]row repeat\))? ?(?:as follows)?[.:]?$)",
        any_case);
    for (std::size_t i = 0; i + 1 < lines.size(); ++i) {
        const std::string& text = lines[i].text;
        if (text.size() < 8 || text.size() > 70 || labelled(lines[i])) continue;
        const auto next = words_of(lines[i + 1].text);
        const bool first = next.size() > 2 && row_words(next) > 0 &&
                           (one_of(next[1], {"1", "one"}) || next[0] == "1st" || next[0] == "r1");
        const std::string low = base::lower(text);
        const bool fabric =
            low.find("pattern") != std::string::npos || low.find("stitch") != std::string::npos ||
            low.find("patt") != std::string::npos || low.find("section") != std::string::npos ||
            low.find("lace") != std::string::npos;
        // "Begin heart---" above row 13
        const bool named = low.starts_with("begin ") && next.size() > 2 && row_words(next) > 0 &&
                           text.size() < 24 && text.ends_with("--");
        // "Increase 1 st every 4 rows on RS:" above row 1
        const bool shaped = text.ends_with(':') &&
                            (low.starts_with("increase ") || low.starts_with("decrease ")) &&
                            low.find(" every ") != std::string::npos && first;
        lines[i].told = lines[i].told || named || shaped;
        if (first && fabric && low.find(" row") == low.find(" rows") &&
            std::regex_search(text, form))
            lines[i].told = true;
    }
}

}  // namespace

/// "(K1, kfb)* [36]", "k all stitches*.": the only star of a line, behind a bracket or at its end.
void settle_star(Line& line) {
    // "*P4 K4 * repeat"
    static const std::regex closed(
        R"(\*([^*]{2,60}?) ?\* ?(?:rep|repeat)(?: (?:across|around|(?:to|until) (?:the )?end(?: of (?:the )?(?:row|rnd|round))?))?(?=\.|$))",
        any_case);
    put_everywhere(line, closed, "*$1, rep from * across");
    if (std::count(line.text.begin(), line.text.end(), '*') != 1) return;
    const auto star = line.text.find('*');
    const auto behind = line.text.find_first_not_of(' ', star + 1);
    const bool ends = behind == std::string::npos || line.text[behind] == '.' ||
                      line.text[behind] == '[' || line.text.compare(behind, 1, "(") == 0;
    if (!ends || star < 3) return;
    const char before = line.text[star - 1];
    const bool bracket = (before == ')' || before == ']') && line.text.find_first_of("([") < star;
    if (bracket && labelled(line))
        put_words(line, star, 1, " around");
    else if (!bracket && letter(before) &&
             (behind == std::string::npos ||
              (line.text[behind] == '.' && behind + 1 == line.text.size())))
        put_words(line, star, 1, "");
}

void settle_told(Line& line) {
    const std::size_t longest = 4000;
    if (line.text.size() < 4 || line.text.size() > longest) return;
    drop_size_words(line, base::lower(line.text));
    if (line.text.find('(') != std::string::npos) drop_needle_sums(line);
    settle_stops_within(line, base::lower(line.text));
    settle_repeats(line, base::lower(line.text));
    settle_rows_told(line, base::lower(line.text));
    settle_pairs(line, base::lower(line.text));
    settle_divided(line, base::lower(line.text));
    settle_shaping(line, base::lower(line.text));
    part_held(line, base::lower(line.text));
    settle_spoken(line);
    if (line.text.find('*') != std::string::npos) settle_star(line);
}

void carry_lengths(std::vector<Line>& lines) {
    static const std::regex lead(
        R"(^(?:then |now )?(?:work|cont|continue|knit)(?: even)?(?: in)? [^:*]*?((?:until |till |for )[^:*]*?)?(\d[\d ./]*(?:\xc2[\xbc-\xbe])?(?: ?\([\d ./,-]+\))? ?(?:more |additional )?(?:"|ins?\.?|inch|inches|cms?|mm)(?= |,|:|\()(?: \(\d[^)]*\))?)(?: more)?([^:*\d]*?)(?: \([^)\d]*\))?(?: as follows| as foll| thus)?:$)",
        any_case);
    static const std::regex again(
        R"(^(rep(?:eat)? (?:rows? \d+(?: ?(?:-|and|&|to|through) ?\d+)*|this row|these (?:\d+ )?rows?|(?:the )?last (?:\d+ )?rows?))(?: for (?:the )?patt(?:ern)?| throughout)?\.?$)",
        any_case);
    name_rows_below(lines);
    open_between_markers(lines);
    join_continued(lines);
    pass_leads(lines);
    part_thumb_rows(lines);
    for (std::size_t i = 0; i + 1 < lines.size(); ++i) {
        const std::string& text = lines[i].text;
        if (text.size() > 200 || text.size() < 10 || text.back() != ':' || labelled(lines[i]))
            continue;
        std::smatch found;
        if (!std::regex_search(text, found, lead)) continue;
        if (!labelled(lines[i + 1]) && lines[i + 1].text.front() != '*') continue;
        for (std::size_t at = i + 1; at < lines.size() && at < i + 60; ++at) {
            Line& row = lines[at];
            std::smatch rep;
            const std::string its = row.text;
            if (std::regex_search(its, rep, again)) {
                const bool whole = found[1].length() > 4 && found[1].str()[0] == 'u';
                std::string length = found[2].str();
                for (const std::string_view more : {"more ", "additional "})
                    if (const auto word = length.find(more); word != std::string::npos)
                        length.erase(word, more.size());
                const std::string end =
                    whole ? ' ' + found[1].str() + length : " for " + length + " in all";
                put_words(row, static_cast<std::size_t>(rep.position(1) + rep.length(1)),
                          row.text.size() - static_cast<std::size_t>(rep.length(1)), end + '.');
                lines[i].told = true;
                break;
            }
            if (!labelled(row) && row.text.front() != '*' && row.text.front() != '(') break;
        }
    }
}

void part_at_names(std::vector<Line>& lines) {
    static const std::regex name(
        R"([a-z0-9.,)\]] (?=(?:Cuff|Leg|Heel|Heel [Ff]lap|Turn [Hh]eel|Heel [Tt]urn|Gusset|Foot|Toe|Instep|Thumb|Hand|Body|Sleeves?|Yoke|Neckband|Collar|Crown|Brim|Head|Arms?|Legs|Ears?|Back|Front|Border|Edging|Right Front|Left Front|Shape [A-Z]?[a-z]+|(?:[A-Z][A-Za-z-]+ )?(?:[Ss]haping|SHAPING)|SHOULDERS?|Shoulders?|NECKBAND|COLLAR):? ?:? ?(?::|$)))",
        std::regex::optimize);
    std::vector<Line> out;
    for (Line& line : lines) {
        const bool long_one = line.text.size() > 80 && line.text.size() < 20000;
        while (long_one) {
            std::smatch found;
            const std::string text = line.text;
            if (!std::regex_search(text, found, name)) break;
            const auto at = static_cast<std::size_t>(found.position(0) + found.length(0));
            const auto colon = text.find(':', at);
            if (colon == std::string::npos || colon + 4 > text.size()) break;
            Line first = line;
            first.text.resize(at - 1);
            first.from.resize(at - 1);
            out.push_back(std::move(first));
            line.text.erase(0, at);
            line.from.erase(line.from.begin(), line.from.begin() + static_cast<std::ptrdiff_t>(at));
            line.blank_before = true;
        }
        out.push_back(std::move(line));
    }
    lines = std::move(out);
}

}  // namespace skeinfall::notation
