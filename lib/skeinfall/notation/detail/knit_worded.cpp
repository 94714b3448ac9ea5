#include "skeinfall/notation/detail/knit_worded.hpp"

#include <algorithm>
#include <cctype>
#include <cstddef>
#include <cstdint>
#include <regex>
#include <string>
#include <utility>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/notation/detail/line_forms.hpp"
#include "skeinfall/notation/detail/line_kinds.hpp"

namespace skeinfall::notation {
namespace {

/// "2.5 ''", "(3.5-4)inches", "C.O.", "rounds 9 thru 12", "K1 round", "yarn.- Needles".
void settle_typed(Line& line, const std::string& low) {
    static const std::vector<Spelling> spellings{
        {"''", std::regex(R"((\d) ?'')", any_case), "$1\""},
        {")in", std::regex(R"((\d\))(?=(?:inch|inches|ins?)\b))", any_case), "$1 "},
        {"c.o.", std::regex(R"(\bc\.o\.(?= ))", any_case), "CO"},
        {"b.o.", std::regex(R"(\bb\.o\.(?= ))", any_case), "BO"},
        {" thru ", std::regex(R"((\d) thru (?=\d))", any_case), "$1-"},
        {". - ", std::regex(R"(\. - (?=[A-Z][a-z]))"), ". "},
        {"1 r", std::regex(R"((^|[.:,] )([kp])1 (?=(?:row|round|rnd)\b))", any_case), "$1$2 1 "},
        {"st stitch", std::regex(R"(\bst stitch\b)", any_case), "st st"},
        {"psso (", std::regex(R"(\bpsso \((?:pass|slip)[^)]{4,50}\))", any_case), "psso"},
        {"darn in",
         std::regex(R"(,? and darn in(?: (?:the )?ends?)?(?: securely| neatly| well)?(?=\.|$))",
                    any_case),
         ""},
        {" completed ",
         std::regex(R"( \(\d+ (?:rounds|rows|rnds) completed[^)]{0,30}\))", any_case), ""},
        {"cast on, ",
         std::regex(
             R"(^using (?:the |a )?[a-z -]{2,30}? cast[- ]on(?: method)?,? (?=(?:cast on|CO) \d))",
             any_case),
         ""},
        {"pattern. ", std::regex(R"(^pattern\. (?=(?:1st|first) row|row 1\b))", any_case),
         "Pattern: "},
        {"wise row", std::regex(R"(\b(knit|purl)wise row\b)", any_case), "$1 row"},
        {"- k", std::regex(R"(^(row (\d+) ?: ?)\2 ?- ?(?=k ))", any_case), "$1"},
        {" tog ", std::regex(R"(\b([kp] ?\d) next (?=tog\b))", any_case), "$1 "},
        {"bound off", std::regex(R"(^bound off (?=\d))", any_case), "Bind off "},
        {"leaving a",
         std::regex(
             R"(,? leaving (?:a|an) (?:long )?\d+[- ](?:inch|in\.?|cm)[- ](?:length|tail|end)(?: of (?:the )?(?:yarn|wool))?)",
             any_case),
         ", leaving a long tail"},
    };
    spell_as_told(line, low, spellings);
}

std::int64_t named_number(const std::string& word) {
    static const std::vector<std::string> names{
        "",         "one",     "two",     "three",     "four",     "five",    "six",
        "seven",    "eight",   "nine",    "ten",       "eleven",   "twelve",  "thirteen",
        "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"};
    static const std::vector<std::string> tens{"",      "",      "twenty",  "thirty", "forty",
                                               "fifty", "sixty", "seventy", "eighty", "ninety"};
    const auto find = [&](const std::vector<std::string>& of, const std::string& one) {
        const auto found = std::find(of.begin() + 1, of.end(), one);
        return one.empty() || found == of.end() ? std::int64_t{0} : found - of.begin();
    };
    if (const auto plain = find(names, word); plain > 0) return plain;
    const auto hyphen = word.find_first_of("- ");
    const auto ten = find(tens, word.substr(0, hyphen));
    if (ten == 0) return 0;
    const auto unit = hyphen == std::string::npos ? 0 : find(names, word.substr(hyphen + 1));
    return unit > 9 ? 0 : ten * 10 + unit;
}

/// "Cast on seventy-two stitches", "knit twenty-three rows", "repeat round one".
void figures_of_words(Line& line, const std::string& low) {
    static const std::regex counted(
        R"(\b((?:twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety)(?:[- ](?:one|two|three|four|five|six|seven|eight|nine))?|cast on (?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|(?:thir|four|fif|six|seven|eigh|nine)teen)) (?=(?:st|sts|stitches|rows|rounds|rnds|times|plain)\b))",
        any_case);
    static const std::regex named(
        R"(\b(rep(?:eat)? (?:row|round|rnd) (?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve))(?=\b))",
        any_case);
    if (low.size() > 4000) return;
    for (const std::regex* form : {&counted, &named})
        for (int turn = 0; turn < 20; ++turn) {
            std::smatch found;
            const std::string text = line.text;
            if (!std::regex_search(text, found, *form)) break;
            const std::string words = base::lower(found[1].str());
            const bool leads = words.starts_with("cast on ") || words.starts_with("rep");
            const std::size_t from = leads ? words.rfind(' ') + 1 : 0;
            const std::int64_t value = named_number(words.substr(from));
            if (value == 0) break;
            put_words(line, static_cast<std::size_t>(found.position(1)) + from, words.size() - from,
                      std::to_string(value));
        }
}

/// "Repeat these 3 rows for the pattern. Work even in pattern until ...": the rows until then.
void settle_again(Line& line, const std::string& low) {
    static const std::vector<Spelling> spellings{
        {"for ",
         std::regex(
             R"(\b(rep(?:eat)? (?:(?:the |these )?rows? \d+(?: ?(?:-|and|&|to|through) ?\d+)?|(?:these|the last|these last|last|the above) (?:\d+ )?rows?))(?: alternately)? for (?:the |our |your )?patt(?:ern)?(?: st(?:itch)?)?(?:, carrying [^.]{4,80})?[.;,] (?:then |and |now )*(?:(?:work|knit|continue|cont)(?: to work)?(?: even| straight| evenly)?(?: in (?:the |this )?(?:patt(?:ern)?|same manner)(?: as established)?)? until) )",
             any_case),
         "$1 until "},
        {" alternately,",
         std::regex(R"(\b(rep(?:eat)? (?:these|the last|last) \d+ rows) alternately(?=[,.]))",
                    any_case),
         "$1"},
        {"alternately",
         std::regex(R"((\([^()]*\)) alternately (?=across|around|to (?:the )?end|to within))",
                    any_case),
         "$1 "},
        {"alternately across",
         std::regex(R"(\b([kp] ?\d, ?[kp] ?\d) alternately across\b)", any_case), "($1) across"},
        {" alternately", std::regex(R"((\([^()]*\)) alternately(?=\.))", any_case), "$1 across"},
        {"sequence",
         std::regex(
             R"(\brep(?:eat)? (?:the )?(?:\* )?sequence (?:\* )?(?:until|to|till) (?:the )?end(?: of (?:the )?(?:row|round|rnd))?)",
             any_case),
         "rep from * to end"},
        {"th",
         std::regex(
             R"(\b(rep(?:eat)?) (?:the )?(\d+)(?:st|nd|rd|th) (?:&|and) (\d+)(?:st|nd|rd|th)(?: (?:rows|rnds|rounds))?(?= (?:until|for|\d|once|twice|\w+ times)))",
             any_case),
         "$1 rows $2 and $3"},
        {"round ",
         std::regex(R"(\b(rep(?:eat)? (?:row|round|rnd) \d+) [a-z]+ (?:row|round|rnd)(?=\.|$))",
                    any_case),
         "$1"},
        {"border",
         std::regex(
             R"(\brep(?:eat)? these \d+ rows for (?:the )?patt(?:ern)?, decreasing (1|one) st(?:itch)? inside (?:the )?front (?:border|band|edge) on (?:the )?next row and every other row thereafter until)",
             any_case),
         "Decrease 1 st at front edge every other row until"},
        {"border",
         std::regex(
             R"((^|[.] )(?:now )?dec(?:rease)? (1|one) st(?:itch)? inside (?:the )?front (?:border|band|edge) (?:each|every) row until)",
             any_case),
         "$1Decrease 1 st at front edge every row until"},
        {"making ",
         std::regex(
             R"((^|[.] )(continue|cont|work) in patt(?:ern)?, making (?:the )?(?:front |neck |side |armhole )?(de|in)creases as before until)",
             any_case),
         "$1$2 in pattern, $3creasing as before until"},
        {"m1, k",
         std::regex(
             R"(((?:^|[:.] )(?:row|rnd|round)? ?\d* ?:? ?)(k ?\d, ?m1[lr]?, ?(?:k|knit) to )last (?:st|stitch),? ?(m1[lr]?, ?k ?\d)[;.,] ?\2last (?:st|stitch),? ?\3(?=\.|$| \())",
             any_case),
         "$1*$2last st on needle, $3; rep from * on second needle"},
        {" to match",
         std::regex(
             R"(\b((?:knit|work|purl) (?:\w+ )?(?:more )?rows) to match (?:the )?(?:beginning|start|other end|first end|cast[- ]on)(?: end| edge)?(?: \((?:knit|purl) (?:each|every) row\))?)",
             any_case),
         "$1"},
        {" more rows",
         std::regex(
             R"(\b(?:then )?(knit|purl) (?:(two|three|four|five|six|seven|eight|nine|ten) )more rows\b)",
             any_case),
         "$1 $2 rows"},
        {"and join ",
         std::regex(
             R"(\b((?:bind|cast) off|BO),? and join (?:the )?(?:two |2 )?(?:pieces|ends|sides|edges)\b[^.]*)",
             any_case),
         "$1"},
        {" length,",
         std::regex(
             R"(\b((?:desired?|required|wanted|correct|right) length), (?:then |and )*(?=(?:bind|cast) off|BO\b))",
             any_case),
         "$1. "},
        {"entire pattern",
         std::regex(R"(\bthroughout (?:the )?(?:entire|whole) pattern\b)", any_case), "to end"},
        {"times", std::regex(R"(\*(k\d+, k2tog); rep from \* to end,? (\d+) times)", any_case),
         "($1) $2 times"},
    };
    spell_as_told(line, low, spellings);
}

/// "Next 5 rounds, K2, ...", "P 1 row, then work as follows: K 15", "work in round k2 p2 ribbing",
/// "Now work as follows: PATTERN: ROW 1", "K straight up for about 32 rounds".
void settle_leads_within(Line& line, const std::string& low) {
    static const std::vector<Spelling> spellings{
        {"next ", std::regex(R"((^|[.:] )(next \d+ (?:rows|rounds|rnds)), (?=[kp*(\[]))", any_case),
         "$1$2: "},
        {"as follows:",
         std::regex(
             R"(\b((?:k|p|knit|purl|work) ?(?:\d+|one|two) (?:rows?|rounds?|rnds?)[^.:;]{0,40}), then (?:start|begin|work|shape|decrease|increase)[^.:;]{0,30} as follows: (?=[kp*(\[][^:]*\b(?:row 2|2nd row)\b))",
             any_case),
         "$1. Row 1: "},
        {"as follows:",
         std::regex(
             R"(\b((?:k|p|knit|purl|work) ?(?:\d+|one|two) (?:rows?|rounds?|rnds?)[^.:;]{0,40}), then (?:start|begin|work|shape|decrease|increase)[^.:;]{0,30} as follows: (?=[kp*(\[]))",
             any_case),
         "$1. Next row: "},
        {"pattern: ",
         std::regex(
             R"((cast on .{0,600}?[.:] )(?:pattern|patt): (?=(?:row|rnd|round) (?:1|one)\b|(?:1st|first) (?:row|rnd|round)\b))",
             any_case),
         "$1"},
        {"pattern with ",
         std::regex(
             R"(((?:row|round|rnd) \d+ ?[:.] ?)(?:start|begin)(?: the)? [a-z ]{0,30}patt(?:ern)? with (?=[kp*(\[]))",
             any_case),
         "$1"},
        {" in ",
         std::regex(R"(\bwork(?:ing)? in (?:the )?(?:round|rnd|rounds|rnds) (?:in )?(?=[kp] ?\d))",
                    any_case),
         "work in "},
        {"join, ", std::regex(R"(^join, (?=(?:and )?work\b))", any_case), "Join. "},
        {"straight up",
         std::regex(
             R"(\b(k|knit|work) straight up(?: for)?(?: about)? (?=\d+ (?:rows|rounds|rnds)))",
             any_case),
         "$1 "},
        {" - ",
         std::regex(
             R"(^(hand|body|thumb|foot|leg|cuff|top|crown|palm|heel|toe|gusset|brim|ribbing) +- +(?=(?:k|p|knit|purl|work|slip|place|with|next|using|continue)\b))",
             any_case),
         "$1: "},
        {"cable r",
         std::regex(R"(^((?:row|round|rnd) \d+ ?: *)cable (?:row|round|rnd)[.:]? +(?=[kp*(\[]))",
                    any_case),
         "$1"},
        {" row ",
         std::regex(
             R"(^(?:first|second|third|fourth|last|1st|2nd|3rd|4th) (dec|inc)(?:rease)?\.? row ?(?:--|-|:|\xe2\x80\x94) ?)",
             any_case),
         "$1 row: "},
        {"plain rows",
         std::regex(R"(\b(knit|purl|work|k) (\w+) plain (rows|rounds|rnds)\b)", any_case),
         "$1 $2 $3"},
        {"forward, ",
         std::regex(
             R"(\bbring (?:the )?(?:thread|wool|cotton|yarn) forward, (knit|k) (?:two|2) together\.? ?-? ?repeat(?=\.|$))",
             any_case),
         "*yo, k2tog; rep from * to end"},
        {"one long",
         std::regex(
             R"(^(?:along|on) (?:one |the )?(?:long |short |top |bottom |lower |upper )?(?:side|edge),? (?=pick up \w+ \w+ \d))",
             any_case),
         ""},
        {"starting on ",
         std::regex(
             R"((^|[.] )start(?:ing)? (?:on|with) (?:the )?(?:right|wrong) side,? (?:decrease|shape) ([^.:;]{0,30} as follows:))",
             any_case),
         "$1Shape $2"},
        {"turn", std::regex(R"((\[[^\]]*\] (?:twice|\d+ times))\. (k ?\d+,? turn\.))", any_case),
         "$1, $2"},
        {"way ",
         std::regex(
             R"(\b(k2tog|p2tog|k2 tog)(?: in succession)? (?:all )?(?:the way |the way a)(?:round|around|across)\b)",
             any_case),
         "$1 around"},
        {"rows  k", std::regex(R"(\b(knit \d+ rows) +k and (\d+) (rows?) purl\b)", any_case),
         "$1. Purl $2 $3"},
    };
    spell_as_told(line, low, spellings);
}

/// "Bind off 4 sts, at the beginning of the next 2 rows (once at each side)", "at each side of the
/// work every other row", "Bind off the remaining sts for back of neck".
void settle_edges_told(Line& line, const std::string& low) {
    static const std::vector<Spelling> spellings{
        {", at ",
         std::regex(R"(\b((?:bind|cast) off \d+ (?:sts|stitches)), (?=at (?:the )?beg))", any_case),
         "$1 "},
        {" edge",
         std::regex(
             R"(,? end(?:ing)? (?:last row )?at (?:the )?(?:underarm|side|front|neck|armhole|sleeve) edge(?=[.,;]|$))",
             any_case),
         ""},
        {" edge (",
         std::regex(
             R"((^|[.] )(cast on \d+ (?:sts|stitches)) at (?:the )?(?:underarm|side|sleeve) edge(?: \([a-z ]+\))?(?=\.))",
             any_case),
         "$1$2 at beg of next row"},
        {" and work even",
         std::regex(R"(\b(beginning of (?:each|every) row),? and work even (?=until|for))",
                    any_case),
         "$1. Work even "},
        {"needles and",
         std::regex(
             R"(\b(inches|in|cm), (change to [\w#. ]{1,20} needles) and (?:k|knit|work) (\d+) rows(?: for (?:the )?(?:yoke|border|band|hem))?)",
             any_case),
         "$1. Change to other needles. Knit $3 rows"},
        {"work ribbing for", std::regex(R"(\bwork ribbing (?=for \d))", any_case),
         "work in ribbing "},
        {"make ",
         std::regex(R"(\bmake (?:the )?other ([a-z]+) to (?:correspond|match)\b)", any_case),
         "Make second $1 to match"},
        {"once ", std::regex(R"(,? ?\(once (?:at|on) each (?:side|edge|end)\))", any_case), ""},
        {" of the work",
         std::regex(
             R"(\b((?:each|both) (?:sides?|edges?|ends?)) of (?:the )?work(?= every| on| at| in|,|\.))",
             any_case),
         "$1"},
        {"remaining ",
         std::regex(
             R"(\b((?:bind|cast) off (?:all |the )*(?:remaining|rem) (?:sts|stitches)) for (?:the )?(?:back of (?:the )?)?(?:neck|shoulders?)(?: edge)?(?=\.|$))",
             any_case),
         "$1"},
        {" the ",
         std::regex(R"(\b(ending|end) (?:with|on) the (right|wrong) side(?: facing)?(?=[.,;]|$))",
                    any_case),
         "$1 with a $2 side row"},
        {", once",
         std::regex(
             R"(\b(?:at|on) (?:the )?(?:underarm|armhole|side) edge,? (bind|cast) off (\d+) (sts|stitches),? once(?=[.;]|$))",
             any_case),
         "Bind off $2 $3 for armhole"},
        {"underarm edge every",
         std::regex(
             R"(\b((?:de|in)crease \d+) (?:st|stitch|sts|stitches) (?:at|on) (?:the )?underarm edge every\b)",
             any_case),
         "$1 st at armhole edge every"},
        {"1 row decreas", std::regex(R"(\b([kp] 1 row) (?=(?:de|in)creasing \d))", any_case),
         "$1, "},
    };
    spell_as_told(line, low, spellings);
}

/// "Carry on in pattern until", "alternate rows 1 and 2 until", "a further 10 rows", "continue
/// decreasing 1 st each side every other row until": what goes on, in the usual words.
void settle_going_on(Line& line, const std::string& low) {
    static const std::vector<Spelling> spellings{
        {" in patt",
         std::regex(
             R"((^|[.] )(?:keep|carry on|proceed|keep going)(?: working| knitting)? in (patt(?:ern)?)(?: as (?:set|established))? (?=until|till|for))",
             any_case),
         "$1Continue in $2 "},
        {"keep going ",
         std::regex(R"((^|[.] )keep (?:going|on|knitting) (?=until|till))", any_case),
         "$1Continue "},
        {"work plain ", std::regex(R"((^|[.] )work plain (?=for|until))", any_case),
         "$1Work even "},
        {" further ",
         std::regex(
             R"((^|[.] )(work|knit|continue for) (?:a further|another) (\d+) (rows|rounds|rnds))",
             any_case),
         "$1$2 $3 more $4"},
        {"row",
         std::regex(
             R"((^|[.] )(?:keep repeating|continue (?:with|repeating)|alternate|keep alternating|continue alternating|continue to (?:repeat|alternate)) ((?:rows|rounds|rnds) \d+ ?(?:-|and|&|to) ?\d+),? (?:throughout )?(?=until|till|for))",
             any_case),
         "$1Repeat $2 "},
        {"alternate these ",
         std::regex(
             R"((^|[.] )alternate (?:these|the last|the) (\d+|two) (rows|rounds|rnds) (?=until|till|for|\d))",
             any_case),
         "$1Repeat last $2 $3 "},
        {" throughout ",
         std::regex(
             R"(\b(rep(?:eat)? (?:rows|rounds|rnds) \d+ ?(?:-|and|&|to) ?\d+) throughout (?=until|till|for))",
             any_case),
         "$1 "},
        {" form",
         std::regex(
             R"(\b((?:rows|rounds|rnds) \d+ ?(?:-|and|&|to) ?\d+) (?:form|make|set)(?: up)? (?:the |one )?patt(?:ern)?[.;,] ?(?:then |and )?(?:repeat|rep|work) (?:them|these(?: rows| rounds)?) (?=until|till|for))",
             any_case),
         "Repeat $1 "},
        {"continue ",
         std::regex(
             R"((^|[.] )continue (?:to (dec|inc)(?:rease)?|(dec|inc)reasing) (\d+|one|two) sts? (?:at |on )?(each|both) (sides?|ends?|edges?)(?: of)? (?=every ))",
             any_case),
         "$1$2$3rease $4 st at $5 $6 of "},
        {"a total of ",
         std::regex(
             R"((^|[.] )(knit|purl|work|make)(?: for)? a total of (\d+) (?=rows|rounds|rnds))",
             any_case),
         "$1$2 $3 "},
        {" rows from ",
         std::regex(
             R"((^|[.] )(k|knit|work)(?: even)? until (\d+) rows from (?:the )?(?:beginning|beg|start|cast[- ]on)(?: edge)?(?=[.,;]|$))",
             any_case),
         "$1Work even until $3 rows have been worked in all"},
        {"keep",
         std::regex(
             R"((^|[.] )keep(?:ing)? (?:the )?(?:first|1st|last) \d+ (?:sts|stitches) in garter (?:st|stitch)(?: for (?:the )?[a-z ]{0,20}band)?[,;] (?:and )?(?:work |with )?(?:the )?(?:remaining|rem|other) (?:sts|stitches) in (stockinette|st st|stocking st)(?:itch)?(?: st(?:itch)?)?(?= until| for))",
             any_case),
         "$1Work in $2"},
        {"complete ",
         std::regex(
             R"((^|[.] )complete (?=(?:the )?(?:last|previous) (?:row|round|rnd)s? \d+ times))",
             any_case),
         "$1Repeat "},
        {" row",
         std::regex(
             R"(\b(?:k|knit) (?:1|one) row,? (?:and )?(?:p|purl) (?:1|one) row,? (?=for|until|till))",
             any_case),
         "work in stockinette st "},
        {"follow r",
         std::regex(
             R"((^|[.] )follow (?=(?:rows|rounds|rnds) \d+ ?(?:-|to) ?\d+ of (?:the )?patt))",
             any_case),
         "$1Work "},
        {"this and ",
         std::regex(
             R"(\b((?:inc|dec)(?:rease)? (?:1|one) st(?:itch)? (?:at )?(?:each|both) (?:ends?|sides?) of) this and (?=(?:every )?foll))",
             any_case),
         "$1 next and "},
        {"each end of every ",
         std::regex(
             R"((^|[.] )(inc|dec)(?:rease)? at (each|both) (ends?|sides?) of (?=every |next ))",
             any_case),
         "$1$2 1 st at $3 $4 of "},
        {"same time",
         std::regex(
             R"((^|[.] )(?:work|continue|cont)[^.;]{0,40}? until ([^.;]{0,40}? measures? [^.;,]{1,30}?),? (?:and )?at the same time,? ((?:dec|inc)(?:rease)? (?:1|one) st[^.;]{0,40}? every [^.;]{1,20}? \d+ times))",
             any_case),
         "$1$3. Work even until $2"},
    };
    spell_as_told(line, low, spellings);
}

/// "(8 sts added - 59 sts total)", "(8 stitches should be added, 67 Total)": the second is the
/// row's count.
void settle_counts_told(Line& line, const std::string& low) {
    static const std::vector<Spelling> spellings{
        {" ",
         std::regex(
             R"(\((\d+) (?:sts|stitches) (?:(?:should|will) be |are |have been )?(?:added|increased|inc'd|decreased|dec'd|removed)(?: ?[-,;] ?| and )(\d+)(?: (?:sts|stitches))?(?: in)? ?(?:total|all|remain|remaining|left|now)?\))",
             any_case),
         "($2 sts)"},
    };
    if (low.find("added") != std::string::npos || low.find("creased") != std::string::npos ||
        low.find("c'd") != std::string::npos || low.find("removed") != std::string::npos)
        spell_as_told(line, low, spellings);
}

/// "inc 1 st in next st, k 4, inc ..." and "having 2 more sts between increases every other row
/// until there are 8 sts between": how often.
void count_between(Line& line, const std::string& low) {
    if (low.find("between inc") == std::string::npos) return;
    static const std::regex until(
        R"(\bcontinue increasing in (?:the above|this|the same) manner,? (?:having|with) 2 more (?:sts|stitches) between (?:the )?increases every (?:other|second|2nd|alternate) row,? until there are (\d+) (?:sts|stitches) between (?:the )?increase[ds]?(?: sts| stitches)?(?=\.))",
        any_case);
    static const std::regex last(
        R"(\binc(?:rease)? (?:1|one) (?:st|stitch) in (?:the )?next (?:st|stitch), k(?:nit)? ?(\d+), inc)",
        any_case);
    std::smatch found;
    const std::string text = line.text;
    if (text.size() > 4000 || !std::regex_search(text, found, until)) return;
    const std::string before = found.prefix().str();
    std::int64_t between = 0;
    for (std::sregex_iterator at(before.begin(), before.end(), last), end; at != end; ++at)
        between = base::leading_number<std::int64_t>((*at)[1].str());
    const std::int64_t more = base::leading_number<std::int64_t>(found[1].str()) - between;
    if (between == 0 || more <= 0 || more % 2 != 0 || more > 200) return;
    put_words(line, static_cast<std::size_t>(found.position(0)),
              static_cast<std::size_t>(found.length(0)),
              "Continue increasing in this manner every other row " + std::to_string(more / 2) +
                  " more times");
}

/// Words that go on with a sentence and begin none.
bool goes_on_with(const std::vector<std::string>& words) {
    if (words.empty()) return false;
    const auto any = [](const std::string& word, std::initializer_list<std::string_view> of) {
        return std::find(of.begin(), of.end(), word) != of.end();
    };
    if (any(words[0], {"times", "sts", "stitches", "tog", "together", "inches", "cm"}))
        return words.size() < 12;
    if (words[0] == "even") return words.size() == 1 || any(words[1], {".", ",", "until", "for"});
    return words.size() > 1 && words[0] == "more" &&
           any(words[1], {"times", "time", "rows", "rounds", "sts", "stitches"});
}

}  // namespace

void settle_worded(Line& line) {
    const std::size_t longest = 4000;  // no sentence is so long
    if (line.text.size() < 4 || line.text.size() > longest) return;
    settle_typed(line, base::lower(line.text));
    figures_of_words(line, base::lower(line.text));
    settle_again(line, base::lower(line.text));
    settle_leads_within(line, base::lower(line.text));
    settle_edges_told(line, base::lower(line.text));
    settle_taken_up(line);
    settle_going_on(line, base::lower(line.text));
    settle_counts_told(line, base::lower(line.text));
    count_between(line, base::lower(line.text));
}

void join_cut_words(std::vector<Line>& lines) {
    std::vector<Line> out;
    for (Line& line : lines) {
        const bool follows = !out.empty() && !line.blank_before && !line.numbered &&
                             out.back().text.size() < 4000 && line.text.size() < 400;
        if (!follows) {
            out.push_back(std::move(line));
            continue;
        }
        const std::string& above = out.back().text;
        const char first = line.text.front();
        const bool small = std::islower(static_cast<unsigned char>(first)) != 0;
        const bool open = above.back() != '.' && above.back() != ':' && above.back() != '!';
        bool cut = small && open && goes_on_with(words_of(line.text));
        const std::string low = base::lower(above);
        // "K to end. Round" and "6: k2", "rounds 1-" or "round" and "43:"
        for (const std::string_view label : {"row", "rows", "round", "rounds", "rnd", "rnds"}) {
            const bool bare = low == label;
            const bool behind = low.size() > label.size() + 2 && low.ends_with(label) &&
                                (low.compare(low.size() - label.size() - 2, 2, ". ") == 0 ||
                                 low.compare(low.size() - label.size() - 2, 2, ") ") == 0);
            if ((bare || behind) && digit(first) && line.text.find_first_of(":-") < 9) cut = true;
        }
        // "rounds 9-12:" and "using CC1, k all sts"
        const auto words = words_of(line.text);
        if (only_label(out.back()) && words.size() > 3 &&
            (words[0] == "using" || words[0] == "with") &&
            line.text.find(", ") != std::string::npos && row_words(words) == 0)
            cut = true;
        // "K 32 rounds (50 rounds" and "completed above cuff)", "as follows: Row 1:" and "K"
        const auto close = line.text.find(')');
        if (small && close < 40 && line.text.find('(') > close &&
            std::count(low.begin(), low.end(), '(') > std::count(low.begin(), low.end(), ')'))
            cut = true;
        static const std::regex label_ends(R"([a-z.:] (?:row|round|rnd) \d{1,3}:$)",
                                           std::regex::optimize);
        const bool labelled =
            !words.empty() && (words[0].starts_with("r") ? row_words(words) > 0 : digit(first));
        if (low.size() > 20 && !labelled &&
            std::regex_search(low.substr(low.size() - 14), label_ends))
            cut = true;
        // "work 10 sts from" and "left holder - 44 sts"
        if (low.ends_with(" from") && small && base::lower(line.text).find("holder") < 14)
            cut = true;
        // "rounds 1 thru" and "8: using", "using" and "MC, k all sts"
        if (low.ends_with(" thru") && digit(first)) cut = true;
        if ((low.ends_with(": using") || low.ends_with(": with")) && letter(first)) cut = true;
        if (cut) {
            append(out.back(), line);
        } else {
            out.push_back(std::move(line));
        }
    }
    lines = std::move(out);
}

}  // namespace skeinfall::notation
